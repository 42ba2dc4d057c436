use super::disk::DiskLoader;
use super::outcome::{Outcome, Trouble};
use super::output::say;
use fustian::editor::{Disk, INVALID_PARAMS, Refusal, Service, Workspace};
use fustian::source::Loader;
use lsp_server::{ErrorCode, Message, Notification, Request, RequestId, Response};
use serde_json::{Value, json};
use std::collections::VecDeque;
use std::fs;
use std::io::{self, BufRead, Read, Write};
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};

/// The most bytes of one message. A file of the largest size fits, however its text is escaped.
const MESSAGE_BYTES: u64 = 6 * fustian::limits::FILE_BYTES as u64 + 1024 * 1024;
/// The longest line of a message's head.
const HEAD_BYTES: u64 = 4096;

/// Speaks the Language Server Protocol over standard input and output until the other side says
/// exit, or goes away.
///
/// What comes is taken in order, so that each request is answered from all that was written
/// before it. Garments are compiled when a request needs them, and else once nothing more waits.
pub fn run() -> Result<Outcome, Trouble> {
    let (sender, receiver) = channel();
    // The thread ends with the process; it may well be waiting for a message that never comes.
    std::thread::spawn(move || {
        let mut input = io::BufReader::new(io::stdin());
        while let Ok(Some(incoming)) = incoming(&mut input) {
            if sender.send(incoming).is_err() {
                break;
            }
        }
    });
    let mut wire = Wire {
        queue: VecDeque::new(),
        receiver,
        cancelled: Vec::new(),
        service: Service::new(Workspace::new(FileSystem)),
        state: State::Expecting,
        asked: 0,
    };
    while let Some(incoming) = wire.next()? {
        if let Some(outcome) = wire.take(incoming)? {
            return Ok(outcome);
        }
    }
    // It went away without a word.
    Ok(Outcome::Mistakes)
}

/// What was read.
enum Incoming {
    Message(Message),
    /// No message of the protocol: the number it goes by, if it has one, and what is wrong.
    Rubbish(Option<RequestId>, ErrorCode, String),
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum State {
    /// Nothing was agreed yet.
    Expecting,
    Ready,
    /// Only exit may follow.
    ShutDown,
}

struct Wire {
    queue: VecDeque<Incoming>,
    receiver: Receiver<Incoming>,
    /// Requests that wait and are not wanted any more.
    cancelled: Vec<RequestId>,
    service: Service,
    state: State,
    /// How many requests this side has made.
    asked: i32,
}

impl Wire {
    /// What is to be dealt with next; none once nothing more can come. Before waiting, whatever is
    /// new is reported.
    fn next(&mut self) -> Result<Option<Incoming>, Trouble> {
        self.gather();
        if self.queue.is_empty() {
            for news in self.service.changed_diagnostics() {
                self.notify("textDocument/publishDiagnostics", json!(news))?;
            }
            match self.receiver.recv() {
                Ok(incoming) => self.queue.push_back(incoming),
                Err(_) => return Ok(None),
            }
            self.gather();
        }
        Ok(self.queue.pop_front())
    }

    /// Takes in all that waits, and notes which requests are not wanted any more.
    fn gather(&mut self) {
        while let Ok(incoming) = self.receiver.try_recv() {
            self.queue.push_back(incoming);
        }
        let ids = self.queue.iter().filter_map(|incoming| match incoming {
            Incoming::Message(Message::Notification(one)) if one.method == "$/cancelRequest" => {
                serde_json::from_value::<RequestId>(one.params.get("id")?.clone()).ok()
            }
            _ => None,
        });
        self.cancelled = ids.collect();
    }

    /// Deals with one message; an outcome ends it all.
    fn take(&mut self, incoming: Incoming) -> Result<Option<Outcome>, Trouble> {
        match incoming {
            Incoming::Rubbish(id, code, words) => {
                say(&format!("fustian: {words}\n"));
                self.refuse(id, code as i32, &words)?;
            }
            Incoming::Message(Message::Request(request)) => self.request(request)?,
            Incoming::Message(Message::Notification(one)) => return self.notification(one),
            // The answer to the one thing that was asked for changes nothing.
            Incoming::Message(Message::Response(_)) => {}
        }
        Ok(None)
    }

    fn request(&mut self, request: Request) -> Result<(), Trouble> {
        let Request { id, method, params } = request;
        if self.cancelled.contains(&id) {
            return self.refuse(Some(id), ErrorCode::RequestCanceled as i32, "it is not wanted any more");
        }
        let answer = match (self.state, method.as_str()) {
            (State::Expecting, "initialize") => {
                self.state = State::Ready;
                Ok(self.service.initialise(&params))
            }
            (State::Expecting, _) => {
                Err(refusal(ErrorCode::ServerNotInitialized, "initialize must come first"))
            }
            (State::ShutDown, _) => {
                Err(refusal(ErrorCode::InvalidRequest, "after shutdown only exit may come"))
            }
            (State::Ready, "initialize") => Err(refusal(ErrorCode::InvalidRequest, "initialize came before")),
            (State::Ready, "shutdown") => {
                self.state = State::ShutDown;
                Ok(Value::Null)
            }
            (State::Ready, method) => self.service.answer(method, params),
        };
        match answer {
            Ok(result) => send(&Message::Response(Response { id, response_result: Ok(result) })),
            Err(refusal) => self.refuse(Some(id), refusal.code, &refusal.message),
        }
    }

    fn notification(&mut self, one: Notification) -> Result<Option<Outcome>, Trouble> {
        match (self.state, one.method.as_str()) {
            (State::ShutDown, "exit") => return Ok(Some(Outcome::Good)),
            (_, "exit") => return Ok(Some(Outcome::Mistakes)),
            (State::Ready, "initialized") => {
                if let Some((method, params)) = self.service.wishes() {
                    self.asked += 1;
                    let id = RequestId::from(format!("fustian-{}", self.asked));
                    send(&Message::Request(Request { id, method: method.to_owned(), params }))?;
                }
            }
            (State::Ready, method) => {
                if let Err(refusal) = self.service.notice(method, one.params) {
                    let words = format!("{method}: {}", refusal.message);
                    // To a notification there is no answer; what is wrong goes into the log.
                    let kind = if refusal.code == INVALID_PARAMS { 2 } else { 1 };
                    self.notify("window/logMessage", json!({ "type": kind, "message": words }))?;
                }
            }
            _ => {}
        }
        Ok(None)
    }

    fn notify(&self, method: &str, params: Value) -> Result<(), Trouble> {
        send(&Message::Notification(Notification { method: method.to_owned(), params }))
    }

    fn refuse(&self, id: Option<RequestId>, code: i32, message: &str) -> Result<(), Trouble> {
        // A request whose number cannot be read is answered without one (JSON-RPC 2.0, 5).
        let id = json!(id);
        let error = json!({ "code": code, "message": message });
        put(&json!({ "jsonrpc": "2.0", "id": id, "error": error }).to_string())
    }
}

fn refusal(code: ErrorCode, words: &str) -> Refusal {
    Refusal { code: code as i32, message: words.to_owned() }
}

fn send(message: &Message) -> Result<(), Trouble> {
    message.write(&mut io::stdout().lock()).map_err(|error| Trouble::of_stdout(&error))
}

fn put(text: &str) -> Result<(), Trouble> {
    let mut stdout = io::stdout().lock();
    write!(stdout, "Content-Length: {}\r\n\r\n{text}", text.len())
        .and_then(|()| stdout.flush())
        .map_err(|error| Trouble::of_stdout(&error))
}

/// The next message; none at the end of the input. Lines that are no head of a message are passed
/// over, so that rubbish costs only itself.
fn incoming(input: &mut impl BufRead) -> io::Result<Option<Incoming>> {
    let mut length: Option<u64> = None;
    let mut rubbish = false;
    loop {
        let mut line = Vec::new();
        if input.by_ref().take(HEAD_BYTES).read_until(b'\n', &mut line)? == 0 {
            return Ok(None);
        }
        let line = String::from_utf8_lossy(&line);
        let line = line.trim();
        if line.is_empty() {
            match length {
                Some(_) => break,
                None if rubbish => {
                    let words = "what came has no Content-Length".to_owned();
                    return Ok(Some(Incoming::Rubbish(None, ErrorCode::ParseError, words)));
                }
                None => continue,
            }
        }
        let head =
            line.split_once(':').filter(|(name, _)| name.trim().eq_ignore_ascii_case("content-length"));
        match head.map(|(_, count)| count.trim().parse::<u64>()) {
            Some(Ok(count)) => length = Some(count),
            Some(Err(_)) => rubbish = true,
            None if line.to_ascii_lowercase().starts_with("content-type:") => {}
            None => rubbish = true,
        }
    }
    let length = length.unwrap_or(0);
    if length > MESSAGE_BYTES {
        io::copy(&mut input.by_ref().take(length), &mut io::sink())?;
        let words = format!("a message of {length} bytes is larger than any that is read");
        return Ok(Some(Incoming::Rubbish(None, ErrorCode::InvalidRequest, words)));
    }
    let mut body = Vec::new();
    let count = input.by_ref().take(length).read_to_end(&mut body)?;
    if (count as u64) < length {
        return Ok(None);
    }
    Ok(Some(message(&body)))
}

fn message(body: &[u8]) -> Incoming {
    let value: Value = match serde_json::from_slice(body) {
        Ok(value) => value,
        Err(error) => {
            return Incoming::Rubbish(None, ErrorCode::ParseError, format!("what came is no JSON: {error}"));
        }
    };
    let id = value.get("id").cloned();
    let read = id.clone().and_then(|id| serde_json::from_value::<RequestId>(id).ok());
    let is_call = value.get("method").is_some_and(Value::is_string);
    let unreadable = id.is_some() && read.is_none();
    let is_answer = value.get("result").is_some() || value.get("error").is_some();
    match serde_json::from_value::<Message>(value) {
        Ok(message) if is_call && !unreadable || is_answer => Incoming::Message(message),
        _ => Incoming::Rubbish(read, ErrorCode::InvalidRequest, "what came is not a message".to_owned()),
    }
}

/// Files that are not open.
struct FileSystem;

impl Disk for FileSystem {
    fn loader(&self, first: &str, folder: &str) -> Box<dyn Loader> {
        let folder = if folder.is_empty() { "/" } else { folder };
        Box::new(DiskLoader::of_file(first, Some(Path::new(folder))))
    }

    fn real(&self, path: &str) -> String {
        let whole = Path::new(path);
        let folder = || Some(fs::canonicalize(whole.parent()?).ok()?.join(whole.file_name()?));
        // Of a file that is not saved yet, the folder at least is real.
        let real = fs::canonicalize(whole).ok().or_else(folder);
        real.and_then(|real| real.to_str().map(str::to_owned)).unwrap_or_else(|| path.to_owned())
    }
}
