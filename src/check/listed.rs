//! `notion/twice`, `notion/count` and `opening/twice`: what is listed twice, or for nothing.

use super::{Check, Run};
use crate::cutting::WorkedSize;
use crate::garment::{Dimension, EdgeId, Garment, LayerId, ValueId};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::sewing::amount_of;
use crate::source::Span;
use crate::syntax::tree::Hand;
use std::collections::HashMap;

pub(super) static TWICE: Check =
    Check { kinds: &[&catalogue::NOTION_TWICE, &catalogue::OPENING_TWICE], run: Run::Once(twice) };
pub(super) static NOTHING: Check = Check { kinds: &[&catalogue::NOTION_COUNT], run: Run::PerSize(nothing) };

/// The edges of an opening, in one order, each with its layer and its side of the body where these are named.
type Ring = Vec<(Option<LayerId>, EdgeId, Option<Hand>)>;

fn twice(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let mut notions: HashMap<&str, Span> = HashMap::new();
    for notion in garment.notions.iter().filter(|notion| notion.amount.is_some()) {
        let Some(first) = notions.insert(&notion.title, notion.span) else { continue };
        let title = format!("{} is listed twice", notion.title);
        diagnostics.push(
            Diagnostic::new(&catalogue::NOTION_TWICE, notion.span, title)
                .label("once more")
                .also(first, "listed here")
                .help("remove one of the two; if more are needed, say how many in one place"),
        );
    }
    // A garment may price anew what a library prices.
    let mut prices: HashMap<(&str, bool), Span> = HashMap::new();
    let priced = garment.notions.iter().filter(|notion| notion.amount.is_none() && notion.price.is_some());
    for notion in priced {
        let Some(first) = prices.insert((&notion.title, notion.from_library), notion.span) else { continue };
        diagnostics.push(
            Diagnostic::new(
                &catalogue::NOTION_TWICE,
                notion.span,
                format!("{} is priced twice", notion.title),
            )
            .label("once more")
            .also(first, "priced here")
            .help("remove one of the two prices"),
        );
    }
    let mut openings: HashMap<(Ring, ValueId), Span> = HashMap::new();
    for opening in &garment.openings {
        let mut ring: Ring = opening.ring.edges.iter().map(|sewn| (sewn.layer, sewn.edge, sewn.on)).collect();
        ring.sort_unstable();
        let Some(first) = openings.insert((ring, opening.passes), opening.span) else { continue };
        diagnostics.push(
            Diagnostic::new(&catalogue::OPENING_TWICE, opening.span, "this opening is declared already")
                .label("once more")
                .also(first, "declared here")
                .help("remove one of the two, or name the edges that were meant"),
        );
    }
}

fn nothing(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    for notion in &garment.notions {
        let Some(said) = &notion.amount else { continue };
        let is_length = said.dimension == Dimension::Length;
        let cannot = |value: &f64| *value <= 0.0 || !is_length && value.fract() != 0.0;
        let Some(value) = amount_of(garment, sized, said).filter(cannot) else { continue };
        let many = if is_length { amount(value, garment.unit) } else { value.to_string() };
        let title = Title::new(format!("{many} of {} cannot be bought", notion.title)).in_sizes();
        let mistake = Diagnostic::new(&catalogue::NOTION_COUNT, said.span, title)
            .label(many)
            .help("say how many or how much, or take the line out");
        findings.push(Finding::new(sized.size, -value, mistake));
    }
}
