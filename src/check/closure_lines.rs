//! `closure/jumps` of lines: a row of buttons along lines inside pieces that goes on from one to another that is not sewn
//! to it there.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, EdgeId, Garment, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnPiece, sewn_layer};
use crate::sewing::seam_edges;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOSURE_JUMPS], run: Run::PerForm(run) };

/// A line ends at an edge that is no further from it, in millimetres.
const AT_EDGE: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.incomplete.sewing {
        return;
    }
    for closure in &garment.closures {
        let chains = [&closure.first, &closure.second];
        if !chains
            .iter()
            .any(|chain| chain.edges.len() > 1 && chain.edges.iter().any(|sewn| is_line(garment, sewn)))
        {
            continue;
        }
        let jump = chains.into_iter().find_map(|chain| jump(garment, size, chain));
        let Some((from, to)) = jump else { continue };
        let [one, other] = [from, to].map(|sewn| words::edge(garment, sewn.edge));
        let title = Title::new(format!(
            "along {}, {other} does not begin where {one} ends, as they are sewn",
            closure.name
        ));
        let mistake = Diagnostic::new(&catalogue::CLOSURE_JUMPS, to.span, title.in_sizes())
            .label("no seam joins it to the one before")
            .also(from.span, "ends at a seam with something else")
            .help("name the lines as they run on in one another: over each seam in the piece that is sewn there");
        findings.push(Finding::new(size.id(), 0.0, mistake).about(&*closure.name));
    }
}

fn is_line(garment: &Garment, sewn: &SewnEdge) -> bool {
    garment.edge(sewn.edge).line
}

/// Two that follow one another of which no seam joins the edges that they end at.
fn jump<'c>(garment: &Garment, size: &WorkedSize, chain: &'c Chain) -> Option<(&'c SewnEdge, &'c SewnEdge)> {
    chain.edges.windows(2).find_map(|pair| {
        let [one, other] = pair else { return None };
        if one.piece == other.piece || !is_line(garment, one) && !is_line(garment, other) {
            return None;
        }
        let (own, far) = (ends_at(garment, size, one)?, ends_at(garment, size, other)?);
        let takes = |edges: &[EdgeId], named: EdgeId| {
            edges.iter().any(|&edge| garment.is_run_of(edge, named) || garment.is_run_of(named, edge))
        };
        let joins = garment.seams.iter().any(|seam| {
            seam_edges(seam).any(|sewn| takes(&own, sewn.edge))
                && seam_edges(seam).any(|sewn| takes(&far, sewn.edge))
        });
        (!joins).then_some((one, other))
    })
}

/// The edges that a line, or an edge, ends at; none of what is not drawn, or ends inside its piece.
fn ends_at(garment: &Garment, size: &WorkedSize, sewn: &SewnEdge) -> Option<Vec<EdgeId>> {
    let layer = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece));
    let drawn: &DrawnPiece = size.drawn.paper(garment.paper_of(layer, sewn.piece)?)?;
    let lines = drawn.lines.iter().map(|line| (line.edge, &line.path));
    let mut all = lines.chain(drawn.edges.iter().map(|edge| (edge.edge, &edge.path)));
    let (_, path) = all.find(|(edge, _)| garment.is_run_of(*edge, sewn.edge))?;
    let near = |edge: &&crate::resolve::DrawnEdge| {
        [path.start(), path.end()].into_iter().any(|end| edge.path.nearest(end).distance <= AT_EDGE)
    };
    let found: Vec<EdgeId> = drawn.edges.iter().filter(near).map(|edge| edge.edge).collect();
    (!found.is_empty()).then_some(found)
}
