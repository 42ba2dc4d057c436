//! The chain of a variation and its bases made into one flat, ordered list of declarations.

mod add;
mod alike;
mod along;
mod alteration;
mod change_sewn;
mod conflict;
mod dart;
mod doing;
mod drop;
mod dropped_steps;
mod finish;
mod fitted;
mod in_one_line;
mod key;
mod left_out;
mod piece_item;
mod place;
mod replace;
mod seam_along;
mod shelf;
mod standing;
mod taken_back;
mod via;
mod wordless;

pub use alike::Alike;
pub(in crate::garment) use alike::draws_the_same;
pub(in crate::garment) use key::{keys_of, kind_word};
pub use via::via_variation;

use super::chain::{ChainFile, FileKind, Link, LinkWord, LoadedChain, fitting_of};
use super::model::{Beside, DroppedSewing};
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tree::{FittingOf, PieceChange, Statement, StatementNode, Unit};
use conflict::{Combined, Deed, Settled};
use indexmap::{IndexMap, IndexSet};
use left_out::DroppedOfPiece;
use standing::Standing;
use std::sync::Arc;

/// One declaration that stands after merging: never a `replace`, `set`, `drop`, `add` or `use`,
/// nor a heading, `units` or a second `about`.
#[derive(Clone, Debug)]
pub struct Declaration {
    /// What it says. A piece, layer or steps block that a variation adds to has the additions in it.
    pub statement: Arc<Statement>,
    /// The declaration of the base whose place it took, for messages.
    pub replaced: Option<Span>,
    /// It stands in a library: it may stay unused.
    pub from_library: bool,
    /// Of a `let` that was `set`: the let as the base had it, whose dimension is kept.
    pub set_over: Option<Arc<Statement>>,
}

/// What a variation dropped: whoever still names it is reported so.
#[derive(Clone, Debug)]
pub struct Dropped {
    /// The name, or the text, that is gone: a piece's, a seam's …
    pub name: Arc<str>,
    /// What kind of thing it was, as `drop` names it.
    pub kind: &'static str,
    /// Where it was declared.
    pub declared: Span,
    /// Where it was dropped.
    pub dropped: Span,
    /// Whether `and all sewn to it` may be said behind that.
    pub may_take_along: bool,
}

impl Dropped {
    /// What is gone by itself, behind which no `and all sewn to it` may be said.
    fn new(name: impl Into<Arc<str>>, kind: &'static str, declared: Span, dropped: Span) -> Self {
        Dropped { name: name.into(), kind, declared, dropped, may_take_along: false }
    }

    /// Whether it may be what was looked for: "seam or closure", "value", "piece".
    pub fn may_be(&self, what: &str) -> bool {
        let kind = match self.kind {
            "let" | "measure" => "value",
            "topstitch" | "understitch" => "stitching",
            kind => kind,
        };
        // "edge of the seam" is no seam.
        let looked_for = what.split(" of ").next().unwrap_or(what);
        looked_for.split(' ').any(|word| word == kind)
    }
}

/// The whole chain as one.
#[derive(Clone, Debug, Default)]
pub struct Merged {
    /// What the first file calls the garment.
    pub title: Arc<str>,
    /// Its heading.
    pub heading: Span,
    /// The first file; none where it could not be had.
    pub first: Option<FileId>,
    /// In order: libraries where they are used, the base, then each variation's own.
    ///
    /// Names are told apart: of two declarations of one name, without `replace`, only the first
    /// stands. Only the pieces that `split` and `join` make may be declared twice (already reported).
    pub declarations: Vec<Declaration>,
    /// What the first file says of one wearer, if it is a fitting.
    pub fitting: Option<FittingOf>,
    /// Where files are combined, by its title beside which step each one stands that is put beside another.
    pub steps_beside: IndexMap<Arc<str>, Beside>,
    /// The pieces that were like others, as an editor asks for them.
    pub alike: Vec<Alike>,
    /// What was dropped.
    pub dropped: Vec<Dropped>,
    /// Of that what took edges.
    pub dropped_sewing: Vec<DroppedSewing>,
    /// The unit of bare literals, by file: its own, else that of its base; centimetres where none says any.
    pub units: IndexMap<FileId, Unit>,
    /// The files that say no unit and write in that of another, with the file that says it.
    pub units_inherited: IndexMap<FileId, FileId>,
    /// Where a file says its unit.
    pub units_said: IndexMap<FileId, Span>,
    /// The files that were merged, in that order, with what each of them is.
    pub lineage: Vec<(FileId, FileKind)>,
    /// What each of them is called.
    pub titles: IndexMap<FileId, Arc<str>>,
    /// The `sizes` statement to whose names the lists of a file are bound, by file: its own, else
    /// its base's; of a library without one, that of the file that uses it. The garment's sizes
    /// are those of its one `sizes` declaration.
    pub sizes_in: IndexMap<FileId, Arc<Statement>>,
    /// How each file but the first came into the chain.
    pub links: IndexMap<FileId, Link>,
    /// A file of the chain could not be had (already reported): what it declares is not known, and
    /// looking names up would only raise false alarms.
    pub incomplete: bool,
    /// Words inside damaged statements (already reported): a name among them may have been declared
    /// there.
    pub lost_words: Vec<Arc<str>>,
    /// Every mistake of reading, parsing and merging.
    pub mistakes: Vec<Diagnostic>,
}

impl Merged {
    /// Puts the steps in that order, by their titles; what is not among those comes last.
    pub fn put_steps(&mut self, titles: &[Arc<str>]) {
        for declaration in &mut self.declarations {
            let StatementNode::Steps(_) = &declaration.statement.node else { continue };
            if let StatementNode::Steps(steps) = &mut Arc::make_mut(&mut declaration.statement).node {
                let place = |title: &str| titles.iter().position(|one| **one == *title);
                steps.groups.sort_by_key(|group| place(&group.title.text).unwrap_or(titles.len()));
            }
        }
    }
}

/// Merges the chain: the base's declarations, then each variation's own, with what it replaces in
/// the place of what it replaces.
///
/// A pure function: the same declarations written as one garment file merge to the same list.
pub fn merge(chain: LoadedChain) -> Merged {
    let LoadedChain {
        files,
        lineage,
        known,
        units_from,
        taken_back,
        used,
        links,
        incomplete,
        lost_words,
        mistakes,
    } = chain;
    let mut merged = Merged {
        links,
        incomplete,
        lost_words,
        mistakes,
        first: lineage.first().copied(),
        ..Merged::default()
    };
    let in_order = || lineage.iter().rev().filter_map(|id| files.get(id));
    merged.lineage = in_order().filter_map(|file| Some((file.id, file.kind?))).collect();
    merged.titles = in_order().map(|file| (file.id, title_of(file).0)).collect();
    let base_line: IndexSet<FileId> =
        std::iter::successors(merged.first, |id| units_from.get(id).copied()).take(files.len()).collect();
    if let Some(first) = lineage.first().and_then(|id| files.get(id)) {
        (merged.title, merged.heading) = title_of(first);
        merged.fitting = fitting_of(&first.tree).filter(|_| first.kind == Some(FileKind::Fitting)).cloned();
        // A fitting is called after the garment.
        if merged.fitting.is_some()
            && let Some(base) = lineage.get(1).and_then(|id| files.get(id))
        {
            merged.title = title_of(base).0;
        }
    }
    let mut merging = Merging {
        standing: Standing::default(),
        damaged: false,
        alike_lines: 0,
        alike_told: false,
        touched: IndexMap::new(),
        in_library: false,
        has_base: false,
        offers: 0,
        here: Span::default(),
        sewn_here: Vec::new(),
        combined: Combined::of(in_order(), known),
        gone: IndexMap::new(),
        emptied: Vec::new(),
        base_line,
        units_from,
        steps_taken_back: IndexMap::new(),
        dropped_of_pieces: Vec::new(),
        merged,
    };
    for (file, &said) in taken_back.iter().filter_map(|(id, said)| Some((files.get(id)?, said))) {
        merging.remember_taken_back(file, said);
    }
    for file in in_order() {
        merging.file(file, &files, &used);
    }
    let spans: Vec<Span> = in_order().map(|file| file.span).collect();
    merging.take_dropped_out_of_steps(&spans);
    merging.take_dropped_out_of_left_out(&spans);
    merging.put_back_on_the_shelf();
    let Merging { standing, mut merged, emptied, .. } = merging;
    merged.declarations = standing.into_declarations();
    Merging::without_emptied_layers(&mut merged.declarations, &emptied);
    wordless::report_empty(&mut merged);
    merged
}

/// The state between two files of the chain.
struct Merging {
    standing: Standing,
    /// A base, or a library, has mistakes of reading: what is not found may be among them.
    damaged: bool,
    /// How many lines pieces took over from those that they are like, and whether it was told that these are too many.
    alike_lines: usize,
    alike_told: bool,
    /// What the file at hand has replaced, set or dropped, and where.
    touched: IndexMap<key::Key, Span>,
    in_library: bool,
    /// The file at hand is a variation.
    has_base: bool,
    /// How many times a nearest name was looked for: no more than messages are shown.
    offers: usize,
    /// All of the file at hand.
    here: Span,
    /// The seams that it declares.
    sewn_here: Vec<Arc<str>>,
    /// What each file does to what others say too.
    combined: Combined,
    /// What was dropped, and from which place, so that it can be declared there again.
    gone: IndexMap<key::Key, (usize, Declaration)>,
    /// Layers that lost their last piece to a drop.
    emptied: Vec<Arc<str>>,
    /// The first file, its base, that one's base: whose story is the garment's.
    base_line: IndexSet<FileId>,
    /// Whose unit is a file's where it says none.
    units_from: IndexMap<FileId, FileId>,
    /// Steps of files that were taken back: beside which other step each of them stood, and whether after it.
    steps_taken_back: IndexMap<Arc<str>, (Arc<str>, bool)>,
    /// What files drop of pieces.
    dropped_of_pieces: Vec<DroppedOfPiece>,
    merged: Merged,
}

impl Merging {
    /// First the libraries, then what the file replaces and sets, then what it drops, then its
    /// own declarations, then what it adds to declarations: so the order of its lines does not
    /// matter.
    fn file(&mut self, file: &ChainFile, files: &IndexMap<FileId, ChainFile>, used: &IndexMap<Span, FileId>) {
        self.damaged |= self.merged.incomplete;
        let statements = &file.tree.statements;
        for statement in statements {
            let StatementNode::Use(one) = &statement.node else { continue };
            let Some(library) = used.get(&one.path.span).and_then(|id| files.get(id)) else { continue };
            let combined = self.merged.lineage.iter().any(|(id, _)| *id == library.id);
            if !combined && !self.merged.units.contains_key(&library.id) {
                self.library(library, files);
            }
        }
        self.touched.clear();
        self.here = file.span;
        self.combined.at = file.id;
        let is_library = file.kind == Some(FileKind::Library);
        if is_library && self.merged.first == Some(file.id) {
            // A library by itself, as somebody who writes one looks at it.
            self.library(file, files);
            return self.bind_sizes(file.id);
        }
        if file.kind == Some(FileKind::Fitting) {
            return self.fitting(file, files);
        }
        self.has_base = is_library || file.kind == Some(FileKind::Variation);
        self.units_of(file, files);
        for statement in statements {
            match &statement.node {
                StatementNode::Replace(new) => self.replace(statement.span, new),
                StatementNode::Set(set) => self.set(statement.span, set),
                StatementNode::ChangeBand(change) => self.change_bands(statement.span, change),
                StatementNode::ChangeSeam(change) => self.change_seam(statement.span, change),
                StatementNode::ReplaceAlteration(replace) => {
                    self.replace_alteration(statement.span, &replace.new, Some(&replace.of));
                }
                StatementNode::ReplaceStep(group) => self.replace_step(statement.span, group),
                StatementNode::AddToPiece(add) if add.how == PieceChange::ReplacesTakeUp => {
                    self.replace_dart(add);
                }
                StatementNode::AddToPiece(add)
                    if add.how == PieceChange::Replaces && !self.is_in_one_line(&add.piece, statements) =>
                {
                    self.replace_in_piece(add);
                }
                _ => {}
            }
        }
        let seams = statements.iter().filter_map(|statement| match &statement.node {
            StatementNode::Seam(seam) => Some(seam.name.text.clone()),
            _ => None,
        });
        self.sewn_here = seams.collect();
        for statement in statements {
            match &statement.node {
                StatementNode::Drop(drop) => self.drop(statement.span, drop),
                StatementNode::DropAlteration(drop) => self.drop_alteration(statement.span, drop),
                StatementNode::DropOfPiece(drop) => self.drop_of_piece(statement.span, drop),
                _ => {}
            }
        }
        self.own(file);
        for statement in statements {
            match &statement.node {
                StatementNode::AddToLayer(add) => self.add_to_layer(add),
                StatementNode::AddSteps(add) => self.add_steps(add),
                StatementNode::AddToPiece(add)
                    if add.how != PieceChange::ReplacesTakeUp
                        && self.is_in_one_line(&add.piece, statements) =>
                {
                    self.keep_for_one_line(statement, add);
                }
                StatementNode::AddToPiece(add) if add.how == PieceChange::Adds => self.add_to_piece(add),
                _ => {}
            }
        }
        self.write_alike(file.damaged);
        self.bind_sizes(file.id);
        self.damaged |= file.damaged;
    }

    fn library(&mut self, file: &ChainFile, files: &IndexMap<FileId, ChainFile>) {
        self.here = file.span;
        self.touched.clear();
        self.units_of(file, files);
        self.in_library = true;
        self.own(file);
        self.write_alike(file.damaged);
        self.in_library = false;
        let own = file.tree.statements.iter().find(|one| matches!(one.node, StatementNode::Sizes(_)));
        if let Some(own) = own {
            self.merged.sizes_in.insert(file.id, own.clone());
        }
        self.damaged |= file.damaged;
    }

    fn own(&mut self, file: &ChainFile) {
        let mut told = false;
        for statement in &file.tree.statements {
            match &statement.node {
                StatementNode::Garment(_)
                | StatementNode::Variation(_)
                | StatementNode::Fitting(_)
                | StatementNode::Library(_)
                | StatementNode::Use(_)
                | StatementNode::Units(_) => {}
                // What a library says of itself is not the garment's story.
                StatementNode::About(_) | StatementNode::Credit(_) if self.in_library => {}
                StatementNode::Replace(_)
                | StatementNode::Set(_)
                | StatementNode::ReplaceAlteration(_)
                | StatementNode::ReplaceStep(_)
                | StatementNode::Drop(_)
                | StatementNode::DropAlteration(_)
                | StatementNode::DropOfPiece(_)
                | StatementNode::AddToLayer(_)
                | StatementNode::AddSteps(_)
                | StatementNode::AddToPiece(_)
                | StatementNode::ChangeBand(_)
                | StatementNode::ChangeSeam(_)
                    if !self.in_library => {}
                // By itself a library is looked at without what it will be combined with.
                node if self.in_library && !may_be_used(node) && self.merged.first == Some(file.id) => {}
                // One message is enough: the whole of it is meant for something else.
                node if self.in_library && !may_be_used(node) && told => {}
                node if self.in_library && !may_be_used(node) => {
                    told = true;
                    let title = format!("a library that is used lends no {}", key::kind_word(node));
                    let mistake = Diagnostic::new(&catalogue::FILE_KIND, statement.span, title)
                        .label("is in a library that is used")
                        .help(format!(
                            "use lends fabrics, sizes and body measures, notions, values and pieces; to have \
                             all that the library says, combine it: variation \"…\" of \"….fus\" with \"{}\"",
                            file.name
                        ));
                    self.merged.mistakes.push(mistake);
                }
                _ => self.declare(statement),
            }
        }
    }

    /// The unit of a file's bare numbers: the one that it says, else that of the file it goes by.
    fn units_of(&mut self, file: &ChainFile, files: &IndexMap<FileId, ChainFile>) {
        let words = file.tree.statements.iter().filter_map(|statement| match &statement.node {
            StatementNode::Units(word) => Some((word.unit, statement.span)),
            _ => None,
        });
        let mut words = words.collect::<Vec<_>>().into_iter();
        let Some((own, first)) = words.next() else {
            let mut at = file.id;
            for _ in 0..files.len() {
                let Some(&from) = self.units_from.get(&at) else { break };
                at = from;
                if let Some(unit) = files.get(&at).and_then(unit_said) {
                    self.merged.units.insert(file.id, unit);
                    self.merged.units_inherited.insert(file.id, at);
                    return;
                }
            }
            self.merged.units.insert(file.id, Unit::Centimetre);
            return;
        };
        self.merged.units.insert(file.id, own);
        self.merged.units_said.insert(file.id, first);
        for (_, again) in words {
            self.said_twice("units", again, first);
        }
    }

    /// The lists of this file, and of the libraries without sizes that it uses, go by the sizes
    /// that stand now.
    fn bind_sizes(&mut self, file: FileId) {
        let Some(mut sizes) = self.standing.find(&key::Key::Sizes).map(|one| one.statement.clone()) else {
            return;
        };
        if self.combined.is_beside(sizes.span)
            && let Some(base) = self.units_from.get(&file)
            && let Some(of_base) = self.merged.sizes_in.get(base)
        {
            // Another file leaves sizes out that this one has values for.
            sizes = of_base.clone();
        }
        self.merged.sizes_in.insert(file, sizes.clone());
        let unbound: Vec<FileId> = self
            .merged
            .units
            .keys()
            .copied()
            .filter(|id| self.merged.links.get(id).is_some_and(|link| link.by == LinkWord::Use))
            .collect();
        for library in unbound {
            self.merged.sizes_in.entry(library).or_insert_with(|| sizes.clone());
        }
    }
}

/// The unit that a file says, the first where it says several.
fn unit_said(file: &ChainFile) -> Option<Unit> {
    file.tree.statements.iter().find_map(|statement| match &statement.node {
        StatementNode::Units(word) => Some(word.unit),
        _ => None,
    })
}

/// What a library lends to who uses it.
fn may_be_used(node: &StatementNode) -> bool {
    matches!(
        node,
        StatementNode::About(_)
            | StatementNode::Credit(_)
            | StatementNode::Library(_)
            | StatementNode::Use(_)
            | StatementNode::Units(_)
            | StatementNode::Sizes(_)
            | StatementNode::Body(_)
            | StatementNode::Pick(_)
            | StatementNode::Fabric(_)
            | StatementNode::Notion(_)
            | StatementNode::Let(_)
            | StatementNode::Piece(_)
    )
}

fn title_of(file: &ChainFile) -> (Arc<str>, Span) {
    let heading = file.tree.statements.iter().find_map(|statement| match &statement.node {
        StatementNode::Garment(title) | StatementNode::Library(title) => {
            Some((title.text.clone(), statement.span))
        }
        StatementNode::Variation(variation) => Some((variation.title.text.clone(), statement.span)),
        StatementNode::Fitting(fitting) => Some((fitting.wearer.text.clone(), statement.span)),
        _ => None,
    });
    heading.unwrap_or_default()
}
