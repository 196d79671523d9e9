//! Square codes read back by another program, from their modules or from what the screen shows.

use super::{chromium::WIDTH, page::Page};
use serde_json::json;
use std::{fmt::Write, process::Command};
use thirtyfour::support::base64_decode;

/// Dots a module, and light modules round a code.
const DOTS: u64 = 4;
const MARGIN: u64 = 4;

/// A picture (portable bitmap) of modules given row by row, `1` for dark.
pub fn bitmap(modules: &str, size: u64) -> Vec<u8> {
    let modules = modules.as_bytes();
    let side = (size + 2 * MARGIN) * DOTS;
    let inside = |at: u64| (at / DOTS).checked_sub(MARGIN).filter(|at| *at < size);
    let mut picture = format!("P1\n{side} {side}\n");
    for y in 0..side {
        for x in 0..side {
            let dark = inside(x)
                .zip(inside(y))
                .is_some_and(|(x, y)| modules[usize::try_from(y * size + x).unwrap()] == b'1');
            picture.push(if dark { '1' } else { '0' });
        }
        writeln!(picture).unwrap();
    }
    picture.into_bytes()
}

/// What the codes in these pictures say, in their order. Codes here hold no line end.
pub fn read(pictures: &[Vec<u8>]) -> Vec<String> {
    let folder = tempfile::tempdir().unwrap();
    let mut program = Command::new("zbarimg");
    program.args(["--quiet", "--raw", "-Sdisable", "-Sqrcode.enable"]);
    for (i, picture) in pictures.iter().enumerate() {
        let file = folder.path().join(format!("{i:04}"));
        std::fs::write(&file, picture).unwrap();
        program.arg(file);
    }
    let said = program.output().unwrap();
    let said = String::from_utf8(said.stdout).unwrap();
    said.lines().map(str::to_owned).collect()
}

/// What the screen shows of the page now, as a picture.
pub async fn screen(page: &Page) -> Vec<u8> {
    let shot = page
        .driver
        .cdp()
        .send_raw("Page.captureScreenshot", json!({ "format": "png" }))
        .await
        .unwrap();
    base64_decode(shot["data"].as_str().unwrap()).unwrap()
}

/// Whether the code shown is seen whole on the phone's screen, with its margin.
pub async fn fits(page: &Page) -> bool {
    let script = "const box = document.querySelector('.code svg').getBoundingClientRect();
        return box.left >= 0 && box.top >= 0 && box.right <= arguments[0] && box.bottom <= innerHeight && box.width > 300";
    page.ask(script, vec![json!(WIDTH)]).await == json!(true)
}
