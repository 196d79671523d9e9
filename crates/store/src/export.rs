//! Export: a yard as plain files that any program, or a person with an editor, can read; a whole one for moving.

use crate::{
    Drawer, Row, StoreError, Yard,
    chain::{Envelope, to_millisecond},
    engine::place,
    form::read_entry,
    outside::people::PersonForm,
    pictures::keep_file,
};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use serde_json::{
    Value,
    value::{RawValue, to_raw_value},
};
use std::{collections::BTreeMap, fs, path::Path};
use yard::entry::Body;

/// What an export says it is.
pub(crate) const FORMAT: &str = "kingpost-export";
pub(crate) const YARD: &str = "yard.json";
pub(crate) const JOURNAL: &str = "journal.jsonl";
pub(crate) const ASIDE: &str = "aside.jsonl";
pub(crate) const PEOPLE: &str = "people.json";
pub(crate) const SETTINGS: &str = "settings.json";
pub(crate) const PHOTOS: &str = "photos.json";

/// `yard.json`.
#[derive(Serialize, Deserialize)]
pub(crate) struct YardForm {
    pub(crate) format: String,
    pub(crate) version: u32,
    pub(crate) yard: uuid::Uuid,
    pub(crate) name: String,
    made: Timestamp,
    pub(crate) entries: u64,
    pub(crate) hash: String,
}

/// One line of `journal.jsonl`: the envelope, and the entry exactly as its writer made it: as JSON where that fits on the line, else as a
/// text that holds the JSON.
#[derive(Serialize, Deserialize)]
pub(crate) struct LineForm {
    pub(crate) seq: u64,
    pub(crate) written: Timestamp,
    pub(crate) ordered_at: Timestamp,
    pub(crate) corrected: bool,
    pub(crate) hash: String,
    pub(crate) entry: Box<RawValue>,
}

/// One line of `aside.jsonl`.
#[derive(Serialize, Deserialize)]
pub(crate) struct AsideForm {
    pub(crate) written: Timestamp,
    pub(crate) entry: Box<RawValue>,
}

impl Yard {
    /// Writes the yard into the new folder `dir` as plain files: the journal with its envelopes, what lay aside, people without their PINs,
    /// settings, photos, every book that was adopted, and `readme` (the caller's words on what this is) as `README.txt`.
    ///
    /// # Errors
    /// [`StoreError::NotEmpty`] where `dir` holds something; [`StoreError::File`]; the engine's own.
    pub fn export(&self, dir: &Path, readme: &str, made: Timestamp) -> Result<(), StoreError> {
        if !place::is_empty(dir)? {
            return Err(StoreError::NotEmpty {
                dir: dir.display().to_string(),
            });
        }
        make_dir(dir)?;
        let tip = self.export_journal(dir)?;
        self.export_drawers(dir)?;
        self.export_photos(dir)?;
        keep_file(dir, "README.txt", readme.as_bytes())?;
        let (entries, hash) = tip.map_or((0, String::new()), |last| {
            (last.seq, hex::encode(last.hash))
        });
        let (yard, name) = (self.id().0, self.name().to_owned());
        // Last, so that an export cut short is not taken for a whole one.
        let form = YardForm {
            format: FORMAT.to_owned(),
            version: 1,
            yard,
            name,
            made: to_millisecond(made),
            entries,
            hash,
        };
        keep_json(dir, YARD, &form)
    }

    fn export_journal(&self, dir: &Path) -> Result<Option<Envelope>, StoreError> {
        let (mut lines, mut books, mut last) = (Vec::new(), Books::default(), None);
        self.each_row(0, |row| {
            line(&mut lines, &LineForm::of(&row)?)?;
            books.look(&row)?;
            last = Some(row.envelope);
            Ok(())
        })?;
        keep_file(dir, JOURNAL, &lines)?;
        let mut aside = Vec::new();
        for other in self.store.engine().aside(self.id())? {
            line(
                &mut aside,
                &AsideForm {
                    written: other.written,
                    entry: raw(&other.bytes)?,
                },
            )?;
        }
        keep_file(dir, ASIDE, &aside)?;
        books.keep(&dir.join("books"))?;
        Ok(last)
    }

    fn export_drawers(&self, dir: &Path) -> Result<(), StoreError> {
        let people: BTreeMap<String, PersonForm> =
            self.all_kept(Drawer::Person)?.into_iter().collect();
        let people: BTreeMap<_, _> = people
            .into_iter()
            .map(|(id, form)| {
                (
                    id,
                    PersonForm {
                        pin_hash: None,
                        ..form
                    },
                )
            })
            .collect();
        keep_json(dir, PEOPLE, &people)?;
        let settings: BTreeMap<String, Value> =
            self.all_kept(Drawer::Setting)?.into_iter().collect();
        keep_json(dir, SETTINGS, &settings)
    }

    fn export_photos(&self, dir: &Path) -> Result<(), StoreError> {
        let forms: BTreeMap<String, Value> = self.all_kept(Drawer::Photo)?.into_iter().collect();
        keep_json(dir, PHOTOS, &forms)?;
        make_dir(&dir.join("photos"))?;
        for (_, sha256, _) in self.pictures()? {
            keep_file(
                &dir.join("photos"),
                &sha256,
                &self.store.pictures.read(&sha256)?,
            )?;
        }
        Ok(())
    }
}

impl LineForm {
    /// The line of a row.
    pub(crate) fn of(row: &Row) -> Result<Self, StoreError> {
        let Envelope {
            seq,
            written,
            ordered_at,
            corrected,
            hash,
        } = row.envelope;
        Ok(Self {
            seq,
            written,
            ordered_at,
            corrected,
            hash: hex::encode(hash),
            entry: raw(&row.bytes)?,
        })
    }
}

/// The books adopted, by file name: `MACHINE-N.toml`, N counting up.
#[derive(Default)]
struct Books {
    counts: BTreeMap<String, u32>,
    texts: Vec<(String, String)>,
}

impl Books {
    fn look(&mut self, row: &Row) -> Result<(), StoreError> {
        if row.kind != "book-adopted" {
            return Ok(());
        }
        if let (Body::BookAdopted(adopted), Some(machine)) = (read_entry(row)?.body, &row.machine) {
            let count = self.counts.entry(machine.clone()).or_default();
            *count += 1;
            self.texts
                .push((format!("{machine}-{count}.toml"), adopted.text));
        }
        Ok(())
    }

    fn keep(&self, dir: &Path) -> Result<(), StoreError> {
        make_dir(dir)?;
        self.texts
            .iter()
            .try_for_each(|(name, text)| keep_file(dir, name, text.as_bytes()))
    }
}

/// Exactly these bytes as a JSON value on one line: themselves, or a text that holds them.
fn raw(bytes: &[u8]) -> Result<Box<RawValue>, StoreError> {
    let text = std::str::from_utf8(bytes).map_err(StoreError::engine)?;
    let plain = text.trim() == text && !text.contains(['\n', '\r']);
    if plain && let Ok(value) = RawValue::from_string(text.to_owned()) {
        return Ok(value);
    }
    to_raw_value(text).map_err(StoreError::engine)
}

/// The bytes that [`raw`] put on the line.
pub(crate) fn unraw(value: &RawValue) -> Vec<u8> {
    match serde_json::from_str::<String>(value.get()) {
        Ok(text) => text.into_bytes(),
        Err(_) => value.get().as_bytes().to_vec(),
    }
}

fn line(lines: &mut Vec<u8>, form: &impl Serialize) -> Result<(), StoreError> {
    serde_json::to_writer(&mut *lines, form).map_err(StoreError::engine)?;
    lines.push(b'\n');
    Ok(())
}

fn keep_json(dir: &Path, name: &str, form: &impl Serialize) -> Result<(), StoreError> {
    let mut text = serde_json::to_vec_pretty(form).map_err(StoreError::engine)?;
    text.push(b'\n');
    keep_file(dir, name, &text)
}

fn make_dir(dir: &Path) -> Result<(), StoreError> {
    fs::create_dir_all(dir).map_err(|why| StoreError::file(dir, &why))
}
