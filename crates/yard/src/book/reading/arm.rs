//! The tables of the arm: pins, pose readings, supports, swing, oil tank, lifting, boom sections.

use super::sheet::Sheet;
use crate::book::fields::pins_with_a_place;
use crate::book::nearest::nearest;
use crate::book::section::Section;
use crate::book::trouble::TroubleKind;
use crate::book::{
    ArmManner, ArmTables, BoomSection, Coordinate, Distance, KnownBy, Lifting, Mass, Moves,
    OilTank, Pin, PinName, PoseReading, RamWork, StanceName, Support, SwingGear,
};
use crate::code::Coded;
use std::{cell::RefCell, collections::BTreeMap};

/// Words that a distance may name beside pins: the ground under the level machine, and the swing axis.
const BESIDE_PINS: [&str; 2] = ["ground", "swing-axis"];

/// Words of which each may stand once, with the lines they were seen on.
#[derive(Default)]
pub(super) struct Once(RefCell<BTreeMap<&'static str, u32>>);

impl Once {
    /// Notes the word of this key; a mistake where it stood before.
    pub(super) fn take(&self, section: &Section<'_, '_>, key: &'static str, word: &'static str) {
        let first = self.0.borrow().get(word).copied();
        match first {
            Some(first_line) => section.desk.mistake(
                section.place_of(key),
                TroubleKind::Twice {
                    word: word.to_owned(),
                    first_line,
                },
            ),
            None => {
                self.0.borrow_mut().insert(word, section.line);
            }
        }
    }
}

/// Everything of the arm.
pub(super) fn tables(sheet: &Sheet<'_, '_>) -> ArmTables {
    let (pins, stances) = (Once::default(), Once::default());
    ArmTables {
        manner: sheet.one("arm").map(manner),
        pins: sheet.each("pin", |section| pin(section, &pins)),
        readings: sheet.each("reading", reading),
        supports: sheet.each("support", |section| support(section, &stances)),
        swing: sheet.one("swing").and_then(swing),
        oil_tank: sheet.one("oil-tank").map(oil_tank),
        lifting: sheet.one("lifting").map(lifting),
        boom_sections: sheet.each("boom-section", boom_section),
    }
}

fn manner(section: Section<'_, '_>) -> ArmManner {
    ArmManner {
        points: section.word("points"),
        axis_from_middle: section.quantity("axis-from-middle"),
        boom_ram_out: section.word("boom-ram-out"),
        dipper_ram_out: section.word("dipper-ram-out"),
        bucket_ram_out: section.word("bucket-ram-out"),
        bucket_width: section.positive("bucket-width"),
        lever: section.positive("lever"),
        link: section.positive("link"),
        line: section.line,
    }
}

fn pin(section: Section<'_, '_>, seen: &Once) -> Option<Pin> {
    let id: Option<PinName> = section.word("id");
    let placeless = id.filter(|pin| pin.link().is_none());
    if let Some(pin) = placeless {
        let place = section.place_of("id");
        section.no_such_word("id", place, pin.code(), &pins_with_a_place());
    }
    let on = section.word("on");
    let at = section.coordinates("at");
    let known = section.word("known");
    let (id, on) = (id.filter(|pin| pin.link().is_some())?, on?);
    seen.take(&section, "id", id.code());
    if let Some(right) = id.link().filter(|right| *right != on) {
        let what = TroubleKind::PinOnOtherPart {
            pin: id.code().to_owned(),
            right: right.code(),
        };
        section.desk.mistake(section.place_of("on"), what);
        return None;
    }
    let at = pair(&at)?;
    if id.on_axis() && (at[1].metres != 0.0 || at[0].metres <= 0.0) {
        let pin = id.code().to_owned();
        section
            .desk
            .mistake(section.place_of("at"), TroubleKind::PinOffAxis { pin });
        return None;
    }
    Some(Pin {
        id,
        on,
        at,
        known: known?,
        line: section.line,
    })
}

fn pair(at: &[Coordinate]) -> Option<[Coordinate; 2]> {
    <[Coordinate; 2]>::try_from(at).ok()
}

fn reading(section: Section<'_, '_>) -> Option<PoseReading> {
    let rams = [
        section.positive("boom-ram"),
        section.positive("dipper-ram"),
        section.positive("bucket-ram"),
    ];
    let (tooth_height, reach) = (section.quantity("tooth-height"), section.positive("reach"));
    if !section.has("tooth-height") && !section.has("reach") {
        section
            .desk
            .mistake(section.span.clone(), TroubleKind::ReadingWithoutTooth);
    }
    let [boom_ram, dipper_ram, bucket_ram] = rams;
    Some(PoseReading {
        boom_ram: boom_ram?,
        dipper_ram: dipper_ram?,
        bucket_ram: bucket_ram?,
        tooth_height,
        reach,
        line: section.line,
    })
}

/// What a ram moves, its pressures and weights. Boom, dipper, bucket and swing are moved by one `[[ram]]` each, equal
/// ones side by side counted in it.
pub(super) fn ram_work(section: &Section<'_, '_>, moved: &Once) -> RamWork {
    let moves: Option<Moves> = section.word("moves");
    let alone = [Moves::Boom, Moves::Dipper, Moves::Bucket, Moves::Swing];
    if let Some(joint) = moves.filter(|joint| alone.contains(joint)) {
        moved.take(section, "moves", joint.code());
    }
    RamWork {
        moves,
        supply: section.positive("supply"),
        relief_piston: section.positive("relief-piston"),
        relief_rod: section.positive("relief-rod"),
        barrel_mass: section.positive("barrel-mass"),
        barrel_centre: section.positive("barrel-centre"),
        rod_mass: section.positive("rod-mass"),
        rod_centre: section.positive("rod-centre"),
        gland: section.positive("gland"),
        tube: section.positive("tube"),
    }
}

/// Every distance. Names are looked at only where the book says where pins are: before that they are anybody's words.
pub(super) fn distances(sheet: &Sheet<'_, '_>) -> Vec<Distance> {
    let named = sheet.has("pin");
    sheet.each("distance", |section| distance(section, named))
}

fn distance(section: Section<'_, '_>, named: bool) -> Option<Distance> {
    let (from, to) = (section.text("from"), section.text("to"));
    // A pin may lie under the ground or behind the axis.
    let signed = [&from, &to]
        .iter()
        .any(|end| end.as_deref().is_some_and(|end| BESIDE_PINS.contains(&end)));
    let is = if signed {
        section.quantity("is")
    } else {
        section.positive("is")
    };
    let known = section.word("known").unwrap_or(KnownBy::Measured);
    for (key, end) in [("from", &from), ("to", &to)].iter().filter(|_| named) {
        note_unknown_pin(&section, key, end.as_deref());
    }
    Some(Distance {
        from: from?,
        to: to?,
        is: is?,
        known,
        line: section.line,
    })
}

/// A distance may be between any two things; the arm's figures come only of pins with the names of the format.
fn note_unknown_pin(section: &Section<'_, '_>, key: &'static str, end: Option<&str>) {
    let names = || PinName::ALL.iter().map(|pin| pin.code()).chain(BESIDE_PINS);
    let stranger = end.filter(|end| names().all(|name| name != *end));
    if let Some(found) = stranger {
        let what = TroubleKind::PinNotKnown {
            found: found.chars().take(64).collect(),
            nearest: nearest(found, names()),
            known: names().collect::<Vec<_>>().join(", "),
        };
        section.desk.warning(section.place_of(key), what);
    }
}

/// How many numbers the place of a mass has; none where the format does not know it.
fn numbers_of(mass: &str) -> Option<usize> {
    match mass {
        "post" | "boom" | "dipper" | "bucket" | "load" => Some(2),
        "machine" => Some(3),
        "lever" | "link" => Some(1),
        _ => None,
    }
}

pub(super) fn mass(section: Section<'_, '_>) -> Option<Mass> {
    let (of, is) = (section.text("of"), section.positive("is"));
    let at = section.coordinates("at");
    let known = section.word("known").unwrap_or(KnownBy::Measured);
    let wanted = of.as_deref().and_then(numbers_of);
    if let (Some(of), Some(wanted)) = (&of, wanted.filter(|n| !at.is_empty() && *n != at.len())) {
        let what = TroubleKind::MassPlace {
            of: of.clone(),
            wanted,
        };
        section.desk.mistake(section.place_of("at"), what);
    }
    Some(Mass {
        of: of?,
        is: is?,
        at,
        known,
        line: section.line,
    })
}

fn support(section: Section<'_, '_>, seen: &Once) -> Option<Support> {
    let stance: Option<StanceName> = section.word("stance");
    if let Some(stance) = stance {
        seen.take(&section, "stance", stance.code());
    }
    let corners = section.corners("corner");
    let pad_area = section.positive("pad-area");
    Some(Support {
        stance: stance?,
        corners: corners?,
        pad_area,
        line: section.line,
    })
}

fn swing(section: Section<'_, '_>) -> Option<SwingGear> {
    let kind = section.word("kind");
    let (frame_pin, post_pin) = (
        pair(&section.coordinates("frame-pin")),
        pair(&section.coordinates("post-pin")),
    );
    let (limit, crossover_relief, flow) = (
        section.positive("limit"),
        section.positive("crossover-relief"),
        section.positive("flow"),
    );
    Some(SwingGear {
        kind: kind?,
        frame_pin,
        post_pin,
        limit,
        crossover_relief,
        flow,
        line: section.line,
    })
}

fn oil_tank(section: Section<'_, '_>) -> OilTank {
    OilTank {
        length: section.positive("length"),
        width: section.positive("width"),
        area: section.positive("area"),
        oil: section.positive("oil"),
        dead: section.positive("dead"),
        temperature: section.quantity("temperature"),
        line: section.line,
    }
}

fn lifting(section: Section<'_, '_>) -> Lifting {
    Lifting {
        point: section.text("point"),
        load_holding: section.text("load-holding"),
        authority: section.text("authority"),
        line: section.line,
    }
}

fn boom_section(section: Section<'_, '_>) -> Option<BoomSection> {
    let at = pair(&section.coordinates("at"));
    let [height, width, flange, web] =
        ["height", "width", "flange", "web"].map(|key| section.positive(key));
    Some(BoomSection {
        at: at?,
        height,
        width,
        flange,
        web,
        line: section.line,
    })
}
