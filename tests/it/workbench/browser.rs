//! A browser without a window, driven over the pipes of its developer tools protocol: messages in JSON, each ended by
//! a NUL, in at descriptor 3 and out at 4.
//!
//! Where no browser is found such a test has nothing to do, unless `FUSTIAN_BROWSER_REQUIRED` is set. `FUSTIAN_BROWSER`
//! names one; else Chromium is looked for.

use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::PathBuf;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// Longer than anything takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(90);
/// How often the page is asked whether it is ready.
const OFTEN: Duration = Duration::from_millis(10);

/// A browser with one page.
pub struct Browser {
    child: Child,
    input: ChildStdin,
    said: Receiver<Value>,
    asked: u64,
    session: Option<String>,
    /// What it said without being asked.
    heard: Vec<Value>,
    _profile: TempDir,
}

impl Browser {
    /// Starts the browser; none where there is none and none is required.
    pub fn start() -> Option<Browser> {
        let Some(program) = found() else {
            assert!(!is_required(), "a browser is required here and none was found");
            eprintln!("no browser was found: nothing is tried in one");
            return None;
        };
        let profile = TempDir::new().expect("a folder");
        // The shell puts both pipes where the browser expects them.
        let mut command = Command::new("sh");
        command.args(["-c", r#"exec "$0" "$@" 3<&0 4>&1 >/dev/null 2>&1 </dev/null"#]);
        command.arg(program).args(["--headless", "--remote-debugging-pipe", "--no-sandbox", "--disable-gpu"]);
        command.args(["--no-first-run", "--disable-background-networking", "--disable-component-update"]);
        // Nobody but this machine is found, whatever a page asks for.
        command.arg("--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost");
        command.args([
            "--disable-sync",
            "--disable-default-apps",
            "--disable-extensions",
            "--disable-dev-shm-usage",
        ]);
        command.arg(format!("--user-data-dir={}", profile.path().display())).arg("about:blank");
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().expect("a shell");
        let input = child.stdin.take().expect("its input");
        let mut output = BufReader::new(child.stdout.take().expect("its output"));
        let (sender, said) = channel();
        std::thread::spawn(move || {
            loop {
                let mut message = Vec::new();
                match output.read_until(0, &mut message) {
                    Ok(1..) => {}
                    _ => break,
                }
                message.pop();
                let Ok(message) = serde_json::from_slice(&message) else { continue };
                if sender.send(message).is_err() {
                    break;
                }
            }
        });
        let mut browser =
            Browser { child, input, said, asked: 0, session: None, heard: Vec::new(), _profile: profile };
        let targets = browser.ask("Target.getTargets", json!({}));
        let all = targets["targetInfos"].as_array().expect("targets");
        let page = all.iter().find(|target| target["type"] == "page").expect("a page")["targetId"].clone();
        let attached = browser.ask("Target.attachToTarget", json!({ "targetId": page, "flatten": true }));
        browser.session = attached["sessionId"].as_str().map(str::to_owned);
        for domain in ["Page", "Runtime", "Network", "Log"] {
            browser.ask(&format!("{domain}.enable"), json!({}));
        }
        Some(browser)
    }

    /// Asks for something of the protocol.
    pub fn ask(&mut self, method: &str, params: Value) -> Value {
        self.asked += 1;
        let mut message = json!({ "id": self.asked, "method": method, "params": params });
        if let Some(session) = &self.session {
            message["sessionId"] = json!(session);
        }
        self.input.write_all(format!("{message}\0").as_bytes()).expect("the browser listens");
        self.input.flush().expect("the browser listens");
        loop {
            let said = self.said.recv_timeout(PATIENCE);
            let said = said.unwrap_or_else(|_| panic!("the browser did not answer {method}"));
            if said["id"] == json!(self.asked) {
                assert!(said.get("error").is_none(), "{method}: {said}");
                return said["result"].clone();
            }
            self.heard.push(said);
        }
    }

    /// How large the page is, in dots; with `touch` as on a phone.
    pub fn size(&mut self, width: u32, height: u32, touch: bool) {
        let metrics = json!({ "width": width, "height": height, "deviceScaleFactor": 1, "mobile": touch });
        self.ask("Emulation.setDeviceMetricsOverride", metrics);
        self.ask("Emulation.setTouchEmulationEnabled", json!({ "enabled": touch }));
    }

    /// Opens an address.
    pub fn open(&mut self, address: &str) {
        let opened = self.ask("Page.navigate", json!({ "url": address }));
        assert!(opened.get("errorText").is_none(), "{address}: {opened}");
        self.until("document.readyState === 'complete'");
    }

    /// What a script gives, once it is there.
    pub fn run(&mut self, script: &str) -> Value {
        let params = json!({ "expression": script, "returnByValue": true, "awaitPromise": true });
        let done = self.ask("Runtime.evaluate", params);
        assert!(done.get("exceptionDetails").is_none(), "{script}: {}", done["exceptionDetails"]);
        done["result"]["value"].clone()
    }

    /// Waits until a script gives something true; how long that took.
    pub fn until(&mut self, script: &str) -> Duration {
        let began = Instant::now();
        loop {
            if self.run(&format!("Boolean({script})")) == json!(true) {
                return began.elapsed();
            }
            assert!(began.elapsed() < PATIENCE, "it never came to be that {script}");
            std::thread::sleep(OFTEN);
        }
    }

    /// Points with the mouse.
    pub fn point(&mut self, (x, y): (f64, f64)) {
        self.ask("Input.dispatchMouseEvent", json!({ "type": "mouseMoved", "x": x, "y": y }));
    }

    /// Taps with a finger.
    pub fn tap(&mut self, (x, y): (f64, f64)) {
        let at = json!([{ "x": x, "y": y }]);
        self.ask("Input.dispatchTouchEvent", json!({ "type": "touchStart", "touchPoints": at }));
        self.ask("Input.dispatchTouchEvent", json!({ "type": "touchEnd", "touchPoints": [] }));
    }

    /// Presses a key by its name.
    pub fn press(&mut self, key: &str) {
        let text = if key.chars().count() == 1 { key } else { "" };
        for kind in ["keyDown", "keyUp"] {
            let params = json!({ "type": kind, "key": key, "code": key, "text": if kind == "keyDown" { text } else { "" } });
            self.ask("Input.dispatchKeyEvent", params);
        }
    }

    /// Addresses of all that was asked for since the browser started.
    pub fn requests(&mut self) -> Vec<String> {
        self.run("0");
        let sent = self.heard.iter().filter(|said| said["method"] == "Network.requestWillBeSent");
        sent.filter_map(|said| said["params"]["request"]["url"].as_str().map(str::to_owned)).collect()
    }

    /// What went wrong in the page: accidents of its script, and what its policy or the network refused.
    pub fn troubles(&mut self) -> Vec<String> {
        self.run("0");
        let wrong = self.heard.iter().filter(|said| match said["method"].as_str() {
            Some("Runtime.exceptionThrown") => true,
            Some("Log.entryAdded") => said["params"]["entry"]["level"] == "error",
            _ => false,
        });
        wrong.map(Value::to_string).collect()
    }

    /// The page as it is printed on the paper that it asks for: a PDF.
    pub fn paper(&mut self) -> Vec<u8> {
        let printed = self.ask("Page.printToPDF", json!({ "preferCSSPageSize": true }));
        bytes_of(printed["data"].as_str().expect("a file"))
    }

    /// What axe-core finds against the rules for accessibility, where `FUSTIAN_AXE` names its file; else nothing, unless
    /// it is required.
    pub fn accessibility(&mut self) -> Vec<String> {
        let Some(path) = std::env::var_os("FUSTIAN_AXE").filter(|path| !path.is_empty()) else {
            assert!(!is_required(), "axe is required here, and FUSTIAN_AXE does not say where it is");
            eprintln!("FUSTIAN_AXE names no file: accessibility is not tried");
            return Vec::new();
        };
        let axe = fs::read_to_string(&path).expect("axe-core's file");
        self.run(&format!("{axe}; true"));
        let found = self.run(
            "axe.run().then((found) => found.violations.map((one) => \
             `${one.id}: ${one.help}: ${one.nodes.map((node) => node.target.join(' ')).join('; ')}`))",
        );
        found.as_array().expect("a list").iter().map(|one| one.as_str().unwrap_or("").to_owned()).collect()
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn is_required() -> bool {
    std::env::var_os("FUSTIAN_BROWSER_REQUIRED").is_some_and(|value| !value.is_empty())
}

/// Bytes that are written in letters (base 64, RFC 4648, section 4).
fn bytes_of(text: &str) -> Vec<u8> {
    const LETTERS: &[u8] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let sixes = text.bytes().filter_map(|letter| LETTERS.iter().position(|one| *one == letter));
    let sixes: Vec<u32> = sixes.map(|six| six as u32).collect();
    let bytes = sixes.chunks(4).flat_map(|four| {
        let all = four.iter().zip([18, 12, 6, 0]).map(|(six, by)| six << by).sum::<u32>();
        all.to_be_bytes()[1..four.len()].to_vec()
    });
    bytes.collect()
}

/// The program of a browser.
fn found() -> Option<PathBuf> {
    if let Some(named) = std::env::var_os("FUSTIAN_BROWSER").filter(|path| !path.is_empty()) {
        return Some(PathBuf::from(named));
    }
    let folders = std::env::var_os("PATH")?;
    let names = ["chromium", "chromium-browser", "google-chrome"];
    std::env::split_paths(&folders)
        .flat_map(|folder| names.map(|name| folder.join(name)))
        .find(|path| path.is_file())
}
