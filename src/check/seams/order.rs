//! `seam/order`: joints, notches and caught edges that change places along a seam from one size to
//! another.

use super::runs::{corner_of, point_name};
use crate::check::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Garment, PlacementId, Seam};
use crate::id_hash::{IdIndexMap, IdMap};
use crate::report::{Diagnostic, catalogue};
use crate::sewing::surface::{FaceId, JoinedBy, PlyAt};
use crate::sewing::{SewnPly, SewnSeam, seam_edges};
use crate::source::Span;

pub(in crate::check) static CHECK: Check =
    Check { kinds: &[&catalogue::SEAM_ORDER], run: Run::OverSizes(run) };

/// Marks nearer to each other than this are one, in millimetres, where the tolerance is less.
const ONE_MARK: f64 = 0.5;

/// A mark along a seam; the same in every size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Mark {
    /// Where two edges of a ply meet: of the second side or the first, which ply, after which edge.
    Joint { second: bool, ply: usize, after: usize },
    /// A notch, where it is said; of several from one line, which.
    Notch(Span, usize),
    /// Where a caught edge begins or ends; of several, which.
    Caught { placement: PlacementId, ends: bool, nth: usize },
}

/// How far along the seam's first ply each mark lies.
type Marks = IdIndexMap<Mark, f64>;

fn run(garment: &Garment, sizes: &[WorkedSize], diagnostics: &mut Vec<Diagnostic>) {
    let Some((first, others)) = sizes.split_first().filter(|(_, others)| !others.is_empty()) else { return };
    let caught: Vec<_> = sizes.iter().map(caught).collect();
    let Some((first_caught, others_caught)) = caught.split_first() else { return };
    let mut last = None;
    for (at, sewn) in first.sewn.seams.iter().enumerate() {
        if last == Some(sewn.seam) || !sewn.known {
            continue;
        }
        let own = marks(sewn, at, first_caught);
        if own.len() < 2 {
            continue;
        }
        let tolerance = garment.tolerance.max(ONE_MARK);
        let found = others.iter().zip(others_caught).find_map(|(other, caught)| {
            let same = other
                .sewn
                .seams
                .get(at)
                .filter(|same| same.known && same.seam == sewn.seam && same.layers == sewn.layers)?;
            Some((other, changed(&own, &marks(same, at, caught), tolerance)?))
        });
        if let Some((other, pair)) = found {
            last = Some(sewn.seam);
            diagnostics.push(reported(garment, [first, other], sewn, pair));
        }
    }
}

/// All marks of a seam in one size.
fn marks(sewn: &SewnSeam, at: usize, caught: &IdMap<usize, Vec<(Mark, f64)>>) -> Marks {
    let mut found = Marks::default();
    let length = |plies: &[SewnPly]| plies.first().map_or(0.0, |ply| ply.length);
    let whole = [length(&sewn.first.plies), length(&sewn.second.plies)];
    for (second, plies) in [(false, &sewn.first.plies), (true, &sewn.second.plies)] {
        for (place, ply) in plies.iter().enumerate() {
            let mut station = 0.0;
            for (after, run) in ply.runs.iter().enumerate().take(ply.runs.len().saturating_sub(1)) {
                station += run.length;
                let share = station / ply.length;
                let along = if second { onto_first(sewn, share * whole[1]) } else { share * whole[0] };
                found.insert(Mark::Joint { second, ply: place, after }, along);
            }
        }
    }
    for notch in &sewn.said_notches {
        let nth = found.keys().filter(|mark| matches!(mark, Mark::Notch(span, _) if *span == notch.span));
        found.insert(Mark::Notch(notch.span, nth.count()), notch.at);
    }
    found.extend(caught.get(&at).into_iter().flatten().copied());
    found.retain(|_, along| along.is_finite());
    found
}

/// The place on the first side of one on the second.
fn onto_first(sewn: &SewnSeam, at: f64) -> f64 {
    let within = sewn.stretches.iter().find(|stretch| at <= stretch.second.1).or(sewn.stretches.last());
    let Some(stretch) = within else { return f64::NAN };
    let long = stretch.second.1 - stretch.second.0;
    let share = if long > 0.0 { (at - stretch.second.0) / long } else { 0.0 };
    stretch.first.0 + share * (stretch.first.1 - stretch.first.0)
}

/// Where edges that seams catch begin and end, the first time that each is sewn: by the seam's place.
fn caught(size: &WorkedSize) -> IdMap<usize, Vec<(Mark, f64)>> {
    let mut found: IdMap<usize, Vec<(Mark, f64)>> = IdMap::default();
    let Some(surface) = size.sewn.surface.as_ref().filter(|surface| !surface.placings.is_empty()) else {
        return found;
    };
    let placements: IdMap<FaceId, PlacementId> =
        surface.placings.iter().map(|placing| (placing.placed, placing.placement)).collect();
    let (mut seam, mut along, mut open): (Option<usize>, f64, Vec<PlacementId>) = (None, 0.0, Vec::new());
    for join in &surface.joins {
        let JoinedBy::Seam { sewn, sewing: 0, .. } = join.by else { continue };
        if seam != Some(sewn) {
            (seam, along, open) = (Some(sewn), 0.0, Vec::new());
        }
        let plies = join.plies.iter().filter(|ply| ply.at == PlyAt::Caught);
        let now: Vec<PlacementId> =
            plies.filter_map(|ply| placements.get(&surface.face_of(ply.stretch)).copied()).collect();
        let begun = now.iter().filter(|placement| !open.contains(placement)).map(|one| (*one, false));
        let ended = open.iter().filter(|placement| !now.contains(placement)).map(|one| (*one, true));
        for (placement, ends) in ended.chain(begun) {
            let own = found.entry(sewn).or_default();
            let is_same = |mark: &Mark| matches!(mark, Mark::Caught { placement: one, ends: end, .. } if (*one, *end) == (placement, ends));
            let nth = own.iter().filter(|(mark, _)| is_same(mark)).count();
            own.push((Mark::Caught { placement, ends, nth }, along));
        }
        open = now;
        let first = join.plies.iter().find(|ply| ply.at == PlyAt::First(0));
        along += first.map_or(0.0, |ply| surface.length(ply.stretch));
    }
    found
}

/// Two marks of which the one comes first in one size, and the other in the other.
fn changed(one: &Marks, other: &Marks, tolerance: f64) -> Option<[Mark; 2]> {
    let mut both: Vec<(f64, f64, Mark)> =
        one.iter().filter_map(|(mark, along)| Some((*along, *other.get(mark)?, *mark))).collect();
    both.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Of all that lie clearly before a mark, the one that lies farthest in the other size.
    let mut farthest: Option<(f64, Mark)> = None;
    let mut before = both.iter().peekable();
    for &(along, there, mark) in &both {
        while let Some(&(_, there, earlier)) = before.next_if(|(earlier, ..)| along - earlier > tolerance) {
            if farthest.is_none_or(|(far, _)| there > far) {
                farthest = Some((there, earlier));
            }
        }
        if let Some((_, earlier)) = farthest.filter(|(far, _)| far - there > tolerance) {
            return Some([earlier, mark]);
        }
    }
    None
}

fn reported(garment: &Garment, sizes: [&WorkedSize; 2], sewn: &SewnSeam, marks: [Mark; 2]) -> Diagnostic {
    let seam = garment.seam(sewn.seam);
    let names = marks.map(|mark| mark_word(garment, sizes[0], sewn, mark));
    let spans = marks.map(|mark| mark_span(garment, sizes[0], seam, sewn, mark));
    let size = sizes.map(|size| garment.size(size.drawn.size).name.to_string());
    let title = format!(
        "along {} {} comes before {} in {}, and after it in {}",
        seam.words(),
        names[0],
        names[1],
        size[0],
        size[1]
    );
    let mut warning = Diagnostic::new(&catalogue::SEAM_ORDER, spans[1].unwrap_or(seam.name_span), title)
        .label(names[1].clone())
        .also(spans[0].unwrap_or(seam.name_span), names[0].clone())
        .help(
            "let both grow alike from size to size, so that the same pieces meet in all of them; or measure the \
             notch from the other end",
        );
    warning.sizes = size.to_vec();
    warning
}

fn mark_word(garment: &Garment, size: &WorkedSize, sewn: &SewnSeam, mark: Mark) -> String {
    match mark {
        Mark::Notch(..) => "the notch".to_owned(),
        Mark::Caught { placement, ends, .. } => {
            let piece = words::piece(garment, garment.placement(placement).piece);
            format!("the {} of {piece}", if ends { "end" } else { "beginning" })
        }
        Mark::Joint { second, ply, after } => {
            let plies = if second { &sewn.second.plies } else { &sewn.first.plies };
            let run = plies.get(ply).and_then(|ply| ply.runs.get(after));
            let name = run.and_then(|run| {
                let name = point_name(garment, &corner_of(size, run, true)?)?;
                let piece = garment.piece(size.sewn.part(run.part).part.piece);
                Some(format!("{}.{name}", piece.name))
            });
            name.map_or_else(|| "a joint".to_owned(), |name| format!("the joint at {name}"))
        }
    }
}

fn mark_span(garment: &Garment, size: &WorkedSize, seam: &Seam, sewn: &SewnSeam, mark: Mark) -> Option<Span> {
    match mark {
        Mark::Notch(span, _) => Some(span),
        Mark::Caught { placement, .. } => Some(garment.placement(placement).span),
        Mark::Joint { second, ply, after } => {
            let plies = if second { &sewn.second.plies } else { &sewn.first.plies };
            let run = plies.get(ply)?.runs.get(after)?;
            let edge = super::runs::drawn(size, run)?.edge_at(run.edge)?.edge;
            seam_edges(seam).find(|named| garment.is_run_of(edge, named.edge)).map(|named| named.span)
        }
    }
}
