//! Rows of topstitching and understitching, tacks, and what is set.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use super::sought::Sought;
use crate::garment::{
    ActionTarget, Dimension, EdgePlace, Expression, Node, NotionId, PlaceAt, RowId, SetNotion, StitchedEdge,
    StitchedRow, Symbol, Tack, TackEnd, TackId, TackSpot,
};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{self, RowKind, Verb};

impl Lowering<'_> {
    pub(super) fn lower_stitched_row(&mut self, tree: &tree::StitchedRow, span: Span) {
        if self.names.stitched.contains_key(&tree.name.text) {
            return; // a second one of that name, reported elsewhere
        }
        let length = |expr: &tree::Expr| self.lower(expr, When::Fact, None, Wanted::Length);
        let distance = tree.distance.as_ref().map(length);
        let rows = tree
            .rows
            .as_ref()
            .map(|(count, apart)| (self.lower(count, When::Fact, None, Wanted::Number), length(apart)));
        let edges = match &tree.distance {
            Some(_) => tree.edges.iter().filter_map(|words| self.stitched_edge(words, tree)).collect(),
            None => tree.edges.iter().filter_map(|words| self.stitched_line(words, tree)).collect(),
        };
        self.said_round(&tree.edges, &tree.name.text);
        let stitch = tree.stitch.as_ref().and_then(|stitch| self.lower_stitch(stitch));
        let id = RowId::from_index(self.garment.rows.len());
        self.names.stitched.insert(tree.name.text.clone(), ActionTarget::Row(id));
        let (name, name_span, kind) = (tree.name.text.clone(), tree.name.span, tree.kind);
        self.garment.rows.push(StitchedRow { name, name_span, span, kind, distance, edges, rows, stitch });
    }

    /// A line that a row lies on.
    fn stitched_line(&self, words: &tree::SewnWords, row: &tree::StitchedRow) -> Option<StitchedEdge> {
        let sewn = self.named_edge(&words.edge, true, None)?;
        let (name, word) = (&self.garment.edge(sewn.edge).name, row.kind.word());
        let is_line = self.garment.edge(sewn.edge).line && !self.is_cut_along(sewn.edge);
        let beside = format!("{word} {} 0.5cm from {}", row.name.text, self.words(words.edge.span));
        let wrong = match () {
            () if !is_line => Some((
                words.span,
                format!("{name} is an edge: what is stitched on it lies on no cloth"),
                format!("say how far inside it: {beside}"),
            )),
            () if row.kind == RowKind::Understitch => Some((
                words.span,
                format!("{name} is a line inside the piece, and nothing is understitched there"),
                format!("topstitch it: topstitch {} along {}", row.name.text, self.words(words.edge.span)),
            )),
            () => words.run.as_ref().map(|run| {
                let help = "leave the run out, or draw a line that is as long as the row".to_owned();
                (run.span, format!("{name} is a line, and stitched along from end to end"), help)
            }),
        };
        if let Some((span, title, help)) = wrong {
            self.report(
                Diagnostic::new(&catalogue::ROW_PLACE, span, title)
                    .also(self.garment.edge(sewn.edge).span, "drawn here")
                    .help(help),
            );
            return None;
        }
        Some(StitchedEdge { sewn, run: None })
    }

    /// A row lies on the edge without taking it: whoever else names the edge means all of it.
    fn stitched_edge(&self, words: &tree::SewnWords, row: &tree::StitchedRow) -> Option<StitchedEdge> {
        let sewn = self.named_edge(&words.edge, true, None)?;
        let own = self.garment.edge(sewn.edge);
        if own.line && !self.is_cut_along(sewn.edge) {
            let (name, said) = (&own.name, self.words(words.edge.span));
            let title = format!("{name} is a line inside the piece, which has cloth on both sides");
            let help = match row.kind {
                RowKind::Topstitch => format!(
                    "stitch on it: topstitch {} along {said}; beside it draw another line",
                    row.name.text
                ),
                RowKind::Understitch => "name the edge of the facing that is sewn".to_owned(),
            };
            let mistake = Diagnostic::new(&catalogue::ROW_PLACE, words.span, title);
            self.report(mistake.label("a line").also(own.span, "drawn here").help(help));
            return None;
        }
        let run = match &words.run {
            Some(run) => {
                let counted = self.counted_from(sewn.piece, &run.counted)?;
                let place = |value: &tree::Expr| {
                    let from = Some(run.counted.clone());
                    let place = tree::EdgePlace::At { value: value.clone(), from };
                    self.edge_place(sewn.piece, &place, When::Fact)
                };
                let start = match &run.from {
                    Some(from) => place(from)?,
                    None => {
                        let (node, dimension) = (Node::Constant(0.0), Dimension::Length);
                        let nought = Expression { node, dimension, span: run.span };
                        EdgePlace { at: PlaceAt::From(nought, counted), span: run.counted.span }
                    }
                };
                Some([start, place(&run.to)?])
            }
            None => None,
        };
        Some(StitchedEdge { sewn, run })
    }

    pub(super) fn lower_tack(&mut self, tree: &tree::Tack, span: Span) {
        if self.names.stitched.contains_key(&tree.name.text) {
            return; // a second one of that name, reported elsewhere
        }
        let places = std::iter::once(&tree.from).chain(&tree.to);
        let ends = places.filter_map(|place| self.tack_end(place)).collect();
        let bar = tree.bar.as_ref().map(|bar| self.lower(bar, When::Fact, None, Wanted::Length));
        let id = TackId::from_index(self.garment.tacks.len());
        self.names.stitched.insert(tree.name.text.clone(), ActionTarget::Tack(id));
        let (name, name_span) = (tree.name.text.clone(), tree.name.span);
        self.garment.tacks.push(Tack { name, name_span, span, ends, bar, sets: None });
    }

    pub(super) fn lower_setting(&mut self, tree: &tree::Setting, span: Span) {
        if self.names.stitched.contains_key(&tree.name.text) {
            return; // a second one of that name, reported elsewhere
        }
        let ends: Vec<TackEnd> = tree.places.iter().filter_map(|place| self.tack_end(place)).collect();
        let whole = ends.len() == tree.places.len();
        // Of one that a library prices and the garment counts, the garment's.
        let known = NotionId::enumerate(&self.garment.notions);
        let called = known.filter(|(_, own)| own.title == tree.notion.text);
        let notion = called.min_by_key(|(_, own)| own.from_library).map(|(id, _)| id);
        if notion.is_none() {
            let title = format!("there is no notion called \"{}\"", tree.notion.text);
            let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, tree.notion.span, title);
            let mistake = mistake.label("not bought");
            let near = nearest(&tree.notion.text, self.garment.notions.iter().map(|own| &*own.title));
            self.report(match near {
                Some(near) => mistake.did_you_mean(tree.notion.span, &format!("\"{near}\"")),
                None => mistake.help(format!(
                    "say that it is bought: notion \"{}\", and how many, or nothing, and as many as are set",
                    tree.notion.text
                )),
            });
        }
        let id = TackId::from_index(self.garment.tacks.len());
        self.names.stitched.insert(tree.name.text.clone(), ActionTarget::Tack(id));
        let (name, name_span) = (tree.name.text.clone(), tree.name.span);
        let sets = Some(SetNotion { notion, span: tree.notion.span, whole });
        self.garment.tacks.push(Tack { name, name_span, span, ends, bar: None, sets });
    }

    fn tack_end(&self, place: &tree::SewnPlace) -> Option<TackEnd> {
        let (part, spot) = match &place.place {
            None => {
                let (part, point) = self.find_dotted_point(&place.at)?;
                (part, TackSpot::Point(point))
            }
            Some(on) => {
                let sewn = self.named_edge(&place.at, false, None)?;
                let at_fold = matches!(on, tree::EdgePlace::Fold);
                let on = self.place_of_one(sewn.piece, on, place.span)?;
                let (layer, piece) = (sewn.layer, sewn.piece);
                let hand = place.at.on.or_else(|| at_fold.then_some(tree::Hand::Left));
                let spot = TackSpot::Edge(sewn.edge, on);
                return Some(TackEnd { layer, piece, hand, at_fold, spot, span: place.span });
            }
        };
        let (layer, piece, hand) = (part.layer, part.piece, place.at.on);
        Some(TackEnd { layer, piece, hand, at_fold: false, spot, span: place.span })
    }

    /// What a step topstitches, understitches or tacks.
    pub(super) fn stitched_target(&self, verb: Verb, target: &tree::Dotted) -> Option<ActionTarget> {
        let [name] = target.parts.as_slice() else {
            let title = "a row of stitching, a tack and what is set are named by one word";
            let help =
                "name it as it is declared: topstitch front_rows, understitch neck_under, tack hem_tack";
            self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, target.span, title).help(help));
            return None;
        };
        let Some(&found) = self.names.stitched.get(&name.text) else {
            let among = self.offered(self.names.stitched.keys());
            self.unknown(Sought::Stitched, &name.text, name.span, &among);
            return None;
        };
        let (symbol, is) = match found {
            ActionTarget::Row(id) => (Symbol::Row(id), self.garment.row(id).kind.word()),
            ActionTarget::Tack(id) => (Symbol::Tack(id), self.garment.tack(id).word()),
            _ => return None,
        };
        self.used(symbol, name.span);
        let said = match verb {
            Verb::Understitch => RowKind::Understitch.word(),
            Verb::Tack => "tack",
            Verb::SetNotion => "set",
            _ => RowKind::Topstitch.word(),
        };
        if is != said {
            let title = format!("{} is declared by {is}, not by {said}", name.text);
            let declared = self.garment.declared(symbol).1;
            let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, target.span, title);
            let mistake = mistake.label("another kind of stitching").also(declared, "declared here");
            self.report(mistake.help(format!("write {is} {}", name.text)));
            return None;
        }
        Some(found)
    }
}
