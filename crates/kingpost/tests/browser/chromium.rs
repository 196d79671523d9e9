//! A browser of its own for each test, the size of a phone, gone when the test ends, however it ends.

use super::page::Page;
use std::{
    future::Future,
    io::{BufRead, BufReader},
    os::unix::process::CommandExt,
    panic::resume_unwind,
    path::Path,
    process::{Child, Command, Stdio},
};
use tempfile::TempDir;
use thirtyfour::{ChromeCapabilities, ChromiumLikeCapabilities, DesiredCapabilities, WebDriver};

/// The phone: CSS pixels, and device pixels in each.
pub const WIDTH: u32 = 360;
pub const HEIGHT: u32 = 780;
pub const DENSITY: f64 = 2.0;

/// Nothing in the browser's own background calls out; and no name but this computer's own leads anywhere.
const SWITCHES: [&str; 11] = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--no-default-browser-check",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--hide-scrollbars",
];

/// What the browser is told of the world: which names lead to this computer, and which root it trusts besides its own.
#[derive(Default)]
pub struct World<'a> {
    pub names: &'a [&'a str],
    pub root: Option<&'a Path>,
}

impl World<'_> {
    fn resolver(&self) -> String {
        let names = self
            .names
            .iter()
            .map(|name| format!("MAP {name} 127.0.0.1, "));
        let names: String = names.collect();
        format!("--host-resolver-rules={names}MAP * ~NOTFOUND, EXCLUDE 127.0.0.1")
    }

    /// Puts the root where the browser looks for those that its owner installed: a list in the home folder.
    fn settle(&self, home: &Path) {
        let list = home.join(".pki/nssdb");
        std::fs::create_dir_all(&list).unwrap();
        let list = format!("sql:{}", list.display());
        certutil(&["-d", &list, "-N", "--empty-password"]);
        if let Some(root) = self.root {
            let root = root.to_str().unwrap();
            certutil(&["-d", &list, "-A", "-t", "C,,", "-n", "yard", "-i", root]);
        }
    }
}

fn certutil(args: &[&str]) {
    let said = Command::new("certutil").args(args).output();
    let said = said.expect("certutil: ./check installs it");
    assert!(
        said.status.success(),
        "{}",
        String::from_utf8_lossy(&said.stderr)
    );
}

/// Runs a test with a browser. On a failure the page as it was is printed before the test fails.
pub fn drive<F, T>(test: F)
where
    F: FnOnce(Page) -> T,
    T: Future<Output = ()> + Send + 'static,
{
    drive_in(&World::default(), test);
}

/// [`drive`] with a browser that knows more of the world.
pub fn drive_in<F, T>(world: &World<'_>, test: F)
where
    F: FnOnce(Page) -> T,
    T: Future<Output = ()> + Send + 'static,
{
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(1)
        .enable_all()
        .build()
        .unwrap();
    runtime.block_on(async {
        let profile = tempfile::tempdir().unwrap();
        let home = tempfile::tempdir().unwrap();
        if world.root.is_some() {
            world.settle(home.path());
        }
        let chromedriver = Chromedriver::start(profile.path(), home.path());
        let driver = WebDriver::new(&chromedriver.address, capabilities(&profile, world))
            .await
            .unwrap();
        let page = Page::of(driver.clone());
        page.take_size(WIDTH, HEIGHT).await;
        let ended = tokio::spawn(test(Page::of(driver.clone()))).await;
        if ended.is_err() {
            page.tell().await;
        }
        // A browser that has gone already is gone all the same.
        let _ = driver.quit().await;
        if let Err(failed) = ended {
            resume_unwind(failed.into_panic());
        }
    });
}

fn capabilities(profile: &TempDir, world: &World<'_>) -> ChromeCapabilities {
    let mut chromium = DesiredCapabilities::chrome();
    chromium.set_binary("/usr/bin/chromium").unwrap();
    for switch in SWITCHES {
        chromium.add_arg(switch).unwrap();
    }
    chromium.add_arg(&world.resolver()).unwrap();
    chromium
        .add_arg(&format!("--user-data-dir={}", profile.path().display()))
        .unwrap();
    chromium
}

/// The driver's process, with everything it started.
struct Chromedriver {
    child: Child,
    address: String,
}

impl Chromedriver {
    /// Starts it on a port it chooses itself, and reads which; what the browser leaves behind goes into folders that go too.
    fn start(leftovers: &Path, home: &Path) -> Self {
        let mut child = Command::new("/usr/bin/chromedriver")
            .arg("--port=0")
            .env("TMPDIR", leftovers)
            .env("HOME", home)
            .process_group(0)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap())
            .lines()
            .map_while(Result::ok);
        let started = lines.find_map(|line| {
            line.split("successfully on port ")
                .nth(1)
                .map(|port| port.trim_end_matches('.').to_owned())
        });
        let address = format!("http://127.0.0.1:{}", started.unwrap());
        // It goes on printing; somebody has to read it.
        std::thread::spawn(move || lines.for_each(drop));
        Self { child, address }
    }
}

impl Drop for Chromedriver {
    fn drop(&mut self) {
        // The group: the driver and browsers it left behind.
        let _ = Command::new("kill")
            .args(["-KILL", "--", &format!("-{}", self.child.id())])
            .stderr(Stdio::null())
            .status();
        let _ = self.child.wait();
    }
}
