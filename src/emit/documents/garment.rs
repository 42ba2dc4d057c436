//! The form of what `fustian resolve` writes. Keys stand in the order of the fields.

use super::closures::ClosureDocument;
use super::cloths::ClothFactsDocument;
use super::cut_list::CutDocument;
use super::lay::LayDocument;
use super::materials::MaterialsDocument;
use super::openings::{OpeningDocument, RimDocument};
use super::pieces::PieceDocument;
use super::placements::PlacementDocument;
use super::seams::SeamDocument;
use super::sewn::NotionDocument;
use super::shared::{LengthUnit, Version};
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

impl Document {
    /// The same garment without its sizes.
    pub(in crate::emit) fn without_sizes(&self) -> Document {
        Document {
            fustian: self.fustian,
            garment: self.garment.clone(),
            about: self.about.clone(),
            maker: self.maker.clone(),
            edition: self.edition,
            licence: self.licence.clone(),
            level: self.level,
            unit: self.unit,
            files: self.files.clone(),
            fitting: self.fitting.clone(),
            body_notes: self.body_notes.clone(),
            pick: self.pick.clone(),
            fabrics: self.fabrics.clone(),
            sizes: Vec::new(),
            diagnostics: self.diagnostics.clone(),
        }
    }
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
