//! The second pass: the edges, lines, points and marks of each piece get their ids.
//!
//! A piece that is made of another (copied, a strip, the rest, split, joined) may have all of the
//! other's names; which of them it really has, only its drawing tells.

use super::{Lowering, NamedPiece, as_piece};
use crate::garment::circle::{row, through};
use crate::garment::order::{Order, order_by_need};
use crate::garment::{AlterationId, EdgeId, EdgeName, PieceId, PieceOrigin, PointId, PointName};
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, Hand, Outline, PieceItemNode, StatementNode};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

/// How a name of one piece hangs on a name of another.
#[derive(Clone, Copy)]
enum Kinship {
    /// The same run of edge, or the same point, before a split or join.
    Same,
    /// Copied.
    Copied,
}

/// What an edge's, a line's or a take-up's name is given to.
#[derive(Clone, Copy, PartialEq, Eq)]
enum NameOf {
    Edge,
    Line,
    TakeUp,
}

impl NameOf {
    fn of(name: &EdgeName) -> NameOf {
        match (name.take_up, name.line) {
            (true, _) => NameOf::TakeUp,
            (false, true) => NameOf::Line,
            (false, false) => NameOf::Edge,
        }
    }
}

impl Lowering<'_> {
    pub(super) fn declare_edges(&mut self) {
        self.declare_made_pieces();
        self.stepped = self.alteration_trees.iter().flatten().flat_map(|one| stepped(one)).collect();
        self.moved_darts = self.alteration_trees.iter().flatten().filter_map(|one| moved_dart(one)).collect();
        for piece in self.pieces_in_order() {
            self.declare_names_of(piece);
        }
    }

    /// The pieces that splits and joins make. What is wrong with the pieces that they name is reported
    /// where their targets are found.
    fn declare_made_pieces(&mut self) {
        for at in 0..self.alteration_trees.len() {
            let Some(statement) = self.alteration_trees[at].clone() else { continue };
            let StatementNode::Alteration(alteration) = &statement.node else { continue };
            let id = AlterationId::from_index(at);
            if alteration.into.is_empty() {
                continue;
            }
            let ended = self.attempt(|reading| {
                let parts: Vec<Option<NamedPiece>> =
                    alteration.targets.iter().map(|target| reading.find_part(target)).collect();
                parts.into_iter().collect::<Option<Vec<NamedPiece>>>()
            });
            let Some(ended) = ended.forget() else { continue };
            if !ended.iter().all(|part| self.may_end(part.piece, id)) {
                continue;
            }
            for (at, name) in alteration.into.iter().enumerate() {
                let origin = match ended.as_slice() {
                    [whole] => PieceOrigin::Split { by: id, of: whole.piece, beyond: at > 0 },
                    _ => PieceOrigin::Join { by: id },
                };
                let title = match (alteration.kind, ended.as_slice()) {
                    (tree::AlterationKind::Unpair, [whole]) => {
                        let hand = if at == 0 { Hand::Left } else { Hand::Right };
                        Some(format!("{}, {}", self.garment.piece(whole.piece).title, hand.word()))
                    }
                    _ => None,
                };
                self.declare_made(name, origin, title.as_deref());
            }
        }
    }

    fn declare_made(&mut self, name: &tree::Name, origin: PieceOrigin, title: Option<&str>) {
        let title = title.map_or_else(|| name.text.clone(), Arc::from);
        if self.declare_piece(name, title, origin, None).is_none()
            && let Some(&taken) = self.names.pieces.get(&name.text)
        {
            let first = self.garment.piece(taken).span;
            let title = format!("there is a piece called {} already", name.text);
            let diagnostic = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, name.span, title)
                .label("again here")
                .also(first, "first here")
                .help("give the new piece a name of its own");
            self.report(diagnostic);
        }
    }

    /// Ends a piece by a split or join, unless it is no more already.
    fn may_end(&mut self, piece: PieceId, by: AlterationId) -> bool {
        *self.garment.pieces[piece.index()].ended_by.get_or_insert(by) == by
    }

    fn alteration_tree(&self, id: AlterationId) -> Option<&tree::Alteration> {
        match &self.alteration_trees.get(id.index())?.as_ref()?.node {
            StatementNode::Alteration(tree) => Some(tree),
            _ => None,
        }
    }

    /// The pieces that a piece takes its names from.
    pub(super) fn parents(&self, piece: PieceId) -> Vec<PieceId> {
        let named = |dotted: &tree::Dotted| {
            dotted.parts.last().and_then(|name| self.names.pieces.get(&name.text)).copied()
        };
        match self.garment.piece(piece).origin {
            PieceOrigin::Split { of, .. } => vec![of],
            PieceOrigin::Join { by } => {
                let joined = self.alteration_tree(by).into_iter().flat_map(|tree| &tree.targets);
                joined.filter_map(named).collect()
            }
            PieceOrigin::Drawn => {
                let Some(statement) = self.piece_tree(piece) else { return Vec::new() };
                let items = as_piece(&statement).map_or(&[][..], |piece| &piece.items);
                items
                    .iter()
                    .filter_map(|item| match &item.node {
                        PieceItemNode::Outline(
                            Outline::Copy { of, .. } | Outline::Strip { of, .. } | Outline::Rest { of, .. },
                        ) => named(of),
                        _ => None,
                    })
                    .collect()
            }
        }
    }

    /// Every piece after those that it is made of; a circle is reported.
    fn pieces_in_order(&self) -> Vec<PieceId> {
        let pieces = (0..self.garment.pieces.len()).map(PieceId::from_index);
        let needs: Vec<Vec<usize>> =
            pieces.map(|piece| self.parents(piece).into_iter().map(PieceId::index).collect()).collect();
        let Order { order, circles } = order_by_need(&needs);
        for circle in circles {
            let circle: Vec<PieceId> = circle.into_iter().map(PieceId::from_index).collect();
            self.report_made_of_itself(&circle);
        }
        order.into_iter().map(PieceId::from_index).collect()
    }

    fn report_made_of_itself(&self, circle: &[PieceId]) {
        let named: Vec<(String, Span)> = circle
            .iter()
            .map(|&piece| self.garment.piece(piece))
            .map(|piece| (piece.name.to_string(), piece.span))
            .collect();
        let Some((first, span)) = named.first() else { return };
        let title = format!("{first} is made of itself: {} → {first}", row(&named));
        let diagnostic =
            Diagnostic::new(&catalogue::NAME_CIRCLE, *span, title).label("the circle starts here");
        self.report(through(diagnostic, &named).help("draw one of them with an outline of its own"));
    }

    fn declare_names_of(&mut self, piece: PieceId) {
        if self.is_too_much(piece) {
            return;
        }
        match self.garment.piece(piece).origin {
            PieceOrigin::Split { of, by, .. } => {
                self.inherit(piece, of, Kinship::Same, &HashSet::new());
                if let Some(at) = self.alteration_tree(by).and_then(|tree| tree.at.clone()) {
                    self.declare_cut_edge(piece, &at);
                }
            }
            PieceOrigin::Join { .. } => {
                for parent in self.parents(piece) {
                    self.inherit(piece, parent, Kinship::Same, &HashSet::new());
                }
            }
            PieceOrigin::Drawn => self.declare_drawn_names(piece),
        }
        self.declare_moved_darts(piece);
        self.declare_steps(piece);
    }

    /// Darts that are let in, or moved under a name of their own. One that goes whole is the same dart.
    fn declare_moved_darts(&mut self, piece: PieceId) {
        for at in 0..self.moved_darts.len() {
            let Some(MovedDart { piece: of, dart, named }) = self.moved_darts.get(at).cloned() else {
                continue;
            };
            if of != self.garment.piece(piece).name {
                continue;
            }
            if let Some(&first) = self.piece_edges[piece.index()].get(&named.text) {
                let first = self.garment.edge(first).span;
                self.report_twice("edge, line or dart", &named, first);
                continue;
            }
            let moved = dart.and_then(|dart| self.edge_named(piece, &dart));
            self.add_edge(
                piece,
                &named.text,
                named.span,
                NameOf::TakeUp,
                moved.map(|moved| (Kinship::Same, moved)),
            );
        }
    }

    /// The edges that alterations make where an edge steps. A name that is taken is reported.
    fn declare_steps(&mut self, piece: PieceId) {
        for at in 0..self.stepped.len() {
            let Some((of, edge)) = self.stepped.get(at).cloned() else { continue };
            if of != self.garment.piece(piece).name || self.edge_named(piece, &edge.text).is_none() {
                continue;
            }
            let name = tree::Name { text: format!("{}_step", edge.text).into(), span: edge.span };
            if let Some(&first) = self.piece_edges[piece.index()].get(&name.text) {
                let first = self.garment.edge(first).span;
                self.report_twice("edge, line or dart", &name, first);
                continue;
            }
            self.add_edge(piece, &name.text, name.span, NameOf::Edge, None);
        }
    }

    /// Whether this piece's names would be more than one garment may have, which is reported once.
    fn is_too_much(&mut self, piece: PieceId) -> bool {
        let parents = self.parents(piece);
        let inherited = parents.iter().map(|&parent| self.garment.piece(parent).edges.len());
        let edges = self.garment.edges.len() + inherited.sum::<usize>();
        let all = edges.saturating_mul(self.garment.sizes.len().max(1));
        if all <= limits::EDGES_OF_ALL_SIZES || self.too_many_edges {
            return self.too_many_edges;
        }
        self.too_many_edges = true;
        let title = format!(
            "with this piece the garment has more edges and lines in all its sizes than the {} that it may have",
            limits::EDGES_OF_ALL_SIZES
        );
        let help =
            "make two garments of it; a copy has all the edges and lines of its piece, and so has a part";
        let span = self.garment.piece(piece).span;
        self.report(Diagnostic::new(&catalogue::LIMIT_EDGES, span, title).help(help));
        true
    }

    /// The edge along the cut has the line's name; the line itself is no more.
    fn declare_cut_edge(&mut self, piece: PieceId, at: &tree::Name) {
        self.piece_edges[piece.index()].shift_remove(&at.text);
        self.add_edge(piece, &at.text, at.span, NameOf::Edge, None);
    }

    /// Takes over all names of another piece. A name that both parents of a join have means both
    /// runs: it gets an id of its own, of which both runs are a part.
    fn inherit(&mut self, piece: PieceId, parent: PieceId, kinship: Kinship, left_out: &HashSet<Arc<str>>) {
        let own: HashSet<Arc<str>> = self.piece_edges[piece.index()].keys().cloned().collect();
        let joined = matches!(self.garment.piece(piece).origin, PieceOrigin::Join { .. });
        let mut made = HashMap::new();
        for edge in self.garment.piece(parent).edges.clone() {
            let from = self.garment.edge(edge).clone();
            let kind = NameOf::of(&from);
            // A slit's name comes before those of its sides, which go with it.
            let is_lone_side = from.side_of.is_some_and(|slit| !made.contains_key(&slit));
            if kind != NameOf::Edge && left_out.contains(&from.name) || is_lone_side {
                continue;
            }
            let own = self.add_edge(piece, &from.name, from.span, kind, Some((kinship, edge)));
            self.garment.edges[own.index()].side_of = from.side_of.and_then(|slit| made.get(&slit).copied());
            made.insert(edge, own);
        }
        for (name, meant) in self.piece_edges[parent.index()].clone() {
            let Some(&new) = made.get(&meant) else { continue };
            if !own.contains(&name) {
                self.piece_edges[piece.index()].insert(name, new);
            } else if joined {
                self.declare_shared_name(piece, name, new);
            }
        }
        for point in self.garment.piece(parent).points.clone() {
            let from = self.garment.point(point).clone();
            let is_of_slit = || from.name.split_once('.').is_some_and(|(slit, _)| left_out.contains(slit));
            if from.mark && left_out.contains(&from.name) || is_of_slit() {
                continue;
            }
            self.add_point(piece, &from.name, from.span, from.mark, Some((kinship, point)));
        }
    }

    fn declare_shared_name(&mut self, piece: PieceId, name: Arc<str>, second: EdgeId) {
        let Some(&first) = self.piece_edges[piece.index()].get(&name) else { return };
        let span = self.garment.edge(first).span;
        let kind = NameOf::of(self.garment.edge(first));
        let shared = self.add_edge(piece, &name, span, kind, None);
        for run in [first, second] {
            self.garment.edges[run.index()].part_of = Some(shared);
        }
        self.piece_edges[piece.index()].insert(name, shared);
    }

    fn declare_drawn_names(&mut self, piece: PieceId) {
        let Some(statement) = self.piece_tree(piece) else { return };
        let Some(tree) = as_piece(&statement) else { return };
        for item in &tree.items {
            match &item.node {
                PieceItemNode::Point(point) => self.declare_point(piece, &point.name, false),
                PieceItemNode::Mark(mark) => {
                    self.declare_point(piece, &mark.name, true);
                    self.label_point(piece, &mark.name, mark.label.as_ref());
                }
                PieceItemNode::Line(line) => {
                    self.declare_own_edge(piece, &line.name, NameOf::Line);
                    self.label_edge(piece, &line.name, line.label.as_ref(), line.adjust.is_some());
                }
                PieceItemNode::Outline(Outline::Walk { edges, .. }) => {
                    for (at, edge) in edges.iter().enumerate() {
                        let kind = if edge.dart.is_some() { NameOf::TakeUp } else { NameOf::Edge };
                        // Beyond a dart the edge goes on that was left for it.
                        if !super::walk::goes_on_from(edges, at) {
                            self.declare_own_edge(piece, &edge.name, kind);
                        }
                        self.label_edge(piece, &edge.name, edge.label.as_ref(), false);
                    }
                }
                PieceItemNode::Outline(Outline::Rectangle { .. }) => {
                    for name in ["bottom", "right", "top", "left"] {
                        self.add_edge(piece, &name.into(), item.span, NameOf::Edge, None);
                    }
                    for name in ["bottom_left", "bottom_right", "top_right", "top_left"] {
                        self.add_point(piece, &name.into(), item.span, false, None);
                    }
                }
                PieceItemNode::Outline(Outline::Strip { along, .. }) => {
                    self.add_edge(piece, &"inner".into(), item.span, NameOf::Edge, None);
                    for edge in along.iter().filter(|edge| edge.run.is_some()) {
                        for end in ["near", "far"] {
                            let name: Arc<str> = format!("{}_{end}", edge.edge.text).into();
                            self.add_edge(piece, &name, edge.edge.span, NameOf::Edge, None);
                            self.add_point(piece, &name, edge.edge.span, false, None);
                        }
                    }
                }
                PieceItemNode::Outline(Outline::Rest { .. }) => {
                    self.add_edge(piece, &"inner".into(), item.span, NameOf::Edge, None);
                }
                PieceItemNode::TakeUp(take_up) => {
                    let before = self.garment.edges.len();
                    self.declare_own_edge(piece, &take_up.name, NameOf::TakeUp);
                    if let tree::TakeUpForm::Slit { cut, window } = &take_up.form
                        && self.garment.edges.len() > before
                    {
                        let inside = matches!(cut, tree::SlitCut::Inside { .. });
                        let slit = EdgeId::from_index(before);
                        let sides = match cut {
                            // Each half has the one side, and half of its end.
                            tree::SlitCut::FromEdge { place: tree::EdgePlace::Fold, .. } => &["near"][..],
                            _ => &["near", "far"],
                        };
                        self.declare_slit_sides(piece, slit, (sides, inside), window.is_some());
                    }
                }
                _ => {}
            }
        }
        for item in &tree.items {
            if let PieceItemNode::Divide(divide) = &item.node {
                for name in [&divide.into.0, &divide.into.1] {
                    if name.text != divide.edge.text {
                        self.declare_own_edge(piece, name, NameOf::Edge);
                    }
                }
            }
        }
        for parent in self.parents(piece) {
            let left_out = self.left_out(&tree.items, parent);
            self.inherit(piece, parent, Kinship::Copied, &left_out);
        }
        // Of an outline that could not be read it is not known.
        let is_drawn = tree.items.iter().any(|item| matches!(item.node, PieceItemNode::Outline(_)));
        if is_drawn && self.parents(piece).is_empty() {
            self.report_nothing_to_leave_out(&tree.items);
        }
        let edges = self.garment.piece(piece).edges.len();
        if edges > limits::EDGES_OF_PIECE && self.parents(piece).is_empty() {
            let title = format!(
                "{edges} edges and lines are more than the {} that a piece may have",
                limits::EDGES_OF_PIECE
            );
            let help = "make two pieces of it, or draw its curves with fewer edges";
            self.report(Diagnostic::new(&catalogue::LIMIT_EDGES, tree.name.span, title).help(help));
        }
    }

    /// The sides of a slit are edges, and its corners points: `sleeve_slit.near`, `.far`; its end, and the start of
    /// one inside the piece, is an edge with two corners if there is a window, and else a point.
    fn declare_slit_sides(
        &mut self,
        piece: PieceId,
        slit: EdgeId,
        (sides, inside): (&[&str], bool),
        window: bool,
    ) {
        let (name, span) = (self.garment.edge(slit).name.clone(), self.garment.edge(slit).span);
        let ends = if inside { &["start", "end"][..] } else { &["end"] };
        for side in sides.iter().chain(ends) {
            let own: Arc<str> = format!("{name}.{side}").into();
            let is_end = ends.contains(side);
            if !is_end || window {
                let edge = self.add_edge(piece, &own, span, NameOf::Edge, None);
                self.garment.edges[edge.index()].side_of = Some(slit);
            }
            match (is_end, window) {
                (true, true) => {
                    for corner in sides {
                        self.add_point(piece, &format!("{own}_{corner}").into(), span, false, None);
                    }
                }
                // The corners of a mouth; one inside has none.
                (false, _) if inside => {}
                _ => {
                    self.add_point(piece, &own, span, false, None);
                }
            }
        }
    }

    fn declare_point(&mut self, piece: PieceId, name: &tree::Name, mark: bool) {
        if let Some(&first) = self.piece_points[piece.index()].get(&name.text) {
            let first = self.garment.point(first).span;
            self.report_twice("point or mark", name, first);
            return;
        }
        self.add_point(piece, &name.text, name.span, mark, None);
    }

    fn declare_own_edge(&mut self, piece: PieceId, name: &tree::Name, kind: NameOf) {
        if let Some(&first) = self.piece_edges[piece.index()].get(&name.text) {
            let first = self.garment.edge(first).span;
            self.report_twice("edge, line, dart or slit", name, first);
            return;
        }
        self.add_edge(piece, &name.text, name.span, kind, None);
    }

    fn report_twice(&self, what: &str, name: &tree::Name, first: Span) {
        let title =
            format!("this piece has two of the name {}: {what} names are used once per piece", name.text);
        let diagnostic = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, name.span, title)
            .label("again here")
            .also(first, "first here")
            .help("give one of them another name");
        self.report(diagnostic);
    }

    fn add_edge(
        &mut self,
        piece: PieceId,
        name: &Arc<str>,
        span: Span,
        kind: NameOf,
        kin: Option<(Kinship, EdgeId)>,
    ) -> EdgeId {
        let id = EdgeId::from_index(self.garment.edges.len());
        let (same_run_as, copied_from) = match kin {
            Some((Kinship::Same, of)) => (Some(of), None),
            Some((Kinship::Copied, of)) => (None, Some(of)),
            None => (None, None),
        };
        self.garment.edges.push(EdgeName {
            piece,
            name: name.clone(),
            span,
            label: None,
            adjust: false,
            line: kind == NameOf::Line,
            take_up: kind == NameOf::TakeUp,
            side_of: None,
            same_run_as,
            part_of: None,
            copied_from,
            portion: None,
        });
        self.garment.pieces[piece.index()].edges.push(id);
        self.piece_edges[piece.index()].entry(name.clone()).or_insert(id);
        id
    }

    fn add_point(
        &mut self,
        piece: PieceId,
        name: &Arc<str>,
        span: Span,
        mark: bool,
        kin: Option<(Kinship, PointId)>,
    ) -> PointId {
        let id = PointId::from_index(self.garment.points.len());
        let (same_as, copied_from) = match kin {
            Some((Kinship::Same, of)) => (Some(of), None),
            Some((Kinship::Copied, of)) => (None, Some(of)),
            None => (None, None),
        };
        self.garment.points.push(PointName {
            piece,
            name: name.clone(),
            span,
            label: None,
            mark,
            same_as,
            copied_from,
        });
        self.garment.pieces[piece.index()].points.push(id);
        self.piece_points[piece.index()].entry(name.clone()).or_insert(id);
        id
    }
}

/// A dart that an alteration moves under a name of its own, or a dart or pleat that it lets in.
#[derive(Clone)]
pub(super) struct MovedDart {
    /// Its piece.
    piece: Arc<str>,
    /// What it was called, if all of that goes.
    dart: Option<Arc<str>>,
    /// What it is called now.
    named: tree::Name,
}

fn moved_dart(statement: &tree::Statement) -> Option<MovedDart> {
    let StatementNode::Alteration(alteration) = &statement.node else { return None };
    let [.., piece, of] = alteration.targets.first()?.parts.as_slice() else { return None };
    let (dart, named) = match alteration.dart.as_ref()? {
        tree::DartChange::Move(change) => {
            (change.share.is_none().then(|| of.text.clone()), change.named.clone()?)
        }
        tree::DartChange::Let(change) => (None, change.name.clone()),
        tree::DartChange::LetPleat(change) => (None, change.name.clone()),
        _ => return None,
    };
    Some(MovedDart { piece: piece.text.clone(), dart, named })
}

/// The edges that an alteration moves with a step, each with its piece's name.
fn stepped(statement: &tree::Statement) -> Vec<(Arc<str>, tree::Name)> {
    let StatementNode::Alteration(alteration) = &statement.node else { return Vec::new() };
    let named = alteration.targets.iter().filter(|_| alteration.stepped).filter_map(|target| {
        let [.., piece, edge] = target.parts.as_slice() else { return None };
        Some((piece.text.clone(), edge.clone()))
    });
    named.collect()
}
