//! Drawings that Fustian made: each line has a title that says what it is, `outer.front M cutting`.

use super::elements::{Elements, Item};
use crate::bring::names::one_line;
use crate::bring::read::letters::base_name;
use crate::bring::read::line_work::without_spurs;
use crate::bring::traced::{
    Traced, TracedLine, TracedMark, TracedNotch, TracedPath, TracedPiece, TracedPoint, TracedSegment,
    TracedSize,
};
use indexmap::{IndexMap, IndexSet};
use kurbo::{Line, ParamCurve, PathSeg, Point};

/// The pieces of such a drawing; none of any other.
pub fn drawn(drawing: &Elements, file: &str) -> Option<Traced> {
    let named = |item: &Item, what: &str| {
        item.name.as_ref().and_then(|name| name.strip_suffix(what).map(str::to_owned))
    };
    // `outer.front`: a layer and a piece.
    let is_part = |prefix: &String| prefix.split(' ').next().is_some_and(|part| part.contains('.'));
    let of = |what: &str| -> IndexSet<String> {
        drawing.items.iter().filter_map(|item| named(item, what)).filter(is_part).collect()
    };
    let (cut, sewn) = (of(" cutting"), of(" stitching"));
    let prefixes: IndexSet<&String> = cut.union(&sewn).collect();
    if prefixes.is_empty() {
        return None;
    }
    // The longest first: of `outer.front` and `outer.front on left`, the one that says more.
    let mut by_length: Vec<&String> = prefixes.iter().copied().collect();
    by_length.sort_by(|one, other| other.len().cmp(&one.len()).then(one.cmp(other)));
    let mut parts: IndexMap<&String, Vec<(&str, &Item)>> =
        prefixes.iter().map(|prefix| (*prefix, Vec::new())).collect();
    for item in &drawing.items {
        let Some(name) = &item.name else { continue };
        let own = by_length
            .iter()
            .find_map(|prefix| Some((*prefix, name.strip_prefix(prefix.as_str())?.strip_prefix(' ')?)));
        if let Some((prefix, what)) = own
            && let Some(list) = parts.get_mut(prefix)
        {
            list.push((what, item));
        }
    }
    let mut traced = Traced {
        in_inches: drawing.in_inches,
        remarks: drawing.remarks.clone(),
        wrong: drawing.wrong.clone(),
        units: drawing.unit.clone().into_iter().collect(),
        ..Traced::default()
    };
    if cut.iter().any(|prefix| !sewn.contains(prefix)) {
        let words = "the drawing shows only where pieces are cut; drawn with `lines` both it holds where they are sewn too";
        traced.remarks.push(words.to_owned());
    }
    let mut pieces: IndexMap<String, TracedPiece> = IndexMap::new();
    for (prefix, items) in parts {
        let (name, size) = named_and_sized(prefix);
        let Some(found) = size_of(&items) else { continue };
        let piece = pieces.entry(name.clone()).or_insert_with(|| TracedPiece {
            origin: format!("{name} of {}", base_name(file)),
            name,
            sizes: IndexMap::new(),
            cut: None,
            material: None,
        });
        piece.sizes.insert(size, found);
    }
    for words in &drawing.words {
        let text = one_line(&words.text);
        let inside = |size: &TracedSize| {
            let segments = size.outline.segments.iter().map(|one| one.course);
            kurbo::Shape::contains(&kurbo::BezPath::from_path_segments(segments), words.at)
        };
        let known = pieces.values_mut().flat_map(|piece| piece.sizes.values_mut()).find(|size| inside(size));
        if let Some(size) = known {
            size.texts.push(text);
        }
    }
    // Of one layer's pieces the layer need not be said; where two layers have the piece, it tells them apart.
    let short = |name: &str| name.split_once('.').map_or(name, |(_, piece)| piece).to_owned();
    let mut counts: IndexMap<String, usize> = IndexMap::new();
    for name in pieces.keys() {
        *counts.entry(short(name)).or_insert(0) += 1;
    }
    for (name, mut piece) in pieces {
        if counts.get(&short(&name)) == Some(&1) {
            piece.name = short(&name);
        }
        traced.pieces.push(piece);
    }
    Some(traced)
}

/// `outer.front on left M` is that piece, on the left, in M.
fn named_and_sized(prefix: &str) -> (String, String) {
    let Some((piece, rest)) = prefix.split_once(' ') else { return (prefix.to_owned(), String::new()) };
    for hand in ["on left", "on right"] {
        if let Some(size) = rest.strip_prefix(hand) {
            return (format!("{piece} {hand}"), size.trim_start().to_owned());
        }
    }
    (piece.to_owned(), rest.to_owned())
}

fn size_of(items: &[(&str, &Item)]) -> Option<TracedSize> {
    let only = |wanted: &str| {
        let mut all = items.iter().filter(|(what, _)| *what == wanted).flat_map(|(_, item)| &item.paths);
        all.next()
    };
    let ends =
        |path: &TracedPath| Some((path.segments.first()?.course.start(), path.segments.last()?.course.end()));
    let (cutting, stitching) = (only("cutting"), only("stitching"));
    let inner = stitching.or(cutting)?;
    let outline = without_spurs(&shut(cutting.or(stitching)?));
    if outline.segments.is_empty() {
        return None;
    }
    let mut size = TracedSize {
        outline,
        // It is drawn open along the fold, and only there.
        fold: if inner.closed { None } else { ends(inner) },
        // A slit that takes no width goes out and back; it is a line of its own besides.
        sew_line: cutting
            .and(stitching)
            .map(shut)
            .map(|path| without_spurs(&path))
            .filter(|path| !path.segments.is_empty()),
        lines: Vec::new(),
        notches: Vec::new(),
        marks: Vec::new(),
        grain: None,
        texts: Vec::new(),
        cut: None,
        is_overlapped: false,
    };
    for (what, item) in items {
        match *what {
            "cutting" | "stitching" | "fold" => {}
            "notches" => {
                // A snip leads from the cutting line to the stitching line.
                let snips = item.paths.iter().filter_map(ends);
                size.notches.extend(snips.map(|(_, inner)| TracedNotch { at: inner }));
            }
            "grain" => size.grain = item.paths.first().and_then(ends),
            _ => match cross(&item.paths) {
                Some(at) => size.marks.push(TracedMark { name: (*what).to_owned(), at }),
                None => {
                    let lines = item
                        .paths
                        .iter()
                        .map(|path| TracedLine { name: (*what).to_owned(), path: path.clone() });
                    size.lines.extend(lines);
                }
            },
        }
    }
    Some(size)
}

/// The path closed by a straight line: that of the fold, which is drawn by itself.
fn shut(path: &TracedPath) -> TracedPath {
    let mut path = path.clone();
    if let (false, Some(first), Some(last)) = (path.closed, path.segments.first(), path.segments.last()) {
        let course = PathSeg::Line(Line::new(last.course.end(), first.course.start()));
        if course.start() != course.end() {
            path.segments.push(TracedSegment { course, arc: None, ends_at: TracedPoint::Unsaid });
        }
    }
    path.closed = true;
    path
}

/// The middle of two strokes that cross there.
fn cross(paths: &[TracedPath]) -> Option<Point> {
    let [one, other] = paths else { return None };
    let middle = |path: &TracedPath| match path.segments.as_slice() {
        [only] => Some(only.course.eval(0.5)),
        _ => None,
    };
    let (one, other) = (middle(one)?, middle(other)?);
    (one.distance(other) < 0.05).then_some(one)
}
