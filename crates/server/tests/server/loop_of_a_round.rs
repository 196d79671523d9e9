//! The whole loop through the pages: round, stand down, repair, release, handover.

use super::fixture::{BOOK, Got, Place};
use axum::http::StatusCode;
use std::collections::BTreeMap;
use yard::{
    book::{Book, LevelMark, MeasureLimit, OilHeat, Point, PointKind, read},
    code::Coded,
    entry::{Answer, Body, Evidence, Reading},
    id::MachineId,
    state::{fold_machine, fold_yard},
};

/// Fields that answer a point well; `odd` gives other fields for some points.
fn well(point: &Point) -> Vec<(String, String)> {
    let id = &point.id;
    let pair = |n: &str, v: &str| (format!("{n}.{id}"), v.to_owned());
    match &point.kind {
        PointKind::Level(LevelMark { pose, oil, .. }) => {
            let heat = if *oil == OilHeat::Any {
                "cold"
            } else {
                oil.code()
            };
            let pose = pose
                .as_ref()
                .map_or("other".to_owned(), ToString::to_string);
            vec![
                pair("a", "at-mark"),
                pair("looks", "clean"),
                pair("pose", &pose),
                pair("oil", heat),
            ]
        }
        PointKind::Fitting(_) => vec![pair("a", "seen")],
        PointKind::Measure(limit) => measured(point, limit),
        PointKind::Crank(cases) => {
            let mut fields: Vec<_> = cases
                .iter()
                .enumerate()
                .map(|(i, c)| pair(&format!("k{i}"), if c.may_crank { "yes" } else { "no" }))
                .collect();
            fields.push(pair("by", "no"));
            fields
        }
        _ => Vec::new(),
    }
}

fn measured(point: &Point, limit: &MeasureLimit) -> Vec<(String, String)> {
    let unit = limit.max.as_ref().or(limit.min.as_ref()).unwrap().unit();
    let middle = match (&limit.min, &limit.max) {
        (Some(low), Some(high)) => {
            (low.in_unit(unit).unwrap().to_f64() + high.in_unit(unit).unwrap().to_f64()) / 2.0
        }
        (Some(low), None) => low.in_unit(unit).unwrap().to_f64() * 1.5,
        (None, Some(high)) => high.in_unit(unit).unwrap().to_f64() / 2.0,
        (None, None) => 1.0,
    };
    let mut fields: Vec<_> = (0..limit.readings.len())
        .map(|i| {
            (
                format!("v{i}.{}", point.id),
                format!("{middle:.3} {}", unit.symbol()),
            )
        })
        .collect();
    fields.push((format!("m.{}", point.id), "yes".to_owned()));
    fields.push((format!("c.{}", point.id), "yes".to_owned()));
    fields
}

/// Walks every station that is left; `odd` replaces the fields of a point.
pub(crate) async fn walk(
    place: &Place,
    cookie: &str,
    book: &Book,
    odd: &BTreeMap<&str, Vec<(String, String)>>,
) -> Got {
    for _ in 0..80 {
        let got = place
            .get(cookie, &format!("{}/round", place.machine()))
            .await;
        // The first visit shows the list; later ones lead to the next station that is left.
        let station = match got.status {
            StatusCode::SEE_OTHER => got.to.clone(),
            _ => match got
                .text
                .split("class=\"button main\" href=\"")
                .nth(1)
                .and_then(|r| r.split('"').next())
            {
                Some(begin) => begin.to_owned(),
                None => return got,
            },
        };
        let page = place.get(cookie, &station).await;
        let fields = station_fields(&page.text, book, odd);
        let fields: Vec<(&str, &str)> = fields
            .iter()
            .map(|(n, v)| (n.as_str(), v.as_str()))
            .collect();
        let kept = place.post(cookie, &station, &fields).await;
        assert_eq!(
            kept.status,
            StatusCode::SEE_OTHER,
            "{station}: {}",
            kept.text
        );
    }
    panic!("the round does not end");
}

pub(crate) fn station_fields(
    page: &str,
    book: &Book,
    odd: &BTreeMap<&str, Vec<(String, String)>>,
) -> Vec<(String, String)> {
    let here = page
        .split("id=\"p-")
        .skip(1)
        .filter_map(|r| r.split('"').next());
    let mut fields = vec![("rest".to_owned(), "well".to_owned())];
    for id in here {
        let point = book.points.iter().find(|p| p.id.as_str() == id).unwrap();
        fields.extend(odd.get(id).cloned().unwrap_or_else(|| well(point)));
    }
    fields
}

pub(crate) fn demo() -> Book {
    read(BOOK, &quantity::Habits::default()).book.unwrap()
}

#[tokio::test]
async fn a_round_that_is_all_well_is_fit_for_this_person_and_no_longer_after_handing_over() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let book = demo();
    let machine = place.machine();
    let before = place.get(&cookie, &machine).await;
    assert!(before.text.contains("Walk round first"), "{}", before.text);
    walk(&place, &cookie, &book, &BTreeMap::new()).await;
    let closed = place
        .post(
            &cookie,
            &format!("{machine}/round/close"),
            &[("hours", "812.3")],
        )
        .await;
    assert_eq!(closed.status, StatusCode::SEE_OTHER, "{}", closed.text);
    let page = place.get(&cookie, &machine).await;
    assert!(
        page.text.contains("class=\"verdict fit\"") || page.text.contains("class=\"verdict care\""),
        "{}",
        page.text
    );
    let evidence = last_evidence(&place);
    assert_ne!(evidence.verdict, "stand-down", "{evidence:?}");
    // A handover ends what the verdict held for.
    let mut fields = vec![
        ("engine".to_owned(), "off".to_owned()),
        ("hours".to_owned(), "815.0".to_owned()),
        ("next".to_owned(), "left track squeaks".to_owned()),
    ];
    fields.extend(
        book.rest
            .iter()
            .map(|s| (format!("s.{}", s.id), "proven".to_owned())),
    );
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(n, v)| (n.as_str(), v.as_str()))
        .collect();
    place.later(30);
    let got = place
        .post(&cookie, &format!("{machine}/handover"), &fields)
        .await;
    assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    let page = place.get(&cookie, &machine).await;
    assert!(page.text.contains("Walk round first"), "{}", page.text);
    let yard = place.get(&cookie, &place.home()).await;
    assert!(yard.text.contains("left track squeaks"));
}

#[tokio::test]
async fn a_missing_clip_stands_down_until_the_steward_releases_naming_it() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let book = demo();
    let clip = book
        .points
        .iter()
        .find(|p| matches!(p.kind, PointKind::PinClip))
        .unwrap();
    let odd = BTreeMap::from([(
        clip.id.as_str(),
        vec![(format!("a.{}", clip.id), "missing".to_owned())],
    )]);
    walk(&place, &cookie, &book, &odd).await;
    let machine = place.machine();
    place
        .post(
            &cookie,
            &format!("{machine}/round/close"),
            &[("hours", "812.3")],
        )
        .await;
    let page = place.get(&cookie, &machine).await;
    assert!(
        page.text.contains("class=\"verdict stand-down\""),
        "{}",
        page.text
    );
    let first_reason = page
        .text
        .split("<ol class=\"reasons\">")
        .nth(1)
        .unwrap()
        .split("</li>")
        .next()
        .unwrap();
    assert!(
        first_reason.contains(&clip.what),
        "worst first: {first_reason}"
    );
    let yard = place.get("", &place.home()).await;
    assert!(
        yard.text.contains("class=\"verdict stand-down\""),
        "{}",
        yard.text
    );
    let finding = page
        .text
        .split("/finding/")
        .nth(1)
        .unwrap()
        .split('"')
        .next()
        .unwrap()
        .to_owned();
    let path = format!("{machine}/finding/{finding}");
    // A learner cannot release it, an operator can only mend it.
    let learner = place.sign_in(place.learner).await;
    assert_eq!(
        place
            .post(
                &learner,
                &format!("{path}/release"),
                &[("mended", "looks fine")]
            )
            .await
            .status,
        StatusCode::FORBIDDEN
    );
    assert_eq!(
        place
            .post(
                &cookie,
                &format!("{path}/release"),
                &[("mended", "looks fine")]
            )
            .await
            .status,
        StatusCode::FORBIDDEN
    );
    assert_eq!(
        place
            .post(
                &cookie,
                &format!("{path}/mend"),
                &[("what", "new split pin fitted")]
            )
            .await
            .status,
        StatusCode::SEE_OTHER
    );
    let page = place.get(&cookie, &machine).await;
    assert!(
        page.text.contains("class=\"verdict stand-down\""),
        "mended is not released"
    );
    let steward = place.sign_in(place.steward).await;
    assert_eq!(
        place
            .post(
                &steward,
                &format!("{path}/release"),
                &[("mended", "pin and washer seen, pulled by hand")]
            )
            .await
            .status,
        StatusCode::SEE_OTHER
    );
    let page = place.get(&cookie, &machine).await;
    assert!(
        !page.text.contains("class=\"verdict stand-down\""),
        "{}",
        page.text
    );
    let journal = place.get(&steward, &format!("{machine}/journal")).await;
    for said in ["new split pin fitted", "pulled by hand"] {
        assert!(journal.text.contains(said), "{said} in {}", journal.text);
    }
}

#[tokio::test]
async fn odd_readings_are_asked_about_and_judged() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let book = demo();
    let sag = book
        .points
        .iter()
        .find(|p| matches!(&p.kind, PointKind::Measure(l) if l.readings.len() > 1))
        .unwrap();
    let PointKind::Measure(limit) = &sag.kind else {
        unreachable!()
    };
    // Find the sag's station by walking until its page shows.
    let odd = BTreeMap::from([(sag.id.as_str(), {
        let mut fields: Vec<_> = (0..limit.readings.len())
            .map(|i| (format!("v{i}.{}", sag.id), "2 in ± 1/16 in".to_owned()))
            .collect();
        fields.push((format!("m.{}", sag.id), "yes".to_owned()));
        fields.push((format!("c.{}", sag.id), "yes".to_owned()));
        fields
    })]);
    walk(&place, &cookie, &book, &odd).await;
    let machine = place.machine();
    place
        .post(
            &cookie,
            &format!("{machine}/round/close"),
            &[("hours", "not read")],
        )
        .await;
    let evidence = last_evidence(&place);
    assert!(
        evidence.reasons.contains(&"too-close".to_owned()),
        "{evidence:?}"
    );
    assert_ne!(evidence.verdict, "fit");
}

/// A number without a unit is in the limit's own, which stands beside the field.
#[tokio::test]
async fn a_bare_number_is_read_in_the_unit_beside_its_field() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let book = demo();
    let measures = book.points.iter().filter_map(|point| match &point.kind {
        PointKind::Measure(limit) => Some((point, limit)),
        _ => None,
    });
    let (sag, limit) = measures
        .max_by_key(|(_, limit)| limit.readings.len())
        .unwrap();
    let unit = limit.max.as_ref().or(limit.min.as_ref()).unwrap().unit();
    let mut fields = vec![(format!("v0.{}", sag.id), "1 7/8".to_owned())];
    let last = limit.readings.len() - 1;
    fields.extend((1..last).map(|i| (format!("v{i}.{}", sag.id), "2 ± 1/16".to_owned())));
    fields.push((format!("v{last}.{}", sag.id), "Over 1 under 3".to_owned()));
    fields.push((format!("m.{}", sag.id), "yes".to_owned()));
    fields.push((format!("c.{}", sag.id), "yes".to_owned()));
    let odd = BTreeMap::from([(sag.id.as_str(), fields)]);
    walk(&place, &cookie, &book, &odd).await;
    let entries = place.yard.entries().unwrap();
    let id = MachineId::new("marigold").unwrap();
    let habits = quantity::Habits::default();
    let state = fold_machine(&id, &entries, &fold_yard(&entries), &habits);
    let Answer::Measure { readings, .. } = &state.answers[&sag.id].answered.answer else {
        unreachable!("a measure")
    };
    let parse = |text: &str| {
        let text = format!("{text} {}", unit.symbol());
        quantity::parse(&text, &habits, None).unwrap()
    };
    let Reading::Value(first) = &readings[0] else {
        unreachable!("a value")
    };
    assert_eq!(
        (first.value(), first.unit()),
        (parse("1 7/8").value(), unit)
    );
    let Reading::Between { over, under } = &readings[last] else {
        unreachable!("between gauges")
    };
    assert_eq!(over.as_ref().unwrap().si(), parse("1").si());
    assert_eq!(under.as_ref().unwrap().si(), parse("3").si());
    let all = format!("{}/pocket", place.machine());
    let page = place.get(&cookie, &all).await.text;
    let beside = format!("<span class=\"unit\">{}</span>", unit.symbol());
    assert!(page.contains(&beside), "{page}");
}

fn last_evidence(place: &Place) -> Evidence {
    let entries = place.yard.entries().unwrap();
    entries
        .iter()
        .rev()
        .find_map(|e| {
            if let Body::WalkRound(w) = &e.body {
                w.closes.clone()
            } else {
                None
            }
        })
        .unwrap()
}

#[tokio::test]
async fn answering_again_does_not_lift_what_was_found() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let book = demo();
    let clip = book
        .points
        .iter()
        .find(|p| matches!(p.kind, PointKind::PinClip))
        .unwrap();
    let say = |word: &str| vec![(format!("a.{}", clip.id), word.to_owned())];
    walk(
        &place,
        &cookie,
        &book,
        &BTreeMap::from([(clip.id.as_str(), say("missing"))]),
    )
    .await;
    let list = place
        .get(&cookie, &format!("{}/round?list=1", place.machine()))
        .await;
    assert!(
        list.text.contains("The engine is not started"),
        "{}",
        list.text
    );
    // Once stood down, no station that starts the engine opens any more.
    let idle = list.text.split("href=\"").find_map(|l| {
        let link = l.split('"').next()?;
        link.contains("/round/idle").then(|| link.to_owned())
    });
    if let Some(idle) = idle {
        let got = place.get(&cookie, &idle).await;
        assert_eq!(got.status, StatusCode::SEE_OTHER);
    }
    let station = list.text.split("href=\"").find_map(|l| {
        let link = l.split('"').next()?;
        link.ends_with(&format!("/{}", clip.station))
            .then(|| link.to_owned())
    });
    let station = station.unwrap();
    let fields = say("present");
    let fields: Vec<(&str, &str)> = fields
        .iter()
        .map(|(n, v)| (n.as_str(), v.as_str()))
        .collect();
    place.post(&cookie, &station, &fields).await;
    let page = place.get(&cookie, &place.machine()).await;
    assert!(
        page.text.contains("class=\"verdict stand-down\""),
        "{}",
        page.text
    );
    assert!(page.text.contains("missing"), "{}", page.text);
}
