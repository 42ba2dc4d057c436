use super::arguments::Check;
use super::check::{compile_all_again, show};
use super::outcome::{Outcome, Trouble};
use super::output;
use super::saves::Saves;
use super::work::PIPED;
use fustian::Compiled;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::time::Duration;

/// An editor that saves makes several changes at once; this long after the last one, we look.
const QUIET: Duration = Duration::from_millis(60);

/// Checks, and checks again whenever one of the files is saved. Ends only when it cannot go on.
pub fn run(command: &Check) -> Result<Outcome, Trouble> {
    if command.files.iter().any(|file| file == PIPED) {
        return Err(Trouble::Message("what is piped in cannot be watched: name a file".to_owned()));
    }
    let mut saves = Saves::new()?;
    let mut kept = Vec::new();
    loop {
        let compiled = compile_all_again(command, &mut kept)?;
        let files = files_of(command, &compiled);
        // What has changed since we read it is still told, because the folders of the first round are
        // watched before the second.
        if saves.watch(&files)? {
            continue;
        }
        show(command, &compiled)?;
        output::say("watching; stop with Ctrl-C\n");
        saves.wait(&files, QUIET)?;
    }
}

/// Every file of every chain, and those that were asked for and could not be read.
fn files_of(command: &Check, compiled: &[Compiled]) -> BTreeSet<PathBuf> {
    let read = compiled.iter().flat_map(|one| one.map.files()).map(|file| PathBuf::from(&*file.name));
    read.chain(command.files.iter().map(PathBuf::from)).collect()
}
