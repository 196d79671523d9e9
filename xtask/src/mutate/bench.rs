//! A copy of the tree in which a formula can be broken, built, and held against the cases.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use crate::tree::Tree;

/// What the cases said of a mutant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// The compiler refused it: no mutant after all.
    NotBuilt,
    /// A case failed, or the calculation no longer came to an end.
    Caught,
    /// Every case still passed.
    Survived,
}

/// One copy with its own build folder; each worker has its own.
pub(crate) struct Bench {
    copy: PathBuf,
    built: PathBuf,
    limit: Duration,
}

/// Where the copies lie: beside whatever else is built.
pub(crate) fn place(tree: &Tree) -> PathBuf {
    let built = std::env::var_os("CARGO_TARGET_DIR").map_or_else(|| "target".into(), PathBuf::from);
    let place = tree.root().join(built).join("mutants");
    // Cargo runs in the copy, where a relative path would mean another place.
    std::path::absolute(&place).unwrap_or(place)
}

impl Bench {
    /// Copies the tree and makes sure that the cases pass on it, and are there.
    pub(crate) fn set_up(tree: &Tree, number: usize) -> Result<Self, String> {
        let place = place(tree).join(number.to_string());
        let mut bench = Self {
            copy: place.join("tree"),
            built: place.join("built"),
            limit: Duration::from_secs(600),
        };
        copy(tree, &bench.copy)?;
        let program = bench
            .build()?
            .ok_or("the cases do not build on the unbroken tree")?;
        let started = Instant::now();
        let said = bench.cases(&program).output().map_err(cannot_start)?;
        if !said.status.success() {
            return Err("the cases fail on the unbroken tree; mend that first".to_owned());
        }
        if !String::from_utf8_lossy(&said.stdout).contains("test result: ok. ")
            || String::from_utf8_lossy(&said.stdout).contains("test result: ok. 0 passed")
        {
            return Err("the cases' test runs nothing: a mutant could not be noticed".to_owned());
        }
        // A mutant may loop for ever; ten times the usual and some for a busy machine is plainly that.
        bench.limit = started.elapsed() * 10 + Duration::from_secs(10);
        Ok(bench)
    }

    /// Writes the broken text, builds, runs the cases, and puts the text back.
    pub(crate) fn try_with(
        &self,
        path: &str,
        broken: &str,
        whole: &str,
    ) -> Result<Outcome, String> {
        let file = self.copy.join(path);
        let write = |text: &str| {
            fs::write(&file, text).map_err(|error| format!("cannot write {path}: {error}"))
        };
        write(broken)?;
        let outcome = match self.build()? {
            None => Outcome::NotBuilt,
            Some(program) => self.verdict(&program)?,
        };
        write(whole)?;
        Ok(outcome)
    }

    /// Builds the cases' test; `None` where the compiler refuses.
    fn build(&self) -> Result<Option<PathBuf>, String> {
        let done = Command::new("cargo")
            .args([
                "test",
                "--offline",
                "--quiet",
                "--no-run",
                "--package",
                "reckon",
                "--test",
                "cases",
            ])
            .arg("--message-format=json")
            .current_dir(&self.copy)
            .env("CARGO_TARGET_DIR", &self.built)
            .env("CARGO_INCREMENTAL", "1")
            .env("CARGO_PROFILE_DEV_DEBUG", "0")
            // Some cases draw thousands of samples: a little optimisation saves more than it costs.
            .env("CARGO_PROFILE_DEV_OPT_LEVEL", "1")
            .env_remove("RUSTC_WRAPPER")
            .output()
            .map_err(cannot_start)?;
        if !done.status.success() {
            return Ok(None);
        }
        String::from_utf8_lossy(&done.stdout)
            .lines()
            .filter_map(|line| serde_json::from_str::<serde_json::Value>(line).ok())
            .find_map(|message| {
                let is_cases = message.get("target")?.get("name")?.as_str()? == "cases";
                is_cases.then(|| message.get("executable")?.as_str().map(PathBuf::from))?
            })
            .map(Some)
            .ok_or_else(|| "cargo built the cases but did not say where".to_owned())
    }

    fn cases(&self, program: &Path) -> Command {
        let home = self.copy.join("crates/reckon");
        let mut command = Command::new(program);
        command
            .env("CARGO_MANIFEST_DIR", &home)
            .env("RUST_BACKTRACE", "0")
            .current_dir(home)
            .stdin(Stdio::null());
        command
    }

    fn verdict(&self, program: &Path) -> Result<Outcome, String> {
        let mut running = self
            .cases(program)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .map_err(cannot_start)?;
        Ok(if passes_within(&mut running, self.limit)? {
            Outcome::Survived
        } else {
            Outcome::Caught
        })
    }
}

fn passes_within(running: &mut Child, limit: Duration) -> Result<bool, String> {
    let started = Instant::now();
    while started.elapsed() < limit {
        if let Some(status) = running.try_wait().map_err(|error| error.to_string())? {
            return Ok(status.success());
        }
        std::thread::sleep(Duration::from_millis(20));
    }
    running.kill().map_err(|error| error.to_string())?;
    running.wait().map_err(|error| error.to_string())?;
    Ok(false)
}

fn cannot_start(error: std::io::Error) -> String {
    format!("a program could not be started: {error}")
}

fn copy(tree: &Tree, place: &Path) -> Result<(), String> {
    if place.exists() {
        fs::remove_dir_all(place)
            .map_err(|error| format!("cannot clear {}: {error}", place.display()))?;
    }
    for path in tree.paths() {
        let to = place.join(path);
        let folder = to.parent().unwrap_or(place);
        fs::create_dir_all(folder)
            .and_then(|()| fs::copy(tree.root().join(path), &to))
            .map_err(|error| format!("cannot copy {path}: {error}"))?;
    }
    Ok(())
}
