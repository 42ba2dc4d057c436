//! The ways in which the lines of a label may be set: one under the other, or run together for pieces that are low.

use super::font::Face;

/// A line of a label: its words, their size as a share of the title's, and whether they are bold.
pub(super) type Line = (String, f64, bool);

/// A label set in one way.
pub(super) struct Block {
    pub lines: Vec<Line>,
    /// It is taken where the ways before it can be no larger than this share of what it can be.
    pub share: f64,
    /// How wide and high it is, in bodies of the title.
    pub size: (f64, f64),
    /// The largest letters, in bodies of the title.
    pub largest: f64,
}

impl Block {
    fn of(mut lines: Vec<Line>, share: f64) -> Self {
        lines.retain(|(words, ..)| !words.is_empty());
        let height: f64 = lines.iter().map(|(_, share, _)| share * LEADING).sum();
        let size = (lines.iter().map(long).fold(0.0, f64::max), height);
        let largest = lines.iter().map(|(_, share, _)| *share).fold(0.0, f64::max);
        Block { lines, share, size, largest }
    }
}

/// How long a line is, in bodies of the title.
fn long((words, share, bold): &Line) -> f64 {
    if *bold { Face::Bold } else { Face::Plain }.length(words, *share)
}

/// From line to line, in bodies.
pub(super) const LEADING: f64 = 1.32;

/// The ways in which a label may be set, the best first. The smallest letters are of half the title's body in all.
pub(super) fn blocks(lines: &[Line]) -> Vec<Block> {
    let of = |wanted: &dyn Fn(&Line) -> bool| {
        let words: Vec<&str> =
            lines.iter().filter(|line| wanted(line)).map(|(words, ..)| words.as_str()).collect();
        words.join(", ")
    };
    let (title, bold, rest) = (
        of(&|(_, share, _)| *share >= 1.0),
        of(&|(_, share, bold)| *bold && *share < 1.0),
        of(&|(_, _, bold)| !bold),
    );
    let head = of(&|(_, _, bold)| *bold);
    let small = |words: String| (words, SMALL, false);
    let mut all = vec![Block::of(lines.to_vec(), 1.0)];
    let broken = broken(lines);
    if broken.len() > lines.len() {
        all.push(Block::of(broken, 1.0));
    }
    all.push(Block::of(vec![(title, 1.0, true), (bold, 0.62, true), small(rest.clone())], 1.0));
    for parts in [3, 2, 1] {
        let mut lines = vec![(head.clone(), 1.0, true)];
        lines.extend(parted(&rest, parts).into_iter().map(small));
        all.push(Block::of(lines, IN_TWO));
    }
    all.push(Block::of(vec![small(format!("{head}, {rest}"))], IN_ONE));
    all
}

/// Lines with those broken that are much longer than the others.
fn broken(lines: &[Line]) -> Vec<Line> {
    let mut lengths: Vec<f64> = lines.iter().map(long).collect();
    lengths.sort_by(f64::total_cmp);
    let second = lengths.iter().rev().nth(1).copied().unwrap_or(0.0);
    let mut all = Vec::with_capacity(lines.len() + 2);
    for line in lines {
        let (words, share, bold) = line;
        let parts = (long(line) / (LONG * second).max(f64::MIN_POSITIVE)).ceil();
        match parts > 1.0 && parts.is_finite() {
            true => all.extend(parted(words, parts as usize).into_iter().map(|part| (part, *share, *bold))),
            false => all.push(line.clone()),
        }
    }
    all
}

/// Words in so many lines of about one length, broken only after a comma or a semicolon.
fn parted(words: &str, parts: usize) -> Vec<String> {
    let whole = Face::Plain.length(words, 1.0);
    let mut lines: Vec<String> = Vec::with_capacity(parts);
    let mut line = String::new();
    let mut so_far = 0.0;
    for bit in words.split_inclusive([',', ';']) {
        let own = Face::Plain.length(bit, 1.0);
        // It goes on where more than half of the bit would lie within this line's share.
        let share = whole * (lines.len() + 1) as f64 / parts.max(1) as f64;
        if !line.is_empty() && so_far + own / 2.0 > share {
            lines.push(std::mem::take(&mut line).trim().to_owned());
        }
        line.push_str(bit);
        so_far += own;
    }
    lines.push(line.trim().to_owned());
    lines
}

/// The smallest letters, as a share of the title's body.
const SMALL: f64 = 0.5;
/// What is run together in a line under its title, and in one line with it, is taken where what is not would have to be so
/// much smaller: a judgement.
const IN_TWO: f64 = 0.75;
const IN_ONE: f64 = 0.5;
/// A line longer than so many times the next longest is broken.
const LONG: f64 = 1.25;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_parted_after_commas_alone() {
        let words = "1 cm allowance included all round; top, neckline none; hem 4 cm";
        for parts in 1..6 {
            let lines = parted(words, parts);
            assert_eq!(lines.join(" "), words);
            assert!(lines.len() <= parts && lines.iter().all(|line| !line.is_empty()), "{lines:?}");
        }
        assert_eq!(parted(words, 2), ["1 cm allowance included all round;", "top, neckline none; hem 4 cm"]);
    }

    #[test]
    fn every_way_says_all() {
        let line = |words: &str, share, bold| (words.to_owned(), share, bold);
        let lines = [
            line("Deck jacket", 0.5, false),
            line("Cuff", 1.0, true),
            line("size M", 0.62, true),
            line("piece 3 of 9", 0.5, false),
            line("1 cm allowance included; top, bottom, left end, right end none; hem 4 cm", 0.5, false),
        ];
        let letters = |lines: &[Line]| {
            let mut all: Vec<char> = lines.iter().flat_map(|(words, ..)| words.chars()).collect();
            all.retain(|letter| letter.is_alphanumeric());
            all.sort_unstable();
            all
        };
        for block in blocks(&lines) {
            assert_eq!(letters(&block.lines), letters(&lines));
        }
    }
}
