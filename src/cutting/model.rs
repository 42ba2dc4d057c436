use super::line::CutRun;
use crate::garment::{CutHow, EdgeId, FabricId, Garment, Part, SizeId};
use crate::report::Finding;
use crate::resolve::DrawnEdgeId;
use crate::sewing::FastenerPlace;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;
use kurbo::{Point, Vec2};

/// What lies on the cutting table in one size, and what cannot be cut.
#[derive(Clone, Debug, Default)]
pub struct Cutting {
    /// In the order of the parts; those without a cutting line are left out.
    pub parts: Vec<CutPart>,
    /// Allowances that do not fit.
    pub findings: Vec<Finding>,
}

/// A part as it is cut, on the piece's own paper: millimetres, y up. One half of it where it is
/// cut on the fold.
#[derive(Clone, Debug)]
pub struct CutPart {
    /// The part.
    pub part: Part,
    /// The size.
    pub size: SizeId,
    /// From what it is cut; none where the layer's fabric is unknown.
    pub fabric: Option<FabricId>,
    /// How many, as said.
    pub copies: u32,
    /// How the copies lie.
    pub how: CutHow,
    /// Turned over for this layer.
    pub flipped: bool,
    /// The copies of that side of the body alone, where left and right are cut differently.
    pub hand: Option<Hand>,
    /// Drawn as the mirror image of how its piece is drawn: right side up on the other side of the body.
    pub mirrored: bool,
    /// The middle of what is drawn as a half and cut as its whole.
    pub middle: Option<(Point, Point)>,
    /// Fused on, not sewn.
    pub fused: bool,
    /// The edge on the fold.
    pub fold: Option<DrawnEdgeId>,
    /// The names of the edges.
    pub edges: Vec<EdgeId>,
    /// The outline that is sewn along, edge by edge.
    pub stitching: Vec<Path>,
    /// The sides of slits inside, each a ring of its own: their edges follow on those of the outline.
    pub holes: Vec<Vec<Path>>,
    /// The outline that is cut along, in the same direction.
    pub cutting: Vec<CutRun>,
    /// Snips in the allowance.
    pub notches: Vec<CutNotch>,
    /// The grain's direction, a unit vector.
    pub grain: Vec2,
    /// Where the grain is shown, well inside; none where there is no room.
    pub grain_line: Option<(Point, Point)>,
    /// Darts and other take-ups.
    pub take_ups: Vec<CutTakeUp>,
    /// Slits.
    pub slits: Vec<CutSlit>,
    /// Lines inside, those among them where the piece is lengthened or shortened.
    pub lines: Vec<InnerLine>,
    /// Where it is folded, and where other pieces are laid on it.
    pub guides: Vec<Guide>,
    /// Rows of stitching that show on the right side, beside the seams that they belong to.
    pub rows: Vec<Path>,
    /// Stretches of seams that are left open for turning.
    pub gaps: Vec<CutGap>,
    /// Places that the maker marks.
    pub marks: Vec<MarkedPlace>,
    /// Places of buttons and the like.
    pub fasteners: Vec<FastenerPlace>,
    /// What is written on it.
    pub label: Label,
}

/// A notch.
#[derive(Clone, Debug, PartialEq)]
pub struct CutNotch {
    /// The edge.
    pub edge: DrawnEdgeId,
    /// From the edge's start, along the stitching line.
    pub along: f64,
    /// One snip, or two side by side: each from the cutting line to the stitching line. On an
    /// edge without allowance they go inward.
    pub snips: Vec<(Point, Point)>,
    /// On the copies of that side of the body alone, where one pattern cuts those of both.
    pub hand: Option<Hand>,
}

/// A dart or another take-up, as it is marked on the cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct CutTakeUp {
    /// Its name, spaces for underscores.
    pub name: String,
    /// Its name's id.
    pub edge: EdgeId,
    /// The lines that are sewn on one another, each from a side to an end.
    pub legs: Vec<(Point, Point)>,
    /// Where it is folded.
    pub fold: Option<(Point, Point)>,
    /// Of a pleat or tuck, where its fold is laid.
    pub placement: Option<(Point, Point)>,
    /// Where its name is written; none where it is written beside another fold of the same row.
    pub label: Option<Point>,
    /// Where it is sewn to.
    pub points: Vec<Point>,
    /// Across it, the way that it is pressed; none of one that is cut open.
    pub pressed: Option<(Point, Point)>,
    /// Snips in the allowance where its legs meet the edge, each from the cutting line to the stitching
    /// line; inward on an edge without allowance.
    pub snips: Vec<(Point, Point)>,
}

/// A slit, as it is cut into the cloth once its sides are marked.
#[derive(Clone, Debug, PartialEq)]
pub struct CutSlit {
    /// Its name, spaces for underscores.
    pub name: String,
    /// Its name's id.
    pub edge: EdgeId,
    /// Where it is cut: from the cutting line, or from its start, up its middle, and in a window on to both corners.
    pub cuts: Vec<(Point, Point)>,
    /// A stroke across its end.
    pub end: (Point, Point),
    /// Of one inside the piece, a stroke across its start.
    pub start: Option<(Point, Point)>,
}

/// A line inside a piece.
#[derive(Clone, Debug, PartialEq)]
pub struct InnerLine {
    /// Its name, spaces for underscores.
    pub name: String,
    /// Its name's id.
    pub edge: EdgeId,
    /// From end to end.
    pub path: Path,
    /// What it measures of the whole garment, where it does.
    pub girth: Option<Girth>,
}

/// A measure of the finished garment that a line of a piece is part of.
#[derive(Clone, Debug, PartialEq)]
pub struct Girth {
    /// What it is called.
    pub title: String,
    /// In millimetres.
    pub long: f64,
}

/// A line that is marked so that the piece is folded, or another one laid on it, where it belongs.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// What it is called.
    pub name: String,
    /// What for.
    pub kind: GuideKind,
    /// From end to end; of a piece that is laid on it, once round.
    pub path: Path,
    /// On that side of the body alone.
    pub hand: Option<Hand>,
}

/// What a line is marked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GuideKind {
    /// The piece is folded there.
    Fold,
    /// The outline of a piece that is laid on it.
    Placed,
}

/// A stretch of a seam that is left open for turning.
#[derive(Clone, Debug, PartialEq)]
pub struct CutGap {
    /// Along the stitching line.
    pub path: Path,
    /// On that side of the body alone.
    pub hand: Option<Hand>,
}

/// A marked place.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedPlace {
    /// Its name, spaces for underscores.
    pub name: String,
    /// Where.
    pub at: Point,
    /// On that side of the body alone.
    pub hand: Option<Hand>,
}

/// What is written on a piece.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Label {
    /// "Deck smock"
    pub garment: String,
    /// "Front"
    pub piece: String,
    /// "outer: dry-waxed cotton"
    pub cloth: String,
    /// "M"; nothing of a garment in one size.
    pub size: String,
    /// "cut 1 on the fold"
    pub cut: String,
    /// "1 cm allowance included; hem 4 cm"
    pub allowance: String,
    /// "side 43.2 cm finished"
    pub long_edge: String,
}

impl CutPart {
    /// "outer.front"; "outer.front on left" of what is cut for one side of the body alone.
    pub fn name(&self, garment: &Garment) -> String {
        let on = self.hand.map_or(String::new(), |hand| format!(" on {}", hand.word()));
        garment.part_name(Some(self.part.layer), self.part.piece) + &on
    }

    /// The cutting line's paths alone.
    pub fn cutting_ring(&self) -> Vec<Path> {
        self.cutting.iter().map(|run| run.path.clone()).collect()
    }

    /// The ring that an edge lies in, and its place there.
    pub(super) fn ring_of(&self, edge: usize) -> (&[Path], usize) {
        let Some(mut at) = edge.checked_sub(self.stitching.len()) else { return (&self.stitching, edge) };
        for hole in &self.holes {
            match at.checked_sub(hole.len()) {
                Some(beyond) => at = beyond,
                None => return (hole, at),
            }
        }
        (&[], 0)
    }

    /// The fold's path on the cutting line, where the piece is cut on the fold.
    pub fn fold_path(&self) -> Option<&Path> {
        let fold = self.fold?;
        self.cutting.iter().find(|run| run.along == Some(fold)).map(|run| &run.path)
    }
}
