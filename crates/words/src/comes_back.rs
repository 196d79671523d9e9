//! What comes back, in words: how long it held, what was done, what it cost.

use crate::{Arg, Names, Words};
use quantity::{Exact, format_exact};
use yard::{
    entry::Cause,
    upkeep::{Costs, Cure, OneSided},
    walkround::TwinAsk,
};

impl Words {
    /// How long each repair held: "34.2 h, 10 days and 16.8 h, 20 days".
    pub fn held(&self, hours: &[Option<Exact>], days: &[i64]) -> String {
        let one = |(hours, days): (&Option<Exact>, &i64)| match hours {
            Some(hours) => self.say(
                "comes-back-span",
                &[
                    ("hours", self.hours_number(hours).into()),
                    ("days", (*days).into()),
                ],
            ),
            None => self.say("comes-back-span-days", &[("days", (*days).into())]),
        };
        let spans: Vec<String> = hours.iter().zip(days).map(one).collect();
        self.say("comes-back-held", &[("held", spans.join("; ").into())])
    }

    /// What it cost, a line each: the sums, what is in none, and what stands in several.
    pub fn costs(&self, costs: &Costs) -> Vec<String> {
        let money = |(currency, sum): (&String, &Exact)| {
            let sum = money(sum);
            if currency.is_empty() {
                sum
            } else {
                format!("{sum} {currency}")
            }
        };
        let sums: Vec<String> = costs.sums.iter().map(money).collect();
        let mut lines = match (sums.is_empty(), costs.unread.is_empty()) {
            (false, _) => vec![self.say("comes-back-cost", &[("cost", self.list(&sums).into())])],
            (true, true) => vec![self.text("comes-back-cost-none")],
            (true, false) => Vec::new(),
        };
        if !costs.unread.is_empty() {
            let unread = self.list(&costs.unread);
            lines.push(self.say("comes-back-cost-unread", &[("what", unread.into())]));
        }
        if costs.shared > 0 {
            lines.push(self.say("comes-back-cost-shared", &[("n", costs.shared.into())]));
        }
        lines
    }

    /// What was done about one failure, with its cause where it was said.
    pub fn cure(&self, cure: &Cure, names: &dyn Names) -> String {
        let when = self.moment(cure.at, names.now(), names.zone());
        let args = [
            ("when", Arg::from(when)),
            ("what", cure.what.as_str().into()),
        ];
        let done = self.say("comes-back-cure", &args);
        match cure.cause.as_ref().map(|cause| self.cause(cause)) {
            Some(cause) => format!("{done}. {cause}"),
            None => done,
        }
    }

    /// A cause, or why there is none.
    pub fn cause(&self, cause: &Cause) -> String {
        let (key, why) = match cause {
            Cause::Found(why) => ("comes-back-cause", why),
            Cause::NotFound(why) => ("comes-back-cause-not-found", why),
        };
        self.say(key, &[("why", why.as_str().into())])
    }

    /// That the next round asks the other side.
    pub fn twin_ask(&self, ask: &TwinAsk, names: &dyn Names) -> String {
        self.say(
            "comes-back-twin",
            &[
                ("point", self.point(&ask.point, names).into()),
                ("other", self.point(&ask.of, names).into()),
            ],
        )
    }

    /// That one side is adjusted again and again.
    pub fn one_sided(&self, sided: &OneSided, names: &dyn Names) -> String {
        self.say(
            "reason-one-sided",
            &[
                ("point", self.point(&sided.point, names).into()),
                ("other", self.point(&sided.twin, names).into()),
                ("n", sided.times.into()),
            ],
        )
    }
}

/// Money with two places, or none where it is whole. It was written with two at most, so that nothing is rounded.
fn money(sum: &Exact) -> String {
    let places = if sum.is_whole() { 0 } else { 2 };
    format_exact(sum, places)
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn spans_and_sums_are_said() {
        let words = Words::english();
        let held = words.held(&[Exact::parse("34.2"), None], &[10, 1]);
        assert_eq!(held, "Held: 34.2 h in 10 days; one day, hours not known.");
        let costs = Costs {
            sums: BTreeMap::from([
                ("EUR".to_owned(), Exact::parse("12.5").unwrap()),
                (String::new(), Exact::from(8)),
            ]),
            unread: vec!["about 40".into()],
            shared: 1,
        };
        assert_eq!(
            words.costs(&costs),
            [
                "Cost: 8 and 12.50 EUR.",
                "Not in the sum, because it does not read as one amount: about 40.",
                "One of these repairs also mended something else. Its whole cost is counted here.",
            ]
        );
        assert_eq!(
            words.costs(&Costs::default()),
            ["Cost: nobody wrote any down."]
        );
    }
}
