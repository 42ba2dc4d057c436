//! `band/underlap`: an underlap so long that a slip of the figure or its unit is more likely.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BAND_UNDERLAP], run: Run::PerSize(run) };

/// Hooks, a button or a buckle need 3 to 5 cm below them (common practice: 1 to 2 in); more than 4 in, in millimetres,
/// is no underlap.
const LONG: f64 = 102.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for sewn in &size.sewn.seams {
        let seam = garment.seam(sewn.seam);
        let Some(edge) = seam.first.first().and_then(|chain| chain.edges.first()) else { continue };
        // The words that name a band are those of its piece and of the seam that sews it on.
        let piece = garment.piece(edge.piece);
        if piece.span != seam.name_span || piece.name != seam.name {
            continue;
        }
        let own = garment.paper_of(edge.layer, edge.piece).and_then(|paper| size.drawn.paper(paper));
        // A rectangle, of whose lower edge the seam takes a run.
        let (Some(own), Some(ply)) = (own, sewn.first.plies.first()) else { continue };
        let paths: Vec<Path> = own.edges.iter().map(|edge| edge.path.clone()).collect();
        let Some(bounds) = extents(&paths) else { continue };
        let beyond = bounds.width() - ply.length;
        if beyond <= LONG {
            continue;
        }
        let is = amount(beyond, garment.unit);
        let name = &seam.name;
        let title = Title::new(format!("the underlap of {name} is {is} long")).in_sizes();
        let warning = Diagnostic::new(&catalogue::BAND_UNDERLAP, seam.name_span, title)
            .label("longer than anything that closes on it needs")
            .help("look at its figure and its unit: 3 to 5 cm are usual; what hangs beyond a band is a tie");
        findings.push(Finding::new(size.id(), beyond, warning).about(&**name).figure("underlap", is));
    }
}
