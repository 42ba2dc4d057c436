//! `band/underlap`: an underlap so long, or so short, that a slip of the figure or its unit is more likely.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{AlterationId, AlterationKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::shape::outline::extents;
use crate::shape::path::Path;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::BAND_UNDERLAP], run: Run::PerSize(run) };

/// Hooks, a button or a buckle need 3 to 5 cm below them (common practice: 1 to 2 in); more than 4 in, in millimetres,
/// is no underlap.
const LONG: f64 = 102.0;

/// Less than this, in millimetres, laps over nothing: a hook and its bar take 2 cm, and a vent opens as wide as that with
/// every step (common practice: 3 to 5 cm).
const SHORT: f64 = 10.0;
/// What is less than this is nothing, in millimetres.
const NOTHING: f64 = 0.1;

fn is_short(length: f64) -> bool {
    (NOTHING..SHORT - NOTHING).contains(&length)
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let steps = AlterationId::enumerate(&garment.alterations);
    findings.extend(steps.filter_map(|(id, _)| short_step(garment, size, id)));
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
        let (label, usual) = match beyond {
            long if long > LONG => (
                "longer than anything that closes on it needs",
                "3 to 5 cm are usual; what hangs beyond a band is a tie",
            ),
            short if is_short(short) => ("too short for anything to close on it", "3 to 5 cm are usual"),
            _ => continue,
        };
        let is = amount(beyond, garment.unit);
        let name = &seam.name;
        let title = Title::new(format!("the underlap of {name} is {is} long")).in_sizes();
        let warning = Diagnostic::new(&catalogue::BAND_UNDERLAP, seam.name_span, title)
            .label(label)
            .help(format!("look at its figure and its unit: {usual}"));
        findings.push(Finding::new(size.id(), beyond, warning).about(&**name).figure("underlap", is));
    }
}

/// An edge that steps out by less than laps over anything: a vent, or an underlap that is grown on.
fn short_step(garment: &Garment, size: &WorkedSize, id: AlterationId) -> Option<Finding> {
    let alteration = garment.alteration(id);
    if alteration.steps.is_empty() || alteration.kind != Some(AlterationKind::Extend) {
        return None;
    }
    let wide = size.drawn.amounts.get(id.index()).copied().flatten().filter(|wide| is_short(*wide))?;
    let target = alteration.targets.first()?;
    let edge =
        format!("{}.{}", garment.part_name(target.layer, target.piece), garment.edge(target.edge).name);
    let is = amount(wide, garment.unit);
    let title = Title::new(format!("{edge} steps out by {is}, too little to lap over anything")).in_sizes();
    let warning = Diagnostic::new(&catalogue::BAND_UNDERLAP, alteration.span, title)
        .label("what is stepped is a vent or an underlap")
        .help("look at its figure and its unit: a vent laps by 3 to 5 cm, an underlap by 2 at least");
    Some(Finding::new(size.id(), SHORT - wide, warning).about(edge).figure("underlap", is))
}
