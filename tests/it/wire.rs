//! A client of the language server, over the real wire.

use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

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
