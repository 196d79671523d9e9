//! Forms of what is answered at a point.

use super::{
    leaf::{ItemRef, PhotoRef, PointRef, Written},
    shape::{Form, struct_form, word_form},
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use yard::{
    book::{LeakClass, OilHeat},
    entry::{
        Answer, Answered, BoltState, ClipState, FluidLooks, FunctionState, GreaseTook, Hindrance,
        HoseState, LevelReads, LookState, NotChecked, Reading, StructureState,
    },
};

struct_form!(AnsweredForm for Answered { point: PointRef, answer: AnswerForm } maybe { note: String } lists { photos: PhotoRef });
struct_form!(NotCheckedForm for NotChecked { because: HindranceWord });

word_form!(OilHeatWord for OilHeat { Cold = "cold", Warm = "warm", Hot = "hot", Any = "any" });
word_form!(LevelReadsWord for LevelReads { Nothing = "nothing", Below = "below", AtMark = "at-mark", TooFull = "too-full" });
word_form!(FluidLooksWord for FluidLooks { Clean = "clean", Dark = "dark", Milky = "milky", Wrong = "wrong" });
word_form!(GreaseTookWord for GreaseTook { Seen = "seen", Took = "took", Refused = "refused" });
word_form!(ClipStateWord for ClipState { Present = "present", Loose = "loose", Missing = "missing" });
word_form!(BoltStateWord for BoltState { Tight = "tight", StripeTurned = "stripe-turned", Loose = "loose", Missing = "missing" });
word_form!(HoseStateWord for HoseState { Sound = "sound", Rubbed = "rubbed", WornThrough = "worn-through", Bulged = "bulged" });
word_form!(StructureStateWord for StructureState { Sound = "sound", Bent = "bent", Cracked = "cracked", RustInCrack = "rust-in-crack" });
word_form!(FunctionStateWord for FunctionState { Works = "works", Weak = "weak", Fails = "fails" });
word_form!(LookStateWord for LookState { Well = "well", Worn = "worn", Damaged = "damaged", Missing = "missing" });
word_form!(HindranceWord for Hindrance {
    OutOfReach = "out-of-reach", CannotSee = "cannot-see", NoTool = "no-tool", NotSafe = "not-safe",
    DoesNotKnowHow = "does-not-know-how", NotFound = "not-found", Other = "other",
});

/// The JSON of an answer, as it stands in a walk-round's body: for whoever writes entries elsewhere, such as a phone.
pub fn answer_json(answer: &Answer) -> serde_json::Value {
    serde_json::to_value(AnswerForm::write(answer))
        .expect("a form holds only texts, numbers and lists, which JSON can say")
}

/// `{"pin-clip": "missing"}`, `{"measure": {"readings": [{"value": "2 in"}], …}}`, …
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum AnswerForm {
    Level {
        reads: LevelReadsWord,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pose: Option<ItemRef>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        oil: Option<OilHeatWord>,
        looks: FluidLooksWord,
    },
    Fitting {
        took: GreaseTookWord,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        strokes: Option<u32>,
    },
    PinClip(ClipStateWord),
    Bolts {
        state: BoltStateWord,
        how_many: u32,
    },
    Measure {
        readings: Vec<ReadingForm>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by_method: Option<bool>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        condition_held: Option<bool>,
    },
    Leak(LeakWord),
    Hose(HoseStateWord),
    Structure(StructureStateWord),
    Function(FunctionStateWord),
    Look(LookStateWord),
    Crank {
        cranked: Vec<Option<bool>>,
        bypassed: bool,
    },
    NotChecked(NotCheckedForm),
}

impl Form for AnswerForm {
    type Of = Answer;

    fn write(of: &Answer) -> Self {
        match of {
            Answer::Level {
                reads,
                pose,
                oil,
                looks,
            } => Self::Level {
                reads: Form::write(reads),
                pose: Form::write(pose),
                oil: Form::write(oil),
                looks: Form::write(looks),
            },
            Answer::Fitting { took, strokes } => Self::Fitting {
                took: Form::write(took),
                strokes: *strokes,
            },
            Answer::PinClip(state) => Self::PinClip(Form::write(state)),
            Answer::Bolts { state, how_many } => Self::Bolts {
                state: Form::write(state),
                how_many: *how_many,
            },
            Answer::Measure {
                readings,
                by_method,
                condition_held,
            } => Self::Measure {
                readings: Form::write(readings),
                by_method: *by_method,
                condition_held: *condition_held,
            },
            Answer::Leak(class) => Self::Leak(Form::write(class)),
            Answer::Hose(state) => Self::Hose(Form::write(state)),
            Answer::Structure(state) => Self::Structure(Form::write(state)),
            Answer::Function(state) => Self::Function(Form::write(state)),
            Answer::Look(state) => Self::Look(Form::write(state)),
            Answer::Crank { cranked, bypassed } => Self::Crank {
                cranked: cranked.clone(),
                bypassed: *bypassed,
            },
            Answer::NotChecked(why) => Self::NotChecked(Form::write(why)),
        }
    }

    fn read(self) -> Answer {
        match self {
            Self::Level {
                reads,
                pose,
                oil,
                looks,
            } => Answer::Level {
                reads: reads.read(),
                pose: pose.read(),
                oil: oil.read(),
                looks: looks.read(),
            },
            Self::Fitting { took, strokes } => Answer::Fitting {
                took: took.read(),
                strokes,
            },
            Self::PinClip(state) => Answer::PinClip(state.read()),
            Self::Bolts { state, how_many } => Answer::Bolts {
                state: state.read(),
                how_many,
            },
            Self::Measure {
                readings,
                by_method,
                condition_held,
            } => Answer::Measure {
                readings: readings.read(),
                by_method,
                condition_held,
            },
            Self::Leak(class) => Answer::Leak(class.read()),
            Self::Hose(state) => Answer::Hose(state.read()),
            Self::Structure(state) => Answer::Structure(state.read()),
            Self::Function(state) => Answer::Function(state.read()),
            Self::Look(state) => Answer::Look(state.read()),
            Self::Crank { cranked, bypassed } => Answer::Crank { cranked, bypassed },
            Self::NotChecked(why) => Answer::NotChecked(why.read()),
        }
    }
}

/// No leak, or its class.
#[derive(Clone, Copy, Debug, Serialize, Deserialize, JsonSchema)]
pub(super) enum LeakWord {
    #[serde(rename = "none")]
    Dry,
    #[serde(rename = "I")]
    First,
    #[serde(rename = "II")]
    Second,
    #[serde(rename = "III")]
    Third,
}

impl Form for LeakWord {
    type Of = Option<LeakClass>;

    fn write(of: &Option<LeakClass>) -> Self {
        match of {
            None => Self::Dry,
            Some(LeakClass::I) => Self::First,
            Some(LeakClass::II) => Self::Second,
            Some(LeakClass::III) => Self::Third,
        }
    }

    fn read(self) -> Option<LeakClass> {
        match self {
            Self::Dry => None,
            Self::First => Some(LeakClass::I),
            Self::Second => Some(LeakClass::II),
            Self::Third => Some(LeakClass::III),
        }
    }
}

/// `{"value": "2 in ± 1/16"}`, `{"between": {"over": "0.4 mm", "under": "0.5 mm"}}`.
#[derive(Debug, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ReadingForm {
    Value(Written),
    Between {
        #[serde(default, skip_serializing_if = "Option::is_none")]
        over: Option<Written>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        under: Option<Written>,
    },
}

impl Form for ReadingForm {
    type Of = Reading;

    fn write(of: &Reading) -> Self {
        match of {
            Reading::Value(value) => Self::Value(Form::write(value)),
            Reading::Between { over, under } => Self::Between {
                over: Form::write(over),
                under: Form::write(under),
            },
        }
    }

    fn read(self) -> Reading {
        match self {
            Self::Value(value) => Reading::Value(value.read()),
            Self::Between { over, under } => Reading::Between {
                over: over.read(),
                under: under.read(),
            },
        }
    }
}
