//! `cutting/too-wide`: an allowance for which there is no room.

use super::allowed::Allowed;
use super::line::{Most, Unfit};
use super::part_line::allowed;
use crate::garment::{Garment, SizeId};
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::SewnPart;
use kurbo::Point;

/// The message of a part that has no room for its allowances.
pub(super) fn of_part(
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnPart,
    unfit: Unfit,
) -> Option<Finding> {
    finding(garment, sized.size, sewn, sized.paper(sewn.part.paper)?, &allowed(sewn)?, unfit)
}

/// The message; none where the outline itself is no outline, which has been reported.
fn finding(
    garment: &Garment,
    size: SizeId,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    unfit: Unfit,
) -> Option<Finding> {
    let (first, second, at, most) = match unfit {
        Unfit::NoOutline => return None,
        Unfit::TooWide { edge, at, most } => (edge, edge, at, most),
        Unfit::Overlap { first, second, at, most } => (first, second, at, most),
    };
    // Of an edge that nothing takes, which is reported, the allowance is not settled yet.
    let is_loose =
        |edge: DrawnEdgeId| sewn.fate(edge).is_some_and(|fate| fate.takers.is_empty() && !fate.folded_in);
    if is_loose(first) || is_loose(second) {
        return None;
    }
    let unit = garment.unit;
    let width = allowed.get(first.index())?.width;
    let name =
        |edge: DrawnEdgeId| drawn.edge_at(edge).map(|edge| garment.edge(edge.edge).name.replace('_', " "));
    let (one, other) = (name(first)?, name(second)?);
    let piece = garment.part_name(Some(sewn.part.layer), sewn.part.piece);
    let title = if first == second {
        Title::new(format!("the allowance of {one} on {piece} is too wide to be cut")).in_sizes()
    } else {
        Title::new(format!("the allowances of {one} and {other} on {piece} lie over each other")).in_sizes()
    };
    let span_of = |edge: DrawnEdgeId| sewn.fate(edge).and_then(|fate| fate.allowance_span);
    let own = garment.piece(sewn.part.piece).span;
    let place = span_of(first).unwrap_or(own);
    let label = format!("{} here, {}", amount(width, unit), whereabouts(drawn, first, at, garment));
    let mut mistake = Diagnostic::new(&catalogue::CUTTING_TOO_WIDE, place, title).label(label);
    if let Some(also) = span_of(second).filter(|also| *also != place) {
        let width = allowed.get(second.index()).map_or(0.0, |one| one.width);
        mistake = mistake.also(also, format!("{} here", amount(width, unit)));
    }
    let (room, help) = match most {
        Most::Own(most) if most >= 1.0 => (
            most,
            format!(
                "the edge takes at most {} there: make the allowance narrower, or the edge rounder",
                at_most(most, unit)
            ),
        ),
        Most::All(most) if most >= 1.0 => (
            most,
            format!(
                "there is room for {} there when its neighbours' allowances are no wider either: make \
                 them narrower, or draw more room between the edges",
                at_most(most, unit)
            ),
        ),
        _ => (
            0.0,
            "there is no room for any allowance there: bind that edge, or draw the edge rounder".to_owned(),
        ),
    };
    // Nothing of the edge itself is to be changed first, but it is what this is about.
    let edges = [first, second].into_iter().filter_map(|edge| drawn.edge_at(edge));
    mistake.unshown.extend(edges.map(|edge| garment.edge(edge.edge).span));
    let mistake = mistake.help(help);
    let finding = Finding::new(size, width - room, mistake).about(format!("{piece}.{one}"));
    let fits = if room > 0.0 { at_most(room, unit) } else { "nothing".to_owned() };
    Some(finding.figure("allowance", amount(width, unit)).figure("there is room for", fits))
}

/// Where on the edge, from its nearer end.
fn whereabouts(drawn: &DrawnPiece, edge: DrawnEdgeId, at: Point, garment: &Garment) -> String {
    let Some(path) = drawn.edge_at(edge).map(|edge| &edge.path) else { return String::new() };
    let along = path.nearest(at).at;
    let length = path.length();
    let (distance, end) = if along <= length / 2.0 { (along, "start") } else { (length - along, "end") };
    format!("{} from the edge's {end}", amount(distance, garment.unit))
}
