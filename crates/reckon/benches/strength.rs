//! The strength kernel beside the same arithmetic in C, by turns in one run; a strength map; one pose with everything.
//!
//! The C is compiled here for the same instructions, without contraction of multiplications and additions, for this
//! kernel's digits must not depend on the processor. Where there is no C compiler that part says so. numpy, numba and
//! MuJoCo are asked by turns with it too, where they are installed.

mod strength_anchors;

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Instant;

use divan::Bencher;
use reckon::arm::force::{Cut, Footing, Stance, Statics, usable};
use reckon::arm::pose::Placed;
use reckon::arm::shape::{
    ArmShape, BucketShape, FourBar, Joint, Ram, STANDARD_GRAVITY, Triangle, Vector, Weight,
};
use reckon::arm::strength::{Columns, Direction, InstructionSet, Kernel, MapGrid, strength_map};
use strength_anchors::Anchors;

fn main() {
    interleaved();
    divan::main();
}

/// Few enough that all columns stay in the second cache.
const POSES: usize = 4096;
const ROUNDS: usize = 200;
const TURNS: usize = 5;

/// The reference machine's arm.
fn arm() -> ArmShape {
    let at = Vector::new;
    let ram = |bore, rod, closed, stroke, relief_cap, relief_rod, barrel, rod_weight| Ram {
        count: 1,
        bore,
        rod,
        closed,
        stroke,
        supply: 17.5e6,
        relief_cap,
        relief_rod,
        back: 0.0,
        barrel,
        rod_weight,
    };
    let foot = at(0.24, 0.66);
    let weight = |mass, r, z| Weight {
        mass,
        centre: at(r, z),
    };
    let pins = [at(0.17, 0.33), at(1.28, 0.03), at(1.55, 0.0)];
    let on_bucket = Vector::at_angle(115_f64.to_radians()) * 0.22;
    ArmShape {
        foot,
        boom_length: 2.35,
        dipper_length: 1.55,
        bucket: BucketShape {
            tip_radius: 0.85,
            heel: at(0.30, 0.42),
            weight: weight(120.0, 0.38, 0.17),
            load: Weight::default(),
        },
        boom_triangle: Triangle::near(at(0.06, 1.04) - foot, at(1.22, 0.27), 0.0),
        dipper_triangle: Triangle::near(at(1.10 - 2.35, 0.33), at(-0.36, 0.17), -1.3),
        linkage: FourBar::near(pins, 0.35, 0.38, on_bucket, true, -0.9).expect("it closes"),
        rams: [
            ram(
                0.110,
                0.060,
                0.935,
                0.710,
                21e6,
                24e6,
                (38.0, 0.42),
                (24.0, 0.40),
            ),
            ram(
                0.100,
                0.055,
                0.975,
                0.675,
                24.5e6,
                21e6,
                (30.0, 0.42),
                (17.0, 0.40),
            ),
            ram(
                0.085,
                0.050,
                0.850,
                0.545,
                21e6,
                24e6,
                (22.0, 0.38),
                (12.0, 0.34),
            ),
        ],
        boom_weight: weight(320.0, 1.18, 0.16),
        dipper_weight: weight(175.0, 0.52, 0.06),
        lever_weight: (14.0, 0.175),
        link_weight: (12.0, 0.19),
        gravity: STANDARD_GRAVITY,
    }
}

fn stance() -> Stance {
    Stance {
        contacts: vec![[4.0, 0.85], [0.3, 1.25], [0.3, -1.25], [4.0, -0.85]],
        friction: 0.5,
        base: (5000.0, [1.72, -0.02, 0.86]),
        post: Weight {
            mass: 145.0,
            centre: Vector::new(0.10, 0.75),
        },
        heading: std::f64::consts::PI,
    }
}

fn columns(shape: &ArmShape) -> [Vec<f64>; 3] {
    let strides = [
        0.618_033_988_749_894_9,
        0.414_213_562_373_095_03,
        0.732_050_807_568_877_2,
    ];
    Joint::ALL.map(|joint| {
        let ram = shape.ram(joint);
        let length = |pose: usize| {
            let share = pose as f64 * strides[joint.index()];
            ram.closed + (share - share.floor()) * (ram.extended() - ram.closed)
        };
        (0..POSES).map(length).collect()
    })
}

fn sum(into: &Columns) -> f64 {
    let [boom, dipper, bucket] = &into.allows;
    let (r, z) = (&into.tooth_r, &into.tooth_z);
    let (dr, dz) = (&into.direction_r, &into.direction_z);
    let columns = [r, z, dr, dz, boom, dipper, bucket, &into.moment];
    columns.iter().flat_map(|column| column.iter()).sum()
}

/// Nanoseconds a pose, the best of the rounds, and the sum of all results.
fn ours(
    kernel: &Kernel,
    lengths: &[Vec<f64>; 3],
    run: impl Fn(&Kernel, [&[f64]; 3], &mut Columns),
) -> (f64, f64) {
    let lengths = [&lengths[0][..], &lengths[1][..], &lengths[2][..]];
    let mut into = Columns::of_length(POSES);
    let mut best = f64::INFINITY;
    for _ in 0..ROUNDS {
        let start = Instant::now();
        run(
            divan::black_box(kernel),
            divan::black_box(lengths),
            &mut into,
        );
        best = best.min(start.elapsed().as_secs_f64() * 1e9 / POSES as f64);
        divan::black_box(&mut into);
    }
    (best, sum(&into))
}

fn one_by_one(kernel: &Kernel, lengths: [&[f64]; 3], into: &mut Columns) {
    for pose in 0..POSES {
        let found = kernel.at([lengths[0][pose], lengths[1][pose], lengths[2][pose]]);
        (into.tooth_r[pose], into.tooth_z[pose]) = (found.tooth.r, found.tooth.z);
        (into.direction_r[pose], into.direction_z[pose]) = (found.direction.r, found.direction.z);
        for (column, force) in into.allows.iter_mut().zip(found.allows) {
            column[pose] = force;
        }
        into.moment[pose] = found.moment;
    }
}

/// The C compiled with these options; nothing where that cannot be done.
fn compiled(name: &str, options: &[&str]) -> Option<PathBuf> {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("benches/strength.c");
    let program = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("strength-{name}"));
    let done = Command::new("cc")
        .args([
            "-std=gnu11",
            "-ffp-contract=off",
            "-fno-math-errno",
            "-fno-trapping-math",
        ])
        .args(options)
        .arg(&source)
        .arg("-o")
        .arg(&program)
        .arg("-lm")
        .status();
    matches!(done, Ok(status) if status.success()).then_some(program)
}

fn theirs(program: &Path, numbers: &str) -> Option<(f64, f64)> {
    let mut child = Command::new(program)
        .args([POSES.to_string(), ROUNDS.to_string()])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .ok()?;
    child.stdin.take()?.write_all(numbers.as_bytes()).ok()?;
    let said = String::from_utf8(child.wait_with_output().ok()?.stdout).ok()?;
    let (time, sum) = said.trim().split_once(' ')?;
    Some((time.parse().ok()?, sum.parse().ok()?))
}

fn interleaved() {
    let shape = arm();
    let kernel = Kernel::new(&shape, Direction::Curl);
    let lengths = columns(&shape);
    let ends = shape
        .rams
        .iter()
        .flat_map(|ram| [ram.closed, ram.extended()]);
    let numbers: Vec<String> = kernel
        .numbers()
        .into_iter()
        .chain(ends)
        .map(|n| format!("{n:?}"))
        .collect();
    let python = Anchors::start(POSES, ROUNDS, &numbers);
    let numbers = numbers.join("\n");
    println!("strength kernel, {POSES} poses, best of {ROUNDS} rounds, {TURNS} turns, ns a pose");
    println!(
        "{:<22} {:>9} {:>9} {:>7}  same digits",
        "", "ours", "C", "C/ours"
    );
    let scalar = ["-O2", "-fno-tree-vectorize", "-fno-tree-slp-vectorize"];
    compare(
        "one pose at a time",
        compiled("scalar", &scalar),
        &numbers,
        || ours(&kernel, &lengths, one_by_one),
    );
    for set in InstructionSet::at_hand() {
        let (name, options) = match set {
            InstructionSet::Baseline => ("batch, baseline", vec!["-O3"]),
            InstructionSet::Avx2 => ("batch, AVX2", vec!["-O3", "-mavx2"]),
            InstructionSet::Avx512 => (
                "batch, AVX-512",
                vec![
                    "-O3",
                    "-mavx512f",
                    "-mavx512dq",
                    "-mavx512vl",
                    "-mprefer-vector-width=512",
                ],
            ),
        };
        compare(
            name,
            compiled(&format!("{set:?}"), &options),
            &numbers,
            || {
                ours(&kernel, &lengths, |kernel, lengths, into| {
                    kernel.batch_with(set, lengths, into);
                })
            },
        );
    }
    beside_python(python, || ours(&kernel, &lengths, Kernel::batch));
    println!();
}

/// The shipped batch by turns with each way of the Python anchors. MuJoCo's is the whole closed linkage without limits.
fn beside_python(anchors: Option<Anchors>, run: impl Fn() -> (f64, f64)) {
    let Some(mut anchors) = anchors else {
        println!("numpy, numba, MuJoCo: no Python here");
        return;
    };
    println!(
        "{:<22} {:>9} {:>9} {:>7}  same digits",
        "", "ours", "other", "times"
    );
    for way in ["numpy", "numba", "mujoco"] {
        let mut best: Option<(f64, f64, f64)> = None;
        let mut mine = f64::INFINITY;
        for _ in 0..TURNS {
            let (time, my_sum) = run();
            mine = mine.min(time);
            if let Some((other, sum)) = anchors.ask(way) {
                let before = best.map_or(f64::INFINITY, |(before, ..)| before);
                best = Some((before.min(other), my_sum, sum));
            }
        }
        match best {
            Some((other, my_sum, sum)) => {
                let same = if sum.is_nan() {
                    "not compared".to_owned()
                } else {
                    ((my_sum - sum).abs() <= 1e-9 * sum.abs()).to_string()
                };
                println!(
                    "{way:<22} {mine:>9.2} {other:>9.0} {:>7.0}  {same}",
                    other / mine
                );
            }
            None => println!("{way:<22} {mine:>9.2}  not installed"),
        }
    }
}

fn compare(name: &str, anchor: Option<PathBuf>, numbers: &str, run: impl Fn() -> (f64, f64)) {
    let mut best = (f64::INFINITY, f64::INFINITY);
    let mut same = true;
    for _ in 0..TURNS {
        let (mine, my_sum) = run();
        best.0 = best.0.min(mine);
        if let Some((other, sum)) = anchor
            .as_deref()
            .and_then(|program| theirs(program, numbers))
        {
            best.1 = best.1.min(other);
            same &= (my_sum - sum).abs() <= 1e-12 * sum.abs();
        }
    }
    if best.1.is_finite() {
        let (ours, other) = best;
        println!(
            "{name:<22} {ours:>9.2} {other:>9.2} {:>7.2}  {same}",
            other / ours
        );
    } else {
        println!("{name:<22} {:>9.2}  no C compiler", best.0);
    }
}

/// 63 lengths of each ram, 250,047 poses, with all limits: rams, tipping, sliding. One core.
#[divan::bench(sample_count = 10)]
fn map_of_250_000_poses(bencher: Bencher<'_, '_>) {
    let (shape, stance) = (arm(), stance());
    let placed = Placed::at_lengths(&shape, [1.29, 1.2045, 0.965]).expect("a pose");
    let footing = Footing::new(&shape, &placed, &stance);
    let grid = MapGrid {
        steps: 63,
        square: 0.1,
    };
    bencher.bench_local(|| strength_map(&shape, Direction::Curl, Some(&footing), grid));
}

/// One pose from ram lengths to every thrust and limit in all four directions.
#[divan::bench]
fn one_pose_with_everything(bencher: Bencher<'_, '_>) {
    let (shape, stance) = (arm(), stance());
    bencher.bench_local(|| {
        let lengths = divan::black_box([1.29, 1.2045, 0.965]);
        let placed = Placed::at_lengths(&shape, lengths).expect("a pose");
        let statics = Statics::hanging(&shape, placed).expect("levers");
        let footing = Footing::new(&shape, &placed, &stance);
        let curl = Cut::curl(&statics).expect("a radius");
        let crowd = Cut::crowd(&statics).expect("a radius");
        [curl, crowd, Cut::push_down(), Cut::pull_up()]
            .map(|cut| usable(&shape, &statics, cut, Some(&footing)).governs)
    });
}
