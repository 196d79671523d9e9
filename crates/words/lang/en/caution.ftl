### The usual cautions. They come first, before what they bear on.

caution-local-rules = Local rules and the maker's book come before this sheet.
caution-zone = Keep everyone out of the danger zone. If somebody walks in, stop.
caution-held = Nobody goes under anything that is not held up by a prop or a lock. Oil in a ram does not count.
caution-pressure = Pressure is live until it has been bled and the gauge shows none. A stopped engine is not enough.
caution-leak = No hand near a leak. A fine jet goes through skin. If it does, go to hospital at once, even if it looks small.
caution-engine-off = Engine off. Key in your pocket.
caution-engine-on = Engine running. Clothes, hair and hands away from whatever turns.
caution-chocks = Chock it before you get down.
caution-hot = Hot oil and hot water burn. Let it cool before you open a cap.
caution-seat = Sit in the seat with the belt on. Never start it from the ground.
caution-fuel = No flame, no smoking, engine cold: fuel vapour lights from far away.
caution-battery = Battery gas explodes. No sparks near it, and cover your eyes.
caution-start-fluid = Never work a starter with a screwdriver. It may start in gear and run you over.
caution-alone = Do not do this alone. Somebody stands outside the danger zone, in sight.
caution-steward = Only the steward or the deputy does this.
caution-learner = Learners run it only with the steward or the deputy in sight.
caution-figure = A figure never overrules a yard rule or the maker's word.
caution-not-proof = A walk-round finds much, not everything. Stop at any new noise, smell or heat.
caution-invented = Invented machine, invented people: a demonstration.
