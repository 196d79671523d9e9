### The verdict, its reasons, and how the machine was left.
### $point, $person, $machine: names; $at, $until: times already said; $because: a hindrance already said
### $read, $limit: as written; $pose, $mark: poses already said; $with: a combination in the book's words
### $left, $allowed, $hours: hours ready to show; $why, $what: the person's own words; $name: a name from the book
### $by: how far a level is off, ready to show; $n: how many; $about: what it bears on; $rest: a piece said before; $far: a distance as written; $how: own words

verdict-fit = Fit to run
    .short = fit
    .means = Nothing found that speaks against it. Look and listen all the same.
verdict-care = Run with care
    .short = care
    .means = It may run. Know what is listed here before you start.
verdict-stand-down = Stand down
    .short = stand down
    .means = It does not run. The steward or the deputy releases it.
verdict-walk-first = Walk round first
    .short = walk round first
    .means = Something needed is not known yet. Until it is, it does not run.
verdict-find-out = Find out first
    .short = find out first
    .means = Something needed is not known, and no walk-round tells it. Until it is, it does not run.
verdict-not-given = no verdict given: closed out of range
verdict-no-reasons = Nothing was found that speaks against it.
verdict-reasons = { $n ->
    [one] One reason
   *[other] { $n } reasons, worst first
 }

holds = For this start, by { $person }.
holds-until = For this start, by { $person }, until { $until }.
holds-hours = For this start, by { $person }, until it has run { $hours } hours in all.
holds-until-hours = For this start, by { $person }, until { $until } or { $hours } hours run in all, whichever comes first.
holds-nothing = It holds for nobody: the machine does not run.
holds-permit = It may only be moved: { $far }, by { $person }, until { $until }. { $how }

reason-no-book = There is no machine book in use.
    .next = The steward adopts a book that reads without mistakes.
reason-no-stop = The book does not say how to stop the engine.
    .next = Find out, and write it in the book. Nobody starts an engine without knowing how to stop it.
reason-not-walked = Not walked round for this start.
    .next = Walk it round first.
reason-round-expired = The walk-round held until { $at }.
    .next = Walk it round again.
reason-handed-over-since = It was handed over after the walk-round.
    .next = Walk it round again before you start it.
reason-released-since-round = It was released after the walk-round.
    .next = Walk it round again before you start it.
reason-other-persons-round = The last round was walked by { $person }, { $at }.
    .next = Who starts it walks it round. Check everything again.
reason-book-changed = The machine book changed after the walk-round.
    .next = Walk it round by the new book.
reason-not-answered = { $point }: not looked at.
    .next = Look at it and answer it.
reason-could-not-check = { $point }: not checked, because: { $because }.
    .next = Make it possible, then check it. If you cannot, ask the steward.
reason-in-question = { $point }: the answer does not fit, or is in question.
    .next = Answer it again, or let the steward settle it.

reason-pin-clip-present = { $point }: the pin clip is in order.
    .next = Nothing to do.
reason-pin-clip-loose = { $point }: the pin clip is loose, worn or makeshift.
    .next = Fit the right clip and washer before it comes off. No nail, no wire.
reason-pin-clip-missing = { $point }: the pin clip is missing.
    .next = Do not move the arm. Put the pin back in place and fit the right clip and washer. No nail, no wire.

reason-bolts-tight = { $point }: all tight.
    .next = Nothing to do.
reason-bolts-stripe-turned = { $n ->
    [one] { $point }: a paint stripe has turned on one bolt.
   *[other] { $point }: paint stripes have turned on { $n } bolts.
 }
    .next = Tighten to the book's torque, paint a new stripe, look again after the run.
reason-bolts-loose = { $n ->
    [one] { $point }: one bolt is loose.
   *[other] { $point }: { $n } bolts are loose.
 }
    .next = Engine off, key out. Tighten to the book's torque and paint a stripe across the head.
reason-bolts-missing = { $n ->
    [one] { $point }: one bolt is missing or broken.
   *[other] { $point }: { $n } bolts are missing or broken.
 }
    .next = Fit the right bolts before it runs. Look for what they held.

reason-function-works = { $point }: works.
    .next = Nothing to do.
reason-function-weak = { $point }: works, but weak, stiff or slow.
    .next = Tell the steward. Do not count on it.
reason-function-fails = { $point }: does not work, or does not return.
    .next = Mend it before anybody counts on it.

reason-look-well = { $point }: in order.
    .next = Nothing to do.
reason-look-worn = { $point }: worn, dirty or not quite so.
    .next = Clean it or plan to replace it.
reason-look-damaged = { $point }: damaged or wrong.
    .next = Mend or replace it.
reason-look-missing = { $point }: missing or not so.
    .next = Find it or fit a new one.

reason-structure-sound = { $point }: sound.
    .next = Nothing to do.
reason-structure-bent = { $point }: bent.
    .next = Keep the load small, and have the steward look at it.
reason-structure-cracked = { $point }: cracked.
    .next = Lower everything to the ground. A cracked arm or weld may let go without warning.
reason-structure-rust-in-crack = { $point }: cracked, and the crack is an old one.
    .next = Lower everything to the ground. Mark the ends of the crack and call the steward.

reason-hose-sound = { $point }: sound.
    .next = Nothing to do.
reason-hose-rubbed = { $point }: the cover is rubbed.
    .next = Guard it from rubbing, and order a new hose.
reason-hose-worn-through = { $point }: the hose is worn through to the wire.
    .next = Hands off. Lower everything, let the pressure off, gauge it, then replace the hose.
reason-hose-bulged = { $point }: the hose is bulged. It may burst.
    .next = Hands off. Lower everything, let the pressure off, gauge it, then replace the hose.

reason-leak-I = { $point }: wet, no drops.
    .next = Wipe it dry, and look again after the run.
reason-leak-II = { $point }: drops form.
    .next = Wipe it dry, check the level often, and plan the repair.
reason-leak-III = { $point }: drops fall.
    .next = Engine off. No hand near the leak. Catch what drips, and mend it before it runs.
reason-leak-fuel = { $point }: fuel leaks.
    .next = Engine off. No flame, no sparks. Close the fuel tap and mend it before it runs.

reason-fluid-clean = { $point }: the fluid looks clean.
    .next = Nothing to do.
reason-fluid-dark = { $point }: the fluid is dark.
    .next = Look up when it was last changed.
reason-fluid-milky = { $point }: the fluid is milky. There is water in it.
    .next = Do not start the engine. Find where the water comes in, then change the fluid.
reason-fluid-wrong = { $point }: the wrong fluid is in it.
    .next = Do not start the engine. Drain it and fill in what the book names.

reason-level-nothing = { $point }: nothing to be seen on the stick or glass.
    .next = Do not start the engine. Find where it went, then fill up.
reason-level-below = { $point }: below the mark.
    .next = Top up with what the book names, then read it again.
reason-level-at-mark = { $point }: at the mark.
    .next = Nothing to do.
reason-level-too-full = { $point }: too full.
    .next = Draw some off to the mark. Too full does harm as well.

reason-level-pose = { $point }: read in another pose ({ $pose }). The mark is for: { $mark }.
    .next = Put the machine in the mark's pose and read it again.
reason-level-pose-lower = { $point }: read in another pose ({ $pose }). There the oil stands { $by } lower than where the mark holds: { $mark }.
    .next = Put the machine in the mark's pose and read it again.
reason-level-pose-higher = { $point }: read in another pose ({ $pose }). There the oil stands { $by } higher than where the mark holds: { $mark }.
    .next = Put the machine in the mark's pose and read it again.
reason-level-pose-not-said = { $point }: nobody said in which pose it was read. The mark is for: { $mark }.
    .next = Put the machine in the mark's pose and read it again.
reason-level-pose-not-in-book = { $point }: the book does not say for which pose the mark is.
    .next = Find out, and write the pose in the book.
reason-level-heat = { $point }: read at another oil temperature than the mark is for.
    .next = Read it again when the oil is as the book says.

reason-outside-over = { $point }: { $read } is over the limit of { $limit }.
    .next = Adjust or mend it, then measure again.
reason-outside-under = { $point }: { $read } is under the limit of { $limit }.
    .next = Adjust or mend it, then measure again.
reason-outside-either = { $point }: { $read } is outside the limit of { $limit }.
    .next = Adjust or mend it, then measure again.
reason-too-close = { $point }: { $read } is too close to the limit of { $limit } to call.
    .next = Measure again, with more care or a better gauge.
reason-other-method = { $point }: not measured the way the limit asks for.
    .next = Measure it again the book's way.
reason-condition-not-held = { $point }: the limit's condition was not met, or nobody said.
    .next = Measure it again as the book says.
reason-not-comparable = { $point }: the reading cannot be compared with the limit.
    .next = Measure again in a unit of the same kind.

reason-cranked-in = { $point }: the starter turned ({ $with }). It must not.
    .next = Key out. It may start and drive off. Mend the start lock first.
reason-did-not-crank-in = { $point }: the starter did not turn ({ $with }).
    .next = Find out why before you count on it to start.
reason-crank-not-tried = { $point }: not tried in every way the book lists.
    .next = Try the rest, in the seat, nobody near.
reason-switch-bypassed = { $point }: the starting switch is bypassed.
    .next = Key out, battery switch off. Nobody starts it until the switch is mended.

reason-refused = { $point }: refused grease. { $left } of { $allowed } hours are left.
    .next = Free the fitting or fit a new one. At the end of these hours it stands down.
reason-refused-used-up = { $point }: refused grease, and the { $allowed } hours allowed are used up.
    .next = Free the fitting or fit a new one before it runs.
reason-refused-no-allowance = { $point }: refused grease.
    .next = Free the fitting or fit a new one before it runs.
reason-refused-hours-unknown = { $point }: refused grease. How many hours are left is not known.
    .next = Write how many hours it has run, and free the fitting or fit a new one.
reason-not-seen-at-joint = { $point }: nobody has seen fresh grease at the joint within seven days.
    .next = Look at the joint itself while somebody pumps.

reason-fault-note = Reported: { $what }
    .next = Keep an eye on it.
reason-fault-care = Reported: { $what }
    .next = Know about it before you start. The steward says when it is done with.
reason-fault-stand-down = Reported, bad enough to stop: { $what }
    .next = Mend it. Then the steward or the deputy releases the machine.
reason-not-released = { $point }: mended, not released yet.
    .next = The steward or the deputy checks it and releases the machine.
reason-stood-down = Stood down: { $why }
    .next = The steward or the deputy releases it, naming what was mended.

reason-joint-without-fitting = { $name }: it moves, and no fitting is known.
    .next = Find the fitting. If it is sealed or runs in oil, write that in the book.
reason-gap = The book does not say: { $name }.
    .next = Find out and write it in the book. It bears on safety.
reason-hours-in-question = The hours are in question.
    .next = The steward settles what the meter says.

reason-left-not-at-rest = Not left at rest: { $name }.
    .next = Look at it before you do anything else, and put it right.
reason-not-handed-over = Nobody wrote how it was left last time.
    .next = Look at it as if you knew nothing. Then write the next handover.
reason-used-since-handover = It was used after it was last handed over, and nobody wrote how it was left then.
    .next = Look at it as if you knew nothing. Then write the next handover.
reason-left-running = The engine was left running.
    .next = Stop the engine first. A running engine is never at rest.
reason-engine-not-said = Nobody said whether the engine was stopped.
    .next = Go and look. A running engine is never at rest.
reason-step-not-in-book = The handover speaks of a step the book does not have: { $name }.
    .next = Hand it over again by the book in use.
reason-lock-wrong = A lock is not in its right state: { $name }.
    .next = Put the lock right before anything else. Nobody near while you do.
reason-lock-wrong-right = A lock is not in its right state: { $name }. It should be: { $what }
    .next = Put the lock right before anything else. Nobody near while you do.
reason-still-open = { $point }: found before, and nobody has closed it.
    .next = Mend it, or have the steward close it by name.
reason-unread = An entry in the journal does not read: “{ $name }”.
    .next = The steward asks who wrote it, and settles it.
reason-may-not-run = This person may not run machines here.
    .next = Ask the steward.
reason-not-signed-off = This person is not signed off on this machine.
    .next = Ask the steward for a sign-off, or for a lesson.
reason-in-sight-only = Only with the steward or the deputy in sight.
    .next = Fetch one of them before you start.

the-machine = The machine

rest-lowered = everything on the ground, or on its lock
rest-lock = lock in its state for rest
rest-neutral = in neutral
rest-brake = brake set
rest-engine-off = engine off
rest-levers-worked = levers worked after stopping
rest-battery-off = battery switch off
rest-greased = greased
rest-clean = clean
rest-key-away = key put away
rest-other = other

rest-proven = done, and the proof seen
rest-done = done, proof not seen
rest-not-done = not done
rest-on-lock = raised, on its proven lock

left-off = engine off
left-running = engine running
left-not-said = engine: not said

at-rest = Left at rest.
not-at-rest = Not left at rest.
handover-next-person = For the next person: { $what }
