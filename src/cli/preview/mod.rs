//! The live view: a small server on this machine for one browser, which follows every save.

mod connection;
mod head;
mod hub;

use super::arguments::Preview as Command;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::saves::Saves;
use super::work::{PIPED, compile_file_again, outcome_of, report};
use fustian::preview::{Door, Preview};
use fustian::{Compiled, Kept};
use hub::Hub;
use std::collections::BTreeSet;
use std::net::{Ipv4Addr, TcpListener};
use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::channel;
use std::thread;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// This long after the last of the changes that a save makes, we look.
const QUIET: Duration = Duration::from_millis(25);

/// Shows a garment until it is stopped.
pub fn run(command: &Command) -> Result<Outcome, Trouble> {
    if command.file == PIPED {
        return Err(Trouble::Message("what is piped in cannot be followed: name a file".to_owned()));
    }
    let mut saves = Saves::new()?;
    let mut kept = Kept::default();
    let first = followed(command, &mut saves, &mut kept)?;
    if outcome_of(&first) == Outcome::Unread {
        report(&first, &first.diagnostics);
        return Ok(Outcome::Unread);
    }
    let cannot = |reason: String| Trouble::Message(format!("no page can be served here: {reason}"));
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, command.port.unwrap_or(0))).map_err(|error| {
        cannot(match command.port {
            Some(port) => format!("port {port}: {error}; without --port a free one is taken"),
            None => error.to_string(),
        })
    })?;
    let port = listener.local_addr().map_err(|error| cannot(error.to_string()))?.port();
    let (end, ended) = channel();
    let stop = end.clone();
    let prepared = ctrlc::set_handler(move || drop(stop.send(Ok(()))));
    prepared.map_err(|error| cannot(format!("an interrupt could not be prepared for: {error}")))?;
    let files = files_of(command, &first);
    let hub = Arc::new(Hub::new(Preview::new(&run_name(), &command.file, first)));
    let served = hub.clone();
    thread::spawn(move || connection::accept(&listener, Door { port }, &served));
    output::say(&format!("{} is shown at http://127.0.0.1:{port}/; stop with Ctrl-C\n", command.file));
    let followed = command.clone();
    thread::spawn(move || {
        if let Err(trouble) = follow(&followed, saves, files, &hub, kept) {
            // Nobody listens any more where it has ended already.
            let _ = end.send(Err(trouble));
        }
    });
    // Whatever is still being worked out or sent ends with the process.
    ended.recv().unwrap_or(Ok(())).map(|()| Outcome::Good)
}

/// Compiles the file, with the folders of its chain watched from before it was read.
fn followed(command: &Command, saves: &mut Saves, kept: &mut Kept) -> Result<Compiled, Trouble> {
    loop {
        let compiled = compile_file_again(&command.file, command.folder.root.as_deref(), kept)?;
        if !saves.watch(&files_of(command, &compiled))? {
            return Ok(compiled);
        }
    }
}

/// Compiles anew after every save.
fn follow(
    command: &Command,
    mut saves: Saves,
    mut files: BTreeSet<PathBuf>,
    hub: &Hub,
    mut kept: Kept,
) -> Result<(), Trouble> {
    loop {
        saves.wait(&files, QUIET)?;
        let compiled = followed(command, &mut saves, &mut kept)?;
        // A file that is missing for a moment is still waited for.
        files.extend(files_of(command, &compiled));
        if !compiled.has_mistakes() {
            files = files_of(command, &compiled);
        }
        hub.put(compiled);
    }
}

/// Every file of the chain, and the one that was named.
fn files_of(command: &Command, compiled: &Compiled) -> BTreeSet<PathBuf> {
    let read = compiled.map.files().iter().map(|file| PathBuf::from(&*file.name));
    read.chain([PathBuf::from(&command.file)]).collect()
}

/// Another word in every run, so that a page of the run before asks for all anew.
fn run_name() -> String {
    let now = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    format!("{:x}-{:x}", now.as_nanos(), std::process::id())
}
