//! Who is at the other end: a session in an opaque cookie, PINs hashed by argon2, nothing readable in the browser.

use crate::{app::App, caller::Caller, desk::Desk, refusal::Refusal, tokens};
use argon2::{
    Argon2,
    password_hash::{PasswordHasher, PasswordVerifier, phc::PasswordHash},
};
use axum::{
    http::{HeaderMap, HeaderValue, header},
    response::{AppendHeaders, IntoResponse, Redirect},
};
use jiff::{SignedDuration, Timestamp};
use sha2::{Digest, Sha256};
use yard::{id::PersonId, world::World};

/// Name of the session's cookie; over TLS it gets a prefix, see [`cookie_name`].
pub const COOKIE: &str = "kingpost";

/// Name of the device's cookie.
pub const DEVICE_COOKIE: &str = "kingpost-device";

/// How long a sign-in lasts on one's own phone, and at most anywhere: a working day.
pub const DAY: SignedDuration = SignedDuration::from_hours(12);

/// How long one lasts without a request on a device of several people.
pub const IDLE: SignedDuration = SignedDuration::from_mins(20);

/// How long a device is known after the last sign-in on it, days.
const DEVICE_DAYS: i64 = 400;

/// Marks a request that came over TLS: whoever speaks TLS for the server puts it into the request's extensions.
#[derive(Clone, Copy, Debug)]
pub struct OverTls;

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

/// Gives a person a new PIN; whoever was signed in as them is signed out, and their tokens end.
pub(crate) fn set_pin(app: &App, person: PersonId, hash: String) -> Result<(), Refusal> {
    let yard = &app.yard;
    let known = yard.person(person)?.ok_or(Refusal::NotFound)?;
    yard.keep_person(&store::Person {
        pin_hash: Some(hash),
        active: true,
        ..known
    })?;
    yard.end_sessions_of(person)?;
    Ok(tokens::end_all(yard, app.world.as_ref(), person)?)
}

/// A cookie's name: over TLS with the prefix by which a browser takes it from nobody but this server over TLS.
pub fn cookie_name(name: &str, tls: bool) -> String {
    format!("{}{name}", if tls { "__Host-" } else { "" })
}

/// A secret from the Cookie header, by the cookie's whole name.
pub fn secret_in(headers: &HeaderMap, name: &str) -> Option<String> {
    let all = headers
        .get_all(header::COOKIE)
        .iter()
        .filter_map(|v| v.to_str().ok());
    let mut pairs = all
        .flat_map(|v| v.split(';'))
        .filter_map(|pair| pair.trim().split_once('='));
    pairs
        .find(|(own, _)| *own == name)
        .map(|(_, value)| value.to_owned())
        .filter(|value| value.len() == 32 && value.bytes().all(|b| b.is_ascii_hexdigit()))
}

/// A Set-Cookie value: no script reads it, no other site's form sends it, over TLS it never travels in the open.
pub fn set_cookie(name: &str, value: &str, tls: bool, seconds: i64) -> String {
    let secure = if tls { "; Secure" } else { "" };
    let name = cookie_name(name, tls);
    format!("{name}={value}; Path=/; HttpOnly; SameSite=Lax; Max-Age={seconds}{secure}")
}

/// Who is signed in, and how.
#[derive(Clone, Debug)]
pub(crate) struct SignedIn {
    /// Who.
    pub(crate) person: PersonId,
    /// The hash by which the store knows the sign-in.
    pub(crate) hash: String,
    /// On a device of several people.
    pub(crate) shared: bool,
    /// Until when it holds, if nothing more is asked.
    pub(crate) until: Timestamp,
}

/// Who is signed in; a sign-in on a shared device holds on for another while.
pub(crate) fn signed_in(app: &App, caller: &Caller) -> Result<Option<SignedIn>, Refusal> {
    let Some(secret) = &caller.session else {
        return Ok(None);
    };
    let (hash, now) = (hash(secret), app.world.now());
    let Some(session) = app.yard.session(&hash, now)? else {
        return Ok(None);
    };
    let mut until = session.expires;
    if session.shared && session.expires.duration_since(now) < IDLE {
        let most = session.since.unwrap_or(now) + DAY;
        // A minute more than needed, so that not every request writes.
        until = (now + IDLE + SignedDuration::from_mins(1)).min(most);
        app.yard.prolong_session(&hash, until)?;
    }
    Ok(session.person.map(|person| SignedIn {
        person: PersonId(person),
        hash,
        shared: session.shared,
        until,
    }))
}

/// Signs a person in: a fresh secret, never one that the browser brought along, and the sign-in before it ended.
pub(crate) fn begin(desk: &Desk, person: PersonId, shared: bool, to: &str) -> crate::desk::Answer {
    let (yard, world) = (&desk.app.yard, desk.app.world.as_ref());
    if let Some(old) = &desk.signed {
        yard.end_session(&old.hash)?;
    }
    yard.clear_sessions(desk.now)?;
    yard.clear_devices(desk.now - SignedDuration::from_hours(24 * DEVICE_DAYS))?;
    // A device on which nobody signed in before gets a fresh secret too: the one it brought may have been planted.
    let brought = desk.caller.device.clone().map(|own| (hash(&own), own));
    let known = match brought {
        Some((hash, own)) => yard.device(&hash)?.map(|_| own),
        None => None,
    };
    let device = known.unwrap_or_else(|| secret(world));
    yard.note_device(&hash(&device), person, desk.now)?;
    let (secret, lasts) = (secret(world), if shared { IDLE } else { DAY });
    let session = store::Session {
        person: Some(person.0),
        expires: desk.now + lasts,
        since: Some(desk.now),
        device: hash(&device)[..4].to_owned(),
        shared,
    };
    yard.keep_session(&hash(&secret), &session)?;
    let tls = desk.caller.tls;
    let seconds = DAY.as_secs();
    let cookies = [
        set_cookie(COOKIE, &secret, tls, seconds),
        device_cookie(&device, tls),
    ];
    let cookies = AppendHeaders(cookies.map(|cookie| (header::SET_COOKIE, cookie)));
    Ok((cookies, Redirect::to(to)).into_response())
}

/// The Set-Cookie value for a device that comes without a secret of its own. Nothing is kept of it until somebody signs in.
pub(crate) fn first_visit(app: &App, caller: &Caller) -> Option<HeaderValue> {
    if caller.device.is_some() {
        return None;
    }
    let cookie = device_cookie(&secret(app.world.as_ref()), caller.tls);
    HeaderValue::from_str(&cookie).ok()
}

/// The cookie by which a device is known again, also when nobody is signed in on it.
fn device_cookie(secret: &str, tls: bool) -> String {
    set_cookie(DEVICE_COOKIE, secret, tls, DEVICE_DAYS * 24 * 3600)
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
