use super::{Dotted, EdgePath, Expr, Name};
use crate::source::Span;

/// One alteration, as on paper.
#[derive(Clone, Debug)]
pub enum Alteration {
    /// `lengthen` or `shorten front, back at waist by 16 keeping front.pocket_corner`
    Lengthen {
        /// `shorten`.
        shorten: bool,
        /// Pieces, or one layer's part.
        pieces: Vec<Dotted>,
        /// The line.
        at: Name,
        /// How much.
        amount: Amount,
        /// Marks and notches that stay.
        keeping: Vec<Dotted>,
    },
    /// `cut off sleeve at short_line`
    CutOff {
        /// Pieces.
        pieces: Vec<Dotted>,
        /// The line.
        at: Name,
    },
    /// `extend` or `trim front.centre by 1.5`
    Extend {
        /// `trim`.
        trim: bool,
        /// Edges.
        edges: Vec<Dotted>,
        /// How far.
        by: Expr,
    },
    /// `open` or `close front at centre`
    Open {
        /// `close`.
        close: bool,
        /// Pieces.
        pieces: Vec<Dotted>,
        /// The fold's edge.
        at: Name,
    },
    /// `split back at yoke_line into upper_back, lower_back`
    Split {
        /// The piece.
        piece: Dotted,
        /// The line.
        at: Name,
        /// What is before the line, then what is beyond it.
        into: (Name, Name),
    },
    /// `join front to back at side into body`
    Join {
        /// The piece that keeps its place.
        first: Dotted,
        /// The piece that is laid against it.
        second: Dotted,
        /// The edge of both, or the seam between them.
        at: Name,
        /// The piece they become.
        into: Name,
    },
    /// `redraw front.neckline curve …`
    Redraw {
        /// The edge.
        edge: Dotted,
        /// Its new way.
        path: EdgePath,
    },
    /// `flare front along slash by 4`
    Flare {
        /// Pieces.
        pieces: Vec<Dotted>,
        /// The line from the hinge to where it opens.
        along: Name,
        /// How far it opens.
        by: Expr,
    },
    /// `spread sleeve along slash by 6`
    Spread {
        /// Pieces.
        pieces: Vec<Dotted>,
        /// The line cut.
        along: Name,
        /// How far apart.
        by: Expr,
    },
}

/// How much to lengthen or shorten.
#[derive(Clone, Debug)]
pub enum Amount {
    /// `by 16`
    By(Expr),
    /// `until front_zip fits`, `by about 16 until front_zip fits`
    Until {
        /// What the maker has in mind.
        about: Option<Expr>,
        /// The closure.
        closure: Name,
        /// All of it.
        span: Span,
    },
}
