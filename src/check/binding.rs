//! `bind/curve`: a binding wider than the curve is round.
//!
//! A binding lies on the cloth between its edge and the line that it is sewn along. Round an outside
//! curve of radius r that line has the radius r − w, and none is left where the binding's width w is
//! r. Round an inside curve the line has the radius r + w: at w = r the folded edge of the strip must
//! be half as long as the sewn one, and a bias strip whose yarns turn by 15° to either side gives no
//! more than cos 60° / cos 30° = 0.58 (geometry of a sheared grid).

use super::one_rim::{EdgeOfPart, first_edges, subject};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Binding, EdgeId, Finish, FinishId, FinishKind, Garment};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::{DrawnEdge, DrawnEdgeId, DrawnPiece};
use crate::sewing::{PartId, TakenBy, amount_of};
use crate::shape::offset::{OffsetError, parallel};
use crate::shape::outline::is_anticlockwise;
use indexmap::IndexMap;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BIND_CURVE], run: Run::PerSize(run) };

/// A radius below this is a corner, in millimetres: there a binding is folded to a mitre.
const CORNER: f64 = 1.0;
/// So many edges of one binding are shown.
const SHOWN: usize = 6;

/// An edge that is rounder than its binding is wide.
struct Tight {
    edge: EdgeId,
    finish: FinishId,
    width: f64,
    radius: f64,
    /// On which side of the edge it is as round as that.
    curve: &'static str,
    at: EdgeOfPart,
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
            let Some(finish) = finish else { continue };
            let FinishKind::Bound(Binding { width, .. }) = &garment.finish(finish).kind else { continue };
            let width = amount_of(garment, &size.drawn, width).filter(|width| *width > 0.0);
            let Some((width, (radius, curve))) =
                width.and_then(|width| Some((width, tightest(drawn, edge, width)?)))
            else {
                continue;
            };
            let (edge, at) = (edge.edge, (part, id));
            found.push(Tight { edge, finish, width, radius, curve, at });
        }
    }
    let edges: Vec<(EdgeOfPart, FinishId)> = found.iter().map(|tight| (tight.at, tight.finish)).collect();
    let mut bindings: IndexMap<EdgeOfPart, Vec<Tight>> = IndexMap::new();
    for (tight, first) in found.into_iter().zip(first_edges(size, &edges)) {
        bindings.entry(first).or_default().push(tight);
    }
    findings.extend(bindings.into_iter().filter_map(|(first, all)| reported(garment, size, first, all)));
}

/// Where an edge is roundest, if that is rounder than a binding of that width: its radius, and whether that is an outside
/// curve.
fn tightest(drawn: &DrawnPiece, edge: &DrawnEdge, width: f64) -> Option<(f64, &'static str)> {
    if edge.path.is_straight() {
        return None;
    }
    let is_left = is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path));
    let inward = if is_left { 1.0 } else { -1.0 };
    let tight = [(inward, "outside"), (-inward, "inside")].map(|(side, word)| {
        let radius = match parallel(&edge.path, side * width) {
            Err(OffsetError::TooTight { radius, .. }) if radius >= CORNER => radius,
            _ => return None,
        };
        Some((radius, word))
    });
    tight.into_iter().flatten().min_by(|one, other| one.0.total_cmp(&other.0))
}

/// One binding, worded for where it is tightest, with all the edges that are too round for it.
fn reported(garment: &Garment, size: &WorkedSize, first: EdgeOfPart, mut all: Vec<Tight>) -> Option<Finding> {
    all.sort_by(|one, other| one.radius.total_cmp(&other.radius));
    let worst = all.first()?;
    let finish: &Finish = garment.finish(worst.finish);
    let unit = garment.unit;
    let mut named: Vec<String> = all.iter().map(|tight| words::edge(garment, tight.edge)).collect();
    once_each(&mut named);
    let (wide, round) = (amount(worst.width, unit), amount(worst.radius, unit));
    let least = at_most(worst.radius, unit);
    let title =
        Title::new(format!("a binding {wide} wide does not lie flat round {}", words::listed(&named)))
            .in_sizes()
            .then(format!(": its {} curve has a radius of {round}", worst.curve));
    let mut mistake =
        Diagnostic::new(&catalogue::BIND_CURVE, finish.kind_span, title).label(format!("{wide} wide"));
    let mut shown = Vec::new();
    for tight in &all {
        let span = garment.edge(tight.edge).span;
        if shown.contains(&span) {
            continue;
        }
        shown.push(span);
        let radius = amount(tight.radius, unit);
        match shown.len() <= SHOWN {
            true => mistake = mistake.also(span, format!("radius {radius} where it is tightest")),
            false => mistake.unshown.push(span),
        }
    }
    let mistake = mistake
        .help(format!("take a binding narrower than {least}, draw the curve rounder, or face the edge"));
    Some(
        Finding::new(size.id(), worst.width - worst.radius, mistake)
            .about(subject(garment, size, first))
            .figure("binding", wide)
            .figure("radius", round),
    )
}
