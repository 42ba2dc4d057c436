//! A tuck from the edge that it is placed on to another one.

use super::placing::Placing;
use crate::garment::EdgeId;
use crate::report::{Diagnostic, Title, catalogue};
use crate::resolve::drawn_piece::DrawnPiece;
use crate::resolve::drawn_take_up::{DrawnPleat, DrawnTakeUp, Mouth, TuckEnd};
use crate::resolve::sketch::ring;
use crate::shape::Point;
use crate::shape::line::meet_segment;
use crate::shape::path::Path;
use crate::shape::tolerance::{AT_CORNER, ON_OUTLINE, SAME_POINT};
use crate::shape::wedge::Wedge;

impl Placing<'_, '_> {
    /// Both ends of a tuck that goes to the edge `to`; reported where its lines do not get there.
    pub(super) fn tuck(
        &self,
        drawn: &DrawnPiece,
        first: DrawnTakeUp,
        pleat: DrawnPleat,
        to: EdgeId,
    ) -> Option<[DrawnTakeUp; 2]> {
        let work = self.work;
        let ring = ring(drawn);
        let far: f64 = ring.iter().map(Path::length).sum();
        let mut hits = Vec::with_capacity(2);
        for side in first.wedge.sides {
            let found = meet_segment(side, side + pleat.into * far, &ring);
            let hit = found.into_iter().find(|hit| hit.along > AT_CORNER)?;
            // At a corner either edge may be meant.
            let on = |at: usize| drawn.edges.get(at).filter(|edge| work.garment.is_run_of(edge.edge, to));
            let beside = [hit.edge, (hit.edge + 1) % ring.len(), (hit.edge + ring.len() - 1) % ring.len()];
            let own = beside
                .into_iter()
                .find(|&at| on(at).is_some_and(|edge| edge.path.nearest(hit.point).distance <= ON_OUTLINE));
            let Some(own) = own else {
                let left_by = drawn.edges.get(hit.edge).map(|edge| edge.edge);
                self.report_leaves(left_by, to);
                return None;
            };
            hits.push((own, ring.get(own).map_or(0.0, |path| path.nearest(hit.point).at), hit.point));
        }
        let [one, other] = <[(usize, f64, Point); 2]>::try_from(hits).ok()?;
        if one.0 != other.0 {
            self.report_leaves(None, to);
            return None;
        }
        let edge = drawn.edges.get(one.0)?;
        let length = edge.path.length();
        if one.1.min(other.1) <= SAME_POINT || one.1.max(other.1) >= length - SAME_POINT {
            let title = format!("{} comes to a corner of {}", self.name(), work.garment.edge(to).name);
            let help = "move it in: something of both edges is left on both sides of a tuck".to_owned();
            self.tell(&catalogue::PLEAT_OFF_EDGE, 1.0, self.take_up.span, title, help);
            return None;
        }
        let here = DrawnPleat {
            ends: [one.2, other.2],
            sewn: first.wedge.sides[0].distance(one.2),
            tuck: Some(TuckEnd::First),
            ..pleat
        };
        let point = one.2.midpoint(other.2);
        let first =
            DrawnTakeUp { wedge: Wedge { point, ..first.wedge }, apex: point, pleat: Some(here), ..first };
        let point = first.wedge.sides[0].midpoint(first.wedge.sides[1]);
        let there =
            DrawnPleat { into: -pleat.into, ends: first.wedge.sides, tuck: Some(TuckEnd::Second), ..here };
        let second = DrawnTakeUp {
            wedge: Wedge { sides: [one.2, other.2], point },
            apex: point,
            mouth: Some(Mouth { edge: edge.edge, from: one.1.min(other.1), to: one.1.max(other.1) }),
            pleat: Some(there),
            ..first
        };
        Some([first, if one.1 <= other.1 { second } else { second.turned() }])
    }

    fn report_leaves(&self, by: Option<EdgeId>, to: EdgeId) {
        let work = self.work;
        let (name, to_name) = (self.name(), &work.garment.edge(to).name);
        let title = match by {
            Some(by) => format!("{name} meets {} before {to_name}", work.garment.edge(by).name),
            None => format!("the two lines of {name} meet {to_name} in different runs"),
        };
        work.mistake(1.0, name, || {
            let message =
                Diagnostic::new(&catalogue::PLEAT_SEWN, self.take_up.span, Title::new(title).in_sizes());
            let message = message.also(work.garment.edge(to).span, format!("{to_name} is here"));
            message.help("name the edge that it really comes to; or let it run along another line: along …")
        });
    }
}
