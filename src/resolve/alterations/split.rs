//! `split`: a piece cut in two along a line.

use super::beyond::{cut_line, goes_across};
use super::halves::{Naming, cut_in_two, side_of};
use crate::garment::{Alteration, AlterationId, CutHow, EdgeId, MadePiece, PieceId, PointId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::outline::sound;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::outline::Region;
use std::collections::HashMap;
use std::sync::Arc;

/// What is before the line, and what is beyond it.
pub(super) fn split(
    work: &Work,
    id: AlterationId,
    alteration: &Alteration,
    whole: &DrawnPiece,
) -> Option<[Arc<DrawnPiece>; 2]> {
    let ([target], [before, beyond]) = (alteration.targets.as_slice(), alteration.makes.as_slice()) else {
        return None;
    };
    let slash = cut_line(work, target, whole)?;
    goes_across(work, target, whole, &slash)?;
    let halves = cut_in_two(work, target, &slash, whole)?;
    let half = |made: &MadePiece, beyond: bool| {
        let drawn =
            named(work, alteration, made, |naming| side_of(whole, &halves, beyond, &slash, id, naming))?;
        half(work, alteration, whole, drawn).map(Arc::new)
    };
    let (before, beyond) = (half(before, false), half(beyond, true));
    Some([before?, beyond?])
}

/// One side of a split under the names of the piece that it is; reported if it would have an edge without one.
pub(super) fn named(
    work: &Work,
    alteration: &Alteration,
    made: &MadePiece,
    side: impl FnOnce(&Naming) -> Option<DrawnPiece>,
) -> Option<DrawnPiece> {
    let piece = made.piece;
    let runs = own_runs(work, piece);
    let edge = |edge: EdgeId| runs.get(&edge).copied();
    let point = |point: PointId| own_point(work, piece, point);
    let naming = Naming { piece, cut_edge: made.cut_edge?, edge: &edge, point: &point };
    let drawn = side(&naming);
    if drawn.is_none() {
        report_nameless(work, piece, alteration.span);
    }
    drawn
}

/// One side of a split, cut as its whole was: a side without the fold has its likeness on the other side of the body.
/// None where its outline cannot be cut, which is reported.
pub(super) fn half(
    work: &Work,
    alteration: &Alteration,
    whole: &DrawnPiece,
    mut drawn: DrawnPiece,
) -> Option<DrawnPiece> {
    if let CutHow::OnFold(fold) = whole.cut {
        match own_run(work, drawn.piece, fold).filter(|&fold| drawn.edge(fold).is_some()) {
            Some(fold) => drawn.cut = CutHow::OnFold(fold),
            None => (drawn.cut, drawn.count) = (CutHow::Mirrored, whole.count.saturating_mul(2)),
        }
    }
    let outline = ring(&drawn);
    let region = Region::of(&outline);
    sound::is_sound(work, &drawn, &region, alteration.span, Some((whole, alteration)), &|| false)
        .then_some(drawn)
}

/// The piece's own names, each by what it is a run of.
fn own_runs(work: &Work, piece: PieceId) -> HashMap<EdgeId, EdgeId> {
    let own = work.garment.piece(piece).edges.iter().rev();
    own.filter_map(|&own| Some((work.garment.edge(own).same_run_as?, own))).collect()
}

/// The piece's own name for what is a run of `edge`.
pub(super) fn own_run(work: &Work, piece: PieceId, edge: EdgeId) -> Option<EdgeId> {
    let mut own = work.garment.piece(piece).edges.iter().copied();
    own.find(|&own| work.garment.edge(own).same_run_as == Some(edge))
}

/// The piece's own name for what was `point`.
pub(super) fn own_point(work: &Work, piece: PieceId, point: PointId) -> Option<PointId> {
    let mut own = work.garment.piece(piece).points.iter().copied();
    own.find(|&own| work.garment.point(own).same_as == Some(point))
}

/// An edge came to be after the names were given out.
pub(super) fn report_nameless(work: &Work, piece: PieceId, span: crate::source::Span) {
    let title = work.title(piece);
    work.mistake(1.0, title, || {
        let message = Title::new(format!("{title} would get an edge that has no name")).in_sizes();
        Diagnostic::new(&catalogue::EDGE_GONE, span, message)
            .help("split or join it before that edge is made")
    });
}
