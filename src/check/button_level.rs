//! `button/sides` of fronts on which buttons and buttonholes lie at unlike heights: measured from where both are sewn to the
//! same piece, since a line may begin anywhere on its front.

use super::words;
use crate::cutting::WorkedSize;
use crate::garment::{Closure, Garment, Part};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::DrawnEdgeId;
use crate::sewing::{PartId, Row, SewnPly, SewnRun};
use crate::shape::{Point, Vec2};

/// Buttons and buttonholes no further than this above one another are level, in millimetres: cloth gives as much.
const LEVEL: f64 = 5.0;

/// How buttons and buttonholes of a row lie to one another that stand on two pieces.
pub(super) struct Heights {
    /// How much higher the second side's lie than the first's, in millimetres.
    pub by: f64,
    /// The part of each side.
    parts: [PartId; 2],
    /// What both pieces are sewn to.
    to: Part,
}

/// A place that several pieces are sewn to: a part, an edge of it, and which end of that.
type Place = (Part, DrawnEdgeId, bool);

/// None where it is not known: of one piece that is there on the left and on the right, or of two that are not sewn to one.
pub(super) fn heights(garment: &Garment, size: &WorkedSize, laid: &Row) -> Option<Heights> {
    let (first, second) = laid.places.split_at_checked(laid.second)?;
    let ((one, _), (other, _)) = (first.first()?, second.first()?);
    let [part, other_part] = [*one, *other].map(|part| size.sewn.part(part).part);
    if part.piece == other_part.piece || [part, other_part].iter().any(|part| !hangs(size, *part)) {
        return None;
    }
    let (low, other_low) = (places(size, *one), places(size, *other));
    let highest = |places: &[(PartId, Point)], of: PartId| {
        places.iter().filter(|(part, _)| *part == of).map(|(_, at)| at.y).fold(f64::NEG_INFINITY, f64::max)
    };
    let (height, other_height) = (highest(first, *one), highest(second, *other));
    // Where the fronts themselves are unlike, from one end of a seam another height comes out than from the other.
    let mut least: Option<(f64, Part)> = None;
    for (place, at) in &low {
        let Some((_, beside)) = other_low.iter().find(|(known, _)| known == place) else { continue };
        let by = (other_height - beside.y) - (height - at.y);
        match least {
            Some((known, _)) if known * by <= 0.0 => return Some(Heights::level([*one, *other], place.0)),
            Some((known, _)) if known.abs() <= by.abs() => {}
            _ => least = Some((by, place.0)),
        }
    }
    let (by, to) = least?;
    Some(Heights {
        by: if by.abs() > LEVEL.max(garment.tolerance) { by } else { 0.0 },
        parts: [*one, *other],
        to,
    })
}

/// Whether a piece is drawn as it hangs, along the grain.
fn hangs(size: &WorkedSize, part: Part) -> bool {
    size.drawn.paper(part.paper).is_some_and(|drawn| drawn.grain.dot(Vec2::new(0.0, 1.0)).abs() > 0.999)
}

/// Where the ends of a part's edges come on other parts, each with its own place of it.
fn places(size: &WorkedSize, part: PartId) -> Vec<(Place, Point)> {
    let mut found = Vec::new();
    let single = |ply: &SewnPly| match ply.runs.as_slice() {
        [run] => Some(*run),
        _ => None,
    };
    for sewn in size.sewn.seams.iter().filter(|sewn| sewn.unmet.is_none() && sewn.unpaired.is_none()) {
        // A flap lies with its front on one side of a seam, and both are sewn to the facing on its other.
        let pairs =
            sewn.first.plies.iter().flat_map(|one| sewn.second.plies.iter().map(move |other| (one, other)));
        for (first, second) in pairs.filter_map(|(one, other)| single(one).zip(single(other))) {
            let (own, other) = match (first.part == part, second.part == part) {
                (true, false) => (first, second),
                (false, true) => (second, first),
                _ => continue,
            };
            for at_end in [false, true] {
                let Some(at) = end_of(size, &own, at_end) else { continue };
                let to = size.sewn.part(other.part).part;
                found.push(((to, other.edge, at_end != other.reversed), at));
            }
        }
    }
    found
}

/// Where a run begins or ends as it is sewn.
fn end_of(size: &WorkedSize, run: &SewnRun, at_end: bool) -> Option<Point> {
    let drawn = size.drawn.paper(size.sewn.part(run.part).part.paper)?;
    let path = &drawn.edge_at(run.edge)?.path;
    Some(if at_end != run.reversed { path.end() } else { path.start() })
}

impl Heights {
    fn level(parts: [PartId; 2], to: Part) -> Heights {
        Heights { by: 0.0, parts, to }
    }

    /// What is said of it, if they are not level.
    pub(super) fn reported(
        &self,
        garment: &Garment,
        size: &WorkedSize,
        closure: &Closure,
        many: &str,
    ) -> Option<Finding> {
        if self.by == 0.0 {
            return None;
        }
        let [one, other] = self.parts.map(|part| words::piece(garment, size.sewn.part(part).part.piece));
        let (far, to) = (amount(self.by.abs(), garment.unit), words::piece(garment, self.to.piece));
        let (way, back) = if self.by > 0.0 { ("higher", "down") } else { ("lower", "up") };
        let title =
            Title::new(format!("the {many} of {} lie {far} {way} on {other} than on {one}", closure.name));
        let mistake = Diagnostic::new(&catalogue::BUTTON_SIDES, closure.second.span, title.in_sizes())
            .label(format!("{far} {way} above where both are sewn to {to}"))
            .also(closure.first.span, "than these")
            .help(format!(
                "buttoned, the one front would hang {far} below the other: move the line of {other} {back} by {far}, or that \
                 of {one} the other way"
            ));
        Some(Finding::new(size.id(), self.by.abs(), mistake).about(&*closure.name).figure("apart by", far))
    }
}
