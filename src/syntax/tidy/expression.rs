//! Expressions in one line.

use super::spelling::Spelling;
use crate::syntax::tree::{Comparison, Dotted, Expr, ExprKind, Name, Scaling, Sign, SizeName, Text};

/// Prints what statements are made of.
pub(super) struct Printer<'a> {
    pub spelling: &'a dyn Spelling,
}

impl Printer<'_> {
    pub(super) fn text(&self, text: &Text) -> String {
        self.spelling.text(text)
    }

    /// A name and what people read of it: `side "Side seam"`
    pub(super) fn labelled(&self, name: &Name, label: &Option<Text>) -> String {
        match label {
            Some(label) => format!("{} {}", name.text, self.text(label)),
            None => name.text.to_string(),
        }
    }

    pub(super) fn maybe_text(&self, text: &Option<Text>) -> Option<String> {
        text.as_ref().map(|text| self.text(text))
    }

    pub(super) fn sizes(&self, sizes: &[SizeName]) -> String {
        listed(sizes.iter().map(|size| self.spelling.size(size)))
    }

    pub(super) fn exprs(&self, all: &[Expr]) -> String {
        listed(all.iter().map(|one| self.expr(one)))
    }

    /// The depth of brackets is bounded by [`crate::limits::DEPTH`], so this does not run deep.
    pub(super) fn expr(&self, expr: &Expr) -> String {
        match &expr.kind {
            ExprKind::Quantity(quantity) => self.spelling.quantity(quantity),
            ExprKind::Name(name) => dotted(name),
            ExprKind::Call(call) => format!("{}({})", call.function.text, self.exprs(&call.arguments)),
            ExprKind::Sum(terms) => self.sum(terms),
            ExprKind::Product(factors) => self.product(factors),
            ExprKind::Negative(inner) => format!("-{}", self.expr(inner)),
            ExprKind::Group(inner) => format!("({})", self.expr(inner)),
            ExprKind::Point(both) => format!("({}, {})", self.expr(&both.0), self.expr(&both.1)),
            ExprKind::Each(_) | ExprKind::Grade(_) | ExprKind::EverySize(_) => {
                match (self.spelling.single(expr), self.list(expr)) {
                    (Some(one), _) => one,
                    (None, Some(values)) => format!("each {}", listed(values)),
                    (None, None) => self.stepped(expr),
                }
            }
        }
    }

    /// One text a size, of a value that is written as a list.
    pub(super) fn list(&self, expr: &Expr) -> Option<Vec<String>> {
        match &expr.kind {
            ExprKind::Each(values) => Some(match self.spelling.kept(expr.span, values) {
                None => values.iter().map(|value| self.expr(value)).collect(),
                Some(kept) => {
                    kept.iter().filter_map(|&at| values.get(at)).map(|value| self.expr(value)).collect()
                }
            }),
            ExprKind::Grade(grade) => self.spelling.graded(expr.span, grade),
            _ => None,
        }
    }

    /// `40 grade +0.6`, `57 in every size`, or anything else.
    pub(super) fn stepped(&self, expr: &Expr) -> String {
        match &expr.kind {
            ExprKind::Grade(grade) => {
                let at =
                    grade.at.as_ref().map_or(String::new(), |at| format!("at {} ", self.spelling.size(at)));
                let steps = listed(grade.steps.iter().map(|step| self.step(step)));
                format!("{} {at}grade {steps}", self.expr(&grade.base))
            }
            ExprKind::EverySize(value) => format!("{} in every size", self.expr(value)),
            _ => self.expr(expr),
        }
    }

    fn step(&self, step: &Expr) -> String {
        match self.expr(step) {
            text if text == "0" || text.starts_with('-') => text,
            text => format!("+{text}"),
        }
    }

    fn sum(&self, terms: &[(Sign, Expr)]) -> String {
        let mut text = String::new();
        for (at, (sign, term)) in terms.iter().enumerate() {
            match (at, sign) {
                (0, _) => {}
                (_, Sign::Plus) => text.push_str(" + "),
                (_, Sign::Minus) => text.push_str(" - "),
            }
            text.push_str(&self.expr(term));
        }
        text
    }

    /// `/` is written close; but a number over a number is spaced, because `1/2` is a fraction.
    fn product(&self, factors: &[(Scaling, Expr)]) -> String {
        let mut text = String::new();
        let mut before_is_number = false;
        for (at, (scaling, factor)) in factors.iter().enumerate() {
            let is_number = is_number(factor);
            match (at, scaling) {
                (0, _) => {}
                (_, Scaling::Over) if !(before_is_number && is_number) => text.push('/'),
                (_, Scaling::Over) => text.push_str(" / "),
                (_, Scaling::Times) => text.push_str(" * "),
            }
            text.push_str(&self.expr(factor));
            before_is_number = is_number;
        }
        text
    }

    pub(super) fn comparison(&self, comparison: &Comparison) -> String {
        let (left, right) = (self.expr(&comparison.left), self.expr(&comparison.right));
        format!("{left} {} {right}", comparison.relation.word())
    }
}

fn is_number(expr: &Expr) -> bool {
    match &expr.kind {
        ExprKind::Quantity(_) => true,
        ExprKind::Negative(inner) => is_number(inner),
        _ => false,
    }
}

/// Joined by commas.
pub(super) fn listed(all: impl IntoIterator<Item = String>) -> String {
    all.into_iter().collect::<Vec<_>>().join(", ")
}

pub(super) fn dotted(name: &Dotted) -> String {
    let parts = name.parts.iter().map(|part| &*part.text).collect::<Vec<_>>().join(".");
    match name.on {
        Some(hand) => format!("{parts} on {}", hand.word()),
        None => parts,
    }
}

pub(super) fn dotteds(all: &[Dotted]) -> String {
    listed(all.iter().map(dotted))
}

pub(super) fn names(all: &[Name]) -> String {
    listed(all.iter().map(|name| name.text.to_string()))
}
