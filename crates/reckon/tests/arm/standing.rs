//! Standing: edges, reactions, tipping loads, against the reference machine and a textbook.

use reckon::arm::force::{Edge, Footing, Wrench};
use reckon::arm::shape::Vector;

use crate::forces::{cut, statics};
use crate::machine::reference;
use crate::table::{force, limit, place, rows};

#[test]
fn edges_reactions_and_tipping_of_the_reference_machine() {
    let machine = reference();
    for row in rows("stability.csv") {
        let statics = statics(&machine, row.ram_lengths());
        let stance = machine.stance(row.text("stance"), row.number("swing_degrees"));
        let footing = Footing::new(&machine.shape, &statics.placed, &stance);
        let at = footing.load_point().unwrap();
        force(at.load, row.number("load"), "load");
        place(at.place[0], row.number("place_x"), "load point");
        place(at.place[1], row.number("place_y"), "load point");
        let reactions = footing.reactions(0.0, &Wrench::default()).unwrap();
        for (corner, moment) in footing.edge_moments().into_iter().enumerate() {
            force(moment, row.number(&format!("edge_{corner}")), "edge");
            force(
                reactions[corner],
                row.number(&format!("reaction_{corner}")),
                "reaction",
            );
        }
        let down = Vector::new(0.0, -1.0);
        let (tips, edge) = footing.tips_at(statics.placed.pivots[2], down).unwrap();
        limit(
            tips / machine.shape.gravity,
            row.number("tipping_kg"),
            "tipping load",
        );
        assert_eq!(edge, edge_of(row.number("tipping_edge")));
        for name in ["curl", "push_down", "pull_up"] {
            let cut = cut(name, &statics);
            let tips = footing.tips_at(statics.placed.tooth, cut.direction);
            let expected = row.maybe(&format!("tips_{name}"));
            assert_eq!(tips.is_some(), expected.is_some());
            if let (Some((force, edge)), Some(expected)) = (tips, expected) {
                limit(force, expected, name);
                assert_eq!(edge, edge_of(row.number(&format!("edge_{name}"))));
            }
        }
    }
}

fn edge_of(index: f64) -> Edge {
    if index < 0.0 {
        Edge::Whole
    } else {
        Edge::From(index as usize)
    }
}

#[test]
fn a_beam_loaded_beyond_its_support() {
    // Beer and Johnston, Vector Mechanics, sample problem 4.1 as moments about an edge, read: a crane of 9.81 kN with its
    // centre 2 m out and 23.5 kN 6 m out on pin A, B 1.5 m below A: B = 107.1 kN. Here the same moments about one edge.
    let mut shape = reference().shape;
    shape.gravity = 0.0;
    let stance = reckon::arm::force::Stance {
        contacts: vec![[0.0, -1.0], [1.0, -1.0], [1.0, 1.0], [0.0, 1.0]],
        heading: 0.0,
        ..reference().stance("tracks", 0.0)
    };
    let placed = reckon::arm::pose::Placed::at_lengths(&shape, [1.29, 1.2045, 0.965_54]).unwrap();
    let footing = Footing::new(&shape, &placed, &stance);
    let down = Vector::new(0.0, -1.0);
    let crane = footing.one_newton(Vector::new(2.0, 0.0), down);
    let load = footing.one_newton(Vector::new(6.0, 0.0), down);
    let about_a = crane.moment[1] * 9.81 + load.moment[1] * 23.5;
    limit((about_a / 1.5 * 100.0).round() / 100.0, 107.08, "B");
}
