//! `hem/deep`, `hem/half` and `hem/crosses`: what is turned or folded over lies on the piece, so there must be as
//! much of the piece.
//!
//! From places all along the edge the way into the piece is followed, as deep as the finish lies
//! there, until it comes to another edge or to what that edge's own finish covers.

use super::hem::deepest;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{CutHow, Finish, FinishKind, Garment};
use crate::kept::{Question, SizeMemory};
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::sewing::{SewnPart, TakenBy, amount_of};
use crate::shape::fold::opened_out;
use crate::shape::line::{Hit, meet_segment};
use crate::shape::outline::is_anticlockwise;
use crate::shape::path::Path;
use crate::shape::tolerance::SAME_POINT;
use crate::shape::{Point, Vec2};
use kurbo::{PathSeg, Rect};
use rayon::prelude::*;
use std::borrow::Cow;

pub(super) static CHECK: Check = Check {
    kinds: &[&catalogue::HEM_DEEP, &catalogue::HEM_HALF, &catalogue::HEM_CROSSES],
    run: Run::PerSize(run),
};

/// What may be wanting without being reported, in millimetres: less than the thickness of the folds.
const SLACK: f64 = 1.0;
/// Places along an edge are looked at so far apart, in millimetres.
const APART: f64 = 10.0;
/// The most places that are looked at on one edge.
const MOST_PLACES: usize = 24;
/// So many times as far along the edge as the finish is deep is another place of it, not the same
/// curve.
const ELSEWHERE: f64 = 4.0;
/// Hems are turned up to 4 cm, those of coats 5 (common practice): what is less, in millimetres, is usual on a narrow
/// piece too.
const USUAL: f64 = 40.0;
/// How much less than its straight taper a curved side may leave a hem's end.
const CURVED: f64 = 0.8;

/// A finish that lies on the piece.
pub(super) struct Cover<'a> {
    pub(super) finish: &'a Finish,
    /// How deep it lies there, in millimetres.
    pub(super) depth: f64,
}

impl Cover<'_> {
    /// It is told of where it lies on half of the piece.
    fn may_be_half(&self) -> bool {
        matches!(self.finish.kind, FinishKind::Hem(_) | FinishKind::Casing(..))
    }
}

/// An edge on the way of a finish.
struct Met {
    /// Its place among the part's edges.
    edge: usize,
    /// How far away it is.
    gap: f64,
    /// How far past it, or past what its own finish covers, the finish reaches.
    over: f64,
}

/// Parts that are looked at in one go; only garments of many are looked at side by side.
const TOGETHER: usize = 128;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let parts = size.sewn.parts.par_iter().with_min_len(TOGETHER).filter(|part| !part.fused);
    let memory = size.memory();
    let found: Vec<Vec<Finding>> = parts.map(|part| of_part(garment, sized, part, memory)).collect();
    let mut told: Vec<Finding> = Vec::new();
    for finding in found.into_iter().flatten() {
        if !told.iter().any(|before| is_of_one_figure(before, &finding)) {
            told.push(finding);
        }
    }
    findings.extend(told);
}

/// Whether a figure that is said of several edges was told of another one, by as much: a front and a back alike.
fn is_of_one_figure(before: &Finding, now: &Finding) -> bool {
    let (one, other) = (&before.diagnostic, &now.diagnostic);
    let is_half = now.diagnostic.is(&catalogue::HEM_HALF);
    let is_as_much = (before.weight - now.weight).abs() < SLACK / 2.0;
    // Of two finishes that cross both are shown, then an edge.
    let crossed =
        |of: &Diagnostic| of.labels.get(1).filter(|_| of.is(&catalogue::HEM_CROSSES)).map(|label| label.span);
    one.is(other.kind)
        && one.span() == other.span()
        && (is_half || is_as_much && crossed(one) == crossed(other))
}

fn of_part(
    garment: &Garment,
    sized: &SizedGarment,
    part: &SewnPart,
    memory: Option<&SizeMemory>,
) -> Vec<Finding> {
    let Some(drawn) = sized.shared_paper(part.part.paper) else { return Vec::new() };
    let covers = covers(garment, sized, part);
    if covers.iter().all(Option::is_none) {
        return Vec::new();
    }
    let mut found = None;
    let mut look = |whole: &Whole| found.insert(room_for(garment, sized, part, &covers, whole)).is_empty();
    let is_roomy = match memory {
        Some(memory) => {
            let mut question = Question::default();
            ask_of_covers(&mut question, &covers);
            memory.roomy_of.ask(drawn, question, || {
                let whole = Whole::of(garment, drawn);
                memory.roomy.ask(&whole.question(&covers), || look(&whole))
            })
        }
        None => look(&Whole::of(garment, drawn)),
    };
    // What is found is worded anew each time.
    if is_roomy {
        Vec::new()
    } else {
        found.unwrap_or_else(|| room_for(garment, sized, part, &covers, &Whole::of(garment, drawn)))
    }
}

/// What lies on the piece, as far as it matters for what is found.
fn ask_of_covers(question: &mut Question, covers: &[Option<Cover>]) {
    question.count(covers.len());
    for cover in covers {
        question.may_be(cover.as_ref().map(|cover| cover.depth));
        question.is(cover.as_ref().is_some_and(Cover::may_be_half));
    }
}

fn room_for(
    garment: &Garment,
    sized: &SizedGarment,
    part: &SewnPart,
    covers: &[Option<Cover>],
    whole: &Whole,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    let Some(drawn) = sized.paper(part.part.paper) else { return findings };
    let mut crossed: Vec<(usize, usize)> = Vec::new();
    for (edge, cover) in covers.iter().enumerate() {
        let Some(cover) = cover else { continue };
        let sides = Sides { garment, sized, part, drawn, edge, cover };
        let met = whole.met(covers, edge, cover.depth);
        if met.is_empty() && cover.may_be_half() {
            findings.extend(whole.behind(edge, cover.depth).and_then(|behind| sides.half(&behind)));
        }
        for met in met {
            if crossed.contains(&(met.edge, edge)) {
                continue;
            }
            crossed.push((edge, met.edge));
            let other = covers.get(met.edge).and_then(Option::as_ref);
            findings.push(match other {
                Some(other) if met.gap >= cover.depth - SLACK => sides.crosses(&met, other),
                _ => sides.deep(&met),
            });
        }
    }
    findings
}

/// What lies on the piece along each of its edges.
pub(super) fn covers<'a>(
    garment: &'a Garment,
    sized: &SizedGarment,
    part: &SewnPart,
) -> Vec<Option<Cover<'a>>> {
    let of = |fate: &crate::sewing::EdgeFate| {
        let finish = fate.takers.iter().find_map(|taker| match taker.what {
            TakenBy::Finish(id) => Some(garment.finish(id)),
            _ => None,
        })?;
        let depth = match &finish.kind {
            FinishKind::Hem(hem) => deepest(garment, sized, hem)?,
            FinishKind::Bound(binding) => amount_of(garment, sized, &binding.width)?,
            FinishKind::Casing(depth, _) | FinishKind::Elastic(depth, _) => amount_of(garment, sized, depth)?,
            FinishKind::Tape(_)
            | FinishKind::TurnedUnderOnto(_)
            | FinishKind::Overlocked
            | FinishKind::Raw
            | FinishKind::Poison => return None,
        };
        (depth > 0.0).then_some(Cover { finish, depth })
    };
    part.edges.iter().map(of).collect()
}

/// A piece, opened out where it is cut on the fold.
struct Whole<'a> {
    /// Its edges end to end, each with its place among those of the half.
    edges: Vec<(usize, Cow<'a, Path>)>,
    /// The box of each.
    boxes: Vec<Rect>,
    /// 1 where the cloth lies to the left of its edges, −1 where it lies to the right.
    inward: f64,
}

impl<'a> Whole<'a> {
    fn of(garment: &Garment, drawn: &'a DrawnPiece) -> Whole<'a> {
        let edges = opened(garment, drawn);
        let boxes = edges.iter().map(|(_, path)| path.bounding_box()).collect();
        let inward = if is_anticlockwise(edges.iter().map(|(_, path)| &**path)) { 1.0 } else { -1.0 };
        Whole { edges, boxes, inward }
    }

    /// All that it hangs on whether something is found.
    fn question(&self, covers: &[Option<Cover>]) -> Question {
        let mut question = Question::default();
        question.count(self.edges.len());
        for (place, path) in &self.edges {
            question.count(*place);
            question.path(path);
        }
        ask_of_covers(&mut question, covers);
        question
    }

    /// Which edges are on the way of a finish, the worst place of each.
    fn met(&self, covers: &[Option<Cover>], edge: usize, depth: f64) -> Vec<Met> {
        let Some(own) = self.edges.iter().position(|(at, _)| *at == edge) else { return Vec::new() };
        let Some((_, path)) = self.edges.get(own) else { return Vec::new() };
        let deepest = covers.iter().flatten().map(|cover| cover.depth).fold(0.0, f64::max);
        let reach = depth + deepest + SLACK;
        let mut found: Vec<Met> = Vec::new();
        for along in places_along(path) {
            let Some(First { foot, at, hit }) = self.first_met(own, along, reach) else { continue };
            let Some((place, other)) = self.edges.get(at) else { continue };
            let is_same_curve = *place == edge && {
                let between = match at == own {
                    true => (hit.at - along).abs(),
                    false => shared_corner(path, other)
                        .map_or(f64::INFINITY, |corner| corner.distance(foot) + corner.distance(hit.point)),
                };
                between <= ELSEWHERE * depth
            };
            if is_same_curve || self.tapers(own, at, foot, depth, hit.along) {
                continue;
            }
            let covered = covers.get(*place).and_then(Option::as_ref).map_or(0.0, |cover| cover.depth);
            let over = depth + covered - hit.along;
            let known = found.iter_mut().find(|met| met.edge == *place);
            match known {
                Some(met) if met.over < over => *met = Met { edge: *place, gap: hit.along, over },
                None if over > SLACK => found.push(Met { edge: *place, gap: hit.along, over }),
                _ => {}
            }
        }
        found
    }

    /// What the way into the piece first comes to, from so far along an edge.
    fn first_met(&self, own: usize, along: f64, reach: f64) -> Option<First> {
        let (_, path) = self.edges.get(own)?;
        // The way into the piece from a straight edge does not come back to it.
        let is_line = matches!(path.segments(), [PathSeg::Line(_)]);
        let position = path.position_at(along);
        let foot = path.point_at(position);
        let into = path.tangent_at(position)?.turn_90() * self.inward;
        let end = foot + into * reach;
        let near = Rect::from_points(foot, end).inflate(SLACK, SLACK);
        let mut hits: Vec<(usize, Hit)> = Vec::new();
        for (at, ((_, other), bounds)) in self.edges.iter().zip(&self.boxes).enumerate() {
            if overlap(&near, bounds) && !(at == own && is_line) {
                let met = meet_segment(foot, end, std::slice::from_ref(&**other));
                hits.extend(met.into_iter().map(|hit| (at, hit)));
            }
        }
        hits.retain(|(_, hit)| hit.along > SLACK / 100.0);
        // Beyond the first edge the way has left the piece.
        let (at, hit) = hits.into_iter().min_by(|(_, a), (_, b)| a.along.total_cmp(&b.along))?;
        Some(First { foot, at, hit })
    }

    /// Which edge lies across from a finished one where the piece is deepest behind it, if that is nowhere twice as
    /// deep as the finish.
    fn behind(&self, edge: usize, depth: f64) -> Option<Met> {
        let own = self.edges.iter().position(|(at, _)| *at == edge)?;
        let (_, path) = self.edges.get(own)?;
        let reach = 2.0 * depth - SLACK;
        let mut deepest: Option<(usize, f64)> = None;
        for along in places_along(path) {
            let First { at, hit, .. } = self.first_met(own, along, reach)?;
            if deepest.is_none_or(|(_, gap)| gap < hit.along) {
                deepest = Some((at, hit.along));
            }
        }
        let (at, gap) = deepest?;
        Some(Met { edge: self.edges.get(at)?.0, gap, over: depth - gap / 2.0 })
    }

    /// Whether an edge is met because it tapers in from a corner of the finished edge: there the finish
    /// is cut to its taper, and lies within it.
    fn tapers(&self, own: usize, at: usize, foot: Point, depth: f64, gap: f64) -> bool {
        let (Some((_, path)), Some((_, other))) = (self.edges.get(own), self.edges.get(at)) else {
            return false;
        };
        let is_taper = |(corner, along, aside): (Point, Option<Vec2>, Option<Vec2>)| {
            let (Some(along), Some(aside)) = (along, aside) else { return false };
            let (cosine, sine) = (along.dot(aside), along.cross(aside).abs());
            if cosine <= 1e-6 {
                return false;
            }
            let taper = corner.distance(foot) * sine / cosine;
            taper < depth + SLACK && gap >= CURVED * taper - SLACK
        };
        let at_end = path.end().distance(other.start()) <= SAME_POINT
            && is_taper((path.end(), path.tangent_at_end().map(|way| -way), other.tangent_at_start()));
        at_end
            || path.start().distance(other.end()) <= SAME_POINT
                && is_taper((path.start(), path.tangent_at_start(), other.tangent_at_end().map(|way| -way)))
    }
}

/// Where the way into the piece from a place of an edge first comes to an edge.
struct First {
    foot: Point,
    /// Which of the whole piece's edges that is.
    at: usize,
    hit: Hit,
}

/// Places along an edge from which the way into the piece is looked at.
fn places_along(path: &Path) -> impl Iterator<Item = f64> {
    let length = path.length();
    let count = ((length / APART).ceil() as usize).clamp(3, MOST_PLACES);
    (0..count).map(move |step| length * (step as f64 + 0.5) / count as f64)
}

/// The edges of the whole piece, end to end, each with its place among those of the half.
fn opened<'a>(garment: &Garment, drawn: &'a DrawnPiece) -> Vec<(usize, Cow<'a, Path>)> {
    let fold = match drawn.cut {
        CutHow::OnFold(fold) => drawn.edges.iter().position(|edge| garment.is_run_of(edge.edge, fold)),
        CutHow::Alike | CutHow::Mirrored => None,
    };
    let paths = drawn.edges.iter().map(|edge| &edge.path);
    let whole = fold.and_then(|fold| {
        let ring: Vec<Path> = drawn.outline().iter().map(|edge| edge.path.clone()).collect();
        Some((fold, opened_out(&ring, fold).ok()?))
    });
    if let Some((fold, whole)) = whole {
        let count = drawn.outline().len();
        let half = (1..count).map(|step| (fold + step) % count);
        let places = half.clone().chain(half.rev());
        let inner = paths.enumerate().skip(count).map(|(at, path)| (at, Cow::Borrowed(path)));
        return places.zip(whole.into_iter().map(Cow::Owned)).chain(inner).collect();
    }
    paths.map(Cow::Borrowed).enumerate().collect()
}

/// Whether two boxes overlap or touch; a box that is not known may.
fn overlap(one: &Rect, other: &Rect) -> bool {
    !(one.x0 > other.x1 || other.x0 > one.x1 || one.y0 > other.y1 || other.y0 > one.y1)
}

/// Where one path ends and the other begins, if they share a corner.
fn shared_corner(one: &Path, other: &Path) -> Option<Point> {
    let ends = [(one.end(), other.start()), (one.start(), other.end())];
    ends.into_iter().find(|(a, b)| a.distance(*b) <= SLACK).map(|(a, _)| a)
}

fn word(finish: &Finish) -> &'static str {
    match finish.kind {
        FinishKind::Bound(_) => "binding",
        FinishKind::Casing(..) => "casing",
        FinishKind::Elastic(..) => "elastic",
        _ => "hem",
    }
}

/// "the casing of waist", "the hem" of an edge that is called hem.
fn named(kind: &str, edge: &str) -> String {
    if kind == edge { format!("the {kind}") } else { format!("the {kind} of {edge}") }
}

/// A finish, and where it is.
struct Sides<'a> {
    garment: &'a Garment,
    sized: &'a SizedGarment,
    part: &'a SewnPart,
    drawn: &'a DrawnPiece,
    edge: usize,
    cover: &'a Cover<'a>,
}

impl Sides<'_> {
    fn name(&self, edge: usize) -> String {
        let named = self.drawn.edges.get(edge).map(|edge| self.garment.edge(edge.edge));
        named.map_or_else(String::new, |edge| edge.name.to_string())
    }

    fn piece(&self) -> String {
        words::piece(self.garment, self.part.part.piece)
    }

    fn subject(&self) -> String {
        let part = self.garment.part_name(Some(self.part.part.layer), self.part.part.piece);
        format!("{part}.{}", self.name(self.edge))
    }

    fn deep(&self, met: &Met) -> Finding {
        let unit = self.garment.unit;
        let (deep, gap) = (amount(self.cover.depth, unit), at_most(met.gap, unit));
        let past = self.cover.depth - met.gap;
        let by = amount(past, unit);
        let finish = self.cover.finish;
        let (kind, own, other) = (word(finish), self.name(self.edge), self.name(met.edge));
        let is_bound = matches!(finish.kind, FinishKind::Bound(_));
        let title = Title::new(format!(
            "{} is {deep} {}, but {} is only {gap} deep there",
            named(kind, &own),
            if is_bound { "wide" } else { "deep" },
            self.piece()
        ))
        .in_sizes();
        let mistake = Diagnostic::new(&catalogue::HEM_DEEP, finish.kind_span, title)
            .label(format!("reaches {by} past {other}"));
        let mistake = match self.drawn.edges.get(met.edge) {
            Some(edge) => mistake.also(self.garment.edge(edge.edge).span, format!("{gap} away")),
            None => mistake,
        };
        let help = match is_bound {
            true => format!("take a binding no wider than {gap}"),
            false => format!("turn it no deeper than {gap}, or face or bind the edge"),
        };
        Finding::new(self.sized.size, past, mistake.help(help))
            .about(self.subject())
            .figure(kind, deep)
            .figure("there is room for", gap)
    }

    /// A hem or a casing that lies on more than half of the piece; one as deep as those that are usual only if it covers all of it.
    fn half(&self, behind: &Met) -> Option<Finding> {
        let covers_all = behind.gap <= self.cover.depth + SLACK;
        if self.cover.depth <= USUAL && !covers_all {
            return None;
        }
        let unit = self.garment.unit;
        let (deep, gap) = (amount(self.cover.depth, unit), at_most(behind.gap, unit));
        let (finish, own) = (self.cover.finish, self.name(self.edge));
        let (hem, piece) = (named(word(finish), &own), self.piece());
        let title = Title::new(match covers_all {
            true => format!("{hem} is {deep} deep, as deep as {piece} itself"),
            false => format!("{hem} is {deep} deep, more than half of {piece}, which is {gap} deep there"),
        });
        let label = match covers_all {
            true => format!("its raw edge comes to lie at {}", self.name(behind.edge)),
            false => "what is turned up covers more than it leaves".to_owned(),
        };
        let mut warning =
            Diagnostic::new(&catalogue::HEM_HALF, finish.kind_span, title.in_sizes()).label(label);
        if let Some(edge) = self.drawn.edges.get(behind.edge) {
            warning = warning.also(self.garment.edge(edge.edge).span, format!("{gap} away"));
        }
        let warning = warning.help(
            "look at its figure and its unit: a bare number takes the units that the file says; a piece that is to be of \
             two plies is drawn twice as deep, and folded",
        );
        let finding = Finding::new(self.sized.size, behind.over, warning);
        Some(finding.figure(word(finish), deep).figure("the piece", gap))
    }

    fn crosses(&self, met: &Met, other: &Cover) -> Finding {
        let unit = self.garment.unit;
        let by = amount(met.over, unit);
        let (deep, gap) = (amount(self.cover.depth, unit), at_most(met.gap, unit));
        let other_deep = amount(other.depth, unit);
        let (kind, other_kind) = (word(self.cover.finish), word(other.finish));
        let title = Title::new(format!(
            "{} and {} of {} lie over one another by {by}",
            named(kind, &self.name(self.edge)),
            named(other_kind, &self.name(met.edge)),
            self.piece()
        ))
        .in_sizes();
        let mut mistake = Diagnostic::new(&catalogue::HEM_CROSSES, self.cover.finish.kind_span, title)
            .label(format!("{deep} from this side"));
        if other.finish.kind_span != self.cover.finish.kind_span {
            mistake = mistake.also(other.finish.kind_span, format!("{other_deep} from this one"));
        }
        if let Some(edge) = self.drawn.edges.get(met.edge) {
            mistake = mistake.also(self.garment.edge(edge.edge).span, format!("{gap} away"));
        }
        let help = format!("there is room for {gap} between the two edges: make one of them {by} narrower");
        Finding::new(self.sized.size, met.over, mistake.help(help))
            .about(self.subject())
            .figure(kind, deep)
            .figure(other_kind, other_deep)
            .figure("there is room for", gap)
    }
}
