//! Closures: zips between their edges, buttons and the like where they are sewn.

use super::canvas::{Mark, Panel, polygon, polyline};
use super::fit::area;
use super::ink::Stroke;
use super::laid::{Laid, Shown};
use super::layout::Layout;
use super::making::Making;
use super::placing::side_by_side;
use super::plies::{Once, PlyRun};
use super::seam::edges;
use super::upright;
use crate::garment::{ClosureId, ClosureKind};
use crate::sewing::FastenerPlace;
use crate::sewing::hanging::second_hangs;
use crate::sewing::surface::{ClosureLine, FaceId};
use crate::shape::{Point, Vec2};
use crate::syntax::tree::{Fastener, Hand};

/// How far the tape of a zip reaches beyond the line that it is sewn along, in millimetres: half a common zip is some 15
/// wide.
pub const TAPE: f64 = 11.0;
/// How far inside the line its teeth are drawn, as a share of how large the scene is, so that they are seen beside it.
pub const TEETH: f64 = 0.018;
/// A closure that is there more often is shown so many times.
const MOST_TIMES: usize = 2;

/// A closure: both its edges, and what closes them; of what is basted before a seam takes it in that alone.
pub fn panel(
    making: &Making,
    id: ClosureId,
    letter: &str,
    step: usize,
    (stroke, is_basted): (Stroke, bool),
) -> Option<Panel> {
    let lines: Vec<&ClosureLine> =
        making.surface.closures.iter().filter(|line| line.closure == id).take(MOST_TIMES).collect();
    match making.garment.closure(id).kind.as_ref()? {
        ClosureKind::Zipper { .. } => zip(making, &lines, letter, step, stroke),
        ClosureKind::Fasteners(_) => buttons(making, id, &lines, letter, (step, is_basted)),
    }
}

fn zip(making: &Making, lines: &[&ClosureLine], letter: &str, step: usize, stroke: Stroke) -> Option<Panel> {
    let all: Vec<Once> = lines.iter().filter_map(|line| Once::closure(making, line)).collect();
    let first = all.first()?;
    if let Some(panel) = (all.len() == 1).then(|| upright::zip(making, first, letter, step, stroke)).flatten()
    {
        return Some(panel);
    }
    let layout = Layout::of(making, &all, step, true);
    let layout = if layout.overlaps(making) { Layout::apart(making, &all) } else { layout };
    let mut panel = Panel::default();
    layout.draw(making, &mut panel, step);
    let teeth = TEETH * panel.bounds().map_or(0.0, |own| own.width().max(own.height()));
    for once in &all {
        for run in once.plies.iter().flat_map(|ply| &ply.runs) {
            if let Some(laid) = layout.of_face(run.face) {
                half_zip(making, laid, run, teeth, &mut panel);
            }
        }
        edges(making, &layout, once, letter, stroke, &mut panel);
    }
    Some(panel)
}

/// Half a zip along its edge: the tape over what will be the allowance, the teeth inside.
pub fn half_zip(making: &Making, laid: &Laid, run: &PlyRun, teeth: f64, panel: &mut Panel) {
    let (Some(flat), Some(path)) = (making.flat(run.face), run.path(making)) else { return };
    let path = if run.against { path.reversed() } else { path };
    let turns = if area(&flat.ring) > 0.0 { 1.0 } else { -1.0 };
    let points = path.flatten(0.5);
    let off = |depth: f64| -> Vec<Point> {
        let each = points.iter().enumerate().map(|(nth, at)| {
            let before = points.get(nth.saturating_sub(1)).unwrap_or(at);
            let after = points.get(nth + 1).unwrap_or(at);
            let way = *after - *before;
            let long = way.hypot().max(1e-9);
            laid.by * (*at + Vec2::new(-way.y, way.x) / long * depth * turns)
        });
        each.collect()
    };
    let (outer, inner) = (off(-TAPE), off(teeth));
    let ring: Vec<Point> = outer.iter().copied().chain(inner.iter().rev().copied()).collect();
    panel.line(polygon(&ring), Stroke::Tape);
    panel.line(polyline(&off(teeth)), Stroke::Teeth);
}

fn buttons(
    making: &Making,
    id: ClosureId,
    lines: &[&ClosureLine],
    letter: &str,
    (step, is_basted): (usize, bool),
) -> Option<Panel> {
    let taken = making.work.taken_sides(id);
    let has = |face: &FaceId| {
        let part = making.flat(*face).and_then(|flat| making.size.sewn.parts.get(flat.part.index()));
        part.is_some_and(|part| part.fasteners.iter().any(|place| place.closure == id))
    };
    let mut faces: Vec<FaceId> = Vec::new();
    let of_lines = lines.iter().flat_map(|line| line.faces.iter().flatten()).copied();
    for face in of_lines.chain(making.surface.face_ids().filter(has)) {
        if !faces.contains(&face) && (has(&face) || faces.len() < 2) {
            faces.push(face);
        }
    }
    let twins = |face: FaceId| making.flat(face).map(|flat| flat.drawn.piece);
    // More than a pair of each piece shows nothing new.
    let mut kept: Vec<FaceId> = Vec::new();
    for face in faces {
        if kept.iter().filter(|own| twins(**own) == twins(face)).count() < 2 {
            kept.push(face);
        }
    }
    kept.truncate(4);
    let first: Vec<FaceId> = lines.iter().flat_map(|line| line.faces.first()).flatten().copied().collect();
    // What hangs over has the buttonholes, though it is named second.
    let is_turned = second_hangs(making.garment, &making.size.drawn, id) == Some(true);
    let mut panel = Panel::default();
    let mut tagged = false;
    for laid in side_by_side(making, &kept) {
        let Some(flat) = making.flat(laid.face) else { continue };
        let Some(part) = making.size.sewn.parts.get(flat.part.index()) else { continue };
        let places = part.fasteners.iter().filter(|place| place.closure == id);
        let mut marks = Vec::new();
        for place in places {
            let halves: Vec<_> = flat.on_both(None);
            let is_on = |faces: &Vec<FaceId>| faces.contains(&laid.face);
            let is_whole = halves.len() > 1 && lines.iter().any(|line| line.faces.iter().all(is_on));
            for (base, half) in halves.into_iter().zip(Hand::BOTH) {
                let at = laid.by * base * flat.settled(place.at);
                // What is cut on the fold has a left and a right half.
                let hand = if is_whole { Some(half) } else { flat.hand };
                let is_first = match is_whole {
                    true => half == Hand::Left,
                    false => is_on_first(making, lines, laid.face, place.at)
                        .unwrap_or_else(|| first.contains(&laid.face)),
                };
                let holed = has_hole(place, hand, is_first != is_turned);
                // Loops, or the ties of one side, are basted; the rest is sewn on later.
                let is_shown = !is_basted
                    || match place.kind {
                        Fastener::Toggle => holed,
                        _ => taken[usize::from(!is_first)],
                    };
                if is_shown {
                    marks.push((at, fastener(place, at, holed)));
                }
            }
        }
        if is_basted && marks.is_empty() {
            continue;
        }
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        for (at, mark) in marks {
            panel.marks.push(mark);
            if !tagged {
                tagged = true;
                panel.tag(at + Vec2::new(0.0, 26.0), Vec2::new(1.0, 0.0), letter);
            }
        }
    }
    (!panel.is_empty()).then_some(panel)
}

/// Of a piece that closes on itself, whether a place lies on the first of both sides; none of any other.
fn is_on_first(making: &Making, lines: &[&ClosureLine], face: FaceId, at: Point) -> Option<bool> {
    let flat = making.flat(face)?;
    let line = lines.iter().find(|line| line.faces.iter().all(|side| side.contains(&face)))?;
    let [first, second] = [0, 1].map(|side| {
        let stretches = line.sides.get(side).into_iter().flatten();
        let paths =
            stretches.filter_map(|(stretch, _)| flat.stretch(making.garment, making.surface, *stretch));
        paths.map(|path| path.nearest(flat.base * flat.settled(at)).distance).fold(f64::INFINITY, f64::min)
    });
    (first.is_finite() && second.is_finite()).then_some(first <= second)
}

/// Whether something on the other side goes in there: the buttonholes and loops of what lies over and the strap that a buckle
/// takes, the eyes of what lies under. Where it is not said which lies over, the first side has the buttonholes or what goes
/// into the other's, as sentences tell it.
fn has_hole(place: &FastenerPlace, hand: Option<Hand>, is_first: bool) -> bool {
    let lies_over = place.over.zip(hand).map(|(over, hand)| over == hand);
    match place.kind {
        Fastener::Hook => !lies_over.unwrap_or(is_first),
        Fastener::Toggle | Fastener::Buckle => lies_over.unwrap_or(!is_first),
        Fastener::Button | Fastener::Snap | Fastener::Tie => lies_over.unwrap_or(is_first),
    }
}

fn fastener(place: &FastenerPlace, at: Point, holed: bool) -> Mark {
    let size = place.size.unwrap_or(12.0);
    match place.kind {
        Fastener::Button if holed => {
            let half = size / 2.0 + 1.5;
            Mark::Buttonhole(at - Vec2::new(half, 0.0), at + Vec2::new(half, 0.0))
        }
        Fastener::Button | Fastener::Snap => Mark::Button(at, size),
        Fastener::Hook | Fastener::Buckle | Fastener::Toggle | Fastener::Tie => {
            let half = (size / 2.0).min(12.0);
            match holed {
                true => Mark::Buttonhole(at - Vec2::new(half, 0.0), at + Vec2::new(half, 0.0)),
                false => Mark::Button(at, 9.0),
            }
        }
    }
}
