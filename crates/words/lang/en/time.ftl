### Dates, times, ages and lists.
### $day, $month, $year, $weekday, $clock: parts of a date or time, ready to show
### $n: how many; $date: a date already said; $first, $last, $start: pieces of a list

weekday-1 = Mon
weekday-2 = Tue
weekday-3 = Wed
weekday-4 = Thu
weekday-5 = Fri
weekday-6 = Sat
weekday-7 = Sun

month-1 = Jan
month-2 = Feb
month-3 = Mar
month-4 = Apr
month-5 = May
month-6 = Jun
month-7 = Jul
month-8 = Aug
month-9 = Sep
month-10 = Oct
month-11 = Nov
month-12 = Dec

date = { $day } { $month } { $year }
date-with-weekday = { $weekday } { $day } { $month } { $year }
moment-today = today { $clock }
moment-yesterday = yesterday { $clock }
moment-tomorrow = tomorrow { $clock }
moment-near = { $weekday } { $clock }
moment-far = { $date } { $clock }

age-now = just now
age-minutes = { $n } min ago
age-hours = { $n } h ago
age-days = { $n ->
    [one] { $n } day ago
   *[other] { $n } days ago
 }
age-ahead = ahead of this clock

span-minutes = about { $n } min
span-hours = about { $n } h
days = { $n ->
    [one] { $n } day
   *[other] { $n } days
 }

list-two = { $first } and { $last }
list-more = { $start }, { $last }
list-or = { $first } or { $last }
