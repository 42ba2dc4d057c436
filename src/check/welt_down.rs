//! `slit/welt-down`: a welt that is sewn to the upper side of its slit, so that the pocket opens below it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{FaceId, JoinedBy, SideId, StretchId, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::SLIT_WELT_DOWN], run: Run::PerSize(run) };

/// A grain that leads up by more than this is up and down, as its sine.
const UPRIGHT: f64 = 0.9;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.side_of.is_some()) {
        return;
    }
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let looking = Looking { garment, size, surface };
    let mut told: Vec<EdgeId> = Vec::new();
    for side in (0..surface.sides.len()).map(SideId::from_index).filter(|&side| surface.side(side).hole > 0) {
        if let Some((slit, finding)) = looking.down(side)
            && !told.contains(&slit)
        {
            told.push(slit);
            findings.push(finding);
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
}

impl Looking<'_> {
    /// Whether what is sewn to a side of a slit is a welt that hangs from it: folded along its edge, and its ends sewn to
    /// the ends of the slit.
    fn down(&self, side: SideId) -> Option<(EdgeId, Finding)> {
        let (garment, surface) = (self.garment, self.surface);
        let own = surface.side(side);
        let drawn = self.size.drawn.paper(self.size.sewn.part(own.part).part.paper)?;
        let slit = garment.edge(drawn.edge_at(own.edge)?.edge).side_of?;
        let lip = &drawn.edge_at(own.edge)?.path;
        let along = lip.end() - lip.start();
        if drawn.grain.y.abs() < UPRIGHT || along.y.abs() > along.x.abs() {
            return None;
        }
        let height = |side: SideId| {
            let path = &drawn.edge_at(surface.side(side).edge)?.path;
            Some(path.start().midpoint(path.end()).y)
        };
        let others: Vec<SideId> = surface
            .sides_of(own.face)
            .filter(|&other| other != side && surface.side(other).hole == own.hole)
            .filter(|&other| surface.side(other).mirrored == own.mirrored)
            .collect();
        // The welt is as long as the slit; what else goes round it are the short ends.
        let lower = *others
            .iter()
            .max_by(|one, other| surface.side(**one).length.total_cmp(&surface.side(**other).length))?;
        if height(side)? <= height(lower)? || surface.side(lower).length > own.length * 2.0 {
            return None;
        }
        let welt = self.folded_on(side).into_iter().next()?;
        let ends = others.iter().filter(|&&end| end != lower);
        let holds_ends =
            ends.clone().count() > 0 && ends.clone().all(|&end| self.folded_on(end).contains(&welt));
        // With a strip at either side both open in the middle.
        if !holds_ends || !self.folded_on(lower).is_empty() {
            return None;
        }
        let piece = words::piece(garment, self.size.sewn.part(surface.face(welt).part).part.piece);
        let named = garment.edge(slit);
        let upper = garment.edge(drawn.edge_at(own.edge)?.edge);
        let title =
            format!("{piece} hangs from the upper side of {}, so that the pocket opens below it", named.name);
        let sewn = surface.stretches_on(side).find_map(|at| self.seam(at));
        let mut advice = Diagnostic::new(&catalogue::SLIT_WELT_DOWN, named.span, title)
            .label(format!("{} is its upper side", upper.name));
        if let Some(seam) = sewn {
            advice = advice.also(garment.seam(seam).name_span, "the welt is sewn on here");
        }
        let advice = advice.help(
            "exchange its two points, which exchanges near and far; or sew the welt to the other side, and the back of the \
             bag to this one",
        );
        Some((slit, Finding::new(self.size.id(), 0.0, advice).about(&*named.name)))
    }

    fn seam(&self, stretch: StretchId) -> Option<crate::garment::SeamId> {
        match self.surface.join(self.surface.stretch(stretch).join?).by {
            JoinedBy::Seam { seam, .. } => Some(seam),
            JoinedBy::Placing(_) => None,
        }
    }

    /// Folded pieces that are sewn to a side.
    fn folded_on(&self, side: SideId) -> Vec<FaceId> {
        let surface = self.surface;
        let joins = surface.stretches_on(side).filter_map(|at| surface.stretch(at).join);
        let plies = joins.flat_map(|join| &surface.join(join).plies);
        plies
            .map(|ply| surface.face_of(ply.stretch))
            .filter(|&face| face != surface.side(side).face)
            .filter(|&face| {
                let part = self.size.sewn.part(surface.face(face).part).part;
                !self.garment.piece(part.piece).folds.is_empty()
            })
            .collect()
    }
}
