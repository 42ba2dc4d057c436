//! The cutting line: every edge of a stitching line moved out by its own allowance, and joined.

use super::allowed::{Allowed, CornerCut, Darted, Laid};
use super::cap::with_caps;
use super::corner::{Corner, Join, join, snapped, without_crumbs};
use crate::resolve::DrawnEdgeId;
use crate::shape::offset::{OffsetError, SMOOTH_GAP, parallel};
use crate::shape::outline::{check_ring, crossings, is_anticlockwise, signed_area};
use crate::shape::path::Path;
use crate::shape::shut::Shut;
use crate::shape::tolerance::SAME_POINT;
use crate::syntax::tree::CornerStyle;
use kurbo::Point;

/// A run of a cutting line.
#[derive(Clone, Debug, PartialEq)]
pub struct CutRun {
    /// The way it goes.
    pub path: Path,
    /// The edge that it runs along, by its place in the stitching line; none of a run across a
    /// corner.
    pub along: Option<DrawnEdgeId>,
}

/// Why there is no cutting line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Unfit {
    /// The stitching line is no closed outline.
    NoOutline,
    /// An edge curves too tightly for its allowance, or nothing of its cutting line is left
    /// between its neighbours.
    TooWide {
        /// The edge.
        edge: DrawnEdgeId,
        /// Where on it.
        at: Point,
        /// What there is room for.
        most: Most,
    },
    /// The allowances of two edges lie over each other.
    Overlap {
        /// One edge.
        first: DrawnEdgeId,
        /// The other; the same where an edge meets itself.
        second: DrawnEdgeId,
        /// Where.
        at: Point,
        /// What there is room for.
        most: Most,
    },
}

/// How wide the allowances that do not fit may be, in millimetres.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Most {
    /// Those of the edges named, when all others stay as they are.
    Own(f64),
    /// Those of all edges: narrower ones of the edges named alone would not do.
    All(f64),
    /// There is no room for any.
    #[default]
    Nothing,
}

/// The cutting line of the closed outline `ring`, in the same direction; `allowed` and
/// `corners` (at the end of each edge) are by the outline's edges.
///
/// Edges are moved out by [`parallel`], to its accuracy, and joined: mitred with a limit, hem ends mirrored, or as the corner says.
///
/// # Errors
/// When an allowance does not fit, with how much would.
pub fn cutting_line(ring: &[Path], allowed: &[Allowed], corners: &[CornerCut]) -> Result<Vec<CutRun>, Unfit> {
    cutting_line_over(ring, allowed, corners, &[])
}

/// The same over darts: `darts` are by the outline's edges, in the order in which they lie along each; none
/// at all where it is empty. Each gets its cap.
///
/// # Errors
/// As [`cutting_line`].
pub fn cutting_line_over(
    ring: &[Path],
    allowed: &[Allowed],
    corners: &[CornerCut],
    darts: &[Vec<Darted>],
) -> Result<Vec<CutRun>, Unfit> {
    check_ring(ring).map_err(|_| Unfit::NoOutline)?;
    if allowed.len() != ring.len() || corners.len() != ring.len() {
        return Err(Unfit::NoOutline);
    }
    match joined(ring, allowed, corners, darts) {
        Err(Unfit::Overlap { first, second, at, .. }) => {
            let most = most_for(ring, allowed, corners, darts, [first, second]);
            Err(Unfit::Overlap { first, second, at, most })
        }
        Err(Unfit::TooWide { edge, at, .. }) => {
            let most = most_for(ring, allowed, corners, darts, [edge, edge]);
            Err(Unfit::TooWide { edge, at, most })
        }
        other => other,
    }
}

fn joined(
    ring: &[Path],
    allowed: &[Allowed],
    corners: &[CornerCut],
    darts: &[Vec<Darted>],
) -> Result<Vec<CutRun>, Unfit> {
    let outward = if is_anticlockwise(ring) { -1.0 } else { 1.0 };
    // A loop of one edge is taken as two runs, so that its ends are two places to work on.
    let runs: Vec<(DrawnEdgeId, Path)> = match ring {
        [only] => {
            let (first, second) = only.split_at_length(only.length() * 0.5);
            vec![(DrawnEdgeId::FIRST, first), (DrawnEdgeId::FIRST, second)]
        }
        _ => DrawnEdgeId::enumerate(ring.iter().cloned()).collect(),
    };
    let mut moved: Vec<Path> = Vec::with_capacity(runs.len());
    for (edge, path) in &runs {
        let width = allowed.get(edge.index()).map_or(0.0, |allowed| allowed.width);
        let own = darts.get(edge.index()).map_or(&[][..], Vec::as_slice);
        let of_edge = match own {
            [] => parallel(path, outward * width),
            own => with_caps(path, outward * width, own),
        };
        moved.push(of_edge.map_err(|error| match error {
            OffsetError::TooTight { point, .. } => {
                Unfit::TooWide { edge: *edge, at: point, most: Most::Nothing }
            }
            _ => Unfit::TooWide { edge: *edge, at: path.start(), most: Most::Nothing },
        })?);
    }
    let count = runs.len();
    let mut bridges: Vec<Option<Path>> = vec![None; count];
    for at in 0..count {
        let next = (at + 1) % count;
        let (Some((before, before_path)), Some((after, after_path))) = (runs.get(at), runs.get(next)) else {
            continue;
        };
        let (Some(&before_allowed), Some(&after_allowed)) =
            (allowed.get(before.index()), allowed.get(after.index()))
        else {
            continue;
        };
        let cut = if before == after && at == 0 {
            CornerCut { style: Some(CornerStyle::Mitred), second_first: false }
        } else {
            corners.get(before.index()).copied().unwrap_or_default()
        };
        let corner = Corner {
            before: before_path,
            after: after_path,
            allowed: [before_allowed, after_allowed],
            outward,
            cut,
        };
        let (Some(before_moved), Some(after_moved)) = (moved.get(at), moved.get(next)) else { continue };
        let too_wide =
            |edge: DrawnEdgeId| Unfit::TooWide { edge, at: before_path.end(), most: Most::Nothing };
        let wider = if before_allowed.width >= after_allowed.width { *before } else { *after };
        let Join { before: cut_before, across, after: cut_after } =
            join(&corner, before_moved, after_moved).ok_or(too_wide(wider))?;
        for (place, path) in [(at, cut_before), (next, cut_after)] {
            if !path.is_longer_than(SAME_POINT) {
                return Err(too_wide(wider));
            }
            if let Some(slot) = moved.get_mut(place) {
                *slot = path;
            }
        }
        if let Some(slot) = bridges.get_mut(at) {
            *slot = across;
        }
    }
    let mut line: Vec<CutRun> = Vec::with_capacity(count * 2);
    for ((path, (edge, _)), bridge) in moved.into_iter().zip(&runs).zip(bridges) {
        match line.last_mut() {
            Some(last) if ring.len() == 1 && last.along == Some(*edge) => last.path = last.path.then(&path),
            _ => line.push(CutRun { path, along: Some(*edge) }),
        }
        line.extend(
            bridge
                .filter(|bridge| bridge.is_longer_than(SAME_POINT))
                .map(|path| CutRun { path, along: None }),
        );
    }
    close(&mut line);
    sound(ring, darts, &line)?;
    Ok(line)
}

/// Each run ends exactly where the next begins: where two lines meet, rounding leaves the last bits.
fn close(line: &mut [CutRun]) {
    for run in line.iter_mut() {
        run.path = without_crumbs(&run.path);
    }
    let starts: Vec<Point> = line.iter().map(|run| run.path.start()).collect();
    let nexts = starts.iter().cycle().skip(1);
    for (run, next) in line.iter_mut().zip(nexts) {
        let gap = run.path.end().distance(*next);
        if gap > 0.0 && gap <= SMOOTH_GAP {
            run.path = snapped(&run.path, *next);
        }
    }
}

/// Whether the line is one that can be cut along: closed, not crossing itself, round the piece.
fn sound(ring: &[Path], darts: &[Vec<Darted>], line: &[CutRun]) -> Result<(), Unfit> {
    let paths: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
    check_ring(&paths).map_err(|_| Unfit::NoOutline)?;
    let near = |at: usize| -> DrawnEdgeId {
        let behind = line.iter().take(at + 1).rev().find_map(|run| run.along);
        behind.or_else(|| line.iter().find_map(|run| run.along)).unwrap_or(DrawnEdgeId::FIRST)
    };
    if let Some(crossing) = crossings(&paths) {
        let (first, second) = (near(crossing.first), near(crossing.second));
        return Err(Unfit::Overlap { first, second, at: crossing.point, most: Most::Nothing });
    }
    // What is cut out of a dart is cloth neither inside nor outside of the line; the cap of a pleat may lie a
    // little inside a curve, less than a quarter of what it takes squared.
    let cut_out: f64 = darts
        .iter()
        .flatten()
        .map(|dart| match (dart.shut, dart.laid) {
            (Shut::Wedge(wedge), Laid::CutOpen(_)) => triangle(wedge.corners()),
            (Shut::Wedge(_), Laid::Pressed(_)) => 0.0,
            (Shut::Pleat(pleat), _) => pleat.taken().hypot2() / 4.0,
        })
        .sum();
    let (inner, outer) = (signed_area(ring), signed_area(&paths));
    let inner = inner.signum() * (inner.abs() - cut_out).max(0.0);
    if inner * outer <= 0.0 || outer.abs() < inner.abs() - 1e-3 {
        return Err(Unfit::Overlap {
            first: DrawnEdgeId::FIRST,
            second: DrawnEdgeId::FIRST,
            at: paths.first().map_or(Point::ZERO, Path::start),
            most: Most::Nothing,
        });
    }
    Ok(())
}

fn triangle([a, b, c]: [Point; 3]) -> f64 {
    ((b - a).cross(c - a) / 2.0).abs()
}

/// How wide the allowances of two edges may be, or else those of all.
fn most_for(
    ring: &[Path],
    allowed: &[Allowed],
    corners: &[CornerCut],
    darts: &[Vec<Darted>],
    edges: [DrawnEdgeId; 2],
) -> Most {
    let widest = |narrowed: &dyn Fn(DrawnEdgeId) -> bool| widest(ring, allowed, corners, darts, narrowed);
    match widest(&|edge| edges.contains(&edge)) {
        Some(most) => Most::Own(most),
        None => widest(&|_| true).map_or(Most::Nothing, Most::All),
    }
}

/// The widest allowance, to a quarter of a millimetre, at which some edges fit when all others
/// stay; none where the others do not fit either.
fn widest(
    ring: &[Path],
    allowed: &[Allowed],
    corners: &[CornerCut],
    darts: &[Vec<Darted>],
    narrowed: &dyn Fn(DrawnEdgeId) -> bool,
) -> Option<f64> {
    let capped = |most: f64| -> Vec<Allowed> {
        let cap = |(edge, one): (DrawnEdgeId, &Allowed)| {
            let width = if narrowed(edge) { one.width.min(most) } else { one.width };
            Allowed { width, ..*one }
        };
        DrawnEdgeId::enumerate(allowed).map(cap).collect()
    };
    let fits = |most: f64| joined(ring, &capped(most), corners, darts).is_ok();
    let widths =
        DrawnEdgeId::enumerate(allowed).filter(|(edge, _)| narrowed(*edge)).map(|(_, one)| one.width);
    let (mut low, mut high) = (0.0, widths.fold(0.0, f64::max));
    if !fits(low) {
        return None;
    }
    for _ in 0..24 {
        if high - low < QUARTER {
            break;
        }
        let middle = 0.5 * (low + high);
        if fits(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(low)
}

/// How finely the most that fits is looked for, in millimetres.
const QUARTER: f64 = 0.25;
