//! The readers, one a format: each makes [`Traced`](super::traced::Traced) of a file's bytes.
//!
//! A reader has this form: `pub fn read(bytes: &[u8], file_name: &str, options: &ReadOptions) -> Result<Traced,
//! BringError>`. It never opens another file, whatever the drawing names.

/// What a maker says about a drawing that the drawing does not say itself.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct ReadOptions {
    /// How many millimetres one unit of the drawing is, instead of what the drawing says.
    pub scale: Option<f64>,
    /// What tells one size from another, of a drawing that can say it in several ways.
    pub sizes_from: Option<SizesFrom>,
}

/// What tells sizes apart in a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SizesFrom {
    /// Each size is a layer or an outermost group.
    Layers,
    /// A piece's name ends with its size: `front-M`, `front 38`.
    Names,
}
