//! Seams that may be: edges that nothing has taken yet and that are equally long in every size.

use super::analysis::Analysis;
use crate::check::loose;
use crate::garment::EdgeId;
use crate::report::{Fix, amount};
use crate::shape::partners::{ALIKE, apart};
use crate::source::{FileId, Span};

/// Of more loose edges than this none is asked about: so many are alike by chance.
const MOST: usize = 1_000;
/// How many partners one edge is offered.
const OFFERED: usize = 6;

/// An edge, where its name is declared, and a way to sew it.
pub(super) struct Offer {
    pub at: Span,
    pub fix: Fix,
}

/// What may be sewn to the edges that nothing takes, nearest in length first. The seam is written at the end of the
/// garment's own file.
pub(super) fn partner_seams(analysis: &Analysis) -> Vec<Offer> {
    let compiled = &analysis.compiled;
    let garment = &compiled.garment;
    let loose = loose(garment, &compiled.sizes);
    if loose.len() > MOST || compiled.map.files().is_empty() {
        return Vec::new();
    }
    let file = compiled.map.file(FileId(0));
    let end = file.span().hi;
    let gap = if file.text.ends_with('\n') { "" } else { "\n" };
    let called = |edge: EdgeId| {
        format!("{}.{}", garment.piece(garment.edge(edge).piece).name, garment.edge(edge).name)
    };
    let mut offers = Vec::new();
    for (&edge, lengths) in &loose {
        let mut partners: Vec<(f64, EdgeId)> = loose
            .iter()
            .filter(|(other, _)| **other != edge && garment.edge(**other).piece != garment.edge(edge).piece)
            .map(|(other, theirs)| (apart(lengths, theirs), *other))
            .filter(|(apart, _)| *apart <= ALIKE)
            .collect();
        partners.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
        for (_, partner) in partners.into_iter().take(OFFERED) {
            let (own, other) = (called(edge), called(partner));
            let name = seam_name(analysis, edge, partner);
            let (least, most) =
                (lengths.first().copied().unwrap_or(0.0), lengths.last().copied().unwrap_or(0.0));
            let [least, most] = [least, most].map(|long| amount(long, garment.unit));
            let long =
                if least == most { format!("{least} in every size") } else { format!("{least} to {most}") };
            let fix = Fix {
                title: format!("sew to {other} ({long})"),
                edits: vec![(Span::new(end, end), format!("{gap}seam {name}  {own} to {other}\n"))],
            };
            offers.push(Offer { at: garment.edge(edge).span, fix });
        }
    }
    offers
}

/// A name for the seam that none has yet.
fn seam_name(analysis: &Analysis, one: EdgeId, other: EdgeId) -> String {
    let garment = &analysis.compiled.garment;
    let (own, partner) = (garment.edge(one), garment.edge(other));
    let plain = match own.name == partner.name {
        true => own.name.to_string(),
        false => format!("{}_{}", garment.piece(own.piece).name, own.name),
    };
    let taken = |name: &str| garment.seams.iter().any(|seam| *seam.name == *name);
    let mut name = plain.clone();
    let mut number = 2;
    while taken(&name) {
        name = format!("{plain}_{number}");
        number += 1;
    }
    name
}
