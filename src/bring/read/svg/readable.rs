//! What of an element's attributes cannot be read, in a maker's words: what is guessed there makes a piece of another size, or
//! none (SVG 2, 7 to 10: such an element is in error).

use super::called::name_of;
use crate::bring::read::letters::shown;
use roxmltree::Node;
use std::str::FromStr;
use svgtypes::{Error, Length, LengthUnit, NumberListParser, Transform};

/// What is wrong with the first attribute of an element that cannot be read; none where all can.
pub fn unreadable(node: &Node<'_, '_>) -> Option<String> {
    let (lengths, sides): (&[&str], &[&str]) = match node.tag_name().name() {
        "rect" => (&["x", "y"], &["width", "height", "rx", "ry"]),
        "circle" => (&["cx", "cy"], &["r"]),
        "ellipse" => (&["cx", "cy"], &["rx", "ry"]),
        "line" => (&["x1", "y1", "x2", "y2"], &[]),
        "use" => (&["x", "y"], &[]),
        _ => (&[], &[]),
    };
    transform(node)
        .or_else(|| lengths.iter().find_map(|name| length(node, name, false)))
        .or_else(|| sides.iter().find_map(|name| length(node, name, true)))
        .or_else(|| points(node))
}

/// What is wrong with a transform of a style that cannot be read.
pub fn unreadable_style(said: &str, origin: Option<&str>) -> String {
    let about = origin.map_or_else(String::new, |origin| format!(" about `{}`", shown(origin)));
    format!(
        "the `transform` in the style here, `{}`{about}, cannot be read: what it moves would lie elsewhere, or be of another size; write \
         it as an attribute, or let the program apply it",
        shown(said)
    )
}

/// What is said of an element that its transform draws without any width.
pub fn flat(node: &Node<'_, '_>) -> String {
    let line = node.document().text_pos_at(node.range().start).row;
    let name = name_of(node).map_or_else(|| format!("<{}>", node.tag_name().name()), |name| shown(&name));
    let transform = shown(node.attribute("transform").unwrap_or_default());
    format!(
        "{name} in line {line} is drawn without any width, by its transform `{transform}`, and is left out with all that it \
         holds"
    )
}

/// Whether a document ends before what it began does.
pub fn is_cut_off(error: &roxmltree::Error) -> bool {
    matches!(error, roxmltree::Error::UnexpectedEndOfStream | roxmltree::Error::UnclosedRootNode)
}

fn transform(node: &Node<'_, '_>) -> Option<String> {
    let said =
        node.attribute("transform").map(str::trim).filter(|said| !said.is_empty() && *said != "none")?;
    // What is no part of a pattern may stand where it likes.
    if matches!(node.tag_name().name(), "image" | "style" | "title" | "desc" | "metadata" | "defs") {
        return None;
    }
    Transform::from_str(said).is_err().then(|| {
        format!("the `transform` here, `{}`, cannot be read: what it moves would lie elsewhere, or be of another size", shown(said))
    })
}

fn length(node: &Node<'_, '_>, name: &str, is_side: bool) -> Option<String> {
    let said = node.attribute(name).map(str::trim).filter(|said| !said.is_empty() && *said != "auto")?;
    let what = format!("the `{name}` of <{}>, `{}`,", node.tag_name().name(), shown(said));
    match Length::from_str(said) {
        Err(_) => Some(format!(
            "{what} cannot be read: it needs a number such as `100` or `100.5`, or one with a unit"
        )),
        Ok(length) if is_side && length.number < 0.0 => Some(format!("{what} is negative")),
        Ok(length) if length.number != 0.0 && !is_background(node) => {
            matches!(length.unit, LengthUnit::Percent | LengthUnit::Em | LengthUnit::Ex).then(|| {
                format!("{what} depends on what is around it, and is not read: write a number, or one in mm")
            })
        }
        Ok(_) => None,
    }
}

/// Whether it fills all that the drawing shows: that is paper, and no piece.
fn is_background(node: &Node<'_, '_>) -> bool {
    ["width", "height"].iter().all(|name| node.attribute(*name).is_some_and(|said| said.trim() == "100%"))
}

fn points(node: &Node<'_, '_>) -> Option<String> {
    let tag = node.tag_name().name();
    let said = node.attribute("points").filter(|_| matches!(tag, "polygon" | "polyline"))?;
    let mut count = 0_usize;
    for number in NumberListParser::from(said) {
        if let Err(error) = number {
            return Some(format!("the `points` of <{tag}> are damaged: {}", damaged_entry(said, &error)));
        }
        count += 1;
    }
    (count % 2 == 1).then(|| {
        format!("the `points` of <{tag}> are {count} numbers, and each point is two: one is missing, or one too many")
    })
}

/// What is said of path data that cannot be read up to its end.
pub fn damaged_data(data: &str, error: &Error) -> String {
    format!("the data of the path that begins here are damaged: {}", damaged_entry(data, error))
}

/// The entry of a list at which reading it came to an end, as it stands there.
fn damaged_entry(said: &str, error: &Error) -> String {
    let at = match error {
        Error::UnexpectedData(at) | Error::InvalidNumber(at) => Some(*at),
        Error::InvalidChar(_, at) | Error::InvalidString(_, at) => Some(*at),
        _ => None,
    };
    // Places are counted in letters, from 1.
    let place = at.and_then(|at| said.char_indices().nth(at.saturating_sub(1))).map(|(byte, _)| byte);
    let parts = |letter: char| letter == ',' || letter.is_whitespace();
    match place.map(|place| said.split_at(place)) {
        Some((before, after)) if !after.trim().is_empty() => {
            let begins = before.rsplit(parts).next().unwrap_or_default();
            let ends = after.split(parts).next().unwrap_or_default();
            let entry = format!("{begins}{ends}");
            format!("`{}` is not a number", shown(&entry))
        }
        _ => {
            let last = said.split(parts).rfind(|entry| !entry.is_empty()).unwrap_or_default();
            format!("they end too early, behind `{}`", shown(last))
        }
    }
}
