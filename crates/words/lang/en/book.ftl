### The machine book: what is wrong with a line of it, what it does not say yet, its fields.
### $found: as written; $nearest: what may be meant; $right: what would be right; $table, $key: of the format
### $kind, $belongs-to: kinds of points; $wanted: a shape already said; $allowed: words as a list
### $least, $most, $known, $shown, $n: numbers; $first-line: a line of the book; $id, $to: an id and what it names
### $min, $max: limits as written; $twin, $station, $old, $ram: ids; $rule: a rule's name; $what, $next: already said
### $subject: the thing a gap is about, already said; $place: file, line and column; $level: already said; $mistakes, $warnings: already said

book-level-mistake = mistake
book-level-warning = look at this
book-right-so = Write it so: { $right }
book-did-you-mean = Did you mean “{ $nearest }”?
book-count-none = The book reads without mistakes.
book-count-mistakes = { $n ->
    [one] One mistake. The book cannot be adopted until it is mended.
   *[other] { $n } mistakes. The book cannot be adopted until they are mended.
 }
book-count-warnings = { $n ->
    [one] One thing to look at. The book can be adopted.
   *[other] { $n } things to look at. The book can be adopted.
 }
book-count-both = { $mistakes } Besides: { $warnings }
book-count-more-warnings = { $n ->
    [one] one thing to look at.
   *[other] { $n } things to look at.
 }

book-trouble-syntax-open-text = This text has no closing quote.
    .next = Close it on the same line.
book-trouble-syntax-quote-in-text = There is a double quote inside a text in double quotes.
    .next = Put single quotes round the text.
book-trouble-syntax-no-quotes = This text has no quotes.
    .next = Put quotes round it.
book-trouble-syntax-backslash = A backslash inside double quotes has a meaning of its own.
    .next = Put single quotes round the text.
book-trouble-syntax-list = This list does not read.
    .next = Write it in square brackets, with a comma between two things.
book-trouble-syntax-set = This set does not read.
    .next = Write it in curly brackets, with a comma between two things.
book-trouble-syntax-no-equals = There is no = on this line.
    .next = Write the key, then =, then the value.
book-trouble-syntax-no-value = There is nothing after the =.
    .next = Write the value, or take the line out. What is not known may be left out.
book-trouble-syntax-key-in-two-words = A key is one word.
    .next = Join the words with a dash.
book-trouble-syntax-left-over = Something is left over behind the value.
    .next = Take it out, or put quotes round the whole value. A remark begins with #.
book-trouble-syntax-heading = The brackets of this heading do not match.
    .next = Write [name] once, or [[name]] for things there are several of.
book-trouble-syntax-other = This line does not read.
    .next = Write key = value, a heading in brackets, or a remark that begins with #.

book-trouble-too-big = The book is longer than { $most } bytes.
    .next = Take out what belongs into notes or photos.
book-trouble-and-more = Only the first { $shown } are listed.
    .next = Mend these, then check again.
book-trouble-format = The book does not say in which format it is written.
    .next = Write kingpost = { $known } on its first line.
book-trouble-format-unknown = The book is written in format { $found }. This program knows format { $known }.
    .next = Use a newer program, or write kingpost = { $known } and check what changes.
book-trouble-unknown-table = There is no table { $found } in a machine book.
    .next = Look up the tables in the guide, or take it out.
book-trouble-table-form = The heading of { $table } has the wrong brackets.
    .next = Write it so: { $right }
book-trouble-table-twice = { $table } is there already, on line { $first-line }.
    .next = Put both into one.
book-trouble-missing-table = The table { $table } is missing.
    .next = Add it. Every book has one.
book-trouble-unknown-key = There is no { $found } in { $table }.
    .next = Look up its keys in the guide, or take it out.
book-trouble-key-twice = { $key } is there already, on line { $first-line }.
    .next = Take one of the two out.
book-trouble-key-of-other-kind = { $key } does not belong to the kind { $kind }.
    .next = It belongs to: { $belongs-to }. Take it out, or change the kind.
book-trouble-missing-key = In { $table } the key “{ $key }” is missing.
    .next = Add the line: { $key } = … What may stand there is in the format's reference.
book-trouble-wrong-type = { $key } is { $found } here.
    .next = Write { $wanted }.
book-trouble-nothing = { $key } is empty.
    .next = Write something, or take the line out.
book-trouble-too-long = { $key } is too long.
    .next = At most { $most } bytes for a text, or things in a list.
book-trouble-out-of-bounds = { $key } is out of bounds.
    .next = Write a whole number from { $least } to { $most }.
book-trouble-not-positive = { $key } is zero or less.
    .next = Write a quantity of more than zero.
book-trouble-unknown-word = { $key } cannot be “{ $found }”.
    .next = Write one of these: { $allowed }.
book-trouble-bad-id = “{ $found }” is not an id.
    .next = Use small letters, digits and dashes, at most 64, a letter or digit first.
book-trouble-id-twice = The id “{ $id }” is taken, on line { $first-line }.
    .next = Choose another one. An id never changes and is never used twice.
book-trouble-unknown-reference = There is no { $to } “{ $found }” in this book.
    .next = Add it, or write the id of one that is there.
book-trouble-quantity = { $key }: { $what }
    .next = { $next }
book-trouble-limits-crossed = The lower limit { $min } is over the upper limit { $max }.
    .next = Swap them, or mend the one that is wrong.
book-trouble-limits-differ = { $min } and { $max } measure different things.
    .next = Write both in units of the same kind.
book-trouble-no-method = A limit without its method cannot be compared with anything.
    .next = Say how it is measured, for example method = "board along the top".
book-trouble-mirror-one-sided = “{ $twin }” does not name this one as its twin.
    .next = Write mirror on both sides.
book-trouble-mirror-other-kind = The twin “{ $twin }” is of another kind.
    .next = Twins are of one kind. Mend the kind, or take the mirror out.
book-trouble-mirror-itself = This names itself as its own twin.
    .next = Write the id of the one on the other side.
book-trouble-adjuster-greased = This is the fitting of a track adjuster. Grease here tightens the track.
    .next = Take it off the greasing round. Write a measure of the track's sag instead.
book-trouble-bad-rhythm = “{ $found }” is not a rhythm.
    .next = Write for example "every start", "after use", "every 10 h", "every 7 days" or "each season".
book-trouble-bad-until = “{ $found }” does not say when to stop pumping.
    .next = Write "fresh grease shows", or a number of strokes such as "3 strokes".
book-trouble-lap-misses = The lap leaves out the station “{ $station }”.
    .next = Put it where you pass it. A lap has every station once.
book-trouble-lap-twice = The lap names the station “{ $station }” twice.
    .next = Take one of the two out. A lap has every station once.
book-trouble-bad-place = This is not a place.
    .next = Write two or three lengths: forwards, left, up. Plain numbers are metres.
book-trouble-bad-stroke = This is neither a line nor a circle.
    .next = Write a line of two or more points, or a circle with its middle and a radius over zero.
book-trouble-rename-still-there = The old id “{ $old }” is still in the book.
    .next = Take the old one out, or the rename.
book-trouble-weaker-than-rule = { $key } is weaker here than the rule { $rule }, which stands the machine down at once.
    .next = Take it out. A book may be stricter than a rule, never weaker.
book-trouble-levers-not-said-safe = Levers worked after stopping may drop what is raised.
    .next = If the steward holds it safe on this machine, say so and why: said-safe = "…".
book-trouble-rod-fills-bore = The rod is as thick as the bore, or thicker.
    .next = Measure both again. The rod is always the thinner one.
book-trouble-ram-does-not-open = The ram is no longer open than closed.
    .next = Measure pin to pin again, once with the rod in and once with it out.
book-trouble-rod-in-and-out = The rod of “{ $ram }” is both in and out in this pose.
    .next = Take it out of one of the two lists.
book-trouble-limit-with-plus-minus = The ± in { $key } = "{ $found }" is not counted: a limit is exact.
    .next = Write the limit without it. How well one measures goes into plus-minus.
book-trouble-reading-twice = Two readings have the same name: “{ $found }”.
    .next = Give each its own name, so that the round asks for both.

book-shape-text = a text in quotes
book-shape-texts = a list of texts
book-shape-id = an id
book-shape-ref = the id of something in the book
book-shape-refs = a list of ids
book-shape-quantity = a quantity with its unit, in quotes
book-shape-count = a whole number
book-shape-yes-or-no = true or false
book-shape-word = one of the words allowed
book-shape-words = a list of the words allowed
book-shape-place = two or three lengths
book-shape-rhythm = a rhythm, or a list of them
book-shape-until = "fresh grease shows" or a number of strokes
book-shape-cases = a list of combinations
book-shape-instead = a list of { "{" } what, number, said-by, on { "}" }, each a text in quotes
book-shape-line = pairs of numbers in metres
book-shape-circle = a middle and a radius in metres
book-shape-number = a number
book-shape-list = a list
book-shape-table = a table
book-shape-whole-number = a whole number
book-shape-other = a date, or a value of a kind no book has

book-thing-station = station
book-thing-point = point
book-thing-pose = pose
book-thing-joint = joint
book-thing-fluid = fluid
book-thing-part = part
book-thing-ram = ram
book-thing-rest = rest step
book-thing-weakness = weakness
book-thing-control = control
book-thing-attachment = attachment
book-thing-document = document

## What the book does not say yet.

gap-is = Not said yet: { $what }.
gap-blocks = Until then it cannot be told: { $what }.
gap-safety = It bears on safety: nobody can accept it.
gap-minor = The steward may accept it, with a reason.
gap-where = It goes into { $table }, as { $key }.

gap-no-stop = how to stop the engine
    .next = Find out on the machine, then write it down. It is the first thing anybody must know.
gap-no-danger-zone = where nobody may be while it works
    .next = Measure how far it reaches at full stretch, all round, and write that down.
gap-no-ground = what it stands on, and so whether it travels
    .next = Write tracks or wheels.
gap-no-points = what must be looked at
    .next = Walk round it once and write a point for each thing, or begin from a blank.
gap-no-point-for = how these are checked: { $subject }
    .next = Write a point for it. A machine that travels needs one.
gap-no-pin-clips = which clips hold its pins
    .next = Look at every pin. Write a point for whatever keeps it in.
gap-no-crank = in which positions the starter may turn
    .next = Try each one, in the seat, nobody near. Write what must and what must not crank.
gap-no-rest-step = how this is left at rest: { $subject }
    .next = Write the step and what proves it.
gap-level-without-pose = in which pose this level is read: { $subject }
    .next = Ask who knows the machine or look in the maker's book. Until then no reading can be compared.
gap-measure-without-limit = what the limit of this measure is: { $subject }
    .next = Ask who knows the machine or look in the maker's book. Write the limit with its method.
gap-remote-without-joint = which joint this grease line feeds: { $subject }
    .next = Follow the line from the fitting to its end.
gap-joint-without-fitting = where the fitting of this joint is: { $subject }
    .next = Look for it on the next round. If it is sealed or runs in oil, write that.
gap-fitting-without-joint = which joint this fitting feeds: { $subject }
    .next = Pump, and see where the grease shows.
gap-no-twin = whether there is the same on the other side: { $subject }
    .next = Look at the other side. Write the twin, or write that there is none.
gap-rest-without-proof = what proves this step: { $subject }
    .next = Find what one can see or feel when it is done right.
gap-no-meter = what its hour meter counts
    .next = Look whether it counts with the key on, with the engine running, or by turns. If it has none, write kind = "none".
gap-no-greasing-habit = whether it is greased before or after work
    .next = Choose one of the two, and always do the same.
gap-fluid-without-grade = which grade goes in: { $subject }
    .next = Ask who knows the machine, look in the maker's book or on the can. Never mix on a guess.
gap-fluid-without-quantity = how much it holds: { $subject }
    .next = Measure what goes in at the next change.
gap-pose-without-rods = which rods are in and which are out in this pose: { $subject }
    .next = Look at every ram in this pose.
gap-no-rams = its rams
    .next = Write each ram with its bore, rod, closed and open length.
gap-ram-not-measured = the sizes of this ram: { $subject }
    .next = Measure the rod, and pin to pin with the rod in and out. Ask for the bore.
gap-no-distances = the distances from pin to pin
    .next = Measure them with a tape, everything lowered, engine off.
gap-no-masses = what it weighs
    .next = Look at its plate or ask the maker.
gap-ground-not-measured = how far apart its tracks or wheels are, and how long they stand
    .next = Measure between the middles, and the length on the ground.
gap-station-without-place = where one stands for this station: { $subject }
    .next = Measure from the middle of the undercarriage: forwards, and to the left.
gap-weakness-not-watched = which point watches this weakness: { $subject }
    .next = Write a point for it, or name one that is there.
gap-control-not-known = what this control does: { $subject }
    .next = Try it slowly, on open ground, with nobody near.
gap-no-start = in which order it is started
    .next = Write the steps as you do them.
gap-no-stop-and-tell = when to stop and tell
    .next = Write what nobody should drive on with: lamps, noises, smells, heat.
gap-no-drawing = what it looks like
    .next = Measure it from the side and from above, and write its lines.

by-writing-down = by writing it down
by-measuring = by measuring it
by-looking = by looking on the machine
by-asking = by asking, or from the maker's book

blocks-verdict = whether it is fit
blocks-round = what is looked at on the round
blocks-levels = whether a level is right
blocks-level-correction = what a level would be in the right pose
blocks-limits = whether a measure is inside its limit
blocks-greasing = whether every joint gets its grease
blocks-hours = what is due by hours
blocks-rest = whether it is left at rest
blocks-arm-figures = what the arm can do
blocks-stability = how safely it stands
blocks-top-up = what to buy and pour in
blocks-lap = the shortest lap
blocks-drawing = how it is drawn
blocks-teaching = how it is taught
