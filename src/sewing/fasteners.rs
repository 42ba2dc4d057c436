//! Buttons, snaps, hooks, toggles, ties and buckles, spaced evenly along their line and marked on the pieces.

use super::amounts::amount_of;
use super::model::{FastenerPlace, FastenerRow, PartId, SewnPart};
use super::stitching::Finder;
use crate::garment::{
    Anchor, AnchorAt, Chain, Closure, ClosureId, ClosureKind, EdgeId, Fasteners, Garment, LayerId, SewnEdge,
};
use crate::resolve::{DrawnEdgeId, DrawnPiece, SizedGarment, finished};
use crate::shape::path::Path;
use crate::shape::{Point, Vec2};
use crate::syntax::tree::{Fastener, Hand};

/// How thick a button is taken to be, in millimetres, since nobody says it: common practice for
/// flat buttons. A buttonhole is as long as a button is wide and thick (common practice; buttons
/// are sold by the line, 40 lines to the inch).
pub const BUTTON_THICKNESS: f64 = 3.0;
/// The most that one row may have.
pub const MOST_FASTENERS: f64 = 500.0;
/// Past an end of the line by no more than this, in millimetres, is at it.
const AT_END: f64 = 0.01;

/// A row that cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum RowTrouble {
    /// This is no number of buttons or the like.
    Count(f64),
    /// The first (true) or last of them lies beyond the line's end by so much.
    Beyond(bool, f64),
    /// The same, where the point that it is counted from lies outside the line, and it lies too near to that.
    TooNear(bool, f64),
    /// The first (true) or last of them is at such a share of the line, from neither end.
    FromWhichEnd(bool, f64),
    /// Something could not be worked out, and that was reported.
    Reported,
}

/// A row laid along its line.
#[derive(Clone, Debug, Default)]
pub struct Row {
    /// How many, how wide, how far apart; none of ties that are pieces.
    pub row: Option<FastenerRow>,
    /// Each of them on each part, and where.
    pub places: Vec<(PartId, Point)>,
    /// From which of them on they are the second side's; how many there are where both sides are one edge.
    pub second: usize,
    /// The length of the line on both sides.
    pub sides: [f64; 2],
    /// How far along the first side's line the first and the last of them are; and whether it runs down.
    pub ends: Option<(f64, f64, bool)>,
}

/// Lays the buttons of a closure, or what it has instead: the first side's and the second's. On a chain of
/// edges the line runs on from piece to piece. Where first and last are not said, each has the same share of
/// the line.
///
/// # Errors
/// What is wrong with the row; of a zip `Reported`.
pub fn lay(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    id: ClosureId,
) -> Result<Row, RowTrouble> {
    let closure = garment.closure(id);
    let Some(ClosureKind::Fasteners(said)) = &closure.kind else { return Err(RowTrouble::Reported) };
    if said.are_pieces() {
        return Ok(Row::default());
    }
    let known = |expression| amount_of(garment, sized, expression).ok_or(RowTrouble::Reported);
    let count = said.count.as_ref().map_or(Ok(1.0), known)?;
    let size = said.size.as_ref().map(known).transpose()?;
    if !(1.0..=MOST_FASTENERS).contains(&count) || count.fract() != 0.0 {
        return Err(RowTrouble::Count(count));
    }
    let count = count as u32;
    for (is_first, anchor) in said.between.iter().flat_map(|(from, to)| [(true, from), (false, to)]) {
        if let AnchorAt::Share(share) = &anchor.at {
            let share = known(share)?;
            // From neither end only the middle is a place.
            if (share - 0.5).abs() > 1e-9 {
                return Err(RowTrouble::FromWhichEnd(is_first, share));
            }
        }
    }
    let mut row = Row::default();
    let mut spacing = None;
    let mut on_first: Option<(f64, f64)> = None;
    let same = same_edges(closure);
    for (side, chain) in [&closure.first, &closure.second].into_iter().enumerate() {
        if side == 1 {
            row.second = row.places.len();
        }
        if side == 1 && same {
            row.sides[1] = row.sides[0];
            continue;
        }
        let layers = layers_of(finder, chain);
        for layer in layers {
            let Some(line) = Line::of(garment, sized, finder, chain, layer, said) else {
                return Err(RowTrouble::Reported);
            };
            row.sides[side] = line.length();
            let length = line.length();
            let ends = match &said.between {
                None => {
                    let half = length / f64::from(count) / 2.0;
                    Some((half, length - half))
                }
                // The second side's lie where the first side's do, where its points are not named.
                Some((from, to))
                    if side == 0 || line.has(garment, finder, from) && line.has(garment, finder, to) =>
                {
                    line.ends(garment, sized, finder, [from, to])
                }
                Some((from, to)) => on_first.or_else(|| line.ends(garment, sized, finder, [from, to])),
            };
            let Some((first, last)) = ends else { continue };
            on_first = on_first.or(ends);
            row.ends = row.ends.or(Some((first, last, line.down)));
            for (is_first, at) in [(true, first), (false, last)] {
                let beyond = (-at).max(at - length);
                if beyond > AT_END {
                    let anchor = said.between.as_ref().map(|(from, to)| if is_first { from } else { to });
                    return Err(match anchor.is_some_and(|anchor| line.goes_along(anchor) == (at < 0.0)) {
                        true => RowTrouble::TooNear(is_first, beyond),
                        false => RowTrouble::Beyond(is_first, beyond),
                    });
                }
            }
            let step = if count > 1 { (last - first) / f64::from(count - 1) } else { 0.0 };
            spacing = (count > 1).then_some(step.abs());
            let both = same || chain.edges.iter().all(|sewn| sewn.on.is_none());
            for button in 0..count {
                let Some((part, at)) = line.at(first + step * f64::from(button)) else { continue };
                // What is cut alike is marked once for all copies of a ring.
                if chain.ring
                    && row.places.iter().any(|(own, there)| *own == part && there.distance(at) < AT_END)
                {
                    continue;
                }
                row.places.push((part, at));
                row.places.extend(finder.twin(part).filter(|_| both).map(|twin| (twin, at)));
            }
        }
    }
    let buttonhole = size.filter(|_| said.kind == Fastener::Button).map(|size| size + BUTTON_THICKNESS);
    row.row = Some(FastenerRow { closure: id, kind: said.kind, count, size, spacing, buttonhole });
    Ok(row)
}

/// Marks all rows that can be laid on the parts, and lists them.
pub fn mark_fasteners(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    parts: &mut [SewnPart],
) -> Vec<FastenerRow> {
    let mut rows = Vec::new();
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let Ok(laid) = lay(garment, sized, finder, id) else { continue };
        let Some(row) = laid.row else { continue };
        for (part, at) in laid.places {
            if let Some(part) = parts.get_mut(part.index()) {
                let (kind, size, over) = (row.kind, row.size, said.over);
                part.fasteners.push(FastenerPlace { closure: id, kind, at, size, over });
            }
        }
        rows.push(row);
    }
    rows
}

/// Whether both sides name the same edges: the left and the right copy of one piece.
fn same_edges(closure: &Closure) -> bool {
    let names = |chain: &Chain| chain.edges.iter().map(|sewn| (sewn.layer, sewn.edge)).collect::<Vec<_>>();
    names(&closure.first) == names(&closure.second)
}

/// The layers in which the whole chain is there.
fn layers_of(finder: &Finder, chain: &Chain) -> Vec<Option<LayerId>> {
    let open: Vec<&SewnEdge> = chain.edges.iter().filter(|sewn| sewn.layer.is_none()).collect();
    if open.is_empty() {
        return vec![None];
    }
    let layers = finder.layers.layers.iter().copied();
    let has_all = |layer: &LayerId| open.iter().all(|sewn| finder.layers.has(*layer, sewn.piece));
    layers.filter(has_all).map(Some).collect()
}

/// A centre line, from the end at which the first is to the other.
struct Line {
    /// Part and path, each walked the same way up or down.
    stretches: Vec<(PartId, Path)>,
    /// It runs down the pieces.
    down: bool,
}

impl Line {
    fn of(
        garment: &Garment,
        sized: &SizedGarment,
        finder: &Finder,
        chain: &Chain,
        layer: Option<LayerId>,
        said: &Fasteners,
    ) -> Option<Line> {
        let mut stretches = Vec::new();
        for sewn in &chain.edges {
            let layer = sewn.layer.or(layer)?;
            let found = paths(garment, sized, finder, layer, sewn);
            if found.is_empty() {
                return None;
            }
            // Of a ring every copy, one after the other.
            let copies = |(part, _): &(PartId, Path)| if chain.ring { finder.times(*part) } else { 1 };
            for _ in 0..found.iter().map(copies).max().unwrap_or(1) {
                stretches.extend(found.iter().cloned());
            }
        }
        let down = said.between.as_ref().is_none_or(|(from, to)| {
            let below = |anchor: &Anchor| match anchor.at {
                AnchorAt::Beside { below, .. } => Some(below),
                AnchorAt::Point(_) | AnchorAt::Share(_) => None,
            };
            below(from).or_else(|| below(to).map(|below| !below)).unwrap_or(true)
        });
        for (_, path) in &mut stretches {
            if (path.end().y < path.start().y) != down {
                *path = path.reversed();
            }
        }
        let mut line = Line { stretches, down };
        if let Some((from, to)) = &said.between
            && let (Some(from), Some(to)) =
                (line.piece_at(garment, finder, from), line.piece_at(garment, finder, to))
            && from > to
        {
            line.stretches.reverse();
        }
        Some(line)
    }

    /// Which stretch lies on the piece that an anchor's point is of.
    fn piece_at(&self, garment: &Garment, finder: &Finder, anchor: &Anchor) -> Option<usize> {
        let piece = garment.point(anchor.point()?).piece;
        self.stretches.iter().position(|(part, _)| finder.part(*part).piece == piece)
    }

    fn has(&self, garment: &Garment, finder: &Finder, anchor: &Anchor) -> bool {
        anchor.point().is_none() || self.piece_at(garment, finder, anchor).is_some()
    }

    fn length(&self) -> f64 {
        self.stretches.iter().map(|(_, path)| path.length()).sum()
    }

    /// Where the first and the last are along the line; none where their points are not known.
    fn ends(
        &self,
        garment: &Garment,
        sized: &SizedGarment,
        finder: &Finder,
        [from, to]: [&Anchor; 2],
    ) -> Option<(f64, f64)> {
        Some((self.anchor(garment, sized, finder, from)?, self.anchor(garment, sized, finder, to)?))
    }

    fn anchor(
        &self,
        garment: &Garment,
        sized: &SizedGarment,
        finder: &Finder,
        anchor: &Anchor,
    ) -> Option<f64> {
        let (wanted, distance) = match &anchor.at {
            AnchorAt::Share(share) => return Some(self.length() * amount_of(garment, sized, share)?),
            AnchorAt::Point(point) => (*point, 0.0),
            AnchorAt::Beside { distance, point, .. } => (*point, amount_of(garment, sized, distance)?),
        };
        let drawn = sized.papers.iter().flatten();
        let mut spots = drawn.flat_map(|drawn| drawn.spots.iter().map(move |spot| (drawn.piece, spot)));
        let (piece, spot) = spots.find(|(_, spot)| garment.is_point_of(spot.point, wanted))?;
        let point = spot.at;
        // The corners of an end that is folded lie on one another in wear, at the end of the half that is seen.
        let is_flat = |piece| garment.piece(piece).folds.is_empty();
        let (mut before, mut best) = (0.0, None);
        // Papers of other pieces are drawn in places of their own.
        let is_named = self.piece_at(garment, finder, anchor).is_some();
        let last = self.stretches.len().checked_sub(1)?;
        for (nth, (part, path)) in self.stretches.iter().enumerate() {
            if is_named && finder.part(*part).piece != piece {
                before += path.length();
                continue;
            }
            let nearest = path.nearest(point);
            if best.is_none_or(|(least, _)| nearest.distance < least) {
                // From a point beyond an end of the line it is counted from there, as far as that lies beyond it.
                let is_own = finder.drawn(*part).is_some_and(|drawn| drawn.piece == piece) && is_flat(piece);
                let beyond = if is_own { beyond(path, point, [nth == 0, nth == last]) } else { 0.0 };
                best = Some((nearest.distance, before + nearest.at + beyond));
            }
            before += path.length();
        }
        let (_, at) = best?;
        Some(if self.goes_along(anchor) { at + distance } else { at - distance })
    }

    /// Whether a distance from an anchor's point goes the way that the line is walked.
    fn goes_along(&self, anchor: &Anchor) -> bool {
        match anchor.at {
            AnchorAt::Beside { below, .. } => below == self.down,
            AnchorAt::Point(_) | AnchorAt::Share(_) => true,
        }
    }

    /// The part and the place so far along the line.
    fn at(&self, along: f64) -> Option<(PartId, Point)> {
        let mut left = along;
        for (at, (part, path)) in self.stretches.iter().enumerate() {
            let length = path.length();
            if left <= length || at + 1 == self.stretches.len() {
                return Some((*part, path.point_at_length(left)));
            }
            left -= length;
        }
        None
    }
}

/// The ways that an edge or a line of a piece goes, in one layer; of an edge that a fold halves the half that
/// stays outside, beside the edge that the other is brought onto.
fn paths(
    garment: &Garment,
    sized: &SizedGarment,
    finder: &Finder,
    layer: LayerId,
    sewn: &SewnEdge,
) -> Vec<(PartId, Path)> {
    // Of a part whose left and right are told apart, the one that is named, else the left one for both.
    let is_meant = |part: PartId| match finder.hand(part) {
        Some(own) => own == sewn.on.unwrap_or(Hand::Left),
        None => true,
    };
    let edges = finder.in_layer(layer, sewn).into_iter().filter(|place| is_meant(place.part));
    let mut found: Vec<(PartId, Path)> = edges
        .filter_map(|place| Some((place.part, outside(garment, finder.drawn(place.part)?, place.edge)?)))
        .collect();
    if found.is_empty() {
        let parts = PartId::enumerate(finder.parts);
        for (id, part) in parts.filter(|&(id, part)| part.layer == layer && is_meant(id)) {
            let Some(drawn) = sized.paper(part.paper) else { continue };
            let lines = drawn.lines.iter().filter(|line| garment.is_run_of(line.edge, sewn.edge));
            found.extend(lines.map(|line| (id, line.path.clone())));
        }
    }
    found
}

/// How far a point lies beyond the start of a path, less than nothing, or beyond its end, along the way that it has there;
/// nothing of an end where the line goes on.
fn beyond(path: &Path, point: Point, [start, end]: [bool; 2]) -> f64 {
    let along = |way: Option<Vec2>, from: Point| way.map_or(0.0, |way| (point - from).dot(way.normalize()));
    let before = along(path.tangent_at_start().filter(|_| start), path.start());
    let after = along(path.tangent_at_end().filter(|_| end), path.end());
    let (at, long) = (path.nearest(point).at, path.length());
    match () {
        () if at < AT_END => before.min(0.0),
        () if at > long - AT_END => after.max(0.0),
        () => 0.0,
    }
}

/// What of an edge is seen when its piece is folded.
fn outside(garment: &Garment, drawn: &DrawnPiece, edge: DrawnEdgeId) -> Option<Path> {
    let path = &drawn.edge_at(edge)?.path;
    let folds = &garment.piece(drawn.piece).folds;
    let (whole, left) = (path.length(), finished(garment, drawn, edge)?);
    if folds.is_empty() || left >= whole {
        return Some(path.clone());
    }
    let is_onto = |edge: EdgeId| folds.iter().any(|over| garment.is_run_of(edge, over.onto));
    let next = drawn.edge_at(drawn.after(edge)).is_some_and(|next| is_onto(next.edge));
    Some(if next { path.split_at_length(whole - left).1 } else { path.split_at_length(left).0 })
}
