//! A slit on its piece: where its sides leave the edge, or begin inside the piece, and where they end.

use super::dart::edge_at;
use super::place::place_on;
use crate::garment::{CutHow, EdgeId, EdgePlace, Expression, Piece, Slit, SlitCut, SlitEnd, TakeUp};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_take_up::{DrawnSlit, Mouth};
use crate::resolve::sketch::Sketch;
use crate::resolve::work::Work;
use crate::shape::outline::is_anticlockwise;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::shape::{Point, Vec2};

/// A slit on its piece; reported if it has no place there.
pub(super) fn slit(
    work: &Work,
    piece: &Piece,
    sketch: &Sketch,
    take_up: &TakeUp,
    slit: &Slit,
) -> Option<DrawnSlit> {
    let window = match &slit.window {
        Some(window) => work.scalar(window, Some(sketch)),
        None => Some(0.0),
    };
    let (edge, place, said_end, in_middle) = match &slit.cut {
        SlitCut::FromEdge { edge, place, end, at_fold } => (*edge, place, end, *at_fold),
        SlitCut::Inside(places) => return inside(work, sketch, take_up, slit, places, window),
    };
    let end = match said_end {
        SlitEnd::Up(_, long) | SlitEnd::Right(_, long) => work.scalar(long, Some(sketch)).map(Err),
        SlitEnd::To(place) => work.place(place, Some(sketch)).map(Ok),
    };
    let at = edge_at(work, piece, sketch, take_up, edge)?;
    if in_middle {
        let (window, end) = (window?, end?);
        if !is_wide(work, take_up, slit, window) {
            return None;
        }
        return at_fold(work, sketch, take_up, (edge, at), (place, said_end, end), window);
    }
    let placed = place_on(work, sketch, at, place);
    let (window, end, placed) = (window?, end?, placed?);
    if !is_wide(work, take_up, slit, window) {
        return None;
    }
    let path = &sketch.drawn.as_ref()?.edges.get(at)?.path;
    let length = path.length();
    let (from, to) = (placed.along - window / 2.0, placed.along + window / 2.0);
    if from <= SAME_POINT || to >= length - SAME_POINT {
        off_edge(work, take_up, edge, (from, length - to), length);
        return None;
    }
    let middle = path.point_at_length(placed.along);
    let reach = match (said_end, end) {
        (SlitEnd::Up(up, _), Err(long)) => Vec2::new(0.0, if *up { long } else { -long }),
        (SlitEnd::Right(right, _), Err(long)) => Vec2::new(if *right { long } else { -long }, 0.0),
        (_, Ok(end)) => end - middle,
        (SlitEnd::To(_), Err(_)) => return None,
    };
    let long = match end {
        Err(long) => long,
        Ok(_) => reach.hypot(),
    };
    if long <= SAME_POINT {
        return nothing(work, take_up, take_up.span, -long, |name| {
            format!("{name} is {} long", work.amount(long))
        });
    }
    let way = reach / long;
    let sides = [path.point_at_length(from), path.point_at_length(to)];
    // Its end is square to its sides, also where the edge is not.
    let ends = sides.map(|side| side + way * (long - (side - middle).dot(way)));
    if sides.iter().zip(&ends).any(|(side, end)| (*end - *side).dot(way) <= SAME_POINT) {
        return nothing(work, take_up, take_up.span, window, |name| {
            format!("{name} is {} long, and its window {} wide", work.amount(long), work.amount(window))
        });
    }
    Some(DrawnSlit {
        name: take_up.name,
        said: take_up.span,
        mouth: Some(Mouth { edge, from, to }),
        sides,
        ends,
        along: path.tangent_at_length(placed.along)?,
        near: usize::from(placed.backwards),
        fold: None,
    })
}

/// A slit in the middle of what is cut on the fold: the half of it that the drawn half has, beside the fold.
fn at_fold(
    work: &Work,
    sketch: &Sketch,
    take_up: &TakeUp,
    (edge, at): (EdgeId, usize),
    (place, said_end, end): (&EdgePlace, &SlitEnd, Result<Point, f64>),
    window: f64,
) -> Option<DrawnSlit> {
    let drawn = sketch.drawn.as_ref()?;
    let at_end = place_on(work, sketch, at, place)?.backwards;
    let path = &drawn.edges.get(at)?.path;
    let length = path.length();
    let half = window / 2.0;
    if half >= length - SAME_POINT {
        wider_than_edge(work, take_up, edge, window, 2.0 * length);
        return None;
    }
    let count = drawn.edges.len();
    let beside = drawn.edges.get(if at_end { at + 1 } else { at + count - 1 } % count)?;
    let corner = if at_end { path.end() } else { path.start() };
    let side = path.point_at_length(if at_end { length - half } else { half });
    let along = path.tangent_at_length(if at_end { length } else { 0.0 })?;
    let along_fold = if at_end { beside.path.end() - corner } else { beside.path.start() - corner };
    let fold_length = along_fold.hypot();
    let reach = match (said_end, end) {
        (SlitEnd::Up(up, _), Err(long)) => Vec2::new(0.0, if *up { long } else { -long }),
        (SlitEnd::Right(right, _), Err(long)) => Vec2::new(if *right { long } else { -long }, 0.0),
        (_, Ok(end)) => end - corner,
        (SlitEnd::To(_), Err(_)) => return None,
    };
    let long = reach.hypot();
    if long <= SAME_POINT || matches!(end, Err(long) if long <= 0.0) {
        return nothing(work, take_up, take_up.span, -long, |name| {
            format!("{name} is {} long", work.amount(long))
        });
    }
    let way = reach / long;
    let fold = &work.garment.edge(beside.edge).name;
    if way.cross(along_fold / fold_length).abs() > ON_OUTLINE || way.dot(along_fold) <= 0.0 {
        work.mistake(1.0, "", || {
            let name = &work.garment.edge(take_up.name).name;
            let title =
                Title::new(format!("{name} does not go along {fold}, which lies on the fold")).in_sizes();
            Diagnostic::new(&catalogue::SLIT_FOLD, take_up.span, title)
                .also(work.garment.edge(beside.edge).span, "the fold")
                .help(format!("cut it along {fold}, into the piece: up, down, left or right, as that runs"))
        });
        return None;
    }
    // Its end is square to the fold, also where the edge is not.
    let foot = |from: Point| from + way * (long - (from - corner).dot(way));
    if (foot(side) - side).dot(way) <= SAME_POINT {
        return nothing(work, take_up, take_up.span, window, |name| {
            format!("{name} is {} long, and its window {} wide", work.amount(long), work.amount(window))
        });
    }
    let (sides, fold) = if at_end { ([side, corner], 1) } else { ([corner, side], 0) };
    let mouth = if at_end { (length - half, length) } else { (0.0, half) };
    Some(DrawnSlit {
        name: take_up.name,
        said: take_up.span,
        mouth: Some(Mouth { edge, from: mouth.0, to: mouth.1 }),
        sides,
        ends: sides.map(foot),
        along,
        near: 1 - fold,
        fold: Some(fold),
    })
}

/// A slit inside its piece. On the way from its start to its end the near side lies on the left.
fn inside(
    work: &Work,
    sketch: &Sketch,
    take_up: &TakeUp,
    slit: &Slit,
    [from, to]: &[Expression; 2],
    window: Option<f64>,
) -> Option<DrawnSlit> {
    let (from, to) = (work.place(from, Some(sketch)), work.place(to, Some(sketch)));
    let (window, from, to) = (window?, from?, to?);
    if !is_wide(work, take_up, slit, window) {
        return None;
    }
    let long = from.distance(to);
    if long <= SAME_POINT {
        return nothing(work, take_up, take_up.span, -long, |name| {
            format!("{name} begins and ends in one place")
        });
    }
    let way = (to - from) / long;
    let left = Vec2::new(-way.y, way.x);
    let across = [left * (window / 2.0), left * (-window / 2.0)];
    let placed = DrawnSlit {
        name: take_up.name,
        said: take_up.span,
        mouth: None,
        fold: None,
        sides: across.map(|off| from + off),
        ends: across.map(|off| to + off),
        along: -left,
        near: 0,
    };
    let edges = &sketch.drawn.as_ref()?.edges;
    Some(placed.ordered(is_anticlockwise(edges.iter().map(|edge| &edge.path))))
}

/// Whether a window that is said has a width; reported if not.
fn is_wide(work: &Work, take_up: &TakeUp, slit: &Slit, window: f64) -> bool {
    let Some(said) = slit.window.as_ref().filter(|_| window <= SAME_POINT) else { return true };
    let _: Option<DrawnSlit> = nothing(work, take_up, said.span, -window, |name| {
        format!("the window of {name} is {} wide", work.amount(window))
    });
    false
}

fn nothing(
    work: &Work,
    take_up: &TakeUp,
    span: crate::source::Span,
    weight: f64,
    what: impl FnOnce(&str) -> String,
) -> Option<DrawnSlit> {
    work.mistake(weight, "", || {
        let title = Title::new(what(&work.garment.edge(take_up.name).name)).in_sizes();
        Diagnostic::new(&catalogue::SLIT_NOTHING, span, title)
            .help("a slit is cut into the cloth: give it a length above 0 in every size, and a window above 0 or none")
    });
    None
}

/// A window at the fold that leaves nothing of its edge on either half.
fn wider_than_edge(work: &Work, take_up: &TakeUp, edge: EdgeId, window: f64, whole: f64) {
    work.report(|size| {
        let (name, of) = (&work.garment.edge(take_up.name).name, &work.garment.edge(edge).name);
        let (wide, long) = (work.amount(window), work.amount(whole));
        let title =
            Title::new(format!("the window of {name} is {wide} wide, and all of {of} is {long} long"));
        let message = Diagnostic::new(&catalogue::SLIT_OFF_EDGE, take_up.span, title.in_sizes())
            .also(work.garment.edge(edge).span, format!("half of {of}"))
            .help(format!("make the window narrower, so that some of {of} is left on both halves"));
        Finding::new(size, window - whole, message).about(&**name)
    });
}

fn off_edge(work: &Work, take_up: &TakeUp, edge: EdgeId, left: (f64, f64), length: f64) {
    let over = -left.0.min(left.1);
    work.report(|size| {
        let (name, of) = (&work.garment.edge(take_up.name).name, &work.garment.edge(edge).name);
        let (by, long) = (work.amount(over.max(0.0)), work.amount(length));
        let title = match over > SAME_POINT {
            true => Title::new(format!("{name} lies {by} beyond an end of {of}, which is {long} long")),
            false => Title::new(format!("{name} lies at an end of {of}")),
        };
        let piece = work.garment.piece(work.garment.edge(edge).piece);
        let help = match piece.cut.how {
            CutHow::OnFold(_) => format!(
                "move it along {of}, so that some of {of} is left on both sides; for one in the middle of the whole \
                 write at the fold: slit {name} on {of} at the fold …"
            ),
            CutHow::Alike | CutHow::Mirrored => format!(
                "move it along {of}, so that some of {of} is left on both sides; a slit at a corner is the end of the \
                 seam there: divide that edge, and leave the part of it unsewn"
            ),
        };
        let message = Diagnostic::new(&catalogue::SLIT_OFF_EDGE, take_up.span, title.in_sizes())
            .also(work.garment.edge(edge).span, format!("{of}, {long}"))
            .help(help);
        Finding::new(size, over.max(0.0), message).about(&**name).figure("beyond by", by)
    });
}
