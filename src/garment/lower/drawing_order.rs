//! In which order a piece is drawn: every point and edge after what it needs.

use super::Lowering;
use crate::garment::circle::{row, through};
use crate::garment::order::{Order, order_by_need};
use crate::garment::{
    DrawStep, Drawing, EdgeId, Expression, Geometry, Guide, Moment, PieceId, PointId, Used,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::HashMap;

/// What draws each point and edge of a piece.
struct Makers {
    points: HashMap<PointId, DrawStep>,
    edges: HashMap<EdgeId, DrawStep>,
}

impl Makers {
    fn point(&self, point: PointId) -> DrawStep {
        self.points.get(&point).copied().unwrap_or(DrawStep::Outline)
    }

    fn edge(&self, edge: EdgeId) -> DrawStep {
        self.edges.get(&edge).copied().unwrap_or(DrawStep::Outline)
    }
}

impl Lowering<'_> {
    /// The order, or nothing where there is a circle, which is reported.
    pub(super) fn drawing_order(&self, piece: PieceId, drawing: &Drawing) -> Vec<DrawStep> {
        let makers = makers(drawing);
        let mut steps: Vec<DrawStep> = Vec::new();
        steps.extend((0..drawing.spots.len()).map(DrawStep::Spot));
        steps.extend((0..drawing.outline.edges().len()).map(DrawStep::Edge));
        steps.push(DrawStep::Outline);
        steps.extend((0..drawing.lines.len()).map(DrawStep::Line));
        if !drawing.take_ups.is_empty() {
            steps.push(DrawStep::TakeUps);
        }
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
        let title = match named.len() {
            1 => format!("{first} is defined by itself"),
            _ => format!("{first} depends on itself: {} → {first}", row(&named)),
        };
        let diagnostic =
            Diagnostic::new(&catalogue::NAME_CIRCLE, span, title).label("the circle starts here");
        self.report(
            through(diagnostic, &named)
                .help("define one of them without the others: as a point, an angle or a length"),
        );
    }

    fn step_name(&self, piece: PieceId, drawing: &Drawing, step: DrawStep) -> (String, Span) {
        let nameless = || (self.garment.piece(piece).name.to_string(), self.garment.piece(piece).span);
        match step {
            DrawStep::Spot(at) => drawing.spots.get(at).map_or_else(nameless, |spot| {
                let point = self.garment.point(spot.point);
                (point.name.to_string(), point.span)
            }),
            DrawStep::Edge(at) => drawing
                .outline
                .edges()
                .get(at)
                .map_or_else(nameless, |edge| (self.garment.edge(edge.edge).name.to_string(), edge.span)),
            DrawStep::Outline => ("the outline".to_owned(), self.garment.piece(piece).span),
            DrawStep::TakeUps => drawing.take_ups.first().map_or_else(nameless, |take_up| {
                (self.garment.edge(take_up.name).name.to_string(), take_up.span)
            }),
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
    for (at, edge) in drawing.outline.edges().iter().enumerate() {
        makers.edges.insert(edge.edge, DrawStep::Edge(at));
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
    let own_needs = |expression: &Expression, makers: &Makers, needs: &mut Vec<DrawStep>| {
        own_needs(expression, makers, needs);
        // What is as sewn waits for what is taken out; a trued edge is another one after that. The darts
        // themselves are measured off the edge as it is without them.
        let sewn = expression.walk().any(|part| looks_at_sewn(part, drawing, step == DrawStep::TakeUps));
        if sewn {
            needs.push(DrawStep::TakeUps);
        }
    };
    match step {
        DrawStep::Spot(at) => {
            if let Some(spot) = drawing.spots.get(at) {
                own_needs(&spot.at, makers, &mut needs);
            }
        }
        DrawStep::Edge(at) => {
            if let Some(edge) = drawing.outline.edges().get(at) {
                for (from, path, to) in edge.runs() {
                    needs.extend([makers.point(from), makers.point(to)]);
                    for guide in path.guides() {
                        match guide {
                            Guide::Expression(expression) => own_needs(expression, makers, &mut needs),
                            Guide::Edge(edge) => needs.push(makers.edge(edge)),
                        }
                    }
                }
            }
        }
        DrawStep::Outline => {
            needs.extend((0..drawing.outline.edges().len()).map(DrawStep::Edge));
            let moves = drawing.moves.iter().map(|moved| &moved.by);
            let points = drawing.divides.iter().filter_map(|divide| divide.place.point());
            needs.extend(points.map(|point| makers.point(point)).filter(|need| *need != DrawStep::Outline));
            let divides = drawing.divides.iter().filter_map(|divide| divide.place.expression());
            for expression in drawing.outline.measures().into_iter().chain(moves).chain(divides) {
                own_needs(expression, makers, &mut needs);
            }
        }
        DrawStep::Line(at) => {
            needs.push(DrawStep::Outline);
            for expression in drawing.lines.get(at).into_iter().flat_map(|line| line.run.expressions()) {
                own_needs(expression, makers, &mut needs);
            }
            let edges = drawing.lines.get(at).map(|line| line.run.edges()).unwrap_or_default();
            needs.extend(edges.into_iter().map(|edge| makers.edge(edge)));
        }
        DrawStep::TakeUps => {
            needs.push(DrawStep::Outline);
            needs.extend((0..drawing.lines.len()).map(DrawStep::Line));
            needs.extend((0..drawing.spots.len()).map(DrawStep::Spot).filter(|spot| {
                drawing
                    .take_ups
                    .iter()
                    .any(|one| one.points().iter().any(|&point| makers.point(point) == *spot))
            }));
            for expression in drawing.take_ups.iter().flat_map(|take_up| take_up.expressions()) {
                own_needs(expression, makers, &mut needs);
            }
        }
    }
    needs
}

/// Whether it measures an edge of the piece's own drawing as it is only once darts are taken from it.
fn looks_at_sewn(expression: &Expression, drawing: &Drawing, in_take_up: bool) -> bool {
    let crate::garment::Node::Geometry(geometry) = &expression.node else { return false };
    let own = |used: &crate::garment::EdgeUse, trued_only: bool| {
        used.paper.moment == Moment::Own
            && drawing
                .take_ups
                .iter()
                .any(|take_up| take_up.takes_from(used.edge) && (take_up.trues() || !trued_only))
    };
    match &**geometry {
        Geometry::Length(used) => !in_take_up && own(used, true),
        Geometry::Finished(used) => own(used, false),
        Geometry::Total(uses) => uses.iter().any(|(_, used)| own(used, false)),
        _ => false,
    }
}

/// What an expression needs of the piece's own drawing.
fn own_needs(expression: &Expression, makers: &Makers, needs: &mut Vec<DrawStep>) {
    for used in expression.uses() {
        match used {
            Used::Point(used) if used.paper.moment == Moment::Own => needs.push(makers.point(used.point)),
            Used::Edge(used) if used.paper.moment == Moment::Own => needs.push(makers.edge(used.edge)),
            Used::Paper(paper) if paper.moment == Moment::Own => needs.push(DrawStep::Outline),
            Used::Value(_) | Used::Point(_) | Used::Edge(_) | Used::Paper(_) => {}
        }
    }
}
