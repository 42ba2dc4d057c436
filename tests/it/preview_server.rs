//! The live view over a real socket: many at once, rude ones, what is saved, and how it ends.

use crate::workbench::served::{Served, answered, next_told};
use crate::workbench::{err, examples, folder_of, fustian, run, with};
use serde_json::json;
use std::fs;
use std::io::{Read, Write};
use std::net::TcpListener;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// Longer than any answer takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(30);
/// The most connections that are answered at once.
const PLACES: usize = 50;

#[test]
fn the_page_is_served_to_this_machine_alone() {
    let folder = examples();
    let served = Served::of(folder.path(), "ticket-bag.fus");
    let page = served.get("/");
    assert_eq!(page.status, 200, "{}", page.head);
    assert!(page.has("X-Content-Type-Options: nosniff") && page.has("Connection: close"), "{}", page.head);
    assert!(page.has(&format!("Content-Length: {}", page.body.len())), "{}", page.head);
    assert_eq!(served.get("/standing").json()["title"], "Ticket bag");
    // Of a rebound name nothing is told.
    let rebound = b"GET /standing HTTP/1.1\r\nHost: ferry.example\r\n\r\n";
    assert_eq!(served.raw(rebound).status, 403);
    // It listens at no other address of this machine: another server may have them all.
    assert!(TcpListener::bind(("127.0.0.1", served.port)).is_err());
    assert!(TcpListener::bind(("127.0.0.2", served.port)).is_ok());
}

#[test]
fn rude_requests_are_answered_or_dropped() {
    let folder = examples();
    let served = Served::of(folder.path(), "ticket-bag.fus");
    let host = format!("Host: 127.0.0.1:{}", served.port);
    let status = |bytes: &[u8]| served.raw(bytes).status;
    assert_eq!(status(format!("GET /../../etc/passwd HTTP/1.1\r\n{host}\r\n\r\n").as_bytes()), 404);
    assert_eq!(status(format!("GET /ticket-bag.fus HTTP/1.1\r\n{host}\r\n\r\n").as_bytes()), 404);
    assert_eq!(status(b"GET / HTTP/1.1\r\n\r\n"), 403);
    assert_eq!(status(format!("GET / HTTP/1.1\r\n{host}\r\n{host}\r\n\r\n").as_bytes()), 400);
    assert_eq!(status(b"\x16\x03\x01\x02\x00\x01\x00"), 400);
    assert_eq!(status(b"GET / HTTP/9.9\r\n\r\n"), 400);
    assert_eq!(
        status(format!("POST / HTTP/1.1\r\n{host}\r\nContent-Length: 5\r\n\r\nhello").as_bytes()),
        413
    );
    assert_eq!(
        status(format!("POST / HTTP/1.1\r\n{host}\r\nTransfer-Encoding: chunked\r\n\r\n").as_bytes()),
        413
    );
    assert_eq!(status(format!("DELETE / HTTP/1.1\r\n{host}\r\n\r\n").as_bytes()), 405);
    let long = format!("GET /{} HTTP/1.1\r\n{host}\r\n\r\n", "x".repeat(60_000));
    assert_eq!(status(long.as_bytes()), 431);
    let many: String = (0..200).map(|at| format!("X-{at}: y\r\n")).collect();
    assert_eq!(status(format!("GET / HTTP/1.1\r\n{host}\r\n{many}\r\n").as_bytes()), 431);
    // One that begins and says no more is let go; all others are answered meanwhile.
    let began = Instant::now();
    let mut slow = served.connect();
    slow.write_all(b"GET / HT").expect("sent");
    assert_eq!(served.get("/standing").status, 200);
    let mut rest = Vec::new();
    let _ = slow.read_to_end(&mut rest);
    assert!(rest.is_empty() && began.elapsed() < PATIENCE, "{:?}", began.elapsed());
}

#[test]
fn fifty_at_once_are_answered_and_those_that_go_away_make_room() {
    let folder = examples();
    let served = Served::of(folder.path(), "ticket-bag.fus");
    // All are connected before the first asks.
    let mut all: Vec<_> = (0..PLACES).map(|_| served.connect()).collect();
    for stream in &mut all {
        stream.write_all(served.request("/standing").as_bytes()).expect("sent");
    }
    for mut stream in all {
        let answer = answered(&mut stream);
        assert_eq!((answer.status, &answer.json()["title"]), (200, &json!("Ticket bag")));
    }
    // Fifty that listen take all places; whoever comes then is told so, at once.
    let full = |served: &Served| served.get("/standing").status == 503;
    let began = Instant::now();
    let mut listening: Vec<_> = (0..PLACES).map(|_| served.events()).collect();
    for events in &mut listening {
        next_told(events);
    }
    assert!(full(&served));
    // They go away without a word.
    drop(listening);
    while full(&served) {
        assert!(began.elapsed() < PATIENCE, "the places were never free again");
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_save_of_any_file_of_the_chain_is_told_within_a_moment() {
    let folder = examples();
    let served = Served::of(folder.path(), "deck-jacket.fus");
    let mut events = served.events();
    assert_eq!(next_told(&mut events), 0);
    let smock = folder.path().join("deck-smock.fus");
    let text = fs::read_to_string(&smock).expect("a text");
    let mut took = Vec::new();
    for round in 1..=5u64 {
        let changed = with(&text, &[("about \"", &format!("about \"{round} "))]);
        let began = Instant::now();
        fs::write(&smock, changed).expect("written");
        assert_eq!(next_told(&mut events), round);
        took.push(began.elapsed());
    }
    took.sort();
    // As long as looking at it takes, however fast the program was built and the machine is, and what a save needs to be
    // quiet: beyond that hardly anything is done before it is told.
    let checked = (0..3).map(|_| {
        let began = Instant::now();
        assert!(run(folder.path(), &["check", "deck-jacket.fus"]).status.success());
        began.elapsed()
    });
    let checked = checked.min().unwrap_or_default();
    println!("from the save of a base of the jacket to the event: {took:?}; checked in {checked:?}");
    assert!(took[0] < 2 * checked + Duration::from_millis(75), "{took:?}, and checked in {checked:?}");
    if !cfg!(debug_assertions) {
        assert!(took[0] < Duration::from_millis(200), "{took:?}");
    }
    // As many editors save: a new file in the place of the old.
    let beside = folder.path().join("deck-smock.fus.part");
    fs::write(&beside, text.replace("let ease ", "let eese ")).expect("written");
    fs::rename(&beside, &smock).expect("renamed");
    next_told(&mut events);
    assert_eq!(served.get("/standing").json()["standing"], "broken");
}

#[test]
fn a_file_or_folder_that_is_deleted_while_it_is_viewed_is_taken_up_again() {
    let outer = tempfile::TempDir::new().expect("a folder");
    let folder = outer.path().join("crew");
    let bag = crate::workbench::example("ticket-bag");
    let put = || {
        fs::create_dir_all(&folder).expect("a folder");
        fs::write(folder.join("ticket-bag.fus"), &bag).expect("written");
    };
    put();
    let served = Served::of(outer.path(), "crew/ticket-bag.fus");
    let mut events = served.events();
    let sound = served.get("/pieces?size=small").body;
    let until = |wanted: &str| {
        let began = Instant::now();
        while served.get("/standing").json()["standing"] != wanted {
            assert!(began.elapsed() < PATIENCE, "it never was {wanted}");
            std::thread::sleep(Duration::from_millis(20));
        }
    };
    assert_eq!(next_told(&mut events), 0);
    fs::remove_file(folder.join("ticket-bag.fus")).expect("deleted");
    next_told(&mut events);
    until("broken");
    assert_eq!(served.get("/standing").json()["messages"][0]["slug"], "file/missing");
    assert!(served.get("/pieces?size=small").body == sound, "the last good garment is shown");
    put();
    until("sound");
    fs::remove_dir_all(&folder).expect("deleted");
    until("broken");
    put();
    until("sound");
}

#[cfg(unix)]
#[test]
fn an_interrupt_ends_it_at_once() {
    let folder = examples();
    let mut served = Served::of(folder.path(), "ticket-bag.fus");
    let mut events = served.events();
    next_told(&mut events);
    // One is being searched for a lay, one is half sent.
    let mut laying = served.connect();
    laying.write_all(served.request("/lay?size=small").as_bytes()).expect("sent");
    let mut half = served.connect();
    half.write_all(b"GET /").expect("sent");
    let began = Instant::now();
    let sent = Command::new("kill").args(["-INT", &served.child.id().to_string()]).status().expect("kill");
    assert!(sent.success());
    let status = served.ended(PATIENCE).expect("it ends");
    println!("from the interrupt to the end: {:?}", began.elapsed());
    assert!(began.elapsed() < Duration::from_millis(500), "{:?}", began.elapsed());
    assert_eq!(status.code(), Some(0));
}

#[test]
fn what_cannot_be_shown_is_said() {
    let folder = folder_of(&[("bag.fus", &crate::workbench::example("ticket-bag"))]);
    let piped = run(folder.path(), &["preview", "-"]);
    assert_eq!(
        (piped.status.code(), err(&piped).contains("name a file")),
        (Some(2), true),
        "{}",
        err(&piped)
    );
    let missing = run(folder.path(), &["preview", "none.fus"]);
    assert_eq!(
        (missing.status.code(), err(&missing).contains("none.fus")),
        (Some(2), true),
        "{}",
        err(&missing)
    );
    let taken = TcpListener::bind(("127.0.0.1", 0)).expect("a port");
    let port = taken.local_addr().expect("an address").port().to_string();
    let busy = run(folder.path(), &["preview", "bag.fus", "--port", &port]);
    assert_eq!((busy.status.code(), err(&busy).contains(&port)), (Some(2), true), "{}", err(&busy));
    // A port that is asked for is taken.
    drop(taken);
    let mut command = fustian(folder.path());
    command.args(["preview", "bag.fus", "--port", &port]).stderr(Stdio::piped());
    let mut child = command.spawn().expect("the program starts");
    let mut said = [0; 64];
    let mut stderr = child.stderr.take().expect("its messages");
    let count = stderr.read(&mut said).expect("its address");
    let said = String::from_utf8_lossy(&said[..count]).into_owned();
    child.kill().expect("ended");
    child.wait().expect("ended");
    assert!(said.contains(&format!("127.0.0.1:{port}/")), "{said}");
}
