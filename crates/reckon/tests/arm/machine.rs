//! Machines of `cases/arm` as shapes.

use std::path::{Path, PathBuf};

use reckon::arm::force::Stance;
use reckon::arm::shape::{ArmShape, BucketShape, FourBar, Joint, Ram, Triangle, Vector, Weight};
use toml::{Table, Value};

/// A machine's file, read.
pub(crate) struct Machine {
    pub(crate) shape: ArmShape,
    pub(crate) file: Table,
}

pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/arm")
}

pub(crate) fn text(name: &str) -> String {
    std::fs::read_to_string(folder().join(name)).unwrap()
}

/// The invented machine that four independent methods were run on.
pub(crate) fn reference() -> Machine {
    read("reference-machine.toml")
}

/// The arm of the published mini excavator, which lifts by lengthening its two boom rams.
pub(crate) fn mini_excavator() -> Machine {
    read("mini-excavator.toml")
}

pub(crate) fn number(table: &Value, key: &str) -> f64 {
    let value = &table[key];
    value
        .as_float()
        .unwrap_or_else(|| value.as_integer().unwrap() as f64)
}

pub(crate) fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array().unwrap();
    list.iter().map(|item| item.as_float().unwrap()).collect()
}

pub(crate) fn point(value: &Value) -> Vector {
    let both = numbers(value);
    Vector::new(both[0], both[1])
}

fn weight(value: &Value) -> Weight {
    Weight {
        mass: number(value, "mass"),
        centre: point(&value["centre"]),
    }
}

fn ram(value: &Value) -> Ram {
    let of = |key| number(value, key);
    Ram {
        count: value["count"].as_integer().unwrap() as u8,
        bore: of("bore"),
        rod: of("rod"),
        closed: of("closed"),
        stroke: of("stroke"),
        supply: of("supply"),
        relief_cap: of("relief_cap"),
        relief_rod: of("relief_rod"),
        back: 0.0,
        barrel: (of("barrel_mass"), of("barrel_centre")),
        rod_weight: (of("rod_mass"), of("rod_centre")),
    }
}

fn read(name: &str) -> Machine {
    let file: Table = text(name).parse().unwrap();
    let (pins, seen, lengths) = (&file["pins"], &file["seen"], &file["lengths"]);
    let (weights, rams) = (&file["weights"], &file["rams"]);
    let foot = point(&pins["foot"]);
    let boom_length = number(lengths, "boom");
    let link_on_bucket = pins.get("link_on_bucket").map_or_else(
        || {
            let angle = number(pins, "link_on_bucket_degrees").to_radians();
            Vector::at_angle(angle) * number(pins, "link_on_bucket_radius")
        },
        point,
    );
    let dipper_length = number(lengths, "dipper");
    let linkage = FourBar::near(
        [
            point(&pins["bucket_barrel_in_dipper"]),
            point(&pins["lever_pin_in_dipper"]),
            Vector::new(dipper_length, 0.0),
        ],
        number(lengths, "lever"),
        number(lengths, "link"),
        link_on_bucket,
        seen["shared_on_the_left"].as_bool().unwrap(),
        number(seen, "bucket"),
    );
    let along = |key: &str| {
        (
            number(&weights[key], "mass"),
            number(&weights[key], "along"),
        )
    };
    let shape = ArmShape {
        foot,
        boom_length,
        dipper_length,
        bucket: BucketShape {
            tip_radius: number(lengths, "tip_radius"),
            heel: point(&lengths["heel"]),
            weight: weight(&weights["bucket"]),
            load: Weight {
                mass: 0.0,
                centre: point(&weights["load_centre"]),
            },
        },
        boom_triangle: Triangle::near(
            point(&pins["boom_barrel_in_post"]) - foot,
            point(&pins["boom_rod_in_boom"]),
            number(seen, "boom"),
        ),
        dipper_triangle: Triangle::near(
            point(&pins["dipper_barrel_in_boom"]) - Vector::new(boom_length, 0.0),
            point(&pins["dipper_rod_in_dipper"]),
            number(seen, "dipper"),
        ),
        linkage: linkage.unwrap(),
        rams: ["boom", "dipper", "bucket"].map(|name| ram(&rams[name])),
        boom_weight: weight(&weights["boom"]),
        dipper_weight: weight(&weights["dipper"]),
        lever_weight: along("lever"),
        link_weight: along("link"),
        gravity: file["gravity"].as_float().unwrap(),
    };
    Machine { shape, file }
}

impl Machine {
    /// What it stands on, the arm swung by so many degrees from straight back.
    pub(crate) fn stance(&self, name: &str, swing_degrees: f64) -> Stance {
        let (ground, weights) = (&self.file["ground"], &self.file["weights"]);
        let base = numbers(&weights["base"]["centre"]);
        Stance {
            contacts: ground[name]
                .as_array()
                .unwrap()
                .iter()
                .map(|corner| [numbers(corner)[0], numbers(corner)[1]])
                .collect(),
            friction: number(ground, "friction"),
            base: (
                number(&weights["base"], "mass"),
                [base[0], base[1], base[2]],
            ),
            post: weight(&weights["post"]),
            heading: std::f64::consts::PI + swing_degrees.to_radians(),
        }
    }

    pub(crate) fn ram(&self, joint: Joint) -> &Ram {
        self.shape.ram(joint)
    }
}
