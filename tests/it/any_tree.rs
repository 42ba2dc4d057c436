//! Trees of any shape that a text can have, for proptest.

use fustian::source::Span;
use fustian::syntax::tree::*;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;

/// Nowhere in particular.
pub const HERE: Span = Span { lo: 0, hi: 0 };
/// Where a word stands that the tree knows of only by its place.
const ELSEWHERE: Span = Span { lo: 1, hi: 2 };

fn name() -> BoxedStrategy<Name> {
    // Words of the language among them: none is reserved.
    let words = ["front", "back", "hem", "side", "neck_cf", "Ärmel", "top2", "curve", "step", "cut", "x1"];
    proptest::sample::select(words.to_vec()).prop_map(|word| Name { text: word.into(), span: HERE }).boxed()
}

fn names() -> BoxedStrategy<Vec<Name>> {
    vec(name(), 1..4).boxed()
}

fn dotted() -> BoxedStrategy<Dotted> {
    vec(name(), 1..4).prop_map(|parts| Dotted { parts, on: None, span: HERE }).boxed()
}

fn hand() -> BoxedStrategy<Hand> {
    proptest::sample::select(Hand::BOTH.to_vec()).boxed()
}

/// An edge or a piece, on both sides of the body or on one.
fn use_of() -> BoxedStrategy<Dotted> {
    (dotted(), option::of(hand())).prop_map(|(name, on)| Dotted { on, ..name }).boxed()
}

fn uses_of() -> BoxedStrategy<Vec<Dotted>> {
    vec(use_of(), 1..4).boxed()
}

fn dotteds() -> BoxedStrategy<Vec<Dotted>> {
    vec(dotted(), 1..4).boxed()
}

fn text() -> BoxedStrategy<Text> {
    "[ -~é½]{0,12}".prop_map(|text| Text { text: text.into(), span: HERE }).boxed()
}

fn label() -> BoxedStrategy<Option<Text>> {
    option::weighted(0.3, text()).boxed()
}

fn size() -> BoxedStrategy<SizeName> {
    let sizes = ["S", "2XL", "38", "3-4 y", "gro\"ss"];
    proptest::sample::select(sizes.to_vec())
        .prop_map(|text| SizeName { text: text.into(), span: HERE })
        .boxed()
}

fn number() -> BoxedStrategy<f64> {
    prop_oneof![(0..300_u32).prop_map(f64::from), (1..9999_u32).prop_map(|number| f64::from(number) / 8.0)]
        .boxed()
}

fn quantity() -> BoxedStrategy<Expr> {
    let units = vec![
        None,
        None,
        Some(Unit::Millimetre),
        Some(Unit::Centimetre),
        Some(Unit::Metre),
        Some(Unit::Inch),
        Some(Unit::Degree),
        Some(Unit::Percent),
    ];
    (number(), proptest::sample::select(units)).prop_map(|(number, unit)| literal(number, unit)).boxed()
}

fn literal(number: f64, unit: Option<Unit>) -> Expr {
    let unit = unit.map(|unit| UnitWord { unit, span: HERE });
    plain(ExprKind::Quantity(Quantity { number, unit, span: HERE }))
}

fn counted() -> BoxedStrategy<Expr> {
    let unit = prop_oneof![Just(Unit::Count), Just(Unit::Number)];
    (number(), unit).prop_map(|(number, unit)| literal(number, Some(unit))).boxed()
}

fn plain(kind: ExprKind) -> Expr {
    Expr { span: HERE, kind }
}

/// Operands, with sums and products in brackets.
fn operand() -> BoxedStrategy<Expr> {
    let leaf = prop_oneof![quantity(), counted(), dotted().prop_map(|name| plain(ExprKind::Name(name)))];
    leaf.prop_recursive(3, 12, 3, |inner| {
        let sum = summed(inner.clone());
        prop_oneof![
            sum.clone().prop_map(|one| plain(ExprKind::Group(Box::new(one)))),
            (name(), vec(sum.clone(), 1..3))
                .prop_map(|(function, arguments)| { plain(ExprKind::Call(Call { function, arguments })) }),
            (sum.clone(), sum).prop_map(|both| plain(ExprKind::Point(Box::new(both)))),
        ]
    })
    .boxed()
}

fn signed(operand: BoxedStrategy<Expr>) -> BoxedStrategy<Expr> {
    (any::<bool>(), operand)
        .prop_map(|(minus, one)| if minus { plain(ExprKind::Negative(Box::new(one))) } else { one })
        .boxed()
}

/// Terms, each a product of factors. A divisor takes neither `count` nor `number`.
fn summed(operand: BoxedStrategy<Expr>) -> BoxedStrategy<Expr> {
    let scaling = prop_oneof![Just(Scaling::Times), Just(Scaling::Over)];
    let factor = (scaling, signed(operand)).prop_map(|(scaling, factor)| {
        let divides_by_count = scaling == Scaling::Over && is_counted(&factor);
        (if divides_by_count { Scaling::Times } else { scaling }, factor)
    });
    let product = vec(factor, 1..4).prop_map(|mut factors| {
        if let Some(first) = factors.first_mut() {
            first.0 = Scaling::Times;
        }
        if factors.len() == 1 {
            return factors.remove(0).1;
        }
        plain(ExprKind::Product(factors))
    });
    let sign = prop_oneof![Just(Sign::Plus), Just(Sign::Minus)];
    vec((sign, product), 1..4)
        .prop_map(|mut terms| {
            if let Some(first) = terms.first_mut() {
                first.0 = Sign::Plus;
            }
            if terms.len() == 1 {
                return terms.remove(0).1;
            }
            plain(ExprKind::Sum(terms))
        })
        .boxed()
}

fn is_counted(expr: &Expr) -> bool {
    match &expr.kind {
        ExprKind::Negative(inner) => is_counted(inner),
        ExprKind::Quantity(quantity) => {
            quantity.unit.is_some_and(|word| matches!(word.unit, Unit::Count | Unit::Number))
        }
        _ => false,
    }
}

fn expr() -> BoxedStrategy<Expr> {
    summed(operand())
}

fn value() -> BoxedStrategy<Expr> {
    prop_oneof![
        4 => expr(),
        1 => vec(expr(), 1..4).prop_map(|values| plain(ExprKind::Each(values))),
        1 => expr().prop_map(|one| plain(ExprKind::EverySize(Box::new(one)))),
        1 => (expr(), option::of(size()), vec(signed(quantity()), 1..4)).prop_map(|(base, at, steps)| {
            plain(ExprKind::Grade(Box::new(Grade { base, at, steps })))
        }),
    ]
    .boxed()
}

fn comparison() -> BoxedStrategy<Comparison> {
    let relations = [
        Relation::Equal,
        Relation::Unequal,
        Relation::Less,
        Relation::LessOrEqual,
        Relation::Greater,
        Relation::GreaterOrEqual,
    ];
    let relation = proptest::sample::select(relations.to_vec());
    (expr(), relation, expr())
        .prop_map(|(left, relation, right)| Comparison {
            left,
            relation,
            relation_span: HERE,
            right,
            span: HERE,
        })
        .boxed()
}

fn run() -> BoxedStrategy<RunWords> {
    (option::of(expr()), expr(), dotted())
        .prop_map(|(from, to, counted)| RunWords { from, to, counted, span: HERE })
        .boxed()
}

fn sewn() -> BoxedStrategy<SewnWords> {
    (use_of(), option::of(run()))
        .prop_map(|(edge, run)| SewnWords { edge, run, over: Vec::new(), ring: false, span: HERE })
        .boxed()
}

/// An edge that is finished or stitched, in a ring or not.
fn ringed() -> BoxedStrategy<SewnWords> {
    (sewn(), any::<bool>()).prop_map(|(sewn, ring)| SewnWords { ring, ..sewn }).boxed()
}

/// A side of a closure.
fn ring_chain() -> BoxedStrategy<Chain> {
    (chain(), any::<bool>()).prop_map(|(chain, ring)| Chain { ring, ..chain }).boxed()
}

fn chain() -> BoxedStrategy<Chain> {
    vec(sewn(), 1..4).prop_map(|edges| Chain { edges, ring: false, span: HERE }).boxed()
}

fn side() -> BoxedStrategy<Side> {
    let stacked = (sewn(), prop_oneof![3 => Just(Vec::new()), 1 => vec(sewn(), 1..3)])
        .prop_map(|(first, over)| SewnWords { over, ..first });
    let chain = vec(stacked, 1..4).prop_map(|edges| Chain { edges, ring: false, span: HERE });
    vec(chain, 1..3).prop_map(|plies| Side { plies, span: HERE }).boxed()
}

fn fitted_body() -> BoxedStrategy<FittedBody> {
    let value = prop_oneof![
        quantity().prop_map(FittedValue::Measured),
        size().prop_map(FittedValue::AsSize),
        Just(FittedValue::BetweenSizes(HERE)),
    ];
    let named = (name(), value, option::of(text())).prop_map(|(name, value, label)| FittedRow {
        span: HERE,
        name: Some(name),
        value,
        label,
    });
    let of_rest = prop_oneof![size().prop_map(FittedValue::AsSize), Just(FittedValue::BetweenSizes(HERE)),];
    let rest = (of_rest, option::of(text())).prop_map(|(value, label)| FittedRow {
        span: HERE,
        name: None,
        value,
        label,
    });
    vec(prop_oneof![3 => named, 1 => rest], 0..4)
        .prop_map(|rows| FittedBody { span: HERE, word: HERE, rows })
        .boxed()
}

fn credit() -> BoxedStrategy<StatementNode> {
    let level = prop_oneof![Just(Level::Easy), Just(Level::Medium), Just(Level::Hard)];
    prop_oneof![
        text().prop_map(Credit::Maker),
        (1..999_999_999_u32).prop_map(Credit::Edition),
        text().prop_map(Credit::Licence),
        level.prop_map(Credit::Level),
    ]
    .prop_map(StatementNode::Credit)
    .boxed()
}

fn header() -> BoxedStrategy<StatementNode> {
    let pin = option::of(Just(Pin { digits: "3f2a9c1d5b7e0a42".into(), span: HERE }));
    let file = (text(), pin).prop_map(|(path, pin)| NamedFile { path, pin });
    prop_oneof![
        text().prop_map(StatementNode::Garment),
        (text(), file.clone(), vec(file.clone(), 0..3), vec(text(), 0..3)).prop_map(
            |(title, base, with, without)| StatementNode::Variation(VariationOf {
                title,
                base,
                with,
                without
            })
        ),
        (text(), file.clone(), vec(fitted_body(), 0..3)).prop_map(|(wearer, base, bodies)| {
            StatementNode::Fitting(FittingOf { wearer, base, bodies })
        }),
        file.prop_map(StatementNode::Use),
        value().prop_map(StatementNode::Allowance),
        value().prop_map(StatementNode::Tolerance),
        text().prop_map(StatementNode::About),
        credit(),
        vec(size(), 1..5).prop_map(|names| StatementNode::Sizes(Sizes { names })),
        names().prop_map(|measures| StatementNode::Pick(Pick { measures })),
        (expr(), expr(), any::<bool>(), any::<bool>()).prop_map(|(from, to, months, for_sleep)| {
            StatementNode::Wearer(Wearer { who: Who::Child { from, to, months }, for_sleep })
        }),
        (name(), value(), option::of(text())).prop_map(|(name, value, label)| {
            StatementNode::Let(Let { name, value: LetValue::Is(value), label })
        }),
        (name(), value(), value(), comparison()).prop_map(|(name, low, high, so_that)| {
            StatementNode::Let(Let { name, value: LetValue::Solved { low, high, so_that }, label: None })
        }),
        (name(), text(), option::of(name()), value()).prop_map(|(name, title, against, value)| {
            StatementNode::Measure(Measure { name, title, against, value })
        }),
        (comparison(), text())
            .prop_map(|(condition, because)| StatementNode::Require(Require { condition, because })),
        (name(), name(), any::<bool>(), option::of(name()), option::of((1..9_u32, 1..9_u32)), names())
            .prop_map(|(name, fabric, fused, onto, share, pieces)| {
                let onto = onto.filter(|_| fused);
                let share = share.filter(|_| fused);
                let share = share.map(|(fused, of)| FusedShare { fused, of, span: HERE });
                StatementNode::Layer(Layer { name, fabric, fused, share, onto, pieces })
            }),
        (name(), value(), option::of(text())).prop_map(|(name, value, label)| StatementNode::Set(Set {
            name,
            value,
            label
        })),
    ]
    .boxed()
}

fn direction() -> BoxedStrategy<Direction> {
    prop_oneof![
        Just(DirectionKind::Up),
        Just(DirectionKind::Left),
        name().prop_map(DirectionKind::SquareTo),
        name().prop_map(DirectionKind::Along),
        operand().prop_map(DirectionKind::Toward),
        (1..99_u32).prop_map(|angle| DirectionKind::Angle(literal(f64::from(angle), Some(Unit::Degree)))),
    ]
    .prop_map(|kind| Direction { span: HERE, kind })
    .boxed()
}

fn path() -> BoxedStrategy<EdgePath> {
    prop_oneof![
        Just(EdgePath::Straight),
        (expr(), any::<bool>()).prop_map(|(about, clockwise)| EdgePath::Arc { about, clockwise, span: HERE }),
        (expr(), expr()).prop_map(|(first, second)| EdgePath::Handles { first, second, span: HERE }),
        (option::of(direction()), option::of(direction()), vec(expr(), 0..3)).prop_map(
            |(leaving, arriving, through)| EdgePath::Curve { leaving, arriving, through, span: HERE }
        ),
    ]
    .boxed()
}

fn pleat(place: BoxedStrategy<EdgePlace>) -> BoxedStrategy<PieceItemNode> {
    (name(), pleat_ways(place))
        .prop_map(|(name, pleat)| {
            PieceItemNode::TakeUp(TakeUp { name, form: TakeUpForm::Pleat(Box::new(pleat)) })
        })
        .boxed()
}

fn pleat_ways(place: BoxedStrategy<EdgePlace>) -> BoxedStrategy<Pleat> {
    let place = prop_oneof![Just(PleatPlace::Fold), place.prop_map(PleatPlace::On)];
    let kind = prop_oneof![
        Just(PleatKind::Knife),
        option::of(expr()).prop_map(PleatKind::Box),
        option::of(expr()).prop_map(PleatKind::Inverted)
    ];
    let row = option::of((value(), value()));
    let ways = (option::of(name()), option::of(name()), option::of(value()), option::of(name()));
    (any::<bool>(), name(), place, value(), kind, row, ways, any::<bool>())
        .prop_map(|(tuck, edge, place, depth, kind, row, (toward, to, stitched, along), trued)| Pleat {
            tuck,
            edge,
            place,
            depth,
            kind,
            row,
            toward,
            to,
            stitched,
            along,
            trued,
        })
        .boxed()
}

fn slit(place: BoxedStrategy<EdgePlace>) -> BoxedStrategy<PieceItemNode> {
    let end = prop_oneof![
        value().prop_map(|long| SlitEnd::Way(PressedWay::Up, long)),
        value().prop_map(|long| SlitEnd::Way(PressedWay::Left, long)),
        expr().prop_map(SlitEnd::To)
    ];
    let cut = prop_oneof![
        (name(), place, end).prop_map(|(edge, place, end)| SlitCut::FromEdge { edge, place, end }),
        (expr(), expr()).prop_map(|(from, to)| SlitCut::Inside { from, to })
    ];
    (name(), cut, option::of(value()))
        .prop_map(|(name, cut, window)| {
            PieceItemNode::TakeUp(TakeUp { name, form: TakeUpForm::Slit { cut, window } })
        })
        .boxed()
}

fn piece_item() -> BoxedStrategy<PieceItem> {
    let cut_how = prop_oneof![Just(CutHow::Alike), Just(CutHow::Mirrored), name().prop_map(CutHow::OnFold)];
    let laid = prop_oneof![
        Just(DartLaid::CutOpen),
        Just(DartLaid::Pressed(PressedWay::Down)),
        name().prop_map(DartLaid::Toward)
    ];
    let ways = (option::of(expr()), laid, any::<bool>())
        .prop_map(|(stopping, laid, trued)| DartWays { stopping, laid, trued })
        .boxed();
    let dart = (expr(), ways.clone()).prop_map(|(about, ways)| WalkDart { about, ways });
    let edge = (name(), label(), name(), path(), option::weighted(0.2, dart)).prop_map(
        |(name, label, to, path, dart)| {
            let path = if dart.is_some() { EdgePath::Straight } else { path };
            let label = label.filter(|_| dart.is_none());
            WalkEdge { span: HERE, name, label, to, path, dart }
        },
    );
    let place = prop_oneof![
        Just(EdgePlace::Middle),
        (value(), option::of(dotted())).prop_map(|(value, from)| EdgePlace::At { value, from })
    ]
    .boxed();
    let cloth = prop_oneof![
        (name(), place.clone(), value(), expr()).prop_map(|(edge, place, width, to)| DartCloth::OnEdge {
            edge,
            place,
            width,
            to
        }),
        (value(), value(), value(), value()).prop_map(|(at, width, up, down)| DartCloth::Inside {
            at,
            width,
            up,
            down
        }),
    ];
    prop_oneof![
        (value(), cut_how, any::<bool>()).prop_map(|(count, how, loose)| PieceItemNode::Cut(Cut {
            count,
            how,
            loose
        })),
        (name(), value()).prop_map(|(name, at)| PieceItemNode::Point(PointFact { name, label: None, at })),
        (name(), label(), value()).prop_map(|(name, label, at)| PieceItemNode::Mark(PointFact {
            name,
            label,
            at
        })),
        vec(edge.clone(), 0..4).prop_map(|edges| PieceItemNode::Outline(Outline::Parts(edges))),
        (name(), any::<bool>(), vec(edge, 0..4)).prop_map(|(from, cutting, edges)| PieceItemNode::Outline(
            Outline::Walk { from, cutting, edges }
        )),
        (value(), value())
            .prop_map(|(width, height)| PieceItemNode::Outline(Outline::Rectangle { width, height })),
        (
            dotted(),
            vec((name(), option::of(run())).prop_map(|(edge, run)| StripEdge { edge, run }), 1..3),
            value(),
            any::<bool>()
        )
            .prop_map(|(of, along, width, mirrored)| {
                PieceItemNode::Outline(Outline::Strip { of, along, width, mirrored })
            }),
        (dotted(), dotted(), any::<bool>()).prop_map(|(of, without, mirrored)| {
            PieceItemNode::Outline(Outline::Rest { of, without, mirrored })
        }),
        (dotted(), any::<bool>())
            .prop_map(|(of, mirrored)| PieceItemNode::Outline(Outline::Copy { of, mirrored })),
        (name(), value()).prop_map(|(point, by)| PieceItemNode::MovePoint { point, by }),
        (name(), label(), value(), value(), any::<bool>()).prop_map(|(name, label, from, to, adjust)| {
            let adjust = adjust.then_some(HERE);
            PieceItemNode::Line(Line { name, label, run: LineRun::FromTo(from, to), adjust })
        }),
        (name(), label(), value(), value(), path()).prop_map(|(name, label, from, to, path)| {
            PieceItemNode::Line(Line { name, label, run: LineRun::Way(from, to, path), adjust: None })
        }),
        (name(), place.clone(), any::<bool>())
            .prop_map(|(edge, place, double)| { PieceItemNode::Notch(Notch { edge, place, double }) }),
        (name(), place.clone(), name(), name()).prop_map(|(edge, place, near, rest)| {
            PieceItemNode::Divide(Divide { edge, place, into: (near, rest) })
        }),
        (name(), cloth, ways).prop_map(|(name, cloth, ways)| {
            PieceItemNode::TakeUp(TakeUp { name, form: TakeUpForm::Dart { cloth, ways } })
        }),
        pleat(place.clone()),
        slit(prop_oneof![place, Just(EdgePlace::Fold)].boxed()),
        (name(), name(), any::<bool>()).prop_map(|(edge, onto, in_four)| PieceItemNode::Folded {
            edge,
            onto,
            in_four
        }),
        name().prop_map(|edge| PieceItemNode::Grain(Grain::Along(edge))),
        (name(), name()).prop_map(|(first, second)| {
            PieceItemNode::Corner(CornerFact { first, second, style: CornerStyle::Blunt })
        }),
        Just(PieceItemNode::NeverFlipped),
        left_outs().prop_map(PieceItemNode::Without),
        hand().prop_map(PieceItemNode::Drawn),
    ]
    .prop_map(|node| PieceItem { span: HERE, node })
    .boxed()
}

/// A notch, whose place may be a list, comes last.
fn left_outs() -> BoxedStrategy<Vec<LeftOut>> {
    let named = prop_oneof![
        name().prop_map(LeftOut::Named),
        (name(), name()).prop_map(|(one, other)| LeftOut::Corner(one, other)),
    ];
    let notch = (name(), option::of(edge_place())).prop_map(|(edge, place)| LeftOut::Notch { edge, place });
    (vec(named, 1..4), option::of(notch))
        .prop_map(|(all, notch)| all.into_iter().chain(notch).collect())
        .boxed()
}

fn edge_place() -> BoxedStrategy<EdgePlace> {
    let at = (value(), option::of(dotted())).prop_map(|(value, from)| EdgePlace::At { value, from });
    prop_oneof![Just(EdgePlace::Middle), at].boxed()
}

/// A place that a strap or a tack goes to.
fn held_place() -> BoxedStrategy<EdgePlace> {
    prop_oneof![edge_place(), Just(EdgePlace::Fold)].boxed()
}

fn sewn_place() -> BoxedStrategy<SewnPlace> {
    (dotted(), option::of(edge_place())).prop_map(|(at, place)| SewnPlace { at, place, span: HERE }).boxed()
}

fn gap_at() -> BoxedStrategy<GapAt> {
    (option::of(dotted()), option::of(dotted()))
        .prop_map(|(counted, along)| GapAt { counted, along, span: HERE })
        .boxed()
}

fn sewing() -> BoxedStrategy<StatementNode> {
    let kinds = [FitKind::Easing, FitKind::Gathering, FitKind::Stretching];
    let fit = (
        proptest::sample::select(kinds.to_vec()),
        value(),
        option::of(value()),
        option::of((sewn_place(), sewn_place())),
    )
        .prop_map(|(kind, low, high, between)| Fit { kind, low, high, between, span: HERE });
    let seam_item = prop_oneof![
        value().prop_map(SeamItemNode::Allowance),
        Just(SeamItemNode::Stitch(StitchWord { word: "lockstitch".into(), span: HERE })),
        option::of(value()).prop_map(SeamItemNode::Tape),
        (edge_place(), any::<bool>()).prop_map(|(place, double)| SeamItemNode::Notch { place, double }),
        any::<bool>().prop_map(|double| SeamItemNode::Notches { apart: NotchesApart::Thirds, double }),
        (value(), any::<bool>())
            .prop_map(|(every, double)| SeamItemNode::Notches { apart: NotchesApart::Every(every), double }),
        // `gap each 1, 2, left` would be a list with three values.
        (option::of(expr()), expr(), option::of(gap_at()), option::of(name()), option::of(Just(Hand::Left)))
            .prop_map(|(begins, length, at, layer, hand)| {
                // A range is counted from somewhere.
                let begins = begins.filter(|_| at.is_some());
                SeamItemNode::Gap { begins, length, at, layer, hand }
            }),
        (dotted(), dotted()).prop_map(|(first, second)| SeamItemNode::Matching(first, second)),
        (dotted(), dotted(), edge_place()).prop_map(|(ply, on, place)| SeamItemNode::Caught {
            ply,
            on,
            place
        }),
        (proptest::sample::select(SeamKind::ALL.to_vec()), value(), dotted()).prop_map(
            |(kind, width, over)| {
                SeamItemNode::Kind { kind, width, over: kind.has_upper_side().then_some(over) }
            }
        ),
    ]
    .prop_map(|node| SeamItem { span: HERE, node });
    let hem_edge = || {
        prop_oneof![
            Just(HemEdge::TurnedOnce),
            value().prop_map(HemEdge::TurnedUnder),
            Just(HemEdge::TurnedTwice)
        ]
    };
    let finish = prop_oneof![
        (value(), hem_edge(), option::of(value()))
            .prop_map(|(depth, raw_edge, turn_up)| FinishKind::Hem(Hem { depth, raw_edge, turn_up })),
        (
            value(),
            option::of(name()),
            vec((value(), prop_oneof![Just(RowEnd::Start), Just(RowEnd::End)]), 0..3),
            vec((value(), sewn_place()), 0..3)
        )
            .prop_map(|(width, cut_from, running_on, loops)| {
                FinishKind::Bound(Binding { width, cut_from, running_on, loops })
            }),
        option::of(value()).prop_map(FinishKind::Tape),
        name().prop_map(FinishKind::TurnedUnderOnto),
        (value(), value()).prop_map(|(width, length)| FinishKind::Elastic { width, length }),
        (value(), option::of((value(), value())))
            .prop_map(|(depth, elastic)| FinishKind::Casing { depth, elastic }),
        Just(FinishKind::Raw),
    ];
    let place_item = prop_oneof![
        (name(), name())
            .prop_map(|(corner, at)| { PlaceItemNode::Corner { corner, at: HostPlace::Point(at) } }),
        (name(), name(), edge_place()).prop_map(|(corner, edge, place)| {
            PlaceItemNode::Corner { corner, at: HostPlace::Edge(edge, place) }
        }),
        names().prop_map(PlaceItemNode::Topstitch),
        Just(PlaceItemNode::TopstitchAllRound),
        (names(), name()).prop_map(|(edges, in_seam)| PlaceItemNode::Caught { edges, in_seam }),
    ]
    .prop_map(|node| PlaceItem { span: HERE, node });
    let anchor = || {
        prop_oneof![
            (value(), any::<bool>(), name()).prop_map(|(distance, below, point)| AnchorAt::Beside {
                distance,
                below,
                point
            }),
            edge_place().prop_map(AnchorAt::Place),
        ]
        .prop_map(|at| Anchor { at, span: HERE })
    };
    let fasteners = (
        proptest::sample::select(Fastener::ALL.to_vec()),
        any::<bool>(),
        (value(), value()),
        option::of((anchor(), anchor())),
        (anchor(), anchor()),
        option::of(value()),
        option::of(Just(Hand::Right)),
    )
        .prop_map(|(kind, bought, (count, size), between, ends, stand, over)| {
            let (count, size) = match kind {
                Fastener::Button | Fastener::Snap | Fastener::Toggle => (Some(count), Some(size)),
                Fastener::Hook => (Some(count), None),
                Fastener::Buckle => (None, Some(size)),
                Fastener::Tie if bought => (Some(count), Some(size)),
                Fastener::Tie => (None, None),
            };
            let between = if kind == Fastener::Button { Some(ends) } else { between };
            ClosureItemNode::Fasteners(Box::new(Fasteners { kind, count, size, between, stand, over }))
        });
    let zip = (vec(expr(), 1..4), option::of(value()), option::of(value())).prop_map(
        |(lengths, showing, clear)| {
            ClosureItemNode::Zipper(Zipper {
                kind: ZipperKind::Closed,
                lengths,
                stocked: true,
                showing,
                clear,
            })
        },
    );
    let strap_end = || {
        (
            dotted(),
            option::of(Just(Hand::Left)),
            option::of(held_place().prop_map(Box::new)),
            option::of(name()),
        )
            .prop_map(|(at, hand, place, caught)| StrapEnd { at, hand, place, caught, span: HERE })
    };
    let strap_item = prop_oneof![
        (strap_end(), option::of(strap_end())).prop_map(|(from, to)| StrapItemNode::Run { from, to }),
        (value(), any::<bool>()).prop_map(|(length, boxed)| StrapItemNode::Sewn { length, boxed }),
    ]
    .prop_map(|node| StrapItem { span: HERE, node });
    let closure_item = prop_oneof![fasteners, zip].prop_map(|node| ClosureItem { span: HERE, node });
    prop_oneof![
        (
            name(),
            side(),
            side(),
            option::of(fit),
            prop_oneof![Just(Vec::new()), names()],
            vec(seam_item, 0..4)
        )
            .prop_map(|(name, first, second, fit, enclosing, items)| {
                let across_fold = false;
                let (label, along) = (None, None);
                let seam = Seam { name, label, first, second, fit, across_fold, along, enclosing, items };
                StatementNode::Seam(seam)
            }),
        (name(), label(), dotteds()).prop_map(|(name, label, ends)| {
            let ply = |edge: Dotted| {
                let edges = vec![SewnWords { edge, run: None, over: Vec::new(), ring: false, span: HERE }];
                Chain { edges, ring: false, span: HERE }
            };
            let first = Side { plies: ends.into_iter().map(ply).collect(), span: HERE };
            let second = Side { plies: Vec::new(), span: HERE };
            let (fit, enclosing, items) = (None, Vec::new(), Vec::new());
            let (across_fold, along) = (true, None);
            let seam = Seam { name, label, first, second, fit, across_fold, along, enclosing, items };
            StatementNode::Seam(seam)
        }),
        (vec(ringed(), 1..4), finish, option::of(value())).prop_map(|(edges, kind, stretch)| {
            let binding_stretch = stretch.filter(|_| matches!(kind, FinishKind::Bound(_)));
            StatementNode::Finish(Finish { edges, kind, kind_span: HERE, binding_stretch, stitch: None })
        }),
        (dotted(), use_of(), vec(place_item, 0..4))
            .prop_map(|(piece, on, items)| StatementNode::Place(Place { piece, on, items })),
        (name(), ring_chain(), ring_chain(), vec(closure_item, 0..3)).prop_map(
            |(name, first, second, items)| {
                let end_to_end = (items.len() % 2 == 1).then_some(name.span);
                StatementNode::Closure(Closure { name, first, second, end_to_end, items })
            }
        ),
        (name(), any::<bool>(), option::of(value()), vec(ringed(), 1..4), option::of((value(), value())))
            .prop_map(|(name, under, distance, edges, rows)| {
                let kind = if under { RowKind::Understitch } else { RowKind::Topstitch };
                // Along lines there is one row.
                let rows = rows.filter(|_| distance.is_some());
                StatementNode::StitchedRow(StitchedRow { name, kind, distance, edges, rows, stitch: None })
            }),
        (name(), sewn_place(), option::of(sewn_place()), option::of(value()))
            .prop_map(|(name, from, to, bar)| StatementNode::Tack(Box::new(Tack { name, from, to, bar }))),
        (chain(), name()).prop_map(|(ring, passes)| StatementNode::Opening(Opening { ring, passes })),
        (name(), value(), uses_of(), option::of(value())).prop_map(|(name, length, through, ends)| {
            StatementNode::Cord(Cord { name, length, through, ends })
        }),
        (name(), text(), vec(sewn_place(), 1..4)).prop_map(|(name, notion, places)| {
            StatementNode::Setting(Box::new(Setting { name, notion, places }))
        }),
        (name(), dotted(), value(), option::of(value()), option::of(hand())).prop_map(
            |(name, slit, width, under, upper)| {
                let kind = match under {
                    Some(under) => PlacketKind::TwoPart { over: width, under, upper },
                    None => PlacketKind::Bound(width),
                };
                StatementNode::Placket(Placket { name, slit, kind })
            }
        ),
        (name(), (dotted(), dotted()), names()).prop_map(|(name, (first, second), edges)| {
            let side = |piece: &Dotted| {
                let each = edges.iter().map(|edge| {
                    let parts = piece.parts.iter().chain([edge]).cloned().collect();
                    let edge = Dotted { parts, on: None, span: HERE };
                    SewnWords { edge, run: None, over: Vec::new(), ring: false, span: HERE }
                });
                let chain = Chain { edges: each.collect(), ring: false, span: HERE };
                Side { plies: vec![chain], span: HERE }
            };
            let (one, other) = (side(&first), side(&second));
            let along = Some(Box::new(SeamAlong { pieces: [first, second], edges }));
            let (fit, enclosing, items) = (None, Vec::new(), Vec::new());
            let across_fold = false;
            let label = None;
            let seam =
                Seam { name, label, first: one, second: other, fit, across_fold, along, enclosing, items };
            StatementNode::Seam(seam)
        }),
        (
            (name(), option::of(text()), name(), value()),
            (any::<bool>(), any::<bool>(), any::<bool>()),
            (plain_chain(true), option::of(plain_chain(true)), option::of(value())),
            (option::of(dotted()), option::of(dotted()), option::of((value(), name())), option::of(name())),
            vec(allowance_item(), 0..3),
        )
            .prop_map(|(head, (folded, across, round), of, ends, items)| {
                let ((name, title, layer, depth), (edges, inside, share)) = (head, of);
                let (joined, opening, underlap, stiffened) = ends;
                let across = across.then_some(HERE);
                let underlap = underlap.map(|(length, at)| Underlap { length, at });
                StatementNode::Band(Box::new(Band {
                    name,
                    title,
                    layer,
                    depth,
                    folded,
                    across,
                    round,
                    edges,
                    inside,
                    share,
                    joined,
                    opening,
                    underlap,
                    stiffened,
                    items,
                }))
            }),
        (
            (name(), option::of(text()), name(), value()),
            plain_chain(false),
            (option::of(name()), any::<bool>(), any::<bool>()),
            vec(allowance_item(), 0..3),
        )
            .prop_map(|((name, title, layer, width), edges, (stiffened, under, raw), items)| {
                let understitched = under.then_some(HERE);
                let neatened =
                    raw.then_some(Neatened { kind: FinishKind::Raw, binding_stretch: None, span: HERE });
                let facing =
                    Facing { name, title, layer, width, edges, stiffened, understitched, neatened, items };
                StatementNode::Facing(Box::new(facing))
            }),
        (name(), option::of(text()), (value(), value()), name(), any::<bool>(), vec(strap_item, 0..3))
            .prop_map(|(name, title, (length, width), layer, in_four, items)| {
                let strap = Strap { name, title, length, width, layer, in_four, items };
                StatementNode::Strap(Box::new(strap))
            }),
    ]
    .boxed()
}

/// Edges joined with `+`, without runs and sides.
fn plain_chain(may_be_ring: bool) -> BoxedStrategy<Chain> {
    (dotteds(), any::<bool>())
        .prop_map(move |(edges, ring)| {
            let whole =
                |edge: Dotted| SewnWords { edge, run: None, over: Vec::new(), ring: false, span: HERE };
            let edges = edges.into_iter().map(whole).collect();
            Chain { edges, ring: ring && may_be_ring, span: HERE }
        })
        .boxed()
}

fn allowance_item() -> BoxedStrategy<SeamItem> {
    value().prop_map(|amount| SeamItem { span: HERE, node: SeamItemNode::Allowance(amount) }).boxed()
}

fn step_group() -> BoxedStrategy<StepGroup> {
    let verbs = [
        Verb::Sew,
        Verb::Baste,
        Verb::Hem,
        Verb::TurnThroughGap,
        Verb::SlipstitchGap,
        Verb::Thread,
        Verb::Tack,
    ];
    let of_verb = proptest::sample::select(verbs.to_vec());
    let joints = option::of((1..9_u32, 0..3_u32));
    let joints =
        joints.prop_map(|own| own.map(|(first, more)| Joints { first, last: first + more, span: HERE }));
    // What is turned and closed through a gap has no joints.
    let target = (dotted(), joints).prop_map(|(name, joints)| StepTarget { name, joints });
    let done = (option::of(name()), of_verb, vec(target, 1..4), option::of(text())).prop_map(
        |(layer, verb, mut targets, words)| {
            if matches!(verb, Verb::TurnThroughGap | Verb::SlipstitchGap) {
                targets.iter_mut().for_each(|target| target.joints = None);
            }
            Action { span: HERE, layer, verb, verb_span: HERE, targets, words }
        },
    );
    let note = text().prop_map(|words| {
        let (verb, targets, words) = (Verb::Note, Vec::new(), Some(words));
        Action { span: HERE, layer: None, verb, verb_span: HERE, targets, words }
    });
    let action = prop_oneof![4 => done, 1 => note];
    (text(), vec(action, 0..4)).prop_map(|(title, actions)| StepGroup { span: HERE, title, actions }).boxed()
}

fn alteration() -> BoxedStrategy<Alteration> {
    let written: Vec<AlterationKind> =
        AlterationKind::ALL.into_iter().filter(|kind| kind.has_statement()).collect();
    proptest::sample::select(written).prop_flat_map(alteration_of).boxed()
}

/// An alteration of that kind, with the clauses that its form has.
fn alteration_of(kind: AlterationKind) -> BoxedStrategy<Alteration> {
    let form = kind.form();
    let (least, most, at) = match form.targets {
        TargetForm::Pieces(_) => (1, 4, true),
        TargetForm::Piece(_) => (1, 2, true),
        TargetForm::Wholes => (1, 4, false),
        TargetForm::Whole => (1, 2, false),
        TargetForm::TwoPieces(_) => (2, 3, true),
        TargetForm::Edges => (1, 4, false),
        TargetForm::Edge | TargetForm::Dart => (1, 2, false),
        TargetForm::Closure => (0, 1, false),
    };
    let made = match kind {
        AlterationKind::Split | AlterationKind::Unpair => 2,
        AlterationKind::Join => 1,
        _ => 0,
    };
    let until = (option::of(value()), name()).prop_map(|(about, closure)| Amount::Until {
        about,
        closure,
        span: HERE,
    });
    let amount = match form.amount {
        AmountForm::None => Just(None).boxed(),
        AmountForm::By => value().prop_map(|by| Some(Amount::By(by))).boxed(),
        AmountForm::ByOrUntil => prop_oneof![value().prop_map(Amount::By), until].prop_map(Some).boxed(),
    };
    let keeping = match form.amount {
        AmountForm::ByOrUntil => prop_oneof![Just(Vec::new()), dotteds()].boxed(),
        AmountForm::None | AmountForm::By => Just(Vec::new()).boxed(),
    };
    let redraws = kind == AlterationKind::Redraw;
    (vec(dotted(), least..most), name(), path(), amount, keeping, vec(name(), made), dart_change(kind))
        .prop_map(move |(targets, place, way, amount, keeping, into, mut dart)| {
            // The edge of a pleat that is let in is named where the alteration names it.
            let edge = targets.first().and_then(|target: &Dotted| target.parts.last());
            if let (Some(DartChange::LetPleat(change)), Some(edge)) = (&mut dart, edge) {
                change.pleat.edge = edge.clone();
            }
            Alteration {
                kind,
                targets,
                at: match &dart {
                    // The new edge stands where a line's name would.
                    Some(DartChange::Split(split)) => Some(split.named.clone()),
                    _ => at.then_some(place),
                },
                path: redraws.then_some(way),
                amount,
                keeping,
                into,
                dart,
                tapered: None,
                stepped: false,
            }
        })
        .boxed()
}

/// Where a dart opens.
fn dart_place() -> BoxedStrategy<EdgePlace> {
    (expr(), option::of(dotted())).prop_map(|(value, from)| EdgePlace::At { value, from }).boxed()
}

/// What an alteration of that kind says of the dart that it names.
fn dart_change(kind: AlterationKind) -> BoxedStrategy<Option<DartChange>> {
    let left = prop_oneof![Just(LeftAs::Ease), Just(LeftAs::Gathers), Just(LeftAs::Flare)];
    match kind {
        AlterationKind::Split => {
            let split = (name(), vec(expr(), 0..3), name(), name(), option::of(value()));
            let split = split.prop_map(|(from, through, to, named, rounded)| {
                DartChange::Split(Box::new(DartSplit { from, through, to, named, rounded }))
            });
            option::of(split).boxed()
        }
        AlterationKind::CloseDart => Just(Some(DartChange::Close)).boxed(),
        AlterationKind::LetDart => {
            let laid = prop_oneof![Just(DartLaid::CutOpen), name().prop_map(DartLaid::Toward)];
            let ways = (option::of(expr()), laid, any::<bool>())
                .prop_map(|(stopping, laid, trued)| DartWays { stopping, laid, trued });
            (name(), dart_place(), value(), expr(), name(), option::of(dart_place()), ways)
                .prop_map(|(name, place, angle, to, turning, ends, ways)| {
                    let change = DartLet { name, place, angle, to, turning, ends, ways };
                    Some(DartChange::Let(Box::new(change)))
                })
                .boxed()
        }
        AlterationKind::LetPleat => (name(), pleat_ways(dart_place()), option::of(name()))
            .prop_map(|(name, pleat, nothing)| {
                let pleat = Pleat { tuck: false, to: None, ..pleat };
                Some(DartChange::LetPleat(Box::new(PleatLet { name, pleat, nothing })))
            })
            .boxed(),
        AlterationKind::LeaveDart => left.prop_map(|left| Some(DartChange::Leave(left))).boxed(),
        AlterationKind::MoveDart => {
            let goal = prop_oneof![
                (name(), dart_place()).prop_map(|(edge, place)| DartGoal::Edge { edge, place }),
                dotted().prop_map(DartGoal::Dart)
            ];
            let laid = prop_oneof![Just(DartLaid::CutOpen), name().prop_map(DartLaid::Toward)];
            (
                option::of(expr()),
                goal,
                option::of(name()),
                option::of(expr()),
                option::of(laid),
                any::<bool>(),
            )
                .prop_map(|(share, goal, named, stopping, laid, trued)| {
                    let change = DartMove { share, goal, named, stopping, laid, trued };
                    Some(DartChange::Move(Box::new(change)))
                })
                .boxed()
        }
        _ => Just(None).boxed(),
    }
}

fn drop_statement() -> BoxedStrategy<Drop> {
    let kinds = [DropKind::Piece, DropKind::Seam, DropKind::Finish, DropKind::Let, DropKind::Opening];
    let by_name = (proptest::sample::select(kinds.to_vec()), dotted()).prop_map(|(kind, target)| Drop {
        kind,
        target: NameOrText::Name(target),
        on: None,
        run: None,
        and_all_sewn: kind == DropKind::Piece,
        kind_span: ELSEWHERE,
    });
    let by_text = text().prop_map(|target| Drop {
        kind: DropKind::Step,
        target: NameOrText::Text(target),
        on: None,
        run: None,
        and_all_sewn: false,
        kind_span: ELSEWHERE,
    });
    prop_oneof![by_name, by_text].boxed()
}

/// One statement.
pub fn statement() -> BoxedStrategy<Statement> {
    let once = prop_oneof![
        3 => header(),
        2 => (name(), option::of(text()), any::<bool>(), option::of(name()), vec(piece_item(), 0..6)).prop_map(
            |(name, title, block, like, items)| StatementNode::Piece(Piece { name, title, block, like, items })
        ),
        3 => sewing(),
        1 => vec(step_group(), 0..4).prop_map(|groups| StatementNode::Steps(Steps { groups })),
        2 => alteration().prop_map(StatementNode::Alteration),
    ]
    .prop_map(|node| Statement { span: HERE, node });
    let may_be_replaced = |one: &Statement| !matches!(one.node, StatementNode::Set(_));
    prop_oneof![
        6 => once.clone(),
        1 => once.prop_filter("a set is replaced by nothing", may_be_replaced).prop_map(|one| Statement {
            span: HERE,
            node: StatementNode::Replace(Box::new(one)),
        }),
        1 => drop_statement().prop_map(|one| Statement { span: HERE, node: StatementNode::Drop(one) }),
        1 => (any::<bool>(), text(), step_group()).prop_map(|(after, anchor, group)| Statement {
            span: HERE,
            node: StatementNode::AddSteps(AddSteps { after, anchor, group }),
        }),
        1 => (name(), vec(piece_item(), 0..4)).prop_map(|(piece, items)| Statement {
            span: HERE,
            node: StatementNode::AddToPiece(AddToPiece { piece, items, how: PieceChange::Adds }),
        }),
        1 => change_of_what_is_sewn().prop_map(|node| Statement { span: HERE, node }),
    ]
    .boxed()
}

/// `in band … opening at …`, `in seam … add { … }`
fn change_of_what_is_sewn() -> BoxedStrategy<StatementNode> {
    let lies = (option::of((any::<bool>(), plain_chain(false))), option::of(plain_chain(false)));
    let ends = (option::of(dotted()), option::of(dotted()), option::of((value(), name())));
    let band = (names(), option::of(value()), lies, option::of(value()), ends, option::of(name()));
    let band = (band, vec(allowance_item(), 0..3)).prop_map(
        |((names, depth, (edges, inside), share, (joined, opening, underlap), stiffened), items)| {
            let underlap = underlap.map(|(length, at)| Underlap { length, at });
            StatementNode::ChangeBand(Box::new(BandChange {
                names,
                depth,
                edges,
                inside,
                share,
                joined,
                opening,
                underlap,
                stiffened,
                items,
            }))
        },
    );
    let seam = (name(), any::<bool>(), vec(allowance_item(), 1..3)).prop_map(|(name, replaces, items)| {
        let how = if replaces { PieceChange::Replaces } else { PieceChange::Adds };
        StatementNode::ChangeSeam(SeamChange { name, how, items })
    });
    prop_oneof![band, seam].boxed()
}
