//! What a name was sought as, and one that nothing declares.

use crate::garment::{Garment, PieceId};
use crate::report::{Diagnostic, Label};
use crate::source::Span;
use indexmap::IndexSet;
use std::sync::Arc;

/// How many uses of one unresolved name are shown.
const USES_SHOWN: usize = 4;

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
