//! What every page carries: words, the yard, who is signed in, the clock.

use std::sync::Arc;
use words::{Arg, Words};
use yard::people::{Deed, Role, may};

/// The frame of a page.
#[derive(Clone)]
pub(crate) struct Page {
    /// Sentences.
    pub(crate) words: Arc<Words>,
    /// The yard's short tag in addresses; empty before a yard is chosen.
    pub(crate) tag: String,
    /// Whether anything shown is invented.
    pub(crate) invented: bool,
    /// Who is signed in; empty for nobody.
    pub person_name: String,
    /// Their role.
    pub(crate) role: Role,
    /// Whether they are signed in on a device of several people.
    pub(crate) shared: bool,
    /// Whether the yard is served over HTTPS.
    pub(crate) https: bool,
    /// The time shown in the corner.
    pub(crate) time: String,
}

impl Page {
    /// A sentence without arguments.
    pub(crate) fn t(&self, key: &str) -> String {
        self.words.say(key, &[])
    }
    /// A sentence with one argument.
    pub(crate) fn t1(&self, key: &str, name: &str, value: &str) -> String {
        self.words.say(key, &[(name, Arg::from(value))])
    }
    /// A sentence with two arguments.
    pub(crate) fn t2(
        &self,
        key: &str,
        a: &str,
        x: impl ToString,
        b: &str,
        y: impl ToString,
    ) -> String {
        self.words.say(
            key,
            &[(a, Arg::from(x.to_string())), (b, Arg::from(y.to_string()))],
        )
    }
    /// A sentence with four arguments.
    #[expect(
        clippy::too_many_arguments,
        reason = "templates name each argument beside its value"
    )]
    pub(crate) fn t4(
        &self,
        key: &str,
        a: &str,
        w: impl ToString,
        b: &str,
        x: impl ToString,
        c: &str,
        y: impl ToString,
        d: &str,
        z: impl ToString,
    ) -> String {
        let text = |v: String| Arg::from(v);
        self.words.say(
            key,
            &[
                (a, text(w.to_string())),
                (b, text(x.to_string())),
                (c, text(y.to_string())),
                (d, text(z.to_string())),
            ],
        )
    }
    /// A sentence with a count, for plural forms.
    pub(crate) fn tn(
        &self,
        key: &str,
        name: &str,
        count: impl std::borrow::Borrow<usize>,
    ) -> String {
        self.words.say(key, &[(name, Arg::from(*count.borrow()))])
    }
    /// Address of the yard.
    pub(crate) fn home(&self) -> String {
        format!("/y/{}", self.tag)
    }
    /// Address of a static file, with its content's mark for caching.
    pub(crate) fn static_file(&self, name: &str) -> String {
        crate::assets::address(name)
    }
    /// The mark of all scripts, for the worker.
    pub(crate) fn scripts_mark(&self) -> String {
        crate::assets::scripts_mark()
    }
    /// What the script of every page says, as JSON.
    pub(crate) fn phone_words(&self) -> String {
        crate::pages::pocket::of_every_page(self)
    }
    /// Language of the page.
    pub(crate) fn lang(&self) -> &str {
        self.words.language()
    }
    /// The time in the corner.
    pub(crate) fn clock(&self) -> &str {
        &self.time
    }
    /// The role in words.
    pub(crate) fn role_word(&self) -> String {
        self.t(&format!("role-{}", self.role.code()))
    }
    /// Whether steward or deputy is signed in.
    pub(crate) fn role_leads(&self) -> bool {
        !self.person_name.is_empty() && self.role.leads()
    }
    /// Whether somebody is signed in who may write repairs.
    pub(crate) fn role_repairs(&self) -> bool {
        !self.person_name.is_empty() && may(self.role, Deed::Repair)
    }
    /// Whether the steward is signed in.
    pub(crate) fn role_is_steward(&self) -> bool {
        !self.person_name.is_empty() && self.role == Role::Steward
    }
}
