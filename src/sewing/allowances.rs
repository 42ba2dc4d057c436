//! How much cloth there is beyond the stitching line, edge by edge.

use super::amounts::amount_of;
use super::model::{TakenBy, Taker};
use crate::garment::{
    CASING_TURN, Catcher, ClosureId, ClosureKind, Expression, FinishKind, Garment, HemEdge, PieceId,
};
use crate::resolve::SizedGarment;
use crate::source::Span;

/// An edge's allowance.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Allowance {
    /// In millimetres; none where nobody says it, or where what is said could not be worked out.
    pub amount: Option<f64>,
    /// Where it is said; none where nobody says it.
    pub span: Option<Span>,
    /// It is turned up against the piece.
    pub turned_up: bool,
    /// How deep its turn-up is: it is turned once more so far beyond the stitching line, and again twice as
    /// far beyond it, in millimetres.
    pub turn_up: Option<f64>,
    /// How far beyond the stitching line its raw edge is turned under, in millimetres.
    pub turned_under: Option<f64>,
}

/// What a finish asks for.
#[derive(Default)]
struct Finished {
    amount: Option<f64>,
    turned_up: bool,
    turn_up: Option<f64>,
    turned_under: Option<f64>,
}

/// The allowance of an edge with these takers: its finish's, else its seam's, else its piece's,
/// else the header's. A fold and a bound edge have none. An edge that is caught in a seam, or that
/// goes on along a closure which a seam encloses, is sewn with that seam and has its allowance.
///
/// A hem turned once takes its depth; turned under, its depth and what is turned under; turned
/// twice, its depth twice; a turn-up twice its depth more; a casing its depth and [`CASING_TURN`], or twice its depth if that is less. Overlocked and raw edges take
/// the piece's or the header's. A casing to whose edge a seam sews another layer takes its depth and that
/// seam's allowance. An edge that is the centre line of buttons goes on by their stand
/// first.
pub fn allowance(garment: &Garment, sized: &SizedGarment, piece: PieceId, takers: &[Taker]) -> Allowance {
    if takers.iter().any(|taker| taker.what == TakenBy::Fold) {
        let span = Some(garment.piece(piece).cut.span);
        return Allowance { amount: Some(0.0), span, ..Allowance::default() };
    }
    let finishes = takers.iter().filter_map(|taker| match taker.what {
        TakenBy::Finish(id) => Some(garment.finish(id)),
        _ => None,
    });
    let seam = takers.iter().find_map(|taker| of_seam(garment, taker.what));
    let piece_or_header = || {
        let own = garment.piece(piece).allowance.as_ref().or(garment.allowance.as_ref());
        own.map(|own| (own, own.span))
    };
    let said = match seam {
        Some((amount, span)) => Some((amount, *span)),
        None => piece_or_header(),
    };
    let in_seam = takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..)));
    for finish in finishes {
        if let (FinishKind::Casing(depth, _), Some((own, _)), true) = (&finish.kind, said, in_seam) {
            let of = |expression| amount_of(garment, sized, expression).filter(|depth| *depth >= 0.0);
            let (depth, own) = (of(depth), of(own));
            return Allowance {
                amount: depth.zip(own).map(|(depth, own)| depth + own),
                span: Some(finish.kind_span),
                turned_up: true,
                turn_up: None,
                turned_under: depth,
            };
        }
        if let Some(of) = of_finish(garment, sized, &finish.kind) {
            let Finished { amount, turned_up, turn_up, turned_under } = of;
            return Allowance { amount, span: Some(finish.kind_span), turned_up, turn_up, turned_under };
        }
    }
    let Some((said, span)) = said else { return Allowance::default() };
    let own = amount_of(garment, sized, said);
    let amount = match stand(garment, takers) {
        Some(stand) => own.zip(amount_of(garment, sized, stand)).map(|(own, stand)| own + stand),
        None => own,
    };
    Allowance { amount: amount.filter(|amount| *amount >= 0.0), span: Some(span), ..Allowance::default() }
}

/// The allowance that a piece's edges have where neither finish nor seam says otherwise, in millimetres; none
/// where nobody says it, or where it could not be worked out.
pub fn piece_allowance(garment: &Garment, sized: &SizedGarment, piece: PieceId) -> Option<f64> {
    let said = garment.piece(piece).allowance.as_ref().or(garment.allowance.as_ref())?;
    amount_of(garment, sized, said).filter(|amount| *amount >= 0.0)
}

/// What a finish asks for; none where it takes the piece's allowance.
fn of_finish(garment: &Garment, sized: &SizedGarment, kind: &FinishKind) -> Option<Finished> {
    let of = |expression: &Expression| amount_of(garment, sized, expression).filter(|depth| *depth >= 0.0);
    let turned = |depth: Option<f64>, under: Option<f64>| Finished {
        amount: depth.zip(under).map(|(depth, under)| depth + under),
        turned_up: true,
        turn_up: None,
        turned_under: depth.filter(|_| under.is_some_and(|under| under > 0.0)),
    };
    match kind {
        FinishKind::Hem(hem) => {
            let depth = of(&hem.depth);
            let under = match &hem.raw_edge {
                HemEdge::TurnedOnce => Some(0.0),
                HemEdge::TurnedUnder(under) => of(under),
                HemEdge::TurnedTwice => depth,
            };
            let plain = turned(depth, under);
            let Some(turn_up) = &hem.turn_up else { return Some(plain) };
            // Up on the outside, down again behind that, and only then up as the hem.
            let turn_up = of(turn_up);
            let beyond = |more: Option<f64>| more.zip(turn_up).map(|(more, turn_up)| 2.0 * turn_up + more);
            let (amount, turned_under) = (beyond(plain.amount), beyond(plain.turned_under));
            Some(Finished { amount, turned_up: true, turn_up, turned_under })
        }
        FinishKind::Casing(depth, _) => {
            let depth = of(depth);
            Some(turned(depth, depth.map(casing_turn)))
        }
        FinishKind::Elastic(width, _) => Some(turned(of(width), Some(0.0))),
        FinishKind::Bound(_) => Some(Finished { amount: Some(0.0), ..Finished::default() }),
        FinishKind::Poison => Some(Finished::default()),
        FinishKind::Tape(_) | FinishKind::TurnedUnderOnto(_) | FinishKind::Overlocked | FinishKind::Raw => {
            None
        }
    }
}

/// What is turned under in a casing: [`CASING_TURN`], but in a shallower one no more than its depth,
/// or it would come out again at the fold.
fn casing_turn(depth: f64) -> f64 {
    CASING_TURN.min(depth)
}

/// The allowance that the seam says which sews this edge.
fn of_seam(garment: &Garment, taken: TakenBy) -> Option<&(Expression, Span)> {
    let enclosing = |closure: ClosureId| {
        let mut seams = garment.seams.iter();
        seams
            .find(|seam| seam.allowance.is_some() && seam.enclosing.iter().any(|(id, _)| *id == closure))
            .and_then(|seam| seam.allowance.as_ref())
    };
    match taken {
        TakenBy::Seam(id, _) | TakenBy::Caught(_, Catcher::Seam(id)) => garment.seam(id).allowance.as_ref(),
        TakenBy::Closure(id) | TakenBy::Caught(_, Catcher::Closure(id)) => enclosing(id),
        TakenBy::Finish(_) | TakenBy::Fold | TakenBy::Topstitched(_) | TakenBy::Strap(_) => None,
    }
}

/// The stand of the buttons whose centre line is this edge; none of an edge in a seam too.
fn stand<'a>(garment: &'a Garment, takers: &[Taker]) -> Option<&'a Expression> {
    if takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))) {
        return None;
    }
    takers.iter().find_map(|taker| match taker.what {
        TakenBy::Closure(id) => match &garment.closure(id).kind {
            Some(ClosureKind::Fasteners(row)) => row.stand.as_ref(),
            _ => None,
        },
        _ => None,
    })
}
