//! Transforms that a style says (CSS Transforms 1, 13): as the attribute of that name, but that lengths and angles have units.

use crate::report::INCH;
use kurbo::{Affine, Vec2};

/// The transform of a style's `transform`, about its `transform-origin` where that is said; none of what is not read.
pub fn css_transform(said: &str, origin: Option<&str>) -> Option<Affine> {
    let whole = functions(said)?;
    let [a, b, c, d, ..] = whole.as_coeffs();
    // What only moves has no middle.
    if [a, b, c, d] == [1.0, 0.0, 0.0, 1.0] {
        return Some(whole);
    }
    let about = origin.map_or(Some(Vec2::ZERO), place)?;
    Some(Affine::translate(about) * whole * Affine::translate(-about))
}

/// The data of a path that a style says: `path("M 0 0 H 9")`.
pub fn data_of(said: &str) -> Option<String> {
    let inside = said.trim().strip_prefix("path(")?.strip_suffix(')')?.trim();
    let data = inside.trim_matches(['"', '\'']);
    (data.len() < inside.len()).then(|| data.to_owned())
}

fn functions(said: &str) -> Option<Affine> {
    let mut whole = Affine::IDENTITY;
    let mut rest = said.trim();
    if rest == "none" {
        return Some(whole);
    }
    while !rest.is_empty() {
        let (name, after) = rest.split_once('(')?;
        let (inside, after) = after.split_once(')')?;
        whole *= function(name.trim(), inside)?;
        rest = after.trim_start_matches([',', ' ', '\t', '\n', '\r']);
    }
    Some(whole)
}

fn function(name: &str, inside: &str) -> Option<Affine> {
    let said: Vec<&str> = inside.split([',', ' ']).filter(|one| !one.is_empty()).collect();
    let lengths = || said.iter().map(|one| length(one)).collect::<Option<Vec<f64>>>();
    let numbers = || said.iter().map(|one| one.parse().ok()).collect::<Option<Vec<f64>>>();
    let angles = || said.iter().map(|one| angle(one)).collect::<Option<Vec<f64>>>();
    let affine = match name.to_lowercase().as_str() {
        "translate" => match *lengths()? {
            [x] => Affine::translate((x, 0.0)),
            [x, y] => Affine::translate((x, y)),
            _ => return None,
        },
        "translatex" => Affine::translate((only(&lengths()?)?, 0.0)),
        "translatey" => Affine::translate((0.0, only(&lengths()?)?)),
        "scale" => match *numbers()? {
            [both] => Affine::scale(both),
            [x, y] => Affine::scale_non_uniform(x, y),
            _ => return None,
        },
        "scalex" => Affine::scale_non_uniform(only(&numbers()?)?, 1.0),
        "scaley" => Affine::scale_non_uniform(1.0, only(&numbers()?)?),
        "rotate" => Affine::rotate(only(&angles()?)?),
        "skewx" => Affine::skew(libm::tan(only(&angles()?)?), 0.0),
        "skewy" => Affine::skew(0.0, libm::tan(only(&angles()?)?)),
        "matrix" => match *numbers()? {
            [a, b, c, d, e, f] => Affine::new([a, b, c, d, e, f]),
            _ => return None,
        },
        _ => return None,
    };
    affine.is_finite().then_some(affine)
}

fn only(all: &[f64]) -> Option<f64> {
    match all {
        [one] => Some(*one),
        _ => None,
    }
}

fn place(said: &str) -> Option<Vec2> {
    let each: Option<Vec<f64>> = said.split_whitespace().map(length).collect();
    match *each? {
        [x, y] => Some(Vec2::new(x, y)),
        _ => None,
    }
}

/// A length in user units, which are CSS's px; a bare number is one as programs write it.
fn length(said: &str) -> Option<f64> {
    let units = [
        ("px", 1.0),
        ("mm", 96.0 / INCH),
        ("cm", 96.0 / 2.54),
        ("in", 96.0),
        ("pt", 96.0 / 72.0),
        ("pc", 16.0),
    ];
    let found = units.into_iter().find_map(|(unit, size)| Some((said.strip_suffix(unit)?, size)));
    let (number, size) = found.unwrap_or((said, 1.0));
    number.trim().parse::<f64>().ok().map(|number| number * size)
}

/// An angle in radians.
fn angle(said: &str) -> Option<f64> {
    let units = [
        ("deg", 1.0_f64.to_radians()),
        ("grad", 0.9_f64.to_radians()),
        ("rad", 1.0),
        ("turn", std::f64::consts::TAU),
    ];
    let found = units.into_iter().find_map(|(unit, size)| Some((said.strip_suffix(unit)?, size)));
    match found {
        Some((number, size)) => number.parse::<f64>().ok().map(|number| number * size),
        // Zero alone needs no unit.
        None => said.parse::<f64>().ok().filter(|number| *number == 0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::css_transform;
    use kurbo::Point;

    /// By hand: what comes last is done first.
    #[test]
    fn functions_are_read_with_their_units() {
        let at = |said: &str, origin: Option<&str>| {
            let to = css_transform(said, origin)? * Point::new(10.0, 20.0);
            Some(((to.x * 1e6).round() / 1e6, (to.y * 1e6).round() / 1e6))
        };
        assert_eq!(at("none", None), Some((10.0, 20.0)));
        assert_eq!(at("translate(5px, 1in)", None), Some((15.0, 116.0)));
        assert_eq!(at("translateX(5px) scale(2)", None), Some((25.0, 40.0)));
        assert_eq!(at("rotate(90deg)", None), Some((-20.0, 10.0)));
        assert_eq!(at("rotate(0.25turn)", Some("10px 0px")), Some((-10.0, 0.0)));
        assert_eq!(at("matrix(1, 0, 0, -1, 3, 4)", None), Some((13.0, -16.0)));
        assert_eq!(at("scale(2)", Some("center")), None);
        assert_eq!(at("translate(5px)", Some("center")), Some((15.0, 20.0)));
        for wrong in [
            "translate(50%)",
            "rotate(90)",
            "rotate3d(0,0,1,90deg)",
            "scale(2",
            "scale()",
            "big(2)",
            "scale(nan)",
        ] {
            assert_eq!(at(wrong, None), None, "{wrong}");
        }
    }
}
