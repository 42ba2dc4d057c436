//! Where on an edge a place is: so far from a corner, a mark, a neighbouring edge or a side of a take-up;
//! at a point; a share of it; in the middle. As drawn, what other take-ups take included.

use crate::garment::{CountedFrom, Dimension, EdgePlace, PlaceAt, TakeUpSide};
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::{CornerName, DrawnPiece};
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::sketch::{Sketch, corners_of};
use crate::resolve::work::{Work, plain};
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};
use crate::source::Span;

/// A place on an edge.
#[derive(Clone, Copy, Debug)]
pub(in crate::resolve) struct Placed {
    /// From the edge's start, in millimetres.
    pub(in crate::resolve) along: f64,
    /// Counted back from the edge's end, or from what lies nearer to it.
    pub(in crate::resolve) backwards: bool,
    /// How far it is counted; none of a place that is not.
    pub(in crate::resolve) amount: Option<f64>,
}

/// Where that place is on edge `at`; reported if it cannot be told. It may lie beyond the edge's ends.
pub(in crate::resolve) fn place_on(
    work: &Work,
    sketch: &Sketch,
    at: usize,
    place: &EdgePlace,
) -> Option<Placed> {
    let drawn = sketch.drawn.as_ref()?;
    let edge = drawn.edges.get(at)?;
    let length = edge.path.length();
    let name = &work.garment.edge(edge.edge).name;
    let forward = |along: f64| Placed { along, backwards: false, amount: None };
    match &place.at {
        PlaceAt::Middle => Some(forward(length / 2.0)),
        PlaceAt::Share(share) => {
            let value = work.scalar(share, Some(sketch))?;
            if (value - 0.5).abs() > 1e-9 {
                work.mistake(1.0, "", || {
                    if value > 1.0 {
                        let said = plain(value);
                        let title = Title::new(format!("{said} along {name} from where?")).in_sizes();
                        return Diagnostic::new(&catalogue::EDGE_PLACE, share.span, title).help(format!(
                            "say it: at {said} from a corner of {name}, a mark on it or a neighbouring edge"
                        ));
                    }
                    let percent = plain(100.0 * value);
                    let title = Title::new(format!("{percent} % of {name} from which end?")).in_sizes();
                    Diagnostic::new(&catalogue::EDGE_PLACE, share.span, title).help(format!(
                        "say from where: at {percent}% from one of its corners; 50% is the middle"
                    ))
                });
                return None;
            }
            Some(forward(length / 2.0))
        }
        PlaceAt::Point(point) => {
            let spot = spot(work, drawn, *point)?;
            let nearest = edge.path.nearest(spot);
            if nearest.distance > ON_OUTLINE {
                report_off(work, &work.garment.point(*point).name, name, nearest.distance, place.span);
                return None;
            }
            Some(forward(nearest.at))
        }
        PlaceAt::From(value, from) => {
            let amount = work.scalar(value, Some(sketch))?;
            let amount = if value.dimension == Dimension::Number { amount * length } else { amount };
            let start = station(work, drawn, at, *from, place.span, amount)?;
            let along = if start.backwards { start.along - amount } else { start.along + amount };
            Some(Placed { along, backwards: start.backwards, amount: Some(amount) })
        }
    }
}

/// Where something is counted from, and which way.
fn station(
    work: &Work,
    drawn: &DrawnPiece,
    at: usize,
    from: CountedFrom,
    span: Span,
    amount: f64,
) -> Option<Placed> {
    let edge = drawn.edges.get(at)?;
    let length = edge.path.length();
    let own = &work.garment.edge(edge.edge).name;
    let (start, end) = corners_of(drawn, at)?;
    let (forward, backward) = (
        Placed { along: 0.0, backwards: false, amount: None },
        Placed { along: length, backwards: true, amount: None },
    );
    match from {
        CountedFrom::Point(point) => {
            let ends = (start == CornerName::Named(point), end == CornerName::Named(point));
            match ends {
                (true, false) => return Some(forward),
                (false, true) => return Some(backward),
                _ => {}
            }
            let spot = spot(work, drawn, point)?;
            let nearest = edge.path.nearest(spot);
            let name = &work.garment.point(point).name;
            if nearest.distance > ON_OUTLINE {
                report_off(work, name, own, nearest.distance, span);
                return None;
            }
            // From a place between the ends there are two ways to go.
            let (on, back) = (nearest.at + amount <= length, nearest.at - amount >= 0.0);
            match (nearest.at <= SAME_POINT, nearest.at >= length - SAME_POINT) {
                (true, _) => Some(forward),
                (_, true) => Some(backward),
                _ if amount == 0.0 || !back => {
                    Some(Placed { along: nearest.at, backwards: false, amount: None })
                }
                _ if back && !on => Some(Placed { along: nearest.at, backwards: true, amount: None }),
                _ => {
                    work.mistake(1.0, "", || {
                        let title =
                            format!("{name} lies inside {own}: it may be counted either way from there");
                        Diagnostic::new(&catalogue::EDGE_PLACE, span, title)
                            .help(format!("count from a corner of {own}, or write at {name}"))
                    });
                    None
                }
            }
        }
        CountedFrom::Edge(other) => {
            let count = drawn.edges.len();
            let is = |place: usize| {
                drawn.edges.get(place % count).is_some_and(|edge| work.garment.is_run_of(edge.edge, other))
            };
            match (is(at + count - 1), is(at + 1)) {
                (true, false) => Some(forward),
                (false, true) => Some(backward),
                (both, _) => {
                    if both || !work.edge_is_reported(drawn, other) {
                        work.mistake(1.0, "", || {
                            let name = &work.garment.edge(other).name;
                            let (title, help) = match both {
                                true => (
                                    format!("{name} meets {own} at both ends"),
                                    format!("count from one of the corners of {own}"),
                                ),
                                false => (
                                    format!("{name} does not meet {own}"),
                                    format!("count from a corner of {own}, or from an edge beside it"),
                                ),
                            };
                            Diagnostic::new(&catalogue::EDGE_PLACE, span, title)
                                .also(work.garment.edge(other).span, name.to_string())
                                .help(help)
                        });
                    } else {
                        work.inherit::<()>(None);
                    }
                    None
                }
            }
        }
        CountedFrom::Side(take_up, side) => {
            let named = || drawn.take_ups.iter().filter(|placed| placed.name == take_up);
            let there = |placed: &&DrawnTakeUp| placed.mouth.is_some_and(|mouth| mouth.edge == edge.edge);
            let slit = || drawn.slits.iter().find(|slit| slit.name == take_up);
            let placed = named()
                .find(there)
                .or(named().next())
                .and_then(|placed| Some((placed.near, placed.mouth?)))
                .or_else(|| slit().and_then(|slit| Some((slit.near, slit.mouth?))));
            let Some((near, mouth)) = placed else {
                return work.inherit(None);
            };
            if mouth.edge != edge.edge {
                work.mistake(1.0, "", || {
                    let name = &work.garment.edge(take_up).name;
                    let title = format!("{name} does not lie on {own}");
                    Diagnostic::new(&catalogue::EDGE_PLACE, span, title)
                        .also(work.garment.edge(take_up).span, "declared here")
                        .help(format!("count from what lies on {own}"))
                });
                return None;
            }
            // A row of pleats has its sides where it begins and ends.
            let mouths = || named().filter_map(|placed| placed.mouth).filter(|mouth| mouth.edge == edge.edge);
            let from = mouths().map(|mouth| mouth.from).fold(mouth.from, f64::min);
            let to = mouths().map(|mouth| mouth.to).fold(mouth.to, f64::max);
            let first = (side == TakeUpSide::Near) == (near == 0);
            Some(match first {
                true => Placed { along: from, backwards: true, amount: None },
                false => Placed { along: to, backwards: false, amount: None },
            })
        }
    }
}

/// Where a point of the piece is; one that could not be placed was reported.
fn spot(work: &Work, drawn: &DrawnPiece, point: crate::garment::PointId) -> Option<crate::shape::Point> {
    let found = drawn.spot(point).or_else(|| {
        let corner = CornerName::Named(point);
        drawn.edges.iter().find(|edge| edge.corner == corner).map(|edge| edge.path.start())
    });
    work.inherit(found)
}

fn report_off(work: &Work, point: &str, edge: &str, by: f64, span: Span) {
    work.mistake(by, "", || {
        let title = Title::new(format!("{point} lies {} off {edge}", work.amount(by))).in_sizes();
        Diagnostic::new(&catalogue::EDGE_PLACE, span, title)
            .help(format!("name a corner of {edge}, a point on it, or an edge beside it"))
    });
}
