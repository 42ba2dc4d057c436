//! The drawing as SVG 1.1 (W3C), in millimetres, true to scale. Words are drawn from the outlines
//! of their letters, so that no fonts are needed to look at them; they stand as text in
//! `aria-label` for those who listen.

use super::drawing::{Face, Pen, Shape, Sheet, Tone, What, Words, faces, glyphs, outline};
use super::number::Figure;
use indexmap::IndexSet;
use kurbo::{BezPath, PathEl, Point};
use std::fmt::{Display, Write};
use svg::node::element::{Definitions, Element, Group, Path, Rectangle, Text, Title, Use};

/// How words stand in the file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lettering {
    /// As outlines: they look the same everywhere.
    #[default]
    Outlines,
    /// As text, which can be marked, copied and searched, in whatever letters are there.
    Text,
}

/// The sheet as the text of an SVG file. `title` is what it is called.
pub fn svg(sheet: &Sheet, title: &str) -> String {
    svg_lettered(sheet, title, Lettering::Outlines)
}

/// The same with words as it is said.
pub fn svg_lettered(sheet: &Sheet, title: &str, lettering: Lettering) -> String {
    let (width, height) = (Figure(sheet.width.max(1.0)), Figure(sheet.height.max(1.0)));
    let mut letters: IndexSet<(usize, u16)> = IndexSet::new();
    let mut drawn = Group::new();
    for shape in &sheet.shapes {
        drawn = drawn.add(match (&shape.what, lettering) {
            (What::Words(words), Lettering::Text) => text(words).into(),
            _ => element(shape, &mut letters),
        });
    }
    let mut document = svg::Document::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("xmlns:xlink", "http://www.w3.org/1999/xlink")
        .set("viewBox", format!("0 0 {width} {height}"))
        .add(Title::new(title))
        .add(definitions(&letters));
    let ground = Rectangle::new().set("width", width.to_string()).set("height", height.to_string());
    document = document.add(ground.set("fill", colour(Tone::Sheet.rgb()))).add(drawn);
    format!("{document}\n")
}

/// The outlines of the letters that occur, each once.
fn definitions(letters: &IndexSet<(usize, u16)>) -> Definitions {
    let mut definitions = Definitions::new();
    for &(face, id) in letters {
        let Some(&face_used) = faces().get(face) else { continue };
        let Some((path, _)) = outline(face_used, ttf_parser::GlyphId(id)) else { continue };
        let path = Path::new().set("id", letter_name(face, id)).set("d", data(&path, &|point| point));
        definitions = definitions.add(path);
    }
    definitions
}

fn letter_name(face: usize, id: u16) -> String {
    format!("letter-{face}-{id}")
}

fn element(shape: &Shape, letters: &mut IndexSet<(usize, u16)>) -> Element {
    let down = |point: Point| Point::new(point.x, -point.y);
    match &shape.what {
        What::Fill(path, tone) => {
            Path::new().set("d", data(path, &down)).set("fill", colour(tone.rgb())).into()
        }
        What::Stroke(path, pen) => {
            let mut drawn = Path::new().set("d", data(path, &down));
            if let Some(name) = &shape.name {
                drawn = drawn.set("id", identifier(name)).add(title_of(name));
            }
            stroked(drawn, *pen).into()
        }
        What::Words(words) => written(words, letters).into(),
    }
}

fn title_of(name: &str) -> Title {
    Title::new(name)
}

fn stroked(drawn: Path, pen: Pen) -> Path {
    let mut drawn = drawn
        .set("fill", "none")
        .set("stroke", colour(pen.ink().rgb()))
        .set("stroke-width", Figure(pen.width()).to_string());
    if pen.round() {
        drawn = drawn.set("stroke-linecap", "round").set("stroke-linejoin", "round");
    }
    let dashes = pen.dashes();
    if !dashes.is_empty() {
        let dashes: Vec<String> = dashes.iter().map(|dash| Figure(*dash).to_string()).collect();
        drawn = drawn.set("stroke-dasharray", dashes.join(" "));
    }
    drawn
}

fn written(words: &Words, letters: &mut IndexSet<(usize, u16)>) -> Group {
    let face = faces().iter().position(|face| *face == words.face).unwrap_or(0);
    let mut group = Group::new().set("role", "img").set("aria-label", words.text.clone());
    if let Some(ground) = ground(words) {
        group = group.add(ground);
    }
    let body = outline(words.face, ttf_parser::GlyphId(0)).map_or(1000.0, |(_, body)| body);
    let scale = words.size / body;
    let (sine, cosine) = libm::sincos(words.angle);
    // The letters are drawn y up; the sheet's y is down.
    let matrix = [scale * cosine, -scale * sine, -scale * sine, -scale * cosine, words.at.x, -words.at.y];
    let [a, b, c, d, e, f] = matrix.map(|number| Finer(number).to_string());
    let mut row = Group::new()
        .set("fill", colour(words.ink.rgb()))
        .set("transform", format!("matrix({a} {b} {c} {d} {e} {f})"));
    for glyph in glyphs(words.face, &words.text) {
        if glyph.letter.is_whitespace() {
            continue;
        }
        letters.insert((face, glyph.id.0));
        let used = Use::new()
            .set("xlink:href", format!("#{}", letter_name(face, glyph.id.0)))
            .set("x", Figure(glyph.from * body).to_string());
        row = row.add(used);
    }
    group.add(row)
}

/// Words as text, as long as they are in the letters that they were laid out for.
fn text(words: &Words) -> Group {
    let mut group = Group::new();
    if let Some(ground) = ground(words) {
        group = group.add(ground);
    }
    let at = Point::new(words.at.x, -words.at.y);
    let mut written = Text::new(escaped(&words.text))
        .set("x", Figure(at.x).to_string())
        .set("y", Figure(at.y).to_string())
        .set("font-family", "Noto Sans, sans-serif")
        .set("font-size", Figure(words.size).to_string())
        .set("textLength", Figure(words.length()).to_string())
        .set("lengthAdjust", "spacingAndGlyphs")
        .set("fill", colour(words.ink.rgb()));
    if words.face == Face::Bold {
        written = written.set("font-weight", "bold");
    }
    if words.angle != 0.0 {
        let turn = Finer(-words.angle.to_degrees());
        written = written.set("transform", format!("rotate({turn} {} {})", Figure(at.x), Figure(at.y)));
    }
    group.add(written)
}

/// The ground behind words that stand in a line.
fn ground(words: &Words) -> Option<Path> {
    if !words.cleared {
        return None;
    }
    let corners = words.corners().map(|corner| Point::new(corner.x, -corner.y));
    let mut ground = BezPath::new();
    ground.move_to(corners[0]);
    for corner in &corners[1..] {
        ground.line_to(*corner);
    }
    ground.close_path();
    Some(Path::new().set("d", data(&ground, &|point| point)).set("fill", colour(Tone::Piece.rgb())))
}

/// Words as XML holds them, without what it cannot hold.
fn escaped(text: &str) -> String {
    let text: String = text.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect();
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

/// A number with six places, for the small factors of a matrix.
struct Finer(f64);

impl std::fmt::Display for Finer {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let rounded = (self.0 * 1e6).round() / 1e6 + 0.0;
        write!(formatter, "{rounded}")
    }
}

fn colour([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// A name that XML allows as an identifier: what is no letter, digit or point becomes `-`.
fn identifier(name: &str) -> String {
    let letters =
        name.chars().map(|letter| if letter.is_alphanumeric() || letter == '.' { letter } else { '-' });
    letters.collect()
}

/// SVG path data (SVG 2, 9.3), to 0.01 mm.
pub(crate) fn data(path: &BezPath, to: &dyn Fn(Point) -> Point) -> String {
    rounded_data(path, to, Figure)
}

/// SVG path data (SVG 2, 9.3), every point moved and its numbers rounded so.
pub(crate) fn rounded_data<N: Display>(
    path: &BezPath,
    to: &dyn Fn(Point) -> Point,
    number: impl Fn(f64) -> N,
) -> String {
    let mut data = String::new();
    let pair = |point: Point| {
        let point = to(point);
        format!("{} {}", number(point.x), number(point.y))
    };
    for element in path.elements() {
        // Writing to a String cannot fail.
        let _ = match *element {
            PathEl::MoveTo(point) => write!(data, "M{}", pair(point)),
            PathEl::LineTo(point) => write!(data, "L{}", pair(point)),
            PathEl::QuadTo(one, point) => write!(data, "Q{} {}", pair(one), pair(point)),
            PathEl::CurveTo(one, two, point) => write!(data, "C{} {} {}", pair(one), pair(two), pair(point)),
            PathEl::ClosePath => write!(data, "Z"),
        };
    }
    data
}

#[cfg(test)]
mod tests {
    use super::identifier;

    #[test]
    fn names_are_identifiers() {
        assert_eq!(identifier("outer.front 2XL cutting"), "outer.front-2XL-cutting");
        assert_eq!(identifier("a<b>\"&'/"), "a-b-----");
    }
}
