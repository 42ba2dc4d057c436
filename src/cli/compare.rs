use super::arguments::Compare;
use super::choices::ComparisonForm;
use super::disk::DiskLoader;
use super::materials::all_needs;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::remedy::worded;
use super::work::{outcome_of, unwritable};
use fustian::emit::{Document, Told, compare, document, materials_document, said_only};
use fustian::report::{Diagnostic, Severity, plain, reported};
use fustian::source::{Loader, MemoryLoader};
use fustian::{Compiled, causes, compile};
use std::path::Path;

/// What stands for a file that was not there, or is no more, in version control.
const NO_FILE: &str = "/dev/null";
/// The garment that is compared instead of such a file.
const NOTHING: &str = "nothing";

/// So many mistakes are told one by one.
const SHOWN: usize = 8;

/// Tells what differs. Of garments with mistakes only what they say is compared.
pub fn run(command: &Compare) -> Result<Outcome, Trouble> {
    let old = one(command, &command.old)?;
    let new = one(command, &command.new)?;
    let mut is_sound = true;
    for (file, compiled) in [(&command.old, &old), (&command.new, &new)] {
        if compiled.has_mistakes() && file != NO_FILE {
            is_sound = false;
            tell_mistakes(file, compiled);
        }
    }
    let (old_loader, new_loader) = (loader(command, &command.old), loader(command, &command.new));
    let said = causes((&*old_loader, path(&command.old)), (&*new_loader, path(&command.new)));
    let whole = |compiled: &Compiled| whole(compiled, command.materials);
    let comparison = match is_sound {
        true => compare(&whole(&old), &whole(&new), &said, new.garment.unit).map_err(unwritable)?,
        false => said_only((&old.garment.title, &new.garment.title), &said, new.garment.unit),
    };
    let told = if command.all { Told::All } else { Told::InShort("--all") };
    output::put(&match command.format {
        ComparisonForm::Text => comparison.text(told),
        ComparisonForm::Markdown => comparison.markdown(told),
        ComparisonForm::Csv => comparison.csv(),
        ComparisonForm::Json => serde_json::to_string_pretty(&comparison).map_err(unwritable)? + "\n",
    })?;
    Ok(if is_sound { Outcome::Good } else { Outcome::Mistakes })
}

/// What has mistakes cannot be worked out whole, and what seems to be gone of it may be there.
fn tell_mistakes(file: &str, compiled: &Compiled) {
    let mistakes: Vec<Diagnostic> =
        compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake).cloned().collect();
    let counted = Severity::Mistake.counted(mistakes.len());
    output::say(&format!("{file} has {counted}, so that what comes out of it is not compared:\n"));
    output::say(&plain(&reported(&compiled.map, mistakes.get(..SHOWN).unwrap_or(&mistakes))));
    if mistakes.len() > SHOWN {
        output::say(&format!("and {} more: fustian check {file}\n", mistakes.len() - SHOWN));
    }
}

fn loader(command: &Compare, file: &str) -> Box<dyn Loader> {
    if file == NO_FILE {
        return Box::new(MemoryLoader::new().with(NOTHING, "garment \"nothing\"\n"));
    }
    let root: Option<&Path> = command.folder.root.as_deref();
    Box::new(DiskLoader::of_file(file, root).with_bases(command.bases.as_deref()))
}

/// What the loader knows a file by.
fn path(file: &str) -> &str {
    if file == NO_FILE { NOTHING } else { file }
}

fn one(command: &Compare, file: &str) -> Result<Compiled, Trouble> {
    let compiled = worded(compile(&*loader(command, file), path(file)));
    match outcome_of(&compiled) {
        Outcome::Unread => Err(Trouble::Message(format!("{file} cannot be read"))),
        _ => Ok(compiled),
    }
}

fn whole(compiled: &Compiled, with_materials: bool) -> Document {
    let garment = &compiled.garment;
    let mut document = document(garment, &compiled.sizes, &compiled.map, &[]);
    if with_materials {
        for needs in all_needs(compiled, compiled.sizes.iter().collect(), &[]) {
            if let Some(size) = document.sizes.get_mut(needs.size.index()) {
                size.materials = Some(materials_document(garment, &needs));
            }
        }
    }
    document
}
