//! Pieces that are laid on others, straps, and pieces that are fused on.

use super::canvas::{Caption, Mark, Panel};
use super::fit::bounds;
use super::flat::Flat;
use super::ink::Stroke;
use super::laid::{Laid, Shown, draw_part, label};
use super::making::Making;
use super::patches::{Placed, beside};
use crate::garment::{LayerId, PieceId, PlacementId, PointId, StrapId};
use crate::sewing::PartId;
use crate::sewing::surface::FaceId;
use crate::shape::{Affine, Point};
use crate::syntax::tree::Hand;

/// So many hosts are shown at most.
const MOST_HOSTS: usize = 2;

/// Where a piece is laid on its hosts, its stitched edges marked.
pub fn place(making: &Making, id: PlacementId, layer: LayerId, letter: &str, step: usize) -> Option<Panel> {
    let surface = making.surface;
    let own: Vec<usize> = surface
        .placings
        .iter()
        .enumerate()
        .filter(|(_, placing)| placing.placement == id && surface.face(placing.placed).layer == layer)
        .map(|(at, _)| at)
        .collect();
    let mut hosts: Vec<FaceId> = Vec::new();
    for placing in own.iter().filter_map(|at| surface.placings.get(*at)) {
        if !hosts.contains(&placing.host) {
            hosts.push(placing.host);
        }
    }
    hosts.truncate(MOST_HOSTS);
    let mut panel = Panel::default();
    for laid in side_by_side(making, &hosts) {
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        for &at in own
            .iter()
            .filter(|at| surface.placings.get(**at).is_some_and(|placing| placing.host == laid.face))
        {
            let Some(placed) = Placed::of(making, at) else { continue };
            let shown = Shown { step, joined: false, labelled: true };
            placed.draw(making, &laid, &mut panel, shown, Stroke::Stitched, Some(letter));
            for path in &placed.caught {
                panel.line(laid.path(path).to_bez(), Stroke::Fold);
            }
        }
    }
    (!panel.is_empty()).then_some(panel)
}

/// Faces beside one another, right sides up; of a pair the one that is worn on the left to the right, as one sees it who
/// looks at the wearer.
pub fn side_by_side(making: &Making, faces: &[FaceId]) -> Vec<Laid> {
    let mut faces: Vec<FaceId> = faces.to_vec();
    faces.sort_by_key(|face| making.flat(*face).and_then(|flat| flat.hand) == Some(Hand::Left));
    let rings: Vec<Vec<Point>> =
        faces.iter().map(|face| making.flat(*face).map_or_else(Vec::new, |flat| flat.ring.clone())).collect();
    let largest = rings.iter().filter_map(|ring| bounds(ring)).map(|own| own.width().max(own.height()));
    let gap = 0.12 * largest.fold(20.0, f64::max);
    faces.into_iter().zip(beside(&rings, gap)).map(|(face, by)| Laid { face, by }).collect()
}

/// The faces that have a mark or corner, and where.
fn faces_at(
    making: &Making,
    layer: Option<LayerId>,
    point: PointId,
    hand: Option<Hand>,
) -> Vec<(FaceId, Point)> {
    let garment = making.garment;
    let mut found = Vec::new();
    for face in making.surface.face_ids() {
        let Some(flat) = making.flat(face).filter(|flat| layer.is_none_or(|layer| layer == flat.layer))
        else {
            continue;
        };
        if flat.hand.zip(hand).is_some_and(|(own, hand)| own != hand) {
            continue;
        }
        let Some(spot) = flat.drawn.spots.iter().find(|spot| garment.is_point_of(spot.point, point)) else {
            continue;
        };
        for base in flat.on_both(hand) {
            let at = base * flat.settled(spot.at);
            if !found.iter().any(|(own, other): &(FaceId, Point)| *own == face && other.distance(at) < 1.0) {
                found.push((face, at));
            }
        }
    }
    found
}

/// A strap: the places where it is sewn on, each with a sign, and the strap with the signs of its ends.
pub fn strap(making: &Making, id: StrapId, letter: &str, step: usize) -> Option<Panel> {
    let strap = making.garment.strap(id);
    // The ends that are named first, of all that are made of it, then those that are named second.
    let mut ends: Vec<Vec<(FaceId, Point)>> = Vec::new();
    for run in &strap.runs {
        for (nth, end) in run.ends().enumerate() {
            let places = faces_at(making, end.layer, end.point, end.hand);
            match ends.get_mut(nth) {
                Some(own) => own.extend(places),
                None => ends.push(places),
            }
        }
    }
    let mut hosts: Vec<FaceId> = Vec::new();
    for (face, _) in ends.iter().flat_map(|end| end.iter().take(MOST_HOSTS)) {
        if !hosts.contains(face) {
            hosts.push(*face);
        }
    }
    let own = making
        .surface
        .face_ids()
        .find(|face| making.flat(*face).is_some_and(|flat| flat.drawn.piece == strap.piece))?;
    let mut faces = hosts.clone();
    faces.push(own);
    let mut panel = Panel::default();
    for laid in side_by_side(making, &faces) {
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        if laid.face == own {
            let ring = laid.ring(making);
            let Some(whole) = bounds(&ring) else { continue };
            let is_tall = whole.height() > whole.width();
            let (from, to) = match is_tall {
                true => (Point::new(whole.center().x, whole.y0), Point::new(whole.center().x, whole.y1)),
                false => (Point::new(whole.x0, whole.center().y), Point::new(whole.x1, whole.center().y)),
            };
            for (nth, end) in [from, to].into_iter().enumerate().take(ends.len()) {
                panel.marks.push(Mark::Sign(end, nth));
            }
            let across = if is_tall {
                crate::shape::Vec2::new(whole.width() / 2.0, 0.0)
            } else {
                crate::shape::Vec2::new(0.0, whole.height() / 2.0)
            };
            for end in [from, to].into_iter().take(ends.len()) {
                panel.straight(end - across, end + across, Stroke::Stitched);
            }
            panel.tag(from.midpoint(to), crate::shape::Vec2::new(1.0, 0.0), letter);
        } else {
            for (nth, end) in ends.iter().enumerate() {
                for (_, at) in end.iter().filter(|(face, _)| *face == laid.face) {
                    panel.marks.push(Mark::Sign(laid.by * *at, nth));
                }
            }
        }
    }
    (!panel.is_empty()).then_some(panel)
}

/// Pieces that are fused on: each on the wrong side of what it is fused to, under an iron.
pub fn fuse(making: &Making, parts: &[(LayerId, PieceId)]) -> Option<Panel> {
    let mut flats: Vec<(Option<Flat>, Flat)> = Vec::new();
    for &(layer, piece) in parts {
        let part_of = |wanted: LayerId| {
            let mut parts = PartId::enumerate(&making.size.sewn.parts);
            parts.find(|(_, sewn)| sewn.part.layer == wanted && sewn.part.piece == piece).map(|(id, _)| id)
        };
        let Some(own) = part_of(layer).and_then(|part| Flat::of(making.garment, making.size, part, true))
        else {
            continue;
        };
        let sewn = LayerId::enumerate(&making.garment.layers).filter(|(_, layer)| !layer.fused);
        let onto = making.garment.layer(layer).onto;
        let sewn = sewn.filter(|(id, _)| onto.is_none_or(|onto| onto == *id));
        let host = sewn.filter_map(|(id, _)| part_of(id)).next();
        flats.push((host.and_then(|part| Flat::of(making.garment, making.size, part, true)), own));
    }
    let rings: Vec<Vec<Point>> =
        flats.iter().map(|(host, own)| host.as_ref().unwrap_or(own).ring.clone()).collect();
    let largest = rings.iter().filter_map(|ring| bounds(ring)).map(|own| own.width().max(own.height()));
    let gap = 0.12 * largest.fold(20.0, f64::max);
    let mut panel = Panel::of(Caption::WrongSideUp);
    for ((host, own), by) in flats.iter().zip(beside(&rings, gap)) {
        // Both lie as the mirror image of the right side: the wrong side is up.
        if let Some(host) = host {
            let outline = by * host.path();
            panel.cloth(outline.clone(), making.cloth(host.layer, false, false));
            panel.line(outline, Stroke::Outline);
        }
        let outline = by * own.path();
        let middle = super::fit::centroid(&own.ring);
        let within = by
            * Affine::translate(middle.to_vec2())
            * Affine::scale(0.94)
            * Affine::translate(-middle.to_vec2());
        panel.cloth(within * own.path(), making.cloth(own.layer, true, false));
        panel.line(if host.is_some() { within * own.path() } else { outline }, Stroke::Outline);
        let ring: Vec<Point> = own.ring.iter().map(|at| by * *at).collect();
        let (number, title) = making.called(host.as_ref().map_or(own.part, |host| host.part));
        panel.labels.push(label(&ring, number, &title));
    }
    let whole = panel.bounds()?;
    panel.marks.push(Mark::Iron(Point::new(whole.x1, whole.y1 + 0.09 * whole.width())));
    Some(panel)
}

/// A piece, or all copies of it, with nothing done to it that can be shown: pressed, say.
pub fn alone(
    making: &Making,
    layer: Option<LayerId>,
    piece: PieceId,
    step: usize,
    iron: bool,
) -> Option<Panel> {
    let is_own = |face: &FaceId| {
        making
            .flat(*face)
            .is_some_and(|flat| flat.drawn.piece == piece && layer.is_none_or(|layer| layer == flat.layer))
    };
    let faces: Vec<FaceId> = making.surface.face_ids().filter(is_own).take(MOST_HOSTS).collect();
    let mut panel = Panel::default();
    for laid in side_by_side(making, &faces) {
        laid.draw(making, &mut panel, Shown { step, joined: false, labelled: true });
    }
    if faces.is_empty() {
        let mut parts = PartId::enumerate(&making.size.sewn.parts);
        let (part, _) = parts.find(|(_, sewn)| sewn.part.piece == piece)?;
        let flat = Flat::of(making.garment, making.size, part, false)?;
        draw_part(making, &mut panel, &flat, Affine::IDENTITY, true);
    }
    let whole = panel.bounds()?;
    if iron {
        panel.marks.push(Mark::Iron(Point::new(whole.x1, whole.y1 + 0.09 * whole.width())));
    }
    Some(panel)
}
