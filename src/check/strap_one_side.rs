//! `strap/one-side`: a strap for each side of the body that ends on the piece on which it begins.

use super::strap_draws::lies_on_edge;
use super::surface::knows_trunk;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{SewnStrap, SewnStrapRun, strap_place, straps};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_ONE_SIDE], run: Run::PerSize(run) };

/// A loop to carry a belt, or to hang something up by, is shorter than this, in millimetres.
const LOOP: f64 = 250.0;
/// What is so many times as long as its ends lie apart does not lie over the piece.
const HANGS: f64 = 2.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() || !knows_trunk(garment) {
        return;
    }
    for sewn in straps(garment, &size.drawn) {
        let runs = garment.strap(sewn.strap).runs.iter().zip(&sewn.runs);
        findings.extend(runs.filter_map(|(run, own)| on_one_side(garment, size, &sewn, run, own)).take(1));
    }
}

fn on_one_side(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnStrap,
    run: &StrapRun,
    own: &SewnStrapRun,
) -> Option<Finding> {
    let (to, apart) = (run.to.as_ref()?, own.across?);
    // What is sewn to one of the sides alone, or across the middle, is no pair that goes over both shoulders.
    if run.from.hand.is_some() || to.hand.is_some() || own.free < LOOP || own.free < HANGS * apart {
        return None;
    }
    let (drawn, one) = strap_place(garment, &size.drawn, run.from.point)?;
    let (_, other) = strap_place(garment, &size.drawn, to.point)?;
    let is_pair = !matches!(drawn.cut, CutHow::Alike);
    let near = sewn.sewn;
    if !is_pair || one == other || !lies_on_edge(drawn, one, near) || !lies_on_edge(drawn, other, near) {
        return None;
    }
    let (strap, unit) = (garment.strap(sewn.strap), garment.unit);
    let (piece, free) = (words::piece(garment, drawn.piece), amount(own.free, unit));
    let title = Title::new(format!("{} ends on {piece}, on which it begins, on the same side", strap.name))
        .in_sizes();
    let advice = Diagnostic::new(&catalogue::STRAP_ONE_SIDE, to.span, title)
        .label("ends here")
        .also(run.from.span, format!("begins here, and {free} hang between, {} apart", amount(apart, unit)))
        .help(
            "a strap over the shoulder goes from the front to the back: name the place on the other piece; if it is to hang \
             in a loop, nothing needs to change",
        );
    Some(Finding::new(size.id(), own.free, advice).about(&*strap.name).figure("between its ends", free))
}
