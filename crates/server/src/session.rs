//! Who is at the other end: a session in an opaque cookie, PINs hashed by argon2, nothing readable in the browser.

use crate::refusal::Refusal;
use argon2::{
    Argon2,
    password_hash::{PasswordHasher, PasswordVerifier, phc::PasswordHash},
};
use sha2::{Digest, Sha256};
use yard::{id::PersonId, world::World};

/// Name of the session cookie (plain http: no prefix; the flags are set where it is written).
pub const COOKIE: &str = "kingpost";

/// Wrong PINs for one person before it is stopped for a while.
pub const MOST_MISSES: u32 = 5;

/// How long it is stopped then.
pub const LOCKED_FOR: jiff::SignedDuration = jiff::SignedDuration::from_mins(10);

/// How long a session lasts from signing in, hours: a working day.
pub const HOURS: i64 = 12;

/// A fresh secret for a session or a one-time link: 32 hex digits.
pub fn secret(world: &dyn World) -> String {
    hex::encode(world.chance())
}

/// What the store keeps of a secret.
pub fn hash(secret: &str) -> String {
    hex::encode(Sha256::digest(secret.as_bytes()))
}

/// Hash of a PIN, as text that carries its own settings.
///
/// # Errors
/// What argon2 says, where memory is short.
pub fn pin_hash(pin: &str, world: &dyn World) -> Result<String, String> {
    Argon2::default()
        .hash_password_with_salt(pin.as_bytes(), &world.chance())
        .map(|hash| hash.to_string())
        .map_err(|e| e.to_string())
}

/// A hash that no PIN matches: checked for unknown people, so that they take as long as known ones.
const NOBODY: &str = "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

/// Whether a PIN is the one of this hash.
pub fn pin_matches(hash: Option<&str>, pin: &str) -> bool {
    let known = hash.is_some();
    let parsed = PasswordHash::new(hash.unwrap_or(NOBODY));
    let right = parsed.is_ok_and(|hash| {
        Argon2::default()
            .verify_password(pin.as_bytes(), &hash)
            .is_ok()
    });
    known && right
}

/// What is wrong with a new PIN, as a key; none where it will do: 4 to 32 characters, not all the same, not a run.
pub fn pin_trouble(pin: &str) -> Option<&'static str> {
    let letters: Vec<char> = pin.chars().collect();
    let step = |by: i64| {
        letters
            .windows(2)
            .all(|w| i64::from(u32::from(w[1])) - i64::from(u32::from(w[0])) == by)
    };
    match letters.len() {
        0..=3 => Some("pin-too-short"),
        33.. => Some("pin-too-long"),
        _ if step(0) || step(1) || step(-1) => Some("pin-too-easy"),
        _ => None,
    }
}

/// Gives a person a new PIN; whoever was signed in as them is signed out.
pub(crate) fn set_pin(yard: &store::Yard, person: PersonId, hash: String) -> Result<(), Refusal> {
    let known = yard.person(person)?.ok_or(Refusal::NotFound)?;
    yard.keep_person(&store::Person {
        pin_hash: Some(hash),
        active: true,
        ..known
    })?;
    Ok(yard.end_sessions_of(person)?)
}

/// The session's secret from the Cookie header.
pub fn secret_of(headers: &axum::http::HeaderMap) -> Option<String> {
    let all = headers
        .get_all(axum::http::header::COOKIE)
        .iter()
        .filter_map(|v| v.to_str().ok());
    let mut pairs = all
        .flat_map(|v| v.split(';'))
        .filter_map(|pair| pair.trim().split_once('='));
    pairs
        .find(|(name, _)| *name == COOKIE)
        .map(|(_, value)| value.to_owned())
        .filter(|v| v.len() == 32)
}

/// The Set-Cookie value that begins a session.
pub fn cookie(secret: &str) -> String {
    format!(
        "{COOKIE}={secret}; Path=/; HttpOnly; SameSite=Lax; Max-Age={}",
        HOURS * 3600
    )
}

/// The Set-Cookie value that ends it.
pub fn no_cookie() -> String {
    format!("{COOKIE}=; Path=/; HttpOnly; SameSite=Lax; Max-Age=0")
}

/// Percent-encodes a text for one part of an address.
pub fn encode(text: &str) -> String {
    text.bytes()
        .map(|b| {
            if b.is_ascii_alphanumeric() || b"-_.~".contains(&b) {
                char::from(b).to_string()
            } else {
                format!("%{b:02X}")
            }
        })
        .collect()
}

/// Where to go after signing in: only a path of this yard, never another site.
pub fn back(path: &str, home: &str) -> String {
    let inside = path.starts_with(&format!("{home}/")) || path == home;
    if inside
        && !path.contains("..")
        && !path.contains("//")
        && !path.contains('\\')
        && !path.contains(char::is_control)
    {
        path.to_owned()
    } else {
        home.to_owned()
    }
}

/// Who a session belongs to.
pub type Holder = Option<PersonId>;

#[cfg(test)]
mod tests {
    use super::*;
    use yard::world::StillWorld;

    #[test]
    fn a_pin_matches_only_itself() {
        let world = StillWorld::at(jiff::Timestamp::UNIX_EPOCH);
        let hash = pin_hash("4711", &world).unwrap();
        assert!(pin_matches(Some(&hash), "4711"));
        assert!(!pin_matches(Some(&hash), "4712"));
        assert!(!pin_matches(None, "4711"));
        assert!(!pin_matches(Some("rubbish"), "4711"));
    }

    #[test]
    fn easy_pins_are_refused() {
        for (pin, trouble) in [
            ("123", Some("pin-too-short")),
            ("1234", Some("pin-too-easy")),
            ("9876", Some("pin-too-easy")),
            ("7777", Some("pin-too-easy")),
            ("4711", None),
        ] {
            assert_eq!(pin_trouble(pin), trouble, "{pin}");
        }
    }

    #[test]
    fn the_way_back_stays_in_the_yard() {
        let home = "/y/0123456789";
        assert_eq!(
            back("/y/0123456789/m/marigold", home),
            "/y/0123456789/m/marigold"
        );
        for outside in [
            "//evil.example",
            "https://evil.example",
            "/y/0123456789//evil",
            "/y/other/m",
            "",
            "/y/0123456789\\@evil",
        ] {
            assert_eq!(back(outside, home), home, "{outside}");
        }
    }

    #[test]
    fn names_in_addresses_are_encoded() {
        assert_eq!(encode("a/b c?é"), "a%2Fb%20c%3F%C3%A9");
    }
}
