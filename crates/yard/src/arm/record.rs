//! Every figure of one pose, as plain data. SI; angles in radians; points in P.

use super::missing::Told;
use crate::book::StanceName;
use reckon::arm::force::{Allowed, Edge, Governs, LiftLimit, LoadPoint};
use reckon::arm::rest::{FlatRest, ShutIn};
use reckon::arm::shape::{Joint, Stop, Vector};
use reckon::arm::swing::SideStress;
use std::collections::BTreeMap;

pub use reckon::arm::strength::Direction;

/// What is asked: the pose and what is in and around it.
#[derive(Clone, Debug, PartialEq)]
pub struct PoseAsked {
    /// Pin-to-pin lengths of boom, dipper and bucket ram, in metres.
    pub lengths: [f64; 3],
    /// Swing of the arm from where it points when not swung, towards the left of the machine's arm plane seen from above
    /// (counter-clockwise), in radians.
    pub swing: f64,
    /// What lies in the bucket, in kilograms, with its centre where the book's `load` has it; 0 = empty.
    pub load: f64,
    /// Temperature of the oil, in degrees Celsius; none = that at which the tank's oil was counted.
    pub temperature: Option<f64>,
    /// How far out the other rams are, by id, as a share of the stroke from 0 to 1. Those not named count as fully in and
    /// are listed in [`TankRecord::taken_as_in`].
    pub others_out: BTreeMap<String, f64>,
}

impl PoseAsked {
    /// This pose, not swung, empty.
    pub fn at(lengths: [f64; 3]) -> Self {
        PoseAsked {
            lengths,
            swing: 0.0,
            load: 0.0,
            temperature: None,
            others_out: BTreeMap::new(),
        }
    }
}

/// Every figure of one pose.
#[derive(Clone, Debug, PartialEq)]
pub struct PoseRecord {
    /// What was asked.
    pub asked: PoseAsked,
    /// Boom, dipper and bucket ram.
    pub rams: [RamRecord; 3],
    /// Boom over level, dipper against boom, bucket against dipper.
    pub angles: [f64; 3],
    /// The bucket's line from pin to tooth over level.
    pub attitude: f64,
    /// Foot pin, dipper pin, bucket pin.
    pub pivots: [Vector; 3],
    /// Barrel pin of each ram.
    pub barrels: [Vector; 3],
    /// Rod pin of each ram; the bucket ram's is the pin it shares with lever and link.
    pub rods: [Vector; 3],
    /// The lever's pin on the dipper.
    pub lever_pin: Vector,
    /// The link's pin on the bucket.
    pub link_pin: Vector,
    /// The tooth's tip: reach from the swing axis and height over the ground.
    pub tooth: Vector,
    /// Half the width of the 95 % interval of both, from the survey, the ram lengths taken as exact; nothing where there
    /// is no survey or a pin is open.
    pub tooth_plus_minus: Option<Vector>,
    /// The heel; none where the book does not say where it is.
    pub heel: Option<Vector>,
    /// What each ram carries with nothing at the tooth.
    pub hanging: Told<[HangingRam; 3]>,
    /// Curl, crowd, push-down and pull-up, in the order of [`Direction::ALL`].
    pub forces: [Told<ForceRecord>; 4],
    /// What is lifted at the bucket's pin.
    pub lift: Told<LiftRecord>,
    /// How it stands, one for each way of standing of the book, in its order.
    pub footing: Vec<FootingRecord>,
    /// The swing at the angle asked.
    pub swing: Told<SwingRecord>,
    /// Buckling of each ram at this length.
    pub columns: [Told<ColumnRecord>; 3],
    /// The arm left so.
    pub rest: Told<AtRest>,
    /// The oil in its tank.
    pub tank: Told<TankRecord>,
    /// What is to be said of this pose.
    pub warnings: Vec<PoseWarning>,
    /// Whether any number of it rests on a blank's nominal shape.
    pub rests_on_guess: bool,
}

/// One ram in the pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RamRecord {
    /// Its joint.
    pub joint: Joint,
    /// Pin to pin.
    pub length: f64,
    /// How far out: length less closed length.
    pub extension: f64,
    /// The same as a share of the stroke, 0 fully in.
    pub out: f64,
    /// Where it stands in its stroke.
    pub stop: Stop,
    /// The angle of its joint.
    pub angle: f64,
    /// Metres of ram for a radian of joint: positive where a longer ram turns it counter-clockwise. Its size is the
    /// distance of the joint's pin from the ram's line (for the bucket: as the linkage passes it on).
    pub lever: f64,
}

/// What one ram carries with nothing at the tooth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HangingRam {
    /// Thrust: positive pushes.
    pub thrust: f64,
    /// The side that is squeezed, and the pressure there; not known without bore and rod.
    pub shut_in: Told<ShutIn>,
}

/// What the tooth can do in one direction.
#[derive(Clone, Debug, PartialEq)]
pub struct ForceRecord {
    /// Which direction.
    pub direction: Direction,
    /// Unit vector of the ground's force on the tooth.
    pub cut: Cut,
    /// What each newton at the tooth adds to each ram's thrust.
    pub per_newton: [f64; 3],
    /// Boom, dipper, bucket: the working one and the two that hold.
    pub rams: [LimitRecord; 3],
    /// What the three rams allow together, the machine taken as held down: never the usable force by itself.
    pub arm_alone: Told<(Allowed, Governs)>,
    /// The same with tipping and sliding, for each way of standing in the order of the book.
    pub standing: Vec<StanceForce>,
    /// The usable force and what governs it, on the stance it digs from; not known without one.
    pub usable: Told<(Allowed, Governs)>,
    /// Each ram's thrust at the usable force, as a share of what it may carry that way: 1 is the one that gives out.
    pub share: Told<[f64; 3]>,
    /// What the working ram's lever alone would promise, as if nothing else could give way. **For comparison only**, never
    /// the answer.
    pub lever_alone: Told<Allowed>,
    /// What each ram could do alone against this force, best first: who does the hard part.
    pub order: Told<[PartRecord; 3]>,
}

/// The direction of a cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cut {
    /// The ram that works.
    pub working: Joint,
    /// Unit vector of the ground's force on the tooth.
    pub direction: Vector,
}

/// What one ram allows at the tooth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LimitRecord {
    /// Which ram.
    pub joint: Joint,
    /// Driven by the pump: supply pressure.
    pub working: Told<Allowed>,
    /// Holding against the work: port relief of the side that is squeezed.
    pub holding: Told<Allowed>,
    /// The one of the two that counts in this direction.
    pub counts: Told<Allowed>,
    /// The force at which this ram would buckle: a teaching figure, no limit to dig by.
    pub buckles: Told<Allowed>,
}

/// Tipping and sliding on one way of standing, with what then governs.
#[derive(Clone, Debug, PartialEq)]
pub struct StanceForce {
    /// Which way of standing.
    pub stance: StanceName,
    /// The force at which it begins to tip, and over which edge.
    pub tips: Told<(Allowed, Edge)>,
    /// The force at which it begins to slide.
    pub slides: Told<Allowed>,
    /// The usable force and what governs it.
    pub usable: Told<(Allowed, Governs)>,
}

/// What a ram could do alone against a force.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartRecord {
    /// The ram.
    pub joint: Joint,
    /// The usable force with this ram working, and what governs.
    pub usable: (Allowed, Governs),
    /// Metres the tooth goes for a metre of ram; 0 where this ram does not move it that way. What pushes hard goes slowly.
    pub advance: f64,
}

/// What is lifted straight up at the bucket's pin. Newtons of load.
#[derive(Clone, Debug, PartialEq)]
pub struct LiftRecord {
    /// What the boom ram lifts at the pump's pressure.
    pub boom: Allowed,
    /// What the dipper ram holds.
    pub dipper: Allowed,
    /// The lower of the two, not below 0.
    pub hydraulic: f64,
    /// With tipping, for each way of standing.
    pub standing: Vec<StanceLift>,
}

/// Lifting on one way of standing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StanceLift {
    /// Which.
    pub stance: StanceName,
    /// The load at which it begins to tip; infinite where it never does.
    pub tips: Told<f64>,
    /// The lower of 87 % of what the rams lift and 75 % of what tips (ISO 10567:2007), and which it is.
    pub rated: Told<(f64, LiftLimit)>,
}

/// How the machine stands in the pose, on one way of standing, with nothing at the tooth.
#[derive(Clone, Debug, PartialEq)]
pub struct FootingRecord {
    /// Which way of standing.
    pub stance: StanceName,
    /// Everything of it; not known where weights or corners are not.
    pub figures: Told<FootingFigures>,
}

/// The figures of one way of standing.
#[derive(Clone, Debug, PartialEq)]
pub struct FootingFigures {
    /// The corners, machine frame (origin under the middle of the undercarriage).
    pub corners: Vec<[f64; 2]>,
    /// Where the load comes through the ground, machine frame.
    pub load_point: LoadPoint,
    /// What holds each edge down, in newton metres; the machine tips over an edge where it is negative.
    pub edge_moments: Vec<f64>,
    /// Whether it stands.
    pub stands: bool,
    /// The slope, falling straight towards each edge, at which it tips by itself.
    pub slopes: Vec<f64>,
    /// The edge with the least slope: where it is weakest.
    pub weakest: usize,
    /// What each corner carries: four on springs of equal stiffness under a stiff frame.
    pub reactions: Told<Vec<f64>>,
    /// Pressure under each corner's pad; nothing at corners that stand on something else than a pad, such as the
    /// loader's bucket.
    pub pad_pressure: Told<Vec<Option<f64>>>,
    /// The load at the bucket's pin, straight down, at which it tips, and over which edge; infinite where it never does.
    pub tips_at_pin: (f64, Edge),
    /// The level pull at which a support begins to drag.
    pub drags_at: Told<f64>,
}

/// The swing at one angle.
#[derive(Clone, Debug, PartialEq)]
pub struct SwingRecord {
    /// The angle.
    pub angle: f64,
    /// Lengths of the left and the right ram.
    pub lengths: [f64; 2],
    /// Their levers, metres a radian, with sign.
    pub levers: [f64; 2],
    /// Torque when driven to the left at supply pressure.
    pub towards_left: Told<f64>,
    /// Torque when driven to the right, negative.
    pub towards_right: Told<f64>,
    /// Torque it holds against, up to the relief between the lines, swung on to the right.
    pub holds: Told<f64>,
    /// Sideways force at the tooth that this torque makes; holding by the relief.
    pub side_force: Told<f64>,
    /// The angle at which the left ram loses its lever.
    pub dead_centre: f64,
    /// Oil for a radian to the left, in cubic metres.
    pub oil_per_radian: f64,
    /// Speed of the swing at the pump's flow, in radians a second.
    pub speed: Told<f64>,
    /// Moment of inertia of the arm with each part as a point at its centre, in kg m2: **at least** so much.
    pub inertia_at_least: Told<f64>,
    /// Energy of the swinging arm at that speed, at least, in joules.
    pub energy_at_least: Told<f64>,
    /// The angle over which the relief between the lines stops this energy, and the mean force at the tooth, at least.
    pub stopped_by_relief: Told<(f64, f64)>,
    /// What the side force does to each section of the boom's box, in the order of the book. Teaching only.
    pub sections: Told<Vec<SideStress>>,
}

/// A ram as a column at its length. A teaching figure: rods are bent by back-dragging, shocks and worn glands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnRecord {
    /// The thrust at which it would buckle, solved as two parts; nothing where the gland lies beyond the rod's pin.
    pub critical: f64,
    /// Euler's load of the bare rod over the whole length.
    pub rod_only: f64,
    /// Rankine's load, for a ram too short to buckle before its rod yields; with a rod steel that yields at 420 MPa, as is
    /// usual.
    pub rankine: f64,
    /// How many times the most it can be driven with goes into `critical`.
    pub reserve_working: Told<f64>,
    /// How many times the most it can hold goes into `critical`.
    pub reserve_holding: Told<f64>,
}

/// The arm left in this pose. **Every pressure is estimated: a circuit is live until it was bled and gauged.**
#[derive(Clone, Debug, PartialEq)]
pub struct AtRest {
    /// What is shut in in each ram when it hangs so.
    pub shut_in: [ShutIn; 3],
    /// The same with the boom locked by its pin.
    pub boom_pinned: [ShutIn; 3],
    /// The highest of the three, hanging.
    pub highest: f64,
    /// The moment that the boom's lock pin then carries about the foot pin, in newton metres.
    pub lock_moment: f64,
    /// Where the bucket touches the ground, where it does: to within 2 cm.
    pub touches: Option<Vector>,
    /// After bleeding boom, dipper or bucket alone.
    pub bled: [Told<BledRam>; 3],
    /// The bucket flat on the ground with no ram loaded; nothing where tooth and heel do not both touch.
    pub flat: Option<FlatRest>,
}

/// What bleeding one circuit does to the other two.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BledRam {
    /// The circuit that was bled.
    pub joint: Joint,
    /// The load that then rests on the ground.
    pub load: f64,
    /// What is shut in in each ram then; 0 in the one that was bled.
    pub rams: [ShutIn; 3],
    /// Rams whose thrust changed its side by it.
    pub turned: [bool; 3],
}

/// The oil in its tank.
#[derive(Clone, Debug, PartialEq)]
pub struct TankRecord {
    /// Level over the floor of the tank, in metres.
    pub level: Told<f64>,
    /// Oil in the tank, in cubic metres.
    pub volume: Told<f64>,
    /// How much lower the level stands than with the three rams of the arm fully in, at one temperature, in metres.
    pub below_all_in: Told<f64>,
    /// Ids of other rams that were not asked about: counted as fully in.
    pub taken_as_in: Vec<String>,
    /// Ids of rams that move the level but are not measured.
    pub unmeasured: Vec<String>,
}

/// What is to be said of a pose.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PoseWarning {
    /// Shorter or longer than this ram can be: no such pose.
    BeyondStroke(Joint),
    /// The ram is fully in or fully out: the stop carries, and no relief opens.
    OnItsStop(Joint, Stop),
    /// The ram has lost most of its lever: less than a tenth of the longest it has over its stroke.
    NearDeadCentre(Joint),
    /// Not even the arm's own weight can be held by this ram.
    CannotHoldItself(Joint),
    /// The machine tips by itself in this pose on this way of standing.
    TipsByItself(StanceName),
    /// The tooth is below the ground.
    BelowGround,
}

impl PoseWarning {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            PoseWarning::BeyondStroke(_) => "beyond-stroke",
            PoseWarning::OnItsStop(..) => "on-its-stop",
            PoseWarning::NearDeadCentre(_) => "near-dead-centre",
            PoseWarning::CannotHoldItself(_) => "cannot-hold-itself",
            PoseWarning::TipsByItself(_) => "tips-by-itself",
            PoseWarning::BelowGround => "below-ground",
        }
    }
}
