//! `steps`.

use super::{Dotted, Name, Text};
use crate::source::Span;

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
    /// `set` what is bought
    SetNotion,
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
            Verb::SetNotion => "set",
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
