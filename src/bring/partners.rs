//! Which edges are equally long in every size, and so may be sewn to each other.

use super::pattern::{Pattern, Piece};
use crate::shape::partners::{Stretch, pairs};
use crate::shape::path::Path;
use kurbo::PathSeg;

/// Two runs that are equally long in every size.
#[derive(Debug, Clone, PartialEq)]
pub struct Partners {
    /// The one: `front.shoulder`, `front.e3_1 + front.e3_2`.
    pub one: String,
    /// The other.
    pub other: String,
    /// How long they are, by size, in millimetres.
    pub lengths: Vec<f64>,
}

struct Candidate {
    /// Which run of the piece, and of how many.
    run: (usize, usize),
    name: String,
    stretch: Stretch,
}

/// Pairs of runs, each in one pair at most: what fits best first, runs of two pieces before runs of one.
pub fn partners(pattern: &Pattern) -> Vec<Partners> {
    let sizes = pattern.sizes.len().max(1);
    let runs: Vec<Candidate> =
        pattern.pieces.iter().enumerate().flat_map(|(at, piece)| candidates(at, piece, sizes)).collect();
    let stretches: Vec<Stretch> = runs.iter().map(|run| run.stretch.clone()).collect();
    let pairs = pairs(&stretches, |at, beside| {
        let (one, other) = (&runs[at], &runs[beside]);
        !neighbours(one, other)
            || pattern
                .pieces
                .get(one.stretch.piece)
                .is_some_and(|piece| are_sides_of_a_gore(piece, one.run, other.run, sizes))
    });
    let partners = pairs.into_iter().map(|(at, beside)| {
        let (one, other) = (&runs[at], &runs[beside]);
        Partners { one: one.name.clone(), other: other.name.clone(), lengths: one.stretch.lengths.clone() }
    });
    partners.collect()
}

/// Two runs that meet at a wider angle than this, in radians (60°), are no sides of one panel.
const PANEL: f64 = std::f64::consts::FRAC_PI_3;
/// How much sides that are mirror images may differ, in millimetres.
const ALIKE: f64 = 1.0;

/// Whether two runs that meet in a corner are the sides of one of several panels, such as the gores of a cap: of a piece that is cut
/// several times, mirror images of each other and longer than they lie apart. One panel's side is sewn to the next one's.
fn are_sides_of_a_gore(
    piece: &Piece,
    (at, count): (usize, usize),
    (beside, _): (usize, usize),
    sizes: usize,
) -> bool {
    let several = piece
        .cut
        .map(|cut| cut.count)
        .into_iter()
        .chain(piece.counts.iter().copied())
        .any(|count| count >= 2);
    // The first then ends where the second begins.
    let (first, second) = if (at + 1) % count == beside { (at, beside) } else { (beside, at) };
    several
        && (0..sizes).all(|size| {
            let ends = |run: usize| {
                let all: Vec<usize> = piece.outline.of_run(run).map(|(edge, _)| edge).collect();
                let path: Vec<PathSeg> =
                    all.iter().flat_map(|edge| piece.outline.path(*edge, size)).collect();
                let path = Path::from_segments(path).ok()?;
                Some((
                    path.point_at_length(0.0),
                    path.point_at_length(path.length() / 2.0),
                    path.point_at_length(path.length()),
                ))
            };
            let (Some((from, middle, tip)), Some((start, other_middle, to))) = (ends(first), ends(second))
            else {
                return false;
            };
            let (one, other) = (from - tip, to - start);
            let apart = from.distance(to).max(middle.distance(other_middle));
            let alike = (one.hypot() - other.hypot()).abs() <= ALIKE
                && (middle.distance(tip) - other_middle.distance(start)).abs() <= ALIKE;
            alike && super::course::angle(one, other) < PANEL && apart < one.hypot()
        })
}

/// Whether two runs meet in a corner: those are hardly ever sewn to each other, but for the sides of panels.
fn neighbours(one: &Candidate, other: &Candidate) -> bool {
    let ((at, count), (beside, _)) = (one.run, other.run);
    one.stretch.piece == other.stretch.piece && ((at + 1) % count == beside || (beside + 1) % count == at)
}

/// The runs of a piece that may be sewn to something.
fn candidates(at: usize, piece: &Piece, sizes: usize) -> Vec<Candidate> {
    let fold = piece.fold.and_then(|edge| piece.outline.edges.get(edge)).map(|edge| edge.run);
    let runs = (0..piece.outline.runs()).filter(|run| Some(*run) != fold);
    let each = runs.map(|run| {
        let names: Vec<String> =
            piece.outline.of_run(run).map(|(_, edge)| format!("{}.{}", piece.name, edge.name)).collect();
        let long = |size| piece.outline.of_run(run).map(|(edge, _)| piece.outline.length(edge, size)).sum();
        Candidate {
            run: (run, piece.outline.runs()),
            name: names.join(" + "),
            stretch: Stretch { piece: at, lengths: (0..sizes).map(long).collect() },
        }
    });
    each.collect()
}
