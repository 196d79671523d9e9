### The walk-round: what is asked at a point, what can be answered, why it is due.
### $low, $high: limits ready to show; $n: how many; $name: a name from the book; $since, $every, $days: counts ready to show
### $parts: pieces said before, as a list; $state, $reads, $looks: an answer already said
### $pose: a pose already said; $oil: an oil temperature already said; $readings: readings as written
### $because: a hindrance already said; $note: the person's own words; $with: a combination in the book's words
### $done, $of: fittings greased and in all; $minutes: minutes

engine-off = engine off, key out
engine-idle = engine at low idle
engine-working = engine running, machine moving
engine-after = engine off again, after it has run

safeguard-key-out = Key, or the handle of the battery switch, in your pocket.
safeguard-chocks = Chocks set: it cannot roll.
safeguard-prop = What is raised stands on its prop or lock. You have seen it hold.
safeguard-pressure-gauged = Pressure let off. The gauge shows none.
safeguard-zone-empty = Nobody in the danger zone.
safeguard-second-person = A second person stands outside the danger zone, in sight.
safeguard-steward-only = Only the steward or the deputy does this.
safeguard-cooled = Let it cool first.
safeguard-belt-on = Seat belt on.

about-brakes = brakes
about-steering = steering
about-seat-belt = seat belt and roll-over frame
about-guards = guards
about-structure = arm, frame and welds
about-hoses = hydraulic hoses
about-fuel = fuel
about-engine-oil = engine oil
about-oil-pressure = oil pressure
about-hydraulic-oil = hydraulic oil
about-gear-oil = gear oil
about-coolant = coolant
about-brake-fluid = brake fluid
about-starting = starting
about-levers = levers and pedals
about-pins = pins
about-bolts = bolts
about-tracks = tracks
about-wheels = wheels
about-joints = greased joints
about-electric = battery and wiring
about-signals = lights, horn, mirrors, glass and signs
about-fire = fire extinguisher
about-locks = locks
about-coupling = coupling and tie-downs
about-shock = what keeps current off people
about-cutter = chain, bar or blade
about-ballast = ballast
about-air = air and filters
about-tidiness = loose things and access
about-other = other

kind-level = level
    .ask = Where is it against the mark?
kind-fitting = grease fitting
    .ask = Did it take grease? Was fresh grease seen at the joint?
kind-pin-clip = pin clip
    .ask = Is the clip there and tight?
kind-bolts = bolts
    .ask = Feel each one with a finger. Is it tight?
kind-measure = measure
    .ask = What does the tape say?
kind-leak = leak
    .ask = Is it dry? If not, do drops form, do they fall?
kind-hose = hose
    .ask = Is the cover whole?
kind-structure = structure
    .ask = Any crack, bend or broken weld?
kind-function = function
    .ask = Does it work, and does it return?
kind-look = look
    .ask = Is it there and in order?
kind-crank = starting check
    .ask = In which of these does the starter turn?

level-nothing = nothing on the stick or glass
level-below = below the mark
level-at-mark = at or over the mark
level-too-full = over the upper mark

looks-clean = clean
looks-dark = dark
looks-milky = milky: water in it
looks-wrong = the wrong fluid

oil-cold = cold
oil-warm = warm
oil-hot = hot
oil-any = any temperature

grease-seen = fresh grease seen at the joint
grease-took = took grease, none seen at the joint
grease-refused = refused grease
grease-until-shows = Pump until fresh grease begins to show, then stop.
grease-until-strokes = { $n ->
    [one] Give one stroke, no more.
   *[other] Give { $n } strokes, no more.
 }
grease-remote = Fed through a line. Look at the joint itself: fresh grease must show there.
grease-count = { $done } of { $of } fittings

clip-present = there and tight
clip-loose = loose, worn or makeshift
clip-missing = missing

bolts-tight = all tight
bolts-stripe-turned = a paint stripe has turned
bolts-loose = loose
bolts-missing = missing or broken

leak-none = dry
leak-I = class I: wet, no drops
leak-II = class II: drops form, none falls
leak-III = class III: drops fall

hose-sound = sound
hose-rubbed = cover rubbed, no wire to be seen
hose-worn-through = worn through to the wire
hose-bulged = bulged

structure-sound = sound
structure-bent = bent, not cracked
structure-cracked = cracked, bright metal: a new crack
structure-rust-in-crack = cracked, rust in it: an old crack

function-works = works
function-weak = works, but weak, stiff or slow
function-fails = does not work, or does not return

look-well = in order
look-worn = worn, dirty or not quite so; can wait
look-damaged = damaged or wrong
look-missing = missing or not so

crank-turned = turned
crank-did-not = did not turn
crank-not-tried = not tried
crank-bypassed = starting switch bypassed

hindrance-out-of-reach = cannot get at it in this pose
hindrance-cannot-see = too dark, wet, dirty or icy to see
hindrance-no-tool = no tool for it here
hindrance-not-safe = not safe now
hindrance-does-not-know-how = does not know how
hindrance-not-found = did not find it
hindrance-other = another reason

severity-note = written down
severity-care = run with care
severity-stand-down = stand down

because-every-start = every start
because-after-use = after use
because-never-done = never done yet
because-hours = { $since } h since last time, due every { $every } h
because-days = { $n ->
    [one] { $n } day since last time, due every { $every }
   *[other] { $n } days since last time, due every { $every }
 }
because-its-day = its day of the week
because-season = start of the season
because-standing = { $n ->
    [one] stood for a day
   *[other] stood for { $n } days
 }
because-first-time = your first time on this machine
because-after = after: { $name }
because-other-operator = somebody else ran it last
because-still-unknown = not known since last time
because-open-finding = something is wrong here
because-find-it = no fitting known here: find it
because-hours-in-question = the hours are in question
because-whole = the steward asked for all of it
because-in-this-round = answered in this round

rhythm-every-start = every start
rhythm-after-use = after use
rhythm-hours = every { $every }
rhythm-days = { $n ->
    [one] every day
    [7] every week
   *[other] every { $n } days
 }
rhythm-season = every season
rhythm-standing = { $n ->
    [one] after standing a day
   *[other] after standing { $n } days
 }
rhythm-first-time = first time on this machine
rhythm-after = after { $name }: every { $every } for { $since }
rhythm-after-then = after { $name }: every { $every } for { $since }, then every { $days }

purpose-start = before a start
purpose-relief = relief check
purpose-after = after use

pose-as-found = as found
pose-not-said = pose not said
answer-level = { $reads }, { $looks }
answer-level-in = { $reads }, { $looks }, read { $parts }
answer-strokes = { $n ->
    [one] { $state }, one stroke
   *[other] { $state }, { $n } strokes
 }
answer-bolts = { $n ->
    [one] one { $state }
   *[other] { $n } { $state }
 }
answer-other-method = { $readings }, taken another way
answer-condition-not-held = { $readings }, condition not met
answer-crank-one = { $with }: { $state }
answer-not-checked = not checked: { $because }
answer-with-note = { $state } ({ $note })
reading-not-given = no reading

mark = at or over the mark ({ $pose }, oil { $oil })
mark-upper = at or over the mark, not over the upper one ({ $pose }, oil { $oil })
leak-out-from = out from { $state }
limit-at-least = at least { $low }
limit-at-most = at most { $high }
limit-between = { $low } to { $high }
limit-by = { $state }, by { $name }

round-minutes = about { $minutes } min
round-skipped = { $n ->
    [one] One point is not due today.
   *[other] { $n } points are not due today.
 }
leg-as-found = as it stands
well-inside = Well inside.
well-too-close = Too close to call.
    .next = Measure again, with care. If it stays so, ask the steward.
well-outside = Outside the limit.
    .next = Tell the steward before you go on.

meter-key-on = runs while the key is on
meter-running = runs while the engine runs
meter-revolutions = counts turns of the engine
lubrication-fittings = greased
lubrication-sealed = sealed
lubrication-oil-bath = runs in oil
lubrication-oil-can = oiled from a can
grease-when-before = before work, every time
grease-when-after = after work, every time
