//! Figures as a reader meets them: centimetres with inches beside, metres with yards, a range over the sizes or one size's own.

use crate::report::INCH;
use crate::sheet::words::NumberWords;
use crate::sheet::{Figure, FigureKind};

/// An eighth of a yard.
const EIGHTH_OF_YARD: f64 = 36.0 * INCH / 8.0;
/// Between a number and its unit: they stay on one line.
const JOINT: char = '\u{a0}';
/// From here on a figure is no length of a garment and is written by its power of ten.
const LARGEST: f64 = 1e9;

/// How numbers are written in a language.
#[derive(Clone, Copy, Debug)]
pub struct Numbers(NumberWords);

/// A figure in two systems: what stands first, and what stands smaller beside or beneath it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// "14.8 to 18.9 cm"
    pub main: String,
    /// "5⅞ to 7½ in"
    pub beside: Option<String>,
}

impl Numbers {
    /// Of a language.
    pub fn of(words: NumberWords) -> Self {
        Numbers(words)
    }

    /// "to": between the least and the most.
    pub fn to(self) -> &'static str {
        self.0.to
    }

    /// A figure in a cell of a table whose caption says the unit.
    pub fn in_table(self, kind: FigureKind, value: f64) -> Written {
        match kind {
            FigureKind::Length => Written { main: self.centimetres(value), beside: Some(self.inches(value)) },
            kind => self.written(kind, &[value]),
        }
    }

    /// With that many decimals at most, none of them needless.
    pub fn number(self, value: f64, decimals: usize) -> String {
        if !value.is_finite() || value.abs() >= LARGEST {
            return format!("{value:.2e}");
        }
        let text = format!("{value:.decimals$}");
        let text = match text.contains('.') {
            true => text.trim_end_matches('0').trim_end_matches('.'),
            false => text.as_str(),
        };
        let text = if text == "-0" { "0" } else { text };
        text.replace('.', &self.0.decimal.to_string()).replace('-', "−")
    }

    /// "14.8": centimetres, to the millimetre.
    pub fn centimetres(self, mm: f64) -> String {
        self.number(mm.round() / 10.0, 1)
    }

    /// "5⅞": inches, to the eighth; less than an inch to the sixteenth, as a tape shows it.
    pub fn inches(self, mm: f64) -> String {
        let inches = mm.abs() / INCH;
        if !inches.is_finite() || inches >= LARGEST {
            return format!("{:.2e}", mm / INCH);
        }
        let parts = if inches < 1.0 { 16 } else { 8 };
        let count = (inches * f64::from(parts)).round() as u64;
        let sign = if mm < 0.0 && count > 0 { "−" } else { "" };
        format!("{sign}{}", fraction(count, parts as u64))
    }

    /// Metres to the decimetre, rounded up already.
    pub fn metres(self, mm: f64) -> String {
        let number = format!("{:.1}", mm / 1000.0);
        number.replace('.', &self.0.decimal.to_string())
    }

    /// Money, with two decimals.
    pub fn money(self, amount: f64) -> String {
        format!("{amount:.2}").replace('.', &self.0.decimal.to_string())
    }

    /// Yards, rounded up to eighths: what is bought must do.
    pub fn yards_at_least(self, mm: f64) -> String {
        fraction(eighths_of_yard(mm), 8)
    }

    /// A figure of one size, or of several as a range.
    pub fn written(self, kind: FigureKind, values: &[f64]) -> Written {
        let (low, high) = values.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), &value| {
            (low.min(value), high.max(value))
        });
        let range = |of: &dyn Fn(f64) -> String, unit: &str| {
            let (from, to) = (of(low), of(high));
            let unit = if unit.is_empty() { String::new() } else { format!("{JOINT}{unit}") };
            match from == to {
                true => format!("{to}{unit}"),
                false => format!("{from} {} {to}{unit}", self.0.to),
            }
        };
        if values.is_empty() {
            return Written { main: String::new(), beside: None };
        }
        let inches = || Some(range(&|value| self.inches(value), "in"));
        match kind {
            // Less than a centimetre is said in millimetres, as on a ruler.
            FigureKind::Length if low.abs().max(high.abs()) < 9.5 => {
                Written { main: range(&|value| self.number(value, 1), "mm"), beside: inches() }
            }
            FigureKind::Small => {
                Written { main: range(&|value| self.number(value, 1), "mm"), beside: inches() }
            }
            // Half a millimetre that somebody says is not rounded: allowances of 12.5 mm are printed so.
            FigureKind::Length if low == high && is_half(low) => {
                Written { main: range(&|value| self.number(value, 1), "mm"), beside: inches() }
            }
            FigureKind::Length => {
                Written { main: range(&|value| self.centimetres(value), "cm"), beside: inches() }
            }
            FigureKind::Count => Written { main: range(&|value| self.number(value, 2), ""), beside: None },
            FigureKind::Share => {
                Written { main: range(&|value| self.number((value * 100.0).round(), 0), "%"), beside: None }
            }
        }
    }

    /// Of the sizes that have it, the range over all.
    pub fn over_all(self, figure: &Figure) -> Written {
        let known: Vec<f64> = figure.values.iter().flatten().copied().collect();
        self.written(figure.kind, &known)
    }
}

/// Whether it is so many millimetres and a half, and no more than an allowance or a hem is deep.
fn is_half(mm: f64) -> bool {
    const DEEPEST: f64 = 100.0;
    const HAIR: f64 = 0.01;
    mm.abs() < DEEPEST && ((mm.abs() - 0.5) - (mm.abs() - 0.5).round()).abs() < HAIR
}

/// Eighths of a yard that hold a length; a hair beyond one is no eighth more.
pub fn eighths_of_yard(mm: f64) -> u64 {
    const HAIR: f64 = 0.05;
    let eighths = ((mm - HAIR) / EIGHTH_OF_YARD).ceil();
    if eighths.is_finite() { eighths.max(1.0) as u64 } else { u64::MAX }
}

/// "7½": a count of parts as a whole number and a fraction in lowest terms.
fn fraction(count: u64, parts: u64) -> String {
    let (whole, mut top, mut bottom) = (count / parts, count % parts, parts);
    while top != 0 && top % 2 == 0 {
        (top, bottom) = (top / 2, bottom / 2);
    }
    let sign = match (top, bottom) {
        (0, _) => return whole.to_string(),
        (1, 2) => "½",
        (1, 4) => "¼",
        (3, 4) => "¾",
        (1, 8) => "⅛",
        (3, 8) => "⅜",
        (5, 8) => "⅝",
        (7, 8) => "⅞",
        _ => &format!("{top}/{bottom}"),
    };
    match whole {
        0 => sign.to_owned(),
        whole => format!("{whole}{sign}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn english() -> Numbers {
        Numbers::of(NumberWords { decimal: '.', to: "to" })
    }

    /// 1 in is 25.4 mm: 7 1/2 in 190.5 mm, 5 7/8 in 149.225 mm, 3/16 in 4.7625 mm.
    #[test]
    fn inches_stand_in_eighths() {
        let written = [190.5, 149.2, 4.8, 25.4, 0.0].map(|mm| english().inches(mm));
        assert_eq!(written, ["7½", "5⅞", "3/16", "1", "0"]);
    }

    /// 1 yd is 914.4 mm, 1/8 yd 114.3 mm: 1371.6 mm is 1 1/2 yd, a millimetre more asks for 1 5/8 yd.
    #[test]
    fn yards_are_rounded_up_to_eighths() {
        let written = [1371.6, 1372.6, 914.4, 100.0].map(|mm| english().yards_at_least(mm));
        assert_eq!(written, ["1½", "1⅝", "1", "⅛"]);
    }

    #[test]
    fn a_range_says_its_unit_once() {
        let written = english().written(FigureKind::Length, &[148.0, 189.0]);
        assert_eq!(written.main, "14.8 to 18.9\u{a0}cm");
        assert_eq!(written.beside.as_deref(), Some("5⅞ to 7½\u{a0}in"));
        let german =
            Numbers::of(NumberWords { decimal: ',', to: "bis" }).written(FigureKind::Length, &[148.0, 189.0]);
        assert_eq!(german.main, "14,8 bis 18,9\u{a0}cm");
        assert_eq!(english().written(FigureKind::Length, &[160.0, 160.2]).main, "16\u{a0}cm");
        assert_eq!(english().written(FigureKind::Length, &[5.0]).main, "5\u{a0}mm");
    }

    /// 7.5 mm are 4.72 sixteenths of an inch, 5/16; 12.5 mm are 7.87 sixteenths, half an inch.
    #[test]
    fn half_a_millimetre_that_is_said_stays() {
        let both = |mm: f64| {
            let written = english().written(FigureKind::Length, &[mm]);
            (written.main, written.beside.unwrap_or_default())
        };
        assert_eq!(both(7.5), ("7.5\u{a0}mm".to_owned(), "5/16\u{a0}in".to_owned()));
        assert_eq!(both(12.5), ("12.5\u{a0}mm".to_owned(), "½\u{a0}in".to_owned()));
        // What is measured, and differs from size to size, is as a tape shows it: 487.5 mm are 48.8 cm.
        assert_eq!(both(487.5).0, "48.8\u{a0}cm");
        assert_eq!(english().written(FigureKind::Length, &[12.5, 20.5]).main, "1.3 to 2.1\u{a0}cm");
    }
}
