//! The real program over HTTPS: a client that trusts only its root gets in, cookies are for TLS only, the plain port leads over.
#![allow(clippy::unwrap_used)]

mod running;

use assert_cmd::cargo::cargo_bin;
use running::Running;
use rustls::{ClientConfig, ClientConnection, RootCertStore, pki_types::ServerName};
use serde_json::Value;
use std::{
    io::{Read, Write},
    net::TcpStream,
    path::{Path, PathBuf},
    process::{Command, Output, Stdio},
    sync::Arc,
};
use tempfile::TempDir;

/// A yard of its own, begun by the command.
struct Place {
    dir: TempDir,
}

impl Place {
    fn new() -> Self {
        Self::by(&["yard", "new", "Invented yard", "--steward", "Jo"])
    }

    fn by(args: &[&str]) -> Self {
        let place = Self {
            dir: tempfile::tempdir().unwrap(),
        };
        assert!(place.run(args).status.success());
        place
    }

    fn data(&self) -> PathBuf {
        self.dir.path().join("yard")
    }

    fn at(&self, name: &str) -> String {
        self.dir.path().join(name).to_str().unwrap().to_owned()
    }

    fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(cargo_bin("kingpost"));
        command
            .args(args)
            .env("KINGPOST_DATA", self.data())
            .env("TZ", "UTC");
        command
    }

    fn run(&self, args: &[&str]) -> Output {
        self.command(args).stdin(Stdio::null()).output().unwrap()
    }

    fn json(&self, args: &[&str]) -> Value {
        let said = self.run(&[&["--json"], args].concat());
        let text = if said.status.success() {
            said.stdout
        } else {
            said.stderr
        };
        serde_json::from_slice(&text).unwrap()
    }

    fn serve(&self, more: &[&str]) -> Serving {
        Serving(Running::start(&mut self.command(&[]), 0, more))
    }

    /// Makes a certificate and its key with openssl, as somebody with a name of their own has them.
    fn certificate(&self, name: &str, subject: &str) -> [String; 2] {
        let files = [
            self.at(&format!("{name}.crt")),
            self.at(&format!("{name}.key")),
        ];
        let made = Command::new("openssl")
            .args([
                "req",
                "-x509",
                "-newkey",
                "ec",
                "-pkeyopt",
                "ec_paramgen_curve:P-256",
            ])
            .args(["-nodes", "-days", "30", "-subj", "/CN=yard"])
            .args(["-addext", &format!("subjectAltName={subject}")])
            .args(["-addext", "basicConstraints=critical,CA:FALSE"])
            .args(["-out", &files[0], "-keyout", &files[1]])
            .output()
            .expect("openssl: ./check installs it");
        assert!(
            made.status.success(),
            "{}",
            String::from_utf8_lossy(&made.stderr)
        );
        files
    }
}

struct Serving(Running);

impl Serving {
    fn port(&self, address: &Value) -> u16 {
        let address = address.as_str().unwrap();
        let after = address
            .split("://")
            .nth(1)
            .unwrap()
            .split('/')
            .next()
            .unwrap();
        after.rsplit(':').next().unwrap().parse().unwrap()
    }

    fn plain(&self, request: &str) -> String {
        let port = self.port(&self.0.told["https"]["trust"]);
        let mut stream = TcpStream::connect(("127.0.0.1", port)).unwrap();
        stream.write_all(request.as_bytes()).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }

    /// Asks over TLS as the host named, trusting only the roots in this PEM text.
    fn secure(&self, roots: &str, host: &str, request: &str) -> Result<String, String> {
        let mut store = RootCertStore::empty();
        for certificate in rustls::pki_types::pem::PemObject::pem_slice_iter(roots.as_bytes()) {
            store.add(certificate.unwrap()).unwrap();
        }
        let provider = Arc::new(rustls::crypto::ring::default_provider());
        let config = ClientConfig::builder_with_provider(provider)
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_root_certificates(store)
            .with_no_client_auth();
        let name = ServerName::try_from(host.to_owned()).unwrap();
        let mut tls = ClientConnection::new(Arc::new(config), name).unwrap();
        let port = self.port(&self.0.told["address"]);
        let mut tcp = TcpStream::connect(("127.0.0.1", port)).unwrap();
        let mut stream = rustls::Stream::new(&mut tls, &mut tcp);
        stream
            .write_all(request.as_bytes())
            .map_err(|why| why.to_string())?;
        let mut answer = String::new();
        stream
            .read_to_string(&mut answer)
            .map_err(|why| why.to_string())?;
        Ok(answer)
    }

    fn root(&self) -> String {
        let answer = self.plain(&get("/trust/root.pem"));
        answer.split("\r\n\r\n").nth(1).unwrap().to_owned()
    }
}

fn get(path: &str) -> String {
    format!("GET {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")
}

fn post(path: &str, body: &str) -> String {
    format!(
        "POST {path} HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: {}\r\n\r\n{body}",
        body.len()
    )
}

#[test]
fn a_client_that_trusts_the_root_gets_in_and_its_cookie_is_for_tls_only() {
    let place = Place::by(&["yard", "demo"]);
    let serving = place.serve(&["--https"]);
    assert_eq!(serving.0.told["network"], true);
    let (root, tag) = (serving.root(), serving.0.told["tag"].as_str().unwrap());
    for host in ["127.0.0.1", "localhost"] {
        let answer = serving.secure(&root, host, &get("/health")).unwrap();
        assert!(
            answer.starts_with("HTTP/1.1 200") && answer.ends_with("ok"),
            "{answer}"
        );
        // Bare numbers have no use for it, and a name that goes back to plain HTTP must not be locked out.
        assert!(!answer.to_lowercase().contains("strict-transport-security"));
    }
    let stranger = serving
        .secure(&root, "example.com", &get("/health"))
        .unwrap_err();
    assert!(
        stranger.contains("NotValidForName") || stranger.contains("not valid for name"),
        "{stranger}"
    );
    let other = std::fs::read_to_string(&place.certificate("other", "DNS:localhost")[0]).unwrap();
    assert!(
        serving
            .secure(&other, "localhost", &get("/health"))
            .is_err()
    );

    let page = serving
        .secure(&root, "localhost", &get(&format!("/y/{tag}/sign-in")))
        .unwrap();
    let odalys = page
        .split("Odalys")
        .next()
        .unwrap()
        .rsplit("value=\"")
        .next()
        .unwrap();
    let odalys = odalys.split('"').next().unwrap();
    let typed = format!("person={odalys}&pin={}", kingpost::demo::PIN);
    let answer = serving
        .secure(
            &root,
            "localhost",
            &post(&format!("/y/{tag}/sign-in"), &typed),
        )
        .unwrap();
    let cookie = answer
        .lines()
        .find(|line| line.to_lowercase().starts_with("set-cookie:"));
    let cookie = cookie.unwrap_or_else(|| panic!("no cookie: {answer}"));
    assert!(
        cookie.ends_with("; Secure") && cookie.contains("HttpOnly"),
        "{cookie}"
    );
}

#[test]
fn the_plain_port_shows_the_trust_page_and_leads_over() {
    let place = Place::new();
    let serving = place.serve(&["--https"]);
    let secure = serving.port(&serving.0.told["address"]);
    let answer = serving.plain(&get("/y/0000000000/m/x?list=1"));
    assert!(answer.starts_with("HTTP/1.1 308"), "{answer}");
    let to = format!("location: https://127.0.0.1:{secure}/y/0000000000/m/x?list=1");
    assert!(answer.to_lowercase().contains(&to), "{answer}");
    let foreign =
        serving.plain("GET / HTTP/1.1\r\nHost: evil.example\r\nConnection: close\r\n\r\n");
    assert!(
        foreign.starts_with("HTTP/1.1 308") && !foreign.contains("evil"),
        "{foreign}"
    );
    let refused = serving.plain(&post("/y/0000000000/sign-in", "pin=1"));
    assert!(
        refused.starts_with("HTTP/1.1 403") && refused.contains("Nothing was kept"),
        "{refused}"
    );
    assert!(serving.plain(&get("/health")).ends_with("ok"));

    let page = serving.plain(&get("/trust"));
    assert!(
        page.starts_with("HTTP/1.1 200") && !page.contains("<script"),
        "{page:.300}"
    );
    let fingerprint = serving.0.told["https"]["fingerprint"].as_str().unwrap();
    let one_line = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(one_line.contains(fingerprint));
    let style = page
        .split("href=\"")
        .find(|href| href.contains(".css"))
        .unwrap();
    let style = serving.plain(&get(style.split('"').next().unwrap()));
    assert!(style.starts_with("HTTP/1.1 200"), "{style:.300}");
    let root = serving.plain(&get("/trust/root.crt"));
    assert!(
        root.contains("content-type: application/x-x509-ca-cert"),
        "{root:.400}"
    );
    // The same page and root over TLS.
    let pem = serving.root();
    let over = serving.secure(&pem, "localhost", &get("/trust")).unwrap();
    assert!(over.starts_with("HTTP/1.1 200"));
    // openssl reads the fingerprint of the downloaded root.
    std::fs::write(place.at("root.pem"), &pem).unwrap();
    let said = Command::new("openssl")
        .args([
            "x509",
            "-noout",
            "-fingerprint",
            "-sha256",
            "-in",
            &place.at("root.pem"),
        ])
        .output()
        .expect("openssl: ./check installs it");
    let said = String::from_utf8(said.stdout)
        .unwrap()
        .trim()
        .replace(':', "");
    assert!(said.ends_with(&fingerprint.replace(' ', "")), "{said}");
}

#[cfg(unix)]
#[test]
fn both_ports_stop_when_told_to() {
    let place = Place::new();
    let serving = place.serve(&["--https"]);
    assert!(serving.plain(&get("/health")).ends_with("ok"));
    serving.0.stop();
}

#[test]
fn the_command_shows_what_phones_compare_and_makes_a_new_root_only_when_meant() {
    let place = Place::new();
    let first = place.json(&["https"]);
    assert_eq!(first["done"], "https-made");
    let fingerprint = |said: &Value| said["root"]["fingerprint"].as_str().unwrap().to_owned();
    assert_eq!(fingerprint(&first).split(' ').count(), 16);
    let again = place.json(&["https"]);
    assert_eq!(
        (again["done"].as_str(), &again["certificate"]),
        (None, &first["certificate"])
    );
    let renewed = place.json(&["https", "--renew"]);
    assert_eq!(
        (renewed["done"].as_str(), fingerprint(&renewed)),
        (Some("https-renewed"), fingerprint(&first))
    );

    let not_asked = place.json(&["https", "--new-root"]);
    assert_eq!(not_asked["trouble"], "https-new-root-not-asked");
    assert_eq!(fingerprint(&place.json(&["https"])), fingerprint(&first));
    let new = place.json(&["https", "--new-root", "--yes", "--name", "yard.example"]);
    assert_ne!(fingerprint(&new), fingerprint(&first));
    assert_eq!(new["root"]["named"], serde_json::json!(["yard.example"]));
    assert_eq!(
        place.json(&["https", "--name", "other.example"])["trouble"],
        "https-out-of-reach"
    );
    assert_eq!(
        place.json(&["https", "--name", "yard"])["trouble"],
        "https-not-a-name"
    );
    let serving = place.serve(&["--https", "--address", "yard.example"]);
    assert!(
        serving.0.told["address"]
            .as_str()
            .unwrap()
            .starts_with("https://yard.example:")
    );
    let answer = serving
        .secure(&serving.root(), "yard.example", &get("/health"))
        .unwrap();
    assert!(answer.ends_with("ok"));
}

#[test]
fn your_own_certificate_is_served_and_a_wrong_key_is_told() {
    let place = Place::new();
    let mine = place.certificate("mine", "DNS:yard.example");
    let other = place.certificate("other", "DNS:yard.example");
    let told = place.json(&["serve", "--certificate", &mine[0], "--key", &other[1]]);
    assert_eq!(told["trouble"], "https-key-of-another");
    let said = format!("{}{}", told["what"], told["next"]);
    assert!(
        said.contains("other.key") && said.contains("mine.crt"),
        "{said}"
    );
    let alone = place.json(&["serve", "--certificate", &mine[0]]);
    assert_eq!(alone["trouble"], "https-certificate-and-key");
    let elsewhere = place.json(&[
        "serve",
        "--certificate",
        &mine[0],
        "--key",
        &mine[1],
        "--address",
        "farm.example",
    ]);
    assert_eq!(elsewhere["trouble"], "https-name-missing");

    let serving = place.serve(&["--certificate", &mine[0], "--key", &mine[1]]);
    assert!(
        serving.0.told["address"]
            .as_str()
            .unwrap()
            .starts_with("https://yard.example:")
    );
    let root = std::fs::read_to_string(&mine[0]).unwrap();
    assert!(
        serving
            .secure(&root, "yard.example", &get("/health"))
            .unwrap()
            .ends_with("ok")
    );
    // Nothing is to be installed: there is no root of the yard's own, and none was made.
    assert!(
        serving
            .plain(&get("/trust/root.crt"))
            .starts_with("HTTP/1.1 404")
    );
    assert!(
        serving
            .plain(&get("/trust"))
            .contains("There is nothing to install.")
    );
    assert!(!place.data().join("tls").exists());
}

/// Decided: a backup lies around, so the root's key is not in it.
#[test]
fn a_backup_holds_no_key() {
    let place = Place::new();
    assert_eq!(place.json(&["https"])["done"], "https-made");
    let backup = place.at("backup");
    assert!(place.run(&["journal", "backup", &backup]).status.success());
    assert_eq!(keys_in(Path::new(&backup)), Vec::<PathBuf>::new());
    // The search does find keys where there are some.
    assert_eq!(keys_in(&place.data()).len(), 2);
}

fn keys_in(dir: &Path) -> Vec<PathBuf> {
    let inside = std::fs::read_dir(dir)
        .unwrap()
        .map(|one| one.unwrap().path());
    inside
        .flat_map(|path| match path.is_dir() {
            true => keys_in(&path),
            false => vec![path],
        })
        .filter(|path| {
            let bytes = std::fs::read(path).unwrap();
            String::from_utf8_lossy(&bytes).contains("PRIVATE KEY")
        })
        .collect()
}
