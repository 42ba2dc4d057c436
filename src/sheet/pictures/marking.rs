//! What is sewn on a piece by itself: darts and pleats, rows of topstitching, tacks, cords.

use super::canvas::{Caption, Mark, Panel};
use super::flat::Flat;
use super::ink::Stroke;
use super::laid::{Laid, Shown, legs, seam_of};
use super::layout::Layout;
use super::making::Making;
use super::patches::beside;
use super::placing::side_by_side;
use super::plies::Once;
use crate::garment::{CordId, EdgeId, LayerId, RowId, TackId};
use crate::resolve::DrawnTakeUp;
use crate::sewing::PartRow;
use crate::sewing::order::Job;
use crate::sewing::surface::{FaceId, JoinId, JoinedBy};
use crate::shape::beside::row_beside;
use crate::shape::path::Path;
use crate::shape::{Affine, Point, Vec2};
use crate::syntax::tree::Hand;

/// So many copies are shown at most.
const MOST_COPIES: usize = 2;
/// How far a cord runs inside the edge that it is threaded through, in millimetres, for the eye.
const CORD: f64 = 12.0;

/// A dart, pleat or tuck: what is sewn, where it is folded and which way it is laid, on the wrong side; a pleat on the
/// right side.
pub fn take_up(
    making: &Making,
    layer: LayerId,
    name: EdgeId,
    letter: &str,
    step: usize,
    basted: bool,
) -> Option<Panel> {
    let own = |face: FaceId| -> Vec<DrawnTakeUp> {
        let flat = making.flat(face).filter(|flat| flat.layer == layer);
        let all = flat.map_or(&[][..], |flat| &flat.drawn.take_ups).iter();
        all.filter(|one| making.garment.is_run_of(one.name, name)).copied().collect()
    };
    let faces: Vec<FaceId> =
        making.surface.face_ids().filter(|face| !own(*face).is_empty()).take(MOST_COPIES).collect();
    let is_pleat = faces.iter().flat_map(|face| own(*face)).any(|one| one.pleat.is_some());
    let over = if is_pleat { Affine::IDENTITY } else { Affine::FLIP_X };
    let mut panel = if is_pleat { Panel::default() } else { Panel::of(Caption::WrongSideUp) };
    let stroke = if basted { Stroke::Basted } else { Stroke::Now };
    for laid in side_by_side_turned(making, &faces, over) {
        let Some(flat) = making.flat(laid.face) else { continue };
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        for base in flat.on_both(None) {
            let to = laid.by * base;
            let mut tagged = false;
            for one in own(laid.face) {
                // What is sewn by now is only pressed.
                if let Some(seam) =
                    seam_of(flat, &one).filter(|_| making.step_of(Job::TakeUp(layer, one.name)) < step)
                {
                    pressed_seam(&mut panel, to, seam, &one);
                    if !std::mem::replace(&mut tagged, true) {
                        panel.tag_line(&Path::straight(to * seam.0, to * seam.1), letter);
                    }
                    continue;
                }
                let one = flat.settled_take_up(&one);
                panel.line(to * legs(&one), stroke);
                if let Some((from, end)) = one.fold() {
                    panel.straight(to * from, to * end, Stroke::Fold);
                }
                if let Some((from, end)) = pressed(&one) {
                    panel.marks.push(Mark::Arrow(to * from, to * end));
                }
                let [from, _] = one.wedge.sides;
                if !tagged {
                    tagged = true;
                    let (first, last) = one.legs().first().copied().unwrap_or((from, one.wedge.point));
                    panel.tag_line(&Path::straight(to * first, to * last), letter);
                }
            }
        }
    }
    (!panel.is_empty()).then_some(panel)
}

/// A dart that is sewn: its seam, where its fold comes once it is pressed, and which way that is.
fn pressed_seam(panel: &mut Panel, to: Affine, seam: (Point, Point), open: &DrawnTakeUp) {
    panel.straight(to * seam.0, to * seam.1, Stroke::Now);
    let Some(side) = open.pressed else { return };
    let [one, other] = open.wedge.sides;
    let across = if side == 0 { one - other } else { other - one };
    let way = seam.0 - seam.1;
    let square = Vec2::new(-way.y, way.x) / way.hypot().max(1e-9);
    let square = square * square.dot(across).signum();
    let fold = seam.0 + square * across.hypot() / 2.0;
    panel.straight(to * fold, to * seam.1, Stroke::Fold);
    let middle = seam.0.lerp(seam.1, 0.25);
    let reach = across.hypot() / 2.0 + 14.0;
    panel.marks.push(Mark::Arrow(to * (middle - square * 14.0), to * (middle + square * reach)));
}

/// Across what is taken, the way that it is laid; none of what is cut open.
fn pressed(take_up: &DrawnTakeUp) -> Option<(Point, Point)> {
    let side = take_up.pressed?;
    let [one, other] = take_up.wedge.sides;
    let (from, to) = if side == 0 { (other, one) } else { (one, other) };
    let inward = match take_up.pleat {
        Some(pleat) => pleat.into * 24.0,
        None => (take_up.wedge.point - one.midpoint(other)) * 0.25,
    };
    let middle = from.midpoint(to) + inward;
    let half = (to - from) / 2.0;
    let long = half.hypot().max(1e-9);
    let reach = half / long * (long + 14.0);
    Some((middle - reach, middle + reach))
}

/// Faces beside one another, turned over if asked for.
fn side_by_side_turned(making: &Making, faces: &[FaceId], over: Affine) -> Vec<Laid> {
    if over == Affine::IDENTITY {
        return side_by_side(making, faces);
    }
    let rings: Vec<Vec<Point>> = faces
        .iter()
        .map(|face| {
            making.flat(*face).map_or_else(Vec::new, |flat| flat.ring.iter().map(|at| over * *at).collect())
        })
        .collect();
    let largest =
        rings.iter().filter_map(|ring| super::fit::bounds(ring)).map(|own| own.width().max(own.height()));
    let gap = 0.12 * largest.fold(20.0, f64::max);
    faces.iter().zip(beside(&rings, gap)).map(|(&face, by)| Laid { face, by: by * over }).collect()
}

/// Draws something on every face that has it, right sides up: `each` gives lines on the paper.
fn on_faces(
    making: &Making,
    step: usize,
    letter: Option<&str>,
    stroke: Stroke,
    each: &dyn Fn(&Flat) -> Vec<Path>,
) -> Option<Panel> {
    let has = |face: &FaceId| making.flat(*face).is_some_and(|flat| !each(flat).is_empty());
    let mut faces: Vec<FaceId> = Vec::new();
    for face in making.surface.face_ids().filter(has) {
        let piece = |face: FaceId| making.flat(face).map(|flat| flat.drawn.piece);
        if faces.iter().filter(|own| piece(**own) == piece(face)).count() < MOST_COPIES {
            faces.push(face);
        }
    }
    faces.truncate(4);
    let mut panel = Panel::default();
    for laid in toward_one_another(making, &faces, step) {
        let Some(flat) = making.flat(laid.face) else { continue };
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        for base in flat.on_both(None) {
            for path in each(flat) {
                let path = flat.settled_path(&path).transform(laid.by * base);
                panel.line(path.to_bez(), stroke);
                let middle = path.length() / 2.0;
                let along = path.tangent_at_length(middle).unwrap_or(Vec2::new(1.0, 0.0));
                if let Some(letter) = letter {
                    panel.tag(path.point_at_length(middle), along, letter);
                }
            }
        }
    }
    (!panel.is_empty()).then_some(panel)
}

/// Faces beside one another; of two that are sewn to one another the edges of that seam in the middle, whichever of them is
/// the left one.
fn toward_one_another(making: &Making, faces: &[FaceId], step: usize) -> Vec<Laid> {
    let apart = side_by_side(making, faces);
    let &[one, other] = faces else { return apart };
    let joins = making.surface.joins.iter().enumerate();
    let is_between = |sewn: &usize| {
        let all = Once::all(making, *sewn);
        all.iter().any(|once| {
            once.faces().len() == 2 && [one, other].iter().all(|face| once.faces().contains(face))
        })
    };
    let sewn_before = joins.filter_map(|(nth, join)| match join.by {
        JoinedBy::Seam { sewn, .. } if making.joined_at(JoinId::from_index(nth)) < step => Some(sewn),
        _ => None,
    });
    let mut seams: Vec<usize> = sewn_before.collect();
    seams.dedup();
    let Some(all) = seams.into_iter().find(is_between).map(|sewn| Once::all(making, sewn)) else {
        return apart;
    };
    let layout = Layout::of(making, &all, step, true);
    let is_whole = faces.iter().all(|face| layout.of_face(*face).is_some());
    if is_whole && !layout.overlaps(making) { layout.laid } else { apart }
}

/// Rows of topstitching or understitching.
pub fn row(making: &Making, id: RowId, letter: &str, step: usize) -> Option<Panel> {
    on_faces(making, step, Some(letter), Stroke::Stitched, &|flat| {
        let Some(sewn) = making.size.sewn.parts.get(flat.part.index()) else { return Vec::new() };
        let Some(drawn) = making.size.drawn.paper(sewn.part.paper) else { return Vec::new() };
        let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
        let named = |row: &PartRow| flat.drawn.edge_at(row.edge).map(|edge| edge.edge);
        let is_on = |row: &&PartRow| {
            let mut edges = making.garment.row(id).edges.iter().map(|edge| edge.sewn);
            row.row == id
                && edges.any(|sewn| {
                    sewn.on.zip(flat.hand).is_none_or(|(on, hand)| on == hand)
                        && named(row).is_some_and(|own| {
                            making.garment.is_run_of(own, sewn.edge)
                                || making.garment.is_run_of(sewn.edge, own)
                        })
                })
        };
        let own = sewn.rows.iter().filter(is_on);
        own.filter_map(|row| line_of(&ring, row)).collect()
    })
}

/// Where a row runs on the paper.
fn line_of(ring: &[Path], row: &PartRow) -> Option<Path> {
    let edge = ring.get(row.edge.index())?;
    let path = match row.distance > 0.0 {
        true => row_beside(ring, row.edge.index(), row.distance).unwrap_or_else(|| edge.clone()),
        false => edge.clone(),
    };
    let Some((from, to)) = row.along else { return Some(path) };
    let at = |along: f64| path.nearest(edge.point_at_length(along)).at;
    let (start, end) = (at(from).min(at(to)), at(from).max(at(to)));
    (end > start).then(|| path.part(start, end))
}

/// A tack: a short bar where it holds; a cross where something is set.
pub fn tack(making: &Making, id: TackId, letter: Option<&str>, step: usize) -> Option<Panel> {
    on_faces(making, step, letter, Stroke::Now, &|flat| {
        let Some(sewn) = making.size.sewn.parts.get(flat.part.index()) else { return Vec::new() };
        let ends = &making.garment.tack(id).ends;
        let is_on = |hand: Hand| ends.iter().any(|end| end.hand.is_none_or(|on| on == hand));
        if flat.hand.is_some_and(|hand| !is_on(hand)) {
            return Vec::new();
        }
        let own = sewn.tacks.iter().filter(|tack| tack.tack == id);
        // What is set is a cross, stitches are a bar.
        let is_set = making.garment.tack(id).sets.is_some();
        let across = [Vec2::new(5.0, 0.0), Vec2::new(0.0, 5.0)];
        let strokes = if is_set { &across[..] } else { &across[..1] };
        own.flat_map(|tack| strokes.iter().map(|by| Path::straight(tack.at - *by, tack.at + *by))).collect()
    })
}

/// A cord in the edges that it is threaded through.
pub fn cord(making: &Making, id: CordId, letter: Option<&str>, step: usize) -> Option<Panel> {
    let cord = making.garment.cord(id);
    let mut panel = on_faces(making, step, letter, Stroke::Cord, &|flat| {
        let Some(sewn) = making.size.sewn.parts.get(flat.part.index()) else { return Vec::new() };
        let Some(drawn) = making.size.drawn.paper(sewn.part.paper) else { return Vec::new() };
        let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
        let is_through = |edge: EdgeId| {
            cord.through.iter().any(|own| {
                own.layer.is_none_or(|layer| layer == sewn.part.layer)
                    && (making.garment.is_run_of(edge, own.edge) || making.garment.is_run_of(own.edge, edge))
            })
        };
        let edges = drawn.outline().iter().enumerate().filter(|(_, edge)| is_through(edge.edge));
        edges.map(|(at, edge)| row_beside(&ring, at, CORD).unwrap_or_else(|| edge.path.clone())).collect()
    })?;
    let cords = panel.ground.iter().filter_map(|drawn| match drawn {
        super::canvas::Drawn::Line(path, Stroke::Cord) => Some(path.clone()),
        _ => None,
    });
    let ends: Vec<Mark> = cords
        .filter_map(|path| {
            let points: Vec<Point> =
                path.elements().iter().filter_map(|element| element.end_point()).collect();
            let (last, before) = (*points.last()?, *points.get(points.len().checked_sub(2)?)?);
            Some(Mark::Pointer(last, last - before, 22.0))
        })
        .collect();
    panel.marks.extend(ends);
    Some(panel)
}
