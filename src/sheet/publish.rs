//! From a compiled garment to its sheet.

use super::base::differences;
use super::page::page;
use super::{Choices, Facts};
use crate::compile::Compiled;
use crate::cutting::WorkedSize;
use crate::emit::{document, files, lays_of, materials_document, steps};
use crate::materials::{LayOrder, Needs, even_out, needs_at_widths, needs_beside_cloth};
use crate::sewing::order::{Job, Work};
use rayon::prelude::*;
use thiserror::Error;

/// Why there is no sheet of a garment.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum NoSheet {
    /// It has mistakes: nobody shall sew by it.
    #[error("the garment has mistakes, and nobody shall sew by it")]
    Mistakes,
    /// Nothing is cut.
    #[error("there is nothing to sew here: no layer has a piece")]
    Nothing,
    /// No order of work is found for some seams, and none is said.
    #[error("no order of work is found in which {0} can be sewn: say it in steps")]
    Orderless(String),
    /// The page could not be put together.
    #[error("the page could not be put together: {0}")]
    Page(String),
}

/// The sheet of a garment as the text of one HTML file. The same garment and choices give the same text.
///
/// `progress` hears how many sizes' cloths are laid out, and of how many.
///
/// # Errors
/// Where the garment has mistakes, or nothing is cut.
pub fn sheet(
    compiled: &Compiled,
    choices: &Choices,
    progress: &(dyn Fn() + Sync),
) -> Result<String, NoSheet> {
    if compiled.has_mistakes() {
        return Err(NoSheet::Mistakes);
    }
    let garment = &compiled.garment;
    let is_wanted = |size: &&WorkedSize| choices.sizes.is_empty() || choices.sizes.contains(&size.id());
    let sizes: Vec<&WorkedSize> = compiled.sizes.iter().filter(is_wanted).collect();
    if sizes.iter().all(|size| size.cut(garment).parts.is_empty()) {
        return Err(NoSheet::Nothing);
    }
    let mut document = document(garment, sizes.iter().copied(), &compiled.map, &compiled.diagnostics);
    document.files = files(garment, &compiled.map);
    let mut found: Vec<Needs> = sizes
        .par_iter()
        .map(|size| {
            let found = match choices.without_lays {
                true => needs_beside_cloth(garment, size),
                false => needs_at_widths(garment, size, LayOrder::default(), &choices.widths),
            };
            progress();
            found
        })
        .collect();
    even_out(garment, &sizes, &mut found, LayOrder::default());
    for (size, found) in document.sizes.iter_mut().zip(&found) {
        size.materials = Some(materials_document(garment, found));
        size.lays = (!choices.without_lays).then(|| lays_of(garment, found));
    }
    // The order of work is the first size's, whichever are shown.
    let Some(first) = compiled.sizes.first() else { return Err(NoSheet::Nothing) };
    let is_first = sizes.first().is_some_and(|shown| shown.id() == first.id());
    if !is_first {
        let of_first = steps(garment, first);
        document.sizes.iter_mut().for_each(|size| size.steps.clone_from(&of_first));
    }
    let facts = Facts::of(garment, sizes, &document).ok_or(NoSheet::Nothing)?;
    let facts = if is_first { facts } else { facts.in_order_of(first) };
    let left = unordered(&facts);
    if !left.is_empty() {
        return Err(NoSheet::Orderless(left));
    }
    let differences = differences(compiled, &document);
    page(&facts, differences.as_ref(), choices).map_err(|error| NoSheet::Page(error.to_string()))
}

/// The seams that a worked out order leaves out: whoever sewed by it would be left with loose pieces. What a maker says is
/// taken as it is said.
fn unordered(facts: &Facts) -> String {
    let plan = &facts.plan;
    if plan.groups.iter().any(|group| group.said.is_some()) {
        return String::new();
    }
    let Some(size) = facts.sizes.first() else { return String::new() };
    let work = Work::new(facts.garment, &size.drawn, &size.sewn);
    let targets = || plan.groups.iter().flat_map(|group| &group.actions).flat_map(|one| &one.targets);
    let mut left: Vec<&str> = Vec::new();
    for job in work.jobs.iter().filter(|job| matches!(job, Job::Seam(_))) {
        let Job::Seam(at) = *job else { continue };
        if targets().any(|target| target.jobs.contains(job)) {
            continue;
        }
        let name = work.stitchings.get(at).map(|stitching| &*facts.garment.seam(stitching.seam).name);
        left.extend(name.filter(|name| !left.contains(name)));
    }
    left.join(", ")
}
