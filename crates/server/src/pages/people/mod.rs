//! Who is in the yard: signing in, the first start, people and sign-offs.

pub(crate) mod first;
pub(crate) mod habits;
pub(crate) mod kept;
pub(crate) mod list;
pub(crate) mod me;
pub(crate) mod rights;
pub(crate) mod sign_in;
pub(crate) mod sign_offs;
pub(crate) mod tokens;
