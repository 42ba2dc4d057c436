//! Plackets become what they are made of: strips, the seams that sew them to the sides of their slit, and the
//! finishes of what is left.

use super::Lowering;
use crate::garment::merge::{Declaration, Merged};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{
    Call, Chain, Cut, CutHow, Dotted, Expr, ExprKind, Finish, FinishKind, Grain, Hem, HemEdge, Name, Outline,
    Piece, PieceItem, PieceItemNode, Placket, PlacketKind, Quantity, Scaling, Seam, SeamItem, SeamItemNode,
    SewnWords, Side, Sign, Statement, StatementNode, TakeUpForm, Text, Unit, UnitWord,
};
use std::sync::Arc;

/// How many copies, splits and joins back a piece's own words are looked for.
const FOREBEARS: usize = 16;
/// How deep the upper end of an over part is turned in, in centimetres: common practice.
const TURNED_IN: f64 = 1.0;

/// The declarations with all plackets written out; none where there are no plackets.
pub(super) fn written_out(merged: &Merged) -> Option<Merged> {
    let is_placket = |one: &Declaration| matches!(one.statement.node, StatementNode::Placket(_));
    if !merged.declarations.iter().any(is_placket) {
        return None;
    }
    let mut made: Vec<Declaration> = Vec::new();
    let mut strips: Vec<(Arc<str>, Name)> = Vec::new();
    let mut lost_words = merged.lost_words.clone();
    for declaration in &merged.declarations {
        let StatementNode::Placket(placket) = &declaration.statement.node else {
            made.push(declaration.clone());
            continue;
        };
        let writing =
            Writing { declarations: &merged.declarations, placket, span: declaration.statement.span };
        let Some(parts) = writing.parts() else {
            // That it names no slit is told; what it would be made of is not missed.
            let names = ["", "_under", "_over", "_end"].map(|after| writing.name(after).text);
            lost_words.extend(names);
            continue;
        };
        let layer = writing.layer();
        for part in parts {
            if let (StatementNode::Piece(piece), Some(layer)) = (&part, &layer) {
                strips.push((layer.clone(), piece.name.clone()));
            }
            let statement = Arc::new(Statement { span: declaration.statement.span, node: part });
            made.push(Declaration { statement, ..declaration.clone() });
        }
    }
    for declaration in &mut made {
        let StatementNode::Layer(layer) = &declaration.statement.node else { continue };
        let own = strips.iter().filter(|(of, _)| *of == layer.name.text).map(|(_, strip)| strip);
        if own.clone().next().is_some() {
            let mut layer = layer.clone();
            layer.pieces.extend(own.cloned());
            let statement = Statement { span: declaration.statement.span, node: StatementNode::Layer(layer) };
            declaration.statement = Arc::new(statement);
        }
    }
    Some(Merged { declarations: made, lost_words, ..merged.clone() })
}

impl Lowering<'_> {
    /// Reports plackets whose words can be no slit; they are looked for in what was written.
    pub(super) fn report_no_slits(&self, written: &Merged) {
        for declaration in &written.declarations {
            let StatementNode::Placket(placket) = &declaration.statement.node else { continue };
            if (2..=3).contains(&placket.slit.parts.len()) {
                continue;
            }
            let words: Vec<&str> = placket.slit.parts.iter().map(|part| &*part.text).collect();
            let title = format!("{} is no slit of a piece", words.join("."));
            let help =
                "name the piece and its slit: piece.slit, or layer.piece.slit; its sides are not named";
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, placket.slit.span, title)
                    .label("of which piece?")
                    .help(help),
            );
        }
    }
}

/// A placket that is being written out.
struct Writing<'a> {
    declarations: &'a [Declaration],
    placket: &'a Placket,
    span: Span,
}

impl Writing<'_> {
    /// The words before the slit's name, the piece's, and the slit's.
    fn words(&self) -> Option<(&Name, &Name)> {
        match self.placket.slit.parts.as_slice() {
            [piece, slit] | [_, piece, slit] => Some((piece, slit)),
            _ => None,
        }
    }

    /// What the placket is made of; none where it names no slit, which is told elsewhere.
    fn parts(&self) -> Option<Vec<StatementNode>> {
        let (piece, slit) = self.words()?;
        let window = has_window(self.declarations, &piece.text, &slit.text, FOREBEARS);
        let mut made = Vec::new();
        match &self.placket.kind {
            PlacketKind::Bound(width) => {
                let mut sides = vec!["near"];
                sides.extend(window.then_some("end"));
                sides.push("far");
                let strip = self.name("");
                made.push(self.strip(&strip, "", &sides, width));
                made.push(self.seam(&strip, &["bottom", "top"], &sides, &[("bottom_left", "near")]));
                made.push(self.finish(&strip, "right", FinishKind::Raw));
            }
            PlacketKind::TwoPart { over, under } => {
                let (lower, upper) = (self.name("_under"), self.name("_over"));
                made.push(self.strip(&lower, ", under part", &["near"], under));
                made.push(self.strip(&upper, ", over part", &["far"], over));
                made.push(self.seam(&lower, &["bottom", "top"], &["near"], &[("bottom_left", "near")]));
                made.push(self.seam(&upper, &["bottom", "top"], &["far"], &[("bottom_left", "far")]));
                made.push(match window {
                    true => {
                        let first = vec![self.chain(vec![self.edge(&lower, "right")])];
                        let corner = self.edge(&lower, "bottom_right");
                        let meeting = SeamItemNode::Matching(corner, self.layered_side("end_near"));
                        self.seam_of(&self.name("_end"), first, &["end"], vec![meeting])
                    }
                    false => self.finish(&lower, "right", FinishKind::Raw),
                });
                let unit = Some(UnitWord { unit: Unit::Centimetre, span: self.span });
                let depth =
                    self.expr(ExprKind::Quantity(Quantity { number: TURNED_IN, unit, span: self.span }));
                made.push(self.finish(
                    &upper,
                    "right",
                    FinishKind::Hem(Hem { depth, raw_edge: HemEdge::TurnedOnce, turn_up: None }),
                ));
            }
        }
        Some(made)
    }

    /// The layer whose cloth the strips are cut from: the one that is named, else the first that sews the piece.
    fn layer(&self) -> Option<Arc<str>> {
        if let [layer, _, _] = self.placket.slit.parts.as_slice() {
            return Some(layer.text.clone());
        }
        let (piece, _) = self.words()?;
        let cutting = |name: &str| {
            self.declarations.iter().find_map(|one| match &one.statement.node {
                StatementNode::Layer(layer) if !layer.fused => {
                    layer.pieces.iter().any(|own| *own.text == *name).then(|| layer.name.text.clone())
                }
                _ => None,
            })
        };
        let mut name = piece.text.clone();
        for _ in 0..FOREBEARS {
            if let Some(layer) = cutting(&name) {
                return Some(layer);
            }
            name = made_of(self.declarations, &name)?;
        }
        None
    }

    fn name(&self, after: &str) -> Name {
        Name { text: format!("{}{after}", self.placket.name.text).into(), span: self.placket.name.span }
    }

    fn given(&self, word: &str) -> Name {
        Name { text: word.into(), span: self.span }
    }

    fn expr(&self, kind: ExprKind) -> Expr {
        Expr { span: self.span, kind }
    }

    fn edge(&self, piece: &Name, edge: &str) -> Dotted {
        let layer = match self.placket.slit.parts.as_slice() {
            [layer, _, _] => Some(layer.clone()),
            _ => self.layer().map(|text| Name { text, span: self.span }),
        };
        let parts = layer.into_iter().chain([piece.clone(), self.given(edge)]).collect();
        Dotted { parts, on: None, span: self.span }
    }

    /// A side of the slit.
    fn side(&self, side: &str) -> Dotted {
        let parts = self.placket.slit.parts.iter().cloned().chain([self.given(side)]).collect();
        Dotted { parts, on: None, span: self.placket.slit.span }
    }

    /// The same with its layer, which is that of the strips.
    fn layered_side(&self, side: &str) -> Dotted {
        let mut dotted = self.side(side);
        if let (3, Some(layer)) = (dotted.parts.len(), self.layer()) {
            dotted.parts.insert(0, Name { text: layer, span: self.span });
        }
        dotted
    }

    fn chain(&self, edges: Vec<Dotted>) -> Chain {
        let edges =
            edges.into_iter().map(|edge| SewnWords { span: edge.span, edge, run: None, over: Vec::new() });
        Chain { edges: edges.collect(), ring: false, span: self.span }
    }

    /// A strip as long as these sides and twice as wide as it is finished, folded lengthwise.
    fn strip(&self, name: &Name, words: &str, along: &[&str], width: &Expr) -> StatementNode {
        let lengths = along.iter().map(|side| {
            let side = self.expr(ExprKind::Name(self.side(side)));
            let call = Call { function: self.given("length"), arguments: vec![side] };
            (Sign::Plus, self.expr(ExprKind::Call(call)))
        });
        let mut lengths: Vec<(Sign, Expr)> = lengths.collect();
        let long = match lengths.len() {
            1 => lengths.swap_remove(0).1,
            _ => self.expr(ExprKind::Sum(lengths)),
        };
        // A bare number is a length in the file's unit where it stands alone or in a sum.
        let width = Expr { span: width.span, kind: ExprKind::Group(Box::new(width.clone())) };
        let wide = Expr {
            span: width.span,
            kind: ExprKind::Sum(vec![(Sign::Plus, width.clone()), (Sign::Plus, width)]),
        };
        let item = |node| PieceItem { span: self.span, node };
        let items = vec![
            item(PieceItemNode::Cut(self.cut())),
            item(PieceItemNode::Grain(Grain::Across)),
            item(PieceItemNode::Outline(Outline::Rectangle { width: long, height: wide })),
            item(PieceItemNode::Folded {
                edge: self.given("bottom"),
                onto: self.given("top"),
                in_four: false,
            }),
        ];
        let title = Some(Text { text: self.title(words), span: self.placket.name.span });
        // Of a piece that no layer sews, which is told, the strips are not cut either.
        let block = self.layer().is_none();
        StatementNode::Piece(Piece { name: name.clone(), title, block, items })
    }

    /// "Wrist placket, under part".
    fn title(&self, words: &str) -> Arc<str> {
        let name = self.placket.name.text.replace('_', " ");
        let mut letters = name.chars();
        let first = letters.next().into_iter().flat_map(char::to_uppercase);
        first.chain(letters).chain(words.chars()).collect::<String>().into()
    }

    /// As many as there are slits: of a piece on the fold two for each.
    fn cut(&self) -> Cut {
        let own = self.words().and_then(|(piece, _)| cut_of(self.declarations, &piece.text, FOREBEARS));
        let number =
            |number: f64| self.expr(ExprKind::Quantity(Quantity { number, unit: None, span: self.span }));
        match own {
            Some(Cut { count, how: CutHow::OnFold(_), .. }) => {
                let count = Expr { span: count.span, kind: ExprKind::Group(Box::new(count)) };
                let both = vec![(Scaling::Times, number(2.0)), (Scaling::Times, count)];
                Cut { count: self.expr(ExprKind::Product(both)), how: CutHow::Mirrored, loose: false }
            }
            Some(cut) => Cut { loose: false, ..cut },
            None => Cut { count: number(1.0), how: CutHow::Alike, loose: false },
        }
    }

    fn seam(&self, strip: &Name, plies: &[&str], sides: &[&str], meeting: &[(&str, &str)]) -> StatementNode {
        let first = plies.iter().map(|ply| self.chain(vec![self.edge(strip, ply)])).collect();
        let matching = meeting
            .iter()
            .map(|(corner, side)| SeamItemNode::Matching(self.edge(strip, corner), self.layered_side(side)));
        self.seam_of(strip, first, sides, matching.collect())
    }

    fn seam_of(
        &self,
        name: &Name,
        first: Vec<Chain>,
        sides: &[&str],
        items: Vec<SeamItemNode>,
    ) -> StatementNode {
        let second = vec![self.chain(sides.iter().map(|side| self.layered_side(side)).collect())];
        let side = |plies| Side { plies, span: self.span };
        let items = items.into_iter().map(|node| SeamItem { span: self.span, node }).collect();
        StatementNode::Seam(Seam {
            name: name.clone(),
            label: None,
            first: side(first),
            second: side(second),
            fit: None,
            across_fold: false,
            enclosing: Vec::new(),
            items,
        })
    }

    fn finish(&self, strip: &Name, edge: &str, kind: FinishKind) -> StatementNode {
        let edges = self.chain(vec![self.edge(strip, edge)]).edges;
        let (kind_span, binding_stretch, stitch) = (self.span, None, None);
        StatementNode::Finish(Finish { edges, kind, kind_span, binding_stretch, stitch })
    }
}

fn piece_of<'d>(declarations: &'d [Declaration], name: &str) -> Option<&'d Piece> {
    declarations.iter().find_map(|one| match &one.statement.node {
        StatementNode::Piece(piece) if *piece.name.text == *name => Some(piece),
        _ => None,
    })
}

/// The piece that another is copied from, or was split or joined of.
fn made_of(declarations: &[Declaration], name: &str) -> Option<Arc<str>> {
    let last = |dotted: &Dotted| dotted.parts.last().map(|name| name.text.clone());
    if let Some(piece) = piece_of(declarations, name) {
        return piece.items.iter().find_map(|item| match &item.node {
            PieceItemNode::Outline(Outline::Copy { of } | Outline::Rest { of, .. }) => last(of),
            _ => None,
        });
    }
    declarations.iter().find_map(|one| match &one.statement.node {
        StatementNode::Alteration(alteration) if alteration.into.iter().any(|made| *made.text == *name) => {
            alteration.targets.first().and_then(last)
        }
        _ => None,
    })
}

/// Whether the slit has a window, as it is said of the piece or of what that is made of.
fn has_window(declarations: &[Declaration], piece: &str, slit: &str, left: usize) -> bool {
    let own = piece_of(declarations, piece).into_iter().flat_map(|piece| &piece.items);
    let mut said = own.filter_map(|item| match &item.node {
        PieceItemNode::TakeUp(take_up) if *take_up.name.text == *slit => Some(take_up),
        _ => None,
    });
    if let Some(take_up) = said.next() {
        return matches!(take_up.form, TakeUpForm::Slit { window: Some(_), .. });
    }
    match (left, made_of(declarations, piece)) {
        (1.., Some(base)) => has_window(declarations, &base, slit, left - 1),
        _ => false,
    }
}

/// How a piece is cut; a piece that a split or join made as what it was made of.
fn cut_of(declarations: &[Declaration], piece: &str, left: usize) -> Option<Cut> {
    let own = piece_of(declarations, piece).into_iter().flat_map(|piece| &piece.items);
    let mut said = own.filter_map(|item| match &item.node {
        PieceItemNode::Cut(cut) => Some(cut.clone()),
        _ => None,
    });
    said.next().or_else(|| match left {
        0 => None,
        _ => cut_of(declarations, &made_of(declarations, piece)?, left - 1),
    })
}
