//! One piece, in one size or in several that lie in one another.

use super::clear::Clear;
use super::fastener;
use super::pen::{Pen, Tone};
use super::place;
use super::shape::{Shape, What, Words};
use crate::cutting::{CutPart, CutRun, CutTakeUp, Cutting, GuideKind};
use crate::garment::{Garment, LayerId, SizeId};
use crate::resolve::DrawnEdgeId;
use crate::shape::crossing::meetings;
use crate::shape::outline::contains;
use crate::shape::path::Path;
use kurbo::{Affine, BezPath, Circle, PathEl, Point, Rect, Shape as _, Vec2};

/// The same part in every size that is drawn, smallest first.
#[derive(Clone, Debug)]
pub struct Group<'a> {
    /// One a size.
    pub members: Vec<&'a CutPart>,
}

/// A piece ready to be laid on a sheet.
#[derive(Clone, Debug)]
pub struct DrawnGroup {
    /// In the order in which they are drawn.
    pub shapes: Vec<Shape>,
    /// What holds them all.
    pub bounds: Rect,
    /// The layer it is cut for.
    pub layer: LayerId,
    /// What people call it.
    pub title: String,
    /// The largest cutting line, flattened: for a small map.
    pub outline: Vec<Point>,
}

/// The parts of several sizes, part by part, in the order of the first size that has them.
pub fn group(cuts: &[Cutting]) -> Vec<Group<'_>> {
    let mut groups: indexmap::IndexMap<_, Vec<&CutPart>> = indexmap::IndexMap::new();
    for part in cuts.iter().flat_map(|cut| &cut.parts) {
        groups.entry((part.part, part.hand)).or_default().push(part);
    }
    groups.into_values().map(|members| Group { members }).collect()
}

/// Draws a group. `tinted`: surfaces too, for a screen; paper keeps its own.
pub fn draw_group(garment: &Garment, group: &Group, tinted: bool) -> Option<DrawnGroup> {
    let (smallest, largest) = (group.members.first()?, group.members.last()?);
    let mut sketch = Sketch::new(garment, &group.members);
    // What is the same in every size is drawn once, for all of them.
    let drawn: &[&CutPart] = if sketch.alike { std::slice::from_ref(largest) } else { &group.members };
    if tinted {
        sketch.tint(drawn);
    }
    for part in drawn {
        sketch.lines(part);
    }
    sketch.fold(largest);
    for part in drawn {
        sketch.details(part);
    }
    sketch.grain(smallest);
    sketch.names(largest);
    if sketch.nested {
        sketch.size_names(drawn);
    }
    sketch.label(&group.members);
    for part in drawn {
        sketch.fold_lines(part);
    }
    let bounds = sketch.shapes.iter().map(Shape::bounds).reduce(|all, own| all.union(own))?;
    Some(DrawnGroup {
        shapes: sketch.shapes,
        bounds,
        layer: largest.part.layer,
        title: largest.label.piece.clone(),
        outline: flat_ring(&largest.cutting_ring(), 1.0),
    })
}

struct Sketch<'a> {
    garment: &'a Garment,
    /// Several sizes that differ.
    nested: bool,
    /// Several sizes that do not.
    alike: bool,
    shapes: Vec<Shape>,
    clear: Clear,
}

impl<'a> Sketch<'a> {
    fn new(garment: &'a Garment, members: &[&CutPart]) -> Self {
        let several = members.len() > 1;
        let alike =
            several && members.windows(2).all(|pair| matches!(pair, [one, other] if same(one, other)));
        Sketch { garment, nested: several && !alike, alike, shapes: Vec::new(), clear: Clear::default() }
    }

    fn name(&self, part: &CutPart, what: &str) -> String {
        let piece = part.name(self.garment);
        match part.label.size.as_str() {
            "" => format!("{piece} {what}"),
            _ if self.alike => format!("{piece} {what}"),
            size => format!("{piece} {size} {what}"),
        }
    }

    /// The size that a shape belongs to; none of one that all sizes share.
    fn size_of(&self, part: &CutPart) -> Option<SizeId> {
        (!self.alike).then_some(part.size)
    }

    /// Allowance and piece.
    fn tint(&mut self, members: &[&CutPart]) {
        let Some(largest) = members.last() else { return };
        let ring = closed(&largest.cutting_ring());
        let size = self.size_of(largest);
        match self.nested {
            true => self.shapes.push(Shape::fill(ring, Tone::Piece).of(size)),
            false => {
                self.shapes.push(Shape::fill(ring, Tone::Allowance).of(size));
                self.shapes.push(Shape::fill(closed(&largest.stitching), Tone::Piece).of(size));
            }
        }
    }

    /// Where it is cut, sewn and folded.
    fn lines(&mut self, part: &CutPart) {
        let size = self.size_of(part);
        let place = self.nested.then_some(part.size);
        let sewn_fold = part.fold.map(DrawnEdgeId::index);
        let stitched =
            chain(part.stitching.iter().enumerate().filter(|(at, _)| sewn_fold != Some(*at)), sewn_fold);
        // Where there is no allowance the two lines are one, and it is cut.
        self.shapes.push(Shape::stroke(stitched, Pen::Stitch).of(size).named(self.name(part, "stitching")));
        let runs = part.cutting.iter().enumerate();
        let fold = part.fold.and_then(|fold| part.cutting.iter().position(|run| run.along == Some(fold)));
        let cut = chain(runs.filter(|(at, _)| fold != Some(*at)).map(|(at, run)| (at, &run.path)), fold);
        self.shapes.push(Shape::stroke(cut, Pen::Cut(place)).of(size).named(self.name(part, "cutting")));
        self.clear.ring(&flat_ring(&part.stitching, 0.5));
        self.clear.ring(&flat_ring(&part.cutting_ring(), 0.5));
    }

    /// The fold: sizes share it, and the largest one's is the longest.
    fn fold(&mut self, part: &CutPart) {
        let size = if self.nested { None } else { self.size_of(part) };
        let Some(path) = part.fold_path() else { return };
        self.shapes.push(Shape::stroke(path.to_bez(), Pen::Fold).of(size).named(self.name(part, "fold")));
        for stroke in symmetry_strokes(path) {
            self.shapes.push(Shape::stroke(stroke, Pen::Fold).of(size));
        }
    }

    /// Notches, lines inside, marks and buttons.
    fn details(&mut self, part: &CutPart) {
        let size = self.size_of(part);
        let snips = part.notches.iter().flat_map(|notch| &notch.snips);
        let snips = snips.chain(part.take_ups.iter().flat_map(|take_up| &take_up.snips));
        let mut notches = BezPath::new();
        for &(from, to) in snips {
            notches.move_to(from);
            notches.line_to(to);
            self.clear.line(&[from, to]);
        }
        if !notches.is_empty() {
            self.shapes.push(Shape::stroke(notches, Pen::Notch).of(size).named(self.name(part, "notches")));
        }
        for take_up in &part.take_ups {
            self.take_up(part, take_up, size);
        }
        for slit in &part.slits {
            let mut cut = BezPath::new();
            for &(from, to) in slit.cuts.iter().chain([&slit.end]) {
                cut.move_to(from);
                cut.line_to(to);
                self.clear.line(&[from, to]);
            }
            self.shapes.push(Shape::stroke(cut, Pen::Slit).of(size).named(self.name(part, &slit.name)));
        }
        for row in &part.rows {
            let name = self.name(part, "topstitching");
            self.shapes.push(Shape::stroke(row.to_bez(), Pen::Topstitch).of(size).named(name));
            self.clear.line(&row.flatten(0.5));
        }
        for line in &part.lines {
            let name = self.name(part, &line.name);
            self.shapes.push(Shape::stroke(line.path.to_bez(), Pen::Line).of(size).named(name));
            self.clear.line(&line.path.flatten(0.5));
            if self.garment.is_to_adjust(line.edge)
                && let Some(beside) = beside(&line.path)
            {
                self.clear.line(&beside.flatten(0.5));
                self.shapes.push(Shape::stroke(beside.to_bez(), Pen::Line).of(size));
            }
        }
        for guide in part.guides.iter().filter(|guide| guide.kind == GuideKind::Placed) {
            let name = self.name(part, &format!("{} placed", guide.name));
            self.shapes.push(Shape::stroke(guide.path.to_bez(), Pen::Dart).of(size).named(name));
            self.clear.line(&guide.path.flatten(0.5));
        }
        for mark in &part.marks {
            let mut cross = BezPath::new();
            for way in [Vec2::new(MARK, MARK), Vec2::new(MARK, -MARK)] {
                cross.move_to(mark.at - way);
                cross.line_to(mark.at + way);
                self.clear.line(&[mark.at - way, mark.at + way]);
            }
            self.shapes.push(Shape::stroke(cross, Pen::Mark).of(size).named(self.name(part, &mark.name)));
        }
        for fastener in &part.fasteners {
            let drawn = fastener::sign(fastener.kind, fastener.at, fastener.size);
            let mut round = Vec::new();
            kurbo::flatten(&drawn, 0.05, |element| round.extend(element.end_point()));
            self.clear.line(&round);
            let name = self.name(part, fastener.kind.one());
            self.shapes.push(Shape::stroke(drawn, Pen::Mark).of(size).named(name));
        }
    }

    /// Where it is folded in wear: drawn last, and broken where words stand, so that they have all the room there is.
    fn fold_lines(&mut self, part: &CutPart) {
        let size = self.size_of(part);
        let words = self.shapes.iter().filter_map(|shape| match &shape.what {
            What::Words(words) => Some(ground(words)),
            _ => None,
        });
        let grounds: Vec<Vec<Path>> = words.collect();
        for guide in part.guides.iter().filter(|guide| guide.kind == GuideKind::Fold) {
            let mut stops = vec![0.0, guide.path.length()];
            stops.extend(grounds.iter().flatten().flat_map(|side| meetings(&guide.path, side)));
            stops.sort_by(f64::total_cmp);
            let mut drawn = BezPath::new();
            for pair in stops.windows(2) {
                let &[from, to] = pair else { continue };
                let middle = guide.path.point_at_length(f64::midpoint(from, to));
                if to - from > SHORTEST && !grounds.iter().any(|ground| contains(ground, middle)) {
                    drawn.extend(guide.path.part(from, to).to_bez());
                }
            }
            let name = self.name(part, &guide.name);
            self.shapes.push(Shape::stroke(drawn, Pen::DartFold).of(size).named(name));
        }
    }

    /// A dart or pleat: its lines as they are sewn, its fold, where that is laid, its point, and an arrow the way that
    /// it is pressed.
    fn take_up(&mut self, part: &CutPart, take_up: &CutTakeUp, size: Option<SizeId>) {
        let mut legs = BezPath::new();
        for &(from, to) in &take_up.legs {
            legs.move_to(from);
            legs.line_to(to);
            self.clear.line(&[from, to]);
        }
        if !legs.is_empty() {
            let name = self.name(part, &take_up.name);
            self.shapes.push(Shape::stroke(legs, Pen::Stitch).of(size).named(name));
        }
        if let Some((from, to)) = take_up.fold {
            let mut fold = BezPath::new();
            fold.move_to(from);
            fold.line_to(to);
            self.clear.line(&[from, to]);
            let name = self.name(part, &format!("{} fold", take_up.name));
            self.shapes.push(Shape::stroke(fold, Pen::DartFold).of(size).named(name));
        }
        if let Some((from, to)) = take_up.placement {
            let mut placement = BezPath::new();
            placement.move_to(from);
            placement.line_to(to);
            self.clear.line(&[from, to]);
            let name = self.name(part, &format!("{} placement", take_up.name));
            self.shapes.push(Shape::stroke(placement, Pen::Dart).of(size).named(name));
        }
        let mut marks = BezPath::new();
        for &point in &take_up.points {
            marks.extend(Circle::new(point, POINT).to_path(0.01));
            self.clear.line(&[point - Vec2::new(POINT, 0.0), point + Vec2::new(POINT, 0.0)]);
        }
        if let Some((from, to)) = take_up.pressed {
            let way = to - from;
            let long = way.hypot();
            marks.move_to(from);
            marks.line_to(to);
            if long > 0.0 {
                let (way, head) = (way / long, ARROW.min(long / 2.0));
                for side in [way.turn_90(), -way.turn_90()] {
                    marks.move_to(to - way * head + side * (head / 2.0));
                    marks.line_to(to);
                }
            }
            self.clear.line(&[from, to]);
        }
        if !marks.is_empty() {
            let what = if take_up.placement.is_some() { "laid" } else { "point" };
            let name = self.name(part, &format!("{} {what}", take_up.name));
            self.shapes.push(Shape::stroke(marks, Pen::Dart).of(size).named(name));
        }
    }

    /// The grain, with heads at both ends; where the cloth must lie one way, only where it points.
    fn grain(&mut self, part: &CutPart) {
        let Some((from, to)) = part.grain_line else { return };
        let one_way = part.fabric.is_some_and(|fabric| self.garment.fabric(fabric).one_way);
        let drawn = arrow(from, to, one_way);
        self.clear.line(&[from, to]);
        for head in [from, to] {
            let corner = Vec2::new(HEAD, HEAD);
            let (low, high) = (head - corner, head + corner);
            self.clear.ring(&[low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]);
        }
        self.shapes.push(Shape::stroke(drawn, Pen::Grain).named(self.name(part, "grain")));
    }

    /// The names of lines and marks: once, at the largest size.
    fn names(&mut self, part: &CutPart) {
        for line in &part.lines {
            let words = Words::new(line.name.clone(), Point::ZERO, SMALL).grey();
            // Beside a curve, along its middle.
            let (low, high) = if line.path.is_curved() { NAMED } else { (0.0, 1.0) };
            let long = line.path.length();
            let [from, to] = [low, high].map(|share| line.path.point_at_length(share * long));
            if let Some(words) = place::along(&words, from, to, &self.clear) {
                self.put(words, None);
            }
        }
        for take_up in &part.take_ups {
            let words = Words::new(take_up.name.clone(), Point::ZERO, SMALL).grey();
            let Some(point) = take_up.label else { continue };
            if let Some(words) = place::beside(&words, point, POINT + 1.5, &self.clear) {
                self.put(words, None);
            }
        }
        for slit in &part.slits {
            let words = Words::new(slit.name.clone(), Point::ZERO, SMALL).grey();
            if let Some(words) =
                place::beside(&words, slit.end.0.midpoint(slit.end.1), MARK + 1.5, &self.clear)
            {
                self.put(words, None);
            }
        }
        for mark in &part.marks {
            let words = Words::new(mark.name.clone(), Point::ZERO, SMALL).grey();
            if let Some(words) = place::beside(&words, mark.at, MARK + 1.5, &self.clear) {
                self.put(words, None);
            }
        }
    }

    fn put(&mut self, words: Words, size: Option<SizeId>) {
        self.clear.words(words.corners());
        self.shapes.push(Shape::words(words).of(size));
    }

    /// Each size's name in its cutting line, one further along than the other, on the edge where
    /// the sizes lie farthest apart.
    fn size_names(&mut self, members: &[&CutPart]) {
        let (Some(first), Some(last)) = (members.first(), members.last()) else { return };
        let count = members.len() as f64;
        let middle = |part: &CutPart, edge: DrawnEdgeId| {
            let run = part.cutting.iter().find(|run| run.along == Some(edge))?;
            let length = run.path.length();
            (length >= ROOM_OF_NAME * count).then(|| run.path.point_at_length(length / 2.0))
        };
        let apart = |edge: DrawnEdgeId| Some(middle(first, edge)?.distance(middle(last, edge)?));
        let edges = DrawnEdgeId::enumerate(&first.stitching).map(|(edge, _)| edge);
        let edges = edges.filter(|edge| first.fold != Some(*edge));
        let found = edges.filter_map(|edge| Some((apart(edge)?, edge)));
        let found = found.max_by(|one, other| one.0.total_cmp(&other.0).then(other.1.cmp(&one.1)));
        // Lines that lie on one another are not told apart by names on them.
        let Some((_, edge)) = found.filter(|(apart, _)| *apart >= APART * (count - 1.0)) else { return };
        for (at, part) in members.iter().enumerate() {
            let Some(run) = part.cutting.iter().find(|run| run.along == Some(edge)) else { continue };
            let length = run.path.length();
            let wanted = length * (0.08 + 0.84 * (at as f64 + 0.5) / count);
            let room = (length * 0.84 / count - ROOM_OF_NAME * 0.6).max(0.0) / 2.0;
            let tried = [0.0, 0.3, -0.3, 0.6, -0.6, 0.9, -0.9].into_iter();
            let tried = tried.filter_map(|share| self.size_name(part, run, wanted + share * room));
            if let Some((_, words)) = tried.min_by_key(|(touched, _)| *touched) {
                self.put(words, Some(part.size));
            }
        }
    }

    /// A size's name in its line, so far along it, and how many lines go through it.
    fn size_name(&self, part: &CutPart, run: &CutRun, along: f64) -> Option<(usize, Words)> {
        let (way, place) = (run.path.tangent_at_length(along)?, run.path.point_at_length(along));
        let way = if way.x < -1e-9 || (way.x.abs() <= 1e-9 && way.y < 0.0) { -way } else { way };
        let mut words = Words::new(part.label.size.clone(), place, SIZE_NAME).bold();
        words.angle = libm::atan2(way.y, way.x);
        words.cleared = true;
        words.at = place - way * (words.length() / 2.0) - way.turn_90() * (words.size * 0.27);
        Some((self.clear.touched(&words.corners()), words))
    }

    /// What is written on the piece: as large as there is room for, along or across it; under it
    /// where there is none.
    fn label(&mut self, members: &[&CutPart]) {
        let Some(smallest) = members.first() else { return };
        let rings: Vec<Vec<Point>> = members.iter().map(|part| flat_ring(&part.stitching, 1.0)).collect();
        let blocks = [self.label_lines(members), self.label_in_short(members)];
        let extent = smallest.stitching.iter().map(Path::bounding_box).reduce(|all, own| all.union(own));
        let Some(extent) = extent else { return };
        let mut scale = wanted_title(extent.width(), extent.height());
        while scale >= LEAST_TITLE {
            for lines in &blocks {
                let (width, height) = block_size(lines, scale);
                let round = scale * ROUND;
                let (wide, high) = (width + round, height + round);
                if let Some(middle) = place::block(&rings, &self.clear, wide, high) {
                    self.write(lines, scale, middle - Vec2::new(width, -height) * 0.5, 0.0);
                    return;
                }
                if let Some(middle) = place::block(&rings, &self.clear, high, wide) {
                    let upright = std::f64::consts::FRAC_PI_2;
                    self.write(lines, scale, middle - Vec2::new(height, width) * 0.5, upright);
                    return;
                }
            }
            scale *= 0.84;
        }
        let all = self.shapes.iter().map(Shape::bounds).reduce(|all, own| all.union(own)).unwrap_or(extent);
        self.write(&blocks[0], UNDER, Point::new(all.x0, all.y0 - 3.0), 0.0);
    }

    /// The label's lines: words, size as a share of the title's, bold.
    fn label_lines(&self, members: &[&CutPart]) -> Vec<(String, f64, bool)> {
        let (Some(first), Some(last)) = (members.first(), members.last()) else { return Vec::new() };
        let label = &first.label;
        let sizes = match label.size.as_str() {
            "" => String::new(),
            size if members.len() > 1 => format!("sizes {size} to {}", last.label.size),
            _ => self.garment.size_words(first.size),
        };
        let lines = [
            (label.garment.clone(), 0.5, false),
            (label.piece.clone(), 1.0, true),
            (sizes, 0.62, true),
            (label.cloth.clone(), 0.5, false),
            (label.cut.clone(), 0.5, false),
            (if self.nested { String::new() } else { label.long_edge.clone() }, 0.5, false),
        ];
        lines.into_iter().filter(|(words, ..)| !words.is_empty()).collect()
    }

    /// The same in three lines, for a piece that is long and low.
    fn label_in_short(&self, members: &[&CutPart]) -> Vec<(String, f64, bool)> {
        let lines = self.label_lines(members);
        let together = |bold: bool| {
            let words = lines.iter().filter(|(_, share, own)| *own == bold && *share < 1.0);
            words.map(|(words, ..)| words.as_str()).collect::<Vec<_>>().join(", ")
        };
        let title = members.first().map_or_else(String::new, |part| part.label.piece.clone());
        let short = [(title, 1.0, true), (together(true), 0.62, true), (together(false), 0.5, false)];
        short.into_iter().filter(|(words, ..)| !words.is_empty()).collect()
    }

    /// Writes lines downward from the upper left corner of their block, in the way they are read.
    fn write(&mut self, lines: &[(String, f64, bool)], scale: f64, corner: Point, angle: f64) {
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

/// The second of the two strokes by which a line is known where a piece is lengthened or shortened: it stops short of
/// the edges, so that it does not cross them where they slant.
fn beside(path: &Path) -> Option<Path> {
    let long = path.length();
    let way = path.tangent_at_length(long / 2.0)?;
    let short = (2.0 * DOUBLE).min(long / 4.0);
    Some(path.part(short, long - short).transform(Affine::translate(-way.turn_90() * DOUBLE)))
}

/// The rectangle round words, with a little room.
fn ground(words: &Words) -> Vec<Path> {
    let [low, next, high, last] = words.corners();
    let (along, up) = (next - low, last - low);
    let room = |way: Vec2| way * (ROOM / way.hypot().max(f64::MIN_POSITIVE));
    let (along, up) = (room(along), room(up));
    let round = [low - along - up, next + along - up, high + along + up, last - along + up];
    round.iter().zip(round.iter().cycle().skip(1)).map(|(&from, &to)| Path::straight(from, to)).collect()
}

/// Whether two sizes of a part are cut alike, to what a drawing shows.
fn same(one: &CutPart, other: &CutPart) -> bool {
    let rings = [(&one.stitching, &other.stitching), (&one.cutting_ring(), &other.cutting_ring())];
    rings.into_iter().all(|(one, other)| {
        one.len() == other.len()
            && one.iter().zip(other).all(|(one, other)| {
                let (own, its) = (one.to_bez(), other.to_bez());
                own.elements().len() == its.elements().len()
                    && own.elements().iter().zip(its.elements()).all(|(one, other)| near(one, other))
            })
    })
}

fn near(one: &PathEl, other: &PathEl) -> bool {
    let close = |a: &Point, b: &Point| a.distance(*b) < 0.01;
    match (one, other) {
        (PathEl::MoveTo(a), PathEl::MoveTo(b)) | (PathEl::LineTo(a), PathEl::LineTo(b)) => close(a, b),
        (PathEl::CurveTo(a, b, c), PathEl::CurveTo(d, e, f)) => close(a, d) && close(b, e) && close(c, f),
        _ => false,
    }
}

/// How large a label's title should be on a piece so wide and high: by its lesser side, but of a
/// long and low piece, whose label has the length to spread in, more of it.
fn wanted_title(width: f64, height: f64) -> f64 {
    let (less, more) = (width.min(height), width.max(height));
    let slender = if less > 0.0 { (more / less).clamp(1.0, MOST_SLENDER) } else { 1.0 };
    (less * 0.075 * libm::pow(slender, 0.75)).clamp(5.0, LARGEST_TITLE)
}

/// How wide and high the lines of a label are.
fn block_size(lines: &[(String, f64, bool)], scale: f64) -> (f64, f64) {
    let width = |(text, share, bold): &(String, f64, bool)| {
        let words = Words::new(text.clone(), Point::ZERO, share * scale);
        if *bold { words.bold().length() } else { words.length() }
    };
    let height: f64 = lines.iter().map(|(_, share, _)| share * scale * LEADING).sum();
    (lines.iter().map(width).fold(0.0, f64::max), height)
}

/// Paths of a ring, one of them left out, as one line from its end on.
fn chain<'a>(paths: impl Iterator<Item = (usize, &'a Path)>, left_out: Option<usize>) -> BezPath {
    let paths: Vec<(usize, &Path)> = paths.collect();
    let (before, after): (Vec<_>, Vec<_>) =
        paths.into_iter().partition(|(at, _)| left_out.is_some_and(|out| *at < out));
    let ordered: Vec<&Path> = after.into_iter().chain(before).map(|(_, path)| path).collect();
    let mut line = BezPath::new();
    for path in ordered {
        if line.is_empty() {
            line.move_to(path.start());
        }
        line.extend(path.to_bez().elements().iter().skip(1).copied());
    }
    if left_out.is_none() {
        line.close_path();
    }
    line
}

fn closed(ring: &[Path]) -> BezPath {
    chain(ring.iter().enumerate(), None)
}

fn flat_ring(ring: &[Path], tolerance: f64) -> Vec<Point> {
    let mut points: Vec<Point> = Vec::new();
    for point in ring.iter().flat_map(|path| path.flatten(tolerance)) {
        if points.last().is_none_or(|last| last.distance(point) > 1e-6) {
            points.push(point);
        }
    }
    points
}

/// The two short strokes at each end of a line of symmetry (ISO 128), across it.
fn symmetry_strokes(path: &Path) -> Vec<BezPath> {
    let length = path.length();
    let off = (length * 0.06).min(9.0);
    let at = [off, off + 1.8, length - off - 1.8, length - off];
    at.into_iter()
        .filter_map(|along| {
            let (place, way) = (path.point_at_length(along), path.tangent_at_length(along)?);
            let mut stroke = BezPath::new();
            stroke.move_to(place - way.turn_90() * STROKE);
            stroke.line_to(place + way.turn_90() * STROKE);
            Some(stroke)
        })
        .collect()
}

/// A line with open heads at both ends, or only where it points.
pub(super) fn arrow(from: Point, to: Point, one_way: bool) -> BezPath {
    let mut drawn = BezPath::new();
    drawn.move_to(from);
    drawn.line_to(to);
    let length = from.distance(to);
    if length <= 0.0 {
        return drawn;
    }
    let way = (to - from) / length;
    let heads: &[(Point, Vec2)] = if one_way { &[(to, way)] } else { &[(from, -way), (to, way)] };
    for &(tip, way) in heads {
        let side = way.turn_90();
        drawn.move_to(tip - way * (1.9 * HEAD) + side * HEAD);
        drawn.line_to(tip);
        drawn.line_to(tip - way * (1.9 * HEAD) - side * HEAD);
    }
    drawn
}

/// Room between words and a line that is broken for them, in millimetres.
const ROOM: f64 = 1.5;
/// A shorter bit of a broken line than this is left out, in millimetres.
const SHORTEST: f64 = 1.0;
/// The stretch of a curved line beside which its name stands, as shares of its length.
const NAMED: (f64, f64) = (0.35, 0.65);
/// The radius of the ring round the point of a dart, in millimetres.
const POINT: f64 = 1.5;
/// The length of an arrow's head in a dart, in millimetres.
const ARROW: f64 = 3.0;
/// How far apart the two strokes of a line lie where a piece is lengthened or shortened, in millimetres.
const DOUBLE: f64 = 2.0;
/// Half the side of a mark's cross.
const MARK: f64 = 2.2;
/// Half the width of an arrow's head.
const HEAD: f64 = 2.0;
/// Half the length of a stroke at the end of a fold.
const STROKE: f64 = 4.0;
/// The body of small words.
const SMALL: f64 = 4.6;
/// The body of a size's name in its line.
const SIZE_NAME: f64 = 4.2;
/// How much of a line one size's name needs.
const ROOM_OF_NAME: f64 = 12.0;
/// Sizes nearer to each other than this are not named in their lines.
const APART: f64 = 1.5;
/// From line to line, in bodies.
const LEADING: f64 = 1.32;
/// A title need not be larger than this.
const LARGEST_TITLE: f64 = 19.0;
/// A piece longer than this many times its height gets no larger label for it: six lines then
/// take two thirds of the height.
const MOST_SLENDER: f64 = 2.2;
/// White round a label, on both sides together, in bodies of its title.
const ROUND: f64 = 0.6;
/// A title smaller than this cannot be read.
const LEAST_TITLE: f64 = 3.2;
/// The title's size of a label that stands under its piece.
const UNDER: f64 = 5.0;
