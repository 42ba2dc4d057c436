//! `unpair`: a pair, or a half on the fold, becomes two pieces, each right side up.

use super::split::{own_point, own_run, report_nameless};
use crate::garment::{Alteration, CutHow, EdgeId, PieceId};
use crate::report::{Diagnostic, catalogue};
use crate::resolve::drawn_piece::{
    CornerName, DrawnCut, DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot,
};
use crate::resolve::drawn_take_up::{DrawnSlit, DrawnTakeUp, Mouth};
use crate::resolve::sketch;
use crate::resolve::work::Work;
use crate::shape::{Affine, Point};
use crate::syntax::tree::Hand;
use std::sync::Arc;

/// The left piece and the right one: one as it is drawn, the other its mirror image.
pub(super) fn unpair(
    work: &Work,
    alteration: &Alteration,
    whole: &DrawnPiece,
) -> Option<[Arc<DrawnPiece>; 2]> {
    let ([target], [left, right]) = (alteration.targets.as_slice(), alteration.makes.as_slice()) else {
        return None;
    };
    if whole.cut == CutHow::Alike {
        let title = work.title(whole.piece);
        work.mistake(1.0, title, || {
            let message = format!("{title} is cut alike: there is no left and no right one of it");
            Diagnostic::new(&catalogue::ALTER_NO_PAIR, target.span, message)
                .label("no pair")
                .also(work.garment.piece(whole.piece).cut.span, "how it is cut")
                .help("only a mirrored pair or a half on the fold can be made into a left and a right piece")
        });
        return None;
    }
    // Where it is not said, that is asked for.
    let drawn = work.garment.piece(whole.piece).drawn.map_or(Hand::Left, |(hand, _)| hand);
    let side = |piece: PieceId, hand: Hand| {
        let by = if hand == drawn { Affine::IDENTITY } else { Affine::FLIP_X };
        let side = one_side(work, piece, whole, by);
        if side.is_none() {
            report_nameless(work, piece, alteration.span);
        }
        side.map(Arc::new)
    };
    let (left, right) = (side(left.piece, Hand::Left), side(right.piece, Hand::Right));
    Some([left?, right?])
}

/// The piece under the names of one of the two, moved so.
fn one_side(work: &Work, piece: PieceId, whole: &DrawnPiece, by: Affine) -> Option<DrawnPiece> {
    let edge = |edge: EdgeId| own_run(work, piece, edge);
    let corner = |corner: CornerName| match corner {
        CornerName::Named(point) => Some(CornerName::Named(own_point(work, piece, point)?)),
        CornerName::Between(one, other) => Some(CornerName::Between(edge(one)?, edge(other)?)),
    };
    let edges = whole.edges.iter().map(|drawn| {
        Some(DrawnEdge {
            edge: edge(drawn.edge)?,
            path: drawn.path.transform(by),
            corner: corner(drawn.corner)?,
            touched: drawn.touched.clone(),
        })
    });
    let mut side = sketch::bare(piece, edges.collect::<Option<Vec<DrawnEdge>>>()?);
    side.lines = whole
        .lines
        .iter()
        .filter_map(|line| Some(DrawnLine { edge: edge(line.edge)?, path: line.path.transform(by) }))
        .collect();
    side.spots = whole
        .spots
        .iter()
        .filter_map(|spot| Some(DrawnSpot { point: own_point(work, piece, spot.point)?, at: by * spot.at }))
        .collect();
    side.notches = whole
        .notches
        .iter()
        .filter_map(|notch| Some(DrawnNotch { edge: edge(notch.edge)?, at: by * notch.at, ..*notch }))
        .collect();
    let mouth = |mouth: Mouth| Some(Mouth { edge: edge(mouth.edge)?, ..mouth });
    let take_ups = whole.take_ups.iter().map(|take_up| {
        let mouth = match take_up.mouth {
            Some(own) => Some(mouth(own)?),
            None => None,
        };
        Some(DrawnTakeUp { name: edge(take_up.name)?, mouth, ..take_up.transformed(by) })
    });
    side.slits = whole
        .slits
        .iter()
        .filter_map(|slit| {
            Some(DrawnSlit {
                name: edge(slit.name)?,
                mouth: match slit.mouth {
                    Some(own) => Some(mouth(own)?),
                    None => None,
                },
                sides: slit.sides.map(|at| by * at),
                ends: slit.ends.map(|at| by * at),
                along: by * (Point::ZERO + slit.along) - by * Point::ZERO,
                ..*slit
            })
        })
        .collect();
    side.counted_back = whole.counted_back.iter().filter_map(|&own| edge(own)).collect();
    side.take_ups = take_ups.collect::<Option<Vec<DrawnTakeUp>>>()?;
    side.cutting = whole
        .cutting
        .iter()
        .map(|cut| DrawnCut {
            stitching: cut.stitching.transform(by),
            cut: cut.cut.transform(by),
            width: cut.width,
        })
        .collect();
    side.missing = whole.missing.clone();
    side.grain = (by * whole.grain.to_point() - by * Point::ZERO).normalize();
    side.cut = CutHow::Alike;
    side.count = if whole.cut == CutHow::Mirrored { whole.count / 2 } else { whole.count };
    Some(side)
}
