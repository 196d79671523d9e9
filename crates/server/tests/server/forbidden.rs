//! Each forbidden action by each role: nothing is written, and the page says who may.

use super::fixture::Place;
use axum::http::StatusCode;
use yard::entry::{Body, StandDown};

/// Path, fields, and the least role that may: 0 visitor … 4 steward.
type Forbidden<'a> = (String, Vec<(&'a str, &'a str)>, usize);

#[tokio::test]
async fn roles_are_kept() {
    let place = Place::new();
    let stood_down = place.write(
        place.operator,
        Some("marigold"),
        Body::StandDown(StandDown {
            why: "knock in the engine".to_owned(),
        }),
    );
    let learner = place.learner.to_string();
    let m = place.machine();
    let h = place.home();
    let release = format!("{m}/finding/{stood_down}/release");
    let mend = format!("{m}/finding/{stood_down}/mend");
    let deeds: Vec<Forbidden<'_>> = vec![
        (format!("{m}/stand-down"), vec![("text", "smoke")], 1),
        (
            format!("{m}/fault"),
            vec![("what", "lamp"), ("severity", "note")],
            1,
        ),
        (format!("{m}/note"), vec![("text", "hello")], 1),
        (mend, vec![("what", "bolt")], 2),
        (release, vec![("mended", "seen")], 3),
        (
            format!("{m}/permit"),
            vec![("who", "x"), ("far", "40 m"), ("hours", "2")],
            3,
        ),
        (
            format!("{m}/greasing"),
            vec![("a.grease-loader-arm-left", "seen")],
            1,
        ),
        (format!("{m}/part"), vec![("part", "fan-belt")], 2),
        (format!("{m}/purchase"), vec![("what", "grease")], 3),
        (
            format!("{m}/lesson"),
            vec![("person", &learner), ("what", "levers")],
            3,
        ),
        (
            format!("{h}/people"),
            vec![("name", "New"), ("role", "visitor"), ("pin", "4711")],
            4,
        ),
    ];
    let people = [
        place.visitor,
        place.learner,
        place.operator,
        place.deputy,
        place.steward,
    ];
    for (path, fields, least) in &deeds {
        for (rank, who) in people.iter().enumerate() {
            let cookie = place.sign_in(*who).await;
            let before = place.yard.entries().unwrap().len();
            let got = place.post(&cookie, path, fields).await;
            let after = place.yard.entries().unwrap().len();
            if rank < *least {
                assert_eq!(got.status, StatusCode::FORBIDDEN, "{path} by {rank}");
                assert_eq!(before, after, "{path} by {rank}");
            } else {
                assert!(
                    got.status.is_redirection() || got.status.is_success(),
                    "{path} by {rank}: {} {}",
                    got.status,
                    got.text
                );
            }
        }
        let got = place.post("", path, fields).await;
        assert!(got.to.contains("/sign-in"), "{path} by nobody");
    }
}
