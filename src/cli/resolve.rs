use super::arguments::Resolve;
use super::choices::With;
use super::cut::cut_sizes;
use super::length::widths;
use super::materials::needs_beside;
use super::outcome::{Outcome, Trouble};
use super::spared::spared;
use super::work::{picked, sound_garment, unwritable};
use super::{depfile, output};
use fustian::emit::{document, files, lays_of, materials_document, steps, to_text};

/// Writes the document. A garment with mistakes has none: nobody shall cut from it.
pub fn run(command: &Resolve) -> Result<Outcome, Trouble> {
    let compiled = match sound_garment(&command.file, command.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    spared(&compiled.map, &[command.output.as_deref(), command.depfile.as_deref()])?;
    let sizes = picked(&compiled, &command.sizes)?;
    let mut document = document(&compiled.garment, sizes, &compiled.map, &compiled.diagnostics);
    document.files = files(&compiled.garment, &compiled.map);
    // The order of work is the first size's, whichever are shown.
    let of_first = compiled.sizes.first().map(|first| steps(&compiled.garment, first)).unwrap_or_default();
    document.sizes.iter_mut().for_each(|size| size.steps.clone_from(&of_first));
    if !command.with.is_empty() {
        let widths = widths(&command.widths, compiled.garment.unit)?;
        let sizes = match cut_sizes(&compiled, &command.sizes)? {
            Ok(sizes) => sizes,
            Err(outcome) => return Ok(outcome),
        };
        for needs in needs_beside(&compiled, sizes, &widths) {
            let name = &*compiled.garment.size(needs.size).name;
            let Some(size) = document.sizes.iter_mut().find(|size| size.size == name) else {
                continue;
            };
            size.lays = command.with.contains(&With::Lay).then(|| lays_of(&compiled.garment, &needs));
            size.materials = command
                .with
                .contains(&With::Materials)
                .then(|| materials_document(&compiled.garment, &needs));
        }
    }
    let text = to_text(&document).map_err(unwritable)?;
    match &command.output {
        Some(path) => output::put_into(path, &text)?,
        None => output::put(&text)?,
    }
    if let (Some(depfile), Some(made)) = (&command.depfile, &command.output) {
        output::put_into(depfile, depfile::rule(made, &compiled.map))?;
    }
    Ok(Outcome::Good)
}
