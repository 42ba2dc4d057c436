//! Units, views and transforms of an SVG document (SVG 2, 8; CSS Values 3, 5.2).

use kurbo::Affine;
use roxmltree::Node;
use std::str::FromStr;
use svgtypes::{Length, LengthUnit, Transform, ViewBox};

/// CSS: 96 px an inch (CSS Values 3, 5.2).
const PX: f64 = 25.4 / 96.0;

/// How many millimetres a unit of the document is, whether it is said in inches, and whether it is said at all.
pub fn unit_of(root: &Node<'_, '_>) -> (f64, bool, bool) {
    let side = |name: &str| {
        let length = Length::from_str(root.attribute(name)?).ok()?;
        let mm = match length.unit {
            LengthUnit::Mm => 1.0,
            LengthUnit::Cm => 10.0,
            LengthUnit::In => 25.4,
            LengthUnit::Pt => 25.4 / 72.0,
            LengthUnit::Pc => 25.4 / 6.0,
            LengthUnit::Px | LengthUnit::None => PX,
            LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => return None,
        };
        let said = !matches!(length.unit, LengthUnit::Px | LengthUnit::None);
        Some((length.number * mm, length.unit == LengthUnit::In, said))
    };
    let (width, height) = (side("width"), side("height"));
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
pub fn doubtful_unit(root: &Node<'_, '_>, unit: f64, measured: bool, scale: Option<f64>) -> Option<String> {
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
    let side = |name: &str| Length::from_str(root.attribute(name)?).ok();
    let (width, height) = (side("width")?, side("height")?);
    let is_share =
        |length: &Length| matches!(length.unit, LengthUnit::Percent | LengthUnit::Em | LengthUnit::Ex);
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
    let Ok(length) = Length::from_str(length) else { return 0.0 };
    match length.unit {
        LengthUnit::None | LengthUnit::Px => length.number,
        LengthUnit::In => length.number * 96.0,
        LengthUnit::Cm => length.number * 96.0 / 2.54,
        LengthUnit::Mm => length.number * 96.0 / 25.4,
        LengthUnit::Pt => length.number * 96.0 / 72.0,
        LengthUnit::Pc => length.number * 16.0,
        LengthUnit::Em | LengthUnit::Ex | LengthUnit::Percent => 0.0,
    }
}
