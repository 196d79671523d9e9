//! Parts of a book: kinds and their keys, sizes and numbers that stay text, what fits instead, torques that are hard to
//! believe.
#![allow(clippy::unwrap_used)]

use quantity::Habits;
use yard::book::{Level, PartKind, PartWord, PutIn, TroubleKind, read};

fn book(parts: &str) -> String {
    format!(
        "kingpost = 1\n[machine]\nid = \"invented-loader\"\nname = \"Invented loader\"\nkind = \"loader\"\n\
         [[station]]\nid = \"front\"\nname = \"Front\"\n{parts}"
    )
}

fn one(part: &str) -> yard::book::Part {
    let read = read(&book(part), &Habits::default());
    assert_eq!(read.troubles, [], "{part}");
    read.book.unwrap().parts[0].clone()
}

fn codes(part: &str) -> Vec<(Level, &'static str)> {
    let read = read(&book(part), &Habits::default());
    let told = read.troubles.iter();
    told.map(|trouble| (trouble.level, trouble.what.code()))
        .collect()
}

/// B09 of the gathered problems: what a table of numbers does to sizes and numbers of parts.
#[test]
fn sizes_and_numbers_stay_as_they_are_written() {
    for written in [
        "3/8",
        "0042917",
        "557E90",
        "1914310000010100016",
        "10-30",
        "1.0",
    ] {
        let part = one(&format!(
            "[[part]]\nid = \"bolt\"\nwhat = \"Bolt\"\nsize = \"{written}\"\nnumber = \"{written}\"\n"
        ));
        assert_eq!(part.size.as_deref(), Some(written));
        assert_eq!(part.number.as_deref(), Some(written));
    }
    for bare in ["3/8", "0042917", "557E90", "1914310000010100016", "1.0"] {
        let told = codes(&format!(
            "[[part]]\nid = \"bolt\"\nwhat = \"Bolt\"\nnumber = {bare}\n"
        ));
        assert!(
            told.iter().any(|(level, _)| *level == Level::Mistake),
            "{bare} was taken"
        );
    }
}

#[test]
fn a_part_of_an_older_book_reads_as_before() {
    let part = one("[[part]]\nid = \"pin\"\nwhat = \"Split pin\"\nsize = \"1/4 in x 2 in\"\n");
    assert_eq!(part.kind, PartKind::Plain(PartWord::Other));
    assert_eq!((part.count, part.keep, part.instead.len()), (1, None, 0));
}

#[test]
fn a_fastener_has_torque_and_angle() {
    let part = one(
        "[[part]]\nid = \"shoe-bolt\"\nwhat = \"Shoe bolt\"\nkind = \"fastener\"\nthread = \"3/4-10\"\ngrade = \"grade 8\"\n\
         torque = \"393 Nm\"\nthen = \"120 degrees more\"\nput-in = \"lubricated\"\ncount = 152\n",
    );
    let PartKind::Fastener(bolt) = part.kind else {
        panic!("no fastener")
    };
    assert_eq!(bolt.torque.unwrap().text(), "393 Nm");
    assert_eq!(bolt.then.as_deref(), Some("120 degrees more"));
    assert_eq!(bolt.put_in, Some(PutIn::Lubricated));
    assert_eq!(part.count, 152);
}

#[test]
fn a_key_of_another_kind_is_told() {
    assert_eq!(
        codes("[[part]]\nid = \"belt\"\nwhat = \"Belt\"\nkind = \"belt\"\ntorque = \"20 Nm\"\n"),
        [(Level::Mistake, "key-of-other-kind")]
    );
    assert_eq!(
        codes("[[part]]\nid = \"belt\"\nwhat = \"Belt\"\nends = [\"JIC 6\"]\n"),
        [(Level::Mistake, "key-of-other-kind")]
    );
}

#[test]
fn what_fits_instead_says_who_said_so_and_when() {
    let part = one(
        "[[part]]\nid = \"oil-filter\"\nwhat = \"Oil filter\"\nkind = \"filter\"\nnumber = \"0042917\"\n\
         instead = [{ what = \"Tall one\", number = \"557E90\", said-by = \"the farm shop\", on = \"2025-03-01\" }]\n",
    );
    let instead = &part.instead[0];
    assert_eq!(instead.number.as_deref(), Some("557E90"));
    assert_eq!(instead.said_by, "the farm shop");
    assert_eq!(instead.on, jiff::civil::date(2025, 3, 1));
    let with = |instead: &str| {
        codes(&format!(
            "[[part]]\nid = \"f\"\nwhat = \"F\"\ninstead = [{{ {instead} }}]\n"
        ))
    };
    assert_eq!(
        with("what = \"x\", said-by = \"y\", on = \"last spring\""),
        [(Level::Mistake, "bad-date")]
    );
    assert_eq!(
        with("what = \"x\", on = \"2025-03-01\""),
        [(Level::Mistake, "wrong-type")]
    );
    assert_eq!(
        with("what = \"x\", number = 557E90, said-by = \"y\", on = \"2025-03-01\""),
        [(Level::Mistake, "wrong-type")]
    );
}

#[test]
fn a_torque_hard_to_believe_is_a_warning_and_no_mistake() {
    let bolt = |torque: &str, more: &str| {
        let text = book(&format!(
            "[[part]]\nid = \"b\"\nwhat = \"Frame bolt\"\nkind = \"fastener\"\nthread = \"M16\"\ngrade = \"8.8\"\n\
             torque = \"{torque}\"\n{more}"
        ));
        read(&text, &Habits::default())
    };
    assert_eq!(bolt("218 Nm", "").troubles, []);
    assert_eq!(bolt("160 lb ft", "").troubles, []);
    let unlikely = bolt("2180 Nm", "");
    assert!(unlikely.book.is_some());
    assert_eq!(unlikely.troubles[0].level, Level::Warning);
    assert!(matches!(
        &unlikely.troubles[0].what,
        TroubleKind::TorqueUnlikely { torque, high, .. } if torque == "2180 Nm" && *high < 600
    ));
    assert_eq!(bolt("20 Nm", "").troubles.len(), 1);
    // A low torque is right where an angle follows it.
    assert_eq!(bolt("20 Nm", "then = \"90 degrees more\"\n").troubles, []);
}

#[test]
fn marks_name_the_attachments_of_the_book() {
    let with = |taken: &str| {
        codes(&format!(
            "[[point]]\nid = \"oil\"\nstation = \"front\"\nkind = \"level\"\nabout = \"hydraulic-oil\"\nwhat = \"Oil\"\n\
             rhythm = \"every start\"\nattachments = [\"wide-bucket\"]\n{taken}"
        ))
    };
    let taken =
        |id: &str| format!("[[attachment]]\nid = \"{id}\"\nlocks = \"Two pins, clips seen\"\n");
    assert_eq!(with(""), []);
    assert_eq!(with(&taken("wide-bucket")), []);
    assert_eq!(
        with(&taken("narrow-bucket")),
        [(Level::Warning, "mark-of-other-attachment")]
    );
}
