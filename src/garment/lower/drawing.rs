//! How each piece is drawn and cut.

use super::declare::empty_drawing;
use super::expression::Wanted;
use super::papers::When;
use super::{Lowering, as_piece};
use crate::garment::{
    Corner, Cut, CutHow, Divide, Drawing, DrawnWidth, EdgeId, Expression, FoldOver, Grain, Line, LineRun,
    MovePoint, Notch, Outline, Piece, PieceId, PieceOrigin, Spot, TakeUp,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, Hand, PieceItemNode};

/// What is said between the braces of a piece, before the garment knows it.
struct MadePiece {
    drawing: Drawing,
    cut: Cut,
    grain: Grain,
    allowance: Option<Expression>,
    corners: Vec<Corner>,
    folds: Vec<FoldOver>,
    never_flipped: Option<Span>,
    drawn: Option<(Hand, Span)>,
    /// What lines would make that divide an edge and say something wrong, which is told.
    undivided: Vec<EdgeId>,
}

impl MadePiece {
    fn new(declared: &Piece) -> Self {
        MadePiece {
            drawing: empty_drawing(),
            cut: declared.cut.clone(),
            grain: declared.grain,
            allowance: declared.allowance.clone(),
            corners: declared.corners.clone(),
            folds: declared.folds.clone(),
            never_flipped: declared.never_flipped,
            drawn: declared.drawn,
            undivided: Vec::new(),
        }
    }

    /// What is never made is not divided either.
    fn leave_undivided(&mut self) {
        let MadePiece { drawing, undivided, .. } = self;
        loop {
            let before = drawing.divides.len();
            drawing.divides.retain(|divide| {
                let is_made = !undivided.contains(&divide.edge);
                if !is_made {
                    undivided.extend([divide.into.0, divide.into.1]);
                }
                is_made
            });
            if drawing.divides.len() == before {
                return;
            }
        }
    }

    fn put(self, piece: &mut Piece) {
        let MadePiece { drawing, cut, grain, allowance, corners, folds, never_flipped, drawn, undivided: _ } =
            self;
        (piece.drawing, piece.cut, piece.grain, piece.allowance) = (drawing, cut, grain, allowance);
        (piece.corners, piece.folds) = (corners, folds);
        (piece.never_flipped, piece.drawn) = (never_flipped, drawn);
    }
}

impl Lowering<'_> {
    pub(super) fn lower_drawings(&mut self) {
        let pieces = PieceId::enumerate(&self.garment.pieces);
        let drawn = pieces.filter(|(_, piece)| matches!(piece.origin, PieceOrigin::Drawn));
        let drawn: Vec<PieceId> = drawn.map(|(id, _)| id).collect();
        // How a piece is drawn hangs on what others have, and never on how they are drawn.
        let made = self.side_by_side(&drawn, |reading, piece| reading.lower_piece(piece));
        for (piece, made) in drawn.into_iter().zip(made) {
            if let Some(made) = made {
                made.put(&mut self.garment.pieces[piece.index()]);
            }
        }
        for at in 0..self.garment.pieces.len() {
            self.take_over_cut(PieceId::from_index(at));
        }
    }

    fn lower_piece(&self, piece: PieceId) -> Option<MadePiece> {
        let statement = self.piece_tree(piece)?;
        let tree = as_piece(&statement)?;
        let mut made = MadePiece::new(self.garment.piece(piece));
        let mut fold_known = true;
        let (mut outline_said, mut cut_said) = (None, None);
        let (mut grain_said, mut allowance_said) = (None, None);
        for item in &tree.items {
            match &item.node {
                PieceItemNode::Outline(outline) => {
                    if self.said_once("outline", &mut outline_said, item.span) {
                        made.drawing.outline =
                            self.lower_outline(piece, outline, item.span, &mut made.drawing.take_ups);
                    }
                }
                PieceItemNode::Cut(cut) => {
                    if self.said_once("cut", &mut cut_said, item.span) {
                        fold_known = self.lower_cut(piece, cut, item.span, &mut made);
                    }
                }
                PieceItemNode::Allowance(_) => {
                    if self.said_once("allowance", &mut allowance_said, item.span) {
                        self.lower_item(piece, item, &mut made);
                    }
                }
                PieceItemNode::Grain(grain) => {
                    if self.said_once("grain", &mut grain_said, item.span) {
                        made.grain = self.lower_grain(piece, grain);
                    }
                }
                _ => self.lower_item(piece, item, &mut made),
            }
        }
        let damaged = self.is_damaged(statement.span)
            || self
                .taken_over_by(&tree.name.text)
                .any(|alike| alike.from.iter().any(|&from| self.is_damaged(from)));
        // Without its fold, or a pleat, which was reported, nothing about the piece as it is sewn can be known.
        let pleats_known = tree.items.iter().all(|item| match &item.node {
            PieceItemNode::TakeUp(tree::TakeUp { form: tree::TakeUpForm::Pleat(_), .. }) => {
                made.drawing.take_ups.iter().any(|known| known.span == item.span)
            }
            _ => true,
        });
        if damaged || !fold_known || !pleats_known {
            made.drawing.outline = Outline::None;
        }
        if outline_said.is_none() && !damaged {
            let title = format!("{} has no outline", self.garment.piece(piece).title);
            let help = "draw it: outline from a corner { … }, outline rectangle … by …, or outline copy of …";
            self.report(
                Diagnostic::new(&catalogue::OUTLINE_MISSING, tree.name.span, title)
                    .label("no outline")
                    .help(help),
            );
        }
        if cut_said.is_none() && !tree.block && !damaged {
            let title = format!("{} does not say how it is cut", self.garment.piece(piece).title);
            let help = "say it: cut 1 on fold and an edge, cut 2 mirrored, cut 1; or make it a block piece if it is never cut";
            self.report(
                Diagnostic::new(&catalogue::CUT_MISSING, tree.name.span, title).label("how many?").help(help),
            );
        }
        made.leave_undivided();
        made.drawing.order = self.drawing_order(piece, &made.drawing);
        Some(made)
    }

    fn said_once(&self, what: &str, said: &mut Option<Span>, span: Span) -> bool {
        match *said {
            Some(first) => self.report_said_twice("piece", what, first, span),
            None => *said = Some(span),
        }
        *said == Some(span)
    }

    /// What is said twice of one thing: nobody could tell which is meant.
    pub(super) fn report_said_twice(&self, thing: &str, what: &str, first: Span, again: Span) {
        let title = format!("this {thing} gives its {what} twice");
        let diagnostic = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again, title)
            .label("again here")
            .also(first, "first here")
            .help("leave one of the two out");
        self.report(diagnostic);
    }

    fn lower_item(&self, piece: PieceId, item: &tree::PieceItem, made: &mut MadePiece) {
        let drawing = &mut made.drawing;
        let when = When::Drawing(piece);
        match &item.node {
            PieceItemNode::Point(fact) | PieceItemNode::Mark(fact) => {
                let at = match self.is_cut_short(item.span) {
                    true => super::expression::poison_of(crate::garment::Dimension::Point, fact.at.span),
                    false => self.lower(&fact.at, when, Some(piece), Wanted::Point),
                };
                if let Some(&point) = self.piece_points[piece.index()].get(&fact.name.text)
                    && self.garment.point(point).span == fact.name.span
                {
                    drawing.spots.push(Spot { point, at });
                }
            }
            PieceItemNode::MovePoint { point, by } => {
                let by = self.lower(by, when, Some(piece), Wanted::Point);
                if let Some(point) = self.find_point(piece, point) {
                    drawing.moves.push(MovePoint { point, by, span: item.span });
                }
            }
            PieceItemNode::Line(line) => {
                let run = match &line.run {
                    tree::LineRun::Across(at) => {
                        LineRun::Across(self.lower(at, when, Some(piece), Wanted::Point))
                    }
                    tree::LineRun::Along(at) => {
                        LineRun::Along(self.lower(at, when, Some(piece), Wanted::Point))
                    }
                    tree::LineRun::FromTo(from, to) => LineRun::FromTo(
                        self.lower(from, when, Some(piece), Wanted::Point),
                        self.lower(to, when, Some(piece), Wanted::Point),
                    ),
                    tree::LineRun::Way(from, to, path) => LineRun::Way(
                        self.lower(from, when, Some(piece), Wanted::Point),
                        self.lower(to, when, Some(piece), Wanted::Point),
                        Box::new(self.lower_path(path, piece, when)),
                    ),
                };
                if let Some(&edge) = self.piece_edges[piece.index()].get(&line.name.text)
                    && self.garment.edge(edge).line
                {
                    drawing.lines.push(Line { edge, run, span: item.span });
                }
            }
            PieceItemNode::Notch(notch) => {
                let place = self.edge_place(piece, &notch.place, When::Drawing(piece));
                if let (Some(edge), Some(place)) = (self.find_edge(piece, &notch.edge), place) {
                    drawing.notches.push(Notch { edge, place, double: notch.double, span: item.span });
                }
            }
            PieceItemNode::Divide(divide) => {
                let place = self
                    .edge_place(piece, &divide.place, When::Drawing(piece))
                    .filter(|place| self.is_no_side(place));
                let edge = self.find_edge(piece, &divide.edge);
                let into = [&divide.into.0, &divide.into.1].map(|name| self.find_edge(piece, name));
                match (edge, place, into) {
                    (Some(edge), Some(place), [Some(one), Some(other)]) => {
                        drawing.divides.push(Divide { edge, place, into: (one, other), span: item.span });
                    }
                    _ => made.undivided.extend(into.into_iter().flatten()),
                }
            }
            PieceItemNode::TakeUp(take_up) => {
                drawing.take_ups.extend(self.lower_take_up(piece, take_up, item.span));
            }
            PieceItemNode::Folded { edge, onto, in_four } => {
                let (edge, onto) = (self.find_edge(piece, edge), self.find_edge(piece, onto));
                if let (Some(edge), Some(onto)) = (edge, onto) {
                    made.folds.push(FoldOver { edge, onto, in_four: *in_four, span: item.span });
                }
            }
            PieceItemNode::Allowance(allowance) => {
                let allowance = self.lower(allowance, When::Fact, None, Wanted::Length);
                made.allowance = Some(allowance);
            }
            PieceItemNode::Corner(corner) => {
                let (first, second) =
                    (self.find_edge(piece, &corner.first), self.find_edge(piece, &corner.second));
                if let (Some(first), Some(second)) = (first, second) {
                    let mut known = made.corners.iter();
                    let said = known.find(|known| {
                        [(first, second), (second, first)].contains(&(known.first, known.second))
                    });
                    if let Some(before) = said.map(|known| known.span) {
                        let [one, other] = [first, second].map(|edge| &self.garment.edge(edge).name);
                        self.report_said_twice("piece", &format!("corner {one}/{other}"), before, item.span);
                        return;
                    }
                    let corner = Corner { first, second, style: corner.style, span: item.span };
                    made.corners.push(corner);
                }
            }
            // Names are given out without them.
            PieceItemNode::Without(names) => {
                let parent = self.parents(piece).first().and_then(|of| self.piece_edges.get(of.index()));
                let known = |one: &tree::LeftOut| {
                    let edge = *parent?.get(&one.name().text)?;
                    self.garment.edge(edge).take_up.then_some((edge, one.name().span))
                };
                drawing.left_out.extend(names.iter().filter_map(known));
            }
            PieceItemNode::NeverFlipped => made.never_flipped = Some(item.span),
            PieceItemNode::Drawn(hand) => match made.drawn {
                Some((_, first)) => self.report_said_twice("piece", "drawn", first, item.span),
                None => made.drawn = Some((*hand, item.span)),
            },
            PieceItemNode::Outline(_) | PieceItemNode::Cut(_) | PieceItemNode::Grain(_) => {}
        }
    }

    /// Whether the edge that it is cut on the fold at, if it is, is known.
    fn lower_cut(&self, piece: PieceId, cut: &tree::Cut, span: Span, made: &mut MadePiece) -> bool {
        let count = self.lower(&cut.count, When::Fact, None, Wanted::Number);
        let how = match &cut.how {
            tree::CutHow::Alike => Some(CutHow::Alike),
            tree::CutHow::Mirrored => Some(CutHow::Mirrored),
            tree::CutHow::OnFold(edge) => self.find_edge(piece, edge).map(CutHow::OnFold),
        };
        let known = how.is_some();
        self.cut_said.set(Some((piece, how.unwrap_or(CutHow::Alike), span)));
        made.cut = Cut { count, how: how.unwrap_or(CutHow::Alike), loose: cut.loose, span };
        known
    }

    fn lower_grain(&self, piece: PieceId, grain: &tree::Grain) -> Grain {
        match grain {
            tree::Grain::Up => Grain::Up,
            tree::Grain::Across => Grain::Across,
            tree::Grain::Bias => Grain::Bias,
            tree::Grain::Along(edge) => self.find_edge(piece, edge).map_or(Grain::Up, Grain::Along),
        }
    }

    fn lower_outline(
        &self,
        piece: PieceId,
        outline: &tree::Outline,
        span: Span,
        take_ups: &mut Vec<TakeUp>,
    ) -> Outline {
        let when = When::Drawing(piece);
        match outline {
            tree::Outline::Walk { from, cutting, edges } => {
                match self.lower_walk(piece, from, edges, span, take_ups) {
                    // Its allowances are found once all sewing is known.
                    Outline::Walk { edges, span, .. } if *cutting => {
                        let widths = vec![DrawnWidth::default(); edges.len()];
                        Outline::Walk { edges, cutting: Some(widths), span }
                    }
                    other => other,
                }
            }
            tree::Outline::Rectangle { width, height } => {
                let width = self.lower(width, when, None, Wanted::Length);
                let height = self.lower(height, when, None, Wanted::Length);
                let edge = |name: &str| self.piece_edges[piece.index()].get(name).copied();
                let corner = |name: &str| self.piece_points[piece.index()].get(name).copied();
                let edges = (edge("bottom"), edge("right"), edge("top"), edge("left"));
                let corners =
                    (corner("bottom_left"), corner("bottom_right"), corner("top_right"), corner("top_left"));
                match (edges, corners) {
                    (
                        (Some(bottom), Some(right), Some(top), Some(left)),
                        (Some(a), Some(b), Some(c), Some(d)),
                    ) => {
                        let (edges, corners) = ([bottom, right, top, left], [a, b, c, d]);
                        Outline::Rectangle { width, height, edges, corners, span }
                    }
                    _ => Outline::None,
                }
            }
            tree::Outline::Parts(_) => {
                let title = "edges stand in the place of others only in a piece that is like another";
                let mistake =
                    Diagnostic::new(&catalogue::PIECE_LIKE, span, title).label("in the place of what?");
                self.report(mistake.help("write the whole outline, outline from … { … }, or say which piece it is like: piece back like front { … }"));
                Outline::None
            }
            tree::Outline::Copy { of, mirrored } => match self.base_of(piece, of) {
                Some((of, _)) => Outline::Copy { of, mirrored: *mirrored, span },
                None => Outline::None,
            },
            tree::Outline::Strip { of, along, width, mirrored } => {
                let width = self.lower(width, when, None, Wanted::Length);
                let Some((of, base)) = self.base_of(piece, of) else { return Outline::None };
                let named: Vec<tree::Name> = along.iter().map(|one| one.edge.clone()).collect();
                let runs = self.strip_runs((piece, base), along, when);
                let (along, inner) = (self.edges_of(base, &named), self.inner_edge(piece));
                match (along, inner, runs) {
                    (Some(along), Some(inner), Some(runs)) => {
                        Outline::Strip { of, along, runs, width, inner, mirrored: *mirrored, span }
                    }
                    _ => Outline::None,
                }
            }
            tree::Outline::Rest { of, without, mirrored } => {
                self.lower_rest(piece, of, without, (*mirrored, span))
            }
        }
    }

    /// Split pieces are cut as their whole was, joined ones as the first of the two; a fold stays
    /// where the edge is still there.
    fn take_over_cut(&mut self, piece: PieceId) {
        let from = match self.garment.piece(piece).origin {
            PieceOrigin::Drawn => return,
            PieceOrigin::Split { of, .. } => of,
            PieceOrigin::Join { by } => match self.garment.alteration(by).targets.first() {
                Some(first) => first.piece,
                None => return,
            },
        };
        let whole = self.garment.piece(from).clone();
        let own = |edge: EdgeId| {
            self.garment
                .piece(piece)
                .edges
                .iter()
                .copied()
                .find(|&own| self.garment.edge(own).same_run_as == Some(edge))
        };
        let mut cut = whole.cut.clone();
        if let CutHow::OnFold(fold) = cut.how
            && let Some(fold) = own(fold)
        {
            cut.how = CutHow::OnFold(fold);
        }
        let grain = match whole.grain {
            Grain::Along(edge) => own(edge).map_or(Grain::Up, Grain::Along),
            other => other,
        };
        let corners = whole.corners.iter().filter_map(|corner| {
            let (first, second) = (own(corner.first)?, own(corner.second)?);
            Some(Corner { first, second, ..*corner })
        });
        let corners: Vec<Corner> = corners.collect();
        let side = self.garment.side_of(piece);
        if side.is_some() {
            cut.how = CutHow::Alike;
        }
        let folds = whole.folds.iter().filter(|_| side.is_some());
        let folds =
            folds.filter_map(|over| Some(FoldOver { edge: own(over.edge)?, onto: own(over.onto)?, ..*over }));
        let folds: Vec<FoldOver> = folds.collect();
        let made = &mut self.garment.pieces[piece.index()];
        made.folds.extend(folds);
        made.cut = cut;
        made.grain = grain;
        made.corners = corners;
        made.allowance = whole.allowance;
        made.never_flipped = whole.never_flipped;
        made.drawn = whole.drawn;
    }
}
