//! Take-ups: cloth taken out of an edge, or of the middle of a piece. The outline stays as it is drawn,
//! straight across each of them; what they take of an edge is their mouth, and the one map from drawn to
//! sewn ([`crate::shape::taken::Taken`]) serves whoever needs lengths or places as sewn.

pub(super) mod carry;
pub(super) mod carry_slits;
pub(super) mod dart;
pub(super) mod let_in;
mod open;
pub(super) mod place;
mod placing;
mod pleat;
mod pleat_measures;
mod row;
mod slit;
mod sound;
mod sound_slits;
mod truing;
mod tuck;

pub(super) use open::{opened, side_of};
pub(super) use sound::{is_sound, lie_as_before};
pub(super) use truing::{smooth_over, true_edges};

use super::drawn_take_up::DrawnTakeUp;
use super::sketch::{Sketch, ring};
use super::work::Work;
use crate::garment::{EdgeId, Piece, TakeUp, TakeUpForm};
use crate::limits;
use crate::report::{Diagnostic, Title, catalogue};
use crate::shape::outline::Region;

/// Places the take-ups of a piece and trues its edges. None when one has no place: then the lengths of the
/// piece as sewn are not known.
pub(super) fn take_up(work: &Work, piece: &Piece, sketch: &mut Sketch) -> Option<()> {
    let order = in_order(work, piece)?;
    let mut whole = true;
    for take_up in order {
        let placed = match &take_up.form {
            TakeUpForm::Dart(dart) => {
                dart::dart(work, piece, sketch, take_up, dart).map(|placed| vec![placed])
            }
            TakeUpForm::Slit(slit) => match slit::slit(work, piece, sketch, take_up, slit) {
                Some(placed) => {
                    sketch.drawn.as_mut()?.slits.push(placed);
                    Some(Vec::new())
                }
                None => None,
            },
            TakeUpForm::Pleat(pleat) => pleat::pleat(work, piece, sketch, take_up, pleat),
        };
        match placed {
            Some(placed) => sketch.drawn.as_mut()?.take_ups.extend(placed),
            None => whole = false,
        }
        if sketch.drawn.as_ref()?.take_ups.len() > 2 * limits::PLEATS_OF_PIECE {
            report_too_many(work, piece, take_up);
            return None;
        }
    }
    if !whole {
        return None;
    }
    let drawn = sketch.drawn.as_mut()?;
    let declared = |name: EdgeId| piece.drawing.take_ups.iter().position(|take_up| take_up.name == name);
    drawn.take_ups.sort_by_key(|placed| declared(placed.name));
    drawn.slits.sort_by_key(|placed| declared(placed.name));
    let ring = ring(drawn);
    let sound = sound::is_sound(work, drawn, &Region::of(&ring), piece.cut.how, None);
    let sound = sound && true_edges(work, drawn, |_| true);
    carry_slits::follow_edges(drawn);
    sound.then_some(())
}

fn report_too_many(work: &Work, piece: &Piece, take_up: &TakeUp) {
    work.mistake(1.0, "", || {
        let most = limits::PLEATS_OF_PIECE;
        let title =
            Title::new(format!("{} has more than {most} darts, pleats and tucks", piece.title)).in_sizes();
        Diagnostic::new(&catalogue::LIMIT_PLEATS, take_up.span, title)
            .help("make several pieces of it, or gather the edge")
    });
}

/// Each after the one from whose side its place is counted; reported if they go round in a circle.
fn in_order<'p>(work: &Work, piece: &'p Piece) -> Option<Vec<&'p TakeUp>> {
    let all = &piece.drawing.take_ups;
    let mut order: Vec<&TakeUp> = Vec::with_capacity(all.len());
    let mut left: Vec<&TakeUp> = all.iter().collect();
    while !left.is_empty() {
        let before = left.len();
        let placed = |name: EdgeId| all.iter().all(|one| one.name != name);
        left.retain(|take_up| {
            let waits = take_up
                .counted_from()
                .is_some_and(|from| !placed(from) && order.iter().all(|done| done.name != from));
            if !waits {
                order.push(take_up);
            }
            waits
        });
        if left.len() == before {
            let first = left.first()?;
            work.mistake(1.0, "", || {
                let name = &work.garment.edge(first.name).name;
                let title = Title::new(format!("the place of {name} is counted from itself")).in_sizes();
                Diagnostic::new(&catalogue::EDGE_PLACE, first.span, title)
                    .help("count one of them from a corner or a mark of the edge")
            });
            return None;
        }
    }
    Some(order)
}

/// The take-up as it is declared.
pub(super) fn declared<'g>(work: &Work<'g>, placed: &DrawnTakeUp) -> Option<&'g TakeUp> {
    let piece = work.garment.edge(placed.declared).piece;
    work.garment.piece(piece).drawing.take_ups.iter().find(|take_up| take_up.name == placed.declared)
}
