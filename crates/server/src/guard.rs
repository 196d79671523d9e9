//! Wrong PINs: counted for each person and for each device, slowed from the third, stopped at the fifth, locked at the fifteenth.

use crate::{accept, caller::Caller, desk::Desk, refusal::Refusal, session};
use jiff::{SignedDuration, Timestamp};
use store::{Miss, Misses};
use words::Arg;
use yard::{entry::AccessWhat, id::PersonId};

/// From so many misses on one waits, twice as long each time.
const SLOW_FROM: usize = 3;
/// The first wait.
const FIRST_WAIT: SignedDuration = SignedDuration::from_secs(15);
/// So many misses within [`SPAN`] stop signing in for as long.
const STOP_AT: usize = 5;
/// The time in which misses add up, and for which they stop.
const SPAN: SignedDuration = SignedDuration::from_mins(10);
/// So many misses within a day lock until somebody at the computer unlocks.
const LOCK_AT: usize = 15;

/// What a PIN came to. Neither word tells whether there is such a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Checked {
    /// It is this person's.
    Right(PersonId),
    /// It is not; the next try may have to wait until then.
    Wrong(Option<Timestamp>),
    /// It was not looked at: try again then.
    Wait(Timestamp),
    /// It was not looked at: locked until somebody at the computer unlocks.
    Locked,
}

/// Whether the next try is looked at.
fn standing(misses: &Misses, now: Timestamp) -> Option<Checked> {
    if misses.locked {
        return Some(Checked::Locked);
    }
    let recent = misses.within(now, SPAN);
    let wait = match recent {
        ..SLOW_FROM => return None,
        SLOW_FROM..STOP_AT => FIRST_WAIT * (1 << (recent - SLOW_FROM)),
        _ => SPAN,
    };
    // A clock set back does not make the wait longer than it is.
    let last = misses.last()?.min(now);
    (last + wait > now).then_some(Checked::Wait(last + wait))
}

/// Checks a PIN typed on this device: for signing in, and wherever somebody gives their word by it.
///
/// Takes about 20 ms and 19 MB: call it with the one turn at [`App::hashing`](crate::App) taken, so that tries are also counted one after another.
pub(crate) fn check(desk: &Desk, person: Option<PersonId>, pin: &str) -> Result<Checked, Refusal> {
    let yard = &desk.app.yard;
    let known = person.map(|id| yard.person(id)).transpose()?.flatten();
    let keys = Keys::of(desk, person, known.is_some())?;
    for key in [&keys.person, &keys.device] {
        if let Some(stopped) = standing(&yard.misses(key, desk.now)?, desk.now) {
            return Ok(stopped);
        }
    }
    // Whoever is not here takes as long as whoever is.
    let known = known.filter(|known| known.active);
    let hash = known.as_ref().and_then(|known| known.pin_hash.as_deref());
    if let (true, Some(person)) = (session::pin_matches(hash, pin), person) {
        for key in [&keys.person, &keys.device] {
            yard.forgive_misses(key, person, &keys.device)?;
        }
        return Ok(Checked::Right(person));
    }
    yard.clear_misses(desk.now)?;
    let miss = Miss {
        at: desk.now,
        person: person.map(|person| person.0),
        from: keys.device.clone(),
    };
    let of = known.map(|known| known.id);
    let mut wait = None;
    for (key, of) in [(&keys.person, of), (&keys.device, None)] {
        let misses = yard.count_miss(key, &miss, LOCK_AT)?;
        if of.is_some() || is_device(key) {
            note_lock(desk, &misses, of, &keys.device)?;
        }
        if let Some(Checked::Wait(until)) = standing(&misses, desk.now) {
            wait = wait.max(Some(until));
        }
    }
    Ok(Checked::Wrong(wait))
}

/// The keys under which misses are counted.
struct Keys {
    person: String,
    device: String,
}

impl Keys {
    fn of(desk: &Desk, person: Option<PersonId>, known: bool) -> Result<Self, Refusal> {
        let hash = desk.caller.device_hash();
        let device = hash.as_deref().map(|hash| desk.app.yard.device(hash));
        let device = device.transpose()?.flatten();
        // Cookies can be thrown away or made up. So a device counts by its cookie only once somebody signed in on it.
        let from = device_key(&desk.caller, device.is_some());
        let trusted = person.is_some_and(|person| device.is_some_and(|d| d.knows(person)));
        let person = match person {
            // Strangers' tries do not lock somebody out of a phone where they have signed in before.
            Some(person) if known && trusted => format!("{} {from}", person_key(person)),
            Some(person) if known => person_key(person),
            // Names made up share a few counters, so that they fill nothing, and are slowed like real ones.
            other => format!(
                "pin nobody {:02x}",
                other.map_or(0, |id| id.0.as_bytes()[15])
            ),
        };
        Ok(Self {
            person,
            device: from,
        })
    }
}

fn person_key(person: PersonId) -> String {
    format!("pin {person}")
}

/// The key of a device: its own where it is known, else of the address it comes from.
pub(crate) fn device_key(caller: &Caller, known: bool) -> String {
    match caller.device_hash() {
        Some(hash) if known => format!("device {hash}"),
        _ => format!("address {}", caller.neighbourhood()),
    }
}

/// Whether a counter of wrong PINs is about this person.
pub fn is_of(key: &str, person: PersonId) -> bool {
    key.strip_prefix(&person_key(person))
        .is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
}

/// Whether a counter is about a device or an address.
pub(crate) fn is_device(key: &str) -> bool {
    key.starts_with("device ") || key.starts_with("address ")
}

/// Notes in the journal that signing in was stopped or locked just now.
fn note_lock(
    desk: &Desk,
    misses: &Misses,
    of: Option<PersonId>,
    device: &str,
) -> Result<(), Refusal> {
    let words = &desk.app.words;
    let how_long = if misses.at.len() == LOCK_AT {
        words.text("locked-until-unlocked")
    } else if misses.within(desk.now, SPAN) == STOP_AT {
        words.text("locked-ten-minutes")
    } else {
        return Ok(());
    };
    let line = ("line", Arg::from(how_long));
    // An address of the network is nothing to keep for ever.
    let note = match device.strip_prefix("device ") {
        Some(hash) => words.say("locked-note", &[line, ("device", hash[..4].into())]),
        None => words.say("locked-note.nobody", &[line]),
    };
    accept::note_access(desk, AccessWhat::Locked, of, Some(note)).map(|_| ())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(seconds: i64) -> Timestamp {
        Timestamp::from_second(1_800_000_000 + seconds).unwrap()
    }

    fn misses(seconds: &[i64]) -> Misses {
        let miss = |s: &i64| Miss {
            at: at(*s),
            person: None,
            from: String::new(),
        };
        Misses {
            at: seconds.iter().map(miss).collect(),
            locked: false,
        }
    }

    #[test]
    fn the_wait_grows_then_stops_then_ends() {
        let wait = |s| Some(Checked::Wait(at(s)));
        assert_eq!(standing(&misses(&[]), at(0)), None);
        assert_eq!(standing(&misses(&[0, 0]), at(0)), None);
        assert_eq!(standing(&misses(&[0, 1, 2]), at(2)), wait(17));
        assert_eq!(standing(&misses(&[0, 1, 2]), at(17)), None);
        assert_eq!(standing(&misses(&[0, 1, 2, 17]), at(17)), wait(47));
        assert_eq!(standing(&misses(&[0, 1, 2, 17, 47]), at(48)), wait(647));
        assert_eq!(standing(&misses(&[0, 1, 2, 17, 47]), at(647)), None);
        // Misses of long ago do not slow.
        assert_eq!(standing(&misses(&[0, 1, 2, 17, 800]), at(800)), None);
        let locked = Misses {
            locked: true,
            ..misses(&[])
        };
        assert_eq!(standing(&locked, at(1_000_000)), Some(Checked::Locked));
        // The clock was set back an hour: the wait is ten minutes all the same.
        let ahead = misses(&[3600, 3601, 3602, 3603, 3604]);
        assert_eq!(standing(&ahead, at(0)), wait(600));
    }

    #[test]
    fn a_counter_is_of_one_person_only() {
        let one: PersonId = "01890000-0000-7000-8000-000000000001".parse().unwrap();
        let key = person_key(one);
        assert!(is_of(&key, one) && is_of(&format!("{key} device 12"), one));
        assert!(!is_of(&format!("{key}2"), one) && !is_of("device 12", one));
        assert!(is_device("address 10.0.0.1") && !is_device(&key));
    }
}
