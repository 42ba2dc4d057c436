//! A piece that is cut more often than the seams around it take: each of them is too long by the copies beyond, and each says so.

use super::about::{About, Looking};
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Garment, PieceId, SeamId};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};
use crate::sewing::{SewnRun, SewnSeam};

/// What is told of a seam that takes a copy too many.
const OF_SEAM: [&Entry; 2] = [&catalogue::SEAM_UNEQUAL, &catalogue::SEAM_PLIES];
/// What besides comes of it, in these seams and in what they close.
const BESIDES: [&Entry; 7] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_MATCHING,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_TWISTED,
    &catalogue::SEAM_SEGMENT,
    &catalogue::STEP_CIRCLE,
    &catalogue::STEP_EARLY,
];

/// The count is told in place of what it does to each seam.
pub(super) fn instead(
    garment: &Garment,
    sizes: &[WorkedSize],
    mut found: Vec<Diagnostic>,
) -> Vec<Diagnostic> {
    let looking = Looking { garment };
    let seams_of = |one: &Diagnostic| -> Vec<SeamId> {
        let seam = |about: About| match about {
            About::Seam(id) => Some(id),
            About::Closure(_) => None,
        };
        looking.about(one).into_iter().filter_map(seam).collect()
    };
    let mut told: Vec<SeamId> = found.iter().filter(|one| one.is_any(&OF_SEAM)).flat_map(seams_of).collect();
    told.sort_unstable();
    told.dedup();
    let Some(size) = sizes.first().filter(|_| !told.is_empty()) else { return found };
    let pieces = PieceId::enumerate(&garment.pieces).map(|(piece, _)| piece);
    let Some((piece, is, fits)) = pieces
        .filter_map(|piece| {
            let (is, fits) = count_that_fits(garment, size, piece, &told)?;
            Some((piece, is, fits))
        })
        .find(|&(piece, is, fits)| {
            sizes.iter().all(|size| count_fits(garment, size, piece, f64::from(fits) / f64::from(is)))
        })
    else {
        return found;
    };
    let takes = |id: &SeamId| looking.edges(About::Seam(*id)).any(|sewn| sewn.piece == piece);
    let is_with_others = |id: &SeamId| looking.edges(About::Seam(*id)).any(|sewn| sewn.piece != piece);
    let all = SeamId::enumerate(&garment.seams).map(|(id, _)| id);
    let own: Vec<SeamId> = all.filter(takes).filter(is_with_others).collect();
    let beside: Vec<PieceId> =
        own.iter().flat_map(|&id| looking.edges(About::Seam(id))).map(|sewn| sewn.piece).collect();
    found.retain(|one| {
        let is_of = |id: &SeamId| seams_of(one).contains(id);
        let is_beside = |about: About| looking.edges(about).any(|sewn| beside.contains(&sewn.piece));
        let is_it = one.is_any(&OF_SEAM) && own.iter().any(is_of);
        let is_besides = one.is_any(&BESIDES) && seams_of(one).iter().any(takes)
            || one.is(&catalogue::ZIPPER_OPEN_ENDS) && looking.about(one).into_iter().any(is_beside);
        !is_it && !is_besides
    });
    found.push(message(garment, piece, [is, fits], &own));
    found
}

fn message(garment: &Garment, piece: PieceId, [is, fits]: [u32; 2], seams: &[SeamId]) -> Diagnostic {
    let names: Vec<String> = seams.iter().map(|&id| garment.seam(id).words()).collect();
    let verb = if seams.len() == 1 { "takes" } else { "take" };
    let cut = &garment.piece(piece).cut;
    let times = if fits == 1 { "one of it".to_owned() } else { format!("{fits} of it") };
    let title =
        format!("{} is cut {is}, and {} {verb} {times}", words::piece(garment, piece), words::listed(&names));
    let mut mistake = Diagnostic::new(&catalogue::SEAM_UNEQUAL, cut.span, title).label(format!("{is} of it"));
    for &id in seams {
        mistake = mistake.also(garment.seam(id).name_span, "would match");
    }
    mistake.help(format!(
        "cut {fits}; or, if {is} are meant, name it in each of these seams as often as it lies there, or in a place of its own"
    ))
}

/// How often a piece is cut whose told seams all match with fewer of it, and how often that is.
fn count_that_fits(
    garment: &Garment,
    size: &WorkedSize,
    piece: PieceId,
    told: &[SeamId],
) -> Option<(u32, u32)> {
    let papers = &garment.piece(piece).papers;
    let count = papers.iter().find_map(|&paper| size.drawn.paper(paper))?.count;
    let has = |sewn: &&SewnSeam| told.contains(&sewn.seam) && runs(sewn).any(|run| is_of(size, run, piece));
    let own: Vec<&SewnSeam> = size.sewn.seams.iter().filter(has).collect();
    // Where it alone is sewn it is no count that the seam lacks.
    let is_beside = |sewn: &&SewnSeam| runs(sewn).any(|run| !is_of(size, run, piece));
    // Of one seam that is unequal its own message tells more.
    let is_told =
        own.len() > 1 || own.iter().any(|sewn| sewn.first.plies.len().max(sewn.second.plies.len()) > 1);
    if !is_told || !own.iter().all(is_beside) {
        return None;
    }
    // Copies that are sewn to one another are there in pairs.
    let is_paired = garment.seams.iter().any(|seam| {
        let names =
            |side: &[Chain]| side.iter().flat_map(|chain| &chain.edges).any(|sewn| sewn.piece == piece);
        names(&seam.first) && names(&seam.second)
    });
    let fits = (1..count).rev().filter(|fits| !is_paired || fits.is_multiple_of(2)).find(|&fits| {
        let share = f64::from(fits) / f64::from(count);
        own.iter().all(|sewn| matches(garment, size, sewn, piece, share))
    });
    Some((count, fits?))
}

/// Whether all seams that take a piece match with that share of its copies.
fn count_fits(garment: &Garment, size: &WorkedSize, piece: PieceId, share: f64) -> bool {
    let mut own = size.sewn.seams.iter().filter(|sewn| runs(sewn).any(|run| is_of(size, run, piece)));
    own.all(|sewn| matches(garment, size, sewn, piece, share))
}

/// Whether the plies of a seam are as long as one another with that share of the copies of a piece.
fn matches(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, piece: PieceId, share: f64) -> bool {
    let whole = sewn.first.plies.iter().chain(&sewn.second.plies);
    let lengths = whole.map(|ply| {
        let own: f64 = ply.runs.iter().filter(|run| is_of(size, run, piece)).map(|run| run.length).sum();
        ply.length - own * (1.0 - share)
    });
    let lengths: Vec<f64> = lengths.collect();
    let (least, most) =
        (lengths.iter().copied().fold(f64::INFINITY, f64::min), lengths.iter().copied().fold(0.0, f64::max));
    sewn.fit.is_none() && most - least <= garment.tolerance
}

fn runs(sewn: &SewnSeam) -> impl Iterator<Item = &SewnRun> {
    sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs)
}

fn is_of(size: &WorkedSize, run: &SewnRun, piece: PieceId) -> bool {
    size.sewn.part(run.part).part.piece == piece
}
