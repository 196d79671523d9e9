//! Cases in Markdown: front matter in TOML between `+++`, prose after it. A file holds one case, or several in `[[case]]`.

use super::scene::Scene;
use std::{fs, path::Path};
use yard::handover::{Judgement, Reason};

/// One case: a scene, and what must come out.
#[derive(Clone, Debug)]
pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) file: String,
    pub(crate) change: Vec<String>,
    pub(crate) verdict: String,
    /// `rule` or `rule at point`, worst first, all of them.
    pub(crate) reasons: Vec<String>,
}

impl Case {
    pub(crate) fn scene(&self) -> Scene {
        let mut scene = Scene::fit();
        self.change.iter().for_each(|line| scene.change(line));
        scene
    }

    /// Checks verdict and reasons, in order.
    pub(crate) fn hold(&self) -> Judgement {
        let said = self.scene().judge();
        let reasons: Vec<String> = said.reasons.iter().map(in_words).collect();
        assert_eq!(
            (said.verdict.code(), &reasons),
            (self.verdict.as_str(), &self.reasons),
            "{} in {}",
            self.name,
            self.file
        );
        said
    }
}

/// A reason as the cases write it.
pub(crate) fn in_words(reason: &Reason) -> String {
    match &reason.point {
        Some(point) => format!("{} at {point}", reason.rule),
        None => reason.rule.to_owned(),
    }
}

/// Every case of `cases/handover`, by file and place.
pub(crate) fn cases() -> Vec<Case> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../cases/handover");
    let mut files: Vec<_> = fs::read_dir(&folder)
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    files.sort();
    files
        .iter()
        .filter(|file| file.extension().is_some_and(|end| end == "md"))
        .flat_map(|file| read(file))
        .collect()
}

fn read(file: &Path) -> Vec<Case> {
    let text = fs::read_to_string(file).unwrap();
    let name = file.file_stem().unwrap().to_str().unwrap().to_owned();
    let matter = text
        .strip_prefix("+++\n")
        .and_then(|rest| rest.split_once("\n+++\n"));
    let (matter, prose) = matter.unwrap_or_else(|| panic!("{name}: front matter between +++"));
    assert!(
        prose.trim_start().starts_with("# "),
        "{name}: a heading, then why it matters"
    );
    let table: toml::Table = matter
        .parse()
        .unwrap_or_else(|error| panic!("{name}: {error}"));
    let one = |table: &toml::Table, name: String| Case {
        name,
        file: file.file_name().unwrap().to_str().unwrap().to_owned(),
        change: texts(table, "change"),
        verdict: table["verdict"].as_str().unwrap().to_owned(),
        reasons: texts(table, "reasons"),
    };
    match table.get("case") {
        Some(several) => several
            .as_array()
            .unwrap()
            .iter()
            .map(|case| case.as_table().unwrap())
            .map(|case| one(case, case["name"].as_str().unwrap().to_owned()))
            .collect(),
        None => vec![one(&table, name)],
    }
}

fn texts(table: &toml::Table, key: &str) -> Vec<String> {
    let list = table[key].as_array().unwrap();
    list.iter()
        .map(|text| text.as_str().unwrap().to_owned())
        .collect()
}
