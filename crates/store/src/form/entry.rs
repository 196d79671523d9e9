//! The form of a whole entry: the JSON a writer makes, its outside, and the way back to the domain's entry.

use super::kinds::{kind_of, read_body, write_body};
use crate::{
    chain::to_millisecond,
    error::{Refusal, StoreError},
    journal::Row,
};
use jiff::Timestamp;
use serde::{Deserialize, Serialize, de::IgnoredAny};
use serde_json::value::RawValue;
use std::borrow::Cow;
use uuid::Uuid;
use yard::{
    entry::{Body, Entry},
    id::{DeviceId, EntryId, MachineId, PersonId, YardId, well_formed},
};

/// Most bytes of one entry: 1 MiB, some twenty times the longest book there is.
pub const MOST_BYTES: usize = 1 << 20;
/// Most characters of a device's name.
const MOST_DEVICE: usize = 64;

/// An entry about to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct NewEntry {
    /// Its id (UUIDv7), made where and when it is submitted: see [`fresh_id`](crate::fresh_id).
    pub id: EntryId,
    /// Yard it belongs to.
    pub yard: YardId,
    /// Machine it is about; none for the yard as a whole.
    pub machine: Option<MachineId>,
    /// When, by the writer's clock; kept to the millisecond.
    pub at: Timestamp,
    /// Who writes it.
    pub by: PersonId,
    /// On what.
    pub device: DeviceId,
    /// The device's own counter.
    pub counter: u64,
    /// What it says. [`Body::Unknown`] and [`Body::Unreadable`] have lost their content and are written as `null`.
    pub body: Body,
}

/// The bytes of a new entry, as they are kept for ever.
///
/// `{"id": …, "yard": …, "machine": …, "kind": …, "version": …, "at": …, "by": …, "device": …, "counter": …, "body": {…}}`
pub fn write_entry(entry: &NewEntry) -> Vec<u8> {
    let (kind, version) = kind_of(&entry.body);
    let form = EntryForm {
        id: entry.id.0,
        yard: entry.yard.0,
        machine: entry
            .machine
            .as_ref()
            .map(|machine| machine.as_str().into()),
        kind: kind.into(),
        version,
        at: to_millisecond(entry.at),
        by: entry.by.0,
        device: entry.device.0.as_str().into(),
        counter: entry.counter,
        body: write_body(&entry.body)
            .expect("a form holds only texts, numbers and lists, which JSON can say"),
    };
    serde_json::to_vec(&form)
        .expect("a form holds only texts, numbers and lists, which JSON can say")
}

/// The outside of an entry: all that acceptance looks at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Id.
    pub id: EntryId,
    /// Machine's id, well formed.
    pub machine: Option<String>,
    /// Kind's word; perhaps not one this program knows.
    pub kind: String,
    /// The writer's time.
    pub at: Timestamp,
}

/// Reads the outside of bytes offered to `yard`. The body is looked at only as far as finding its end takes.
///
/// # Errors
/// [`Refusal`]: too large, no entry, another yard's, an id or name that is not well formed.
pub fn read_head(bytes: &[u8], yard: YardId) -> Result<Head, Refusal> {
    if bytes.len() > MOST_BYTES {
        return Err(Refusal::TooLarge {
            bytes: bytes.len(),
            most: MOST_BYTES,
        });
    }
    let text = std::str::from_utf8(bytes).map_err(|_| Refusal::NotText)?;
    let form = read_form::<EntryForm<IgnoredAny>>(text)?;
    let ill_formed = |field| Err(Refusal::IllFormed { field });
    if form.yard != yard.0 {
        return Err(Refusal::OtherYard {
            yard: form.yard.to_string(),
        });
    }
    if form.id.is_nil() {
        return ill_formed("id");
    }
    if form.by.is_nil() {
        return ill_formed("by");
    }
    if !form.machine.as_deref().is_none_or(well_formed) {
        return ill_formed("machine");
    }
    if !well_formed(&form.kind) {
        return ill_formed("kind");
    }
    if form.device.chars().count() > MOST_DEVICE {
        return ill_formed("device");
    }
    Ok(Head {
        id: EntryId(form.id),
        machine: form.machine.map(Cow::into_owned),
        kind: form.kind.into_owned(),
        at: form.at,
    })
}

/// The domain's entry of a kept row.
///
/// # Errors
/// [`StoreError::Damaged`] where even the outside does not read, which acceptance has ruled out.
pub fn read_entry(row: &Row) -> Result<Entry, StoreError> {
    let damaged = || StoreError::Damaged {
        seq: row.envelope.seq,
    };
    let text = std::str::from_utf8(&row.bytes).map_err(|_| damaged())?;
    let form: EntryForm<'_, &RawValue> = serde_json::from_str(text).map_err(|_| damaged())?;
    let machine = form
        .machine
        .as_deref()
        .map(|machine| MachineId::new(machine).ok_or_else(damaged))
        .transpose()?;
    Ok(Entry {
        id: EntryId(form.id),
        seq: row.envelope.seq,
        machine,
        at: form.at,
        ordered_at: row.envelope.ordered_at,
        written: row.envelope.written,
        clock_corrected: row.envelope.corrected,
        by: PersonId(form.by),
        device: DeviceId(form.device.into_owned()),
        counter: form.counter,
        body: read_body(&form.kind, form.version, form.body.get()),
    })
}

#[derive(Serialize, Deserialize)]
#[serde(bound(deserialize = "B: Deserialize<'de>"))]
struct EntryForm<'a, B = Box<RawValue>> {
    id: Uuid,
    yard: Uuid,
    #[serde(borrow, default, skip_serializing_if = "Option::is_none")]
    machine: Option<Cow<'a, str>>,
    #[serde(borrow)]
    kind: Cow<'a, str>,
    version: u32,
    at: Timestamp,
    by: Uuid,
    #[serde(borrow)]
    device: Cow<'a, str>,
    counter: u64,
    body: B,
}

fn read_form<'a, F: Deserialize<'a>>(text: &'a str) -> Result<F, Refusal> {
    let mut json = serde_json::Deserializer::from_str(text);
    let form = serde_path_to_error::deserialize(&mut json).map_err(|stumbled| {
        let field = stumbled.path().to_string();
        Refusal::NotAnEntry {
            field: if field == "." { String::new() } else { field },
            why: stumbled.into_inner().to_string(),
        }
    })?;
    json.end().map_err(|why| Refusal::NotAnEntry {
        field: String::new(),
        why: why.to_string(),
    })?;
    Ok(form)
}
