//! Life hours over time as one line: through every change of meter, dashed where they are told or estimated.

use super::{
    ink::{CARE, HATCH, INK},
    pen,
};
use svg::node::element::{Group, Line, Polygon, SVG, Title};
use yard::upkeep::LineMark;

/// Width and height of the drawing, and the room round the line, units.
const SIZE: (f64, f64) = (320.0, 120.0);
const ROOM: f64 = 10.0;
/// More marks than this cannot be told apart on a phone.
const MOST: usize = 300;

/// Draws the line, 320 by 120 units, with its ± as a band and a tick at each change of meter. None with fewer than two marks
/// or no time between them.
pub fn hours_line(marks: &[LineMark], title: &str) -> Option<String> {
    let (first, last) = (marks.first()?, marks.last()?);
    let seconds = last.at.duration_since(first.at).as_secs_f64();
    if seconds <= 0.0 {
        return None;
    }
    let low = marks.iter().map(LineMark::low).fold(f64::MAX, f64::min);
    let high = marks.iter().map(LineMark::high).fold(f64::MIN, f64::max);
    let span = (high - low).max(1.0);
    let across = |mark: &LineMark| {
        let part = mark.at.duration_since(first.at).as_secs_f64() / seconds;
        ROOM + part * (SIZE.0 - 2.0 * ROOM)
    };
    let up = |hours: f64| SIZE.1 - ROOM - (hours - low) / span * (SIZE.1 - 2.0 * ROOM);
    let every = marks.len().div_ceil(MOST);
    let shown: Vec<&LineMark> = marks
        .iter()
        .enumerate()
        .filter(|(n, mark)| n % every == 0 || mark.begins || n + 1 == marks.len())
        .map(|(_, mark)| mark)
        .collect();
    let above = shown.iter().map(|mark| (across(mark), up(mark.high())));
    let below = shown
        .iter()
        .rev()
        .map(|mark| (across(mark), up(mark.low())));
    let band: Vec<String> = above
        .chain(below)
        .map(|(x, y)| format!("{},{}", pen::unit(x), pen::unit(y)))
        .collect();
    let band = Polygon::new()
        .set("points", band.join(" "))
        .set("fill", HATCH);
    let mut group = Group::new().add(band);
    for pair in shown.windows(2) {
        let ends = [pair[0], pair[1]].map(|mark| (across(mark), up(mark.hours)));
        let drawn = pen::line(&ends, INK, 2.0);
        let estimated = pair[1].estimated || pair[1].begins;
        group = group.add(if estimated {
            drawn.set("stroke-dasharray", "4 3")
        } else {
            drawn
        });
    }
    for mark in shown.iter().filter(|mark| mark.begins) {
        let x = pen::unit(across(mark));
        let tick = Line::new()
            .set("x1", x.clone())
            .set("x2", x)
            .set("y1", pen::unit(ROOM))
            .set("y2", pen::unit(SIZE.1 - ROOM))
            .set("stroke", CARE)
            .set("stroke-width", "1.5");
        group = group.add(tick);
    }
    let drawing = SVG::new()
        .set("viewBox", "0 0 320 120")
        .set("role", "img")
        .set("xmlns", "http://www.w3.org/2000/svg")
        .add(Title::new(title))
        .add(group);
    Some(drawing.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::SignedDuration;

    fn mark(days: i64, hours: f64, begins: bool) -> LineMark {
        LineMark {
            at: jiff::Timestamp::UNIX_EPOCH + SignedDuration::from_hours(24 * days),
            hours,
            plus_minus: 6.0,
            estimated: false,
            begins,
        }
    }

    #[test]
    fn a_change_of_meter_is_a_tick_and_the_line_never_drops() {
        let marks = [
            mark(0, 690.0, false),
            mark(2, 712.4, true),
            mark(48, 800.6, false),
        ];
        let drawn = hours_line(&marks, "Hours").unwrap();
        assert_eq!(drawn.matches("<line").count(), 1);
        assert_eq!(drawn.matches("stroke-dasharray").count(), 1);
        let heights: Vec<f64> = drawn
            .split("<polyline")
            .skip(1)
            .flat_map(|line| {
                let points = line.split("points=\"").nth(1).unwrap();
                let points = points.split('"').next().unwrap().to_owned();
                points
                    .split(' ')
                    .map(|pair| pair.split(',').nth(1).unwrap().parse().unwrap())
                    .collect::<Vec<f64>>()
            })
            .collect();
        assert!(heights.windows(2).all(|pair| pair[1] <= pair[0]));
        assert_eq!(hours_line(&marks[..1], "Hours"), None);
    }
}
