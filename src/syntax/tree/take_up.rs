//! Take-ups: cloth that is taken out of an edge, or of the middle of a piece.

use super::{Dotted, Expr, Name};

/// `dart waist_dart on waist …`
#[derive(Clone, Debug)]
pub struct TakeUp {
    /// Its name.
    pub name: Name,
    /// What it is.
    pub form: TakeUpForm,
}

impl TakeUp {
    /// The word that it is declared by.
    pub fn word(&self) -> &'static str {
        match &self.form {
            TakeUpForm::Dart { .. } => "dart",
            TakeUpForm::Slit { .. } => "slit",
            TakeUpForm::Pleat(pleat) if pleat.tuck => "tuck",
            TakeUpForm::Pleat(_) => "pleat",
        }
    }
}

/// What a take-up is.
#[derive(Clone, Debug)]
pub enum TakeUpForm {
    /// `dart`
    Dart {
        /// Where its cloth lies.
        cloth: DartCloth,
        /// How it is sewn and laid.
        ways: DartWays,
    },
    /// `slit`: a cut into the cloth
    Slit {
        /// Where it is cut.
        cut: SlitCut,
        /// How wide a strip is lost between its sides: `window 1`
        window: Option<Expr>,
    },
    /// `pleat` or `tuck`
    Pleat(Box<Pleat>),
}

/// Where a slit is cut.
#[derive(Clone, Debug)]
pub enum SlitCut {
    /// `on wrist at 6 from under_back up 12`: from an edge into the cloth
    FromEdge {
        /// The edge that it is cut from.
        edge: Name,
        /// Where on the edge the middle of its mouth is.
        place: EdgePlace,
        /// How far it is cut.
        end: SlitEnd,
    },
    /// `from (4, 20) to (18, 20)`: inside the piece, from place to place
    Inside {
        /// Where it begins.
        from: Expr,
        /// Where it ends.
        to: Expr,
    },
}

/// How far a slit is cut into the piece.
#[derive(Clone, Debug)]
pub enum SlitEnd {
    /// `up 12`: that way on the paper, so far
    Way(PressedWay, Expr),
    /// `to slit_end`: to a place
    To(Expr),
}

/// `pleat wrist on wrist at 4 from under_back depth 1.5 count 2 apart 2.5 toward under_front …`
#[derive(Clone, Debug)]
pub struct Pleat {
    /// Written `tuck`.
    pub tuck: bool,
    /// The edge that its cloth is taken from.
    pub edge: Name,
    /// Where on the edge it is.
    pub place: PleatPlace,
    /// How much cloth lies under the fold, once.
    pub depth: Expr,
    /// How its folds lie to one another.
    pub kind: PleatKind,
    /// `count 2 apart 2.5`: how many, and how far from fold to fold.
    pub row: Option<(Expr, Expr)>,
    /// `toward under_front`: where its fold is laid to.
    pub toward: Option<Name>,
    /// `to hem`: the edge that a tuck runs to.
    pub to: Option<Name>,
    /// `stitched down 12`: how far from the edge it is sewn shut.
    pub stitched: Option<Expr>,
    /// `along crease`: the line that its folds run along.
    pub along: Option<Name>,
    /// With the pleats folded the edge is drawn as one smooth curve.
    pub trued: bool,
}

/// Where on an edge a pleat is.
#[derive(Clone, Debug)]
pub enum PleatPlace {
    /// `at the fold`: in the middle of the whole piece of which a half is drawn
    Fold,
    /// A place on the edge.
    On(EdgePlace),
}

/// How the folds of a pleat lie to one another.
#[derive(Clone, Debug)]
pub enum PleatKind {
    /// One fold.
    Knife,
    /// `box 4 wide`: two folds that lead away from each other
    Box(Option<Expr>),
    /// `inverted 5 wide`: two folds that lead towards each other
    Inverted(Option<Expr>),
}

/// Where the cloth of a dart lies.
#[derive(Clone, Debug)]
pub enum DartCloth {
    /// `on waist at 8 from side width 3 to bust_point`
    OnEdge {
        /// The edge that it is taken from.
        edge: Name,
        /// Where on the edge the middle of its mouth is.
        place: EdgePlace,
        /// How wide it is on the edge.
        width: Expr,
        /// The point that it is directed to.
        to: Expr,
    },
    /// `at (8, -2) width 2.5 up 14 down 11`: both ends inside the piece
    Inside {
        /// Its middle, where it is widest.
        at: Expr,
        /// How wide it is there.
        width: Expr,
        /// How far its upper end is from there.
        up: Expr,
        /// How far its lower end is.
        down: Expr,
    },
}

/// `side_dart dart about bust_point to dart_low …`, in a walk between two runs of one edge.
#[derive(Clone, Debug)]
pub struct WalkDart {
    /// The point that it is directed to.
    pub about: Expr,
    /// How it is sewn and laid.
    pub ways: DartWays,
}

/// How a dart is sewn and laid.
#[derive(Clone, Debug)]
pub struct DartWays {
    /// How far before the point that it is directed to it is sewn to.
    pub stopping: Option<Expr>,
    /// Where its cloth goes.
    pub laid: DartLaid,
    /// With the dart shut the edge is drawn as one smooth curve.
    pub trued: bool,
}

/// Where the cloth of a dart goes.
#[derive(Clone, Debug)]
pub enum DartLaid {
    /// `pressed toward centre`
    Toward(Name),
    /// `pressed down`
    Pressed(PressedWay),
    /// `cut open`: cut along the middle but for its allowances, and pressed open
    CutOpen,
}

/// A way to press something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressedWay {
    /// `up`
    Up,
    /// `down`
    Down,
    /// `left`
    Left,
    /// `right`
    Right,
}

/// A place on an edge.
#[derive(Clone, Debug)]
pub enum EdgePlace {
    /// `in the middle`
    Middle,
    /// `at the fold`, where its piece is cut on the fold; of straps and tacks
    Fold,
    /// `at 8 from side`, `at 50%`, `at mark`; of notches and divisions `8 from side`
    At {
        /// A length, a share of the edge, or a point on it.
        value: Expr,
        /// From where it is counted: a corner, a mark, a neighbouring edge, a side of a take-up.
        from: Option<Dotted>,
    },
}
