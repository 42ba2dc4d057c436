//! `seam/pairing` and `seam/ends`: copies that cannot be paired, and ends of which it is not to be
//! told how they meet.

use super::braces::is_contradictory;
use super::chain_order::out_of_order;
use super::matched_off::matched_off;
use super::open_on_round::open_on_round;
use super::runs::{corner_of, place_of, run_end};
use super::sides::corner;
use crate::check::unpaired::Words;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Garment, Seam, SewnEdge, SewnPoint};
use crate::report::{Diagnostic, Finding, catalogue};
use crate::resolve::{DrawnEdgeId, SizedGarment};
use crate::sewing::{SeamEnd, Sewing, SewnPly, SewnRun, SewnSeam, Unmet, Unpaired, seam_edges};
use crate::shape::Vec2;
use crate::source::Span;
use crate::syntax::tree::Hand;

/// Nearer than this, in millimetres, two places are one.
const SAME_PLACE: f64 = 0.1;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::SEAM_PAIRING, &catalogue::SEAM_ENDS, &catalogue::SEAM_WRONG_ENDS],
    run: Run::PerSize(run),
};

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let mut last = None;
    for sewn in &sewing.seams {
        // What is wrong in one layer is wrong in all.
        if (sewn.unpaired.is_some() || sewn.unmet.is_some()) && last.replace(sewn.seam) == Some(sewn.seam) {
            continue;
        }
        let seam = garment.seam(sewn.seam);
        if let Some(unpaired) = &sewn.unpaired {
            findings.push(pairing(garment, sized, sewing, seam, unpaired));
        } else if let Some(unmet) = sewn
            .unmet
            .as_ref()
            .filter(|_| !is_contradictory(garment, size, sewn) && matched_off(garment, size, sewn).is_none())
        {
            let told = out_of_order(garment, size, sewn).or_else(|| open_on_round(garment, size, sewn));
            findings.push(told.unwrap_or_else(|| ends(garment, size, sewn, unmet)));
        }
    }
}

/// The edge that a seam names there.
fn named(seam: &Seam, span: Span) -> Option<&SewnEdge> {
    seam_edges(seam).find(|sewn| sewn.span == span)
}

fn pairing(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    seam: &Seam,
    unpaired: &Unpaired,
) -> Finding {
    let words = Words {
        entry: &catalogue::SEAM_PAIRING,
        takes: format!("{} takes", seam.words()),
        among: format!("in {}", seam.words()),
        to_itself: "an edge is sewn to itself where left meets right",
        place: "seam",
        edges: seam_edges(seam).collect(),
    };
    let found = words.unpaired(garment, sized, sewing, unpaired);
    Finding::new(sized.size, f64::from(unpaired.many), found).about(&*seam.name)
}

fn ends(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, unmet: &Unmet) -> Finding {
    let (sized, sewing, seam) = (&size.drawn, &size.sewn, garment.seam(sewn.seam));
    let &Unmet { one, other, one_span, other_span, joint } = unmet;
    let word = |end: &SeamEnd, span: Span| {
        let says_layer = named(seam, span).is_some_and(|sewn| sewn.layer.is_some());
        corner(garment, sewing, end, says_layer).or_else(|| run_end(garment, size, end, says_layer))
    };
    let (one_word, other_word) = (word(&one, one_span), word(&other, other_span));
    let title = match joint {
        true => format!("it is not clear how the edges of {} follow one another", seam.words()),
        false => format!("it is not clear which ends of {} meet", seam.words()),
    };
    let label = |word: &Option<String>, text: &str| match word {
        Some(word) => format!("{text} {word}"),
        None => "this edge".to_owned(),
    };
    let (here, there) = if joint { ("ends at", "begins at") } else { ("one end is", "does it meet") };
    let joints: Vec<String> = match joint {
        true => Vec::new(),
        false => joints_round(size, sewn, unmet).iter().filter_map(|end| word(end, other_span)).collect(),
    };
    let help = match (&one_word, &other_word, joint) {
        (Some(one), Some(other), false) if !joints.is_empty() => {
            let far = far_end(size, sewn, unmet).and_then(|far| word(&far.end, other_span));
            let all: Vec<String> = joints.into_iter().chain([other.clone()]).chain(far).collect();
            format!(
                "both go all round, and nothing says where they begin: say in the seam's braces which corners meet, matching \
                 {one} with {}",
                words::either(&all)
            )
        }
        (Some(one), Some(other), false) => {
            let far = far_end(size, sewn, unmet);
            let far = far.and_then(|far| Some((word(&far.end, other_span)?, far)));
            let (likelier, less) = match far {
                Some((word, FarEnd { is_likelier: true, .. })) => (word, Some(other.clone())),
                Some((word, _)) => (other.clone(), Some(word)),
                None => (other.clone(), None),
            };
            // The other way round it would lie wrong side out.
            let is_sure = far_end(size, sewn, unmet).is_some_and(|far| far.is_sure);
            // Both ends of what lies on a fold bear one name, and saying it once more tells nothing.
            let less = less.filter(|less| !is_sure && *less != likelier);
            let less = less.map(|less| format!("; the other way round, matching {one} with {less}"));
            let as_drawn = if less.is_some() { "as both are drawn, " } else { "" };
            let instead = if says_of_both(garment, size, seam, unmet) {
                ", instead of what is matched there"
            } else {
                ""
            };
            format!(
                "say it in the seam's braces{instead}: {as_drawn}matching {one} with {likelier}{}; or give both ends one name",
                less.unwrap_or_default()
            )
        }
        (Some(one), Some(other), true) if is_at_fold(garment, size, unmet) => format!(
            "both halves hang together at {one}, on the fold, and nothing is sewn in between: write the edge that begins at \
             {other} where it lies"
        ),
        (Some(one), Some(other), true) => format!(
            "sew {one} to {other} in a seam of its own, give both one name, or write the edges in the order \
             in which they lie"
        ),
        _ => "name the corners of both edges, and say in the seam's braces which two match".to_owned(),
    };
    let place = if one_span == other_span { seam.name_span } else { one_span };
    let mut diagnostic = Diagnostic::new(&catalogue::SEAM_ENDS, place, title).label(label(&one_word, here));
    if other_span != one_span {
        diagnostic = diagnostic.also(other_span, label(&other_word, there));
    }
    Finding::new(sized.size, 0.0, diagnostic.help(help)).about(&*seam.name)
}

/// Whether something is said already of how the pieces of both ends match, which does not tell it.
fn says_of_both(garment: &Garment, size: &WorkedSize, seam: &Seam, unmet: &Unmet) -> bool {
    let piece = |end: &SeamEnd| size.sewn.part(end.part).part.piece;
    let is_of = |point: &SewnPoint, end: &SeamEnd| {
        point.point.point().is_some_and(|point| garment.point(point).piece == piece(end))
    };
    seam.matching.iter().any(|(a, b)| {
        is_of(a, &unmet.one) && is_of(b, &unmet.other) || is_of(b, &unmet.one) && is_of(a, &unmet.other)
    })
}

/// Whether the first of two edges that follow one another ends on the fold of its piece.
fn is_at_fold(garment: &Garment, size: &WorkedSize, unmet: &Unmet) -> bool {
    let drawn = size.drawn.paper(size.sewn.part(unmet.one.part).part.paper);
    drawn.is_some_and(|drawn| {
        let CutHow::OnFold(fold) = drawn.cut else { return false };
        let is_fold =
            |at: DrawnEdgeId| drawn.edge_at(at).is_some_and(|own| garment.is_run_of(own.edge, fold));
        DrawnEdgeId::enumerate(&drawn.edges)
            .any(|(at, own)| own.corner == unmet.one.corner && (is_fold(at) || is_fold(drawn.before(at))))
    })
}

/// Of two plies that other seams join to rings, the corners at which edges of the second follow one another: the first may as
/// well begin there as at an end.
fn joints_round(size: &WorkedSize, sewn: &SewnSeam, unmet: &Unmet) -> Vec<SeamEnd> {
    let plies = sewn.first.plies.iter().chain(&sewn.second.plies);
    let is_ring = |ply: &SewnPly| {
        let end_of = |run: Option<&SewnRun>, is_end: bool| run.and_then(|run| corner_of(size, run, is_end));
        let Some(ends) = end_of(ply.runs.first(), false).zip(end_of(ply.runs.last(), true)) else {
            return false;
        };
        let others = size.sewn.seams.iter().filter(|own| own.seam != sewn.seam);
        others.flat_map(|own| &own.ends).any(|&(one, other)| (one, other) == ends || (other, one) == ends)
    };
    let has = |ply: &SewnPly, end: &SeamEnd| {
        [(ply.runs.first(), false), (ply.runs.last(), true)]
            .into_iter()
            .any(|(run, is_end)| run.and_then(|run| corner_of(size, run, is_end)).as_ref() == Some(end))
    };
    let ring_at = |end: &SeamEnd| plies.clone().find(|ply| has(ply, end) && is_ring(ply));
    let (Some(_), Some(other)) = (ring_at(&unmet.one), ring_at(&unmet.other)) else { return Vec::new() };
    other.runs.iter().skip(1).filter_map(|run| corner_of(size, run, false)).collect()
}

/// The other end of the second of two plies of which it is not known how they meet.
struct FarEnd {
    end: SeamEnd,
    /// The start of the first rather meets that: as they are drawn, both go the same way on the paper.
    is_likelier: bool,
    /// There is no other way.
    is_sure: bool,
}

/// That end.
fn far_end(size: &WorkedSize, sewn: &SewnSeam, unmet: &Unmet) -> Option<FarEnd> {
    let ply_from = |end: &SeamEnd| {
        let mut plies = sewn.first.plies.iter().chain(&sewn.second.plies);
        plies.find(|ply| ply.runs.first().and_then(|run| corner_of(size, run, false)).as_ref() == Some(end))
    };
    let (one, other) = (ply_from(&unmet.one)?, ply_from(&unmet.other)?);
    let way = |ply: &SewnPly| -> Option<Vec2> {
        Some(place_of(size, ply.runs.last()?, true)? - place_of(size, ply.runs.first()?, false)?)
    };
    let far = corner_of(size, other.runs.last()?, true).filter(|far| *far != unmet.other)?;
    let (one_way, other_way) = (way(one)?, way(other)?);
    // Of what goes all round its piece the outline tells, right sides together: both go round the other way than they are drawn.
    let goes_round = |ply: &SewnPly, way: Vec2| {
        let parts = ply.runs.first().zip(ply.runs.last());
        parts.is_some_and(|(first, last)| first.part == last.part) && way.hypot() <= SAME_PLACE
    };
    if goes_round(one, one_way) || goes_round(other, other_way) {
        let is_against =
            |ply: &SewnPly| ply.runs.first().map(|run| run.reversed != (run.hand == Some(Hand::Right)));
        let is_likelier = is_against(one)? == is_against(other)?;
        return Some(FarEnd { end: far, is_likelier, is_sure: true });
    }
    Some(FarEnd { end: far, is_likelier: one_way.dot(other_way) < 0.0, is_sure: false })
}
