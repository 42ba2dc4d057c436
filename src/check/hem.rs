//! `hem/short`: a hem too deep for its curve.

use super::one_rim::{EdgeOfPart, first_edges, subject};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishId, FinishKind, Garment, Hem};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue, percent};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{PartId, TakenBy, amount_of};
use crate::shape::path::Path;
use indexmap::IndexMap;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::HEM_SHORT], run: Run::PerSize(run) };

/// What may be eased in, or must stretch, without much ado, as a share of the edge: common practice.
const EASED: f64 = 0.03;
/// The same in one bend of an edge that swings to both sides …
const EASED_IN_A_BEND: f64 = 0.1;
/// … if it is also more than this, in millimetres.
const LEAST: f64 = 5.0;
/// Chords of a curve lie within this of it, in millimetres, when its turning is summed up.
const CLOSE: f64 = 0.1;
/// So many curves of one hem are shown.
const SHOWN: usize = 6;

/// An edge that is too round for its hem.
struct Short {
    edge: EdgeId,
    finish: FinishId,
    at: EdgeOfPart,
    depth: f64,
    /// By how much the hem is longer than the line that it is sewn to, or shorter where it is less than nothing.
    excess: f64,
    /// How long the curve is.
    length: f64,
}

impl Short {
    fn share(&self) -> f64 {
        self.excess.abs() / self.length
    }
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut found = Vec::new();
    for (part, sewn) in PartId::enumerate(&size.sewn.parts).filter(|(_, part)| !part.fused) {
        let Some(drawn) = size.drawn.paper(sewn.part.paper) else { continue };
        for ((id, edge), fate) in DrawnEdgeId::enumerate(&drawn.edges).zip(&sewn.edges) {
            let finish = fate.takers.iter().find_map(|taker| match taker.what {
                TakenBy::Finish(id) => Some(id),
                _ => None,
            });
            let Some(finish) = finish.filter(|_| fate.turned_up) else { continue };
            let depth = match &garment.finish(finish).kind {
                FinishKind::Hem(hem) => deepest(garment, &size.drawn, hem),
                FinishKind::Casing(depth, _) => amount_of(garment, &size.drawn, depth),
                FinishKind::Bound(_)
                | FinishKind::Elastic(..)
                | FinishKind::Tape(_)
                | FinishKind::TurnedUnderOnto(_)
                | FinishKind::Overlocked
                | FinishKind::Raw
                | FinishKind::Poison => None,
            };
            let Some(depth) = depth else { continue };
            if let Some((excess, length)) = excess(drawn, &edge.path, depth) {
                found.push(Short { edge: edge.edge, finish, at: (part, id), depth, excess, length });
            }
        }
    }
    // One hem is turned up round one rim: where it has to be eased in, and where it has to be stretched, are told once each.
    let edges: Vec<(EdgeOfPart, FinishId)> = found.iter().map(|short| (short.at, short.finish)).collect();
    let mut hems: IndexMap<(EdgeOfPart, bool), Vec<Short>> = IndexMap::new();
    for (short, first) in found.into_iter().zip(first_edges(size, &edges)) {
        hems.entry((first, short.excess > 0.0)).or_default().push(short);
    }
    findings.extend(hems.into_iter().filter_map(|((first, _), all)| reported(garment, size, first, all)));
}

/// By how much a hem is longer than the curve that it is sewn to, and how long that curve is, where that is more than is
/// eased in or stretched without much ado.
fn excess(drawn: &DrawnPiece, path: &Path, depth: f64) -> Option<(f64, f64)> {
    let bends = bends(path);
    let whole = Bend { turn: bends.iter().map(|bend| bend.turn).sum(), length: path.length() };
    let is_short = |bend: &Bend, eased: f64| {
        let excess = (bend.turn * depth).abs();
        excess.is_finite() && bend.length > 0.0 && excess > eased * bend.length
    };
    // An edge that swings one way and the other is as long as its hem, and neither swing is.
    let sharp = |bend: &&Bend| is_short(bend, EASED_IN_A_BEND) && (bend.turn * depth).abs() > LEAST;
    let swings = || bends.iter().filter(sharp).max_by(|a, b| a.turn.abs().total_cmp(&b.turn.abs()));
    let bend = Some(&whole).filter(|whole| is_short(whole, EASED)).or_else(swings)?;
    let outward = if winds_left(drawn) { 1.0 } else { -1.0 };
    Some((bend.turn * outward * depth, bend.length))
}

/// Worded for the edge of which most is to be eased in, with all the others of the rim.
fn reported(garment: &Garment, size: &WorkedSize, first: EdgeOfPart, mut all: Vec<Short>) -> Option<Finding> {
    all.sort_by(|one, other| other.share().total_cmp(&one.share()));
    let worst = all.first()?;
    let unit = garment.unit;
    let (deep, by) = (amount(worst.depth, unit), amount(worst.excess.abs(), unit));
    let mut names: Vec<String> = all.iter().map(|short| words::edge(garment, short.edge)).collect();
    once_each(&mut names);
    let is_longer = worst.excess > 0.0;
    let (must, label) = match is_longer {
        true => ("eased in", "longer than the line it is sewn to"),
        false => ("stretched", "shorter than the line it is sewn to"),
    };
    let up_to = if names.len() > 1 { "up to " } else { "" };
    let title = Title::new(format!(
        "a hem of {deep} is deep for the curve of {}: {up_to}{by}, {}, must be {must}",
        words::listed(&names),
        percent(worst.share())
    ))
    .in_sizes();
    let mut advice =
        Diagnostic::new(&catalogue::HEM_SHORT, garment.finish(worst.finish).kind_span, title).label(label);
    for short in &all {
        let span = garment.edge(short.edge).span;
        if advice.labels.iter().all(|label| label.span != span) {
            match advice.labels.len() <= SHOWN {
                true => advice = advice.also(span, "on this curve"),
                false => advice.unshown.push(span),
            }
        }
    }
    let narrower = at_most(worst.depth * EASED / worst.share(), unit);
    let advice = advice.help(format!("turn it no deeper than {narrower}, or face or bind the edge"));
    let finding = Finding::new(size.id(), worst.share(), advice)
        .about(format!("{}{must}", subject(garment, size, first)))
        .figure("the curve", amount(worst.length, unit));
    Some(finding.figure(if is_longer { "to ease in" } else { "to stretch" }, by))
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
