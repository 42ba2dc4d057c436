//! Stitching beside seams and finishes: rows of topstitching, understitching, tacks; and what is set at a place.

use super::{Dotted, EdgePlace, Expr, Name, SewnWords, StitchWord, Text};
use crate::source::Span;

/// `topstitch front_rows 0.6 from front.centre, collar.left rows 2 apart 0.5`,
/// `topstitch quilting along front.diagonal`, `understitch neck_under 0.2 from neck_facing.neckline`
#[derive(Clone, Debug)]
pub struct StitchedRow {
    /// Its name.
    pub name: Name,
    /// Which kind.
    pub kind: RowKind,
    /// How far from the edges; none of what is stitched along lines.
    pub distance: Option<Expr>,
    /// The edges, or runs of them; lines where no distance is said.
    pub edges: Vec<SewnWords>,
    /// How many rows, and how far apart; one where nothing is said.
    pub rows: Option<(Expr, Expr)>,
    /// `{ stitch 301 }`
    pub stitch: Option<StitchWord>,
}

/// Kinds of rows that are stitched beside an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RowKind {
    /// `topstitch`: from the right side, through all that lies there.
    Topstitch,
    /// `understitch`: a facing to the allowances of its seam, so that it rolls to the inside.
    Understitch,
}

impl RowKind {
    /// As it is written.
    pub fn word(self) -> &'static str {
        match self {
            RowKind::Topstitch => "topstitch",
            RowKind::Understitch => "understitch",
        }
    }

    /// "topstitching".
    pub fn gerund(self) -> &'static str {
        match self {
            RowKind::Topstitch => "topstitching",
            RowKind::Understitch => "understitching",
        }
    }
}

/// `tack facing_tack neck_facing.tip to front.tip`, `tack pocket_bar front.pocket_top bar 1`
#[derive(Clone, Debug)]
pub struct Tack {
    /// Its name.
    pub name: Name,
    /// What is held.
    pub from: SewnPlace,
    /// What it is held to; nothing where a place is only held fast.
    pub to: Option<SewnPlace>,
    /// How wide the bar is that is sewn by machine; none: a few stitches by hand.
    pub bar: Option<Expr>,
}

/// `set eyelets "eyelet 5 mm" at hood.eyelet_low, hood.eyelet_high`: what is bought, one at each place
#[derive(Clone, Debug)]
pub struct Setting {
    /// Its name.
    pub name: Name,
    /// The notion, as it is declared.
    pub notion: Text,
    /// Where they are set.
    pub places: Vec<SewnPlace>,
}

/// A place that is sewn: a corner or a mark, or a place on an edge.
#[derive(Clone, Debug)]
pub struct SewnPlace {
    /// The corner, the mark or the edge.
    pub at: Dotted,
    /// Where on the edge; none of a corner or a mark.
    pub place: Option<EdgePlace>,
    /// All of it.
    pub span: Span,
}
