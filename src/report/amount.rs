use crate::garment::DisplayUnit;

/// A length as a tape shows it: "16 cm", "2.4 cm", "24 mm", "6 1/2 in".
///
/// Centimetres and millimetres to 1 mm, inches to 1/8 in; what is less than that, and not
/// nothing, is shown finer (0.1 mm, 1/64 in) so that no difference reads as none. Never "-0".
pub fn amount(millimetres: f64, unit: DisplayUnit) -> String {
    if !millimetres.is_finite() {
        return "an unknown length".to_owned();
    }
    match unit {
        DisplayUnit::Millimetre => decimal(millimetres, if millimetres.abs() < 1.0 { 1 } else { 0 }, "mm"),
        DisplayUnit::Centimetre => {
            let finer = millimetres.abs() < 1.0;
            decimal(millimetres / 10.0, if finer { 2 } else { 1 }, "cm")
        }
        DisplayUnit::Inch => inches(millimetres / 25.4),
    }
}

fn decimal(value: f64, places: usize, unit: &str) -> String {
    let mut text = format!("{value:.places$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" {
        text.remove(0);
    }
    format!("{text} {unit}")
}

fn inches(value: f64) -> String {
    let parts = if value.abs() < 0.125 { 64.0 } else { 8.0 };
    let steps = (value.abs() * parts).round();
    let sign = if value < 0.0 && steps > 0.0 { "-" } else { "" };
    let (whole, mut over, mut under) = ((steps / parts).floor(), steps % parts, parts);
    while over > 0.0 && over % 2.0 == 0.0 {
        over /= 2.0;
        under /= 2.0;
    }
    match (whole > 0.0, over > 0.0) {
        (_, false) => format!("{sign}{whole} in"),
        (true, true) => format!("{sign}{whole} {over}/{under} in"),
        (false, true) => format!("{sign}{over}/{under} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_as_a_tape() {
        assert_eq!(amount(160.0, DisplayUnit::Centimetre), "16 cm");
        assert_eq!(amount(24.0, DisplayUnit::Centimetre), "2.4 cm");
        assert_eq!(amount(-0.0, DisplayUnit::Centimetre), "0 cm");
        assert_eq!(amount(24.3, DisplayUnit::Millimetre), "24 mm");
        assert_eq!(amount(165.1, DisplayUnit::Inch), "6 1/2 in");
        assert_eq!(amount(15.875, DisplayUnit::Inch), "5/8 in");
        assert_eq!(amount(-25.4, DisplayUnit::Inch), "-1 in");
        assert_eq!(amount(25.39, DisplayUnit::Inch), "1 in");
    }
}
