//! What is sewn of alike panels in a ring, seen from the side: a crown, a skirt of gores, a bag of segments.
//!
//! At each height such a ring is as far round as its panels are wide there, and is drawn as the circle of that girth: half of
//! it is seen, its seams on their meridians. Between two heights the cloth rises by what its length leaves, as the hypotenuse,
//! when the circle's radius changes.

use super::assembled::height;
use super::canvas::{Panel, polygon, polyline};
use super::flat::Flat;
use super::ink::Stroke;
use super::making::Making;
use super::outside::{is_band, outside};
use crate::id_hash::IdSet;
use crate::sewing::SewnSeam;
use crate::sewing::surface::{FaceId, JoinedBy, PlyAt, StretchId};
use crate::shape::Point;
use std::f64::consts::TAU;

/// Fewer panels make no round thing.
const LEAST_PANELS: usize = 3;
/// At so many heights the ring is measured.
const HEIGHTS: usize = 48;
/// How closely edges are followed, in millimetres.
const FINE: f64 = 0.25;

/// A ring of panels at one height.
#[derive(Clone, Copy, Debug)]
struct Girdle {
    /// How far from its axis the cloth is.
    radius: f64,
    /// How high above the ring's wider end.
    height: f64,
}

/// The first ring of alike panels outside, seen from the side, with the bands at its ends; and the faces that it shows.
pub fn crown(making: &Making) -> Option<(Panel, Vec<FaceId>)> {
    let seen = outside(making);
    making.size.sewn.seams.iter().enumerate().find_map(|(nth, sewn)| ring(making, &seen, nth, sewn))
}

fn ring(making: &Making, seen: &[FaceId], nth: usize, sewn: &SewnSeam) -> Option<(Panel, Vec<FaceId>)> {
    if !sewn.each_to_the_next {
        return None;
    }
    let surface = making.surface;
    let joins = || {
        let own = surface.joins.iter();
        own.filter(move |join| matches!(join.by, JoinedBy::Seam { sewn, .. } if sewn == nth))
    };
    // The stretches along which a face is joined to the next one, or to the one before.
    let along = |face: FaceId, is_first: bool| -> Vec<StretchId> {
        let plies = joins().flat_map(|join| &join.plies).filter(|ply| match ply.at {
            PlyAt::First(_) => is_first,
            PlyAt::Second(_) => !is_first,
            PlyAt::Caught => false,
        });
        let mut own: Vec<StretchId> =
            plies.map(|ply| ply.stretch).filter(|stretch| surface.face_of(*stretch) == face).collect();
        own.sort();
        own
    };
    let plies = joins().flat_map(|join| &join.plies);
    let faces: IdSet<FaceId> = plies.map(|ply| surface.face_of(ply.stretch)).collect();
    let faces: Vec<FaceId> = surface.face_ids().filter(|face| faces.contains(face)).collect();
    let first = *faces.first()?;
    let is_panel = |face: &FaceId| {
        let is_joined = || !along(*face, true).is_empty() && !along(*face, false).is_empty();
        surface.face(*face).pair == surface.face(first).pair && seen.contains(face) && is_joined()
    };
    if faces.len() < LEAST_PANELS || !faces.iter().all(is_panel) {
        return None;
    }
    let flat = making.flat(first)?;
    let side = |is_first| polyline_of(making, flat, &along(first, is_first));
    let (mut right, mut left) = (side(true)?, side(false)?);
    // Both go round the outline: the one up, the other down.
    left.reverse();
    let wide = |one: Option<&Point>, other: Option<&Point>| Some(one?.distance(*other?));
    if wide(right.first(), left.first())? < wide(right.last(), left.last())? {
        right.reverse();
        left.reverse();
    }
    let girdles = girdles(&right, &left, faces.len());
    let mut panel = Panel::default();
    let profile = |sign: f64| girdles.iter().map(move |own| Point::new(sign * own.radius, own.height));
    let outline: Vec<Point> = profile(-1.0).chain(profile(1.0).rev()).collect();
    let mut shown = faces.clone();
    for (ends, face) in bands(making, &faces, &right, &left) {
        let Some(band) = making.flat(face) else { continue };
        let (Some(high), Some(own)) =
            (height(making, band), if ends { girdles.first() } else { girdles.last() })
        else {
            continue;
        };
        let far = own.height + if ends { -high } else { high };
        let corners = [(-1.0, own.height), (1.0, own.height), (1.0, far), (-1.0, far)];
        let corners = corners.map(|(sign, at)| Point::new(sign * own.radius, at));
        panel.cloth(polygon(&corners), making.cloth(band.layer, true, false));
        panel.line(polygon(&corners), Stroke::Outline);
        shown.push(face);
    }
    panel.cloth(polygon(&outline), making.cloth(flat.layer, true, false));
    panel.line(polygon(&outline), Stroke::Outline);
    let differs = making.differing_edges(flat);
    let is_side = |at: Point| right.iter().any(|own| own.distance(at) < 1.0);
    let side_differs = differs.iter().any(|path| is_side(path.point_at_length(path.length() / 2.0)));
    let seams = if side_differs { Stroke::Differs } else { Stroke::Before };
    for seam in 0..faces.len() {
        // A panel, and no seam, is in front.
        let (sine, cosine) = libm::sincos(TAU * (seam as f64 + 0.5) / faces.len() as f64);
        if cosine > 1e-6 {
            let line: Vec<Point> =
                girdles.iter().map(|own| Point::new(own.radius * sine, own.height)).collect();
            panel.line(polyline(&line), seams);
        }
    }
    Some((panel, shown))
}

/// Stretches end to end, as their face lies flat.
fn polyline_of(making: &Making, flat: &Flat, stretches: &[StretchId]) -> Option<Vec<Point>> {
    let mut points: Vec<Point> = Vec::new();
    for &stretch in stretches {
        let path = flat.stretch(making.garment, making.surface, stretch)?;
        points.extend(path.flatten(FINE));
    }
    (points.len() > 1).then_some(points)
}

/// The ring from its wider end to the other, between both sides of one of so many panels.
fn girdles(right: &[Point], left: &[Point], panels: usize) -> Vec<Girdle> {
    let mut girdles: Vec<Girdle> = Vec::with_capacity(HEIGHTS + 1);
    let mut last: Option<(Point, Girdle)> = None;
    for at in 0..=HEIGHTS {
        let share = at as f64 / HEIGHTS as f64;
        let (one, other) = (at_share(right, share), at_share(left, share));
        let (middle, radius) = (one.midpoint(other), one.distance(other) * panels as f64 / TAU);
        let rise = last.map_or(0.0, |(before, girdle)| {
            let (along, out) = (middle.distance(before), radius - girdle.radius);
            girdle.height + libm::sqrt((along * along - out * out).max(0.0))
        });
        let girdle = Girdle { radius, height: rise };
        girdles.push(girdle);
        last = Some((middle, girdle));
    }
    girdles
}

/// So far along a line of points.
fn at_share(points: &[Point], share: f64) -> Point {
    let steps = || points.iter().zip(points.iter().skip(1));
    let whole: f64 = steps().map(|(one, other)| one.distance(*other)).sum();
    let mut rest = share * whole;
    for (one, other) in steps() {
        let long = one.distance(*other);
        if rest <= long && long > 0.0 {
            return one.lerp(*other, rest / long);
        }
        rest -= long;
    }
    points.last().copied().unwrap_or_default()
}

/// Bands that are sewn to the panels, each once, and whether at the wider end of the ring.
fn bands(making: &Making, panels: &[FaceId], right: &[Point], left: &[Point]) -> Vec<(bool, FaceId)> {
    let surface = making.surface;
    let (Some(low), Some(high)) = (right.first().zip(left.first()), right.last().zip(left.last())) else {
        return Vec::new();
    };
    let (low, high) = (low.0.midpoint(*low.1), high.0.midpoint(*high.1));
    let Some(first) = panels.first() else { return Vec::new() };
    let mut bands: Vec<(bool, FaceId)> = Vec::new();
    for stretch in surface.stretches_of(*first) {
        let Some(join) = surface.stretch(stretch).join else { continue };
        let path = making.flat(*first).and_then(|flat| flat.stretch(making.garment, surface, stretch));
        let Some(at) = path.map(|path| path.point_at_length(path.length() / 2.0)) else { continue };
        for face in surface.join(join).plies.iter().map(|ply| surface.face_of(ply.stretch)) {
            let is_new = !panels.contains(&face) && bands.iter().all(|(_, own)| *own != face);
            if is_new && making.flat(face).is_some_and(|flat| is_band(making, flat)) {
                bands.push((at.distance(low) <= at.distance(high), face));
            }
        }
    }
    bands
}
