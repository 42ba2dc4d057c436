//! Which value, solve, drawing and alteration comes before which: found once, for all sizes.
//!
//! What hangs on what is a graph. Its strongly connected parts (Tarjan, "Depth-first search and
//! linear graph algorithms", SIAM Journal on Computing 1 (1972) 146–160) come out in an order in
//! which each stands after those that it needs. A part with a circle is worked out by trying its
//! one unknown; with no unknown it is a circle of references, with two it is a mistake.

mod circle;
mod graph;
mod tarjan;

use super::order::order_by_need;
use super::{Garment, Plan, PlanStep, Solve, Unknown};
use crate::report::Diagnostic;
use graph::{Graph, Made};

/// Makes the plan of a garment; circles are told and left out of it.
pub fn plan(garment: &Garment) -> (Plan, Vec<Diagnostic>) {
    let graph = Graph::of(garment);
    let mut steps = Vec::new();
    let mut mistakes = Vec::new();
    for part in tarjan::strong_parts(&graph.needs) {
        let circular = part.len() > 1 || part.iter().any(|&at| graph.needs[at].contains(&at));
        if !circular {
            for &at in &part {
                match graph.unknown(garment, at) {
                    Some(_) => mistakes.push(circle::idle_unknown(garment, graph.nodes[at])),
                    None => steps.extend(graph.step(garment, at)),
                }
            }
            continue;
        }
        let unknowns: Vec<usize> =
            part.iter().copied().filter(|&at| graph.unknown(garment, at).is_some()).collect();
        match unknowns.as_slice() {
            [] => mistakes.push(circle::of_references(garment, &graph, &part)),
            [unknown] => match solve(garment, &graph, &part, *unknown) {
                Ok(solve) => steps.push(PlanStep::Solve(solve)),
                Err(diagnostic) => mistakes.push(*diagnostic),
            },
            [first, second, ..] => {
                mistakes.push(circle::of_unknowns(garment, graph.nodes[*first], graph.nodes[*second]));
            }
        }
    }
    (Plan { steps }, mistakes)
}

/// A part of the graph whose circles all run through one unknown: in which order it is tried.
fn solve(garment: &Garment, graph: &Graph, part: &[usize], unknown: usize) -> Result<Solve, Box<Diagnostic>> {
    let mut members: Vec<usize> = part.to_vec();
    members.sort_unstable();
    let inside = |at: usize| members.binary_search(&at).ok();
    let needs: Vec<Vec<usize>> = members
        .iter()
        .map(|&at| match at == unknown {
            true => Vec::new(),
            false => graph.needs[at].iter().filter_map(|&need| inside(need)).collect(),
        })
        .collect();
    let ordered = order_by_need(&needs);
    if let Some(circle) = ordered.circles.first() {
        let circle: Vec<usize> = circle.iter().map(|&at| members[at]).collect();
        return Err(Box::new(circle::of_references(garment, graph, &circle)));
    }
    let order = ordered.order.into_iter().map(|at| members[at]).filter(|&at| at != unknown);
    let sought = match graph.nodes[unknown] {
        Made::Value(value) => Unknown::Value(value),
        Made::Amount(alteration) => Unknown::Amount(alteration),
        Made::Version(..) => return Err(Box::new(circle::of_references(garment, graph, part))),
    };
    Ok(Solve { unknown: sought, steps: order.filter_map(|at| graph.step(garment, at)).collect() })
}
