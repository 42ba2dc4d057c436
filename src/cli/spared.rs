//! What a command writes must not be what it has read, nor another thing that it writes.

use super::outcome::Trouble;
use fustian::source::SourceMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Refuses, before anything is written, outputs that are a file of the garment or the same file twice.
pub fn spared(read: &SourceMap, outputs: &[Option<&Path>]) -> Result<(), Trouble> {
    let outputs: Vec<&Path> = outputs.iter().copied().flatten().collect();
    for (at, output) in outputs.iter().enumerate() {
        let own = Identity::of(output);
        if read.files().iter().any(|file| own.is(&Identity::of(Path::new(&*file.name)))) {
            let words = format!(
                "{} is a file that this garment is made of, and is not written over: name another",
                output.display()
            );
            return Err(Trouble::Message(words));
        }
        if outputs[..at].iter().any(|other| own.is(&Identity::of(other))) {
            let words = format!("{} cannot hold two outputs: name another file for one", output.display());
            return Err(Trouble::Message(words));
        }
    }
    Ok(())
}

/// Refuses files that are named twice, whichever way: what is in them would be taken twice.
pub fn named_once(files: &[String]) -> Result<(), Trouble> {
    let known: Vec<Identity> = files.iter().map(|file| Identity::of(Path::new(file))).collect();
    for (at, (file, own)) in files.iter().zip(&known).enumerate() {
        let before = files.iter().zip(&known).take(at);
        let Some((first, _)) = before.into_iter().find(|(first, other)| *first == file || own.is(other))
        else {
            continue;
        };
        let words = match first == file {
            true => format!("{file} is named twice: name it once"),
            false => format!("{file} and {first} are one file: name it once"),
        };
        return Err(Trouble::Message(words));
    }
    Ok(())
}

/// The same as [`spared`], but the file that is worked on itself may be written over where that is forced.
pub fn spared_unless(
    force: bool,
    file: &str,
    read: &SourceMap,
    output: Option<&Path>,
) -> Result<(), Trouble> {
    let Some(output) = output else { return Ok(()) };
    if Identity::of(output).is(&Identity::of(Path::new(file))) {
        if force {
            return Ok(());
        }
        let words =
            format!("{} is the file itself, and is left as it is; --force replaces it", output.display());
        return Err(Trouble::Message(words));
    }
    spared(read, &[Some(output)])
}

/// What tells one file from another, whichever way it is named.
struct Identity {
    path: PathBuf,
    /// Device and number: two names of one file have them in common.
    #[cfg(unix)]
    node: Option<(u64, u64)>,
}

impl Identity {
    fn of(path: &Path) -> Self {
        // A device such as `/dev/null` or `/dev/stdout` takes whatever is written to it, however often.
        #[cfg(unix)]
        let node = fs::metadata(path).ok().filter(fs::Metadata::is_file).map(|found| {
            use std::os::unix::fs::MetadataExt;
            (found.dev(), found.ino())
        });
        Self {
            path: real(path),
            #[cfg(unix)]
            node,
        }
    }

    #[cfg(unix)]
    fn is(&self, other: &Self) -> bool {
        let is_device = |path: &Path| fs::metadata(path).is_ok_and(|found| !found.is_file());
        match (self.node, other.node) {
            (Some(one), Some(two)) => one == two,
            _ => self.path == other.path && !is_device(&self.path),
        }
    }

    #[cfg(not(unix))]
    fn is(&self, other: &Self) -> bool {
        self.path == other.path
    }
}

/// Where a path leads. Of what is not there yet, the folder is looked up.
fn real(path: &Path) -> PathBuf {
    if let Ok(real) = fs::canonicalize(path) {
        return real;
    }
    let target = end_of_links(path);
    let folder = match target.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    match (fs::canonicalize(folder), target.file_name()) {
        (Ok(folder), Some(name)) => folder.join(name),
        _ => target,
    }
}

/// Where a link leads to in the end, though nothing is there: a link goes on being one when its file is written.
pub fn end_of_links(path: &Path) -> PathBuf {
    /// As many as Linux follows (path_resolution(7)).
    const LINKS: usize = 40;
    let mut target = path.to_owned();
    for _ in 0..LINKS {
        let Ok(next) = fs::read_link(&target) else { return target };
        target = match target.parent() {
            Some(folder) => folder.join(next),
            None => next,
        };
    }
    target
}
