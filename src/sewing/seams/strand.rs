//! One ply of a seam: edges end to end, in the order in which they are sewn.

use super::meant::Meant;
use crate::few::Few;
use crate::garment::SewnPoint;
use crate::resolve::DrawnEdgeId;
use crate::sewing::ends::{Corners, Node};
use crate::sewing::model::PartId;
use crate::sewing::stitching::Place;
use crate::sewing::surface::union::Signed;
use crate::source::Span;
use crate::syntax::tree::Hand;
use smallvec::SmallVec;

/// One edge of a ply.
#[derive(Clone, Copy, Debug)]
pub(in crate::sewing) struct Link {
    pub(in crate::sewing) part: PartId,
    pub(in crate::sewing) edge: DrawnEdgeId,
    pub(in crate::sewing) reversed: bool,
    pub(in crate::sewing) hand: Option<Hand>,
    pub(super) span: Span,
    /// Something else takes it: it only shows how what is left on both sides of it lies.
    pub(super) gap: bool,
    /// It lies in another ply of the side, and shows only where this one lies.
    pub(super) elsewhere: bool,
}

impl Link {
    pub(super) fn start(&self, corners: &Corners) -> Option<Node> {
        corners.end_of(self.part, self.edge, self.reversed)
    }

    pub(super) fn end(&self, corners: &Corners) -> Option<Node> {
        corners.end_of(self.part, self.edge, !self.reversed)
    }

    /// Whether it is sewn against the way that a left copy is drawn.
    pub(super) fn is_against(&self) -> bool {
        self.reversed != (self.hand == Some(Hand::Right))
    }

    /// The same edge of the other hand, sewn the other way.
    fn mirrored(&self, corners: &Corners) -> Link {
        let part = corners.twin(self.part).unwrap_or(self.part);
        Link { part, reversed: !self.reversed, hand: self.hand.map(Hand::other), ..*self }
    }
}

/// A ply.
#[derive(Clone, Debug)]
pub(in crate::sewing) struct Strand {
    pub(in crate::sewing) links: Few<Link>,
    pub(in crate::sewing) start: Node,
    pub(in crate::sewing) end: Node,
    /// Its second half is the mirror image of its first, so that it is the same from both ends.
    pub(super) symmetric: bool,
    /// Its start is its end.
    pub(super) ring: bool,
    /// Two edges named with `+` of which it cannot be reported how they meet, by their place.
    pub(super) unmet_joint: Option<usize>,
    /// What its joints cost, as it was laid: of several orders of its edges the cheapest is meant.
    pub(super) cost: f64,
}

/// What it costs to say that two ends meet at a joint: the same corner, the same name, joined by
/// another seam or beside one another at the end of a zip; and that nothing says so.
const COSTS: [f64; 3] = [0.0, 1.0, 2.0];
/// What is saved where corners of one name are also joined by another seam: the top left of a front and that of
/// a back bear one name at the side seam and at both middles.
const JOINED_TOO: f64 = 0.125;
/// What it costs to join two pieces where one of them is cut on the fold.
const ON_FOLD: f64 = 50.0;
const UNKNOWN: f64 = 100.0;
/// What it costs to lay a fold where left and right do not meet.
const APART: f64 = 2.0 * UNKNOWN;
/// What it costs when one of the two would lie wrong side out, as other seams join them.
const TWISTED: f64 = 10.0;
/// What is saved by laying an end where it is said to lie: more than anything else says, which is then told.
const SAID: f64 = -5.0 * UNKNOWN;
/// What is saved by ending in a corner that is to match one of the other side; or by a joint at one that is to match what
/// lies inside another ply. It is more than other seams say, of which some may not be laid yet.
const MATCHED: f64 = 0.25;
/// Of two ways that are equally good, the first edge goes as it is drawn.
const AGAINST: f64 = 0.001;

impl Strand {
    /// Edges end to end, each turned so that it meets the one before.
    pub(in crate::sewing) fn of(
        corners: &mut Corners,
        places: &[Place],
        hand_of: &dyn Fn(PartId) -> Option<Hand>,
    ) -> Option<Strand> {
        Strand::lying(corners, places, hand_of, &Meant::nothing(), None)
    }

    /// The same where it is known of parts how they lie to one another.
    ///
    /// Of the two ways of every edge the cheapest row of joints is taken, by dynamic programming
    /// along the row.
    pub(super) fn lying(
        corners: &mut Corners,
        places: &[Place],
        hand_of: &dyn Fn(PartId) -> Option<Hand>,
        meant: &Meant,
        mut signs: Option<&mut Signed>,
    ) -> Option<Strand> {
        let link = |place: &Place, reversed: bool| Link {
            part: place.part,
            edge: place.edge,
            reversed,
            hand: hand_of(place.part),
            span: place.span,
            gap: false,
            elsewhere: place.elsewhere,
        };
        let saved = |corners: &Corners, node: Option<Node>| match node {
            Some(node) if meant.is_end(corners, node) => MATCHED,
            _ => 0.0,
        };
        let matching = meant.matching;
        if let [only] = places {
            let [along, against] = [link(only, false), link(only, true)];
            let costs = [(&along, 0.0), (&against, AGAINST)].map(|(link, cost)| {
                cost - saved(corners, link.start(corners)) - saved(corners, link.end(corners))
            });
            let link = if costs[1] < costs[0] { against } else { along };
            let mut strand = Strand::of_links(corners, Few::one(link))?;
            strand.cost = costs[0].min(costs[1]);
            return Some(strand);
        }
        let mut rows: SmallVec<[[(f64, usize); 2]; 8]> = SmallVec::with_capacity(places.len());
        for (at, place) in places.iter().enumerate() {
            let mut row = [(0.0, 0), (0.0, 0)];
            for (way, slot) in row.iter_mut().enumerate() {
                let own = link(place, way == 1);
                let (mut best, mut from) = (f64::INFINITY, 0);
                match at.checked_sub(1).and_then(|before| Some((places.get(before)?, rows.get(before)?))) {
                    None => best = AGAINST * way as f64 - saved(corners, own.start(corners)),
                    Some((before, costs)) => {
                        for (before_way, &(cost, _)) in costs.iter().enumerate() {
                            let before = link(before, before_way == 1);
                            let ends = [before.end(corners), own.start(corners)];
                            let mut cost = cost + joint(corners, ends[0], ends[1], matching);
                            if ends.iter().flatten().any(|&node| meant.is_joint(corners, node)) {
                                cost -= MATCHED;
                            }
                            let signs = signs.as_deref_mut();
                            if signs.is_some_and(|signs| is_twisted(corners, &before, &own, matching, signs))
                            {
                                cost += TWISTED;
                            }
                            if cost < best {
                                (best, from) = (cost, before_way);
                            }
                        }
                    }
                }
                if at + 1 == places.len() {
                    best -= saved(corners, own.end(corners));
                }
                *slot = (best, from);
            }
            rows.push(row);
        }
        let last = rows.last()?;
        let mut way = usize::from(last[1].0 < last[0].0);
        let cost = last[way].0;
        let mut links: Vec<Link> = Vec::with_capacity(places.len());
        for (place, row) in places.iter().zip(&rows).rev() {
            links.push(link(place, way == 1));
            way = row[way].1;
        }
        links.reverse();
        let mut unmet_joint = None;
        for (at, pair) in links.windows(2).enumerate() {
            let [before, after] = pair else { continue };
            let cost = joint(corners, before.end(corners), after.start(corners), matching);
            if cost >= UNKNOWN && before.span != after.span && unmet_joint.is_none() {
                unmet_joint = Some(at);
            }
        }
        let strand = Strand::of_links(corners, links.into())?;
        Some(Strand { unmet_joint, cost, ..strand })
    }

    /// Edges that are turned so that they meet.
    fn of_links(corners: &Corners, links: Few<Link>) -> Option<Strand> {
        let (start, end) = (links.first()?.start(corners)?, links.last()?.end(corners)?);
        Some(Strand { links, start, end, symmetric: false, ring: false, unmet_joint: None, cost: 0.0 })
    }

    /// A ply that lies on some edges of another one, which is laid already, and runs with it elsewhere; and whether it
    /// is known which way round it lies there. None where it is no such ply.
    pub(super) fn lying_on(
        corners: &mut Corners,
        host: &Strand,
        places: &[Place],
        hand_of: &dyn Fn(PartId) -> Option<Hand>,
        matching: &[(SewnPoint, SewnPoint)],
    ) -> Option<(Strand, bool)> {
        if host.links.len() != places.len() {
            return None;
        }
        let (mut links, mut is_known) = (Vec::with_capacity(places.len()), true);
        for (under, place) in host.links.iter().zip(places) {
            if place.elsewhere {
                if (under.part, under.edge) != (place.part, place.edge) {
                    return None;
                }
                links.push(Link { elsewhere: true, ..*under });
                continue;
            }
            let ways = [false, true].map(|reversed| Link {
                part: place.part,
                edge: place.edge,
                reversed,
                hand: hand_of(place.part),
                span: place.span,
                gap: false,
                elsewhere: false,
            });
            let mut costs = [0.0; 2];
            for (cost, own) in costs.iter_mut().zip(&ways) {
                *cost = laid_on(corners, own.start(corners), under.start(corners), matching)
                    + laid_on(corners, own.end(corners), under.end(corners), matching);
            }
            let own = if costs[1] < costs[0] { ways[1] } else { ways[0] };
            is_known &= (costs[0] - costs[1]).abs() > MATCHED;
            let pairs = [(own.start(corners), under.start(corners)), (own.end(corners), under.end(corners))];
            for (one, other) in pairs {
                if let (Some(one), Some(other), true) = (one, other, is_known) {
                    corners.join(one, other);
                }
            }
            links.push(own);
        }
        Some((Strand::of_links(corners, links.into())?, is_known))
    }

    /// Those of its links by themselves.
    pub(super) fn piece(&self, corners: &Corners, links: Vec<Link>) -> Option<Strand> {
        Strand::of_links(corners, links.into())
    }

    /// At how many of its joints nothing says that its edges meet.
    pub(super) fn torn(&self, corners: &mut Corners, matching: &[(SewnPoint, SewnPoint)]) -> usize {
        let is_torn = |pair: &&[Link]| match pair {
            [before, after] => joint(corners, before.end(corners), after.start(corners), matching) >= UNKNOWN,
            _ => false,
        };
        self.links.windows(2).filter(is_torn).count()
    }

    /// Whether it begins and ends at one corner; of parts whose left and right are told apart, at the left and the right one of
    /// a place.
    pub(super) fn begins_and_ends_alike(&self, corners: &Corners) -> bool {
        self.start == self.end || corners.is_twin(self.start, self.end)
    }

    /// Turns it round.
    pub(in crate::sewing) fn turn(&mut self) {
        self.links.reverse();
        for link in &mut self.links {
            link.reversed = !link.reversed;
        }
        std::mem::swap(&mut self.start, &mut self.end);
        let joints = self.links.len().saturating_sub(2);
        self.unmet_joint = self.unmet_joint.map(|at| joints.saturating_sub(at));
    }

    /// A ring begins with that link of its.
    pub(super) fn begin_at(&mut self, corners: &Corners, link: usize) {
        let count = self.links.len().max(1);
        self.links.rotate_left(link % count);
        let start = self.links.first().and_then(|link| link.start(corners));
        let end = self.links.last().and_then(|link| link.end(corners));
        if let (Some(start), Some(end)) = (start, end) {
            (self.start, self.end) = (start, end);
        }
    }

    /// Goes on, past its end, with its mirror image back to where it began.
    pub(super) fn unfold(&mut self, corners: &Corners, is_ring: bool) {
        let back: Vec<Link> = self.links.iter().rev().map(|link| link.mirrored(corners)).collect();
        self.links.extend(back);
        self.end = self.links.last().and_then(|link| link.end(corners)).unwrap_or(self.start);
        self.symmetric = true;
        self.ring = is_ring;
    }

    /// The whole way round of halves, and of pieces that are there once or several times.
    ///
    /// It is mirrored where a fold or a seam joins left and right. Pieces that are there once lie
    /// in the middle, or at the end where a fold is in the middle.
    pub(super) fn go_round(
        &mut self,
        corners: &mut Corners,
        matching: &[(SewnPoint, SewnPoint)],
        copies_of: &dyn Fn(PartId) -> usize,
        right: Option<Strand>,
    ) {
        let single = |link: &Link| link.hand.is_none();
        if self.links.iter().all(single) {
            if self.links.iter().any(|link| copies_of(link.part) > 1) {
                let links = std::mem::take(&mut self.links);
                for link in links {
                    self.links.extend(std::iter::repeat_n(link, copies_of(link.part).max(1)));
                }
            }
            return;
        }
        if self.links.iter().any(single) {
            if self.links.first().is_some_and(single) && !self.links.last().is_some_and(single) {
                self.turn();
            }
            if let Some(right) = right {
                return self.go_on_in(right, corners, true);
            }
            let beyond = self.take_off_beyond_fold(corners);
            let paired = self.links.iter().rev().filter(|link| !single(link));
            let back: Vec<Link> = paired.map(|link| link.mirrored(corners)).collect();
            self.links.extend(back);
            self.symmetric = beyond.is_empty();
            self.links.extend(beyond);
            self.end = self.links.last().and_then(|link| link.end(corners)).unwrap_or(self.start);
            return;
        }
        let (start, end) = {
            let closes = |node: Node| corners.is_on_fold(node) || corners.is_crossed(node);
            (closes(self.start), closes(self.end))
        };
        let begins_at_end = match (start, end) {
            (true, false) => true,
            (false, true) => false,
            _ => is_matched(corners, self.end, matching) && !is_matched(corners, self.start, matching),
        };
        if begins_at_end {
            self.turn();
        }
        match right {
            Some(right) => self.go_on_in(right, corners, false),
            None => self.unfold(corners, start && end),
        }
        if start && end {
            self.begin_where_open(corners);
        }
    }

    /// Takes off what is there once, at its end and behind a fold: both halves hang together there, so that it lies not in the
    /// middle. It goes on where the way round ends, beside what begins it, as the other end of a strip round a slit in the
    /// middle does; where nothing joins the two it is not known how it lies.
    fn take_off_beyond_fold(&mut self, corners: &mut Corners) -> Vec<Link> {
        let single = |link: &Link| link.hand.is_none();
        let Some(last) = self.links.iter().rposition(|link| !single(link)) else { return Vec::new() };
        let end = self.links.get(last).and_then(|link| link.end(corners));
        // Where the other half of the first comes to.
        let first = self.links.iter().find(|link| !single(link)).map(|link| link.mirrored(corners));
        let begins = first.and_then(|link| link.end(corners));
        if last + 1 == self.links.len() || !end.is_some_and(|end| corners.is_on_fold(end)) {
            return Vec::new();
        }
        let mut tail: Vec<Link> = self.links.iter().skip(last + 1).copied().collect();
        // What was laid at the fold by itself may have come either way round.
        for _ in 0..if tail.len() == 1 { 2 } else { 1 } {
            let start = tail.first().and_then(|link| link.start(corners));
            if let (Some(start), Some(begins)) = (start, begins)
                && corners.joined(start, begins)
            {
                self.links = self.links.iter().take(last + 1).copied().collect();
                return tail;
            }
            tail.iter_mut().for_each(|link| link.reversed = !link.reversed);
        }
        self.unmet_joint = self.unmet_joint.or(Some(last));
        Vec::new()
    }

    /// A ring of parts whose left and right are told apart begins where it is closed by a closure, if that is
    /// in one place: at a zip in the left side seam.
    fn begin_where_open(&mut self, corners: &Corners) {
        if !self.links.iter().any(|link| corners.twin(link.part).is_some()) {
            return;
        }
        let count = self.links.len();
        let mut open: Option<usize> = None;
        for at in 0..count {
            let (Some(before), Some(after)) = (self.links.get(at), self.links.get((at + 1) % count)) else {
                continue;
            };
            let is_open = corners.is_closed_beyond(before.part, before.edge, !before.reversed)
                && corners.is_closed_beyond(after.part, after.edge, after.reversed);
            if is_open {
                if open.is_some() {
                    return;
                }
                open = Some((at + 1) % count);
            }
        }
        let Some(first) = open else { return };
        self.links.rotate_left(first);
        let ends = |link: Option<&Link>, is_start: bool| {
            link.and_then(|link| if is_start { link.start(corners) } else { link.end(corners) })
        };
        if let (Some(start), Some(end)) = (ends(self.links.first(), true), ends(self.links.last(), false)) {
            (self.start, self.end, self.symmetric, self.ring) = (start, end, false, false);
        }
    }

    /// A ring begins where a corner inside it is said to match an end of another ply: a band that is joined at a side
    /// seam. Of the same corner on both sides of the body the left one is taken.
    pub(super) fn begin_where_matched(
        &mut self,
        corners: &Corners,
        matching: &[(SewnPoint, SewnPoint)],
        ends: &[Node],
    ) {
        let meets = |node: Option<Node>| {
            node.is_some_and(|node| {
                matching.iter().any(|(one, other)| {
                    let with = |own: &SewnPoint, their: &SewnPoint| {
                        corners.is_point(node, own) && ends.iter().any(|&end| corners.is_point(end, their))
                    };
                    with(one, other) || with(other, one)
                })
            })
        };
        if !meets(Some(self.start)) && !meets(Some(self.end)) {
            self.begin_where(corners, &meets);
        }
    }

    /// A ring begins where another ply of the same drawing does.
    pub(super) fn begin_beside(&mut self, corners: &Corners, start: Node) {
        let meets = |node: Option<Node>| node.is_some_and(|node| corners.same_point(node, start));
        self.begin_where(corners, &meets);
    }

    fn begin_where(&mut self, corners: &Corners, meets: &dyn Fn(Option<Node>) -> bool) {
        let first = (1..self.links.len()).find(|&at| {
            let before = at.checked_sub(1).and_then(|before| self.links.get(before));
            meets(before.and_then(|link| link.end(corners)))
                || meets(self.links.get(at).and_then(|link| link.start(corners)))
        });
        let Some(first) = first else { return };
        self.links.rotate_left(first);
        let nodes = (
            self.links.first().and_then(|link| link.start(corners)),
            self.links.last().and_then(|link| link.end(corners)),
        );
        if let (Some(start), Some(end)) = nodes {
            (self.start, self.end, self.symmetric, self.ring) = (start, end, false, false);
        }
    }

    /// A ring of which something else takes a part on one side of the body begins where that ends.
    pub(super) fn begin_at_gap(&mut self, corners: &Corners) {
        let closes = |node: Node| corners.is_on_fold(node) || corners.is_crossed(node);
        let count = self.links.len();
        let is_gap = |at: usize| self.links.get(at % count.max(1)).is_some_and(|link| link.gap);
        let is_alike = (0..count).all(|at| is_gap(at) == is_gap(count - 1 - at));
        if is_alike || !closes(self.start) || !closes(self.end) {
            return;
        }
        let mut ends = (0..count).filter(|&at| is_gap(at) && !is_gap(at + 1));
        let (Some(last), None) = (ends.next(), ends.next()) else { return };
        self.links.rotate_left((last + 1) % count.max(1));
        let own = || self.links.iter().filter(|link| !link.gap);
        let (first, last) = (own().next(), own().next_back());
        let nodes = (first.and_then(|link| link.start(corners)), last.and_then(|link| link.end(corners)));
        if let (Some(start), Some(end)) = nodes {
            (self.start, self.end, self.symmetric, self.ring) = (start, end, false, false);
        }
    }

    /// Goes on, past its end, in the right strand, which is not its mirror image; what lies in the middle of
    /// both comes once.
    fn go_on_in(&mut self, mut right: Strand, corners: &Corners, has_middle: bool) {
        let is_twin = |node: Node| {
            corners.is_twin(self.end, node)
                || (has_middle && node == self.end)
                || corners.same_name(self.end, node)
        };
        if !is_twin(right.start) && is_twin(right.end) {
            right.turn();
        } else if !is_twin(right.start) {
            // Its outer end is where the left one's is.
            let meets = |node: Node| corners.is_twin(self.start, node) || corners.same_name(self.start, node);
            if meets(right.start) && !meets(right.end) {
                right.turn();
            }
        }
        let back = right.links.into_iter().filter(|link| !has_middle || link.hand.is_some());
        self.links.extend(back);
        self.end = self.links.last().and_then(|link| link.end(corners)).unwrap_or(self.start);
    }

    /// Whether these are the same edges of the other side of the body.
    pub(super) fn is_twin_of(&self, corners: &Corners, places: &[Place]) -> bool {
        places.len() == self.links.len()
            && self.links.iter().all(|link| {
                let part = corners.twin(link.part).unwrap_or(link.part);
                places.iter().any(|place| (place.part, place.edge) == (part, link.edge))
            })
    }
}

pub(super) fn is_matched(corners: &Corners, node: Node, matching: &[(SewnPoint, SewnPoint)]) -> bool {
    matching.iter().any(|(one, other)| corners.is_point(node, one) || corners.is_point(node, other))
}

/// Whether one of two edges that are laid end to end would lie wrong side out there; not where the maker
/// says that they meet so.
fn is_twisted(
    corners: &Corners,
    before: &Link,
    after: &Link,
    matching: &[(SewnPoint, SewnPoint)],
    signs: &mut Signed,
) -> bool {
    let is_said = || match (before.end(corners), after.start(corners)) {
        (Some(end), Some(start)) => are_matched(corners, end, start, matching),
        _ => false,
    };
    before.part != after.part
        && signs.opposite(before.part.index(), after.part.index())
            == Some(before.is_against() == after.is_against())
        && !is_said()
}

fn are_matched(corners: &Corners, end: Node, start: Node, matching: &[(SewnPoint, SewnPoint)]) -> bool {
    matching.iter().any(|(one, other)| {
        let are = |one, other| corners.is_point(end, one) && corners.is_point(start, other);
        are(one, other) || are(other, one)
    })
}

fn joint(
    corners: &mut Corners,
    end: Option<Node>,
    start: Option<Node>,
    matching: &[(SewnPoint, SewnPoint)],
) -> f64 {
    let (Some(end), Some(start)) = (end, start) else { return UNKNOWN };
    if end == start || are_matched(corners, end, start, matching) {
        COSTS[0]
    } else if corners.is_on_fold(end) || corners.is_on_fold(start) {
        // There a half goes on in its own other half, not in another piece.
        ON_FOLD
    } else if corners.same_name(end, start) {
        COSTS[1] - if corners.joined(end, start) { JOINED_TOO } else { 0.0 }
    } else if corners.joined(end, start) || corners.zipped(end, start) {
        COSTS[2]
    } else {
        UNKNOWN
    }
}

/// What it costs to lay one end on another, which is no joint: the fold of a half lies where the other half of what is
/// below it begins too, on a fold or where left and right are sewn together.
fn laid_on(
    corners: &mut Corners,
    own: Option<Node>,
    under: Option<Node>,
    matching: &[(SewnPoint, SewnPoint)],
) -> f64 {
    let (Some(one), Some(other)) = (own, under) else { return UNKNOWN };
    let is_middle = |node: Node| corners.is_on_fold(node) || corners.is_crossed(node);
    let is_fold = corners.is_on_fold(one) || corners.is_on_fold(other);
    match (is_middle(one), is_middle(other)) {
        _ if are_matched(corners, one, other, matching) => SAID,
        (true, true) if is_fold => COSTS[0],
        _ if is_fold => APART,
        _ => joint(corners, own, under, matching),
    }
}
