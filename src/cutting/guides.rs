//! What is marked on a piece so that it is folded and laid where it belongs: fold lines of what is folded in wear and of
//! turn-ups, and the outlines of pieces that are placed on it.

use super::allowed::Allowed;
use super::model::{CutPart, Guide, GuideKind};
use crate::garment::{EdgeId, FoldOver, Garment};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::sewing::{SewnPart, as_it_lies, is_placed_on};
use crate::shape::crossing::meetings;
use crate::shape::offset::parallel;
use crate::shape::outline::{contains, is_anticlockwise};
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;

/// The fold lines of a piece with that stitching line, in the cutting line `ring`.
pub(super) fn folds(
    garment: &Garment,
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    stitching: &[Path],
    ring: &[Path],
) -> Vec<Guide> {
    let fold = |path: Path| Guide { name: FOLD.to_owned(), kind: GuideKind::Fold, path, hand: None };
    let over = garment.piece(drawn.piece).folds.iter().flat_map(|over| folded(garment, drawn, over));
    let hems = stitching.iter().zip(allowed).filter(|(_, allowed)| allowed.turn_up.is_some());
    let outward = if is_anticlockwise(stitching) { -1.0 } else { 1.0 };
    let hems = hems.flat_map(|(edge, allowed)| {
        allowed
            .turned_again()
            .filter_map(move |beyond| within(&parallel(edge, outward * beyond).ok()?, allowed, ring))
    });
    over.chain(hems).map(fold).collect()
}

/// Where a piece is folded whose one edge is brought onto the other: half way between them, and in four also half way
/// from there to each. None between edges that are not straight: cloth folds along a straight line only.
fn folded(garment: &Garment, drawn: &DrawnPiece, over: &FoldOver) -> Vec<Path> {
    let (Some(one), Some(other)) =
        (straight_run(garment, drawn, over.edge), straight_run(garment, drawn, over.onto))
    else {
        return Vec::new();
    };
    // Round the piece they run against each other.
    let shares: &[f64] = if over.in_four { &[0.25, 0.5, 0.75] } else { &[0.5] };
    let line = |&share: &f64| {
        Path::straight(one.start().lerp(other.end(), share), one.end().lerp(other.start(), share))
    };
    shares.iter().map(line).filter(|path| path.length() > SAME_POINT).collect()
}

/// An edge from end to end, also where it is parted into runs that follow one another; none where it is not one straight
/// line.
fn straight_run(garment: &Garment, drawn: &DrawnPiece, wanted: EdgeId) -> Option<Path> {
    let outline = drawn.outline();
    let is_run =
        |at: usize| outline.get(at % outline.len().max(1)).filter(|own| garment.is_run_of(own.edge, wanted));
    let begins = |at: &usize| is_run(*at).is_some() && is_run(at + outline.len() - 1).is_none();
    let first = (0..outline.len()).find(begins)?;
    let runs = (first..first + outline.len()).map_while(is_run);
    let whole = runs.map(|own| own.path.clone()).reduce(|so_far, next| so_far.then(&next))?;
    let is_alone = (0..outline.len()).filter(begins).nth(1).is_none();
    (is_alone && whole.is_straight()).then_some(whole)
}

/// The longest part of a line beside a hem, drawn on straight at both ends, that lies within the cutting line.
fn within(line: &Path, allowed: &Allowed, ring: &[Path]) -> Option<Path> {
    let far = FAR * allowed.width;
    let (leaves, arrives) = (line.tangent_at_start()?, line.tangent_at_end()?);
    let line = Path::straight(line.start() - leaves * far, line.start())
        .then(line)
        .then(&Path::straight(line.end(), line.end() + arrives * far));
    let mut stops: Vec<f64> = ring.iter().flat_map(|edge| meetings(&line, edge)).collect();
    stops.sort_by(f64::total_cmp);
    let parts = stops.windows(2).filter_map(|pair| match pair {
        &[from, to] if to - from > SAME_POINT => {
            contains(ring, line.point_at_length(f64::midpoint(from, to))).then_some((from, to))
        }
        _ => None,
    });
    let (from, to) = parts.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
    Some(line.part(from, to))
}

/// A part with the outlines of what is placed on it.
pub(super) fn with_placed(
    mut part: CutPart,
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnPart,
) -> CutPart {
    for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
        let Some(placed) = placed.as_ref().filter(|placed| placed.on == sewn.part.paper) else { continue };
        if placement.hand.is_some_and(|hand| sewn.hand.is_some_and(|own| own != hand))
            || !is_placed_on(garment, placement, sewn.part.layer)
        {
            continue;
        }
        let mut outline: Option<Path> = None;
        for lies in as_it_lies(garment, sized, placement, placed) {
            outline = Some(outline.map_or_else(|| lies.path.clone(), |before| before.then(&lies.path)));
        }
        let name = garment.piece(placement.piece).title.to_string();
        let guide = |path| Guide { name, kind: GuideKind::Placed, path, hand: placement.hand };
        part.guides.extend(outline.map(guide));
    }
    part
}

/// What a fold line is called.
const FOLD: &str = "fold line";
/// So many widths of its allowance a line beside a hem is drawn on to meet the cutting line: a hem's ends lean out by less.
const FAR: f64 = 3.0;
