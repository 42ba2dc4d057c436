//! `tack/far`: a tack between two places that are not brought near one another by what is sewn.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, Tack, TackEnd};
use crate::id_hash::IdIndexMap;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::surface::{FaceId, SideId, Surface};
use crate::sewing::{PartId, tacked};
use crate::shape::Point;
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::TACK_FAR], run: Run::PerSize(run) };

/// Places no further than this from one another are tacked without drawing the cloth together that one sees, in millimetres.
const FAR: f64 = 50.0;
/// On one piece folds are tacked down, a turn-up, a lapel, the drape of a front: no further from one another than this, in
/// millimetres.
const FAR_ON_ONE: f64 = 250.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let surface = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty());
    let Some(surface) = surface.filter(|_| !garment.tacks.is_empty()) else { return };
    for tack in garment.tacks.iter().filter(|tack| tack.sets.is_none()) {
        let on_two = apart(garment, size, surface, tack).filter(|(by, _)| *by > FAR);
        let on_one = || on_one_piece(garment, size, tack).filter(|(by, _)| *by > FAR_ON_ONE);
        let (is_on_two, found) = match on_two {
            Some(found) => (true, Some(found)),
            None => (false, on_one()),
        };
        let Some((by, [one, other])) = found else { continue };
        let far = amount(by, garment.unit);
        let title =
            Title::new(format!("{} draws together two places that lie at least {far} apart", tack.name))
                .in_sizes();
        let (there, help) = match is_on_two {
            true => (
                "to here, as both are sewn",
                "a tack holds one piece where it lies on the other: name the place of each that lies over the other's",
            ),
            false => (
                "to here",
                "a tack on one piece holds a fold of it down, whose two places come to lie on one another: name those",
            ),
        };
        let warning = Diagnostic::new(&catalogue::TACK_FAR, one, title)
            .label("from here")
            .also(other, there)
            .help(help);
        findings.push(Finding::new(size.id(), by, warning).about(&*tack.name).figure("apart", far));
    }
}

/// Where an end of a tack lies on the papers.
fn places(garment: &Garment, size: &WorkedSize, end: &TackEnd) -> Vec<(PartId, Point)> {
    let all = tacked(garment, &size.drawn, &size.finder(garment), end).into_iter();
    all.filter_map(|(part, at)| Some((part, at.ok()?))).collect()
}

/// How far apart both ends of a tack lie on one piece, straight.
fn on_one_piece(garment: &Garment, size: &WorkedSize, tack: &Tack) -> Option<(f64, [Span; 2])> {
    let [from, to] = tack.ends.as_slice() else { return None };
    let [first, second] = [from, to].map(|end| places(garment, size, end));
    let (own, _) = first.first()?;
    let are_on_one = first.iter().chain(&second).all(|(part, _)| part == own);
    let pairs = first.iter().flat_map(|(_, at)| second.iter().map(move |(_, there)| at.distance(*there)));
    let least = pairs.min_by(f64::total_cmp).filter(|_| are_on_one)?;
    Some((least, [from.span, to.span]))
}

/// How far apart both ends of a tack lie at least, where both pieces lie flat on one another: no place of the one comes
/// nearer to a place of the other than their distances from where both are sewn together differ.
fn apart(garment: &Garment, size: &WorkedSize, surface: &Surface, tack: &Tack) -> Option<(f64, [Span; 2])> {
    let [from, to] = tack.ends.as_slice() else { return None };
    let [first, second] = [from, to].map(|end| places(garment, size, end));
    let mut least: Option<f64> = None;
    for &(part, at) in &first {
        let own = Half::all(size, surface, part);
        for &(other, there) in second.iter().filter(|(other, _)| *other != part) {
            let others = Half::all(size, surface, other);
            let pairs = own.iter().flat_map(|half| others.iter().map(move |other| (half, other)));
            for by in pairs.filter_map(|(half, other)| half.apart(at, other, there)) {
                least = Some(least.map_or(by, |known| known.min(by)));
            }
        }
    }
    Some((least?, [from.span, to.span]))
}

/// One half of a face, or all of it, with its places where it is sewn to others.
struct Half {
    face: FaceId,
    at: IdIndexMap<u32, Point>,
}

impl Half {
    /// Of every copy of a part.
    fn all(size: &WorkedSize, surface: &Surface, part: PartId) -> Vec<Half> {
        let mut found = Vec::new();
        for face in surface.face_ids() {
            for mirrored in [false, true] {
                let is_own = |side: &SideId| {
                    let side = surface.side(*side);
                    side.part == part && side.mirrored == mirrored && !side.fold
                };
                let mut at = IdIndexMap::default();
                for side in surface.sides_of(face).filter(is_own) {
                    ends(size, surface, side, &mut at);
                }
                if !at.is_empty() {
                    found.push(Half { face, at });
                }
            }
        }
        found
    }

    /// None where both are sewn together in fewer than two places.
    fn apart(&self, at: Point, other: &Half, there: Point) -> Option<f64> {
        if self.face == other.face {
            return None;
        }
        let shared = self.at.iter().filter_map(|(vertex, own)| Some((own, other.at.get(vertex)?)));
        let (mut most, mut count) = (0.0, 0);
        for (own, others) in shared {
            most = f64::max(most, (own.distance(at) - others.distance(there)).abs());
            count += 1;
        }
        (count > 1).then_some(most)
    }
}

/// The places of a side where others may be sewn to it.
fn ends(size: &WorkedSize, surface: &Surface, id: SideId, found: &mut IdIndexMap<u32, Point>) {
    let side = surface.side(id);
    let drawn =
        size.drawn.paper(size.sewn.part(side.part).part.paper).and_then(|drawn| drawn.edge_at(side.edge));
    let Some(path) = drawn.map(|edge| &edge.path).filter(|_| side.length > 0.0) else { return };
    let place = |along: f64| {
        let share = if side.mirrored { 1.0 - along / side.length } else { along / side.length };
        path.point_at_length(share * path.length())
    };
    for stretch in surface.stretches_on(id).map(|id| surface.stretch(id)) {
        found.insert(stretch.start, place(stretch.from));
        found.insert(stretch.end, place(stretch.to));
    }
}
