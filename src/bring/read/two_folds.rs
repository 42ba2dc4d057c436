//! Pieces on which more than one fold is drawn: a piece is folded along one edge.

use super::letters::{base_name, shown};
use crate::report::listed;
use indexmap::{IndexMap, IndexSet};
use kurbo::Point;

/// An end nearer to the line of another fold than this, in millimetres, lies on it: a fold may be drawn in parts.
const ON_LINE: f64 = 0.5;

/// By piece, the sizes in which it has two folds.
#[derive(Debug, Default)]
pub(super) struct TwoFolds(IndexMap<String, IndexSet<String>>);

impl TwoFolds {
    /// Another fold of that piece in that size.
    pub fn see(&mut self, piece: &str, size: Option<&str>) {
        let sizes = self.0.entry(piece.to_owned()).or_default();
        sizes.extend(size.filter(|size| !size.is_empty()).map(shown));
    }

    /// A sentence a piece; `taken` is the one that was: `the longer one`.
    pub fn told(&self, file: &str, taken: &str) -> Vec<String> {
        let each = self.0.iter().map(|(piece, sizes)| {
            let sizes: Vec<String> = sizes.iter().cloned().collect();
            let within = if sizes.is_empty() { String::new() } else { format!(" in {}", listed(&sizes)) };
            format!(
                "{} of {} has two folds{within} that do not lie in one line: a piece is folded along one edge, and {taken} was taken; \
                 take the other out, or draw it as a line",
                shown(piece),
                base_name(file)
            )
        });
        each.collect()
    }
}

/// Whether a line does not lie along that fold.
pub(super) fn is_other((from, to): (Point, Point), line: (Point, Point)) -> bool {
    let off = |at: Point| (at - from).cross(to - from).abs() / from.distance(to).max(f64::EPSILON);
    off(line.0) > ON_LINE || off(line.1) > ON_LINE
}
