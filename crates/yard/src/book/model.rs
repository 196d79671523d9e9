//! The machine book as read: every item with the line it stands on, so that answers and figures can cite it.
//!
//! Positions are in the machine frame of the design: x forwards, y left, z up, metres, origin on the ground under the
//! middle of the undercarriage. Texts (names, how, why) are the steward's own and are shown as written.

use crate::id::{ItemId, MachineId, PointId, StationId};
use quantity::Quantity;

/// One machine book, read without mistakes.
#[derive(Clone, Debug, PartialEq)]
pub struct Book {
    /// What it is.
    pub machine: Identity,
    /// How to stop its engine: shown first of all. Without it the machine cannot be judged fit.
    pub stop: Option<StopEngine>,
    /// Starting order, step by step.
    pub start: Vec<String>,
    /// The hour meter.
    pub meter: Option<Meter>,
    /// Meters beside it.
    pub further_meters: Vec<FurtherMeter>,
    /// The kind in which service hours are counted; none = that of [`Book::meter`].
    pub service_hours: Option<MeterKind>,
    /// Stations in the order they are written; the lap is separate.
    pub stations: Vec<Station>,
    /// The machine's own lap: station ids in walking order. Complete: every station once.
    pub lap: Vec<StationId>,
    /// Whether the steward wrote the lap (otherwise it was made as the shortest way round).
    pub lap_is_stewards: bool,
    /// Poses that points ask for, in the order they are taken up during a round (the first is "as found").
    pub poses: Vec<Pose>,
    /// The points, in the order written.
    pub points: Vec<Point>,
    /// Moving joints, whether or not a fitting is known.
    pub joints: Vec<Joint>,
    /// Fluids with grades and quantities.
    pub fluids: Vec<Fluid>,
    /// Filters, belts, hoses, seals, bearings, fasteners.
    pub parts: Vec<super::Part>,
    /// Attachments it takes, each a machine of the yard with a book of its own.
    pub attachments: Vec<super::AttachmentTaken>,
    /// Documents it has or needs.
    pub documents: Vec<super::DocumentWanted>,
    /// Greasing habits of this machine.
    pub greasing: GreasingHabit,
    /// Rams, with bore, rod, closed and open length.
    pub rams: Vec<Ram>,
    /// Pin-to-pin distances of the tape survey, as written.
    pub distances: Vec<Distance>,
    /// Masses by part.
    pub masses: Vec<Mass>,
    /// Tracks or tyres.
    pub ground_gear: Option<GroundGear>,
    /// Rest order: how the machine is left.
    pub rest: Vec<RestStep>,
    /// During the shift: warm-up, first metres, gauges, stop and tell, cool-down.
    pub shift: Shift,
    /// Where nobody may be while it works.
    pub danger_zone: Option<DangerZone>,
    /// Known weaknesses.
    pub weaknesses: Vec<Weakness>,
    /// Lines and circles the machine is drawn from.
    pub drawing: Vec<Stroke>,
    /// Declared renames of points: old id, new id.
    pub renamed: Vec<(PointId, PointId)>,
    /// Control levers, pedals and switches by name (their map comes with teaching).
    pub controls: Vec<Control>,
    /// The arm: pins, pose readings, supports, swing, oil tank, lifting.
    pub arm: super::ArmTables,
}

impl Book {
    /// Whether this machine has no such thing: by its book, or because it is an attachment, which another machine drives.
    pub fn lacks(&self, what: Without) -> bool {
        let driven = self.is_attachment() && what != Without::Rams;
        driven || self.machine.without.contains(&what)
    }

    /// Whether it is put on another machine, which carries it.
    pub fn is_attachment(&self) -> bool {
        self.ground_gear
            .as_ref()
            .is_some_and(|gear| gear.attachment)
    }
}

/// What the machine is.
#[derive(Clone, Debug, PartialEq)]
pub struct Identity {
    /// Permanent id in addresses and entries.
    pub id: MachineId,
    /// What people call it.
    pub name: String,
    /// Kind of machine, e.g. `tracked loader-backhoe`.
    pub kind: String,
    /// Year made, serial number, plate, duty: free text, may be unknown.
    pub made: Option<String>,
    /// Serial number.
    pub serial: Option<String>,
    /// What it is used for.
    pub duty: Option<String>,
    /// True in demo books: every page and paper then says "invented".
    pub invented: bool,
    /// What machines usually have and this one has not.
    pub without: Vec<Without>,
}

/// What machines usually have, and some kinds have not. Only what a book says so is not asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Without {
    /// No engine or motor: nothing to stop, nothing left running.
    Engine,
    /// No seat belt: ridden on a saddle, or not ridden at all.
    SeatBelt,
    /// No starter that could turn by itself: pulled by hand, or none.
    Starter,
    /// No rams and no arm: nothing that oil holds up and that could sink.
    Rams,
}

/// How to stop the engine.
#[derive(Clone, Debug, PartialEq)]
pub struct StopEngine {
    /// One short instruction in the imperative, e.g. "Pull the red knob and hold it".
    pub how: String,
    /// What then, e.g. the battery switch.
    pub then: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// What kind of instrument counts the hours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeterKind {
    /// Runs while the key is on.
    KeyOn,
    /// Runs while the engine runs.
    Running,
    /// Counts revolutions; an hour at its base speed.
    Revolutions,
    /// The machine has no meter: its hours are told by people, or its rhythms go by days.
    NoMeter,
}

/// An hour meter of the machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Meter {
    /// What it counts.
    pub kind: MeterKind,
    /// The reading at which it starts again at zero, where known.
    pub rolls_over_at: Option<Quantity>,
    /// The smallest step it shows, where known.
    pub shows_to: Option<Quantity>,
    /// What is known of the engine's speeds, for a counter of revolutions.
    pub speeds: MeterSpeeds,
    /// Line in the book.
    pub line: u32,
}

/// The engine's speeds beside a counter of revolutions: with all four, running hours can be estimated from its hours.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MeterSpeeds {
    /// The speed at which it counts an hour in an hour.
    pub base: Option<Quantity>,
    /// Idle speed.
    pub idle: Option<Quantity>,
    /// Speed at work.
    pub working: Option<Quantity>,
    /// Share of the running time spent at idle, with its ±.
    pub idle_share: Option<Quantity>,
}

impl Meter {
    /// Whether running hours can be estimated from its own: it counts revolutions, and its speeds and the share at idle,
    /// with its ±, are known.
    pub fn tells_running_hours(&self) -> bool {
        let speeds = &self.speeds;
        let share = speeds.idle_share.as_ref();
        self.kind == MeterKind::Revolutions
            && [&speeds.base, &speeds.idle, &speeds.working]
                .iter()
                .all(|speed| speed.is_some())
            && share.is_some_and(|share| share.plus_minus().is_some())
    }
}

impl Book {
    /// Every meter there is to read, the first one first: its id (none for `[meter]`) and itself.
    pub fn meters(&self) -> impl Iterator<Item = (Option<&ItemId>, &Meter)> {
        let first = self.meter.iter().map(|meter| (None, meter));
        let further = self
            .further_meters
            .iter()
            .map(|one| (Some(&one.id), &one.meter));
        first
            .chain(further)
            .filter(|(_, meter)| meter.kind != MeterKind::NoMeter)
    }

    /// Whether there is a meter to read.
    pub fn has_meter(&self) -> bool {
        self.meters().next().is_some()
    }

    /// Whether the book says that there is no meter: nothing then asks for a reading.
    pub fn is_without_meter(&self) -> bool {
        self.meter
            .as_ref()
            .is_some_and(|meter| meter.kind == MeterKind::NoMeter)
            && self.further_meters.is_empty()
    }

    /// The meter that service hours come from: of the kind declared, else one that running hours can be estimated from,
    /// else the first.
    pub fn service_meter(&self) -> Option<(Option<&ItemId>, &Meter)> {
        let wanted = self.service_hours;
        let of_kind = self
            .meters()
            .find(|(_, meter)| wanted.is_some_and(|kind| meter.kind == kind));
        let estimated = || {
            self.meters().find(|(_, meter)| {
                wanted == Some(MeterKind::Running) && meter.tells_running_hours()
            })
        };
        of_kind.or_else(estimated).or_else(|| self.meters().next())
    }
}

/// A meter beside the first one.
#[derive(Clone, Debug, PartialEq)]
pub struct FurtherMeter {
    /// Its id.
    pub id: ItemId,
    /// Name.
    pub name: String,
    /// The meter.
    pub meter: Meter,
}

/// A place in the machine frame, metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Forwards.
    pub x: f64,
    /// Left.
    pub y: f64,
    /// Up.
    pub z: f64,
}

/// A place to stand at, round the machine or on its seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// Id.
    pub id: StationId,
    /// Name.
    pub name: String,
    /// Where one stands (z is 0 on the ground).
    pub at: Option<Place>,
    /// Line in the book.
    pub line: u32,
}

/// What the engine does while something is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Engine {
    /// Off; key (or what stands for it) out.
    Off,
    /// Running at low idle.
    Idle,
    /// Running and moving or working.
    Working,
    /// Off again, after it has run.
    After,
}

/// What must be in place before a point is attended to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Safeguard {
    /// Key, or battery-switch handle, in the pocket of the one who looks.
    KeyOut,
    /// Chocks at tracks or wheels.
    Chocks,
    /// Raised parts on a proven prop or lock.
    Prop,
    /// Pressure let off and gauged.
    PressureGauged,
    /// Nobody in the danger zone.
    ZoneEmpty,
    /// A second person outside the zone, in sight.
    SecondPerson,
    /// Only the steward or the deputy.
    StewardOnly,
    /// Let it cool first.
    Cooled,
    /// Seat belt on.
    BeltOn,
}

/// A pose of the machine in which points are attended to.
#[derive(Clone, Debug, PartialEq)]
pub struct Pose {
    /// Id.
    pub id: ItemId,
    /// How it looks, e.g. "everything lowered, bucket curled, feet up".
    pub what: String,
    /// Rams whose rods are in, in this pose.
    pub rods_in: Vec<ItemId>,
    /// Rams whose rods are out, in this pose.
    pub rods_out: Vec<ItemId>,
    /// What must be in place to stay in it.
    pub guards: Vec<Safeguard>,
    /// Line in the book.
    pub line: u32,
}

/// What a point bears on. The verdict's rules go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum About {
    /// Brakes.
    Brakes,
    /// Steering.
    Steering,
    /// Seat belt and roll-over structure.
    SeatBelt,
    /// Guards and shields.
    Guards,
    /// Arm, frame, welds.
    Structure,
    /// Hydraulic hoses and lines.
    Hoses,
    /// Fuel system.
    Fuel,
    /// Engine oil.
    EngineOil,
    /// Oil pressure.
    OilPressure,
    /// Hydraulic oil.
    HydraulicOil,
    /// Gear, axle, final-drive oil.
    GearOil,
    /// Coolant.
    Coolant,
    /// Brake fluid.
    BrakeFluid,
    /// Starting circuit and neutral lock.
    Starting,
    /// Levers and pedals.
    Levers,
    /// Pins and what retains them.
    Pins,
    /// Bolts.
    Bolts,
    /// Tracks and undercarriage.
    Tracks,
    /// Wheels, tyres, wheel nuts.
    Wheels,
    /// Greased joints.
    Joints,
    /// Battery and wiring.
    Electric,
    /// Lights, horn, mirrors, glass, signs.
    Signals,
    /// Fire extinguisher.
    Fire,
    /// Locks that hold something up or still (boom lock, swing pin, props).
    Locks,
    /// What holds a trailer to its tractor and a load to its trailer: coupling, safety chain, tie-downs.
    Coupling,
    /// What keeps current off people: earth, residual-current device, sockets, cables.
    Shock,
    /// What cuts: chain, bar, blade.
    Cutter,
    /// Weights that keep it from tipping.
    Ballast,
    /// Air and filters.
    Air,
    /// Cleanliness, loose things, access.
    Tidiness,
    /// Anything else.
    Other,
}

impl About {
    /// Whether an unknown here bears on safety: then the machine stands down until it is known.
    pub fn bears_on_safety(self) -> bool {
        use About::*;
        !matches!(
            self,
            GearOil | Coolant | Joints | Electric | Fire | Air | Tidiness | Other | Signals
        )
    }
}

/// Leak classes of the army maintenance tables (I wetness; II drops form, do not fall; III drops fall).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LeakClass {
    /// Wetness or discolouration, no drops.
    I,
    /// Drops form, do not fall.
    II,
    /// Drops fall.
    III,
}

/// How bad a finding is. Declared per point where the book departs from the rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Written down, the machine may run.
    Note,
    /// Run with care.
    Care,
    /// Stand down.
    StandDown,
}

/// One thing to attend to at a station. The id is permanent.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// Permanent id.
    pub id: PointId,
    /// Station it belongs to.
    pub station: StationId,
    /// What, in a few words.
    pub what: String,
    /// How to check it.
    pub how: Option<String>,
    /// Why it matters here.
    pub why: Option<String>,
    /// What kind of answer it wants.
    pub kind: PointKind,
    /// What it bears on.
    pub about: About,
    /// How often it comes round; whichever comes first. Never empty.
    pub rhythms: Vec<Rhythm>,
    /// Where it is on the machine.
    pub at: Option<Place>,
    /// Pose it is attended to in; none = as found.
    pub pose: Option<ItemId>,
    /// Engine state it needs.
    pub engine: Engine,
    /// What must be in place first.
    pub guards: Vec<Safeguard>,
    /// The same point on the other side.
    pub mirror: Option<PointId>,
    /// How many of it (fittings, clips, bolts): 1 or more.
    pub count: u32,
    /// Time it takes, seconds.
    pub seconds: u32,
    /// What a bad answer means here, where the book departs from the rules. Never weaker than a rule that stands down at once.
    pub bad_is: Option<Severity>,
    /// "common practice, no source", or where the limit comes from.
    pub source: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// What kind of answer a point wants, with what is needed to judge it.
#[expect(
    clippy::large_enum_variant,
    reason = "a book holds some hundred points; plain values read better than boxes"
)]
#[derive(Clone, Debug, PartialEq)]
pub enum PointKind {
    /// A fluid level against a mark.
    Level(LevelMark),
    /// One or more grease fittings.
    Fitting(GreasingRule),
    /// Whatever retains a pin.
    PinClip,
    /// A group of bolts, felt by finger.
    Bolts,
    /// A measured value against a limit.
    Measure(MeasureLimit),
    /// Leaks, by class; out from this class on.
    Leak {
        /// What would leak.
        fluid: Option<ItemId>,
        /// Out at and above this class.
        out_from: LeakClass,
    },
    /// Hoses and lines.
    Hose,
    /// Structure: cracks, bends, welds.
    Structure,
    /// Something that must work.
    Function,
    /// Something that must be there and in order.
    Look,
    /// In which combinations does it crank: the neutral-start truth table.
    Crank(Vec<CrankCase>),
}

impl PointKind {
    /// The kind's word: in the journal's answers, on phones and as part of sentences' keys.
    pub fn code(&self) -> &'static str {
        match self {
            PointKind::Level(_) => "level",
            PointKind::Fitting(_) => "fitting",
            PointKind::PinClip => "pin-clip",
            PointKind::Bolts => "bolts",
            PointKind::Measure(_) => "measure",
            PointKind::Leak { .. } => "leak",
            PointKind::Hose => "hose",
            PointKind::Structure => "structure",
            PointKind::Function => "function",
            PointKind::Look => "look",
            PointKind::Crank(_) => "crank",
        }
    }
}

/// One combination of the starting truth table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrankCase {
    /// The combination in words, e.g. "in gear, take-off shaft off".
    pub with: String,
    /// Whether the starter may turn in it.
    pub may_crank: bool,
}

/// Where a level is read and what it means.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelMark {
    /// Fluid.
    pub fluid: Option<ItemId>,
    /// Pose the mark belongs to. Unknown pose: no reading can be compared.
    pub pose: Option<ItemId>,
    /// Attachments the mark belongs to.
    pub attachments: Vec<String>,
    /// Oil temperature the mark belongs to.
    pub oil: OilHeat,
    /// Whether there is an upper mark: too full is then a finding.
    pub upper: bool,
    /// How the level stands in the book's other poses, where that can be worked out from tank and rods.
    pub elsewhere: Vec<super::LevelShift>,
}

/// Oil temperature by hand, good enough for a mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OilHeat {
    /// As it stood overnight.
    Cold,
    /// After warm-up.
    Warm,
    /// After work.
    Hot,
    /// The book does not say or it does not matter.
    Any,
}

/// How a fitting is greased.
#[derive(Clone, Debug, PartialEq)]
pub struct GreasingRule {
    /// Joint it feeds.
    pub joint: Option<ItemId>,
    /// Fed through a line from elsewhere: fresh grease must be seen at the joint itself.
    pub remote: bool,
    /// Plain joint: until fresh grease begins to show. Sealed bearing or slewing ring: so many strokes, no more.
    pub until: GreaseUntil,
    /// How many hours the machine may run after this fitting refused grease; then it stands down.
    pub refused_runs: Option<Quantity>,
    /// How often the grease of a remote line must be seen at the joint, days; none = as is usual.
    pub seen_within: Option<u32>,
}

impl GreasingRule {
    /// Days for which a sight of fresh grease at the joint of a remote line holds: as the book says, else a week.
    pub fn seen_every(&self) -> u32 {
        self.seen_within.unwrap_or(USUALLY_SEEN_WITHIN)
    }
}

/// Grease of a remote line must be seen at the joint at least so often, days. Common practice, no source.
const USUALLY_SEEN_WITHIN: u32 = 7;

/// When to stop pumping.
#[derive(Clone, Debug, PartialEq)]
pub enum GreaseUntil {
    /// Until fresh grease begins to show (plain joints).
    Shows,
    /// So many strokes (sealed bearing, slewing ring).
    Strokes(u32),
}

/// A measure and its limit, with the method that the limit belongs to.
#[derive(Clone, Debug, PartialEq)]
pub struct MeasureLimit {
    /// Lower limit as written.
    pub min: Option<Quantity>,
    /// Upper limit as written.
    pub max: Option<Quantity>,
    /// The method's own word, e.g. `board along the top`. A reading by another method is not compared.
    pub method: String,
    /// Names of the readings to take, e.g. front span, rear span. At least one.
    pub readings: Vec<String>,
    /// How several readings are combined.
    pub take: quantity::Take,
    /// Half width a tape in the yard is good for, used where the reading gives none.
    pub usual_plus_minus: Option<Quantity>,
    /// A condition that must be true for the reading to be judged, e.g. "coasted to a stop".
    pub condition: Option<String>,
    /// Joint whose play it is, where it is one's.
    pub joint: Option<ItemId>,
}

/// How often a point comes round.
#[expect(
    clippy::large_enum_variant,
    reason = "a book holds some hundred rhythms; plain values read better than boxes"
)]
#[derive(Clone, Debug, PartialEq)]
pub enum Rhythm {
    /// Before every start.
    EveryStart,
    /// After use, at handover.
    AfterUse,
    /// Every so many hours run.
    Hours(Quantity),
    /// Every so many days.
    Days(u32),
    /// At the start of each season.
    Season,
    /// After standing so many days.
    Standing(u32),
    /// First time this person is on this machine.
    FirstTime,
    /// Restarted by an event: every `every` for `during`, then every `then`.
    After {
        /// Event named by adjustments, repairs and parts fitted.
        event: ItemId,
        /// Interval at first.
        every: Quantity,
        /// How long so.
        during: Quantity,
        /// Interval after that.
        then: Option<Quantity>,
    },
}

/// A moving joint.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Id.
    pub id: ItemId,
    /// Name.
    pub name: String,
    /// How it is lubricated.
    pub lubrication: Lubrication,
    /// The same joint on the other side.
    pub mirror: Option<ItemId>,
    /// Where it is.
    pub at: Option<Place>,
    /// Line in the book.
    pub line: u32,
}

/// How a joint is lubricated.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lubrication {
    /// By fittings (the points that name the joint). None known: to be found.
    Fittings,
    /// Sealed.
    Sealed,
    /// Runs in oil.
    OilBath,
    /// Oil can, not grease.
    OilCan,
}

/// A fluid of the machine.
#[derive(Clone, Debug, PartialEq)]
pub struct Fluid {
    /// Id.
    pub id: ItemId,
    /// Name.
    pub name: String,
    /// Grade as printed on the can.
    pub grade: Option<String>,
    /// How much it holds.
    pub holds: Option<Quantity>,
    /// Where it goes in.
    pub filler: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// This machine's greasing habits.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct GreasingHabit {
    /// Before or after use: one of the two and always the same.
    pub when: Option<GreaseWhen>,
    /// Hours the machine may run after a refusal, where the fitting says nothing.
    pub refused_runs: Option<Quantity>,
    /// Line in the book, 0 where it has none.
    pub line: u32,
}

/// When the greasing round is walked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GreaseWhen {
    /// Before work.
    Before,
    /// After work.
    After,
}

/// A ram.
#[derive(Clone, Debug, PartialEq)]
pub struct Ram {
    /// Id.
    pub id: ItemId,
    /// Name.
    pub name: String,
    /// Bore.
    pub bore: Option<Quantity>,
    /// Rod.
    pub rod: Option<Quantity>,
    /// Pin to pin, closed.
    pub closed: Option<Quantity>,
    /// Pin to pin, open.
    pub open: Option<Quantity>,
    /// How many side by side.
    pub count: u32,
    /// What it moves, its pressures and weights.
    pub work: super::RamWork,
    /// Line in the book.
    pub line: u32,
}

/// A pin-to-pin distance of the tape survey.
#[derive(Clone, Debug, PartialEq)]
pub struct Distance {
    /// One pin.
    pub from: String,
    /// The other pin.
    pub to: String,
    /// How far, as measured.
    pub is: Quantity,
    /// How it is known; [`super::KnownBy::Measured`] where the book does not say.
    pub known: super::KnownBy,
    /// Line in the book.
    pub line: u32,
}

/// A mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Mass {
    /// Of what.
    pub of: String,
    /// How much.
    pub is: Quantity,
    /// Where its centre lies: in the frame of its link, along lever or link, or in the machine frame for `machine`;
    /// empty where the book does not say.
    pub at: Vec<super::Coordinate>,
    /// How it is known; [`super::KnownBy::Measured`] where the book does not say.
    pub known: super::KnownBy,
    /// Line in the book.
    pub line: u32,
}

/// What it stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct GroundGear {
    /// Whether it travels by itself; false where it stands on a frame or skids, is towed or carried.
    pub travels: bool,
    /// Whether it is towed.
    pub towed: bool,
    /// Whether it is an attachment: put on another machine, which carries it.
    pub attachment: bool,
    /// Tracks (true) or wheels.
    pub tracks: bool,
    /// Distance between the middles of the tracks or wheels.
    pub gauge: Option<Quantity>,
    /// Length on the ground, or wheel base.
    pub length: Option<Quantity>,
    /// Friction on the ground: the share of the load that holds against sliding.
    pub friction: Option<Quantity>,
    /// Mass of a metre of track chain.
    pub link_mass: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// One step of the rest order.
#[derive(Clone, Debug, PartialEq)]
pub struct RestStep {
    /// Id.
    pub id: ItemId,
    /// What must be so.
    pub what: String,
    /// What proves it.
    pub proof: Option<String>,
    /// What kind of step it is: the verdict's rules go by it.
    pub is: RestKind,
    /// What is right for digging, where it differs (a lock pin is in at rest, out to dig).
    pub to_dig: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// Kinds of rest steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum RestKind {
    /// Everything on the ground, or raised on its proven mechanical lock.
    Lowered,
    /// A lock pin or bar in its state for rest.
    Lock,
    /// In neutral.
    Neutral,
    /// Brake set.
    Brake,
    /// Engine off.
    EngineOff,
    /// Levers worked after stopping, only where the book says that is safe.
    LeversWorked,
    /// Battery switch off.
    BatteryOff,
    /// Greased.
    Greased,
    /// Clean.
    Clean,
    /// Key or its stand-in put away.
    KeyAway,
    /// Anything else.
    Other,
}

/// Short lists for during the shift, in the steward's words.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Shift {
    /// Warm-up.
    pub warm_up: Vec<String>,
    /// First metres: brakes and steering.
    pub first_metres: Vec<String>,
    /// Gauges to watch.
    pub gauges: Vec<String>,
    /// Stop and tell.
    pub stop_and_tell: Vec<String>,
    /// Cool-down.
    pub cool_down: Vec<String>,
}

/// Where nobody may be while the machine works.
#[derive(Clone, Debug, PartialEq)]
pub struct DangerZone {
    /// Radius round the arm's swing axis.
    pub reach: Quantity,
    /// Where the middle of the circle is (x, y), machine frame.
    pub middle: Option<Place>,
    /// How far round the undercarriage besides.
    pub around: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// A known weakness.
#[derive(Clone, Debug, PartialEq)]
pub struct Weakness {
    /// Id.
    pub id: ItemId,
    /// What.
    pub what: String,
    /// Points that watch it.
    pub points: Vec<PointId>,
    /// Line in the book.
    pub line: u32,
}

/// A control by name.
#[derive(Clone, Debug, PartialEq)]
pub struct Control {
    /// Id.
    pub id: ItemId,
    /// Name and place.
    pub name: String,
    /// What it does, where known.
    pub does: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// Which way a drawing stroke is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum View {
    /// From the left: x to the left of the page is forwards; uses x, z.
    Left,
    /// From the right: mirrored; uses x, z.
    Right,
    /// From both sides alike.
    Sides,
    /// From above: uses x, y.
    Plan,
}

/// One stroke of the machine's drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// View it belongs to.
    pub view: View,
    /// Heavy outline or light line.
    pub heavy: bool,
    /// Closed shape, filled with sheet colour (covers what was drawn before).
    pub closed: bool,
    /// What is drawn.
    pub shape: Shape,
    /// Line in the book.
    pub line: u32,
}

/// A line through points, or a circle; metres, in the plane of the view.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A line through these points.
    Line(Vec<(f64, f64)>),
    /// A circle.
    Circle {
        /// Middle.
        middle: (f64, f64),
        /// Radius.
        radius: f64,
    },
}
