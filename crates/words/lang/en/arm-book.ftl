### The arm in the machine book: its tables and keys, what is wrong with them, what they do not say yet.
### $pin, $found, $of, $word: as written; $nearest: what may be meant; $right, $known: words of the format
### $wanted, $least, $most: how many; $first-line: a line of the book; $subject: what a gap is about

field-arm = The arm: which way it points, and what one sees when a ram gets longer.
    .points = Which way it points when it is not swung.
    .axis-from-middle = From the middle of the undercarriage to the swing axis, the way the arm points. Nothing on a machine that turns all round.
    .boom-ram-out = What the boom does when its ram gets longer.
    .dipper-ram-out = What the dipper does when its ram gets longer.
    .bucket-ram-out = What the bucket does when its ram gets longer.
    .bucket-width = Width of the bucket.
    .lever = Length of the lever, about. A distance from lever-pin to linkage-pin overrules it.
    .link = Length of the link, about. A distance from linkage-pin to link-pin overrules it.
field-pin = A pin of the arm and its place in the frame of the part it stands on.
    .id = Which pin.
    .on = The part it stands on.
    .at = Along the part, then across it. Post: out from the swing axis, up from the ground. Others: from their own pin towards the next one.
    .known = How it is known. A guess comes from a blank, and is never shown as this machine's figure.
field-reading = A pose read with the tape: three ram lengths, and where the tooth is.
    .boom-ram = Boom ram, pin to pin.
    .dipper-ram = Dipper ram, pin to pin.
    .bucket-ram = Bucket ram, pin to pin.
    .tooth-height = The tooth over the ground; under it with a minus.
    .reach = From the swing axis to the tooth, level.
field-support = What it stands on in one way of standing.
    .stance = Which way of standing.
    .corner = Where it touches the ground, one after the other round it: forwards and left of the middle of the undercarriage.
    .pad-area = The area of one pad.
field-swing = How the arm is swung.
    .kind = By two rams on a post, or on a ring all round.
    .frame-pin = Pin of the left ram on the frame: along the arm when it is not swung, then to its left.
    .post-pin = Pin of the left ram on the post, written in the same way.
    .limit = How far it swings to each side.
    .crossover-relief = Relief between its two lines.
    .flow = Flow of the pump to it.
field-oil-tank = The hydraulic oil tank.
    .length = Length inside, seen from above.
    .width = Width inside, seen from above.
    .area = Area seen from above, where it is no rectangle.
    .oil = All oil of the machine, with the level at its mark: tank, rams and lines together.
    .dead = Of it what stays in pump, valves, hoses and filters.
    .temperature = How warm the oil was when it was counted.
field-lifting = What makes it a lifting machine. Without all three it is none.
    .point = The lifting point.
    .load-holding = What holds the load when a hose bursts.
    .authority = Who allows lifting with it, and by what paper.
field-boom-section = A section of the boom's box, for teaching only.
    .at = Where its middle is, along the boom and across it.
    .height = Height outside.
    .width = Width outside.
    .flange = Thickness of the plates above and below.
    .web = Thickness of the side plates.

book-shape-lengths = a list of lengths
book-shape-corners = a list of corners, each with two lengths

book-trouble-pin-on-other-part = The pin “{ $pin }” does not stand on that part.
    .next = Write on = "{ $right }", and its place in the frame of that part.
book-trouble-pin-off-axis = “{ $pin }” lies on the line its part is measured along, so its second number is 0.
    .next = Write its distance from the part's own pin, then "0 m".
book-trouble-pin-not-known = “{ $found }” is no pin that the arm is worked out from. The distance is kept, and not used.
    .next = Names that are used: { $known }.
book-trouble-reading-without-tooth = This reading does not say where the tooth is.
    .next = Write tooth-height, or reach, or both.
book-trouble-mass-place = The middle of “{ $of }” is written with { $wanted ->
    [one] one number
   *[other] { $wanted } numbers
 }.
    .next = Two in the frame of a part, three for the whole machine, one along lever or link.
book-trouble-lengths-count = { $least ->
    [one] From one to { $most } lengths belong here.
   *[other] This place has { $most } lengths.
 }
    .next = Write each length with its unit, in quotes.
book-trouble-corners-enclose-nothing = These corners do not go round an outline without dents.
    .next = Write three corners or more, one after the other all round.
book-trouble-twice = “{ $word }” stands on line { $first-line } already.
    .next = Keep one of the two. Equal rams side by side are one, with their count.

gap-arm-lacks = what the figures of its arm wait for first: { $subject }
    .next = Measure this one. It unlocks more than anything else the book does not say of the arm.
