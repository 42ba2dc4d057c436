//! Bags: sets of faces that close a space off.
//!
//! A set of faces closes a space off where all its stretches are shut, and an even number of its plies
//! lies in every stack. Modulo 2 such sets are the cycles of the surface, its second homology; of a
//! surface in space there are as many independent ones as it closes spaces off (Alexander's duality).
//!
//! Faces joined in stacks of two are one sheet, all of it in a bag or none; a sheet with a free stretch
//! is in none. What is left are the stacks of three or more, each an equation over the sheets in it. They
//! are solved one cluster of sheets that share stacks after the other, mostly by hand to hand
//! substitution and only what remains by elimination, so that the work grows with the number of
//! stretches.
//!
//! A bag is closed by the last of its stretches to be shut. Eliminated in the order of when sheets are
//! shut, the equations give one bag for every space at the time at which it is closed off (as the
//! reduction of persistent homology does: Edelsbrunner, Letscher and Zomorodian 2002).

use super::model::{FaceId, Join, JoinId, JoinedPly, StretchId, Surface};
use super::union::Union;
use crate::garment::SeamId;
use crate::id_hash::{IdIndexMap, IdIndexSet};
use crate::limits;

/// How often equations are simplified by putting sheets together before the rest is eliminated.
const PASSES: usize = 8;
/// Of so many bags of a cluster it is looked for which ones are smaller once another is taken off.
const MOST_COMPARED: usize = 64;

/// What shuts a stretch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Shut {
    /// It is joined.
    Join(JoinId),
    /// It is the end of a folded piece, which lies on itself, in a closure: its place in
    /// [`Surface::closures`].
    Closure(usize),
    /// It is the end of a folded piece whose long edges are sewn to one another, sewn to itself across the fold.
    Across(SeamId),
}

/// A set of faces that closes a space off.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bag {
    /// Its faces, in their order.
    pub faces: Vec<FaceId>,
    /// When the last of its stretches is shut.
    pub closed: usize,
}

/// The sheets of a surface that no free stretch leads out of, and what they have in common.
pub struct Enclosing {
    cloths: IdIndexMap<usize, Cloth>,
    clusters: Vec<Cluster>,
}

impl Enclosing {
    /// Whether there is none, so that no space is closed off.
    pub fn is_empty(&self) -> bool {
        self.cloths.is_empty()
    }

    /// The bags, as few as all are made up of, in the order in which they are closed. The surface and `shut` are
    /// those that the sheets are of, and `when` tells in which order that is done.
    pub fn bags(
        mut self,
        surface: &Surface,
        shut: &[Option<Shut>],
        when: impl Fn(Shut) -> usize,
    ) -> Vec<Bag> {
        for cloth in self.cloths.values_mut() {
            let stretches = cloth.faces.iter().flat_map(|&face| surface.stretches_of(face));
            let shut = stretches.filter_map(|stretch| shut.get(stretch.index()).copied().flatten());
            cloth.closed = shut.map(&when).max().unwrap_or(0);
        }
        let Enclosing { cloths, clusters } = &self;
        let mut bags: Vec<Bag> = clusters.iter().flat_map(|(own, rows)| bags_of(cloths, own, rows)).collect();
        bags.sort_by(|one, other| one.closed.cmp(&other.closed).then_with(|| one.faces.cmp(&other.faces)));
        bags
    }
}

/// Sheets that share equations, and those, by their places among the sheets.
type Cluster = (Vec<usize>, Vec<Vec<usize>>);

/// Faces in one sheet, and when the last stretch of them is shut.
struct Cloth {
    faces: Vec<FaceId>,
    closed: usize,
}

impl Surface {
    /// What shuts each stretch; none of one that stays open.
    pub fn shutting(&self) -> Vec<Option<Shut>> {
        let mut shut: Vec<Option<Shut>> =
            self.stretches.iter().map(|stretch| stretch.join.map(Shut::Join)).collect();
        for (at, line) in self.closures.iter().enumerate().filter(|(_, line)| line.takes_edges) {
            for &(stretch, _) in line.sides.iter().flatten() {
                let side = self.side_of(stretch);
                let own = &mut shut[stretch.index()];
                if own.is_none() && side.on_itself && !self.face(side.face).flap {
                    *own = Some(Shut::Closure(at));
                }
            }
        }
        for stretch in self.ends_of_tubes() {
            let own = &mut shut[stretch.index()];
            *own = own.or(self.side_of(stretch).across.map(Shut::Across));
        }
        shut
    }

    /// The stretches of pieces that are folded, and whose two edges of that fold are sewn to one another.
    fn ends_of_tubes(&self) -> Vec<StretchId> {
        if self.sides.iter().all(|side| side.across.is_none()) {
            return Vec::new();
        }
        let tube = |join: &Join| match join.plies.as_slice() {
            [one, other] => {
                let face = self.face_of(one.stretch);
                let is_own = face == self.face_of(other.stretch) && !self.face(face).flap;
                let is_long = [one, other].iter().all(|ply| !self.side_of(ply.stretch).on_itself);
                (is_own && is_long).then_some(face)
            }
            _ => None,
        };
        let tubes: IdIndexSet<FaceId> = self.joins.iter().filter_map(tube).collect();
        tubes.into_iter().flat_map(|face| self.stretches_of(face)).collect()
    }

    /// The bags that a surface has once all is sewn, as [`Enclosing::bags`] gives them. `shut` is what
    /// [`Surface::shutting`] gives. An error is what [`Surface::enclosing`] gives.
    pub fn bags(&self, shut: &[Option<Shut>], when: impl Fn(Shut) -> usize) -> Result<Vec<Bag>, usize> {
        Ok(self.enclosing(shut)?.bags(self, shut, when))
    }

    /// What may close spaces off once all is sewn, whatever the order of work. An error is how many sheets
    /// share stacks where they are more than [`limits::SHEETS_OF_BAG`].
    pub fn enclosing(&self, shut: &[Option<Shut>]) -> Result<Enclosing, usize> {
        let outside = self.faces.len();
        let mut sheets = Union::new(outside + 1);
        for (stretch, _) in self.stretches.iter().zip(shut).filter(|(_, shut)| shut.is_none()) {
            sheets.join(stretch.face.index(), outside);
        }
        let rows = self.stacks(&mut sheets, outside);
        let mut cloths: IdIndexMap<usize, Cloth> = IdIndexMap::default();
        let none = sheets.root(outside);
        for face in self.face_ids() {
            let root = sheets.root(face.index());
            if root != none {
                let cloth = cloths.entry(root).or_insert(Cloth { faces: Vec::new(), closed: 0 });
                cloth.faces.push(face);
            }
        }
        let clusters = clusters(&cloths, &rows);
        let most = clusters.iter().map(|(own, _)| own.len()).max().unwrap_or(0);
        if most > limits::SHEETS_OF_BAG {
            return Err(most);
        }
        Ok(Enclosing { cloths, clusters })
    }

    /// Puts faces in stacks of two into one sheet; the equations of what is left, over sheets.
    fn stacks(&self, sheets: &mut Union, outside: usize) -> Vec<Vec<usize>> {
        let mut rows: Vec<Vec<usize>> = Vec::new();
        for join in &self.joins {
            let faces = || join.plies.iter().map(|ply| self.face_of(ply.stretch).index());
            if let [one, other] = join.plies.as_slice() {
                // What is folded over the end of a window, which is drawn together there, shuts it.
                if let Some(end) = self.end_in_a_loop(one, other).or_else(|| self.end_in_a_loop(other, one)) {
                    sheets.join(end.index(), outside);
                    continue;
                }
                sheets.join(self.face_of(one.stretch).index(), self.face_of(other.stretch).index());
                continue;
            }
            match join.plies.len() {
                // What is stitched down on top of something has nothing to be closed with.
                0 | 1 => faces().for_each(|face| {
                    sheets.join(face, outside);
                }),
                _ => match odd(faces().collect()).as_slice() {
                    [] => {}
                    [one] => {
                        sheets.join(*one, outside);
                    }
                    [one, other] => {
                        sheets.join(*one, *other);
                    }
                    more => rows.push(more.to_vec()),
                },
            }
        }
        for _ in 0..PASSES {
            let before = rows.len();
            rows.retain_mut(|row| {
                *row = left_of(row, sheets, outside);
                match row.as_slice() {
                    [] => return false,
                    [one] => sheets.join(*one, outside),
                    [one, other] => sheets.join(*one, *other),
                    _ => return true,
                };
                false
            });
            if rows.len() == before {
                break;
            }
        }
        rows.iter().map(|row| left_of(row, sheets, outside)).filter(|row| !row.is_empty()).collect()
    }

    /// The face of a folded end, as of a welt, that is sewn to an edge both of whose corners other seams bring together.
    fn end_in_a_loop(&self, end: &JoinedPly, edge: &JoinedPly) -> Option<FaceId> {
        let (face, beside) = (self.face_of(end.stretch), self.stretch(edge.stretch));
        let is_end = self.face(face).flap && self.side_of(end.stretch).on_itself;
        let is_loop = beside.start == beside.end && !self.face(beside.face).flap;
        (is_end && is_loop).then_some(face)
    }
}

/// An equation over sheets as they are now, without those that are in no bag.
fn left_of(row: &[usize], sheets: &mut Union, outside: usize) -> Vec<usize> {
    let none = sheets.root(outside);
    odd(row.iter().map(|&face| sheets.root(face)).filter(|&root| root != none).collect())
}

/// What is there an odd number of times, in order.
fn odd(mut all: Vec<usize>) -> Vec<usize> {
    all.sort_unstable();
    all.chunk_by(|one, other| one == other)
        .filter(|same| same.len() % 2 == 1)
        .filter_map(|same| same.first().copied())
        .collect()
}

/// Sheets that share equations, and those, by their places among the sheets.
fn clusters(cloths: &IdIndexMap<usize, Cloth>, rows: &[Vec<usize>]) -> Vec<Cluster> {
    let rows: Vec<Vec<usize>> = rows
        .iter()
        .map(|row| row.iter().filter_map(|root| cloths.get_index_of(root)).collect::<Vec<usize>>())
        .collect();
    let mut sharing = Union::new(cloths.len());
    for (one, other) in rows.iter().flat_map(|row| row.iter().zip(row.iter().skip(1))) {
        sharing.join(*one, *other);
    }
    let mut found: IdIndexMap<usize, Cluster> = IdIndexMap::default();
    for at in 0..cloths.len() {
        found.entry(sharing.root(at)).or_default().0.push(at);
    }
    for row in rows {
        if let Some(&first) = row.first() {
            found.entry(sharing.root(first)).or_default().1.push(row);
        }
    }
    found.into_values().collect()
}

/// The bags of one cluster.
fn bags_of(cloths: &IdIndexMap<usize, Cloth>, own: &[usize], rows: &[Vec<usize>]) -> Vec<Bag> {
    let mut order: Vec<(usize, usize)> =
        own.iter().filter_map(|&at| Some((cloths.get_index(at)?.1.closed, at))).collect();
    order.sort_unstable();
    let place: IdIndexMap<usize, usize> = order.iter().enumerate().map(|(at, (_, own))| (*own, at)).collect();
    let mut equations: Vec<Set> = Vec::with_capacity(rows.len());
    for row in rows {
        let mut set = Set::new(order.len());
        row.iter().filter_map(|at| place.get(at)).for_each(|&at| set.flip(at));
        equations.push(set);
    }
    let cloth = |at: usize| cloths.get_index(order[at].1).map(|(_, cloth)| cloth);
    let mut cycles = cycles(equations, order.len());
    let size = |set: &Set| set.members().filter_map(&cloth).map(|cloth| cloth.faces.len()).sum::<usize>();
    let closed = |set: &Set| set.members().last().map_or(0, |at| order[at].0);
    if cycles.len() <= MOST_COMPARED {
        for one in 0..cycles.len() {
            for other in (0..cycles.len()).filter(|&other| other != one) {
                if closed(&cycles[other]) > closed(&cycles[one]) {
                    continue;
                }
                let mut less = cycles[one].clone();
                less.add(&cycles[other]);
                if size(&less) < size(&cycles[one]) {
                    cycles[one] = less;
                }
            }
        }
    }
    let bag = |set: Set| {
        let closed = closed(&set);
        let mut faces: Vec<FaceId> =
            set.members().filter_map(&cloth).flat_map(|cloth| cloth.faces.iter().copied()).collect();
        faces.sort_unstable();
        Bag { faces, closed }
    };
    cycles.into_iter().map(bag).collect()
}

/// All sets that fulfil the equations, as one for each thing that can be chosen freely: it is the last
/// of its set. By elimination from the first thing on.
fn cycles(mut equations: Vec<Set>, count: usize) -> Vec<Set> {
    // Of each thing the equation that determines it by later ones.
    let mut pivots: Vec<Option<usize>> = vec![None; count];
    let mut done = 0;
    for (at, determined) in pivots.iter_mut().enumerate() {
        let Some(found) = (done..equations.len()).find(|&row| equations[row].has(at)) else { continue };
        equations.swap(done, found);
        let pivot = equations[done].clone();
        for (row, other) in equations.iter_mut().enumerate() {
            if row != done && other.has(at) {
                other.add(&pivot);
            }
        }
        *determined = Some(done);
        done += 1;
    }
    let free = (0..count).filter(|&at| pivots[at].is_none());
    let cycle = |last: usize| {
        let mut set = Set::new(count);
        set.flip(last);
        for (at, row) in pivots.iter().enumerate() {
            if row.is_some_and(|row| equations[row].has(last)) {
                set.flip(at);
            }
        }
        set
    };
    free.map(cycle).collect()
}

/// A set of small numbers, as bits.
#[derive(Clone, Debug)]
struct Set {
    bits: Vec<u64>,
}

impl Set {
    fn new(count: usize) -> Self {
        Set { bits: vec![0; count.div_ceil(64)] }
    }

    fn flip(&mut self, at: usize) {
        self.bits[at / 64] ^= 1 << (at % 64);
    }

    fn has(&self, at: usize) -> bool {
        self.bits[at / 64] >> (at % 64) & 1 == 1
    }

    /// What is in one of both, but not in the other.
    fn add(&mut self, other: &Set) {
        for (own, other) in self.bits.iter_mut().zip(&other.bits) {
            *own ^= other;
        }
    }

    fn members(&self) -> impl DoubleEndedIterator<Item = usize> + '_ {
        (0..self.bits.len() * 64).filter(|&at| self.has(at))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every set of up to nine things, tried: how many fulfil all equations, and the cycles among them.
    #[test]
    fn cycles_make_up_all_sets_that_fulfil_the_equations() {
        // Numbers of a linear congruential generator (Knuth's MMIX constants).
        let mut seed: u64 = 1;
        let mut next = |below: u64| {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) % below
        };
        for _ in 0..300 {
            let (count, rows) = (1 + next(9) as usize, next(7));
            let equations: Vec<u64> = (0..rows).map(|_| next(1 << count)).collect();
            let fulfils = |set: u64| equations.iter().all(|row| (row & set).count_ones().is_multiple_of(2));
            let found = cycles(equations.iter().map(|&row| Set { bits: vec![row] }).collect(), count);
            let all = (0..1_u64 << count).filter(|&set| fulfils(set)).count();
            assert_eq!(all, 1 << found.len());
            let mut last = Vec::new();
            for set in &found {
                assert!(fulfils(set.bits[0]));
                last.extend(set.members().last());
            }
            // Each has its own last thing, so that none is made up of the others.
            last.dedup();
            assert_eq!(last.len(), found.len());
            assert!(last.is_sorted());
        }
    }
}
