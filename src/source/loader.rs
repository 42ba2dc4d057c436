use indexmap::IndexMap;
use std::sync::Arc;

/// A text that a loader found.
#[derive(Clone, Debug)]
pub struct Loaded {
    /// One name per file, however it was reached; used to see that a file includes itself.
    pub key: Arc<str>,
    /// The name shown to people.
    pub name: Arc<str>,
    /// The bytes, not yet known to be UTF-8.
    pub bytes: Vec<u8>,
}

/// Why a text could not be had.
#[derive(Clone, Debug, thiserror::Error, PartialEq, Eq)]
#[non_exhaustive]
pub enum LoadError {
    /// Nothing of that name.
    #[error("there is no such file")]
    Missing,
    /// It lies outside the folder that the first file is in.
    #[error("it lies outside the folder")]
    Outside,
    /// It is larger than [`crate::limits::FILE_BYTES`].
    #[error("it is too large")]
    TooLarge,
    /// Anything else, in the system's words.
    #[error("{0}")]
    Unreadable(String),
}

/// Where texts come from: a disk for the command line, unsaved buffers for an editor, memory for
/// tests. Implementations keep to the folder of the first file.
pub trait Loader: Send + Sync {
    /// Loads `path` as written in the file whose key is `from` (`None` for the first file).
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError>;
}

/// Texts held in memory, by path. What a file names is looked for in its own folder first.
#[derive(Clone, Debug, Default)]
pub struct MemoryLoader {
    files: IndexMap<String, Vec<u8>>,
}

impl MemoryLoader {
    /// An empty one.
    pub fn new() -> Self {
        Self::default()
    }

    /// The same with one more file.
    pub fn with(mut self, path: &str, text: impl Into<Vec<u8>>) -> Self {
        self.files.insert(path.to_owned(), text.into());
        self
    }
}

impl Loader for MemoryLoader {
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        if path.split('/').any(|part| part == "..") || path.starts_with('/') {
            return Err(LoadError::Outside);
        }
        let folder = from.and_then(|from| from.rsplit_once('/')).map(|(folder, _)| folder);
        let beside = folder.map(|folder| format!("{folder}/{path}"));
        let path = beside.as_deref().filter(|beside| self.files.contains_key(*beside)).unwrap_or(path);
        let bytes = self.files.get(path).ok_or(LoadError::Missing)?;
        if bytes.len() > crate::limits::FILE_BYTES {
            return Err(LoadError::TooLarge);
        }
        Ok(Loaded { key: path.into(), name: path.into(), bytes: bytes.clone() })
    }
}
