//! Walking a round to its end, whatever its plan is, with everything found well.

use crate::site::{Got, Site};
use axum::http::StatusCode;
use kingpost::demo::BOOK;
use yard::{
    book::{Book, MeasureLimit, OilHeat, Point, PointKind, read},
    code::Coded,
};

/// Walks every station that is left, then closes the round with these hours on the meter. Gives the machine's page.
pub(crate) async fn walk(site: &Site, cookie: &str, hours: &str) -> Got {
    let book = book();
    let round = format!("{}/round", site.machine);
    let mut stations = 0;
    loop {
        let list = site.get(cookie, &round).await;
        let Some(station) = next_station(&list) else {
            break;
        };
        let page = site.get(cookie, &station).await;
        let answers = answers(&page.text, &book);
        let answers: Vec<_> = answers
            .iter()
            .map(|(name, value)| (name.as_str(), value.as_str()))
            .collect();
        site.keep(cookie, &station, &answers).await;
        stations += 1;
        assert!(stations < 100, "seed {}: the round does not end", site.seed);
    }
    assert!(
        stations > 5,
        "seed {}: a round of {stations} stations",
        site.seed
    );
    site.keep(cookie, &format!("{round}/close"), &[("hours", hours)])
        .await;
    site.get(cookie, &site.machine).await
}

/// The book of the demo's machine.
pub(crate) fn book() -> Book {
    read(BOOK, &quantity::Habits::default()).book.unwrap()
}

/// Where the round goes on: the first visit shows a list, later ones lead on by themselves.
fn next_station(got: &Got) -> Option<String> {
    if got.status == StatusCode::SEE_OTHER {
        return Some(got.to.clone());
    }
    let button = got.text.split("class=\"button main\" href=\"").nth(1)?;
    Some(button.split('"').next()?.to_owned())
}

fn answers(page: &str, book: &Book) -> Vec<(String, String)> {
    let ids = page
        .split("id=\"p-")
        .skip(1)
        .filter_map(|rest| rest.split('"').next());
    let mut answers = vec![("rest".to_owned(), "keep".to_owned())];
    for id in ids {
        let point = book.points.iter().find(|point| point.id.as_str() == id);
        answers.extend(well(point.unwrap()));
    }
    answers
}

/// What says that a point is well. Each is said: one tap does not do where something was found before.
fn well(point: &Point) -> Vec<(String, String)> {
    let say = |field: &str, value: &str| (format!("{field}.{}", point.id), value.to_owned());
    match &point.kind {
        PointKind::Level(mark) => {
            let pose = mark.pose.as_ref().map_or("other", |pose| pose.as_str());
            let oil = if mark.oil == OilHeat::Any {
                OilHeat::Cold
            } else {
                mark.oil
            };
            vec![
                say("a", "at-mark"),
                say("looks", "clean"),
                say("pose", pose),
                say("oil", oil.code()),
            ]
        }
        PointKind::Fitting(_) => vec![say("a", "seen")],
        PointKind::Measure(limit) => {
            let mut said = vec![say("m", "yes"), say("c", "yes")];
            said.extend((0..limit.readings.len()).map(|n| say(&format!("v{n}"), &amid(limit))));
            said
        }
        PointKind::Crank(cases) => {
            let turned = |may: bool| if may { "yes" } else { "no" };
            let each = cases.iter().enumerate();
            let mut said: Vec<_> = each
                .map(|(n, case)| say(&format!("k{n}"), turned(case.may_crank)))
                .collect();
            said.push(say("by", "no"));
            said
        }
        PointKind::PinClip => vec![say("a", "present")],
        PointKind::Bolts => vec![say("a", "tight")],
        PointKind::Leak { .. } => vec![say("a", "none")],
        PointKind::Hose | PointKind::Structure => vec![say("a", "sound")],
        PointKind::Function => vec![say("a", "works")],
        PointKind::Look => vec![say("a", "well")],
    }
}

/// A reading far from every limit.
fn amid(limit: &MeasureLimit) -> String {
    let unit = limit.max.as_ref().or(limit.min.as_ref()).unwrap().unit();
    let value = |limit: &quantity::Quantity| limit.in_unit(unit).unwrap().to_f64();
    let middle = match (&limit.min, &limit.max) {
        (Some(least), Some(most)) => f64::midpoint(value(least), value(most)),
        (Some(least), None) => value(least) * 1.5,
        (None, Some(most)) => value(most) / 2.0,
        (None, None) => 1.0,
    };
    format!("{middle:.3} {}", unit.symbol())
}
