//! `place/over-dart`, and of slits `place/over-line`: what is stitched down across a dart or a slit.

use super::{clearing, put};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::{DrawnPiece, DrawnSlit, DrawnTakeUp};
use crate::sewing::patches::{Patch, Under, covered, ring};
use crate::shape::outline::extents;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_OVER_DART, &catalogue::PLACE_OVER_LINE], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let has_any = |drawn: &DrawnPiece| !drawn.take_ups.is_empty() || !drawn.uncut().slits.is_empty();
    if size.drawn.placed.is_empty() || !size.drawn.papers.iter().flatten().any(|drawn| has_any(drawn)) {
        return;
    }
    for patch in Patch::all(garment, &size.drawn) {
        for slit in &patch.host.uncut().slits {
            findings.extend(over_slit(garment, size, &patch, slit));
        }
        for take_up in &patch.host.take_ups {
            let under = Under::of(&patch, take_up, garment.tolerance);
            if let Some(under) = under.filter(|under| under.crossed > garment.tolerance) {
                findings.push(over_dart(garment, size, &patch, take_up, &under));
            }
        }
    }
}

fn over_dart(
    garment: &Garment,
    size: &WorkedSize,
    patch: &Patch,
    take_up: &DrawnTakeUp,
    under: &Under,
) -> Finding {
    let unit = garment.unit;
    let own = words::piece(garment, patch.placement.piece);
    let name = &garment.edge(take_up.name).name;
    let by = amount(under.crossed, unit);
    let title = Title::new(format!(
        "{own} is {by} too wide where {name} of {} is sewn",
        words::piece(garment, patch.host.piece)
    ))
    .in_sizes();
    let away = extents(&patch.outline).zip(extents(&under.cloth)).map(|(own, dart)| clearing(own, dart));
    let clear = away.map_or_else(
        || "move it clear of it".to_owned(),
        |(by, way)| format!("move it {} {way}, clear of it", at_least(by, unit)),
    );
    let warning = Diagnostic::new(&catalogue::PLACE_OVER_DART, put(patch), title)
        .label("its stitching goes across")
        .also(take_up.said, format!("takes {by} out of what lies under it"))
        .help(format!(
            "{clear}; or give {own} a {} of its own there, sewn before it is placed",
            take_up.word()
        ));
    Finding::new(size.id(), under.crossed, warning).about(format!("{own} {name}")).figure("too wide by", by)
}

fn over_slit(garment: &Garment, size: &WorkedSize, patch: &Patch, slit: &DrawnSlit) -> Option<Finding> {
    let over = covered(patch, slit);
    if over <= garment.tolerance {
        return None;
    }
    let unit = garment.unit;
    let (placed, host) =
        (words::piece(garment, patch.placement.piece), words::piece(garment, patch.host.piece));
    let name = &garment.edge(slit.name).name;
    let by = amount(over, unit);
    let title = Title::new(format!("{placed} lies across {name} of {host}, where it is cut"))
        .in_sizes()
        .then(format!(": it covers {by} of it"));
    let (away, way) = clearing(extents(&patch.outline)?, extents(&ring(&slit.corners()))?);
    let mistake = Diagnostic::new(&catalogue::PLACE_OVER_LINE, put(patch), title)
        .label("placed over the slit")
        .also(slit.said, "cut here")
        .help(format!("move it {} {way}, clear of it", at_least(away, unit)));
    Some(Finding::new(size.id(), over, mistake).about(format!("{placed} {name}")).figure("covered", by))
}
