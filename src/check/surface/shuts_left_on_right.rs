//! `closure/left-to-right`: a closure that shuts the left one of a pair on the right one, though each goes
//! round by itself.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureId, EdgeId, Garment, LayerId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::RimsOfFaces;
use crate::sewing::surface::{ClosureLine, FaceId, StretchId, Surface, Union};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_LEFT_TO_RIGHT], run: Run::PerSize(run) };

/// An edge that closes on itself runs from left to right across an opening, and both sides of that
/// opening end on its one rim: from the hem up the one front, round the neck, and down the other. The
/// left and the right one of a cuff end on rims of their own, and are tied to one another by it.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut rims: Option<RimsOfFaces> = None;
    let mut hanging: Option<Union> = None;
    let mut known: IdSet<ClosureId> = IdSet::default();
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        if edges(&closure.first) != edges(&closure.second)
            || !is_of_two(line)
            || is_faced(garment, line.closure)
            || is_end_of_tube(surface, line)
            || known.contains(&line.closure)
        {
            continue;
        }
        let rims = rims.get_or_insert_with(|| RimsOfFaces::new(garment, &size.drawn, &size.sewn, surface));
        if rims.share(&line.faces[0], &line.faces[1]) != Some(false) {
            continue;
        }
        // What nothing else holds together, as two legs under one belt, may be held so.
        let hanging = hanging.get_or_insert_with(|| sewn_together(surface));
        let mut root = |faces: &[FaceId]| faces.first().map(|face| hanging.root(face.index()));
        if root(&line.faces[0]) == root(&line.faces[1]) {
            known.insert(line.closure);
            findings.push(reported(garment, size, closure));
        }
    }
}

fn edges(chain: &Chain) -> Vec<(Option<LayerId>, EdgeId)> {
    chain.edges.iter().map(|sewn| (sewn.layer, sewn.edge)).collect()
}

/// Whether a seam encloses it: what faces the edges of an opening hides the rim that would tell.
fn is_faced(garment: &Garment, closure: ClosureId) -> bool {
    garment.seams.iter().any(|seam| seam.enclosing.iter().any(|&(enclosed, _)| enclosed == closure))
}

fn is_of_two(line: &ClosureLine) -> bool {
    line.faces[0].iter().all(|face| !line.faces[1].contains(face))
}

/// Whether an edge that is closed goes round by itself: the end of a turned belt, of which the left one is buckled to the
/// right one.
fn is_end_of_tube(surface: &Surface, line: &ClosureLine) -> bool {
    line.sides.iter().all(|side| {
        let (Some(first), Some(last)) = (side.first(), side.last()) else { return false };
        let end = |&(at, against): &(StretchId, bool), at_end: bool| {
            let stretch = surface.stretch(at);
            if against == at_end { stretch.start } else { stretch.end }
        };
        end(first, false) == end(last, true)
    })
}

/// What seams and stitching hold together.
fn sewn_together(surface: &Surface) -> Union {
    let mut together = Union::new(surface.faces.len());
    for join in &surface.joins {
        let mut faces = join.plies.iter().map(|ply| surface.face_of(ply.stretch).index());
        if let Some(first) = faces.next() {
            faces.for_each(|other| {
                together.join(first, other);
            });
        }
    }
    for placing in &surface.placings {
        together.join(placing.placed.index(), placing.host.index());
    }
    together
}

fn reported(garment: &Garment, size: &WorkedSize, closure: &Closure) -> Finding {
    let sewn = closure.first.edges.first();
    let piece = sewn.map(|sewn| sewn.piece);
    let title_of = piece.map_or_else(String::new, |piece| words::piece(garment, piece));
    let title = format!(
        "{} shuts the left one of {title_of} on the right one, though each goes round by itself",
        closure.name
    );
    let mut mistake = Diagnostic::new(&catalogue::CLOSURE_LEFT_TO_RIGHT, closure.second.span, title)
        .label("named on both sides: that of the other copy");
    if let (Some(sewn), Some(piece)) = (sewn, piece) {
        let piece = garment.piece(piece);
        let name = |edge: EdgeId| format!("{}.{}", piece.name, garment.edge(edge).name);
        let is_line = garment.edge(sewn.edge).line;
        let others = piece.edges.iter().copied().filter(|&edge| edge != sewn.edge);
        let other = others.filter(|&edge| garment.edge(edge).line == is_line && is_line).map(name).next();
        mistake = mistake.also(piece.cut.span, "a left and a right one").help(match other {
            Some(other) => format!("name what it shuts on in the same copy: {} to {other}", name(sewn.edge)),
            None => format!(
                "name what it shuts on in the same copy, the edge or a line at the other end: {} to {}.…",
                name(sewn.edge),
                piece.name
            ),
        });
    }
    Finding::new(size.drawn.size, 0.0, mistake).about(closure.name.to_string())
}
