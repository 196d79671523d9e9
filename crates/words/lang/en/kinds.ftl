### Words that differ with the kind of machine: towed, carried, pulled by hand, ridden on a saddle. See kinds.rs.

## What has no engine: where it stands, instead of what its engine does.

kinds-still-off = standing
kinds-still-idle = hitched, standing
kinds-still-working = pulled at walking pace
kinds-still-after = standing again, after the way

## An engine that is pulled by hand has no key.

kinds-pulled-off = engine off, switch off

## What does not travel.

kinds-placed-working = engine running, at work

## Cautions.

kinds-caution-saddle = Helmet on. Sit on the saddle and hold the brake. Never start it from the ground.
kinds-caution-held-no-rams = Nobody goes under anything that is not held up by a prop or a lock.
kinds-caution-off-and-kept = Engine off, and so that nobody can start it.
kinds-caution-leak-no-rams = No hand near a leak while the engine runs. Stop it first, and let it cool.
kinds-caution-pulled-off = Engine off, switch off. Before hands go near the chain or the fan: spark plug cap off.
