//! Calls: functions of numbers, and what is measured on pieces.

use super::expression::{Place, Typed, Wanted, function, is_poison, known, poison_of};
use super::papers::When;
use super::{Lowering, NamedPiece};
use crate::garment::{Dimension, EdgeUse, Expression, Function, Geometry, Node, PaperUse, PieceId, Symbol};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{Call, Expr, ExprKind, Sign};

const FUNCTIONS: [&str; 17] = [
    "min", "max", "abs", "sqrt", "round", "sin", "cos", "tan", "atan2", "length", "finished", "total",
    "width", "height", "x", "y", "distance",
];

impl Lowering<'_> {
    pub(super) fn call(&self, call: &Call, span: Span, place: Place) -> Typed {
        if let Some(function) = function(&call.function.text) {
            return self.number_call(function, call, span, place);
        }
        let arguments = call.arguments.as_slice();
        let geometry = match (&*call.function.text, arguments) {
            ("length", [edge]) => match self.dart_measured(edge, place) {
                Some(dart) => dart.map(Geometry::Length),
                None => self.edge_use(edge, place).map(Geometry::Length),
            },
            ("finished", [edge]) => self.edge_use(edge, place).map(Geometry::Finished),
            ("total", [edges]) => self.total(edges, place).map(Geometry::Total),
            ("width", [piece]) => self.paper_argument(piece, place).map(Geometry::Width),
            ("height", [piece]) => self.paper_argument(piece, place).map(Geometry::Height),
            ("x", [point]) => self.point_argument(point, place).map(Geometry::X),
            ("y", [point]) => self.point_argument(point, place).map(Geometry::Y),
            ("distance", [from, to]) => {
                let (from, to) = (self.point_argument(from, place), self.point_argument(to, place));
                from.zip(to).map(|(from, to)| Geometry::Distance(from, to))
            }
            (name, _) if FUNCTIONS.contains(&name) => {
                self.report_arguments(call, span);
                None
            }
            (name, _) => {
                let title = format!("there is no function called {name}");
                let diagnostic = Diagnostic::new(&catalogue::NAME_UNKNOWN, call.function.span, title)
                    .label("no such function");
                self.report(match nearest(name, FUNCTIONS) {
                    Some(near) => diagnostic.did_you_mean(call.function.span, near),
                    None => diagnostic.help(format!("there are: {}", FUNCTIONS.join(", "))),
                });
                None
            }
        };
        known(match geometry {
            Some(geometry) => {
                Expression { node: Node::Geometry(Box::new(geometry)), dimension: Dimension::Length, span }
            }
            None => poison_of(Dimension::Length, span),
        })
    }

    fn report_arguments(&self, call: &Call, span: Span) {
        let name = &*call.function.text;
        let form = match name {
            "min" | "max" => "two values or more",
            "round" => "a value and the step to round to: round(v, 5mm)",
            "atan2" => "the way up and the way right: atan2(up, right)",
            "distance" => "two points: distance(front.tip, front.underarm)",
            "total" => "edges added up: total(front.hem + back.hem)",
            "length" | "finished" => "one edge: length(front.side)",
            "width" | "height" => "one piece: width(front)",
            "x" | "y" => "one point: x(front.tip)",
            _ => "one value",
        };
        let (wants, example) = form.split_once(": ").unwrap_or((form, ""));
        let title = match call.arguments.len() {
            1 => format!("{name}() takes {wants}, and one is given"),
            given => format!("{name}() takes {wants}, and {given} are given"),
        };
        let help = match example {
            "" => format!("give it {wants}"),
            example => format!("for example {example}"),
        };
        self.report(Diagnostic::new(&catalogue::NAME_ARGUMENTS, span, title).help(help));
    }

    fn number_call(&self, function: Function, call: &Call, span: Span, place: Place) -> Typed {
        let fitting = match function {
            Function::Min | Function::Max => call.arguments.len() >= 2,
            Function::Round | Function::Atan2 => call.arguments.len() == 2,
            _ => call.arguments.len() == 1,
        };
        if !fitting {
            self.report_arguments(call, span);
            return known(poison_of(Dimension::Length, span));
        }
        let mut typed = Vec::with_capacity(call.arguments.len());
        for argument in &call.arguments {
            typed.push(self.typed(argument, place, false));
        }
        let Some((values, dimension, bare)) = self.alike(typed, "compared") else {
            return known(poison_of(Dimension::Length, span));
        };
        let result = match (function, dimension) {
            (Function::Min | Function::Max | Function::Abs | Function::Round, Dimension::Point) => None,
            (Function::Min | Function::Max | Function::Abs | Function::Round, dimension) => Some(dimension),
            (Function::Sqrt, Dimension::Area) => Some(Dimension::Length),
            (Function::Sqrt, Dimension::Number) => Some(Dimension::Number),
            (Function::Sin | Function::Cos | Function::Tan, Dimension::Angle) => Some(Dimension::Number),
            (Function::Atan2, Dimension::Number | Dimension::Length) => Some(Dimension::Angle),
            _ => None,
        };
        let Some(result) = result else {
            let name = &call.function.text;
            let needed = match function {
                Function::Sqrt => "an area or a plain number",
                Function::Sin | Function::Cos | Function::Tan => "an angle, for example 30°",
                Function::Atan2 => "two lengths or two plain numbers",
                _ => "lengths, angles, areas or plain numbers",
            };
            let title = format!("{name}() is of {needed}, and this is {}", dimension.words());
            self.report(
                Diagnostic::new(&catalogue::UNIT_MIXED, span, title).help(format!("{name}() is of {needed}")),
            );
            return known(poison_of(Dimension::Length, span));
        };
        let stays_bare =
            bare && matches!(function, Function::Min | Function::Max | Function::Abs | Function::Round);
        let expression = Expression { node: Node::Call(function, values), dimension: result, span };
        Typed { expression, bare: stays_bare }
    }

    /// An edge or a line: `piece.edge`, `layer.piece.edge`, or alone inside its own piece.
    fn edge_use(&self, expr: &Expr, place: Place) -> Option<EdgeUse> {
        let ExprKind::Name(dotted) = &expr.kind else {
            let mistake = |title| Diagnostic::new(&catalogue::NAME_UNKNOWN, expr.span, title);
            let (mut inner, mut named) = (expr, Vec::new());
            while let ExprKind::Group(group) = &inner.kind {
                inner = group;
            }
            if let ExprKind::Sum(terms) = &inner.kind {
                named.extend(terms.iter().map(|(_, term)| self.words(term.span)));
            }
            let all_named = named.len() > 1 && named.iter().all(|words| !words.contains(['\n', '(']));
            self.report(match all_named {
                true => mistake("of one edge is asked here, and several are added up").help(format!(
                    "of each by itself, length({}); or total({}), which counts all copies that are cut",
                    named.join(") + length("),
                    named.join(" + ")
                )),
                false => mistake("an edge is named here, not worked out").help("write piece.edge"),
            });
            return None;
        };
        let (part, edge) = match (dotted.parts.as_slice(), place.piece) {
            ([alone], Some(piece)) => (NamedPiece { layer: None, piece }, self.find_edge(piece, alone)?),
            (_, Some(piece)) => match self.find_own_slit_side(piece, dotted) {
                Some(side) => (NamedPiece { layer: None, piece }, side?),
                None => self.find_dotted_edge(dotted)?,
            },
            _ => self.find_dotted_edge(dotted)?,
        };
        let paper = self.paper_use(part.layer, part.piece, place.when, expr.span)?;
        Some(EdgeUse { edge, paper })
    }

    /// A dart whose length is asked for; none where no dart is named, and in it none where it cannot be measured
    /// there, which is reported.
    fn dart_measured(&self, expr: &Expr, place: Place) -> Option<Option<EdgeUse>> {
        let ExprKind::Name(dotted) = &expr.kind else { return None };
        let (layer, piece, last) = match (dotted.parts.as_slice(), place.piece) {
            ([alone], Some(piece)) => (None, piece, alone),
            ([piece, last], _) => (None, *self.names.pieces.get(&piece.text)?, last),
            ([layer, piece, last], _) => {
                (Some(*self.names.layers.get(&layer.text)?), *self.names.pieces.get(&piece.text)?, last)
            }
            _ => return None,
        };
        let edge = self
            .edge_named(piece, &last.text)
            .filter(|&edge| self.garment.edge(edge).take_up && self.take_up_word(edge) == "dart")?;
        let drawing = matches!(place.when, When::Drawing(own) if own == piece);
        if drawing {
            let title = format!("{} is placed once its piece is drawn, and has no length before", last.text);
            let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, expr.span, title);
            self.report(
                mistake.help("measure it outside of its piece, or say its length by points: distance(…)"),
            );
            return Some(None);
        }
        // All names of it are looked up where they are known to be, and noted so.
        if dotted.parts.len() > 1 {
            self.split_off(dotted, "a dart")?;
        }
        self.used(Symbol::Edge(edge), last.span);
        let paper = self.paper_use(layer, piece, place.when, expr.span)?;
        Some(Some(EdgeUse { edge, paper }))
    }

    fn total(&self, expr: &Expr, place: Place) -> Option<Vec<(bool, EdgeUse)>> {
        match &expr.kind {
            ExprKind::Group(inner) => self.total(inner, place),
            ExprKind::Sum(terms) => {
                let mut uses = Vec::with_capacity(terms.len());
                let mut whole = true;
                for (sign, term) in terms {
                    match self.edge_use(term, place) {
                        Some(edge) => uses.push((*sign == Sign::Plus, edge)),
                        None => whole = false,
                    }
                }
                whole.then_some(uses)
            }
            _ => Some(vec![(true, self.edge_use(expr, place)?)]),
        }
    }

    fn paper_argument(&self, expr: &Expr, place: Place) -> Option<PaperUse> {
        let ExprKind::Name(dotted) = &expr.kind else {
            let title = "a piece is named here, not worked out";
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, expr.span, title)
                    .help("write a piece, or layer.piece"),
            );
            return None;
        };
        let part = self.find_part(dotted)?;
        self.paper_use(part.layer, part.piece, place.when, expr.span)
    }

    fn point_argument(&self, expr: &Expr, place: Place) -> Option<Expression> {
        let typed = self.typed(expr, place, true);
        let point = self.want(typed, Wanted::Point);
        (!is_poison(&point)).then_some(point)
    }

    /// The edge of a piece that another piece names by the other's own name: for strips.
    pub(super) fn edges_of(
        &self,
        piece: PieceId,
        names: &[crate::syntax::tree::Name],
    ) -> Option<Vec<crate::garment::EdgeId>> {
        let found: Vec<_> = names.iter().map(|name| self.find_edge(piece, name)).collect();
        found.into_iter().collect()
    }
}
