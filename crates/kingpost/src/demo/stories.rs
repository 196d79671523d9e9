//! What happens to the other machines, and to Marigold before her last three months: what goes wrong, and what is told besides.

use super::{
    calendar::Day,
    cast::Cast,
    fleet::{self, Member},
    hung,
    pen::{Pen, hours, written},
    shift::Asides,
    tale::{Mending, Slack, Tale, Twist, twist},
};
use jiff::Span;
use store::StoreError;
use yard::{
    book::{LeakClass, Severity},
    entry::{
        Answer, Arrival, ArrivalStep, Body, BoltState, ClipState, Document, DocumentEnded,
        DocumentKind, Fault, FluidNow, GapAccepted, HoseState, LeftHow, LeftYard, LookState,
        MeterBroken, MeterChange, Note, PartFitted, Repair, RoundPurpose, Ruling, RulingSays,
        ShelfCount, Told, TopUp,
    },
    id::{FaultRef, ItemId, PersonId, PointId},
};

/// What happens to a machine besides what its rounds find, and when, in hundredths of the way.
#[derive(Clone, Copy, Debug)]
enum Happening {
    /// The meter stands still.
    MeterStands,
    /// A new one is put in.
    NewMeter,
    /// The learner's saw meets a stone, and he tells of it.
    Stone,
    /// It came, and is taken in step by step.
    Came,
    /// Its fluids are changed, and it is taken in.
    TakenIn,
    /// What nobody knows yet is accepted for the first weeks.
    NotKnownYet,
    /// The grades are found out, and the book says them.
    NowKnown,
    /// An insurance paper that ends soon.
    Insured,
    /// What lies on the shelf is counted.
    Counted,
    /// A report of an examination.
    Examined,
    /// The maker warns of something, and it is put right.
    Recalled,
    /// The borer that two machines share comes to the yard.
    SharedCame,
    /// Said to whoever comes next.
    Said(&'static str),
}

/// The tale of a machine over so many days.
pub(crate) fn tale(member: &Member, of: usize) -> Tale {
    let slack = match member.id {
        fleet::MARIGOLD => Some(Slack::in_inches()),
        fleet::BRYONY => Some(Slack::in_millimetres()),
        _ => None,
    };
    Tale::new(of, twists(member, of), slack)
}

fn twists(member: &Member, of: usize) -> Vec<Twist> {
    let (start, after) = (RoundPurpose::Start, RoundPurpose::After);
    let one = |point, share, answer, seen, mended, how| {
        twist(of, point, &[(share, answer)], seen, mended, how)
    };
    let look = |state| Answer::Look(state);
    let loose = |how_many| Answer::Bolts {
        state: BoltState::Loose,
        how_many,
    };
    let tightened = Mending::Adjusting("Tightened crosswise, painted anew", None);
    match member.id {
        fleet::MARIGOLD => vec![
            one("frame-bolts-left", 28, loose(1), start, 28, tightened),
            one(
                "air-filter",
                61,
                look(LookState::Worn),
                start,
                63,
                Mending::Adjusting("Element tapped out", None),
            ),
        ],
        fleet::BRYONY => vec![
            one(
                "bucket-clips",
                22,
                Answer::PinClip(ClipState::Missing),
                start,
                22,
                Mending::Part("clip", "New clip, both ends bent"),
            ),
            one(
                "arm-hoses",
                66,
                Answer::Hose(HoseState::Rubbed),
                start,
                74,
                Mending::Part("arm-hose", "New hose with a sleeve where it rubbed"),
            ),
        ],
        fleet::TEASEL => vec![
            one(
                "top-link-clips",
                14,
                Answer::PinClip(ClipState::Loose),
                start,
                16,
                Mending::Part("linch-pin", "New linch pin on a cord"),
            ),
            twist(
                of,
                "loader-leak",
                &[
                    (54, Answer::Leak(Some(LeakClass::I))),
                    (72, Answer::Leak(Some(LeakClass::II))),
                ],
                start,
                80,
                Mending::Part(
                    "loader-hose",
                    "New hose at the left lift ram, wiped, watched for ten strokes",
                ),
            ),
        ],
        fleet::WREN => vec![one(
            "air-filter",
            33,
            look(LookState::Worn),
            start,
            35,
            Mending::Part("air-filter", "New filter, the old one washed for the shelf"),
        )],
        fleet::SORREL => vec![
            one(
                "axle-pin-rear-left",
                31,
                Answer::PinClip(ClipState::Missing),
                start,
                31,
                Mending::Part("split-pin", "New split pin through the axle nut"),
            ),
            one(
                "wet-spots",
                68,
                Answer::Leak(Some(LeakClass::I)),
                after,
                76,
                Mending::Adjusting("Drain plug with a new washer", None),
            ),
        ],
        fleet::EMBER => vec![one(
            "cables",
            0,
            look(LookState::Damaged),
            start,
            0,
            Mending::Part(
                "cable",
                "Crushed cable cut up and thrown away, new one on the drum",
            ),
        )],
        _ => Vec::new(),
    }
}

fn happenings(member: &Member) -> &'static [(usize, Happening)] {
    use Happening::*;
    match member.id {
        fleet::BRYONY => &[
            (
                10,
                Said("The left track gets slack sooner than the right: look at its adjuster"),
            ),
            (44, Examined),
            (52, Recalled),
            (60, SharedCame),
        ],
        fleet::TEASEL => &[
            (40, MeterStands),
            (46, NewMeter),
            (90, Insured),
            (95, Counted),
        ],
        fleet::WREN => &[
            (50, Stone),
            (70, Said("Chain oil: two fillings of it to three of fuel")),
        ],
        fleet::SORREL => &[(90, Said("A shepherd across the river asks for it"))],
        fleet::EMBER => &[(0, NotKnownYet), (0, Came), (12, TakenIn), (50, NowKnown)],
        _ => &[],
    }
}

/// A machine's story beside its tale.
pub(crate) struct Story<'a> {
    member: &'a Member,
}

impl<'a> Story<'a> {
    /// The story of this machine.
    pub(crate) fn of(member: &'a Member) -> Self {
        Self { member }
    }

    /// What ends it, after the last day: a machine that is sold goes.
    pub(crate) fn end(&self, pen: &mut Pen, cast: &Cast) -> Result<(), StoreError> {
        if self.member.id == fleet::SORREL {
            pen.pass(86_400);
            let left = LeftYard {
                how: LeftHow::Sold,
                on: None,
                to: Some("a shepherd across the river (invented)".to_owned()),
                hours: pen.shows(),
                note: Some("With its book and its history on paper".to_owned()),
            };
            pen.write(cast.odalys, Body::LeftYard(left))?;
        }
        Ok(())
    }

    fn happens(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        day: &Day,
        what: Happening,
    ) -> Result<(), StoreError> {
        let steward = cast.odalys;
        match what {
            Happening::MeterStands => {
                pen.tenths = None;
                let why = "Its glass is dark, the cable turns with nothing in it".to_owned();
                let broken = MeterBroken {
                    meter: None,
                    since: None,
                    why,
                };
                let about = pen.write(cast.of(day.who), Body::MeterBroken(broken))?;
                pen.pass(600);
                let ruling = Ruling {
                    about,
                    says: RulingSays::MeterBroken,
                    why: "Looked behind the dash: the cable is broken".to_owned(),
                };
                pen.write(steward, Body::Ruling(ruling))?;
            }
            Happening::NewMeter => {
                pen.tenths = Some(0);
                let change = MeterChange {
                    meter: None,
                    old_last: None,
                    new_first: hours(0),
                    unmetered: None,
                    why: "Second-hand cable and clock, set in by the deputy".to_owned(),
                };
                pen.write(cast.bram, Body::MeterChange(change))?;
            }
            Happening::Stone => stone(pen, cast)?,
            Happening::Came => came(pen, cast.bram)?,
            Happening::TakenIn => taken_in(pen, cast.bram, steward)?,
            Happening::NotKnownYet => not_known_yet(pen, steward)?,
            Happening::NowKnown => {
                let why = "Grades read on the cans that came after the first change";
                pen.adopt(steward, self.member.book(), why)?;
            }
            Happening::Insured => {
                let document = Document {
                    until: day.date.checked_add(Span::new().days(120)).ok(),
                    ..paper(
                        DocumentKind::Insurance,
                        "Insurance for the road (invented)",
                        None,
                    )
                };
                pen.write(steward, Body::Document(document))?;
            }
            Happening::Examined => {
                let of_book = ItemId::new("slinging-eye");
                let document = Document {
                    from: Some(day.date),
                    until: day.date.checked_add(Span::new().days(730)).ok(),
                    ..paper(
                        DocumentKind::TestReport,
                        "Report of the lifting eye (invented)",
                        of_book,
                    )
                };
                pen.write(steward, Body::Document(document))?;
            }
            Happening::Recalled => {
                let title = "Pin of the thumb lever may crack: change it (invented)";
                let recall = paper(DocumentKind::Recall, title, None);
                let of = pen.write(steward, Body::Document(recall))?;
                pen.pass(3600);
                let why = "New pin from the maker fitted by the deputy, the old one sent back";
                let why = why.to_owned();
                pen.write(steward, Body::DocumentEnded(DocumentEnded { of, why }))?;
            }
            Happening::SharedCame => hung::came(pen, cast)?,
            Happening::Counted => {
                for (part, count) in [("linch-pin", 3), ("fan-belt", 1), ("oil-filter", 0)] {
                    if let Some(part) = ItemId::new(part) {
                        pen.write(cast.bram, Body::ShelfCount(ShelfCount { part, count }))?;
                    }
                }
            }
            Happening::Said(text) => {
                let text = text.to_owned();
                pen.write(cast.of(day.who), Body::Note(Note { point: None, text }))?;
            }
        }
        Ok(())
    }
}

impl Asides for Story<'_> {
    fn before(
        &self,
        pen: &mut Pen,
        cast: &Cast,
        _: &mut Tale,
        day: &Day,
    ) -> Result<(), StoreError> {
        for (share, what) in happenings(self.member) {
            if day.is_at(*share) {
                self.happens(pen, cast, day, *what)?;
            }
        }
        if hung::is_day_of(self.member, day) {
            hung::put_on(pen, cast.of(day.who), day)?;
        }
        Ok(())
    }

    fn at_noon(&self, _: &mut Pen, _: &Cast, _: &Day, _: PersonId) -> Result<(), StoreError> {
        Ok(())
    }

    fn evening(&self, pen: &mut Pen, _: &Cast, day: &Day, by: PersonId) -> Result<(), StoreError> {
        if hung::is_day_of(self.member, day) {
            hung::take_off(pen, by)?;
        }
        let fluids = &pen.book().fluids;
        let fuel = fluids
            .iter()
            .find(|fluid| fluid.id.as_str().ends_with("fuel"));
        let Some(fluid) = fuel
            .map(|fluid| fluid.id.clone())
            .filter(|_| day.index % 3 == 1)
        else {
            return Ok(());
        };
        let litres = if self.member.tenths.is_some() {
            5 + pen.draw(12)
        } else {
            1
        };
        pen.write(
            by,
            Body::TopUp(TopUp {
                fluid: Some(fluid),
                added: written(&format!("{litres} L")),
                grade: None,
                mends: Vec::new(),
            }),
        )?;
        Ok(())
    }

    /// Phones came to the yard in the last months; before, rounds were walked with sheets.
    fn on_paper(&self, day: &Day) -> bool {
        day.index + 4 < day.of
    }

    fn evening_on_paper(&self, day: &Day) -> bool {
        self.on_paper(day)
    }

    fn tells_next(&self, _: &Day) -> Option<&'static str> {
        None
    }

    fn begins(&self, _: &Day) -> i8 {
        8
    }
}

/// A chain that met a stone; told by the learner himself, with the name left off, and mended the same morning.
fn stone(pen: &mut Pen, cast: &Cast) -> Result<(), StoreError> {
    let fault = Fault {
        point: PointId::new("chain-state"),
        what: "Let the nose touch the ground: the chain is blunt all round".to_owned(),
        severity: Severity::Care,
        told: Some(Told::Unnamed),
    };
    let entry = pen.write(cast.sefa, Body::Fault(fault))?;
    pen.pass(1800);
    let fitted = PartFitted {
        part: ItemId::new("chain"),
        what: "New chain".to_owned(),
        point: PointId::new("chain-state"),
        event: None,
        cost: Some("19.00 (invented)".to_owned()),
        count: None,
    };
    pen.write(cast.bram, Body::PartFitted(fitted))?;
    let repair = Repair {
        mends: vec![FaultRef { entry, point: None }],
        what: "New chain; the old one keeps for roots. Shown how to cut on a trestle".to_owned(),
        cost: None,
        event: None,
        cause: None,
    };
    pen.write(cast.bram, Body::Repair(repair))?;
    Ok(())
}

/// What the book does not say and safety does not hang on is accepted until it is found out.
fn not_known_yet(pen: &mut Pen, steward: PersonId) -> Result<(), StoreError> {
    let gaps = yard::book::gaps(pen.book());
    for gap in gaps.into_iter().filter(|gap| gap.id.starts_with("fluid-")) {
        let why = "Came without papers: oil changed on the first day, the can is kept".to_owned();
        pen.write(steward, Body::GapAccepted(GapAccepted { gap: gap.id, why }))?;
    }
    Ok(())
}

/// The first day: where it comes from, how it stops, its plates, both fluids drained and filled anew, nothing to grease.
fn came(pen: &mut Pen, deputy: PersonId) -> Result<(), StoreError> {
    let fluids: Vec<ItemId> = pen
        .book()
        .fluids
        .iter()
        .map(|fluid| fluid.id.clone())
        .collect();
    let told = [
        (
            ArrivalStep::Came,
            None,
            "From a house clearance, no papers (invented)",
        ),
        (
            ArrivalStep::Stop,
            None,
            "Switch and fuel tap tried, both stop it",
        ),
        (
            ArrivalStep::Plates,
            None,
            "invented-G-77 on the frame, 2013 under the tank",
        ),
        (
            ArrivalStep::FittingsFirst,
            Some(0),
            "None, nothing turns but the engine",
        ),
        (
            ArrivalStep::FittingsSecond,
            Some(0),
            "None under the panel either",
        ),
    ];
    for (step, count, says) in told {
        let says = Some(says.to_owned());
        pen.pass(300);
        pen.write(deputy, arrival(step, None, count, says))?;
    }
    for fluid in fluids {
        pen.pass(900);
        pen.write(
            deputy,
            arrival(ArrivalStep::Fluids, Some(fluid), None, None),
        )?;
    }
    Ok(())
}

/// Some days later: what its rounds told, and the end of it.
fn taken_in(pen: &mut Pen, deputy: PersonId, steward: PersonId) -> Result<(), StoreError> {
    let sides = "Nothing on it comes in pairs".to_owned();
    pen.write(deputy, arrival(ArrivalStep::Sides, None, None, Some(sides)))?;
    pen.pass(60);
    let says = "Runs clean; its grades are still to be found out".to_owned();
    pen.write(steward, arrival(ArrivalStep::Over, None, None, Some(says)))?;
    Ok(())
}

/// A step; a fluid named is one that was changed.
fn arrival(
    step: ArrivalStep,
    about: Option<ItemId>,
    count: Option<u32>,
    says: Option<String>,
) -> Body {
    Body::Arrival(Arrival {
        step,
        fluid: about.as_ref().map(|_| FluidNow::Changed),
        about,
        count,
        says,
    })
}

fn paper(what: DocumentKind, title: &str, of_book: Option<ItemId>) -> Document {
    Document {
        what,
        title: title.to_owned(),
        number: None,
        from: None,
        until: None,
        kept: Some("the blue folder in the office".to_owned()),
        note: None,
        of_book,
        renews: None,
        photos: Vec::new(),
    }
}
