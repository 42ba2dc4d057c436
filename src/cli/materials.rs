use super::arguments::Materials;
use super::cut::cut_sizes;
use super::lay::with_parts;
use super::length::widths;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::progress::Progress;
use super::work::{sound_garment, unwritable};
use fustian::Compiled;
use fustian::cutting::WorkedSize;
use fustian::emit::materials;
use fustian::materials::{LayOrder, Needs, even_out, needs, needs_at_widths};
use rayon::prelude::*;
use std::sync::Mutex;

/// Tells what to buy for a garment without mistakes.
pub fn run(command: &Materials) -> Result<Outcome, Trouble> {
    let table = &command.table;
    let compiled = match sound_garment(&table.file, table.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let sizes = match cut_sizes(&compiled, &table.sizes)? {
        Ok(sizes) => sizes,
        Err(outcome) => return Ok(outcome),
    };
    let widths = widths(&command.widths, compiled.garment.unit)?;
    let needs = all_needs(&compiled, sizes, &widths);
    output::put(&materials(&compiled.garment, &needs, table.format.into()).map_err(unwritable)?)?;
    Ok(Outcome::Good)
}

/// What each of these sizes needs; cloths at their own widths, or at these.
pub fn all_needs(compiled: &Compiled, sizes: Vec<&WorkedSize>, widths: &[f64]) -> Vec<Needs> {
    all_by(compiled, sizes, &|size| needs(&compiled.garment, size, LayOrder::default(), widths))
}

/// What each of these sizes needs, cloths at their own widths and beside that at these.
pub fn needs_beside(compiled: &Compiled, sizes: Vec<&WorkedSize>, widths: &[f64]) -> Vec<Needs> {
    let garment = &compiled.garment;
    let mut all =
        all_by(compiled, sizes.clone(), &|size| needs_at_widths(garment, size, LayOrder::default(), widths));
    even_out(garment, &with_parts(compiled, sizes), &mut all, LayOrder::default());
    all
}

fn all_by(
    compiled: &Compiled,
    sizes: Vec<&WorkedSize>,
    of: &(dyn Fn(&WorkedSize) -> Needs + Sync),
) -> Vec<Needs> {
    let sizes = with_parts(compiled, sizes);
    let line = Mutex::new((Progress::begin(), 0));
    let of_size = |&size: &&WorkedSize| {
        let found = of(size);
        if let Ok(mut line) = line.lock() {
            line.1 += 1;
            let done = line.1;
            line.0.report(|| format!("{done} of {} sizes", sizes.len()));
        }
        found
    };
    sizes.par_iter().map(of_size).collect()
}
