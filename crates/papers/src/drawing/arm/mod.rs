//! The arm in one pose, to scale, from its own pins: links, rams, what it stands on, the ground, the push at the tooth.
//!
//! r points to the right of the page and z up, the swing axis at 0, the ground at 0. Lengths are hundredths of a metre, as on
//! every drawing. A ram that works is drawn heavy; the oil that carries the load is hatched in its barrel; both are said in its
//! label too, so that nothing hangs on ink alone.

mod links;
mod marks;
mod pins;
mod ram;
mod standing;
mod window;

use super::{
    ink::{DIMENSION, INK, PENCIL, SHEET},
    pen,
};
use reckon::arm::{
    pose::Placed,
    shape::{ArmShape, Joint, Side, Vector},
};
use svg::node::element::{Group, Rectangle, SVG, Title};

pub use marks::{HeldBack, StrengthMark, strength_key, strength_marks};
pub use pins::{PinLabel, pin_sketch};
pub use standing::Standing;
pub use window::Window;

/// How a ram shows.
#[derive(Clone, Copy, Debug, Default)]
pub struct RamLook<'a> {
    /// It does the work: drawn heavy.
    pub works: bool,
    /// The side of the piston whose oil carries the load: hatched.
    pub loaded: Option<Side>,
    /// Its label; empty for none.
    pub label: &'a str,
}

/// What to draw.
#[derive(Clone, Copy, Debug)]
pub struct ArmDrawing<'a> {
    /// The arm.
    pub shape: &'a ArmShape,
    /// Its pose.
    pub placed: &'a Placed,
    /// Boom, dipper, bucket.
    pub rams: [RamLook<'a>; 3],
    /// What it stands on.
    pub standing: &'a Standing,
    /// The way the tooth pushes, as a unit vector, and words at its arrow; none = no arrow.
    pub push: Option<(Vector, &'a str)>,
    /// The tooth's way in the ground, from its beginning to here; empty for none.
    pub cut: &'a [Vector],
    /// The part of the arm plane that is shown.
    pub window: Window,
    /// Height of the letters, hundredths of a metre.
    pub letters: f64,
    /// What the picture is, for those who cannot see it.
    pub title: &'a str,
    /// An id no other drawing of the page has.
    pub id: &'a str,
}

/// The whole drawing. `under`: more to lie between the ground and the arm, as [`strength_marks`] gives it; empty for none.
pub fn arm(what: &ArmDrawing<'_>, under: &str) -> String {
    let window = what.window;
    let under = Group::new()
        .set("id", format!("{}-map", what.id))
        .add(svg::node::Blob::new(under));
    window
        .sheet()
        .set("role", "img")
        .add(Title::new(what.title))
        .add(pen::oil(&format!("{}-oil", what.id)))
        .add(what.standing.ground(&window, what.letters))
        .add(under)
        .add(what.standing.machine(&window, what.shape, what.letters))
        .add(
            Group::new()
                .set("id", format!("{}-arm", what.id))
                .add(svg::node::Blob::new(arm_alone(what))),
        )
        .to_string()
}

/// The arm's own shapes alone, to take the place of the old ones when it moved.
pub fn arm_alone(what: &ArmDrawing<'_>) -> String {
    let at = |point: Vector| page(point);
    let line = pen::weight(true, what.letters.clamp(9.0, 20.0));
    let mut group = Group::new();
    if what.cut.len() > 1 {
        let way: Vec<_> = what.cut.iter().map(|point| at(*point)).collect();
        group = group.add(pen::line(&way, DIMENSION, line).set(
            "stroke-dasharray",
            format!("{0} {0}", pen::unit(line * 2.0)),
        ));
    }
    let rams: Vec<Group> = Joint::ALL
        .iter()
        .map(|joint| ram::drawn(what, *joint, line))
        .collect();
    let [boom_ram, dipper_ram, bucket_ram]: [Group; 3] =
        rams.try_into().expect("three joints have three rams");
    // From behind to before: the bucket under the link, the dipper, the boom over its end, the rams on top.
    group = group
        .add(links::bucket(what.shape, what.placed, line))
        .add(links::dipper(what.shape, what.placed, line))
        .add(links::boom(what.shape, what.placed, line))
        .add(links::lever_and_link(what.placed, line))
        .add(boom_ram)
        .add(dipper_ram)
        .add(bucket_ram)
        .add(links::pins(what.placed, line));
    if let Some((direction, words)) = what.push {
        group = group.add(push(what, direction, words, line));
    }
    for (row, joint) in Joint::ALL.iter().enumerate() {
        group = group.add(label(what, *joint, row));
    }
    // The group's own tag is the caller's.
    inner(&group.to_string())
}

/// A point of the arm plane on the page.
fn page(point: Vector) -> (f64, f64) {
    (
        point.r * super::ink::PER_METRE,
        -point.z * super::ink::PER_METRE,
    )
}

/// What stands between a group's tags.
fn inner(group: &str) -> String {
    let begin = group.find('>').map_or(0, |at| at + 1);
    let end = group.rfind("</g>").unwrap_or(group.len());
    group.get(begin..end).unwrap_or_default().to_owned()
}

/// An arrow away from the tooth, the way it pushes.
fn push(what: &ArmDrawing<'_>, direction: Vector, words: &str, line: f64) -> Group {
    let long = what.letters * 3.2;
    let (x, y) = page(what.placed.tooth);
    let (dx, dy) = (direction.r, -direction.z);
    let (tip_x, tip_y) = (x + dx * long, y + dy * long);
    let back = what.letters * 0.9;
    let side = |turn: f64| {
        (
            tip_x - dx * back + dy * turn * back * 0.6,
            tip_y - dy * back - dx * turn * back * 0.6,
        )
    };
    let mut arrow = Group::new()
        .add(pen::line(&[(x, y), (tip_x, tip_y)], SHEET, line * 3.0))
        .add(pen::line(&[(x, y), (tip_x, tip_y)], INK, line * 1.3))
        .add(pen::line(
            &[side(1.0), (tip_x, tip_y), side(-1.0)],
            INK,
            line * 1.3,
        ));
    if !words.is_empty() {
        let size = what.letters;
        let half = size * 0.31 * words.chars().count() as f64;
        let window = what.window;
        let x = (tip_x + dx * half).clamp(
            window.left + half,
            (window.right - half).max(window.left + half),
        );
        let y =
            (tip_y + dy * size + size * 0.35).clamp(window.top + size, window.bottom - size * 0.4);
        arrow = arrow.add(pen::label((x, y), size, INK, words));
    }
    arrow
}

/// The label of a ram in its row over the arm, with a line to the ram.
fn label(what: &ArmDrawing<'_>, joint: Joint, row: usize) -> Group {
    let look = &what.rams[joint.index()];
    if look.label.is_empty() {
        return Group::new();
    }
    let size = what.letters;
    let window = what.window;
    let wide = size * 0.6 * look.label.chars().count() as f64;
    let y = over_the_arm(what) + size * 1.45 * row as f64;
    let x = window.left + size * 0.4;
    let middle = page((what.placed.barrels[joint.index()] + what.placed.rods[joint.index()]) * 0.5);
    let from = ((x + wide + size * 0.2).min(window.right), y - size * 0.35);
    let strip = Rectangle::new()
        .set("x", pen::unit(x - size * 0.2))
        .set("y", pen::unit(y - size * 0.98))
        .set("width", pen::unit(wide + size * 0.4))
        .set("height", pen::unit(size * 1.35))
        .set("fill", SHEET);
    let ink = if look.works { INK } else { PENCIL };
    Group::new()
        .add(pen::line(&[from, middle], SHEET, size * 0.24))
        .add(pen::line(&[from, middle], DIMENSION, size * 0.085))
        .add(pen::ring(middle, size * 0.17, DIMENSION, DIMENSION, 0.1))
        .add(strip)
        .add(pen::text(
            (x, y),
            size,
            ink,
            look.works,
            "start",
            look.label,
        ))
}

/// The line of the first label: close over the highest ram, and the rows under it still over the arm's foot.
fn over_the_arm(what: &ArmDrawing<'_>) -> f64 {
    let size = what.letters;
    let highest = what
        .placed
        .barrels
        .iter()
        .chain(&what.placed.rods)
        .chain([&what.placed.pivots[1]])
        .map(|pin| page(*pin).1)
        .fold(0.0, f64::min);
    (highest - size * 4.6).max(what.window.top + size * 1.15)
}

impl Window {
    fn sheet(&self) -> SVG {
        SVG::new()
            .set(
                "viewBox",
                format!(
                    "{} {} {} {}",
                    pen::unit(self.left),
                    pen::unit(self.top),
                    pen::unit(self.right - self.left),
                    pen::unit(self.bottom - self.top)
                ),
            )
            .set("xmlns", "http://www.w3.org/2000/svg")
    }
}
