//! `allowance/none`: a seam on the very edge of the cloth.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, SeamId};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::TakenBy;
use crate::source::Span;
use indexmap::IndexMap;
use std::ops::Range;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::ALLOWANCE_NONE], run: Run::PerSize(run) };

/// Less than this, in millimetres, holds no stitch.
const NOTHING: f64 = 0.05;
/// So many seams are named; the others are counted.
const NAMED: usize = 3;
/// Stitches that join edges which only touch: by hand, zigzag, covering (classes 200 and 600, and 304, 308
/// and 404 of ISO 4915).
const EDGE_TO_EDGE: [Range<u16>; 5] = [200..300, 600..700, 304..305, 308..309, 404..405];

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    // The widest allowance of each seam: where only one ply has none, the plies differ, and that is reported.
    let mut widest: Vec<Option<(f64, Span)>> = vec![None; garment.seams.len()];
    for fate in size.sewn.parts.iter().filter(|part| !part.fused).flat_map(|part| &part.edges) {
        let (Some(allowance), Some(said)) = (fate.allowance, fate.allowance_span) else { continue };
        for taker in &fate.takers {
            let TakenBy::Seam(id, _) = taker.what else { continue };
            if let Some(known) = widest.get_mut(id.index())
                && known.is_none_or(|(most, _)| allowance > most)
            {
                *known = Some((allowance, said));
            }
        }
    }
    let mut by_place: IndexMap<Span, Vec<String>> = IndexMap::new();
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned) {
        let stitch = seam.stitch.as_ref().map(|stitch| stitch.number);
        let touches = stitch.is_some_and(|number| EDGE_TO_EDGE.iter().any(|class| class.contains(&number)));
        if let Some(Some((allowance, said))) = widest.get(id.index())
            && (0.0..NOTHING).contains(allowance)
            && !touches
        {
            by_place.entry(*said).or_default().push(seam.name.to_string());
        }
    }
    for (said, seams) in by_place {
        let mut named: Vec<String> = seams.iter().take(NAMED).cloned().collect();
        match seams.len() - named.len() {
            0 => {}
            1 => named.push("one more".to_owned()),
            others => named.push(format!("{others} more")),
        }
        let (what, has) = match seams.len() {
            1 => (format!("the {} seam", named.concat()), "has"),
            _ => (format!("the seams {}", words::listed(&named)), "have"),
        };
        let title = format!("{what} {has} no allowance: no cloth lies beyond the stitches");
        let mistake = Diagnostic::new(&catalogue::ALLOWANCE_NONE, said, title)
            .label("nothing is cut on here")
            .help("say how much: allowance 1; an edge that has none is bound or left raw, finish … bound 1, and not sewn to another");
        findings.push(Finding::new(size.drawn.size, seams.len() as f64, mistake));
    }
}
