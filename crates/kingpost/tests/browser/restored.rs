//! What a yard shows of a machine, and a yard restored from its backup that must show the same.

use super::{
    page::Page,
    program::{Folder, Server, run},
    round::MACHINE,
};
use serde_json::Value;
use std::{path::Path, process::Output};

/// The entries shown, with what is folded away, without the words for when, which change at midnight.
pub async fn entries(page: &Page) -> Vec<String> {
    let script = "return [...document.querySelectorAll('main ul.plain > li')].map(entry =>
        [...entry.children].filter(part => part.tagName !== 'SMALL').map(part => part.textContent).join(' '))";
    let told = page.ask(script, vec![]).await;
    let told = told.as_array().unwrap();
    told.iter()
        .map(|entry| entry.as_str().unwrap().to_owned())
        .collect()
}

/// What a restored yard must show as before: the verdict with its reasons, and the last of the journal.
#[derive(Debug, PartialEq)]
struct Shown {
    verdict: Vec<String>,
    reasons: Vec<String>,
    journal: Vec<String>,
    judged: Value,
}

async fn shown(page: &Page, server: &Server, data: &Path) -> Shown {
    page.goto(&format!("{}/m/{MACHINE}", server.home())).await;
    let (verdict_line, reasons) = (
        page.texts("p.verdict").await,
        page.texts("ol.reasons li").await,
    );
    page.goto(&format!("{}/m/{MACHINE}/journal", server.home()))
        .await;
    let mut judged = verdict(data, "Tamsin");
    judged["at"].take();
    Shown {
        verdict: verdict_line,
        reasons,
        journal: entries(page).await,
        judged,
    }
}

/// The server ends, the journal is backed up and restored into an empty folder, and that yard shows the same.
pub async fn restore(page: &Page, server: Server, folder: &Folder, data: &Path) {
    page.sign_out().await;
    let before = shown(page, &server, data).await;
    assert!(before.journal.len() > 20 && !before.reasons.is_empty());
    server.stop();
    let (backup, restored) = (folder.at("backup"), folder.at("restored"));
    let text = |path: &Path| path.to_str().unwrap().to_owned();
    done(&run(data, &["journal", "backup", &text(&backup)]));
    let into = text(&restored);
    done(&run(
        data,
        &["journal", "restore", &text(&backup), "--into", &into],
    ));
    std::fs::remove_dir_all(data).unwrap();
    let server = Server::start(&restored);
    assert_eq!(before, shown(page, &server, &restored).await);
}

fn done(output: &Output) {
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(output.status.success(), "{said}");
}

/// The verdict as the command gives it.
pub fn verdict(data: &Path, by: &str) -> Value {
    let said = run(
        data,
        &["--json", "handover", "verdict", MACHINE, "--by", by],
    );
    serde_json::from_slice(&said.stdout).unwrap()
}
