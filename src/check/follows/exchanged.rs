//! Two seams that have exchanged an edge: each is unequal, and both are equal with the edges of one piece exchanged.

use super::about::{About, Looking};
use crate::check::words;
use crate::cutting::WorkedSize;
use crate::garment::{Chain, Garment, SeamId, SewnEdge};
use crate::report::Diagnostic;
use crate::report::catalogue::{self, Entry};

/// What is told of a seam that joins the wrong edges.
const OF_EDGES: [&Entry; 5] = [
    &catalogue::SEAM_ENDS,
    &catalogue::SEAM_JUMPS,
    &catalogue::SEAM_TWISTED,
    &catalogue::SEAM_UNEQUAL,
    &catalogue::STEP_CIRCLE,
];

/// Two such seams are told once.
pub(super) fn instead(
    garment: &Garment,
    sizes: &[WorkedSize],
    mut found: Vec<Diagnostic>,
) -> Vec<Diagnostic> {
    let looking = Looking { garment };
    let unequal: Vec<SeamId> = found
        .iter()
        .filter(|one| one.is(&catalogue::SEAM_UNEQUAL))
        .flat_map(|one| looking.about(one))
        .filter_map(|about| match about {
            About::Seam(id) => Some(id),
            About::Closure(_) => None,
        })
        .collect();
    let pairs = unequal
        .iter()
        .enumerate()
        .flat_map(|(at, &one)| unequal.iter().skip(at + 1).map(move |&other| (one, other)))
        .filter(|(one, other)| one != other);
    let Some((pair, exchanged)) = pairs
        .filter_map(|pair| Some((pair, Exchanged::of(garment, pair)?)))
        .find(|(_, exchanged)| exchanged.are_equal(garment, sizes))
    else {
        return found;
    };
    let of = [About::Seam(pair.0), About::Seam(pair.1)];
    found.retain(|one| !one.is_any(&OF_EDGES) || !looking.about(one).iter().any(|about| of.contains(about)));
    found.push(exchanged.told(garment));
    found
}

/// An edge of a seam: the seam, and whether it is its second side.
type OfSeam<'a> = (SeamId, bool, &'a SewnEdge);

/// Two seams, each with its edge of one piece and its edge of another.
struct Exchanged<'a> {
    one: [OfSeam<'a>; 2],
    other: [OfSeam<'a>; 2],
}

impl<'a> Exchanged<'a> {
    fn of(garment: &'a Garment, (one, other): (SeamId, SeamId)) -> Option<Exchanged<'a>> {
        let edge = |side: &'a [Chain]| match side {
            [chain] => chain.edges.as_slice().first().filter(|_| chain.edges.len() == 1),
            _ => None,
        };
        let edges = |id: SeamId| {
            let seam = garment.seam(id);
            Some([(id, false, edge(&seam.first)?), (id, true, edge(&seam.second)?)])
        };
        let (one, mut other) = (edges(one)?, edges(other)?);
        let piece = |of: &OfSeam| of.2.piece;
        if piece(&one[0]) != piece(&other[0]) {
            other.reverse();
        }
        let pairs = one.iter().zip(&other);
        let are_of_two = piece(&one[0]) != piece(&one[1]);
        (are_of_two && pairs.clone().all(|(one, other)| piece(one) == piece(other)))
            .then_some(Exchanged { one, other })
    }

    /// Whether the edges are equally long in every size once those of one piece are exchanged.
    fn are_equal(&self, garment: &Garment, sizes: &[WorkedSize]) -> bool {
        let long = |size: &WorkedSize, of: &OfSeam| {
            let sewn = size.sewn.seams.iter().find(|sewn| sewn.seam == of.0)?;
            let side = if of.1 { &sewn.second } else { &sewn.first };
            side.plies.first().map(|ply| ply.length)
        };
        let fit = |size: &WorkedSize, a: &OfSeam, b: &OfSeam| {
            long(size, a).zip(long(size, b)).is_some_and(|(a, b)| (a - b).abs() <= garment.tolerance)
        };
        let all = |size: &WorkedSize| {
            fit(size, &self.one[0], &self.other[1]) && fit(size, &self.other[0], &self.one[1])
        };
        !sizes.is_empty() && sizes.iter().all(all)
    }

    fn told(&self, garment: &Garment) -> Diagnostic {
        let [first, second] = [self.one[0].0, self.other[0].0].map(|id| garment.seam(id));
        let named = |of: &OfSeam| {
            let edge = garment.edge(of.2.edge);
            format!("{}.{}", garment.part_name(of.2.layer, of.2.piece), edge.name)
        };
        let (one, other) = (&self.one, &self.other);
        let piece = words::piece(garment, one[1].2.piece);
        let title = format!(
            "{} and {} have exchanged their edges of {piece}: neither matches, and exchanged both do",
            first.words(),
            second.words()
        );
        Diagnostic::new(&catalogue::SEAM_UNEQUAL, one[1].2.span, title)
            .label(format!("as long as {}", named(&other[0])))
            .also(other[1].2.span, format!("as long as {}", named(&one[0])))
            .help(format!(
                "sew {} to {}, and {} to {}",
                named(&one[0]),
                named(&other[1]),
                named(&other[0]),
                named(&one[1])
            ))
    }
}
