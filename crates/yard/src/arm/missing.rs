//! Why a figure is not known: what the book does not say, and what would unlock it.

use crate::book::{By, Unlock};
use reckon::arm::shape::ShapeTrouble;

/// A figure, or why it is not known.
pub type Told<T> = Result<T, NotKnown>;

/// Why a figure is not known. `code` and `subject` name the sentence `arm-unknown-<code>` and its argument.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum NotKnown {
    /// The book does not say something that it rests on.
    Missing(Missing),
    /// The shape does not close in this pose, or not at all: what was measured cannot all be right, or the pose is none.
    Shape(ShapeTrouble),
    /// It is no lifting machine: the book does not record all of lifting point, load holding and authority.
    NotALiftingMachine(Missing),
    /// The machine tips in this pose by itself: its supports carry nothing that could be told.
    Tips,
    /// The bucket does not touch the ground in this pose, so bleeding a circuit lets the arm come down.
    NotOnTheGround,
    /// The ground cannot carry the arm from there once this circuit is bled: the arm moves until something else holds it.
    ArmWouldMove,
    /// The arm swings on a ring: torque and stopping are not worked out from rams.
    SlewRing,
    /// No pose gives it: none can use any force that way, or the arm never gets there.
    NoPose,
    /// A part whose book numbers do not make a sound figure: they are all there and contradict each other.
    Unsound(Missing),
}

/// Something the book does not say.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Missing {
    /// What kind of thing.
    pub code: MissingCode,
    /// Which one: a pin, `boom`, `dipper`, `bucket`, a mass, a stance; empty where there is but one.
    pub subject: &'static str,
}

macro_rules! missing_codes {
    ($($(#[$doc:meta])* $name:ident = $code:literal, $table:literal, $key:literal, $by:ident;)*) => {
        /// What a book may not say of its arm, what unlocks most first.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum MissingCode {
            $($(#[$doc])* $name),*
        }

        impl MissingCode {
            /// Every code.
            pub const ALL: &'static [MissingCode] = &[$(MissingCode::$name),*];

            /// Its permanent name.
            pub fn code(self) -> &'static str {
                match self { $(MissingCode::$name => $code),* }
            }

            /// The key of the book that holds it, and how one comes by it.
            pub fn unlock(self) -> Unlock {
                match self {
                    $(MissingCode::$name => Unlock { table: $table, key: $key, by: By::$by }),*
                }
            }
        }
    };
}

missing_codes! {
    /// The machine has no arm, by its book.
    NoArm = "no-arm", "machine", "without", WritingDown;
    /// Which ram moves this joint (subject: the joint).
    RamOf = "ram-of", "ram", "moves", WritingDown;
    /// What one sees when this joint's ram gets longer.
    RamOut = "ram-out", "arm", "boom-ram-out", Looking;
    /// A ram's closed length.
    RamClosed = "ram-closed", "ram", "closed", Measuring;
    /// A ram's open length.
    RamOpen = "ram-open", "ram", "open", Measuring;
    /// The place of a pin (subject: the pin).
    PinPlace = "pin-place", "pin", "at", Measuring;
    /// The length of the lever, from its pin to the pin it shares with rod and link.
    LeverLength = "lever-length", "distance", "is", Measuring;
    /// The length of the link, from the shared pin to its pin on the bucket.
    LinkLength = "link-length", "distance", "is", Measuring;
    /// A ram's bore.
    RamBore = "ram-bore", "ram", "bore", Measuring;
    /// The diameter of a ram's rod.
    RamRod = "ram-rod", "ram", "rod", Measuring;
    /// A mass (subject: of what).
    MassOf = "mass-of", "mass", "is", Asking;
    /// Where a mass has its centre.
    MassPlace = "mass-place", "mass", "at", Measuring;
    /// Mass of a ram's barrel (subject: the joint).
    BarrelMass = "barrel-mass", "ram", "barrel-mass", Asking;
    /// Centre of a ram's barrel.
    BarrelCentre = "barrel-centre", "ram", "barrel-centre", Measuring;
    /// Mass of a ram's rod.
    RodMass = "rod-mass", "ram", "rod-mass", Asking;
    /// Centre of a ram's rod.
    RodCentre = "rod-centre", "ram", "rod-centre", Measuring;
    /// The pump's pressure for a ram.
    Supply = "supply", "ram", "supply", Measuring;
    /// Port relief on the piston's side of a ram.
    ReliefPiston = "relief-piston", "ram", "relief-piston", Asking;
    /// Port relief on the rod's side of a ram.
    ReliefRod = "relief-rod", "ram", "relief-rod", Asking;
    /// Which way the arm points when it is not swung.
    PointsWhere = "points-where", "arm", "points", Looking;
    /// How far the swing axis stands from the middle of the undercarriage.
    AxisFromMiddle = "axis-from-middle", "arm", "axis-from-middle", Measuring;
    /// Any way of standing.
    SupportAny = "support-any", "support", "corner", Measuring;
    /// The corners of this way of standing (subject: the stance).
    SupportCorners = "support-corners", "support", "corner", Measuring;
    /// Friction on the ground.
    Friction = "friction", "ground", "friction", Asking;
    /// Area of a pad of this way of standing.
    PadArea = "pad-area", "support", "pad-area", Measuring;
    /// How the arm is swung.
    SwingHow = "swing-how", "swing", "kind", Looking;
    /// Pin of the swing ram on the frame.
    SwingFramePin = "swing-frame-pin", "swing", "frame-pin", Measuring;
    /// Pin of the swing ram on the post.
    SwingPostPin = "swing-post-pin", "swing", "post-pin", Measuring;
    /// How far it swings.
    SwingLimit = "swing-limit", "swing", "limit", Measuring;
    /// Relief between the two lines of the swing.
    CrossoverRelief = "crossover-relief", "swing", "crossover-relief", Asking;
    /// Flow of the pump to the swing.
    SwingFlow = "swing-flow", "swing", "flow", Asking;
    /// The plan of the oil tank: length and width, or area.
    TankPlan = "tank-plan", "oil-tank", "length", Measuring;
    /// All oil of the system with the level at its mark.
    TankOil = "tank-oil", "oil-tank", "oil", Asking;
    /// Oil that stays in pump, valves and hoses.
    TankDead = "tank-dead", "oil-tank", "dead", Asking;
    /// The temperature at which the oil was counted.
    TankTemperature = "tank-temperature", "oil-tank", "temperature", WritingDown;
    /// From the barrel's pin to the gland of a ram.
    Gland = "gland", "ram", "gland", Measuring;
    /// Outside diameter of a ram's tube.
    Tube = "tube", "ram", "tube", Measuring;
    /// The lifting point.
    LiftingPoint = "lifting-point", "lifting", "point", WritingDown;
    /// What holds the load when a hose bursts.
    LoadHolding = "load-holding", "lifting", "load-holding", WritingDown;
    /// Who allows lifting with it.
    LiftingAuthority = "lifting-authority", "lifting", "authority", WritingDown;
}

impl Missing {
    /// Something missing.
    pub const fn of(code: MissingCode, subject: &'static str) -> Self {
        Missing { code, subject }
    }

    /// The key of the book that holds it, and how one comes by it.
    pub fn unlock(self) -> Unlock {
        match (self.code, self.subject) {
            (MissingCode::RamOut, "dipper") => Unlock {
                key: "dipper-ram-out",
                ..self.code.unlock()
            },
            (MissingCode::RamOut, "bucket") => Unlock {
                key: "bucket-ram-out",
                ..self.code.unlock()
            },
            _ => self.code.unlock(),
        }
    }
}

impl NotKnown {
    /// The code under which the layer of words keeps a sentence for it.
    pub fn code(&self) -> &'static str {
        match self {
            NotKnown::Missing(missing) => missing.code.code(),
            NotKnown::Shape(trouble) => trouble.code(),
            NotKnown::NotALiftingMachine(_) => "not-a-lifting-machine",
            NotKnown::Tips => "tips",
            NotKnown::NotOnTheGround => "not-on-the-ground",
            NotKnown::ArmWouldMove => "arm-would-move",
            NotKnown::SlewRing => "slew-ring",
            NotKnown::NoPose => "no-pose",
            NotKnown::Unsound(_) => "unsound",
        }
    }

    /// What is missing, where something is.
    pub fn missing(&self) -> Option<Missing> {
        match self {
            NotKnown::Missing(missing)
            | NotKnown::NotALiftingMachine(missing)
            | NotKnown::Unsound(missing) => Some(*missing),
            _ => None,
        }
    }
}

impl From<ShapeTrouble> for NotKnown {
    fn from(trouble: ShapeTrouble) -> Self {
        NotKnown::Shape(trouble)
    }
}

/// Not known, because this is missing.
pub(super) fn missing<T>(code: MissingCode, subject: &'static str) -> Told<T> {
    Err(NotKnown::Missing(Missing::of(code, subject)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::book::Table;
    use std::collections::BTreeSet;

    #[test]
    fn every_code_stands_once_and_its_key_is_one_of_the_book() {
        let codes: BTreeSet<_> = MissingCode::ALL.iter().map(|code| code.code()).collect();
        assert_eq!(codes.len(), MissingCode::ALL.len());
        for code in MissingCode::ALL {
            let unlock = code.unlock();
            let table = Table::named(unlock.table).unwrap();
            assert!(table.field(unlock.key).is_some(), "{unlock:?}");
        }
    }
}
