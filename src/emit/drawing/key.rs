//! What the lines mean, drawn beside their words.

use super::fastener;
use super::pen::Pen;
use super::piece::arrow;
use super::shape::{Shape, What, Words};
use crate::garment::{Garment, SizeId};
use crate::syntax::tree::Fastener;
use kurbo::{BezPath, Circle, Point, Shape as _, Vec2};

/// A line of the key.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Entry {
    /// The sample.
    pub sample: Sample,
    /// What it means.
    pub words: String,
}

/// What a sample shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Sample {
    /// A line.
    Line(Pen),
    /// A notch across a bit of allowance.
    Notch,
    /// A grain line.
    Grain,
    /// A marked place.
    Mark,
    /// A dart.
    Dart,
    /// A slit.
    Slit,
    /// A fold of a pleat.
    Pleat,
    /// A button, a snap and the like.
    Fastener(Fastener),
}

/// The key to these shapes: only what occurs, in the order of making.
pub(crate) fn entries(garment: &Garment, shapes: &[Shape]) -> Vec<Entry> {
    let has = |wanted: Pen| {
        shapes.iter().any(|shape| matches!(&shape.what, What::Stroke(_, pen) if *pen == wanted))
    };
    let named =
        |end: &str| shapes.iter().any(|shape| shape.name.as_deref().is_some_and(|name| name.ends_with(end)));
    let mut key = Vec::new();
    let mut put = |sample: Sample, words: &str| key.push(Entry { sample, words: words.to_owned() });
    let nested = SizeId::enumerate(&garment.sizes).any(|(id, _)| has(Pen::Cut(Some(id))));
    if has(Pen::Cut(None)) {
        put(Sample::Line(Pen::Cut(None)), if nested { "cut several sizes" } else { "cut" });
    }
    for (id, size) in SizeId::enumerate(&garment.sizes) {
        if has(Pen::Cut(Some(id))) {
            put(Sample::Line(Pen::Cut(Some(id))), &format!("cut {}", size.name));
        }
    }
    if has(Pen::Stitch) {
        put(Sample::Line(Pen::Stitch), "sew");
    }
    if has(Pen::Topstitch) {
        put(Sample::Line(Pen::Topstitch), "topstitch");
    }
    if has(Pen::Fold) {
        put(Sample::Line(Pen::Fold), "lay on the fold");
    }
    if has(Pen::Notch) {
        put(Sample::Notch, "notch: snip here");
    }
    if has(Pen::Grain) {
        put(Sample::Grain, "grain of the cloth");
    }
    if named(" point") {
        put(Sample::Dart, "dart, pressed as shown");
    }
    if named(" placement") {
        put(Sample::Pleat, "pleat: fold, and lay on the other line");
    }
    if named(" fold line") {
        put(Sample::Line(Pen::DartFold), "fold");
    }
    if named(" placed") {
        put(Sample::Line(Pen::Dart), "lay a piece on here");
    }
    if has(Pen::Slit) {
        put(Sample::Slit, "slit: cut in as far as the stroke");
    }
    if has(Pen::Line) {
        put(Sample::Line(Pen::Line), "line to measure by");
    }
    for kind in Fastener::ALL.into_iter().filter(|kind| named(kind.one())) {
        let words = match kind {
            Fastener::Button => "button, buttonhole",
            Fastener::Hook => "hook, eye",
            Fastener::Toggle => "toggle, loop",
            other => other.one(),
        };
        put(Sample::Fastener(kind), words);
    }
    if shapes.iter().any(|shape| {
        matches!(&shape.what, What::Stroke(_, Pen::Mark))
            && shape
                .name
                .as_deref()
                .is_some_and(|name| !Fastener::ALL.iter().any(|kind| name.ends_with(kind.one())))
    }) {
        put(Sample::Mark, "mark onto the cloth");
    }
    key
}

/// The shapes of a line of the key, whose middle left is at `at`; the words, with a body of
/// `body`, begin [`WORDS`] further on.
pub(crate) fn sample(entry: &Entry, at: Point, body: f64) -> Vec<Shape> {
    let end = at + Vec2::new(WORDS - 5.0, 0.0);
    let middle = at.midpoint(end);
    let straight = |from: Point, to: Point| {
        let mut line = BezPath::new();
        line.move_to(from);
        line.line_to(to);
        line
    };
    let mut shapes = match entry.sample {
        Sample::Line(Pen::Fold) => {
            let mut shapes = vec![Shape::stroke(straight(at, end), Pen::Fold)];
            for x in [3.0, 4.8, WORDS - 9.8, WORDS - 8.0] {
                let foot = at + Vec2::new(x, 0.0);
                let up = Vec2::new(0.0, 2.2);
                shapes.push(Shape::stroke(straight(foot - up, foot + up), Pen::Fold));
            }
            shapes
        }
        Sample::Line(pen) => vec![Shape::stroke(straight(at, end), pen)],
        Sample::Notch => {
            let (low, high) = (Vec2::new(0.0, -1.8), Vec2::new(0.0, 1.8));
            vec![
                Shape::stroke(straight(at + high, end + high), Pen::Cut(None)),
                Shape::stroke(straight(at + low, end + low), Pen::Stitch),
                Shape::stroke(straight(middle + high, middle + low), Pen::Notch),
            ]
        }
        Sample::Grain => vec![Shape::stroke(arrow(at, end, false), Pen::Grain)],
        Sample::Mark => {
            let (one, other) = (Vec2::new(2.2, 2.2), Vec2::new(2.2, -2.2));
            let mut cross = straight(middle - one, middle + one);
            cross.extend(straight(middle - other, middle + other));
            vec![Shape::stroke(cross, Pen::Mark)]
        }
        Sample::Dart => {
            let (tip, high, low) = (at + Vec2::new(4.0, 0.0), Vec2::new(0.0, 2.6), Vec2::new(0.0, -2.6));
            let mut legs = straight(end + high, tip);
            legs.extend(straight(tip, end + low));
            let across = end - Vec2::new(8.0, 0.0);
            let mut marks = Circle::new(tip, 1.5).to_path(0.01);
            marks.extend(arrow(across + high * 0.6, across + low * 0.6, true));
            vec![
                Shape::stroke(legs, Pen::Stitch),
                Shape::stroke(straight(end, tip), Pen::DartFold),
                Shape::stroke(marks, Pen::Dart),
            ]
        }
        Sample::Pleat => {
            let (high, low) = (Vec2::new(0.0, 2.6), Vec2::new(0.0, -2.6));
            let (fold, placement) = (at + Vec2::new(4.0, 0.0), end - Vec2::new(4.0, 0.0));
            let mut marks = straight(placement + high, placement + low);
            marks.extend(arrow(fold, placement, true));
            vec![
                Shape::stroke(straight(fold + high, fold + low), Pen::DartFold),
                Shape::stroke(marks, Pen::Dart),
            ]
        }
        Sample::Fastener(kind) => vec![Shape::stroke(fastener::sign(kind, middle, Some(5.2)), Pen::Mark)],
        Sample::Slit => {
            let (stop, across) = (at + Vec2::new(4.0, 0.0), Vec2::new(0.0, 2.6));
            let mut cut = straight(end, stop);
            cut.extend(straight(stop - across, stop + across));
            vec![Shape::stroke(cut, Pen::Slit)]
        }
    };
    let words = Words::new(entry.words.clone(), at + Vec2::new(WORDS, -body * 0.34), body);
    shapes.push(Shape::words(words));
    shapes
}

/// From the start of a sample to its words: room for one whole pattern of dashes and dots.
pub(crate) const WORDS: f64 = 41.0;
