//! Places on edges where something is sewn: so far from a corner, at a mark, half way.

use super::Lowering;
use super::declare::constant;
use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use super::take_up::is_share;
use crate::garment::{
    CountedFrom, CutHow, Dimension, EdgeId, EdgePlace, Expression, LayerId, Node, NotchAt, PieceId, PlaceAt,
    PlacedPoint, PointId, PointName, Seam, SewnEdge, SewnPoint, SewnSpot, Symbol,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, ExprKind};
use std::sync::Arc;

/// A place on one of several edges that are sewn as one.
pub(super) enum SewnPlaceAt {
    /// A corner, a mark, or a place on one edge.
    Point(Option<LayerId>, PointId),
    /// So far from a corner or a mark.
    From(Expression, Option<LayerId>, PointId),
    /// Such a share of all of it, from neither end.
    Share(Expression),
}

impl Lowering<'_> {
    /// A place on an edge, as a point of its piece. `mark` where it is shown on the cut piece.
    pub(super) fn point_on_edge(
        &mut self,
        edge: EdgeId,
        place: &tree::EdgePlace,
        named: Span,
        mark: bool,
    ) -> Option<PointId> {
        let piece = self.garment.edge(edge).piece;
        let on = self.place_of_one(piece, place, named)?;
        // A mark is shown already.
        let is_shown = matches!(on.at, PlaceAt::Point(point) if self.garment.point(point).mark);
        let mark = mark && !is_shown;
        Some(self.placed_point(piece, vec![edge], on, place, named, mark))
    }

    /// A place on an edge of a piece, where that is cut on the fold too.
    pub(super) fn place_of_one(
        &self,
        piece: PieceId,
        place: &tree::EdgePlace,
        named: Span,
    ) -> Option<EdgePlace> {
        if !matches!(place, tree::EdgePlace::Fold) {
            return self.edge_place(piece, place, When::Fact);
        }
        let known = self.garment.piece(piece);
        let said = self.cut_said.get().filter(|(of, ..)| *of == piece);
        let (how, cut) = said.map_or((known.cut.how, known.cut.span), |(_, how, cut)| (how, cut));
        if let CutHow::OnFold(fold) = how {
            let at = PlaceAt::From(nothing(named), CountedFrom::Edge(fold));
            return Some(EdgePlace { at, span: named });
        }
        if !cut.is_empty() {
            let title = format!("{} is not cut on the fold, so that no place of it lies there", known.title);
            let help = "write in the middle, or count from a corner: 8 from a corner of the edge";
            let mistake = Diagnostic::new(&catalogue::EDGE_PLACE, named, title).label("where?");
            self.report(mistake.also(cut, "cut here").help(help));
        }
        None
    }

    fn placed_point(
        &mut self,
        piece: PieceId,
        edges: Vec<EdgeId>,
        on: EdgePlace,
        place: &tree::EdgePlace,
        named: Span,
        mark: bool,
    ) -> PointId {
        let edge = edges.first().map_or_else(String::new, |&edge| self.garment.edge(edge).name.to_string());
        let (words, span) = match place {
            tree::EdgePlace::Middle => ("in the middle".to_owned(), named),
            tree::EdgePlace::Fold => ("at the fold".to_owned(), named),
            tree::EdgePlace::At { value, from: None } => {
                (format!("at {}", self.words(value.span)), value.span)
            }
            tree::EdgePlace::At { value, from: Some(from) } => {
                let words = format!("{} from {}", self.words(value.span), self.words(from.span));
                (words, value.span.to(from.span))
            }
        };
        let name: Arc<str> = format!("{edge} {words}").into();
        let unit = self.unit_at(span);
        let same = |known: &&PlacedPoint| {
            let point = self.garment.point(known.point);
            known.edges == edges && point.name == name && self.unit_at(point.span) == unit
        };
        if let Some(known) = self.garment.placed_points.iter().find(same).map(|known| known.point) {
            self.garment.points[known.index()].mark |= mark;
            return known;
        }
        let point = PointId::from_index(self.garment.points.len());
        let label = None;
        self.garment.points.push(PointName {
            piece,
            name,
            span,
            mark,
            label,
            same_as: None,
            copied_from: None,
        });
        self.garment.placed_points.push(PlacedPoint { point, edges, place: on });
        point
    }

    /// A place on what a seam or a closure takes: `8 from underarm`, `at balance`, `in the middle`. A name alone is
    /// that of one of its pieces.
    pub(super) fn place_along(
        &mut self,
        edges: &[SewnEdge],
        place: &tree::EdgePlace,
        sought: Sought,
    ) -> Option<SewnPlaceAt> {
        let (value, from) = match place {
            // What lies on a fold is said of one edge: the grammar has it nowhere else.
            tree::EdgePlace::Middle | tree::EdgePlace::Fold => {
                let span = edges.first().map_or_else(Span::default, |sewn| sewn.span);
                return Some(SewnPlaceAt::Share(constant(0.5, span)));
            }
            tree::EdgePlace::At { value, from } => (value, from),
        };
        let Some(from) = from else {
            if let ExprKind::Name(dotted) = &value.kind
                && let Some((layer, point)) = self.point_along(edges, dotted)
            {
                return Some(SewnPlaceAt::Point(layer, point));
            }
            if let ExprKind::Name(dotted) = &value.kind
                && !matches!(dotted.parts.as_slice(), [alone] if self.names.values.contains_key(&alone.text))
            {
                self.report_no_point(edges, dotted, sought);
                return None;
            }
            let share = self.lower(value, When::Fact, None, Wanted::Any);
            if (share.dimension != Dimension::Number || !is_share(value)) && !share.is_poison() {
                let title = "a place on an edge is so far from somewhere";
                let help = "say from where: 8 from a corner, a mark or a neighbouring edge; or at 50%, in the middle";
                let mistake = Diagnostic::new(&catalogue::EDGE_PLACE, value.span, title);
                self.report(mistake.label("from where?").help(help));
                return None;
            }
            return Some(SewnPlaceAt::Share(share));
        };
        if let Some((layer, point)) = self.point_along(edges, from) {
            return Some(SewnPlaceAt::From(self.length_or_share(value), layer, point));
        }
        let (layer, piece, counted) = self.counted_along(edges, from, sought)?;
        let own: Vec<EdgeId> =
            edges.iter().filter(|sewn| sewn.piece == piece).map(|sewn| sewn.edge).collect();
        let on = tree::EdgePlace::At { value: value.clone(), from: Some(counted) };
        let lowered = self.edge_place(piece, &on, When::Fact)?;
        if own.is_empty() {
            let title = format!("{} is no edge of what is sewn here", self.words(from.span));
            let help = "count from a corner of one of its edges, a mark on it or an edge beside it";
            self.report(Diagnostic::new(&catalogue::EDGE_PLACE, from.span, title).help(help));
            return None;
        }
        Some(SewnPlaceAt::Point(layer, self.placed_point(piece, own, lowered, place, from.span, false)))
    }

    /// So far from a corner or a mark, on an edge that a closure takes.
    pub(super) fn counted_on(&mut self, edges: &[SewnEdge], place: &tree::EdgePlace) -> Option<PointId> {
        let tree::EdgePlace::At { from: Some(from), .. } = place else { return None };
        let SewnPlaceAt::From(amount, _, point) = self.place_along(edges, place, Sought::PointOfClosure)?
        else {
            return None;
        };
        let piece = self.garment.point(point).piece;
        let own = edges.iter().filter(|sewn| sewn.piece == piece && !self.garment.edge(sewn.edge).line);
        let own: Vec<EdgeId> = own.map(|sewn| sewn.edge).collect();
        if own.is_empty() {
            let title = format!(
                "{} lies on no edge of this closure, and no way leads from it along a line",
                self.words(from.span)
            );
            let help = "along a line that goes down, places are said up or down from a point: 3 below it, or 3 above it; of one that \
                        goes across, draw the line from the first place to the last, and leave from … to … out";
            self.report(Diagnostic::new(&catalogue::EDGE_PLACE, from.span, title).help(help));
            return None;
        }
        let on = EdgePlace { at: PlaceAt::From(amount, CountedFrom::Point(point)), span: from.span };
        Some(self.placed_point(piece, own, on, place, from.span, false))
    }

    /// A corner or a mark of one of those pieces, by a name alone or with its piece. Nothing is reported.
    pub(super) fn point_along(
        &self,
        edges: &[SewnEdge],
        dotted: &tree::Dotted,
    ) -> Option<(Option<LayerId>, PointId)> {
        let (last, head) = dotted.parts.split_last()?;
        let layer = match head {
            [layer, _] => Some(*self.names.layers.get(&layer.text)?),
            _ => None,
        };
        let named = match head.last() {
            Some(piece) => Some(*self.names.pieces.get(&piece.text)?),
            None => None,
        };
        let pieces = edges.iter().map(|sewn| sewn.piece).chain(named);
        let mut own = pieces.filter(|piece| named.is_none_or(|named| named == *piece));
        let (piece, point) = own.find_map(|piece| {
            let points = self.piece_points.get(piece.index())?;
            Some((piece, *points.get(&last.text)?))
        })?;
        if let Some(word) = head.last() {
            self.used(Symbol::Piece(piece), word.span);
        }
        if let ([word, _], Some(layer)) = (head, layer) {
            self.used(Symbol::Layer(layer), word.span);
        }
        self.used(Symbol::Point(point), last.span);
        let of_edge = || edges.iter().find(|sewn| sewn.piece == piece).and_then(|sewn| sewn.layer);
        Some((layer.or_else(|| of_edge().filter(|_| head.is_empty())), point))
    }

    /// An edge or a side of a dart that something is counted from, and the piece that it is of.
    fn counted_along(
        &self,
        edges: &[SewnEdge],
        from: &tree::Dotted,
        sought: Sought,
    ) -> Option<(Option<LayerId>, PieceId, tree::Dotted)> {
        let knows = |piece: PieceId, name: &tree::Name| self.edge_named(piece, &name.text).is_some();
        let words = from.parts.as_slice();
        let own = edges.iter().find(|sewn| words.first().is_some_and(|first| knows(sewn.piece, first)));
        let named = words.first().and_then(|first| self.names.pieces.get(&first.text)).copied();
        if let (Some(sewn), None) = (own, named) {
            return Some((sewn.layer, sewn.piece, from.clone()));
        }
        match words {
            [layer, piece, rest @ ..] if !rest.is_empty() && named.is_none() => {
                let (layer, piece_id) = (self.find_layer(layer)?, self.find_piece(piece)?);
                Some((Some(layer), piece_id, tree::Dotted { parts: rest.to_vec(), ..from.clone() }))
            }
            [_, name, ..] if named.is_some_and(|piece| knows(piece, name)) => {
                let (piece, rest) = words.split_first()?;
                Some((None, self.find_piece(piece)?, tree::Dotted { parts: rest.to_vec(), ..from.clone() }))
            }
            _ => {
                self.report_no_point(edges, from, sought);
                None
            }
        }
    }

    /// A name that is no corner, mark or edge of what is sewn.
    fn report_no_point(&self, edges: &[SewnEdge], dotted: &tree::Dotted, sought: Sought) {
        let [alone] = dotted.parts.as_slice() else {
            self.find_dotted_point(dotted);
            return;
        };
        let mut among: Vec<Arc<str>> = Vec::new();
        for sewn in edges {
            let points = self.piece_points.get(sewn.piece.index());
            among.extend(points.iter().flat_map(|own| own.keys().cloned()));
        }
        self.unknown(sought, &alone.text, alone.span, &among);
    }

    fn length_or_share(&self, value: &tree::Expr) -> Expression {
        let typed = self.lower(value, When::Fact, None, Wanted::Any);
        match typed.dimension {
            // A bare number is a length; `25%` is a share.
            Dimension::Number if is_share(value) => typed,
            _ => self.lower(value, When::Fact, None, Wanted::Length),
        }
    }

    /// Where a notch of a seam is.
    pub(super) fn notch_at(&mut self, place: &tree::EdgePlace, seam: &Seam) -> Option<NotchAt> {
        let edges: Vec<SewnEdge> =
            seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges).copied().collect();
        self.notch_on(&edges, place, seam)
    }

    /// A place of a seam, on one of these of its edges.
    pub(super) fn notch_on(
        &mut self,
        edges: &[SewnEdge],
        place: &tree::EdgePlace,
        seam: &Seam,
    ) -> Option<NotchAt> {
        // The ends of a run are known to its seam alone.
        let named = match place {
            tree::EdgePlace::At { from: Some(from), .. } => Some(from),
            tree::EdgePlace::At { value, from: None } => match &value.kind {
                ExprKind::Name(dotted) => Some(dotted),
                _ => None,
            },
            tree::EdgePlace::Middle | tree::EdgePlace::Fold => None,
        };
        if let Some(end) = named.and_then(|named| self.run_end(named, seam)) {
            let amount = match place {
                tree::EdgePlace::At { value, from: Some(_) } => self.length_or_share(value),
                _ => nothing(seam.name_span),
            };
            return Some(NotchAt::From(amount, end?));
        }
        let span = named.map_or(seam.name_span, |named| named.span);
        let point = |layer, point| SewnPoint { layer, point: SewnSpot::Point(point), span };
        Some(match self.place_along(edges, place, Sought::PointOfSeam)? {
            SewnPlaceAt::Point(layer, at) => NotchAt::From(nothing(span), point(layer, at)),
            SewnPlaceAt::From(amount, layer, at) => NotchAt::From(amount, point(layer, at)),
            SewnPlaceAt::Share(share) => NotchAt::Share(share),
        })
    }

    /// A corner or a mark of a seam, or a place on one of its edges: `front.armhole at 5 from tip`.
    pub(super) fn place_in_seam(&mut self, place: &tree::SewnPlace, seam: &Seam) -> Option<SewnPoint> {
        let Some(on) = &place.place else { return self.seam_point(&place.at, seam) };
        let sewn = self.named_edge(&place.at, false, None)?;
        let point = self.point_on_edge(sewn.edge, on, place.at.span, false)?;
        Some(SewnPoint { layer: sewn.layer, point: SewnSpot::Point(point), span: place.span })
    }

    /// A corner or a mark, or a place on an edge: the layer that is named, and the point.
    pub(super) fn sewn_place(
        &mut self,
        at: &tree::Dotted,
        place: Option<&tree::EdgePlace>,
        mark: bool,
    ) -> Option<(Option<LayerId>, PointId)> {
        let Some(on) = place else {
            let (part, point) = self.find_dotted_point(at)?;
            return Some((part.layer, point));
        };
        let sewn = self.named_edge(at, false, None)?;
        Some((sewn.layer, self.point_on_edge(sewn.edge, on, at.span, mark)?))
    }
}

/// No way at all.
fn nothing(span: Span) -> Expression {
    Expression { node: Node::Constant(0.0), dimension: Dimension::Length, span }
}
