//! `run/uneven` of a seam that sews a part of an edge to the same edge, named whole: what is left of that is not what is named of it.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, catalogue};

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::RUN_UNEVEN], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned) {
        // Where it can be laid it is held to its lengths.
        if size.sewn.seams.iter().any(|sewn| sewn.seam == id) {
            continue;
        }
        let is_part = |sewn: &SewnEdge| garment.whole_edge(sewn.edge) != sewn.edge;
        let firsts = seam.first.iter().flat_map(|chain| &chain.edges);
        let found = firsts.into_iter().find_map(|one| {
            let mut seconds = seam.second.iter().flat_map(|chain| &chain.edges);
            let is_its_rest = |other: &&SewnEdge| {
                garment.whole_edge(one.edge) == garment.whole_edge(other.edge)
                    && is_part(one) != is_part(other)
            };
            Some((one, seconds.find(is_its_rest)?))
        });
        let Some((one, other)) = found else { continue };
        let (part, whole) = if is_part(one) { (one, other) } else { (other, one) };
        let edge = words::edge(garment, garment.whole_edge(one.edge));
        let title = format!("{} sews a part of {edge} to what is left of the same edge", seam.words());
        let mistake = Diagnostic::new(&catalogue::RUN_UNEVEN, whole.span, Title::new(title).in_sizes())
            .label("all that is left of it")
            .also(part.span, "a part of it")
            .help("name the same part on both sides, or the edge whole on both: then what is left of one copy meets what is left of the other");
        findings.push(Finding::new(size.id(), 0.0, mistake).about(&*seam.name));
    }
}
