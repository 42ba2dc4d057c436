//! The letters: Noto Sans (SIL Open Font License 1.1), which comes with the program, so that a
//! drawing looks the same everywhere and needs no fonts of the machine it is looked at on.

use kurbo::BezPath;
use ttf_parser::{GlyphId, OutlineBuilder};

/// A face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// For reading.
    Plain,
    /// For titles.
    Bold,
}

/// The faces that are used, in the order in which files list them.
pub(in crate::emit) const fn faces() -> [Face; 2] {
    [Face::Plain, Face::Bold]
}

impl Face {
    /// The file it comes in.
    pub(in crate::emit) fn data(self) -> &'static [u8] {
        match self {
            Face::Plain => notosans::REGULAR_TTF,
            Face::Bold => notosans::BOLD_TTF,
        }
    }

    /// The font; none where its file cannot be read, which no user's text can bring about.
    pub(in crate::emit) fn font(self) -> Option<ttf_parser::Face<'static>> {
        ttf_parser::Face::parse(self.data(), 0).ok()
    }

    /// How long words are at a body of `size`.
    pub fn length(self, text: &str, size: f64) -> f64 {
        glyphs(self, text).last().map_or(0.0, |last| last.until) * size
    }
}

/// A letter where it stands in a line of words.
pub(in crate::emit) struct Glyph {
    /// Which.
    pub id: GlyphId,
    /// What it stands for.
    pub letter: char,
    /// Where it begins, in bodies from the start of the words.
    pub from: f64,
    /// Where the next begins.
    pub until: f64,
}

/// The letters of words, one after another. What the face has not is its empty box; control
/// characters are spaces.
pub(in crate::emit) fn glyphs(face: Face, text: &str) -> Vec<Glyph> {
    let Some(font) = face.font() else { return Vec::new() };
    let body = f64::from(font.units_per_em());
    let mut at = 0.0;
    text.chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .map(|letter| {
            let id = font.glyph_index(letter).unwrap_or(GlyphId(0));
            let advance = f64::from(font.glyph_hor_advance(id).unwrap_or(0)) / body;
            let from = at;
            at += advance;
            Glyph { id, letter, from, until: at }
        })
        .collect()
}

/// A letter's outline in the font's own units, y up, and how many of them make a body.
pub(in crate::emit) fn outline(face: Face, id: GlyphId) -> Option<(BezPath, f64)> {
    let font = face.font()?;
    let mut outline = Outline(BezPath::new());
    font.outline_glyph(id, &mut outline);
    Some((outline.0, f64::from(font.units_per_em())))
}

struct Outline(BezPath);

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (one, two) = ((f64::from(x1), f64::from(y1)), (f64::from(x2), f64::from(y2)));
        self.0.curve_to(one, two, (f64::from(x), f64::from(y)));
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}
