//! Expressions to numbers and places.

use super::model::{Quantity, SizedGarment};
use super::sketch::Sketch;
use super::work::Work;
use crate::garment::{BetweenSizes, Dimension, Expression, Function, Garment, Node};
use crate::limits::LENGTH_MM;
use crate::report::{Diagnostic, Title, catalogue};
use crate::shape::Point;

/// What an expression that stands outside a drawing (an allowance, a gap, a button's distance)
/// comes to in a size that is worked out: millimetres, square millimetres, radians or a plain
/// number. None when it is unknown, which has been reported. Geometry words are looked up in the
/// finished garment.
///
/// Whoever works many out in one size makes a [`Finished`] once: it costs as much as the size has
/// papers.
pub fn constant(garment: &Garment, sized: &SizedGarment, expression: &Expression) -> Option<f64> {
    match expression.node {
        Node::Constant(value) => Some(value),
        _ => Finished::of(garment, sized).constant(expression),
    }
}

/// A size that is worked out, ready to work out expressions that stand outside drawings.
pub struct Finished<'g> {
    work: Work<'g>,
}

impl<'g> Finished<'g> {
    /// Of that size.
    pub fn of(garment: &'g Garment, sized: &SizedGarment) -> Self {
        let mut work = Work::new(garment, sized.size);
        work.mute(true);
        work.values.clone_from(&sized.values);
        for (at, drawn) in sized.papers.iter().enumerate() {
            if let Some(known) = garment.papers.get(at).filter(|_| drawn.is_some()) {
                let paper = crate::garment::PaperId::from_index(at);
                // What is measured is measured as it was drawn.
                let uncut = drawn.as_ref().and_then(|drawn| drawn.opened.as_ref());
                let drawn = uncut.map(|opened| opened.whole.clone()).or_else(|| drawn.clone());
                work.set_version(paper, known.alterations.len(), drawn);
            }
        }
        Finished { work }
    }

    /// As [`constant`].
    pub fn constant(&self, expression: &Expression) -> Option<f64> {
        self.work.scalar(expression, None)
    }
}

impl Work<'_> {
    /// A number; none of what is unknown.
    pub(super) fn scalar(&self, expression: &Expression, sketch: Option<&Sketch>) -> Option<f64> {
        self.quantity(expression, sketch)?.scalar()
    }

    /// A place or a way; none of what is unknown.
    pub(super) fn place(&self, expression: &Expression, sketch: Option<&Sketch>) -> Option<Point> {
        match self.quantity(expression, sketch)? {
            Quantity::Point(point) => Some(point),
            Quantity::Scalar(_) => None,
        }
    }

    /// What an expression comes to in this size. `sketch` is the piece that is being drawn, if
    /// one is. A number that is not finite is reported here, at the innermost words that made it.
    pub(super) fn quantity(&self, expression: &Expression, sketch: Option<&Sketch>) -> Option<Quantity> {
        let found = match &expression.node {
            Node::Poison => self.inherit(None),
            Node::Constant(value) => Some(Quantity::Scalar(*value)),
            Node::EachSize(list) => match &self.garment.fitting {
                None => self.quantity(list.get(self.size.index())?, sketch),
                Some(fitting) => self.between_sizes(expression, list, fitting.place, sketch),
            },
            Node::Value(id) => self.inherit(self.values.get(id.index()).copied().flatten()),
            Node::Sum(terms) => self.sum(terms, sketch),
            Node::Product(factors) => self.product(factors, sketch),
            Node::Negative(inner) => match self.quantity(inner, sketch)? {
                Quantity::Scalar(value) => Some(Quantity::Scalar(-value)),
                Quantity::Point(point) => Some(Quantity::Point(Point::new(-point.x, -point.y))),
            },
            Node::Call(function, arguments) => self.call(*function, arguments, sketch).map(Quantity::Scalar),
            Node::Pair(pair) => {
                let (x, y) = (self.scalar(&pair.0, sketch), self.scalar(&pair.1, sketch));
                Some(Quantity::Point(Point::new(x?, y?)))
            }
            Node::Point(point) => self.point(point, sketch).map(Quantity::Point),
            Node::Geometry(geometry) => self.measured(geometry, sketch).map(Quantity::Scalar),
        }?;
        self.finite(expression, found)
    }

    /// What a list of one value a size comes to for a wearer between two sizes: that much of the way from the one
    /// to the other; of whole plain numbers, which are counts, that of the nearest size.
    fn between_sizes(
        &self,
        expression: &Expression,
        list: &[Expression],
        place: BetweenSizes,
        sketch: Option<&Sketch>,
    ) -> Option<Quantity> {
        let at = |at: usize| self.quantity(list.get(at)?, sketch);
        let Some(above) = place.above() else { return at(place.below) };
        if expression.dimension == Dimension::Number && list.iter().all(is_count) {
            return at(place.nearest());
        }
        match (at(place.below)?, at(above)?) {
            (Quantity::Scalar(below), Quantity::Scalar(above)) => {
                Some(Quantity::Scalar(place.between(below, above)))
            }
            (Quantity::Point(below), Quantity::Point(above)) => {
                Some(Quantity::Point(below.lerp(above, place.share)))
            }
            _ => None,
        }
    }

    fn finite(&self, expression: &Expression, found: Quantity) -> Option<Quantity> {
        let farthest = match found {
            Quantity::Scalar(value) => value.abs(),
            Quantity::Point(point) => point.x.abs().max(point.y.abs()),
        };
        let is_length = matches!(expression.dimension, Dimension::Length | Dimension::Point);
        // Not-a-number fails every comparison, so both are asked the other way round.
        if farthest.is_finite() && (!is_length || farthest <= LENGTH_MM) {
            return Some(found);
        }
        self.mistake(1.0, "", || match farthest.is_finite() {
            true => Diagnostic::new(
                &catalogue::LIMIT_LENGTH,
                expression.span,
                Title::new(format!("this comes to {}", self.amount(farthest)))
                    .in_sizes()
                    .then(", more than any garment has"),
            )
            .help(format!("a length may be {} at most: is the unit right?", self.amount(LENGTH_MM))),
            false => not_finite(expression),
        });
        None
    }

    fn sum(&self, terms: &[(bool, Expression)], sketch: Option<&Sketch>) -> Option<Quantity> {
        let mut total: Option<Quantity> = None;
        let mut known = true;
        for (added, term) in terms {
            let Some(quantity) = self.quantity(term, sketch) else {
                known = false;
                continue;
            };
            let sign = if *added { 1.0 } else { -1.0 };
            total = Some(match (total, quantity) {
                (None | Some(Quantity::Scalar(_)), Quantity::Scalar(value)) => {
                    let before = total.and_then(Quantity::scalar).unwrap_or(0.0);
                    Quantity::Scalar(before + sign * value)
                }
                (None, Quantity::Point(way)) => Quantity::Point((way.to_vec2() * sign).to_point()),
                (Some(Quantity::Point(place)), Quantity::Point(way)) => {
                    Quantity::Point(place + way.to_vec2() * sign)
                }
                // A number and a point cannot be added: found before this room.
                _ => return None,
            });
        }
        total.filter(|_| known)
    }

    fn product(&self, factors: &[(bool, Expression)], sketch: Option<&Sketch>) -> Option<Quantity> {
        let (mut scale, mut point, mut known) = (1.0, None, true);
        for (multiplied, factor) in factors {
            match (self.quantity(factor, sketch), multiplied) {
                (Some(Quantity::Scalar(value)), true) => scale *= value,
                (Some(Quantity::Scalar(value)), false) => scale /= value,
                (Some(Quantity::Point(place)), true) if point.is_none() => point = Some(place),
                _ => known = false,
            }
        }
        let found = match point {
            None => Quantity::Scalar(scale),
            Some(place) => Quantity::Point((place.to_vec2() * scale).to_point()),
        };
        known.then_some(found)
    }

    fn call(&self, function: Function, arguments: &[Expression], sketch: Option<&Sketch>) -> Option<f64> {
        let found: Vec<Option<f64>> =
            arguments.iter().map(|argument| self.scalar(argument, sketch)).collect();
        let values: Vec<f64> = found.into_iter().collect::<Option<_>>()?;
        let first = values.first().copied();
        let second = values.get(1).copied();
        Some(match function {
            Function::Min => values.iter().copied().reduce(f64::min)?,
            Function::Max => values.iter().copied().reduce(f64::max)?,
            Function::Abs => first?.abs(),
            Function::Sqrt => libm::sqrt(first?),
            Function::Round => libm::round(first? / second?) * second?,
            Function::Sin => libm::sin(first?),
            Function::Cos => libm::cos(first?),
            Function::Tan => libm::tan(first?),
            Function::Atan2 => libm::atan2(first?, second?),
        })
    }
}

/// A whole plain number, as it stands.
fn is_count(expression: &Expression) -> bool {
    matches!(expression.node, Node::Constant(value) if libm::round(value) == value)
}

fn not_finite(expression: &Expression) -> Diagnostic {
    let kind = &catalogue::VALUE_NOT_FINITE;
    match &expression.node {
        Node::Product(factors) if factors.iter().any(|(multiplied, _)| !multiplied) => {
            Diagnostic::new(kind, expression.span, Title::new("this divides by 0").in_sizes())
                .label("what follows `/` is 0")
                .help("make sure that what follows `/` is never 0")
        }
        Node::Call(Function::Sqrt, _) => Diagnostic::new(
            kind,
            expression.span,
            Title::new("this is the square root of a negative number").in_sizes(),
        )
        .label("what is in the bracket is below 0")
        .help("the area in the bracket must be 0 or more: look at what is subtracted in it"),
        Node::Call(Function::Round, _) => {
            Diagnostic::new(kind, expression.span, Title::new("this rounds to a step of 0").in_sizes())
                .label("the step, after the comma, is 0")
                .help("round to a step such as 0.5")
        }
        _ => Diagnostic::new(kind, expression.span, Title::new("this has no finite value").in_sizes())
            .help("the numbers in it are too large, or there is none that fits"),
    }
}
