//! `strap/wide`: an end of a strap for which its piece has no room, in whatever direction it is sewn on.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, StrapEnd};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{SewnStrap, strap_place, straps};
use crate::shape::fold::opened_out;
use crate::shape::outline::{Region, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_WIDE], run: Run::PerSize(run) };

/// A strap may be sewn on in this many directions, evenly round the mark.
const DIRECTIONS: usize = 72;
/// Across a strap this many places are looked at, from its one edge to its other.
const ACROSS: usize = 9;
/// So much of a strap's edge may lie beyond the piece, in millimetres: a fold is no sharper.
const BEYOND: f64 = 1.0;
/// Where an end is stitched across, in shares of what is sewn on of it: from the mark inwards, where it may hang over
/// the tip of a pointed corner; or with the mark in the middle of it.
const ROWS: [&[f64]; 2] = [&[1.0], &[-0.5, 0.0, 0.5]];
/// A box is stitched all round, and all of it lies on the piece.
const BOXED: [&[f64]; 2] = [&[0.0, 0.5, 1.0], &[-0.5, 0.0, 0.5]];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    for sewn in straps(garment, &size.drawn) {
        findings.extend(of_strap(garment, size, &sewn));
    }
}

/// Whether that is told of a strap.
pub(super) fn is_too_wide(garment: &Garment, size: &WorkedSize, sewn: &SewnStrap) -> bool {
    of_strap(garment, size, sewn).is_some()
}

fn of_strap(garment: &Garment, size: &WorkedSize, sewn: &SewnStrap) -> Option<Finding> {
    let mut ends = garment.strap(sewn.strap).runs.iter().flat_map(|run| run.ends());
    // What a seam catches is as wide as the seam has room for it, wherever it lies.
    ends.find_map(|end| end.caught.is_none().then(|| too_wide(garment, size, sewn, end))?)
}

fn too_wide(garment: &Garment, size: &WorkedSize, sewn: &SewnStrap, end: &StrapEnd) -> Option<Finding> {
    let (drawn, at) = strap_place(garment, &size.drawn, end.point)?;
    let strap = garment.strap(sewn.strap);
    let rows = if strap.boxed { BOXED } else { ROWS };
    let outline = whole(drawn)?;
    // Less than nothing is reported as that, and so is a mark beside the piece.
    let is_beside = !Region::of(&outline).contains(at) && !is_on(&outline, at, BEYOND);
    if sewn.width <= 0.0 || sewn.sewn < 0.0 || is_beside || has_room(&outline, at, sewn, rows) {
        return None;
    }
    let (unit, piece) = (garment.unit, words::piece(garment, drawn.piece));
    let (wide, on) = (amount(sewn.width, unit), amount(sewn.sewn, unit));
    let point = garment.point(end.point);
    let title =
        Title::new(format!("{piece} has no room at {} for {}, which is {wide} wide", point.name, strap.name))
            .in_sizes();
    let mistake = Diagnostic::new(&catalogue::STRAP_WIDE, end.span, title)
        .label(format!("{on} of it are sewn on here"))
        .also(strap.width.span, wide.clone())
        .help("look at its width and its unit; make it narrower, or move its mark further in");
    Some(Finding::new(size.id(), sewn.width, mistake).about(&*strap.name).figure("wide", wide))
}

/// The outline, of a half on the fold that of the whole.
pub(super) fn whole(drawn: &DrawnPiece) -> Option<Vec<Path>> {
    let ring: Vec<Path> = drawn.edges.iter().map(|edge| edge.path.clone()).collect();
    let CutHow::OnFold(fold) = drawn.cut else { return Some(ring) };
    let at = drawn.edges.iter().position(|edge| edge.edge == fold)?;
    opened_out(&ring, at).ok()
}

/// Whether a strap can be sewn on there in any direction so that the rows across its end lie on the piece.
fn has_room(outline: &[Path], at: Point, sewn: &SewnStrap, rows: [&[f64]; 2]) -> bool {
    let region = Region::of(outline);
    let is_on_piece = |place: Point| region.contains(place) || is_on(outline, place, BEYOND);
    (0..DIRECTIONS).any(|nth| {
        let (sine, cosine) = libm::sincos(std::f64::consts::TAU * nth as f64 / DIRECTIONS as f64);
        let (along, across) = (Vec2::new(cosine, sine), Vec2::new(-sine, cosine));
        let is_row_on = |share: &f64| {
            let middle = at + along * (share * sewn.sewn);
            (0..ACROSS).all(|nth| {
                let aside = nth as f64 / (ACROSS - 1) as f64 - 0.5;
                is_on_piece(middle + across * (aside * sewn.width))
            })
        };
        rows.iter().any(|rows| rows.iter().all(is_row_on))
    })
}
