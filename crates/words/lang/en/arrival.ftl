### The day a machine comes: taking it in step by step, what its book does not say yet, the first month.
### $says: the person's own words; $name, $point, $machine: names; $n, $of: how many; $fluids, $joints, $what: names in a row, or pieces said before
### $date: a date ready to show; $left, $right: answers in words

entry-arrival-came = Came to the yard
    .says = Came to the yard: { $says }
entry-arrival-stop = Stop tried
    .says = Stop tried: { $says }
entry-arrival-plates = Plates read
    .says = Plates read: { $says }
entry-arrival-fluids = Fluids looked at
    .says = Fluids looked at: { $says }
entry-arrival-changed = { $name } changed on arrival
    .says = { $name } changed on arrival: { $says }
entry-arrival-analysed = { $name } analysed on arrival
    .says = { $name } analysed on arrival: { $says }
entry-arrival-looked = { $name } looked at on arrival
    .says = { $name } looked at on arrival: { $says }
entry-arrival-sides = Left compared with right
    .says = Left compared with right: { $says }
entry-arrival-measures = Measures looked at
    .says = Measures looked at: { $says }
entry-arrival-fittings-first = Fittings looked for as it stands
    .says = Fittings looked for as it stands: { $says }
entry-arrival-first-lap = Fittings counted as it stands: { $n }
    .says = Fittings counted as it stands: { $n }. { $says }
entry-arrival-fittings-second = Fittings looked for, moved to its other end
    .says = Fittings looked for, moved to its other end: { $says }
entry-arrival-second-lap = Fittings counted, moved to its other end: { $n }
    .says = Fittings counted, moved to its other end: { $n }. { $says }
entry-arrival-weaknesses = Known weaknesses looked at
    .says = Known weaknesses looked at: { $says }
entry-arrival-over = Taken in
    .says = Taken in: { $says }

deed-take-in-machine = take in a machine that came to the yard

reason-unknown-fluid = Nobody knows what is in it: { $fluids }.
    .next = Change it, or have it analysed. Write that down on the arrival page.
rule-unknown-fluid = A machine being taken in runs with care until each fluid is changed or analysed.
    .title = Fluid unknown
    .why = Whoever had it before may have poured in anything, or left it in for years.
    .source = Common practice, no source.

arrival-title = Arrival
arrival-paper-title = Arrival sheet: { $machine }
link-arrival = Take it in
link-arrival-sheet = Arrival sheet
help-papers-arrival-sheet = What to look at on the day a machine comes, with boxes to fill.
arrival-intro = A machine without papers is not known yet. These steps find out what it is, in the order that keeps people safe.
arrival-not-begun = Nobody wrote down yet that it came.
arrival-since = It came on { $date }.
arrival-is-over = It was taken in on { $date }.
arrival-why = Why
arrival-done = Done
arrival-open = Open
arrival-steps = Steps
arrival-steps-done = { $n } of { $of } steps done
arrival-says = What you saw or were told
arrival-from = Where it comes from, and what was said of it
arrival-plates-say = What the plates and stamped numbers say
arrival-count = Fittings counted
arrival-fluid-is = What was done
arrival-end-why = What is left, and why
arrival-to-round = Walk it round
arrival-to-book = Open the book
arrival-to-photo = Take a photo
arrival-begin = It came today
arrival-keep = Keep
arrival-end = It is taken in

ask-arrival-count = How many fittings are there?
    .next = Write a number, 0 where there are none.
ask-arrival-fluid = Which fluid is known now?
    .next = Say of one at least whether it was changed or analysed.
ask-arrival-says = What did you see?
    .next = Write it down. Where there is nothing of the kind, write “none”.
ask-arrival-end = Something is left to do.
    .next = Say what, and why it can wait.
ask-arrival-begun = Nobody wrote down yet that it came.
    .next = Begin with the first step.

arrival-step-came = It comes
    .why = All later readings and changes are counted from this day.
    .how = Write where it comes from, and what was said of it.
arrival-step-stop = How it stops
    .why = Nobody starts what nobody can stop.
    .how = Find what stops the engine. Try it, and write it into the book.
    .held = It has no engine. Look what holds it where it stands, and try that.
arrival-step-plates = Plates and photos
    .why = The numbers buy the right parts. Rust and paint take them away.
    .how = Read every plate and stamped number. Take a photo of each, and of all four sides.
arrival-step-fluids = Fluids
    .why = Nobody knows what was poured in before, or when. A clean look is no proof.
    .how = Each one is unknown until you change it or have it analysed.
arrival-step-sides = Left against right
    .why = Nobody knows how it was when new. The other side tells.
    .how = Walk it round and answer both sides in the same pose. Where they differ, ask why.
arrival-step-measures = What to measure first
    .why = The first reading is what all later ones are compared with.
    .how = Begin at the top: what bears on safety and has no limit comes first.
arrival-step-fittings-first = Fittings, first lap
    .why = A fitting that nobody knows of leaves its joint dry.
    .how = Walk once round it as it stands. Count every grease fitting, and mark it with paint.
arrival-step-fittings-second = Fittings, second lap
    .why = Some fittings show only when something has moved.
    .how = Move everything to its other end. Stop the engine and prop what is up. Count all of them again.
arrival-step-weaknesses = Known weaknesses
    .why = Machines of one kind break at the same places.
    .how = Look at each place, and write what you saw.
arrival-step-over = Taken in
    .why = From then on it goes its rounds like any other.
    .how = End it when all steps are done. Fluids still unknown then weigh no more.

arrival-open-not-said = Not done yet.
arrival-open-no-book = There is no book yet.
arrival-open-stop-not-in-book = The book does not say how the engine is stopped.
arrival-open-nothing-named = The book names none. Where there is none, say so.
arrival-open-left = { $n } of { $of } left to do.
arrival-open-first-lap-first = Count the first lap first.
arrival-open-counts-differ = { $n } counted, { $of } in the book. Find the others, or mend the book.

fluid-now-changed = changed
fluid-now-analysed = analysed
arrival-fluid-unknown = unknown
arrival-pair-unsaid = not looked at
arrival-pair-differs = They differ. Find out why.
arrival-pair-left = Left
arrival-pair-right = Right
arrival-measure-no-limit = no limit in the book
arrival-measure-unread = never read
arrival-measure-read = read, with a limit
arrival-fittings-in-book = { $n ->
    [one] One fitting in the book
   *[other] { $n } fittings in the book
 }
arrival-fittings-counted = { $n } counted
arrival-fittings-uncounted = not counted
arrival-fittings-without = No fitting is known for: { $joints }.
arrival-weakness-looked = looked at
arrival-weakness-open = not looked at

arrival-gaps = What the book does not say yet
arrival-gaps-intro = What bears on safety comes first, then what hinders most.
arrival-gaps-none = The book leaves nothing open.
arrival-gaps-safety = These keep it from running
arrival-gaps-minor = These can wait
arrival-gaps-accepted = accepted by the steward
arrival-gaps-more = { $n ->
    [one] Show the one that can wait
   *[other] Show the { $n } that can wait
 }

arrival-month = The first month
arrival-month-source = Days and counts are common practice, no source.
arrival-month-by = By { $date }
arrival-month-adopt-book = Adopt a book for it.
arrival-month-blocks-start = { $n ->
    [0] Nothing in the book keeps it from running.
    [one] Fill the gap that keeps it from running.
   *[other] Fill the { $n } gaps that keep it from running.
 }
arrival-month-fluid = Change or analyse: { $name }
arrival-month-first-reading = Read for the first time: { $point }
arrival-month-again = Read measures and feel bolts again: { $n } of { $of } left.
    .done = Read measures and feel bolts again: all { $of } done.
arrival-month-quiet = { $n } of { $of } rounds in a row that find nothing new. Only then a learner has it.
    .done = { $of } rounds in a row found nothing new. A learner may have it.

paper-qr-arrival = Scan to write it into the book.
paper-arrival-stop-tried = Stop tried
paper-arrival-date = It came on
paper-arrival-by = Written down by
paper-arrival-from = From whom, and what was said
paper-arrival-makers-plate = Maker's plate
paper-arrival-serial = Serial number
paper-arrival-year = Year made
paper-arrival-engine-plate = Engine plate
paper-arrival-other-plates = Other plates and stamped numbers
paper-arrival-hours = Hours shown
paper-arrival-photos = Photos taken
paper-arrival-photo-sides = all four sides
paper-arrival-photo-plates = every plate
paper-arrival-photo-meter = the hour meter
paper-arrival-photo-worst = the worst place
paper-arrival-point = Point
paper-arrival-method = How
paper-arrival-reading = Reading
paper-arrival-fluid = Fluid
paper-arrival-grade = Grade, amount
paper-arrival-first-lap = First lap
paper-arrival-second-lap = Second lap
paper-arrival-station = Place
paper-arrival-in-book = In the book
paper-arrival-all = Together
paper-arrival-more-rows = Others found
paper-arrival-none = None in the book. Write what you find.
paper-arrival-weakness = Place, and what to look for
paper-arrival-seen = What you saw
paper-arrival-no-limit = no limit yet
