//! Alterations, one file each: a version in, the next version out.

mod beyond;
mod carry;
mod cut_off;
mod extend;
mod flare;
mod halves;
mod join;
mod lengthen;
mod open;
mod redraw;
mod split;
mod spread;

use super::model::DrawnPiece;
use super::outline::sound;
use super::work::{Drawn, Work};
use crate::garment::{Alteration, AlterationId, AlterationNode, Amount, Expression, PaperId, Target};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::sketch::ring;
use std::sync::Arc;

/// Makes the next version of one paper.
pub(super) fn alter(work: &mut Work, id: AlterationId, paper: PaperId) {
    let garment = work.garment;
    let (Some(alteration), Some(known)) =
        (garment.alterations.get(id.index()), garment.papers.get(paper.index()))
    else {
        return;
    };
    let Some(before) = known.alterations.iter().position(|&own| own == id) else { return };
    match &alteration.node {
        AlterationNode::Split { target, into, cut_edges } => {
            let halves = work.version(paper, before).cloned();
            let halves = halves.and_then(|drawn| split::split(work, id, target, *into, *cut_edges, &drawn));
            // A layer's own half may come of a whole that has no paper of that layer, so the
            // halves are looked up by what they are made of.
            for (piece, beyond) in [(into.0, false), (into.1, true)] {
                let half = halves.as_ref().map(|(first, second)| if beyond { second } else { first });
                for &made in &garment.piece(piece).papers {
                    if garment.paper(made).made_of.contains(&paper) {
                        work.set_version(made, 0, half.cloned());
                    }
                }
            }
        }
        AlterationNode::Join { first, into, .. } => {
            // It is made at the first piece's step, when the papers of both are ready.
            if known.piece == first.piece && known.layer.is_none() {
                for &made in &garment.piece(*into).papers {
                    let joined = join::join(work, id, alteration, made);
                    work.set_version(made, 0, joined);
                }
            }
        }
        _ => {
            let drawn = work.version(paper, before).cloned();
            let next = drawn.and_then(|drawn| next_version(work, id, alteration, paper, &drawn));
            work.set_version(paper, before + 1, next);
        }
    }
}

fn next_version(
    work: &mut Work,
    id: AlterationId,
    alteration: &Alteration,
    paper: PaperId,
    drawn: &Arc<DrawnPiece>,
) -> Drawn {
    let step = Step { id, alteration, amount: amount(work, id, alteration)? };
    let known = work.garment.paper(paper);
    let layer = known.layer;
    let own =
        |target: &&Target| target.piece == known.piece && (target.layer.is_none() || target.layer == layer);
    let mut now: Option<DrawnPiece> = None;
    for target in alteration.node.targets().into_iter().filter(own) {
        let before = now.as_ref().unwrap_or(drawn);
        now = Some(apply(work, &step, target, before)?);
    }
    let Some(after) = now else { return Some(drawn.clone()) };
    let reshaped = !matches!(alteration.node, AlterationNode::Open { .. });
    if reshaped && !sound::is_sound(work, &after, alteration.span, Some((drawn, alteration)), &|| false) {
        return None;
    }
    if reshaped && !work.is_muted() {
        // Marks that were outside before have been told of.
        let old = ring(drawn);
        let was_inside =
            |point| drawn.spot(point).is_some_and(|at| crate::shape::outline::contains(&old, at));
        sound::marks_inside(work, &after, |point| was_inside(point).then_some(alteration.span));
    }
    Some(Arc::new(after))
}

/// An alteration, and what it comes to in this size (0 where it has no amount).
struct Step<'a> {
    id: AlterationId,
    alteration: &'a Alteration,
    amount: f64,
}

fn apply(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    match &step.alteration.node {
        AlterationNode::Lengthen { shorten, keeping, .. } => {
            lengthen::lengthen(work, step, target, *shorten, keeping, drawn)
        }
        AlterationNode::Spread { .. } => spread::spread(work, step, target, drawn),
        AlterationNode::CutOff { .. } => cut_off::cut_off(work, step, target, drawn),
        AlterationNode::Extend { trim: false, .. } => extend::extend(work, step, target, step.amount, drawn),
        AlterationNode::Extend { trim: true, .. } | AlterationNode::ShowZip { .. } => {
            extend::extend(work, step, target, -step.amount, drawn)
        }
        AlterationNode::Open { close: false, .. } => open::open(work, target, drawn),
        AlterationNode::Open { close: true, .. } => open::close(work, target, drawn),
        AlterationNode::Flare { .. } => flare::flare(work, step, target, drawn),
        AlterationNode::Redraw { path, .. } => redraw::redraw(work, step, target, path, drawn),
        AlterationNode::Split { .. } | AlterationNode::Join { .. } | AlterationNode::Poison(_) => None,
    }
}

/// What the alteration comes to; a solved amount was laid down by its solver.
fn amount(work: &mut Work, id: AlterationId, alteration: &Alteration) -> Option<f64> {
    let expression: &Expression = match &alteration.node {
        AlterationNode::Lengthen { amount: Amount::By(by), .. }
        | AlterationNode::Extend { by, .. }
        | AlterationNode::Flare { by, .. }
        | AlterationNode::Spread { by, .. }
        | AlterationNode::ShowZip { by, .. } => by,
        AlterationNode::Lengthen { amount: Amount::Until { .. }, .. } => {
            return work.amounts.get(id.index()).copied().flatten();
        }
        _ => return Some(0.0),
    };
    let value = work.scalar(expression, None)?;
    if value < 0.0 {
        work.mistake(-value, "", || {
            let word = alteration.node.word();
            let title = Title::new(format!("this is to {word} by {}", work.amount(value)))
                .in_sizes()
                .then(", which is less than nothing");
            let message = Diagnostic::new(&catalogue::ALTER_NEGATIVE, expression.span, title)
                .label("less than nothing");
            let opposite = match word {
                "lengthen" => "shorten",
                "shorten" => "lengthen",
                "extend" => "trim",
                "trim" => "extend",
                _ => return message.help("give an amount of 0 or more"),
            };
            message.help(format!(
                "write `{opposite}` if that is meant; a size that needs neither has the amount 0"
            ))
        });
        return None;
    }
    if let Some(place) = work.amounts.get_mut(id.index()) {
        *place = Some(value);
    }
    Some(value)
}
