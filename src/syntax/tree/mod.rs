//! The typed tree: what a file says, word for word, with a span on every node.

mod alteration;
mod alteration_kind;
mod closure;
mod cloth;
mod dart_change;
mod expression;
mod finish;
mod fitted;
mod header;
mod opening;
mod piece;
mod placement;
mod placket;
mod seam;
mod short;
mod steps;
mod stitched;
mod strap;
mod take_up;
mod variation;
mod walk;

pub use alteration::*;
pub use alteration_kind::*;
pub use closure::*;
pub use cloth::*;
pub use dart_change::*;
pub use expression::*;
pub use finish::*;
pub use fitted::*;
pub use header::*;
pub use opening::*;
pub use piece::*;
pub use placement::*;
pub use placket::*;
pub use seam::*;
pub use short::*;
pub use steps::*;
pub use stitched::*;
pub use strap::*;
pub use take_up::*;
pub use variation::*;

use crate::source::{FileId, Span};
use std::sync::Arc;

/// A word that a maker chose, in composed form (Unicode NFC).
#[derive(Clone, Debug)]
pub struct Name {
    /// The word.
    pub text: Arc<str>,
    /// Where it stands.
    pub span: Span,
}

/// One to four names joined by dots: `edge`, `piece.edge`, `layer.piece`, `layer.piece.edge`, `piece.slit.side`.
#[derive(Clone, Debug)]
pub struct Dotted {
    /// The names, outermost first; never empty.
    pub parts: Vec<Name>,
    /// `front.side on left`: on that side of the body only
    pub on: Option<Hand>,
    /// Where all of it stands.
    pub span: Span,
}

/// A text in `"…"`, without its quotes and with `\"` and `\\` undone.
#[derive(Clone, Debug)]
pub struct Text {
    /// What it says.
    pub text: Arc<str>,
    /// Where it stands, quotes included.
    pub span: Span,
}

/// A whole file.
#[derive(Clone, Debug)]
pub struct File {
    /// Which file.
    pub id: FileId,
    /// Every statement, in the order written. What was damaged beyond recognition is missing here
    /// and reported in the mistakes that come with the tree.
    pub statements: Vec<Arc<Statement>>,
    /// Every `# note`, in the order written, for the formatter.
    pub notes: Vec<Note>,
}

/// A `# note`.
#[derive(Clone, Copy, Debug)]
pub struct Note {
    /// From the `#` to the end of the line.
    pub span: Span,
}

/// One statement at the top level of a file.
#[derive(Clone, Debug)]
pub struct Statement {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: StatementNode,
}

/// What a statement says.
#[derive(Clone, Debug)]
pub enum StatementNode {
    /// `garment "…"`
    Garment(Text),
    /// `variation "…" of "…" as of … with "…" without "…"`
    Variation(VariationOf),
    /// `fitting "…" of "….fus" { … }`
    Fitting(FittingOf),
    /// `library "…"`
    Library(Text),
    /// `use "…" as of …`
    Use(NamedFile),
    /// `units cm`
    Units(UnitWord),
    /// `allowance 1`
    Allowance(Expr),
    /// `tolerance 2mm`
    Tolerance(Expr),
    /// `stitch 301`: of every seam that says none
    Stitch(StitchWord),
    /// `wearer adult`
    Wearer(Wearer),
    /// `about "…"`
    About(Text),
    /// `maker "…"`, `edition 3`, `licence "…"`, `level easy`
    Credit(Credit),
    /// `sizes XS, S, M`
    Sizes(Sizes),
    /// `body { … }`
    Body(Body),
    /// `pick size by larger of chest, hip`
    Pick(Pick),
    /// `let …`
    Let(Let),
    /// `measure …`
    Measure(Measure),
    /// `require …`
    Require(Require),
    /// `fabric …`
    Fabric(Fabric),
    /// `layer …`
    Layer(Layer),
    /// `notion "…" 1`
    Notion(Notion),
    /// `piece …` or `block piece …`
    Piece(Piece),
    /// `lengthen …` and the others
    Alteration(Alteration),
    /// `seam …`
    Seam(Seam),
    /// `finish …`
    Finish(Finish),
    /// `place …`
    Place(Place),
    /// `closure …`
    Closure(Closure),
    /// `placket …`
    Placket(Placket),
    /// `band …`
    Band(Box<Band>),
    /// `facing …`
    Facing(Box<Facing>),
    /// `opening … passes head`
    Opening(Opening),
    /// `cord …`
    Cord(Cord),
    /// `strap …`
    Strap(Box<Strap>),
    /// `topstitch …` or `understitch …`
    StitchedRow(StitchedRow),
    /// `tack …`
    Tack(Box<Tack>),
    /// `set eyelets "eyelet 5 mm" at …`
    Setting(Box<Setting>),
    /// `steps { … }`
    Steps(Steps),
    /// `replace …`: the statement that takes the base's place
    Replace(Box<Statement>),
    /// `set name = …`
    Set(Set),
    /// `drop …`
    Drop(Drop),
    /// `drop lengthen … at …`
    DropAlteration(DropAlteration),
    /// `drop line …`
    DropOfPiece(Box<DropOfPiece>),
    /// `replace lengthen … at … by … of "…"`
    ReplaceAlteration(ReplaceAlteration),
    /// `replace step "…" { … }`
    ReplaceStep(StepGroup),
    /// `add … to layer …`
    AddToLayer(AddToLayer),
    /// `in steps after "…" add "…" { … }`
    AddSteps(AddSteps),
    /// `in piece front add { … }`
    AddToPiece(AddToPiece),
    /// `in band collar opening at front_zip`
    ChangeBand(Box<BandChange>),
    /// `in seam sleeve add { … }`
    ChangeSeam(SeamChange),
}
