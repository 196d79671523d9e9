//! Backup: one folder with the store's file, the photos and a list of hashes, verified before it gets its name.

use crate::{
    Hash, StoreError, Tip, Yard,
    chain::to_millisecond,
    engine::{Sqlite, place, settle_copy, vacuum_into},
    journal::{Drawer, Drawers as _, Journal as _},
    opening::{FILE, Store},
    pictures::keep_file,
};
use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::{
    collections::BTreeMap,
    fs::{self, File},
    path::{Path, PathBuf},
};
use yard::id::YardId;

/// The list in a backup.
pub(crate) const LIST: &str = "backup.json";
/// What the list says it is.
const FORMAT: &str = "kingpost-backup";

/// A backup that was made and verified.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BackupMade {
    /// Where.
    pub dir: PathBuf,
    /// What it holds: note it down, and `verify` can tell later that nothing was cut off.
    pub yards: Vec<YardTip>,
    /// Photos in it.
    pub pictures: usize,
}

/// How far a yard had come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YardTip {
    /// The yard.
    pub yard: YardId,
    /// Its name.
    pub name: String,
    /// The end of its chain.
    pub tip: Tip,
}

/// The list's form.
#[derive(Serialize, Deserialize)]
pub(crate) struct ListForm {
    pub(crate) format: String,
    pub(crate) version: u32,
    made: Timestamp,
    pub(crate) yards: Vec<ListedYard>,
    /// SHA-256 in hex by path in the backup.
    pub(crate) files: BTreeMap<String, String>,
}

#[derive(Serialize, Deserialize)]
pub(crate) struct ListedYard {
    pub(crate) yard: uuid::Uuid,
    name: String,
    pub(crate) entries: u64,
    pub(crate) hash: String,
}

impl Store {
    /// Backs everything up into the new folder `dir`, while others may go on writing. Sign-ins and links are left out.
    ///
    /// The copy is made beside `dir` under another name, flushed, verified (database, chains, photos) and only then renamed.
    ///
    /// # Errors
    /// [`StoreError::NotEmpty`] where `dir` holds something; [`StoreError::BackupDamaged`] where the copy is not sound (the store itself
    /// is damaged: verify it); [`StoreError::File`]; the engine's own.
    pub fn backup(&self, dir: &Path, made: Timestamp) -> Result<BackupMade, StoreError> {
        if !place::is_empty(dir)? {
            return Err(StoreError::NotEmpty {
                dir: dir.display().to_string(),
            });
        }
        let partial = beside(dir, "partial");
        // Left by an attempt that was interrupted.
        remove(&partial)?;
        let made = self.fill(&partial, made).and_then(|(yards, pictures)| {
            let at = |why: &std::io::Error| StoreError::file(dir, why);
            if dir.exists() {
                fs::remove_dir(dir).map_err(|why| at(&why))?;
            }
            fs::rename(&partial, dir).map_err(|why| at(&why))?;
            place::sync_dir(parent(dir))?;
            Ok(BackupMade {
                dir: dir.to_owned(),
                yards,
                pictures,
            })
        });
        if made.is_err() {
            remove(&partial)?;
        }
        made
    }

    fn fill(&self, partial: &Path, made: Timestamp) -> Result<(Vec<YardTip>, usize), StoreError> {
        let photos = partial.join("photos");
        fs::create_dir_all(&photos).map_err(|why| StoreError::file(&photos, &why))?;
        let file = partial.join(FILE);
        self.copy_to(&file)?;
        settle_copy(&file)?;
        sync(&file)?;
        let mut files = BTreeMap::from([(FILE.to_owned(), digest(&file)?)]);
        let yards = self.copied_yards(&file)?;
        for sha256 in pictures_in(&file)? {
            keep_file(&photos, &sha256, &self.inner.pictures.read(&sha256)?)?;
            files.insert(format!("photos/{sha256}"), sha256);
        }
        let pictures = files.len() - 1;
        let listed = yards.iter().map(|yard| ListedYard {
            yard: yard.yard.0,
            name: yard.name.clone(),
            entries: yard.tip.seq,
            hash: hex::encode(yard.tip.hash),
        });
        let list = ListForm {
            format: FORMAT.to_owned(),
            version: 1,
            made: to_millisecond(made),
            yards: listed.collect(),
            files,
        };
        keep_file(
            partial,
            LIST,
            &serde_json::to_vec_pretty(&list).map_err(StoreError::engine)?,
        )?;
        check_files(partial, &list)?;
        Ok((yards, pictures))
    }

    /// Copies the store into a new SQLite file, whatever engine it stands on.
    fn copy_to(&self, file: &Path) -> Result<(), StoreError> {
        if let Some(dir) = &self.inner.dir {
            return vacuum_into(&dir.join(FILE), file);
        }
        let mut copy = Sqlite::open(file)?;
        self.yards()?
            .iter()
            .try_for_each(|yard| copy_yard(yard, &mut copy))
    }

    /// The copy's tips, once its database and chains are found sound.
    fn copied_yards(&self, file: &Path) -> Result<Vec<YardTip>, StoreError> {
        let mut copy = Sqlite::open_to_look(file)?;
        if let Some(complaint) = copy.complaints()?.into_iter().next() {
            return Err(StoreError::BackupDamaged { what: complaint });
        }
        let mut yards = Vec::new();
        for (yard, name) in copy.yards()? {
            let rows = copy.rows_since(yard, 0, usize::MAX)?;
            let checked = crate::verify::check_rows(yard, &rows);
            if let Some(broken) = checked.broken {
                return Err(StoreError::BackupDamaged {
                    what: format!("{yard}/{}", broken.seq),
                });
            }
            yards.push(YardTip {
                yard,
                name,
                tip: checked.tip,
            });
        }
        Ok(yards)
    }
}

fn copy_yard(yard: &Yard, copy: &mut Sqlite) -> Result<(), StoreError> {
    let mut engine = yard.store.engine();
    copy.add_yard(yard.id(), yard.name())?;
    let rows = engine.rows_since(yard.id(), 0, usize::MAX)?;
    copy.append_moved(yard.id(), &rows, &engine.aside(yard.id())?)?;
    for drawer in Drawer::ALL.into_iter().filter(|drawer| drawer.lasts()) {
        for (key, value) in engine.list(yard.id(), drawer)? {
            copy.swap(yard.id(), drawer, &key, None, Some(&value))?;
        }
    }
    Ok(())
}

fn pictures_in(file: &Path) -> Result<Vec<String>, StoreError> {
    #[derive(Deserialize)]
    struct Named {
        sha256: String,
    }
    let mut copy = Sqlite::open_to_look(file)?;
    let mut all = Vec::new();
    for (yard, _) in copy.yards()? {
        let forms = copy.list(yard, Drawer::Photo)?.into_iter();
        all.extend(
            forms
                .filter_map(|(_, form)| serde_json::from_str::<Named>(&form).ok())
                .map(|named| named.sha256),
        );
    }
    Ok(all)
}

/// Reads a backup's list and checks every file against it.
pub(crate) fn check_backup(dir: &Path) -> Result<ListForm, StoreError> {
    let damaged = |what: &str| StoreError::BackupDamaged {
        what: what.to_owned(),
    };
    let text = match fs::read(dir.join(LIST)) {
        Err(why) if why.kind() == std::io::ErrorKind::NotFound => {
            return Err(StoreError::NothingThere {
                dir: dir.display().to_string(),
            });
        }
        other => other.map_err(|why| StoreError::file(&dir.join(LIST), &why))?,
    };
    let list: ListForm = serde_json::from_slice(&text).map_err(|_| damaged(LIST))?;
    if list.format != FORMAT {
        return Err(damaged(LIST));
    }
    if list.version > 1 {
        return Err(StoreError::NewerSchema {
            found: list.version.into(),
            known: 1,
        });
    }
    check_files(dir, &list)?;
    Ok(list)
}

fn check_files(dir: &Path, list: &ListForm) -> Result<(), StoreError> {
    for (name, expected) in &list.files {
        // Only the two kinds of file that a backup has: a list from elsewhere must not lead out of the folder.
        let ours = name == FILE || name.strip_prefix("photos/").is_some_and(is_digest);
        if !ours || digest(&dir.join(name)).ok().as_ref() != Some(expected) {
            return Err(StoreError::BackupDamaged { what: name.clone() });
        }
    }
    if list.files.contains_key(FILE) {
        Ok(())
    } else {
        Err(StoreError::BackupDamaged {
            what: FILE.to_owned(),
        })
    }
}

/// Whether a text is a SHA-256 in hex, and so safe as a file's name.
pub(crate) fn is_digest(text: &str) -> bool {
    text.len() == 64
        && text
            .bytes()
            .all(|c| c.is_ascii_digit() || (b'a'..=b'f').contains(&c))
}

fn digest(file: &Path) -> Result<String, StoreError> {
    let bytes = fs::read(file).map_err(|why| StoreError::file(file, &why))?;
    Ok(hex::encode::<Hash>(Sha256::digest(bytes).into()))
}

fn sync(file: &Path) -> Result<(), StoreError> {
    File::open(file)
        .and_then(|open| open.sync_all())
        .map_err(|why| StoreError::file(file, &why))
}

/// A hidden name in the same folder as `dir`, so that renaming is one step.
pub(crate) fn beside(dir: &Path, why: &str) -> PathBuf {
    let name = dir.file_name().map_or_else(
        || "kingpost".to_owned(),
        |name| name.to_string_lossy().into_owned(),
    );
    parent(dir).join(format!(".{name}.{why}"))
}

pub(crate) fn parent(dir: &Path) -> &Path {
    dir.parent()
        .filter(|parent| !parent.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

pub(crate) fn remove(dir: &Path) -> Result<(), StoreError> {
    match fs::remove_dir_all(dir) {
        Err(why) if why.kind() != std::io::ErrorKind::NotFound => Err(StoreError::file(dir, &why)),
        _ => Ok(()),
    }
}
