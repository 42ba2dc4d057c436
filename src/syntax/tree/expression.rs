use super::{Dotted, Name};
use crate::report::INCH;
use crate::source::Span;
use std::sync::Arc;

/// An expression.
#[derive(Clone, Debug)]
pub struct Expr {
    /// All of it.
    pub span: Span,
    /// What it says.
    pub kind: ExprKind,
}

/// What an expression says. Sums and products are n-ary, so that a long one does not nest.
#[derive(Clone, Debug)]
pub enum ExprKind {
    /// `16.5cm`, `6 1/2in`, `40`, `85%`
    Quantity(Quantity),
    /// A name, or names joined by dots.
    Name(Dotted),
    /// `length(front.side)`
    Call(Call),
    /// Terms and their signs; at least two.
    Sum(Vec<(Sign, Expr)>),
    /// Factors and how each joins those before it (the first is `Times`); at least two.
    Product(Vec<(Scaling, Expr)>),
    /// `-e`
    Negative(Box<Expr>),
    /// `(e)`
    Group(Box<Expr>),
    /// `(x, y)`
    Point(Box<(Expr, Expr)>),
    /// `each 8, 8, 8.5`: one value a size
    Each(Vec<Expr>),
    /// `40 grade +0.6` and its kin: a value a size from steps
    Grade(Box<Grade>),
    /// `57 in every size`
    EverySize(Box<Expr>),
}

/// `+` or `-` before a term.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// `+`
    Plus,
    /// `-`
    Minus,
}

/// `*` or `/` before a factor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scaling {
    /// `*`
    Times,
    /// `/`
    Over,
}

/// A number as written, with its unit.
#[derive(Clone, Debug)]
pub struct Quantity {
    /// The number: mixed fractions added up, in the unit written, not yet converted. Not finite
    /// where nothing finite was written, which was reported.
    pub number: f64,
    /// The unit that touches it; none is a bare literal.
    pub unit: Option<UnitWord>,
    /// All of it.
    pub span: Span,
}

/// A unit as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct UnitWord {
    /// Which.
    pub unit: Unit,
    /// Where.
    pub span: Span,
}

/// The units of the language.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unit {
    /// `mm`
    Millimetre,
    /// `cm`
    Centimetre,
    /// `m`
    Metre,
    /// `in` or `"`
    Inch,
    /// `ft`
    Foot,
    /// `yd`
    Yard,
    /// `deg` or `°`
    Degree,
    /// `%`
    Percent,
    /// `count 6`: a plain number that is no length
    Count,
    /// `number 1.6`: a plain number that is no length
    Number,
}

impl Unit {
    /// Millimetres in one of this unit, for lengths. 1 in = 25.4 mm exactly: NIST SP 811 (2008),
    /// App. B; the International Yard and Pound Agreement of 1959.
    pub fn millimetres(self) -> Option<f64> {
        match self {
            Unit::Millimetre => Some(1.0),
            Unit::Centimetre => Some(10.0),
            Unit::Metre => Some(1000.0),
            Unit::Inch => Some(INCH),
            Unit::Foot => Some(304.8),
            Unit::Yard => Some(914.4),
            Unit::Degree | Unit::Percent | Unit::Count | Unit::Number => None,
        }
    }

    /// The unit as a maker writes it.
    pub fn word(self) -> &'static str {
        match self {
            Unit::Millimetre => "mm",
            Unit::Centimetre => "cm",
            Unit::Metre => "m",
            Unit::Inch => "in",
            Unit::Foot => "ft",
            Unit::Yard => "yd",
            Unit::Degree => "°",
            Unit::Percent => "%",
            Unit::Count => "count",
            Unit::Number => "number",
        }
    }
}

/// `min(a, b)`; the bracket touches the name.
#[derive(Clone, Debug)]
pub struct Call {
    /// The function.
    pub function: Name,
    /// What stands in the brackets.
    pub arguments: Vec<Expr>,
}

/// `40 grade +0.6`, `58 grade +0.8, +1`, `38 at M grade +1.2`.
#[derive(Clone, Debug)]
pub struct Grade {
    /// The value at the base size.
    pub base: Expr,
    /// The size that has it; the first size when left out.
    pub at: Option<SizeName>,
    /// One step for all sizes, or one between each size and the next.
    pub steps: Vec<Expr>,
}

/// A size's name: it may begin with a digit, or be quoted.
#[derive(Clone, Debug)]
pub struct SizeName {
    /// The name, without quotes.
    pub text: Arc<str>,
    /// Where it stands.
    pub span: Span,
}

/// `a >= b`
#[derive(Clone, Debug)]
pub struct Comparison {
    /// Left side.
    pub left: Expr,
    /// How they compare.
    pub relation: Relation,
    /// Where the sign of comparison stands.
    pub relation_span: Span,
    /// Right side.
    pub right: Expr,
    /// All of it.
    pub span: Span,
}

/// Signs of comparison; `=` is within the tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Relation {
    /// `=`
    Equal,
    /// `!=`
    Unequal,
    /// `<`
    Less,
    /// `<=`
    LessOrEqual,
    /// `>`
    Greater,
    /// `>=`
    GreaterOrEqual,
}

impl Relation {
    /// As written.
    pub fn word(self) -> &'static str {
        match self {
            Relation::Equal => "=",
            Relation::Unequal => "!=",
            Relation::Less => "<",
            Relation::LessOrEqual => "<=",
            Relation::Greater => ">",
            Relation::GreaterOrEqual => ">=",
        }
    }
}
