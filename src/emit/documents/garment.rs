//! The form of what `fustian resolve` writes. Keys stand in the order of the fields.

use super::cloths::ClothFactsDocument;
use super::lay::LayDocument;
use super::materials::MaterialsDocument;
use super::openings::{OpeningDocument, RimDocument};
use super::placements::PlacementDocument;
use super::seams::{HandDocument, RunDocument, SeamDocument};
use super::sewn::{FastenerDocument, FastenerRowDocument, FateDocument, NotionDocument};
use super::shared::{LengthUnit, PointDocument, Version};
use super::steps::StepDocument;
use super::straps::StrapDocument;
use super::threaded::{CordDocument, ElasticDocument, SetDocument, StitchedRowDocument, TackDocument};
use crate::emit::number::Figure;
use crate::report::ReportedDiagnostic;
use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::Serialize;

/// A garment worked out in every size. Lengths are millimetres; in a piece, x is to the side and
/// y up the piece, as drawn. Numbers are rounded to 0.01.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Garment")]
#[non_exhaustive]
pub struct Document {
    /// The version of this form.
    pub fustian: Version,
    /// What the garment is called.
    pub garment: String,
    /// A line about it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub about: Option<String>,
    /// Who drew the pattern.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub maker: Option<String>,
    /// Which edition of the pattern this is, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edition: Option<u32>,
    /// What others may do with the pattern.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub licence: Option<String>,
    /// How hard it is to sew, as its maker judges it: `easy`, `medium` or `hard`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub level: Option<&'static str>,
    /// The unit of all lengths.
    pub unit: LengthUnit,
    /// The files that it is made of, in the order in which what they say is put together, each over those
    /// before it; left out where it is one file, and where the garment alone is meant.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub files: Vec<FileDocument>,
    /// The one wearer that it is made for, whose name the one size then has.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fitting: Option<FittingDocument>,
    /// What the maker notes of the body's measures.
    #[serde(skip_serializing_if = "IndexMap::is_empty")]
    pub body_notes: IndexMap<String, String>,
    /// The measures of the body by which a size is picked: the largest size that one of them asks for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pick: Vec<String>,
    /// What people read of the fabrics, where that is more than their names.
    #[serde(skip_serializing_if = "IndexMap::is_empty")]
    pub fabrics: IndexMap<String, String>,
    /// Smallest first.
    pub sizes: Vec<SizeDocument>,
    /// Warnings, advice and cautions.
    pub diagnostics: Vec<ReportedDiagnostic>,
}

/// One wearer, between the sizes of the garment.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Fitting")]
pub struct FittingDocument {
    /// Who.
    pub wearer: String,
    /// The body measure that decides the place among the sizes; left out where there is one size.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// The size at or below that place.
    pub below: String,
    /// The size above it, unless it is a size's own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub above: Option<String>,
    /// How much of the way from the one to the other, from 0 to 1.
    pub share: Figure,
    /// The size whose counts and bought lengths are taken.
    pub nearest: String,
}

/// A file that a garment is made of.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "File")]
pub struct FileDocument {
    /// Its path.
    pub file: String,
    /// What it is: `garment`, `variation`, `fitting` or `library`.
    pub is: &'static str,
    /// What it is called.
    pub title: String,
    /// The garment is a variation or a fitting of it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub is_base: bool,
    /// The unit of its numbers that say none.
    pub units: &'static str,
    /// The file that says this unit, where it is another.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub units_from: Option<String>,
}

/// One size.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Size")]
pub struct SizeDocument {
    /// Its name.
    pub size: String,
    /// The body's measures.
    pub body: IndexMap<String, Figure>,
    /// What the maker measures on the finished garment.
    pub measures: IndexMap<String, MeasureDocument>,
    /// What the cloths are that it is cut from, as far as that is said.
    pub cloths: Vec<ClothFactsDocument>,
    /// What is cut, layer by layer.
    pub pieces: Vec<PieceDocument>,
    /// How many of each are cut from which fabric.
    pub cut_list: Vec<CutDocument>,
    /// What was done to the pieces, in the order in which it was done.
    pub alterations: Vec<AlterationDocument>,
    /// What is sewn to what, in the order of the garment; in every layer that it is sewn in.
    pub seams: Vec<SeamDocument>,
    /// How it closes.
    pub closures: Vec<ClosureDocument>,
    /// What is laid on what.
    pub placements: Vec<PlacementDocument>,
    /// What must go through where, as it is said.
    pub openings: Vec<OpeningDocument>,
    /// Every rim, and what goes through it; nothing where it is not known how the garment hangs together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rims: Option<Vec<RimDocument>>,
    /// Cords.
    pub cords: Vec<CordDocument>,
    /// Straps.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub straps: Vec<StrapDocument>,
    /// Rows of topstitching and understitching.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rows: Vec<StitchedRowDocument>,
    /// Tacks.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tacks: Vec<TackDocument>,
    /// What is bought and set at places: eyelets, snaps, loops.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub sets: Vec<SetDocument>,
    /// Elastic in casings.
    pub elastic: Vec<ElasticDocument>,
    /// What has to be bought beside cloth.
    pub notions: Vec<NotionDocument>,
    /// The order of work; the same in every size.
    pub steps: Vec<StepDocument>,
    /// How the parts lie on their cloths, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lays: Option<Vec<LayDocument>>,
    /// What to buy, where that was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub materials: Option<MaterialsDocument>,
}

/// A measure of the finished garment.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Measure")]
pub struct MeasureDocument {
    /// What people read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
    /// Its value: millimetres, square millimetres, degrees or a plain number.
    pub value: Figure,
    /// What the value is.
    pub kind: MeasureKind,
    /// The body measure it is compared with.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub against: Option<String>,
    /// How much larger it is than the body: the wearing ease.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ease: Option<Figure>,
}

/// What a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MeasureKind {
    /// Millimetres.
    Length,
    /// Square millimetres.
    Area,
    /// Degrees.
    Angle,
    /// A plain number.
    Number,
}

/// A part: a piece in one layer.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Piece")]
pub struct PieceDocument {
    /// The layer and the piece: `outer.front`.
    pub part: String,
    /// What people read.
    pub label: String,
    /// The side of the body that this tells of, where left and right are told apart: each by itself. A half
    /// whose sides are cut differently has the line of its whole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
    /// The edge that lies on the fold: the outline is then one half.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<String>,
    /// On which side of the body the copy is worn that lies as it is drawn, where its maker says so.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub drawn: Option<HandDocument>,
    /// It is sewn to nothing on purpose, and comes off.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub loose: bool,
    /// The piece that it was made of, where it was not drawn by itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_of: Option<MadeOfDocument>,
    /// Edges that are folded onto others as it is worn.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub folded: Vec<FoldedDocument>,
    /// In the order of the outline.
    pub edges: Vec<EdgeDocument>,
    /// The outline that is sewn along, as SVG path data (y up).
    pub stitching_line: String,
    /// The outline that is cut along, allowances included, as SVG path data (y up).
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cutting_line: Option<String>,
    /// The lines that it is folded along as it is worn, as SVG path data (y up).
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fold_lines: Vec<String>,
    /// Places marked on the piece.
    pub marks: IndexMap<String, PointDocument>,
    /// Lines inside the piece, as SVG path data (y up).
    pub lines: IndexMap<String, String>,
    /// What people read of marks and lines, where their maker says it.
    #[serde(skip_serializing_if = "IndexMap::is_empty")]
    pub labels: IndexMap<String, String>,
    /// The lines at which makers lengthen or shorten the piece.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub adjust: Vec<String>,
    /// Notches on its edges.
    pub notches: Vec<NotchDocument>,
    /// Darts and other take-ups.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub take_ups: Vec<TakeUpDocument>,
    /// Slits: cuts into the cloth, whose sides are among the edges.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub slits: Vec<SlitDocument>,
    /// Buttons and the like.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fasteners: Vec<FastenerDocument>,
    /// Which way the grain runs.
    pub grain: GrainDocument,
    /// The piece opened out and then folded as it is worn.
    pub finished: ExtentDocument,
    /// The piece as it is cut, allowances included, opened out where it is cut on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<ExtentDocument>,
}

/// What a piece was made of.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "MadeOf")]
pub struct MadeOfDocument {
    /// How.
    pub way: MadeWay,
    /// The pieces.
    pub pieces: Vec<String>,
    /// The strip that a rest is without.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub without: Option<String>,
    /// It is turned over, left to right: the mirror image.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub mirrored: bool,
}

/// Ways to make a piece of others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MadeWay {
    /// Its outline is copied.
    Copy,
    /// It is a strip of it.
    Strip,
    /// It is what a strip leaves of it.
    Rest,
    /// It is one side of it, cut apart along a line.
    Split,
    /// It is its left or its right one.
    Unpair,
    /// They are joined into it.
    Join,
}

/// An edge that is folded onto another.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Folded")]
pub struct FoldedDocument {
    /// The edge.
    pub edge: String,
    /// The one that it comes to lie on.
    pub onto: String,
    /// Both are brought to the middle first, and lie inside.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub in_four: bool,
}

/// An edge.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Edge")]
pub struct EdgeDocument {
    /// Its name.
    pub name: String,
    /// What people read, where its maker says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// The corner where it starts, in the order of the outline, where that has a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// The corner where it ends.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// Where it is sewn along, from its start, as SVG path data (y up).
    pub path: String,
    /// Its length as drawn.
    pub length: Figure,
    /// Its length as sewn, where that differs: without what darts take, when the piece is folded, and with what is eased
    /// in because the piece is kept back from the teeth of a zip.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub finished: Option<Figure>,
    /// What it comes to on the garment, where it runs on across the fold that the piece is cut on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub on_garment: Option<Figure>,
    /// What becomes of it: one, or a seam and the closure that it encloses. None of a piece that is
    /// fused on.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fates: Vec<FateDocument>,
    /// How much cloth there is beyond the stitching line.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowance: Option<Figure>,
}

/// A notch.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Notch")]
pub struct NotchDocument {
    /// The edge.
    pub edge: String,
    /// How far along the edge, from its start in the order of the outline.
    pub along: Figure,
    /// Where it is.
    pub at: PointDocument,
    /// Two cuts side by side.
    pub double: bool,
    /// The seam in which it meets another.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seam: Option<String>,
}

/// A dart, or one fold of a pleat or tuck. A tuck is there twice: on the edge where it begins, and on the one
/// where it ends.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "TakeUp")]
pub struct TakeUpDocument {
    /// Its name.
    pub name: String,
    /// What it is.
    pub kind: TakeUpKind,
    /// Of pleats and tucks, which fold it is of all that have its name, from 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<usize>,
    /// Of pleats and tucks, how much cloth lies under the fold, once.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<Figure>,
    /// Of a row of pleats or tucks, how far it is from one to the next, as sewn.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub apart: Option<Figure>,
    /// The edge that it is taken from; none of one inside the piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge: Option<String>,
    /// From how far along that edge, from its start in the order of the outline, to how far.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<[Figure; 2]>,
    /// How wide it is between its sides.
    pub width: Figure,
    /// Of a dart inside the piece, how long it is from one end to the other.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub long: Option<Figure>,
    /// The angle between its legs, in degrees; of one inside the piece that at its lower end; 0 of a pleat.
    pub angle: Figure,
    /// Where its sides are, first along the edge first.
    pub sides: [PointDocument; 2],
    /// Where it is sewn to: its point, or both its ends; nowhere of a pleat that hangs open.
    pub points: Vec<PointDocument>,
    /// The place that it is directed to, where it stops short of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub directed_to: Option<PointDocument>,
    /// How long its legs are, to its point.
    pub legs: [Figure; 2],
    /// The side, 0 or 1, that its cloth is pressed towards, of a pleat that its fold is laid on; none where it is
    /// cut open.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed_to: Option<usize>,
    /// Which way its cloth is pressed or its fold laid, in the words of the steps, where that is said: `toward centre`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed: Option<String>,
    /// How far its edge moved there when it was trued.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trued_by: Option<Figure>,
}

/// A slit.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Slit")]
pub struct SlitDocument {
    /// Its name.
    pub name: String,
    /// The edge that it is cut from; none of one inside the piece.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub edge: Option<String>,
    /// From how far along that edge, from its start and over its other slits, to how far: alike without a window.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub along: Option<[Figure; 2]>,
    /// How wide a strip is lost between its sides.
    pub window: Figure,
    /// How long its sides are, first along the edge first.
    pub lengths: [Figure; 2],
    /// Where its sides leave the edge, or begin inside the piece.
    pub sides: [PointDocument; 2],
    /// Where they end.
    pub ends: [PointDocument; 2],
}

/// What a take-up is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TakeUpKind {
    /// A dart.
    Dart,
    /// A fold of a pleat.
    Pleat,
    /// A fold of a tuck.
    Tuck,
}

/// The grain.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Grain")]
pub struct GrainDocument {
    /// Degrees from the right towards up: 90 is up the piece.
    pub angle: Figure,
}

/// A width and a height.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Extent")]
pub struct ExtentDocument {
    /// Across.
    pub width: Figure,
    /// Along.
    pub height: Figure,
}

/// A line of the cut list.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Cut")]
pub struct CutDocument {
    /// The fabric's name.
    pub fabric: String,
    /// The layer.
    pub layer: String,
    /// The piece.
    pub piece: String,
    /// What people read.
    pub label: String,
    /// How many, counting a piece on the fold as one.
    pub copies: u32,
    /// How they lie.
    pub how: CutWay,
    /// The edge on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fold: Option<String>,
    /// The pattern is turned over for this layer.
    pub turned_over: bool,
    /// The copies of that side of the body alone, where left and right are cut differently.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<HandDocument>,
    /// Drawn as a half, and cut as its whole.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub whole: bool,
    /// How large it is cut, allowances included, opened out where it is cut on the fold.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cut: Option<ExtentDocument>,
}

/// How copies lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum CutWay {
    /// All the same way up.
    #[serde(rename = "alike")]
    Alike,
    /// In pairs, one of each hand.
    #[serde(rename = "mirrored")]
    Mirrored,
    /// As a half, on the fold of the cloth.
    #[serde(rename = "on fold")]
    OnFold,
}

/// Something done to pieces.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Alteration")]
pub struct AlterationDocument {
    /// The trade's word for it.
    pub what: String,
    /// The pieces, or one layer's parts, that it was done to.
    pub to: Vec<String>,
    /// The line or edge it was done at; several, each once, with a comma between. Nothing of what is done to a
    /// whole piece.
    pub at: String,
    /// How much.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub amount: Option<Figure>,
    /// The closure that the amount was found for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub solved_for: Option<String>,
}

/// How a garment closes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Closure")]
pub struct ClosureDocument {
    /// Its name.
    pub name: String,
    /// Which kind.
    pub kind: ClosureWay,
    /// How many there are of it, over all copies: two of a cuff's.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// The zip's length.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub zip: Option<Figure>,
    /// How much of the zip's width shows, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub showing: Option<Figure>,
    /// How far from the zip's teeth what lies behind it is kept, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clear: Option<Figure>,
    /// The finished length of each side.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sides: Option<[Figure; 2]>,
    /// What it closes, once for every time that there is one: both sides from their start; nothing where
    /// it is not known how the garment hangs together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub chains: Option<Vec<ClosureChainsDocument>>,
    /// The row of buttons or the like.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fasteners: Option<FastenerRowDocument>,
}

/// Both sides of a closure.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "ClosureChains")]
pub struct ClosureChainsDocument {
    /// The side before `to`: edges, or the lines that buttons stand on.
    pub first: Vec<RunDocument>,
    /// The side after `to`.
    pub second: Vec<RunDocument>,
}

/// Kinds of closures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum ClosureWay {
    /// A zip that comes apart at its lower end.
    #[serde(rename = "separating zip")]
    SeparatingZip,
    /// A zip that stays together at its lower end.
    #[serde(rename = "closed zip")]
    ClosedZip,
    /// A zip of which only the seam shows.
    #[serde(rename = "concealed zip")]
    ConcealedZip,
    /// Buttons.
    #[serde(rename = "buttons")]
    Buttons,
    /// Snaps.
    #[serde(rename = "snaps")]
    Snaps,
    /// Hooks and eyes.
    #[serde(rename = "hooks")]
    Hooks,
    /// Toggles and loops.
    #[serde(rename = "toggles")]
    Toggles,
    /// A buckle.
    #[serde(rename = "buckle")]
    Buckle,
    /// Ties.
    #[serde(rename = "ties")]
    Ties,
}
