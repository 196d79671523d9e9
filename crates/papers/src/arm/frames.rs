//! Small drawings of the arm with their words, for pages and papers alike: the four poses, the strips, the arm parked.

use crate::drawing::arm::{ArmDrawing, RamLook, Standing, Window, arm as drawn};
use reckon::arm::{
    pose::Placed,
    shape::{ArmShape, Joint},
};
use words::{Arg, Fineness, Words};
use yard::arm::{
    ArmOfBook, Direction, Frame, PoseAsked, PoseRecord, TeachingPose, cut_lesson, parked_lesson,
    pose, teaching_poses,
};

/// A small drawing with its words.
#[derive(Clone, Debug, PartialEq)]
pub struct ArmFrame {
    /// The drawing.
    pub svg: String,
    /// Whether it shows how to do it; else how not to.
    pub good: bool,
    /// What it says, a sentence a line.
    pub lines: Vec<String>,
    /// The ram lengths, metres.
    pub lengths: [f64; 3],
}

/// Letters of small drawings: none are written, but lines are as heavy as for this size.
const LETTERS: f64 = 15.0;

/// The four poses, two to use first; one that cannot be picked is left out. Nothing where the arm has no shape.
pub fn four_poses(words: &Words, arm: &ArmOfBook, how: Fineness, id: &str) -> Vec<ArmFrame> {
    let Ok(shape) = &arm.shape else {
        return Vec::new();
    };
    let poses = teaching_poses(arm)
        .map_or_else(|_| Vec::new(), |four| four.into_iter().flatten().collect());
    let poses: Vec<(TeachingPose, Placed)> = poses
        .into_iter()
        .filter_map(|pose| Some((pose, Placed::at_lengths(shape, pose.lengths).ok()?)))
        .collect();
    let window = Window::of_poses(poses.iter().map(|(_, placed)| placed));
    let standing = Standing::of(arm, arm.digs_from);
    let frame = |(n, (pose, placed)): (usize, &(TeachingPose, Placed))| {
        let lines = words.arm_why(pose, arm.guesses.any(), how);
        ArmFrame {
            svg: small(&Small {
                shape,
                placed,
                works: None,
                standing: &standing,
                cut: &[],
                window,
                title: &lines.join(" "),
                id: &format!("{id}{n}"),
            }),
            good: pose.use_it,
            lines,
            lengths: pose.lengths,
        }
    };
    poses.iter().enumerate().map(frame).collect()
}

/// The strips of the cut: right order, wrong order. Nothing where the arm cannot show them.
pub fn cut_frames(words: &Words, arm: &ArmOfBook, how: Fineness, id: &str) -> Vec<ArmFrame> {
    let Ok(lesson) = cut_lesson(arm) else {
        return Vec::new();
    };
    let frames: Vec<(&Frame, bool)> = lesson
        .right
        .iter()
        .map(|frame| (frame, true))
        .chain(lesson.wrong.iter().map(|frame| (frame, false)))
        .collect();
    told(words, arm, &frames, how, id)
}

/// The arm parked well and badly. Nothing where the arm cannot show it.
pub fn parked_frames(words: &Words, arm: &ArmOfBook, how: Fineness, id: &str) -> Vec<ArmFrame> {
    let Ok(lesson) = parked_lesson(arm) else {
        return Vec::new();
    };
    let frames = [(&lesson.well, true), (&lesson.badly, false)];
    told(words, arm, &frames, how, id)
}

fn told(
    words: &Words,
    arm: &ArmOfBook,
    frames: &[(&Frame, bool)],
    how: Fineness,
    id: &str,
) -> Vec<ArmFrame> {
    let Ok(shape) = &arm.shape else {
        return Vec::new();
    };
    let placed: Vec<_> = frames
        .iter()
        .filter_map(|(frame, good)| {
            Some((
                *frame,
                *good,
                Placed::at_lengths(shape, frame.lengths).ok()?,
            ))
        })
        .collect();
    let window = Window::of_poses(placed.iter().map(|(.., placed)| placed));
    let standing = Standing::of(arm, arm.digs_from);
    placed
        .iter()
        .enumerate()
        .map(|(n, (frame, good, placed))| {
            let mut lines = vec![words.text(&format!("arm-frame-{}", frame.code))];
            lines.extend(of_frame(words, arm, frame, how));
            ArmFrame {
                svg: small(&Small {
                    shape,
                    placed,
                    works: frame.works,
                    standing: &standing,
                    cut: &frame.cut,
                    window,
                    title: &lines.join(" "),
                    id: &format!("{id}{n}"),
                }),
                good: *good,
                lines,
                lengths: frame.lengths,
            }
        })
        .collect()
}

/// What is reckoned for a frame: the force against the ground, or what is shut in. Nothing that rests on a guess.
fn of_frame(words: &Words, arm: &ArmOfBook, frame: &Frame, how: Fineness) -> Vec<String> {
    if arm.guesses.any() {
        return Vec::new();
    }
    let record = pose(arm, &PoseAsked::at(frame.lengths));
    let said = record
        .ok()
        .and_then(|record| match (frame.against, frame.works) {
            (Some(way), _) => against(words, arm, &record, way, how),
            (None, None) => left_so(words, arm, &record, frame.code == "parked-flat"),
            (None, Some(_)) => None,
        });
    said.unwrap_or_default()
}

fn against(
    words: &Words,
    arm: &ArmOfBook,
    record: &PoseRecord,
    way: Direction,
    how: Fineness,
) -> Option<Vec<String>> {
    let dig = record.dig(arm, way, arm.digs_from).ok()?;
    let force = words.arm_force(dig.usable.0.newtons()?, how);
    Some(vec![
        words.say("arm-frame-force", &[("force", Arg::from(force))]),
        words.arm_governs(dig.usable.1),
    ])
}

/// On the ground: whether the ground carries it with every ram slack. In the air: what is shut in.
fn left_so(
    words: &Words,
    arm: &ArmOfBook,
    record: &PoseRecord,
    on_the_ground: bool,
) -> Option<Vec<String>> {
    let rest = record.rest.as_ref().ok()?;
    if on_the_ground {
        let stance = arm.digs_from.and_then(|at| arm.stances.get(at))?;
        let slack = rest.flat.as_ref()?.rests_on(stance.friction.ok()?);
        let key = if slack {
            "arm-parked-ground"
        } else {
            "arm-parked-not-slack"
        };
        return Some(vec![words.text(key)]);
    }
    let mut lines = words.arm_rest(&rest.shut_in);
    lines.push(words.text("arm-rest-estimated"));
    Some(lines)
}

/// One small drawing.
struct Small<'a> {
    shape: &'a ArmShape,
    placed: &'a Placed,
    works: Option<Joint>,
    standing: &'a Standing,
    cut: &'a [reckon::arm::shape::Vector],
    window: Window,
    title: &'a str,
    id: &'a str,
}

fn small(what: &Small<'_>) -> String {
    let rams = Joint::ALL.map(|joint| RamLook {
        works: what.works == Some(joint),
        loaded: None,
        label: "",
    });
    drawn(
        &ArmDrawing {
            shape: what.shape,
            placed: what.placed,
            rams,
            standing: what.standing,
            push: None,
            cut: what.cut,
            window: what.window,
            letters: LETTERS,
            title: what.title,
            id: what.id,
        },
        "",
    )
}
