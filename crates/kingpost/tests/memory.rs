//! Memory of the program itself: many sign-ins and many large photos leave it as small as a few do.
//!
//! Hashing a PIN takes 19 MiB for a moment, decoding a photo some 36 MB. An allocator that keeps what each thread once had,
//! or work that is done by all at once, would show here as hundreds of megabytes.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used)]

mod running;

use image::{RgbImage, codecs::jpeg::JpegEncoder};
use jiff::{SignedDuration, Timestamp};
use running::Running;
use std::{
    fs,
    io::{Read, Write},
    net::TcpStream,
    path::Path,
    process::Command,
    thread,
};
use store::{NewEntry, Store, fresh_id, write_entry};
use tempfile::TempDir;
use yard::{
    entry::{Body, Note},
    id::{DeviceId, EntryId, MachineId, PersonId, YardId},
    world::StillWorld,
};

/// What argon2 fills to hash one PIN, KiB: its default settings.
const HASH: u64 = 19_456;

/// The pixels of one photo, 12 megapixels at three bytes, KiB.
const PIXELS: u64 = 4_000 * 3_000 * 3 / 1_024;

/// A photo as sent, KiB: the size that phones make of 12 megapixels.
const SENT: u64 = 4 << 10;

/// Entries of one phone in a crowd.
const ENTRIES: usize = 40;

/// Room for what is not counted: pages, threads, what the journal keeps in memory, and what the allocator has not given back yet,
/// which differs from run to run, KiB. Eight photos decoded at once would take some 280 MB more than one.
const REST: u64 = 96 << 10;

#[test]
fn a_hundred_sign_ins_leave_it_as_small_as_a_few() {
    let dir = TempDir::new().unwrap();
    let serving = Serving::start(dir.path());
    let before = serving.memory();
    for _ in 0..40 {
        serving.sign_in();
    }
    for _ in 0..6 {
        at_once(10, |_| drop(serving.sign_in()));
    }
    let after = serving.memory();
    // One PIN is hashed at a time; twice that, because memory just given back may not be the next one's at once.
    assert_below(after.most, before.now + 2 * HASH + REST, "while signing in");
    assert_below(after.now, before.now + HASH + REST, "afterwards");
}

#[test]
fn large_photos_one_by_one_and_at_once_leave_it_small() {
    let dir = TempDir::new().unwrap();
    let serving = Serving::start(dir.path());
    let cookie = serving.sign_in();
    let photo = photo();
    assert!(photo.len() as u64 >= SENT << 10);
    let before = serving.memory();
    for n in 0..20 {
        serving.send_photo(&cookie, n, &photo);
    }
    let by_turns = serving.memory();
    // One photo's pixels at a time, and as much again while they are made smaller; what was sent is in memory twice while it grows.
    let one = 2 * PIXELS + 2 * SENT;
    assert_below(
        by_turns.most,
        before.now + one + REST,
        "one after the other",
    );
    at_once(8, |n| serving.send_photo(&cookie, 100 + n, &photo));
    let at_once = serving.memory();
    // Eight wait with what was sent; still one is decoded.
    let eight = 2 * PIXELS + 8 * 2 * SENT;
    assert_below(at_once.most, before.now + eight + REST, "eight at once");
    assert_below(at_once.now, before.now + one + REST, "afterwards");
}

/// A crowd that comes back into range at once: nothing is lost, nothing comes twice, and it costs no more than a few of them.
#[test]
fn phones_back_at_once_lose_nothing_and_leave_it_small() {
    let phones = match std::env::var_os("KINGPOST_LONG") {
        Some(_) => 250,
        None => 50,
    };
    let dir = TempDir::new().unwrap();
    let serving = Serving::start(dir.path());
    let cookie = serving.sign_in();
    let deliveries: Vec<Vec<u8>> = (0..phones).map(|phone| serving.delivery(phone)).collect();
    let before = serving.memory();
    at_once(phones, |n| serving.deliver(&cookie, &deliveries[n]));
    let after = serving.memory();
    // What they sent, as it came and as it is read and kept, and the room for what waits (64 MiB).
    let sent = deliveries.iter().map(Vec::len).sum::<usize>() as u64 >> 10;
    let most = before.now + 4 * sent + REST;
    assert_below(after.most, most, "a crowd at once");
    serving.running.stop();
    let yard = Store::open(&dir.path().join("yard"))
        .unwrap()
        .yard()
        .unwrap();
    let kept = yard.entries().unwrap();
    let of_phones = kept
        .iter()
        .filter(|entry| entry.device.0.starts_with("phone 0000"));
    assert_eq!(of_phones.count(), phones * ENTRIES);
}

fn assert_below(found: u64, bound: u64, when: &str) {
    assert!(found <= bound, "{when}: {found} KiB, of {bound} KiB");
}

fn at_once(count: usize, work: impl Fn(usize) + Sync) {
    thread::scope(|scope| {
        for n in 0..count {
            let work = &work;
            scope.spawn(move || work(n));
        }
    });
}

/// A photo of 12 megapixels, made up: soft colours, and behind its first mark as much of comments as makes it as large as one
/// from a camera (ITU-T T.81, B.2.4.5).
fn photo() -> Vec<u8> {
    let pixels = RgbImage::from_fn(4_000, 3_000, |x, y| {
        image::Rgb([x / 16, y / 12, (x + y) / 28].map(|value| value.min(255) as u8))
    });
    let mut plain = Vec::new();
    JpegEncoder::new_with_quality(&mut plain, 90)
        .encode_image(&pixels)
        .unwrap();
    let comment = [&[0xFF, 0xFE, 0xFF, 0xFF][..], &[b' '; 65_533]].concat();
    [&plain[..2], &comment.repeat(65), &plain[2..]].concat()
}

/// A server over the demo yard, one of its people, and what it takes of memory.
struct Serving {
    running: Running,
    host: String,
    tag: String,
    person: String,
    signing: String,
}

/// Resident memory, KiB.
struct Memory {
    now: u64,
    most: u64,
}

impl Serving {
    fn start(data: &Path) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_kingpost"));
        let running = Running::start(command.env("KINGPOST_DATA", data.join("yard")), 0, &[]);
        let host = running.text("address").strip_prefix("http://").unwrap();
        let mut serving = Self {
            host: host.to_owned(),
            tag: running.text("tag").to_owned(),
            person: String::new(),
            signing: String::new(),
            running,
        };
        let page = serving.ask(&format!("GET /y/{}/sign-in", serving.tag), "", b"");
        let person = page.split("name=\"person\" value=\"").nth(1).unwrap();
        serving.person = person.split('"').next().unwrap().to_owned();
        let (person, pin) = (&serving.person, serving.running.text("pin"));
        serving.signing = format!("person={person}&pin={pin}");
        serving
    }

    fn memory(&self) -> Memory {
        let status =
            fs::read_to_string(format!("/proc/{}/status", self.running.child.id())).unwrap();
        let line = |name: &str| {
            let line = status.lines().find_map(|line| line.strip_prefix(name));
            line.unwrap()
                .trim()
                .trim_end_matches(" kB")
                .parse()
                .unwrap()
        };
        Memory {
            now: line("VmRSS:"),
            most: line("VmHWM:"),
        }
    }

    /// Signs in on a device of its own; gives the cookie.
    fn sign_in(&self) -> String {
        let form = "Content-Type: application/x-www-form-urlencoded\r\n";
        let what = format!("POST /y/{}/sign-in", self.tag);
        let answer = self.ask(&what, form, self.signing.as_bytes());
        assert!(answer.starts_with("HTTP/1.1 303"), "{answer:.300}");
        let cookie = answer.split("set-cookie: ").nth(1).unwrap();
        cookie.split(';').next().unwrap().to_owned()
    }

    fn send_photo(&self, cookie: &str, n: usize, photo: &[u8]) {
        let what = format!(
            "PUT /api/y/{}/photos/018f0000-0000-7000-8000-{n:012}",
            self.tag
        );
        let answer = self.ask(&what, &format!("Cookie: {cookie}\r\n"), photo);
        assert!(answer.starts_with("HTTP/1.1 201"), "{answer:.300}");
    }

    /// What one phone of a crowd holds, as it sends it.
    fn delivery(&self, phone: usize) -> Vec<u8> {
        let now = Timestamp::now();
        let world = StillWorld::at(now + SignedDuration::from_secs(phone as i64));
        let entry = |counter: usize| {
            let bytes = write_entry(&NewEntry {
                id: EntryId(fresh_id(&world)),
                yard: YardId(self.running.text("yard").parse().unwrap()),
                machine: MachineId::new("marigold"),
                at: now,
                by: PersonId(self.person.parse().unwrap()),
                device: DeviceId(format!("phone {phone:08x}")),
                counter: counter as u64,
                body: Body::Note(Note {
                    point: None,
                    text: format!("Phone {phone}, entry {counter}: to be looked at tomorrow"),
                }),
            });
            String::from_utf8(bytes).unwrap()
        };
        let entries: Vec<String> = (1..=ENTRIES).map(entry).collect();
        let whole = serde_json::json!({ "clock": now.to_string(), "entries": entries });
        whole.to_string().into_bytes()
    }

    fn deliver(&self, cookie: &str, delivery: &[u8]) {
        let what = format!("POST /api/y/{}/deliveries", self.tag);
        let heads = format!("Cookie: {cookie}\r\nContent-Type: application/json\r\n");
        let answer = self.ask(&what, &heads, delivery);
        assert_eq!(
            answer.matches("\"is\":\"new\"").count(),
            ENTRIES,
            "{answer:.300}"
        );
    }

    fn ask(&self, what: &str, headers: &str, body: &[u8]) -> String {
        let mut stream = TcpStream::connect(&self.host).unwrap();
        let (host, length) = (&self.host, body.len());
        write!(
            stream,
            "{what} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\nContent-Length: {length}\r\n{headers}\r\n"
        )
        .unwrap();
        stream.write_all(body).unwrap();
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).unwrap();
        String::from_utf8_lossy(&answer).into_owned()
    }
}
