//! One seam: its plies laid on one another, and the corners that meet joined.

use super::meant::Meant;
use super::strand::Strand;
use super::{Laid, caught, left, meet, slits, split_runs};
use crate::few::Few;
use crate::garment::Seam;
use crate::sewing::copies;
use crate::sewing::ends::Corners;
use crate::sewing::hands::{self, Way};
use crate::sewing::model::PartId;
use crate::sewing::stitching::{Finder, Place, Stitching};
use crate::sewing::surface::union::Signed;
use crate::syntax::tree::Hand;

/// Two strands whose ends meet nobody knows how.
type Unknown = Option<(usize, usize)>;

/// Lays the plies of a seam on one another, and joins the corners that meet.
pub(super) fn lay(
    seam: &Seam,
    stitching: &Stitching,
    way: Way,
    finder: &Finder,
    corners: &mut Corners,
    signs: Option<&mut Signed>,
    no_side: &[PartId],
) -> Option<Laid> {
    let (sides, has_gaps) = match &stitching.through {
        Some(through) => (&**through, true),
        None => (&stitching.sides, stitching.right_through.is_some()),
    };
    let meant = Meant::of(corners, sides.iter().flatten().map(|ply| &**ply), &seam.matching);
    let mut laying = OneSeam { seam, stitching, way, finder, sides, has_gaps, meant, signs, no_side };
    let (mut strands, unknown) = laying.strands(corners)?;
    if has_gaps {
        left::mark(&mut strands, stitching);
    }
    join_in_a_row(corners, &strands);
    if way == Way::Round {
        laying.go_round(corners, &mut strands)?;
    }
    let unmet = meet::meet(corners, &mut strands, &seam.matching).or(unknown);
    let first = stitching.sides[0].len();
    let laid = Laid { strands, first, unmet, through_fold: false, has_gaps, left: None, uneven: None };
    join_ends(corners, &laid);
    Some(laid)
}

/// A seam, and what its plies are laid by.
struct OneSeam<'a, 's> {
    seam: &'a Seam,
    stitching: &'a Stitching,
    way: Way,
    finder: &'a Finder<'a>,
    /// Its plies, with what something else takes of their edges where that is known.
    sides: &'a [Few<Few<Place>>; 2],
    has_gaps: bool,
    meant: Meant<'a>,
    signs: Option<&'s mut Signed>,
    /// Pairs of which the two copies lie on one another in a seam: an upper and an under one, of no side of the body.
    no_side: &'s [PartId],
}

/// A ply that names runs of an edge, as it is named and as it is put, with its place among the strands.
type Ordered<'a> = (&'a [Place], Vec<Place>, usize);

impl<'a> OneSeam<'a, '_> {
    fn lying(&mut self, corners: &mut Corners, places: &[Place], hand: Hand) -> Option<Strand> {
        let (finder, no_side) = (self.finder, self.no_side);
        let hand_of = |part: PartId| hand_of(part, hand, finder, no_side);
        Strand::lying(corners, places, &hand_of, &self.meant, self.signs.as_deref_mut())
    }

    /// All plies, the first side's first.
    fn strands(&mut self, corners: &mut Corners) -> Option<(Vec<Strand>, Unknown)> {
        let mut strands: Vec<Strand> = Vec::with_capacity(self.stitching.plies().count());
        let mut unknown: Unknown = None;
        let sides = self.sides;
        for (side, plies) in sides.iter().enumerate() {
            let first_of_side = strands.len();
            let hand = hands::hand_of_side(plies, side == 1, self.stitching.reach, self.way, self.finder);
            let mut ordered: Few<Ordered> = Few::new();
            for places in plies {
                if let Some((strand, is_known)) = self.on_its_host(corners, places, hand, &ordered, &strands)
                {
                    unknown = unknown.or((!is_known).then_some((first_of_side, strands.len())));
                    strands.push(strand);
                    continue;
                }
                let put = self.put(corners, places, hand);
                if let Some(put) = put.as_ref().filter(|_| !self.has_gaps && !is_part_elsewhere(places)) {
                    ordered.push((places, put.clone(), strands.len()));
                }
                strands.push(self.ply(corners, put.as_deref().unwrap_or(places), hand)?);
            }
        }
        Some((strands, unknown))
    }

    /// A ply that lies on a part of another one, as that lies.
    fn on_its_host(
        &self,
        corners: &mut Corners,
        places: &[Place],
        hand: Hand,
        ordered: &Few<Ordered>,
        strands: &[Strand],
    ) -> Option<(Strand, bool)> {
        if self.has_gaps || !is_part_elsewhere(places) {
            return None;
        }
        let (put, host) = ordered.iter().find_map(|(named, put, host)| {
            Some((caught::as_host(places, named, put)?, strands.get(*host)?))
        })?;
        let hand_of = |part: PartId| hand_of(part, hand, self.finder, self.no_side);
        Strand::lying_on(corners, host, &put, &hand_of, &self.seam.matching)
    }

    /// The edges of a ply in the order in which they lie, where they are not named so.
    fn put(&mut self, corners: &mut Corners, places: &[Place], hand: Hand) -> Option<Vec<Place>> {
        let (finder, has_gaps) = (self.finder, self.has_gaps);
        let mut cost = |places: &[Place]| Some(self.lying(corners, places, hand)?.cost);
        match has_gaps {
            true => caught::as_drawn_or_back(finder, places, &mut cost),
            false if is_part_elsewhere(places) => None,
            false => caught::in_order(finder, places, &mut cost),
        }
    }

    /// A ply by itself.
    fn ply(&mut self, corners: &mut Corners, places: &[Place], hand: Hand) -> Option<Strand> {
        let mut strand = self.lying(corners, places, hand)?;
        let matching = &self.seam.matching;
        // A round edge that a slit breaks begins and ends at the slit.
        for places in slits::otherwise(self.finder, places) {
            let from_slit = self.lying(corners, &places, hand)?;
            if from_slit.torn(corners, matching) < strand.torn(corners, matching) {
                strand = from_slit;
            }
        }
        if let Some(places) = split_runs::otherwise(places)
            && strand.torn(corners, matching) > 0
        {
            let turned = self.lying(corners, &places, hand)?;
            if turned.torn(corners, matching) < strand.torn(corners, matching) {
                strand = turned;
            }
        }
        Some(strand)
    }

    /// Plies that go round the body, or over all copies of a piece.
    fn go_round(&mut self, corners: &mut Corners, strands: &mut [Strand]) -> Option<()> {
        let (finder, sides, stitching) = (self.finder, self.sides, self.stitching);
        let copies = |part: PartId| {
            let times = finder.drawn(part).map_or(1, |drawn| copies::times(drawn) as usize);
            // Where each ply takes one of them, they do not lie in a row.
            let takes = |places: &&Few<Place>| places.iter().any(|own| own.part == part && !own.elsewhere);
            let plies = sides.iter().map(|plies| plies.iter().filter(takes).count()).max();
            times / plies.unwrap_or(1).max(1)
        };
        let matching = &self.seam.matching;
        let rights = stitching.right_through.as_deref().or(stitching.right.as_ref());
        let mut rights = rights.into_iter().flatten().flatten();
        for strand in strands.iter_mut() {
            let right = match rights.next().filter(|places| !strand.is_twin_of(corners, places)) {
                Some(places) => {
                    let mut cost = |places: &[Place]| Some(self.lying(corners, places, Hand::Right)?.cost);
                    let put = caught::as_drawn_or_back(finder, places, &mut cost);
                    Some(self.lying(corners, put.as_deref().unwrap_or(places), Hand::Right)?)
                }
                None => None,
            };
            strand.go_round(corners, matching, &copies, right);
        }
        if !self.has_gaps && !matching.is_empty() {
            for at in 0..strands.len() {
                let others = strands.iter().enumerate().filter(|(other, one)| *other != at && !one.ring);
                let ends: Vec<_> = others.flat_map(|(_, one)| [one.start, one.end]).collect();
                if let Some(strand) = strands.get_mut(at).filter(|one| one.ring) {
                    strand.begin_where_matched(corners, matching, &ends);
                }
            }
            begin_alike(corners, strands, stitching.sides[0].len());
        }
        if self.has_gaps && stitching.right.is_some() {
            left::mark(strands, stitching);
            strands.iter_mut().for_each(|strand| strand.begin_at_gap(corners));
        }
        Some(())
    }
}

/// Which of a pair it is on that side of the body.
fn hand_of(part: PartId, hand: Hand, finder: &Finder, no_side: &[PartId]) -> Option<Hand> {
    hands::hand_of(part, hand, finder).filter(|_| !no_side.contains(&part))
}

/// Whether some of a ply only shows where it lies in another.
fn is_part_elsewhere(places: &[Place]) -> bool {
    places.iter().any(|place| place.elsewhere)
}

/// Joins the corners at which the edges of each ply run on in one another.
fn join_in_a_row(corners: &mut Corners, strands: &[Strand]) {
    for strand in strands.iter().filter(|strand| strand.unmet_joint.is_none()) {
        for pair in strand.links.windows(2) {
            let [before, after] = pair else { continue };
            if before.gap || after.gap {
                continue;
            }
            if let (Some(one), Some(other)) = (before.end(corners), after.start(corners)) {
                corners.join(one, other);
            }
        }
    }
}

/// Joins the ends of all plies, of each piece that is left where something else takes runs.
fn join_ends(corners: &mut Corners, laid: &Laid) {
    let left = if laid.has_gaps { left::left(corners, Some(laid.clone())) } else { Few::new() };
    let sewn = if laid.has_gaps { left.as_slice() } else { std::slice::from_ref(laid) };
    for one in sewn.iter().filter(|one| one.unmet.is_none() && one.uneven.is_none()) {
        let Some((one, others)) = one.strands.split_first() else { continue };
        for other in others {
            corners.join(one.start, other.start);
            corners.join(one.end, other.end);
        }
    }
}

/// Rings of one side begin where one of them does that begins at a corner which is said to match: the two plies of a brim
/// at its back.
fn begin_alike(corners: &Corners, strands: &mut [Strand], first: usize) {
    let (firsts, seconds) = strands.split_at_mut(first.min(strands.len()));
    for side in [firsts, seconds] {
        let is_open = |strand: &&Strand| !strand.ring && strand.begins_and_ends_alike(corners);
        let Some(start) = side.iter().find(is_open).map(|strand| strand.start) else { continue };
        for strand in side.iter_mut().filter(|strand| strand.ring) {
            strand.begin_beside(corners, start);
        }
    }
}
