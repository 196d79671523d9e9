//! The demo yard: invented, one machine, five people, three months of journal, the same for the same seed and day.
//!
//! Reading order: [`make`], a whole yard in a folder; [`fill`], the journal; `cast`, who is who; `founding`, the first evening; `calendar`,
//! which days are worked and by whom; `tale`, what goes wrong and when it is mended; `shift`, one day, with `mending` and `evening`; `walk`, one round; `sketch`, its
//! photos; `pen`, how an entry gets in.

mod calendar;
mod cast;
mod evening;
mod founding;
mod mending;
mod pen;
mod shift;
mod sketch;
mod tale;
mod walk;
mod well;

use cast::Cast;
use jiff::{Span, Timestamp, civil::Date, tz::TimeZone};
use pen::Pen;
use std::path::Path;
use store::{Person, Store, StoreError, Yard};
use tale::Tale;
use yard::{id::MachineId, world::World};

/// Everybody's PIN in the demo yard: known, because everything there is invented.
pub const PIN: &str = "2580";
/// What the yard is called.
pub const NAME: &str = "Saltmarsh Lane yard (invented)";
/// The machine's book.
pub const BOOK: &str = include_str!("../../../../demo/marigold.toml");
/// How far back the journal goes, days.
const DAYS: i64 = 91;

/// What the journal depends on, and nothing else.
#[derive(Clone, Debug)]
pub struct Script {
    /// The last day in the journal: yesterday.
    pub last: Date,
    /// The yard's time zone.
    pub zone: TimeZone,
    /// Seed of everything drawn.
    pub seed: u64,
}

impl Script {
    /// The usual demo as of now: it ended yesterday evening.
    pub fn as_of(now: Timestamp, zone: TimeZone) -> Self {
        let today = now.to_zoned_datetime(zone.clone()).date();
        let last = today.checked_sub(Span::new().days(1)).unwrap_or(today);
        Self {
            last,
            zone,
            seed: 4720,
        }
    }
}

/// Makes the demo yard in an empty or missing folder, as of now. Nothing shows there until everything is there and sound.
///
/// # Errors
/// [`StoreError::NotEmpty`] where the folder holds something; the errors of writing a store.
pub fn make(dir: &Path, world: &dyn World) -> Result<(), StoreError> {
    let now = world.now();
    let store = Store::open_memory();
    fill(&store, &Script::as_of(now, world.zone()))?;
    let parent = dir
        .parent()
        .filter(|parent| !parent.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    std::fs::create_dir_all(parent).map_err(|why| StoreError::CannotWrite {
        dir: parent.display().to_string(),
        why: why.to_string(),
    })?;
    let made = parent.join(format!(
        ".kingpost-demo-{}",
        store::fresh_id(world).simple()
    ));
    let restored = store
        .backup(&made, now)
        .and_then(|_| store::restore(&made, dir));
    let removed = std::fs::remove_dir_all(&made);
    restored?;
    removed.map_err(|why| StoreError::File {
        path: made.display().to_string(),
        why: why.to_string(),
    })
}

/// Writes the demo yard into a store: people, then every entry at its own time.
///
/// # Errors
/// The store's own; [`StoreError::YardExists`] where it was filled from the same seed already.
pub fn fill(store: &Store, script: &Script) -> Result<Yard, StoreError> {
    let mut pen = Pen::new(store, script)?;
    let cast = people(&mut pen)?;
    let first = script
        .last
        .checked_sub(Span::new().days(DAYS))
        .unwrap_or(script.last);
    founding::write(&mut pen, &cast, first)?;
    let days = calendar::days(&mut pen, first, script.last);
    let mut tale = Tale::new(days.len());
    for day in &days {
        shift::work(&mut pen, &cast, &mut tale, day)?;
    }
    Ok(pen.yard())
}

/// The machine of the demo.
pub(crate) fn marigold() -> MachineId {
    MachineId::new("marigold").expect("the book's own id is well formed")
}

fn people(pen: &mut Pen) -> Result<Cast, StoreError> {
    let cast = Cast::drawn(pen);
    for (id, name) in cast.all() {
        let hash = server::session::pin_hash(PIN, pen.world()).ok();
        pen.yard().keep_person(&Person {
            id,
            name: Some(name.to_owned()),
            pin_hash: hash,
            active: true,
            invented: true,
        })?;
    }
    Ok(cast)
}

#[cfg(test)]
mod tests;
