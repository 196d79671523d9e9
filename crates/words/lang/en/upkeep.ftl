### What is due, what wears, how many hours it has run.
### $point: a name; $hours, $more: hours ready to show; $date: a date already said; $n, $of: counts
### $value: hours already said

hours-run = { $value } run
due-at-hours = { $point }: at { $hours } h
due-on = { $point }: on { $date }
due-at-hours-or-on = { $point }: at { $hours } h or on { $date }, whichever comes first
due-hours-meter = { $hours } (meter { $value })
repeat = { $point }: failed { $n } times. Each repair held: { $hours }.
due-now = { $point }: due now
due-unknown = { $point }: not known when, because the hours are not known
due-left = { $hours } h left
due-over = { $hours } h over
due-none = Nothing is coming up.
fittings-done = { $n } of { $of } fittings
gun-strokes = { $n ->
    [one] one stroke
   *[other] { $n } strokes
 }
