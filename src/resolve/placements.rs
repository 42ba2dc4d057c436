//! Pieces where they lie on others.

use super::drawn_piece::DrawnPiece;
use super::model::PlacedPiece;
use super::work::{Drawn, Work};
use super::zips::sewn_layer;
use crate::garment::{LayerId, Outline, PaperId, PieceId, PlacedCorner, Placement};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::shape::{Affine, Point};

/// Where each placement lies; none where a corner or a mark is unknown.
pub(super) fn place_all(work: &Work, papers: &[Drawn]) -> Vec<Option<PlacedPiece>> {
    let placements = work.garment.placements.iter();
    placements.map(|placement| place(work, papers, placement)).collect()
}

fn place(work: &Work, papers: &[Drawn], placement: &Placement) -> Option<PlacedPiece> {
    let garment = work.garment;
    let layer = placement.layer.or_else(|| sewn_layer(garment, placement.piece));
    let own = garment.paper_of(layer, placement.piece)?;
    let own = papers.get(own.index())?.as_ref()?;
    let mut hosts = host_papers(work, placement.on_layer.or(placement.layer), placement.on);
    // Of a left and a right piece the one that is meant.
    if let Some(hand) = placement.hand {
        let is_meant =
            |paper: &PaperId| garment.side_of(garment.paper(*paper).piece).is_none_or(|own| own == hand);
        hosts.retain(is_meant);
    }
    let found = hosts.iter().find_map(|&paper| {
        let host = papers.get(paper.index())?.as_ref()?;
        let corner = placement.corners.first()?;
        Some((paper, host, pair(work, own, host, corner)?))
    });
    let Some((on, host, first)) = found else {
        report_cut_off(work, papers, placement, &hosts);
        return None;
    };
    let turned = match placement.corners.get(1) {
        Some(corner) => {
            let second = pair(work, own, host, corner)?;
            let (before, after) = (second.0 - first.0, second.1 - first.1);
            if (before.hypot() - after.hypot()).abs() > garment.tolerance.max(0.01) {
                report_apart(work, placement, before.hypot(), after.hypot());
                return None;
            }
            let angle = libm::atan2(before.cross(after), before.dot(after));
            turned_about(first.0, angle)
        }
        None => Affine::IDENTITY,
    };
    let motion = Affine::translate(first.1 - first.0) * turned;
    let edges = own.edges.iter().map(|edge| (edge.edge, edge.path.transform(motion)));
    Some(PlacedPiece { on, edges: edges.collect() })
}

/// The papers that the host is in the end; in the named layer, else in the first sewn one.
fn host_papers(work: &Work, layer: Option<LayerId>, on: PieceId) -> Vec<PaperId> {
    let layer = layer.or_else(|| sewn_layer(work.garment, on));
    let paper = work.garment.paper_of(layer, on);
    paper.map_or(Vec::new(), |paper| work.final_papers(paper, layer))
}

/// A corner of what is placed, and where it goes.
fn pair(work: &Work, own: &DrawnPiece, host: &DrawnPiece, corner: &PlacedCorner) -> Option<(Point, Point)> {
    let find = |drawn: &DrawnPiece, wanted| {
        drawn.spots.iter().find(|spot| work.garment.is_point_of(spot.point, wanted)).map(|spot| spot.at)
    };
    Some((find(own, corner.corner)?, find(host, corner.at)?))
}

/// Turned by an angle about a place, with `libm` so that every machine gives the same bits.
fn turned_about(centre: Point, angle: f64) -> Affine {
    let (sine, cosine) = libm::sincos(angle);
    let turn = Affine::new([cosine, sine, -sine, cosine, 0.0, 0.0]);
    Affine::translate(centre.to_vec2()) * turn * Affine::translate(-centre.to_vec2())
}

/// A mark of the whole that what is left of it has not: it lies in the strip that is cut from it. Where one of them cannot be
/// drawn, nobody knows where it lies.
fn report_cut_off(work: &Work, papers: &[Drawn], placement: &Placement, hosts: &[PaperId]) {
    let garment = work.garment;
    let drawn = |paper: PaperId| papers.get(paper.index())?.as_ref();
    let part = |paper: &PaperId| match &garment.piece(garment.paper(*paper).piece).drawing.outline {
        Outline::Rest { of, span, .. } if drawn(*paper).is_some() => {
            Some((garment.paper(*paper).piece, *of, *span))
        }
        _ => None,
    };
    let (Some((rest, whole, cut)), Some(corner)) = (hosts.iter().find_map(part), placement.corners.first())
    else {
        return;
    };
    let mark = &garment.point(corner.at).name;
    let is_marked = drawn(whole.paper)
        .is_some_and(|whole| whole.spots.iter().any(|spot| garment.point(spot.point).name == *mark));
    if !is_marked {
        return;
    }
    let whole = work.title(garment.paper(whole.paper).piece);
    let rest = work.title(rest);
    work.report(|size| {
        let title =
            Title::new(format!("{rest} has no {mark}: that lies in what is cut from {whole}")).in_sizes();
        let message = Diagnostic::new(&catalogue::MARK_OUTSIDE, corner.span, title)
            .label("cut off")
            .also(garment.point(corner.at).span, format!("marked on {whole} here"))
            .also(cut, format!("{rest} is the rest of it"))
            .help(format!("move {mark} into the rest of {whole}, or give {rest} a mark of its own"));
        Finding::new(size, 0.0, message)
    });
}

fn report_apart(work: &Work, placement: &Placement, own: f64, host: f64) {
    let (Some(first), Some(second)) = (placement.corners.first(), placement.corners.get(1)) else { return };
    work.report(|size| {
        let garment = work.garment;
        let (own_far, host_far) = (work.amount(own), work.amount(host));
        let title = Title::new(format!(
            "{} and {} of {} are {own_far} apart, but {} and {} of {} are {host_far} apart",
            garment.point(first.corner).name,
            garment.point(second.corner).name,
            work.title(placement.piece),
            garment.point(first.at).name,
            garment.point(second.at).name,
            work.title(placement.on)
        ))
        .in_sizes();
        let message = Diagnostic::new(&catalogue::PLACE_CORNERS_APART, second.span, title)
            .also(first.span, "the first corner")
            .help("one corner is enough to place a piece that is not turned; move a mark if it is");
        Finding::new(size, (own - host).abs(), message)
            .figure(work.title(placement.piece), own_far)
            .figure(work.title(placement.on), host_far)
    });
}
