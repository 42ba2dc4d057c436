//! `seam/twisted` of what one seam sews on the left and another on the right: no end of either is wrong, left and right are.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId, SeamId};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{PartId, Reach, SewnSeam};
use crate::syntax::tree::Hand;

/// A seam, and the side of the body on which it is sewn.
type OnSide = (SeamId, Hand);

/// A piece that is there once, and the seams that sew it on the left and on the right.
pub(super) struct OnBothSides {
    pub(super) piece: PieceId,
    seams: Vec<OnSide>,
}

/// The piece of a contradiction between these seams that one of them sews on the left and another on the right.
pub(super) fn on_both_sides(
    garment: &Garment,
    size: &WorkedSize,
    seams: &[&SewnSeam],
) -> Option<OnBothSides> {
    let one_side = |sewn: &&&SewnSeam| matches!(sewn.reach, Reach::On { .. });
    let parts = seams.iter().filter(one_side).flat_map(|sewn| parts_of(sewn));
    let parts: Vec<PartId> = parts.filter(|&part| is_there_once(garment, size, part)).collect();
    let part = parts.into_iter().find(|&part| {
        let hands: Vec<Hand> = seams.iter().filter_map(|sewn| on_side(sewn, part)).collect();
        let [one, other] = hands.as_slice() else { return false };
        one != other
    })?;
    let piece = size.sewn.part(part).part.piece;
    // What the maker matches may be the wrong end as well, unless the piece says itself where it is worn.
    let is_matched =
        |sewn: &&SewnSeam| on_side(sewn, part).is_some() && !garment.seam(sewn.seam).matching.is_empty();
    if garment.piece(piece).drawn.is_none() && seams.iter().any(is_matched) {
        return None;
    }
    let mut all: Vec<OnSide> =
        size.sewn.seams.iter().filter_map(|sewn| Some((sewn.seam, on_side(sewn, part)?))).collect();
    once_each(&mut all);
    Some(OnBothSides { piece, seams: all })
}

fn parts_of(sewn: &SewnSeam) -> impl Iterator<Item = PartId> + '_ {
    let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
    plies.flat_map(|ply| &ply.runs).map(|run| run.part)
}

/// On which side of the body a seam sews a part, if it says that.
fn on_side(sewn: &SewnSeam, part: PartId) -> Option<Hand> {
    match sewn.reach {
        Reach::On { hand, .. } => parts_of(sewn).any(|own| own == part).then_some(hand),
        Reach::Both | Reach::Across | Reach::Round => None,
    }
}

fn is_there_once(garment: &Garment, size: &WorkedSize, part: PartId) -> bool {
    let of = size.sewn.part(part).part;
    let drawn = size.drawn.paper(of.paper);
    garment.side_of(of.piece).is_none()
        && drawn.is_some_and(|drawn| drawn.cut == CutHow::Alike && drawn.count == 1)
}

/// All such pieces in one message, since it is one slip that exchanges left and right of two pieces.
pub(super) fn reported(garment: &Garment, size: &WorkedSize, all: &[OnBothSides]) -> Option<Finding> {
    let first = all.first()?;
    let name = |id: SeamId| &*garment.seam(id).name;
    let on = |hand: Hand| -> Vec<String> {
        let seams = first.seams.iter().filter(move |(_, own)| *own == hand);
        seams.map(|(id, _)| name(*id).to_owned()).collect()
    };
    let title = format!(
        "{} cannot lie on both sides of the body: {} sewn on the left, {} on the right",
        words::piece(garment, first.piece),
        sews(&on(Hand::Left)),
        words::listed(&on(Hand::Right)),
    );
    let mut seams: Vec<(OnSide, PieceId)> = Vec::new();
    for one in all {
        for seam in &one.seams {
            if !seams.iter().any(|(known, _)| known.0 == seam.0) {
                seams.push((*seam, one.piece));
            }
        }
    }
    seams.sort_unstable_by_key(|((seam, _), _)| garment.seam(*seam).name_span);
    let mut seams = seams.into_iter();
    let ((seam, hand), piece) = seams.next()?;
    let label = |piece: PieceId, hand: Hand| format!("{} on the {}", garment.piece(piece).title, hand.word());
    let mut mistake = Diagnostic::new(&catalogue::SEAM_TWISTED, garment.seam(seam).name_span, title)
        .label(label(piece, hand));
    for ((seam, hand), piece) in seams {
        mistake = mistake.also(garment.seam(seam).name_span, label(piece, hand));
    }
    let ways: Vec<String> = all.iter().map(|one| way_out(garment, one)).collect();
    let mistake = mistake.help(ways.join("; "));
    Some(
        Finding::new(size.drawn.size, 0.0, mistake)
            .about(first.seams.first().map_or("", |(id, _)| name(*id))),
    )
}

fn sews(seams: &[String]) -> String {
    let are = if seams.len() == 1 { "is" } else { "are" };
    format!("{} {are}", words::listed(seams))
}

/// What to write: in the seams that gainsay where the piece is drawn, or most of its seams; or in either.
fn way_out(garment: &Garment, one: &OnBothSides) -> String {
    let on = |hand: Hand| one.seams.iter().filter(move |(_, own)| *own == hand);
    let write = |hand: Hand| {
        let names: Vec<String> = on(hand.other()).map(|(id, _)| garment.seam(*id).name.to_string()).collect();
        format!("on {} in {}", hand.word(), words::listed(&names))
    };
    let drawn = garment.piece(one.piece).drawn.map(|(hand, _)| hand);
    let most = match on(Hand::Left).count().cmp(&on(Hand::Right).count()) {
        std::cmp::Ordering::Greater => Some(Hand::Left),
        std::cmp::Ordering::Less => Some(Hand::Right),
        std::cmp::Ordering::Equal => None,
    };
    let name = &garment.piece(one.piece).title;
    match drawn.or(most) {
        Some(hand) => format!("for {name} write {}", write(hand)),
        None => format!("for {name} write {}, or {}", write(Hand::Left), write(Hand::Right)),
    }
}
