use super::{Dotted, EdgePlace, Expr, Name, SeamAlong, SewnPlace, StitchWord, Text};
use crate::source::Span;

/// `seam armhole sleeve.cap to front.armhole + back.armhole easing 0.5..2.5 { … }`
#[derive(Clone, Debug)]
pub struct Seam {
    /// Its name.
    pub name: Name,
    /// What people read.
    pub label: Option<Text>,
    /// Before `to`.
    pub first: Side,
    /// After `to`.
    pub second: Side,
    /// How the sides fit, when not equal.
    pub fit: Option<Fit>,
    /// `cuff.left, cuff.right across the fold`: each of the first side's plies is sewn to itself, and there is
    /// no second side.
    pub across_fold: bool,
    /// `outer.collar to inside.collar along left + top + right`: both sides are said so.
    pub along: Option<Box<SeamAlong>>,
    /// Closures caught between the sides.
    pub enclosing: Vec<Name>,
    /// What stands in its braces.
    pub items: Vec<SeamItem>,
}

/// Plies that lie on one another: `a and b`.
#[derive(Clone, Debug)]
pub struct Side {
    /// At least one.
    pub plies: Vec<Chain>,
    /// All of it.
    pub span: Span,
}

/// Edges end to end: `a + b`.
#[derive(Clone, Debug)]
pub struct Chain {
    /// At least one.
    pub edges: Vec<SewnWords>,
    /// `panel.bottom in a ring`: all copies end to end
    pub ring: bool,
    /// All of it.
    pub span: Span,
}

/// An edge, or a run of it.
#[derive(Clone, Debug)]
pub struct SewnWords {
    /// The edge.
    pub edge: Dotted,
    /// The run of it that is meant; none: all of it.
    pub run: Option<RunWords>,
    /// Edges that lie on it as further plies, in brackets with it: `(a and b)`.
    pub over: Vec<SewnWords>,
    /// `panel.bottom in a ring`, of what is finished or stitched: all copies end to end. A chain says it itself.
    pub ring: bool,
    /// All of it.
    pub span: Span,
}

/// `20 from waist_side`, `3..19 from waist_side`
#[derive(Clone, Debug)]
pub struct RunWords {
    /// How far from there it begins; where it is counted from, if nothing is said.
    pub from: Option<Expr>,
    /// How far from there it ends.
    pub to: Expr,
    /// What it is counted from.
    pub counted: Dotted,
    /// All of it.
    pub span: Span,
}

/// `easing 0.5..2.5 between A and B`
#[derive(Clone, Debug)]
pub struct Fit {
    /// Which.
    pub kind: FitKind,
    /// The least.
    pub low: Expr,
    /// The most; the least where only one is said.
    pub high: Option<Expr>,
    /// The corners or notches it is confined to.
    pub between: Option<(SewnPlace, SewnPlace)>,
    /// All of it.
    pub span: Span,
}

/// How a side fits the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FitKind {
    /// The first side is longer by this much.
    Easing,
    /// The first side is so many times as long.
    Gathering,
    /// The first side is this share of the second.
    Stretching,
}

/// One line in a seam's braces.
#[derive(Clone, Debug)]
pub struct SeamItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: SeamItemNode,
}

/// What a line in a seam's braces says.
#[derive(Clone, Debug)]
pub enum SeamItemNode {
    /// `allowance 0.7`
    Allowance(Expr),
    /// `stitch 504`
    Stitch(StitchWord),
    /// `notch 8 from underarm double`, `notch at balance`, `notch in the middle`
    Notch {
        /// Where.
        place: EdgePlace,
        /// Two cuts side by side.
        double: bool,
    },
    /// `notch quarters`, `notch thirds double`, `notch every 10`
    Notches {
        /// How far apart.
        apart: NotchesApart,
        /// Two cuts side by side.
        double: bool,
    },
    /// `leaving gap 16 in lining, left`, `leaving gap 3..19 from hem_side in lining`
    Gap {
        /// How far from what it is counted from it begins; there, if nothing is said.
        begins: Option<Expr>,
        /// How long it is; where it begins elsewhere, how far from there it ends.
        length: Expr,
        /// Where it lies; anywhere if nothing is said.
        at: Option<GapAt>,
        /// The layer that has it.
        layer: Option<Name>,
        /// The copy that has it.
        hand: Option<Hand>,
    },
    /// `matching front.tip with back.tip`
    Matching(Dotted, Dotted),
    /// `caught bag.top on front.waist at waist_side`: a ply that lies on a part of an edge
    Caught {
        /// The edge that is caught.
        ply: Dotted,
        /// The edge of the seam that it lies on.
        on: Dotted,
        /// Where on it the caught edge begins.
        place: EdgePlace,
    },
    /// `felled 0.7 over back`, `french 0.7`, `edges bound 1`
    Kind {
        /// Which.
        kind: SeamKind,
        /// How wide it is when it is finished.
        width: Expr,
        /// What lies over, where the kind has an upper and an under side.
        over: Option<Dotted>,
    },
}

/// Where along its seam a gap lies.
#[derive(Clone, Debug)]
pub struct GapAt {
    /// What it is counted from; none: it lies in the middle.
    pub counted: Option<Dotted>,
    /// The edge of the seam that it lies on, where that has to be said.
    pub along: Option<Dotted>,
    /// All of it.
    pub span: Span,
}

/// How far apart the notches are that divide a seam evenly.
#[derive(Clone, Debug)]
pub enum NotchesApart {
    /// `quarters`
    Quarters,
    /// `thirds`
    Thirds,
    /// `every 10`: no further apart than that.
    Every(Expr),
}

/// How a seam is made, other than plainly.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum SeamKind {
    /// `felled`: one allowance is folded round the other and sewn down.
    Felled,
    /// `french`: sewn wrong sides together, turned, and sewn again round its allowances.
    French,
    /// `lapped`: the one side, turned under, is laid on the other and sewn through.
    Lapped,
    /// `topstitched`: both allowances under one side, and sewn down from it.
    Topstitched,
    /// `edges bound`: plain, the allowances of each side bound.
    EdgesBound,
}

impl SeamKind {
    /// All of them, in the order in which they are explained.
    pub const ALL: [SeamKind; 5] =
        [SeamKind::Felled, SeamKind::French, SeamKind::Lapped, SeamKind::Topstitched, SeamKind::EdgesBound];

    /// As it is written, and as a maker says it.
    pub fn words(self) -> &'static str {
        match self {
            SeamKind::Felled => "felled",
            SeamKind::French => "french",
            SeamKind::Lapped => "lapped",
            SeamKind::Topstitched => "topstitched",
            SeamKind::EdgesBound => "edges bound",
        }
    }

    /// Whether one side lies over the other, so that it must be said which.
    pub fn has_upper_side(self) -> bool {
        matches!(self, SeamKind::Felled | SeamKind::Lapped | SeamKind::Topstitched)
    }
}

/// A side of the body, as worn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Hand {
    /// `left`
    Left,
    /// `right`
    Right,
}

impl Hand {
    /// Both.
    pub const BOTH: [Hand; 2] = [Hand::Left, Hand::Right];

    /// The other one.
    pub fn other(self) -> Hand {
        match self {
            Hand::Left => Hand::Right,
            Hand::Right => Hand::Left,
        }
    }

    /// As it is written, and as a maker says it.
    pub fn word(self) -> &'static str {
        match self {
            Hand::Left => "left",
            Hand::Right => "right",
        }
    }
}

/// `finish front.hem, back.hem hem 3`
#[derive(Clone, Debug)]
pub struct Finish {
    /// The edges.
    pub edges: Vec<SewnWords>,
    /// How.
    pub kind: FinishKind,
    /// Where the words after the edges stand.
    pub kind_span: Span,
    /// `bound 1 stretch 40%`: how far the binding stretches
    pub binding_stretch: Option<Expr>,
    /// `{ stitch 602 }`
    pub stitch: Option<StitchWord>,
}

/// How an edge is finished.
#[derive(Clone, Debug)]
pub enum FinishKind {
    /// `hem 3`, `hem 3 turned under 1`, `hem 0.6 twice`, each with `turn-up 4`
    Hem(Hem),
    /// `bound 1`: finished width; `bound 1 cut from cotton running on 45 at start looping 50 at neck_side`
    Bound(Binding),
    /// `casing 3.5`, with `for elastic 3 of waist * 90%`
    Casing {
        /// Finished depth.
        depth: Expr,
        /// The elastic's width and its length.
        elastic: Option<(Expr, Expr)>,
    },
    /// `elastic 1 of waist * 90%`: sewn on to the edge
    Elastic {
        /// How wide it is.
        width: Expr,
        /// How long it is as it is worn.
        length: Expr,
    },
    /// `tape`, `tape 1`: tape sewn over the raw edge
    Tape(Option<Expr>),
    /// `turned under onto waist`: felled by hand onto the stitching of a seam
    TurnedUnderOnto(Name),
    /// `overlocked`
    Overlocked,
    /// `raw`
    Raw,
}

/// `hem 3 turned under 1 turn-up 4`
#[derive(Clone, Debug)]
pub struct Hem {
    /// How deep it is.
    pub depth: Expr,
    /// What becomes of its raw edge.
    pub raw_edge: HemEdge,
    /// How deep the turn-up is, on the outside, that it is sewn behind.
    pub turn_up: Option<Expr>,
}

/// `bound 1 cut from cotton running on 45 at start, 60 at end looping 50 at front.neck_side`
#[derive(Clone, Debug)]
pub struct Binding {
    /// Finished width.
    pub width: Expr,
    /// The cloth that it is cut from; bought where none is said.
    pub cut_from: Option<Name>,
    /// How far it runs on, and beyond which end of its edges.
    pub running_on: Vec<(Expr, RowEnd)>,
    /// Loops that it makes, and where.
    pub loops: Vec<(Expr, SewnPlace)>,
}

/// An end of edges that are finished in one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum RowEnd {
    /// `start`
    Start,
    /// `end`
    End,
}

/// What becomes of the raw edge of a hem.
#[derive(Clone, Debug)]
pub enum HemEdge {
    /// Nothing: the hem is turned once.
    TurnedOnce,
    /// `turned under 1`
    TurnedUnder(Expr),
    /// `twice`: turned under as deep as the hem is.
    TurnedTwice,
}

/// `place pocket on front { … }`
#[derive(Clone, Debug)]
pub struct Place {
    /// What is placed.
    pub piece: Dotted,
    /// What it is placed on.
    pub on: Dotted,
    /// What stands in its braces.
    pub items: Vec<PlaceItem>,
}

/// One line of a placement.
#[derive(Clone, Debug)]
pub struct PlaceItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: PlaceItemNode,
}

/// What a line of a placement says.
#[derive(Clone, Debug)]
pub enum PlaceItemNode {
    /// `corner bottom_left at pocket_corner`
    Corner {
        /// A corner of what is placed.
        corner: Name,
        /// Where on what it is placed on.
        at: HostPlace,
    },
    /// `topstitch left, right`
    Topstitch(Vec<Name>),
    /// `topstitch all round`: every edge that nothing catches
    TopstitchAllRound,
    /// `caught bottom in hem_band`
    Caught {
        /// Edges of what is placed.
        edges: Vec<Name>,
        /// A seam or a closure.
        in_seam: Name,
    },
}

/// Where on a piece something is placed.
#[derive(Clone, Debug)]
pub enum HostPlace {
    /// `at pocket_corner`: a mark or a corner
    Point(Name),
    /// `on waist at 8 from side`: a place on an edge
    Edge(Name, EdgePlace),
}

/// `closure front_zip A to B { … }`
#[derive(Clone, Debug)]
pub struct Closure {
    /// Its name.
    pub name: Name,
    /// Before `to`.
    pub first: Chain,
    /// After `to`.
    pub second: Chain,
    /// `from end to end`: it runs on along what is sewn on above and below.
    pub end_to_end: Option<Span>,
    /// What stands in its braces.
    pub items: Vec<ClosureItem>,
}

/// One line of a closure.
#[derive(Clone, Debug)]
pub struct ClosureItem {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub node: ClosureItemNode,
}

/// What a line of a closure says.
#[derive(Clone, Debug)]
pub enum ClosureItemNode {
    /// `zipper separating 65 showing 1`, `zipper separating stocked 55, 60 showing 1`
    Zipper(Zipper),
    /// `buttons 6 of 15mm from … to … stand 2 right over left`, `hooks 2`, `buckle 25mm`
    Fasteners(Box<Fasteners>),
}

/// A zip.
#[derive(Clone, Debug)]
pub struct Zipper {
    /// Which kind.
    pub kind: ZipperKind,
    /// One length, or those in stock.
    pub lengths: Vec<Expr>,
    /// `stocked`.
    pub stocked: bool,
    /// How much of its width shows.
    pub showing: Option<Expr>,
    /// How far from its teeth the cloth behind it is kept: `clear of cloth 6mm`
    pub clear: Option<Expr>,
}

/// Kinds of zip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ZipperKind {
    /// Comes apart at its lower end.
    Separating,
    /// Stays together at its lower end.
    Closed,
    /// Sewn so that only the seam shows.
    Concealed,
}

/// A row of buttons, snaps, hooks, toggles or ties, or a buckle.
#[derive(Clone, Debug)]
pub struct Fasteners {
    /// Which kind.
    pub kind: Fastener,
    /// How many; none of a buckle, and of ties that are pieces of the garment.
    pub count: Option<Expr>,
    /// How wide one is, or how long a toggle or a tie; none of hooks, and of ties that are pieces.
    pub size: Option<Expr>,
    /// The first and the last; spaced evenly over the whole closure where they are not said.
    pub between: Option<(Anchor, Anchor)>,
    /// What the piece has beyond the centre line.
    pub stand: Option<Expr>,
    /// Which side lies over the other.
    pub over: Option<Hand>,
}

/// What holds two sides together here and there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fastener {
    /// `buttons 6 of 15mm`
    Button,
    /// `snaps 4 of 12mm`
    Snap,
    /// `hooks 2`: hooks and eyes, or hooks and bars.
    Hook,
    /// `toggles 3 of 40mm`
    Toggle,
    /// `buckle 25mm`
    Buckle,
    /// `ties 3 of 30`, or `ties` that are pieces.
    Tie,
}

impl Fastener {
    /// All of them, in the order in which they are explained.
    pub const ALL: [Fastener; 6] =
        [Fastener::Button, Fastener::Snap, Fastener::Hook, Fastener::Toggle, Fastener::Buckle, Fastener::Tie];

    /// As it is written.
    pub fn keyword(self) -> &'static str {
        match self {
            Fastener::Buckle => "buckle",
            other => other.many(),
        }
    }

    /// One of them.
    pub fn one(self) -> &'static str {
        match self {
            Fastener::Button => "button",
            Fastener::Snap => "snap",
            Fastener::Hook => "hook",
            Fastener::Toggle => "toggle",
            Fastener::Buckle => "buckle",
            Fastener::Tie => "tie",
        }
    }

    /// Several of them.
    pub fn many(self) -> &'static str {
        match self {
            Fastener::Button => "buttons",
            Fastener::Snap => "snaps",
            Fastener::Hook => "hooks",
            Fastener::Toggle => "toggles",
            Fastener::Buckle => "buckles",
            Fastener::Tie => "ties",
        }
    }

    /// Whether it lies on cloth of one side that laps over the other, in the middle of both. Its line, where
    /// that is an edge, goes on by the stand, and nothing else becomes of that edge. All others hold edges
    /// that are finished or sewn as if they were not there.
    pub fn is_lapped(self) -> bool {
        matches!(self, Fastener::Button | Fastener::Snap)
    }
}

/// `1.5 below neck_cf`, `3 from top_left`, `in the middle`
#[derive(Clone, Debug)]
pub struct Anchor {
    /// Where.
    pub at: AnchorAt,
    /// All of it.
    pub span: Span,
}

/// Where the first or the last of a row of fasteners is.
#[derive(Clone, Debug)]
pub enum AnchorAt {
    /// So far along the edge from a corner.
    Beside {
        /// How far.
        distance: Expr,
        /// `below` (true) or `above`.
        below: bool,
        /// The corner.
        point: Name,
    },
    /// A place on the edge, or on the whole closure.
    Place(EdgePlace),
}

/// `opening front.neckline + back.neckline passes head`
#[derive(Clone, Debug)]
pub struct Opening {
    /// The ring of edges.
    pub ring: Chain,
    /// What must pass: a body measure.
    pub passes: Name,
}

/// `cord neck_cord 120 through collar.top ends 8 free`
#[derive(Clone, Debug)]
pub struct Cord {
    /// Its name.
    pub name: Name,
    /// How long it is.
    pub length: Expr,
    /// The edges it runs through.
    pub through: Vec<Dotted>,
    /// What hangs out at each end.
    pub ends: Option<Expr>,
}

/// `steps { … }`
#[derive(Clone, Debug)]
pub struct Steps {
    /// In the order of work.
    pub groups: Vec<StepGroup>,
}

/// `"Pockets" { … }`
#[derive(Clone, Debug)]
pub struct StepGroup {
    /// All of it.
    pub span: Span,
    /// What people read.
    pub title: Text,
    /// In the order of work.
    pub actions: Vec<Action>,
}

/// `in outer sew shoulder, side`
#[derive(Clone, Debug)]
pub struct Action {
    /// All of it.
    pub span: Span,
    /// Only in this layer.
    pub layer: Option<Name>,
    /// What is done.
    pub verb: Verb,
    /// Where the verb stands.
    pub verb_span: Span,
    /// What it is done to: seams, closures, finished edges, placed pieces.
    pub targets: Vec<StepTarget>,
    /// What else the maker says of it; of a note all that it says.
    pub words: Option<Text>,
}

/// `front.hem`, `panels 1..3`
#[derive(Clone, Debug)]
pub struct StepTarget {
    /// Its name.
    pub name: Dotted,
    /// Of a seam that joins pieces in a ring some joints of it.
    pub joints: Option<Joints>,
}

/// Joints of a ring, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Joints {
    /// The first of them.
    pub first: u32,
    /// The last of them, which may be the same.
    pub last: u32,
    /// Where they are said.
    pub span: Span,
}

impl std::ops::Deref for StepTarget {
    type Target = Dotted;

    fn deref(&self) -> &Dotted {
        &self.name
    }
}

impl From<Dotted> for StepTarget {
    fn from(name: Dotted) -> StepTarget {
        StepTarget { name, joints: None }
    }
}

/// What is done in a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Verb {
    /// `sew` a seam or a closure
    Sew,
    /// `baste`
    Baste,
    /// `hem` an edge
    Hem,
    /// `finish` an edge
    Finish,
    /// `place` a piece
    Place,
    /// `fuse` a piece
    Fuse,
    /// `press`
    Press,
    /// `turn through gap in sleeve`
    TurnThroughGap,
    /// `slipstitch gap in sleeve`
    SlipstitchGap,
    /// `thread` a cord or an elastic
    Thread,
    /// `topstitch` a row
    Topstitch,
    /// `understitch` a row
    Understitch,
    /// `tack` a tack
    Tack,
    /// `note "try it on"`: words alone
    Note,
}

impl Verb {
    /// As it is written; `in` and the seam follow what goes through a gap.
    pub fn words(self) -> &'static str {
        match self {
            Verb::Sew => "sew",
            Verb::Baste => "baste",
            Verb::Hem => "hem",
            Verb::Finish => "finish",
            Verb::Place => "place",
            Verb::Fuse => "fuse",
            Verb::Press => "press",
            Verb::TurnThroughGap => "turn through gap",
            Verb::SlipstitchGap => "slipstitch gap",
            Verb::Thread => "thread",
            Verb::Topstitch => "topstitch",
            Verb::Understitch => "understitch",
            Verb::Tack => "tack",
            Verb::Note => "note",
        }
    }

    /// What stands between it and what it is done to.
    pub fn joint(self) -> &'static str {
        match self {
            Verb::TurnThroughGap | Verb::SlipstitchGap => " in ",
            _ => " ",
        }
    }
}

/// `Text` or a name, for `drop` and the like.
#[derive(Clone, Debug)]
pub enum NameOrText {
    /// A name.
    Name(Dotted),
    /// A text.
    Text(Text),
}
