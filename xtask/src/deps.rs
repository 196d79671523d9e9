//! Dependency direction: who may stand on whom, from the manifests of the crates.

use crate::finding::Finding;
use crate::tree::Tree;

/// The layers from the bottom up, and what each may stand on. Arrows point down only.
const LAYERS: [(&str, &[&str]); 9] = [
    ("quantity", &[]),
    ("reckon", &["quantity"]),
    ("yard", &["quantity", "reckon"]),
    ("store", &["quantity", "yard"]),
    ("words", &["quantity", "reckon", "yard"]),
    ("papers", &["quantity", "reckon", "yard", "words"]),
    (
        "server",
        &["quantity", "reckon", "yard", "store", "words", "papers"],
    ),
    (
        "kingpost",
        &[
            "quantity", "reckon", "yard", "store", "words", "papers", "server",
        ],
    ),
    ("xtask", &[]),
];

/// What the pure crates may take from outside: numbers, texts and values, nothing that reaches a clock, a file or a network.
const PURE: [(&str, &[&str]); 3] = [
    ("quantity", &PURE_PARTS),
    ("reckon", &PURE_PARTS),
    ("yard", &PURE_PARTS),
];

const PURE_PARTS: [&str; 15] = [
    "hex",
    "jiff",
    "libm",
    "num-bigint",
    "num-rational",
    "num-traits",
    "rand_chacha",
    "schemars",
    "serde",
    "serde_json",
    "sha2",
    "strsim",
    "toml",
    "uuid",
    "winnow",
];

/// Reads every manifest under `crates/` and `xtask/` and holds it against the two tables.
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    let mut findings = Vec::new();
    let manifests: Vec<_> = tree
        .texts_in("", "Cargo.toml")
        .filter(|(path, _)| path.starts_with("crates/") || path.starts_with("xtask/"))
        .collect();
    if manifests.is_empty() {
        findings.push(Finding::at(
            "crates",
            "no manifest found: nothing was checked",
        ));
    }
    for (path, text) in manifests {
        match text.parse::<toml::Table>() {
            Ok(manifest) => manifest_findings(path, text, &manifest, &mut findings),
            Err(error) => {
                findings.push(Finding::at(path, format!("not TOML: {}", error.message())))
            }
        }
    }
    findings
}

fn manifest_findings(path: &str, text: &str, manifest: &toml::Table, findings: &mut Vec<Finding>) {
    let name = manifest
        .get("package")
        .and_then(|package| package.get("name"))
        .and_then(toml::Value::as_str)
        .unwrap_or_default();
    let Some((_, allowed)) = LAYERS.iter().find(|(layer, _)| *layer == name) else {
        findings.push(Finding::at(
            path,
            format!("the crate '{name}' is no layer; give it its place in xtask/src/deps.rs"),
        ));
        return;
    };
    let outside = PURE
        .iter()
        .find(|(pure, _)| *pure == name)
        .map(|(_, parts)| *parts);
    for need in needs(manifest) {
        let ours = LAYERS.iter().any(|(layer, _)| *layer == need.on);
        let what = if ours && !allowed.contains(&need.on.as_str()) {
            format!(
                "'{name}' may not stand on '{}': arrows point down only",
                need.on
            )
        } else if let Some(parts) = outside
            && !ours
            && !need.for_tests
            && !parts.contains(&need.on.as_str())
        {
            format!(
                "'{name}' is pure and may not take '{}'; what has no clock, file or network may be added in xtask/src/deps.rs",
                need.on
            )
        } else {
            continue;
        };
        findings.push(Finding {
            path: path.to_owned(),
            line: line_naming(text, &need.key),
            what,
        });
    }
}

/// One dependency: the crate it is on, and the key it is written under.
struct Need {
    on: String,
    key: String,
    for_tests: bool,
}

/// The dependencies of every kind, those of single platforms too.
fn needs(manifest: &toml::Table) -> Vec<Need> {
    let platforms = manifest
        .get("target")
        .and_then(toml::Value::as_table)
        .into_iter()
        .flat_map(|targets| targets.values())
        .filter_map(toml::Value::as_table);
    std::iter::once(manifest)
        .chain(platforms)
        .flat_map(needs_of_one)
        .collect()
}

fn needs_of_one(table: &toml::Table) -> Vec<Need> {
    let mut found = Vec::new();
    for kind in ["dependencies", "build-dependencies", "dev-dependencies"] {
        let Some(listed) = table.get(kind).and_then(toml::Value::as_table) else {
            continue;
        };
        for (key, value) in listed {
            // A renamed crate is what it is, not what it is called here.
            let real = value.get("package").and_then(toml::Value::as_str);
            found.push(Need {
                on: real.unwrap_or(key).to_owned(),
                key: key.clone(),
                for_tests: kind == "dev-dependencies",
            });
        }
    }
    found
}

fn line_naming(text: &str, key: &str) -> Option<usize> {
    text.lines()
        .position(|line| {
            line.trim_start()
                .trim_start_matches('"')
                .strip_prefix(key)
                .is_some_and(|rest| rest.starts_with([' ', '.', '=', '"']))
        })
        .map(|index| index + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(manifest: &str) -> Vec<String> {
        let tree = Tree::of(&[("crates/x/Cargo.toml", manifest)]);
        check(&tree).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn arrows_that_point_down_pass() {
        let manifest = "[package]\nname = \"words\"\n[dependencies]\nquantity.workspace = true\nyard = { path = \"../yard\" }\nfluent-bundle = \"0.16\"\n";
        assert_eq!(found(manifest), Vec::<String>::new());
    }

    #[test]
    fn an_arrow_that_points_up_is_found_with_its_line() {
        let manifest = "[package]\nname = \"reckon\"\n[dependencies]\nquantity.workspace = true\nyard.workspace = true\n";
        let all = found(manifest);
        assert_eq!(all.len(), 1, "{all:?}");
        assert!(all[0].starts_with("crates/x/Cargo.toml:5: 'reckon' may not stand on 'yard'"));
    }

    #[test]
    fn upward_arrows_hidden_in_tests_platforms_and_new_names_are_found() {
        for manifest in [
            "[package]\nname = \"yard\"\n[dev-dependencies]\nstore.workspace = true\n",
            "[package]\nname = \"yard\"\n[target.'cfg(unix)'.dependencies]\nstore.workspace = true\n",
            "[package]\nname = \"yard\"\n[build-dependencies]\nkept = { package = \"store\", path = \"../store\" }\n",
        ] {
            assert_eq!(found(manifest).len(), 1, "{manifest}");
        }
    }

    #[test]
    fn a_pure_crate_may_not_reach_out_except_in_its_tests() {
        let reaching =
            "[package]\nname = \"yard\"\n[dependencies]\ntokio = \"1\"\nlibm = \"0.2\"\n";
        assert_eq!(found(reaching).len(), 1);
        assert!(found(reaching)[0].contains("'tokio'"));
        let tests_only = "[package]\nname = \"yard\"\n[dev-dependencies]\nproptest = \"1\"\n";
        assert_eq!(found(tests_only), Vec::<String>::new());
    }

    #[test]
    fn an_unknown_crate_and_a_tree_without_manifests_are_found() {
        assert_eq!(found("[package]\nname = \"extra\"\n").len(), 1);
        assert_eq!(found("[package\n").len(), 1);
        assert_eq!(check(&Tree::of(&[("README.md", "# A")])).len(), 1);
    }
}
