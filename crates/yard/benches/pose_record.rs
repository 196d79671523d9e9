//! Every figure of one pose of the reference machine, as pages and the command ask for it; and its arm read from the book.

use divan::Bencher;
use yard::arm::{ArmOfBook, PoseAsked, PoseRecord, arm_of, pose};
use yard::book::{Book, read};

fn main() {
    divan::main();
}

fn book() -> Book {
    let text = include_str!("../../../cases/arm/reference-machine-book.toml");
    let read = read(text, &quantity::Habits::default());
    read.book.expect("the book reads")
}

fn arm() -> ArmOfBook {
    arm_of(&book())
}

/// A pose that leaves out nothing the book can tell.
fn record(arm: &ArmOfBook) -> PoseRecord {
    let asked = PoseAsked::at([1.29, 1.2045, 0.965]);
    pose(arm, divan::black_box(&asked)).expect("it is told")
}

#[divan::bench]
fn every_figure_of_one_pose(bencher: Bencher<'_, '_>) {
    let arm = arm();
    let whole = record(&arm);
    assert!(whole.hanging.is_ok() && whole.forces.iter().all(Result::is_ok));
    assert!(whole.lift.is_ok() && whole.swing.is_ok() && whole.rest.is_ok() && whole.tank.is_ok());
    bencher.bench_local(|| record(&arm));
}

#[divan::bench]
fn the_arm_from_its_book(bencher: Bencher<'_, '_>) {
    let book = book();
    bencher.bench_local(|| arm_of(divan::black_box(&book)));
}
