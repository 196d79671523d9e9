### Words of the papers for the wall, the cab and the file.
### $machine, $name, $state: names and pieces said before; $n, $of: counts, or a page's number and the last page's
### $at, $date, $oil, $hours: already said; $how: from the book; $value: ready to show

paper-invented = invented demo yard
paper-page = page { $n } of { $of }
paper-printed = printed { $at }
paper-book = book of { $date }
paper-book-draft = book not adopted yet
paper-ruler = 100 mm when printed at full size
paper-qr = the same on a phone
paper-qr-finding = this finding on a phone
paper-qr-machine = this machine on a phone
paper-qr-alt = Square code for { $value }
paper-stop = To stop the engine:
paper-stop-in-leg = To stop the engine: { $how }.
paper-stop-no-engine = It has no engine.
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
paper-oil-heat = oil { $oil }
paper-key-bold = Bold: stand down; the engine stays off.
paper-key-bold-no-engine = Bold: stand down; the machine is not used.
paper-key-as-above = As above: the machine stood and the oil was as said above and beside, the fluid clean. If not, write how it was.

### `.also`: what may be typed as well when a sheet is taken in, between semicolons
paper-found-at-mark = at mark
    .also = at the mark; on the mark; at or over the mark; full
paper-found-as-above = as above
paper-found-at-mark-as-above = at mark, as above
paper-found-below = below
    .also = below mark; below the mark; low
paper-found-nothing = nothing
    .also = none; empty; nothing on the stick
paper-found-too-full = too full
    .also = over; over the mark; overfull
paper-found-milky = milky
    .also = milk; water; water in it
paper-found-wrong = wrong
    .also = wrong fluid; the wrong fluid
paper-found-clean = clean
    .also = clear
paper-found-dark = dark
    .also = black
paper-found-cold = cold
    .also = oil cold
paper-found-warm = warm
    .also = oil warm
paper-found-hot = hot
    .also = oil hot
paper-found-seen = seen
    .also = grease seen; fresh grease seen
paper-found-seen-at-joint = seen there
    .also = seen at the joint
paper-found-all-seen = all seen
paper-found-took = took
    .also = taken; took grease
paper-found-refused = refused
    .also = refuses; refused grease
paper-found-there = there
    .also = present; ok; well; fine; in order; tight; there and tight
paper-found-all-there = all there
    .also = all tight; all present; all well
paper-found-tight = tight
    .also = ok; well; fine; in order
paper-found-all-tight = all tight
    .also = all well; all ok
paper-found-stripe-turned = stripe turned
    .also = stripes turned; stripe; stripes; turned
paper-found-loose = loose
    .also = slack
paper-found-missing = missing
    .also = gone; lost
paper-found-missing-or-broken = missing
    .also = broken; gone; lost; missing or broken
paper-found-sound = sound
    .also = ok; well; fine; in order
paper-found-rubbed = rubbed
    .also = rub; rubs; chafed
paper-found-wire = wire
    .also = wires; wire shows; worn through; worn to the wire; worn through to the wire
paper-found-bulged = bulged
    .also = bulge; bulges
paper-found-bent = bent
    .also = bend; bends
paper-found-cracked = cracked
    .also = crack; cracks
paper-found-rust-in-crack = rust in crack
    .also = rust; rusty crack; rust in cracks; rust in the crack
paper-found-dry = dry
    .also = none; no leak; ok; well; fine
paper-found-leak-one = I
    .also = 1; class I; wet
paper-found-leak-two = II
    .also = 2; class II; drops form
paper-found-leak-three = III
    .also = 3; class III; drops fall
paper-found-works = works
    .also = work; ok; well; fine; in order
paper-found-weak = weak
    .also = stiff; slow
paper-found-fails = fails
    .also = fail; failed; does not work
paper-found-in-order = in order
    .also = ok; well; fine; there; sound
paper-found-worn = worn
    .also = wear; dirty
paper-found-damaged = damaged
    .also = damage; broken
paper-found-turned = turned
    .also = turns; turn; cranked; cranks
paper-found-did-not = did not
    .also = did not turn; does not
paper-found-not-tried = untried
    .also = not tried
paper-found-bypassed = switch bypassed
    .also = bypass
paper-found-other-way = other way
    .also = another way
paper-found-met = met
    .also = held; yes
paper-found-not-met = not met
    .also = not held; no
paper-found-fitting = fitting found at

paper-finds = Joints with no fitting known: find it
paper-note = Not well, or anything to tell: number and what
paper-legend-not-checked = Could not check: write – and why.
paper-legend-leaks = Leaks: I wet, II drops form, III drops fall.
paper-not-proof = Paper grants nothing: the steward, the deputy or the yard's computer gives the verdict.
paper-bring-back = Bring the sheet back. Photograph it or keep it.

paper-chart-title = { $machine } · greasing
paper-chart-none = This machine's book has no fitting to be greased.
paper-chart-how = Wipe the fitting. Pump until fresh grease begins to show, then stop. Tick each fitting.
paper-chart-adjuster = The fitting of a track adjuster is not greased: it tightens the track.
paper-of-count = { $of ->
    [one] of one fitting
   *[other] of { $of } fittings
 }
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
paper-strip-cut-no-meter = Cut out and put it where the machine is kept.

sheet-title = Walk-round
sheet-who = Who
sheet-when = Date and time

drawing-plan = Seen from above
drawing-left = Left side
drawing-right = Right side
drawing-danger-zone = danger zone: nobody in here
drawing-station = Station { $n }: { $name }
