//! The words that stand for enumerated values in the journal, in forms, in machine books and as keys of sentences.

use crate::{
    book::{About, Engine, LeakClass, OilHeat, Safeguard, Severity},
    entry::{
        AccessWhat, ArrivalStep, BoltState, ClipState, DocumentKind, EngineLeft, FluidLooks,
        FluidNow, FunctionState, GreaseTook, Hindrance, HoseState, LeftHow, LevelReads, LookState,
        RestState, RoundPurpose, RunPart, StructureState,
    },
};

/// A closed set of values, each with its word.
pub trait Coded: Copy + Sized + 'static {
    /// All values, in the order they are offered.
    const ALL: &'static [Self];
    /// The word.
    fn code(self) -> &'static str;
    /// The value with this word.
    fn from_code(code: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|value| value.code() == code)
    }
}

macro_rules! coded {
    ($($type:ident { $($variant:ident = $code:literal),* $(,)? })*) => {
        $(impl Coded for $type {
            const ALL: &'static [Self] = &[$($type::$variant),*];
            fn code(self) -> &'static str {
                match self { $($type::$variant => $code),* }
            }
        })*
        #[cfg(test)]
        mod tests {
            use super::*;
            #[test]
            fn every_word_leads_back_to_its_value() {
                $(for value in $type::ALL {
                    assert_eq!($type::from_code(value.code()), Some(*value));
                })*
            }
        }
    };
}

coded! {
    RoundPurpose { Start = "start", Relief = "relief", After = "after" }
    LevelReads { AtMark = "at-mark", Below = "below", Nothing = "nothing", TooFull = "too-full" }
    FluidLooks { Clean = "clean", Dark = "dark", Milky = "milky", Wrong = "wrong" }
    GreaseTook { Seen = "seen", Took = "took", Refused = "refused" }
    ClipState { Present = "present", Loose = "loose", Missing = "missing" }
    BoltState { Tight = "tight", StripeTurned = "stripe-turned", Loose = "loose", Missing = "missing" }
    HoseState { Sound = "sound", Rubbed = "rubbed", WornThrough = "worn-through", Bulged = "bulged" }
    StructureState { Sound = "sound", Bent = "bent", Cracked = "cracked", RustInCrack = "rust-in-crack" }
    FunctionState { Works = "works", Weak = "weak", Fails = "fails" }
    LookState { Well = "well", Worn = "worn", Damaged = "damaged", Missing = "missing" }
    Hindrance { OutOfReach = "out-of-reach", CannotSee = "cannot-see", NoTool = "no-tool", NotSafe = "not-safe", DoesNotKnowHow = "does-not-know-how", NotFound = "not-found", Other = "other" }
    RunPart { Start = "start", During = "during", End = "end" }
    EngineLeft { Off = "off", Running = "running", NotSaid = "not-said" }
    AccessWhat { Locked = "locked", Unlocked = "unlocked", LinkGiven = "link-given", PinSet = "pin-set", NameErased = "name-erased", TokenMade = "token-made", TokenEnded = "token-ended", TakenIn = "taken-in" }
    DocumentKind { Manual = "manual", Certificate = "certificate", Insurance = "insurance", TestReport = "test-report", Registration = "registration", Recall = "recall", Other = "other" }
    LeftHow { Sold = "sold", Scrapped = "scrapped", GivenBack = "given-back" }
    ArrivalStep {
        Came = "came", Stop = "stop", Plates = "plates", Fluids = "fluids", Sides = "sides", Measures = "measures",
        FittingsFirst = "fittings-first", FittingsSecond = "fittings-second", Weaknesses = "weaknesses", Over = "over",
    }
    FluidNow { Changed = "changed", Analysed = "analysed" }
    RestState { Proven = "proven", Done = "done", OnLock = "on-lock", NotDone = "not-done" }
    Engine { Off = "off", Idle = "idle", Working = "working", After = "after" }
    Safeguard { KeyOut = "key-out", Chocks = "chocks", Prop = "prop", PressureGauged = "pressure-gauged", ZoneEmpty = "zone-empty", SecondPerson = "second-person", StewardOnly = "steward-only", Cooled = "cooled", BeltOn = "belt-on" }
    LeakClass { I = "I", II = "II", III = "III" }
    Severity { Note = "note", Care = "care", StandDown = "stand-down" }
    OilHeat { Cold = "cold", Warm = "warm", Hot = "hot", Any = "any" }
    About {
        Brakes = "brakes", Steering = "steering", SeatBelt = "seat-belt", Guards = "guards", Structure = "structure", Hoses = "hoses", Fuel = "fuel",
        EngineOil = "engine-oil", OilPressure = "oil-pressure", HydraulicOil = "hydraulic-oil", GearOil = "gear-oil", Coolant = "coolant",
        BrakeFluid = "brake-fluid", Starting = "starting", Levers = "levers", Pins = "pins", Bolts = "bolts", Tracks = "tracks", Wheels = "wheels",
        Joints = "joints", Electric = "electric", Signals = "signals", Fire = "fire", Locks = "locks",
        Coupling = "coupling", Shock = "shock", Cutter = "cutter", Ballast = "ballast", Air = "air", Tidiness = "tidiness", Other = "other",
    }
}
