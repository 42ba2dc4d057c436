//! Version 0 of a paper, drawn from its piece's own words.

use super::drawn_piece::DrawnSpot;
use super::model::Why;
use super::outline;
use super::sketch::{Sketch, ring};
use super::take_ups;
use super::work::{Drawn, Work, plain};
use crate::garment::{CutHow, DrawStep, EdgeId, Expression, Grain, Outline, PaperId, Piece, PieceId};
use crate::report::{Diagnostic, Title, catalogue};
use crate::shape::Vec2;
use crate::shape::outline::{Region, crossings};
use crate::shape::path::Path;
use std::sync::Arc;

/// Draws a paper's version 0; one layer's own paper begins as its piece's does.
pub(super) fn draw(work: &Work, paper: PaperId) -> Drawn {
    let known = work.garment.papers.get(paper.index())?;
    let piece = work.garment.piece(known.piece);
    if known.layer.is_some() {
        let of_piece = piece.papers.iter().copied().find(|&own| work.garment.paper(own).layer.is_none())?;
        return work.version(of_piece, 0).cloned();
    }
    if matches!(piece.drawing.outline, Outline::None) || piece.drawing.order.is_empty() {
        // It could not be made sense of, or goes round in a circle.
        return work.inherit(None);
    }
    let draw = || draw_anew(work, known.piece, piece);
    let memory = work.memory.filter(|_| !work.is_muted());
    match memory.and_then(|memory| Some((memory.size, memory.asked.drawing(known.piece)?))) {
        Some((memory, asked)) => asked.drawn(work, memory, draw),
        None => draw(),
    }
}

/// Draws a piece that has an outline and an order to draw it in.
fn draw_anew(work: &Work, id: PieceId, piece: &Piece) -> Drawn {
    let mut sketch = Sketch::default();
    for step in &piece.drawing.order {
        match *step {
            DrawStep::Spot(at) => draw_spot(work, piece, &mut sketch, at),
            DrawStep::Edge(at) => draw_edge(work, piece, &mut sketch, at),
            DrawStep::Outline => {
                // Nothing of the piece can be known without its outline.
                let drawn = outline::outline(work, id, &mut sketch)?;
                sketch.drawn = Some(drawn);
                outline::moves::move_corners(work, piece, &mut sketch)?;
                outline::divides::divide_edges(work, piece, &mut sketch)?;
            }
            DrawStep::Line(at) => outline::lines::draw_line(work, piece, &mut sketch, at),
            DrawStep::TakeUps => take_ups::take_up(work, piece, &mut sketch)?,
        }
    }
    outline::notches::cut_notches(work, piece, &mut sketch);
    let cut = how_many(work, piece, &sketch);
    let grain = grain(work, piece, &sketch);
    let mut drawn = sketch.drawn?;
    // A piece made from one whose outline crosses itself does so too: that has been reported.
    let made_of_crossed = || {
        let base = piece.drawing.outline.made_of().and_then(|of| outline::copy::base(work, of));
        base.is_some_and(|base| crossings(&ring(base)).is_some())
    };
    let span = piece.drawing.outline.span().unwrap_or(piece.span);
    let outline = ring(&drawn);
    let region = Region::of(&outline);
    let sound = outline::sound::is_sound(work, &drawn, &region, span, None, &made_of_crossed);
    outline::sound::marks_inside(work, &drawn, &region, |point| {
        let spots = piece.drawing.spots.iter();
        spots.clone().find(|spot| spot.point == point).map(|spot| spot.at.span)
    });
    drawn.cut = piece.cut.how;
    drawn.count = cut?;
    drawn.grain = grain?;
    sound.then(|| Arc::new(drawn))
}

fn draw_spot(work: &Work, piece: &Piece, sketch: &mut Sketch, at: usize) {
    let Some(spot) = piece.drawing.spots.get(at) else { return };
    let place = work.place(&spot.at, Some(sketch));
    match (place, &mut sketch.drawn) {
        (Some(place), None) => {
            sketch.spots.insert(spot.point, place);
        }
        (Some(place), Some(drawn)) => drawn.spots.push(DrawnSpot { point: spot.point, at: place }),
        (None, Some(drawn)) => drawn.missing.points.push((spot.point, Why::Reported)),
        (None, None) => {}
    }
}

fn draw_edge(work: &Work, piece: &Piece, sketch: &mut Sketch, at: usize) {
    let Some(edge) = piece.drawing.outline.edges().get(at) else { return };
    let known = |id: EdgeId| sketch.path(id).cloned();
    // Straight across the darts that are drawn in it.
    let mut whole: Option<Path> = None;
    for (from, path, to) in edge.runs() {
        let (Some(from), Some(to)) = (sketch.spot(from), sketch.spot(to)) else { return };
        let run = outline::walk::edge_path(work, path, from, to, edge.span, &known, Some(sketch));
        let Some(run) = run else { return };
        whole = Some(whole.map_or_else(|| run.clone(), |before| before.then(&run)));
    }
    if let Some(path) = whole {
        sketch.edges.insert(edge.edge, path);
    }
}

/// How many copies are cut: a whole number of 1 or more, an even one of pairs.
fn how_many(work: &Work, piece: &Piece, sketch: &Sketch) -> Option<u32> {
    if let CutHow::OnFold(fold) = piece.cut.how
        && let Some(path) = sketch.path(fold)
        && !path.is_straight()
    {
        work.mistake(path.off_straight(), "", || {
            let name = &work.garment.edge(fold).name;
            let title =
                Title::new(format!("{} is cut on the fold at {name}, which is not straight", piece.title))
                    .in_sizes();
            Diagnostic::new(&catalogue::FOLD_CURVED, piece.cut.span, title)
                .also(work.garment.edge(fold).span, "this edge curves")
                .help(format!(
                    "cloth folds along a straight line only: draw {name} straight, or `cut 2 mirrored`"
                ))
        });
        return None;
    }
    let count: &Expression = &piece.cut.count;
    let value = work.scalar(count, Some(sketch))?;
    let whole = libm::round(value);
    if !(1.0..=f64::from(crate::limits::COPIES)).contains(&whole) || (value - whole).abs() > 1e-9 {
        work.mistake(1.0, "", || {
            let title = Title::new(format!("{} is cut {} times", piece.title, plain(value))).in_sizes();
            Diagnostic::new(&catalogue::PAIR_COUNT, piece.cut.span, title).help(format!(
                "a piece is cut once or more, a whole number of times, {} at most",
                crate::limits::COPIES
            ))
        });
        return None;
    }
    let whole = whole as u32;
    if piece.cut.how == CutHow::Mirrored && !whole.is_multiple_of(2) {
        work.mistake(1.0, "", || {
            let title = Title::new(format!(
                "{} is cut in pairs, but {whole} copies are not a whole number of pairs",
                piece.title
            ))
            .in_sizes();
            Diagnostic::new(&catalogue::PAIR_ODD, piece.cut.span, title).help(format!(
                "write `cut {} mirrored`, or `cut {whole}` if all lie the same way up",
                whole + 1
            ))
        });
        return None;
    }
    Some(whole)
}

/// The grain's direction: up, across, at 45° or along an edge, in every case with y rising, or to
/// the right.
fn grain(work: &Work, piece: &Piece, sketch: &Sketch) -> Option<Vec2> {
    match piece.grain {
        Grain::Up => Some(Vec2::new(0.0, 1.0)),
        Grain::Across => Some(Vec2::new(1.0, 0.0)),
        Grain::Bias => Some(Vec2::new(libm::sqrt(0.5), libm::sqrt(0.5))),
        Grain::Along(edge) => {
            let Some(path) = sketch.path(edge) else {
                let reported = sketch.drawn.as_ref().is_none_or(|drawn| work.edge_is_reported(drawn, edge));
                if !reported {
                    work.mistake(1.0, "", || {
                        let name = &work.garment.edge(edge).name;
                        let title = Title::new(format!(
                            "the grain of {} runs along {name}, which it does not have",
                            piece.title
                        ))
                        .in_sizes();
                        Diagnostic::new(&catalogue::EDGE_GONE, piece.span, title)
                            .help("let the grain run along an edge that the outline really has")
                    });
                }
                return None;
            };
            let chord = path.end() - path.start();
            let length = chord.hypot();
            if length <= crate::shape::tolerance::SAME_POINT {
                return None;
            }
            let way = chord / length;
            let turned = way.y < 0.0 || (way.y == 0.0 && way.x < 0.0);
            Some(if turned { -way } else { way })
        }
    }
}
