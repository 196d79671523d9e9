//! Checks cargo alone does not do: `cargo run -p xtask -- all`, or one of them by its name.

mod code;
mod deps;
mod finding;
mod floats;
mod generated;
mod leaves;
mod mutate;
mod names;
mod opening;
mod paths;
mod pure;
mod size;
mod tree;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use finding::Finding;
use tree::Tree;

/// A check takes the tree and gives what is wrong with it.
type Check = fn(&Tree) -> Vec<Finding>;

/// Every check, in the order they run.
const CHECKS: [(&str, Check); 7] = [
    ("deps", deps::check),
    ("pure", pure::check),
    ("opening", opening::check),
    ("names", names::check),
    ("leaves", leaves::check),
    ("floats", floats::check),
    ("generated", generated_check),
];

const USAGE: &str = "\
usage: cargo run -p xtask -- [--root FOLDER] COMMAND

  all         every check below, and the report on size
  deps        crates stand only on the layers below them
  pure        quantity, reckon and yard name no clock, file or network
  opening     every source file opens with a line saying its subject
  names       no name that says nothing, no stub
  leaves      every formula has a leaf, a line in the catalogue and a case
  floats      the float lint is whole and nobody steps round it
  generated   documents the program writes are fresh; --write makes them anew
  size        files over 400 net lines (a report)
  mutate      breaks each formula on purpose and counts what the cases notice;
              --only JOB.NAME,... for some formulas, --parts for what formulas
              are made of as well, --list for the mutants alone";

fn main() -> ExitCode {
    match run(std::env::args().skip(1).collect()) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::from(1),
        Err(problem) => {
            eprintln!("xtask: {problem}");
            ExitCode::from(2)
        }
    }
}

/// Runs one command; true where nothing is wrong.
fn run(mut arguments: Vec<String>) -> Result<bool, String> {
    let root = match arguments.first().map(String::as_str) {
        Some("--root") if arguments.len() > 1 => {
            PathBuf::from(arguments.drain(..2).nth(1).unwrap_or_default())
        }
        _ => project_around(&std::env::current_dir().map_err(|error| error.to_string())?)?,
    };
    let rest: Vec<&str> = arguments.iter().map(String::as_str).collect();
    let tree = Tree::open(&root)?;
    match rest.as_slice() {
        ["all"] => {
            let right = CHECKS.iter().fold(true, |right, (name, check)| {
                tell(name, &check(&tree)) && right
            });
            report_size(&tree);
            Ok(right)
        }
        ["size"] => {
            report_size(&tree);
            Ok(true)
        }
        ["generated", "--write"] => Ok(tell(
            "generated",
            &generated::write(&root, &generated::Kingpost::of(&root)),
        )),
        ["mutate", options @ ..] => mutate::run(&tree, options),
        [name] => match CHECKS.iter().find(|(known, _)| known == name) {
            Some((name, check)) => Ok(tell(name, &check(&tree))),
            None => Err(format!("no command '{name}'\n{USAGE}")),
        },
        _ => Err(USAGE.to_owned()),
    }
}

/// The project a folder lies in. Not asked of the compiler: a checkout may be moved, or built from a cache.
fn project_around(folder: &Path) -> Result<PathBuf, String> {
    folder
        .ancestors()
        .find(|above| above.join("xtask/Cargo.toml").is_file())
        .map(Path::to_owned)
        .ok_or_else(|| "not inside the project; say where it is with --root FOLDER".to_owned())
}

fn generated_check(tree: &Tree) -> Vec<Finding> {
    generated::check(tree, &generated::Kingpost::of(tree.root()))
}

/// Prints what a check found; true where it found nothing.
fn tell(name: &str, findings: &[Finding]) -> bool {
    for finding in findings {
        println!("{finding}");
    }
    match findings.len() {
        0 => println!("{name}: ok"),
        count => println!("{name}: {count} to mend"),
    }
    findings.is_empty()
}

fn report_size(tree: &Tree) {
    let long = size::report(tree);
    for (lines, path) in &long {
        println!("{path}: {lines} net lines");
    }
    println!(
        "size: {} over the mark (a report, not a failure)",
        long.len()
    );
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_project_is_found_from_within_and_not_from_outside() {
        let dir = tempfile::tempdir().unwrap();
        let within = dir.path().join("crates/yard/src");
        std::fs::create_dir_all(&within).unwrap();
        assert!(project_around(&within).is_err());
        std::fs::create_dir_all(dir.path().join("xtask")).unwrap();
        std::fs::write(dir.path().join("xtask/Cargo.toml"), "# Checks.\n").unwrap();
        assert_eq!(project_around(&within).unwrap(), dir.path());
    }
}
