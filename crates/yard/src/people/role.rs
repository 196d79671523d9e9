//! The five kinds of people a yard knows.

/// What somebody is in the yard. Given by a journal entry, so that "entitled at that time" can be answered later.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Looks only: an insurer, an inspector, a parent.
    Visitor,
    /// Runs a machine with the steward in sight.
    Learner,
    /// Signed off on some machines.
    Operator,
    /// Stands in for the steward.
    Deputy,
    /// Looks after all machines, teaches, and answers for both.
    Steward,
}

/// All roles, least entitled first.
pub const ROLES: [Role; 5] = [
    Role::Visitor,
    Role::Learner,
    Role::Operator,
    Role::Deputy,
    Role::Steward,
];

impl Role {
    /// The word of the journal, the command line and the addresses.
    pub fn code(self) -> &'static str {
        match self {
            Role::Visitor => "visitor",
            Role::Learner => "learner",
            Role::Operator => "operator",
            Role::Deputy => "deputy",
            Role::Steward => "steward",
        }
    }
    /// The role with this code.
    pub fn from_code(code: &str) -> Option<Self> {
        ROLES.into_iter().find(|role| role.code() == code)
    }
    /// Whether this role may release machines and settle questions.
    pub fn leads(self) -> bool {
        self >= Role::Deputy
    }
}
