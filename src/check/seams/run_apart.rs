//! `run/apart`: runs of one edge in two layers, sewn to each other though they lie elsewhere on it.
//!
//! A lining lies in its shell edge on edge. What is sewn shut of both beside a slit holds them so; a slit of the lining
//! that begins lower than that of the shell cannot be sewn to it without drawing one of the two up.

use super::on_edge::OnEdge;
use super::runs::{drawn, facing};
use super::sides::{in_size, ply_span};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::{SewnRun, SewnSeam};

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::RUN_APART], run: Run::PerSize(run) };

/// So far a lining's run may lie from the shell's, in millimetres: a lining is cut with some ease in its length (common
/// practice: 1 cm at the waist, the pleat at the hem).
const EASE: f64 = 10.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.portions.is_empty() {
        return;
    }
    let mut last = None;
    for sewn in size.sewn.seams.iter().filter(|sewn| sewn.layers.len() > 1 && sewn.known) {
        if sewn.unmet.is_some() || last == Some(sewn.seam) {
            continue;
        }
        if let Some((runs, by)) = apart(garment, size, sewn) {
            last = Some(sewn.seam);
            findings.push(reported(garment, size, sewn, runs, by));
        }
    }
}

/// Two runs that lie on one another in the seam, and how far apart they lie on their edges.
fn apart<'a>(garment: &Garment, size: &WorkedSize, sewn: &'a SewnSeam) -> Option<([&'a SewnRun; 2], f64)> {
    let (first, second) = (sewn.first.plies.first()?, sewn.second.plies.first()?);
    facing(first, second).into_iter().find_map(|(one, other)| {
        let layer = |run: &SewnRun| size.sewn.part(run.part).part.layer;
        let on = |run: &SewnRun| {
            let drawn = drawn(size, run)?;
            let cloth = size.sewn.part(run.part).cloth();
            let portion = garment.portion_on(drawn.edge_at(run.edge)?.edge, cloth)?;
            let is_of_it = |edge: EdgeId| garment.portion_on(edge, cloth) == Some(portion);
            OnEdge::of_all(garment, drawn, run.edge, &is_of_it)
        };
        let (own, their) = (on(one)?, on(other)?);
        let by = own.away_from(&their).filter(|by| layer(one) != layer(other) && *by > EASE)?;
        Some(([one, other], by))
    })
}

fn reported(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, runs: [&SewnRun; 2], by: f64) -> Finding {
    let seam = garment.seam(sewn.seam);
    let named = runs.map(|run| {
        let edge = drawn(size, run).and_then(|drawn| drawn.edge_at(run.edge)).map(|own| own.edge);
        let portion = edge.and_then(|edge| garment.portion_on(edge, size.sewn.part(run.part).cloth()));
        let portion = portion.map(|id| garment.portion(id));
        let part = size.sewn.part(run.part).part;
        let whole = edge.map(|edge| garment.whole_edge(edge));
        let path = whole.map_or(String::new(), |whole| {
            format!("{}.{}", garment.part_name(Some(part.layer), part.piece), garment.edge(whole).name)
        });
        let words = portion.map_or(String::new(), |portion| portion.words.to_string());
        (path, words, whole)
    });
    let [(one, words_of_one, whole), (other, words_of_other, _)] = named;
    let far = amount(by, garment.unit);
    let edge = whole.map_or(String::new(), |whole| words::edge(garment, whole));
    let layers = runs.map(|run| &garment.layer(size.sewn.part(run.part).part.layer).name);
    let title = Title::new(format!(
        "{} sews runs of {edge} in {} and {} together that lie {far} apart on it",
        seam.words(),
        layers[0],
        layers[1]
    ));
    let warning = Diagnostic::new(&catalogue::RUN_APART, ply_span(seam, true, 0), title.in_sizes())
        .label(format!("{far} from where it is sewn to{}", in_size(garment, &size.drawn)))
        .also(ply_span(seam, false, 0), "lies here")
        .help(format!(
            "both layers lie on one another along that edge, and one of them would be drawn up: take the same run of both, \
             {other} {words_of_one}, or {one} {words_of_other}"
        ));
    Finding::new(size.drawn.size, by, warning).about(&*seam.name).figure("apart", far)
}
