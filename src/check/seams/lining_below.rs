//! `lining/long` of what hangs from a lining by a seam of its own, as a slip does: it is drawn by itself, and hangs out below what
//! hangs from the same edge of the outer, or is taken in by the same seam.

use super::on_edge::OnEdge;
use super::sides::in_size;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, PieceId, PointId, SeamId};
use crate::id_hash::IdMap;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::finished;
use crate::sewing::{SewnRun, SewnSeam, TakenBy};
use crate::shape::Point;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::LINING_LONG], run: Run::PerSize(run) };

/// What is measured from the middle of a curved edge down to that of a hem is told from here on, in millimetres.
const BY_EYE: f64 = 5.0;

/// What hangs from an edge: a piece by a seam, and how far down it goes.
#[derive(Clone, Copy)]
struct Hanging {
    layer: LayerId,
    piece: PieceId,
    seam: SeamId,
    long: f64,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.layers.iter().filter(|layer| !layer.fused).count() < 2 {
        return;
    }
    let mut from: IdMap<(PointId, PointId), Vec<Hanging>> = IdMap::default();
    let mut edges: Vec<(PointId, PointId)> = Vec::new();
    for sewn in size.sewn.seams.iter().filter(|sewn| lies_in_one_layer(size, sewn)) {
        for [above, below] in [[&sewn.first, &sewn.second], [&sewn.second, &sewn.first]] {
            let Some(hanging) = longest(garment, size, sewn, below.plies.iter().flat_map(|ply| &ply.runs))
            else {
                continue;
            };
            for run in above.plies.iter().flat_map(|ply| &ply.runs) {
                let part = size.sewn.part(run.part).part;
                let drawn = size.drawn.paper(part.paper);
                let Some(on) = drawn.and_then(|drawn| OnEdge::of(garment, drawn, run.edge)) else { continue };
                let known = from.entry(on.whole()).or_default();
                if known.is_empty() {
                    edges.push(on.whole());
                }
                known.push(hanging);
            }
        }
    }
    let mut told: Vec<SeamId> = Vec::new();
    for sewn in size.sewn.seams.iter().filter(|sewn| !lies_in_one_layer(size, sewn)) {
        if let Some((outer, inner)) = hanging_by_one_seam(garment, size, sewn)
            && inner.long - outer.long > BY_EYE
            && garment.origins(outer.piece) != garment.origins(inner.piece)
            && !told.contains(&inner.seam)
        {
            told.push(inner.seam);
            findings.push(message(garment, size, &outer, &inner, "about "));
        }
    }
    for all in edges.iter().filter_map(|edge| from.get(edge)) {
        for (at, outer) in all.iter().enumerate() {
            for inner in all.iter().skip(at + 1).filter(|inner| inner.layer != outer.layer) {
                let more = inner.long - outer.long;
                let is_other = garment.origins(outer.piece) != garment.origins(inner.piece);
                if more > garment.tolerance && is_other && !told.contains(&inner.seam) {
                    told.push(inner.seam);
                    findings.push(message(garment, size, outer, inner, ""));
                }
            }
        }
    }
}

/// What hangs furthest down from a folded band in its first layer and in a later one: a skirt, and the slip that its waistband takes
/// in. Without a band both sides of a seam lie beyond one another, as a facing and the lining below it.
fn hanging_by_one_seam(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<(Hanging, Hanging)> {
    let runs = || sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs);
    let is_folded = |run: &SewnRun| !garment.piece(size.sewn.part(run.part).part.piece).folds.is_empty();
    runs().any(is_folded).then_some(())?;
    let runs = runs().filter(|run| !is_folded(run));
    let all: Vec<Hanging> = runs.filter_map(|run| drop_of(size, sewn, run)).collect();
    let outer = all.iter().map(|one| one.layer).min()?;
    let longest = |of: &dyn Fn(&Hanging) -> bool| {
        all.iter().copied().filter(|one| of(one)).max_by(|one, other| one.long.total_cmp(&other.long))
    };
    Some((longest(&|one| one.layer == outer)?, longest(&|one| one.layer != outer)?))
}

/// How far below the middle of an edge the lowest hem of its piece lies, along the grain; none of what has no hem.
fn drop_of(size: &WorkedSize, sewn: &SewnSeam, run: &SewnRun) -> Option<Hanging> {
    let part = size.sewn.part(run.part);
    let drawn = size.drawn.paper(part.part.paper)?;
    let own = drawn.edge_at(run.edge)?;
    let grain = drawn.grain.normalize();
    let down = |at: Point| at.to_vec2().dot(grain);
    let from = down(own.path.point_at_length(0.5 * own.path.length()));
    let hems = drawn.edges.iter().zip(&part.edges).filter(|(_, fate)| {
        !fate.takers.is_empty() && fate.takers.iter().all(|taker| matches!(taker.what, TakenBy::Finish(_)))
    });
    // A slit's edge is finished too, and goes up and down.
    let hems = hems.filter(|(edge, _)| {
        let way = edge.path.end() - edge.path.start();
        way.dot(grain).abs() < way.cross(grain).abs()
    });
    let long = hems.map(|(edge, _)| (down(edge.path.point_at_length(0.5 * edge.path.length())) - from).abs());
    let long = long.max_by(f64::total_cmp)?;
    Some(Hanging { layer: part.part.layer, piece: part.part.piece, seam: sewn.seam, long })
}

fn lies_in_one_layer(size: &WorkedSize, sewn: &SewnSeam) -> bool {
    let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
    let mut layers = plies.flat_map(|ply| &ply.runs).map(|run| size.sewn.part(run.part).part.layer);
    let first = layers.next();
    layers.all(|layer| Some(layer) == first)
}

/// The longest of what those runs hang by: beside them, down to a hem.
fn longest<'a>(
    garment: &Garment,
    size: &WorkedSize,
    sewn: &SewnSeam,
    runs: impl Iterator<Item = &'a SewnRun>,
) -> Option<Hanging> {
    let each = runs.flat_map(|run| {
        let part = size.sewn.part(run.part);
        let drawn = size.drawn.paper(part.part.paper);
        let is_hem = |edge| {
            part.fate(edge).is_some_and(|fate| {
                !fate.takers.is_empty()
                    && fate.takers.iter().all(|taker| matches!(taker.what, TakenBy::Finish(_)))
            })
        };
        let found = drawn.into_iter().flat_map(|drawn| {
            let beside = [
                (drawn.before(run.edge), drawn.before(drawn.before(run.edge))),
                (drawn.after(run.edge), drawn.after(drawn.after(run.edge))),
            ];
            let down =
                beside.into_iter().filter(|&(side, low)| low != run.edge && !is_hem(side) && is_hem(low));
            down.filter_map(|(side, _)| finished(garment, drawn, side)).collect::<Vec<f64>>()
        });
        let (layer, piece) = (part.part.layer, part.part.piece);
        let hanging = found.map(move |long| Hanging { layer, piece, seam: sewn.seam, long });
        hanging.collect::<Vec<Hanging>>()
    });
    each.max_by(|one, other| one.long.total_cmp(&other.long))
}

fn message(garment: &Garment, size: &WorkedSize, outer: &Hanging, inner: &Hanging, about: &str) -> Finding {
    let unit = garment.unit;
    let by = amount(inner.long - outer.long, unit);
    let [shell, lining] = [outer, inner].map(|own| words::piece(garment, own.piece));
    let in_size = in_size(garment, &size.drawn);
    let title =
        Title::new(format!("{lining} hangs {about}{by} out below {shell}, from the same edge")).in_sizes();
    let warning = Diagnostic::new(&catalogue::LINING_LONG, garment.piece(inner.piece).span, title)
        .label(format!("{}{in_size} long", amount(inner.long, unit)))
        .also(garment.piece(outer.piece).span, format!("{}{in_size} long", amount(outer.long, unit)))
        .help(format!(
            "shorten it by {about}{by} and 2 cm more; or, if it is to show, nothing needs to change"
        ));
    Finding::new(size.id(), inner.long - outer.long, warning)
        .about(&*garment.piece(inner.piece).name)
        .figure(&garment.piece(outer.piece).name, amount(outer.long, unit))
        .figure(&garment.piece(inner.piece).name, amount(inner.long, unit))
}
