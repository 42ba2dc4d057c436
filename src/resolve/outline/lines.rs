//! Lines inside a piece.

use super::walk::edge_path;
use crate::garment::{Expression, LineRun, Piece};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnLine;
use crate::resolve::model::Why;
use crate::resolve::sketch::Sketch;
use crate::resolve::sketch::ring;
use crate::resolve::work::Work;
use crate::shape::crossing::meetings;
use crate::shape::line::{Run, StraightLine, meet, runs_inside};
use crate::shape::outline::{contains, is_on};
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::{Affine, Point, Vec2};

/// Draws one line; a line that misses its piece is reported, and missing.
pub(in crate::resolve) fn draw_line(work: &Work, piece: &Piece, sketch: &mut Sketch, at: usize) {
    let Some(line) = piece.drawing.lines.get(at) else { return };
    let path = run(work, piece, sketch, &line.run, line.span);
    let Some(drawn) = &mut sketch.drawn else { return };
    match path {
        Some(path) => drawn.lines.push(DrawnLine { edge: line.edge, path }),
        None => drawn.missing.edges.push((line.edge, Why::Reported)),
    }
}

fn run(
    work: &Work,
    piece: &Piece,
    sketch: &Sketch,
    run: &LineRun,
    span: crate::source::Span,
) -> Option<Path> {
    let drawn = sketch.drawn.as_ref()?;
    let ring = ring(drawn);
    let misses = |through: &Expression| {
        work.mistake(1.0, "", || {
            let title = Title::new(format!("this line misses {}", piece.title)).in_sizes();
            Diagnostic::new(&catalogue::LINE_MISSES, span, title)
                .also(through.span, "it goes through here")
                .help("move the point to where the piece is, or draw the line from one of its corners")
        });
    };
    match run {
        LineRun::Across(place) | LineRun::Along(place) => {
            let point = work.place(place, Some(sketch))?;
            let way = match run {
                LineRun::Across(_) => Vec2::new(1.0, 0.0),
                _ => Vec2::new(0.0, 1.0),
            };
            let line = StraightLine::at(point, way)?;
            let runs = runs_inside(&line, &ring);
            let found = nearest_run(&runs, 0.0, 0.0);
            if found.is_none() {
                misses(place);
            }
            found.map(|found| Path::straight(found.from.point, found.to.point))
        }
        LineRun::FromTo(from, to) => {
            let (start, end) = (work.place(from, Some(sketch)), work.place(to, Some(sketch)));
            let (start, end) = (start?, end?);
            let inside = [0.5, 0.0, 1.0].iter().any(|&share| contains(&ring, start.lerp(end, share)));
            if start.distance(end) <= SAME_POINT || !inside {
                misses(from);
                return None;
            }
            Some(Path::straight(start, end))
        }
        LineRun::Way(from, to, path) => {
            let (start, end) = (work.place(from, Some(sketch)), work.place(to, Some(sketch)));
            let (start, end) = (start?, end?);
            let known = |edge| sketch.path(edge).cloned();
            let way = edge_path(work, path, start, end, span, &known, Some(sketch))?;
            let length = way.length();
            let inside =
                (1..10).any(|tenth| contains(&ring, way.point_at_length(f64::from(tenth) * length / 10.0)));
            if length <= SAME_POINT || !inside {
                misses(from);
                return None;
            }
            Some(way)
        }
    }
}

/// Of a line's runs inside a piece the one that overlaps the stretch from `low` to `high` most, or
/// else lies nearest to it.
fn nearest_run(runs: &[Run], low: f64, high: f64) -> Option<&Run> {
    let away = |run: &Run| run.from.along.max(low) - run.to.along.min(high);
    runs.iter().min_by(|a, b| away(a).total_cmp(&away(b)))
}

/// A line from `start` to `end` on a piece that has changed: if it reached the outline before, it
/// is drawn out, or back, to the outline as it is now.
pub(in crate::resolve) fn carried_line(
    before: &Path,
    old: &[Path],
    start: Point,
    end: Point,
    now: &[Path],
) -> Path {
    let near = |point: Point| is_on(old, point, ON_OUTLINE);
    if before.is_curved() {
        return carried_curve(before, old, start, end, now);
    }
    let plain = || Path::straight(start, end);
    if !near(before.start()) || !near(before.end()) {
        return plain();
    }
    // An end that lies on the outline as it is now stays there: beyond it the line may run on along an edge, and inside
    // again. Only where an end hangs free or lies outside is the run of the endless line asked for.
    let ends = [is_on(now, start, ON_OUTLINE), is_on(now, end, ON_OUTLINE)];
    let Some(line) = StraightLine::through(start, end).filter(|_| ends != [true, true]) else {
        return plain();
    };
    match nearest_run(&runs_inside(&line, now), 0.0, start.distance(end)) {
        Some(run) => Path::straight(
            if ends[0] { start } else { run.from.point },
            if ends[1] { end } else { run.to.point },
        ),
        None => plain(),
    }
}

/// The same of a curve: it keeps its shape between where its ends are now.
fn carried_curve(before: &Path, old: &[Path], start: Point, end: Point, now: &[Path]) -> Path {
    let carried = between(before, start, end);
    let near = |point: Point| old.iter().any(|edge| edge.nearest(point).distance <= ON_OUTLINE);
    if !near(before.start()) || !near(before.end()) {
        return carried;
    }
    to_outline(&to_outline(&carried, now).reversed(), now).reversed()
}

/// A path turned and stretched alike in all directions, so that it leads from `start` to `end`; one that comes back to
/// where it begins is moved.
fn between(path: &Path, start: Point, end: Point) -> Path {
    let (was, is) = (path.end() - path.start(), end - start);
    if was.hypot() <= SAME_POINT {
        return path.translated(start - path.start());
    }
    // As complex numbers: what the one chord is multiplied by to become the other.
    let (cosine, sine) = (was.dot(is) / was.hypot2(), was.cross(is) / was.hypot2());
    let turn = Affine::new([cosine, sine, -sine, cosine, 0.0, 0.0]);
    path.transform(Affine::translate(start.to_vec2()) * turn * Affine::translate(-path.start().to_vec2()))
}

/// A path drawn on straight, or cut back, so that its end lies on the outline.
fn to_outline(path: &Path, outline: &[Path]) -> Path {
    let end = path.end();
    if outline.iter().any(|edge| edge.nearest(end).distance <= ON_OUTLINE) {
        return path.clone();
    }
    if contains(outline, end) {
        let ahead = path.tangent_at_end().and_then(|way| StraightLine::at(end, way));
        let hits = ahead.map(|line| meet(&line, outline)).unwrap_or_default();
        return match hits.iter().find(|hit| hit.along > 0.0) {
            Some(hit) => path.then(&Path::straight(end, hit.point)),
            None => path.clone(),
        };
    }
    let last = outline.iter().flat_map(|edge| meetings(path, edge)).fold(0.0, f64::max);
    if last > SAME_POINT { path.part(0.0, last) } else { path.clone() }
}
