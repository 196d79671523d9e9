//! The force the tooth can really use: the least of what rams, weight and ground allow, and which of them that is.

use super::allowed::{Allowed, allowed};
use super::footing::{Edge, Footing};
use super::thrust::Statics;
use crate::arm::shape::{ArmShape, Joint, Vector};

/// What is asked of the tooth: the direction of the ground's force on it, and which ram does the work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// The ram that the pump drives; the others hold.
    pub working: Joint,
    /// Unit direction of the force of the ground on the tooth, in the arm plane.
    pub direction: Vector,
}

impl Cut {
    /// Curling the bucket: the ground stands against the bucket's turn. Nothing where the tooth has no radius.
    pub fn curl(statics: &Statics) -> Option<Cut> {
        Cut::against(statics, Joint::Bucket)
    }

    /// Drawing the dipper in.
    pub fn crowd(statics: &Statics) -> Option<Cut> {
        Cut::against(statics, Joint::Dipper)
    }

    /// Pressing down with the boom: the ground pushes up.
    pub fn push_down() -> Cut {
        Cut {
            working: Joint::Boom,
            direction: Vector::new(0.0, 1.0),
        }
    }

    /// Lifting with the boom: the ground, or what hangs on it, pulls down.
    pub fn pull_up() -> Cut {
        Cut {
            working: Joint::Boom,
            direction: Vector::new(0.0, -1.0),
        }
    }

    fn against(statics: &Statics, working: Joint) -> Option<Cut> {
        let direction = statics.placed.against(working, statics.placed.tooth)?;
        Some(Cut { working, direction })
    }
}

/// What holds the force back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Governs {
    /// The working ram is at the pump's pressure.
    Working(Joint),
    /// A ram that only holds is pushed over its port relief.
    Holding(Joint),
    /// The machine tips.
    Tipping(Edge),
    /// The machine slides.
    Sliding,
}

impl Governs {
    /// The code under which the layer of words keeps a sentence for it; which ram it is, [`Joint::code`] says.
    pub fn code(self) -> &'static str {
        match self {
            Governs::Working(_) => "working",
            Governs::Holding(_) => "holding",
            Governs::Tipping(_) => "tipping",
            Governs::Sliding => "sliding",
        }
    }

    /// The ram whose limit it is; none where it is the machine's.
    pub fn joint(self) -> Option<Joint> {
        match self {
            Governs::Working(joint) | Governs::Holding(joint) => Some(joint),
            Governs::Tipping(_) | Governs::Sliding => None,
        }
    }
}

/// One limit and how much it allows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// What it is.
    pub what: Governs,
    /// How much it allows.
    pub allows: Allowed,
}

/// The force the tooth can use in one direction, and every limit that was looked at.
#[derive(Debug, Clone, PartialEq)]
pub struct Usable {
    /// The thrust in each ram with nothing at the tooth, in newtons.
    pub hanging: [f64; 3],
    /// What each newton at the tooth adds, for each ram.
    pub per_newton: [f64; 3],
    /// Every limit, in a fixed order: boom, dipper, bucket, tipping, sliding.
    pub limits: Vec<Limit>,
    /// The one that allows least; the earlier of equals.
    pub governs: Limit,
    /// The force that the working ram's lever alone would promise, as if nothing else could give way.
    pub lever_alone: Allowed,
}

/// The force the tooth can use in this cut: the least of what the working ram, the holding rams, tipping and sliding allow.
///
/// A ram on its stop could carry more in one direction, for the steel carries it and no oil: that is not counted, for nobody
/// should dig against the stops, where no relief opens. Look at the pose's stops.
///
/// Without a footing the machine is taken as held down; the answer is then the arm's alone.
///
/// Source: ISO 6015: hydraulic, tipping and slipping limit, the governing one named, read in excerpts.
pub fn usable(
    shape: &ArmShape,
    statics: &Statics,
    cut: Cut,
    footing: Option<&Footing<'_>>,
) -> Usable {
    let per_newton = statics.per_newton(statics.tooth(), cut.direction);
    let of_ram = |joint: Joint, limits| {
        let ram = joint.index();
        allowed(statics.hanging[ram], per_newton[ram], limits)
    };
    let mut limits = Vec::with_capacity(5);
    for joint in Joint::ALL {
        let ram = shape.ram(joint);
        limits.push(if joint == cut.working {
            Limit {
                what: Governs::Working(joint),
                allows: of_ram(joint, ram.working()),
            }
        } else {
            Limit {
                what: Governs::Holding(joint),
                allows: of_ram(joint, ram.holding()),
            }
        });
    }
    if let Some(footing) = footing {
        limits.extend(of_footing(footing, statics.placed.tooth, cut.direction));
    }
    let mut governs = limits[0];
    for limit in &limits[1..] {
        if limit.allows.rank() < governs.allows.rank() {
            governs = *limit;
        }
    }
    Usable {
        hanging: statics.hanging,
        per_newton,
        lever_alone: limits[cut.working.index()].allows,
        limits,
        governs,
    }
}

fn of_footing(footing: &Footing<'_>, tooth: Vector, direction: Vector) -> [Limit; 2] {
    let (tips, edge) = match footing.tips_at(tooth, direction) {
        Some((force, edge)) => (Allowed::UpTo(force), edge),
        None => (Allowed::Unlimited, Edge::Whole),
    };
    let slides = footing.slides_at(direction);
    [
        Limit {
            what: Governs::Tipping(edge),
            allows: tips,
        },
        Limit {
            what: Governs::Sliding,
            allows: slides.map_or(Allowed::Unlimited, Allowed::UpTo),
        },
    ]
}
