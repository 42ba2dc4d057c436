//! How much thread the seams take.
//!
//! The geometric equations of textile-engineering course tables give the length of thread for a
//! length of seam from the thickness T of what is sewn, the stitches per inch S and the width W of
//! an overedge, all in inches: 301: 2 + 2TS; 401: 4 + 2TS; 101: 3 + 2TS; 504: 5 + 4S(W + T);
//! 514: 5 + 2S(3T + 2W); 516: 9 + 2S(2W + 3T); 406: 7 + 2S(T + W). Stitch numbers are those of
//! ISO 4915.

use crate::garment::{
    ClosureId, ClosureKind, CutHow, FinishId, FinishKind, Garment, HemEdge, LayerId, SeamSide, TackEnd,
    TackId,
};
use crate::report::INCH;
use crate::resolve::{DrawnEdgeId, SizedGarment, finished};
use crate::sewing::{NotionSource, PartId, Sewing, SewnSide, TakenBy, amount_of, seam_making, straps};
use crate::syntax::tree::{Hand, SeamKind};

/// The stitch that gives with what is sewn on stretched, by its number in ISO 4915.
const ZIGZAG: u16 = 304;
/// Sewn by hand, by its number in ISO 4915.
const HANDSTITCH: u16 = 209;
/// How thick cloth is of which nothing is said, in millimetres (common practice: a shirting).
pub const THICKNESS: f64 = 0.5;
/// Stitches per inch: 2.5 mm a stitch, common practice for medium cloth.
pub const STITCHES_PER_INCH: f64 = 10.0;
/// How wide an overedge is, in millimetres (common practice).
pub const OVEREDGE_WIDTH: f64 = 5.0;
/// What is added for ends, unpicking and the bobbin: 15 % (the tables say 10 to 20 %).
pub const WASTE: f64 = 0.15;
/// Lockstitch: what is sewn where no stitch is said.
const LOCKSTITCH: u16 = 301;
/// Three-thread overedge: how an overlocked edge is finished where no stitch is said.
const OVEREDGE: u16 = 504;

/// Class 500 of ISO 4915: sewn over an edge.
const OVEREDGES: std::ops::RangeInclusive<u16> = 501..=599;

/// Thread of one stitch type.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadNeed {
    /// The number of ISO 4915.
    pub stitch: u16,
    /// How much is sewn, in millimetres.
    pub sewn: f64,
    /// How much thread that takes, waste included, in millimetres; none where no equation is
    /// published for the stitch.
    pub thread: Option<f64>,
}

/// Length of thread for one length of seam, without waste; none where there is no equation for
/// the stitch. `thickness` and `width` in inches, `stitches` per inch.
pub fn thread_per_length(stitch: u16, thickness: f64, stitches: f64, width: f64) -> Option<f64> {
    let (t, s, w) = (thickness, stitches, width);
    Some(match stitch {
        301 => 2.0 + 2.0 * t * s,
        401 => 4.0 + 2.0 * t * s,
        101 => 3.0 + 2.0 * t * s,
        504 => 5.0 + 4.0 * s * (w + t),
        514 => 5.0 + 2.0 * s * (3.0 * t + 2.0 * w),
        516 => 9.0 + 2.0 * s * (2.0 * w + 3.0 * t),
        406 => 7.0 + 2.0 * s * (t + w),
        _ => return None,
    })
}

/// The thread of all seams, hems, casings, bindings, overlocked edges, topstitched placements,
/// zips, rows and bars, by stitch, the least number first. Buttonholes and what is sewn by hand are not counted.
pub fn thread_needs(garment: &Garment, sized: &SizedGarment, sewing: &Sewing) -> Vec<ThreadNeed> {
    let mut sum = Sum { needs: Vec::new() };
    for sewn in sewing.seams.iter().filter(|sewn| sewn.known && sewn.unpaired.is_none()) {
        let seam = garment.seam(sewn.seam);
        let stitch = seam.stitch.as_ref().map_or(LOCKSTITCH, |stitch| stitch.number);
        let [first, second] =
            [&sewn.first, &sewn.second].map(|side| side_thickness(garment, sized, sewing, side));
        let [long_first, long_second] =
            [&sewn.first, &sewn.second].map(|side| side_length(side) * f64::from(sewn.sewings));
        let length = long_first.max(long_second);
        let Some(making) = seam_making(garment, sized, seam) else {
            sum.add(stitch, length, first + second);
            continue;
        };
        let (over, under) = match making.over {
            Some(SeamSide::Second) => (second, first),
            _ => (first, second),
        };
        // An overedge cannot be sewn inside of the cloth: what is sewn down is sewn with a lockstitch.
        let down = if OVEREDGES.contains(&stitch) { LOCKSTITCH } else { stitch };
        match making.kind {
            // The trimmed allowances lie between the two rows.
            SeamKind::French => {
                sum.add(stitch, length, first + second);
                sum.add(down, length, first + second);
            }
            // The second row goes through the fold and what it lies on.
            SeamKind::Felled => {
                sum.add(stitch, length, first + second);
                sum.add(down, length, under + 2.0 * over);
            }
            // The upper side is turned under.
            SeamKind::Lapped => sum.add(down, length, under + 2.0 * over),
            // What lies over, and both allowances.
            SeamKind::Topstitched => {
                sum.add(stitch, length, first + second);
                sum.add(down, length, under + 2.0 * over);
            }
            // As any binding: sewn on and sewn down, of four plies.
            SeamKind::EdgesBound => {
                sum.add(stitch, length, first + second);
                sum.add(LOCKSTITCH, 2.0 * long_first, 4.0 * first);
                sum.add(LOCKSTITCH, 2.0 * long_second, 4.0 * second);
            }
        }
    }
    let finder = sewing.finder(garment, sized);
    // Ends that are sewn to themselves, through both plies, as long as they are once folded.
    let across = sewing.stitchings.iter().filter(|stitching| garment.seam(stitching.seam).across_fold);
    for stitching in across {
        let stitch = garment.seam(stitching.seam).stitch.as_ref().map_or(LOCKSTITCH, |stitch| stitch.number);
        for place in stitching.places() {
            let length = edge_length(garment, sized, sewing, place.part, place.edge).unwrap_or(0.0);
            let layer = sewing.part(place.part).part.layer;
            sum.add(stitch, length, 2.0 * thickness_of(garment, sized, layer));
        }
    }
    for finish in &garment.finishes {
        let (stitch, plies, rows) = match &finish.kind {
            FinishKind::Hem(hem) => match hem.raw_edge {
                HemEdge::TurnedOnce => (LOCKSTITCH, 2.0, 1.0),
                HemEdge::TurnedUnder(_) | HemEdge::TurnedTwice => (LOCKSTITCH, 3.0, 1.0),
            },
            FinishKind::Casing(..) => (LOCKSTITCH, 3.0, 1.0),
            // A binding is sewn on and sewn down; it is of four plies round the edge.
            FinishKind::Bound(_) => (LOCKSTITCH, 4.0, 2.0),
            // Sewn on, and sewn down once it is turned in.
            FinishKind::Elastic(..) => (ZIGZAG, 2.0, 2.0),
            FinishKind::Tape(_) => (LOCKSTITCH, 2.0, 2.0),
            FinishKind::TurnedUnderOnto(_) => (HANDSTITCH, 3.0, 1.0),
            FinishKind::Overlocked => (OVEREDGE, 1.0, 1.0),
            FinishKind::Raw | FinishKind::Poison => continue,
        };
        let stitch = finish.stitch.as_ref().map_or(stitch, |stitch| stitch.number);
        for place in finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn)) {
            let part = sewing.part(place.part);
            let length = edge_length(garment, sized, sewing, place.part, place.edge).unwrap_or(0.0);
            let thick = thickness_of(garment, sized, part.part.layer) * plies;
            sum.add(stitch, length * rows, thick);
        }
    }
    // Darts are sewn along their legs, through two plies of their own cloth.
    for (id, part) in PartId::enumerate(&sewing.parts).filter(|(_, part)| !part.fused) {
        if part.hand == Some(Hand::Right) && finder.twin(id).is_some() {
            continue;
        }
        let Some(drawn) = sized.paper(part.part.paper) else { continue };
        let halves = if matches!(drawn.cut, CutHow::OnFold(_)) { 2.0 } else { 1.0 };
        for take_up in &drawn.take_ups {
            let own: f64 = take_up.legs().iter().map(|(from, to)| from.distance(*to)).sum();
            let length = own / 2.0 * halves * f64::from(drawn.count);
            sum.add(LOCKSTITCH, length, thickness_of(garment, sized, part.part.layer) * 2.0);
        }
    }
    for (id, part) in PartId::enumerate(&sewing.parts) {
        for (edge, fate) in DrawnEdgeId::enumerate(&part.edges) {
            for taker in &fate.takers {
                let plies = match taker.what {
                    TakenBy::Topstitched(_) => 3.0,
                    TakenBy::Closure(closure) if is_zip(garment, closure) => 2.0,
                    _ => continue,
                };
                let length = edge_length(garment, sized, sewing, id, edge).unwrap_or(0.0);
                sum.add(LOCKSTITCH, length, thickness_of(garment, sized, part.part.layer) * plies);
            }
        }
    }
    for (id, part) in PartId::enumerate(&sewing.parts) {
        let (times, thick) = (f64::from(finder.times(id)), thickness_of(garment, sized, part.part.layer));
        for row in &part.rows {
            let stitch = garment.row(row.row).stitch.as_ref().map_or(LOCKSTITCH, |stitch| stitch.number);
            sum.add(stitch, row.length * times, 3.0 * thick);
        }
        // Along a line lies what is quilted, or a crease: its own cloth and what is behind it.
        for row in &part.line_rows {
            let stitch = garment.row(row.row).stitch.as_ref().map_or(LOCKSTITCH, |stitch| stitch.number);
            sum.add(stitch, row.length * times, 2.0 * thick);
        }
    }
    // A bar holds two places at once, and is sewn once for both.
    for (id, tack) in TackId::enumerate(&garment.tacks) {
        let Some(wide) = tack.bar.as_ref().and_then(|bar| amount_of(garment, sized, bar)) else { continue };
        let times = |part: PartId| {
            let marks = sewing.part(part).tacks.iter().filter(|own| own.tack == id).count();
            if marks > 0 { finder.times(part) } else { 0 }
        };
        let of_end = |end: &TackEnd| -> u32 {
            let parts = PartId::enumerate(&sewing.parts);
            let own = parts.filter(|(_, part)| part.part.piece == end.piece);
            // Each half is one; what lies on the fold of both is there once.
            let both = |id: PartId| if end.at_fold && finder.hand(id).is_none() { 2 } else { 1 };
            own.map(|(id, _)| times(id).div_ceil(both(id))).sum()
        };
        let times = tack.ends.iter().map(of_end).max().unwrap_or(0);
        sum.add(ZIGZAG, wide * f64::from(times), 2.0 * THICKNESS);
    }
    // What of a binding lies beyond its edges is sewn shut in one row.
    for (id, finish) in FinishId::enumerate(&garment.finishes) {
        let FinishKind::Bound(binding) = &finish.kind else { continue };
        if binding.running_on.is_empty() && binding.loops.is_empty() {
            continue;
        }
        let mut needs = sewing.notions.iter();
        let whole = needs.find(|need| need.source == NotionSource::Finish(id)).and_then(|need| need.length);
        let places = finish.edges.iter().flat_map(|sewn| finder.everywhere(sewn));
        let edges =
            places.map(|place| edge_length(garment, sized, sewing, place.part, place.edge).unwrap_or(0.0));
        let beyond = whole.map(|whole| whole - edges.sum::<f64>()).unwrap_or(0.0);
        sum.add(LOCKSTITCH, beyond, 4.0 * THICKNESS);
    }
    for sewn in straps(garment, sized) {
        let strap = garment.strap(sewn.strap);
        let mut drawn = sized.papers.iter().flatten();
        let drawn = drawn.find(|drawn| drawn.piece == strap.piece);
        let (Some(layer), Some(drawn)) = (strap.layer, drawn) else { continue };
        let thick = thickness_of(garment, sized, layer);
        // Folded in four it is sewn down along both its long edges.
        let (plies, rows) = if strap.in_four { (4.0, 2.0) } else { (1.0, 0.0) };
        sum.add(LOCKSTITCH, sewn.length * rows * f64::from(drawn.count), thick * plies);
        let each: f64 = strap.runs.iter().map(|run| sewn.stitched(strap, run)).sum();
        let copies = f64::from(drawn.count) / strap.runs.len().max(1) as f64;
        sum.add(LOCKSTITCH, each * copies, thick * (plies + 1.0));
    }
    sum.needs.sort_by_key(|need| need.stitch);
    sum.needs
}

struct Sum {
    needs: Vec<ThreadNeed>,
}

impl Sum {
    /// So many millimetres of a stitch through cloth so thick, in millimetres.
    fn add(&mut self, stitch: u16, length: f64, thick: f64) {
        if !(length.is_finite() && length > 0.0 && thick.is_finite()) {
            return;
        }
        let ratio = thread_per_length(stitch, thick / INCH, STITCHES_PER_INCH, OVEREDGE_WIDTH / INCH);
        let thread = ratio.map(|ratio| length * ratio * (1.0 + WASTE));
        match self.needs.iter_mut().find(|need| need.stitch == stitch) {
            Some(need) => {
                need.sewn += length;
                need.thread = need.thread.zip(thread).map(|(sum, more)| sum + more);
            }
            None => self.needs.push(ThreadNeed { stitch, sewn: length, thread }),
        }
    }
}

fn is_zip(garment: &Garment, closure: ClosureId) -> bool {
    matches!(garment.closure(closure).kind, Some(ClosureKind::Zipper { .. }))
}

fn side_length(side: &SewnSide) -> f64 {
    side.plies.iter().map(|ply| ply.length).fold(0.0, f64::max)
}

/// All plies of a side on one another, in millimetres.
fn side_thickness(garment: &Garment, sized: &SizedGarment, sewing: &Sewing, side: &SewnSide) -> f64 {
    let parts = side.plies.iter().filter_map(|ply| ply.runs.first()).map(|run| sewing.part(run.part));
    parts.map(|part| thickness_of(garment, sized, part.part.layer)).sum()
}

fn thickness_of(garment: &Garment, sized: &SizedGarment, layer: LayerId) -> f64 {
    let fabric = garment.layer(layer).fabric.map(|fabric| garment.fabric(fabric));
    let said = fabric.and_then(|fabric| amount_of(garment, sized, fabric.thickness.as_ref()?));
    said.filter(|thickness| *thickness > 0.0).unwrap_or(THICKNESS)
}

/// The finished length of an edge over all copies of its part.
fn edge_length(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    id: PartId,
    edge: DrawnEdgeId,
) -> Option<f64> {
    let part = sewing.part(id);
    let drawn = sized.paper(part.part.paper)?;
    let halves = match drawn.cut {
        CutHow::OnFold(_) => 2.0,
        CutHow::Alike | CutHow::Mirrored => 1.0,
    };
    // Of a part whose left and right are told apart only that side's.
    let sides = if sewing.index.twin(id).is_some() { 0.5 } else { 1.0 };
    Some(finished(garment, drawn, edge)? * halves * sides * f64::from(drawn.count))
}
