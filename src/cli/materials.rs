use super::arguments::Materials;
use super::cut::cut_sizes;
use super::lay::layings;
use super::length::length;
use super::outcome::{Outcome, Trouble};
use super::output;
use super::work::{sound_garment, unwritable};
use fustian::Compiled;
use fustian::cutting::Cutting;
use fustian::emit::materials;
use fustian::materials::{LayOrder, Laying, Needs, needs};
use rayon::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

/// Tells what to buy for a garment without mistakes.
pub fn run(command: &Materials) -> Result<Outcome, Trouble> {
    let table = &command.table;
    let compiled = match sound_garment(&table.file, table.folder.root.as_deref())? {
        Ok(compiled) => compiled,
        Err(outcome) => return Ok(outcome),
    };
    let cuts = match cut_sizes(&compiled, &table.sizes, &[])? {
        Ok(cuts) => cuts,
        Err(outcome) => return Ok(outcome),
    };
    let unit = compiled.garment.unit;
    let widths: Vec<f64> =
        command.widths.iter().map(|width| length(width, unit)).collect::<Result<_, _>>()?;
    let needs = all_needs(&compiled, &cuts, &widths);
    output::put(&materials(&compiled.garment, &needs, table.format.into()).map_err(unwritable)?)?;
    Ok(Outcome::Good)
}

/// What each of these sizes needs; cloths at their own widths, or at these.
pub fn all_needs(compiled: &Compiled, cuts: &[Cutting], widths: &[f64]) -> Vec<Needs> {
    let layings = layings(compiled, cuts);
    let (done, start) = (AtomicUsize::new(0), Instant::now());
    let of_size = |&laying: &Laying| {
        let found = needs(&compiled.garment, laying, LayOrder::default(), widths);
        let done = done.fetch_add(1, Ordering::Relaxed) + 1;
        if start.elapsed() >= PATIENCE && done < layings.len() {
            output::say(&format!("laid {done} of {} sizes\n", layings.len()));
        }
        found
    };
    layings.par_iter().map(of_size).collect()
}

/// What takes longer is told of.
const PATIENCE: Duration = Duration::from_secs(1);
