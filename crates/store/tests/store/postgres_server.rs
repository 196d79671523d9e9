//! A PostgreSQL of our own for the contract test, where one is installed.

use std::{
    path::{Path, PathBuf},
    process::Command,
};

/// A private cluster in a temporary folder, reached through a socket there; stopped and removed when dropped.
pub(crate) struct Server {
    /// How to reach it.
    pub(crate) url: String,
    dir: String,
    bin: PathBuf,
    as_postgres: bool,
}

impl Server {
    /// Starts one; none, with a line saying so, where PostgreSQL is not installed.
    pub(crate) fn start() -> Option<Self> {
        let Some(bin) = programs() else {
            eprintln!("skipped: no initdb and pg_ctl found, PostgreSQL is not installed");
            return None;
        };
        // The server refuses to run as root; then it runs as the user its package made.
        let as_postgres = said(Command::new("id").arg("-u")).trim() == "0";
        let mut server = Self {
            url: String::new(),
            dir: String::new(),
            bin,
            as_postgres,
        };
        server.dir = server
            .run("mktemp -d /tmp/kingpost-pg-XXXXXX")
            .trim()
            .to_owned();
        let (bin, dir) = (server.bin.display().to_string(), server.dir.clone());
        server.run(&format!("'{bin}/initdb' -D '{dir}/data' -A trust -U postgres --encoding UTF8 --locale C --no-sync"));
        let options = format!("-k {dir} -c listen_addresses=");
        server.run(&format!(
            "'{bin}/pg_ctl' -D '{dir}/data' -l '{dir}/log' -w -o '{options}' start"
        ));
        server.url = format!("host={dir} user=postgres dbname=postgres");
        Some(server)
    }

    fn run(&self, line: &str) -> String {
        said(&mut self.command(line))
    }

    fn command(&self, line: &str) -> Command {
        let mut command = Command::new(if self.as_postgres { "su" } else { "sh" });
        command.args(if self.as_postgres {
            vec!["postgres", "-s", "/bin/sh", "-c", line]
        } else {
            vec!["-c", line]
        });
        command.current_dir("/");
        command
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let stop = format!(
            "'{}/pg_ctl' -D '{dir}/data' -m immediate stop; rm -rf '{dir}'",
            self.bin.display(),
            dir = self.dir
        );
        let _ = self.command(&stop).output();
    }
}

fn said(command: &mut Command) -> String {
    let output = command.output().unwrap();
    assert!(
        output.status.success(),
        "{command:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

/// The folder with the server's programs: Debian keeps them out of the path.
fn programs() -> Option<PathBuf> {
    let has_both = |dir: &Path| {
        ["initdb", "pg_ctl"]
            .iter()
            .all(|name| dir.join(name).is_file())
    };
    let packaged = std::fs::read_dir("/usr/lib/postgresql")
        .into_iter()
        .flatten()
        .flatten()
        .map(|version| version.path().join("bin"));
    let path = std::env::var_os("PATH").unwrap_or_default();
    packaged
        .chain(std::env::split_paths(&path))
        .find(|dir| has_both(dir))
}
