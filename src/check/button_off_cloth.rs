//! `button/edge` of buttons and the like that lie outside the piece that is to bear them.

use super::fasteners::BESIDE;
use super::strap_room::whole;
use super::words;
use crate::cutting::WorkedSize;
use crate::garment::{Closure, Fasteners, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::Row;
use crate::shape::Point;
use crate::shape::outline::Region;

/// What lies no further outside than this lies on the edge, in millimetres: an edge may itself be the line of a row.
const ON_EDGE: f64 = 1.0;

/// The one that lies farthest outside: a line may cross the outline of its piece, as where a front is cut low.
pub(super) fn off_cloth(
    garment: &Garment,
    size: &WorkedSize,
    (closure, said): (&Closure, &Fasteners),
    laid: &Row,
) -> Option<Finding> {
    let mut worst: Option<(f64, usize, &DrawnPiece)> = None;
    for (nth, &(part, at)) in laid.places.iter().enumerate() {
        let Some(drawn) = size.drawn.paper(size.sewn.part(part).part.paper) else { continue };
        let Some(off) = outside(drawn, at) else { continue };
        if worst.is_none_or(|(most, ..)| off > most) {
            worst = Some((off, nth, drawn));
        }
    }
    let (off, nth, drawn) = worst?;
    let (one, count) = (said.kind.one(), laid.row.as_ref().map_or(1, |row| row.count as usize));
    let nth = if nth < laid.second { nth } else { nth - laid.second };
    let which = match nth + 1 {
        1 if count > 1 => format!("the first {one}"),
        last if last == count && count > 1 => format!("the last {one}"),
        1 => format!("the {one}"),
        nth => format!("{one} {nth}"),
    };
    let (by, piece) = (amount(off, garment.unit), words::piece(garment, drawn.piece));
    let title = Title::new(format!("{which} of {} lies {by} outside {piece}", closure.name)).in_sizes();
    let chains = [&closure.first, &closure.second];
    let mut named = chains.into_iter().flat_map(|chain| &chain.edges);
    let line = named.find(|sewn| sewn.piece == drawn.piece);
    let mistake = Diagnostic::new(&catalogue::BUTTON_EDGE, closure.kind_span, title)
        .label(format!("no cloth there, by {by}"));
    let mistake = match line {
        Some(line) => mistake.also(garment.edge(line.edge).span, "runs out over the edge of its piece"),
        None => mistake,
    };
    let mistake = mistake.help(format!(
        "let the row, or its line, end where the piece still has cloth: half a {one} and {} on every side of it",
        amount(BESIDE, garment.unit)
    ));
    Some(Finding::new(size.id(), off, mistake).about(&*closure.name).figure("outside by", by))
}

/// How far a place lies outside a piece, of a half on the fold outside the whole; none of what lies on it.
pub(super) fn outside(drawn: &DrawnPiece, at: Point) -> Option<f64> {
    let outline = whole(drawn)?;
    let away = outline.iter().map(|edge| edge.nearest(at).distance).fold(f64::INFINITY, f64::min);
    (away > ON_EDGE && !Region::of(&outline).contains(at)).then_some(away)
}
