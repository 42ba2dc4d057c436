//! Lay plans as a document and as words.

use super::documents::{
    BuyDocument, LaidPartDocument, LayDocument, LaysDocument, LengthUnit, PliesDocument, PointDocument,
    SpreadDocument, Version,
};
use super::number::Figure;
use super::sheet::Sheet;
use crate::cutting::Spread;
use crate::garment::{Garment, SizeId};
use crate::materials::{Buying, GarmentLay, LaidPart, Plies};
use crate::report::{DisplayUnit, amount};
use std::fmt::Write;

/// The lays as one document.
pub fn lays_document(garment: &Garment, lays: &[(GarmentLay, Buying)]) -> LaysDocument {
    LaysDocument {
        fustian: Version::One,
        garment: garment.title.to_string(),
        unit: LengthUnit::Millimetre,
        lays: lays.iter().map(|(lay, bought)| lay_document(garment, lay, bought)).collect(),
    }
}

pub(super) fn lay_document(garment: &Garment, lay: &GarmentLay, bought: &Buying) -> LayDocument {
    let fabric = garment.fabric(lay.cloth.fabric);
    LayDocument {
        fabric: fabric.name.to_string(),
        label: fabric.title.to_string(),
        sizes: lay.sizes.iter().map(|&size| size_name(garment, size)).collect(),
        spread: match lay.spread {
            Spread::Open => SpreadDocument::Open,
            Spread::Lengthwise => SpreadDocument::Lengthwise,
            Spread::Tube => SpreadDocument::Tube,
        },
        cloth_width: Figure(lay.cloth.width),
        width: Figure(lay.width),
        length: Figure(lay.length),
        usage_percent: Figure(lay.usage * 100.0),
        buy: buy_document(bought),
        parts: lay.parts.iter().map(|part| laid_part(garment, part)).collect(),
    }
}

pub(super) fn buy_document(bought: &Buying) -> BuyDocument {
    BuyDocument {
        with_repeats: Figure(bought.with_repeats),
        before_washing: Figure(bought.unwashed),
        to_buy: Figure(bought.to_buy),
    }
}

fn laid_part(garment: &Garment, part: &LaidPart) -> LaidPartDocument {
    let (low, _) = part.bounds();
    let mut outline = String::new();
    for (at, point) in part.outline.iter().enumerate() {
        let begin = if at == 0 { 'M' } else { 'L' };
        // Writing to a String cannot fail.
        let _ = write!(outline, "{begin}{} {}", Figure(point.x), Figure(point.y));
    }
    outline.push('Z');
    LaidPartDocument {
        part: part_name(garment, part),
        size: size_name(garment, part.size),
        plies: match part.plies {
            Plies::Single => PliesDocument::Single,
            Plies::OneOfTwo => PliesDocument::OneOfTwo,
            Plies::Both => PliesDocument::Both,
            Plies::OnFold => PliesDocument::OnFold,
        },
        face_down: part.mirrored,
        turned: Figure(part.degrees),
        from: PointDocument { x: Figure(low.x), y: Figure(low.y) },
        outline,
    }
}

pub(super) fn size_name(garment: &Garment, size: SizeId) -> String {
    garment.size(size).name.to_string()
}

/// The lays in words, one page each.
pub fn lays_text(garment: &Garment, lays: &[(GarmentLay, Buying)]) -> String {
    let pages: Vec<String> = lays.iter().map(|(lay, bought)| page(garment, lay, bought)).collect();
    pages.join("\n")
}

fn page(garment: &Garment, lay: &GarmentLay, bought: &Buying) -> String {
    let unit = garment.unit;
    let fabric = garment.fabric(lay.cloth.fabric);
    let mut title = match *fabric.title == *fabric.name {
        true => fabric.name.to_string(),
        false => format!("{}: {}", fabric.name, fabric.title),
    };
    if let (Some(_), [one]) = (&garment.fitting, lay.sizes.as_slice()) {
        title = format!("{title}, {}", garment.size_words(*one));
    } else if garment.sizes.len() > 1 {
        let sizes: Vec<String> = lay.sizes.iter().map(|&size| size_name(garment, size)).collect();
        let word = if sizes.len() == 1 { "size" } else { "sizes" };
        title = format!("{title}, {word} {}", sizes.join(", "));
    }
    let mut sheet = Sheet::new(&["piece", "part", "cut here", "lies", "along from", "across from"]);
    if lay.sizes.len() > 1 {
        sheet.heading.insert(2, "size".to_owned());
    }
    for part in &lay.parts {
        let (low, _) = part.bounds();
        let mut cells = vec![
            garment.piece(part.part.piece).title.to_string(),
            part_name(garment, part),
            plies_words(part.plies).to_owned(),
            lies_words(part),
            place(low.x, unit),
            place(low.y, unit),
        ];
        if lay.sizes.len() > 1 {
            cells.insert(2, size_name(garment, part.size));
        }
        sheet.rows.push(cells);
    }
    format!(
        "{title}\n{}\n{}\n\n{}",
        spread_line(garment, lay),
        length_line(garment, lay, bought),
        sheet.text()
    )
}

/// A distance on the cloth; the search leaves hairs between pieces that are none.
fn place(distance: f64, unit: DisplayUnit) -> String {
    amount(if distance < 0.5 { 0.0 } else { distance }, unit)
}

/// How the cloth lies: "folded lengthwise, 71.6 cm from fold to selvage (150 cm wide)".
pub(super) fn spread_line(garment: &Garment, lay: &GarmentLay) -> String {
    let unit = garment.unit;
    let (width, sold) = (amount(lay.width, unit), amount(lay.cloth.width, unit));
    match lay.spread {
        Spread::Open if lay.cloth.tubular => format!("a tube {sold} wide, slit open: {width} across"),
        Spread::Open if lay.cloth.selvage > 0.0 => {
            format!("open, {width} between the selvages ({sold} wide)")
        }
        Spread::Open => format!("open, {width} across ({sold} wide)"),
        Spread::Lengthwise => format!("folded lengthwise, {width} from fold to selvage ({sold} wide)"),
        Spread::Tube => format!("as a tube, {width} from fold to fold"),
    }
}

/// "length 168.3 cm, usage 81 %, buy 1.8 m"
pub(super) fn length_line(garment: &Garment, lay: &GarmentLay, bought: &Buying) -> String {
    let unit = garment.unit;
    let mut reasons = Vec::new();
    if bought.with_repeats > bought.laid {
        reasons.push(format!("{} for the repeat", amount(bought.with_repeats - bought.laid, unit)));
    }
    if bought.unwashed > bought.with_repeats {
        reasons.push(format!("{} for shrinking", amount(bought.unwashed - bought.with_repeats, unit)));
    }
    let reasons =
        if reasons.is_empty() { String::new() } else { format!(" (with {})", reasons.join(" and ")) };
    format!(
        "length {}, usage {:.1} %, buy {}{reasons}",
        amount(lay.length, unit),
        lay.usage * 100.0,
        as_sold(bought.to_buy, unit)
    )
}

/// A length of cloth as one asks for it: "1.8 m", "2 1/8 yd".
pub(super) fn as_sold(length: f64, unit: DisplayUnit) -> String {
    match unit {
        DisplayUnit::Millimetre | DisplayUnit::Centimetre => format!("{:.1} m", length / 1000.0),
        DisplayUnit::Inch => {
            let eighths = (length / (914.4 / 8.0)).round() as i64;
            let (whole, mut top, mut bottom) = (eighths / 8, eighths % 8, 8);
            while top != 0 && top % 2 == 0 {
                (top, bottom) = (top / 2, bottom / 2);
            }
            match (whole, top) {
                (_, 0) => format!("{whole} yd"),
                (0, _) => format!("{top}/{bottom} yd"),
                _ => format!("{whole} {top}/{bottom} yd"),
            }
        }
    }
}

fn plies_words(plies: Plies) -> &'static str {
    match plies {
        Plies::Single => "1",
        Plies::OneOfTwo => "1, from one ply",
        Plies::Both => "2, both plies",
        Plies::OnFold => "1, on the fold",
    }
}

/// How the pattern lies: face up or down, and turned which way.
fn lies_words(part: &LaidPart) -> String {
    let face = if part.mirrored { "face down" } else { "face up" };
    let turned = part.degrees.rem_euclid(360.0).round() as i64 % 360;
    // Drawn upright along the grain, a piece lies along the cloth after a quarter turn.
    match turned {
        270 => format!("{face}, top ahead"),
        90 => format!("{face}, top behind"),
        other => format!("{face}, turned {other}°"),
    }
}

/// "outer.front"; "outer.front on left" of what is cut for one side of the body alone.
fn part_name(garment: &Garment, part: &LaidPart) -> String {
    let on = part.hand.map_or(String::new(), |hand| format!(" on {}", hand.word()));
    garment.part_name(Some(part.part.layer), part.part.piece) + &on
}
