//! Pieces in one size each, put together to pieces in all their sizes.

use super::doubts::{nested, outside, overlapping};
use super::item::{Item, SIGN, What};
use super::named::find_sizes;
use super::one::One;
use super::outlines;
use super::roles::{Role, by_number, by_word};
use super::sized::Drawn;
use crate::bring::read::inside::Inside;
use crate::bring::read::letters::{base_name, shown};
use crate::bring::read::said::{before_count, keyed};
use crate::bring::traced::{Traced, TracedCut, TracedPath, TracedPiece, TracedUnit};
use crate::bring::{BringError, ReadOptions};
use crate::limits;
use indexmap::IndexMap;
use kurbo::Rect;

/// All that was found so far.
pub(super) struct Gathering<'a> {
    file: &'a str,
    options: ReadOptions,
    all: Vec<One>,
    /// Of sizes that are layers: pieces of the first layer, and where they lie.
    first_layer: Vec<(Rect, String)>,
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
    pub remarks: Vec<String>,
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
            references: 0,
            outside: (0, 0),
            outside_lines: Vec::new(),
            small: (0, 0.0, 0),
            letters: None,
            unit,
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
        if let Some((first, second)) = &drawn.second_name {
            self.remarks.push(format!(
                "{} and {} both stand in one piece, the {origin}, as names with how many are cut: it is called by the first; does the \
                 other belong to a piece that lies elsewhere?",
                shown(first),
                shown(second)
            ));
        }
        self.all.push(One {
            is_written: drawn.name.is_some(),
            name: drawn.name.unwrap_or_else(|| block.unwrap_or_default().to_owned()),
            size: drawn.size,
            origin,
            cut: drawn.cut.or(by_times),
            material: drawn.material,
            sized: drawn.sized,
            matched: None,
            line: block.is_none().then_some(line),
            within: drawn.within,
            inside: block.is_none().then_some(drawn.inside),
        });
    }

    /// The pieces of one size, which is a layer: each is the piece of the first layer that it lies on.
    pub fn layer(&mut self, block: Option<&str>, drawn: Vec<(usize, Drawn)>) {
        let is_first = self.first_layer.is_empty();
        let mut taken: Vec<usize> = Vec::new();
        for (line, drawn) in drawn {
            let bounds = drawn.inside.bounds();
            let name = drawn.name.clone().unwrap_or_default();
            let size = drawn.size.clone().unwrap_or_default();
            let matched = match is_first {
                true => {
                    self.first_layer.push((bounds, name.clone()));
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
                let piece = if name.is_empty() { "a piece".to_owned() } else { shown(&name) };
                let first = self.all.first().and_then(|one| one.size.clone()).unwrap_or_default();
                self.remarks.push(format!(
                    "{piece} of size {} (line {line} of {}) lies on none of size {}, the first one; it was taken as a piece of its own.",
                    shown(&size),
                    base_name(self.file),
                    shown(&first)
                ));
            }
            self.add(block, (1, 0), (&size, line), drawn);
            if let Some(last) = self.all.last_mut() {
                last.origin = format!("layers of {}", base_name(self.file));
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
        let name = beside.iter().find_map(|item| match &item.what {
            What::Words(at, _, words) if inside.bounds().contains(*at) => {
                Some(before_count(words)).filter(|name| !name.is_empty() && keyed(words).is_none())
            }
            _ => None,
        });
        let of = name.map_or_else(String::new, |name| format!(" of {}", shown(name)));
        let why = BringError::new(self.file, outlines::crossing(&of)).at_line(item.line);
        if !self.wrong.contains(&why) {
            self.wrong.push(why);
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
        let file = base_name(self.file);
        remarks.extend(nested(&self.all, file));
        let (over, words) = overlapping(&self.all, file);
        remarks.extend(words);
        for at in over {
            if let Some(one) = self.all.get_mut(at) {
                one.sized.is_overlapped = true;
            }
        }
        let mut places: IndexMap<(String, String), String> = IndexMap::new();
        let mut pieces: IndexMap<(String, usize), TracedPiece> = IndexMap::new();
        let mut parted: Vec<String> = Vec::new();
        for (index, one) in self.all.into_iter().enumerate() {
            let size = one.size.unwrap_or_default();
            let name = if one.name.is_empty() { format!("piece {}", index + 1) } else { one.name };
            let mut key = (name.to_lowercase(), one.matched.map_or(0, |matched| matched + 1));
            // The same piece twice in one size is two pieces.
            let mut is_second = false;
            while pieces.get(&key).is_some_and(|piece| piece.sizes.contains_key(&size)) {
                key.1 += 1_000_000;
                is_second = true;
            }
            let first =
                places.entry((name.to_lowercase(), size.clone())).or_insert_with(|| one.origin.clone());
            if is_second {
                let in_size = if size.is_empty() { String::new() } else { format!(" ({})", shown(&size)) };
                parted.push(format!(
                    "“{}” stands there more than once in one size{in_size}: {first}, and {}; each is a piece of its own, and two \
                     pieces want two names.",
                    shown(&name),
                    one.origin
                ));
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
        remarks.append(&mut parted);
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
        let pieces = pieces.into_values().collect();
        let units = vec![TracedUnit { letters: self.letters.map(|high| high * self.unit.size), ..self.unit }];
        Ok(Traced { pieces, remarks, wrong, open: paths, units, ..Traced::default() })
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
