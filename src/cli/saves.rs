//! Waiting for files to be saved.

use super::outcome::Trouble;
use notify::event::{EventKind, ModifyKind};
use notify::{Event, RecommendedWatcher, RecursiveMode, Watcher};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::time::Duration;

/// How often a folder that is gone is looked for.
const AGAIN: Duration = Duration::from_millis(500);

/// What is told of the folders that some files are in.
///
/// Folders are watched, not files: many editors save by putting a new file in the place of the old one.
pub struct Saves {
    watcher: RecommendedWatcher,
    changes: Receiver<notify::Result<Event>>,
    folders: BTreeSet<PathBuf>,
}

impl Saves {
    /// Of no folder yet.
    pub fn new() -> Result<Self, Trouble> {
        let (sender, changes) = channel();
        let watcher = notify::recommended_watcher(sender).map_err(|error| cannot(&error))?;
        Ok(Saves { watcher, changes, folders: BTreeSet::new() })
    }

    /// Watches the folders of these files. Whether any of them is new: what has been read before may have changed
    /// since, and nothing was told.
    pub fn watch(&mut self, files: &BTreeSet<PathBuf>) -> Result<bool, Trouble> {
        let mut is_new = false;
        for folder in files.iter().filter_map(|file| folder_of(file)) {
            if self.folders.contains(&folder) {
                continue;
            }
            self.watcher.watch(&folder, RecursiveMode::NonRecursive).map_err(|error| cannot(&error))?;
            self.folders.insert(folder);
            is_new = true;
        }
        Ok(is_new)
    }

    /// Waits until one of the files has changed and all has been quiet for so long: an editor that saves makes
    /// several changes at once. A missing base may be anything that ends in `.fus` in those folders.
    pub fn wait(&mut self, files: &BTreeSet<PathBuf>, quiet: Duration) -> Result<(), Trouble> {
        let gone = || Trouble::Message("files can no longer be watched".to_owned());
        loop {
            // Of a folder that is not there nothing is told.
            let is_away = files.iter().any(|file| folder_of(file).is_none());
            let told = match is_away {
                false => self.changes.recv().map_err(|_| gone())?,
                true => match self.changes.recv_timeout(AGAIN) {
                    Ok(told) => told,
                    Err(RecvTimeoutError::Timeout) if self.is_back(files) => return Ok(()),
                    Err(RecvTimeoutError::Timeout) => continue,
                    Err(RecvTimeoutError::Disconnected) => return Err(gone()),
                },
            };
            if self.concerns(&told, files) {
                break;
            }
        }
        while let Ok(told) = self.changes.recv_timeout(quiet) {
            self.concerns(&told, files);
        }
        Ok(())
    }

    /// Whether there is a folder that was not, or is another one now.
    fn is_back(&self, files: &BTreeSet<PathBuf>) -> bool {
        files.iter().filter_map(|file| folder_of(file)).any(|folder| !self.folders.contains(&folder))
    }

    fn concerns(&mut self, told: &notify::Result<Event>, files: &BTreeSet<PathBuf>) -> bool {
        let event = match told {
            Ok(event) if event.kind.is_access() => return false,
            Ok(event) => event,
            // What was missed may have been one of them.
            Err(_) => return true,
        };
        if event.kind.is_remove() || matches!(event.kind, EventKind::Modify(ModifyKind::Name(_))) {
            let gone: Vec<&PathBuf> =
                event.paths.iter().filter(|path| self.folders.contains(*path)).collect();
            for folder in &gone {
                // It is gone, and with it what was told of it.
                let _ = self.watcher.unwatch(folder);
                self.folders.remove(*folder);
            }
            if !gone.is_empty() {
                return true;
            }
        }
        event.paths.iter().any(|path| {
            path.file_name().is_some_and(|name| files.iter().any(|file| file.file_name() == Some(name)))
                || path.extension().is_some_and(|extension| extension == "fus")
        })
    }
}

fn cannot(error: &notify::Error) -> Trouble {
    Trouble::Message(format!("files cannot be watched here: {error}"))
}

fn folder_of(file: &Path) -> Option<PathBuf> {
    let folder = match file.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    fs::canonicalize(folder).ok()
}
