//! The leaf renews itself while the server runs, and lies on the disk where only its owner reads it.

use super::{Clock, Place, days, names};
use crate::tls::{Folder, Shown, snag::Snag};
use axum::{Router, routing::get};
use axum_server::{Handle, tls_rustls::RustlsConfig};
use rustls::{
    ClientConfig, ClientConnection, RootCertStore,
    pki_types::{CertificateDer, ServerName, UnixTime},
    time_provider::TimeProvider,
};
use std::{
    fs,
    io::{Read, Write},
    net::{SocketAddr, TcpListener, TcpStream},
    path::Path,
    sync::Arc,
    time::Duration,
};
use yard::world::World;

#[derive(Debug)]
struct ByClock(i64);

impl TimeProvider for ByClock {
    fn current_time(&self) -> Option<UnixTime> {
        Some(UnixTime::since_unix_epoch(Duration::from_secs(
            self.0 as u64,
        )))
    }
}

/// A visit that trusts only this root, at the clock's time: what was answered, and the certificate it was answered with.
fn visit(address: SocketAddr, root: &CertificateDer<'static>, clock: &Clock) -> (String, Shown) {
    let mut roots = RootCertStore::empty();
    roots.add(root.clone()).unwrap();
    let provider = Arc::new(rustls::crypto::ring::default_provider());
    let time = Arc::new(ByClock(clock.now().as_second()));
    let config = ClientConfig::builder_with_details(provider, time)
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let name = ServerName::try_from("127.0.0.1").unwrap();
    let mut tls = ClientConnection::new(Arc::new(config), name).unwrap();
    let mut tcp = TcpStream::connect(address).unwrap();
    let mut stream = rustls::Stream::new(&mut tls, &mut tcp);
    stream
        .write_all(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")
        .unwrap();
    let mut answer = String::new();
    stream.read_to_string(&mut answer).unwrap();
    let leaf = Shown::of(&tls.peer_certificates().unwrap()[0]).unwrap();
    (answer, leaf)
}

#[test]
fn twenty_days_before_the_end_a_new_leaf_is_served_and_nobody_is_cut_off() {
    let place = Place::new();
    let keeper = place.keeper(&[]);
    let root = keeper.served().root.unwrap().certificate().clone();
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let address = listener.local_addr().unwrap();
    listener.set_nonblocking(true).unwrap();
    let config = RustlsConfig::from_config(keeper.served().config);
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .unwrap();
    let handle = Handle::new();
    let serving = {
        let (config, handle) = (config.clone(), handle.clone());
        runtime.spawn(async move {
            let pages = Router::new().route("/", get(|| async { "here" }));
            let server = axum_server::from_tcp_rustls(listener, config).unwrap();
            server.handle(handle).serve(pages.into_make_service()).await
        })
    };
    let (answer, first) = visit(address, &root, &place.clock);
    assert!(answer.ends_with("here"), "{answer}");

    place.clock.move_to(first.until - days(31));
    assert!(keeper.look().unwrap().is_none());
    place.clock.move_to(first.until - days(20));
    let served = keeper.look().unwrap().unwrap();
    config.reload_from_config(served.config);
    let (answer, second) = visit(address, &root, &place.clock);
    assert!(answer.ends_with("here"), "{answer}");
    assert_eq!(second.until, place.clock.now() + days(395));
    assert!(second.until > first.until && keeper.look().unwrap().is_none());

    // Past the first leaf's end the same listener still answers by the same root.
    place.clock.move_to(first.until + days(10));
    assert!(visit(address, &root, &place.clock).0.ends_with("here"));
    handle.shutdown();
    runtime.block_on(serving).unwrap().unwrap();
}

#[test]
fn a_leaf_is_made_anew_for_a_new_name_a_new_root_and_a_clock_set_back() {
    let place = Place::new();
    let leaf = place.keeper(&[]).served().leaf;
    assert_eq!(place.keeper(&[]).served().leaf.until, leaf.until);
    place.clock.move_to(place.clock.now() + days(1));
    let named = place.keeper(&["other-name.local"]).served().leaf;
    assert!(named.until > leaf.until && named.names.is_superset(&names(&["other-name.local"])));

    let running = place.keeper(&[]);
    let old = running.served().root.unwrap();
    place
        .folder()
        .new_root("Invented yard", &names(&[]), place.clock.as_ref())
        .unwrap();
    let after = running.look().unwrap().unwrap();
    assert_ne!(after.root.unwrap().certificate(), old.certificate());

    place.clock.move_to(place.clock.now() - days(40));
    // The root is not good yet either; the person sees why in the browser. The leaf at least is made for this time.
    assert!(running.look().unwrap().unwrap().leaf.from <= place.clock.now());
}

#[test]
fn a_root_whose_time_is_over_is_made_anew() {
    let place = Place::new();
    let first = place.root();
    place.clock.move_to(first.shown().unwrap().until + days(1));
    assert_ne!(place.root().certificate(), first.certificate());
}

#[cfg(unix)]
#[test]
fn only_the_owner_reads_the_keys() {
    use std::os::unix::fs::PermissionsExt;
    let place = Place::new();
    place.keeper(&[]);
    let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let folder = place.folder();
    assert_eq!(mode(folder.path()), 0o700);
    let files: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .map(|file| file.unwrap().path())
        .collect();
    assert_eq!(files.len(), 2);
    for file in files {
        assert_eq!(mode(&file), 0o600, "{}", file.display());
    }
}

/// What a power cut in the middle of writing leaves behind: a file beside, half written. The old pair stays good.
#[test]
fn a_cut_in_the_middle_leaves_the_old_pair() {
    let place = Place::new();
    let before = place.keeper(&[]).served();
    let beside = place.folder().path().join("leaf.new");
    fs::write(&beside, "-----BEGIN CERT").unwrap();
    assert_eq!(place.keeper(&[]).served().leaf.until, before.leaf.until);
    place.clock.move_to(before.leaf.until - days(3));
    assert!(place.keeper(&[]).served().leaf.until > before.leaf.until);
    assert!(!beside.exists());
}

#[test]
fn a_damaged_leaf_is_replaced_and_a_damaged_root_is_told() {
    let place = Place::new();
    let before = place.keeper(&[]).served();
    let cut = |folder: &Folder, name: &str| {
        let path = folder.path().join(name);
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, &text[..text.len() / 2]).unwrap();
        path
    };
    cut(&place.folder(), "leaf.pem");
    let after = place.keeper(&[]).served();
    assert_eq!(
        after.root.unwrap().certificate(),
        before.root.unwrap().certificate()
    );
    let path = cut(&place.folder(), "root.pem");
    let told = crate::tls::Keeper::begin(place.source(&[]), place.clock.clone()).err();
    assert_eq!(told, Some(Snag::file("https-own-damaged", &path)));
}
