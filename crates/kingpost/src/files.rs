//! Files a person names: read as text, written without overwriting unless that is meant.

use crate::{kit::Kit, trouble::Trouble};
use std::{
    fs::{self, OpenOptions},
    io::{ErrorKind, Write},
    path::Path,
};

/// The text of a file.
pub(crate) fn read_text(kit: &Kit, path: &Path) -> Result<String, Trouble> {
    let shown = path.display().to_string();
    match fs::read(path) {
        Ok(bytes) => String::from_utf8(bytes)
            .map_err(|_| kit.refused("file-not-text", &[("path", shown.into())])),
        Err(why) if why.kind() == ErrorKind::NotFound => {
            Err(kit.refused("file-not-found", &[("path", shown.into())]))
        }
        Err(why) => Err(kit.refused(
            "file-not-readable",
            &[("path", shown.into()), ("detail", why.to_string().into())],
        )),
    }
}

/// Writes a file that is not there yet.
pub(crate) fn write_new(kit: &Kit, path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    let file = OpenOptions::new().write(true).create_new(true).open(path);
    match file.and_then(|mut file| file.write_all(bytes)) {
        Err(why) if why.kind() == ErrorKind::AlreadyExists => Err(kit.refused(
            "file-exists",
            &[("path", path.display().to_string().into())],
        )),
        other => other.map_err(|why| not_written(path, &why)),
    }
}

/// Writes a file anew, whatever it held.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<(), Trouble> {
    fs::write(path, bytes).map_err(|why| not_written(path, &why))
}

fn not_written(path: &Path, why: &std::io::Error) -> Trouble {
    store::StoreError::file(path, why).into()
}
