//! The arm as a book describes it: pins, pose readings, supports, swing, oil tank, lifting, boom sections.
//!
//! Frames of the links, all in metres. Post: r outwards from the swing axis, z up from the ground. Boom: origin the foot
//! pin, first axis to the dipper's pin. Dipper: origin the dipper's pin, first axis to the bucket's pin. Bucket: origin
//! the bucket's pin, first axis to the tooth. The second axis is a quarter turn counter-clockwise from the first, with r
//! pointing right.

use quantity::Quantity;

/// Everything a book says of its arm beyond rams, distances and masses. Nothing of it is needed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ArmTables {
    /// Which way it points, where it stands, and what one sees when a ram gets longer.
    pub manner: Option<ArmManner>,
    /// Pins with a place.
    pub pins: Vec<Pin>,
    /// Pose readings: ram lengths with tooth height and reach.
    pub readings: Vec<PoseReading>,
    /// What it stands on, one for each way of standing.
    pub supports: Vec<Support>,
    /// The swing.
    pub swing: Option<SwingGear>,
    /// The hydraulic oil tank.
    pub oil_tank: Option<OilTank>,
    /// What makes it a lifting machine.
    pub lifting: Option<Lifting>,
    /// Sections of the boom's box, for teaching.
    pub boom_sections: Vec<BoomSection>,
}

/// Which way the arm points when it is not swung.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Points {
    /// To the rear, as on a loader-backhoe.
    Backwards,
    /// To the front.
    Forwards,
}

/// What one sees when the boom ram gets longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BoomRamOut {
    /// The boom goes up.
    Raises,
    /// The boom goes down.
    Lowers,
}

/// What one sees when the dipper ram gets longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DipperRamOut {
    /// The dipper is drawn in.
    Crowds,
    /// The dipper goes out.
    Reaches,
}

/// What one sees when the bucket ram gets longer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BucketRamOut {
    /// The bucket curls in.
    Curls,
    /// The bucket opens.
    Opens,
}

/// Which way the arm points, where its axis stands, and what settles mirror assemblies.
#[derive(Clone, Debug, PartialEq)]
pub struct ArmManner {
    /// Which way it points when not swung.
    pub points: Option<Points>,
    /// From the middle of the undercarriage to the swing axis, the way the arm points; none = 0.
    pub axis_from_middle: Option<Quantity>,
    /// What the boom ram does getting longer.
    pub boom_ram_out: Option<BoomRamOut>,
    /// What the dipper ram does getting longer.
    pub dipper_ram_out: Option<DipperRamOut>,
    /// What the bucket ram does getting longer.
    pub bucket_ram_out: Option<BucketRamOut>,
    /// Width of the bucket.
    pub bucket_width: Option<Quantity>,
    /// Length of the lever, about: a first guess, which a distance overrules.
    pub lever: Option<Quantity>,
    /// Length of the link, about: a first guess, which a distance overrules.
    pub link: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// The pins and points of an arm that have names: a closed list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PinName {
    /// The boom's foot pin, on the post.
    BoomFoot,
    /// The boom ram's barrel pin, on the post.
    BoomRamBarrel,
    /// The boom ram's rod pin, on the boom.
    BoomRamRod,
    /// The dipper ram's barrel pin, on the boom.
    DipperRamBarrel,
    /// The pin that joins boom and dipper.
    DipperPin,
    /// The dipper ram's rod pin, on the dipper.
    DipperRamRod,
    /// The bucket ram's barrel pin, on the dipper.
    BucketRamBarrel,
    /// The lever's pin on the dipper.
    LeverPin,
    /// The pin that joins dipper and bucket.
    BucketPin,
    /// The link's pin on the bucket.
    LinkPin,
    /// The tip of the middle tooth.
    Tooth,
    /// The heel: the back end of the bucket's bottom plate.
    Heel,
    /// The pin that rod, lever and link share. It is fixed to none of the four links and has no place, only distances.
    LinkagePin,
}

/// The parts of an arm that pins stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ArmLink {
    /// The post, which swings.
    Post,
    /// The boom.
    Boom,
    /// The dipper.
    Dipper,
    /// The bucket.
    Bucket,
}

impl PinName {
    /// The link whose frame its place is written in; none for the shared pin of the linkage, which has no place.
    pub fn link(self) -> Option<ArmLink> {
        match self {
            PinName::BoomFoot | PinName::BoomRamBarrel => Some(ArmLink::Post),
            PinName::BoomRamRod | PinName::DipperRamBarrel | PinName::DipperPin => {
                Some(ArmLink::Boom)
            }
            PinName::DipperRamRod
            | PinName::BucketRamBarrel
            | PinName::LeverPin
            | PinName::BucketPin => Some(ArmLink::Dipper),
            PinName::LinkPin | PinName::Tooth | PinName::Heel => Some(ArmLink::Bucket),
            PinName::LinkagePin => None,
        }
    }

    /// Whether it stands on the first axis of its link: its second number is then 0.
    pub fn on_axis(self) -> bool {
        matches!(
            self,
            PinName::DipperPin | PinName::BucketPin | PinName::Tooth
        )
    }
}

/// How a number came to be known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum KnownBy {
    /// The nominal shape of a blank: a first guess, never this machine's figure.
    Guess,
    /// From a drawing or a maker's book.
    Drawing,
    /// Measured on this machine.
    Measured,
}

/// One of the numbers of a place, in metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coordinate {
    /// The number, in metres. May be negative.
    pub metres: f64,
    /// Its ±, where one was written.
    pub plus_minus: Option<f64>,
}

/// A pin and its place in the frame of its link.
#[derive(Clone, Debug, PartialEq)]
pub struct Pin {
    /// Which pin.
    pub id: PinName,
    /// The link it stands on; always [`PinName::link`].
    pub on: ArmLink,
    /// Where, along the first and the second axis.
    pub at: [Coordinate; 2],
    /// How it is known.
    pub known: KnownBy,
    /// Line in the book.
    pub line: u32,
}

/// A pose reading: what a tape says while the arm stands still.
#[derive(Clone, Debug, PartialEq)]
pub struct PoseReading {
    /// Pin to pin of the boom ram.
    pub boom_ram: Quantity,
    /// Pin to pin of the dipper ram.
    pub dipper_ram: Quantity,
    /// Pin to pin of the bucket ram.
    pub bucket_ram: Quantity,
    /// The tooth over the ground; below it negative.
    pub tooth_height: Option<Quantity>,
    /// From the swing axis to the tooth, level.
    pub reach: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// What a ram moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Moves {
    /// The boom.
    Boom,
    /// The dipper.
    Dipper,
    /// The bucket.
    Bucket,
    /// The swing.
    Swing,
    /// The loader's lift arms.
    LoaderLift,
    /// The loader's bucket.
    LoaderTilt,
    /// The feet.
    Feet,
    /// Something else.
    Other,
}

/// What a ram is beyond bore, rod and lengths.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct RamWork {
    /// What it moves.
    pub moves: Option<Moves>,
    /// The pressure the pump gives it.
    pub supply: Option<Quantity>,
    /// Port relief on the piston's side.
    pub relief_piston: Option<Quantity>,
    /// Port relief on the rod's side.
    pub relief_rod: Option<Quantity>,
    /// Mass of one barrel.
    pub barrel_mass: Option<Quantity>,
    /// From the barrel's pin to the barrel's centre.
    pub barrel_centre: Option<Quantity>,
    /// Mass of one rod with its piston.
    pub rod_mass: Option<Quantity>,
    /// From the rod's pin to the rod's centre.
    pub rod_centre: Option<Quantity>,
    /// From the barrel's pin to the gland.
    pub gland: Option<Quantity>,
    /// Outside diameter of the tube.
    pub tube: Option<Quantity>,
}

/// A way of standing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum StanceName {
    /// On its tracks.
    Tracks,
    /// On its wheels.
    Wheels,
    /// On its feet, and the rest of what carries it.
    Feet,
    /// On the loader's bucket and its feet.
    LoaderAndFeet,
    /// On its blade, and the rest of what carries it.
    Blade,
}

/// What the machine stands on in one way of standing.
#[derive(Clone, Debug, PartialEq)]
pub struct Support {
    /// Which way of standing.
    pub stance: StanceName,
    /// Corners on the ground, machine frame, metres, counter-clockwise seen from above.
    pub corners: Vec<[f64; 2]>,
    /// The area of each pad.
    pub pad_area: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// How the arm is swung.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SwingKind {
    /// By two rams on a post.
    Rams,
    /// By a ring under the whole upper part.
    Slew,
}

/// The swing.
#[derive(Clone, Debug, PartialEq)]
pub struct SwingGear {
    /// How it is swung.
    pub kind: SwingKind,
    /// Pin of the left ram on the frame: along the arm when not swung, and to its left; the other is its mirror image.
    pub frame_pin: Option<[Coordinate; 2]>,
    /// Pin of the left ram on the post, the arm not swung.
    pub post_pin: Option<[Coordinate; 2]>,
    /// How far it swings to each side.
    pub limit: Option<Quantity>,
    /// Relief between the two lines.
    pub crossover_relief: Option<Quantity>,
    /// Flow of the pump.
    pub flow: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// The hydraulic oil tank.
#[derive(Clone, Debug, PartialEq)]
pub struct OilTank {
    /// Length of its plan.
    pub length: Option<Quantity>,
    /// Width of its plan.
    pub width: Option<Quantity>,
    /// Area of its plan, where it is no rectangle.
    pub area: Option<Quantity>,
    /// All oil of the system, tank, rams and lines, when the level stands at its mark.
    pub oil: Option<Quantity>,
    /// Of it what stays in pump, valves, hoses and filters.
    pub dead: Option<Quantity>,
    /// The temperature at which it was counted.
    pub temperature: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}

/// What makes a digging machine a lifting machine: all three, or it is none.
#[derive(Clone, Debug, PartialEq)]
pub struct Lifting {
    /// The lifting point.
    pub point: Option<String>,
    /// What holds the load when a hose bursts.
    pub load_holding: Option<String>,
    /// Who allows lifting with it, and by what paper.
    pub authority: Option<String>,
    /// Line in the book.
    pub line: u32,
}

/// A section of the boom's welded box. Teaching only: cracks and old repairs are not in it.
#[derive(Clone, Debug, PartialEq)]
pub struct BoomSection {
    /// Where its middle lies in the boom's frame.
    pub at: [Coordinate; 2],
    /// Outer height.
    pub height: Option<Quantity>,
    /// Outer width.
    pub width: Option<Quantity>,
    /// Thickness of the plates above and below.
    pub flange: Option<Quantity>,
    /// Thickness of the side plates.
    pub web: Option<Quantity>,
    /// Line in the book.
    pub line: u32,
}
