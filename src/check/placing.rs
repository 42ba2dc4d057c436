//! `place/outside`, `place/below-hem`, `place/over-line` and `fold/uncut`: what is placed must lie
//! on what it is placed on.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    AlterationId, CutHow, EdgeId, FinishKind, FoldFate, Garment, LayerId, PaperId, Placement, Target,
};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnPiece, PlacedPiece, SizedGarment};
use crate::sewing::as_it_lies;
use crate::shape::outline::Region;
use crate::shape::path::Path;
use crate::shape::{Point, fold, outline};
use crate::source::Span;
use kurbo::Rect;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::PLACE_OUTSIDE,
        &catalogue::PLACE_BELOW_HEM,
        &catalogue::PLACE_OVER_LINE,
        &catalogue::FOLD_UNCUT,
    ],
    run: Run::PerSize(run),
};

/// Past an edge by no more than this, in millimetres, is on it, also where the garment tolerates less.
const ON_EDGE: f64 = 0.5;
/// Places along the placed piece are looked at so far apart, in millimetres.
const APART: f64 = 5.0;
/// The most places that are looked at on one edge.
const MOST_PLACES: usize = 400;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
        let Some(placed) = placed.as_ref().filter(|_| !placement.poisoned) else { continue };
        let Some(host) = sized.paper(placed.on) else { continue };
        let look = Look { garment, sized, placement, placed, host };
        look.at_all_sides(findings);
    }
}

/// One placement in one size.
struct Look<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    placement: &'a Placement,
    placed: &'a PlacedPiece,
    host: &'a DrawnPiece,
}

/// What kind of edge something reaches over.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Opened(AlterationId),
    Split(AlterationId),
    Hem,
    Other,
}

/// How far something reaches over an edge.
#[derive(Clone, Copy)]
struct Over {
    edge: EdgeId,
    kind: Kind,
    by: f64,
}

impl Look<'_> {
    /// Whether it is sewn on by one edge alone, as a tie is, and hangs as low as it is long.
    fn hangs(&self) -> bool {
        let placement = self.placement;
        let is_down = !placement.topstitched.is_empty() || placement.all_round.is_some();
        !is_down && placement.caught.len() == 1
    }

    fn at_all_sides(&self, findings: &mut Vec<Finding>) {
        let ring: Vec<Path> = self.host.edges.iter().map(|edge| edge.path.clone()).collect();
        let Some(bounds) = outline::extents(&ring) else { return };
        // Of a half on the fold, the other half is there too.
        let mut halves = vec![ring];
        if let CutHow::OnFold(edge) = self.host.cut
            && let Some(mirror) = self.host.edge(edge).and_then(|edge| fold::mirror_across(&edge.path).ok())
        {
            let other = self.host.edges.iter().map(|edge| edge.path.transform(mirror)).collect();
            halves.push(other);
        }
        let regions: Vec<Region> = halves.iter().map(|ring| Region::of(ring)).collect();
        let lowest = self.lowest();
        let on_edge = ON_EDGE.max(self.garment.tolerance);
        let mut by_edge: Vec<(EdgeId, f64)> = Vec::new();
        for point in self.points(&halves, &regions) {
            if regions.iter().any(|region| region.contains(point)) {
                continue;
            }
            let below = bounds.y0 - point.y;
            let found = match lowest {
                Some(edge) if below > ON_EDGE => Some((edge, below)),
                _ => self.nearest(&halves, point),
            };
            let Some((edge, by)) = found.filter(|(_, by)| *by > on_edge && by.is_finite()) else { continue };
            // What lies over a slit is told so.
            if self.garment.edge(edge).side_of.is_some() {
                continue;
            }
            match by_edge.iter_mut().find(|(one, _)| *one == edge) {
                Some((_, most)) => *most = most.max(by),
                None => by_edge.push((edge, by)),
            }
        }
        let mut worst: Vec<Over> = Vec::new();
        for (edge, by) in by_edge {
            let over = Over { edge, kind: self.kind(edge, lowest), by };
            if over.kind == Kind::Hem && self.hangs() {
                continue;
            }
            match worst.iter_mut().find(|one| entry_of(one.kind) == entry_of(over.kind)) {
                Some(one) if one.by < over.by => *one = over,
                Some(_) => {}
                None => worst.push(over),
            }
        }
        for over in worst {
            findings.push(self.finding(over));
        }
    }

    /// Places all along the placed piece; of a half on the fold, along its other half too. Of an edge that begins on what
    /// it is placed on, and is clear of the edges of that, there are none: all of it lies there.
    fn points(&self, halves: &[Vec<Path>], regions: &[Region]) -> Vec<Point> {
        let lying = as_it_lies(self.garment, self.sized, self.placement, self.placed);
        let mut paths: Vec<Path> = lying.iter().map(|lies| lies.path.clone()).collect();
        if let Some(edge) = self.own_fold()
            && let Some(fold) = lying.iter().find(|lies| lies.edge == edge)
            && let Ok(mirror) = fold::mirror_across(&fold.path)
        {
            let other: Vec<Path> = paths.iter().map(|path| path.transform(mirror)).collect();
            paths.extend(other);
        }
        let hulls: Vec<Vec<Rect>> =
            halves.iter().map(|half| half.iter().map(|edge| edge.hull().inset(ON_EDGE)).collect()).collect();
        let lies_there = |path: &Path| {
            let hull = path.hull();
            regions.iter().zip(&hulls).any(|(region, edges)| {
                let is_clear = !edges.iter().any(|edge| edge.overlaps(hull));
                is_clear && region.contains(path.start())
            })
        };
        let mut points = Vec::new();
        for path in &paths {
            let length = path.length();
            if !length.is_finite() || lies_there(path) {
                continue;
            }
            let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
            points.extend((0..=count).map(|at| path.point_at_length(length * at as f64 / count as f64)));
        }
        points
    }

    /// The edge on whose fold the placed piece itself is cut.
    fn own_fold(&self) -> Option<EdgeId> {
        let paper = self.garment.paper_of(self.placement.layer, self.placement.piece)?;
        match self.sized.paper(paper)?.cut {
            CutHow::OnFold(edge) => Some(edge),
            _ => None,
        }
    }

    fn nearest(&self, halves: &[Vec<Path>], point: Point) -> Option<(EdgeId, f64)> {
        let fold_edge = match self.host.cut {
            CutHow::OnFold(edge) => Some(edge),
            _ => None,
        };
        let mut best: Option<(EdgeId, f64)> = None;
        for half in halves {
            for (path, drawn) in half.iter().zip(&self.host.edges) {
                let distance = path.nearest(point).distance;
                if Some(drawn.edge) != fold_edge && best.is_none_or(|(_, least)| distance < least) {
                    best = Some((drawn.edge, distance));
                }
            }
        }
        best
    }

    /// The edge that lies lowest: the one whose highest place is lower than any other's.
    fn lowest(&self) -> Option<EdgeId> {
        let top = |path: &Path| path.bounding_box().y1;
        let edges = self.host.edges.iter().filter(|edge| self.garment.edge(edge.edge).side_of.is_none());
        edges.min_by(|a, b| top(&a.path).total_cmp(&top(&b.path))).map(|edge| edge.edge)
    }

    fn kind(&self, edge: EdgeId, lowest: Option<EdgeId>) -> Kind {
        let mut kind = None;
        for (at, alteration) in self.garment.alterations.iter().enumerate() {
            let id = AlterationId::from_index(at);
            let here = |target: &Target| {
                let own = target.layer.is_none() || target.layer == self.layer_of(self.placed.on);
                own && self.garment.is_run_of(edge, target.edge)
            };
            match alteration.form().map_or(FoldFate::Stays, |form| form.fold) {
                FoldFate::Stays => {}
                FoldFate::Opens if alteration.targets.iter().any(here) => kind = Some(Kind::Opened(id)),
                FoldFate::Closes if alteration.targets.iter().any(here) => kind = None,
                FoldFate::Opens | FoldFate::Closes => {}
            }
            let mut cuts = alteration.makes.iter().filter_map(|made| made.cut_edge);
            if cuts.any(|cut| self.garment.is_run_of(edge, cut)) {
                kind = Some(Kind::Split(id));
            }
        }
        kind.unwrap_or_else(|| match self.is_hem(edge) || lowest == Some(edge) {
            true => Kind::Hem,
            false => Kind::Other,
        })
    }

    fn layer_of(&self, paper: PaperId) -> Option<LayerId> {
        self.garment.paper(paper).layer
    }

    fn is_hem(&self, edge: EdgeId) -> bool {
        let hems = self.garment.finishes.iter().filter(|finish| matches!(finish.kind, FinishKind::Hem(_)));
        hems.flat_map(|finish| &finish.edges).any(|sewn| self.garment.is_run_of(edge, sewn.edge))
    }

    fn finding(&self, over: Over) -> Finding {
        let garment = self.garment;
        let (by, least) = (amount(over.by, garment.unit), at_least(over.by, garment.unit));
        let own = words::piece(garment, self.placement.piece);
        let edge = words::edge(garment, over.edge);
        let on = words::piece(garment, self.host.piece);
        let mark = self.placement.corners.first();
        let place: Span = mark.map_or(self.placement.span, |corner| corner.span);
        let finding = |mistake: Diagnostic| {
            let subject = garment.part_name(self.layer_of(self.placed.on), self.placement.piece);
            Finding::new(self.sized.size, over.by, mistake).about(subject)
        };
        let whole_on_fold = self.own_fold();
        if let (Kind::Opened(by_opening), Some(own_fold)) = (over.kind, whole_on_fold) {
            let cut = &garment.piece(self.placement.piece).cut;
            let title =
                Title::new(format!("{own} is cut whole on the fold, and lies across {edge}, which is open"))
                    .in_sizes();
            let own_name = &garment.piece(self.placement.piece).name;
            let mistake = Diagnostic::new(&catalogue::FOLD_UNCUT, self.placement.span, title)
                .label(format!("placed across the opening of {on}"))
                .also(cut.span, "on the fold")
                .also(garment.alteration(by_opening).span, "opened here")
                .help(format!(
                    "open {own_name} at {} too, or place it on one half",
                    garment.edge(own_fold).name
                ));
            return finding(mistake);
        }
        let (title, help) = match over.kind {
            Kind::Opened(_) => (
                Title::new(format!("{own} lies across {edge}, which is open"))
                    .in_sizes()
                    .then(format!(": it reaches {by} over it")),
                format!("move it {least} to one side, or cut it in two"),
            ),
            Kind::Split(_) => (
                Title::new(format!("{own} lies across {edge}, where {on} is cut"))
                    .in_sizes()
                    .then(format!(": it reaches {by} over it")),
                format!("move it {least} to one side, or cut it in two"),
            ),
            Kind::Hem => (
                Title::new(format!("{own} reaches {by} below {edge}")).in_sizes(),
                format!("raise it by {least}, or make it shorter"),
            ),
            Kind::Other => (
                Title::new(format!("{own} reaches {by} past {edge}")).in_sizes(),
                format!("move it in by {least}, or make it smaller"),
            ),
        };
        let mut mistake = Diagnostic::new(entry_of(over.kind), place, title).label(format!("{by} too far"));
        if let Some(corner) = mark {
            mistake = mistake.also(garment.point(corner.at).span, "put here");
        }
        mistake = match over.kind {
            Kind::Opened(id) => mistake.also(garment.alteration(id).span, "opened here"),
            Kind::Split(id) => mistake.also(garment.alteration(id).span, "cut here"),
            Kind::Hem | Kind::Other => mistake.also(garment.edge(over.edge).span, edge),
        };
        let mut keeping = garment.alterations.iter().flat_map(|alteration| &alteration.keeping);
        let kept = keeping.find(|(point, _)| mark.is_some_and(|corner| corner.at == *point));
        if let (Kind::Hem | Kind::Other, Some((_, span))) = (over.kind, kept) {
            mistake = mistake.also(*span, "kept in its place here");
        }
        let moved = self.host.edge(over.edge).and_then(|edge| edge.touched.last());
        if let (Kind::Hem | Kind::Other, Some(&id)) = (over.kind, moved) {
            let alteration = garment.alteration(id);
            mistake = mistake.also(alteration.span, format!("moved by this {}", alteration.verb()));
        }
        finding(mistake.help(help)).figure("too far by", by)
    }
}

fn entry_of(kind: Kind) -> &'static Entry {
    match kind {
        Kind::Opened(_) | Kind::Split(_) => &catalogue::PLACE_OVER_LINE,
        Kind::Hem => &catalogue::PLACE_BELOW_HEM,
        Kind::Other => &catalogue::PLACE_OUTSIDE,
    }
}
