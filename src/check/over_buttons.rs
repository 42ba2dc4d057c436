//! `place/over-buttons`: a pocket over the buttons or buttonholes of what it is placed on, or over what is set there.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, ClosureKind, EdgeId, Garment, PieceId, SetNotion, Tack, TackEnd, TackSpot};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::patches::Patch;
use crate::sewing::{lay_fasteners, strap_place};
use crate::shape::Point;
use crate::shape::outline::Region;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_OVER_BUTTONS], run: Run::PerSize(run) };

/// What is set so near to a pocket's edge, in millimetres, holds it there: a rivet at its corner.
const AT_EDGE: f64 = 15.0;
/// What is set so near to its mouth, in millimetres, may shut it: the one half of a snap.
const AT_MOUTH: f64 = 50.0;
/// What is set in cloth for something to come through, by a word of its name: it may lead into a pocket.
const HOLES: [&str; 4] = ["eyelet", "eyelets", "grommet", "grommets"];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    over_sets(garment, size, findings);
    let (sized, finder) = (&size.drawn, size.finder(garment));
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let (one, many) = (said.kind.one(), said.kind.many());
        let Ok(row) = lay_fasteners(garment, sized, &finder, id) else { continue };
        let carries = |piece: PieceId| {
            closure.first.edges.iter().chain(&closure.second.edges).any(|sewn| sewn.piece == piece)
        };
        for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
            // A band or a flap with buttons or buttonholes of its own is meant to lie there.
            let Some(placed) = placed.as_ref().filter(|_| !placement.poisoned && !carries(placement.piece))
            else {
                continue;
            };
            let ring: Vec<Path> = placed.edges.iter().map(|(_, path)| path.clone()).collect();
            let region = Region::of(&ring);
            let covered = row
                .places
                .iter()
                .filter(|(part, at)| size.sewn.part(*part).part.paper == placed.on && region.contains(*at));
            let covered = covered.count();
            if covered == 0 {
                continue;
            }
            let name = words::piece(garment, placement.piece);
            let what = if covered == 1 { format!("a {one}") } else { format!("{covered} of the {many}") };
            let title = Title::new(format!("{name} lies over {what} of {}", closure.name)).in_sizes();
            let corner = placement.corners.first().map_or(placement.span, |corner| corner.span);
            let advice = Diagnostic::new(&catalogue::PLACE_OVER_BUTTONS, corner, title)
                .label("placed here")
                .also(closure.first.span, format!("the line of the {many}"))
                .help(format!("move it clear of the line; or, if {name} itself is buttoned, name its own line in the closure"));
            findings.push(
                Finding::new(sized.size, covered as f64, advice).about(format!("{name} {}", closure.name)),
            );
        }
    }
}

/// What is set under a pocket, and not at its edge or its mouth: nobody gets at it.
fn over_sets(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sets: Vec<&Tack> =
        garment.tacks.iter().filter(|tack| tack.sets.as_ref().is_some_and(is_no_hole(garment))).collect();
    if sets.is_empty() {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    let pockets = patches.iter().filter(|patch| patch.rows.len() > 1 && !patch.open.is_empty());
    for patch in pockets {
        let region = Region::of(&patch.outline);
        let is_under = |at: Point| {
            let clear = |of: &[(EdgeId, Path)], least: f64| {
                of.iter().all(|(_, path)| path.nearest(at).distance > least)
            };
            region.contains(at) && clear(&patch.rows, AT_EDGE) && clear(&patch.open, AT_MOUTH)
        };
        let is_under_end = |end: &TackEnd| {
            let TackSpot::Point(point) = end.spot else { return false };
            let hands = end.hand.zip(patch.placement.hand);
            let is_there = strap_place(garment, &size.drawn, point)
                .is_some_and(|(drawn, at)| std::ptr::eq(drawn, patch.host) && is_under(at));
            is_there && hands.is_none_or(|(one, other)| one == other)
        };
        let mut ends = sets.iter().flat_map(|tack| tack.ends.iter().map(move |end| (tack, end)));
        let Some((tack, end)) = ends.find(|(_, end)| is_under_end(end)) else { continue };
        let name = words::piece(garment, patch.placement.piece);
        let title = Title::new(format!("{name} lies over {}, and nobody gets at it", tack.name)).in_sizes();
        let corner = patch.placement.corners.first().map_or(patch.placement.span, |corner| corner.span);
        let advice = Diagnostic::new(&catalogue::PLACE_OVER_BUTTONS, end.span, title)
            .label("set under it")
            .also(corner, format!("{name} lies here"))
            .help(format!("set it on {name} itself, or at its edge or mouth; or move one of the two"));
        findings.push(Finding::new(size.id(), 0.0, advice).about(format!("{name} {}", tack.name)));
    }
}

fn is_no_hole(garment: &Garment) -> impl Fn(&SetNotion) -> bool {
    |set| {
        let notion = set.notion.and_then(|id| garment.notions.get(id.index()));
        let title = notion.map(|notion| notion.title.to_lowercase()).unwrap_or_default();
        !title.split(|letter: char| !letter.is_alphabetic()).any(|word| HOLES.contains(&word))
    }
}
