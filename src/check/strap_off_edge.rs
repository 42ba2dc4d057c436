//! `strap/off-edge`: a strap that goes straight along a free edge, with a part of its width beside the cloth, or whose sewn
//! end goes on beyond it.

use super::strap_room::{is_too_wide, whole};
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{SewnStrap, SewnStrapRun, TakenBy, strap_place, straps};
use crate::shape::outline::{Region, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STRAP_OFF_EDGE], run: Run::PerSize(run) };

/// So much of a strap's edge may lie beyond the piece, in millimetres: a fold is no sharper.
const BEYOND: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    for sewn in straps(garment, &size.drawn) {
        if is_too_wide(garment, size, &sewn) {
            continue;
        }
        let mut runs = garment.strap(sewn.strap).runs.iter().zip(&sewn.runs);
        findings.extend(runs.find_map(|(run, own)| {
            let straight = Straight::of(garment, size, &sewn, run, own)?;
            straight.off_edge().or_else(|| straight.ends_beyond())
        }));
    }
}

/// One that has no slack lies straight from the one mark to the other.
struct Straight<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewn: &'a SewnStrap,
    run: &'a StrapRun,
    drawn: &'a DrawnPiece,
    outline: Vec<Path>,
    from: Point,
    to: Point,
}

impl<'a> Straight<'a> {
    fn of(
        garment: &'a Garment,
        size: &'a WorkedSize,
        sewn: &'a SewnStrap,
        run: &'a StrapRun,
        own: &SewnStrapRun,
    ) -> Option<Straight<'a>> {
        let to = run.to.as_ref().filter(|to| to.hand == run.from.hand)?;
        let is_caught = run.ends().any(|end| end.caught.is_some());
        let long = own.across.filter(|across| *across > 0.0)?;
        if is_caught || sewn.width <= 0.0 || own.free < long || own.free - long > sewn.width {
            return None;
        }
        let (drawn, from) = strap_place(garment, &size.drawn, run.from.point)?;
        let (_, to) = strap_place(garment, &size.drawn, to.point)?;
        Some(Straight { garment, size, sewn, run, drawn, outline: whole(drawn)?, from, to })
    }

    fn along(&self) -> Vec2 {
        (self.to - self.from).normalize()
    }

    /// Where a place beside the cloth lies: beside which free edge, and how far.
    fn off(&self, place: Point) -> Option<(EdgeId, f64)> {
        let is_off = !Region::of(&self.outline).contains(place) && !is_on(&self.outline, place, BEYOND);
        is_off.then(|| free_edge(self.size, self.drawn, place)).flatten()
    }

    fn off_edge(&self) -> Option<Finding> {
        let (along, garment) = (self.along(), self.garment);
        let (long, aside) = (self.from.distance(self.to), Vec2::new(-along.y, along.x));
        let side = |sign: f64| {
            let at = |share: f64| self.from + along * (share * long) + aside * (sign * 0.5 * self.sewn.width);
            let edges: Vec<(EdgeId, f64)> =
                [0.0, 0.5, 1.0].into_iter().filter_map(|share| self.off(at(share))).collect();
            // At one end alone it only ends askew there.
            (edges.len() == 3).then(|| {
                edges
                    .into_iter()
                    .fold((None, 0.0), |(named, far), (edge, off)| (named.or(Some(edge)), f64::max(far, off)))
            })
        };
        let (edge, off) = [1.0, -1.0].into_iter().find_map(side)?;
        let (strap, unit) = (garment.strap(self.sewn.strap), garment.unit);
        let (edge, far) = (words::edge(garment, edge?), amount(off, unit));
        let title = Title::new(format!("{} lies {far} beside the cloth, along {edge}", strap.name));
        let mistake = Diagnostic::new(&catalogue::STRAP_OFF_EDGE, self.run.span, title.in_sizes())
            .label("straight from here to there")
            .also(
                strap.width.span,
                format!("{} wide, its marks in the middle", amount(self.sewn.width, unit)),
            )
            .help(format!(
                "move both marks at least {} further in, or catch its ends in the seam that is sewn there",
                at_least(off, unit)
            ));
        Some(self.finding(off, mistake).figure("beside", far))
    }

    /// What is sewn on of it goes on from its mark, away from the other end, or lies with the mark in its middle; whether
    /// either way it ends beyond a free edge.
    fn ends_beyond(&self) -> Option<Finding> {
        let (along, garment) = (self.along(), self.garment);
        let aside = Vec2::new(-along.y, along.x) * (0.5 * self.sewn.width);
        let other = self.run.to.as_ref()?;
        let ends = [(&self.run.from, self.from, along * -1.0), (other, self.to, along)];
        let (end, (edge, off)) = ends.into_iter().find_map(|(end, at, away)| {
            let row = at + away * (0.5 * self.sewn.sewn);
            let corners = [row + aside, row, row + aside * -1.0].map(|place| self.off(place));
            let all: Option<Vec<(EdgeId, f64)>> = corners.into_iter().collect();
            let (edge, least) = all?.into_iter().min_by(|one, other| one.1.total_cmp(&other.1))?;
            Some((end, (edge, least)))
        })?;
        let (strap, unit) = (garment.strap(self.sewn.strap), garment.unit);
        let (edge, far, sewn) = (words::edge(garment, edge), amount(off, unit), amount(self.sewn.sewn, unit));
        let title =
            Title::new(format!("the end of {} that is sewn on goes {far} or more beyond {edge}", strap.name));
        let said = strap.sewn.as_ref().map_or(strap.width.span, |sewn| sewn.span);
        let mistake = Diagnostic::new(&catalogue::STRAP_OFF_EDGE, end.span, title.in_sizes())
            .label("goes on from here, away from its other end")
            .also(said, format!("{sewn} of it are sewn on"))
            .help(format!(
                "a strap that lies straight is sewn on beyond its marks: move this one at least {} further in, or sew less of it on",
                at_least(off, unit)
            ));
        Some(self.finding(off, mistake).figure("beyond", far))
    }

    fn finding(&self, weight: f64, mistake: Diagnostic) -> Finding {
        let point = &self.garment.point(self.run.from.point).name;
        let about = format!("{} {point}", self.garment.strap(self.sewn.strap).name);
        Finding::new(self.size.id(), weight, mistake).about(about)
    }
}

/// The edge of a piece that is nearest to a place, and how far that is; none where a seam joins another piece to it, on
/// which what lies over it goes on.
fn free_edge(size: &WorkedSize, drawn: &DrawnPiece, place: Point) -> Option<(EdgeId, f64)> {
    let edges = DrawnEdgeId::enumerate(&drawn.edges);
    let off = edges.map(|(at, edge)| (at, edge.edge, edge.path.nearest(place).distance));
    let (at, edge, off) = off.min_by(|one, other| one.2.total_cmp(&other.2))?;
    let is_own = |part: &&crate::sewing::SewnPart| {
        size.drawn.paper(part.part.paper).is_some_and(|own| std::ptr::eq(own, drawn))
    };
    let mut fates = size.sewn.parts.iter().filter(is_own).filter_map(|part| part.fate(at));
    let is_sewn = fates.any(|fate| fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))));
    (!is_sewn).then_some((edge, off))
}
