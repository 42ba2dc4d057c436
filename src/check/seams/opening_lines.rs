//! `opening/ring` of lines: they run on in one another from seam to seam, back to the first.

use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Closure, ClosureKind, Garment, Opening};
use crate::once_each::once_each;
use crate::report::{Diagnostic, Finding, Title, at_least, catalogue};
use crate::sewing::LineBreak;

/// The edges or lines of an opening: "the waist of Front and the waist of Back".
pub(super) fn chain_words(garment: &Garment, chain: &Chain) -> String {
    let mut edges: Vec<String> = chain.edges.iter().map(|sewn| words::edge(garment, sewn.edge)).collect();
    once_each(&mut edges);
    words::listed(&edges)
}

/// Of several breaks the one that is told: where a line ends inside its piece, the line that it should meet is
/// broken too.
pub(super) fn plainest(breaks: &[LineBreak]) -> Option<&LineBreak> {
    breaks.iter().find(|one| one.at.is_none()).or(breaks.first())
}

/// Lines that are no ring.
pub(super) fn broken(garment: &Garment, size: &WorkedSize, opening: &Opening, first: &LineBreak) -> Finding {
    let of = |part| size.sewn.part(part).part.piece;
    let line = words::edge(garment, first.line.line);
    let are = if opening.ring.edges.len() > 1 { "are" } else { "is" };
    let ends = match first.at {
        Some(at) => format!("ends at {}", words::edge(garment, at)),
        None => "ends inside its piece".to_owned(),
    };
    let title = Title::new(format!("{} {are} no ring: {line} {ends}", chain_words(garment, &opening.ring)))
        .in_sizes();
    let named = opening.ring.edges.iter().find(|sewn| garment.is_run_of(first.line.line, sewn.edge));
    let span = named.map_or(opening.ring.span, |sewn| sewn.span);
    let mut mistake = Diagnostic::new(&catalogue::OPENING_RING, span, title)
        .label("does not go on")
        .also(garment.edge(first.line.line).span, "drawn here");
    let beyond = first.beyond.map(of).filter(|piece| *piece != of(first.line.part));
    let one_sided = opening.ring.edges.iter().any(|sewn| sewn.on.is_some());
    let help = match (beyond, first.at) {
        _ if one_sided => {
            "a ring goes round both sides of the body: leave out on left and on right".to_owned()
        }
        (Some(piece), _) => {
            let title = words::piece(garment, piece);
            mistake = mistake.also(garment.piece(piece).span, "sewn to it there");
            let is_named = opening.ring.edges.iter().any(|sewn| sewn.piece == piece);
            match is_named {
                true => format!("draw the line of {title} so that it begins where {line} ends"),
                false => format!("name the line of {title} that goes on there, and draw one if it has none"),
            }
        }
        (None, None) => "draw it from edge to edge: line … across at …".to_owned(),
        (None, Some(_)) => {
            "sew that edge to what the line goes on in, give it a closure there, or leave the opening out"
                .to_owned()
        }
    };
    mistake = mistake.help(help);
    Finding::new(size.id(), 0.0, mistake).about(opening.span.lo.to_string())
}

/// What can be done where a ring of lines is too small, and no closure opens it.
pub(super) fn way_out(garment: &Garment, short: f64) -> String {
    let is_zip = |closure: &&Closure| matches!(closure.kind, Some(ClosureKind::Zipper { .. }));
    let by = at_least(short, garment.unit);
    let past = at_least(short / 2.0, garment.unit);
    match garment.closures.iter().find(is_zip) {
        Some(zip) => format!(
            "let {} reach {past} past it; or make it {by} wider, or take a cloth that stretches more",
            zip.name
        ),
        None => format!(
            "let a closure reach {past} past it, make it {by} wider, or take a cloth that stretches more"
        ),
    }
}
