//! Restoring: a backup into an empty folder, verified before and after.

use crate::{
    Hash, StoreError, Tip, Verification,
    backup::{ListForm, beside, check_backup, parent, remove},
    engine::place,
    opening::Store,
    pictures::keep_file,
};
use std::{fs, path::Path};

/// Restores the backup in `backup` into `dir`, which must be empty or missing, and verifies what came out.
///
/// Nothing shows in `dir` until everything is there and sound.
///
/// # Errors
/// [`StoreError::NotEmpty`]; [`StoreError::NothingThere`] where `backup` is no backup; [`StoreError::BackupDamaged`] with the file or
/// `yard/place`; the errors of [`Store::open`].
pub fn restore(backup: &Path, dir: &Path) -> Result<Verification, StoreError> {
    if !place::is_empty(dir)? {
        return Err(StoreError::NotEmpty {
            dir: dir.display().to_string(),
        });
    }
    let list = check_backup(backup)?;
    let partial = beside(dir, "restoring");
    remove(&partial)?;
    let restored = fill(backup, &partial, &list).and_then(|found| {
        let at = |why: &std::io::Error| StoreError::file(dir, why);
        if dir.exists() {
            fs::remove_dir(dir).map_err(|why| at(&why))?;
        }
        fs::rename(&partial, dir).map_err(|why| at(&why))?;
        place::sync_dir(parent(dir))?;
        Ok(found)
    });
    if restored.is_err() {
        remove(&partial)?;
    }
    restored
}

fn fill(backup: &Path, partial: &Path, list: &ListForm) -> Result<Verification, StoreError> {
    place::prepare(partial)?;
    fs::create_dir_all(partial.join("photos")).map_err(|why| StoreError::file(partial, &why))?;
    for name in list.files.keys() {
        let from = backup.join(name);
        let bytes = fs::read(&from).map_err(|why| StoreError::file(&from, &why))?;
        match name.strip_prefix("photos/") {
            Some(sha256) => keep_file(&partial.join("photos"), sha256, &bytes)?,
            None => keep_file(partial, name, &bytes)?,
        }
    }
    let store = Store::open(partial)?;
    let found = store.verify()?;
    check_against(list, &found)?;
    Ok(found)
}

fn check_against(list: &ListForm, found: &Verification) -> Result<(), StoreError> {
    let damaged = |what: String| Err(StoreError::BackupDamaged { what });
    if let Some(what) = found.complaints.first().or(found.pictures.first()) {
        return damaged(what.clone());
    }
    if let Some((yard, broken)) = found
        .yards
        .iter()
        .find_map(|checked| Some((checked.yard, checked.broken?)))
    {
        return damaged(format!("{yard}/{}", broken.seq));
    }
    let tips: Vec<_> = found
        .yards
        .iter()
        .map(|checked| {
            (
                checked.yard.0,
                checked.tip.seq,
                hex::encode(checked.tip.hash),
            )
        })
        .collect();
    let listed: Vec<_> = list
        .yards
        .iter()
        .map(|yard| (yard.yard, yard.entries, yard.hash.clone()))
        .collect();
    if tips == listed {
        Ok(())
    } else {
        damaged(crate::backup::LIST.to_owned())
    }
}

/// A hash from its hex.
pub(crate) fn read_hash(text: &str) -> Option<Hash> {
    hex::decode(text).ok()?.try_into().ok()
}

/// A tip from its parts in a file.
pub(crate) fn read_tip(seq: u64, hash: &str) -> Option<Tip> {
    Some(Tip {
        seq,
        hash: read_hash(hash)?,
    })
}
