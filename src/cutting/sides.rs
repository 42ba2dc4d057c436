//! Left and right on the cutting table: pairs of which each side is cut by its own pattern, and halves that
//! are cut as their whole.

use super::line::CutRun;
use super::model::{CutGap, CutNotch, CutPart, CutSlit, CutTakeUp, Guide, InnerLine, MarkedPlace};
use super::part_line::PartLine;
use crate::garment::{CutHow, Garment, PointId, TackSpot};
use crate::resolve::{CutRow, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{FastenerPlace, PartId, Sewing, SewnPart, TakenBy};
use crate::shape::fold::mirror_across;
use crate::shape::path::Path;
use crate::syntax::tree::Hand;
use kurbo::{Affine, Point, Vec2};

/// Notches of left and right that lie no further apart than this, in millimetres, are cut in one.
const SAME_NOTCH: f64 = 0.5;

/// Makes two lines of the cut list of a pair whose left and right are cut differently, and a whole of each
/// half whose sides are.
pub(super) fn settle(garment: &Garment, sized: &mut SizedGarment, sewing: &Sewing, lines: &[PartLine]) {
    let any = sewing.parts.iter().any(|part| part.hand.is_some());
    if !any && !sized.papers.iter().flatten().any(|drawn| drawn.unfolded) {
        return;
    }
    let mut settled = Vec::with_capacity(sized.cut_list.len());
    for row in std::mem::take(&mut sized.cut_list) {
        let left = sewing.index.of(row.part);
        let both = left.and_then(|left| Some((left, sewing.index.twin(left)?)));
        let differ = both.is_some_and(|both| {
            // Of a pair each side's own notches are marked so on the pattern of both.
            let is_noted_apart = row.how == CutHow::Mirrored || has_same_notches(sewing, both);
            !is_noted_apart || !is_cut_alike(garment, sewing, lines, both)
        });
        let drawn = sized.papers.get(row.part.paper.index()).and_then(Option::as_ref);
        let is_whole = drawn.is_some_and(|drawn| drawn.unfolded) || differ;
        match row.how {
            CutHow::Mirrored if differ && row.hand.is_none() => {
                settled.extend(Hand::BOTH.map(|hand| CutRow {
                    copies: row.copies / 2,
                    how: CutHow::Alike,
                    hand: Some(hand),
                    ..row
                }));
            }
            CutHow::OnFold(_) if is_whole => settled.push(CutRow { how: CutHow::Alike, whole: true, ..row }),
            _ => settled.push(row),
        }
    }
    sized.cut_list = settled;
}

/// Whether left and right are cut by one pattern: the line, the buttons and the rows.
fn is_cut_alike(
    garment: &Garment,
    sewing: &Sewing,
    lines: &[PartLine],
    (left, right): (PartId, PartId),
) -> bool {
    let (one, other) = (sewing.part(left), sewing.part(right));
    let line = |id: PartId| match lines.get(id.index()) {
        Some(PartLine::Cut(line)) => Some(line),
        _ => None,
    };
    let places =
        |part: &SewnPart| part.fasteners.iter().map(|button| (button.at, button.size)).collect::<Vec<_>>();
    let worked = |part: &SewnPart| -> Vec<TakenBy> {
        let takers = part.edges.iter().flat_map(|fate| &fate.takers).map(|taker| taker.what);
        let is_worked =
            |what: &TakenBy| matches!(what, TakenBy::Seam(id, _) if garment.seam(*id).work.is_some());
        takers.filter(is_worked).collect()
    };
    // Where there is no line, that has been reported.
    line(left).zip(line(right)).is_none_or(|(one, other)| one == other)
        && places(one) == places(other)
        && worked(one) == worked(other)
}

/// Whether left and right are notched in the same places.
fn has_same_notches(sewing: &Sewing, (left, right): (PartId, PartId)) -> bool {
    let (one, other) = (sewing.part(left), sewing.part(right));
    one.notches.len() == other.notches.len()
        && one
            .notches
            .iter()
            .zip(&other.notches)
            .all(|(a, b)| a.edge == b.edge && a.double == b.double && (a.along - b.along).abs() <= SAME_NOTCH)
}

/// The notches of a pair that is cut by one pattern: those of one side alone are marked as its own.
fn of_both(left: Vec<CutNotch>, right: Vec<CutNotch>) -> Vec<CutNotch> {
    let is_one = |one: &CutNotch, other: &CutNotch| {
        one.edge == other.edge
            && one.snips.len() == other.snips.len()
            && (one.along - other.along).abs() <= SAME_NOTCH
    };
    let alone = |all: &[CutNotch], others: &[CutNotch], hand: Hand| -> Vec<CutNotch> {
        let mut own = all.to_vec();
        for notch in &mut own {
            notch.hand = (!others.iter().any(|other| is_one(notch, other))).then_some(hand);
        }
        own
    };
    let mut both = alone(&left, &right, Hand::Left);
    both.extend(alone(&right, &left, Hand::Right).into_iter().filter(|notch| notch.hand.is_some()));
    both
}

/// A line of the cut list as it is cut; `cut` gives one of its sides as the piece is drawn.
pub(super) fn cut(
    garment: &Garment,
    sewing: &Sewing,
    row: &CutRow,
    piece: &DrawnPiece,
    (left, right): (PartId, Option<PartId>),
    cut: &dyn Fn(&CutRow, PartId) -> Option<CutPart>,
) -> Option<CutPart> {
    // Where nothing is said, that is asked for where it matters.
    let drawn = garment.piece(piece.piece).drawn.map_or(Hand::Left, |(hand, _)| hand);
    let of = |hand: Hand| if hand == Hand::Right { right.unwrap_or(left) } else { left };
    if let Some(hand) = row.hand {
        let mut own = cut(row, of(hand))?;
        own.marks.retain(|mark| mark.hand.is_none_or(|of| of == hand));
        own.marks.iter_mut().for_each(|mark| mark.hand = None);
        return Some(if hand == drawn { own } else { mirrored(own) });
    }
    if row.whole {
        let half = CutRow { how: piece.cut, ..*row };
        let (own, beyond) = (cut(&half, of(drawn))?, cut(&half, of(drawn.other()))?);
        return opened(garment, row, own, beyond, drawn);
    }
    let mut own = cut(row, left)?;
    if let Some(right) = right.filter(|&right| !has_same_notches(sewing, (left, right))) {
        own.notches = of_both(own.notches, cut(row, right)?.notches);
    }
    for mark in &mut own.marks {
        if let Some(hand) = mark.hand {
            mark.name = format!("{} ({})", mark.name, hand.word());
        }
    }
    Some(own)
}

/// The side of the body that a mark is for, where all that is placed at it lies on one side alone.
pub(super) fn hand_of_mark(garment: &Garment, point: PointId) -> Option<Hand> {
    let is_at = |at: PointId| garment.is_point_of(point, at);
    let mut at_it = garment
        .placements
        .iter()
        .filter(|placement| placement.corners.iter().any(|corner| is_at(corner.at)))
        .map(|placement| placement.hand)
        .chain(
            garment.tacks.iter().filter(|tack| tack.sets.is_some()).flat_map(|tack| &tack.ends).filter_map(
                |end| match end.spot {
                    TackSpot::Point(own) if is_at(own) => Some(end.hand),
                    _ => None,
                },
            ),
        );
    let first = at_it.next()??;
    at_it.all(|hand| hand == Some(first)).then_some(first)
}

/// The mirror image, right side up.
fn mirrored(part: CutPart) -> CutPart {
    CutPart { mirrored: !part.mirrored, ..moved(part, Affine::FLIP_X) }
}

fn moved(part: CutPart, by: Affine) -> CutPart {
    let point = |at: Point| by * at;
    let line = |(from, to): (Point, Point)| (by * from, by * to);
    let way = |way: Vec2| (by * way.to_point() - by * Point::ZERO).normalize();
    let paths = |paths: Vec<Path>| paths.into_iter().map(|path| path.transform(by)).collect();
    CutPart {
        stitching: paths(part.stitching),
        holes: part.holes.into_iter().map(paths).collect(),
        cutting: part.cutting.into_iter().map(|run| CutRun { path: run.path.transform(by), ..run }).collect(),
        notches: part
            .notches
            .into_iter()
            .map(|notch| CutNotch { snips: notch.snips.into_iter().map(line).collect(), ..notch })
            .collect(),
        grain: way(part.grain),
        grain_line: part.grain_line.map(line),
        take_ups: part
            .take_ups
            .into_iter()
            .map(|one| CutTakeUp {
                legs: one.legs.into_iter().map(line).collect(),
                fold: one.fold.map(line),
                points: one.points.into_iter().map(point).collect(),
                pressed: one.pressed.map(line),
                placement: one.placement.map(line),
                label: one.label.map(point),
                snips: one.snips.into_iter().map(line).collect(),
                ..one
            })
            .collect(),
        slits: part
            .slits
            .into_iter()
            .map(|slit| CutSlit {
                cuts: slit.cuts.into_iter().map(line).collect(),
                end: line(slit.end),
                start: slit.start.map(line),
                ..slit
            })
            .collect(),
        lines: part.lines.into_iter().map(|one| InnerLine { path: one.path.transform(by), ..one }).collect(),
        guides: part.guides.into_iter().map(|one| Guide { path: one.path.transform(by), ..one }).collect(),
        rows: paths(part.rows),
        gaps: part.gaps.into_iter().map(|gap| CutGap { path: gap.path.transform(by), ..gap }).collect(),
        marks: part.marks.into_iter().map(|mark| MarkedPlace { at: by * mark.at, ..mark }).collect(),
        fasteners: part
            .fasteners
            .into_iter()
            .map(|button| FastenerPlace { at: by * button.at, ..button })
            .collect(),
        ..part
    }
}

/// The whole of a half: as it is drawn on the one side of its fold, `beyond` mirrored on the other.
fn opened(garment: &Garment, row: &CutRow, half: CutPart, beyond: CutPart, drawn: Hand) -> Option<CutPart> {
    let fold = half.fold?;
    let middle = half.stitching.get(fold.index())?.clone();
    let mirror = mirror_across(&middle).ok()?;
    let count = half.stitching.len();
    // The drawn edges in their order from the fold on, then those of the other half, back to it.
    let open: Vec<usize> = (1..count).map(|step| (fold.index() + step) % count).collect();
    let own_at = |edge: DrawnEdgeId| open.iter().position(|&at| at == edge.index());
    let last = 2 * open.len();
    let other_at = |edge: DrawnEdgeId| own_at(edge).map(|at| last - 1 - at);
    let names = |at: &usize| half.edges.get(*at).copied();
    // The sides of slits inside follow on all edges of the outline.
    let inner: Vec<usize> = (count..half.edges.len()).collect();
    let edges = open.iter().chain(open.iter().rev()).chain(&inner).chain(&inner).filter_map(names).collect();
    let in_hole = |edge: DrawnEdgeId, beyond: bool| {
        let at = edge.index().checked_sub(count)?;
        Some(last + at + if beyond { inner.len() } else { 0 })
    };
    let beyond_length = |edge: DrawnEdgeId| beyond.stitching.get(edge.index()).map_or(0.0, Path::length);
    let lengths: Vec<f64> = (0..count).map(|at| beyond_length(DrawnEdgeId::from_index(at))).collect();
    let other = moved(beyond, mirror);
    let stitched = |part: &CutPart, at: &usize| part.stitching.get(*at).cloned();
    let mut stitching: Vec<Path> = open.iter().filter_map(|at| stitched(&half, at)).collect();
    stitching.extend(open.iter().rev().filter_map(|at| stitched(&other, at)).map(|path| path.reversed()));
    let run = |run: &CutRun, at: &dyn Fn(DrawnEdgeId) -> Option<usize>, path: Path| CutRun {
        path,
        along: run.along.and_then(at).map(DrawnEdgeId::from_index),
    };
    let mut cutting: Vec<CutRun> = Vec::with_capacity(2 * half.cutting.len());
    for own in from_fold(&half.cutting, fold) {
        cutting.push(run(own, &own_at, own.path.clone()));
    }
    join_to(&mut cutting, from_fold(&other.cutting, fold).last().map(|run| run.path.end()));
    for own in from_fold(&other.cutting, fold).into_iter().rev() {
        cutting.push(run(own, &other_at, own.path.reversed()));
    }
    let start = cutting.first().map(|run| run.path.start());
    join_to(&mut cutting, start);
    let notch = |notch: CutNotch, at: usize, along: f64| CutNotch {
        edge: DrawnEdgeId::from_index(at),
        along,
        ..notch
    };
    let is_of = |mark: &MarkedPlace, hand: Hand| mark.hand.is_none_or(|of| of == hand);
    let marks_on = |half: &CutPart, hand: Hand| -> Vec<MarkedPlace> {
        let own = half.marks.iter().filter(|mark| is_of(mark, hand));
        own.map(|mark| MarkedPlace { hand: None, ..mark.clone() }).collect()
    };
    // What lies on the fold is there once.
    let marks = with_other(marks_on(&half, drawn), marks_on(&other, drawn.other()), |one, other| {
        one.name == other.name && one.at.distance(other.at) < SAME_NOTCH
    });
    let (own, also) = (half.notches.into_iter(), other.notches.into_iter());
    let own = own.filter_map(|one| {
        let at = own_at(one.edge).or_else(|| in_hole(one.edge, false))?;
        Some(notch(one.clone(), at, one.along))
    });
    let also = also.filter_map(|one| {
        if let Some(at) = in_hole(one.edge, true) {
            return Some(notch(one.clone(), at, one.along));
        }
        let long = lengths.get(one.edge.index())?;
        Some(notch(one.clone(), other_at(one.edge)?, long - one.along))
    });
    let half_way = |line: &InnerLine| line.path.point_at_length(line.path.length() / 2.0);
    let mut lines = with_other(half.lines, other.lines, |one, other| {
        half_way(one).distance(half_way(other)) < SAME_NOTCH
            && ((one.path.start().distance(other.path.start()) < SAME_NOTCH
                && one.path.end().distance(other.path.end()) < SAME_NOTCH)
                || (one.path.start().distance(other.path.end()) < SAME_NOTCH
                    && one.path.end().distance(other.path.start()) < SAME_NOTCH))
    });
    let fold_edge = half.edges.get(fold.index()).copied()?;
    lines.push(InnerLine {
        name: super::mark::words(&garment.edge(fold_edge).name),
        edge: fold_edge,
        path: middle.clone(),
        girth: None,
    });
    Some(CutPart {
        how: row.how,
        fold: None,
        middle: Some((middle.start(), middle.end())),
        edges,
        stitching,
        holes: half.holes.iter().chain(&other.holes).cloned().collect(),
        cutting,
        notches: own.chain(also).collect(),
        slits: with_other(half.slits, other.slits, |one, other| one.cuts == other.cuts),
        take_ups: with_other(half.take_ups, other.take_ups, |one, other| one.legs == other.legs),
        lines,
        guides: with_other(half.guides, other.guides, |one, other| {
            one.kind == other.kind && one.path.start().distance(other.path.start()) < SAME_NOTCH
        }),
        rows: with_other(half.rows, other.rows, |_, _| false),
        gaps: half
            .gaps
            .into_iter()
            .filter(|gap| gap.hand.is_none_or(|hand| hand == drawn))
            .chain(other.gaps.into_iter().filter(|gap| gap.hand.is_none_or(|hand| hand != drawn)))
            .map(|gap| CutGap { hand: None, ..gap })
            .collect(),
        marks,
        fasteners: with_other(half.fasteners, other.fasteners, |one, other| {
            one.at.distance(other.at) < SAME_NOTCH
        }),
        ..half
    })
}

/// What lies on the one half and on the other; what lies on both at once is there once.
fn with_other<T>(mut own: Vec<T>, other: Vec<T>, is_one: impl Fn(&T, &T) -> bool) -> Vec<T> {
    let more: Vec<T> = other.into_iter().filter(|one| !own.iter().any(|own| is_one(own, one))).collect();
    own.extend(more);
    own
}

/// The runs of a half's cutting line, from its fold round to its fold.
fn from_fold(line: &[CutRun], fold: DrawnEdgeId) -> Vec<&CutRun> {
    let at = line.iter().position(|run| run.along == Some(fold)).unwrap_or(0);
    line.iter().skip(at + 1).chain(line.iter().take(at)).collect()
}

/// A step across the middle, where the sides are cut differently.
fn join_to(line: &mut Vec<CutRun>, next: Option<Point>) {
    if let (Some(from), Some(to)) = (line.last().map(|run| run.path.end()), next)
        && from.distance(to) > SAME_STEP
    {
        line.push(CutRun { path: Path::straight(from, to), along: None });
    }
}

/// Ends that lie no further apart than this, in millimetres, meet.
const SAME_STEP: f64 = 1e-6;
