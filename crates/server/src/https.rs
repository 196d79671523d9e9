//! What the pages know of HTTPS: the root that phones are told to trust, and how a request came.

use crate::app::App;
use jiff::Timestamp;
use std::sync::{Arc, PoisonError};

/// How this yard is served over HTTPS.
#[derive(Clone, Debug)]
pub struct Https {
    /// Its port.
    pub port: u16,
    /// Names and addresses that the certificate stands for.
    pub hosts: Vec<String>,
    /// The yard's own root; none where the certificate comes from elsewhere.
    pub root: Option<Root>,
}

/// The root that phones are told to trust.
#[derive(Clone, Debug)]
pub struct Root {
    /// Its name, as a phone lists it.
    pub name: String,
    /// SHA-256 in groups, to compare with the paper.
    pub fingerprint: String,
    /// Until when it is good.
    pub until: Timestamp,
    /// The certificate (DER).
    pub der: Vec<u8>,
    /// The certificate as text (PEM).
    pub pem: String,
}

impl App {
    /// Says how this yard is served over HTTPS; also when root or names have changed.
    pub fn set_https(&self, https: Https) {
        *self.https.write().unwrap_or_else(PoisonError::into_inner) = Some(Arc::new(https));
    }

    /// How this yard is served over HTTPS; none where it is not.
    pub fn https(&self) -> Option<Arc<Https>> {
        self.https
            .read()
            .unwrap_or_else(PoisonError::into_inner)
            .clone()
    }
}
