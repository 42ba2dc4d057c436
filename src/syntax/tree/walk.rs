//! The one walk over an expression as written. It does not recurse.

use super::{Expr, ExprKind};

impl Expr {
    /// The expressions that it is directly made of, left to right.
    pub fn parts(&self) -> Vec<&Expr> {
        match &self.kind {
            ExprKind::Quantity(_) | ExprKind::Name(_) => Vec::new(),
            ExprKind::Call(call) => call.arguments.iter().collect(),
            ExprKind::Sum(terms) => terms.iter().map(|(_, term)| term).collect(),
            ExprKind::Product(factors) => factors.iter().map(|(_, factor)| factor).collect(),
            ExprKind::Negative(inner) | ExprKind::Group(inner) | ExprKind::EverySize(inner) => vec![inner],
            ExprKind::Point(pair) => vec![&pair.0, &pair.1],
            ExprKind::Each(values) => values.iter().collect(),
            ExprKind::Grade(grade) => std::iter::once(&grade.base).chain(&grade.steps).collect(),
        }
    }

    /// The expression and those in it that `enter` lets the walk go into, each before its parts,
    /// left to right.
    pub fn walk_where(&self, enter: impl Fn(&Expr) -> bool) -> impl Iterator<Item = &Expr> {
        let mut open = vec![self];
        std::iter::from_fn(move || {
            let expr = open.pop()?;
            if enter(expr) {
                open.extend(expr.parts().into_iter().rev());
            }
            Some(expr)
        })
    }

    /// The expression and all that are in it, each before its parts, left to right.
    pub fn walk(&self) -> impl Iterator<Item = &Expr> {
        self.walk_where(|_| true)
    }
}
