use super::font::Face;
use super::pen::{Ink, Pen, Tone};
use crate::garment::SizeId;
use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};

/// Something drawn.
#[derive(Clone, Debug)]
pub struct Shape {
    /// The size it belongs to; none of what all sizes share.
    pub size: Option<SizeId>,
    /// Further sizes that it belongs to, where it is one line of some of them and not of all.
    pub with: Vec<SizeId>,
    /// A name for those who read the file: `outer.front M cutting`.
    pub name: Option<String>,
    /// It is the stitching line, which a viewer may hide by itself.
    pub sewn: bool,
    /// What it is.
    pub what: What,
}

/// What a shape is.
#[derive(Clone, Debug)]
pub enum What {
    /// A line.
    Stroke(BezPath, Pen),
    /// A surface.
    Fill(BezPath, Tone),
    /// Words.
    Words(Words),
}

/// One line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Words {
    /// The words.
    pub text: String,
    /// The left end of their foot line.
    pub at: Point,
    /// The height of the letters' body (em), in millimetres.
    pub size: f64,
    /// Turned by this many radians, anticlockwise.
    pub angle: f64,
    /// The letters.
    pub face: Face,
    /// Their colour.
    pub ink: Ink,
    /// The ground behind them is cleared, because they stand in a line.
    pub cleared: bool,
}

impl Shape {
    /// A line that all sizes share, without a name.
    pub fn stroke(path: BezPath, pen: Pen) -> Self {
        Shape { size: None, with: Vec::new(), name: None, sewn: false, what: What::Stroke(path, pen) }
    }

    /// A surface.
    pub fn fill(path: BezPath, tone: Tone) -> Self {
        Shape { size: None, with: Vec::new(), name: None, sewn: false, what: What::Fill(path, tone) }
    }

    /// Words.
    pub fn words(words: Words) -> Self {
        Shape { size: None, with: Vec::new(), name: None, sewn: false, what: What::Words(words) }
    }

    /// The same of one size.
    pub fn of(mut self, size: Option<SizeId>) -> Self {
        self.size = size;
        self
    }

    /// The same of these sizes, and of no others.
    pub fn of_all(mut self, sizes: Vec<SizeId>) -> Self {
        let mut sizes = sizes.into_iter();
        self.size = sizes.next();
        self.with = sizes.collect();
        self
    }

    /// Whether it is of this size, or of all.
    pub fn is_of(&self, size: SizeId) -> bool {
        self.size.is_none_or(|own| own == size) || self.with.contains(&size)
    }

    /// The same, known as the stitching line.
    pub fn sewn(mut self) -> Self {
        self.sewn = true;
        self
    }

    /// The same with a name.
    pub fn named(mut self, name: impl Into<String>) -> Self {
        self.name = Some(name.into());
        self
    }

    /// Moved.
    pub fn moved(mut self, by: Vec2) -> Self {
        match &mut self.what {
            What::Stroke(path, _) | What::Fill(path, _) => path.apply_affine(Affine::translate(by)),
            What::Words(words) => words.at += by,
        }
        self
    }

    /// Turned a quarter anticlockwise about (0, 0).
    pub fn turned(mut self) -> Self {
        match &mut self.what {
            What::Stroke(path, _) | What::Fill(path, _) => {
                path.apply_affine(Affine::new([0.0, 1.0, -1.0, 0.0, 0.0, 0.0]));
            }
            What::Words(words) => {
                words.at = Point::new(-words.at.y, words.at.x);
                words.angle += std::f64::consts::FRAC_PI_2;
            }
        }
        self
    }

    /// The upright rectangle that holds it, its line's width included.
    pub fn bounds(&self) -> Rect {
        match &self.what {
            What::Stroke(path, pen) => path.bounding_box().inflate(pen.width() / 2.0, pen.width() / 2.0),
            What::Fill(path, _) => path.bounding_box(),
            What::Words(words) => {
                let corners = words.corners();
                corners.iter().fold(Rect::from_points(corners[0], corners[0]), |all, &one| all.union_pt(one))
            }
        }
    }
}

/// What a maker writes, no longer than so many letters: a title may be as long as a book, and paper is not.
pub(in crate::emit) fn in_short(text: &str, most: usize) -> String {
    if text.chars().nth(most).is_none() {
        return text.to_owned();
    }
    let start: String = text.chars().take(most - 1).collect();
    format!("{}…", start.trim_end())
}

/// The most letters of a title.
pub(in crate::emit) const TITLE_LETTERS: usize = 80;
/// The most letters of what is said about a garment.
pub(in crate::emit) const ABOUT_LETTERS: usize = 240;

impl Words {
    /// Upright dark words in the plain face.
    pub fn new(text: impl Into<String>, at: Point, size: f64) -> Self {
        let (angle, face, ink) = (0.0, Face::Plain, Ink::Dark);
        Words { text: text.into(), at, size, angle, face, ink, cleared: false }
    }

    /// In bold.
    pub fn bold(mut self) -> Self {
        self.face = Face::Bold;
        self
    }

    /// In grey.
    pub fn grey(mut self) -> Self {
        self.ink = Ink::Grey;
        self
    }

    /// How long they are, in millimetres.
    pub fn length(&self) -> f64 {
        self.face.length(&self.text, self.size)
    }

    /// The rectangle round them, from the lower left anticlockwise as they are read: from a little
    /// below the foot line to the top of the capitals.
    pub fn corners(&self) -> [Point; 4] {
        let (sine, cosine) = libm::sincos(self.angle);
        let along = Vec2::new(cosine, sine);
        let (low, high) = (along.turn_90() * (-0.24 * self.size), along.turn_90() * (0.76 * self.size));
        let end = self.at + along * self.length();
        [self.at + low, end + low, end + high, self.at + high]
    }
}
