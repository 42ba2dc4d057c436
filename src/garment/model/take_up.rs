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
    /// Cut into the cloth, from an edge or inside the piece.
    Slit(Slit),
    /// Folded along lines that run side by side.
    Pleat(Box<Pleat>),
}

/// A slit. Its sides are edges of the piece once it is cut: [`super::EdgeName::side_of`] names it.
#[derive(Clone, Debug)]
pub struct Slit {
    /// Where it is cut.
    pub cut: SlitCut,
    /// How wide a strip is lost between its sides; none: they lie on one another.
    pub window: Option<Expression>,
}

/// Where a slit is cut.
#[derive(Clone, Debug)]
pub enum SlitCut {
    /// From an edge into the cloth.
    FromEdge {
        /// The edge.
        edge: EdgeId,
        /// Where the middle of its mouth is.
        place: EdgePlace,
        /// How far it is cut.
        end: SlitEnd,
        /// In the middle of what is cut on the fold: each half has one side of it.
        at_fold: bool,
    },
    /// Inside the piece, from one place to another.
    Inside([Expression; 2]),
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

/// A pleat or tuck, or a row of them.
#[derive(Clone, Debug)]
pub struct Pleat {
    /// The edge that its cloth is taken from.
    pub edge: EdgeId,
    /// Where it is: of one that leads one way its nearer line, of the others the middle; where nothing is
    /// counted from, the middle of all.
    pub place: PleatPlace,
    /// How much cloth lies under each fold, once.
    pub depth: Expression,
    /// How its folds lie to one another.
    pub kind: PleatKind,
    /// How many there are, and how far it is from fold to fold (of others than knife pleats from middle to
    /// middle) as sewn.
    pub row: Option<(Expression, Expression)>,
    /// Where to a knife pleat's fold is laid.
    pub toward: Option<Pressed>,
    /// The edge that a tuck runs to; none of a pleat.
    pub to: Option<EdgeId>,
    /// How far from the edge a pleat is sewn shut.
    pub stitched: Option<Expression>,
    /// The edge or line that its folds run along, and where it is said.
    pub along: Option<(EdgeId, Span)>,
    /// With the pleats folded its edge is drawn as one smooth curve.
    pub trued: bool,
}

/// Where on an edge a pleat is.
#[derive(Clone, Debug)]
pub enum PleatPlace {
    /// In the middle of the piece of which a half is drawn.
    Fold,
    /// A place on the edge.
    On(EdgePlace),
}

/// How the folds of a pleat lie to one another.
#[derive(Clone, Debug)]
pub enum PleatKind {
    /// One fold.
    Knife,
    /// Two folds that lead away from each other, and how far apart they are; none: twice the depth.
    Box(Option<Expression>),
    /// Two folds that lead towards each other, and how wide the cloth between them is underneath; none: twice
    /// the depth, so that they meet.
    Inverted(Option<Expression>),
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
            TakeUpForm::Slit(slit) => match &slit.cut {
                SlitCut::FromEdge { edge, .. } => Some(*edge),
                SlitCut::Inside(_) => None,
            },
            TakeUpForm::Pleat(pleat) => Some(pleat.edge),
        }
    }

    /// Whether something is taken from that edge.
    pub fn takes_from(&self, edge: EdgeId) -> bool {
        match &self.form {
            TakeUpForm::Slit(Slit { cut: SlitCut::Inside(_), .. }) => false,
            TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => self.edge().is_none_or(|own| own == edge),
            // What is sewn shut in the middle of a piece may take from every edge and line.
            TakeUpForm::Pleat(pleat) => pleat.edge == edge || pleat.to.is_some() || pleat.stitched.is_some(),
        }
    }

    /// What it is called: dart, pleat, tuck.
    pub fn word(&self) -> &'static str {
        match &self.form {
            TakeUpForm::Dart(_) => "dart",
            TakeUpForm::Slit(_) => "slit",
            TakeUpForm::Pleat(pleat) => {
                if pleat.to.is_some() {
                    "tuck"
                } else {
                    "pleat"
                }
            }
        }
    }

    /// Whether it is held by the seam of its edge alone, and basted until then.
    pub fn hangs_open(&self) -> bool {
        match &self.form {
            TakeUpForm::Dart(_) | TakeUpForm::Slit(_) => false,
            TakeUpForm::Pleat(pleat) => pleat.to.is_none() && pleat.stitched.is_none(),
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
                let mut all: Vec<&Expression> = match &slit.cut {
                    SlitCut::FromEdge { place, end, .. } => {
                        let (SlitEnd::Up(_, end) | SlitEnd::Right(_, end) | SlitEnd::To(end)) = end;
                        place.expression().into_iter().chain([end]).collect()
                    }
                    SlitCut::Inside(places) => places.iter().collect(),
                };
                all.extend(&slit.window);
                all
            }
            TakeUpForm::Pleat(pleat) => {
                let mut all = vec![&pleat.depth];
                if let PleatPlace::On(place) = &pleat.place {
                    all.extend(place.expression());
                }
                if let PleatKind::Box(wide) | PleatKind::Inverted(wide) = &pleat.kind {
                    all.extend(wide);
                }
                all.extend(pleat.row.iter().flat_map(|(count, apart)| [count, apart]));
                all.extend(&pleat.stitched);
                all
            }
        }
    }

    /// Where on its edge it is; none of one that is placed otherwise.
    pub fn place(&self) -> Option<&EdgePlace> {
        match &self.form {
            TakeUpForm::Dart(Dart { cloth: DartCloth::Taken { place, .. }, .. }) => Some(place),
            TakeUpForm::Dart(_) => None,
            TakeUpForm::Slit(slit) => match &slit.cut {
                SlitCut::FromEdge { place, .. } => Some(place),
                SlitCut::Inside(_) => None,
            },
            TakeUpForm::Pleat(pleat) => match &pleat.place {
                PleatPlace::On(place) => Some(place),
                PleatPlace::Fold => None,
            },
        }
    }

    /// Which way it is said to be laid.
    pub fn pressed(&self) -> Option<&Pressed> {
        match &self.form {
            TakeUpForm::Dart(dart) => dart.pressed.as_ref(),
            TakeUpForm::Slit(_) => None,
            TakeUpForm::Pleat(pleat) => pleat.toward.as_ref(),
        }
    }

    /// The points that it is placed by, besides what its expressions look at.
    pub fn points(&self) -> Vec<PointId> {
        let pressed = self.pressed().and_then(|pressed| match pressed.to {
            PressedTo::Point(point) => Some(point),
            _ => None,
        });
        self.place().and_then(EdgePlace::point).into_iter().chain(pressed).collect()
    }

    /// Whether its edge is drawn anew with it shut.
    pub fn trues(&self) -> bool {
        match &self.form {
            TakeUpForm::Dart(dart) => dart.trued,
            TakeUpForm::Slit(_) => false,
            TakeUpForm::Pleat(pleat) => pleat.trued,
        }
    }

    /// The take-up of whose side its own place is counted.
    pub fn counted_from(&self) -> Option<EdgeId> {
        match self.place()?.at {
            PlaceAt::From(_, CountedFrom::Side(of, _)) => Some(of),
            _ => None,
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
