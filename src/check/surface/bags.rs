//! `turn/closed`: what closes a space off is turned before, or through a gap.
//!
//! Pieces are sewn right sides together, so that a bag that they close has its seams outside until it is
//! turned. Whoever closes one leaves a way out: a gap, or a closure in one of its seams. None is needed
//! where the seam that closes it is sewn from outside, by hand; nor where it takes in another ply all
//! along, so that it is not the bag's own: then the bag was turned before, if its pieces hung together
//! (a cuff, sewn round and turned, and then all of its plies caught in the sleeve's seam), or was laid
//! wrong sides together, if its pieces lie in different layers (a lined tote under a folded band). What is
//! gathered on does not cover the raw edges of such layers: under a frill a cushion of two layers is turned like
//! any other.
//!
//! Through a gap it is turned once it is closed: what is sewn between its layers later is sewn where nobody
//! reaches, with its raw edges outside.
//!
//! Which seam closes a bag, the steps say. Without them it is enough that one of its seams may be sewn
//! last.

use super::shut_in::seams_shut_in;
use crate::check::gaps::needless_gaps;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, LayerId, PieceId, SeamId};
use crate::id_hash::{IdIndexSet, IdSet};
use crate::limits;
use crate::report::{Diagnostic, Finding, amount, catalogue};
use crate::sewing::Sewing;
use crate::sewing::order::{Schedule, Timetable, When, Work};
use crate::sewing::surface::{Bag, FaceId, Join, JoinId, JoinedBy, PlyAt, Shut, StretchId, Surface, Union};
use crate::syntax::tree::FitKind;
use std::collections::BTreeMap;

pub(in crate::check) static CHECK: Check = Check {
    kinds: &[&catalogue::TURN_CLOSED, &catalogue::STEP_SHUT, &catalogue::GAP_NEEDLESS],
    run: Run::PerSize(run),
};

/// A gap through which thick cloth is turned too, in millimetres (common practice: 6 in).
const GAP: f64 = 150.0;
/// So much of a seam is left beside a gap, in millimetres, that both its ends are held.
const ENDS: f64 = 30.0;
/// So many pieces are named one by one.
const MOST_NAMED: usize = 3;
/// Stitches that were once sewn by hand: class 200 of ISO 4915.
const BY_HAND: std::ops::Range<u16> = 200..300;

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
    }
    // Most things close nothing off; nobody has to know when they are sewn.
    if enclosing.is_empty() {
        return;
    }
    let timetable = timetable(garment, size);
    let judging =
        Judging { garment, size, sewing: &size.sewn, surface, shut, opened: opened(surface), timetable };
    let when = |shut: Shut| judging.when(shut).map_or(0, |when| when.at);
    let bags = enclosing.bags(surface, &judging.shut, when);
    findings.extend(bags.iter().filter_map(|bag| judging.finding(bag)));
    if let Some(timetable) = &judging.timetable {
        findings.extend(seams_shut_in(garment, size, surface, timetable, &bags));
    }
}

/// What the steps say; none of a garment without steps, and where they leave something out.
fn timetable(garment: &Garment, size: &WorkedSize) -> Option<Timetable> {
    if garment.steps_span.is_none() || garment.incomplete.steps {
        return None;
    }
    let work = Work::new(garment, &size.drawn, &size.sewn);
    Timetable::of(&work, &Schedule::said(&work))
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

/// What the last stretches of a bag have in common.
#[derive(Clone, Copy)]
struct Last {
    /// They are sewn by hand.
    by_hand: bool,
    /// They take in another ply beside the bag's own.
    takes_in: bool,
    /// Such a ply lies flat over their raw edges, as a band does; what is gathered stands off them.
    covered: bool,
}

impl Last {
    const ANY: Last = Last { by_hand: true, takes_in: true, covered: true };

    fn narrow(&mut self, other: Last) {
        self.by_hand &= other.by_hand;
        self.takes_in &= other.takes_in;
        self.covered &= other.covered;
    }
}

/// How the faces of a bag lie before the last of it is sewn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Laid {
    /// They hang together already, so that they are turned.
    Together,
    /// What hangs together lies in layers of its own, wrong sides together.
    InLayers,
    /// Neither.
    Apart,
}

struct Judging<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    sewing: &'a Sewing,
    surface: &'a Surface,
    /// What shuts each stretch.
    shut: Vec<Option<Shut>>,
    /// Joins of both sides of a closure, which opens them.
    opened: IdSet<JoinId>,
    timetable: Option<Timetable>,
}

/// Joins of both sides of a closure.
fn opened(surface: &Surface) -> IdSet<JoinId> {
    let mut opened = IdSet::default();
    for line in &surface.closures {
        let joins = |side: &[(StretchId, bool)]| -> IdIndexSet<JoinId> {
            side.iter().filter_map(|(stretch, _)| surface.stretch(*stretch).join).collect()
        };
        let [first, second] = [joins(&line.sides[0]), joins(&line.sides[1])];
        opened.extend(first.into_iter().filter(|join| second.contains(join)));
    }
    opened
}

impl Judging<'_> {
    fn when(&self, shut: Shut) -> Option<When> {
        let timetable = self.timetable.as_ref()?;
        match shut {
            Shut::Join(join) => timetable.seam(sewn(self.surface.join(join))?),
            Shut::Closure(at) => timetable.closure(self.surface.closures.get(at)?.closure),
        }
    }

    /// The message about a bag; none where it is sewn as it should be.
    fn finding(&self, bag: &Bag) -> Option<Finding> {
        let all = self.shutting(bag);
        if all.iter().any(|&shut| self.is_way_out(shut)) {
            return self.closed_late(bag, &all);
        }
        // Its seams, and whether they alone may be last.
        let mut how: BTreeMap<usize, Last> = BTreeMap::new();
        for &shut in &all {
            if let Some(seam) = self.sewn(shut) {
                how.entry(seam).or_insert(Last::ANY).narrow(self.last(bag, shut));
            }
        }
        let seams: Vec<usize> = how.keys().copied().collect();
        let mut may_be_last = how.iter().filter(|(seam, last)| {
            let is_of = |shut: Shut| self.sewn(shut) == Some(**seam);
            self.is_closed_soundly(bag, &all, **last, is_of)
        });
        match &self.timetable {
            None => match may_be_last.next() {
                Some(_) => None,
                None => {
                    let last = self.last_across_layers(&seams)?;
                    Some(self.message(bag, &seams, last, None, None))
                }
            },
            Some(_) => {
                let closes = |shut: Shut| self.when(shut).is_some_and(|when| when.at == bag.closed);
                if self.is_sound(bag, &all, closes) {
                    return None;
                }
                let closing = all.iter().copied().find(|&shut| closes(shut))?;
                let seam = self.sewn(closing).or_else(|| self.last_across_layers(&seams))?;
                let other = may_be_last.find(|&(&one, _)| one != seam).map(|(&one, _)| one);
                Some(self.message(bag, &seams, seam, self.when(closing), other))
            }
        }
    }

    /// What shuts the stretches of a bag, each once.
    fn shutting(&self, bag: &Bag) -> Vec<Shut> {
        let stretches = bag.faces.iter().flat_map(|&face| self.surface.stretches_of(face));
        let all: IdIndexSet<Shut> =
            stretches.filter_map(|stretch| self.shut.get(stretch.index()).copied().flatten()).collect();
        all.into_iter().collect()
    }

    fn sewn(&self, shut: Shut) -> Option<usize> {
        match shut {
            Shut::Join(join) => sewn(self.surface.join(join)),
            Shut::Closure(_) => None,
        }
    }

    /// The message about a bag with a gap that was turned before its last seam was sewn.
    fn closed_late(&self, bag: &Bag, all: &[Shut]) -> Option<Finding> {
        let timetable = self.timetable.as_ref()?;
        let mut gaps: Vec<SeamId> = Vec::new();
        for &shut in all {
            let Shut::Join(id) = shut else { continue };
            if self.opened.contains(&id) {
                return None;
            }
            if self.surface.join(id).gap {
                gaps.extend(self.sewn(shut).and_then(|at| self.name(at)));
            }
        }
        let turned = timetable.turned_last(&gaps).filter(|turned| turned.at < bag.closed)?;
        let closes = |shut: Shut| self.when(shut).is_some_and(|when| when.at == bag.closed);
        if self.is_sound(bag, all, closes) {
            return None;
        }
        let closing = all.iter().copied().find(|&shut| closes(shut))?;
        let last = self.name(self.sewn(closing)?)?;
        // What is turned before its own gap is there is reported with the steps.
        if gaps.contains(&last) {
            return None;
        }
        let (seam, when) = (self.garment.seam(last), self.when(closing)?);
        let (what, _) = self.what(bag);
        let title =
            format!("{what} by {}, but only after turning, when nobody reaches in between", seam.name);
        let mistake = Diagnostic::new(&catalogue::TURN_CLOSED, when.span, title)
            .label("closes the last of it")
            .also(turned.span, "turned here")
            .also(seam.name_span, "this seam")
            .help(format!(
                "sew {0} before turning; or sew it by hand once all is turned, {{ stitch handstitch }}; or, if it \
                 is pulled out through the gap to be sewn, turn once more after it",
                seam.name
            ));
        Some(Finding::new(self.size.drawn.size, bag.faces.len() as f64, mistake))
    }

    /// Whether what is inside comes out there: through a gap, or a closure whose sides the seam joins.
    fn is_way_out(&self, shut: Shut) -> bool {
        let Shut::Join(id) = shut else { return false };
        self.surface.join(id).gap || self.opened.contains(&id)
    }

    /// Whether a bag is sewn as it should be when those stretches are shut last.
    fn is_sound(&self, bag: &Bag, all: &[Shut], is_last: impl Fn(Shut) -> bool) -> bool {
        let mut last = Last::ANY;
        all.iter().filter(|&&shut| is_last(shut)).for_each(|&shut| last.narrow(self.last(bag, shut)));
        self.is_closed_soundly(bag, all, last, is_last)
    }

    /// Whether stretches that are shut last so close a bag that need not be turned any more: by hand, or
    /// with another ply over a bag that is turned already or whose layers lie wrong sides together.
    fn is_closed_soundly(&self, bag: &Bag, all: &[Shut], last: Last, is_last: impl Fn(Shut) -> bool) -> bool {
        last.by_hand
            || last.takes_in
                && match self.how_laid(bag, all, is_last) {
                    Laid::Together => true,
                    Laid::InLayers => last.covered,
                    Laid::Apart => false,
                }
    }

    fn last(&self, bag: &Bag, shut: Shut) -> Last {
        let Shut::Join(join) = shut else {
            return Last { by_hand: false, takes_in: false, covered: false };
        };
        let join = self.surface.join(join);
        let seam = sewn(join).and_then(|at| self.sewing.seams.get(at));
        let stitch = seam.and_then(|sewn| self.garment.seam(sewn.seam).stitch.as_ref());
        let is_own = |face: FaceId| bag.faces.binary_search(&face).is_ok();
        let is_gathered = seam.and_then(|sewn| sewn.fit).is_some_and(|fit| fit.kind == FitKind::Gathering);
        let mut others = join.plies.iter().filter(|ply| !is_own(self.surface.face_of(ply.stretch)));
        Last {
            by_hand: stitch.is_some_and(|stitch| BY_HAND.contains(&stitch.number)),
            takes_in: others.clone().next().is_some(),
            covered: others.any(|ply| match ply.at {
                PlyAt::First(_) => !is_gathered,
                PlyAt::Second(_) => true,
                PlyAt::Caught => false,
            }),
        }
    }

    /// How the faces of a bag lie before the last of it is sewn.
    fn how_laid(&self, bag: &Bag, all: &[Shut], is_last: impl Fn(Shut) -> bool) -> Laid {
        let mut together = Union::new(bag.faces.len());
        for &shut in all {
            let Shut::Join(join) = shut else { continue };
            if is_last(shut) {
                continue;
            }
            let join = self.surface.join(join);
            let mut own = join
                .plies
                .iter()
                .filter_map(|ply| bag.faces.binary_search(&self.surface.face_of(ply.stretch)).ok());
            let Some(first) = own.next() else { continue };
            own.for_each(|other| {
                together.join(first, other);
            });
        }
        let layers: IdIndexSet<(LayerId, usize)> = bag
            .faces
            .iter()
            .enumerate()
            .map(|(at, &face)| (self.surface.face(face).layer, together.root(at)))
            .collect();
        let roots: IdIndexSet<usize> = layers.iter().map(|(_, root)| *root).collect();
        let distinct: IdIndexSet<LayerId> = layers.iter().map(|(layer, _)| *layer).collect();
        match roots.len() {
            1 => Laid::Together,
            _ if distinct.len() == layers.len() => Laid::InLayers,
            _ => Laid::Apart,
        }
    }

    /// The seam that is declared last of those that join layers, else of all.
    fn last_across_layers(&self, seams: &[usize]) -> Option<usize> {
        let layers = |at: &&usize| self.sewing.seams.get(**at).is_some_and(|sewn| sewn.layers.len() > 1);
        seams.iter().rev().find(layers).or(seams.last()).copied()
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
        let title = format!("{what}, and no gap is left to turn {them} through");
        let mistake = match step {
            Some(when) => Diagnostic::new(&catalogue::TURN_CLOSED, when.span, title)
                .label("closes the last of it")
                .also(declared, "this seam"),
            None => Diagnostic::new(&catalogue::TURN_CLOSED, declared, title).label("closes the last of it"),
        };
        let mut ways = Vec::new();
        if let Some(other) = other {
            ways.push(format!("sew {} only after {}, once the rest is turned", name(other), name(last)));
        }
        if let Some((gap, in_layer)) = self.place_of_gap(bag, seams, last) {
            let long = words::written(&amount(GAP, garment.unit));
            let gap = name(gap);
            ways.push(format!(
                "leave a gap in {gap} and close it by hand, {{ leaving gap {long}{in_layer} }}"
            ));
        }
        ways.push(format!("sew {} by hand after all others, {{ stitch handstitch }}", name(last)));
        Finding::new(self.size.drawn.size, bag.faces.len() as f64, mistake.help(ways.join("; or ")))
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
    /// enough.
    fn place_of_gap(&self, bag: &Bag, seams: &[usize], last: usize) -> Option<(usize, String)> {
        let inner = bag.faces.iter().map(|&face| self.surface.face(face).layer).max()?;
        let rank = |at: usize| -> Option<(u8, f64)> {
            let sewn = self.sewing.seams.get(at)?;
            let length = sewn.first.plies.first()?.length;
            let is_inside = sewn.layers.iter().all(|layer| *layer == inner);
            let rank = if is_inside && length > 2.0 * GAP { 2 } else { u8::from(at == last) };
            (length > GAP + ENDS).then_some((rank, length))
        };
        let all = seams.iter().filter_map(|&at| Some((at, rank(at)?)));
        let (at, _) =
            all.max_by(|(one, a), (other, b)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(other.cmp(one)))?;
        let times = self.sewing.seams.iter().filter(|sewn| Some(sewn.seam) == self.name(at)).count();
        let layer = &self.garment.layer(inner).name;
        Some((at, if times > 1 { format!(" in {layer}") } else { String::new() }))
    }
}

/// The seam of a join, by its place in [`Sewing::seams`].
fn sewn(join: &Join) -> Option<usize> {
    match join.by {
        JoinedBy::Seam { sewn, .. } => Some(sewn),
        JoinedBy::Placing(_) => None,
    }
}
