//! `facing/open`: a facing whose ends lie raw side by side, where the pieces that it faces are sewn to one another.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, FinishKind, Garment, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::surface::{Gluing, Join, JoinedBy, JoinedPly, PlyAt, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::FACING_OPEN], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    // Most garments leave nothing raw.
    if !garment.finishes.iter().any(|finish| matches!(finish.kind, FinishKind::Raw)) {
        return;
    }
    let looking = Looking { garment, size, surface, gluing: &size.sewn.gluing };
    let mut told: IdSet<(SeamId, EdgeId)> = IdSet::default();
    for join in &surface.joins {
        let JoinedBy::Seam { seam, sewn, .. } = join.by else { continue };
        let [one, other] = join.plies.as_slice() else { continue };
        if !matches!((one.at, other.at), (PlyAt::First(_), PlyAt::Second(_))) {
            continue;
        }
        for (facing, faced) in [(one, other), (other, one)] {
            for at_end in [false, true] {
                let Some(ends) = looking.raw_ends(sewn, facing, faced, at_end) else { continue };
                let [own, next] = ends.map(|stretch| looking.edge(stretch));
                let (Some(own), Some(next)) = (own, next) else { continue };
                if told.insert((seam, own)) && told.insert((seam, next)) {
                    findings.push(looking.reported(seam, [own, next], faced));
                }
            }
        }
    }
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    gluing: &'a Gluing,
}

impl Looking<'_> {
    fn beyond(&self, (stretch, at_end): (StretchId, bool)) -> (StretchId, bool) {
        match at_end {
            true => (self.surface.next(stretch), false),
            false => (self.surface.before(stretch), true),
        }
    }

    fn join(&self, stretch: StretchId) -> Option<&Join> {
        self.surface.stretch(stretch).join.map(|join| self.surface.join(join))
    }

    /// The raw ends of two pieces of a facing that lie beside one another at that end of a ply, where the pieces on the seam's
    /// other side are sewn together.
    fn raw_ends(
        &self,
        sewn: usize,
        facing: &JoinedPly,
        faced: &JoinedPly,
        at_end: bool,
    ) -> Option<[StretchId; 2]> {
        let end = |ply: &JoinedPly| (ply.stretch, at_end != ply.against);
        let own = self.beyond(end(facing)).0;
        if !self.is_raw(own) {
            return None;
        }
        let (side, side_end) = self.beyond(end(faced));
        let partner = self.gluing.partner(side)?;
        let (next, _) = self.beyond((partner.stretch, side_end == partner.same_way));
        let other_end = self.beyond((partner.stretch, side_end == partner.same_way)).1;
        let after = self.join(next)?;
        let is_of_seam = |join: &Join| matches!(join.by, JoinedBy::Seam { sewn: other, .. } if other == sewn);
        let [one, other] = after.plies.as_slice() else { return None };
        let ply = if one.stretch == next { other } else { one };
        let along = if one.stretch == next { one } else { other };
        if !is_of_seam(after) || self.surface.face_of(next) == self.surface.face_of(faced.stretch) {
            return None;
        }
        // Where that piece's edge begins, so does the one of the facing that lies on it.
        let there = other_end != (along.against != ply.against);
        let beside = self.beyond((ply.stretch, there)).0;
        let is_other = self.surface.face_of(beside) != self.surface.face_of(own);
        (is_other && self.is_raw(beside)).then_some([own, beside])
    }

    /// Free, in cloth that frays, and left as it is cut.
    fn is_raw(&self, stretch: StretchId) -> bool {
        let own = self.surface.stretch(stretch);
        let is_raw =
            own.finish.is_some_and(|finish| matches!(self.garment.finish(finish).kind, FinishKind::Raw));
        own.join.is_none() && is_raw
    }

    fn edge(&self, stretch: StretchId) -> Option<EdgeId> {
        self.size.sewn.edge_of(&self.size.drawn, self.surface, stretch).map(|(_, edge)| edge)
    }

    fn reported(&self, seam: SeamId, [own, next]: [EdgeId; 2], faced: &JoinedPly) -> Finding {
        let garment = self.garment;
        let (one, other) = (words::edge(garment, own), words::edge(garment, next));
        let part = self.surface.face(self.surface.face_of(faced.stretch)).part;
        let host = words::piece(garment, self.size.sewn.part(part).part.piece);
        let seam = garment.seam(seam);
        let title = format!(
            "{one} and {other} lie raw beside one another, where what {} sews them to is joined",
            seam.words()
        );
        let finish = |edge: EdgeId| {
            let all = garment.finishes.iter().flat_map(|finish| &finish.edges);
            all.filter(|sewn| garment.is_run_of(edge, sewn.edge)).map(|sewn| sewn.span).next()
        };
        let at = finish(own).unwrap_or(seam.name_span);
        let mut warning = Diagnostic::new(&catalogue::FACING_OPEN, at, title).label("left raw");
        if let Some(span) = finish(next).filter(|span| *span != at) {
            warning = warning.also(span, "left raw");
        }
        let name = |edge: EdgeId| {
            format!("{}.{}", garment.piece(garment.edge(edge).piece).name, garment.edge(edge).name)
        };
        let warning = warning.also(seam.name_span, format!("sewn to {host} here")).help(format!(
            "sew them together as the pieces below are: seam … {} to {}; or finish both edges",
            name(own),
            name(next)
        ));
        Finding::new(self.size.id(), 0.0, warning).about(format!("{} {one}", seam.name))
    }
}
