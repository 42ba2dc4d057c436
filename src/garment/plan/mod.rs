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
use super::{Garment, Made, Plan, PlanStep, Solve, Unknown};
use crate::report::Diagnostic;
use graph::Graph;

/// A garment's plan, and what stands in its way.
#[derive(Clone, Debug)]
pub struct Planned {
    /// The plan of what can be worked out.
    pub plan: Plan,
    /// Circles, and unknowns that nothing hangs on.
    pub diagnostics: Vec<Diagnostic>,
}

/// Makes the plan of a garment; circles are reported and left out of it.
pub fn plan(garment: &Garment) -> Planned {
    let graph = Graph::of(garment);
    let mut plan = Plan::default();
    let mut diagnostics = Vec::new();
    let Plan { steps, left_out } = &mut plan;
    for part in tarjan::strong_parts(&graph.needs) {
        let circular = part.len() > 1 || part.iter().any(|&at| graph.needs[at].contains(&at));
        if !circular {
            for &at in &part {
                if graph.unknown(garment, at).is_none() {
                    steps.extend(graph.step(garment, at));
                    continue;
                }
                left_out.push(graph.nodes[at]);
                if !circle::hangs_on_damage(garment, &graph, at) {
                    diagnostics.push(circle::idle_unknown(garment, graph.nodes[at]));
                }
            }
            continue;
        }
        let unknowns: Vec<usize> =
            part.iter().copied().filter(|&at| graph.unknown(garment, at).is_some()).collect();
        let found = match unknowns.as_slice() {
            [] => Err(Box::new(circle::of_references(garment, &graph, &part))),
            [unknown] => solve(garment, &graph, &part, *unknown),
            [first, second, ..] => {
                let (first, second) = (graph.nodes[*first], graph.nodes[*second]);
                Err(Box::new(circle::of_unknowns(garment, first, second)))
            }
        };
        match found {
            Ok(solve) => steps.push(PlanStep::Solve(solve)),
            Err(diagnostic) => {
                left_out.extend(part.iter().map(|&at| graph.nodes[at]));
                diagnostics.push(*diagnostic);
            }
        }
    }
    Planned { plan, diagnostics }
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
