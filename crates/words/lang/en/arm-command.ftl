### The arm at the command line: its help, and what may be wrong in a sheet of poses.
### $headings, $units, $stances: lists; $written, $heading, $unit: as written; $joint: boom, dipper or bucket; $n, $of: counts
### $name: a machine; $path: a file; $reasons: a list; $table, $key, $item: names of the machine book
### $force, $out, $up, $boom, $dipper, $bucket, $along, $across: figures already said; $reason: words already said
### $line: a line of the book; $from, $to: pins; $what: words already said; $off, $should, $half, $percent: figures already said
### $length, $least, $most: lengths already said

help-arm = The arm of a machine: its reach and forces, or every figure of the poses of a sheet.
arg-arm-which = A machine book, or the id of a machine of the yard
arg-arm-poses = A sheet (CSV) of ram lengths or extensions, one pose a row; prints every figure of each row
arg-arm-likely = Draws for how likely each limit is to govern, as the tape knows the pins
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
poses-impossible-swing = It does not swing that far: no more than { $most } to a side.
poses-impossible-linkage-open = Lever and link of the bucket do not meet at this length of the bucket ram.
poses-impossible-dead-centre = The { $joint } ram lies in line with its joint and has no lever there.
poses-impossible-beyond-stroke = The { $joint } ram cannot be { $length } long: it goes from { $least } to { $most }.
poses-impossible-other = The arm cannot stand so ({ $reasons }).

arm-told-without-shape = The shape of “{ $name }” is not known yet. The book does not say:
    { $reasons }
    .next = Measure these and write them into the book. `kingpost arm` with `--survey` lists all that is missing.
arm-told-missing-line = { $key } in the table { $table }: { $item }
arm-told-does-not-close = The arm of “{ $name }” does not go together as measured. { $reasons }
    .next = Measure the distances round that joint again.

arm-told-square-too-small = Squares of { $written } are too small.
    .next = Take squares of 1 mm or more, such as `--square "10 cm"`.
arm-told-no-pose = no pose can use any force that way
arm-told-stands-on = Standing: { $written }.
arm-told-held-down = The book does not say what it stands on, so the machine is taken as held down. It may tip or slide sooner.
arm-told-statics-only = Worked out at rest, for a machine as its book describes it. Worn parts, shocks and soft ground are not in it. The yard's rules stand.
arm-told-way-curl = Curling the bucket
arm-told-way-crowd = Drawing the dipper
arm-told-way-push-down = Pressing down
arm-told-way-pull-up = Lifting with the boom
arm-told-governs-working = the { $joint } ram is at its working pressure
arm-told-governs-holding = the { $joint } ram gives way over its relief
arm-told-governs-tipping = the machine tips
arm-told-governs-sliding = the machine slides
arm-told-strongest-line = { $force }, then { $reason }
    Rams: boom { $boom }, dipper { $dipper }, bucket { $bucket }. Tooth { $out } out, { $up }.
arm-told-up = { $length } up
arm-told-down = { $length } below the ground
arm-told-pin-line = ({ $along }, { $across }) on the { $written } · { $reason }
arm-told-known-guess = first guess, not measured
arm-told-known-drawing = from a drawing
arm-told-known-measured = measured
arm-told-not-closing = It does not go together over the whole stroke:
arm-told-missing-heading = The book does not say:
arm-told-guessed = Some numbers are a blank's first guess. What rests on them is not yet this machine's own figure.
arm-told-unsettled = What was measured does not settle this arm. Its figures are not this machine's own: see --survey.
arm-told-estimated = What the rams weigh is worked out from their steel.

arm-told-not-known = not known yet
arm-told-standard-note = Forces by the standards are at the tooth's tip, in the best pose, with no weights and the machine held down. Its real force is often less.
arm-told-whole-deepest = Tooth at its lowest, over the ground
arm-told-whole-reach-on-ground = Reach on the ground, from the swing axis
arm-told-whole-dump-height = Tooth when it dumps, over the ground
arm-told-whole-standard-curl = Curl force by the standard
arm-told-whole-standard-crowd = Crowd force by the standard
arm-told-whole-boom-closed = Boom ram, closed
arm-told-whole-boom-open = Boom ram, open
arm-told-whole-boom-angle-in = Boom's angle with its ram in
arm-told-whole-boom-angle-out = Boom's angle with its ram out
arm-told-whole-boom-longest-lever = Boom ram's longest lever
arm-told-whole-dipper-closed = Dipper ram, closed
arm-told-whole-dipper-open = Dipper ram, open
arm-told-whole-dipper-angle-in = Dipper's angle with its ram in
arm-told-whole-dipper-angle-out = Dipper's angle with its ram out
arm-told-whole-dipper-longest-lever = Dipper ram's longest lever
arm-told-whole-bucket-closed = Bucket ram, closed
arm-told-whole-bucket-open = Bucket ram, open
arm-told-whole-bucket-angle-in = Bucket's angle with its ram in
arm-told-whole-bucket-angle-out = Bucket's angle with its ram out
arm-told-whole-bucket-longest-lever = Bucket ram's longest lever

arm-told-findings = What the distances say:
arm-told-next = Measure next, the most useful first:
arm-told-sure = How sure the tooth's place is:
arm-told-tooth = ± { $half } over the whole reach; ± { $should } with the first of these measured.
arm-told-measured-distance = { $from } to { $to } (line { $line })
arm-told-measured-ram = the { $joint } ram of the reading (line { $line })
arm-told-measured-tooth-height = the tooth's height (line { $line })
arm-told-measured-reach = the reach (line { $line })
arm-told-next-distance = { $from } to { $to }
arm-told-next-again = once more: { $what }
arm-told-next-pose = height and reach of the tooth with the rams at { $boom }, { $dipper } and { $bucket }
arm-told-finding-further = What would tell: { $what }.
arm-told-finding-not-rigid = { $what }: its ends sit on different parts, so it changes with the pose. It is not used.
arm-told-finding-not-a-length = { $what }: this cannot be a length. It is not used.
arm-told-finding-never-closes = { $what }: the arm cannot stand so. One of its ram lengths is wrong. It is not used.
arm-told-finding-nothing-fitted = Nothing could be fitted: a first guess or a stroke in the book cannot be.
arm-told-finding-misfit = { $what } does not fit: it is off by { $off } and should be { $should } ± { $half }. Likelihood { $percent }.
arm-told-finding-suspects = One of these is wrong, and nothing tells which yet: { $reasons }.
arm-told-finding-impossible = No triangle has these three distances: { $reasons }. They miss it by { $off }.
arm-told-finding-either-side = These may as well lie on the other side: { $reasons }.
arm-told-finding-does-not-close = The { $joint } does not go together over the whole stroke. { $what }
