//! `closure/one-side`: edges that are closed on one side of the body, and only finished on the other.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Closure, Garment, SewnEdge};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, catalogue};
use crate::sewing::TakenBy;
use crate::syntax::tree::Hand;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::CLOSURE_ONE_SIDE], run: Run::PerForm(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let all = garment.closures.iter().filter(|closure| closure.kind.is_some());
    findings.extend(all.filter_map(|closure| of_one_side(garment, size, closure)));
}

fn of_one_side(garment: &Garment, size: &WorkedSize, closure: &Closure) -> Option<Finding> {
    let edges = || closure.first.edges.iter().chain(&closure.second.edges);
    let hand = edges().next()?.on?;
    let other = match hand {
        Hand::Left => Hand::Right,
        Hand::Right => Hand::Left,
    };
    let hang_open = edges().all(|sewn| sewn.on == Some(hand) && is_only_finished(garment, size, sewn, other));
    let is_closed = |sewn: &SewnEdge| {
        let whole = garment.whole_edge(sewn.edge);
        let others = garment.closures.iter().flat_map(|one| one.first.edges.iter().chain(&one.second.edges));
        others.filter(|one| one.on != Some(hand)).any(|one| garment.whole_edge(one.edge) == whole)
    };
    if !hang_open || edges().any(is_closed) {
        return None;
    }
    let side = |hand: Hand| if hand == Hand::Left { "left" } else { "right" };
    let mut names: Vec<String> = edges().map(|sewn| words::edge(garment, sewn.edge)).collect();
    once_each(&mut names);
    let title = format!(
        "{} closes {} on the {}, and on the {} they hang open",
        closure.name,
        words::listed(&names),
        side(hand),
        side(other)
    );
    let advice = Diagnostic::new(&catalogue::CLOSURE_ONE_SIDE, closure.first.span.to(closure.second.span), title)
        .label(format!("on the {} alone", side(hand)))
        .help(format!(
            "leave on {} out, so that both sides are closed; or sew them on the {}, or close them there by a closure of its own; \
             if they are to hang open, nothing needs to change",
            side(hand),
            side(other)
        ));
    Some(Finding::new(size.id(), 0.0, advice).about(&*closure.name))
}

/// Whether an edge is there on that side of the body, and nothing but finished.
fn is_only_finished(garment: &Garment, size: &WorkedSize, sewn: &SewnEdge, hand: Hand) -> bool {
    let whole = garment.whole_edge(sewn.edge);
    let own = size.sewn.parts.iter().filter(|part| {
        part.part.piece == sewn.piece
            && part.hand == Some(hand)
            && sewn.layer.is_none_or(|layer| layer == part.part.layer)
    });
    let mut is_there = false;
    for part in own {
        let Some(drawn) = size.drawn.paper(part.part.paper) else { return false };
        for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
            if garment.whole_edge(edge.edge) != whole {
                continue;
            }
            is_there = true;
            let mut takers = fate.takers.iter();
            if fate.takers.iter().next().is_none()
                || !takers.all(|taker| matches!(taker.what, TakenBy::Finish(_)))
            {
                return false;
            }
        }
    }
    is_there
}
