//! The table of fates: what becomes of every edge of every part.

use super::sheet::Sheet;
use crate::garment::{Catcher, FinishKind, Garment, HemEdge};
use crate::report::amount;
use crate::resolve::SizedGarment;
use crate::sewing::{EdgeFate, Sewing, TakenBy, Taker};

/// An edge of a part and its fate.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FateRow {
    /// The layer and the piece: `outer.front`.
    pub part: String,
    /// The edge's name.
    pub edge: String,
    /// What takes it, in words; several where something is wrong, or a seam encloses its closure;
    /// none where nothing does.
    pub fates: Vec<String>,
    /// Its allowance, as a tape shows it; none where nobody says it.
    pub allowance: Option<String>,
}

/// Every edge of every sewn part with its fate, in the order of the parts and of their outlines.
/// A fused part has none.
pub fn fates_table(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<FateRow> {
    let mut rows = Vec::new();
    for part in sewing.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        let on = part.hand.map_or(String::new(), |hand| format!(" on {}", hand.word()));
        for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
            rows.push(FateRow {
                part: garment.part_name(Some(part.part.layer), part.part.piece) + &on,
                edge: garment.edge(edge.edge).name.to_string(),
                fates: fates_in_words(garment, fate),
                allowance: fate.allowance.map(|allowance| amount(allowance, garment.unit)),
            });
        }
    }
    rows
}

/// The table with its columns aligned: part, edge, fate, allowance. Each part is named once.
pub fn fates_text(rows: &[FateRow]) -> String {
    let mut sheet = Sheet::new(&["part", "edge", "fate", "allowance"]);
    let mut before: Option<&str> = None;
    for row in rows {
        let part = if before == Some(row.part.as_str()) { String::new() } else { row.part.clone() };
        before = Some(&row.part);
        let fate =
            if row.fates.is_empty() { "neither sewn nor finished".to_owned() } else { row.fates.join("; ") };
        sheet.rows.push(vec![part, row.edge.clone(), fate, row.allowance.clone().unwrap_or_default()]);
    }
    sheet.text()
}

fn fates_in_words(garment: &Garment, fate: &EdgeFate) -> Vec<String> {
    let inside = fate.folded_in.then(|| "folded in".to_owned());
    fate.takers.iter().map(|taker| taker_words(garment, taker)).chain(inside).collect()
}

/// What takes an edge, in words: "seam side", "hem".
pub(crate) fn taker_words(garment: &Garment, taker: &Taker) -> String {
    match taker.what {
        TakenBy::Seam(id, _) => {
            let seam = garment.seam(id);
            let made = seam.work.as_ref().map_or_else(String::new, |work| format!(", {}", work.kind.words()));
            format!("seam {}{made}", seam.name)
        }
        TakenBy::Finish(id) => finish_word(&garment.finish(id).kind).to_owned(),
        TakenBy::Fold => "fold".to_owned(),
        TakenBy::Closure(id) => format!("closure {}", garment.closure(id).name),
        TakenBy::Strap(_) => "strap".to_owned(),
        TakenBy::Topstitched(id) => {
            format!("topstitched on {}", garment.piece(garment.placement(id).on).name)
        }
        TakenBy::Caught(_, Catcher::Seam(id)) => format!("caught in {}", garment.seam(id).name),
        TakenBy::Caught(_, Catcher::Closure(id)) => format!("caught in {}", garment.closure(id).name),
    }
}

/// The trade's word for a finish.
pub(super) fn finish_word(kind: &FinishKind) -> &'static str {
    match kind {
        FinishKind::Hem(hem) => match (&hem.raw_edge, &hem.turn_up) {
            (HemEdge::TurnedOnce, None) => "hem",
            (HemEdge::TurnedUnder(_), None) => "hem, turned under",
            (HemEdge::TurnedTwice, None) => "hem, turned twice",
            (HemEdge::TurnedOnce, Some(_)) => "turn-up",
            (HemEdge::TurnedUnder(_), Some(_)) => "turn-up, its hem turned under",
            (HemEdge::TurnedTwice, Some(_)) => "turn-up, its hem turned twice",
        },
        FinishKind::Bound(_) => "bound",
        FinishKind::Casing(..) => "casing",
        FinishKind::Elastic(..) => "elastic",
        FinishKind::Tape(_) => "taped",
        FinishKind::TurnedUnderOnto(Catcher::Seam(_)) => "turned under onto a seam",
        FinishKind::TurnedUnderOnto(Catcher::Closure(_)) => "turned under onto a zip",
        FinishKind::Overlocked => "overlocked",
        FinishKind::Raw => "raw",
        FinishKind::Poison => "finish",
    }
}
