//! What the API takes and answers, as JSON: the shapes that the description is made from.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;
use uuid::Uuid;

/// Why a request was not answered as asked.
#[derive(Serialize, JsonSchema)]
pub(super) struct Refusal {
    /// A code for programs.
    pub(super) why: String,
    /// A sentence for people.
    pub(super) told: String,
    /// Line of what was sent, from 1, where it does not read as JSON.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) line: Option<u64>,
    /// Column of that line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) column: Option<u64>,
}

/// An OpenAPI document.
#[derive(JsonSchema)]
#[expect(
    dead_code,
    reason = "only its schema is used: the document itself is made elsewhere"
)]
pub(super) struct Document {
    openapi: String,
    info: serde_json::Map<String, serde_json::Value>,
    paths: serde_json::Map<String, serde_json::Value>,
}

/// Who asks.
#[derive(Serialize, JsonSchema)]
pub(super) struct Me {
    pub(super) person: Uuid,
    /// None once it was erased.
    pub(super) name: Option<String>,
    /// visitor, learner, operator, deputy or steward.
    pub(super) role: String,
    /// Until when the sign-in or the token holds.
    pub(super) until: String,
    /// The yard's id, as entries carry it.
    pub(super) yard: Uuid,
}

/// Entries that a device kept.
#[derive(Deserialize, JsonSchema)]
pub(super) struct Delivery {
    /// The device's own time now (RFC 3339), so that a wrong clock can be put right. Without one that reads, entries keep their times.
    #[serde(default)]
    pub(super) clock: Option<String>,
    /// Each the text of one entry (see Entry), as the device wrote it: at most 200.
    #[schemars(length(max = 200), with = "Vec<EntryText>")]
    pub(super) entries: Vec<String>,
}

/// What became of a delivery, entry by entry, in their order.
#[derive(Serialize, JsonSchema)]
pub(super) struct Delivered {
    pub(super) entries: Vec<EntryBecame>,
}

/// What became of one entry.
#[derive(Serialize, JsonSchema)]
pub(super) struct EntryBecame {
    /// As it was sent; empty where none could be made out.
    pub(super) id: String,
    /// new, known: it is on the disk. conflict: both are kept and people are asked. refused: for good. not-yours: its writer can deliver it.
    #[schemars(extend("enum" = ["new", "known", "conflict", "refused", "not-yours"]))]
    pub(super) is: String,
    /// A code for programs.
    pub(super) why: String,
    /// A sentence for people.
    pub(super) told: String,
}

/// What became of one entry, or one photo, sent by itself.
#[derive(Serialize, JsonSchema)]
pub(super) struct Taken {
    #[schemars(extend("enum" = ["new", "known", "conflict"]))]
    pub(super) is: String,
}

/// Entries in order of acceptance.
#[derive(Serialize, JsonSchema)]
pub(super) struct EntriesPage {
    pub(super) entries: Vec<EntryKept>,
    /// Ask for entries after this one next.
    pub(super) next: u64,
    /// How many entries there are in all.
    pub(super) of: u64,
}

/// An entry as it is kept: its writer's text, and what acceptance added.
#[derive(Serialize, JsonSchema)]
pub(super) struct EntryKept {
    pub(super) seq: u64,
    /// When it was accepted, to the millisecond.
    pub(super) written: String,
    /// The writer's time, put right by the clocks' difference.
    pub(super) ordered_at: String,
    /// Whether that departs from the writer's time.
    pub(super) corrected: bool,
    /// SHA-256 over the hash before, the text and the envelope, in hex.
    pub(super) hash: String,
    /// The entry as its writer made it, byte for byte.
    #[schemars(extend("contentMediaType" = "application/json"))]
    pub(super) text: String,
}

/// The yard and its machines.
#[derive(Serialize, JsonSchema)]
pub(super) struct Yard {
    pub(super) id: Uuid,
    pub(super) name: String,
    /// The tag in addresses.
    pub(super) tag: String,
    pub(super) machines: Vec<MachineLine>,
}

/// One machine in short.
#[derive(Serialize, JsonSchema)]
pub(super) struct MachineLine {
    pub(super) id: String,
    /// None without a book that reads.
    pub(super) name: Option<String>,
    pub(super) verdict: VerdictWord,
}

/// Fit to run, run with care, stand down.
#[derive(Clone, Copy, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum VerdictWord {
    Fit,
    Care,
    StandDown,
}

/// One machine with its verdict, for the person who asks, now.
#[derive(Serialize, JsonSchema)]
pub(super) struct Machine {
    pub(super) id: String,
    pub(super) name: Option<String>,
    pub(super) verdict: VerdictWord,
    /// The verdict in words.
    pub(super) says: String,
    /// Worst first.
    pub(super) reasons: Vec<ReasonLine>,
    /// When it was computed.
    pub(super) computed: String,
    /// What it holds for, in words.
    pub(super) holds: String,
    /// Until when it holds; none where nothing expires.
    pub(super) until: Option<String>,
    /// The entry of the book in force.
    pub(super) book: Option<Uuid>,
    /// Hours of its life, in words.
    pub(super) hours: String,
}

/// One reason of a verdict.
#[derive(Serialize, JsonSchema)]
pub(super) struct ReasonLine {
    pub(super) code: String,
    pub(super) rule: String,
    pub(super) weighs: VerdictWord,
    /// Not a finding: something is not known yet.
    pub(super) unknown: bool,
    pub(super) point: Option<String>,
    /// The finding it is about: `<entry>` or `<entry>/<point>`.
    pub(super) finding: Option<String>,
    pub(super) what: String,
    /// What to do next.
    pub(super) next: String,
}

/// The round due now.
#[derive(Serialize, JsonSchema)]
pub(super) struct RoundPlan {
    pub(super) machine: String,
    /// The entry of the book it was planned by: the round's entry names it.
    pub(super) book: Uuid,
    /// As planned: a relief check that is not allowed today is a full round.
    pub(super) purpose: String,
    pub(super) planned: String,
    /// What it should take.
    pub(super) seconds: u32,
    pub(super) legs: Vec<LegPlan>,
}

/// Stops walked in one engine state and pose.
#[derive(Serialize, JsonSchema)]
pub(super) struct LegPlan {
    /// off, idle, working or after.
    pub(super) engine: String,
    pub(super) pose: Option<String>,
    /// What must be in place before its first stop.
    pub(super) guards: Vec<String>,
    pub(super) stops: Vec<StopPlan>,
}

/// One station.
#[derive(Serialize, JsonSchema)]
pub(super) struct StopPlan {
    pub(super) station: String,
    pub(super) name: String,
    pub(super) points: Vec<PointPlan>,
}

/// One point to be answered.
#[derive(Serialize, JsonSchema)]
pub(super) struct PointPlan {
    pub(super) id: String,
    /// As on drawings and paper.
    pub(super) number: u32,
    pub(super) what: String,
    pub(super) how: Option<String>,
    /// Why it is due, in words.
    pub(super) because: String,
    /// Which answer it takes: the name of a member of `answer` in a walk-round's body.
    pub(super) kind: String,
    /// How many of it.
    pub(super) count: u32,
    /// Whether "all well here" may answer it.
    pub(super) one_tap: bool,
    /// The words to choose from; empty where it takes values.
    pub(super) choices: Vec<String>,
}

/// Everybody in the yard.
#[derive(Serialize, JsonSchema)]
pub(super) struct People {
    pub(super) people: Vec<PersonLine>,
}

/// One person.
#[derive(Serialize, JsonSchema)]
pub(super) struct PersonLine {
    pub(super) id: Uuid,
    /// None once it was erased.
    pub(super) name: Option<String>,
    pub(super) role: String,
}

/// One entry: its schema is the stored form's own.
pub(super) struct Entry;

impl JsonSchema for Entry {
    fn schema_name() -> Cow<'static, str> {
        "Entry".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        store::form::entry_schema(generator)
    }
}

/// The text of an entry inside a delivery.
pub(super) struct EntryText;

impl JsonSchema for EntryText {
    fn inline_schema() -> bool {
        true
    }
    fn schema_name() -> Cow<'static, str> {
        "EntryText".into()
    }
    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let entry = generator.subschema_for::<Entry>();
        json_schema!({ "type": "string", "contentMediaType": "application/json", "contentSchema": entry })
    }
}
