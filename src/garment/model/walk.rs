//! The one walk over everything that a piece's drawing and its expressions are made of. No walk
//! recurses: sums and products have any number of terms, and brackets nest as deep as is allowed.

use super::{
    Direction, Drawing, EdgeId, EdgePath, EdgeUse, Expression, Geometry, LineRun, Node, Outline, PaperUse,
    PointUse, ValueId, ValueKind, WalkEdge,
};
use crate::source::Span;
use smallvec::{SmallVec, smallvec};

/// What an expression looks at.
#[derive(Clone, Copy, Debug)]
pub enum Used<'e> {
    /// A named value.
    Value(ValueId),
    /// A point of a piece.
    Point(&'e PointUse),
    /// An edge or line of a piece.
    Edge(&'e EdgeUse),
    /// A piece as a whole: its width, its height.
    Paper(&'e PaperUse),
}

/// An expression and all that are in it, each before those that it is made of, left to right.
#[derive(Debug)]
pub struct Walk<'e> {
    open: SmallVec<[&'e Expression; 8]>,
}

impl<'e> Iterator for Walk<'e> {
    type Item = &'e Expression;

    fn next(&mut self) -> Option<&'e Expression> {
        let expression = self.open.pop()?;
        let from = self.open.len();
        match &expression.node {
            Node::Poison | Node::Constant(_) | Node::Value(_) | Node::Point(_) => return Some(expression),
            Node::EachSize(values) | Node::Call(_, values) => self.open.extend(values),
            Node::Sum(terms) | Node::Product(terms) => {
                self.open.extend(terms.iter().map(|(_, term)| term));
            }
            Node::Negative(inner) => self.open.push(inner),
            Node::Pair(pair) => self.open.extend([&pair.0, &pair.1]),
            Node::Geometry(geometry) => match &**geometry {
                Geometry::X(point) | Geometry::Y(point) => self.open.push(point),
                Geometry::Distance(from, to) => self.open.extend([from, to]),
                Geometry::Length(_)
                | Geometry::Finished(_)
                | Geometry::Total(_)
                | Geometry::Width(_)
                | Geometry::Height(_) => {}
            },
        }
        if let Some(added) = self.open.get_mut(from..) {
            added.reverse();
        }
        Some(expression)
    }
}

impl Expression {
    /// The expression and all that are in it, each before those that it is made of, left to right.
    pub fn walk(&self) -> Walk<'_> {
        Walk { open: smallvec![self] }
    }

    /// Everything that it looks at, left to right.
    pub fn uses(&self) -> impl Iterator<Item = Used<'_>> {
        self.walk().flat_map(|expression| {
            let (one, all) = expression.own_uses();
            one.into_iter().chain(all.iter().map(|(_, used)| Used::Edge(used)))
        })
    }

    /// What it looks at itself, and not what it is made of: one, or the edges of a total.
    fn own_uses(&self) -> (Option<Used<'_>>, &[(bool, EdgeUse)]) {
        let one = match &self.node {
            Node::Value(value) => Used::Value(*value),
            Node::Point(used) => Used::Point(used),
            Node::Geometry(geometry) => match &**geometry {
                Geometry::Length(used) | Geometry::Finished(used) => Used::Edge(used),
                Geometry::Width(used) | Geometry::Height(used) => Used::Paper(used),
                Geometry::Total(uses) => return (None, uses),
                Geometry::X(_) | Geometry::Y(_) | Geometry::Distance(..) => return (None, &[]),
            },
            Node::Poison
            | Node::Constant(_)
            | Node::EachSize(_)
            | Node::Sum(_)
            | Node::Product(_)
            | Node::Negative(_)
            | Node::Call(..)
            | Node::Pair(_) => return (None, &[]),
        };
        (Some(one), &[])
    }

    /// Whether it could not be made sense of, which was reported.
    pub fn is_poison(&self) -> bool {
        matches!(self.node, Node::Poison)
    }
}

impl ValueKind {
    /// What it is worked out from.
    pub fn expressions(&self) -> SmallVec<[&Expression; 4]> {
        match self {
            ValueKind::Body(value) | ValueKind::Let(value) | ValueKind::Measure { value, .. } => {
                smallvec![value]
            }
            ValueKind::Solved { low, high, left, right, .. } => smallvec![low, high, left, right],
        }
    }
}

/// What an edge's way hangs on, in the order written.
#[derive(Clone, Copy, Debug)]
pub enum Guide<'e> {
    /// A point or an angle.
    Expression(&'e Expression),
    /// Another edge, whose direction it takes.
    Edge(EdgeId),
}

impl EdgePath {
    /// What it hangs on, besides its corners.
    pub fn guides(&self) -> SmallVec<[Guide<'_>; 4]> {
        match self {
            EdgePath::Straight => SmallVec::new(),
            EdgePath::Curve { leaving, arriving, through, .. } => {
                let directions = [leaving, arriving].into_iter().flatten().map(|direction| match direction {
                    Direction::Angle(expression) | Direction::Toward(expression) => {
                        Guide::Expression(expression)
                    }
                    Direction::SquareTo(edge, _) | Direction::Along(edge, _) => Guide::Edge(*edge),
                });
                directions.chain(through.iter().map(Guide::Expression)).collect()
            }
            EdgePath::Handles { first, second, .. } => {
                smallvec![Guide::Expression(first), Guide::Expression(second)]
            }
            EdgePath::Arc { about, .. } => smallvec![Guide::Expression(about)],
        }
    }

    /// The expressions that it hangs on.
    pub fn expressions(&self) -> impl Iterator<Item = &Expression> {
        self.guides().into_iter().filter_map(|guide| match guide {
            Guide::Expression(expression) => Some(expression),
            Guide::Edge(_) => None,
        })
    }
}

impl LineRun {
    /// The points that it runs through.
    pub fn expressions(&self) -> SmallVec<[&Expression; 4]> {
        match self {
            LineRun::Across(at) | LineRun::Along(at) => smallvec![at],
            LineRun::FromTo(from, to) => smallvec![from, to],
            LineRun::Way(from, to, path) => [from, to].into_iter().chain(path.expressions()).collect(),
        }
    }

    /// The edges and lines whose direction it takes.
    pub fn edges(&self) -> Vec<EdgeId> {
        let LineRun::Way(_, _, path) = self else { return Vec::new() };
        let guides = path.guides().into_iter();
        guides
            .filter_map(|guide| match guide {
                Guide::Edge(edge) => Some(edge),
                Guide::Expression(_) => None,
            })
            .collect()
    }
}

impl Outline {
    /// The edges of an outline that is walked round; of any other none.
    pub fn edges(&self) -> &[WalkEdge] {
        match self {
            Outline::Walk { edges, .. } => edges,
            Outline::None
            | Outline::Rectangle { .. }
            | Outline::Strip { .. }
            | Outline::Copy { .. }
            | Outline::Rest { .. } => &[],
        }
    }

    /// The piece that it is made of, as that is after its alterations, if it is.
    pub fn made_of(&self) -> Option<&PaperUse> {
        match self {
            Outline::Strip { of, .. } | Outline::Copy { of, .. } | Outline::Rest { of, .. } => Some(of),
            Outline::None | Outline::Walk { .. } | Outline::Rectangle { .. } => None,
        }
    }

    /// Whether it is turned over, left to right, from the piece that it is made of.
    pub fn is_mirrored(&self) -> bool {
        match self {
            Outline::Strip { mirrored, .. }
            | Outline::Copy { mirrored, .. }
            | Outline::Rest { mirrored, .. } => *mirrored,
            Outline::None | Outline::Walk { .. } | Outline::Rectangle { .. } => false,
        }
    }

    /// The measures that it is given by, besides its edges.
    pub fn measures(&self) -> Vec<&Expression> {
        match self {
            Outline::Rectangle { width, height, .. } => vec![width, height],
            Outline::Strip { width, runs, .. } => {
                let amounts = runs.iter().flat_map(|run| run.from.iter().chain([&run.to]));
                amounts.chain([width]).collect()
            }
            Outline::Rest { width, .. } => vec![width],
            Outline::Walk { cutting: Some(widths), .. } => {
                widths.iter().flat_map(|width| &width.said).collect()
            }
            Outline::None | Outline::Walk { cutting: None, .. } | Outline::Copy { .. } => Vec::new(),
        }
    }

    /// Where it is said.
    pub fn span(&self) -> Option<Span> {
        match self {
            Outline::None => None,
            Outline::Walk { span, .. }
            | Outline::Rectangle { span, .. }
            | Outline::Strip { span, .. }
            | Outline::Copy { span, .. }
            | Outline::Rest { span, .. } => Some(*span),
        }
    }
}

impl Drawing {
    /// Every expression of the drawing.
    pub fn expressions(&self) -> impl Iterator<Item = &Expression> {
        let spots = self.spots.iter().map(|spot| &spot.at);
        let moves = self.moves.iter().map(|moved| &moved.by);
        let divides = self.divides.iter().filter_map(|divide| divide.place.expression());
        let notches = self.notches.iter().filter_map(|notch| notch.place.expression());
        let lines = self.lines.iter().flat_map(|line| line.run.expressions());
        let edges = self
            .outline
            .edges()
            .iter()
            .flat_map(|edge| edge.runs())
            .flat_map(|(_, path, _)| path.expressions());
        let outline = self.outline.measures().into_iter().chain(edges);
        let take_ups = self.take_ups.iter().flat_map(|take_up| take_up.expressions());
        spots.chain(moves).chain(divides).chain(notches).chain(lines).chain(outline).chain(take_ups)
    }
}
