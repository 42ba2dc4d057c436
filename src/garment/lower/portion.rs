//! Runs of edges: `front.side 20 from waist_side`.

use super::Lowering;
use super::expression::Wanted;
use super::papers::When;
use super::take_up::is_share;
use crate::few::Few;
use crate::garment::{
    CountedFrom, Dimension, EdgeId, EdgeName, Expression, LayerId, Portion, PortionEdges, PortionId,
    PortionName, Seam, SewnEdge, SewnPoint, SewnSpot, Symbol, User,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::{SourceMap, Span};
use crate::syntax::tidy::{AsWritten, expression};
use crate::syntax::tree;
use std::sync::Arc;

impl Lowering<'_> {
    /// An edge, a run of one, or, where `lines` may be named too, a line.
    pub(super) fn named_portion(
        &mut self,
        words: &tree::SewnWords,
        lines: bool,
        user: Option<User>,
    ) -> Option<SewnEdge> {
        let sewn = self.named_edge(&words.edge, lines, user)?;
        let Some(run) = &words.run else { return Some(sewn) };
        if self.garment.edge(sewn.edge).line && lines {
            let title = format!("{} is a line inside the piece", self.garment.edge(sewn.edge).name);
            let help = "only edges are sewn by runs: leave the run out";
            self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, words.span, title).help(help));
            return None;
        }
        let edge = self.portion(sewn.edge, run)?;
        Some(SewnEdge { edge, span: words.span, ..sewn })
    }

    /// The name of that run of an edge.
    fn portion(&mut self, edge: EdgeId, run: &tree::RunWords) -> Option<EdgeId> {
        let piece = self.garment.edge(edge).piece;
        let amount = |expr: &tree::Expr| -> Expression {
            let typed = self.lower(expr, When::Fact, None, Wanted::Any);
            match typed.dimension {
                // A bare number is a length; `25%` is a share.
                Dimension::Number if is_share(expr) => typed,
                _ => self.lower(expr, When::Fact, None, Wanted::Length),
            }
        };
        let (from, to) = (run.from.as_ref().map(amount), amount(&run.to));
        let counted = self.counted_from(piece, &run.counted)?;
        let words: Arc<str> = self.run_words(run).into();
        let place = |to: &tree::Expr| match is_made(run) {
            true => made_words(self.map, to, run),
            false => format!("{} from {}", self.words(to.span), self.words(run.counted.span)),
        };
        let from_words = run.from.as_ref().map_or_else(String::new, &place);
        let beside = [from_words, place(&run.to)];
        self.portion_between(edge, (words, beside), [from, Some(to)], counted, run.span)
    }

    /// The name of a run that begins and ends so far from a place, in those words; `beside` are those of what is left.
    pub(super) fn portion_between(
        &mut self,
        edge: EdgeId,
        (words, [from_words, to_words]): (Arc<str>, [String; 2]),
        [from, to]: [Option<Expression>; 2],
        counted: CountedFrom,
        span: Span,
    ) -> Option<EdgeId> {
        let to = to?;
        let unit = self.unit_at(span);
        let same =
            |known: &Portion| known.edge == edge && known.words == words && self.unit_at(known.span) == unit;
        if let Some((id, _)) = PortionId::enumerate(&self.garment.portions).find(|(_, known)| same(known)) {
            return self.garment.portion(id).names.first().map(|names| names.taken);
        }
        let id = PortionId::from_index(self.garment.portions.len());
        let named = |taken: bool| PortionName { portion: id, taken, over: None };
        let mut names: Vec<PortionEdges> = Vec::new();
        for on in self.edges_in_the_end(edge) {
            let own = self.garment.edge(on).name.clone();
            names.push(PortionEdges {
                on,
                taken: self.add_portion(on, format!("{own} {words}"), named(true)),
                before: self.add_portion(on, format!("{own} up to {from_words}"), named(false)),
                beyond: self.add_portion(on, format!("{own} beyond {to_words}"), named(false)),
            });
        }
        let taken = names.first().map(|names| names.taken);
        self.garment.portions.push(Portion {
            edge,
            words,
            from,
            to,
            counted,
            span,
            names,
            places: Few::new(),
        });
        taken
    }

    /// `front.side.near`: an end of the run of an edge that a seam takes. None if the words say something else.
    pub(super) fn run_end(&self, words: &tree::Dotted, seam: &Seam) -> Option<Option<SewnPoint>> {
        let (layer, piece_name, edge_name, end) = match words.parts.as_slice() {
            [piece, edge, end] => (None, piece, edge, end),
            [layer, piece, edge, end] => (Some(layer), piece, edge, end),
            _ => return None,
        };
        let far = match &*end.text {
            "near" => false,
            "far" => true,
            _ => return None,
        };
        let &piece = self.names.pieces.get(&piece_name.text)?;
        // Those of a slit are corners.
        let edge =
            self.edge_named(piece, &edge_name.text).filter(|&edge| !self.garment.edge(edge).take_up)?;
        let said = layer.map(|name| Some((self.names.layers.get(&name.text).copied()?, name.span)));
        let layer = match said {
            Some(known) => {
                let (layer, span) = known?;
                self.used(Symbol::Layer(layer), span);
                Some(layer)
            }
            None => None,
        };
        self.used(Symbol::Piece(piece), piece_name.span);
        self.used(Symbol::Edge(edge), edge_name.span);
        let all = seam.first.iter().chain(&seam.second).flat_map(|chain| &chain.edges);
        let is_run = |sewn: &&SewnEdge| {
            self.garment.is_portion(sewn.edge)
                && self.garment.whole_edge(sewn.edge) == edge
                && layer.is_none_or(|layer| sewn.layer.is_none_or(|own| own == layer))
        };
        let mut runs: Vec<&SewnEdge> = all.filter(is_run).collect();
        runs.dedup_by_key(|sewn| sewn.edge);
        let (title, help) = match runs.as_slice() {
            [one] => {
                let point = SewnSpot::RunEnd { run: one.edge, far };
                return Some(Some(SewnPoint { layer: one.layer.or(layer), point, span: words.span }));
            }
            [] => (
                format!("{} takes no run of {}", seam.words(), edge_name.text),
                format!("near and far are the ends of a run: name a corner of {}", edge_name.text),
            ),
            several => (
                format!("{} takes several runs of {}", seam.words(), edge_name.text),
                self.which_run(several, layer, &words.parts)
                    .unwrap_or_else(|| "make a seam for each of them".to_owned()),
            ),
        };
        if !seam.poisoned {
            self.report(Diagnostic::new(&catalogue::NAME_UNKNOWN, words.span, title).help(help));
        }
        Some(None)
    }

    /// Of runs of one edge in several layers, how each is named; none where its layer does not tell it from the others.
    fn which_run(&self, runs: &[&SewnEdge], said: Option<LayerId>, words: &[tree::Name]) -> Option<String> {
        let mut layers: Vec<LayerId> = runs.iter().map(|run| run.layer).collect::<Option<_>>()?;
        layers.sort_unstable();
        let is_told = layers.windows(2).all(|pair| pair.first() != pair.last());
        if said.is_some() || !is_told {
            return None;
        }
        let named: Vec<&str> = words.iter().map(|word| &*word.text).collect();
        let ways =
            layers.into_iter().map(|layer| format!("{}.{}", self.garment.layer(layer).name, named.join(".")));
        Some(format!("say of which layer: {}", ways.collect::<Vec<_>>().join(" or ")))
    }

    /// The edge itself first, and then what it may be once pieces are split and joined.
    fn edges_in_the_end(&self, edge: EdgeId) -> Vec<EdgeId> {
        let mut all = vec![edge];
        let known = self.garment.pieces.iter().filter(|piece| piece.ended_by.is_none());
        let later = known.flat_map(|piece| &piece.edges).copied();
        all.extend(later.filter(|&own| own != edge && self.garment.is_run_of(own, edge)));
        all
    }

    pub(super) fn add_portion(&mut self, on: EdgeId, name: String, portion: PortionName) -> EdgeId {
        let id = EdgeId::from_index(self.garment.edges.len());
        let EdgeName { piece, span, .. } = *self.garment.edge(on);
        self.garment.edges.push(EdgeName {
            piece,
            name: name.into(),
            span,
            label: None,
            adjust: false,
            line: false,
            take_up: false,
            side_of: None,
            same_run_as: None,
            part_of: Some(on),
            copied_from: None,
            portion: Some(portion),
        });
        id
    }

    /// The words of a run; of one that no maker wrote those that it would be written with.
    fn run_words(&self, run: &tree::RunWords) -> String {
        match is_made(run) {
            true => made_words(self.map, &run.to, run),
            false => self.words(run.span),
        }
    }

    /// The words of the text there, one space between them.
    pub(super) fn words(&self, span: crate::source::Span) -> String {
        self.map.text(span).split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

/// Whether nobody wrote it: it lies where all of its statement does.
fn is_made(run: &tree::RunWords) -> bool {
    run.counted.span == run.span
}

fn made_words(map: &SourceMap, to: &tree::Expr, run: &tree::RunWords) -> String {
    let counted: Vec<&str> = run.counted.parts.iter().map(|part| &*part.text).collect();
    format!("{} from {}", expression(to, &AsWritten { map }), counted.join("."))
}
