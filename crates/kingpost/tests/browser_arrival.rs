//! A machine is taken in on a phone: the arrival page from the machine's page on, step by step, without scripts.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::drive,
    inspect::{complaints, inspect, listen},
    own_yard::{adopt, begin, enter},
    page::Page,
    program::{Folder, Server},
};

/// Presses the button of one step's own form.
async fn keep(page: &Page, step: &str) {
    let button = page.find(&format!("#{step} form button")).await;
    page.follow(&button).await;
}

/// Types into a field of one step's own form.
async fn type_at(page: &Page, step: &str, name: &str, text: &str) {
    let field = page.find(&format!("#{step} form [name=\"{name}\"]")).await;
    field.send_keys(text).await.unwrap();
}

/// How many steps are done by the page's own word.
async fn done(page: &Page) -> usize {
    let text = page.text().await;
    let (before, _) = text.split_once(" steps done").unwrap();
    let line = before.lines().last().unwrap();
    let (n, _) = line.rsplit_once(" of ").unwrap();
    n.split_whitespace().last().unwrap().parse().unwrap()
}

#[test]
fn a_machine_is_taken_in_step_by_step() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let token = begin(&data);
    let machine = adopt(&data, "mini-excavator");
    let server = Server::start(&data);
    drive(async move |page: Page| {
        listen(&page).await;
        page.without_scripts().await;
        enter(&page, &server, &token).await;
        page.goto(&format!("{}/m/{}", server.home(), machine.id()))
            .await;
        page.open("/arrival").await;
        assert_eq!(page.heading().await, "Arrival");
        page.says("Nobody wrote down yet that it came.").await;
        let stops = page.texts("div.stop b").await;
        let stop = machine.book.stop.as_ref().unwrap();
        assert_eq!(stops, [stop.how.as_str()], "how it stops stands first");
        assert_eq!(inspect(&page).await, Vec::<String>::new());
        let before = done(&page).await;
        // Nothing but that it came can be said before that.
        let forms = page.find_all("main section form").await;
        assert_eq!(forms.len(), 1);
        type_at(&page, "came", "says", "From a house clearance").await;
        keep(&page, "came").await;
        assert!(page.path().await.ends_with("/arrival"));
        page.says("It came on").await;
        let begun = done(&page).await;
        assert_eq!(begun, before + 1);
        assert!(page.find_all("main section form").await.len() > 5);
        // What does not read is asked about, and no step is done by it.
        type_at(&page, "fittings-first", "count", "many").await;
        keep(&page, "fittings-first").await;
        assert_eq!(page.find_all("div.asked[role=alert]").await.len(), 1);
        assert_eq!(done(&page).await, begun);
        let field = page.find("#fittings-first form [name=\"count\"]").await;
        field.clear().await.unwrap();
        type_at(&page, "fittings-first", "count", "14").await;
        keep(&page, "fittings-first").await;
        assert_eq!(done(&page).await, begun + 1);
        assert_eq!(inspect(&page).await, Vec::<String>::new());
        assert_eq!(complaints(&page).await, "");
    });
}
