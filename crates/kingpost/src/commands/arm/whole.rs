//! What holds in any pose: how far it reaches, how its rams range, the forces by the standards.

use super::Subject;
use super::figures::{Figures, Value};
use super::missing::{missing, no_answer, provisos};
use crate::{kit::Kit, rows::rows, said::Said, trouble::Trouble};
use reckon::arm::pose::Extreme;
use serde_json::{Value as Json, json};
use yard::arm::{MachineRecord, NotKnown, RamRange, machine};

pub(super) fn run(kit: &Kit, subject: &Subject) -> Result<Said, Trouble> {
    if let Err(why) = &subject.arm.shape {
        return Err(no_answer(kit, subject, why));
    }
    let record = machine(&subject.arm);
    let figures = figures(&record);
    let lines: Vec<(String, String)> = figures
        .0
        .iter()
        .map(|figure| {
            (
                kit.t(&format!("arm-told-whole-{}", figure.name)),
                shown(kit, &figure.value, figure.unit),
            )
        })
        .collect();
    let mut text = rows(&lines);
    let unknown = subject
        .arm
        .missing
        .iter()
        .map(|one| format!("  {}\n", missing(kit, *one)))
        .collect::<String>();
    if !unknown.is_empty() {
        text += &format!("\n{}\n{unknown}", kit.t("arm-told-missing-heading"));
    }
    text += &format!("\n{}\n", kit.t("arm-told-standard-note"));
    text += &format!("{}\n", kit.t("arm-told-statics-only"));
    text += &provisos(kit, &subject.arm);
    let units = figures
        .0
        .iter()
        .map(|figure| (figure.name.clone(), json!(figure.unit)));
    let json = json!({
        "machine": subject.name,
        "units": Json::Object(units.collect()),
        "figures": figures.json(),
        "rests_on_guess": record.rests_on_guess,
        "caution": kit.t("arm-told-statics-only"),
    });
    Ok(Said::new(text, json))
}

fn figures(record: &MachineRecord) -> Figures {
    let mut figures = Figures::default();
    match &record.reach {
        Ok(reach) => {
            figures.number("deepest", "m", reach.deepest.placed.tooth.z);
            figures.extreme(
                "reach-on-ground",
                reach.farthest_on_ground.as_ref(),
                |extreme| extreme.placed.tooth.r,
            );
            figures.extreme("dump-height", reach.highest_dump.as_ref(), |extreme| {
                extreme.placed.tooth.z
            });
        }
        Err(why) => figures.unknown("deepest", "m", why),
    }
    for range in record.ranges.iter().flatten() {
        figures.range(range);
    }
    match &record.standard {
        Ok(standard) => {
            figures.number("standard-curl", "N", standard.curl.force);
            figures.number("standard-crowd", "N", standard.crowd.force);
        }
        Err(why) => {
            figures.unknown("standard-curl", "N", why);
            figures.unknown("standard-crowd", "N", why);
        }
    }
    figures
}

impl Figures {
    fn extreme(&mut self, name: &str, extreme: Option<&Extreme>, figure: impl Fn(&Extreme) -> f64) {
        match extreme {
            Some(extreme) => self.number(name, "m", figure(extreme)),
            None => self.unknown(name, "m", &NotKnown::NoPose),
        }
    }

    fn range(&mut self, range: &RamRange) {
        let name = |what: &str| format!("{}-{what}", range.joint.code());
        self.number(name("closed"), "m", range.closed);
        self.number(name("open"), "m", range.open);
        self.number(name("angle-in"), "deg", range.angle_in.to_degrees());
        self.number(name("angle-out"), "deg", range.angle_out.to_degrees());
        self.number(name("longest-lever"), "m", range.longest_lever);
    }
}

/// A figure for people: to the millimetre, a tenth of a degree, a tenth of a kilonewton.
fn shown(kit: &Kit, value: &Value, unit: &str) -> String {
    match (value, unit) {
        (Value::Number(number), "N") => format!("{:.1} kN", number / 1000.0),
        (Value::Number(number), "deg") => format!("{number:.1}°"),
        (Value::Number(number), unit) => format!("{number:.3} {unit}"),
        (Value::Word(word), _) => word.clone(),
        (Value::NotKnown(..), _) => kit.t("arm-told-not-known"),
    }
}
