//! The head of a request (RFC 9112), which is all there is of those that are answered.

use fustian::preview::{Request, Response};
use std::io::{self, Read};
use std::net::TcpStream;
use std::time::{Duration, Instant};

/// The longest head.
const HEAD_BYTES: usize = 16 * 1024;
/// The most headers.
const HEADERS: usize = 64;
/// How long a head may take to come.
const PATIENCE: Duration = Duration::from_secs(5);

/// A head that has come.
pub enum Head {
    /// All of it.
    Whole(Asked),
    /// What is wrong with it.
    Bad(Response),
    /// Whoever began it went away, or never began.
    Gone,
}

/// What is asked, with its text.
pub struct Asked {
    method: String,
    target: String,
    host: Option<String>,
    origin: Option<String>,
    site: Option<String>,
    mode: Option<String>,
    known: Option<String>,
}

impl Asked {
    pub fn request(&self) -> Request<'_> {
        Request {
            method: &self.method,
            target: &self.target,
            host: self.host.as_deref(),
            origin: self.origin.as_deref(),
            site: self.site.as_deref(),
            mode: self.mode.as_deref(),
            known: self.known.as_deref(),
        }
    }
}

/// Reads a head.
pub fn read(stream: &mut TcpStream) -> Head {
    let began = Instant::now();
    let mut bytes: Vec<u8> = Vec::with_capacity(1024);
    let mut next = [0; 2048];
    loop {
        let left = PATIENCE.saturating_sub(began.elapsed());
        if left.is_zero() || stream.set_read_timeout(Some(left)).is_err() {
            return Head::Gone;
        }
        match stream.read(&mut next) {
            Ok(0) => return Head::Gone,
            Ok(count) => bytes.extend_from_slice(next.get(..count).unwrap_or_default()),
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            Err(_) => return Head::Gone,
        }
        match understood(&bytes) {
            Ok(Some(asked)) => return Head::Whole(asked),
            Ok(None) if bytes.len() < HEAD_BYTES => {}
            Ok(None) => return Head::Bad(Response::words(431, "the head of the request is too long")),
            Err(response) => return Head::Bad(response),
        }
    }
}

/// What the bytes ask for; nothing where there have to be more of them.
fn understood(bytes: &[u8]) -> Result<Option<Asked>, Response> {
    let bad = || Response::words(400, "this is no request that was understood");
    let mut headers = [httparse::EMPTY_HEADER; HEADERS];
    let mut request = httparse::Request::new(&mut headers);
    match request.parse(bytes) {
        Ok(httparse::Status::Complete(_)) => {}
        Ok(httparse::Status::Partial) => return Ok(None),
        Err(httparse::Error::TooManyHeaders) => {
            return Err(Response::words(431, "the request has too many headers"));
        }
        Err(_) => return Err(bad()),
    }
    let value = |name: &str| -> Result<Option<String>, Response> {
        let mut found = request.headers.iter().filter(|header| header.name.eq_ignore_ascii_case(name));
        let Some(first) = found.next() else { return Ok(None) };
        // Of two that contradict each other neither is to be believed.
        if found.next().is_some() {
            return Err(bad());
        }
        std::str::from_utf8(first.value).map(|text| Some(text.to_owned())).map_err(|_| bad())
    };
    let has_body = value("Transfer-Encoding")?.is_some()
        || value("Content-Length")?.is_some_and(|length| length.trim() != "0");
    if has_body {
        return Err(Response::words(413, "nothing is taken here"));
    }
    Ok(Some(Asked {
        method: request.method.unwrap_or("").to_owned(),
        target: request.path.unwrap_or("").to_owned(),
        host: value("Host")?,
        origin: value("Origin")?,
        site: value("Sec-Fetch-Site")?,
        mode: value("Sec-Fetch-Mode")?,
        known: value("If-None-Match")?,
    }))
}
