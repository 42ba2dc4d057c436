//! What a drawing's style sheets and attributes say of how a shape looks, as far as it tells what the shape is: whether
//! it is there, its colour, its dashes, its arrowheads.
//!
//! Rules of simple selectors are read: a tag, classes, an id, or several of them of one element (Selectors 3, 13 and 9).
//! Which of them counts is the cascade's (CSS Cascading 3, 6): an attribute least, then rules by their selectors, a
//! `style` of its own most. Other style sheets are never opened.

use roxmltree::{Document, Node};

/// Of more rules than this the rest is passed over: no drawing has so many.
const MOST_RULES: usize = 5_000;

/// The rules of a drawing's style sheets.
#[derive(Debug, Default)]
pub struct Styles {
    /// In the order in which one outdoes the other.
    rules: Vec<Rule>,
    /// Whether there are others, which are not read.
    has_more: bool,
}

#[derive(Debug)]
struct Rule {
    selector: Selector,
    declared: Vec<(String, String)>,
}

/// One element's conditions.
#[derive(Debug, Default, PartialEq)]
struct Selector {
    tag: Option<String>,
    id: Option<String>,
    classes: Vec<String>,
}

/// What is inherited from groups.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Paint {
    /// The colour of lines, as it is written.
    pub stroke: Option<String>,
    /// The colour of faces and letters.
    pub fill: Option<String>,
    /// Whether lines are dashed.
    pub is_dashed: bool,
    /// Whether faces are said to have no colour.
    pub is_unfilled: bool,
}

impl Styles {
    /// Of all style sheets in a document.
    pub fn of(document: &Document<'_>) -> Self {
        let mut styles = Styles::default();
        for sheet in document.descendants().filter(|node| node.tag_name().name() == "style") {
            let text: String = sheet.children().filter_map(|child| child.text()).collect();
            read(&text, &mut styles);
        }
        styles.rules.sort_by_key(|rule: &Rule| rule.selector.weight());
        styles
    }

    /// What is said of a property of an element itself.
    pub fn property(&self, node: &Node<'_, '_>, name: &str) -> Option<String> {
        self.styled(node, name).or_else(|| node.attribute(name).map(|value| value.trim().to_owned()))
    }

    /// The same in its style or in a style sheet alone.
    pub fn styled(&self, node: &Node<'_, '_>, name: &str) -> Option<String> {
        let inline = node.attribute("style").and_then(|style| last(&declarations(style), name));
        inline.or_else(|| {
            let mut of_it = self.rules.iter().rev().filter(|rule| rule.selector.fits(node));
            of_it.find_map(|rule| last(&rule.declared, name))
        })
    }

    /// Whether an element is not to be seen.
    pub fn is_hidden(&self, node: &Node<'_, '_>) -> bool {
        let is_nothing = |value: String| value.trim_end_matches('%').parse::<f64>() == Ok(0.0);
        self.property(node, "display").is_some_and(|value| value == "none")
            || self.property(node, "visibility").is_some_and(|value| value == "hidden" || value == "collapse")
            || self.property(node, "opacity").is_some_and(is_nothing)
    }

    /// Whether a shape that is painted so has neither a line nor a face. Where rules are passed over, one of them may paint it.
    pub fn is_unseen(&self, paint: &Paint) -> bool {
        !self.has_more && paint.is_unfilled && paint.stroke.is_none()
    }

    /// How an element is painted, in a group that is painted so.
    pub fn paint(&self, node: &Node<'_, '_>, around: &Paint) -> Paint {
        let colour = |name: &str, around: &Option<String>| match self.property(node, name) {
            Some(value) if value == "none" => None,
            Some(value) if value != "inherit" => Some(value.to_lowercase()),
            _ => around.clone(),
        };
        let dashes = self.property(node, "stroke-dasharray");
        let faces = self.property(node, "fill").filter(|value| value != "inherit");
        Paint {
            stroke: colour("stroke", &around.stroke),
            fill: colour("fill", &around.fill),
            is_unfilled: faces.map_or(around.is_unfilled, |value| value == "none"),
            is_dashed: dashes.map_or(around.is_dashed, |value| value != "none" && value != "0"),
        }
    }

    /// Whether arrowheads are set to its ends.
    pub fn has_head(&self, node: &Node<'_, '_>) -> bool {
        ["marker-start", "marker-end", "marker"]
            .iter()
            .any(|name| self.property(node, name).is_some_and(|value| value != "none"))
    }
}

impl Selector {
    /// Ids count more than classes, these more than tags.
    fn weight(&self) -> (usize, usize, usize) {
        (usize::from(self.id.is_some()), self.classes.len(), usize::from(self.tag.is_some()))
    }

    fn fits(&self, node: &Node<'_, '_>) -> bool {
        let own = node.attribute("class").unwrap_or_default();
        self.tag.as_deref().is_none_or(|tag| tag == node.tag_name().name())
            && self.id.as_deref().is_none_or(|id| node.attribute("id") == Some(id))
            && self.classes.iter().all(|wanted| own.split_whitespace().any(|class| class == wanted))
    }

    /// None of what is said of more than one element, or of its state.
    fn of(text: &str) -> Option<Self> {
        let mut selector = Selector::default();
        let mut rest = text.trim();
        let length = |text: &str| {
            text.find(|letter: char| !(letter.is_alphanumeric() || letter == '-' || letter == '_'))
                .unwrap_or(text.len())
        };
        if let Some(all) = rest.strip_prefix('*') {
            rest = all;
        } else if let (end @ 1.., tag) = (length(rest), rest) {
            selector.tag = tag.get(..end).map(str::to_owned);
            rest = tag.get(end..)?;
        } else if rest.is_empty() {
            return None;
        }
        while !rest.is_empty() {
            let name = rest.get(1..)?;
            let end = length(name);
            let word = name.get(..end).filter(|word| !word.is_empty())?.to_owned();
            match rest.as_bytes().first() {
                Some(b'.') => selector.classes.push(word),
                Some(b'#') => selector.id = Some(word),
                _ => return None,
            }
            rest = name.get(end..)?;
        }
        Some(selector)
    }
}

/// The rules of a style sheet; what begins with `@` is passed over, with its block.
fn read(text: &str, styles: &mut Styles) {
    let mut text = without_notes(text);
    // What keeps a sheet from old readers of XML.
    for sign in ["<!--", "-->"] {
        text = text.replace(sign, "");
    }
    let mut rest = text.as_str();
    while styles.rules.len() < MOST_RULES {
        rest = rest.trim_start();
        if rest.starts_with('@') {
            styles.has_more = true;
            rest = after_at_rule(rest);
            continue;
        }
        let Some((selectors, inside)) = rest.split_once('{') else { return };
        let Some((inside, after)) = inside.split_once('}') else { return };
        let declared = declarations(inside);
        for selector in selectors.split(',').map(Selector::of) {
            styles.has_more |= selector.is_none();
            let rule = selector.map(|selector| Rule { selector, declared: declared.clone() });
            styles.rules.extend(rule);
        }
        rest = after;
    }
}

fn after_at_rule(text: &str) -> &str {
    let mut depth = 0;
    for (at, letter) in text.char_indices() {
        match letter {
            ';' if depth == 0 => return text.get(at + 1..).unwrap_or_default(),
            '{' => depth += 1,
            '}' if depth <= 1 => return text.get(at + 1..).unwrap_or_default(),
            '}' => depth -= 1,
            _ => {}
        }
    }
    ""
}

fn without_notes(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, note)) = rest.split_once("/*") {
        out.push_str(before);
        rest = note.split_once("*/").map_or("", |(_, after)| after);
    }
    out.push_str(rest);
    out
}

/// `display: none; stroke: red` as pairs.
fn declarations(text: &str) -> Vec<(String, String)> {
    let each = text.split(';').filter_map(|one| one.split_once(':'));
    let clean = |value: &str| value.trim().trim_end_matches("!important").trim_end().to_owned();
    each.map(|(name, value)| (name.trim().to_lowercase(), clean(value))).collect()
}

fn last(declared: &[(String, String)], name: &str) -> Option<String> {
    declared.iter().rev().find(|(own, _)| own == name).map(|(_, value)| value.clone())
}

#[cfg(test)]
mod tests {
    use super::{Paint, Styles};
    use roxmltree::Document;

    /// By the rules of the cascade, which are named above.
    #[test]
    fn what_counts_most_is_taken() {
        let text = "<svg><style>/* a note */ @import url(a.css); @media print { .a { display: none } }\
            path { stroke: red } .a.b { stroke: blue } .a { stroke: green; stroke-dasharray: 4 2 }\
            #front { stroke: Teal } g > path { display: none } .gone, .away { display: none }</style>\
            <path class='a'/><path class='b a'/><path id='front' class='a'/><path class='a' style='stroke:none'/>\
            <path stroke='pink'/><path class='away'/><rect stroke='pink'/></svg>";
        let document = Document::parse(text).unwrap();
        let styles = Styles::of(&document);
        let shapes = document.root_element().children().skip(1);
        let found: Vec<(Option<String>, bool, bool)> = shapes
            .map(|node| {
                let paint = styles.paint(&node, &Paint::default());
                (paint.stroke, paint.is_dashed, styles.is_hidden(&node))
            })
            .collect();
        let seen = |stroke: &str, dashed: bool| (Some(stroke.to_owned()), dashed, false);
        assert_eq!(
            found,
            [
                seen("green", true),
                seen("blue", true),
                seen("teal", true),
                (None, true, false),
                seen("red", false),
                (Some("red".to_owned()), false, true),
                seen("pink", false),
            ]
        );
    }

    #[test]
    fn damaged_sheets_come_to_an_end() {
        for sheet in ["@", "{", "}", "a{b", ".{}", "/*", "@a{{{", "a,,b{c:d;;:}", "@import", "..a{}", "#{}"] {
            let text = format!("<svg><style>{sheet}</style><path/></svg>");
            let document = Document::parse(&text).unwrap();
            Styles::of(&document);
        }
    }
}
