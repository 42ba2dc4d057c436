//! `place/in-tube`: a patch that is stitched down all round on a sleeve or a leg that is closed already.

use crate::check::words;
use crate::report::{Diagnostic, amount, catalogue};
use crate::sewing::order::{Job, Reach, Rules, Schedule, When};
use crate::sewing::patches::Patch;
use crate::sewing::surface::FaceId;
use crate::shape::outline::extents;
use crate::shape::path::Path;
use crate::shape::{Point, crossing};

/// What is narrower than this round, in millimetres, does not lie flat under the machine, nor go round its arm (common practice:
/// trouser legs and sleeves).
const NARROW: f64 = 600.0;
/// What is stitched down along fewer edges than these can be come at from its open side.
const EDGES: usize = 3;

pub(super) fn slips_of_tubes(rules: &Rules, schedule: &Schedule, diagnostics: &mut Vec<Diagnostic>) {
    let (work, garment) = (rules.work, rules.work.garment);
    let Some(reach) = rules.reach.as_ref().filter(|_| !garment.placements.is_empty()) else { return };
    for patch in Patch::all(garment, work.sized) {
        let places = work.jobs.iter().filter(|job| matches!(job, Job::Place(id, _) if *id == patch.id));
        let Some(placed) = places.filter_map(|&job| schedule.when(job)).min() else { continue };
        if patch.rows.len() < EDGES {
            continue;
        }
        let hosts = reach.surface.face_ids().filter(|&face| {
            let part = reach.surface.face(face).part;
            work.finder.drawn(part).is_some_and(|drawn| std::ptr::eq(drawn, patch.host))
                && patch.on_layer().is_none_or(|on| on == reach.surface.face(face).layer)
        });
        let tube =
            hosts.filter_map(|face| closed(reach, schedule, &patch, face)).min_by_key(|(when, ..)| *when);
        let Some((closed, at, round)) = tube.filter(|(when, _, round)| *when < placed && *round < NARROW)
        else {
            continue;
        };
        let [own, host] =
            [patch.placement.piece, patch.placement.on].map(|piece| words::piece(garment, piece));
        let round = amount(round, garment.unit);
        let closing = work.doing(crate::sewing::order::Doing::Job(Job::Seam(at)));
        let title = format!("{own} is stitched onto {host} only after {closing}, in a tube {round} round");
        diagnostics.push(
            Diagnostic::new(&catalogue::PLACE_IN_TUBE, placed.span, title)
                .label("no longer lies flat")
                .also(closed.span, "closed to a tube here")
                .help(format!("place {own} in a step before {closing}, while {host} lies flat")),
        );
    }
}

/// The seam that closes a face to a tube at the height of what is placed on it, when it is sewn, and how wide the tube is round.
fn closed(reach: &Reach, schedule: &Schedule, patch: &Patch, face: FaceId) -> Option<(When, usize, f64)> {
    let middle = extents(&patch.outline)?.center();
    let across = patch.host.grain.turn_90();
    let outline = extents(&patch.host.outline().iter().map(|edge| edge.path.clone()).collect::<Vec<Path>>())?;
    let far = outline.width() + outline.height();
    let [left, right] =
        [across * far, across * -far].map(|way| flank(reach, patch, face, middle, middle + way));
    let (left, right) = (left?, right?);
    // Both sides lead to one piece, the back of the leg, or to one another, as those of a sleeve.
    // The gusset of a bag, sewn on round three sides by one seam, makes no tube of its front.
    let is_round = left.seam == right.seam && left.beyond != face;
    if left.beyond != right.beyond || is_round {
        return None;
    }
    let wide = left.away + right.away;
    let round = if left.beyond == face { wide } else { 2.0 * wide };
    let last = [left.seam, right.seam].map(|at| schedule.when(Job::Seam(at)).map(|when| (when, at)));
    let [Some(one), Some(other)] = last else { return None };
    let (when, at) = one.max(other);
    Some((when, at, round))
}

/// The edge of a piece beside what is placed on it.
struct Flank {
    /// Its seam.
    seam: usize,
    /// What that joins it to.
    beyond: FaceId,
    /// How far away it is, in millimetres.
    away: f64,
}

fn flank(reach: &Reach, patch: &Patch, face: FaceId, from: Point, to: Point) -> Option<Flank> {
    let way = Path::straight(from, to);
    let nearest = |path: &Path| crossing::meetings(&way, path).into_iter().next();
    let edges = patch.host.outline().iter().filter_map(|edge| Some((nearest(&edge.path)?, edge)));
    let (away, edge) = edges.min_by(|(one, _), (other, _)| one.total_cmp(other))?;
    let sides = reach.surface.sides_of(face).filter(|&side| {
        let side = reach.surface.side(side);
        !side.fold && patch.host.edge_at(side.edge).is_some_and(|own| std::ptr::eq(own, edge))
    });
    let stretches = sides.flat_map(|side| reach.surface.stretches_on(side));
    let sewn = stretches.filter_map(|stretch| {
        let (partner, _) = reach.partner(stretch, false)?;
        Some((reach.surface.length(stretch), reach.seam(stretch)?, reach.surface.face_of(partner)))
    });
    let (_, seam, beyond) = sewn.max_by(|(one, ..), (other, ..)| one.total_cmp(other))?;
    Some(Flank { seam, beyond, away })
}
