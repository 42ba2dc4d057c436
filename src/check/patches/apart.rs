//! `place/apart`: two placed pieces that are sewn or zipped to one another, and lie apart where they are placed.

use super::put;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, ClosureKind, EdgeId, Garment, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::patches::Patch;
use crate::shape::Point;
use crate::shape::outline::Region;
use crate::shape::path::Path;
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_APART], run: Run::PerSize(run) };

/// Between the edges of a zip that is to be seen lie its teeth, and between placed pieces their tolerance, in
/// millimetres: zips are up to 2 cm wide between their edges (common practice).
const BETWEEN: f64 = 25.0;
/// Edges whose lengths differ by no more, in millimetres, lie end to end.
const AS_LONG: f64 = 5.0;

/// What joins edges, and which.
struct Joining<'a> {
    name: &'a str,
    span: Span,
    first: Vec<&'a SewnEdge>,
    second: Vec<&'a SewnEdge>,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.len() < 2 {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    let mut told: Vec<(EdgeId, EdgeId)> = Vec::new();
    for joining in joinings(garment) {
        for one in &joining.first {
            for other in &joining.second {
                let ends = [one, other].map(|sewn| of(garment, &patches, sewn));
                let [Some((first, paths)), Some((second, across))] = ends else { continue };
                // What is left of an edge beside a zip lies as far from the other as the zip does.
                let pair = (root(garment, one.edge), root(garment, other.edge));
                let is_told = told.contains(&pair) || told.contains(&(pair.1, pair.0));
                if is_told || !lie_side_by_side(first, second) {
                    continue;
                }
                let far = apart(first, &paths, second, &across).filter(|far| *far > BETWEEN);
                if let Some(far) = far.or_else(|| shifted(&paths, &across)) {
                    told.push(pair);
                    findings.push(finding(garment, size, &joining, (first, second), far));
                }
            }
        }
    }
}

fn joinings(garment: &Garment) -> Vec<Joining<'_>> {
    fn edges(chains: &[Chain]) -> Vec<&SewnEdge> {
        chains.iter().flat_map(|chain| &chain.edges).collect()
    }
    let zips = garment.closures.iter().filter(|one| matches!(one.kind, Some(ClosureKind::Zipper { .. })));
    let zips = zips.map(|closure| Joining {
        name: &closure.name,
        span: closure.name_span,
        first: closure.first.edges.iter().collect(),
        second: closure.second.edges.iter().collect(),
    });
    let seams = garment.seams.iter().filter(|seam| !seam.poisoned).map(|seam| Joining {
        name: &seam.name,
        span: seam.name_span,
        first: edges(&seam.first),
        second: edges(&seam.second),
    });
    zips.chain(seams).collect()
}

/// The edge of which an edge is a run.
fn root(garment: &Garment, edge: EdgeId) -> EdgeId {
    let mut all = garment.piece(garment.edge(edge).piece).edges.iter().copied();
    all.find(|whole| garment.is_run_of(edge, *whole)).unwrap_or(edge)
}

/// The placed piece that has an edge, and where what is left of that edge lies; none of one that is placed more than
/// once, or folded.
fn of<'a, 'p>(
    garment: &Garment,
    patches: &'p [Patch<'a>],
    sewn: &SewnEdge,
) -> Option<(&'p Patch<'a>, Vec<&'p Path>)> {
    let mut own = patches.iter().filter(|patch| {
        let layer = patch.placement.layer.zip(sewn.layer);
        patch.placement.piece == sewn.piece && layer.is_none_or(|(one, other)| one == other)
    });
    let patch = own.next().filter(|_| own.next().is_none())?;
    let is_folded = !garment.piece(sewn.piece).folds.is_empty();
    let is_own = |edge: EdgeId| garment.is_run_of(edge, sewn.edge) || garment.is_run_of(sewn.edge, edge);
    let own = patch.placed.edges.iter().filter(|(edge, _)| is_own(*edge));
    (!is_folded).then(|| (patch, own.map(|(_, path)| path).collect()))
}

fn lie_side_by_side(one: &Patch, other: &Patch) -> bool {
    let hands = one.placement.hand.zip(other.placement.hand);
    one.placed.on == other.placed.on
        && one.id != other.id
        && hands.is_none_or(|(one, other)| one == other)
        && is_held(one)
        && is_held(other)
}

/// Whether it is stitched down on more than one edge, and so cannot turn about it.
fn is_held(patch: &Patch) -> bool {
    patch.rows.len() > 1 && !patch.open.is_empty()
}

/// How far two edges lie apart with nothing of either piece between them, the least of it: none where they meet anywhere.
fn apart(one: &Patch, paths: &[&Path], other: &Patch, across: &[&Path]) -> Option<f64> {
    let mut least = f64::INFINITY;
    for path in paths {
        for beyond in across {
            let middle = path.point_at_length(path.length() / 2.0);
            let between = middle.midpoint(beyond.nearest(middle).point);
            let is_bare = |patch: &Patch| !Region::of(&patch.outline).contains(between);
            if !is_bare(one) || !is_bare(other) {
                return None;
            }
            let clear = [path.start(), path.end(), middle].map(|at| beyond.nearest(at).distance);
            least = clear.into_iter().fold(least, f64::min);
        }
    }
    least.is_finite().then_some(least)
}

/// How far the ends of two edges of one length lie apart, where that is more than lies between edges: the one was placed further along
/// than the other.
fn shifted(paths: &[&Path], across: &[&Path]) -> Option<f64> {
    let ([one], [other]) = (paths, across) else { return None };
    let far = |ends: [Point; 2]| one.start().distance(ends[0]).max(one.end().distance(ends[1]));
    let least = far([other.start(), other.end()]).min(far([other.end(), other.start()]));
    ((one.length() - other.length()).abs() <= AS_LONG && least > BETWEEN).then_some(least)
}

fn finding(
    garment: &Garment,
    size: &WorkedSize,
    joining: &Joining,
    (first, second): (&Patch, &Patch),
    far: f64,
) -> Finding {
    let [one, other] = [first, second].map(|patch| words::piece(garment, patch.placement.piece));
    let far_words = amount(far, garment.unit);
    let title = Title::new(format!(
        "{one} and {other} are joined by {}, and lie {far_words} apart where they are placed",
        joining.name
    ))
    .in_sizes();
    let warning = Diagnostic::new(&catalogue::PLACE_APART, joining.span, title)
        .label("their edges are to meet here")
        .also(put(first), format!("{one} lies here"))
        .also(put(second), format!("{other} lies here"))
        .help(format!("move one of their marks by {far_words}, so that the edges lie side by side"));
    Finding::new(size.id(), far, warning).about(format!("{one} {other}")).figure("apart", far_words)
}
