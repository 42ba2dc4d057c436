//! Which pieces make the front of a garment and which its back.
//!
//! A garment is like its mirror image, but for what is worn on one side alone. What lies across its middle is a whole
//! piece, or a left and a right one that are joined or closed there: a seam that crosses the middle joins what is seen
//! together, any other seam between such pieces leads round to the other side. What lies to one side goes where there is
//! less.

use super::clusters::rigid_upright;
use super::doubled::{Doubled, doubled, is_between};
use super::fit::{bounds, rigid};
use super::laid::Laid;
use super::making::Making;
use super::outside::{Met, is_band, is_strip, met, outside};
use crate::sewing::surface::FaceId;
use crate::shape::{Affine, Point, Vec2};

/// A place nearer to the middle than this lies on it, in millimetres.
const ON_MIDDLE: f64 = 1.5;
/// A piece beside another is joined to it along at least so much of its height.
const MOST_OF_SIDE: f64 = 0.7;

/// What is seen from one side.
#[derive(Clone, Debug, Default)]
pub struct View {
    /// Where its pieces lie: upright, the middle at 0.
    pub laid: Vec<Laid>,
    /// The largest of them.
    seed: Vec<Laid>,
}

impl View {
    /// Where a face lies.
    pub fn of_face(&self, face: FaceId) -> Option<&Laid> {
        self.laid.iter().find(|laid| laid.face == face)
    }

    fn width(&self, making: &Making) -> f64 {
        let points: Vec<Point> = self.laid.iter().flat_map(|laid| laid.ring(making)).collect();
        bounds(&points).map_or(0.0, |own| own.width())
    }
}

/// A garment's pieces, sorted.
pub struct Body {
    /// The front, then the back; one of what is not round.
    pub views: Vec<View>,
    /// Sleeves: each is sewn to itself, and to the body.
    pub sleeves: Vec<FaceId>,
    /// Everything that is sewn together on the outside.
    pub met: Vec<Met>,
    /// What is seen outside.
    pub outside: Vec<FaceId>,
    /// Stands, collars and unfolded bands.
    pub doubled: Vec<Doubled>,
}

/// Something across the middle, or a left and a right piece.
struct Element {
    faces: Vec<FaceId>,
    /// It lies across the middle.
    middle: bool,
}

impl Body {
    /// Of a garment; none where nothing is known of it.
    pub fn of(making: &Making) -> Option<Body> {
        let outside = outside(making);
        let met = met(making, &outside);
        let is_flap = |face: &FaceId| making.flat(*face).is_some_and(|flat| is_band(making, flat));
        let is_tube = |face: &FaceId| {
            let is_handed = making.flat(*face).is_some_and(|flat| flat.hand.is_some());
            is_handed
                && !is_strip(making, *face)
                && met.iter().any(|met| met.one.0 == *face && met.other.0 == *face)
        };
        let is_strip = |face: &FaceId| is_strip(making, *face);
        let mut body: Vec<FaceId> = outside
            .iter()
            .copied()
            .filter(|face| !is_flap(face) && !is_tube(face) && !is_strip(face))
            .collect();
        let mut sleeves: Vec<FaceId> =
            outside.iter().copied().filter(|face| !is_flap(face) && is_tube(face)).collect();
        if body.is_empty() {
            body = std::mem::take(&mut sleeves);
        }
        // Of many pieces that are alike, as the panels of a cap, none is the front.
        let piece = |face: FaceId| making.flat(face).map(|flat| flat.drawn.piece);
        if body.iter().any(|face| body.iter().filter(|other| piece(**other) == piece(*face)).count() > 2) {
            return None;
        }
        let between: Vec<FaceId> = outside
            .iter()
            .copied()
            .filter(|face| is_strip(face) && !is_flap(face) && is_between(making, *face, &met, &body))
            .collect();
        body.extend(between);
        let doubled = doubled(making, &outside, &met, &body);
        let elements = elements(making, &body, &met);
        let views = views(making, &elements, &met)?;
        Some(Body { views, sleeves, met, outside, doubled })
    }
}

/// Whole pieces, and pairs of a left and a right one.
fn elements(making: &Making, body: &[FaceId], met: &[Met]) -> Vec<Element> {
    let mut elements: Vec<Element> = Vec::new();
    for &face in body {
        let Some(flat) = making.flat(face) else { continue };
        if elements.iter().any(|element| element.faces.contains(&face)) {
            continue;
        }
        if flat.hand.is_none() {
            elements.push(Element { faces: vec![face], middle: true });
            continue;
        }
        let copy = making.surface.face(face).copy;
        let twin = body.iter().copied().find(|other| {
            *other != face
                && making.surface.face(*other).copy == copy
                && making.flat(*other).is_some_and(|other| {
                    other.drawn.piece == flat.drawn.piece
                        && other.hand != flat.hand
                        && other.layer == flat.layer
                })
        });
        let is_joined = |twin: FaceId| -> bool {
            let sewn = met.iter().any(|met| [(face, twin), (twin, face)].contains(&(met.one.0, met.other.0)));
            let closed = making.surface.closures.iter().any(|line| {
                let [one, other] = &line.faces;
                one.contains(&face) && other.contains(&twin) || one.contains(&twin) && other.contains(&face)
            });
            // A band on each of them, of which the one is closed to the other.
            let bands = |face: FaceId| -> Vec<FaceId> {
                let own = met.iter().filter_map(|met| match (met.one.0, met.other.0) {
                    (one, other) if one == face => Some(other),
                    (one, other) if other == face => Some(one),
                    _ => None,
                });
                own.filter(|band| making.flat(*band).is_some_and(|flat| is_band(making, flat))).collect()
            };
            let (ours, theirs) = (bands(face), bands(twin));
            let by_bands = making.surface.closures.iter().any(|line| {
                let [one, other] = &line.faces;
                let is = |faces: &[FaceId], of: &[FaceId]| faces.iter().any(|face| of.contains(face));
                is(one, &ours) && is(other, &theirs) || is(one, &theirs) && is(other, &ours)
            });
            sewn || closed || by_bands
        };
        let middle = twin.is_some_and(is_joined);
        elements.push(Element { faces: std::iter::once(face).chain(twin).collect(), middle });
    }
    elements
}

/// The views: of what lies across the middle what is joined across it, then what lies beside.
fn views(making: &Making, elements: &[Element], met: &[Met]) -> Option<Vec<View>> {
    let area = |element: &Element| {
        element.faces.iter().filter_map(|face| making.flat(*face)).map(|flat| flat.area()).sum::<f64>()
    };
    let mut middles: Vec<&Element> = elements.iter().filter(|element| element.middle).collect();
    middles.sort_by(|one, other| area(other).total_cmp(&area(one)));
    let mut views: Vec<View> = Vec::new();
    while !middles.is_empty() {
        let first = middles.remove(0);
        let Some(laid) = centred(making, first, met) else { continue };
        let mut view = View { seed: laid.clone(), laid };
        // What is joined to it across the middle lies above or below it.
        while let Some((at, up)) = middles
            .iter()
            .enumerate()
            .find_map(|(at, element)| Some((at, across(making, &view, element, met)?)))
        {
            let element = middles.remove(at);
            let Some(laid) = centred(making, element, met) else { continue };
            view.laid.extend(
                laid.into_iter().map(|laid| Laid { by: Affine::translate((0.0, up)) * laid.by, ..laid }),
            );
        }
        views.push(view);
    }
    views.truncate(2);
    let mut beside: Vec<&Element> = elements.iter().filter(|element| !element.middle).collect();
    while !beside.is_empty() {
        let next = beside.iter().enumerate().find_map(|(at, element)| {
            let mut open: Vec<usize> = (0..views.len())
                .filter(|view| {
                    views.get(*view).is_some_and(|view| {
                        element.faces.iter().all(|face| glued(making, view, *face, met).is_some())
                    })
                })
                .collect();
            open.sort_by(|one, other| {
                let width = |at: &usize| views.get(*at).map_or(0.0, |view| view.width(making));
                width(one).total_cmp(&width(other))
            });
            Some((at, *open.first()?))
        });
        let Some((at, view)) = next else { break };
        let element = beside.remove(at);
        let view = views.get_mut(view)?;
        let laid: Vec<Laid> = element
            .faces
            .iter()
            .filter_map(|&face| Some(Laid { face, by: glued(making, view, face, met)? }))
            .collect();
        view.laid.extend(laid);
    }
    views.retain(|view| !view.laid.is_empty());
    // What is cut lower in the middle is the front, at the neck and at the waist alike.
    let top = |view: &View| {
        let highest =
            view.seed.iter().flat_map(|laid| laid.ring(making)).map(|at| at.y).fold(f64::MIN, f64::max);
        let in_middle = view.seed.iter().flat_map(|laid| {
            let ring = laid.ring(making);
            let next: Vec<Point> = ring.iter().copied().cycle().skip(1).take(ring.len()).collect();
            ring.into_iter()
                .zip(next)
                .filter(|(one, other)| (one.x <= 0.5) != (other.x <= 0.5) || one.x.abs() < 0.6)
                .map(|(one, _)| one.y)
                .collect::<Vec<f64>>()
        });
        highest - in_middle.fold(f64::MIN, f64::max)
    };
    if let [one, other] = views.as_slice()
        && top(other) > top(one) + 2.0
    {
        views.reverse();
    } else if let [one, other] = views.as_slice()
        && (top(other) - top(one)).abs() <= 2.0
    {
        // Where both are alike what is drawn first is taken for the front.
        let first = |view: &View| view.laid.iter().map(|laid| laid.face.index()).min();
        if first(other) < first(one) {
            views.reverse();
        }
    }
    (!views.is_empty()).then_some(views)
}

/// What lies across the middle, with its middle at 0.
fn centred(making: &Making, element: &Element, met: &[Met]) -> Option<Vec<Laid>> {
    let mut laid = Vec::new();
    for &face in &element.faces {
        let flat = making.flat(face)?;
        let own = bounds(&flat.ring)?;
        let x = match flat.mirror {
            _ if flat.hand.is_some() => edge_in_middle(making, element, face, met)?,
            // The fold's own points stay where they are.
            Some(mirror) => {
                let at = Point::new(own.center().x, own.center().y);
                let there = flat.base * mirror * flat.base.inverse() * at;
                at.midpoint(there).x
            }
            None => own.center().x,
        };
        laid.push(Laid { face, by: Affine::translate((-x, 0.0)) });
    }
    Some(laid)
}

/// Where the edge of a left or right piece lies that meets the other: a seam's upper end, the middle of a closure.
fn edge_in_middle(making: &Making, element: &Element, face: FaceId, met: &[Met]) -> Option<f64> {
    let twin = element.faces.iter().copied().find(|other| *other != face)?;
    let pairs = met.iter().flat_map(|met| met.between(making, face, twin));
    let highest = pairs.map(|(at, _)| at).max_by(|one, other| one.y.total_cmp(&other.y));
    if let Some(highest) = highest {
        return Some(highest.x);
    }
    let flat = making.flat(face)?;
    let mut sum = (0.0, 0.0);
    for line in
        making.surface.closures.iter().filter(|line| line.faces.iter().any(|faces| faces.contains(&face)))
    {
        for (stretch, _) in
            line.sides.iter().flatten().filter(|(stretch, _)| making.surface.face_of(*stretch) == face)
        {
            if let Some(path) = flat.stretch(making.garment, making.surface, *stretch) {
                let length = path.length();
                sum = (sum.0 + length * path.point_at_length(length / 2.0).x, sum.1 + length);
            }
        }
    }
    if sum.1 > 0.0 {
        return Some(sum.0 / sum.1);
    }
    // A line inside the piece: where its buttons are.
    let part = making.size.sewn.parts.get(flat.part.index())?;
    let all: Vec<f64> = part.fasteners.iter().map(|place| (flat.base * flat.settled(place.at)).x).collect();
    if !all.is_empty() {
        return Some(all.iter().sum::<f64>() / all.len() as f64);
    }
    // The upright edge of a band: the longest that a band is sewn to.
    let mut longest: Option<(f64, f64)> = None;
    for met in met {
        for (own, other) in [(met.one, met.other), (met.other, met.one)] {
            let is_band = making.flat(other.0).is_some_and(|flat| is_band(making, flat));
            let path =
                flat.stretch(making.garment, making.surface, own.1).filter(|_| own.0 == face && is_band);
            let Some(path) = path else { continue };
            let (high, length) = ((path.end().y - path.start().y).abs(), path.length());
            if longest.is_none_or(|(before, _)| high > before) {
                longest = Some((high, path.point_at_length(length / 2.0).x));
            }
        }
    }
    longest.map(|(_, x)| x)
}

/// How far up something across the middle lies that is joined to a view across it; none of what is not.
fn across(making: &Making, view: &View, element: &Element, met: &[Met]) -> Option<f64> {
    let own = centred(making, element, met)?;
    let mut sum = (0.0, 0.0);
    let mut crosses = false;
    for laid in &own {
        for there in &view.laid {
            for (at, to) in met.iter().flat_map(|met| met.between(making, laid.face, there.face)) {
                let (at, to) = (laid.by * at, there.by * to);
                crosses |= at.x.abs() < ON_MIDDLE && to.x.abs() < ON_MIDDLE;
                sum = (sum.0 + to.y - at.y, sum.1 + 1.0);
            }
        }
    }
    (crosses && sum.1 > 0.0).then_some(sum.0 / sum.1)
}

/// Where a piece lies that is sewn to a view; none where its edges do not fit there, or it would have to be turned.
fn glued(making: &Making, view: &View, face: FaceId, met: &[Met]) -> Option<Affine> {
    let mut pairs: Vec<(Point, Point)> = Vec::new();
    for laid in &view.laid {
        let own = met.iter().flat_map(|met| met.between(making, face, laid.face));
        pairs.extend(own.map(|(at, to)| (at, laid.by * to)));
    }
    // What is joined along a little of its side lies behind, as the back of a pocket.
    let whole = bounds(&making.flat(face)?.ring)?;
    let along = bounds(&pairs.iter().map(|pair| pair.0).collect::<Vec<Point>>())?;
    if along.height() < MOST_OF_SIDE * whole.height() {
        return None;
    }
    rigid(&pairs, false).filter(|(by, off)| rigid_upright(*by) && *off < 40.0).map(|(by, _)| by)
}

/// A direction that leads away from the middle.
pub fn outward(at: Point) -> Vec2 {
    Vec2::new(if at.x < 0.0 { -1.0 } else { 1.0 }, 0.0)
}
