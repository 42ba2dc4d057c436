//! `run/uneven`, `run/nothing-left` and `run/folded`: what is left of edges that runs are taken out of.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Chain, EdgeId, Garment, LayerId, Seam, SewnEdge, User};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnPiece};
use crate::sewing::{SewnPly, SewnRun, SewnSeam, seam_edges};
use crate::source::Span;
use crate::syntax::tree::Hand;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::RUN_UNEVEN], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.portions.is_empty() {
        return;
    }
    uneven(garment, size, findings);
    nothing_left(garment, size, findings);
    findings.extend(size.sewn.seams.iter().filter_map(|sewn| folded(garment, size, sewn)));
}

fn uneven(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for sewn in &size.sewn.seams {
        let Some(uneven) = sewn.uneven else { continue };
        let seam = garment.seam(sewn.seam);
        let [one, other] = [uneven.one, uneven.other].map(|(part, span, many)| {
            let title = words::piece(garment, size.sewn.part(part).part.piece);
            let pieces = if many == 1 { "in one piece".to_owned() } else { format!("in {many} pieces") };
            (title, span, pieces)
        });
        let title = format!(
            "{} has nothing to sew each piece to: of {} its edges are left {}, of {} {}",
            seam.words(),
            one.0,
            one.2,
            other.0,
            other.2
        );
        let mut mistake = Diagnostic::new(&catalogue::RUN_UNEVEN, one.1, Title::new(title).in_sizes())
            .label(one.2)
            .also(other.1, other.2);
        let taken = [one.1, other.1].map(|span| taken_on_one_side(garment, seam, span));
        for (hand, span) in taken.iter().flatten() {
            mistake = mistake.also(*span, format!("taken out of it on the {}", hand.word()));
        }
        let hands = |at: usize| taken.get(at).into_iter().flatten().map(|(hand, _)| *hand);
        // A run of the one piece on the left, and of the other on the right: the side of one is a slip.
        let are_exchanged =
            hands(0).next().is_some() && hands(0).all(|hand| hands(1).all(|other| hand != other));
        let mistake = mistake.help(match are_exchanged && hands(1).next().is_some() {
            true => "take them out on one side of the body: write on left, or on right, for both",
            false => "take the same runs out of both sides, or make a seam for each piece that is left",
        });
        findings.push(Finding::new(size.drawn.size, 1.0, mistake).about(&*seam.name));
    }
}

/// Runs of an edge of a seam that others take on one side of the body, and where they name it.
fn taken_on_one_side(garment: &Garment, seam: &Seam, at: Span) -> Vec<(Hand, Span)> {
    let Some(named) = seam_edges(seam).find(|sewn| sewn.span == at) else { return Vec::new() };
    let chains = garment.seams.iter().flat_map(|seam| seam.first.iter().chain(&seam.second));
    let chains = chains.chain(garment.closures.iter().flat_map(|closure| [&closure.first, &closure.second]));
    let edges = chains.flat_map(|chain| &chain.edges);
    let edges = edges.chain(garment.finishes.iter().flat_map(|finish| &finish.edges));
    let whole = garment.whole_edge(named.edge);
    let runs = edges.filter(|sewn| garment.is_portion(sewn.edge) && garment.whole_edge(sewn.edge) == whole);
    runs.filter_map(|sewn| Some((sewn.on?, sewn.span))).collect()
}

/// Edges that a seam, a closure or a finish names whole, and of which others leave nothing.
fn nothing_left(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let finder = size.finder(garment);
    let mut named: Vec<(LayerId, SewnEdge)> = Vec::new();
    let mut of = |layers: &[Option<LayerId>], chains: &[&Chain]| {
        for sewn in chains.iter().flat_map(|chain| &chain.edges) {
            named.extend(layers.iter().filter_map(|&layer| Some((sewn.layer.or(layer)?, *sewn))));
        }
    };
    for seam in garment.seams.iter().filter(|seam| !seam.poisoned) {
        let chains: Vec<&Chain> = seam.first.iter().chain(&seam.second).collect();
        of(&finder.layers.of_seam(seam), &chains);
    }
    for closure in &garment.closures {
        let chains = [&closure.first, &closure.second];
        of(&finder.layers.of_chains(&chains), &chains);
    }
    for sewn in garment.finishes.iter().flat_map(|finish| &finish.edges) {
        named.extend(finder.layers.meant(sewn.layer, sewn.piece).into_iter().map(|layer| (layer, *sewn)));
    }
    named.dedup_by_key(|(_, sewn)| sewn.span);
    for (layer, sewn) in named {
        let all = finder.through(layer, &sewn);
        if all.is_empty() || !finder.in_layer(layer, &sewn).is_empty() {
            continue;
        }
        // What a seam catches on an edge of its own may cover all of that.
        if let Some(User::Seam(seam)) = sewn.user
            && garment.names_run_of(garment.seam(seam), sewn.edge)
        {
            continue;
        }
        let taken = all.iter().find_map(|place| {
            let edge = finder.drawn(place.part)?.edge_at(place.edge)?.edge;
            Some(garment.portion(garment.portion_on(edge, finder.cloth(place.part))?))
        });
        let name = &garment.edge(sewn.edge).name;
        let title = format!("nothing is left of {name} of {}", words::piece(garment, sewn.piece));
        let title = Title::new(title).in_sizes().then(": runs take all of it");
        let mut mistake =
            Diagnostic::new(&catalogue::RUN_NOTHING_LEFT, sewn.span, title).label("what is left of it");
        if let Some(taken) = taken {
            mistake = mistake.also(taken.span, "taken by itself");
        }
        let help = "make a run shorter, or take this out";
        findings.push(Finding::new(size.drawn.size, 1.0, mistake.help(help)).about(&**name));
    }
}

/// Two plies that are runs of edges which are folded onto one another, and lie elsewhere once they are.
fn folded(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> Option<Finding> {
    let seam = garment.seam(sewn.seam);
    for plies in [&sewn.first.plies, &sewn.second.plies] {
        let single = |ply: &SewnPly| match ply.runs.as_slice() {
            [run] => Some(*run),
            _ => None,
        };
        let runs: Vec<SewnRun> = plies.iter().filter_map(single).collect();
        for (at, one) in runs.iter().enumerate() {
            for other in
                runs.iter().skip(at + 1).filter(|other| (other.part, other.hand) == (one.part, one.hand))
            {
                let drawn = size.drawn.paper(size.sewn.part(one.part).part.paper)?;
                let Some(by) = apart_by(garment, drawn, one.edge, other.edge) else { continue };
                if by.abs() <= garment.tolerance {
                    continue;
                }
                let (piece, far) = (words::piece(garment, drawn.piece), amount(by.abs(), garment.unit));
                let title = Title::new(format!("two runs of {piece} in {}", seam.words()))
                    .in_sizes()
                    .then(format!(" lie {far} beside one another once it is folded"));
                let spans = [one, other].map(|run| {
                    let edge = drawn.edge_at(run.edge)?.edge;
                    Some(garment.portion(garment.portion_on(edge, size.sewn.part(run.part).cloth())?).span)
                });
                let [first, second] = spans;
                let place = first.or(second).unwrap_or(seam.name_span);
                let mut mistake = Diagnostic::new(&catalogue::RUN_FOLDED, place, title);
                if let Some(second) = second.filter(|second| *second != place) {
                    mistake = mistake.also(second, "and this");
                }
                let help = "count both from the same end of the piece, as far from it";
                return Some(Finding::new(size.drawn.size, by.abs(), mistake.help(help)).about(&*seam.name));
            }
        }
    }
    None
}

/// How far runs of two edges that are folded onto one another lie beside one another; none of other edges, and
/// of whole ones.
fn apart_by(garment: &Garment, drawn: &DrawnPiece, one: DrawnEdgeId, other: DrawnEdgeId) -> Option<f64> {
    let named = |at: DrawnEdgeId| drawn.edge_at(at).map(|edge| edge.edge);
    let (edge, onto) = (named(one)?, named(other)?);
    let is_portion = |edge| garment.edge(edge).portion.is_some();
    if !is_portion(edge) && !is_portion(onto) {
        return None;
    }
    let is = |edge, of| garment.is_run_of(edge, of);
    let folds = &garment.piece(drawn.piece).folds;
    let fold = folds.iter().find_map(|fold| {
        match (is(edge, fold.edge) && is(onto, fold.onto), is(edge, fold.onto) && is(onto, fold.edge)) {
            (true, _) => Some((fold.edge, fold.onto)),
            (_, true) => Some((fold.onto, fold.edge)),
            _ => None,
        }
    })?;
    // Going round the piece the one comes before what the other comes after.
    let along = |mut at: DrawnEdgeId, of: EdgeId, step: &dyn Fn(DrawnEdgeId) -> DrawnEdgeId| {
        let mut sum = 0.0;
        for _ in 0..drawn.edges.len() {
            at = step(at);
            match drawn.edge_at(at).filter(|edge| is(edge.edge, of)) {
                Some(edge) => sum += edge.path.length(),
                None => break,
            }
        }
        sum
    };
    let before = along(one, fold.0, &|at| drawn.before(at));
    let after = along(other, fold.1, &|at| drawn.after(at));
    Some(before - after)
}
