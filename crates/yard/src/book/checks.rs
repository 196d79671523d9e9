//! What can only be checked when all is read: twins, and the steward's lap.

use super::desk::Desk;
use super::fields::Named;
use super::reading::ReadPoint;
use super::trouble::TroubleKind;
use super::{AttachmentTaken, Book, Joint, PointKind, Station};
use crate::id::StationId;
use quantity::{Exact, Unit};
use std::{collections::BTreeSet, mem::discriminant, ops::Range};

/// Twins name each other and are of one kind.
pub(super) fn mirrored_points(desk: &Desk<'_>, points: &[ReadPoint]) {
    for (index, read) in points.iter().enumerate() {
        let Some(twin_id) = &read.point.mirror else {
            continue;
        };
        if *twin_id == read.point.id {
            desk.mistake(read.mirror_at.clone(), TroubleKind::MirrorItself);
            continue;
        }
        let Some(twin_index) = points.iter().position(|other| other.point.id == *twin_id) else {
            continue;
        };
        let twin = &points[twin_index].point;
        let mutual = twin.mirror.as_ref() == Some(&read.point.id);
        if discriminant(&twin.kind) != discriminant(&read.point.kind) {
            // Told once for the pair.
            if !mutual || index < twin_index {
                desk.mistake(
                    read.mirror_at.clone(),
                    TroubleKind::MirrorOtherKind {
                        twin: twin_id.to_string(),
                    },
                );
            }
        } else if !mutual {
            desk.mistake(
                read.mirror_at.clone(),
                TroubleKind::MirrorOneSided {
                    twin: twin_id.to_string(),
                },
            );
        }
    }
}

/// Twins name each other.
pub(super) fn mirrored_joints(desk: &Desk<'_>, joints: &[(Joint, Range<usize>)]) {
    for (joint, place) in joints {
        let Some(twin_id) = &joint.mirror else {
            continue;
        };
        if *twin_id == joint.id {
            desk.mistake(place.clone(), TroubleKind::MirrorItself);
            continue;
        }
        let twin = joints.iter().find(|(other, _)| other.id == *twin_id);
        if twin.is_some_and(|(twin, _)| twin.mirror.as_ref() != Some(&joint.id)) {
            desk.mistake(
                place.clone(),
                TroubleKind::MirrorOneSided {
                    twin: twin_id.to_string(),
                },
            );
        }
    }
}

/// Where a book says which attachments it takes, its levels' marks name those.
pub(super) fn marks_with_attachments(
    desk: &Desk<'_>,
    points: &[ReadPoint],
    taken: &[AttachmentTaken],
) {
    if taken.is_empty() {
        return;
    }
    for read in points {
        let PointKind::Level(mark) = &read.point.kind else {
            continue;
        };
        let strange =
            |name: &&String| !taken.iter().any(|known| known.id.as_str() == name.as_str());
        for name in mark.attachments.iter().filter(strange) {
            desk.warning(
                read.attachments_at.clone(),
                TroubleKind::MarkOfOtherAttachment {
                    found: name.clone(),
                },
            );
        }
    }
}

/// An attachment is another machine than the one that takes it; nobody idles more than all the time.
pub(super) fn whole_book(desk: &Desk<'_>, book: &Book) {
    for taken in book
        .attachments
        .iter()
        .filter(|taken| taken.id == book.machine.id)
    {
        let what = TroubleKind::IdTwice {
            id: taken.id.to_string(),
            first_line: desk.lines.naming("machine"),
        };
        desk.mistake(desk.lines.whole(taken.line), what);
    }
    for (_, meter) in book.meters() {
        let share = meter.speeds.idle_share.as_ref();
        let share = share.and_then(|share| share.in_unit(Unit::Percent));
        if share.is_some_and(|share| share > Exact::from(100)) {
            let what = TroubleKind::OutOfBounds {
                key: "idle-share".to_owned(),
                least: 0,
                most: 100,
            };
            desk.mistake(desk.lines.whole(meter.line), what);
        }
    }
}

/// The lap as written: every station once.
pub(super) fn written_lap(
    desk: &Desk<'_>,
    stations: &[Station],
    written: &(Range<usize>, Vec<(StationId, Range<usize>)>),
) -> Vec<StationId> {
    let (place, order) = written;
    let mut seen = BTreeSet::new();
    for (station, place) in order {
        if !seen.insert(station) {
            desk.mistake(
                place.clone(),
                TroubleKind::LapTwice {
                    station: station.to_string(),
                },
            );
        }
    }
    // A station misspelt in the lap is told as that, not as missing besides; an order that does not read is told as that.
    if !order.is_empty()
        && order
            .iter()
            .all(|(station, _)| desk.may_have(Named::Station, station.as_str()))
    {
        for station in stations
            .iter()
            .filter(|station| !seen.contains(&station.id))
        {
            desk.mistake(
                place.clone(),
                TroubleKind::LapMisses {
                    station: station.id.to_string(),
                },
            );
        }
    }
    order.iter().map(|(station, _)| station.clone()).collect()
}
