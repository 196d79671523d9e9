//! A kept reading drawn against its limit.

use crate::page::Page;
use papers::drawing::{LimitScale, limit_scale};
use yard::{
    book::{Point, PointKind},
    entry::{Answer, Reading},
};

/// The scale for a measure's worst reading; none where there is no limit or no plain value.
pub(crate) fn scale(p: &Page, point: &Point, answer: &Answer) -> Option<String> {
    let (PointKind::Measure(limit), Answer::Measure { readings, .. }) = (&point.kind, answer)
    else {
        return None;
    };
    let unit = limit.max.as_ref().or(limit.min.as_ref())?.unit();
    let values: Vec<&quantity::Quantity> = readings
        .iter()
        .filter_map(|r| {
            if let Reading::Value(q) = r {
                Some(q)
            } else {
                None
            }
        })
        .collect();
    let values_in: Vec<f64> = values
        .iter()
        .filter_map(|q| q.in_unit(unit).map(|v| v.to_f64()))
        .collect();
    if values_in.is_empty() || values_in.len() != values.len() {
        return None;
    }
    let usual = limit
        .usual_plus_minus
        .as_ref()
        .and_then(|q| q.in_unit(unit))
        .map_or(0.0, |v| v.to_f64());
    let half = values
        .iter()
        .filter_map(|q| q.plus_minus_in(unit))
        .map(|v| v.to_f64())
        .fold(None, |most: Option<f64>, v| {
            Some(most.map_or(v, |m| m.max(v)))
        });
    let value = values_in.iter().sum::<f64>() / values_in.len() as f64;
    let written: Vec<&str> = values.iter().map(|q| q.text()).collect();
    let text_of = |q: &Option<quantity::Quantity>| {
        q.as_ref().map(|q| q.text().to_owned()).unwrap_or_default()
    };
    let (min_text, max_text) = (text_of(&limit.min), text_of(&limit.max));
    let value_text = written.join(", ");
    let title = p.words.say(
        "scale-title",
        &[
            ("value", value_text.as_str().into()),
            ("limit", super::question::limit_of(p, point).into()),
        ],
    );
    Some(limit_scale(&LimitScale {
        min: limit
            .min
            .as_ref()
            .and_then(|q| q.in_unit(unit))
            .map(|v| v.to_f64()),
        max: limit
            .max
            .as_ref()
            .and_then(|q| q.in_unit(unit))
            .map(|v| v.to_f64()),
        value,
        plus_minus: half.unwrap_or(usual),
        min_text: &min_text,
        max_text: &max_text,
        value_text: &value_text,
        title: &title,
        id: &format!("scale-{}", point.id),
    }))
}
