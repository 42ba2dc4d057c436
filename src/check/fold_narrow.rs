//! `fold/narrow`: a band that is folded to less than can be turned.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PieceId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::surface::{FaceId, PlyAt, StretchId, Surface};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FOLD_NARROW], run: Run::PerSize(run) };

/// Less than this, in millimetres, no band is folded over a seam: bindings are sold from 6 mm up (common practice).
const NARROWEST: f64 = 6.0;
/// What is less than this is nothing, in millimetres, and is told as that.
const NOTHING: f64 = 0.1;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = &size.sewn.surface else { return };
    let mut told: IdSet<PieceId> = IdSet::default();
    for face in surface.face_ids().filter(|&face| surface.face(face).flap) {
        let piece = size.sewn.part(surface.face(face).part).part.piece;
        let Some(deep) = deep(surface, face).filter(|deep| (NOTHING..NARROWEST).contains(deep)) else {
            continue;
        };
        let Some(fold) = garment.piece(piece).folds.first() else { continue };
        // What a cord has no room in is told as that.
        let has_cord = garment.cords.iter().flat_map(|cord| &cord.through).any(|sewn| sewn.piece == piece);
        if has_cord || is_piping(surface, face) || is_jet(garment, size, surface, face) || !told.insert(piece)
        {
            continue;
        }
        let (is, least) = (amount(deep, garment.unit), amount(NARROWEST, garment.unit));
        let title =
            Title::new(format!("{} is {is} deep once it is folded", words::piece(garment, piece))).in_sizes();
        let warning = Diagnostic::new(&catalogue::FOLD_NARROW, fold.span, title)
            .label(format!("{is} from the seam to the fold"))
            .also(garment.piece(piece).span, format!("drawn {} high", amount(2.0 * deep, garment.unit)))
            .help(format!(
                "look at its figure and its unit: what is folded is drawn twice as high as it is worn, without its \
                 allowances, and {least} is the least that can be turned"
            ));
        let finding = Finding::new(size.id(), NARROWEST - deep, warning);
        findings.push(finding.about(&*garment.piece(piece).name).figure("deep", is));
    }
}

/// From the seam to the fold, at its deeper end.
fn deep(surface: &Surface, face: FaceId) -> Option<f64> {
    let fold = surface.stretches_of(face).find(|&at| surface.side_of(at).fold)?;
    let mut beside = fold;
    while surface.side_of(beside).fold {
        beside = surface.next(beside);
        if beside == fold {
            return None;
        }
    }
    let mut before = fold;
    while surface.side_of(before).fold {
        before = surface.before(before);
    }
    Some(f64::max(surface.side_of(beside).length, surface.side_of(before).length))
}

/// What lies between two other plies of its seam, as piping does, may be as narrow as a cord.
fn is_piping(surface: &Surface, face: FaceId) -> bool {
    surface.stretches_of(face).any(|stretch| {
        let join = surface.stretch(stretch).join.map(|join| surface.join(join));
        join.is_some_and(|join| {
            let is_first = |at: PlyAt| matches!(at, PlyAt::First(_));
            let own = join.plies.iter().find(|ply| is_own(surface, ply.stretch, face));
            own.is_some_and(|own| {
                let mut beside = join.plies.iter().filter(|ply| is_first(ply.at) == is_first(own.at));
                beside.any(|ply| !is_own(surface, ply.stretch, face))
            })
        })
    })
}

/// What fills the window of a slit has half of its width, which may be as little.
fn is_jet(garment: &Garment, size: &WorkedSize, surface: &Surface, face: FaceId) -> bool {
    surface.stretches_of(face).any(|stretch| {
        let join = surface.stretch(stretch).join.map(|join| surface.join(join));
        join.into_iter().flat_map(|join| &join.plies).any(|ply| {
            let edge = size.sewn.edge_of(&size.drawn, surface, ply.stretch);
            edge.is_some_and(|(_, edge)| garment.edge(edge).side_of.is_some())
        })
    })
}

fn is_own(surface: &Surface, stretch: StretchId, face: FaceId) -> bool {
    surface.face_of(stretch) == face
}
