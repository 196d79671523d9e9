### Words of the papers for the wall, the cab and the file.
### $machine, $name, $state: names and pieces said before; $n, $of: counts, or a page's number and the last page's
### $at, $date, $oil, $hours: already said; $value: ready to show

paper-invented = invented demo yard
paper-page = page { $n } of { $of }
paper-printed = printed { $at }
paper-book = book of { $date }
paper-book-draft = book not adopted yet
paper-ruler = 100 mm when printed at full size
paper-qr = the same on a phone
paper-qr-machine = this machine on a phone
paper-qr-alt = Square code for { $value }
paper-stop = To stop the engine:
paper-stop-unknown = Nobody knows how. Find out first.
paper-points = { $n ->
    [one] one point
   *[other] { $n } points
 }
paper-fittings = { $n ->
    [one] one fitting
   *[other] { $n } fittings
 }
paper-times = ({ $n } of them)
paper-left = L
paper-right = R
paper-left-side = left side
paper-right-side = right side
paper-side-alt = The machine, { $name }, with its numbered points

paper-round-title = { $machine } · walk-round
paper-who = Who
paper-when = Date and time
paper-hours = Hour meter
paper-column-number = no.
paper-column-what = what
paper-column-how = how
paper-column-limit = limit
paper-column-found = found
paper-column-fitting = fitting
paper-column-how-much = how much
paper-column-done = done
paper-mark = at or over the mark
paper-mark-upper = between the marks
paper-grease-shows = until fresh grease shows
paper-grease-strokes = { $n ->
    [one] one stroke, no more
   *[other] { $n } strokes, no more
 }
paper-grease-strokes-each = { $n ->
    [one] one stroke each, no more
   *[other] { $n } strokes each, no more
 }
paper-grease-strokes-grams = { $n ->
    [one] one stroke, no more ({ $value } g)
   *[other] { $n } strokes, no more ({ $value } g)
 }
paper-grease-remote = look at the joint
paper-is-stand-down = { $state } = stand down
paper-from-stand-down = from { $state } on: stand down

paper-found-at-mark = at mark
paper-found-below = below
paper-found-too-full = too full
paper-found-milky = milky
paper-found-oil = oil { $oil }
paper-found-seen = seen
paper-found-seen-at-joint = seen there
paper-found-took = took
paper-found-refused = refused
paper-found-of-seen = of { $of } seen
paper-found-tight = tight
paper-found-all-tight = all tight
paper-found-loose = loose
paper-found-missing = missing
paper-found-sound = sound
paper-found-rubbed = rubbed
paper-found-worn-or-bulged = wire or bulge
paper-found-bent = bent
paper-found-cracked = crack
paper-found-dry = dry
paper-found-leak-one = I
paper-found-leak-two = II
paper-found-leak-three = III
paper-found-works = works
paper-found-weak = weak
paper-found-fails = fails
paper-found-in-order = in order
paper-found-worn = worn
paper-found-damaged = damaged
paper-found-turned = turned
paper-found-did-not = did not
paper-found-again = again
paper-found-fitting = fitting found at

paper-finds = Joints with no fitting known: find it
paper-note = Not well, or anything to tell: number and what
paper-legend-not-checked = Could not check: write – and why.
paper-legend-leaks = Leaks: I wet, II drops form, III drops fall.
paper-not-proof = Paper grants nothing: the steward, the deputy or the yard's computer gives the verdict.
paper-bring-back = Bring the sheet back. Photograph it or keep it.

paper-chart-title = { $machine } · greasing
paper-chart-how = Wipe the fitting. Pump until fresh grease begins to show, then stop. Tick each fitting.
paper-chart-adjuster = The fitting of a track adjuster is not greased: it tightens the track.
paper-of-count = of { $of } fittings
paper-refused-runs = A fitting that refuses grease: tell the steward. It may run { $value } more, then it stands down.
paper-refused-runs-own = refused: { $value } more, then stand down
paper-refused-ask = A fitting that refuses grease: tell the steward before it runs.

paper-tag-title = { $machine } · stand down
paper-tag-stand-down = Stand down
paper-tag-mark-alt = A wheel chocked on both sides
paper-tag-do-not = Do not start. Do not move.
paper-tag-found-by = Found by { $name }
paper-tag-when = { $date }, { $at }
paper-tag-keep = Only the steward or the deputy takes this off.
paper-tag-mended = What was mended
paper-tag-released-by = Released by, date
paper-tag-cut = Cut out at the marks. Wire it to the key.

paper-strip-title = { $machine } · next due
paper-strip-hours = { $hours } h
paper-strip-as-of = as of { $at }, in hours of the meter
paper-strip-now = now
paper-strip-greasing = { $n ->
    [one] greasing, one fitting
   *[other] greasing, { $n } fittings
 }
paper-strip-more = { $n ->
    [one] and one more
   *[other] and { $n } more
 }
paper-strip-cut = Cut out and put it beside the hour meter.

sheet-title = Walk-round
sheet-who = Who
sheet-when = Date and time

drawing-plan = Seen from above
drawing-left = Left side
drawing-right = Right side
drawing-danger-zone = danger zone: nobody in here
drawing-station = Station { $n }: { $name }
