//! The outlines among what is drawn together, and what belongs to each.

use super::item::{Item, SIGN, What};
use super::open_ends;
use super::roles::{Role, by_number, by_word};
use crate::bring::BringError;
use crate::bring::at_most::MOST_TOLD;
use crate::bring::read::inside::{Inside, goes_round};
use crate::bring::read::letters::shown;
use crate::bring::read::said::{Key, before_count, keyed};
use crate::bring::traced::TracedPath;
use crate::limits;
use kurbo::{ParamCurve, Point, Rect};
use std::collections::HashSet;

/// One outline and what lies in it.
#[derive(Debug)]
pub(super) struct Cluster {
    /// The outline.
    pub outline: TracedPath,
    /// The same, to be asked.
    pub inside: Inside,
    /// Its layer.
    pub layer: String,
    /// Where it begins in the file.
    pub line: usize,
    /// The size that its colour or its layer stands for.
    pub size: Option<String>,
    /// What lies in it.
    pub items: Vec<Item>,
    /// Closed lines in it that could be pieces by themselves.
    pub within: Vec<Within>,
}

/// A closed line that lies in an outline and is large enough to be one.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Within {
    /// What is written in it, as far as it may be a name.
    pub name: Option<String>,
    /// The smallest upright rectangle round it.
    pub bounds: Rect,
    /// How much it holds of what that outline does.
    pub share: f64,
    /// Its layer.
    pub layer: String,
    /// Where it begins in the file.
    pub line: usize,
    /// Whether it is that outline once more.
    pub is_twin: bool,
    /// Whether that outline is on the same layer.
    pub is_beside: bool,
}

/// Clusters, and what lies in none of them.
#[derive(Debug, Default)]
pub(super) struct Split {
    pub clusters: Vec<Cluster>,
    pub rest: Vec<Item>,
    /// How many points belong to several sizes, counted in each. Where a drawing may not hold so many the clusters are left out.
    pub copies: usize,
    /// What makes none of it a piece.
    pub wrong: Option<BringError>,
}

/// Of sizes in one another most lies in the larger one …
const HALF: f64 = 0.5;
/// … and of a line on a piece nearly all: else two pieces lie partly over one another.
const NEARLY_ALL: f64 = 0.8;

/// How many corners of polygons may be asked in one drawing, so that a tangle comes to an end.
const ASKED: usize = 200_000_000;

/// Whether anything among these things is an outline.
pub(super) fn holds_outline(items: &[Item]) -> bool {
    items.iter().any(|item| outline(item).is_some() || by_number(&item.layer) == Role::Boundary)
}

/// Whether layers have the numbers of ASTM D6673 here: there is an outline on its boundary layer.
pub(super) fn is_numbered(items: &[Item]) -> bool {
    items.iter().any(|item| by_number(&item.layer) == Role::Boundary && matches!(item.what, What::Path(_)))
}

/// The item's path where it could be an outline: closed and larger than a sign.
fn outline(item: &Item) -> Option<(&TracedPath, Inside)> {
    let What::Path(path) = &item.what else { return None };
    if !path.closed || by_word(&item.layer) != Role::Unknown {
        return None;
    }
    let inside = Inside::of(path);
    (inside.size() >= SIGN && inside.area() > LEAST_AREA).then_some((path, inside))
}

/// Whether a closed line as large as a piece crosses itself so that its parts cancel one another, as a rectangle does of which two
/// corners are exchanged. A line drawn to and fro holds nothing at all.
pub(super) fn is_crossing(inside: &Inside) -> bool {
    let bounds = inside.bounds();
    let share = |step: u32| (f64::from(step) + 0.4) / f64::from(PROBES);
    let mut probes = (0..PROBES).flat_map(|across| (0..PROBES).map(move |up| (across, up)));
    inside.size() >= SIGN
        && inside.area() <= LEAST_AREA
        && probes.any(|(across, up)| {
            let at = (bounds.x0 + share(across) * bounds.width(), bounds.y0 + share(up) * bounds.height());
            inside.holds(Point::from(at))
        })
}

/// What is said of an outline that crosses itself so.
pub(super) fn crossing(of: &str) -> String {
    format!("the outline{of} crosses itself and holds no area: are two of its corners exchanged?")
}

/// Of lines in one another no more are named.
const MOST_NAMED: usize = 5;
/// In so many places across and up it is asked whether a line holds anything.
const PROBES: u32 = 9;
/// What holds less, mm², is no piece.
const LEAST_AREA: f64 = 1.0;

/// Asks polygons, and counts what it costs.
struct Asking<'a> {
    left: usize,
    file: &'a str,
}

impl Asking<'_> {
    fn holds(&mut self, inside: &Inside, at: Point) -> Result<bool, BringError> {
        if !inside.bounds().contains(at) {
            return Ok(false);
        }
        self.spend(inside.cost())?;
        Ok(inside.holds(at))
    }

    /// Whether so much of one line lies in another: sizes may share an edge or cross one another a little.
    fn lies_in(&mut self, one: &Inside, other: &Inside, share: f64) -> Result<bool, BringError> {
        if one.bounds().intersect(other.bounds()).area() <= 0.0 {
            return Ok(false);
        }
        let mut held = 0;
        let samples = one.samples();
        for &at in &samples {
            held += usize::from(self.holds(other, at)?);
        }
        Ok(held as f64 > share * samples.len() as f64)
    }

    fn nearest(&mut self, inside: &Inside, at: Point) -> Result<f64, BringError> {
        if !inside.bounds().inflate(SIGN, SIGN).contains(at) {
            return Ok(f64::INFINITY);
        }
        self.spend(inside.cost())?;
        Ok(inside.nearest(at).0)
    }

    fn spend(&mut self, cost: usize) -> Result<(), BringError> {
        match self.left.checked_sub(cost) {
            Some(left) => {
                self.left = left;
                Ok(())
            }
            None => {
                let why = "so many closed lines lie over one another that nobody can tell what belongs to which; \
                           bring the pieces one by one";
                Err(BringError::new(self.file, why))
            }
        }
    }
}

/// Parts what is drawn together by its outlines.
///
/// # Errors
/// Sizes in one another that nothing names, more outlines than a pattern has.
pub(super) fn split(items: Vec<Item>, file: &str, whose: &str) -> Result<Split, BringError> {
    let is_numbered = is_numbered(&items);
    let mut all: Vec<(usize, Inside)> = Vec::new();
    for (index, item) in items.iter().enumerate() {
        if let Some((_, inside)) = outline(item)
            && (!is_numbered || by_number(&item.layer) == Role::Boundary)
        {
            all.push((index, inside));
        }
    }
    if all.is_empty() {
        let wrong = is_numbered.then(|| open_boundary(&items, file, whose));
        return Ok(Split { rest: items, wrong, ..Split::default() });
    }
    if all.len() > limits::DRAWING_PATHS {
        let why =
            format!("{whose} holds {} closed lines; at most {} are read", all.len(), limits::DRAWING_PATHS);
        return Err(BringError::new(file, why));
    }
    // The largest first: what lies in another comes after it.
    all.sort_by(|(_, one), (_, other)| other.area().total_cmp(&one.area()));
    let mut asking = Asking { left: ASKED, file };
    let mut roots: Vec<(usize, Inside)> = Vec::new();
    let mut are_nested = false;
    // What lies in which root, each by its place among the items.
    let mut within: Vec<(usize, usize, bool)> = Vec::new();
    for (index, inside) in all {
        let mut is_inside = false;
        let mut is_twin = false;
        for (root_index, root) in &roots {
            let colour = |at: usize| items.get(at).and_then(|item| item.colour);
            is_twin = inside.is_same(root) && (!is_numbered || colour(index) == colour(*root_index));
            if is_twin || asking.lies_in(&inside, root, if is_numbered { HALF } else { NEARLY_ALL })? {
                is_inside = true;
                within.push((index, *root_index, is_twin));
                break;
            }
        }
        // What is drawn twice is no second size, and is no line either.
        if is_twin {
            continue;
        }
        are_nested |= is_inside;
        // On the boundary layer each is an outline; else what lies in another is a line of that.
        if is_numbered || !is_inside {
            roots.push((index, inside));
        }
        if roots.len() > limits::DRAWING_PIECES {
            let why = format!("{whose} holds more than {} outlines; no pattern has so many", roots.len() - 1);
            return Err(BringError::new(file, why));
        }
    }
    // In the order of the drawing.
    roots.sort_by_key(|(index, _)| *index);
    let by_colour = match is_numbered && are_nested {
        true => Some(sizes_by_colour(&items, &roots, file, whose)?),
        false => None,
    };
    let mut clusters: Vec<Cluster> = Vec::with_capacity(roots.len());
    for (place, (index, inside)) in roots.iter().enumerate() {
        let Some(item) = items.get(*index) else { continue };
        let What::Path(path) = &item.what else { continue };
        clusters.push(Cluster {
            outline: path.clone(),
            inside: inside.clone(),
            layer: item.layer.to_string(),
            line: item.line,
            size: by_colour.as_ref().and_then(|sizes| sizes.get(place).cloned()),
            items: Vec::new(),
            within: Vec::new(),
        });
    }
    for &(index, root, is_twin) in within.iter().filter(|(.., is_twin)| *is_twin || !is_numbered) {
        let place = roots.iter().position(|(own, _)| *own == root);
        if let (Some(cluster), Some(item)) =
            (place.and_then(|place| clusters.get_mut(place)), items.get(index))
        {
            let What::Path(path) = &item.what else { continue };
            let inside = Inside::of(path);
            // Of those that are told.
            let name = (cluster.within.len() < MOST_TOLD).then(|| name_in(&inside, &items)).flatten();
            cluster.within.push(Within {
                name,
                bounds: inside.bounds(),
                share: inside.area() / cluster.inside.area().max(LEAST_AREA),
                is_beside: cluster.layer == *item.layer,
                layer: item.layer.to_string(),
                line: item.line,
                is_twin,
            });
        }
    }
    let twins = within.iter().filter(|(.., is_twin)| *is_twin).map(|(index, ..)| *index);
    let gone: HashSet<usize> = roots.iter().map(|(index, _)| *index).chain(twins).collect();
    if by_colour.is_some() {
        let colours: Vec<Option<i64>> =
            roots.iter().map(|(index, _)| items.get(*index).and_then(|item| item.colour)).collect();
        return Ok(by_own_colour(items, clusters, &colours, &gone));
    }
    let mut rest = Vec::new();
    for (_, item) in items.into_iter().enumerate().filter(|(index, _)| !gone.contains(index)) {
        match owner(&clusters, &item, &mut asking)?.and_then(|owner| clusters.get_mut(owner)) {
            Some(cluster) => cluster.items.push(item),
            None => rest.push(item),
        }
    }
    Ok(Split { clusters, rest, ..Split::default() })
}

/// What is drawn in the colour of a size belongs to it, and all else to every one.
fn by_own_colour(
    items: Vec<Item>,
    mut clusters: Vec<Cluster>,
    colours: &[Option<i64>],
    gone: &HashSet<usize>,
) -> Split {
    let is_common = |item: &Item| item.colour.is_none() || !colours.contains(&item.colour);
    let left = || items.iter().enumerate().filter(|(index, _)| !gone.contains(index));
    let common: usize = left().filter(|(_, item)| is_common(item)).map(|(_, item)| item.points()).sum();
    let copies = common.saturating_mul(clusters.len());
    if copies > limits::DRAWING_POINTS {
        return Split { copies, ..Split::default() };
    }
    for (_, item) in items.into_iter().enumerate().filter(|(index, _)| !gone.contains(index)) {
        let own = colours.iter().position(|colour| colour.is_some() && *colour == item.colour);
        match own.and_then(|own| clusters.get_mut(own)) {
            Some(cluster) => cluster.items.push(item),
            None => clusters.iter_mut().for_each(|cluster| cluster.items.push(item.clone())),
        }
    }
    Split { clusters, copies, ..Split::default() }
}

/// What is written in a closed line, but for how many are cut.
pub(super) fn name_in(inside: &Inside, items: &[Item]) -> Option<String> {
    items.iter().find_map(|item| match &item.what {
        What::Words(at, _, words) if inside.holds(*at) => {
            let name = keyed(words).map_or(Some(before_count(words)), |(key, name)| {
                Some(name).filter(|_| key == Key::PieceName)
            });
            name.filter(|name| name.contains(char::is_alphabetic)).map(str::to_owned)
        }
        _ => None,
    })
}

/// The outline that a thing belongs to: the only one, the one it lies in, or the one it lies next to.
fn owner(clusters: &[Cluster], item: &Item, asking: &mut Asking) -> Result<Option<usize>, BringError> {
    let at = item.middle();
    let mut nearest: Option<(f64, usize)> = None;
    for (index, cluster) in clusters.iter().enumerate() {
        if asking.holds(&cluster.inside, at)? {
            return Ok(Some(index));
        }
    }
    for (index, cluster) in clusters.iter().enumerate() {
        let away = asking.nearest(&cluster.inside, at)?;
        if away <= SIGN && nearest.is_none_or(|(least, _)| away < least) {
            nearest = Some((away, index));
        }
    }
    Ok(nearest.map(|(_, index)| index))
}

/// The boundaries lie in one another: each must have a colour of its own, and words in that colour that name its size.
fn sizes_by_colour(
    items: &[Item],
    roots: &[(usize, Inside)],
    file: &str,
    whose: &str,
) -> Result<Vec<String>, BringError> {
    let line = roots.first().and_then(|(index, _)| items.get(*index)).map_or(1, |item| item.line);
    if roots.len() > limits::SIZES {
        let why = format!(
            "{whose} holds {} closed lines on layer 1, some of them in one another: a garment has at most {} sizes, and a piece wants a \
             block of its own",
            roots.len(),
            limits::SIZES
        );
        return Err(BringError::new(file, why).at_line(line));
    }
    let mut sizes: Vec<String> = Vec::new();
    for (index, _) in roots {
        let colour = items.get(*index).and_then(|item| item.colour);
        let named = items.iter().find_map(|item| match &item.what {
            What::Words(_, _, words) if colour.is_some() && item.colour == colour => {
                keyed(words).filter(|(key, _)| *key == Key::Size).map(|(_, size)| size.to_owned())
            }
            _ => None,
        });
        sizes.extend(named.filter(|named| !sizes.contains(named)));
    }
    if sizes.len() == roots.len() {
        return Ok(sizes);
    }
    let each = roots.iter().take(MOST_NAMED).filter_map(|(index, inside)| {
        let item = items.get(*index)?;
        Some(format!("line {}, {}", item.line, extent(inside.bounds())))
    });
    let each: Vec<String> = each.collect();
    let more = if roots.len() > MOST_NAMED { " …" } else { "" };
    let why = format!(
        "{whose} holds {} closed lines on layer 1 that lie in one another ({}{more}), and nothing says which size each of them \
         is: give each size a block of its own, or its own colour with a text “Size: …” in that colour; a piece wants a block of its \
         own too",
        roots.len(),
        each.join("; ")
    );
    Err(BringError::new(file, why).at_line(line))
}

/// How large something is: `90 mm wide and 60 mm high`.
pub(super) fn extent(bounds: Rect) -> String {
    format!("{:.0} mm wide and {:.0} mm high", bounds.width(), bounds.height())
}

/// The boundary does not come back to where it began.
fn open_boundary(items: &[Item], file: &str, whose: &str) -> BringError {
    if let Some((line, why)) = open_ends::in_several_places(items, whose) {
        return BringError::new(file, why).at_line(line);
    }
    let open = items.iter().filter(|item| by_number(&item.layer) == Role::Boundary).find_map(|item| {
        match &item.what {
            What::Path(path) => {
                crate::bring::read::line_work::ends(path).map(|(start, end)| (item.line, start, end))
            }
            _ => None,
        }
    });
    match open {
        Some((line, start, end)) if start.distance(end) > 1e-6 => {
            let why = format!(
                "the boundary of {} is open: its ends, ({:.1}, {:.1}) and ({:.1}, {:.1}) mm, lie {:.1} mm apart; close it",
                shown(whose),
                start.x,
                start.y,
                end.x,
                end.y,
                start.distance(end)
            );
            BringError::new(file, why).at_line(line)
        }
        Some((line, ..)) if are_crossing(items) => {
            BringError::new(file, crossing(&format!(" of {}", shown(whose)))).at_line(line)
        }
        Some((line, ..)) => {
            let why =
                format!("the boundary of {} is smaller than {SIGN} mm: is the scale right?", shown(whose));
            BringError::new(file, why).at_line(line)
        }
        None => BringError::new(file, format!("{} has no boundary", shown(whose))),
    }
}

/// Whether a boundary among these crosses itself so that it holds no area.
fn are_crossing(items: &[Item]) -> bool {
    let mut boundaries = items.iter().filter(|item| by_number(&item.layer) == Role::Boundary);
    boundaries
        .any(|item| matches!(&item.what, What::Path(path) if path.closed && is_crossing(&Inside::of(path))))
}

/// What is said of an open line that was surely meant to be closed: its ends lie near one another for its length, or it goes
/// round something.
pub(super) fn nearly_closed(path: &TracedPath) -> Option<String> {
    let (start, end) = crate::bring::read::line_work::ends(path)?;
    let length: f64 =
        path.segments.iter().map(|segment| segment.course.start().distance(segment.course.end())).sum();
    let gap = start.distance(end);
    let is_near = length > 10.0 * SIGN && gap < length / 50.0;
    (!path.closed && path.segments.len() > 2 && (is_near || goes_round(path).is_some()))
        .then(|| format!("a line that is {length:.0} mm long ends {gap:.1} mm from where it begins"))
}
