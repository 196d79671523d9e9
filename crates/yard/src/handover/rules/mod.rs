//! The rules of the verdict, one file each, and the one list of them.
//!
//! A rule's file says what it looks for, why, from where it comes, and names the case that shows it. The sentences people
//! read are in `words`, under `rule-<id>`.

use super::{Context, Reason, Situation};

/// One rule: gives the reasons it finds, none where all is well.
#[derive(Clone, Copy, Debug)]
pub struct Rule {
    /// The rule's file name with dashes.
    pub id: &'static str,
    /// What it looks at.
    pub looks_at: LooksAt,
    /// Where it comes from.
    pub source: Source,
    /// The case in `cases/handover` that only this rule catches.
    pub example: &'static str,
    /// The rule itself.
    pub check: fn(&Situation, &Context) -> Vec<Reason>,
}

/// What a rule looks at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum LooksAt {
    /// What was found and is not closed.
    Findings,
    /// The round before this start.
    Round,
    /// How the machine was left.
    Handover,
    /// Who asks.
    Person,
    /// The book.
    Book,
    /// The journal itself: hours and entries in question.
    Journal,
}

/// Where a rule comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Source {
    /// The operator's check tables of army maintenance manuals.
    ArmyTables,
    /// A maker's own check.
    MakersCheck,
    /// An inquiry into an accident.
    Accident,
    /// The farm and trade press.
    TradePress,
    /// Common practice, no source.
    CommonPractice,
    /// How this book of the yard is meant to work.
    YardsOwn,
}

impl Source {
    /// The word of JSON and of the sentences' keys.
    pub fn code(self) -> &'static str {
        match self {
            Source::ArmyTables => "army-tables",
            Source::MakersCheck => "makers-check",
            Source::Accident => "accident",
            Source::TradePress => "trade-press",
            Source::CommonPractice => "common-practice",
            Source::YardsOwn => "yards-own",
        }
    }
}

macro_rules! rules {
    ($($file:ident)*) => {
        $(mod $file;)*
        /// Every rule, one for each file of the folder, findings first. Their order says nothing of their weight.
        pub const RULES: &[Rule] = &[$($file::RULE,)*];
        #[cfg(test)]
        const LISTED: &[&str] = &[$(stringify!($file),)*];
    };
}

rules! {
    pin_clip brakes steering seat_belt guards locks coupling shock crack hose fuel_leak brake_fluid_leak leak oil_looks empty_stick level
    oil_pressure crank switch_bypassed levers wheel_bolts bolts function look refused_grease measure_outside fault
    stood_down not_released still_open
    not_walked other_persons_round round_expired handed_over_since released_since_round book_changed
    not_answered could_not_check level_not_comparable
    measure_not_comparable too_close crank_not_tried in_question
    left_running left_not_at_rest not_handed_over
    may_not_run not_signed_off in_sight_only
    no_book no_stop gap joint_without_fitting not_seen_at_joint
    not_reaching one_sided
    hours_in_question unread unsettled
    left_yard attachment needed_document open_recall level_attachment
    unknown_fluid
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn list_and_folder_hold_the_same_rules() {
        let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/handover/rules");
        let files: BTreeSet<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|file| file.unwrap().file_name().into_string().unwrap())
            .filter_map(|name| name.strip_suffix(".rs").map(str::to_owned))
            .filter(|name| name != "mod")
            .collect();
        assert_eq!(
            files,
            LISTED.iter().map(|name| (*name).to_owned()).collect()
        );
        let ids: Vec<String> = RULES.iter().map(|rule| rule.id.replace('-', "_")).collect();
        assert_eq!(ids, LISTED);
    }
}
