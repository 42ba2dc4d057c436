//! Alterations, one file each: a version in, the next version out.

mod asked;
mod beyond;
mod carry;
mod cut_off;
mod dart;
mod extend;
mod flare;
mod fold_out;
mod halves;
mod join;
mod keep_back;
mod lengthen;
mod let_dart;
mod let_pleat;
mod move_dart;
mod open;
mod redraw;
mod split;
mod split_darts;
mod spread;
mod turning;
mod unpair;
mod widen;

use super::drawn_piece::DrawnPiece;
use super::outline::sound;
use super::take_ups;
use super::work::{Drawn, Work};
use crate::garment::{
    Alteration, AlterationId, AlterationKind, Amount, AmountForm, Change, DartChange, Expression, PaperId,
    Target,
};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::sketch::ring;
use crate::shape::outline::{Region, contains};
use std::sync::Arc;

/// What a piece is after one target of an alteration. `None` where it cannot be made, which was reported.
type Reshape = fn(&Work, &Step, &Target, &DrawnPiece) -> Option<DrawnPiece>;

/// How a kind of alteration is drawn.
enum Drawing {
    /// Each target by itself.
    Reshape(Reshape),
    /// One piece becomes two.
    Split,
    /// Two pieces become one.
    Join,
}

fn drawing(kind: AlterationKind) -> Drawing {
    match kind {
        AlterationKind::Lengthen | AlterationKind::Shorten => Drawing::Reshape(lengthen::lengthen),
        AlterationKind::CutOff => Drawing::Reshape(cut_off::cut_off),
        AlterationKind::Extend | AlterationKind::Trim | AlterationKind::ShowZip => Drawing::Reshape(extended),
        AlterationKind::KeepBack => Drawing::Reshape(keep_back::keep_back),
        AlterationKind::Open => Drawing::Reshape(open::open),
        AlterationKind::Close => Drawing::Reshape(open::close),
        AlterationKind::Unfold => Drawing::Reshape(open::unfold),
        AlterationKind::Redraw => Drawing::Reshape(redraw::redraw),
        AlterationKind::Flare => Drawing::Reshape(flare::flare),
        AlterationKind::FoldOut => Drawing::Reshape(fold_out::fold_out),
        AlterationKind::Spread | AlterationKind::Overlap => Drawing::Reshape(spread::spread),
        AlterationKind::MoveDart => Drawing::Reshape(move_dart::move_dart),
        AlterationKind::LetDart => Drawing::Reshape(let_dart::let_dart),
        AlterationKind::LetPleat => Drawing::Reshape(let_pleat::let_pleat),
        AlterationKind::LeaveDart => Drawing::Reshape(dart::leave),
        AlterationKind::CloseDart => Drawing::Reshape(dart::close),
        AlterationKind::Split | AlterationKind::Unpair => Drawing::Split,
        AlterationKind::Join => Drawing::Join,
    }
}

/// Makes the next version of one paper.
pub(super) fn alter(work: &mut Work, id: AlterationId, paper: PaperId) {
    let garment = work.garment;
    let (Some(alteration), Some(known)) =
        (garment.alterations.get(id.index()), garment.papers.get(paper.index()))
    else {
        return;
    };
    let Some(before) = known.alterations.iter().position(|&own| own == id) else { return };
    // After one that could not be made sense of the paper is not known, which was reported.
    let Some(kind) = work.inherit(alteration.kind) else {
        return work.set_version(paper, before + 1, None);
    };
    match drawing(kind) {
        Drawing::Reshape(reshape) => {
            let drawn = work.version(paper, before).cloned();
            let next = drawn.and_then(|drawn| {
                let step = Step { id, alteration, kind, amount: amount(work, id, alteration)? };
                next_version(work, &step, reshape, paper, &drawn)
            });
            work.set_version(paper, before + 1, next);
        }
        Drawing::Split => {
            let halves = work.version(paper, before).cloned();
            let halves = halves.and_then(|drawn| match (kind, &alteration.dart) {
                (AlterationKind::Unpair, _) => unpair::unpair(work, alteration, &drawn),
                (_, Some(DartChange::Split(change))) => {
                    split_darts::split_darts(work, id, alteration, change, &drawn)
                }
                _ => split::split(work, id, alteration, &drawn),
            });
            // A layer's own half may come of a whole that has no paper of that layer, so the
            // halves are looked up by what they are made of.
            for (at, piece) in alteration.made_pieces().enumerate() {
                let half = halves.as_ref().and_then(|halves| halves.get(at));
                for &made in &garment.piece(piece).papers {
                    if garment.paper(made).made_of.contains(&paper) {
                        work.set_version(made, 0, half.cloned());
                    }
                }
            }
        }
        Drawing::Join => {
            // It is made at the first piece's step, when the papers of both are ready.
            let is_first = alteration.targets.first().is_some_and(|first| known.piece == first.piece);
            for into in alteration.made_pieces().filter(|_| is_first && known.layer.is_none()) {
                for &made in &garment.piece(into).papers {
                    let joined = join::join(work, id, alteration, into, made);
                    work.set_version(made, 0, joined);
                }
            }
        }
    }
}

/// An edge moved out or in: in parallel, or where it is said so by another amount at each end or with a step.
fn extended(work: &Work, step: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    match step.alteration.tapered.is_some() || !step.alteration.steps.is_empty() {
        true => widen::widen(work, step, target, drawn),
        false => extend::extend(work, step, target, drawn),
    }
}

fn next_version(
    work: &Work,
    step: &Step,
    reshape: Reshape,
    paper: PaperId,
    drawn: &Arc<DrawnPiece>,
) -> Drawn {
    let known = work.garment.paper(paper);
    let layer = known.layer;
    let own =
        |target: &&Target| target.piece == known.piece && (target.layer.is_none() || target.layer == layer);
    let targets = step.alteration.targets.iter().filter(own);
    let asked = asked::question(work, step, targets.clone(), drawn);
    let Some((question, memory)) = asked.zip(work.memory) else {
        return altered(work, step, reshape, targets, drawn);
    };
    memory.size.altered.ask_unless_told(drawn, question, || {
        let told = work.findings_count();
        (altered(work, step, reshape, targets, drawn), !work.is_told_of(told))
    })
}

/// A paper after an alteration, worked out.
fn altered<'t>(
    work: &Work,
    step: &Step,
    reshape: Reshape,
    targets: impl Iterator<Item = &'t Target>,
    drawn: &Arc<DrawnPiece>,
) -> Drawn {
    let alteration = step.alteration;
    let mut now: Option<DrawnPiece> = None;
    for target in targets {
        let before = now.as_ref().unwrap_or(drawn);
        now = Some(reshape(work, step, target, before)?);
    }
    let Some(after) = now else { return Some(drawn.clone()) };
    let reshaped = step.kind.form().change != Change::None;
    let outline = ring(&after);
    let region = Region::of(&outline);
    let before = Some((&**drawn, alteration));
    if reshaped && !sound::is_sound(work, &after, &region, alteration.span, before, &|| false) {
        return None;
    }
    let settled = !work.is_muted() && take_ups::lie_as_before(drawn, &after);
    if !settled && !take_ups::is_sound(work, &after, &region, after.cut, Some(alteration)) {
        return None;
    }
    if reshaped && !work.is_muted() {
        // Marks that were outside before have been reported of.
        let was_inside = |point| drawn.spot(point).is_some_and(|at| contains(&ring(drawn), at));
        sound::marks_inside(work, &after, &region, |point| was_inside(point).then_some(alteration.span));
    }
    Some(Arc::new(after))
}

/// An alteration, and what it comes to in this size (0 where it has no amount).
struct Step<'a> {
    id: AlterationId,
    alteration: &'a Alteration,
    kind: AlterationKind,
    amount: f64,
}

/// What the alteration comes to; a solved amount was laid down by its solver.
fn amount(work: &mut Work, id: AlterationId, alteration: &Alteration) -> Option<f64> {
    let form = work.inherit(alteration.form())?;
    let expression: &Expression = match &alteration.amount {
        Some(Amount::By(by)) => by,
        Some(Amount::Until(_)) => return work.inherit(work.amounts.get(id.index()).copied().flatten()),
        None => return (form.amount == AmountForm::None || alteration.tapered.is_some()).then_some(0.0),
    };
    let value = work.scalar(expression, None)?;
    if value < 0.0 {
        work.mistake(-value, "", || {
            let title = Title::new(format!("this is to {} by {}", form.verb, work.amount(value)))
                .in_sizes()
                .then(", which is below 0");
            let message =
                Diagnostic::new(&catalogue::ALTER_NEGATIVE, expression.span, title).label("below 0");
            match form.opposite {
                Some(opposite) => message.help(format!(
                    "write `{}` if that is meant; a size that needs neither has the amount 0",
                    opposite.form().verb
                )),
                None => message.help("give an amount of 0 or more"),
            }
        });
        return None;
    }
    if let Some(place) = work.amounts.get_mut(id.index()) {
        *place = Some(value);
    }
    Some(value)
}
