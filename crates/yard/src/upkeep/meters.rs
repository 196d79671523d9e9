//! Several meters on one machine: how they run against one another, and one kind of hours estimated from another.

use super::hours::{of_history, of_segments, with_its_half_width};
use crate::{
    book::{Meter, MeterKind, MeterSpeeds},
    id::ItemId,
    state::{HourHistory, LifeHours, MachineState},
};
use jiff::SignedDuration;
use quantity::{Exact, Quantity, Unit};
use reckon::{
    Figure, FigureInput, Origin,
    upkeep::{
        hours_by_other_meter,
        meter_ratio::{self, MeterRatio, meter_ratio},
        running_from_revolutions::{self, running_from_revolutions},
        told_hours,
    },
};

/// Readings of two meters belong together when they are no farther apart: in a tenth of an hour no meter moves by more than
/// a usual step. By the meaning of a step.
const TOGETHER: SignedDuration = SignedDuration::from_mins(6);
/// The smallest step of a meter whose book does not say. Common practice, no source.
const STEP: f64 = 0.1;

/// One meter of a machine and what its hours come to.
#[derive(Clone, Debug, PartialEq)]
pub struct HoursShown {
    /// The meter; none = the first.
    pub meter: Option<ItemId>,
    /// What it counts.
    pub kind: MeterKind,
    /// Whether service hours come from it.
    pub service: bool,
    /// Hours it counted in its life; none where nobody has read it or its readings are in question.
    pub life: Option<LifeHours>,
    /// Its figure.
    pub figure: Option<Figure>,
    /// Hours of its kind over the machine's whole life, estimated from the service meter by readings of both.
    pub by_service: Option<Figure>,
    /// Running hours, estimated from its revolutions.
    pub running: Option<Figure>,
}

/// Every meter of the book in force, the first one first.
pub fn hours_shown(machine: &MachineState) -> Vec<HoursShown> {
    let Some(adopted) = machine.book() else {
        return Vec::new();
    };
    let all = adopted.book.meters().map(|(id, meter)| {
        let history = machine.meter(id);
        let service = machine.hours_of.as_ref() == id;
        let figure = if service {
            super::hours_figure(machine)
        } else {
            history.and_then(of_segments)
        };
        HoursShown {
            meter: id.cloned(),
            kind: meter.kind,
            service,
            life: history
                .and_then(of_history)
                .map(|life| with_its_half_width(life, figure.as_ref())),
            figure,
            by_service: if service {
                None
            } else {
                meters_figure(machine, id)
            },
            running: history
                .and_then(of_segments)
                .and_then(|counted| running_figure(machine, meter, &counted)),
        }
    });
    all.collect()
}

/// Hours of one meter's kind over the machine's whole life, by the service hours and the ratio of the two; none where they
/// were not read together often enough.
pub fn meters_figure(machine: &MachineState, of: Option<&ItemId>) -> Option<Figure> {
    let ratio = ratio_figure(machine, of)?;
    let service = super::hours_figure(machine)?;
    let inputs = vec![
        FigureInput::from_figure("advance", &service, "life")?,
        FigureInput::from_figure("ratio", &ratio, "ratio")?,
    ];
    Figure::reckon(&hours_by_other_meter::LEAF, inputs).ok()
}

/// Hours of one meter for an hour of another, by their readings; none with fewer than two spans between readings of both.
pub fn ratio_of(
    from: &HourHistory,
    to: &HourHistory,
    (from_step, to_step): (f64, f64),
) -> Option<MeterRatio> {
    let (from, to) = spans(from, to);
    meter_ratio(&from, &to, from_step, to_step).ok()
}

/// Running hours for an hour that a counter of revolutions counts, with the ± of the share at idle; none where its speeds
/// are not all known.
pub fn running_scale(meter: &Meter) -> Option<LifeHours> {
    let speeds = Speeds::of(meter)?;
    let (at, less, more) = (
        speeds.hours(1.0, speeds.share),
        speeds.hours(1.0, (speeds.share - speeds.half).max(0.0)),
        speeds.hours(1.0, (speeds.share + speeds.half).min(1.0)),
    );
    let half = (at - less).abs().max((more - at).abs());
    Some(LifeHours {
        hours: Exact::parse(&format!("{at:.6}"))?,
        plus_minus: Exact::parse(&format!("{half:.6}"))?,
    })
}

/// Hours told by people alone, as a figure.
pub(super) fn told_figure(history: &HourHistory) -> Option<Figure> {
    let told = &history.uncounted.as_ref()?.told;
    let last = told.last()?.0;
    let hours: Vec<f64> = told.iter().map(|(_, life)| life.hours.to_f64()).collect();
    let halves: Vec<f64> = told
        .iter()
        .map(|(_, life)| life.plus_minus.to_f64())
        .collect();
    let origin = Origin::Entry(last.to_string());
    let inputs = vec![
        FigureInput::new("told", hours, origin.clone()),
        FigureInput::new("half_widths", halves, origin),
    ];
    Figure::reckon(&told_hours::LEAF, inputs).ok()
}

/// Service hours that are running hours, from what the counter of revolutions counted.
pub(super) fn with_scale(machine: &MachineState, counted: &Figure) -> Option<Figure> {
    let book = &machine.book()?.book;
    let (_, meter) = book
        .meters()
        .find(|(id, _)| *id == machine.hours_of.as_ref())?;
    running_figure(machine, meter, counted)
}

fn running_figure(machine: &MachineState, meter: &Meter, counted: &Figure) -> Option<Figure> {
    let speeds = Speeds::of(meter)?;
    let revision = u32::try_from(machine.books.len()).unwrap_or(u32::MAX);
    let line = || Origin::BookLine {
        revision,
        line: meter.line,
    };
    let inputs = vec![
        FigureInput::from_figure("counted", counted, "life")?,
        FigureInput::new("base_speed", speeds.base, line()),
        FigureInput::new("idle_speed", speeds.idle, line()),
        FigureInput::new("working_speed", speeds.working, line()),
        FigureInput::new("idle_share", speeds.share, line()).within(speeds.half),
    ];
    Figure::reckon(&running_from_revolutions::LEAF, inputs).ok()
}

fn ratio_figure(machine: &MachineState, of: Option<&ItemId>) -> Option<Figure> {
    let (from, to) = (&machine.hours, machine.meter(of)?);
    let (from_advances, to_advances) = spans(from, to);
    let origin = |history: &HourHistory| {
        history
            .last_entry
            .map_or(Origin::Default, |entry| Origin::Entry(entry.to_string()))
    };
    let step = |id: Option<&ItemId>| {
        let book = &machine.book()?.book;
        let (_, meter) = book.meters().find(|(named, _)| *named == id)?;
        Some(meter.shows_to.as_ref()?.in_unit(Unit::Hour)?.to_f64())
    };
    let steps = (step(machine.hours_of.as_ref()), step(of));
    let inputs = vec![
        FigureInput::new("from_advances", from_advances, origin(from)),
        FigureInput::new("to_advances", to_advances, origin(to)),
        FigureInput::new("from_step", steps.0.unwrap_or(STEP), Origin::Default),
        FigureInput::new("to_step", steps.1.unwrap_or(STEP), Origin::Default),
    ];
    Figure::reckon(&meter_ratio::LEAF, inputs).ok()
}

/// How far each of two meters moved between times when both were read. A span in which one of them was estimated is no
/// evidence and is left out.
fn spans(from: &HourHistory, to: &HourHistory) -> (Vec<f64>, Vec<f64>) {
    let mut others = to.readings.iter().peekable();
    let mut pairs = Vec::new();
    for read in &from.readings {
        while others
            .next_if(|other| read.at.duration_since(other.at) > TOGETHER)
            .is_some()
        {}
        let near = others.next_if(|other| other.at.duration_since(read.at) <= TOGETHER);
        pairs.extend(near.map(|other| (&read.life, &other.life)));
    }
    let counted = |pair: &&[(&LifeHours, &LifeHours)]| {
        let ((a, b), (c, d)) = (pair[0], pair[1]);
        a.plus_minus == c.plus_minus && b.plus_minus == d.plus_minus && a.hours < c.hours
    };
    pairs
        .windows(2)
        .filter(counted)
        .map(|pair| {
            let ((a, b), (c, d)) = (pair[0], pair[1]);
            (
                (&c.hours - &a.hours).to_f64(),
                (&d.hours - &b.hours).to_f64(),
            )
        })
        .unzip()
}

/// The engine's speeds in rpm, the share at idle from 0 to 1 and its ±.
struct Speeds {
    base: f64,
    idle: f64,
    working: f64,
    share: f64,
    half: f64,
}

impl Speeds {
    fn of(meter: &Meter) -> Option<Self> {
        if !meter.tells_running_hours() {
            return None;
        }
        let MeterSpeeds {
            base,
            idle,
            working,
            idle_share,
        } = &meter.speeds;
        let rpm = |speed: &Option<Quantity>| {
            let speed = speed.as_ref()?.in_unit(Unit::RevolutionPerMinute)?;
            Some(speed.to_f64())
        };
        let share = idle_share.as_ref()?;
        Some(Self {
            base: rpm(base)?,
            idle: rpm(idle)?,
            working: rpm(working)?,
            share: share.in_unit(Unit::Percent)?.to_f64() / 100.0,
            half: share.plus_minus_in(Unit::Percent)?.to_f64() / 100.0,
        })
    }

    fn hours(&self, counted: f64, share: f64) -> f64 {
        running_from_revolutions(counted, self.base, self.idle, self.working, share)
    }
}
