//! The rams as columns, the arm at rest, the oil in its tank, and what is to be said of the pose.

use super::Figures;
use reckon::arm::{
    rest::ShutIn,
    shape::{Joint, Side, Vector},
};
use yard::arm::{AtRest, BledRam, NotKnown, PoseRecord, PoseWarning, TankRecord, Told};
use yard::code::Coded;

pub(super) fn add(figures: &mut Figures, record: &PoseRecord) {
    columns(figures, record);
    match &record.rest {
        Ok(rest) => at_rest(figures, rest),
        Err(why) => figures.unknown("rest-highest-pressure", "Pa", why),
    }
    match &record.tank {
        Ok(tank) => oil(figures, tank),
        Err(why) => figures.unknown("oil-level", "m", why),
    }
    let warnings: Vec<String> = record.warnings.iter().map(warning).collect();
    figures.word("warnings", warnings.join("; "));
    figures.word(
        "rests-on-guess",
        if record.rests_on_guess { "yes" } else { "no" },
    );
}

/// A warning as its code, and of what.
fn warning(warning: &PoseWarning) -> String {
    let of = match warning {
        PoseWarning::BeyondStroke(joint)
        | PoseWarning::OnItsStop(joint, _)
        | PoseWarning::NearDeadCentre(joint)
        | PoseWarning::CannotHoldItself(joint) => joint.code(),
        PoseWarning::TipsByItself(stance) => stance.code(),
        PoseWarning::BelowGround => "",
    };
    format!("{} {of}", warning.code()).trim_end().to_owned()
}

fn columns(figures: &mut Figures, record: &PoseRecord) {
    for (joint, column) in Joint::ALL.into_iter().zip(&record.columns) {
        let name = |what: &str| format!("{}-column-{what}", joint.code());
        match column {
            Ok(column) => {
                figures.number(name("critical"), "N", column.critical);
                figures.number(name("rod-only"), "N", column.rod_only);
                figures.told(name("reserve-working"), "", &column.reserve_working);
                figures.told(name("reserve-holding"), "", &column.reserve_holding);
            }
            Err(why) => figures.unknown(name("critical"), "N", why),
        }
    }
}

fn at_rest(figures: &mut Figures, rest: &AtRest) {
    figures.number("rest-highest-pressure", "Pa", rest.highest);
    for joint in Joint::ALL {
        let (name, at) = (joint.code(), joint.index());
        three(figures, &format!("rest-{name}"), &rest.shut_in[at]);
        three(
            figures,
            &format!("rest-pinned-{name}"),
            &rest.boom_pinned[at],
        );
    }
    match rest.touches {
        Some(Vector { r, .. }) => figures.number("rest-touches-at", "m", r),
        None => figures.unknown("rest-touches-at", "m", &NotKnown::NotOnTheGround),
    }
    for (joint, bled) in Joint::ALL.into_iter().zip(&rest.bled) {
        bleeding(figures, joint.code(), bled);
    }
    match &rest.flat {
        Some(flat) => {
            figures.number("rest-flat-load", "N", flat.load);
            figures.number("rest-flat-level", "N", flat.level);
            figures.number("rest-flat-from-tooth", "m", flat.from_tooth);
            figures.number("rest-flat-friction", "", flat.friction);
        }
        None => figures.unknown("rest-flat-load", "N", &NotKnown::NotOnTheGround),
    }
}

fn bleeding(figures: &mut Figures, which: &str, bled: &Told<BledRam>) {
    let bled = match bled {
        Ok(bled) => bled,
        Err(why) => return figures.unknown(format!("rest-{which}-bled-load"), "N", why),
    };
    figures.number(format!("rest-{which}-bled-load"), "N", bled.load);
    for joint in Joint::ALL {
        let name = format!("rest-{which}-bled-{}", joint.code());
        three(figures, &name, &bled.rams[joint.index()]);
        figures.word(
            format!("{name}-turned"),
            if bled.turned[joint.index()] {
                "yes"
            } else {
                "no"
            },
        );
    }
}

/// Thrust, pressure and side of what is shut in.
fn three(figures: &mut Figures, name: &str, shut_in: &ShutIn) {
    figures.number(format!("{name}-thrust"), "N", shut_in.thrust);
    figures.shut_in(
        format!("{name}-pressure"),
        format!("{name}-side"),
        &Ok(*shut_in),
    );
}

fn oil(figures: &mut Figures, tank: &TankRecord) {
    figures.told("oil-level", "m", &tank.level);
    figures.told("oil-volume", "m3", &tank.volume);
    figures.told("oil-below-all-in", "m", &tank.below_all_in);
    figures.word("oil-taken-as-in", tank.taken_as_in.join(" "));
    figures.word("oil-unmeasured", tank.unmeasured.join(" "));
}

impl Figures {
    /// The pressure shut in and the side of the piston, under two names.
    pub(super) fn shut_in(&mut self, pressure: String, side: String, told: &Told<ShutIn>) {
        match told {
            Ok(shut_in) => {
                self.number(pressure, "Pa", shut_in.pressure);
                let which = match shut_in.side {
                    Side::Cap => "piston",
                    Side::Rod => "rod",
                };
                self.word(side, which);
            }
            Err(why) => {
                self.unknown(pressure, "Pa", why);
                self.unknown(side, "", why);
            }
        }
    }
}
