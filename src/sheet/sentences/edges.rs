//! Edges of halves that are opened out, and places on edges that have no name of their own.

use super::teller::{Teller, Way};
use crate::garment::{CountedFrom, CutHow, EdgeId, EdgePlace, Part, PlaceAt, PointId};
use crate::resolve::{DrawnEdgeId, taken};
use crate::sewing::amount_of;
use crate::shape::Point;
use crate::sheet::{FigureKind, Text};
use crate::syntax::tree::Hand;

/// Edges of a rectangle, and those across from them.
const ACROSS: [(&str, &str); 4] =
    [("left", "right"), ("right", "left"), ("top", "bottom"), ("bottom", "top")];

/// Nearer to the fold than this it is on it, in millimetres.
const AT_FOLD: f64 = 0.05;

impl Teller<'_> {
    /// A place on an edge that has no name of its own: so far from where it is counted from.
    pub(super) fn on_edge(&self, point: PointId, part: Part, hand: Option<Hand>, way: Way) -> Option<Text> {
        let placed = self.garment.placed_points.iter().find(|placed| placed.point == point)?;
        let edge = *placed.edges.first()?;
        let words = self.edge_name(&self.edge_words(edge));
        let named = self.forms().edge(words, self.piece(part, hand, way));
        let from = match &placed.place.at {
            PlaceAt::Middle => return Some(self.forms().middle_of_edge(named)),
            PlaceAt::From(_, from) => *from,
            PlaceAt::Share(share) => {
                let size = self.facts.sizes.first()?;
                let share = amount_of(self.garment, &size.drawn, share)?;
                return ((share - 0.5).abs() < 1e-6).then(|| self.forms().middle_of_edge(named));
            }
            PlaceAt::Point(_) => return None,
        };
        let amount = self.figure(FigureKind::Length, |_, size| {
            let drawn = size.drawn.paper(part.paper)?;
            let (id, own) = DrawnEdgeId::enumerate(&drawn.edges)
                .find(|(_, own)| self.garment.is_run_of(own.edge, edge) || own.edge == edge)?;
            let taken = taken(self.garment, drawn, id)?;
            let along = |at| taken.as_sewn(own.path.length_to(own.path.nearest(at).position));
            let spot = |point| drawn.spots.iter().find(|spot| self.garment.is_point_of(spot.point, point));
            let counted = match from {
                CountedFrom::Point(from) => along(spot(from)?.at),
                CountedFrom::Edge(beside) => {
                    let beside = drawn.edges.iter().find(|own| self.garment.is_run_of(own.edge, beside))?;
                    let ends = [own.path.start(), own.path.end()];
                    let off = |at: &Point| beside.path.nearest(*at).distance;
                    along(ends.into_iter().min_by(|one, other| off(one).total_cmp(&off(other)))?)
                }
                CountedFrom::Side(..) => return None,
            };
            Some((along(spot(point)?.at) - counted).abs())
        })?;
        Some(match from {
            CountedFrom::Point(from) => {
                self.forms().on_edge(named, amount, self.name(&self.garment.point_words(from)))
            }
            // Of what is drawn as a half its end at the fold is the middle of the whole.
            CountedFrom::Edge(fold)
                if self.is_fold(part, fold) && amount.values.iter().flatten().all(|at| *at < AT_FOLD) =>
            {
                self.forms().middle_of_edge(named)
            }
            CountedFrom::Edge(beside) => {
                self.forms().on_edge_from(named, amount, self.name(&self.edge_words(beside)))
            }
            CountedFrom::Side(..) => return None,
        })
    }

    /// A place on an edge, as its maker counts it; none where that has no words of its own.
    pub(super) fn place_on(&self, named: Text, place: &EdgePlace) -> Option<Text> {
        let forms = self.forms();
        Some(match &place.at {
            PlaceAt::Middle => forms.middle_of_edge(named),
            PlaceAt::Share(share) => {
                let size = self.facts.sizes.first()?;
                let share = amount_of(self.garment, &size.drawn, share)?;
                return ((share - 0.5).abs() < 1e-6).then(|| forms.middle_of_edge(named));
            }
            PlaceAt::Point(point) => {
                let at = self.garment.point(*point).piece;
                let part = self.part_of(None, at)?;
                self.point(*point, part, None, Way::default())
            }
            // How far from its end no output says.
            PlaceAt::From(..) => return None,
        })
    }

    /// Whether an edge runs on across the fold that its piece is cut on.
    pub fn runs_across(&self, part: Part, edge: EdgeId) -> bool {
        let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(part.paper));
        paper.is_some_and(|drawn| matches!(drawn.cut, CutHow::OnFold(_))) && !self.is_there_twice(part, edge)
    }

    /// Whether an edge is the fold that its piece is cut on.
    pub(super) fn is_fold(&self, part: Part, edge: EdgeId) -> bool {
        let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(part.paper));
        paper.is_some_and(
            |drawn| matches!(drawn.cut, CutHow::OnFold(fold) if self.garment.is_run_of(edge, fold)),
        )
    }

    /// What an edge is called on its whole piece. The right edge of a rectangle of which the left one is the fold is there on
    /// both sides, of which the other is the left one.
    pub(super) fn whole_words(&self, part: Part, edge: EdgeId) -> Vec<String> {
        let words = self.edge_words(edge);
        let whole = self.garment.whole_edge(edge);
        let across = ACROSS.iter().find(|(own, _)| words == *own && self.is_there_twice(part, whole));
        let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(part.paper));
        let fold = paper.and_then(|drawn| match drawn.cut {
            CutHow::OnFold(fold) => Some(self.edge_words(fold)),
            CutHow::Alike | CutHow::Mirrored => None,
        });
        match across.filter(|(_, other)| fold.as_deref() == Some(*other)) {
            Some((own, other)) => vec![(*other).to_owned(), (*own).to_owned()],
            None => vec![words],
        }
    }

    /// Whether an edge is there twice on a piece that is cut on the fold: on both its halves, and does not run on across the
    /// fold.
    pub fn is_there_twice(&self, part: Part, edge: EdgeId) -> bool {
        let paper = self.facts.sizes.first().and_then(|size| size.drawn.paper(part.paper));
        paper.is_some_and(|drawn| {
            let CutHow::OnFold(fold) = drawn.cut else { return false };
            let edges = drawn.outline();
            let is_fold = |at: usize| {
                edges.get(at % edges.len()).is_some_and(|own| self.garment.is_run_of(own.edge, fold))
            };
            let mut own = (0..edges.len())
                .filter(|at| edges.get(*at).is_some_and(|own| self.garment.is_run_of(own.edge, edge)))
                .peekable();
            own.peek().is_some() && own.all(|at| !is_fold(at + 1) && !is_fold(at + edges.len() - 1))
        })
    }
}
