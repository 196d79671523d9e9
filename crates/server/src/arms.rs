//! Arms at hand: what a book says of an arm is worked out once for each revision, and so are its four poses and its maps.

use papers::{
    ArmFrame, cut_frames,
    drawing::arm::{HeldBack, StrengthMark, Window, strength_marks},
    four_poses, parked_frames,
};
use reckon::arm::{force::Governs, shape::Vector};
use std::{
    collections::BTreeMap,
    sync::{Arc, Mutex, OnceLock, PoisonError},
};
use words::{Fineness, Words, way_code};
use yard::{
    arm::{ArmOfBook, Direction, MapGrid, Told, arm_of, strength_map, teaching_poses},
    book::Book,
    id::{EntryId, MachineId},
};

/// Height of the letters of the large drawing, hundredths of a metre: readable on a phone.
pub(crate) const LETTERS: f64 = 26.0;
/// The side of a square of the map, metres.
const SQUARE: f64 = 0.25;
/// Lengths tried of each ram for the map.
const STEPS: usize = 41;
/// More machines than this are not kept at hand.
const MOST: usize = 64;

/// A machine, the revision of its book, and whether a comma is the decimal sign here.
type Key = (MachineId, EntryId, bool);

/// Maps by the direction's name and the way of standing.
type Maps = BTreeMap<(&'static str, Option<usize>), Arc<Told<Map>>>;

/// All arms that somebody looked at.
#[derive(Default)]
pub(crate) struct Arms(Mutex<BTreeMap<Key, Arc<ArmAtHand>>>);

/// One arm with what was worked out of it so far.
pub(crate) struct ArmAtHand {
    /// The arm.
    pub(crate) arm: ArmOfBook,
    /// Names of the machine's rams, by id.
    pub(crate) rams: BTreeMap<String, String>,
    /// The part of the arm plane that holds every pose.
    pub(crate) window: Option<Window>,
    frames: OnceLock<Frames>,
    maps: Mutex<Maps>,
}

/// The small drawings.
pub(crate) struct Frames {
    /// Four poses, two to use first.
    pub(crate) four: Vec<ArmFrame>,
    /// Why a pose of the four cannot be picked.
    pub(crate) not_picked: Vec<String>,
    /// The cut, right and wrong.
    pub(crate) cut: Vec<ArmFrame>,
    /// Parked well and badly.
    pub(crate) parked: Vec<ArmFrame>,
}

/// A strength map, drawn.
pub(crate) struct Map {
    /// Its marks.
    pub(crate) marks: String,
    /// The force of the largest, newtons.
    pub(crate) most: f64,
}

impl Arms {
    /// The arm of this book.
    pub(crate) fn of(
        &self,
        machine: &MachineId,
        revision: EntryId,
        comma: bool,
        book: &Book,
    ) -> Arc<ArmAtHand> {
        let key = (machine.clone(), revision, comma);
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(arm) = kept.get(&key) {
            return arm.clone();
        }
        // An older revision of the same machine is not asked for again.
        kept.retain(|(of, ..), _| of != machine);
        if kept.len() >= MOST {
            kept.clear();
        }
        let arm = Arc::new(ArmAtHand::of(book));
        kept.insert(key, arm.clone());
        arm
    }
}

impl ArmAtHand {
    fn of(book: &Book) -> Self {
        let arm = arm_of(book);
        let sound = arm.shape.as_ref().ok().filter(|_| arm.troubles.is_empty());
        ArmAtHand {
            rams: book
                .rams
                .iter()
                .map(|ram| (ram.id.to_string(), ram.name.clone()))
                .collect(),
            window: sound.map(|shape| Window::of_all(shape, LETTERS)),
            arm,
            frames: OnceLock::new(),
            maps: Mutex::default(),
        }
    }

    /// Its small drawings.
    pub(crate) fn frames(&self, words: &Words) -> &Frames {
        self.frames.get_or_init(|| Frames {
            four: four_poses(words, &self.arm, Fineness::Screen, "pose"),
            not_picked: not_picked(words, &self.arm),
            cut: cut_frames(words, &self.arm, Fineness::Screen, "cut"),
            parked: parked_frames(words, &self.arm, Fineness::Screen, "parked"),
        })
    }

    /// Its strength map in a direction on a way of standing; none that rests on a guess.
    pub(crate) fn map(&self, way: Direction, stance: Option<usize>) -> Option<Arc<Told<Map>>> {
        if self.arm.guesses.any() {
            return None;
        }
        let mut kept = self.maps.lock().unwrap_or_else(PoisonError::into_inner);
        let map = kept
            .entry((way_code(way), stance))
            .or_insert_with(|| Arc::new(self.drawn(way, stance)));
        Some(map.clone())
    }

    fn drawn(&self, way: Direction, stance: Option<usize>) -> Told<Map> {
        let grid = MapGrid {
            steps: STEPS,
            square: SQUARE,
        };
        let cells = strength_map(&self.arm, way, stance, grid)?;
        let middle = |at: i32| (f64::from(at) + 0.5) * SQUARE;
        let marks: Vec<StrengthMark> = cells
            .iter()
            .map(|cell| StrengthMark {
                at: Vector::new(middle(cell.column), middle(cell.row)),
                force: cell.force,
                by: match cell.governs {
                    Governs::Working(_) => HeldBack::ByWork,
                    Governs::Holding(_) => HeldBack::ByAnother,
                    Governs::Tipping(_) | Governs::Sliding => HeldBack::ByGround,
                },
            })
            .collect();
        Ok(Map {
            marks: strength_marks(&marks, SQUARE),
            most: marks.iter().map(|mark| mark.force).fold(0.0, f64::max),
        })
    }
}

/// Why a pose of the four cannot be picked; nothing where the arm has no shape at all, for then the page says so first.
fn not_picked(words: &Words, arm: &ArmOfBook) -> Vec<String> {
    let poses = teaching_poses(arm);
    let missing = poses
        .iter()
        .flatten()
        .filter_map(|pose| pose.as_ref().err());
    let why = missing.map(|why| words.arm_not_known(why));
    why.map(|why| words.say("arm-four-not-known", &[("why", why.into())]))
        .collect()
}
