//! Outlines that are walked from corner to corner.

use super::Lowering;
use super::declare::poison;
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{BeyondDart, Direction, EdgePath, Outline, PieceId, PointId, TakeUp, WalkEdge};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, DirectionKind};

impl Lowering<'_> {
    pub(super) fn lower_walk(
        &self,
        piece: PieceId,
        from: &tree::Name,
        edges: &[tree::WalkEdge],
        span: Span,
        take_ups: &mut Vec<TakeUp>,
    ) -> Outline {
        let Some(start) = self.find_corner(piece, from) else {
            // The walk's own edges may still hold other mistakes.
            for edge in edges {
                self.lower_path(&edge.path, piece, When::Drawing(piece));
                self.find_corner(piece, &edge.to);
            }
            return Outline::None;
        };
        let mut walk: Vec<WalkEdge> = Vec::with_capacity(edges.len());
        let (mut at, mut whole) = (Some(start), true);
        for (nth, edge) in edges.iter().enumerate() {
            if let Some(dart) = &edge.dart {
                let to = self.find_corner(piece, &edge.to);
                let goes_on = edges.get(nth + 1).is_some() && goes_on_from(edges, nth + 1);
                if !goes_on {
                    self.report_dart_at_corner(edge, edges, nth);
                }
                let of = walk.last().filter(|_| goes_on).map(|before| before.edge);
                let lowered = match (of, at, to) {
                    (Some(of), Some(leaves), Some(returns)) => {
                        self.lower_walk_dart(piece, of, [leaves, returns], edge, dart)
                    }
                    _ => None,
                };
                whole &= lowered.is_some();
                take_ups.extend(lowered);
                at = to;
                continue;
            }
            let path = self.lower_path(&edge.path, piece, When::Drawing(piece));
            let to = self.find_corner(piece, &edge.to);
            if goes_on_from(edges, nth) {
                match (at, to, walk.last_mut()) {
                    (Some(returns), Some(to), Some(edge)) => {
                        let leaves = std::mem::replace(&mut edge.to, to);
                        edge.beyond_darts.push(BeyondDart { leaves, returns, path });
                    }
                    _ => whole = false,
                }
                at = to;
                continue;
            }
            // An edge of a name that another has is reported where names are given out.
            let id = self.piece_edges[piece.index()]
                .get(&edge.name.text)
                .copied()
                .filter(|&id| self.garment.edge(id).span == edge.name.span);
            match (at, to, id) {
                (Some(from), Some(to), Some(id)) => walk.push(WalkEdge {
                    edge: id,
                    from,
                    to,
                    path,
                    beyond_darts: Vec::new(),
                    span: edge.span,
                }),
                _ => whole = false,
            }
            at = to;
        }
        if edges.is_empty() && !self.is_damaged(span) {
            let title = format!("the outline of {} has no edges", self.garment.piece(piece).title);
            let help = "walk round it, from corner to corner: { side to hem_side; hem to hem_centre; … }";
            let diagnostic = Diagnostic::new(&catalogue::OUTLINE_MISSING, span, title);
            self.report(diagnostic.label("nothing is drawn here").help(help));
        }
        let Some(last) = walk.last().filter(|_| whole) else { return Outline::None };
        if last.to != start {
            if self.is_damaged(span.to(last.span)) {
                return Outline::None; // an edge may be lost in what could not be read
            }
            let (end, start_name) = (self.garment.point(last.to).name.clone(), from.text.clone());
            let title = format!("the outline starts at {start_name} and ends at {end}: it does not close");
            let diagnostic = Diagnostic::new(&catalogue::OUTLINE_OPEN, last.span, title)
                .label(format!("ends at {end}"))
                .also(from.span, format!("starts at {start_name}"))
                .help(format!("add an edge that leads to {start_name}"));
            self.report(diagnostic);
            return Outline::None;
        }
        let mut ends: Vec<(PointId, Span)> = Vec::with_capacity(walk.len());
        for edge in walk.iter().flat_map(|edge| edge.ends().map(|end| (end, edge.span))) {
            ends.push(edge);
        }
        for (at, &(end, span)) in ends.iter().enumerate() {
            if let Some(&(_, first)) = ends[..at].iter().find(|(other, _)| *other == end) {
                let name = self.garment.point(end).name.clone();
                let title = format!("the outline passes through {name} twice");
                let diagnostic = Diagnostic::new(&catalogue::OUTLINE_CROSSES, span, title)
                    .label("again here")
                    .also(first, "first here")
                    .help("each corner is passed once");
                self.report(diagnostic);
                return Outline::None;
            }
        }
        Outline::Walk { edges: walk, cutting: None, span }
    }

    pub(super) fn report_dart_at_corner(&self, dart: &tree::WalkEdge, edges: &[tree::WalkEdge], nth: usize) {
        let name = &dart.name.text;
        let title = format!("the dart {name} does not lie between two runs of one edge");
        let before =
            nth.checked_sub(1).and_then(|before| edges.get(before)).filter(|edge| edge.dart.is_none());
        let mut mistake =
            Diagnostic::new(&catalogue::DART_CORNER, dart.span, title).label("ends in a corner");
        let help = match before {
            Some(before) => {
                mistake = mistake.also(before.name.span, "the edge before it");
                let edge = &before.name.text;
                format!(
                    "let {edge} go on after it: {edge} to …; a dart is sewn shut, and its edge runs on over it"
                )
            }
            None => "let an edge lead to it, and go on after it under the same name".to_owned(),
        };
        if let Some(after) = edges.get(nth + 1) {
            mistake = mistake.also(after.name.span, "what follows it");
        }
        self.report(mistake.help(help));
    }

    pub(super) fn lower_path(&self, path: &tree::EdgePath, piece: PieceId, when: When) -> EdgePath {
        match path {
            tree::EdgePath::Straight => EdgePath::Straight,
            tree::EdgePath::Curve { leaving, arriving, through, span } => EdgePath::Curve {
                leaving: leaving.as_ref().and_then(|direction| self.lower_direction(direction, piece, when)),
                arriving: arriving
                    .as_ref()
                    .and_then(|direction| self.lower_direction(direction, piece, when)),
                through: through
                    .iter()
                    .map(|point| self.lower(point, when, Some(piece), Wanted::Point))
                    .collect(),
                span: *span,
            },
            tree::EdgePath::Handles { first, second, span } => EdgePath::Handles {
                first: self.lower(first, when, Some(piece), Wanted::Point),
                second: self.lower(second, when, Some(piece), Wanted::Point),
                span: *span,
            },
            tree::EdgePath::Arc { about, clockwise, span } => EdgePath::Arc {
                about: self.lower(about, when, Some(piece), Wanted::Point),
                clockwise: *clockwise,
                span: *span,
            },
        }
    }

    pub(super) fn lower_direction(
        &self,
        direction: &tree::Direction,
        piece: PieceId,
        when: When,
    ) -> Option<Direction> {
        let quarter_turns = |turns: f64| {
            let mut angle = super::declare::constant(turns * std::f64::consts::FRAC_PI_2, direction.span);
            angle.dimension = crate::garment::Dimension::Angle;
            Direction::Angle(angle)
        };
        Some(match &direction.kind {
            DirectionKind::Right => quarter_turns(0.0),
            DirectionKind::Up => quarter_turns(1.0),
            DirectionKind::Left => quarter_turns(2.0),
            DirectionKind::Down => quarter_turns(3.0),
            DirectionKind::Angle(angle) if self.is_no_direction(angle) => {
                Direction::Angle(poison(angle.span))
            }
            DirectionKind::Angle(angle) => {
                Direction::Angle(self.lower(angle, when, Some(piece), Wanted::Angle))
            }
            DirectionKind::SquareTo(edge) => match self.find_edge(piece, edge) {
                Some(found) => Direction::SquareTo(found, edge.span),
                None => Direction::Angle(poison(edge.span)),
            },
            DirectionKind::Along(edge) => match self.find_edge(piece, edge) {
                Some(found) => Direction::Along(found, edge.span),
                None => Direction::Angle(poison(edge.span)),
            },
            DirectionKind::Toward(point) => {
                Direction::Toward(self.lower(point, when, Some(piece), Wanted::Point))
            }
        })
    }

    /// Reports a word that stands where a direction should, and is neither one nor a value.
    pub(super) fn is_no_direction(&self, angle: &tree::Expr) -> bool {
        let tree::ExprKind::Name(dotted) = &angle.kind else { return false };
        let [name] = dotted.parts.as_slice() else { return false };
        if self.names.values.contains_key(&name.text) {
            return false;
        }
        let words = ["up", "down", "left", "right", "square", "along", "toward"];
        let help = match crate::report::nearest(&name.text, words) {
            Some(near) => format!("did you mean {near}?"),
            None => {
                "a direction is up, down, left or right, an angle, square to an edge, along an edge or toward a point"
                    .to_owned()
            }
        };
        let title = format!("{} is not a direction", name.text);
        self.report(
            Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("no such direction").help(help),
        );
        true
    }
}

/// Whether an edge of a walk goes on, beyond the dart before it, with the edge before that.
pub(super) fn goes_on_from(edges: &[tree::WalkEdge], nth: usize) -> bool {
    let of = |at: Option<usize>| at.and_then(|at| edges.get(at));
    let (before, dart, own) = (of(nth.checked_sub(2)), of(nth.checked_sub(1)), of(Some(nth)));
    match (before, dart, own) {
        (Some(before), Some(dart), Some(own)) => {
            dart.dart.is_some()
                && before.dart.is_none()
                && own.dart.is_none()
                && before.name.text == own.name.text
        }
        _ => false,
    }
}
