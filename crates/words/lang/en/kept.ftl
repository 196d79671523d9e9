### Parts and papers: the shelf, shopping, attachments, documents, leaving, and the papers that go with them.
### $what, $why, $text, $title, $note, $to, $how, $from, $thread, $grade, $number, $size, $kept: the person's own words
### $name, $point, $machine, $person: names; $n, $of, $low, $high, $have, $keep, $hours, $days: how many; $torque, $found, $value: as written
### $date, $until, $when, $at: dates or times ready to show; $line, $points, $reading: pieces said before

book-trouble-torque-unlikely = { $torque } is hard to believe for { $thread } of grade { $grade }: between { $low } and { $high } Nm would be usual.
    .next = Look at the unit, and at what is stamped on the head. If it is right, leave it.
book-trouble-bad-date = “{ $found }” is no date.
    .next = Write year, month and day: "2025-03-01".
book-trouble-mark-of-other-attachment = A mark names the attachment “{ $found }”, which the book does not take.
    .next = Use the id of an attachment of the book.

leaf-upkeep-bolt-torque = Torque of a bolt
    .purpose = Tells how hard a bolt is turned so that it holds with a share of what it can bear.
    .formula = Share of the proof load, times nut factor, times diameter.
    .caution = The nut factor is a guess: dry, oiled and plated threads differ by three times. The maker's torque comes first.
    .in-diameter = diameter of the thread
    .in-stress-area = stress area of the thread
    .in-proof-stress = proof stress of the grade
    .in-share = share of the proof load, 0.75 as a rule
    .in-nut-factor = nut factor, about 0.2
    .out-preload = pull in the bolt
    .out-torque = torque
leaf-upkeep-thread-stress-area = Stress area of a thread
    .purpose = Tells how much metal of a thread carries the load.
    .formula = A circle between the depth of the thread and its outside.
    .caution = For threads in good order. Rust and wear take metal away.
    .in-diameter = diameter of the thread
    .in-pitch = pitch
    .in-unified = inch thread
    .out-area = stress area

entry-shelf-count = Counted on the shelf: { $n } of { $name }
entry-attachment-on = { $name } put on
    .note = { $name } put on: { $note }
entry-attachment-off = { $name } taken off
    .note = { $name } taken off: { $note }
entry-document = { $what }: { $title }
    .until = { $what }: { $title }, holds until { $until }
entry-document-ended = Document ended: { $why }
entry-left-yard = Left the yard, { $how }
    .to = Left the yard, { $how }, to { $to }
entry-came-back = Came back to the yard: { $why }

document-manual = manual
document-certificate = certificate
document-insurance = insurance
document-test-report = test report
document-registration = registration
document-recall = recall
document-other = other document
left-how-sold = sold
left-how-scrapped = scrapped
left-how-given-back = given back
part-kind-filter = filter
part-kind-belt = belt
part-kind-hose = hose
part-kind-seal = seal
part-kind-bearing = bearing
part-kind-pin = pin
part-kind-clip = clip
part-kind-fastener = fastener
part-kind-bulb = bulb
part-kind-tyre = tyre
part-kind-other = other part
put-in-dry = dry
put-in-lubricated = lubricated

reason-left-yard-sold = It was sold and is not of this yard any more.
    .next = If it came back, the steward says so.
reason-left-yard-scrapped = It was scrapped.
    .next = If that is wrong, the steward says so.
reason-left-yard-given-back = It was given back and is not of this yard any more.
    .next = If it came back, the steward says so.
reason-attachment-stands-down = { $name }, which is on it, stands down.
    .next = Open the page of { $name } to see why. Or take it off.
reason-attachment-not-known = An attachment is on it that the yard has no book of: { $name }.
    .next = Take it off, or begin a book for it.
reason-no-document = A document it needs is not there: { $title }.
    .next = The steward looks for it, or has it made.
reason-no-document-ended = A document it needs is over: { $title }, since { $date }.
    .next = The steward has it renewed.
reason-open-recall = The maker warns of it, and nothing was done yet: { $title }.
    .next = Read the recall. The steward writes down what was done.
reason-level-attachment = { $point } was read with other attachments on than its mark is made for.
    .next = Put on the attachment of the mark and read it again.

rule-left-yard = A machine that left the yard stands down until the steward says that it came back.
    .title = Left the yard
    .why = Nobody here knows how it stands.
    .source = This yard's own rule.
rule-attachment = What stands an attachment down by its own book stands down the machine that carries it.
    .title = Attachment stands down
    .why = A bucket with a missing clip falls off whatever it hangs on.
    .source = This yard's own rule.
rule-needed-document = A needed document that is missing or over weighs what the book says, else it is run with care.
    .title = Document missing
    .why = An examination that is overdue was asked for with a reason.
    .source = Common practice, no source.
rule-open-recall = A recall is run with care until the steward writes down what was done.
    .title = Open recall
    .why = Somebody found out the hard way, and told.
    .source = Common practice, no source.
rule-level-attachment = A level read with other attachments on than its mark is made for is not known.
    .title = Level with another attachment
    .why = Another weight holds the arm otherwise, and its rams hold oil.
    .source = This yard's own rule, as for the pose of a mark.

part-count = How many
    .hint = One, unless you write another number
ask-how-many = That is no number of parts.
    .next = Write a whole number, from 1 on.
