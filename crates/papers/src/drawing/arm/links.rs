//! Boom, dipper, bucket, lever and link: plain heavy outlines drawn round their pins.

use super::{
    super::{
        ink::{INK, PER_METRE, SHEET},
        pen,
    },
    page,
};
use reckon::arm::{
    pose::Placed,
    shape::{ArmShape, Vector},
};
use svg::node::element::{Group, Polygon};

/// The boom: its steel goes round the foot pin, both ram pins and the dipper's pin.
pub(super) fn boom(shape: &ArmShape, placed: &Placed, line: f64) -> Group {
    let thick = shape.boom_length * 0.045;
    let around = [
        (placed.pivots[0], thick * 1.1),
        (placed.rods[0], thick * 0.8),
        (placed.barrels[1], thick * 0.8),
        (placed.pivots[1], thick * 0.95),
    ];
    link(&around, line)
}

/// The dipper, round its own pin, its ram's rod pin, the bucket ram's barrel pin, the lever's pin and the bucket's.
pub(super) fn dipper(shape: &ArmShape, placed: &Placed, line: f64) -> Group {
    let thick = shape.dipper_length * 0.055;
    let around = [
        (placed.pivots[1], thick),
        (placed.rods[1], thick * 0.85),
        (placed.barrels[2], thick * 0.8),
        (placed.lever_pin, thick * 0.7),
        (placed.pivots[2], thick * 0.8),
    ];
    link(&around, line)
}

/// The bucket: bottom plate from the heel to the tooth, its back round to the link's pin, open towards the dipper.
pub(super) fn bucket(shape: &ArmShape, placed: &Placed, line: f64) -> Group {
    let radius = shape.bucket.tip_radius;
    let link = shape.linkage.link_on_bucket();
    let side = if link.z < 0.0 { -1.0 } else { 1.0 };
    let own = shape.bucket.heel;
    // A heel that nobody measured stands where most buckets have theirs.
    let heel = if own.length() > radius * 0.1 {
        own
    } else {
        Vector::new(radius * 0.35, side * radius * 0.48)
    };
    let tooth = Vector::new(radius, 0.0);
    let ear = radius * 0.085;
    let back = Vector::new(link.r - ear, link.z + side * ear * 0.4);
    let bulge = Vector::new(
        (back.r + heel.r) / 2.0 - radius * 0.12,
        (back.z + heel.z) / 2.0 + side * radius * 0.14,
    );
    let mut rim = vec![
        Vector::new(-ear, -side * ear * 0.6),
        Vector::new(-ear * 1.3, side * ear * 0.8),
    ];
    rim.extend(bent(back, bulge, heel));
    rim.push(heel + (tooth - heel) * 0.86);
    rim.push(tooth - Vector::new(radius * 0.13, -side * radius * 0.005));
    rim.push(Vector::new(radius * 0.35, side * radius * 0.05));
    rim.push(Vector::new(ear * 1.2, -side * ear * 0.6));
    let corners: Vec<_> = rim
        .into_iter()
        .map(|point| page(placed.on_bucket(point)))
        .collect();
    // The plate ends in a tooth, filled, so that its tip is seen.
    let root = heel + (tooth - heel) * 0.84;
    let tip = [
        tooth,
        root,
        tooth - Vector::new(radius * 0.15, side * radius * 0.005),
    ]
    .map(|point| page(placed.on_bucket(point)));
    Group::new().add(pen::body(&corners, line)).add(
        Polygon::new()
            .set("points", pen::pairs(&tip))
            .set("fill", INK)
            .set("stroke", INK)
            .set("stroke-width", pen::unit(line * 0.5))
            .set("stroke-linejoin", "round"),
    )
}

/// Lever and link as bars between their pins.
pub(super) fn lever_and_link(placed: &Placed, line: f64) -> Group {
    let bar = |from: Vector, to: Vector| {
        let ends = [page(from), page(to)];
        Group::new()
            .add(pen::line(&ends, INK, line * 3.2))
            .add(pen::line(&ends, SHEET, line * 1.4))
    };
    Group::new()
        .add(bar(placed.lever_pin, placed.rods[2]))
        .add(bar(placed.rods[2], placed.link_pin))
}

/// Every pin as a small circle.
pub(super) fn pins(placed: &Placed, line: f64) -> Group {
    let all = placed
        .pivots
        .iter()
        .chain(&placed.barrels)
        .chain(&placed.rods)
        .chain([&placed.lever_pin, &placed.link_pin]);
    all.fold(Group::new(), |group, pin| {
        group.add(pen::ring(page(*pin), line * 1.5, SHEET, INK, line * 0.75))
    })
}

/// The tightest outline round circles about pins.
fn link(around: &[(Vector, f64)], line: f64) -> Group {
    let corners: Vec<(f64, f64)> = around
        .iter()
        .flat_map(|(pin, radius)| {
            let (x, y) = page(*pin);
            (0..20).map(move |n| {
                let turn = Vector::at_angle(f64::from(n) * std::f64::consts::PI / 10.0);
                (
                    x + turn.r * radius * PER_METRE,
                    y + turn.z * radius * PER_METRE,
                )
            })
        })
        .collect();
    Group::new().add(pen::body(&hull(corners), line))
}

/// The corners of the tightest outline round points, in order.
fn hull(mut points: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let side = |points: &mut dyn Iterator<Item = (f64, f64)>| {
        let mut kept: Vec<(f64, f64)> = Vec::new();
        for point in points {
            while kept.len() > 1 {
                let (a, b) = (kept[kept.len() - 2], kept[kept.len() - 1]);
                let turns = (b.0 - a.0) * (point.1 - a.1) - (b.1 - a.1) * (point.0 - a.0);
                if turns > 0.0 {
                    break;
                }
                kept.pop();
            }
            kept.push(point);
        }
        kept.pop();
        kept
    };
    let mut under = side(&mut points.iter().copied());
    under.extend(side(&mut points.iter().rev().copied()));
    under
}

/// A curve from one point to another, drawn towards a third.
fn bent(from: Vector, over: Vector, to: Vector) -> Vec<Vector> {
    (0..=8)
        .map(|n| {
            let t = f64::from(n) / 8.0;
            from * ((1.0 - t) * (1.0 - t)) + over * (2.0 * t * (1.0 - t)) + to * (t * t)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::hull;

    #[test]
    fn an_outline_leaves_out_what_lies_within() {
        let points = vec![(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (1.0, 2.0)];
        let outline = hull(points);
        assert_eq!(outline.len(), 4);
        assert!(!outline.contains(&(1.0, 2.0)));
    }
}
