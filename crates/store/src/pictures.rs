//! Photos: an entry names the id the phone gave; here that id leads to the cleaned picture, in whatever order the two arrive.

use crate::{
    Drawer, Hash, StoreError, Yard,
    engine::place::{make_dir, sync_dir},
    form::read_entry,
};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::{
    collections::{BTreeMap, BTreeSet},
    fs::{self, File},
    io::Write as _,
    path::{Path, PathBuf},
    sync::{Mutex, PoisonError},
};
use yard::id::PhotoId;

/// The kinds of picture that are kept.
const MEDIA_TYPES: &[&str] = &["image/jpeg", "image/png"];

/// A picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// `image/jpeg` or `image/png`.
    pub media_type: String,
    /// The file.
    pub bytes: Vec<u8>,
}

/// What became of a picture offered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKept {
    /// Kept.
    New,
    /// The same one is there.
    Known,
    /// Another one has this id: that one stays.
    Differs,
}

#[derive(Serialize, Deserialize)]
struct PhotoForm {
    sha256: String,
    media_type: String,
}

impl Yard {
    /// Keeps a cleaned picture under the id its phone gave. On the disk when this returns.
    ///
    /// # Errors
    /// [`StoreError::MediaType`]; [`StoreError::File`]; the engine's own.
    pub fn keep_picture(&self, id: PhotoId, picture: &Picture) -> Result<PictureKept, StoreError> {
        if !MEDIA_TYPES.contains(&picture.media_type.as_str()) {
            return Err(StoreError::MediaType {
                offered: picture.media_type.clone(),
            });
        }
        let sha256 = hex::encode(Sha256::digest(&picture.bytes));
        drop(self.store.to_write()?);
        // The file comes first: an id never leads to nothing.
        self.store.pictures.keep(&sha256, &picture.bytes)?;
        let form = self.json(&PhotoForm {
            sha256,
            media_type: picture.media_type.clone(),
        })?;
        let mut engine = self.store.to_write()?;
        if engine.swap(self.id(), Drawer::Photo, &id.to_string(), None, Some(&form))? {
            return Ok(PictureKept::New);
        }
        let there = engine.get(self.id(), Drawer::Photo, &id.to_string())?;
        Ok(if there.as_deref() == Some(&form) {
            PictureKept::Known
        } else {
            PictureKept::Differs
        })
    }

    /// The picture of a photo's id; none while it has not arrived.
    ///
    /// # Errors
    /// [`StoreError::File`]; the engine's own.
    pub fn picture(&self, id: PhotoId) -> Result<Option<Picture>, StoreError> {
        let Some(form) = self.kept::<PhotoForm>(Drawer::Photo, &id.to_string())? else {
            return Ok(None);
        };
        Ok(Some(Picture {
            bytes: self.store.pictures.read(&form.sha256)?,
            media_type: form.media_type,
        }))
    }

    /// Whether the picture of a photo's id has arrived.
    ///
    /// # Errors
    /// The engine's own.
    pub fn has_picture(&self, id: PhotoId) -> Result<bool, StoreError> {
        Ok(self
            .kept::<PhotoForm>(Drawer::Photo, &id.to_string())?
            .is_some())
    }

    /// Photos that entries name and whose pictures have not arrived: still on a phone, or lost with one. Entries that do not
    /// read are passed over.
    ///
    /// # Errors
    /// The engine's own.
    pub fn awaited_pictures(&self) -> Result<Vec<PhotoId>, StoreError> {
        let mut awaited = BTreeSet::new();
        self.each_row(0, |row| {
            if let Ok(entry) = read_entry(&row) {
                awaited.extend(entry.body.photos());
            }
            Ok(())
        })?;
        for (there, ..) in self.pictures()? {
            awaited.remove(&there);
        }
        Ok(awaited.into_iter().collect())
    }

    /// Which pictures have arrived: photo id, SHA-256 in hex, media type.
    ///
    /// # Errors
    /// The engine's own.
    pub fn pictures(&self) -> Result<Vec<(PhotoId, String, String)>, StoreError> {
        let all = self.all_kept::<PhotoForm>(Drawer::Photo)?;
        Ok(all
            .into_iter()
            .filter_map(|(id, form)| Some((id.parse().ok()?, form.sha256, form.media_type)))
            .collect())
    }
}

/// Where picture files lie, by their SHA-256 in hex.
pub(crate) enum Pictures {
    Folder(PathBuf),
    Memory(Mutex<BTreeMap<String, Vec<u8>>>),
}

impl Pictures {
    /// In the folder `photos` of the data folder.
    pub(crate) fn folder(dir: &Path) -> Self {
        Self::Folder(dir.join("photos"))
    }

    pub(crate) fn memory() -> Self {
        Self::Memory(Mutex::default())
    }

    fn keep(&self, sha256: &str, bytes: &[u8]) -> Result<(), StoreError> {
        match self {
            Self::Folder(dir) => {
                make_dir(dir).map_err(|why| StoreError::file(dir, &why))?;
                keep_file(dir, sha256, bytes)
            }
            Self::Memory(all) => {
                all.lock()
                    .unwrap_or_else(PoisonError::into_inner)
                    .insert(sha256.to_owned(), bytes.to_vec());
                Ok(())
            }
        }
    }

    pub(crate) fn read(&self, sha256: &str) -> Result<Vec<u8>, StoreError> {
        match self {
            Self::Folder(dir) => {
                fs::read(dir.join(sha256)).map_err(|why| StoreError::file(&dir.join(sha256), &why))
            }
            Self::Memory(all) => {
                let found = all
                    .lock()
                    .unwrap_or_else(PoisonError::into_inner)
                    .get(sha256)
                    .cloned();
                found.ok_or_else(|| StoreError::File {
                    path: sha256.to_owned(),
                    why: "not there".to_owned(),
                })
            }
        }
    }

    /// Whether the file is there and is what its name says.
    pub(crate) fn sound(&self, sha256: &str) -> bool {
        self.read(sha256)
            .is_ok_and(|bytes| hex::encode::<Hash>(Sha256::digest(bytes).into()) == sha256)
    }
}

/// Writes `name` into `dir` so that after power loss there is the whole file or none.
pub(crate) fn keep_file(dir: &Path, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
    let path = dir.join(name);
    if path.is_file() && fs::read(&path).is_ok_and(|there| there == bytes) {
        // Whoever wrote it may have been stopped before its name was safe.
        return sync_dir(dir);
    }
    let partial = dir.join(format!(".{name}.partial"));
    let write = || {
        let mut file = File::create(&partial)?;
        file.write_all(bytes)?;
        file.sync_all()?;
        fs::rename(&partial, &path)
    };
    write().map_err(|why| StoreError::file(&path, &why))?;
    sync_dir(dir)
}
