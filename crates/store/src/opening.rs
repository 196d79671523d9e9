//! The store: opening it, and the yards in it.

use crate::{
    StoreError, Yard,
    engine::{
        Memory, Sqlite,
        place::{self, Held},
    },
    fresh_id,
    journal::Engine,
    pictures::Pictures,
};
use std::{
    path::{Path, PathBuf},
    sync::{Arc, Mutex, MutexGuard, PoisonError},
};
use yard::{id::YardId, world::World};

/// The store's file in its folder.
pub(crate) const FILE: &str = "kingpost.db";

/// An open store. Cheap to clone; all clones are the same store, and it is closed with the last of them and of its [`Yard`]s.
#[derive(Clone)]
pub struct Store {
    pub(crate) inner: Arc<Inner>,
}

impl std::fmt::Debug for Store {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Store")
            .field("dir", &self.inner.dir)
            .finish_non_exhaustive()
    }
}

/// What all handles share.
pub(crate) struct Inner {
    engine: Mutex<Box<dyn Engine>>,
    pub(crate) pictures: Pictures,
    /// The folder of a SQLite store.
    pub(crate) dir: Option<PathBuf>,
    look_only: bool,
    /// Holds the folder against other programs until dropped.
    _held: Option<Held>,
}

/// Whether the folder holds a store.
pub fn holds_store(dir: &Path) -> bool {
    dir.join(FILE).is_file()
}

impl Store {
    /// Opens the folder's store, making folder and store where they are missing, and holds it against other programs.
    ///
    /// # Errors
    /// [`StoreError::NetworkShare`], [`StoreError::CannotWrite`], [`StoreError::HeldByAnother`], [`StoreError::NewerSchema`],
    /// [`StoreError::NotOurs`]; the engine's own.
    pub fn open(dir: &Path) -> Result<Self, StoreError> {
        place::prepare(dir)?;
        let held = place::hold(dir)?;
        let engine = Sqlite::open(&dir.join(FILE))?;
        place::sync_dir(dir)?;
        Ok(Self::with(
            Box::new(engine),
            Pictures::folder(dir),
            Some(dir.to_owned()),
            false,
            Some(held),
        ))
    }

    /// Opens the folder's store to look only (verify, back up, export), also while another program holds it.
    ///
    /// # Errors
    /// [`StoreError::NothingThere`]; else as [`Store::open`] without holding. Every write gives [`StoreError::LookOnly`].
    pub fn open_to_look(dir: &Path) -> Result<Self, StoreError> {
        if !holds_store(dir) {
            return Err(StoreError::NothingThere {
                dir: dir.display().to_string(),
            });
        }
        let engine = Sqlite::open_to_look(&dir.join(FILE))?;
        Ok(Self::with(
            Box::new(engine),
            Pictures::folder(dir),
            Some(dir.to_owned()),
            true,
            None,
        ))
    }

    /// A store in memory, forgotten when dropped.
    pub fn open_memory() -> Self {
        Self::with(
            Box::new(Memory::default()),
            Pictures::memory(),
            None,
            false,
            None,
        )
    }

    /// Opens a store in PostgreSQL, making its tables where they are missing; photos lie in `dir`. Several programs may share it.
    ///
    /// # Errors
    /// [`StoreError::NewerSchema`], [`StoreError::CannotWrite`]; the engine's own, among them that the server does not answer.
    #[cfg(feature = "postgres")]
    pub fn open_postgres(url: &str, dir: &Path) -> Result<Self, StoreError> {
        place::prepare(dir)?;
        let engine = crate::engine::Postgres::open(url)?;
        Ok(Self::with(
            Box::new(engine),
            Pictures::folder(dir),
            None,
            false,
            None,
        ))
    }

    fn with(
        engine: Box<dyn Engine>,
        pictures: Pictures,
        dir: Option<PathBuf>,
        look_only: bool,
        held: Option<Held>,
    ) -> Self {
        Self {
            inner: Arc::new(Inner {
                engine: Mutex::new(engine),
                pictures,
                dir,
                look_only,
                _held: held,
            }),
        }
    }

    /// Makes a yard.
    ///
    /// # Errors
    /// The engine's own.
    pub fn create_yard(&self, name: &str, world: &dyn World) -> Result<Yard, StoreError> {
        self.add_yard(YardId(fresh_id(world)), name)
    }

    /// Makes a yard whose id is known, as when it is moved here.
    ///
    /// # Errors
    /// [`StoreError::YardExists`]; the engine's own.
    pub fn add_yard(&self, id: YardId, name: &str) -> Result<Yard, StoreError> {
        self.inner.to_write()?.add_yard(id, name)?;
        Ok(Yard::new(Arc::clone(&self.inner), id, name.to_owned()))
    }

    /// All yards, in the order they were made.
    ///
    /// # Errors
    /// The engine's own.
    pub fn yards(&self) -> Result<Vec<Yard>, StoreError> {
        let yards = self.inner.engine().yards()?;
        Ok(yards
            .into_iter()
            .map(|(id, name)| Yard::new(Arc::clone(&self.inner), id, name))
            .collect())
    }

    /// The yard that was made first: in a store for one yard, the yard.
    ///
    /// # Errors
    /// [`StoreError::NoYard`]; the engine's own.
    pub fn yard(&self) -> Result<Yard, StoreError> {
        self.yards()?.into_iter().next().ok_or(StoreError::NoYard)
    }

    /// The yard with this id.
    ///
    /// # Errors
    /// [`StoreError::NoYard`]; the engine's own.
    pub fn yard_of(&self, id: YardId) -> Result<Yard, StoreError> {
        self.yards()?
            .into_iter()
            .find(|yard| yard.id() == id)
            .ok_or(StoreError::NoYard)
    }
}

impl Inner {
    /// The engine, for looking.
    pub(crate) fn engine(&self) -> MutexGuard<'_, Box<dyn Engine>> {
        // A panic elsewhere leaves no half-done step: engines write in transactions.
        self.engine.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// The engine, for writing.
    pub(crate) fn to_write(&self) -> Result<MutexGuard<'_, Box<dyn Engine>>, StoreError> {
        if self.look_only {
            Err(StoreError::LookOnly)
        } else {
            Ok(self.engine())
        }
    }
}
