//! Joining two ends without a corner.

use super::curve::smooth_curve;
use super::path::Path;
use super::tolerance::{SAME_DIRECTION, SAME_POINT};
use super::turn::angle_between;
use kurbo::{PathSeg, Point, Vec2};

/// Push a smooth piece from `from` to `to` with the directions given: Hobby's curve, straight where the directions go
/// straight on. Nothing is pushed when the ends are one point.
pub(super) fn bridge_from(
    segments: &mut Vec<PathSeg>,
    from: Point,
    leaving: Option<Vec2>,
    to: Point,
    arriving: Option<Vec2>,
) {
    if from.distance(to) <= SAME_POINT {
        return;
    }
    let piece = smooth_curve(&[from, to], leaving, arriving).unwrap_or_else(|_| Path::straight(from, to));
    segments.extend_from_slice(piece.segments());
}

/// An edge that is being put together.
pub(super) struct Chain {
    /// What there is.
    pub segments: Vec<PathSeg>,
    /// Where it has come to.
    pub here: Point,
    /// The direction in which it came there.
    pub way: Option<Vec2>,
    /// Length of the section pushed last, mm: so much may be trimmed.
    pub fresh: f64,
}

impl Chain {
    /// Go on with a section, joined without a corner.
    pub fn go_on(&mut self, section: &Path, taken: f64) {
        let gap = self.here.distance(section.start());
        let bend = match (self.way, section.tangent_at_start()) {
            (Some(a), Some(b)) => angle_between(a, b).abs(),
            _ => 0.0,
        };
        let runs_on = gap <= SAME_POINT && bend <= SAME_DIRECTION;
        let first = self.segments.is_empty() && gap <= SAME_POINT;
        let mut section = section.clone();
        if taken > 0.0 && !runs_on && !first {
            let trim = (2.0 * gap).max(0.5 * taken);
            self.trim(trim.min(self.fresh / 3.0));
            section = section.split_at_length(trim.min(section.length() / 3.0)).1;
        }
        if !runs_on && !first {
            bridge_from(&mut self.segments, self.here, self.way, section.start(), section.tangent_at_start());
        }
        self.fresh = section.length();
        self.here = section.end();
        self.way = section.tangent_at_end();
        self.segments.extend_from_slice(section.segments());
    }

    /// Go to the edge's end, which is a corner that did not move with the last section.
    pub fn close(&mut self, end: Point, arriving: Option<Vec2>, taken: f64) {
        let gap = self.here.distance(end);
        if gap <= SAME_POINT {
            return;
        }
        if taken > 0.0 {
            self.trim((2.0 * gap).max(0.5 * taken).min(self.fresh / 3.0));
        }
        bridge_from(&mut self.segments, self.here, self.way, end, arriving);
    }

    fn trim(&mut self, by: f64) {
        if by <= SAME_POINT || self.segments.is_empty() {
            return;
        }
        let whole = Path::chain(std::mem::take(&mut self.segments), self.here);
        let kept = whole.split_at_length(whole.length() - by).0;
        self.here = kept.end();
        self.way = kept.tangent_at_end();
        self.segments = kept.segments().to_vec();
    }
}
