### Words of the pages: headings, buttons, boxes, notices. Sentences that belong to a job are in that job's file.
### $machine, $person, $point, $station, $name: names; $n, $of: counts; $at, $until: times already said
### $verdict: already said; $minutes: minutes; $line, $column: of the machine book; $address: an address; $version: of the program
### $date: already said; $what: own words; $value: ready to show

page-title = { $name } · Kingpost
skip-to-content = Skip to the content
nav-yard = Yard
nav-journal = Journal
nav-people = People
nav-reckon = Reckoner
nav-papers = Papers
nav-help = Help
nav-sign-in = Sign in
nav-sign-out = Sign out
nav-where = You are here
signed-in-as = Signed in: { $person }
footer-version = Kingpost { $version }
notice-invented = Invented machine, invented people: a demonstration.
notice-kept = Kept.
notice-kept-at = Kept at { $at }.
notice-not-kept = Not kept.
notice-known-already = This was kept already. Nothing was written twice.
notice-conflict = The same entry came twice with different content. Both are kept, and the steward is asked.
notice-offline = No connection. What you write stays on this phone and is delivered later.
notice-offline-verdict = Without connection nothing can be called fit. What you see may be old.
notice-as-of = As of { $at }.
notice-form-mistakes = { $n ->
    [one] One box needs another look.
   *[other] { $n } boxes need another look.
 }

button-send = Send
button-keep = Keep
button-back = Back
button-next = Next
button-cancel = Cancel
button-print = Print
button-show = Show
button-change = Change
button-add = Add
button-yes = Yes
button-no = No
box-optional = may stay empty
box-note = Anything to add
box-why = Why
box-hours = Hour meter reads
box-hours-hint = As the meter shows it, for example 1234.5
box-photo = Photo
unknown = not known
none = none
in-order = in order
open = open
closed = closed
more = more
less = less

yard-title = Yard
yard-empty = No machine here yet.
    .next = Write a machine book, or start from a blank, and adopt it.
yard-machines = { $n ->
    [one] One machine
   *[other] { $n } machines
 }
yard-for = Verdicts are for you, { $person }, now.
yard-for-visitor = Sign in to see what holds for you.
yard-open-questions = { $n ->
    [one] One question for the steward
   *[other] { $n } questions for the steward
 }
yard-last-left = Left { $at } by { $person }
yard-running-now = Running since { $at }, { $person }

machine-stop = How to stop the engine
machine-stop-unknown = Nobody has written how to stop this engine.
    .next = Find out before anybody starts it.
machine-start = How to start it
machine-why = Why
machine-walk = Walk it round
machine-go-on = Go on with the walk-round
machine-start-run = Start the run
machine-hand-over = Hand it over
machine-end-run = End the run
machine-fault = Report a fault
machine-stand-down = Stand it down
machine-release = Release it
machine-grease = Grease
machine-top-up = Top up
machine-meter = Read the meter
machine-note = Write a note
machine-permit = Permit a move
machine-book = Machine book
machine-history = History
machine-papers = Papers
machine-due = What is due
machine-hours = Hours run
machine-findings = What is wrong
machine-no-findings = Nothing is known to be wrong.
machine-weaknesses = Known weaknesses
machine-drawing-plan = Seen from above: stations along the lap, danger zone
machine-drawing-left = Left side, with its points
machine-drawing-right = Right side, with its points
machine-danger-zone = Danger zone: nobody in here while it works.
machine-left = How it was left
machine-next-must-know = What the next person must know
machine-gear-tracks = on tracks
machine-gear-wheels = on wheels
machine-shift = During the shift
shift-warm-up = Warm-up
shift-first-metres = First metres: brakes and steering
shift-gauges = Gauges to watch
shift-stop-and-tell = Stop and tell
shift-cool-down = Cool-down

round-title = Walk-round
round-of = Walk-round of { $machine }
round-start = Begin
round-nothing-due = Nothing is due.
round-progress = Station { $n } of { $of }
round-points-left = { $n ->
    [one] one point left
   *[other] { $n } points left
 }
round-before = Before you begin
round-leg = Now: { $name }
round-pose = Pose
round-all-well = All well here
round-all-well-not = This station has values or levels. Answer them one by one.
round-not-all-well = Something is not well
round-could-not = Could not check
round-could-not-why = Why not?
round-how = How
round-why = Why it matters
round-why-due = Due because
round-limit = Limit
round-reading = Reading
round-measured-so = Measured the book's way
round-condition = Was it so: { $name }?
round-strokes = Strokes
round-how-many = How many
round-read-in = Read with
round-oil-is = The oil is
round-looks = It looks
round-bypassed = The starting switch is bypassed
round-finish = Finish the round
round-interrupted = You can stop here and go on later. What you sent is kept.
round-answered = Answered
round-change-answer = Answer again
round-done = Round finished
round-verdict-given = Verdict given then: { $verdict }
round-from-paper = From paper
round-from-paper-hint = Type the exceptions and the values of the sheet. Keep the sheet.
round-relief = Two-minute relief check
station-number = Station { $n }
point-number = Point { $n }
point-mirror = The same point on the other side: { $name }
point-open-finding = Known to be wrong since { $at }
point-weakness = Known weakness: look every time.

handover-title = Handover
handover-of = Hand over { $machine }
handover-order = Leave it in this order
handover-proof = Proof
handover-to-dig = To dig: { $what }
handover-engine = The engine is
handover-next-box = What must the next person know?
handover-write = Hand it over
handover-not-at-rest-hint = It is written down as it is. The next person sees it first.
handover-pressure = A stopped engine does not take the pressure off. It is live until bled and gauged.

release-title = Release { $machine }
release-names = What was mended
release-names-hint = Tick each finding you release. Only what you name is closed.
release-proof = What was mended, and how was it proven?
release-not-mended = Nobody has written a repair for this yet.
repair-title = Write a repair
repair-closes = It mends
repair-what = What was done
repair-cost = Cost, with currency
fault-title = Report a fault
fault-what = What is wrong
fault-point = At which point
fault-how-bad = How bad is it
stand-down-title = Stand { $machine } down
stand-down-why = Why it must not run
stand-down-anybody = Anybody who works here may stop a machine. You need not be sure.
permit-title = Permit a move
permit-who = Who may move it
permit-far = How far
permit-until = Until
permit-how = Where to, and how
permit-caution = Moving only. No work, nobody near, walking pace.
meter-title = Read the hour meter
note-title = Write a note

journal-title = Journal
journal-of = Journal of { $machine }
journal-empty = Nothing is written yet.
journal-older = Older
journal-newer = Newer
journal-entry = Entry
journal-when = When
journal-who = Who
journal-what = What
journal-corrected = Corrected
journal-correct = Correct this entry
journal-correct-void = Strike it out
journal-correct-instead = Replace it
journal-correct-why = Why is it wrong?
journal-never-deleted = Nothing is ever deleted. The old line stays, struck through.
journal-questions = Questions
journal-settle = Settle it
journal-device = Written on
journal-number = Number
journal-clock-corrected = The writer's clock was off.

book-title = Machine book
book-of = Machine book of { $machine }
book-revision = In use since { $at }, adopted by { $person }
book-draft = Draft
book-check = Check it
book-adopt = Adopt it
book-why = Why did it change?
book-gaps = What the book does not say yet
book-no-gaps = The book has no gaps.
book-gap-safety = bears on safety
book-gap-minor = minor
book-gap-accept = Accept this gap
book-gap-accepted = Accepted: { $what }
book-gap-unlocks = What would help
book-mistakes = { $n ->
    [one] One mistake
   *[other] { $n } mistakes
 }
book-warnings = { $n ->
    [one] One thing to look at
   *[other] { $n } things to look at
 }
book-no-mistakes = The book reads without mistakes.
book-place = Line { $line }, column { $column }

people-title = People
people-person = { $person }
people-role = Role
people-add = Add a person
people-name = Name
people-set-pin = Set a PIN
people-may-run = May run
people-sign-off = Sign off
people-sign-off-until = Until
people-sign-off-limits = Limits, in words
people-in-sight = Only with the steward or the deputy in sight
people-withdraw = Withdraw
people-no-sign-offs = Signed off on nothing yet.

sign-in-title = Sign in
sign-in-name = Name
sign-in-pin = PIN
sign-in-do = Sign in
sign-in-wrong = Name and PIN do not fit.
    .next = Try again, or ask the steward for a new PIN.
sign-in-wait = Too many wrong tries.
    .next = Wait until { $at }, or ask the steward.
sign-in-first = Sign in first, then go on.
first-start-title = First start
first-start-intro = This link works once. It makes you the steward of this yard.
first-start-name = Your name
first-start-pin = Choose a PIN of at least six digits
first-start-pin-again = The same PIN again
first-start-do = Begin
first-start-used = This link was used already.
    .next = Sign in with your name and PIN.
pin-too-short = A PIN has at least six digits.
    .next = Choose a longer one.
pin-not-digits = A PIN has digits only.
    .next = Type digits.
pin-not-same = The two PINs are not the same.
    .next = Type both again.
pin-too-plain = This PIN is too easy to guess.
    .next = Choose one that is no row and no repeated digit.
signed-out = You are signed out.

papers-title = Papers
papers-round-sheet = Walk-round sheet
papers-greasing-chart = Greasing chart
papers-tag = Stand-down tag for the key
papers-due-strip = What comes next
papers-paper-size = Paper
papers-take-in = Take in a filled sheet
papers-photo-or-keep = Photograph the sheet or keep it. Then type what was not well, and every value.

serve-at = The yard is open at { $address }
serve-demo = There was no yard here, so an invented one was made. Everything in it is made up.
serve-stop = Stop it with Ctrl+C. Nothing is lost.
serve-first-link = Steward: open this link once, within the day: { $address }
serve-network = Phones on the same network open { $address }
