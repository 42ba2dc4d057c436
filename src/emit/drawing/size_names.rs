//! The names of sizes that lie in one another, each in its own line, again and again: wherever a page is looked at,
//! every line on it shall bear its size.

use super::piece::Sketch;
use super::shape::Words;
use crate::cutting::{CutPart, CutRun};
use crate::resolve::DrawnEdgeId;

impl Sketch<'_> {
    /// Each size's name in its cutting line, one further along than the other, on every edge that has room for them
    /// and where the sizes lie apart; on an edge that all share the words say so.
    pub(super) fn size_names(&mut self, members: &[&CutPart]) {
        let Some(first) = members.first() else { return };
        let edges: Vec<DrawnEdgeId> =
            DrawnEdgeId::enumerate(&first.stitching).map(|(edge, _)| edge).collect();
        for edge in edges.into_iter().filter(|edge| first.fold != Some(*edge)) {
            let runs: Vec<(&CutPart, &CutRun)> = members
                .iter()
                .filter_map(|part| Some((*part, part.cutting.iter().find(|run| run.along == Some(edge))?)))
                .collect();
            if runs.len() == members.len() {
                self.names_along(&runs);
            }
        }
    }

    /// The names along one edge, which has a run in every size.
    fn names_along(&mut self, runs: &[(&CutPart, &CutRun)]) {
        let shortest = runs.iter().map(|(_, run)| run.path.length()).fold(f64::INFINITY, f64::min);
        let count = runs.len() as f64;
        let group = ROOM_OF_NAME * count;
        if shortest < group {
            return;
        }
        // Lines that lie on one another are not told apart by names on them.
        let together = runs.windows(2).map(least_apart).fold(f64::INFINITY, f64::min);
        if together < APART {
            return;
        }
        // As many times as the edge has room for, but no oftener than is needed.
        let times = (shortest / (group + BETWEEN)).floor().clamp(1.0, MOST_TIMES);
        for (at, (part, run)) in runs.iter().enumerate() {
            let length = run.path.length();
            let one = length / times;
            for time in 0..times as usize {
                let wanted = one * (time as f64 + 0.08 + 0.84 * (at as f64 + 0.5) / count);
                let room = (one * 0.84 / count - ROOM_OF_NAME * 0.6).max(0.0) / 2.0;
                let tried = [0.0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9].into_iter();
                let tried = tried.filter_map(|share| self.size_name(part, run, wanted + share * room));
                if let Some((_, words)) = tried.min_by_key(|(touched, _)| *touched) {
                    self.put(words, Some(part.size));
                }
            }
        }
    }

    /// A size's name in its line, so far along it, and how many lines go through it.
    fn size_name(&self, part: &CutPart, run: &CutRun, along: f64) -> Option<(usize, Words)> {
        let (way, place) = (run.path.tangent_at_length(along)?, run.path.point_at_length(along));
        let way = if way.x < -1e-9 || (way.x.abs() <= 1e-9 && way.y < 0.0) { -way } else { way };
        let mut words = Words::new(part.label.size.clone(), place, SIZE_NAME).bold();
        words.angle = libm::atan2(way.y, way.x);
        words.cleared = true;
        words.at = place - way * (words.length() / 2.0) - way.turn_90() * (words.size * 0.27);
        Some((self.clear.touched(&words.corners()), words))
    }
}

/// How near two neighbouring sizes come to each other, looked at in a few places.
fn least_apart(pair: &[(&CutPart, &CutRun)]) -> f64 {
    let &[(_, one), (_, other)] = pair else { return f64::INFINITY };
    let length = one.path.length();
    let looked_at = [0.2, 0.5, 0.8].into_iter().map(|share| one.path.point_at_length(share * length));
    looked_at.map(|point| other.path.nearest(point).distance).fold(f64::INFINITY, f64::min)
}

/// The body of a size's name in its line.
const SIZE_NAME: f64 = 4.2;
/// How much of a line one size's name needs.
const ROOM_OF_NAME: f64 = 12.0;
/// Sizes nearer to each other than this are not named in their lines.
const APART: f64 = 1.5;
/// From one time that the names stand in an edge to the next: less than a page is high.
const BETWEEN: f64 = 120.0;
/// Names stand no oftener than this in one edge.
const MOST_TIMES: f64 = 40.0;
