//! In which part of the work a job belongs, where the rules leave it free.
//!
//! Workrooms work flat as long as they can: what stiffens is fused and darts are sewn before pieces are joined,
//! small parts are made by themselves, and what closes a tube waits. Which is which is read off the shapes and
//! seams, never off names: a garment may call its edges what it likes.

use super::jobs::{Job, Work};
use super::notions::together;
use super::piping::laid_in;
use crate::garment::{ClosureId, ClosureKind, FinishKind, LayerId, Part, PieceId, RowId, SeamId};
use crate::id_hash::IdSet;
use crate::resolve::{DrawnEdgeId, extents};
use crate::sewing::seam_kinds::BY_HAND;
use crate::sewing::{PartId, Place, Stitching};
use crate::shape::outline::signed_area;
use crate::shape::path::Path;
use crate::syntax::tree::RowKind;

/// Parts of the work, in their order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// What is fused on.
    Fusing,
    /// Darts, pleats and tucks.
    TakeUps,
    /// What is finished before it is sewn on: patches, bands, collars, cuffs.
    SmallParts,
    /// Slits and plackets.
    Slits,
    /// What is placed on something: pockets, straps.
    Pockets,
    /// Zips, while all lies flat.
    Zips,
    /// Seams across the body: yokes and shoulders.
    Shoulders,
    /// What is sewn on along the top.
    Collar,
    /// Other seams that join what hung apart.
    Flat,
    /// Seams that run along the body and close it.
    Sides,
    /// Other seams that close something to a tube.
    Round,
    /// What is sewn on along the bottom.
    Cuffs,
    /// Seams of what lies inside.
    Lining,
    /// Seams that join it to the outside.
    BaggingOut,
    /// Turning, and closing the gap.
    Turning,
    /// Hems, bindings, and what runs through them.
    Hems,
    /// Buttonholes and buttons.
    Buttons,
}

impl Phase {
    /// What a group of such steps is called.
    pub fn title(self) -> &'static str {
        match self {
            Phase::Fusing => "Fuse",
            Phase::TakeUps => "Darts and pleats",
            Phase::SmallParts => "Small parts",
            Phase::Slits => "Slits",
            Phase::Pockets => "Pockets",
            Phase::Zips => "Zip",
            Phase::Shoulders => "Yoke and shoulders",
            Phase::Collar => "Collar",
            Phase::Flat => "Sewn while flat",
            Phase::Sides => "Sides",
            Phase::Round => "In the round",
            Phase::Cuffs => "Cuffs and waistband",
            Phase::Lining => "Lining",
            Phase::BaggingOut => "Bag out",
            Phase::Turning => "Turn",
            Phase::Hems => "Hems",
            Phase::Buttons => "Buttons",
        }
    }

    /// Why a job is done in it.
    pub fn reason(self) -> &'static str {
        match self {
            Phase::Fusing => "what stiffens is fused on first",
            Phase::TakeUps => "darts and pleats are sewn while their piece lies flat",
            Phase::SmallParts => "small parts are made before they are sewn on",
            Phase::Slits => "slits are finished while their piece lies flat",
            Phase::Pockets => "what is sewn on top goes on while its piece lies flat",
            Phase::Zips => "a zip goes in while the pieces lie flat",
            Phase::Shoulders => "seams across come first, and all lies flat",
            Phase::Collar => "what goes along the top follows the seams that it crosses",
            Phase::Flat => "it joins what still lies flat",
            Phase::Sides => "it closes a tube, after what is sewn flat",
            Phase::Round => "it goes round, after the seams that close it",
            Phase::Cuffs => "what goes along the bottom follows the seams that close it",
            Phase::Lining => "what lies inside is sewn by itself",
            Phase::BaggingOut => "it joins inside and outside, once both are sewn",
            Phase::Turning => "it is turned once all round is sewn",
            Phase::Hems => "hems follow the seams",
            Phase::Buttons => "what holds it shut comes last",
        }
    }
}

/// A piece lower than this share of its width is a band.
const BAND: f64 = 0.4;
/// An edge whose middle lies above this share of its piece's height lies high on it.
const HIGH: f64 = 0.6;

/// What is no wider than this, in millimetres, and has an outline so many times as long as it is wide, is a strip.
const NARROW: f64 = 75.0;
const LONG: f64 = 8.0;

/// The parts of the work of one garment.
pub struct Phases<'w, 'a> {
    work: &'w Work<'a>,
    /// Pieces that are placed on something.
    placed: IdSet<PieceId>,
    /// Layers and pieces of which an earlier layer has a counterpart.
    inner: IdSet<(LayerId, PieceId)>,
    /// Those of them that have a counterpart themselves, as a lining has and a pocket bag in it has not.
    lining: IdSet<(LayerId, PieceId)>,
    /// Those of what lies inside that hang on the outside alone, as pocket bags do.
    hanging: IdSet<(LayerId, PieceId)>,
    /// Pieces that seams only take in beside another ply, as a flap is: they are finished before.
    taken_in: IdSet<PieceId>,
    /// Parts that are sewn to a side of a slit of another piece: welts, bags.
    on_slits: IdSet<PartId>,
    /// Seams with a gap through which a belt or the like is turned, which hangs on nothing else of the garment.
    loose_bands: IdSet<SeamId>,
}

impl<'w, 'a> Phases<'w, 'a> {
    /// Of that work.
    pub fn of(work: &'w Work<'a>) -> Self {
        let garment = work.garment;
        let placed = garment.placements.iter().map(|placement| placement.piece);
        let placed = placed.chain(garment.straps.iter().map(|strap| strap.piece)).collect();
        // Layers in which a piece lies on one of an earlier layer are inner ones, with all that is in them.
        let mut layers: Vec<(LayerId, IdSet<PieceId>)> = Vec::new();
        for part in garment.parts().into_iter().filter(|part| !garment.layer(part.layer).fused) {
            let at = layers.iter().position(|(layer, _)| *layer == part.layer).unwrap_or_else(|| {
                layers.push((part.layer, IdSet::default()));
                layers.len() - 1
            });
            if let Some((_, origins)) = layers.get_mut(at) {
                origins.extend(garment.origins(part.piece));
            }
        }
        let (mut inner, mut lining) = (IdSet::default(), IdSet::default());
        for (at, (layer, origins)) in layers.iter().enumerate() {
            let is_inner = layers.iter().take(at).any(|(_, before)| !before.is_disjoint(origins));
            if is_inner {
                let own = garment.parts().into_iter().filter(|part| part.layer == *layer);
                inner.extend(own.clone().map(|part| (part.layer, part.piece)));
                let is_lining = |part: &Part| {
                    let own = garment.origins(part.piece);
                    layers.iter().take(at).any(|(_, before)| own.iter().any(|own| before.contains(own)))
                };
                lining.extend(own.filter(is_lining).map(|part| (part.layer, part.piece)));
            }
        }
        let sewn = work.stitchings.iter().filter(|one| one.places().any(|place| is_of_slit(work, place)));
        let others = sewn.flat_map(|one| one.places()).filter(|place| !is_of_slit(work, place));
        let on_slits = others.map(|place| place.part).collect();
        let taken_in = taken_in(work);
        let hanging = hanging(work, &inner, &lining);
        let loose_bands = loose_bands(work);
        Phases { work, placed, inner, lining, hanging, on_slits, taken_in, loose_bands }
    }

    /// Whether all edges of a closure lie on pieces that are placed on something.
    fn is_of_placed(&self, id: ClosureId) -> bool {
        let closure = self.work.garment.closure(id);
        let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
        edges.all(|sewn| self.placed.contains(&sewn.piece))
    }

    /// The part of the work that a job belongs to; and, of what lies inside, the part that it would belong to
    /// outside.
    pub fn phase(&self, job: Job) -> (Phase, Phase) {
        let garment = self.work.garment;
        let plain = |phase: Phase| (phase, phase);
        match job {
            Job::Fuse(..) => plain(Phase::Fusing),
            Job::TakeUp(..) => plain(Phase::TakeUps),
            Job::Place(..) | Job::Strap(_) => plain(Phase::Pockets),
            Job::PutIn(id) => {
                let closure = garment.closure(id);
                let is_row = matches!(closure.kind, Some(ClosureKind::Fasteners(_)));
                // Loops and ties go on flat cloth, but where they lie along several pieces.
                let is_on_one = closure.first.edges.len() <= 1 && closure.second.edges.len() <= 1;
                plain(if is_row && is_on_one { Phase::Pockets } else { Phase::Lining })
            }
            Job::Closure(id) => match garment.closure(id).kind {
                // A zip between two pieces of a pocket is sewn before that is laid on.
                Some(ClosureKind::Zipper { .. }) if self.is_of_placed(id) => plain(Phase::SmallParts),
                Some(ClosureKind::Zipper { .. }) => plain(Phase::Zips),
                _ => plain(Phase::Buttons),
            },
            Job::Row(id) => self.of_row(id),
            // What goes through a piece alone is set while that lies flat.
            Job::Tack(id) if garment.tack(id).sets.is_some() => plain(Phase::SmallParts),
            Job::Cord(id) if !laid_in(self.work, id).is_empty() => plain(Phase::SmallParts),
            Job::Cord(_) | Job::Tack(_) => plain(Phase::Hems),
            Job::Turn(id) | Job::Gap(id) if self.loose_bands.contains(&id) => plain(Phase::SmallParts),
            Job::Turn(_) | Job::Gap(_) => plain(Phase::Turning),
            Job::Finish(id, nth, _) => {
                let Some(sewn) = garment.finish(id).edges.get(nth) else { return plain(Phase::Hems) };
                // What runs on over other pieces waits for the seams between them.
                let is_alone = || garment.finish(id).edges.iter().all(|own| own.piece == sewn.piece);
                if self.placed.contains(&sewn.piece) || self.taken_in.contains(&sewn.piece) && is_alone() {
                    return plain(Phase::SmallParts);
                }
                // A facing's inner edge cannot be come at as well once it is turned inside.
                let overlocked = matches!(garment.finish(id).kind, FinishKind::Overlocked);
                let pieces = || garment.finish(id).edges.iter().map(|own| own.piece);
                if overlocked && pieces().all(|piece| self.is_narrow(piece)) {
                    return plain(Phase::SmallParts);
                }
                let is_of_slit = garment.edge(garment.whole_edge(sewn.edge)).side_of.is_some();
                plain(if is_of_slit { Phase::Slits } else { Phase::Hems })
            }
            Job::Seam(at) => match self.work.stitchings.get(at) {
                Some(stitching) => self.of_seam(stitching),
                None => plain(Phase::Round),
            },
        }
    }

    /// Whether a piece is a strip, straight or curved: narrow, and much longer than wide.
    fn is_narrow(&self, piece: PieceId) -> bool {
        let parts = PartId::enumerate(self.work.finder.parts).filter(|(_, part)| part.piece == piece);
        let mut drawn = parts.filter_map(|(id, _)| self.work.finder.drawn(id)).peekable();
        drawn.peek().is_some()
            && drawn.all(|drawn| {
                let paths = || drawn.outline().iter().map(|edge| &edge.path);
                let round: f64 = paths().map(Path::length).sum();
                let wide = 2.0 * signed_area(paths()).abs() / round.max(1.0);
                wide < NARROW && round > LONG * wide
            })
    }

    fn of_seam(&self, stitching: &Stitching) -> (Phase, Phase) {
        let part = |place: &Place| self.work.finder.part(place.part);
        if stitching.places().all(|place| self.placed.contains(&part(place).piece)) {
            return (Phase::SmallParts, Phase::SmallParts);
        }
        let hosts: Vec<&Place> = stitching.places().filter(|place| !is_band(self.work, place.part)).collect();
        if hosts.is_empty() {
            return (Phase::SmallParts, Phase::SmallParts);
        }
        // What is sewn to the sides of a slit is sewn while the piece lies flat, whatever cloth it is of; then it is closed.
        let is_lining = |place: &Place| self.lining.contains(&(part(place).layer, part(place).piece));
        if !stitching.places().any(is_lining) {
            if hosts.iter().any(|place| is_of_slit(self.work, place)) {
                return (Phase::Slits, Phase::Slits);
            }
            if hosts.iter().all(|place| self.on_slits.contains(&place.part)) {
                return (Phase::Pockets, Phase::Pockets);
            }
        }
        let outside = self.among(&hosts, hosts.len() < stitching.places().count());
        let own = |place: &Place| (part(place).layer, part(place).piece);
        let is_inner = |place: &&&Place| self.inner.contains(&own(place));
        let is_lined = |place: &&&Place| is_inner(place) && !self.hanging.contains(&own(place));
        let inner = hosts.iter().filter(is_inner).count();
        let by_hand = is_by_hand(self.work, stitching);
        match hosts.iter().filter(is_lined).count() {
            _ if inner == hosts.len() => (Phase::Lining, outside),
            0 => (outside, outside),
            // What is closed by hand is closed once all is turned, last of that.
            _ if by_hand => (Phase::Turning, Phase::Buttons),
            _ => (Phase::BaggingOut, outside),
        }
    }

    /// What is stitched down lies flat as soon as what it runs beside is sewn. What goes through inside and outside along the
    /// seam that joins both, where these are turned through a gap, waits for that.
    fn of_row(&self, id: RowId) -> (Phase, Phase) {
        let parts = PartId::enumerate(&self.work.sewing.parts);
        let edges: IdSet<(PartId, DrawnEdgeId)> = parts
            .flat_map(|(part, sewn)| sewn.rows.iter().map(move |row| (part, row)))
            .filter(|(_, row)| row.row == id)
            .map(|(part, row)| (part, row.edge))
            .collect();
        let is_beside =
            |one: &&Stitching| one.places().any(|place| edges.contains(&(place.part, place.edge)));
        let mut beside = self.work.stitchings.iter().filter(is_beside);
        let is_turned = self.work.jobs.iter().any(|job| matches!(job, Job::Turn(_)));
        let is_topstitched = self.work.garment.row(id).kind == RowKind::Topstitch;
        match is_turned && is_topstitched && beside.any(|one| self.of_seam(one).0 == Phase::BaggingOut) {
            true => (Phase::Turning, Phase::Buttons),
            false => (Phase::Flat, Phase::Flat),
        }
    }

    /// Where a seam of these pieces, and of a band beside them, belongs.
    fn among(&self, hosts: &[&Place], with_band: bool) -> Phase {
        if hosts.iter().any(|place| is_of_slit(self.work, place)) {
            return Phase::Slits;
        }
        let across: Vec<bool> = hosts.iter().filter_map(|place| self.is_across(place)).collect();
        let all = |want: bool| across.iter().all(|&one| one == want);
        match with_band {
            true if !all(false)
                && hosts.iter().all(|place| self.is_at_top(place))
                && hosts.iter().any(|place| self.is_beside_shoulder(place)) =>
            {
                Phase::Collar
            }
            true if all(true) => Phase::Cuffs,
            false if all(true) => Phase::Shoulders,
            false if all(false) => Phase::Sides,
            _ => Phase::Round,
        }
    }

    /// Whether an edge runs across the piece rather than along it, as it is drawn.
    fn is_across(&self, place: &Place) -> Option<bool> {
        let drawn = self.work.finder.drawn(place.part)?.edge_at(place.edge)?;
        let way = drawn.path.end() - drawn.path.start();
        Some(way.x.abs() > way.y.abs())
    }

    /// Whether an edge beside it runs across too, as the shoulder beside a neckline does and the side beside a
    /// waist does not.
    fn is_beside_shoulder(&self, place: &Place) -> bool {
        let Some(drawn) = self.work.finder.drawn(place.part) else { return false };
        let beside = [drawn.before(place.edge), drawn.after(place.edge)];
        beside.into_iter().any(|edge| self.is_across(&Place { edge, ..*place }) == Some(true))
    }

    /// Whether an edge lies in the upper half of its piece, as it is drawn.
    pub(super) fn is_at_top(&self, place: &Place) -> bool {
        self.height(place).is_some_and(|height| height > 0.5)
    }

    /// Whether an edge beside it lies high on the piece too, as necks and armholes do and sides from top to bottom do not.
    pub(super) fn is_beside_high(&self, place: &Place) -> bool {
        let Some(drawn) = self.work.finder.drawn(place.part) else { return false };
        let beside = [drawn.before(place.edge), drawn.after(place.edge)];
        let heights = beside.into_iter().filter_map(|edge| self.height(&Place { edge, ..*place }));
        heights.into_iter().any(|height| height > HIGH)
    }

    /// How high the middle between both ends of an edge lies on its piece, as a share of that.
    fn height(&self, place: &Place) -> Option<f64> {
        let drawn = self.work.finder.drawn(place.part)?;
        let (bounds, edge) = (extents(drawn)?, drawn.edge_at(place.edge)?);
        let middle = edge.path.start().midpoint(edge.path.end()).y;
        Some((middle - bounds.min_y()) / bounds.height())
    }
}

/// Of what lies inside and has no counterpart outside, what is sewn to the outside and to its like alone.
fn hanging(
    work: &Work,
    inner: &IdSet<(LayerId, PieceId)>,
    lining: &IdSet<(LayerId, PieceId)>,
) -> IdSet<(LayerId, PieceId)> {
    let own = |place: &Place| {
        let part = work.finder.part(place.part);
        (part.layer, part.piece)
    };
    let sewn = work.stitchings.iter().flat_map(|one| one.places().map(own));
    let mut hanging: IdSet<(LayerId, PieceId)> =
        sewn.filter(|own| inner.contains(own) && !lining.contains(own)).collect();
    loop {
        let is_held = |one: &&Stitching| {
            one.places().any(|place| {
                let own = own(place);
                inner.contains(&own) && !hanging.contains(&own)
            })
        };
        let held: Vec<(LayerId, PieceId)> =
            work.stitchings.iter().filter(is_held).flat_map(|one| one.places().map(own)).collect();
        let before = hanging.len();
        held.iter().for_each(|own| {
            hanging.remove(own);
        });
        if hanging.len() == before {
            return hanging;
        }
    }
}

/// Seams with a gap through which a belt or the like is turned, where there is more of the garment than that.
fn loose_bands(work: &Work) -> IdSet<SeamId> {
    let gaps = SeamId::enumerate(&work.garment.seams).filter(|(_, seam)| !seam.gaps.is_empty());
    let gaps: Vec<SeamId> = gaps.map(|(id, _)| id).collect();
    if gaps.is_empty() {
        return IdSet::default();
    }
    let mut together = together(work);
    let is_sewn = |part: PartId| !work.garment.layer(work.finder.part(part).layer).fused;
    let parts: Vec<(usize, PartId)> =
        PartId::enumerate(work.finder.parts).map(|(id, _)| (together.root(id.index()), id)).collect();
    let mut is_loose = |gap: SeamId| {
        let stitchings = work.of_seam(gap).iter().filter_map(|&at| work.stitchings.get(at));
        let places = stitchings.flat_map(|stitching| stitching.places());
        let roots: Vec<usize> = places.map(|place| together.root(place.part.index())).collect();
        let is_own = |root: usize| roots.contains(&root);
        parts.iter().all(|&(root, part)| !is_own(root) || is_band(work, part))
            && parts.iter().any(|&(root, part)| !is_own(root) && is_sewn(part))
    };
    gaps.into_iter().filter(|&gap| is_loose(gap)).collect()
}

/// Whether a seam is sewn by hand.
pub(super) fn is_by_hand(work: &Work, stitching: &Stitching) -> bool {
    let stitch = work.garment.seam(stitching.seam).stitch.as_ref();
    stitch.is_some_and(|stitch| BY_HAND.contains(&stitch.number))
}

/// Pieces of which every seam takes one ply alone, on a side that has others: what is finished of them hangs free.
fn taken_in(work: &Work) -> IdSet<PieceId> {
    let (mut hanging, mut sewn) = (IdSet::default(), IdSet::default());
    for side in work.stitchings.iter().flat_map(|one| &one.sides) {
        for ply in side {
            let pieces: IdSet<PieceId> = ply.iter().map(|place| work.finder.part(place.part).piece).collect();
            match side.len() > 1 && pieces.len() == 1 {
                true => hanging.extend(pieces),
                false => sewn.extend(pieces),
            }
        }
    }
    hanging.retain(|piece| !sewn.contains(piece) && work.garment.piece(*piece).folds.is_empty());
    hanging
}

/// Whether an edge is a side of a slit.
fn is_of_slit(work: &Work, place: &Place) -> bool {
    let drawn = work.finder.drawn(place.part).and_then(|drawn| drawn.edge_at(place.edge));
    drawn.is_some_and(|edge| work.garment.edge(work.garment.whole_edge(edge.edge)).side_of.is_some())
}

/// Whether a part is a band: folded, or low and wide.
pub(crate) fn is_band(work: &Work, part: PartId) -> bool {
    let piece = work.finder.part(part).piece;
    if !work.garment.piece(piece).folds.is_empty() {
        return true;
    }
    let bounds = work.finder.drawn(part).and_then(extents);
    bounds.is_some_and(|bounds| bounds.height() < BAND * bounds.width())
}
