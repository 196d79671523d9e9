### Words of the papers for the wall, the cab and the file.
### $machine, $person, $name, $station: names; $n, $of: counts; $at, $until, $date: already said; $revision: of the book
### $why: own words; $value: ready to show; $minutes: minutes

paper-invented = Invented: a demonstration
paper-page = Page { $n } of { $of }
paper-printed = Printed { $at }
paper-book = Book of { $date }
paper-ruler = This line is 100 mm long. If it is not, the print was scaled.
paper-qr = The same on a phone
paper-stop = To stop the engine:
paper-stop-unknown = How to stop the engine: not known. Find out first.

sheet-title = Walk-round
sheet-for = Walk-round of { $machine }
sheet-who = Who
sheet-when = Date and time
sheet-hours = Hour meter
sheet-minutes = about { $minutes } min
sheet-column-number = No.
sheet-column-point = Point
sheet-column-limit = Limit
sheet-column-well = Well
sheet-column-not-well = Not well
sheet-column-reading = Reading
sheet-column-because = Not checked because
sheet-note = Not well, or anything to tell
sheet-before = Before you begin
sheet-verdict = Verdict
sheet-signature = Signed
sheet-not-proof = Paper grants nothing. The steward, the deputy or the yard's computer gives the verdict.
sheet-bring-back = Bring the sheet back. Photograph it or keep it.

chart-title = Greasing chart
chart-for = Greasing of { $machine }
chart-fittings = { $n ->
    [one] One fitting
   *[other] { $n } fittings
 }
chart-habit-before = Before work, every time.
chart-habit-after = After work, every time.
chart-how = Wipe the fitting. Pump until fresh grease begins to show, then stop. Sealed bearings take only their strokes.
chart-refused = A fitting that refuses grease is a fault. Write it down.
chart-column-joint = Joint
chart-column-where = Where
chart-column-how = How much
chart-column-rhythm = How often
chart-adjuster = The fitting of a track adjuster is not greased. It tightens the track.

tag-title = Stand down
tag-do-not = DO NOT START
tag-machine = Machine
tag-why = Why
tag-since = Since
tag-by = By
tag-keep = Tie this to the key. Nobody takes it off but the steward or the deputy.
tag-released-by = Released by
tag-mended = What was mended

strip-title = What comes next
strip-for = What comes next on { $machine }
strip-at = At
strip-what = What
strip-done = Done
strip-as-of = As of { $at }, meter { $value }

drawing-plan = Seen from above
drawing-left = Left side
drawing-right = Right side
drawing-forwards = forwards
drawing-danger-zone = danger zone
drawing-not-to-scale = not to scale
drawing-station = Station { $n }: { $name }
