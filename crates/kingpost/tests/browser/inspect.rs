//! What is wrong with any page on a phone: too wide, too small for gloves, without a label; and what the browser itself complained of.

use super::{chromium::WIDTH, page::Page};
use serde_json::{Value, json};

/// What is wrong with the page shown, as one line for each thing. Everything folded away is unfolded first.
pub const INSPECT: &str = r#"
const wrong = [];
document.querySelectorAll('details').forEach(folded => { folded.open = true; });
const root = document.scrollingElement;
if (root.scrollWidth > arguments[0]) {
    const wide = [...document.querySelectorAll('main *')].filter(e => !e.closest('.wide, pre, svg') && e.getBoundingClientRect().right > arguments[0] + 0.5);
    wrong.push(`wider than the screen: ${root.scrollWidth} px; ${wide.slice(0, 3).map(e => e.outerHTML.slice(0, 120)).join(' | ')}`);
}
if (document.querySelector('script:not([type=module][src^="/static/"]), iframe, object, embed') || document.querySelector('[onclick], [style]')) wrong.push('a script, a frame or a style inside');
const high = (css, least) => document.querySelectorAll(css).forEach(e => {
    const box = e.getBoundingClientRect();
    if (e.checkVisibility() && box.height < least - 0.5) wrong.push(`${box.height} px high, not ${least}: ${e.outerHTML.slice(0, 120)}`);
});
high('button, .button, summary, .choices label, nav a, ul.links a, footer a, input:not([type=hidden]):not([type=radio]):not([type=checkbox]), textarea, select', 48);
if (location.pathname.includes('/round/')) high('form[action*="/round/"] .choices label, form[action*="/round/"] button', 72);
document.querySelectorAll('input:not([type=hidden]), textarea, select').forEach(e => {
    const says = [...e.labels].map(label => label.textContent.trim()).join('') || e.getAttribute('aria-label');
    if (!says) wrong.push(`without a label: ${e.outerHTML.slice(0, 120)}`);
});
document.querySelectorAll('[role=radiogroup], [role=group]').forEach(e => {
    const by = e.getAttribute('aria-labelledby');
    const says = e.getAttribute('aria-label') || (by && document.getElementById(by) && document.getElementById(by).textContent.trim());
    if (!says) wrong.push(`a group without a label: ${e.outerHTML.slice(0, 120)}`);
});
document.querySelectorAll('body *').forEach(e => {
    const slides = ['auto', 'scroll'].includes(getComputedStyle(e).overflowX) && e.scrollWidth > e.clientWidth;
    if (slides && e.tabIndex < 0) wrong.push(`slides sideways, but not from the keyboard: ${e.outerHTML.slice(0, 120)}`);
});
const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
const twice = ids.filter((id, i) => ids.indexOf(id) !== i);
if (twice.length) wrong.push(`ids given twice: ${twice.join(' ')}`);
if (!document.documentElement.lang || !document.title.trim() || document.querySelectorAll('h1').length !== 1) wrong.push('no language, no title, or not one heading');
performance.getEntriesByType('resource').filter(r => !r.name.startsWith(location.origin) && !r.name.startsWith('data:')).forEach(r => wrong.push(`calls ${r.name}`));
return wrong;
"#;

/// Kept from page to page of one tab: errors of scripts, of pictures and styles that did not come, and what the page's own policy forbade.
/// A script that did not come is no complaint: tests keep them away, and the pages work without.
const LISTEN: &str = r#"
const keep = what => sessionStorage.setItem('complaints', (sessionStorage.getItem('complaints') || '') + `${location.pathname}: ${what}\n`);
addEventListener('error', e => { if (e.target.tagName !== 'SCRIPT') keep(e.message || `did not come: ${e.target.src || e.target.href}`); }, true);
addEventListener('unhandledrejection', e => keep(`not handled: ${e.reason}`));
addEventListener('securitypolicyviolation', e => keep(`forbidden: ${e.blockedURI} ${e.violatedDirective}`));
const error = console.error;
console.error = (...what) => { keep(what.join(' ')); error.apply(console, what); };
"#;

/// From now on every page's complaints are kept.
pub async fn listen(page: &Page) {
    let script = json!({ "source": LISTEN });
    let cdp = page.driver.cdp();
    cdp.send_raw("Page.enable", json!({})).await.unwrap();
    cdp.send_raw("Page.addScriptToEvaluateOnNewDocument", script)
        .await
        .unwrap();
}

/// The complaints since [`listen`], one a line.
pub async fn complaints(page: &Page) -> String {
    let kept = "return sessionStorage.getItem('complaints') || ''";
    page.ask(kept, vec![]).await.as_str().unwrap().to_owned()
}

/// What the inspection finds wrong with the page shown.
pub async fn inspect(page: &Page) -> Vec<String> {
    let found = page.ask(INSPECT, vec![json!(WIDTH)]).await;
    let lines = found.as_array().unwrap().iter();
    lines.filter_map(Value::as_str).map(str::to_owned).collect()
}
