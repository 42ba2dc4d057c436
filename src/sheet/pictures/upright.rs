//! A zip between its two edges, upright: the piece that has most of each edge, and above and below it the ends of what is
//! sewn on there.

use super::canvas::{Label, Panel, polygon, polyline};
use super::closing::{TAPE, TEETH};
use super::fit::{centroid, contains};
use super::ink::Stroke;
use super::laid::{Laid, Shown};
use super::making::Making;
use super::plies::{Once, Ply, PlyRun};
use super::rolled::torn;
use crate::sewing::surface::FaceId;
use crate::shape::{Affine, Point, Vec2};

/// The piece that has most of an edge has at least this share of it.
const MOST: f64 = 0.45;
/// An edge that bends by more than this is not shown upright, in millimetres.
const STRAIGHT: f64 = 6.0;
/// How far both edges are apart, and how deep what is sewn on is shown, as a share of how long they are.
const APART: f64 = 0.16;
const DEEP: f64 = 0.22;
/// About how far from an edge the middle of a number's ring stands, as the same share.
const RINGED: f64 = 0.045;

/// One side of the zip.
struct Side<'o> {
    ply: &'o Ply,
    main: FaceId,
    by: Affine,
    /// Which way the piece lies from its edge: -1 to the left.
    way: f64,
    /// Along the ply where the piece's own edge begins, and whether the ply goes up from there.
    from: f64,
    up: f64,
}

/// The scene; none where an edge bends, or no piece has most of it.
pub fn zip(making: &Making, once: &Once, letter: &str, step: usize, stroke: Stroke) -> Option<Panel> {
    let first = side(making, once.side(false)?, None)?;
    let second = side(making, once.side(true)?, Some(&first))?;
    if first.main == second.main || first.way == second.way {
        return None;
    }
    let longest = first.ply.length.max(second.ply.length);
    let teeth = TEETH * longest;
    let mut panel = Panel::default();
    let mut sides = [first, second];
    sides.sort_by(|one, other| one.way.total_cmp(&other.way));
    let joined = |side: &Side| making.is_joined(side.main, step);
    let all_joined = sides.iter().all(joined);
    for side in &sides {
        let x = side.way * APART * longest / 2.0;
        let moved = Affine::translate((x, 0.0));
        let laid = Laid { face: side.main, by: moved * side.by };
        let at = |along: f64, out: f64| Point::new(x + out * side.way, side.up * (along - side.from));
        for (face, from, to) in side.ply.rows().into_iter().filter(|row| row.0 != side.main) {
            let beside = Beside { main: laid.ring(making), longest };
            let ends = [at(from, 0.0), at(to, 0.0)];
            strip(making, &mut panel, face, ends, &beside, side.way * DEEP * longest, step);
        }
        laid.draw(making, &mut panel, Shown { step, joined: joined(side) && !all_joined, labelled: true });
        let (start, end) = (0.0, side.ply.length);
        let tape = [at(start, -TAPE), at(end, -TAPE), at(end, teeth), at(start, teeth)];
        panel.line(polygon(&tape), Stroke::Tape);
        panel.line(polyline(&[at(start, teeth), at(end, teeth)]), Stroke::Teeth);
        panel.straight(at(start, 0.0), at(end, 0.0), stroke);
        panel.tag(at((start + end) / 2.0, 0.0), Vec2::new(0.0, 1.0), letter);
    }
    Some(panel)
}

/// The piece that has most of a side, turned so that its edge is upright; beside another its edge faces that one's.
fn side<'o>(making: &Making, ply: &'o Ply, beside: Option<&Side>) -> Option<Side<'o>> {
    let rows = ply.rows();
    let &(main, from, to) =
        rows.iter().max_by(|one, other| (one.2 - one.1).total_cmp(&(other.2 - other.1)))?;
    let runs: Vec<&PlyRun> = ply.runs.iter().filter(|run| run.face == main).collect();
    if to - from < MOST * ply.length || rows.iter().filter(|row| row.0 == main).count() > 1 {
        return None;
    }
    let paths: Option<Vec<_>> = runs.iter().map(|run| run.path(making)).collect();
    let paths = paths?;
    let (start, end) = (paths.first()?.start(), paths.last()?.end());
    let chord = end - start;
    let long = chord.hypot();
    let bends = paths
        .iter()
        .flat_map(|path| path.flatten(0.5))
        .map(|at| (chord.cross(at - start) / long.max(1e-9)).abs());
    if long < 1.0 || bends.fold(0.0, f64::max) > STRAIGHT {
        return None;
    }
    let flat = making.flat(main)?;
    let turned = |up: f64| {
        // Turns the chord upright.
        let way = chord / long * up;
        let turn = Affine::new([way.y, way.x, -way.x, way.y, 0.0, 0.0]);
        turn * Affine::translate(-start.to_vec2())
    };
    let lies = |by: Affine| (by * centroid(&flat.ring)).x.signum();
    let up = beside.map_or(if chord.y >= 0.0 { 1.0 } else { -1.0 }, |other| other.up);
    let by = turned(up);
    Some(Side { ply, main, by, way: lies(by), from, up })
}

/// The piece that has most of an edge, and how long the edge is.
struct Beside {
    main: Vec<Point>,
    longest: f64,
}

/// The end of what is sewn on above or below, torn off.
fn strip(
    making: &Making,
    panel: &mut Panel,
    face: FaceId,
    [from, to]: [Point; 2],
    beside: &Beside,
    deep: f64,
    step: usize,
) {
    let Some(flat) = making.flat(face) else { return };
    let out = Vec2::new(deep, 0.0);
    let joined = making.is_joined(face, step);
    let edge = torn(from + out, to + out, deep.abs() * 0.05, false);
    let mut outline = polyline(&[to, from, from + out]);
    edge.elements().iter().skip(1).for_each(|element| outline.push(*element));
    outline.close_path();
    panel.cloth(outline, making.cloth(flat.layer, true, joined));
    for end in [from, to] {
        panel.straight(end, end + out, if joined { Stroke::Before } else { Stroke::Outline });
    }
    panel.line(edge, Stroke::Joined);
    let (number, title) = making.called(flat.part);
    // Near the edge, where the piece does not hide it.
    let at = from.midpoint(to) + out * 0.3;
    let high = from.distance(to);
    // Where the piece hides a part of it, as a front does of its collar, the number stands above.
    let middle = centroid(&beside.main);
    let far = if from.distance(middle) > to.distance(middle) { from } else { to };
    let way = (far - from.midpoint(to)) / (high / 2.0).max(1e-9);
    let is_hidden = [0.0, 0.6, -0.6, 1.0].into_iter().any(|share| {
        contains(&beside.main, at + way * share * RINGED * beside.longest)
            || contains(&beside.main, at + out * share * RINGED * beside.longest / deep.abs().max(1e-9))
    });
    let at = if is_hidden { far + out * 0.1 + way * RINGED * beside.longest } else { at };
    let (room, title) = (deep.abs() * 0.4, title.to_string());
    panel.labels.push(Label { at, room, high, number, title, clear_of: Vec::new() });
}
