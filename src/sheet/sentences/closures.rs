//! Zips; and closures of other kinds.

use super::teller::{Named, Teller, Way, fit, once};
use super::{Step, StepText};
use crate::garment::{ClosureId, ClosureKind, SeamId};
use crate::resolve::CornerName;
use crate::sewing::order::Job;
use crate::sewing::surface::StretchId;
use crate::sheet::{FigureKind, Text};
use crate::syntax::tree::{Fastener, Hand, ZipperKind};

/// The ends of a tape lie in an allowance that is as wide as this, in millimetres.
const OF_TAPE: f64 = 5.0;

impl Teller<'_> {
    pub(super) fn closure(&self, step: &Step, id: ClosureId, basted: bool, text: &mut StepText) {
        let closure = self.garment.closure(id);
        match &closure.kind {
            Some(ClosureKind::Zipper { .. }) if !basted && self.is_held(step, id) => {
                text.say(self.forms().zip_is_in(self.zip_name(id), self.letter_of(Job::PutIn(id))));
            }
            Some(ClosureKind::Zipper { .. }) if !basted && self.is_basted_before(step, id) => {
                let edges = self.edges_beyond(id);
                text.say_all(self.listed(&edges, |edges| {
                    self.forms().sew_zip_beyond(self.zip_name(id), step.letter.clone(), edges)
                }));
            }
            Some(ClosureKind::Zipper { kind, showing, .. }) => {
                self.zip(step, id, *kind, basted, text);
                let showing = showing.as_ref().and_then(|said| self.amount(FigureKind::Length, said));
                if let Some(showing) = showing {
                    text.say(self.forms().zip_shows(showing));
                }
            }
            Some(ClosureKind::Fasteners(row)) if !basted => self.fasteners(step, id, row, text),
            Some(ClosureKind::Fasteners(row)) if row.kind == Fastener::Toggle => {
                self.baste_loops(step, id, row, text);
            }
            Some(ClosureKind::Fasteners(row)) if row.kind == Fastener::Tie && !row.are_pieces() => {
                self.baste_ties(step, id, row, text);
            }
            Some(ClosureKind::Fasteners(_)) => {
                text.say(self.forms().baste(self.name(&closure.name), step.letter.clone()));
            }
            None => {}
        }
    }

    /// Whether all seams that enclose a closure are sewn before a step.
    fn is_held(&self, step: &Step, id: ClosureId) -> bool {
        let Some(work) = self.work().filter(|work| !work.jobs.contains(&Job::Closure(id))) else {
            return false;
        };
        let before = self.sewn_until(step);
        let enclosing = SeamId::enumerate(&self.garment.seams)
            .filter(|(_, seam)| seam.enclosing.iter().any(|(own, _)| *own == id));
        let mut seams = enclosing.flat_map(|(seam, _)| work.seam_jobs(seam, None)).peekable();
        seams.peek().is_some() && seams.all(|job| matches!(job, Job::Seam(at) if before.contains(&at)))
    }

    /// The edges of a zip that no seam which encloses it takes; where that takes a part of each, all of them.
    fn edges_beyond(&self, id: ClosureId) -> Vec<Named> {
        let all = self.closure_sides(id).concat();
        let plain = all.into_iter().map(|named| Named { hand: None, ..named });
        let all = once(plain.collect());
        let is_held = |named: &&Named| self.work().is_some_and(|work| work.holds(id, named.edge));
        let open: Vec<Named> = all.iter().filter(|named| !is_held(named)).copied().collect();
        if open.is_empty() { all } else { open }
    }

    fn zip(&self, step: &Step, id: ClosureId, kind: ZipperKind, basted: bool, text: &mut StepText) {
        let forms = self.forms();
        let name = || self.zip_name(id);
        let say = |edges: Text| {
            let letter = step.letter.clone();
            match (basted, kind) {
                (true, ZipperKind::Separating | ZipperKind::Concealed) => {
                    forms.baste_zip_open(name(), letter, edges)
                }
                (true, ZipperKind::Closed) => forms.baste_zip(name(), letter, edges),
                (false, ZipperKind::Separating) => forms.sew_zip_open(name(), letter, edges),
                (false, ZipperKind::Closed) => forms.sew_zip(name(), letter, edges),
                (false, ZipperKind::Concealed) => forms.sew_zip_concealed(name(), letter, edges),
            }
        };
        let [first, second] = self.closure_sides(id);
        let hands = || first.iter().chain(&second).map(|named| named.hand);
        let only = hands().next().flatten().filter(|hand| hands().all(|own| own == Some(*hand)));
        let all: Vec<Named> =
            first.iter().chain(&second).map(|named| Named { hand: None, ..*named }).collect();
        let way = self.way_of(&all);
        // What is left and right alike, and what one side alone runs along.
        let is_in = |side: &[Named], named: &Named| {
            side.iter().any(|own| (own.part, own.edge) == (named.part, named.edge))
        };
        let (both, one): (Vec<Named>, Vec<Named>) =
            once(all).into_iter().partition(|named| is_in(&first, named) && is_in(&second, named));
        let said = |way: Way| -> Vec<Text> {
            let alike = (!both.is_empty()).then(|| forms.on_both(self.words.list(self.edges(&both, way))));
            alike.into_iter().chain(self.edges(&one, way)).collect()
        };
        let full = say(self.words.list(said(way)));
        if fit(std::slice::from_ref(&full)) {
            text.say(full);
        } else {
            let [one_side, other_side]: [Vec<Named>; 2] = [&first, &second]
                .map(|side| one.iter().filter(|named| is_in(side, named)).copied().collect());
            let is_two_sided = both.is_empty() && !one_side.is_empty() && !other_side.is_empty();
            let said = |way: Way| if is_two_sided { self.edges(&one_side, way) } else { said(way) };
            let mut groups = said(way);
            if groups.first().is_some_and(|first| !fit(&[say(first.clone())])) {
                groups = said(Way { short: true, ..way });
            }
            if let Some((first, others)) = groups.split_first() {
                text.say(say(first.clone()));
                text.say_all(self.packed(others, |edges| forms.zip_along(edges)));
            }
            if is_two_sided {
                text.say_all(self.listed(&other_side, |edges| forms.zip_other_side(edges)));
            }
        }
        self.say_stretches(&both.iter().chain(&one).copied().collect::<Vec<_>>(), (&[], only), text);
        match only {
            Some(Hand::Left) => text.say(forms.only_left()),
            Some(Hand::Right) => text.say(forms.only_right()),
            None => {}
        }
        text.say(match kind {
            ZipperKind::Concealed => forms.zip_lies_concealed(),
            ZipperKind::Separating | ZipperKind::Closed => forms.zip_lies(),
        });
        if kind != ZipperKind::Separating
            && let Some((corner, has_allowance)) = self.end_that_opens(id)
        {
            text.say(forms.zip_closes_toward(corner));
            if has_allowance {
                text.say(forms.zip_tape_ends());
            }
        }
        let long = self.figure(FigureKind::Length, |_, size| {
            size.drawn.zips.get(id.index()).copied().flatten().map(|fit| fit.zip)
        });
        if let Some(long) = long {
            text.note(forms.fact_zip(long));
        }
    }

    /// The corner at the one end of a zip where its sides come apart, and whether cloth lies beyond it; none where both ends, or
    /// neither, hang together.
    fn end_that_opens(&self, id: ClosureId) -> Option<(Text, bool)> {
        let (size, work) = (self.facts.sizes.first()?, self.work()?);
        let surface = size.sewn.surface.as_ref()?;
        let mut lines = surface.closures.iter().filter(|line| line.closure == id);
        let line = lines.next()?;
        let [first, second] = &line.sides;
        let start = |side: &[(StretchId, bool)]| side.first().copied();
        let end = |side: &[(StretchId, bool)]| side.last().map(|&(stretch, against)| (stretch, !against));
        let vertex = |(stretch, at_end): (StretchId, bool)| {
            let own = surface.stretch(stretch);
            if at_end { own.end } else { own.start }
        };
        let ends = [(start(first)?, start(second)?), (end(first)?, end(second)?)];
        let [one, other] = ends.map(|(one, other)| vertex(one) != vertex(other));
        let (stretch, at_end) = match (one, other) {
            (true, false) => ends[0].0,
            (false, true) => ends[1].0,
            _ => return None,
        };
        let part = surface.face(surface.face_of(stretch)).part;
        let drawn = work.finder.drawn(part)?;
        let edge = surface.side_of(stretch).edge;
        let corner = drawn.edge_at(if at_end { drawn.after(edge) } else { edge })?.corner;
        let beyond = if at_end { drawn.after(edge) } else { drawn.before(edge) };
        let allowance = size.sewn.part(part).fate(beyond).and_then(|fate| fate.allowance);
        let CornerName::Named(point) = corner else { return None };
        let words = self.forms().corner_called(self.name(&self.garment.point_words(point)));
        Some((words, allowance.is_some_and(|wide| wide >= OF_TAPE)))
    }

    /// What a zip is called, without saying that it is one; nothing of one that is called just that.
    pub(super) fn zip_name(&self, id: ClosureId) -> Text {
        let words = super::teller::spoken(&self.garment.closure(id).name);
        let is_all = self.words.zip.iter().any(|zip| zip.eq_ignore_ascii_case(words.trim()));
        match is_all {
            true => Text::default(),
            false => self.name(&super::teller::without_last(&words, self.words.zip)),
        }
    }

    /// The edges of both sides; where both are the same ones, the left and the right.
    pub(super) fn closure_sides(&self, id: ClosureId) -> [Vec<Named>; 2] {
        let closure = self.garment.closure(id);
        // Where both layers are sewn to one another what closes lies on the outer one.
        let outer = |all: Vec<Named>| -> Vec<Named> {
            let is_under = |named: &Named| {
                let mut above = all.iter().take_while(|own| *own != named);
                above.any(|own| own.edge == named.edge && own.hand == named.hand)
            };
            all.iter().filter(|named| !is_under(named)).copied().collect()
        };
        let [first, second] =
            [&closure.first, &closure.second].map(|chain| outer(self.sewn_edges(&chain.edges, None)));
        match first == second {
            true => [Hand::Left, Hand::Right]
                .map(|hand| first.iter().map(|named| Named { hand: Some(hand), ..*named }).collect()),
            false => [first, second],
        }
    }
}

/// Whether both sides are the same edges, left and right.
pub(super) fn is_same(first: &[Named], second: &[Named]) -> bool {
    let plain = |all: &[Named]| -> Vec<_> { all.iter().map(|named| (named.part, named.edge)).collect() };
    plain(first) == plain(second)
}
