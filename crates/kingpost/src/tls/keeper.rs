//! Keeps what is served fresh while the server runs: the leaf renewed, files read again when they were written anew.

use super::{
    folder::{Folder, Pair},
    names::{self, Name},
    own_files::{OwnFiles, Stamp},
    shown::Shown,
    snag::Snag,
};
use rustls::ServerConfig;
use std::{
    collections::BTreeSet,
    sync::{Arc, Mutex, PoisonError},
};
use yard::world::World;

/// Where the certificate comes from.
#[derive(Clone, Debug)]
pub(crate) enum Source {
    /// The yard's own root.
    Root {
        /// Where it lies.
        folder: Folder,
        /// The yard's name, for a new root.
        yard: String,
        /// Names to be reached by, besides those this computer has.
        named: BTreeSet<Name>,
    },
    /// Files from elsewhere.
    Files {
        /// The two of them.
        files: OwnFiles,
        /// The name or number that phones are told, where one was named.
        address: Option<Name>,
    },
}

/// What is served.
#[derive(Clone)]
pub(crate) struct Served {
    /// The certificate.
    pub(crate) leaf: Shown,
    /// The yard's own root, where it is under it.
    pub(crate) root: Option<Pair>,
    /// How the server speaks.
    pub(crate) config: Arc<ServerConfig>,
    /// What it was read or made from: differs when something changed.
    mark: Mark,
}

#[derive(Clone, PartialEq)]
enum Mark {
    Leaf(Vec<u8>),
    Files(Stamp),
}

/// Keeps it fresh.
pub(crate) struct Keeper {
    source: Source,
    world: Arc<dyn World>,
    served: Mutex<Served>,
}

impl Keeper {
    /// Begins to serve: everything is checked, what is missing is made.
    pub(crate) fn begin(source: Source, world: Arc<dyn World>) -> Result<Self, Snag> {
        let served = fresh(&source, world.as_ref())?;
        Ok(Self {
            source,
            world,
            served: Mutex::new(served),
        })
    }

    /// What is served now.
    pub(crate) fn served(&self) -> Served {
        self.served
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }

    /// Looks whether something must be served anew, and gives it. On a snag the old goes on.
    pub(crate) fn look(&self) -> Result<Option<Served>, Snag> {
        let old = self.served().mark;
        if let (Source::Files { files, .. }, Mark::Files(stamp)) = (&self.source, &old)
            && files.stamp() == *stamp
        {
            return Ok(None);
        }
        let new = fresh(&self.source, self.world.as_ref())?;
        if new.mark == old {
            return Ok(None);
        }
        *self.served.lock().unwrap_or_else(PoisonError::into_inner) = new.clone();
        Ok(Some(new))
    }
}

fn fresh(source: &Source, world: &dyn World) -> Result<Served, Snag> {
    match source {
        Source::Root {
            folder,
            yard,
            named,
        } => under_root(folder, yard, named, world),
        Source::Files { files, address } => {
            // Noted before they are read: what is written meanwhile is read the next time.
            let stamp = files.stamp();
            let (leaf, config) = files.read(address.as_ref(), world.now())?;
            Ok(Served {
                leaf,
                root: None,
                config,
                mark: Mark::Files(stamp),
            })
        }
    }
}

fn under_root(
    folder: &Folder,
    yard: &str,
    named: &BTreeSet<Name>,
    world: &dyn World,
) -> Result<Served, Snag> {
    let root = folder.root_or_new(yard, named, world)?;
    let names = wanted(&root, named)?;
    let leaf = folder.leaf(&root, &names, world, false)?;
    Ok(Served {
        leaf: leaf.shown()?,
        root: Some(root),
        config: leaf.config()?,
        mark: Mark::Leaf(leaf.certificate().to_vec()),
    })
}

/// The names a leaf under this root shall have: this computer's, those the root was made with, those named now. One that was named
/// and that the root does not reach is a snag; one that the computer happens to have is left out, for it would spoil the rest.
pub(crate) fn wanted(root: &Pair, named: &BTreeSet<Name>) -> Result<BTreeSet<Name>, Snag> {
    let reach = root.shown()?.reach;
    if let Some(outside) = named.iter().find(|name| !reach.covers(name)) {
        return Err(Snag::Yours(
            "https-out-of-reach",
            vec![("name", outside.to_string())],
        ));
    }
    let mut all = names::here();
    all.extend(reach.named());
    all.extend(named.iter().cloned());
    all.retain(|name| reach.covers(name));
    Ok(all)
}
