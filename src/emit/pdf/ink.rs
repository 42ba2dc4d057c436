//! Shapes as the operators of a page, in millimetres.

use super::letters::Letters;
use crate::emit::drawing::{Ink, Shape, What, Words, glyphs};
use crate::garment::SizeId;
use kurbo::{BezPath, PathEl, Point, Rect, Vec2};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Name, Str};
use std::collections::BTreeSet;

/// What a viewer may hide: a size, or, where they have layers of their own, its stitching lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Layer {
    /// The size.
    pub size: SizeId,
    /// Its stitching lines alone.
    pub sewn: bool,
}

/// When something is seen.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Seen {
    /// With its layer.
    With(Layer),
    /// As long as one of several sizes is: it is a line of all of them.
    WithAny(Vec<SizeId>),
}

impl Seen {
    fn of(shape: &Shape, sewn_apart: bool) -> Option<Self> {
        let size = shape.size?;
        Some(match shape.with.as_slice() {
            [] => Seen::With(Layer { size, sewn: sewn_apart && shape.sewn }),
            _ => Seen::WithAny(sizes_of(shape)),
        })
    }

    fn name(&self) -> String {
        match self {
            Seen::With(layer) => layer_name(*layer),
            Seen::WithAny(sizes) => name_of_any(sizes),
        }
    }
}

/// The sizes of what is a line of several, but not of all.
fn sizes_of(shape: &Shape) -> Vec<SizeId> {
    shape.size.iter().chain(&shape.with).copied().collect()
}

/// The sizes that share a line of their own, each group of them once.
pub(super) fn sharing(shapes: &[Shape]) -> Vec<Vec<SizeId>> {
    let groups = shapes.iter().filter(|shape| !shape.with.is_empty()).map(sizes_of);
    groups.collect::<BTreeSet<_>>().into_iter().collect()
}

/// What is drawn on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ground {
    /// White paper.
    Paper,
    /// Black: what is dark on paper is white, and what is coloured is light.
    Dark,
}

impl Ground {
    /// Lays it under a page.
    pub fn fill(self, content: &mut Content, whole: Rect) {
        if self == Ground::Dark {
            content.set_fill_gray(self.grey());
            content.rect(whole.x0 as f32, whole.y0 as f32, whole.width() as f32, whole.height() as f32);
            content.fill_nonzero();
        }
    }

    fn grey(self) -> f32 {
        match self {
            Ground::Paper => 1.0,
            Ground::Dark => 0.0,
        }
    }

    fn ink(self, ink: Ink) -> [u8; 3] {
        match (self, ink) {
            (Ground::Paper, ink) => ink.rgb(),
            (Ground::Dark, Ink::Dark) => [0xff, 0xff, 0xff],
            (Ground::Dark, Ink::Madder) => [0xff, 0xb3, 0xa1],
            (Ground::Dark, Ink::Grey) => [0xbd, 0xc6, 0xcf],
        }
    }
}

/// Draws shapes of a drawing, with the lower left corner of `part` of it at (0, 0).
/// Those of a size stand in its layer; with `sewn_apart` its stitching lines in one of their own.
pub(super) fn draw<'s>(
    content: &mut Content,
    shapes: impl IntoIterator<Item = &'s Shape>,
    part: Rect,
    sewn_apart: bool,
    ground: Ground,
    letters: &mut Letters,
) {
    let by = Vec2::new(-part.x0, -part.y0);
    let mut open: Option<Seen> = None;
    for shape in shapes {
        let seen = Seen::of(shape, sewn_apart);
        if seen != open {
            close(content, &mut open);
            if let Some(seen) = &seen {
                content
                    .begin_marked_content_with_properties(Name(b"OC"))
                    .properties_named(Name(seen.name().as_bytes()));
            }
            open = seen;
        }
        one(content, shape, by, ground, letters);
    }
    close(content, &mut open);
}

/// What a layer is called in a page's resources.
pub(super) fn layer_name(layer: Layer) -> String {
    format!("{}{}", if layer.sewn { "W" } else { "S" }, layer.size.index())
}

/// What is seen with any of these sizes is called so there.
pub(super) fn name_of_any(sizes: &[SizeId]) -> String {
    let indices: Vec<String> = sizes.iter().map(|size| size.index().to_string()).collect();
    format!("A{}", indices.join("_"))
}

fn close(content: &mut Content, open: &mut Option<Seen>) {
    if open.take().is_some() {
        content.end_marked_content();
    }
}

/// Whether two rectangles have a point in common.
pub(super) fn meets(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}

fn one(content: &mut Content, shape: &Shape, by: Vec2, ground: Ground, letters: &mut Letters) {
    match &shape.what {
        What::Fill(path, tone) => {
            let [red, green, blue] = tone.rgb().map(colour);
            content.set_fill_rgb(red, green, blue);
            trace(content, path, by);
            content.fill_nonzero();
        }
        What::Stroke(path, pen) => {
            let [red, green, blue] = ground.ink(pen.ink()).map(colour);
            content.set_stroke_rgb(red, green, blue).set_line_width(pen.width() as f32);
            let (cap, join) = match pen.round() {
                true => (LineCapStyle::RoundCap, LineJoinStyle::RoundJoin),
                false => (LineCapStyle::ButtCap, LineJoinStyle::MiterJoin),
            };
            content.set_line_cap(cap).set_line_join(join);
            content.set_dash_pattern(pen.dashes().iter().map(|dash| *dash as f32), 0.0);
            trace(content, path, by);
            content.stroke();
        }
        What::Words(words) => write(content, words, by, ground, letters),
    }
}

fn colour(value: u8) -> f32 {
    f32::from(value) / 255.0
}

fn at(point: Point, by: Vec2) -> (f32, f32) {
    let moved = point + by;
    (moved.x as f32, moved.y as f32)
}

fn trace(content: &mut Content, path: &BezPath, by: Vec2) {
    let mut last = Point::ZERO;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(point) => {
                let (x, y) = at(point, by);
                content.move_to(x, y);
            }
            PathEl::LineTo(point) => {
                let (x, y) = at(point, by);
                content.line_to(x, y);
            }
            PathEl::QuadTo(one, point) => {
                let raised = kurbo::QuadBez::new(last, one, point).raise();
                curve(content, [raised.p1, raised.p2, raised.p3], by);
            }
            PathEl::CurveTo(one, two, point) => curve(content, [one, two, point], by),
            PathEl::ClosePath => {
                content.close_path();
            }
        }
        last = element.end_point().unwrap_or(last);
    }
}

fn curve(content: &mut Content, [one, two, end]: [Point; 3], by: Vec2) {
    let ((x1, y1), (x2, y2), (x3, y3)) = (at(one, by), at(two, by), at(end, by));
    content.cubic_to(x1, y1, x2, y2, x3, y3);
}

fn write(content: &mut Content, words: &Words, by: Vec2, ground: Ground, letters: &mut Letters) {
    if words.cleared {
        let [a, b, c, d] = words.corners().map(|corner| at(corner, by));
        content
            .set_fill_gray(ground.grey())
            .move_to(a.0, a.1)
            .line_to(b.0, b.1)
            .line_to(c.0, c.1)
            .line_to(d.0, d.1);
        content.close_path().fill_nonzero();
    }
    let codes: Vec<u8> = glyphs(words.face, &words.text)
        .iter()
        .flat_map(|glyph| letters.code(words.face, glyph).to_be_bytes())
        .collect();
    let [red, green, blue] = ground.ink(words.ink).map(colour);
    let (sine, cosine) = libm::sincos(words.angle);
    let (x, y) = at(words.at, by);
    content.set_fill_rgb(red, green, blue).begin_text();
    content.set_font(Name(letters.name(words.face).as_bytes()), words.size as f32);
    content.set_text_matrix([cosine as f32, sine as f32, -sine as f32, cosine as f32, x, y]);
    content.show(Str(&codes)).end_text();
}
