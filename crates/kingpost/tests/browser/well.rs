//! The answers of somebody who finds all well, tapped and typed on the station's page as the book's points ask for them.

use super::page::Page;
use quantity::Habits;
use yard::{
    book::{Book, LevelMark, MeasureLimit, OilHeat, Point, PointKind, read},
    code::Coded,
};

/// The demo machine's book.
pub const BOOK: &str = include_str!("../../../../demo/marigold.toml");

/// Reads the book that is in force in the test.
pub fn book(text: &str) -> Book {
    read(text, &Habits::default()).book.unwrap()
}

/// Points of the station shown, in the page's order.
pub async fn points_here(page: &Page) -> Vec<String> {
    let mut ids = Vec::new();
    for field in page.find_all("fieldset[id^=\"p-\"]").await {
        ids.push(
            field
                .attr("id")
                .await
                .unwrap()
                .unwrap()
                .trim_start_matches("p-")
                .to_owned(),
        );
    }
    ids
}

/// Answers a point well where one tap for the whole station does not.
pub async fn answer(page: &Page, book: &Book, id: &str) {
    let point = book
        .points
        .iter()
        .find(|point| point.id.as_str() == id)
        .unwrap();
    match &point.kind {
        PointKind::Level(mark) => level(page, point, mark).await,
        PointKind::Fitting(_) => page.choose_field(&format!("a.{id}"), "seen").await,
        PointKind::Measure(limit) => measure(page, id, limit).await,
        PointKind::Crank(cases) => {
            for (i, case) in cases.iter().enumerate() {
                page.choose_field(
                    &format!("k{i}.{id}"),
                    if case.may_crank { "yes" } else { "no" },
                )
                .await;
            }
            page.choose_field(&format!("by.{id}"), "no").await;
        }
        _ => {}
    }
}

/// A level has one choice that says all of it, where its mark belongs to a pose.
async fn level(page: &Page, point: &Point, mark: &LevelMark) {
    let id = &point.id;
    if mark.pose.is_some() {
        page.choose_field(&format!("a.{id}"), "as-it-must-be").await;
    } else {
        page.choose_field(&format!("a.{id}"), "at-mark").await;
        page.choose_field(&format!("looks.{id}"), "clean").await;
        page.choose_field(&format!("pose.{id}"), "other").await;
        if mark.oil != OilHeat::Any {
            page.choose_field(&format!("oil.{id}"), mark.oil.code())
                .await;
        }
    }
}

async fn measure(page: &Page, id: &str, limit: &MeasureLimit) {
    let unit = limit.max.as_ref().or(limit.min.as_ref()).unwrap().unit();
    let in_unit = |of: &quantity::Quantity| of.in_unit(unit).unwrap().to_f64();
    let middle = match (&limit.min, &limit.max) {
        (Some(low), Some(high)) => (in_unit(low) + in_unit(high)) / 2.0,
        (Some(low), None) => in_unit(low) * 1.5,
        (None, Some(high)) => in_unit(high) / 2.0,
        (None, None) => 1.0,
    };
    for i in 0..limit.readings.len() {
        page.type_in(
            &format!("v{i}.{id}"),
            &format!("{middle:.3} {}", unit.symbol()),
        )
        .await;
    }
    page.choose_field(&format!("m.{id}"), "yes").await;
    if limit.condition.is_some() {
        page.choose_field(&format!("c.{id}"), "yes").await;
    }
}
