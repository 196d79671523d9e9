### The arm, its rams and pins. What can be said of it today: its parts' names.

arm-boom = boom
arm-dipper = dipper
arm-bucket = bucket
arm-ram = ram
arm-pin = pin
