//! Changes about arrivals, attachments, documents and leaving.

use super::scene::{Scene, hours_ago};
use yard::{
    book::{AttachmentTaken, DocumentWanted, PointKind, Severity},
    code::Coded,
    entry::{Document, DocumentKind, FluidNow, LeftYard},
    id::{ItemId, MachineId},
    state::{Arrived, Fitted, Found, KeptDocument, Left},
};

impl Scene {
    /// One such change.
    pub(super) fn kept(&mut self, subject: &str, says: &str) {
        let entry = self.entry();
        match (subject, says) {
            ("left yard", how) => {
                let said = LeftYard {
                    how: Coded::from_code(how).expect("a way to leave"),
                    on: None,
                    to: None,
                    hours: None,
                    note: None,
                };
                let at = hours_ago(3);
                self.machine.left = Some(Left { entry, at, said });
            }
            ("arrival", says) => {
                let (entry, since) = (self.entry(), hours_ago(30));
                let fluids = &self.book.as_ref().unwrap().fluids;
                let known =
                    |fluid: &yard::book::Fluid| (fluid.id.clone(), (FluidNow::Changed, entry));
                self.machine.arrival = Some(Arrived {
                    entry,
                    since,
                    steps: Default::default(),
                    fluids_known: match says {
                        "fluids changed" => fluids.iter().map(known).collect(),
                        "begun" | "over" => Default::default(),
                        other => panic!("no such arrival: {other:?}"),
                    },
                    over: (says == "over").then_some((entry, since)),
                });
            }
            ("attachment", says) => self.attachment(says),
            ("document", says) => {
                let title = "Test report of the lifting eye".to_owned();
                let of_book = ItemId::new("lifting-eye");
                self.book.as_mut().unwrap().documents = vec![DocumentWanted {
                    id: of_book.clone().unwrap(),
                    what: DocumentKind::TestReport,
                    title: title.clone(),
                    needed: true,
                    bad_is: if says.ends_with("stands down") {
                        Severity::StandDown
                    } else {
                        Severity::Care
                    },
                    line: 1,
                }];
                let until = says
                    .strip_prefix("ended ")
                    .or(says.strip_prefix("holds to "));
                if let Some(until) = until {
                    let until = Some(until.parse().unwrap());
                    self.write_down(DocumentKind::TestReport, &title, of_book, until);
                } else if says == "undated" {
                    self.write_down(DocumentKind::TestReport, &title, of_book, None);
                }
            }
            ("recall", "open") => {
                self.write_down(DocumentKind::Recall, "Crack at the hub", None, None);
            }
            ("mark", "of another attachment") => {
                let book = self.book.as_mut().unwrap();
                let taken = |id: &str| AttachmentTaken {
                    id: MachineId::new(id).unwrap(),
                    locks: "Pin through both ears".into(),
                    line: 1,
                };
                book.attachments = vec![taken("narrow-bucket"), taken("wide-bucket")];
                let mark = book
                    .points
                    .iter_mut()
                    .find_map(|point| match &mut point.kind {
                        PointKind::Level(mark) => Some(mark),
                        _ => None,
                    });
                mark.unwrap().attachments = vec!["wide-bucket".into()];
                self.attachment("fit");
            }
            other => panic!("no such change: {other:?}"),
        }
    }

    /// An attachment that is as the machine itself is now, but for what is said.
    fn attachment(&mut self, says: &str) {
        let id = MachineId::new("narrow-bucket").unwrap();
        let entry = self.entry();
        let since = hours_ago(30);
        self.machine
            .fitted
            .insert(id.clone(), Fitted { entry, since });
        let mut other = Scene::fit();
        if says == "stands down" {
            let down = Found::StoodDown("ear cracked".into());
            other.find(down, None, hours_ago(5), None);
        }
        if says != "not known" {
            let mut state = other.folded();
            state.id = Some(id.clone());
            self.others.insert(id, state);
        }
    }

    fn write_down(
        &mut self,
        what: DocumentKind,
        title: &str,
        of_book: Option<ItemId>,
        until: Option<jiff::civil::Date>,
    ) {
        let entry = self.entry();
        self.machine.documents.push(KeptDocument {
            entry,
            at: hours_ago(900),
            document: Document {
                what,
                title: title.to_owned(),
                number: None,
                from: None,
                until,
                kept: None,
                note: None,
                of_book,
                renews: None,
                photos: Vec::new(),
            },
            ended: None,
        });
    }
}
