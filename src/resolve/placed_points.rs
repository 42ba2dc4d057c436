//! Places on edges that sewing names, on the finished papers: each becomes a spot, as a mark is.

use super::along::{Along, PlaceLost};
use super::drawn_piece::{DrawnPiece, DrawnSpot};
use super::model::DrawnEdgeId;
use super::work::{Drawn, Work, plain};
use crate::garment::{CountedFrom, Expression, Garment, PlaceAt, PlacedPoint};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use std::sync::Arc;

/// Puts every place on the papers on which it lies; reports those that lie on none.
pub(super) fn place_all(work: &Work, papers: &mut [Drawn]) {
    for placed in &work.garment.placed_points {
        let mut lost: Option<PlaceLost> = None;
        let mut found = false;
        for paper in papers.iter_mut() {
            let Some(drawn) = paper else { continue };
            match at(work, drawn, placed) {
                None => {}
                Some(Err(why)) => lost = Some(worse(lost, why)),
                Some(Ok(spot)) => {
                    found = true;
                    let mut own = DrawnPiece::clone(drawn);
                    own.spots.push(spot);
                    *drawn = Arc::new(own);
                }
            }
        }
        if !found && let Some(why) = lost {
            report(work, placed, why);
        }
    }
}

/// The one that says more of what is wrong.
fn worse(one: Option<PlaceLost>, other: PlaceLost) -> PlaceLost {
    match one {
        None | Some(PlaceLost::NotThere) => other,
        Some(one) => one,
    }
}

/// Where it lies on that paper; none where the paper has not its edge.
fn at(work: &Work, drawn: &DrawnPiece, placed: &PlacedPoint) -> Option<Result<DrawnSpot, PlaceLost>> {
    let amount = |expression: &Expression| work.scalar(expression, None);
    let mut lost: Option<PlaceLost> = None;
    for &edge in &placed.edges {
        let edges = DrawnEdgeId::enumerate(&drawn.edges);
        let runs: Vec<DrawnEdgeId> = edges
            .filter(|(_, own)| {
                work.garment.is_run_of(own.edge, edge) || work.garment.is_run_of(edge, own.edge)
            })
            .map(|(id, _)| id)
            .collect();
        if runs.is_empty() {
            continue;
        }
        let along = Along::of(work.garment, drawn, runs, &amount);
        let place = along.at(&placed.place);
        match place.and_then(|at| along.on_paper(at).ok_or(PlaceLost::Unknown)) {
            Ok(at) => return Some(Ok(DrawnSpot { point: placed.point, at })),
            Err(why) => lost = Some(worse(lost, why)),
        }
    }
    lost.map(Err)
}

fn report(work: &Work, placed: &PlacedPoint, why: PlaceLost) {
    let garment = work.garment;
    let point = garment.point(placed.point);
    let Some(edge) = placed.edges.first().map(|&edge| &garment.edge(edge).name) else { return };
    let of = work.title(point.piece);
    let from = counted(garment, placed);
    let (title, help, weight) = match why {
        PlaceLost::Unknown => return,
        PlaceLost::NotThere | PlaceLost::Nothing => (
            format!("{from} does not lie at {edge} of {of}"),
            format!("count from a corner of {edge}, a mark on it, an edge beside it or a side of its darts"),
            1.0,
        ),
        PlaceLost::EitherWay => (
            format!("{from} lies inside {edge} of {of}: it may be counted either way from there"),
            format!("count from a corner of {edge}, or write at {from}"),
            1.0,
        ),
        PlaceLost::BothEnds => (
            format!("{from} meets {edge} of {of} at both ends"),
            format!("count from one of the corners of {edge}"),
            1.0,
        ),
        PlaceLost::FromWhichEnd => {
            let share = match &placed.place.at {
                PlaceAt::Share(share) => work.scalar(share, None).unwrap_or(0.0),
                _ => 0.0,
            };
            let (said, title) = match share > 1.0 {
                true => (plain(share), format!("{} along {edge} of {of} from where?", plain(share))),
                false => {
                    let percent = plain(100.0 * share);
                    (format!("{percent}%"), format!("{percent} % of {edge} of {of} from which end?"))
                }
            };
            let help = format!("say from where: at {said} from a corner of {edge}; 50% is the middle");
            (title, help, 1.0)
        }
        PlaceLost::Beyond(by) => {
            let far = work.amount(by);
            work.report(|size| {
                let title = Title::new(format!("the place {} lies", point.name))
                    .in_sizes()
                    .then(format!(" {far} beyond {edge} of {of}"));
                let message = Diagnostic::new(&catalogue::EDGE_PLACE, point.span, title)
                    .help("count less far, or from its other end");
                Finding::new(size, by, message).about(&*point.name).figure("beyond by", far)
            });
            return;
        }
    };
    work.mistake(weight, &point.name, || {
        Diagnostic::new(&catalogue::EDGE_PLACE, point.span, Title::new(title).in_sizes())
            .label("where?")
            .help(help)
    });
}

/// What it is counted from, in words.
fn counted(garment: &Garment, placed: &PlacedPoint) -> String {
    match placed.place.at {
        PlaceAt::Point(point) | PlaceAt::From(_, CountedFrom::Point(point)) => {
            garment.point(point).name.to_string()
        }
        PlaceAt::From(_, CountedFrom::Edge(edge)) => garment.edge(edge).name.to_string(),
        PlaceAt::From(_, CountedFrom::Side(take_up, _)) => {
            format!("a side of {}", garment.edge(take_up).name)
        }
        PlaceAt::Middle | PlaceAt::Share(_) => String::new(),
    }
}
