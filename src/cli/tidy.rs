use super::arguments::Tidy;
use super::outcome::{Outcome, Trouble};
use super::work::{PIPED, text_of};
use super::{look, output};
use fustian::report::render;
use fustian::source::SourceMap;
use fustian::syntax;
use std::path::Path;

/// Lays files out, each by itself: one that cannot be read does not keep the others from it.
pub fn run(command: &Tidy) -> Result<Outcome, Trouble> {
    let mut worst = Outcome::Good;
    for file in &command.files {
        let outcome = match one(file, command.check) {
            Ok(outcome) => outcome,
            Err(Trouble::Message(words)) => {
                output::say(&format!("fustian: {words}\n"));
                Outcome::Unread
            }
            Err(nobody_reads) => return Err(nobody_reads),
        };
        worst = worst.max(outcome);
    }
    Ok(worst)
}

fn one(file: &str, only_look: bool) -> Result<Outcome, Trouble> {
    let (name, text) = text_of(file)?;
    let mut map = SourceMap::default();
    let id = map.add(name.as_str(), text.as_str());
    let tidied = match syntax::tidy::tidy(&map, id) {
        Ok(tidied) => tidied,
        Err(mistakes) => {
            output::show(&render(&map, &mistakes, look::of_messages()));
            output::say(&format!("{name}: left as it is, because it cannot be read without mistakes\n"));
            return Ok(Outcome::Mistakes);
        }
    };
    match (only_look, file == PIPED) {
        (true, _) if tidied == text => {}
        (true, _) => {
            output::say(&format!("{name}: would be laid out differently\n"));
            return Ok(Outcome::Mistakes);
        }
        (false, true) => output::put(&tidied)?,
        (false, false) if tidied == text => {}
        (false, false) => output::put_into(Path::new(file), &tidied)?,
    }
    Ok(Outcome::Good)
}
