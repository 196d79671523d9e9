//! How the usable force of a pose was got: the leaf, its inputs, what came out.

use super::{asked::Asked, at_hand};
use crate::{
    desk::{Answer, Desk, page},
    pages::lines::{LinesPage, Section},
    refusal::Refusal,
};
use reckon::{
    Figure, FigureInput, Origin, Value,
    arm::{force::usable_force, shape::Joint},
};
use words::Arg;

/// A list longer than this is not written out: it is the whole arm.
const LONG: usize = 12;

/// Shows the figure of the force asked for; nothing that rests on a guess.
pub(crate) fn show(desk: &Desk, machine: &str, asked: &dyn Fn(&str) -> String) -> Answer {
    let (_, _, at_hand) = at_hand(desk, machine)?;
    let p = desk.page();
    let pose = Asked::of(&p, &at_hand, asked).ok_or(Refusal::NotFound)?;
    let figure = reckoned(&at_hand.arm, &pose).ok_or(Refusal::NotFound)?;
    let leaf = figure.leaf();
    let mut rows = p.words.figure_rows(&figure);
    for (row, input) in rows.iter_mut().zip(figure.inputs()) {
        if let Value::List(numbers) = input.value()
            && numbers.len() > LONG
        {
            row.1 = p.tn("arm-figure-numbers", "n", numbers.len());
        }
    }
    let intro = vec![
        p.words.say(
            "figure-intro",
            &[("leaf", Arg::from(p.words.leaf_name(leaf)))],
        ),
        super::lines::place(&p, &pose),
        p.t("arm-honest"),
    ];
    page(&LinesPage {
        title: p.t("how-got"),
        intro,
        sections: vec![Section {
            rows,
            ..Section::default()
        }],
        button: Some((format!("/reckoner/{}", leaf.id), p.words.leaf_name(leaf))),
        p,
    })
}

fn reckoned(arm: &yard::arm::ArmOfBook, pose: &Asked) -> Option<Figure> {
    let shape = arm.shape.as_ref().ok().filter(|_| !arm.guesses.any())?;
    let stance = match pose.stance {
        None => Vec::new(),
        Some(at) => arm.stances.get(at)?.stance.as_ref().ok()?.to_numbers(),
    };
    let force = pose.record.force(pose.way).ok()?;
    let working = force.cut.working;
    let number = Joint::ALL.iter().position(|joint| *joint == working)? + 1;
    let direction = force.cut.direction.angle().to_degrees();
    let given = |name: &str, value: f64| FigureInput::new(name, value, Origin::Given);
    let inputs = vec![
        FigureInput::new("arm", shape.to_numbers(), Origin::Given),
        FigureInput::new("stance", stance, Origin::Given),
        given("boom_ram", pose.lengths[0]),
        given("dipper_ram", pose.lengths[1]),
        given("bucket_ram", pose.lengths[2]),
        FigureInput::new("ram", number as u32, Origin::Given),
        given("direction", direction),
    ];
    Figure::reckon(&usable_force::LEAF, inputs).ok()
}
