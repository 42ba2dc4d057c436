//! Looking names up, and what is said when they are not there.

use super::notes::Notes;
use super::sought::{Sought, StillUsed, UnresolvedName};
use super::{Lowering, NamedPiece, as_piece};
use crate::garment::merge::Dropped;
use crate::garment::{
    ActionTarget, ClosureId, EdgeId, FabricId, LayerId, NameUse, PieceId, PointId, SeamId, Symbol, ValueId,
};
use crate::limits::MESSAGES_OF_SLUG;
use crate::name_hash::NameMap;
use crate::report::{Diagnostic, catalogue, look_alike, nearest};
use crate::source::Span;
use crate::syntax::KEYWORDS;
use crate::syntax::tree::{self, Dotted, Name, StatementNode};
use indexmap::IndexSet;
use std::sync::Arc;

/// Everything that has a name of its own, by name.
#[derive(Clone, Default)]
pub(super) struct Names {
    pub values: NameMap<Arc<str>, ValueId>,
    pub fabrics: NameMap<Arc<str>, FabricId>,
    pub layers: NameMap<Arc<str>, LayerId>,
    pub pieces: NameMap<Arc<str>, PieceId>,
    pub seams: NameMap<Arc<str>, SeamId>,
    pub closures: NameMap<Arc<str>, ClosureId>,
    /// Rows of topstitching and understitching, and tacks.
    pub stitched: NameMap<Arc<str>, ActionTarget>,
}

impl Lowering<'_> {
    /// Remembers what a name in the text means.
    pub(super) fn used(&self, symbol: Symbol, span: Span) {
        // What plackets, bands and facings are made of stands nowhere.
        if self.has_short_forms && self.map.text(span) != &**self.garment.name_of(symbol).0 {
            return;
        }
        self.notes.borrow_mut().name_uses.push(NameUse { span, symbol });
    }

    /// Reports that a name is not known, or that it was dropped and is still used.
    pub(super) fn unknown(&self, sought: Sought, name: &str, span: Span, among: &[Arc<str>]) {
        if self.too_many_edges
            || self.merged.incomplete
            || self.merged.lost_words.iter().any(|word| may_declare(word, name))
        {
            return; // it may well stand in the file that could not be had, or in a damaged line
        }
        if KEYWORDS.contains(&name) && self.is_cut_short(span) {
            return; // a keyword in the wrong place: what follows it is reported
        }
        let what = sought.words(&self.garment);
        let may_be = |dropped: &&Dropped| &*dropped.name == name && dropped.may_be(&what);
        if let Some(dropped) = self.merged.dropped.iter().find(may_be) {
            return self.still_used(dropped, span);
        }
        let key = (sought.kind(), Arc::from(name));
        let mut notes = self.notes.borrow_mut();
        // What one line stands for says its words again, of the strip as of what that is taken from.
        let is_told =
            |(known, of): (&(_, Arc<str>), &UnresolvedName)| known.1 == key.1 && of.uses.contains(&span);
        if self.has_short_forms && notes.unresolved.iter().any(is_told) {
            return;
        }
        notes.steps_incomplete |= self.is_in_steps;
        if let Some(known) = notes.unresolved.get_mut(&key) {
            known.used_at(span);
            return;
        }
        let mut diagnostic =
            Diagnostic::new(&catalogue::NAME_UNKNOWN, span, format!("there is no {what} {}", called(name)))
                .label(format!("no such {what}"));
        let few = self.may_search(&notes);
        self.searches.set(self.searches.get() + 1);
        let offered = || among.iter().filter(|_| few).map(|name| &**name);
        let alike = look_alike(name, offered());
        let near = alike.as_ref().map(|(near, _)| *near).or_else(|| nearest(name, offered()));
        diagnostic = match (near, alike) {
            (Some(near), Some((_, how))) => diagnostic
                .help(format!("did you mean {near}? it looks alike, but this is written with {how}"))
                .fix_by(span, near),
            (Some(near), None) => diagnostic.did_you_mean(span, near),
            (None, _) if among.is_empty() => diagnostic,
            (None, _) => diagnostic.help(known(among)),
        };
        let (uses, near) = (IndexSet::from([span]), near.map(Arc::from));
        notes.unresolved.insert(key, UnresolvedName { diagnostic, uses, near });
    }

    /// What was dropped is used there: one message of all that is sewn of it, and one each of what no `and all sewn to
    /// it` takes along.
    fn still_used(&self, dropped: &Dropped, span: Span) {
        let name = &dropped.name;
        // A piece that is drawn to a value goes on without that once it says another.
        let is_piece = dropped.kind == "piece";
        let user = self.reckoned_at(span).filter(|user| user.kind != "piece" || is_piece);
        let said = |help: String| {
            let title = format!("{name} was dropped, but is still used here");
            Diagnostic::new(&catalogue::DROP_DANGLING, span, title)
                .label("still used here")
                .also(dropped.dropped, "dropped here")
                .help(help)
        };
        if let Some(user) = user {
            let message = said(user.way_out(name));
            // One statement that uses it twice is mended once.
            let is_same = |one: &Diagnostic| {
                one.is(&catalogue::DROP_DANGLING) && one.title == message.title && one.help == message.help
            };
            if !self.notes.borrow().diagnostics.iter().any(is_same) {
                self.report(message);
            }
            return;
        }
        let way_out = match dropped.may_take_along {
            true => {
                format!("drop or replace what uses {name} too, or write `drop {name} and all sewn to it`")
            }
            false => format!("drop or replace what uses {name} too, or keep {name}"),
        };
        let mut notes = self.notes.borrow_mut();
        let known = notes.dangling.entry((dropped.dropped, name.clone()));
        known.or_insert_with(|| StillUsed::new(said(way_out))).used_at(span);
    }

    /// What is reckoned in the statement at that place, or drawn, if it is a value, a check of the maker's or another
    /// piece: no `and all sewn to it` takes that along.
    fn reckoned_at(&self, span: Span) -> Option<Reckoned> {
        let holds = |whole: Span| whole.lo <= span.lo && span.hi <= whole.hi;
        let own = self.merged.declarations.iter().find(|one| holds(one.statement.span))?;
        match &own.statement.node {
            StatementNode::Let(own) => Some(Reckoned { kind: "let", name: own.name.text.to_string() }),
            StatementNode::Measure(own) => {
                Some(Reckoned { kind: "measure", name: own.name.text.to_string() })
            }
            StatementNode::Require(own) => {
                Some(Reckoned { kind: "require", name: format!("\"{}\"", own.because.text) })
            }
            StatementNode::Piece(own) => Some(Reckoned { kind: "piece", name: own.name.text.to_string() }),
            _ => None,
        }
    }

    /// Whether the nearest of the known names is still looked for: for as many unresolved names as
    /// are shown, so that a file of nothing but slips costs no more than its size. Readings that were
    /// forgotten have spent their time too.
    fn may_search(&self, notes: &Notes) -> bool {
        notes.unresolved_count() < MESSAGES_OF_SLUG && self.searches.get() < 4 * MESSAGES_OF_SLUG
    }

    /// Those names to choose from; none where the nearest is not looked for any more.
    pub(super) fn offered<'n>(&self, names: impl Iterator<Item = &'n Arc<str>>) -> Vec<Arc<str>> {
        let notes = self.notes.borrow();
        names.filter(|_| self.may_search(&notes)).cloned().collect()
    }

    pub(super) fn find_piece(&self, name: &Name) -> Option<PieceId> {
        if let Some(&piece) = self.names.pieces.get(&name.text) {
            self.used(Symbol::Piece(piece), name.span);
            return Some(piece);
        }
        let among = self.offered(self.names.pieces.keys());
        self.unknown(Sought::Piece, &name.text, name.span, &among);
        None
    }

    pub(super) fn find_layer(&self, name: &Name) -> Option<LayerId> {
        if let Some(&layer) = self.names.layers.get(&name.text) {
            self.used(Symbol::Layer(layer), name.span);
            return Some(layer);
        }
        let among = self.offered(self.names.layers.keys());
        self.unknown(Sought::Layer, &name.text, name.span, &among);
        None
    }

    pub(super) fn find_closure(&self, name: &Name) -> Option<ClosureId> {
        if let Some(&closure) = self.names.closures.get(&name.text) {
            self.used(Symbol::Closure(closure), name.span);
            return Some(closure);
        }
        let among = self.offered(self.names.closures.keys());
        self.unknown(Sought::Closure, &name.text, name.span, &among);
        None
    }

    pub(super) fn find_value(&self, name: &Name) -> Option<ValueId> {
        if let Some(&value) = self.names.values.get(&name.text) {
            self.used(Symbol::Value(value), name.span);
            return Some(value);
        }
        let among = self.offered(self.names.values.keys());
        self.unknown(Sought::Value, &name.text, name.span, &among);
        None
    }

    /// `piece` or `layer.piece`.
    pub(super) fn find_part(&self, dotted: &Dotted) -> Option<NamedPiece> {
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
    pub(super) fn split_off<'d>(&self, dotted: &'d Dotted, what: &str) -> Option<(NamedPiece, &'d Name)> {
        match dotted.parts.as_slice() {
            [piece, last] => {
                if !self.names.pieces.contains_key(&piece.text) && self.names.layers.contains_key(&piece.text)
                {
                    let title = format!("{} names a part, where {what} is needed", last.text);
                    let help = format!("name {what} of it too: {}.{}.…", piece.text, last.text);
                    self.report(
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
                let title = format!("{} is alone, where {what} of a piece is needed", alone.text);
                let piece = self.names.pieces.get(&alone.text);
                let edges = piece.into_iter().flat_map(|&piece| &self.garment.piece(piece).edges);
                let mut edges = edges.map(|&edge| self.garment.edge(edge));
                let own = edges.find(|edge| !edge.line && !edge.take_up);
                if let Some(own) = own.filter(|_| what.contains("edge")) {
                    let title = format!("{} is a piece, where {what} of one is needed", alone.text);
                    let help = format!("say which of its edges: {}.{}, for example", alone.text, own.name);
                    let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title);
                    self.report(mistake.label("which edge of it?").help(help));
                    return None;
                }
                let help = format!("say of which piece: piece.{}", alone.text);
                self.report(
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

    fn too_many_names(&self, dotted: &Dotted, what: &str, form: &str) {
        let title = format!("{what} is named by fewer words than this");
        self.report(
            Diagnostic::new(&catalogue::NAME_UNKNOWN, dotted.span, title).help(format!("write {form}")),
        );
    }

    /// An edge or line of one piece.
    pub(super) fn find_edge(&self, piece: PieceId, name: &Name) -> Option<EdgeId> {
        if let Some(&edge) = self.piece_edges.get(piece.index()).and_then(|edges| edges.get(&name.text)) {
            self.used(Symbol::Edge(edge), name.span);
            if self.garment.edge(edge).take_up {
                let (word, help) = match self.is_slit(edge) {
                    true => (
                        "slit",
                        format!("name a side of it: {0}.near or {0}.far; or another edge", name.text),
                    ),
                    false => (self.take_up_word(edge), "name an edge or a line of the piece".to_owned()),
                };
                let title = format!("{} is a {word}, where an edge or a line is needed", name.text);
                let mistake =
                    Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label(format!("a {word}"));
                let declared = self.garment.edge(edge).span;
                self.report(mistake.also(declared, "declared here").help(help));
                return None;
            }
            return Some(edge);
        }
        let among: Vec<Arc<str>> = self
            .piece_edges
            .get(piece.index())
            .map(|edges| edges.keys().cloned().collect())
            .unwrap_or_default();
        if among.is_empty() && self.has_no_outline(piece) || self.is_drawn_from_damage(piece) {
            return None;
        }
        self.unknown(Sought::EdgeOf(piece), &name.text, name.span, &among);
        None
    }

    /// A point or mark of one piece.
    pub(super) fn find_point(&self, piece: PieceId, name: &Name) -> Option<PointId> {
        if let Some(&point) = self.piece_points.get(piece.index()).and_then(|points| points.get(&name.text)) {
            self.used(Symbol::Point(point), name.span);
            return Some(point);
        }
        let among: Vec<Arc<str>> = self
            .piece_points
            .get(piece.index())
            .map(|points| points.keys().cloned().collect())
            .unwrap_or_default();
        if among.is_empty() && self.has_no_outline(piece) || self.is_drawn_from_damage(piece) {
            return None;
        }
        self.unknown(Sought::PointOf(piece), &name.text, name.span, &among);
        None
    }

    /// A corner of a piece's own walk: it is missed where the walk does not close too, which would not be told without it.
    pub(super) fn find_corner(&self, piece: PieceId, name: &Name) -> Option<PointId> {
        let is_whole = |piece| self.piece_tree(piece).is_some_and(|one| !self.is_damaged(one.span));
        let known = self.piece_points.get(piece.index());
        match known.filter(|points| !points.contains_key(&name.text)) {
            Some(points) if is_whole(piece) && self.parents(piece).into_iter().all(is_whole) => {
                let among: Vec<Arc<str>> = points.keys().cloned().collect();
                self.unknown(Sought::PointOf(piece), &name.text, name.span, &among);
                None
            }
            _ => self.find_point(piece, name),
        }
    }

    /// A piece whose outline was damaged or circular has no edges to be named; that is reported once.
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

    /// `piece.edge` or `layer.piece.edge`; also a side of a slit, `piece.slit.near`.
    pub(super) fn find_dotted_edge(&self, dotted: &Dotted) -> Option<(NamedPiece, EdgeId)> {
        if let Some(side) = self.find_slit_side(dotted) {
            return side;
        }
        let (part, last) = self.split_off(dotted, "an edge")?;
        Some((part, self.find_edge(part.piece, last)?))
    }

    /// `piece.point` or `layer.piece.point`; also a corner of a slit's mouth, `piece.slit.near`.
    pub(super) fn find_dotted_point(&self, dotted: &Dotted) -> Option<(NamedPiece, PointId)> {
        if let Some(corner) = self.find_slit_corner(dotted) {
            return corner;
        }
        let (part, last) = self.split_off(dotted, "a point")?;
        Some((part, self.find_point(part.piece, last)?))
    }
}

/// A value, a check of the maker's or a piece that something is reckoned in.
struct Reckoned {
    kind: &'static str,
    name: String,
}

impl Reckoned {
    /// How it goes on without what was dropped.
    fn way_out(&self, dropped: &str) -> String {
        let Reckoned { kind, name } = self;
        match *kind {
            "let" => format!(
                "the let {name} is reckoned from {dropped}: set {name} = … to another value, or write drop let {name} \
                 if nothing else uses it"
            ),
            "piece" => format!(
                "the piece {name} is drawn from {dropped}: write `drop {name} and all sewn to it` too, or draw {name} by itself"
            ),
            _ => format!("the {kind} {name} is reckoned from {dropped}: write drop {kind} {name} too"),
        }
    }
}

/// Whether the walk round a piece does not come back to where it began: an edge may be missing.
fn is_open(piece: &tree::Piece) -> bool {
    piece.items.iter().any(|item| match &item.node {
        tree::PieceItemNode::Outline(tree::Outline::Walk { from, edges, .. }) => {
            edges.last().is_none_or(|last| last.to.text != from.text)
        }
        _ => false,
    })
}

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

/// Whether a damaged statement with that word in it may declare the name: plackets and bands declare their parts too.
fn may_declare(word: &str, name: &str) -> bool {
    let rest = name.strip_prefix(word);
    rest.is_some_and(|rest| {
        matches!(rest, "" | "_under" | "_over" | "_end" | "_ends" | "_inside" | "_underlap")
    })
}
