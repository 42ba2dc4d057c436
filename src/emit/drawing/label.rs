//! What is written on a piece.

use super::blocks::{Block, LEADING, Line, blocks};
use super::clear::Clear;
use super::piece::{Sketch, flat_ring};
use super::place;
use super::shape::{ABOUT_LETTERS, Shape, TITLE_LETTERS, Words, in_short};
use crate::cutting::{CutPart, Label};
use crate::shape::path::Path;
use indexmap::IndexMap;
use kurbo::{Point, Vec2};

impl Sketch<'_> {
    /// What is written on the piece: as large as there is room for, along or across it; under it
    /// where there is none.
    pub(super) fn label(&mut self, members: &[&CutPart], number: Option<(usize, usize)>) {
        let Some(smallest) = members.first() else { return };
        let rings: Vec<Vec<Point>> = members.iter().map(|part| flat_ring(&part.stitching, 1.0)).collect();
        let lines = self.label_lines(members, number);
        let extent = smallest.stitching.iter().map(Path::bounding_box).reduce(|all, own| all.union(own));
        let Some(extent) = extent else { return };
        let blocks = blocks(&lines);
        let wanted = wanted_title(extent.width(), extent.height());
        // First as large as can be read with ease, in whichever way that can be.
        let tried = |clear: &Clear| {
            let found = find(&rings, clear, &blocks, wanted, READABLE);
            found.or_else(|| find(&rings, clear, &blocks, wanted, LEAST_TITLE))
        };
        // Where there is no room to be read in, over rows of stitching; where there is none at all, across where pages join.
        let in_room = |clear: &Clear| {
            let between = tried(clear);
            let can_be_read = between.as_ref().is_some_and(|found| found.scale >= LEAST_BESIDE_FOLD);
            let over = clear.but_rows().filter(|_| !can_be_read).and_then(|clear| tried(&clear));
            let scale = between.as_ref().map_or(0.0, |found| found.scale);
            over.filter(|over| MUCH_SMALLER * over.scale > scale)
                .or(between)
                .or_else(|| tried(&clear.but_joins()?))
                .or_else(|| tried(&clear.but_joins()?.but_rows()?))
        };
        let beside = in_room(&self.clear);
        // Beside where it is folded, unless nobody could read it there; else the fold is broken for it.
        let is_small = beside.as_ref().is_none_or(|found| found.scale < LEAST_BESIDE_FOLD);
        let over = self.clear.but_folds().filter(|_| is_small).and_then(|clear| in_room(&clear));
        let larger =
            |found: &Found| beside.as_ref().is_none_or(|beside| MUCH_SMALLER * found.scale > beside.scale);
        if let Some(Found { lines, scale, corner, angle }) = over.filter(larger).or(beside) {
            self.write(lines, scale, corner, angle);
            return;
        }
        let all = self.shapes.iter().map(Shape::bounds).reduce(|all, own| all.union(own)).unwrap_or(extent);
        self.write(&lines, UNDER, Point::new(all.x0, all.y0 - 3.0), 0.0);
    }

    /// The label's lines: words, size as a share of the title's, bold.
    fn label_lines(&self, members: &[&CutPart], number: Option<(usize, usize)>) -> Vec<Line> {
        let (Some(first), Some(last)) = (members.first(), members.last()) else { return Vec::new() };
        let label = &first.label;
        let sizes = match label.size.as_str() {
            "" => String::new(),
            size if members.len() > 1 => format!("sizes {size} to {}", last.label.size),
            _ => self.garment.size_words(first.size),
        };
        let counted = number.map_or_else(String::new, |(at, count)| format!("piece {at} of {count}"));
        let mut lines = vec![
            (label.garment.clone(), 0.5, false),
            (label.piece.clone(), 1.0, true),
            (sizes, 0.62, true),
            (counted, 0.5, false),
        ];
        lines.extend(label.cloth.lines().map(|cloth| (cloth.to_owned(), 0.5, false)));
        lines.push((in_sizes(members, |label| &label.cut), 0.5, false));
        let before_allowance = lines.len();
        lines.push((in_sizes(members, |label| &label.allowance), 0.5, false));
        if !self.nested {
            lines.push((label.long_edge.clone(), 0.5, false));
        }
        // Of allowances none is left out: what is cut off there would be cut wrongly.
        for (at, (words, ..)) in lines.iter_mut().enumerate() {
            *words = in_short(words, if at == before_allowance { ABOUT_LETTERS } else { TITLE_LETTERS });
        }
        lines.retain(|(words, ..)| !words.is_empty());
        lines
    }

    /// Writes lines downward from the upper left corner of their block, in the way they are read.
    fn write(&mut self, lines: &[Line], scale: f64, corner: Point, angle: f64) {
        let (sine, cosine) = libm::sincos(angle);
        let along = Vec2::new(cosine, sine);
        let down = -along.turn_90();
        let mut from = 0.0;
        for (text, share, bold) in lines {
            let size = share * scale;
            let mut words = Words::new(text.clone(), corner + down * (from + size * 0.95), size);
            words.angle = angle;
            if *bold {
                words = words.bold();
            }
            from += size * LEADING;
            self.put(words, None);
        }
    }
}

/// What the label of each size says; with the sizes before it where they say different things.
fn in_sizes(members: &[&CutPart], line: impl Fn(&Label) -> &String) -> String {
    let mut said: IndexMap<&str, Vec<&str>> = IndexMap::new();
    for label in members.iter().map(|member| &member.label) {
        said.entry(line(label)).or_default().push(&label.size);
    }
    match said.len() {
        0 | 1 => said.keys().copied().collect(),
        _ => said
            .iter()
            .filter(|(words, _)| !words.is_empty())
            .map(|(words, sizes)| format!("{}: {words}", sizes.join(", ")))
            .collect::<Vec<_>>()
            .join("; "),
    }
}

/// Where a label goes.
struct Found<'l> {
    lines: &'l [Line],
    scale: f64,
    /// The upper left corner of its block, in the way it is read.
    corner: Point,
    angle: f64,
}

/// The largest of the blocks that has room, along or across.
fn find<'l>(
    rings: &[Vec<Point>],
    clear: &Clear,
    blocks: &'l [Block],
    wanted: f64,
    least: f64,
) -> Option<Found<'l>> {
    let mut rank = wanted;
    let last = blocks.iter().map(|block| block.share).fold(1.0, f64::min) * least;
    while rank >= last {
        for Block { lines, share, size, largest } in blocks {
            let scale = rank / share;
            if scale < least || scale > wanted {
                continue;
            }
            let (width, height) = (size.0 * scale, size.1 * scale);
            let round = scale * largest * ROUND;
            let (wide, high) = (width + round, height + round);
            if let Some(middle) = place::block(rings, clear, wide, high) {
                let corner = middle - Vec2::new(width, -height) * 0.5;
                return Some(Found { lines, scale, corner, angle: 0.0 });
            }
            if let Some(middle) = place::block(rings, clear, high, wide) {
                let corner = middle - Vec2::new(height, width) * 0.5;
                return Some(Found { lines, scale, corner, angle: std::f64::consts::FRAC_PI_2 });
            }
        }
        rank *= 0.84;
    }
    None
}

/// How large a label's title should be on a piece so wide and high: by its lesser side, but of a
/// long and low piece, whose label has the length to spread in, more of it.
fn wanted_title(width: f64, height: f64) -> f64 {
    let (less, more) = (width.min(height), width.max(height));
    let slender = if less > 0.0 { (more / less).clamp(1.0, MOST_SLENDER) } else { 1.0 };
    (less * 0.075 * libm::pow(slender, 0.75)).clamp(5.0, LARGEST_TITLE)
}

/// A title need not be larger than this.
const LARGEST_TITLE: f64 = 19.0;
/// A piece longer than this many times its height gets no larger label for it: six lines then
/// take two thirds of the height.
const MOST_SLENDER: f64 = 2.2;
/// White round a label, on both sides together, in bodies of its largest letters.
const ROUND: f64 = 0.6;
/// The title's size at which the smallest letters, of half its body, have capitals of 3.5 mm, a nominal size of lettering
/// in ISO 3098-1 (Noto Sans: capitals are 714 of 1000 units): 3.5 / 0.714 × 2.
const READABLE: f64 = 9.81;
/// A title smaller than this stands over a fold if it has much more room there: its smallest letters, of half its body,
/// have capitals of 1.8 mm, the least nominal size of lettering in ISO 3098-1 (Noto Sans: capitals are 714 of 1000 units).
const LEAST_BESIDE_FOLD: f64 = 5.04;
/// What is smaller than this share of something is much smaller.
const MUCH_SMALLER: f64 = 0.75;
/// A title smaller than this cannot be read.
const LEAST_TITLE: f64 = 3.2;
/// The title's size of a label that stands under its piece.
const UNDER: f64 = 5.0;
