//! `seam/kink` and `hem/kink`: an edge that turns where two sewn pieces meet.

use super::sides::{each, in_size, ply_span};
use crate::check::surface::angle;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Chain, Direction, EdgeId, EdgePath, FinishId, FinishKind, Garment, LayerId, Outline, SeamId,
};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::surface::StretchId;
use crate::sewing::{PartId, SeamEnd, Sewing, SewnPly, TakenBy};
use crate::shape::outline::is_anticlockwise;
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_KINK, &catalogue::HEM_KINK], run: Run::PerSize(run) };

/// Degrees that an edge may turn by; more is seen (common practice).
pub(super) const MOST_TURN: f64 = 5.0;
/// Where so much more cloth than a straight line has lies round a corner, in degrees, a slit ends there.
const SLIT: f64 = 120.0;
/// … if neither piece turns by more than this beside the seam, in degrees.
const SLIT_EDGE: f64 = 45.0;
/// Two pieces that have so much more cloth together than a straight line has lap over one another there, in degrees.
const LAPPED: f64 = 180.0;
/// What stands square on an edge that goes straight on does so within this, in degrees.
const UPRIGHT: f64 = 30.0;
/// So far from square a straight seam and its edge meet only where a curve was forgotten, in degrees.
const FAR_FROM_SQUARE: f64 = 45.0;
/// Turns of copies that differ by less, in degrees, are one.
const SAME_TURN: f64 = 0.5;

/// A corner of a part at the end of a seam or a closure.
pub(super) struct Corner {
    /// The edge that goes on from the seam.
    edge: DrawnEdgeId,
    /// The edge that is sewn.
    sewn: DrawnEdgeId,
    /// The edge that goes on begins there, as it is drawn; else it ends there.
    leaves: bool,
    part: PartId,
    /// The angle of the cloth there, in degrees.
    pub(super) angle: f64,
}

impl Corner {
    /// Whether its edge goes on beside a slit.
    fn is_open(&self) -> bool {
        (self.angle - 180.0).abs() <= SLIT_EDGE
    }
}

/// Whether the edge beyond a seam is finished, and sewn to nothing.
fn is_finished(sewing: &Sewing, corner: &Corner) -> bool {
    let fate = sewing.part(corner.part).fate(corner.edge);
    fate.is_some_and(|fate| !fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))))
}

/// Whether a seam ends in the middle of a straight edge, and what is sewn on stands up there, as a collar or a hood
/// does that begins beside the lap.
fn stands_up(one: &Corner, other: &Corner) -> bool {
    let goes_on = |corner: &Corner| (corner.angle - 180.0).abs() <= MOST_TURN;
    let is_square = |corner: &Corner| (corner.angle - 90.0).abs() <= UPRIGHT;
    goes_on(one) && is_square(other) || goes_on(other) && is_square(one)
}

/// Whether what both edges are sewn to has a corner there, as a gusset has: it is set into the one that they make.
fn goes_into_corner(size: &WorkedSize, one: &Corner, other: &Corner) -> bool {
    let Some(surface) = &size.sewn.surface else { return false };
    let beyond = |corner: &Corner| -> Vec<StretchId> {
        let sides = surface.faces_of(corner.part).flat_map(|face| surface.sides_of(face));
        let own = sides.filter(|&side| surface.side(side).edge == corner.edge && !surface.side(side).fold);
        let ends = own.filter_map(|side| {
            let at_start = corner.leaves != surface.side(side).mirrored;
            let mut stretches = surface.stretches_on(side);
            if at_start { stretches.next() } else { stretches.last() }
        });
        ends.filter_map(|stretch| Some(size.sewn.gluing.partner(stretch)?.stretch)).collect()
    };
    let others = beyond(other);
    beyond(one).into_iter().any(|stretch| {
        let mut corners = others.iter().filter_map(|&beside| {
            let follows = surface.next(stretch) == beside;
            let corner = if follows { beside } else { stretch };
            (follows || surface.next(beside) == stretch).then_some(corner)
        });
        corners.any(|corner| {
            let angle = angle(&size.drawn, &size.sewn, surface, corner);
            angle.is_some_and(|angle| (angle - 180.0).abs() > MOST_TURN)
        })
    })
}

/// Where two pieces come together.
pub(super) struct Meeting {
    /// "the side seam", "back_zip".
    pub(super) name: String,
    pub(super) span: Span,
    /// "sewn together here".
    pub(super) words: &'static str,
    /// "the seam", "the zip".
    pub(super) to: &'static str,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    // Where the cloth is twisted the wrong ends meet.
    if sewing.surface.as_ref().is_some_and(|surface| !surface.twists.is_empty()) {
        return;
    }
    let mut ways: Vec<Option<bool>> = vec![None; sewing.parts.len()];
    // A facing and a lining are copies of what they lie on, or the same piece in another layer, and turn with it: that is
    // told once.
    let mut told: Vec<(EdgeId, EdgeId, f64, [LayerId; 2])> = Vec::new();
    for (seam, sewn) in each(garment, sewing) {
        let (Some(first), Some(second)) = (sewn.first.plies.first(), sewn.second.plies.first()) else {
            continue;
        };
        for (one, other) in &sewn.ends {
            let mut corner =
                |end: &SeamEnd, ply: &SewnPly| corner_at(garment, sized, sewing, end, ply, &mut ways);
            let (Some(one), Some(other)) = (corner(one, first), corner(other, second)) else { continue };
            let is_one_edge = edge_of(sized, sewing, &one) == edge_of(sized, sewing, &other);
            if is_one_edge && sewing.left_of(one.part) != sewing.left_of(other.part) {
                continue; // the same edge in two layers, face to face: neither goes on in the other
            }
            if faces(garment, sized, sewing, &one, &other) || faces(garment, sized, sewing, &other, &one) {
                continue; // a strip is turned to the inside of the edge that it was taken along
            }
            // Both edges go straight on: the seam ends at a slit, and neither goes on in the other.
            if [&one, &other].into_iter().all(|corner| (corner.angle - 180.0).abs() <= MOST_TURN) {
                continue;
            }
            if let Some(is_hem) = run_on(garment, sewing, &one, &other, is_one_edge) {
                let turn = one.angle + other.angle - 180.0;
                // A fly's facing that is grown on steps out there as well. More than all the way round lies over itself: the
                // steps of a vent, each sewn to its side of the lining.
                let is_slit = turn >= SLIT
                    && (is_finished(sewing, &one) || [&one, &other].iter().all(|one| one.is_open()))
                    || turn >= LAPPED;
                let is_set_in = || !is_hem && goes_into_corner(size, &one, &other);
                if turn.abs() > MOST_TURN && !is_slit && !stands_up(&one, &other) && !is_set_in() {
                    let edges = [&one, &other].map(|corner| edge_of(sized, sewing, corner));
                    let [roots, other_roots] =
                        edges.map(|edge| edge.map_or_else(Vec::new, |edge| roots(garment, edge)));
                    let is_copy = |edge: Option<EdgeId>, roots: &[EdgeId]| roots != edge.as_slice();
                    let are_copies = is_copy(edges[0], &roots) && is_copy(edges[1], &other_roots);
                    let layers = [&one, &other].map(|corner| sewing.part(corner.part).part.layer);
                    let is_told = told.iter().any(|&(first, second, by, of)| {
                        // What is drawn like a block is drawn in the same lines.
                        let drawn_as = |roots: &[EdgeId], known: EdgeId| {
                            let span = |edge: EdgeId| garment.edge(edge).span;
                            roots.iter().any(|&root| root == known || span(root) == span(known))
                        };
                        let is = |one, other| drawn_as(&roots, one) && drawn_as(&other_roots, other);
                        (by - turn.abs()).abs() < SAME_TURN
                            && (is(first, second) || is(second, first))
                            && (are_copies || !of.iter().any(|layer| layers.contains(layer)))
                    });
                    if is_told {
                        continue;
                    }
                    if let ([root], [other_root]) = (roots.as_slice(), other_roots.as_slice()) {
                        told.push((*root, *other_root, turn.abs(), layers));
                    }
                    let at = Meeting {
                        name: seam.words(),
                        span: ply_span(seam, false, 0),
                        words: "sewn together here",
                        to: "the seam",
                    };
                    findings.extend(finding(garment, sized, sewing, &at, [&one, &other], turn, is_hem));
                }
            }
        }
    }
}

/// Whether a corner is that of a strip, sewn to the edge that it was taken along.
fn faces(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, strip: &Corner, other: &Corner) -> bool {
    let piece = |corner: &Corner| sewing.part(corner.part).part.piece;
    let Outline::Strip { of, along, .. } = &garment.piece(piece(strip)).drawing.outline else { return false };
    let sewn = drawn(sized, sewing, other.part).and_then(|drawn| drawn.edge_at(other.sewn));
    garment.paper(of.paper).piece == piece(other)
        && sewn.is_some_and(|sewn| along.iter().any(|&edge| garment.is_run_of(sewn.edge, edge)))
}

/// The edges that an edge is a copy of in the end: itself if it is none; of a strip's inside edge those that it
/// runs along.
fn roots(garment: &Garment, edge: EdgeId) -> Vec<EdgeId> {
    let outline = &garment.piece(garment.edge(edge).piece).drawing.outline;
    let along = match outline {
        Outline::Strip { along, inner, .. } if garment.is_run_of(edge, *inner) => along.clone(),
        _ => vec![edge],
    };
    let root = |edge: EdgeId| std::iter::successors(Some(edge), |&at| garment.edge(at).copied_from).last();
    along.into_iter().filter_map(root).collect()
}

fn drawn<'a>(sized: &'a SizedGarment, sewing: &Sewing, part: PartId) -> Option<&'a DrawnPiece> {
    let paper = sewing.part(part).part.paper;
    sized.paper(paper)
}

pub(super) fn edge_of(sized: &SizedGarment, sewing: &Sewing, corner: &Corner) -> Option<EdgeId> {
    drawn(sized, sewing, corner.part)?.edge_at(corner.edge).map(|edge| edge.edge)
}

/// The corner of a seam's end: the edge of the ply there, and the edge beyond it.
fn corner_at(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    end: &SeamEnd,
    ply: &SewnPly,
    ways: &mut [Option<bool>],
) -> Option<Corner> {
    let drawn = drawn(sized, sewing, end.part)?;
    let own = [ply.runs.first(), ply.runs.last()].into_iter().flatten().find_map(|run| {
        let at_start = drawn.edge_at(run.edge)?.corner == end.corner;
        let at_end = drawn.edge_at(drawn.after(run.edge))?.corner == end.corner;
        (run.part == end.part && (at_start || at_end)).then_some((run.edge, at_start))
    });
    let (edge, at_start) = own?;
    corner_of(garment, sized, sewing, end.part, edge, at_start, ways)
}

/// The corner at the start or the end of an edge, as it is drawn.
pub(super) fn corner_of(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    part: PartId,
    edge: DrawnEdgeId,
    at_start: bool,
    ways: &mut [Option<bool>],
) -> Option<Corner> {
    let drawn = drawn(sized, sewing, part)?;
    let (before, after) = match at_start {
        true => (drawn.before(edge), edge),
        false => (edge, drawn.after(edge)),
    };
    let is_anticlockwise = *ways
        .get_mut(part.index())?
        .get_or_insert_with(|| is_anticlockwise(drawn.edges.iter().map(|edge| &edge.path)));
    let (arriving, leaving) =
        (drawn.edge_at(before)?.path.tangent_at_end()?, drawn.edge_at(after)?.path.tangent_at_start()?);
    let turn = libm::atan2(arriving.cross(leaving), arriving.dot(leaving)).to_degrees();
    let angle = 180.0 - if is_anticlockwise { turn } else { -turn };
    let beyond = if at_start { before } else { after };
    // A slit opens there, and leads where the maker says; what is sewn along it ends as it does.
    let is_slit = |edge| drawn.edge_at(edge).is_some_and(|own| garment.edge(own.edge).side_of.is_some());
    if is_slit(beyond) || is_slit(edge) {
        return None;
    }
    angle.is_finite().then_some(Corner { edge: beyond, sewn: edge, leaves: !at_start, part, angle })
}

/// Whether the two edges beyond are one run: on the same side of one seam or closure, or hems both.
/// For a hem it is `Some(true)`.
pub(super) fn run_on(
    garment: &Garment,
    sewing: &Sewing,
    one: &Corner,
    other: &Corner,
    is_one_edge: bool,
) -> Option<bool> {
    let takers = |corner: &Corner| sewing.part(corner.part).fate(corner.edge).map(|fate| &fate.takers);
    let (corners, (one, other)) = ([one, other], (takers(one)?, takers(other)?));
    // Of two plies that lie on one another, as a pocket's bag under what it is turned behind, neither goes
    // on in the other.
    let in_one_ply = |seam: SeamId, second: bool| {
        // They stand in the order of the garment's.
        let first = sewing.seams.partition_point(|sewn| sewn.seam < seam);
        let layers = sewing.seams.iter().skip(first).take_while(|sewn| sewn.seam == seam);
        let mut plies = layers.flat_map(|sewn| &if second { &sewn.second } else { &sewn.first }.plies);
        let has = |ply: &SewnPly, corner: &Corner| {
            let part = sewing.left_of(corner.part);
            ply.runs.iter().any(|run| run.edge == corner.edge && sewing.left_of(run.part) == part)
        };
        plies.any(|ply| corners.iter().all(|corner| has(ply, corner)))
    };
    // Left sewn to right, the two lie on one another there; neither goes on in the other.
    let is_to_itself = |seam: SeamId| {
        let seam = garment.seam(seam);
        let names = |chains: &[Chain]| -> Vec<(Option<LayerId>, EdgeId)> {
            chains.iter().flat_map(|chain| &chain.edges).map(|sewn| (sewn.layer, sewn.edge)).collect()
        };
        let second = names(&seam.second);
        names(&seam.first).iter().any(|edge| second.contains(edge))
    };
    for one in one {
        for other in other {
            match (one.what, other.what) {
                (TakenBy::Seam(a, side), TakenBy::Seam(b, other_side))
                    if a == b
                        && side == other_side
                        && !(is_one_edge && is_to_itself(a))
                        && in_one_ply(a, side) =>
                {
                    return Some(false);
                }
                (TakenBy::Finish(a), TakenBy::Finish(b)) => {
                    let hemmed = |id: FinishId| {
                        matches!(garment.finish(id).kind, FinishKind::Hem(_) | FinishKind::Casing(..))
                    };
                    if hemmed(a) == hemmed(b) {
                        return Some(hemmed(a));
                    }
                }
                _ => {}
            }
        }
    }
    None
}

pub(super) fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    at: &Meeting,
    corners: [&Corner; 2],
    turn: f64,
    is_hem: bool,
) -> Option<Finding> {
    let mut edges = Vec::new();
    for corner in corners {
        let drawn = drawn(sized, sewing, corner.part)?;
        edges.push((garment.edge(drawn.edge_at(corner.edge)?.edge), words::piece(garment, drawn.piece)));
    }
    let [(one, one_piece), (other, other_piece)] = edges.as_slice() else { return None };
    let edge = match one.name == other.name {
        true => format!("the {}", one.name),
        false => format!("the edge from {} to {}", one.name, other.name),
    };
    let pieces = match one_piece == other_piece {
        true => format!("both ends of {one_piece}"),
        false => format!("{one_piece} and {other_piece}"),
    };
    let degrees = |angle: f64| format!("{}°", angle.round());
    let kind = if is_hem { &catalogue::HEM_KINK } else { &catalogue::SEAM_KINK };
    // More cloth than a straight line has stands back in a dip, less stands out in a point.
    let way = if turn > 0.0 { "a dip" } else { "a point" };
    let title = Title::new(format!("{edge} turns by {} at {}", degrees(turn.abs()), at.name))
        .in_sizes()
        .then(format!(", where {pieces} meet in {way}"));
    let (size, to) = (in_size(garment, sized), at.to);
    let mut warning =
        Diagnostic::new(kind, one.span, title).label(format!("{} to {to}{size}", degrees(corners[0].angle)));
    if other.span != one.span {
        warning = warning.also(other.span, format!("{} to {to}{size}", degrees(corners[1].angle)));
    }
    let mut ways: Vec<String> = corners
        .into_iter()
        .filter(|corner| (corner.angle - 90.0).abs() > MOST_TURN / 2.0)
        .filter(|corner| {
            // Where one is copied from the other, both are drawn there.
            let from = edge_of(sized, sewing, corner).and_then(|edge| garment.edge(edge).copied_from);
            from.is_none_or(|from| corners.iter().all(|other| edge_of(sized, sewing, other) != Some(from)))
        })
        .filter_map(|corner| {
            way_out(garment, drawn(sized, sewing, corner.part)?, corner, one.span == other.span)
        })
        .collect();
    once_each(&mut ways);
    let warning = warning
        .also(at.span, at.words)
        .help(format!("let both meet {to} square, so that the angles add up to 180°: {}", ways.join("; ")));
    Some(
        Finding::new(sized.size, turn.abs(), warning)
            .about(format!("{} {}", at.name, other.name))
            .figure("turns by", degrees(turn.abs())),
    )
}

/// How an edge is drawn so that it meets the seam square. What is not drawn as a curve, or is taken from
/// another piece, cannot be told so in a word.
///
/// Of a seam that is drawn straight, and meets the edge far from square, its own curve was forgotten: a crotch's.
fn way_out(garment: &Garment, drawn: &DrawnPiece, corner: &Corner, to_itself: bool) -> Option<String> {
    // A run is drawn as the edge that it is taken out of.
    let named = |at: DrawnEdgeId| Some(garment.whole_edge(drawn.edge_at(at)?.edge));
    let (edge, sewn) = (named(corner.edge)?, named(corner.sewn)?);
    let piece = garment.piece(drawn.piece);
    let walk_of = |edge: EdgeId| match &piece.drawing.outline {
        Outline::Walk { edges, .. } => edges.iter().find(|walk| walk.edge == edge),
        _ => None,
    };
    let walk = walk_of(edge);
    let is_straight = walk_of(sewn).is_some_and(|walk| matches!(walk.path, EdgePath::Straight));
    let is_forgotten = to_itself && is_straight && (corner.angle - 90.0).abs() > FAR_FROM_SQUARE;
    // Curves are drawn before edges are divided.
    let undivided = piece.drawing.divides.iter().find(|one| one.into.0 == sewn || one.into.1 == sewn);
    let sewn = undivided.map_or(sewn, |one| one.edge);
    let (name, to) = (&garment.edge(edge).name, &garment.edge(sewn).name);
    if is_forgotten {
        let end = if corner.leaves { "arriving" } else { "leaving" };
        return Some(format!("in {} {to} … curve {end} square to {name}", piece.name));
    }
    // A curve without a direction at its other end takes up another there too.
    let (curve, is_open) = match walk.map(|walk| &walk.path) {
        Some(EdgePath::Straight) => ("curve ", true),
        Some(EdgePath::Curve { leaving, arriving, .. }) => {
            ("", if corner.leaves { arriving.is_none() } else { leaving.is_none() })
        }
        _ => {
            let drawn_as =
                garment.edge(edge).copied_from.map_or(drawn.piece, |from| garment.edge(from).piece);
            return Some(format!(
                "draw the {name} of {} square to {to} there",
                words::piece(garment, drawn_as)
            ));
        }
    };
    let keeps =
        square_beyond(garment, drawn, corner).filter(|_| is_open).map(|beyond| &garment.edge(beyond).name);
    let ends = match (corner.leaves, keeps) {
        (true, Some(beyond)) => format!("leaving square to {to} arriving square to {beyond}"),
        (false, Some(beyond)) => format!("leaving square to {beyond} arriving square to {to}"),
        (true, None) => format!("leaving square to {to}"),
        (false, None) => format!("arriving square to {to}"),
    };
    // What it says of the edge already no longer holds once an alteration has moved what lies beside it.
    let says_square = |direction: &Option<Direction>| matches!(direction, Some(Direction::SquareTo(own, _)) if garment.is_run_of(sewn, *own) || garment.is_run_of(*own, sewn));
    let is_said = match walk.map(|walk| &walk.path) {
        Some(EdgePath::Curve { leaving, arriving, .. }) => {
            says_square(if corner.leaves { leaving } else { arriving })
        }
        _ => false,
    };
    if is_said {
        return Some(format!("after the alterations, redraw {}.{name} curve … {ends}", piece.name));
    }
    Some(format!("in {} {name} … {curve}{ends}", piece.name))
}

/// What meets the other end of the edge beyond a corner, where it does so squarely.
fn square_beyond(garment: &Garment, drawn: &DrawnPiece, corner: &Corner) -> Option<EdgeId> {
    let own = &drawn.edge_at(corner.edge)?.path;
    let (way, other) = match corner.leaves {
        true => (own.tangent_at_end()?, drawn.edge_at(drawn.after(corner.edge))?),
        false => (own.tangent_at_start()?, drawn.edge_at(drawn.before(corner.edge))?),
    };
    // The slit that breaks the edge is no end of what is drawn.
    if garment.edge(other.edge).side_of.is_some() {
        return None;
    }
    let along = if corner.leaves { other.path.tangent_at_start()? } else { other.path.tangent_at_end()? };
    let angle = libm::atan2(way.cross(along).abs(), way.dot(along).abs()).to_degrees();
    (90.0 - angle <= MOST_TURN / 2.0).then(|| garment.whole_edge(other.edge))
}
