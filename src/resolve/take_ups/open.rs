//! Slits cut: their sides become edges of the piece.
//!
//! Until everything is drawn and altered a slit only lies on its piece, as a dart does, and the outline runs straight
//! across it. What is sewn, though, is an outline with a detour: in along the one side of the slit, and out
//! along the other. One inside the piece is a ring of its own, which goes round the other way than the outline, so
//! that the cloth lies on the same hand of both.

use crate::garment::{EdgeId, Garment, PieceId, PointId};
use crate::resolve::drawn_piece::{CornerName, DrawnEdge, DrawnNotch, DrawnPiece, DrawnSpot};
use crate::resolve::drawn_take_up::{DrawnSlit, DrawnTakeUp, Mouth, Opened};
use crate::resolve::model::DrawnEdgeId;
use crate::resolve::work::Drawn;
use crate::shape::Point;
use crate::shape::outline::is_anticlockwise;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use std::cell::Cell;
use std::sync::Arc;

/// The piece with its slits cut; itself if it has none.
pub(in crate::resolve) fn opened(garment: &Garment, drawn: Drawn) -> Drawn {
    let whole = drawn?;
    if whole.slits.is_empty() {
        return Some(whole);
    }
    let names = Named::of(garment, whole.piece);
    let mut edges: Vec<DrawnEdge> = Vec::with_capacity(whole.edges.len() + 3 * whole.slits.len());
    let mut run_of: Vec<Option<DrawnEdgeId>> = Vec::with_capacity(edges.capacity());
    let mut take_ups = whole.take_ups.clone();
    let mut notches = whole.notches.clone();
    let mut spots = Vec::with_capacity(whole.spots.len() + 4 * whole.slits.len());
    spots.extend_from_slice(&whole.spots);
    for (id, edge) in DrawnEdgeId::enumerate(&whole.edges) {
        let slits = whole.slits_on(edge);
        if slits.is_empty() {
            let (beside, start) = beside_slits(&names, &whole, id, edge);
            edges.push(beside);
            run_of.push(Some(id));
            count_anew(edge, &[start], &mut take_ups, &mut notches);
            continue;
        }
        let run = |corner: CornerName, path: Path| DrawnEdge {
            edge: edge.edge,
            path,
            corner,
            touched: edge.touched.clone(),
        };
        let (mut corner, mut from) = (edge.corner, 0.0);
        // Where its runs start.
        let starts: Vec<f64> = slits.iter().map(|(_, mouth)| mouth.to).collect();
        let mut is_over = false;
        for (slit, mouth) in slits {
            let cut = Cut::of(&names, slit);
            if slit.fold == Some(0) {
                cut.add_from_fold(slit, &mut edges);
                run_of.resize(edges.len(), None);
                corner = cut.leaves_fold(slit, edge.edge);
                spots.extend(cut.spots_beside_fold(slit));
                from = mouth.to;
                continue;
            }
            edges.push(run(corner, edge.path.part(from, mouth.from)));
            run_of.push(Some(id));
            if slit.fold == Some(1) {
                cut.add_to_fold(slit, mouth.edge, &mut edges);
                run_of.resize(edges.len(), None);
                spots.extend(cut.spots_beside_fold(slit));
                is_over = true;
                break;
            }
            cut.add_edges(slit, mouth.edge, &mut edges);
            run_of.resize(edges.len(), None);
            corner = cut.leaves(edge.edge);
            spots.extend(cut.spots(slit));
            from = mouth.to;
        }
        if !is_over {
            edges.push(run(corner, edge.path.part(from, edge.path.length())));
            run_of.push(Some(id));
        }
        count_anew(edge, &starts, &mut take_ups, &mut notches);
    }
    let mut holes = Vec::new();
    let is_left = is_anticlockwise(whole.edges.iter().map(|edge| &edge.path));
    for slit in whole.slits.iter().filter(|slit| slit.mouth.is_none()) {
        let slit = slit.ordered(is_left);
        let cut = Cut::of(&names, &slit);
        holes.push(edges.len());
        cut.add_ring(&slit, &mut edges);
        spots.extend(cut.spots(&slit));
    }
    run_of.resize(edges.len(), None);
    Some(Arc::new(DrawnPiece {
        edges,
        take_ups,
        notches,
        spots,
        slits: Vec::new(),
        lines: whole.lines.clone(),
        missing: whole.missing.clone(),
        counted_back: whole.counted_back.clone(),
        kept_back: whole.kept_back.clone(),
        cutting: Vec::new(),
        opened: Some(Arc::new(Opened { whole: whole.clone(), run_of, holes })),
        ..*whole
    }))
}

/// Counts what lies along an edge from the start of its run.
fn count_anew(edge: &DrawnEdge, starts: &[f64], take_ups: &mut [DrawnTakeUp], notches: &mut [DrawnNotch]) {
    let start = |along: f64| starts.iter().copied().filter(|start| *start <= along).fold(0.0, f64::max);
    let own = |mouth: &Mouth, at| {
        mouth.edge == edge.edge && edge.path.point_at_length(mouth.from).distance(at) <= SAME_POINT
    };
    for take_up in take_ups {
        let at = take_up.wedge.sides[0];
        if let Some(mouth) = take_up.mouth.as_mut().filter(|mouth| own(mouth, at)) {
            let by = start(mouth.from);
            (mouth.from, mouth.to) = (mouth.from - by, mouth.to - by);
        }
    }
    for notch in notches.iter_mut().filter(|notch| notch.edge == edge.edge) {
        if edge.path.point_at_length(notch.along).distance(notch.at) <= SAME_POINT {
            notch.along -= start(notch.along);
        }
    }
}

/// An edge without slits of its own: what is left of it where slits in the middle run along it, on the fold, and how far
/// from its start that begins.
fn beside_slits(names: &Named, whole: &DrawnPiece, id: DrawnEdgeId, edge: &DrawnEdge) -> (DrawnEdge, f64) {
    let (mut own, mut start) = (edge.clone(), 0.0);
    for slit in whole.slits.iter().filter(|slit| whole.fold_beside(slit) == Some(id.index())) {
        let (_, end) = slit.middle();
        let at = own.path.nearest(end).at;
        if slit.fold == Some(0) {
            own.path = own.path.part(0.0, at);
        } else {
            own.path = own.path.part(at, own.path.length());
            own.corner = Cut::of(names, slit).meets_fold(edge.edge);
            start += at;
        }
    }
    (own, start)
}

/// What the sides of a slit are called on its piece, in the order in which they lie along the edge.
struct Cut {
    sides: [Option<EdgeId>; 2],
    end: Option<EdgeId>,
    /// Of one inside the piece with a window, across where it begins.
    start: Option<EdgeId>,
    corners: [Option<PointId>; 2],
    /// Where its sides end: alike without a window.
    end_corners: [Option<PointId>; 2],
}

impl Cut {
    fn of(names: &Named, slit: &DrawnSlit) -> Cut {
        let edge = |side: &str| names.side_of(slit.name, side);
        let point = |side: &str| names.corner_of(slit.name, side);
        let in_order = match slit.near {
            0 => ["near", "far"],
            _ => ["far", "near"],
        };
        let has_window = slit.window() > SAME_POINT;
        let across = |end: &str| match has_window {
            false => [point(end); 2],
            true => in_order.map(|side| point(&format!("{end}_{side}"))),
        };
        Cut {
            sides: in_order.map(edge),
            end: if has_window { edge("end") } else { None },
            start: if has_window && slit.mouth.is_none() { edge("start") } else { None },
            corners: match slit.mouth {
                Some(_) => in_order.map(point),
                None => across("start"),
            },
            end_corners: across("end"),
        }
    }

    /// All round one inside the piece.
    fn add_ring(&self, slit: &DrawnSlit, edges: &mut Vec<DrawnEdge>) {
        let [Some(_), Some(second)] = self.sides else { return };
        self.add_edges(slit, self.start.unwrap_or(second), edges);
        if let Some(start) = self.start {
            let [to, from] = slit.sides;
            edges.push(edge(start, from, to, named(self.corners[1], second, start)));
        }
    }

    /// From the edge `before` in and out again.
    fn add_edges(&self, slit: &DrawnSlit, before: EdgeId, edges: &mut Vec<DrawnEdge>) {
        let [Some(first), Some(second)] = self.sides else { return };
        let ([start, back], [turn, leave]) = (slit.sides, slit.ends);
        edges.push(edge(first, start, turn, named(self.corners[0], before, first)));
        match self.end {
            Some(end) => {
                edges.push(edge(end, turn, leave, named(self.end_corners[0], first, end)));
                edges.push(edge(second, leave, back, named(self.end_corners[1], end, second)));
            }
            None => edges.push(edge(second, leave, back, named(self.end_corners[0], first, second))),
        }
    }

    /// The corner of the side and the end that one in the middle has; without a window that of its side and the fold.
    fn corner_inside(&self, slit: &DrawnSlit, before: EdgeId, after: EdgeId) -> CornerName {
        named(self.end_corners.get(slit.near).copied().flatten(), before, after)
    }

    /// From the fold out along the side of one in the middle, to the edge that it is cut from.
    fn add_from_fold(&self, slit: &DrawnSlit, edges: &mut Vec<DrawnEdge>) {
        let Some(Some(side)) = self.sides.get(slit.near).copied() else { return };
        let before = edges.last().map_or(side, |last| last.edge);
        let ([_, mouth], [foot, inner]) = (slit.sides, slit.ends);
        match self.end {
            Some(end) => {
                edges.push(edge(end, foot, inner, CornerName::Between(before, end)));
                edges.push(edge(side, inner, mouth, self.corner_inside(slit, end, side)));
            }
            None => edges.push(edge(side, foot, mouth, self.corner_inside(slit, before, side))),
        }
    }

    /// From the edge that it is cut from in along the side of one in the middle, to the fold.
    fn add_to_fold(&self, slit: &DrawnSlit, before: EdgeId, edges: &mut Vec<DrawnEdge>) {
        let Some(Some(side)) = self.sides.get(slit.near).copied() else { return };
        let ([mouth, _], [inner, foot]) = (slit.sides, slit.ends);
        let corner = self.corners.get(slit.near).copied().flatten();
        edges.push(edge(side, mouth, inner, named(corner, before, side)));
        if let Some(end) = self.end {
            edges.push(edge(end, inner, foot, self.corner_inside(slit, side, end)));
        }
    }

    /// The corner where the fold begins below one in the middle.
    fn meets_fold(&self, fold: EdgeId) -> CornerName {
        match (self.end, self.sides.iter().flatten().next()) {
            (Some(end), _) => CornerName::Between(end, fold),
            (None, side) => {
                named(self.end_corners[0].or(self.end_corners[1]), side.copied().unwrap_or(fold), fold)
            }
        }
    }

    /// The corner where the edge begins beside one in the middle.
    fn leaves_fold(&self, slit: &DrawnSlit, edge: EdgeId) -> CornerName {
        let side = self.sides.get(slit.near).copied().flatten().unwrap_or(edge);
        named(self.corners.get(slit.near).copied().flatten(), side, edge)
    }

    fn spots_beside_fold(&self, slit: &DrawnSlit) -> impl Iterator<Item = DrawnSpot> {
        let mouth = (self.corners.get(slit.near).copied().flatten(), slit.sides[slit.near.min(1)]);
        let inner = (self.end_corners.get(slit.near).copied().flatten(), slit.ends[slit.near.min(1)]);
        [mouth, inner].into_iter().filter_map(|(point, at)| Some(DrawnSpot { point: point?, at }))
    }

    /// The corner where the edge goes on.
    fn leaves(&self, edge: EdgeId) -> CornerName {
        match (self.corners[1], self.sides[1]) {
            (Some(point), _) => CornerName::Named(point),
            (None, side) => CornerName::Between(side.unwrap_or(edge), edge),
        }
    }

    fn spots(&self, slit: &DrawnSlit) -> impl Iterator<Item = DrawnSpot> {
        let ends = if self.end.is_some() { 2 } else { 1 };
        let starts = if slit.mouth.is_some() { 2 } else { ends };
        let ends = self.end_corners.into_iter().zip(slit.ends).take(ends);
        let corners = self.corners.into_iter().zip(slit.sides).take(starts).chain(ends);
        corners.filter_map(|(point, at)| Some(DrawnSpot { point: point?, at }))
    }
}

fn named(point: Option<PointId>, before: EdgeId, after: EdgeId) -> CornerName {
    match point {
        Some(point) => CornerName::Named(point),
        None => CornerName::Between(before, after),
    }
}

fn edge(edge: EdgeId, from: Point, to: Point, corner: CornerName) -> DrawnEdge {
    DrawnEdge { edge, path: Path::straight(from, to), corner, touched: Vec::new() }
}

/// The name of a side of a slit on its own piece: `near`, `far`, `start` or `end`.
pub(in crate::resolve) fn side_of(garment: &Garment, slit: EdgeId, side: &str) -> Option<EdgeId> {
    Named::of(garment, garment.edge(slit).piece).side_of(slit, side)
}

/// The names of a piece, in which those of slits are looked up.
struct Named<'g> {
    garment: &'g Garment,
    edges: Sought<'g, EdgeId>,
    points: Sought<'g, PointId>,
}

impl<'g> Named<'g> {
    fn of(garment: &'g Garment, piece: PieceId) -> Self {
        let piece = garment.piece(piece);
        Named { garment, edges: Sought::of(&piece.edges), points: Sought::of(&piece.points) }
    }

    fn side_of(&self, slit: EdgeId, side: &str) -> Option<EdgeId> {
        self.edges.find(|edge| {
            let name = self.garment.edge(edge);
            name.side_of == Some(slit) && name.name.ends_with(side)
        })
    }

    fn corner_of(&self, slit: EdgeId, side: &str) -> Option<PointId> {
        let name = &self.garment.edge(slit).name;
        self.points.find(|point| {
            let own = &self.garment.point(point).name;
            own.strip_prefix(&**name).and_then(|rest| rest.strip_prefix('.')) == Some(side)
        })
    }
}

/// A list that is looked through from where something was found last: what belongs together stands together.
struct Sought<'g, T> {
    all: &'g [T],
    last: Cell<usize>,
}

impl<'g, T: Copy> Sought<'g, T> {
    fn of(all: &'g [T]) -> Self {
        Sought { all, last: Cell::new(0) }
    }

    fn find(&self, is_it: impl Fn(T) -> bool) -> Option<T> {
        let (before, after) = self.all.split_at_checked(self.last.get())?;
        let later = after.iter().zip(before.len()..);
        let (found, at) = later.chain(before.iter().zip(0..)).find(|(one, _)| is_it(**one))?;
        self.last.set(at);
        Some(*found)
    }
}
