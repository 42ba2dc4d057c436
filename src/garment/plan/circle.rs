//! What is said of circles, and of unknowns that nothing hangs on.

use super::graph::Graph;
use crate::garment::circle::{row, through};
use crate::garment::{Alteration, Expression, Garment, Made, Outline, PieceOrigin, ValueKind};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::VecDeque;

/// A circle of references: the shortest one through the first member of the part.
pub(super) fn of_references(garment: &Garment, graph: &Graph, part: &[usize]) -> Diagnostic {
    let circle = shortest_circle(graph, part);
    let mut named: Vec<(String, Span)> = Vec::new();
    for &at in &circle {
        let (name, span) = name_of(garment, graph.nodes[at]);
        if named.last().is_none_or(|(last, _)| *last != name) {
            named.push((name, span));
        }
    }
    if named.len() > 1 && named.first().map(|(name, _)| name) == named.last().map(|(name, _)| name) {
        named.pop();
    }
    let (first, span) = named.first().cloned().unwrap_or_default();
    let title = match named.len() {
        0 | 1 => format!("{first} depends on itself"),
        _ => format!("{first} depends on itself: {} → {first}", row(&named)),
    };
    let diagnostic = Diagnostic::new(&catalogue::NAME_CIRCLE, span, title).label("the circle starts here");
    through(diagnostic, &named)
        .help("define one of them without the others, or let it be found: let … between … and … so that …")
}

/// Two unknowns in one circle.
pub(super) fn of_unknowns(garment: &Garment, one: Made, other: Made) -> Diagnostic {
    let ((one_name, one_span), (other_name, other_span)) = (name_of(garment, one), name_of(garment, other));
    let title = format!(
        "{one_name} and {other_name} depend on each other, and only one thing can be found at a time"
    );
    Diagnostic::new(&catalogue::SOLVE_MANY, one_span, title)
        .label("to be found here")
        .also(other_span, "and to be found here")
        .help("give one of the two its value")
}

/// Whether what is sought hangs on something that could not be made sense of, which was reported.
pub(super) fn hangs_on_damage(garment: &Garment, graph: &Graph, from: usize) -> bool {
    let mut seen = vec![false; graph.nodes.len()];
    let mut open = vec![from];
    while let Some(at) = open.pop() {
        if std::mem::replace(&mut seen[at], true) {
            continue;
        }
        let damaged = match graph.nodes[at] {
            Made::Value(value) => match &garment.value(value).kind {
                ValueKind::Solved { left, right, .. } => left.is_poison() || right.is_poison(),
                known => known.expressions().into_iter().any(Expression::is_poison),
            },
            Made::Version(paper, 0) => {
                let piece = garment.piece(garment.paper(paper).piece);
                let drawing = &piece.drawing;
                let undrawn = matches!(drawing.outline, Outline::None) && piece.origin == PieceOrigin::Drawn;
                undrawn
                    || drawing.outline.measures().into_iter().any(Expression::is_poison)
                    || drawing.spots.iter().any(|spot| spot.at.is_poison())
            }
            Made::Amount(alteration) => garment
                .alteration(alteration)
                .until()
                .is_some_and(|until| garment.closure(until.closure).first.edges.is_empty()),
            Made::Version(..) => false,
        };
        if damaged {
            return true;
        }
        open.extend(&graph.needs[at]);
    }
    false
}

/// Something is sought, but what it should reach does not hang on it.
pub(super) fn idle_unknown(garment: &Garment, node: Made) -> Diagnostic {
    let (name, span) = name_of(garment, node);
    match node {
        Made::Value(value) => {
            let diagnostic = Diagnostic::new(
                &catalogue::SOLVE_NONE,
                span,
                format!("whatever {name} is, its condition stays the same"),
            )
            .label("to be found");
            let diagnostic = match &garment.value(value).kind {
                ValueKind::Solved { condition, .. } => {
                    diagnostic.also(*condition, format!("nothing here depends on {name}"))
                }
                _ => diagnostic,
            };
            diagnostic.help(format!("let one of its two sides depend on {name}: name it there, or draw with it what is measured there"))
        }
        Made::Amount(_) | Made::Version(..) => {
            let sought = match node {
                Made::Amount(alteration) => Some(garment.alteration(alteration)),
                Made::Value(_) | Made::Version(..) => None,
            };
            let word = sought.and_then(Alteration::form).map_or("this", |form| form.gerund.0);
            let closure = sought.and_then(Alteration::until);
            let closure = closure.map_or("the closure", |until| &*garment.closure(until.closure).name);
            Diagnostic::new(&catalogue::SOLVE_NONE, span, format!("{word} here does not change {closure}"))
                .label(format!("{closure} is on none of these pieces"))
                .help("name the pieces that the closure is on, or say how much: by …")
        }
    }
}

fn name_of(garment: &Garment, node: Made) -> (String, Span) {
    match node {
        Made::Value(value) => {
            let value = garment.value(value);
            (value.name.to_string(), value.span)
        }
        Made::Amount(alteration) => {
            let alteration = garment.alteration(alteration);
            (alteration.verb().to_owned(), alteration.until().map_or(alteration.span, |until| until.span))
        }
        Made::Version(paper, 0) => {
            let piece = garment.piece(garment.paper(paper).piece);
            (piece.name.to_string(), piece.span)
        }
        Made::Version(paper, version) => {
            let paper = garment.paper(paper);
            match paper.alterations.get(version - 1) {
                Some(&alteration) => {
                    let alteration = garment.alteration(alteration);
                    let name = format!("{} {}", alteration.verb(), garment.piece(paper.piece).name);
                    (name, alteration.span)
                }
                None => (garment.piece(paper.piece).name.to_string(), garment.piece(paper.piece).span),
            }
        }
    }
}

/// The shortest circle through the first member of a strongly connected part, breadth first.
fn shortest_circle(graph: &Graph, part: &[usize]) -> Vec<usize> {
    let Some(&start) = part.iter().min() else { return Vec::new() };
    let mut is_part = vec![false; graph.nodes.len()];
    part.iter().for_each(|&at| is_part[at] = true);
    let mut came_from: std::collections::HashMap<usize, usize> = std::collections::HashMap::new();
    let mut open = VecDeque::from([start]);
    while let Some(at) = open.pop_front() {
        for &need in graph.needs[at].iter().filter(|need| is_part[**need]) {
            if need == start {
                let mut circle = vec![at];
                let mut back = at;
                while let Some(&before) = came_from.get(&back) {
                    circle.push(before);
                    back = before;
                }
                circle.reverse();
                return circle;
            }
            if need != start && !came_from.contains_key(&need) {
                came_from.insert(need, at);
                open.push_back(need);
            }
        }
    }
    part.to_vec()
}
