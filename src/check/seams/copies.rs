//! Sides of a seam that would fit if a piece were cut more often: one sleeve for two armholes.

use super::sides::{each, length};
use crate::garment::{CutHow, EdgeId, Garment, PieceId, SeamId};
use crate::report::Label;
use crate::resolve::{DrawnEdge, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{Sewing, SewnPly, SewnRun, SewnSeam, SewnSide};
use crate::syntax::tree::FitKind;

/// A piece is looked for up to so many times.
const MOST_TIMES: u32 = 4;

/// An edge is straight and upright that leaves its way by no more than this, in millimetres.
const STRAIGHT: f64 = 0.5;

/// A piece that is cut too seldom.
pub(super) struct TooFew {
    /// The way out, before any other.
    pub help: String,
    /// How often it is cut: "cut once".
    pub is: String,
    /// Where it says how often it is cut.
    pub cut: Label,
}

/// The piece of the shorter side, if the seam fits once there are two, three or four times as many.
pub(super) fn too_few(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    sewn: &SewnSeam,
) -> Option<TooFew> {
    let (first, second) = (length(&sewn.first), length(&sewn.second));
    // Each copy may be off by as much as one, and has as much eased in.
    let fits = |first: f64, second: f64, times: f64| match sewn.fit {
        None => (first - second).abs() <= times * garment.tolerance,
        Some(fit) => match fit.kind {
            FitKind::Easing => (times * fit.low..=times * fit.high).contains(&(first - second)),
            FitKind::Gathering | FitKind::Stretching => (fit.low..=fit.high).contains(&(first / second)),
        },
    };
    let side = |times_as_many: u32| -> Option<&SewnSide> {
        let times = f64::from(times_as_many);
        if fits(first * times, second, times) {
            Some(&sewn.first)
        } else {
            fits(first, second * times, times).then_some(&sewn.second)
        }
    };
    let (more, side) = (2..=MOST_TIMES).find_map(|more| Some((more, side(more)?)))?;
    let piece = the_piece(sewing, side)?;
    // Twice as many may be wanted of several pieces, a sleeve and its cuff; more is seldom meant where another seam fits.
    if more > 2 && fits_elsewhere(garment, sewing, sewn, piece) {
        return None;
    }
    let (name, cut) = (&garment.piece(piece).name, &garment.piece(piece).cut);
    let paper = garment.piece(piece).papers.iter().find_map(|&paper| sized.paper(paper))?;
    let count = paper.count.checked_mul(more)?;
    let seam = garment.seam(sewn.seam);
    let mut rings = seam.first.iter().chain(&seam.second).filter(|chain| chain.ring);
    let is_in_ring = rings.any(|chain| chain.edges.iter().any(|edge| edge.piece == piece));
    let is_mirrored = count.is_multiple_of(2) && !is_in_ring;
    let written = match paper.cut {
        CutHow::OnFold(edge) => format!("cut {count} on fold {}", garment.edge(edge).name),
        CutHow::Mirrored | CutHow::Alike if is_mirrored => format!("cut {count} mirrored"),
        CutHow::Mirrored | CutHow::Alike => format!("cut {count}"),
    };
    let of = if more == 2 { "twice".to_owned() } else { format!("{more} times") };
    let is = match paper.count {
        1 => "cut once".to_owned(),
        2 => "cut twice".to_owned(),
        count => format!("cut {count} times"),
    };
    let more_of_it = format!("with {of} as many of {name} it fits: {written} in piece {name}");
    let fold = fold_left_out(sewing, paper, piece).filter(|_| more == 2 && paper.count == 1);
    let help = match fold {
        Some(fold) => format!(
            "{name} may be a half, for nothing is sewn to its {0}: cut 1 on fold {0} in piece {name}; or {more_of_it}",
            garment.edge(fold).name
        ),
        None => more_of_it,
    };
    Some(TooFew { is, help, cut: Label { span: cut.span, text: format!("{} of it", paper.count) } })
}

/// Whether another seam sews that piece, as often as it is cut, to another one that is as long.
fn fits_elsewhere(garment: &Garment, sewing: &Sewing, unequal: &SewnSeam, piece: PieceId) -> bool {
    let is_own = |run: &SewnRun| sewing.part(run.part).part.piece == piece;
    let mut others = sewing.seams.iter().filter(|sewn| sewn.seam != unequal.seam && sewn.fit.is_none());
    others.any(|sewn| {
        let runs = |side: &SewnSide| side.plies.iter().flat_map(|ply| &ply.runs).any(is_own);
        let is_known = sewn.known && sewn.unpaired.is_none() && sewn.unmet.is_none();
        let (on_first, on_second) = (runs(&sewn.first), runs(&sewn.second));
        let is_as_long = (length(&sewn.first) - length(&sewn.second)).abs() <= garment.tolerance;
        is_known && on_first != on_second && is_as_long
    })
}

/// The one straight upright edge of a piece that nothing takes, as the fold of a half is when the fold is left out.
fn fold_left_out(sewing: &Sewing, paper: &DrawnPiece, piece: PieceId) -> Option<EdgeId> {
    let part = sewing.parts.iter().find(|part| part.part.piece == piece && !part.fused)?;
    let is_free = |at: DrawnEdgeId| part.fate(at).is_some_and(|fate| fate.takers.is_empty());
    let is_upright = |edge: &DrawnEdge| {
        let (path, way) = (&edge.path, edge.path.end() - edge.path.start());
        path.length() - way.hypot() <= STRAIGHT && way.x.abs() <= STRAIGHT
    };
    let mut free = DrawnEdgeId::enumerate(&paper.edges).filter(|(at, _)| is_free(*at));
    let (_, only) = free.next()?;
    (free.next().is_none() && is_upright(only) && paper.cut == CutHow::Alike).then_some(only.edge)
}

/// The one piece that a side is made of.
fn the_piece(sewing: &Sewing, side: &SewnSide) -> Option<PieceId> {
    let mut pieces = side.plies.iter().flat_map(|ply| &ply.runs).map(|run| sewing.part(run.part).part.piece);
    let first = pieces.next()?;
    pieces.all(|piece| piece == first).then_some(first)
}

/// A piece that is cut too seldom, how many times as many there should be, and the seam that is told of it
/// where no pairing is.
struct Seldom {
    piece: PieceId,
    times: f64,
    told_by: Option<SeamId>,
}

/// What is wrong only because some piece is cut too seldom, which is told once.
pub(in crate::check) struct TooSeldom<'a> {
    garment: &'a Garment,
    sewing: &'a Sewing,
    all: Vec<Seldom>,
}

impl<'a> TooSeldom<'a> {
    /// Of one size.
    pub(in crate::check) fn new(garment: &'a Garment, sized: &SizedGarment, sewing: &'a Sewing) -> Self {
        let mut all: Vec<Seldom> = Vec::new();
        let unpaired = sewing.seams.iter().filter_map(|sewn| sewn.unpaired.as_ref());
        for unpaired in unpaired.filter(|one| one.few_span == one.many_span && one.few > 0) {
            let piece = sewing.part(unpaired.fewer).part.piece;
            all.push(Seldom {
                piece,
                times: f64::from(unpaired.many) / f64::from(unpaired.few),
                told_by: None,
            });
        }
        for (_, sewn) in each(garment, sewing).filter(|(_, sewn)| sewn.fit.is_none()) {
            let (first, second) = (length(&sewn.first), length(&sewn.second));
            if (first - second).abs() <= garment.tolerance || too_few(garment, sized, sewing, sewn).is_none()
            {
                continue;
            }
            let (short, times) =
                if first < second { (&sewn.first, second / first) } else { (&sewn.second, first / second) };
            if let Some(piece) = the_piece(sewing, short)
                && !all.iter().any(|seldom| seldom.piece == piece)
            {
                all.push(Seldom { piece, times: times.round(), told_by: Some(sewn.seam) });
            }
        }
        TooSeldom { garment, sewing, all }
    }

    /// Whether a seam would fit if that were mended, and something else tells of it.
    pub(in crate::check) fn explains(&self, sewn: &SewnSeam) -> bool {
        let all = || self.all.iter().filter(|seldom| seldom.told_by != Some(sewn.seam));
        let long = |ply: &SewnPly, seldom: &Seldom| -> f64 {
            let is_own = |run: &&SewnRun| self.sewing.part(run.part).part.piece == seldom.piece;
            let own: f64 = ply.runs.iter().filter(is_own).map(|run| run.length).sum();
            ply.length + own * (seldom.times - 1.0)
        };
        all().any(|seldom| {
            let plies = || sewn.first.plies.iter().chain(&sewn.second.plies).map(|ply| long(ply, seldom));
            let (least, most) = (plies().fold(f64::INFINITY, f64::min), plies().fold(0.0, f64::max));
            self.takes(sewn, seldom) && most - least <= self.garment.tolerance
        })
    }

    /// Whether a seam takes a piece that is cut too seldom: it is not to be told then how it lies.
    pub(in crate::check) fn is_in(&self, sewn: &SewnSeam) -> bool {
        self.all.iter().any(|seldom| self.takes(sewn, seldom))
    }

    fn takes(&self, sewn: &SewnSeam, seldom: &Seldom) -> bool {
        let mut runs = sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs);
        runs.any(|run| self.sewing.part(run.part).part.piece == seldom.piece)
    }
}
