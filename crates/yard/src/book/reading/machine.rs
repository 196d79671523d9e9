//! The tables that are there once: what the machine is, how it stops, its meter, what it stands on.

use crate::book::coded::StandsOn;
use crate::book::fields::Named;
use crate::book::section::Section;
use crate::book::tree::Value;
use crate::book::trouble::TroubleKind;
use crate::book::{
    DangerZone, FurtherMeter, GreasingHabit, GroundGear, Identity, Meter, MeterKind, MeterSpeeds,
    Shift, StopEngine,
};
use crate::code::Coded;
use crate::id::{ItemId, MachineId, PointId};

pub(super) fn identity(section: Section<'_, '_>) -> Option<Identity> {
    let id = section.own_id();
    let (name, kind) = (section.text("name"), section.text("kind"));
    let (made, serial, duty) = (
        section.text("made"),
        section.text("serial"),
        section.text("duty"),
    );
    let (invented, without) = (section.yes("invented"), section.words("without"));
    Some(Identity {
        id: MachineId::new(&id?)?,
        name: name?,
        kind: kind?,
        made,
        serial,
        duty,
        invented,
        without,
    })
}

pub(super) fn stop(section: Section<'_, '_>) -> Option<StopEngine> {
    let (how, then) = (section.text("how"), section.text("then"));
    Some(StopEngine {
        how: how?,
        then,
        line: section.line,
    })
}

pub(super) fn meter(section: Section<'_, '_>) -> Option<Meter> {
    meter_in(&section)
}

fn meter_in(section: &Section<'_, '_>) -> Option<Meter> {
    let kind = section.word("kind");
    let speeds = MeterSpeeds {
        base: section.positive("base-speed"),
        idle: section.positive("idle-speed"),
        working: section.positive("working-speed"),
        idle_share: section.positive("idle-share"),
    };
    let (rolls_over_at, shows_to) = (
        section.positive("rolls-over-at"),
        section.positive("shows-to"),
    );
    Some(Meter {
        kind: kind?,
        rolls_over_at,
        shows_to,
        speeds,
        line: section.line,
    })
}

/// One of the meters beside the first.
pub(super) fn further_meter(section: Section<'_, '_>) -> Option<FurtherMeter> {
    let (id, name) = (section.id(Named::Meter), section.text("name"));
    let place = section.place_of("kind");
    let meter = meter_in(&section)?;
    if meter.kind == MeterKind::NoMeter {
        let there = MeterKind::ALL.iter().filter(|kind| **kind != meter.kind);
        let allowed: Vec<&str> = there.map(|kind| kind.code()).collect();
        section.no_such_word("kind", place, meter.kind.code(), &allowed);
        return None;
    }
    Some(FurtherMeter {
        id: ItemId::new(&id?.0)?,
        name: name?,
        meter,
    })
}

/// The kind in which service hours are counted: one that a meter of the book shows or its speeds tell.
pub(super) fn service_hours(
    section: &Section<'_, '_>,
    meter: Option<&Meter>,
    further: &[FurtherMeter],
) -> Option<MeterKind> {
    let kind: MeterKind = section.word("kind")?;
    let all: Vec<&Meter> = meter
        .into_iter()
        .chain(further.iter().map(|one| &one.meter))
        .collect();
    let told = |kind: MeterKind| {
        all.iter().any(|one| {
            one.kind == kind || (kind == MeterKind::Running && one.tells_running_hours())
        })
    };
    if told(kind) {
        return Some(kind);
    }
    let allowed: Vec<&str> = MeterKind::ALL
        .iter()
        .filter(|kind| told(**kind))
        .map(|kind| kind.code())
        .collect();
    section.no_such_word("kind", section.place_of("kind"), kind.code(), &allowed);
    None
}

pub(super) fn greasing(section: Section<'_, '_>) -> GreasingHabit {
    GreasingHabit {
        when: section.word("when"),
        refused_runs: section.positive("refused-runs"),
        line: section.line,
    }
}

pub(super) fn ground(section: Section<'_, '_>) -> Option<GroundGear> {
    let on: Option<StandsOn> = section.word("on");
    let (gauge, length) = (section.positive("gauge"), section.positive("length"));
    let (friction, link_mass) = (section.positive("friction"), section.positive("link-mass"));
    let on = on?;
    Some(GroundGear {
        travels: matches!(on, StandsOn::Tracks | StandsOn::Wheels),
        towed: on == StandsOn::Towed,
        attachment: on == StandsOn::Machine,
        tracks: on == StandsOn::Tracks,
        gauge,
        length,
        friction,
        link_mass,
        line: section.line,
    })
}

pub(super) fn shift(section: Section<'_, '_>) -> Shift {
    Shift {
        warm_up: section.texts("warm-up"),
        first_metres: section.texts("first-metres"),
        gauges: section.texts("gauges"),
        stop_and_tell: section.texts("stop-and-tell"),
        cool_down: section.texts("cool-down"),
    }
}

pub(super) fn danger(section: Section<'_, '_>) -> Option<DangerZone> {
    let reach = section.positive("reach");
    let (middle, around) = (section.place("middle"), section.positive("around"));
    Some(DangerZone {
        reach: reach?,
        middle,
        around,
        line: section.line,
    })
}

/// Old ids and what they are called now. The old one must be gone, the new one there.
pub(super) fn renamed(section: Section<'_, '_>) -> Vec<(PointId, PointId)> {
    let desk = section.desk;
    let mut pairs = Vec::new();
    for (key, node) in section.entries {
        let old = PointId::new(&key.text);
        if old.is_none() {
            section.bad_id(&key.text, &key.span);
        } else if desk.has(Named::Point, &key.text) {
            desk.mistake(
                key.span.clone(),
                TroubleKind::RenameStillThere {
                    old: key.text.clone(),
                },
            );
        }
        let Value::Text(new) = &node.value else {
            desk.mistake(
                node.span.clone(),
                TroubleKind::WrongType {
                    key: key.text.clone(),
                    wanted: "id",
                    found: node.value.type_code(),
                },
            );
            continue;
        };
        desk.speaks_of(
            Named::Point,
            &new.chars().take(80).collect::<String>(),
            node.span.clone(),
        );
        pairs.extend(old.zip(PointId::new(new)));
    }
    pairs
}
