//! The real program: its commands, their exit codes, their JSON.
#![allow(clippy::unwrap_used)]

use assert_cmd::Command;
use serde_json::Value;
use std::{
    path::{Path, PathBuf},
    sync::OnceLock,
};
use tempfile::TempDir;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../..")
}

/// The program over a data folder, run from the repository's root.
fn kingpost(data: &Path) -> Command {
    let mut command = Command::cargo_bin("kingpost").unwrap();
    command.current_dir(root()).env("KINGPOST_DATA", data);
    command
}

/// What it prints as JSON, and the code it ends with.
fn json(data: &Path, arguments: &[&str]) -> (Value, i32) {
    let done = kingpost(data)
        .args(arguments)
        .arg("--json")
        .output()
        .unwrap();
    let text = if done.stdout.is_empty() {
        &done.stderr
    } else {
        &done.stdout
    };
    let value = serde_json::from_slice(text)
        .unwrap_or_else(|why| panic!("{arguments:?}: {why}: {}", String::from_utf8_lossy(text)));
    (value, done.status.code().unwrap())
}

/// What it prints as JSON where it ends well.
fn told(data: &Path, arguments: &[&str]) -> Value {
    let (value, code) = json(data, arguments);
    assert_eq!(code, 0, "{arguments:?}: {value:#}");
    value
}

/// The demo yard, made once by the program itself. Nothing here writes to it.
fn demo() -> &'static Path {
    static DEMO: OnceLock<(TempDir, PathBuf)> = OnceLock::new();
    let (_, path) = DEMO.get_or_init(|| {
        let dir = TempDir::new().unwrap();
        let path = dir.path().join("yard");
        kingpost(&path).args(["yard", "demo"]).assert().success();
        (dir, path)
    });
    path
}

#[test]
fn two_slips_of_writing_and_ten_of_meaning_are_twelve_mistakes() {
    let dir = TempDir::new().unwrap();
    let (checked, code) = json(
        dir.path(),
        &["book", "check", "cases/book/twelve-mistakes.toml"],
    );
    assert_eq!(code, 3);
    assert_eq!(checked["files"][0]["mistakes"], 12);
    let troubles = checked["files"][0]["troubles"].as_array().unwrap();
    assert_eq!(troubles.len(), 12);
    let text = std::fs::read_to_string(root().join("cases/book/twelve-mistakes.toml")).unwrap();
    for (n, trouble) in troubles.iter().enumerate() {
        let line = usize::try_from(trouble["line"].as_u64().unwrap()).unwrap();
        assert!(
            text.lines()
                .nth(line - 1)
                .unwrap()
                .contains(&format!("# {}:", n + 1)),
            "{trouble}"
        );
    }
}

#[test]
fn a_book_from_the_blank_is_begun_checked_and_adopted_by_the_steward_alone() {
    let dir = TempDir::new().unwrap();
    let yard = dir.path().join("yard");
    let book = dir.path().join("bess.toml");
    let file = book.to_str().unwrap();
    let made = told(&yard, &["yard", "new", "Invented yard", "--steward", "Jo"]);
    let (address, token) = made["link"]
        .as_str()
        .unwrap()
        .rsplit_once("/first/")
        .unwrap();
    assert!(address.starts_with("http://127.0.0.1:4720/y/") && token.len() == 32);
    told(
        &yard,
        &["people", "add", "Kim", "--role", "operator", "--by", "jo"],
    );

    let new = [
        "book",
        "new",
        "--like",
        "tracked-loader-backhoe",
        "--name",
        "Old Bess",
        "--id",
        "bess",
        "-o",
        file,
    ];
    told(&yard, &new);
    let (refused, code) = json(&yard, &new);
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("file-exists"), 4)
    );
    assert_eq!(
        told(&yard, &["book", "check", file])["files"][0]["mistakes"],
        0
    );
    let gaps = told(&yard, &["book", "gaps", file]);
    assert!(
        gaps["gaps"]
            .as_array()
            .unwrap()
            .iter()
            .any(|gap| gap["code"] == "no-stop" && gap["bears_on_safety"] == true)
    );

    let (refused, code) = json(&yard, &["book", "adopt", file, "--by", "Kim"]);
    assert_eq!((refused["trouble"].as_str(), code), (Some("may-not"), 4));
    assert_eq!(
        told(&yard, &["book", "adopt", file, "--by", "Jo"])["machine"],
        "bess"
    );
    let (verdict, code) = json(&yard, &["handover", "verdict", "bess", "--by", "Jo"]);
    assert_eq!(
        (verdict["verdict"].as_str(), code),
        (Some("stand-down"), 20)
    );
    assert!(
        verdict["reasons"]
            .as_array()
            .unwrap()
            .iter()
            .any(|reason| reason["code"] == "no-stop")
    );
    assert_eq!(
        told(&yard, &["journal", "verify"])["yards"][0]["entries"],
        3
    );
}

#[test]
fn a_book_with_mistakes_is_not_adopted() {
    let dir = TempDir::new().unwrap();
    told(
        dir.path(),
        &["yard", "new", "Invented yard", "--steward", "Jo"],
    );
    let (refused, code) = json(
        dir.path(),
        &[
            "book",
            "adopt",
            "cases/book/twelve-mistakes.toml",
            "--by",
            "Jo",
        ],
    );
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("book-has-mistakes"), 3)
    );
    assert_eq!(
        told(dir.path(), &["journal", "verify"])["yards"][0]["entries"],
        1
    );
}

#[test]
fn a_yard_is_begun_once() {
    let dir = TempDir::new().unwrap();
    told(
        dir.path(),
        &["yard", "new", "Invented yard", "--steward", "Jo"],
    );
    let (refused, code) = json(dir.path(), &["yard", "new", "Another", "--steward", "Kim"]);
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("store-yard-exists"), 4)
    );
    let (refused, code) = json(dir.path(), &["yard", "demo"]);
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("store-not-empty"), 4)
    );
}

#[test]
fn the_demo_is_sound_and_waits_to_be_walked_round() {
    let verified = told(demo(), &["journal", "verify"]);
    assert_eq!(verified["sound"], true);
    assert!(verified["yards"][0]["entries"].as_u64().unwrap() > 900);
    let (verdict, code) = json(
        demo(),
        &["handover", "verdict", "marigold", "--by", "Tamsin"],
    );
    assert_eq!(
        (
            verdict["verdict"].as_str(),
            verdict["only_unknown"].as_bool(),
            code
        ),
        (Some("stand-down"), Some(true), 20)
    );
    let people = told(demo(), &["people", "list"]);
    assert!(
        people["people"]
            .as_array()
            .unwrap()
            .iter()
            .all(|person| person["invented"] == true && person["has_pin"] == true)
    );
    let (lists, code) = json(demo(), &["journal", "questions"]);
    assert_eq!(
        (lists["questions"].as_array().map(Vec::len), code),
        (Some(0), 0)
    );
}

#[test]
fn a_restored_yard_says_the_same() {
    let dir = TempDir::new().unwrap();
    let (backup, again) = (dir.path().join("backup"), dir.path().join("again"));
    let (backup_name, again_name) = (backup.to_str().unwrap(), again.to_str().unwrap());
    told(demo(), &["journal", "backup", backup_name]);
    assert_eq!(
        told(
            demo(),
            &["journal", "restore", backup_name, "--into", again_name]
        )["sound"],
        true
    );
    assert_eq!(
        told(&again, &["journal", "verify"]),
        told(demo(), &["journal", "verify"])
    );
    for name in ["Odalys", "Tamsin", "Jory"] {
        let verdict = |data: &Path| {
            let (mut verdict, code) =
                json(data, &["handover", "verdict", "marigold", "--by", name]);
            verdict["at"] = Value::Null;
            (verdict, code)
        };
        assert_eq!(verdict(&again), verdict(demo()), "{name}");
    }
    let (refused, code) = json(
        demo(),
        &["journal", "restore", backup_name, "--into", again_name],
    );
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("store-not-empty"), 4)
    );
    std::fs::write(backup.join("kingpost.db"), "scratched").unwrap();
    let (refused, code) = json(
        demo(),
        &[
            "journal",
            "restore",
            backup_name,
            "--into",
            dir.path().join("third").to_str().unwrap(),
        ],
    );
    assert_eq!(
        (refused["trouble"].as_str(), code),
        (Some("store-backup-damaged"), 3)
    );
}

#[test]
fn a_yard_moves_as_plain_files() {
    let dir = TempDir::new().unwrap();
    let (files, moved) = (dir.path().join("files"), dir.path().join("moved"));
    let exported = told(demo(), &["journal", "export", files.to_str().unwrap()]);
    let imported = told(&moved, &["journal", "import", files.to_str().unwrap()]);
    assert_eq!(
        (&exported["hash"], &exported["entries"]),
        (&imported["hash"], &imported["entries"])
    );
    assert!(
        std::fs::read_to_string(files.join("README.txt"))
            .unwrap()
            .contains("plain files")
    );
}

#[test]
fn every_command_that_prints_also_prints_json() {
    let dir = TempDir::new().unwrap();
    let file = |name: &str| dir.path().join(name).to_str().unwrap().to_owned();
    let (chart, strip, sheet) = (file("chart.pdf"), file("strip.pdf"), file("sheet.pdf"));
    let asked: &[&[&str]] = &[
        &["book", "gaps", "--machine", "marigold"],
        &["book", "format", "--schema"],
        &["book", "format", "--md"],
        &["walkround", "plan", "marigold", "--by", "Ines"],
        &[
            "walkround",
            "plan",
            "marigold",
            "--by",
            "Ines",
            "--purpose",
            "after",
        ],
        &["walkround", "points", "demo/marigold.toml"],
        &["handover", "rules"],
        &["upkeep", "due", "marigold"],
        &["upkeep", "hours", "marigold"],
        &["reckon"],
        &["reckon", "upkeep.due_hours"],
        &[
            "reckon",
            "due-hours",
            "last=412.6h",
            "interval=50 h",
            "now=450.3 h ± 0.1",
        ],
        &["reckon", "--schema", "due-hours"],
        &["journal", "list", "--last", "5"],
        &["journal", "list", "--machine", "marigold"],
        &["journal", "--exit-codes-md"],
        &["people", "permissions", "--md"],
        &["papers", "greasing-chart", "marigold", "-o", &chart],
        &[
            "papers",
            "due-strip",
            "marigold",
            "--size",
            "letter",
            "-o",
            &strip,
        ],
        &[
            "papers",
            "round-sheet",
            "marigold",
            "--by",
            "Tamsin",
            "-o",
            &sheet,
        ],
    ];
    for arguments in asked {
        assert!(told(demo(), arguments).is_object(), "{arguments:?}");
        kingpost(demo()).args(*arguments).assert().success();
    }
    for paper in [chart, strip, sheet] {
        assert!(std::fs::read(paper).unwrap().starts_with(b"%PDF"));
    }
}

#[test]
fn the_reckoner_gives_the_value_of_a_published_sum() {
    // 412.6 h and every 50 h: due at 462.6 h, as in cases/upkeep/due-hours-next-due-strip.md.
    let dir = TempDir::new().unwrap();
    let figure = told(
        dir.path(),
        &[
            "reckon",
            "due-hours",
            "last=412.6h",
            "interval=50h",
            "now=450.3h",
        ],
    );
    assert!((figure["outputs"][0]["value"].as_f64().unwrap() - 462.6).abs() < 1e-9);
    // Half an hour written in minutes, and a list named again.
    let figure = told(
        dir.path(),
        &[
            "reckon",
            "life-hours",
            "starts=0",
            "starts=5",
            "ends=30 min",
            "ends=10",
            "steps=0;0",
            "unmetered=0;0",
            "unmetered_half_widths=0;0",
        ],
    );
    assert!((figure["outputs"][0]["value"].as_f64().unwrap() - 5.5).abs() < 1e-9);
}

#[test]
fn slips_in_the_command_line_and_in_values_have_their_own_codes() {
    let dir = TempDir::new().unwrap();
    kingpost(dir.path()).args(["book", "chek"]).assert().code(2);
    let cases: &[(&[&str], &str, i32)] = &[
        (&["reckon", "moon"], "no-such-leaf", 4),
        (&["reckon", "due-hours", "last=412.6h"], "not-known", 3),
        (&["reckon", "due-hours", "last"], "reckon-no-value", 3),
        (&["reckon", "due-hours", "last=4,500 h"], "comma", 3),
        (&["book", "check", "nowhere.toml"], "file-not-found", 4),
        (&["journal", "verify"], "store-nothing-there", 4),
        (
            &["handover", "verdict", "marigold", "--by", "Jo"],
            "store-nothing-there",
            4,
        ),
    ];
    for (arguments, trouble, code) in cases {
        let (told, ended) = json(dir.path(), arguments);
        assert_eq!(
            (told["trouble"].as_str(), ended),
            (Some(*trouble), *code),
            "{arguments:?}: {told:#}"
        );
        assert!(
            !told["what"].as_str().unwrap().is_empty()
                && !told["next"].as_str().unwrap().is_empty()
        );
    }
}

#[test]
fn strangers_and_unknown_machines_are_named() {
    let (told, code) = json(
        demo(),
        &["handover", "verdict", "marigold", "--by", "Nobody"],
    );
    assert_eq!(
        (told["trouble"].as_str(), code),
        (Some("no-such-person"), 4)
    );
    assert!(told["next"].as_str().unwrap().contains("Tamsin"));
    let (told, code) = json(demo(), &["upkeep", "due", "bess"]);
    assert_eq!(
        (told["trouble"].as_str(), code),
        (Some("no-such-machine"), 4)
    );
    let (told, code) = json(
        demo(),
        &[
            "papers",
            "stand-down-tag",
            "marigold",
            "-o",
            "/nowhere/tag.pdf",
        ],
    );
    assert_eq!(
        (told["trouble"].as_str(), code),
        (Some("nothing-stands-down"), 4)
    );
}

/// A copy of the demo yard's file in a folder of its own.
fn copied() -> (TempDir, PathBuf) {
    let dir = TempDir::new().unwrap();
    let yard = dir.path().join("yard");
    std::fs::create_dir(&yard).unwrap();
    let backup = dir.path().join("backup");
    told(demo(), &["journal", "backup", backup.to_str().unwrap()]);
    std::fs::copy(backup.join("kingpost.db"), yard.join("kingpost.db")).unwrap();
    // The demo's photos, without which a journal is told as not whole.
    let photos = yard.join("photos");
    std::fs::create_dir(&photos).unwrap();
    for photo in std::fs::read_dir(backup.join("photos")).unwrap() {
        let photo = photo.unwrap();
        std::fs::copy(photo.path(), photos.join(photo.file_name())).unwrap();
    }
    (dir, yard)
}

#[test]
fn a_damaged_store_is_told_as_damaged() {
    let (_dir, yard) = copied();
    let file = yard.join("kingpost.db");
    let whole = std::fs::read(&file).unwrap();
    for length in [0, 100, 4_096, whole.len() / 2] {
        std::fs::write(&file, &whole[..length]).unwrap();
        let (told, code) = json(&yard, &["journal", "verify"]);
        assert_eq!(
            (told["trouble"].as_str(), code),
            (Some("store-file-damaged"), 3),
            "cut at {length}: {told:#}"
        );
        assert!(told["next"].as_str().unwrap().contains("last backup"));
    }
    let mut found = 0;
    for place in (0..whole.len()).step_by(whole.len() / 40) {
        let mut bytes = whole.clone();
        bytes[place] ^= 0xff;
        std::fs::write(&file, &bytes).unwrap();
        let (told, code) = json(&yard, &["journal", "verify"]);
        assert!(code == 0 || code == 3, "byte {place}: {told:#}");
        found += u32::from(code == 3);
    }
    assert!(found > 30, "only unused bytes may go unnoticed: {found}");
}

#[test]
fn looking_works_in_a_folder_that_may_not_be_written() {
    let (dir, yard) = copied();
    // Kept as it is used: with the log switched on. The right to write is taken away; who may do everything is not hindered.
    told(&yard, &["people", "pin-link", "Jory"]);
    let read_only = |path: &Path, to: bool| {
        let mut rights = std::fs::metadata(path).unwrap().permissions();
        rights.set_readonly(to);
        std::fs::set_permissions(path, rights).unwrap();
    };
    let paths = [
        yard.join("kingpost.db"),
        yard.join("kingpost.lock"),
        yard.clone(),
    ];
    paths.iter().for_each(|path| read_only(path, true));
    let backup = dir.path().join("another").to_str().unwrap().to_owned();
    let strip = dir.path().join("strip.pdf").to_str().unwrap().to_owned();
    let asked: [&[&str]; 5] = [
        &["journal", "verify"],
        &["people", "list"],
        &["upkeep", "due", "marigold"],
        &["journal", "backup", &backup],
        &["papers", "due-strip", "marigold", "-o", &strip],
    ];
    for arguments in asked {
        told(&yard, arguments);
    }
    let verdict = ["handover", "verdict", "marigold", "--by", "Tamsin"];
    assert_eq!(json(&yard, &verdict).1, 20);
    paths.iter().rev().for_each(|path| read_only(path, false));
}

#[test]
fn an_import_that_fails_leaves_nothing_behind() {
    let dir = TempDir::new().unwrap();
    let moved = dir.path().join("moved");
    let (_, code) = json(&moved, &["journal", "import", "nowhere"]);
    assert_eq!(code, 4);
    assert_eq!(std::fs::read_dir(dir.path()).unwrap().count(), 0);
}

#[test]
fn a_command_line_that_is_not_understood_is_told_in_json_too() {
    let asked: [(&[&str], &str); 4] = [
        (&["book", "chek"], "unrecognized subcommand"),
        (&["book", "format"], "<--md|--schema>"),
        (&["journal"], "What to do is not named."),
        (
            &["papers", "due-strip", "marigold", "--by", "Jo"],
            "unexpected argument '--by'",
        ),
    ];
    for (arguments, what) in asked {
        let (told, code) = json(demo(), arguments);
        assert_eq!((told["trouble"].as_str(), code), (Some("usage"), 2));
        let said = told["what"].as_str().unwrap();
        assert!(
            said.contains(what) && !said.contains("as a value"),
            "{said}"
        );
    }
}

#[test]
fn the_newest_link_counts_and_only_the_steward_adds_people() {
    let dir = TempDir::new().unwrap();
    told(
        dir.path(),
        &["yard", "new", "Invented yard", "--steward", "Jo"],
    );
    told(
        dir.path(),
        &["people", "add", "Kim", "--role", "operator", "--by", "Jo"],
    );
    let link = || told(dir.path(), &["people", "pin-link", "Kim"])["link"].clone();
    let kept = |link: &Value| {
        let token = link.as_str().unwrap().rsplit('/').next().unwrap();
        let yard = store::Store::open_to_look(dir.path()).unwrap();
        yard.yard()
            .unwrap()
            .link(&server::session::hash(token))
            .unwrap()
            .is_some()
    };
    let (first, second) = (link(), link());
    assert_eq!((kept(&first), kept(&second)), (false, true));
    let (refused, _) = json(
        dir.path(),
        &["people", "add", "Sam", "--role", "learner", "--by", "Kim"],
    );
    assert!(
        refused["what"]
            .as_str()
            .unwrap()
            .starts_with("An operator may not")
    );
    assert_eq!(refused["next"], "Ask the steward: nobody else may.");
}

#[test]
fn a_name_is_erased_and_the_journal_says_so() {
    let dir = TempDir::new().unwrap();
    let run = |args: &[&str]| told(dir.path(), args);
    run(&["yard", "new", "Invented yard", "--steward", "Jo"]);
    run(&["people", "add", "Kim", "--role", "operator", "--by", "Jo"]);
    let (refused, _) = json(dir.path(), &["people", "erase", "Jo"]);
    assert_eq!(refused["what"], "This is the only steward.");
    assert_eq!(run(&["people", "unlock", "Kim"])["was_locked"], false);
    assert_eq!(run(&["people", "erase", "kim"])["erased"], true);
    let people = run(&["people", "list"]).to_string();
    assert!(people.contains("Jo") && !people.contains("Kim"), "{people}");
    let journal = run(&["journal", "list"]);
    let last = journal["entries"]
        .as_array()
        .unwrap()
        .last()
        .unwrap()
        .clone();
    assert_eq!(last["kind"], "access");
    let said = last["said"].as_str().unwrap();
    assert!(said.starts_with("The name of …"), "{said}");
}

#[test]
fn gaps_are_said_in_words_to_people() {
    let dir = TempDir::new().unwrap();
    let blank = "blanks/tracked-loader-backhoe.toml";
    let done = kingpost(dir.path())
        .args(["book", "gaps", blank])
        .output()
        .unwrap();
    let said = String::from_utf8(done.stdout).unwrap();
    let gaps = told(dir.path(), &["book", "gaps", blank]);
    for gap in gaps["gaps"].as_array().unwrap() {
        assert!(said.contains(gap["what"].as_str().unwrap()));
        assert!(!said.contains(gap["id"].as_str().unwrap()), "{gap:#}");
    }
}
