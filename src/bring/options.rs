//! What a maker says about bringing a pattern in.

use super::figures::TextUnit;
use super::read::ReadOptions;
use indexmap::IndexMap;

/// What a maker says about bringing a pattern in.
#[derive(Debug, Clone, PartialEq)]
pub struct BringOptions {
    /// What the garment is called.
    pub title: String,
    /// How the drawings are read.
    pub read: ReadOptions,
    /// From how large a turn on a point is a corner, in radians.
    pub corner: f64,
    /// How far a fitted curve may miss what was traced, in millimetres.
    pub tolerance: f64,
    /// What the outlines hold as allowance, in millimetres: they are cutting lines then.
    pub allowance: Option<f64>,
    /// The unit of the text; where nothing is said, inches if a drawing was measured in them, else centimetres.
    pub unit: Option<TextUnit>,
    /// By piece, what its edges are called, in order.
    pub names: IndexMap<String, Vec<String>>,
}

impl Default for BringOptions {
    fn default() -> Self {
        BringOptions {
            title: "Pattern".to_owned(),
            read: ReadOptions::default(),
            corner: 25.0_f64.to_radians(),
            tolerance: 0.2,
            allowance: None,
            unit: None,
            names: IndexMap::new(),
        }
    }
}
