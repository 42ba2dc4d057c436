//! `notch/fold`, `notch/in-dart` and `notch/close`: notches that a piece declares where no snip can be made, or none
//! that is told from the end of its edge.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, PaperId};
use crate::id_hash::IdSet;
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{DrawnEdgeId, DrawnNotch, DrawnPiece};
use crate::source::Span;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::NOTCH_FOLD, &catalogue::NOTCH_IN_DART, &catalogue::NOTCH_CLOSE],
    run: Run::PerSize(run),
};

/// Nearer to the end of its edge than this, in millimetres, a notch is at it.
const AT_END: f64 = 0.5;
/// Nearer than this it is not told from the corner: a snip is as wide as two of them apart (common practice).
const BESIDE_END: f64 = 5.0;

/// What rounding may add to a chord, in millimetres.
const HAIR: f64 = 1e-6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let mut seen: IdSet<PaperId> = IdSet::default();
    for part in size.sewn.parts.iter().filter(|part| !part.fused) {
        let Some(drawn) = size.drawn.paper(part.part.paper).filter(|drawn| !drawn.notches.is_empty()) else {
            continue;
        };
        if !seen.insert(part.part.paper) {
            continue;
        }
        let said = &garment.piece(drawn.piece).drawing.notches;
        for notch in &drawn.notches {
            let own = said.get(notch.declared).filter(|said| said.edge == notch.edge);
            if let Some(said) = own {
                findings.extend(look(garment, size, drawn, notch, said.span));
            }
        }
    }
}

fn look(
    garment: &Garment,
    size: &WorkedSize,
    drawn: &DrawnPiece,
    notch: &DrawnNotch,
    span: Span,
) -> Option<Finding> {
    let unit = garment.unit;
    // Most notches are sound, and are not put into words.
    let of = || words::edge(garment, notch.edge);
    let edge = &garment.edge(notch.edge).name;
    if drawn.cut == CutHow::OnFold(notch.edge) {
        let (of, piece) = (of(), words::piece(garment, drawn.piece));
        let title = Title::new(format!("a notch of {of} is snipped into the fold")).in_sizes();
        let mistake = Diagnostic::new(&catalogue::NOTCH_FOLD, span, title)
            .label("a hole in the middle of the piece")
            .also(garment.edge(notch.edge).span, format!("{piece} lies on the fold here"))
            .help(format!(
                "notch the edges that begin where {edge} ends, at that corner; or mark the place: mark … = (…, …)"
            ));
        return Some(Finding::new(size.id(), 1.0, mistake));
    }
    let (id, own) = DrawnEdgeId::enumerate(&drawn.edges).find(|(_, own)| own.edge == notch.edge)?;
    let mouths = drawn.take_ups_on(id);
    let within = mouths
        .into_iter()
        .find(|(_, mouth)| mouth.from + AT_END < notch.along && notch.along < mouth.to - AT_END);
    if let Some((take_up, mouth)) = within {
        let name = &garment.edge(take_up.name).name;
        let off = amount((notch.along - mouth.from).min(mouth.to - notch.along), unit);
        let title = Title::new(format!("a notch of {} lies in the mouth of {name}", of())).in_sizes();
        let mistake = Diagnostic::new(&catalogue::NOTCH_IN_DART, span, title)
            .label(format!("{off} from its side, on cloth that is folded away"))
            .also(take_up.said, format!("the {}", take_up.word()))
            .help(format!(
                "count it from a side of the {0}: notch {edge} 2 from {name}.near, or from {name}.far; its legs have snips of \
                 their own",
                take_up.word()
            ));
        return Some(Finding::new(size.id(), 1.0, mistake));
    }
    // The chord is no longer than the edge, and is had for less.
    let chord = own.path.start().distance(own.path.end());
    if notch.along >= BESIDE_END && chord - notch.along > BESIDE_END + HAIR {
        return None;
    }
    let from_end = notch.along.min(own.path.length() - notch.along);
    if from_end <= AT_END || from_end >= BESIDE_END {
        return None;
    }
    let by = amount(from_end, unit);
    let title = Title::new(format!("a notch of {} is {by} from its end", of())).in_sizes();
    let mistake = Diagnostic::new(&catalogue::NOTCH_CLOSE, span, title)
        .label("not told from the corner")
        .help("move it farther in, or leave it out: the corner shows where the edge ends".to_owned());
    Some(Finding::new(size.id(), BESIDE_END - from_end, mistake).figure("from the end", by))
}
