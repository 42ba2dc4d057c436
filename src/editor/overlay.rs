use super::document::Documents;
use crate::limits::FILE_BYTES;
use crate::source::{LoadError, Loaded, Loader};

/// Where files come from that are not open.
pub trait Disk: Send + Sync {
    /// A loader for the garment in the file at `first`, which lets nothing out of `folder`.
    fn loader(&self, first: &str, folder: &str) -> Box<dyn Loader>;

    /// The path without links, where there is such a file; else as it is.
    fn real(&self, path: &str) -> String;
}

/// OpenDocument documents, saved or not, before what is on the disk.
pub(super) struct Overlay<'a> {
    pub documents: &'a Documents,
    pub disk: Box<dyn Loader>,
    /// The path of the first file.
    pub first: &'a str,
    /// The folder that nothing may leave.
    pub folder: &'a str,
}

impl Overlay<'_> {
    fn open(&self, path: &str) -> Option<Result<Loaded, LoadError>> {
        let (key, document) = self.documents.get_key_value(path)?;
        if document.text.len() > FILE_BYTES {
            return Some(Err(LoadError::TooLarge));
        }
        let name = shown(self.folder, path).into();
        Some(Ok(Loaded { key: key.clone(), name, bytes: document.text.as_bytes().to_vec() }))
    }
}

impl Loader for Overlay<'_> {
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let wanted = match from {
            None => self.first.to_owned(),
            Some(from) => {
                let wanted = beside(from, path).filter(|wanted| is_in(self.folder, wanted));
                wanted.ok_or(LoadError::Outside)?
            }
        };
        if let Some(open) = self.open(&wanted) {
            return open;
        }
        // What is only in the editor and was never saved has no folder on the disk.
        if !self.first.starts_with('/') && !self.first.contains(":/") {
            return Err(LoadError::Missing);
        }
        let loaded = self.disk.load(from, path)?;
        if let Some(open) = self.open(&loaded.key) {
            return open;
        }
        Ok(Loaded { name: shown(self.folder, &loaded.key).into(), ..loaded })
    }
}

/// The folder of a path; nothing of a path without one.
pub(super) fn folder_of(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(folder, _)| folder)
}

/// The path as a maker in that folder would write it.
fn shown<'p>(folder: &str, path: &'p str) -> &'p str {
    let inside = path.strip_prefix(folder).filter(|_| !folder.is_empty());
    inside.and_then(|rest| rest.strip_prefix('/')).unwrap_or(path)
}

/// The whole path of what [`shown`] gave.
pub(super) fn whole(folder: &str, name: &str) -> String {
    match folder.is_empty() || name.starts_with('/') {
        true => name.to_owned(),
        false => format!("{folder}/{name}"),
    }
}

fn is_in(folder: &str, path: &str) -> bool {
    path.strip_prefix(folder).is_some_and(|rest| rest.starts_with('/') || folder.is_empty())
}

/// A path as written in another file, with `.` and `..` worked out; none where it is absolute or
/// climbs above everything.
pub(super) fn beside(from: &str, path: &str) -> Option<String> {
    if path.starts_with('/') || path.contains('\\') || path.as_bytes().get(1) == Some(&b':') {
        return None;
    }
    let mut parts: Vec<&str> = folder_of(from).split('/').collect();
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop().filter(|part| !part.is_empty())?;
            }
            name => parts.push(name),
        }
    }
    Some(parts.join("/"))
}
