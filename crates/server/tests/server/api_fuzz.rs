//! The API asked from its own description, rightly and wrongly: never our fault, always an answer the description has.

use super::{api_fits::trouble, chance::Chance, fixture::Place};
use axum::{
    body::Body,
    http::{Request, StatusCode, header},
};
use serde_json::{Map, Value, json};

/// Requests for each operation and each asker; `long` sends ten times as many.
const USUAL: u32 = 150;

const STRANGE: &[&str] = &[
    "",
    " ",
    "null",
    "-1",
    "18446744073709551616",
    "1e999",
    "0",
    "\u{0}",
    "\u{202e}dlrow",
    "naïve 𝕌𝕟𝕚 👩🏽‍🚒",
    "../../etc",
    "%2e%2e",
    "a'; DROP TABLE entry; --",
    "<script>",
    "01890000-0000-7000-8000-000000000000",
    "00000000-0000-0000-0000-000000000000",
    "{01890000-0000-7000-8000-000000000000}",
    "2026-03-02T07:00:00Z",
    "-009999-01-02T01:59:59Z",
    "9999-12-30T22:00:00.999999999Z",
    "marigold",
    "start",
    "steward",
    "2 1/8 in",
    "1e400 h",
];

#[tokio::test]
async fn whatever_is_asked_is_answered_as_described() {
    let place = Place::new();
    let document: Value =
        serde_json::from_str(&place.get("", "/api/openapi.json").await.text).unwrap();
    let askers = [
        None,
        Some(place.visitor),
        Some(place.learner),
        Some(place.operator),
        Some(place.deputy),
        Some(place.steward),
    ];
    let each = USUAL
        * if std::env::var_os("KINGPOST_LONG").is_some() {
            10
        } else {
            1
        };
    for (n, who) in askers.into_iter().enumerate() {
        let cookie = match who {
            Some(who) => place.sign_in(who).await,
            None => String::new(),
        };
        for (path, methods) in document["paths"].as_object().unwrap() {
            for (method, operation) in methods.as_object().unwrap() {
                let mut asking = Asking {
                    place: &place,
                    document: &document,
                    operation,
                    path,
                    method,
                    chance: Chance::new(&format!("{path} {method} {n}")),
                };
                for _ in 0..each {
                    asking.ask(&cookie).await;
                }
            }
        }
    }
    // Whatever was let in can be folded and shown.
    let steward = place.sign_in(place.steward).await;
    for page in ["", "/journal", "/questions", "/people", "/m/marigold"] {
        let got = place
            .get(&steward, &format!("{}{page}", place.home()))
            .await;
        assert!(got.status.is_success(), "{page}: {}", got.status);
    }
}

struct Asking<'a> {
    place: &'a Place,
    document: &'a Value,
    operation: &'a Value,
    path: &'a str,
    method: &'a str,
    chance: Chance,
}

impl Asking<'_> {
    async fn ask(&mut self, cookie: &str) {
        let address = self.address();
        let mut request = Request::builder()
            .method(self.method.to_uppercase().as_str())
            .uri(&address)
            .header(header::COOKIE, cookie);
        if self.chance.one_in(12) {
            request = request.header(
                header::AUTHORIZATION,
                "Bearer kingpost-00000000000000000000000000000000",
            );
        }
        let sent = self.sent();
        if self.operation.get("requestBody").is_some() && !self.chance.one_in(20) {
            request = request.header(header::CONTENT_TYPE, "application/json");
        }
        if self.chance.one_in(30) {
            request = request.header("sec-fetch-site", "cross-site");
        }
        let got = self
            .place
            .send(request.body(Body::from(sent.clone())).unwrap())
            .await;
        let what = || {
            let sent: String = String::from_utf8_lossy(&sent).chars().take(600).collect();
            format!(
                "{} {address} with {sent}\n{} {}",
                self.method, got.status, got.text
            )
        };
        assert!(!got.status.is_server_error(), "{}", what());
        let described = &self.operation["responses"][got.status.as_str()];
        assert!(described.is_object(), "a status not described: {}", what());
        let said: Value =
            serde_json::from_str(&got.text).unwrap_or_else(|e| panic!("{e}: {}", what()));
        let schema = &described["content"]["application/json"]["schema"];
        if let Some(why) = trouble(self.document, schema, &said) {
            panic!("{why}\n{}", what());
        }
        let signed_out = cookie.is_empty() && self.path != "/api/openapi.json";
        assert!(!signed_out || !got.status.is_success(), "{}", what());
    }

    fn address(&mut self) -> String {
        let mut address = self.path.to_owned();
        let mut behind = Vec::new();
        for parameter in self.operation["parameters"].as_array().unwrap() {
            let name = parameter["name"].as_str().unwrap();
            let value = self.parameter(name, &parameter["schema"]);
            let value = server::session::encode(&value);
            if parameter["in"] == "path" {
                let value = if value.is_empty() {
                    "-"
                } else {
                    value.as_str()
                };
                address = address.replace(&format!("{{{name}}}"), value);
            } else if !self.chance.one_in(3) {
                behind.push(format!("{name}={value}"));
            }
        }
        if behind.is_empty() {
            address
        } else {
            format!("{address}?{}", behind.join("&"))
        }
    }

    fn parameter(&mut self, name: &str, schema: &Value) -> String {
        if self.chance.one_in(5) {
            return self.chance.pick(STRANGE).to_string();
        }
        match name {
            "tag" => self.place.app.tag(),
            "machine" => "marigold".to_owned(),
            "entry" => self.place.yard.rows_since(0, 1).unwrap()[0].id.to_string(),
            _ => match self.value(schema, 0) {
                Value::String(text) => text,
                other => other.to_string(),
            },
        }
    }

    /// A body: mostly what the description asks for, bent here and there.
    fn sent(&mut self) -> Vec<u8> {
        let schema = &self.operation["requestBody"]["content"]["application/json"]["schema"];
        if schema.is_null() {
            return self.chance.pick(STRANGE).as_bytes().to_vec();
        }
        match self.chance.below(12) {
            0 => self.chance.pick(STRANGE).as_bytes().to_vec(),
            1 => "[".repeat(4000).into_bytes(),
            2 => vec![0xff, 0xfe, 0x00],
            3 => {
                let mut text = self.value(schema, 0).to_string().into_bytes();
                let cut = self.chance.below(text.len() as u64 + 1) as usize;
                text.truncate(cut);
                text
            }
            _ => {
                let mut value = self.value(schema, 0);
                self.settle(&mut value);
                value.to_string().into_bytes()
            }
        }
    }

    /// Gives an entry what a described value cannot know: this yard, somebody who is here, a body of its kind.
    fn settle(&mut self, value: &mut Value) {
        if let Some(Value::Array(entries)) = value.get_mut("entries") {
            for entry in entries {
                let schema = json!({ "$ref": "#/components/schemas/Entry" });
                let mut inside = self.value(&schema, 0);
                self.settle(&mut inside);
                if !self.chance.one_in(8) {
                    *entry = inside.to_string().into();
                }
            }
            return;
        }
        let Some(entry) = value
            .as_object_mut()
            .filter(|entry| entry.contains_key("counter"))
        else {
            return;
        };
        let cases = self.document["components"]["schemas"]["Entry"]["allOf"]
            .as_array()
            .unwrap();
        let case = self.chance.pick(cases).clone();
        if !self.chance.one_in(10) {
            let people = [
                self.place.learner,
                self.place.operator,
                self.place.deputy,
                self.place.steward,
            ];
            entry.insert("yard".into(), self.place.yard.id().to_string().into());
            entry.insert("by".into(), self.chance.pick(&people).to_string().into());
            entry.insert("machine".into(), "marigold".into());
            entry.insert(
                "kind".into(),
                case["if"]["properties"]["kind"]["const"].clone(),
            );
            entry.insert("version".into(), 1.into());
            let body = self.value(&case["then"]["properties"]["body"], 0);
            entry.insert("body".into(), body);
        }
    }

    /// A value of a schema, now and then of another.
    fn value(&mut self, schema: &Value, deep: u32) -> Value {
        if self.chance.one_in(25) {
            return self.junk(deep);
        }
        if let Some(at) = schema["$ref"].as_str() {
            let target = self.document.pointer(at.trim_start_matches('#')).unwrap();
            return self.value(target, deep);
        }
        for choice in ["anyOf", "oneOf"] {
            if let Some(all) = schema[choice].as_array() {
                let one = self.chance.pick(all).clone();
                return self.value(&one, deep);
            }
        }
        if let Some(words) = schema["enum"].as_array() {
            return self.chance.pick(words).clone();
        }
        if let Some(word) = schema.get("const") {
            return word.clone();
        }
        let kind = match &schema["type"] {
            Value::Array(all) => self.chance.pick(all).clone(),
            one => one.clone(),
        };
        match kind.as_str() {
            Some("object") => self.object(schema, deep),
            Some("array") => {
                let many = if deep > 5 { 0 } else { self.chance.below(4) };
                (0..many)
                    .map(|_| self.value(&schema["items"], deep + 1))
                    .collect()
            }
            Some("string") => self.text(schema).into(),
            Some("integer") => match self.chance.below(6) {
                0 => u64::MAX.into(),
                1 => 0.into(),
                _ => self.chance.below(200).into(),
            },
            Some("boolean") => self.chance.one_in(2).into(),
            Some("null") => Value::Null,
            _ => self.junk(deep),
        }
    }

    fn object(&mut self, schema: &Value, deep: u32) -> Value {
        let Some(properties) = schema["properties"].as_object() else {
            return json!({});
        };
        let mut object = Map::new();
        let needed = schema["required"].as_array();
        for (name, inside) in properties {
            let must = needed.is_some_and(|all| all.iter().any(|one| one == name));
            let there = if must {
                !self.chance.one_in(40)
            } else {
                deep < 6 && self.chance.one_in(2)
            };
            if there {
                let value = self.value(inside, deep + 1);
                object.insert(name.clone(), value);
            }
        }
        Value::Object(object)
    }

    fn text(&mut self, schema: &Value) -> String {
        let format = schema["format"].as_str().unwrap_or_default();
        let slug = schema["pattern"].is_string();
        match (format, self.chance.below(8)) {
            (_, 0) => self.chance.pick(STRANGE).to_string(),
            ("uuid", _) => self.chance.uuid().to_string(),
            ("date-time", _) => format!(
                "2026-03-0{}T0{}:30:00Z",
                self.chance.below(3),
                self.chance.below(10)
            ),
            ("date", _) => format!("2026-0{}-11", 1 + self.chance.below(9)),
            _ if slug => self
                .chance
                .pick(&["marigold", "engine-oil", "x"])
                .to_string(),
            _ => self
                .chance
                .pick(&["3 h", "2 1/8 in", "a word", "12,5 L", "oil"])
                .to_string(),
        }
    }

    fn junk(&mut self, deep: u32) -> Value {
        match self.chance.below(9) {
            0 => Value::Null,
            1 => true.into(),
            2 => json!(-1),
            3 => json!(1.5e300),
            4 => u64::MAX.into(),
            5 if deep < 6 => (0..3).map(|_| self.junk(deep + 2)).collect(),
            6 if deep < 6 => json!({ "instead": self.junk(deep + 1), "of": self.junk(deep + 1) }),
            _ => self.chance.pick(STRANGE).to_string().into(),
        }
    }
}

#[tokio::test]
async fn an_unknown_path_another_method_and_a_wrong_kind_are_told_apart() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let api = format!("/api{}", place.home());
    let ask = async |method: &str, path: &str, kind: &str, body: String| {
        let request = Request::builder()
            .method(method)
            .uri(path)
            .header(header::COOKIE, &cookie)
            .header(header::CONTENT_TYPE, kind)
            .body(Body::from(body))
            .unwrap();
        let got = place.send(request).await;
        let said: Value =
            serde_json::from_str(&got.text).unwrap_or_else(|e| panic!("{path}: {e}: {}", got.text));
        assert!(!said["told"].as_str().unwrap().is_empty());
        (got.status.as_u16(), said)
    };
    let json = "application/json";
    let deliveries = format!("{api}/deliveries");
    for (method, path, kind, body, status, why) in [
        ("GET", "/api", json, String::new(), 404, "not-found"),
        ("GET", "/api/", json, String::new(), 404, "not-found"),
        (
            "GET",
            "/api/y/0000000000/me",
            json,
            String::new(),
            404,
            "not-found",
        ),
        (
            "POST",
            &format!("{api}/nowhere"),
            json,
            String::new(),
            404,
            "not-found",
        ),
        (
            "DELETE",
            &format!("{api}/me"),
            json,
            String::new(),
            405,
            "method",
        ),
        ("PATCH", &deliveries, json, "{}".to_owned(), 405, "method"),
        (
            "POST",
            &deliveries,
            "text/plain",
            "{}".to_owned(),
            415,
            "media-type",
        ),
        (
            "POST",
            &deliveries,
            json,
            " ".repeat((4 << 20) + 1),
            413,
            "too-large",
        ),
        ("POST", &deliveries, json, "{}".to_owned(), 400, "shape"),
        (
            "POST",
            &deliveries,
            json,
            json!({ "entries": vec![""; 201] }).to_string(),
            400,
            "too-many",
        ),
        (
            "GET",
            &format!("{api}/entries?most=501"),
            json,
            String::new(),
            400,
            "parameter",
        ),
        (
            "GET",
            &format!("{api}/machines/nothing"),
            json,
            String::new(),
            404,
            "not-found",
        ),
    ] {
        let (got, said) = ask(method, path, kind, body).await;
        assert_eq!(
            (got, said["why"].as_str().unwrap()),
            (status, why),
            "{method} {path}"
        );
    }
    let (status, said) = ask(
        "POST",
        &deliveries,
        json,
        "{\n \"entries\": [,]\n}".to_owned(),
    )
    .await;
    assert_eq!((status, &said["why"]), (400, &json!("not-json")));
    assert_eq!((&said["line"], &said["column"]), (&json!(2), &json!(14)));
}

#[tokio::test]
async fn another_site_cannot_make_a_browser_deliver() {
    let place = Place::new();
    let cookie = place.sign_in(place.operator).await;
    let request = Request::post(format!("/api{}/deliveries", place.home()))
        .header(header::COOKIE, &cookie)
        .header(header::CONTENT_TYPE, "application/json")
        .header(header::ORIGIN, "https://elsewhere.example")
        .header("sec-fetch-site", "cross-site")
        .body(Body::from("{\"entries\":[]}"))
        .unwrap();
    let got = place.send(request).await;
    assert_eq!(got.status, StatusCode::FORBIDDEN);
    assert_eq!(
        serde_json::from_str::<Value>(&got.text).unwrap()["why"],
        "cross-site"
    );
}
