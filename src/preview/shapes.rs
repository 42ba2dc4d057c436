//! Shapes as the page draws them: in millimetres, y down. No markup: the script makes elements of them, so that
//! nothing that a maker writes is ever read as markup.

use crate::emit::drawing::{Face, Ink, Pen, Shape, Tone, What};
use crate::emit::{Figure, path_data};
use crate::garment::{Garment, SizeId};
use kurbo::{Point, Vec2};
use serde::Serialize;

/// One shape.
#[derive(Clone, Debug, Serialize)]
#[serde(tag = "is", rename_all = "lowercase")]
pub enum ShapeView {
    /// A line.
    Line {
        /// What it is for.
        kind: &'static str,
        /// SVG path data.
        path: String,
        /// The size it belongs to; none of what all sizes share.
        #[serde(skip_serializing_if = "Option::is_none")]
        size: Option<String>,
        /// Of one of several sizes, the rhythm of its line.
        #[serde(skip_serializing_if = "Vec::is_empty")]
        dashes: Vec<Figure>,
        /// Of one of several sizes, its width.
        #[serde(skip_serializing_if = "Option::is_none")]
        width: Option<Figure>,
    },
    /// A surface.
    Surface {
        /// What it is.
        kind: &'static str,
        /// SVG path data.
        path: String,
    },
    /// Words.
    Words {
        /// The words.
        text: String,
        /// The left end of their foot line.
        x: Figure,
        /// Its height.
        y: Figure,
        /// The height of the letters' body.
        body: Figure,
        /// How long they are.
        long: Figure,
        /// Turned by so many degrees, clockwise.
        turn: Figure,
        /// In bold.
        bold: bool,
        /// In grey.
        grey: bool,
        /// The size they belong to.
        #[serde(skip_serializing_if = "Option::is_none")]
        size: Option<String>,
    },
}

/// The shape, moved.
pub(super) fn view(garment: &Garment, shape: &Shape, by: Vec2) -> ShapeView {
    let place = |point: Point| down(point + by);
    let size = shape.size.map(|size| name_of(garment, size));
    match &shape.what {
        What::Stroke(path, pen) => {
            let own = match pen {
                Pen::Cut(Some(_)) => {
                    (pen.dashes().into_iter().map(Figure).collect(), Some(Figure(pen.width())))
                }
                _ => (Vec::new(), None),
            };
            let path = path_data(path, &place);
            ShapeView::Line { kind: kind(*pen), path, size, dashes: own.0, width: own.1 }
        }
        What::Fill(path, tone) => ShapeView::Surface { kind: surface(*tone), path: path_data(path, &place) },
        What::Words(words) => {
            let at = place(words.at);
            ShapeView::Words {
                text: words.text.clone(),
                x: Figure(at.x),
                y: Figure(at.y),
                body: Figure(words.size),
                long: Figure(words.length()),
                turn: Figure(-words.angle.to_degrees()),
                bold: words.face == Face::Bold,
                grey: words.ink == Ink::Grey,
                size,
            }
        }
    }
}

/// A point of a drawing on the page.
pub(super) fn down(point: Point) -> Point {
    Point::new(point.x, -point.y)
}

pub(super) fn name_of(garment: &Garment, size: SizeId) -> String {
    garment.size(size).name.to_string()
}

fn kind(pen: Pen) -> &'static str {
    match pen {
        Pen::Cut(_) => "cut",
        Pen::Stitch => "stitch",
        Pen::Topstitch => "topstitch",
        Pen::Fold => "fold",
        Pen::Grain => "grain",
        Pen::Line => "inner",
        Pen::DartFold => "crease",
        Pen::Dart => "dart",
        Pen::Slit => "slit",
        Pen::Notch => "notch",
        Pen::Mark => "mark",
        Pen::Sheet => "rule",
        Pen::Frame => "frame",
        Pen::Join => "join",
        Pen::Map => "laid",
    }
}

fn surface(tone: Tone) -> &'static str {
    match tone {
        Tone::Sheet => "sheet",
        Tone::Allowance => "allowance",
        Tone::Piece => "piece",
        Tone::Spot => "spot",
    }
}
