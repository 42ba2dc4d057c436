//! Closures in the document: which kind, how long, and what they close.

use super::documents::{ClosureChainsDocument, ClosureDocument, ClosureWay, RunDocument};
use super::number::Figure;
use super::openings::{edge_name, hand_of};
use super::seams::hand;
use super::sewn;
use crate::garment::{Chain, ClosureId, ClosureKind, CutHow, Expression, Garment};
use crate::resolve::SizedGarment;
use crate::sewing::surface::{ClosureLine, FaceId, StretchId, Surface};
use crate::sewing::{Sewing, amount_of};
use crate::syntax::tree::{Fastener, Hand, ZipperKind};

/// The closures of a size.
pub(super) fn closures(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<ClosureDocument> {
    let closure = |(at, closure): (usize, &crate::garment::Closure)| {
        let way = match closure.kind.as_ref()? {
            ClosureKind::Zipper { kind: ZipperKind::Separating, .. } => ClosureWay::SeparatingZip,
            ClosureKind::Zipper { kind: ZipperKind::Closed, .. } => ClosureWay::ClosedZip,
            ClosureKind::Zipper { kind: ZipperKind::Concealed, .. } => ClosureWay::ConcealedZip,
            ClosureKind::Fasteners(row) => match row.kind {
                Fastener::Button => ClosureWay::Buttons,
                Fastener::Snap => ClosureWay::Snaps,
                Fastener::Hook => ClosureWay::Hooks,
                Fastener::Toggle => ClosureWay::Toggles,
                Fastener::Buckle => ClosureWay::Buckle,
                Fastener::Tie => ClosureWay::Ties,
            },
        };
        let fit = sized.zips.get(at).copied().flatten();
        let amount =
            |said: Option<&Expression>| said.and_then(|said| amount_of(garment, sized, said)).map(Figure);
        let (showing, clear, stand) = match &closure.kind {
            Some(ClosureKind::Zipper { showing, clear, .. }) => {
                (amount(showing.as_ref()), amount(clear.as_ref()), None)
            }
            Some(ClosureKind::Fasteners(row)) => (None, None, amount(row.stand.as_ref())),
            None => (None, None, None),
        };
        Some(ClosureDocument {
            name: closure.name.to_string(),
            kind: way,
            count: sewing.closure_counts.as_ref().and_then(|counts| counts.get(at).copied()),
            zip: fit.map(|fit| Figure(fit.zip)),
            showing,
            stand,
            clear,
            sides: fit.map(|fit| fit.sides.map(Figure)),
            chains: sewing.surface.as_ref().map(|surface| {
                let lines = surface.closures.iter().filter(|line| line.closure == ClosureId::from_index(at));
                lines.map(|line| chains(garment, sized, sewing, surface, line)).collect()
            }),
            fasteners: sewn::fastener_row(sewing, ClosureId::from_index(at)),
        })
    };
    garment.closures.iter().enumerate().filter_map(closure).collect()
}

/// One of the times that a closure is there: both sides, edge by edge.
fn chains(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    line: &ClosureLine,
) -> ClosureChainsDocument {
    let closure = garment.closure(line.closure);
    let side = |at: usize, chain: &Chain| match line.sides[at].as_slice() {
        [] => along_lines(garment, sized, sewing, surface, line, at, chain),
        side => along_edges(garment, sized, sewing, surface, side),
    };
    ClosureChainsDocument { first: side(0, &closure.first), second: side(1, &closure.second) }
}

fn along_edges(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    stretches: &[(StretchId, bool)],
) -> Vec<RunDocument> {
    let same_side = |one: &(StretchId, bool), other: &(StretchId, bool)| {
        surface.stretch(one.0).side == surface.stretch(other.0).side
    };
    let runs = stretches.chunk_by(same_side).filter_map(|run| {
        let &(first, against) = run.first()?;
        let side = surface.side_of(first);
        Some(RunDocument {
            edge: edge_name(garment, sized, sewing, surface, first)?,
            hand: hand_of(sized, sewing, surface, first).map(hand),
            reversed: against != side.mirrored,
            length: Figure(run.iter().map(|&(stretch, _)| surface.length(stretch)).sum()),
        })
    });
    runs.collect()
}

/// A row of buttons on a line inside pieces.
fn along_lines(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    surface: &Surface,
    line: &ClosureLine,
    at: usize,
    chain: &Chain,
) -> Vec<RunDocument> {
    let run = |&face: &FaceId| -> Option<RunDocument> {
        let own = surface.face(face);
        let part = sewing.part(own.part).part;
        let drawn = sized.paper(part.paper)?;
        let named = chain.edges.iter().find(|sewn| {
            drawn.lines.iter().any(|line| garment.is_run_of(line.edge, sewn.edge))
                || drawn.edges.iter().any(|edge| garment.is_run_of(edge.edge, sewn.edge))
        })?;
        let is_half = matches!(drawn.cut, CutHow::OnFold(_));
        let half = is_half.then_some(if at == 0 { Hand::Left } else { Hand::Right });
        let name = garment.part_name(Some(part.layer), part.piece);
        Some(RunDocument {
            edge: format!("{name}.{}", garment.edge(named.edge).name),
            hand: own.hand.or(half).map(hand),
            reversed: false,
            length: Figure(line.lengths[at]),
        })
    };
    line.faces[at].iter().filter_map(run).collect()
}
