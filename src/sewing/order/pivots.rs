//! What is set in round a corner: a gusset, whose next edge follows round its corner once the one before it is sewn.
//!
//! Where two edges of a small piece lie on two others that are sewn to one another right up to that corner, sewing the second of
//! them closes a loop of three pieces, but no tube: all of it still lies flat but for the little piece.

use super::graph::Graph;
use super::jobs::Job;
use super::reach::Reach;
use crate::sewing::surface::StretchId;

/// No edge of what is set in is longer than this, in millimetres.
const SMALL: f64 = 150.0;

/// Jobs that are done.
type Done = Vec<usize>;

/// Of each job what, once it is done, leaves it to be sewn flat.
pub(super) fn pivots(graph: &Graph) -> Vec<Vec<Done>> {
    let work = graph.rules.work;
    let mut found: Vec<Vec<Done>> = vec![Vec::new(); work.jobs.len()];
    let Some(reach) = &graph.rules.reach else { return found };
    let job = |at: usize| work.jobs.get_index_of(&Job::Seam(at));
    for face in reach.surface.face_ids() {
        let mut sides = reach.surface.sides_of(face).map(|side| reach.surface.side(side));
        if !sides.all(|side| !side.fold && side.length <= SMALL) {
            continue;
        }
        for stretch in reach.surface.stretches_of(face) {
            let Some(own) = reach.seam(stretch).and_then(job) else { continue };
            for at_end in [false, true] {
                let before = round_corner(reach, stretch, at_end);
                let before = before.map(|seams| seams.into_iter().filter_map(job).collect::<Done>());
                if let (Some(before), Some(all)) =
                    (before.filter(|all| !all.contains(&own)), found.get_mut(own))
                {
                    all.push(before);
                }
            }
        }
    }
    found
}

/// The seams by which both sides of a stretch are next to one another at its end: the one round the corner of its piece, and
/// the one between what these two are sewn to; the first alone where that is one piece.
fn round_corner(reach: &Reach, stretch: StretchId, at_end: bool) -> Option<Vec<usize>> {
    let (beside, met_at_end) = reach.beyond(stretch, at_end);
    let host = reach.gluing.partner(beside)?;
    let mut seams = vec![reach.seam(beside)?];
    let (on_host, host_at_end) = reach.beyond(host.stretch, met_at_end == host.same_way);
    let own = reach.gluing.partner(stretch)?;
    if on_host == own.stretch {
        return Some(seams);
    }
    let across = reach.gluing.partner(on_host)?;
    seams.push(reach.seam(on_host)?);
    let (last, _) = reach.beyond(across.stretch, host_at_end == across.same_way);
    (last == own.stretch).then_some(seams)
}
