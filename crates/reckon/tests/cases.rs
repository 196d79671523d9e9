//! Walks `cases/` and runs every case of a leaf: each must read, agree, and no leaf may go without.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use reckon::catalogue::LEAVES;
use reckon::validation::{Case, run, validation_markdown};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases")
}

/// Every `.md` file below a folder but those that other tests read: quantities, verdicts, machine books.
fn texts(folder: &Path) -> BTreeMap<PathBuf, String> {
    let mut found = BTreeMap::new();
    for entry in std::fs::read_dir(folder).expect("cases/ can be read") {
        let path = entry.expect("an entry of cases/ can be read").path();
        if path.is_dir()
            && !["quantity", "handover", "book"]
                .iter()
                .any(|own| path.ends_with(own))
        {
            found.append(&mut texts(&path));
        } else if path.extension().is_some_and(|ending| ending == "md") {
            let text = std::fs::read_to_string(&path).expect("a case can be read");
            found.insert(path, text);
        }
    }
    found
}

fn cases() -> BTreeMap<PathBuf, Case> {
    let mut faults = Vec::new();
    let mut cases = BTreeMap::new();
    for (path, text) in texts(&folder()) {
        match Case::read(&text) {
            Some(Ok(case)) => _ = cases.insert(path, case),
            Some(Err(fault)) => faults.push(format!("{}: {fault}", path.display())),
            // In a folder of our jobs, what opens like a case must be one; other jobs have tests of their own.
            None if text.starts_with("+++") && of_our_jobs(&path) => {
                faults.push(format!("{}: names no leaf", path.display()));
            }
            None => {}
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    cases
}

fn of_our_jobs(path: &Path) -> bool {
    let folder = path.parent().and_then(Path::file_name);
    LEAVES
        .iter()
        .any(|leaf| folder.is_some_and(|folder| folder == leaf.job()))
}

#[test]
fn every_case_agrees() {
    let mut faults = Vec::new();
    for (path, case) in cases() {
        for failure in run(&case).failures {
            faults.push(format!("{} ({}): {failure}", path.display(), case.leaf));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn every_leaf_has_cases_with_values() {
    let cases = cases();
    for leaf in LEAVES {
        let with_values = cases
            .values()
            .filter(|case| case.leaf == leaf.id && run(case).worst_relative.is_some())
            .count();
        assert!(
            with_values > 0,
            "{} has no case that expects a value",
            leaf.id
        );
    }
}

#[test]
fn a_case_lies_in_the_folder_of_its_job_and_has_a_name_of_its_own() {
    let mut names = BTreeMap::new();
    for (path, case) in cases() {
        let job = case.leaf.split('.').next().unwrap_or_default();
        let right = path
            .components()
            .any(|part| part.as_os_str() == job || part.as_os_str() == "walkround");
        assert!(right, "{} belongs into cases/{job}", path.display());
        let before = names.insert(case.name.clone(), path.clone());
        assert!(
            before.is_none(),
            "{} has the name of {before:?}",
            path.display()
        );
    }
}

#[test]
fn the_report_counts_them_all() {
    let cases: Vec<Case> = cases().into_values().collect();
    let report = validation_markdown(&cases);
    assert!(report.contains(&format!(
        "{} cases for {} formulas; 0 cases fail, 0 formulas",
        cases.len(),
        LEAVES.len()
    )));
    assert_eq!(
        report
            .lines()
            .filter(|line| line.starts_with("- **"))
            .count(),
        cases.len()
    );
    let backwards: Vec<Case> = cases.into_iter().rev().collect();
    assert_eq!(report, validation_markdown(&backwards));
}
