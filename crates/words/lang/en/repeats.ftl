### What comes back: repeat faults, their cures and costs, the other side, grease that does not reach, one side adjusted.
### $point, $other, $machine: names; $n, $days: counts; $hours: hours ready to show; $from, $to: as written
### $what, $why: the person's own words; $when: a time already said; $cost: amounts already said; $held: spans already said

reason-not-reaching-never-seen = { $point }: took grease { $n } times in { $days } days, and none was ever seen at the joint.
    .next = Pump until fresh grease shows at the joint. Where none shows, take the pin out and look for its cross hole.
reason-not-reaching-play-grows = { $point }: takes grease, but none is seen at the joint. The play at { $other } grew from { $from } to { $to }.
    .next = Look at the joint itself. Grease that goes in is not reaching it.
reason-one-sided = { $point }: adjusted { $n } times in four weeks, the other side ({ $other }) not once.
    .next = Look for a leak at the adjuster, and measure the chain. Topping it up again mends nothing.

rule-not-reaching = A fitting that takes grease for thirty days and never shows it, or whose play grows meanwhile, is run with care.
    .title = Not reaching the joint
    .why = What goes in at the fitting can end in a hole that leads nowhere.
    .source = An owner's account of a ruined pivot behind a fitting that took grease. Thirty days are common practice, no source.
rule-one-sided = A side adjusted four times in four weeks, while the other side was left alone, is run with care.
    .title = Adjusted on one side only
    .why = An adjuster topped each week leaks, or its chain is worn. Topping it up is no upkeep.
    .source = Keepers' accounts of tracks that came off. Four weeks are common practice, no source.

because-other-side = something was found on the other side: { $point }
because-not-reaching = grease goes in, but nobody saw it at the joint

comes-back-title = What comes back
comes-back-intro = The same thing failing again is one fault. Hours and days are what each repair held.
comes-back-none = Nothing has come back yet.
comes-back-parts = Parts fitted again
comes-back-watch = Where to look closer
comes-back-link = What comes back
comes-back-count = { $n ->
    [one] failed once
   *[other] failed { $n } times
 }
comes-back-fitted = { $n ->
    [one] fitted once
   *[other] fitted { $n } times
 }
comes-back-held = Held: { $held }.
comes-back-span = { $hours } h in { $days ->
    [one] one day
   *[other] { $days } days
 }
comes-back-span-days = { $days ->
    [one] one day
   *[other] { $days } days
 }, hours not known
comes-back-cost = Cost: { $cost }.
comes-back-cost-none = Cost: nobody wrote any down.
comes-back-cost-unread = Not in the sum, because it does not read as one amount: { $what }.
comes-back-cost-shared = { $n ->
    [one] One of these repairs also mended something else. Its whole cost is counted here.
   *[other] { $n } of these repairs also mended something else. Their whole cost is counted here.
 }
comes-back-cure = { $when }: { $what }
comes-back-cause = Cause: { $why }
comes-back-cause-not-found = Cause not found, because: { $why }
comes-back-cure-none = Nobody wrote down what was done.
comes-back-twin = { $point }: the next round asks it, because something was found at { $other }.
comes-back-stripped = Loose for the third time: take the thread for stripped. Tightening it again is no repair. (Common practice; owners' accounts.)
comes-back-also = It has come back
comes-back-all = Everything that comes back on this machine

mend-same-once = Last time it was mended like this: { $what }. It did not hold. The same again would be the second time.
mend-same-again = Mended the same way { $n } times: { $what }. It did not hold.
mend-other-side = The next round asks the other side too: { $point }.
mend-cause-asked = It keeps coming back. Before the next repair, say why it fails.
mend-cause = The cause: why does it fail?
mend-cause-not-found = Or: cause not found, because …
ask-mend-cause = Why does it fail? Doing the same again is no answer here.
    .next = Write the cause, or write that it was not found and why.

service-point = What was adjusted
    .hint = Choose the point, also where nothing was wrong. One side adjusted again and again shows up only so.
part-cost = What it cost
    .hint = With the currency. Leave it empty if you do not know.
purchase-part = For which part of the book
