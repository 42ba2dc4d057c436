//! What is turned once it is sewn: two plies that then lie on one another along a folded edge, as a flap, a collar or a facing.
//!
//! That is told from how they are sewn: a piece to itself in another layer, or two edges that curve, or have corners, the same
//! way, so that flat cloth cannot open out beside them. Two sides of a pocket bag are sewn so too, but what they are sewn to
//! shows that the one lies in front and the other behind.

use super::sides::Sides;
use super::teller::{Teller, Way, fit};
use super::{Step, StepText};
use crate::garment::{ActionTarget, EdgeId, Outline, Part, SeamId};
use crate::resolve::{DrawnEdge, DrawnPiece};
use crate::sewing::order::{BY_HAND, DrawnStrap, Job, PlannedTarget, drawn_straps};
use crate::sewing::{SewnPly, SewnRun, SewnSeam, SewnSide, Stitching};
use crate::shape::Vec2;
use crate::shape::outline::{is_anticlockwise, signed_area};
use crate::shape::path::Path;
use crate::sheet::Text;
use crate::syntax::tree::Verb;

/// Both edges hollow by more than this, in degrees, cannot lie flat beside one another.
const HOLLOW: f64 = 60.0;
/// Both bulging by more than this are a bag; by less, as the gores of a hat, they make a shape.
const BULGING: f64 = 120.0;
/// Two copies of one piece that bulge by more than this, and are sewn in together, are turned: a peak goes round less than a
/// collar.
const BULGING_COPIES: f64 = 90.0;
/// A curve that turns by more than this needs its allowance clipped, and a corner its own.
pub(super) const CLIPPED: f64 = 30.0;
/// Of two plies that differ by no more than this share of their cloth neither lies inside.
const AS_LARGE: f64 = 0.02;

/// How an edge turns round its cloth, in degrees: all in all, and how much of that are curves and corners.
#[derive(Clone, Copy, Debug, Default)]
struct Turns {
    /// Outward curves and corners less inward ones.
    net: f64,
    inner_curve: f64,
    outer_curve: f64,
    outer_corner: f64,
    inner_corner: f64,
}

impl Teller<'_> {
    /// Says how the allowances are clipped of what is turned, and that it is, with the last seam that joins both.
    pub(super) fn say_turned(&self, step: &Step, id: SeamId, groups: &[Sides], text: &mut StepText) {
        let forms = self.forms();
        if self.garment.seam(id).work.is_some() {
            return;
        }
        let all = groups.iter().flat_map(|sides| &sides.sewn).filter_map(|&nth| self.sewn(nth));
        let mut is_told = false;
        for sewn in all {
            let Some(turns) = self.lie_on_one_another(sewn) else { continue };
            if turns.iter().any(|own| own.inner_curve > CLIPPED) {
                text.say(forms.clip_curve());
            }
            if turns.iter().any(|own| own.outer_curve > CLIPPED) {
                text.say(forms.notch_curve());
            }
            if turns.iter().any(|own| own.inner_corner > CLIPPED) {
                text.say(forms.clip_corners());
            }
            if turns.iter().any(|own| own.outer_corner > CLIPPED) {
                text.say(forms.trim_corners());
            }
            let [first, second] = [&sewn.first, &sewn.second].map(|side| self.parts_of(side));
            if self.ends_within(sewn) {
                text.say(forms.clip_ends());
            }
            if !self.is_turned_after(step, sewn) {
                continue;
            }
            let [one, other] = [&first, &second].map(|parts| self.cloth_of(parts));
            let inner = match (one - other).abs() <= AS_LARGE * one.max(other) {
                true => None,
                false if one < other => Some(first),
                false => Some(second),
            };
            is_told = true;
            text.say(match inner {
                None => forms.turn_out(),
                Some(parts) => {
                    let say = |way: Way| {
                        forms.turn_in(self.words.list(parts.iter().map(|&part| self.piece(part, None, way))))
                    };
                    let full = say(Way::default());
                    match fit(std::slice::from_ref(&full)) {
                        true => full,
                        false => say(Way { short: true, layered: false }),
                    }
                }
            });
        }
        let is_turned_later = || {
            let sewn = groups.iter().flat_map(|sides| &sides.sewn).filter_map(|&nth| self.sewn(nth));
            sewn.into_iter().any(|sewn| self.is_turned_through_gap(step, &self.parts_of(&sewn.first)))
        };
        if !is_told && self.turns_earlier(step) && !is_turned_later() {
            text.say(forms.turn_out());
        }
    }

    /// Says that what is sewn so far is turned through a strap of shell and lining, before a seam closes the way round that.
    pub(super) fn say_drawn_through(&self, groups: &[Sides], text: &mut StepText) {
        let drawn = self.drawn.get_or_init(|| self.work().map_or_else(Vec::new, drawn_straps));
        let is_before = |strap: &&DrawnStrap| groups.iter().any(|sides| sides.sewn.contains(&strap.before));
        let Some(strap) = drawn.iter().find(is_before) else { return };
        let [Some(first), Some(second)] = strap.along.map(|nth| self.sewn(nth)) else { return };
        let [first, second] = [first, second].map(|sewn| self.seam_name(sewn.seam));
        text.say(self.forms().drawn_through(first, second));
    }

    /// Whether the plies of a seam will lie on one another, and how they are clipped is told with that.
    pub(super) fn lies_turned(&self, sewn: &SewnSeam) -> bool {
        self.garment.seam(sewn.seam).work.is_none() && self.lie_on_one_another(sewn).is_some()
    }

    /// Whether a seam joins both its plies along a stretch inside one edge of each, as at a slit: the edges go on at both ends in
    /// other seams.
    fn ends_within(&self, sewn: &SewnSeam) -> bool {
        let is_within = |side: &SewnSide| {
            let Some(work) = self.work() else { return false };
            let [ply] = &side.plies[..] else { return false };
            let [run] = &ply.runs[..] else { return false };
            let Some(drawn) = work.finder.drawn(run.part) else { return false };
            let whole = |id| drawn.edge_at(id).map(|edge: &DrawnEdge| self.garment.whole_edge(edge.edge));
            let own = whole(run.edge);
            own.is_some()
                && [drawn.before(run.edge), drawn.after(run.edge)].iter().all(|id| whole(*id) == own)
        };
        is_within(&sewn.first) && is_within(&sewn.second)
    }

    /// Whether what a step sews is turned as soon as it is sewn, and the step says so.
    pub(super) fn is_turned_after(&self, step: &Step, sewn: &SewnSeam) -> bool {
        if self.garment.seam(sewn.seam).work.is_some() || self.lie_on_one_another(sewn).is_none() {
            return false;
        }
        let [first, second] = [&sewn.first, &sewn.second].map(|side| self.parts_of(side));
        self.sewn_later(step, &first, &second).is_none() && !self.is_turned_through_gap(step, &first)
    }

    /// How both sides of a seam turn whose plies will lie on one another; none of another seam.
    fn lie_on_one_another(&self, sewn: &SewnSeam) -> Option<[Turns; 2]> {
        let ([one], [other]) = (&sewn.first.plies[..], &sewn.second.plies[..]) else { return None };
        let [first, second] = [&sewn.first, &sewn.second].map(|side| self.parts_of(side));
        let is_folded = |part: &Part| !self.garment.piece(part.piece).folds.is_empty();
        let is_on_both = first.iter().any(|part| second.contains(part));
        if sewn.each_to_the_next {
            return None;
        }
        if is_on_both {
            let is_turned = self.is_tube(&first, [one, other]) || self.are_two_copies(&first, [one, other]);
            return is_turned.then_some([self.turns(one)?, self.turns(other)?]);
        }
        if first.iter().chain(&second).any(is_folded) {
            return None;
        }
        let turns = [self.turns(one)?, self.turns(other)?];
        let is_itself =
            self.edges_of(one) == self.edges_of(other) || self.is_faced(&first, &second, [one, other]);
        let all = |is_so: fn(f64) -> bool| turns.iter().all(|own| is_so(own.net));
        let is_alike = all(|net| net < -HOLLOW) || all(|net| net > BULGING);
        ((is_itself || is_alike) && !self.is_pocket(&first, &second)).then_some(turns)
    }

    /// Whether a strap is sewn to a tube: a folded piece, all along the edges that come to lie on one another.
    fn is_tube(&self, parts: &[Part], plies: [&SewnPly; 2]) -> bool {
        let [part] = parts else { return false };
        let [over] = self.garment.piece(part.piece).folds.as_slice() else { return false };
        let [one, other] = plies.map(|ply| self.edges_of(ply));
        let are = |own: &[EdgeId], edge: EdgeId| matches!(own, [only] if self.garment.whole_edge(*only) == *only && self.garment.is_run_of(*only, edge));
        !over.in_four
            && (are(&one, over.edge) && are(&other, over.onto)
                || are(&one, over.onto) && are(&other, over.edge))
    }

    /// Whether two copies of one piece are sewn to one another round their edge and then sewn in as one: a collar, the peak of a
    /// cap. Two sides of a pocket bag are sewn in each by itself.
    fn are_two_copies(&self, parts: &[Part], plies: [&SewnPly; 2]) -> bool {
        let ([part], Some(work)) = (parts, self.work()) else { return false };
        let [one, other] = plies.map(|ply| self.edges_of(ply));
        let is_round = plies.iter().all(|ply| self.turns(ply).is_some_and(|own| own.net > BULGING_COPIES));
        let is_both = |side: &SewnSide| {
            let own = side.plies.iter().filter(|ply| {
                ply.runs.iter().any(|run| !run.elsewhere && work.finder.part(run.part) == *part)
            });
            own.count() > 1
        };
        let Some(size) = self.facts.sizes.first() else { return false };
        one == other
            && self.garment.piece(part.piece).folds.is_empty()
            && is_round
            && size.sewn.seams.iter().any(|sewn| is_both(&sewn.first) || is_both(&sewn.second))
    }

    /// Whether both pieces are made of one.
    pub(super) fn share_origin(&self, one: &Part, other: &Part) -> bool {
        let others = self.garment.origins(other.piece);
        self.garment.origins(one.piece).iter().any(|origin| others.contains(origin))
    }

    /// Whether strips face the pieces that they are drawn from, or the rest of some their own pieces in another layer, edge to edge.
    fn is_faced(&self, first: &[Part], second: &[Part], plies: [&SewnPly; 2]) -> bool {
        let [names, others] = plies.map(|ply| {
            let edges = self.edges_of(ply);
            let mut names: Vec<String> =
                edges.iter().map(|edge| self.edge_words(self.garment.whole_edge(*edge))).collect();
            names.dedup();
            names
        });
        let faces = |one: &Part, others: &[Part]| others.iter().any(|other| self.faces(one, other));
        names == others
            && first.iter().all(|one| faces(one, second))
            && second.iter().all(|one| faces(one, first))
    }

    fn faces(&self, one: &Part, other: &Part) -> bool {
        let is_strip =
            |part: &Part| matches!(self.garment.piece(part.piece).drawing.outline, Outline::Strip { .. });
        // A strip and what is left of the piece without it lie beside one another.
        let is_rest = |part: &Part, of: &Part| {
            let outline = &self.garment.piece(part.piece).drawing.outline;
            matches!(outline, Outline::Rest { without, .. } if *without == of.piece)
        };
        let is_beside = is_rest(one, other) || is_rest(other, one);
        let is_over = !is_beside && (one.layer != other.layer || is_strip(one) != is_strip(other));
        one.piece != other.piece && is_over && self.share_origin(one, other)
    }

    fn parts_of(&self, side: &SewnSide) -> Vec<Part> {
        let Some(work) = self.work() else { return Vec::new() };
        let runs = side.plies.iter().flat_map(|ply| &ply.runs).filter(|run| !run.elsewhere);
        let mut parts: Vec<Part> = Vec::new();
        for part in runs.map(|run| work.finder.part(run.part)) {
            if !parts.contains(&part) {
                parts.push(part);
            }
        }
        parts
    }

    /// The edges of a ply, whichever layer they lie in.
    fn edges_of(&self, ply: &SewnPly) -> Vec<EdgeId> {
        let Some(work) = self.work() else { return Vec::new() };
        let edge = |run: &SewnRun| Some(work.finder.drawn(run.part)?.edge_at(run.edge)?.edge);
        ply.runs.iter().filter_map(edge).collect()
    }

    fn turns(&self, ply: &SewnPly) -> Option<Turns> {
        let work = self.work()?;
        let mut all = Turns::default();
        let mut before: Option<(SewnRun, &DrawnPiece)> = None;
        for run in &ply.runs {
            let drawn = work.finder.drawn(run.part)?;
            let path = &drawn.edge_at(run.edge)?.path;
            let out =
                if is_anticlockwise(drawn.outline().iter().map(|edge| &edge.path)) { 1.0 } else { -1.0 };
            let curve = out * turning(path);
            all.net += curve;
            all.inner_curve += (-curve).max(0.0);
            all.outer_curve = all.outer_curve.max(curve);
            if let Some((last, its)) = before.filter(|(last, _)| last.part == run.part) {
                let (from, to) = match run.reversed {
                    false => (last.edge, run.edge),
                    true => (run.edge, last.edge),
                };
                let corner = (its.after(from) == to && last.reversed == run.reversed).then(|| {
                    let end = its.edge_at(from)?.path.tangent_at_end()?;
                    Some(out * angle(end, drawn.edge_at(to)?.path.tangent_at_start()?))
                });
                let corner = corner.flatten().unwrap_or(0.0);
                all.net += corner;
                all.outer_corner = all.outer_corner.max(corner);
                all.inner_corner = all.inner_corner.max(-corner);
            }
            before = Some((*run, drawn));
        }
        Some(all)
    }

    /// Whether what is sewn to both of these, to each its own, is sewn together itself: a pocket bag opens there. So does one
    /// that hangs in a slit of another piece.
    fn is_pocket(&self, first: &[Part], second: &[Part]) -> bool {
        let Some(size) = self.facts.sizes.first() else { return false };
        let is_one = |part: &Part| first.contains(part) || second.contains(part);
        let is_slit = |run: &SewnRun| {
            let part = size.sewn.part(run.part).part;
            let edge = size.drawn.paper(part.paper).and_then(|drawn| drawn.edge_at(run.edge));
            let whole = edge.map(|edge| self.garment.whole_edge(edge.edge));
            !is_one(&part) && whole.is_some_and(|edge| self.garment.edge(edge).side_of.is_some())
        };
        let hangs_in_slit = size.sewn.seams.iter().any(|sewn| {
            [(&sewn.first, &sewn.second), (&sewn.second, &sewn.first)].into_iter().any(|(own, other)| {
                self.parts_of(own).iter().any(is_one)
                    && other.plies.iter().flat_map(|ply| &ply.runs).any(is_slit)
            })
        });
        if hangs_in_slit {
            return true;
        }
        let sides: Vec<[Vec<Part>; 2]> = size
            .sewn
            .seams
            .iter()
            .map(|sewn| [&sewn.first, &sewn.second].map(|side| self.parts_of(side)))
            .collect();
        let joins = |[one, other]: &[Vec<Part>; 2], these: &[Part], those: &[Part]| {
            let meets = |side: &[Part], parts: &[Part]| side.iter().any(|part| parts.contains(part));
            meets(one, these) && meets(other, those) || meets(one, those) && meets(other, these)
        };
        let beside = |own: &[Part]| -> Vec<Part> {
            let of = |[one, other]: &[Vec<Part>; 2]| -> Vec<Part> {
                let is_own = |side: &[Part]| side.iter().any(|part| own.contains(part));
                let left = if is_own(one) { &other[..] } else { &[] };
                let right = if is_own(other) { &one[..] } else { &[] };
                left.iter().chain(right).copied().collect()
            };
            let mut all: Vec<Part> = sides.iter().flat_map(of).collect();
            all.retain(|part| !first.contains(part) && !second.contains(part));
            all
        };
        let (these, those) = (beside(first), beside(second));
        // What both are sewn to lies on one another as they do: a shell and its lining, with a collar or the sides of a slit
        // between them.
        let is_over = |part: &Part| {
            those.iter().any(|other| part.layer != other.layer && self.share_origin(part, other))
        };
        if these.iter().any(is_over) {
            return false;
        }
        let these: Vec<Part> = these.into_iter().filter(|part| !those.contains(part)).collect();
        sides.iter().any(|own| joins(own, &these, &those) && !joins(own, first, second))
    }

    /// The last step after this one that sews the same two together once more, or what hangs on the one of them to what hangs on
    /// the other.
    fn sewn_later(&self, step: &Step, first: &[Part], second: &[Part]) -> Option<&PlannedTarget> {
        let work = self.work()?;
        let before = self.sewn_by(self.targets().take_while(|target| !step.does(target)));
        let mut sides = [first, second].map(|parts| together(parts, &before));
        if sides[0].iter().any(|part| sides[1].contains(part)) {
            sides = [first.to_vec(), second.to_vec()];
        }
        let joins = |at: usize| {
            work.stitchings.get(at).is_some_and(|own| {
                let [one, other] = self.parts_sewn(own);
                let has = |side: &[Part], parts: &[Part]| side.iter().any(|part| parts.contains(part));
                let is_by_hand = self.garment.seam(own.seam).stitch.as_ref();
                !is_by_hand.is_some_and(|stitch| BY_HAND.contains(&stitch.number))
                    && (has(&one, &sides[0]) && has(&other, &sides[1])
                        || has(&one, &sides[1]) && has(&other, &sides[0]))
            })
        };
        let later =
            self.targets().skip_while(|target| !step.does(target)).filter(|target| !step.does(target));
        later.filter(|target| target.jobs.iter().any(|job| matches!(job, Job::Seam(at) if joins(*at)))).last()
    }

    /// Whether something that an earlier step sews waits with being turned for this one.
    fn turns_earlier(&self, step: &Step) -> bool {
        self.waited_for.get_or_init(|| self.found_waited_for()).iter().any(|last| step.does(last))
    }

    /// The steps for which something that an earlier one sews waits with being turned.
    fn found_waited_for(&self) -> Vec<PlannedTarget> {
        let plan = &self.facts.plan;
        let mut found = Vec::new();
        for row in &self.facts.rows {
            let Some(action) = row.action(plan) else { continue };
            for target in row.targets(plan) {
                let ActionTarget::Seam(id) = target.target else { continue };
                if action.verb != Verb::Sew || self.garment.seam(id).work.is_some() {
                    continue;
                }
                let all = std::slice::from_ref(target);
                let step = Step { action, target, all, letter: Text::default() };
                let groups = self.sides(&self.stitchings(&step, id));
                let sewn = groups.iter().flat_map(|group| &group.sewn).filter_map(|&nth| self.sewn(nth));
                for sewn in sewn.filter(|sewn| self.lie_on_one_another(sewn).is_some()) {
                    let [first, second] = [&sewn.first, &sewn.second].map(|side| self.parts_of(side));
                    let last = self.sewn_later(&step, &first, &second);
                    found.extend(last.filter(|_| !self.is_turned_through_gap(&step, &first)).cloned());
                }
            }
        }
        found
    }

    /// Whether the last turn of all takes it along: it hangs together already with the seam whose gap is used for that.
    pub(super) fn is_turned_through_gap(&self, step: &Step, parts: &[Part]) -> bool {
        let Some(work) = self.work() else { return false };
        let actions = self.facts.plan.groups.iter().flat_map(|group| &group.actions);
        let turned = actions.filter(|action| action.verb == Verb::TurnThroughGap);
        let mut with_gap: Vec<usize> = Vec::new();
        for target in turned.flat_map(|action| &action.targets) {
            match target.target {
                ActionTarget::Seam(id) => with_gap.extend(work.of_seam(id)),
                _ => {
                    let gaps = SeamId::enumerate(&self.garment.seams);
                    let gaps = gaps.into_iter().filter(|(_, seam)| !seam.gaps.is_empty());
                    with_gap.extend(gaps.flat_map(|(id, _)| work.of_seam(id)));
                }
            }
        }
        if with_gap.is_empty() {
            return false;
        }
        let until = self.targets().take_while(|target| !step.does(target));
        let together = together(parts, &self.sewn_by(until.chain(std::iter::once(step.target))));
        let mut gaps = with_gap.iter().filter_map(|&at| work.stitchings.get(at));
        gaps.any(|own| self.parts_sewn(own).concat().iter().any(|part| together.contains(part)))
    }

    /// The parts that each seam of these steps joins.
    pub(super) fn sewn_by<'p>(&self, targets: impl Iterator<Item = &'p PlannedTarget>) -> Vec<Vec<Part>> {
        let Some(work) = self.work() else { return Vec::new() };
        let sewn = targets.flat_map(|target| &target.jobs).filter_map(|job| match job {
            Job::Seam(at) => work.stitchings.get(*at).map(|own| self.parts_sewn(own).concat()),
            _ => None,
        });
        sewn.collect()
    }

    /// The parts on both sides of a stitching.
    fn parts_sewn(&self, stitching: &Stitching) -> [Vec<Part>; 2] {
        let Some(work) = self.work() else { return Default::default() };
        [0, 1].map(|at| {
            let places = stitching.sides.get(at).into_iter().flatten().flatten();
            places.map(|place| work.finder.part(place.part)).collect()
        })
    }

    /// All that is done, in the order of work.
    pub(super) fn targets(&self) -> impl Iterator<Item = &PlannedTarget> {
        let plan = &self.facts.plan;
        self.facts.rows.iter().flat_map(|row| row.targets(plan))
    }

    /// How much cloth parts have, in square millimetres.
    fn cloth_of(&self, parts: &[Part]) -> f64 {
        let Some(size) = self.facts.sizes.first() else { return 0.0 };
        let papers = parts.iter().filter_map(|part| size.drawn.paper(part.paper));
        papers.map(|drawn| signed_area(drawn.outline().iter().map(|edge| &edge.path)).abs()).sum()
    }
}

/// These parts, and all that seams of such parts join to them.
pub(super) fn together(parts: &[Part], sewn: &[Vec<Part>]) -> Vec<Part> {
    let mut together = parts.to_vec();
    loop {
        let beside = sewn.iter().filter(|own| own.iter().any(|part| together.contains(part))).flatten();
        let new: Vec<Part> = beside.filter(|part| !together.contains(part)).copied().collect();
        if new.is_empty() {
            return together;
        }
        together.extend(new);
    }
}

/// By how much a path turns to the left from its start to its end, in degrees.
fn turning(path: &Path) -> f64 {
    let points = path.flatten(0.1);
    let ways: Vec<_> =
        points.windows(2).map(|two| two[1] - two[0]).filter(|way| way.hypot() > 1e-6).collect();
    ways.windows(2).map(|two| angle(two[0], two[1])).sum()
}

/// From one way to the next, to the left, in degrees.
pub(super) fn angle(from: Vec2, to: Vec2) -> f64 {
    from.cross(to).atan2(from.dot(to)).to_degrees()
}
