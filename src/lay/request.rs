//! What is asked of a lay, what comes back, and what can be wrong with the question.

use thiserror::Error;

/// A point on the cloth or on an outline, in millimetres.
pub type Point = (f64, f64);

/// One edge of the usable cloth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ClothEdge {
    /// The edge at y = 0: the fold, where cloth is folded.
    Near,
    /// The edge at y = width: the second fold of a tube.
    Far,
}

/// One way an item may lie: mirrored first (x to −x) where asked, then turned counterclockwise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// Degrees, counterclockwise.
    pub degrees: f64,
    /// Mirrored before it is turned. A half cut on the fold may be mirrored without changing the
    /// piece that unfolds: the unfolded piece is then turned by half a turn.
    pub mirrored: bool,
    /// The edge of the cloth against which the turned outline's own bounds must lie.
    pub against: Option<ClothEdge>,
}

impl Turn {
    /// Turned only, free to lie anywhere.
    pub fn free(degrees: f64) -> Self {
        Turn { degrees, mirrored: false, against: None }
    }
    /// As drawn or mirrored, lying against an edge of the cloth.
    pub fn against(edge: ClothEdge, degrees: f64, mirrored: bool) -> Self {
        Turn { degrees, mirrored, against: Some(edge) }
    }
}

/// A point of the item that must come to lie on the same place of the cloth's repeat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Repeat {
    /// The point, in the coordinates of the item's outline.
    pub point: Point,
    /// Along the cloth: the length of the repeat and where in it the point must lie.
    pub along: Option<(f64, f64)>,
    /// Across the cloth: the width of the repeat and where in it the point must lie.
    pub across: Option<(f64, f64)>,
}

/// One shape to lay, and how often.
#[derive(Clone, Debug)]
pub struct Item {
    /// A name for messages; it need not be unique.
    pub id: String,
    /// The cutting line, flattened, in millimetres; simple, closed without repeating the first point.
    pub outline: Vec<Point>,
    /// How many copies.
    pub quantity: usize,
    /// The ways it may lie; at least one.
    pub turns: Vec<Turn>,
    /// Where a repeat must be met.
    pub repeat: Option<Repeat>,
}

/// How long to search. Bounded in work and not in time: the same everywhere.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Effort {
    /// A fifth of what is quick, for what is only to be told roughly.
    Brief,
    /// A second or so for all cloths of a jacket.
    #[default]
    Quick,
    /// Some thirty times as much.
    Normal,
    /// Some three hundred times as much.
    Long,
}

/// How much searching is allowed.
#[derive(Clone, Copy)]
pub enum Allowance<'a> {
    /// So much work. The same plan for the same seed, whatever the machine and the threads.
    Work(Effort),
    /// Until the caller says 1.0 or more. The caller answers with the part of the allowance that
    /// is spent (0.0 to 1.0; always 0.0 when it is to run until interrupted). The plan then
    /// depends on the speed of the machine.
    Until(&'a (dyn Fn() -> f64 + Sync)),
}

/// Everything a lay needs to know.
#[derive(Clone)]
pub struct Request<'a> {
    /// The shapes.
    pub items: Vec<Item>,
    /// Usable width of the cloth (less selvages; half of it where folded), in millimetres.
    pub width: f64,
    /// Least distance between two pieces, in millimetres; 0 where cutting lines may be shared.
    pub minimum_space: f64,
    /// How much searching is allowed.
    pub allowance: Allowance<'a>,
    /// The same seed gives the same plan.
    pub seed: u64,
    /// How many threads may be used; more than two bring nothing. Changes no plan.
    pub threads: usize,
}

/// Where one copy of one item lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// Index into [`Request::items`].
    pub item: usize,
    /// Which copy, from 0.
    pub copy: usize,
    /// How it lies.
    pub turn: Turn,
    /// What to add to x of the mirrored and turned outline.
    pub x: f64,
    /// What to add to y of the mirrored and turned outline.
    pub y: f64,
}

/// A finished lay.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Length of cloth used, in millimetres.
    pub length: f64,
    /// Area of the pieces over area of the cloth used, 0 to 1.
    pub usage: f64,
    /// Every copy of every item, in the order of the request.
    pub placements: Vec<Placement>,
    /// How much was searched, in places evaluated.
    pub evaluations: u64,
}

/// What is known while the search runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Shortest length so far, in millimetres.
    pub length: f64,
    /// Usage at that length, 0 to 1.
    pub usage: f64,
    /// How much of the allowance is spent, 0 to 1.
    pub spent: f64,
}

/// Why there is no plan.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum LayError {
    /// Nothing to lay.
    #[error("there is nothing to lay: every quantity is 0")]
    Empty,
    /// The width is 0, negative or not a number.
    #[error("the cloth is {width} mm wide: a lay needs a width above 0")]
    Width {
        /// The width asked for.
        width: f64,
    },
    /// The minimum space is negative or not a number.
    #[error("the space between pieces is {space} mm: it must be 0 or more")]
    Space {
        /// The space asked for.
        space: f64,
    },
    /// An item is wider than the cloth, whichever way it may lie.
    #[error("{id} needs a width of {needed:.1} mm and the cloth has {width:.1} mm: {over:.1} mm too little")]
    TooWide {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
        /// Least width over its turns.
        needed: f64,
        /// Width of the cloth.
        width: f64,
        /// What is missing.
        over: f64,
    },
    /// An item may not lie any way at all.
    #[error("{id} may not lie any way at all: it needs at least one turn")]
    NoTurn {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
    },
    /// A coordinate, a turn or a repeat is not a finite number, or far beyond any cloth.
    #[error("{id} holds a number that cannot be laid")]
    NotFinite {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
    },
    /// The outline encloses nothing.
    #[error("the outline of {id} encloses no area")]
    NoArea {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
    },
    /// The outline crosses itself.
    #[error("the outline of {id} crosses itself near ({:.1}, {:.1}) mm", at.0, at.1)]
    Crosses {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
        /// Where.
        at: Point,
    },
    /// No place meets the repeat within the width of the cloth.
    #[error("{id} cannot meet the repeat across a width of {width:.1} mm")]
    RepeatAcross {
        /// Index of the item.
        item: usize,
        /// Its name.
        id: String,
        /// Width of the cloth.
        width: f64,
    },
    /// More copies than one lay holds.
    #[error("{count} pieces are more than one lay holds ({most})")]
    TooMany {
        /// Copies asked for.
        count: usize,
        /// The limit.
        most: usize,
    },
    /// An exact check finds something in every plan, also in that of the pieces side by side: the fault is the search's.
    #[error(
        "no plan of these pieces stands up to an exact check: two of them would overlap, or one would lie off the cloth"
    )]
    Unsound,
}
