//! Running the program in a folder of its own, and garments that are changed by a word or two.

pub mod browser;
pub mod served;
pub mod terminal;

use fustian::resolve::DrawnPiece;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// The program, in that folder.
pub fn fustian(folder: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_fustian"));
    command.current_dir(folder).env_remove("NO_COLOR").env("TERM", "dumb").stdin(Stdio::null());
    command
}

/// What it did.
pub fn run(folder: &Path, arguments: &[&str]) -> Output {
    fustian(folder).args(arguments).output().expect("the program starts")
}

/// Files in memory, by name.
pub fn in_memory(files: &[(&str, &str)]) -> MemoryLoader {
    files.iter().fold(MemoryLoader::new(), |loader, (name, text)| loader.with(name, *text))
}

/// A folder with files in it.
pub fn folder_of(files: &[(&str, &str)]) -> TempDir {
    let folder = TempDir::new().expect("a folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("a file");
    }
    folder
}

/// A folder with the examples in it.
pub fn examples() -> TempDir {
    let folder = TempDir::new().expect("a folder");
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for entry in fs::read_dir(from).expect("the examples") {
        let path = entry.expect("an entry").path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            fs::copy(&path, folder.path().join(path.file_name().expect("a name"))).expect("a copy");
        }
    }
    folder
}

pub fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

pub fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// Another program, which has to do its work.
pub fn other(folder: &Path, program: &str, arguments: &[&str]) -> Output {
    let mut command = Command::new(program);
    command.args(arguments).current_dir(folder).stdin(Stdio::null());
    let output = command.output().unwrap_or_else(|error| panic!("{program} is needed here: {error}"));
    assert!(output.status.success(), "{program} {arguments:?}: {}\n{}", out(&output), err(&output));
    output
}

/// Nothing is said.
pub const NOTHING: [&str; 0] = [];

/// An example's text.
pub fn example(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name).with_extension("fus");
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The text of the example that makes a mistake.
pub fn mistake(slug: &str) -> String {
    example(&format!("mistakes/{slug}"))
}

/// A garment of that text alone.
pub fn of(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("own.fus", text), "own.fus")
}

/// The paper of a piece in the first size.
pub fn paper<'a>(compiled: &'a Compiled, piece: &str) -> &'a DrawnPiece {
    let garment = &compiled.garment;
    let all = compiled.sizes[0].drawn.papers.iter().flatten();
    all.map(|drawn| &**drawn).find(|drawn| *garment.piece(drawn.piece).name == *piece).expect("it is drawn")
}

/// Slugs and titles of all that is said of a text, but for the order of work. The crew's library is at hand.
pub fn told(text: &str) -> Vec<(&'static str, String)> {
    let loader = MemoryLoader::new().with("crew-library.fus", example("crew-library"));
    let compiled = compile(&loader.with("own.fus", text), "own.fus");
    let all = compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    all.map(|one| (one.slug(), one.title.to_string())).collect()
}

/// Slugs of all that is said of a text, but for the order of work.
pub fn said(text: &str) -> Vec<&'static str> {
    told(text).into_iter().map(|(slug, _)| slug).collect()
}

/// One thing is said of the example that makes a mistake, and nothing of it with those words changed.
#[track_caller]
pub fn cured(name: &str, slug: &str, changes: &[(&str, &str)]) {
    let text = mistake(name);
    assert_eq!(said(&text), [slug], "{name}");
    assert_eq!(said(&with(&text, changes)), NOTHING, "{name}");
}

/// The ways out of all that is said of a text, but for the order of work.
pub fn helps(text: &str) -> Vec<String> {
    let compiled = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    let all = compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    all.map(|one| one.help_words().unwrap_or_default()).collect()
}

/// A text with some words changed, each of which it must have.
pub fn with(text: &str, changes: &[(&str, &str)]) -> String {
    changes.iter().fold(text.to_owned(), |text, (old, new)| {
        assert!(text.contains(old), "{old:?} is written there");
        text.replacen(old, new, 1)
    })
}
