//! Pieces in one size each, put together to pieces in all their sizes.

use super::item::{Item, What};
use super::outlines;
use super::roles::{Role, by_number};
use super::sized::Drawn;
use crate::bring::read::letters::shown;
use crate::bring::read::said::{ending_in_size, split_last};
use crate::bring::traced::{Traced, TracedCut, TracedPath, TracedPiece, TracedSize};
use crate::bring::{BringError, ReadOptions, SizesFrom};
use crate::limits;
use indexmap::IndexMap;
use kurbo::Rect;

/// One piece in one size, and what it is called.
struct One {
    /// What is written on it, else its block's or its layer's name, else empty.
    name: String,
    /// Whether the name is written on it.
    is_written: bool,
    size: Option<String>,
    origin: String,
    cut: Option<TracedCut>,
    material: Option<String>,
    sized: TracedSize,
    /// What it was matched to, of sizes that are layers: which piece of the layer that came first.
    matched: Option<usize>,
}

/// All that was found so far.
pub(super) struct Gathering<'a> {
    file: &'a str,
    options: ReadOptions,
    all: Vec<One>,
    /// Of sizes that are layers: pieces of the first layer, and where they lie.
    first_layer: Vec<(Rect, String)>,
    references: usize,
    outside: (usize, usize),
    open: Vec<(BringError, TracedPath)>,
    /// Boundaries that make no piece.
    pub wrong: Vec<BringError>,
    boundaries: Vec<TracedPath>,
    remarks: Vec<String>,
    /// The size that the drawing names as the one that it was drawn in.
    pub sample_size: Option<String>,
}

/// Of open outlines no more are kept.
const MOST_OPEN: usize = 100;

/// How much two pieces must lie over one another, of what both cover, to be one piece in two sizes.
const OVERLAP: f64 = 0.3;

impl<'a> Gathering<'a> {
    pub fn new(file: &'a str, options: ReadOptions) -> Self {
        Gathering {
            file,
            options,
            all: Vec::new(),
            first_layer: Vec::new(),
            references: 0,
            outside: (0, 0),
            open: Vec::new(),
            wrong: Vec::new(),
            boundaries: Vec::new(),
            remarks: Vec::new(),
            sample_size: None,
        }
    }

    pub fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    /// One piece in one size, put down so many times as drawn and turned over.
    pub fn add(
        &mut self,
        block: Option<&str>,
        times: (u32, u32),
        (layer, line): (&str, usize),
        drawn: Drawn,
    ) {
        let origin = match block {
            Some(name) => format!("block {} of {}", shown(name), self.file),
            None => format!("layer {} of {}, line {line}", shown(layer), self.file),
        };
        let count = times.0 + times.1;
        let by_times = (count > 1).then_some(TracedCut { count, mirrored: times.0 > 0 && times.1 > 0 });
        self.references += drawn.references;
        self.all.push(One {
            is_written: drawn.name.is_some(),
            name: drawn.name.unwrap_or_else(|| block.unwrap_or_default().to_owned()),
            size: drawn.size,
            origin,
            cut: drawn.cut.or(by_times),
            material: drawn.material,
            sized: drawn.sized,
            matched: None,
        });
    }

    /// The pieces of one size, which is a layer: each is the piece of the first layer that it lies on.
    pub fn layer(&mut self, block: Option<&str>, drawn: Vec<(Rect, Drawn)>) {
        let is_first = self.first_layer.is_empty();
        let mut taken: Vec<usize> = Vec::new();
        for (bounds, drawn) in drawn {
            let name = drawn.name.clone().unwrap_or_default();
            let size = drawn.size.clone().unwrap_or_default();
            let matched = match is_first {
                true => {
                    self.first_layer.push((bounds, name));
                    Some(self.first_layer.len() - 1)
                }
                false => {
                    let free = |index: &usize| !taken.contains(index);
                    let all = || self.first_layer.iter().enumerate().map(|(index, _)| index).filter(free);
                    let overlap = |index: &usize| {
                        self.first_layer.get(*index).map_or(0.0, |(own, _)| share(*own, bounds))
                    };
                    all()
                        .filter(|index| overlap(index) >= OVERLAP)
                        .max_by(|one, other| overlap(one).total_cmp(&overlap(other)).then(other.cmp(one)))
                        .or_else(|| {
                            let same = |index: &usize| {
                                self.first_layer.get(*index).is_some_and(|(_, own)| *own == name)
                            };
                            all().find(|index| !name.is_empty() && same(index))
                        })
                }
            };
            taken.extend(matched);
            if matched.is_none() {
                self.remarks.push(format!(
                    "One piece of size {} lies on none of the first size; it was taken as a piece of its own.",
                    shown(&size)
                ));
            }
            self.add(block, (1, 0), (&size, 0), drawn);
            if let Some(last) = self.all.last_mut() {
                last.origin = format!("layers of {}", self.file);
                last.matched = matched;
            }
        }
    }

    /// What lies in no piece: words are the style's, lines are told of.
    pub fn outside(&mut self, items: &[Item]) {
        for item in items {
            match &item.what {
                What::Words(..) => {}
                What::Point(_) => self.outside.1 += 1,
                What::Path(path) => {
                    self.outside.0 += 1;
                    if let Some(words) = outlines::nearly_closed(path)
                        && self.open.len() < MOST_OPEN
                    {
                        let why =
                            BringError::new(self.file, format!("an outline is open: {words}; close it"));
                        self.open.push((why.at_line(item.line), path.clone()));
                    }
                }
            }
        }
    }

    /// The lines of a boundary that does not close, to be looked at.
    pub fn boundary(&mut self, items: &[Item]) {
        let open = items.iter().filter(|item| by_number(&item.layer) == Role::Boundary);
        self.boundaries.extend(open.filter_map(|item| match &item.what {
            What::Path(path) if !path.closed => Some(path.clone()),
            _ => None,
        }));
    }

    /// The pieces with all their sizes.
    ///
    /// # Errors
    /// No outline at all, more pieces or sizes than limits allow.
    pub fn traced(mut self, mut remarks: Vec<String>) -> Result<Traced, BringError> {
        let (open, paths): (Vec<BringError>, Vec<TracedPath>) = self.open.drain(..).unzip();
        let mut paths = paths;
        paths.append(&mut self.boundaries);
        let mut wrong = std::mem::take(&mut self.wrong);
        wrong.extend(open);
        if self.all.is_empty() && wrong.is_empty() {
            let why = match self.outside.0 {
                0 => "there is no line in it that could be a piece's outline".to_owned(),
                count => format!("none of its {count} lines is closed, and a piece needs a closed outline"),
            };
            return Err(BringError::new(self.file, why));
        }
        self.find_sizes(&mut remarks);
        let mut pieces: IndexMap<(String, usize), TracedPiece> = IndexMap::new();
        let mut parted: IndexMap<String, usize> = IndexMap::new();
        for (index, one) in self.all.into_iter().enumerate() {
            let size = one.size.unwrap_or_default();
            let name = if one.name.is_empty() { format!("piece {}", index + 1) } else { one.name };
            let mut key = (name.to_lowercase(), one.matched.map_or(0, |matched| matched + 1));
            // The same piece twice in one size is two pieces.
            while pieces.get(&key).is_some_and(|piece| piece.sizes.contains_key(&size)) {
                key.1 += 1_000_000;
                *parted.entry(name.clone()).or_default() += 1;
            }
            let piece = pieces.entry(key).or_insert_with(|| TracedPiece {
                name,
                origin: one.origin,
                sizes: IndexMap::new(),
                cut: None,
                material: None,
            });
            piece.cut = piece.cut.or(one.cut);
            if piece.material.is_none() {
                piece.material = one.material;
            }
            piece.sizes.insert(size, one.sized);
        }
        for name in parted.keys() {
            remarks.push(format!(
                "“{}” stands there more than once in one size: each is a piece of its own.",
                shown(name)
            ));
        }
        same_in_all_sizes(&mut pieces, &mut remarks);
        let most = pieces.values().map(|piece| piece.sizes.len()).max().unwrap_or(0);
        if pieces.len() > limits::DRAWING_PIECES || most > limits::SIZES {
            let why = format!(
                "it holds {} pieces in {most} sizes; at most {} in {} are read",
                pieces.len(),
                limits::DRAWING_PIECES,
                limits::SIZES
            );
            return Err(BringError::new(self.file, why));
        }
        remarks.append(&mut self.remarks);
        let (lines, points) = self.outside;
        if lines + points > 0 {
            remarks.push(format!("{lines} lines and {points} points lie in no piece and were left out."));
        }
        if self.references > 0 {
            remarks.push(format!(
                "{} things that grading and matching of stripes need were left out (layers 5, 9, 10, 84 to 87).",
                self.references
            ));
        }
        let pieces = pieces.into_values().collect();
        Ok(Traced { pieces, remarks, wrong, open: paths, ..Traced::default() })
    }

    /// Sizes that nothing writes: they are what names end with, or the one that the drawing names.
    fn find_sizes(&mut self, remarks: &mut Vec<String>) {
        for one in &mut self.all {
            // A block that is named for its size too.
            if let Some(size) = one.size.as_deref().filter(|_| !one.is_written)
                && let Some((stem, last)) = split_last(&one.name)
                && last.eq_ignore_ascii_case(size)
            {
                one.name = stem.to_owned();
            }
        }
        let is_by_names = match self.options.sizes_from {
            Some(SizesFrom::Names) => true,
            Some(SizesFrom::Layers) => false,
            None => self.all.iter().all(|one| one.size.is_none()) && self.names_end_in_sizes(),
        };
        if is_by_names {
            let is_said = self.options.sizes_from.is_some();
            for one in self.all.iter_mut().filter(|one| one.size.is_none()) {
                let split = if is_said { split_last(&one.name) } else { ending_in_size(&one.name) };
                if let Some((stem, size)) = split.map(|(stem, size)| (stem.to_owned(), size.to_owned())) {
                    (one.name, one.size) = (stem, Some(size));
                }
            }
        } else if let Some(sample) = &self.sample_size
            && self.all.iter().all(|one| one.size.is_none())
        {
            remarks.push(format!(
                "Only the sample size, {}, is drawn; how it is graded is not in the drawing.",
                shown(sample)
            ));
            self.all.iter_mut().for_each(|one| one.size = Some(sample.clone()));
        }
    }

    /// Whether names end in sizes: some stem comes in two or more, and wherever one does its sizes are those of the
    /// others.
    fn names_end_in_sizes(&self) -> bool {
        let mut by_stem: IndexMap<String, Vec<String>> = IndexMap::new();
        for one in &self.all {
            if let Some((stem, size)) = ending_in_size(&one.name) {
                by_stem.entry(stem.to_lowercase()).or_default().push(size.to_uppercase());
            }
        }
        let Some(first) = by_stem.values().find(|sizes| sizes.len() > 1) else { return false };
        let same =
            |sizes: &Vec<String>| sizes.len() == first.len() && sizes.iter().all(|size| first.contains(size));
        by_stem.values().all(same)
    }
}

/// A piece that is drawn once, beside others in sizes, is the same in all of them.
fn same_in_all_sizes(pieces: &mut IndexMap<(String, usize), TracedPiece>, remarks: &mut Vec<String>) {
    let named = |piece: &&TracedPiece| !piece.sizes.contains_key("");
    let Some(sizes) = pieces.values().filter(named).max_by_key(|piece| piece.sizes.len()) else { return };
    let sizes: Vec<String> = sizes.sizes.keys().cloned().collect();
    for piece in pieces.values_mut().filter(|piece| piece.sizes.len() == 1) {
        let Some(only) = piece.sizes.get("").cloned() else { continue };
        piece.sizes = sizes.iter().map(|size| (size.clone(), only.clone())).collect();
        remarks.push(format!(
            "“{}” is drawn once and was taken to be the same in all sizes.",
            shown(&piece.name)
        ));
    }
}

/// How much of what two rectangles cover together both cover.
fn share(one: Rect, other: Rect) -> f64 {
    let both = one.intersect(other).area().max(0.0);
    both / (one.area() + other.area() - both).max(1e-9)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rectangles_share_what_both_cover() {
        let (one, other) = (Rect::new(0.0, 0.0, 2.0, 1.0), Rect::new(1.0, 0.0, 3.0, 1.0));
        assert!((share(one, other) - 1.0 / 3.0).abs() < 1e-12);
        assert_eq!(share(one, Rect::new(5.0, 5.0, 6.0, 6.0)), 0.0);
    }
}
