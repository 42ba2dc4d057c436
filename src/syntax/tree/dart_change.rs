//! What an alteration does to a dart.

use super::{DartLaid, DartWays, Dotted, EdgePlace, Expr, Name, Pleat};

/// What an alteration does to the dart that it names.
#[derive(Clone, Debug)]
pub enum DartChange {
    /// `move dart …`
    Move(Box<DartMove>),
    /// `let dart …`
    Let(Box<DartLet>),
    /// `let pleat …`
    LetPleat(Box<PleatLet>),
    /// `leave dart … as ease`
    Leave(LeftAs),
    /// `close dart …`
    Close,
    /// `split front from armhole_dart through bust_point to waist_dart …`
    Split(Box<DartSplit>),
}

/// A dart that is let into an edge, the one target, by cutting there and turning the paper.
#[derive(Clone, Debug)]
pub struct DartLet {
    /// Its name.
    pub name: Name,
    /// Where on the edge it opens.
    pub place: EdgePlace,
    /// `angle 18°`: how far it opens.
    pub angle: Expr,
    /// The place that it is cut to.
    pub to: Expr,
    /// `turning to hem`: the edge up to which the paper turns …
    pub turning: Name,
    /// … and where on it; none: where it is nearest to the place that the dart is cut to.
    pub ends: Option<EdgePlace>,
    /// How it is sewn and laid.
    pub ways: DartWays,
}

/// A pleat that is let into an edge, the one target.
#[derive(Clone, Debug)]
pub struct PleatLet {
    /// Its name.
    pub name: Name,
    /// Where and how it is folded, on that edge.
    pub pleat: Pleat,
    /// `to nothing at hem`: the edge where what is put in ends in nothing; none: it goes evenly across.
    pub nothing: Option<Name>,
}

/// Where a dart is moved, and how it is sewn and laid there.
#[derive(Clone, Debug)]
pub struct DartMove {
    /// `40% of`: what of its angle goes; all of it where nothing is said.
    pub share: Option<Expr>,
    /// Where it goes.
    pub goal: DartGoal,
    /// `as armhole_dart`: what it is called there.
    pub named: Option<Name>,
    /// How far before the point that it is directed to it is sewn to; as before where nothing is said.
    pub stopping: Option<Expr>,
    /// Where its cloth goes; as before where nothing is said.
    pub laid: Option<DartLaid>,
    /// With the dart shut the edge is drawn as one smooth curve, also if that was not so before.
    pub trued: bool,
}

/// A split from a dart to another, along the legs of both.
#[derive(Clone, Debug)]
pub struct DartSplit {
    /// The dart that it begins at.
    pub from: Name,
    /// Points that it goes through between the places that the darts are directed to.
    pub through: Vec<Expr>,
    /// The dart that it ends at.
    pub to: Name,
    /// `as princess`: the new edge of both pieces, and the seam between them.
    pub named: Name,
    /// `rounded 4`: so far from each corner on its way it leaves it for a curve.
    pub rounded: Option<Expr>,
}

/// Where a dart is moved.
#[derive(Clone, Debug)]
pub enum DartGoal {
    /// `to armhole at 50%`
    Edge {
        /// The edge.
        edge: Name,
        /// Where on it the dart opens.
        place: EdgePlace,
    },
    /// `into front.waist_dart`
    Dart(Dotted),
}

/// What becomes of a dart that is not sewn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftAs {
    /// `ease`: its mouth is eased into what the edge is sewn to.
    Ease,
    /// `gathers`: its mouth is gathered into it.
    Gathers,
    /// `flare`: its mouth makes the edge longer.
    Flare,
}

impl LeftAs {
    /// `ease`, `gathers`, `flare`
    pub fn word(self) -> &'static str {
        match self {
            LeftAs::Ease => "ease",
            LeftAs::Gathers => "gathers",
            LeftAs::Flare => "flare",
        }
    }
}
