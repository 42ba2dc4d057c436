//! What of the pieces is shown.

use super::shape::Shape;
use crate::garment::{Part, SizeId};
use kurbo::Point;

/// Which outlines of a piece are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lines {
    /// Where it is cut.
    Cut,
    /// Where it is sewn.
    Sew,
    /// Both.
    Both,
}

/// What is shown, and how.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// Which outlines; where nothing is said both of one size, and of several in one another where they are cut.
    pub lines: Option<Lines>,
    /// Parts that are cut alike in several layers are drawn one by one.
    pub every_part: bool,
    /// Only these parts; none for all. The number that is written on a piece does not hang on it.
    pub only: Option<Vec<Part>>,
    /// Of sizes in one another only these, where they lie among all; none for all. It is for whoever puts them on paper:
    /// a piece is drawn in all of them first.
    pub of_nest: Option<Vec<SizeId>>,
    /// A stretch of a cutting line that several sizes share is drawn once, for all of them.
    pub shared_once: bool,
    /// How many times larger than usual small words are.
    pub words: f64,
    /// Lines that no words may stand across, on the piece's own paper: where pages join.
    pub joins: Vec<(Point, Point)>,
}

impl Look {
    /// As a garment is looked at: every part in its layer.
    pub fn drawing() -> Self {
        Look {
            lines: None,
            every_part: true,
            only: None,
            of_nest: None,
            shared_once: false,
            words: 1.0,
            joins: Vec::new(),
        }
    }

    /// As it is put on paper: what is cut alike in several layers once.
    pub fn printing() -> Self {
        Look { every_part: false, shared_once: true, ..Look::drawing() }
    }

    /// Whether this part is shown.
    pub fn shows(&self, part: Part) -> bool {
        self.only.as_ref().is_none_or(|only| only.contains(&part))
    }

    /// Whether any of these sizes is shown.
    pub fn shows_any(&self, mut sizes: impl Iterator<Item = SizeId>) -> bool {
        self.of_nest.as_ref().is_none_or(|shown| sizes.any(|size| shown.contains(&size)))
    }

    /// Whether this is of a size that is shown.
    pub fn shows_shape(&self, shape: &Shape) -> bool {
        self.of_nest.as_ref().is_none_or(|shown| shown.iter().any(|size| shape.is_of(*size)))
    }

    /// Which outlines, where they are of several sizes or of one.
    pub(super) fn lines(&self, nested: bool) -> Lines {
        self.lines.unwrap_or(if nested { Lines::Cut } else { Lines::Both })
    }
}

impl Lines {
    /// Whether it is shown where pieces are cut.
    pub(super) fn cut(self) -> bool {
        self != Lines::Sew
    }

    /// Whether it is shown where they are sewn.
    pub(super) fn sew(self) -> bool {
        self != Lines::Cut
    }
}
