//! All that the drawing of a piece hangs on, as a question to what is remembered: of a piece that is drawn from values and
//! its own points alone. Of any other nothing is asked, and it is drawn.
//!
//! How it is drawn is asked once for all sizes, what its values come to in each.
//!
//! Every field is named, so that the compiler asks for a new one. Places of the text are not asked for: a piece of which
//! something is told is not remembered.

use super::model::Quantity;
use super::work::Work;
use crate::garment::{
    CountedFrom, Cut, CutHow, Direction, DrawStep, Drawing, EdgeId, EdgePath, EdgePlace, EdgeUse, Expression,
    Garment, Geometry, Grain, Line, LineRun, Moment, Node, Notch, Outline, PaperUse, Piece, PieceId, PlaceAt,
    PointId, PointUse, Spot, ValueId, WalkEdge,
};
use crate::kept::{Memo, Question, SizeMemory};
use crate::resolve::drawn_piece::DrawnPiece;
use std::sync::Arc;

/// How a piece is drawn whatever its values come to.
#[derive(Debug)]
pub(super) struct AskedDrawing {
    /// The same row of numbers for all pieces that are drawn the same way.
    way: Arc<[u64]>,
    /// The values that it is drawn from, in the order in which they are met.
    values: Vec<ValueId>,
}

impl AskedDrawing {
    /// What is asked of a piece; nothing where its drawing hangs on more.
    pub(super) fn of(garment: &Garment, id: PieceId, drawings: &Memo<()>) -> Option<AskedDrawing> {
        let mut asking = Asking { garment, values: Vec::new(), question: Question::default() };
        asking.piece(id, garment.piece(id))?;
        let Asking { values, question, .. } = asking;
        Some(AskedDrawing { way: drawings.one_of(&question), values })
    }

    /// The piece in a size, from memory or drawn; what is drawn is remembered where nothing was told of it.
    pub(super) fn drawn(
        &self,
        work: &Work,
        memory: &SizeMemory,
        draw: impl FnOnce() -> Option<Arc<DrawnPiece>>,
    ) -> Option<Arc<DrawnPiece>> {
        let mut question = Question::default();
        for value in &self.values {
            match work.values.get(value.index()).copied().flatten() {
                None => return draw(),
                Some(Quantity::Scalar(value)) => {
                    question.count(1);
                    question.number(value);
                }
                Some(Quantity::Point(place)) => {
                    question.count(2);
                    question.point(place);
                }
            }
        }
        memory.drawn.ask_unless_told(&self.way, question, || {
            let told = work.findings_count();
            (draw(), !work.is_told_of(told))
        })
    }
}

struct Asking<'a> {
    garment: &'a Garment,
    values: Vec<ValueId>,
    question: Question,
}

impl Asking<'_> {
    fn piece(&mut self, id: PieceId, piece: &Piece) -> Option<()> {
        let Piece { cut: Cut { count, how, .. }, drawing, edges, points, grain, .. } = piece;
        let Drawing { outline, order, spots, lines, moves, divides, notches, take_ups, left_out } = drawing;
        let is_plain = moves.is_empty() && divides.is_empty() && take_ups.is_empty() && left_out.is_empty();
        if !is_plain || self.garment.fitting.is_some() {
            return None;
        }
        self.question.count(id.index());
        self.question.count(edges.len());
        for &edge in edges {
            self.edge(edge);
            let own = self.garment.edge(edge);
            let runs = [own.side_of, own.same_run_as, own.part_of, own.copied_from];
            if own.portion.is_some() || own.take_up || runs.iter().any(Option::is_some) {
                return None;
            }
            self.question.is(own.line);
        }
        self.question.count(points.len());
        for &point in points {
            self.point(point);
            let own = self.garment.point(point);
            if own.same_as.is_some() || own.copied_from.is_some() {
                return None;
            }
            self.question.is(own.mark);
        }
        self.expression(count)?;
        match how {
            CutHow::Alike => self.question.count(0),
            CutHow::Mirrored => self.question.count(1),
            CutHow::OnFold(edge) => self.tagged(2, *edge),
        }
        match grain {
            Grain::Up => self.question.count(0),
            Grain::Across => self.question.count(1),
            Grain::Bias => self.question.count(2),
            Grain::Along(edge) => self.tagged(3, *edge),
        }
        self.order(order)?;
        self.outline(outline)?;
        self.each(spots, |asking, Spot { point, at }| {
            asking.point(*point);
            asking.expression(at)
        })?;
        self.each(lines, |asking, Line { edge, run, span: _ }| {
            asking.edge(*edge);
            asking.run(run)
        })?;
        self.each(notches, |asking, Notch { edge, place, double, span: _ }| {
            asking.edge(*edge);
            asking.question.is(*double);
            asking.place(place)
        })
    }

    fn each<T>(&mut self, all: &[T], ask: impl Fn(&mut Self, &T) -> Option<()>) -> Option<()> {
        self.question.count(all.len());
        all.iter().try_for_each(|one| ask(self, one))
    }

    fn tagged(&mut self, tag: usize, edge: EdgeId) {
        self.question.count(tag);
        self.edge(edge);
    }

    fn edge(&mut self, edge: EdgeId) {
        self.question.count(edge.index());
    }

    fn point(&mut self, point: PointId) {
        self.question.count(point.index());
    }

    fn order(&mut self, order: &[DrawStep]) -> Option<()> {
        self.each(order, |asking, step| {
            let (tag, at) = match *step {
                DrawStep::Spot(at) => (0, at),
                DrawStep::Edge(at) => (1, at),
                DrawStep::Outline => (2, 0),
                DrawStep::Line(at) => (3, at),
                DrawStep::TakeUps => (4, 0),
            };
            asking.question.count(tag);
            asking.question.count(at);
            Some(())
        })
    }

    fn outline(&mut self, outline: &Outline) -> Option<()> {
        match outline {
            Outline::Walk { edges, cutting: None, span: _ } => {
                self.question.count(0);
                self.each(edges, |asking, WalkEdge { edge, from, to, path, beyond_darts, span: _ }| {
                    asking.edge(*edge);
                    asking.point(*from);
                    asking.point(*to);
                    beyond_darts.is_empty().then_some(())?;
                    asking.path(path)
                })
            }
            Outline::Rectangle { width, height, edges, corners, span: _ } => {
                self.question.count(1);
                edges.iter().for_each(|&edge| self.edge(edge));
                corners.iter().for_each(|&corner| self.point(corner));
                self.expression(width)?;
                self.expression(height)
            }
            Outline::None
            | Outline::Walk { cutting: Some(_), .. }
            | Outline::Strip { .. }
            | Outline::Copy { .. }
            | Outline::Rest { .. } => None,
        }
    }

    fn path(&mut self, path: &EdgePath) -> Option<()> {
        match path {
            EdgePath::Straight => {
                self.question.count(0);
                Some(())
            }
            EdgePath::Curve { leaving, arriving, through, span: _ } => {
                self.question.count(1);
                self.direction(leaving.as_ref())?;
                self.direction(arriving.as_ref())?;
                self.each(through, |asking, place| asking.expression(place))
            }
            EdgePath::Handles { first, second, span: _ } => {
                self.question.count(2);
                self.expression(first)?;
                self.expression(second)
            }
            EdgePath::Arc { about, clockwise, span: _ } => {
                self.question.count(3);
                self.question.is(*clockwise);
                self.expression(about)
            }
        }
    }

    fn direction(&mut self, direction: Option<&Direction>) -> Option<()> {
        match direction {
            None => self.question.count(0),
            Some(Direction::Angle(angle)) => {
                self.question.count(1);
                self.expression(angle)?;
            }
            Some(Direction::SquareTo(edge, _)) => self.tagged(2, *edge),
            Some(Direction::Along(edge, _)) => self.tagged(3, *edge),
            Some(Direction::Toward(place)) => {
                self.question.count(4);
                self.expression(place)?;
            }
        }
        Some(())
    }

    fn run(&mut self, run: &LineRun) -> Option<()> {
        match run {
            LineRun::Across(at) => {
                self.question.count(0);
                self.expression(at)
            }
            LineRun::Along(at) => {
                self.question.count(1);
                self.expression(at)
            }
            LineRun::FromTo(from, to) => {
                self.question.count(2);
                self.expression(from)?;
                self.expression(to)
            }
            LineRun::Way(from, to, path) => {
                self.question.count(3);
                self.expression(from)?;
                self.expression(to)?;
                self.path(path)
            }
        }
    }

    fn place(&mut self, EdgePlace { at, span: _ }: &EdgePlace) -> Option<()> {
        match at {
            PlaceAt::Middle => {
                self.question.count(0);
                Some(())
            }
            PlaceAt::Point(point) => {
                self.question.count(1);
                self.point(*point);
                Some(())
            }
            PlaceAt::From(far, counted) => {
                self.question.count(2);
                match counted {
                    CountedFrom::Point(point) => {
                        self.question.count(0);
                        self.point(*point);
                    }
                    CountedFrom::Edge(edge) => self.tagged(1, *edge),
                    CountedFrom::Side(..) => return None,
                }
                self.expression(far)
            }
            PlaceAt::Share(share) => {
                self.question.count(3);
                self.expression(share)
            }
        }
    }

    fn expression(&mut self, Expression { node, dimension, span: _ }: &Expression) -> Option<()> {
        self.question.count(*dimension as usize);
        let (tag, inner) = match node {
            Node::Poison => return None,
            Node::Constant(value) => {
                self.question.count(0);
                self.question.number(*value);
                return Some(());
            }
            Node::EachSize(list) => {
                self.question.count(1);
                return self.each(list, |asking, one| asking.expression(one));
            }
            Node::Value(id) => {
                self.question.count(2);
                self.value(*id);
                return Some(());
            }
            Node::Sum(terms) => (3, terms),
            Node::Product(factors) => (4, factors),
            Node::Negative(inner) => {
                self.question.count(5);
                return self.expression(inner);
            }
            Node::Call(function, arguments) => {
                self.question.count(6);
                self.question.count(*function as usize);
                return self.each(arguments, |asking, one| asking.expression(one));
            }
            Node::Pair(pair) => {
                self.question.count(7);
                self.expression(&pair.0)?;
                return self.expression(&pair.1);
            }
            Node::Point(own) => {
                self.question.count(8);
                return self.own_point(own);
            }
            Node::Geometry(geometry) => {
                self.question.count(9);
                return self.geometry(geometry);
            }
        };
        self.question.count(tag);
        self.each(inner, |asking, (with, one)| {
            asking.question.is(*with);
            asking.expression(one)
        })
    }

    /// Which of the values it is, and not what it is called or where it stands among all.
    fn value(&mut self, id: ValueId) {
        let known = self.values.iter().position(|own| *own == id);
        self.question.count(known.unwrap_or(self.values.len()));
        if known.is_none() {
            self.values.push(id);
        }
    }

    fn own_point(&mut self, PointUse { point, paper }: &PointUse) -> Option<()> {
        self.own_paper(paper)?;
        self.point(*point);
        Some(())
    }

    fn own_paper(&mut self, PaperUse { paper, moment, span: _ }: &PaperUse) -> Option<()> {
        self.question.count(paper.index());
        (*moment == Moment::Own).then_some(())
    }

    fn geometry(&mut self, geometry: &Geometry) -> Option<()> {
        match geometry {
            Geometry::Length(EdgeUse { edge, paper }) => {
                self.tagged(0, *edge);
                self.own_paper(paper)
            }
            Geometry::X(place) => {
                self.question.count(1);
                self.expression(place)
            }
            Geometry::Y(place) => {
                self.question.count(2);
                self.expression(place)
            }
            Geometry::Distance(from, to) => {
                self.question.count(3);
                self.expression(from)?;
                self.expression(to)
            }
            Geometry::Finished(_) | Geometry::Total(_) | Geometry::Width(_) | Geometry::Height(_) => None,
        }
    }
}
