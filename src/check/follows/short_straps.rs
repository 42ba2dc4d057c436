//! Straps that reach too far, all from one seam: rather than each of them where that seam begins is wrong.

use crate::garment::{Catcher, Garment, SeamId};
use crate::report::catalogue;
use crate::report::{Diagnostic, Label};

/// From so many on the seam is behind it.
const MANY: usize = 3;
/// So many places are shown.
const SHOWN: usize = 5;

/// They are told in the first.
pub(super) fn told_once(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    SeamId::enumerate(&garment.seams).map(|(id, _)| id).fold(found, |found, id| of_seam(garment, found, id))
}

fn of_seam(garment: &Garment, found: Vec<Diagnostic>, id: SeamId) -> Vec<Diagnostic> {
    let is_caught = |one: &Diagnostic| {
        let mut own = garment.straps.iter().filter(|strap| strap.length.span == one.span());
        one.is(&catalogue::STRAP_SHORT)
            && own.any(|strap| {
                let mut ends = strap.runs.iter().flat_map(|run| run.ends());
                ends.any(|end| end.caught == Some(Catcher::Seam(id)))
            })
    };
    if found.iter().filter(|one| is_caught(one)).count() < MANY {
        return found;
    }
    let (mut own, mut others): (Vec<Diagnostic>, Vec<Diagnostic>) = found.into_iter().partition(is_caught);
    let mut first = own.remove(0);
    for other in &own {
        match first.labels.len() < SHOWN {
            true => first.labels.push(Label { span: other.span(), text: "too short as well".to_owned() }),
            false => first.unshown.push(other.span()),
        }
    }
    let seam = garment.seam(id);
    first = first.also(seam.name_span, "catches them all");
    let help = first.help.take().unwrap_or_default();
    first.help = Some(format!(
        "look first where {} begins and ends, from which places on both its sides are counted: it may open on the other side, or lie \
         the other way round; else {help}, and so all others",
        seam.words()
    ));
    others.push(first);
    others
}
