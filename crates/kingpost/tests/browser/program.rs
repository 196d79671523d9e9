//! The program itself, as somebody at the yard's computer starts and stops it.

#[path = "../running/mod.rs"]
mod running;

use running::Running;
use std::{
    path::{Path, PathBuf},
    process::{Command, Output},
};
use tempfile::TempDir;

/// The program as built for this test.
const PROGRAM: &str = env!("CARGO_BIN_EXE_kingpost");

/// A folder of its own for the yards and backups of one test; gone when the test ends.
pub struct Folder(TempDir);

impl Folder {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// A place in it that does not exist yet.
    pub fn at(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }
}

fn command(data: &Path) -> Command {
    let mut command = Command::new(PROGRAM);
    // The yard's clock shows Greenwich time, so that the test's days are the same everywhere.
    command
        .arg("--data")
        .arg(data)
        .env("TZ", "UTC")
        .env_remove("KINGPOST_DATA");
    command
}

/// Runs one command to its end.
pub fn run(data: &Path, args: &[&str]) -> Output {
    command(data).args(args).output().unwrap()
}

/// A running server; it ends with this value.
pub struct Server {
    running: Running,
    /// Address before the paths, as printed.
    pub address: String,
    /// The yard's part of each address.
    pub tag: String,
    /// Everybody's PIN in the demo yard.
    pub pin: String,
    /// Address of the trust page, over plain HTTP; empty without HTTPS.
    pub trust: String,
}

impl Server {
    /// Starts the server on a free port and waits for the line that says where it answers.
    pub fn start(data: &Path) -> Self {
        Self::start_at(data, 0)
    }

    /// Starts the server on this port: where it was before, say.
    pub fn start_at(data: &Path, port: u16) -> Self {
        Self::begin(data, port, &[])
    }

    /// [`Server::start`] with more arguments.
    pub fn start_with(data: &Path, more: &[&str]) -> Self {
        Self::begin(data, 0, more)
    }

    fn begin(data: &Path, port: u16, more: &[&str]) -> Self {
        let running = Running::start(&mut command(data), port, more);
        let text = |key: &str| running.text(key).to_owned();
        Self {
            address: text("address"),
            tag: text("tag"),
            pin: text("pin"),
            trust: running.told["https"]["trust"]
                .as_str()
                .unwrap_or_default()
                .to_owned(),
            running,
        }
    }

    /// The yard page's address.
    pub fn home(&self) -> String {
        format!("{}/y/{}", self.address, self.tag)
    }

    /// Its port.
    pub fn port(&self) -> u16 {
        let (_, port) = self.address.rsplit_once(':').unwrap();
        port.parse().unwrap()
    }

    /// Kills it without a word, as a power cut does to it.
    pub fn kill(self) {
        self.running.kill();
    }

    /// Asks it to end, and waits until it has: it must end well.
    pub fn stop(self) {
        self.running.stop();
    }
}
