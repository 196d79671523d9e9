//! Where a journal may lie: a folder that can be written, on a disk of this computer, held by one program at a time.

use crate::StoreError;
use std::{
    fs::{self, File, TryLockError},
    io,
    path::Path,
};

/// File systems that reach another computer, or a host through one: the journal's locks and its shared memory are not safe there.
const SHARES: &[&str] = &[
    "9p",
    "afs",
    "beegfs",
    "ceph",
    "cifs",
    "coda",
    "davfs",
    "fuse.ceph",
    "fuse.curlftpfs",
    "fuse.davfs",
    "fuse.davfs2",
    "fuse.glusterfs",
    "fuse.rclone",
    "fuse.s3fs",
    "fuse.smbnetfs",
    "fuse.sshfs",
    "fuse.vmhgfs-fuse",
    "gfs2",
    "glusterfs",
    "lustre",
    "ncpfs",
    "nfs",
    "nfs4",
    "ocfs2",
    "prl_fs",
    "smb2",
    "smb3",
    "smbfs",
    "vboxsf",
    "vmhgfs",
];

/// Makes the folder where it is missing, and refuses one on a network share.
pub(crate) fn prepare(dir: &Path) -> Result<(), StoreError> {
    make_dir(dir).map_err(|why| StoreError::cannot_write(dir, &why))?;
    refuse_share(
        dir,
        &fs::read_to_string("/proc/self/mounts").unwrap_or_default(),
    )
}

/// A folder taken for this program, until dropped.
pub(crate) struct Held(File);

impl Drop for Held {
    fn drop(&mut self) {
        // Closing is not enough: a program that is just being started has the file open as well, until it begins to run.
        // Where this fails, closing lets go all the same.
        let _ = self.0.unlock();
    }
}

/// Takes the folder for this program.
pub(crate) fn hold(dir: &Path) -> Result<Held, StoreError> {
    let path = dir.join("kingpost.lock");
    let file = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(path)
        .map_err(|why| StoreError::cannot_write(dir, &why))?;
    match file.try_lock() {
        Ok(()) => Ok(Held(file)),
        Err(TryLockError::WouldBlock) => Err(StoreError::HeldByAnother {
            dir: dir.display().to_string(),
        }),
        Err(TryLockError::Error(why)) => Err(StoreError::cannot_write(dir, &why)),
    }
}

/// Whether the folder is empty or not there.
pub(crate) fn is_empty(dir: &Path) -> Result<bool, StoreError> {
    match fs::read_dir(dir) {
        Ok(mut entries) => Ok(entries.next().is_none()),
        Err(why) if why.kind() == io::ErrorKind::NotFound => Ok(true),
        Err(why) => Err(StoreError::file(dir, &why)),
    }
}

/// Makes the folder and those above it where they are missing, safe against power loss: a folder's name stands in the folder above it.
pub(crate) fn make_dir(dir: &Path) -> io::Result<()> {
    let missing = dir.ancestors().take_while(|above| !above.exists());
    // Also above one that is there: a program that was stopped may have made it and not come to this.
    let unsure: Vec<_> = missing.chain([dir]).filter_map(Path::parent).collect();
    fs::create_dir_all(dir)?;
    unsure.into_iter().try_for_each(|above| {
        let above = if above.as_os_str().is_empty() {
            Path::new(".")
        } else {
            above
        };
        match flush_dir(above) {
            // Folders can be made in one whose names may not be read.
            Err(why) if why.kind() == io::ErrorKind::PermissionDenied => Ok(()),
            other => other,
        }
    })
}

/// Makes a folder's own list of names safe against power loss.
pub(crate) fn sync_dir(dir: &Path) -> Result<(), StoreError> {
    flush_dir(dir).map_err(|why| StoreError::file(dir, &why))
}

fn flush_dir(dir: &Path) -> io::Result<()> {
    // Only Unix lets a folder be opened and flushed; elsewhere the system does it by itself.
    if cfg!(unix) {
        File::open(dir)?.sync_all()?;
    }
    Ok(())
}

fn refuse_share(dir: &Path, mounts: &str) -> Result<(), StoreError> {
    let whole = fs::canonicalize(dir).map_err(|why| StoreError::cannot_write(dir, &why))?;
    match file_system(&whole, mounts) {
        Some(kind) if SHARES.contains(&kind) => Err(StoreError::NetworkShare {
            dir: dir.display().to_string(),
            kind: kind.to_owned(),
        }),
        _ => Ok(()),
    }
}

/// The file system that holds `dir`: the mount with the longest fitting path, the later of two on the same path.
fn file_system<'a>(dir: &Path, mounts: &'a str) -> Option<&'a str> {
    let fitting = mounts.lines().filter_map(|line| {
        let mut fields = line.split(' ').skip(1);
        let (at, kind) = (unescape(fields.next()?), fields.next()?);
        dir.starts_with(&at).then_some((at.len(), kind))
    });
    fitting
        .max_by_key(|(length, _)| *length)
        .map(|(_, kind)| kind)
}

/// The kernel writes blanks in paths as octal.
fn unescape(text: &str) -> String {
    text.replace("\\040", " ")
        .replace("\\011", "\t")
        .replace("\\012", "\n")
        .replace("\\134", "\\")
}

#[cfg(test)]
mod tests {
    use super::*;

    const MOUNTS: &str = "/dev/sda1 / ext4 rw 0 0\nbox:/yard /srv/yard nfs4 rw 0 0\n//box/y /mnt/the\\040yard cifs rw 0 0\n\
        /dev/sdb1 /srv/yard/local ext4 rw 0 0\nme@box: /home/me/far fuse.sshfs rw 0 0\n";

    #[test]
    fn a_folder_let_go_is_free_although_a_program_being_started_has_the_file_open_too() {
        let dir = tempfile::tempdir().unwrap();
        let held = hold(dir.path()).unwrap();
        let also_open = held.0.try_clone().unwrap();
        assert!(hold(dir.path()).is_err());
        drop(held);
        assert!(hold(dir.path()).is_ok());
        drop(also_open);
    }

    #[test]
    fn the_longest_mount_counts() {
        let kinds = [
            "/srv",
            "/srv/yard/a",
            "/srv/yard/local/a",
            "/mnt/the yard",
            "/home/me/far",
            "/srv/yardstick",
        ];
        let found: Vec<_> = kinds
            .iter()
            .map(|dir| file_system(Path::new(dir), MOUNTS).unwrap())
            .collect();
        assert_eq!(
            found,
            ["ext4", "nfs4", "ext4", "cifs", "fuse.sshfs", "ext4"]
        );
    }

    #[test]
    fn a_share_is_refused_and_named() {
        let dir = tempfile::tempdir().unwrap();
        let whole = dir.path().canonicalize().unwrap();
        for (kind, refused) in [
            ("nfs", true),
            ("smb3", true),
            ("fuse.sshfs", true),
            ("ext4", false),
            ("btrfs", false),
            ("fuseblk", false),
        ] {
            let mounts = format!(
                "/dev/sda1 / ext4 rw 0 0\nx {} {kind} rw 0 0\n",
                whole.display()
            );
            let expected = StoreError::NetworkShare {
                dir: whole.display().to_string(),
                kind: kind.to_owned(),
            };
            assert_eq!(
                refuse_share(&whole, &mounts),
                if refused { Err(expected) } else { Ok(()) }
            );
        }
    }
}
