//! `alter/made-up`: a piece is lengthened at a line and its partner is not, and a value that is found anew makes up
//! for it.
//!
//! `let drop between 0 and 5 so that finished(front.side) = finished(back.side)` finds a drop for whatever becomes of
//! the front. The seam then matches, and the back is changed where nobody looked.

use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, Seam, ValueId, ValueKind};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::ALTER_MADE_UP], run: Run::PerSize(run) };

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    for (id, value) in ValueId::enumerate(&garment.values) {
        let ValueKind::Solved { left, right, .. } = &value.kind else { continue };
        let (Some(one_sided), Some(found)) =
            (garment.altered_on_one_side(left, right), size.drawn.scalar(id))
        else {
            continue;
        };
        let Some(seam) = garment
            .seams
            .iter()
            .find(|seam| joins(garment, seam, &one_sided.edges, &one_sided.partner_edges))
        else {
            continue;
        };
        let alteration = garment.alteration(one_sided.alteration);
        let by = size.drawn.amounts.get(one_sided.alteration.index()).copied().flatten();
        let Some(by) = by.filter(|by| by.abs() > garment.tolerance) else { continue };
        let (form, unit) = (alteration.form().map_or("altered", |form| form.participle), garment.unit);
        let partner: Vec<String> =
            one_sided.partner.iter().map(|&piece| words::piece(garment, piece)).collect();
        let own = words::piece(garment, one_sided.piece);
        let by = amount(by.abs(), unit);
        let title = Title::new(format!("{own} is {form} by {by} and {} is not", words::listed(&partner)))
            .in_sizes()
            .then(format!(": {} makes up for it, so that {} still matches", value.name, seam.words()));
        let names: Vec<String> =
            one_sided.partner.iter().map(|&piece| garment.piece(piece).name.to_string()).collect();
        let warning = Diagnostic::new(&catalogue::ALTER_MADE_UP, alteration.span, title)
            .label(format!("{} alone", garment.piece(one_sided.piece).name))
            .also(value.span, format!("found anew: {}", amount(found, unit)))
            .help(format!(
                "{} {} too, in the same line; or, if it is meant so, look at what hangs on {}",
                alteration.verb(),
                words::listed(&names),
                value.name
            ));
        findings.push(
            Finding::new(size.id(), 0.0, warning)
                .about(&*value.name)
                .figure(&value.name, amount(found, unit)),
        );
    }
}

/// Whether a seam has an edge of the one kind on one side, and of the other on the other.
fn joins(garment: &Garment, seam: &Seam, one: &[EdgeId], other: &[EdgeId]) -> bool {
    let has = |side: &[crate::garment::Chain], edges: &[EdgeId]| {
        let mut sewn = side.iter().flat_map(|chain| &chain.edges);
        sewn.any(|sewn| {
            edges.iter().any(|&edge| garment.is_run_of(sewn.edge, edge) || garment.is_run_of(edge, sewn.edge))
        })
    };
    has(&seam.first, one) && has(&seam.second, other) || has(&seam.first, other) && has(&seam.second, one)
}
