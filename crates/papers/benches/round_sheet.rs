//! How long a walk-round sheet takes: the first of a process, and one after another.
#![allow(clippy::unwrap_used)]

#[path = "../tests/yard_of_one/mod.rs"]
mod yard_of_one;

use papers::{PaperSize, round_sheet};
use words::Words;
use yard_of_one::YardOfOne;

fn main() {
    divan::main();
}

/// Cold: the first of the process, which also loads fonts and library. One sample, and first by its name, so that it stays so.
#[divan::bench(sample_count = 1, sample_size = 1)]
fn a_cold(bencher: divan::Bencher<'_, '_>) {
    sheet(bencher);
}

/// Warm: as a server that has printed before.
#[divan::bench(sample_count = 50, sample_size = 1)]
fn b_warm(bencher: divan::Bencher<'_, '_>) {
    sheet(bencher);
}

fn sheet(bencher: divan::Bencher<'_, '_>) {
    let (yard, words) = (YardOfOne::of("demo/marigold.toml"), Words::english());
    let plan = yard.due();
    bencher.bench_local(|| {
        round_sheet(&yard.sheet(&words, PaperSize::A4), &plan)
            .unwrap()
            .len()
    });
}
