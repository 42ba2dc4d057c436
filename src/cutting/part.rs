//! Parts as they are cut.

use super::allowed::Allowed;
use super::line::CutRun;
use super::mark::WITHOUT_ALLOWANCE;
use super::model::{CutNotch, CutPart, Cutting, InnerLine, MarkedPlace};
use super::part_line::{PartLine, allowed, as_opened, stitching};
use super::{girths, grain, guides, label, rows, sides, slits, take_ups, wide};
use crate::garment::{CutHow, Garment, Part, SizeId};
use crate::resolve::{CutRow, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{PartId, PartNotch, Sewing, SewnPart, bears_mark};
use crate::shape::fold::opened_out;
use crate::shape::line::meet_segment;
use crate::shape::outline::{contains, extents, is_anticlockwise};
use crate::shape::path::Path;
use crate::shape::tolerance::{FLATTEN, SAME_POINT};
use crate::syntax::tree::Hand;
use kurbo::{Point, Vec2};
use std::collections::HashMap;

/// Every part of a garment in one size as it is cut. Parts that could not be drawn, or whose
/// allowances could not be worked out, are left out in silence: that has been reported.
pub(super) fn cut(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, lines: &[PartLine]) -> Cutting {
    let mut cutting = Cutting::default();
    let mut rows: HashMap<Part, &[CutRow]> = HashMap::with_capacity(sized.cut_list.len());
    for own in sized.cut_list.chunk_by(|one, other| one.part == other.part) {
        rows.extend(own.first().map(|row| (row.part, own)));
    }
    let line = |id: PartId| lines.get(id.index()).unwrap_or(&PartLine::Unknown);
    for (id, sewn) in PartId::enumerate(&sewing.parts) {
        let (Some(own), Some(drawn)) = (rows.get(&sewn.part), sized.paper(sewn.part.paper)) else { continue };
        if let PartLine::Unfit(unfit) = line(id) {
            cutting.findings.extend(wide::of_part(garment, sized, sewn, *unfit));
        }
        if sewn.hand == Some(Hand::Right) && sewing.index.twin(id).is_some() {
            continue;
        }
        let cut = |row: &CutRow, id: PartId| side(garment, sized, row, sewing.part(id), line(id));
        let twin = sewing.index.twin(id);
        for row in *own {
            cutting.parts.extend(sides::cut(garment, sewing, row, drawn, (id, twin), &cut));
        }
    }
    cutting
}

/// The same of a draft that is not finished: a part whose allowances are not known or do not fit is
/// shown without any, and nothing is reported of them.
pub(super) fn cut_as_far_as_known(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    lines: &[PartLine],
) -> Cutting {
    let mut cutting = Cutting::default();
    for (id, sewn) in PartId::enumerate(&sewing.parts) {
        let is_own =
            |row: &&CutRow| row.part == sewn.part && row.hand.is_none_or(|hand| sewn.hand == Some(hand));
        let row = sized.cut_list.iter().find(is_own);
        let is_second = sewn.hand == Some(Hand::Right) && sewing.index.twin(id).is_some();
        if row.is_some_and(|row| row.hand.is_none()) && is_second {
            continue;
        }
        let (Some(row), Some(drawn)) = (row, sized.paper(sewn.part.paper)) else { continue };
        let whole = match lines.get(id.index()).unwrap_or(&PartLine::Unknown) {
            PartLine::Cut(line) => {
                let cut = part(garment, sized.size, row, sewn, drawn, line);
                let cut = cut.map(|cut| rows::with_rows(cut, garment, sized, sewn));
                cut.map(|cut| guides::with_placed(cut, garment, sized, sewn))
            }
            PartLine::Unknown | PartLine::Unfit(_) => None,
        };
        cutting.parts.push(whole.unwrap_or_else(|| {
            let along = |(at, path): (DrawnEdgeId, Path)| CutRun { path, along: Some(at) };
            let line: Vec<CutRun> = DrawnEdgeId::enumerate(stitching(drawn.uncut())).map(along).collect();
            let line = as_opened(drawn, line);
            let without = vec![Allowed::default(); drawn.edges.len()];
            part_with(garment, sized.size, row, sewn, drawn, &line, &without)
        }));
    }
    cutting
}

/// The cutting line of the whole piece, opened out where it is cut on the fold: flattened to
/// [`FLATTEN`], simple, its first point not repeated.
pub fn opened(part: &CutPart) -> Vec<Point> {
    let ring = whole_ring(part);
    let mut points: Vec<Point> = Vec::new();
    for path in &ring {
        for point in path.flatten(FLATTEN) {
            if points.last().is_none_or(|last| last.distance(point) > FLATTEN * 0.1) {
                points.push(point);
            }
        }
    }
    while points.len() > 1
        && points
            .first()
            .zip(points.last())
            .is_some_and(|(first, last)| first.distance(*last) <= FLATTEN * 0.1)
    {
        points.pop();
    }
    points
}

/// Width and height of the piece as it is cut, opened out; none where that cannot be measured.
pub fn cut_extent(part: &CutPart) -> Option<(f64, f64)> {
    extents(&whole_ring(part)).map(|extent| (extent.width(), extent.height()))
}

fn whole_ring(part: &CutPart) -> Vec<Path> {
    opened_line(&part.cutting, part.fold)
}

/// A cutting line, opened out at the edge on the fold.
pub(super) fn opened_line(line: &[CutRun], fold: Option<DrawnEdgeId>) -> Vec<Path> {
    let half: Vec<Path> = line.iter().map(|run| run.path.clone()).collect();
    let fold = fold.and_then(|fold| line.iter().position(|run| run.along == Some(fold)));
    fold.and_then(|fold| opened_out(&half, fold).ok()).unwrap_or(half)
}

/// The edge on the fold.
pub(super) fn fold_of(garment: &Garment, row: &CutRow, drawn: &DrawnPiece) -> Option<DrawnEdgeId> {
    match row.how {
        CutHow::OnFold(fold) => {
            let mut edges = DrawnEdgeId::enumerate(&drawn.edges);
            edges.find(|(_, edge)| garment.is_run_of(edge.edge, fold)).map(|(id, _)| id)
        }
        CutHow::Alike | CutHow::Mirrored => None,
    }
}

/// One side of a part, or both, and the line of its cutting on the table.
fn side(
    garment: &Garment,
    sized: &SizedGarment,
    row: &CutRow,
    sewn: &SewnPart,
    line: &PartLine,
) -> Option<CutPart> {
    let (drawn, PartLine::Cut(line)) = (sized.paper(sewn.part.paper)?, line) else { return None };
    let cut = part(garment, sized.size, row, sewn, drawn, line)?;
    let cut = girths::with_girths(cut, garment, sized);
    Some(guides::with_placed(rows::with_rows(cut, garment, sized, sewn), garment, sized, sewn))
}

fn part(
    garment: &Garment,
    size: SizeId,
    row: &CutRow,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
    cutting: &[CutRun],
) -> Option<CutPart> {
    Some(part_with(garment, size, row, sewn, drawn, cutting, &allowed(sewn)?))
}

fn part_with(
    garment: &Garment,
    size: SizeId,
    row: &CutRow,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
    cutting: &[CutRun],
    allowed: &[Allowed],
) -> CutPart {
    let all = stitching(drawn);
    let (stitching, holes) = rings(drawn, &all);
    let fold = fold_of(garment, row, drawn);
    let ring: Vec<Path> = cutting.iter().map(|run| run.path.clone()).collect();
    let notches = sewn
        .notches
        .iter()
        .filter_map(|notch| {
            let width = allowed.get(notch.edge.index())?.width;
            snips(notch, all.get(notch.edge.index())?, width, &ring)
        })
        .collect();
    let lines = drawn.lines.iter().flat_map(|line| {
        inside(&line.path, &stitching).into_iter().map(|path| InnerLine {
            name: garment.line_words(line.edge),
            edge: line.edge,
            path,
            girth: None,
        })
    });
    let lines = lines.collect();
    let is_shown = |point| garment.point(point).mark && bears_mark(garment, sewn.part.layer, point);
    let marks = drawn.spots.iter().filter(|spot| is_shown(spot.point));
    let marks = marks.map(|spot| MarkedPlace {
        name: label::mark_words(garment, spot.point),
        at: spot.at,
        hand: sides::hand_of_mark(garment, spot.point),
    });
    // Where both ends of a strap are sewn on in one place, it is marked once.
    let marks = marks.fold(Vec::new(), |mut marks: Vec<MarkedPlace>, mark| {
        let is_there = |own: &MarkedPlace| {
            own.name == mark.name && own.hand == mark.hand && own.at.distance(mark.at) <= SAME_POINT
        };
        if !marks.iter().any(is_there) {
            marks.push(mark);
        }
        marks
    });
    CutPart {
        part: sewn.part,
        size,
        fabric: row.fabric,
        copies: row.copies,
        how: row.how,
        flipped: row.flipped,
        hand: row.hand,
        mirrored: false,
        middle: None,
        fused: sewn.fused,
        fold,
        edges: drawn.edges.iter().map(|edge| edge.edge).collect(),
        grain: drawn.grain,
        grain_line: grain::place(&stitching, drawn.grain),
        notches,
        take_ups: take_ups::take_ups(garment, drawn, allowed, &ring),
        slits: slits::slits(garment, drawn, allowed, &ring),
        lines,
        guides: guides::folds(garment, drawn, allowed, &stitching, &ring),
        rows: Vec::new(),
        gaps: Vec::new(),
        marks,
        fasteners: sewn.fasteners.clone(),
        label: label::label(garment, size, row, drawn, allowed, sewn.fused),
        stitching,
        holes,
        cutting: cutting.to_vec(),
    }
}

/// The outline of a piece, and round each of its slits inside.
fn rings(drawn: &DrawnPiece, all: &[Path]) -> (Vec<Path>, Vec<Vec<Path>>) {
    let part = |from: usize, to: usize| all.get(from..to).unwrap_or_default().to_vec();
    let mut starts = drawn.holes().to_vec();
    let outline = part(0, starts.first().copied().unwrap_or(all.len()));
    starts.push(all.len());
    let holes = starts.windows(2).map(|ends| match ends {
        &[from, to] => part(from, to),
        _ => Vec::new(),
    });
    (outline, holes.collect())
}

/// What of a line lies inside the outline: a copy or a rest may keep a line of the whole piece.
fn inside(line: &Path, ring: &[Path]) -> Vec<Path> {
    let middle = |path: &Path| path.point_at_length(path.length() / 2.0);
    if !line.is_straight() {
        return if contains(ring, middle(line)) { vec![line.clone()] } else { Vec::new() };
    }
    let (from, to) = (line.start(), line.end());
    let mut stops = vec![0.0];
    stops.extend(meet_segment(from, to, ring).iter().map(|hit| hit.along));
    stops.push(from.distance(to));
    let way = (to - from) / from.distance(to).max(f64::MIN_POSITIVE);
    let mut kept: Vec<Path> = Vec::new();
    for pair in stops.windows(2) {
        let &[start, end] = pair else { continue };
        let part = Path::straight(from + way * start, from + way * end);
        if end - start < SAME_POINT || !contains(ring, middle(&part)) {
            continue;
        }
        match kept.last_mut() {
            Some(last) if last.end().distance(part.start()) <= SAME_POINT => {
                *last = Path::straight(last.start(), part.end());
            }
            _ => kept.push(part),
        }
    }
    kept
}

/// The snips of a notch, square to the edge, from the cutting line to the stitching line.
fn snips(notch: &PartNotch, edge: &Path, width: f64, ring: &[Path]) -> Option<CutNotch> {
    let outward = if is_anticlockwise(ring) { -1.0 } else { 1.0 };
    let length = edge.length();
    let places = match notch.double {
        true => vec![notch.along - PAIR / 2.0, notch.along + PAIR / 2.0],
        false => vec![notch.along],
    };
    let mut snips = Vec::new();
    for place in places {
        let place = place.clamp(0.0, length);
        let foot = edge.point_at_length(place);
        let out: Vec2 = edge.tangent_at_length(place)?.turn_90() * outward;
        if width <= 0.0 {
            snips.push((foot, foot - out * WITHOUT_ALLOWANCE));
            continue;
        }
        // The allowance is cut short beside a corner: to where its edge really is.
        let reach = foot + out * (width * 1.01 + 0.1);
        let hit = meet_segment(foot, reach, ring).into_iter().find(|hit| hit.along > 1e-6);
        let top = hit.map_or(foot + out * width, |hit| hit.point);
        snips.push((top, foot));
    }
    Some(CutNotch { edge: notch.edge, along: notch.along, snips, hand: None })
}

/// How far apart the two snips of a double notch are, in millimetres: 6 mm, common practice.
const PAIR: f64 = 6.0;
