//! The server's opening: the first start makes the demo, says where it answers, and it does answer.
#![allow(clippy::unwrap_used)]

mod running;

use running::Running;
use std::{
    io::{Read, Write},
    net::TcpStream,
    process::Command,
};
use tempfile::TempDir;

fn serve(data: &std::path::Path, more: &[&str]) -> Running {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin("kingpost"));
    Running::start(command.env("KINGPOST_DATA", data), 0, more)
}

fn ask(address: &str, path: &str) -> String {
    let host = address.strip_prefix("http://").unwrap();
    let mut stream = TcpStream::connect(host).unwrap();
    write!(
        stream,
        "GET {path} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n"
    )
    .unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    answer
}

#[test]
fn the_first_start_makes_the_demo_and_answers() {
    let dir = TempDir::new().unwrap();
    let data = dir.path().join("yard");
    let first = serve(&data, &[]);
    assert_eq!(first.told["demo_made"], true);
    assert_eq!(
        (first.told["invented"].as_bool(), first.told["pin"].as_str()),
        (Some(true), Some(kingpost::demo::PIN))
    );
    let address = first.told["address"].as_str().unwrap().to_owned();
    assert!(address.starts_with("http://127.0.0.1:"));
    assert!(ask(&address, "/health").ends_with("ok"));
    let yard = ask(
        &address,
        &format!("/y/{}", first.told["tag"].as_str().unwrap()),
    );
    assert!(
        yard.starts_with("HTTP/1.1 200") && yard.contains("Marigold"),
        "{yard:.300}"
    );

    // While it serves, others may look but not write.
    let looked = assert_cmd::Command::cargo_bin("kingpost")
        .unwrap()
        .args(["journal", "verify"])
        .env("KINGPOST_DATA", &data)
        .output()
        .unwrap();
    assert!(looked.status.success());
    let wrote = assert_cmd::Command::cargo_bin("kingpost")
        .unwrap()
        .args(["people", "pin-link", "Odalys"])
        .env("KINGPOST_DATA", &data)
        .output()
        .unwrap();
    assert_eq!(wrote.status.code(), Some(4));

    drop(first);
    assert_eq!(serve(&data, &[]).told["demo_made"], false);
}

#[test]
fn a_name_for_phones_goes_into_the_address() {
    let dir = TempDir::new().unwrap();
    let data = dir.path().join("yard");
    let mut new = assert_cmd::Command::cargo_bin("kingpost").unwrap();
    new.args(["yard", "new", "Invented yard", "--steward", "Jo"])
        .env("KINGPOST_DATA", &data)
        .assert()
        .success();
    let serving = serve(&data, &["--network", "--address", "yard.lan"]);
    let address = serving.told["address"].as_str().unwrap();
    assert!(address.starts_with("http://yard.lan:"), "{address}");
    assert_eq!(
        (
            serving.told["network"].as_bool(),
            serving.told["pin"].as_str()
        ),
        (Some(true), None)
    );
}

/// The system's request to end is heeded: the program says so and ends well.
#[cfg(unix)]
#[test]
fn it_stops_when_told_to() {
    let dir = TempDir::new().unwrap();
    let data = dir.path().join("yard");
    let mut new = assert_cmd::Command::cargo_bin("kingpost").unwrap();
    new.args(["yard", "new", "Invented yard", "--steward", "Jo"])
        .env("KINGPOST_DATA", &data)
        .assert()
        .success();
    let serving = serve(&data, &[]);
    // It answers, so it listens to signals as well.
    assert!(ask(serving.told["address"].as_str().unwrap(), "/health").ends_with("ok"));
    serving.stop();
}
