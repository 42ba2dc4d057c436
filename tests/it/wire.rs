//! A client of the language server, over the real wire.

use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;
use tempfile::TempDir;

/// Longer than any answer takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// The server in a process of its own, and what it has said.
pub struct Client {
    child: Child,
    input: Option<ChildStdin>,
    incoming: Receiver<Value>,
    asked: i32,
    /// The last messages of each file, by URI.
    pub told: BTreeMap<String, Value>,
    /// Everything else that it said without being asked.
    pub others: Vec<Value>,
}

impl Client {
    /// Starts the server; nothing is agreed yet.
    pub fn new() -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_fustian"))
            .arg("editor")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut output = BufReader::new(child.stdout.take().unwrap());
        let (sender, incoming) = channel();
        std::thread::spawn(move || {
            while let Some(message) = read(&mut output) {
                if sender.send(message).is_err() {
                    break;
                }
            }
        });
        let input = child.stdin.take();
        Client { child, input, incoming, asked: 0, told: BTreeMap::new(), others: Vec::new() }
    }

    /// Starts the server and agrees with it.
    pub fn ready() -> Self {
        let mut client = Client::new();
        let capabilities = json!({
            "workspace": { "workspaceEdit": { "documentChanges": true } },
            "textDocument": { "publishDiagnostics": { "relatedInformation": true } },
        });
        client
            .ask("initialize", json!({ "processId": null, "rootUri": null, "capabilities": capabilities }))
            .unwrap();
        client.note("initialized", json!({}));
        client
    }

    /// Sends bytes as they are.
    pub fn raw(&mut self, bytes: &[u8]) {
        let input = self.input.as_mut().unwrap();
        input.write_all(bytes).unwrap();
        input.flush().unwrap();
    }

    /// A message with its head.
    pub fn framed(message: &Value) -> Vec<u8> {
        let body = message.to_string();
        format!("Content-Length: {}\r\n\r\n{body}", body.len()).into_bytes()
    }

    /// Tells it something.
    pub fn note(&mut self, method: &str, params: Value) {
        let message = json!({ "jsonrpc": "2.0", "method": method, "params": params });
        self.raw(&Self::framed(&message));
    }

    /// Asks it something: the result, or the error.
    pub fn ask(&mut self, method: &str, params: Value) -> Result<Value, Value> {
        self.asked += 1;
        let id = json!(self.asked);
        self.raw(&Self::framed(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params })));
        self.answer(&id)
    }

    /// Waits for the answer of that number.
    pub fn answer(&mut self, id: &Value) -> Result<Value, Value> {
        loop {
            let message = self.next();
            if message.get("method").is_none() && message.get("id") == Some(id) {
                return match message.get("error") {
                    Some(error) => Err(error.clone()),
                    None => Ok(message["result"].clone()),
                };
            }
            self.keep(message);
        }
    }

    fn keep(&mut self, message: Value) {
        match message["method"].as_str() {
            Some("textDocument/publishDiagnostics") => {
                let uri = message["params"]["uri"].as_str().unwrap().to_owned();
                self.told.insert(uri, message["params"].clone());
            }
            _ => self.others.push(message),
        }
    }

    /// The next thing it says.
    pub fn next(&mut self) -> Value {
        self.incoming.recv_timeout(PATIENCE).expect("the server says nothing more")
    }

    /// Opens a document.
    pub fn open(&mut self, uri: &str, text: &str) {
        let document = json!({ "uri": uri, "languageId": "fustian", "version": 1, "text": text });
        self.note("textDocument/didOpen", json!({ "textDocument": document }));
    }

    /// Puts a text in place of the range from a line and UTF-16 column to another.
    pub fn edit(&mut self, uri: &str, version: i32, range: [[u32; 2]; 2], text: &str) {
        let [from, to] = range.map(|[line, character]| json!({ "line": line, "character": character }));
        let change = json!({ "range": { "start": from, "end": to }, "text": text });
        let document = json!({ "uri": uri, "version": version });
        self.note("textDocument/didChange", json!({ "textDocument": document, "contentChanges": [change] }));
    }

    /// Waits until the messages of that version of the document are told.
    pub fn told_of(&mut self, uri: &str, version: i32) -> Vec<Value> {
        loop {
            if let Some(told) = self.told.get(uri).filter(|told| told["version"] == json!(version)) {
                return told["diagnostics"].as_array().unwrap().clone();
            }
            let message = self.next();
            self.keep(message);
        }
    }

    /// Asks at a line and UTF-16 column of a document.
    pub fn ask_at(&mut self, method: &str, uri: &str, [line, character]: [u32; 2]) -> Result<Value, Value> {
        self.ask(
            method,
            json!({ "textDocument": { "uri": uri }, "position": { "line": line, "character": character } }),
        )
    }

    /// Says goodbye in good order; the exit code.
    pub fn leave(mut self) -> Option<i32> {
        assert_eq!(self.ask("shutdown", Value::Null), Ok(Value::Null));
        self.note("exit", Value::Null);
        self.end()
    }

    /// Closes the pipe; the exit code.
    pub fn end(mut self) -> Option<i32> {
        self.input = None;
        self.child.wait().unwrap().code()
    }
}

fn read(output: &mut impl BufRead) -> Option<Value> {
    let mut length = 0;
    loop {
        let mut line = String::new();
        if output.read_line(&mut line).ok()? == 0 {
            return None;
        }
        match line.trim().split_once(": ") {
            Some((name, count)) if name.eq_ignore_ascii_case("content-length") => {
                length = count.parse().ok()?
            }
            Some(_) => {}
            None => break,
        }
    }
    let mut body = vec![0; length];
    output.read_exact(&mut body).ok()?;
    serde_json::from_slice(&body).ok()
}

/// 🧵 is one sign, two UTF-16 units and four bytes; é is written as e and a combining acute here,
/// two units and three bytes.
pub const SMOCK: &str = "\
garment \"Deck smock\"
units cm
allowance 1
sizes S, M, L
let ease = 20 grade +2 \"🧵 ne\u{301}\"
let strap = ease / 2
fabric shell \"waxed cotton\" { width 150 }
layer outer in shell { front, back }
# Both are cut alike.
# The neck is open.
block piece body \"Body\" {
  cut 1
  point low = (0, 0)
  point side_low = (30 + ease / 2, 0)
  point side_top = (x(side_low), 60)
  point top_left = (0, 60)
  outline from low {
    hem   to side_low
    side  to side_top
    top   to top_left
    inner to low
  }
  line waist across at (0, 30)
}
piece front \"Front\" { cut 1; outline copy of body }
piece back \"Back\" { cut 1; outline copy of body }
# How it is sewn.
steps { \"Sew\" { sew side, inner; hem front.hem, back.hem, front.top, back.top } }
seam side   front.side to back.side
seam inner  front.inner to back.inner
finish front.hem, back.hem  hem 3
finish front.top, back.top  hem 2
";

pub const LONG: &str = "\
variation \"Long smock\" of \"smock.fus\"
set ease = 24 grade +2
replace seam side  front.side to back.side { allowance 2 }
lengthen front, back at waist by 10
drop finish front.top
finish front.top  hem 2
";

pub fn crew(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().unwrap();
    for (name, text) in files {
        fs::write(folder.path().join(name), text).unwrap();
    }
    folder
}

pub fn uri(folder: &Path, name: &str) -> String {
    // The folders of tests have no character that needs an escape; names here may.
    format!("file://{}/{name}", fs::canonicalize(folder).unwrap().to_str().unwrap())
}

pub fn codes(told: &[Value]) -> Vec<&str> {
    told.iter().map(|one| one["code"].as_str().unwrap()).collect()
}

pub fn range(from: [u32; 2], to: [u32; 2]) -> Value {
    let at = |[line, character]: [u32; 2]| json!({ "line": line, "character": character });
    json!({ "start": at(from), "end": at(to) })
}

/// The text after the edits of a workspace edit, counted in UTF-16 as the protocol says.
pub fn edited(text: &str, uri: &str, edit: &Value) -> String {
    let mut lines: Vec<Vec<u16>> = text.split('\n').map(|line| line.encode_utf16().collect()).collect();
    let changes = edit["documentChanges"].as_array().unwrap();
    let mut edits: Vec<&Value> = changes
        .iter()
        .filter(|change| change["textDocument"]["uri"] == json!(uri))
        .flat_map(|change| change["edits"].as_array().unwrap())
        .collect();
    edits.sort_by_key(|edit| {
        let start = &edit["range"]["start"];
        std::cmp::Reverse((start["line"].as_u64(), start["character"].as_u64()))
    });
    for edit in edits {
        let at = |end: &str, of: &str| edit["range"][end][of].as_u64().unwrap() as usize;
        assert_eq!(at("start", "line"), at("end", "line"), "these tests edit within lines");
        let new: Vec<u16> = edit["newText"].as_str().unwrap().encode_utf16().collect();
        lines[at("start", "line")].splice(at("start", "character")..at("end", "character"), new);
    }
    let lines: Vec<String> = lines.iter().map(|line| String::from_utf16(line).unwrap()).collect();
    lines.join("\n")
}
