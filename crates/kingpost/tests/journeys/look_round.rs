//! Looking at every kind of page, and working out again every figure that is shown.

use crate::{figure::argument, site::Site};
use axum::http::StatusCode;
use serde_json::Value;
use std::{
    collections::{BTreeMap, BTreeSet},
    sync::Arc,
};
use yard::world::StillWorld;

/// How many pages of one kind are looked at: there are hundreds of findings and corrections.
const OF_A_KIND: usize = 5;

/// Follows the links from the yard's page. Every page answers, and none shows a hole where a sentence should be.
pub(crate) async fn look_round(site: &Site, cookie: &str) {
    let mut waiting = vec![site.home.clone()];
    let (mut seen, mut kinds) = (BTreeSet::new(), BTreeMap::<String, usize>::new());
    let mut figures = 0;
    while let Some(path) = waiting.pop() {
        if path.contains(".pdf") || path.starts_with("/static") || !seen.insert(path.clone()) {
            continue;
        }
        let of_kind = kinds.entry(kind(&path)).or_default();
        *of_kind += 1;
        if *of_kind > OF_A_KIND {
            continue;
        }
        let got = site.get(cookie, &path).await;
        let at = format!("seed {}: {path}: {}", site.seed, got.text);
        match got.status {
            StatusCode::SEE_OTHER => waiting.push(got.to),
            StatusCode::OK => {
                assert!(!got.text.contains('⟦'), "a sentence is missing: {at}");
                assert!(
                    !got.text.contains("NaN") && !got.text.contains(">inf"),
                    "no number: {at}"
                );
                waiting.extend(got.links());
            }
            _ => panic!("{at}"),
        }
        if path.contains("/figure/") {
            worked_out_again(site, &path).await;
            figures += 1;
        }
    }
    assert!(
        kinds.len() > 25,
        "seed {}: only {:?}",
        site.seed,
        kinds.keys()
    );
    assert!(figures > 0, "seed {}: no figure", site.seed);
}

/// An address without what is different between pages of one kind.
fn kind(path: &str) -> String {
    let (path, asked) = path.split_once('?').unwrap_or((path, ""));
    let asked = asked.split('=').next().unwrap_or_default();
    let part = |part: &str| {
        if part.bytes().any(|byte| byte.is_ascii_digit()) {
            "*".to_owned()
        } else {
            part.to_owned()
        }
    };
    let parts: Vec<_> = path.split('/').map(part).collect();
    format!("{}?{asked}", parts.join("/"))
}

/// The command comes to the same outputs from the same inputs, to the last digit.
async fn worked_out_again(site: &Site, figure: &str) {
    let shown: Value =
        serde_json::from_str(&site.get("", &format!("{figure}.json")).await.text).unwrap();
    let mut arguments = vec![
        "kingpost".to_owned(),
        "--json".to_owned(),
        "reckon".to_owned(),
    ];
    arguments.push(shown["leaf"].as_str().unwrap().to_owned());
    arguments.extend(shown["inputs"].as_array().unwrap().iter().map(argument));
    let world = Arc::new(StillWorld::at(jiff::Timestamp::UNIX_EPOCH));
    let printed = kingpost::answer(arguments.into_iter().map(Into::into), world);
    let fresh: Value = serde_json::from_str(&printed.out)
        .unwrap_or_else(|why| panic!("seed {}: {figure}: {why}: {}", site.seed, printed.err));
    let values = |of: &Value| {
        let outputs = of["outputs"].as_array().unwrap().iter();
        outputs
            .map(|output| (output["name"].to_string(), output["value"].to_string()))
            .collect::<Vec<_>>()
    };
    assert_eq!(
        values(&shown),
        values(&fresh),
        "seed {}: {figure}",
        site.seed
    );
}
