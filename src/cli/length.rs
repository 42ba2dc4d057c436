use super::outcome::Trouble;
use fustian::report::DisplayUnit;

/// A length as it is given on the command line, in millimetres: `5mm`, `90cm`, `45in`; without a
/// unit, in the garment's own.
pub fn length(text: &str, unit: DisplayUnit) -> Result<f64, Trouble> {
    let said = text.trim();
    let split = said.find(|letter: char| letter.is_alphabetic() || letter == '"').unwrap_or(said.len());
    let (number, word) = said.split_at(split);
    let factor = match (word.trim(), unit) {
        ("mm", _) | ("", DisplayUnit::Millimetre) => 1.0,
        ("cm", _) | ("", DisplayUnit::Centimetre) => 10.0,
        ("m", _) => 1000.0,
        ("in" | "\"", _) | ("", DisplayUnit::Inch) => 25.4,
        ("ft", _) => 304.8,
        ("yd", _) => 914.4,
        _ => return Err(unread(text)),
    };
    let number: f64 = number.trim().parse().map_err(|_| unread(text))?;
    let length = number * factor;
    if !(length.is_finite() && (0.0..=LONGEST).contains(&length)) {
        return Err(unread(text));
    }
    Ok(length)
}

/// One kilometre.
const LONGEST: f64 = 1e6;

fn unread(text: &str) -> Trouble {
    Trouble::Told(format!("{text:?} is no length; write it as 5mm, 90cm or 45in"))
}
