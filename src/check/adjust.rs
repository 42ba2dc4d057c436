//! `alter/along-grain`: a line at which makers are to lengthen or shorten, along which the grain runs.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PaperId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::source::Span;
use std::collections::HashSet;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALTER_ALONG_GRAIN], run: Run::PerSize(run) };

/// How nearly a grain may run along a line (the sine of the angle between them).
const ALONG: f64 = 1e-3;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if !garment.edges.iter().any(|edge| edge.adjust) {
        return;
    }
    let mut seen: IdSet<PaperId> = IdSet::default();
    // A copy has its line from where it is told.
    let mut told: HashSet<Span> = HashSet::new();
    for part in &size.sewn.parts {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|_| seen.insert(part.part.paper)) else {
            continue;
        };
        for line in drawn.lines.iter().filter(|line| garment.is_to_adjust(line.edge)) {
            let chord = line.path.end() - line.path.start();
            if (chord.cross(drawn.grain) / chord.hypot().max(f64::MIN_POSITIVE)).abs() >= ALONG {
                continue;
            }
            let (named, piece) = (garment.edge(line.edge), garment.piece(drawn.piece));
            if !told.insert(named.span) {
                continue;
            }
            let title = format!(
                "the grain of {} runs along {}, so there is no way to lengthen or shorten it there",
                piece.title,
                garment.edge_words(line.edge)
            );
            let mistake =
                Diagnostic::new(&catalogue::ALTER_ALONG_GRAIN, named.span, Title::new(title).in_sizes())
                    .label("to adjust at")
                    .help("draw the line across the grain, or leave adjust out");
            findings
                .push(Finding::new(size.id(), 0.0, mistake).about(format!("{} {}", piece.name, named.name)));
        }
    }
}
