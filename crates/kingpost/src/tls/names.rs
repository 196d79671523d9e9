//! Names and addresses: which ones this computer has, and how far a root may reach.

use std::{
    collections::BTreeSet,
    fmt,
    net::{IpAddr, Ipv4Addr, Ipv6Addr},
};

/// What a certificate can stand for.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Name {
    /// A name in small letters, as `yard-box.local`.
    Host(String),
    /// An address.
    Address(IpAddr),
}

impl fmt::Display for Name {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Host(host) => f.write_str(host),
            Self::Address(address) => address.fmt(f),
        }
    }
}

impl Name {
    /// A name or an address as a person or the system writes it; none where it is neither.
    ///
    /// A single word of letters alone, as `yard`, is none: such words are endings of names the world over, today or some day, and
    /// whoever may stand for an ending may stand for every name under it.
    pub(crate) fn read(text: &str) -> Option<Self> {
        let text = text.trim().trim_end_matches('.').to_ascii_lowercase();
        if let Ok(address) = text.trim_matches(['[', ']']).parse() {
            return Some(Self::Address(address));
        }
        let label = |label: &str| {
            (1..=63).contains(&label.len())
                && !label.starts_with('-')
                && !label.ends_with('-')
                && label
                    .bytes()
                    .all(|b| b.is_ascii_alphanumeric() || b == b'-')
        };
        let ending_alone = !text.contains('.')
            && text != "localhost"
            && (text.bytes().all(|b| b.is_ascii_alphabetic()) || text.starts_with("xn--"));
        (text.len() <= 253 && text.split('.').all(label) && !ending_alone)
            .then_some(Self::Host(text))
    }
}

/// The host in an address that was named for phones: `https://yard.local:4721/` is `yard.local`.
pub(crate) fn host_of(address: &str) -> &str {
    let after = address
        .split_once("://")
        .map_or(address, |(_, after)| after);
    let authority = after.split('/').next().unwrap_or(after);
    if let Some(end) = authority.find(']') {
        return authority[..end].trim_start_matches('[');
    }
    match authority.rsplit_once(':') {
        // More than one colon and no brackets: an address of the sixth version by itself.
        Some((host, _)) if !host.contains(':') => host,
        _ => authority,
    }
}

/// What this computer is called and reached by: its host name with and without `.local`, `localhost`, every address of its
/// network cards that a phone could use.
pub(crate) fn here() -> BTreeSet<Name> {
    let host = gethostname::gethostname().to_string_lossy().into_owned();
    let cards = if_addrs::get_if_addrs().unwrap_or_default();
    of(&host, cards.into_iter().map(|card| card.ip()))
}

fn of(host: &str, addresses: impl IntoIterator<Item = IpAddr>) -> BTreeSet<Name> {
    let mut names: BTreeSet<Name> = ["localhost", "127.0.0.1", "::1"]
        .into_iter()
        .filter_map(Name::read)
        .collect();
    // The part before the first dot is what the computer calls itself in the network when asked for NAME.local.
    let short = host.split('.').next().unwrap_or_default();
    names.extend(Name::read(host));
    names.extend(Name::read(&format!("{short}.local")));
    let usable = addresses.into_iter().filter(|address| match address {
        IpAddr::V4(_) => true,
        // No browser opens an address that needs the card's name behind it.
        IpAddr::V6(address) => !address.is_unicast_link_local(),
    });
    names.extend(usable.map(Name::Address));
    names
}

/// The names under which a root may stand for anything: this network's own, and no others.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Reach {
    /// Each name and all names under it.
    pub(crate) hosts: BTreeSet<String>,
    /// Each first address with the number of bits that count.
    pub(crate) nets: BTreeSet<(IpAddr, u8)>,
}

/// Private networks (RFC 1918, RFC 4193), the ones without a giver of addresses (RFC 3927, RFC 4291), this computer itself.
const NETS: [(IpAddr, u8); 8] = [
    (IpAddr::V4(Ipv4Addr::new(10, 0, 0, 0)), 8),
    (IpAddr::V4(Ipv4Addr::new(172, 16, 0, 0)), 12),
    (IpAddr::V4(Ipv4Addr::new(192, 168, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(169, 254, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(127, 0, 0, 0)), 8),
    (IpAddr::V6(Ipv6Addr::new(0xfc00, 0, 0, 0, 0, 0, 0, 0)), 7),
    (IpAddr::V6(Ipv6Addr::new(0xfe80, 0, 0, 0, 0, 0, 0, 0)), 10),
    (IpAddr::V6(Ipv6Addr::LOCALHOST), 128),
];

impl Reach {
    /// What a new root may reach: the private networks, `.local`, `localhost`, this computer's own name, and what was named besides.
    pub(crate) fn private(here: &BTreeSet<Name>, named: &BTreeSet<Name>) -> Self {
        let mut reach = Self {
            hosts: BTreeSet::from(["local".to_owned(), "localhost".to_owned()]),
            nets: BTreeSet::from(NETS),
        };
        let own = here
            .iter()
            .filter(|name| matches!(name, Name::Host(_)))
            .chain(named);
        for name in own {
            match name {
                known if reach.covers(known) => {}
                Name::Host(host) => drop(reach.hosts.insert(host.clone())),
                Name::Address(address) => drop(reach.nets.insert((*address, width(address)))),
            }
        }
        reach
    }

    /// Whether a certificate under this root may stand for the name.
    pub(crate) fn covers(&self, name: &Name) -> bool {
        match name {
            Name::Host(host) => self.hosts.iter().any(|base| {
                host.strip_suffix(base.as_str())
                    .is_some_and(|before| before.is_empty() || before.ends_with('.'))
            }),
            Name::Address(address) => self.nets.iter().any(|net| within(address, net)),
        }
    }

    /// What was named when the root was made, beyond what every root reaches.
    pub(crate) fn named(&self) -> BTreeSet<Name> {
        let hosts = self
            .hosts
            .iter()
            .filter(|host| !["local", "localhost"].contains(&host.as_str()))
            .cloned()
            .map(Name::Host);
        let single = self
            .nets
            .iter()
            .filter(|net| !NETS.contains(net) && net.1 == width(&net.0))
            .map(|(address, _)| Name::Address(*address));
        hosts.chain(single).collect()
    }
}

fn width(address: &IpAddr) -> u8 {
    if address.is_ipv4() { 32 } else { 128 }
}

fn within(address: &IpAddr, (net, bits): &(IpAddr, u8)) -> bool {
    let number = |address: &IpAddr| match address {
        IpAddr::V4(four) => u128::from(four.to_bits()) << 96,
        IpAddr::V6(six) => six.to_bits(),
    };
    let differs = number(address) ^ number(net);
    address.is_ipv4() == net.is_ipv4() && (*bits == 0 || differs >> (128 - u32::from(*bits)) == 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(texts: &[&str]) -> BTreeSet<Name> {
        texts.iter().map(|text| Name::read(text).unwrap()).collect()
    }

    #[test]
    fn names_are_read_as_people_write_them() {
        for (text, read) in [
            ("Yard-Box.LOCAL.", "yard-box.local"),
            ("yard1", "yard1"),
            ("192.168.1.20", "192.168.1.20"),
            ("[fd00::7]", "fd00::7"),
        ] {
            assert_eq!(Name::read(text).unwrap().to_string(), read);
        }
        for not_a_name in [
            "",
            "yard",
            "xn--p1ai",
            "a b.local",
            "-x.local",
            "a..local",
            "jo's",
        ] {
            assert_eq!(Name::read(not_a_name), None, "{not_a_name}");
        }
    }

    #[test]
    fn the_host_of_an_address() {
        for (address, host) in [
            ("https://yard.local:4721/", "yard.local"),
            ("yard.local:4721", "yard.local"),
            ("192.168.1.20", "192.168.1.20"),
            ("http://[fd00::7]:4721/y", "fd00::7"),
            ("fd00::7", "fd00::7"),
        ] {
            assert_eq!(host_of(address), host, "{address}");
        }
    }

    #[test]
    fn this_computer_has_its_name_and_its_addresses() {
        let cards = ["192.168.1.20", "fe80::1", "fd00::7"].map(|ip| ip.parse().unwrap());
        assert_eq!(
            of("Box7.fritz.example", cards),
            names(&[
                "box7.fritz.example",
                "box7.local",
                "localhost",
                "127.0.0.1",
                "::1",
                "192.168.1.20",
                "fd00::7"
            ])
        );
        // A name that could be an ending of the world's names is used with .local only.
        assert!(!of("dev", []).contains(&Name::Host("dev".into())));
        assert!(of("dev", []).contains(&Name::Host("dev.local".into())));
        assert!(here().len() >= 3);
    }

    #[test]
    fn a_root_reaches_the_private_world_and_what_was_named() {
        let reach = Reach::private(
            &names(&["box7", "box7.local"]),
            &names(&["yard.example", "203.0.113.5"]),
        );
        for inside in [
            "box7",
            "any.local",
            "10.255.0.1",
            "172.31.255.255",
            "192.168.0.1",
            "169.254.1.1",
            "127.0.0.1",
            "::1",
            "fd12::1",
            "yard.example",
            "203.0.113.5",
        ] {
            assert!(reach.covers(&Name::read(inside).unwrap()), "{inside}");
        }
        for outside in [
            "example.com",
            "notlocal.example",
            "xyard.example",
            "172.32.0.1",
            "11.0.0.1",
            "203.0.113.6",
            "2001:db8::1",
            "::2",
        ] {
            assert!(!reach.covers(&Name::read(outside).unwrap()), "{outside}");
        }
        assert_eq!(
            reach.named(),
            names(&["box7", "yard.example", "203.0.113.5"])
        );
    }
}
