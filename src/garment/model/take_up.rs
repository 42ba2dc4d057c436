//! Take-ups: cloth that is taken out of an edge, or of the middle of a piece. Darts are the first of
//! them; whatever takes cloth out of a stretch of an edge has the same name, place and sides.

use super::{EdgeId, Expression, PointId};
use crate::source::Span;

/// A take-up as it is declared. Its name is an [`super::EdgeName`] like those of lines, so that copies,
/// splits and joins hand it on as they do those.
#[derive(Clone, Debug)]
pub struct TakeUp {
    /// Its name.
    pub name: EdgeId,
    /// All of its words.
    pub span: Span,
    /// What it is.
    pub form: TakeUpForm,
}

/// What a take-up is.
#[derive(Clone, Debug)]
pub enum TakeUpForm {
    /// Folded along its middle and sewn from the edge to its point.
    Dart(Dart),
    /// Cut into the cloth from an edge.
    Slit(Slit),
}

/// A slit. Its sides are edges of the piece once it is cut: [`super::EdgeName::side_of`] names it.
#[derive(Clone, Debug)]
pub struct Slit {
    /// The edge that it is cut from.
    pub edge: EdgeId,
    /// Where the middle of its mouth is.
    pub place: EdgePlace,
    /// How far it is cut.
    pub end: SlitEnd,
    /// How wide a strip is lost between its sides; none: they lie on one another.
    pub window: Option<Expression>,
}

/// How far a slit is cut into its piece.
#[derive(Clone, Debug)]
pub enum SlitEnd {
    /// Up, or down, on the paper, so far.
    Up(bool, Expression),
    /// To the right, or to the left, on the paper, so far.
    Right(bool, Expression),
    /// To a place.
    To(Expression),
}

/// A dart.
#[derive(Clone, Debug)]
pub struct Dart {
    /// Where its cloth lies.
    pub cloth: DartCloth,
    /// How far before the point that it is directed to it is sewn to.
    pub stopping: Option<Expression>,
    /// Which way its cloth is pressed; none: cut open.
    pub pressed: Option<Pressed>,
    /// With the dart shut its edge is drawn as one smooth curve.
    pub trued: bool,
}

/// Where the cloth of a dart lies.
#[derive(Clone, Debug)]
pub enum DartCloth {
    /// Taken out of an edge that is drawn.
    Taken {
        /// The edge.
        edge: EdgeId,
        /// Where the middle of its mouth is.
        place: EdgePlace,
        /// How wide it is on the edge.
        width: Expression,
        /// The point that it is directed to.
        to: Expression,
    },
    /// Drawn in the outline, between two runs of one edge.
    Drawn {
        /// The edge.
        edge: EdgeId,
        /// The corner where it leaves the edge, and the one where it comes back to it.
        corners: [PointId; 2],
        /// The point that it is directed to.
        to: Expression,
    },
    /// Both ends inside the piece.
    Inside {
        /// Its middle, where it is widest.
        at: Expression,
        /// How wide it is there.
        width: Expression,
        /// How far its ends are from there, upper and lower.
        ends: [Expression; 2],
    },
}

/// Which way something is pressed.
#[derive(Clone, Debug)]
pub struct Pressed {
    /// Which.
    pub to: PressedTo,
    /// Where it is said.
    pub span: Span,
}

/// Which way something is pressed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PressedTo {
    /// Towards an edge, a line or another take-up.
    Edge(EdgeId),
    /// Towards a point or mark.
    Point(PointId),
    /// Up, or down, on the paper.
    Up(bool),
    /// To the right, or to the left, on the paper.
    Right(bool),
}

/// A place on an edge, as drawn.
#[derive(Clone, Debug)]
pub struct EdgePlace {
    /// How far along.
    pub at: PlaceAt,
    /// Where it is said.
    pub span: Span,
}

/// How far along an edge a place is.
#[derive(Clone, Debug)]
pub enum PlaceAt {
    /// Half way.
    Middle,
    /// Where that point is.
    Point(PointId),
    /// So far, or such a share of the edge, from there.
    From(Expression, CountedFrom),
    /// Such a share of the edge, from neither end: a half.
    Share(Expression),
}

/// From where a place on an edge is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountedFrom {
    /// A corner, or a point or mark on the edge.
    Point(PointId),
    /// The corner that it shares with a neighbouring edge.
    Edge(EdgeId),
    /// A side of a take-up of the same edge.
    Side(EdgeId, TakeUpSide),
}

/// A side of a take-up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakeUpSide {
    /// Towards where its own place is counted from.
    Near,
    /// Away from it.
    Far,
}

impl TakeUp {
    /// The edge that it is taken from; none of one inside the piece.
    pub fn edge(&self) -> Option<EdgeId> {
        match &self.form {
            TakeUpForm::Dart(dart) => match &dart.cloth {
                DartCloth::Taken { edge, .. } | DartCloth::Drawn { edge, .. } => Some(*edge),
                DartCloth::Inside { .. } => None,
            },
            TakeUpForm::Slit(slit) => Some(slit.edge),
        }
    }

    /// Every expression that it is given by.
    pub fn expressions(&self) -> Vec<&Expression> {
        match &self.form {
            TakeUpForm::Dart(dart) => {
                let mut all = match &dart.cloth {
                    DartCloth::Taken { place, width, to, .. } => {
                        place.expression().into_iter().chain([width, to]).collect()
                    }
                    DartCloth::Drawn { to, .. } => vec![to],
                    DartCloth::Inside { at, width, ends: [up, down] } => vec![at, width, up, down],
                };
                all.extend(&dart.stopping);
                all
            }
            TakeUpForm::Slit(slit) => {
                let (SlitEnd::Up(_, end) | SlitEnd::Right(_, end) | SlitEnd::To(end)) = &slit.end;
                slit.place.expression().into_iter().chain([end]).chain(&slit.window).collect()
            }
        }
    }

    /// The points that it is placed by, besides what its expressions look at.
    pub fn points(&self) -> Vec<PointId> {
        let pressed = match &self.form {
            TakeUpForm::Dart(Dart { pressed: Some(Pressed { to: PressedTo::Point(point), .. }), .. }) => {
                Some(*point)
            }
            _ => None,
        };
        self.place().and_then(EdgePlace::point).into_iter().chain(pressed).collect()
    }

    /// Whether its edge is drawn anew with it shut.
    pub fn trues(&self) -> bool {
        matches!(&self.form, TakeUpForm::Dart(dart) if dart.trued)
    }

    /// The take-up of whose side its own place is counted.
    pub fn counted_from(&self) -> Option<EdgeId> {
        match self.place()?.at {
            PlaceAt::From(_, CountedFrom::Side(of, _)) => Some(of),
            _ => None,
        }
    }

    /// Where on its edge it is; none of what is drawn in the outline, or lies inside the piece.
    fn place(&self) -> Option<&EdgePlace> {
        match &self.form {
            TakeUpForm::Dart(Dart { cloth: DartCloth::Taken { place, .. }, .. })
            | TakeUpForm::Slit(Slit { place, .. }) => Some(place),
            TakeUpForm::Dart(_) => None,
        }
    }
}

impl EdgePlace {
    /// The point that it is, or is counted from.
    pub fn point(&self) -> Option<PointId> {
        match self.at {
            PlaceAt::Point(point) | PlaceAt::From(_, CountedFrom::Point(point)) => Some(point),
            PlaceAt::From(..) | PlaceAt::Share(_) | PlaceAt::Middle => None,
        }
    }

    /// The expression in it.
    pub fn expression(&self) -> Option<&Expression> {
        match &self.at {
            PlaceAt::From(value, _) | PlaceAt::Share(value) => Some(value),
            PlaceAt::Middle | PlaceAt::Point(_) => None,
        }
    }
}
