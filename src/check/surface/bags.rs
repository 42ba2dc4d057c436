//! `turn/closed`: what closes a space off is turned before, or through a gap. How that is judged stands in
//! [`Bags`]. Without steps one of its seams must be such that it may be sewn last, and the order that is worked out leave a way out.

use super::cloth::cloth;
use super::shut_in::seams_shut_in;
use super::straps_closed::straps_closed;
use crate::check::gaps::{needless_gaps, outside_gaps};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Gap, Garment, LayerId, PieceId, SeamId};
use crate::id_hash::IdIndexSet;
use crate::limits;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::order::{
    Bags, Graph, Job, Rules, Schedule, Shutting, Timetable, When, Work, broken_by, find, is_unclear,
    stitchings_of,
};
use crate::sewing::surface::{Bag, FaceId, Join, JoinedBy, JoinedPly, Surface};
use crate::sewing::{Sewing, amount_of};
use std::cell::{LazyCell, RefCell};

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[
        &catalogue::TURN_CLOSED,
        &catalogue::STEP_SHUT,
        &catalogue::TURN_STRAP,
        &catalogue::GAP_NEEDLESS,
        &catalogue::GAP_OUTSIDE,
    ],
    run: Run::PerSize(run),
};

/// A gap through which thick cloth is turned too, in millimetres (common practice: 6 in).
const GAP: f64 = 150.0;
/// So much of a seam is left beside a gap, in millimetres, that both its ends are held.
const ENDS: f64 = 30.0;
/// What is too small for such a gap is turned through so much of a seam, as a share of it …
const OF_SMALL: f64 = 0.5;
/// … if that lets a finger in, in millimetres.
const LEAST_GAP: f64 = 25.0;
/// So many pieces are named one by one.
const MOST_NAMED: usize = 3;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let Some(surface) = size.sewn.surface.as_ref() else { return };
    let shut = surface.shutting();
    let enclosing = match surface.enclosing(&shut) {
        Ok(enclosing) => enclosing,
        Err(count) => {
            findings.push(too_many(garment, size, count));
            return;
        }
    };
    if garment.seams.iter().any(|seam| !seam.gaps.is_empty()) {
        let bags = surface.bags(&shut, |_| 0).unwrap_or_default();
        findings.extend(needless_gaps(garment, size, surface, &bags));
        findings.extend(outside_gaps(garment, size, surface, &bags));
    }
    // Most things close nothing off; nobody has to know when they are sewn.
    if enclosing.is_empty() {
        return;
    }
    let Some(mut judged) = Bags::of(garment, &size.sewn) else { return };
    // The rules of order are asked for few bags.
    let work = LazyCell::new(|| Work::new(garment, &size.drawn, &size.sewn));
    let rules = LazyCell::new(|| Rules::of(&work));
    let graph = LazyCell::new(|| RefCell::new(Graph::of(&rules)));
    let can_be_last = |last: usize, seams: &[usize]| can_be_last(&mut graph.borrow_mut(), last, seams);
    let telling = Telling { garment, size, sewing: &size.sewn, surface, can_be_last: &can_be_last };
    judged.timetable = timetable(garment, size);
    // Where no order is said, what no order would mend is told of the seams alone.
    if garment.steps_span.is_none() {
        let said = judged.timetable.take();
        let bags = surface.bags(&shut, |_| 0).unwrap_or_default();
        let all: Vec<Finding> =
            bags.iter().filter_map(|bag| telling.finding(bag, judged.judge(bag)?)).collect();
        if !all.is_empty() {
            findings.extend(all);
            findings.extend(telling.gaps_of_plies(&bags, &judged));
            return;
        }
        judged.timetable = said;
    }
    let bags = enclosing.bags(surface, &shut, |shut| judged.at(shut));
    findings.extend(bags.iter().filter_map(|bag| telling.finding(bag, judged.judge(bag)?)));
    findings.extend(telling.gaps_of_plies(&bags, &judged));
    if let Some(timetable) = &judged.timetable {
        findings.extend(seams_shut_in(garment, size, surface, timetable, &bags));
        findings.extend(straps_closed(garment, size, surface, timetable, &bags));
    }
}

/// What the steps say, and what is worked out where they leave something out.
fn timetable(garment: &Garment, size: &WorkedSize) -> Option<Timetable> {
    if garment.incomplete.steps {
        return None;
    }
    let work = Work::new(garment, &size.drawn, &size.sewn);
    let said = Schedule::said(&work);
    if said.is_whole(&work) || is_unclear(garment) {
        return Timetable::of(&work, &said);
    }
    let rules = Rules::of(&work);
    let found = find(&rules, &said);
    // Where something finds no place among the steps, that is told; of what then comes too late nothing is known.
    if !broken_by(&rules, &said, &found).is_empty() {
        return None;
    }
    Timetable::of(&work, &found.schedule)
}

/// Whether one seam of a bag can be the last of them all, as the rules of order stand. All by their places in [`Sewing::seams`].
fn can_be_last(graph: &mut Graph, last: usize, seams: &[usize]) -> bool {
    let work = graph.rules.work;
    let sewn = stitchings_of(work);
    let place = |at: usize| work.jobs.get_index_of(&Job::Seam(sewn.get(at).copied().flatten()?));
    let Some(last) = place(last) else { return true };
    let others: Vec<usize> = seams.iter().filter_map(|&at| place(at)).collect();
    let asked: Vec<usize> = others.into_iter().filter(|&other| graph.ask(last, other)).collect();
    let is_stuck = graph.stuck().get(last).copied().unwrap_or(false);
    asked.into_iter().for_each(|other| graph.take_back(last, other));
    !is_stuck
}

fn too_many(garment: &Garment, size: &WorkedSize, count: usize) -> Finding {
    let title = format!(
        "{count} sheets of pieces hang together by seams of three plies and more, and of at most {} it can be \
         worked out whether they can be turned",
        limits::SHEETS_OF_BAG
    );
    let mistake = Diagnostic::new(&catalogue::TURN_CLOSED, garment.heading, title)
        .help("put parts of so large a work into garments of their own");
    Finding::new(size.drawn.size, count as f64, mistake)
}

struct Telling<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewing: &'a Sewing,
    surface: &'a Surface,
    /// Whether one of these seams can be the last of them.
    can_be_last: &'a dyn Fn(usize, &[usize]) -> bool,
}

impl Telling<'_> {
    /// The message about a bag.
    fn finding(&self, bag: &Bag, shutting: Shutting) -> Option<Finding> {
        match shutting {
            Shutting::NoWayOut { seams, last, when, others } => {
                let other = others.into_iter().find(|&one| (self.can_be_last)(one, &seams));
                // An order that is worked out and not said is refused only where no other one will do.
                if other.is_some() && self.garment.steps_span.is_none() {
                    return None;
                }
                Some(self.message(bag, &seams, last, when, other))
            }
            Shutting::Late { last, when, turned } => {
                let seam = self.garment.seam(self.name(last)?);
                let (what, _) = self.what(bag);
                let title = format!(
                    "{what} by {}, but only after turning, when nobody reaches in between",
                    seam.words()
                );
                let mistake = Diagnostic::new(&catalogue::TURN_CLOSED, when.span, title)
                    .label("closes the last of it")
                    .also(turned.span, "turned here")
                    .also(seam.name_span, "this seam")
                    .help(format!(
                        "sew {0} before turning; or sew it by hand once all is turned, {{ stitch handstitch }}; or, if \
                         it is pulled out through the gap to be sewn, turn once more after it",
                        seam.name
                    ));
                Some(Finding::new(self.size.drawn.size, bag.faces.len() as f64, mistake))
            }
        }
    }

    /// Gaps in one ply of a stack that open into what is turned already, a flap or a brim between shell and lining, while
    /// what the stack closes beside it has none.
    fn gaps_of_plies(&self, bags: &[Bag], judged: &Bags) -> Vec<Finding> {
        let garment = self.garment;
        let mut found = Vec::new();
        for (id, seam) in SeamId::enumerate(&garment.seams) {
            let [Gap { layer: Some(layer), length, span, .. }] = seam.gaps.as_slice() else { continue };
            let stack = self.surface.joins.iter().find(|join| {
                join.gap
                    && join.plies.len() > 2
                    && matches!(join.by, JoinedBy::Seam { seam, .. } if seam == id)
            });
            let Some(stack) = stack else { continue };
            let face = |ply: &JoinedPly| self.surface.face_of(ply.stretch);
            let is_of_gap = |face: &FaceId| self.surface.face(*face).layer == *layer;
            let has = |bag: &Bag, wanted: &dyn Fn(&FaceId) -> bool| {
                let mut plies =
                    stack.plies.iter().map(face).filter(|face| bag.faces.binary_search(face).is_ok());
                plies.any(|face| wanted(&face))
            };
            let (opened, others): (Vec<&Bag>, Vec<&Bag>) =
                bags.iter().filter(|bag| has(bag, &|_| true)).partition(|bag| has(bag, &is_of_gap));
            let Some(other) = others.first() else { continue };
            // The one that lies within, a flap, is the smaller.
            let most = |bags: &[&Bag]| {
                bags.iter().map(|bag| cloth(self.size, self.surface, &bag.faces)).fold(0.0, f64::max)
            };
            let is_within = !opened.is_empty() && most(&opened) < most(&others);
            // Where what lies beside it has no other way out, that is told.
            let is_told = others.iter().any(|bag| judged.judge(bag).is_some());
            if !is_within || is_told || opened.iter().any(|bag| judged.needs_gap(bag)) {
                continue;
            }
            let inner = stack.plies.iter().map(face).filter(|face| other.faces.contains(face));
            let Some(inner) = inner.map(|face| self.surface.face(face).layer).max() else { continue };
            let pieces: IdIndexSet<PieceId> = opened
                .iter()
                .flat_map(|bag| &bag.faces)
                .map(|&face| self.sewing.part(self.surface.face(face).part).part.piece)
                .collect();
            let pieces: Vec<String> =
                pieces.iter().take(MOST_NAMED).map(|&piece| words::piece(garment, piece)).collect();
            let title = format!(
                "the gap in {} opens into {} alone, which is turned before",
                seam.name,
                words::listed(&pieces)
            );
            let mut help = format!("leave it in a layer that is to be turned, {}", garment.layer(inner).name);
            if let Some(long) = amount_of(garment, &self.size.drawn, length) {
                let long = words::written(&amount(long, garment.unit));
                help += &format!(": leaving gap {long} in {}", garment.layer(inner).name);
            }
            let warning = Diagnostic::new(&catalogue::GAP_NEEDLESS, *span, title)
                .label("nothing else comes out here")
                .also(seam.name_span, "closes what lies beside it too")
                .help(format!(
                    "{help}; or take it out, if all is laid wrong sides together and nothing is turned"
                ));
            found.push(Finding::new(self.size.id(), 0.0, warning).about(seam.name.to_string()));
        }
        found
    }

    fn name(&self, sewn: usize) -> Option<SeamId> {
        self.sewing.seams.get(sewn).map(|sewn| sewn.seam)
    }

    fn message(
        &self,
        bag: &Bag,
        seams: &[usize],
        last: usize,
        step: Option<When>,
        other: Option<usize>,
    ) -> Finding {
        let garment = self.garment;
        let seam = |at: usize| self.name(at).map(|id| garment.seam(id));
        let name = |at: usize| seam(at).map_or_else(String::new, |seam| seam.name.to_string());
        let declared = seam(last).map_or(garment.heading, |seam| seam.name_span);
        let (what, them) = self.what(bag);
        let gaps = seams.iter().find_map(|&at| seam(at)?.gaps.first());
        if let Some(found) = self.gap_beside(bag, seams, &what) {
            return found;
        }
        let title = match gaps.and_then(|gap| gap.layer) {
            Some(layer) => format!(
                "{what}, and the gap in {} is no way to turn {them} through: it opens what lies between",
                garment.layer(layer).name
            ),
            None => format!("{what}, and no gap is left to turn {them} through"),
        };
        let mistake = match step {
            Some(when) if when.span != declared => Diagnostic::new(&catalogue::TURN_CLOSED, when.span, title)
                .label("closes the last of it")
                .also(declared, "this seam"),
            _ => Diagnostic::new(&catalogue::TURN_CLOSED, declared, title).label("closes the last of it"),
        };
        let mistake = match gaps {
            Some(gap) => mistake.also(gap.span, "left here"),
            None => mistake,
        };
        let mut ways = Vec::new();
        if let Some(other) = other {
            ways.push(format!("sew {} only after {}, once the rest is turned", name(other), name(last)));
        }
        if let Some((gap, in_layer, long)) = self.place_of_gap(bag, seams, last) {
            let long = words::written(&amount(long, garment.unit));
            let gap = name(gap);
            ways.push(format!(
                "leave a gap in {gap} and close it by hand, {{ leaving gap {long}{in_layer} }}"
            ));
        }
        ways.push(format!("sew {} by hand after all others, {{ stitch handstitch }}", name(last)));
        Finding::new(self.size.drawn.size, bag.faces.len() as f64, mistake.help(ways.join("; or ")))
    }

    /// Of a pair of things of which a gap is left on one side of the body alone: the other one has none.
    fn gap_beside(&self, bag: &Bag, seams: &[usize], what: &str) -> Option<Finding> {
        let garment = self.garment;
        let (id, gap, hand) = seams.iter().find_map(|&at| {
            let id = self.name(at)?;
            let gap = garment.seam(id).gaps.first()?;
            Some((id, gap, gap.hand?))
        })?;
        let is_of_it = |by: JoinedBy| matches!(by, JoinedBy::Seam { seam, .. } if seam == id);
        let own = |join: &Join| {
            let mut plies = join.plies.iter().map(|ply| self.surface.face_of(ply.stretch));
            plies.any(|face| bag.faces.contains(&face))
        };
        let left: Vec<bool> =
            self.surface.joins.iter().filter(|join| join.gap && is_of_it(join.by)).map(own).collect();
        // Left in a layer that the seam does not lie in, it is nowhere.
        if left.is_empty() || left.contains(&true) {
            return None;
        }
        let (own, other) = (hand.word(), hand.other().word());
        let seam = garment.seam(id);
        let title = format!(
            "{what}, on the left and on the right, and the gap in {} is left on the {own} alone: the {other} one is not turned",
            seam.words()
        );
        let mistake = Diagnostic::new(&catalogue::TURN_CLOSED, gap.span, title)
            .label(format!("on the {own} alone"))
            .also(seam.name_span, "sewn on both sides")
            .help(format!("leave , {own} out, so that both have a gap"));
        Some(Finding::new(self.size.drawn.size, bag.faces.len() as f64, mistake))
    }

    /// "outer and lining are sewn together all round", and "it" or "them".
    fn what(&self, bag: &Bag) -> (String, &'static str) {
        let part = |face: FaceId| self.sewing.part(self.surface.face(face).part).part;
        let layers: IdIndexSet<LayerId> = bag.faces.iter().map(|&face| part(face).layer).collect();
        let pieces: IdIndexSet<PieceId> = bag.faces.iter().map(|&face| part(face).piece).collect();
        let of_layers = self.surface.faces.iter().filter(|face| layers.contains(&face.layer)).count();
        let layer = |id: &LayerId| self.garment.layer(*id).name.to_string();
        let mut layers: Vec<String> = layers.iter().map(layer).collect();
        layers.sort_by_key(|name| self.garment.layers.iter().position(|layer| *layer.name == **name));
        let is_whole = of_layers == bag.faces.len() || pieces.len() > MOST_NAMED;
        let names: Vec<String> = match is_whole && (layers.len() > 1 || pieces.len() > 1) {
            true if layers.len() > 1 || pieces.len() > MOST_NAMED => layers.clone(),
            _ => pieces.iter().map(|&piece| words::piece(self.garment, piece)).collect(),
        };
        match names.as_slice() {
            [one] if layers.len() > 1 => {
                (format!("{one} is sewn together all round in {}", words::listed(&layers)), "it")
            }
            [one] => (format!("{one} is sewn shut all round"), "it"),
            _ => (format!("{} are sewn together all round", words::listed(&names)), "them"),
        }
    }

    /// The seam in which a gap is best left, and the layer where that has to be said: in the innermost
    /// layer, in the longest of its seams; else in the one that closes the bag, or any that is long
    /// enough. What is small, as a flap or a tab, is turned through a part of its longest seam.
    fn place_of_gap(&self, bag: &Bag, seams: &[usize], last: usize) -> Option<(usize, String, f64)> {
        let inner = bag.faces.iter().map(|&face| self.surface.face(face).layer).max()?;
        let rank = |at: usize| -> Option<(u8, f64)> {
            let sewn = self.sewing.seams.get(at)?;
            let length = sewn.first.plies.first()?.length;
            let is_inside = sewn.layers.iter().all(|layer| *layer == inner);
            let rank = if is_inside && length > 2.0 * GAP { 2 } else { u8::from(at == last) };
            Some((rank, length))
        };
        let all: Vec<(usize, (u8, f64))> = seams.iter().filter_map(|&at| Some((at, rank(at)?))).collect();
        let has_room = |one: &&(usize, (u8, f64))| one.1.1 > GAP + ENDS;
        let is_large = all.iter().any(|one| has_room(&one));
        let fit =
            all.iter().filter(|one| has_room(one) || !is_large && one.1.1 * OF_SMALL >= LEAST_GAP).copied();
        let (at, (_, length)) =
            fit.max_by(|(one, a), (other, b)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(other.cmp(one)))?;
        let times = self.sewing.seams.iter().filter(|sewn| Some(sewn.seam) == self.name(at)).count();
        let layer = &self.garment.layer(inner).name;
        let long = if is_large { GAP } else { (length * OF_SMALL / 5.0).floor() * 5.0 };
        Some((at, if times > 1 { format!(" in {layer}") } else { String::new() }, long))
    }
}
