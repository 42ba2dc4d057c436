use super::outcome::Trouble;
use fustian::report::DisplayUnit;
use fustian::syntax::tree::Unit;

/// A length as it is given on the command line, in millimetres: `5mm`, `90cm`, `45in`; without a
/// unit, in the garment's own.
pub fn length(text: &str, unit: DisplayUnit) -> Result<f64, Trouble> {
    let said = text.trim();
    let split = said.find(|letter: char| letter.is_alphabetic() || letter == '"').unwrap_or(said.len());
    let (number, word) = said.split_at(split);
    let unit = match (word.trim(), unit) {
        ("mm", _) | ("", DisplayUnit::Millimetre) => Unit::Millimetre,
        ("cm", _) | ("", DisplayUnit::Centimetre) => Unit::Centimetre,
        ("m", _) => Unit::Metre,
        ("in" | "\"", _) | ("", DisplayUnit::Inch) => Unit::Inch,
        ("ft", _) => Unit::Foot,
        ("yd", _) => Unit::Yard,
        _ => return Err(unread(text)),
    };
    let number: f64 = number.trim().parse().map_err(|_| unread(text))?;
    let length = number * unit.millimetres().ok_or_else(|| unread(text))?;
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
