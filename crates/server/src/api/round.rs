//! The round due now, as data.

use super::{
    asked::{Asked, say},
    refused::Refused,
    shapes::{LegPlan, PointPlan, RoundPlan, StopPlan},
};
use crate::{desk::Desk, names};
use axum::{http::StatusCode, response::Response};
use yard::{
    book::{Book, LeakClass, Point, PointKind},
    code::Coded,
    entry::{
        BoltState, ClipState, FunctionState, GreaseTook, HoseState, LevelReads, LookState,
        RoundPurpose, StructureState,
    },
    state::MachineState,
    walkround::{self, DuePoint, Leg, Stop},
};

/// What is due for the person who asks, in walking order.
pub(super) fn plan(asked: &Asked) -> Result<Response, Refused> {
    let desk = asked.desk()?;
    let (id, state, book) = desk.machine_and_book(asked.part("machine"))?;
    let not_found = || Refused::of("not-found");
    let purpose = RoundPurpose::from_code(asked.part("purpose")).ok_or_else(not_found)?;
    let plan = walkround::plan(&desk.situation(state), purpose).ok_or_else(not_found)?;
    let revision = state.book().map(|adopted| adopted.revision);
    let seen = Seen {
        desk: &desk,
        state,
        book,
    };
    say(
        StatusCode::OK,
        RoundPlan {
            machine: id.to_string(),
            book: revision.ok_or_else(not_found)?.0,
            purpose: plan.purpose.code().to_owned(),
            planned: asked.now.to_string(),
            seconds: plan.seconds,
            legs: plan.legs.iter().map(|leg| seen.leg(leg)).collect(),
        },
    )
}

/// A machine with the book its plan was made by.
struct Seen<'a> {
    desk: &'a Desk,
    state: &'a MachineState,
    book: &'a Book,
}

impl Seen<'_> {
    fn leg(&self, leg: &Leg) -> LegPlan {
        LegPlan {
            engine: leg.engine.code().to_owned(),
            pose: leg.pose.as_ref().map(ToString::to_string),
            guards: leg
                .guards
                .iter()
                .map(|guard| guard.code().to_owned())
                .collect(),
            stops: leg.stops.iter().map(|stop| self.stop(stop)).collect(),
        }
    }

    fn stop(&self, stop: &Stop) -> StopPlan {
        let station = self
            .book
            .stations
            .iter()
            .find(|station| station.id == stop.station);
        StopPlan {
            station: stop.station.to_string(),
            name: station.map_or_else(|| stop.station.to_string(), |station| station.name.clone()),
            points: stop
                .points
                .iter()
                .filter_map(|due| self.point(due))
                .collect(),
        }
    }

    fn point(&self, due: &DuePoint) -> Option<PointPlan> {
        let point = self
            .book
            .points
            .iter()
            .find(|point| point.id == due.point)?;
        let names = names::names(self.desk, self.state);
        Some(PointPlan {
            id: point.id.to_string(),
            number: due.number,
            what: point.what.clone(),
            how: point.how.clone(),
            because: self.desk.app.words.because(&due.because, &names),
            kind: point.kind.code().to_owned(),
            count: point.count,
            one_tap: due.one_tap,
            choices: choices(point),
        })
    }
}

fn choices(point: &Point) -> Vec<String> {
    match point.kind {
        PointKind::Level(_) => words::<LevelReads>(),
        PointKind::Fitting(_) => words::<GreaseTook>(),
        PointKind::PinClip => words::<ClipState>(),
        PointKind::Bolts => words::<BoltState>(),
        PointKind::Leak { .. } => {
            let mut all = vec!["none".to_owned()];
            all.extend(words::<LeakClass>());
            all
        }
        PointKind::Hose => words::<HoseState>(),
        PointKind::Structure => words::<StructureState>(),
        PointKind::Function => words::<FunctionState>(),
        PointKind::Look => words::<LookState>(),
        PointKind::Measure(_) | PointKind::Crank(_) => Vec::new(),
    }
}

fn words<T: Coded>() -> Vec<String> {
    T::ALL.iter().map(|value| value.code().to_owned()).collect()
}
