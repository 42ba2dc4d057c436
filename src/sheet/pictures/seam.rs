//! A seam: which edges are sewn, how they lie under the needle, or rolled out where lengths differ.

use super::canvas::{Caption, Mark, Panel, polygon};
use super::closing::TEETH;
use super::clusters::hanging;
use super::fit::{centroid, contains, farthest, left_of, rigid};
use super::ink::Stroke;
use super::laid::{Laid, Shown};
use super::layout::Layout;
use super::making::Making;
use super::plies::{Once, Ply, PlyRun};
use super::rolled;
use crate::sewing::SewnSeam;
use crate::sewing::surface::FaceId;
use crate::shape::path::Path;
use crate::shape::{Affine, Point};
use crate::sheet::points::{are_signed, meeting_points};
use crate::syntax::tree::{FitKind, SeamKind};

/// Pieces whose edges lie no farther off one another, once they lie on one another, are shown under the needle, in
/// millimetres.
const UNDER_NEEDLE: f64 = 15.0;
/// What lies on something else with more than this share of its outline would hide it.
const LIES_ON: f64 = 0.15;
/// A seam of more runs on one side is rolled out.
const MOST_RUNS: usize = 2;
/// A side that is shorter than this share of the other is stretched or gathered, which only a seam rolled out shows.
const LIKE_LENGTHS: f64 = 0.94;
/// So many times a seam is shown in one picture at most.
const MOST_TIMES: usize = 2;
/// A longer thread, as a share of how large the scene is, would only be in the way.
const LONGEST_THREAD: f64 = 0.42;
/// A seam of more pieces is shown rolled out alone, where it is rolled out.
const FEW_FACES: usize = 4;
/// A seam that is shorter than this share of its scene is hardly seen in it.
const SHORT: f64 = 0.06;

/// What is sewn in one step: a seam, with its letter.
pub struct Sewn {
    /// Its place among the sewn seams.
    pub at: usize,
    /// Its letter.
    pub letter: String,
}

/// The scenes of seams that are sewn in one step. `stroke`: how the edges that are sewn now are drawn.
pub fn panels(making: &Making, seams: &[Sewn], step: usize, stroke: Stroke) -> Vec<Panel> {
    let mut all: Vec<(Once, &str)> = Vec::new();
    let mut times = 0;
    for seam in seams {
        let own = Once::all(making, seam.at);
        times = times.max(own.len());
        // Of what is done many times one is enough; of a left and a right one both are shown.
        let shown = if own.len() > MOST_TIMES { 1 } else { own.len() };
        all.extend(own.into_iter().take(shown).map(|once| (once, seam.letter.as_str())));
    }
    if all.is_empty() {
        return Vec::new();
    }
    let once: Vec<Once> = all.iter().map(|(once, _)| once.clone()).collect();
    let mut panels = Vec::new();
    let layout = Layout::of(making, &once, step, true);
    let needle = under_the_needle(making, &all, step, stroke);
    let is_rolled = once.iter().any(|once| wants_rolling(making, once)) || (!layout.fits && needle.is_none());
    let is_muddled =
        layout.overlaps(making) || (is_rolled && once.iter().any(|once| once.faces().len() > FEW_FACES));
    let is_muddled = is_muddled || (is_rolled && once.iter().any(|once| is_crossed(making, &layout, once)));
    let layout = if is_muddled { Layout::apart(making, &once) } else { layout };
    if !is_muddled || !is_rolled {
        panels.push(which_edges(making, &layout, &all, step, stroke, times));
    }
    // What is too short to be seen beside its pieces is shown rolled out too, at a scale of its own.
    let size = panels.first().and_then(Panel::bounds).map_or(0.0, |own| own.width().max(own.height()));
    let is_short = once.iter().all(|once| once.sewn_plies().all(|ply| ply.length < SHORT * size));
    if let Some(needle) = needle {
        panels.push(needle);
    } else if is_rolled || is_short {
        let rolled = all.iter().find_map(|(once, letter)| rolled::panel(making, once, letter, step, stroke));
        panels.extend(rolled.map(|panel| Panel { large: is_short, ..panel }));
    }
    if panels.len() == 1 {
        panels
            .iter_mut()
            .for_each(|panel| panel.caption = panel.caption.filter(|own| *own != Caption::WhichEdges));
    }
    panels
}

/// Whether a seam shows better rolled out straight: it goes round, has many runs or more than two plies, or is stretched
/// or gathered.
pub fn wants_rolling(making: &Making, once: &Once) -> bool {
    let Some(sewn) = once.sewn.and_then(|at| making.size.sewn.seams.get(at)) else { return false };
    let plies: Vec<&Ply> = once.sewn_plies().collect();
    let many = plies.iter().any(|ply| ply.rows().len() > MOST_RUNS);
    many || plies.len() > 2 || sewn.ring || is_fitted(sewn, once)
}

/// Whether threads between points that meet cross: the work lies in another order than what is sewn to it.
fn is_crossed(making: &Making, layout: &Layout, once: &Once) -> bool {
    let (Some(first), Some(second)) = (once.side(false), once.side(true)) else { return false };
    let Some(sewn) = once.sewn.and_then(|at| making.size.sewn.seams.get(at)) else { return false };
    let points = meeting_points(making.garment, making.size, sewn);
    let threads: Vec<(Point, Point)> = points
        .iter()
        .filter_map(|point| {
            let [one, other] = point.on;
            Some((layout.point(making, first, one)?, layout.point(making, second, other)?))
        })
        .collect();
    let side = |(from, to): (Point, Point), at: Point| (to - from).cross(at - from);
    let cross = |one: (Point, Point), other: (Point, Point)| {
        side(one, other.0) * side(one, other.1) < -1.0 && side(other, one.0) * side(other, one.1) < -1.0
    };
    threads.iter().enumerate().any(|(at, one)| threads.iter().skip(at + 1).any(|other| cross(*one, *other)))
}

fn is_fitted(sewn: &SewnSeam, once: &Once) -> bool {
    let kind = sewn.fit.map(|fit| fit.kind);
    let (Some(first), Some(second)) = (once.side(false), once.side(true)) else { return false };
    let (short, long) = (first.length.min(second.length), first.length.max(second.length));
    matches!(kind, Some(FitKind::Stretching | FitKind::Gathering)) && short < LIKE_LENGTHS * long
}

/// The pieces apart, right sides up, with the edges that are sewn marked and threads between what meets.
fn which_edges(
    making: &Making,
    layout: &Layout,
    all: &[(Once, &str)],
    step: usize,
    stroke: Stroke,
    times: usize,
) -> Panel {
    let mut panel = Panel::of(Caption::WhichEdges);
    layout.draw(making, &mut panel, step);
    let size = panel.bounds().map_or(0.0, |own| own.width().max(own.height()));
    for (once, _) in all {
        threads(making, layout, once, LONGEST_THREAD * size, &mut panel);
    }
    for (once, letter) in all {
        enclosed(making, layout, once, TEETH * size, &mut panel);
        edges(making, layout, once, letter, stroke, &mut panel);
    }
    if times > MOST_TIMES
        && let Some(bounds) = panel.bounds()
    {
        panel.marks.push(Mark::Words(Point::new(bounds.x1, bounds.y1), format!("{times} ×")));
    }
    panel
}

/// A zip that a seam takes in, on the edge that it is basted to.
fn enclosed(making: &Making, layout: &Layout, once: &Once, teeth: f64, panel: &mut Panel) {
    let Some(sewn) = once.sewn.and_then(|at| making.size.sewn.seams.get(at)) else { return };
    for &(closure, _) in &making.garment.seam(sewn.seam).enclosing {
        let lines = making.surface.closures.iter().filter(|line| line.closure == closure);
        let stretches: Vec<_> =
            lines.flat_map(|line| line.sides.iter().flatten()).map(|(stretch, _)| *stretch).collect();
        for run in once.plies.iter().flat_map(|ply| &ply.runs).filter(|run| stretches.contains(&run.stretch))
        {
            if let Some(laid) = layout.of_face(run.face) {
                super::closing::half_zip(making, laid, run, teeth, panel);
            }
        }
    }
}

/// Marks the edges that are sewn now, on every ply, with one letter each; a gap lies between two bars.
pub fn edges(making: &Making, layout: &Layout, once: &Once, letter: &str, stroke: Stroke, panel: &mut Panel) {
    for ply in &once.plies {
        let mut longest: Option<Path> = None;
        for run in &ply.runs {
            let (Some(laid), Some((sewn, open))) = (layout.of_face(run.face), run.parted(making)) else {
                continue;
            };
            if let Some(open) = open {
                bars(panel, &laid.path(&open));
            }
            for path in sewn {
                let path = laid.path(&path);
                panel.line(path.to_bez(), stroke);
                if longest.as_ref().is_none_or(|own| path.length() > own.length() + 0.01) {
                    longest = Some(path);
                }
            }
            also_folded(making, laid, run, stroke, panel);
        }
        if let Some(path) = longest {
            panel.tag_line(&path, letter);
        }
    }
}

/// The other edge of what is folded with both its edges in the seam.
fn also_folded(making: &Making, laid: &Laid, run: &PlyRun, stroke: Stroke, panel: &mut Panel) {
    let Some(flat) = making.flat(run.face).filter(|flat| flat.flap) else { return };
    let side = making.surface.side_of(run.stretch);
    let Some(own) = flat.drawn.edge_at(side.edge).map(|edge| edge.edge) else { return };
    let garment = making.garment;
    let is = |edge, of| garment.is_run_of(edge, of) || garment.is_run_of(of, edge);
    for over in &garment.piece(flat.drawn.piece).folds {
        let other = if is(own, over.edge) {
            over.onto
        } else if is(own, over.onto) {
            over.edge
        } else {
            continue;
        };
        for edge in &flat.edges {
            let named = flat.drawn.edge_at(edge.edge).map(|edge| edge.edge);
            if edge.mirrored == side.mirrored && named.is_some_and(|named| is(named, other)) {
                panel.line(laid.path(&edge.path).to_bez(), stroke);
            }
        }
    }
}

/// Bars at both ends of a gap.
pub fn bars(panel: &mut Panel, path: &Path) {
    panel.line(path.to_bez(), Stroke::Fold);
    for at in [0.0, path.length()] {
        panel.marks.push(Mark::Bar(path.point_at_length(at), path.tangent_at_length(at).unwrap_or_default()));
    }
}

/// Threads between points that meet, with their signs where there are more than the two ends.
fn threads(making: &Making, layout: &Layout, once: &Once, longest: f64, panel: &mut Panel) {
    let (Some(first), Some(second)) = (once.side(false), once.side(true)) else { return };
    let sewn = once.sewn.and_then(|at| making.size.sewn.seams.get(at));
    let points = sewn.map_or_else(Vec::new, |sewn| meeting_points(making.garment, making.size, sewn));
    let signed = are_signed(&points);
    let ends = [([0.0, 0.0], None), ([first.length, second.length], None)];
    let known: Vec<([f64; 2], Option<usize>)> = match points.is_empty() {
        true => ends.to_vec(),
        false => points.iter().map(|point| (point.on, point.sign.filter(|_| signed))).collect(),
    };
    for ([on_first, on_second], sign) in known {
        let (Some(from), Some(to)) =
            (layout.point(making, first, on_first), layout.point(making, second, on_second))
        else {
            continue;
        };
        if from.distance(to) > 1.0 && from.distance(to) < longest {
            panel.straight(from, to, Stroke::Thread);
        }
        for at in [from, to] {
            panel.marks.extend(sign.map(|sign| Mark::Sign(at, sign)));
        }
    }
}

/// How a seam is made, where not plainly.
fn kind_of(making: &Making, once: &Once) -> Option<SeamKind> {
    let sewn = making.size.sewn.seams.get(once.sewn?)?;
    making.garment.seam(sewn.seam).work.as_ref().map(|work| work.kind)
}

/// Whether a good part of what is laid on the work lies on what is laid there before.
fn lies_on(making: &Making, own: &Laid, other: &Laid) -> bool {
    let (ring, under) = (own.ring(making), other.ring(making));
    let middle = centroid(&ring);
    // On what only lies beside it no point lies that is a little way in.
    let within = ring.iter().filter(|at| contains(&under, at.lerp(middle, 0.1))).count();
    within as f64 > LIES_ON * ring.len() as f64
}

/// The pieces as they lie under the needle, right sides together, of a French seam first wrong sides together: only where their
/// edges then lie on one another.
fn under_the_needle(making: &Making, all: &[(Once, &str)], step: usize, stroke: Stroke) -> Option<Panel> {
    let kind = all.first().and_then(|(once, _)| kind_of(making, once));
    if kind == Some(SeamKind::Lapped) {
        return None;
    }
    let over = if kind == Some(SeamKind::French) { Affine::FLIP_X } else { Affine::IDENTITY };
    let mut work: Option<FaceId> = None;
    // What is laid on the work, with the places that come on one another.
    let mut added: Vec<(FaceId, Vec<(Point, Point)>)> = Vec::new();
    let mut shown: Vec<(&Once, &str)> = Vec::new();
    for (once, letter) in all {
        let [one, other] = once.sewn_plies().collect::<Vec<&Ply>>().try_into().ok()?;
        let (own, its) = (one.rows(), other.rows());
        let ([own], [its]) = (own.as_slice(), its.as_slice()) else { return None };
        let (own, its) = (own.0, its.0);
        if own == its {
            return if all.len() <= MOST_TIMES { folded(making, once, letter, step, stroke) } else { None };
        }
        let first_is_work = match work {
            Some(work) => work == own,
            None => {
                let is_larger = |face: FaceId| {
                    (making.is_joined(face, step), making.flat(face).map_or(0.0, |flat| flat.area()))
                };
                is_larger(own) > is_larger(its)
            }
        };
        let (base, top) = if first_is_work { (own, its) } else { (its, own) };
        if *work.get_or_insert(base) != base {
            continue;
        }
        let pairs = on_one_another(making, one, other);
        let pairs =
            pairs.into_iter().map(|(at, there)| if first_is_work { (there, at) } else { (at, there) });
        match added.iter_mut().find(|(face, _)| *face == top) {
            Some((_, known)) => known.extend(pairs),
            None => added.push((top, pairs.collect())),
        }
        shown.push((once, letter));
    }
    let work = work?;
    let mut panel = Panel::of(Caption::UnderTheNeedle);
    let mut layout = Layout::only(vec![Laid { face: work, by: over }]);
    for (face, pairs) in added {
        let (by, _) = rigid(&pairs, true)?;
        if farthest(&pairs, by) > UNDER_NEEDLE {
            return None;
        }
        let laid = Laid { face, by: over * by };
        // One side shows how, where both would lie on one another.
        match layout.laid.iter().skip(1).any(|other| lies_on(making, &laid, other)) {
            true => shown.retain(|(once, _)| !once.faces().contains(&face)),
            false => layout.laid.push(laid),
        }
    }
    for laid in &layout.laid {
        let joined = making.is_joined(laid.face, step) && laid.face == work;
        laid.draw(making, &mut panel, Shown { step, joined, labelled: laid.face != work });
    }
    let seams: Vec<&Once> = shown.iter().map(|(once, _)| *once).collect();
    for laid in layout.laid.iter().flat_map(|laid| hanging(making, laid, &seams, step)) {
        laid.draw(making, &mut panel, Shown { step, joined: true, labelled: true });
    }
    for (once, letter) in shown {
        edges(
            making,
            &layout,
            once,
            letter,
            if stroke == Stroke::Now { Stroke::Stitched } else { stroke },
            &mut panel,
        );
    }
    Some(panel)
}

/// Places of two plies that come on one another, each on its flat copy.
fn on_one_another(making: &Making, one: &Ply, other: &Ply) -> Vec<(Point, Point)> {
    let mut pairs = Vec::new();
    for own in &one.runs {
        for its in other.runs.iter().filter(|its| its.cell == own.cell) {
            let (Some(path), Some(there)) = (own.path(making), its.path(making)) else { continue };
            for nth in 0..=8 {
                let share = f64::from(nth) / 8.0;
                pairs.push((
                    path.point_at_length(share * path.length()),
                    there.point_at_length(share * there.length()),
                ));
            }
        }
    }
    pairs
}

/// A piece whose edges are sewn to one another, folded so that they lie on one another.
fn folded(making: &Making, once: &Once, letter: &str, step: usize, stroke: Stroke) -> Option<Panel> {
    let (first, second) = (once.side(false)?, once.side(true)?);
    let face = first.rows().first()?.0;
    let flat = making.flat(face)?;
    let pairs = on_one_another(making, first, second);
    let (by, _) = rigid(&pairs, true)?;
    if farthest(&pairs, by) > UNDER_NEEDLE {
        return None;
    }
    // What comes on its mirror image lies half way on the fold; the fold runs where the mirror leaves directions alone.
    let (at, there) = pairs.first()?;
    let middle = at.midpoint(by * *at);
    let [c, s, ..] = by.as_coeffs();
    let half = libm::atan2(s, c) / 2.0;
    let (sine, cosine) = libm::sincos(half);
    let along = crate::shape::Vec2::new(cosine, sine);
    // The half that the second side lies on stays; the other is folded over it.
    let stays = along.cross(*there - middle) > 0.0;
    let along = if stays { along } else { -along };
    let (below, above) = (left_of(&flat.ring, middle, along), left_of(&flat.ring, middle, -along));
    if below.len() < 3 || above.len() < 3 {
        return None;
    }
    let over: Vec<Point> = above.iter().map(|at| by * *at).collect();
    let mut panel = Panel::of(Caption::UnderTheNeedle);
    let joined = making.is_joined(face, step);
    let is_french = kind_of(making, once) == Some(SeamKind::French);
    for (ring, right) in [(&below, !is_french), (&over, is_french)] {
        panel.cloth(polygon(ring), making.cloth(flat.layer, right, joined && right));
        panel.line(polygon(ring), Stroke::Outline);
    }
    let (number, title) = making.called(flat.part);
    panel.labels.push(super::laid::label(&over, number, &title));
    let layout = Layout::only(vec![Laid { face, by: Affine::IDENTITY }]);
    let only = Once { sewn: once.sewn, plies: vec![second.clone()] };
    edges(
        making,
        &layout,
        &only,
        letter,
        if stroke == Stroke::Now { Stroke::Stitched } else { stroke },
        &mut panel,
    );
    Some(panel)
}

/// A seam whose edges are each sewn to themselves, across the fold of their piece: the edges marked, the fold between their
/// halves.
pub fn across_fold(
    making: &Making,
    stitching: usize,
    letter: &str,
    step: usize,
    stroke: Stroke,
) -> Option<Panel> {
    let places: Vec<_> = making.work.stitchings.get(stitching)?.places().copied().collect();
    let own = |face: &FaceId| {
        making.flat(*face).is_some_and(|flat| places.iter().any(|place| place.part == flat.part))
    };
    let faces: Vec<FaceId> = making.surface.face_ids().filter(own).take(MOST_TIMES).collect();
    let mut panel = Panel::default();
    for laid in super::placing::side_by_side(making, &faces) {
        let Some(flat) = making.flat(laid.face) else { continue };
        let joined = making.is_joined(laid.face, step);
        laid.draw(making, &mut panel, Shown { step, joined, labelled: true });
        let is_sewn = |edge: &super::flat::FlatEdge| {
            places.iter().any(|place| (place.part, place.edge) == (flat.part, edge.edge))
        };
        for edge in flat.edges.iter().filter(|edge| is_sewn(edge)) {
            let path = laid.path(&edge.path);
            panel.line(path.to_bez(), stroke);
            panel.tag_line(&path, letter);
        }
    }
    (!panel.is_empty()).then_some(panel)
}
