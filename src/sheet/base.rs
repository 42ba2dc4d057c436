//! What a variation is a variation of: its base, compiled from the texts that were read for it.

use super::moved::{Moved, moved};
use crate::compile::{Compiled, compile};
use crate::emit::{Comparison, Document, compare, document};
use crate::garment::Causes;
use crate::source::{LoadError, Loaded, Loader, SourceMap};

/// What differs between a garment and its base.
pub struct Differences {
    /// Figure by figure.
    pub comparison: Comparison,
    /// Edges that are as long as before and lie elsewhere.
    pub moved: Vec<Moved>,
    /// What the base says of itself.
    pub about: Option<String>,
}

/// What differs between a garment and its base; none where it has none, or the base cannot be made by itself.
pub fn differences(compiled: &Compiled, own: &Document) -> Option<Differences> {
    let garment = &compiled.garment;
    if garment.fitting.is_some() {
        return None;
    }
    let base = garment.files.iter().find(|file| file.is_base)?;
    let base = compile(&Reread(&compiled.map), &compiled.map.file(base.id).name);
    if base.has_mistakes() {
        return None;
    }
    let names: Vec<&str> = own.sizes.iter().map(|size| size.size.as_str()).collect();
    let sizes = base.sizes.iter().filter(|size| names.contains(&&*base.garment.size(size.id()).name));
    let before = document(&base.garment, sizes, &base.map, &[]);
    let comparison = compare(&before, own, &Causes::default(), garment.unit).ok()?;
    Some(Differences { comparison, moved: moved(&base, compiled), about: before.about })
}

/// Reads again what was read.
struct Reread<'a>(&'a SourceMap);

impl Loader for Reread<'_> {
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let name = match from.and_then(|from| from.rsplit_once('/')) {
            Some((folder, _)) => joined(folder, path),
            None => path.to_owned(),
        };
        let files = self.0.files();
        let found = files
            .iter()
            .find(|file| *file.name == *name)
            .or_else(|| files.iter().find(|file| *file.name == *path));
        let found = found.ok_or(LoadError::Missing)?;
        Ok(Loaded {
            key: found.name.clone(),
            name: found.name.clone(),
            bytes: found.text.as_bytes().to_vec(),
        })
    }
}

/// A path beside others in a folder, without steps that lead nowhere.
fn joined(folder: &str, path: &str) -> String {
    let mut parts: Vec<&str> = folder.split('/').collect();
    for part in path.split('/') {
        match part {
            "." | "" => {}
            ".." if parts.last().is_some_and(|last| *last != ".." && !last.is_empty()) => {
                parts.pop();
            }
            part => parts.push(part),
        }
    }
    parts.join("/")
}

#[cfg(test)]
mod tests {
    use super::joined;

    #[test]
    fn what_a_file_names_lies_beside_it() {
        assert_eq!(joined("examples", "deck-smock.fus"), "examples/deck-smock.fus");
        assert_eq!(joined("/a/crew", "../base/./one.fus"), "/a/base/one.fus");
    }
}
