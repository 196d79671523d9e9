//! Serving over HTTPS: two ports, one for everything over TLS, one plain for the trust page and the way over.

use super::{Opening, Serve, ended, listen, open, opening, ours, runtime, say, stopped};
use crate::{
    commands::{
        address::{PORT, SECURE_PORT, based, best_of, bracketed, own_address},
        https::{in_lines, names},
    },
    kit::Kit,
    said::Said,
    tls::{Folder, Keeper, Name, OwnFiles, Served, Snag, Source, fingerprint, host_of},
    trouble::Trouble,
};
use axum_server::{Handle, tls_rustls::RustlsConfig};
use clap::Args;
use serde_json::{Value, json};
use server::{App, Https, Root};
use std::{
    net::{SocketAddr, TcpListener},
    path::PathBuf,
    sync::Arc,
    time::Duration,
};
use words::Words;

/// How often it is looked whether the certificate must be taken anew.
const LOOK_EVERY: Duration = Duration::from_secs(60);
/// How long open connections may go on after the server was told to stop.
const GRACE: Duration = Duration::from_secs(10);

#[derive(Args, Default)]
pub(crate) struct Secure {
    #[arg(long)]
    https: bool,
    #[arg(long, value_name = "PORT")]
    https_port: Option<u16>,
    #[arg(long = "name", value_name = "NAME")]
    names: Vec<String>,
    #[arg(long, value_name = "FILE")]
    certificate: Option<PathBuf>,
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
}

impl Secure {
    /// Whether HTTPS is wanted.
    pub(super) fn asked(&self) -> bool {
        self.https || self.certificate.is_some() || self.key.is_some()
    }
}

/// What is told about HTTPS when the server opens.
pub(super) struct Told {
    pub(super) json: Value,
    pub(super) lines: Vec<String>,
    /// The address behind the square code: where a phone goes first.
    pub(super) first: String,
}

pub(super) fn run(kit: &Kit, serve: &Serve) -> Result<Said, Trouble> {
    let (yard, made, invented) = open(kit)?;
    let source = source(kit, serve, yard.name())?;
    let keeper = Keeper::begin(source, kit.world.clone()).map_err(|snag| snag.trouble(kit))?;
    let plain = listen(kit, true, serve.port, PORT)?;
    // Whoever leaves the plain port to chance does not want a fixed one for HTTPS.
    let asked = serve
        .secure
        .https_port
        .or(serve.port.filter(|port| *port == 0));
    let tls = listen(kit, true, asked, SECURE_PORT)?;
    let ports = (port(&plain)?, port(&tls)?);
    let served = keeper.served();
    let host = match &serve.address {
        Some(named) => bracketed(host_of(named)),
        None => best_of(&served.leaf.names, served.root.is_some()),
    };
    let address = match &serve.address {
        Some(named) => based("https", Some(named), ports.1),
        None => based("https", Some(&host), ports.1),
    };
    let first = format!("http://{host}:{}/trust", ports.0);
    let https = Some(told(kit, &served, &address, &first));
    say(&opening(
        kit,
        &yard,
        &Opening {
            address: &address,
            network: true,
            made,
            invented,
            https,
        },
    ));
    let app = App::new(yard, kit.words.clone(), kit.world.clone(), address);
    app.set_https(for_pages(&served, ports.1));
    answer_until_stopped(plain, tls, Arc::new(app), Arc::new(keeper))?;
    Ok(ended(kit))
}

fn source(kit: &Kit, serve: &Serve, yard: &str) -> Result<Source, Trouble> {
    let host = serve
        .address
        .as_deref()
        .map(|address| host_of(address).to_owned());
    let address = names(kit, host.as_slice())?;
    match (&serve.secure.certificate, &serve.secure.key) {
        (Some(certificate), Some(key)) => Ok(Source::Files {
            files: OwnFiles {
                certificate: certificate.clone(),
                key: key.clone(),
            },
            address: address.into_iter().next(),
        }),
        (None, None) => {
            let mut named = names(kit, &serve.secure.names)?;
            named.extend(address);
            Ok(Source::Root {
                folder: Folder::of(&kit.data),
                yard: yard.to_owned(),
                named,
            })
        }
        _ => Err(kit.refused("https-certificate-and-key", &[])),
    }
}

fn port(listener: &TcpListener) -> Result<u16, Trouble> {
    Ok(listener.local_addr().map_err(ours)?.port())
}

fn told(kit: &Kit, served: &Served, address: &str, first: &str) -> Told {
    let until = kit
        .words
        .date(served.leaf.until.to_zoned_datetime(kit.world.zone()).date());
    let fingerprint = served
        .root
        .as_ref()
        .map(|root| fingerprint(root.certificate()));
    let lines = match &fingerprint {
        Some(fingerprint) => {
            let mut lines = vec![kit.t1("serve-https", "address", first)];
            lines.push(kit.t("serve-https-fingerprint"));
            lines.extend(in_lines(fingerprint));
            let own = own_address().map(Name::Address);
            let left = own.filter(|own| !served.leaf.names.contains(own));
            lines.extend(left.map(|own| kit.t1("https-left-out", "name", own.to_string())));
            lines
        }
        None => vec![kit.t1("serve-https-own", "date", until)],
    };
    let own = fingerprint.is_some();
    Told {
        json: json!({ "trust": first, "fingerprint": fingerprint, "until": served.leaf.until.to_string() }),
        lines,
        first: if own { first } else { address }.to_owned(),
    }
}

fn for_pages(served: &Served, port: u16) -> Https {
    let root = served.root.as_ref().and_then(|root| {
        let says = root.shown().ok()?;
        Some(Root {
            name: says.name,
            fingerprint: fingerprint(root.certificate()),
            until: says.until,
            der: root.certificate().to_vec(),
            pem: root.certificate_pem().to_owned(),
        })
    });
    Https {
        port,
        hosts: served.leaf.names.iter().map(Name::to_string).collect(),
        root,
    }
}

fn answer_until_stopped(
    plain: TcpListener,
    tls: TcpListener,
    app: Arc<App>,
    keeper: Arc<Keeper>,
) -> Result<(), Trouble> {
    let runtime = runtime()?;
    plain.set_nonblocking(true).map_err(ours)?;
    tls.set_nonblocking(true).map_err(ours)?;
    let port = port(&tls)?;
    runtime.block_on(async {
        let control = axum_server::Control::new();
        let config = RustlsConfig::from_config(keeper.served().config);
        let plain = axum_server::from_tcp(plain)
            .map_err(ours)?
            .handle(Handle::with_control(control.clone()))
            .serve(
                server::plain_router(app.clone())
                    .into_make_service_with_connect_info::<SocketAddr>(),
            );
        let tls = axum_server::from_tcp_rustls(tls, config.clone())
            .map_err(ours)?
            .handle(Handle::with_control(control.clone()))
            .serve(
                server::secure_router(app.clone())
                    .into_make_service_with_connect_info::<SocketAddr>(),
            );
        tokio::spawn(keep_fresh(keeper, config, app, port));
        tokio::spawn(async move {
            stopped().await;
            control.graceful_shutdown(Some(GRACE));
        });
        tokio::try_join!(plain, tls).map_err(ours)?;
        Ok(())
    })
}

/// Looks once a minute; what changed is served to whoever connects next, and nobody is cut off.
async fn keep_fresh(keeper: Arc<Keeper>, config: RustlsConfig, app: Arc<App>, port: u16) {
    let mut told = None;
    loop {
        tokio::time::sleep(LOOK_EVERY).await;
        let keeper = keeper.clone();
        let Ok(looked) = tokio::task::spawn_blocking(move || keeper.look()).await else {
            continue;
        };
        match looked {
            Ok(None) => {}
            Ok(Some(served)) => {
                told = None;
                take(&served, &config, &app, port);
                let until = served.leaf.until.to_zoned_datetime(app.world.zone()).date();
                let args = [("date", app.words.date(until).into())];
                eprintln!("{}", app.words.say("serve-https-changed", &args));
            }
            // The same snag is said once, not every minute.
            Err(snag) if told.as_ref() == Some(&snag) => {}
            Err(snag) => {
                eprintln!("{}", stays(&app.words, &snag));
                told = Some(snag);
            }
        }
    }
}

/// Serves it from now on, and shows it on the trust page.
pub(crate) fn take(served: &Served, config: &RustlsConfig, app: &App, port: u16) {
    config.reload_from_config(served.config.clone());
    app.set_https(for_pages(served, port));
}

fn stays(words: &Words, snag: &Snag) -> String {
    let told = snag.told(words);
    let detail = format!("{} {}", told.what, told.next);
    words.say("serve-https-stays", &[("detail", detail.into())])
}
