//! Pages, sign-in and the API over one yard. A page never computes: it asks `yard`, words it with `words`, draws with `papers`.

mod accept;
pub mod api;
mod app;
mod arms;
mod assets;
mod caller;
mod desk;
mod direction;
mod gate;
mod guard;
mod https;
mod limits;
mod names;
mod page;
mod pages;
pub mod photo;
mod plain;
mod refusal;
mod routes;
pub mod session;
pub mod tokens;
mod unnamed;

pub use app::App;
pub use guard::is_of;
pub use https::{Https, Root};
pub use plain::plain_router;
pub use routes::{router, secure_router};
