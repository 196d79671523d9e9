//! What a root and a leaf say, and for what they are taken.

use super::{Place, days, names};
use crate::tls::{Name, Pair, issue, snag::Snag};
use jiff::Timestamp;
use rustls::{
    RootCertStore,
    client::{WebPkiServerVerifier, danger::ServerCertVerifier},
    pki_types::{ServerName, UnixTime},
};
use std::{process::Command, sync::Arc, time::Duration};
use x509_parser::{certificate::X509Certificate, extensions::ParsedExtension, prelude::FromDer};
use yard::world::World;

/// What a browser built on webpki says of a leaf under this root for a name.
fn judge(root: &Pair, leaf: &Pair, name: &str, now: Timestamp) -> Result<(), String> {
    let mut roots = RootCertStore::empty();
    roots.add(root.certificate().clone()).unwrap();
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let verifier = WebPkiServerVerifier::builder_with_provider(Arc::new(roots), provider)
        .build()
        .unwrap();
    let now = UnixTime::since_unix_epoch(Duration::from_secs(now.as_second() as u64));
    verifier
        .verify_server_cert(
            leaf.certificate(),
            &[],
            &ServerName::try_from(name.to_owned()).unwrap(),
            &[],
            now,
        )
        .map(drop)
        .map_err(|why| format!("{why:?}"))
}

/// What openssl says.
fn openssl(place: &Place, root: &Pair, leaf: &Pair, more: &[&str]) -> String {
    let file = |name: &str, pair: &Pair| {
        let path = place.data.path().join(name);
        std::fs::write(&path, pair.certificate_pem()).unwrap();
        path
    };
    let said = Command::new("openssl")
        .args(["verify", "-x509_strict", "-purpose", "sslserver", "-attime"])
        .arg(place.clock.now().as_second().to_string())
        .arg("-CAfile")
        .arg(file("root.txt", root))
        .args(more)
        .arg(file("leaf.txt", leaf))
        .output()
        .expect("openssl: ./check installs it");
    String::from_utf8_lossy(&[said.stdout, said.stderr].concat()).into_owned()
}

#[test]
fn the_root_says_how_little_it_may() {
    let place = Place::new();
    let root = place.root();
    let (_, read) = X509Certificate::from_der(root.certificate()).unwrap();
    let basic = read.basic_constraints().unwrap().unwrap();
    assert!(basic.critical && basic.value.ca);
    assert_eq!(basic.value.path_len_constraint, Some(0));
    let usage = read.key_usage().unwrap().unwrap();
    assert!(usage.critical && usage.value.key_cert_sign() && usage.value.crl_sign());
    assert!(!usage.value.digital_signature() && !usage.value.key_encipherment());
    let constraints = read.name_constraints().unwrap().unwrap();
    assert!(constraints.critical && constraints.value.excluded_subtrees.is_none());
    assert!(constraints.value.permitted_subtrees.as_ref().unwrap().len() >= 10);
    let says = root.shown().unwrap();
    let now = place.clock.now();
    assert!(
        says.from < now - days(1) && says.until > now + days(3651) && says.until < now + days(3653)
    );
    assert_eq!(says.name, "Invented yard (Kingpost 2026-03-02 4000)");
    assert_eq!(read.subject(), read.issuer());
}

#[test]
fn a_long_name_of_a_yard_is_cut_to_what_a_certificate_holds() {
    let place = Place::new();
    let long = "Ärger und Aufschrei am Hügel ".repeat(8);
    let root = place
        .folder()
        .new_root(&long, &names(&[]), place.clock.as_ref())
        .unwrap();
    assert_eq!(root.shown().unwrap().name.chars().count(), 64);
}

#[test]
fn the_leaf_is_for_servers_and_for_about_a_year() {
    let place = Place::new();
    let root = place.root();
    let wanted = names(&["box7.local", "localhost", "192.168.1.20", "fd00::7"]);
    let leaf = issue::leaf(&root, &wanted, place.clock.as_ref()).unwrap();
    let (_, read) = X509Certificate::from_der(leaf.certificate()).unwrap();
    let usage = read.extended_key_usage().unwrap().unwrap().value;
    assert!(usage.server_auth && !usage.any && !usage.client_auth && !usage.code_signing);
    assert!(!read.basic_constraints().unwrap().unwrap().value.ca);
    assert!(read.key_usage().unwrap().unwrap().value.digital_signature());
    let signed = read.extensions().iter().any(|extension| {
        matches!(
            extension.parsed_extension(),
            ParsedExtension::AuthorityKeyIdentifier(_)
        )
    });
    assert!(signed);
    let says = leaf.shown().unwrap();
    assert_eq!(says.names, wanted);
    // 398 days: the most that browsers take from the roots they ship (CA/Browser Forum, baseline requirements 6.3.2).
    assert!(says.until.duration_since(says.from) <= days(398));
    assert!(says.from <= place.clock.now() - days(1));
}

#[test]
fn a_leaf_is_taken_for_its_names_and_no_others() {
    let place = Place::new();
    let (root, now) = (place.root(), place.clock.now());
    let wanted = names(&["box7.local", "localhost", "192.168.1.20", "fd00::7"]);
    let leaf = issue::leaf(&root, &wanted, place.clock.as_ref()).unwrap();
    for name in ["box7.local", "localhost", "192.168.1.20", "fd00::7"] {
        assert_eq!(judge(&root, &leaf, name, now), Ok(()), "{name}");
    }
    for name in ["box8.local", "192.168.1.21", "example.com"] {
        let said = judge(&root, &leaf, name, now).unwrap_err();
        assert!(said.contains("NotValidForName"), "{name}: {said}");
    }
    let other = Place::new();
    let other = other
        .folder()
        .new_root("Another yard", &names(&[]), other.clock.as_ref())
        .unwrap();
    assert!(
        judge(&other, &leaf, "box7.local", now)
            .unwrap_err()
            .contains("UnknownIssuer")
    );
    for check in [
        ["-verify_hostname", "box7.local"],
        ["-verify_ip", "fd00::7"],
    ] {
        let said = openssl(&place, &root, &leaf, &check);
        assert!(said.trim_end().ends_with(": OK"), "{said}");
    }
}

/// Whoever steals the root's key can still not stand for the wide world.
#[test]
fn a_stolen_root_is_worth_nothing_outside() {
    let place = Place::new();
    let (root, now) = (place.root(), place.clock.now());
    for name in ["example.com", "local.example", "8.8.8.8", "2001:db8::1"] {
        let forged = issue::leaf(&root, &names(&[name]), place.clock.as_ref()).unwrap();
        let said = judge(&root, &forged, name, now).unwrap_err();
        assert!(said.contains("NameConstraintViolation"), "{name}: {said}");
        let said = openssl(&place, &root, &forged, &[]);
        assert!(
            said.contains("permitted subtree violation"),
            "{name}: {said}"
        );
    }
}

#[test]
fn a_named_name_is_reached_by_a_root_made_with_it() {
    let place = Place::new();
    let folder = place.folder();
    let named = names(&["yard.example", "203.0.113.5"]);
    let root = folder
        .new_root("Invented yard", &named, place.clock.as_ref())
        .unwrap();
    let all = crate::tls::wanted(&root, &named).unwrap();
    let leaf = folder
        .leaf(&root, &all, place.clock.as_ref(), false)
        .unwrap();
    for name in ["yard.example", "203.0.113.5", "127.0.0.1"] {
        assert_eq!(
            judge(&root, &leaf, name, place.clock.now()),
            Ok(()),
            "{name}"
        );
    }
    // It is remembered: a later start need not name it again.
    assert!(
        crate::tls::wanted(&root, &names(&[]))
            .unwrap()
            .is_superset(&named)
    );
    let outside = crate::tls::wanted(&root, &names(&["other.example"])).unwrap_err();
    let told = Snag::Yours(
        "https-out-of-reach",
        vec![("name", "other.example".to_owned())],
    );
    assert_eq!(outside, told);
    assert_eq!(Name::read("com"), None);
}
