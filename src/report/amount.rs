/// The unit that figures are shown in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum DisplayUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    #[default]
    Centimetre,
    /// Inches, with the fractions that a tape shows.
    Inch,
}

/// Millimetres in an inch: exactly, by definition (NIST SP 811, appendix B.8).
pub const INCH: f64 = 25.4;
/// Beyond this a figure is no length of cloth; it is shown by its power of ten.
const LARGEST_SHOWN: f64 = 1e9;
/// So near to a mark of the tape is on it, in millimetres: curves are measured to no less.
const ON_A_MARK: f64 = 0.01;
/// Less than this is nothing: the noise of arithmetic, not an amount.
const NOTHING: f64 = 1e-6;

/// A length in millimetres as a tape shows it: "16 cm", "2.4 cm", "3 mm", "6 1/2 in".
///
/// Metric figures are rounded to 1 mm, inches to 1/8 in, below one inch to 1/16 in. What is not
/// nothing but rounds to nothing is "less than 1 mm". There is no "-0".
pub fn amount(mm: f64, unit: DisplayUnit) -> String {
    if !mm.is_finite() {
        return "too large to measure".to_owned();
    }
    match unit {
        DisplayUnit::Millimetre => metric(mm, false),
        DisplayUnit::Centimetre => metric(mm, true),
        DisplayUnit::Inch => inches(mm),
    }
}

/// The same for whoever measures with that tolerance, in millimetres: where it is finer than 1/8 in, inches are rounded to
/// 1/16 in.
pub fn finely(mm: f64, unit: DisplayUnit, tolerance: f64) -> String {
    const EIGHTH: f64 = INCH / 8.0;
    match unit {
        DisplayUnit::Inch if mm.is_finite() && tolerance < EIGHTH - NOTHING => in_parts(mm, 16),
        _ => amount(mm, unit),
    }
}

/// At least that length, on a mark of the tape: whoever cuts it so has enough.
pub fn at_least(mm: f64, unit: DisplayUnit) -> String {
    on_mark(mm, unit, f64::ceil)
}

/// At most that length, on a mark of the tape: whoever cuts it so has no more.
pub fn at_most(mm: f64, unit: DisplayUnit) -> String {
    on_mark(mm, unit, f64::floor)
}

/// To the next mark of the tape that way; what is on one, but for noise, stays.
fn on_mark(mm: f64, unit: DisplayUnit, way: fn(f64) -> f64) -> String {
    let mark = match unit {
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => 1.0,
        DisplayUnit::Inch if mm.abs() < INCH => INCH / 16.0,
        DisplayUnit::Inch => INCH / 8.0,
    };
    let (marks, nearest) = (mm / mark, (mm / mark).round());
    let marks = if (marks - nearest).abs() * mark < ON_A_MARK { nearest } else { way(marks) };
    amount(marks * mark, unit)
}

/// A share as percent, rounded to a whole one: "54 %".
pub fn percent(share: f64) -> String {
    if !share.is_finite() {
        return "too large to measure".to_owned();
    }
    let rounded = (share * 100.0).round() + 0.0;
    match rounded.abs() >= LARGEST_SHOWN {
        true => format!("{rounded:.2e} %"),
        false => format!("{rounded} %"),
    }
}

fn metric(mm: f64, in_centimetres: bool) -> String {
    if mm.abs() >= LARGEST_SHOWN {
        return format!("{mm:.2e} mm");
    }
    let rounded = mm.round();
    if rounded == 0.0 {
        return match (mm.abs() < NOTHING, in_centimetres) {
            (false, _) => "less than 1 mm".to_owned(),
            (true, true) => "0 cm".to_owned(),
            (true, false) => "0 mm".to_owned(),
        };
    }
    // Whole millimetres are counted as integers: a tenth of a centimetre has no exact double.
    let count = rounded as i64;
    let sign = if count < 0 { "-" } else { "" };
    let (whole, tenth) = (count.abs() / 10, count.abs() % 10);
    match (in_centimetres, whole, tenth) {
        (false, ..) | (true, 0, _) => format!("{count} mm"),
        (true, _, 0) => format!("{sign}{whole} cm"),
        (true, ..) => format!("{sign}{whole}.{tenth} cm"),
    }
}

fn inches(mm: f64) -> String {
    in_parts(mm, if mm.abs() < INCH { 16 } else { 8 })
}

/// Inches, rounded to one of so many parts.
fn in_parts(mm: f64, parts: i64) -> String {
    if mm.abs() >= LARGEST_SHOWN {
        return format!("{:.2e} in", mm / INCH);
    }
    let inches = mm.abs() / INCH;
    let count = (inches * parts as f64).round() as i64;
    if count == 0 {
        return match mm.abs() < NOTHING {
            true => "0 in".to_owned(),
            false => "less than 1/16 in".to_owned(),
        };
    }
    let sign = if mm < 0.0 { "-" } else { "" };
    let (whole, mut top, mut bottom) = (count / parts, count % parts, parts);
    while top != 0 && top % 2 == 0 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    match (whole, top) {
        (_, 0) => format!("{sign}{whole} in"),
        (0, _) => format!("{sign}{top}/{bottom} in"),
        _ => format!("{sign}{whole} {top}/{bottom} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use DisplayUnit::{Centimetre, Inch, Millimetre};

    #[test]
    fn a_limit_is_rounded_to_the_safe_side() {
        // 1 1/2 in is 38.1 mm; 37 mm is 1.457 in, between 1 3/8 and 1 1/2.
        assert_eq!([at_most(37.0, Inch), at_least(37.0, Inch)], ["1 3/8 in", "1 1/2 in"]);
        assert_eq!([at_most(38.1, Inch), at_least(38.1, Inch)], ["1 1/2 in", "1 1/2 in"]);
        assert_eq!([at_most(10.4, Centimetre), at_least(10.4, Centimetre)], ["1 cm", "1.1 cm"]);
        // Half an inch is 12.7 mm, and 13 mm is less than 9/16 in (14.29 mm).
        assert_eq!([at_most(13.0, Inch), at_least(13.0, Inch)], ["1/2 in", "9/16 in"]);
    }

    #[test]
    fn metric_figures_are_whole_millimetres() {
        for (mm, shown) in [
            (160.0, "16 cm"),
            (24.0, "2.4 cm"),
            (3.0, "3 mm"),
            (10.4, "1 cm"),
            (-24.0, "-2.4 cm"),
            (0.3, "less than 1 mm"),
            (-0.3, "less than 1 mm"),
            (-0.0, "0 cm"),
            (1e-12, "0 cm"),
        ] {
            assert_eq!(amount(mm, Centimetre), shown, "{mm}");
        }
        assert_eq!(amount(24.0, Millimetre), "24 mm");
        assert_eq!(amount(-0.0, Millimetre), "0 mm");
    }

    /// An inch is 25.4 mm exactly (NIST SP 811).
    #[test]
    fn inches_have_the_fractions_of_a_tape() {
        for (inches, shown) in [
            (6.5, "6 1/2 in"),
            (0.625, "5/8 in"),
            (0.0625, "1/16 in"),
            (-0.25, "-1/4 in"),
            (1.99, "2 in"),
            (0.99, "1 in"),
            (12.0, "12 in"),
            (2.875, "2 7/8 in"),
            (0.01, "less than 1/16 in"),
            (-0.0, "0 in"),
        ] {
            assert_eq!(amount(inches * 25.4, Inch), shown, "{inches}");
        }
    }

    /// 12 5/16 in is 312.7375 mm, and 2 mm less than 1/8 in (3.175 mm).
    #[test]
    fn a_fine_tolerance_has_fine_inches() {
        assert_eq!(finely(312.7375, Inch, 2.0), "12 5/16 in");
        assert_eq!(finely(312.7375, Inch, 3.175), "12 3/8 in");
        assert_eq!(finely(312.7375, Centimetre, 2.0), "31.3 cm");
    }

    #[test]
    fn what_is_too_large_is_shown_shortly() {
        for mm in [1e308, -1e308, f64::NAN, f64::INFINITY, 1e9] {
            for unit in [Millimetre, Centimetre, Inch] {
                assert!(amount(mm, unit).len() < 24, "{mm}");
            }
        }
    }

    #[test]
    fn shares_are_whole_percents() {
        assert_eq!(percent(1.0 / 0.65 - 1.0), "54 %");
        assert_eq!(percent(-0.001), "0 %");
    }
}
