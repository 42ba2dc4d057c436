//! Checks: what a maker must fix, or should look at. One small file a family, listed in [`CHECKS`].
//!
//! A check changes nothing. It reads the garment and what was worked out of it, and is silent
//! about what could not be worked out: that has been told where it went wrong.

mod irregular;
mod lines_cross;
mod narrow;
mod parts;
mod placing;
mod require;
mod unused;
mod words;
mod zipper;

use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, group};
use crate::resolve::SizedGarment;
use rayon::prelude::*;

/// A family of checks.
pub struct Check {
    /// Everything it may tell.
    pub slugs: &'static [&'static str],
    /// How it looks.
    pub run: Run,
}

/// How a check looks at a garment.
pub enum Run {
    /// At the garment alone; the same in every size.
    Once(fn(&Garment, &mut Vec<Diagnostic>)),
    /// At each size by itself; what is found in several sizes is told once.
    PerSize(fn(&Garment, &SizedGarment, &mut Vec<Finding>)),
    /// At all sizes together.
    OverSizes(fn(&Garment, &[SizedGarment], &mut Vec<Diagnostic>)),
}

/// Every check, in the order in which messages are told.
pub static CHECKS: &[&Check] = &[
    &irregular::CHECK,
    &lines_cross::CHECK,
    &parts::CHECK,
    &placing::CHECK,
    &zipper::CHECK,
    &narrow::CHECK,
    &unused::CHECK,
    &require::CHECK,
];

/// Runs every check over a garment and its sizes.
///
/// The sizes are looked at side by side; the result does not depend on how many run at once.
pub fn check(garment: &Garment, sizes: &[SizedGarment]) -> Vec<Diagnostic> {
    let names = words::size_names(garment);
    let mut told = Vec::new();
    for check in CHECKS {
        match check.run {
            Run::Once(run) => run(garment, &mut told),
            Run::OverSizes(run) => run(garment, sizes, &mut told),
            Run::PerSize(run) => {
                let found: Vec<Vec<Finding>> = sizes
                    .par_iter()
                    .map(|sized| {
                        let mut findings = Vec::new();
                        run(garment, sized, &mut findings);
                        findings
                    })
                    .collect();
                told.extend(group(found.into_iter().flatten().collect(), &names));
            }
        }
    }
    told
}
