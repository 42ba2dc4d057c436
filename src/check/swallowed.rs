//! `alter/swallowed`: a given amount along a line at which another is found, so that it makes no difference.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Alteration, AlterationId, AlterationKind, Amount, ClosureKind, Garment, Target, Until};
use crate::report::{Diagnostic, catalogue};
use crate::resolve::{SizedGarment, constant};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALTER_SWALLOWED], run: Run::OverSizes(run) };

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    if sizes.is_empty() {
        return;
    }
    for (found, alteration) in AlterationId::enumerate(&garment.alterations) {
        let Some(until) = alteration.until() else { continue };
        for (given, other) in AlterationId::enumerate(&garment.alterations) {
            let pair = Pair { garment, found, until, given };
            if is_given(other)
                && goes_along(alteration, other)
                && sizes.iter().all(|size| pair.is_swallowed(&size.drawn))
            {
                diagnostics.push(told(garment, alteration, until, other));
            }
        }
    }
}

/// `lengthen … by 5`, not made by a closure.
fn is_given(alteration: &Alteration) -> bool {
    matches!(alteration.kind, Some(AlterationKind::Lengthen | AlterationKind::Shorten))
        && matches!(alteration.amount, Some(Amount::By(_)))
}

/// Whether all that is found for is given an amount too, at the same line.
fn goes_along(found: &Alteration, given: &Alteration) -> bool {
    let same = |one: &Target, other: &Target| {
        (one.layer, one.piece, one.edge) == (other.layer, other.piece, other.edge)
    };
    !found.targets.is_empty()
        && found.targets.iter().all(|one| given.targets.iter().any(|other| same(one, other)))
}

/// An amount that is found, and one that is given.
struct Pair<'a> {
    garment: &'a Garment,
    found: AlterationId,
    until: &'a Until,
    given: AlterationId,
}

impl Pair<'_> {
    /// Whether without the given amount as much more would be found, for the same zip.
    fn is_swallowed(&self, sized: &SizedGarment) -> bool {
        let amount = |id: AlterationId| sized.amounts.get(id.index()).copied().flatten();
        let way = |id: AlterationId| self.garment.alteration(id).kind.map_or(0.0, AlterationKind::way);
        let (Some(found), Some(given)) = (amount(self.found), amount(self.given)) else { return false };
        let fit = sized.zips.get(self.until.closure.index()).copied().flatten();
        let Some(fit) = fit.filter(|fit| fit.solved_by == Some(self.found)) else { return false };
        let (out, taken) = (way(self.found), way(self.given) * given);
        let within = self.garment.tolerance.max(1e-6);
        if given.abs() < 1e-9 || found + out * taken < -within {
            return false;
        }
        let Some(ClosureKind::Zipper { lengths, stocked, .. }) =
            &self.garment.closure(self.until.closure).kind
        else {
            return false;
        };
        if !stocked {
            return true;
        }
        let stock: Option<Vec<f64>> =
            lengths.iter().map(|length| constant(self.garment, sized, length)).collect();
        let Some(stock) = stock else { return false };
        let without = fit.zip - out * found - taken;
        let chosen = match &self.until.about {
            Some(about) => constant(self.garment, sized, about).and_then(|about| {
                let wanted = without + out * about;
                stock.iter().copied().min_by(|a, b| (a - wanted).abs().total_cmp(&(b - wanted).abs()))
            }),
            None if out > 0.0 => {
                stock.iter().copied().filter(|zip| *zip >= without - within).min_by(f64::total_cmp)
            }
            None => stock.iter().copied().filter(|zip| *zip <= without + within).max_by(f64::total_cmp),
        };
        chosen.is_some_and(|chosen| (chosen - fit.zip).abs() < 1e-6)
    }
}

fn told(garment: &Garment, found: &Alteration, until: &Until, given: &Alteration) -> Diagnostic {
    let names: Vec<String> =
        found.targets.iter().map(|target| garment.piece(target.piece).name.to_string()).collect();
    let line = found.targets.first().map_or("", |target| &*garment.edge(target.edge).name);
    let closure = &garment.closure(until.closure).name;
    let form = given.kind.map(AlterationKind::form);
    let (verb, gerund) = form.map_or(("alter", "altering"), |form| (form.verb, form.gerund.0));
    let title = format!(
        "{gerund} {} at {line} by a given amount makes no difference: what is found until {closure} fits makes up for it",
        words::listed(&names)
    );
    let elsewhere = !(garment.first_file.lo <= given.span.lo && given.span.hi <= garment.first_file.hi);
    let way_out = match elsewhere {
        true => format!("write drop {verb} {} at {line}", names.join(", ")),
        false => "take this line away".to_owned(),
    };
    Diagnostic::new(&catalogue::ALTER_SWALLOWED, given.span, title)
        .label("given here")
        .also(found.span, "found here: what is still missing")
        .help(format!(
            "{way_out}; or, if the garment is to be that much longer or shorter, change the zip of {closure}"
        ))
}
