# The format of the machine book in words: for its reference and for editors. To be moved beside the other sentences.

book-format-title = The machine book
book-format-intro = A machine book is a text file in TOML. A heading in double brackets may be there as often as wanted, one in single brackets once. Quantities stand in quotes, as a person writes them, with their unit; where an inch mark is in them, in single quotes. Whatever is not known is left out.
book-format-key = key
book-format-value = value
book-format-needed = needed
book-format-meaning = meaning
book-format-yes = yes
book-format-for = for

book-shape-cases = list of sets: with, may-crank
book-shape-circle = three numbers, metres
book-shape-count = whole number
book-shape-id = id: small letters, digits, dashes
book-shape-line = list of pairs of metres
book-shape-place = two or three lengths: metres, or as written
book-shape-quantity = quantity, as a person writes it
book-shape-ref = id of a
book-shape-refs = list of ids of a
book-shape-rhythm = rhythm, or a list of them
book-shape-text = text
book-shape-texts = list of texts
book-shape-until = text
book-shape-word = one of
book-shape-words = some of
book-shape-yes-or-no = true or false

book-field-kingpost = The version of the format.

book-table-machine = What the machine is. Every book has it.
book-field-machine-id = The id in addresses, on walls and in the journal. It never changes.
book-field-machine-name = What people call it.
book-field-machine-kind = What kind of machine it is, for example tracked loader-backhoe.
book-field-machine-made = When and where it was made, as far as known.
book-field-machine-serial = Serial number.
book-field-machine-duty = What it is used for.
book-field-machine-invented = true in a demo book: every page and paper then says so.

book-table-stop = How to stop the engine: shown first of all. Without it the machine is never fit.
book-field-stop-how = One short instruction, for example Pull the red knob and hold it.
book-field-stop-then = What then, for example the battery switch.

book-table-start = How it is started.
book-field-start-steps = The steps, in order.

book-table-meter = The hour meter.
book-field-meter-kind = What it counts: while the key is on, while the engine runs, or revolutions.
book-field-meter-rolls-over-at = The reading at which it starts again at nought.

book-table-station = A place to stand at, round the machine or on its seat.
book-field-station-id = Its id.
book-field-station-name = Its name.
book-field-station-at = Where one stands, from the ground under the middle of the machine: forwards, left, up.

book-table-lap = The way round. Left out, it is made as the shortest one.
book-field-lap-order = Every station once, in walking order.

book-table-pose = How the machine stands while something is checked. In the order they are taken up.
book-field-pose-id = Its id.
book-field-pose-what = How it looks.
book-field-pose-rods-in = Rams whose rods are in.
book-field-pose-rods-out = Rams whose rods are out.
book-field-pose-guards = What must be in place to stay in it.

book-table-point = One thing to attend to.
book-field-point-id = Its id. It never changes; a rename is declared.
book-field-point-station = Where one stands.
book-field-point-kind = What kind of answer it wants.
book-field-point-what = What it is, in a few words.
book-field-point-how = How it is checked.
book-field-point-why = Why it matters here.
book-field-point-about = What it bears on. The rules of the verdict go by it.
book-field-point-rhythm = How often: every start, after use, every 50 h, every 7 days, each season, after 30 days standing, first time, after some-event: every 10 h for 50 h, then every 100 h. Of several, whichever comes first.
book-field-point-at = Where it is on the machine.
book-field-point-pose = The pose it is checked in. A level mark belongs to it.
book-field-point-engine = What the engine does meanwhile; off where not said.
book-field-point-guards = What must be in place first.
book-field-point-mirror = The same point on the other side. Each names the other.
book-field-point-count = How many there are of it; one where not said.
book-field-point-seconds = How long it takes.
book-field-point-bad-is = What a bad answer means here, where it is worse than the rules say.
book-field-point-source = Where the limit comes from.
book-field-point-fluid = Which fluid.
book-field-point-attachments = Attachments the mark belongs to.
book-field-point-oil = How warm the oil is when the mark holds.
book-field-point-upper-mark = true where there is an upper mark: too full is then a finding.
book-field-point-joint = The joint it feeds.
book-field-point-remote = true where it feeds the joint through a line: fresh grease must then be seen at the joint.
book-field-point-until = When to stop pumping: fresh grease shows, or so many strokes.
book-field-point-refused-runs = How long the machine may run after this fitting refused grease.
book-field-point-min = Lower limit.
book-field-point-max = Upper limit.
book-field-point-method = How it is measured. A limit holds for its method only.
book-field-point-readings = Names of the readings to take.
book-field-point-take = How several readings are judged: their mean, the worst, or each.
book-field-point-plus-minus = How well it can be measured here.
book-field-point-condition = What must be true for the reading to count.
book-field-point-out-from = The class of leak from which it stands down.
book-field-point-cases = In which combinations the starter may turn.

book-table-joint = Whatever moves, whether or not a fitting is known.
book-field-joint-id = Its id.
book-field-joint-name = Its name.
book-field-joint-lubrication = How it is lubricated; by fittings where not said.
book-field-joint-mirror = The same joint on the other side.
book-field-joint-at = Where it is.

book-table-fluid = A fluid of the machine.
book-field-fluid-id = Its id.
book-field-fluid-name = Its name.
book-field-fluid-grade = Grade, as on the can.
book-field-fluid-holds = How much it holds.
book-field-fluid-filler = Where it goes in.

book-table-part = A part one may have to buy.
book-field-part-id = Its id.
book-field-part-what = What it is.
book-field-part-size = Its size.
book-field-part-from = Where to get it.
book-field-part-points = Points it belongs to.

book-table-greasing = How this machine is greased.
book-field-greasing-when = Before or after use: one of the two, and always the same.
book-field-greasing-refused-runs = How long the machine may run after a fitting refused grease, where the fitting does not say.

book-table-ram = A ram.
book-field-ram-id = Its id.
book-field-ram-name = Its name.
book-field-ram-bore = Inside of the barrel.
book-field-ram-rod = Thickness of the rod.
book-field-ram-closed = Pin to pin, closed.
book-field-ram-open = Pin to pin, open.
book-field-ram-count = How many side by side.

book-table-distance = A distance of the tape survey, from pin to pin.
book-field-distance-from = One pin.
book-field-distance-to = The other pin.
book-field-distance-is = How far.

book-table-mass = A mass.
book-field-mass-of = Of what.
book-field-mass-is = How much.

book-table-ground = What it stands on.
book-field-ground-on = Tracks, wheels, or a frame where it does not travel.
book-field-ground-gauge = Between the middles of the tracks or wheels.
book-field-ground-length = On the ground, or the wheel base.

book-table-rest = How it is left, step by step.
book-field-rest-id = Its id.
book-field-rest-is = What kind of step it is.
book-field-rest-what = What must be so.
book-field-rest-proof = What proves it.
book-field-rest-to-dig = What is right for digging, where that differs.
book-field-rest-said-safe = For levers worked after stopping: who says that this is safe on this machine.

book-table-shift = What to mind while it works.
book-field-shift-warm-up = Before work.
book-field-shift-first-metres = In the first metres.
book-field-shift-gauges = What to look at.
book-field-shift-stop-and-tell = When to stop and tell.
book-field-shift-cool-down = Before stopping.

book-table-danger = Where nobody may be while it works.
book-field-danger-reach = Radius round the middle of the swing.
book-field-danger-middle = Where that middle is.
book-field-danger-around = How far round the machine besides.

book-table-weakness = What this machine is known for.
book-field-weakness-id = Its id.
book-field-weakness-what = What it is.
book-field-weakness-points = Points that watch it.

book-table-control = A lever, pedal or switch.
book-field-control-id = Its id.
book-field-control-name = Its name and place.
book-field-control-does = What it does.

book-table-draw = One stroke of the drawing. Later ones cover earlier ones.
book-field-draw-view = Seen from which side.
book-field-draw-line = Through these places: forwards and up, in the plan forwards and left.
book-field-draw-circle = Middle and radius.
book-field-draw-heavy = true for an outline.
book-field-draw-closed = true for a shape that covers what is behind it.

book-table-renamed = Points that were renamed: old id = new id.
