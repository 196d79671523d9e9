//! What a choice on the page means, told a second time and independently of both readers: for comparing them.

use yard::{
    book::{LeakClass, OilHeat, Point, PointKind},
    code::Coded,
    entry::{Answer, BoltState, FluidLooks, Hindrance, LevelReads, NotChecked},
};

/// The answer that this choice gives by itself (`a <code>`, `why <code>`, `rest well`); none where more must be said.
pub fn answer(point: &Point, choice: &str) -> Option<Answer> {
    let (field, code) = choice.split_once(' ').unwrap();
    match field {
        "why" => Some(Answer::NotChecked(NotChecked {
            because: Hindrance::from_code(code).unwrap(),
        })),
        "rest" => well(&point.kind),
        _ => chosen(point, code),
    }
}

fn chosen(point: &Point, code: &str) -> Option<Answer> {
    let coded =
        |answer: Option<Answer>| Some(answer.unwrap_or_else(|| panic!("no such code: {code}")));
    match &point.kind {
        PointKind::Level(mark) => (code == "as-it-must-be").then(|| Answer::Level {
            reads: LevelReads::AtMark,
            pose: mark.pose.clone(),
            oil: (mark.oil != OilHeat::Any).then_some(mark.oil),
            looks: FluidLooks::Clean,
        }),
        PointKind::Fitting(_) => coded(Coded::from_code(code).map(|took| Answer::Fitting {
            took,
            strokes: None,
        })),
        PointKind::PinClip => coded(Coded::from_code(code).map(Answer::PinClip)),
        PointKind::Bolts => coded(BoltState::from_code(code).map(|state| Answer::Bolts {
            state,
            how_many: u32::from(state != BoltState::Tight),
        })),
        PointKind::Leak { .. } => Some(Answer::Leak(LeakClass::from_code(code))),
        PointKind::Hose => coded(Coded::from_code(code).map(Answer::Hose)),
        PointKind::Structure => coded(Coded::from_code(code).map(Answer::Structure)),
        PointKind::Function => coded(Coded::from_code(code).map(Answer::Function)),
        PointKind::Look => coded(Coded::from_code(code).map(Answer::Look)),
        PointKind::Measure(_) | PointKind::Crank(_) => None,
    }
}

/// What one tap for the whole station says of a point it may answer. Points with something open are not among them: the demo's last
/// evening left one, which is why the page's own word decides whether there is an answer at all.
fn well(kind: &PointKind) -> Option<Answer> {
    use yard::entry::{ClipState, FunctionState, HoseState, LookState, StructureState};
    match kind {
        PointKind::PinClip => Some(Answer::PinClip(ClipState::Present)),
        PointKind::Bolts => Some(Answer::Bolts {
            state: BoltState::Tight,
            how_many: 0,
        }),
        PointKind::Leak { .. } => Some(Answer::Leak(None)),
        PointKind::Hose => Some(Answer::Hose(HoseState::Sound)),
        PointKind::Structure => Some(Answer::Structure(StructureState::Sound)),
        PointKind::Function => Some(Answer::Function(FunctionState::Works)),
        PointKind::Look => Some(Answer::Look(LookState::Well)),
        _ => None,
    }
}
