//! What is worked out of an opening.

use crate::garment::{ClosureId, EdgeId, FinishId, LayerId, RowId, SeamId};
use crate::resolve::DrawnEdgeId;
use crate::sewing::model::{PartId, SeamEnd};
use crate::sewing::surface::RimPart;
use crate::syntax::tree::Hand;

/// The rings of an opening.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OpeningRing {
    /// Where its edges do not run on into one another; then nothing else is known of it.
    pub breaks: Vec<RingBreak>,
    /// Where its edges fall into rings that do not all run along the same edges: those of each kind of
    /// ring. Empty where every ring runs along all of them.
    pub apart: Vec<Vec<(PartId, DrawnEdgeId)>>,
    /// Where its lines, if it is named by lines, do not run on into one another.
    pub line_breaks: Vec<LineBreak>,
    /// All that must be passed: its own rings, one for every copy and layer, and after each of them
    /// those that are reached from it.
    pub rings: Vec<PassedRing>,
}

impl OpeningRing {
    /// The ring that lets the least through; none where the edges are no ring, or several.
    pub fn narrowest(&self) -> Option<&PassedRing> {
        if !self.breaks.is_empty() || !self.apart.is_empty() || !self.line_breaks.is_empty() {
            return None;
        }
        self.rings.iter().min_by(|one, other| one.opens().total_cmp(&other.opens()))
    }
}

/// A ring of edges and what goes through it, all round, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct PassedRing {
    /// Along the surface, from its first stretch on; empty of a ring of lines.
    pub parts: Vec<RimPart>,
    /// The lines that it runs along, where it lies inside pieces.
    pub lines: Vec<RingLine>,
    /// The ring as it lies: of plies that are sewn together the shortest.
    pub length: f64,
    /// As far as its cloth stretches, and all that holds it.
    pub stretched: f64,
    /// What lets it stretch no further; none where its own cloth does not.
    pub held_by: Option<Holder>,
    /// Closures that open onto it, and what each adds: the way down one side of it and up the other.
    pub closures: Vec<(ClosureId, f64)>,
    /// It is not the ring that was asked for, but lies across a band from it: a waistband's fold.
    pub reached: bool,
}

impl PassedRing {
    /// What goes through: stretched, with its closures open.
    pub fn opens(&self) -> f64 {
        self.stretched + self.closures.iter().map(|(_, adds)| adds).sum::<f64>()
    }
}

/// A line of a ring, on one copy of its part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RingLine {
    /// The part.
    pub part: PartId,
    /// The line.
    pub line: EdgeId,
    /// The side of the body that it is worn on; none of what is cut alike.
    pub hand: Option<Hand>,
}

/// The end of a line beyond which no other goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LineBreak {
    /// The line.
    pub line: RingLine,
    /// The edge that it ends at; none where it ends inside its piece.
    pub at: Option<EdgeId>,
    /// What a seam joins to it there.
    pub beyond: Option<PartId>,
}

/// What keeps a ring from stretching as far as its own cloth does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Holder {
    /// The elastic of a finish.
    Elastic(FinishId),
    /// The binding of a finish.
    Binding(FinishId),
    /// The tape of a finish.
    Tape(FinishId),
    /// The lockstitch of a finish.
    FinishStitch(FinishId),
    /// The lockstitch of a row beside it.
    RowStitch(RowId),
    /// The lockstitch of a seam.
    SeamStitch(SeamId),
    /// The tape that is sewn into a seam.
    SeamTape(SeamId),
    /// What is fused on.
    Fused(LayerId),
    /// A part that is sewn to it.
    Ply(PartId),
}

/// A place where a ring does not run on.
#[derive(Clone, Debug, PartialEq)]
pub struct RingBreak {
    /// The corner.
    pub at: SeamEnd,
    /// The edge of the ring that ends there.
    pub edge: DrawnEdgeId,
    /// The edges that would lead on to where the ring goes on; none where nothing does.
    pub missing: Vec<(PartId, DrawnEdgeId)>,
}
