//! What a disk may hold after a power cut: everything that was synced, and of the rest what chance left.

use crate::layer::Call;
use std::{
    collections::{BTreeMap, BTreeSet},
    path::{Path, PathBuf},
};

/// A disk's sectors are kept or lost each by itself.
const SECTOR: usize = 512;

/// What becomes of what was asked of the disk but not synced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fate {
    /// All is there.
    All,
    /// Nothing is there.
    Nothing,
    /// Only what was asked last is there: the order was turned round.
    Last,
    /// Each call by itself is there or not.
    Some(u64),
    /// Each sector of each write is there, or not, or the file only grew for it.
    Torn(u64),
    /// Each sector of each write is there, or not, or holds anything at all.
    Noise(u64),
}

/// Files with what they hold, and folders with nothing, by their paths below the watched folder.
pub(crate) type Image = BTreeMap<PathBuf, Option<Vec<u8>>>;

/// What is on a disk.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Disk {
    files: BTreeMap<usize, Vec<u8>>,
    names: BTreeMap<PathBuf, Node>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Node {
    File(usize),
    Folder,
}

/// A record played back, beginning by beginning.
pub(crate) struct Replay<'a> {
    calls: &'a [Call],
    /// What can no longer change: the calls before `settled`, all of them durable.
    base: Disk,
    settled: usize,
}

impl<'a> Replay<'a> {
    pub(crate) fn new(calls: &'a [Call]) -> Self {
        Self {
            calls,
            base: Disk::default(),
            settled: 0,
        }
    }

    /// The disk when the power goes after the first `length` calls. Lengths are asked for in rising order.
    pub(crate) fn cut_after(&mut self, length: usize, fate: Fate) -> Disk {
        let durable = durable(&self.calls[self.settled..length]);
        let mut disk = self.base.clone();
        let mut chance = Chance::new(fate, length);
        for (call, kept) in self.calls[self.settled..length].iter().zip(&durable) {
            if *kept {
                disk.take(call);
            } else {
                let last = std::ptr::eq(call, &self.calls[length - 1]);
                disk.take_by_chance(call, fate, last, &mut chance);
            }
        }
        let settled = durable.iter().take_while(|kept| **kept).count();
        for call in &self.calls[self.settled..self.settled + settled] {
            self.base.take(call);
        }
        self.settled += settled;
        disk
    }
}

/// Which of the calls a later sync among them made durable.
fn durable(calls: &[Call]) -> Vec<bool> {
    let (mut files, mut folders) = (BTreeSet::new(), BTreeSet::new());
    let mut durable: Vec<_> = calls
        .iter()
        .rev()
        .map(|call| match call {
            Call::Sync { file, .. } => {
                files.insert(*file);
                true
            }
            Call::SyncFolder { path } => {
                folders.insert(path.as_path());
                true
            }
            Call::Forgotten => true,
            Call::Write { file, .. } | Call::Cut { file, .. } => files.contains(file),
            Call::Make { path, .. } | Call::MakeFolder { path } | Call::Remove { path } => {
                folders.contains(path.parent().unwrap())
            }
            Call::Rename { from, to } => {
                assert_eq!(from.parent(), to.parent(), "a move between folders");
                folders.contains(to.parent().unwrap())
            }
        })
        .collect();
    durable.reverse();
    durable
}

impl Disk {
    fn take(&mut self, call: &Call) {
        match call {
            Call::Make { path, file } => {
                self.names.insert(path.clone(), Node::File(*file));
            }
            Call::MakeFolder { path } => {
                self.names.insert(path.clone(), Node::Folder);
            }
            Call::Write { file, at, bytes } => self.put(*file, *at, bytes),
            Call::Cut { file, length } => self.files.entry(*file).or_default().resize(*length, 0),
            Call::Sync { .. } | Call::SyncFolder { .. } | Call::Forgotten => {}
            Call::Remove { path } => {
                self.names.remove(path);
            }
            Call::Rename { from, to } => {
                if let Some(node) = self.names.remove(from) {
                    self.names.insert(to.clone(), node);
                }
            }
        }
    }

    fn take_by_chance(&mut self, call: &Call, fate: Fate, last: bool, chance: &mut Chance) {
        match (fate, call) {
            (Fate::All, _) => self.take(call),
            (Fate::Nothing, _) => {}
            (Fate::Last, _) if last => self.take(call),
            (Fate::Last, _) => {}
            (Fate::Torn(_) | Fate::Noise(_), Call::Write { file, at, bytes }) => {
                for (at, piece) in pieces(*at, bytes) {
                    match (chance.of(3), fate) {
                        (0, _) => {}
                        (1, _) => self.put(*file, at, piece),
                        (_, Fate::Torn(_)) => self.grow(*file, at + piece.len()),
                        (_, _) => self.put(*file, at, &chance.noise(piece.len())),
                    }
                }
            }
            (Fate::Some(_) | Fate::Torn(_) | Fate::Noise(_), _) => {
                if chance.of(2) == 1 {
                    self.take(call);
                }
            }
        }
    }

    fn put(&mut self, file: usize, at: usize, bytes: &[u8]) {
        self.grow(file, at + bytes.len());
        self.files.entry(file).or_default()[at..at + bytes.len()].copy_from_slice(bytes);
    }

    fn grow(&mut self, file: usize, length: usize) {
        let there = self.files.entry(file).or_default();
        there.resize(there.len().max(length), 0);
    }

    /// What can be reached by its name, from a folder that was always there: what each file holds; for a folder nothing.
    pub(crate) fn reachable(&self, below: &Path) -> Image {
        let mut found = Image::new();
        // By name, a folder comes before what is in it.
        for (path, node) in &self.names {
            let parent = path.parent().unwrap();
            if parent == below || found.contains_key(parent.strip_prefix(below).unwrap()) {
                let holds = match node {
                    Node::Folder => None,
                    Node::File(file) => Some(self.files.get(file).cloned().unwrap_or_default()),
                };
                found.insert(path.strip_prefix(below).unwrap().to_owned(), holds);
            }
        }
        found
    }
}

/// Chance from a seed (a Weyl sequence through a multiplicative mix): the same every time.
struct Chance(u64);

impl Chance {
    fn new(fate: Fate, length: usize) -> Self {
        let seed = match fate {
            Fate::Some(seed) | Fate::Torn(seed) | Fate::Noise(seed) => seed,
            Fate::All | Fate::Nothing | Fate::Last => 0,
        };
        Self(seed << 32 | length as u64)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 32)).wrapping_mul(0xd6e8_feb8_6659_fd93);
        let mixed = (mixed ^ (mixed >> 32)).wrapping_mul(0xd6e8_feb8_6659_fd93);
        mixed ^ (mixed >> 32)
    }

    /// A number below `most`.
    fn of(&mut self, most: u64) -> u64 {
        self.next() % most
    }

    fn noise(&mut self, length: usize) -> Vec<u8> {
        (0..length).map(|_| self.next() as u8).collect()
    }
}

fn pieces(at: usize, bytes: &[u8]) -> Vec<(usize, &[u8])> {
    let mut pieces = Vec::new();
    let mut begin = 0;
    while begin < bytes.len() {
        let to_edge = SECTOR - (at + begin) % SECTOR;
        let end = bytes.len().min(begin + to_edge);
        pieces.push((at + begin, &bytes[begin..end]));
        begin = end;
    }
    pieces
}
