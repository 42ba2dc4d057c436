//! What geometry words measure on drawn pieces.

use super::drawn_piece::{DrawnEdge, DrawnLine, DrawnPiece};
use super::model::{DrawnEdgeId, Why};
use super::sketch::Sketch;
use super::take_ups::side_of;
use super::work::Work;
use crate::garment::{CutHow, EdgeId, EdgeUse, Garment, Geometry, Moment, PaperUse, PointId, PointUse};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Title, catalogue};
use crate::shape::path::Path;
use crate::shape::taken::{self, Taken};
use crate::shape::{Point, Rect, fold};
use std::sync::Arc;

/// The length of an edge of a drawn piece as sewn, in millimetres: without what take-ups take, and an
/// edge that runs from one folded edge to the other counts half, once for each such fold. None if there is no such edge.
pub fn finished(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> Option<f64> {
    Some(taken(garment, drawn, edge)?.sewn())
}

/// The map between an edge as drawn and as sewn: what take-ups take out of it, and what folds halve. None
/// if there is no such edge.
pub fn taken(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> Option<Taken> {
    Some(taken_of(garment, drawn, drawn.edge_at(edge)?))
}

/// The length of a line of a drawn piece as sewn: without what lies in the cloth of darts.
pub fn finished_line(garment: &Garment, drawn: &DrawnPiece, line: &DrawnLine) -> f64 {
    as_sewn(garment, drawn, line.edge, &line.path)
}

fn taken_of(garment: &Garment, drawn: &DrawnPiece, edge: &DrawnEdge) -> Taken {
    let stretches = drawn.taken_from(edge).into_iter().map(|(_, mouth)| (mouth.from, mouth.to));
    let windows = drawn.slits_on(edge).into_iter().map(|(_, mouth)| (mouth.from, mouth.to));
    let stretches = stretches.chain(windows);
    let share = share_left(garment, drawn, edge.edge) * drawn.share_eased(garment, edge.edge);
    Taken::new(edge.path.length(), stretches, share)
}

/// The length of an edge or a line of a drawn piece as sewn. A line loses what lies in the cloth of darts.
fn as_sewn(garment: &Garment, drawn: &DrawnPiece, id: EdgeId, path: &Path) -> f64 {
    let own = drawn.edges.iter().find(|edge| edge.edge == id && edge.path.start() == path.start());
    if let Some(edge) = own {
        return taken_of(garment, drawn, edge).sewn();
    }
    let stretches = drawn.take_ups.iter().flat_map(|take_up| taken::inside(path, &take_up.corners()));
    Taken::new(path.length(), stretches, share_left(garment, drawn, id)).sewn()
}

/// On a ring without its two folded edges every other edge lies between them.
fn share_left(garment: &Garment, drawn: &DrawnPiece, edge: EdgeId) -> f64 {
    let mut share = 1.0;
    for over in &garment.piece(drawn.piece).folds {
        let is = |of: EdgeId| garment.is_run_of(edge, of) || garment.is_run_of(of, edge);
        let there = |of: EdgeId| {
            drawn.edges.iter().any(|e| garment.is_run_of(e.edge, of) || garment.is_run_of(of, e.edge))
        };
        if there(over.edge) && there(over.onto) && !is(over.edge) && !is(over.onto) {
            share *= over.share_left();
        }
    }
    share
}

/// The sides of slits that are not cut yet, and their ends.
fn slit_sides(garment: &Garment, drawn: &DrawnPiece) -> Vec<(EdgeId, Path)> {
    let mut sides = Vec::new();
    for slit in &drawn.slits {
        let (near, far) = (slit.near, 1 - slit.near);
        let ways = [
            ("near", slit.sides[near], slit.ends[near]),
            ("far", slit.sides[far], slit.ends[far]),
            ("end", slit.ends[0], slit.ends[1]),
            ("start", slit.sides[0], slit.sides[1]),
        ];
        for (side, from, to) in ways {
            if let Some(edge) = side_of(garment, slit.name, side).filter(|_| from != to) {
                sides.push((edge, Path::straight(from, to)));
            }
        }
    }
    sides
}

/// The smallest upright rectangle round the piece opened out: a half on the fold with its mirror
/// image. None of a piece without edges.
pub fn extents(drawn: &DrawnPiece) -> Option<Rect> {
    let mut whole = extents_of(drawn.edges.iter().map(|edge| &edge.path))?;
    if let CutHow::OnFold(fold_edge) = drawn.cut
        && let Some(edge) = drawn.edge(fold_edge)
        && let Ok(mirror) = fold::mirror_across(&edge.path)
    {
        for edge in &drawn.edges {
            whole = whole.union(edge.path.transform(mirror).bounding_box());
        }
    }
    Some(whole)
}

fn extents_of<'p>(paths: impl Iterator<Item = &'p Path>) -> Option<Rect> {
    paths.map(Path::bounding_box).reduce(|whole, own| whole.union(own))
}

/// How many times an edge of the piece is there once all copies are opened out.
fn times_cut(drawn: &DrawnPiece) -> f64 {
    match drawn.cut {
        CutHow::OnFold(_) => 2.0 * f64::from(drawn.count),
        CutHow::Alike | CutHow::Mirrored => f64::from(drawn.count),
    }
}

impl Work<'_> {
    /// What a geometry word comes to, in millimetres.
    pub(super) fn measured(&self, geometry: &Geometry, sketch: Option<&Sketch>) -> Option<f64> {
        match geometry {
            Geometry::Length(dart) if self.garment.edge(dart.edge).take_up => self.dart_length(dart),
            Geometry::Length(edge) => self.edge_sum(edge, sketch, |_, _, path| path.length()),
            Geometry::Finished(edge) => self.edge_sum(edge, sketch, |drawn, id, path| {
                drawn.map_or_else(|| path.length(), |drawn| as_sewn(self.garment, drawn, id, path))
            }),
            Geometry::Total(uses) => {
                let each = uses.iter().map(|(added, edge)| {
                    let whole = self.edge_sum(edge, sketch, |drawn, id, path| match drawn {
                        Some(drawn) => as_sewn(self.garment, drawn, id, path) * times_cut(drawn),
                        None => path.length(),
                    });
                    whole.map(|whole| if *added { whole } else { -whole })
                });
                each.sum()
            }
            Geometry::Width(paper) => self.opened(paper, sketch).map(|whole| whole.width()),
            Geometry::Height(paper) => self.opened(paper, sketch).map(|whole| whole.height()),
            Geometry::X(place) => self.place(place, sketch).map(|point| point.x),
            Geometry::Y(place) => self.place(place, sketch).map(|point| point.y),
            Geometry::Distance(first, second) => {
                let (first, second) = (self.place(first, sketch), self.place(second, sketch));
                Some((first? - second?).hypot())
            }
        }
    }

    /// Where a point is.
    pub(super) fn point(&self, wanted: &PointUse, sketch: Option<&Sketch>) -> Option<Point> {
        if wanted.paper.moment == Moment::Own {
            return sketch?.spot(wanted.point);
        }
        let papers = self.at(wanted.paper.paper, wanted.paper.moment)?;
        let found = papers.iter().flat_map(|drawn| &drawn.spots);
        let mut found = found.filter(|spot| self.garment.is_point_of(spot.point, wanted.point));
        if let Some(spot) = found.next() {
            return Some(spot.at);
        }
        if papers.iter().any(|drawn| self.point_is_reported(drawn, wanted.point)) {
            self.inherit::<()>(None);
        } else {
            let point = self.garment.point(wanted.point);
            let gone = papers.iter().flat_map(|drawn| &drawn.missing.points);
            let mut by =
                gone.filter(|(id, _)| self.garment.is_point_of(*id, wanted.point)).map(|(_, why)| *why);
            self.report_gone(&catalogue::POINT_GONE, &point.name, wanted.paper, by.next_back());
        }
        None
    }

    /// How far a dart is sewn: its longer leg, or of one inside the piece its longer side from end to end; a pleat that
    /// hangs open not at all.
    fn dart_length(&self, wanted: &EdgeUse) -> Option<f64> {
        let papers = self.at(wanted.paper.paper, wanted.paper.moment)?;
        let darts = papers.iter().flat_map(|drawn| &drawn.take_ups);
        let mut own = darts.filter(|dart| self.garment.is_run_of(dart.name, wanted.edge));
        let Some(dart) = own.next() else {
            self.report_gone_edge(wanted, &papers);
            return None;
        };
        if dart.pleat.is_some() {
            let [one, other] = dart.leg_lengths();
            return Some(one.max(other));
        }
        let leg = |side: usize| -> f64 {
            let from = dart.wedge.sides.get(side).copied().unwrap_or_default();
            std::iter::once(dart.wedge.point).chain(dart.upper).map(|end| from.distance(end)).sum()
        };
        Some(leg(0).max(leg(1)))
    }

    /// Adds up something over the runs of an edge, or of a line.
    fn edge_sum(
        &self,
        wanted: &EdgeUse,
        sketch: Option<&Sketch>,
        each: impl Fn(Option<&DrawnPiece>, EdgeId, &Path) -> f64,
    ) -> Option<f64> {
        let is_side = self.garment.edge(wanted.edge).side_of.is_some();
        if wanted.paper.moment == Moment::Own {
            let sketch = sketch?;
            if is_side {
                let drawn = sketch.drawn.as_ref()?;
                let found = slit_sides(self.garment, drawn).into_iter().find(|(id, _)| *id == wanted.edge);
                return self.inherit(found).map(|(id, path)| each(None, id, &path));
            }
            let path = sketch.path(wanted.edge)?;
            return Some(each(sketch.drawn.as_ref(), wanted.edge, path));
        }
        let papers = self.at(wanted.paper.paper, wanted.paper.moment)?;
        let is_line = self.garment.edge(wanted.edge).line;
        let (mut sum, mut found) = (0.0, false);
        for drawn in &papers {
            let edges = drawn.edges.iter().map(|edge| (edge.edge, &edge.path));
            let lines = drawn.lines.iter().map(|line| (line.edge, &line.path)).filter(|_| is_line);
            for (id, path) in edges.chain(lines) {
                if self.garment.is_run_of(id, wanted.edge) {
                    sum += each(Some(drawn.as_ref()), id, path);
                    found = true;
                }
            }
            let sides = if is_side { slit_sides(self.garment, drawn) } else { Vec::new() };
            for (id, path) in &sides {
                if self.garment.is_run_of(*id, wanted.edge) {
                    sum += each(Some(drawn.as_ref()), *id, path);
                    found = true;
                }
            }
        }
        if found {
            return Some(sum);
        }
        self.report_gone_edge(wanted, &papers);
        None
    }

    /// Reports that a paper has not an edge or line, unless that was reported.
    pub(super) fn report_gone_edge(&self, wanted: &EdgeUse, papers: &[&Arc<DrawnPiece>]) {
        if papers.iter().any(|drawn| self.edge_is_reported(drawn, wanted.edge)) {
            self.inherit::<()>(None);
            return;
        }
        let by = papers.iter().filter_map(|drawn| self.why_missing(drawn, wanted.edge)).last();
        self.report_gone(&catalogue::EDGE_GONE, &self.garment.edge(wanted.edge).name, wanted.paper, by);
    }

    /// Why a drawn piece has not that edge or line, where that is known.
    pub(super) fn why_missing(&self, drawn: &DrawnPiece, edge: EdgeId) -> Option<Why> {
        let gone = drawn.missing.edges.iter();
        gone.filter(|(id, _)| self.garment.is_run_of(*id, edge)).map(|(_, why)| *why).next_back()
    }

    /// Whether it was reported already that the edge or line could not be drawn.
    pub(super) fn edge_is_reported(&self, drawn: &DrawnPiece, edge: EdgeId) -> bool {
        self.why_missing(drawn, edge) == Some(Why::Reported)
    }

    fn point_is_reported(&self, drawn: &DrawnPiece, point: PointId) -> bool {
        let mut missing = drawn.missing.points.iter();
        missing.any(|(id, why)| *why == Why::Reported && self.garment.is_point_of(*id, point))
    }

    fn is_called(&self, edge: EdgeId, name: &str) -> bool {
        &*self.garment.edge(edge).name == name
    }

    fn report_gone(&self, kind: &'static Entry, name: &str, paper: PaperUse, why: Option<Why>) {
        self.mistake(1.0, name, || {
            let piece = self.garment.paper(paper.paper).piece;
            let title = Title::new(format!("{} has no {name}", self.title(piece))).in_sizes();
            let message = Diagnostic::new(kind, paper.span, title);
            match why {
                Some(Why::By(alteration)) => {
                    let by = self.garment.alteration(alteration);
                    message.label("named here").also(by.span, format!("{name} is removed here")).help(
                        if *kind == catalogue::POINT_GONE {
                            "name a point that is still there"
                        } else {
                            "name an edge that is still there"
                        },
                    )
                }
                _ => match self
                    .garment
                    .piece(piece)
                    .drawing
                    .divides
                    .iter()
                    .find(|one| self.is_called(one.edge, name))
                {
                    Some(divide) => {
                        let (first, second) =
                            (&self.garment.edge(divide.into.0).name, &self.garment.edge(divide.into.1).name);
                        message
                            .label("named here")
                            .also(divide.span, format!("divided here into {first} and {second}"))
                            .help(format!("name {first} or {second}, or add up the two"))
                    }
                    None => message.help("name what the piece really has in this size"),
                },
            }
        });
    }

    fn opened(&self, wanted: &PaperUse, sketch: Option<&Sketch>) -> Option<Rect> {
        if wanted.moment == Moment::Own {
            let sketch = sketch?;
            return match &sketch.drawn {
                Some(drawn) => extents(drawn),
                None => extents_of(sketch.paths()),
            };
        }
        let papers = self.at(wanted.paper, wanted.moment)?;
        let each = papers.iter().map(|drawn| extents(drawn));
        each.reduce(|whole, own| Some(whole?.union(own?))).flatten()
    }
}
