use super::arguments::Check;
use super::check::{compile_all, show};
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::PIPED;
use fustian::Compiled;
use notify::{RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// An editor that saves makes several changes at once; this long after the last one, we look.
const QUIET: Duration = Duration::from_millis(60);

/// Checks, and checks again whenever one of the files is saved. Ends only when it cannot go on.
pub fn run(command: &Check) -> Result<Outcome, Trouble> {
    if command.files.iter().any(|file| file == PIPED) {
        return Err(Trouble::Message("what is piped in cannot be watched: name a file".to_owned()));
    }
    let cannot = |error: notify::Error| Trouble::Message(format!("files cannot be watched here: {error}"));
    let (sender, changes) = channel();
    let mut watcher = notify::recommended_watcher(sender).map_err(cannot)?;
    let mut watched: BTreeSet<PathBuf> = BTreeSet::new();
    loop {
        let compiled = compile_all(command)?;
        let files = files_of(command, &compiled);
        // Folders are watched, not files: many editors save by putting a new file in the place of
        // the old one. What has changed since we read it is still told, because the folders of
        // the first round are watched before the second.
        let folders: BTreeSet<PathBuf> = files.iter().filter_map(|file| folder_of(file)).collect();
        let mut is_new = false;
        for folder in folders.difference(&watched.clone()) {
            watcher.watch(folder, RecursiveMode::NonRecursive).map_err(cannot)?;
            watched.insert(folder.clone());
            is_new = true;
        }
        if is_new {
            continue;
        }
        show(command, &compiled)?;
        output::say("watching; stop with Ctrl-C\n");
        wait(&changes, &files)?;
    }
}

/// Every file of every chain, and those that were asked for and could not be read.
fn files_of(command: &Check, compiled: &[Compiled]) -> BTreeSet<PathBuf> {
    let read = compiled.iter().flat_map(|one| one.map.files()).map(|file| PathBuf::from(&*file.name));
    read.chain(command.files.iter().map(PathBuf::from)).collect()
}

fn folder_of(file: &Path) -> Option<PathBuf> {
    let folder = match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    fs::canonicalize(folder).ok()
}

/// Waits until one of the files has changed and all is quiet again. A missing base may be anything
/// that ends in `.fus` in those folders.
fn wait(changes: &Receiver<notify::Result<notify::Event>>, files: &BTreeSet<PathBuf>) -> Result<(), Trouble> {
    let names: BTreeSet<_> = files.iter().filter_map(|file| file.file_name()).collect();
    let concerns = |event: &notify::Result<notify::Event>| match event {
        Ok(event) if event.kind.is_access() => false,
        Ok(event) => event.paths.iter().any(|path| {
            path.file_name().is_some_and(|name| names.contains(name))
                || path.extension().is_some_and(|extension| extension == "fus")
        }),
        // What was missed may have been one of them.
        Err(_) => true,
    };
    let gone = |_| Trouble::Message("files can no longer be watched".to_owned());
    while !concerns(&changes.recv().map_err(gone)?) {}
    while changes.recv_timeout(QUIET).is_ok() {}
    Ok(())
}
