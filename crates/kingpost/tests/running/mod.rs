//! The program serving, as a process of its own: on a free port, with what it said when it opened; gone when the test ends.
#![allow(clippy::unwrap_used, missing_docs, unreachable_pub, dead_code)]

use serde_json::Value;
use std::{
    io::{BufRead, BufReader, Read},
    process::{Child, Command, Stdio},
};

pub struct Running {
    pub child: Child,
    /// The line it opened with.
    pub told: Value,
}

impl Running {
    /// Starts it by `command`, whatever that has of its own, with `more` arguments; port 0 is any free one.
    pub fn start(command: &mut Command, port: u16, more: &[&str]) -> Self {
        let mut child = command
            .args(["serve", "--json", "--port", &port.to_string()])
            .args(more)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        let mut line = String::new();
        BufReader::new(child.stdout.as_mut().unwrap())
            .read_line(&mut line)
            .unwrap();
        if line.is_empty() {
            let mut said = String::new();
            let errors = child.stderr.as_mut().unwrap();
            errors.read_to_string(&mut said).unwrap();
            panic!("the server did not start: {said}");
        }
        Self {
            told: serde_json::from_str(&line).unwrap(),
            child,
        }
    }

    /// What it told under a key; empty where that is no text.
    pub fn text(&self, key: &str) -> &str {
        self.told[key].as_str().unwrap_or_default()
    }

    /// Kills it without a word, as a power cut does to it.
    pub fn kill(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }

    /// Asks it to end, as the system does at shutdown, and waits until it has: it must end well.
    pub fn stop(mut self) {
        let asked = Command::new("kill")
            .args(["-TERM", &self.child.id().to_string()])
            .status();
        assert!(asked.unwrap().success());
        let ended = self.child.wait().unwrap();
        assert!(ended.success(), "the server ended with {ended}");
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // Both fail where it has ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
