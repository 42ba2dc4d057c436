//! `place/over-buttons`: a pocket over the buttons or buttonholes of what it is placed on.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureId, ClosureKind, Garment, PieceId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::sewing::lay_fasteners;
use crate::shape::outline::Region;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_OVER_BUTTONS], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, finder) = (&size.drawn, size.finder(garment));
    for (id, closure) in ClosureId::enumerate(&garment.closures) {
        let Some(ClosureKind::Fasteners(said)) = &closure.kind else { continue };
        let (one, many) = (said.kind.one(), said.kind.many());
        let Ok(row) = lay_fasteners(garment, sized, &finder, id) else { continue };
        let carries = |piece: PieceId| {
            closure.first.edges.iter().chain(&closure.second.edges).any(|sewn| sewn.piece == piece)
        };
        for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
            // A band or a flap with buttons or buttonholes of its own is meant to lie there.
            let Some(placed) = placed.as_ref().filter(|_| !placement.poisoned && !carries(placement.piece))
            else {
                continue;
            };
            let ring: Vec<Path> = placed.edges.iter().map(|(_, path)| path.clone()).collect();
            let region = Region::of(&ring);
            let covered = row
                .places
                .iter()
                .filter(|(part, at)| size.sewn.part(*part).part.paper == placed.on && region.contains(*at));
            let covered = covered.count();
            if covered == 0 {
                continue;
            }
            let name = words::piece(garment, placement.piece);
            let what = if covered == 1 { format!("a {one}") } else { format!("{covered} of the {many}") };
            let title = Title::new(format!("{name} lies over {what} of {}", closure.name)).in_sizes();
            let corner = placement.corners.first().map_or(placement.span, |corner| corner.span);
            let advice = Diagnostic::new(&catalogue::PLACE_OVER_BUTTONS, corner, title)
                .label("placed here")
                .also(closure.first.span, format!("the line of the {many}"))
                .help(format!("move it clear of the line; or, if {name} itself is buttoned, name its own line in the closure"));
            findings.push(
                Finding::new(sized.size, covered as f64, advice).about(format!("{name} {}", closure.name)),
            );
        }
    }
}
