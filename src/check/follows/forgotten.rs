//! A seam that was forgotten, or taken out, leaves both its edges loose, and the step that sews it without a seam: it is told once.

use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::catalogue;
use crate::report::{Diagnostic, Title};

/// Tells two loose edges that may be sewn to one another in one message, and with what is loose the one name among the steps that
/// nothing has.
pub(super) fn told_once(
    garment: &Garment,
    sizes: &[WorkedSize],
    mut found: Vec<Diagnostic>,
) -> Vec<Diagnostic> {
    let is_loose = |one: &Diagnostic| one.is(&catalogue::EDGE_LOOSE);
    if !found.iter().any(is_loose) {
        return found;
    }
    for [one, other] in crate::check::partners::mates(garment, sizes) {
        let place = |edge: EdgeId| {
            let told = |at: &Diagnostic| is_loose(at) && at.span() == garment.edge(edge).span;
            let mut all = found.iter().enumerate().filter(|(_, at)| told(at));
            let (at, _) = all.next()?;
            all.next().is_none().then_some(at)
        };
        let Some([first, second]) = place(one).zip(place(other)).map(|(one, other)| [one, other]) else {
            continue;
        };
        let are_alike = |of: fn(&Diagnostic) -> usize| of(&found[first]) == of(&found[second]);
        // In some layers or sizes alone each is a matter of its own.
        if first == second
            || !are_alike(|one| one.sizes.len())
            || !are_alike(|one| one.labels.len())
            || found[first].labels.len() != 1
        {
            continue;
        }
        let kept = first.min(second);
        let gone = found.remove(first.max(second));
        if let Some(kept) = found.get_mut(kept) {
            let both = kept.title.as_str().strip_suffix(ALONE).zip(gone.title.as_str().strip_suffix(ALONE));
            let both = both.map(|(one, other)| format!("{one} and {other} are neither sewn nor finished"));
            let both = both.map(Title::new);
            if let Some(title) = both {
                kept.title = title;
            }
            kept.labels.extend(gone.labels);
        }
    }
    let mut steps = found.iter().enumerate().filter(|(_, one)| is_of_step(garment, one));
    if let (Some((at, _)), None) = (steps.next(), steps.next()) {
        let gone = found.remove(at);
        if let Some(first) = found.iter_mut().find(|one| is_loose(one)) {
            first.labels.extend(gone.labels.into_iter().map(|mut label| {
                label.text = "the steps sew it, and no seam is called so".to_owned();
                label
            }));
        }
    }
    found
}

/// How the title of one loose edge ends.
const ALONE: &str = " is neither sewn nor finished";

/// Whether it is of a name among the steps, to which none that is known comes near.
fn is_of_step(garment: &Garment, one: &Diagnostic) -> bool {
    let place = one.span();
    one.is(&catalogue::NAME_UNKNOWN)
        && one.fix.is_none()
        && one.labels.len() == 1
        && garment.steps.iter().any(|step| step.span.lo <= place.lo && place.hi <= step.span.hi)
}
