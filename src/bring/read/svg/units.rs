//! Units, views and transforms of an SVG document (SVG 2, 8; CSS Values 3, 5.2).

use super::style::Styles;
use crate::report::INCH;
use kurbo::Affine;
use roxmltree::Node;
use std::str::FromStr;
use svgtypes::{Length, LengthUnit, Transform, ViewBox};

/// CSS: 96 px an inch (CSS Values 3, 5.2).
const PX: f64 = INCH / 96.0;

/// The width and the height that a document says. A style of its own counts before its attributes (CSS Cascading 3, 6), but where
/// it says no length that can be measured: a page is to fill a window then, and what is drawn keeps its size.
pub fn sides(root: &Node<'_, '_>, styles: &Styles) -> [Option<Length>; 2] {
    ["width", "height"].map(|name| {
        let said = root.attribute(name).and_then(|said| Length::from_str(said.trim()).ok());
        let styled = styles.property(root, name).and_then(|styled| Length::from_str(&styled).ok());
        styled.filter(is_measured).or(said).or(styled)
    })
}

/// What is said of a document whose style says another width or height than its attributes.
pub fn two_sides(root: &Node<'_, '_>, sides: [Option<Length>; 2]) -> Option<String> {
    let shown = |length: &Length| format!("{} mm", (in_mm(length) * 10.0).round() / 10.0);
    ["width", "height"].into_iter().zip(sides).find_map(|(name, believed)| {
        let said = Length::from_str(root.attribute(name)?.trim()).ok().filter(is_measured)?;
        let believed = believed.filter(|own| (in_mm(own) / in_mm(&said) - 1.0).abs() > SCALES_ALIKE)?;
        Some(format!(
            "its style says that its {name} is {}, and its attribute that it is {}: the style was believed, as programs that show drawings \
             do; measure a piece, and say the `scale` if it is wrong",
            shown(&believed),
            shown(&said)
        ))
    })
}

/// Whether a length is one on paper.
fn is_measured(length: &Length) -> bool {
    use LengthUnit::{Cm, In, Mm, Pc, Pt};
    matches!(length.unit, Mm | Cm | In | Pt | Pc)
}

/// Whether a length hangs on what is around it.
fn is_share(length: &Length) -> bool {
    matches!(length.unit, LengthUnit::Percent | LengthUnit::Em | LengthUnit::Ex)
}

/// How many millimetres a length is that hangs on nothing around it.
fn in_mm(length: &Length) -> f64 {
    let unit = match length.unit {
        LengthUnit::Mm => 1.0,
        LengthUnit::Cm => 10.0,
        LengthUnit::In => INCH,
        LengthUnit::Pt => INCH / 72.0,
        LengthUnit::Pc => INCH / 6.0,
        LengthUnit::Px | LengthUnit::None | LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => PX,
    };
    length.number * unit
}

/// How many millimetres a unit of the document is, whether it is said in inches, and whether it is said at all.
pub fn unit_of(root: &Node<'_, '_>, [width, height]: [Option<Length>; 2]) -> (f64, bool, bool) {
    let side = |length: &Length| (in_mm(length), length.unit == LengthUnit::In, is_measured(length));
    let is_known = |length: &Length| !is_share(length);
    let (width, height) =
        (width.filter(is_known).as_ref().map(side), height.filter(is_known).as_ref().map(side));
    let inches = [width, height].iter().flatten().any(|(_, inches, _)| *inches);
    let said = [width, height].iter().flatten().any(|(.., said)| *said);
    let Some(view) = view_box(root) else { return (PX, inches, said) };
    let shares = [width.map(|(mm, ..)| mm / view.w), height.map(|(mm, ..)| mm / view.h)];
    // The default of preserveAspectRatio shows all of it: the lesser of both.
    let unit = shares
        .iter()
        .flatten()
        .filter(|unit| unit.is_finite() && **unit > 0.0)
        .fold(f64::INFINITY, |all, own| all.min(*own));
    if unit.is_finite() { (unit, inches, said) } else { (PX, inches, said) }
}

/// By how much two scales may differ, as a share: sides are rounded.
const SCALES_ALIKE: f64 = 0.005;

/// What is said of a document whose width and height say two scales, or another one than the maker.
pub fn doubtful_unit(
    root: &Node<'_, '_>,
    [width, height]: [Option<Length>; 2],
    (unit, measured): (f64, bool),
    scale: Option<f64>,
) -> Option<String> {
    let rounded = |mm: f64| (mm * 1000.0).round() / 1000.0;
    if let Some(scale) = scale {
        return (measured && (unit / scale - 1.0).abs() > SCALES_ALIKE).then(|| {
            format!(
                "its width and height say that one unit is {} mm, and `scale` that it is {} mm: the `scale` was believed",
                rounded(unit),
                rounded(scale)
            )
        });
    }
    let view = view_box(root)?;
    let (width, height) = (width?, height?);
    let (across, up) = (width.number / view.w, height.number / view.h);
    let is_told = measured
        && width.unit == height.unit
        && !is_share(&width)
        && across > 0.0
        && up > 0.0
        && (across / up - 1.0).abs() > SCALES_ALIKE;
    is_told.then(|| {
        format!(
            "its width and height say two scales, across one {} times that up; {} mm were taken for one unit both ways: measure a piece, \
             and say the `scale` if it is wrong",
            rounded(across / up),
            rounded(unit)
        )
    })
}

/// What part of its plane a drawing shows.
pub fn view_box(node: &Node<'_, '_>) -> Option<ViewBox> {
    let view = ViewBox::from_str(node.attribute("viewBox")?).ok()?;
    (view.w > 0.0 && view.h > 0.0).then_some(view)
}

/// The transform of a drawing within a drawing.
pub fn nested(node: &Node<'_, '_>) -> Affine {
    let place = Affine::translate((number_of(node, "x"), number_of(node, "y")));
    let Some(view) = view_box(node) else { return place };
    let (width, height) = (number_of(node, "width"), number_of(node, "height"));
    let scale = match (width > 0.0, height > 0.0) {
        (true, true) => (width / view.w).min(height / view.h),
        (true, false) => width / view.w,
        (false, true) => height / view.h,
        (false, false) => 1.0,
    };
    // In the middle of what is left over, as the default of preserveAspectRatio has it.
    let over = |wanted: f64, own: f64| if wanted > 0.0 { (wanted - own * scale) / 2.0 } else { 0.0 };
    let middle = Affine::translate((over(width, view.w), over(height, view.h)));
    place * middle * Affine::scale(scale) * Affine::translate((-view.x, -view.y))
}

/// The transform that an element says; none where it is damaged.
pub fn transform_of(node: &Node<'_, '_>) -> Affine {
    let Some(said) = node.attribute("transform") else { return Affine::IDENTITY };
    match Transform::from_str(said) {
        Ok(own) => Affine::new([own.a, own.b, own.c, own.d, own.e, own.f]),
        Err(_) => Affine::IDENTITY,
    }
}

/// Whether a transform leaves nothing of what it draws but a line or a point.
pub fn is_flat(transform: Affine) -> bool {
    let [a, b, c, d, ..] = transform.as_coeffs();
    let area = transform.determinant().abs();
    area.is_finite() && area <= 1e-9 * (a * a + b * b + c * c + d * d)
}

/// A length of a shape in user units; percentages, which hang on the view, count as nothing.
pub fn number_of(node: &Node<'_, '_>, name: &str) -> f64 {
    let Some(length) = node.attribute(name).and_then(|said| said.split_whitespace().next()) else {
        return 0.0;
    };
    length_of(length).unwrap_or(0.0)
}

/// A length in user units; none of what is no length, or hangs on what is around it.
pub fn length_of(said: &str) -> Option<f64> {
    let length = Length::from_str(said).ok()?;
    match length.unit {
        LengthUnit::None | LengthUnit::Px => Some(length.number),
        LengthUnit::In => Some(length.number * 96.0),
        LengthUnit::Cm => Some(length.number * 96.0 / 2.54),
        LengthUnit::Mm => Some(length.number * 96.0 / INCH),
        LengthUnit::Pt => Some(length.number * 96.0 / 72.0),
        LengthUnit::Pc => Some(length.number * 16.0),
        LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => None,
    }
}
