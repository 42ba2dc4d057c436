//! Lines and what each means. Every kind differs from the others without colour: by its width and
//! its dashes. The fold is the line of symmetry of ISO 128 (a chain line with two short strokes at
//! each end); the others are our own.

use crate::garment::SizeId;

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Pen {
    /// Cut along it. With sizes in one another: the place of the size, from 0, shown by the rhythm and the weight of
    /// its line.
    Cut(Option<SizeId>),
    /// Sew along it.
    Stitch,
    /// A row of stitching that shows beside a seam.
    Topstitch,
    /// Lies on the fold of the cloth.
    Fold,
    /// The way of the grain.
    Grain,
    /// A line of the piece.
    Line,
    /// Where a dart is folded.
    DartFold,
    /// The point of a dart, and the way that it is pressed.
    Dart,
    /// A slit: cut into the cloth along it.
    Slit,
    /// A notch.
    Notch,
    /// A marked place, a button.
    Mark,
    /// The rail that pieces hang from, and other lines of the sheet itself.
    Sheet,
    /// A frame or a square to measure.
    Frame,
    /// Where the next page comes.
    Join,
    /// A piece on a small map.
    Map,
}

/// What colour something has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// Nearly black, a little blue: what is cut and read.
    Dark,
    /// Madder: what is sewn.
    Madder,
    /// Grey: what is only for the eye.
    Grey,
}

/// What a surface has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// The sheet.
    Sheet,
    /// The allowance.
    Allowance,
    /// The piece inside its stitching line.
    Piece,
    /// A dark spot.
    Spot,
}

impl Pen {
    /// In millimetres.
    pub fn width(self) -> f64 {
        match self {
            Pen::Cut(None) => 0.9,
            Pen::Cut(Some(place)) => WEIGHTS[place.index() % WEIGHTS.len()],
            Pen::Notch | Pen::Slit | Pen::Frame => 0.6,
            Pen::Fold => 0.5,
            Pen::Grain | Pen::Mark | Pen::Dart => 0.45,
            Pen::Stitch | Pen::Line => 0.4,
            Pen::DartFold => 0.3,
            Pen::Map => 0.35,
            Pen::Sheet | Pen::Join | Pen::Topstitch => 0.25,
        }
    }

    /// Lengths of dashes and gaps by turns, in millimetres; empty for an unbroken line.
    pub fn dashes(self) -> Vec<f64> {
        match self {
            Pen::Cut(Some(place)) => rhythm(place.index()),
            Pen::Stitch => vec![3.0, 2.0],
            Pen::Topstitch => vec![1.6, 1.2],
            Pen::Fold => vec![14.0, 1.8, 1.8, 1.8],
            Pen::Line => vec![9.0, 3.0],
            Pen::DartFold => vec![5.0, 2.0, 1.0, 2.0],
            Pen::Join => vec![0.8, 1.6],
            Pen::Cut(None)
            | Pen::Grain
            | Pen::Notch
            | Pen::Mark
            | Pen::Dart
            | Pen::Slit
            | Pen::Sheet
            | Pen::Frame
            | Pen::Map => Vec::new(),
        }
    }

    /// Round ends, that make dots of dashes without length.
    pub fn round(self) -> bool {
        matches!(self, Pen::Cut(_))
    }

    /// Its colour.
    pub fn ink(self) -> Ink {
        match self {
            Pen::Cut(_) | Pen::Notch | Pen::Slit | Pen::Frame | Pen::Fold | Pen::Map => Ink::Dark,
            Pen::Stitch | Pen::Topstitch => Ink::Madder,
            Pen::Grain | Pen::Line | Pen::Mark | Pen::DartFold | Pen::Dart | Pen::Sheet | Pen::Join => {
                Ink::Grey
            }
        }
    }
}

impl Ink {
    /// Red, green and blue, 0 to 255.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Ink::Dark => [0x23, 0x2c, 0x3b],
            Ink::Madder => [0x9c, 0x3d, 0x2e],
            Ink::Grey => [0x5c, 0x66, 0x70],
        }
    }
}

impl Tone {
    /// Red, green and blue, 0 to 255.
    pub fn rgb(self) -> [u8; 3] {
        match self {
            Tone::Sheet => [0xf5, 0xf3, 0xee],
            Tone::Allowance => [0xe6, 0xe3, 0xd8],
            Tone::Piece => [0xff, 0xff, 0xff],
            Tone::Spot => [0x23, 0x2c, 0x3b],
        }
    }
}

/// The line of the size at that place: long dashes, short ones, dots, and dashes with a dot or two between, in turn. From
/// the seventh on dots are counted.
fn rhythm(place: usize) -> Vec<f64> {
    let with_dots = |dash: f64, dots: usize| {
        let mut dashes = vec![dash, DOT_GAP];
        for _ in 0..dots {
            dashes.extend([DOT, DOT_GAP]);
        }
        dashes
    };
    match place {
        0 => vec![24.0, 3.0],
        1 => vec![6.0, 3.0],
        2 => with_dots(14.0, 1),
        3 => vec![DOT, 2.4],
        4 => vec![14.0, 3.0, 5.0, 3.0],
        5 => with_dots(14.0, 2),
        more => with_dots(16.0, (more - 3).min(MOST_DOTS)),
    }
}

/// Widths of the lines of sizes, by turns, in millimetres: neighbours differ in grey too.
const WEIGHTS: [f64; 2] = [0.5, 0.9];
/// The gap beside a dot.
const DOT_GAP: f64 = 2.6;
/// A dash so short that its round ends make a dot of it.
const DOT: f64 = 0.02;
/// With more sizes than this the dots no longer tell them apart at a glance; their names do.
const MOST_DOTS: usize = 24;
