use super::outcome::Trouble;
use fustian::report::DisplayUnit;
use fustian::syntax::read_length;
use fustian::syntax::tree::Unit;

/// A length given to an option, in millimetres, as the language reads it; without a unit, in the
/// garment's own.
pub fn length(option: &str, text: &str, unit: DisplayUnit) -> Result<f64, Trouble> {
    let unit = match unit {
        DisplayUnit::Millimetre => Unit::Millimetre,
        DisplayUnit::Centimetre => Unit::Centimetre,
        DisplayUnit::Inch => Unit::Inch,
    };
    read_length(text, unit).map_err(|slip| {
        let help = slip.help_words().map_or_else(String::new, |help| format!("; {help}"));
        Trouble::Message(format!("{option} {text}: {}{help}", slip.title))
    })
}

/// The widths of cloth that `--widths` names, in millimetres.
pub fn widths(texts: &[String], unit: DisplayUnit) -> Result<Vec<f64>, Trouble> {
    let widths: Vec<f64> =
        texts.iter().map(|width| length("--widths", width, unit)).collect::<Result<_, _>>()?;
    if let Some(nothing) = texts.iter().zip(&widths).find(|(_, width)| **width <= 0.0) {
        return Err(Trouble::Message(format!("no cloth is {:?} wide; write a width above 0", nothing.0)));
    }
    Ok(widths)
}
