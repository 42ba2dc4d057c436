//! Everything that is known of a kind of alteration: one entry a kind, read by every room after.

/// The kinds of alterations.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum AlterationKind {
    /// Cut along a line and move what is beyond along the grain, apart.
    Lengthen,
    /// The same, together.
    Shorten,
    /// What lies beyond a line is gone; the cut is an edge with the line's name.
    CutOff,
    /// An edge moves out in parallel.
    Extend,
    /// An edge moves in in parallel.
    Trim,
    /// A fold becomes an edge of a mirrored pair.
    Open,
    /// An edge of a mirrored pair becomes a fold.
    Close,
    /// Cut in two along a line, or from one dart to another along the legs of both.
    Split,
    /// A half on the fold is cut as its whole.
    Unfold,
    /// A pair, or a half on the fold, becomes two pieces: the left one and the right one.
    Unpair,
    /// Two pieces laid edge to edge become one.
    Join,
    /// An edge goes another way between the same corners.
    Redraw,
    /// Cut from a line's end and open there, hinged at its start.
    Flare,
    /// Folded from a line's end to its start, where it is hinged: what was opened there is taken out.
    FoldOut,
    /// Cut along a whole line and move apart, square to it.
    Spread,
    /// The same, over one another.
    Overlap,
    /// A dart is shut about the place that it is directed to, and opens elsewhere.
    MoveDart,
    /// An edge is cut to a place and opened there into a dart, and the paper from there on turns about that place.
    LetDart,
    /// An edge is cut and moved apart, or turned open, for pleats.
    LetPleat,
    /// A dart is not sewn.
    LeaveDart,
    /// A dart that is directed to a place on the outline is shut, and is no more.
    CloseDart,
    /// Half of what a zip shows is taken off each edge that it is sewn to; made by a closure.
    ShowZip,
    /// What lies behind a zip is kept back from its teeth; made by a closure. Kept last: [`AlterationKind::ALL`]
    /// counts on it.
    KeepBack,
}

/// What is known of a kind of alteration.
#[derive(Clone, Copy, Debug)]
pub struct AlterationForm {
    /// The trade's word for it, and what its statement begins with: "cut off".
    pub verb: &'static str,
    /// Doing it, and what follows "it": "cutting" it "off".
    pub gerund: (&'static str, &'static str),
    /// Done: "lengthened".
    pub participle: &'static str,
    /// What it names.
    pub targets: TargetForm,
    /// What it needs there.
    pub needs: Need,
    /// What it does to the length of the edges that it touches.
    pub change: Change,
    /// What it does to the line that it names.
    pub line: LineFate,
    /// What it does to a fold.
    pub fold: FoldFate,
    /// How much is said.
    pub amount: AmountForm,
    /// What undoes it.
    pub opposite: Option<AlterationKind>,
}

/// What an alteration names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TargetForm {
    /// Pieces, then after this word a line or edge that each has: `front, back at waist`.
    Pieces(&'static str),
    /// One piece, then after this word a line of it: `back at yoke_line`.
    Piece(&'static str),
    /// Two pieces with "to" between them, then after this word an edge of both or a seam between
    /// them: `front to back at side`.
    TwoPieces(&'static str),
    /// Pieces, and nothing of them: `front, back`.
    Wholes,
    /// One piece, and nothing of it: `front`.
    Whole,
    /// Edges: `front.centre, back.centre`.
    Edges,
    /// One edge: `front.neckline`.
    Edge,
    /// One dart: `front.side_dart`.
    Dart,
    /// Nothing, for it has no statement of its own: a closure makes it, of the edges it is sewn to.
    Closure,
}

/// What an alteration needs on the piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// A line that goes across the grain.
    LineAcross,
    /// A line.
    Line,
    /// An edge that lies on the fold.
    Fold,
    /// An edge.
    Edge,
    /// A dart.
    Dart,
}

/// What an alteration does to the length of the edges that it touches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// They grow by the amount, or nearly so.
    Grow,
    /// They shrink by the amount, or nearly so.
    Shrink,
    /// They change by what only drawing tells.
    Any,
    /// None: the outline stays.
    None,
}

/// What becomes of the line that an alteration names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineFate {
    /// It stays as it is.
    Stays,
    /// The paper is cut along all of it, and with the paper what lies across it.
    Parts,
    /// It becomes an edge with its name.
    BecomesEdge,
}

/// What becomes of the fold at the edge that an alteration names.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FoldFate {
    /// It stays as it is.
    Stays,
    /// The edge is no fold any more.
    Opens,
    /// The edge becomes a fold.
    Closes,
}

/// How an alteration says how much.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AmountForm {
    /// Not at all.
    None,
    /// `by 4`
    By,
    /// `by 4`, or `until front_zip fits`
    ByOrUntil,
}

impl AlterationKind {
    /// All of them.
    pub const ALL: [AlterationKind; AlterationKind::KeepBack as usize + 1] = [
        AlterationKind::Lengthen,
        AlterationKind::Shorten,
        AlterationKind::CutOff,
        AlterationKind::Extend,
        AlterationKind::Trim,
        AlterationKind::Open,
        AlterationKind::Close,
        AlterationKind::Split,
        AlterationKind::Unfold,
        AlterationKind::Unpair,
        AlterationKind::Join,
        AlterationKind::Redraw,
        AlterationKind::Flare,
        AlterationKind::FoldOut,
        AlterationKind::Spread,
        AlterationKind::Overlap,
        AlterationKind::MoveDart,
        AlterationKind::LetDart,
        AlterationKind::LetPleat,
        AlterationKind::LeaveDart,
        AlterationKind::CloseDart,
        AlterationKind::ShowZip,
        AlterationKind::KeepBack,
    ];

    /// The kind whose statement begins with these words: the first, and the second if there is one. Of two
    /// that fit the one of two words: `close dart` before `close`.
    pub fn beginning(first: &str, second: Option<&str>) -> Option<AlterationKind> {
        let fits = |kind: &AlterationKind| {
            let mut verb = kind.form().verb.split(' ');
            verb.next() == Some(first) && verb.next().is_none_or(|word| Some(word) == second)
        };
        let all = AlterationKind::ALL.into_iter().filter(|kind| kind.has_statement());
        all.filter(fits).min_by_key(|kind| !kind.form().verb.contains(' '))
    }

    /// Whether a maker writes it, and not only a closure.
    pub fn has_statement(self) -> bool {
        self.form().targets != TargetForm::Closure
    }

    /// Which way what is beyond moves, for an amount more than nothing: out (1) or in (-1).
    pub fn way(self) -> f64 {
        match self.form().change {
            Change::Shrink => -1.0,
            Change::Grow | Change::Any | Change::None => 1.0,
        }
    }

    /// "cutting it off"
    pub fn doing(self, what: &str) -> String {
        let (gerund, particle) = self.form().gerund;
        match particle {
            "" => format!("{gerund} {what}"),
            _ => format!("{gerund} {what} {particle}"),
        }
    }

    /// What is known of it.
    pub fn form(self) -> &'static AlterationForm {
        match self {
            AlterationKind::Lengthen => &AlterationForm {
                verb: "lengthen",
                gerund: ("lengthening", ""),
                participle: "lengthened",
                targets: TargetForm::Pieces("at"),
                needs: Need::LineAcross,
                change: Change::Grow,
                line: LineFate::Parts,
                fold: FoldFate::Stays,
                amount: AmountForm::ByOrUntil,
                opposite: Some(AlterationKind::Shorten),
            },
            AlterationKind::Shorten => &AlterationForm {
                verb: "shorten",
                gerund: ("shortening", ""),
                participle: "shortened",
                targets: TargetForm::Pieces("at"),
                needs: Need::LineAcross,
                change: Change::Shrink,
                line: LineFate::Parts,
                fold: FoldFate::Stays,
                amount: AmountForm::ByOrUntil,
                opposite: Some(AlterationKind::Lengthen),
            },
            AlterationKind::CutOff => &AlterationForm {
                verb: "cut off",
                gerund: ("cutting", "off"),
                participle: "cut off",
                targets: TargetForm::Pieces("at"),
                needs: Need::Line,
                change: Change::Any,
                line: LineFate::BecomesEdge,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::Extend => &AlterationForm {
                verb: "extend",
                gerund: ("extending", ""),
                participle: "extended",
                targets: TargetForm::Edges,
                needs: Need::Edge,
                change: Change::Grow,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::Trim),
            },
            AlterationKind::Trim => &AlterationForm {
                verb: "trim",
                gerund: ("trimming", ""),
                participle: "trimmed",
                targets: TargetForm::Edges,
                needs: Need::Edge,
                change: Change::Shrink,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::Extend),
            },
            AlterationKind::Open => &AlterationForm {
                verb: "open",
                gerund: ("opening", ""),
                participle: "opened",
                targets: TargetForm::Pieces("at"),
                needs: Need::Fold,
                change: Change::None,
                line: LineFate::Stays,
                fold: FoldFate::Opens,
                amount: AmountForm::None,
                opposite: Some(AlterationKind::Close),
            },
            AlterationKind::Close => &AlterationForm {
                verb: "close",
                gerund: ("closing", ""),
                participle: "closed",
                targets: TargetForm::Pieces("at"),
                needs: Need::Edge,
                change: Change::None,
                line: LineFate::Stays,
                fold: FoldFate::Closes,
                amount: AmountForm::None,
                opposite: Some(AlterationKind::Open),
            },
            AlterationKind::Split => &AlterationForm {
                verb: "split",
                gerund: ("splitting", ""),
                participle: "split",
                targets: TargetForm::Piece("at"),
                needs: Need::Line,
                change: Change::None,
                line: LineFate::BecomesEdge,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: Some(AlterationKind::Join),
            },
            AlterationKind::Unfold => &AlterationForm {
                verb: "unfold",
                gerund: ("unfolding", ""),
                participle: "unfolded",
                targets: TargetForm::Wholes,
                needs: Need::Fold,
                change: Change::None,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::Unpair => &AlterationForm {
                verb: "unpair",
                gerund: ("unpairing", ""),
                participle: "unpaired",
                targets: TargetForm::Whole,
                needs: Need::Edge,
                change: Change::None,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::Join => &AlterationForm {
                verb: "join",
                gerund: ("joining", ""),
                participle: "joined",
                targets: TargetForm::TwoPieces("at"),
                needs: Need::Edge,
                change: Change::None,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: Some(AlterationKind::Split),
            },
            AlterationKind::Redraw => &AlterationForm {
                verb: "redraw",
                gerund: ("redrawing", ""),
                participle: "redrawn",
                targets: TargetForm::Edge,
                needs: Need::Edge,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::Flare => &AlterationForm {
                verb: "flare",
                gerund: ("flaring", ""),
                participle: "flared",
                targets: TargetForm::Pieces("along"),
                needs: Need::Line,
                change: Change::Grow,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::FoldOut),
            },
            AlterationKind::FoldOut => &AlterationForm {
                verb: "fold out",
                gerund: ("folding", "out"),
                participle: "folded out",
                targets: TargetForm::Pieces("along"),
                needs: Need::Line,
                change: Change::Shrink,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::Flare),
            },
            AlterationKind::Spread => &AlterationForm {
                verb: "spread",
                gerund: ("spreading", ""),
                participle: "spread",
                targets: TargetForm::Pieces("along"),
                needs: Need::Line,
                change: Change::Grow,
                line: LineFate::Parts,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::Overlap),
            },
            AlterationKind::Overlap => &AlterationForm {
                verb: "overlap",
                gerund: ("overlapping", ""),
                participle: "overlapped",
                targets: TargetForm::Pieces("along"),
                needs: Need::Line,
                change: Change::Shrink,
                line: LineFate::Parts,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: Some(AlterationKind::Spread),
            },
            AlterationKind::MoveDart => &AlterationForm {
                verb: "move dart",
                gerund: ("moving a dart of", ""),
                participle: "altered at its dart",
                targets: TargetForm::Dart,
                needs: Need::Dart,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::LetDart => &AlterationForm {
                verb: "let dart",
                gerund: ("letting a dart into", ""),
                participle: "opened for a dart",
                targets: TargetForm::Edge,
                needs: Need::Edge,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::LetPleat => &AlterationForm {
                verb: "let pleat",
                gerund: ("letting a pleat into", ""),
                participle: "opened for a pleat",
                targets: TargetForm::Edge,
                needs: Need::Edge,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::LeaveDart => &AlterationForm {
                verb: "leave dart",
                gerund: ("leaving a dart of", "unsewn"),
                participle: "left with a dart unsewn",
                targets: TargetForm::Dart,
                needs: Need::Dart,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::CloseDart => &AlterationForm {
                verb: "close dart",
                gerund: ("closing a dart of", ""),
                participle: "closed at its dart",
                targets: TargetForm::Dart,
                needs: Need::Dart,
                change: Change::Any,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::None,
                opposite: None,
            },
            AlterationKind::ShowZip => &AlterationForm {
                verb: "showing",
                gerund: ("trimming", "for the zip"),
                participle: "made narrower for what shows of the zip",
                targets: TargetForm::Closure,
                needs: Need::Edge,
                change: Change::Shrink,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: None,
            },
            AlterationKind::KeepBack => &AlterationForm {
                verb: "keep back",
                gerund: ("keeping", "back from the teeth of the zip"),
                participle: "kept back from the teeth of the zip",
                targets: TargetForm::Closure,
                needs: Need::Edge,
                change: Change::Shrink,
                line: LineFate::Stays,
                fold: FoldFate::Stays,
                amount: AmountForm::By,
                opposite: None,
            },
        }
    }
}
