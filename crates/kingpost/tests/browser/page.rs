//! What one does on a page: look, tap a label or a button, type, follow a link.

use super::chromium::DENSITY;
use serde_json::{Value, json};
use std::{sync::Arc, time::Duration};
use thirtyfour::{By, WebDriver, WebElement, error::WebDriverErrorInner};

/// How often a page that is on its way is looked at.
const AGAIN: Duration = Duration::from_millis(15);

/// The page that the browser shows.
#[derive(Clone)]
pub struct Page {
    pub driver: WebDriver,
}

impl Page {
    pub fn of(driver: WebDriver) -> Self {
        Self { driver }
    }

    /// From now on none of the pages' own scripts is loaded: the pages work without.
    pub async fn without_scripts(&self) {
        let cdp = self.driver.cdp();
        cdp.send_raw("Network.enable", json!({})).await.unwrap();
        cdp.send_raw(
            "Network.setBlockedURLs",
            json!({ "urls": ["*/static/*.js"] }),
        )
        .await
        .unwrap();
    }

    /// Makes the page this wide and high, CSS pixels.
    pub async fn take_size(&self, width: u32, height: u32) {
        let size = json!({ "width": width, "height": height, "deviceScaleFactor": DENSITY, "mobile": true });
        self.driver
            .cdp()
            .send_raw("Emulation.setDeviceMetricsOverride", size)
            .await
            .unwrap();
    }

    pub async fn goto(&self, address: &str) {
        self.driver.goto(address).await.unwrap();
    }

    pub async fn address(&self) -> String {
        self.driver.current_url().await.unwrap().to_string()
    }

    /// The path after the machine's or yard's own.
    pub async fn path(&self) -> String {
        self.driver.current_url().await.unwrap().path().to_owned()
    }

    /// What the page says.
    pub async fn text(&self) -> String {
        self.find("body").await.text().await.unwrap()
    }

    /// Its heading.
    pub async fn heading(&self) -> String {
        self.find("h1").await.text().await.unwrap()
    }

    /// The page must say this.
    pub async fn says(&self, what: &str) {
        let text = self.text().await;
        assert!(text.contains(what), "“{what}” is not on the page");
    }

    pub async fn find(&self, css: &str) -> WebElement {
        self.driver
            .find(By::Css(css))
            .await
            .unwrap_or_else(|_| panic!("not on the page: {css}"))
    }

    pub async fn find_all(&self, css: &str) -> Vec<WebElement> {
        self.driver.find_all(By::Css(css)).await.unwrap()
    }

    /// What each element of a kind says.
    pub async fn texts(&self, css: &str) -> Vec<String> {
        let mut texts = Vec::new();
        for element in self.find_all(css).await {
            texts.push(element.text().await.unwrap());
        }
        texts
    }

    /// Taps the label with these words, in the question whose heading has these.
    pub async fn choose(&self, question: &str, word: &str) {
        let question = literal(question);
        let path = format!(
            "//fieldset[legend[contains(normalize-space(.), {question})]]//label[normalize-space(.)={}]",
            literal(word)
        );
        self.tap(&path).await;
    }

    /// Taps the label that begins with these words.
    pub async fn choose_like(&self, question: &str, words: &str) {
        let (question, words) = (literal(question), literal(words));
        let path = format!(
            "//fieldset[legend[contains(normalize-space(.), {question})]]//label[starts-with(normalize-space(.), {words})]"
        );
        self.tap(&path).await;
    }

    /// Taps the label of a field by its name and value.
    pub async fn choose_field(&self, name: &str, value: &str) {
        self.tap(&format!(
            "//label[input[@name={} and @value={}]]",
            literal(name),
            literal(value)
        ))
        .await;
    }

    /// Opens what is folded away below a question.
    pub async fn unfold(&self, question: &str, summary: &str) {
        let path = format!(
            "//fieldset[legend[contains(normalize-space(.), {})]]//summary[normalize-space(.)={}]",
            literal(question),
            literal(summary)
        );
        self.driver
            .find(By::XPath(path.as_str()))
            .await
            .unwrap_or_else(|_| panic!("nothing to unfold: {path}"))
            .click()
            .await
            .unwrap();
    }

    async fn tap(&self, path: &str) {
        let label = self
            .driver
            .find(By::XPath(path))
            .await
            .unwrap_or_else(|_| panic!("no such label: {path}"));
        label.click().await.unwrap();
        let input = label.find(By::Css("input")).await.unwrap();
        assert!(
            input.is_selected().await.unwrap(),
            "tapped, but not chosen: {path}"
        );
    }

    /// Types into a field, in place of what is there.
    pub async fn type_in(&self, name: &str, text: &str) {
        let field = self.find(&format!("[name=\"{name}\"]")).await;
        field.clear().await.unwrap();
        field.send_keys(text).await.unwrap();
    }

    /// What stands in a field.
    pub async fn typed(&self, name: &str) -> String {
        self.find(&format!("[name=\"{name}\"]"))
            .await
            .prop("value")
            .await
            .unwrap()
            .unwrap_or_default()
    }

    /// Whether a choice is chosen.
    pub async fn chosen(&self, name: &str, value: &str) -> bool {
        self.find(&format!("input[name=\"{name}\"][value=\"{value}\"]"))
            .await
            .is_selected()
            .await
            .unwrap()
    }

    /// Taps the button or link that says this, and waits for the next page.
    pub async fn press(&self, word: &str) {
        let word = literal(word);
        let path = format!("//*[self::button or self::a][normalize-space(.)={word}]");
        let target = self
            .driver
            .find(By::XPath(path.as_str()))
            .await
            .unwrap_or_else(|_| panic!("no button or link says {word}"));
        self.follow(&target).await;
    }

    /// Taps the link to a place that ends so, and waits for its page.
    pub async fn open(&self, ending: &str) {
        let link = self.find(&format!("a[href$=\"{ending}\"]")).await;
        self.follow(&link).await;
    }

    /// Taps something that leads to another page and waits until the old page has gone.
    pub async fn follow(&self, target: &WebElement) {
        let old = self.find("html").await;
        target.click().await.unwrap();
        self.wait_for_next(&old).await;
    }

    /// Waits until the page that had this root has gone.
    pub async fn wait_for_next(&self, old: &WebElement) {
        loop {
            match old.tag_name().await {
                Ok(_) => tokio::time::sleep(AGAIN).await,
                Err(error)
                    if matches!(
                        &*error,
                        WebDriverErrorInner::StaleElementReference(_)
                            | WebDriverErrorInner::NoSuchElement(_)
                    ) =>
                {
                    break;
                }
                Err(error)
                    if error
                        .to_string()
                        .contains("does not belong to the document") =>
                {
                    break;
                }
                Err(error) => panic!("{error}"),
            }
        }
    }

    /// Runs a script and gives what it returns.
    pub async fn ask(&self, script: &str, args: Vec<Value>) -> Value {
        self.driver
            .execute(script, Arc::from(args))
            .await
            .unwrap()
            .json()
            .clone()
    }

    /// Signs in by name through the page, coming from the footer's link.
    pub async fn sign_in(&self, name: &str, pin: &str) {
        self.press("Sign in").await;
        self.choose("Who are you", name).await;
        self.type_in("pin", pin).await;
        let button = self.find("main button").await;
        self.follow(&button).await;
        self.says(&format!("Signed in: {name}, ")).await;
    }

    pub async fn sign_out(&self) {
        let button = self.find("footer form button").await;
        self.follow(&button).await;
    }

    /// Prints where the browser is and what the page says: for whoever reads why a test failed.
    pub async fn tell(&self) {
        let address = self.driver.current_url().await.map(|url| url.to_string());
        let text = match self.driver.find(By::Css("body")).await {
            Ok(body) => body.text().await.unwrap_or_default(),
            Err(error) => error.to_string(),
        };
        let text: String = text.chars().take(6000).collect();
        eprintln!("--- {address:?}\n{text}\n---");
    }
}

/// A text as XPath writes it; the pages' own words hold no double quote.
fn literal(text: &str) -> String {
    assert!(!text.contains('"'));
    format!("\"{text}\"")
}
