use super::{
    ClosureId, EdgeId, EdgePath, EdgePlace, Expression, LayerId, PieceId, Pleat, PointId, Pressed, TakeUp,
    TakeUpForm,
};
use crate::source::Span;
pub use crate::syntax::tree::{
    AlterationForm, AlterationKind, AmountForm, Change, FoldFate, LeftAs, LineFate, Need, TargetForm,
};

/// An alteration. What is true of its kind is in its [form](AlterationKind::form).
#[derive(Clone, Debug)]
pub struct Alteration {
    /// All of it.
    pub span: Span,
    /// What is done. None where it could not be made sense of (reported): what its targets are
    /// after it is not known.
    pub kind: Option<AlterationKind>,
    /// What it is done to. One without a layer is done to the piece's paper and to the papers of
    /// all its parts. Of a join the piece that keeps its place, then the one laid against it.
    pub targets: Vec<Target>,
    /// How much.
    pub amount: Option<Amount>,
    /// Marks that stay.
    pub keeping: Vec<(PointId, Span)>,
    /// The new way of its edge; points in it are points of the piece.
    pub path: Option<EdgePath>,
    /// The pieces that it makes, which its targets end in. Of a split what is before the line,
    /// then what is beyond it.
    pub makes: Vec<MadePiece>,
    /// The closure that it is made by.
    pub closure: Option<ClosureId>,
    /// What it does to the dart that it names.
    pub dart: Option<DartChange>,
    /// How much at each end of an edge, where that differs.
    pub tapered: Option<Tapered>,
    /// The edge moves out with a step, which has this name: one a target.
    pub steps: Vec<EdgeId>,
}

/// How much an edge moves at each of its ends.
#[derive(Clone, Debug)]
pub struct Tapered {
    /// How much, at two ends.
    pub by: [Expression; 2],
    /// Of each target those ends, and where they are named.
    pub at: Vec<[(EndOfEdge, Span); 2]>,
}

/// An end of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndOfEdge {
    /// That corner.
    Corner(PointId),
    /// Where it meets that edge.
    Beside(EdgeId),
}

/// What an alteration does to the dart that it names.
#[derive(Clone, Debug)]
pub enum DartChange {
    /// Shut about the place that it is directed to, and opened elsewhere.
    Move(Box<DartMove>),
    /// Let into an edge, the target: the paper turns about the place that it is cut to.
    Let(Box<DartLet>),
    /// A pleat is let into an edge, the target.
    LetPleat(Box<PleatLet>),
    /// Not sewn.
    Leave(LeftAs),
    /// Shut: it is directed to a place on the outline.
    Close,
    /// Its piece is split from it to another dart.
    Split(Box<DartSplit>),
}

/// A split from a dart, the target, to another.
#[derive(Clone, Debug)]
pub struct DartSplit {
    /// The dart that it ends at, named there.
    pub to: (EdgeId, Span),
    /// Points that it goes through between the places that the darts are directed to.
    pub through: Vec<Expression>,
    /// How far from each corner on its way it leaves it for a curve.
    pub rounded: Option<Expression>,
}

/// A dart that is let into an edge.
#[derive(Clone, Debug)]
pub struct DartLet {
    /// Its name.
    pub name: EdgeId,
    /// How far it opens.
    pub angle: Expression,
    /// The place that it is cut to.
    pub to: Expression,
    /// The edge up to which the paper turns, and where it is named.
    pub turning: (EdgeId, Span),
    /// Where on that edge; none: where it is nearest to the place that the dart is cut to.
    pub ends: Option<EdgePlace>,
    /// Where it opens, and how it is sewn and laid: that is as if it were moved there.
    pub opens: DartMove,
}

/// A pleat that is let into an edge: the piece is cut along its folds and moved apart there.
#[derive(Clone, Debug)]
pub struct PleatLet {
    /// The pleat, as one that is drawn.
    pub take_up: TakeUp,
    /// The edge where what is put in ends in nothing, and where it is named; none: it goes evenly across.
    pub nothing: Option<(EdgeId, Span)>,
}

impl PleatLet {
    /// How it is folded.
    pub fn pleat(&self) -> Option<&Pleat> {
        match &self.take_up.form {
            TakeUpForm::Pleat(pleat) => Some(pleat),
            TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => None,
        }
    }
}

/// Where a dart is moved, and how it is sewn and laid there.
#[derive(Clone, Debug)]
pub struct DartMove {
    /// What of its angle goes; all of it where nothing is said.
    pub share: Option<Expression>,
    /// Where it goes.
    pub goal: DartGoal,
    /// What is called so there; none: it keeps its name.
    pub named: Option<EdgeId>,
    /// How far before the place that it is directed to it is sewn to; none: as before.
    pub stopping: Option<Expression>,
    /// Where its cloth goes; none: as it was declared.
    pub laid: Option<Laying>,
    /// Its edge is drawn as one smooth curve, also if that was not so before.
    pub trued: bool,
}

/// Where a dart is moved.
#[derive(Clone, Debug)]
pub enum DartGoal {
    /// To a place on an edge.
    Edge(EdgeId, EdgePlace),
    /// Into another dart, named there.
    Dart(EdgeId, Span),
}

/// How the cloth of a dart is laid.
#[derive(Clone, Debug)]
pub enum Laying {
    /// Cut open.
    CutOpen,
    /// Pressed that way.
    Pressed(Pressed),
}

impl DartChange {
    /// The expressions in it.
    pub fn expressions(&self) -> Vec<&Expression> {
        match self {
            DartChange::Move(change) => change.expressions().collect(),
            DartChange::LetPleat(change) => change.take_up.expressions(),
            DartChange::Let(change) => {
                let ends = change.ends.as_ref().and_then(EdgePlace::expression);
                change.opens.expressions().chain([&change.angle, &change.to]).chain(ends).collect()
            }
            DartChange::Split(split) => split.through.iter().chain(&split.rounded).collect(),
            DartChange::Leave(_) | DartChange::Close => Vec::new(),
        }
    }
}

impl DartMove {
    fn expressions(&self) -> impl Iterator<Item = &Expression> {
        let place = match &self.goal {
            DartGoal::Edge(_, place) => place.expression(),
            DartGoal::Dart(..) => None,
        };
        self.share.iter().chain(place).chain(&self.stopping)
    }
}

/// A piece that an alteration makes.
#[derive(Clone, Copy, Debug)]
pub struct MadePiece {
    /// The piece.
    pub piece: PieceId,
    /// Its edge along the cut, with the line's name.
    pub cut_edge: Option<EdgeId>,
}

/// A piece, or one layer's part, and an edge or line of it.
#[derive(Clone, Debug)]
pub struct Target {
    /// One layer's part only.
    pub layer: Option<LayerId>,
    /// The piece.
    pub piece: PieceId,
    /// The line or edge. After a `cut off` the cut edge has the line's id.
    pub edge: EdgeId,
    /// The words that name the piece.
    pub span: Span,
}

/// How much of an alteration.
#[derive(Clone, Debug)]
pub enum Amount {
    /// That much.
    By(Expression),
    /// Until a closure fits.
    Until(Until),
}

/// An amount that is sought until a closure fits.
#[derive(Clone, Debug)]
pub struct Until {
    /// What the maker has in mind.
    pub about: Option<Expression>,
    /// The closure.
    pub closure: ClosureId,
    /// Where it is said.
    pub span: Span,
}

impl Alteration {
    /// Of a kind, as far as the first look at its statement tells.
    pub fn new(span: Span, kind: Option<AlterationKind>, targets: Vec<Target>) -> Self {
        Alteration {
            span,
            kind,
            targets,
            amount: None,
            keeping: Vec::new(),
            path: None,
            makes: Vec::new(),
            closure: None,
            dart: None,
            tapered: None,
            steps: Vec::new(),
        }
    }

    /// What is known of its kind.
    pub fn form(&self) -> Option<&'static AlterationForm> {
        self.kind.map(AlterationKind::form)
    }

    /// The trade's word for it; of one that could not be made sense of, none.
    pub fn verb(&self) -> &'static str {
        self.form().map_or("", |form| form.verb)
    }

    /// Whether several pieces become one.
    pub fn unites(&self) -> bool {
        matches!(self.form(), Some(AlterationForm { targets: TargetForm::TwoPieces(_), .. }))
    }

    /// The words of an amount that is sought.
    pub fn until(&self) -> Option<&Until> {
        match &self.amount {
            Some(Amount::Until(until)) => Some(until),
            Some(Amount::By(_)) | None => None,
        }
    }

    /// The pieces that it makes.
    pub fn made_pieces(&self) -> impl Iterator<Item = PieceId> {
        self.makes.iter().map(|made| made.piece)
    }
}
