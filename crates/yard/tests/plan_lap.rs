//! The lap of a book that writes none: the shortest way round, checked by trying every order.
#![allow(clippy::unwrap_used)]

mod small_yard;

use proptest::prelude::*;
use reckon::machine::walk_between::walk_between;

/// Length and width of what the invented machine stands on, metres.
const LENGTH: f64 = 4.0;
const WIDTH: f64 = 2.0;

fn book(places: &[(f64, f64)]) -> yard::book::Book {
    let head = "kingpost = 1\n[machine]\nid = \"m\"\nname = \"M\"\nkind = \"k\"\ninvented = true\n[ground]\non = \"tracks\"\ngauge = \"2 m\"\nlength = \"4 m\"\n";
    let station = |(n, (x, y)): (usize, &(f64, f64))| {
        format!("[[station]]\nid = \"s{n}\"\nname = \"S\"\nat = [{x:?}, {y:?}]\n")
    };
    let text = head.to_owned() + &places.iter().enumerate().map(station).collect::<String>();
    yard::book::read(&text, &quantity::Habits::default())
        .book
        .unwrap()
}

fn way(from: (f64, f64), to: (f64, f64)) -> f64 {
    walk_between(
        from.0,
        from.1,
        to.0,
        to.1,
        -LENGTH / 2.0,
        LENGTH / 2.0,
        -WIDTH / 2.0,
        WIDTH / 2.0,
    )
    .unwrap()
}

fn length(places: &[(f64, f64)], order: &[usize]) -> f64 {
    let along = order
        .windows(2)
        .map(|leg| way(places[leg[0]], places[leg[1]]))
        .sum::<f64>();
    along + way(places[order[order.len() - 1]], places[order[0]])
}

/// The length of the best of all orders that begin at the first station.
fn shortest_of_all(places: &[(f64, f64)], order: &mut Vec<usize>) -> f64 {
    if order.len() == places.len() {
        return length(places, order);
    }
    let mut best = f64::INFINITY;
    for next in 0..places.len() {
        if !order.contains(&next) {
            order.push(next);
            best = best.min(shortest_of_all(places, order));
            order.pop();
        }
    }
    best
}

/// A place somebody can stand at: outside the footprint.
fn outside() -> impl Strategy<Value = (f64, f64)> {
    let anywhere =
        (-50i32..=50, -40i32..=40).prop_map(|(x, y)| (f64::from(x) / 10.0, f64::from(y) / 10.0));
    anywhere.prop_filter("on the machine", |(x, y)| {
        x.abs() >= LENGTH / 2.0 || y.abs() >= WIDTH / 2.0
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn no_order_of_the_stations_is_shorter(places in prop::collection::vec(outside(), 1..8)) {
        let lap: Vec<usize> = book(&places).lap.iter().map(|id| id.as_str()[1..].parse().unwrap()).collect();
        prop_assert_eq!(lap.len(), places.len());
        prop_assert_eq!(lap[0], 0);
        let best = shortest_of_all(&places, &mut vec![0]);
        prop_assert!((length(&places, &lap) - best).abs() < 1e-9);
    }
}
