//! `closure/jumps`: a zip that goes on from one edge to another that does not begin there; a row
//! of buttons that goes on from one line inside a piece to another.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureKind, EdgeId, Garment, SewnEdge};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::sewn_layer;
use crate::sewing::lines_run_on;
use crate::sewing::surface::{ClosureLine, StretchId, Surface};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::CLOSURE_JUMPS], run: Run::PerSize(run) };

/// An edge that lies between two of a zip's and is left out may be so long, in millimetres: an allowance that is
/// turned in, a narrow fold.
const LEFT_OUT: f64 = 20.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| surface.twists.is_empty()) else {
        return;
    };
    for line in &surface.closures {
        let closure = garment.closure(line.closure);
        // Of both sides at once it does not matter which copy is called the left one.
        let mut edges = closure.first.edges.iter().chain(&closure.second.edges);
        let is_one_sided = edges.any(|sewn| sewn.on.is_some());
        if !matches!(closure.kind, Some(ClosureKind::Zipper { .. })) {
            continue;
        }
        if !is_one_sided {
            findings.extend(apart_on_both_sides(garment, size, surface, line, closure));
            continue;
        }
        for (side, chain) in line.sides.iter().zip([&closure.first, &closure.second]) {
            let jump = side.windows(2).find_map(|pair| match pair {
                [one, other] if !runs_on(surface, *one, *other) => Some((one.0, other.0)),
                _ => None,
            });
            let edge = |stretch| size.sewn.edge_of(&size.drawn, surface, stretch).map(|(_, edge)| edge);
            let Some((from, to)) = jump.and_then(|(from, to)| Some((edge(from)?, edge(to)?))) else {
                continue;
            };
            findings.push(finding(garment, size, &closure.name, chain, [from, to]));
            break;
        }
    }
    findings.extend(garment.closures.iter().filter_map(|closure| along_lines(garment, size, closure)));
}

/// The first two edges of a zip on both sides of the body of which no copy of the one meets a copy of the other, or lies on its piece.
fn apart_on_both_sides(
    garment: &Garment,
    size: &WorkedSize,
    surface: &Surface,
    line: &ClosureLine,
    closure: &Closure,
) -> Option<Finding> {
    if line.time > 0 {
        return None;
    }
    let edge = |stretch| size.sewn.edge_of(&size.drawn, surface, stretch).map(|(_, edge)| edge);
    let lines = || surface.closures.iter().filter(|own| own.closure == line.closure);
    let of_edge = |wanted: EdgeId| {
        let all = lines().flat_map(|own| own.sides.iter().flatten());
        all.filter(move |(stretch, _)| edge(*stretch) == Some(wanted)).copied().collect::<Vec<_>>()
    };
    line.sides.iter().zip([&closure.first, &closure.second]).find_map(|(side, chain)| {
        side.windows(2).find_map(|pair| {
            let [one, other] = pair else { return None };
            let (from, to) = (edge(one.0)?, edge(other.0)?);
            let meet = || {
                let (ones, others) = (of_edge(from), of_edge(to));
                ones.iter().any(|&(one, _)| {
                    others.iter().any(|&(other, _)| {
                        let ways = [false, true];
                        ways.iter().any(|&a| ways.iter().any(|&b| runs_on(surface, (one, a), (other, b))))
                    })
                })
            };
            (from != to && !meet()).then(|| finding(garment, size, &closure.name, chain, [from, to]))
        })
    })
}

/// The first two lines of a closure's side that do not run on in one another.
fn along_lines(garment: &Garment, size: &WorkedSize, closure: &Closure) -> Option<Finding> {
    let chains = [&closure.first, &closure.second];
    let layers = size.finder(garment).layers.of_chains(&chains);
    chains.into_iter().find_map(|chain| {
        chain.edges.windows(2).find_map(|pair| {
            let [one, other] = pair else { return None };
            if one.piece == other.piece || ![one, other].iter().all(|sewn| garment.edge(sewn.edge).line) {
                return None;
            }
            let is_apart = layers.iter().any(|&layer| {
                let named = |sewn: &SewnEdge| {
                    let layer = sewn.layer.or(layer).or_else(|| sewn_layer(garment, sewn.piece))?;
                    Some((layer, sewn.edge, sewn.on))
                };
                let both = named(one).zip(named(other));
                let meet =
                    both.and_then(|(one, other)| lines_run_on(garment, &size.drawn, &size.sewn, one, other));
                meet == Some(false)
            });
            is_apart.then(|| finding(garment, size, &closure.name, chain, [one.edge, other.edge]))
        })
    })
}

/// Whether one stretch begins where the other ends, or a short edge lies between them.
fn runs_on(surface: &Surface, one: (StretchId, bool), other: (StretchId, bool)) -> bool {
    let ends = |(id, against): (StretchId, bool)| {
        let stretch = surface.stretch(id);
        if against { [stretch.end, stretch.start] } else { [stretch.start, stretch.end] }
    };
    let ([_, end], [start, _]) = (ends(one), ends(other));
    let is_between = |id: StretchId| {
        let stretch = surface.stretch(id);
        let both = [stretch.start, stretch.end];
        surface.length(id) <= LEFT_OUT && both.contains(&end) && both.contains(&start)
    };
    let beside = [one.0, other.0].map(|id| [surface.next(id), surface.before(id)]);
    end == start
        || surface.face_of(one.0) == surface.face_of(other.0)
        || beside.into_iter().flatten().any(is_between)
}

fn finding(
    garment: &Garment,
    size: &WorkedSize,
    name: &str,
    chain: &Chain,
    [from, to]: [EdgeId; 2],
) -> Finding {
    let (one, other) = (words::edge(garment, from), words::edge(garment, to));
    let title =
        Title::new(format!("along {name}, {other} does not begin where {one} ends, as they are sewn"))
            .in_sizes();
    let named = |of| {
        let mut edges = chain.edges.iter();
        let own = edges.find(|sewn| garment.is_run_of(sewn.edge, of) || garment.is_run_of(of, sewn.edge));
        own.map_or(chain.span, |sewn| sewn.span)
    };
    let mistake = Diagnostic::new(&catalogue::CLOSURE_JUMPS, named(to), title)
        .label("does not begin there")
        .also(named(from), "goes on from here")
        .help(
            "name what runs on in one another as it is sewn, or say by matching in the seam between them which \
             ends meet",
        );
    Finding::new(size.id(), 0.0, mistake).about(name)
}
