//! The float lint: it names every platform float function, applies everywhere, and nobody steps round it.

use crate::code::code_only;
use crate::finding::Finding;
use crate::paths::{path_under, paths_named};
use crate::tree::Tree;

/// Functions whose last digits differ between machines. Roots and rounding are exact by IEEE 754.
const PLATFORM: [&str; 27] = [
    "sin", "cos", "tan", "sin_cos", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh",
    "asinh", "acosh", "atanh", "exp", "exp2", "exp_m1", "ln", "ln_1p", "log", "log2", "log10",
    "powf", "powi", "cbrt", "hypot", "mul_add",
];

/// Traits that reach the same functions by another way, unseen by the lint.
const BY_ANOTHER_WAY: [&str; 3] = [
    "num_traits::Float",
    "num_traits::real",
    "num_traits::float::Float",
];

/// Holds `clippy.toml`, the manifests and the sources against the promise "same input, same digits".
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = list_findings(tree);
    manifest_findings(tree, &mut findings);
    for (path, text) in tree.texts_in("", ".rs") {
        source_findings(path, text, &mut findings);
    }
    findings
}

fn list_findings(tree: &Tree) -> Vec<Finding> {
    let Some(text) = tree.text("clippy.toml") else {
        return vec![Finding::at(
            "clippy.toml",
            "is missing: it holds the float lint",
        )];
    };
    let table = match text.parse::<toml::Table>() {
        Ok(table) => table,
        Err(error) => {
            return vec![Finding::at(
                "clippy.toml",
                format!("not TOML: {}", error.message()),
            )];
        }
    };
    let rows = table
        .get("disallowed-methods")
        .and_then(toml::Value::as_array);
    let rows: Vec<_> = rows.into_iter().flatten().collect();
    let mut findings = Vec::new();
    for kind in ["f64", "f32"] {
        for function in PLATFORM {
            let wanted = format!("{kind}::{function}");
            let field = |row: &toml::Value, name: &str| {
                row.get(name)
                    .and_then(toml::Value::as_str)
                    .map(str::to_owned)
            };
            match rows
                .iter()
                .find(|row| field(row, "path").as_deref() == Some(&wanted))
            {
                None => findings.push(Finding::at(
                    "clippy.toml",
                    format!("disallowed-methods lacks {wanted}"),
                )),
                Some(row)
                    if !field(row, "reason").is_some_and(|reason| reason.contains("libm::")) =>
                {
                    findings.push(Finding::at(
                        "clippy.toml",
                        format!("{wanted} does not name what libm has instead"),
                    ));
                }
                Some(_) => {}
            }
        }
    }
    findings
}

fn manifest_findings(tree: &Tree, findings: &mut Vec<Finding>) {
    let read = |path: &str| {
        tree.text(path)
            .and_then(|text| text.parse::<toml::Table>().ok())
    };
    let level = read("Cargo.toml").and_then(|root| {
        let lints = root.get("workspace")?.get("lints")?.get("clippy")?;
        lints.get("disallowed_methods")?.as_str().map(str::to_owned)
    });
    if !matches!(level.as_deref(), Some("warn" | "deny" | "forbid")) {
        findings.push(Finding::at(
            "Cargo.toml",
            "[workspace.lints.clippy] must set disallowed_methods to \"warn\" or \"deny\"",
        ));
    }
    for (path, _) in tree.texts_in("crates/", "/Cargo.toml") {
        let follows = read(path)
            .and_then(|manifest| manifest.get("lints")?.get("workspace")?.as_bool())
            .unwrap_or(false);
        if !follows {
            findings.push(Finding::at(
                path,
                "does not take the workspace's lints: [lints] workspace = true",
            ));
        }
    }
}

fn source_findings(path: &str, text: &str, findings: &mut Vec<Finding>) {
    let code = code_only(text);
    for (line, used) in paths_named(&code) {
        if path_under(&used, "clippy::disallowed_methods") {
            findings.push(Finding::on_line(
                path,
                line,
                "steps round the float lint; use libm",
            ));
        }
        if let Some(way) = BY_ANOTHER_WAY.iter().find(|way| path_under(&used, way)) {
            let what = format!(
                "{way} reaches the platform's float functions unseen by the lint; use libm"
            );
            findings.push(Finding::on_line(path, line, what));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROOT: &str = "[workspace.lints.clippy]\ndisallowed_methods = \"warn\"\n";
    const MEMBER: &str = "[package]\nname = \"reckon\"\n[lints]\nworkspace = true\n";

    fn list() -> String {
        let rows: Vec<_> = ["f64", "f32"]
            .iter()
            .flat_map(|kind| {
                PLATFORM.map(|name| {
                    format!("{{ path = \"{kind}::{name}\", reason = \"use libm::{name}\" }}")
                })
            })
            .collect();
        format!("disallowed-methods = [{}]\n", rows.join(", "))
    }

    fn found(list: &str, root: &str, member: &str, source: &str) -> Vec<String> {
        let tree = Tree::of(&[
            ("clippy.toml", list),
            ("Cargo.toml", root),
            ("crates/reckon/Cargo.toml", member),
            ("crates/reckon/src/lib.rs", source),
        ]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_full_list_followed_by_all_passes() {
        assert_eq!(
            found(&list(), ROOT, MEMBER, "let a = libm::sin(x).sqrt();"),
            Vec::<String>::new()
        );
    }

    #[test]
    fn a_gap_in_the_list_is_found() {
        let gap = list().replace(
            "{ path = \"f64::powi\", reason = \"use libm::powi\" }, ",
            "",
        );
        assert_eq!(
            found(&gap, ROOT, MEMBER, ""),
            ["clippy.toml: disallowed-methods lacks f64::powi"]
        );
        let unexplained = list().replace("\"use libm::sinh\"", "\"no\"");
        assert_eq!(found(&unexplained, ROOT, MEMBER, "").len(), 2);
    }

    #[test]
    fn a_crate_that_does_not_follow_and_a_lint_switched_off_are_found() {
        assert_eq!(
            found(&list(), ROOT, "[package]\nname = \"reckon\"\n", "").len(),
            1
        );
        assert_eq!(
            found(&list(), &ROOT.replace("warn", "allow"), MEMBER, "").len(),
            1
        );
        assert_eq!(found("", ROOT, MEMBER, "").len(), 2 * PLATFORM.len());
    }

    #[test]
    fn ways_round_the_lint_are_found() {
        for source in [
            "#[allow(clippy::disallowed_methods)]\nfn f() {}",
            "#![expect(clippy::disallowed_methods, reason = \"speed\")]",
            "use num_traits::Float;",
            "use num_traits::{One, Float};",
            "fn f() { num_traits::Float::sin(x) }",
        ] {
            assert_eq!(found(&list(), ROOT, MEMBER, source).len(), 1, "{source}");
        }
    }
}
