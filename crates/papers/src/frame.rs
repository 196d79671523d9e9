//! What stands on every paper: title, machine, how to stop the engine, book, page numbers, ruler, cautions.

use crate::{PaperError, PaperSize, Sheet, qr};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use words::Arg;

/// Stand for the page's number and the number of pages until the typesetter knows them.
const PAGE: &str = "\u{2460}";
const PAGES: &str = "\u{2461}";

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
        let (language, region) = self
            .words
            .language()
            .split_once('-')
            .unwrap_or((self.words.language(), ""));
        let today = self.now.to_zoned_datetime(self.zone.clone());
        let machine = &self.book.machine;
        let page = self
            .words
            .say("paper-page", &[("n", PAGE.into()), ("of", PAGES.into())]);
        json!({
            "title": title,
            "language": language,
            "region": region,
            "date": [today.year(), today.month(), today.day()],
            "letter": self.size == PaperSize::Letter,
            "machine": machine.name,
            "kind": machine.kind,
            "book": self.book_date(),
            "invented": machine.invented.then(|| self.t("paper-invented")),
            "stop": self.stop(),
            "page": page,
            "page-marks": [PAGE, PAGES],
            "printed": self.t1("paper-printed", "at", self.words.date(today.date())),
            "ruler": self.t("paper-ruler"),
            "cautions": cautions.iter().map(|key| self.t(key)).collect::<Vec<_>>(),
        })
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
            None => (self.t("paper-stop-unknown"), None),
        };
        json!({ "label": self.t("paper-stop"), "how": how, "then": then })
    }
}
