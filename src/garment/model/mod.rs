//! The garment as data: one flat set of declarations after the chain is merged.

mod alteration;
mod closure;
mod cloth;
mod drawn_to;
mod expression;
mod facts;
mod finish;
mod fitting;
mod ids;
mod labels;
mod names;
mod notions;
mod one_sided;
mod opening;
mod origin;
mod piece;
mod placed_point;
mod placement;
mod plan;
mod portion;
mod seam;
mod sewn_layers;
mod steps;
mod stitched;
mod strap;
mod take_up;
mod walk;

pub use alteration::*;
pub use closure::*;
pub use cloth::*;
pub use drawn_to::DrawnTo;
pub use expression::*;
pub use finish::*;
pub use fitting::*;
pub use ids::*;
pub use names::*;
pub use notions::*;
pub use one_sided::OneSided;
pub use opening::*;
pub use piece::*;
pub use placed_point::*;
pub use placement::*;
pub use plan::*;
pub use portion::*;
pub use seam::*;
pub use sewn_layers::*;
pub use steps::*;
pub use stitched::*;
pub use strap::*;
pub use take_up::*;
pub use walk::*;

use crate::garment::chain::FileKind;
use crate::report::DisplayUnit;
use crate::source::{FileId, Span};
use crate::syntax::tree::{Hand, Level, Unit};
use std::sync::Arc;

/// A garment with every name found and every unit known; the same for all sizes.
#[derive(Clone, Debug, Default)]
pub struct Garment {
    /// What the first file calls it.
    pub title: Arc<str>,
    /// Where its heading stands.
    pub heading: Span,
    /// All of the first file: where the maker is at work.
    pub first_file: Span,
    /// `about "…"`, of the first file that says it.
    pub about: Option<Arc<str>>,
    /// Who drew it and the like.
    pub credits: Credits,
    /// The unit that the first file writes, for messages and tables.
    pub unit: DisplayUnit,
    /// Where the text has a number without a unit that was taken as a length of its file's unit;
    /// of a graded value all of it. In no order, and some places twice.
    pub bare_lengths: Vec<Span>,
    /// Who wears it.
    pub wearer: Wearer,
    /// The header's allowance.
    pub allowance: Option<Expression>,
    /// The header's stitch, which every seam has that says none.
    pub stitch: Option<Stitch>,
    /// How far two lengths may differ and still match, in millimetres.
    pub tolerance: f64,
    /// Smallest first; never empty: a garment without `sizes` has one size named "one size".
    pub sizes: Vec<Size>,
    /// The one wearer that it is made for, where that is so; the one size is then named after the wearer.
    pub fitting: Option<Fitting>,
    /// How a wearer finds the size.
    pub pick: Vec<ValueId>,
    /// Body measures, lets and measures.
    pub values: Vec<Value>,
    /// Fabrics, used or not.
    pub fabrics: Vec<Fabric>,
    /// Layers.
    pub layers: Vec<Layer>,
    /// Pieces, drawn, split and joined.
    pub pieces: Vec<Piece>,
    /// Edges and lines of all pieces.
    pub edges: Vec<EdgeName>,
    /// Runs of edges that something takes by themselves.
    pub portions: Vec<Portion>,
    /// What those share that lie over one another.
    pub portions_over: Vec<PortionOver>,
    /// Corners, other points and marks of all pieces.
    pub points: Vec<PointName>,
    /// Those points that are places on edges, said where something is sewn.
    pub placed_points: Vec<PlacedPoint>,
    /// The paper patterns: one a piece, and one more for each part that has alterations of its own.
    pub papers: Vec<Paper>,
    /// Alterations, in the order in which they are made.
    pub alterations: Vec<Alteration>,
    /// Seams, with those that `split` declares.
    pub seams: Vec<Seam>,
    /// Finishes.
    pub finishes: Vec<Finish>,
    /// Placements.
    pub placements: Vec<Placement>,
    /// Closures.
    pub closures: Vec<Closure>,
    /// Openings.
    pub openings: Vec<Opening>,
    /// Something is said of an opening that could not be made sense of (already reported).
    pub openings_unread: bool,
    /// Where its statements stand, in the order in which they are merged.
    pub statements: Vec<Span>,
    /// How deep each band and how wide each facing is said to be.
    pub depths: Vec<Depth>,
    /// Edges of which a finish or a row of stitching says that they lie in a ring, and what says so.
    pub rounds: Vec<(Chain, Arc<str>)>,
    /// Cords.
    pub cords: Vec<Cord>,
    /// Straps, whose pieces are among the pieces.
    pub straps: Vec<Strap>,
    /// Rows of topstitching and understitching.
    pub rows: Vec<StitchedRow>,
    /// Tacks.
    pub tacks: Vec<Tack>,
    /// Notions that the maker lists.
    pub notions: Vec<Notion>,
    /// The maker's own checks.
    pub requires: Vec<Require>,
    /// The order of work; empty where none is said.
    pub steps: Vec<StepGroup>,
    /// Where the steps stand, if they do.
    pub steps_span: Option<Span>,
    /// The files that it is made of, in the order in which they are merged.
    pub files: Vec<GarmentFile>,
    /// Every name that is used, in the order of the text.
    pub name_uses: Vec<NameUse>,
    /// Seams and closures that variations dropped: what each was, where it was dropped, and its edges.
    pub dropped: Vec<DroppedSewing>,
    /// What is not whole.
    pub incomplete: Incomplete,
    /// What pieces are drawn to, once that has been asked.
    pub drawn_to: DrawnTo,
    /// Edges that seams name of which something else could not be made sense of (already reported).
    pub half_sewn: Vec<EdgeId>,
}

/// How deep a band or how wide a facing is said to be.
#[derive(Clone, Debug)]
pub struct Depth {
    /// The band's name, or the facing's.
    pub name: Arc<str>,
    /// How deep.
    pub amount: Expression,
    /// It is a facing.
    pub of_facing: bool,
}

/// What is said of the pattern itself, and of nothing that is cut or sewn.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Credits {
    /// Who drew it.
    pub maker: Option<Arc<str>>,
    /// Which edition of it this is, from 1.
    pub edition: Option<u32>,
    /// What others may do with it.
    pub licence: Option<Arc<str>>,
    /// How hard it is to sew.
    pub level: Option<Level>,
}

impl Credits {
    /// All of it in one line: "by Ferry workshop, edition 3, easy to sew, licence: …"; nothing where nothing is said.
    pub fn line(&self) -> String {
        let parts = [
            self.maker.as_ref().map(|maker| format!("by {maker}")),
            self.edition.map(|edition| format!("edition {edition}")),
            self.level.map(|level| match level {
                Level::Easy => "easy to sew".to_owned(),
                Level::Medium => "neither easy nor hard to sew".to_owned(),
                Level::Hard => "hard to sew".to_owned(),
            }),
            self.licence.as_ref().map(|licence| format!("licence: {licence}")),
        ];
        parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
    }
}

/// A file that a garment is made of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GarmentFile {
    /// Which.
    pub id: FileId,
    /// What it is.
    pub kind: FileKind,
    /// What it is called.
    pub title: Arc<str>,
    /// The first file is a variation or a fitting of it.
    pub is_base: bool,
    /// The unit of its numbers that say none.
    pub unit: Unit,
    /// The file that says the unit; none where this one says it itself, or none does.
    pub unit_from: Option<FileId>,
}

/// What could not be read or made sense of, which is reported: what seems to be wanting may be there,
/// and is not missed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Incomplete {
    /// Some of what layers hold.
    pub layers: bool,
    /// Some of what is sewn, finished, placed or closed.
    pub sewing: bool,
    /// Some of the order of work.
    pub steps: bool,
    /// Some of the stitches.
    pub stitches: bool,
}

/// Who wears the garment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Wearer {
    /// Youngest and oldest age in years; none for an adult.
    pub ages: Option<(f64, f64)>,
    /// Nightwear.
    pub for_sleep: bool,
    /// Where it is said.
    pub span: Span,
}

/// A size.
#[derive(Clone, Debug)]
pub struct Size {
    /// Its name.
    pub name: Arc<str>,
    /// Where it is declared.
    pub span: Span,
}

/// A named value.
#[derive(Clone, Debug)]
pub struct Value {
    /// Its name.
    pub name: Arc<str>,
    /// Where the name stands.
    pub span: Span,
    /// A note or a title for people.
    pub label: Option<Arc<str>>,
    /// Of the value.
    pub dimension: Dimension,
    /// How it is had.
    pub kind: ValueKind,
}

/// How a value is had.
#[derive(Clone, Debug)]
pub enum ValueKind {
    /// A row of the size table.
    Body(Expression),
    /// `let x = …`
    Let(Expression),
    /// `let x between … and … so that …`
    Solved {
        /// The least it may be.
        low: Expression,
        /// The most it may be.
        high: Expression,
        /// One side of the condition.
        left: Expression,
        /// The other.
        right: Expression,
        /// The whole condition.
        condition: Span,
    },
    /// `measure x "…" against y = …`
    Measure {
        /// The value.
        value: Expression,
        /// The body measure it is compared with.
        against: Option<ValueId>,
    },
}

/// The maker's own check.
#[derive(Clone, Debug)]
pub struct Require {
    /// Left side.
    pub left: Expression,
    /// How they must compare.
    pub relation: crate::syntax::tree::Relation,
    /// Right side.
    pub right: Expression,
    /// The maker's words.
    pub because: Arc<str>,
    /// The condition.
    pub span: Span,
}

impl Garment {
    /// The paper that a part, or the piece itself, is cut from.
    pub fn paper_of(&self, layer: Option<LayerId>, piece: PieceId) -> Option<PaperId> {
        let find = |wanted: Option<LayerId>| {
            self.piece(piece).papers.iter().copied().find(|&paper| self.paper(paper).layer == wanted)
        };
        layer.and_then(|layer| find(Some(layer))).or_else(|| find(None))
    }

    /// The parts that are cut: every layer's pieces, once split and joined, in order.
    pub fn parts(&self) -> Vec<Part> {
        let mut parts = Vec::new();
        for (at, layer) in self.layers.iter().enumerate() {
            let layer_id = LayerId::from_index(at);
            for &piece in &layer.pieces {
                if let Some(paper) = self.paper_of(Some(layer_id), piece) {
                    parts.push(Part { layer: layer_id, piece, paper });
                }
            }
        }
        parts
    }

    /// The side of the body that a piece is, if a pair or a half was made two pieces of which it is one.
    pub fn side_of(&self, piece: PieceId) -> Option<Hand> {
        let mut at = piece;
        while let PieceOrigin::Split { by, of, beyond } = self.piece(at).origin {
            if self.alteration(by).kind == Some(AlterationKind::Unpair) {
                return Some(if beyond { Hand::Right } else { Hand::Left });
            }
            at = of;
        }
        None
    }

    /// Whether what a fused layer holds lies on pieces of that other layer: on those that it names, else on any.
    pub fn is_fused_onto(&self, fused: LayerId, other: LayerId) -> bool {
        self.layer(fused).onto.is_none_or(|onto| onto == other)
    }

    /// "front", "outer.front".
    pub fn part_name(&self, layer: Option<LayerId>, piece: PieceId) -> String {
        match layer {
            Some(layer) => format!("{}.{}", self.layer(layer).name, self.piece(piece).name),
            None => self.piece(piece).name.to_string(),
        }
    }

    /// The join that a seam went away in: its two edges are one line inside a piece now.
    pub fn joined_away(&self, seam: &Seam) -> Option<AlterationId> {
        let mut sewn = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        let (Some(one), Some(other), None) = (sewn.next(), sewn.next(), sewn.next()) else { return None };
        let joins = |alteration: &Alteration| {
            let [first, second] = alteration.targets.as_slice() else { return false };
            let is_of = |sewn: &SewnEdge, target: &Target| {
                sewn.edge == target.edge && (target.layer.is_none() || sewn.layer == target.layer)
            };
            alteration.unites()
                && (is_of(one, first) && is_of(other, second) || is_of(one, second) && is_of(other, first))
        };
        self.alterations.iter().position(joins).map(AlterationId::from_index)
    }

    /// The pieces that a join makes one of; none where it could not be made sense of.
    pub fn pieces_joined(&self, by: AlterationId) -> Vec<PieceId> {
        let join = self.alterations.get(by.index()).filter(|alteration| alteration.unites());
        join.map_or_else(Vec::new, |join| join.targets.iter().map(|target| target.piece).collect())
    }

    /// Whether `edge` is `ancestor`, or the same run of edge after `split` and `join`, or a portion of it.
    pub fn is_run_of(&self, edge: EdgeId, ancestor: EdgeId) -> bool {
        let mut at = Some(edge);
        while let Some(id) = at {
            let edge = self.edge(id);
            if id == ancestor || edge.part_of == Some(ancestor) {
                return true;
            }
            at = match edge.portion {
                None => edge.same_run_as,
                Some(own) if own.taken && self.edge(ancestor).portion == edge.portion => return true,
                Some(own) if own.over.is_some() && self.shares(id, ancestor) => return true,
                Some(_) => edge.part_of,
            };
        }
        false
    }

    /// Whether what portions share is a stretch of the one that a name means by itself.
    fn shares(&self, edge: EdgeId, portion: EdgeId) -> bool {
        let named = self.edge(portion).portion.filter(|own| own.taken && own.over.is_none());
        named.is_some_and(|own| self.portions_at(edge).any(|other| other == own.portion))
    }

    /// The edge that a name means, of which it may mean a portion only.
    pub fn whole_edge(&self, edge: EdgeId) -> EdgeId {
        self.edge(edge).portion.map_or(edge, |own| self.portion(own.portion).edge)
    }

    /// "the layer lining has no brim".
    pub fn layer_lacks(&self, layer: LayerId, piece: PieceId) -> String {
        format!("the layer {} has no {}", self.layer(layer).name, self.piece(piece).name)
    }

    /// Whether a name means no more than a portion of an edge.
    pub fn is_portion(&self, edge: EdgeId) -> bool {
        self.edge(edge).portion.is_some_and(|own| own.taken)
    }

    /// Whether a seam names a run of that edge by itself.
    pub fn names_run_of(&self, seam: &Seam, edge: EdgeId) -> bool {
        let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        edges.any(|own| self.is_portion(own.edge) && self.whole_edge(own.edge) == edge)
    }

    /// The take-up of that name as it is declared, also where that was copied, split or joined since.
    pub fn take_up(&self, name: EdgeId) -> Option<&TakeUp> {
        let mut at = Some(name);
        while let Some(id) = at {
            let edge = self.edge(id);
            let own = &self.piece(edge.piece).drawing.take_ups;
            if let Some(found) = own.iter().find(|take_up| take_up.name == id) {
                return Some(found);
            }
            at = edge.same_run_as.or(edge.copied_from);
        }
        let mut let_in = self.alterations.iter().filter_map(|one| match &one.dart {
            Some(DartChange::LetPleat(change)) => Some(&change.take_up),
            _ => None,
        });
        let_in.find(|take_up| self.is_run_of(name, take_up.name))
    }

    /// Whether `point` is `ancestor`, or the same corner or mark after `split` and `join`.
    pub fn is_point_of(&self, point: PointId, ancestor: PointId) -> bool {
        let mut at = Some(point);
        while let Some(id) = at {
            if id == ancestor {
                return true;
            }
            at = self.point(id).same_as;
        }
        false
    }
}

/// A piece in one layer: what is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Part {
    /// The layer.
    pub layer: LayerId,
    /// The piece.
    pub piece: PieceId,
    /// The paper it is cut from.
    pub paper: PaperId,
}
