//! The server's opening: the first start makes the demo, says where it answers, and it does answer.
#![allow(clippy::unwrap_used)]

use serde_json::Value;
use std::{
    io::{BufRead, BufReader, Read, Write},
    net::TcpStream,
    process::{Child, Command, Stdio},
};
use tempfile::TempDir;

struct Serving {
    child: Child,
    opening: Value,
}

impl Drop for Serving {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn serve(data: &std::path::Path, more: &[&str]) -> Serving {
    let mut child = Command::new(assert_cmd::cargo::cargo_bin("kingpost"))
        .args(["serve", "--json", "--port", "0"])
        .args(more)
        .env("KINGPOST_DATA", data)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap())
        .read_line(&mut line)
        .unwrap();
    Serving {
        child,
        opening: serde_json::from_str(&line).unwrap(),
    }
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
    assert_eq!(first.opening["demo_made"], true);
    assert_eq!(
        (
            first.opening["invented"].as_bool(),
            first.opening["pin"].as_str()
        ),
        (Some(true), Some(kingpost::demo::PIN))
    );
    let address = first.opening["address"].as_str().unwrap().to_owned();
    assert!(address.starts_with("http://127.0.0.1:"));
    assert!(ask(&address, "/health").ends_with("ok"));
    let yard = ask(
        &address,
        &format!("/y/{}", first.opening["tag"].as_str().unwrap()),
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
    assert_eq!(serve(&data, &[]).opening["demo_made"], false);
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
    let address = serving.opening["address"].as_str().unwrap();
    assert!(address.starts_with("http://yard.lan:"), "{address}");
    assert_eq!(
        (
            serving.opening["network"].as_bool(),
            serving.opening["pin"].as_str()
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
    let mut serving = serve(&data, &[]);
    // It answers, so it listens to signals as well.
    assert!(ask(serving.opening["address"].as_str().unwrap(), "/health").ends_with("ok"));
    let told = Command::new("kill")
        .args(["-TERM", &serving.child.id().to_string()])
        .status()
        .unwrap();
    assert!(told.success());
    assert!(serving.child.wait().unwrap().success());
}
