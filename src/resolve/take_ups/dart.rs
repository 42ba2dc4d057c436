//! A dart on its piece: where its sides are, where it is sewn to and which way it is pressed.

use super::place::place_on;
use crate::garment::{Dart, DartCloth, EdgeId, Expression, Piece, Pressed, PressedTo, TakeUp};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnTakeUp, Mouth};
use crate::resolve::sketch::Sketch;
use crate::resolve::work::Work;
use crate::shape::nearest::nearer;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::wedge::Wedge;
use crate::shape::{Point, Vec2};
use crate::source::Span;

/// How much nearer what a dart is pressed towards must lie to one side than to the other, as a share of the
/// dart's width: less cannot be told by eye (a judgement).
const TELLS: f64 = 0.05;

/// Where the cloth of a dart lies, before anything is said of how it is sewn.
struct Cloth {
    mouth: Option<Mouth>,
    sides: [Point; 2],
    apex: Point,
    upper: Option<Point>,
    near: usize,
}

/// A dart on its piece; reported if it has no place there.
pub(super) fn dart(
    work: &Work,
    piece: &Piece,
    sketch: &Sketch,
    take_up: &TakeUp,
    dart: &Dart,
) -> Option<DrawnTakeUp> {
    let stopping = match &dart.stopping {
        Some(stopping) => work.scalar(stopping, Some(sketch)),
        None => Some(0.0),
    };
    let cloth = cloth(work, piece, sketch, take_up, dart)?;
    let stopping = stopping?;
    let middle = cloth.sides[0].midpoint(cloth.sides[1]);
    let (point, upper) = match cloth.upper {
        Some(upper) => (stopped(cloth.apex, middle, stopping), Some(stopped(upper, middle, stopping))),
        None => (stopped(cloth.apex, middle, stopping), None),
    };
    if stopping < 0.0 {
        nothing(work, take_up, -stopping, |name| {
            format!("{name} stops {} short, which is below 0", work.amount(stopping))
        });
        return None;
    }
    let deep =
        cloth.apex.distance(middle).min(cloth.upper.map_or(f64::INFINITY, |upper| upper.distance(middle)));
    if stopping >= deep - SAME_POINT {
        nothing(work, take_up, stopping - deep, |name| {
            let (long, short) = (work.amount(deep), work.amount(stopping));
            match deep <= SAME_POINT {
                true => format!("{name} leads to where it begins"),
                false => format!("{name} is {long} long and stops {short} short: nothing of it is left"),
            }
        });
        return None;
    }
    let wedge = Wedge { sides: cloth.sides, point };
    wedge.fold()?;
    let pressed = match &dart.pressed {
        None => None,
        Some(pressed) => {
            let laid = Laid {
                name: &work.garment.edge(take_up.name).name,
                said: take_up.span,
                kind: &catalogue::DART_PRESSED,
            };
            Some(side_pressed(work, sketch.drawn.as_ref()?, laid, &wedge, pressed)?)
        }
    };
    Some(DrawnTakeUp {
        name: take_up.name,
        declared: take_up.name,
        mouth: cloth.mouth,
        wedge,
        upper,
        apex: cloth.apex,
        pressed,
        near: cloth.near,
        stopping,
        trued: dart.trued,
        said: take_up.span,
        moved: None,
        pleat: None,
    })
}

/// A place so much nearer to `toward`.
pub(in crate::resolve) fn stopped(at: Point, toward: Point, by: f64) -> Point {
    let way = toward - at;
    if by > 0.0 && way.hypot() > SAME_POINT { at + way * (by / way.hypot()) } else { at }
}

fn cloth(work: &Work, piece: &Piece, sketch: &Sketch, take_up: &TakeUp, dart: &Dart) -> Option<Cloth> {
    match &dart.cloth {
        DartCloth::Taken { edge, place, width, to } => {
            let (width, apex) = (wide(work, sketch, take_up, width), work.place(to, Some(sketch)));
            let at = edge_at(work, piece, sketch, take_up, *edge)?;
            let placed = place_on(work, sketch, at, place);
            let (width, apex, placed) = (width?, apex?, placed?);
            let path = &sketch.drawn.as_ref()?.edges.get(at)?.path;
            let length = path.length();
            let (from, to) = (placed.along - width / 2.0, placed.along + width / 2.0);
            if from <= SAME_POINT || to >= length - SAME_POINT {
                off_edge(work, take_up, *edge, width, (from, length - to), length);
                return None;
            }
            let sides = [path.point_at_length(from), path.point_at_length(to)];
            let mouth = Some(Mouth { edge: *edge, from, to });
            Some(Cloth { mouth, sides, apex, upper: None, near: usize::from(placed.backwards) })
        }
        DartCloth::Drawn { edge, corners, to } => {
            let apex = work.place(to, Some(sketch))?;
            let at = edge_at(work, piece, sketch, take_up, *edge)?;
            let path = &sketch.drawn.as_ref()?.edges.get(at)?.path;
            let [leaves, returns] = corners.map(|corner| work.inherit(sketch.spot(corner)));
            let sides = [leaves?, returns?];
            if sides[0].distance(sides[1]) <= SAME_POINT {
                nothing(work, take_up, 1.0, |name| format!("both sides of {name} are one point"));
                return None;
            }
            let [from, to] = sides.map(|side| path.nearest(side).at);
            let mouth = Some(Mouth { edge: *edge, from, to });
            Some(Cloth { mouth, sides, apex, upper: None, near: 0 })
        }
        DartCloth::Inside { at, width, ends: [up, down] } => {
            let at = work.place(at, Some(sketch));
            let [width, up, down] = [width, up, down].map(|one| wide(work, sketch, take_up, one));
            let (at, width, up, down) = (at?, width?, up?, down?);
            let half = Vec2::new(width / 2.0, 0.0);
            let (upper, apex) = (at + Vec2::new(0.0, up), at - Vec2::new(0.0, down));
            Some(Cloth { mouth: None, sides: [at - half, at + half], apex, upper: Some(upper), near: 0 })
        }
    }
}

/// A measure of a dart, which must be more than nothing.
fn wide(work: &Work, sketch: &Sketch, take_up: &TakeUp, measure: &Expression) -> Option<f64> {
    let value = work.scalar(measure, Some(sketch))?;
    if value > SAME_POINT {
        return Some(value);
    }
    work.mistake(-value, "", || {
        let name = &work.garment.edge(take_up.name).name;
        let title = Title::new(format!("{name} is given {} here", work.amount(value))).in_sizes();
        Diagnostic::new(&catalogue::DART_NOTHING, measure.span, title)
            .label("not above 0")
            .help("a dart takes up cloth: give it a width and a length above 0 in every size")
    });
    None
}

pub(super) fn edge_at(
    work: &Work,
    piece: &Piece,
    sketch: &Sketch,
    take_up: &TakeUp,
    edge: EdgeId,
) -> Option<usize> {
    let drawn = sketch.drawn.as_ref()?;
    if let Some(at) = drawn.edges.iter().position(|own| own.edge == edge) {
        return Some(at);
    }
    if work.edge_is_reported(drawn, edge) {
        return work.inherit(None);
    }
    work.mistake(1.0, "", || {
        let (name, word) = (&work.garment.edge(edge).name, take_up.word());
        let title =
            Title::new(format!("{} has no edge {name} to take a {word} from", piece.title)).in_sizes();
        let message = Diagnostic::new(&catalogue::EDGE_GONE, take_up.span, title);
        match piece.drawing.divides.iter().find(|divide| divide.edge == edge) {
            Some(divide) => message
                .also(divide.span, "divided here")
                .help(format!("name the run of it that the {word} is taken from")),
            None => message.help("take it from an edge that the outline really has"),
        }
    });
    None
}

fn nothing(work: &Work, take_up: &TakeUp, weight: f64, what: impl FnOnce(&str) -> String) {
    work.mistake(weight, "", || {
        let title = Title::new(what(&work.garment.edge(take_up.name).name)).in_sizes();
        Diagnostic::new(&catalogue::DART_NOTHING, take_up.span, title)
            .help("a dart is sewn from its mouth towards its point: leave it a length above 0 in every size")
    });
}

fn off_edge(work: &Work, take_up: &TakeUp, edge: EdgeId, width: f64, left: (f64, f64), length: f64) {
    let over = -left.0.min(left.1);
    work.report(|size| {
        let (name, of) = (&work.garment.edge(take_up.name).name, &work.garment.edge(edge).name);
        let (wide, long) = (work.amount(width), work.amount(length));
        let title = match width >= length - SAME_POINT {
            true => Title::new(format!("{name} is {wide} wide, and {of} only {long} long")).in_sizes(),
            false => Title::new(format!(
                "{name} is {wide} wide and reaches {} past an end of {of}",
                work.amount(over)
            ))
            .in_sizes(),
        };
        let message = Diagnostic::new(&catalogue::DART_OFF_EDGE, take_up.span, title)
            .also(work.garment.edge(edge).span, format!("{of} is {long} long"))
            .help("move it in, or make it narrower: something of the edge is left on both sides of a dart");
        Finding::new(size, over, message).figure("width", wide).figure("length of the edge", long)
    });
}

/// A dart that is pressed: what it is called and where that is said.
#[derive(Clone, Copy)]
pub(in crate::resolve) struct Laid<'l> {
    pub(in crate::resolve) name: &'l str,
    pub(in crate::resolve) said: Span,
    /// What it is, where it cannot be told which way it is pressed.
    pub(in crate::resolve) kind: &'static Entry,
}

/// How both sides of a dart lie where it cannot be told which of them is nearer to something.
enum Called<'n> {
    High,
    Aside,
    Near(&'n str),
}

/// The side that the cloth is pressed towards; reported if that cannot be told.
pub(in crate::resolve) fn side_pressed(
    work: &Work,
    drawn: &DrawnPiece,
    laid: Laid,
    wedge: &Wedge,
    pressed: &Pressed,
) -> Option<usize> {
    let [one, other] = wedge.sides;
    let across = other - one;
    // How much further the second side lies that way.
    let (further, called) = match pressed.to {
        PressedTo::Up(up) => (if up { across.y } else { -across.y }, Called::High),
        PressedTo::Right(right) => (if right { across.x } else { -across.x }, Called::Aside),
        PressedTo::Point(point) => {
            let at = work.inherit(drawn.spot(point))?;
            let name = &work.garment.point(point).name;
            (one.distance(at) - other.distance(at), Called::Near(name))
        }
        PressedTo::Edge(edge) => {
            let name = &work.garment.edge(edge).name;
            let is = |own: EdgeId| work.garment.is_run_of(own, edge);
            let dart = drawn.take_ups.iter().find(|placed| is(placed.name));
            let lines = drawn.lines.iter().filter(|line| is(line.edge)).map(|line| &line.path);
            let path = drawn.edges.iter().filter(|own| is(own.edge)).map(|own| &own.path).chain(lines).next();
            let nearer = match (path, dart) {
                (Some(path), _) => nearer(path, [one, other], TELLS * across.hypot()),
                (None, Some(dart)) => {
                    let at = dart.wedge.sides[0].midpoint(dart.wedge.sides[1]);
                    one.distance(at) - other.distance(at)
                }
                (None, None) => {
                    if !work.edge_is_reported(drawn, edge) {
                        work.mistake(1.0, "", || {
                            let title =
                                Title::new(format!("there is no {name} here to press towards")).in_sizes();
                            Diagnostic::new(&catalogue::EDGE_GONE, pressed.span, title).help(
                                "name an edge that the outline really has; a dart only after it is declared",
                            )
                        });
                    }
                    return work.inherit(None);
                }
            };
            (nearer, Called::Near(name))
        }
    };
    if further.abs() > TELLS * across.hypot() {
        return Some(usize::from(further > 0.0));
    }
    work.mistake(1.0, "", || {
        let called = match called {
            Called::High => "equally high".to_owned(),
            Called::Aside => "equally far to the side".to_owned(),
            Called::Near(name) => format!("equally near to {name}"),
        };
        let title = Title::new(format!("both sides of {} lie {called}", laid.name)).in_sizes();
        let mut message = Diagnostic::new(laid.kind, laid.said, title);
        if pressed.span != Default::default() {
            message = message.also(pressed.span, "which side is nearer?");
        }
        message.help(match laid.kind == &catalogue::DART_PRESSED {
            true => {
                "press it towards something beside it: the centre, the side, the hem, or up, down, left, right"
            }
            false => "lay it toward something beside it: a corner of its edge, or an edge on one side",
        })
    });
    None
}
