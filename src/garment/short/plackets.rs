//! Plackets become what they are made of: strips, the seams that sew them to the sides of their slit, and the
//! finishes of what is left.

use super::Written;
use super::known::{FOREBEARS, Known};
use super::writing::{Writing, twice};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{
    Chain, Cut, CutHow, Dotted, EdgePlace, Expr, FinishKind, Grain, Hand, Hem, HemEdge, Name, Outline, Piece,
    PieceItemNode, Placket, PlacketKind, SlitCut, StatementNode, TakeUp, TakeUpForm,
};
use std::sync::Arc;

/// How deep the upper end of an over part is turned in, in centimetres: common practice.
const TURNED_IN: f64 = 1.0;

/// What a placket is made of; none where it names no slit, which is told elsewhere.
pub(super) fn written(writing: Writing, placket: &Placket) -> Option<Written> {
    let of = OfSlit { writing, placket };
    if let Some(mistake) = of.inside() {
        return Some(Written { mistakes: vec![mistake], ..Written::default() });
    }
    let parts = of.parts()?;
    let strips = parts.iter().filter_map(|part| match part {
        StatementNode::Piece(piece) => Some(piece.name.clone()),
        _ => None,
    });
    let layers =
        of.layer().into_iter().flat_map(|layer| strips.clone().map(move |strip| (layer.clone(), strip)));
    let layers = layers.collect();
    Some(Written { parts, layers, mistakes: of.unsided().into_iter().collect() })
}

/// A placket that is being written out.
struct OfSlit<'a> {
    writing: Writing<'a>,
    placket: &'a Placket,
}

impl OfSlit<'_> {
    /// The words before the slit's name, the piece's, and the slit's.
    fn words(&self) -> Option<(&Name, &Name)> {
        match self.placket.slit.parts.as_slice() {
            [piece, slit] | [_, piece, slit] => Some((piece, slit)),
            _ => None,
        }
    }

    /// That no edge opens the slit, if it is so.
    fn inside(&self) -> Option<Diagnostic> {
        let (piece, slit) = self.words()?;
        let said = slit_said(self.writing.known, &piece.text, &slit.text, FOREBEARS)?;
        let TakeUpForm::Slit { cut: SlitCut::Inside { .. }, .. } = said.form else { return None };
        let name = &said.name.text;
        let title =
            format!("{name} lies inside its piece, and a placket is sewn to a slit that begins at an edge");
        let words: Vec<&str> = self.placket.slit.parts.iter().map(|part| &*part.text).collect();
        let dotted = words.join(".");
        let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, self.placket.slit.span, title);
        Some(mistake.also(said.name.span, "declared here").help(format!(
            "cut it from an edge, slit {name} on EDGE at …; or sew pieces of your own to {dotted}.near and {dotted}.far, or \
             bind them"
        )))
    }

    /// The slit, as it is said.
    fn said(&self) -> Option<&TakeUp> {
        let (piece, slit) = self.words()?;
        slit_said(self.writing.known, &piece.text, &slit.text, FOREBEARS)
    }

    /// Whether the slit lies in the middle of what is cut on the fold: each half has one side of it.
    fn is_at_fold(&self) -> bool {
        let form = self.said().map(|said| &said.form);
        matches!(form, Some(TakeUpForm::Slit { cut: SlitCut::FromEdge { place: EdgePlace::Fold, .. }, .. }))
    }

    /// That of a slit in the middle it is not said which side lies over, or of another that it is.
    fn unsided(&self) -> Option<Diagnostic> {
        let PlacketKind::TwoPart { upper, .. } = &self.placket.kind else { return None };
        let said = self.said()?;
        let (name, slit) = (&self.placket.name.text, &said.name.text);
        let (title, help) = match (self.is_at_fold(), upper) {
            (true, None) => (
                format!("nothing says which side of {name} lies over"),
                "write left over right after it, or right over left, as worn".to_owned(),
            ),
            (false, Some(_)) => (
                format!("{slit} is no slit in the middle: its far side lies over its near one"),
                "leave left over right out; the side that its place is counted from is the near one"
                    .to_owned(),
            ),
            _ => return None,
        };
        let mistake = Diagnostic::new(&catalogue::PLACKET_OVER, self.placket.name.span, title);
        Some(mistake.also(said.name.span, "the slit").help(help))
    }

    /// What the placket is made of; none where it names no slit, which is told elsewhere.
    fn parts(&self) -> Option<Vec<StatementNode>> {
        self.words()?;
        let said = self.said();
        let window = said.is_some_and(|said| matches!(said.form, TakeUpForm::Slit { window: Some(_), .. }));
        let mut made = Vec::new();
        match &self.placket.kind {
            PlacketKind::Bound(width) if self.is_at_fold() => {
                let mut sides = vec!["near"];
                sides.extend(window.then_some("end"));
                let strip = self.name("");
                made.push(self.strip(&strip, "", &[sides.clone(), sides.clone()].concat(), width));
                // The chain runs on over the fold: both halves of it are alike, and both ends lie at the edge.
                made.push(self.seam(&strip, &["bottom", "top"], &sides, &[]));
            }
            PlacketKind::Bound(width) => {
                let mut sides = vec!["near"];
                sides.extend(window.then_some("end"));
                sides.push("far");
                let strip = self.name("");
                made.push(self.strip(&strip, "", &sides, width));
                made.push(self.seam(&strip, &["bottom", "top"], &sides, &[("bottom_left", "near")]));
                made.push(self.finish(&strip, FinishKind::Raw));
            }
            PlacketKind::TwoPart { over, under, upper: hand } => {
                // Where it is not said, which is told, either side may lie over.
                let upper_side = self.is_at_fold().then(|| hand.unwrap_or(Hand::Right));
                let far = if self.is_at_fold() { "near" } else { "far" };
                let (lower, upper) = (self.name("_under"), self.name("_over"));
                made.push(self.strip(&lower, ", under part", &["near"], under));
                made.push(self.strip(&upper, ", over part", &[far], over));
                for (strip, side, hand) in
                    [(&lower, "near", upper_side.map(Hand::other)), (&upper, far, upper_side)]
                {
                    let first = ["bottom", "top"].map(|ply| self.chain(vec![self.edge(strip, ply)])).to_vec();
                    let meeting = vec![(self.edge(strip, "bottom_left"), self.layered_side(side))];
                    let own = Dotted { on: hand, ..self.layered_side(side) };
                    made.push(self.seam_to(strip, first, vec![own], meeting));
                }
                made.push(match window {
                    true => {
                        let first = vec![self.chain(vec![self.edge(&lower, "right")])];
                        let corner = self.edge(&lower, "bottom_right");
                        let meeting = vec![(corner, self.layered_side("end_near"))];
                        self.seam_of(&self.name("_end"), first, &["end"], meeting)
                    }
                    false => self.finish(&lower, FinishKind::Raw),
                });
                let depth = self.writing.centimetres(TURNED_IN);
                let hem = Hem { depth, raw_edge: HemEdge::TurnedOnce, turn_up: None };
                made.push(self.finish(&upper, FinishKind::Hem(hem)));
            }
        }
        Some(made)
    }

    /// The layer whose cloth the strips are cut from: the one that is named, else the first that sews the piece.
    fn layer(&self) -> Option<Arc<str>> {
        if let [layer, _, _] = self.placket.slit.parts.as_slice() {
            return Some(layer.text.clone());
        }
        self.writing.known.layer_of(&self.words()?.0.text)
    }

    fn name(&self, after: &str) -> Name {
        self.writing.named(after)
    }

    fn edge(&self, piece: &Name, edge: &str) -> Dotted {
        let span = self.writing.span;
        let layer = match self.placket.slit.parts.as_slice() {
            [layer, _, _] => Some(layer.clone()),
            _ => self.layer().map(|text| Name { text, span }),
        };
        let parts = layer.into_iter().chain([piece.clone(), self.writing.given(edge)]).collect();
        Dotted { parts, on: None, span }
    }

    /// A side of the slit.
    fn side(&self, side: &str) -> Dotted {
        let parts = self.placket.slit.parts.iter().cloned().chain([self.writing.given(side)]).collect();
        Dotted { parts, on: None, span: self.placket.slit.span }
    }

    /// The same with its layer, which is that of the strips.
    fn layered_side(&self, side: &str) -> Dotted {
        let mut dotted = self.side(side);
        if let (3, Some(layer)) = (dotted.parts.len(), self.layer()) {
            dotted.parts.insert(0, self.writing.given(&layer));
        }
        dotted
    }

    fn chain(&self, edges: Vec<Dotted>) -> Chain {
        self.writing.chain(edges)
    }

    /// A strip as long as these sides and twice as wide as it is finished, folded lengthwise.
    fn strip(&self, name: &Name, words: &str, along: &[&str], width: &Expr) -> StatementNode {
        let writing = self.writing;
        let lengths = along.iter().map(|side| writing.call("length", writing.edge_expr(&self.side(side))));
        let long = writing.sum(lengths.collect());
        // A bare number is a length in the file's unit where it stands alone or in a sum.
        let wide = twice(width);
        let items = [
            PieceItemNode::Cut(self.cut()),
            PieceItemNode::Grain(Grain::Across),
            PieceItemNode::Outline(Outline::Rectangle { width: long, height: wide }),
            PieceItemNode::Folded {
                edge: writing.given("bottom"),
                onto: writing.given("top"),
                in_four: false,
            },
        ];
        let items = items.into_iter().map(|node| writing.item(node)).collect();
        let title = Some(writing.title(None, words));
        // Of a piece that no layer sews, which is told, the strips are not cut either.
        let block = self.layer().is_none();
        StatementNode::Piece(Piece { name: name.clone(), like: None, title, block, items })
    }

    /// As many as there are slits: of a piece on the fold two for each.
    fn cut(&self) -> Cut {
        let writing = self.writing;
        let own = self.words().and_then(|(piece, _)| writing.known.cut_of(&piece.text, FOREBEARS));
        match own {
            Some(Cut { count, how: CutHow::OnFold(_), .. }) if self.is_at_fold() => {
                Cut { count, how: CutHow::Alike, loose: false }
            }
            Some(Cut { count, how: CutHow::OnFold(_), .. }) => {
                Cut { count: writing.doubled(count), how: CutHow::Mirrored, loose: false }
            }
            Some(cut) => Cut { loose: false, ..cut },
            None => Cut { count: writing.number(1.0), how: CutHow::Alike, loose: false },
        }
    }

    fn seam(&self, strip: &Name, plies: &[&str], sides: &[&str], meeting: &[(&str, &str)]) -> StatementNode {
        let first = plies.iter().map(|ply| self.chain(vec![self.edge(strip, ply)])).collect();
        let corner = |(corner, side): &(&str, &str)| (self.edge(strip, corner), self.layered_side(side));
        self.seam_of(strip, first, sides, meeting.iter().map(corner).collect())
    }

    fn seam_of(
        &self,
        name: &Name,
        first: Vec<Chain>,
        sides: &[&str],
        meeting: Vec<(Dotted, Dotted)>,
    ) -> StatementNode {
        let second = sides.iter().map(|side| self.layered_side(side)).collect();
        self.seam_to(name, first, second, meeting)
    }

    fn seam_to(
        &self,
        name: &Name,
        first: Vec<Chain>,
        second: Vec<Dotted>,
        meeting: Vec<(Dotted, Dotted)>,
    ) -> StatementNode {
        let second = vec![self.chain(second)];
        let mut seam = self.writing.seam(name.clone(), first, second);
        seam.items = meeting.into_iter().map(|(one, other)| self.writing.matching(one, other)).collect();
        StatementNode::Seam(seam)
    }

    /// The end of a strip.
    fn finish(&self, strip: &Name, kind: FinishKind) -> StatementNode {
        self.writing.finish(vec![self.edge(strip, "right")], kind)
    }
}

/// The take-up of that name, as it is said of the piece or of what that is made of.
fn slit_said<'d>(known: Known<'d>, piece: &str, slit: &str, left: usize) -> Option<&'d TakeUp> {
    let own = known.piece(piece).into_iter().flat_map(|piece| &piece.items);
    let mut said = own.filter_map(|item| match &item.node {
        PieceItemNode::TakeUp(take_up) if *take_up.name.text == *slit => Some(take_up),
        _ => None,
    });
    if let Some(take_up) = said.next() {
        return Some(take_up);
    }
    match (left, known.made_of(piece)) {
        (1.., Some(base)) => slit_said(known, &base, slit, left - 1),
        _ => None,
    }
}
