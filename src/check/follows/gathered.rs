//! What one figure does in many places is told in one of them, which says that there are more.

use crate::garment::{EdgeId, Garment};
use crate::report::catalogue;
use crate::report::{Diagnostic, Label};
use crate::source::Span;

/// From so many on, messages that one figure is behind are gathered.
const MANY: usize = 3;
/// So many places are shown.
const SHOWN: usize = 6;

/// Gathers them: of a cloth too narrow for most pieces, an allowance too wide in many places, sizes that jump.
pub(super) fn gathered(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let found = of_cloth(garment, found);
    let found = of_allowance(found);
    of_sizes(garment, found)
}

/// A width that hardly any piece fits into was mistyped.
fn of_cloth(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let widths: Vec<Span> =
        garment.fabrics.iter().filter_map(|fabric| fabric.width.as_ref()).map(|width| width.span).collect();
    widths.into_iter().fold(found, |found, width| {
        let is_of = |one: &Diagnostic| {
            one.is(&catalogue::CLOTH_NARROW) && one.places().any(|place| place == width)
        };
        one_of(found, MANY, is_of, |first, others| {
            add_places(first, others, |other| other.labels.first().map(|label| label.span), "too wide as well");
            first.help = Some(format!(
                "look at the width of the cloth first, which {} more pieces do not fit into either: a figure or its unit may be \
                 wrong; else give them seams",
                others.len()
            ));
        })
    })
}

/// An allowance is said once, and too wide at many edges.
fn of_allowance(found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let mut places: Vec<Span> =
        found.iter().filter(|one| one.is(&catalogue::CUTTING_TOO_WIDE)).map(Diagnostic::span).collect();
    places.sort_unstable_by_key(|place| (place.lo, place.hi));
    places.dedup();
    places.into_iter().fold(found, |found, place| {
        let is_of = |one: &Diagnostic| one.is(&catalogue::CUTTING_TOO_WIDE) && one.span() == place;
        let found = one_of(found, 2, is_of, |first, others| {
            let help = first.help.take().unwrap_or_default();
            let more = match others.len() {
                1 => "so it is at one more edge".to_owned(),
                many => format!("so it is at {many} more edges"),
            };
            first.help = Some(format!("{help}; {more}"));
        });
        // That nobody lets out so much is said of the same figure.
        let is_told = |one: &Diagnostic| one.is(&catalogue::ALLOWANCE_WIDE) && one.span() == place;
        found.into_iter().filter(|one| !is_told(one)).collect()
    })
}

/// An edge that jumps takes along all that are drawn to it, and their lines cross.
fn of_sizes(garment: &Garment, found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let is_edge = |place: Span| EdgeId::enumerate(&garment.edges).any(|(_, edge)| edge.span == place);
    let is_jump = |one: &Diagnostic| one.is(&catalogue::SIZE_IRREGULAR) && is_edge(one.span());
    let Some(first) = found.iter().find(|one| is_jump(one)) else { return found };
    let sizes = first.sizes.clone();
    let is_of = |one: &Diagnostic| {
        let jumps = is_jump(one) || one.is(&catalogue::SIZE_LINES_CROSS);
        jumps && one.sizes.iter().any(|size| sizes.contains(size))
    };
    one_of(found, MANY, is_of, |first, others| {
        add_places(first, others, |other| Some(other.span()), "jumps or crosses too");
        first.help = Some(format!(
            "look at the figures of the points that it goes to, of each size: {} more edges jump or cross there, and most are \
             drawn to this one; if it is meant so, nothing needs to change",
            others.len()
        ));
    })
}

/// Of messages that are alike so, at least so many, the first, told about the others.
fn one_of(
    found: Vec<Diagnostic>,
    least: usize,
    is_of: impl Fn(&Diagnostic) -> bool,
    tell: impl FnOnce(&mut Diagnostic, &[Diagnostic]),
) -> Vec<Diagnostic> {
    if found.iter().filter(|one| is_of(one)).count() < least {
        return found;
    }
    let Some(at) = found.iter().position(&is_of) else { return found };
    let (others, mut kept): (Vec<Diagnostic>, Vec<Diagnostic>) = {
        let mut nth = 0;
        found.into_iter().partition(|one| {
            nth += 1;
            nth != at + 1 && is_of(one)
        })
    };
    if let Some(first) = kept.get_mut(at) {
        tell(first, &others);
    }
    kept
}

fn add_places(
    first: &mut Diagnostic,
    others: &[Diagnostic],
    place: impl Fn(&Diagnostic) -> Option<Span>,
    words: &str,
) {
    for span in others.iter().filter_map(place) {
        if first.places().any(|known| known == span) {
            continue;
        }
        match first.labels.len() < SHOWN {
            true => first.labels.push(Label { span, text: words.to_owned() }),
            false => first.unshown.push(span),
        }
    }
}
