### Words of the pages: headings, buttons, boxes, notices. Sentences that belong to a job are in that job's file.
### $name, $machine: names; $n, $of, $done, $all, $points, $left: counts; $when, $until, $at, $date: times already said
### $what, $why, $said, $how, $line, $text, $answer: somebody's words or a line already said; $value, $far: ready to show
### $role, $deed, $leaf, $paper, $size, $limit, $unit, $method, $proof, $step, $who, $id, $minutes, $skipped, $origin: pieces said before
### $low, $high: numbers ready to show; $pose, $oil: a pose and an oil temperature already said
### $poses: ids of the book, as a list
### $point: a point by its name; $note: the person's own words

app-name = Kingpost
skip-to-main = Skip to the content
trail-label = Way back
trail-yard = Yard
trail-round = Round
invented-note = Invented machine, invented people. Nothing here is real.
footer-signed-in = Signed in: { $name }, { $role }.
sign-in = Sign in
sign-out = Sign out
do-keep = Keep
yes = yes
no = no
unknown = not known
none = none
open = open
closed = closed

error-not-found = Not here
    .next = The address is wrong, or what it named is gone. Start again from the yard.
error-may-not = Not yours to do
    .next = Ask the steward or the deputy.
error-may-not-deed = You may not { $deed }.
error-sign-in = Sign in first
    .next = Then go on where you were.
error-bad-request = That form was not understood
    .next = Go back, load the page again and fill it in once more.
error-ours = A mistake of the program
    .next = It is not your doing. What was kept is kept. Tell the steward what you were doing.

yard-title = Yard
yard-empty = No machine here yet. The steward adopts a machine book, then it shows here.
machine-count = { $n ->
    [one] one machine
   *[other] { $n } machines
 }
more-reasons = { $n ->
    [one] and one more reason
   *[other] and { $n } more reasons
 }
questions-open = { $n ->
    [one] One question waits for you
   *[other] { $n } questions wait for you
 }
card-handed-over = Handed over { $when } by { $name }.
card-handed-over-saying = Handed over { $when } by { $name }: { $said }
card-running = Running since { $when }, with { $name }.
do-walk-round = Walk the machine round
do-hand-over = Hand over
do-report-fault = Report damage
link-journal = Journal of the yard
link-people = People
link-rules = Why a machine stands down: the rules
link-reckoner = Every formula: the reckoner

stop-engine = To stop the engine:
how-got = How was this got?
open-finding = What to do about it
go-on-round = Go on with the round
do-start-run = Start the run
do-end-run = End the run
machine-findings = Found and not closed
machine-remarks = Said at the last round
machine-remark = { $point }: { $note }
machine-next-due = What comes next
machine-life-hours = Life hours:
slide-to-see-all = Slide the drawing sideways to see all of it.
machine-more = More
machine-papers = Papers for the wall and the cab
link-machine-journal = Journal of this machine
link-book = Machine book and its gaps
link-service = Topped up or adjusted something
link-hours = Hour meter
link-note = Write a note
link-stand-down = Stand it down
link-sheet = Type in a filled sheet
link-permit = Permit a move
link-sign-offs = Who may run it
paper-link = { $paper }, { $size }
found-by = Found { $when } by { $name }
open-here = Found here before and not closed: { $what }. { $who }.
side-left = { $name } from the left, points numbered along the lap
side-right = { $name } from the right, points numbered along the lap
seen-from-above = { $name } from above: stations in walking order, danger zone hatched
side-station = { $name }: the points of this station
drawing-zone = danger zone: nobody in here

round-title = Walk-round
round-summary = { $points ->
    [one] One point, { $minutes }. { $skipped }
   *[other] { $points } points, { $minutes }. { $skipped }
 }
round-progress = { $done } of { $points } points answered
round-find-fittings = Joints with no known fitting: find it
begin-round = Begin
begin-relief = Two-minute relief check
stop-done = { $all ->
    [one] done, one point
   *[other] done, { $all } points
 }
stop-left = { $done } of { $all }
hours-now = Hour meter
hours-last = Last read: { $value } h. Write what it shows now, or: not read
hours-none-yet = Not read yet. Write what it shows, or: not read
hours-not-read = not read
close-round = Finish the round
close-round-unfinished = { $n ->
    [one] Finish with one point unanswered
   *[other] Finish with { $n } points unanswered
 }
station-where = station { $n } of { $of } · { $done } of { $points }
station-already-kept = All answered here. You may answer again; the first answer stays readable.
station-next = Next
answer-again = Answer again
all-well-here = All well here
rest-well-here = The rest is well, next
keep-only-answers = Keep only what I answered
keep-next = Keep, next
stop-here-for-now = Stop here for now
could-not-check-or-note = Could not check, or a note …
could-not-check = Could not check: { $what }
note-label = Anything to add
point-kept = Kept: { $answer }.
judged-amiss = Not as it should be. It stays open until somebody mends it and names it.
scale-title = Read { $value }; limit { $limit }
correction-answered-again = Answered again in the same round.

ask-pose = How does the machine stand?
pose-other = Some other way, or not sure
pose-level-lower = { $pose } (the oil stands { $far } lower there)
pose-level-higher = { $pose } (the oil stands { $far } higher there)
ask-oil-heat = How warm is the oil?
ask-looks = What does it look like?
ask-strokes = Strokes given, if you counted
ask-how-many-bolts = How many of them
ask-reading = { $name }. Add ± if you are not sure.
ask-method = Measured so: { $method }?
ask-bypassed = Has somebody bridged the starting switch?
ask-bypassed-no = No, it is as it should be
ask-bypassed-yes = Yes, bridged or bypassed
ask-not-answered = Not answered yet.
    .next = Answer it, or open “Could not check”.
ask-missing-level = Where does it stand against the mark?
    .next = Choose one.
ask-missing-looks = What does the fluid look like?
    .next = Choose one: milky or wrong fluid stands the machine down.
ask-missing-pose = How did the machine stand when you read it?
    .next = A level means nothing without the pose.
ask-missing-heat = How warm was the oil?
    .next = Choose one. A hand on the tank is enough.
ask-missing-reading = No reading.
    .next = Write what the tape says, with its unit.
ask-missing-one-reading = No reading for { $name }.
    .next = This limit wants every reading.
ask-missing-method = Did you measure it this way?
    .next = A limit holds for its own method only.
ask-missing-condition = Was the condition met?
    .next = Without it the reading is kept but not judged.
ask-missing-bypassed = Is the starting switch bypassed?
    .next = Look at it and choose.
ask-whole-number = This is not a whole number.
    .next = Write digits only, or leave it empty.
ask-hours = What does the hour meter show?
    .next = Write it, for example 812.3. If nobody read it, write “not read”.
ask-empty = Nothing is written.
    .next = Write a few words.

rest-proof = Proof: { $proof }
rest-to-dig = To dig: { $what }
handover-title = Handover
handover-engine = The engine
handover-next = What must the next person know?
why-not-or-note = Why not, or a note …
ask-engine = Is the engine off?
    .next = Choose one.
ask-rest-step = Not answered: { $step }
    .next = Choose how it was left. “Not done” is an answer too.

fault-title = Report damage
fault-intro = Telling is right, whoever did it. What is known can be mended.
fault-what = What is wrong, and where
fault-severity = How bad is it
fault-severity-note = Can wait: write it down
fault-severity-care = It can run, with care
fault-severity-stand-down = It must not run
fault-keep = Report it
ask-fault-what = What is wrong?
    .next = A few words, and where on the machine.
ask-fault-severity = How bad is it?
    .next = Choose one. When in doubt: it must not run.
note-title = Write a note
note-intro = It stands in the journal of the machine.
note-text = For whoever comes next
note-do = Keep
stand-down-title = Stand it down
stand-down-intro = Anybody who works here may stop a machine. You need not be sure.
stand-down-text = Why it must not run
stand-down-do = Stand it down
permit-title = Permit a move
permit-intro = Moving only: no work, nobody near, walking pace. The machine stays stood down.
permit-who = Who may move it
permit-far = How far
    .hint = With its unit, for example 40 m
permit-hours = For how many hours from now
    .hint = 1 to 72
permit-how = Where to, and how
permit-keep = Permit it
ask-permit-who = Who may move it?
    .next = Choose one person.
ask-permit-hours = For how many hours?
    .next = Write a whole number from 1 to 72.
hours-title = Hour meter
hours-shows = It shows
    .hint = As it stands there, for example 812.3
hours-new = The new or mended one shows
hours-old = The old one showed last
hours-unmetered = Between them it ran, uncounted
    .hint = For example 12 h ± 6 h
hours-why = Why it was changed
ask-hours-empty = Nothing is written.
    .next = Write what the meter shows.
ask-hours-why = Why was the meter changed?
    .next = A few words. Years later it is the only clue.
run-title = Start the run
run-start = Start the run
run-work = What work
    .hint = For example: dig the drain behind the barn
run-sight = Who has you in sight
ask-run-stand-down = This machine is stood down.
    .next = It does not start. Ask the steward.
ask-run-sight = A learner runs with the steward or the deputy in sight.
    .next = Choose who it is, once they stand there.
shift-warm-up = Warm-up
shift-first-metres = First metres, brakes and steering
shift-gauges = Watch
shift-stop-and-tell = Stop and tell when
shift-cool-down = Before stopping
service-title = Topped up or adjusted
service-fluid = Fluid topped up
service-amount = How much
    .hint = With its unit, for example 1.5 L or 2 US qt
service-grade = Grade, as on the can
service-what = Or: what was adjusted
service-mends = It sets right
ask-service = Nothing to keep.
    .next = Write how much was filled in, or what was adjusted.

finding-title = A finding
finding-history = { $when }, { $name }: { $line }
finding-closed = Closed.
finding-mend = Write the repair
finding-what-done = What was done
finding-cost = Cost, with its currency, if any
finding-keep-repair = Keep the repair
finding-release = Release it
finding-release-caution = You answer for this. See it with your own eyes first.
finding-release-mended = What was mended, and how was it proven?
finding-do-release = Release it
finding-only-steward = Only the steward or the deputy releases it, naming what was mended.
ask-repair-what = What was done? Write a few words.
ask-release-mended = Name what was mended and how it was proven.
link-stand-down-tag = Stand-down tag for the key

journal-title = Journal
entry-count = { $n ->
    [one] one entry
   *[other] { $n } entries
 }
journal-conflicts = { $n ->
    [one] One entry came twice with different content. Both are kept.
   *[other] { $n } entries came twice with different content. All are kept.
 }
journal-older = Older entries
journal-replaced = Corrected by { $name }: { $line } ({ $why })
journal-voided = Struck out by { $name }: { $why }
journal-rivals = Two corrections disagree. The later one shows.
journal-clock = The writer's clock said { $at }.
do-correct = Correct
correct-title = Strike out an entry
correct-intro = The entry stays readable, struck through, with your reason. Write a new one for what is right.
correct-why = Why is it wrong
correct-do = Strike it out
questions-title = Questions
questions-none = Nothing to settle.
settle-unmetered = Hours run that nobody counted, if the meter was replaced
settle-why = Why
settle-wrong = The reading is wrong. Pass over it.
settle-right = The reading is right.
settle-replaced = The meter was replaced. Count on from here.
settle-rolled-over = The meter went round to zero.
settle-answered = Settled
do-settle = Settle it

book-title = Machine book
book-adopted-by = In force since { $when }, adopted by { $name }.
book-gaps = { $n ->
    [0] The book has no gaps
    [one] One gap, what it blocks
   *[other] { $n } gaps, the worst first
 }
gap-accept = Accept this gap
gap-accepted = Accepted by the steward.
gap-why = Why it may stay unknown
book-points = Points, numbered along the lap
col-no = no.
col-what = what
col-rhythm = when
col-limit = limit
col-deed = may
book-change = Change the book
book-text = Text of the book
book-why = Why it changes
book-check = Check it
book-adopt = Adopt it
book-no-mistakes = No mistakes found.
book-other-machine = This is the book of another machine. Its id must stay { $id }.
book-show-text = Show its text

people-title = People
people-change = Change role or PIN
people-role = Role
people-new-pin = New PIN
people-new-pin-empty = Leave empty to keep the old one.
people-add = Add a person
people-name = Name
people-pin = PIN
people-may = Who may do what
ask-person-name = Write a name of at most 60 letters.
ask-person-role = Choose a role.
ask-last-steward = You are the only steward. Make somebody else steward first.
sign-in-who = Who are you
sign-in-pin = PIN
sign-in-demo-hint = Invented yard: every PIN is 2580.
first-title = Choose your PIN
first-intro = { $name }, this link works once.
first-pin = New PIN
first-pin-hint = 4 to 32 letters or digits. Longer is better for the steward.
first-pin-again = The same again
pin-not-the-same = The two are not the same. Type both again.
pin-too-short = A PIN has at least four letters or digits.
pin-too-long = A PIN has at most 32 letters or digits.
pin-too-easy = This PIN is too easy to guess. No runs, no repeated digit.
sign-offs-title = Who may run it
sign-off-none = Not signed off.
sign-off-alone = May run it alone
sign-off-in-sight = May run it with steward or deputy in sight
sign-off-withdrawn = May not run it
sign-off-until = Until, if it ends
sign-off-until-date = until { $date }
sign-off-limits = Limits, in words
ask-date = This is not a date.
ask-sign-off = Choose what they may do.

taken-title = A filled sheet comes back
sheet-intro = Keep the sheet or a photo of it. Type what was not well, and every value.
taken-who = Who walked it
taken-when = When
sheet-answers = Exceptions and values, a line each
sheet-answers-hint = Number, colon, what was found: the words beside the box. For example:
sheet-example = { $n }: { $said }
sheet-not-checked-example = not checked, no tool
sheet-rest-ticked = Everything else on the sheet was ticked as well
sheet-keep = Keep the sheet
ask-sheet-who = Who walked the round?
    .next = Choose the person on the sheet.
ask-sheet-when = When was it walked?
    .next = Write date and time from the sheet, not in the future.
ask-sheet-line = Line { $line } does not read: { $text }
    .next = Write the number, a colon, then what was found.
ask-sheet-number = Line { $line }: no such number: { $text }
    .next = Take the number from the sheet's first column.
ask-sheet-said = Line { $line }: not an answer to that point: { $text }
    .next = Use the words beside the boxes on the sheet.
ask-sheet-level = Line { $line }: what did the mark show? { $text }
    .next = Write at mark, below, nothing or too full as well.
ask-sheet-pose = Line { $line }: how did the machine stand? { $text }
    .next = Write: as above, or the pose: { $poses }, other.
ask-sheet-looks = Line { $line }: what did the fluid look like? { $text }
    .next = Write clean, dark, milky or wrong as well.
ask-sheet-heat = Line { $line }: was the oil cold, warm or hot? { $text }
    .next = Write cold, warm or hot as well.
ask-sheet-condition = Line { $line }: was the condition beside it met? { $text }
    .next = Write met or not met as well.
ask-sheet-each = Line { $line }: what did each combination do? { $text }
    .next = Write turned, did not or untried for each, in the order of the sheet.

reckoner-title = Reckoner
reckoner-intro = Every formula here, with its source. A figure never overrules a yard rule or a maker's word.
figure-intro = Reckoned by: { $leaf }.
paper-named-a4 = A4
paper-named-letter = Letter
link-round-sheet = Walk-round sheet
link-greasing-chart = Greasing chart
link-due-strip = Strip of what comes next
level-as-it-must-be = At or over the mark, and clean. Read so: { $pose } ({ $oil }).
level-otherwise = Something else …
journal-in-detail = In detail
rest-short-proven = Proof seen
rest-short-done = Done
rest-short-on-lock = On its lock
rest-short-not-done = Not done
found-times = { $n ->
    [one] { $what }
   *[other] { $what } ({ $n } times)
 }
habits-title = Habits of the yard
habits-intro = Settled once, for all machines. Change them with care: verdicts go by them.
habits-holds = Hours a finished round holds
    .hint = 1 to 72; a working day is 12
habits-refused = Hours a machine may run after a fitting refused grease
    .hint = Where the book says nothing. Empty: it stands down at once
habits-relief = May a two-minute relief check stand in between learners, on a supervised day?
habits-comma = Is the comma the decimal sign here?
habits-gun = Grams one stroke of the yard's grease gun gives
    .hint = Weigh twenty strokes. Empty: not known
ask-habits-holds = How many hours does a round hold?
    .next = Write a whole number from 1 to 72.
ask-habits-refused = How many hours after refused grease?
    .next = Write a whole number from 1 to 100, or leave it empty.
ask-habits-gun = How many grams a stroke?
    .next = Write a number from 0.1 to 10, or leave it empty.
book-point-vanished = The point { $id } is gone and nobody says where. Declare it under [renamed], or keep it.
run-to-dig = To dig: { $what }: { $how }.
run-end-title = End the run
run-amiss = Was anything amiss?
    .hint = Empty if nothing was. Damage is better reported by itself
begin-after = Round after use
ask-more-due = By these hours more is due.
    .next = It is on the list now. Look at it, then finish.
round-stood-down = Stood down. The engine is not started in this round.
round-in-sight = The steward or the deputy has you in sight. Without them the engine stays off.
ask-hours-negative = Hours are never below nothing.
    .next = Write them without a minus.
ask-over-under = Over more than it is under: one of the two is a slip.
    .next = Write over the smaller, under the larger.
journal-typed-by = From paper, typed in by { $name }.
permit-never = Never permit a move with brakes or steering that do not hold, or with anything raised on oil alone.
zone-in-words = Nobody within { $far } while it works.
start-order = To start it, in this order
finding-also = The same was found before. What closes this one closes these too:
error-text-too-long = A text has more than 20,000 letters.
    .next = Nothing of this form was kept. Go back: your text is still there. Shorten it and send it again.
error-disk-full = The disk of the yard's computer is full
    .next = Nothing of this was kept. Make room there, then do it again.
figure-entries = The entries it rests on
