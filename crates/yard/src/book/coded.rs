//! The words of a machine book for its own enumerated values.

use super::{
    ArmLink, BoomRamOut, BucketRamOut, DipperRamOut, KnownBy, Moves, PinName, Points, StanceName,
    SwingKind,
};
use super::{GreaseWhen, Lubrication, MeterKind, PartWord, PutIn, RestKind, View, Without};
use crate::code::Coded;
use quantity::Take;

macro_rules! coded {
    ($($type:ident { $($variant:ident = $code:literal),* $(,)? })*) => {
        $(impl Coded for $type {
            const ALL: &'static [Self] = &[$($type::$variant),*];
            fn code(self) -> &'static str {
                match self { $($type::$variant => $code),* }
            }
        })*
    };
}

/// What the machine stands on, as a book words it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum StandsOn {
    Tracks,
    Wheels,
    /// A frame or skids: it does not travel by itself.
    Frame,
    /// Wheels behind another machine.
    Towed,
    /// Hands: it is carried.
    Hands,
    /// Another machine: it is an attachment.
    Machine,
}

/// The kinds of points, as a book words them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum KindWord {
    Level,
    Fitting,
    PinClip,
    Bolts,
    Measure,
    Leak,
    Hose,
    Structure,
    Function,
    Look,
    Crank,
}

coded! {
    MeterKind { KeyOn = "key-on", Running = "running", Revolutions = "revolutions", NoMeter = "none" }
    Lubrication { Fittings = "fittings", Sealed = "sealed", OilBath = "oil-bath", OilCan = "oil-can" }
    GreaseWhen { Before = "before", After = "after" }
    RestKind {
        Lowered = "lowered", Lock = "lock", Neutral = "neutral", Brake = "brake", EngineOff = "engine-off", LeversWorked = "levers-worked",
        BatteryOff = "battery-off", Greased = "greased", Clean = "clean", KeyAway = "key-away", Other = "other",
    }
    PartWord {
        Filter = "filter", Belt = "belt", Hose = "hose", Seal = "seal", Bearing = "bearing", Pin = "pin", Clip = "clip",
        Fastener = "fastener", Bulb = "bulb", Tyre = "tyre", Other = "other",
    }
    PutIn { Dry = "dry", Lubricated = "lubricated" }
    View { Left = "left", Right = "right", Sides = "sides", Plan = "plan" }
    Take { Mean = "mean", Worst = "worst", Each = "each" }
    StandsOn { Tracks = "tracks", Wheels = "wheels", Frame = "frame", Towed = "towed", Hands = "hands", Machine = "another-machine" }
    Points { Backwards = "backwards", Forwards = "forwards" }
    BoomRamOut { Raises = "raises", Lowers = "lowers" }
    DipperRamOut { Crowds = "crowds", Reaches = "reaches" }
    BucketRamOut { Curls = "curls", Opens = "opens" }
    PinName {
        BoomFoot = "boom-foot", BoomRamBarrel = "boom-ram-barrel", BoomRamRod = "boom-ram-rod", DipperRamBarrel = "dipper-ram-barrel",
        DipperPin = "dipper-pin", DipperRamRod = "dipper-ram-rod", BucketRamBarrel = "bucket-ram-barrel", LeverPin = "lever-pin",
        BucketPin = "bucket-pin", LinkPin = "link-pin", Tooth = "tooth", Heel = "heel", LinkagePin = "linkage-pin",
    }
    ArmLink { Post = "post", Boom = "boom", Dipper = "dipper", Bucket = "bucket" }
    KnownBy { Guess = "guess", Drawing = "drawing", Measured = "measured" }
    Moves {
        Boom = "boom", Dipper = "dipper", Bucket = "bucket", Swing = "swing", LoaderLift = "loader-lift", LoaderTilt = "loader-tilt",
        Feet = "feet", Other = "other",
    }
    StanceName { Tracks = "tracks", Wheels = "wheels", Feet = "feet", LoaderAndFeet = "loader-and-feet", Blade = "blade" }
    SwingKind { Rams = "rams", Slew = "slew" }
    Without { Engine = "engine", SeatBelt = "seat-belt", Starter = "starter", Rams = "rams" }
    KindWord {
        Level = "level", Fitting = "fitting", PinClip = "pin-clip", Bolts = "bolts", Measure = "measure", Leak = "leak", Hose = "hose",
        Structure = "structure", Function = "function", Look = "look", Crank = "crank",
    }
}
