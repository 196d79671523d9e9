//! Answers to the points of the small yard's book, and names of what they find.

use super::*;

pub fn answered(id: &str, answer: Answer) -> Answered {
    Answered {
        point: point(id),
        answer,
        note: None,
        photos: vec![],
    }
}

pub fn fault_at(entry: EntryId, id: &str) -> FaultRef {
    FaultRef {
        entry,
        point: Some(point(id)),
    }
}

pub fn fault(entry: EntryId) -> FaultRef {
    FaultRef { entry, point: None }
}

pub fn clip(state: ClipState) -> Answer {
    Answer::PinClip(state)
}

pub fn look(state: LookState) -> Answer {
    Answer::Look(state)
}

pub fn fitting(took: GreaseTook) -> Answer {
    Answer::Fitting {
        took,
        strokes: None,
    }
}

pub fn level_well() -> Answer {
    Answer::Level {
        reads: LevelReads::AtMark,
        pose: Some(item("lowered")),
        oil: Some(yard::book::OilHeat::Cold),
        looks: FluidLooks::Clean,
    }
}

pub fn sag(text: &str) -> Answer {
    Answer::Measure {
        readings: vec![Reading::Value(q(text))],
        by_method: Some(true),
        condition_held: None,
    }
}

pub fn not_checked() -> Answer {
    Answer::NotChecked(NotChecked {
        because: Hindrance::CannotSee,
    })
}

/// An answer that is well for every point of the book.
pub fn all_well() -> Vec<(&'static str, Answer)> {
    vec![
        ("oil-hydraulic", level_well()),
        ("clip-left", clip(ClipState::Present)),
        ("clip-right", clip(ClipState::Present)),
        ("hose-boom", Answer::Hose(HoseState::Sound)),
        ("sag-left", sag("1 1/2 in ± 1/16 in")),
        ("fit-boom", fitting(GreaseTook::Seen)),
        ("fit-ring", fitting(GreaseTook::Seen)),
        ("brake", Answer::Function(FunctionState::Works)),
        (
            "crank",
            Answer::Crank {
                cranked: vec![Some(true), Some(false)],
                bypassed: false,
            },
        ),
        ("weekly-a", look(LookState::Well)),
        ("weekly-b", look(LookState::Well)),
        ("weekly-c", look(LookState::Well)),
        ("monthly", look(LookState::Well)),
        ("filter", look(LookState::Well)),
        ("season", look(LookState::Well)),
        ("standing", look(LookState::Well)),
        ("rest-lock", look(LookState::Well)),
        ("nuts", look(LookState::Well)),
        ("drain", look(LookState::Well)),
    ]
}
