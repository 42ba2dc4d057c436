//! Trees moved along the text: what was read of a part of a file, where that part now stands.
//!
//! Every field is named, so that the compiler asks for a new one.

use super::tree::*;
use crate::report::{Diagnostic, Fix, Label};
use crate::source::Span;
use std::sync::Arc;

/// What holds places of the text.
pub(super) trait Shift {
    /// Moves all of them so many bytes on.
    fn shift(&mut self, by: u32);
}

impl Shift for Span {
    fn shift(&mut self, by: u32) {
        // Also back: so many bytes less than 2^32.
        self.lo = self.lo.wrapping_add(by);
        self.hi = self.hi.wrapping_add(by);
    }
}

impl<T: Shift> Shift for Vec<T> {
    fn shift(&mut self, by: u32) {
        self.iter_mut().for_each(|one| one.shift(by));
    }
}

impl<T: Shift> Shift for Option<T> {
    fn shift(&mut self, by: u32) {
        self.iter_mut().for_each(|one| one.shift(by));
    }
}

impl<T: Shift> Shift for Box<T> {
    fn shift(&mut self, by: u32) {
        (**self).shift(by);
    }
}

impl<T: Shift + Clone> Shift for Arc<T> {
    fn shift(&mut self, by: u32) {
        Arc::make_mut(self).shift(by);
    }
}

impl<T: Shift, const N: usize> Shift for [T; N] {
    fn shift(&mut self, by: u32) {
        self.iter_mut().for_each(|one| one.shift(by));
    }
}

impl<A: Shift, B: Shift> Shift for (A, B) {
    fn shift(&mut self, by: u32) {
        self.0.shift(by);
        self.1.shift(by);
    }
}

impl<A: Shift, B: Shift, C: Shift> Shift for (A, B, C) {
    fn shift(&mut self, by: u32) {
        self.0.shift(by);
        self.1.shift(by);
        self.2.shift(by);
    }
}

/// What stands beside places and holds none.
macro_rules! shift_none {
    ($($name:ident)*) => {$(
        impl Shift for $name {
            fn shift(&mut self, _: u32) {}
        }
    )*};
}

shift_none! { bool String RowEnd Sign Scaling }

/// Of each struct the fields that hold places, and behind `|` those that hold none.
macro_rules! shift_all {
    ($($name:ident { $($moved:ident),* $(| $($kept:ident),*)? })*) => {$(
        impl Shift for $name {
            fn shift(&mut self, by: u32) {
                let $name { $($moved,)* $($($kept: _,)*)? } = self;
                $($moved.shift(by);)*
            }
        }
    )*};
}

/// Of each enum its variants, and what in each of them holds places.
macro_rules! shift_one {
    ($($name:ident { $($variant:pat => [$($moved:ident),*],)* })*) => {$(
        impl Shift for $name {
            fn shift(&mut self, by: u32) {
                match self {
                    $($variant => { $($moved.shift(by);)* })*
                }
            }
        }
    )*};
}

shift_all! {
    Diagnostic { labels, unshown, fix | kind, title, sizes, table, help, remedy }
    Label { span | text }
    Fix { edits | title }
    Alteration { targets, at, path, amount, keeping, into, dart, tapered | kind, stepped }
    Closure { name, first, second, end_to_end, items }
    ClosureItem { span, node }
    Zipper { lengths, showing, clear | kind, stocked }
    Fasteners { count, size, between, stand | kind, over }
    Anchor { at, span }
    Fabric { name, title, facts }
    FabricFact { span, node }
    Directed { amount, span | direction }
    Price { currency, per, span | amount }
    Layer { name, fabric, share, onto, pieces | fused }
    FusedShare { span | fused, of }
    Notion { title, amount, price }
    StitchWord { span | word }
    DartLet { name, place, angle, to, turning, ends, ways }
    PleatLet { name, pleat, nothing }
    DartMove { share, goal, named, stopping, laid | trued }
    DartSplit { from, through, to, named, rounded }
    Expr { span, kind }
    Quantity { unit, span | number }
    UnitWord { span | unit }
    Call { function, arguments }
    Grade { base, at, steps }
    SizeName { span | text }
    Comparison { left, relation_span, right, span | relation }
    Finish { edges, kind, kind_span, binding_stretch, stitch }
    Hem { depth, raw_edge, turn_up }
    Binding { width, cut_from, running_on, loops }
    FittingOf { wearer, base, bodies }
    FittedBody { span, word, rows }
    FittedRow { span, name, value, label }
    VariationOf { title, base, with, without }
    NamedFile { path, pin }
    Pin { span | digits }
    Wearer { who | for_sleep }
    Sizes { names }
    Body { rows }
    BodyRow { span, name, values, label }
    Pick { measures }
    Let { name, value, label }
    Measure { name, title, against, value }
    Require { condition, because }
    Name { span | text }
    Dotted { parts, span | on }
    Text { span | text }
    Note { span }
    Statement { span, node }
    Opening { ring, passes }
    Cord { name, length, through, ends }
    Piece { name, title, like, items | block }
    PieceItem { span, node }
    Cut { count, how | loose }
    PointFact { name, label, at }
    WalkEdge { span, name, label, to, path, dart }
    Direction { span, kind }
    Line { name, label, run, adjust }
    Notch { edge, place | double }
    Divide { edge, place, into }
    StripEdge { edge, run }
    CornerFact { first, second | style }
    Place { piece, on, items }
    PlaceItem { span, node }
    Placket { name, slit, kind }
    Seam { name, label, first, second, fit, along, enclosing, items | across_fold }
    Side { plies, span }
    Chain { edges, span | ring }
    SewnWords { edge, run, over, span | ring }
    RunWords { from, to, counted, span }
    Fit { low, high, between, span | kind }
    SeamItem { span, node }
    GapAt { counted, along, span }
    Band {
        name, title, layer, depth, across, edges, inside, share, joined, opening, underlap, stiffened, items
        | folded, round
    }
    BandChange { names, depth, edges, inside, share, joined, opening, underlap, stiffened, items }
    SeamChange { name, items | how }
    Underlap { length, at }
    Facing { name, title, layer, width, edges, stiffened, understitched, neatened, items }
    Neatened { kind, binding_stretch, span }
    SeamAlong { pieces, edges }
    Steps { groups }
    StepGroup { span, title, actions }
    Action { span, layer, verb_span, targets, words | verb }
    StepTarget { name, joints }
    Joints { span | first, last }
    StitchedRow { name, distance, edges, rows, stitch | kind }
    Tack { name, from, to, bar }
    Setting { name, notion, places }
    SewnPlace { at, place, span }
    Strap { name, title, length, width, layer, items | in_four }
    StrapItem { span, node }
    StrapEnd { at, place, caught, span | hand }
    TakeUp { name, form }
    Pleat { edge, place, depth, kind, row, toward, to, stitched, along | tuck, trued }
    WalkDart { about, ways }
    DartWays { stopping, laid | trued }
    Set { name, value, label }
    Drop { target, on, run, kind_span | kind, and_all_sewn }
    DropAlteration { altered, of }
    ReplaceAlteration { new, of }
    Altered { targets, at, to, span | kind }
    DropOfPiece { piece, name, other, notch, span | kind }
    AddToLayer { pieces, layer }
    AddSteps { anchor, group | after }
    AddToPiece { piece, items | how }
}

shift_one! {
    Amount {
        Self::By(own) => [own], Self::Until { about, closure, span } => [about, closure, span],
    }
    ClosureItemNode {
        Self::Zipper(own) => [own], Self::Fasteners(own) => [own],
    }
    AnchorAt {
        Self::Beside { distance, below: _, point } => [distance, point], Self::Place(own) => [own],
    }
    FabricFactNode {
        Self::Width { width, tubular: _ } => [width], Self::Selvage(own) => [own],
        Self::Stretch(own) => [own], Self::Shrink(own) => [own], Self::Repeat(own) => [own],
        Self::Thickness(own) => [own], Self::Price(own) => [own],
        Self::Nap(_) | Self::Kind(_) | Self::Raised(_) => [],
    }
    DartChange {
        Self::Move(own) => [own], Self::Let(own) => [own], Self::LetPleat(own) => [own],
        Self::Split(own) => [own], Self::Leave(_) | Self::Close => [],
    }
    DartGoal {
        Self::Edge { edge, place } => [edge, place], Self::Dart(own) => [own],
    }
    ExprKind {
        Self::Quantity(own) => [own], Self::Name(own) => [own], Self::Call(own) => [own],
        Self::Sum(own) => [own], Self::Product(own) => [own], Self::Negative(own) => [own],
        Self::Group(own) => [own], Self::Point(own) => [own], Self::Each(own) => [own],
        Self::Grade(own) => [own], Self::EverySize(own) => [own],
    }
    FinishKind {
        Self::Hem(own) => [own], Self::Bound(own) => [own],
        Self::Casing { depth, elastic } => [depth, elastic],
        Self::Elastic { width, length } => [width, length], Self::Tape(own) => [own],
        Self::TurnedUnderOnto(own) => [own], Self::Overlocked | Self::Raw => [],
    }
    HemEdge {
        Self::TurnedUnder(own) => [own], Self::TurnedOnce | Self::TurnedTwice => [],
    }
    FittedValue {
        Self::Measured(own) => [own], Self::AsSize(own) => [own], Self::BetweenSizes(own) => [own],
    }
    Who {
        Self::Child { from, to, months: _ } => [from, to], Self::Adult | Self::Baby => [],
    }
    Credit {
        Self::Maker(own) => [own], Self::Licence(own) => [own], Self::Edition(_) | Self::Level(_) => [],
    }
    LetValue {
        Self::Is(own) => [own], Self::Solved { low, high, so_that } => [low, high, so_that],
    }
    StatementNode {
        Self::Garment(own) => [own], Self::Variation(own) => [own], Self::Fitting(own) => [own],
        Self::Library(own) => [own], Self::Use(own) => [own], Self::Units(own) => [own],
        Self::Allowance(own) => [own], Self::Tolerance(own) => [own], Self::Wearer(own) => [own],
        Self::Stitch(own) => [own],
        Self::About(own) => [own], Self::Credit(own) => [own], Self::Sizes(own) => [own],
        Self::Body(own) => [own], Self::Pick(own) => [own], Self::Let(own) => [own],
        Self::Measure(own) => [own], Self::Require(own) => [own], Self::Fabric(own) => [own],
        Self::Layer(own) => [own], Self::Notion(own) => [own], Self::Piece(own) => [own],
        Self::Alteration(own) => [own], Self::Seam(own) => [own], Self::Finish(own) => [own],
        Self::Place(own) => [own], Self::Closure(own) => [own], Self::Placket(own) => [own],
        Self::Band(own) => [own], Self::Facing(own) => [own], Self::Opening(own) => [own],
        Self::Cord(own) => [own], Self::Strap(own) => [own], Self::StitchedRow(own) => [own],
        Self::Tack(own) => [own], Self::Setting(own) => [own], Self::Steps(own) => [own],
        Self::Replace(own) => [own], Self::Set(own) => [own], Self::Drop(own) => [own],
        Self::DropAlteration(own) => [own], Self::DropOfPiece(own) => [own],
        Self::ReplaceAlteration(own) => [own], Self::ReplaceStep(own) => [own],
        Self::AddToLayer(own) => [own], Self::AddSteps(own) => [own], Self::AddToPiece(own) => [own],
        Self::ChangeBand(own) => [own], Self::ChangeSeam(own) => [own],
    }
    PieceItemNode {
        Self::Cut(own) => [own], Self::Point(own) => [own], Self::Mark(own) => [own],
        Self::Outline(own) => [own], Self::MovePoint { point, by } => [point, by], Self::Line(own) => [own],
        Self::Notch(own) => [own], Self::Divide(own) => [own], Self::TakeUp(own) => [own],
        Self::Folded { edge, onto, in_four: _ } => [edge, onto], Self::Grain(own) => [own],
        Self::Allowance(own) => [own], Self::Corner(own) => [own], Self::Without(own) => [own],
        Self::NeverFlipped | Self::Drawn(_) => [],
    }
    LeftOut {
        Self::Named(own) => [own], Self::Notch { edge, place } => [edge, place],
        Self::Corner(first, second) => [first, second],
    }
    CutHow {
        Self::OnFold(own) => [own], Self::Alike | Self::Mirrored => [],
    }
    Outline {
        Self::Walk { from, cutting: _, edges } => [from, edges], Self::Parts(own) => [own],
        Self::Rectangle { width, height } => [width, height],
        Self::Strip { of, along, width, mirrored: _ } => [of, along, width],
        Self::Copy { of, mirrored: _ } => [of], Self::Rest { of, without, mirrored: _ } => [of, without],
    }
    EdgePath {
        Self::Curve { leaving, arriving, through, span } => [leaving, arriving, through, span],
        Self::Handles { first, second, span } => [first, second, span],
        Self::Arc { about, clockwise: _, span } => [about, span], Self::Straight => [],
    }
    DirectionKind {
        Self::Angle(own) => [own], Self::SquareTo(own) => [own], Self::Along(own) => [own],
        Self::Toward(own) => [own], Self::Up | Self::Down | Self::Left | Self::Right => [],
    }
    LineRun {
        Self::Across(own) => [own], Self::Along(own) => [own],
        Self::FromTo(first, second) => [first, second],
        Self::Way(first, second, third) => [first, second, third],
    }
    Grain {
        Self::Along(own) => [own], Self::Up | Self::Across | Self::Bias => [],
    }
    PlaceItemNode {
        Self::Corner { corner, at } => [corner, at], Self::Topstitch(own) => [own],
        Self::Caught { edges, in_seam } => [edges, in_seam], Self::TopstitchAllRound => [],
    }
    HostPlace {
        Self::Point(own) => [own], Self::Edge(first, second) => [first, second],
    }
    PlacketKind {
        Self::Bound(own) => [own], Self::TwoPart { over, under, upper: _ } => [over, under],
    }
    SeamItemNode {
        Self::Allowance(own) => [own], Self::Stitch(own) => [own], Self::Tape(own) => [own],
        Self::Notch { place, double: _ } => [place], Self::Notches { apart, double: _ } => [apart],
        Self::Gap { begins, length, at, layer, hand: _ } => [begins, length, at, layer],
        Self::Matching(first, second) => [first, second],
        Self::Caught { ply, on, place } => [ply, on, place],
        Self::Kind { kind: _, width, over } => [width, over],
    }
    NotchesApart {
        Self::Every(own) => [own], Self::Quarters | Self::Thirds => [],
    }
    NameOrText {
        Self::Name(own) => [own], Self::Text(own) => [own],
    }
    StrapItemNode {
        Self::Run { from, to } => [from, to], Self::Sewn { length, boxed: _ } => [length],
    }
    TakeUpForm {
        Self::Dart { cloth, ways } => [cloth, ways], Self::Slit { cut, window } => [cut, window],
        Self::Pleat(own) => [own],
    }
    SlitCut {
        Self::FromEdge { edge, place, end } => [edge, place, end], Self::Inside { from, to } => [from, to],
    }
    SlitEnd {
        Self::Way(_, second) => [second], Self::To(own) => [own],
    }
    PleatPlace {
        Self::On(own) => [own], Self::Fold => [],
    }
    PleatKind {
        Self::Box(own) => [own], Self::Inverted(own) => [own], Self::Knife => [],
    }
    DartCloth {
        Self::OnEdge { edge, place, width, to } => [edge, place, width, to],
        Self::Inside { at, width, up, down } => [at, width, up, down],
    }
    DartLaid {
        Self::Toward(own) => [own], Self::Pressed(_) | Self::CutOpen => [],
    }
    EdgePlace {
        Self::At { value, from } => [value, from], Self::Middle | Self::Fold => [],
    }
}
