//! `place/shut` of what says that it is a patch, `topstitch all round`, and is a pocket: by its name, or since a flap is
//! fastened on it.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Closure, EdgeId, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::patches::Patch;
use crate::shape::outline::Region;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_SHUT], run: Run::PerSize(run) };

/// What a pocket is called. A pocket flap, a pocket stay are none: the last word counts.
const POCKET: [&str; 2] = ["pocket", "pockets"];
/// What says of itself that nothing goes in.
const PATCH: [&str; 5] = ["patch", "badge", "stay", "label", "reinforcement"];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.placements.iter().all(|placement| placement.all_round.is_none()) {
        return;
    }
    let patches = Patch::all(garment, &size.drawn);
    for patch in patches.iter().filter(|patch| patch.placement.all_round.is_some()) {
        // What is folded has its fold for a mouth, and a slit in either is one.
        if !garment.piece(patch.placement.piece).folds.is_empty() || has_slit(garment, patch) {
            continue;
        }
        let flap = fastened_on(garment, &patches, patch);
        if flap.is_some() || is_called_pocket(garment, patch.placement.piece) {
            findings.push(reported(garment, size, patch, flap));
        }
    }
}

/// What people read decides, where it says that it is none.
pub(super) fn is_called_pocket(garment: &Garment, piece: PieceId) -> bool {
    let known = garment.piece(piece);
    let words = |name: &str| -> Vec<String> {
        let all = name.split(|letter: char| !letter.is_alphabetic()).filter(|word| !word.is_empty());
        all.map(str::to_lowercase).collect()
    };
    let is_among = |word: Option<&String>, of: &[&str]| word.is_some_and(|word| of.contains(&&**word));
    let title = words(&known.title);
    let is_patch = title.iter().any(|word| is_among(Some(word), &PATCH));
    !is_patch && [words(&known.name), title].iter().any(|words| is_among(words.last(), &POCKET))
}

/// Whether a slit opens the patch itself, or what it lies on behind it.
fn has_slit(garment: &Garment, patch: &Patch) -> bool {
    let is_slit = |edge: EdgeId| garment.edge(edge).side_of.is_some();
    if patch.own.edges.iter().any(|own| is_slit(own.edge)) {
        return true;
    }
    let outline: Vec<Path> = patch.outline.clone();
    let region = Region::of(&outline);
    let slits = patch.host.edges.iter().filter(|own| is_slit(own.edge));
    slits.map(|own| own.path.point_at_length(0.5 * own.path.length())).any(|at| region.contains(at))
}

/// What hangs beside the patch on the same piece, and a closure fastens on the patch.
fn fastened_on<'p>(garment: &'p Garment, patches: &[Patch], patch: &Patch) -> Option<&'p Closure> {
    let own = patch.placement.piece;
    let hangs = |piece: PieceId| {
        let mut others = patches.iter().filter(|other| other.placement.piece == piece);
        piece != own && others.any(|other| other.hangs() && other.lies_beside(patch))
    };
    let pieces = |of: &Closure| {
        let edges = of.first.edges.iter().chain(&of.second.edges);
        edges.map(|sewn| sewn.piece).collect::<Vec<PieceId>>()
    };
    garment.closures.iter().filter(|closure| closure.kind.is_some()).find(|closure| {
        let pieces = pieces(closure);
        pieces.contains(&own) && pieces.iter().any(|&piece| hangs(piece))
    })
}

fn reported(garment: &Garment, size: &WorkedSize, patch: &Patch, flap: Option<&Closure>) -> Finding {
    let placement = patch.placement;
    let (own, on) = (words::piece(garment, placement.piece), words::piece(garment, placement.on));
    let title = Title::new(format!("{own} is sewn shut on {on}: none of its edges is left open")).in_sizes();
    let span = placement.all_round.unwrap_or(placement.span);
    let mut warning = Diagnostic::new(&catalogue::PLACE_SHUT, span, title).label("sewn down all round");
    if let Some(closure) = flap {
        warning = warning.also(closure.name_span, "fastens what hangs over it");
    }
    let warning = warning.help(
        "name the edges that are sewn down instead, topstitch left, bottom, right, and hem or bind the one by which a hand \
         goes in; if it is a patch, let its name say that",
    );
    Finding::new(size.id(), 0.0, warning).about(&*garment.piece(placement.piece).name)
}
