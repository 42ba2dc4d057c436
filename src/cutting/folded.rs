//! `hem/corner`: the end of a hem that comes out beside the piece when it is turned.

use super::allowed::Allowed;
use super::corner::GOES_ON;
use super::line::CutRun;
use super::part_line::ask_of_allowed;
use crate::few::Few;
use crate::garment::{Garment, SizeId};
use crate::kept::{Question, SizeMemory};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{SewnPart, TakenBy};
use crate::shape::outline::Region;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use kurbo::{Point, Vec2};
use std::sync::Arc;

/// What comes out by no more than this, in millimetres, is trimmed without a word: the width of a
/// seam's tolerance where nothing is said.
const TRIMMED: f64 = 2.0;
/// So many widths of the hem from its corner the side's own line is looked at.
const NEAR: f64 = 4.0;
/// Chords of the cutting line lie within this of it, in millimetres.
const CLOSE: f64 = 0.2;

/// A hem's end at a corner.
#[derive(Clone, Copy, Debug)]
pub(crate) struct End {
    /// The hem.
    hem: DrawnEdgeId,
    /// What it ends at.
    beside: DrawnEdgeId,
    /// How far it comes out.
    by: f64,
}

/// What comes out of the piece when its hems are turned, one message a corner.
pub(super) fn findings(
    garment: &Garment,
    size: SizeId,
    sewn: &SewnPart,
    drawn: &Arc<DrawnPiece>,
    allowed: &[Allowed],
    line: &Arc<[CutRun]>,
    memory: Option<&SizeMemory>,
) -> Vec<Finding> {
    if allowed.iter().all(|one| !one.turned_up || one.width <= 0.0) || sewn.fused {
        return Vec::new();
    }
    let found = remembered(drawn, allowed, line, memory);
    found.iter().filter_map(|end| finding(garment, size, sewn, drawn, end)).collect()
}

/// The ends that come out, where they are not known from before. Slits make rings of edges, which are not asked for.
fn remembered(
    drawn: &Arc<DrawnPiece>,
    allowed: &[Allowed],
    line: &Arc<[CutRun]>,
    memory: Option<&SizeMemory>,
) -> Arc<[End]> {
    let Some(memory) = memory.filter(|_| drawn.opened.is_none()) else {
        return ends(drawn, allowed, line).into();
    };
    // The very same cutting line is that of the same allowances.
    let things = (drawn.clone(), line.clone());
    memory.hem_ends_of.ask(&things, Question::default(), || remembered_alike(drawn, allowed, line, memory))
}

/// The same by what the outline and the line look like.
fn remembered_alike(
    drawn: &DrawnPiece,
    allowed: &[Allowed],
    line: &[CutRun],
    memory: &SizeMemory,
) -> Arc<[End]> {
    let mut question = Question::default();
    question.paths(drawn.edges.iter().map(|edge| &edge.path));
    ask_of_allowed(&mut question, allowed);
    question.count(line.len());
    for CutRun { path, along } in line {
        question.count(along.map_or(0, |edge| 1 + edge.index()));
        question.path(path);
    }
    memory.hem_ends.ask(&question, || ends(drawn, allowed, line).into())
}

fn ends(drawn: &DrawnPiece, allowed: &[Allowed], line: &[CutRun]) -> Vec<End> {
    let ring: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
    let region = Region::of(&ring);
    let mut found = Vec::new();
    let run_of = |edge: DrawnEdgeId| line.iter().position(|run| run.along == Some(edge));
    for (before, first) in DrawnEdgeId::enumerate(&drawn.edges).filter(|_| drawn.edges.len() > 1) {
        let after = drawn.after(before);
        let turned = |edge: DrawnEdgeId| {
            allowed
                .get(edge.index())
                .filter(|one| one.turned_up && one.width > 0.0)
                .map(|one| one.turned_again().collect::<Few<f64>>())
        };
        let (hem, beside, again) = match (turned(before), turned(after)) {
            (Some(again), None) => (before, after, again),
            (None, Some(again)) => (after, before, again),
            _ => continue,
        };
        let Some(second) = drawn.edge_at(after) else { continue };
        let (Some(arriving), Some(leaving)) = (first.path.tangent_at_end(), second.path.tangent_at_start())
        else {
            continue;
        };
        if arriving.dot(leaving) >= GOES_ON {
            continue;
        }
        let along = if hem == before { arriving } else { leaving };
        let (Some(hem_run), Some(side_run)) = (run_of(hem), run_of(beside)) else { continue };
        let (Some(hem_line), Some(side_line)) = (line.get(hem_run), line.get(side_run)) else { continue };
        let corner = second.path.start();
        let (hem_line, side_line) = (&hem_line.path, &side_line.path);
        let hem_end = if hem == before { hem_line.end() } else { hem_line.start() };
        let fold = Fold::at(corner, along, hem_end, again);
        // The end of the hem: what runs across to it, and what of the side goes on beyond the fold.
        let across =
            line.get((run_of(before).unwrap_or(0) + 1) % line.len()).filter(|run| run.along.is_none());
        let near = NEAR * allowed.get(hem.index()).map_or(0.0, |one| one.width);
        let mut end: Vec<Point> = across.map_or(Vec::new(), |run| run.path.flatten(CLOSE));
        end.extend(side_line.flatten(CLOSE).into_iter().filter(|point| corner.distance(*point) <= near));
        end.push(hem_end);
        // What comes out at the far end of the side is too deep a hem, and is reported as that.
        let past_side = |point: Point| {
            let to = |path: &Path| path.nearest(point).distance;
            let others = line.iter().filter(|run| run.along != Some(beside)).map(|run| to(&run.path));
            let side = to(side_line);
            let is_nearest = others.fold(f64::INFINITY, f64::min) > side + SAME_POINT;
            if is_nearest { side } else { 0.0 }
        };
        let turned = end.into_iter().map(|point| fold.turned(point));
        let out = turned.map(|point| if region.contains(point) { 0.0 } else { past_side(point) });
        let by = out.fold(0.0, f64::max);
        if by.is_finite() && by > TRIMMED {
            found.push(End { hem, beside, by });
        }
    }
    found
}

/// The lines on which a hem is turned: along its edge, and beside it wherever it is turned again.
struct Fold {
    at: Point,
    out: Vec2,
    again: Few<f64>,
}

impl Fold {
    /// At a corner, along the hem, whose raw edge ends there at `end`.
    fn at(at: Point, along: Vec2, end: Point, again: Few<f64>) -> Fold {
        let left = along.turn_90();
        Fold { at, out: if left.dot(end - at) >= 0.0 { left } else { -left }, again }
    }

    /// Where a place of the allowance comes to lie.
    fn turned(&self, point: Point) -> Point {
        let beyond = self.out.dot(point - self.at);
        if beyond <= 0.0 {
            return point;
        }
        // Up on the piece, and at each further line the other way.
        let (mut up, mut from, mut way) = (0.0, 0.0, 1.0);
        for &line in self.again.iter().filter(|line| beyond > **line) {
            up += way * (line - from);
            (from, way) = (line, -way);
        }
        up += way * (beyond - from);
        point - self.out * (beyond + up)
    }
}

fn finding(
    garment: &Garment,
    size: SizeId,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
    end: &End,
) -> Option<Finding> {
    let (hem, beside) = (drawn.edge_at(end.hem)?.edge, drawn.edge_at(end.beside)?.edge);
    let piece = garment.piece(sewn.part.piece);
    let corner = piece.corners.iter().find(|corner| {
        let pair = (corner.first, corner.second);
        pair == (hem, beside) || pair == (beside, hem)
    });
    let finish = sewn.fate(end.hem)?.takers.iter().find_map(|taker| match taker.what {
        TakenBy::Finish(id) => Some(garment.finish(id)),
        _ => None,
    })?;
    let by = amount(end.by, garment.unit);
    let (hem_name, beside_name) = (&garment.edge(hem).name, &garment.edge(beside).name);
    let title = Title::new(format!(
        "turned in, the end of the hem of {hem_name} sticks out past {beside_name} of {} by {by}",
        piece.title
    ))
    .in_sizes();
    let warning = match corner {
        Some(corner) => Diagnostic::new(&catalogue::HEM_CORNER, corner.span, title)
            .label("cut like this")
            .also(finish.kind_span, "turned here")
            .help("leave the corner out: then each end of the hem is cut as the mirror image of what it will lie on"),
        None => Diagnostic::new(&catalogue::HEM_CORNER, finish.kind_span, title)
            .label("turned here")
            .also(garment.edge(beside).span, "it sticks out here")
            .help("let the edges meet at a blunter corner, or bind or face the edge"),
    };
    let subject = garment.part_name(Some(sewn.part.layer), sewn.part.piece);
    Some(Finding::new(size, end.by, warning).about(format!("{subject} {hem_name} {beside_name}")))
}
