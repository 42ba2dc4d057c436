//! Take-ups that a copy or a rest is without: the cloth that they take stays in their edge.

use crate::garment::{EdgeId, PieceId};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnTakeUp, Mouth};
use crate::resolve::work::Work;
use crate::shape::Vec2;
use crate::shape::path::Path;

/// An edge may turn by so many degrees where a take-up was, as where one is sewn shut.
const KINK: f64 = 3.0;

/// Whether the edges of a piece run on where this one leaves out its take-ups; reported where one was drawn for a dart
/// that is shut, and turns where that stays open.
pub(super) fn runs_on(work: &Work, piece: PieceId, from: &DrawnPiece) -> bool {
    let left_out = &work.garment.piece(piece).drawing.left_out;
    let mut runs_on = true;
    for &(name, span) in left_out {
        let turns = from.take_ups.iter().filter(|placed| placed.name == name);
        let turns = turns.filter_map(|placed| turn_at(from, placed)).max_by(f64::total_cmp);
        let Some(turn) = turns.filter(|turn| *turn > KINK) else { continue };
        runs_on = false;
        work.report(|size| {
            let (dart, title) = (work.garment.edge(name), work.title(from.piece));
            let degrees = format!("{turn:.0}°");
            let message = Title::new(format!("without {} an edge of {title} turns by {degrees}", dart.name));
            let of = &work.garment.piece(from.piece).name;
            let message = Diagnostic::new(&catalogue::PIECE_LIKE, span, message.in_sizes())
                .label("left out here")
                .also(dart.span, "the edge is drawn for it to be shut")
                .help(format!(
                    "make it like that piece instead, piece … like {of} {{ without {} }}: then its edge is drawn without it",
                    dart.name
                ));
            Finding::new(size, turn, message).about(&*dart.name)
        });
    }
    runs_on
}

/// By how many degrees the edge turns, at most, where a take-up begins or ends that stays open.
fn turn_at(from: &DrawnPiece, placed: &DrawnTakeUp) -> Option<f64> {
    let mouth = placed.mouth?;
    let edges = from.edges.iter().filter(|edge| edge.edge == mouth.edge);
    let turns = edges.filter(|edge| lies_on(from, edge.edge, &mouth)).map(|edge| turns(&edge.path, &mouth));
    turns.max_by(f64::total_cmp)
}

fn lies_on(from: &DrawnPiece, edge: EdgeId, mouth: &Mouth) -> bool {
    from.edge(edge).is_some_and(|own| own.path.length() >= mouth.to)
}

fn turns(path: &Path, mouth: &Mouth) -> f64 {
    let length = path.length();
    let [before, within, beyond] =
        [(0.0, mouth.from), (mouth.from, mouth.to), (mouth.to, length)].map(|(from, to)| path.part(from, to));
    let at = |one: Option<Vec2>, other: Option<Vec2>| {
        let (one, other) = (one?, other?);
        Some(libm::atan2(one.cross(other), one.dot(other)).abs().to_degrees())
    };
    let first = at(before.tangent_at_end(), within.tangent_at_start());
    let second = at(within.tangent_at_end(), beyond.tangent_at_start());
    first.unwrap_or(0.0).max(second.unwrap_or(0.0))
}
