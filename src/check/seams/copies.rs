//! Sides of a seam that would fit if a piece were cut more often: one sleeve for two armholes.

use super::sides::length;
use crate::garment::{CutHow, Garment, PieceId};
use crate::report::Label;
use crate::resolve::SizedGarment;
use crate::sewing::{Sewing, SewnSeam, SewnSide};
use crate::syntax::tree::FitKind;

/// A piece is looked for up to so many times.
const MOST_TIMES: u32 = 4;

/// A piece that is cut too seldom.
pub(super) struct TooFew {
    /// The way out, before any other.
    pub help: String,
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
    let fits = |first: f64, second: f64| match sewn.fit {
        None => (first - second).abs() <= garment.tolerance,
        Some(fit) => {
            let is = match fit.kind {
                FitKind::Easing => first - second,
                FitKind::Gathering | FitKind::Stretching => first / second,
            };
            (fit.low..=fit.high).contains(&is)
        }
    };
    let times = f64::from;
    let side = |times_as_many: u32| -> Option<&SewnSide> {
        if fits(first * times(times_as_many), second) {
            Some(&sewn.first)
        } else {
            fits(first, second * times(times_as_many)).then_some(&sewn.second)
        }
    };
    let (more, side) = (2..=MOST_TIMES).find_map(|more| Some((more, side(more)?)))?;
    let piece = the_piece(sewing, side)?;
    let (name, cut) = (&garment.piece(piece).name, &garment.piece(piece).cut);
    let paper = garment.piece(piece).papers.iter().find_map(|&paper| sized.paper(paper))?;
    let count = paper.count.checked_mul(more)?;
    let (how, is_even) = (paper.cut, count.is_multiple_of(2));
    let written = match how {
        CutHow::OnFold(_) => format!("cut {count} on fold …"),
        CutHow::Mirrored | CutHow::Alike if is_even => format!("cut {count} mirrored"),
        CutHow::Mirrored | CutHow::Alike => format!("cut {count}"),
    };
    let of = if more == 2 { "twice".to_owned() } else { format!("{more} times") };
    Some(TooFew {
        help: format!("with {of} as many of {name} it fits: {written} in piece {name}"),
        cut: Label { span: cut.span, text: format!("{} of it", paper.count) },
    })
}

/// The one piece that a side is made of.
fn the_piece(sewing: &Sewing, side: &SewnSide) -> Option<PieceId> {
    let mut pieces = side.plies.iter().flat_map(|ply| &ply.runs).map(|run| sewing.part(run.part).part.piece);
    let first = pieces.next()?;
    pieces.all(|piece| piece == first).then_some(first)
}
