//! Start-up: a verdict by the real program over three months of journal, beside a program that does nothing and ours saying its version.

use std::{
    path::PathBuf,
    process::{Command, Stdio},
    sync::OnceLock,
};
use tempfile::TempDir;

fn main() {
    divan::main();
}

const KINGPOST: &str = env!("CARGO_BIN_EXE_kingpost");

fn data() -> &'static PathBuf {
    static DATA: OnceLock<(TempDir, PathBuf)> = OnceLock::new();
    let made = DATA.get_or_init(|| {
        let dir = TempDir::new().expect("a temporary folder");
        let data = dir.path().join("yard");
        kingpost::demo::make(&data, &kingpost::RealWorld::new()).expect("the demo can be made");
        (dir, data)
    });
    &made.1
}

fn run(program: &str, arguments: &[&str]) -> bool {
    let mut command = Command::new(program);
    let command = command
        .args(arguments)
        .env("KINGPOST_DATA", data())
        .stdout(Stdio::null());
    command.status().is_ok()
}

/// The anchor: what starting any program costs here.
#[divan::bench(sample_count = 50)]
fn a_program_that_does_nothing(bencher: divan::Bencher<'_, '_>) {
    data();
    bencher.bench(|| run("true", &[]));
}

#[divan::bench(sample_count = 50)]
fn kingpost_version(bencher: divan::Bencher<'_, '_>) {
    data();
    bencher.bench(|| run(KINGPOST, &["--version"]));
}

#[divan::bench(sample_count = 50)]
fn kingpost_verdict_over_three_months(bencher: divan::Bencher<'_, '_>) {
    data();
    bencher.bench(|| {
        run(
            KINGPOST,
            &["handover", "verdict", "marigold", "--by", "Tamsin"],
        )
    });
}
