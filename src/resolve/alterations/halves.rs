//! One side of a piece that was cut along a line.

use super::beyond::Slash;
use crate::garment::{AlterationId, EdgeId, PieceId, PointId, Target};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnLine, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::model::Why;
use crate::resolve::outline::lines::carried_line;
use crate::resolve::sketch;
use crate::resolve::sketch::ring;
use crate::resolve::take_ups::carry::{is_cut_through, of_half};
use crate::resolve::take_ups::carry_slits::slits_of_half;
use crate::resolve::work::Work;
use crate::shape::Point;
use crate::shape::crossing::meetings;
use crate::shape::cut::{CutEdge, CutError, Halves, Origin, cut, cut_along};
use crate::shape::outline::contains;
use crate::shape::path::Path;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};

/// Cuts the piece; reported if the line does not cut it in two.
pub(super) fn cut_in_two(work: &Work, target: &Target, slash: &Slash, drawn: &DrawnPiece) -> Option<Halves> {
    let made = match slash.is_curve {
        true => cut_along(&ring(drawn), &slash.path, slash.beyond),
        false => cut(&ring(drawn), &slash.line, slash.beyond),
    };
    match made {
        Ok(halves) => {
            let through = is_cut_through(work, drawn, &off(slash, &halves), target.span);
            (!through).then_some(halves)
        }
        Err(error) => {
            let title = work.title(drawn.piece);
            let line = work.garment.edge(target.edge);
            work.report(|size| {
                let (weight, what) = match error {
                    CutError::CrossesOften { times } => {
                        (times as f64, format!("goes through the outline of {title} {times} times"))
                    }
                    _ => (1.0, format!("does not cut {title} in two")),
                };
                let message = Title::new(format!("{} {what}", line.name)).in_sizes();
                let message = Diagnostic::new(&catalogue::ALTER_NO_LINE, target.span, message)
                    .also(line.span, "the line, drawn on straight at both ends")
                    .help("draw the line so that it goes in at one place and out at one other");
                Finding::new(size, weight, message).about(title)
            });
            None
        }
    }
}

/// What one side is called.
pub(super) struct Naming<'n> {
    /// The piece that it is.
    pub(super) piece: PieceId,
    /// The edge along the cut.
    pub(super) cut_edge: EdgeId,
    /// Its name for an edge or line of the whole.
    pub(super) edge: &'n dyn Fn(EdgeId) -> Option<EdgeId>,
    /// Its name for a point of the whole.
    pub(super) point: &'n dyn Fn(PointId) -> Option<PointId>,
}

/// What lies on one side of a cut.
pub(super) struct Lying<'l> {
    /// How far a point lies on this side; less than nothing on the other.
    pub(super) off: &'l dyn Fn(Point) -> f64,
    /// What of a line lies on this side, with the outline as it is there.
    pub(super) line: &'l dyn Fn(&Path, &[Path]) -> Option<Path>,
}

/// One side of a straight cut as a piece of its own: what lies beyond the line, or before it.
pub(super) fn side_of(
    whole: &DrawnPiece,
    halves: &Halves,
    beyond: bool,
    slash: &Slash,
    by: AlterationId,
    naming: &Naming,
) -> Option<DrawnPiece> {
    let old = ring(whole);
    let sign = if beyond { 1.0 } else { -1.0 };
    let beyond_it = off(slash, halves);
    let off = |point: Point| sign * beyond_it(point);
    let line = |line: &Path, now: &[Path]| {
        if slash.is_curve || line.is_curved() {
            return longest_part(line, halves, &off);
        }
        let (start, end) = (line.start(), line.end());
        let is_cut = off(start).abs() <= SAME_POINT && off(end).abs() <= SAME_POINT;
        if is_cut || (off(start) <= SAME_POINT && off(end) <= SAME_POINT) {
            return None;
        }
        Some(match off(start).min(off(end)) < -SAME_POINT {
            true => clipped(line, off(start), off(end)),
            false => carried_line(line, &old, start, end, now),
        })
    };
    let parts = if beyond { &halves.beyond } else { &halves.before };
    side(whole, parts, &Lying { off: &off, line: &line }, by, naming)
}

/// How far beyond the cut a point lies; less than nothing before it.
fn off<'s>(slash: &'s Slash, halves: &'s Halves) -> Box<dyn Fn(Point) -> f64 + 's> {
    if !slash.is_curve {
        return Box::new(|point| slash.beyond.dot(point - slash.line.point));
    }
    let outline: Vec<Path> = halves.beyond.iter().map(|edge| edge.path.clone()).collect();
    Box::new(move |point| {
        let far = cut_edge(halves).map_or(0.0, |cut| cut.nearest(point).distance);
        if far <= SAME_POINT || contains(&outline, point) { far } else { -far }
    })
}

fn cut_edge(halves: &Halves) -> Option<&Path> {
    halves.beyond.iter().find(|edge| edge.origin == Origin::Cut).map(|edge| &edge.path)
}

/// The longest part of a line that lies on the side where `off` is more than nothing.
fn longest_part(line: &Path, halves: &Halves, off: &dyn Fn(Point) -> f64) -> Option<Path> {
    let length = line.length();
    let mut stops = vec![0.0];
    stops.extend(cut_edge(halves).map(|cut| meetings(line, cut)).unwrap_or_default());
    stops.push(length);
    let parts = stops.windows(2).filter_map(|pair| match pair {
        &[from, to] if to - from > SAME_POINT => {
            let middle = line.point_at_length(f64::midpoint(from, to));
            (off(middle) > SAME_POINT).then_some((from, to))
        }
        _ => None,
    });
    let (from, to) = parts.max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
    Some(if to - from >= length - SAME_POINT { line.clone() } else { line.part(from, to) })
}

/// One side as a piece of its own. How it is cut stays as it was, also where the fold is gone.
pub(super) fn side(
    whole: &DrawnPiece,
    parts: &[CutEdge],
    lying: &Lying,
    by: AlterationId,
    naming: &Naming,
) -> Option<DrawnPiece> {
    let old_edge = |part: &CutEdge| match part.origin {
        Origin::Edge { edge, .. } => whole.edges.get(edge),
        Origin::Cut => None,
    };
    let names: Option<Vec<EdgeId>> = parts
        .iter()
        .map(|part| match old_edge(part) {
            Some(edge) => (naming.edge)(edge.edge),
            None => Some(naming.cut_edge),
        })
        .collect();
    let names = names?;
    let before = names.iter().cycle().skip(names.len().saturating_sub(1));
    let edges = parts.iter().zip(names.iter().zip(before)).map(|(part, (&edge, &before))| {
        let start = part.path.start();
        // A corner that the cut goes through, or that lies on this side, keeps its name.
        let named = whole.edges.iter().find_map(|old| match old.corner {
            CornerName::Named(point) if old.path.start().distance(start) <= SAME_POINT => {
                (naming.point)(point)
            }
            _ => None,
        });
        let corner = named.map_or(CornerName::Between(before, edge), CornerName::Named);
        let mut touched = old_edge(part).map_or(Vec::new(), |edge| edge.touched.clone());
        if !matches!(part.origin, Origin::Edge { whole: true, .. }) {
            touched.push(by);
        }
        DrawnEdge { edge, path: part.path.clone(), corner, touched }
    });
    let mut drawn = sketch::bare(naming.piece, edges.collect());
    drawn.missing = whole.missing.clone();
    (drawn.cut, drawn.count, drawn.grain) = (whole.cut, whole.count, whole.grain);
    drawn.unfolded = whole.unfolded;
    let now = ring(&drawn);
    for spot in &whole.spots {
        let own = (naming.point)(spot.point).filter(|_| (lying.off)(spot.at) >= -SAME_POINT);
        match own {
            Some(point) => drawn.spots.push(DrawnSpot { point, at: spot.at }),
            None => {
                let point = (naming.point)(spot.point).unwrap_or(spot.point);
                drawn.missing.points.push((point, Why::By(by)));
            }
        }
    }
    for line in &whole.lines {
        match (naming.edge)(line.edge).zip((lying.line)(&line.path, &now)) {
            Some((edge, path)) => drawn.lines.push(DrawnLine { edge, path }),
            None => drawn.missing.edges.push(((naming.edge)(line.edge).unwrap_or(line.edge), Why::By(by))),
        }
    }
    of_half(whole, &mut drawn, lying.off, naming.edge, by);
    slits_of_half(whole, &mut drawn, lying.off, naming.edge, by);
    for notch in &whole.notches {
        let Some(edge) = (naming.edge)(notch.edge) else { continue };
        let runs = drawn.edges.iter().filter(|own| own.edge == edge).map(|own| own.path.nearest(notch.at));
        let nearest = runs.min_by(|a, b| a.distance.total_cmp(&b.distance));
        if let Some(nearest) = nearest.filter(|nearest| nearest.distance <= ON_OUTLINE) {
            drawn.notches.push(DrawnNotch { edge, along: nearest.at, at: nearest.point, ..*notch });
        }
    }
    for edge in &whole.edges {
        // What lies on the other side is missed under the name that it would have here.
        let own = (naming.edge)(edge.edge).unwrap_or(edge.edge);
        if drawn.edge(own).is_none() {
            drawn.missing.edges.push((own, Why::By(by)));
        }
    }
    Some(drawn)
}

/// The part of a straight line on this side; `start` and `end` are how far its ends lie on it.
fn clipped(line: &Path, start: f64, end: f64) -> Path {
    let meets = line.start().lerp(line.end(), start / (start - end));
    match start < end {
        true => Path::straight(meets, line.end()),
        false => Path::straight(line.start(), meets),
    }
}
