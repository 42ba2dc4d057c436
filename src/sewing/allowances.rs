//! How much cloth there is beyond the stitching line, edge by edge.

use super::amounts::amount_of;
use super::model::{TakenBy, Taker};
use crate::garment::{ClosureKind, Expression, FinishKind, Garment, PieceId};
use crate::resolve::SizedGarment;
use crate::source::Span;

/// What is turned under at the raw edge of a casing, in millimetres: 1 cm, common practice. The
/// depth that a casing says is its finished one, so its allowance is the depth and this.
pub const CASING_TURN: f64 = 10.0;

/// An edge's allowance.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowance {
    /// In millimetres; none where nobody says it, or where what is said could not be worked out.
    pub amount: Option<f64>,
    /// Where it is said; none where nobody says it.
    pub span: Option<Span>,
    /// It is turned up against the piece.
    pub turned_up: bool,
}

/// The allowance of an edge with these takers: its finish's, else its seam's, else its piece's,
/// else the header's. A fold and a bound edge have none.
///
/// A hem turned once takes its depth; turned under, its depth and what is turned under; turned
/// twice, its depth twice; a casing its depth and [`CASING_TURN`]. Overlocked and raw edges take
/// the piece's or the header's. An edge that is the centre line of buttons goes on by their stand
/// first.
pub fn allowance(garment: &Garment, sized: &SizedGarment, piece: PieceId, takers: &[Taker]) -> Allowance {
    if takers.iter().any(|taker| taker.what == TakenBy::Fold) {
        return Allowance { amount: Some(0.0), span: Some(garment.piece(piece).cut.span), turned_up: false };
    }
    let finishes = takers.iter().filter_map(|taker| match taker.what {
        TakenBy::Finish(at) => garment.finishes.get(at),
        _ => None,
    });
    for finish in finishes {
        if let Some((amount, turned_up)) = of_finish(garment, sized, &finish.kind) {
            return Allowance { amount, span: Some(finish.kind_span), turned_up };
        }
    }
    let seam = takers.iter().find_map(|taker| match taker.what {
        TakenBy::Seam(id, _) => garment.seam(id).allowance.as_ref(),
        _ => None,
    });
    let piece_or_header = || {
        let own = garment.piece(piece).allowance.as_ref().or(garment.allowance.as_ref());
        own.map(|own| (own, own.span))
    };
    let said = match seam {
        Some((amount, span)) => Some((amount, *span)),
        None => piece_or_header(),
    };
    let Some((said, span)) = said else { return Allowance::default() };
    let own = amount_of(garment, sized, said);
    let amount = match stand(garment, takers) {
        Some(stand) => own.zip(amount_of(garment, sized, stand)).map(|(own, stand)| own + stand),
        None => own,
    };
    Allowance { amount: amount.filter(|amount| *amount >= 0.0), span: Some(span), turned_up: false }
}

/// A finish's allowance and whether it is turned up; none where it takes the piece's.
fn of_finish(garment: &Garment, sized: &SizedGarment, kind: &FinishKind) -> Option<(Option<f64>, bool)> {
    let of = |expression: &Expression| amount_of(garment, sized, expression).filter(|depth| *depth >= 0.0);
    match kind {
        FinishKind::Hem(depth) => Some((of(depth), true)),
        FinishKind::HemTurnedUnder(depth, under) => {
            Some((of(depth).zip(of(under)).map(|(depth, under)| depth + under), true))
        }
        FinishKind::HemTwice(depth) => Some((of(depth).map(|depth| 2.0 * depth), true)),
        FinishKind::Casing(depth, _) => Some((of(depth).map(|depth| depth + CASING_TURN), true)),
        FinishKind::Bound(_) => Some((Some(0.0), false)),
        FinishKind::Poison => Some((None, false)),
        FinishKind::Overlocked | FinishKind::Raw => None,
    }
}

/// The stand of the buttons whose centre line is this edge; none of an edge in a seam too.
fn stand<'a>(garment: &'a Garment, takers: &[Taker]) -> Option<&'a Expression> {
    if takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))) {
        return None;
    }
    takers.iter().find_map(|taker| match taker.what {
        TakenBy::Closure(id) => match &garment.closure(id).kind {
            Some(ClosureKind::Buttons(buttons)) => buttons.stand.as_ref(),
            _ => None,
        },
        _ => None,
    })
}
