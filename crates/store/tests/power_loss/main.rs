//! Power loss: every moment of a piece of work at which the power could go, and what the store finds afterwards.
//!
//! The work is done once, over the real store, while a layer under the program records what it asks of the disk ([`layer`]). Then, for
//! every beginning of that record, the folders that a power cut could leave are made ([`disk`]), opened with the real store and compared
//! with what had been acknowledged by then ([`work`]).
//!
//! What is taken for granted of a disk: a sync that has answered is kept, and a write spoils nothing but the bytes it was to write. No
//! more: what was not synced is there, or not, or in part, or as noise, in any order; a name needs its folder synced, not only its file.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, missing_docs)]

mod disk;
#[allow(unsafe_code, reason = "stands in for the system's own calls for files")]
mod layer;
mod work;

use disk::{Fate, Image, Replay};
use layer::{Call, as_if_kept};
use std::{collections::BTreeSet, fs, ops::RangeInclusive, path::Path};
use store::Store;
use work::{Mark, Seen, Size, Step, Work, data, do_step, do_work, fingerprint, is_passing, seen};

/// Some of the calls.
type Which<'a> = &'a dyn Fn(&Call) -> bool;

/// What went wrong after a power cut: where, and what.
type Loss = String;

#[test]
fn whatever_is_acknowledged_outlasts_a_power_cut() {
    let work = do_work(Size::Usual);
    work.assert_misses_nothing();
    assert!(work.calls.len() > 500, "too little was asked of the disk");
    assert_eq!(first_loss(&work, 1..=1, 1, &|_| true), None);
}

#[test]
#[ignore = "long: more chances"]
fn whatever_is_acknowledged_outlasts_a_power_cut_by_other_chances() {
    let work = do_work(Size::Usual);
    assert_eq!(first_loss(&work, 2..=6, 1, &|_| true), None);
}

#[test]
#[ignore = "long: a log so long that it is folded back by itself"]
fn whatever_is_acknowledged_outlasts_a_power_cut_in_long_work() {
    let work = do_work(Size::Long);
    work.assert_misses_nothing();
    assert_eq!(first_loss(&work, 1..=1, 53, &|_| true), None);
}

#[test]
fn a_disk_that_forgets_is_found_out() {
    let work = do_work(Size::Usual);
    let forgets: [(&str, Which<'_>); 5] = [
        ("every sync", &Call::is_sync),
        ("the log's", &|call| call.syncs_file("-wal")),
        ("the journal's", &|call| call.syncs_file(".db")),
        ("the photos'", &|call| call.syncs_file(".partial")),
        ("names", &|call| matches!(call, Call::SyncFolder { .. })),
    ];
    for (what, forgets) in forgets {
        assert!(work.calls.iter().any(forgets), "{what}: never synced");
        let found = first_loss(&work, 1..=1, 1, &|call| !forgets(call));
        assert!(found.is_some(), "{what}: forgotten, and nothing was missed");
    }
}

/// Cuts the power after every call of the work (or every so many), in every way, and says what was lost first. A disk may keep only some
/// of the syncs.
fn first_loss(
    work: &Work,
    seeds: RangeInclusive<u64>,
    every: usize,
    keeps: Which<'_>,
) -> Option<Loss> {
    as_if_kept();
    let place = tempfile::tempdir().unwrap();
    let calls: Vec<_> = work
        .calls
        .iter()
        .map(|call| call.kept_if(keeps(call)))
        .collect();
    let mut replay = Replay::new(&calls);
    let mut fine = BTreeSet::new();
    for length in (0..=calls.len()).step_by(every) {
        let acknowledged = work
            .marks
            .iter()
            .take_while(|mark| mark.calls <= length)
            .count();
        for fate in fates(seeds.clone()) {
            let image = replay.cut_after(length, fate).reachable(&work.below);
            // Many cuts leave the same: what was fine once is fine.
            if !fine.insert((fingerprint(&image), acknowledged)) {
                continue;
            }
            let here = place.path().join("after");
            lay_out(&image, &here);
            let found = check(&work.marks, acknowledged, &here);
            fs::remove_dir_all(&here).unwrap();
            if let Err(what) = found {
                let next = work.marks.get(acknowledged).map(|mark| mark.step);
                return Some(format!("call {length}, {fate:?}, during {next:?}: {what}"));
            }
        }
    }
    None
}

fn fates(seeds: RangeInclusive<u64>) -> Vec<Fate> {
    let mut fates = vec![Fate::All, Fate::Nothing, Fate::Last];
    for seed in seeds {
        fates.extend([Fate::Some(seed), Fate::Torn(seed), Fate::Noise(seed)]);
    }
    fates
}

/// Makes the folder that the power cut left.
fn lay_out(image: &Image, below: &Path) {
    fs::create_dir(below).unwrap();
    for (name, holds) in image.iter().filter(|(name, _)| !is_passing(name)) {
        match holds {
            None => fs::create_dir(below.join(name)).unwrap(),
            Some(bytes) => fs::write(below.join(name), bytes).unwrap(),
        }
    }
}

/// Opens what is there: it must be what was acknowledged, or that and the step that was being done, whole. Then the step is done again,
/// as by whoever had no answer, and must come to the same as without a power cut.
fn check(marks: &[Mark], acknowledged: usize, below: &Path) -> Result<(), Loss> {
    let nothing = Seen::default();
    let before = acknowledged
        .checked_sub(1)
        .map_or(&nothing, |last| &marks[last].after);
    let next = marks.get(acknowledged);
    let store = Store::open(&data(below)).map_err(|why| format!("does not open: {why:?}"))?;
    let verified = store.verify().map_err(|why| format!("{why:?}"))?;
    if !verified.sound() {
        return Err(format!("{verified:?}"));
    }
    let now = seen(&store);
    let whole = now == *before
        || next.is_some_and(|next| now == next.after || next.is_part_done(before, &now));
    if !whole {
        return Err(differs(before, &now));
    }
    let Some(next) = next else { return Ok(()) };
    let mut open = Some(store);
    do_step(&mut open, below, next.step);
    let store = open.as_ref().unwrap();
    if seen(store) != next.after {
        return Err(format!(
            "done again: {}",
            differs(&next.after, &seen(store))
        ));
    }
    match store.verify() {
        Ok(verified) if verified.sound() => Ok(()),
        other => Err(format!("done again: {other:?}")),
    }
}

fn differs(expected: &Seen, found: &Seen) -> Loss {
    let count = |seen: &Seen| {
        (
            seen.yards.len(),
            seen.rows.len(),
            seen.aside.len(),
            seen.people.len(),
            seen.photos.len(),
        )
    };
    format!(
        "yards, entries, aside, people, photos: {:?} expected, {:?} found",
        count(expected),
        count(found)
    )
}

impl Mark {
    /// Erasing a person is three things one after the other, of which the power may leave the first or the first two.
    fn is_part_done(&self, before: &Seen, now: &Seen) -> bool {
        let one_of = |same: &dyn Fn(&Seen) -> bool| same(before) || same(&self.after);
        matches!(self.step, Step::Erase(_))
            && now.rows == before.rows
            && now.photos == before.photos
            && now.people == self.after.people
            && one_of(&|seen| seen.sessions == now.sessions)
            && one_of(&|seen| seen.links == now.links)
            && (&now.yards, &now.aside, &now.setting)
                == (&before.yards, &before.aside, &before.setting)
    }
}
