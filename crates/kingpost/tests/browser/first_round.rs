//! The first round of a machine that is new in the book: all well, station by station, each page looked at for what does not fit.

use super::{inspect::inspect, own_yard::Machine, page::Page, pictures::take, well};
use yard::book::Without;

/// From the yard page round the machine, all well. Nobody has ever handed it over, so the verdict is care, for that alone.
pub async fn walk(page: &Page, machine: &Machine, wrong: &mut Vec<String>) {
    page.open(&format!("/m/{}", machine.id())).await;
    assert_eq!(page.texts("p.verdict").await, ["Walk round first"]);
    look(page, machine, "machine", wrong).await;
    page.press("Walk the machine round").await;
    look(page, machine, "round", wrong).await;
    page.press("Begin").await;
    let (mut stations, mut points) = (0, 0);
    while page.path().await.contains("/round/") {
        stations += 1;
        assert!(stations < 40, "the round of {} does not end", machine.id());
        look(page, machine, &format!("station-{stations}"), wrong).await;
        points += station(page, machine).await;
    }
    assert!(points > 5, "{}: {points} points", machine.id());
    finish(page, machine).await;
    look(page, machine, "verdict", wrong).await;
    let reasons = page.texts("ol.reasons li").await;
    let verdict = page.texts("p.verdict").await;
    assert_eq!(verdict, ["Run with care"], "{}: {reasons:?}", machine.id());
    assert!(
        reasons.len() == 1 && reasons[0].starts_with("Nobody wrote how it was left"),
        "{}: {reasons:?}",
        machine.id()
    );
}

/// Answers everything at one station, and goes on; gives how many points that were.
async fn station(page: &Page, machine: &Machine) -> usize {
    let here = well::points_here(page).await;
    for id in &here {
        well::answer(page, &machine.book, id).await;
    }
    let main = page
        .find("form[action*=\"/round/\"] fieldset ~ button.main")
        .await;
    page.follow(&main).await;
    here.len()
}

/// Ends the round; the meter is asked for where there is one.
async fn finish(page: &Page, machine: &Machine) {
    if machine.book.meter.is_some() {
        page.type_in("hours", "120.0").await;
    }
    page.press("Finish the round").await;
}

/// Takes the picture of a page and notes what is wrong with it.
async fn look(page: &Page, machine: &Machine, which: &str, wrong: &mut Vec<String>) {
    take(page, &format!("{}-{which}.png", machine.id()), None).await;
    let of_another = of_another_machine(machine, &page.text().await);
    for line in inspect(page).await.into_iter().chain(of_another) {
        wrong.push(format!("{}, {which}: {line}", machine.id()));
    }
}

/// Sentences about what this machine has not, but for those that its own book says.
fn of_another_machine(machine: &Machine, text: &str) -> Vec<String> {
    let own = one_line(&machine.text);
    let absent = absent(machine);
    let mut found = Vec::new();
    for sentence in text.split_inclusive(['\n', '.']) {
        let sentence = one_line(sentence);
        // A point's number stands right before its words.
        let sentence = sentence.trim_start_matches(|c: char| c.is_ascii_digit());
        let speaks = |word: &&&str| sentence.to_lowercase().contains(**word);
        if let Some(word) = absent.iter().find(speaks)
            && !own.contains(sentence.trim_end_matches('.'))
        {
            found.push(format!("speaks of {word}: {sentence}"));
        }
    }
    found
}

/// Words for what the machine has not.
fn absent(machine: &Machine) -> Vec<&'static str> {
    let lacks = |what: Without| machine.book.lacks(what);
    let tracks = machine.text.to_lowercase().contains("track");
    [
        (lacks(Without::SeatBelt), "seat belt"),
        (lacks(Without::Engine), "engine"),
        (lacks(Without::Starter), "starter"),
        (lacks(Without::Rams), " ram "),
        (lacks(Without::Rams), " rams"),
        (!tracks, "track"),
    ]
    .into_iter()
    .filter_map(|(absent, word)| absent.then_some(word))
    .collect()
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
