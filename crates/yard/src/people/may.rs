//! The one table of what each role may do. Pages, commands, the folds and the printed document all ask here.

use super::Role;

macro_rules! deeds {
    ($($(#[$doc:meta])* $name:ident $code:literal from $least:ident;)*) => {
        /// Something a person may or may not do.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Deed { $($(#[$doc])* $name,)* }
        /// All deeds, in the order of the table.
        pub const DEEDS: &[Deed] = &[$(Deed::$name,)*];
        impl Deed {
            /// The word used in documents and messages' keys.
            pub fn code(self) -> &'static str {
                match self { $(Deed::$name => $code,)* }
            }
            /// The least entitled role that may.
            fn least(self) -> Role {
                match self { $(Deed::$name => Role::$least,)* }
            }
        }
    };
}

deeds! {
    /// See machines, verdicts, history, books and papers.
    Look "look" from Visitor;
    /// Walk a machine round and answer its points.
    WalkRound "walk-round" from Learner;
    /// Report a fault.
    ReportFault "report-fault" from Learner;
    /// Stand a machine down: anybody who works here may stop a machine.
    StandDown "stand-down" from Learner;
    /// Write a run (a learner's needs the steward in sight; the verdict says so).
    Run "run" from Learner;
    /// Hand a machine over.
    HandOver "hand-over" from Learner;
    /// Write a note or keep a photo.
    Note "note" from Learner;
    /// Read the hour meter.
    ReadMeter "read-meter" from Learner;
    /// Grease, top up, adjust.
    Service "service" from Learner;
    /// Correct an entry of one's own.
    CorrectOwn "correct-own" from Learner;
    /// Write a repair or a part fitted, count the shelf, put an attachment on or take it off.
    Repair "repair" from Operator;
    /// Correct anybody's entry.
    CorrectAny "correct-any" from Deputy;
    /// Release a machine that was stood down, naming what was mended.
    Release "release" from Deputy;
    /// Permit moving a stood-down machine.
    PermitMove "permit-move" from Deputy;
    /// Settle a question (a meter that jumped, a body that does not read).
    Settle "settle" from Deputy;
    /// Take in filled paper sheets for others.
    TakeInPaper "take-in-paper" from Deputy;
    /// Say who may run what; record lessons and purchases.
    SignOff "sign-off" from Deputy;
    /// Keep documents that no machine needs to run.
    KeepDocuments "keep-documents" from Deputy;
    /// Take in a machine that came to the yard.
    Arrive "take-in-machine" from Deputy;
    /// Adopt a machine book or accept a gap in it.
    AdoptBook "adopt-book" from Steward;
    /// See signs of rounds not walked: told to the steward alone.
    SeeSigns "see-signs" from Steward;
    /// Keep a document that a machine needs to run; end a document, answer a recall.
    NeededDocuments "needed-documents" from Steward;
    /// Let a machine go from the yard, or take it back.
    LetGo "let-go" from Steward;
    /// Give and take roles, set PINs.
    ManagePeople "manage-people" from Steward;
    /// Back up, restore, export, set the yard's habits.
    KeepYard "keep-yard" from Steward;
}

/// Whether `role` may do `deed`.
pub fn may(role: Role, deed: Deed) -> bool {
    role >= deed.least()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Row by row: deed, then visitor, learner, operator, deputy, steward. Written out, so that a change shows.
    const TABLE: &str = "
        look          y y y y y
        walk-round    - y y y y
        report-fault  - y y y y
        stand-down    - y y y y
        run           - y y y y
        hand-over     - y y y y
        note          - y y y y
        read-meter    - y y y y
        service       - y y y y
        correct-own   - y y y y
        repair        - - y y y
        correct-any   - - - y y
        release       - - - y y
        permit-move   - - - y y
        settle        - - - y y
        take-in-paper - - - y y
        sign-off      - - - y y
        keep-documents - - - y y
        take-in-machine - - - y y
        adopt-book    - - - - y
        see-signs     - - - - y
        needed-documents - - - - y
        let-go        - - - - y
        manage-people - - - - y
        keep-yard     - - - - y";

    #[test]
    fn the_table_holds_row_by_row() {
        let rows: Vec<Vec<&str>> = TABLE
            .lines()
            .map(|l| l.split_whitespace().collect::<Vec<_>>())
            .filter(|r| !r.is_empty())
            .collect();
        assert_eq!(rows.len(), DEEDS.len());
        for (row, deed) in rows.iter().zip(DEEDS) {
            assert_eq!(row[0], deed.code());
            for (cell, role) in row[1..].iter().zip(super::super::ROLES) {
                assert_eq!(*cell == "y", may(role, *deed), "{role:?} {deed:?}");
            }
        }
    }
}
