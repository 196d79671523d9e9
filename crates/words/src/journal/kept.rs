//! Lines of the journal about the shelf, attachments, documents and leaving.

use crate::{Names, Words};
use yard::entry::{Body, Document};

impl Words {
    /// What such an entry says, in a line; empty for every other kind.
    pub(super) fn kept_entry(&self, body: &Body, names: &dyn Names) -> String {
        match body {
            Body::ShelfCount(counted) => {
                let name = self.item(&counted.part, names);
                self.say(
                    "entry-shelf-count",
                    &[("n", counted.count.into()), ("name", name.into())],
                )
            }
            Body::Attachment(change) => {
                let known = names.machine(&change.attachment);
                let name = known.unwrap_or_else(|| change.attachment.to_string());
                let key = if change.fitted {
                    "entry-attachment-on"
                } else {
                    "entry-attachment-off"
                };
                let args = vec![("name", name.into())];
                self.with_part(key, "note", change.note.as_deref(), args)
            }
            Body::Document(document) => self.document_line(document),
            Body::DocumentEnded(ended) => self.say(
                "entry-document-ended",
                &[("why", ended.why.as_str().into())],
            ),
            Body::LeftYard(left) => {
                let args = vec![("how", self.name(left.how).into())];
                self.with_part("entry-left-yard", "to", left.to.as_deref(), args)
            }
            Body::CameBack(back) => {
                self.say("entry-came-back", &[("why", back.why.as_str().into())])
            }
            Body::Arrival(said) => self.arrival_entry(said, names),
            _ => String::new(),
        }
    }

    /// A document in a line: its kind, its title, and until when it holds.
    pub fn document_line(&self, document: &Document) -> String {
        let mut what = self.name(document.what);
        if let Some(first) = what.get(..1) {
            what = first.to_uppercase() + &what[1..];
        }
        let args = vec![
            ("what", what.into()),
            ("title", document.title.as_str().into()),
        ];
        let until = document.until.map(|until| self.date(until));
        self.with_part("entry-document", "until", until.as_deref(), args)
    }
}
