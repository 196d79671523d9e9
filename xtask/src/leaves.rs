//! Every formula has its leaf, its line in the catalogue, and a case against the world.

use std::collections::BTreeSet;

use crate::code::program;
use crate::finding::Finding;
use crate::paths::paths_named;
use crate::tree::Tree;

const FORMULAS: &str = "crates/reckon/src/";
const CATALOGUE: &str = "crates/reckon/src/catalogue.rs";
const CASES: &str = "cases/";

/// One formula file: `crates/reckon/src/<job>/<stem>.rs`, or one that declares a leaf in a folder below the job's.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Formula {
    /// The job's folder.
    pub(crate) job: String,
    /// The file's name without its ending.
    pub(crate) stem: String,
    /// The whole path from the root.
    pub(crate) path: String,
}

impl Formula {
    /// The name cases and commands use: `job.stem`, whatever folders lie between.
    pub(crate) fn name(&self) -> String {
        format!("{}.{}", self.job, self.stem)
    }

    /// How the catalogue names it: the folder it lies in, and its own name.
    fn listing(&self) -> String {
        let folder = self.path.rsplit('/').nth(1).unwrap_or(&self.job);
        format!("{folder}::{}", self.stem)
    }
}

/// The formula files of a tree, in order; `mod.rs` lists its folder and is no formula.
///
/// Right in a job's folder every file is one. In the folders below it lie the parts formulas are made of, too: there a file
/// is a formula where it declares a leaf.
pub(crate) fn formulas(tree: &Tree) -> Vec<Formula> {
    sources(tree)
        .filter(|(formula, text)| !is_nested(formula) || declares_leaf(&program(text)))
        .map(|(formula, _)| formula)
        .collect()
}

/// The parts formulas are made of: files in the folders below a job's that declare no leaf.
pub(crate) fn parts(tree: &Tree) -> Vec<Formula> {
    sources(tree)
        .filter(|(part, text)| is_nested(part) && !declares_leaf(&program(text)))
        .map(|(part, _)| part)
        .collect()
}

fn sources(tree: &Tree) -> impl Iterator<Item = (Formula, &str)> {
    tree.texts_in(FORMULAS, ".rs").filter_map(|(path, text)| {
        let (job, below) = path.strip_prefix(FORMULAS)?.split_once('/')?;
        let stem = below.rsplit('/').next()?.strip_suffix(".rs")?;
        let formula = Formula {
            job: job.to_owned(),
            stem: stem.to_owned(),
            path: path.to_owned(),
        };
        (stem != "mod" && stem != "tests").then_some((formula, text))
    })
}

fn is_nested(formula: &Formula) -> bool {
    let below = formula.path.strip_prefix(FORMULAS).unwrap_or_default();
    below.matches('/').count() > 1
}

/// Compares folder, leaves, catalogue and cases.
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    let formulas = formulas(tree);
    let mut findings = Vec::new();
    if formulas.is_empty() {
        findings.push(Finding::at(
            FORMULAS,
            "no formula found: nothing was checked",
        ));
    }
    let listed = listed(tree);
    let (cased, mut bad_cases) = cased(tree, &formulas);
    for formula in &formulas {
        let declared = tree
            .text(&formula.path)
            .is_some_and(|text| declares_leaf(&program(text)));
        if !declared {
            findings.push(Finding::at(
                &formula.path,
                "declares no leaf: leaf! { ... }",
            ));
        }
        if !listed.contains(&formula.listing()) {
            let what = format!("is not listed in {CATALOGUE} as {}", formula.listing());
            findings.push(Finding::at(&formula.path, what));
        }
        if !cased.contains(&formula.name()) {
            let what = format!(
                "has no case: a file in {CASES} whose front matter says leaf = \"{}\"",
                formula.name()
            );
            findings.push(Finding::at(&formula.path, what));
        }
    }
    findings.append(&mut bad_cases);
    findings
}

fn declares_leaf(code: &str) -> bool {
    ["leaf!", "static LEAF", "const LEAF"]
        .iter()
        .any(|mark| code.contains(mark))
}

/// The `folder::stem` pairs the catalogue names.
fn listed(tree: &Tree) -> BTreeSet<String> {
    let code = tree.text(CATALOGUE).map(program).unwrap_or_default();
    paths_named(&code)
        .iter()
        .flat_map(|(_, path)| {
            let parts: Vec<_> = path.split("::").collect();
            let pairs: Vec<_> = parts.windows(2).map(|pair| pair.join("::")).collect();
            pairs
        })
        .collect()
}

/// The leaves the cases speak of, and what is wrong with the cases' front matter.
fn cased(tree: &Tree, formulas: &[Formula]) -> (BTreeSet<String>, Vec<Finding>) {
    let known: BTreeSet<_> = formulas.iter().map(Formula::name).collect();
    let (mut found, mut findings) = (BTreeSet::new(), Vec::new());
    for (path, text) in tree.texts_in(CASES, ".md") {
        let Some(matter) = front_matter(text) else {
            continue;
        };
        match matter.parse::<toml::Table>() {
            Err(error) => findings.push(Finding::at(
                path,
                format!("front matter is not TOML: {}", error.message()),
            )),
            Ok(table) => {
                for leaf in leaves_of(&table) {
                    if !known.contains(leaf) {
                        findings.push(Finding::at(
                            path,
                            format!("speaks of the leaf '{leaf}', which no formula has"),
                        ));
                    }
                    found.insert(leaf.to_owned());
                }
            }
        }
    }
    (found, findings)
}

fn leaves_of(table: &toml::Table) -> Vec<&str> {
    match table.get("leaf") {
        Some(toml::Value::Array(several)) => {
            several.iter().filter_map(toml::Value::as_str).collect()
        }
        Some(one) => one.as_str().into_iter().collect(),
        None => Vec::new(),
    }
}

fn front_matter(text: &str) -> Option<&str> {
    let rest = text.strip_prefix("+++\n")?;
    rest.find("\n+++").map(|end| &rest[..end])
}

#[cfg(test)]
mod tests {
    use super::*;

    const FORMULA: (&str, &str) = (
        "crates/reckon/src/ground/wedge.rs",
        "//! A wedge.\nleaf! { name: \"wedge\" }\n",
    );
    const MODULE: (&str, &str) = (
        "crates/reckon/src/ground/mod.rs",
        "//! Ground.\npub mod wedge;\n",
    );
    const LISTED: (&str, &str) = (
        CATALOGUE,
        "//! All.\npub static ALL: [&Leaf; 1] = [&crate::ground::wedge::LEAF];\n",
    );
    const CASE: (&str, &str) = (
        "cases/ground/wedge.md",
        "+++\nleaf = \"ground.wedge\"\n+++\n# A\n",
    );

    fn found(files: &[(&str, &str)]) -> Vec<String> {
        check(&Tree::of(files))
            .iter()
            .map(ToString::to_string)
            .collect()
    }

    #[test]
    fn a_formula_with_leaf_line_and_case_passes() {
        assert_eq!(
            found(&[FORMULA, MODULE, LISTED, CASE]),
            Vec::<String>::new()
        );
    }

    #[test]
    fn a_catalogue_that_names_its_leaves_by_use_counts() {
        let by_use = (CATALOGUE, "use crate::{arm, ground::{trench, wedge}};\n");
        assert_eq!(
            found(&[FORMULA, MODULE, by_use, CASE]),
            Vec::<String>::new()
        );
    }

    #[test]
    fn below_a_job_a_file_is_a_formula_only_where_it_declares_a_leaf() {
        let part = (
            "crates/reckon/src/ground/cut/edge.rs",
            "//! An edge.\nfn edge() {}\n",
        );
        let deep = (
            "crates/reckon/src/ground/cut/slope.rs",
            "//! A slope.\nleaf! { name: \"slope\" }\n",
        );
        let listed = (
            CATALOGUE,
            "//! All.\nstatic ALL: [&Leaf; 2] = [&ground::cut::slope::LEAF, &ground::wedge::LEAF];\n",
        );
        let case = (
            "cases/ground/slope.md",
            "+++\nleaf = \"ground.slope\"\n+++\n# B\n",
        );
        let whole = [FORMULA, MODULE, part, deep, listed, CASE, case];
        assert_eq!(found(&whole), Vec::<String>::new());
        assert_eq!(found(&[FORMULA, MODULE, deep, LISTED, CASE]).len(), 2);
        let tree = Tree::of(&whole);
        let names = |of: Vec<Formula>| of.iter().map(Formula::name).collect::<Vec<_>>();
        assert_eq!(names(formulas(&tree)), ["ground.slope", "ground.wedge"]);
        assert_eq!(names(parts(&tree)), ["ground.edge"]);
    }

    #[test]
    fn a_formula_with_no_leaf_no_line_or_no_case_is_found() {
        let bare = (
            FORMULA.0,
            "//! A wedge, without its leaf! Just a comment.\nfn wedge() {}\n",
        );
        assert_eq!(found(&[bare, MODULE, LISTED, CASE]).len(), 1);
        let empty = (CATALOGUE, "//! ground::wedge is missing.\n");
        assert_eq!(found(&[FORMULA, MODULE, empty, CASE]).len(), 1);
        let without_case = found(&[FORMULA, MODULE, LISTED]);
        assert_eq!(without_case.len(), 1);
        assert!(
            without_case[0].contains("has no case") && without_case[0].contains("ground.wedge")
        );
    }

    #[test]
    fn a_case_for_no_formula_and_a_case_that_does_not_read_are_found() {
        let stray = (
            "cases/ground/other.md",
            "+++\nleaf = \"ground.other\"\n+++\n",
        );
        assert_eq!(found(&[FORMULA, MODULE, LISTED, CASE, stray]).len(), 1);
        let unread = ("cases/ground/wedge.md", "+++\nleaf = ground\n+++\n");
        assert_eq!(found(&[FORMULA, MODULE, LISTED, unread]).len(), 2);
    }

    #[test]
    fn no_formula_at_all_is_found() {
        assert_eq!(found(&[LISTED]).len(), 1);
    }
}
