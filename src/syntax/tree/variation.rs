use super::{Dotted, Expr, Name, NameOrText, PieceItem, StepGroup, Text};
use crate::source::Span;

/// `set ease = 30`
#[derive(Clone, Debug)]
pub struct Set {
    /// The `let` of the base.
    pub name: Name,
    /// Its new value, of the same dimension.
    pub value: Expr,
    /// A new note for people.
    pub label: Option<Text>,
}

/// `drop seam side`, `drop place pocket on front`, `drop cuff and all sewn to it`
#[derive(Clone, Debug)]
pub struct Drop {
    /// What kind of thing.
    pub kind: DropKind,
    /// Which.
    pub target: NameOrText,
    /// `on front`, of a placement.
    pub on: Option<Dotted>,
    /// `and all sewn to it`.
    pub and_all_sewn: bool,
    /// Where the kind's word stands (the target's span where there is none).
    pub kind_span: Span,
}

/// What a variation may drop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DropKind {
    /// `drop piece cuff`, `drop cuff`
    Piece,
    /// `drop seam …`
    Seam,
    /// `drop closure …`
    Closure,
    /// `drop finish front.hem`
    Finish,
    /// `drop place pocket on front`
    Place,
    /// `drop layer …`
    Layer,
    /// `drop fabric …`
    Fabric,
    /// `drop let …`
    Let,
    /// `drop measure …`
    Measure,
    /// `drop require "…"`: by the maker's own words
    Require,
    /// `drop opening …`: by its first edge
    Opening,
    /// `drop cord …`
    Cord,
    /// `drop dart front.waist_dart`
    Dart,
    /// `drop placket …`
    Placket,
    /// `drop strap …`
    Strap,
    /// `drop pleat back.back_pleat`
    Pleat,
    /// `drop tuck front.pins`
    Tuck,
    /// `drop notion "…"`
    Notion,
    /// `drop step "…"`
    Step,
    /// `drop steps`
    Steps,
}

/// `add hood to layer outer`
#[derive(Clone, Debug)]
pub struct AddToLayer {
    /// The pieces.
    pub pieces: Vec<Name>,
    /// The layer.
    pub layer: Name,
}

/// `in steps after "Pockets" add "Zip" { … }`
#[derive(Clone, Debug)]
pub struct AddSteps {
    /// `after` (true) or `before`.
    pub after: bool,
    /// The title of a step that is there.
    pub anchor: Text,
    /// The new one.
    pub group: StepGroup,
}

/// `in piece front add { line slash from … to … }`
#[derive(Clone, Debug)]
pub struct AddToPiece {
    /// The piece.
    pub piece: Name,
    /// Points, marks, lines, notches, corners, an allowance.
    pub items: Vec<PieceItem>,
    /// `replace dart front.waist_dart …`: the one item, a dart, a pleat or a tuck, takes the place of the one of its name.
    pub replacing: bool,
}
