//! Which edges are equally long in every size, and so may be sewn to each other.

use super::pattern::{Pattern, Piece};

/// How much the lengths may differ in any size, in millimetres: what a drawing's own inaccuracy comes to.
const ALIKE: f64 = 1.0;
/// Shorter edges are alike by chance.
const SHORT: f64 = 20.0;
/// Of more runs than this it is not looked for: so many are alike by chance.
const MOST_RUNS: usize = 2_000;

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
    piece: usize,
    /// Which run of the piece, and of how many.
    run: (usize, usize),
    name: String,
    lengths: Vec<f64>,
}

/// Pairs of runs, each in one pair at most: first those that no other run comes into question for, then what fits best;
/// runs of two pieces before runs of one.
pub fn partners(pattern: &Pattern) -> Vec<Partners> {
    let sizes = pattern.sizes.len().max(1);
    let runs: Vec<Candidate> =
        pattern.pieces.iter().enumerate().flat_map(|(at, piece)| candidates(at, piece, sizes)).collect();
    if runs.len() > MOST_RUNS {
        return Vec::new();
    }
    let mut pairs: Vec<(bool, f64, usize, usize)> = Vec::new();
    for (at, one) in runs.iter().enumerate() {
        for (beside, other) in runs.iter().enumerate().skip(at + 1) {
            let apart = one.lengths.iter().zip(&other.lengths).map(|(one, other)| (one - other).abs());
            let apart = apart.fold(0.0, f64::max);
            if apart <= ALIKE && !neighbours(one, other) {
                pairs.push((one.piece == other.piece, (apart * 100.0).round(), at, beside));
            }
        }
    }
    pairs.sort_by(|one, other| {
        one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)).then((one.2, one.3).cmp(&(other.2, other.3)))
    });
    let mut free = vec![true; runs.len()];
    let mut found = Vec::new();
    for (.., at, beside) in pairs {
        if free[at] && free[beside] {
            (free[at], free[beside]) = (false, false);
            let (one, other) = (&runs[at], &runs[beside]);
            found.push((
                (at, beside),
                Partners { one: one.name.clone(), other: other.name.clone(), lengths: one.lengths.clone() },
            ));
        }
    }
    found.sort_by_key(|(place, _)| *place);
    found.into_iter().map(|(_, partners)| partners).collect()
}

/// Whether two runs meet in a corner: those are hardly ever sewn to each other.
fn neighbours(one: &Candidate, other: &Candidate) -> bool {
    let ((at, count), (beside, _)) = (one.run, other.run);
    one.piece == other.piece && ((at + 1) % count == beside || (beside + 1) % count == at)
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
            piece: at,
            run: (run, piece.outline.runs()),
            name: names.join(" + "),
            lengths: (0..sizes).map(long).collect(),
        }
    });
    each.filter(|run| run.lengths.iter().all(|long| *long >= SHORT)).collect()
}
