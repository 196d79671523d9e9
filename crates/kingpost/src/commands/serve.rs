//! The server: opens the yard, says where it answers, and serves until it is told to stop.

mod secure;

use super::address::{PORT, base, own_address};
use crate::{demo, desk::tag, kit::Kit, said::Said, trouble::Trouble};
use clap::Args;
use qrcode::{Color, EcLevel, QrCode};
use secure::Secure;
use serde_json::json;
use server::App;
use std::{
    io::{self, IsTerminal, Write},
    net::{Ipv4Addr, SocketAddr, TcpListener},
    sync::Arc,
};
use store::Store;

/// So many ports are tried after it.
const TRIED: u16 = 20;
/// So many requests wait for the disk at a time, the others for them.
const AT_THE_DISK: usize = 16;

#[derive(Args, Default)]
pub(crate) struct Serve {
    #[arg(long)]
    network: bool,
    #[arg(long)]
    port: Option<u16>,
    #[arg(long, value_name = "ADDRESS")]
    address: Option<String>,
    #[command(flatten)]
    pub(super) secure: Secure,
}

pub(crate) fn run(kit: &Kit, serve: &Serve) -> Result<Said, Trouble> {
    if serve.secure.asked() {
        return secure::run(kit, serve);
    }
    let (yard, made, invented) = open(kit)?;
    let listener = listen(kit, serve.network, serve.port, PORT)?;
    let port = listener.local_addr().map_err(ours)?.port();
    let own = serve
        .network
        .then(own_address)
        .flatten()
        .map(|ip| ip.to_string());
    let address = base(serve.address.as_deref().or(own.as_deref()), port);
    say(&opening(
        kit,
        &yard,
        &Opening {
            address: &address,
            network: serve.network,
            made,
            invented,
            https: None,
        },
    ));
    let app = Arc::new(App::new(
        yard,
        kit.words.clone(),
        kit.world.clone(),
        address,
    ));
    answer_until_stopped(listener, app)?;
    Ok(ended(kit))
}

/// Opens the yard, made now with the demo where there is none; says whether it was made, and whether everybody in it is invented.
fn open(kit: &Kit) -> Result<(store::Yard, bool, bool), Trouble> {
    let made = !store::holds_store(&kit.data);
    if made {
        demo::make(&kit.data, kit.world.as_ref())?;
    }
    let yard = Store::open(&kit.data)?.yard()?;
    let people = yard.people()?;
    let invented = !people.is_empty() && people.iter().all(|person| person.invented);
    Ok((yard, made, invented))
}

fn ended(kit: &Kit) -> Said {
    Said::new(kit.t("serve-stopped"), json!({ "stopped": true }))
}

struct Opening<'a> {
    address: &'a str,
    network: bool,
    made: bool,
    invented: bool,
    https: Option<secure::Told>,
}

/// What is said before serving: one line of JSON, or a few lines and, for the network, the address as a square code.
fn opening(kit: &Kit, yard: &store::Yard, at: &Opening<'_>) -> String {
    let dir = kit.data.display().to_string();
    if kit.json {
        let pin = at.invented.then_some(demo::PIN);
        let mut told = json!({
            "address": at.address, "data": dir, "yard": yard.id().to_string(), "name": yard.name(), "tag": tag(yard),
            "network": at.network, "demo_made": at.made, "invented": at.invented, "pin": pin,
        });
        if let Some(https) = &at.https {
            told["https"] = https.json.clone();
        }
        return format!("{told}\n");
    }
    let mut lines = Vec::new();
    if at.made {
        lines.push(kit.t1("serve-demo-made", "dir", &dir));
    }
    lines.push(kit.words.say(
        "serve-open",
        &[("name", yard.name().into()), ("address", at.address.into())],
    ));
    if at.invented {
        lines.push(kit.t1("serve-demo-pin", "pin", demo::PIN));
    }
    if let Some(https) = &at.https {
        lines.extend(https.lines.iter().cloned());
        lines.extend(square(&https.first));
    } else if at.network {
        lines.push(kit.t("serve-network"));
        lines.extend(square(at.address));
        lines.push(kit.t("serve-how-https"));
    } else {
        lines.push(kit.t("serve-here-only"));
    }
    lines.push(kit.t("serve-stop"));
    lines.join("\n") + "\n"
}

fn say(text: &str) {
    let mut out = io::stdout().lock();
    // Nobody reads along: the server serves all the same.
    let _ = out.write_all(text.as_bytes()).and_then(|()| out.flush());
}

/// Binds the port asked for, or the first free one from the usual on.
fn listen(
    kit: &Kit,
    network: bool,
    asked: Option<u16>,
    usual: u16,
) -> Result<TcpListener, Trouble> {
    let ip = if network {
        Ipv4Addr::UNSPECIFIED
    } else {
        Ipv4Addr::LOCALHOST
    };
    let ports = match asked {
        Some(port) => port..=port,
        None => usual..=usual + TRIED,
    };
    let bound = ports
        .clone()
        .find_map(|port| TcpListener::bind(SocketAddr::from((ip, port))).ok());
    bound.ok_or_else(|| {
        kit.refused(
            "address-in-use",
            &[("address", format!("{ip}:{}", ports.start()).into())],
        )
    })
}

/// The address as a square code of half blocks, four light modules round it; dark on light whatever the terminal's colours.
fn square(address: &str) -> Option<String> {
    let code = QrCode::with_error_correction_level(address, EcLevel::L).ok()?;
    let (across, quiet) = (code.width(), 4);
    let dark = |x: usize, y: usize| {
        let inside = (quiet..across + quiet).contains(&x) && (quiet..across + quiet).contains(&y);
        inside && code[(x - quiet, y - quiet)] == Color::Dark
    };
    let (ink, plain) = if io::stdout().is_terminal() {
        ("\x1b[30;107m", "\x1b[0m")
    } else {
        ("", "")
    };
    let line = |y: usize| {
        let cell = |x: usize| match (dark(x, y), dark(x, y + 1)) {
            (true, true) => '█',
            (true, false) => '▀',
            (false, true) => '▄',
            (false, false) => ' ',
        };
        format!(
            "{ink}{}{plain}",
            (0..across + 2 * quiet).map(cell).collect::<String>()
        )
    };
    Some(
        (0..across + 2 * quiet)
            .step_by(2)
            .map(line)
            .collect::<Vec<_>>()
            .join("\n"),
    )
}

/// Threads that answer. Few of them wait for the disk at a time: the store lets one write after the other anyhow, and each that
/// waited would keep memory of its own.
fn runtime() -> Result<tokio::runtime::Runtime, Trouble> {
    tokio::runtime::Builder::new_multi_thread()
        .max_blocking_threads(AT_THE_DISK)
        .enable_all()
        .build()
        .map_err(ours)
}

fn answer_until_stopped(listener: TcpListener, app: Arc<App>) -> Result<(), Trouble> {
    listener.set_nonblocking(true).map_err(ours)?;
    let runtime = runtime()?;
    runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener).map_err(ours)?;
        let served = axum::serve(
            listener,
            server::router(app).into_make_service_with_connect_info::<SocketAddr>(),
        )
        .with_graceful_shutdown(stopped());
        served.await.map_err(ours)
    })
}

/// Ends when somebody stops the program: Ctrl+C, or the system's request to end.
async fn stopped() {
    let asked = tokio::signal::ctrl_c();
    #[cfg(unix)]
    if let Ok(mut ended) = tokio::signal::unix::signal(tokio::signal::unix::SignalKind::terminate())
    {
        tokio::select! {
            _ = asked => {}
            _ = ended.recv() => {}
        }
        return;
    }
    // Without a way to be told, it serves until the process ends.
    if asked.await.is_err() {
        std::future::pending::<()>().await;
    }
}

fn ours(error: impl std::fmt::Display) -> Trouble {
    Trouble::Ours(error.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_square_code_has_its_quiet_zone() {
        let code = square("http://192.168.178.100:4720").unwrap();
        let lines: Vec<&str> = code.lines().collect();
        // 25 modules (version 2 at level L holds 32 letters) and four on each side.
        assert!(lines.iter().all(|line| line.chars().count() == 33));
        assert_eq!(lines.len(), 17);
        assert!(lines[0].trim().is_empty() && lines[1].trim().is_empty());
        assert!(lines[2].starts_with("    █▀▀▀▀▀█"));
    }
}
