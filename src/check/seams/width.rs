//! `seam/width`: felled, french, lapped, topstitched and bound seams whose allowance is too little for
//! their width.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, SeamId, SeamSide, SeamWork};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, at_most, catalogue};
use crate::sewing::{SeamMaking, TakenBy, amount_of, seam_making};
use crate::source::Span;
use crate::syntax::tree::SeamKind;
use std::collections::BTreeMap;

pub(in crate::check) static CHECK: Check = Check { kinds: &[&catalogue::SEAM_WIDTH], run: Run::PerSize(run) };

/// What may be wanting without being reported, in millimetres.
const SLACK: f64 = 0.05;
/// A seam narrower than this is not offered, in millimetres.
const LEAST_OFFERED: f64 = 1.0;

/// An edge with less allowance than its seam takes.
struct Short {
    edge: EdgeId,
    allowance: f64,
    said: Option<Span>,
    needs: f64,
}

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut makings: BTreeMap<SeamId, SeamMaking> = BTreeMap::new();
    for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.poisoned) {
        let Some(work) = &seam.work else { continue };
        match amount_of(garment, sized, &work.width) {
            Some(0.0) => {
                let title = Title::new(format!("the {} seam {} is 0 wide", work.kind.words(), seam.name));
                let mistake = Diagnostic::new(&catalogue::SEAM_WIDTH, work.span, title.in_sizes())
                    .label("how wide is it when it is finished?")
                    .help("say how wide it is, or leave the line out: then the seam is plain");
                findings.push(Finding::new(sized.size, 0.0, mistake).about(&*seam.name));
            }
            _ => {
                let making = seam_making(garment, sized, seam);
                makings.extend(making.map(|making| (id, making)));
            }
        }
    }
    if makings.is_empty() {
        return;
    }
    let mut worst: BTreeMap<SeamId, Short> = BTreeMap::new();
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        for (edge, fate) in drawn.edges.iter().zip(&part.edges).filter(|(_, fate)| !fate.turned_up) {
            let Some(allowance) = fate.allowance else { continue };
            let seams = fate.takers.iter().filter_map(|taker| match taker.what {
                TakenBy::Seam(id, second) => {
                    Some((id, if second { SeamSide::Second } else { SeamSide::First }))
                }
                _ => None,
            });
            for (id, side) in seams {
                let Some(needs) = makings.get(&id).and_then(|making| making.least_allowance(side)) else {
                    continue;
                };
                let is_worse = worst.get(&id).is_none_or(|short| allowance < short.allowance);
                if allowance + SLACK < needs && is_worse {
                    let said = fate.allowance_span;
                    worst.insert(id, Short { edge: edge.edge, allowance, said, needs });
                }
            }
        }
    }
    for (id, short) in worst {
        let (seam, Some(making)) = (garment.seam(id), makings.get(&id)) else { continue };
        let Some(work) = &seam.work else { continue };
        let wanting = short.needs - short.allowance;
        let mistake = finding(garment, &seam.name, work, making, &short);
        findings.push(
            Finding::new(sized.size, wanting, mistake)
                .about(&*seam.name)
                .figure("takes", amount(short.needs, garment.unit))
                .figure("there is", amount(short.allowance, garment.unit)),
        );
    }
}

fn finding(garment: &Garment, name: &str, work: &SeamWork, making: &SeamMaking, short: &Short) -> Diagnostic {
    let unit = garment.unit;
    let kind = making.kind.words();
    let (wide, needs, has) =
        (amount(making.width, unit), amount(short.needs, unit), amount(short.allowance, unit));
    let edge = words::edge(garment, short.edge);
    let title = match making.kind {
        SeamKind::EdgesBound => {
            Title::new(format!("edges bound {wide} take {needs} of allowance in the seam {name}"))
        }
        _ => Title::new(format!("the {kind} seam {name}, {wide} wide, takes {needs} of allowance")),
    };
    let title = title.then(format!(": {edge} has {has}")).in_sizes();
    let mistake = Diagnostic::new(&catalogue::SEAM_WIDTH, work.span, title).label(reason(garment, making));
    let mistake = match short.said {
        Some(said) => mistake.also(said, format!("{has} here")),
        None => mistake,
    };
    let enough = words::written(&at_least(short.needs, unit));
    let widest = making.widest(short.allowance);
    mistake.help(match widest >= LEAST_OFFERED {
        true => format!(
            "give it what it takes, in its braces: allowance {enough}; or make it no wider than {}",
            at_most(widest, unit)
        ),
        false => format!("give it what it takes, in its braces: allowance {enough}"),
    })
}

/// Why it takes so much.
fn reason(garment: &Garment, making: &SeamMaking) -> String {
    let wide = amount(making.width, garment.unit);
    match making.kind {
        SeamKind::French => format!("sewn twice: {wide} for each row"),
        SeamKind::Felled => format!("{wide}, and as much again for the fold"),
        SeamKind::Topstitched | SeamKind::Lapped => {
            format!("{wide} to the row, and {} beyond it", amount(crate::sewing::BEYOND_ROW, garment.unit))
        }
        SeamKind::EdgesBound => format!("a binding {wide} wide lies on it"),
    }
}
