### The journal: one line for each kind of entry, and the questions only steward or deputy can settle.
### $answer: an answer already said; $person, $name, $machine, $point, $part: names; $what, $why, $how, $text, $work: the writer's own words
### $n, $of: how many; $hours, $from, $to, $passed, $value: numbers as written or ready to show
### $verdict: a verdict already said; $role: a role already said; $until, $at: times already said
### $kind, $version, $place: as stored; $perhaps: possible readings as a list; $things: names as a list
### $line: an entry's line already said; $cost: as written; $grade: as on the can; $far: as written; $engine: already said

entry-book-adopted = Machine book taken into use
    .why = Machine book taken into use: { $why }
entry-gap-accepted = Gap in the book accepted: { $why }
entry-meter-reading = Hour meter reads { $hours }
entry-meter-change = Hour meter changed: { $why }
entry-ruling = Question settled: { $what } ({ $why })
entry-walk-round = { $n ->
    [one] Walk-round: one point
   *[other] Walk-round: { $n } points
 }
entry-walk-round-closed = { $n ->
    [0] Walk-round finished: { $verdict }
    [one] Walk-round finished: { $verdict } (one point in this part)
   *[other] Walk-round finished: { $verdict } ({ $n } points in this part)
 }
entry-from-paper = { $line }, from paper
entry-run-start = Started
    .work = Started: { $work }
entry-run-during = During the run
    .work = During the run: { $work }
entry-run-end = Run ended
    .work = Run ended: { $work }
entry-run-hours = { $line }, meter { $hours }
entry-run-amiss = { $line }. Not well: { $things }
entry-run-in-sight = { $line }, with { $person } in sight
entry-greasing = { $n ->
    [one] One fitting greased
   *[other] { $n } fittings greased
 }
entry-top-up = Topped up { $part } with { $value }
    .grade = Topped up { $part } with { $value } of { $grade }
entry-top-up-fluid = fluid
entry-adjustment = Adjusted: { $what }
    .point = Adjusted { $point }: { $what }
entry-fault = Fault ({ $verdict }): { $what }
    .point = Fault at { $point } ({ $verdict }): { $what }
entry-repair = Repaired: { $what }
    .cost = Repaired: { $what } (cost { $cost })
entry-stand-down = Stood down: { $why }
entry-release = Released: { $what }
entry-move-permit = { $person } may move it { $far }, until { $until }: { $how }
entry-handover = Handed over: { $what }, { $engine }
entry-handover-steps = { $n } of { $of } steps done
entry-handover-next = { $line }. For the next person: { $text }
entry-part-fitted = Part fitted: { $what }
    .point = Part fitted at { $point }: { $what }
entry-purchase = Bought: { $what }
    .cost = Bought: { $what } ({ $cost })
entry-lesson = Lesson for { $person }: { $what }
entry-sign-off-given = { $person } signed off
entry-sign-off-in-sight = { $person } signed off, only with the steward or the deputy in sight
entry-sign-off-withdrawn = Sign-off of { $person } withdrawn
entry-sign-off-until = { $line }, until { $until }
entry-sign-off-limits = { $line }: { $text }
entry-note = Note: { $text }
    .point = Note on { $point }: { $text }
entry-photo = Photo
    .text = Photo: { $text }
entry-correction-void = Struck out: { $why }
entry-correction-instead = Corrected ({ $why }). Now: { $line }
entry-role-given = { $person } is now { $role }
entry-role-taken = { $person } has no role here any more
entry-unknown = Kept, not understood: “{ $kind }”, version { $version }. A newer program may read it.
entry-unreadable = Kept, does not read as “{ $kind }” (at { $place })

entry-closing = { $line } ({ $what })
detail-closes = closes: { $what }
found-at-point = { $point }: { $answer }
found-stood-down = Stood down: { $why }
entry-mends = { $n ->
    [one] closes one finding
   *[other] closes { $n } findings
 }
entry-clock-corrected = The writer's clock was off. It said { $at }.
entry-corrected = corrected later
entry-voided = struck out later
entry-rivals = two corrections: the later one shows

ruling-meter-replaced = the meter was replaced
ruling-meter-rolled-over = the meter rolled over
ruling-reading-wrong = the reading is wrong
ruling-reading-right = the reading is right
ruling-answered = answered

question-meter-fell = The hour meter fell from { $from } to { $to }.
    .next = Was it replaced, did it roll over, or is the reading wrong? Say which.
question-meter-jumped = The hour meter rose from { $from } to { $to }, but only { $passed } hours passed.
    .next = Read it again. Say whether the reading is right or wrong.
question-meter-jumped-perhaps = The hour meter rose from { $from } to { $to }, but only { $passed } hours passed.
    .next = Read it again. Two digits may be swapped: was it { $perhaps }?
question-unreadable = An entry does not read as “{ $kind }” (at { $place }).
    .next = Ask who wrote it, and write down what was meant.
question-text-too-long = A text of { $n } letters came in. It is kept whole.
    .next = Read it. Write down in a few lines what matters, and settle this.
question-misfit = { $point }: the answer is of another kind than the question.
    .next = Ask who answered, and answer it again.
question-no-such-point = An answer names “{ $point }”, which the book does not have.
    .next = If it was renamed, write the rename in the book. If not, answer it in words.
question-not-entitled = Somebody wrote what they may not write, about { $what }. It has no effect.
    .next = If it is right, write it yourself.
question-correction-not-entitled = Somebody corrected an entry who may not.
    .next = If it is right, correct it yourself.
question-rivals = Two corrections speak of one entry. The later one shows.
    .next = Say which one holds, and correct it once more.
question-book-unread = { $n ->
    [one] The adopted book has one mistake for this program.
   *[other] The adopted book has { $n } mistakes for this program.
 }
    .next = Mend the book and adopt it again.
question-attachment-moved = { $name } was put on while it was still on { $from }. The later place holds.
    .next = Go and look where it hangs. If that is not so, write where it is.
question-attachment-not-taken = { $name } was put on, but the book does not name it.
    .next = If it fits and locks, write it in the book. If not, take it off.
question-left-running = { $engine ->
    [running] The handover says that the engine was left running.
   *[not-said] The handover does not say whether the engine was stopped.
 }
    .next = Go and look. Stop it, then write the handover again.
a-finding = a finding

chain-whole = { $n ->
    [one] The journal is whole: one entry, its hash fits.
   *[other] The journal is whole: { $n } entries, every hash fits.
 }
chain-broken = The journal does not fit at entry { $n }. Something changed it from outside.
    .next = Stop writing. Restore the last backup into a new folder and compare.
