//! A fastener's thread and grade read from how people write them, and what torque they can bear. What does not read is left
//! alone: a strange thread is no mistake.

use super::PutIn;
use quantity::{Habits, Unit, parse};
use reckon::upkeep::{bolt_torque::bolt_torque, thread_stress_area::thread_stress_area};

/// A thread's nominal diameter and pitch, millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Thread {
    diameter: f64,
    pitch: f64,
    unified: bool,
}

/// The torques between which a written one is believed, Nm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Believed {
    pub(super) low: f64,
    pub(super) high: f64,
}

const INCH: f64 = 25.4;

/// Coarse pitches of metric threads, mm (ISO 261, from memory; M8 to M24 as read in ISO 898-1).
const COARSE: &[(f64, f64)] = &[
    (3.0, 0.5),
    (4.0, 0.7),
    (5.0, 0.8),
    (6.0, 1.0),
    (8.0, 1.25),
    (10.0, 1.5),
    (12.0, 1.75),
    (14.0, 2.0),
    (16.0, 2.0),
    (18.0, 2.5),
    (20.0, 2.5),
    (22.0, 2.5),
    (24.0, 3.0),
    (27.0, 3.0),
    (30.0, 3.5),
    (33.0, 3.5),
    (36.0, 4.0),
];

/// Reads `M16`, `M16 x 1.5`, `1/2-13`, `3/8-16 UNC`. None where it is something else.
pub(super) fn thread(written: &str) -> Option<Thread> {
    let text = written.trim().to_ascii_lowercase();
    if let Some(metric) = text.strip_prefix('m') {
        let mut parts = metric.split(['x', '×', '*']).map(str::trim);
        let diameter: f64 = parts.next()?.parse().ok()?;
        let pitch = match parts.next() {
            // `M16 x 2 x 60` ends with a length, `M16 x 60` has no pitch: no pitch is over 8 mm.
            Some(second) => second
                .parse()
                .ok()
                .filter(|pitch| *pitch <= 8.0)
                .or_else(|| coarse(diameter))?,
            None => coarse(diameter)?,
        };
        let sound = (1.0..=150.0).contains(&diameter) && pitch >= 0.2 && pitch < diameter;
        return sound.then_some(Thread {
            diameter,
            pitch,
            unified: false,
        });
    }
    let (size, per_inch) = text.split_once('-')?;
    let per_inch: f64 = per_inch.split_whitespace().next()?.parse().ok()?;
    let size = size
        .trim()
        .trim_end_matches(['"', '″'])
        .trim_end_matches(" in");
    let inches = parse(&format!("{size} in"), &Habits::default(), None).ok()?;
    let diameter = inches.in_unit(Unit::Millimetre)?.to_f64();
    let sound = (1.0..=150.0).contains(&diameter) && (4.0..=80.0).contains(&per_inch);
    sound.then_some(Thread {
        diameter,
        pitch: INCH / per_inch,
        unified: true,
    })
}

fn coarse(diameter: f64) -> Option<f64> {
    let known = COARSE
        .iter()
        .find(|(size, _)| (size - diameter).abs() < 1e-9);
    known.map(|(_, pitch)| *pitch)
}

/// The proof stress of a grade on this thread, MPa. None where the grade is something else.
///
/// 8.8 and 10.9 from ISO 898-1, grades 2, 5 and 8 from SAE J429, read; the other classes of ISO 898-1 from memory.
fn proof_stress(grade: &str, thread: Thread) -> Option<f64> {
    const PSI: f64 = 0.006_894_757;
    let text = grade.trim().to_ascii_lowercase();
    let word = text.rsplit([' ', ':']).next()?;
    let over = |inches: f64| thread.diameter > inches * INCH + 1e-6;
    if thread.unified {
        let psi = match word {
            "2" if over(0.75) => 33_000.0,
            "2" => 55_000.0,
            "5" if over(1.0) => 74_000.0,
            "5" => 85_000.0,
            "8" => 120_000.0,
            _ => return None,
        };
        return Some(psi * PSI);
    }
    Some(match word {
        "4.6" => 225.0,
        "4.8" => 310.0,
        "5.6" => 280.0,
        "5.8" => 380.0,
        "6.8" => 440.0,
        "8.8" if thread.diameter > 16.0 => 600.0,
        "8.8" => 580.0,
        "10.9" => 830.0,
        "12.9" => 970.0,
        _ => return None,
    })
}

/// What share of the proof load a torque is believed to leave at least: less hardly holds a joint of steel.
const LEAST_SHARE: f64 = 0.2;

/// Between which torques a written one is believed, Nm; `snug` where an angle follows, so that a low one is right.
///
/// The lowest and the highest nut factor that sources give for threads put in so; from a fifth of the proof load to all of it.
pub(super) fn believed(
    thread: Thread,
    grade: &str,
    put_in: Option<PutIn>,
    snug: bool,
) -> Option<Believed> {
    let stress = proof_stress(grade, thread)?;
    let area = thread_stress_area(thread.diameter, thread.pitch, thread.unified);
    let (least, most) = match put_in {
        Some(PutIn::Dry) => (0.17, 0.35),
        Some(PutIn::Lubricated) => (0.10, 0.26),
        None => (0.10, 0.35),
    };
    let torque = |share, factor| bolt_torque(thread.diameter, area, stress, share, factor).torque;
    Some(Believed {
        low: if snug {
            0.0
        } else {
            torque(LEAST_SHARE, least)
        },
        high: torque(1.0, most),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(written: &str, diameter: f64, pitch: f64) {
        let read = thread(written).unwrap();
        assert!((read.diameter - diameter).abs() < 1e-6, "{written}");
        assert!((read.pitch - pitch).abs() < 1e-6, "{written}");
    }

    #[test]
    fn threads_read_as_people_write_them() {
        near("M16", 16.0, 2.0);
        near("m16x1.5", 16.0, 1.5);
        near("M12 x 60", 12.0, 1.75);
        near("M10 × 1.25 × 40", 10.0, 1.25);
        near("1/2-13", 12.7, 25.4 / 13.0);
        near("3/8-16 UNC", 9.525, 25.4 / 16.0);
        near("1 1/8-7", 28.575, 25.4 / 7.0);
        for strange in ["", "M", "Mx", "M16 x 0", "G 1/4", "3/8", "1/2-", "pipe-14"] {
            assert_eq!(thread(strange), None, "{strange:?}");
        }
    }

    #[test]
    fn printed_torques_are_believed() {
        // Dry torque of a seller's table, grade 2, lb ft; and 218.4 Nm for M16 8.8.
        let table = [
            ("1/4-20", 5.5),
            ("5/16-18", 11.5),
            ("3/8-16", 20.0),
            ("7/16-14", 32.0),
            ("1/2-13", 49.0),
            ("9/16-12", 70.0),
            ("5/8-11", 97.0),
            ("3/4-10", 172.0),
        ];
        for (written, pounds) in table {
            let range = believed(thread(written).unwrap(), "grade 2", None, false).unwrap();
            let torque = pounds * 1.355_818;
            assert!(range.low < torque && torque < range.high, "{written}");
        }
        let m16 = believed(thread("M16").unwrap(), "8.8", None, false).unwrap();
        assert!(m16.low < 218.4 && 218.4 < m16.high);
    }

    #[test]
    fn a_slip_of_the_unit_shows() {
        // 218 lb in in place of Nm is too little, 218 kgf m too much.
        let m16 = believed(thread("M16").unwrap(), "8.8", None, false).unwrap();
        assert!(218.0 * 0.113 < m16.low);
        assert!(218.0 * 9.81 > m16.high);
        assert_eq!(believed(thread("M16").unwrap(), "best", None, false), None);
    }
}
