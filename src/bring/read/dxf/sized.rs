//! What lies in an outline, as a piece in one size.

use super::item::{Item, SIGN, What};
use super::numbers::Lines;
use super::outlines::{Cluster, Within};
use super::roles::{Role, by_number, by_word};
use super::sew_lines::{Open, of_open};
use crate::bring::read::inside::{Inside, follows};
use crate::bring::read::letters::shown;
use crate::bring::read::line_work::{ends, without_spurs};
use crate::bring::read::said::{Key, before_count, cut_of, is_mirrored, keyed, quantity};
use crate::bring::read::small_notches::{at_sew_line, foot};
use crate::bring::read::two_folds::is_other;
use crate::bring::traced::{
    TracedCut, TracedLine, TracedMark, TracedNotch, TracedPath, TracedPoint, TracedSize,
};
use kurbo::{ParamCurve, PathSeg, Point};
use std::collections::HashMap;

/// A piece in one size, and what is written on it of name, size and cloth.
#[derive(Debug)]
pub(super) struct Drawn {
    /// The name, where it is written.
    pub name: Option<String>,
    /// The size, where it is written or a layer or colour says it.
    pub size: Option<String>,
    /// Two names that are both written in it with how many are cut.
    pub second_name: Option<(String, String)>,
    /// How many are cut.
    pub cut: Option<TracedCut>,
    /// From what.
    pub material: Option<String>,
    /// All else.
    pub sized: TracedSize,
    /// How many things were left out that other work needs.
    pub references: usize,
    /// How high the letters of its smallest words are, where any are written.
    pub letters: Option<f64>,
    /// Closed lines in it that could be pieces by themselves.
    pub within: Vec<Within>,
    /// What is in doubt of its lines by their layers.
    pub of_layers: Vec<String>,
    /// The outline, to be asked.
    pub inside: Inside,
    /// Whether lines of folds are drawn that do not lie in one line.
    pub has_two_folds: bool,
    /// Sew lines that do not close, and lines that may be one.
    pub open: Vec<Open>,
}

/// The longest stroke that may be a notch or an arm of a cross, mm.
const STROKE: f64 = 15.0;
/// How near to the outline a notch's end must lie, mm.
const ON_EDGE: f64 = 0.3;
/// How near to a vertex a point must lie that says what the vertex is, mm.
const ON_VERTEX: f64 = 0.05;

/// The piece that an outline and what lies in it are; `is_numbered`: layers have the numbers of ASTM D6673.
pub(super) fn drawn(cluster: Cluster, is_numbered: bool) -> Drawn {
    let Cluster { outline, inside, size, items, within, .. } = cluster;
    let mut drawn = Drawn {
        name: None,
        size,
        second_name: None,
        cut: None,
        material: None,
        sized: empty(),
        references: 0,
        letters: None,
        within,
        of_layers: Vec::new(),
        inside: inside.clone(),
        has_two_folds: false,
        open: Vec::new(),
    };
    let mut sorting =
        Sorting { inside: inside.clone(), is_numbered, vertices: HashMap::new(), ..Sorting::new(outline) };
    let mut words: Vec<(f64, String)> = Vec::new();
    let mut count = None;
    let mut lines = Lines::default();
    for item in items {
        let role = match is_numbered {
            true => by_number(&item.layer),
            false => by_word(&item.layer),
        };
        if let What::Words(_, height, _) = &item.what
            && *height > 0.0
        {
            drawn.letters = Some(drawn.letters.map_or(*height, |least| least.min(*height)));
        }
        match item.what {
            What::Words(_, height, text) => match keyed(&text) {
                Some((Key::PieceName, name)) => drawn.name = drawn.name.or_else(|| filled(name)),
                Some((Key::Size, size)) => drawn.size = drawn.size.or_else(|| filled(size)),
                Some((Key::Material, cloth)) => drawn.material = drawn.material.or_else(|| filled(cloth)),
                Some((Key::Quantity, many)) => match quantity(many) {
                    Some((own, rest)) => {
                        count = count.or(Some(own));
                        words.extend(filled(rest).map(|note| (height, note)));
                    }
                    None => drawn.of_layers.push(format!(
                        "what stands behind its quantity, “{}”, is not understood: 2 says two alike, 1,1 one and one turned over",
                        shown(many)
                    )),
                },
                Some((Key::Annotation, note)) => words.extend(filled(note).map(|note| (height, note))),
                Some((Key::SampleSize | Key::Date | Key::Time | Key::Units | Key::Other, _)) => {}
                None => words.push((height, text)),
            },
            _ if role == Role::Reference => drawn.references += 1,
            _ => {
                if is_numbered {
                    lines.see(role, &item.what);
                }
                sorting.take(&item, role);
            }
        }
    }
    if drawn.name.is_none() && !is_numbered {
        // The largest letters are the name, but for what they say of how many are cut.
        let largest = words.iter().map(|(height, _)| *height).fold(0.0, f64::max);
        let large = words.iter().filter(|(height, _)| *height >= largest);
        drawn.name = large.map(|(_, text)| before_count(text)).find_map(filled);
    }
    let mut counted = words.iter().filter_map(|(_, text)| {
        Some(before_count(text)).filter(|name| !name.is_empty() && name.len() < text.len())
    });
    drawn.second_name = counted.next().and_then(|first| {
        let other = counted.find(|other| !other.eq_ignore_ascii_case(first))?;
        Some((first.to_owned(), other.to_owned()))
    });
    let texts: Vec<String> = words.into_iter().map(|(_, text)| text).collect();
    let said = cut_of(&texts);
    drawn.cut = match (count, said) {
        (Some(own), said) => Some(TracedCut {
            mirrored: own.count.is_multiple_of(2)
                && (own.mirrored
                    || said.is_some_and(|said| said.mirrored)
                    || texts.iter().any(|text| is_mirrored(text))),
            ..own
        }),
        (None, said) => said,
    };
    drawn.of_layers.extend(lines.doubts(&inside));
    drawn.of_layers.extend(sorting.unknown_sew_lines());
    drawn.has_two_folds = sorting.has_two_folds();
    (drawn.sized, drawn.open) = sorting.finish();
    drawn.sized.texts = texts;
    drawn
}

fn filled(text: &str) -> Option<String> {
    (!text.is_empty()).then(|| text.to_owned())
}

fn empty() -> TracedSize {
    TracedSize::of(TracedPath { segments: Vec::new(), closed: true })
}

/// Things of one piece, sorted by what they are for.
struct Sorting {
    inside: Inside,
    is_numbered: bool,
    sized: TracedSize,
    /// What is said of vertices, by the cell of a grid.
    vertices: HashMap<(i64, i64), Vec<(Point, TracedPoint)>>,
    /// Closed lines on the sew layer.
    sewn: Vec<TracedPath>,
    /// Lines of folds.
    folds: Vec<(Point, Point)>,
    /// Open ones, and where they begin in the file.
    sewn_open: Vec<(usize, TracedPath)>,
    /// Closed lines on layers of which nothing is known, where layers are numbered.
    unknown: Vec<(String, TracedPath)>,
    /// Short strokes of which two may be a cross.
    strokes: Vec<(Point, Point)>,
}

impl Sorting {
    fn new(outline: TracedPath) -> Self {
        let inside = Inside::of(&outline);
        let sized = TracedSize { outline, ..empty() };
        Sorting {
            inside,
            is_numbered: false,
            sized,
            vertices: HashMap::new(),
            sewn: Vec::new(),
            folds: Vec::new(),
            sewn_open: Vec::new(),
            unknown: Vec::new(),
            strokes: Vec::new(),
        }
    }

    fn take(&mut self, item: &Item, role: Role) {
        let circle = item.what.small_circle();
        match (&item.what, role) {
            (What::Point(at), Role::Turn) => self.say(*at, TracedPoint::Corner),
            (What::Point(at), Role::Curve) => self.say(*at, TracedPoint::Curve),
            (What::Point(at), Role::Notch) => self.sized.notches.push(TracedNotch { at: *at }),
            (What::Path(path), Role::Notch) => self.notch(path, circle),
            (What::Path(path), Role::Mirror) => {
                longest(&mut self.sized.fold, path);
                let each = path.segments.iter().map(|one| (one.course.start(), one.course.end()));
                self.folds.extend(each);
            }
            (What::Path(path), Role::Grain) => longest(&mut self.sized.grain, path),
            (What::Path(path), Role::Sew) if path.closed => self.sewn.push(path.clone()),
            (What::Path(path), Role::Sew) => self.sewn_open.push((item.line, path.clone())),
            (What::Path(path), Role::CutOut) => self.line("cut-out", path.clone()),
            (What::Path(_), Role::Turn | Role::Curve | Role::Annotation | Role::Reference) => {}
            (What::Point(at), Role::Drill | Role::Internal) => self.mark(*at),
            (What::Point(at), Role::Unknown) if !self.is_numbered => self.mark(*at),
            (What::Path(path), Role::Drill) => match circle {
                Some(at) => self.mark(at),
                None => self.stroke_or_line("drill hole", path),
            },
            (What::Path(path), Role::Boundary | Role::Internal) => match circle {
                Some(at) => self.mark(at),
                None => self.line("", path.clone()),
            },
            (What::Path(path), Role::Unknown) => match circle {
                Some(at) => self.mark(at),
                None if self.is_numbered => {
                    if path.closed {
                        self.unknown.push((item.layer.to_string(), path.clone()));
                    }
                    self.line(&item.layer, path.clone());
                }
                None => match foot(path, |at| self.inside.nearest(at).0 <= ON_EDGE) {
                    Some(at) => self.sized.notches.push(TracedNotch { at }),
                    None => self.stroke_or_line("", path),
                },
            },
            (What::Point(_) | What::Words(..), _) => {}
        }
    }

    fn has_two_folds(&self) -> bool {
        self.sized.fold.is_some_and(|fold| self.folds.iter().any(|other| is_other(fold, *other)))
    }

    fn mark(&mut self, at: Point) {
        self.sized.marks.push(TracedMark { name: String::new(), at });
    }

    fn line(&mut self, name: &str, path: TracedPath) {
        self.sized.lines.push(TracedLine { name: name.to_owned(), path });
    }

    /// A notch that is drawn as a sign: where it lies on the edge.
    fn notch(&mut self, path: &TracedPath, circle: Option<Point>) {
        let at = match (circle, ends(path)) {
            (Some(at), _) => at,
            (None, Some((start, end))) if path.segments.len() == 1 => {
                // A stroke inward: the end on the edge; one across it: where it crosses.
                let (from_start, from_end) = (self.inside.nearest(start).0, self.inside.nearest(end).0);
                let is_across = self.inside.holds(start) != self.inside.holds(end);
                match () {
                    () if is_across && from_start.min(from_end) > ON_EDGE => {
                        self.inside.nearest(start.midpoint(end)).1
                    }
                    () if from_end < from_start => end,
                    () => start,
                }
            }
            // A V, a castle or a U: between its two ends.
            (None, Some((start, end))) => start.midpoint(end),
            (None, None) => return,
        };
        self.sized.notches.push(TracedNotch { at });
    }

    /// A short straight stroke with an end on the edge, or across it, is a notch; two that halve one another a cross.
    fn stroke_or_line(&mut self, name: &str, path: &TracedPath) {
        let stroke = match path.segments.as_slice() {
            [only] => match only.course {
                PathSeg::Line(line) if line.p0.distance(line.p1) <= STROKE => Some((line.p0, line.p1)),
                _ => None,
            },
            _ => None,
        };
        let Some((start, end)) = stroke else { return self.line(name, path.clone()) };
        let (from_start, on_start) = self.inside.nearest(start);
        let (from_end, on_end) = self.inside.nearest(end);
        let is_across = self.inside.holds(start) != self.inside.holds(end);
        if from_start <= ON_EDGE && from_start <= from_end {
            self.sized.notches.push(TracedNotch { at: on_start });
        } else if from_end <= ON_EDGE {
            self.sized.notches.push(TracedNotch { at: on_end });
        } else if is_across {
            let at = self.inside.nearest(start.midpoint(end)).1;
            self.sized.notches.push(TracedNotch { at });
        } else {
            self.strokes.push((start, end));
        }
    }

    fn say(&mut self, at: Point, what: TracedPoint) {
        self.vertices.entry(cell(at)).or_default().push((at, what));
    }

    /// What is said of a vertex; that it is a corner counts more.
    fn said(&self, at: Point) -> Option<TracedPoint> {
        let (x, y) = cell(at);
        let near =
            (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (x.saturating_add(dx), y.saturating_add(dy))));
        let mut said = None;
        for (place, what) in near.filter_map(|cell| self.vertices.get(&cell)).flatten() {
            if place.distance(at) <= ON_VERTEX && said != Some(TracedPoint::Corner) {
                said = Some(*what);
            }
        }
        said
    }

    fn finish(mut self) -> (TracedSize, Vec<Open>) {
        self.crosses();
        self.sew_line();
        let open = of_open(&mut self.sized, std::mem::take(&mut self.sewn_open));
        let mut sized = std::mem::replace(&mut self.sized, empty());
        if !self.is_numbered {
            at_sew_line(&mut sized, STROKE);
        }
        if !self.vertices.is_empty() {
            // Where turns are said a vertex that is only a notch's is none.
            for notch in &sized.notches {
                self.say(notch.at, TracedPoint::Curve);
            }
            let lines = sized.lines.iter_mut().map(|line| &mut line.path);
            for path in std::iter::once(&mut sized.outline).chain(sized.sew_line.as_mut()).chain(lines) {
                for segment in &mut path.segments {
                    if let Some(said) = self.said(segment.course.end()) {
                        segment.ends_at = said;
                    }
                }
            }
        }
        (sized, open)
    }

    /// Two strokes that halve one another are a mark; others are lines.
    fn crosses(&mut self) {
        let strokes = std::mem::take(&mut self.strokes);
        let mut middles: HashMap<(i64, i64), usize> = HashMap::new();
        for (index, (start, end)) in strokes.iter().enumerate() {
            middles.entry(cell(start.midpoint(*end))).or_insert(index);
        }
        let mut is_paired = vec![false; strokes.len()];
        let mut marks = Vec::new();
        for (index, (start, end)) in strokes.iter().enumerate() {
            let at = start.midpoint(*end);
            let (x, y) = cell(at);
            let near =
                (-1..=1).flat_map(|dx| (-1..=1).map(move |dy| (x.saturating_add(dx), y.saturating_add(dy))));
            let other = near.filter_map(|cell| middles.get(&cell).copied()).find(|&other| {
                other < index
                    && strokes.get(other).is_some_and(|(a, b)| a.midpoint(*b).distance(at) <= ON_VERTEX)
                    && !is_paired.get(other).copied().unwrap_or(true)
            });
            if let Some(other) = other {
                marks.push(at);
                for one in [index, other] {
                    if let Some(is_paired) = is_paired.get_mut(one) {
                        *is_paired = true;
                    }
                }
            }
        }
        for at in marks {
            self.mark(at);
        }
        for ((start, end), _) in strokes.into_iter().zip(is_paired).filter(|(_, is_paired)| !is_paired) {
            let mut work = crate::bring::read::line_work::LineWork::default();
            work.line(start, end);
            if let Some(path) = work.path(false) {
                self.line("", path);
            }
        }
    }

    /// What is said of closed lines on layers that mean nothing, which go round inside the outline as sew lines do.
    fn unknown_sew_lines(&self) -> Vec<String> {
        let follow = self.unknown.iter().filter(|(_, path)| {
            let own = Inside::of(path);
            follows(&self.inside.bounds(), &own.bounds()) && own.size() >= SIGN
        });
        let each = follow.map(|(layer, _)| {
            format!(
                "a closed line on layer {} goes round inside the outline as a sew line does; that layer means nothing, and it is taken for \
                 a line on the piece: a sew line stands on layer 14",
                shown(layer)
            )
        });
        each.collect()
    }

    /// The largest closed line on the sew layer, where it follows the outline all round; others are lines.
    fn sew_line(&mut self) {
        let bounds = self.inside.bounds();
        let mut best: Option<(f64, usize)> = None;
        for (index, path) in self.sewn.iter().enumerate() {
            let own = Inside::of(path);
            let follows = follows(&bounds, &own.bounds()) && own.size() >= SIGN;
            if follows && best.is_none_or(|(area, _)| own.area() > area) {
                best = Some((own.area(), index));
            }
        }
        for (index, path) in std::mem::take(&mut self.sewn).into_iter().enumerate() {
            match best {
                // One that only goes out and back encloses nothing.
                Some((_, own)) if own == index => {
                    self.sized.sew_line = Some(without_spurs(&path)).filter(|path| !path.segments.is_empty());
                }
                _ => self.line("stitching", path),
            }
        }
    }
}

/// Of lines on one layer the longest, from its start to its end.
fn longest(kept: &mut Option<(Point, Point)>, path: &TracedPath) {
    for segment in &path.segments {
        let (start, end) = (segment.course.start(), segment.course.end());
        if kept.is_none_or(|(from, to)| from.distance(to) < start.distance(end) - 1e-6) {
            *kept = Some((start, end));
        }
    }
}

/// The cell of a grid in which a point is looked for.
fn cell(at: Point) -> (i64, i64) {
    ((at.x / ON_VERTEX).floor() as i64, (at.y / ON_VERTEX).floor() as i64)
}
