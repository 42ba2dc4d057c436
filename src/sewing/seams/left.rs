//! What is left of the edges of a seam of which something else takes runs: each piece of it is sewn by itself.

use super::Laid;
use super::strand::{Link, Strand};
use crate::few::Few;
use crate::sewing::ends::Corners;
use crate::sewing::model::Uneven;
use crate::sewing::stitching::Stitching;

/// Marks the links that something else takes.
pub(super) fn mark(strands: &mut [Strand], stitching: &Stitching) {
    let mut rights = stitching.right.iter().flatten().flatten();
    for (strand, own) in strands.iter_mut().zip(stitching.plies()) {
        let right = rights.next();
        for link in &mut strand.links {
            let mut all = own.iter().chain(right.into_iter().flatten());
            link.gap = !all.any(|place| (place.part, place.edge) == (link.part, link.edge));
        }
    }
}

/// The seams that are really sewn, from the start of the one that is said: one for each piece of its edges that
/// is left. Where the sides are left in unlike pieces it is one that says so.
pub(super) fn left(corners: &Corners, laid: Option<Laid>) -> Few<Laid> {
    let Some(laid) = laid else { return Few::new() };
    if !laid.has_gaps {
        return Few::one(laid);
    }
    let pieces: Vec<Vec<Vec<Link>>> = laid.strands.iter().map(pieces).collect();
    let many = pieces.first().map_or(0, Vec::len);
    let unlike = pieces.iter().position(|own| own.len() != many);
    if laid.unmet.is_some() || laid.strands.iter().any(|strand| strand.unmet_joint.is_some()) || many == 0 {
        return Few::one(Laid { has_gaps: false, ..laid });
    }
    if let Some(other) = unlike {
        let of = |at: usize| {
            let link = laid.strands.get(at).and_then(|strand| strand.links.first())?;
            Some((link.part, link.span, pieces.get(at).map_or(0, Vec::len)))
        };
        let uneven = of(0).zip(of(other)).map(|(one, other)| Uneven { one, other });
        return Few::one(Laid { uneven, has_gaps: false, ..laid });
    }
    let mut found = Few::new();
    for at in 0..many {
        let strands = laid
            .strands
            .iter()
            .zip(&pieces)
            .filter_map(|(whole, own)| whole.piece(corners, own.get(at)?.clone()));
        let strands: Vec<Strand> = strands.collect();
        if strands.len() == laid.strands.len() {
            let Laid { first, through_fold, .. } = laid;
            let left = (many > 1).then_some((at as u32 + 1, many as u32));
            found.push(Laid {
                strands,
                first,
                unmet: None,
                through_fold,
                has_gaps: false,
                left,
                uneven: None,
            });
        }
    }
    found
}

/// A strand's links between its gaps. Round a ring the last goes on in the first.
fn pieces(strand: &Strand) -> Vec<Vec<Link>> {
    let each = strand.links.split(|link| link.gap);
    let mut pieces: Vec<Vec<Link>> = each.filter(|links| !links.is_empty()).map(<[Link]>::to_vec).collect();
    let goes_on = strand.ring
        && pieces.len() > 1
        && [strand.links.first(), strand.links.last()].into_iter().flatten().all(|link| !link.gap);
    if goes_on && let Some(mut last) = pieces.pop() {
        last.append(&mut pieces.remove(0));
        pieces.insert(0, last);
    }
    pieces
}
