//! Vector drawings: SVG 1.1 and 2 (W3C).

mod again;
mod called;
mod course;
mod css_transform;
mod drawn;
pub(super) mod elements;
mod entities;
mod in_parts;
mod lacking;
mod line_names;
mod lying;
mod nested_layers;
mod open_sew;
mod outline;
mod pieces;
mod readable;
mod roles;
pub(super) mod scale;
mod shapes;
mod sizes;
mod small_notches;
mod style;
mod units;
mod words;

use super::ReadOptions;
use crate::bring::error::BringError;
use crate::bring::traced::Traced;
use elements::Elements;

/// Reads a drawing: one closed path a piece and size.
///
/// # Errors
/// Damaged XML, no SVG, more than there may be, coordinates that are not numbers, no closed path.
pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced, BringError> {
    let mut drawing = elements::elements(bytes, file_name, options.scale)?;
    scale::by_square(&mut drawing, file_name, options.scale.is_none());
    if options.sizes_from.is_none()
        && let Some(traced) = drawn::drawn(&drawing, file_name).filter(says_something)
    {
        return Ok(traced);
    }
    if !drawing.measured {
        drawing.remarks.push(
            "nothing in it says how large it is: 96 units were taken for an inch, as programs that show drawings do; \
             measure a piece, and say the `scale` if it is wrong"
                .to_owned(),
        );
    }
    let owners = sizes::owners(&drawing, options.sizes_from);
    let nested = nested_layers::told(&drawing, &sizes::layers(&drawing), &owners);
    drawing.causes.extend(nested);
    let traced = pieces::pieces(&drawing, &owners, file_name)?;
    if !says_something(&traced) {
        return Err(BringError::new(file_name, nothing(&drawing)));
    }
    Ok(traced)
}

fn says_something(traced: &Traced) -> bool {
    !traced.pieces.is_empty() || !traced.wrong.is_empty()
}

/// Why there is no piece in a drawing.
fn nothing(drawing: &Elements) -> String {
    let open = drawing.items.iter().flat_map(|item| item.paths.iter().map(move |path| (item, path)));
    let gaps = open.filter(|(_, path)| !path.closed).filter_map(|(item, path)| {
        let (first, last) = (path.segments.first()?, path.segments.last()?);
        let gap = kurbo::ParamCurve::start(&first.course).distance(kurbo::ParamCurve::end(&last.course));
        (path.segments.len() >= 2).then(|| (gap, item.name.clone()))
    });
    match gaps.min_by(|one, other| one.0.total_cmp(&other.0)) {
        None if drawing.items.is_empty() => "it draws no path, so no piece of a pattern".to_owned(),
        None => "it draws no closed path, and a piece is one".to_owned(),
        Some((gap, name)) => format!(
            "it draws no closed path, and a piece is one: the ends of {} are {gap:.1} mm apart",
            name.unwrap_or_else(|| "the path that comes nearest".to_owned())
        ),
    }
}
