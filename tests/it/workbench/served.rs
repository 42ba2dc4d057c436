//! The live view in a process of its own, and what it answers.

use super::fustian;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};
use std::time::{Duration, Instant};

/// Longer than any answer takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// A running server.
pub struct Served {
    /// Its process.
    pub child: Child,
    /// Its port on this machine.
    pub port: u16,
}

/// An answer.
pub struct Answered {
    /// The status.
    pub status: u16,
    /// Status line and headers.
    pub head: String,
    /// What follows them.
    pub body: Vec<u8>,
}

impl Answered {
    /// Whether there is a header with that value.
    pub fn has(&self, header: &str) -> bool {
        self.head.lines().any(|line| line.eq_ignore_ascii_case(header))
    }

    /// The body as JSON.
    pub fn json(&self) -> serde_json::Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{}: {error}", self.head))
    }
}

impl Served {
    /// Shows that file of a folder.
    pub fn of(folder: &Path, file: &str) -> Served {
        let mut child = fustian(folder)
            .args(["preview", file])
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let mut line = String::new();
        BufReader::new(child.stderr.take().expect("its messages")).read_line(&mut line).expect("its address");
        let port = line.split_once("127.0.0.1:").and_then(|(_, rest)| rest.split_once('/'));
        let port =
            port.and_then(|(port, _)| port.parse().ok()).unwrap_or_else(|| panic!("no address: {line}"));
        Served { child, port }
    }

    /// Where the page is.
    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}/", self.port)
    }

    /// A connection, with a bound to how long is waited on it.
    pub fn connect(&self) -> TcpStream {
        let stream = TcpStream::connect(("127.0.0.1", self.port)).expect("it listens");
        stream.set_read_timeout(Some(PATIENCE)).expect("a bound");
        stream
    }

    /// Sends bytes as they are, and waits for all that comes.
    pub fn raw(&self, bytes: &[u8]) -> Answered {
        let mut stream = self.connect();
        stream.write_all(bytes).expect("sent");
        answered(&mut stream)
    }

    /// Asks for a path as a browser on this machine does.
    pub fn get(&self, target: &str) -> Answered {
        self.raw(self.request(target).as_bytes())
    }

    /// The request for a path.
    pub fn request(&self, target: &str) -> String {
        format!("GET {target} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n", self.port)
    }

    /// Listens to what is told.
    pub fn events(&self) -> BufReader<TcpStream> {
        let mut stream = self.connect();
        stream.write_all(self.request("/events").as_bytes()).expect("sent");
        BufReader::new(stream)
    }

    /// Waits for the end of the process, no longer than so.
    pub fn ended(&mut self, patience: Duration) -> Option<std::process::ExitStatus> {
        let began = Instant::now();
        while began.elapsed() < patience {
            if let Some(status) = self.child.try_wait().expect("a process") {
                return Some(status);
            }
            std::thread::sleep(Duration::from_millis(5));
        }
        None
    }
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// All that comes until the other side closes, taken apart.
pub fn answered(stream: &mut TcpStream) -> Answered {
    let mut bytes = Vec::new();
    // Where more was sent than is read the other side may end it roughly, after its answer.
    let _ = stream.read_to_end(&mut bytes);
    let at = bytes.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or(bytes.len());
    let head = String::from_utf8_lossy(&bytes[..at]).into_owned();
    let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
    Answered { status, head, body: bytes.get(at + 4..).unwrap_or_default().to_vec() }
}

/// The number of the next text that is told.
pub fn next_told(events: &mut BufReader<TcpStream>) -> u64 {
    loop {
        let mut line = String::new();
        assert!(events.read_line(&mut line).expect("an event") > 0, "it went away");
        if let Some(number) = line.strip_prefix("data: ") {
            return number.trim().parse().expect("a number");
        }
    }
}
