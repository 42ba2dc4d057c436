//! `steps/none`, `step/forgotten`, `step/twice`, `step/nothing`, `step/early`, `step/shut` and
//! `step/circle`: the order of work against all that is to be done.

mod buttons;
mod circle;
mod covered;
mod jobs;
mod joining;
mod order;
mod reach;
mod rings;
mod timetable;
mod zips;

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ActionTarget, FinishKind, Garment, LayerId, PieceId, SewnEdge, TakeUp};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::Verb;
pub(super) use jobs::When;
use jobs::{Job, Slip, Work};
pub(super) use timetable::Timetable;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::STEPS_NONE,
        &catalogue::STEP_FORGOTTEN,
        &catalogue::STEP_UNFUSED,
        &catalogue::STEP_TWICE,
        &catalogue::STEP_NOTHING,
        &catalogue::STEP_GONE,
        &catalogue::STEP_EARLY,
        &catalogue::STEP_SHUT,
        &catalogue::STEP_CIRCLE,
    ],
    run: Run::OverSizes(run),
};

/// The order of work is the same in every size, so the first one is looked at.
fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let Some(size) = sizes.first() else { return };
    if garment.steps_span.is_none() {
        if !garment.seams.is_empty() && !garment.incomplete.steps {
            let title = "the order of work is not given";
            let advice = Diagnostic::new(&catalogue::STEPS_NONE, garment.heading, title)
                .help("list it, so that nothing is forgotten: steps { \"Body\" { sew shoulder, side } }");
            diagnostics.push(advice);
        }
        return;
    }
    let work = Work::new(garment, size);
    for (slip, target, verb, layer, span) in &work.slips {
        match slip {
            Slip::Again(job, before) => diagnostics.push(again(&work, *job, before.span, *span)),
            Slip::Nothing if garment.incomplete.sewing || is_unknown(&work, *target) => {}
            Slip::Nothing => match taken_away(&work, *target, *span) {
                Some(mistake) => diagnostics.push(mistake),
                None => diagnostics.push(nothing(garment, *target, *verb, *layer, *span)),
            },
        }
    }
    if !garment.incomplete.steps {
        forgotten(&work, diagnostics);
        order::slips_of_order(&work, diagnostics);
        reach::slips_of_reach(&work, size, diagnostics);
    }
}

/// Whether a piece that a step works on could not be drawn, so that nothing is known of it.
fn is_unknown(work: &Work, target: ActionTarget) -> bool {
    let (garment, sized) = (work.garment, work.sized);
    let undrawn = |piece: PieceId| sized.is_undrawn(garment, piece);
    match target {
        ActionTarget::Edge(_, edge) | ActionTarget::TakeUp(_, edge) => undrawn(garment.edge(edge).piece),
        ActionTarget::Piece(_, piece) => undrawn(piece),
        // A seam that no layer can sew is reported by `part/missing`.
        ActionTarget::Seam(seam) => {
            let seam = garment.seam(seam);
            // One that went away in a join has nothing left to sew, which is as it should be.
            if work.finder.layers.of_seam(seam).is_empty() || garment.joined_away(seam).is_some() {
                return true;
            }
            let mut edges = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
            edges.any(|sewn| undrawn(sewn.piece))
        }
        ActionTarget::Closure(closure) => {
            let closure = garment.closure(closure);
            closure.first.edges.iter().chain(&closure.second.edges).any(|sewn| undrawn(sewn.piece))
        }
        ActionTarget::Cord(_) | ActionTarget::AnyGap => false,
    }
}

/// An edge that a step works on and an alteration has taken away.
fn taken_away(work: &Work, target: ActionTarget, span: Span) -> Option<Diagnostic> {
    let (ActionTarget::Edge(_, edge) | ActionTarget::TakeUp(_, edge)) = target else { return None };
    let (garment, by) = (work.garment, work.sized.edge_taken_by(work.garment, edge)?);
    let name = &garment.edge(edge).name;
    if garment.edge(edge).take_up && garment.alteration(by).dart.is_some() {
        let title = format!(
            "{name} of {} is no more, and is not sewn",
            garment.piece(garment.edge(edge).piece).title
        );
        let advice = Diagnostic::new(&catalogue::STEP_GONE, span, title).label("goes with it");
        return Some(advice.also(garment.alteration(by).span, format!("{name} is gone from here on")));
    }
    let title = format!("{} has no {name} any more", garment.piece(garment.edge(edge).piece).title);
    let mistake = Diagnostic::new(&catalogue::STEP_NOTHING, span, title)
        .label("nothing to do")
        .also(garment.alteration(by).span, format!("{name} is removed here"));
    Some(mistake.help("take it out of the step, or name the edge that is there now; a variation replaces all of the steps with replace steps { … }"))
}

const FUSED: &str = "fused on";

/// What a job is called, where it is declared, and how a step would name it.
struct Called {
    what: String,
    declared: Span,
    step: String,
    done: &'static str,
}

fn call(work: &Work, job: Job) -> Option<Called> {
    let garment = work.garment;
    let named = |what: String, declared: Span, step: String, done: &'static str| {
        Some(Called { what, declared, step, done })
    };
    match job {
        Job::Seam(at) => {
            let seam = garment.seam(work.stitchings.get(at)?.seam);
            named(format!("the seam {}", seam.name), seam.name_span, format!("sew {}", seam.name), "sewn")
        }
        Job::Finish(id, nth, _) => {
            let finish = garment.finish(id);
            let sewn: &SewnEdge = finish.edges.get(nth)?;
            let is_hem = matches!(finish.kind, FinishKind::Hem(_));
            // A step names the edge, whatever run of it is finished.
            let whole = garment.edge(garment.whole_edge(sewn.edge));
            let edge = format!("{}.{}", garment.part_name(sewn.layer, sewn.piece), whole.name);
            let (verb, done) = if is_hem { ("hem", "hemmed") } else { ("finish", "finished") };
            named(words::edge(garment, sewn.edge), sewn.span, format!("{verb} {edge}"), done)
        }
        Job::Closure(id) => {
            let closure = garment.closure(id);
            let what = format!("the closure {}", closure.name);
            named(what, closure.name_span, format!("sew {}", closure.name), "sewn in")
        }
        Job::Place(id, _) => {
            let placement = garment.placement(id);
            let piece = &garment.piece(placement.piece).name;
            let what = words::piece(garment, placement.piece);
            named(what, placement.span, format!("place {piece}"), "placed")
        }
        Job::TakeUp(_, name) => {
            let dart = garment.edge(name);
            let what = format!("{} of {}", dart.name, garment.piece(dart.piece).title);
            let open = garment.take_up(name).is_some_and(TakeUp::hangs_open);
            let (verb, done) = if open { ("baste", "basted") } else { ("sew", "sewn") };
            let step = format!("{verb} {}.{}", garment.piece(dart.piece).name, dart.name);
            named(what, dart.span, step, done)
        }
        Job::Fuse(layer, piece) => {
            let what = format!("{} of {}", words::piece(garment, piece), garment.layer(layer).name);
            named(what, garment.layer(layer).span, format!("fuse {}", garment.piece(piece).name), FUSED)
        }
        Job::Cord(id) => {
            let cord = garment.cord(id);
            named(format!("the cord {}", cord.name), cord.span, format!("thread {}", cord.name), "threaded")
        }
        Job::Strap(id) => {
            let strap = garment.strap(id);
            let what = format!("the strap {}", strap.name);
            named(what, strap.name_span, format!("place {}", strap.name), "sewn on")
        }
        Job::Gap(id) => {
            let seam = garment.seam(id);
            let span = seam.gaps.first().map_or(seam.name_span, |gap| gap.span);
            let step = format!("slipstitch gap in {}", seam.name);
            named(format!("the gap in {}", seam.name), span, step, "closed")
        }
    }
}

/// The layer that a job is in, where the same is done in several.
fn layer_of(work: &Work, job: Job) -> Option<LayerId> {
    match job {
        Job::Seam(at) => work.stitchings.get(at)?.layer,
        Job::Finish(_, _, layer) | Job::Place(_, layer) | Job::TakeUp(layer, _) => Some(layer),
        Job::Closure(_) | Job::Fuse(..) | Job::Cord(_) | Job::Strap(_) | Job::Gap(_) => None,
    }
}

/// Jobs that no step does; the same in several layers is reported once.
fn forgotten(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    let mut groups: indexmap::IndexMap<(Span, String), (Called, Vec<LayerId>, usize)> =
        indexmap::IndexMap::new();
    // Nothing is done to an edge that is left raw, though a step may say so.
    let is_done = |job: Job| match job {
        Job::Finish(id, ..) => !matches!(garment.finish(id).kind, FinishKind::Raw),
        _ => true,
    };
    for (&job, when) in work.jobs.iter().filter(|(job, _)| is_done(**job)) {
        let Some(called) = call(work, job) else { continue };
        let key = (called.declared, called.what.clone());
        let group = groups.entry(key).or_insert((called, Vec::new(), 0));
        match when {
            Some(_) => group.2 += 1,
            None => match layer_of(work, job) {
                Some(layer) => group.1.push(layer),
                None => diagnostics.push(no_step(garment, &group.0, &[])),
            },
        }
    }
    for (called, layers, done) in groups.values().filter(|(_, layers, _)| !layers.is_empty()) {
        let said: &[LayerId] = if *done > 0 { layers } else { &[] };
        diagnostics.push(no_step(garment, called, said));
    }
}

fn no_step(garment: &Garment, called: &Called, layers: &[LayerId]) -> Diagnostic {
    let names: Vec<String> = layers.iter().map(|&id| garment.layer(id).name.to_string()).collect();
    let (place, step) = match names.first() {
        Some(first) => (format!(" in {}", words::listed(&names)), format!("in {first} {}", called.step)),
        None => (String::new(), called.step.clone()),
    };
    let title = format!("no step says when {} is {}{place}", called.what, called.done);
    // What is not fused on can be sewn all the same.
    let kind = if called.done == FUSED { &catalogue::STEP_UNFUSED } else { &catalogue::STEP_FORGOTTEN };
    let mistake = Diagnostic::new(kind, called.declared, title).label("in no step");
    let last = garment.steps.last().map(|group| group.span);
    let mistake = match last {
        Some(last) => mistake.also(last, "the last of the steps"),
        None => mistake,
    };
    mistake.help(format!("add it where it belongs: {step}"))
}

fn again(work: &Work, job: Job, before: Span, span: Span) -> Diagnostic {
    let (what, done) = match call(work, job) {
        Some(called) => (called.what, called.done),
        None => ("this".to_owned(), "done"),
    };
    Diagnostic::new(&catalogue::STEP_TWICE, span, format!("{what} is {done} already"))
        .label("a second time")
        .also(before, "first here")
        .help("it is sewn only once: remove one of the two, or say which layer each is for: in lining sew …")
}

fn nothing(
    garment: &Garment,
    target: ActionTarget,
    verb: Verb,
    layer: Option<LayerId>,
    span: Span,
) -> Diagnostic {
    let in_layer = match layer {
        Some(layer) => format!(" in {}", garment.layer(layer).name),
        None => String::new(),
    };
    let (title, help) = match (verb, target) {
        (Verb::Sew, ActionTarget::Seam(id)) => (
            format!("{} is not sewn{in_layer}", garment.seam(id).name),
            "name the layer that it is sewn in, or none for all of them".to_owned(),
        ),
        (Verb::TurnThroughGap | Verb::SlipstitchGap, ActionTarget::Seam(id)) => {
            let name = &garment.seam(id).name;
            (
                format!("no gap is left in {name}"),
                format!("leave one in the braces of seam {name}: leaving gap 16"),
            )
        }
        (Verb::TurnThroughGap | Verb::SlipstitchGap, _) => (
            "no gap is left in any seam".to_owned(),
            "leave one in the braces of a seam: leaving gap 16 in lining".to_owned(),
        ),
        (Verb::Place, ActionTarget::Piece(_, piece)) => {
            let name = &garment.piece(piece).name;
            (format!("{name} is not placed on anything{in_layer}"), format!("say where: place {name} on …"))
        }
        (Verb::Fuse, ActionTarget::Piece(_, piece)) => {
            let name = &garment.piece(piece).name;
            (
                format!("{name} is not fused on{in_layer}"),
                format!("name it in a fused layer: layer … in … fused {{ {name} }}"),
            )
        }
        (Verb::Sew, ActionTarget::TakeUp(_, edge)) => {
            let named = garment.edge(edge);
            (
                format!("{} of {} is not sewn{in_layer}", named.name, garment.piece(named.piece).title),
                "name the layer that it is sewn in, or none for all of them".to_owned(),
            )
        }
        (_, ActionTarget::Edge(_, edge)) => {
            let named = garment.edge(edge);
            let name = format!("{}.{}", garment.piece(named.piece).name, named.name);
            (
                format!("nothing says how {} is finished{in_layer}", words::edge(garment, edge)),
                format!("say it: finish {name}  hem 2; or take it out of the step"),
            )
        }
        _ => ("there is nothing here to be done".to_owned(), "take it out of the step".to_owned()),
    };
    Diagnostic::new(&catalogue::STEP_NOTHING, span, title).label("nothing to do").help(help)
}
