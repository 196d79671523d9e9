//! Roles, deeds, and the table of who may do what.

use crate::{Told, Words};
use yard::people::{DEEDS, Deed, ROLES, Role, may};

impl Words {
    /// That a role may not do something, and whom to ask.
    pub fn may_not(&self, role: Role, deed: Deed) -> Told {
        let who = if may(Role::Deputy, deed) {
            Role::Deputy
        } else {
            Role::Steward
        };
        self.told(
            "may-not",
            &[
                (
                    "role",
                    self.text(&format!("role-{}.one", role.code())).into(),
                ),
                ("deed", self.name(deed).into()),
                ("who", who.code().into()),
            ],
        )
    }

    /// The table of what each role may do, as Markdown: the whole of `docs/permissions.md`.
    pub fn permissions(&self) -> String {
        let roles: Vec<String> = ROLES.iter().map(|role| self.name(*role)).collect();
        let mut page = format!(
            "# {}\n\n{}\n\n",
            self.text("permissions-title"),
            self.text("permissions-intro")
        );
        for role in ROLES {
            page += &format!(
                "- **{}**: {}\n",
                self.name(role),
                self.text(&format!("role-{}.is", role.code()))
            );
        }
        page += &format!(
            "\n| {} | {} |\n|---{}|\n",
            self.text("permissions-deed"),
            roles.join(" | "),
            "|---".repeat(roles.len())
        );
        for deed in DEEDS {
            page += &self.permission_row(*deed);
        }
        page + &format!(
            "\n{}\n{}\n",
            self.text("permissions-note-run"),
            self.text("permissions-note-stop")
        )
    }

    fn permission_row(&self, deed: Deed) -> String {
        let cells = ROLES.map(|role| {
            self.text(if may(role, deed) {
                "permissions-yes"
            } else {
                "permissions-no"
            })
        });
        format!("| {} | {} |\n", self.name(deed), cells.join(" | "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_refusal_names_the_deed_and_whom_to_ask() {
        let told = Words::english().may_not(Role::Learner, Deed::Release);
        assert_eq!(
            told.what,
            "A learner may not release a machine, naming what was mended."
        );
        assert_eq!(told.next, "Ask the steward or the deputy.");
        let told = Words::english().may_not(Role::Operator, Deed::ManagePeople);
        assert_eq!(
            (told.what.as_str(), told.next.as_str()),
            (
                "An operator may not give and take roles, set PINs.",
                "Ask the steward: nobody else may."
            )
        );
    }

    #[test]
    fn the_table_of_permissions() {
        insta::assert_snapshot!(Words::english().permissions());
    }
}
