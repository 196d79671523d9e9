//! The chain: what acceptance adds to an entry, and the hash that ties it to everything accepted before.

use jiff::Timestamp;
use sha2::{Digest, Sha256};
use yard::id::YardId;

/// SHA-256.
pub type Hash = [u8; 32];

/// How an entry came in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Delivery {
    /// The store's clock, now.
    pub written: Timestamp,
    /// What the writer's clock showed at delivery, when it said so.
    pub writers_clock_now: Option<Timestamp>,
}

impl Delivery {
    /// A delivery by the store's own computer: one clock, nothing to correct.
    pub fn here(now: Timestamp) -> Self {
        Self {
            written: now,
            writers_clock_now: Some(now),
        }
    }
}

/// What became of an offered entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Acceptance {
    /// Taken: it is on the disk.
    New {
        /// Its place in the chain.
        seq: u64,
    },
    /// The same id and the same bytes are there already.
    Known {
        /// Its place in the chain.
        seq: u64,
    },
    /// The id is there with other bytes: these are kept aside and shown.
    Conflict {
        /// Place of the entry that has the id.
        seq: u64,
    },
}

/// What first acceptance adds. Times are to the millisecond.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Envelope {
    /// Order of acceptance, from 1, without gaps.
    pub seq: u64,
    /// The store's clock at acceptance.
    pub written: Timestamp,
    /// The writer's time corrected by the clocks' difference; never later than `written`.
    pub ordered_at: Timestamp,
    /// Whether `ordered_at` departs from the writer's time.
    pub corrected: bool,
    /// SHA-256 over the hash before, the bytes and this envelope.
    pub hash: Hash,
}

/// The end of a chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tip {
    /// Entries so far.
    pub seq: u64,
    /// Hash of the last one.
    pub hash: Hash,
}

impl Tip {
    /// The tip of a yard's chain before its first entry: the hash of the yard's id, so that two yards' chains never match.
    pub fn start(yard: YardId) -> Self {
        Self {
            seq: 0,
            hash: Sha256::digest(format!("kingpost chain 1\n{yard}\n")).into(),
        }
    }
}

/// The envelope of the next entry after `tip`: `at` is the writer's time as written in `bytes`.
pub(crate) fn seal(tip: &Tip, at: Timestamp, bytes: &[u8], delivery: Delivery) -> Envelope {
    let written = to_millisecond(delivery.written);
    let at = to_millisecond(at);
    let ordered_at = order(at, written, delivery.writers_clock_now.map(to_millisecond));
    let mut envelope = Envelope {
        seq: tip.seq + 1,
        written,
        ordered_at,
        corrected: ordered_at != at,
        hash: [0; 32],
    };
    envelope.hash = link(&tip.hash, bytes, &envelope);
    envelope
}

/// The hash of an entry in its envelope, after the entry whose hash is `before`.
///
/// SHA-256 over: the hash before (32 bytes), the number of bytes (8 bytes, big-endian), the bytes, and the envelope's text: five lines
/// `kingpost envelope 1`, `seq N`, `written MS`, `ordered MS`, `corrected 0|1`, times in milliseconds since 1970 UTC.
pub(crate) fn link(before: &Hash, bytes: &[u8], envelope: &Envelope) -> Hash {
    let text = format!(
        "kingpost envelope 1\nseq {}\nwritten {}\nordered {}\ncorrected {}\n",
        envelope.seq,
        envelope.written.as_millisecond(),
        envelope.ordered_at.as_millisecond(),
        u8::from(envelope.corrected)
    );
    let mut hasher = Sha256::new();
    hasher.update(before);
    hasher.update((bytes.len() as u64).to_be_bytes());
    hasher.update(bytes);
    hasher.update(text);
    hasher.finalize().into()
}

/// The time an entry is ordered by. Without the writer's clock only the future is mended, since nothing tells how wrong the past is.
fn order(at: Timestamp, written: Timestamp, told: Option<Timestamp>) -> Timestamp {
    let shift = told.map_or(0, |clock| written.as_millisecond() - clock.as_millisecond());
    let corrected = at
        .as_millisecond()
        .saturating_add(shift)
        .min(written.as_millisecond());
    Timestamp::from_millisecond(corrected).unwrap_or(Timestamp::MIN)
}

/// Rounded down to the millisecond, as every engine keeps it.
pub(crate) fn to_millisecond(time: Timestamp) -> Timestamp {
    let nanos = time.as_nanosecond();
    i64::try_from(nanos.div_euclid(1_000_000))
        .ok()
        .and_then(|ms| Timestamp::from_millisecond(ms).ok())
        .unwrap_or(Timestamp::MIN)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> Timestamp {
        text.parse().unwrap()
    }

    #[test]
    fn a_slow_phone_is_put_right_and_a_fast_one_too() {
        let written = at("2024-05-01T10:00:00Z");
        assert_eq!(
            order(
                at("2024-05-01T08:00:00Z"),
                written,
                Some(at("2024-05-01T09:00:00Z"))
            ),
            at("2024-05-01T09:00:00Z")
        );
        assert_eq!(
            order(
                at("2024-05-01T12:00:00Z"),
                written,
                Some(at("2024-05-01T13:00:00Z"))
            ),
            at("2024-05-01T09:00:00Z")
        );
    }

    #[test]
    fn never_later_than_written() {
        let written = at("2024-05-01T10:00:00Z");
        assert_eq!(order(at("2024-05-01T12:00:00Z"), written, None), written);
        assert_eq!(
            order(
                at("2024-05-01T12:00:00Z"),
                written,
                Some(at("2024-05-01T09:00:00Z"))
            ),
            written
        );
        assert_eq!(
            order(Timestamp::MAX, written, Some(Timestamp::MIN)),
            written
        );
        assert_eq!(
            order(Timestamp::MIN, written, Some(Timestamp::MAX)),
            Timestamp::MIN
        );
    }

    /// The digest was computed with Python's hashlib over the text described at [`link`].
    #[test]
    fn the_hash_is_the_one_written_down() {
        let yard = "018f0000-0000-7000-8000-000000000001".parse().unwrap();
        let start = Tip::start(yard);
        let delivery = Delivery::here(at("2024-05-01T10:00:00.123Z"));
        let envelope = seal(&start, at("2024-05-01T10:00:00Z"), b"{}", delivery);
        assert_eq!(
            hex::encode(start.hash),
            "de55ba0ea8e751c8a0db6f202882494d052edce5b6d60ced0f79eb3ba1535ac7"
        );
        assert_eq!(
            hex::encode(envelope.hash),
            "fa34c1faec30ecfb2e39355817d6a304ac0f85f51f256764209c4658c8750692"
        );
    }
}
