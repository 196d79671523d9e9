### Who is who in the yard, and what each may do.
### $person: a name; $role: a role already said; $deed: a deed already said; $who: whom to ask, as its code

role-visitor = visitor
    .is = Looks only.
    .one = A visitor
role-learner = learner
    .is = Runs a machine with the steward or the deputy in sight.
    .one = A learner
role-operator = operator
    .is = Runs the machines they are signed off on.
    .one = An operator
role-deputy = deputy
    .is = Stands in for the steward.
    .one = The deputy
role-steward = steward
    .is = Looks after the machines, teaches, and decides what may run.
    .one = The steward

deed-look = see machines, verdicts, history, books and papers
deed-walk-round = walk a machine round
deed-report-fault = report a fault
deed-stand-down = stand a machine down
deed-run = run a machine
deed-hand-over = hand a machine over
deed-note = write a note or keep a photo
deed-read-meter = read the hour meter
deed-service = grease, top up and adjust
deed-correct-own = correct an entry of their own
deed-repair = write a repair or a part fitted, count the shelf, put an attachment on or take it off
deed-correct-any = correct anybody's entry
deed-release = release a machine, naming what was mended
deed-permit-move = permit moving a machine that is stood down
deed-settle = settle a question
deed-take-in-paper = type in filled sheets for others
deed-sign-off = sign a person off, record a lesson or a purchase
deed-keep-documents = keep a document that no machine needs to run
deed-adopt-book = adopt a machine book or accept a gap in it
deed-needed-documents = keep a document that a machine needs to run, end a document, answer a recall
deed-let-go = let a machine go from the yard, or take it back
deed-manage-people = give and take roles, set PINs
deed-keep-yard = back up, restore, export, set the yard's habits

permissions-title = Who may do what
permissions-intro = This table is made from the program's own table. Pages, commands and the journal all ask the same one.
permissions-deed = To…
permissions-yes = yes
permissions-no = no
permissions-note-run = Run a machine: the verdict also asks for a sign-off on that machine. A learner needs the steward or the deputy in sight.
permissions-note-stop = Anybody who works here may stop a machine. Only the steward or the deputy may release it.

may-not = { $role } may not { $deed }.
    .next = { $who ->
        [steward] Ask the steward: nobody else may.
       *[other] Ask the steward or the deputy.
     }
the-program = the program
