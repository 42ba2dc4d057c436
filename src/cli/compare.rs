use super::arguments::Compare;
use super::choices::ComparisonForm;
use super::disk::DiskLoader;
use super::materials::all_needs;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::remedy::worded;
use super::work::{outcome_of, unwritable};
use fustian::emit::{Document, compare, document, materials_document};
use fustian::report::Severity;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::path::Path;

/// What stands for a file that was not there, or is no more, in version control.
const NO_FILE: &str = "/dev/null";

/// Tells what differs. A garment with mistakes is compared as far as it could be worked out.
pub fn run(command: &Compare) -> Result<Outcome, Trouble> {
    let old = one(command, &command.old)?;
    let new = one(command, &command.new)?;
    for (file, compiled) in [(&command.old, &old), (&command.new, &new)] {
        let mistakes = compiled.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake).count();
        if mistakes > 0 && file != NO_FILE {
            let counted = Severity::Mistake.counted(mistakes);
            output::say(&format!("{file} has {counted}, and is compared as far as it can be worked out\n"));
        }
    }
    let whole = |compiled: &Compiled| whole(compiled, command.materials);
    let comparison = compare(&whole(&old), &whole(&new), new.garment.unit).map_err(unwritable)?;
    output::put(&match command.format {
        ComparisonForm::Text => comparison.text(),
        ComparisonForm::Markdown => comparison.markdown(),
        ComparisonForm::Json => serde_json::to_string_pretty(&comparison).map_err(unwritable)? + "\n",
    })?;
    Ok(Outcome::Good)
}

fn one(command: &Compare, file: &str) -> Result<Compiled, Trouble> {
    if file == NO_FILE {
        let nothing = MemoryLoader::new().with("nothing", "garment \"nothing\"\n");
        return Ok(compile(&nothing, "nothing"));
    }
    let root: Option<&Path> = command.folder.root.as_deref();
    let loader = DiskLoader::of_file(file, root).with_bases(command.bases.as_deref());
    let compiled = worded(compile(&loader, file));
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
