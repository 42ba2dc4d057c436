//! `fold/slant`, and `seam/kink` and `hem/kink` at a fold: what is cut on the fold opens out to twice its
//! angles.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, FinishKind, Garment};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{SewnPart, TakenBy};
use crate::shape::Vec2;
use crate::shape::outline::is_anticlockwise;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::FOLD_SLANT, &catalogue::SEAM_KINK, &catalogue::HEM_KINK],
    run: Run::PerSize(run),
};

/// Degrees that an edge may turn by over the fold; more is seen (common practice). A fold may be off the
/// grain by half of it, since both halves are.
const MOST_TURN: f64 = 5.0;
/// What turns by more than this, in degrees, is a corner by design: the point of a V.
const CORNER: f64 = 45.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen = IdSet::default();
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
        let CutHow::OnFold(fold) = drawn.cut else { continue };
        let Some(at) = drawn.edges.iter().position(|edge| edge.edge == fold) else { continue };
        let fold = DrawnEdgeId::from_index(at);
        // A curved fold is reported as such; one paper may be cut in several layers.
        let is_straight = drawn.edge_at(fold).is_some_and(|edge| edge.path.off_straight() < 0.5);
        if !is_straight || !seen.insert(part.part.paper) {
            continue;
        }
        match slant(drawn, fold) {
            Some(off) => findings.push(slanted(garment, size, drawn, fold, off)),
            None => {
                findings.extend(
                    [false, true]
                        .into_iter()
                        .filter_map(|at_end| kink(garment, size, part, drawn, (fold, at_end))),
                );
            }
        }
    }
}

/// How far a fold is off the grain or what is square to it, if it is, and off the bias too.
fn slant(drawn: &DrawnPiece, fold: DrawnEdgeId) -> Option<f64> {
    let path = &drawn.edge_at(fold)?.path;
    let way: Vec2 = path.end() - path.start();
    let angle = libm::atan2(way.cross(drawn.grain).abs(), way.dot(drawn.grain).abs()).to_degrees();
    let off = (angle / 45.0 - (angle / 45.0).round()).abs() * 45.0;
    (off > MOST_TURN / 2.0).then_some(angle.min(90.0 - angle))
}

fn slanted(garment: &Garment, size: &WorkedSize, drawn: &DrawnPiece, fold: DrawnEdgeId, off: f64) -> Finding {
    let edge = drawn.edge_at(fold).map(|edge| edge.edge);
    let piece = words::piece(garment, drawn.piece);
    let name = edge.map_or_else(String::new, |edge| garment.edge(edge).name.to_string());
    let degrees = format!("{}°", off.round());
    let title = Title::new(format!("the fold {name} of {piece} is {degrees} off the grain")).in_sizes();
    let span = edge.map_or(garment.piece(drawn.piece).span, |edge| garment.edge(edge).span);
    let warning = Diagnostic::new(&catalogue::FOLD_SLANT, span, title)
        .label("not straight to the grain")
        .also(garment.piece(drawn.piece).cut.span, "cut on it")
        .help(format!(
            "draw {name} straight up or across, its two ends one above or beside the other; or let the grain run along it: grain along {name}"
        ));
    Finding::new(size.drawn.size, off, warning).about(piece).figure("off the grain", degrees)
}

/// The edge that meets the fold at one of its ends, where it turns there.
fn kink(
    garment: &Garment,
    size: &WorkedSize,
    part: &SewnPart,
    drawn: &DrawnPiece,
    (fold, at_end): (DrawnEdgeId, bool),
) -> Option<Finding> {
    let (before, after) = if at_end { (fold, drawn.after(fold)) } else { (drawn.before(fold), fold) };
    let beyond = if at_end { after } else { before };
    let (arriving, leaving) =
        (drawn.edge_at(before)?.path.tangent_at_end()?, drawn.edge_at(after)?.path.tangent_at_start()?);
    let turn = libm::atan2(arriving.cross(leaving), arriving.dot(leaving)).to_degrees();
    let way = if is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path)) { turn } else { -turn };
    let turn = 2.0 * (180.0 - way) - 180.0;
    if !(MOST_TURN..=CORNER).contains(&turn.abs()) {
        return None;
    }
    let takers = &part.fate(beyond)?.takers;
    let is_hem = takers.iter().any(|taker| match taker.what {
        TakenBy::Finish(id) => matches!(garment.finish(id).kind, FinishKind::Hem(_) | FinishKind::Casing(..)),
        _ => false,
    });
    takers.first()?;
    let (edge, centre) = (garment.edge(drawn.edge_at(beyond)?.edge), garment.edge(drawn.edge_at(fold)?.edge));
    let piece = words::piece(garment, drawn.piece);
    let degrees = format!("{}°", turn.abs().round());
    let shape = if turn > 0.0 { "a dip" } else { "a point" };
    let title = Title::new(format!("the {} of {piece} turns by {degrees} at the fold", edge.name))
        .in_sizes()
        .then(format!(", where both halves meet in {shape}"));
    let kind = if is_hem { &catalogue::HEM_KINK } else { &catalogue::SEAM_KINK };
    let how = if at_end { "leaving" } else { "arriving" };
    let warning = Diagnostic::new(kind, edge.span, title)
        .label("not square to the fold")
        .also(centre.span, "cut on this fold")
        .help(format!(
            "let it meet the fold square: {} … {how} square to {}; a point that is meant turns by more than {CORNER}°",
            edge.name, centre.name
        ));
    let found = Finding::new(size.drawn.size, turn.abs(), warning);
    Some(found.about(format!("{piece} {} at the fold", edge.name)).figure("turns by", degrees))
}
