//! `finish/onto`: an edge that is felled onto a seam or a zip of another length, or onto what is neither.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{
    Catcher, Closure, ClosureId, ClosureKind, Finish, FinishKind, Garment, SeamId, SewnEdge,
};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{finished, sewn_layer};
use crate::sewing::{Finder, Place};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::FINISH_ONTO], run: Run::PerSize(run) };

/// By hand so much is eased onto one side of a zip, or a lining stops so far short of its ends, in millimetres: common
/// practice, which keeps it clear of the slider.
const CLEAR_OF_A_ZIP: f64 = 5.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for finish in &garment.finishes {
        findings.extend(match finish.kind {
            FinishKind::TurnedUnderOnto(Catcher::Seam(seam)) => unequal(garment, size, finish, seam),
            FinishKind::TurnedUnderOnto(Catcher::Closure(zip)) => onto_zip(garment, size, finish, zip),
            _ => None,
        });
    }
}

/// How long all edges of a finish are, over all copies.
fn length(garment: &Garment, finder: &Finder, finish: &Finish) -> Option<f64> {
    let mut edge = 0.0;
    for place in finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn)) {
        edge += on_one(garment, finder, &place)? * f64::from(finder.times(place.part));
    }
    Some(edge)
}

fn on_one(garment: &Garment, finder: &Finder, place: &Place) -> Option<f64> {
    finished(garment, finder.drawn(place.part)?, place.edge)
}

/// Over all copies both must be equally long, or the edge is puckered or does not reach.
fn unequal(garment: &Garment, size: &WorkedSize, finish: &Finish, seam: SeamId) -> Option<Finding> {
    let edge = length(garment, &size.finder(garment), finish)?;
    let own = size.sewn.seams.iter().filter(|sewn| sewn.seam == seam);
    let mut stitched = 0.0;
    for sewn in own {
        if !sewn.known || sewn.unpaired.is_some() {
            return None;
        }
        let long = sewn.second.plies.iter().map(|ply| ply.length).fold(0.0, f64::max);
        stitched += long * f64::from(sewn.sewings);
    }
    let off = (edge - stitched).abs();
    if stitched <= 0.0 || off <= garment.tolerance {
        return None;
    }
    let seam = garment.seam(seam);
    let onto =
        Onto { words: seam.words(), name: &seam.name, span: seam.name_span, long: stitched, kind: "seam" };
    let help = "make them equally long, or name the seam that runs along all of it";
    Some(told(garment, size, finish, (edge, off), &onto, help))
}

/// A zip's sides may go on beyond what is felled onto them, but from joint to joint both are about equally long.
fn onto_zip(garment: &Garment, size: &WorkedSize, finish: &Finish, zip: ClosureId) -> Option<Finding> {
    let closure = garment.closure(zip);
    match closure.kind {
        Some(ClosureKind::Zipper { .. }) => {}
        Some(ClosureKind::Fasteners(_)) => return Some(no_zip(garment, size, finish, closure)),
        None => return None,
    }
    let finder = size.finder(garment);
    let edge = length(garment, &finder, finish)?;
    let rows = rows_beside(garment, &finder, closure)?;
    let (times, along) = rows
        .into_iter()
        .min_by(|one, other| (edge - one.0 * one.1).abs().total_cmp(&(edge - other.0 * other.1).abs()))?;
    let off = (edge / times - along).abs();
    if along <= 0.0 || off <= CLEAR_OF_A_ZIP + garment.tolerance {
        return None;
    }
    let onto = Onto {
        words: closure.name.to_string(),
        name: &closure.name,
        span: closure.name_span,
        long: along,
        kind: "zip",
    };
    let help = "make it as long as the zip's edge, or name the run of it that lies along the zip: front.centre 20 from waist_cf";
    Some(told(garment, size, finish, (edge / times, off), &onto, help))
}

/// What may be felled onto: on one side of the zip or on both, on so many copies, any run of its edges from joint to joint,
/// with its length.
fn rows_beside(garment: &Garment, finder: &Finder, closure: &Closure) -> Option<Vec<(f64, f64)>> {
    let is_one_edge = |(one, other): (&SewnEdge, &SewnEdge)| one.edge == other.edge && one.on == other.on;
    let (first, second) = (&closure.first.edges, &closure.second.edges);
    let is_left_on_right = first.len() == second.len() && first.iter().zip(second).all(is_one_edge);
    let mut copies: f64 = 0.0;
    let mut joints = vec![0.0];
    for sewn in first {
        let layer = sewn.layer.or_else(|| sewn_layer(garment, sewn.piece))?;
        let (mut all, mut times) = (0.0, 0.0);
        let places = finder.in_layer(layer, sewn);
        for place in &places {
            let own = f64::from(finder.times(place.part));
            all += on_one(garment, finder, place)? * own;
            times = own.max(times);
        }
        // A side that is told apart is there once, and its twin beside it.
        let apart = places.iter().filter(|place| finder.twin(place.part).is_some()).count();
        let times = if apart > 1 { 2.0 * times } else { times };
        copies = copies.max(times);
        joints.push(joints.last().copied().unwrap_or(0.0) + all / f64::max(times, 1.0));
    }
    let both = if is_left_on_right { copies } else { 2.0 * copies };
    let mut rows = Vec::new();
    for (at, from) in joints.iter().enumerate() {
        for to in joints.iter().skip(at + 1) {
            rows.extend([(both / 2.0, to - from), (both, to - from)]);
        }
    }
    rows.retain(|(times, _)| *times >= 1.0);
    Some(rows)
}

fn no_zip(garment: &Garment, size: &WorkedSize, finish: &Finish, closure: &Closure) -> Finding {
    let title = format!("{} is no zip, and nothing is felled onto it", closure.name);
    let edges: Vec<String> = finish.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    let mistake = Diagnostic::new(&catalogue::FINISH_ONTO, finish.kind_span, title)
        .label("no seam and no zip")
        .also(closure.name_span, "what it is")
        .help(format!(
            "name the seam whose stitching {} is sewn down onto, or finish it by itself: hem 1",
            words::listed(&edges)
        ));
    Finding::new(size.drawn.size, 0.0, mistake).about(&*closure.name)
}

/// What an edge is felled onto.
struct Onto<'a> {
    words: String,
    name: &'a str,
    span: crate::source::Span,
    long: f64,
    kind: &'static str,
}

fn told(
    garment: &Garment,
    size: &WorkedSize,
    finish: &Finish,
    (edge, off): (f64, f64),
    onto: &Onto,
    help: &str,
) -> Finding {
    let unit = garment.unit;
    let (is, along) = (amount(edge, unit), amount(onto.long, unit));
    let edges: Vec<String> = finish.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    let title = Title::new(format!(
        "{} is {is} long, {} that it is felled onto {along}",
        words::listed(&edges),
        onto.words
    ));
    let mistake = Diagnostic::new(&catalogue::FINISH_ONTO, finish.kind_span, title.in_sizes())
        .label(match edge > onto.long {
            true => format!("{} too long", amount(off, unit)),
            false => format!("{} too short", amount(off, unit)),
        })
        .also(onto.span, along.clone())
        .help(help);
    Finding::new(size.drawn.size, off, mistake).about(onto.name).figure("edge", is).figure(onto.kind, along)
}
