//! Text of a sheet before it is written: words in which trade terms, pieces, letters of seams and figures are told apart,
//! so that the page can link, mark and choose them.

/// A run of text.
#[derive(Clone, Debug, PartialEq)]
pub enum Run {
    /// Plain words, the maker's or the table's. Never markup: the page escapes them.
    Words(String),
    /// A trade term that the glossary explains: its key in the table of words, and the words as they stand here.
    Term(&'static str, String),
    /// A piece, by its number; the page writes the number in a ring, and `title` where it is said.
    Piece(usize, Option<String>),
    /// The letter of a seam, an edge or whatever else is sewn, see [`super::Letters`].
    Letter(String),
    /// Points that meet bear one sign, counted from 0: dot, triangle, square, lozenge, cross.
    Sign(usize),
    /// A figure that may differ from size to size.
    Figure(Figure),
}

/// A figure: one value a size, in the order of [`super::Facts::sizes`]. The page writes the one of the size that is chosen, and of
/// all sizes the range, and in which units.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it counts.
    pub kind: FigureKind,
    /// In millimetres, or as a count; none in a size that has none.
    pub values: Vec<Option<f64>>,
}

/// What a figure counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureKind {
    /// A length: in centimetres, with inches beside it.
    Length,
    /// A small length that is said in millimetres, as the width of a button is.
    Small,
    /// A plain count.
    Count,
    /// A share, written in percent.
    Share,
}

/// Text: runs one after the other, blanks included.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Text(pub Vec<Run>);

impl Text {
    /// Plain words.
    pub fn words(words: impl Into<String>) -> Self {
        Text(vec![Run::Words(words.into())])
    }

    /// Whether nothing is said.
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|run| matches!(run, Run::Words(words) if words.trim().is_empty()))
    }

    /// The same with more behind it.
    pub fn then(mut self, more: impl IntoIterator<Item = Run>) -> Self {
        self.0.extend(more);
        self
    }
}

impl From<&str> for Text {
    fn from(words: &str) -> Self {
        Text::words(words)
    }
}

impl From<String> for Text {
    fn from(words: String) -> Self {
        Text::words(words)
    }
}

impl From<Run> for Text {
    fn from(run: Run) -> Self {
        Text(vec![run])
    }
}

impl From<Figure> for Text {
    fn from(figure: Figure) -> Self {
        Run::Figure(figure).into()
    }
}
