//! Who asks: the session and the device its cookies name, the address it comes from, whether over TLS.

use crate::session::{self, OverTls};
use axum::{
    extract::ConnectInfo,
    http::{HeaderMap, header, request::Parts},
};
use std::net::{IpAddr, Ipv6Addr, SocketAddr};

/// What is known of a request's sender before anything is looked up.
#[derive(Clone, Debug, Default)]
pub(crate) struct Caller {
    /// The address at the other end of the line; none where the server was not told.
    pub(crate) peer: Option<IpAddr>,
    /// Whether the request came over TLS.
    pub(crate) tls: bool,
    /// Whether it comes from this computer itself: see [`from_here`].
    pub(crate) here: bool,
    /// The secret in the session's cookie.
    pub(crate) session: Option<String>,
    /// The secret in the device's cookie.
    pub(crate) device: Option<String>,
}

impl Caller {
    /// Reads a request's head.
    pub(crate) fn of(parts: &Parts) -> Self {
        let peer = parts.extensions.get::<ConnectInfo<SocketAddr>>();
        let peer = peer.map(|ConnectInfo(address)| address.ip().to_canonical());
        let tls = parts.extensions.get::<OverTls>().is_some();
        let secret = |name| session::secret_in(&parts.headers, &session::cookie_name(name, tls));
        Self {
            peer,
            tls,
            here: from_here(peer, &parts.headers),
            session: secret(session::COOKIE),
            device: secret(session::DEVICE_COOKIE),
        }
    }

    /// What the store knows the device by.
    pub(crate) fn device_hash(&self) -> Option<String> {
        self.device.as_deref().map(session::hash)
    }

    /// The address, as wide as one household gets: of IPv6 the first half.
    pub(crate) fn neighbourhood(&self) -> String {
        match self.peer {
            Some(IpAddr::V4(address)) => address.to_string(),
            Some(IpAddr::V6(address)) => {
                let [a, b, c, d, ..] = address.segments();
                Ipv6Addr::new(a, b, c, d, 0, 0, 0, 0).to_string()
            }
            None => "unknown".to_owned(),
        }
    }
}

/// Whether a request comes from a browser on the server's own computer.
///
/// Its address is the loopback's, it asks for the loopback by name, and nobody says to have passed it on: behind a proxy
/// every request comes from the loopback.
fn from_here(peer: Option<IpAddr>, headers: &HeaderMap) -> bool {
    let passed_on = ["forwarded", "x-forwarded-for", "x-real-ip", "via"];
    peer.is_some_and(|peer| peer.is_loopback())
        && passed_on.iter().all(|name| !headers.contains_key(*name))
        && headers
            .get(header::HOST)
            .and_then(|host| host.to_str().ok())
            .is_some_and(names_loopback)
}

/// Whether a Host header names the computer it was sent to: `localhost`, `127.0.0.1`, `[::1]`, with a port or without.
fn names_loopback(host: &str) -> bool {
    let name = match host.rsplit_once(':') {
        Some((name, port)) if port.chars().all(|c| c.is_ascii_digit()) => name,
        _ => host,
    };
    let address = name.trim_start_matches('[').trim_end_matches(']');
    name.eq_ignore_ascii_case("localhost")
        || address
            .parse()
            .is_ok_and(|address: IpAddr| address.is_loopback())
}

#[cfg(test)]
mod tests {
    use super::*;
    use axum::http::Request;

    fn caller(peer: &str, headers: &[(&str, &str)]) -> Caller {
        let mut request = Request::get("/");
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        let (mut parts, ()) = request.body(()).unwrap().into_parts();
        let address: SocketAddr = peer.parse().unwrap();
        parts.extensions.insert(ConnectInfo(address));
        Caller::of(&parts)
    }

    #[test]
    fn only_a_browser_on_this_computer_is_here() {
        for host in [
            "localhost:4720",
            "LOCALHOST",
            "127.0.0.1:4720",
            "[::1]:4720",
            "[::1]",
        ] {
            assert!(caller("127.0.0.1:5000", &[("host", host)]).here, "{host}");
            assert!(caller("[::1]:5000", &[("host", host)]).here, "{host}");
            assert!(caller("[::ffff:127.0.0.1]:5000", &[("host", host)]).here);
            assert!(!caller("192.168.1.7:5000", &[("host", host)]).here);
        }
        for host in [
            "yard.lan",
            "127.0.0.1.yard.example",
            "192.168.1.20:4720",
            "",
        ] {
            assert!(!caller("127.0.0.1:5000", &[("host", host)]).here, "{host}");
        }
        assert!(!caller("127.0.0.1:5000", &[]).here);
        for name in ["forwarded", "x-forwarded-for", "x-real-ip", "via"] {
            let headers = [("host", "localhost"), (name, "10.0.0.1")];
            assert!(!caller("127.0.0.1:5000", &headers).here, "{name}");
        }
    }

    #[test]
    fn a_header_does_not_change_the_address() {
        let headers = [
            ("x-forwarded-for", "10.9.8.7"),
            ("forwarded", "for=10.9.8.7"),
        ];
        assert_eq!(
            caller("192.168.1.7:5", &headers).neighbourhood(),
            "192.168.1.7"
        );
        let one = caller("[2001:db8:1:2:3:4:5:6]:5", &[]).neighbourhood();
        let other = caller("[2001:db8:1:2:ffff::1]:5", &[]).neighbourhood();
        assert_eq!(one, other);
        assert_ne!(one, caller("[2001:db8:1:3::1]:5", &[]).neighbourhood());
    }

    #[test]
    fn over_tls_only_the_cookies_with_the_prefix_count() {
        let secret = "0123456789abcdef0123456789abcdef";
        let cookies = format!("kingpost={secret}; kingpost-device={secret}");
        let plain = caller("192.168.1.7:5", &[("cookie", &cookies)]);
        assert_eq!(plain.session.as_deref(), Some(secret));
        assert_eq!(plain.device.as_deref(), Some(secret));
        let request = Request::get("/").header("cookie", &cookies);
        let (mut parts, ()) = request.body(()).unwrap().into_parts();
        parts.extensions.insert(OverTls);
        assert_eq!(Caller::of(&parts).session, None);
        let cookies = format!("__Host-kingpost={secret}");
        parts.headers.insert("cookie", cookies.parse().unwrap());
        assert_eq!(Caller::of(&parts).session.as_deref(), Some(secret));
        let plain = caller("192.168.1.7:5", &[("cookie", &cookies)]);
        assert_eq!(plain.session, None);
    }
}
