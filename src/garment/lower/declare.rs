//! The first pass: every name that stands on its own gets its id.

use super::Lowering;
use crate::few::Few;
use crate::garment::{
    Alteration, Closure, ClosureId, Cut, CutHow, Dimension, Drawing, Expression, Fabric, FabricId, FileKind,
    GarmentFile, Grain, Layer, LayerId, Link, LinkWord, Node, Outline, Piece, PieceId, PieceOrigin, Seam,
    SeamId, Size, TwoWays, Value, ValueId, ValueKind,
};
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use crate::source::{FileId, Span};
use crate::syntax::tree::{self, StatementNode};
use std::collections::HashMap;
use std::sync::Arc;

/// Words that the language keeps for itself among values. What is called as a function is told by its bracket.
pub(super) const KEPT_WORDS: [&str; 7] = ["pi", "grade", "each", "up", "down", "left", "right"];

impl Lowering<'_> {
    pub(super) fn declare(&mut self) {
        let merged = self.merged;
        self.garment.title = merged.title.clone();
        self.garment.heading = merged.heading;
        self.garment.dropped.clone_from(&merged.dropped_sewing);
        self.garment.first_file = self.merged.first.map_or(Span::default(), |id| self.map.file(id).span());
        let of_first = |link: &Link| {
            link.by == LinkWord::Of && merged.first.is_some_and(|first| self.map.file_of(link.span) == first)
        };
        let base = merged.links.iter().find(|(_, link)| of_first(link)).map(|(&id, _)| id);
        let file = |&(id, kind): &(FileId, FileKind)| GarmentFile {
            id,
            kind,
            is_base: base == Some(id),
            title: merged.titles.get(&id).cloned().unwrap_or_default(),
            unit: merged.units.get(&id).copied().unwrap_or(tree::Unit::Centimetre),
            unit_from: merged.units_inherited.get(&id).copied(),
        };
        self.garment.files = merged.lineage.iter().map(file).collect();
        for declaration in &merged.declarations {
            self.declare_one(&declaration.statement, declaration.from_library);
        }
        if self.garment.sizes.is_empty() {
            let span = self.garment.heading;
            self.garment.sizes.push(Size { name: "one size".into(), span });
        }
    }

    fn declare_one(&mut self, statement: &Arc<tree::Statement>, from_library: bool) {
        match &statement.node {
            StatementNode::Sizes(sizes) => self.declare_sizes(sizes),
            StatementNode::Body(body) => {
                for row in &body.rows {
                    let label = row.label.as_ref().map(|label| label.text.clone());
                    self.declare_value(&row.name, label, ValueKind::Body(poison(row.span)));
                }
            }
            StatementNode::Let(the_let) => {
                let label = the_let.label.as_ref().map(|label| label.text.clone());
                self.declare_value(&the_let.name, label, ValueKind::Let(poison(the_let.name.span)));
            }
            StatementNode::Measure(measure) => {
                let kind = ValueKind::Measure { value: poison(measure.name.span), against: None };
                self.declare_value(&measure.name, Some(measure.title.text.clone()), kind);
            }
            StatementNode::Fabric(fabric) => self.declare_fabric(fabric, from_library),
            StatementNode::Layer(layer) => self.declare_layer(layer),
            StatementNode::Piece(piece) => {
                let title =
                    piece.title.as_ref().map_or_else(|| piece.name.text.clone(), |title| title.text.clone());
                let id = self.declare_piece(&piece.name, title, PieceOrigin::Drawn, Some(statement.clone()));
                if let Some(id) = id {
                    self.garment.pieces[id.index()].block = piece.block;
                }
            }
            StatementNode::Strap(strap) => self.declare_strap(strap, statement.span),
            StatementNode::Alteration(_) => {
                self.garment.alterations.push(Alteration::new(statement.span, None, Vec::new()));
                self.alteration_trees.push(Some(statement.clone()));
            }
            StatementNode::Seam(seam) if !self.names.seams.contains_key(&seam.name.text) => {
                let id = SeamId::from_index(self.garment.seams.len());
                self.names.seams.insert(seam.name.text.clone(), id);
                self.garment.seams.push(empty_seam(seam.name.text.clone(), seam.name.span, statement.span));
            }
            StatementNode::Closure(closure) if !self.names.closures.contains_key(&closure.name.text) => {
                let id = ClosureId::from_index(self.garment.closures.len());
                self.names.closures.insert(closure.name.text.clone(), id);
                self.garment.closures.push(Closure {
                    name: closure.name.text.clone(),
                    name_span: closure.name.span,
                    span: statement.span,
                    first: Default::default(),
                    second: Default::default(),
                    end_to_end: closure.end_to_end,
                    kind: None,
                    kind_span: closure.name.span,
                });
            }
            _ => {}
        }
    }

    fn declare_sizes(&mut self, sizes: &tree::Sizes) {
        self.garment.sizes.clear();
        let mut known: HashMap<Arc<str>, Span> = HashMap::new();
        for name in &sizes.names {
            if let Some(&first) = known.get(&name.text) {
                let diagnostic = Diagnostic::new(
                    &catalogue::NAME_DECLARED_TWICE,
                    name.span,
                    format!("the size {} is listed twice", name.text),
                )
                .label("again here")
                .also(first, "first here")
                .help("leave one of the two out");
                self.report(diagnostic);
                continue;
            }
            known.insert(name.text.clone(), name.span);
            self.garment.sizes.push(Size { name: name.text.clone(), span: name.span });
        }
        if let Some(too_many) = self.garment.sizes.get(limits::SIZES) {
            let title = format!(
                "{} sizes are more than the {} that one garment may have",
                self.garment.sizes.len(),
                limits::SIZES
            );
            let help = "make two garments of it, each with its own sizes";
            self.report(
                Diagnostic::new(&catalogue::LIMIT_SIZES, too_many.span, title)
                    .label("one too many")
                    .help(help),
            );
            self.garment.sizes.truncate(limits::SIZES);
        }
    }

    fn declare_value(&mut self, name: &tree::Name, label: Option<Arc<str>>, kind: ValueKind) {
        if KEPT_WORDS.contains(&&*name.text) {
            let title = format!("{} is a word of the language and cannot name a value", name.text);
            let help = format!("choose another name, for example {}_value", name.text);
            self.report(
                Diagnostic::new(&catalogue::NAME_KEPT, name.span, title)
                    .label("means something already")
                    .help(help),
            );
        }
        if self.names.values.contains_key(&name.text) {
            return;
        }
        let id = ValueId::from_index(self.garment.values.len());
        self.names.values.insert(name.text.clone(), id);
        let (name, span) = (name.text.clone(), name.span);
        self.garment.values.push(Value { name, span, label, dimension: Dimension::Length, kind });
    }

    fn declare_fabric(&mut self, fabric: &tree::Fabric, from_library: bool) {
        if self.names.fabrics.contains_key(&fabric.name.text) {
            return;
        }
        let id = FabricId::from_index(self.garment.fabrics.len());
        self.names.fabrics.insert(fabric.name.text.clone(), id);
        self.garment.fabrics.push(Fabric {
            name: fabric.name.text.clone(),
            title: fabric.title.as_ref().map_or_else(|| fabric.name.text.clone(), |title| title.text.clone()),
            span: fabric.name.span,
            from_library,
            width: None,
            tubular: false,
            selvage: None,
            stretch: TwoWays::default(),
            shrink: TwoWays::default(),
            repeat: TwoWays::default(),
            one_way: false,
            nap_said: false,
            thickness: None,
            price: None,
            kind: None,
            raised: None,
        });
    }

    fn declare_layer(&mut self, layer: &tree::Layer) {
        if self.names.layers.contains_key(&layer.name.text) {
            return;
        }
        let id = LayerId::from_index(self.garment.layers.len());
        self.names.layers.insert(layer.name.text.clone(), id);
        self.garment.layers.push(Layer {
            name: layer.name.text.clone(),
            span: layer.name.span,
            fabric: None,
            fused: layer.fused,
            share: layer.share,
            onto: None,
            pieces: Vec::new(),
            piece_spans: Vec::new(),
        });
    }

    /// Gives a piece its id; none where the name is taken, which is reported elsewhere.
    pub(super) fn declare_piece(
        &mut self,
        name: &tree::Name,
        title: Arc<str>,
        origin: PieceOrigin,
        statement: Option<Arc<tree::Statement>>,
    ) -> Option<PieceId> {
        if self.names.pieces.contains_key(&name.text) {
            return None;
        }
        let id = PieceId::from_index(self.garment.pieces.len());
        if id.index() >= limits::PIECES && !self.too_many_pieces {
            self.too_many_pieces = true;
            let help = "make two garments of it, each with its own pieces";
            let title = format!("a garment may have {} pieces, and this is one more", limits::PIECES);
            self.report(Diagnostic::new(&catalogue::LIMIT_PIECES, name.span, title).help(help));
        }
        if id.index() >= limits::PIECES {
            return None;
        }
        self.names.pieces.insert(name.text.clone(), id);
        self.piece_trees.push(statement);
        self.piece_edges.push(Default::default());
        self.piece_points.push(Default::default());
        self.garment.pieces.push(Piece {
            name: name.text.clone(),
            title,
            span: name.span,
            block: false,
            origin,
            ended_by: None,
            like: None,
            cut: Cut { count: constant(1.0, name.span), how: CutHow::Alike, loose: false, span: name.span },
            drawing: empty_drawing(),
            edges: Vec::new(),
            points: Vec::new(),
            folds: Vec::new(),
            grain: Grain::Up,
            allowance: None,
            corners: Vec::new(),
            never_flipped: None,
            drawn: None,
            one_sided: None,
            told_apart: false,
            papers: Vec::new(),
        });
        Some(id)
    }
}

/// An expression that could not be made sense of.
pub(super) fn poison(span: Span) -> Expression {
    Expression { node: Node::Poison, dimension: Dimension::Length, span }
}

/// A plain number.
pub(super) fn constant(value: f64, span: Span) -> Expression {
    Expression { node: Node::Constant(value), dimension: Dimension::Number, span }
}

/// The drawing of a piece that is not drawn.
pub(super) fn empty_drawing() -> Drawing {
    Drawing {
        outline: Outline::None,
        order: Vec::new(),
        spots: Vec::new(),
        lines: Vec::new(),
        moves: Vec::new(),
        divides: Vec::new(),
        notches: Vec::new(),
        take_ups: Vec::new(),
        left_out: Vec::new(),
    }
}

/// A seam of which nothing is known but its name, and where it stands.
pub(super) fn empty_seam(name: Arc<str>, name_span: Span, span: Span) -> Seam {
    Seam {
        name,
        name_span,
        label: None,
        span,
        first: Few::new(),
        second: Few::new(),
        fit: None,
        enclosing: Vec::new(),
        allowance: None,
        stitch: None,
        tape: None,
        work: None,
        notches: Vec::new(),
        divided: Vec::new(),
        gaps: Vec::new(),
        matching: Vec::new(),
        poisoned: false,
        by_split: false,
        across_fold: false,
    }
}
