//! `seam/wrong-ends`: ends matched so that other seams, which run over the seam from one piece to the next, jump there.
//!
//! What is told then stands at those seams, and each of them is right. Two of them that are contradicted, and none that
//! is borne out, show where the slip is.

use super::about::{About, Looking};
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{EdgeId, Garment, LayerId, PieceId, PointId, Seam, SeamId, SewnEdge, SewnSpot};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};
use crate::resolve::CornerName;

/// What is told of a seam that runs over ends that do not meet.
const OF_ENDS: [&Entry; 6] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_TWISTED,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::SEAM_SEGMENT,
    &catalogue::STEP_CIRCLE,
];
/// So many seams must be contradicted.
const LEAST: usize = 2;

/// The seam whose ends are matched wrongly is told in place of all that comes of it.
pub(super) fn instead(
    garment: &Garment,
    sizes: &[WorkedSize],
    mut found: Vec<Diagnostic>,
) -> Vec<Diagnostic> {
    let looking = Looking { garment };
    let is_of_ends = |one: &Diagnostic| one.is_any(&OF_ENDS);
    let Some(size) = sizes.first().filter(|_| found.iter().any(is_of_ends)) else { return found };
    let spoiled: Vec<About> =
        found.iter().filter(|one| is_of_ends(one)).flat_map(|one| looking.about(one)).collect();
    let matched =
        SeamId::enumerate(&garment.seams).filter(|(_, seam)| !seam.matching.is_empty() && !seam.poisoned);
    let wrong: Vec<(SeamId, Joined, Contradicted)> = matched
        .filter_map(|(id, seam)| {
            let joined = Joined::of(garment, size, seam)?;
            let against = joined.contradicted(garment, size, id)?;
            let is_told = |(seam, _): &(SeamId, SewnEdge)| spoiled.contains(&About::Seam(*seam));
            (against.len() >= LEAST && against.iter().any(is_told)).then_some((id, joined, against))
        })
        .collect();
    for (id, joined, against) in wrong {
        let of: Vec<About> =
            against.iter().map(|(seam, _)| About::Seam(*seam)).chain([About::Seam(id)]).collect();
        let mut seams: Vec<&Seam> = Vec::new();
        for seam in against.iter().map(|(seam, _)| garment.seam(*seam)) {
            if seams.iter().all(|other| other.name != seam.name) {
                seams.push(seam);
            }
        }
        found.retain(|one| !is_of_ends(one) || !looking.about(one).iter().any(|about| of.contains(about)));
        found.extend(joined.told(garment, garment.seam(id), &seams, &against));
    }
    found
}

/// Seams that run over a seam against what its ends say, each with the edge that it goes on with there.
type Contradicted = Vec<(SeamId, SewnEdge)>;

/// An edge of a seam, with its corners.
struct Ends {
    piece: PieceId,
    edge: EdgeId,
    corners: [PointId; 2],
}

impl Ends {
    fn of(garment: &Garment, size: &WorkedSize, sewn: &SewnEdge) -> Option<Ends> {
        let paper = garment.paper_of(sewn.layer.or_else(|| layer_of(garment, sewn.piece)), sewn.piece)?;
        let drawn = size.drawn.paper(paper)?;
        let at =
            crate::resolve::DrawnEdgeId::enumerate(&drawn.edges).find(|(_, edge)| edge.edge == sewn.edge)?.0;
        let corner = |at| match drawn.edge_at(at)?.corner {
            CornerName::Named(point) => Some(point),
            CornerName::Between(..) => None,
        };
        Some(Ends { piece: sewn.piece, edge: sewn.edge, corners: [corner(at)?, corner(drawn.after(at))?] })
    }

    /// The one corner that two edges of a piece have in common.
    fn shared(&self, other: &Ends) -> Option<PointId> {
        let mut shared = self.corners.iter().filter(|corner| other.corners.contains(corner));
        let first = shared.next().filter(|_| self.piece == other.piece && self.edge != other.edge)?;
        shared.next().is_none().then_some(*first)
    }
}

fn layer_of(garment: &Garment, piece: PieceId) -> Option<LayerId> {
    LayerId::enumerate(&garment.layers).find(|(_, layer)| layer.pieces.contains(&piece)).map(|(id, _)| id)
}

/// Two edges that a seam joins, and which of their corners it says to meet: the first ones, and so the second ones.
struct Joined {
    one: Ends,
    other: Ends,
}

impl Joined {
    fn of(garment: &Garment, size: &WorkedSize, seam: &Seam) -> Option<Joined> {
        let edge = |side: &[crate::garment::Chain]| match side {
            [chain] => match chain.edges.as_slice() {
                [sewn] => Ends::of(garment, size, sewn),
                _ => None,
            },
            _ => None,
        };
        let (mut one, mut other) = (edge(&seam.first)?, edge(&seam.second)?);
        let (first, second) = seam.matching.first()?;
        let (SewnSpot::Point(first), SewnSpot::Point(second)) = (first.point, second.point) else {
            return None;
        };
        let (first, second) = if one.corners.contains(&first) { (first, second) } else { (second, first) };
        for (ends, met) in [(&mut one, first), (&mut other, second)] {
            if ends.corners[1] == met {
                ends.corners.reverse();
            }
            if ends.corners[0] != met {
                return None;
            }
        }
        (one.piece != other.piece).then_some(Joined { one, other })
    }

    /// The seams whose rows go on from the one piece to the other against it; none if one of them does as it says.
    fn contradicted(&self, garment: &Garment, size: &WorkedSize, own: SeamId) -> Option<Contradicted> {
        let mut against = Contradicted::new();
        for (id, seam) in SeamId::enumerate(&garment.seams).filter(|(id, seam)| *id != own && !seam.poisoned)
        {
            let rows = seam.first.iter().chain(&seam.second).flat_map(|chain| chain.edges.windows(2));
            for pair in rows {
                let [from, to] = pair else { continue };
                let is_over = |one: &SewnEdge, other: &SewnEdge| {
                    one.piece == self.one.piece && other.piece == self.other.piece
                };
                let (one, other) = match (is_over(from, to), is_over(to, from)) {
                    (true, false) => (from, to),
                    (false, true) => (to, from),
                    _ => continue,
                };
                let ends = Ends::of(garment, size, one).zip(Ends::of(garment, size, other));
                let Some((first, second)) = ends else { continue };
                let shared = first.shared(&self.one).zip(second.shared(&self.other));
                let Some((first, second)) = shared else { continue };
                if (first == self.one.corners[0]) == (second == self.other.corners[0]) {
                    return None;
                }
                against.push((id, *to));
            }
        }
        Some(against)
    }

    fn told(
        &self,
        garment: &Garment,
        seam: &Seam,
        seams: &[&Seam],
        against: &Contradicted,
    ) -> Option<Diagnostic> {
        let (one, other) = seam.matching.first()?;
        let [first, second] = [&self.one, &self.other].map(|ends| words::piece(garment, ends.piece));
        let names: Vec<String> = seams.iter().map(|seam| seam.name.to_string()).collect();
        let corner = |point: PointId| {
            let point = garment.point(point);
            format!("{}.{}", garment.piece(point.piece).name, point.name)
        };
        let [met, should] = self.other.corners.map(corner);
        let own = corner(self.one.corners[0]);
        let title = format!(
            "{} matches the wrong ends: {} {} on from {first} to {second} where it brings other corners together",
            seam.words(),
            words::listed(&names),
            if names.len() == 1 { "goes" } else { "go" },
        );
        let mut mistake = Diagnostic::new(&catalogue::SEAM_WRONG_ENDS, one.span.to(other.span), title)
            .label(format!("{own} on {met}"))
            .help(format!(
                "match the other end: matching {own} with {should}; or, if this is right, name other edges in {}",
                words::listed(&names)
            ));
        for (_, sewn) in against.iter().take(4) {
            mistake = mistake.also(sewn.span, "goes on here");
        }
        Some(mistake)
    }
}
