//! What is drawn in an SVG document, flattened: every path in millimetres with y up, with the names of its groups.

use super::called::{is_words, name_of};
use super::course::{Drawing, path_data};
use super::css_transform::{css_transform, data_of};
use super::entities::{MOST_OF_ENTITIES, entities_come_to};
use super::readable::{damaged_data, flat, is_cut_off, unreadable, unreadable_style};
use super::shapes::shape;
use super::sizes::{class_size, size_in};
use super::style::{Paint, Styles};
use super::units::{
    doubtful_unit, is_flat, length_of, nested, number_of, sides, transform_of, two_sides, unit_of, view_box,
};
use crate::bring::error::BringError;
use crate::bring::look::is_marked;
use crate::bring::read::letters::{base_name, plain};
use crate::bring::traced::{TracedPath, TracedUnit};
use crate::limits::{DRAWING_PATHS, DRAWING_POINTS, FARTHEST_MM};
use indexmap::IndexMap;
use kurbo::{Affine, Point};
use roxmltree::{Document, Node, ParsingOptions};

/// How deep a document may nest; what is deeper is not a drawing.
const DEEPEST: usize = 200;
/// Of a drawing that is damaged all over no more is kept than anybody mends.
const MOST_TOLD: usize = 100;
/// Of groups without any width no more are told.
const MOST_FLAT: usize = 20;

/// Something drawn.
#[derive(Debug, Clone)]
pub struct Item {
    /// Its paths.
    pub paths: Vec<TracedPath>,
    /// What it is called: by its title, else its label, else its id.
    pub name: Option<String>,
    /// The groups that it is in, the outermost first.
    pub groups: Vec<usize>,
    /// Whether arrowheads are set to its ends.
    pub arrow: bool,
    /// Whether it is a circle.
    pub circle: bool,
    /// How it is painted.
    pub paint: Paint,
    /// The size that a class of it is called after.
    pub class_size: Option<String>,
    /// In which line of the file it begins, counted from 1.
    pub line: usize,
}

/// Words in the drawing.
#[derive(Debug, Clone)]
pub struct Words {
    /// The words.
    pub text: String,
    /// Where they begin.
    pub at: Point,
    /// The groups that they are in, the outermost first.
    pub groups: Vec<usize>,
    /// The colour of their letters.
    pub colour: Option<String>,
}

/// A whole drawing.
#[derive(Debug, Clone, Default)]
pub struct Elements {
    /// What is drawn, in the order in which it is.
    pub items: Vec<Item>,
    /// What is written.
    pub words: Vec<Words>,
    /// The groups' names, by number.
    pub groups: Vec<Option<String>>,
    /// Whether its size is said in inches.
    pub in_inches: bool,
    /// Whether it says how large one of its units is.
    pub measured: bool,
    /// What one of its units was taken for.
    pub unit: Option<TracedUnit>,
    /// What was left out, one sentence each.
    pub remarks: Vec<String>,
    /// The same of what explains more than itself.
    pub causes: Vec<String>,
    /// What is damaged.
    pub wrong: Vec<BringError>,
}

/// Reads a document. `scale` is how many millimetres a unit of it is, instead of what it says.
///
/// # Errors
/// Damaged XML, too many paths or points.
pub fn elements(bytes: &[u8], file: &str, scale: Option<f64>) -> Result<Elements, BringError> {
    let text = std::str::from_utf8(bytes)
        .map_err(|_| BringError::new(file, "it is not UTF-8 text; save it as plain SVG"))?;
    if text.trim_start_matches('\u{feff}').trim().is_empty() {
        return Err(BringError::new(file, "there is nothing in it"));
    }
    if entities_come_to(text) > MOST_OF_ENTITIES {
        return Err(BringError::new(
            file,
            "it is made of entities that come to more text than any drawing has",
        ));
    }
    // A document type is allowed, since many programs write one; the parser bounds what entities may come to, and opens
    // no other file.
    let options = ParsingOptions { allow_dtd: true, nodes_limit: 4_000_000, ..ParsingOptions::default() };
    let document = Document::parse_with_options(text, options).map_err(|error| {
        if is_cut_off(&error) {
            let line = text.trim_end().lines().count();
            return BringError::new(
                file,
                "the file breaks off here, before all of it is closed; save or copy it anew",
            )
            .at_line(line);
        }
        let line = error.pos().row as usize;
        BringError::new(file, format!("it cannot be read as XML: {}", plain(&error.to_string())))
            .at_line(line)
    })?;
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        let why = format!("it is XML, but no SVG drawing: it holds <{}>", root.tag_name().name());
        return Err(BringError::new(file, why));
    }
    if is_marked(&root) {
        let why = "it is a picture that `look` drew of what was understood of a drawing, and no drawing: bring in the drawing that it \
                   was drawn of";
        return Err(BringError::new(file, why));
    }
    let mut reading = Reading {
        file,
        found: Elements::default(),
        styles: Styles::of(&document),
        points: 0,
        hidden: 0,
        foreign: 0,
        flat: 0,
        lost: 0,
        visits: 0,
        lines: text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at).collect(),
    };
    let sides = sides(&root, &reading.styles);
    let (unit, inches, measured) = unit_of(&root, sides);
    (reading.found.in_inches, reading.found.measured) = (inches, measured || scale.is_some());
    let why = match (scale, measured) {
        (Some(_), _) => "as `scale` says",
        (None, true) => "as its width and its height say",
        (None, false) => "96 to the inch, since it says nothing",
    };
    reading.found.causes.extend(two_sides(&root, sides).filter(|_| scale.is_none()));
    reading.found.causes.extend(doubtful_unit(&root, sides, (unit, measured), scale));
    let unit = scale.unwrap_or(unit);
    reading.found.unit =
        Some(TracedUnit { file: base_name(file).to_owned(), size: unit, why: why.to_owned(), letters: None });
    // y goes down in SVG and up on a pattern.
    let to_mm = Affine::scale_non_uniform(unit, -unit);
    let mut waiting: Vec<Visit<'_, '_>> = Vec::new();
    let mut ids: IndexMap<&str, Node<'_, '_>> = IndexMap::new();
    for node in document.descendants() {
        if let Some(id) = node.attribute("id") {
            ids.entry(id).or_insert(node);
        }
    }
    let origin = view_box(&root).map_or(Affine::IDENTITY, |view| Affine::translate((-view.x, -view.y)));
    let paint = reading.styles.paint(&root, &Paint::default());
    let around = Around { groups: Vec::new(), paint, class_size: None };
    push_children(&root, to_mm * origin, &around, 1, &mut waiting);
    while let Some(visit) = waiting.pop() {
        reading.visit(visit, &ids, &mut waiting)?;
    }
    Ok(reading.told())
}

fn size_of_class(node: &Node<'_, '_>) -> Option<String> {
    node.attribute("class").unwrap_or_default().split_whitespace().find_map(class_size)
}

/// A node to be looked at: its transform, groups, and how deep it stands.
struct Visit<'a, 'input> {
    node: Node<'a, 'input>,
    to_mm: Affine,
    around: Around,
    depth: usize,
}

/// What stands round a node.
#[derive(Clone)]
struct Around {
    /// The groups, the outermost first.
    groups: Vec<usize>,
    /// How they are painted.
    paint: Paint,
    /// The size that a class of one is called after.
    class_size: Option<String>,
}

fn push_children<'a, 'input>(
    node: &Node<'a, 'input>,
    to_mm: Affine,
    around: &Around,
    depth: usize,
    waiting: &mut Vec<Visit<'a, 'input>>,
) {
    let from = waiting.len();
    for child in node.children().filter(Node::is_element) {
        waiting.push(Visit { node: child, to_mm, around: around.clone(), depth });
    }
    // What stands first is looked at first.
    if let Some(new) = waiting.get_mut(from..) {
        new.reverse();
    }
}

struct Reading<'f> {
    file: &'f str,
    found: Elements,
    styles: Styles,
    points: usize,
    hidden: usize,
    foreign: usize,
    flat: usize,
    /// How many elements are used again that are not there.
    lost: usize,
    visits: usize,
    /// Where lines end.
    lines: Vec<usize>,
}

impl Reading<'_> {
    fn visit<'a, 'input>(
        &mut self,
        visit: Visit<'a, 'input>,
        ids: &IndexMap<&'a str, Node<'a, 'input>>,
        waiting: &mut Vec<Visit<'a, 'input>>,
    ) -> Result<(), BringError> {
        let Visit { node, to_mm, mut around, depth } = visit;
        self.visits += 1;
        if depth > DEEPEST || self.visits > 20 * DRAWING_PATHS {
            let why =
                format!("it draws more than {DRAWING_PATHS} paths, or nests them too deep, for a pattern");
            return Err(self.wrong(&node, &why));
        }
        if self.styles.is_hidden(&node) {
            self.hide(&node);
            return Ok(());
        }
        if let Some(why) = unreadable(&node) {
            self.tell(&node, &why);
            return Ok(());
        }
        let Some(own) = self.transform(&node) else { return Ok(()) };
        if is_flat(own) {
            self.flat(&node);
            return Ok(());
        }
        around.paint = self.styles.paint(&node, &around.paint);
        if self.is_unseen(&node, &around.paint) {
            self.hidden += 1;
            return Ok(());
        }
        let to_mm = to_mm * own;
        // Where and how large a shape is may stand in its style too (SVG 2, 7.2).
        let styles = &self.styles;
        let number = |name: &str| {
            let styled = styles.styled(&node, name).and_then(|said| length_of(&said));
            styled.unwrap_or_else(|| number_of(&node, name))
        };
        match node.tag_name().name() {
            "g" | "a" | "switch" if node.attribute("aria-label").is_some() && is_words(&node) => {
                // Words that are drawn as the outlines of their letters.
                let inner =
                    node.descendants().find(|inner| inner.has_attribute("transform") && *inner != node);
                let at = inner.map_or(Affine::IDENTITY, |inner| transform_of(&inner)) * Point::ZERO;
                let text = plain(node.attribute("aria-label").unwrap_or_default());
                let Around { groups, paint, .. } = around;
                self.found.words.push(Words { text, at: to_mm * at, groups, colour: paint.fill });
            }
            "g" | "a" | "switch" => {
                around.class_size = size_of_class(&node).or(around.class_size);
                around.groups.push(self.found.groups.len());
                self.found.groups.push(name_of(&node));
                push_children(&node, to_mm, &around, depth + 1, waiting);
            }
            "svg" => {
                let moved = to_mm * nested(&node);
                push_children(&node, moved, &around, depth + 1, waiting);
            }
            "use" => self.used(&node, to_mm, around, depth, ids, waiting),
            "path" => {
                let mut drawing = Drawing::new(to_mm);
                let styled = self.styles.styled(&node, "d").and_then(|said| data_of(&said));
                let data = styled.as_deref().or(node.attribute("d")).unwrap_or_default();
                if let Err(error) = path_data(data, &mut drawing) {
                    self.tell(&node, &damaged_data(data, &error));
                    return Ok(());
                }
                self.add(&node, drawing, around, false)?;
            }
            tag @ ("rect" | "circle" | "ellipse" | "line" | "polyline" | "polygon") => {
                let drawing = shape(&node, to_mm, &number);
                self.add(&node, drawing, around, tag == "circle")?;
            }
            "text" => {
                let first = node.descendants().find(|inner| inner.has_attribute("x"));
                let place = first
                    .map_or(Point::ZERO, |inner| Point::new(number_of(&inner, "x"), number_of(&inner, "y")));
                self.write(&node, to_mm * place, around);
            }
            "foreignObject" => {
                let middle =
                    Point::new(number("x") + number("width") / 2.0, number("y") + number("height") / 2.0);
                self.write(&node, to_mm * middle, around);
            }
            "image" => self.foreign += 1,
            _ => {}
        }
        Ok(())
    }

    /// How an element is moved: what its style says counts before its attribute. None where that cannot be read, which is told.
    fn transform(&mut self, node: &Node<'_, '_>) -> Option<Affine> {
        let Some(said) = self.styles.styled(node, "transform") else { return Some(transform_of(node)) };
        let origin = self.styles.property(node, "transform-origin");
        let own = css_transform(&said, origin.as_deref());
        if own.is_none() {
            self.tell(node, &unreadable_style(&said, origin.as_deref()));
        }
        own
    }

    /// Whether something is drawn there that nobody sees.
    fn is_unseen(&self, node: &Node<'_, '_>, paint: &Paint) -> bool {
        let tag = node.tag_name().name();
        matches!(tag, "path" | "rect" | "circle" | "ellipse" | "line" | "polyline" | "polygon")
            && self.styles.is_unseen(paint)
    }

    /// Leaves out what is hidden; a whole size is named, as it may be missed.
    fn hide(&mut self, node: &Node<'_, '_>) {
        let name = name_of(node).filter(|_| node.tag_name().name() == "g");
        let words = name.as_deref().and_then(size_in).map(|size| {
            format!("the layer of size {size} is hidden in the drawing, and is left out: show it if it is to come in")
        });
        match words {
            Some(words) if !self.found.causes.contains(&words) => self.found.causes.push(words),
            _ => self.hidden += 1,
        }
    }

    /// Keeps the words of an element that stand there.
    fn write(&mut self, node: &Node<'_, '_>, at: Point, around: Around) {
        let mut text = String::new();
        for inner in node.descendants() {
            // What is put down anew stands in a line of its own.
            if ["x", "y", "dy"].iter().any(|place| inner.has_attribute(*place)) {
                text.push(' ');
            }
            text.push_str(inner.text().filter(|_| inner.is_text()).unwrap_or_default());
        }
        // Lines of it and control letters are spaces, and several of them one, as they are shown.
        let text = plain(&text).split_whitespace().collect::<Vec<_>>().join(" ");
        if !text.is_empty() && at.is_finite() && self.found.words.len() < DRAWING_PATHS {
            let Around { groups, paint, .. } = around;
            self.found.words.push(Words { text, at, groups, colour: paint.fill });
        }
    }

    /// What a `use` draws: an element of the same document, and of no other.
    fn used<'a, 'input>(
        &mut self,
        node: &Node<'a, 'input>,
        to_mm: Affine,
        around: Around,
        depth: usize,
        ids: &IndexMap<&'a str, Node<'a, 'input>>,
        waiting: &mut Vec<Visit<'a, 'input>>,
    ) {
        let link =
            node.attributes().find(|attribute| attribute.name() == "href").map_or("", |link| link.value());
        let Some(id) = link.strip_prefix('#') else {
            self.foreign += 1;
            return;
        };
        let Some(&target) = ids.get(id) else {
            self.lost += 1;
            if self.lost <= MOST_FLAT {
                let line = self.line(node);
                self.found.remarks.push(format!(
                    "in line {line} something is to be used again that is not in the drawing, “{}”: is a part of it lost?",
                    plain(id)
                ));
            }
            return;
        };
        let moved = to_mm * Affine::translate((number_of(node, "x"), number_of(node, "y")));
        match target.tag_name().name() {
            "symbol" | "svg" => push_children(&target, moved * nested(&target), &around, depth + 1, waiting),
            _ => waiting.push(Visit { node: target, to_mm: moved, around, depth: depth + 1 }),
        }
    }

    fn add(
        &mut self,
        node: &Node<'_, '_>,
        drawing: Drawing,
        around: Around,
        circle: bool,
    ) -> Result<(), BringError> {
        let paths = drawing.finish();
        let finite = |path: &TracedPath| {
            let ends = |segment: &crate::bring::traced::TracedSegment| {
                let controls = crate::bring::course::controls(&segment.course);
                controls.iter().all(|point| point.x.abs().max(point.y.abs()) <= FARTHEST_MM)
            };
            path.segments.iter().all(ends)
        };
        if !paths.iter().all(finite) {
            self.tell(node, "a coordinate here is not a number, or is too large for one");
            return Ok(());
        }
        self.points += paths.iter().map(|path| path.segments.len()).sum::<usize>();
        if self.found.items.len() >= DRAWING_PATHS || self.points > DRAWING_POINTS {
            let why = format!(
                "it draws more than {DRAWING_PATHS} paths or {DRAWING_POINTS} points, which no pattern does"
            );
            return Err(BringError::new(self.file, why));
        }
        if paths.is_empty() {
            return Ok(());
        }
        let arrow = self.styles.has_head(node);
        let class_size = size_of_class(node).or(around.class_size);
        let Around { groups, paint, .. } = around;
        let line = self.line(node);
        let name = name_of(node);
        self.found.items.push(Item { paths, name, groups, arrow, circle, paint, class_size, line });
        Ok(())
    }

    /// In which line of the file an element begins, counted from 1.
    fn line(&self, node: &Node<'_, '_>) -> usize {
        self.lines.partition_point(|end| *end < node.range().start) + 1
    }

    /// Tells of what its own transform draws without any width.
    fn flat(&mut self, node: &Node<'_, '_>) {
        self.flat += 1;
        if self.flat <= MOST_FLAT {
            self.found.remarks.push(flat(node));
        }
    }

    /// Keeps what is wrong, and goes on.
    fn tell(&mut self, node: &Node<'_, '_>, why: &str) {
        if self.found.wrong.len() < MOST_TOLD {
            let wrong = self.wrong(node, why);
            self.found.wrong.push(wrong);
        }
    }

    fn wrong(&self, node: &Node<'_, '_>, why: &str) -> BringError {
        let line = node.document().text_pos_at(node.range().start).row as usize;
        BringError::new(self.file, why).at_line(line)
    }

    fn told(mut self) -> Elements {
        let counted = |count: usize, one: &str, many: &str| match count {
            1 => format!("1 {one}"),
            count => format!("{count} {many}"),
        };
        if self.hidden > 0 {
            let what = counted(
                self.hidden,
                "group or path is hidden in the drawing, and is",
                "groups or paths are hidden in the drawing, and are",
            );
            self.found.remarks.push(format!("{what} left out"));
        }
        if self.foreign > 0 {
            let what = counted(
                self.foreign,
                "picture or part of another file is",
                "pictures or parts of other files are",
            );
            self.found.remarks.push(format!("{what} left out: no other file is opened"));
        }
        self.found
    }
}
