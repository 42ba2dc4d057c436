//! `allowance/unknown` and `seam/allowance`: how far from the stitching line the cloth is cut.

use super::{Check, Run, words};
use crate::garment::{EdgeId, Garment, SeamId};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{EdgeFate, Sewing, TakenBy};
use crate::source::Span;
use std::collections::HashMap;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::ALLOWANCE_UNKNOWN, &catalogue::SEAM_ALLOWANCE], run: Run::Sewn(run) };

/// Allowances that differ by no more than this, in millimetres, are the same.
const SAME: f64 = 0.05;
/// So many edges are named; the others are counted.
const NAMED: usize = 3;

/// An edge of a ply and its allowance.
#[derive(Clone, Copy)]
struct Ply {
    edge: EdgeId,
    allowance: f64,
    said: Span,
}

/// The ply with the least and the one with the most.
struct Range {
    least: Ply,
    most: Ply,
}

fn run(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, findings: &mut Vec<Finding>) {
    let mut unknown: Vec<EdgeId> = Vec::new();
    let mut ranges: HashMap<SeamId, Range> = HashMap::new();
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(Some(drawn)) = sized.papers.get(part.part.paper.index()) else { continue };
        // A fold that is sewn is told as such, and has no allowance to agree with another's.
        let is_sound = |fate: &&EdgeFate| fate.takers.iter().all(|taker| taker.what != TakenBy::Fold);
        for (edge, fate) in drawn.edges.iter().zip(&part.edges).filter(|(_, fate)| is_sound(fate)) {
            let Some(said) = fate.allowance_span else {
                if !fate.takers.is_empty() && !unknown.contains(&edge.edge) && unknown.len() < 1000 {
                    unknown.push(edge.edge);
                }
                continue;
            };
            let Some(allowance) = fate.allowance else { continue };
            let ply = Ply { edge: edge.edge, allowance, said };
            for taker in &fate.takers {
                if let TakenBy::Seam(id, _) = taker.what {
                    let range = ranges.entry(id).or_insert(Range { least: ply, most: ply });
                    if ply.allowance < range.least.allowance {
                        range.least = ply;
                    }
                    if ply.allowance > range.most.allowance {
                        range.most = ply;
                    }
                }
            }
        }
    }
    if let Some(&first) = unknown.first() {
        findings.push(nowhere(garment, sized, first, &unknown));
    }
    for (at, seam) in garment.seams.iter().enumerate().filter(|(_, seam)| !seam.poisoned) {
        let Some(range) = ranges.get(&SeamId::from_index(at)) else { continue };
        let (least, most) = (&range.least, &range.most);
        if most.allowance - least.allowance <= SAME {
            continue;
        }
        let unit = garment.unit;
        let (one, other) = (amount(least.allowance, unit), amount(most.allowance, unit));
        let (one_edge, other_edge) = (words::edge(garment, least.edge), words::edge(garment, most.edge));
        let title = format!(
            "the allowances in the seam {} differ: {one} on {one_edge}, {other} on {other_edge}",
            seam.name
        );
        let mistake = Diagnostic::new(&catalogue::SEAM_ALLOWANCE, seam.name_span, title)
            .label("raw edges are laid together here")
            .also(least.said, one.clone())
            .also(most.said, other.clone())
            .help(format!(
                "give the seam one allowance for all its plies: {{ allowance {} }}",
                words::written(&one)
            ));
        let by = most.allowance - least.allowance;
        findings.push(Finding::new(sized.size, by, mistake).about(&*seam.name));
    }
}

fn nowhere(garment: &Garment, sized: &SizedGarment, first: EdgeId, unknown: &[EdgeId]) -> Finding {
    let mut named: Vec<String> = unknown.iter().take(NAMED).map(|&edge| words::edge(garment, edge)).collect();
    let others = unknown.len() - named.len();
    if others > 0 {
        named.push(match others {
            1 => "one more edge".to_owned(),
            _ => format!("{others} more edges"),
        });
    }
    let title = format!("nobody says the allowance of {}", words::listed(&named));
    let place = garment.edge(first).span;
    let mistake = Diagnostic::new(&catalogue::ALLOWANCE_UNKNOWN, place, title)
        .label("how far from here is it cut?")
        .help("say it once for all, near the top: allowance 1; or in a piece, or in the seam's braces");
    Finding::new(sized.size, unknown.len() as f64, mistake)
}
