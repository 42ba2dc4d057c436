//! `seam/ring` of copies cut alike that are meant to be sewn to one another: a seam that does not say so closes each of
//! them by itself, and what goes on from the one to the other has nothing to go on to.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PieceId, Seam};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::surface::{FaceId, JoinedBy, SideId, Surface, Union};

/// A seam that sews each copy of a piece to itself.
pub(super) struct EachByItself {
    sewn: usize,
    piece: PieceId,
    copies: u32,
    /// The side that goes on in itself then.
    pub(super) round: SideId,
}

/// What the sides of a piece are sewn to, if that is there in several copies which are cut alike, of which each is closed to
/// a ring by itself, and which hang together by that piece alone.
pub(super) fn each_by_itself(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    sides: &[SideId],
) -> Option<EachByItself> {
    let own = surface.face(surface.side(*sides.first()?).face).part;
    let is_own = |face: FaceId| surface.face(face).part == own;
    let joins = sides.iter().flat_map(|&side| surface.stretches_on(side));
    let joins = joins.filter_map(|stretch| Some(surface.join(surface.stretch(stretch).join?)));
    let plies = joins.flat_map(|join| join.plies.iter().map(|ply| surface.stretch(ply.stretch).side));
    let mut hosts: Vec<SideId> = plies.filter(|&side| !is_own(surface.side(side).face)).collect();
    hosts.sort_unstable_by_key(|side| side.index());
    hosts.dedup();
    let mut together: Option<Union> = None;
    hosts.into_iter().find_map(|round| {
        let host = surface.side(round).face;
        let part = size.sewn.part(surface.face(host).part).part;
        let drawn = size.drawn.paper(part.paper)?;
        if drawn.cut != CutHow::Alike || drawn.count < 2 {
            return None;
        }
        let sewn = sewn_to_itself(surface, host)?;
        let seam = garment.seam(size.sewn.seams.get(sewn)?.seam);
        if seam.ring().is_some() || seam.across_fold {
            return None;
        }
        let together = together.get_or_insert_with(|| without(surface, &is_own));
        let root = together.root(host.index());
        let is_copy = |face: &FaceId| *face != host && surface.face(*face).part == surface.face(host).part;
        let apart = surface.face_ids().filter(is_copy).all(|face| together.root(face.index()) != root);
        apart.then_some(EachByItself { sewn, piece: part.piece, copies: drawn.count, round })
    })
}

/// Which faces hang together where some are left out.
fn without(surface: &Surface, is_left_out: &dyn Fn(FaceId) -> bool) -> Union {
    let mut together = Union::new(surface.faces.len());
    for join in &surface.joins {
        let faces = join.plies.iter().map(|ply| surface.face_of(ply.stretch));
        let mut faces = faces.filter(|&face| !is_left_out(face));
        let Some(first) = faces.next() else { continue };
        for face in faces {
            together.join(first.index(), face.index());
        }
    }
    together
}

/// The seam that joins two sides of one face.
fn sewn_to_itself(surface: &Surface, face: FaceId) -> Option<usize> {
    surface.stretches_of(face).find_map(|stretch| {
        let join = surface.join(surface.stretch(stretch).join?);
        let (JoinedBy::Seam { sewn, .. }, [one, other]) = (join.by, join.plies.as_slice()) else {
            return None;
        };
        let (side, other) = (surface.stretch(one.stretch).side, surface.stretch(other.stretch).side);
        let are_two = surface.side(side).face == surface.side(other).face && side != other;
        are_two.then_some(sewn)
    })
}

impl EachByItself {
    /// `across` sews left to right what is sewn to it; `otherwise` closes each of that to a ring.
    pub(super) fn reported(
        &self,
        garment: &Garment,
        size: &WorkedSize,
        across: &Seam,
        [round, otherwise]: [&str; 2],
    ) -> Option<Finding> {
        let seam = garment.seam(size.sewn.seams.get(self.sewn)?.seam);
        let (piece, copies) = (garment.piece(self.piece), self.copies);
        let title = format!(
            "{} closes each copy of {} to a ring by itself, but {} goes on from one copy to another",
            seam.words(),
            words::piece(garment, self.piece),
            across.words()
        );
        let mistake = Diagnostic::new(&catalogue::SEAM_RING, seam.name_span, Title::new(title).in_sizes())
            .label("sews each copy to itself")
            .also(piece.cut.span, "copies cut alike")
            .also(across.name_span, "joins what is sewn to the one to what is sewn to another")
            .help(format!(
                "if the {copies} of {} are sewn to one another, write in a ring at the end of seam {}, and {round} in a ring \
                 where something goes round them; if each is closed by itself, sew {otherwise} in seam {}",
                piece.name, seam.name, across.name
            ));
        Some(Finding::new(size.drawn.size, 0.0, mistake).about(seam.name.to_string()))
    }
}
