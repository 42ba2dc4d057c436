//! What a name was sought as, and one that nothing declares.

use crate::garment::{Garment, PieceId};
use crate::report::{Diagnostic, Label};
use crate::source::Span;
use indexmap::IndexSet;
use std::sync::Arc;

/// How many uses of one unresolved name are shown.
const USES_SHOWN: usize = 4;

/// How many more uses of what was dropped are shown beside the first: each is a line to mend.
const DANGLING_SHOWN: usize = 12;

/// What a name was sought as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Sought {
    Piece,
    Layer,
    Fabric,
    Size,
    BodyMeasure,
    Value,
    ValueOrPoint,
    Closure,
    SeamOrClosure,
    Stitched,
    EdgeOf(PieceId),
    TakeUpOf(PieceId),
    SlitOf(PieceId),
    PointOf(PieceId),
    PointOfSeam,
    PointOfClosure,
}

impl Sought {
    /// What may be a value in one place and a value or a point in another is one thing.
    pub fn kind(self) -> Sought {
        match self {
            Sought::ValueOrPoint => Sought::Value,
            Sought::SeamOrClosure => Sought::Closure,
            other => other,
        }
    }

    /// "piece", "edge or line of front".
    pub fn words(self, garment: &Garment) -> String {
        let of = |piece: PieceId| garment.piece(piece).name.clone();
        match self {
            Sought::Piece => "piece".to_owned(),
            Sought::Layer => "layer".to_owned(),
            Sought::Fabric => "fabric".to_owned(),
            Sought::BodyMeasure => "measure of the body".to_owned(),
            Sought::Size => "size".to_owned(),
            Sought::Value => "value".to_owned(),
            Sought::ValueOrPoint => "value or point".to_owned(),
            Sought::Closure => "closure".to_owned(),
            Sought::SeamOrClosure => "seam or closure".to_owned(),
            Sought::Stitched => "stitching, tack or set".to_owned(),
            Sought::EdgeOf(piece) => format!("edge or line of {}", of(piece)),
            Sought::TakeUpOf(piece) => format!("dart or pleat of {}", of(piece)),
            Sought::SlitOf(piece) => format!("slit of {}", of(piece)),
            Sought::PointOf(piece) => format!("point or mark of {}", of(piece)),
            Sought::PointOfSeam => "point of this seam's pieces".to_owned(),
            Sought::PointOfClosure => "point of this closure's pieces".to_owned(),
        }
    }
}

/// A name that nothing declares.
#[derive(Debug)]
pub(super) struct UnresolvedName {
    /// What is said of it.
    pub diagnostic: Diagnostic,
    /// Where it is used.
    pub uses: IndexSet<Span>,
    /// The known name that is nearest to it.
    pub near: Option<Arc<str>>,
}

impl UnresolvedName {
    /// It is used there too: one slip where a thing is declared makes every use of it unresolved.
    pub fn used_at(&mut self, span: Span) {
        if self.uses.insert(span) && self.diagnostic.labels.len() < USES_SHOWN {
            self.diagnostic.labels.push(Label { span, text: "nor here".to_owned() });
        }
    }
}

/// A name of something that was dropped.
#[derive(Debug)]
pub(super) struct StillUsed {
    diagnostic: Diagnostic,
    uses: IndexSet<Span>,
}

impl StillUsed {
    /// Used nowhere yet; the message is worded for one use.
    pub fn new(diagnostic: Diagnostic) -> StillUsed {
        StillUsed { diagnostic, uses: IndexSet::new() }
    }

    /// It is used there.
    pub fn used_at(&mut self, span: Span) {
        self.uses.insert(span);
    }

    /// Used here and there: all that is said of it.
    pub fn join(&mut self, other: StillUsed) {
        self.uses.extend(other.uses);
    }

    /// One message, with its places in the order of the text.
    pub fn told(mut self, name: &str) -> Diagnostic {
        self.uses.sort_unstable();
        if self.uses.len() > 1 {
            let places = self.uses.len();
            self.diagnostic.title =
                format!("{name} was dropped, but is still used in {places} places").into();
        }
        let mut uses = self.uses.into_iter();
        if let (Some(first), Some(label)) = (uses.next(), self.diagnostic.labels.first_mut()) {
            label.span = first;
        }
        for span in uses.take(DANGLING_SHOWN) {
            self.diagnostic = self.diagnostic.also(span, "and here");
        }
        self.diagnostic
    }
}
