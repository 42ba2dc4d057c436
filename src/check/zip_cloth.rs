//! `zipper/eased` and `zipper/much-eased`: what was kept back from the teeth of a zip is told where it is eased.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::Garment;
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{SewnPart, TakenBy};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::ZIPPER_EASED, &catalogue::ZIPPER_MUCH_EASED], run: Run::PerSize(run) };

/// More of an edge than this does not lie smooth when it is eased in: about a tenth, common practice.
const MOST: f64 = 0.1;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { continue };
        if !drawn.kept_back.is_empty() {
            of_part(garment, size, part, drawn, findings);
        }
    }
}

fn of_part(
    garment: &Garment,
    size: &WorkedSize,
    part: &SewnPart,
    drawn: &DrawnPiece,
    findings: &mut Vec<Finding>,
) {
    let layer = &garment.layer(part.part.layer).name;
    let piece = words::piece(garment, part.part.piece);
    for kept in &drawn.kept_back {
        let alteration = garment.alteration(kept.by);
        let Some(closure) = alteration.closure.map(|closure| garment.closure(closure)) else { continue };
        let own = drawn.edges.iter().zip(&part.edges);
        let own: Vec<_> = own.filter(|(edge, _)| garment.is_run_of(edge.edge, kept.edge)).collect();
        let takers = own.iter().flat_map(|(_, fate)| &fate.takers);
        let mut seams: Vec<String> = Vec::new();
        for taker in takers {
            if let TakenBy::Seam(seam, _) = taker.what
                && !seams.contains(&garment.seam(seam).name.to_string())
            {
                seams.push(garment.seam(seam).name.to_string());
            }
        }
        if seams.is_empty() {
            continue;
        }
        let long: f64 = own.iter().map(|(edge, _)| edge.path.length()).sum();
        let (lost, is) = (amount(kept.lost, garment.unit), amount(long, garment.unit));
        let edge = &garment.edge(kept.edge).name;
        let title = Title::new(format!(
            "{piece} in {layer} is kept back from the teeth of {}, and loses {lost} of its {edge}",
            closure.name
        ))
        .in_sizes();
        let seam = words::listed(&seams);
        let many = seams.len() > 1;
        let too_much = kept.lost > MOST * long;
        let kind = if too_much { &catalogue::ZIPPER_MUCH_EASED } else { &catalogue::ZIPPER_EASED };
        let most = at_most(MOST * long, garment.unit);
        let help = match too_much {
            true => format!(
                "about {most} is what {edge} takes smoothly: keep less back, or draw {piece} narrower in {layer} together with \
                 what {edge} is sewn to"
            ),
            false => format!(
                "ease {lost} in as you sew {seam}, evenly over the whole edge: the {} the full length, and notches meet",
                if many { "seams count" } else { "seam counts" }
            ),
        };
        let advice = Diagnostic::new(kind, alteration.span, title)
            .label(format!("{edge} is {is} long"))
            .also(garment.edge(kept.edge).span, edge.to_string())
            .help(help);
        let finding = Finding::new(size.id(), kept.lost, advice).about(format!("{piece} {layer} {edge}"));
        findings.push(finding.figure("to ease", lost).figure(edge, is));
    }
}
