//! `hem/short`: a hem too deep for its curve.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{FinishKind, Garment, Hem};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue, percent};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::sewing::{TakenBy, amount_of};
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_SHORT], run: Run::PerSize(run) };

/// What may be eased in, or must stretch, without much ado, as a share of the edge: common practice.
const EASED: f64 = 0.03;
/// The same in one bend of an edge that swings to both sides …
const EASED_IN_A_BEND: f64 = 0.1;
/// … if it is also more than this, in millimetres.
const LEAST: f64 = 5.0;
/// Chords of a curve lie within this of it, in millimetres, when its turning is summed up.
const CLOSE: f64 = 0.1;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        for (edge, fate) in drawn.edges.iter().zip(&part.edges).filter(|(_, fate)| fate.turned_up) {
            let finish = fate.takers.iter().find_map(|taker| match taker.what {
                TakenBy::Finish(id) => Some(garment.finish(id)),
                _ => None,
            });
            let Some(finish) = finish else { continue };
            let depth = match &finish.kind {
                FinishKind::Hem(hem) => deepest(garment, sized, hem),
                FinishKind::Casing(depth, _) => amount_of(garment, sized, depth),
                FinishKind::Bound(_)
                | FinishKind::Elastic(..)
                | FinishKind::Tape(_)
                | FinishKind::TurnedUnderOnto(_)
                | FinishKind::Overlocked
                | FinishKind::Raw
                | FinishKind::Poison => None,
            };
            let Some(depth) = depth else { continue };
            let bends = bends(&edge.path);
            let whole = Bend { turn: bends.iter().map(|bend| bend.turn).sum(), length: edge.path.length() };
            let is_short = |bend: &Bend, eased: f64| {
                let excess = (bend.turn * depth).abs();
                excess.is_finite() && bend.length > 0.0 && excess > eased * bend.length
            };
            // An edge that swings one way and the other is as long as its hem, and neither swing is.
            let sharp = |bend: &&Bend| is_short(bend, EASED_IN_A_BEND) && (bend.turn * depth).abs() > LEAST;
            let swings = || bends.iter().filter(sharp).max_by(|a, b| a.turn.abs().total_cmp(&b.turn.abs()));
            let Some(bend) = Some(&whole).filter(|whole| is_short(whole, EASED)).or_else(swings) else {
                continue;
            };
            let outward = if winds_left(drawn) { 1.0 } else { -1.0 };
            let (excess, length) = (bend.turn * outward * depth, bend.length);
            let name = words::edge(garment, edge.edge);
            let (deep, by) = (amount(depth, garment.unit), amount(excess.abs(), garment.unit));
            let (title, label) = match excess > 0.0 {
                true => (
                    Title::new(format!(
                        "a hem of {deep} is deep for the curve of {name}: {by}, {}, must be eased in",
                        percent(excess / length)
                    ))
                    .in_sizes(),
                    "longer than the line it is sewn to",
                ),
                false => (
                    Title::new(format!(
                        "a hem of {deep} is deep for the curve of {name}: {by}, {}, must be stretched",
                        percent(-excess / length)
                    ))
                    .in_sizes(),
                    "shorter than the line it is sewn to",
                ),
            };
            let narrower = amount(depth * EASED * length / excess.abs(), garment.unit);
            let advice = Diagnostic::new(&catalogue::HEM_SHORT, finish.kind_span, title)
                .label(label)
                .also(garment.edge(edge.edge).span, "on this curve")
                .help(format!("turn it no deeper than {narrower}, or face or bind the edge"));
            findings.push(
                Finding::new(sized.size, excess.abs() / length, advice)
                    .about(garment.part_name(Some(part.part.layer), part.part.piece) + &name)
                    .figure("the curve", amount(length, garment.unit))
                    .figure("to ease in", by),
            );
        }
    }
}

/// How deep a hem lies on the piece: its own depth, or its turn-up's if that is more, in millimetres.
pub(super) fn deepest(garment: &Garment, sized: &SizedGarment, hem: &Hem) -> Option<f64> {
    let depth = amount_of(garment, sized, &hem.depth)?;
    match &hem.turn_up {
        Some(turn_up) => Some(depth.max(amount_of(garment, sized, turn_up)?)),
        None => Some(depth),
    }
}

/// A stretch of a path that turns one way.
struct Bend {
    /// How far it turns to the left, in radians. At depth d the line beside a smooth curve is shorter by
    /// d times this: by geometry, πd for a half circle, 2πd for a full one.
    turn: f64,
    length: f64,
}

/// The bends of a path, each with the half chords at both ends of it.
fn bends(path: &Path) -> Vec<Bend> {
    let points = path.flatten(CLOSE);
    let chords = points.windows(2).filter_map(|two| match two {
        [from, to] if from.distance(*to) > 0.0 => Some((*to - *from, from.distance(*to))),
        _ => None,
    });
    let end = |way: Option<kurbo::Vec2>| way.map(|way| (way, 0.0));
    let ways: Vec<(kurbo::Vec2, f64)> =
        end(path.tangent_at_start()).into_iter().chain(chords).chain(end(path.tangent_at_end())).collect();
    let mut bends: Vec<Bend> = Vec::new();
    for two in ways.windows(2) {
        let [(before, long), (after, longer)] = two else { continue };
        let turn = libm::atan2(before.cross(*after), before.dot(*after));
        let length = (long + longer) / 2.0;
        match bends.last_mut() {
            Some(bend) if bend.turn * turn >= 0.0 => {
                bend.turn += turn;
                bend.length += length;
            }
            _ => bends.push(Bend { turn, length }),
        }
    }
    bends
}

/// Whether the outline is walked with the cloth on its left.
fn winds_left(drawn: &DrawnPiece) -> bool {
    let points: Vec<_> = drawn.outline().iter().flat_map(|edge| edge.path.flatten(1.0)).collect();
    let next = points.iter().cycle().skip(1);
    let area: f64 = points.iter().zip(next).map(|(one, two)| one.x * two.y - two.x * one.y).sum();
    area > 0.0
}
