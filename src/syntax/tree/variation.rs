use super::{
    Alteration, AlterationKind, CreditKind, DartChange, Dotted, Expr, Name, NameOrText, Notch, PieceItem,
    PieceItemNode, RunWords, Statement, StepGroup, Text,
};
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
    /// `front.side 12 from hem_side`: of a finish, the run of its edge that is meant.
    pub run: Option<RunWords>,
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
    /// `drop band …`
    Band,
    /// `drop facing …`
    Facing,
    /// `drop strap …`
    Strap,
    /// `drop topstitch …`
    Topstitch,
    /// `drop understitch …`
    Understitch,
    /// `drop tack …`
    Tack,
    /// `drop set …`
    SetNotion,
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
    /// `drop body wrist`: a row of the size table
    BodyRow,
    /// `drop pick size`
    Pick,
    /// `drop allowance`
    Allowance,
    /// `drop tolerance`
    Tolerance,
    /// `drop stitch`
    Stitch,
    /// `drop wearer`
    Wearer,
    /// `drop about`
    About,
    /// `drop maker`, `drop edition`, `drop licence`, `drop level`
    Credit(CreditKind),
}

/// `drop lengthen front, back at waist of "deck-longer.fus"`
#[derive(Clone, Debug)]
pub struct DropAlteration {
    /// Which.
    pub altered: Altered,
    /// The file that alters so, where several do.
    pub of: Option<Text>,
}

/// `replace lengthen front, back at waist by 8 of "deck-longer.fus"`
#[derive(Clone, Debug)]
pub struct ReplaceAlteration {
    /// What is done instead; what it is done to and where says what it replaces.
    pub new: Box<Statement>,
    /// The file that alters so, where several do.
    pub of: Text,
}

/// An alteration as it is named: by what is done, to what and where.
#[derive(Clone, Debug)]
pub struct Altered {
    /// What is done.
    pub kind: AlterationKind,
    /// The pieces, edges or darts that it is done to.
    pub targets: Vec<Dotted>,
    /// The line or edge at which, the dart that a split begins at, or the dart or pleat that is let in.
    pub at: Option<Name>,
    /// The dart that a split ends at.
    pub to: Option<Name>,
    /// All of it.
    pub span: Span,
}

impl Altered {
    /// What names that alteration.
    pub fn of(alteration: &Alteration, span: Span) -> Altered {
        let (at, to) = match &alteration.dart {
            Some(DartChange::Split(split)) => (Some(split.from.clone()), Some(split.to.clone())),
            Some(DartChange::Let(dart)) => (Some(dart.name.clone()), None),
            Some(DartChange::LetPleat(pleat)) => (Some(pleat.name.clone()), None),
            _ => (alteration.at.clone(), None),
        };
        Altered { kind: alteration.kind, targets: alteration.targets.clone(), at, to, span }
    }
}

/// `drop line front.waist`, `drop notch front.armhole 8 from underarm`, `drop grain front`
#[derive(Clone, Debug)]
pub struct DropOfPiece {
    /// The piece.
    pub piece: Name,
    /// What kind of line it is.
    pub kind: PieceItemKind,
    /// What it draws: a point, a mark, a line; the edge of a notch; the edge that a divide makes; one edge
    /// of a corner. None of what a piece has once.
    pub name: Option<Name>,
    /// The other edge of a corner.
    pub other: Option<Name>,
    /// Where a notch is, if only one of several of an edge is meant.
    pub notch: Option<Notch>,
    /// What is named.
    pub span: Span,
}

/// The kinds of lines in a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PieceItemKind {
    /// `cut 2 mirrored`
    Cut,
    /// `point …`
    Point,
    /// `mark …`
    Mark,
    /// `outline …`
    Outline,
    /// `move point …`
    MovePoint,
    /// `line …`
    Line,
    /// `notch …`
    Notch,
    /// `divide …`
    Divide,
    /// `dart …`, `pleat …`, `tuck …`: dropped in words of their own
    TakeUp,
    /// `slit …`
    Slit,
    /// `folded …`
    Folded,
    /// `grain …`
    Grain,
    /// `allowance …`
    Allowance,
    /// `corner …`
    Corner,
    /// `never flipped`
    NeverFlipped,
    /// `without …`
    Without,
    /// `drawn left`
    Drawn,
}

impl PieceItemKind {
    /// Of a line.
    pub fn of(item: &PieceItem) -> PieceItemKind {
        match &item.node {
            PieceItemNode::Cut(_) => PieceItemKind::Cut,
            PieceItemNode::Point(_) => PieceItemKind::Point,
            PieceItemNode::Mark(_) => PieceItemKind::Mark,
            PieceItemNode::Outline(_) => PieceItemKind::Outline,
            PieceItemNode::MovePoint { .. } => PieceItemKind::MovePoint,
            PieceItemNode::Line(_) => PieceItemKind::Line,
            PieceItemNode::Notch(_) => PieceItemKind::Notch,
            PieceItemNode::Divide(_) => PieceItemKind::Divide,
            PieceItemNode::TakeUp(one) if one.word() == "slit" => PieceItemKind::Slit,
            PieceItemNode::TakeUp(_) => PieceItemKind::TakeUp,
            PieceItemNode::Folded { .. } => PieceItemKind::Folded,
            PieceItemNode::Grain(_) => PieceItemKind::Grain,
            PieceItemNode::Allowance(_) => PieceItemKind::Allowance,
            PieceItemNode::Corner(_) => PieceItemKind::Corner,
            PieceItemNode::NeverFlipped => PieceItemKind::NeverFlipped,
            PieceItemNode::Without(_) => PieceItemKind::Without,
            PieceItemNode::Drawn(_) => PieceItemKind::Drawn,
        }
    }

    /// The words that it begins with.
    pub fn words(self) -> &'static str {
        match self {
            PieceItemKind::Cut => "cut",
            PieceItemKind::Point => "point",
            PieceItemKind::Mark => "mark",
            PieceItemKind::Outline => "outline",
            PieceItemKind::MovePoint => "move point",
            PieceItemKind::Line => "line",
            PieceItemKind::Notch => "notch",
            PieceItemKind::Divide => "divide",
            PieceItemKind::TakeUp => "dart",
            PieceItemKind::Slit => "slit",
            PieceItemKind::Folded => "folded",
            PieceItemKind::Grain => "grain",
            PieceItemKind::Allowance => "allowance",
            PieceItemKind::Corner => "corner",
            PieceItemKind::NeverFlipped => "never flipped",
            PieceItemKind::Without => "without",
            PieceItemKind::Drawn => "drawn",
        }
    }
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
    /// Whether they come beside what the piece has, or in its place.
    pub how: PieceChange,
}

/// How lines are added to a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceChange {
    /// `in piece front add { … }`
    Adds,
    /// `in piece front replace { … }`: each takes the place of the one that draws the same.
    Replaces,
    /// `replace dart front.waist_dart …`: the one item, a dart, a pleat or a tuck, takes the place of the one of its name.
    ReplacesTakeUp,
}
