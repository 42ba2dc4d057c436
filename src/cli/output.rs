use super::outcome::Trouble;
use super::spared::end_of_links;
use fustian::report::harmless;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Talk, to standard error. A file may be called by signs that a terminal obeys: it is not shown those.
pub fn say(words: &str) {
    show(&harmless(words));
}

/// Talk that is drawn, with the colours and moves of a terminal that are our own. When nobody listens there is nobody
/// to tell.
pub fn show(drawn: &str) {
    let _ = io::stderr().lock().write_all(drawn.as_bytes());
}

/// A result, to standard output.
pub fn put(text: &str) -> Result<(), Trouble> {
    let mut stdout = io::stdout().lock();
    stdout
        .write_all(text.as_bytes())
        .and_then(|()| stdout.flush())
        .map_err(|error| Trouble::of_stdout(&error))
}

/// A result, to a file: written beside it and put in its place only when it is whole, so that a
/// failure leaves what was there.
pub fn put_into(path: &Path, contents: impl AsRef<[u8]>) -> Result<(), Trouble> {
    write_beside(path, contents.as_ref())
        .map_err(|reason| Trouble::Message(format!("{} could not be written: {reason}", path.display())))
}

/// A result, to a file that must not be there yet. It is put in its place when it is whole: a full disk leaves nothing.
pub fn put_new(path: &Path, text: &str) -> Result<(), Trouble> {
    let cannot =
        |reason: String| Trouble::Message(format!("{} could not be written: {reason}", path.display()));
    let there = || Trouble::Message(format!("{} is there already, and is left as it is", path.display()));
    // A link that leads nowhere is there, too.
    if fs::symlink_metadata(path).is_ok() {
        return Err(there());
    }
    let folder = folder_of(path).map_err(cannot)?;
    let mut beside = new_file_in(&folder).map_err(|error| cannot(error.to_string()))?;
    beside.write_all(text.as_bytes()).map_err(|error| cannot(error.to_string()))?;
    beside.as_file().sync_all().map_err(|error| cannot(error.to_string()))?;
    match beside.persist_noclobber(path) {
        Ok(_) => Ok(()),
        Err(error) if error.error.kind() == io::ErrorKind::AlreadyExists => Err(there()),
        Err(error) => Err(cannot(error.error.to_string())),
    }
}

fn write_beside(path: &Path, bytes: &[u8]) -> Result<(), String> {
    // A link goes on leading to its file, which gets the new contents.
    let target = match fs::canonicalize(path) {
        Ok(target) => target,
        Err(error) if error.kind() == io::ErrorKind::NotFound => end_of_links(path),
        Err(error) => return Err(error.to_string()),
    };
    let before = match fs::metadata(&target) {
        Ok(before) if before.is_dir() => return Err("it is a folder; name a file in it".to_owned()),
        // A device or a pipe cannot be replaced, only written to.
        Ok(before) if !before.is_file() => {
            return fs::write(&target, bytes).map_err(|error| error.to_string());
        }
        Ok(before) if before.permissions().readonly() => return Err("it is write-protected".to_owned()),
        Ok(before) => Some(before),
        Err(_) => None,
    };
    let folder = folder_of(&target)?;
    let words = |error: io::Error| error.to_string();
    let mut beside = new_file_in(&folder).map_err(words)?;
    beside.write_all(bytes).map_err(words)?;
    if let Some(before) = before {
        beside.as_file().set_permissions(before.permissions()).map_err(words)?;
    }
    beside.as_file().sync_all().map_err(words)?;
    beside.persist(&target).map_err(|error| error.error.to_string())?;
    Ok(())
}

/// The folder that a file is to stand in.
fn folder_of(path: &Path) -> Result<PathBuf, String> {
    let folder = match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder.to_owned(),
        _ => PathBuf::from("."),
    };
    match folder.is_dir() {
        true => Ok(folder),
        false => Err(format!("there is no folder {}", folder.display())),
    }
}

/// A file with the permissions that any new file gets here, not the narrow ones of a temporary one.
fn new_file_in(folder: &Path) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(".fustian-").suffix(".part");
    #[cfg(unix)]
    let readable: fs::Permissions = std::os::unix::fs::PermissionsExt::from_mode(0o666);
    #[cfg(unix)]
    builder.permissions(readable);
    builder.tempfile_in(folder)
}
