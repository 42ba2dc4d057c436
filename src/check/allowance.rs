//! `allowance/unknown`, `seam/allowance` and `closure/allowance`: how far from the stitching line the cloth is cut.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, ClosureId, ClosureKind, EdgeId, Garment, SeamId};
use crate::report::catalogue::Entry;
use crate::report::{Diagnostic, Finding, Label, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{EdgeFate, TakenBy};
use crate::source::Span;
use crate::syntax::tree::SeamKind;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::ALLOWANCE_UNKNOWN, &catalogue::SEAM_ALLOWANCE, &catalogue::CLOSURE_ALLOWANCE],
    run: Run::PerSize(run),
};

/// Allowances that differ by no more than this, in millimetres, are the same.
const SAME: f64 = 0.05;
/// So many edges are named; the others are counted.
const NAMED: usize = 3;
/// So many places are shown in one message.
const SHOWN: usize = 8;

/// An edge of a ply and its allowance.
#[derive(Clone, Copy)]
struct Ply {
    edge: EdgeId,
    allowance: f64,
    said: Span,
}

/// The ply with the least and the one with the most.
#[derive(Clone)]
struct Range {
    least: Ply,
    most: Ply,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut unknown: Vec<EdgeId> = Vec::new();
    // Of each seam, of the second sides of lapped ones, then of each closure.
    let seams = garment.seams.len();
    let place = |(by, lapped): (Catcher, bool)| match by {
        Catcher::Seam(id) => id.index() + if lapped { seams } else { 0 },
        Catcher::Closure(id) => 2 * seams + id.index(),
    };
    let mut ranges: Vec<Option<Range>> = vec![None; 2 * seams + garment.closures.len()];
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        // A fold that is sewn is reported as such, and has no allowance to agree with another's.
        let is_sound = |fate: &&EdgeFate| fate.takers.iter().all(|taker| taker.what != TakenBy::Fold);
        for (edge, fate) in drawn.edges.iter().zip(&part.edges).filter(|(_, fate)| is_sound(fate)) {
            // At the side of a slit there is what its window leaves, or it tapers to nothing.
            if garment.edge(edge.edge).side_of.is_some() {
                continue;
            }
            let Some(said) = fate.allowance_span else {
                if !fate.takers.is_empty() && !unknown.contains(&edge.edge) && unknown.len() < 1000 {
                    unknown.push(edge.edge);
                }
                continue;
            };
            let Some(allowance) = fate.allowance.map(|allowance| allowance - turned_in(fate)) else {
                continue;
            };
            let ply = Ply { edge: edge.edge, allowance, said };
            for taker in &fate.takers {
                let Some(by) = sewn_by(garment, taker.what) else { continue };
                let at = place((by, is_lapped_second(garment, taker.what)));
                let range = ranges[at].get_or_insert(Range { least: ply, most: ply });
                if ply.allowance < range.least.allowance {
                    range.least = ply;
                }
                if ply.allowance > range.most.allowance {
                    range.most = ply;
                }
            }
        }
    }
    if let Some(&first) = unknown.first() {
        findings.push(nowhere(garment, sized, first, &unknown));
    }
    let differs = |by: (Catcher, bool)| {
        let range = ranges[place(by)].as_ref();
        range.filter(|range| range.most.allowance - range.least.allowance > SAME)
    };
    let mut told = Told::default();
    let differs_on_a_side = |by: Catcher| differs((by, false)).or_else(|| differs((by, true)));
    for (at, seam) in garment.seams.iter().enumerate().filter(|(_, seam)| !seam.poisoned) {
        let Some(range) = differs_on_a_side(Catcher::Seam(SeamId::from_index(at))) else { continue };
        let one = words::written(&amount(range.least.allowance, garment.unit));
        let mistake = finding(
            garment,
            range,
            &catalogue::SEAM_ALLOWANCE,
            seam.name_span,
            &format!("in {}", seam.words()),
        )
        .label("raw edges are laid together here")
        .help(format!("give the seam one allowance for all its plies: {{ allowance {one} }}"));
        let by = range.most.allowance - range.least.allowance;
        told.once(findings, range, seam.name_span, Finding::new(sized.size, by, mistake).about(&*seam.name));
    }
    for (at, closure) in garment.closures.iter().enumerate() {
        let id = ClosureId::from_index(at);
        let Some(range) = differs((Catcher::Closure(id), false)) else { continue };
        let one = words::written(&amount(range.least.allowance, garment.unit));
        let place = format!("along {}", closure.name);
        let mistake = finding(garment, range, &catalogue::CLOSURE_ALLOWANCE, closure.name_span, &place)
            .label("the zip is sewn along all of it in one line");
        let enclosing = garment.seams.iter().find(|seam| seam.enclosing.iter().any(|(own, _)| *own == id));
        let help = match enclosing {
            Some(seam) => format!(
                "give one for all of it, in the seam {} that encloses the zip: {{ allowance {one} }}",
                seam.name
            ),
            None => format!(
                "give all edges along the zip one allowance: allowance {one} in their pieces or seams"
            ),
        };
        let by = range.most.allowance - range.least.allowance;
        let found = Finding::new(sized.size, by, mistake.help(help)).about(&*closure.name);
        told.once(findings, range, closure.name_span, found);
    }
}

/// Two allowances that differ spoil every seam in which they meet, and are told once.
#[derive(Default)]
struct Told {
    /// Where both are said, and which message tells it.
    pairs: Vec<([Span; 2], usize)>,
}

impl Told {
    fn once(&mut self, findings: &mut Vec<Finding>, range: &Range, place: Span, found: Finding) {
        let pair = [range.least.said, range.most.said];
        let before = self.pairs.iter().find(|(told, _)| *told == pair).map(|(_, at)| *at);
        let Some(before) = before.and_then(|at| findings.get_mut(at)) else {
            self.pairs.push((pair, findings.len()));
            findings.push(found);
            return;
        };
        let diagnostic = &mut before.diagnostic;
        if diagnostic.labels.len() < SHOWN && diagnostic.labels.iter().all(|label| label.span != place) {
            diagnostic.labels.push(Label { span: place, text: "and here".to_owned() });
        }
        diagnostic.help = Some(
            "give both pieces one allowance; or each of these seams its own, for all its plies".to_owned(),
        );
    }
}

/// What of an edge's allowance is turned in before another layer is sewn to it: the depth of its casing.
fn turned_in(fate: &EdgeFate) -> f64 {
    let in_seam = fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..)));
    fate.turned_under.filter(|_| in_seam).unwrap_or(0.0)
}

/// What an edge is laid in and sewn along with others: its seam, what catches it, its zip. Along
/// buttons nothing is sewn.
fn sewn_by(garment: &Garment, taken: TakenBy) -> Option<Catcher> {
    let zip = |id: ClosureId| {
        let is_zip = matches!(garment.closure(id).kind, Some(ClosureKind::Zipper { .. }));
        is_zip.then_some(Catcher::Closure(id))
    };
    match taken {
        TakenBy::Seam(id, _) | TakenBy::Caught(_, Catcher::Seam(id)) => Some(Catcher::Seam(id)),
        TakenBy::Closure(id) | TakenBy::Caught(_, Catcher::Closure(id)) => zip(id),
        TakenBy::Finish(_) | TakenBy::Fold | TakenBy::Topstitched(_) | TakenBy::Strap(_) => None,
    }
}

/// Whether it is the second side of a lapped seam: its sides are laid on one another along the stitching
/// line and not edge to edge, so that each may have its own allowance.
fn is_lapped_second(garment: &Garment, taken: TakenBy) -> bool {
    let TakenBy::Seam(id, second) = taken else { return false };
    let work = garment.seam(id).work.as_ref();
    second && work.is_some_and(|work| work.kind == SeamKind::Lapped)
}

/// Two allowances that differ, and where each is said.
fn finding(
    garment: &Garment,
    range: &Range,
    kind: &'static Entry,
    place: Span,
    whereabouts: &str,
) -> Diagnostic {
    let (least, most) = (&range.least, &range.most);
    let (one, other) = (amount(least.allowance, garment.unit), amount(most.allowance, garment.unit));
    let (one_edge, other_edge) = (words::edge(garment, least.edge), words::edge(garment, most.edge));
    let title = format!("the allowances {whereabouts} differ: {one} on {one_edge}, {other} on {other_edge}");
    Diagnostic::new(kind, place, title).also(least.said, one).also(most.said, other)
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
    let title = format!("no allowance is given for {}", words::listed(&named));
    let place = garment.edge(first).span;
    let mistake = Diagnostic::new(&catalogue::ALLOWANCE_UNKNOWN, place, title)
        .label("how far from here is it cut?")
        .help("give one for the whole garment, near the top: allowance 1; or in a piece, or in the seam's braces");
    Finding::new(sized.size, unknown.len() as f64, mistake)
}
