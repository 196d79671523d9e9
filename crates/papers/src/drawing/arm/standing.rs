//! What the arm stands on: the ground, the machine as a quiet block, its feet and its loader's edge.

use super::{
    super::{
        ink::{INK, PENCIL, PER_METRE, RULE, SHEET},
        pen,
    },
    Window, page,
};
use reckon::arm::shape::{ArmShape, Vector};
use svg::node::element::{Group, Polygon};
use yard::{arm::ArmOfBook, book::StanceName};

/// What of the machine is drawn beside its arm. All in metres along the arm's direction, 0 at the swing axis.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Standing {
    /// Where tracks or wheels touch the ground, from and to; none where it is not known.
    pub gear: Option<(f64, f64)>,
    /// On tracks; else on wheels.
    pub tracks: bool,
    /// Where its feet stand, when they are down.
    pub feet: Option<f64>,
    /// Where its loader's edge or its blade rests, when it does.
    pub edge: Option<f64>,
}

/// Height of the block's underside and of its top over the ground, metres.
const BLOCK: (f64, f64) = (0.42, 1.05);

impl Standing {
    /// The ground line with strokes under it.
    pub(super) fn ground(&self, window: &Window, letters: f64) -> Group {
        let fine = pen::weight(false, letters.clamp(9.0, 20.0));
        let mut group = Group::new();
        let step = 22.0;
        let mut x = (window.left / step).ceil() * step;
        while x < window.right {
            group = group.add(pen::line(&[(x, 1.0), (x - 9.0, 10.0)], RULE, fine));
            x += step;
        }
        group.add(pen::line(
            &[(window.left, 0.0), (window.right, 0.0)],
            INK,
            fine * 1.4,
        ))
    }

    /// The machine, as far as the window shows it, with a post at the swing axis that carries the arm.
    pub(super) fn machine(&self, window: &Window, shape: &ArmShape, letters: f64) -> Group {
        let fine = pen::weight(false, letters.clamp(9.0, 20.0));
        let behind = window.left / PER_METRE - 1.0;
        // Wheels and tracks near the arm may reach beyond its axis.
        let (from, to) = self.gear.unwrap_or((behind, -0.35));
        let front = to.max(-0.2).min(to + 0.5);
        let under_axis = from < 0.0 && to > 0.0;
        let mut group = Group::new();
        group = group.add(self.gear_drawn(from, to, fine));
        let nose = if under_axis {
            to.min(0.9)
        } else {
            front.max(-0.12)
        };
        group = group.add(quiet(
            &[
                (from.min(nose - 0.4) + 0.05, BLOCK.0),
                (nose, BLOCK.0),
                (nose, BLOCK.1 * 0.72),
                (nose - 0.25, BLOCK.1),
                (from.min(nose - 0.4) + 0.05, BLOCK.1),
            ],
            fine,
        ));
        if let Some(feet) = self.feet {
            group = group
                .add(quiet(
                    &[
                        (-0.12, BLOCK.0 + 0.2),
                        (0.02, BLOCK.0 + 0.2),
                        (feet + 0.07, 0.06),
                        (feet - 0.07, 0.06),
                    ],
                    fine,
                ))
                .add(pen::line(
                    &[
                        page(Vector::new(feet - 0.22, 0.03)),
                        page(Vector::new(feet + 0.22, 0.03)),
                    ],
                    INK,
                    fine * 3.0,
                ));
        }
        if let Some(edge) = self.edge {
            let near = if edge < 0.0 { from } else { to };
            group = group.add(quiet(
                &[(edge, 0.0), (near, 0.12), (near, 0.5), (edge, 0.75)],
                fine,
            ));
        }
        group.add(post(shape, fine))
    }

    fn gear_drawn(&self, from: f64, to: f64, fine: f64) -> Group {
        let height = 0.55;
        if self.tracks {
            let r = height / 2.0;
            let mut rim = Vec::new();
            for n in 0..=12 {
                let turn = Vector::at_angle(
                    -std::f64::consts::FRAC_PI_2 + f64::from(n) * std::f64::consts::PI / 12.0,
                );
                rim.push(page(Vector::new(to, r) + turn * r));
            }
            for n in 0..=12 {
                let turn = Vector::at_angle(
                    std::f64::consts::FRAC_PI_2 + f64::from(n) * std::f64::consts::PI / 12.0,
                );
                rim.push(page(Vector::new(from, r) + turn * r));
            }
            let wheel =
                |at: f64| pen::ring(page(Vector::new(at, r)), r * 62.0, SHEET, PENCIL, fine);
            Group::new()
                .add(outline(&rim, fine))
                .add(wheel(from))
                .add(wheel(to))
        } else {
            let wheel = |at: f64| {
                Group::new()
                    .add(pen::ring(
                        page(Vector::new(at, 0.45)),
                        45.0,
                        SHEET,
                        PENCIL,
                        fine,
                    ))
                    .add(pen::ring(
                        page(Vector::new(at, 0.45)),
                        16.0,
                        SHEET,
                        PENCIL,
                        fine,
                    ))
            };
            Group::new().add(wheel(from)).add(wheel(to))
        }
    }
}

/// The post between frame and arm, round the foot pin and the boom ram's barrel pin.
fn post(shape: &ArmShape, fine: f64) -> Group {
    let foot = shape.foot;
    let barrel = foot + shape.boom_triangle.barrel();
    let (low, high) = (foot.z.min(barrel.z) - 0.16, foot.z.max(barrel.z) + 0.1);
    let out = foot.r.max(barrel.r) + 0.1;
    let back = foot.r.min(barrel.r).min(0.0) - 0.1;
    quiet(
        &[
            (back, low),
            (out * 0.7, low),
            (foot.r + 0.12, foot.z - 0.1),
            (foot.r + 0.12, foot.z + 0.1),
            (barrel.r + 0.12, barrel.z + 0.08),
            (barrel.r - 0.05, high),
            (back, high),
        ],
        fine * 1.3,
    )
}

fn quiet(corners: &[(f64, f64)], fine: f64) -> Group {
    let corners: Vec<_> = corners
        .iter()
        .map(|(r, z)| page(Vector::new(*r, *z)))
        .collect();
    Group::new().add(outline(&corners, fine))
}

fn outline(corners: &[(f64, f64)], fine: f64) -> Polygon {
    pen::body(corners, fine).set("stroke", PENCIL)
}

impl Standing {
    /// What the book says of one way of standing, by its place in the book; a plain block where it says nothing.
    pub fn of(arm: &ArmOfBook, stance: Option<usize>) -> Standing {
        let along = |name: StanceName| {
            let of_arm = arm.stances.iter().find(|one| one.name == name)?;
            let stance = of_arm.stance.as_ref().ok()?;
            let along = Vector::at_angle(stance.heading);
            let places = stance
                .contacts
                .iter()
                .map(|[x, y]| x * along.r + y * along.z);
            let ends = places.fold((f64::INFINITY, f64::NEG_INFINITY), |ends, r| {
                (ends.0.min(r), ends.1.max(r))
            });
            (ends.0 < ends.1).then_some(ends)
        };
        let on_tracks = along(StanceName::Tracks);
        let on_wheels = along(StanceName::Wheels);
        let now = stance.and_then(|at| arm.stances.get(at));
        let name = now.map(|one| one.name);
        let on = name.and_then(along);
        let with_feet = matches!(name, Some(StanceName::Feet | StanceName::LoaderAndFeet));
        let feet = on.filter(|_| with_feet).map(|(_, far)| far);
        let edge = on.and_then(|(near, far)| match name {
            Some(StanceName::LoaderAndFeet) => Some(near),
            Some(StanceName::Blade) => {
                let own = on_tracks.unwrap_or((near, far));
                Some(if far - own.1 > own.0 - near {
                    far
                } else {
                    near
                })
            }
            _ => None,
        });
        let own = on.map(|(near, far)| (near, far.min(feet.map_or(far, |feet| feet - 0.6))));
        Standing {
            gear: on_tracks.or(on_wheels).or(own),
            tracks: on_wheels.is_none(),
            feet,
            edge,
        }
    }
}
