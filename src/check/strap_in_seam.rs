//! `strap/wide` and `strap/over-corner` of an end that a seam catches: as much of the seam must lie beside its mark, on both
//! sides, as half of the strap is wide.
//!
//! Where the seam goes on round the corner, on the next piece or over the middle of what is cut on the fold, it has room there; and
//! one that is caught at a corner, which is named, is laid beside that.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, CutHow, Garment, LayerId, SeamId, StrapEnd};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, at_most, catalogue};
use crate::resolve::{CornerName, DrawnEdge, DrawnEdgeId, DrawnPiece, taken};
use crate::sewing::surface::{JoinedBy, StretchId, Surface};
use crate::sewing::{EdgeFate, SewnPart, SewnStrap, TakenBy, strap_place, straps};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::STRAP_WIDE, &catalogue::STRAP_OVER_CORNER], run: Run::PerSize(run) };

/// So much of a strap may lie beyond the end of its seam, in millimetres: the needle goes no truer.
const BEYOND: f64 = 2.0;
/// A place no further from an edge than this is caught with it, in millimetres.
const AT_EDGE: f64 = 1.0;
/// An edge that goes on within this angle of another, as a cosine, goes on: 45 degrees.
const GOES_ON: f64 = 0.707;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    for sewn in straps(garment, &size.drawn).iter().filter(|sewn| sewn.width > 0.0) {
        let mut ends = garment.strap(sewn.strap).runs.iter().flat_map(|run| run.ends());
        findings.extend(ends.find_map(|end| {
            let Some(Catcher::Seam(seam)) = end.caught else { return None };
            Caught::of(garment, size, sewn, end, seam)?.no_room()
        }));
    }
}

/// An end where it lies on the one edge that catches it.
struct Caught<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnStrap,
    end: &'a StrapEnd,
    seam: SeamId,
    drawn: &'a DrawnPiece,
    edge: DrawnEdgeId,
    /// How far along the edge, as sewn, it lies, and between which places of the edge it must lie.
    at: f64,
    between: [f64; 2],
}

impl<'a> Caught<'a> {
    fn of(
        garment: &'a Garment,
        size: &'a WorkedSize,
        sewn: &'a SewnStrap,
        end: &'a StrapEnd,
        seam: SeamId,
    ) -> Option<Caught<'a>> {
        let (drawn, place) = strap_place(garment, &size.drawn, end.point)?;
        let is_there = |edge: &DrawnEdge| edge.path.nearest(place).distance <= AT_EDGE;
        let edges = DrawnEdgeId::enumerate(&drawn.edges);
        let mut own = edges.filter(|(at, edge)| {
            is_there(edge) && fates(size, drawn, *at, end.layer).any(|fate| takes(fate, seam))
        });
        let (edge, found) = own.next()?;
        // In a corner that the seam goes round it is caught by both.
        if own.next().is_some() {
            return None;
        }
        let taken = taken(garment, drawn, edge)?;
        let near = found.path.nearest(place).at;
        let (at, between) = match garment.seam(seam).across_fold {
            // Each of its halves lies on the other: what is beyond the fold is no further room.
            true => {
                let long = found.path.length();
                (near, if near < 0.5 * long { [0.0, 0.5 * long] } else { [0.5 * long, long] })
            }
            // How what is folded lies in a seam of another kind hangs on its fold.
            false if !garment.piece(drawn.piece).folds.is_empty() => return None,
            false => (taken.as_sewn(near), [0.0, taken.sewn()]),
        };
        Some(Caught { garment, size, sewn, end, seam, drawn, edge, at, between })
    }

    fn no_room(&self) -> Option<Finding> {
        let half = 0.5 * self.sewn.width;
        let [from, to] = self.between;
        let lacking = |at_end: bool| half - if at_end { to - self.at } else { self.at - from };
        let ends = [false, true].map(|at_end| {
            let by = lacking(at_end);
            (by > BEYOND && !self.goes_on(at_end)).then_some((by, at_end))
        });
        let is_closed = || !self.edge_goes_on(false) && !self.edge_goes_on(true);
        if self.sewn.width > to - from + BEYOND && is_closed() {
            return Some(self.too_wide(to - from));
        }
        // Whoever names the corner lays the strap's edge there.
        if self.is_corner() {
            return None;
        }
        ends.into_iter()
            .flatten()
            .max_by(|one, other| one.0.total_cmp(&other.0))
            .map(|(by, at_end)| self.over_corner(by, at_end))
    }

    fn is_corner(&self) -> bool {
        let is_it = |edge: &DrawnEdge| matches!(edge.corner, CornerName::Named(corner) if self.garment.is_point_of(corner, self.end.point));
        !self.garment.is_placed_point(self.end.point) && self.drawn.edges.iter().any(is_it)
    }

    /// Whether beyond that end of the edge something catches the strap as well.
    fn goes_on(&self, at_end: bool) -> bool {
        self.edge_goes_on(at_end) || self.is_caught_beyond(at_end)
    }

    /// Whether the edge is folded there, so that beyond it lies the other half of the very same edge.
    fn is_fold(&self, at_end: bool) -> bool {
        self.garment.seam(self.seam).across_fold && at_end == (self.between[0] <= 0.0)
    }

    fn beside(&self, at_end: bool) -> DrawnEdgeId {
        if at_end { self.drawn.after(self.edge) } else { self.drawn.before(self.edge) }
    }

    /// Whether beyond that end of the edge the same seam goes on, or the edge itself in another seam.
    fn edge_goes_on(&self, at_end: bool) -> bool {
        let drawn = self.drawn;
        if self.is_fold(at_end) {
            return false;
        }
        let beside = self.beside(at_end);
        let (Some(own), Some(next)) = (drawn.edge_at(self.edge), drawn.edge_at(beside)) else { return true };
        if matches!(drawn.cut, CutHow::OnFold(fold) if next.edge == fold) {
            return true;
        }
        let mut fates_beside = fates(self.size, drawn, beside, self.end.layer).peekable();
        if fates_beside.peek().is_none() {
            return true;
        }
        let is_sewn = |fate: &EdgeFate| {
            takes(fate, self.seam)
                || runs_on(own, next, at_end)
                    && fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..)))
        };
        fates_beside.any(is_sewn) || self.seam_goes_on(at_end)
    }

    /// Whether in the seam another edge follows there.
    fn seam_goes_on(&self, at_end: bool) -> bool {
        let sewn = self.size.sewn.seams.iter().filter(|sewn| sewn.seam == self.seam);
        let mut plies = sewn.flat_map(|sewn| {
            let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
            plies.map(|ply| (sewn.ring, ply))
        });
        plies.any(|(ring, ply)| {
            let last = ply.runs.len().saturating_sub(1);
            ply.runs.iter().enumerate().any(|(nth, run)| {
                let paper = self.size.drawn.paper(self.size.sewn.part(run.part).part.paper);
                let is_own =
                    run.edge == self.edge && paper.is_some_and(|paper| std::ptr::eq(paper, self.drawn));
                let is_inner = if at_end != run.reversed { nth < last } else { nth > 0 };
                is_own && (ring || is_inner)
            })
        })
    }

    /// Whether what is sewn on round the corner is caught there by a seam of its own, as the next panel is in the next facing.
    fn is_caught_beyond(&self, at_end: bool) -> bool {
        if self.garment.seam(self.seam).across_fold {
            return false;
        }
        let beside = self.beside(at_end);
        let Some(surface) = &self.size.sewn.surface else { return true };
        surface.face_ids().any(|face| {
            let own = surface.face(face);
            let paper = self.size.drawn.paper(self.size.sewn.part(own.part).part.paper);
            let is_own = paper.is_some_and(|paper| std::ptr::eq(paper, self.drawn))
                && self.end.layer.is_none_or(|layer| layer == own.layer);
            let mut sides = surface.sides_of(face).filter(|&side| surface.side(side).edge == beside);
            is_own
                && sides.any(|side| {
                    // The ring goes along what lies beyond the fold against its drawing.
                    let at_its_end = at_end == surface.side(side).mirrored;
                    let mut all = surface.stretches_on(side);
                    let own = if at_its_end { all.last() } else { all.next() };
                    own.is_some_and(|own| is_caught_beside(surface, own, at_its_end))
                })
        })
    }

    fn finding(&self, by: f64, mistake: Diagnostic) -> Finding {
        let strap = self.garment.strap(self.sewn.strap);
        Finding::new(self.size.id(), by, mistake).about(&*strap.name)
    }

    fn edge_words(&self) -> Option<String> {
        Some(words::edge(self.garment, self.drawn.edge_at(self.edge)?.edge))
    }

    fn too_wide(&self, room: f64) -> Finding {
        let (garment, unit) = (self.garment, self.garment.unit);
        let strap = garment.strap(self.sewn.strap);
        let edge = self.edge_words().unwrap_or_default();
        let (wide, long) = (amount(self.sewn.width, unit), amount(room, unit));
        let title = match garment.seam(self.seam).across_fold {
            true => format!(
                "{} is {wide} wide, and {edge}, which catches it, is {long} long once it is folded",
                strap.name
            ),
            false => format!("{} is {wide} wide, and {edge}, which catches it, is {long} long", strap.name),
        };
        let mistake = Diagnostic::new(&catalogue::STRAP_WIDE, self.end.span, Title::new(title).in_sizes())
            .label(format!("{long} of the seam are there"))
            .also(strap.width.span, wide.clone())
            .help(format!(
                "look at its width and its unit; make it {} wide or less, or catch it in a longer edge",
                at_most(room, unit)
            ));
        self.finding(self.sewn.width - room, mistake).figure("wide", wide)
    }

    fn over_corner(&self, by: f64, at_end: bool) -> Finding {
        let (garment, unit) = (self.garment, self.garment.unit);
        let strap = garment.strap(self.sewn.strap);
        let edge = self.edge_words().unwrap_or_default();
        let (beyond, end) = (amount(by, unit), if self.is_fold(at_end) { "fold" } else { "end" });
        let title = Title::new(format!(
            "{beyond} of {} lies beyond the {end} of {edge}, which catches it",
            strap.name
        ));
        let advice = Diagnostic::new(&catalogue::STRAP_OVER_CORNER, self.end.span, title.in_sizes())
            .label("its middle lies here")
            .also(strap.width.span, format!("{} wide", amount(self.sewn.width, unit)))
            .help(format!(
                "move its place at least {} along {edge}, away from that {end}, or make it narrower: what lies beyond it is held by \
                 nothing, and in the way of what is sewn there",
                at_least(by, unit)
            ));
        self.finding(by, advice).figure("beyond", beyond)
    }
}

/// What becomes of an edge of a paper on the parts that are cut from it, in the one layer that is said.
fn fates<'a>(
    size: &'a WorkedSize,
    drawn: &'a DrawnPiece,
    edge: DrawnEdgeId,
    layer: Option<LayerId>,
) -> impl Iterator<Item = &'a EdgeFate> {
    let is_own = move |part: &&SewnPart| {
        let paper = size.drawn.paper(part.part.paper);
        !part.fused
            && paper.is_some_and(|paper| std::ptr::eq(paper, drawn))
            && layer.is_none_or(|layer| layer == part.part.layer)
    };
    size.sewn.parts.iter().filter(is_own).filter_map(move |part| part.fate(edge))
}

fn takes(fate: &EdgeFate, by: SeamId) -> bool {
    fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(seam, _) if seam == by))
}

/// Whether an edge goes on into the one beside it without a corner.
fn runs_on(own: &DrawnEdge, next: &DrawnEdge, at_end: bool) -> bool {
    let (before, after) = if at_end { (own, next) } else { (next, own) };
    let ways = before.path.tangent_at_end().zip(after.path.tangent_at_start());
    ways.is_none_or(|(one, other)| one.normalize().dot(other.normalize()) >= GOES_ON)
}

/// Whether on the face that is joined to a stretch, in its layer, the edge round that corner is sewn.
fn is_caught_beside(surface: &Surface, own: StretchId, at_end: bool) -> bool {
    let stretch = surface.stretch(own);
    let corner = if at_end { stretch.end } else { stretch.start };
    let layer = surface.face(stretch.face).layer;
    let plies = stretch.join.map(|join| &surface.join(join).plies);
    let mut others = plies
        .into_iter()
        .flatten()
        .map(|ply| ply.stretch)
        .filter(|&other| other != own && surface.face(surface.face_of(other)).layer == layer);
    others.any(|other| {
        let there = surface.stretch(other);
        let beside = if there.end == corner { surface.next(other) } else { surface.before(other) };
        let join = surface.stretch(beside).join.map(|join| surface.join(join).by);
        surface.stretch(beside).side != there.side && matches!(join, Some(JoinedBy::Seam { .. }))
    })
}
