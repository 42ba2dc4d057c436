//! `step/early` and `step/shut`: what has to come before what.

use super::super::words;
use super::circle::Circles;
use super::jobs::{Job, When, Work};
use super::joining::{Joining, neighbours};
use crate::garment::{
    Catcher, ClosureId, ClosureKind, CordId, FinishKind, LayerId, SeamId, SewnEdge, StrapId,
};
use crate::report::{Diagnostic, catalogue};
use crate::resolve::sewn_layer;
use indexmap::IndexSet;
use std::collections::{HashMap, HashSet};

/// Every slip of order.
pub(super) fn slips_of_order(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let joining = Joining::new(work);
    let circles = Circles::of(work, &joining);
    circles.report(work, diagnostics);
    placements(work, diagnostics);
    caught_straps(work, diagnostics);
    felled_onto(work, diagnostics);
    joints(work, &joining, &circles, diagnostics);
    darts(work, diagnostics);
    enclosed(work, &circles, diagnostics);
    gaps(work, diagnostics);
    cords(work, diagnostics);
    closed_spaces(work, diagnostics);
}

/// `sooner` is done at `first`, but needs `later` done before it.
fn early(diagnostics: &mut Vec<Diagnostic>, sooner: (&str, When), later: (&str, When), why: &str) {
    let ((sooner, first), (later, second)) = (sooner, later);
    let title = format!("{sooner} comes before {later}, {why}");
    diagnostics.push(
        Diagnostic::new(&catalogue::STEP_EARLY, first.span, title)
            .label("too early")
            .also(second.span, "only here")
            .help(format!("{later} comes first: move it up, or {sooner} down")),
    );
}

/// What is placed is finished before, and what catches it is sewn after.
fn placements(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    let mut finishes: HashMap<_, Vec<(&str, When)>> = HashMap::new();
    for (job, when) in &work.jobs {
        if let (Job::Finish(id, nth, layer), Some(when)) = (job, when)
            && let Some(sewn) = garment.finish(*id).edges.get(*nth)
        {
            let name: &str = &garment.edge(sewn.edge).name;
            finishes.entry((*layer, sewn.piece)).or_default().push((name, *when));
        }
    }
    for (job, when) in &work.jobs {
        let (Job::Place(id, layer), Some(when)) = (job, when) else { continue };
        let placement = garment.placement(*id);
        let name = words::piece(garment, placement.piece);
        let placing = format!("placing {name}");
        for (edge, finished) in finishes.get(&(*layer, placement.piece)).into_iter().flatten() {
            if finished > when {
                let finishing = format!("finishing the {edge} of {name}");
                let why = "whose ends it stitches down";
                early(diagnostics, (&placing, *when), (&finishing, *finished), why);
            }
        }
        // What joins it to itself alone, the long seam of a tab, cannot be sewn flat any more.
        for (at, stitching) in work.stitchings.iter().enumerate() {
            let is_own = |place: &crate::sewing::Place| {
                let part = work.finder.part(place.part);
                part.piece == placement.piece && part.layer == *layer
            };
            let Some(sewn) = work.when(Job::Seam(at)).filter(|sewn| sewn > when) else { continue };
            if stitching.places().all(is_own) {
                let sewing = format!("sewing {}", garment.seam(stitching.seam).name);
                early(
                    diagnostics,
                    (&placing, *when),
                    (&sewing, sewn),
                    "without which it is no finished piece",
                );
            }
        }
        let mut catchers: Vec<Catcher> = Vec::new();
        for caught in &placement.caught {
            if catchers.contains(&caught.by) {
                continue;
            }
            catchers.push(caught.by);
            let Some(catching) = work.catcher_when(caught.by).filter(|catching| catching < when) else {
                continue;
            };
            let catcher = match caught.by {
                Catcher::Seam(id) => format!("sewing {}", garment.seam(id).name),
                Catcher::Closure(id) => format!("putting in {}", garment.closure(id).name),
            };
            early(diagnostics, (&catcher, catching), (&placing, *when), "which it is to catch");
        }
    }
}

/// What is felled onto a seam is sewn down once that is sewn.
fn felled_onto(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    for (job, when) in &work.jobs {
        let (Job::Finish(id, nth, _), Some(when)) = (job, when) else { continue };
        let finish = garment.finish(*id);
        let FinishKind::TurnedUnderOnto(seam) = finish.kind else { continue };
        let Some(sewn) = work.seam_whole(seam).filter(|sewn| sewn > when) else { continue };
        let edge = finish.edges.get(*nth).map_or_else(String::new, |sewn| words::edge(garment, sewn.edge));
        let (felling, sewing) = (format!("finishing {edge}"), format!("sewing {}", garment.seam(seam).name));
        early(diagnostics, (&felling, *when), (&sewing, sewn), "onto which it is sewn down");
    }
}

/// What a seam catches is in place before.
fn caught_straps(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    for (id, strap) in StrapId::enumerate(&work.garment.straps) {
        let Some(when) = work.when(Job::Strap(id)) else { continue };
        let catchers: IndexSet<Catcher> =
            strap.runs.iter().flat_map(|run| run.ends()).filter_map(|end| end.caught).collect();
        for by in catchers {
            let Some(catching) = work.catcher_when(by).filter(|catching| *catching < when) else { continue };
            let catcher = match by {
                Catcher::Seam(id) => format!("sewing {}", work.garment.seam(id).name),
                Catcher::Closure(id) => format!("putting in {}", work.garment.closure(id).name),
            };
            let placing = format!("placing {}", strap.name);
            early(diagnostics, (&catcher, catching), (&placing, when), "which it is to catch");
        }
    }
}

/// Where two edges run on from piece to piece, the seam between the pieces is sewn before what
/// crosses it; one of the seams, where they are joined at both ends.
fn joints(work: &Work, joining: &Joining, circles: &Circles, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    // A seam that was misread may be the one that is sewn before; that has been reported.
    if garment.incomplete.sewing || garment.seams.iter().any(|seam| seam.poisoned) {
        return;
    }
    for (at, stitching) in work.stitchings.iter().enumerate() {
        let Some(when) = work.when(Job::Seam(at)) else { continue };
        let name = format!("sewing {}", garment.seam(stitching.seam).name);
        let mut seen: HashSet<SeamId> = HashSet::new();
        for two in stitching.plies().flat_map(|ply| ply.windows(2)) {
            if let [one, other] = two
                && let Some((late, later)) = joining.too_late(one, other, Some(at), when)
                && !circles.has(at, late)
                && let Some(seam) = work.stitchings.get(late).map(|stitching| stitching.seam)
                && seen.insert(seam)
            {
                let seam = format!("sewing {}", garment.seam(seam).name);
                early(diagnostics, (&name, when), (&seam, later), "which it crosses");
            }
        }
    }
    for (at, closure) in garment.closures.iter().enumerate() {
        let Some(&when) = work.in_place.get(&ClosureId::from_index(at)) else { continue };
        let name = format!("putting in {}", closure.name);
        let mut seen: HashSet<SeamId> = HashSet::new();
        for (one, other) in
            [&closure.first, &closure.second].into_iter().flat_map(|side| neighbours(work, side))
        {
            if let Some((late, later)) = joining.too_late(&one, &other, None, when)
                && !circles.has(work.stitchings.len() + at, late)
                && let Some(seam) = work.stitchings.get(late).map(|stitching| stitching.seam)
                && seen.insert(seam)
            {
                let seam = format!("sewing {}", garment.seam(seam).name);
                early(diagnostics, (&name, when), (&seam, later), "which it crosses");
            }
        }
    }
}

/// A dart is sewn before the seam, and before the finish, that its edge is taken up in.
fn darts(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    for (job, when) in &work.jobs {
        let (&Job::TakeUp(layer, name), &Some(when)) = (job, when) else { continue };
        let dart = garment.edge(name);
        let is_on = |part: crate::sewing::PartId, edge: crate::resolve::DrawnEdgeId| {
            let drawn = work.finder.drawn(part).filter(|_| work.finder.part(part).layer == layer);
            drawn.is_some_and(|drawn| drawn.take_ups_on(edge).iter().any(|(one, _)| one.name == name))
        };
        let later = format!("sewing {} of {}", dart.name, garment.piece(dart.piece).title);
        for (at, stitching) in work.stitchings.iter().enumerate() {
            let Some(first) = work.when(Job::Seam(at)).filter(|first| *first < when) else { continue };
            if stitching.places().any(|place| is_on(place.part, place.edge)) {
                let sooner = format!("sewing {}", garment.seam(stitching.seam).name);
                early(diagnostics, (&sooner, first), (&later, when), "over whose edge it goes");
                break;
            }
        }
        for (job, first) in &work.jobs {
            let (&Job::Finish(finish, nth, own), &Some(first)) = (job, first) else { continue };
            let Some(sewn) = garment.finish(finish).edges.get(nth).filter(|_| own == layer && first < when)
            else {
                continue;
            };
            if work.finder.in_layer(layer, sewn).iter().any(|place| is_on(place.part, place.edge)) {
                let sooner = format!("finishing {}", words::edge(garment, sewn.edge));
                early(diagnostics, (&sooner, first), (&later, when), "over whose edge it goes");
                break;
            }
        }
    }
}

/// What a seam encloses is in place before.
fn enclosed(work: &Work, circles: &Circles, diagnostics: &mut Vec<Diagnostic>) {
    for (at, seam) in work.garment.seams.iter().enumerate() {
        let Some(sewn) = work.seam_when(SeamId::from_index(at)) else { continue };
        let is_zip =
            |id: ClosureId| matches!(work.garment.closure(id).kind, Some(ClosureKind::Zipper { .. }));
        for (closure, enclosing) in seam.enclosing.iter().filter(|(id, _)| is_zip(*id)) {
            let name = &work.garment.closure(*closure).name;
            let in_place = work.in_place.get(closure).copied();
            if in_place.is_some_and(|placed| placed < sewn) || circles.has_closure(work, *closure) {
                continue;
            }
            let title = format!("{} encloses {name}, which is not in its place yet", seam.name);
            let mistake = Diagnostic::new(&catalogue::STEP_SHUT, sewn.span, title).label("closes it in");
            let mistake = match in_place {
                Some(placed) => mistake.also(placed.span, "only here"),
                None => mistake.also(*enclosing, "enclosed here"),
            };
            diagnostics.push(mistake.help(format!("baste {name} in a step before sewing {}", seam.name)));
        }
    }
}

/// A gap is left as the seam is sewn, turned through, and closed.
fn gaps(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    for (at, seam) in work.garment.seams.iter().enumerate().filter(|(_, seam)| !seam.gaps.is_empty()) {
        let id = SeamId::from_index(at);
        let mut turns = work.turned.iter().filter(|(_, through)| through.is_none_or(|through| through == id));
        let turn = turns.next().map(|(when, _)| *when);
        if let (Some(turn), Some(sewn)) = (turn, work.seam_whole(id))
            && turn < sewn
        {
            let sewing = format!("sewing {}", seam.name);
            early(diagnostics, ("turning", turn), (&sewing, sewn), "which leaves the gap");
        }
        let Some(closed) = work.when(Job::Gap(id)) else { continue };
        if turn.is_some_and(|turn| turn < closed) {
            continue;
        }
        let title = format!("the gap in {} is closed before anything is turned through it", seam.name);
        let mistake = Diagnostic::new(&catalogue::STEP_SHUT, closed.span, title).label("closed here");
        let mistake = match (turn, seam.gaps.first()) {
            (Some(turn), _) => mistake.also(turn.span, "turned only here"),
            (None, Some(gap)) => mistake.also(gap.span, "the gap"),
            (None, None) => mistake,
        };
        diagnostics
            .push(mistake.help(format!("turn through gap in {} in a step before this one", seam.name)));
    }
}

/// The channel of a cord is made before it is threaded.
fn cords(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    for (id, cord) in CordId::enumerate(&garment.cords) {
        let Some(threaded) = work.when(Job::Cord(id)) else { continue };
        let threading = format!("threading {}", cord.name);
        // A folded band is a channel once both its edges are sewn.
        let folded = cord.through.iter().filter(|through| !garment.piece(through.piece).folds.is_empty());
        let bands: HashSet<_> = folded
            .filter_map(|through| {
                Some((through.layer.or_else(|| sewn_layer(garment, through.piece))?, through))
            })
            .flat_map(|(layer, through)| work.finder.in_layer(layer, through))
            .map(|place| (place.part, place.edge))
            .collect();
        for (job, when) in work.jobs.iter().filter(|_| !bands.is_empty()) {
            let (Job::Seam(at), Some(when)) = (job, when.filter(|when| *when > threaded)) else { continue };
            let Some(stitching) = work.stitchings.get(*at) else { continue };
            if stitching.places().any(|place| bands.contains(&(place.part, place.edge))) {
                let sewing = format!("sewing {}", garment.seam(stitching.seam).name);
                early(diagnostics, (&threading, threaded), (&sewing, when), "through which it runs");
            }
        }
        for (job, when) in &work.jobs {
            let (Job::Finish(finish, nth, layer), Some(when)) = (job, when) else { continue };
            let kind = &garment.finish(*finish).kind;
            let Some(sewn) = garment.finish(*finish).edges.get(*nth) else { continue };
            // Only a channel is waited for, and only where the cord runs: not the lining's hem.
            let is_through = |through: &SewnEdge| {
                through.edge == sewn.edge && through.layer.is_none_or(|own| own == *layer)
            };
            let is_channel = matches!(kind, FinishKind::Casing(..));
            if *when > threaded && is_channel && cord.through.iter().any(is_through) {
                let finishing = format!("finishing {}", words::edge(garment, sewn.edge));
                early(diagnostics, (&threading, threaded), (&finishing, *when), "through which it runs");
            }
        }
    }
}

/// Once layers are turned, what lies between them cannot be reached.
fn closed_spaces(work: &Work, diagnostics: &mut Vec<Diagnostic>) {
    let garment = work.garment;
    let Some(&(turn, through)) = work.turned.first() else { return };
    let mut layers: Vec<LayerId> = Vec::new();
    for stitching in work.stitchings {
        let has_gap = !garment.seam(stitching.seam).gaps.is_empty();
        if has_gap && through.is_none_or(|through| through == stitching.seam) {
            layers.extend(stitching.places().map(|place| work.layer_of(place)));
        }
    }
    for (job, when) in &work.jobs {
        let Some(when) = when.filter(|when| *when > turn) else { continue };
        let name = match *job {
            Job::Seam(at) => {
                let Some(stitching) = work.stitchings.get(at) else { continue };
                let seam = garment.seam(stitching.seam);
                let mut own = stitching.places().map(|place| work.layer_of(place));
                let first = own.next();
                let within =
                    first.is_some_and(|first| layers.contains(&first) && own.all(|own| own == first));
                // What leaves the gap is reported as turned too early.
                if !within || !seam.gaps.is_empty() {
                    continue;
                }
                format!("the seam {}", seam.name)
            }
            Job::Place(id, layer) if layers.contains(&layer) => {
                words::piece(garment, garment.placement(id).piece)
            }
            _ => continue,
        };
        let title = format!("{name} is sewn after the layers are closed, where it can no longer be reached");
        diagnostics.push(
            Diagnostic::new(&catalogue::STEP_SHUT, when.span, title)
                .label("shut in")
                .also(turn.span, "turned here")
                .help("sew it in a step before the layers are closed"),
        );
    }
}
