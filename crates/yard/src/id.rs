//! Names of things that must not be mixed up: each id its own type.

use std::fmt;
use uuid::Uuid;

macro_rules! uuid_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(pub Uuid);
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }
        impl std::str::FromStr for $name {
            type Err = uuid::Error;
            fn from_str(text: &str) -> Result<Self, Self::Err> {
                Uuid::parse_str(text).map(Self)
            }
        }
    };
}

macro_rules! slug_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(String);
        impl $name {
            /// Takes the text as it is when it is a well-formed id: 1 to 64 of `a-z`, `0-9` and `-`, starting with a letter or digit.
            pub fn new(text: &str) -> Option<Self> {
                well_formed(text).then(|| Self(text.to_owned()))
            }
            /// The id as text.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    };
}

/// Whether `text` can be an id that a person writes: 1 to 64 of `a-z`, `0-9` and `-`, starting with a letter or digit.
pub fn well_formed(text: &str) -> bool {
    let sound = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    (1..=64).contains(&text.len()) && text.chars().all(sound) && !text.starts_with('-')
}

uuid_id! {
    /// One entry of the journal (UUIDv7, made where and when it was submitted).
    EntryId
}
uuid_id! {
    /// One walk-round: its parts, submitted station by station, share it.
    RoundId
}
uuid_id! {
    /// One person. The journal holds only this; the name lives outside the chain and can be erased.
    PersonId
}
impl PersonId {
    /// Stands for nobody: what the program itself writes, e.g. that signing in was locked.
    pub const PROGRAM: Self = Self(Uuid::from_u128(0x6b69_6e67_706f_8374_8000_0000_0000_0001));
}
uuid_id! {
    /// One yard.
    YardId
}
uuid_id! {
    /// A photo, named by the phone that took it.
    PhotoId
}
slug_id! {
    /// One machine of the yard, as its book names it.
    MachineId
}
slug_id! {
    /// A point of a machine book; permanent.
    PointId
}
slug_id! {
    /// A station of a machine book.
    StationId
}
slug_id! {
    /// Any other named item of a machine book: pose, joint, fluid, part, ram, rest step, weakness, event.
    ItemId
}

/// What wrote an entry: a phone, the yard's computer, the command line. Free text made by the device, at most 64 characters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub String);

/// Names one thing that can be closed: an entry, or one point's finding inside a walk-round entry.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FaultRef {
    /// The entry that told of it.
    pub entry: EntryId,
    /// The point, where the entry is a walk-round or greasing that holds several.
    pub point: Option<PointId>,
}

impl fmt::Display for FaultRef {
    /// `<entry>` or `<entry>/<point>`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.point {
            Some(point) => write!(f, "{}/{point}", self.entry),
            None => self.entry.fmt(f),
        }
    }
}

impl std::str::FromStr for FaultRef {
    type Err = ();
    fn from_str(text: &str) -> Result<Self, ()> {
        let (entry, point) = match text.split_once('/') {
            Some((entry, point)) => (entry, Some(PointId::new(point).ok_or(())?)),
            None => (text, None),
        };
        Ok(Self {
            entry: entry.parse().map_err(|_| ())?,
            point,
        })
    }
}
