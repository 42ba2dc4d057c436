//! `edge/twice`: the end of a strap that is sewn on, and that a buckle or the like is to be sewn to as well.

use super::{Check, Run, words};
use crate::garment::{Closure, ClosureKind, Garment, Outline, SewnEdge, Strap};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::EDGE_TWICE], run: Run::Once(run) };

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let fastens = |closure: &&Closure| matches!(closure.kind, Some(ClosureKind::Fasteners(_)));
    for closure in garment.closures.iter().filter(fastens) {
        for sewn in closure.first.edges.iter().chain(&closure.second.edges) {
            let mut straps = garment.straps.iter().filter(|strap| !strap.poisoned);
            let Some(strap) = straps.find(|strap| strap.piece == sewn.piece) else { continue };
            diagnostics.extend(sewn_on(garment, closure, sewn, strap));
        }
    }
}

/// A strap goes from its lower edge to its upper one.
fn sewn_on(garment: &Garment, closure: &Closure, sewn: &SewnEdge, strap: &Strap) -> Option<Diagnostic> {
    let Outline::Rectangle { edges: [bottom, _, top, _], .. } = &garment.piece(strap.piece).drawing.outline
    else {
        return None;
    };
    let edge = garment.whole_edge(sewn.edge);
    let to: Vec<Span> = strap.runs.iter().filter_map(|run| Some(run.to.as_ref()?.span)).collect();
    let begins = edge == *bottom;
    let place = match begins {
        true => strap.runs.first().map(|run| run.from.span),
        false => to.first().copied().filter(|_| edge == *top),
    }?;
    let help = match begins && to.is_empty() {
        true => format!("name the end that hangs free: {}.{}", strap.name, garment.edge(*top).name),
        false => format!(
            "let one end of {} hang free: to free; and name that: {}.{}",
            strap.name,
            strap.name,
            garment.edge(*top).name
        ),
    };
    let title = format!("{} is sewn on, and {} is to fasten it", words::edge(garment, edge), closure.name);
    let mistake = Diagnostic::new(&catalogue::EDGE_TWICE, sewn.span, title);
    Some(mistake.label("no free end").also(place, "sewn on here").help(help))
}
