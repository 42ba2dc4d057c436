//! `opening/passes`: a closed neck, waist or cuff must go over head, hips or hand.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment, Opening};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::SizedGarment;
use crate::sewing::{ELASTIC_STRETCH, OpeningRing};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::OPENING_PASSES], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    for (opening, ring) in garment.openings.iter().zip(&sewing.openings) {
        let (Some(ring), Some(needed)) = (ring, sized.scalar(opening.passes)) else { continue };
        let opens = ring.stretched + ring.closures.iter().map(|(_, adds)| adds).sum::<f64>();
        let short = needed - opens;
        if short.is_finite() && short > garment.tolerance {
            findings.push(finding(garment, sized, opening, ring, needed, opens));
        }
    }
}

fn finding(
    garment: &Garment,
    sized: &SizedGarment,
    opening: &Opening,
    ring: &OpeningRing,
    needed: f64,
    opens: f64,
) -> Finding {
    let unit = garment.unit;
    let body = &garment.value(opening.passes).name;
    let mut edges: Vec<String> =
        opening.ring.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    edges.dedup();
    let title = Title::new(format!(
        "the opening of {} is {} too small for the {body}",
        words::listed(&edges),
        amount(needed - opens, unit)
    ))
    .in_sizes();
    let mut held = None;
    let mut how = format!("{} round", amount(ring.length, unit));
    if let Some(finish) = ring.held_by {
        let stretched = amount(ring.stretched, unit);
        how = format!("{how}, {stretched} with its elastic stretched {ELASTIC_STRETCH} times");
        held = Some(garment.finish(finish).kind_span);
    } else if ring.stretched > ring.length + garment.tolerance {
        how = format!("{how}, {} stretched", amount(ring.stretched, unit));
    }
    for (closure, adds) in &ring.closures {
        how = format!("{how}, {} more with {} open", amount(*adds, unit), garment.closure(*closure).name);
    }
    let mut mistake = Diagnostic::new(&catalogue::OPENING_PASSES, opening.ring.span, title)
        .label(how)
        .also(opening.passes_span, amount(needed, unit));
    if let Some(elastic) = held {
        mistake = mistake.also(elastic, "held by this elastic");
    }
    let mistake = mistake.help(way_out(garment, ring, needed - opens));
    Finding::new(sized.size, needed - opens, mistake)
        .about(opening.span.lo.to_string())
        .figure("opens to", amount(opens, unit))
        .figure(body, amount(needed, unit))
}

fn way_out(garment: &Garment, ring: &OpeningRing, short: f64) -> String {
    let by = amount(short, garment.unit);
    match ring.closures.first() {
        Some(&(id, _)) => {
            let closure = garment.closure(id);
            let what = match closure.kind {
                Some(ClosureKind::Zipper { .. }) => "the zip",
                _ => "the closure",
            };
            format!(
                "make {what} of {} {} longer, or the opening {by} wider",
                closure.name,
                amount(short / 2.0, garment.unit)
            )
        }
        // Wider alone does not help: the elastic would be stretched further.
        None if ring.held_by.is_some() => {
            let longer = amount(short / ELASTIC_STRETCH, garment.unit);
            match ring.stretched < ring.length {
                true => format!("take elastic that is at least {longer} longer, or give it a closure"),
                false => format!("make it {by} wider and its elastic longer, or give it a closure"),
            }
        }
        None => format!("make it {by} wider, give it a closure, or take a cloth that stretches more"),
    }
}
