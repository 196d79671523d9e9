//! Every source file opens with one line saying its subject.

use crate::finding::Finding;
use crate::tree::Tree;

/// How a file of each kind may open; what has no row (JSON, lock files, snapshots) need not.
const OPENINGS: [(&str, &[&str], &str); 16] = [
    (".rs", &["//!"], "//! What this file is about."),
    (".toml", &["#"], "# What this file is about."),
    (".sh", &["#"], "# What this file is about."),
    (".py", &["#", "\"\"\""], "# What this file is about."),
    (".yml", &["#"], "# What this file is about."),
    (".yaml", &["#"], "# What this file is about."),
    (".ftl", &["#"], "# What this file is about."),
    (".md", &["# "], "# Its title, or front matter"),
    (".html", &["{#", "<!--"], "{# What this file is about. #}"),
    (".xml", &["{#", "<!--"], "{# What this file is about. #}"),
    (".svg", &["{#", "<!--"], "<!-- What this file is about. -->"),
    (".css", &["/*"], "/* What this file is about. */"),
    (".js", &["//", "/*"], "// What this file is about."),
    (".mjs", &["//", "/*"], "// What this file is about."),
    (".typ", &["//", "/*"], "// What this file is about."),
    (".sql", &["--"], "-- What this file is about."),
];

/// What a program made: pictures for the guide, and stored yards of released versions, which never change again.
const MADE: [&str; 2] = ["docs/pictures/", "crates/store/tests/yards/"];

/// Front matter opens a page too, and a first line may belong to the machine that reads the file.
const FRONT_MATTER: [&str; 2] = ["+++", "---"];
const FOR_THE_MACHINE: [&str; 2] = ["#!/", "#:schema"];

/// Looks at the first line of every file of a kind that has an opening.
pub(crate) fn check(tree: &Tree) -> Vec<Finding> {
    tree.texts()
        .filter(|(path, _)| !MADE.iter().any(|folder| path.starts_with(folder)))
        .filter_map(|(path, text)| finding(path, text))
        .collect()
}

fn finding(path: &str, text: &str) -> Option<Finding> {
    let ending = if path.contains('.') || !text.starts_with("#!/") {
        path
    } else {
        ".sh"
    };
    let (_, marks, example) = OPENINGS
        .iter()
        .find(|(kind, _, _)| ending.ends_with(kind))?;
    let mut lines = text.lines().enumerate();
    let (index, first) = lines
        .find(|(_, line)| !FOR_THE_MACHINE.iter().any(|mark| line.starts_with(mark)))
        .unwrap_or_default();
    let front_matter = path.ends_with(".md") && FRONT_MATTER.contains(&first.trim_end());
    let says = marks
        .iter()
        .any(|mark| first.strip_prefix(mark).is_some_and(has_words));
    (!front_matter && !says).then(|| {
        let what = format!("opens with no line saying its subject; right would be: {example}");
        Finding::on_line(path, index + 1, what)
    })
}

fn has_words(rest: &str) -> bool {
    rest.chars().filter(|letter| letter.is_alphabetic()).count() >= 3
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_that_open_with_their_line_pass() {
        let tree = Tree::of(&[
            ("a.rs", "//! The yard.\n"),
            ("a.toml", "# The workspace.\n[workspace]\n"),
            (
                "check",
                "#!/usr/bin/env bash\n# Everything that must hold.\n",
            ),
            (
                "a.py",
                "#!/usr/bin/env python3\n\"\"\"The arm, another way.\"\"\"\n",
            ),
            ("a.ftl", "### Words of the round.\n"),
            ("case.md", "+++\nleaf = \"x\"\n+++\n"),
            ("a.md", "# The round\n"),
            ("a.html", "{# The yard's page. #}\n"),
            ("a.css", "/* The look. */\n"),
            ("a.js", "// Keeps answers while offline.\n"),
            ("a.json", "{}"),
            ("Cargo.lock", "version = 4"),
        ]);
        assert_eq!(check(&tree), []);
    }

    #[test]
    fn each_kind_that_does_not_is_found() {
        for (path, text) in [
            ("a.rs", "// The yard.\n"),
            ("a.rs", "use std::fmt;\n"),
            ("a.rs", "//!\n"),
            ("a.rs", ""),
            ("a.toml", "[package]\n"),
            ("check", "#!/usr/bin/env bash\nset -e\n"),
            ("a.ftl", "yard = Yard\n"),
            ("a.md", "Some text\n"),
            ("a.html", "<!doctype html>\n"),
            ("a.css", "body {}\n"),
            ("a.js", "let a;\n"),
            ("a.sql", "CREATE TABLE a;\n"),
        ] {
            let tree = Tree::of(&[(path, text)]);
            assert_eq!(check(&tree).len(), 1, "{path}: {text:?}");
        }
    }
}
