//! Closed sets of values and where their words stand: `<set>-<code>` in the messages.

use crate::Words;
use quantity::Dimension;
use yard::{
    book::{
        About, Engine, GreaseWhen, LeakClass, Lubrication, MeterKind, OilHeat, PartWord, PointKind,
        PutIn, RestKind, Safeguard, Severity,
    },
    code::Coded,
    entry::{
        ArrivalStep, BoltState, ClipState, DocumentKind, EngineLeft, FluidLooks, FluidNow,
        FunctionState, GreaseTook, Hindrance, HoseState, LeftHow, LevelReads, LookState, RestState,
        RoundPurpose, StructureState,
    },
    handover::Verdict,
    people::{Deed, Role},
};

/// A value that has a word of its own in the messages.
pub trait Named: Copy {
    /// The message's key.
    fn key(self) -> String;
}

impl Words {
    /// The word for a value: a role, an answer, an engine state, what a point bears on…
    pub fn name(&self, value: impl Named) -> String {
        self.text(&value.key())
    }

    /// Every value of a closed set with its code and its word, in the order they are offered: for forms.
    pub fn choices<T: Named + Coded>(&self) -> Vec<(&'static str, String)> {
        T::ALL
            .iter()
            .map(|value| (value.code(), self.name(*value)))
            .collect()
    }

    /// The word for a kind of point.
    pub fn point_kind(&self, kind: &PointKind) -> String {
        self.text(&format!("kind-{}", kind.code()))
    }

    /// The question a kind of point asks.
    pub fn point_question(&self, kind: &PointKind) -> String {
        self.text(&format!("kind-{}.ask", kind.code()))
    }

    /// What kind of quantity it is, with its article: "a length".
    pub fn dimension(&self, dimension: Dimension) -> String {
        self.text(&dimension_key(dimension))
    }
}

macro_rules! named {
    ($($type:ident in $set:literal;)*) => {
        $(impl Named for $type {
            fn key(self) -> String {
                format!("{}-{}", $set, self.code())
            }
        })*

        /// The sets that are closed by [`Coded`], as keys: for the test that each has its word.
        #[cfg(test)]
        pub(crate) fn coded_keys() -> Vec<String> {
            let mut keys = Vec::new();
            $(keys.extend($type::ALL.iter().map(|value| value.key()));)*
            keys
        }
    };
}

named! {
    RoundPurpose in "purpose";
    LevelReads in "level";
    FluidLooks in "looks";
    GreaseTook in "grease";
    ClipState in "clip";
    BoltState in "bolts";
    HoseState in "hose";
    StructureState in "structure";
    FunctionState in "function";
    LookState in "look";
    Hindrance in "hindrance";
    EngineLeft in "left";
    RestState in "rest";
    RestKind in "rest";
    Engine in "engine";
    Safeguard in "safeguard";
    LeakClass in "leak";
    Severity in "severity";
    OilHeat in "oil";
    About in "about";
    MeterKind in "meter";
    Lubrication in "lubrication";
    GreaseWhen in "grease-when";
    DocumentKind in "document";
    LeftHow in "left-how";
    ArrivalStep in "arrival-step";
    FluidNow in "fluid-now";
    PartWord in "part-kind";
    PutIn in "put-in";
}

impl Named for Role {
    fn key(self) -> String {
        format!("role-{}", self.code())
    }
}

impl Named for Deed {
    fn key(self) -> String {
        format!("deed-{}", self.code())
    }
}

impl Named for Verdict {
    fn key(self) -> String {
        format!("verdict-{}", self.code())
    }
}

fn dimension_key(dimension: Dimension) -> String {
    let code = match dimension {
        Dimension::Length => "length",
        Dimension::Area => "area",
        Dimension::Volume => "volume",
        Dimension::Angle => "angle",
        Dimension::Mass => "mass",
        Dimension::Density => "density",
        Dimension::UnitWeight => "unit-weight",
        Dimension::Force => "force",
        Dimension::Torque => "torque",
        Dimension::Pressure => "pressure",
        Dimension::Speed => "speed",
        Dimension::Acceleration => "acceleration",
        Dimension::Duration => "duration",
        Dimension::Frequency => "frequency",
        Dimension::FlowRate => "flow-rate",
        Dimension::Power => "power",
        Dimension::Temperature => "temperature",
        Dimension::Voltage => "voltage",
        Dimension::Current => "current",
        Dimension::SoundLevel => "sound-level",
        Dimension::Fraction => "fraction",
        Dimension::Strokes => "strokes",
        Dimension::Pure => "pure",
    };
    format!("dimension-{code}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use yard::people::{DEEDS, ROLES};

    #[test]
    fn every_value_has_its_word() {
        let words = Words::english();
        let mut keys = coded_keys();
        keys.extend(DEEDS.iter().map(|deed| deed.key()));
        keys.extend(ROLES.iter().map(|role| role.key()));
        keys.extend(Dimension::ALL.map(dimension_key));
        let lacking: Vec<_> = keys.into_iter().filter(|key| !words.has(key)).collect();
        assert_eq!(lacking, Vec::<String>::new());
    }

    #[test]
    fn choices_come_in_the_order_they_are_offered() {
        let offered = Words::english().choices::<ClipState>();
        assert_eq!(
            offered.iter().map(|(code, _)| *code).collect::<Vec<_>>(),
            ["present", "loose", "missing"]
        );
        assert_eq!(offered[1].1, "loose, worn or makeshift");
    }
}
