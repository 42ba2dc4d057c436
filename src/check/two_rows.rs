//! `button/close` of two closures whose buttons, snaps or the like lie over one another.

use super::fasteners::BETWEEN;
use super::words;
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{PartId, Row};
use crate::shape::Point;

/// What two closures have on one piece.
struct Met {
    /// The closure that is declared before.
    other: ClosureId,
    part: PartId,
    /// From middle to middle, in millimetres.
    apart: f64,
    needed: f64,
}

/// The rows that are laid so far.
#[derive(Default)]
pub(super) struct TwoRows(Vec<(ClosureId, Row)>);

impl TwoRows {
    /// Keeps a row, and tells of the first one before it that lies too near to it.
    pub(super) fn over_one_another(
        &mut self,
        garment: &Garment,
        size: &WorkedSize,
        id: ClosureId,
        row: Row,
    ) -> Option<Finding> {
        let radius = |row: &Row| {
            let row = row.row.as_ref().filter(|row| row.kind.is_lapped());
            row.and_then(|row| row.size).map_or(0.0, |size| 0.5 * size)
        };
        let met = self.0.iter().find_map(|(other, known)| {
            let (part, apart) = nearest(known, &row)?;
            let needed = radius(known) + radius(&row) + BETWEEN;
            (apart < needed - 0.01).then_some(Met { other: *other, part, apart, needed })
        });
        self.0.push((id, row));
        met.map(|met| reported(garment, size, id, &met))
    }
}

/// Where of two rows the two lie that are nearest to one another, and how far apart.
fn nearest(one: &Row, other: &Row) -> Option<(PartId, f64)> {
    let mut least: Option<(PartId, f64)> = None;
    for &(part, at) in &one.places {
        for &(_, there) in other.places.iter().filter(|(own, _)| *own == part) {
            let apart = distance(at, there);
            if least.is_none_or(|(_, known)| apart < known) {
                least = Some((part, apart));
            }
        }
    }
    least
}

fn distance(one: Point, other: Point) -> f64 {
    (one - other).hypot()
}

fn reported(garment: &Garment, size: &WorkedSize, id: ClosureId, met: &Met) -> Finding {
    let (closure, other) = (garment.closure(id), garment.closure(met.other));
    let piece = words::piece(garment, size.sewn.part(met.part).part.piece);
    let (is, needed) = (amount(met.apart, garment.unit), amount(met.needed, garment.unit));
    let title = match met.apart < 1.0 {
        true => format!("{} and {} have something in one place of {piece}", other.name, closure.name),
        false => format!("{} and {} come within {is} of one another on {piece}", other.name, closure.name),
    };
    let mistake = Diagnostic::new(&catalogue::BUTTON_CLOSE, closure.kind_span, Title::new(title).in_sizes())
        .label(format!("from middle to middle they need {needed}"))
        .also(other.kind_span, "the other row")
        .help("begin the one where the other ends, or take one of the two closures out");
    Finding::new(size.id(), met.needed - met.apart, mistake)
        .about(format!("{} {}", other.name, closure.name))
        .figure("apart", is)
}
