//! Which answers stand the machine down at once. What the yard's rules say, in short; a test holds the two side by side.

use yard::{
    book::{About, Book, LeakClass, Point, PointKind, Severity},
    code::Coded,
    handover::is_must_work,
};

/// Whether an answer, by its code, stands the machine down at once at this point. A combination that must not crank is the caller's.
pub(crate) fn stands_down(book: &Book, point: &Point, code: &str) -> bool {
    let about = point.about;
    let by_book = |usual: bool| point.bad_is.map_or(usual, |bad| bad == Severity::StandDown);
    let must_work = is_must_work(Some(about));
    match (&point.kind, code) {
        (PointKind::PinClip, "missing")
        | (PointKind::Bolts, "missing")
        | (PointKind::Hose, "worn-through" | "bulged")
        | (PointKind::Structure, "cracked" | "rust-in-crack")
        | (PointKind::Level(_), "milky" | "wrong")
        | (PointKind::Crank(_), "bypassed") => true,
        (PointKind::PinClip, "loose")
        | (PointKind::Bolts, "stripe-turned")
        | (PointKind::Hose, "rubbed")
        | (PointKind::Structure, "bent") => by_book(false),
        (PointKind::Bolts, "loose") => {
            matches!(about, About::Wheels | About::Tracks) || by_book(false)
        }
        (PointKind::Function, "weak") => must_work || about == About::OilPressure || by_book(false),
        (PointKind::Function, "fails") => {
            must_work
                || matches!(about, About::Levers | About::OilPressure)
                || by_book(about.bears_on_safety())
        }
        (PointKind::Look, "worn") => by_book(false),
        (PointKind::Look, "damaged" | "missing") => {
            must_work || about == About::OilPressure || by_book(about.bears_on_safety())
        }
        (PointKind::Leak { out_from, .. }, class) => LeakClass::from_code(class)
            .is_some_and(|class| leak(about, *out_from, class) || by_book(false)),
        (PointKind::Level(_), reads) => level(about, reads, by_book(false)),
        (PointKind::Fitting(rule), "refused") => {
            let allowed = rule.refused_runs.is_some() || book.greasing.refused_runs.is_some();
            !allowed || by_book(false)
        }
        _ => false,
    }
}

/// Fuel and brake fluid stand down from a first wetness, others from the book's class, at the latest class III.
fn leak(about: About, out_from: LeakClass, class: LeakClass) -> bool {
    matches!(about, About::Fuel | About::BrakeFluid | About::Brakes)
        || class >= out_from.min(LeakClass::III)
}

/// Nothing to be seen stands down for every fluid it cannot run without; below the mark, for engine oil and brake fluid.
fn level(about: About, reads: &str, by_book: bool) -> bool {
    let minor = matches!(
        about,
        About::Fuel | About::Electric | About::Signals | About::Tidiness
    );
    let first_top_up = matches!(about, About::EngineOil | About::BrakeFluid | About::Brakes);
    match reads {
        "nothing" => !minor || by_book,
        "below" => first_top_up || by_book,
        "too-full" => by_book,
        _ => false,
    }
}
