//! A yard of one's own, as somebody begins it at a terminal: its steward, and a machine for every blank the program knows.

use super::{
    blank::filled::filled,
    page::Page,
    program::{Server, run},
};
use quantity::Habits;
use serde_json::Value;
use std::path::Path;
use yard::{
    book::{Book, new_from_blank, read},
    id::MachineId,
};

/// The yard's founding steward.
pub const STEWARD: &str = "Jo";
const PIN: &str = "7305";

/// Begins the yard; gives the token of the link by which the steward chooses a PIN.
pub fn begin(data: &Path) -> String {
    let said = told(
        data,
        &["yard", "new", "Invented yard", "--steward", STEWARD],
    );
    let link = said["link"].as_str().unwrap();
    link.rsplit_once("/first/").unwrap().1.to_owned()
}

/// The steward opens the link, chooses a PIN and is signed in by it.
pub async fn enter(page: &Page, server: &Server, token: &str) {
    page.goto(&format!("{}/first/{token}", server.home())).await;
    for field in ["pin", "again"] {
        page.type_in(field, PIN).await;
    }
    let button = page.find("main button.main").await;
    page.follow(&button).await;
}

/// The names of the blanks, as the program's own help lists them.
pub fn blanks(data: &Path) -> Vec<String> {
    let help = run(data, &["book", "new", "--help"]);
    let help = String::from_utf8(help.stdout).unwrap();
    let (_, list) = help.split_once("[possible values: ").unwrap();
    let (list, _) = list.split_once(']').unwrap();
    let names: Vec<String> = list.split(',').map(|name| name.trim().to_owned()).collect();
    assert!(names.len() >= 8, "{names:?}");
    names
}

/// A machine of the yard: its book's text as adopted, and what that says.
pub struct Machine {
    pub text: String,
    pub book: Book,
}

impl Machine {
    pub fn id(&self) -> &str {
        self.book.machine.id.as_str()
    }
}

/// Makes a machine from this blank, filled in with invented values, and adopts its book.
pub fn adopt(data: &Path, blank: &str) -> Machine {
    let id = format!("the-{blank}");
    let name = format!("Invented {}", blank.replace('-', " "));
    let said = told(
        data,
        &["book", "new", "--like", blank, "--name", &name, "--id", &id],
    );
    let text = filled(blank, said["text"].as_str().unwrap());
    let text = new_from_blank(&text, &name, &MachineId::new(&id).unwrap());
    adopt_text(data, text)
}

/// Adopts a book; nothing that bears on safety may be left open.
pub fn adopt_text(data: &Path, text: String) -> Machine {
    let file = data.join("draft.toml");
    std::fs::write(&file, &text).unwrap();
    let file = file.to_str().unwrap();
    let adopted = told(data, &["book", "adopt", file, "--by", STEWARD]);
    assert_eq!(adopted["gaps_on_safety"], 0, "{}", adopted["machine"]);
    let book = read(&text, &Habits::default()).book.unwrap();
    Machine { text, book }
}

/// What the program answers, as JSON; it must do what it is asked.
pub fn told(data: &Path, args: &[&str]) -> Value {
    let said = run(data, &[args, &["--json"]].concat());
    let error = String::from_utf8_lossy(&said.stderr);
    assert!(said.status.success(), "{args:?}: {error}");
    serde_json::from_slice(&said.stdout).unwrap()
}
