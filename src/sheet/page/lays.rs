//! How the pieces lie on their cloths, all at one scale, drawn from the lay plans of the document.

use super::Page;
use super::buy::{way, wide};
use super::pieces::arrow;
use super::shapes::{polygon, tenth, thinned, well_inside};
use super::swatch::{class, swatch};
use super::write::{Html, NAME_LETTERS, bounded, escaped, isolated};
use crate::emit::{LaidPartDocument, LayDocument, PliesDocument, SpreadDocument};
use crate::sheet::FigureKind;
use kurbo::{Point, Vec2};
use minijinja::Value;
use serde::Serialize;
use std::fmt::Write as _;

/// The longest lay is drawn so long, in units of the page: it fits a phone.
const LONGEST: f64 = 350.0;
/// No unit is less cloth than that, in millimetres, so that a small garment is not drawn large.
const LEAST: f64 = 3.2;
/// A finer line of a lay is not seen, in millimetres.
const SEEN: f64 = 1.5;
/// Of more sizes than that only the one that pictures show is drawn: each size is a page of drawings.
const SIZES_DRAWN: usize = 12;

#[derive(Debug, Serialize)]
pub struct Lays {
    lays: Vec<DrawnLay>,
}

#[derive(Debug, Serialize)]
struct DrawnLay {
    cloth: Html,
    about: Html,
    /// One a size; of several the one that is shown where no size is chosen first.
    drawings: Vec<Drawing>,
    one_way: bool,
}

#[derive(Debug, Serialize)]
struct Drawing {
    /// The classes that show and hide it.
    class: String,
    svg: Html,
    caption: Html,
}

pub fn lays(page: &Page) -> Option<Lays> {
    let document = page.facts.document;
    let shown = document.sizes.get(page.shown)?;
    let of_shown = shown.lays.as_ref()?;
    let sizes = &document.sizes;
    let all = || sizes.iter().filter_map(|size| size.lays.as_ref()).flatten();
    let longest = all().map(|lay| lay.length.rounded()).fold(0.0, f64::max);
    let scale = LONGEST / longest.max(LONGEST * LEAST);
    let drawn = of_shown.iter().map(|lay| {
        let is_own = |other: &&LayDocument| {
            other.fabric == lay.fabric
                && other.cloth_width.rounded().to_bits() == lay.cloth_width.rounded().to_bits()
        };
        let mut drawings = vec![drawing(page, lay, scale, page.shown, "all")];
        if sizes.len() > 1 && sizes.len() <= SIZES_DRAWN {
            for (at, size) in sizes.iter().enumerate() {
                let own = size.lays.as_ref().and_then(|lays| lays.iter().find(is_own));
                drawings.extend(own.map(|own| drawing(page, own, scale, at, &format!("z z{at}"))));
            }
        }
        let facts = shown.cloths.iter().find(|cloth| cloth.name == lay.fabric);
        DrawnLay {
            cloth: Value::from_safe_string(format!(
                "{} {}",
                swatch(page.texture_of(&lay.fabric)),
                isolated(&lay.label, NAME_LETTERS)
            )),
            about: Value::from_safe_string(wide(page, lay.cloth_width.rounded())),
            drawings,
            one_way: facts.is_some_and(|facts| facts.one_way),
        }
    });
    Some(Lays { lays: drawn.collect() })
}

fn drawing(page: &Page, lay: &LayDocument, scale: f64, at: usize, class: &str) -> Drawing {
    let say = page.say;
    let length = page.numbers.written(FigureKind::Length, &[lay.length.rounded()]);
    let beside = length.beside.as_ref().map_or(String::new(), |beside| format!(" ({})", escaped(beside)));
    let (above, below) = match lay.spread {
        SpreadDocument::Open => (say.selvage, say.selvage),
        SpreadDocument::Lengthwise => (say.selvage, say.fold),
        SpreadDocument::Tube => (say.fold, say.fold),
    };
    let size = match page.sizes.len() {
        0 | 1 => String::new(),
        _ => format!("{} {}, ", say.size, isolated(&page.sizes[at], NAME_LETTERS)),
    };
    let caption = format!(
        "{size}{}, {}{beside} {}. {}: {above}; {}: {below}.",
        way(page, lay.spread),
        escaped(&length.main),
        say.long,
        super::write::spoken(say.above),
        say.below
    );
    let alt = escaped(&format!(
        "{}: {}{}, {}",
        say.lay_of,
        bounded(&lay.label, NAME_LETTERS),
        if page.sizes.len() > 1 {
            format!(", {}", bounded(&page.sizes[at], NAME_LETTERS))
        } else {
            String::new()
        },
        way(page, lay.spread)
    ));
    Drawing {
        class: class.to_owned(),
        svg: Value::from_safe_string(svg(page, lay, scale, &alt)),
        caption: Value::from_safe_string(caption),
    }
}

fn svg(page: &Page, lay: &LayDocument, scale: f64, alt: &str) -> String {
    let (long, wide) = (lay.length.rounded() * scale, lay.width.rounded() * scale);
    let texture = page.texture_of(&lay.fabric);
    let to = |point: Point| Point::new(point.x * scale + 2.0, wide - point.y * scale + 2.0);
    let one_way = page.is_one_way(&lay.fabric);
    let mut shapes = format!(
        "<rect class=\"bolt\" x=\"2\" y=\"2\" width=\"{}\" height=\"{}\"/>",
        tenth(long),
        tenth(wide)
    );
    let mut numbers = String::new();
    for part in &lay.parts {
        let points: Vec<Point> = thinned(&polygon(&part.outline), SEEN).into_iter().map(&to).collect();
        let mut outline = String::new();
        for (at, point) in points.iter().enumerate() {
            // Writing to a String cannot fail.
            let _ =
                write!(outline, "{}{} {}", if at == 0 { 'M' } else { 'L' }, tenth(point.x), tenth(point.y));
        }
        let _ = write!(
            shapes,
            "<g class=\"pic\"><path class=\"{}\" d=\"{outline}Z\"/></g><path class=\"laid\" d=\"{outline}Z\"/>",
            class(texture, !part.face_down)
        );
        if let Some(middle) = well_inside(&points) {
            numbers.push_str(&label(page, part, middle, one_way));
        }
    }
    let folds: String = match lay.spread {
        SpreadDocument::Open => String::new(),
        SpreadDocument::Lengthwise => format!("M2 {0}H{1}", tenth(wide + 2.0), tenth(long + 2.0)),
        SpreadDocument::Tube => format!("M2 {0}H{1}M2 2H{1}", tenth(wide + 2.0), tenth(long + 2.0)),
    };
    if !folds.is_empty() {
        let _ = write!(shapes, "<path class=\"onfold\" d=\"{folds}\"/>");
    }
    format!(
        "<svg class=\"lay\" style=\"--long:{0}\" role=\"img\" aria-label=\"{alt}\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\">{shapes}{numbers}</svg>",
        tenth(long + 4.0),
        tenth(wide + 4.0)
    )
}

/// The number of a piece, and which way its grain runs: to where its top is.
fn label(page: &Page, part: &LaidPartDocument, at: Point, one_way: bool) -> String {
    let number = page.number_of_part(&part.part);
    let grain = page.grain_of(&part.part).unwrap_or(90.0);
    // A pattern is turned over first, its left to its right, and then turned.
    let drawn = if part.face_down { 180.0 - grain } else { grain };
    let (sine, cosine) = libm::sincos((drawn + part.turned.rounded()).to_radians());
    let way = Vec2::new(cosine, -sine);
    let reach = 13.0;
    let grain = arrow(at - way * reach, at + way * (reach + 7.0), !one_way);
    let Some(number) = number else { return grain };
    let wider = if number > 9 { 8.5 } else { 7.0 };
    format!(
        "{grain}<circle class=\"numberring\" cx=\"{0}\" cy=\"{1}\" r=\"{wider}\"/><text class=\"number\" x=\"{0}\" y=\"{2}\">{number}{3}</text>",
        tenth(at.x),
        tenth(at.y),
        tenth(at.y + 3.6),
        match part.plies {
            PliesDocument::OneOfTwo => "*",
            PliesDocument::Single | PliesDocument::Both | PliesDocument::OnFold => "",
        }
    )
}
