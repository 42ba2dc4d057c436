//! `place/in-hem`: what is stitched down where a hem or a casing comes to lie behind it.

use super::{Steps, put};
use crate::check::finish_room::covers;
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Finish, FinishKind, Garment};
use crate::report::{Diagnostic, Finding, Title, amount, at_least, catalogue};
use crate::resolve::DrawnEdge;
use crate::sewing::SewnPart;
use crate::sewing::patches::{Patch, covered};
use crate::shape::outline::Region;
use crate::shape::path::Path;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_IN_HEM], run: Run::PerSize(run) };

/// Nearer to the hem's row than this is beside it, in millimetres: less than the thickness of the folds.
const SLACK: f64 = 1.0;
/// Places along a row are looked at so far apart, in millimetres.
const APART: f64 = 5.0;
/// The most places that are looked at on one row.
const MOST_PLACES: usize = 200;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    if size.drawn.placed.is_empty() {
        return;
    }
    let mut order: Option<Option<Steps>> = None;
    for patch in Patch::all(garment, &size.drawn) {
        let parts = &size.sewn.parts;
        let is_host = |part: &&SewnPart| {
            let layer = patch.placement.on_layer.or(patch.placement.layer);
            part.part.paper == patch.placed.on
                && !part.fused
                && layer.is_none_or(|layer| layer == part.part.layer)
                && patch.placement.hand.is_none_or(|hand| part.hand.is_none_or(|own| own == hand))
        };
        let Some(host) = parts.iter().find(is_host) else { continue };
        for (edge, cover) in patch.host.edges.iter().zip(covers(garment, &size.drawn, host)) {
            let Some(cover) = cover.filter(|cover| is_turned(cover.finish)) else { continue };
            // What lies over the slit itself is told so.
            let slit = garment.edge(edge.edge).side_of;
            let mut slits = patch.host.uncut().slits.iter();
            if slits.any(|own| Some(own.name) == slit && covered(&patch, own) > garment.tolerance) {
                continue;
            }
            let Some(over) = reaches(&patch, edge, cover.depth) else { continue };
            let order = order.get_or_insert_with(|| Steps::of(garment, size));
            let is_channel = matches!(cover.finish.kind, FinishKind::Casing(..) | FinishKind::Elastic(..));
            let is_hemmed = order.as_ref().is_some_and(|order| {
                let hemmed = order.finished(cover.finish, edge.edge, host.part.layer);
                order.placed(patch.id).zip(hemmed).is_some_and(|(placed, hemmed)| hemmed < placed)
            });
            // What is turned before is sewn through as it lies.
            if is_channel || !is_hemmed {
                findings.push(finding(garment, size, &patch, edge, (cover.finish, cover.depth), over));
            }
        }
    }
}

fn is_turned(finish: &Finish) -> bool {
    matches!(finish.kind, FinishKind::Hem(_) | FinishKind::Casing(..) | FinishKind::Elastic(..))
}

fn places(path: &Path) -> impl Iterator<Item = crate::shape::Point> + '_ {
    let length = path.length();
    let count = if length.is_finite() { ((length / APART).ceil() as usize).clamp(1, MOST_PLACES) } else { 0 };
    (0..=count).map(move |at| path.point_at_length(length * at as f64 / count.max(1) as f64))
}

/// How far the stitching reaches into what is turned at an edge, in millimetres. None where it does not; nor
/// where an edge that stays open lies along that edge: it is turned together with it; nor where it reaches past the
/// edge, which is told by itself.
fn reaches(patch: &Patch, edge: &DrawnEdge, depth: f64) -> Option<f64> {
    // Most of what is placed lies far from the edge.
    let bounds = edge.path.bounding_box().inflate(depth, depth);
    let is_near = |path: &Path| {
        let own = path.bounding_box();
        own.x0 <= bounds.x1 && bounds.x0 <= own.x1 && own.y0 <= bounds.y1 && bounds.y0 <= own.y1
    };
    if !patch.rows.iter().any(|(_, path)| is_near(path)) {
        return None;
    }
    let far = |path: &Path| places(path).map(|at| edge.path.nearest(at).distance).fold(0.0, f64::max);
    if patch.open.iter().any(|(_, path)| far(path) <= SLACK) {
        return None;
    }
    let ring: Vec<Path> = patch.host.edges.iter().map(|edge| edge.path.clone()).collect();
    let region = Region::of(&ring);
    let mut least = f64::INFINITY;
    for at in patch.rows.iter().flat_map(|(_, path)| places(path)) {
        let distance = edge.path.nearest(at).distance;
        if (SLACK..depth).contains(&distance) && !region.contains(at) {
            return None;
        }
        least = least.min(distance);
    }
    (depth - least > SLACK).then_some(depth - least)
}

fn finding(
    garment: &Garment,
    size: &WorkedSize,
    patch: &Patch,
    edge: &DrawnEdge,
    (finish, depth): (&Finish, f64),
    over: f64,
) -> Finding {
    let unit = garment.unit;
    let own = words::piece(garment, patch.placement.piece);
    let (of, by) = (words::edge(garment, edge.edge), amount(over, unit));
    let is_hem = matches!(finish.kind, FinishKind::Hem(_));
    let (what, why) = match is_hem {
        true => ("hem", ", which is turned up behind it later"),
        false => ("channel", ", which its stitching shuts"),
    };
    let title = Title::new(format!("{own} reaches {by} into the {what} at {of}")).in_sizes().then(why);
    let mut help = format!("move it {} away from that edge, or make it shorter", at_least(over, unit));
    if is_hem {
        let name = format!("{}.{}", garment.piece(patch.host.piece).name, garment.edge(edge.edge).name);
        help +=
            &format!("; or, if it is to be sewn through the hem, hem {name} in a step before it is placed");
    }
    let warning = Diagnostic::new(&catalogue::PLACE_IN_HEM, put(patch), title)
        .label(format!("{} from the edge", amount(depth - over, unit)))
        .also(finish.kind_span, format!("{} deep", amount(depth, unit)))
        .help(help);
    Finding::new(size.id(), over, warning).about(format!("{own} {of}")).figure("too far by", by)
}
