//! `place/not-caught`: an edge that is to be caught in a seam must lie on it.

use super::surface::crossed_seams;
use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, Caught, CutHow, Garment, LayerId, Placement};
use crate::report::{Diagnostic, Finding, Title, amount, catalogue};
use crate::resolve::{PlacedPiece, SizedGarment};
use crate::sewing::{SewnPart, TakenBy};
use crate::shape::fold;
use crate::shape::path::Path;
use crate::source::Span;

pub(super) static CHECK: Check = Check { kinds: &[&catalogue::PLACE_NOT_CAUGHT], run: Run::PerSize(run) };

/// Places along the caught edge are looked at so far apart, in millimetres.
const APART: f64 = 5.0;
/// A placed piece lies across the middle when its mirror image lies on it within this, in millimetres.
const IN_THE_MIDDLE: f64 = 2.0;
/// The most places that are looked at on one edge.
const MOST_PLACES: usize = 400;

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let sized = &size.drawn;
    let layers = size.finder(garment).layers;
    for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
        let Some(placed) = placed.as_ref().filter(|_| !placement.poisoned) else { continue };
        for caught in &placement.caught {
            let paths = placed.edges.iter().filter(|(edge, _)| garment.is_run_of(*edge, caught.edge));
            let paths: Vec<&Path> = paths.map(|(_, path)| path).collect();
            if paths.is_empty() || is_poisoned(garment, caught.by) {
                continue;
            }
            // One layer in which it is not caught is enough to tell of.
            let mut own = layers.meant(placement.layer, placement.piece).into_iter();
            findings.extend(own.find_map(|own| {
                let is_there = |part: &&SewnPart| !part.fused && part.part.paper == placed.on;
                let hosts: Vec<&SewnPart> = size.sewn.parts.iter().filter(is_there).collect();
                let has = |layer| hosts.iter().any(|part| part.part.layer == layer);
                let layer = layers.of_host(placement, own, has)?;
                let catching =
                    |part: &&&SewnPart| !catching_edges(garment, sized, part, placed, caught.by).is_empty();
                let host = hosts.iter().find(|part| part.part.layer == layer)?;
                let edges = catching_edges(garment, sized, host, placed, caught.by);
                if edges.is_empty() {
                    let other = hosts.iter().find(catching).map(|part| part.part.layer);
                    return elsewhere(garment, size, placement, caught, layer, other);
                }
                let away = paths.iter().map(|path| farthest(path, &edges)).fold(0.0, f64::max);
                (away.is_finite() && away > garment.tolerance)
                    .then(|| away_from_it(garment, sized, placement, caught, away))
            }));
        }
    }
}

fn is_poisoned(garment: &Garment, by: Catcher) -> bool {
    match by {
        Catcher::Seam(id) => garment.seam(id).poisoned,
        Catcher::Closure(id) => garment.closure(id).kind.is_none(),
    }
}

/// The edges of the host that the seam or closure takes; of a half on the fold those of both halves, if
/// what is placed lies across the middle.
fn catching_edges(
    garment: &Garment,
    sized: &SizedGarment,
    host: &SewnPart,
    placed: &PlacedPiece,
    by: Catcher,
) -> Vec<Path> {
    let Some(drawn) = sized.paper(host.part.paper) else { return Vec::new() };
    let catches = |what: TakenBy| match (what, by) {
        (TakenBy::Seam(seam, _), Catcher::Seam(by)) => seam == by,
        (TakenBy::Closure(closure), Catcher::Closure(by)) => closure == by,
        _ => false,
    };
    let fates = drawn.edges.iter().zip(&host.edges);
    let caught = fates.filter(|(_, fate)| fate.takers.iter().any(|taker| catches(taker.what)));
    let mut paths: Vec<Path> = caught.map(|(edge, _)| edge.path.clone()).collect();
    if let CutHow::OnFold(fold) = drawn.cut
        && let Some(fold) = drawn.edges.iter().find(|edge| garment.is_run_of(edge.edge, fold))
        && let Ok(mirror) = fold::mirror_across(&fold.path)
        && placed.edges.iter().all(|(_, path)| {
            let there = mirror * path.start();
            placed.edges.iter().any(|(_, path)| path.nearest(there).distance <= IN_THE_MIDDLE)
        })
    {
        let other: Vec<Path> = paths.iter().map(|path| path.transform(mirror)).collect();
        paths.extend(other);
    }
    paths
}

/// How far from all of those edges the path comes.
fn farthest(path: &Path, edges: &[Path]) -> f64 {
    let length = path.length();
    if !length.is_finite() {
        return 0.0;
    }
    let count = ((length / APART).ceil() as usize).clamp(1, MOST_PLACES);
    let places = (0..=count).map(|at| path.point_at_length(length * at as f64 / count as f64));
    let distance =
        |point| edges.iter().map(|edge| edge.nearest(point).distance).fold(f64::INFINITY, f64::min);
    places.map(distance).fold(0.0, f64::max)
}

fn catcher_words(garment: &Garment, by: Catcher) -> (String, Span) {
    match by {
        Catcher::Seam(id) => (garment.seam(id).name.to_string(), garment.seam(id).name_span),
        Catcher::Closure(id) => (garment.closure(id).name.to_string(), garment.closure(id).name_span),
    }
}

fn away_from_it(
    garment: &Garment,
    sized: &SizedGarment,
    placement: &Placement,
    caught: &Caught,
    away: f64,
) -> Finding {
    let by = amount(away, garment.unit);
    let (catcher, catcher_span) = catcher_words(garment, caught.by);
    let edge = words::edge(garment, caught.edge);
    let title = Title::new(format!("{edge} does not reach {catcher}, which is to catch it: it is {by} away"))
        .in_sizes();
    let mut mistake = Diagnostic::new(&catalogue::PLACE_NOT_CAUGHT, caught.span, title)
        .label(format!("{by} from {catcher}"))
        .also(catcher_span, "is to catch it");
    let name = &garment.edge(caught.edge).name;
    let kept = kept(garment, placement);
    mistake = match kept {
        Some((mark, span, from)) => mistake.also(span, "kept in its place here").help(format!(
            "topstitch {name} instead; or let it move with the cloth: leave {from}.{mark} out of keeping"
        )),
        None => mistake.help(format!("move it by {by}, onto {catcher}; or topstitch {name} instead")),
    };
    Finding::new(sized.size, away, mistake)
        .about(format!("{edge} {}", placement.on.index()))
        .figure("away", by)
}

/// The seam takes no edge of what it lies on; perhaps of the same piece in another layer.
fn elsewhere(
    garment: &Garment,
    size: &WorkedSize,
    placement: &Placement,
    caught: &Caught,
    layer: LayerId,
    other: Option<LayerId>,
) -> Option<Finding> {
    if let Catcher::Seam(seam) = caught.by
        && crossed_seams(garment, &size.sewn).contains(&seam)
    {
        // Sewn to the right layer it catches it: that is told.
        return None;
    }
    let (catcher, catcher_span) = catcher_words(garment, caught.by);
    let (edge, on) = (words::edge(garment, caught.edge), words::piece(garment, placement.on));
    let own_edge = &garment.edge(caught.edge).name;
    let (title, label, placed, help) = match other {
        Some(other) => {
            let (layer, other) = (&garment.layer(layer).name, &garment.layer(other).name);
            let piece = &garment.piece(placement.piece).name;
            let host = &garment.piece(placement.on).name;
            (
                format!(
                    "{catcher} takes {on} in {other}, and {} lies on {on} in {layer}: it cannot catch {edge}",
                    words::piece(garment, placement.piece)
                ),
                format!("{catcher} is in {other}"),
                format!("placed on {on} in {layer}"),
                format!(
                    "name the seam of {layer}.{host} that it lies on; or place it there: place {piece} on {other}.{host}"
                ),
            )
        }
        None => (
            format!("{catcher} takes no edge of {on}, and so cannot catch {edge}"),
            format!("{catcher} is elsewhere"),
            format!("placed on {on}"),
            format!("name the seam on {on} that it lies on, or topstitch {own_edge}"),
        ),
    };
    let mistake = Diagnostic::new(&catalogue::PLACE_NOT_CAUGHT, caught.span, title)
        .label(label)
        .also(catcher_span, "sewn here")
        .also(placement.span, placed)
        .help(help);
    Some(Finding::new(size.drawn.size, 0.0, mistake).about(edge))
}

/// The mark of this placement that an alteration keeps where it was: its name, where that is said,
/// and the piece.
fn kept(garment: &Garment, placement: &Placement) -> Option<(String, Span, String)> {
    let keeping = garment.alterations.iter().rev().flat_map(|alteration| &alteration.keeping);
    let mut marks = keeping.filter(|(point, _)| {
        let same = |at| garment.is_point_of(*point, at) || garment.is_point_of(at, *point);
        placement.corners.iter().any(|corner| same(corner.at))
    });
    let (point, span) = marks.next()?;
    let piece = garment.point(*point).piece;
    Some((garment.point(*point).name.to_string(), *span, garment.piece(piece).name.to_string()))
}
