//! `strap/short` and `strap/place`: straps that cannot span, and places where they cannot be sewn on.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, CutHow, Garment, PointId, Strap, StrapEnd, StrapId, StrapRun};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::DrawnPiece;
use crate::sewing::{SewnStrap, SewnStrapRun, TakenBy, is_on_fold, over_seam, strap_place, straps};
use crate::shape::Point;
use crate::syntax::tree::{AlterationKind, Hand};

pub(super) static CHECK: Check = Check {
    kinds: &[
        &catalogue::STRAP_SHORT,
        &catalogue::STRAP_PLACE,
        &catalogue::STRAP_SAME_PLACE,
        &catalogue::STRAP_TIGHT_LOOP,
    ],
    run: Run::PerSize(run),
};

/// A loop of less than this lies flat on the cloth, in millimetres, …
const SHORT_LOOP: f64 = 25.0;
/// … if it is not so many times as long as it is wide.
const NARROW_LOOP: f64 = 3.0;
/// A place no further from an edge than this is caught with it, in millimetres.
const AT_EDGE: f64 = 1.0;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if garment.straps.is_empty() {
        return;
    }
    findings.extend(hanging_together(garment, size));
    for sewn in straps(garment, &size.drawn) {
        let strap = garment.strap(sewn.strap);
        let look = Look { garment, size, strap, sewn: &sewn };
        findings.extend(look.twice());
        for (run, own) in strap.runs.iter().zip(&sewn.runs) {
            findings.extend(look.short(run, own));
            findings.extend(look.no_loop(run, own));
            for end in run.ends() {
                findings.extend(look.place(end));
            }
            findings.extend(look.uneven(run));
        }
    }
}

/// Two straps that hang free from one place on one side of the body.
fn hanging_together(garment: &Garment, size: &WorkedSize) -> Option<Finding> {
    let all = StrapId::enumerate(&garment.straps).filter(|(_, strap)| !strap.poisoned);
    let free: Vec<(StrapId, &StrapEnd)> = all
        .flat_map(|(id, strap)| strap.runs.iter().map(move |run| (id, run)))
        .filter(|(_, run)| run.to.is_none())
        .map(|(id, run)| (id, &run.from))
        .collect();
    let is_same = |one: &StrapEnd, other: &StrapEnd| {
        one.point == other.point
            && one.layer == other.layer
            && one.caught == other.caught
            && one.hand.zip(other.hand).is_none_or(|(one, other)| one == other)
    };
    let (first, again) = free.iter().enumerate().find_map(|(at, again)| {
        let mut before = free.iter().take(at);
        Some((before.find(|before| before.0 != again.0 && is_same(before.1, again.1))?, again))
    })?;
    let [one, other] = [first, again].map(|(id, _)| &garment.strap(*id).name);
    let title = format!("{one} and {other} hang from one place, {}", garment.point(again.1.point).name);
    let advice = Diagnostic::new(&catalogue::STRAP_SAME_PLACE, again.1.span, title)
        .label("on top of the other")
        .also(first.1.span, format!("{one} hangs here"))
        .help("name the place that was meant; on left and on right tell the two sides apart");
    Some(Finding::new(size.drawn.size, 0.0, advice))
}

struct Look<'a> {
    garment: &'a Garment,
    size: &'a WorkedSize,
    strap: &'a Strap,
    sewn: &'a SewnStrap,
}

impl Look<'_> {
    fn finding(&self, weight: f64, diagnostic: Diagnostic) -> Finding {
        Finding::new(self.size.drawn.size, weight, diagnostic).about(&*self.strap.name)
    }

    fn short(&self, run: &StrapRun, own: &SewnStrapRun) -> Option<Finding> {
        let unit = self.garment.unit;
        let name = &self.strap.name;
        let (length, sewn) = (self.sewn.length, self.sewn.sewn);
        if length <= 0.0 || self.sewn.width <= 0.0 || sewn < 0.0 {
            // Less than nothing is reported as that; nothing has nothing to be sewn on.
            return None;
        }
        let said = self.strap.sewn.as_ref().map_or(self.strap.width.span, |sewn| sewn.span);
        if own.free <= 0.0 {
            let title = Title::new(format!(
                "{name} is {} long, and {} of it are to be sewn on",
                amount(length, unit),
                amount(length - own.free, unit)
            ));
            let mistake = Diagnostic::new(&catalogue::STRAP_SHORT, self.strap.length.span, title.in_sizes())
                .label("nothing is left between its ends")
                .also(said, format!("{} of each end", amount(sewn, unit)))
                .help("make it longer, or sew less of it on");
            return Some(self.finding(-own.free, mistake));
        }
        let over = || over_seam(self.garment, &self.size.drawn, &self.size.sewn, &run.from, run.to.as_ref()?);
        let across = own.across.or_else(over)?;
        let wanting = across - own.free;
        if wanting <= self.garment.tolerance {
            return None;
        }
        let (free, apart) = (amount(own.free, unit), amount(across, unit));
        let over = if own.across.is_none() { " over the seam between them" } else { "" };
        let title = Title::new(format!("{name} has {free} between its ends, which are {apart} apart{over}"));
        let mistake = Diagnostic::new(&catalogue::STRAP_SHORT, self.strap.length.span, title.in_sizes())
            .label(format!("{} too short", amount(wanting, unit)))
            .also(run.span, apart.clone())
            .help(format!(
                "make it at least {} long, or move its ends nearer to each other{}",
                at_least(length + wanting, unit),
                self.kept(run)
            ));
        Some(self.finding(wanting, mistake).figure("between its ends", free).figure("apart", apart))
    }

    /// A loop, both ends of which are sewn on in one place, that is less long between them than it is wide.
    fn no_loop(&self, run: &StrapRun, own: &SewnStrapRun) -> Option<Finding> {
        let to = run.to.as_ref()?;
        let is_one_place =
            to.point == run.from.point && to.hand == run.from.hand && to.layer == run.from.layer;
        // Narrow loops for buttons are as short; one as wide as a hook needs is not.
        let is_tight =
            own.free < self.sewn.width || own.free < SHORT_LOOP && own.free < NARROW_LOOP * self.sewn.width;
        if !is_one_place || own.free <= 0.0 || !is_tight {
            return None;
        }
        let unit = self.garment.unit;
        let (free, wide) = (amount(own.free, unit), amount(self.sewn.width, unit));
        let name = &self.strap.name;
        let title = Title::new(format!("of {name} {free} is left between its ends: nothing hangs by that"));
        let said = self.strap.sewn.as_ref().map_or(self.strap.width.span, |sewn| sewn.span);
        let advice = Diagnostic::new(&catalogue::STRAP_TIGHT_LOOP, self.strap.length.span, title.in_sizes())
            .label(format!("{} long", amount(self.sewn.length, unit)))
            .also(said, format!("{wide} wide"))
            .help("look at its length and its unit: hanging loops are 5 to 8 cm long");
        Some(self.finding(SHORT_LOOP.max(self.sewn.width) - own.free, advice).figure("left", free))
    }

    /// What keeps both ends together where their piece is lengthened between them.
    fn kept(&self, run: &StrapRun) -> String {
        let garment = self.garment;
        let is_end = |point: PointId| run.ends().any(|end| garment.is_point_of(point, end.point));
        let mut lengthened = garment.alterations.iter().filter(|one| {
            let lengthens = one.kind == Some(AlterationKind::Lengthen);
            let of_ends = one
                .targets
                .iter()
                .any(|target| run.ends().any(|end| garment.point(end.point).piece == target.piece));
            lengthens && of_ends && !one.keeping.iter().any(|&(point, _)| is_end(point))
        });
        if lengthened.next().is_none() {
            return String::new();
        }
        let ends = run.ends().map(|end| {
            let point = garment.point(end.point);
            format!("{}.{}", garment.piece(point.piece).name, point.name)
        });
        let ends: Vec<String> = ends.collect();
        format!("; if it was lengthened between them, let both stay together: keeping {}", ends.join(" or "))
    }

    /// Two of it in one place: between the same two places, on the same side.
    fn twice(&self) -> Option<Finding> {
        let place = |end: &StrapEnd| (end.point, end.hand);
        let lie_on_one_another = |one: &StrapEnd, other: &StrapEnd| {
            let ((point, hand), (same, other_hand)) = (place(one), place(other));
            point == same && hand.zip(other_hand).is_none_or(|(one, other)| one == other)
        };
        let is_same = |one: &StrapRun, other: &StrapRun| match (&one.to, &other.to) {
            (None, None) => lie_on_one_another(&one.from, &other.from),
            (Some(to), Some(other_to)) => {
                (lie_on_one_another(&one.from, &other.from) && lie_on_one_another(to, other_to))
                    || (lie_on_one_another(&one.from, other_to) && lie_on_one_another(to, &other.from))
            }
            _ => false,
        };
        let mut runs = self.strap.runs.iter().enumerate();
        let (first, again) = runs.find_map(|(at, run)| {
            let mut before = self.strap.runs.iter().take(at);
            Some((before.find(|before| is_same(before, run))?, run))
        })?;
        let name = &self.strap.name;
        let title = format!("{name} is sewn on twice in one place");
        let mistake = Diagnostic::new(&catalogue::STRAP_PLACE, again.span, title)
            .label("once more")
            .also(first.span, "sewn on here already")
            .help(
                "remove one of them, or name the places that were meant; on left and on right tell two apart",
            );
        Some(self.finding(1.0, mistake))
    }

    /// What is wrong with where an end is sewn on or caught.
    fn place(&self, end: &StrapEnd) -> Option<Finding> {
        let (drawn, at) = strap_place(self.garment, &self.size.drawn, end.point)?;
        let name = &self.strap.name;
        let piece = words::piece(self.garment, drawn.piece);
        let point = &self.garment.point(end.point).name;
        let mistake = match (drawn.cut, end.hand) {
            (CutHow::Alike, Some(hand)) => {
                let side = if hand == Hand::Left { "left" } else { "right" };
                let title = format!("{name} is sewn on the {side} {piece}, and its copies are cut alike");
                Diagnostic::new(&catalogue::STRAP_PLACE, end.span, title)
                    .label(format!("there is no {side} one"))
                    .also(self.garment.piece(drawn.piece).cut.span, "cut here")
                    .help(format!(
                        "leave on {side} out, or cut {} mirrored",
                        self.garment.piece(drawn.piece).name
                    ))
            }
            (CutHow::OnFold(_), None) if is_on_fold(drawn, at) => {
                let title = format!("{point} lies on the fold of {piece}: it is one place, and not two");
                Diagnostic::new(&catalogue::STRAP_PLACE, end.span, title)
                    .label("meant on both sides")
                    .also(self.garment.point(end.point).span, "on the fold")
                    .help(match self.garment.is_placed_point(end.point) {
                        true => "write at the fold for one in the middle; else place it off the fold",
                        false => "for one in the middle write on left after it, or name an edge and write at the fold; else move the mark off the fold",
                    })
            }
            _ => return self.not_caught(end, drawn, at),
        };
        Some(self.finding(1.0, mistake).about(format!("{name} {point}")))
    }

    fn not_caught(&self, end: &StrapEnd, drawn: &DrawnPiece, at: Point) -> Option<Finding> {
        let catcher = end.caught?;
        let catches = |taken: TakenBy| match (catcher, taken) {
            (Catcher::Seam(seam), TakenBy::Seam(id, _)) => seam == id,
            (Catcher::Closure(closure), TakenBy::Closure(id)) => closure == id,
            _ => false,
        };
        let parts = self.size.sewn.parts.iter().filter(|part| {
            let own = self.size.drawn.paper(part.part.paper);
            own.is_some_and(|own| std::ptr::eq(own, drawn))
        });
        let mut near: Option<(f64, bool)> = None;
        for part in parts {
            for (edge, fate) in drawn.edges.iter().zip(&part.edges) {
                let is_of = fate.takers.iter().any(|taker| catches(taker.what));
                let away = edge.path.nearest(at).distance;
                if is_of && near.is_none_or(|(least, _)| away < least) {
                    near = Some((away, true));
                }
            }
        }
        if near.is_some_and(|(away, _)| away <= AT_EDGE) {
            return None;
        }
        let name = &self.strap.name;
        let point = &self.garment.point(end.point).name;
        let by = match catcher {
            Catcher::Seam(id) => self.garment.seam(id).name.clone(),
            Catcher::Closure(id) => self.garment.closure(id).name.clone(),
        };
        let title = Title::new(format!("{point} is not on the seam {by}, which is to catch {name}"));
        let mistake = Diagnostic::new(&catalogue::STRAP_PLACE, end.span, title.in_sizes())
            .label(match near {
                Some((away, _)) => format!("{} away from it", amount(away, self.garment.unit)),
                None => format!("{by} sews no edge of this piece"),
            })
            .also(self.garment.point(end.point).span, "here")
            .help(format!("name a corner or mark on an edge that {by} sews, or leave caught in {by} out"));
        Some(self.finding(near.map_or(1.0, |(away, _)| away), mistake).about(format!("{name} {point}")))
    }

    /// Both ends must be there equally often.
    fn uneven(&self, run: &StrapRun) -> Option<Finding> {
        let to = run.to.as_ref()?;
        let [(one, first), (other, second)] = [&run.from, to].map(|end| {
            let place = strap_place(self.garment, &self.size.drawn, end.point);
            (place.map_or(0, |(drawn, _)| times(drawn, end)), end.span)
        });
        if one == other || one == 0 || other == 0 {
            return None;
        }
        let name = &self.strap.name;
        let title =
            format!("{name} goes from {one} {} to {other}", if one == 1 { "place" } else { "places" });
        let mistake = Diagnostic::new(&catalogue::STRAP_PLACE, second, title)
            .label(format!("there {other} times"))
            .also(first, format!("there {one} times"))
            .help("say on which side it is, on left or on right, or give each its own from … to …");
        Some(self.finding(1.0, mistake).about(format!("{name} {one} {other}")))
    }
}

/// How often a place is there.
fn times(drawn: &DrawnPiece, end: &StrapEnd) -> u32 {
    match (drawn.cut, end.hand) {
        (CutHow::OnFold(_), None) => 2 * drawn.count,
        (CutHow::Mirrored, Some(_)) => drawn.count / 2,
        _ => drawn.count,
    }
}
