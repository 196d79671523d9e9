### The arm at the command line: its help, and what may be wrong in a sheet of poses.
### $headings, $units, $stances: lists; $written, $heading, $unit: as written; $joint: boom, dipper or bucket; $n, $of: counts
### $name: a machine; $path: a file; $reasons: a list; $table, $key, $item: names of the machine book
### $force, $out, $up, $boom, $dipper, $bucket, $along, $across: figures already said; $reason: words already said
### $length, $least, $most: lengths already said

help-arm = The arm of a machine: its reach and forces, or every figure of the poses of a sheet.
arg-arm-which = A machine book, or the id of a machine of the yard
arg-arm-poses = A sheet (CSV) of ram lengths or extensions, one pose a row; prints every figure of each row
arg-arm-survey = Show the pins, how well each is known, and what is missing
arg-arm-map = Show the strength over the whole reach, square by square
arg-arm-strongest = Show the strongest pose in each direction
arg-arm-direction = Direction for the map
arg-arm-stance = On what it stands, as the book names it
arg-arm-square = Side of a square of the map
arg-arm-steps = Ram lengths tried for the map, for each ram

poses-mend-first = Mend these first, then try again.
poses-empty = The file is empty.
    .next = Begin with a line of headings, such as: { $headings }.
poses-no-poses = There is a heading and no pose under it.
    .next = Write one pose a line under the heading.
poses-heading-unknown = “{ $written }” is no column of poses.
    .next = Columns are: { $headings }.
poses-heading-twice = There is a column “{ $written }” already.
    .next = Take one of the two out.
poses-heading-has-unit = “{ $written }” holds words, so it has no unit.
    .next = Take the unit out of the heading.
poses-heading-without-unit = “{ $written }” names no unit.
    .next = Write the unit in brackets at its end, such as { $units }.
poses-heading-other-unit = The unit of “{ $written }” does not fit.
    .next = Write one such as { $units } in the brackets.
poses-unit-unknown = “{ $unit }” is no unit known here.
    .next = Write mm, m, in, deg, kg, kN or C in the brackets.
poses-ram-missing = No column says how long the { $joint } ram is.
    .next = Add “{ $joint } length [mm]” or “{ $joint } extension [mm]”.
poses-ram-twice = Two columns say how long the { $joint } ram is.
    .next = Keep its length or its extension, not both.
poses-other-count = This line has { $n ->
    [one] one cell
   *[other] { $n } cells
 }, and the heading has { $of }.
    .next = Give each line as many cells as the heading has.
poses-cell-empty = “{ $heading }” is empty here.
    .next = Write the number, or take the line out.
poses-too-small = { $written } is too small.
    .next = Write a length above nothing; a load of nothing or more.
poses-no-share = { $written } is no share of a stroke.
    .next = Write a number from 0 to 1, or a percentage up to 100 %.
poses-stance-unknown = The book has no way of standing “{ $written }”.
    .next = Write one of: { $stances }.

poses-impossible-triangle-open = The { $joint } ram cannot be { $length } long: its pins allow { $least } to { $most }.
poses-impossible-linkage-open = Lever and link of the bucket do not meet at this length of the bucket ram.
poses-impossible-dead-centre = The { $joint } ram lies in line with its joint and has no lever there.
poses-impossible-beyond-stroke = The { $joint } ram cannot be { $length } long: it goes from { $least } to { $most }.
poses-impossible-other = The arm cannot stand so ({ $reasons }).

arm-without-shape = The shape of “{ $name }” is not known yet. The book does not say: { $reasons }.
    .next = Measure these and write them into the book. `kingpost arm` with `--survey` lists all that is missing.
arm-missing-line = { $item ->
    [none] `{ $key }` of `{ $table }`
   *[other] `{ $key }` of `{ $table }` ({ $item })
 }
arm-does-not-close = The arm of “{ $name }” does not go together as measured: { $reasons }.
    .next = Measure the distances round that joint again.

arm-square-too-small = Squares of { $written } are too small.
    .next = Take squares of 1 mm or more, such as `--square "10 cm"`.
arm-no-pose = no pose can use any force that way
arm-stands-on = Standing: { $written }.
arm-held-down = The book does not say what it stands on, so the machine is taken as held down. It may tip or slide sooner.
arm-statics-only = Worked out at rest, for a machine as its book describes it. Worn parts, shocks and soft ground are not in it. The yard's rules stand.
arm-way-curl = Curling the bucket
arm-way-crowd = Drawing the dipper
arm-way-push-down = Pressing down
arm-way-pull-up = Lifting with the boom
arm-governs-working = the { $joint } ram is at its working pressure
arm-governs-holding = the { $joint } ram gives way over its relief
arm-governs-tipping = the machine tips
arm-governs-sliding = the machine slides
arm-strongest-line = { $force }, then { $reason }
    Rams: boom { $boom }, dipper { $dipper }, bucket { $bucket }. Tooth { $out } out, { $up } up.
arm-pin-line = ({ $along }, { $across }) on the { $written } · { $reason }
arm-known-guess = first guess, not measured
arm-known-drawing = from a drawing
arm-known-measured = measured
arm-not-closing = It does not go together over the whole stroke:
arm-missing-heading = The book does not say:
arm-guessed = Some numbers are a blank's first guess. What rests on them is not yet this machine's own figure.

arm-not-known = not known yet
arm-standard-note = Forces by the standards are at the tooth's tip, in the best pose, with no weights and the machine held down. Its real force is often less.
arm-whole-deepest = Tooth at its lowest, over the ground
arm-whole-reach-on-ground = Reach on the ground, from the swing axis
arm-whole-dump-height = Tooth when it dumps, over the ground
arm-whole-standard-curl = Curl force by the standard
arm-whole-standard-crowd = Crowd force by the standard
arm-whole-boom-closed = Boom ram, closed
arm-whole-boom-open = Boom ram, open
arm-whole-boom-angle-in = Boom's angle with its ram in
arm-whole-boom-angle-out = Boom's angle with its ram out
arm-whole-boom-longest-lever = Boom ram's longest lever
arm-whole-dipper-closed = Dipper ram, closed
arm-whole-dipper-open = Dipper ram, open
arm-whole-dipper-angle-in = Dipper's angle with its ram in
arm-whole-dipper-angle-out = Dipper's angle with its ram out
arm-whole-dipper-longest-lever = Dipper ram's longest lever
arm-whole-bucket-closed = Bucket ram, closed
arm-whole-bucket-open = Bucket ram, open
arm-whole-bucket-angle-in = Bucket's angle with its ram in
arm-whole-bucket-angle-out = Bucket's angle with its ram out
arm-whole-bucket-longest-lever = Bucket ram's longest lever
