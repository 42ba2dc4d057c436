//! `place/count` and `place/shut`: as many copies of what is placed as there are places for it, and an
//! edge left open by which a hand gets in.

use super::{Check, Run, words};
use crate::cutting::WorkedSize;
use crate::garment::{Catcher, CutHow, EdgeId, Garment, LayerId, PieceId, Placement};
use crate::id_hash::{IdIndexMap, IdIndexSet};
use crate::report::{Diagnostic, Finding, Title, catalogue};
use crate::resolve::{DrawnPiece, PlacedPiece, SizedGarment};
use crate::sewing::{SewnPart, TakenBy};
use crate::shape::outline::{Region, is_on};
use crate::shape::path::Path;
use crate::shape::{Point, fold};

pub(super) static CHECK: Check =
    Check { kinds: &[&catalogue::PLACE_COUNT, &catalogue::PLACE_SHUT], run: Run::PerSize(run) };

/// A placed piece lies across the middle when its mirror image lies on it within this, in millimetres.
const IN_THE_MIDDLE: f64 = 2.0;
/// Places looked at on each edge.
const PLACES: usize = 8;

/// A placement and where it lies.
type OwnPlaces<'a> = (&'a Placement, Places);

fn run(garment: &Garment, size: &WorkedSize, findings: &mut Vec<Finding>) {
    let (sized, sewing) = (&size.drawn, &size.sewn);
    let layers = size.finder(garment).layers;
    let mut places: IdIndexMap<(LayerId, PieceId), Option<Vec<OwnPlaces>>> = IdIndexMap::default();
    for (placement, placed) in garment.placements.iter().zip(&sized.placed) {
        for layer in layers.meant(placement.layer, placement.piece) {
            let own = places.entry((layer, placement.piece)).or_insert_with(|| Some(Vec::new()));
            // Where one place is unknown, so is their number.
            let found = placed.as_ref().filter(|_| !placement.poisoned);
            let found = found.and_then(|placed| Places::of(garment, sized, layer, placement, placed));
            *own = match (own.take(), found) {
                (Some(mut all), Some(found)) => {
                    all.push((placement, found));
                    Some(all)
                }
                _ => None,
            };
        }
    }
    for ((layer, piece), all) in &places {
        let part = sewing.parts.iter().find(|part| part.part.layer == *layer && part.part.piece == *piece);
        let (Some(all), Some(part)) = (all, part) else { continue };
        let Some(Some(drawn)) = sized.papers.get(part.part.paper.index()) else { continue };
        findings.extend(count(garment, sized, *layer, drawn, all));
        findings.extend(all.first().and_then(|(placement, _)| shut(garment, sized, part, placement)));
    }
}

/// How often something is placed, and on what.
struct Places {
    count: u32,
    /// On both halves of what is cut on the fold.
    on_halves: bool,
    /// It is a half itself, and lies on the fold below it with another edge than its fold: its fold, and that edge.
    folded_away: Option<[EdgeId; 2]>,
}

impl Places {
    fn of(
        garment: &Garment,
        sized: &SizedGarment,
        layer: LayerId,
        placement: &Placement,
        placed: &PlacedPiece,
    ) -> Option<Places> {
        let host = sized.papers.get(placed.on.index())?.as_ref()?;
        let own = garment.paper_of(Some(layer), placement.piece)?;
        let own_fold = match sized.papers.get(own.index())?.as_ref()?.cut {
            CutHow::OnFold(fold) => {
                placed.edges.iter().find(|(edge, _)| garment.is_run_of(*edge, fold)).map(|(_, path)| path)
            }
            CutHow::Alike | CutHow::Mirrored => None,
        };
        if let (CutHow::Mirrored, Some(path)) = (host.cut, own_fold) {
            // Whole over a fold that was opened: that is reported by itself.
            let middle = path.point_at_length(path.length() / 2.0);
            if host.edges.iter().any(|edge| edge.path.nearest(middle).distance <= IN_THE_MIDDLE) {
                return None;
            }
        }
        let fold = match host.cut {
            CutHow::OnFold(fold) => host.edges.iter().find(|edge| garment.is_run_of(edge.edge, fold))?,
            CutHow::Alike | CutHow::Mirrored => {
                // What does not lie on it is reported by itself.
                let ring: Vec<Path> = host.edges.iter().map(|edge| edge.path.clone()).collect();
                let region = Region::of(&ring);
                let is_on = |point: Point| region.contains(point) || is_on(&ring, point, IN_THE_MIDDLE);
                let all_on = placed.edges.iter().flat_map(|(_, path)| points(path)).all(is_on);
                let is_one_of_two = placement.hand.is_some() && host.cut == CutHow::Mirrored;
                let count = if is_one_of_two { host.count / 2 } else { host.count };
                return all_on.then_some(Places { count, on_halves: false, folded_away: None });
            }
        };
        let mut paths: Vec<Path> = placed.edges.iter().map(|(_, path)| path.clone()).collect();
        if let Some(mirror) = own_fold.and_then(|path| fold::mirror_across(path).ok()) {
            let other: Vec<Path> = paths.iter().map(|path| path.transform(mirror)).collect();
            paths.extend(other);
        }
        let mirror = fold::mirror_across(&fold.path).ok()?;
        let in_the_middle = paths.iter().flat_map(points).all(|point| {
            let there = mirror * point;
            paths.iter().any(|path| path.nearest(there).distance <= IN_THE_MIDDLE)
        });
        let lies_on_fold = |path: &Path| {
            points(path).into_iter().all(|point| fold.path.nearest(point).distance <= IN_THE_MIDDLE)
        };
        let beside = own_fold.and_then(|path| {
            let (away, _) = placed.edges.iter().find(|(_, own)| std::ptr::eq(own, path))?;
            let (lying, _) = placed.edges.iter().find(|(_, own)| lies_on_fold(own))?;
            Some([*away, *lying])
        });
        let once = Places { count: host.count, on_halves: false, folded_away: None };
        Some(match in_the_middle || placement.hand.is_some() {
            true => once,
            false => Places { count: host.count.saturating_mul(2), on_halves: true, folded_away: beside },
        })
    }
}

fn points(path: &Path) -> Vec<Point> {
    let length = path.length();
    (0..=PLACES).map(|step| path.point_at_length(length * step as f64 / PLACES as f64)).collect()
}

/// How many of a piece are ready to be placed: two copies that are sewn to each other are one.
fn ready(garment: &Garment, layer: LayerId, drawn: &DrawnPiece) -> u32 {
    let piece = drawn.piece;
    let to_itself = garment.seams.iter().any(|seam| {
        let edges = |chains: &[crate::garment::Chain]| -> Vec<_> {
            let sewn = chains.iter().flat_map(|chain| &chain.edges);
            sewn.filter(|sewn| sewn.piece == piece && sewn.layer.is_none_or(|own| own == layer))
                .map(|sewn| sewn.edge)
                .collect()
        };
        let first = edges(&seam.first);
        edges(&seam.second).iter().any(|edge| first.contains(edge))
    });
    if to_itself { drawn.count / 2 } else { drawn.count }
}

fn count(
    garment: &Garment,
    sized: &SizedGarment,
    layer: LayerId,
    drawn: &DrawnPiece,
    all: &[(&Placement, Places)],
) -> Option<Finding> {
    let places: u32 = all.iter().map(|(_, places)| places.count).fold(0, u32::saturating_add);
    let ready = ready(garment, layer, drawn);
    let (first, _) = all.first()?;
    if places == ready {
        return None;
    }
    let piece = garment.piece(drawn.piece);
    let many = if places == 1 { "one place".to_owned() } else { format!("{places} places") };
    let made = if ready == 1 { "one of it is".to_owned() } else { format!("{ready} of it are") };
    let title = Title::new(format!("{} is placed in {many}", piece.title))
        .in_sizes()
        .then(format!(", but {made} made"));
    let label = |placement: &Placement, places: &Places| {
        let on = words::piece(garment, placement.on);
        match (places.on_halves, places.count) {
            (true, _) => format!("on both halves of {on}"),
            (false, 1) => format!("once on {on}"),
            (false, times) => format!("on each of the {times} that are cut of {on}"),
        }
    };
    let mut mistake = Diagnostic::new(&catalogue::PLACE_COUNT, first.span, title);
    for (at, (placement, places)) in all.iter().enumerate() {
        mistake = match at {
            0 => mistake.label(label(placement, places)),
            _ => mistake.also(placement.span, label(placement, places)),
        };
    }
    let mistake = mistake.also(piece.cut.span, format!("{} cut", drawn.count));
    let each = drawn.count.checked_div(ready).unwrap_or(1).max(1);
    let wanted = places.saturating_mul(each);
    let how = match drawn.cut {
        CutHow::OnFold(edge) => format!(" on fold {}", garment.edge(edge).name),
        _ if wanted.is_multiple_of(2) => " mirrored".to_owned(),
        _ => String::new(),
    };
    let way = format!("write cut {wanted}{how}");
    let halves = all.iter().any(|(_, places)| places.on_halves);
    let name = |edge: EdgeId| &garment.edge(edge).name;
    let folded_away = all.iter().find_map(|(_, places)| places.folded_away);
    let help = match (halves, places > ready) {
        (true, true) if let Some([fold, lying]) = folded_away => format!(
            "{} is a half, and its fold has to lie on the fold of {}, where its {} lies: place the corner there at which \
             {} ends, or write cut {} on fold {}",
            piece.title,
            words::piece(garment, first.on),
            name(lying),
            name(fold),
            drawn.count,
            name(lying)
        ),
        (true, true) => format!(
            "what lies beside the fold is there on both sides: {way}; or put it across the middle, where it is \
             there once"
        ),
        (_, true) => match one_sided(garment, sized, all, ready) {
            Some(said) => format!("{way}; or say on which side of the body alone it is: {said}"),
            None => format!("{way}, or cut fewer of what it is placed on"),
        },
        (_, false) => format!("{way}, or say where the others are placed"),
    };
    let weight = f64::from(places.abs_diff(ready));
    Some(
        Finding::new(sized.size, weight, mistake.help(help))
            .about(garment.part_name(Some(layer), drawn.piece)),
    )
}

/// How a placement on a pair is written on one side alone, where as many are made as that takes.
fn one_sided(garment: &Garment, sized: &SizedGarment, all: &[OwnPlaces], ready: u32) -> Option<String> {
    let [(placement, places)] = all else { return None };
    let mut papers = garment.piece(placement.on).papers.iter().filter_map(|&paper| sized.paper(paper));
    let is_pair = papers.any(|drawn| drawn.cut == CutHow::Mirrored);
    let name = |piece| &garment.piece(piece).name;
    let said = || format!("place {} on {} on left", name(placement.piece), name(placement.on));
    (is_pair && placement.hand.is_none() && places.count == 2 * ready).then(said)
}

/// Whether a placed piece is caught along all of its edges but one, and by more than the two seams that a pocket's corner lies in.
fn is_ply(part: &SewnPart, placement: &Placement) -> bool {
    let edges = |is_so: fn(TakenBy) -> bool| {
        part.edges.iter().filter(|fate| fate.takers.iter().any(|taker| is_so(taker.what))).count()
    };
    let (caught, stitched) = (
        edges(|what| matches!(what, TakenBy::Caught(..))),
        edges(|what| matches!(what, TakenBy::Topstitched(_))),
    );
    let by: IdIndexSet<Catcher> = placement.caught.iter().map(|caught| caught.by).collect();
    stitched <= 1 && caught > 2 && by.len() > 2
}

/// Every edge is sewn down or caught: nothing goes in.
fn shut(garment: &Garment, sized: &SizedGarment, part: &SewnPart, placement: &Placement) -> Option<Finding> {
    let is_down = |what: TakenBy| matches!(what, TakenBy::Topstitched(_) | TakenBy::Caught(..));
    let is_shut = |fate: &crate::sewing::EdgeFate| {
        let mut takers = fate.takers.iter();
        takers.any(|taker| is_down(taker.what) || taker.what == TakenBy::Fold)
    };
    let sewn_down = part.edges.iter().flat_map(|fate| &fate.takers).any(|taker| is_down(taker.what));
    if !sewn_down || !part.edges.iter().all(is_shut) {
        return None;
    }
    // What is folded has its fold for a mouth.
    if !garment.piece(placement.piece).folds.is_empty() {
        return None;
    }
    // A patch says that it is one.
    if placement.all_round.is_some() {
        return None;
    }
    // A yoke or a lining that seams hold round all but one edge is a second ply too, and no hand gets in beside a seam.
    if is_ply(part, placement) {
        return None;
    }
    // A piece on its own like in another layer, with all of it caught in seams, is a second ply of it.
    if placement.piece == placement.on && placement.topstitched.is_empty() {
        return None;
    }
    let (own, on) = (words::piece(garment, placement.piece), words::piece(garment, placement.on));
    let title = Title::new(format!("{own} is sewn shut on {on}: none of its edges is left open")).in_sizes();
    let warning = Diagnostic::new(&catalogue::PLACE_SHUT, placement.span, title)
        .label("sewn down all round")
        .help(
            "leave out the edge by which a hand goes in, and hem or bind it; of a patch, a badge or a stay say \
             that it is meant: topstitch all round",
        );
    let subject = garment.part_name(Some(part.part.layer), placement.piece);
    Some(Finding::new(sized.size, 0.0, warning).about(subject))
}
