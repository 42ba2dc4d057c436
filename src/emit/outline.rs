//! Figures of a drawn piece that outputs show.

use super::documents::PointDocument;
use super::number::Figure;
use crate::garment::{CutHow, EdgeId, Garment, PieceId};
use crate::resolve::DrawnPiece;
use crate::shape::path::Path;
use crate::shape::{Point, Rect, fold, outline};
use kurbo::PathSeg;

/// SVG path data (SVG 2, 9.3) of paths end to end, y up.
pub(super) fn path_data<'a>(paths: impl IntoIterator<Item = &'a Path>, closed: bool) -> String {
    let mut data = String::new();
    for path in paths {
        if data.is_empty() {
            // As long as most edges come to.
            data.reserve(64);
            pairs(&mut data, 'M', [path.start()]);
        }
        for segment in path.segments() {
            match segment {
                PathSeg::Line(line) => pairs(&mut data, 'L', [line.p1]),
                PathSeg::Quad(quad) => pairs(&mut data, 'Q', [quad.p1, quad.p2]),
                PathSeg::Cubic(cubic) => pairs(&mut data, 'C', [cubic.p1, cubic.p2, cubic.p3]),
            }
        }
    }
    if closed && !data.is_empty() {
        data.push('Z');
    }
    data
}

fn pairs<const N: usize>(data: &mut String, command: char, points: [Point; N]) {
    let mut before = command;
    for number in points.into_iter().flat_map(|point| [point.x, point.y]) {
        data.push(before);
        Figure(number).push_to(data);
        before = ' ';
    }
}

/// The edge a piece is cut on the fold along.
pub(super) fn fold_of(drawn: &DrawnPiece) -> Option<EdgeId> {
    match drawn.cut {
        CutHow::OnFold(edge) => Some(edge),
        CutHow::Alike | CutHow::Mirrored => None,
    }
}

/// Whether that edge of the outline ends on the fold, so that on the garment it runs on to the
/// other half.
pub(super) fn crosses_fold(garment: &Garment, drawn: &DrawnPiece, index: usize) -> bool {
    let Some(fold) = fold_of(drawn) else { return false };
    let is_fold = |at: usize| drawn.edges.get(at).is_some_and(|edge| garment.is_run_of(edge.edge, fold));
    let count = drawn.outline().len();
    !is_fold(index) && count > index && (is_fold((index + 1) % count) || is_fold((index + count - 1) % count))
}

/// What is left of an edge's length when the piece is folded as it is worn: edges between the two
/// that are brought together count half.
pub(super) fn share_after_folds(garment: &Garment, piece: PieceId, edge: EdgeId) -> f64 {
    let folds = &garment.piece(piece).folds;
    let across = folds
        .iter()
        .filter(|fold| !garment.is_run_of(edge, fold.edge) && !garment.is_run_of(edge, fold.onto));
    across.map(|fold| fold.share_left()).product()
}

/// Width and height of the piece opened out and then folded as it is worn; none where its outline
/// cannot be measured.
pub(super) fn finished_extent(garment: &Garment, drawn: &DrawnPiece) -> Option<(f64, f64)> {
    let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
    let on_fold = fold_of(drawn)
        .and_then(|fold| drawn.edges.iter().position(|edge| garment.is_run_of(edge.edge, fold)));
    let extent: Rect = match on_fold {
        Some(fold) => fold::opened_extents(&ring, fold).ok()?,
        None => outline::extents(&ring)?,
    };
    let (mut width, mut height) = (extent.width(), extent.height());
    for folded in &garment.piece(drawn.piece).folds {
        let middle = |id: EdgeId| {
            let path = &drawn.edges.iter().find(|edge| garment.is_run_of(edge.edge, id))?.path;
            Some(path.start().midpoint(path.end()))
        };
        let (Some(from), Some(onto)) = (middle(folded.edge), middle(folded.onto)) else { continue };
        let way = onto - from;
        match way.y.abs() >= way.x.abs() {
            true => height *= folded.share_left(),
            false => width *= folded.share_left(),
        }
    }
    Some((width, height))
}

/// A place on a piece.
pub(super) fn point(at: Point) -> PointDocument {
    PointDocument { x: Figure(at.x), y: Figure(at.y) }
}
