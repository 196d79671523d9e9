### Work beside the rounds: greasing, parts fitted, things bought, lessons.

link-greasing = Greased it
greasing-title = Greased outside a round
greasing-intro = Answer for the joints you greased. Leave the others.
greasing-none = Its book names nothing to grease.
greasing-joint = Joint
ask-greasing = No joint is answered.
    .next = Say at each joint you greased what became of it.

link-part = Fitted a part
part-title = A part fitted
part-listed = Part, as the book lists it
part-what = What was fitted
    .hint = Leave it empty where the list says it
part-event = It begins closer checks
ask-part = No part is named.
    .next = Choose one from the list, or write what was fitted.

link-purchase = Bought something for it
purchase-title = Bought for the machine
purchase-what = What was bought
purchase-cost = Cost, with its currency
ask-purchase = Nothing is named.
    .next = Write what was bought.

link-lesson = Write down a lesson
lesson-title = A lesson
lesson-intro = A lesson lets nobody run the machine. Signing off does.
lesson-who = Who was taught
lesson-what = What it was about
ask-lesson-who = Nobody is chosen.
    .next = Choose who was taught.
ask-lesson-what = The lesson says nothing yet.
    .next = Write what it was about.
