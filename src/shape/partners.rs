//! Stretches that are equally long in every size, put in pairs.

/// How much lengths may differ in any size, in millimetres, to be called equal: what a drawing's own inaccuracy comes to.
pub const ALIKE: f64 = 1.0;
/// Shorter stretches, in millimetres, are alike by chance.
pub const SHORT: f64 = 20.0;
/// Of more stretches than this no pairs are looked for: so many are alike by chance.
const MOST: usize = 2_000;

/// A stretch that may have a partner.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Which piece it is of.
    pub piece: usize,
    /// How long it is, by size, in millimetres.
    pub lengths: Vec<f64>,
}

/// By how much two stretches differ where they differ most, in millimetres; infinity where one has more sizes.
pub fn apart(one: &[f64], other: &[f64]) -> f64 {
    if one.len() != other.len() {
        return f64::INFINITY;
    }
    one.iter().zip(other).map(|(one, other)| (one - other).abs()).fold(0.0, f64::max)
}

/// Pairs of stretches, by their places in the list, each in one pair at most: what fits best first, and stretches of two
/// pieces before stretches of one. `may_pair` is asked of those that are alike.
pub fn pairs(stretches: &[Stretch], may_pair: impl Fn(usize, usize) -> bool) -> Vec<(usize, usize)> {
    if stretches.len() > MOST {
        return Vec::new();
    }
    let is_long = |one: &Stretch| one.lengths.iter().all(|long| *long >= SHORT);
    let mut alike: Vec<(bool, f64, usize, usize)> = Vec::new();
    for (at, one) in stretches.iter().enumerate().filter(|(_, one)| is_long(one)) {
        for (beside, other) in stretches.iter().enumerate().skip(at + 1) {
            let apart = apart(&one.lengths, &other.lengths);
            if apart <= ALIKE && is_long(other) && may_pair(at, beside) {
                alike.push((one.piece == other.piece, (apart * 100.0).round(), at, beside));
            }
        }
    }
    alike.sort_by(|one, other| {
        one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)).then((one.2, one.3).cmp(&(other.2, other.3)))
    });
    let mut is_taken = vec![false; stretches.len()];
    let mut found = Vec::new();
    for (.., at, beside) in alike {
        if !is_taken[at] && !is_taken[beside] {
            (is_taken[at], is_taken[beside]) = (true, true);
            found.push((at, beside));
        }
    }
    found.sort_unstable();
    found
}

#[cfg(test)]
mod tests {
    use super::{Stretch, pairs};

    #[test]
    fn what_fits_best_is_paired_first_and_short_ones_never() {
        let all = [(0, 124.0), (0, 10.0), (1, 124.9), (1, 10.0), (2, 124.1), (2, 300.0)];
        let all: Vec<Stretch> =
            all.iter().map(|&(piece, long)| Stretch { piece, lengths: vec![long, long + 4.0] }).collect();
        // 0.1 apart is less than 0.9 and 0.8.
        assert_eq!(pairs(&all, |_, _| true), [(0, 4)]);
        assert_eq!(pairs(&all, |at, beside| (at, beside) != (0, 4)), [(2, 4)]);
    }
}
