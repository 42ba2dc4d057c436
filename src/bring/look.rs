//! What was understood of drawings, to be looked at: every piece in all its sizes, every edge labelled.

use super::edges::outward;
use super::pattern::{Grain, Pattern, Piece, of_size};
use kurbo::{Affine, BezPath, Point, Rect, Shape, Vec2};
use svg::Document;
use svg::node::element::{Circle, Group, Path, Rectangle, Text, Title};

/// What stands in the first element of every picture, so that one can be known again.
pub const MARK: &str = "data-picture=\"what was understood of a drawing\"";

/// Between two pieces, in millimetres.
const GAP: f64 = 60.0;
/// How wide a row may become, in millimetres.
const ROW: f64 = 1500.0;
/// Sizes are told apart by these, over and over.
pub const INKS: [&str; 6] = ["#1b6ca8", "#b3402f", "#3c7a3c", "#7a4a9c", "#a8741b", "#406070"];

/// The picture, as the text of an SVG file in millimetres.
pub fn picture(pattern: &Pattern) -> String {
    let sizes = pattern.sizes.len().max(1);
    let (mut left, mut top, mut deepest, mut widest) = (GAP, GAP, 0.0_f64, 0.0_f64);
    let mut drawn = Vec::new();
    // Words are all of one height, which suits the largest piece.
    let long = |piece: &Piece| {
        let bounds = piece.outline.whole(sizes - 1).bounding_box();
        bounds.width().max(bounds.height())
    };
    let body = (pattern.pieces.iter().map(long).fold(0.0, f64::max) / 70.0).clamp(3.0, 12.0);
    for piece in &pattern.pieces {
        let bounds = (0..sizes).map(|size| piece.outline.whole(size).bounding_box());
        let bounds = bounds.reduce(|all, own| all.union(own)).unwrap_or(Rect::ZERO);
        if left > GAP && left + bounds.width() > ROW {
            (left, top, deepest) = (GAP, top + deepest + GAP, 0.0);
        }
        let place = Affine::translate((left - bounds.x0, top + bounds.y1)) * Affine::FLIP_Y;
        drawn.push(self::piece(pattern, piece, sizes, place, &bounds, body));
        left += bounds.width() + GAP;
        deepest = deepest.max(bounds.height());
        widest = widest.max(left);
    }
    let (width, height) = (widest.max(GAP), top + deepest + GAP);
    let mut document = marked(Document::new())
        .set("width", format!("{width:.1}mm"))
        .set("height", format!("{height:.1}mm"))
        .set("viewBox", format!("0 0 {width:.1} {height:.1}"))
        .add(Title::new(escaped(&pattern.title)))
        .add(
            Rectangle::new()
                .set("width", format!("{width:.1}"))
                .set("height", format!("{height:.1}"))
                .set("fill", "#ffffff"),
        );
    for group in drawn {
        document = document.add(group);
    }
    format!("{document}\n")
}

fn piece(pattern: &Pattern, piece: &Piece, sizes: usize, place: Affine, bounds: &Rect, body: f64) -> Group {
    let mut group = Group::new().set("id", piece.name.clone());
    for size in 0..sizes {
        let ink = INKS.get(size % INKS.len()).copied().unwrap_or("#000000");
        group = group.add(stroke(piece.outline.whole(size), place, ink, 0.6));
        for walk in &piece.lines {
            group = group.add(stroke(walk.whole(size), place, ink, 0.3));
        }
        for mark in &piece.marks {
            let Some(at) = of_size(&mark.at, size).map(|at| place * at) else { continue };
            group = group.add(dot(at, 1.2, ink));
        }
        for notch in &piece.notches {
            let path = piece.outline.path(notch.edge, size);
            let long: f64 = piece.outline.length(notch.edge, size);
            let Some(along) = of_size(&notch.along, size) else { continue };
            let along = if notch.from_end { long - along } else { along };
            if let Some(at) = at_length(&path, along) {
                group = group.add(dot(place * at, 0.8, "#000000"));
            }
        }
        for edge in 0..piece.outline.edges.len() {
            if let Some(at) = of_size(piece.outline.start(edge), size) {
                group = group.add(dot(place * at, 1.0, ink));
            }
        }
    }
    let largest = sizes - 1;
    for (at, edge) in piece.outline.edges.iter().enumerate() {
        let middle = at_length(&piece.outline.path(at, largest), piece.outline.length(at, largest) / 2.0);
        let Some(middle) = middle.map(|point| place * point) else { continue };
        let words = format!("{} {}", edge.name, pattern.unit.about(piece.outline.length(at, largest)));
        let out = outward(&piece.outline, at).unwrap_or_default();
        let anchor = match out.x {
            x if x > 0.3 => "start",
            x if x < -0.3 => "end",
            _ => "middle",
        };
        let (across, down) = (out.x * body * 0.8, -out.y * body * 0.8 + body * 0.35);
        group = group.add(written(&words, middle + kurbo::Vec2::new(across, down), body, anchor));
    }
    if let Some(arrow) = grain(piece, largest, place, body) {
        group = group.add(arrow);
    }
    let centre = place * bounds.center();
    group = group.add(written(&piece.name, centre, body * 1.6, "middle"));
    let below = centre + kurbo::Vec2::new(0.0, body * 1.6);
    group.add(written(&pattern.sizes.join(", "), below, body, "middle"))
}

/// The mark of a picture as the name and the value of an attribute.
fn mark() -> Option<(&'static str, &'static str)> {
    MARK.split_once('=').map(|(name, value)| (name, value.trim_matches('"')))
}

/// A document with the mark of a picture.
pub fn marked(document: Document) -> Document {
    match mark() {
        Some((name, value)) => document.set(name, value),
        None => document,
    }
}

/// Whether the first element of a document bears the mark of a picture.
pub fn is_marked(root: &roxmltree::Node<'_, '_>) -> bool {
    mark().is_some_and(|(name, value)| root.attribute(name) == Some(value))
}

/// How the grain lies, as an arrow: where it was drawn, or beside the piece's name where only its way is known.
fn grain(piece: &Piece, size: usize, place: Affine, body: f64) -> Option<Group> {
    let bounds = piece.outline.whole(size).bounding_box();
    let middle = bounds.center();
    let half = match piece.grain.as_ref()? {
        Grain::Up => Vec2::new(0.0, 0.3 * bounds.height()),
        Grain::Across => Vec2::new(0.3 * bounds.width(), 0.0),
        Grain::Along(..) => Vec2::ZERO,
    };
    let (from, to) = match piece.grain.as_ref()? {
        Grain::Along(from, to) => (of_size(from, size)?, of_size(to, size)?),
        Grain::Up => {
            let beside = middle - Vec2::new(0.2 * bounds.width(), 0.0);
            (beside - half, beside + half)
        }
        Grain::Across => {
            let beside = middle - Vec2::new(0.0, 0.2 * bounds.height());
            (beside - half, beside + half)
        }
    };
    let (from, to) = (place * from, place * to);
    let way = (to - from) / (to - from).hypot().max(f64::MIN_POSITIVE);
    let mut path = BezPath::new();
    path.move_to(from);
    path.line_to(to);
    for side in [1.0, -1.0] {
        path.move_to(to);
        path.line_to(to - way * body + way.turn_90() * (side * body * 0.4));
    }
    let words = from.lerp(to, 0.75) + Vec2::new(body * 0.5, body * 0.35);
    let arrow = stroke(path, Affine::IDENTITY, "#000000", 0.5);
    Some(Group::new().add(Title::new("grain")).add(arrow).add(written("grain", words, body, "start")))
}

/// A path drawn.
pub fn stroke(path: BezPath, place: Affine, ink: &str, width: f64) -> Path {
    Path::new()
        .set("d", (place * path).to_svg())
        .set("fill", "none")
        .set("stroke", ink)
        .set("stroke-width", width.to_string())
}

/// A filled circle.
pub fn dot(at: Point, radius: f64, ink: &str) -> Circle {
    Circle::new()
        .set("cx", format!("{:.2}", at.x))
        .set("cy", format!("{:.2}", at.y))
        .set("r", radius)
        .set("fill", ink)
}

/// Words.
pub fn written(words: &str, at: Point, body: f64, anchor: &str) -> Text {
    Text::new(escaped(words))
        .set("x", format!("{:.2}", at.x))
        .set("y", format!("{:.2}", at.y))
        .set("font-size", format!("{body:.1}"))
        .set("font-family", "sans-serif")
        .set("text-anchor", anchor)
}

fn at_length(path: &[kurbo::PathSeg], long: f64) -> Option<Point> {
    let path = crate::shape::path::Path::from_segments(path.iter().copied()).ok()?;
    Some(path.point_at_length(long))
}

/// Text as XML holds it.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
