//! The files of the project, read once, so that every check looks at the same tree.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Folders that hold what is built, never what is written.
const NOT_OURS: [&str; 3] = ["target", "node_modules", "data"];

/// Every file of the project with its text; `None` for what is not text (pictures, fonts).
#[derive(Debug)]
pub(crate) struct Tree {
    root: PathBuf,
    files: BTreeMap<String, Option<String>>,
}

impl Tree {
    /// Reads the tree under `root`: the files git knows or would add, or, outside git, every file that is not built.
    pub(crate) fn open(root: &Path) -> Result<Self, String> {
        let paths = if root.join(".git").exists() {
            listed_by_git(root)?
        } else {
            let mut found = Vec::new();
            walk(root, "", &mut found)?;
            found
        };
        let mut files = BTreeMap::new();
        for path in paths {
            let full = root.join(&path);
            // A file deleted but not yet committed is still in git's list.
            if full.is_file() {
                let bytes =
                    fs::read(&full).map_err(|error| format!("cannot read {path}: {error}"))?;
                files.insert(path, String::from_utf8(bytes).ok());
            }
        }
        if files.is_empty() {
            return Err(format!("no files under {}", root.display()));
        }
        Ok(Self {
            root: root.to_owned(),
            files,
        })
    }

    /// Where the tree lies on disk.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// All paths, in order, text or not.
    pub(crate) fn paths(&self) -> impl Iterator<Item = &str> {
        self.files.keys().map(String::as_str)
    }

    /// All text files, in order of path.
    pub(crate) fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.files
            .iter()
            .filter_map(|(path, text)| Some((path.as_str(), text.as_deref()?)))
    }

    /// The text of one file, where there is such a file and it is text.
    pub(crate) fn text(&self, path: &str) -> Option<&str> {
        self.files.get(path)?.as_deref()
    }

    /// The text files whose path begins with `folder` and ends with `ending`.
    pub(crate) fn texts_in<'a>(
        &'a self,
        folder: &'a str,
        ending: &'a str,
    ) -> impl Iterator<Item = (&'a str, &'a str)> {
        self.texts()
            .filter(move |(path, _)| path.starts_with(folder) && path.ends_with(ending))
    }

    /// A tree made up in memory, for tests of a check.
    #[cfg(test)]
    pub(crate) fn of(files: &[(&str, &str)]) -> Self {
        Self {
            root: PathBuf::from("/nowhere"),
            files: files
                .iter()
                .map(|(path, text)| ((*path).to_owned(), Some((*text).to_owned())))
                .collect(),
        }
    }
}

fn listed_by_git(root: &Path) -> Result<Vec<String>, String> {
    let listed = Command::new("git")
        .arg("-C")
        .arg(root)
        .args([
            "ls-files",
            "-z",
            "--cached",
            "--others",
            "--exclude-standard",
        ])
        .output()
        .map_err(|error| format!("cannot run git to list the files: {error}"))?;
    if !listed.status.success() {
        let said = String::from_utf8_lossy(&listed.stderr);
        return Err(format!("git could not list the files: {}", said.trim()));
    }
    Ok(String::from_utf8_lossy(&listed.stdout)
        .split('\0')
        .filter(|path| !path.is_empty())
        .map(str::to_owned)
        .collect())
}

fn walk(root: &Path, folder: &str, found: &mut Vec<String>) -> Result<(), String> {
    let here = root.join(folder);
    let entries =
        fs::read_dir(&here).map_err(|error| format!("cannot read {}: {error}", here.display()))?;
    for entry in entries {
        let entry = entry.map_err(|error| format!("cannot read {}: {error}", here.display()))?;
        let name = entry.file_name().to_string_lossy().into_owned();
        let path = if folder.is_empty() {
            name.clone()
        } else {
            format!("{folder}/{name}")
        };
        if entry.path().is_dir() {
            if !NOT_OURS.contains(&name.as_str()) && name != ".git" {
                walk(root, &path, found)?;
            }
        } else {
            found.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn outside_git_every_written_file_is_found_and_pictures_have_no_text() {
        let dir = tempfile::tempdir().unwrap();
        for (path, bytes) in [
            ("a.md", &b"# A\n"[..]),
            (".ci/run", b"#!/bin/sh\n"),
            ("docs/picture.png", b"\x89PNG\xff"),
            ("target/debug/built.rs", b"fn main() {}"),
        ] {
            let full = dir.path().join(path);
            fs::create_dir_all(full.parent().unwrap()).unwrap();
            fs::write(full, bytes).unwrap();
        }
        let tree = Tree::open(dir.path()).unwrap();
        let paths: Vec<_> = tree.paths().collect();
        assert_eq!(paths, [".ci/run", "a.md", "docs/picture.png"]);
        assert_eq!(tree.text("a.md"), Some("# A\n"));
        assert_eq!(tree.text("docs/picture.png"), None);
    }

    #[test]
    fn an_empty_folder_is_an_error_not_a_clean_tree() {
        let dir = tempfile::tempdir().unwrap();
        assert!(Tree::open(dir.path()).is_err());
    }
}
