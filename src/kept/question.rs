//! All that an answer hangs on, in numbers: two questions are one when they are the same to the last bit.

use crate::shape::path::Path;
use kurbo::{PathSeg, Point};
use smallvec::SmallVec;

/// What is asked, number by number. How many things follow is said before them, so that no two questions read alike.
#[derive(Debug, Default)]
pub(crate) struct Question {
    words: SmallVec<[u64; USUAL]>,
}

/// So many numbers most questions have at most: those need no memory of their own.
const USUAL: usize = 64;
/// An odd number whose bits look random: 2⁶⁴ divided by the golden ratio.
const SPREAD: u64 = 0x9e37_79b9_7f4a_7c15;

impl Question {
    /// What it is known by: most others are known by another number. Four rows of numbers are gone through side by
    /// side, since each step of one waits for the last.
    pub fn key(&self) -> u64 {
        let mut rows = [self.words.len() as u64, 1, 2, 3];
        let spread = |row: &mut u64, word: &u64| *row = (row.rotate_left(5) ^ word).wrapping_mul(SPREAD);
        let (fours, rest) = self.words.as_chunks::<4>();
        for four in fours {
            rows.iter_mut().zip(four).for_each(|(row, word)| spread(row, word));
        }
        rows.iter_mut().zip(rest).for_each(|(row, word)| spread(row, word));
        rows.into_iter().fold(0, |all, row| (all ^ row).wrapping_mul(SPREAD).rotate_left(23))
    }

    pub fn words(&self) -> &[u64] {
        &self.words
    }

    pub fn count(&mut self, count: usize) {
        self.words.push(count as u64);
    }

    pub fn is(&mut self, so: bool) {
        self.words.push(u64::from(so));
    }

    pub fn number(&mut self, number: f64) {
        self.words.push(number.to_bits());
    }

    pub fn may_be(&mut self, number: Option<f64>) {
        self.is(number.is_some());
        self.number(number.unwrap_or_default());
    }

    pub fn point(&mut self, point: Point) {
        self.number(point.x);
        self.number(point.y);
    }

    /// A whole ring or row of paths.
    pub fn paths<'a>(&mut self, paths: impl ExactSizeIterator<Item = &'a Path>) {
        self.count(paths.len());
        paths.for_each(|path| self.path(path));
    }

    pub fn path(&mut self, path: &Path) {
        self.count(path.segments().len());
        for segment in path.segments() {
            match segment {
                PathSeg::Line(line) => {
                    self.count(2);
                    [line.p0, line.p1].into_iter().for_each(|point| self.point(point));
                }
                PathSeg::Quad(quad) => {
                    self.count(3);
                    [quad.p0, quad.p1, quad.p2].into_iter().for_each(|point| self.point(point));
                }
                PathSeg::Cubic(cubic) => {
                    self.count(4);
                    [cubic.p0, cubic.p1, cubic.p2, cubic.p3].into_iter().for_each(|point| self.point(point));
                }
            }
        }
    }
}
