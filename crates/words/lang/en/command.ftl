### The command line: its help, what commands say, the exit codes.
### $address: an address; $at: a moment already said; $detail, $why: the reason as found; $dir, $path: a folder or file
### $n, $points, $skipped, $more: counts; $name, $yard, $what, $written, $pin: as written; $reasons: a list; $seq: a place in the journal
### $span: a duration already said

help-kingpost = The working book of a small yard of old shared machines. Without a command it opens the yard and serves it.
help-book = Machine books: check, begin, list gaps, adopt.
help-book-check = Check machine books. All mistakes are listed at once, each with its line.
help-book-new = Begin a machine book from a blank.
help-book-gaps = List what a book does not say yet, and what that blocks.
help-book-adopt = Take a machine book into use, with its full text, as an entry of the journal.
help-book-format = Print the format of machine books.
help-walkround = The walk-round: what is due now, and the points of a book.
help-walkround-plan = Show the round that is due now for this machine and person.
help-walkround-points = Show the points of a machine book along its lap, with numbers and limits.
help-handover = The verdict: may it run, and why.
help-handover-verdict = Give the verdict. Exit code 0 is fit to run, 10 run with care, 20 stand down.
help-handover-rules = List the rules that verdicts are made by, with their sources.
help-upkeep = What is due next, and the hours run.
help-upkeep-due = List what comes round next, by hours and by dates.
help-upkeep-hours = Show the life hours, how they were got, and the last readings.
help-reckon = The reckoner. Alone it lists its leaves; with a leaf's name it shows the page; with values it works it out.
help-journal = The journal: verify, back up, restore, export, import, list.
help-journal-verify = Walk the whole journal and check that nothing was changed or lost.
help-journal-backup = Back everything up into a new folder, also while the yard is open.
help-journal-restore = Restore a backup into an empty folder.
help-journal-export = Write the yard as plain files into a new folder.
help-journal-import = Take in a yard that was exported.
help-journal-list = List the last entries.
help-journal-questions = List what waits for the steward or the deputy.
help-papers = Papers as PDF, for the wall, the cab or the file.
help-papers-round-sheet = The sheet for the round that is due now.
help-papers-greasing-chart = The greasing chart for the wall.
help-papers-stand-down-tag = The tag for the key of a machine that is stood down.
help-papers-due-strip = The strip beside the hour meter: what comes next.
help-people = People: list, add, let somebody choose a PIN.
help-people-list = List everybody with their role.
help-people-add = Add a person. Only the steward may.
help-people-pin-link = Make a link under which a person chooses a new PIN. It works once.
help-people-permissions = Print the table of who may do what.
help-yard = Begin a yard.
help-yard-new = Begin a yard of your own, with its steward.
help-yard-demo = Make the invented demo yard.
help-serve = Open the yard and answer browsers. Where there is no yard yet, the invented demo yard is made.

arg-data = Folder that holds the yard
arg-json = Answer in JSON
arg-files = Machine books
arg-file = A machine book
arg-like = The blank to begin from
arg-name = Name
arg-id = Id of the machine: small letters, digits and dashes; it never changes
arg-output = File to write
arg-machine = Id of a machine of the yard
arg-by = Name of the person
arg-why = Why it changed
arg-md = As Markdown
arg-schema = As a JSON schema for editors
arg-reckon-schema = Print the leaf's inputs as a JSON schema
arg-reckon-name = Leaf: its id, or the last part of it
arg-inputs = Inputs, such as `interval=50h`; a list with semicolons between, or named again
arg-validation-md = Print the document of all cases
arg-cases = Folder of the cases
arg-purpose = Why the round is walked
arg-book = A machine book
arg-dir = Folder
arg-backup = Folder of the backup
arg-into = Folder to restore into; it must be empty
arg-last = How many entries
arg-exit-codes-md = Print the table of exit codes
arg-size = Paper in the printer
arg-address = How phones reach this computer: its name or address in the network
arg-finding = The finding for the tag: its entry, or entry and point
arg-role = Role in the yard
arg-steward = Name of the founding steward
arg-network = Answer the local network, not only this computer
arg-port = Port; without it the first free one from 4720 on

exit-title = Exit codes
exit-intro = Every command ends with one of these. Verdicts have their own, so that a script can act on them.
exit-column-code = Code
exit-column-means = Means
exit-done = Done. Of a verdict: fit to run.
exit-usage = The command line was not understood. Nothing was done.
exit-mistakes = What was handed in has mistakes, or what is kept is damaged. The text says where.
exit-refused = Refused: not entitled, not found, in use, written by a newer program. Or the place is wrong: a network share, a folder not empty or not to be written, a full disk.
exit-care = The verdict is: run with care.
exit-stand-down = The verdict is: stand down. Also when the machine must be walked round first.
exit-ours = A mistake of the program, or of the system under it. Report it.
exit-note = With `--json`, a trouble is JSON on standard error: its code, what is so, what to do next, the exit code.

nobody-and-nothing = nothing yet
machine-without-book = “{ $name }” has no book that reads.
    .next = Check its book with `kingpost book check`, then adopt it.
bad-machine-id = “{ $name }” cannot be the id of a machine.
    .next = Use small letters, digits and dashes, such as `bess`.
bad-name = A name needs 1 to 60 letters on one line.
    .next = Give the name people call it by.
person-exists = There is a “{ $name }” in this yard already.
    .next = Add a second name or a letter, so that they can be told apart.
points-vanished = Points of the old book are gone without a word: { $reasons }.
    .next = Declare them renamed in the book, or say with `--why` why they are gone.
reckon-no-value = “{ $written }” names no value.
    .next = Write it as `input=value`, such as `interval=50h`.
case-does-not-read = { $path } does not read as a case: { $detail }
    .next = Mend its front matter.
nothing-stands-down = Nothing found on “{ $name }” stands it down.
    .next = Name a finding with `--finding`.

book-begun = { $path } is written. Measure the machine, fill the gaps, then check it with `kingpost book check`.
book-mend-first = Mend these first, then try again.
book-is-adopted = The book of { $name } is in force. { $n ->
    [0] It has no gaps.
    [one] It has one gap.
   *[other] It has { $n } gaps.
 }
gap-is-accepted = accepted
gaps-none = This book has no gaps.
plan-heading = { $what }: { $points ->
    [one] one point
   *[other] { $points } points
 }, { $span }; { $skipped } not due
plan-first = First of all:
verdict-made = As of { $at }.
reckon-inputs-written = Inputs, as they are written here:
hours-readings = Last readings
questions-nothing = Nothing waits for an answer.
paper-made = { $path } is written.

journal-sound = The journal is as it was accepted: { $n ->
    [one] one entry
   *[other] { $n } entries
 }, ending in { $what }.
journal-broken = The journal is not as it was accepted, from entry { $seq } on: { $why }.
journal-complaint = The database complains: { $what }
journal-picture = A photo is missing or changed: { $what }
journal-backed-up = Backed up into { $dir } and checked: { $n ->
    [one] one entry
   *[other] { $n } entries
 }, { $more ->
    [one] one photo
   *[other] { $more } photos
 }. Note this down with the date: { $what }
journal-restored = Restored and checked: { $n ->
    [one] one entry
   *[other] { $n } entries
 }, ending in { $what }.
journal-restored-next = Compare that ending with the one noted at the backup. Open it with `kingpost --data { $dir }`.
journal-exported = Written into { $dir } as plain files: { $n ->
    [one] one entry
   *[other] { $n } entries
 }.
journal-imported = { $name } is here now, with { $n ->
    [one] one entry
   *[other] { $n } entries
 }.
broken-missing = one is missing before it, or it is out of place
broken-changed = it was changed
broken-not-an-entry = it is no entry of this yard
broken-column = the columns for looking it up do not say what it says
broken-later-than-written = it stands later than it was written
broken-twice = it is there twice
broken-does-not-read = it does not read
export-readme = This is the whole book of a yard, as plain files.
    The journal has one entry on each line, in order of acceptance, exactly as it was written.
    Books that were adopted lie beside it as text. Names are in the file of people, PINs are not.
    Take it in again with `kingpost journal import`.

person-signs-in = signs in
person-without-pin = has no PIN yet
person-added = { $name } is added. Within { $n } hours, this link lets them choose a PIN, once:
    { $address }
person-link = Within { $n } hours, this link lets { $name } choose a new PIN, once:
    { $address }
yard-made = { $yard } is begun, with { $name } as steward. Serve it, and choose a PIN under this link within a day. It works once:
    { $address }
demo-made = The demo yard is made in { $dir }. Machine, people and entries are invented. Everybody's PIN is { $pin }.

serve-demo-made = There was no yard yet, so the demo yard was made in { $dir }. Machine, people and entries are invented.
serve-open = { $name } is open at { $address }
serve-demo-pin = Sign in as anybody; every PIN here is { $pin }.
serve-here-only = Only this computer can reach it. For phones in the yard: `kingpost serve --network`
serve-network = Phones in the same network reach it there:
serve-stop = Ctrl+C stops it.
serve-stopped = Stopped. Everything accepted is on the disk.
