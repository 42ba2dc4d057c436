//! The cutting line of a part, before anything is written on it.

use super::allowed::{Allowed, CornerCut, Darted, Laid};
use super::line::{CutRun, Unfit, cutting_line, cutting_line_over};
use crate::garment::{Garment, Piece};
use crate::kept::{Question, SizeMemory};
use crate::resolve::{DrawnCut, DrawnEdgeId, DrawnPiece, SizedGarment};
use crate::sewing::{Sewing, SewnPart, TakenBy, piece_allowance};
use crate::shape::Point;
use crate::shape::path::Path;
use crate::syntax::tree::CornerStyle;
use rayon::prelude::*;
use std::sync::Arc;

/// The cutting line of a part, before anything is written on it.
#[derive(Clone, Debug)]
pub(crate) enum PartLine {
    /// Its allowances could not be worked out, which has been reported.
    Unknown,
    /// The line.
    Cut(Arc<[CutRun]>),
    /// Why there is none.
    Unfit(Unfit),
}

/// Parts that are worked out in one go; only garments of many are worked out side by side.
const TOGETHER: usize = 128;

/// The cutting lines of all parts, in their order.
pub(super) fn lines(
    garment: &Garment,
    sized: &SizedGarment,
    sewing: &Sewing,
    memory: Option<&SizeMemory>,
) -> Vec<PartLine> {
    let line = |sewn: &SewnPart| -> Option<Result<Arc<[CutRun]>, Unfit>> {
        let cut = sized.shared_paper(sewn.part.paper)?;
        let drawn = cut.uncut();
        let corners = corners(garment.piece(sewn.part.piece), drawn);
        let darts = darts(garment, sized, sewn, drawn);
        let allowed = allowed_uncut(cut, allowed(sewn)?);
        let darts = darts?;
        let line = || {
            let line = remembered(memory, &stitching(drawn), &allowed, &corners, &darts);
            line.map(|line| as_drawn(drawn, &allowed).map_or(line, Arc::from))
        };
        if cut.opened.is_none() {
            let memory = memory.filter(|_| darts.is_empty());
            return Some(memory.map_or_else(line, |memory| {
                let mut question = Question::default();
                ask_of_allowed(&mut question, &allowed);
                ask_of_corners(&mut question, &corners);
                memory.lines_of.ask(cut, question, line)
            }));
        }
        let line = line();
        let opened = line.map(|line| as_opened(cut, line.to_vec()).into());
        Some(opened.map_err(|unfit| unfit_as_opened(cut, unfit)))
    };
    let known = |sewn: &SewnPart| match line(sewn) {
        None => PartLine::Unknown,
        Some(Ok(line)) => PartLine::Cut(line),
        Some(Err(unfit)) => PartLine::Unfit(unfit),
    };
    sewing.parts.par_iter().with_min_len(TOGETHER).map(known).collect()
}

/// The cutting line, where it is not known from before.
fn remembered(
    memory: Option<&SizeMemory>,
    ring: &[Path],
    allowed: &[Allowed],
    corners: &[CornerCut],
    darts: &[Vec<Darted>],
) -> Result<Arc<[CutRun]>, Unfit> {
    let work = || cutting_line_over(ring, allowed, corners, darts).map(Arc::from);
    let Some(memory) = memory.filter(|_| darts.iter().all(Vec::is_empty)) else { return work() };
    let mut question = Question::default();
    question.paths(ring.iter());
    ask_of_allowed(&mut question, allowed);
    ask_of_corners(&mut question, corners);
    memory.lines.ask(&question, work)
}

/// How corners are cut.
fn ask_of_corners(question: &mut Question, corners: &[CornerCut]) {
    question.count(corners.len());
    for CornerCut { style, second_first } in corners {
        question.count(style.map_or(0, |style| 1 + style as usize));
        question.is(*second_first);
    }
}

/// All that is given to edges.
pub(super) fn ask_of_allowed(question: &mut Question, allowed: &[Allowed]) {
    question.count(allowed.len());
    for Allowed { width, turned_up, turn_up, turned_under, fold } in allowed {
        question.number(*width);
        question.is(*turned_up);
        question.may_be(*turn_up);
        question.may_be(*turned_under);
        question.is(*fold);
    }
}

/// What is given to the edges of a piece whose slits are not cut: the cutting line goes straight on over them.
pub(super) fn allowed_uncut(cut: &DrawnPiece, allowed: Vec<Allowed>) -> Vec<Allowed> {
    let Some(opened) = &cut.opened else { return allowed };
    DrawnEdgeId::enumerate(&opened.whole.edges)
        .map(|(edge, _)| {
            let first = opened.run_of.iter().position(|run| *run == Some(edge));
            first.and_then(|first| allowed.get(first)).copied().unwrap_or_default()
        })
        .collect()
}

/// A line along the edges of a piece whose slits are not cut, by the edges of the one whose slits are.
pub(super) fn as_opened(cut: &DrawnPiece, mut line: Vec<CutRun>) -> Vec<CutRun> {
    for run in &mut line {
        run.along = run.along.map(|edge| opened_edge(cut, edge));
    }
    line
}

/// The same of what does not fit.
fn unfit_as_opened(cut: &DrawnPiece, unfit: Unfit) -> Unfit {
    let own = |edge: DrawnEdgeId| opened_edge(cut, edge);
    match unfit {
        Unfit::TooWide { edge, at, most } => Unfit::TooWide { edge: own(edge), at, most },
        Unfit::Overlap { first, second, at, most } => {
            Unfit::Overlap { first: own(first), second: own(second), at, most }
        }
        Unfit::NoOutline => Unfit::NoOutline,
    }
}

/// The first run of an edge once slits are cut from it.
fn opened_edge(cut: &DrawnPiece, edge: DrawnEdgeId) -> DrawnEdgeId {
    let runs = cut.opened.as_ref().map(|opened| &opened.run_of);
    let first = runs.and_then(|runs| runs.iter().position(|run| *run == Some(edge)));
    first.map_or(edge, DrawnEdgeId::from_index)
}

/// The darts of each edge, with what they are given; none at all where no edge has one, nothing where an
/// allowance could not be worked out. What is fused on has no allowances.
fn darts(
    garment: &Garment,
    sized: &SizedGarment,
    sewn: &SewnPart,
    drawn: &DrawnPiece,
) -> Option<Vec<Vec<Darted>>> {
    if drawn.take_ups.iter().all(|take_up| take_up.mouth.is_none()) {
        return Some(Vec::new());
    }
    let own = match sewn.fused {
        true => Some(0.0),
        false => piece_allowance(garment, sized, sewn.part.piece),
    };
    let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(edge, _)| {
        let darted = drawn.take_ups_on(edge).into_iter().map(|(take_up, mouth)| {
            let laid = match take_up.pressed {
                Some(toward) => Laid::Pressed(toward),
                None => Laid::CutOpen(own?),
            };
            Some(Darted { shut: take_up.shut(), mouth: (mouth.from, mouth.to), laid })
        });
        darted.collect::<Option<Vec<Darted>>>()
    });
    edges.collect()
}

/// The cutting line of a piece that was drawn as it is cut, if each edge has the allowance it was drawn with.
fn as_drawn(drawn: &DrawnPiece, allowed: &[Allowed]) -> Option<Vec<CutRun>> {
    // The caps of darts are found; they are not drawn.
    let cut = drawn.drawn_cut().filter(|_| drawn.take_ups.iter().all(|take_up| take_up.mouth.is_none()))?;
    let same = |(cut, allowed): (&DrawnCut, &Allowed)| (cut.width - allowed.width).abs() <= SAME;
    let is_so = cut.len() == allowed.len() && cut.iter().zip(allowed).all(same);
    let run = |(edge, cut): (DrawnEdgeId, &DrawnCut)| CutRun { path: cut.cut.clone(), along: Some(edge) };
    is_so.then(|| DrawnEdgeId::enumerate(cut).map(run).collect())
}

/// A corner of a piece that was drawn as it is cut, which would be cut otherwise.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Redrawn {
    /// The edge that ends there.
    pub before: DrawnEdgeId,
    /// How far what would be cut lies from what was drawn, in millimetres.
    pub by: f64,
    /// With both edges cut straight on it would come out as drawn.
    pub mitred: bool,
}

/// The corners of a part that was drawn as it is cut which the rules would cut otherwise: the ends of hems, what is
/// said of a corner, and what is too sharp. Curves that go on beyond a corner of the stitching line are as drawn.
pub(crate) fn redrawn_corners(garment: &Garment, drawn: &DrawnPiece, sewn: &SewnPart) -> Vec<Redrawn> {
    let Some(allowed) = allowed(sewn) else { return Vec::new() };
    let (cut, drawn) = (drawn, drawn.uncut());
    let allowed = allowed_uncut(cut, allowed);
    if as_drawn(drawn, &allowed).is_none() {
        return Vec::new();
    }
    let ring = stitching(drawn);
    let corners = corners(garment.piece(sewn.part.piece), drawn);
    let straight_on = |one: &Allowed| Allowed { turned_up: false, turn_up: None, turned_under: None, ..*one };
    let plain: Vec<Allowed> = allowed.iter().map(straight_on).collect();
    let mitred = CornerCut { style: Some(CornerStyle::Mitred), second_first: false };
    let (Ok(line), Ok(plain)) =
        (cutting_line(&ring, &allowed, &corners), cutting_line(&ring, &plain, &vec![mitred; ring.len()]))
    else {
        return Vec::new();
    };
    let edges = DrawnEdgeId::enumerate(&drawn.edges).map(|(edge, _)| edge);
    edges
        .filter_map(|before| {
            let (own, straight) = (across(&line, before)?, across(&plain, before)?);
            // Cut straight on, what runs across is no more than a point.
            let blunt = straight.length();
            let off = |line: &[CutRun], at: Point| {
                line.iter().map(|run| run.path.nearest(at).distance).fold(f64::INFINITY, f64::min)
            };
            let by = match blunt > SAME {
                true => blunt,
                false => {
                    let out = own.flatten(SAME).into_iter().map(|at| off(&plain, at));
                    out.fold(off(&line, straight.start()), f64::max)
                }
            };
            let before = opened_edge(cut, before);
            (by > SAME).then_some(Redrawn { before, by, mitred: blunt <= SAME })
        })
        .collect()
}

/// What of a cutting line lies between the end of one edge's run and the start of the next one's.
fn across(line: &[CutRun], before: DrawnEdgeId) -> Option<Path> {
    let at = line.iter().position(|run| run.along == Some(before))?;
    let next = line.get((at + 1) % line.len())?;
    let own = line.get(at)?;
    match next.along {
        None => Some(next.path.clone()),
        Some(_) => Some(Path::straight(own.path.end(), next.path.start())),
    }
}

/// Lines and allowances that differ by no more than this, in millimetres, are one.
const SAME: f64 = 0.01;

/// The outline that is sewn along, edge by edge.
pub(super) fn stitching(drawn: &DrawnPiece) -> Vec<Path> {
    drawn.edges.iter().map(|edge| edge.path.clone()).collect()
}

/// The widest allowance of a part, in millimetres, what is fused on having none; none where one of
/// them could not be worked out.
pub fn widest_allowance(sewn: &SewnPart) -> Option<f64> {
    Some(allowed(sewn)?.iter().map(|one| one.width).fold(0.0, f64::max))
}

/// What each edge is given; none where one of them could not be worked out. What is fused on is
/// cut without allowances.
pub(super) fn allowed(sewn: &SewnPart) -> Option<Vec<Allowed>> {
    let one = |fate: &crate::sewing::EdgeFate| {
        let fold = fate.takers.iter().any(|taker| taker.what == TakenBy::Fold);
        let width = if fold || sewn.fused { Some(0.0) } else { fate.allowance };
        let turned_up = fate.turned_up && !sewn.fused;
        width.filter(|width| width.is_finite()).map(|width| Allowed {
            width: width.max(0.0),
            turned_up,
            turn_up: fate.turn_up.filter(|_| turned_up),
            turned_under: fate.turned_under.filter(|_| turned_up),
            fold,
        })
    };
    sewn.edges.iter().map(one).collect()
}

/// How the corner after each edge is cut.
fn corners(piece: &Piece, drawn: &DrawnPiece) -> Vec<CornerCut> {
    let count = drawn.edges.len();
    let pairs = (0..count).map(|at| (drawn.edges.get(at), drawn.edges.get((at + 1) % count)));
    pairs
        .map(|(before, after)| {
            let (Some(before), Some(after)) = (before, after) else { return CornerCut::default() };
            let pair = (before.edge, after.edge);
            let said = piece.corners.iter().find(|corner| {
                pair == (corner.first, corner.second) || pair == (corner.second, corner.first)
            });
            said.map_or(CornerCut::default(), |corner| CornerCut {
                style: Some(corner.style),
                second_first: corner.first == after.edge,
            })
        })
        .collect()
}
