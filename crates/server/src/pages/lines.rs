//! A page of headings and lines.

use crate::page::Page;
use askama::Template;

/// See the template.
#[derive(Template)]
#[template(path = "yard/lines.html")]
pub(crate) struct LinesPage {
    pub(crate) p: Page,
    pub(crate) title: String,
    pub(crate) intro: Vec<String>,
    pub(crate) sections: Vec<Section>,
    pub(crate) button: Option<(String, String)>,
}

/// A heading with lines and rows under it.
#[derive(Default)]
pub(crate) struct Section {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) link: String,
    pub(crate) lines: Vec<String>,
    pub(crate) rows: Vec<(String, String)>,
}
