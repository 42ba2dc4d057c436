//! `allowance/none`: a seam on the very edge of the cloth. `allowance/scant`: one so near it that it frays out.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, Seam, SeamId};
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::TakenBy;
use crate::source::Span;
use indexmap::IndexMap;
use std::ops::Range;

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::ALLOWANCE_NONE, &catalogue::ALLOWANCE_SCANT], run: Run::PerSize(run) };

/// Less than this, in millimetres, holds no stitch.
const NOTHING: f64 = 0.05;
/// Less than this, in millimetres, is not held in wear. Common practice: the narrowest allowances are 3 mm, of seams
/// that are trimmed and turned, or overlocked.
const SCANT: f64 = 3.0;
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
    // A slit that is no window has no cloth beside it, whatever allowance is said.
    let slit_of = |seam: &Seam| {
        let edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        edges.into_iter().find_map(|sewn| garment.edge(garment.whole_edge(sewn.edge)).side_of)
    };
    let (mut bare, mut scant) = (IndexMap::new(), IndexMap::new());
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned) {
        let stitch = seam.stitch.as_ref().map(|stitch| stitch.number);
        let touches = stitch.is_some_and(|number| EDGE_TO_EDGE.iter().any(|class| class.contains(&number)));
        let Some(Some((allowance, said))) = widest.get(id.index()).filter(|_| !touches) else { continue };
        if *allowance < NOTHING
            && let Some(slit) = slit_of(seam)
        {
            findings.push(Finding::new(size.drawn.size, 1.0, of_slit(garment, seam, slit)));
            continue;
        }
        let found: &mut IndexMap<Span, Seams> = match *allowance {
            under if (0.0..NOTHING).contains(&under) => &mut bare,
            under if (NOTHING..SCANT - NOTHING).contains(&under) => &mut scant,
            _ => continue,
        };
        let seams = found.entry(*said).or_default();
        seams.widest = seams.widest.max(*allowance);
        seams.names.push(seam.name.to_string());
    }
    for (said, seams) in bare {
        let (what, has) = seams.words();
        let title = format!("{what} {has} no allowance: no cloth lies beyond the stitches");
        let mistake = Diagnostic::new(&catalogue::ALLOWANCE_NONE, said, title)
            .label("nothing is cut on here")
            .help("say how much: allowance 1; an edge that has none is bound or left raw, finish … bound 1, and not sewn to another");
        findings.push(Finding::new(size.drawn.size, seams.names.len() as f64, mistake));
    }
    for (said, seams) in scant {
        let (what, has) = seams.words();
        let width = amount(seams.widest, garment.unit);
        let title = format!("{what} {has} an allowance of {width}: it frays out of its stitches");
        let warning = Diagnostic::new(&catalogue::ALLOWANCE_SCANT, said, title)
            .label("so narrow")
            .help("3 mm are the least that holds, 1 cm is usual; say an amount with its unit if another was meant: allowance 10mm");
        findings.push(Finding::new(size.drawn.size, SCANT - seams.widest, warning));
    }
}

/// The slit that a seam sews round.
fn of_slit(garment: &Garment, seam: &Seam, slit: EdgeId) -> Diagnostic {
    let slit = garment.edge(slit);
    let title = format!("{} has no allowance: {} is a cut, with no cloth beside it", seam.words(), slit.name);
    Diagnostic::new(&catalogue::ALLOWANCE_NONE, seam.name_span, title)
        .label("nothing to turn in")
        .also(slit.span, "cut here")
        .help(format!(
            "give {} a window, twice as wide as what is turned in: window 1.2; what faces it is sewn round that",
            slit.name
        ))
}

/// The seams that one word gives too little.
#[derive(Default)]
struct Seams {
    names: Vec<String>,
    /// Of them, mm.
    widest: f64,
}

impl Seams {
    /// What they are called, and whether they have or it has.
    fn words(&self) -> (String, &'static str) {
        let mut named: Vec<String> = self.names.iter().take(NAMED).cloned().collect();
        match self.names.len() - named.len() {
            0 => {}
            1 => named.push("one more".to_owned()),
            others => named.push(format!("{others} more")),
        }
        match self.names.len() {
            1 => (format!("the {} seam", named.concat()), "has"),
            _ => (format!("the seams {}", words::listed(&named)), "have"),
        }
    }
}
