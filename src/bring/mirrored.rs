//! Traced runs that are mirror images of one another, such as the two sides of a gore: what was fitted to the one is laid over
//! the other, so that both are parted at the same places and equally long.

use super::runs::{Form, Run, Stretch};
use super::traced::TracedSegment;
use kurbo::{Affine, ParamCurve, Point, Vec2};

/// How far points may lie from the mirrored ones, in millimetres: drawings round their coordinates.
const SAME: f64 = 0.05;
/// Fewer points than this are no traced curve.
const TRACED: usize = 5;

/// The run through those segments, by size, that the other one gives when it is walked backwards in a mirror; none where they
/// are no mirror images in every size.
pub fn mirrored(known: &[Vec<TracedSegment>], run: &Run, own: &[Vec<TracedSegment>]) -> Option<Run> {
    if run.error == 0.0 || known.len() != own.len() {
        return None;
    }
    let found: Option<Vec<(Affine, f64)>> =
        known.iter().zip(own).map(|(known, own)| mirror(known, own)).collect();
    let (mirrors, missed): (Vec<Affine>, Vec<f64>) = found?.into_iter().unzip();
    let reflected = |points: &[Point]| -> Vec<Point> {
        mirrors.iter().zip(points).map(|(mirror, point)| *mirror * *point).collect()
    };
    let ends: Vec<Point> = own.iter().map(|own| Some(own.last()?.course.end())).collect::<Option<_>>()?;
    let count = run.stretches.len();
    let stretches = (0..count).rev().map(|at| {
        let stretch = run.stretches.get(at)?;
        let form = match &stretch.form {
            Form::Straight => Form::Straight,
            // Mirrored it turns the other way, and walked backwards once more.
            Form::Arc { centres, clockwise } => {
                Form::Arc { centres: reflected(centres), clockwise: *clockwise }
            }
            Form::Handles { first, second } => {
                Form::Handles { first: reflected(second), second: reflected(first) }
            }
        };
        let to = match at.checked_sub(1) {
            Some(before) => reflected(&run.stretches.get(before)?.ends),
            None => ends.clone(),
        };
        Some(Stretch { form, ends: to })
    });
    let is_whole = run.stretches.iter().all(|stretch| stretch.ends.len() == own.len());
    let stretches: Option<Vec<Stretch>> = stretches.collect();
    is_whole.then_some(())?;
    Some(Run { stretches: stretches?, error: run.error + missed.into_iter().fold(0.0, f64::max) })
}

/// The mirror in which the one line, walked backwards, is the other, and how far it misses: it takes its ends to the other's, and all
/// points with them.
fn mirror(known: &[TracedSegment], own: &[TracedSegment]) -> Option<(Affine, f64)> {
    if known.len() != own.len() || known.len() + 1 < TRACED {
        return None;
    }
    let nodes = |segments: &[TracedSegment]| -> Option<Vec<Point>> {
        let straight = segments.iter().all(|one| matches!(one.course, kurbo::PathSeg::Line(_)));
        let first = segments.first().filter(|_| straight)?.course.start();
        Some(std::iter::once(first).chain(segments.iter().map(|one| one.course.end())).collect())
    };
    let (known, mut own) = (nodes(known)?, nodes(own)?);
    own.reverse();
    let ((from, to), (own_from, own_to)) = (known.first().zip(known.last())?, own.first().zip(own.last())?);
    let (way, own_way): (Vec2, Vec2) = (*to - *from, *own_to - *own_from);
    // The reflection that takes the one way to the other: from their directions alone, since angles come out otherwise from
    // platform to platform.
    let (long, own_long) = (way.hypot(), own_way.hypot());
    let directions = (long > 0.0 && own_long > 0.0).then(|| (way / long, own_way / own_long));
    let (way, own_way) = directions?;
    let both = Vec2::new(way.x * own_way.x - way.y * own_way.y, way.x * own_way.y + way.y * own_way.x);
    let mirror = Affine::translate(own_from.to_vec2())
        * Affine::new([both.x, both.y, both.y, -both.x, 0.0, 0.0])
        * Affine::translate(-from.to_vec2());
    let away = known.iter().zip(&own).map(|(known, own)| (mirror * *known).distance(*own));
    let missed = away.fold(0.0, f64::max);
    (missed <= SAME).then_some((mirror, missed))
}

#[cfg(test)]
mod tests {
    use super::mirror;
    use crate::bring::course::straight;
    use kurbo::Point;

    /// A line that rises to the right, and one that rises to the left, mirrored at the upright through 0 and walked backwards.
    #[test]
    fn a_mirror_takes_ends_to_ends() {
        let points = [(1.0, 0.0), (2.0, 1.0), (3.0, 3.0), (4.0, 6.0), (5.0, 10.0)].map(Point::from);
        let line =
            |points: &[Point]| points.windows(2).map(|pair| straight(pair[0], pair[1])).collect::<Vec<_>>();
        let mut turned = points.map(|at| Point::new(-at.x, at.y));
        turned.reverse();
        let (mirror, missed) = mirror(&line(&points), &line(&turned)).unwrap();
        assert!(missed < 1e-9, "{missed}");
        assert!((mirror * Point::new(7.0, 2.0)).distance(Point::new(-7.0, 2.0)) < 1e-9);
        // Turned half round it is no mirror image.
        let round = points.map(|at| Point::new(-at.x, -at.y));
        assert!(super::mirror(&line(&points), &line(&round)).is_none());
    }
}
