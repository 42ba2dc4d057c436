//! Looking names up, and what is said when they are not there.

use super::misspelt::Unknown;
use super::{Lowering, NamedPiece, as_piece};
use crate::garment::{
    ClosureId, EdgeId, FabricId, LayerId, NameUse, PieceId, PointId, SeamId, Symbol, ValueId,
};
use crate::limits::MESSAGES_OF_SLUG;
use crate::report::{Diagnostic, Label, catalogue, nearest};
use crate::source::Span;
use crate::syntax::KEYWORDS;
use crate::syntax::tree::{self, Dotted, Name};
use indexmap::{IndexMap, IndexSet};
use std::sync::Arc;

/// Everything that has a name of its own, by name.
#[derive(Default)]
pub(super) struct Names {
    pub values: IndexMap<Arc<str>, ValueId>,
    pub fabrics: IndexMap<Arc<str>, FabricId>,
    pub layers: IndexMap<Arc<str>, LayerId>,
    pub pieces: IndexMap<Arc<str>, PieceId>,
    pub seams: IndexMap<Arc<str>, SeamId>,
    pub closures: IndexMap<Arc<str>, ClosureId>,
}

impl Lowering<'_> {
    /// Remembers what a name in the text means.
    pub(super) fn used(&mut self, symbol: Symbol, span: Span) {
        self.garment.name_uses.push(NameUse { span, symbol });
    }

    /// Tells that a name is not known, or that it was dropped and is still used.
    pub(super) fn unknown(&mut self, what: &str, name: &str, span: Span, among: &[Arc<str>]) {
        if self.too_many_edges
            || self.merged.incomplete
            || self.merged.lost_words.iter().any(|word| &**word == name)
        {
            return; // it may well stand in the file that could not be had, or in a damaged line
        }
        if KEYWORDS.contains(&name) && self.is_cut_short(span) {
            return; // a keyword in the wrong place: what follows it is told
        }
        if let Some(dropped) =
            self.merged.dropped.iter().find(|dropped| &*dropped.name == name && dropped.may_be(what))
        {
            let diagnostic = Diagnostic::new(
                &catalogue::DROP_DANGLING,
                span,
                format!("{name} was dropped, but is still used here"),
            )
            .label("still used here")
            .also(dropped.dropped, "dropped here")
            .help(match dropped.may_take_along() {
                true => {
                    format!("drop or replace what uses {name} too, or write `drop {name} and all sewn to it`")
                }
                false => format!("drop or replace what uses {name} too, or keep {name}"),
            });
            self.tell(diagnostic);
            return;
        }
        self.garment.steps_unread |= self.is_in_steps;
        // What may be a value in one place and a value or a point in another is one thing.
        let sought = match what {
            "value or point" => "value",
            "seam or closure" => "closure",
            what => what,
        };
        let key = (sought.to_owned(), name.to_owned());
        if let Some(known) = self.unknown_names.get_mut(&key)
            && let Some(told) = self.mistakes.get_mut(known.at)
        {
            // One slip where a thing is declared makes every use of it unknown: told once.
            if known.uses.insert(span) && told.labels.len() < USES_SHOWN {
                told.labels.push(Label { span, text: "nor here".to_owned() });
            }
            return;
        }
        let mut diagnostic =
            Diagnostic::new(&catalogue::NAME_UNKNOWN, span, format!("there is no {what} {}", called(name)))
                .label(format!("no such {what}"));
        self.offers += 1;
        let few = self.offers <= MESSAGES_OF_SLUG;
        let near = nearest(name, among.iter().filter(|_| few).map(|name| &**name));
        let unknown =
            Unknown { at: self.mistakes.len(), uses: IndexSet::from([span]), near: near.map(Arc::from) };
        self.unknown_names.insert(key, unknown);
        diagnostic = match near {
            Some(near) => diagnostic.did_you_mean(span, near),
            None if among.is_empty() => diagnostic,
            None => diagnostic.help(known(among)),
        };
        self.tell(diagnostic);
    }

    /// Those names to choose from, for as many unknown names as are shown; then none, so that a file
    /// of nothing but slips costs no more than its size.
    pub(super) fn offered<'n>(&self, names: impl Iterator<Item = &'n Arc<str>>) -> Vec<Arc<str>> {
        names.filter(|_| self.offers < MESSAGES_OF_SLUG).cloned().collect()
    }

    pub(super) fn find_piece(&mut self, name: &Name) -> Option<PieceId> {
        if let Some(&piece) = self.names.pieces.get(&name.text) {
            self.used(Symbol::Piece(piece), name.span);
            return Some(piece);
        }
        let among = self.offered(self.names.pieces.keys());
        self.unknown("piece", &name.text, name.span, &among);
        None
    }

    pub(super) fn find_layer(&mut self, name: &Name) -> Option<LayerId> {
        if let Some(&layer) = self.names.layers.get(&name.text) {
            self.used(Symbol::Layer(layer), name.span);
            return Some(layer);
        }
        let among = self.offered(self.names.layers.keys());
        self.unknown("layer", &name.text, name.span, &among);
        None
    }

    pub(super) fn find_closure(&mut self, name: &Name) -> Option<ClosureId> {
        if let Some(&closure) = self.names.closures.get(&name.text) {
            self.used(Symbol::Closure(closure), name.span);
            return Some(closure);
        }
        let among = self.offered(self.names.closures.keys());
        self.unknown("closure", &name.text, name.span, &among);
        None
    }

    pub(super) fn find_value(&mut self, name: &Name) -> Option<ValueId> {
        if let Some(&value) = self.names.values.get(&name.text) {
            self.used(Symbol::Value(value), name.span);
            return Some(value);
        }
        let among = self.offered(self.names.values.keys());
        self.unknown("value", &name.text, name.span, &among);
        None
    }

    /// `piece` or `layer.piece`.
    pub(super) fn find_part(&mut self, dotted: &Dotted) -> Option<NamedPiece> {
        match dotted.parts.as_slice() {
            [piece] => Some(NamedPiece { layer: None, piece: self.find_piece(piece)? }),
            [layer, piece] => {
                let layer = self.find_layer(layer)?;
                Some(NamedPiece { layer: Some(layer), piece: self.find_piece(piece)? })
            }
            _ => {
                self.too_many_names(dotted, "a piece", "piece or layer.piece");
                None
            }
        }
    }

    /// The head of `piece.x` or `layer.piece.x` and the name that is left.
    pub(super) fn split_off<'d>(&mut self, dotted: &'d Dotted, what: &str) -> Option<(NamedPiece, &'d Name)> {
        match dotted.parts.as_slice() {
            [piece, last] => {
                if !self.names.pieces.contains_key(&piece.text) && self.names.layers.contains_key(&piece.text)
                {
                    let title = format!("{} names a part, where {what} is needed", last.text);
                    let help = format!("name {what} of it too: {}.{}.…", piece.text, last.text);
                    self.tell(
                        Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title)
                            .label("a layer's part")
                            .help(help),
                    );
                    return None;
                }
                Some((NamedPiece { layer: None, piece: self.find_piece(piece)? }, last))
            }
            [layer, piece, last] => {
                let layer = self.find_layer(layer)?;
                Some((NamedPiece { layer: Some(layer), piece: self.find_piece(piece)? }, last))
            }
            [alone]
                if self.merged.lost_words.contains(&alone.text)
                    || self.is_cut_short(Span::new(dotted.span.lo, dotted.span.lo)) =>
            {
                None
            }
            [alone] => {
                let title = format!("{} stands alone, where {what} of a piece is needed", alone.text);
                let help = format!("say of which piece: piece.{}", alone.text);
                self.tell(
                    Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title)
                        .label("of which piece?")
                        .help(help),
                );
                None
            }
            _ => {
                self.too_many_names(dotted, what, "piece.name or layer.piece.name");
                None
            }
        }
    }

    fn too_many_names(&mut self, dotted: &Dotted, what: &str, form: &str) {
        let title = format!("{what} is named by fewer words than this");
        self.tell(
            Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title).help(format!("write {form}")),
        );
    }

    /// An edge or line of one piece.
    pub(super) fn find_edge(&mut self, piece: PieceId, name: &Name) -> Option<EdgeId> {
        if let Some(&edge) = self.piece_edges.get(piece.index()).and_then(|edges| edges.get(&name.text)) {
            self.used(Symbol::Edge(edge), name.span);
            return Some(edge);
        }
        let title = self.garment.piece(piece).name.clone();
        let among: Vec<Arc<str>> = self
            .piece_edges
            .get(piece.index())
            .map(|edges| edges.keys().cloned().collect())
            .unwrap_or_default();
        if among.is_empty() && self.has_no_outline(piece) || self.is_drawn_from_damage(piece) {
            return None;
        }
        self.unknown(&format!("edge or line of {title}"), &name.text, name.span, &among);
        None
    }

    /// A point or mark of one piece.
    pub(super) fn find_point(&mut self, piece: PieceId, name: &Name) -> Option<PointId> {
        if let Some(&point) = self.piece_points.get(piece.index()).and_then(|points| points.get(&name.text)) {
            self.used(Symbol::Point(point), name.span);
            return Some(point);
        }
        let title = self.garment.piece(piece).name.clone();
        let among: Vec<Arc<str>> = self
            .piece_points
            .get(piece.index())
            .map(|points| points.keys().cloned().collect())
            .unwrap_or_default();
        if among.is_empty() && self.has_no_outline(piece) || self.is_drawn_from_damage(piece) {
            return None;
        }
        self.unknown(&format!("point or mark of {title}"), &name.text, name.span, &among);
        None
    }

    /// A piece whose outline was damaged or circular has no edges to be named; that is told once.
    fn has_no_outline(&self, piece: PieceId) -> bool {
        self.piece_edges.get(piece.index()).is_none_or(|edges| edges.is_empty())
    }

    /// Whether the piece, or one that it is made from, could not be read whole: then what it has not
    /// is not to be missed.
    fn is_drawn_from_damage(&self, piece: PieceId) -> bool {
        let is_damaged = |piece: PieceId| {
            self.piece_tree(piece).is_some_and(|statement| {
                self.is_damaged(statement.span) || as_piece(&statement).is_some_and(is_open)
            })
        };
        is_damaged(piece) || self.parents(piece).into_iter().any(is_damaged)
    }

    /// `piece.edge` or `layer.piece.edge`.
    pub(super) fn find_dotted_edge(&mut self, dotted: &Dotted) -> Option<(NamedPiece, EdgeId)> {
        let (part, last) = self.split_off(dotted, "an edge")?;
        Some((part, self.find_edge(part.piece, last)?))
    }

    /// `piece.point` or `layer.piece.point`.
    pub(super) fn find_dotted_point(&mut self, dotted: &Dotted) -> Option<(NamedPiece, PointId)> {
        let (part, last) = self.split_off(dotted, "a point")?;
        Some((part, self.find_point(part.piece, last)?))
    }
}

/// Whether the walk round a piece does not come back to where it began: an edge may be missing.
fn is_open(piece: &tree::Piece) -> bool {
    piece.items.iter().any(|item| match &item.node {
        tree::PieceItemNode::Outline(tree::Outline::Walk { from, edges }) => {
            edges.last().is_none_or(|last| last.to.text != from.text)
        }
        _ => false,
    })
}

/// How many uses of one unknown name are shown.
const USES_SHOWN: usize = 4;

fn called(name: &str) -> String {
    format!("called {name}")
}

/// "known here: a, b, c", of a few.
fn known(among: &[Arc<str>]) -> String {
    const SHOWN: usize = 12;
    let shown: Vec<&str> = among.iter().take(SHOWN).map(|name| &**name).collect();
    match among.len() > SHOWN {
        true => format!("known here: {} … and {} more", shown.join(", "), among.len() - SHOWN),
        false => format!("known here: {}", shown.join(", ")),
    }
}
