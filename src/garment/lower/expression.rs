//! Expressions: every name found, every dimension known, every bare literal given its unit.

use super::Lowering;
use super::declare::poison;
use super::dimensions::{way_to, way_to_scale};
use super::papers::When;
use super::sought::Sought;
use crate::garment::{
    Dimension, Expression, Function, Node, PieceId, PointUse, Symbol, Used, ValueId, ValueKind,
};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{Dotted, Expr, ExprKind, Name, Quantity, Scaling, Sign, Unit};

/// What a place in the text wants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// A length; a bare literal takes the file's unit.
    Length,
    /// A plain number.
    Number,
    /// An angle.
    Angle,
    /// A point.
    Point,
    /// Anything; a bare literal stays a plain number.
    Any,
    /// Anything; the whole as a bare literal is a length (a `let`).
    LengthIfBare,
}

/// An expression and whether it is nothing but bare literals, which may still become a length.
#[derive(Debug)]
pub(super) struct Typed {
    pub expression: Expression,
    pub bare: bool,
}

/// Where an expression stands: the piece whose own points and edges need no name before them.
#[derive(Clone, Copy)]
pub(super) struct Place {
    pub when: When,
    pub piece: Option<PieceId>,
}

impl Lowering<'_> {
    /// Lowers an expression where `wanted` is wanted. `piece` is the one whose own points and
    /// edges may be named alone.
    pub(super) fn lower(
        &self,
        expr: &Expr,
        when: When,
        piece: Option<PieceId>,
        wanted: Wanted,
    ) -> Expression {
        let typed = self.typed(expr, Place { when, piece }, wanted == Wanted::Point);
        self.want(typed, wanted)
    }

    /// Gives a bare literal its unit, and reports when something else was wanted.
    pub(super) fn want(&self, typed: Typed, wanted: Wanted) -> Expression {
        let Typed { mut expression, bare } = typed;
        if is_poison(&expression) {
            return expression;
        }
        let dimension = match wanted {
            Wanted::Any => return expression,
            Wanted::LengthIfBare if bare => Dimension::Length,
            Wanted::LengthIfBare => return expression,
            Wanted::Length => Dimension::Length,
            Wanted::Number => Dimension::Number,
            Wanted::Angle => Dimension::Angle,
            Wanted::Point => Dimension::Point,
        };
        if dimension == Dimension::Length && bare {
            self.make_length(&mut expression);
            return expression;
        }
        if expression.dimension == dimension {
            return expression;
        }
        let span = expression.span;
        let (found, needed) = (expression.dimension.words(), dimension.words());
        let diagnostic = match (expression.dimension, dimension) {
            (Dimension::Number, Dimension::Length) => {
                let unit = self.unit_at(span).word();
                let bare = Diagnostic::new(
                    &catalogue::UNIT_BARE,
                    span,
                    "this is a plain number where a length is needed",
                )
                .label("a plain number");
                match self.number_in(&expression) {
                    // It is told at the first place where it is used.
                    Some(value) if !self.notes.borrow_mut().plain_numbers.insert(value) => {
                        return poison_of(dimension, span);
                    }
                    Some(value) => {
                        let value = self.garment.value(value);
                        let name = &value.name;
                        bare.also(value.span, format!("{name} is a plain number")).help(format!(
                            "if {name} is a length, give one of the numbers that it is made of a unit, such as 26{unit}; if it \
                             is a number, multiply by 1{unit} here"
                        ))
                    }
                    None => bare.help(format!(
                        "only a number standing alone takes the file's unit: multiply by 1{unit}, or give one of its parts a unit"
                    )),
                }
            }
            (Dimension::Number, Dimension::Angle) => Diagnostic::new(
                &catalogue::UNIT_BARE,
                span,
                "this is a plain number where an angle is needed",
            )
            .label("a plain number")
            .help("write the degrees: 30° or 30deg"),
            _ => Diagnostic::new(
                &catalogue::UNIT_MIXED,
                span,
                format!("this is {found} where {needed} is needed"),
            )
            .label(found.to_owned())
            .help(way_to(expression.dimension, dimension, self.map.text(span))),
        };
        self.report(diagnostic);
        poison_of(dimension, span)
    }

    /// A value that an expression is a plain number by.
    fn number_in(&self, expression: &Expression) -> Option<ValueId> {
        expression.uses().find_map(|used| match used {
            Used::Value(id) => {
                let value = self.garment.value(id);
                (value.dimension == Dimension::Number && matches!(value.kind, ValueKind::Let(_)))
                    .then_some(id)
            }
            _ => None,
        })
    }

    /// The unit of bare literals in the file where a span stands.
    pub(super) fn unit_at(&self, span: Span) -> Unit {
        self.merged.units.get(&self.map.file_of(span)).copied().unwrap_or(Unit::Centimetre)
    }

    /// Makes an expression of bare literals a length in its own file's unit.
    fn make_length(&self, expression: &mut Expression) {
        expression.dimension = Dimension::Length;
        match &mut expression.node {
            Node::Constant(value) => {
                self.notes.borrow_mut().bare_lengths.push(expression.span);
                *value *= self.unit_at(expression.span).millimetres().unwrap_or(1.0);
            }
            Node::Sum(terms) => {
                for (_, term) in terms {
                    self.make_length(term);
                }
            }
            Node::Negative(inner) => self.make_length(inner),
            Node::EachSize(values) | Node::Call(_, values) => {
                for value in values {
                    self.make_length(value);
                }
            }
            // Bare literals are nowhere else: `typed` gives these a dimension of their own.
            Node::Poison
            | Node::Value(_)
            | Node::Product(_)
            | Node::Pair(_)
            | Node::Point(_)
            | Node::Geometry(_) => {}
        }
    }

    pub(super) fn typed(&self, expr: &Expr, place: Place, point_wanted: bool) -> Typed {
        let span = expr.span;
        match &expr.kind {
            ExprKind::Quantity(quantity) => quantity_of(quantity),
            ExprKind::Name(dotted) => known(self.named(dotted, place, point_wanted)),
            ExprKind::Call(call) => self.call(call, span, place),
            ExprKind::Group(inner) => self.typed(inner, place, point_wanted),
            ExprKind::Negative(inner) => {
                let Typed { expression, bare } = self.typed(inner, place, point_wanted);
                let dimension = expression.dimension;
                let node = match expression.node {
                    Node::Poison => Node::Poison,
                    Node::Constant(value) => Node::Constant(-value),
                    _ => Node::Negative(Box::new(expression)),
                };
                Typed { expression: Expression { node, dimension, span }, bare }
            }
            ExprKind::Sum(terms) => self.sum(terms, span, place, point_wanted),
            ExprKind::Product(factors) => known(self.product(factors, span, place)),
            ExprKind::Point(pair) => {
                let x = self.typed(&pair.0, place, false);
                let x = self.want(x, Wanted::Length);
                let y = self.typed(&pair.1, place, false);
                let y = self.want(y, Wanted::Length);
                if is_poison(&x) || is_poison(&y) {
                    return known(poison_of(Dimension::Point, span));
                }
                known(Expression { node: Node::Pair(Box::new((x, y))), dimension: Dimension::Point, span })
            }
            ExprKind::Each(values) => self.each(values, span, place),
            ExprKind::Grade(grade) => self.graded(grade, span, place),
            ExprKind::EverySize(inner) => self.typed(inner, place, point_wanted),
        }
    }

    /// Terms that must all be of one dimension; bare literals go along with lengths.
    fn sum(&self, terms: &[(Sign, Expr)], span: Span, place: Place, point_wanted: bool) -> Typed {
        let mut typed: Vec<(bool, Typed)> = Vec::with_capacity(terms.len());
        for (sign, term) in terms {
            typed.push((*sign == Sign::Plus, self.typed(term, place, point_wanted)));
        }
        let (signs, terms): (Vec<bool>, Vec<Typed>) = typed.into_iter().unzip();
        let Some((terms, dimension, bare)) = self.alike(terms, "added or subtracted") else {
            return known(poison_of(Dimension::Length, span));
        };
        let node = Node::Sum(signs.into_iter().zip(terms).collect());
        Typed { expression: Expression { node, dimension, span }, bare }
    }

    /// Makes all of one dimension: bare literals beside a length become lengths. None, silently or
    /// reported, when that cannot be.
    pub(super) fn alike(&self, typed: Vec<Typed>, doing: &str) -> Option<(Vec<Expression>, Dimension, bool)> {
        if typed.iter().any(|one| is_poison(&one.expression)) {
            return None;
        }
        let all_bare = typed.iter().all(|one| one.bare);
        let sure = typed.iter().find(|one| !one.bare).or(typed.first())?;
        let (dimension, sure_span) = (sure.expression.dimension, sure.expression.span);
        let mut alike = Vec::with_capacity(typed.len());
        for Typed { mut expression, bare } in typed {
            if bare && dimension == Dimension::Length {
                self.make_length(&mut expression);
            }
            if expression.dimension != dimension {
                let (one, other) = (dimension.words(), expression.dimension.words());
                let diagnostic = Diagnostic::new(
                    &catalogue::UNIT_MIXED,
                    expression.span,
                    format!("{one} and {other} cannot be {doing}"),
                )
                .label(other.to_owned())
                .also(sure_span, one.to_owned())
                .help(way_to(
                    expression.dimension,
                    dimension,
                    self.map.text(expression.span),
                ));
                self.report(diagnostic);
                return None;
            }
            alike.push(expression);
        }
        Some((alike, dimension, all_bare))
    }

    fn product(&self, factors: &[(Scaling, Expr)], span: Span, place: Place) -> Expression {
        let mut lowered: Vec<(bool, Expression)> = Vec::with_capacity(factors.len());
        let mut so_far = Dimension::Number;
        for (scaling, factor) in factors {
            let factor = self.typed(factor, place, false).expression;
            if is_poison(&factor) {
                return poison_of(Dimension::Length, span);
            }
            let times = *scaling == Scaling::Times;
            let Some(next) = scaled(so_far, factor.dimension, times) else {
                let (one, other) = (so_far.words(), factor.dimension.words());
                let how = if times { "multiplied by" } else { "divided by" };
                let mut diagnostic = Diagnostic::new(
                    &catalogue::UNIT_MIXED,
                    factor.span,
                    format!("{one} cannot be {how} {other}"),
                )
                .label(other.to_owned());
                if let (Some((_, first)), Some((_, last))) = (lowered.first(), lowered.last()) {
                    diagnostic = diagnostic.also(first.span.to(last.span), one.to_owned());
                }
                let words = self.map.text(factor.span);
                self.report(diagnostic.help(way_to_scale(so_far, factor.dimension, times, words)));
                return poison_of(Dimension::Length, span);
            };
            so_far = next;
            lowered.push((times, factor));
        }
        Expression { node: Node::Product(lowered), dimension: so_far, span }
    }

    /// A name in an expression: a value, or a point of a piece.
    fn named(&self, dotted: &Dotted, place: Place, point_wanted: bool) -> Expression {
        let [name] = dotted.parts.as_slice() else { return self.named_point(dotted, place) };
        let value = self.names.values.get(&name.text).copied();
        let own =
            place.piece.and_then(|piece| Some((piece, *self.piece_points[piece.index()].get(&name.text)?)));
        match (value, own) {
            (Some(value), own) if own.is_none() || !point_wanted => {
                self.used(Symbol::Value(value), name.span)
            }
            (_, Some((_, point))) => self.used(Symbol::Point(point), name.span),
            _ => {}
        }
        match (value, own) {
            (Some(value), None) => self.value(value, name.span),
            (Some(value), Some(_)) if !point_wanted => self.value(value, name.span),
            (_, Some((piece, point))) => match self.paper_use(None, piece, place.when, name.span) {
                Some(paper) => Expression {
                    node: Node::Point(PointUse { point, paper }),
                    dimension: Dimension::Point,
                    span: name.span,
                },
                None => poison_of(Dimension::Point, name.span),
            },
            (None, None) if &*name.text == "pi" => Expression {
                node: Node::Constant(std::f64::consts::PI),
                dimension: Dimension::Number,
                span: name.span,
            },
            (None, None) => {
                self.unknown_in_expression(name, place);
                poison(name.span)
            }
        }
    }

    fn value(&self, value: crate::garment::ValueId, span: Span) -> Expression {
        let dimension = self.garment.value(value).dimension;
        match self.poisoned_values.contains(&value) {
            true => poison_of(dimension, span),
            false => Expression { node: Node::Value(value), dimension, span },
        }
    }

    fn unknown_in_expression(&self, name: &Name, place: Place) {
        if let Some(piece) = place.piece
            && self.piece_edges[piece.index()].contains_key(&name.text)
        {
            let title = format!("{} is an edge or line, not a value", name.text);
            let help = format!("measure it: length({})", name.text);
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title)
                    .label("an edge or line")
                    .help(help),
            );
            return;
        }
        let mut among = self.offered(self.names.values.keys());
        let Some(piece) = place.piece else {
            self.unknown(Sought::Value, &name.text, name.span, &among);
            return;
        };
        let points = self.offered(self.piece_points[piece.index()].keys());
        // What is nearly a point of the piece is reported as one, together with where it is a corner.
        let is_point = |near: &str| points.iter().any(|point| &**point == near);
        let near = nearest(&name.text, among.iter().chain(&points).map(|name| &**name));
        if near.is_some_and(is_point) {
            self.unknown(Sought::PointOf(piece), &name.text, name.span, &points);
            return;
        }
        among.extend(points);
        self.unknown(Sought::ValueOrPoint, &name.text, name.span, &among);
    }

    /// `front.tip` or `outer.front.tip`.
    fn named_point(&self, dotted: &Dotted, place: Place) -> Expression {
        let span = dotted.span;
        let Some((part, last)) = self.split_off(dotted, "a point") else {
            return poison_of(Dimension::Point, span);
        };
        let edges = &self.piece_edges[part.piece.index()];
        if !self.piece_points[part.piece.index()].contains_key(&last.text) && edges.contains_key(&last.text) {
            let words: Vec<&str> = dotted.parts.iter().map(|name| &*name.text).collect();
            let title = format!("{} is an edge or line, not a value", last.text);
            let help = format!("measure it: length({})", words.join("."));
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, span, title).label("an edge or line").help(help),
            );
            return poison(span);
        }
        let Some(point) = self.find_point(part.piece, last) else { return poison_of(Dimension::Point, span) };
        match self.paper_use(part.layer, part.piece, place.when, span) {
            Some(paper) => {
                Expression { node: Node::Point(PointUse { point, paper }), dimension: Dimension::Point, span }
            }
            None => poison_of(Dimension::Point, span),
        }
    }
}

/// A value whose dimension is sure.
pub(super) fn known(expression: Expression) -> Typed {
    Typed { expression, bare: false }
}

pub(super) fn is_poison(expression: &Expression) -> bool {
    matches!(expression.node, Node::Poison)
}

pub(super) fn poison_of(dimension: Dimension, span: Span) -> Expression {
    Expression { node: Node::Poison, dimension, span }
}

fn quantity_of(quantity: &Quantity) -> Typed {
    let (value, dimension) = match quantity.unit.map(|unit| unit.unit) {
        None | Some(Unit::Count | Unit::Number) => (quantity.number, Dimension::Number),
        Some(Unit::Degree) => (quantity.number.to_radians(), Dimension::Angle),
        Some(Unit::Percent) => (quantity.number / 100.0, Dimension::Number),
        Some(unit) => (quantity.number * unit.millimetres().unwrap_or(1.0), Dimension::Length),
    };
    // What has no finite value was reported where it was read.
    let node = if value.is_finite() { Node::Constant(value) } else { Node::Poison };
    let expression = Expression { node, dimension, span: quantity.span };
    Typed { expression, bare: quantity.unit.is_none() }
}

/// The dimension of a product or a quotient; none where the language has none.
fn scaled(one: Dimension, other: Dimension, times: bool) -> Option<Dimension> {
    use Dimension::{Angle, Area, Length, Number, Point};
    Some(match (one, other, times) {
        (any, Number, _) => any,
        (Number, any, true) => any,
        (Length, Length, true) => Area,
        (Length, Length, false) | (Area, Area, false) | (Angle, Angle, false) => Number,
        (Area, Length, false) => Length,
        (Number, Point, false) | (_, Point, _) | (Point, _, _) => return None,
        _ => return None,
    })
}

/// The functions of numbers by name.
pub(super) fn function(name: &str) -> Option<Function> {
    Some(match name {
        "min" => Function::Min,
        "max" => Function::Max,
        "abs" => Function::Abs,
        "sqrt" => Function::Sqrt,
        "round" => Function::Round,
        "sin" => Function::Sin,
        "cos" => Function::Cos,
        "tan" => Function::Tan,
        "atan2" => Function::Atan2,
        _ => return None,
    })
}
