//! Looking at a PDF as a printer and a reader would: size, text, pixels, square codes. By the tools of poppler and zbar.
#![allow(dead_code, clippy::unwrap_used, unreachable_pub)]

use std::{
    fs,
    path::{Path, PathBuf},
    process::Command,
};
use tempfile::TempDir;

/// A PDF on disk.
pub struct Printed {
    folder: TempDir,
    file: PathBuf,
}

fn run(program: &str, args: &[&str]) -> String {
    let said = Command::new(program).args(args).output();
    let said = said.unwrap_or_else(|e| panic!("{program}: {e}. ./check installs it"));
    assert!(
        said.status.success(),
        "{program} {args:?}: {}",
        String::from_utf8_lossy(&said.stderr)
    );
    String::from_utf8_lossy(&said.stdout).into_owned()
}

impl Printed {
    pub fn of(pdf: &[u8]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let file = folder.path().join("paper.pdf");
        fs::write(&file, pdf).unwrap();
        Self { folder, file }
    }

    fn path(&self) -> &str {
        self.file.to_str().unwrap()
    }

    /// What `pdfinfo` says under a heading.
    pub fn info(&self, heading: &str) -> String {
        let all = run("pdfinfo", &[self.path()]);
        let line = all
            .lines()
            .find_map(|line| line.strip_prefix(&format!("{heading}:")));
        line.unwrap_or_else(|| panic!("no {heading} in {all}"))
            .trim()
            .to_owned()
    }

    pub fn pages(&self) -> usize {
        self.info("Pages").parse().unwrap()
    }

    /// The text as it lies on the page.
    pub fn laid_out(&self) -> String {
        run("pdftotext", &["-layout", self.path(), "-"])
    }

    /// The text in the order it was set.
    pub fn in_order(&self) -> String {
        run("pdftotext", &["-raw", self.path(), "-"])
    }

    /// The same in one line, for sentences that may have been broken.
    pub fn in_one_line(&self) -> String {
        let words = self.in_order();
        words.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Names of the fonts, each embedded.
    pub fn fonts(&self) -> Vec<String> {
        let table = run("pdffonts", &[self.path()]);
        let name = |line: &str| {
            line.split_whitespace()
                .next()
                .unwrap_or_default()
                .split('+')
                .next_back()
                .unwrap()
                .to_owned()
        };
        let mut names: Vec<String> = table.lines().skip(2).map(name).collect();
        names.sort();
        names.dedup();
        names
    }

    /// A page's picture, grey, from 1.
    pub fn page(&self, page: usize, dots_per_inch: u32) -> image::GrayImage {
        image::open(self.picture(page, dots_per_inch))
            .unwrap()
            .to_luma8()
    }

    /// What the square codes on a page say.
    pub fn codes(&self, page: usize) -> Vec<String> {
        let picture = self.picture(page, 150);
        let said = run("zbarimg", &["--quiet", "--raw", picture.to_str().unwrap()]);
        said.lines().map(str::to_owned).collect()
    }

    /// A page's picture in colours, from 1.
    pub fn colours(&self, page: usize, dots_per_inch: u32) -> image::RgbImage {
        image::open(self.picture(page, dots_per_inch))
            .unwrap()
            .into_rgb8()
    }

    /// Keeps a page's picture among the documents'.
    pub fn keep_picture(&self, page: usize, dots_per_inch: u32, name: &str) {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../docs/pictures");
        fs::create_dir_all(&folder).unwrap();
        fs::copy(self.picture(page, dots_per_inch), folder.join(name)).unwrap();
    }

    fn picture(&self, page: usize, dots_per_inch: u32) -> PathBuf {
        let stem = self
            .folder
            .path()
            .join(format!("page-{page}-{dots_per_inch}"));
        let (page, dots) = (page.to_string(), dots_per_inch.to_string());
        run(
            "pdftoppm",
            &[
                "-png",
                "-r",
                &dots,
                "-f",
                &page,
                "-l",
                &page,
                "-singlefile",
                self.path(),
                stem.to_str().unwrap(),
            ],
        );
        stem.with_extension("png")
    }
}
