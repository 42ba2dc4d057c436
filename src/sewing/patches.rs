//! What is placed, where it lies on the piece that carries it: where it is stitched down, and over what.

use super::lying::as_it_lies;
use crate::garment::{CutHow, EdgeId, Garment, LayerId, Placement, PlacementId};
use crate::resolve::{Corners, DrawnPiece, DrawnSlit, DrawnTakeUp, PlacedPiece, SizedGarment, sewn_layer};
use crate::shape::outline::{Region, extents, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, fold};

/// Places along a row of stitching are looked at so far apart, in millimetres.
const APART: f64 = 1.0;
/// The most places that are looked at on one row.
const MOST_PLACES: usize = 1000;
/// So often the place is halved where a row comes in or goes out between two of them.
const HALVINGS: usize = 8;

/// Rows no further than this from one another are one row, in millimetres.
const SAME: f64 = 2.0;
/// Nearer to an outline than this is along it, in millimetres.
const BESIDE: f64 = 1.0;

/// A placed piece, where it lies on its host's paper.
pub struct Patch<'a> {
    /// Which.
    pub id: PlacementId,
    /// The same, as it is said.
    pub placement: &'a Placement,
    /// Its edges there.
    pub placed: &'a PlacedPiece,
    /// What it is placed on.
    pub host: &'a DrawnPiece,
    /// What is placed, on its own paper.
    pub own: &'a DrawnPiece,
    /// Its outline; of a half on the fold, of the whole.
    pub outline: Vec<Path>,
    /// The edges that are stitched down or caught; of a half on the fold, of the whole.
    pub rows: Vec<(EdgeId, Path)>,
    /// Those that are left open.
    pub open: Vec<(EdgeId, Path)>,
    /// Where its cloth is folded, of what lies folded in half.
    fold: Option<Path>,
    /// The layer of what it lies on: the one that is said, its own, or the first that has it.
    on_layer: Option<LayerId>,
}

/// What is held in this share of its height, from above, hangs.
const AT_TOP: f64 = 0.25;
/// A grain that leads up by more than this is up and down, as its sine.
const UPRIGHT: f64 = 0.9;

/// So much of a row inside an outline is not merely beside it, in millimetres.
pub const THROUGH: f64 = 5.0;

impl<'a> Patch<'a> {
    /// The layer of what it lies on, where that is known.
    pub fn on_layer(&self) -> Option<LayerId> {
        self.on_layer
    }

    /// Where a place of its cloth comes to lie: of what is folded in half the half that is brought over lies on the other. None
    /// of what is folded otherwise.
    pub fn as_folded(&self, garment: &Garment, at: Point) -> Option<Point> {
        match &self.fold {
            Some(fold) if !Region::of(&self.outline).contains(at) => {
                Some(fold::mirror_across(fold).ok()? * at)
            }
            Some(_) => Some(at),
            None => garment.piece(self.placement.piece).folds.is_empty().then_some(at),
        }
    }

    /// Whether it lies folded in half.
    pub fn is_folded(&self) -> bool {
        self.fold.is_some()
    }

    /// Whether another lies on the same piece, in the same layer, and not on the other side of the body.
    pub fn lies_beside(&self, other: &Patch) -> bool {
        let hands = self.placement.hand.zip(other.placement.hand);
        let is_one_cloth = self.placed.on == other.placed.on && self.on_layer == other.on_layer;
        is_one_cloth && hands.is_none_or(|(one, other)| one == other)
    }

    /// Whether its rows of stitching go through another that has an opening, and would shut it if it lay there before.
    pub fn stitches_through(&self, under: &Patch) -> bool {
        !under.open.is_empty() && self.rows_within(under) > THROUGH
    }

    /// Whether both are stitched down along one and the same rows, and both have a mouth.
    pub fn lies_on(&self, other: &Patch) -> bool {
        let ends = |rows: &[(EdgeId, Path)]| -> Vec<Point> {
            let places = |path: &Path| [path.start(), path.point_at_length(0.5 * path.length()), path.end()];
            rows.iter().flat_map(|(_, path)| places(path)).collect()
        };
        let are_on = |places: &[Point], rows: &[(EdgeId, Path)]| {
            places.iter().all(|&place| rows.iter().any(|(_, path)| path.is_near(place, SAME)))
        };
        !self.open.is_empty()
            && !other.open.is_empty()
            && !self.rows.is_empty()
            && are_on(&ends(&self.rows), &other.rows)
            && are_on(&ends(&other.rows), &self.rows)
    }

    /// Whether the other hangs over it, as a flap does over its pocket, and is not stitched through it: from its upper edge, or
    /// over no more than half of its rows.
    pub fn hangs_under(&self, over: &Patch) -> bool {
        let rows: f64 = self.rows.iter().map(|(_, path)| path.length()).sum();
        let is_hung = || over.hangs() || self.rows_within(over) < rows / 2.0;
        self.stitches_through(over) && !over.stitches_through(self) && is_hung()
    }

    /// Whether it is held along its upper edge alone, and hangs down from there, as a flap does.
    pub fn hangs(&self) -> bool {
        let rows: Vec<Path> = self.rows.iter().map(|(_, path)| path.clone()).collect();
        let Some((own, held)) = extents(&self.outline).zip(extents(&rows)) else { return false };
        self.host.grain.y.abs() >= UPRIGHT
            && !self.open.is_empty()
            && held.y0 > own.y1 - AT_TOP * own.height()
            && held.width() > 0.5 * own.width()
    }

    fn rows_within(&self, other: &Patch) -> f64 {
        self.rows.iter().map(|(_, path)| well_inside(path, &other.outline)).sum()
    }

    /// Everything that is placed, as far as it is known where it lies.
    pub fn all(garment: &'a Garment, sized: &'a SizedGarment) -> Vec<Patch<'a>> {
        let placements = PlacementId::enumerate(&garment.placements).filter(|(_, one)| !one.poisoned);
        placements.filter_map(|(id, placement)| Patch::of(garment, sized, id, placement)).collect()
    }

    fn of(
        garment: &'a Garment,
        sized: &'a SizedGarment,
        id: PlacementId,
        placement: &'a Placement,
    ) -> Option<Patch<'a>> {
        let placed = sized.placed(id)?;
        let host = sized.paper(placed.on)?;
        let layer = placement.layer.or_else(|| sewn_layer(garment, placement.piece));
        let own = sized.paper(garment.paper_of(layer, placement.piece)?)?;
        let fold_edge = match own.cut {
            CutHow::OnFold(edge) => Some(edge),
            CutHow::Alike | CutHow::Mirrored => None,
        };
        let lying = as_it_lies(garment, sized, placement, placed);
        let fold = lying.iter().find(|lies| lies.is_fold).map(|lies| lies.path.clone());
        let ring: Vec<Path> = lying.iter().map(|lies| lies.path.clone()).collect();
        let on_fold = fold_edge.and_then(|fold| lying.iter().position(|lies| lies.edge == fold));
        let (outline, mirror) = match on_fold {
            Some(at) => (fold::opened_out(&ring, at).ok()?, Some(fold::mirror_across(ring.get(at)?).ok()?)),
            None => (ring, None),
        };
        let is_stitched = |edge: EdgeId| {
            let same = |named: EdgeId| garment.is_run_of(edge, named);
            placement.all_round.is_some()
                || placement.topstitched.iter().any(|(named, _)| same(*named))
                || placement.caught.iter().any(|caught| same(caught.edge))
        };
        let (mut rows, mut open) = (Vec::new(), Vec::new());
        for lies in lying.iter().filter(|lies| Some(lies.edge) != fold_edge) {
            let of = if is_stitched(lies.edge) && !lies.is_fold { &mut rows } else { &mut open };
            of.push((lies.edge, lies.path.clone()));
            of.extend(mirror.map(|mirror| (lies.edge, lies.path.transform(mirror))));
        }
        let has = |layer: &LayerId| garment.layer(*layer).pieces.contains(&host.piece);
        let said = placement.on_layer.or(placement.layer);
        let on_layer = [said, layer].into_iter().flatten().find(has);
        let on_layer = on_layer.or_else(|| sewn_layer(garment, host.piece));
        Some(Patch { id, placement, placed, host, own, outline, rows, open, fold, on_layer })
    }
}

/// How much of a path lies inside, in millimetres.
pub fn inside(path: &Path, region: &Region) -> f64 {
    long_where(path, |at| region.contains(at))
}

/// The same of what lies well inside an outline, and not along it.
pub fn well_inside(path: &Path, outline: &[Path]) -> f64 {
    let region = Region::of(outline);
    long_where(path, |at| region.contains(at) && !is_on(outline, at, BESIDE))
}

/// How much of a path lies where that is so, in millimetres.
fn long_where(path: &Path, is_so: impl Fn(Point) -> bool) -> f64 {
    let length = path.length();
    if !length.is_finite() || length <= 0.0 {
        return 0.0;
    }
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    let is_in = |at: f64| is_so(path.point_at_length(at));
    let (mut total, mut before) = (0.0, is_in(0.0));
    for nth in 0..count {
        let [from, to] = [nth, nth + 1].map(|at| length * at as f64 / count as f64);
        let after = is_in(to);
        total += match (before, after) {
            (true, true) => to - from,
            (false, false) => 0.0,
            _ => {
                let (mut low, mut high) = (from, to);
                for _ in 0..HALVINGS {
                    let middle = (low + high) / 2.0;
                    if is_in(middle) == before { low = middle } else { high = middle }
                }
                if before { low - from } else { to - high }
            }
        };
        before = after;
    }
    total
}

/// How much of a slit lies under what is placed, in millimetres.
pub fn covered(patch: &Patch, slit: &DrawnSlit) -> f64 {
    let own = Region::of(&patch.outline);
    let sides = slit.sides.into_iter().zip(slit.ends);
    sides.map(|(from, to)| inside(&Path::straight(from, to), &own)).fold(0.0, f64::max)
}

/// The outline with those corners.
pub fn ring(corners: &[Point]) -> Vec<Path> {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(from, to)| Path::straight(*from, *to)).collect()
}

/// A dart no wider than this at the mouth of a pocket may run out under it, in millimetres: tailors' habit.
const RUNS_IN: f64 = 10.0;

/// A dart or a pleat under what is placed.
pub struct Under {
    /// How much of one of its rows, or of a mouth between two, lies on cloth that the dart takes, in millimetres.
    pub crossed: f64,
    /// The outline of the cloth that it takes.
    pub cloth: Vec<Path>,
}

impl Under {
    /// None of one that lies beside it. A piece with darts of its own is meant to lie over one.
    pub fn of(patch: &Patch, take_up: &DrawnTakeUp, tolerance: f64) -> Option<Under> {
        // A pleat is laid in folds at its edge also where it is not sewn.
        let corners = match take_up.pleat {
            Some(pleat) => {
                let ([one, other], [first, second]) = (take_up.wedge.sides, pleat.ends);
                Corners::from([one, first, second, other])
            }
            None => take_up.corners(),
        };
        if corners.len() < 3 || !patch.own.take_ups.is_empty() {
            return None;
        }
        let cloth = ring(&corners);
        let region = Region::of(&cloth);
        // A mouth whose both ends are stitched down is held as wide as it is, too.
        let is_held = |path: &Path| {
            let held = |end: Point| patch.rows.iter().any(|(_, row)| row.nearest(end).distance < BESIDE);
            held(path.start()) && held(path.end())
        };
        let mouths = patch.open.iter().filter(|(_, path)| is_held(path));
        let most = |crossed: f64, (_, path): &(EdgeId, Path)| inside(path, &region).max(crossed);
        let (by_rows, by_mouth) = (patch.rows.iter().fold(0.0, most), mouths.fold(0.0, most));
        let own = Region::of(&patch.outline);
        let ends = |end: Point| own.contains(end);
        // A narrow dart that runs out under the pocket, as of a tailored front, leaves its mouth room for a hand.
        let runs_in = by_mouth <= RUNS_IN
            && take_up.pleat.is_none()
            && (ends(take_up.wedge.point) || take_up.upper.is_some_and(ends));
        let crossed = if runs_in { by_rows } else { by_rows.max(by_mouth) };
        let covers = || {
            take_up.legs().into_iter().any(|(from, to)| inside(&Path::straight(from, to), &own) > tolerance)
        };
        (crossed > tolerance || covers()).then_some(Under { crossed, cloth })
    }
}
