//! `notion/unneeded`: a price for something that the garment does not need; buttons and the like that are bought, and that nothing
//! is closed with.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{ClosureKind, Garment, Notion, NotionId, NotionKind};
use crate::report::{Diagnostic, amount, catalogue};
use crate::sewing::{NotionNeed, NotionSource, Sewing};
use crate::syntax::tree::Fastener;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::NOTION_UNNEEDED], run: Run::OverSizes(run) };

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    // What is not known may be what the price is for.
    let zips =
        garment.closures.iter().filter(|one| matches!(one.kind, Some(ClosureKind::Zipper { .. }))).count();
    let is_zip = |need: &&NotionNeed| matches!(need.name.kind, NotionKind::Zip(_));
    let is_known =
        |sewing: &Sewing| sewing.surface.is_some() && sewing.notions.iter().filter(is_zip).count() >= zips;
    if sizes.is_empty() || !sizes.iter().all(|size| is_known(&size.sewn)) {
        return;
    }
    let needs = || sizes.iter().flat_map(|size| &size.sewn.notions);
    let is_priced =
        |notion: &Notion| notion.price.is_some() && notion.amount.is_none() && !notion.from_library;
    let priced = NotionId::enumerate(&garment.notions).filter(|(_, notion)| is_priced(notion));
    bought_in_vain(garment, sizes, diagnostics);
    for (_, notion) in priced.filter(|(id, _)| garment.sets_of(*id).next().is_none()) {
        if needs().any(|need| notion.name.covers(&need.name)) {
            continue;
        }
        let mut known: Vec<String> = Vec::new();
        for need in needs() {
            let words = called(garment, need, notion);
            if !known.contains(&words) {
                known.push(words);
            }
        }
        let title = format!("a price is given for {}, and nothing of the kind is needed", notion.title);
        let help = match known.is_empty() {
            true => "take it out: nothing is bought beside cloth and thread".to_owned(),
            false => format!("take it out, or price what is needed: {}", words::listed(&known)),
        };
        diagnostics.push(
            Diagnostic::new(&catalogue::NOTION_UNNEEDED, notion.span, title).label("for nothing").help(help),
        );
    }
}

/// Buttons of another size than those of the closures, say: what is bought is set on, or closes something. Toggles hold the ends of
/// cords, and a buckle closes a strap.
fn bought_in_vain(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let is_listed = |need: &&NotionNeed| matches!(need.source, NotionSource::Listed(_));
    let needs = || sizes.iter().flat_map(|size| &size.sewn.notions).filter(|need| !is_listed(need));
    let is_bought = |notion: &Notion| {
        let closes = matches!(notion.name.kind, NotionKind::Fastener(Fastener::Button | Fastener::Snap));
        notion.amount.is_some() && !notion.from_library && closes
    };
    for (id, notion) in NotionId::enumerate(&garment.notions).filter(|(_, notion)| is_bought(notion)) {
        let is_set = garment.sets_of(id).next().is_some();
        if is_set || needs().any(|need| notion.name.covers(&need.name)) {
            continue;
        }
        let mut alike: Vec<String> = Vec::new();
        for need in needs().filter(|need| matches!(need.name.kind, NotionKind::Fastener(_))) {
            let words = need.name.words(garment);
            if !alike.contains(&words) {
                alike.push(words);
            }
        }
        let title = format!("{} is bought, and nothing is closed with it", notion.title);
        let help = match alike.is_empty() {
            true => {
                "take it out; or say what it closes, a closure with buttons; or where it is sewn on, with set"
                    .to_owned()
            }
            false => format!(
                "take it out, for {} is counted by itself; or say where it is sewn on, with set",
                words::listed(&alike)
            ),
        };
        diagnostics.push(
            Diagnostic::new(&catalogue::NOTION_UNNEEDED, notion.span, title).label("for nothing").help(help),
        );
    }
}

/// What a need is called; of zips with their length, where the price names one.
fn called(garment: &Garment, need: &NotionNeed, priced: &Notion) -> String {
    let words = match &need.source {
        NotionSource::Listed(id) => garment.notion(*id).title.to_string(),
        _ => need.name.words(garment),
    };
    match (need.name.measure, &priced.name) {
        (Some(length), name)
            if matches!((&need.name.kind, &name.kind), (NotionKind::Zip(_), NotionKind::Zip(_)))
                && name.measure.is_some() =>
        {
            format!("{words} {}", amount(length, garment.unit))
        }
        _ => words,
    }
}
