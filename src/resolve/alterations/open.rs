//! `open` and `close`: a fold becomes one edge on a mirrored pair, and the other way; `unfold`: a half is cut as
//! its whole.

use super::Step;
use super::beyond::report_no_line;
use crate::garment::{CutHow, Target};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{DrawnEdge, DrawnPiece};
use crate::resolve::work::Work;
use crate::shape::path::Path;

/// A half on the fold becomes a pair.
pub(super) fn open(work: &Work, _: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    match drawn.cut {
        CutHow::OnFold(fold) if work.garment.is_run_of(fold, target.edge) => Some(DrawnPiece {
            cut: CutHow::Mirrored,
            unfolded: false,
            count: drawn.count.saturating_mul(2),
            ..drawn.clone()
        }),
        cut => {
            let title = work.title(drawn.piece);
            work.mistake(1.0, title, || {
                let name = &work.garment.edge(target.edge).name;
                let message =
                    format!("{title} does not lie on the fold at {name}, so there is nothing to open");
                let message = Diagnostic::new(&catalogue::ALTER_NOT_FOLD, target.span, message)
                    .label(format!("no fold at {name}"))
                    .also(work.garment.piece(drawn.piece).cut.span, "how it is cut");
                match cut {
                    CutHow::OnFold(fold) => {
                        message.help(format!("its fold is {}", work.garment.edge(fold).name))
                    }
                    _ => message.help("leave this out: it is not cut on the fold"),
                }
            });
            None
        }
    }
}

/// A half on the fold is cut as its whole.
pub(super) fn unfold(work: &Work, _: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    if matches!(drawn.cut, CutHow::OnFold(_)) && !drawn.unfolded {
        return Some(DrawnPiece { unfolded: true, ..drawn.clone() });
    }
    let title = work.title(drawn.piece);
    work.mistake(1.0, title, || {
        let message = match drawn.unfolded {
            true => format!("{title} is unfolded already"),
            false => format!("{title} is not cut on the fold, so there is nothing to unfold"),
        };
        Diagnostic::new(&catalogue::ALTER_NOT_FOLD, target.span, message)
            .label("no fold")
            .also(work.garment.piece(drawn.piece).cut.span, "how it is cut")
            .help("leave this out: it is cut as it is drawn")
    });
    None
}

/// A pair becomes a half on the fold.
pub(super) fn close(work: &Work, _: &Step, target: &Target, drawn: &DrawnPiece) -> Option<DrawnPiece> {
    let title = work.title(drawn.piece);
    let name = &work.garment.edge(target.edge).name;
    let is_it = |edge: &DrawnEdge| work.garment.is_run_of(edge.edge, target.edge);
    let whole;
    let drawn = match drawn.edges.iter().filter(|edge| is_it(edge)).count() {
        0 => {
            report_no_line(work, target, drawn);
            return None;
        }
        1 => drawn,
        count => match in_one_line(drawn, &is_it, work.garment.tolerance) {
            Some(made) => {
                whole = made;
                &whole
            }
            None => {
                work.mistake(1.0, title, || {
                    let message =
                        format!("{name} of {title} is in {count} edges that do not run on in one line");
                    let message =
                        Title::new(message).in_sizes().then(", and cloth folds along a straight line only");
                    Diagnostic::new(&catalogue::FOLD_CURVED, target.span, message)
                        .also(work.garment.edge(target.edge).span, "these are runs of it")
                        .help("sew it; or let them run on in one line first")
                });
                return None;
            }
        },
    };
    let edge = drawn.edges.iter().find(|edge| is_it(edge))?;
    if drawn.cut != CutHow::Mirrored {
        work.mistake(1.0, title, || {
            let message = format!("{title} is not cut in pairs, so {name} cannot become a fold");
            Diagnostic::new(&catalogue::ALTER_NO_PAIR, target.span, message)
                .label("no pair")
                .also(work.garment.piece(drawn.piece).cut.span, "how it is cut")
                .help("only the two halves of a mirrored pair can be closed into one piece")
        });
        return None;
    }
    if !edge.path.is_straight() {
        work.mistake(edge.path.off_straight(), title, || {
            let message = Title::new(format!("{name} of {title} is not straight"))
                .in_sizes()
                .then(", and cloth folds along a straight line only");
            Diagnostic::new(&catalogue::FOLD_CURVED, target.span, message)
                .also(work.garment.edge(edge.edge).span, "this edge curves")
                .help(format!("redraw {name} straight first, or sew it"))
        });
        return None;
    }
    Some(DrawnPiece { cut: CutHow::OnFold(edge.edge), count: (drawn.count / 2).max(1), ..drawn.clone() })
}

/// The piece with one edge of those, which two pieces have brought when they were joined; none where they do not follow one another in
/// one line.
fn in_one_line(drawn: &DrawnPiece, is_it: &dyn Fn(&DrawnEdge) -> bool, tolerance: f64) -> Option<DrawnPiece> {
    let count = drawn.edges.len();
    let is_at = |at: usize| drawn.edges.get(at % count).is_some_and(is_it);
    let first = (0..count).find(|&at| is_at(at) && !is_at(at + count - 1))?;
    let along = (first..first + count).take_while(|&at| is_at(at)).count();
    if drawn.edges.iter().filter(|edge| is_it(edge)).count() != along {
        return None;
    }
    let runs: Vec<&DrawnEdge> = drawn.edges.iter().cycle().skip(first).take(along).collect();
    let (begin, last) = (runs.first()?, runs.last()?);
    let line = Path::straight(begin.path.start(), last.path.end());
    let lies_on_it =
        |edge: &&DrawnEdge| edge.path.is_straight() && line.nearest(edge.path.end()).distance <= tolerance;
    if !runs.iter().all(lies_on_it) {
        return None;
    }
    let touched = runs.iter().flat_map(|edge| edge.touched.iter().copied()).collect();
    let kept = DrawnEdge { path: line, touched, ..(*begin).clone() };
    let mut whole = drawn.clone();
    for notch in &mut whole.notches {
        if runs.iter().any(|edge| edge.edge == notch.edge) {
            (notch.edge, notch.along) = (kept.edge, kept.path.nearest(notch.at).at);
        }
    }
    // Turned round they lie in a row, and the outline begins again where it did.
    let over_the_end = (first + along).saturating_sub(count);
    whole.edges.rotate_left(first);
    whole.edges.splice(..along, [kept]);
    whole.edges.rotate_right(first - over_the_end);
    Some(whole)
}
