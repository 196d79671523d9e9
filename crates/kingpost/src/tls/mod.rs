//! HTTPS for a yard without a domain: a root of its own that phones are told to trust, and a leaf under it that renews itself.
//!
//! Reading order: [`names`], what a certificate may stand for; `issue`, how root and leaf are made; `shown`, what a certificate
//! says; `folder`, where they lie; `keeper`, which keeps what is served fresh; `own_files`, a certificate from elsewhere.

mod folder;
mod issue;
mod keeper;
mod names;
mod own_files;
mod shown;
mod snag;

#[cfg(test)]
mod tests;

pub(crate) use folder::{Folder, Pair};
pub(crate) use keeper::{Keeper, Served, Source, wanted};
pub(crate) use names::{Name, Reach, here, host_of};
pub(crate) use own_files::OwnFiles;
pub(crate) use shown::{Shown, fingerprint};
pub(crate) use snag::Snag;
