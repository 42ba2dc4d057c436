//! `stitch/unfit`: a stitch that cannot be sewn where it is said.
//!
//! What each class of ISO 4915:1991 is, is from memory: 100 chainstitches of one thread, of which 103 is blind; 400 chainstitches of
//! several, of which 406 and 407 cover on one side; 500 overedges, which are sewn round an edge.

use super::{Check, Run};
use crate::garment::{Finish, FinishKind, Garment, HemEdge, Seam, Stitch, StitchedRow};
use crate::report::{Diagnostic, catalogue};

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::STITCH_UNFIT], run: Run::Once(run) };

const OVEREDGES: std::ops::RangeInclusive<u16> = 501..=599;
/// Zigzags go over an edge too.
const ZIGZAGS: std::ops::RangeInclusive<u16> = 304..=309;
/// It catches one cloth by a few threads, and holds nothing together that is pulled.
const BLIND: u16 = 103;
/// They cover a raw edge that lies flat on the cloth, as below a hem.
const COVERING: [u16; 2] = [406, 407];

fn run(garment: &Garment, diagnostics: &mut Vec<Diagnostic>) {
    let seams = garment.seams.iter().filter(|seam| !seam.poisoned).filter_map(of_seam);
    let finishes = garment.finishes.iter().filter_map(of_finish);
    diagnostics.extend(seams.chain(finishes).chain(garment.rows.iter().filter_map(of_row)));
}

fn of_seam(seam: &Seam) -> Option<Diagnostic> {
    let stitch = seam.stitch.as_ref()?;
    let (why, label) = match stitch.number {
        BLIND => (
            "a blindstitch catches a hem by a few threads, and does not hold",
            "comes open when it is pulled",
        ),
        number if COVERING.contains(&number) => (
            "a coverstitch is sewn over a raw edge that lies flat, and does not close",
            "has no two edges to join",
        ),
        _ => return None,
    };
    let help = "take one that joins: 301 (lockstitch), 401 (two-thread chainstitch), 504 or 514 (overlock)";
    Some(unfit(stitch, format!("{why} {}", seam.words()), label, help))
}

fn of_finish(finish: &Finish) -> Option<Diagnostic> {
    let stitch = finish.stitch.as_ref()?;
    let is_over_edge = OVEREDGES.contains(&stitch.number);
    let (title, label, help) = match &finish.kind {
        FinishKind::Overlocked if !is_over_edge && !ZIGZAGS.contains(&stitch.number) => (
            format!("an edge is overlocked in {}, which does not go round it", stitch.number),
            "leaves the edge as it is cut",
            "take an overedge, 504 or 505, or a zigzag, 304; or say nothing",
        ),
        FinishKind::Bound(_) if is_over_edge => (
            format!("a binding is sewn on inside its edge, and {} is sewn round an edge", stitch.number),
            "cuts it off",
            "take 301 (lockstitch) or 406 (coverstitch)",
        ),
        FinishKind::Hem(hem) if is_over_edge && !matches!(hem.raw_edge, HemEdge::TurnedOnce) => (
            format!(
                "a hem that is turned under is sewn down on the cloth, and {} is sewn round an edge",
                stitch.number
            ),
            "finds no raw edge",
            "take 301 (lockstitch) or 304 (zigzag); or turn it once: hem without turned under",
        ),
        FinishKind::TurnedUnderOnto(_) if is_over_edge => (
            format!("what is felled by hand lies on the cloth, and {} is sewn round an edge", stitch.number),
            "finds no edge",
            "take `handstitch`, or say nothing",
        ),
        FinishKind::Casing(..) if is_over_edge => (
            format!("a casing is sewn down on the cloth, and {} is sewn round an edge", stitch.number),
            "finds no edge",
            "take 301 (lockstitch), 304 (zigzag) or 406 (coverstitch)",
        ),
        _ => return None,
    };
    Some(unfit(stitch, title, label, help))
}

fn of_row(row: &StitchedRow) -> Option<Diagnostic> {
    let stitch = row.stitch.as_ref()?;
    let title = match stitch.number {
        number if OVEREDGES.contains(&number) => {
            format!("the row {} lies inside the cloth, and {number} is sewn round an edge", row.name)
        }
        BLIND => format!("the row {} is seen, and a blindstitch hardly goes through", row.name),
        _ => return None,
    };
    let help = "take 301 (lockstitch), 401 (two-thread chainstitch) or, where the cloth stretches, 406 (coverstitch)";
    Some(unfit(stitch, title, "cannot be sewn there", help))
}

fn unfit(stitch: &Stitch, title: String, label: &str, help: &str) -> Diagnostic {
    Diagnostic::new(&catalogue::STITCH_UNFIT, stitch.span, title).label(label).help(help)
}
