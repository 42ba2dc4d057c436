use fustian::limits::FILE_BYTES;
use fustian::source::{LoadError, Loaded, Loader};
use std::fs;
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

/// What a text that was piped in is called.
const PIPED_IN: &str = "standard input";

/// Reads files from the disk, none outside of one folder, however it is reached.
#[derive(Debug)]
pub struct DiskLoader {
    /// The folder limit as the maker gave it, if so.
    root: Option<PathBuf>,
    /// The first file as the maker wrote it; none when its text was piped in.
    first: Option<PathBuf>,
    /// The text that was piped in.
    piped: Vec<u8>,
    /// Where what is named is looked for when it is not beside the file that names it.
    bases: Option<PathBuf>,
}

impl DiskLoader {
    /// For a garment in a file, with the folder limit if the maker gave one.
    pub fn of_file(path: &str, root: Option<&Path>) -> Self {
        DiskLoader {
            root: root.map(Path::to_owned),
            first: Some(path.into()),
            piped: Vec::new(),
            bases: None,
        }
    }

    /// For a garment that was piped in; its paths start from the current folder.
    pub fn of_text(piped: Vec<u8>, root: Option<&Path>) -> Self {
        DiskLoader { root: root.map(Path::to_owned), first: None, piped, bases: None }
    }

    /// The same with another folder in which bases and libraries are looked for.
    pub fn with_bases(self, bases: Option<&Path>) -> Self {
        DiskLoader { bases: bases.map(Path::to_owned), ..self }
    }

    /// The folder that nothing may leave, without links in it, and what it is called.
    fn folder(&self) -> Result<(PathBuf, PathBuf), LoadError> {
        if let Some(root) = &self.root {
            return Ok((real(root)?, root.clone()));
        }
        let Some(first) = &self.first else {
            return Ok((real(Path::new("."))?, PathBuf::new()));
        };
        let file = real(first)?;
        let folder = file.parent().map_or_else(|| file.clone(), Path::to_owned);
        let called = first.parent().map_or_else(PathBuf::new, Path::to_owned);
        // Where the first file is itself a link, its folder is not the one that was written.
        let written = if called.as_os_str().is_empty() { Path::new(".") } else { &called };
        match real(written)? == folder {
            true => Ok((folder, called)),
            false => Ok((folder.clone(), folder)),
        }
    }

    fn load_first(&self) -> Result<Loaded, LoadError> {
        let Some(first) = &self.first else {
            if self.piped.len() > FILE_BYTES {
                return Err(LoadError::TooLarge);
            }
            let key = text(&real(Path::new("."))?.join(PIPED_IN))?;
            return Ok(Loaded { key: key.into(), name: PIPED_IN.into(), bytes: self.piped.clone() });
        };
        let file = real(first)?;
        if !file.starts_with(self.folder()?.0) {
            return Err(LoadError::Outside);
        }
        Ok(Loaded { key: text(&file)?.into(), name: text(first)?.into(), bytes: read(&file)? })
    }
}

impl Loader for DiskLoader {
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let Some(from) = from else { return self.load_first() };
        let (folder, called) = self.folder()?;
        match (named(&folder, &called, from, path), &self.bases) {
            (Err(LoadError::Missing | LoadError::Outside), Some(bases)) => {
                named(&real(bases)?, bases, from, path)
            }
            (found, _) => found,
        }
    }
}

/// The disk, with another text in the first file.
pub struct Rewritten {
    pub disk: DiskLoader,
    pub text: String,
}

impl Loader for Rewritten {
    fn load(&self, from: Option<&str>, path: &str) -> Result<Loaded, LoadError> {
        let loaded = self.disk.load(from, path)?;
        Ok(match from {
            None => Loaded { bytes: self.text.clone().into_bytes(), ..loaded },
            Some(_) => loaded,
        })
    }
}

/// What a file names, within a folder: beside that file, or in the folder where it lies elsewhere.
fn named(folder: &Path, called: &Path, from: &str, path: &str) -> Result<Loaded, LoadError> {
    let beside = Path::new(from).parent().filter(|beside| beside.starts_with(folder)).unwrap_or(folder);
    // What leaves the folder by its name is not even looked for.
    let wanted = without_detours(beside, path).filter(|wanted| wanted.starts_with(folder));
    let file = real(&wanted.ok_or(LoadError::Outside)?)?;
    let Ok(inside) = file.strip_prefix(folder) else { return Err(LoadError::Outside) };
    Ok(Loaded { key: text(&file)?.into(), name: text(&called.join(inside))?.into(), bytes: read(&file)? })
}

/// The path from that folder, with `.` and `..` worked out; none for one that is not relative or
/// climbs above everything.
fn without_detours(folder: &Path, path: &str) -> Option<PathBuf> {
    let mut whole = folder.to_owned();
    for part in Path::new(path).components() {
        match part {
            Component::Normal(name) => whole.push(name),
            Component::CurDir => {}
            Component::ParentDir => {
                if !whole.pop() {
                    return None;
                }
            }
            Component::RootDir | Component::Prefix(_) => return None,
        }
    }
    Some(whole)
}

/// The path without links.
fn real(path: &Path) -> Result<PathBuf, LoadError> {
    fs::canonicalize(path).map_err(|error| trouble(&error))
}

fn text(path: &Path) -> Result<String, LoadError> {
    let text = path.to_str().ok_or_else(|| LoadError::Unreadable("its name is not UTF-8".to_owned()))?;
    Ok(text.to_owned())
}

fn trouble(error: &io::Error) -> LoadError {
    match error.kind() {
        io::ErrorKind::NotFound | io::ErrorKind::NotADirectory => LoadError::Missing,
        io::ErrorKind::PermissionDenied => {
            LoadError::Unreadable("its permissions do not allow it".to_owned())
        }
        _ => LoadError::Unreadable(error.to_string()),
    }
}

/// The bytes of an ordinary file. Nothing else is opened: a pipe would be waited for, and a device
/// may never end.
fn read(file: &Path) -> Result<Vec<u8>, LoadError> {
    let about = fs::metadata(file).map_err(|error| trouble(&error))?;
    if about.is_dir() {
        return Err(LoadError::Unreadable("it is a folder".to_owned()));
    }
    if !about.is_file() {
        return Err(LoadError::Unreadable("it is not an ordinary file".to_owned()));
    }
    if about.len() > FILE_BYTES as u64 {
        return Err(LoadError::TooLarge);
    }
    bounded(fs::File::open(file).map_err(|error| trouble(&error))?)
}

/// Everything that comes, unless it is too much: then only as much as shows it.
pub fn bounded(source: impl Read) -> Result<Vec<u8>, LoadError> {
    let mut bytes = Vec::new();
    source.take(FILE_BYTES as u64 + 1).read_to_end(&mut bytes).map_err(|error| trouble(&error))?;
    match bytes.len() > FILE_BYTES {
        true => Err(LoadError::TooLarge),
        false => Ok(bytes),
    }
}
