//! Import: an exported yard moves in, envelopes and all. Two yards are never merged.

use crate::{
    Aside, Drawer, Row, StoreError, Tip, Yard,
    backup::{beside, is_digest, parent, remove},
    chain::Envelope,
    engine::place,
    export::{
        ASIDE, AsideForm, FORMAT, JOURNAL, LineForm, PEOPLE, PHOTOS, SETTINGS, YARD, YardForm,
        unraw,
    },
    form::read_head,
    opening::{Store, holds_store},
    pictures::Picture,
    restore::{read_hash, read_tip},
    verify::check_rows,
};
use serde::{Deserialize, de::DeserializeOwned};
use serde_json::Value;
use std::{collections::BTreeMap, fs, io, path::Path};
use yard::id::{PhotoId, YardId};

#[derive(Deserialize)]
struct PhotoForm {
    sha256: String,
    media_type: String,
}

/// Takes in the yard exported to `from` into the folder `dir`: into the store there, or into a new one. Of an import that fails, nothing
/// is left in a new folder.
///
/// # Errors
/// [`StoreError::NotEmpty`] where `dir` holds something that is no store; the errors of [`Store::import`] and [`Store::open`].
pub fn import(from: &Path, dir: &Path) -> Result<Yard, StoreError> {
    if holds_store(dir) {
        return Store::open(dir)?.import(from);
    }
    if !place::is_empty(dir)? {
        return Err(StoreError::NotEmpty {
            dir: dir.display().to_string(),
        });
    }
    let partial = beside(dir, "importing");
    remove(&partial)?;
    let id = fill(from, &partial).and_then(|id| {
        let at = |why: &io::Error| StoreError::file(dir, why);
        if dir.exists() {
            fs::remove_dir(dir).map_err(|why| at(&why))?;
        }
        fs::rename(&partial, dir).map_err(|why| at(&why))?;
        place::sync_dir(parent(dir))?;
        Ok(id)
    });
    if id.is_err() {
        remove(&partial)?;
    }
    let id = id?;
    Store::open(dir)?.yard_of(id)
}

/// Closed when it returns, so that the folder can be renamed.
fn fill(from: &Path, partial: &Path) -> Result<YardId, StoreError> {
    Ok(Store::open(partial)?.import(from)?.id())
}

impl Store {
    /// Takes in the yard exported to `dir`. Its chain is checked before anything is kept; PINs have to be set anew.
    ///
    /// # Errors
    /// [`StoreError::NothingThere`] where `dir` is no whole export; [`StoreError::BackupDamaged`] with the file or the place;
    /// [`StoreError::NotEmpty`] where the yard is here and has entries; the engine's own.
    pub fn import(&self, dir: &Path) -> Result<Yard, StoreError> {
        let form = read_yard(dir)?;
        let id = YardId(form.yard);
        let rows = read_rows(dir, id)?;
        check_tip(&form, id, &rows)?;
        let aside = read_aside(dir, id)?;
        let yard = match self.add_yard(id, &form.name) {
            Err(StoreError::YardExists) => self.yard_of(id)?,
            made => made?,
        };
        // People and photos first: an import that was cut short is begun again, which a chain that is there would refuse.
        yard.import_drawers(dir)?;
        self.inner.to_write()?.append_moved(id, &rows, &aside)?;
        Ok(yard)
    }
}

impl Yard {
    fn import_drawers(&self, dir: &Path) -> Result<(), StoreError> {
        if self.tip()?.seq != 0 {
            return Err(StoreError::NotEmpty {
                dir: self.id().to_string(),
            });
        }
        for (drawer, file) in [(Drawer::Person, PEOPLE), (Drawer::Setting, SETTINGS)] {
            for (key, value) in read_json::<BTreeMap<String, Value>>(dir, file)? {
                self.change(drawer, &key, |_: Option<Value>| (Some(value.clone()), ()))?;
            }
        }
        for (id, form) in read_json::<BTreeMap<PhotoIdText, PhotoForm>>(dir, PHOTOS)? {
            let damaged = || StoreError::BackupDamaged {
                what: format!("photos/{}", form.sha256),
            };
            let id: PhotoId = id.parse().map_err(|_| damaged())?;
            if !is_digest(&form.sha256) {
                return Err(damaged());
            }
            let bytes = fs::read(dir.join("photos").join(&form.sha256)).map_err(|_| damaged())?;
            self.keep_picture(
                id,
                &Picture {
                    media_type: form.media_type.clone(),
                    bytes,
                },
            )?;
        }
        Ok(())
    }
}

/// A photo's id, not yet read.
type PhotoIdText = String;

fn read_yard(dir: &Path) -> Result<YardForm, StoreError> {
    if !dir.join(YARD).is_file() {
        return Err(StoreError::NothingThere {
            dir: dir.display().to_string(),
        });
    }
    let form: YardForm = read_json(dir, YARD)?;
    if form.format != FORMAT {
        return Err(damaged(YARD));
    }
    if form.version > 1 {
        return Err(StoreError::NewerSchema {
            found: form.version.into(),
            known: 1,
        });
    }
    Ok(form)
}

fn check_tip(form: &YardForm, id: YardId, rows: &[Row]) -> Result<(), StoreError> {
    let checked = check_rows(id, rows);
    if let Some(broken) = checked.broken {
        return Err(damaged(&format!("{JOURNAL}:{}", broken.seq)));
    }
    let said = if form.entries == 0 {
        Some(Tip::start(id))
    } else {
        read_tip(form.entries, &form.hash)
    };
    if said == Some(checked.tip) {
        Ok(())
    } else {
        Err(damaged(JOURNAL))
    }
}

/// The rows of an exported journal, unchecked but for their outside.
pub(crate) fn read_rows(dir: &Path, yard: YardId) -> Result<Vec<Row>, StoreError> {
    let lines = read_lines::<LineForm>(dir, JOURNAL)?
        .into_iter()
        .enumerate();
    let rows = lines
        .map(|(n, form)| row(&form, yard).ok_or_else(|| damaged(&format!("{JOURNAL}:{}", n + 1))));
    rows.collect()
}

fn row(form: &LineForm, yard: YardId) -> Option<Row> {
    let bytes = unraw(&form.entry);
    let head = read_head(&bytes, yard).ok()?;
    let LineForm {
        seq,
        written,
        ordered_at,
        corrected,
        ..
    } = *form;
    let envelope = Envelope {
        seq,
        written,
        ordered_at,
        corrected,
        hash: read_hash(&form.hash)?,
    };
    Some(Row {
        id: head.id,
        machine: head.machine,
        kind: head.kind,
        bytes,
        envelope,
    })
}

fn read_aside(dir: &Path, yard: YardId) -> Result<Vec<Aside>, StoreError> {
    let lines = read_lines::<AsideForm>(dir, ASIDE)?.into_iter();
    let aside = lines.map(|form| {
        let bytes = unraw(&form.entry);
        let id = read_head(&bytes, yard).map_err(|_| damaged(ASIDE))?.id;
        Ok(Aside {
            id,
            bytes,
            written: form.written,
        })
    });
    aside.collect()
}

fn read_lines<F: DeserializeOwned>(dir: &Path, name: &str) -> Result<Vec<F>, StoreError> {
    let text = read_text(dir, name)?;
    let lines = text.lines().enumerate();
    lines
        .map(|(n, line)| {
            serde_json::from_str(line).map_err(|_| damaged(&format!("{name}:{}", n + 1)))
        })
        .collect()
}

fn read_json<F: DeserializeOwned>(dir: &Path, name: &str) -> Result<F, StoreError> {
    serde_json::from_str(&read_text(dir, name)?).map_err(|_| damaged(name))
}

fn read_text(dir: &Path, name: &str) -> Result<String, StoreError> {
    fs::read_to_string(dir.join(name)).map_err(|why| match why.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::InvalidData => damaged(name),
        _ => StoreError::file(&dir.join(name), &why),
    })
}

fn damaged(what: &str) -> StoreError {
    StoreError::BackupDamaged {
        what: what.to_owned(),
    }
}
