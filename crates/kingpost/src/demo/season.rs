//! What is told of Marigold's last three months besides the work: lessons, the track, a slip of the meter.

use super::{
    calendar::Day,
    cast::Cast,
    evening::evening,
    pen::{Pen, written},
    shift::Asides,
    tale::Tale,
};
use store::StoreError;
use yard::{
    entry::{Adjustment, Body, Lesson, MeterReading, Ruling, RulingSays, SignOff},
    id::{PersonId, PointId},
};

/// Marigold's last three months.
pub(crate) struct Season;

impl Asides for Season {
    fn before(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        tale: &mut Tale,
        day: &Day,
    ) -> Result<(), StoreError> {
        before_work(pen, cast, tale, day)
    }
    fn at_noon(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        day: &Day,
        by: PersonId,
    ) -> Result<(), StoreError> {
        at_noon(pen, cast, day, by)
    }
    fn evening(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        day: &Day,
        by: PersonId,
    ) -> Result<(), StoreError> {
        evening(pen, cast, day, by)
    }
    fn on_paper(&self, day: &Day) -> bool {
        day.is_at(41) || day.is_at(76)
    }
    fn evening_on_paper(&self, _: &Day) -> bool {
        false
    }
    fn tells_next(&self, day: &Day) -> Option<&'static str> {
        day.is_last()
            .then_some("Left work lamp flickers; the heap at the gate is soft after the rain")
    }
    fn begins(&self, day: &Day) -> i8 {
        6 + i8::from(day.index.is_multiple_of(3))
    }
}

/// What the steward does before anybody walks: lessons, the track set in time.
fn before_work(pen: &mut Pen, cast: &Cast, tale: &mut Tale, day: &Day) -> Result<(), StoreError> {
    if tale.sets_track(day.index) {
        tale.sag_is_set(day.index);
        let what = "Left track set before it got slack: two strokes of the gun".to_owned();
        pen.write(
            cast.odalys,
            Body::Adjustment(Adjustment {
                point: PointId::new("track-sag-left"),
                what,
                event: None,
                mends: Vec::new(),
            }),
        )?;
    }
    let lessons = [
        (
            15,
            "The round, station by station, with the drawing in hand",
        ),
        (33, "Loader at idle: lift, lower, flat on the ground"),
        (47, "Arm: one lever at a time, swing pin out first"),
        (68, "Handing over: everything down, nothing left running"),
    ];
    for (_, what) in lessons.iter().filter(|(share, _)| day.is_at(*share)) {
        pen.write(
            cast.odalys,
            Body::Lesson(Lesson {
                person: cast.jory,
                what: (*what).to_owned(),
            }),
        )?;
    }
    if day.is_at(85) {
        let limits = Some("loader only, flat ground".to_owned());
        pen.write(
            cast.odalys,
            Body::SignOff(SignOff {
                person: cast.jory,
                given: true,
                until: None,
                limits,
                in_sight: true,
            }),
        )?;
    }
    Ok(())
}

/// The meter shows nothing once, and the deputy says so.
fn at_noon(pen: &mut Pen, cast: &Cast, day: &Day, by: PersonId) -> Result<(), StoreError> {
    if day.is_at(55) {
        let about = pen.write(
            by,
            Body::MeterReading(MeterReading {
                meter: None,
                shows: written("0.0 h"),
            }),
        )?;
        pen.pass(900);
        let why = "Loose plug behind the dash: it showed nothing for a moment, then its old reading again".to_owned();
        pen.write(
            cast.bram,
            Body::Ruling(Ruling {
                about,
                says: RulingSays::ReadingWrong,
                why,
            }),
        )?;
    }
    Ok(())
}
