### The machine book: what is wrong with a line of it, what it does not say yet, its fields.

