//! Straps: how much of each is free, and how far it spans.

use super::amounts::amount_of;
use crate::garment::{CutHow, Garment, PointId, Strap, StrapEnd, StrapId, StrapRun};
use crate::resolve::{DrawnPiece, SizedGarment};
use crate::shape::Point;
use crate::shape::fold::mirror_across;

/// A mark no further from a fold than this lies on it, in millimetres.
const ON_FOLD: f64 = 0.5;

/// A strap in one size.
#[derive(Clone, Debug, PartialEq)]
pub struct SewnStrap {
    /// Which.
    pub strap: StrapId,
    /// How long it is, with what is sewn on of it, in millimetres.
    pub length: f64,
    /// How wide it is when it is finished, in millimetres.
    pub width: f64,
    /// How much of each end is sewn on that is not caught in a seam, in millimetres: what is said, else as
    /// much as the strap is wide (common practice).
    pub sewn: f64,
    /// Those that it has, in the order in which they are said.
    pub runs: Vec<SewnStrapRun>,
}

/// Where one of a strap goes from and to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SewnStrapRun {
    /// How much of it hangs free or spans, in millimetres; less than nothing where more is to be sewn on than
    /// there is.
    pub free: f64,
    /// How far apart its ends are sewn on, straight over the flat piece, in millimetres; none where they are on
    /// two pieces or two copies, or it has one end only.
    pub across: Option<f64>,
}

impl SewnStrap {
    /// What the ends of one of it are stitched along, in millimetres: all round what is sewn on, and across it
    /// from corner to corner where it is boxed; one row across its end where it is not.
    pub fn stitched(&self, strap: &Strap, run: &StrapRun) -> f64 {
        let ends = run.ends().filter(|end| end.caught.is_none()).count() as f64;
        let each = match strap.boxed {
            true => 2.0 * (self.width + self.sewn) + 2.0 * self.width.hypot(self.sewn),
            false => 2.0 * self.sewn + self.width,
        };
        ends * each
    }
}

/// Every strap whose amounts are known.
pub fn straps(garment: &Garment, sized: &SizedGarment) -> Vec<SewnStrap> {
    let straps = StrapId::enumerate(&garment.straps).filter(|(_, strap)| !strap.poisoned);
    straps.filter_map(|(id, strap)| sewn_strap(garment, sized, id, strap)).collect()
}

fn sewn_strap(garment: &Garment, sized: &SizedGarment, id: StrapId, strap: &Strap) -> Option<SewnStrap> {
    let length = amount_of(garment, sized, &strap.length)?;
    let width = amount_of(garment, sized, &strap.width)?;
    let sewn = match &strap.sewn {
        Some(said) => amount_of(garment, sized, said)?,
        None => width,
    };
    let runs = strap.runs.iter().map(|run| {
        let sewn_on = run.ends().filter(|end| end.caught.is_none()).count() as f64;
        let across = run.to.as_ref().and_then(|to| across(garment, sized, &run.from, to));
        SewnStrapRun { free: length - sewn_on * sewn, across }
    });
    Some(SewnStrap { strap: id, length, width, sewn, runs: runs.collect() })
}

/// How far apart two places of one piece are, straight.
fn across(garment: &Garment, sized: &SizedGarment, from: &StrapEnd, to: &StrapEnd) -> Option<f64> {
    let (host, one) = strap_place(garment, sized, from.point)?;
    let (other_host, other) = strap_place(garment, sized, to.point)?;
    if !std::ptr::eq(host, other_host) {
        return None;
    }
    let other = match (from.hand == to.hand, host.cut) {
        (true, _) => other,
        // The other half of the same cloth.
        (false, CutHow::OnFold(fold)) => mirror_across(&host.edge(fold)?.path).ok()? * other,
        (false, CutHow::Alike | CutHow::Mirrored) => return None,
    };
    Some(one.distance(other))
}

/// The piece as it is drawn now that has a mark or corner, and where that is.
pub fn strap_place<'a>(
    garment: &Garment,
    sized: &'a SizedGarment,
    point: PointId,
) -> Option<(&'a DrawnPiece, Point)> {
    sized.papers.iter().flatten().find_map(|drawn| {
        let mut spots = drawn.spots.iter();
        let spot = spots.find(|spot| garment.is_point_of(spot.point, point))?;
        Some((&**drawn, spot.at))
    })
}

/// Whether a place of a piece lies on the fold that it is cut on.
pub fn is_on_fold(drawn: &DrawnPiece, at: Point) -> bool {
    let CutHow::OnFold(fold) = drawn.cut else { return false };
    drawn.edge(fold).is_some_and(|fold| fold.path.nearest(at).distance <= ON_FOLD)
}
