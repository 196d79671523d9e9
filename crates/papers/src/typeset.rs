//! The typesetter: markup, data and pictures in, PDF bytes out. Everything of its programming interface stays in this file.

use crate::PaperError;
use comemo::evict;
use serde_json::Value;
use std::{collections::BTreeMap, sync::LazyLock};
use typst::{
    Library, LibraryExt, World,
    diag::{FileError, FileResult, SourceDiagnostic},
    foundations::{Bytes, Datetime, Duration, Smart},
    syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot},
    text::{Font, FontBook},
    utils::LazyHash,
};
use typst_kit::fonts::FontStore;
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// What all papers share: page, head, ruler, boxes.
const SHARED: &str = include_str!("paper.typ");

/// Stands for a sign that the fonts do not have.
const NO_SIGN: char = '▯';

/// One document to typeset.
pub(crate) struct Document<'a> {
    /// Its own markup; it imports `paper.typ` and reads `data.json`.
    pub(crate) markup: &'a str,
    /// All that is written on it. Texts are texts, never markup.
    pub(crate) data: Value,
    /// Pictures as SVG, by file name.
    pub(crate) pictures: BTreeMap<&'static str, String>,
}

/// [`pdf_with_photos`] of a document without photos.
pub(crate) fn pdf(document: &Document<'_>) -> Result<Vec<u8>, PaperError> {
    pdf_with_photos(document, &[])
}

/// Typesets a document: tagged PDF that conforms to PDF/UA-1, the same bytes for the same document. Its photos are JPEG
/// files; the markup names them `photo-0.jpg`, `photo-1.jpg` and so on.
///
/// Fails with what the typesetter said. Its warnings are failures too: a warning means that something prints otherwise than
/// it was meant.
pub(crate) fn pdf_with_photos(
    document: &Document<'_>,
    photos: &[&[u8]],
) -> Result<Vec<u8>, PaperError> {
    let _emptied_after = Emptied;
    let mut shelf = Shelf::of(document)?;
    for (n, photo) in photos.iter().enumerate() {
        let name = file(&format!("photo-{n}.jpg"))?;
        shelf.files.push((name, Bytes::new(photo.to_vec())));
    }
    let made = typst::compile::<PagedDocument>(&shelf);
    if let Some(warning) = made.warnings.first() {
        return Err(PaperError::Typesetting(told(warning)));
    }
    let pages = made.output.map_err(|errors| refused(&errors))?;
    typst_pdf::pdf(&pages, &options()?).map_err(|errors| refused(&errors))
}

/// The typesetter remembers all it ever did; without this a server grows by megabytes with every paper.
struct Emptied;

impl Drop for Emptied {
    fn drop(&mut self) {
        evict(0);
    }
}

fn options() -> Result<PdfOptions, PaperError> {
    let standards = PdfStandards::new(&[PdfStandard::Ua_1]);
    Ok(PdfOptions {
        creator: Smart::Custom(Some("kingpost".to_owned())),
        timestamp: None,
        standards: standards.map_err(|e| PaperError::Typesetting(e.message().to_string()))?,
        ..PdfOptions::default()
    })
}

fn refused(errors: &[SourceDiagnostic]) -> PaperError {
    PaperError::Typesetting(errors.first().map_or_else(String::new, told))
}

fn told(said: &SourceDiagnostic) -> String {
    let hints = said.hints.iter().map(|hint| format!(" ({})", hint.v));
    std::iter::once(said.message.to_string())
        .chain(hints)
        .collect()
}

/// DejaVu Sans, wide and condensed, upright: four faces that have every sign the papers use.
static FONTS: LazyLock<FontStore> = LazyLock::new(|| {
    let faces = [
        dejavu::sans::regular(),
        dejavu::sans::bold(),
        dejavu::sans_condensed::regular(),
        dejavu::sans_condensed::bold(),
    ];
    let mut store = FontStore::new();
    for font in faces
        .into_iter()
        .filter_map(|face| Font::new(Bytes::new(face), 0))
    {
        let info = font.info().clone();
        store.push((font, info));
    }
    store
});

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

/// The texts of a value with each sign that a face lacks replaced, so that a paper is never refused for a picture sign in
/// somebody's report.
fn printable(value: Value) -> Value {
    match value {
        Value::String(text) => Value::String(text.chars().map(printable_sign).collect()),
        Value::Array(items) => Value::Array(items.into_iter().map(printable).collect()),
        Value::Object(fields) => Value::Object(
            fields
                .into_iter()
                .map(|(name, item)| (name, printable(item)))
                .collect(),
        ),
        other => other,
    }
}

fn printable_sign(sign: char) -> char {
    if sign.is_whitespace() || sign.is_control() {
        return if sign == '\u{a0}' { sign } else { ' ' };
    }
    let faces = (0..).map_while(|index| FONTS.book().info(index));
    let all_have_it = faces
        .into_iter()
        .all(|face| face.coverage.contains(u32::from(sign)));
    if all_have_it { sign } else { NO_SIGN }
}

/// The files of one document, and nothing else: no disk, no network, no clock.
struct Shelf {
    main: Source,
    shared: Source,
    files: Vec<(FileId, Bytes)>,
}

impl Shelf {
    fn of(document: &Document<'_>) -> Result<Self, PaperError> {
        let data = printable(document.data.clone()).to_string();
        let mut files = vec![(file("data.json")?, Bytes::from_string(data))];
        for (name, picture) in &document.pictures {
            files.push((file(name)?, Bytes::from_string(picture.clone())));
        }
        Ok(Self {
            main: Source::new(file("main.typ")?, document.markup.to_owned()),
            shared: Source::new(file("paper.typ")?, SHARED.to_owned()),
            files,
        })
    }
}

fn file(name: &str) -> Result<FileId, PaperError> {
    let path =
        VirtualPath::new(name).map_err(|e| PaperError::Typesetting(format!("{name}: {e}")))?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for Shelf {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }
    fn book(&self) -> &LazyHash<FontBook> {
        FONTS.book()
    }
    fn main(&self) -> FileId {
        self.main.id()
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        [&self.main, &self.shared]
            .into_iter()
            .find(|source| source.id() == id)
            .cloned()
            .ok_or(FileError::AccessDenied)
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        let known = self.files.iter().find(|(known, _)| *known == id);
        known
            .map(|(_, bytes)| bytes.clone())
            .ok_or(FileError::AccessDenied)
    }
    fn font(&self, index: usize) -> Option<Font> {
        FONTS.font(index)
    }
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}
