//! How many millimetres one unit of a drawing is.

use super::entity::{Entity, Shape};
use super::file::File;
use crate::bring::ReadOptions;
use crate::bring::read::letters::base_name;
use crate::bring::read::said::{Key, keyed};
use crate::bring::traced::TracedUnit;

/// What a unit of a drawing is taken for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Taken {
    /// How large it is, and who says so.
    pub taken: TracedUnit,
    /// Whether the drawing was measured in inches.
    pub in_inches: bool,
    /// Whether anything says how large it is.
    pub is_said: bool,
}

/// A unit, and whether it is an inch.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Unit {
    /// In millimetres.
    size: f64,
    /// Whether it belongs to English measures.
    in_inches: bool,
}

const MILLIMETRE: Unit = Unit { size: 1.0, in_inches: false };
const INCH: Unit = Unit { size: crate::report::INCH, in_inches: true };

/// What the maker says, else what the style's text says (`Units: METRIC`, after ASTM D6673), else what the header says.
pub(super) fn unit(file: &File, name: &str, options: &ReadOptions, remarks: &mut Vec<String>) -> Taken {
    let texts = file.entities.iter().chain(file.blocks.values().flat_map(|block| &block.entities));
    let mut by_texts = texts.flat_map(words).filter_map(|text| match keyed(text) {
        Some((Key::Units, value)) => match value.to_uppercase().as_str() {
            "METRIC" | "MM" => Some(MILLIMETRE),
            "ENGLISH" | "IMPERIAL" | "INCH" | "INCHES" => Some(INCH),
            _ => None,
        },
        _ => None,
    });
    let by_text = by_texts.next();
    if by_text.is_some_and(|first| by_texts.any(|other| other != first)) {
        remarks.push(
            "Its texts say two units, metric and English; the first was believed. Should the pieces come out wrong, say the `scale`."
                .to_owned(),
        );
    }
    // $INSUNITS, numbered as the DXF reference does.
    let by_header = match file.unit {
        1 => Some(INCH),
        2 => Some(Unit { size: 304.8, in_inches: true }),
        4 => Some(MILLIMETRE),
        5 => Some(Unit { size: 10.0, in_inches: false }),
        6 => Some(Unit { size: 1000.0, in_inches: false }),
        8 => Some(Unit { size: 2.54e-5, in_inches: true }),
        9 => Some(Unit { size: 0.0254, in_inches: true }),
        10 => Some(Unit { size: 914.4, in_inches: true }),
        14 => Some(Unit { size: 100.0, in_inches: false }),
        _ => None,
    };
    let by_measurement = match file.measurement {
        Some(0) => Some(INCH),
        Some(1) => Some(MILLIMETRE),
        _ => None,
    };
    let said = by_text.or(by_header);
    let taken = |unit: Unit, why: &str| Taken {
        taken: TracedUnit {
            file: base_name(name).to_owned(),
            size: unit.size,
            why: why.to_owned(),
            letters: None,
        },
        in_inches: unit.in_inches,
        is_said: options.scale.or(said.map(|unit| unit.size)).is_some(),
    };
    if let Some(scale) = options.scale {
        if let Some(own) = said.filter(|own| (own.size / scale - 1.0).abs() > 0.001) {
            let who = if by_text.is_some() { "Its text" } else { "Its header ($INSUNITS)" };
            remarks.push(format!("{who} says that a unit is {} mm, and `scale` that it is {scale} mm: the `scale` was believed.", own.size));
        }
        let in_inches = said.or(by_measurement).is_some_and(|unit| unit.in_inches);
        return taken(Unit { size: scale, in_inches }, "as `scale` says");
    }
    if let (Some(text), Some(header)) = (by_text, by_header)
        && text != header
    {
        remarks.push(format!(
            "Its text says that it is measured in {}, its header in units of {} mm; the text was believed. Should the \
             pieces come out wrong, say the `scale`.",
            named(text),
            header.size
        ));
    }
    match (said, by_measurement) {
        (Some(said), measured) => {
            let (who, why) = match by_text {
                Some(_) => ("Its text", "as its text says"),
                None => ("Its header ($INSUNITS)", "as its header says"),
            };
            if let Some(measured) = measured.filter(|measured| measured.in_inches != said.in_inches) {
                remarks.push(format!(
                    "{who} says that a unit is {} mm, and yet the drawing is set up for {} ($MEASUREMENT); the first was \
                     believed. Measure a piece, and say the `scale` if it is wrong.",
                    said.size,
                    system(measured)
                ));
            }
            taken(said, why)
        }
        (None, Some(measured)) => {
            remarks.push(format!(
                "Nothing says in which unit it is drawn; {} were taken, since it is set up for {}. Measure a piece, \
                 and say the `scale` if it is wrong.",
                named(measured),
                system(measured)
            ));
            taken(measured, "since it is set up for such measures, and no unit is said")
        }
        (None, None) => {
            remarks.push(
                "Nothing says in which unit it is drawn; millimetres were taken. Measure a piece, and say the `scale` if \
                 it is wrong."
                    .to_owned(),
            );
            taken(MILLIMETRE, "since nothing says a unit")
        }
    }
}

fn named(unit: Unit) -> &'static str {
    if unit.in_inches { "inches" } else { "millimetres" }
}

fn system(unit: Unit) -> &'static str {
    if unit.in_inches { "English measures" } else { "metric measures" }
}

/// The words of an entity.
pub(super) fn words(entity: &Entity) -> impl Iterator<Item = &String> {
    let (lines, insert) = match &entity.shape {
        Shape::Words { lines, .. } => (lines.as_slice(), None),
        Shape::Insert(insert) => (&[] as &[String], Some(insert)),
        _ => (&[] as &[String], None),
    };
    lines.iter().chain(insert.into_iter().flat_map(|insert| insert.words.iter().map(|(_, text)| text)))
}
