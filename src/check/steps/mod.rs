//! `steps/none`, `step/forgotten`, `step/unfused`, `step/unplaced`, `step/twice`, `step/nothing`, `step/early`, `step/shut`,
//! `step/circle`, `step/fuse-late` and what else there is of the kind: the order of work against all that is to be done.

mod circle;
mod early;
mod fusing;
mod left_out;
mod order;
mod pressing;
mod rows;
mod straps;
mod tubes;
mod turned_again;
mod zips;

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ActionTarget, Garment, LayerId, PieceId};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::order::{Completion, Job, Rules, Schedule, Slip, SlipOfStep, Work, is_unclear};
use crate::source::Span;
use crate::syntax::tree::Verb;

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::STEPS_NONE,
        &catalogue::STEP_FORGOTTEN,
        &catalogue::STEP_UNFUSED,
        &catalogue::STEP_UNPLACED,
        &catalogue::STEP_TWICE,
        &catalogue::STEP_NOTHING,
        &catalogue::STEP_GONE,
        &catalogue::STEP_EARLY,
        &catalogue::STEP_SHUT,
        &catalogue::PLACE_THROUGH,
        &catalogue::PLACE_SHUT,
        &catalogue::PLACE_IN_TUBE,
        &catalogue::STEP_CIRCLE,
        &catalogue::STRAP_BEFORE_HEM,
        &catalogue::STEP_ZIP_LATE,
        &catalogue::STEP_FUSE_LATE,
    ],
    run: Run::OverSizes(run),
};

/// The order of work is the same in every size, so the first one is looked at.
fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let Some(size) = sizes.first() else { return };
    if garment.steps_span.is_none() {
        if !garment.seams.is_empty() && !garment.incomplete.steps {
            unsaid(garment, size, diagnostics);
        }
        return;
    }
    let work = Work::new(garment, &size.drawn, &size.sewn);
    let schedule = Schedule::said(&work);
    for slip in &schedule.slips {
        match slip.slip {
            Slip::Again(job, before) => diagnostics.push(again(&work, job, before.span, slip.span)),
            Slip::NoJoint(many) => diagnostics.push(no_joint(garment, slip, many)),
            Slip::JointAgain(number, before) => {
                diagnostics.push(joint_again(garment, slip, number, before.span));
            }
            Slip::Nothing if garment.incomplete.sewing || is_unknown(&work, slip.target, slip.layer) => {}
            Slip::Nothing if is_taken_by_runs(&work, slip.target, slip.layer) => {}
            Slip::Nothing => match taken_away(&work, slip.target, slip.span) {
                Some(mistake) => diagnostics.push(mistake),
                None => diagnostics.push(nothing(garment, slip)),
            },
        }
    }
    if !garment.incomplete.steps {
        let rules = Rules::of(&work);
        let is_possible = order::slips_of_order(&rules, &schedule, diagnostics);
        if !schedule.is_whole(&work) {
            // What cannot be done in any order is told, and so is what cannot be worked out.
            let completion = (is_possible && !is_unclear(garment)).then(|| Completion::of(&rules, &schedule));
            left_out::tell(&rules, &schedule, completion.as_ref(), diagnostics);
        }
        pressing::slips_of_pressing(&work, &schedule, diagnostics);
        straps::slips_of_straps(&work, &schedule, diagnostics);
        zips::slips_of_zips(&rules, &schedule, diagnostics);
        fusing::slips_of_fusing(&rules, &schedule, diagnostics);
        rows::slips_of_rows(&rules, &schedule, diagnostics);
        tubes::slips_of_tubes(&rules, &schedule, diagnostics);
        turned_again::slips_of_gaps(&work, &schedule, diagnostics);
    }
}

/// Without steps the order is worked out, if there is one.
fn unsaid(garment: &Garment, size: &WorkedSize, diagnostics: &mut Vec<Diagnostic>) {
    let work = Work::new(garment, &size.drawn, &size.sewn);
    let rules = Rules::of(&work);
    if !is_unclear(garment) && !order::slips_of_order(&rules, &Schedule::default(), diagnostics) {
        return;
    }
    rows::slips_of_rows(&rules, &Schedule::default(), diagnostics);
    let title = "the order of work is not said, and is worked out";
    // The maker's own seams show best how it is said.
    let own: Vec<&str> = garment.seams.iter().take(2).map(|seam| &*seam.name).collect();
    let advice = Diagnostic::new(&catalogue::STEPS_NONE, garment.heading, title).help(format!(
        "read it before you sew; say what you do otherwise: steps {{ \"Seams\" {{ sew {} }} }}",
        own.join(", ")
    ));
    diagnostics.push(advice);
}

/// Whether a piece that a step works on could not be drawn, so that nothing is known of it.
fn is_unknown(work: &Work, target: ActionTarget, layer: Option<LayerId>) -> bool {
    let (garment, sized) = (work.garment, work.sized);
    let undrawn = |piece: PieceId| sized.is_partly_undrawn(garment, piece);
    let undrawn_in = |layer: Option<LayerId>, piece: PieceId| {
        let paper = layer.and_then(|layer| garment.paper_of(Some(layer), piece));
        undrawn(piece) || paper.is_some_and(|paper| sized.is_undrawn_paper(garment, paper))
    };
    match target {
        ActionTarget::Edge(of, edge) | ActionTarget::TakeUp(of, edge) => {
            undrawn_in(of.or(layer), garment.edge(edge).piece)
        }
        ActionTarget::Piece(_, piece) => undrawn(piece),
        // A seam that no layer can sew is reported by `part/missing`.
        ActionTarget::Seam(seam) | ActionTarget::Joints(seam, ..) => {
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
        ActionTarget::Cord(_) | ActionTarget::Row(_) | ActionTarget::Tack(_) | ActionTarget::AnyGap => false,
    }
}

/// Whether it is said how an edge is finished, and runs that something else takes leave nothing of it; that has been reported.
fn is_taken_by_runs(work: &Work, target: ActionTarget, layer: Option<LayerId>) -> bool {
    let ActionTarget::Edge(of, edge) = target else { return false };
    let (garment, finder) = (work.garment, &work.finder);
    let mut said = garment.finishes.iter().flat_map(|finish| &finish.edges);
    said.any(|sewn| {
        let layers = finder.layers.meant(sewn.layer, sewn.piece);
        let mut own =
            layers.into_iter().filter(|own| of.or(layer).is_none_or(|layer| layer == *own)).peekable();
        garment.is_run_of(sewn.edge, edge)
            && own.peek().is_some()
            && own.all(|own| finder.in_layer(own, sewn).is_empty() && !finder.through(own, sewn).is_empty())
    })
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

fn again(work: &Work, job: Job, before: Span, span: Span) -> Diagnostic {
    let (what, done) = match work.call(job) {
        Some(called) => (called.what, called.done),
        None => ("this".to_owned(), "done".to_owned()),
    };
    Diagnostic::new(&catalogue::STEP_TWICE, span, format!("{what} is {done} already"))
        .label("a second time")
        .also(before, "first here")
        .help("it is sewn only once: remove one of the two, or say which layer each is for: in lining sew …")
}

fn joint_again(garment: &Garment, slip: &SlipOfStep, number: u32, before: Span) -> Diagnostic {
    let name = match slip.target {
        ActionTarget::Joints(id, ..) => &*garment.seam(id).name,
        _ => "",
    };
    Diagnostic::new(&catalogue::STEP_TWICE, slip.span, format!("joint {number} of {name} is sewn already"))
        .label("a second time")
        .also(before, "first here")
        .help("each joint is sewn only once: name another one, or leave this out")
}

fn no_joint(garment: &Garment, slip: &SlipOfStep, many: u32) -> Diagnostic {
    let (name, last, span) = match slip.target {
        ActionTarget::Joints(id, _, last) => (&*garment.seam(id).name, last, garment.seam(id).name_span),
        _ => ("", 0, slip.span),
    };
    let title = format!("{name} has {many} joints, and no joint {last}");
    Diagnostic::new(&catalogue::STEP_NOTHING, slip.span, title)
        .label("no such joint")
        .also(span, format!("a ring of {many}"))
        .help(format!("count them from 1 to {many}; the last joins the last of them to the first"))
}

fn nothing(garment: &Garment, slip: &SlipOfStep) -> Diagnostic {
    let &SlipOfStep { target, verb, layer, span, .. } = slip;
    let in_layer = match layer {
        Some(layer) => format!(" in {}", garment.layer(layer).name),
        None => String::new(),
    };
    let (title, help) = match (verb, target) {
        (Verb::Sew, ActionTarget::Seam(id) | ActionTarget::Joints(id, ..)) => (
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
        (_, ActionTarget::Edge(of, edge)) => {
            let named = garment.edge(edge);
            let name = format!("{}.{}", garment.part_name(of.or(layer), named.piece), named.name);
            let in_layer = match of.or(layer) {
                Some(layer) => format!(" in {}", garment.layer(layer).name),
                None => in_layer,
            };
            (
                format!("nothing says how {} is finished{in_layer}", words::edge(garment, edge)),
                format!("say it: finish {name}  hem 2; or take it out of the step"),
            )
        }
        _ => ("there is nothing here to be done".to_owned(), "take it out of the step".to_owned()),
    };
    Diagnostic::new(&catalogue::STEP_NOTHING, span, title).label("nothing to do").help(help)
}
