//! The stretches of every side, the joins that they lie in, and the vertices between them.

use super::closures::Closing;
use super::cuts::{Across, CutPly, Cutter, More};
use super::faces::Faces;
use super::model::{
    ClosureLine, Join, JoinId, JoinedBy, JoinedPly, Placing, PlyAt, SideId, Stretch, StretchId, Surface,
};
use super::placed::{CaughtSide, Lying};
use super::plies::{Ply, Sewings};
use super::union::Union;
use crate::few::Few;
use crate::garment::{Gap, Garment, SeamId};
use crate::id_hash::IdIndexMap;
use crate::sewing::model::{SewnPart, SewnSeam, TakenBy};
use crate::syntax::tree::Hand;
use smallvec::SmallVec;

/// Cuts nearer to each other, or to a side's end, than this are one, in millimetres: less than a
/// stitch is long.
const ONE_CUT: f64 = 0.5;

/// Cuts of sides, each from the side's start along its ring.
type Cuts = IdIndexMap<SideId, Vec<f64>>;

/// A stretch that is being made: from where to where on its side, and its join and ply there.
#[derive(Clone, Copy, Debug)]
struct Entry {
    from: f64,
    to: f64,
    join: Option<(u32, u32)>,
}

/// A surface that is being sewn together.
pub(super) struct Sewing<'a> {
    garment: &'a Garment,
    parts: &'a [SewnPart],
    faces: Faces,
    lying: &'a [Lying],
    /// What is caught, by the side that it is caught on.
    caught: IdIndexMap<SideId, Vec<CaughtSide>>,
    entries: Vec<Few<Entry>>,
    joins: Vec<Join>,
}

impl<'a> Sewing<'a> {
    pub(super) fn new(garment: &'a Garment, parts: &'a [SewnPart], faces: Faces, lying: &'a [Lying]) -> Self {
        let mut caught: IdIndexMap<SideId, Vec<CaughtSide>> = IdIndexMap::default();
        for one in lying.iter().flat_map(|lying| &lying.caught) {
            caught.entry(one.on).or_default().push(*one);
        }
        let entries = vec![Few::new(); faces.sides.len()];
        Sewing { garment, parts, faces, lying, caught, entries, joins: Vec::new() }
    }

    /// Sews all seams; closures are asked where they have joints on sides that seams take.
    pub(super) fn sew(&mut self, seams: &[SewnSeam], sewn: &Sewings, closings: &[Closing]) {
        let more = self.more_cuts(sewn, closings);
        let tolerance = self.garment.tolerance.max(ONE_CUT);
        let mut cutter = Cutter::default();
        self.joins.reserve(sewn.all.len());
        for one in &sewn.all {
            let Some(seam) = seams.get(one.seam) else { continue };
            let gaps = self.gaps(seam, one.sewing, seams);
            let ends: SmallVec<[f64; 4]> = gaps.iter().flatten().flat_map(|&(from, to)| [from, to]).collect();
            let mut place = 0;
            let more = More { sides: &more, on_first: &ends };
            cutter.cells(sewn.plies(one), &Across::of(seam), &more, tolerance, &mut |cell, middle| {
                let is_in =
                    |gap: &Option<(f64, f64)>| gap.is_none_or(|(from, to)| from <= middle && middle <= to);
                let gap = gaps.iter().any(is_in);
                let (seam, sewn, sewing) = (seam.seam, one.seam, one.sewing);
                self.sew_cell(JoinedBy::Seam { seam, sewn, sewing, cell: place }, seam, cell, gap);
                place += 1;
            });
        }
    }

    fn sew_cell(&mut self, by: JoinedBy, seam: SeamId, cell: &[CutPly], gap: bool) {
        if self.caught.is_empty() {
            return self.join(by, cell, gap);
        }
        let mut plies = cell.to_vec();
        for under in cell {
            for caught in self.caught.get(&under.side).into_iter().flatten().filter(|one| one.seam == seam) {
                let middle = 0.5 * (under.from + under.to);
                if caught.from <= middle && middle <= caught.to {
                    plies.extend(Self::caught_over(caught, under));
                }
            }
        }
        self.join(by, &plies, gap);
    }

    /// The gaps for turning that are left there: from where to where on the first side; none where that is not said.
    fn gaps(&self, sewn: &SewnSeam, sewing: u32, seams: &[SewnSeam]) -> SmallVec<[Option<(f64, f64)>; 1]> {
        let gaps = self.garment.seam(sewn.seam).gaps.iter().enumerate();
        let left = gaps.filter(|(_, gap)| {
            gap.layer.is_none_or(|layer| sewn.layers.contains(&layer))
                && gap.hand.is_none_or(|hand| is_of_hand(sewn, sewing, hand))
        });
        let placed = |sewn: &SewnSeam, at: usize| {
            let own = sewn.gaps.iter().find(|own| own.gap == at);
            own.and_then(|own| own.at.ok()).map(|stretch| stretch.first)
        };
        let lies = |(at, gap): (usize, &Gap)| match placed(sewn, at) {
            Some(own) => Some(Some(own)),
            // Where it lies in another piece of the seam, it does not lie here.
            None if gap.at.is_some()
                && seams.iter().any(|other| other.seam == sewn.seam && placed(other, at).is_some()) =>
            {
                None
            }
            None => Some(None),
        };
        left.filter_map(lies).collect()
    }

    /// Cuts that are not a seam's own: ends of caught edges, and joints of closures.
    fn more_cuts(&self, sewn: &Sewings, closings: &[Closing]) -> Cuts {
        let mut more = Cuts::default();
        for caught in self.caught.values().flatten() {
            more.entry(caught.on).or_default().extend([caught.from, caught.to]);
        }
        if !closings.is_empty() {
            let mut in_seams = vec![false; self.faces.sides.len()];
            sewn.sides().for_each(|side| in_seams[side.index()] = true);
            for ply in closings.iter().flat_map(|closing| closing_cuts(closing, &Cuts::default())) {
                if in_seams[ply.side.index()] {
                    more.entry(ply.side).or_default().extend([ply.from, ply.to]);
                }
            }
        }
        for (side, cuts) in &mut more {
            one_cut_each(cuts, self.length(*side));
        }
        more.retain(|_, cuts| !cuts.is_empty());
        more
    }

    fn length(&self, side: SideId) -> f64 {
        self.faces.sides.get(side.index()).map_or(0.0, |side| side.length)
    }

    /// The stretch of a caught side over a stretch of what it is caught on.
    fn caught_over(caught: &CaughtSide, under: &CutPly) -> Option<CutPly> {
        let on = caught.to - caught.from;
        if on <= 0.0 {
            return None;
        }
        let (start, end) = caught.own;
        let share = |at: f64| ((at - caught.from) / on).clamp(0.0, 1.0) * (end - start);
        let (from, to) = (share(under.from), share(under.to));
        let (from, to) = match caught.against {
            true => (end - to, end - from),
            false => (start + from, start + to),
        };
        Some(CutPly {
            side: caught.side,
            from,
            to,
            against: under.against != caught.against,
            at: PlyAt::Caught,
        })
    }

    fn join(&mut self, by: JoinedBy, plies: &[CutPly], gap: bool) {
        let join = self.joins.len() as u32;
        let mut joined = SmallVec::with_capacity(plies.len());
        for (at, ply) in plies.iter().enumerate() {
            self.entries[ply.side.index()].push(Entry {
                from: ply.from,
                to: ply.to,
                join: Some((join, at as u32)),
            });
            // Which stretch it is, is known once all of its side's are.
            joined.push(JoinedPly { stretch: StretchId::from_index(0), against: ply.against, at: ply.at });
        }
        self.joins.push(Join { by, plies: joined, gap });
    }

    /// Stitches placed pieces down on the inside of the faces below them.
    pub(super) fn place(&mut self) {
        for (at, one) in self.lying.iter().enumerate() {
            for &side in &one.stitched {
                let to = self.length(side);
                let ply = CutPly { side, from: 0.0, to, against: false, at: PlyAt::First(0) };
                self.join(JoinedBy::Placing(at), &[ply], false);
            }
        }
    }

    /// Cuts free sides where the closures on them have joints.
    pub(super) fn close(&mut self, closings: &[Closing]) {
        for closing in closings {
            let mut cuts = Cuts::default();
            for run in closing.sides.iter().flatten().flat_map(|ply| &ply.runs) {
                let own = cuts.entry(run.side).or_default();
                own.extend(self.entries[run.side.index()].iter().flat_map(|entry| [entry.from, entry.to]));
                one_cut_each(own, run.length);
            }
            let mut free = closing_cuts(closing, &cuts);
            free.retain(|ply| self.entries[ply.side.index()].is_empty());
            for ply in free {
                self.entries[ply.side.index()].push(Entry { from: ply.from, to: ply.to, join: None });
            }
        }
    }

    /// All of it.
    pub(super) fn finish(mut self, closings: &[Closing]) -> Surface {
        let faces = std::mem::take(&mut self.faces);
        let mut surface = Surface {
            faces: faces.faces,
            sides: faces.sides,
            joins: std::mem::take(&mut self.joins),
            ..Surface::default()
        };
        surface.stretches.reserve(surface.sides.len());
        for face in 0..surface.faces.len() {
            let first = surface.stretches.len() as u32;
            let (first_side, count) = surface.faces[face].sides;
            let mut hole = 0;
            for side in first_side..first_side + count {
                let own = surface.sides[side as usize].hole;
                let before = surface.stretches.len() as u32;
                if own != hole {
                    surface.holes.push((before, 0));
                    hole = own;
                }
                self.stretches(&mut surface, SideId::from_index(side as usize));
                if let Some(last) = surface.holes.last_mut().filter(|_| own > 0) {
                    last.1 += surface.stretches.len() as u32 - before;
                }
            }
            surface.faces[face].stretches = (first, surface.stretches.len() as u32 - first);
        }
        surface.closures = closings.iter().map(|one| closure_line(&surface, one)).collect();
        let lying = self.lying.iter();
        surface.placings = lying
            .map(|one| Placing {
                placement: one.placement,
                placed: one.placed,
                host: one.host,
                shut: one.shut,
            })
            .collect();
        find_vertices(&mut surface);
        surface
    }

    /// The stretches of one side.
    fn stretches(&mut self, surface: &mut Surface, side: SideId) {
        let own = surface.sides[side.index()];
        let mut entries = std::mem::take(&mut self.entries[side.index()]);
        if entries.is_empty() {
            entries.push(Entry { from: 0.0, to: own.length, join: None });
        }
        entries.sort_by(|a, b| (a.from + a.to).total_cmp(&(b.from + b.to)));
        let fate = self.parts.get(own.part.index()).and_then(|part| part.fate(own.edge));
        let takers = fate.filter(|_| !own.fold).into_iter().flat_map(|fate| &fate.takers);
        let mut finishes = takers.filter_map(|taker| match taker.what {
            TakenBy::Finish(at) => Some(at),
            _ => None,
        });
        let finish = finishes.next();
        surface.sides[side.index()].stretches = (surface.stretches.len() as u32, entries.len() as u32);
        let face = own.face;
        for entry in &entries {
            let id = StretchId::from_index(surface.stretches.len());
            let join = entry.join.map(|(join, ply)| {
                surface.joins[join as usize].plies[ply as usize].stretch = id;
                JoinId::from_index(join as usize)
            });
            let &Entry { from, to, .. } = entry;
            surface.stretches.push(Stretch { side, face, from, to, start: 0, end: 0, join, finish });
        }
    }
}

/// Whether that time of sewing a seam is the one of that side of the body.
fn is_of_hand(sewn: &SewnSeam, sewing: u32, hand: Hand) -> bool {
    let runs = sewn.first.plies.iter().chain(&sewn.second.plies).flat_map(|ply| &ply.runs);
    let mut hands = runs.filter_map(|run| run.hand);
    let Some(first) = hands.next() else { return true };
    // With both hands in one sewing it is on either side.
    hands.any(|other| other != first) || sewn.sewings < 2 || (sewing % 2 == 1) == (hand != first)
}

/// What a closure's two sides are cut into, as a seam's are; none where its line runs inside a piece.
fn closing_cuts(closing: &Closing, more: &Cuts) -> Vec<CutPly> {
    let Some(sides) = &closing.sides else { return Vec::new() };
    let across = Across::straight(sides[0].length(), sides[1].length());
    let mut all = Vec::new();
    let more = More { sides: more, on_first: &[] };
    Cutter::default().cells(sides, &across, &more, ONE_CUT, &mut |cell, _| all.extend_from_slice(cell));
    all
}

/// In order, without those at a side's ends or next to another.
fn one_cut_each(cuts: &mut Vec<f64>, length: f64) {
    cuts.retain(|&cut| cut > ONE_CUT && cut < length - ONE_CUT);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|later, earlier| *later - *earlier <= ONE_CUT);
}

fn closure_line(surface: &Surface, one: &Closing) -> ClosureLine {
    let along = |ply: &Ply| -> Vec<(StretchId, bool)> {
        let mut all = Vec::new();
        for run in &ply.runs {
            let mut own: Vec<_> = surface.stretches_on(run.side).map(|id| (id, run.against)).collect();
            if run.against {
                own.reverse();
            }
            all.extend(own);
        }
        all
    };
    let sides = match &one.sides {
        Some([first, second]) => [along(first), along(second)],
        None => [Vec::new(), Vec::new()],
    };
    let faces = one.faces.clone();
    ClosureLine {
        closure: one.closure,
        time: one.time,
        takes_edges: one.takes_edges,
        sides,
        faces,
        lengths: one.lengths,
    }
}

/// Brings the ends of stretches together that lie on one another.
fn find_vertices(surface: &mut Surface) {
    let count = surface.stretches.len();
    // The stretch after each, side by side: the joins lie all over the surface.
    let mut next: Vec<u32> = (1..=count as u32).collect();
    for face in &surface.faces {
        let (first, many) = face.stretches;
        if let Some(last) = (first + many).checked_sub(1).filter(|_| many > 0) {
            next[last as usize] = first;
        }
    }
    // A slit inside ends the ring before it, and is one itself.
    for &(first, many) in &surface.holes {
        for last in [first, first + many] {
            if let Some(last) = last.checked_sub(1) {
                next[last as usize] = surface.next(StretchId::from_index(last as usize)).index() as u32;
            }
        }
    }
    let corner = |id: StretchId, at_end: bool| if at_end { next[id.index()] as usize } else { id.index() };
    let mut corners = Union::new(count);
    for join in &surface.joins {
        let Some((first, others)) = join.plies.split_first() else { continue };
        for other in others {
            for at_end in [false, true] {
                let one = corner(first.stretch, at_end != first.against);
                corners.join(one, corner(other.stretch, at_end != other.against));
            }
        }
    }
    const NONE: u32 = u32::MAX;
    let mut numbers: Vec<u32> = vec![NONE; count];
    let mut vertices = 0;
    let mut of_corner = Vec::with_capacity(count);
    for corner in 0..count {
        let number = &mut numbers[corners.root(corner)];
        if *number == NONE {
            *number = vertices;
            vertices += 1;
        }
        of_corner.push(*number);
    }
    for (at, stretch) in surface.stretches.iter_mut().enumerate() {
        stretch.start = of_corner[at];
        stretch.end = of_corner[next[at] as usize];
    }
    surface.vertices = vertices as usize;
}
