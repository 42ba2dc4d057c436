//! `seam/round-part`: what is closed to a ring is sewn to a part of a rim that runs on.

use super::jumps;
use super::runs_on::{RUNS_ON, angle};
use crate::check::seams::crosswise;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, CutHow, EdgeId, FinishKind, Garment, SeamId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::seam_edges;
use crate::sewing::surface::{Gluing, Join, JoinedBy, JoinedPly, PlyAt, StretchId, Surface};
use std::cell::OnceCell;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_ROUND_PART], run: Run::PerSize(run) };

/// Where a seam sews a ring to a row, the ends of the row come together at one place of the ring, and what lies
/// between them becomes a hole. Down a slit or a keyhole that hole is meant: the rim turns into it round a corner.
fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    let mut looking: Option<Looking> = None;
    let mut known: IdSet<SeamId> = IdSet::default();
    let is_same = |one: &Join, other: &Join| match (one.by, other.by) {
        (JoinedBy::Seam { sewn, sewing, .. }, JoinedBy::Seam { sewn: other, sewing: time, .. }) => {
            (sewn, sewing) == (other, time)
        }
        _ => false,
    };
    for cells in surface.joins.chunk_by(is_same) {
        let Some(JoinedBy::Seam { seam, sewn, .. }) = cells.first().map(|cell| cell.by) else { continue };
        let is_plain = |cell: &Join| {
            matches!(cell.plies.as_slice(), [one, other]
                if matches!((one.at, other.at), (PlyAt::First(_), PlyAt::Second(_))))
        };
        if known.contains(&seam) || !cells.iter().all(is_plain) {
            continue;
        }
        let row = |at: usize| Some([cells.first()?, cells.last()?].map(|cell| cell.plies.get(at)));
        let row = |at: usize| {
            let [Some(first), Some(last)] = row(at)? else { return None };
            Some(Row { first: *first, last: *last })
        };
        let (Some(one), Some(other)) = (row(0), row(1)) else { continue };
        let looking = looking.get_or_insert_with(|| Looking::new(garment, size, surface));
        for (ring, row) in [(one, other), (other, one)] {
            if looking.is_ring(ring, sewn)
                && let Some(ends) = looking.runs_on(row, sewn)
                && known.insert(seam)
            {
                // Where pieces are sewn together the wrong way round, the wrong edges run on in one another.
                if !jumps::all(garment, size).is_empty() || crosswise::has_any(garment, size) {
                    return;
                }
                findings.extend(looking.reported(seam, ring, ends));
            }
        }
    }
}

/// The ends of a row of stretches that a seam sews one after the other.
#[derive(Clone, Copy)]
struct Row {
    first: JoinedPly,
    last: JoinedPly,
}

struct Looking<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    surface: &'a Surface,
    gluing: &'a Gluing,
    /// What closures close; asked of few.
    closed: OnceCell<IdSet<StretchId>>,
}

impl<'a> Looking<'a> {
    fn new(garment: &'a Garment, size: &'a WorkedSize, surface: &'a Surface) -> Self {
        Looking { garment, size, surface, gluing: &size.sewn.gluing, closed: OnceCell::new() }
    }

    fn is_closed(&self, stretch: StretchId) -> bool {
        let closed = self.closed.get_or_init(|| {
            let sides = self.surface.closures.iter().flat_map(|line| line.sides.iter().flatten());
            sides.map(|(stretch, _)| *stretch).collect()
        });
        closed.contains(&stretch)
    }

    fn is_of(&self, stretch: StretchId, seam: usize) -> bool {
        let join = self.surface.stretch(stretch).join.map(|join| self.surface.join(join).by);
        matches!(join, Some(JoinedBy::Seam { sewn, .. }) if sewn == seam)
    }

    /// Round the end of a stretch, as if the seam were not sewn: to what the rim leads there.
    fn beyond(&self, stretch: StretchId, at_end: bool, seam: usize) -> (StretchId, bool) {
        self.gluing.turn_cut(self.surface, &|at| self.is_of(at, seam), stretch, at_end)
    }

    /// Whether a row of stretches is closed by other seams: its end is its beginning.
    fn is_ring(&self, Row { first, last }: Row, seam: usize) -> bool {
        self.beyond(last.stretch, !last.against, seam) == (first.stretch, first.against)
    }

    /// Where a row is none and runs straight on at both ends in what is finished: the end of the row and what
    /// follows.
    fn runs_on(&self, Row { first, last }: Row, seam: usize) -> Option<(StretchId, StretchId)> {
        let time = |stretch: StretchId| {
            let join = self.surface.stretch(stretch).join.map(|join| self.surface.join(join).by);
            match join {
                Some(JoinedBy::Seam { sewn, sewing, .. }) if sewn == seam => Some(sewing),
                _ => None,
            }
        };
        let goes_on = |stretch: StretchId, at_end: bool| {
            let (next, _) = self.beyond(stretch, at_end, seam);
            let own = self.surface.stretch(next);
            // A lining that is felled onto the seam hangs in it as well.
            let onto = own.finish.map(|finish| &self.garment.finish(finish).kind);
            let is_felled = matches!(onto, Some(FinishKind::TurnedUnderOnto(Catcher::Seam(onto)))
                if self.size.sewn.seams.get(seam).is_some_and(|sewn| sewn.seam == *onto));
            let is_free = own.join.is_none() && onto.is_some() && !is_felled && !self.is_closed(next);
            // Or what the seam sews another time, to a ring of its own: the next copy of a ring of them.
            let is_next = time(next).is_some_and(|other| time(stretch) != Some(other));
            let is_left = is_free || is_next && self.is_cut_alike(next);
            let corners = self.gluing.corners_cut(self.surface, &|at| self.is_of(at, seam), stretch, at_end);
            let angles =
                corners.iter().map(|&corner| angle(&self.size.drawn, &self.size.sewn, self.surface, corner));
            let sum = angles.sum::<Option<f64>>()?;
            (is_left && (sum - 180.0).abs() <= RUNS_ON && !self.is_slit(next)).then_some(next)
        };
        goes_on(first.stretch, first.against)?;
        Some((last.stretch, goes_on(last.stretch, !last.against)?))
    }

    fn is_cut_alike(&self, stretch: StretchId) -> bool {
        let part = self.size.sewn.part(self.surface.side_of(stretch).part).part;
        self.size.drawn.paper(part.paper).is_some_and(|drawn| drawn.cut == CutHow::Alike)
    }

    fn edge(&self, stretch: StretchId) -> Option<EdgeId> {
        self.size.sewn.edge_of(&self.size.drawn, self.surface, stretch).map(|(_, edge)| edge)
    }

    fn is_slit(&self, stretch: StretchId) -> bool {
        self.edge(stretch).is_some_and(|edge| self.garment.edge(edge).side_of.is_some())
    }

    fn reported(&self, seam: SeamId, ring: Row, (end, next): (StretchId, StretchId)) -> Option<Finding> {
        let garment = self.garment;
        let seam = garment.seam(seam);
        let part = self.surface.face(self.surface.face_of(ring.first.stretch)).part;
        let band = words::piece(garment, self.size.sewn.part(part).part.piece);
        let (end, next) = (self.edge(end)?, self.edge(next)?);
        let (from, to) = (words::edge(garment, end), words::edge(garment, next));
        let named = seam_edges(seam).find(|sewn| garment.is_run_of(end, sewn.edge));
        let at = named.map_or(seam.name_span, |sewn| sewn.span);
        if end == next {
            let title = format!(
                "{band} is closed to a ring, and {} sews it to one copy of {from} alone, which runs on in the next",
                seam.words()
            );
            let help = format!(
                "say that it goes round all copies: … in a ring, and cut {band} once, as long as all of them; or leave it \
                 open where the copies meet"
            );
            let warning = Diagnostic::new(&catalogue::SEAM_ROUND_PART, at, title);
            let warning = warning.label("its ends would be drawn together").help(help);
            return Some(Finding::new(self.size.id(), 0.0, warning).about(&*seam.name));
        }
        let title = format!(
            "{band} is closed to a ring, and {} sews it to a part of a rim: {from} runs on in {to}",
            seam.words()
        );
        let warning = Diagnostic::new(&catalogue::SEAM_ROUND_PART, at, title)
            .label("its ends would be drawn together")
            .also(garment.edge(next).span, "goes on from there")
            .help(format!("take {to} into {} too, or leave {band} open where the seam ends", seam.words()));
        Some(Finding::new(self.size.id(), 0.0, warning).about(&*seam.name))
    }
}
