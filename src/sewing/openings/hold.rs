//! How far a ring of edges stretches, and what holds it.

use super::model::Holder;
use crate::garment::{FinishKind, Garment, LayerId, Part, PieceId, RowId};
use crate::id_hash::IdMap;
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::amounts::amount_of;
use crate::sewing::give::give;
use crate::sewing::model::{PartId, SewnPart, SewnSeam};
use crate::sewing::surface::{JoinedBy, StretchId, Surface};
use crate::syntax::tree::FitKind;

/// A plain lockstitch, by its number in ISO 4915:1991. It has as much thread as seam (common practice),
/// so that the cloth under it stretches no further than it was sewn.
pub const LOCKSTITCH: u16 = 301;

/// What is sewn together in one place of a ring.
#[derive(Clone, Copy, Debug)]
pub(super) struct Held {
    /// How long it lies: as the shortest ply.
    pub(super) length: f64,
    /// How far it stretches.
    pub(super) stretched: f64,
    /// How far the ring's own cloth alone would stretch.
    pub(super) alone: f64,
    /// What lets it stretch no further; none where the cloth itself does not.
    pub(super) by: Option<Holder>,
}

/// How far cloth stretches, as it is fused.
#[derive(Clone, Copy, Debug)]
struct Own {
    cloth: f64,
    fused: Option<(f64, LayerId)>,
}

impl Own {
    fn times(self) -> f64 {
        1.0 + self.fused.map_or(self.cloth, |(share, _)| share.min(self.cloth))
    }
}

/// Knows what holds what.
pub(super) struct Holding<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    parts: &'a [SewnPart],
    surface: &'a Surface,
    /// The fit of each seam, and whether it is sewn with a lockstitch or taped.
    seams: Vec<(Option<FitKind>, bool)>,
    /// How many times the length of its channel the elastic of each finish stretches to.
    elastic: &'a [Option<f64>],
    fused: IdMap<PieceId, Vec<Part>>,
    /// Edges beside which a row is stitched with a lockstitch.
    rows: IdMap<(PartId, DrawnEdgeId), RowId>,
    known: IdMap<(PartId, DrawnEdgeId), Own>,
}

impl<'a> Holding<'a> {
    pub(super) fn new(
        garment: &'a Garment,
        sized: &'a SizedGarment,
        parts: &'a [SewnPart],
        seams: &[SewnSeam],
        surface: &'a Surface,
        elastic: &'a [Option<f64>],
    ) -> Self {
        let mut fused: IdMap<PieceId, Vec<Part>> = IdMap::default();
        for part in parts.iter().filter(|part| part.fused) {
            fused.entry(part.part.piece).or_default().push(part.part);
        }
        let seams = seams.iter().map(|sewn| {
            let declared = garment.seam(sewn.seam);
            let is_locked = declared.stitch.as_ref().is_some_and(|stitch| stitch.number == LOCKSTITCH);
            (sewn.fit.map(|fit| fit.kind), is_locked || declared.tape.is_some())
        });
        let seams = seams.collect();
        let mut rows = IdMap::default();
        for (id, part) in PartId::enumerate(parts) {
            for row in &part.rows {
                let stitch = garment.row(row.row).stitch.as_ref();
                if stitch.is_some_and(|stitch| stitch.number == LOCKSTITCH) {
                    rows.insert((id, row.edge), row.row);
                }
            }
        }
        let mut known = IdMap::default();
        known.reserve(surface.stretches.len());
        Holding { garment, sized, parts, surface, seams, elastic, fused, rows, known }
    }

    /// How far a stretch goes as it is finished, and as all that it is sewn to lets it.
    pub(super) fn of(&mut self, id: StretchId) -> Held {
        let surface = self.surface;
        let own = self.own(id);
        let mut held = Held {
            length: surface.length(id),
            stretched: surface.length(id) * own.times(),
            alone: surface.length(id) * (1.0 + own.cloth),
            by: None,
        };
        if held.stretched < held.alone {
            held.by = own.fused.map(|(_, layer)| Holder::Fused(layer));
        }
        self.hold_by_finish(id, &mut held);
        let side = surface.side_of(id);
        if let Some(&row) = self.rows.get(&(side.part, side.edge)).filter(|_| held.length < held.stretched) {
            (held.stretched, held.by) = (held.length, Some(Holder::RowStitch(row)));
        }
        let Some(join) = surface.stretch(id).join.map(|join| surface.join(join)) else { return held };
        for ply in join.plies.iter().filter(|ply| ply.stretch != id) {
            let (long, other) = (surface.length(ply.stretch), self.own(ply.stretch));
            held.length = held.length.min(long);
            if long * other.times() < held.stretched {
                held.stretched = long * other.times();
                let part = surface.face(surface.face_of(ply.stretch)).part;
                held.by = match other.fused {
                    Some((_, layer)) if long * (1.0 + other.cloth) >= held.alone => {
                        Some(Holder::Fused(layer))
                    }
                    _ => Some(Holder::Ply(part)),
                };
            }
        }
        if let JoinedBy::Seam { seam, sewn, .. } = join.by
            && let Some(&(fit, true)) = self.seams.get(sewn)
        {
            let is_taped = self.garment.seam(seam).tape.is_some();
            let holder = if is_taped { Holder::SeamTape(seam) } else { Holder::SeamStitch(seam) };
            let lengths = join.plies.iter().map(|ply| surface.length(ply.stretch));
            // What is stretched as it is sewn lies stretched under the stitch.
            let sewn = match fit {
                Some(FitKind::Stretching) => lengths.fold(0.0, f64::max),
                _ => held.length,
            };
            if sewn < held.stretched {
                (held.stretched, held.by) = (sewn, Some(holder));
            }
        }
        held
    }

    fn hold_by_finish(&self, id: StretchId, held: &mut Held) {
        let surface = self.surface;
        let Some(at) = surface.stretch(id).finish else { return };
        let finish = self.garment.finish(at);
        let long = surface.length(id);
        let mut hold = |stretched: f64, by: Holder| {
            if stretched < held.stretched {
                (held.stretched, held.by) = (stretched, Some(by));
            }
        };
        if let Some(share) = self.elastic.get(at.index()).copied().flatten() {
            hold(long * share, Holder::Elastic(at));
        }
        if matches!(finish.kind, FinishKind::Bound(_)) {
            // Bought tape, of which nothing is said: woven (common practice).
            let said = finish.binding_stretch.as_ref();
            let share = said.and_then(|share| amount_of(self.garment, self.sized, share)).unwrap_or(0.0);
            hold(long * (1.0 + share), Holder::Binding(at));
        }
        if matches!(finish.kind, FinishKind::Tape(_)) {
            hold(long, Holder::Tape(at));
        }
        if finish.stitch.as_ref().is_some_and(|stitch| stitch.number == LOCKSTITCH) {
            hold(long, Holder::FinishStitch(at));
        }
    }

    /// How far the cloth of a stretch gives. Cloth of which nothing is said is not counted on.
    fn own(&mut self, id: StretchId) -> Own {
        let side = self.surface.side_of(id);
        let part = side.part;
        if let Some(&known) = self.known.get(&(part, side.edge)) {
            return known;
        }
        let of = |part: &Part, edge| give(self.garment, self.sized, part, edge).share().unwrap_or(0.0);
        let found = self.parts.get(part.index()).map(|sewn| {
            let drawn = self.sized.paper(sewn.part.paper);
            let edge = drawn.and_then(|drawn| drawn.edge_at(side.edge)).map(|edge| edge.edge);
            let fused = self.fused.get(&sewn.part.piece).into_iter().flatten();
            let fused = fused.filter(|fused| self.garment.is_fused_onto(fused.layer, sewn.part.layer));
            let fused = fused.filter_map(|fused| {
                // A layer's own paper of the piece may have other edges before it.
                let drawn = self.sized.paper(fused.paper)?;
                let mut edges = DrawnEdgeId::enumerate(&drawn.edges);
                let (at, _) = edges.find(|(_, own)| Some(own.edge) == edge)?;
                Some((of(fused, at), fused.layer))
            });
            let cloth = of(&sewn.part, side.edge);
            let fused = fused.min_by(|one, other| one.0.total_cmp(&other.0));
            Own { cloth, fused: fused.filter(|(share, _)| *share < cloth) }
        });
        let found = found.unwrap_or(Own { cloth: 0.0, fused: None });
        self.known.insert((part, side.edge), found);
        found
    }
}
