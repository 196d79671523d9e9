//! Every operation of the API.

use super::{
    deliveries, document, entries, machines, me,
    operation::{Answers, Kind, Method, Operation, Parameter, Sent, Who, schema_of},
    people, photos, round,
    shapes::{
        Delivered, Delivery, Document, EntriesPage, Entry, EntryKept, Machine, Me, People, Refusal,
        RoundPlan, Taken, Yard,
    },
};
use axum::http::StatusCode;
use yard::people::Deed;

const TAG: Parameter = Parameter {
    name: "tag",
    kind: Kind::Tag,
};
const MACHINE: Parameter = Parameter {
    name: "machine",
    kind: Kind::Machine,
};

const OK: StatusCode = StatusCode::OK;

/// All of them, in the order of the description.
pub(super) const OPERATIONS: &[Operation] = &[
    Operation {
        name: "describe",
        method: Method::Get,
        path: "/api/openapi.json",
        who: Who::Anybody,
        parameters: &[],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "description",
            schema: schema_of::<Document>,
        }],
        refuses: &[],
        run: document::serve,
    },
    Operation {
        name: "me",
        method: Method::Get,
        path: "/api/y/{tag}/me",
        who: Who::Known,
        parameters: &[TAG],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "me",
            schema: schema_of::<Me>,
        }],
        refuses: &[],
        run: me::me,
    },
    Operation {
        name: "deliver",
        method: Method::Post,
        path: "/api/y/{tag}/deliveries",
        who: Who::Delivers(Deed::Note),
        parameters: &[TAG],
        sent: Some(Sent::Json {
            most: deliveries::MOST_BYTES,
            schema: schema_of::<Delivery>,
        }),
        answers: &[Answers {
            status: OK,
            key: "delivered",
            schema: schema_of::<Delivered>,
        }],
        refuses: &["too-many", "disk-full"],
        run: deliveries::deliver,
    },
    Operation {
        name: "write-entry",
        method: Method::Post,
        path: "/api/y/{tag}/entries",
        who: Who::Delivers(Deed::Note),
        parameters: &[TAG],
        sent: Some(Sent::Json {
            most: store::MOST_BYTES,
            schema: schema_of::<Entry>,
        }),
        answers: &[
            Answers {
                status: StatusCode::CREATED,
                key: "entry-new",
                schema: schema_of::<Taken>,
            },
            Answers {
                status: OK,
                key: "entry-known",
                schema: schema_of::<Taken>,
            },
            Answers {
                status: StatusCode::CONFLICT,
                key: "entry-conflict",
                schema: schema_of::<Taken>,
            },
        ],
        refuses: &["not-an-entry", "entry", "not-yours", "disk-full"],
        run: deliveries::write_entry,
    },
    Operation {
        name: "keep-photo",
        method: Method::Put,
        path: "/api/y/{tag}/photos/{photo}",
        who: Who::Delivers(Deed::Note),
        parameters: &[
            TAG,
            Parameter {
                name: "photo",
                kind: Kind::Photo,
            },
        ],
        sent: Some(Sent::Picture),
        answers: &[
            Answers {
                status: StatusCode::CREATED,
                key: "photo-new",
                schema: schema_of::<Taken>,
            },
            Answers {
                status: OK,
                key: "photo-known",
                schema: schema_of::<Taken>,
            },
            Answers {
                status: StatusCode::CONFLICT,
                key: "photo-differs",
                schema: schema_of::<Refusal>,
            },
        ],
        refuses: &["differs", "disk-full"],
        run: photos::keep,
    },
    Operation {
        name: "list-entries",
        method: Method::Get,
        path: "/api/y/{tag}/entries",
        who: Who::Reads(Deed::Look),
        parameters: &[
            TAG,
            Parameter {
                name: "after",
                kind: Kind::Number(0, i64::MAX as u64, 0),
            },
            Parameter {
                name: "most",
                kind: Kind::Number(1, 500, 100),
            },
        ],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "entries",
            schema: schema_of::<EntriesPage>,
        }],
        refuses: &[],
        run: entries::list,
    },
    Operation {
        name: "read-entry",
        method: Method::Get,
        path: "/api/y/{tag}/entries/{entry}",
        who: Who::Reads(Deed::Look),
        parameters: &[
            TAG,
            Parameter {
                name: "entry",
                kind: Kind::Entry,
            },
        ],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "entry",
            schema: schema_of::<EntryKept>,
        }],
        refuses: &[],
        run: entries::one,
    },
    Operation {
        name: "yard",
        method: Method::Get,
        path: "/api/y/{tag}/yard",
        who: Who::Reads(Deed::Look),
        parameters: &[TAG],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "yard",
            schema: schema_of::<Yard>,
        }],
        refuses: &[],
        run: machines::yard,
    },
    Operation {
        name: "machine",
        method: Method::Get,
        path: "/api/y/{tag}/machines/{machine}",
        who: Who::Reads(Deed::Look),
        parameters: &[TAG, MACHINE],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "machine",
            schema: schema_of::<Machine>,
        }],
        refuses: &[],
        run: machines::machine,
    },
    Operation {
        name: "round",
        method: Method::Get,
        path: "/api/y/{tag}/machines/{machine}/round",
        who: Who::Reads(Deed::WalkRound),
        parameters: &[
            TAG,
            MACHINE,
            Parameter {
                name: "purpose",
                kind: Kind::Word(&["start", "relief", "after"]),
            },
        ],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "round",
            schema: schema_of::<RoundPlan>,
        }],
        refuses: &[],
        run: round::plan,
    },
    Operation {
        name: "people",
        method: Method::Get,
        path: "/api/y/{tag}/people",
        who: Who::Reads(Deed::Look),
        parameters: &[TAG],
        sent: None,
        answers: &[Answers {
            status: OK,
            key: "people",
            schema: schema_of::<People>,
        }],
        refuses: &[],
        run: people::list,
    },
];
