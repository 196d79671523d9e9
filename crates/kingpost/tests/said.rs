//! What the main commands say of the demo yard, at a fixed time.
#![allow(clippy::unwrap_used)]

use std::{path::PathBuf, sync::Arc};
use tempfile::TempDir;
use yard::world::StillWorld;

struct Yard {
    _dir: TempDir,
    data: PathBuf,
    world: Arc<StillWorld>,
}

impl Yard {
    fn made() -> Self {
        let dir = TempDir::new().unwrap();
        let data = dir.path().join("yard");
        let world = Arc::new(StillWorld::at("2026-05-15T06:30:00Z".parse().unwrap()));
        let yard = Self {
            _dir: dir,
            data,
            world,
        };
        yard.says(&["yard", "demo"]);
        yard
    }

    /// What is printed, the folder's own name left out, with the exit code in front.
    fn says(&self, arguments: &[&str]) -> String {
        let data = self.data.to_str().unwrap();
        let all = ["kingpost", "--data", data]
            .into_iter()
            .chain(arguments.iter().copied());
        let printed = kingpost::answer(all.map(Into::into), self.world.clone());
        format!("{}\n{}{}", printed.code, printed.out, printed.err).replace(data, "DATA")
    }
}

#[test]
fn the_main_commands_say_this() {
    let yard = Yard::made();
    let asked: [(&str, &[&str]); 8] = [
        (
            "verdict",
            &["handover", "verdict", "marigold", "--by", "Tamsin"],
        ),
        (
            "verdict_json",
            &["handover", "verdict", "marigold", "--by", "Jory", "--json"],
        ),
        ("plan", &["walkround", "plan", "marigold", "--by", "Ines"]),
        ("due", &["upkeep", "due", "marigold"]),
        ("hours", &["upkeep", "hours", "marigold"]),
        ("journal", &["journal", "list", "--last", "30"]),
        ("people", &["people", "list"]),
        ("help", &["--help"]),
    ];
    for (name, arguments) in asked {
        insta::assert_snapshot!(name, yard.says(arguments));
    }
}
