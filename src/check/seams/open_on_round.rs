//! `seam/ends` of a band with two ends that is sewn to what goes all round: nothing opens where its ends are.

use super::runs::corner_of;
use super::sides::{corner, ply_span};
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Closure, EdgeId, Garment, PieceId, Seam, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::{SeamEnd, SewnPly, SewnRun, SewnSeam, seam_edges};

/// A ply, the words of its pieces, and where it begins.
struct Laid {
    ends: (SeamEnd, SeamEnd),
    words: String,
    pieces: Vec<PieceId>,
    is_second: bool,
    at: usize,
    several: bool,
}

/// Of plies of which it is not known how they meet: one that other seams close to a ring beside one whose ends they leave open.
pub(super) fn open_on_round(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<Finding> {
    let seam = garment.seam(sewn.seam);
    let sides = [(&sewn.first.plies, false), (&sewn.second.plies, true)];
    let plies = sides
        .into_iter()
        .flat_map(|(plies, is_second)| plies.iter().enumerate().map(move |(at, ply)| (ply, is_second, at)));
    let all: Vec<Laid> =
        plies.filter_map(|(ply, is_second, at)| laid(garment, size, ply, is_second, at)).collect();
    let shut = |laid: &Laid| {
        let (from, to) = laid.ends;
        let others = size.sewn.seams.iter().filter(|own| own.seam != sewn.seam);
        let meets = |own: &&SewnSeam| own.ends.contains(&(from, to)) || own.ends.contains(&(to, from));
        others.filter(meets).map(|own| own.seam).next()
    };
    let (ring, by) = all.iter().find_map(|laid| Some((laid, shut(laid)?)))?;
    // What begins and ends at one corner goes round by itself.
    let band = all.iter().find(|laid| laid.ends.0 != laid.ends.1 && shut(laid).is_none())?;
    // What nothing closes, as a sleeve that is open below the arm, is laid round by saying which corners meet.
    let closure = beside(garment, by);
    let is_closed = closure.is_some() || garment.closures.iter().any(|one| takes(one, &band.pieces));
    if !is_closed {
        return None;
    }
    let title = format!(
        "{} has two ends, and {} {} all round where {} joins them: nothing opens there",
        band.words,
        ring.words,
        if ring.several { "go" } else { "goes" },
        seam.words()
    );
    let corner = corner(garment, &size.sewn, &ring.ends.0, false);
    let at = corner.unwrap_or_else(|| "its end".to_owned());
    let other = format!("or, if nothing is to open, sew the ends of {} together", band.words);
    let help = match closure {
        Some(closure) => format!(
            "{} opens {} elsewhere: let it begin at {at}, from there on; {other}",
            closure.name,
            garment.seam(by).words()
        ),
        None => format!(
            "open {} from {at} on, with a closure or a slit that is finished; {other}",
            garment.seam(by).words()
        ),
    };
    let mut mistake = Diagnostic::new(&catalogue::SEAM_ENDS, ply_span(seam, band.is_second, band.at), title)
        .label("two ends");
    mistake = mistake
        .also(ply_span(seam, ring.is_second, ring.at), "all round")
        .also(garment.seam(by).name_span, "closes it");
    if let Some(closure) = closure {
        mistake = mistake.also(closure.name_span, "opens elsewhere");
    }
    Some(Finding::new(size.drawn.size, 0.0, mistake.help(help)).about(&*seam.name))
}

fn laid(garment: &Garment, size: &WorkedSize, ply: &SewnPly, is_second: bool, at: usize) -> Option<Laid> {
    if ply.runs.iter().any(|run| run.elsewhere) {
        return None;
    }
    let ends = (corner_of(size, ply.runs.first()?, false)?, corner_of(size, ply.runs.last()?, true)?);
    let piece = |run: &SewnRun| size.sewn.part(run.part).part.piece;
    let mut pieces: Vec<PieceId> = ply.runs.iter().map(piece).collect();
    pieces.dedup();
    let several = pieces.len() > 1;
    let words: Vec<String> = pieces.iter().map(|&piece| words::piece(garment, piece)).collect();
    Some(Laid { ends, words: words::listed(&words), pieces, is_second, at, several })
}

/// Whether a closure takes an edge of one of those pieces.
fn takes(closure: &Closure, pieces: &[PieceId]) -> bool {
    closure.first.edges.iter().chain(&closure.second.edges).any(|sewn| pieces.contains(&sewn.piece))
}

/// The closure that takes a part of the edges that a seam joins.
fn beside(garment: &Garment, by: SeamId) -> Option<&Closure> {
    let seam: &Seam = garment.seam(by);
    let edges: Vec<EdgeId> = seam_edges(seam).map(|sewn| garment.whole_edge(sewn.edge)).collect();
    garment.closures.iter().find(|closure| {
        let mut all = closure.first.edges.iter().chain(&closure.second.edges);
        all.any(|sewn| edges.contains(&garment.whole_edge(sewn.edge)))
    })
}
