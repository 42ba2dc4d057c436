//! Connections: a thread each, so many at once and no more, each answered once and closed.

use super::head::{Head, read};
use super::hub::Hub;
use fustian::preview::{Answer, Door, Response, answer};
use std::fmt::Write as _;
use std::io::{self, Read, Write};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;
use std::time::{Duration, Instant};

/// The most connections at once.
const CONNECTIONS: usize = 50;
/// How long an answer may take to be taken.
const PATIENCE: Duration = Duration::from_secs(20);
/// How long a bit of it may.
const BIT_PATIENCE: Duration = Duration::from_secs(5);
/// How often it is looked whether anybody still waits for events.
const LOOK: Duration = Duration::from_secs(1);
/// A word goes to whoever waits after so many looks, so that nothing between us takes them for gone.
const WORD: u32 = 10;
/// After an accident in accepting there is a pause: it may be that too much is open.
const PAUSE: Duration = Duration::from_millis(20);

/// One of the connections that are open.
struct Place(Arc<AtomicUsize>);

impl Place {
    fn take(open: &Arc<AtomicUsize>) -> Option<Place> {
        let place = Place(open.clone());
        let before = open.fetch_add(1, Ordering::Relaxed);
        (before < CONNECTIONS).then_some(place)
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        self.0.fetch_sub(1, Ordering::Relaxed);
    }
}

/// Answers whoever comes, for ever.
pub fn accept(listener: &TcpListener, door: Door, hub: &Arc<Hub>) {
    let open = Arc::new(AtomicUsize::new(0));
    loop {
        let Ok((mut stream, _)) = listener.accept() else {
            thread::sleep(PAUSE);
            continue;
        };
        let Some(place) = Place::take(&open) else {
            refuse(&mut stream);
            continue;
        };
        let hub = hub.clone();
        // Where there can be no more threads the connection is closed.
        let _ = thread::Builder::new().name("connection".to_owned()).spawn(move || {
            serve(&mut stream, door, &hub);
            drop(place);
        });
    }
}

/// Says that there are too many, without waiting for anything.
fn refuse(stream: &mut TcpStream) {
    if stream.set_nonblocking(true).is_ok() {
        // What is not read would have the answer thrown away with it.
        let _ = stream.read(&mut [0; 4096]);
        let response = Response::words(503, "too much is asked for at once; try again");
        let _ = stream.write_all(&head(&response, true)).and_then(|()| stream.write_all(&response.body));
    }
}

fn serve(stream: &mut TcpStream, door: Door, hub: &Hub) {
    let answered = match read(stream) {
        Head::Gone => return,
        Head::Bad(response) => Answer::Whole(response),
        Head::Whole(asked) => answer(&hub.now(), door, &asked.request()),
    };
    // Whoever goes away meanwhile needs no answer.
    let _ = match answered {
        Answer::Whole(response) => send(stream, &response),
        Answer::Events(response) => tell(stream, &response, hub),
    };
    let _ = stream.shutdown(Shutdown::Both);
}

fn send(stream: &mut TcpStream, response: &Response) -> io::Result<()> {
    let began = Instant::now();
    for part in [&head(response, true)[..], &response.body[..]] {
        let mut rest = part;
        while !rest.is_empty() {
            let left = PATIENCE.saturating_sub(began.elapsed()).min(BIT_PATIENCE);
            if left.is_zero() {
                return Err(io::ErrorKind::TimedOut.into());
            }
            stream.set_write_timeout(Some(left))?;
            match stream.write(rest) {
                Ok(0) => return Err(io::ErrorKind::WriteZero.into()),
                Ok(count) => rest = rest.get(count..).unwrap_or_default(),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
    }
    stream.flush()
}

/// An event for each text, until nobody waits any more.
fn tell(stream: &mut TcpStream, response: &Response, hub: &Hub) -> io::Result<()> {
    stream.set_write_timeout(Some(BIT_PATIENCE))?;
    stream.set_nodelay(true)?;
    stream.write_all(&head(response, false))?;
    stream.write_all(b"retry: 500\n\n")?;
    let mut told = hub.now().serial();
    stream.write_all(event(told).as_bytes())?;
    let mut silent = 0;
    loop {
        let now = hub.wait(told, LOOK);
        if now != told {
            told = now;
            silent = 0;
            stream.write_all(event(told).as_bytes())?;
            continue;
        }
        if is_gone(stream)? {
            return Ok(());
        }
        silent += 1;
        if silent % WORD == 0 {
            stream.write_all(b":\n\n")?;
        }
    }
}

fn event(serial: u64) -> String {
    format!("event: change\ndata: {serial}\n\n")
}

/// Whether the other side has closed.
fn is_gone(stream: &TcpStream) -> io::Result<bool> {
    stream.set_nonblocking(true)?;
    let peeked = stream.peek(&mut [0; 1]);
    stream.set_nonblocking(false)?;
    match peeked {
        Ok(count) => Ok(count == 0),
        Err(error) if error.kind() == io::ErrorKind::WouldBlock => Ok(false),
        Err(error) => Err(error),
    }
}

/// Status line and headers; how long the answer is, where that is known.
fn head(response: &Response, is_whole: bool) -> Vec<u8> {
    let mut head = format!("HTTP/1.1 {} {}\r\n", response.status, reason(response.status));
    for (name, value) in &response.headers {
        // Writing to a String cannot fail.
        let _ = write!(head, "{name}: {value}\r\n");
    }
    // What has not changed has a length of its own, which is not that of nothing.
    if is_whole && response.status != 304 {
        let _ = write!(head, "Content-Length: {}\r\n", response.length);
    }
    head.push_str("Connection: close\r\n\r\n");
    head.into_bytes()
}

fn reason(status: u16) -> &'static str {
    match status {
        200 => "OK",
        304 => "Not Modified",
        400 => "Bad Request",
        403 => "Forbidden",
        404 => "Not Found",
        405 => "Method Not Allowed",
        409 => "Conflict",
        413 => "Content Too Large",
        431 => "Request Header Fields Too Large",
        503 => "Service Unavailable",
        _ => "Internal Server Error",
    }
}
