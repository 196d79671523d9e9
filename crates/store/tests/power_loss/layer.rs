//! The recording layer: this program's own `open`, `write`, `fsync` and their like, which the linker puts before the C library's.
//!
//! So everything that asks the system for a file goes through here, SQLite and Rust's own library alike. Each call is passed on to the
//! kernel as it is; calls on files below the watched folder are also noted. Paths come whole, as the store gives them.

use libc::{AT_FDCWD, c_char, c_int, c_long, c_uint, c_void, off_t, size_t, ssize_t, syscall};
use std::{
    collections::BTreeMap,
    ffi::{CStr, OsStr},
    os::unix::ffi::OsStrExt,
    path::{Path, PathBuf},
    slice,
    sync::{
        Mutex, MutexGuard, PoisonError,
        atomic::{AtomicBool, Ordering::SeqCst},
    },
};

/// One thing asked of the disk. A file is named by its number in order of making, since names move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Call {
    Make {
        path: PathBuf,
        file: usize,
    },
    MakeFolder {
        path: PathBuf,
    },
    Write {
        file: usize,
        at: usize,
        bytes: Vec<u8>,
    },
    Cut {
        file: usize,
        length: usize,
    },
    /// With the name it was opened by.
    Sync {
        file: usize,
        path: PathBuf,
    },
    SyncFolder {
        path: PathBuf,
    },
    Remove {
        path: PathBuf,
    },
    /// A sync that was answered and not done.
    Forgotten,
    Rename {
        from: PathBuf,
        to: PathBuf,
    },
}

impl Call {
    pub(crate) fn is_sync(&self) -> bool {
        matches!(self, Call::Sync { .. } | Call::SyncFolder { .. })
    }

    /// Whether it syncs a file with such a name.
    pub(crate) fn syncs_file(&self, ending: &str) -> bool {
        matches!(self, Call::Sync { path, .. } if path.to_string_lossy().ends_with(ending))
    }

    /// The call; a sync that the disk does not keep becomes one that does nothing.
    pub(crate) fn kept_if(&self, kept: bool) -> Call {
        if kept { self.clone() } else { Call::Forgotten }
    }
}

/// What is being recorded.
struct Recording {
    below: PathBuf,
    calls: Vec<Call>,
    files: usize,
    /// The file behind each name that is there now.
    named: BTreeMap<PathBuf, usize>,
    open: BTreeMap<c_int, Open>,
}

#[derive(Clone)]
enum Open {
    File(usize, PathBuf),
    Folder(PathBuf),
}

static RECORDING: Mutex<Option<Recording>> = Mutex::new(None);
/// One recording at a time.
static TURN: Mutex<()> = Mutex::new(());
static AS_IF_KEPT: AtomicBool = AtomicBool::new(false);

/// Answers syncs without doing them, from now on: for folders that only have to last as long as this program.
pub(crate) fn as_if_kept() {
    AS_IF_KEPT.store(true, SeqCst);
}

/// Records what `work` asks of the disk below a folder. `work` may ask how many calls there were so far.
pub(crate) fn record<R>(
    below: &Path,
    work: impl FnOnce(&dyn Fn() -> usize) -> R,
) -> (Vec<Call>, R) {
    let _turn = TURN.lock().unwrap_or_else(PoisonError::into_inner);
    *recording() = Some(Recording {
        below: below.to_owned(),
        calls: Vec::new(),
        files: 0,
        named: BTreeMap::new(),
        open: BTreeMap::new(),
    });
    let done = work(&|| {
        recording()
            .as_ref()
            .map_or(0, |recording| recording.calls.len())
    });
    let calls = recording().take().map(|recording| recording.calls);
    (calls.unwrap_or_default(), done)
}

fn recording() -> MutexGuard<'static, Option<Recording>> {
    RECORDING.lock().unwrap_or_else(PoisonError::into_inner)
}

/// Lets `with` note something, when anything is being recorded.
fn note(with: impl FnOnce(&mut Recording)) {
    if let Some(recording) = recording().as_mut() {
        with(recording);
    }
}

impl Recording {
    fn opened(&mut self, fd: c_int, path: PathBuf, flags: c_int, was_there: bool) {
        if !path.starts_with(&self.below) {
            return;
        }
        if path.is_dir() {
            self.open.insert(fd, Open::Folder(path));
            return;
        }
        if !was_there {
            self.calls.push(Call::Make {
                path: path.clone(),
                file: self.files,
            });
            self.named.insert(path.clone(), self.files);
            self.files += 1;
        }
        let file = self.named[&path];
        if was_there && flags & libc::O_TRUNC != 0 {
            self.calls.push(Call::Cut { file, length: 0 });
        }
        self.open.insert(fd, Open::File(file, path));
    }

    fn wrote(&mut self, fd: c_int, at: off_t, bytes: &[u8]) {
        if let Some(Open::File(file, _)) = self.open.get(&fd) {
            self.calls.push(Call::Write {
                file: *file,
                at: usize::try_from(at).unwrap(),
                bytes: bytes.to_vec(),
            });
        }
    }

    fn cut(&mut self, fd: c_int, length: off_t) {
        if let Some(Open::File(file, _)) = self.open.get(&fd) {
            self.calls.push(Call::Cut {
                file: *file,
                length: usize::try_from(length).unwrap(),
            });
        }
    }

    fn synced(&mut self, fd: c_int) {
        let call = match self.open.get(&fd).cloned() {
            None => return,
            Some(Open::File(file, path)) => Call::Sync { file, path },
            Some(Open::Folder(path)) => Call::SyncFolder { path },
        };
        self.calls.push(call);
    }

    fn made_folder(&mut self, path: PathBuf) {
        if path.starts_with(&self.below) {
            self.calls.push(Call::MakeFolder { path });
        }
    }

    fn removed(&mut self, path: PathBuf) {
        if self.named.remove(&path).is_some() {
            self.calls.push(Call::Remove { path });
        }
    }

    fn renamed(&mut self, from: PathBuf, to: PathBuf) {
        if let Some(file) = self.named.remove(&from) {
            self.named.insert(to.clone(), file);
            self.calls.push(Call::Rename { from, to });
        }
    }
}

// --- The calls themselves ------------------------------------------------------------------------------------------
//
// Safety, for all of them: they are called as the C library's are, with what the C library's ask for, and hand that to the kernel
// unchanged. A path is a C string; `bytes` is as long as `count` says wherever the kernel took it without complaint.

unsafe fn path(name: *const c_char) -> PathBuf {
    PathBuf::from(OsStr::from_bytes(
        unsafe { CStr::from_ptr(name) }.to_bytes(),
    ))
}

fn whole(answer: c_long) -> c_int {
    answer as c_int
}

/// The C library's takes its third argument only sometimes; on Linux it comes the same way as one that is always there.
#[unsafe(no_mangle)]
unsafe extern "C" fn open(name: *const c_char, flags: c_int, mode: c_uint) -> c_int {
    let named = unsafe { path(name) };
    let was_there = named.exists();
    let fd = whole(unsafe { syscall(libc::SYS_openat, AT_FDCWD, name, flags, mode) });
    if fd >= 0 {
        note(|recording| recording.opened(fd, named, flags, was_there));
    }
    fd
}

#[unsafe(no_mangle)]
unsafe extern "C" fn open64(name: *const c_char, flags: c_int, mode: c_uint) -> c_int {
    unsafe { open(name, flags, mode) }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn close(fd: c_int) -> c_int {
    note(|recording| {
        recording.open.remove(&fd);
    });
    whole(unsafe { syscall(libc::SYS_close, fd) })
}

#[unsafe(no_mangle)]
unsafe extern "C" fn write(fd: c_int, bytes: *const c_void, count: size_t) -> ssize_t {
    let at = unsafe { libc::lseek(fd, 0, libc::SEEK_CUR) };
    let written = unsafe { syscall(libc::SYS_write, fd, bytes, count) };
    if written > 0 && at >= 0 {
        let bytes = unsafe { slice::from_raw_parts(bytes.cast(), written as usize) };
        note(|recording| recording.wrote(fd, at, bytes));
    }
    written as ssize_t
}

#[unsafe(no_mangle)]
unsafe extern "C" fn pwrite(fd: c_int, bytes: *const c_void, count: size_t, at: off_t) -> ssize_t {
    let written = unsafe { syscall(libc::SYS_pwrite64, fd, bytes, count, at) };
    if written > 0 {
        let bytes = unsafe { slice::from_raw_parts(bytes.cast(), written as usize) };
        note(|recording| recording.wrote(fd, at, bytes));
    }
    written as ssize_t
}

#[unsafe(no_mangle)]
unsafe extern "C" fn pwrite64(
    fd: c_int,
    bytes: *const c_void,
    count: size_t,
    at: off_t,
) -> ssize_t {
    unsafe { pwrite(fd, bytes, count, at) }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn ftruncate(fd: c_int, length: off_t) -> c_int {
    let done = whole(unsafe { syscall(libc::SYS_ftruncate, fd, length) });
    if done == 0 {
        note(|recording| recording.cut(fd, length));
    }
    done
}

#[unsafe(no_mangle)]
unsafe extern "C" fn ftruncate64(fd: c_int, length: off_t) -> c_int {
    unsafe { ftruncate(fd, length) }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn fsync(fd: c_int) -> c_int {
    let done = if AS_IF_KEPT.load(SeqCst) {
        0
    } else {
        whole(unsafe { syscall(libc::SYS_fsync, fd) })
    };
    if done == 0 {
        note(|recording| recording.synced(fd));
    }
    done
}

#[unsafe(no_mangle)]
unsafe extern "C" fn fdatasync(fd: c_int) -> c_int {
    unsafe { fsync(fd) }
}

#[unsafe(no_mangle)]
unsafe extern "C" fn unlink(name: *const c_char) -> c_int {
    let done = whole(unsafe { syscall(libc::SYS_unlinkat, AT_FDCWD, name, 0) });
    if done == 0 {
        let named = unsafe { path(name) };
        note(|recording| recording.removed(named));
    }
    done
}

#[unsafe(no_mangle)]
unsafe extern "C" fn rename(from: *const c_char, to: *const c_char) -> c_int {
    let done = whole(unsafe { syscall(libc::SYS_renameat2, AT_FDCWD, from, AT_FDCWD, to, 0) });
    if done == 0 {
        let (from, to) = unsafe { (path(from), path(to)) };
        note(|recording| recording.renamed(from, to));
    }
    done
}

#[unsafe(no_mangle)]
unsafe extern "C" fn mkdir(name: *const c_char, mode: c_uint) -> c_int {
    let done = whole(unsafe { syscall(libc::SYS_mkdirat, AT_FDCWD, name, mode) });
    if done == 0 {
        let named = unsafe { path(name) };
        note(|recording| recording.made_folder(named));
    }
    done
}
