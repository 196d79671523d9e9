//! The demo yard: invented, six machines and what two of them share, nine people, two years of journal, the same for the same seed and day.
//!
//! Reading order: [`make`], a whole yard in a folder; [`fill`], the journal; `cast`, who is who; `fleet`, the machines; `founding`, how each
//! began; `calendar`, which days are worked and by whom; `tale`, what goes wrong and when it is mended; `hung`, what two of them share; `season` and `stories`, what
//! else happens; `shift`, one day, with `mending` and `evening`; `walk`, one round; `sketch`, its photos; `pen`, how an entry gets in.

mod calendar;
mod cast;
mod evening;
mod fleet;
mod founding;
mod hung;
mod mending;
mod pen;
mod season;
mod shift;
mod sketch;
mod stories;
mod tale;
mod walk;
mod well;

use cast::Cast;
use fleet::Member;
use jiff::{Span, Timestamp, civil::Date, tz::TimeZone};
use pen::Pen;
use season::Season;
use std::path::Path;
use store::{Person, Store, StoreError, Yard};
use stories::Story;
use tale::Tale;
use yard::{id::MachineId, world::World};

/// Everybody's PIN in the demo yard: known, because everything there is invented.
pub const PIN: &str = "2580";
/// What the yard is called.
pub const NAME: &str = "Saltmarsh Lane yard (invented)";
/// The book of Marigold, the machine that is used every day.
pub const BOOK: &str = include_str!("../../../../demo/marigold.toml");
/// How far back Marigold's daily work goes, days; before, she was used now and then.
const DAYS: i64 = 91;
/// How far back the journal goes, days: two years.
const YEARS: i64 = 730;

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
    let back = |days| {
        let day = script.last.checked_sub(Span::new().days(days));
        day.unwrap_or(script.last)
    };
    let mut first = Pen::new(store, script)?;
    let cast = people(&mut first)?;
    founding::roles(&mut first, &cast, back(YEARS))?;
    let mut pens = Vec::new();
    let shared = MachineId::new(hung::SEDGE).expect("the demo's ids are well formed");
    let mut heard = Vec::new();
    for (stream, member) in (1..).zip(&fleet::all()) {
        let mut pen = first.of_machine(script, member, stream);
        pen.has_heard(&heard);
        live(&mut pen, &cast, member, back(member.days.0 + 1), script)?;
        heard = pen.told_of(&shared);
        pens.push(pen);
    }
    let yard = first.yard();
    pens.insert(0, first);
    pen::into_journal(pens)?;
    Ok(yard)
}

/// One machine's life in the yard.
fn live(
    pen: &mut Pen,
    cast: &Cast,
    member: &Member,
    first: Date,
    script: &Script,
) -> Result<(), StoreError> {
    founding::machine(pen, cast, member, first)?;
    let story = Story::of(member);
    let days = calendar::weekly(pen, member, script.last);
    let mut tale = stories::tale(member, days.len());
    for day in &days {
        shift::work(pen, cast, &mut tale, day, &story)?;
    }
    story.end(pen, cast)?;
    if member.id == fleet::MARIGOLD {
        let begins = script.last.checked_sub(Span::new().days(DAYS));
        let days = calendar::days(pen, begins.unwrap_or(script.last), script.last);
        let mut tale = Tale::of_the_season(days.len());
        for day in &days {
            shift::work(pen, cast, &mut tale, day, &Season)?;
        }
    }
    Ok(())
}

fn people(pen: &mut Pen) -> Result<Cast, StoreError> {
    let cast = Cast::drawn(pen);
    for (id, name, _) in cast.all() {
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
