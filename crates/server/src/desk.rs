//! One request's desk: who stands at it, what the journal says now, and how an answer is rendered.

use crate::{
    app::{App, View},
    caller::Caller,
    page::Page,
    pages::lines::{LinesPage, Section},
    refusal::Refusal,
    session::SignedIn,
};
use askama::Template;
use axum::{
    http::header,
    response::{Html, IntoResponse, Redirect, Response},
};
use jiff::{Timestamp, tz::TimeZone};
use std::sync::Arc;
use yard::{
    book::Book,
    handover::{Judgement, Situation, judge},
    id::{DeviceId, EntryId, MachineId, PersonId},
    people::{Deed, Role, may},
    state::MachineState,
};

/// What a page function works with. All of it is synchronous; requests run it on a blocking thread.
pub(crate) struct Desk {
    /// The server.
    pub(crate) app: Arc<App>,
    /// The journal folded.
    pub(crate) view: Arc<View>,
    /// Who is signed in.
    pub(crate) person: Option<PersonId>,
    /// Their sign-in in a browser.
    pub(crate) signed: Option<SignedIn>,
    /// Where the request comes from.
    pub(crate) caller: Caller,
    /// Their role now; visitor for nobody.
    pub(crate) role: Role,
    /// The time of this request.
    pub(crate) now: Timestamp,
    /// The yard's zone.
    pub(crate) zone: TimeZone,
    /// Path asked for, to come back to after signing in.
    pub(crate) path: String,
}

/// An answer: a page, a redirect or a file.
pub(crate) type Answer = Result<Response, Refusal>;

impl Desk {
    /// Sets up the desk for a request.
    pub(crate) fn set_up(
        app: Arc<App>,
        person: Option<PersonId>,
        path: String,
    ) -> Result<Self, Refusal> {
        let view = app.view()?;
        let now = app.world.now();
        let role = person.map_or(Role::Visitor, |person| view.yard.role_at(person, now));
        let zone = app.world.zone();
        Ok(Self {
            app,
            view,
            person,
            signed: None,
            caller: Caller::default(),
            role,
            now,
            zone,
            path,
        })
    }

    /// The same desk, for a request from there.
    pub(crate) fn asked_by(self, caller: Caller, signed: Option<SignedIn>) -> Self {
        Self {
            caller,
            signed,
            ..self
        }
    }

    /// The same desk, with the journal as it is by now.
    pub(crate) fn again(&self) -> Result<Self, Refusal> {
        let desk = Self::set_up(self.app.clone(), self.person, self.path.clone())?;
        Ok(desk.asked_by(self.caller.clone(), self.signed.clone()))
    }

    /// The page frame.
    pub(crate) fn page(&self) -> Page {
        Page {
            shared: self.signed.as_ref().is_some_and(|signed| signed.shared),
            ..self.app.page(&self.view, self.person, self.role)
        }
    }

    /// The person signed in, or the way to the sign-in page.
    pub(crate) fn signed_in(&self) -> Result<PersonId, Refusal> {
        self.person.ok_or_else(|| Refusal::SignIn {
            at: format!(
                "/y/{}/sign-in?back={}",
                self.app.tag(),
                crate::session::encode(&self.path)
            ),
        })
    }

    /// The person signed in, if they may do this.
    pub(crate) fn may(&self, deed: Deed) -> Result<PersonId, Refusal> {
        let person = self.signed_in()?;
        if may(self.role, deed) {
            Ok(person)
        } else {
            Err(Refusal::MayNot(deed.code()))
        }
    }

    /// A machine by its id in the address.
    pub(crate) fn machine(&self, id: &str) -> Result<(MachineId, &MachineState), Refusal> {
        let id = MachineId::new(id).ok_or(Refusal::NotFound)?;
        let state = self.view.machines.get(&id).ok_or(Refusal::NotFound)?;
        Ok((id, state))
    }

    /// A machine with its book in force.
    pub(crate) fn machine_and_book(
        &self,
        id: &str,
    ) -> Result<(MachineId, &MachineState, &Book), Refusal> {
        let (id, state) = self.machine(id)?;
        let book = state.book().ok_or(Refusal::NotFound)?;
        Ok((id, state, book.book.as_ref()))
    }

    /// The situation a verdict or a plan is computed from, for whoever looks (a visitor's verdict is nobody's start).
    pub(crate) fn situation<'a>(&'a self, machine: &'a MachineState) -> Situation<'a> {
        let person = self.person.unwrap_or(PersonId(uuid::Uuid::nil()));
        Situation {
            machine,
            yard: &self.view.yard,
            person,
            now: self.now,
            zone: &self.zone,
            habits: &self.view.habits,
            others: &self.view.machines,
        }
    }

    /// The verdict shown: for the person signed in; for anybody else, for whoever walked the last round.
    pub(crate) fn judgement(&self, machine: &MachineState) -> Judgement {
        let mut situation = self.situation(machine);
        let closed = machine.rounds.values().filter(|r| r.closed.is_some());
        let last = closed.max_by_key(|r| r.closed);
        let walker = last.and_then(yard::state::Round::walker);
        if let (Some(walker), true) = (walker, self.person.is_none()) {
            situation.person = walker;
        }
        judge(&situation)
    }

    /// Habits of reading quantities.
    pub(crate) fn reading(&self) -> quantity::Habits {
        quantity::Habits {
            decimal_comma: self.view.habits.decimal_comma,
        }
    }

    /// What these entries are written on.
    pub(crate) fn device(&self) -> DeviceId {
        DeviceId(crate::accept::HERE.to_owned())
    }

    /// A new entry id.
    pub(crate) fn new_id(&self) -> EntryId {
        EntryId(store::fresh_id(self.app.world.as_ref()))
    }

    /// Runs a page function and words what stands in the way.
    pub(crate) fn answer(self, work: impl FnOnce(&Self) -> Answer) -> Response {
        match work(&self) {
            Ok(response) => response,
            Err(refusal) => self.refuse(&refusal),
        }
    }

    /// The page that says what stands in the way.
    pub(crate) fn refuse(&self, refusal: &Refusal) -> Response {
        if let Refusal::SignIn { at } = refusal {
            return Redirect::to(at).into_response();
        }
        if let Refusal::Ours(what) = refusal {
            eprintln!("{} {}: {what}", self.now, self.path);
        }
        let p = self.page();
        let mut intro = vec![p.t(&format!("{}.next", refusal.key()))];
        if let Refusal::MayNot(deed) = refusal {
            intro.insert(
                0,
                p.t1("error-may-not-deed", "deed", &p.t(&format!("deed-{deed}"))),
            );
        }
        let page = LinesPage {
            title: p.t(refusal.key()),
            intro,
            sections: Vec::<Section>::new(),
            button: Some((p.home(), p.t("trail-yard"))),
            p,
        };
        match page.render() {
            Ok(html) => (refusal.status(), Html(crate::direction::in_sight(html))).into_response(),
            Err(_) => refusal.clone().into_response(),
        }
    }
}

/// A rendered page.
pub(crate) fn page(template: &impl Template) -> Answer {
    let html = crate::direction::in_sight(template.render()?);
    Ok(([(header::CACHE_CONTROL, "no-store")], Html(html)).into_response())
}

/// On to another page.
pub(crate) fn go(to: &str) -> Answer {
    Ok(Redirect::to(to).into_response())
}
