//! An outline that is drawn with its allowances on.

use super::walk;
use crate::garment::{DrawnWidth, PieceId, WalkEdge};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnCut, DrawnPiece};
use crate::resolve::sketch::{Sketch, ring};
use crate::resolve::work::Work;
use crate::shape::inward::{InwardError, inward};
use crate::shape::path::Path;
use crate::source::Span;

/// Allowances that differ by no more than this, in millimetres, are one.
const SAME: f64 = 0.01;

/// How it is given.
pub(super) struct Given<'g> {
    pub(super) edges: &'g [WalkEdge],
    pub(super) widths: &'g [DrawnWidth],
    pub(super) span: Span,
}

/// The stitching line inside the walk.
pub(super) fn inside(work: &Work, piece: PieceId, sketch: &mut Sketch, given: &Given) -> Option<DrawnPiece> {
    let mut drawn = walk::close(piece, given.edges, sketch)?;
    let widths: Vec<Option<f64>> =
        given.edges.iter().zip(given.widths).map(|(edge, said)| width(work, piece, edge, said)).collect();
    let widths = widths.into_iter().collect::<Option<Vec<f64>>>()?;
    let cut = ring(&drawn);
    let stitching = match inward(&cut, &widths) {
        Ok(stitching) => stitching,
        Err(error) => {
            report(work, piece, given, &widths, error);
            return None;
        }
    };
    drawn.cutting = cut
        .into_iter()
        .zip(&stitching)
        .zip(&widths)
        .map(|((cut, stitching), &width)| DrawnCut { stitching: stitching.clone(), cut, width })
        .collect();
    for (edge, path) in drawn.edges.iter_mut().zip(stitching) {
        edge.path = path;
    }
    Some(drawn)
}

/// The corners of a piece are those of its stitching line.
pub(super) fn corners_inside(drawn: &mut DrawnPiece) {
    for edge in &drawn.edges {
        let CornerName::Named(corner) = edge.corner else { continue };
        for spot in drawn.spots.iter_mut().filter(|spot| spot.point == corner) {
            spot.at = edge.path.start();
        }
    }
}

/// What was drawn of an edge that becomes `first` and `second`.
pub(in crate::resolve) fn divide(drawn: &mut DrawnPiece, at: usize, first: &Path, second: &Path) {
    if drawn.drawn_cut().is_none() {
        return;
    }
    let Some(whole) = drawn.cutting.get(at).cloned() else { return };
    let (before, after) = whole.cut.split_at(whole.cut.nearest(first.end()).position);
    drawn.cutting[at] = DrawnCut { stitching: first.clone(), cut: before, ..whole };
    drawn.cutting.insert(at + 1, DrawnCut { stitching: second.clone(), cut: after, ..whole });
}

/// The allowance that an edge was drawn with, in millimetres; none where it is not known, or where several are said.
fn width(work: &Work, piece: PieceId, edge: &WalkEdge, said: &DrawnWidth) -> Option<f64> {
    let each: Vec<Option<f64>> = said.said.iter().map(|one| work.scalar(one, None)).collect();
    let each = each.into_iter().collect::<Option<Vec<f64>>>()?;
    let (first, least) = each.iter().copied().enumerate().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let (last, most) = each.iter().copied().enumerate().max_by(|a, b| a.1.total_cmp(&b.1))?;
    if most - least <= SAME {
        // Less than nothing is told by itself.
        return Some(least.max(0.0));
    }
    let (Some(one), Some(other)) = (said.said.get(first), said.said.get(last)) else { return None };
    work.report(|size| {
        let (narrow, wide) = (work.amount(least), work.amount(most));
        let (name, title) = (&work.garment.edge(edge.edge).name, work.title(piece));
        let title = Title::new(format!("{name} of {title} is drawn with its allowance on, and two are said"))
            .in_sizes()
            .then(format!(": {narrow} and {wide}"));
        let message = Diagnostic::new(&catalogue::CUTTING_ALLOWANCE, edge.span, title)
            .label("drawn as it is cut")
            .also(one.span, narrow.as_str())
            .also(other.span, wide.as_str())
            .help(format!(
                "give {name} one allowance, or draw an edge for each; a lining of its own is drawn as its own piece"
            ));
        Finding::new(size, most - least, message).figure("the least", narrow).figure("the most", wide)
    });
    None
}

fn report(work: &Work, piece: PieceId, given: &Given, widths: &[f64], error: InwardError) {
    let title = work.title(piece);
    let name = |at: usize| {
        given.edges.get(at).map_or_else(String::new, |edge| work.garment.edge(edge.edge).name.to_string())
    };
    let span = |at: usize| given.edges.get(at).map_or(given.span, |edge| edge.span);
    let wide = |at: usize| work.amount(widths.get(at).copied().unwrap_or_default());
    work.mistake(1.0, title, || match error {
        InwardError::Corner { before } => {
            let after = (before + 1) % given.edges.len().max(1);
            let what = format!("the corner of {} and {} of {title} cannot be undone", name(before), name(after));
            let label = format!("{} inside this the stitching line", wide(before));
            Diagnostic::new(&catalogue::CUTTING_CORNER, span(before), Title::new(what).in_sizes())
                .label(label)
                .also(span(after), format!("does not meet that {} inside this", wide(after)))
                .help(
                    "give the two edges one allowance; or draw the outline as it is sewn, without its allowances",
                )
        }
        InwardError::TooTight { edge, radius, .. } => {
            let what = format!("there is no stitching line {} inside {} of {title}", wide(edge), name(edge));
            Diagnostic::new(&catalogue::CUTTING_NARROW, span(edge), Title::new(what).in_sizes())
                .label(format!("it bends with a radius of {}", work.amount(radius)))
                .help("make the allowance narrower than that radius, or the curve gentler")
        }
        InwardError::NothingLeft { edge } => {
            let what = format!("there is no stitching line {} inside {} of {title}", wide(edge), name(edge));
            Diagnostic::new(&catalogue::CUTTING_NARROW, span(edge), Title::new(what).in_sizes())
                .label("nothing is left of it between its neighbours")
                .help("the piece is narrower there than its allowances: make them narrower, or draw it wider")
        }
        InwardError::NotFinite => Diagnostic::new(
            &catalogue::VALUE_NOT_FINITE,
            given.span,
            Title::new("this outline cannot be drawn").in_sizes(),
        )
        .help("a number in it is too large"),
        InwardError::Ring(_) => Diagnostic::new(
            &catalogue::CUTTING_NARROW,
            given.span,
            Title::new(format!("{title} has no stitching line inside its outline")).in_sizes(),
        )
        .help("look at its corners: the outline must be closed, and an edge needs a length"),
    });
}
