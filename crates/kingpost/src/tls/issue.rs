//! How a root and the leaf under it are made. Keys come from the system's own chance, never from the world of a test.

use super::{
    folder::Pair,
    names::{Name, Reach},
    shown::Shown,
    snag::{Snag, ours},
};
use jiff::{SignedDuration, Timestamp};
use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DistinguishedName, DnType,
    ExtendedKeyUsagePurpose, GeneralSubtree, IsCa, Issuer, KeyPair, KeyUsagePurpose,
    NameConstraints, SanType, SerialNumber,
};
use std::collections::BTreeSet;
use time::OffsetDateTime;
use yard::world::World;

/// How long a root is good for: ten years of 365 days, and the leap days in them.
const ROOT_DAYS: i64 = 3652;
/// How long a leaf is good for, with the days before: browsers take at most 398 from their own roots, so that nobody can say it is long.
const LEAF_DAYS: i64 = 395;
/// Both begin before they are made: a phone's clock may be a day behind.
const DAYS_BEFORE: i64 = 2;
/// A leaf with fewer days left than this is made anew.
const FEW_DAYS: i64 = 30;

/// As many letters as a certificate's common name may have (RFC 5280, appendix A.1).
const MOST_LETTERS: usize = 64;

/// Makes a root for a yard: it may sign leaves for names within reach, and nothing else.
pub(super) fn root(yard: &str, reach: &Reach, world: &dyn World) -> Result<Pair, Snag> {
    let now = world.now();
    let made = now.to_zoned_datetime(world.zone()).date();
    let serial = serial(world);
    // Two roots of one day are told apart in a phone's list.
    let end = format!(" (Kingpost {made} {})", hex::encode(&serial[..2]));
    let beginning: String = yard.chars().take(MOST_LETTERS - end.len()).collect();
    let mut params = params(&format!("{beginning}{end}"), now, ROOT_DAYS, serial)?;
    params.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    params.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    params.name_constraints = Some(constraints(reach));
    let key = KeyPair::generate().map_err(ours)?;
    let certificate = params.self_signed(&key).map_err(ours)?;
    Ok(Pair::of(&certificate, &key))
}

/// Makes a leaf under a root for these names, all of which must be within the root's reach.
pub(super) fn leaf(root: &Pair, names: &BTreeSet<Name>, world: &dyn World) -> Result<Pair, Snag> {
    let all: Vec<String> = names.iter().map(Name::to_string).collect();
    // Only people read it: browsers look at the alternative names.
    let shown = all.iter().find(|name| name.ends_with(".local"));
    let shown = shown.or(all.first()).cloned().unwrap_or_default();
    let shown: String = shown.chars().take(MOST_LETTERS).collect();
    let mut params = params(&shown, world.now(), LEAF_DAYS, serial(world))?;
    params.is_ca = IsCa::ExplicitNoCa;
    params.key_usages = vec![KeyUsagePurpose::DigitalSignature];
    params.use_authority_key_identifier_extension = true;
    params.subject_alt_names = names.iter().map(alternative).collect::<Result<_, _>>()?;
    let key = KeyPair::generate().map_err(ours)?;
    let root_key = KeyPair::from_pem(root.key_pem()).map_err(ours)?;
    let issuer = Issuer::from_ca_cert_der(root.certificate(), root_key).map_err(ours)?;
    let certificate = params.signed_by(&key, &issuer).map_err(ours)?;
    Ok(Pair::of(&certificate, &key))
}

/// Whether a leaf must be made anew: another root, few days left, or a name that it does not have.
pub(super) fn must_renew(
    leaf: &Shown,
    root: &Shown,
    names: &BTreeSet<Name>,
    now: Timestamp,
) -> bool {
    let few = now + SignedDuration::from_hours(24 * FEW_DAYS);
    leaf.signed_by != root.own_key_mark
        || leaf.until < few
        // A clock that was set back by far: the leaf would not be good yet.
        || leaf.from > now
        || !names.is_subset(&leaf.names)
}

fn params(
    common_name: &str,
    now: Timestamp,
    days: i64,
    serial: [u8; 16],
) -> Result<CertificateParams, Snag> {
    let mut params = CertificateParams::default();
    params.distinguished_name = DistinguishedName::new();
    params
        .distinguished_name
        .push(DnType::CommonName, common_name);
    params.not_before = second(now - SignedDuration::from_hours(24 * DAYS_BEFORE))?;
    params.not_after = second(now + SignedDuration::from_hours(24 * days))?;
    params.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
    params.serial_number = Some(SerialNumber::from_slice(&serial));
    Ok(params)
}

/// A number of its own for each certificate: positive, and never nothing (RFC 5280, 4.1.2.2).
fn serial(world: &dyn World) -> [u8; 16] {
    let mut serial = world.chance();
    serial[0] = serial[0] & 0x7f | 0x40;
    serial
}

fn second(at: Timestamp) -> Result<OffsetDateTime, Snag> {
    OffsetDateTime::from_unix_timestamp(at.as_second()).map_err(ours)
}

fn constraints(reach: &Reach) -> NameConstraints {
    let hosts = reach.hosts.iter().cloned().map(GeneralSubtree::DnsName);
    let nets = reach
        .nets
        .iter()
        .map(|(net, bits)| GeneralSubtree::IpAddress(CidrSubnet::from_addr_prefix(*net, *bits)));
    NameConstraints {
        permitted_subtrees: hosts.chain(nets).collect(),
        excluded_subtrees: Vec::new(),
    }
}

fn alternative(name: &Name) -> Result<SanType, Snag> {
    Ok(match name {
        Name::Host(host) => SanType::DnsName(host.as_str().try_into().map_err(ours)?),
        Name::Address(address) => SanType::IpAddress(*address),
    })
}
