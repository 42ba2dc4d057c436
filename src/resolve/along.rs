//! Places on edges as they are sewn: so far from a corner, a mark, a neighbouring edge or a side of a take-up; at a
//! point; half way.

use super::drawn_piece::{CornerName, DrawnPiece};
use super::measures::taken;
use super::model::DrawnEdgeId;
use crate::garment::{
    CountedFrom, Dimension, EdgeId, EdgePlace, Expression, Garment, PlaceAt, PointId, TakeUpSide,
};
use crate::shape::Point;
use crate::shape::tolerance::{ON_OUTLINE, SAME_POINT};

/// Why a place on an edge is not known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PlaceLost {
    /// What it is counted by is not known, which has been reported.
    Unknown,
    /// It is counted from what does not lie at the edge.
    NotThere,
    /// It is a share of the edge, from neither end.
    FromWhichEnd,
    /// It is counted from a place between the ends, and may be counted either way.
    EitherWay,
    /// It is counted from an edge that lies at both of its ends.
    BothEnds,
    /// A run that has no length.
    Nothing,
    /// It lies so far beyond the edge, in millimetres.
    Beyond(f64),
}

/// An edge of a piece, in the runs that it is cut in, in order.
pub(crate) struct Along<'a> {
    garment: &'a Garment,
    drawn: &'a DrawnPiece,
    runs: Vec<DrawnEdgeId>,
    /// What an expression comes to.
    amount: &'a dyn Fn(&Expression) -> Option<f64>,
}

impl<'a> Along<'a> {
    /// Of runs of one edge of a piece.
    pub(crate) fn of(
        garment: &'a Garment,
        drawn: &'a DrawnPiece,
        mut runs: Vec<DrawnEdgeId>,
        amount: &'a dyn Fn(&Expression) -> Option<f64>,
    ) -> Self {
        runs.sort_unstable();
        Along { garment, drawn, runs, amount }
    }

    /// How long each run is as sewn.
    fn lengths(&self) -> Vec<f64> {
        let length = |&run: &DrawnEdgeId| taken(self.garment, self.drawn, run).map_or(0.0, |map| map.sewn());
        self.runs.iter().map(length).collect()
    }

    /// How far along the edge a place is, as sewn, from its start, in millimetres.
    ///
    /// # Errors
    /// When that is not known, or beyond its ends.
    pub(crate) fn at(&self, place: &EdgePlace) -> Result<f64, PlaceLost> {
        let whole: f64 = self.lengths().iter().sum();
        let at = match &place.at {
            PlaceAt::Middle => whole / 2.0,
            PlaceAt::Share(share) => {
                let share = (self.amount)(share).ok_or(PlaceLost::Unknown)?;
                // From neither end only the middle is a place.
                if (share - 0.5).abs() > 1e-9 {
                    return Err(PlaceLost::FromWhichEnd);
                }
                whole / 2.0
            }
            PlaceAt::Point(point) => self.point(*point)?,
            PlaceAt::From(value, from) => {
                let said = (self.amount)(value).ok_or(PlaceLost::Unknown)?;
                let far = if value.dimension == Dimension::Number { said * whole } else { said };
                let (start, back) = self.station(*from, far, whole)?;
                if back { start - far } else { start + far }
            }
        };
        let beyond = (-at).max(at - whole);
        if beyond > SAME_POINT { Err(PlaceLost::Beyond(beyond)) } else { Ok(at.clamp(0.0, whole)) }
    }

    /// The run, and how far along its path, a place of the sewn edge lies.
    pub(crate) fn on_run(&self, at: f64) -> Option<(DrawnEdgeId, f64)> {
        let mut left = at;
        let lengths = self.lengths();
        for (place, (&run, &length)) in self.runs.iter().zip(&lengths).enumerate() {
            if left <= length + SAME_POINT || place + 1 == self.runs.len() {
                return Some((run, taken(self.garment, self.drawn, run)?.as_drawn(left.min(length))));
            }
            left -= length;
        }
        None
    }

    /// Of each run the stretch that lies between two places of the sewn edge: along its path, and how long it is as
    /// sewn.
    pub(crate) fn between(&self, from: f64, to: f64) -> Vec<(DrawnEdgeId, (f64, f64), f64)> {
        let mut before = 0.0;
        let mut found = Vec::new();
        for (&run, length) in self.runs.iter().zip(self.lengths()) {
            let (start, end) = ((from - before).max(0.0), (to - before).min(length));
            before += length;
            if end - start <= SAME_POINT {
                continue;
            }
            let Some(map) = taken(self.garment, self.drawn, run) else { continue };
            found.push((run, (map.as_drawn(start), map.as_drawn(end)), end - start));
        }
        found
    }

    /// Where something is counted from, as sewn from the start, and whether back from there.
    fn station(&self, from: CountedFrom, far: f64, whole: f64) -> Result<(f64, bool), PlaceLost> {
        let (Some(&first), Some(&last)) = (self.runs.first(), self.runs.last()) else {
            return Err(PlaceLost::Unknown);
        };
        match from {
            CountedFrom::Point(point) => {
                let at = self.point(point)?;
                let (on, back) = (at + far <= whole + SAME_POINT, at - far >= -SAME_POINT);
                let is_inside = at > SAME_POINT && at < whole - SAME_POINT;
                if is_inside && far.abs() > SAME_POINT && on && back {
                    return Err(PlaceLost::EitherWay);
                }
                Ok((at, at >= whole - SAME_POINT || is_inside && !on))
            }
            CountedFrom::Edge(other) => {
                let is = |at: DrawnEdgeId| {
                    self.drawn.edge_at(at).is_some_and(|edge| self.garment.is_run_of(edge.edge, other))
                };
                match (is(self.drawn.before(first)), is(self.drawn.after(last))) {
                    (true, true) => Err(PlaceLost::BothEnds),
                    (true, false) => Ok((0.0, false)),
                    (false, true) => Ok((whole, true)),
                    (false, false) => Err(PlaceLost::NotThere),
                }
            }
            CountedFrom::Side(take_up, side) => self.side(take_up, side),
        }
    }

    /// A side of a take-up of the edge: its cloth is taken out, so that both sides are one place as sewn, and one goes
    /// on from the one this way and from the other that way.
    fn side(&self, take_up: EdgeId, side: TakeUpSide) -> Result<(f64, bool), PlaceLost> {
        let is_named = |name: EdgeId| self.garment.is_run_of(name, take_up);
        let mut before = 0.0;
        for (&run, length) in self.runs.iter().zip(self.lengths()) {
            let Some(edge) = self.drawn.edge_at(run) else { continue };
            for (placed, mouth) in self.drawn.taken_from(edge) {
                if is_named(placed.name) {
                    let map = taken(self.garment, self.drawn, run).ok_or(PlaceLost::Unknown)?;
                    let is_back = (side == TakeUpSide::Near) == (placed.near == 0);
                    return Ok((before + map.as_sewn(mouth.from), is_back));
                }
            }
            if let Some((slit, mouth)) =
                self.drawn.slits_on(edge).into_iter().find(|(slit, _)| is_named(slit.name))
            {
                let map = taken(self.garment, self.drawn, run).ok_or(PlaceLost::Unknown)?;
                let is_back = (side == TakeUpSide::Near) == (slit.near == 0);
                return Ok((before + map.as_sewn(mouth.from), is_back));
            }
            // Where a slit is cut, a run ends at its one side and the next begins at the other.
            let next = self.drawn.edge_at(self.drawn.after(run)).map(|next| self.garment.edge(next.edge));
            if let Some(next) = next.filter(|next| next.side_of.is_some_and(is_named)) {
                let is_near = next.name.ends_with("near");
                return Ok((before + length, (side == TakeUpSide::Near) == is_near));
            }
            before += length;
        }
        Err(PlaceLost::NotThere)
    }

    /// Where a corner or a point on the edge is, as sewn from its start.
    fn point(&self, point: PointId) -> Result<f64, PlaceLost> {
        let garment = self.garment;
        let is =
            |corner: CornerName| matches!(corner, CornerName::Named(own) if garment.is_point_of(own, point));
        let mut before = 0.0;
        let mut nearest: Option<(f64, f64)> = None;
        let spot = self.drawn.spots.iter().find(|spot| garment.is_point_of(spot.point, point));
        for (&run, length) in self.runs.iter().zip(self.lengths()) {
            let edge = self.drawn.edge_at(run).ok_or(PlaceLost::Unknown)?;
            if is(edge.corner) {
                return Ok(before);
            }
            if self.drawn.edge_at(self.drawn.after(run)).is_some_and(|next| is(next.corner)) {
                return Ok(before + length);
            }
            if let Some(spot) = spot {
                let found = edge.path.nearest(spot.at);
                if found.distance <= ON_OUTLINE && nearest.is_none_or(|(least, _)| found.distance < least) {
                    let map = taken(garment, self.drawn, run).ok_or(PlaceLost::Unknown)?;
                    nearest = Some((found.distance, before + map.as_sewn(found.at)));
                }
            }
            before += length;
        }
        nearest.map(|(_, at)| at).ok_or(PlaceLost::NotThere)
    }

    /// Where a place of the sewn edge lies on the paper.
    pub(crate) fn on_paper(&self, at: f64) -> Option<Point> {
        let (run, along) = self.on_run(at)?;
        Some(self.drawn.edge_at(run)?.path.point_at_length(along))
    }
}
