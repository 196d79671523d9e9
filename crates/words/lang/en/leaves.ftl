### The reckoner's leaves: name, purpose, formula, caution, what each input and output is; why some of them refuse.
### Keys: leaf-<job>-<name> with parts in-<input> and out-<output>, underscores as hyphens.
### $input: an input already said; $unit: a unit

leaf-machine-conformity-probability = Probability of lying within the limits
    .purpose = Tells how likely it is that what you measured really lies within its limits.
    .formula = The share of a normal curve, as wide as the measurement is uncertain, that lies between the limits.
    .caution = It knows nothing but this one measurement. A wrong method gives a wrong answer with great confidence.
    .in-measured = what was measured
    .in-standard-uncertainty = standard uncertainty of the measurement (half of its ±)
    .in-low = lower limit, if there is one
    .in-high = upper limit, if there is one
    .out-probability = probability of lying within

leaf-machine-guard-band-risk = Risk left at the edge of a guard band
    .purpose = Tells how often a value that was just accepted lies beyond its limit after all.
    .formula = The share of a normal curve, as wide as the measurement is uncertain, that lies beyond the guard band.
    .caution = This is the worst place to be. A reading further inside is safer.
    .in-guard-band = width of the guard band
    .in-standard-uncertainty = standard uncertainty of the measurement (half of its ±)
    .out-false-accept = share accepted wrongly

leaf-machine-lap-length = Shortest lap
    .purpose = Finds the shortest walk from the first station past all others.
    .formula = All orders are weighed against each other. Up to 17 stations the shortest is proven; above that a good one is found and not called proven.
    .caution = The shortest lap is not always the best one. Mud, a fence or habit may speak for another: the steward decides.
    .in-distances = distances between the stations, row by row
    .in-back-to-start = must the lap end where it began?
    .out-length = length of the lap
    .out-order = stations in their order
    .out-proven = proven to be the shortest

leaf-machine-level-at-reference = Level in the pose of the mark
    .purpose = Says what a level would be if the machine stood as the mark wants it.
    .formula = The level as read, plus what it fell because rods came out. The oil is that height times the plan of the tank.
    .caution = Good enough to keep you from overfilling. Before you add oil, bring the machine into the pose of the mark and read again.
    .in-over-mark = level over the mark (under it: minus)
    .in-drop = how far the level fell because of the pose
    .in-tank-length = length of the tank at the mark
    .in-tank-width = width of the tank at the mark
    .out-over-mark-at-reference = over the mark in the right pose
    .out-oil-over-mark = oil over the mark (missing: minus)

leaf-machine-level-drop-from-rods = Level drop from rods
    .purpose = Tells how far the oil level falls because rams are out.
    .formula = Cross-section of each rod times the way it moved out, all added up, over the plan of the tank.
    .caution = Holds for rams with one rod, a tank with upright walls, and oil of the same warmth.
    .in-rod-diameters = diameter of each rod
    .in-strokes = how far each rod is out
    .in-tank-length = length of the tank at the mark
    .in-tank-width = width of the tank at the mark
    .out-oil-taken = oil taken from the tank
    .out-drop = fall of the level

leaf-machine-sag-tension = Track tension from sag
    .purpose = Tells how hard a track pulls for its weight and its sag.
    .formula = Weight for each length, times the span twice, over eight times the sag.
    .caution = A machine standing still. At work the drive adds its own pull. Keep fingers out of a track that can move.
    .in-weight-per-length = weight of the track for each length
    .in-span = span between the two supports
    .in-sag = sag in the middle
    .out-tension = tension

leaf-machine-sag-tension-ratio = Change of track tension
    .purpose = Tells how much tighter a track pulls when its sag changes.
    .formula = Sag before over sag after: half the sag, twice the pull.
    .caution = Both sags must be taken at the same place by the same method.
    .in-sag-before = sag before
    .in-sag-after = sag after
    .out-ratio = tension after, as a multiple of before

leaf-machine-span-mean = Mean of spans
    .purpose = Gives the mean of several spans where the rule asks for the mean.
    .formula = Sum of the spans over their number. Its ± is that of one reading over the root of the number.
    .caution = Only where the limit says mean. Where it says worst, the worst span counts.
    .in-spans = spans measured
    .in-reading-half-width = ± of one reading
    .out-mean = mean
    .out-least = least span
    .out-greatest = greatest span

leaf-machine-walk-between = Walk between two stations
    .purpose = Tells how far it is on foot from one station to the next, round the machine.
    .formula = The straight line where the machine is not in the way, else the shortest way over its corners.
    .caution = The machine counts as a rectangle. What sticks out of it is not seen.
    .in-from-x = first station, forwards
    .in-from-y = first station, to the left
    .in-to-x = second station, forwards
    .in-to-y = second station, to the left
    .in-back-x = back end of the machine
    .in-front-x = front end of the machine
    .in-right-y = right side of the machine
    .in-left-y = left side of the machine
    .out-walk = way on foot

leaf-upkeep-after-event-schedule = Checks after an event
    .purpose = Lists when a thing is to be checked after a wheel was off or a part renewed.
    .formula = Short steps for a while, then longer ones, all counted from the event.
    .caution = Each check is by hand with the right tool. Paint and dirt under a nut settle.
    .in-event = hours at the event
    .in-first-interval = hours between the first checks
    .in-first-span = for how many hours
    .in-then-interval = hours between the later checks
    .in-later = how many later checks to show
    .out-checks = hours at which to check

leaf-upkeep-bearing-grease-mass = Grease for a rolling bearing
    .purpose = Tells how much grease a rolling bearing takes when it is greased again.
    .formula = 0.005 times outer diameter times width, in grams with millimetres.
    .caution = For rolling bearings only. A plain joint is pumped until fresh grease begins to show. Too much is a fault too.
    .in-outer-diameter = outer diameter of the bearing
    .in-width = width of the bearing
    .out-mass = grease

leaf-upkeep-due-days = Days left
    .purpose = Tells how many days are left until something is due.
    .formula = Days allowed less days gone.
    .caution = Counted from when it was really done.
    .in-days-since = days since it was done
    .in-interval = days allowed between
    .out-remaining = days left (overdue: minus)

leaf-upkeep-due-first = Hours or days, whichever comes first
    .purpose = Tells whether the hours or the calendar make something due, and what is left.
    .formula = For each: allowed less used. The one with the larger share used comes first.
    .caution = Oil grows old in a machine that stands. The calendar counts even when the meter does not move.
    .in-hours-since = hours since it was done
    .in-hours-interval = hours allowed between
    .in-days-since = days since it was done
    .in-days-interval = days allowed between
    .out-hours-left = hours left (over: minus)
    .out-days-left = days left (over: minus)
    .out-share-used = share used
    .out-days-govern = the calendar comes first
    .out-due = due now

leaf-upkeep-due-hours = Due at hours
    .purpose = Tells at which hours something is due again, and how many are left.
    .formula = Hours when it was last done, plus the interval. Left is that less the hours now.
    .caution = Counted from when it was really done, not from when it should have been.
    .in-last = hours when it was last done
    .in-interval = hours between
    .in-now = hours now
    .out-due = due at
    .out-remaining = hours left (overdue: minus)

leaf-upkeep-grease-round-mass = Grease for one round
    .purpose = Tells how much grease one round takes.
    .formula = Fittings times strokes times what one stroke gives.
    .caution = Weigh what your gun gives: guns differ threefold.
    .in-fittings = fittings greased
    .in-strokes = strokes for each
    .in-grams-per-stroke = what one stroke gives
    .out-mass = grease for the round

leaf-upkeep-grease-rounds-per-cartridge = Rounds from a cartridge
    .purpose = Tells how many full rounds a cartridge gives.
    .formula = What is in it over what a round takes, rounded down.
    .caution = Take a second cartridge along for the last round.
    .in-cartridge = grease in the cartridge
    .in-round-mass = grease for one round
    .out-full-rounds = full rounds
    .out-rounds = rounds, with the part of the last

leaf-upkeep-hours-possible = Can these hours be?
    .purpose = Tells whether a meter can have moved so far in the time that passed.
    .formula = The advance may not be more than the time that passed and one step of the meter, and not less than nothing.
    .caution = A meter that counts turns of the engine can run ahead of the clock.
    .in-advance = how far the meter moved
    .in-hours-passed = time that passed
    .in-step = smallest step of the meter
    .out-possible = it can be
    .out-over = hours too many

leaf-upkeep-leak-cost = Cost of a leak
    .purpose = Tells what lost oil costs.
    .formula = Oil lost times its price times what handling makes of it.
    .caution = The cost is not the danger. Oil under pressure goes through skin: no hand near a leak.
    .in-volume = oil lost
    .in-price-per-litre = price of a litre
    .in-handling-factor = how many times the price it costs with handling
    .out-cost = cost, in the money of the price

leaf-upkeep-leak-loss = Oil lost by a leak
    .purpose = Tells what a dripping leak loses in a year.
    .formula = Drops in a second, times the seconds it drips, times the size of a drop.
    .caution = Oil under pressure goes through skin: no hand near a leak. A fuel leak stands the machine down, however small.
    .in-drops-per-second = drops in a second
    .in-hours-per-year = hours in the year for which it drips
    .in-drops-per-pint = drops that make a US pint
    .out-volume = oil lost in a year

leaf-upkeep-life-hours = Life hours
    .purpose = Tells how many hours the machine has run since new or since its book began, whatever happened to its meters.
    .formula = What each meter moved, plus the hours run without one.
    .caution = Hours run without a meter are an estimate and make the whole less sure.
    .in-starts = first reading of each meter
    .in-ends = last reading of each meter
    .in-steps = smallest step of each meter
    .in-unmetered = hours run without a meter
    .in-unmetered-half-widths = ± of each of those
    .out-life = life hours

leaf-upkeep-meter-advance = Advance of a meter
    .purpose = Tells how far a meter moved between two readings, also when it ran over.
    .formula = Later less earlier. Where the meter is known to have run over: to the end of its count, and on from nothing.
    .caution = A reading that fell is asked about. A new meter, a fault and a meter that ran over look the same.
    .in-before = earlier reading
    .in-after = later reading
    .in-modulus = where the meter starts again from nothing, if it is known to have run over
    .out-advance = advance

leaf-upkeep-round-minutes = Minutes for a round
    .purpose = Tells how long a walk-round takes.
    .formula = Time at the points, plus the way over walking speed.
    .caution = A round that takes much less was not looked at. One that takes much more will not be done.
    .in-point-seconds = time at each point
    .in-walk = length of the lap
    .in-walking-speed = walking speed
    .out-minutes = minutes

leaf-upkeep-strokes-for-mass = Strokes of the grease gun
    .purpose = Turns grams of grease into strokes of your gun.
    .formula = Grams wanted over grams a stroke, to the nearest whole stroke, but at least one.
    .caution = Weigh what your gun gives. At a plain joint watch the grease, not the count.
    .in-mass = grease wanted
    .in-grams-per-stroke = what one stroke gives
    .out-strokes = strokes, with their part
    .out-whole-strokes = whole strokes

refusal-wrong-unit = { $input }: this measures something else than { $unit }.
    .next = Give it in { $unit } or a unit of the same kind.
refusal-reading-below-last = The later reading is below the earlier one.
    .next = Say what happened: a slip of the pen, a new meter, or a meter that ran over.
refusal-too-many-checks = That would be more than a thousand checks.
    .next = Make the steps longer or the span shorter.
refusal-limits-crossed = The lower limit is above the upper one.
    .next = Put the limits the right way round.
refusal-footprint-crossed = The machine's front is behind its back, or its left is right of its right.
    .next = Put the sides of the footprint the right way round.
refusal-inside-footprint = A station lies inside the machine.
    .next = Move the station out to where a person can stand.
refusal-distance-to-itself = A station is some way off from itself.
    .next = Put nothing on the diagonal of the table.
refusal-distances-one-way = There and back differ.
    .next = Give the same distance both ways.
refusal-covariance = These uncertainties cannot belong together.
    .next = Look at the uncertainty of each value and at what moves together.
refusal-model = The formula gave no number for the values drawn.
    .next = Look whether each value is the one you meant.
refusal-draws = So many draws cannot be made.
    .next = Take from two to a million.
refusal-spread = A value is spread in a way that cannot be.
    .next = Give each a width of nothing or more.
