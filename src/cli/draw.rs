use super::arguments::Draw;
use super::cut::{cut_pieces, only};
use super::outcome::{Outcome, Trouble};
use super::output;
use super::spared::spared;
use super::work::{compile_file, outcome_of, picked, report, sound_garment};
use fustian::cutting::cut_unfinished;
use fustian::emit::drawing::{self, Look};
use fustian::emit::{Lettering, svg_lettered};
use fustian::report::{Severity, summary};

/// Draws the pieces of a garment without mistakes; or of one that is not finished, as far as it can be
/// shown.
pub fn run(command: &Draw) -> Result<Outcome, Trouble> {
    if command.unfinished {
        return unfinished(command);
    }
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[Some(&command.output)])?;
    let cuts = match cut_pieces(&compiled, &command.sizes, &command.pieces)? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let sheet = drawing::sheet(&compiled.garment, &cuts, &look(command));
    output::put_into(&command.output, svg_lettered(&sheet, &compiled.garment.title, lettering(command)))?;
    Ok(Outcome::Good)
}

/// What of the pieces is shown.
fn look(command: &Draw) -> Look {
    Look { lines: command.lines.map(Into::into), ..Look::drawing() }
}

/// How words are written.
fn lettering(command: &Draw) -> Lettering {
    if command.text { Lettering::Text } else { Lettering::Outlines }
}

/// What can be shown, with its mistakes listed on the sheet. The command ends as a look at the garment
/// does: well only if there is nothing to mend.
fn unfinished(command: &Draw) -> Result<Outcome, Trouble> {
    let compiled = compile_file(&command.file, command.folder.root.as_deref())?;
    spared(&compiled.map, &[Some(&command.output)])?;
    report(&compiled, &compiled.diagnostics);
    if let Some(words) = summary(&compiled.diagnostics) {
        output::say(&format!("{words}\n"));
    }
    let outcome = outcome_of(&compiled);
    if matches!(outcome, Outcome::Unread) {
        return Ok(outcome);
    }
    let sizes = picked(&compiled, &command.sizes)?;
    let (garment, mut cuts) = cut_unfinished(&compiled.garment, &sizes);
    only(&garment, &command.pieces, &mut cuts)?;
    if cuts.iter().all(|cut| cut.parts.is_empty()) {
        return Err(Trouble::Message(
            "no piece can be shown yet: none has an outline that closes".to_owned(),
        ));
    }
    let mistakes = compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
    let to_mend: Vec<String> = mistakes
        .map(|mistake| {
            let (file, line, _) = compiled.map.place(mistake.span());
            format!("{}, {file}:{line}: {}", mistake.slug(), mistake.title)
        })
        .collect();
    let sheet = drawing::unfinished_sheet(&garment, &cuts, &look(command), &to_mend);
    output::put_into(&command.output, svg_lettered(&sheet, &garment.title, lettering(command)))?;
    Ok(outcome)
}
