//! One piece, in one size or in several that lie in one another.

use super::clear::Clear;
use super::fastener;
use super::look::{Lines, Look};
use super::pen::{Pen, Tone};
use super::pieces::{Group, same};
use super::shape::{Shape, What, Words};
use super::shared::{self, Line, in_order};
use crate::cutting::{CutPart, CutTakeUp, GuideKind};
use crate::garment::{Garment, LayerId, SizeId};
use crate::resolve::DrawnEdgeId;
use crate::shape::crossing::meetings;
use crate::shape::outline::contains;
use crate::shape::path::Path;
use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape as _, Vec2};

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
    /// By size: its cutting line, flattened.
    pub outlines: Vec<(SizeId, Vec<Point>)>,
    /// Which of how many it is.
    pub number: Option<(usize, usize)>,
}

/// Draws a group. `tinted`: surfaces too, for a screen; paper keeps its own.
pub fn draw_group(garment: &Garment, group: &Group, look: &Look, tinted: bool) -> Option<DrawnGroup> {
    let members: Vec<&CutPart> = group.members.iter().map(AsRef::as_ref).collect();
    let (&smallest, &largest) = (members.first()?, members.last()?);
    let mut sketch = Sketch::new(garment, &members, look);
    // What is the same in every size is drawn once, for all of them.
    let drawn: &[&CutPart] = if sketch.alike { std::slice::from_ref(&largest) } else { &members };
    if tinted {
        sketch.tint(drawn);
    }
    for part in drawn {
        sketch.stitching(part);
        if !(sketch.nested && look.shared_once) {
            sketch.cutting(part);
        }
    }
    if sketch.nested && look.shared_once {
        sketch.cutting_once(drawn);
    }
    sketch.fold(largest);
    for part in drawn {
        sketch.details(part);
        for fold in part.guides.iter().filter(|guide| guide.kind == GuideKind::Fold) {
            sketch.clear.fold(&fold.path.flatten(0.5));
        }
    }
    sketch.grain(smallest);
    sketch.said_at_fold(smallest);
    sketch.said_at_grain(smallest);
    sketch.names(largest, drawn);
    if sketch.nested {
        sketch.sizes_of_fasteners(drawn);
        sketch.size_names(drawn);
        sketch.sizes_of_notches(drawn);
    }
    sketch.label(&members, group.number);
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
        outlines: members.iter().map(|part| (part.size, flat_ring(&part.cutting_ring(), 1.0))).collect(),
        number: group.number,
    })
}

pub(super) struct Sketch<'a> {
    pub(super) garment: &'a Garment,
    /// Several sizes that differ.
    pub(super) nested: bool,
    /// Several sizes that do not.
    alike: bool,
    /// Which outlines are shown.
    outlines: Lines,
    pub(super) shapes: Vec<Shape>,
    pub(super) clear: Clear,
    /// The body of small words.
    pub(super) small: f64,
}

impl<'a> Sketch<'a> {
    fn new(garment: &'a Garment, members: &[&CutPart], look: &Look) -> Self {
        let several = members.len() > 1;
        let alike =
            several && members.windows(2).all(|pair| matches!(pair, [one, other] if same(one, other)));
        let nested = several && !alike;
        let outlines = look.lines(nested);
        let small = SMALL * look.words.clamp(1.0, MOST_ENLARGED);
        let clear = Clear::of_joins(&look.joins);
        Sketch { garment, nested, alike, outlines, shapes: Vec::new(), clear, small }
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
                if self.outlines.cut() {
                    self.shapes.push(Shape::fill(ring, Tone::Allowance).of(size));
                }
                self.shapes.push(Shape::fill(closed(&largest.stitching), Tone::Piece).of(size));
            }
        }
    }

    /// Where it is sewn.
    fn stitching(&mut self, part: &CutPart) {
        let size = self.size_of(part);
        let sewn_fold = part.fold.map(DrawnEdgeId::index);
        let stitched =
            chain(part.stitching.iter().enumerate().filter(|(at, _)| sewn_fold != Some(*at)), sewn_fold);
        // Where there is no allowance the two lines are one, and it is cut.
        if self.outlines.sew() {
            let name = self.name(part, "stitching");
            self.shapes.push(Shape::stroke(stitched, Pen::Stitch).of(size).sewn().named(name));
            self.clear.ring(&flat_ring(&part.stitching, 0.5));
            for hole in &part.holes {
                let name = self.name(part, "stitching");
                self.shapes.push(Shape::stroke(closed(hole), Pen::Stitch).of(size).sewn().named(name));
            }
        }
    }

    /// Where it is cut.
    fn cutting(&mut self, part: &CutPart) {
        if !self.outlines.cut() {
            return;
        }
        let (size, place) = (self.size_of(part), self.nested.then_some(part.size));
        let runs = part.cutting.iter().enumerate();
        let fold = part.fold.and_then(|fold| part.cutting.iter().position(|run| run.along == Some(fold)));
        let cut = chain(runs.filter(|(at, _)| fold != Some(*at)).map(|(at, run)| (at, &run.path)), fold);
        self.shapes.push(Shape::stroke(cut, Pen::Cut(place)).of(size).named(self.name(part, "cutting")));
        self.clear.ring(&flat_ring(&part.cutting_ring(), 0.5));
    }

    /// Where several sizes are cut, each stretch that they share drawn once.
    fn cutting_once(&mut self, members: &[&CutPart]) {
        if !self.outlines.cut() {
            return;
        }
        for (part, lines) in members.iter().zip(shared::lines(members)) {
            for Line { sizes, path } in lines {
                let alone = sizes.len() < 2;
                let pen = Pen::Cut(alone.then_some(part.size));
                let name = if alone { self.name(part, "cutting") } else { self.name(part, "shared") };
                let line = Shape::stroke(path, pen).named(name);
                self.shapes.push(if sizes.len() < members.len() { line.of_all(sizes) } else { line });
            }
            self.clear.ring(&flat_ring(&part.cutting_ring(), 0.5));
        }
    }

    /// The fold: sizes share it, and the largest one's is the longest.
    fn fold(&mut self, part: &CutPart) {
        let size = if self.nested { None } else { self.size_of(part) };
        let Some(path) = part.fold_path() else { return };
        self.shapes.push(Shape::stroke(path.to_bez(), Pen::Fold).of(size).named(self.name(part, "fold")));
        for stroke in symmetry_strokes(path) {
            let ends: Vec<Point> =
                stroke.elements().iter().filter_map(|element| element.end_point()).collect();
            self.clear.line(&ends);
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
            for &(from, to) in slit.cuts.iter().chain([&slit.end]).chain(&slit.start) {
                cut.move_to(from);
                cut.line_to(to);
                self.clear.line(&[from, to]);
            }
            self.shapes.push(Shape::stroke(cut, Pen::Slit).of(size).named(self.name(part, &slit.name)));
        }
        for row in &part.rows {
            let name = self.name(part, "topstitching");
            self.shapes.push(Shape::stroke(row.to_bez(), Pen::Topstitch).of(size).named(name));
            self.clear.row(&row.flatten(0.5));
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

    /// Words where there is room, beside where the piece is folded rather than over that.
    pub(super) fn with_room(&self, find: impl Fn(&Clear) -> Option<Words>) -> Option<Words> {
        find(&self.clear).or_else(|| find(&self.clear.but_folds()?))
    }

    pub(super) fn put(&mut self, words: Words, size: Option<SizeId>) {
        self.clear.words(words.corners());
        self.shapes.push(Shape::words(words).of(size));
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

/// Paths of a ring, one of them left out, as one line from its end on.
fn chain<'a>(paths: impl Iterator<Item = (usize, &'a Path)>, left_out: Option<usize>) -> BezPath {
    let ordered = in_order(paths, left_out);
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

pub(super) fn flat_ring(ring: &[Path], tolerance: f64) -> Vec<Point> {
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
/// The radius of the ring round the point of a dart, in millimetres.
pub(super) const POINT: f64 = 1.5;
/// The length of an arrow's head in a dart, in millimetres.
const ARROW: f64 = 3.0;
/// How far apart the two strokes of a line lie where a piece is lengthened or shortened, in millimetres.
const DOUBLE: f64 = 2.0;
/// Half the side of a mark's cross.
pub(super) const MARK: f64 = 2.2;
/// Half the width of an arrow's head.
const HEAD: f64 = 2.0;
/// Half the length of a stroke at the end of a fold.
const STROKE: f64 = 4.0;
/// The body of small words on a small sheet.
pub(super) const SMALL: f64 = 4.6;
/// By how much they are enlarged at most.
const MOST_ENLARGED: f64 = 2.0;
