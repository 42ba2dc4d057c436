//! Take-ups: their names, and where and how their cloth is taken.

use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use super::{Lowering, NamedPiece, as_piece};
use crate::garment::{
    CountedFrom, Dart, DartCloth, Dimension, EdgeId, EdgePlace, PieceId, PlaceAt, PointId, Pressed,
    PressedTo, Slit, SlitCut, SlitEnd, Symbol, TakeUp, TakeUpForm, TakeUpSide,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, DartLaid, Expr, ExprKind, Name, PressedWay};
use std::sync::Arc;

impl Lowering<'_> {
    /// A take-up that a line of a piece says; none where a name in it is not known, which was reported.
    pub(super) fn lower_take_up(&self, piece: PieceId, take_up: &tree::TakeUp, span: Span) -> Option<TakeUp> {
        let when = When::Drawing(piece);
        let (cloth, ways) = match &take_up.form {
            tree::TakeUpForm::Dart { cloth, ways } => (cloth, ways),
            tree::TakeUpForm::Slit { cut, window } => {
                let slit = self.slit(piece, cut, window.as_ref());
                let name = self.own_take_up(piece, &take_up.name)?;
                return Some(TakeUp { name, span, form: TakeUpForm::Slit(slit?) });
            }
            tree::TakeUpForm::Pleat(pleat) => {
                let form = self.pleat(piece, &take_up.name, pleat, span, when);
                let name = self.own_take_up(piece, &take_up.name)?;
                return Some(TakeUp { name, span, form: TakeUpForm::Pleat(Box::new(form?)) });
            }
        };
        let length = |expr: &Expr| self.lower(expr, when, Some(piece), Wanted::Length);
        let point = |expr: &Expr| self.lower(expr, when, Some(piece), Wanted::Point);
        let cloth = match cloth {
            tree::DartCloth::OnEdge { edge, place, width, to } => {
                let (edge, place) = (self.find_edge(piece, edge), self.edge_place(piece, place, when));
                let (width, to) = (length(width), point(to));
                edge.zip(place).map(|(edge, place)| DartCloth::Taken { edge, place, width, to })
            }
            tree::DartCloth::Inside { at, width, up, down } => Some(DartCloth::Inside {
                at: point(at),
                width: length(width),
                ends: [length(up), length(down)],
            }),
        };
        let dart = self.dart(piece, cloth, ways);
        let name = self.own_take_up(piece, &take_up.name)?;
        Some(TakeUp { name, span, form: TakeUpForm::Dart(dart?) })
    }

    /// A dart in a walk, between two runs of `edge`.
    pub(super) fn lower_walk_dart(
        &self,
        piece: PieceId,
        edge: EdgeId,
        corners: [crate::garment::PointId; 2],
        step: &tree::WalkEdge,
        dart: &tree::WalkDart,
    ) -> Option<TakeUp> {
        let to = self.lower(&dart.about, When::Drawing(piece), Some(piece), Wanted::Point);
        let cloth = DartCloth::Drawn { edge, corners, to };
        let dart = self.dart(piece, Some(cloth), &dart.ways)?;
        let name = self.own_take_up(piece, &step.name)?;
        Some(TakeUp { name, span: step.span, form: TakeUpForm::Dart(dart) })
    }

    fn slit(&self, piece: PieceId, cut: &tree::SlitCut, window: Option<&Expr>) -> Option<Slit> {
        let when = When::Drawing(piece);
        let length = |expr: &Expr| self.lower(expr, when, Some(piece), Wanted::Length);
        let (edge, place, end) = match cut {
            tree::SlitCut::FromEdge { edge, place, end } => (edge, place, end),
            tree::SlitCut::Inside { from, to } => {
                let places = [from, to].map(|place| self.lower(place, when, Some(piece), Wanted::Point));
                return Some(Slit { cut: SlitCut::Inside(places), window: window.map(length) });
            }
        };
        let at_fold = matches!(place, tree::EdgePlace::Fold);
        let (edge, place) = match at_fold {
            true => (self.find_edge(piece, edge), self.place_of_one(piece, place, edge.span)),
            false => (self.find_edge(piece, edge), self.edge_place(piece, place, when)),
        };
        let end = match end {
            tree::SlitEnd::Way(PressedWay::Up, long) => SlitEnd::Up(true, length(long)),
            tree::SlitEnd::Way(PressedWay::Down, long) => SlitEnd::Up(false, length(long)),
            tree::SlitEnd::Way(PressedWay::Right, long) => SlitEnd::Right(true, length(long)),
            tree::SlitEnd::Way(PressedWay::Left, long) => SlitEnd::Right(false, length(long)),
            tree::SlitEnd::To(place) => SlitEnd::To(self.lower(place, when, Some(piece), Wanted::Point)),
        };
        let window = window.map(length);
        let cut = edge.zip(place).map(|(edge, place)| SlitCut::FromEdge { edge, place, end, at_fold })?;
        Some(Slit { cut, window })
    }

    fn dart(&self, piece: PieceId, cloth: Option<DartCloth>, ways: &tree::DartWays) -> Option<Dart> {
        let stopping = ways
            .stopping
            .as_ref()
            .map(|stopping| self.lower(stopping, When::Drawing(piece), Some(piece), Wanted::Length));
        let pressed = self.pressed(piece, &ways.laid)?;
        Some(Dart { cloth: cloth?, stopping, pressed, trued: ways.trued })
    }

    /// Which way the cloth of a dart is pressed, if it is; none where a name in it is not known.
    pub(super) fn pressed(&self, piece: PieceId, laid: &DartLaid) -> Option<Option<Pressed>> {
        let (to, span) = match laid {
            DartLaid::CutOpen => return Some(None),
            DartLaid::Pressed(way) => {
                let to = match way {
                    PressedWay::Up => PressedTo::Up(true),
                    PressedWay::Down => PressedTo::Up(false),
                    PressedWay::Right => PressedTo::Right(true),
                    PressedWay::Left => PressedTo::Right(false),
                };
                (to, Span::default())
            }
            DartLaid::Toward(name) => (self.pressed_toward(piece, name)?, name.span),
        };
        Some(Some(Pressed { to, span }))
    }

    /// An edge, a line, a point or another take-up of the piece.
    pub(super) fn pressed_toward(&self, piece: PieceId, name: &Name) -> Option<PressedTo> {
        if let Some(&point) = self.piece_points.get(piece.index()).and_then(|points| points.get(&name.text)) {
            self.used(Symbol::Point(point), name.span);
            return Some(PressedTo::Point(point));
        }
        match self.edge_named(piece, &name.text) {
            Some(edge) => {
                self.used(Symbol::Edge(edge), name.span);
                Some(PressedTo::Edge(edge))
            }
            None => self.find_edge(piece, name).map(PressedTo::Edge),
        }
    }

    /// A place on an edge; what is counted from nothing is a point on it, or a share of it.
    pub(super) fn edge_place(
        &self,
        piece: PieceId,
        place: &tree::EdgePlace,
        when: When,
    ) -> Option<EdgePlace> {
        let (value, from) = match place {
            tree::EdgePlace::Middle => {
                return Some(EdgePlace { at: PlaceAt::Middle, span: Span::default() });
            }
            tree::EdgePlace::Fold => return None,
            tree::EdgePlace::At { value, from } => (value, from),
        };
        if let Some(from) = from {
            let typed = self.lower(value, when, Some(piece), Wanted::Any);
            let value = match typed.dimension {
                // A bare number is a length; `25%` is a share.
                Dimension::Number if !is_share(value) => self.lower(value, when, Some(piece), Wanted::Length),
                _ => typed,
            };
            let counted = self.counted_from(piece, from)?;
            return Some(EdgePlace { at: PlaceAt::From(value, counted), span: from.span });
        }
        if let ExprKind::Name(dotted) = &value.kind
            && let [name] = dotted.parts.as_slice()
            && let Some(&point) = self.piece_points.get(piece.index()).and_then(|known| known.get(&name.text))
        {
            self.used(Symbol::Point(point), name.span);
            return Some(EdgePlace { at: PlaceAt::Point(point), span: value.span });
        }
        let share = self.lower(value, when, Some(piece), Wanted::Any);
        if share.dimension != Dimension::Number && !share.is_poison() {
            let title = "a place on an edge is so far from somewhere";
            let help =
                "say from where: at 8 from a corner, a mark or a neighbouring edge; or at 50%, in the middle";
            self.report(
                Diagnostic::new(&catalogue::EDGE_PLACE, value.span, title).label("from where?").help(help),
            );
            return None;
        }
        Some(EdgePlace { at: PlaceAt::Share(share), span: value.span })
    }

    /// Whether a place to divide an edge at is counted from something that is there before darts are taken;
    /// reported if not.
    pub(super) fn is_no_side(&self, place: &EdgePlace) -> bool {
        let PlaceAt::From(_, CountedFrom::Side(take_up, _)) = place.at else { return true };
        let name = &self.garment.edge(take_up).name;
        let title = format!("{name} is taken from the edge only once that is divided");
        let help = "count from a corner or a mark of the edge";
        self.report(Diagnostic::new(&catalogue::EDGE_PLACE, place.span, title).help(help));
        false
    }

    pub(super) fn counted_from(&self, piece: PieceId, from: &tree::Dotted) -> Option<CountedFrom> {
        match from.parts.as_slice() {
            [name] => {
                let points = self.piece_points.get(piece.index());
                if let Some(&point) = points.and_then(|points| points.get(&name.text)) {
                    self.used(Symbol::Point(point), name.span);
                    return Some(CountedFrom::Point(point));
                }
                match self.edge_named(piece, &name.text) {
                    Some(edge) if self.garment.edge(edge).take_up => {
                        let title = format!("{} has two sides", name.text);
                        let help = format!("count from one of them: {0}.near or {0}.far", name.text);
                        self.report(Diagnostic::new(&catalogue::EDGE_PLACE, name.span, title).help(help));
                        None
                    }
                    _ => self.find_edge(piece, name).map(CountedFrom::Edge),
                }
            }
            [name, side] => {
                let take_up =
                    self.edge_named(piece, &name.text).filter(|&edge| self.garment.edge(edge).take_up);
                let side_of = match &*side.text {
                    "near" => Some(TakeUpSide::Near),
                    "far" => Some(TakeUpSide::Far),
                    _ => None,
                };
                match (take_up, side_of) {
                    (Some(take_up), Some(side)) => {
                        self.used(Symbol::Edge(take_up), name.span);
                        Some(CountedFrom::Side(take_up, side))
                    }
                    (None, _) => {
                        let among = self.take_ups_named(piece);
                        self.unknown(Sought::TakeUpOf(piece), &name.text, name.span, &among);
                        None
                    }
                    (Some(_), None) => {
                        let title = format!("{} has no side {}", name.text, side.text);
                        let help = "its sides are near, towards the place that it is counted from, and far";
                        self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, side.span, title).help(help));
                        None
                    }
                }
            }
            _ => {
                let title = "a place of the same piece is named here";
                let help = "write a corner, a mark, a neighbouring edge, or a dart's side: dart.near";
                self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, from.span, title).help(help));
                None
            }
        }
    }

    /// `piece.dart` or `layer.piece.dart`.
    pub(super) fn find_dotted_take_up(&self, dotted: &tree::Dotted) -> Option<(NamedPiece, EdgeId)> {
        let (part, last) = self.split_off(dotted, "a dart or a pleat")?;
        match self.edge_named(part.piece, &last.text) {
            Some(edge) if self.is_slit(edge) => {
                let title = format!("{} is a slit, which is cut and not sewn", last.text);
                let help = format!(
                    "sew the seam, or finish the edge, that takes its sides: {0}.near, {0}.far",
                    last.text
                );
                let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title);
                self.report(mistake.also(self.garment.edge(edge).span, "declared here").help(help));
                None
            }
            Some(edge) if self.garment.edge(edge).take_up => {
                self.used(Symbol::Edge(edge), last.span);
                Some((part, edge))
            }
            Some(edge) => {
                let kind = if self.garment.edge(edge).line { "a line" } else { "an edge" };
                let title = format!(
                    "{} is {kind}, and what is sewn in a step is a seam, a closure, a dart or a pleat",
                    last.text
                );
                let help = "for an edge, write hem or finish";
                let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title);
                self.report(mistake.also(self.garment.edge(edge).span, "declared here").help(help));
                None
            }
            None => {
                let among = self.take_ups_named(part.piece);
                self.unknown(Sought::TakeUpOf(part.piece), &last.text, last.span, &among);
                None
            }
        }
    }

    /// Whether a take-up is a slit: its sides are edges.
    pub(super) fn is_slit(&self, take_up: EdgeId) -> bool {
        let name = self.garment.edge(take_up);
        name.take_up
            && self.garment.piece(name.piece).edges.iter().any(|&own| {
                let side_of = self.garment.edge(own).side_of;
                side_of.is_some_and(|of| of == take_up || self.garment.edge(of).part_of == Some(take_up))
            })
    }

    /// The slit's name in `piece.slit.side` or `layer.piece.slit.side`, behind the words of its piece.
    fn split_slit<'d>(&self, dotted: &'d tree::Dotted) -> Option<(tree::Dotted, &'d Name, &'d Name)> {
        let [piece @ .., slit, side] = dotted.parts.as_slice() else { return None };
        let is_slit_said = match piece {
            [piece] => {
                let known = |name: &Name| self.names.pieces.contains_key(&name.text);
                let is_layer = self.names.layers.contains_key(&piece.text);
                let is_side = matches!(&*side.text, "near" | "far" | "start" | "end");
                (known(piece) || is_side && !is_layer) && !(is_layer && known(slit))
            }
            [_, _] => true,
            _ => false,
        };
        let span = Span::new(piece.first()?.span.lo, piece.last()?.span.hi);
        is_slit_said.then(|| (tree::Dotted { parts: piece.to_vec(), on: None, span }, slit, side))
    }

    /// A side of a slit, or its end, that is named by `piece.slit.side`; none of other names. The inner none
    /// was reported.
    pub(super) fn find_slit_side(&self, dotted: &tree::Dotted) -> Option<Option<(NamedPiece, EdgeId)>> {
        let (piece, slit, side) = self.split_slit(dotted)?;
        Some(self.find_part(&piece).and_then(|part| {
            let take_up = self.slit_named(part.piece, slit)?;
            Some((part, self.slit_side(part.piece, take_up, slit, side)?))
        }))
    }

    /// A corner of a slit's mouth, or its end, that is named by `piece.slit.side`; none of other names.
    pub(super) fn find_slit_corner(&self, dotted: &tree::Dotted) -> Option<Option<(NamedPiece, PointId)>> {
        let (piece, slit, side) = self.split_slit(dotted)?;
        Some(self.find_part(&piece).and_then(|part| {
            let take_up = self.slit_named(part.piece, slit)?;
            let name = format!("{}.{}", slit.text, side.text);
            let points = self.piece_points.get(part.piece.index())?;
            match points.get(name.as_str()) {
                Some(&point) => {
                    self.used(Symbol::Point(point), side.span);
                    Some((part, point))
                }
                None => {
                    self.slit_side(part.piece, take_up, slit, side)?;
                    let title = format!("{name} is an edge, and a corner is named here");
                    let slit = &slit.text;
                    let has = |corner: &str| points.contains_key(format!("{slit}.{corner}").as_str());
                    let help = match (has("start"), has("start_near")) {
                        (true, _) => format!("its corners are {slit}.start and {slit}.end"),
                        (_, true) => format!(
                            "its corners are {slit}.start_near, {slit}.start_far, {slit}.end_near and {slit}.end_far"
                        ),
                        _ => format!("the corners of its mouth are {slit}.near and {slit}.far"),
                    };
                    self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, side.span, title).help(help));
                    None
                }
            }
        }))
    }

    /// A side of the piece's own slit, named by `slit.side` inside the piece; none of other names.
    pub(super) fn find_own_slit_side(&self, piece: PieceId, dotted: &tree::Dotted) -> Option<Option<EdgeId>> {
        let [slit, side] = dotted.parts.as_slice() else { return None };
        let take_up = self.edge_named(piece, &slit.text).filter(|&edge| self.is_slit(edge))?;
        self.used(Symbol::Edge(take_up), slit.span);
        Some(self.slit_side(piece, take_up, slit, side))
    }

    fn slit_named(&self, piece: PieceId, slit: &Name) -> Option<EdgeId> {
        match self.edge_named(piece, &slit.text) {
            Some(edge) if self.is_slit(edge) => {
                self.used(Symbol::Edge(edge), slit.span);
                Some(edge)
            }
            Some(edge) => {
                let name = self.garment.edge(edge);
                let what = match (name.take_up, name.line) {
                    (true, _) => format!("a {}: its sides are sewn to one another", self.take_up_word(edge)),
                    (false, true) => "a line: only a slit has sides".to_owned(),
                    (false, false) => "an edge: only a slit has sides".to_owned(),
                };
                let title = format!("{} is {what}", slit.text);
                self.report(
                    Diagnostic::new(&catalogue::NAME_UNKNOWN, slit.span, title)
                        .also(name.span, "declared here")
                        .help("name an edge by piece.edge, or a slit's side by piece.slit.near"),
                );
                None
            }
            None => {
                let known = self.piece_edges.get(piece.index()).into_iter().flatten();
                let among =
                    self.offered(known.filter(|&(_, &edge)| self.is_slit(edge)).map(|(name, _)| name));
                self.unknown(Sought::SlitOf(piece), &slit.text, slit.span, &among);
                None
            }
        }
    }

    fn slit_side(&self, piece: PieceId, take_up: EdgeId, slit: &Name, side: &Name) -> Option<EdgeId> {
        let name = format!("{}.{}", slit.text, side.text);
        if let Some(&edge) = self.piece_edges.get(piece.index())?.get(name.as_str()) {
            self.used(Symbol::Edge(edge), side.span);
            return Some(edge);
        }
        // Both ends of one inside its piece are corners.
        let points = self.piece_points.get(piece.index())?;
        let has = |corner: &str| points.contains_key(format!("{}.{corner}", slit.text).as_str());
        let is_inside = has("start") || has("start_near");
        let (title, help) = match &*side.text {
            "end" => (
                format!("{} ends in a point: only a slit with a window has an end to sew", slit.text),
                format!("say how wide it is, window 1; or leave {name} out"),
            ),
            "start" if is_inside => (
                format!("{} begins in a point: only a slit with a window has an end to sew there", slit.text),
                format!("say how wide it is, window 1; or leave {name} out"),
            ),
            "start" => (
                format!("{} begins at its edge, where it is open", slit.text),
                "its sides are near and far; only a slit inside the piece, from a place to a place, has a start"
                    .to_owned(),
            ),
            "far" if !is_inside => (
                format!("{} lies at the fold, and each half has one side of it", slit.text),
                format!("write {}.near, which is there on both halves", slit.text),
            ),
            other if is_inside => (
                format!("{} has no side {other}", slit.text),
                "its sides are near, on the left of the way from where it begins to where it ends, and far; with a \
                 window it has a start and an end too"
                    .to_owned(),
            ),
            other => (
                format!("{} has no side {other}", slit.text),
                "its sides are near, towards the place that it is counted from, and far; with a window it has an \
                 end too"
                    .to_owned(),
            ),
        };
        self.report(
            Diagnostic::new(&catalogue::NAME_UNKNOWN, side.span, title)
                .also(self.garment.edge(take_up).span, "declared here")
                .help(help),
        );
        None
    }

    /// What a take-up is called: dart, pleat, tuck.
    pub(super) fn take_up_word(&self, mut name: EdgeId) -> &'static str {
        while let Some(of) = self.garment.edge(name).copied_from.or(self.garment.edge(name).same_run_as) {
            name = of;
        }
        let declared = self.garment.edge(name);
        let is_let_in = |tree: &tree::Statement| match &tree.node {
            tree::StatementNode::Alteration(tree::Alteration {
                dart: Some(tree::DartChange::LetPleat(change)),
                ..
            }) => change.name.span == declared.span,
            _ => false,
        };
        if self.alteration_trees.iter().flatten().any(|tree| is_let_in(tree)) {
            return "pleat";
        }
        let statement = self.piece_tree(declared.piece);
        let items = statement.as_deref().and_then(as_piece).map_or(&[][..], |piece| &piece.items);
        let form = items.iter().find_map(|item| match &item.node {
            tree::PieceItemNode::TakeUp(take_up) if take_up.name.text == declared.name => Some(&take_up.form),
            _ => None,
        });
        match form {
            Some(tree::TakeUpForm::Pleat(pleat)) => {
                if pleat.tuck {
                    "tuck"
                } else {
                    "pleat"
                }
            }
            Some(tree::TakeUpForm::Slit { .. }) => "slit",
            Some(tree::TakeUpForm::Dart { .. }) | None => "dart",
        }
    }

    /// The edge, line or take-up of that name.
    pub(super) fn edge_named(&self, piece: PieceId, name: &Arc<str>) -> Option<EdgeId> {
        self.piece_edges.get(piece.index())?.get(name).copied()
    }

    /// The piece's own take-up of that name, if that is where the name was given.
    pub(super) fn own_take_up(&self, piece: PieceId, name: &Name) -> Option<EdgeId> {
        self.edge_named(piece, &name.text).filter(|&edge| self.garment.edge(edge).span == name.span)
    }

    pub(super) fn take_ups_named(&self, piece: PieceId) -> Vec<Arc<str>> {
        let known = self.piece_edges.get(piece.index()).into_iter().flatten();
        let is_dart = |edge: EdgeId| self.garment.edge(edge).take_up && !self.is_slit(edge);
        self.offered(known.filter(|&(_, &edge)| is_dart(edge)).map(|(name, _)| name))
    }
}

/// Whether a bare literal says `%`.
pub(super) fn is_share(value: &Expr) -> bool {
    value.walk().any(|part| match &part.kind {
        ExprKind::Quantity(quantity) => quantity.unit.is_some(),
        ExprKind::Name(_) | ExprKind::Call(_) => true,
        _ => false,
    })
}
