//! `finish/onto`: an edge that is felled onto a seam of another length.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Finish, FinishKind, Garment, SeamId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::finished;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FINISH_ONTO], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for finish in &garment.finishes {
        let FinishKind::TurnedUnderOnto(seam) = finish.kind else { continue };
        findings.extend(unequal(garment, size, finish, seam));
    }
}

/// Over all copies both must be equally long, or the edge is puckered or does not reach.
fn unequal(garment: &Garment, size: &WorkedSize, finish: &Finish, seam: SeamId) -> Option<Finding> {
    let finder = size.finder(garment);
    let mut edge = 0.0;
    for place in finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn)) {
        let drawn = finder.drawn(place.part)?;
        edge += finished(garment, drawn, place.edge)? * f64::from(finder.times(place.part));
    }
    let own = size.sewn.seams.iter().filter(|sewn| sewn.seam == seam);
    let mut stitched = 0.0;
    for sewn in own {
        if !sewn.known || sewn.unpaired.is_some() {
            return None;
        }
        let long = sewn.second.plies.iter().map(|ply| ply.length).fold(0.0, f64::max);
        stitched += long * f64::from(sewn.sewings);
    }
    let off = (edge - stitched).abs();
    if stitched <= 0.0 || off <= garment.tolerance {
        return None;
    }
    let unit = garment.unit;
    let seam = garment.seam(seam);
    let (is, along) = (amount(edge, unit), amount(stitched, unit));
    let edges: Vec<String> = finish.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    let title = Title::new(format!(
        "{} is {is} long, {} that it is felled onto {along}",
        words::listed(&edges),
        seam.words()
    ));
    let mistake = Diagnostic::new(&catalogue::FINISH_ONTO, finish.kind_span, title.in_sizes())
        .label(match edge > stitched {
            true => format!("{} too long", amount(off, unit)),
            false => format!("{} too short", amount(off, unit)),
        })
        .also(seam.name_span, along.clone())
        .help("make them equally long, or name the seam that runs along all of it");
    Some(
        Finding::new(size.drawn.size, off, mistake)
            .about(&*seam.name)
            .figure("edge", is)
            .figure("seam", along),
    )
}
