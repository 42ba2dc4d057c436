//! `seam/matching`, and `notch/off-edge` of seams: corners that a seam's braces name and the seam has
//! not, and notches that have no place on it.

use super::matched_off::{matched_off, reported};
use super::runs::is_same_from_both_ends;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::few::Few;
use crate::garment::{CutHow, Dimension, Garment, NotchAt, Seam, SeamNotch, SewnEdge, SewnPoint, SewnSpot};
use crate::report::{Diagnostic, Finding, Title, amount, at_most, catalogue};
use crate::resolve::{CornerName, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{
    PartId, Sewing, SewnPly, SewnRun, SewnSeam, TakenBy, amount_of, mark_on_ply, seam_edges, way_from_inside,
};
use crate::shape::tolerance::SAME_POINT;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_MATCHING, &catalogue::NOTCH_OFF_EDGE], run: Run::PerSize(run) };

/// So many corners of a seam are offered.
const OFFERED: usize = 6;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    // They stand in the order of the garment's.
    for all in sewing.seams.chunk_by(|one, other| one.seam == other.seam) {
        let Some(seam) = all.first().map(|sewn| garment.seam(sewn.seam)).filter(|seam| !seam.poisoned) else {
            continue;
        };
        // Of what could not be drawn the corners are not known.
        let undrawn = |sewn: &SewnEdge| sized.is_partly_undrawn(garment, sewn.piece);
        if all.iter().all(|sewn| !sewn.known) && seam_edges(seam).any(undrawn) {
            continue;
        }
        let at = Looking { garment, sized, sewing, seam, all };
        for (one, other) in &seam.matching {
            let found = at.matching(one, other).or_else(|| at.inside(one, other));
            findings.extend(found.or_else(|| at.off_the_middle(one, other)));
        }
        let off = all
            .iter()
            .find_map(|sewn| Some(reported(garment, size, sewn, &matched_off(garment, size, sewn)?)));
        findings.extend(off);
        findings.extend(at.contradiction());
        for notch in &seam.notches {
            findings.extend(at.notch(notch));
        }
        if let Some(twisted) = all.iter().find(|sewn| is_twisted(garment, size, sewn)) {
            findings.extend(at.twisted(twisted));
        }
    }
}

/// One seam in all layers that it is sewn in.
pub(super) struct Looking<'a> {
    pub(super) garment: &'a Garment,
    pub(super) sized: &'a SizedGarment,
    pub(super) sewing: &'a Sewing,
    pub(super) seam: &'a Seam,
    pub(super) all: &'a [SewnSeam],
}

/// Whether what a seam's braces match contradicts itself.
pub(super) fn is_contradictory(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> bool {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let at = Looking { garment, sized, sewing, seam: garment.seam(sewn.seam), all: &[] };
    matched_both_ways(&at, sewn).is_some()
}

/// Whether both sides are left and right of the same edges, and a corner meets another one. Copies that are cut alike may
/// lie so, as one length of a belt does that is turned end for end before it is sewn to the other, if there both ends of
/// the edge are alike.
pub(in crate::check) fn is_twisted(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam) -> bool {
    let left_of = |part: PartId| size.sewn.left_of(part);
    let edges = |ply: Option<&SewnPly>| {
        let mut edges: Few<(PartId, DrawnEdgeId)> =
            ply.into_iter().flat_map(|ply| &ply.runs).map(|run| (left_of(run.part), run.edge)).collect();
        edges.sort_unstable();
        edges
    };
    let count = |ply: Option<&SewnPly>| ply.map_or(0, |ply| ply.runs.len());
    let is_mirrored = || {
        let (one, other) = (sewn.first.plies.first(), sewn.second.plies.first());
        count(one) == count(other) && edges(one) == edges(other)
    };
    let may_turn = || {
        sewn.first.plies.first().is_some_and(|ply| {
            let are_alike = ply.runs.iter().all(|run| run.hand.is_none());
            are_alike && is_same_from_both_ends(garment, size, &ply.runs)
        })
    };
    sewn.unpaired.is_none()
        && sewn
            .ends
            .iter()
            .any(|(one, other)| (left_of(one.part), one.corner) != (left_of(other.part), other.corner))
        && is_mirrored()
        && !may_turn()
}

/// Whether a ply goes from the left one of a corner all the way round to the right one.
fn is_open_round(sewing: &Sewing, ply: &SewnPly) -> bool {
    let (Some(first), Some(last)) = (ply.runs.first(), ply.runs.last()) else { return false };
    (sewing.left_of(first.part), first.edge) == (sewing.left_of(last.part), last.edge)
        && first.hand.is_some_and(|hand| last.hand.is_some_and(|other| other != hand))
}

/// `matching A with B`.
type Matching = (SewnPoint, SewnPoint);

/// Two matchings of which the one lays two plies start on start, and the other start on end.
fn matched_both_ways<'a>(at: &Looking<'a>, sewn: &SewnSeam) -> Option<[&'a Matching; 2]> {
    if at.seam.matching.len() < 2 {
        return None;
    }
    let plies: Vec<&SewnPly> = sewn.first.plies.iter().chain(&sewn.second.plies).collect();
    let end = |ply: &SewnPly, is_end: bool, point: &SewnPoint| {
        let run = if is_end { ply.runs.last() } else { ply.runs.first() };
        run.is_some_and(|run| at.is_at(run, is_end, point))
    };
    let says = |one: &SewnPly, other: &SewnPly, (a, b): &Matching, is_along: bool| {
        [false, true].into_iter().any(|is_end| {
            let meet = |a, b| end(one, is_end, a) && end(other, is_end == is_along, b);
            meet(a, b) || meet(b, a)
        })
    };
    plies.iter().enumerate().find_map(|(place, one)| {
        plies.iter().skip(place + 1).find_map(|other| {
            let only = |is_along: bool| {
                let mut all = at.seam.matching.iter();
                all.find(|pair| says(one, other, pair, is_along) && !says(one, other, pair, !is_along))
            };
            Some([only(true)?, only(false)?])
        })
    })
}

impl Looking<'_> {
    pub(super) fn drawn(&self, run: &SewnRun) -> Option<&DrawnPiece> {
        let paper = self.sewing.part(run.part).part.paper;
        self.sized.paper(paper)
    }

    /// The corner where a run starts, as it is sewn, or ends.
    pub(super) fn corner(&self, run: &SewnRun, is_end: bool) -> Option<CornerName> {
        let drawn = self.drawn(run)?;
        let edge = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
        drawn.edge_at(edge).map(|edge| edge.corner)
    }

    pub(super) fn is_at(&self, run: &SewnRun, is_end: bool, point: &SewnPoint) -> bool {
        let is_layer = point.layer.is_none_or(|wanted| self.sewing.part(run.part).part.layer == wanted);
        let is = || match point.point {
            SewnSpot::Point(point) => {
                let corner = self.corner(run, is_end);
                matches!(corner, Some(CornerName::Named(own)) if self.garment.is_point_of(own, point))
            }
            SewnSpot::RunEnd { run: of, far } => self.drawn(run).is_some_and(|drawn| {
                let at = if is_end != run.reversed { drawn.after(run.edge) } else { run.edge };
                drawn.portion_ends(self.garment, of, far).any(|end| end == at)
            }),
        };
        is_layer && is()
    }

    fn has(&self, ply: &SewnPly, point: &SewnPoint) -> bool {
        ply.runs.iter().any(|run| self.is_at(run, false, point) || self.is_at(run, true, point))
    }

    /// Whether two edges of a ply that follow one another meet in those corners.
    fn is_joint(&self, ply: &SewnPly, one: &SewnPoint, other: &SewnPoint) -> bool {
        ply.runs.windows(2).any(|pair| {
            let [before, after] = pair else { return false };
            let meet = |one, other| self.is_at(before, true, one) && self.is_at(after, false, other);
            meet(one, other) || meet(other, one)
        })
    }

    pub(super) fn plies(&self) -> impl Iterator<Item = &SewnPly> {
        self.all.iter().flat_map(|sewn| sewn.first.plies.iter().chain(&sewn.second.plies))
    }

    pub(super) fn word(&self, point: &SewnPoint) -> String {
        words::point(self.garment, point)
    }

    /// "its corners are front.tip and back.tip", as far as they have names.
    fn offer(&self) -> String {
        let says_layer = seam_edges(self.seam).any(|sewn| sewn.layer.is_some());
        let mut found: Vec<String> = Vec::new();
        for run in self.plies().flat_map(|ply| &ply.runs) {
            let layer = says_layer.then(|| self.sewing.part(run.part).part.layer);
            for is_end in [false, true] {
                let Some(CornerName::Named(point)) = self.corner(run, is_end) else { continue };
                let span = self.seam.name_span;
                let word = self.word(&SewnPoint { layer, point: SewnSpot::Point(point), span });
                if found.len() < OFFERED && !found.contains(&word) {
                    found.push(word);
                }
            }
        }
        match found.as_slice() {
            [] => "its edges have no corners with names: give them points".to_owned(),
            _ => format!("its corners are {}", words::listed(&found)),
        }
    }

    fn stray(&self, point: &SewnPoint) -> Diagnostic {
        let title = format!("{} is not a corner of {}", self.word(point), self.seam.words());
        Diagnostic::new(&catalogue::SEAM_MATCHING, point.span, title)
            .label("at no end of its edges")
            .also(self.seam.name_span, "the seam")
            .help(format!("name where one of its edges ends: {}", self.offer()))
    }

    /// Whether something else is told of a pair of corners that are matched.
    pub(super) fn is_told_apart(&self, (one, other): &(SewnPoint, SewnPoint)) -> bool {
        let found = self.matching(one, other).or_else(|| self.inside(one, other));
        found.or_else(|| self.off_the_middle(one, other)).is_some()
    }

    pub(super) fn found(&self, diagnostic: Diagnostic) -> Option<Finding> {
        Some(Finding::new(self.sized.size, 0.0, diagnostic).about(&*self.seam.name))
    }

    /// `matching A with B`: a corner of one ply, and one of another.
    fn matching(&self, one: &SewnPoint, other: &SewnPoint) -> Option<Finding> {
        if let Some(stray) =
            [one, other].into_iter().find(|point| !self.plies().any(|ply| self.has(ply, point)))
        {
            return self.found(self.stray(stray));
        }
        let apart = self.all.iter().any(|sewn| {
            let plies: Vec<&SewnPly> = sewn.first.plies.iter().chain(&sewn.second.plies).collect();
            let places = |point| plies.iter().enumerate().filter(move |(_, ply)| self.has(ply, point));
            places(one).any(|(at, _)| places(other).any(|(other_at, _)| at != other_at))
        });
        if apart || self.plies().any(|ply| self.is_joint(ply, one, other)) {
            return None;
        }
        let (first, second) = (self.word(one), self.word(other));
        let title = format!("{first} and {second} lie on one side of {} and cannot meet", self.seam.words());
        let diagnostic = Diagnostic::new(&catalogue::SEAM_MATCHING, one.span, title)
            .label("on this side")
            .also(other.span, "on the same")
            .help(format!("match a corner of one side with one of the other: {}", self.offer()));
        self.found(diagnostic)
    }

    /// An end of one side that is matched with a corner inside the other, which begins and ends elsewhere: where
    /// its left and its right are not joined.
    fn inside(&self, one: &SewnPoint, other: &SewnPoint) -> Option<Finding> {
        let mut off: Option<([&SewnPoint; 2], &SewnPly)> = None;
        for sewn in self.all {
            if sewn.unmet.is_some() || sewn.unpaired.is_some() || sewn.ring {
                return None;
            }
            let plies: Vec<&SewnPly> = sewn.first.plies.iter().chain(&sewn.second.plies).collect();
            for (at, ply) in plies.iter().enumerate().filter(|(_, ply)| self.has(ply, one)) {
                let beside = plies.iter().enumerate().filter(|&(beside, _)| beside != at);
                for (_, beside) in beside.filter(|(_, ply)| self.has(ply, other)) {
                    match (self.is_end(ply, one), self.is_end(beside, other)) {
                        (true, false) => off = off.or(Some(([one, other], *beside))),
                        (false, true) => off = off.or(Some(([other, one], *ply))),
                        (true, true) | (false, false) => return None,
                    }
                }
            }
        }
        let ([end, within], ply) = off.filter(|(_, ply)| is_open_round(self.sewing, ply))?;
        let first = ply.runs.first()?;
        if self.is_sewn_beside(first) {
            return None;
        }
        let Some(CornerName::Named(point)) = self.corner(first, false) else { return None };
        let begins =
            SewnPoint { layer: within.layer, point: SewnSpot::Point(point), span: self.seam.name_span };
        let [end_word, within_word, begins] = [end, within, &begins].map(|point| self.word(point));
        let title = format!(
            "{end_word} and {within_word} do not meet: {} begins and ends at {begins}",
            self.seam.words()
        );
        let diagnostic = Diagnostic::new(&catalogue::SEAM_MATCHING, within.span, title)
            .label("inside the seam")
            .also(end.span, "at its end")
            .help(format!(
                "nothing sews left and right together at {begins}, so that the garment opens there: match {end_word} \
                 with {begins}; or sew left and right together there, and leave them open at {within_word}"
            ));
        self.found(diagnostic)
    }

    /// Whether a seam takes the edge beside the start of a run, so that the garment does not open there.
    fn is_sewn_beside(&self, run: &SewnRun) -> bool {
        let beside = self
            .drawn(run)
            .map(|drawn| if run.reversed { drawn.after(run.edge) } else { drawn.before(run.edge) });
        let fate = beside.and_then(|edge| self.sewing.part(run.part).fate(edge));
        fate.is_some_and(|fate| fate.takers.iter().any(|taker| matches!(taker.what, TakenBy::Seam(..))))
    }

    fn is_end(&self, ply: &SewnPly, point: &SewnPoint) -> bool {
        let at = |run: Option<&SewnRun>, is_end| run.is_some_and(|run| self.is_at(run, is_end, point));
        at(ply.runs.first(), false) || at(ply.runs.last(), true)
    }

    /// Two lines that say of two plies that they lie the one way round and the other.
    fn contradiction(&self) -> Option<Finding> {
        let mut found = self.all.iter().find_map(|sewn| matched_both_ways(self, sewn))?;
        found.sort_by_key(|(one, _)| one.span.lo);
        let [before, after] = found;
        let word = |(one, other): &Matching| format!("matching {} with {}", self.word(one), self.word(other));
        let title = format!("{} cannot lie both ways round that its braces match", self.seam.words());
        let diagnostic = Diagnostic::new(&catalogue::SEAM_MATCHING, after.0.span.to(after.1.span), title)
            .label("lays the one side the other way round")
            .also(before.0.span.to(before.1.span), "lays it the one way round")
            .help(format!("keep one of them: {}, or {}", word(before), word(after)));
        self.found(diagnostic)
    }

    /// `notch 8 from A`: at that distance from the corner there must be some seam left.
    fn notch(&self, notch: &SeamNotch) -> Option<Finding> {
        let amount_said = amount_of(self.garment, self.sized, notch.amount());
        let from = match &notch.at {
            NotchAt::From(_, from) => from,
            NotchAt::Share(_) => return self.share(notch, amount_said?),
        };
        let Some(ply) = self.plies().find(|ply| self.has(ply, from)) else {
            return self.notch_at_mark(notch, from, amount_said?);
        };
        let long = ply.length;
        let is_share = notch.amount().dimension == Dimension::Number;
        let distance = if is_share { amount_said? * long } else { amount_said? };
        let mut station = 0.0;
        let mut fits = false;
        for run in &ply.runs {
            let ahead = self.is_at(run, false, from).then_some(station + distance);
            station += run.length;
            let back = self.is_at(run, true, from).then_some(station - distance);
            let on_seam = |at: f64| (-SAME_POINT..=long + SAME_POINT).contains(&at);
            fits |= [ahead, back].into_iter().flatten().any(on_seam);
        }
        if fits || !long.is_finite() {
            return None;
        }
        Some(self.no_room(notch, distance, long))
    }

    /// Half of a seam is the same from both ends, and no other share is.
    fn share(&self, notch: &SeamNotch, share: f64) -> Option<Finding> {
        if (share - 0.5).abs() <= SAME_POINT {
            return None;
        }
        let percent = libm::round(share * 1e5) / 1e3;
        let title = Title::new(format!("{percent} % of {} from which end?", self.seam.words()));
        let diagnostic = Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, notch.span, title.in_sizes())
            .label("from where?")
            .help(format!("say from where: {percent}% from a corner; 50% is the middle. {}", self.offer()));
        self.found(diagnostic)
    }

    /// `notch at balance`, `notch 8 from balance`: a mark, or a place, on an edge of the seam.
    fn notch_at_mark(&self, notch: &SeamNotch, from: &SewnPoint, amount: f64) -> Option<Finding> {
        // A place that lies on no edge has been reported.
        let placed = from.point.point().is_some_and(|point| self.garment.is_placed_point(point));
        let drawn = |part: PartId| self.sized.paper(self.sewing.part(part).part.paper);
        let found = self.plies().find_map(|ply| Some((ply, mark_on_ply(self.garment, drawn, ply, from)?)));
        let Some((ply, station)) = found else {
            if placed {
                return None;
            }
            let mut diagnostic = self.stray(from);
            diagnostic.kind = &catalogue::NOTCH_OFF_EDGE;
            return self.found(diagnostic);
        };
        let is_share = notch.amount().dimension == Dimension::Number;
        let distance = if is_share { amount * ply.length } else { amount };
        if way_from_inside(station, distance, ply.length).is_some() {
            return None;
        }
        if station - distance < -SAME_POINT || distance < 0.0 {
            return Some(self.no_room(notch, distance, ply.length));
        }
        let word = self.word(from);
        let title = Title::new(format!("{word} lies inside {}", self.seam.words()));
        let title = title.in_sizes().then(": the notch may be counted either way from there");
        let diagnostic = Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, notch.span, title)
            .label("which way?")
            .help(format!("count from an end of one of its edges, or write notch at {word}"));
        self.found(diagnostic)
    }

    fn no_room(&self, notch: &SeamNotch, distance: f64, long: f64) -> Finding {
        let unit = self.garment.unit;
        let (far, length) = (amount(distance, unit), amount(long, unit));
        let title = Title::new(format!("{} is {length} long", self.seam.words()))
            .in_sizes()
            .then(format!(", and has no place for a notch at {far}"));
        let help = match distance < 0.0 {
            true => "distances are counted along the seam from 0: leave the minus out".to_owned(),
            false => format!("notch it at no more than {}", at_most(long, unit)),
        };
        let diagnostic = Diagnostic::new(&catalogue::NOTCH_OFF_EDGE, notch.span, title)
            .also(notch.amount().span, "this far")
            .help(help);
        let finding = Finding::new(self.sized.size, (distance - long).max(-distance), diagnostic);
        finding.about(&*self.seam.name).figure("length", length).figure("notch at", far)
    }

    /// An edge is sewn to itself, left to right, with one end at the other: that twists the cloth.
    fn twisted(&self, sewn: &SewnSeam) -> Option<Finding> {
        let (one, other) = self.seam.matching.iter().find(|(one, other)| one.point != other.point)?;
        let word = |run: &SewnRun| {
            let edge = self.drawn(run)?.edge_at(run.edge)?.edge;
            Some(words::edge(self.garment, edge))
        };
        let edges: Vec<String> = sewn.first.plies.first()?.runs.iter().filter_map(word).collect();
        let title =
            format!("{} sews {} to itself turned end for end", self.seam.words(), words::listed(&edges));
        let name = |point: &SewnPoint| match point.point {
            SewnSpot::Point(point) => self.garment.point(point).name.to_string(),
            SewnSpot::RunEnd { far, .. } => format!("{} end", if far { "far" } else { "near" }),
        };
        let (first, second) = (name(one), name(other));
        let run = sewn.first.plies.first().and_then(|ply| ply.runs.first());
        if let Some(drawn) = run.and_then(|run| self.drawn(run)).filter(|drawn| drawn.cut == CutHow::Alike) {
            let piece = self.garment.piece(drawn.piece);
            let diagnostic = Diagnostic::new(&catalogue::SEAM_MATCHING, one.span.to(other.span), title)
                .label(format!("the one's {first} would lie on the other's {second}"))
                .also(piece.cut.span, "cut alike")
                .help(format!(
                    "leave the matching out: the copies of one edge meet corner by corner, as a left and a right one do; \
                     if with the other seams they cannot, write cut {} mirrored in piece {}",
                    drawn.count, piece.name
                ));
            return self.found(diagnostic);
        }
        let diagnostic = Diagnostic::new(&catalogue::SEAM_MATCHING, one.span.to(other.span), title)
            .label(format!("the left one's {first} would lie on the right one's {second}"))
            .help(
                "leave the matching out: left and right of one edge meet corner by corner; or name the edge \
                 that is meant on the other side",
            );
        self.found(diagnostic)
    }
}
