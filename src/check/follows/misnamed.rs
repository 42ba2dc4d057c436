//! A seam that names one edge of a piece where another was meant: the one is taken twice, and the other left loose.

use super::about::{About, Looking};
use crate::check::words;
use crate::garment::{EdgeId, EdgeName, Garment, PieceId, SeamId, SewnEdge};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};
use crate::source::Span;

/// What is told of a seam that takes the wrong edge.
const OF_SEAM: [&Entry; 8] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_MATCHING,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_TWISTED,
    &catalogue::SEAM_GATHER,
    &catalogue::SEAM_ALLOWANCE,
    &catalogue::SEAM_GRAIN,
];

/// Where the ends of such a seam are not clear, or do not belong to it, it is told in place of all that comes of it.
pub(super) fn instead(garment: &Garment, mut found: Vec<Diagnostic>) -> Vec<Diagnostic> {
    let looking = Looking { garment };
    let told = |kind: &'static Entry| found.iter().filter(move |one| one.is(kind));
    let loose: Vec<(EdgeId, Span)> = told(&catalogue::EDGE_LOOSE)
        .filter_map(|one| Some((loose_edge(garment, one)?, one.span())))
        .collect();
    let slip = told(&catalogue::EDGE_TWICE).find_map(|one| {
        let seams = looking.about(one).into_iter().filter_map(|about| match about {
            About::Seam(id) => Some(id),
            About::Closure(_) => None,
        });
        let seams: Vec<SeamId> = seams.collect();
        // Of two seams that take it either may be wrong.
        let [seam] = seams[..] else { return None };
        let spoiled = found
            .iter()
            .any(|other| other.is_any(&OF_SEAM[..2]) && looking.about(other).contains(&About::Seam(seam)));
        let named =
            looking.edges(About::Seam(seam)).find(|sewn| one.places().any(|place| place == sewn.span))?;
        let piece = named.piece;
        let mut own = loose.iter().filter(|(edge, _)| garment.edge(*edge).piece == piece);
        let (meant, place) = own.next().filter(|_| own.next().is_none())?;
        spoiled.then(|| (seam, *named, *meant, *place, one.span()))
    });
    let Some((seam, named, meant, loose_at, twice_at)) = slip else { return found };
    let is_meant = |one: &Diagnostic| one.span() == loose_at && loose_edge(garment, one) == Some(meant);
    let piece: PieceId = named.piece;
    found.retain(|one| {
        let of_it = || looking.about(one).contains(&About::Seam(seam));
        !(one.is(&catalogue::EDGE_LOOSE) && is_meant(one)
            || one.is(&catalogue::EDGE_TWICE) && one.span() == twice_at
            || one.is_any(&OF_SEAM) && of_it())
    });
    found.push(message(garment, seam, &named, meant, piece));
    found
}

/// The edge that is told to be loose: those of a rectangle are declared in one place, and told apart by name.
pub(super) fn loose_edge(garment: &Garment, one: &Diagnostic) -> Option<EdgeId> {
    let is_it = |edge: &EdgeName| {
        edge.span == one.span()
            && !edge.line
            && one.title.as_str().starts_with(&format!("the {} of ", edge.name))
    };
    EdgeId::enumerate(&garment.edges).find(|(_, edge)| is_it(edge)).map(|(id, _)| id)
}

fn message(garment: &Garment, seam: SeamId, named: &SewnEdge, meant: EdgeId, piece: PieceId) -> Diagnostic {
    let (own, other) = (garment.edge(garment.whole_edge(named.edge)), garment.edge(meant));
    let title = format!(
        "{} takes the {} of {}, which something else takes too, and leaves its {} loose",
        garment.seam(seam).words(),
        own.name,
        words::piece(garment, piece),
        other.name
    );
    Diagnostic::new(&catalogue::EDGE_TWICE, named.span, title)
        .label(format!("was {} meant?", other.name))
        .also(own.span, format!("the {} is taken twice", own.name))
        .also(other.span, "left loose")
        .help(format!("name {}.{} there", garment.part_name(named.layer, piece), other.name))
}
