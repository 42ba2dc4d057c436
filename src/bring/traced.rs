//! What a drawing holds, whichever format it came in: pieces, each in sizes, as paths in millimetres with y up.
//!
//! A reader has already done what only its format knows: units, transforms, which path belongs to which piece and which size.
//! Nothing here is judged: an outline may cross itself, sizes may have unlike numbers of corners.

use super::at_most::at_most;
use super::error::BringError;
use super::names::one_line;
use crate::report::INCH;
use indexmap::IndexMap;
use kurbo::{PathSeg, Point};

/// All that was read of one or more drawings.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Traced {
    /// The pieces, in the order of the drawing.
    pub pieces: Vec<TracedPiece>,
    /// Whether the drawing was measured in inches: so is the text then, unless the maker says otherwise.
    pub in_inches: bool,
    /// What the reader left out or was in doubt about, in a maker's words, one sentence each.
    pub remarks: Vec<String>,
    /// The same of what explains more than itself, and is told first.
    pub causes: Vec<String>,
    /// What makes no piece, and has to be mended first.
    pub wrong: Vec<BringError>,
    /// Lines that go round something and do not close.
    pub open: Vec<TracedPath>,
    /// When it was drawn, as the drawing says it.
    pub dated: Option<String>,
    /// By drawing, what one of its units was taken for.
    pub units: Vec<TracedUnit>,
}

/// What a unit of a drawing was taken for.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedUnit {
    /// The drawing's file.
    pub file: String,
    /// How many millimetres one unit is.
    pub size: f64,
    /// Who says so, behind a comma: `as its header says`.
    pub why: String,
    /// How high the smallest letters on its pieces are, in millimetres, where that is known.
    pub letters: Option<f64>,
}

impl TracedUnit {
    /// What was taken, in words: `one unit of smock.dxf is taken for 1 inch, as its header says`.
    pub fn words(&self) -> String {
        let name = match self.size {
            1.0 => "1 mm".to_owned(),
            10.0 => "1 cm".to_owned(),
            INCH => "1 inch".to_owned(),
            304.8 => "1 foot".to_owned(),
            1000.0 => "1 m".to_owned(),
            size if (0.01..1000.0).contains(&size) => format!("{} mm", (size * 1000.0).round() / 1000.0),
            size => format!("{size:e} mm"),
        };
        format!("one unit of {} is taken for {name}, {}", self.file, self.why)
    }

    /// What a length would be in other units that drawings are usual in, of those that fit: what follows is behind a semicolon.
    pub fn otherwise(&self, length: f64, fits: impl Fn(f64) -> bool) -> Option<String> {
        let units = [("millimetres", "1mm", 1.0), ("centimetres", "1cm", 10.0), ("inches", "1in", INCH)];
        let others = units.into_iter().filter(|(.., other)| *other != self.size);
        let each: Vec<String> = others
            .map(|(name, one, other)| (name, one, length / self.size * other))
            .filter(|(.., long)| fits(*long))
            .map(|(name, one, long)| format!("in {name} it would be {:.1} cm (`scale` {one}=1)", long / 10.0))
            .collect();
        (!each.is_empty()).then(|| each.join(", "))
    }
}

impl Traced {
    /// Adds what another drawing holds. A piece that both have, in other sizes, is one.
    pub fn add(&mut self, other: Traced) {
        self.in_inches |= other.in_inches;
        self.remarks.extend(other.remarks);
        self.causes.extend(other.causes);
        self.wrong.extend(other.wrong);
        self.open.extend(other.open);
        self.units.extend(other.units);
        self.dated = self.dated.take().or(other.dated);
        let (mut again, before) = (Vec::new(), self.pieces.len());
        for piece in other.pieces {
            let known = self.pieces.iter_mut().find(|known| {
                known.name == piece.name && !piece.sizes.keys().any(|size| known.sizes.contains_key(size))
            });
            match known {
                Some(known) => known.sizes.extend(piece.sizes),
                None => {
                    let mut named = self.pieces.iter().take(before).filter(|known| !known.is_nameless());
                    let twice = named.find(|known| known.name == piece.name);
                    if let Some(first) = twice {
                        again.push(format!(
                            "{} is drawn in two drawings ({}; {}): each is a piece of its own; are they two sizes of one, or the same \
                             garment twice?",
                            one_line(&piece.name),
                            one_line(&first.origin),
                            one_line(&piece.origin)
                        ));
                    }
                    self.pieces.push(piece);
                }
            }
        }
        self.causes.extend(at_most(again, |more| format!("{more} more pieces are drawn in two drawings")));
    }
}

/// One piece of a pattern, in every size that it was drawn in.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedPiece {
    /// What the drawing calls it, as it stands there: any text.
    pub name: String,
    /// Where it stands, for people: `block FRONT of smock.dxf`, `group front of smock.svg`.
    pub origin: String,
    /// By the size's name, in the order of the drawing. A drawing without sizes has one, named by the empty text.
    pub sizes: IndexMap<String, TracedSize>,
    /// How many are cut, where the drawing says so.
    pub cut: Option<TracedCut>,
    /// What cloth the drawing says it is cut from, as it stands there.
    pub material: Option<String>,
}

impl TracedPiece {
    /// Whether no drawing names it, so that a number stands for its name.
    pub fn is_nameless(&self) -> bool {
        let number = self.name.strip_prefix("piece ");
        number.is_some_and(|number| number.bytes().all(|digit| digit.is_ascii_digit()))
    }
}

/// How many are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TracedCut {
    /// How many altogether.
    pub count: u32,
    /// Whether they are left and right.
    pub mirrored: bool,
}

/// A piece in one size.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedSize {
    /// The outermost closed line: the cutting line where the drawing has a sew line too, else whichever it was drawn as.
    pub outline: TracedPath,
    /// The stitching line, where the drawing holds one.
    pub sew_line: Option<TracedPath>,
    /// Lines inside it, closed ones too.
    pub lines: Vec<TracedLine>,
    /// Notches on the outline.
    pub notches: Vec<TracedNotch>,
    /// Points inside it: drill holes, crosses, small circles.
    pub marks: Vec<TracedMark>,
    /// The grain line, from its tail to its head, if it was drawn.
    pub grain: Option<(Point, Point)>,
    /// The line of the fold, or the mirror line that the drawing says it is mirrored along.
    pub fold: Option<(Point, Point)>,
    /// What is written on it, in the order of the drawing.
    pub texts: Vec<String>,
    /// How many are cut in this size, where the drawing says so otherwise than by what is written on it.
    pub cut: Option<TracedCut>,
    /// Whether another piece lies over it, so that nobody can know to which of them belongs what lies there.
    pub is_overlapped: bool,
}

impl TracedSize {
    /// An outline, and nothing else yet.
    pub fn of(outline: TracedPath) -> Self {
        TracedSize {
            outline,
            sew_line: None,
            lines: Vec::new(),
            notches: Vec::new(),
            marks: Vec::new(),
            grain: None,
            fold: None,
            texts: Vec::new(),
            cut: None,
            is_overlapped: false,
        }
    }
}

/// A path as it was drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedPath {
    /// Each begins exactly where the one before ends; of a closed path the last ends where the first begins.
    pub segments: Vec<TracedSegment>,
    /// Whether it is closed.
    pub closed: bool,
}

/// One segment of a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TracedSegment {
    /// Its course: a straight line or a cubic Bézier.
    pub course: PathSeg,
    /// The circle that it is an arc of, where the drawing said so; the course then is one that follows it to 0.001 mm.
    pub arc: Option<TracedArc>,
    /// What the drawing says of the place where it ends.
    pub ends_at: TracedPoint,
}

/// A circular arc as it was said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TracedArc {
    /// The middle of the circle.
    pub centre: Point,
    /// Whether it turns clockwise, seen with y up.
    pub clockwise: bool,
}

/// What a drawing says of a point of a path.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub enum TracedPoint {
    /// Nothing: whether it is a corner is found by its angle.
    #[default]
    Unsaid,
    /// A corner, whatever its angle.
    Corner,
    /// A point of a curve, whatever its angle.
    Curve,
}

/// A line inside a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedLine {
    /// What the drawing calls it, or the empty text.
    pub name: String,
    /// Its course.
    pub path: TracedPath,
}

/// A notch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TracedNotch {
    /// Where it stands, on the outline or close to it.
    pub at: Point,
}

/// A point inside a piece.
#[derive(Debug, Clone, PartialEq)]
pub struct TracedMark {
    /// What the drawing calls it, or the empty text.
    pub name: String,
    /// Where it lies.
    pub at: Point,
}
