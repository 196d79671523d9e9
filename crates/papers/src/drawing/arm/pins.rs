//! The pins and their names: a drawing with a number at each, from the machine's own arm or from a usual one.

use super::{
    super::{
        ink::{DIMENSION, INK, SHEET},
        labels::{Room, Wanted, place},
        pen,
    },
    ArmDrawing, RamLook, Standing, Window, arm_alone, page,
};
use reckon::arm::{
    pose::Placed,
    shape::{
        ArmShape, BucketShape, FourBar, Joint, Ram, STANDARD_GRAVITY, Triangle, Vector, Weight,
    },
};
use svg::node::{
    Blob,
    element::{Group, Title},
};
use yard::{book::PinName, code::Coded};

/// A pin with its number on the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PinLabel(PinName);

impl PinLabel {
    /// All of them, from the machine outwards; their numbers are their places, from 1.
    pub const ALL: [PinLabel; 13] = [
        PinLabel(PinName::BoomFoot),
        PinLabel(PinName::BoomRamBarrel),
        PinLabel(PinName::BoomRamRod),
        PinLabel(PinName::DipperRamBarrel),
        PinLabel(PinName::DipperPin),
        PinLabel(PinName::DipperRamRod),
        PinLabel(PinName::BucketRamBarrel),
        PinLabel(PinName::LeverPin),
        PinLabel(PinName::BucketPin),
        PinLabel(PinName::LinkagePin),
        PinLabel(PinName::LinkPin),
        PinLabel(PinName::Heel),
        PinLabel(PinName::Tooth),
    ];

    /// Its name in the book.
    pub fn id(self) -> &'static str {
        self.0.code()
    }

    /// Its number.
    pub fn number(self) -> u32 {
        let at = PinLabel::ALL.iter().position(|label| *label == self);
        at.map_or(0, |at| at as u32 + 1)
    }

    /// The number of a point by its name in the book; none where it is none of the pins.
    pub fn number_of(id: &str) -> Option<u32> {
        let label = PinLabel::ALL.iter().find(|label| label.id() == id)?;
        Some(label.number())
    }

    fn place(self, placed: &Placed) -> Vector {
        match self.0 {
            PinName::BoomFoot => placed.pivots[0],
            PinName::BoomRamBarrel => placed.barrels[0],
            PinName::BoomRamRod => placed.rods[0],
            PinName::DipperRamBarrel => placed.barrels[1],
            PinName::DipperPin => placed.pivots[1],
            PinName::DipperRamRod => placed.rods[1],
            PinName::BucketRamBarrel => placed.barrels[2],
            PinName::LeverPin => placed.lever_pin,
            PinName::BucketPin => placed.pivots[2],
            PinName::LinkPin => placed.link_pin,
            PinName::LinkagePin => placed.rods[2],
            PinName::Heel => placed.heel,
            PinName::Tooth => placed.tooth,
        }
    }
}

/// Radius of a number, hundredths of a metre.
const RADIUS: f64 = 10.0;

/// The arm half out with a number at each pin; of no machine where `own` is none.
pub fn pin_sketch(own: Option<&ArmShape>, title: &str) -> String {
    let usual = usual_arm();
    let half = |shape: &ArmShape| {
        let lengths = [0.45, 0.35, 0.5];
        let lengths =
            [0, 1, 2].map(|ram| shape.rams[ram].closed + lengths[ram] * shape.rams[ram].stroke);
        Placed::at_lengths(shape, lengths).ok()
    };
    let drawn = own
        .and_then(|shape| Some((shape, half(shape)?)))
        .or_else(|| Some((&usual, half(&usual)?)));
    let Some((shape, placed)) = drawn else {
        return String::new();
    };
    let around = Window::of_poses([&placed]);
    let wanted: Vec<Wanted> = PinLabel::ALL
        .iter()
        .map(|label| (label.number(), label.place(&placed)))
        .filter(|(_, at)| at.is_finite())
        .map(|(number, at)| Wanted {
            number,
            at: page(at),
            strong: false,
        })
        .collect();
    let room = Room {
        left: around.left,
        right: around.right,
        top: around.top,
        bottom: around.bottom,
        radius: RADIUS,
    };
    let (numbers, top, bottom) = place(wanted, room);
    let window = Window {
        top: top.min(around.top),
        bottom: bottom.max(around.bottom),
        ..around
    };
    let standing = Standing::default();
    let arm = arm_alone(&ArmDrawing {
        shape,
        placed: &placed,
        rams: Joint::ALL.map(|_| RamLook::default()),
        standing: &standing,
        push: None,
        cut: &[],
        window,
        letters: 12.0,
        title,
        id: "pins",
    });
    let mut sheet = window
        .sheet()
        .set("role", "img")
        .add(Title::new(title))
        .add(standing.ground(&window, 12.0))
        .add(standing.machine(&window, shape, 12.0))
        .add(Group::new().add(Blob::new(arm)));
    for number in &numbers {
        sheet = sheet.add(pen::line(
            &[number.middle, number.elbow, number.wanted.at],
            DIMENSION,
            1.0,
        ));
    }
    for number in &numbers {
        let (x, y) = number.middle;
        sheet = sheet
            .add(pen::ring((x, y), RADIUS, SHEET, INK, 1.0))
            .add(pen::text(
                (x, y + RADIUS * 0.38),
                RADIUS * 1.05,
                INK,
                true,
                "middle",
                &number.wanted.number.to_string(),
            ));
    }
    sheet.to_string()
}

/// An arm as most backhoes have it, in round invented numbers: only for the sketch of the pins.
fn usual_arm() -> ArmShape {
    let at = Vector::new;
    let ram = |closed: f64, stroke: f64| Ram {
        count: 1,
        bore: 0.1,
        rod: 0.055,
        closed,
        stroke,
        supply: 0.0,
        relief_cap: 0.0,
        relief_rod: 0.0,
        back: 0.0,
        barrel: (0.0, 0.0),
        rod_weight: (0.0, 0.0),
    };
    let foot = at(0.25, 0.7);
    let linkage = FourBar::near(
        [at(0.2, 0.34), at(1.25, 0.04), at(1.5, 0.0)],
        0.35,
        0.38,
        Vector::at_angle(2.0) * 0.23,
        true,
        -0.9,
    );
    ArmShape {
        foot,
        boom_length: 2.4,
        dipper_length: 1.5,
        bucket: BucketShape {
            tip_radius: 0.85,
            heel: at(0.3, 0.42),
            weight: Weight::default(),
            load: Weight::default(),
        },
        boom_triangle: Triangle::near(at(-0.2, 0.4), at(1.25, 0.28), 0.0),
        dipper_triangle: Triangle::near(at(-1.25, 0.34), at(-0.36, 0.18), -1.3),
        linkage: linkage.expect("the usual arm's linkage closes: its numbers stand above"),
        rams: [ram(0.95, 0.7), ram(1.0, 0.65), ram(0.85, 0.5)],
        boom_weight: Weight::default(),
        dipper_weight: Weight::default(),
        lever_weight: (0.0, 0.0),
        link_weight: (0.0, 0.0),
        gravity: STANDARD_GRAVITY,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_pin_has_a_number_on_the_sketch() {
        let drawn = pin_sketch(None, "The pins");
        for label in PinLabel::ALL {
            assert!(
                drawn.contains(&format!("\n{}\n", label.number())),
                "{drawn}"
            );
        }
        assert_eq!(PinLabel::number_of("tooth"), Some(13));
        assert_eq!(PinLabel::number_of("ground"), None);
    }
}
