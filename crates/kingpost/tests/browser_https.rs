//! HTTPS in a real browser that trusts the yard's root and nothing else of ours: no warning, a secure context; and no more than that.
#![allow(clippy::unwrap_used, missing_docs)]

mod browser;

use browser::{
    chromium::{World, drive, drive_in},
    page::Page,
    pocket::{all, all_delivered, deliver, journal, of_phone, open, stand_down, until, until_says},
    program::{Folder, Server, run},
    round::MACHINE,
};
use serde_json::json;
use std::{
    path::{Path, PathBuf},
    process::Command,
};

const NAME: &str = "yard-box.local";

/// A name of the wide world, for which the yard's root must never be good.
const WIDE: &str = "farm.example";

/// The root made and written out, as somebody takes it to their phone.
fn root_of(folder: &Folder, data: &Path) -> PathBuf {
    assert!(run(data, &["yard", "demo"]).status.success());
    assert!(run(data, &["https"]).status.success());
    let root = folder.at("root.crt");
    openssl(&["x509", "-in", &own_root(data), "-out", &text(&root)]);
    root
}

fn own_root(data: &Path) -> String {
    text(&data.join("tls/root.pem"))
}

fn text(path: &Path) -> String {
    path.to_str().unwrap().to_owned()
}

fn openssl(args: &[&str]) {
    let said = Command::new("openssl").args(args).output();
    let said = said.expect("openssl: ./check installs it");
    assert!(
        said.status.success(),
        "{}",
        String::from_utf8_lossy(&said.stderr)
    );
}

async fn is_secure(page: &Page) -> bool {
    page.ask("return isSecureContext", vec![]).await == json!(true)
}

#[test]
fn with_the_root_trusted_pages_open_without_a_warning_and_securely() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let root = root_of(&folder, &data);
    let server = Server::start_with(&data, &["--https", "--address", NAME]);
    let world = World {
        names: &[NAME],
        root: Some(&root),
    };
    drive_in(&world, async move |page: Page| {
        // From the trust page over plain HTTP to the yard, as its button leads.
        page.goto(&server.trust).await;
        assert!(server.trust.starts_with("http://yard-box.local:") && !is_secure(&page).await);
        page.press("Open the yard").await;
        assert_eq!(page.address().await, server.home());
        assert!(is_secure(&page).await);
        page.sign_in("Odalys", &server.pin).await;
        page.says("Odalys").await;
        let cookies = page.driver.get_all_cookies().await.unwrap();
        // The plain trust page marks the device by a cookie of another name; who is signed in travels over TLS only.
        let signed_in = |name: &str| cookies.iter().find(|cookie| cookie.name == name);
        assert_eq!(signed_in("__Host-kingpost").unwrap().secure, Some(true));
        assert!(signed_in("kingpost").is_none());
        // What a page over plain HTTP has not.
        let has =
            "return ['caches' in window, 'serviceWorker' in navigator, 'randomUUID' in crypto]";
        assert_eq!(page.ask(has, vec![]).await, json!([true, true, true]));
        // An address from an old square code leads over by itself.
        let old = server
            .trust
            .replace("/trust", &format!("/y/{}", server.tag));
        page.goto(&old).await;
        assert_eq!(page.address().await, server.home());
    });
}

/// The whole promise of HTTPS: the page opens again out of reach, what is written there arrives once.
#[test]
fn over_https_the_pocket_opens_out_of_reach_and_delivers_once() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let root = root_of(&folder, &data);
    let server = Server::start_with(&data, &["--https", "--address", NAME]);
    let world = World {
        names: &[NAME],
        root: Some(&root),
    };
    drive_in(&world, async move |page: Page| {
        let (home, port) = (server.home(), server.port().to_string());
        page.goto(&home).await;
        page.sign_in("Tamsin", &server.pin).await;
        open(&page, &home, MACHINE).await;
        until(&page, "return navigator.serviceWorker.controller !== null").await;
        until(
            &page,
            "return caches.match(location.pathname).then(page => page !== undefined)",
        )
        .await;
        server.kill();
        page.goto("about:blank").await;
        open(&page, &home, MACHINE).await;
        until_says(&page, "#reach", "Out of reach").await;
        stand_down(&page, "Knock in the engine").await;
        page.goto("about:blank").await;
        // Closed and opened once more: it is still there.
        open(&page, &home, MACHINE).await;
        until_says(&page, "#worse", "Knock in the engine").await;
        let again = ["--https", "--address", NAME, "--https-port", &port];
        let server = Server::start_with(&data, &again);
        deliver(&page).await;
        all_delivered(&page).await;
        let kept = all(&page, "entries").await;
        let written = journal(&data);
        assert_eq!(of_phone(&written, &kept).len(), 1);
        server.stop();
    });
}

#[test]
fn without_the_root_the_browser_warns() {
    let folder = Folder::new();
    let data = folder.at("yard");
    root_of(&folder, &data);
    let server = Server::start_with(&data, &["--https"]);
    let port = server.address.rsplit(':').next().unwrap().to_owned();
    drive(async move |page: Page| {
        page.goto(&format!("https://127.0.0.1:{port}/")).await;
        page.says("NET::ERR_CERT_AUTHORITY_INVALID").await;
        drop(server);
    });
}

/// Whoever has the root's key can still not stand for a site of the wide world before this browser.
#[test]
fn a_leaf_for_the_wide_world_under_the_trusted_root_is_refused() {
    let folder = Folder::new();
    let data = folder.at("yard");
    let root = root_of(&folder, &data);
    let [key, request, leaf, names] =
        ["forged.key", "forged.csr", "forged.crt", "names"].map(|name| text(&folder.at(name)));
    std::fs::write(
        &names,
        format!("subjectAltName=DNS:{WIDE}\nextendedKeyUsage=serverAuth\n"),
    )
    .unwrap();
    openssl(&[
        "req",
        "-new",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:P-256",
        "-nodes",
        "-subj",
        "/CN=farm",
        "-keyout",
        &key,
        "-out",
        &request,
    ]);
    openssl(&[
        "x509",
        "-req",
        "-days",
        "30",
        "-in",
        &request,
        "-CA",
        &own_root(&data),
        "-CAkey",
        &own_root(&data),
        "-CAcreateserial",
        "-CAserial",
        &text(&folder.at("serial")),
        "-extfile",
        &names,
        "-out",
        &leaf,
    ]);
    let server = Server::start_with(&data, &["--certificate", &leaf, "--key", &key]);
    let world = World {
        names: &[WIDE],
        root: Some(&root),
    };
    drive_in(&world, async move |page: Page| {
        page.goto(&server.address).await;
        assert!(server.address.contains(WIDE));
        page.says("NET::ERR_CERT_INVALID").await;
    });
}
