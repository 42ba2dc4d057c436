//! In which order a piece is drawn: every point and edge after what it needs.

use super::Lowering;
use crate::garment::order::{Order, order_by_need};
use crate::garment::{
    Direction, DrawStep, Drawing, EdgeId, EdgePath, Expression, Geometry, LineRun, Moment, Node, Outline,
    PieceId, PointId,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::HashMap;

/// What draws each point and edge of a piece.
struct Makers {
    points: HashMap<PointId, DrawStep>,
    edges: HashMap<EdgeId, DrawStep>,
}

impl Lowering<'_> {
    /// The order, or nothing where there is a circle, which is told.
    pub(super) fn drawing_order(&self, piece: PieceId, drawing: &Drawing) -> Vec<DrawStep> {
        let makers = makers(drawing);
        let mut steps: Vec<DrawStep> = Vec::new();
        steps.extend((0..drawing.spots.len()).map(DrawStep::Spot));
        if let Outline::Walk { edges, .. } = &drawing.outline {
            steps.extend((0..edges.len()).map(DrawStep::Edge));
        }
        steps.push(DrawStep::Outline);
        steps.extend((0..drawing.lines.len()).map(DrawStep::Line));
        let place: HashMap<DrawStep, usize> =
            steps.iter().enumerate().map(|(at, &step)| (step, at)).collect();
        let needs: Vec<Vec<usize>> = steps
            .iter()
            .map(|&step| {
                needs_of(step, drawing, &makers).iter().filter_map(|need| place.get(need).copied()).collect()
            })
            .collect();

        let Order { order, circles } = order_by_need(&needs);
        if let Some(circle) = circles.first() {
            let circle: Vec<DrawStep> = circle.iter().map(|&at| steps[at]).collect();
            self.report_drawing_circle(piece, drawing, &circle);
            return Vec::new();
        }
        order.into_iter().map(|at| steps[at]).collect()
    }

    fn report_drawing_circle(&self, piece: PieceId, drawing: &Drawing, circle: &[DrawStep]) {
        let named: Vec<(String, Span)> =
            circle.iter().map(|&step| self.step_name(piece, drawing, step)).collect();
        let Some((first, span)) = named.first().cloned() else { return };
        let words: Vec<&str> = named.iter().map(|(name, _)| name.as_str()).collect();
        let title = match named.len() {
            1 => format!("{first} is said by itself"),
            _ => format!("{first} hangs on itself: {} → {first}", words.join(" → ")),
        };
        let mut diagnostic =
            Diagnostic::new(&catalogue::NAME_CIRCLE, span, title).label("the circle starts here");
        for (_, span) in named.iter().skip(1) {
            diagnostic = diagnostic.also(*span, "and goes through here");
        }
        self.report(diagnostic.help("say one of them without the others: as a point, an angle or a length"));
    }

    fn step_name(&self, piece: PieceId, drawing: &Drawing, step: DrawStep) -> (String, Span) {
        let nameless = || (self.garment.piece(piece).name.to_string(), self.garment.piece(piece).span);
        match step {
            DrawStep::Spot(at) => drawing.spots.get(at).map_or_else(nameless, |spot| {
                let point = self.garment.point(spot.point);
                (point.name.to_string(), point.span)
            }),
            DrawStep::Edge(at) => match &drawing.outline {
                Outline::Walk { edges, .. } => edges
                    .get(at)
                    .map_or_else(nameless, |edge| (self.garment.edge(edge.edge).name.to_string(), edge.span)),
                _ => nameless(),
            },
            DrawStep::Outline => ("the outline".to_owned(), self.garment.piece(piece).span),
            DrawStep::Line(at) => drawing
                .lines
                .get(at)
                .map_or_else(nameless, |line| (self.garment.edge(line.edge).name.to_string(), line.span)),
        }
    }
}

fn makers(drawing: &Drawing) -> Makers {
    let mut makers = Makers { points: HashMap::new(), edges: HashMap::new() };
    for (at, spot) in drawing.spots.iter().enumerate() {
        makers.points.insert(spot.point, DrawStep::Spot(at));
    }
    if let Outline::Walk { edges, .. } = &drawing.outline {
        for (at, edge) in edges.iter().enumerate() {
            makers.edges.insert(edge.edge, DrawStep::Edge(at));
        }
    }
    for (at, line) in drawing.lines.iter().enumerate() {
        makers.edges.insert(line.edge, DrawStep::Line(at));
    }
    makers
}

/// What a step needs. Points and edges that nothing of the drawing makes by themselves (corners
/// of a rectangle, everything copied, divided edges) are there once the outline is.
fn needs_of(step: DrawStep, drawing: &Drawing, makers: &Makers) -> Vec<DrawStep> {
    let mut needs = Vec::new();
    let point = |point: PointId| makers.points.get(&point).copied().unwrap_or(DrawStep::Outline);
    match step {
        DrawStep::Spot(at) => {
            if let Some(spot) = drawing.spots.get(at) {
                own_needs(&spot.at, makers, &mut needs);
            }
        }
        DrawStep::Edge(at) => {
            if let Outline::Walk { edges, .. } = &drawing.outline
                && let Some(edge) = edges.get(at)
            {
                needs.extend([point(edge.from), point(edge.to)]);
                path_needs(&edge.path, makers, &mut needs);
            }
        }
        DrawStep::Outline => {
            if let Outline::Walk { edges, .. } = &drawing.outline {
                needs.extend((0..edges.len()).map(DrawStep::Edge));
            }
            if let Outline::Rectangle { width, height, .. } = &drawing.outline {
                own_needs(width, makers, &mut needs);
                own_needs(height, makers, &mut needs);
            }
            for moved in &drawing.moves {
                own_needs(&moved.by, makers, &mut needs);
            }
            for divide in &drawing.divides {
                own_needs(&divide.distance, makers, &mut needs);
            }
        }
        DrawStep::Line(at) => {
            needs.push(DrawStep::Outline);
            match drawing.lines.get(at).map(|line| &line.run) {
                Some(LineRun::Across(at) | LineRun::Along(at)) => own_needs(at, makers, &mut needs),
                Some(LineRun::FromTo(from, to)) => {
                    own_needs(from, makers, &mut needs);
                    own_needs(to, makers, &mut needs);
                }
                None => {}
            }
        }
    }
    needs
}

fn path_needs(path: &EdgePath, makers: &Makers, needs: &mut Vec<DrawStep>) {
    match path {
        EdgePath::Straight => {}
        EdgePath::Curve { leaving, arriving, through, .. } => {
            for direction in [leaving, arriving].into_iter().flatten() {
                match direction {
                    Direction::Angle(expression) | Direction::Toward(expression) => {
                        own_needs(expression, makers, needs);
                    }
                    Direction::SquareTo(edge, _) | Direction::Along(edge, _) => {
                        needs.push(makers.edges.get(edge).copied().unwrap_or(DrawStep::Outline));
                    }
                }
            }
            for point in through {
                own_needs(point, makers, needs);
            }
        }
        EdgePath::Arc { about, .. } => own_needs(about, makers, needs),
    }
}

/// What an expression needs of the piece's own drawing.
fn own_needs(expression: &Expression, makers: &Makers, needs: &mut Vec<DrawStep>) {
    let edge = |edge: EdgeId| makers.edges.get(&edge).copied().unwrap_or(DrawStep::Outline);
    match &expression.node {
        Node::Poison | Node::Constant(_) | Node::Value(_) => {}
        Node::EachSize(values) | Node::Call(_, values) => {
            values.iter().for_each(|value| own_needs(value, makers, needs));
        }
        Node::Sum(terms) | Node::Product(terms) => {
            terms.iter().for_each(|(_, term)| own_needs(term, makers, needs));
        }
        Node::Negative(inner) => own_needs(inner, makers, needs),
        Node::Pair(pair) => {
            own_needs(&pair.0, makers, needs);
            own_needs(&pair.1, makers, needs);
        }
        Node::Point(used) => {
            if used.paper.moment == Moment::Own {
                needs.push(makers.points.get(&used.point).copied().unwrap_or(DrawStep::Outline));
            }
        }
        Node::Geometry(geometry) => match &**geometry {
            Geometry::Length(used) | Geometry::Finished(used) => {
                if used.paper.moment == Moment::Own {
                    needs.push(edge(used.edge));
                }
            }
            Geometry::Total(uses) => {
                let own = uses.iter().filter(|(_, used)| used.paper.moment == Moment::Own);
                needs.extend(own.map(|(_, used)| edge(used.edge)));
            }
            Geometry::Width(paper) | Geometry::Height(paper) => {
                if paper.moment == Moment::Own {
                    needs.push(DrawStep::Outline);
                }
            }
            Geometry::X(point) | Geometry::Y(point) => own_needs(point, makers, needs),
            Geometry::Distance(from, to) => {
                own_needs(from, makers, needs);
                own_needs(to, makers, needs);
            }
        },
    }
}
