//! A pleat that is let into a piece: where it is to be cut for it, and how it lies on it then.

use super::placing::Placing;
use super::pleat_measures::Measures;
use super::row::{Anchor, Direction, Step, Stretch, row, second_half};
use crate::garment::{Piece, Pleat, TakeUp};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::DrawnTakeUp;
use crate::resolve::sketch::Sketch;
use crate::resolve::work::Work;
use crate::shape::Vec2;
use crate::shape::path::Path;

/// A place of an edge where cloth for one fold is put in.
#[derive(Clone, Copy, Debug)]
pub(in crate::resolve) struct PutIn {
    /// So far from the edge's start, in millimetres, before any is put in.
    pub(in crate::resolve) along: f64,
    /// Its fold is laid towards what comes later in the row.
    pub(in crate::resolve) outward: bool,
}

/// Where cloth is put in for a row of pleats.
pub(in crate::resolve) struct Row {
    /// The edge.
    pub(in crate::resolve) at: usize,
    /// The places, in the row's order.
    pub(in crate::resolve) places: Vec<PutIn>,
    /// The row goes against the edge's direction.
    pub(in crate::resolve) backwards: bool,
    measures: Measures,
}

/// A pleat that is being let in.
pub(in crate::resolve) struct LettingIn<'p, 'g> {
    pub(in crate::resolve) work: &'p Work<'g>,
    pub(in crate::resolve) piece: &'p Piece,
    pub(in crate::resolve) take_up: &'p TakeUp,
    pub(in crate::resolve) pleat: &'p Pleat,
}

impl LettingIn<'_, '_> {
    fn placing<'s>(&'s self, sketch: &'s Sketch) -> Placing<'s, 's> {
        Placing { work: self.work, piece: self.piece, sketch, take_up: self.take_up, pleat: self.pleat }
    }

    /// Where it is put into the piece; reported where it has no place there.
    pub(in crate::resolve) fn row(&self, drawn: &DrawnPiece, at: usize) -> Option<Row> {
        let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
        let placing = self.placing(&sketch);
        let measures = placing.measures()?;
        let steps = row(&self.pleat.kind, measures.wide, measures.depth, measures.count, measures.apart);
        let way = placing.way(at, &measures)?;
        let sign = if way.backwards { -1.0 } else { 1.0 };
        let steps = if way.anchor == Anchor::Half { second_half(&steps) } else { steps };
        let kept = |steps: &[Step]| {
            steps.iter().map(|step| if let Step::Keep(kept) = step { *kept } else { 0.0 }).sum::<f64>()
        };
        let off = match way.anchor {
            Anchor::Start | Anchor::Half => 0.0,
            Anchor::First => kept(steps.get(..3).unwrap_or_default()) / 2.0,
            Anchor::Middle => kept(&steps) / 2.0,
        };
        let mut along = way.at - sign * off;
        let mut places = Vec::new();
        for step in &steps {
            match *step {
                Step::Keep(kept) => along += sign * kept,
                Step::Fold { outward } => places.push(PutIn { along, outward }),
            }
        }
        let length = drawn.edges.get(at)?.path.length();
        let over = places
            .iter()
            .map(|place| (-place.along).max(place.along - length))
            .fold(f64::NEG_INFINITY, f64::max);
        if over > -crate::shape::tolerance::SAME_POINT && way.anchor != Anchor::Half || over > 0.0 {
            placing.report_off_row(over.max(0.0), length);
            return None;
        }
        Some(Row { at, places, backwards: way.backwards, measures })
    }

    /// The way that its folds go from a place of its edge, a unit vector.
    pub(in crate::resolve) fn way_at(&self, drawn: &DrawnPiece, row: &Row, along: f64) -> Option<Vec2> {
        let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
        let placing = self.placing(&sketch);
        let said = placing.direction(row.at)?;
        let said = if self.is_at_fold() { placing.along_fold(drawn, said)? } else { said };
        match said {
            Direction::Along(way) => Some(way),
            Direction::Square => Some(drawn.edges.get(row.at)?.path.tangent_at_length(along)?.turn_90()),
        }
    }

    fn is_at_fold(&self) -> bool {
        matches!(self.pleat.place, crate::garment::PleatPlace::Fold)
    }

    /// How much of its edge a fold takes at a place, in millimetres.
    pub(in crate::resolve) fn taken(&self, row: &Row, edge: &Path, along: f64, way: Vec2) -> f64 {
        let tangent = edge.tangent_at_length(along).unwrap_or(Vec2::ZERO);
        2.0 * row.measures.depth / way.cross(tangent).abs().max(LEAST)
    }

    /// The pleats on the piece with their cloth put in, at these stretches of their edge.
    pub(in crate::resolve) fn laid(
        &self,
        drawn: &DrawnPiece,
        row: &Row,
        stretches: &[(f64, f64)],
    ) -> Option<Vec<DrawnTakeUp>> {
        let sketch = Sketch { drawn: Some(drawn.clone()), ..Sketch::default() };
        let placing = self.placing(&sketch);
        let said = placing.direction(row.at)?;
        let said = if self.is_at_fold() { placing.along_fold(drawn, said)? } else { said };
        let folds: Vec<Stretch> = row
            .places
            .iter()
            .zip(stretches)
            .map(|(place, &(from, to))| Stretch { from, to, outward: place.outward })
            .collect();
        placing.laid(row.at, &folds, &row.measures, said, row.backwards)
    }
}

/// The least share of a way along an edge that lies square to folds; what runs along the edge was reported.
const LEAST: f64 = 0.1;
