//! How the machine stands, and how its arm swings.

use super::{Figures, edge};
use yard::{
    arm::{FootingFigures, NotKnown, PoseRecord, SwingRecord, Told},
    code::Coded,
};

pub(super) fn add(figures: &mut Figures, record: &PoseRecord) {
    for footing in &record.footing {
        let stance = footing.stance.code();
        match &footing.figures {
            Ok(standing) => on_ground(figures, stance, standing),
            Err(why) => figures.unknown(format!("stands-{stance}"), "", why),
        }
    }
    match &record.swing {
        Ok(swing) => swinging(figures, swing),
        Err(why) => figures.unknown("swing-torque-left", "N m", why),
    }
}

fn on_ground(figures: &mut Figures, stance: &str, standing: &FootingFigures) {
    figures.word(
        format!("stands-{stance}"),
        if standing.stands { "yes" } else { "no" },
    );
    figures.number(format!("load-{stance}"), "N", standing.load_point.load);
    figures.number(
        format!("load-point-x-{stance}"),
        "m",
        standing.load_point.place[0],
    );
    figures.number(
        format!("load-point-y-{stance}"),
        "m",
        standing.load_point.place[1],
    );
    let corners = 0..standing.corners.len();
    for corner in corners.clone() {
        let number = corner + 1;
        figures.number(
            format!("edge-moment-{stance}-{number}"),
            "N m",
            standing.edge_moments[corner],
        );
        figures.number(
            format!("slope-{stance}-{number}"),
            "deg",
            standing.slopes[corner].to_degrees(),
        );
    }
    figures.word(
        format!("weakest-edge-{stance}"),
        (standing.weakest + 1).to_string(),
    );
    listed(
        figures,
        &format!("reaction-{stance}"),
        "N",
        corners.len(),
        &standing.reactions,
    );
    for corner in corners {
        let name = format!("pad-pressure-{stance}-{}", corner + 1);
        match &standing.pad_pressure {
            // Nothing where the corner stands on something else than a pad.
            Ok(all) => all[corner]
                .into_iter()
                .for_each(|pressure| figures.number(&name, "Pa", pressure)),
            Err(why) => figures.unknown(name, "Pa", why),
        }
    }
    let (load, over) = standing.tips_at_pin;
    figures.number(format!("tips-at-pin-{stance}"), "N", load);
    figures.word(format!("tips-at-pin-edge-{stance}"), edge(over));
    figures.told(format!("drags-at-{stance}"), "N", &standing.drags_at);
}

/// One figure for each corner, counted from 1.
fn listed(
    figures: &mut Figures,
    name: &str,
    unit: &'static str,
    corners: usize,
    told: &Told<Vec<f64>>,
) {
    for corner in 0..corners {
        let one = told
            .as_ref()
            .map(|all| all[corner])
            .map_err(NotKnown::clone);
        figures.told(format!("{name}-{}", corner + 1), unit, &one);
    }
}

fn swinging(figures: &mut Figures, swing: &SwingRecord) {
    for (at, side) in ["left", "right"].into_iter().enumerate() {
        figures.number(format!("swing-length-{side}"), "m", swing.lengths[at]);
        figures.number(format!("swing-lever-{side}"), "m", swing.levers[at]);
    }
    figures.told("swing-torque-left", "N m", &swing.towards_left);
    figures.told("swing-torque-right", "N m", &swing.towards_right);
    figures.told("swing-torque-holds", "N m", &swing.holds);
    figures.told("swing-side-force", "N", &swing.side_force);
    figures.number("swing-dead-centre", "deg", swing.dead_centre.to_degrees());
    figures.told("swing-speed", "rad/s", &swing.speed);
    figures.told("swing-inertia-at-least", "kg m2", &swing.inertia_at_least);
    figures.told("swing-energy-at-least", "J", &swing.energy_at_least);
    let sections = match &swing.sections {
        Ok(sections) => sections,
        Err(why) => return figures.unknown("boom-section-1-mises", "Pa", why),
    };
    for (number, stress) in (1..).zip(sections) {
        let name = |what: &str| format!("boom-section-{number}-{what}");
        figures.number(name("bending"), "N m", stress.bending);
        figures.number(name("torsion"), "N m", stress.torsion);
        figures.number(name("normal"), "Pa", stress.normal);
        figures.number(name("shear"), "Pa", stress.shear);
        figures.number(name("mises"), "Pa", stress.mises);
    }
}
