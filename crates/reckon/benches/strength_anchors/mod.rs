//! The anchors in Python, asked by turns with the kernel: numpy, numba and a general multibody engine.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

/// A running `strength.py`.
pub struct Anchors {
    child: Child,
    answers: BufReader<std::process::ChildStdout>,
}

impl Anchors {
    /// Starts it with the kernel's numbers; nothing where there is no Python.
    pub fn start(poses: usize, rounds: usize, numbers: &[String]) -> Option<Self> {
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("benches/strength.py");
        let mut child = Command::new(python())
            .arg(script)
            .args([poses.to_string(), rounds.to_string()])
            .env("PYTHONDONTWRITEBYTECODE", "1")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .ok()?;
        let answers = BufReader::new(child.stdout.take()?);
        writeln!(child.stdin.as_mut()?, "{}", numbers.join(" ")).ok()?;
        Some(Self { child, answers })
    }

    /// Nanoseconds a pose and the sum of all results of one way; nothing where that is not installed.
    pub fn ask(&mut self, way: &str) -> Option<(f64, f64)> {
        writeln!(self.child.stdin.as_mut()?, "{way}").ok()?;
        let mut line = String::new();
        self.answers.read_line(&mut line).ok()?;
        let (time, sum) = line.trim().split_once(' ')?;
        Some((time.parse().ok()?, sum.parse().ok()?))
    }
}

impl Drop for Anchors {
    fn drop(&mut self) {
        // It ends when nothing more is asked.
        drop(self.child.stdin.take());
        let _ = self.child.wait();
    }
}

/// The Python that `./check long` installs the engines for, or the computer's own.
fn python() -> PathBuf {
    let installed = Path::new(env!("CARGO_TARGET_TMPDIR")).join("../engines/bin/python");
    if installed.is_file() {
        installed
    } else {
        PathBuf::from("python3")
    }
}
