use super::arguments::Sheet;
use super::cut::cut_sizes;
use super::length::widths;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::progress::Progress;
use super::spared::spared;
use super::work::sound_garment;
use fustian::materials::USUAL_WIDTHS;
use fustian::sheet::{Choices, sheet};
use std::sync::Mutex;

/// Writes the sheet of a garment without mistakes.
pub fn run(command: &Sheet) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let sizes = match cut_sizes(&compiled, &command.sizes)? {
        Ok(sizes) => sizes,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[Some(&command.output)])?;
    let count = sizes.len();
    let choices = Choices {
        sizes: sizes.iter().map(|size| size.id()).collect(),
        paper: command.paper.into(),
        language: command.language.0,
        without_lays: command.no_lays,
        widths: match command.widths.is_empty() {
            true => USUAL_WIDTHS.to_vec(),
            false => widths(&command.widths, compiled.garment.unit)?,
        },
    };
    let line = Mutex::new((Progress::begin(), 0));
    let told = || {
        if let Ok(mut line) = line.lock() {
            line.1 += 1;
            let done = line.1;
            line.0.report(|| format!("{done} of {count} sizes"));
        }
    };
    let page = sheet(&compiled, &choices, &told).map_err(|reason| Trouble::Message(reason.to_string()))?;
    drop(line);
    output::put_into(&command.output, page)?;
    Ok(Outcome::Good)
}
