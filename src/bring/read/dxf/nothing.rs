//! What stands in a drawing and draws nothing: a maker sees nothing of it there either, and would miss it in the garment.

use super::entity::{Entity, Insert, Shape};
use crate::bring::BringError;
use crate::bring::at_most::at_most;
use crate::bring::read::letters::{base_name, shown};

/// Smaller than this a scale leaves nothing of what is put down.
const NOUGHT: f64 = 1e-9;

/// Something that draws nothing: in which line it begins, and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Nothing {
    line: usize,
    why: String,
}

/// What is said of a block that is put down without any width or height.
pub(super) fn put_down(entity: &Entity, insert: &Insert) -> Option<Nothing> {
    let (across, up) = insert.scale;
    let (which, codes) = match (across.abs() < NOUGHT, up.abs() < NOUGHT) {
        (true, true) => ("at scale 0, without any width and height", "group codes 41 and 42"),
        (true, false) => ("at scale 0 across, without any width", "group code 41"),
        (false, true) => ("at scale 0 up, without any height", "group code 42"),
        (false, false) => return None,
    };
    let why = format!(
        "the block “{}” is put down {which} ({codes}): 1 puts it down as it is drawn",
        shown(&insert.block)
    );
    Some(Nothing { line: entity.line, why })
}

/// Why an entity that has no course draws none.
pub(super) fn drawn(entity: &Entity) -> Option<Nothing> {
    let why = match &entity.shape {
        Shape::Line(..) => "a LINE ends where it begins: a dot is a POINT or a circle".to_owned(),
        Shape::Polyline { vertices, .. } => match vertices.as_slice() {
            [] => "a POLYLINE has no vertices: draw it anew".to_owned(),
            [_] => "a POLYLINE has one vertex, and needs two: draw it anew".to_owned(),
            all => format!("the {} vertices of a POLYLINE all lie in one place: draw it anew", all.len()),
        },
        Shape::Arc { .. } => "a CIRCLE, an ARC or an ELLIPSE has no radius: draw it anew".to_owned(),
        Shape::Spline(spline) => match spline.controls.len().max(spline.through.len()) {
            0 => "a SPLINE has neither control points (group code 10) nor points that it goes through (11): draw it anew".to_owned(),
            1 => "a SPLINE has one point, and needs two: draw it anew".to_owned(),
            count => format!("the {count} points of a SPLINE make no curve: draw it anew"),
        },
        Shape::Point(_) | Shape::Words { .. } | Shape::Insert(_) => return None,
    };
    Some(Nothing { line: entity.line, why })
}

/// What is said of them beside pieces that come in.
pub(super) fn remarks(all: &[Nothing], file: &str) -> Vec<String> {
    let file = base_name(file);
    let each = all.iter().map(|own| format!("in line {} of {file} {}; it draws nothing", own.line, own.why));
    at_most(each, |more| format!("{more} more things in {file} draw nothing"))
}

/// The same, where nothing comes in.
pub(super) fn mistakes(all: &[Nothing], file: &str) -> Vec<BringError> {
    let each = all
        .iter()
        .map(|own| BringError::new(file, format!("{}; it draws nothing", own.why)).at_line(own.line));
    each.collect()
}
