//! A seam that was forgotten, or taken out, leaves both its edges loose, and the step that sews it without a seam: it is told once.

use super::misnamed::loose_edge;
use crate::check::edges::LOOSE;
use crate::check::partners::OFFERED;
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, EdgeId, Garment};
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
    let one_step = |found: &[Diagnostic]| {
        let mut steps = found.iter().enumerate().filter(|(_, one)| is_of_step(garment, one));
        let (at, _) = steps.next()?;
        steps.next().is_none().then_some(at)
    };
    if let Some(at) = one_step(&found).filter(|_| found.iter().filter(|one| is_loose(one)).count() > 2) {
        return with_step(garment, found, at);
    }
    for [one, other] in crate::check::partners::mates(garment, sizes) {
        let place = |edge: EdgeId| {
            let told = |at: &Diagnostic| is_loose(at) && loose_edge(garment, at) == Some(edge);
            let mut all = found.iter().enumerate().filter(|(_, at)| told(at));
            let (at, _) = all.next()?;
            all.next().is_none().then_some(at)
        };
        let Some([first, second]) = place(one).zip(place(other)).map(|(one, other)| [one, other]) else {
            continue;
        };
        let are_alike = found.get(first).zip(found.get(second)).is_some_and(|(one, other)| {
            one.sizes.len() == other.sizes.len() && one.labels.len() == 1 && other.labels.len() == 1
        });
        // In some layers or sizes alone each is a matter of its own.
        if first == second || !are_alike {
            continue;
        }
        let kept = first.min(second);
        let gone = found.remove(first.max(second));
        if let Some(kept) = found.get_mut(kept) {
            let both = kept.title.as_str().strip_suffix(LOOSE).zip(gone.title.as_str().strip_suffix(LOOSE));
            let both = both.map(|(one, other)| format!("{one} and {other} are neither sewn nor finished"));
            let both = both.map(Title::new);
            if let Some(title) = both {
                kept.title = title;
            }
            kept.show(gone.labels);
        }
    }
    match one_step(&found) {
        Some(at) => with_step(garment, found, at),
        None => found,
    }
}

/// All that is loose is told in one message, with the name among the steps that nothing has.
fn with_step(garment: &Garment, mut found: Vec<Diagnostic>, at: usize) -> Vec<Diagnostic> {
    let gone = found.remove(at);
    let (loose, mut others): (Vec<Diagnostic>, Vec<Diagnostic>) =
        found.into_iter().partition(|one| one.is(&catalogue::EDGE_LOOSE));
    let subjects: Vec<String> =
        loose.iter().filter_map(|one| one.title.as_str().strip_suffix(LOOSE)).map(str::to_owned).collect();
    let many = loose.len();
    let edges: Vec<EdgeId> = loose.iter().filter_map(|one| loose_edge(garment, one)).collect();
    let mut loose = loose.into_iter();
    let Some(mut first) = loose.next() else { return others };
    for one in loose {
        match first.labels.len() < SHOWN {
            true => first.show(one.labels),
            false => first.unshown.extend(one.labels.iter().map(|label| label.span)),
        }
    }
    if many > 1 && !subjects.is_empty() {
        let mut named: Vec<String> = subjects.into_iter().take(NAMED).collect();
        if many > named.len() {
            named.push(format!("{} more", many - named.len()));
        }
        first.title = Title::new(format!("{} are neither sewn nor finished", words::listed(&named)));
        first.fix = None;
    }
    if !first.help.as_ref().is_some_and(|help| help.contains(OFFERED)) {
        let sides = match edges[..] {
            [one, other] if many == 2 => {
                format!(": seam …  {} to {}", called(garment, one), called(garment, other))
            }
            // Left and right of one edge.
            [one] if many == 1 && is_mirrored(garment, one) => {
                format!(": seam …  {0} to {0}", called(garment, one))
            }
            _ => ", with these edges on its two sides".to_owned(),
        };
        first.help = Some(format!("write the seam that the steps name{sides}; or finish what stays open"));
    }
    first.labels.extend(gone.labels.into_iter().map(|mut label| {
        label.text = "the steps sew it, and no seam is called so".to_owned();
        label
    }));
    others.push(first);
    others
}

/// So many loose edges are shown, …
const SHOWN: usize = 6;
/// … and so many named.
const NAMED: usize = 2;

fn called(garment: &Garment, edge: EdgeId) -> String {
    let edge = garment.edge(edge);
    format!("{}.{}", garment.piece(edge.piece).name, edge.name)
}

fn is_mirrored(garment: &Garment, edge: EdgeId) -> bool {
    garment.piece(garment.edge(edge).piece).cut.how == CutHow::Mirrored
}

/// Whether it is of a name among the steps, to which none that is known comes near.
fn is_of_step(garment: &Garment, one: &Diagnostic) -> bool {
    let place = one.span();
    one.is(&catalogue::NAME_UNKNOWN)
        && one.fix.is_none()
        && one.labels.len() == 1
        && garment.steps.iter().any(|step| step.span.lo <= place.lo && place.hi <= step.span.hi)
}
