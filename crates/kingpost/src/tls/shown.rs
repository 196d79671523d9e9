//! What a certificate says: its names, its days, whose it is, its fingerprint.

use super::{
    names::{Name, Reach},
    snag::{Snag, ours},
};
use jiff::Timestamp;
use rustls::pki_types::CertificateDer;
use sha2::{Digest, Sha256};
use std::{
    collections::BTreeSet,
    net::{IpAddr, Ipv4Addr, Ipv6Addr},
};
use x509_parser::prelude::{FromDer, GeneralName, ParsedExtension, X509Certificate};

/// What a certificate says.
#[derive(Clone, Debug)]
pub(crate) struct Shown {
    /// Its owner's common name.
    pub(crate) name: String,
    /// From when it is good.
    pub(crate) from: Timestamp,
    /// Until when.
    pub(crate) until: Timestamp,
    /// What it stands for.
    pub(crate) names: BTreeSet<Name>,
    /// Names like `*.example.org`, after the star.
    pub(crate) stars: Vec<String>,
    /// Of a root: what it may reach.
    pub(crate) reach: Reach,
    /// The mark of its own key.
    pub(super) own_key_mark: Vec<u8>,
    /// The mark of the key that signed it.
    pub(super) signed_by: Vec<u8>,
}

impl Shown {
    /// Reads a certificate.
    pub(crate) fn of(certificate: &CertificateDer<'_>) -> Result<Self, Snag> {
        let (_, read) = X509Certificate::from_der(certificate).map_err(ours)?;
        let day = |at: x509_parser::time::ASN1Time| Timestamp::from_second(at.timestamp());
        let mut shown = Self {
            name: common_name(&read),
            from: day(read.validity().not_before).map_err(ours)?,
            until: day(read.validity().not_after).map_err(ours)?,
            names: BTreeSet::new(),
            stars: Vec::new(),
            reach: Reach::default(),
            own_key_mark: Vec::new(),
            signed_by: Vec::new(),
        };
        for extension in read.extensions() {
            shown.take(extension.parsed_extension());
        }
        Ok(shown)
    }

    /// Whether it stands for this name.
    pub(crate) fn stands_for(&self, name: &Name) -> bool {
        let starred = |host: &String| {
            let after = host.split_once('.').map(|(_, after)| after);
            self.stars.iter().any(|star| Some(star.as_str()) == after)
        };
        self.names.contains(name) || matches!(name, Name::Host(host) if starred(host))
    }

    fn take(&mut self, extension: &ParsedExtension<'_>) {
        match extension {
            ParsedExtension::SubjectAlternativeName(names) => {
                names
                    .general_names
                    .iter()
                    .for_each(|name| self.take_name(name));
            }
            ParsedExtension::NameConstraints(constraints) => {
                let permitted = constraints.permitted_subtrees.iter().flatten();
                permitted.for_each(|tree| self.take_reach(&tree.base));
            }
            ParsedExtension::SubjectKeyIdentifier(mark) => self.own_key_mark = mark.0.to_vec(),
            ParsedExtension::AuthorityKeyIdentifier(mark) => {
                self.signed_by = mark
                    .key_identifier
                    .as_ref()
                    .map_or(Vec::new(), |id| id.0.to_vec());
            }
            _ => {}
        }
    }

    fn take_name(&mut self, name: &GeneralName<'_>) {
        match name {
            GeneralName::DNSName(host) => match host.strip_prefix("*.") {
                Some(star) => self.stars.push(star.to_ascii_lowercase()),
                None => drop(self.names.insert(Name::Host(host.to_ascii_lowercase()))),
            },
            GeneralName::IPAddress(bytes) => {
                self.names.extend(address(bytes).map(Name::Address));
            }
            _ => {}
        }
    }

    fn take_reach(&mut self, base: &GeneralName<'_>) {
        match base {
            GeneralName::DNSName(host) => drop(self.reach.hosts.insert((*host).to_owned())),
            GeneralName::IPAddress(bytes) => {
                let (net, mask) = bytes.split_at(bytes.len() / 2);
                let bits: u32 = mask.iter().map(|byte| byte.count_ones()).sum();
                if let (Some(net), Ok(bits)) = (address(net), u8::try_from(bits)) {
                    self.reach.nets.insert((net, bits));
                }
            }
            _ => {}
        }
    }
}

/// The SHA-256 of a certificate as sixteen groups of four hex digits: what a person compares with the paper.
pub(crate) fn fingerprint(certificate: &CertificateDer<'_>) -> String {
    let hex = hex::encode_upper(Sha256::digest(certificate));
    let groups: Vec<&str> = (0..hex.len())
        .step_by(4)
        .map(|at| &hex[at..at + 4])
        .collect();
    groups.join(" ")
}

fn common_name(read: &X509Certificate<'_>) -> String {
    let mut names = read.subject().iter_common_name();
    let first = names.next().and_then(|name| name.as_str().ok());
    first.unwrap_or_default().to_owned()
}

fn address(bytes: &[u8]) -> Option<IpAddr> {
    let four = <[u8; 4]>::try_from(bytes).map(|four| IpAddr::V4(Ipv4Addr::from(four)));
    let six = <[u8; 16]>::try_from(bytes).map(|six| IpAddr::V6(Ipv6Addr::from(six)));
    four.or(six).ok()
}
