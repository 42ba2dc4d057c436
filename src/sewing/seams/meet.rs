//! Which way round the plies of a seam lie on one another.

use super::strand::{Link, Strand};
use crate::garment::SewnPoint;
use crate::sewing::ends::{Corners, Node};
use smallvec::SmallVec;

/// What says that two ends meet, the surest first.
#[derive(Clone, Copy)]
enum Reason {
    Matching,
    SamePoint,
    SameName,
    FoldedTogether,
    Joined,
    /// What is said to match is the corner that a fold brings there.
    MatchingFolded,
    /// Both lie on a fold: one that does not could not be sewn to one that does.
    OnFold,
}

const REASONS: [Reason; 7] = [
    Reason::Matching,
    Reason::SamePoint,
    Reason::SameName,
    Reason::FoldedTogether,
    Reason::Joined,
    Reason::MatchingFolded,
    Reason::OnFold,
];
/// So many plies are looked at to find the way of one more.
pub(super) const LOOKED_AT: usize = 8;
/// Of more plies than these in one seam several are turned at once.
const ONE_BY_ONE: usize = 32;

/// Turns all plies the way the first lies. The answer names two plies of which it is not known
/// how they meet.
pub(super) fn meet(
    corners: &mut Corners,
    strands: &mut [Strand],
    matching: &[(SewnPoint, SewnPoint)],
) -> Option<(usize, usize)> {
    if let [one, other] = strands {
        match way(corners, one, other, matching, &REASONS) {
            Some(true) => other.turn(),
            Some(false) => {}
            None => match as_written(corners, one, other, matching) {
                Some(laid) => *other = laid,
                None => return Some((0, 1)),
            },
        }
        return None;
    }
    let mut turned: Vec<usize> = vec![0];
    let mut open: Vec<usize> = (1..strands.len()).collect();
    while !open.is_empty() {
        // What is said to match, with whichever ply, comes before what only may be meant by names; and each ply that is known by
        // these may be what another one is said to match.
        let said = if matching.is_empty() {
            0
        } else {
            turn(corners, strands, matching, &REASONS[..1], &mut turned, &mut open)
        };
        if said == 0 && turn(corners, strands, matching, &REASONS, &mut turned, &mut open) == 0 {
            return open.first().map(|&at| (0, at));
        }
    }
    None
}

/// Turns the plies that some reason says the way of; how many those were. Of several reasons where something matches it is one, for
/// which the others wait.
fn turn(
    corners: &mut Corners,
    strands: &mut [Strand],
    matching: &[(SewnPoint, SewnPoint)],
    reasons: &[Reason],
    turned: &mut Vec<usize>,
    open: &mut Vec<usize>,
) -> usize {
    let is_one_by_one = !matching.is_empty() && reasons.len() > 1 && strands.len() <= ONE_BY_ONE;
    let mut left = Vec::with_capacity(open.len());
    let mut count = 0;
    for at in std::mem::take(open) {
        if is_one_by_one && count > 0 {
            left.push(at);
            continue;
        }
        // What lies on a part of another ply goes the way of that, whatever its own ends say.
        let host = strands.get(at).and_then(|own| {
            strands.iter().enumerate().find_map(|(host, one)| Some((host, as_its_host(one, own)?)))
        });
        let found = match host {
            Some((host, is_turned)) => turned.contains(&host).then_some(is_turned),
            None => turned.iter().take(LOOKED_AT).find_map(|&other| {
                let (one, other) = (strands.get(other)?, strands.get(at)?);
                way(corners, one, other, matching, reasons)
            }),
        };
        let Some(is_turned) = found else {
            left.push(at);
            continue;
        };
        if let Some(strand) = strands.get_mut(at).filter(|_| is_turned) {
            strand.turn();
        }
        turned.push(at);
        count += 1;
    }
    *open = left;
    count
}

/// Whether a ply that lies on a part of another one goes the other way; none of other plies.
fn as_its_host(host: &Strand, own: &Strand) -> Option<bool> {
    own.links.iter().filter(|link| link.elsewhere).find_map(|link| {
        let is_it = |under: &&Link| {
            !under.elsewhere && (under.part, under.edge, under.hand) == (link.part, link.edge, link.hand)
        };
        host.links.iter().find(is_it).map(|under| under.reversed != link.reversed)
    })
}

/// Whether the other lies the other way round, by these reasons; none if nothing says so.
fn way(
    corners: &mut Corners,
    one: &Strand,
    other: &Strand,
    matching: &[(SewnPoint, SewnPoint)],
    reasons: &[Reason],
) -> Option<bool> {
    let is_even = one.begins_and_ends_alike(corners) || other.begins_and_ends_alike(corners);
    for &reason in reasons {
        let mut is = |a: Node, b: Node| u8::from(holds(corners, reason, a, b, matching));
        let along = is(one.start, other.start) + is(one.end, other.end);
        let against = is(one.start, other.end) + is(one.end, other.start);
        if along > against || (along > 0 && along == against && is_even) {
            return Some(false);
        }
        if against > along {
            return Some(true);
        }
    }
    if reasons.len() < REASONS.len() {
        return None;
    }
    if let Some(is_turned) = untwisted(one, other) {
        return Some(is_turned);
    }
    // The same from both ends: either way is right, unless it is a ring whose beginning is open.
    let is_line = |strand: &Strand| strand.symmetric && !strand.ring;
    (is_line(one) || is_line(other)).then_some(false)
}

/// How a ring lies on another, of which nothing says which way round it goes: so that both begin together, go on in the order in
/// which their edges are named, and corners between these that match, or of as many edges bear one name, meet. None where that
/// does not tell one way from all others.
fn as_written(
    corners: &mut Corners,
    one: &Strand,
    other: &Strand,
    matching: &[(SewnPoint, SewnPoint)],
) -> Option<Strand> {
    let count = other.links.len();
    let is_plain =
        |strand: &Strand| strand.unmet_joint.is_none() && strand.links.iter().all(|link| !link.gap);
    let mut closes = |strand: &Strand| {
        corners.joined(strand.start, strand.end) || corners.same_name(strand.start, strand.end)
    };
    if count < 2 || one.links.len() < 2 || !is_plain(one) || !is_plain(other) {
        return None;
    }
    if !closes(one) || !closes(other) {
        return None;
    }
    let mut turned = other.clone();
    turned.turn();
    // Turned round, a ring begins with the edge that it began with, and goes on against the order of the others: of two
    // edges that is the same order.
    turned.begin_at(corners, count - 1);
    let mut ways = [other.clone(), turned].map(|laid| {
        let is_in_order = laid
            .links
            .iter()
            .zip(&other.links)
            .all(|(own, named)| (own.part, own.edge) == (named.part, named.edge));
        // Of another number of edges nothing but the corner speaks for it, which holds as far as no piece lies wrong side out.
        let is_face_to_face = one.links.len() == count
            || one
                .links
                .first()
                .zip(laid.links.first())
                .is_some_and(|(a, b)| a.is_against() != b.is_against());
        let meet = match is_in_order && is_face_to_face {
            true => inner_corners_that_meet(corners, one, &laid, matching),
            false => [0, 0],
        };
        (meet, laid)
    });
    ways.sort_by_key(|(meet, _)| std::cmp::Reverse(*meet));
    let [(best, laid), (next, _)] = ways;
    (best > next).then_some(laid)
}

/// At how many joints two plies have corners that are said to match, and, of as many edges, at how many they bear one name. Of
/// as many edges the first joint lies on the first; else any of the one may lie on any of the other.
fn inner_corners_that_meet(
    corners: &mut Corners,
    one: &Strand,
    other: &Strand,
    matching: &[(SewnPoint, SewnPoint)],
) -> [usize; 2] {
    let mut found = [0, 0];
    let is_even = one.links.len() == other.links.len();
    for (at, own) in one.links.windows(2).enumerate() {
        for (their_at, their) in other.links.windows(2).enumerate() {
            let ([before, after], [their_before, their_after]) = (own, their) else { continue };
            if is_even && at != their_at {
                continue;
            }
            let own = [before.end(corners), after.start(corners)].into_iter().flatten();
            let their: SmallVec<[Node; 2]> =
                [their_before.end(corners), their_after.start(corners)].into_iter().flatten().collect();
            let pairs: SmallVec<[(Node, Node); 4]> =
                own.flat_map(|own| their.iter().map(move |their| (own, *their))).collect();
            let reasons =
                if is_even { &[Reason::Matching, Reason::SameName][..] } else { &[Reason::Matching] };
            for (count, &reason) in found.iter_mut().zip(reasons) {
                *count += usize::from(pairs.iter().any(|&(a, b)| holds(corners, reason, a, b, matching)));
            }
        }
    }
    found
}

/// How two plies lie to one another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Relation {
    /// Their ends say which way round; or that a piece is folded over the seam, and both are plies of it.
    Fast { folded: bool },
    /// Either way round their ends meet: one is a ring, or goes from the left of something to its right.
    Loose,
}

/// How two plies lie to one another once every seam has joined what it joins.
///
/// Of a ring one meeting corner says where it begins and not which way it goes; two that are told apart
/// do. Of two that both go from left to right, left lies on left.
pub(super) fn relation(
    corners: &mut Corners,
    one: &Strand,
    other: &Strand,
    matching: &[(SewnPoint, SewnPoint)],
) -> Relation {
    if as_its_host(one, other).or_else(|| as_its_host(other, one)).is_some() {
        return Relation::Fast { folded: false };
    }
    let is_round = |strand: &Strand, corners: &mut Corners| corners.joined(strand.start, strand.end);
    let is_loose = is_round(one, corners) || is_round(other, corners);
    for reason in REASONS {
        let mut is = |a: Node, b: Node| u8::from(holds(corners, reason, a, b, matching));
        let along = is(one.start, other.start) + is(one.end, other.end);
        let against = is(one.start, other.end) + is(one.end, other.start);
        let is_said = !one.begins_and_ends_alike(corners)
            && !other.begins_and_ends_alike(corners)
            // What the maker says holds, even where it brings both ends of an edge together.
            && (matches!(reason, Reason::Matching) || along.abs_diff(against) == 2);
        if along != against && (is_said || !is_loose) {
            return Relation::Fast { folded: matches!(reason, Reason::FoldedTogether) };
        }
    }
    let is_matched_inside =
        !matching.is_empty() && inner_corners_that_meet(corners, one, other, matching)[0] > 0;
    if is_matched_inside {
        return Relation::Fast { folded: false };
    }
    let is_settled = !is_loose || (one.symmetric && other.symmetric) || untwisted(one, other).is_some();
    if is_settled { Relation::Fast { folded: false } } else { Relation::Loose }
}

/// Two edges of one copy are sewn face to face, so that the piece makes a tube: what goes on past the
/// end of the one comes back before the start of the other. The other way round it would be twisted.
fn untwisted(one: &Strand, other: &Strand) -> Option<bool> {
    let (first, second) = (one.links.first()?, other.links.first()?);
    let is_of_one = |strand: &Strand| {
        let same = |link: &Link| link.part == first.part && link.hand == first.hand;
        strand.links.iter().all(same)
    };
    let is_tube = is_of_one(one) && is_of_one(other) && first.edge != second.edge;
    is_tube.then_some(first.reversed == second.reversed)
}

fn holds(
    corners: &mut Corners,
    reason: Reason,
    one: Node,
    other: Node,
    matching: &[(SewnPoint, SewnPoint)],
) -> bool {
    match reason {
        Reason::Matching => matching.iter().any(|(a, b)| {
            (corners.is_point(one, a) && corners.is_point(other, b))
                || (corners.is_point(one, b) && corners.is_point(other, a))
        }),
        Reason::MatchingFolded if matching.is_empty() => false,
        Reason::MatchingFolded => {
            let folded = |node: Node| corners.folded_onto(node);
            let [one_folded, other_folded] = [folded(one), folded(other)];
            [(one_folded, Some(other)), (Some(one), other_folded)].into_iter().any(|(one, other)| {
                let Some((one, other)) = one.zip(other) else { return false };
                matching.iter().any(|(a, b)| {
                    (corners.is_point(one, a) && corners.is_point(other, b))
                        || (corners.is_point(one, b) && corners.is_point(other, a))
                })
            })
        }
        Reason::SamePoint => corners.same_point(one, other),
        Reason::SameName => corners.same_name(one, other),
        Reason::FoldedTogether => corners.folded_together(one, other),
        Reason::Joined => corners.joined(one, other),
        Reason::OnFold => corners.is_on_fold(one) && corners.is_on_fold(other),
    }
}
