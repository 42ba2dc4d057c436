//! Which edges are equally long in every size, and so may be sewn to each other.

use super::pattern::{Pattern, Piece};
use crate::shape::partners::{Stretch, pairs};

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
    let pairs = pairs(&stretches, |at, beside| !neighbours(&runs[at], &runs[beside]));
    let partners = pairs.into_iter().map(|(at, beside)| {
        let (one, other) = (&runs[at], &runs[beside]);
        Partners { one: one.name.clone(), other: other.name.clone(), lengths: one.stretch.lengths.clone() }
    });
    partners.collect()
}

/// Whether two runs meet in a corner: those are hardly ever sewn to each other.
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
