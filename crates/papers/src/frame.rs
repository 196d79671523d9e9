//! What stands on every paper: title, machine, how to stop the engine, book, page numbers, ruler, cautions.

use crate::{PaperError, PaperSize, Sheet, qr};
use jiff::{Timestamp, tz::TimeZone};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::{Arg, Words};
use yard::book::Without;

/// Stand for the page's number and the number of pages until the typesetter knows them.
const PAGE: &str = "\u{2460}";
const PAGES: &str = "\u{2461}";

/// What stands on every paper whatever it is about: language, date, size, page numbers, ruler.
pub(crate) fn frame_of(
    words: &Words,
    size: PaperSize,
    now: Timestamp,
    zone: &TimeZone,
) -> BTreeMap<&'static str, Value> {
    let language = words.language();
    let (language, region) = language.split_once('-').unwrap_or((language, ""));
    let today = now.to_zoned_datetime(zone.clone()).date();
    let page = words.say("paper-page", &[("n", PAGE.into()), ("of", PAGES.into())]);
    let printed = words.say("paper-printed", &[("at", words.date(today).into())]);
    BTreeMap::from([
        ("language", language.into()),
        ("region", region.into()),
        ("date", json!([today.year(), today.month(), today.day()])),
        ("letter", (size == PaperSize::Letter).into()),
        ("page", page.into()),
        ("page-marks", json!([PAGE, PAGES])),
        ("printed", printed.into()),
        ("ruler", words.text("paper-ruler").into()),
    ])
}

impl Sheet<'_> {
    /// The sentence under a key.
    pub(crate) fn t(&self, key: &str) -> String {
        self.words.text(key)
    }

    /// The sentence under a key, one argument.
    pub(crate) fn t1<'a>(&self, key: &str, name: &'a str, value: impl Into<Arg<'a>>) -> String {
        self.words.say(key, &[(name, value.into())])
    }

    /// What the shared markup needs; `title` is the document's.
    pub(crate) fn frame(&self, title: &str, cautions: &[&str]) -> Value {
        let machine = &self.book.machine;
        let cautions = self.words.cautions(cautions, self.book);
        let mut frame = frame_of(self.words, self.size, self.now, self.zone);
        frame.extend([
            ("title", title.into()),
            ("machine", machine.name.as_str().into()),
            ("kind", machine.kind.as_str().into()),
            ("book", self.book_date().into()),
            (
                "invented",
                machine.invented.then(|| self.t("paper-invented")).into(),
            ),
            ("stop", self.stop()),
            ("cautions", cautions.into()),
        ]);
        json!(frame)
    }

    /// The square code of an address as picture `qr.svg`, with what the markup needs to place it; `says`: the words under it.
    pub(crate) fn code(
        &self,
        address: &str,
        says: &str,
        pictures: &mut BTreeMap<&'static str, String>,
    ) -> Result<Value, PaperError> {
        let (svg, share) = qr::square(address)?;
        pictures.insert("qr.svg", svg);
        Ok(
            json!({ "share": share, "alt": self.t1("paper-qr-alt", "value", address), "says": self.t(says) }),
        )
    }

    fn book_date(&self) -> String {
        match self.since {
            Some(since) => {
                let date = since.to_zoned_datetime(self.zone.clone()).date();
                self.t1("paper-book", "date", self.words.date(date))
            }
            None => self.t("paper-book-draft"),
        }
    }

    fn stop(&self) -> Value {
        let (how, then) = match &self.book.stop {
            Some(stop) => (stop.how.clone(), stop.then.clone()),
            None if self.book.lacks(Without::Engine) => (self.t("paper-stop-no-engine"), None),
            None => (self.t("paper-stop-unknown"), None),
        };
        json!({ "label": self.t("paper-stop"), "how": how, "then": then })
    }
}
