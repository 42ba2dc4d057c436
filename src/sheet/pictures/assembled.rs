//! The garment, its pieces laid together flat: the front and the back, sleeves hung under the body, bands at its edges.

use super::body::{Body, View, outward};
use super::canvas::{Caption, Drawn, Mark, Panel, polygon, polyline};
use super::collars::{self, Band};
use super::crowns::crown;
use super::doubled::doubled;
use super::fit::{left_of, rigid};
use super::flat::Flat;
use super::ink::{Cloth, Stroke};
use super::laid::{Laid, Shown};
use super::making::{Making, NEVER};
use super::outside::{is_band, outside};
use super::placing::side_by_side;
use crate::garment::ClosureKind;
use crate::sewing::surface::{FaceId, StretchId};
use crate::shape::{Affine, Point, Vec2};

/// A sleeve hangs so far below the level, in degrees: as one lies that is spread out flat.
const HANG: f64 = 57.0;
/// A sleeve whose top lies no farther from the seam of its body is set in there, in millimetres: less than half of what a raglan
/// sleeve has of a neck.
const AT_SEAM: f64 = 15.0;
/// In so many parts a seam is looked along for that.
const FINE: u32 = 24;
/// Less than this share of all cloth, left out of both views, is not missed in them.
const MUCH_LEFT: f64 = 0.15;
/// So many pieces that are shown in no view are shown beside them.
const MOST_LEFT: usize = 8;

/// Half a sleeve in a view.
struct Hung {
    face: FaceId,
    by: Affine,
    ring: Vec<Point>,
    /// The way from its top to its lower edge.
    down: Vec2,
    /// Where it is folded in the middle: what lies to the left of that is seen.
    fold: (Point, Vec2),
}

/// The scenes: front, back, and what is in neither; all pieces beside one another where nothing is known of how they lie.
pub fn garment(making: &Making) -> Vec<Panel> {
    let Some(body) = Body::of(making) else { return around(making) };
    let mut panels = Vec::new();
    let mut seen: Vec<FaceId> = Vec::new();
    for (view, caption) in body.views.iter().zip([Caption::Front, Caption::Back]) {
        let mut hung: Vec<Hung> =
            body.sleeves.iter().filter_map(|sleeve| hung(making, &body, view, *sleeve)).collect();
        at_ends(making, &body, view, &mut hung);
        let mut panel = Panel::default();
        for sleeve in &hung {
            draw_half(making, &mut panel, sleeve);
            differing_sleeve(making, sleeve, &mut panel);
            seen.push(sleeve.face);
        }
        let bands = bands(making, &body, view, &hung, &mut panel);
        seen.extend(bands.iter().map(|band| band.face));
        // Narrow pieces over wide ones.
        for laid in &view.laid {
            let shown = Shown { step: NEVER, joined: false, labelled: false };
            laid.draw_beside(making, &mut panel, shown, half(making, laid));
            seen.push(laid.face);
        }
        seen.extend(collars::draw(making, &body.doubled, &bands, &mut panel));
        differing(making, view, &bands, &mut panel);
        closed(making, view, &mut panel);
        panel.caption = Some(caption);
        panels.push(panel);
    }
    if body.views.len() == 1 {
        panels.iter_mut().for_each(|panel| panel.caption = None);
    }
    let piece = |face: FaceId| making.flat(face).map(|flat| flat.drawn.piece);
    let shown: Vec<_> = seen.iter().filter_map(|face| piece(*face)).collect();
    let left: Vec<FaceId> = body
        .outside
        .iter()
        .copied()
        .filter(|face| piece(*face).is_none_or(|own| !shown.contains(&own)))
        .collect();
    let area = |faces: &[FaceId]| {
        faces.iter().filter_map(|face| making.flat(*face)).map(|flat| flat.area()).sum::<f64>()
    };
    if area(&left) > MUCH_LEFT * area(&body.outside) {
        panels.extend(pieces(making, &left));
    }
    panels
}

/// What has no front and back: a ring of alike panels from the side, with whatever else there is beside it; else all pieces.
fn around(making: &Making) -> Vec<Panel> {
    let Some((mut panel, shown)) = crown(making) else { return pieces(making, &all(making)) };
    let is_shown = |face: &FaceId| shown.contains(face);
    let rest: Vec<FaceId> = outside(making).into_iter().filter(|face| !is_shown(face)).collect();
    let rest = pieces(making, &rest);
    panel.caption = None;
    std::iter::once(panel).chain(rest).collect()
}

/// Of a left or right piece that reaches over the middle, as a trouser leg does, the side that it lies on.
fn half(making: &Making, laid: &Laid) -> Option<f64> {
    making.flat(laid.face)?.hand?;
    let own = super::fit::bounds(&laid.ring(making))?;
    let side = if own.center().x < 0.0 { -1.0 } else { 1.0 };
    (own.x0 < -1.0 && own.x1 > 1.0).then_some(side)
}

fn all(making: &Making) -> Vec<FaceId> {
    making.surface.face_ids().collect()
}

/// Pieces beside one another, each once.
fn pieces(making: &Making, faces: &[FaceId]) -> Vec<Panel> {
    let mut shown: Vec<FaceId> = Vec::new();
    for &face in faces {
        let piece = |face: FaceId| making.flat(face).map(|flat| flat.drawn.piece);
        if piece(face).is_some() && !shown.iter().any(|own| piece(*own) == piece(face)) {
            shown.push(face);
        }
    }
    shown.truncate(MOST_LEFT);
    let mut panel = Panel::of(Caption::Pieces);
    for laid in side_by_side(making, &shown) {
        laid.draw(making, &mut panel, Shown { step: NEVER, joined: false, labelled: true });
    }
    if panel.is_empty() { Vec::new() } else { vec![panel] }
}

/// Half a sleeve, folded along its middle, its top on the shoulder; none where it is not sewn to this view.
fn hung(making: &Making, body: &Body, view: &View, face: FaceId) -> Option<Hung> {
    let flat = making.flat(face)?;
    let own: Vec<(Point, Point)> = body
        .met
        .iter()
        .filter(|met| met.one.0 == face && met.other.0 == face)
        .flat_map(|met| met.pairs(making))
        .collect();
    let (mirror, _) = rigid(&own, true)?;
    let at = flat.ring.first().copied()?;
    let middle = at.midpoint(mirror * at);
    let [c, s, ..] = mirror.as_coeffs();
    let (sine, cosine) = libm::sincos(libm::atan2(s, c) / 2.0);
    let axis = Vec2::new(cosine, sine);
    let here: Vec<(Point, Point)> = view
        .laid
        .iter()
        .flat_map(|laid| {
            let pairs = body.met.iter().flat_map(|met| met.between_in(making, face, laid.face, FINE));
            pairs.map(|(own, there)| (own, laid.by * there)).collect::<Vec<_>>()
        })
        .collect();
    let count = here.len().max(1) as f64;
    let seam = (here.iter().fold(Vec2::ZERO, |all, pair| all + pair.0.to_vec2()) / count).to_point();
    if here.is_empty() {
        return None;
    }
    // The middle runs from the seam down.
    let centre = super::fit::centroid(&flat.ring);
    let down = if axis.dot(centre - seam) >= 0.0 { axis } else { -axis };
    let is_left = down.cross(seam - middle) > 0.0;
    let ring = left_of(&flat.ring, middle, if is_left { down } else { -down });
    let on_middle = ring.iter().filter(|at| (down.cross(**at - middle)).abs() < 0.5);
    let crown = on_middle
        .min_by(|one, other| down.dot(**one - middle).total_cmp(&down.dot(**other - middle)))
        .copied()?;
    let (top, shoulder) =
        here.iter().min_by(|one, other| one.0.distance(crown).total_cmp(&other.0.distance(crown)))?;
    // A sleeve that is set in is sewn to the body at its crown, if on the other side; one that goes up to the neck is not.
    let everywhere = body.views.iter().flat_map(|view| &view.laid);
    let is_set_in = everywhere
        .flat_map(|laid| body.met.iter().flat_map(|met| met.between_in(making, face, laid.face, FINE)))
        .any(|(own, _)| own.distance(crown) <= AT_SEAM);
    let by = if is_set_in {
        let (sine, cosine) = libm::sincos(HANG.to_radians());
        let way = outward(*shoulder) * cosine - Vec2::new(0.0, sine);
        // Turns the middle of the sleeve that way.
        let (along, across) = (down.dot(way), down.cross(way));
        let turn = Affine::new([along, across, -across, along, 0.0, 0.0]);
        Affine::translate(shoulder.to_vec2()) * turn * Affine::translate(-top.to_vec2())
    } else {
        rigid(&here, false)?.0
    };
    let turned = by * (crown + down) - by * crown;
    let fold = (by * middle, if is_left { turned } else { -turned });
    Some(Hung { face, by, ring: ring.iter().map(|at| by * *at).collect(), down: turned, fold })
}

/// What is sewn on at the lower end of a sleeve, as a flounce or a cuff that is no folded band: a tube itself, or a narrow piece
/// with its twin. It lies along that edge and is folded where the sleeve is.
fn at_ends(making: &Making, body: &Body, view: &View, hung: &mut Vec<Hung>) {
    loop {
        let sleeves: Vec<FaceId> = hung.iter().map(|own| own.face).collect();
        let doubled = doubled(making, &body.outside, &body.met, &sleeves);
        let of_tubes = body.sleeves.iter().copied();
        let of_doubled =
            doubled.iter().filter(|own| !own.is_turned() || own.on.is_none()).map(|own| own.face);
        let mut open = of_tubes.chain(of_doubled).filter(|face| {
            !sleeves.contains(face)
                && view.of_face(*face).is_none()
                && !making.flat(*face).is_some_and(|flat| is_band(making, flat))
        });
        let Some(next) = open.find_map(|face| at_end(making, body, hung, face)) else { return };
        hung.push(next);
    }
}

fn at_end(making: &Making, body: &Body, hung: &[Hung], face: FaceId) -> Option<Hung> {
    let flat = making.flat(face)?;
    let near = |own: &Hung, at: Point| on_ring(&own.ring, at);
    hung.iter().find_map(|own| {
        let met = body.met.iter().flat_map(|met| met.between_in(making, face, own.face, FINE));
        let met = met.map(|(at, there)| (at, own.by * there));
        // Only along the half that is seen.
        let pairs: Vec<(Point, Point)> = met.filter(|(_, there)| near(own, *there)).collect();
        let (by, off) = rigid(&pairs, false).filter(|_| pairs.len() > 2)?;
        if off > AT_SEAM {
            return None;
        }
        let ring: Vec<Point> = flat.ring.iter().map(|at| by * *at).collect();
        let (at, along) = own.fold;
        Some(Hung { face, by, ring: left_of(&ring, at, along), down: own.down, fold: own.fold })
    })
}

fn draw_half(making: &Making, panel: &mut Panel, sleeve: &Hung) {
    let Some(flat) = making.flat(sleeve.face) else { return };
    panel.cloth(polygon(&sleeve.ring), cloth(making, flat));
    panel.line(polygon(&sleeve.ring), Stroke::Outline);
}

fn cloth(making: &Making, flat: &Flat) -> Cloth {
    making.cloth(flat.layer, true, false)
}

/// Bands: each along the edge that it is sewn to, as high as it is when it is folded, or as it stands up.
fn bands(making: &Making, body: &Body, view: &View, hung: &[Hung], panel: &mut Panel) -> Vec<Band> {
    let mut seen = Vec::new();
    // Bands, and the upper edges of those that stand up.
    let (mut drawn, mut tops): (Vec<(Vec<Point>, Cloth)>, Vec<Point>) = (Vec::new(), Vec::new());
    let mut top_cloth: Option<Cloth> = None;
    for &face in &body.outside {
        let Some(flat) = making.flat(face) else { continue };
        let stands = body.doubled.iter().find(|own| own.face == face && own.on.is_none());
        let high = if is_band(making, flat) { height(making, flat) } else { stands.map(collars::high) };
        let Some(high) = high else { continue };
        for met in &body.met {
            let (other, stretch) = match (met.one, met.other) {
                (one, other) if one.0 == face => other,
                (one, other) if other.0 == face => one,
                _ => continue,
            };
            let edge = |by: Affine, stretch: StretchId| -> Option<Vec<Point>> {
                let path = making.flat(other)?.stretch(making.garment, making.surface, stretch)?;
                Some(path.flatten(0.5).into_iter().map(|at| by * at).collect())
            };
            let found = if let Some(laid) = view.of_face(other) {
                edge(laid.by, stretch).map(|line| {
                    let middle = super::fit::centroid(&laid.ring(making));
                    let count = line.len().max(1) as f64;
                    let mean = line.iter().fold(Vec2::ZERO, |all, at| all + at.to_vec2()) / count;
                    let off = mean - middle.to_vec2();
                    let is_upright = line
                        .first()
                        .zip(line.last())
                        .is_some_and(|(one, other)| (other.y - one.y).abs() > 2.0 * (other.x - one.x).abs());
                    let way = match is_upright {
                        true => Vec2::new(off.x.signum(), 0.0),
                        false => Vec2::new(0.0, off.y.signum()),
                    };
                    (line, way * high)
                })
            } else if let Some(half) = hung.iter().find(|half| half.face == other) {
                edge(half.by, stretch).map(|line| {
                    // Only the half that is seen.
                    let near = |at: &&Point| {
                        super::fit::bounds(&half.ring).is_some_and(|own| own.inflate(1.0, 1.0).contains(**at))
                            && on_ring(&half.ring, **at)
                    };
                    (line.iter().filter(near).copied().collect(), half.down * high)
                })
            } else {
                None
            };
            let Some((line, off)) = found.filter(|(line, _): &(Vec<Point>, Vec2)| line.len() > 1) else {
                continue;
            };
            let ring: Vec<Point> =
                line.iter().copied().chain(line.iter().rev().map(|at| *at + off)).collect();
            if off.y > 0.0 {
                tops.extend(line.iter().map(|at| *at + off));
                top_cloth = Some(cloth(making, flat));
            }
            drawn.push((ring, cloth(making, flat)));
            seen.push(Band { face, line, off });
        }
    }
    inside(&mut tops, top_cloth, panel);
    for (ring, cloth) in drawn {
        panel.cloth(polygon(&ring), cloth);
        panel.line(polygon(&ring), Stroke::Outline);
    }
    seen
}

/// The inside of a collar that stands up round a hollow neck, seen over its upper edge.
fn inside(tops: &mut [Point], cloth: Option<Cloth>, panel: &mut Panel) {
    tops.sort_by(|one, other| one.x.total_cmp(&other.x));
    let (Some(left), Some(right), Some(cloth)) = (tops.first(), tops.last(), cloth) else { return };
    let line = left.midpoint(*right).y;
    if tops.iter().all(|at| at.y > line - 10.0) {
        return;
    }
    panel.cloth(polygon(tops), Cloth { right: false, ..cloth });
    panel.line(polygon(tops), Stroke::Outline);
}

fn on_ring(ring: &[Point], at: Point) -> bool {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).any(|(one, other)| {
        let way = *other - *one;
        let long = way.hypot2();
        let share = if long > 0.0 { ((at - *one).dot(way) / long).clamp(0.0, 1.0) } else { 0.0 };
        (*one + way * share).distance(at) < 1.0
    })
}

/// How high a folded band is: half the way from the one edge to the other.
pub(super) fn height(making: &Making, flat: &Flat) -> Option<f64> {
    let over = making.garment.piece(flat.drawn.piece).folds.first()?;
    let middle = |wanted| {
        let edge = flat.drawn.edges.iter().find(|own| making.garment.is_run_of(own.edge, wanted))?;
        Some(edge.path.point_at_length(edge.path.length() / 2.0))
    };
    Some(middle(over.edge)?.distance(middle(over.onto)?) * over.share_left())
}

/// Marks what differs from the base on pieces that lie flat and on bands: edges that do, and what is new.
fn differing(making: &Making, view: &View, bands: &[Band], panel: &mut Panel) {
    for laid in &view.laid {
        let Some(flat) = making.flat(laid.face) else { continue };
        let side = half(making, laid);
        for path in making.differing_edges(flat).iter().map(|path| laid.path(path)) {
            let middle = path.point_at_length(path.length() / 2.0);
            if side.is_none_or(|side| middle.x * side > -1.0) {
                panel.line(path.to_bez(), Stroke::Differs);
            }
        }
        if making.is_added(flat) {
            panel.marks.push(said(&laid.ring(making)));
        }
    }
    for band in bands {
        let Some(flat) = making.flat(band.face) else { continue };
        let outer: Vec<Point> = band.line.iter().map(|at| *at + band.off).collect();
        if !making.differing_edges(flat).is_empty() {
            panel.line(polyline(&outer), Stroke::Differs);
        }
        // What is sewn on along several edges is said to be new at the longest.
        let is_longest =
            bands.iter().filter(|own| own.face == band.face).all(|own| own.long() <= band.long());
        if is_longest
            && making.is_added(flat)
            && let Some(at) = outer.get(outer.len() / 2)
        {
            panel.marks.push(Mark::Said(*at - band.off / 2.0, Caption::Added, band.off.hypot()));
        }
    }
}

/// "New", on a piece where it lies.
fn said(ring: &[Point]) -> Mark {
    let high = super::fit::bounds(ring).map_or(0.0, |own| own.height());
    Mark::Said(super::fit::centroid(ring), Caption::Added, high)
}

/// The same on a sleeve, before the body hides what of it lies behind.
fn differing_sleeve(making: &Making, half: &Hung, panel: &mut Panel) {
    let Some(flat) = making.flat(half.face) else { return };
    for path in making.differing_edges(flat) {
        let line: Vec<Point> = path.flatten(0.5).into_iter().map(|at| half.by * at).collect();
        for seen in line.split(|at| !on_ring(&half.ring, *at)).filter(|seen| seen.len() > 1) {
            panel.line(polyline(seen), Stroke::Differs);
        }
    }
    if making.is_added(flat) {
        panel.marks.push(said(&half.ring));
    }
}

/// What closes the garment: the teeth of zips, buttons.
fn closed(making: &Making, view: &View, panel: &mut Panel) {
    for line in &making.surface.closures {
        let is_zip = matches!(making.garment.closure(line.closure).kind, Some(ClosureKind::Zipper { .. }));
        for (stretch, _) in line.sides.iter().flatten().filter(|_| is_zip) {
            let face = making.surface.face_of(*stretch);
            let (Some(laid), Some(flat)) = (view.of_face(face), making.flat(face)) else { continue };
            if let Some(path) = flat.stretch(making.garment, making.surface, *stretch) {
                panel.ground.push(Drawn::Line(laid.path(&path).to_bez(), Stroke::Teeth));
            }
        }
    }
    let mut places: Vec<(Point, f64)> = Vec::new();
    for laid in &view.laid {
        let Some(flat) = making.flat(laid.face) else { continue };
        let Some(part) = making.size.sewn.parts.get(flat.part.index()) else { continue };
        for place in &part.fasteners {
            for base in flat.on_both(None) {
                let at = laid.by * base * flat.settled(place.at);
                if !places.iter().any(|(other, _)| other.distance(at) < 6.0) {
                    places.push((at, place.size.unwrap_or(10.0)));
                }
            }
        }
    }
    panel.marks.extend(places.into_iter().map(|(at, wide)| Mark::Button(at, wide)));
}
