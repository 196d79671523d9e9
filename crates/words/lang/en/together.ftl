### Two people on one round, and a learner's run with somebody in sight.
### $person: a name; $people: one or several names already said; $at: a time already said; $done, $points: counts
### $answer: an answer already said

together-title = Walked by somebody else now
together-offer = { $people } began a round here { $at }. { $done } of { $points } points are answered.
together-why = Together you share the points. Only who looks at a point has walked it.
together-join = Walk it together
begin-own-round = Begin my own
together-with = You walk this round together with { $people }.
point-kept-by = Kept by { $person }: { $answer }.
ask-join-gone = That round cannot be joined any more.
    .next = It was closed, or it is too old. Begin your own.
round-closed-by = { $person } closed this round { $at }.
    .next = It is closed for both of you. What you found amiss after that still counts.
run-pin = Their PIN
    .hint = The person who has you in sight types it, here on this device.
ask-sight-self = You cannot have yourself in sight.
    .next = Choose the steward or the deputy who stands there.
ask-sight-role = { $person } may not do that for this machine now.
    .next = It takes the steward, or a deputy of this machine.
ask-sight-pin = The PIN of { $person } is missing.
    .next = They type it themselves, here on this device.
