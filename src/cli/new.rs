use super::arguments::New;
use super::choices::Kind;
use super::outcome::{Outcome, Trouble};
use super::output;
use fustian::syntax::tidy::quoted;
use std::path::Path;

/// Writes the start, never over a file that is there.
pub fn run(command: &New) -> Result<Outcome, Trouble> {
    let path = match command.name.extension() {
        Some(extension) if extension == "fus" => command.name.clone(),
        _ => {
            let mut name = command.name.clone().into_os_string();
            name.push(".fus");
            name.into()
        }
    };
    let Some(title) = title(&path) else {
        return Err(Trouble::Message("the name has no letters to call the garment by".to_owned()));
    };
    output::put_new(&path, &start(command.kind, &title))?;
    output::say(&format!("{} is a start; look it over with fustian check {0}\n", path.display()));
    Ok(Outcome::Good)
}

/// "deck-smock.fus" is called "Deck smock".
pub fn title(path: &Path) -> Option<String> {
    let stem = path.file_stem()?.to_string_lossy().replace(['-', '_'], " ");
    let stem: String = stem.chars().filter(|letter| !letter.is_control()).collect();
    let mut letters = stem.trim().chars();
    let first = letters.next()?;
    Some(first.to_uppercase().chain(letters).collect())
}

fn start(kind: Kind, title: &str) -> String {
    let draft = match kind {
        Kind::Apron => include_str!("starts/apron.fus"),
        Kind::Bag => include_str!("starts/bag.fus"),
        Kind::Skirt => include_str!("starts/skirt.fus"),
        Kind::Top => include_str!("starts/top.fus"),
        Kind::Trousers => include_str!("starts/trousers.fus"),
    };
    format!("# {title}: a start, to be changed. Notes begin with #.\ngarment {}\n{draft}", quoted(title))
}
