//! Pieces in one size each, put together to pieces in all their sizes.

use super::differing::{alike, of_other_cloth};
use super::doubts::{nested, outside, overlapping};
use super::item::{Item, SIGN, What};
use super::named::find_sizes;
use super::numbers;
use super::one::One;
use super::outlines;
use super::roles::{Role, by_number, by_word};
use super::sized::Drawn;
use super::twice::Place;
use crate::bring::at_most::{MOST_TOLD, at_most};
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::{base_name, shown};
use crate::bring::read::said::{before_count, keyed, split_last};
use crate::bring::read::two_folds::TwoFolds;
use crate::bring::traced::{Traced, TracedCut, TracedPath, TracedPiece, TracedSize, TracedUnit};
use crate::bring::{BringError, ReadOptions};
use crate::limits;
use crate::report::listed;
use indexmap::IndexMap;
use kurbo::Rect;
use std::collections::HashSet;

/// All that was found so far.
pub(super) struct Gathering<'a> {
    file: &'a str,
    options: ReadOptions,
    all: Vec<One>,
    /// Of sizes that are layers: pieces of the first layer, and where they lie, of all blocks.
    first_layer: Vec<(Rect, String)>,
    /// The size of that layer, and from which of those pieces on they are the last block's.
    first_size: (Option<String>, usize),
    /// Whether that block holds no other size.
    is_alone: bool,
    /// How many things are drawn in several sizes at once, counted in each.
    copies: usize,
    references: usize,
    outside: (usize, usize),
    /// Where lines lie that lie in no piece.
    outside_lines: Vec<usize>,
    /// How many closed lines in no piece are too small for one, how long the largest is, and where.
    small: (usize, f64, usize),
    /// How high the smallest letters are.
    letters: Option<f64>,
    unit: TracedUnit,
    open: Vec<(BringError, TracedPath)>,
    /// Boundaries that make no piece.
    pub wrong: Vec<BringError>,
    boundaries: Vec<TracedPath>,
    /// In which lines outlines begin that cross themselves.
    crossed: HashSet<usize>,
    /// Pieces with two folds.
    two_folds: TwoFolds,
    /// What is said of pieces with two names.
    two_names: Vec<String>,
    pub remarks: Vec<String>,
    /// What explains more than itself.
    pub causes: Vec<String>,
    /// What is said of outlines that were closed.
    pub closed: Vec<String>,
    /// By piece, what is in doubt of the layers of its lines, and in which sizes.
    of_layers: IndexMap<(String, String), Vec<String>>,
    /// The size that the drawing names as the one that it was drawn in.
    pub sample_size: Option<String>,
}

/// Of open outlines no more are kept.
const MOST_OPEN: usize = 100;

/// How much two pieces must lie over one another, of what both cover, to be one piece in two sizes.
pub(super) const OVERLAP: f64 = 0.3;

impl<'a> Gathering<'a> {
    pub fn new(file: &'a str, options: ReadOptions, unit: TracedUnit) -> Self {
        Gathering {
            file,
            options,
            all: Vec::new(),
            first_layer: Vec::new(),
            first_size: (None, 0),
            is_alone: false,
            copies: 0,
            references: 0,
            outside: (0, 0),
            outside_lines: Vec::new(),
            small: (0, 0.0, 0),
            letters: None,
            unit,
            open: Vec::new(),
            wrong: Vec::new(),
            boundaries: Vec::new(),
            crossed: HashSet::new(),
            two_folds: TwoFolds::default(),
            two_names: Vec::new(),
            remarks: Vec::new(),
            causes: Vec::new(),
            closed: Vec::new(),
            of_layers: IndexMap::new(),
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
            Some(name) => format!("block {} of {}", shown(name), base_name(self.file)),
            None => format!("layer {} of {}, line {line}", shown(layer), base_name(self.file)),
        };
        self.letters = match (self.letters, drawn.letters) {
            (Some(known), Some(own)) => Some(known.min(own)),
            (known, own) => known.or(own),
        };
        let count = times.0 + times.1;
        let by_times = (count > 1).then_some(TracedCut { count, mirrored: times.0 > 0 && times.1 > 0 });
        self.references += drawn.references;
        if drawn.has_two_folds {
            self.two_folds.see(drawn.name.as_deref().or(block).unwrap_or(&origin), drawn.size.as_deref());
        }
        for open in &drawn.open {
            let whose = drawn
                .name
                .as_deref()
                .map_or_else(|| origin.clone(), |name| format!("{} ({origin})", shown(name)));
            match open.words(&whose) {
                Ok(doubt) => self.remarks.push(doubt),
                Err(why) => {
                    self.wrong.push(BringError::new(self.file, why).at_line(open.line));
                    self.boundaries.extend((self.boundaries.len() < MOST_OPEN).then(|| open.path.clone()));
                }
            }
        }
        if let Some((first, second)) = &drawn.second_name {
            self.two_names.push(format!(
                "{} and {} both stand in one piece, the {origin}, as names with how many are cut: it is called by the first; does the \
                 other belong to a piece that lies elsewhere?",
                shown(first),
                shown(second)
            ));
        }
        let name = drawn.name.clone().unwrap_or_else(|| origin.clone());
        for doubt in &drawn.of_layers {
            let sizes = self.of_layers.entry((name.clone(), doubt.clone())).or_default();
            sizes.extend(drawn.size.iter().map(|size| shown(size)));
        }
        self.all.push(One {
            is_written: drawn.name.is_some(),
            name: drawn.name.unwrap_or_else(|| block.unwrap_or_default().to_owned()),
            block: block.map(str::to_owned),
            size: drawn.size,
            origin,
            cut: drawn.cut.or(by_times),
            material: drawn.material,
            sized: drawn.sized,
            matched: None,
            line: block.is_none().then_some(line),
            begins: line,
            bounds: drawn.inside.bounds(),
            within: drawn.within,
            inside: block.is_none().then_some(drawn.inside),
        });
    }

    /// Counts things that are drawn once and belong to several sizes.
    ///
    /// # Errors
    /// Where they come to more than a drawing may hold, each counted in every size.
    pub fn copied(&mut self, count: usize) -> Result<(), BringError> {
        self.copies = self.copies.saturating_add(count);
        if self.copies <= limits::DRAWING_POINTS {
            return Ok(());
        }
        let why = format!(
            "what is drawn once in it for several sizes comes to more than {} points, counted in each size: give each size's things its \
             own layer or colour, take out what is no pattern, or bring the pieces one by one",
            limits::DRAWING_POINTS
        );
        Err(BringError::new(self.file, why))
    }

    /// Begins with sizes that are layers of another block, which has coordinates of its own. Blocks that hold one size each may be
    /// sizes of one another.
    pub fn begin_layers(&mut self, sizes: usize) {
        if sizes > 1 || !self.is_alone {
            self.first_size = (None, self.first_layer.len());
        }
        self.is_alone = sizes == 1;
    }

    /// One piece in one size, which has a layer of its own: nothing that lies over it is drawn with it.
    pub fn named_layer(&mut self, (layer, line): (&str, usize), drawn: Drawn) {
        self.add(None, (1, 0), (layer, line), drawn);
        if let Some(last) = self.all.last_mut() {
            last.inside = None;
        }
    }

    /// The pieces of one size, which is a layer: each is the piece of the first layer that it lies on.
    pub fn layer(&mut self, block: Option<&str>, size: &str, drawn: Vec<(usize, Drawn)>) {
        let (first_size, begun) = &mut self.first_size;
        let (first, begun) = (first_size.get_or_insert_with(|| size.to_owned()).clone(), *begun);
        let is_first = self.first_layer.len() == begun || self.is_alone && first == size;
        let mut taken: HashSet<usize> = HashSet::new();
        let mut lonely: Vec<String> = Vec::new();
        for (line, drawn) in drawn {
            let bounds = drawn.inside.bounds();
            let name = drawn.name.clone().unwrap_or_default();
            let matched = match is_first {
                true => {
                    self.first_layer.push((bounds, name.clone()));
                    Some(self.first_layer.len() - 1)
                }
                false => {
                    let free = |index: &usize| !taken.contains(index);
                    let all = || (begun..self.first_layer.len()).filter(free);
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
                let piece = if name.is_empty() { "a piece".to_owned() } else { shown(&name) };
                lonely.push(format!(
                    "{piece} of size {} (line {line} of {}) lies on none of size {}, the first one; it was taken as a piece of its own.",
                    shown(size),
                    base_name(self.file),
                    shown(&first)
                ));
            }
            self.add(block, (1, 0), (size, line), drawn);
            if let Some(last) = self.all.last_mut() {
                last.origin = format!("layers of {}", base_name(self.file));
                last.matched = matched;
            }
        }
        let file = base_name(self.file);
        self.remarks.extend(at_most(lonely, |more| {
            format!("{more} more pieces of {file} lie on none of the first size, and were taken as pieces of their own.")
        }));
    }

    /// What lies in no piece: words are the style's, lines are told of.
    pub fn outside(&mut self, items: &[Item]) {
        for item in items {
            match &item.what {
                What::Words(..) => {}
                What::Point(_) => self.outside.1 += 1,
                What::Path(path) => {
                    let inside = Inside::of(path);
                    let size = inside.size();
                    let role = (by_word(&item.layer), by_number(&item.layer));
                    if path.closed
                        && matches!(role, (Role::Unknown, Role::Unknown | Role::Boundary))
                        && outlines::is_crossing(&inside)
                    {
                        self.crossing(item, path, &inside, items);
                        continue;
                    }
                    self.outside.0 += 1;
                    self.outside_lines.push(item.line);
                    if path.closed
                        && size < SIGN
                        && by_word(&item.layer) == Role::Unknown
                        && item.what.small_circle().is_none()
                    {
                        self.small.0 += 1;
                        if size > self.small.1 {
                            (self.small.1, self.small.2) = (size, item.line);
                        }
                    }
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

    /// A closed line beside all pieces that crosses itself so that its parts cancel one another.
    fn crossing(&mut self, item: &Item, path: &TracedPath, inside: &Inside, beside: &[Item]) {
        // Where sizes are layers the same line lies beside the pieces of each of them.
        if !self.crossed.insert(item.line) {
            return;
        }
        // Words are looked for as long as it is told.
        let name = (self.crossed.len() <= MOST_TOLD).then(|| {
            beside.iter().find_map(|item| match &item.what {
                What::Words(at, _, words) if inside.bounds().contains(*at) => {
                    Some(before_count(words)).filter(|name| !name.is_empty() && keyed(words).is_none())
                }
                _ => None,
            })
        });
        let of = name.flatten().map_or_else(String::new, |name| format!(" of {}", shown(name)));
        self.wrong.push(BringError::new(self.file, outlines::crossing(&of)).at_line(item.line));
        if self.boundaries.len() < MOST_OPEN {
            self.boundaries.push(path.clone());
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

    /// What is said of lines on layers in doubt, and of outlines that were closed.
    fn say_layers(&mut self, remarks: &mut Vec<String>) {
        let file = base_name(self.file);
        // Where other pieces have a grain line there, what has none needs none.
        let has_grain = self.all.iter().any(|one| one.sized.grain.is_some());
        let is_told = |words: &str| !(has_grain && words == numbers::NO_GRAIN);
        let of_layers =
            self.of_layers.iter().filter(|((_, words), _)| is_told(words)).map(|((piece, words), sizes)| {
                let of = if sizes.is_empty() { String::new() } else { format!(" ({})", listed(sizes)) };
                format!("{}{of}: {words}", shown(piece))
            });
        self.causes.extend(at_most(of_layers, |more| {
            format!("{more} more pieces of {file} have lines on layers in doubt.")
        }));
        remarks.extend(at_most(std::mem::take(&mut self.closed), |more| {
            format!("{more} more outlines of {file} were closed.")
        }));
    }

    /// What is said of what stands in no piece, or twice in one.
    fn say_left_out(&mut self, remarks: &mut Vec<String>) {
        let file = base_name(self.file);
        let two_names = std::mem::take(&mut self.two_names);
        remarks.extend(at_most(two_names, |more| {
            format!("{more} more pieces of {file} have two names in them.")
        }));
        remarks.extend(at_most(self.two_folds.told(self.file, "the longer one"), |more| {
            format!("{more} more pieces of {file} have two folds.")
        }));
        remarks.append(&mut self.remarks);
        let (lines, points) = self.outside;
        if lines + points > 0 {
            remarks.push(outside(lines, points, &self.outside_lines));
        }
        let (count, size, line) = self.small;
        if count > 0 {
            let many = if count == 1 {
                "1 closed line lies".to_owned()
            } else {
                format!("{count} closed lines lie")
            };
            remarks.push(format!(
                "{many} in no piece and, at most {size:.1} mm long (line {line}), are too small for one: {}.",
                self.unit.words()
            ));
        }
        if self.references > 0 {
            remarks.push(format!(
                "{} things that grading and matching of stripes need were left out (layers 5, 9, 10, 84 to 87).",
                self.references
            ));
        }
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
        if self.all.is_empty() && wrong.is_empty() && self.small.0 > 0 {
            let (count, size, line) = self.small;
            let many = if count == 1 {
                "its only closed line is".to_owned()
            } else {
                format!("its {count} closed lines are")
            };
            let other = self.unit.otherwise(size, |long| (100.0..2_500.0).contains(&long));
            let way = other.unwrap_or_else(|| "`scale` says how long 10 cm are in it".to_owned());
            let why = format!(
                "{many} at most {size:.1} mm long, too small for a piece: is the unit wrong? {}; {way}",
                self.unit.words()
            );
            return Err(BringError::new(self.file, why).at_line(line));
        }
        if self.all.is_empty() && wrong.is_empty() {
            let why = match self.outside.0 {
                0 => "there is no line in it that could be a piece's outline".to_owned(),
                count => format!("none of its {count} lines is closed, and a piece needs a closed outline"),
            };
            return Err(BringError::new(self.file, why));
        }
        find_sizes(&mut self.all, self.options.sizes_from, self.sample_size.as_deref(), &mut remarks);
        share_names(&mut self.all);
        let file = base_name(self.file);
        self.say_layers(&mut remarks);
        remarks.extend(nested(&self.all, file));
        let (over, words) = overlapping(&self.all, file);
        remarks.extend(words);
        for at in over {
            if let Some(one) = self.all.get_mut(at) {
                one.sized.is_overlapped = true;
            }
        }
        let mut places: IndexMap<(String, Option<usize>, String), Place> = IndexMap::new();
        // By name, by the piece of the first layer that it lies on, and by how many like it came before in its size.
        let mut pieces: IndexMap<PieceKey, TracedPiece> = IndexMap::new();
        let mut parted: Vec<String> = Vec::new();
        let mut cloths: IndexMap<String, Vec<(String, String)>> = IndexMap::new();
        for (index, one) in std::mem::take(&mut self.all).into_iter().enumerate() {
            let own = Place::of(&one);
            let size = one.size.unwrap_or_default();
            let name = if one.name.is_empty() { format!("piece {}", index + 1) } else { one.name };
            let mut key = (name.to_lowercase(), one.matched, 0);
            // The same piece twice in one size is two pieces.
            match places.get_mut(&(key.0.clone(), key.1, size.clone())) {
                Some(first) => {
                    key.2 = first.times;
                    first.times += 1;
                    parted.push(first.and(&own, &name, &size));
                }
                None => {
                    places.insert((key.0.clone(), key.1, size.clone()), own);
                }
            }
            let piece = pieces.entry(key).or_insert_with(|| TracedPiece {
                name,
                origin: one.origin,
                sizes: IndexMap::new(),
                cut: None,
                material: None,
            });
            piece.cut = piece.cut.or(one.cut);
            cloths
                .entry(piece.name.clone())
                .or_default()
                .extend(one.material.iter().map(|own| (size.clone(), own.clone())));
            if piece.material.is_none() {
                piece.material = one.material;
            }
            piece.sizes.insert(size, TracedSize { cut: one.cut, ..one.sized });
        }
        remarks.extend(at_most(parted, |more| {
            format!("{more} more outlines of {file} have the name and the size of another one.")
        }));
        let of_others = cloths.iter().filter_map(|(piece, cloths)| of_other_cloth(piece, cloths));
        remarks.extend(at_most(of_others, |more| {
            format!("{more} more pieces of {file} are cut of another cloth in one size than in the next.")
        }));
        let sizes = pieces.values().flat_map(|piece| piece.sizes.keys().map(String::as_str));
        remarks.extend(at_most(alike(sizes), |more| {
            format!("{more} more sizes of {file} differ in capitals alone.")
        }));
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
        self.say_left_out(&mut remarks);
        let pieces = pieces.into_values().collect();
        let units = vec![TracedUnit { letters: self.letters.map(|high| high * self.unit.size), ..self.unit }];
        Ok(Traced { pieces, remarks, causes: self.causes, wrong, open: paths, units, ..Traced::default() })
    }
}

/// Of sizes that are layers what is written once names the piece in all of them, and a name that ends with its own size is the
/// piece's without it.
fn share_names(all: &mut [One]) {
    let mut names: IndexMap<usize, String> = IndexMap::new();
    for one in &mut *all {
        let Some(matched) = one.matched else { continue };
        let stem =
            split_last(&one.name).filter(|(_, last)| one.size.as_deref().is_some_and(|size| size == *last));
        if let Some((stem, _)) = stem {
            one.name = stem.to_owned();
        }
        if !one.name.is_empty() {
            names.entry(matched).or_insert_with(|| one.name.clone());
        }
    }
    for one in all.iter_mut().filter(|one| one.name.is_empty()) {
        if let Some(matched) = one.matched {
            one.name = names.get(&matched).cloned().unwrap_or_else(|| format!("piece {}", matched + 1));
        }
    }
}

/// What pieces are told apart by.
type PieceKey = (String, Option<usize>, usize);

/// A piece that is drawn once, beside others in sizes, is the same in all of them.
fn same_in_all_sizes(pieces: &mut IndexMap<PieceKey, TracedPiece>, remarks: &mut Vec<String>) {
    let named = |piece: &&TracedPiece| !piece.sizes.contains_key("");
    let Some(sizes) = pieces.values().filter(named).max_by_key(|piece| piece.sizes.len()) else { return };
    let sizes: Vec<String> = sizes.sizes.keys().cloned().collect();
    let mut told = Vec::new();
    for piece in pieces.values_mut().filter(|piece| piece.sizes.len() == 1) {
        let Some(only) = piece.sizes.get("").cloned() else { continue };
        piece.sizes = sizes.iter().map(|size| (size.clone(), only.clone())).collect();
        told.push(format!(
            "“{}” is drawn once and was taken to be the same in all sizes.",
            shown(&piece.name)
        ));
    }
    let more =
        |more| format!("{more} more pieces are drawn once and were taken to be the same in all sizes.");
    remarks.extend(at_most(told, more));
}

/// How much of what two rectangles cover together both cover.
pub(super) fn share(one: Rect, other: Rect) -> f64 {
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
