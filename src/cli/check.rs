use super::arguments::Check;
use super::choices::MessageForm;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{PIPED, compile_file, compile_file_again, outcome_of, report, unwritable};
use fustian::emit::{fates_table, fates_text};
use fustian::report::{Diagnostic, ReportedDiagnostic, Severity, plain, summary};
use fustian::{Compiled, Kept};
use rayon::prelude::*;
use serde::Serialize;

/// What was found in one file, for other programs.
#[derive(Serialize)]
struct Checked<'a> {
    file: &'a str,
    sizes: Vec<&'a str>,
    messages: Vec<ReportedDiagnostic>,
}

/// Checks files in parallel and reports them in the order given.
pub fn run(command: &Check) -> Result<Outcome, Trouble> {
    let compiled = compile_all(command)?;
    show(command, &compiled)
}

/// Compiles all files.
fn compile_all(command: &Check) -> Result<Vec<Compiled>, Trouble> {
    if command.files.iter().filter(|file| *file == PIPED).count() > 1 {
        return Err(Trouble::Message(
            "what is piped in can be read only once, but - was given twice".to_owned(),
        ));
    }
    let root = command.folder.root.as_deref();
    let compiled: Vec<Result<Compiled, Trouble>> =
        command.files.par_iter().map(|file| compile_file(file, root)).collect();
    compiled.into_iter().collect()
}

/// Compiles all files, of each of which something is remembered from before.
pub fn compile_all_again(command: &Check, kept: &mut Vec<Kept>) -> Result<Vec<Compiled>, Trouble> {
    kept.resize_with(command.files.len(), Kept::default);
    let root = command.folder.root.as_deref();
    let files = command.files.par_iter().zip(kept);
    let compiled: Vec<Result<Compiled, Trouble>> =
        files.map(|(file, kept)| compile_file_again(file, root, kept)).collect();
    compiled.into_iter().collect()
}

/// Reports the files in the order given.
pub fn show(command: &Check, compiled: &[Compiled]) -> Result<Outcome, Trouble> {
    let shown: Vec<Vec<Diagnostic>> = compiled.iter().map(|one| shown(one, command.quiet)).collect();
    match command.format {
        MessageForm::Text => {
            for ((file, one), messages) in command.files.iter().zip(compiled).zip(&shown) {
                if command.fates
                    && let Some(size) = one.sizes.first()
                {
                    output::put(&fates_text(&fates_table(&one.garment, &size.drawn, &size.sewn)))?;
                }
                report(one, messages);
                if messages.is_empty() {
                    output::say(&format!("{file}: nothing to fix{}\n", sizes_words(one)));
                }
            }
            if let Some(words) = summary(shown.iter().flatten()) {
                output::say(&format!("{words}\n"));
            }
        }
        MessageForm::Plain => {
            for (one, messages) in compiled.iter().zip(&shown) {
                output::put(&plain(&fustian::report::reported(&one.map, messages)))?;
            }
        }
        MessageForm::Sarif => {
            let reported = compiled.iter().zip(&shown);
            let reported: Vec<ReportedDiagnostic> =
                reported.flat_map(|(one, messages)| fustian::report::reported(&one.map, messages)).collect();
            let log = fustian::report::sarif(&reported);
            output::put(&(serde_json::to_string_pretty(&log).map_err(unwritable)? + "\n"))?;
        }
        MessageForm::Json => {
            let checked: Vec<Checked> = command
                .files
                .iter()
                .zip(compiled)
                .zip(&shown)
                .map(|((file, one), messages)| Checked {
                    file,
                    sizes: one.garment.sizes.iter().map(|size| &*size.name).collect(),
                    messages: fustian::report::reported(&one.map, messages),
                })
                .collect();
            output::put(&(serde_json::to_string_pretty(&checked).map_err(unwritable)? + "\n"))?;
        }
    }
    Ok(compiled.iter().map(outcome_of).max().unwrap_or(Outcome::Good))
}

fn shown(compiled: &Compiled, quiet: bool) -> Vec<Diagnostic> {
    let is_shown = |diagnostic: &&Diagnostic| !(quiet && diagnostic.severity() == Severity::Advice);
    compiled.diagnostics.iter().filter(is_shown).cloned().collect()
}

fn sizes_words(compiled: &Compiled) -> String {
    if let Some(fitting) = &compiled.garment.fitting {
        return format!(" for {}", fitting.words(&compiled.garment));
    }
    match compiled.garment.sizes.len() {
        0 | 1 => String::new(),
        count => format!(" in {count} sizes"),
    }
}
