//! A browser at an address of the network, which keeps cookies as browsers do.

use super::fixture::{Got, PIN, Place};
use axum::{
    body::Body,
    extract::ConnectInfo,
    http::{Request, StatusCode, header, request::Builder},
};
use server::session::{self, OverTls};
use std::{collections::BTreeMap, net::SocketAddr};
use yard::id::PersonId;

pub(crate) struct Browser<'p> {
    pub(crate) place: &'p Place,
    pub(crate) address: &'static str,
    pub(crate) tls: bool,
    /// Headers beside the cookies, sent with every request.
    pub(crate) headers: Vec<(&'static str, String)>,
    pub(crate) jar: BTreeMap<String, String>,
}

impl<'p> Browser<'p> {
    pub(crate) fn at(place: &'p Place, address: &'static str) -> Self {
        Self {
            place,
            address,
            tls: false,
            headers: Vec::new(),
            jar: BTreeMap::new(),
        }
    }

    /// On the server's own computer.
    pub(crate) fn here(place: &'p Place) -> Self {
        let mut browser = Self::at(place, "127.0.0.1");
        browser.headers = vec![("host", "127.0.0.1:4720".to_owned())];
        browser
    }

    pub(crate) async fn get(&mut self, path: &str) -> Got {
        let request = self.dressed(Request::get(path));
        self.send(request.body(Body::empty()).unwrap()).await
    }

    pub(crate) async fn post(&mut self, path: &str, fields: &[(&str, &str)]) -> Got {
        let pair = |(n, v): &(&str, &str)| format!("{}={}", session::encode(n), session::encode(v));
        let body = fields.iter().map(pair).collect::<Vec<_>>().join("&");
        let request = self
            .dressed(Request::post(path))
            .header(header::CONTENT_TYPE, "application/x-www-form-urlencoded");
        self.send(request.body(Body::from(body)).unwrap()).await
    }

    /// Tries to sign in.
    pub(crate) async fn try_pin(&mut self, who: PersonId, pin: &str) -> Got {
        let path = format!("{}/sign-in", self.place.home());
        self.post(&path, &[("person", &who.to_string()), ("pin", pin)])
            .await
    }

    /// Signs in on a shared device.
    pub(crate) async fn sign_in(&mut self, who: PersonId) {
        let got = self.try_pin(who, PIN).await;
        assert_eq!(got.status, StatusCode::SEE_OTHER, "{}", got.text);
    }

    /// Whether somebody is signed in.
    pub(crate) async fn signed_in(&mut self) -> bool {
        let path = format!("{}/me", self.place.home());
        self.get(&path).await.status == StatusCode::OK
    }

    fn dressed(&self, mut request: Builder) -> Builder {
        let jar = self.jar.iter();
        let cookies: Vec<String> = jar.map(|(name, value)| format!("{name}={value}")).collect();
        if !cookies.is_empty() {
            request = request.header(header::COOKIE, cookies.join("; "));
        }
        for (name, value) in &self.headers {
            request = request.header(*name, value);
        }
        if self.tls {
            request = request.extension(OverTls);
        }
        let port = if self.address.contains(':') {
            format!("[{}]:50000", self.address)
        } else {
            format!("{}:50000", self.address)
        };
        request.extension(ConnectInfo(port.parse::<SocketAddr>().unwrap()))
    }

    async fn send(&mut self, request: Request<Body>) -> Got {
        let got = self.place.send(request).await;
        for set in &got.set {
            let (name, value) = set.split(';').next().unwrap().split_once('=').unwrap();
            if set.contains("Max-Age=0") {
                self.jar.remove(name);
            } else {
                self.jar.insert(name.to_owned(), value.to_owned());
            }
        }
        got
    }
}
