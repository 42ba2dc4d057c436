//! What is written on a piece.

use super::clear::Clear;
use super::font::Face;
use super::piece::{Sketch, flat_ring};
use super::place;
use super::shape::{Shape, TITLE_LETTERS, Words, in_short};
use crate::cutting::{CutPart, GuideKind};
use crate::shape::path::Path;
use kurbo::{Point, Vec2};

/// A line of a label: its words, their size as a share of the title's, and whether they are bold.
type Line = (String, f64, bool);

impl Sketch<'_> {
    /// What is written on the piece: as large as there is room for, along or across it; under it
    /// where there is none.
    pub(super) fn label(&mut self, members: &[&CutPart], number: Option<(usize, usize)>) {
        let Some(smallest) = members.first() else { return };
        let rings: Vec<Vec<Point>> = members.iter().map(|part| flat_ring(&part.stitching, 1.0)).collect();
        let blocks = [self.label_lines(members, number), self.label_in_short(members, number)];
        let extent = smallest.stitching.iter().map(Path::bounding_box).reduce(|all, own| all.union(own));
        let Some(extent) = extent else { return };
        let wanted = wanted_title(extent.width(), extent.height());
        let folds =
            members.iter().flat_map(|part| &part.guides).filter(|guide| guide.kind == GuideKind::Fold);
        let mut beside_folds = self.clear.clone();
        let mut any = false;
        for fold in folds {
            beside_folds.line(&fold.path.flatten(0.5));
            any = true;
        }
        // Where there is no room at all, first over rows of stitching, then across where pages join.
        let tried = |clear: &Clear| find(&rings, clear, &blocks, wanted, LEAST_TITLE);
        let found = tried(&self.clear)
            .or_else(|| tried(&self.clear.but_rows()?))
            .or_else(|| tried(&self.clear.but_joins()?))
            .or_else(|| tried(&self.clear.but_joins()?.but_rows()?));
        // Clear of where it is folded, if it does not become much smaller there; else the fold is broken for it.
        let least = found.as_ref().map_or(LEAST_TITLE, |found| {
            (found.scale * LEAST_BESIDE_FOLD).max(READABLE.min(found.scale)).max(LEAST_TITLE)
        });
        let beside = if any { find(&rings, &beside_folds, &blocks, wanted, least) } else { None };
        if let Some(Found { lines, scale, corner, angle }) = beside.or(found) {
            self.write(lines, scale, corner, angle);
            return;
        }
        let all = self.shapes.iter().map(Shape::bounds).reduce(|all, own| all.union(own)).unwrap_or(extent);
        self.write(&blocks[0], UNDER, Point::new(all.x0, all.y0 - 3.0), 0.0);
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
        lines.extend([(label.cut.clone(), 0.5, false), (label.allowance.clone(), 0.5, false)]);
        if !self.nested {
            lines.push((label.long_edge.clone(), 0.5, false));
        }
        lines.retain(|(words, ..)| !words.is_empty());
        lines.iter_mut().for_each(|(words, ..)| *words = in_short(words, TITLE_LETTERS));
        lines
    }

    /// The same in three lines, for a piece that is long and low.
    fn label_in_short(&self, members: &[&CutPart], number: Option<(usize, usize)>) -> Vec<Line> {
        let lines = self.label_lines(members, number);
        let together = |bold: bool| {
            let words = lines.iter().filter(|(_, share, own)| *own == bold && *share < 1.0);
            words.map(|(words, ..)| words.as_str()).collect::<Vec<_>>().join(", ")
        };
        let title =
            members.first().map_or_else(String::new, |part| in_short(&part.label.piece, TITLE_LETTERS));
        let short = [(title, 1.0, true), (together(true), 0.62, true), (together(false), 0.5, false)];
        short.into_iter().filter(|(words, ..)| !words.is_empty()).collect()
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
    blocks: &'l [Vec<Line>; 2],
    wanted: f64,
    least: f64,
) -> Option<Found<'l>> {
    let sizes = blocks.each_ref().map(|lines| block_size(lines));
    let mut scale = wanted;
    while scale >= least {
        for (lines, size) in blocks.iter().zip(sizes) {
            let (width, height) = (size.0 * scale, size.1 * scale);
            let round = scale * ROUND;
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
        scale *= 0.84;
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

/// How wide and high the lines of a label are, in bodies of its title.
fn block_size(lines: &[Line]) -> (f64, f64) {
    let width = |(text, share, bold): &Line| {
        let face = if *bold { Face::Bold } else { Face::Plain };
        face.length(text, *share)
    };
    let height: f64 = lines.iter().map(|(_, share, _)| share * LEADING).sum();
    (lines.iter().map(width).fold(0.0, f64::max), height)
}

/// From line to line, in bodies.
const LEADING: f64 = 1.32;
/// A title need not be larger than this.
const LARGEST_TITLE: f64 = 19.0;
/// A piece longer than this many times its height gets no larger label for it: six lines then
/// take two thirds of the height.
const MOST_SLENDER: f64 = 2.2;
/// White round a label, on both sides together, in bodies of its title.
const ROUND: f64 = 0.6;
/// Beside a fold a label may be so much smaller than over it.
const LEAST_BESIDE_FOLD: f64 = 0.55;
/// The title's size at which the smallest letters, of half its body, have capitals of 3.5 mm, a nominal size of lettering
/// in ISO 3098-1 (Noto Sans: capitals are 714 of 1000 units): 3.5 / 0.714 × 2.
const READABLE: f64 = 9.81;
/// A title smaller than this cannot be read.
const LEAST_TITLE: f64 = 3.2;
/// The title's size of a label that stands under its piece.
const UNDER: f64 = 5.0;
