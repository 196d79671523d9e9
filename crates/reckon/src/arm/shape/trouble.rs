//! Why a shape gives no pose or no force: codes with numbers, worded elsewhere.

/// One of the three joints of the arm, each moved by its own ram.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Joint {
    /// The boom on its foot pin.
    Boom,
    /// The dipper on the boom.
    Dipper,
    /// The bucket on the dipper.
    Bucket,
}

impl Joint {
    /// All three, from the machine outwards.
    pub const ALL: [Joint; 3] = [Joint::Boom, Joint::Dipper, Joint::Bucket];

    /// The word codes and tables use: "boom", "dipper", "bucket".
    pub fn code(self) -> &'static str {
        match self {
            Joint::Boom => "boom",
            Joint::Dipper => "dipper",
            Joint::Bucket => "bucket",
        }
    }

    /// 0 for the boom, 1 for the dipper, 2 for the bucket.
    pub fn index(self) -> usize {
        match self {
            Joint::Boom => 0,
            Joint::Dipper => 1,
            Joint::Bucket => 2,
        }
    }
}

/// Why a shape gives no pose or no force.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ShapeTrouble {
    /// A number is missing, not finite, or not positive where it must be.
    NotANumber {
        /// The joint it belongs to.
        joint: Joint,
        /// Which number: a code.
        what: &'static str,
    },
    /// The ram's length does not fit between its pins: the triangle does not close.
    TriangleOpen {
        /// The joint.
        joint: Joint,
        /// The length asked for, in metres.
        length: f64,
        /// The shortest and the longest distance of the pins.
        between: (f64, f64),
    },
    /// Lever and link of the bucket do not reach each other.
    LinkageOpen {
        /// The ram's length asked for, in metres, where it was asked for by length.
        length: Option<f64>,
        /// The bucket's angle asked for, where it was asked for by angle.
        angle: Option<f64>,
    },
    /// The ram lies on a dead centre here: it has no lever, and no force of it turns the joint.
    DeadCentre {
        /// The joint.
        joint: Joint,
    },
    /// The place cannot be reached: the wrist would have to be this far from the foot pin, and that is too far or too near.
    OutOfReach {
        /// Distance from foot pin to bucket pin that would be needed, in metres.
        needed: f64,
        /// The shortest and the longest that boom and dipper allow, whatever the rams.
        between: (f64, f64),
    },
}

impl ShapeTrouble {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            ShapeTrouble::NotANumber { .. } => "not-a-number",
            ShapeTrouble::TriangleOpen { .. } => "triangle-open",
            ShapeTrouble::LinkageOpen { .. } => "linkage-open",
            ShapeTrouble::DeadCentre { .. } => "dead-centre",
            ShapeTrouble::OutOfReach { .. } => "out-of-reach",
        }
    }
}
