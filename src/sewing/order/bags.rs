//! Whether what closes a space off can be turned.
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
//! Which seam closes a bag, an order of work says, the maker's or one that is worked out. Without one it is asked whether one of
//! its seams may be sewn last.

use super::schedule::When;
use super::timetable::Timetable;
use crate::garment::{Garment, LayerId, SeamId};
use crate::id_hash::{IdIndexSet, IdSet};
use crate::sewing::Sewing;
use crate::sewing::seam_kinds::BY_HAND;
use crate::sewing::surface::{Bag, FaceId, Join, JoinId, JoinedBy, PlyAt, Shut, StretchId, Surface, Union};
use crate::syntax::tree::FitKind;
use std::collections::BTreeMap;

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

/// What closes spaces off, and when.
pub struct Bags<'a> {
    garment: &'a Garment,
    sewing: &'a Sewing,
    surface: &'a Surface,
    /// What shuts each stretch.
    shut: Vec<Option<Shut>>,
    /// Joins of both sides of a closure, which opens them.
    opened: IdSet<JoinId>,
    /// When; none where no order is said, or it leaves something out.
    pub timetable: Option<Timetable>,
}

/// What is wrong with a bag. Seams are named by their places in [`Sewing::seams`].
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shutting {
    /// Nothing leads out of it.
    NoWayOut {
        /// All its seams.
        seams: Vec<usize>,
        /// The one that closes it; where no order is said, the last declared.
        last: usize,
        /// When that is sewn, if an order is said.
        when: Option<When>,
        /// The others that may be sewn last.
        others: Vec<usize>,
    },
    /// It was turned before its last seam was sewn.
    Late {
        /// The last one.
        last: usize,
        /// When it is sewn.
        when: When,
        /// When it was turned.
        turned: When,
    },
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

impl<'a> Bags<'a> {
    /// Of a size that is put together; none where its surface is not known.
    pub fn of(garment: &'a Garment, sewing: &'a Sewing) -> Option<Bags<'a>> {
        let surface = sewing.surface.as_ref()?;
        let (shut, opened) = (surface.shutting(), opened(surface));
        Some(Bags { garment, sewing, surface, shut, opened, timetable: None })
    }

    /// All bags, in the order in which they are closed. An error is how many sheets share stacks, where they are
    /// more than can be looked at.
    pub fn all(&self) -> Result<Vec<Bag>, usize> {
        self.surface.bags(&self.shut, |shut| self.at(shut))
    }

    /// The place in the order of work of what shuts something; the first where no order is said.
    pub fn at(&self, shut: Shut) -> usize {
        self.when(shut).map_or(0, |when| when.at)
    }

    fn when(&self, shut: Shut) -> Option<When> {
        let timetable = self.timetable.as_ref()?;
        match shut {
            Shut::Join(join) => timetable.seam(sewn(self.surface.join(join))?),
            Shut::Closure(at) => timetable.closure(self.surface.closures.get(at)?.closure),
            Shut::Across(_) => None,
        }
    }

    /// What is wrong with a bag; none where it is sewn as it should be.
    pub fn judge(&self, bag: &Bag) -> Option<Shutting> {
        let all = self.shutting(bag);
        if all.iter().any(|&shut| self.is_way_out(bag, shut)) {
            return self.closed_late(bag, &all);
        }
        self.judge_shut(bag, &all)
    }

    /// Whether a bag has to be turned through a gap: it would not be sewn as it should be without one.
    pub fn needs_gap(&self, bag: &Bag) -> bool {
        self.judge_shut(bag, &self.shutting(bag)).is_some()
    }

    /// What is wrong with a bag out of which nothing leads.
    fn judge_shut(&self, bag: &Bag, all: &[Shut]) -> Option<Shutting> {
        // Its seams, and whether they alone may be last.
        let mut how: BTreeMap<usize, Last> = BTreeMap::new();
        for &shut in all {
            if let Some(seam) = self.sewn(shut) {
                how.entry(seam).or_insert(Last::ANY).narrow(self.last(bag, shut));
            }
        }
        let seams: Vec<usize> = how.keys().copied().collect();
        let mut may_be_last = how.iter().filter(|(seam, last)| {
            let is_of = |shut: Shut| self.sewn(shut) == Some(**seam);
            self.is_closed_soundly(bag, all, **last, is_of)
        });
        if self.timetable.is_none() {
            return match may_be_last.next() {
                Some(_) => None,
                None => {
                    let last = self.last_across_layers(&seams)?;
                    Some(Shutting::NoWayOut { seams, last, when: None, others: Vec::new() })
                }
            };
        }
        let closes = |shut: Shut| self.when(shut).is_some_and(|when| when.at == bag.closed);
        if self.is_sound(bag, all, closes) {
            return None;
        }
        let closing = all.iter().copied().find(|&shut| closes(shut))?;
        let last = self.sewn(closing).or_else(|| self.last_across_layers(&seams))?;
        let others = may_be_last.map(|(&one, _)| one).filter(|one| *one != last).collect();
        Some(Shutting::NoWayOut { seams, last, when: self.when(closing), others })
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
            Shut::Closure(_) | Shut::Across(_) => None,
        }
    }

    /// A bag with a gap that was turned before its last seam was sewn.
    fn closed_late(&self, bag: &Bag, all: &[Shut]) -> Option<Shutting> {
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
        let last = self.sewn(closing)?;
        // What is turned before its own gap is there is told by itself.
        if gaps.contains(&self.name(last)?) {
            return None;
        }
        Some(Shutting::Late { last, when: self.when(closing)?, turned })
    }

    /// Whether what is inside comes out there: through a gap, or a closure whose sides the seam joins.
    fn is_way_out(&self, bag: &Bag, shut: Shut) -> bool {
        let Shut::Join(id) = shut else { return false };
        self.opened.contains(&id) || self.surface.join(id).gap && self.is_gap_of(bag, self.surface.join(id))
    }

    /// Whether the gap in a stack is left in a ply of this bag: in that of a brim, which the stack holds between shell
    /// and lining, it opens the brim alone.
    fn is_gap_of(&self, bag: &Bag, join: &Join) -> bool {
        let JoinedBy::Seam { seam, .. } = join.by else { return false };
        let is_own = |face: FaceId| bag.faces.binary_search(&face).is_ok();
        let has = |layer: LayerId, is_own: &dyn Fn(FaceId) -> bool| {
            let mut faces = join.plies.iter().map(|ply| self.surface.face_of(ply.stretch));
            faces.any(|face| self.surface.face(face).layer == layer && is_own(face))
        };
        self.garment.seam(seam).gaps.iter().any(|gap| match gap.layer {
            Some(layer) if join.plies.len() > 2 && has(layer, &|_| true) => has(layer, &is_own),
            _ => true,
        })
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
        // A welt is sewn to its window while the front lies flat: nothing is turned out there.
        let is_in_slit = join.plies.iter().any(|ply| self.surface.side_of(ply.stretch).hole > 0);
        let mut others = join.plies.iter().filter(|ply| !is_own(self.surface.face_of(ply.stretch)));
        // What lies between its plies, a flap between shell and facing, is no other thing that it is sewn to.
        let has = |is_there: fn(PlyAt) -> bool| {
            let mut own = join.plies.iter().filter(|ply| is_own(self.surface.face_of(ply.stretch)));
            own.any(|ply| is_there(ply.at))
        };
        let is_between = has(|at| matches!(at, PlyAt::First(_))) && has(|at| matches!(at, PlyAt::Second(_)));
        Last {
            by_hand: stitch.is_some_and(|stitch| BY_HAND.contains(&stitch.number)),
            takes_in: !is_in_slit && !is_between && others.clone().next().is_some(),
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
}

/// The seam of a join, by its place in [`Sewing::seams`].
fn sewn(join: &Join) -> Option<usize> {
    match join.by {
        JoinedBy::Seam { sewn, .. } => Some(sewn),
        JoinedBy::Placing(_) => None,
    }
}
