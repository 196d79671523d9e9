//! Parts, the shelf, shopping, documents, in words: for pages, papers and the command line alike.

use crate::{Names, Words};
use jiff::civil::Date;
use yard::{
    book::{AttachmentTaken, Fastener, Hose, Instead, Part, PartKind, PartWord},
    handover::Able,
    state::{KeptDocument, OnShelf, Standing},
    upkeep::ToBuy,
};

impl Words {
    /// What is printed on a part or its box, and how it is put in: pieces to be set in a row.
    pub fn part_details(&self, part: &Part) -> Vec<String> {
        let word = Some(part.kind.word()).filter(|word| *word != PartWord::Other);
        let mut said: Vec<String> = word.iter().map(|word| self.name(*word)).collect();
        let number = part.number.as_deref();
        said.extend(number.map(|number| self.say("part-number", &[("number", number.into())])));
        said.extend(part.size.clone());
        match &part.kind {
            PartKind::Hose(hose) => said.extend(self.hose(hose)),
            PartKind::Fastener(fastener) => said.extend(self.fastener(fastener)),
            PartKind::Bulb(bulb) => {
                let printed = [&bulb.volts, &bulb.watts].into_iter().flatten();
                said.extend(printed.map(|value| value.text().to_owned()));
                let socket = bulb.socket.as_deref();
                said.extend(socket.map(|text| self.say("part-socket", &[("text", text.into())])));
            }
            PartKind::Tyre { pressure } => said.extend(
                pressure
                    .iter()
                    .map(|value| self.say("part-pressure", &[("value", value.text().into())])),
            ),
            PartKind::Plain(_) => {}
        }
        said
    }

    fn hose(&self, hose: &Hose) -> Vec<String> {
        let mut said = Vec::new();
        if !hose.ends.is_empty() {
            said.push(self.say("part-ends", &[("text", self.list(&hose.ends).into())]));
        }
        let length = hose.length.iter();
        said.extend(length.map(|value| self.say("part-length", &[("value", value.text().into())])));
        let route = hose.route.as_deref();
        said.extend(route.map(|text| self.say("part-route", &[("text", text.into())])));
        said
    }

    fn fastener(&self, fastener: &Fastener) -> Vec<String> {
        let mut said: Vec<String> = fastener.thread.iter().cloned().collect();
        let grade = fastener.grade.as_deref();
        said.extend(grade.map(|grade| self.say("part-grade", &[("grade", grade.into())])));
        said.extend(fastener.torque.iter().map(|torque| {
            let torque = ("torque", torque.text().into());
            match fastener.then.as_deref() {
                Some(then) => self.say("part-torque-then", &[torque, ("text", then.into())]),
                None => self.say("part-torque", &[torque]),
            }
        }));
        said.extend(fastener.put_in.map(|put_in| self.name(put_in)));
        said
    }

    /// How many the machine has, how many lie on the shelf, how many should.
    pub fn part_counts(&self, part: &Part, shelf: Option<&OnShelf>) -> Vec<String> {
        // One is what a book means that says nothing: it is not worth a word.
        let several = (part.count > 1).then_some(part.count);
        let several = several.map(|n| self.say("part-on-machine", &[("n", n.into())]));
        let mut said: Vec<String> = several.into_iter().collect();
        said.extend(shelf.map(|shelf| {
            let key = if shelf.short {
                "part-on-shelf-doubted"
            } else {
                "part-on-shelf"
            };
            self.say(key, &[("n", shelf.count.into())])
        }));
        said.extend(
            part.keep
                .map(|keep| self.say("part-keep", &[("n", keep.into())])),
        );
        said
    }

    /// Somebody who may run a machine, with what the sign-off says of it.
    pub fn able(&self, able: &Able, name: &str) -> String {
        let name = ("name", name.into());
        match (able.in_sight, &able.limits) {
            (false, None) => self.say("paper-wall-alone", &[name]),
            (true, None) => self.say("paper-wall-in-sight", &[name]),
            (false, Some(limits)) => self.say(
                "paper-wall-limits",
                &[name, ("limits", limits.as_str().into())],
            ),
            (true, Some(limits)) => self.say(
                "paper-wall-in-sight-limits",
                &[name, ("limits", limits.as_str().into())],
            ),
        }
    }

    /// What fits instead, with who said so and when.
    pub fn part_instead(&self, instead: &Instead) -> String {
        let mut args = vec![
            ("what", instead.what.as_str().into()),
            ("name", instead.said_by.as_str().into()),
            ("date", self.date(instead.on).into()),
        ];
        match &instead.number {
            Some(number) => {
                args.push(("number", number.into()));
                self.say("part-instead-number", &args)
            }
            None => self.say("part-instead", &args),
        }
    }

    /// Why a part is on the shopping list.
    pub fn to_buy_why(&self, line: &ToBuy, part: &Part, names: &dyn Names) -> Vec<String> {
        let mut said = Vec::new();
        if !line.due.is_empty() {
            let points: Vec<String> = line
                .due
                .iter()
                .map(|point| self.point(point, names))
                .collect();
            said.push(self.say("shopping-due", &[("points", self.list(&points).into())]));
        }
        match (line.have, part.keep.filter(|_| line.low)) {
            (None, _) => said.push(self.text("shopping-not-counted")),
            (Some(have), Some(keep)) => said.push(self.say(
                "shopping-low",
                &[("have", have.into()), ("keep", keep.into())],
            )),
            (Some(have), None) => {
                said.push(self.say("part-on-shelf", &[("n", have.into())]));
            }
        }
        said
    }

    /// A line of the shopping list without its reasons.
    pub fn to_buy(&self, line: &ToBuy, part: &Part) -> String {
        let args = [("n", line.buy.into()), ("what", part.what.as_str().into())];
        self.say("shopping-line", &args)
    }

    /// How an attachment locks.
    pub fn attachment_locks(&self, taken: &AttachmentTaken, name: &str) -> String {
        let args = [("name", name.into()), ("how", taken.locks.as_str().into())];
        self.say("attachment-locks", &args)
    }

    /// How a document stands on a day, in a line.
    pub fn standing(&self, kept: &KeptDocument, today: Date) -> String {
        let date = |date: Option<Date>| match date {
            Some(date) => self.date(date),
            None => String::new(),
        };
        let (from, until) = (kept.document.from, kept.document.until);
        match kept.standing(today) {
            Standing::Open => self.text("standing-open"),
            Standing::Expired => self.say("standing-expired", &[("date", date(until).into())]),
            Standing::EndsSoon => self.say("standing-ends-soon", &[("date", date(until).into())]),
            Standing::NotYet => self.say("standing-not-yet", &[("date", date(from).into())]),
            Standing::Holds if until.is_some() => {
                self.say("standing-holds-until", &[("date", date(until).into())])
            }
            Standing::Holds => self.text("standing-holds"),
            Standing::Ended => match &kept.ended {
                Some((_, Some(why))) => self.say("standing-ended", &[("why", why.as_str().into())]),
                _ => self.text("standing-renewed"),
            },
        }
    }
}
