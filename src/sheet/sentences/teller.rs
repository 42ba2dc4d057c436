//! What sentences are made of: pieces by their numbers, edges in the maker's words, figures over the sizes.

use crate::cutting::WorkedSize;
use crate::garment::{CutHow, EdgeId, Expression, Garment, LayerId, Part, PieceId, PointId, SewnEdge};
use crate::sewing::order::{DrawnStrap, PlannedTarget, Work, stitchings_of};
use crate::sewing::{PartId, Place, amount_of};
use crate::sheet::facts::title;
use crate::sheet::words::{SentenceForms, Words};
use crate::sheet::{Facts, Figure, FigureKind, Run, Text};
use crate::syntax::tree::Hand;
use std::cell::OnceCell;

/// A part, of its left or right copy where that is told.
type HandedPart = (Part, Option<Hand>);

/// A sentence has no more words than these.
pub const MOST_WORDS: usize = 25;
/// Letters and words that are shown of what a maker calls something.
const NAME_LETTERS: usize = 40;
const NAME_WORDS: usize = 6;
/// A sentence lists no more pieces of one edge than these at a time.
const PIECES_TOGETHER: usize = 4;
/// With the layer of each said.
const LAYERED_TOGETHER: usize = 2;

/// An edge of a part, as a sentence speaks of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Named {
    /// The part.
    pub part: Part,
    /// The edge.
    pub edge: EdgeId,
    /// The side of the body, where that is to be said.
    pub hand: Option<Hand>,
}

/// How pieces are named in a sentence.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Way {
    /// With their layers: edges of several are spoken of.
    pub layered: bool,
    /// By their numbers alone, where there would be too many words.
    pub short: bool,
}

/// Tells the steps of a garment.
pub(super) struct Teller<'a> {
    pub facts: &'a Facts<'a>,
    pub words: &'static Words,
    pub garment: &'a Garment,
    /// The work on each size.
    pub works: Vec<Work<'a>>,
    /// Of each size, the stitching of each sewn seam.
    pub seams: Vec<Vec<Option<usize>>>,
    /// The steps for which something waits with being turned, once that is asked.
    pub waited_for: OnceCell<Vec<PlannedTarget>>,
    /// The straps through which something is drawn, once that is asked.
    pub drawn: OnceCell<Vec<DrawnStrap>>,
}

impl<'a> Teller<'a> {
    pub fn new(facts: &'a Facts<'a>, words: &'static Words) -> Self {
        let garment = facts.garment;
        let works: Vec<Work> =
            facts.sizes.iter().map(|size| Work::new(garment, &size.drawn, &size.sewn)).collect();
        let seams = works.iter().map(stitchings_of).collect();
        Teller { facts, words, garment, works, seams, waited_for: OnceCell::new(), drawn: OnceCell::new() }
    }

    /// The work on the first size, whose order is that of all.
    pub fn work(&self) -> Option<&Work<'a>> {
        self.works.first()
    }

    /// The sentences of the language.
    pub fn forms(&self) -> &'static SentenceForms {
        &self.words.sentences
    }

    /// What a maker calls something, as it stands in a sentence.
    pub fn name(&self, name: &str) -> Text {
        self.forms().name(shortened(&spoken(name)))
    }

    /// What an edge is called, as it stands beside the word for an edge; nothing where it is that word.
    pub fn edge_name(&self, words: &str) -> Text {
        let is_word = self.words.edge.iter().any(|one| one.eq_ignore_ascii_case(words));
        if is_word { Text::default() } else { self.name(words) }
    }

    /// A label, else a name.
    pub fn label_or(&self, label: Option<&str>, name: &str) -> String {
        label.map_or_else(|| spoken(name), str::to_owned)
    }

    /// What people read of an edge.
    pub fn edge_words(&self, edge: EdgeId) -> String {
        let whole = self.garment.whole_edge(edge);
        let words = self.label_or(self.garment.edge_label(whole), &self.garment.edge(whole).name);
        without_last(&words, if self.is_line(edge) { self.words.line } else { self.words.edge })
    }

    /// Whether that is a run of an edge that is taken by itself.
    pub fn is_run(&self, edge: EdgeId) -> bool {
        self.garment.is_portion(edge)
    }

    /// Whether that is an edge of its piece, and no line and no dart or pleat in it.
    pub fn is_outline(&self, edge: EdgeId) -> bool {
        let named = self.garment.edge(self.garment.whole_edge(edge));
        !named.line && !named.take_up
    }

    /// Whether that is a line inside its piece.
    fn is_line(&self, edge: EdgeId) -> bool {
        self.garment.edge(self.garment.whole_edge(edge)).line
    }

    /// A corner or a mark.
    pub fn point(&self, point: PointId, part: Part, hand: Option<Hand>, way: Way) -> Text {
        if let Some(place) = self.on_edge(point, part, hand, way) {
            return place;
        }
        let words = self.garment.point_words(point);
        self.forms().place_of(self.name(&words), self.piece(part, hand, way))
    }

    /// A layer.
    pub fn layer(&self, layer: LayerId) -> Text {
        self.forms().layer(self.name(&self.garment.layer(layer).name))
    }

    /// A piece by its number and title; the left or the right one, and its layer, where these are to be said.
    pub fn piece(&self, part: Part, hand: Option<Hand>, way: Way) -> Text {
        let title = shortened(&self.title(part.piece));
        let title = (!way.short).then_some(title);
        let forms = self.forms();
        // Of what is cut differently for left and right, and spoken of on both sides, each has its number.
        let both = if hand.is_none() { self.facts.numbers_by_hand(part) } else { Vec::new() };
        let piece = match (both.as_slice(), self.facts.number_of(part, hand)) {
            ([first, others @ ..], _) if !others.is_empty() => {
                let named = |number| Text::from(Run::Piece(number, None));
                let (last, between) = others.split_last().unwrap_or((first, &[]));
                let begun = between.iter().fold(named(first.1), |all, own| forms.either(all, named(own.1)));
                forms.either(begun, Text::from(Run::Piece(last.1, title)))
            }
            (_, Some(number)) => Text::from(Run::Piece(number, title)),
            (_, None) => Text::words(self.title(part.piece)),
        };
        let is_whole = hand.is_some() && self.is_one_whole(part);
        let piece = match hand {
            Some(Hand::Left) if is_whole => forms.left_half(piece),
            Some(Hand::Right) if is_whole => forms.right_half(piece),
            Some(Hand::Left) => forms.left_piece(piece),
            Some(Hand::Right) => forms.right_piece(piece),
            None => piece,
        };
        match way.layered {
            true => forms.piece_in(piece, self.name(&self.garment.layer(part.layer).name)),
            false => piece,
        }
    }

    /// Whether it is cut once on the fold, so that its left and right are halves of one piece.
    fn is_one_whole(&self, part: Part) -> bool {
        let Some(work) = self.work() else { return false };
        let own = PartId::enumerate(work.finder.parts).into_iter().find(|(_, own)| **own == part);
        own.is_some_and(|(id, _)| {
            let is_on_fold =
                work.finder.drawn(id).is_some_and(|drawn| matches!(drawn.cut, CutHow::OnFold(_)));
            // Each half counts.
            is_on_fold && work.finder.twin(id).is_none() && work.finder.times(id) == 2
        })
    }

    fn title(&self, piece: PieceId) -> String {
        title(self.garment, piece)
    }

    /// The pieces of these edges, each once.
    pub fn pieces(&self, edges: &[Named], way: Way) -> Vec<Text> {
        let mut seen: Vec<(Part, Option<Hand>)> = Vec::new();
        for named in edges {
            if !seen.contains(&(named.part, named.hand)) {
                seen.push((named.part, named.hand));
            }
        }
        seen.into_iter().map(|(part, hand)| self.piece(part, hand, way)).collect()
    }

    /// Edges in words, those of one name or of one piece together.
    pub fn edges(&self, edges: &[Named], way: Way) -> Vec<Text> {
        let forms = self.forms();
        let mut names: Vec<((String, bool), Vec<Named>)> = Vec::new();
        let mut parts: Vec<(HandedPart, Vec<String>)> = Vec::new();
        // A run of an edge and what is left of it are together a part of it.
        let is_part = |named: &Named| {
            let whole = self.garment.whole_edge(named.edge);
            edges.iter().any(|own| {
                let is_beside = (own.part, own.hand) == (named.part, named.hand);
                is_beside && self.is_run(own.edge) && self.garment.whole_edge(own.edge) == whole
            })
        };
        for named in edges {
            let words = self.edge_words(named.edge);
            let called = (words.clone(), is_part(named));
            match names.iter_mut().find(|(own, _)| *own == called) {
                Some((_, all)) if all.contains(named) => {}
                Some((_, all)) => all.push(*named),
                None => names.push((called, vec![*named])),
            }
            let key = (named.part, named.hand);
            let words = match named.hand {
                None => self.whole_words(named.part, named.edge),
                Some(_) => vec![words],
            };
            match parts.iter_mut().find(|(own, _)| *own == key) {
                Some((_, all)) if words.iter().all(|words| all.contains(words)) => {}
                Some((_, all)) => all.extend(words),
                None => parts.push((key, words)),
            }
        }
        let has_runs = names.iter().any(|((_, is_run), _)| *is_run);
        if has_runs || names.len() <= parts.len() && (parts.len() > 1 || names.len() == 1) {
            let mut groups = Vec::new();
            for ((words, is_run), all) in names {
                let together = if way.layered { LAYERED_TOGETHER } else { PIECES_TOGETHER };
                for some in all.chunks(together) {
                    let pieces = self.pieces(some, way);
                    let many = pieces.len() > 1;
                    let (name, pieces) = (self.edge_name(&words), self.words.list(pieces));
                    let is_line = some.iter().any(|named| self.is_line(named.edge));
                    groups.push(match (is_line, many) {
                        _ if is_run => forms.run_of_edge(name, pieces),
                        (true, false) => forms.line(name, pieces),
                        (true, true) => forms.lines(name, pieces),
                        (false, false) => match some {
                            // Of what another ply takes a run of, the rest and that run are one edge.
                            [one]
                                if one.hand.is_none()
                                    && self.is_there_twice(one.part, self.garment.whole_edge(one.edge)) =>
                            {
                                match self.whole_words(one.part, one.edge).as_slice() {
                                    [_] => forms.both_edges(name, pieces),
                                    all => {
                                        let names = all.iter().map(|name| self.name(name));
                                        forms.several_edges(self.words.list(names), pieces)
                                    }
                                }
                            }
                            _ => forms.edge(name, pieces),
                        },
                        (false, true) => forms.edges(name, pieces),
                    });
                }
            }
            return groups;
        }
        let group = |((part, hand), names): ((Part, Option<Hand>), Vec<String>)| {
            let piece = self.piece(part, hand, way);
            match names.as_slice() {
                [one] => forms.edge(self.edge_name(one), piece),
                _ if edges.iter().all(|named| self.is_line(named.edge)) => {
                    forms.several_lines(self.words.list(names.iter().map(|name| self.name(name))), piece)
                }
                _ => forms.several_edges(self.words.list(names.iter().map(|name| self.name(name))), piece),
            }
        };
        parts.into_iter().map(group).collect()
    }

    /// Edges of one piece in words, where it has been named.
    pub fn bare_edges(&self, edges: &[Named]) -> Text {
        let mut names: Vec<String> = Vec::new();
        for named in edges {
            let words = self.edge_words(named.edge);
            if !names.contains(&words) {
                names.push(words);
            }
        }
        match names.as_slice() {
            [one] => self.forms().bare_edge(self.edge_name(one)),
            _ => self.forms().bare_edges(self.words.list(names.iter().map(|name| self.name(name)))),
        }
    }

    /// The edges that a declaration names, in the layers that it means or in one of them.
    pub fn sewn_edges(&self, edges: &[SewnEdge], layer: Option<LayerId>) -> Vec<Named> {
        let Some(work) = self.work() else { return Vec::new() };
        let mut named: Vec<Named> = Vec::new();
        for sewn in edges {
            let layers = match sewn.layer.or(layer) {
                Some(layer) => vec![layer],
                None => work.finder.layers.meant(None, sewn.piece),
            };
            for layer in layers {
                let places = work.finder.in_layer(layer, sewn);
                match places.is_empty() {
                    // A line inside a piece is no edge of it.
                    true => named.extend(self.part(layer, sewn.piece).map(|part| Named {
                        part,
                        edge: sewn.edge,
                        hand: sewn.on,
                    })),
                    false => named.extend(
                        places
                            .iter()
                            .filter_map(|place| self.named(work, place, sewn.on))
                            .collect::<Vec<_>>(),
                    ),
                }
            }
        }
        once(named)
    }

    /// An edge where it lies.
    pub fn named(&self, work: &Work, place: &Place, hand: Option<Hand>) -> Option<Named> {
        let edge = work.finder.drawn(place.part)?.edge_at(place.edge)?.edge;
        Some(Named { part: work.finder.part(place.part), edge, hand })
    }

    /// The part of a piece in a layer, as it is cut.
    pub fn part(&self, layer: LayerId, piece: PieceId) -> Option<Part> {
        let work = self.work()?;
        work.finder.parts.iter().find(|part| part.layer == layer && part.piece == piece).copied()
    }

    /// The part of a piece in the layer that is named, else in the first that has it.
    pub fn part_of(&self, layer: Option<LayerId>, piece: PieceId) -> Option<Part> {
        let work = self.work()?;
        let layer = layer.or_else(|| work.finder.layers.meant(None, piece).first().copied());
        layer
            .and_then(|layer| self.part(layer, piece))
            .or_else(|| work.finder.parts.iter().find(|part| part.piece == piece).copied())
    }

    /// With layers, where these edges lie in several.
    pub fn way_of(&self, edges: &[Named]) -> Way {
        let mut layers = edges.iter().map(|named| named.part.layer);
        let first = layers.next();
        Way { layered: layers.any(|layer| Some(layer) != first), short: false }
    }

    /// A figure over the sizes; none where none has it.
    pub fn figure(
        &self,
        kind: FigureKind,
        value: impl Fn(usize, &'a WorkedSize) -> Option<f64>,
    ) -> Option<Figure> {
        let values: Vec<Option<f64>> = self
            .facts
            .sizes
            .iter()
            .enumerate()
            .map(|(at, size)| value(at, size).map(|value| crate::emit::Figure(value).rounded()))
            .collect();
        values.iter().any(Option::is_some).then_some(Figure { kind, values })
    }

    /// What a maker says a length or a count to be.
    pub fn amount(&self, kind: FigureKind, said: &Expression) -> Option<Figure> {
        self.figure(kind, |_, size| amount_of(self.garment, &size.drawn, said))
    }

    /// A plain count.
    pub fn count(&self, count: u32) -> Text {
        Text::from(Figure {
            kind: FigureKind::Count,
            values: vec![Some(f64::from(count)); self.facts.sizes.len()],
        })
    }

    /// As many sentences as are needed to list all of these, each as long as it may be.
    pub fn packed(&self, groups: &[Text], say: impl Fn(Text) -> Text) -> Vec<Text> {
        self.lists(groups, &say).into_iter().map(say).collect()
    }

    /// As few lists of these as sentences that are begun so can bear.
    pub fn lists(&self, groups: &[Text], say: impl Fn(Text) -> Text) -> Vec<Text> {
        let mut lists = Vec::new();
        let mut rest = groups;
        while !rest.is_empty() {
            let fits = |count: &usize| {
                let some = rest.iter().take(*count).cloned();
                words_in(&say(self.words.list(some))) <= MOST_WORDS
            };
            let count = (1..=rest.len()).rev().find(fits).unwrap_or(1);
            let (some, others) = rest.split_at(count);
            lists.push(self.words.list(some.iter().cloned()));
            rest = others;
        }
        lists
    }

    /// Sentences that list these edges: with the pieces' titles, or with their numbers alone where that would be too much.
    pub fn listed(&self, edges: &[Named], say: impl Fn(Text) -> Text) -> Vec<Text> {
        let way = self.way_of(edges);
        let full = self.packed(&self.edges(edges, way), &say);
        match fit(&full) {
            true => full,
            false => self.packed(&self.edges(edges, Way { short: true, ..way }), &say),
        }
    }
}

/// Whether no sentence is too long.
pub(super) fn fit(sentences: &[Text]) -> bool {
    sentences.iter().all(|sentence| words_in(sentence) <= MOST_WORDS)
}

/// Each once, in their order.
pub(super) fn once(edges: Vec<Named>) -> Vec<Named> {
    let mut seen: Vec<Named> = Vec::with_capacity(edges.len());
    for named in edges {
        if !seen.contains(&named) {
            seen.push(named);
        }
    }
    seen
}

/// A name as it is spoken.
pub(super) fn spoken(name: &str) -> String {
    name.replace(['_', '.'], " ")
}

/// Without a last word that says what it is anyhow: of "side seam" the side.
pub(super) fn without_last(words: &str, last: &[&str]) -> String {
    let Some((before, word)) = words.trim_end().rsplit_once(' ') else { return words.to_owned() };
    let is_said = last.iter().any(|one| one.eq_ignore_ascii_case(word));
    if is_said && !before.trim().is_empty() { before.to_owned() } else { words.to_owned() }
}

/// So much of what a maker calls something that a sentence can bear it.
pub(super) fn shortened(name: &str) -> String {
    let words: Vec<&str> = name.split_whitespace().take(NAME_WORDS + 1).collect();
    let is_long = words.len() > NAME_WORDS;
    // What stands before a comma says what it is; what stands behind it could not be said whole.
    let before = words.iter().take(NAME_WORDS).rposition(|word| word.ends_with(',')).filter(|_| is_long);
    if let Some(at) = before {
        let whole = words.iter().take(at + 1).copied().collect::<Vec<_>>().join(" ");
        return shortened(whole.trim_end_matches(','));
    }
    let shown: String = words.into_iter().take(NAME_WORDS).collect::<Vec<_>>().join(" ");
    match shown.char_indices().nth(NAME_LETTERS) {
        Some((end, _)) => format!("{}…", shown.get(..end).unwrap_or_default().trim_end()),
        None if is_long => format!("{shown}…"),
        None => shown,
    }
}

/// How many words a text has. A figure counts as it is read of all sizes, "14.8 to 18.9 cm" four; the inches in brackets say
/// the same once more.
pub fn words_in(text: &Text) -> usize {
    let mut plain = String::new();
    for run in &text.0 {
        match run {
            Run::Words(words) | Run::Term(_, words) => plain.push_str(words),
            Run::Piece(_, None) | Run::Sign(_) => plain.push('1'),
            Run::Piece(_, Some(title)) => {
                plain.push_str("1 ");
                plain.push_str(title);
            }
            Run::Letter(letter) => plain.push_str(letter),
            Run::Figure(figure) => plain.push_str(words_of(figure)),
        }
    }
    plain.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

fn words_of(figure: &Figure) -> &'static str {
    let mut known = figure.values.iter().flatten();
    let first = known.next();
    let is_one = known.all(|value| Some(value) == first);
    match (figure.kind, is_one) {
        (FigureKind::Length | FigureKind::Small, true) => "1 cm",
        (FigureKind::Length | FigureKind::Small, false) => "1 to 1 cm",
        (FigureKind::Share | FigureKind::Count, true) => "1",
        (FigureKind::Share | FigureKind::Count, false) => "1 to 1",
    }
}

#[cfg(test)]
mod tests {
    use super::{shortened, without_last};

    #[test]
    fn names_are_borne_up_to_a_length() {
        assert_eq!(shortened("front edge"), "front edge");
        assert_eq!(shortened("one two three four five six seven"), "one two three four five six…");
        assert_eq!(shortened("Back pocket bag, next to the leg"), "Back pocket bag");
        assert_eq!(shortened(&"é".repeat(10_000)), format!("{}…", "é".repeat(40)));
    }

    #[test]
    fn what_is_said_anyhow_is_not_said_twice() {
        let edge = ["edge", "edges"];
        assert_eq!(without_last("front edge", &edge), "front");
        assert_eq!(without_last("edge", &edge), "edge");
        assert_eq!(without_last("side seam", &edge), "side seam");
    }
}
