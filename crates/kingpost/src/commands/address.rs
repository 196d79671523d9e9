//! Addresses: by which one the yard is reached, on this computer and by phones.

use crate::{
    kit::Kit,
    tls::{Folder, Name, wanted},
};
use std::{
    collections::BTreeSet,
    net::{Ipv4Addr, UdpSocket},
};

/// The port where none is named.
pub(crate) const PORT: u16 = 4720;

/// The port of HTTPS where none is named.
pub(crate) const SECURE_PORT: u16 = PORT + 1;

/// The yard's address as it stands on papers and in links: as named, else over HTTPS where that is set up, else on this computer.
pub(crate) fn of_yard(kit: &Kit, named: Option<&str>) -> String {
    let secure = secure_host(kit);
    match (named, secure) {
        (Some(named), Some(_)) => based("https", Some(named), SECURE_PORT),
        (None, Some(host)) => based("https", Some(&host), SECURE_PORT),
        (named, None) => base(named, PORT),
    }
}

/// The host by which phones reach the yard over HTTPS; none where that is not set up. A root that does not read is told of
/// where it is used.
pub(crate) fn secure_host(kit: &Kit) -> Option<String> {
    let root = Folder::of(&kit.data).root().ok()??;
    let names = wanted(&root, &BTreeSet::new()).ok()?;
    Some(best_of(&names, true))
}

/// The address before an address' path: as named, with scheme and port where they are missing; else this computer.
pub(crate) fn base(named: Option<&str>, port: u16) -> String {
    based("http", named, port)
}

/// The same with the scheme that holds where none is named.
pub(crate) fn based(scheme: &str, named: Option<&str>, port: u16) -> String {
    match named.map(|named| named.trim_end_matches('/')) {
        None | Some("") => format!("{scheme}://127.0.0.1:{port}"),
        Some(whole) if whole.contains("://") => whole.to_owned(),
        // The colons of a number in brackets are its own.
        Some(with_port)
            if with_port
                .rsplit(']')
                .next()
                .is_some_and(|end| end.contains(':')) =>
        {
            format!("{scheme}://{with_port}")
        }
        Some(name) => format!("{scheme}://{name}:{port}"),
    }
}

/// The one of a certificate's names that others in the network most surely reach this computer by.
pub(crate) fn best_of(names: &BTreeSet<Name>, own_root: bool) -> String {
    let own = own_address().map(Name::Address);
    let rank = |name: &&Name| match name {
        // A certificate from elsewhere was got for its name.
        Name::Host(_) if !own_root => 0,
        own_one if Some(*own_one) == own.as_ref() => 1,
        Name::Host(host) if host == "localhost" => 6,
        Name::Address(address) if address.is_loopback() => 5,
        Name::Address(address) if address.is_ipv6() => 4,
        Name::Host(_) => 3,
        Name::Address(_) => 2,
    };
    let best = names.iter().min_by_key(rank);
    best.map_or_else(
        || "127.0.0.1".to_owned(),
        |name| bracketed(&name.to_string()),
    )
}

/// A host as it stands in an address: numbers of the sixth version in brackets.
pub(crate) fn bracketed(host: &str) -> String {
    if host.contains(':') {
        format!("[{host}]")
    } else {
        host.to_owned()
    }
}

/// This computer's own address in the local network: the one it would send from. No packet is sent.
pub(crate) fn own_address() -> Option<std::net::IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    // An address kept for examples (RFC 5737): connecting a datagram socket only looks up the way.
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    socket
        .local_addr()
        .ok()
        .map(|own| own.ip())
        .filter(|ip| !ip.is_unspecified())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_gets_what_it_lacks() {
        for (named, whole) in [
            (None, "http://127.0.0.1:4720"),
            (Some("yard.lan"), "http://yard.lan:4720"),
            (Some("yard.lan:80"), "http://yard.lan:80"),
            (Some("https://yard.example/"), "https://yard.example"),
            (Some("[fd00::2]"), "http://[fd00::2]:4720"),
            (Some("[fd00::2]:80"), "http://[fd00::2]:80"),
        ] {
            assert_eq!(base(named, PORT), whole, "{named:?}");
        }
    }
}
