use super::analysis::{Analysis, Place};
use super::overlay::folder_of;
use super::workspace::Workspace;
use crate::garment::{Garment, Symbol};
use crate::source::FileId;
use crate::syntax::parse_text;
use crate::syntax::tree::{
    Altered, Dotted, DropKind, DropOfPiece, File, Name, NameOrText, PieceItemKind, PieceItemNode, RunWords,
    Statement, StatementNode, TargetForm,
};
use indexmap::{IndexMap, IndexSet};
use std::borrow::Cow;
use std::sync::Arc;

/// Every place where the same thing is named, over all files of all garments that are open, with
/// the bases and what variations say of them.
///
/// A variation's own garment does not tell all: what it replaces or drops stands in the base only.
/// So each base is compiled by itself too, and the names after `replace`, `set`, `drop` and `add`
/// are united with what they mean there.
pub(super) struct ReferenceIndex {
    entries: IndexMap<Entry, usize>,
    /// Places where some garment has a thing declared.
    declared: IndexSet<Place>,
}

#[derive(Clone, Debug, PartialEq, Eq, Hash)]
enum Entry {
    /// A name in a text.
    Written(Place),
    /// A thing whose name no text declares, as a rectangle's edges: by garment.
    Given(usize, Symbol),
}

/// The places of one thing.
pub(super) struct References {
    /// In order of path and place.
    pub places: Vec<Place>,
    /// Its name is the language's own and cannot be another.
    pub given: bool,
}

impl ReferenceIndex {
    /// Of everything that is open. All garments must be up to date.
    pub fn new(workspace: &Workspace) -> ReferenceIndex {
        let mut index = ReferenceIndex { entries: IndexMap::new(), declared: IndexSet::new() };
        let garments = garments(workspace);
        for (at, (first, analysis)) in garments.iter().enumerate() {
            let garment = &analysis.compiled.garment;
            for one in &garment.name_uses {
                let Some(place) = analysis.place(one.span) else { continue };
                index.named(analysis, at, place, one.symbol);
            }
            let Some(tree) = analysis.text(first).map(|text| parse_text(text, 0, FileId(0)).file) else {
                continue;
            };
            let mut changed = changed_by(&tree, analysis)
                .filter_map(|path| garments.get_full(path).map(|(at, _, base)| (at, &**base)))
                .peekable();
            if changed.peek().is_none() {
                index.unite_variation(first, &tree, (at, analysis), None);
            }
            for base in changed {
                index.unite_variation(first, &tree, (at, analysis), Some(base));
            }
        }
        index
    }

    /// Unites a name where it is written with what it means. Of a name that a band, a facing or a placket gives to what
    /// it stands for only the words that the maker gave are meant: of `neck_facing_front` the facing and the piece.
    fn named(&mut self, analysis: &Analysis, garment: usize, place: Place, symbol: Symbol) {
        let of = self.symbol(analysis, garment, symbol);
        let after = self.called_after(analysis, of, &place);
        let Some(given) = after else {
            let own = self.entry(Entry::Written(place));
            return self.unite(own, of);
        };
        let hi = place.lo + given.len();
        let own = self.entry(Entry::Written(Place { hi, ..place.clone() }));
        self.unite(own, of);
        let rest = place.hi - hi;
        let word = analysis.text(&place.path).and_then(|text| text.get(place.hi + 1 - rest..place.hi));
        let Some(word) = word.filter(|_| self.is_facing(analysis, of)) else { return };
        let own = &analysis.compiled.garment;
        let found =
            own.symbol_called(SymbolKind::Piece, word).or_else(|| own.symbol_called(SymbolKind::Seam, word));
        if let Some(found) = found {
            let of = self.symbol(analysis, garment, found);
            let written = self.entry(Entry::Written(Place { lo: hi + 1, ..place }));
            self.unite(written, of);
        }
    }

    /// The same where the name stands in the text of another garment than what it means.
    fn named_in(
        &mut self,
        texts: &Analysis,
        (garment, analysis): (usize, &Analysis),
        place: Place,
        symbol: Symbol,
    ) {
        let of = self.symbol(analysis, garment, symbol);
        let word = texts.text(&place.path).and_then(|text| text.get(place.lo..place.hi));
        let given = match self.entries.get_index(of) {
            Some((Entry::Written(declared), _)) => {
                analysis.text(&declared.path).and_then(|text| text.get(declared.lo..declared.hi))
            }
            _ => None,
        };
        let own = match (word, given) {
            (Some(word), Some(given))
                if word.strip_prefix(given).is_some_and(|rest| rest.starts_with('_')) =>
            {
                Place { hi: place.lo + given.len(), ..place }
            }
            _ => place,
        };
        let written = self.entry(Entry::Written(own));
        self.unite(written, of);
    }

    /// The name that one is called after, if it is that and more behind a `_`.
    fn called_after(&self, analysis: &Analysis, of: usize, place: &Place) -> Option<Arc<str>> {
        let Some((Entry::Written(declared), _)) = self.entries.get_index(of) else { return None };
        let word = |place: &Place| analysis.text(&place.path)?.get(place.lo..place.hi);
        let (given, said) = (word(declared)?, word(place)?);
        said.strip_prefix(given)?.strip_prefix('_')?;
        Some(given.into())
    }

    /// Whether it is declared as a facing.
    fn is_facing(&self, analysis: &Analysis, of: usize) -> bool {
        let Some((Entry::Written(declared), _)) = self.entries.get_index(of) else { return false };
        let before = analysis.text(&declared.path).and_then(|text| text.get(..declared.lo));
        before.is_some_and(|before| before.trim_end().ends_with("facing"))
    }

    /// Everything that names what is named at a place of a text.
    pub fn references_at(&mut self, path: &str, offset: usize) -> Option<(Place, References)> {
        let over = |node: &Entry| match node {
            Entry::Written(place) => &*place.path == path && place.lo <= offset && offset <= place.hi,
            Entry::Given(..) => false,
        };
        let mut touching: Vec<usize> = (0..self.entries.len())
            .filter(|&at| self.entries.get_index(at).is_some_and(|(node, _)| over(node)))
            .collect();
        // Where two names touch, as in `front/hem`, the one that begins here.
        touching.sort_by_key(|&at| match self.entries.get_index(at) {
            Some((Entry::Written(place), _)) => place.hi <= offset,
            _ => true,
        });
        let first = *touching.first()?;
        let Some((Entry::Written(here), _)) =
            self.entries.get_index(first).map(|(node, at)| (node.clone(), *at))
        else {
            return None;
        };
        let root = self.root(first);
        let mut found = References { places: Vec::new(), given: false };
        for at in 0..self.entries.len() {
            if self.root(at) != root {
                continue;
            }
            match self.entries.get_index(at) {
                Some((Entry::Written(place), _)) => found.places.push(place.clone()),
                Some((Entry::Given(..), _)) => found.given = true,
                None => {}
            }
        }
        found.places.sort();
        Some((here, found))
    }

    /// Where what is named at a place of a text is declared elsewhere: what a variation sets or replaces, in its base.
    pub fn declared_elsewhere(&mut self, path: &str, offset: usize) -> Vec<Place> {
        let Some((here, found)) = self.references_at(path, offset) else { return Vec::new() };
        found.places.into_iter().filter(|place| *place != here && self.declared.contains(place)).collect()
    }

    fn entry(&mut self, node: Entry) -> usize {
        let next = self.entries.len();
        let entry = self.entries.entry(node);
        let at = entry.index();
        entry.or_insert(next);
        at
    }

    fn root(&mut self, node: usize) -> usize {
        let mut at = node;
        while let Some((_, &above)) = self.entries.get_index(at) {
            if above == at {
                break;
            }
            // Every second step is left out next time.
            let further = self.entries.get_index(above).map_or(above, |(_, &further)| further);
            if let Some((_, own)) = self.entries.get_index_mut(at) {
                *own = further;
            }
            at = above;
        }
        at
    }

    fn unite(&mut self, one: usize, other: usize) {
        let (one, other) = (self.root(one), self.root(other));
        let (low, high) = (one.min(other), one.max(other));
        if let Some((_, above)) = self.entries.get_index_mut(high) {
            *above = low;
        }
    }

    fn symbol(&mut self, analysis: &Analysis, garment: usize, symbol: Symbol) -> usize {
        let origin = analysis.compiled.garment.origin(symbol);
        match analysis.given_at(origin).or_else(|| understitched(analysis, origin)) {
            Some(place) => {
                self.declared.insert(place.clone());
                self.entry(Entry::Written(place))
            }
            None => self.entry(Entry::Given(garment, origin)),
        }
    }

    /// Unites what a variation says of its base, and what it adds to, with what that names.
    fn unite_variation(
        &mut self,
        path: &Arc<str>,
        tree: &File,
        own: (usize, &Analysis),
        base: Option<(usize, &Analysis)>,
    ) {
        for statement in &tree.statements {
            let mut names: Vec<(&Name, (usize, &Analysis), Symbol)> = Vec::new();
            match (&statement.node, base) {
                (StatementNode::Replace(inner), Some(base)) => {
                    names.extend(
                        replaced(inner, &base.1.compiled.garment).map(|(name, symbol)| (name, base, symbol)),
                    );
                }
                (StatementNode::ChangeBand(change), Some(base)) => {
                    let garment = &base.1.compiled.garment;
                    let bands =
                        change.names.iter().filter_map(|name| called(SymbolKind::Seam, name, garment));
                    names.extend(bands.map(|(name, symbol)| (name, base, symbol)));
                }
                (StatementNode::ChangeSeam(change), Some(base)) => {
                    let found = called(SymbolKind::Seam, &change.name, &base.1.compiled.garment);
                    names.extend(found.map(|(name, symbol)| (name, base, symbol)));
                }
                (StatementNode::Set(set), Some(base)) => {
                    let symbol = base.1.compiled.garment.symbol_called(SymbolKind::Value, &set.name.text);
                    names.extend(symbol.map(|symbol| (&set.name, base, symbol)));
                }
                (StatementNode::Drop(drop), Some(base)) => {
                    let garment = &base.1.compiled.garment;
                    if let NameOrText::Name(dotted) = &drop.target {
                        let found = dropped(drop.kind, dotted, garment);
                        names.extend(found.into_iter().map(|(name, symbol)| (name, base, symbol)));
                    }
                    if let (NameOrText::Name(edge), Some(run)) = (&drop.target, &drop.run) {
                        let counted = counted(edge, run, garment);
                        names.extend(counted.map(|(name, symbol)| (name, base, symbol)));
                    }
                    let on = drop.on.iter().flat_map(|on| part(on, garment));
                    names.extend(on.map(|(name, symbol)| (name, base, symbol)));
                }
                (StatementNode::DropAlteration(drop), Some(base)) => {
                    let found = altered(&drop.altered, &base.1.compiled.garment);
                    names.extend(found.into_iter().map(|(name, symbol)| (name, base, symbol)));
                }
                (StatementNode::DropOfPiece(drop), Some(base)) => {
                    let found = drawn(drop, &base.1.compiled.garment);
                    names.extend(found.into_iter().map(|(name, symbol)| (name, base, symbol)));
                }
                (StatementNode::AddToLayer(add), _) => {
                    let garment = &own.1.compiled.garment;
                    let layer = garment.symbol_called(SymbolKind::Layer, &add.layer.text);
                    names.extend(layer.map(|symbol| (&add.layer, own, symbol)));
                    let pieces = add.pieces.iter().filter_map(|name| {
                        garment.symbol_called(SymbolKind::Piece, &name.text).map(|symbol| (name, own, symbol))
                    });
                    names.extend(pieces);
                }
                (StatementNode::AddToPiece(add), base) => {
                    let darts = add
                        .items
                        .iter()
                        .filter(|_| add.how == crate::syntax::tree::PieceChange::ReplacesTakeUp)
                        .filter_map(|item| match &item.node {
                            PieceItemNode::TakeUp(dart) => Some(&dart.name),
                            _ => None,
                        });
                    if let Some(base) = base {
                        let garment = &base.1.compiled.garment;
                        names.extend(darts.filter_map(|dart| {
                            let dotted = Dotted {
                                parts: vec![add.piece.clone(), dart.clone()],
                                on: None,
                                span: dart.span,
                            };
                            let found =
                                edge(&dotted, garment).into_iter().map(|(_, symbol)| symbol).next_back();
                            found
                                .filter(|symbol| matches!(symbol, Symbol::Edge(_)))
                                .map(|symbol| (dart, base, symbol))
                        }));
                    }
                    let piece = own.1.compiled.garment.symbol_called(SymbolKind::Piece, &add.piece.text);
                    names.extend(piece.map(|symbol| (&add.piece, own, symbol)));
                }
                _ => {}
            }
            for (name, (at, analysis), symbol) in names {
                let (lo, hi) = (name.span.lo as usize, name.span.hi as usize);
                self.named_in(own.1, (at, analysis), Place { path: path.clone(), lo, hi }, symbol);
            }
        }
    }
}

/// Where the facing is named whose understitching a row is: it is called after that.
fn understitched(analysis: &Analysis, row: Symbol) -> Option<Place> {
    let garment = &analysis.compiled.garment;
    let Symbol::Row(id) = row else { return None };
    let facing = garment.row(id).name.strip_suffix("_under")?;
    analysis.given_at(garment.symbol_called(SymbolKind::Seam, facing)?)
}

/// The files whose facts a file changes: its base, or all that it combines.
fn changed_by<'a>(tree: &File, analysis: &'a Analysis) -> impl Iterator<Item = &'a Arc<str>> {
    let combines = tree.statements.iter().any(|statement| match &statement.node {
        StatementNode::Variation(variation) => !variation.with.is_empty(),
        _ => false,
    });
    let files = analysis.compiled.garment.files.iter().map(|file| file.id.0 as usize).filter(|&id| id > 0);
    let changed: Vec<usize> = match combines {
        true => files.collect(),
        false => vec![1],
    };
    changed.into_iter().filter_map(|at| analysis.paths.get(at))
}

/// The garments of the open documents, and of the bases in their chains, each by itself.
fn garments(workspace: &Workspace) -> IndexMap<Arc<str>, Cow<'_, Analysis>> {
    let open = workspace.analyses().iter();
    let mut garments: IndexMap<Arc<str>, Cow<'_, Analysis>> =
        open.map(|(first, analysis)| (first.clone(), Cow::Borrowed(analysis))).collect();
    for (first, analysis) in workspace.analyses() {
        for path in analysis.paths.iter().skip(1) {
            if !garments.contains_key(path) {
                let beside = workspace.compile_beside(path, folder_of(first));
                garments.insert(path.clone(), Cow::Owned(beside));
            }
        }
    }
    garments
}

/// Things with a name of their own, apart from each other.
#[derive(Clone, Copy)]
enum SymbolKind {
    Value,
    Fabric,
    Layer,
    Piece,
    Seam,
    Closure,
    Row,
    Tack,
    /// Known by the seam that it makes.
    Placket,
}

impl Garment {
    /// The thing of that kind and name. Only an editor asks by name: it reads texts that the
    /// garment knows nothing of any more.
    fn symbol_called(&self, kind: SymbolKind, name: &str) -> Option<Symbol> {
        use crate::garment::{ClosureId, FabricId, LayerId, PieceId, RowId, SeamId, TackId, ValueId};
        let at = |found: Option<usize>, of: fn(usize) -> Symbol| found.map(of);
        match kind {
            SymbolKind::Value => at(self.values.iter().position(|one| &*one.name == name), |at| {
                Symbol::Value(ValueId::from_index(at))
            }),
            SymbolKind::Fabric => at(self.fabrics.iter().position(|one| &*one.name == name), |at| {
                Symbol::Fabric(FabricId::from_index(at))
            }),
            SymbolKind::Layer => at(self.layers.iter().position(|one| &*one.name == name), |at| {
                Symbol::Layer(LayerId::from_index(at))
            }),
            SymbolKind::Piece => at(self.pieces.iter().position(|one| &*one.name == name), |at| {
                Symbol::Piece(PieceId::from_index(at))
            }),
            SymbolKind::Seam => at(self.seams.iter().position(|one| &*one.name == name), |at| {
                Symbol::Seam(SeamId::from_index(at))
            }),
            SymbolKind::Placket => {
                let over = format!("{name}_over");
                let own = self.symbol_called(SymbolKind::Seam, name);
                own.or_else(|| self.symbol_called(SymbolKind::Seam, &over))
            }
            SymbolKind::Row => at(self.rows.iter().position(|one| &*one.name == name), |at| {
                Symbol::Row(RowId::from_index(at))
            }),
            SymbolKind::Tack => at(self.tacks.iter().position(|one| &*one.name == name), |at| {
                Symbol::Tack(TackId::from_index(at))
            }),
            SymbolKind::Closure => at(self.closures.iter().position(|one| &*one.name == name), |at| {
                Symbol::Closure(ClosureId::from_index(at))
            }),
        }
    }
}

fn called<'n>(kind: SymbolKind, name: &'n Name, garment: &Garment) -> Option<(&'n Name, Symbol)> {
    garment.symbol_called(kind, &name.text).map(|symbol| (name, symbol))
}

/// The name that a replacing statement gives again.
fn replaced<'s>(statement: &'s Statement, garment: &Garment) -> impl Iterator<Item = (&'s Name, Symbol)> {
    let rows = match &statement.node {
        StatementNode::Body(body) => &body.rows[..],
        _ => &[],
    };
    let one = match &statement.node {
        StatementNode::Let(one) => Some((SymbolKind::Value, &one.name)),
        StatementNode::Measure(one) => Some((SymbolKind::Value, &one.name)),
        StatementNode::Fabric(one) => Some((SymbolKind::Fabric, &one.name)),
        StatementNode::Layer(one) => Some((SymbolKind::Layer, &one.name)),
        StatementNode::Piece(one) => Some((SymbolKind::Piece, &one.name)),
        StatementNode::Seam(one) => Some((SymbolKind::Seam, &one.name)),
        StatementNode::Closure(one) => Some((SymbolKind::Closure, &one.name)),
        StatementNode::StitchedRow(one) => Some((SymbolKind::Row, &one.name)),
        StatementNode::Tack(one) => Some((SymbolKind::Tack, &one.name)),
        StatementNode::Setting(one) => Some((SymbolKind::Tack, &one.name)),
        StatementNode::Strap(one) => Some((SymbolKind::Piece, &one.name)),
        StatementNode::Band(one) => Some((SymbolKind::Seam, &one.name)),
        StatementNode::Facing(one) => Some((SymbolKind::Seam, &one.name)),
        StatementNode::Placket(one) => Some((SymbolKind::Placket, &one.name)),
        _ => None,
    };
    let all = one.into_iter().chain(rows.iter().map(|row| (SymbolKind::Value, &row.name)));
    all.filter_map(|(kind, name)| called(kind, name, garment))
}

fn dropped<'d>(kind: DropKind, dotted: &'d Dotted, garment: &Garment) -> Vec<(&'d Name, Symbol)> {
    let one = |kind| dotted.parts.last().and_then(|name| called(kind, name, garment)).into_iter().collect();
    match kind {
        DropKind::Seam | DropKind::Band | DropKind::Facing => one(SymbolKind::Seam),
        DropKind::Placket => one(SymbolKind::Placket),
        DropKind::Closure => one(SymbolKind::Closure),
        DropKind::Topstitch | DropKind::Understitch => one(SymbolKind::Row),
        DropKind::Tack | DropKind::SetNotion => one(SymbolKind::Tack),
        DropKind::Layer => one(SymbolKind::Layer),
        DropKind::Fabric => one(SymbolKind::Fabric),
        DropKind::Let | DropKind::Measure => one(SymbolKind::Value),
        DropKind::Finish | DropKind::Opening | DropKind::Dart | DropKind::Pleat | DropKind::Tuck => {
            edge(dotted, garment)
        }
        DropKind::Piece | DropKind::Place | DropKind::Strap => part(dotted, garment),
        _ => Vec::new(),
    }
}

/// What names an alteration: pieces or edges, and the line.
fn altered<'d>(altered: &'d Altered, garment: &Garment) -> Vec<(&'d Name, Symbol)> {
    let mut found = Vec::new();
    for target in &altered.targets {
        let whole = matches!(
            altered.kind.form().targets,
            TargetForm::Pieces(_)
                | TargetForm::Piece(_)
                | TargetForm::TwoPieces(_)
                | TargetForm::Wholes
                | TargetForm::Whole
        );
        found.extend(if whole { part(target, garment) } else { edge(target, garment) });
        for line in altered.at.iter().filter(|_| whole) {
            let Some(&(_, Symbol::Piece(piece))) = part(target, garment).last() else { continue };
            found.extend(edge_of(piece, line, garment));
        }
    }
    found
}

/// What names a line of a piece: the piece, and what is drawn on it.
fn drawn<'d>(drop: &'d DropOfPiece, garment: &Garment) -> Vec<(&'d Name, Symbol)> {
    let Some((piece_name, symbol)) = called(SymbolKind::Piece, &drop.piece, garment) else {
        return Vec::new();
    };
    let mut found = vec![(piece_name, symbol)];
    let Symbol::Piece(piece) = symbol else { return found };
    for name in drop.name.iter().chain(&drop.other) {
        found.extend(match drop.kind {
            PieceItemKind::Point | PieceItemKind::Mark | PieceItemKind::MovePoint => {
                let own = garment.points.iter().position(|one| one.piece == piece && one.name == name.text);
                own.map(|at| (name, Symbol::Point(crate::garment::PointId::from_index(at))))
            }
            _ => edge_of(piece, name, garment),
        });
    }
    found
}

/// What a run of an edge is counted from: a point of its piece, or an edge beside it.
fn counted<'d>(sewn: &Dotted, run: &'d RunWords, garment: &Garment) -> Option<(&'d Name, Symbol)> {
    let piece = edge(sewn, garment).into_iter().rev().find_map(|(_, symbol)| match symbol {
        Symbol::Piece(piece) => Some(piece),
        _ => None,
    })?;
    let name = run.counted.parts.last()?;
    let own = garment.points.iter().position(|one| one.piece == piece && one.name == name.text);
    let point = own.map(|at| (name, Symbol::Point(crate::garment::PointId::from_index(at))));
    point.or_else(|| edge_of(piece, name, garment))
}

fn edge_of<'d>(
    piece: crate::garment::PieceId,
    name: &'d Name,
    garment: &Garment,
) -> Option<(&'d Name, Symbol)> {
    let mut own = garment.piece(piece).edges.iter().copied();
    own.find(|&edge| garment.edge(edge).name == name.text).map(|edge| (name, Symbol::Edge(edge)))
}

/// `piece` or `layer.piece`.
fn part<'d>(dotted: &'d Dotted, garment: &Garment) -> Vec<(&'d Name, Symbol)> {
    let Some((piece, layers)) = dotted.parts.split_last() else { return Vec::new() };
    let layers = layers.iter().filter_map(|name| called(SymbolKind::Layer, name, garment));
    layers.chain(called(SymbolKind::Piece, piece, garment)).collect()
}

/// `piece.edge` or `layer.piece.edge`.
fn edge<'d>(dotted: &'d Dotted, garment: &Garment) -> Vec<(&'d Name, Symbol)> {
    let Some((last, heads)) = dotted.parts.split_last() else { return Vec::new() };
    let heads = Dotted { parts: heads.to_vec(), on: None, span: dotted.span };
    let mut found: Vec<(&Name, Symbol)> = Vec::new();
    let Some(&(_, Symbol::Piece(piece))) = part(&heads, garment).last() else { return found };
    for name in &dotted.parts {
        let again = part(&heads, garment).into_iter().find(|(head, _)| head.span == name.span);
        found.extend(again.map(|(_, symbol)| (name, symbol)));
    }
    let edge = garment.piece(piece).edges.iter().find(|&&edge| garment.edge(edge).name == last.text);
    found.extend(edge.map(|&edge| (last, Symbol::Edge(edge))));
    found
}
