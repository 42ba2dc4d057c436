//! `open` and `close`: a fold becomes one edge on a mirrored pair, and the other way; `unfold`: a half is cut as
//! its whole.

use super::Step;
use super::beyond::report_no_line;
use crate::garment::{CutHow, Target};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::work::Work;

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
    let mut runs = drawn.edges.iter().filter(|edge| work.garment.is_run_of(edge.edge, target.edge));
    let (Some(edge), None) = (runs.next(), runs.next()) else {
        report_no_line(work, target, drawn);
        return None;
    };
    let title = work.title(drawn.piece);
    let name = &work.garment.edge(target.edge).name;
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
