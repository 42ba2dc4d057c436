//! Alterations: first what they work on, later how much.

use super::declare::poison;
use super::expression::Wanted;
use super::papers::When;
use super::{Lowering, NamedPiece};
use crate::garment::{
    Alteration, AlterationId, AlterationKind, Amount, EdgeId, EndOfEdge, LineFate, MadePiece, PieceId,
    PieceOrigin, PointId, Symbol, Tapered, Target, TargetForm, Until,
};
use crate::limits;
use crate::report::{Diagnostic, Label, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, Alteration as Tree, StatementNode};
use std::collections::{HashMap, HashSet};
use std::sync::Arc;

impl Lowering<'_> {
    /// Finds the pieces, lines and edges that alterations work on. Amounts come later, because
    /// they may be measured on pieces.
    pub(super) fn find_targets(&mut self) {
        let mut times: HashMap<PieceId, usize> = HashMap::new();
        for at in 0..self.alteration_trees.len() {
            let Some(statement) = self.alteration_trees[at].clone() else { continue };
            let StatementNode::Alteration(tree) = &statement.node else { continue };
            let id = AlterationId::from_index(at);
            let found = self.found(tree, statement.span, id);
            self.garment.alterations[at] = match found.filter(|found| self.is_few(found, &mut times)) {
                Some(found) => found,
                None => Alteration::new(statement.span, None, self.pieces_touched(tree)),
            };
        }
        self.add_zips();
        self.add_damaged();
        self.hand_layers_on();
    }

    /// Whether its pieces are not altered too often; reported of each the first time.
    fn is_few(&self, found: &Alteration, times: &mut HashMap<PieceId, usize>) -> bool {
        let mut is_few = true;
        for piece in found.targets.iter().map(|target| target.piece) {
            let times = times.entry(piece).or_default();
            *times += 1;
            is_few &= *times <= limits::ALTERATIONS_OF_PIECE;
            if *times == limits::ALTERATIONS_OF_PIECE + 1 {
                let most = limits::ALTERATIONS_OF_PIECE;
                let title = format!("{} is altered more than {most} times", self.garment.piece(piece).title);
                let mistake = Diagnostic::new(&catalogue::LIMIT_ALTERATIONS, found.span, title)
                    .label("once too often")
                    .help("say the sum of many small steps at once, or draw the piece anew");
                self.report(mistake);
            }
        }
        is_few
    }

    /// An alteration with all that it works on; none where some of it could not be found.
    fn found(&self, tree: &Tree, span: Span, id: AlterationId) -> Option<Alteration> {
        let targets = match tree.kind.form().targets {
            TargetForm::Piece(_) if let Some(tree::DartChange::Split(split)) = &tree.dart => {
                vec![self.split_target(tree.targets.first()?, split, id)?]
            }
            TargetForm::Pieces(_) | TargetForm::Piece(_) => {
                self.line_targets(&tree.targets, tree.at.as_ref()?, id)?
            }
            TargetForm::TwoPieces(_) => {
                let [first, second] = tree.targets.as_slice() else { return None };
                self.joined_targets(first, second, tree.at.as_ref()?, id)?
            }
            TargetForm::Wholes | TargetForm::Whole => self.whole_targets(&tree.targets, id)?,
            TargetForm::Edges | TargetForm::Edge => self.edge_targets(&tree.targets, id)?,
            TargetForm::Dart => vec![self.dart_target(tree.targets.first()?, id)?],
            TargetForm::Closure => return None,
        };
        let mut alteration = Alteration::new(span, Some(tree.kind), self.in_every_layer(tree.kind, targets));
        let cuts = tree.kind.form().line == LineFate::BecomesEdge;
        for name in &tree.into {
            let piece = self.made_by(name, id)?;
            let cut_edge = match &tree.at {
                Some(at) if cuts => Some(*self.piece_edges[piece.index()].get(&at.text)?),
                _ => None,
            };
            alteration.makes.push(MadePiece { piece, cut_edge });
        }
        Some(alteration)
    }

    /// What makes other pieces of a piece makes them of it in every layer: reported where one is named, and taken so.
    fn in_every_layer(&self, kind: AlterationKind, mut targets: Vec<Target>) -> Vec<Target> {
        if !matches!(kind, AlterationKind::Split | AlterationKind::Join | AlterationKind::Unpair) {
            return targets;
        }
        for target in &mut targets {
            let Some(layer) = target.layer.take() else { continue };
            let (piece, layer) = (self.garment.piece(target.piece), &self.garment.layer(layer).name);
            let (verb, name) = (kind.form().verb, &piece.name);
            let title = format!("{verb} makes other pieces of {name} in every layer, not in {layer} alone");
            let diagnostic = Diagnostic::new(&catalogue::ALTER_IN_LAYER, target.span, title)
                .label("in one layer")
                .also(piece.span, "drawn here")
                .help(format!(
                    "name {name} without its layer; one that stays whole in another layer is drawn as a piece of its own"
                ));
            self.report(diagnostic);
        }
        targets
    }

    /// The pieces that an alteration names, as far as they are known; of one that makes others of
    /// them none, for they are no more after it.
    fn pieces_touched(&self, tree: &Tree) -> Vec<Target> {
        let mut touched = Vec::new();
        for dotted in tree.targets.iter().filter(|_| tree.into.is_empty()) {
            let piece = dotted.parts.iter().find_map(|name| self.names.pieces.get(&name.text)).copied();
            if let Some(piece) = piece
                && let Some(&edge) = self.garment.piece(piece).edges.first()
            {
                touched.push(Target { layer: None, piece, edge, span: dotted.span });
            }
        }
        touched
    }

    /// An alteration that is reported to make no sense, after its targets were found.
    pub(super) fn poison_alteration(&mut self, at: usize) {
        let alteration = &mut self.garment.alterations[at];
        *alteration = Alteration::new(alteration.span, None, std::mem::take(&mut alteration.targets));
    }

    /// A piece that this very alteration makes; none where its name was taken.
    fn made_by(&self, name: &tree::Name, by: AlterationId) -> Option<PieceId> {
        let piece = *self.names.pieces.get(&name.text)?;
        match self.garment.piece(piece).origin {
            PieceOrigin::Split { by: maker, .. } | PieceOrigin::Join { by: maker } if maker == by => {
                Some(piece)
            }
            _ => None,
        }
    }

    /// The pieces at one line or edge, all or none.
    fn line_targets(
        &self,
        pieces: &[tree::Dotted],
        at: &tree::Name,
        id: AlterationId,
    ) -> Option<Vec<Target>> {
        let found: Vec<Option<Vec<Target>>> =
            pieces.iter().map(|piece| self.line_target(piece, at, id)).collect();
        Some(found.into_iter().collect::<Option<Vec<_>>>()?.into_iter().flatten().collect())
    }

    /// A piece at a line; a pair that is two pieces by then on both.
    fn line_target(&self, piece: &tree::Dotted, at: &tree::Name, id: AlterationId) -> Option<Vec<Target>> {
        let part = self.find_part(piece)?;
        let several = matches!(
            self.alteration_form(id),
            Some(form) if matches!(form.targets, TargetForm::Pieces(_))
        );
        let sides = if several { self.both_sides(part, id) } else { vec![part] };
        let targets = sides.into_iter().map(|part| {
            self.is_there(part, piece.span, id)?;
            self.named_target(part, piece, at)
        });
        targets.collect()
    }

    /// What is known of that alteration's kind.
    fn alteration_form(&self, id: AlterationId) -> Option<&'static tree::AlterationForm> {
        match &self.alteration_trees.get(id.index())?.as_ref()?.node {
            StatementNode::Alteration(tree) => Some(tree.kind.form()),
            _ => None,
        }
    }

    /// The left and the right piece of a pair that was made two pieces before that alteration; else the piece
    /// itself.
    fn both_sides(&self, part: NamedPiece, before: AlterationId) -> Vec<NamedPiece> {
        let unpaired = self.garment.piece(part.piece).ended_by.filter(|&ended| {
            ended < before && self.alteration_form(ended).is_some_and(|form| form.verb == UNPAIR)
        });
        let Some(by) = unpaired else { return vec![part] };
        let made = crate::garment::PieceId::enumerate(&self.garment.pieces).filter(|(_, piece)| {
            matches!(piece.origin, PieceOrigin::Split { by: maker, of, .. } if maker == by && of == part.piece)
        });
        let sides = made.flat_map(|(piece, _)| self.both_sides(NamedPiece { piece, ..part }, before));
        sides.collect()
    }

    /// Pieces of which nothing is named: their fold, or else any edge of them.
    fn whole_targets(&self, pieces: &[tree::Dotted], id: AlterationId) -> Option<Vec<Target>> {
        let found: Vec<Option<Target>> = pieces
            .iter()
            .map(|dotted| {
                let part = self.find_part(dotted)?;
                self.is_there(part, dotted.span, id)?;
                let edges = &self.piece_edges[part.piece.index()];
                let fold = self.fold_named(part.piece).and_then(|fold| edges.get(&fold));
                let edge = fold.or_else(|| edges.values().next()).copied()?;
                Some(Target { layer: part.layer, piece: part.piece, edge, span: dotted.span })
            })
            .collect();
        found.into_iter().collect()
    }

    /// The name of the edge that a piece is cut on the fold at, as it is drawn.
    fn fold_named(&self, piece: PieceId) -> Option<Arc<str>> {
        let mut of = piece;
        while let PieceOrigin::Split { of: whole, .. } = self.garment.piece(of).origin {
            of = whole;
        }
        let statement = self.piece_tree(of)?;
        super::as_piece(&statement)?.items.iter().find_map(|item| match &item.node {
            tree::PieceItemNode::Cut(tree::Cut { how: tree::CutHow::OnFold(fold), .. }) => {
                Some(fold.text.clone())
            }
            _ => None,
        })
    }

    fn named_target(&self, part: NamedPiece, piece: &tree::Dotted, at: &tree::Name) -> Option<Target> {
        if self.has_no_name(part.piece, at) && !self.piece_edges[part.piece.index()].is_empty() {
            self.report_no_line(part.piece, at, piece.span);
            return None;
        }
        let edge = self.find_edge(part.piece, at)?;
        Some(Target { layer: part.layer, piece: part.piece, edge, span: piece.span })
    }

    fn has_no_name(&self, piece: PieceId, name: &tree::Name) -> bool {
        !self.piece_edges[piece.index()].contains_key(&name.text)
    }

    fn report_no_line(&self, piece: PieceId, at: &tree::Name, named: Span) {
        let is_same = |last: &&mut Diagnostic| last.is(&catalogue::ALTER_NO_LINE) && last.span() == at.span;
        // The same word for the same line: the other piece is shown in the same message.
        if let Some(reported) = self.notes.borrow_mut().diagnostics.last_mut().filter(is_same) {
            reported.labels.push(Label { span: named, text: "nor on this one".to_owned() });
            return;
        }
        let title = self.garment.piece(piece).title.clone();
        let piece_span = self.garment.piece(piece).span;
        let lines: Vec<String> = self.piece_edges[piece.index()]
            .iter()
            .filter(|&(_, &edge)| self.garment.edge(edge).line)
            .map(|(name, _)| name.to_string())
            .collect();
        let near =
            crate::report::nearest(&at.text, self.piece_edges[piece.index()].keys().map(|name| &**name));
        let help = match (near, lines.is_empty()) {
            (Some(near), _) => format!("did you mean {near}?"),
            (None, true) => format!("draw it on the piece: line {} across at …", at.text),
            (None, false) => format!("lines of this piece: {}", lines.join(", ")),
        };
        let diagnostic = Diagnostic::new(
            &catalogue::ALTER_NO_LINE,
            at.span,
            format!("{title} has no line or edge called {}", at.text),
        )
        .label("no such line")
        .also(named, "not on this piece")
        .also(piece_span, "drawn here")
        .help(help);
        let fixed = near.map(|near| diagnostic.clone().fix_by(at.span, near));
        self.report(fixed.unwrap_or(diagnostic));
    }

    /// Whether the piece is there at that alteration: not yet ended, and already made.
    pub(super) fn is_there(&self, part: NamedPiece, span: Span, at: AlterationId) -> Option<()> {
        let piece = self.garment.piece(part.piece);
        let name = piece.name.clone();
        if let Some(ended) = piece.ended_by.filter(|&ended| ended < at) {
            let earlier = self.garment.alteration(ended).span;
            let diagnostic = Diagnostic::new(
                &catalogue::ALTER_GONE,
                span,
                format!("{name} no longer exists at this line"),
            )
            .label("named here")
            .also(earlier, "made into other pieces here")
            .help("name the pieces that were made of it");
            self.report(diagnostic);
            return None;
        }
        if let PieceOrigin::Split { by, .. } | PieceOrigin::Join { by } = piece.origin
            && by > at
        {
            let later = self.garment.alteration(by).span;
            let diagnostic = Diagnostic::new(
                &catalogue::ALTER_GONE,
                span,
                format!("{name} does not exist yet at this line"),
            )
            .label("named here")
            .also(later, "made only here")
            .help("alterations happen in the order written: move this line below");
            self.report(diagnostic);
            return None;
        }
        Some(())
    }

    fn edge_targets(&self, edges: &[tree::Dotted], id: AlterationId) -> Option<Vec<Target>> {
        let found: Vec<Option<Vec<Target>>> = edges.iter().map(|edge| self.edge_target(edge, id)).collect();
        Some(found.into_iter().collect::<Option<Vec<_>>>()?.into_iter().flatten().collect())
    }

    /// An edge; of a pair that is two pieces by then the edges of both.
    fn edge_target(&self, edge: &tree::Dotted, id: AlterationId) -> Option<Vec<Target>> {
        let (part, found) = self.find_dotted_edge(edge)?;
        let each = self.alteration_form(id).is_some_and(|form| form.targets == TargetForm::Edges);
        let sides = if each { self.both_sides(part, id) } else { vec![part] };
        let targets = sides.into_iter().map(|side| {
            self.is_there(side, edge.span, id)?;
            let mut own = self.garment.piece(side.piece).edges.iter().copied();
            let run = own.find(|&own| self.garment.is_run_of(own, found))?;
            Some(Target { layer: side.layer, piece: side.piece, edge: run, span: edge.span })
        });
        targets.collect()
    }

    /// `at` is an edge that both have, or the seam between one edge of each.
    fn joined_targets(
        &self,
        first: &tree::Dotted,
        second: &tree::Dotted,
        at: &tree::Name,
        id: AlterationId,
    ) -> Option<Vec<Target>> {
        let (one, other) = (self.find_part(first), self.find_part(second));
        let (one, other) = (one?, other?);
        let there = (self.is_there(one, first.span, id), self.is_there(other, second.span, id));
        there.0.and(there.1)?;
        if (self.has_no_name(one.piece, at) || self.has_no_name(other.piece, at))
            && let Some((of_one, of_other)) = self.seam_between(one.piece, other.piece, &at.text)
        {
            let target =
                |part: NamedPiece, edge, span| Target { layer: part.layer, piece: part.piece, edge, span };
            return Some(vec![target(one, of_one, first.span), target(other, of_other, second.span)]);
        }
        let (first, second) = (self.named_target(one, first, at), self.named_target(other, second, at));
        Some(vec![first?, second?])
    }

    fn seam_between(
        &self,
        one: PieceId,
        other: PieceId,
        name: &Arc<str>,
    ) -> Option<(crate::garment::EdgeId, crate::garment::EdgeId)> {
        let merged = self.merged;
        let seam = merged.declarations.iter().find_map(|declaration| match &declaration.statement.node {
            StatementNode::Seam(seam) if seam.name.text == *name => Some(seam),
            _ => None,
        })?;
        let ([first], [second]) = (seam.first.plies.as_slice(), seam.second.plies.as_slice()) else {
            return None;
        };
        let ([first], [second]) = (first.edges.as_slice(), second.edges.as_slice()) else { return None };
        if first.run.is_some() || second.run.is_some() {
            return None;
        }
        // What is wrong with them is reported where the seam itself is read.
        let found =
            |sewn: &tree::SewnWords| self.attempt(|reading| reading.find_dotted_edge(&sewn.edge)).forget();
        let (first, second) = (found(first)?, found(second)?);
        match (first.0.piece == one, second.0.piece == other, first.0.piece == other, second.0.piece == one) {
            (true, true, _, _) => Some((first.1, second.1)),
            (_, _, true, true) => Some((second.1, first.1)),
            _ => None,
        }
    }

    /// The edge itself, or what it may be in the pieces that its piece became.
    pub(super) fn runs_in_last_pieces(
        &self,
        piece: PieceId,
        edge: crate::garment::EdgeId,
    ) -> Vec<(PieceId, crate::garment::EdgeId)> {
        if self.garment.piece(piece).ended_by.is_none() {
            return vec![(piece, edge)];
        }
        let mut runs = Vec::new();
        for (at, last) in self.garment.pieces.iter().enumerate() {
            if last.ended_by.is_none() {
                let own = last.edges.iter().filter(|&&own| self.garment.is_run_of(own, edge));
                runs.extend(own.map(|&own| (PieceId::from_index(at), own)));
            }
        }
        runs
    }

    /// A piece that a layer lists twice is cut no more often for that.
    fn report_listed_twice(&mut self, layer: &tree::Layer, again: &tree::Name, first: &tree::Name) {
        let title = format!("{} lists {} twice", layer.name.text, again.text);
        let mistake = Diagnostic::new(&catalogue::NAME_DECLARED_TWICE, again.span, title)
            .label("again here")
            .also(first.span, "first here")
            .help("leave one of the two out; how many are cut of a piece it says itself: cut 2");
        self.report(mistake);
    }

    /// Layers that list a piece which is split or joined have what became of it.
    fn hand_layers_on(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let StatementNode::Layer(tree) = &declaration.statement.node else { continue };
            let Some(&layer) = self.names.layers.get(&tree.name.text) else { continue };
            if !self.garment.layer(layer).pieces.is_empty() {
                continue;
            }
            if let Some(onto) = &tree.onto {
                let found = self.find_layer(onto);
                self.garment.incomplete.layers |= found.is_none();
                self.garment.layers[layer.index()].onto = found;
            }
            let mut listed = Vec::new();
            for (at, name) in tree.pieces.iter().enumerate() {
                if let Some(first) = tree.pieces.iter().take(at).find(|first| first.text == name.text) {
                    self.report_listed_twice(tree, name, first);
                }
                match self.find_piece(name) {
                    Some(piece) => listed.push((piece, name.span)),
                    None => self.garment.incomplete.layers = true,
                }
            }
            let mut at = 0;
            while let Some(&(piece, span)) = listed.get(at) {
                let becomes = self.becomes(piece);
                if becomes.is_empty() {
                    at += 1;
                } else {
                    listed.splice(at..=at, becomes.into_iter().map(|made| (made, span)));
                }
            }
            let mut kept: HashSet<PieceId> = HashSet::with_capacity(listed.len());
            listed.retain(|&(piece, _)| kept.insert(piece));
            let layer = &mut self.garment.layers[layer.index()];
            (layer.pieces, layer.piece_spans) = listed.into_iter().unzip();
        }
        self.list_straps();
        // A damaged line may have listed what no layer lists now.
        let lost: HashSet<&Arc<str>> = merged.lost_words.iter().collect();
        let listed: HashSet<PieceId> =
            self.garment.layers.iter().flat_map(|layer| layer.pieces.iter().copied()).collect();
        self.garment.incomplete.layers |= self
            .garment
            .pieces
            .iter()
            .enumerate()
            .any(|(at, piece)| !listed.contains(&PieceId::from_index(at)) && lost.contains(&piece.name));
    }

    /// The pieces that a split or join makes of this one, even where it could not be made sense of.
    fn becomes(&self, piece: PieceId) -> Vec<PieceId> {
        let Some(ended) = self.garment.piece(piece).ended_by else { return Vec::new() };
        let made = self.garment.pieces.iter().enumerate().filter(|(_, made)| match made.origin {
            PieceOrigin::Drawn => false,
            PieceOrigin::Split { of, .. } => of == piece,
            PieceOrigin::Join { by } => by == ended,
        });
        made.map(|(at, _)| PieceId::from_index(at)).collect()
    }

    /// What alterations say of their targets: how much, which way, what stays.
    pub(super) fn lower_alterations(&mut self) {
        for at in 0..self.alteration_trees.len() {
            let alteration = &self.garment.alterations[at];
            if alteration.kind.is_none() {
                continue;
            }
            if let Some(closure) = alteration.closure {
                let kept = alteration.kind == Some(AlterationKind::KeepBack);
                let amount =
                    if kept { self.clear_of_cloth(closure) } else { self.half_of_what_shows(closure) };
                self.garment.alterations[at].amount = Some(Amount::By(amount));
            }
            if let Some(statement) = self.alteration_trees[at].clone()
                && let StatementNode::Alteration(tree) = &statement.node
            {
                self.lower_clauses(tree, AlterationId::from_index(at));
            }
        }
    }

    fn lower_clauses(&mut self, tree: &Tree, id: AlterationId) {
        let Alteration { targets, .. } = self.garment.alteration(id);
        let targets = targets.clone();
        let amount = tree.amount.as_ref().map(|amount| self.lower_amount(amount, When::Altering(id)));
        let path = tree.path.as_ref().zip(targets.first());
        let path = path.map(|(path, target)| self.lower_path(path, target.piece, When::Altering(id)));
        let mut keeping = Vec::new();
        for kept in &tree.keeping {
            if let Some(point) = self.kept_point(kept, &targets) {
                keeping.push((point, kept.span));
            }
        }
        if let Some(change) = &tree.dart {
            let change = targets.first().and_then(|target| self.lower_dart_change(change, target, id));
            match change {
                Some(change) => self.garment.alterations[id.index()].dart = Some(change),
                None => return self.poison_alteration(id.index()),
            }
        }
        let tapered = tree.tapered.as_deref().map(|ends| self.lower_tapered(ends, &targets, id));
        if tapered.as_ref().is_some_and(Option::is_none) {
            return self.poison_alteration(id.index());
        }
        if tree.stepped {
            let step = |target: &Target| {
                let name: Arc<str> = format!("{}_step", self.garment.edge(target.edge).name).into();
                let edge = self.edge_named(target.piece, &name)?;
                (!self.garment.edge(edge).line && !self.garment.edge(edge).take_up).then_some(edge)
            };
            match targets.iter().map(step).collect::<Option<Vec<EdgeId>>>() {
                Some(steps) => self.garment.alterations[id.index()].steps = steps,
                None => return self.poison_alteration(id.index()),
            }
        }
        let alteration = &mut self.garment.alterations[id.index()];
        alteration.tapered = tapered.flatten();
        (alteration.amount, alteration.path, alteration.keeping) = (amount, path, keeping);
    }

    /// How much at each end of an edge: a corner of it, or an edge that it meets there.
    fn lower_tapered(
        &self,
        ends: &[(tree::Expr, tree::Name); 2],
        targets: &[Target],
        id: AlterationId,
    ) -> Option<Tapered> {
        let by = ends.each_ref().map(|(by, _)| self.lower(by, When::Altering(id), None, Wanted::Length));
        let end = |target: &Target, name: &tree::Name| {
            let points = self.piece_points.get(target.piece.index());
            if !points.is_some_and(|points| points.contains_key(&name.text))
                && let Some(edge) = self.edge_named(target.piece, &name.text)
                && !self.garment.edge(edge).line
                && !self.garment.edge(edge).take_up
            {
                self.used(Symbol::Edge(edge), name.span);
                return Some((EndOfEdge::Beside(edge), name.span));
            }
            Some((EndOfEdge::Corner(self.find_point(target.piece, name)?), name.span))
        };
        let [(_, one), (_, other)] = ends;
        let at = targets.iter().map(|target| {
            let (one, other) = (end(target, one), end(target, other));
            Some([one?, other?])
        });
        let at: Vec<Option<[(EndOfEdge, Span); 2]>> = at.collect();
        let at: Option<Vec<[(EndOfEdge, Span); 2]>> = at.into_iter().collect();
        Some(Tapered { by, at: at? })
    }

    fn lower_amount(&self, amount: &tree::Amount, when: When) -> Amount {
        match amount {
            tree::Amount::By(by) => Amount::By(self.lower(by, when, None, Wanted::Length)),
            tree::Amount::Until { about, closure, span } => {
                let about = about.as_ref().map(|about| self.lower(about, when, None, Wanted::Length));
                match self.find_closure(closure) {
                    Some(closure) => Amount::Until(Until { about, closure, span: *span }),
                    None => Amount::By(poison(*span)),
                }
            }
        }
    }

    /// A mark that stays; it must be on a piece that is altered.
    fn kept_point(&self, kept: &tree::Dotted, targets: &[Target]) -> Option<PointId> {
        let (part, point) = self.find_dotted_point(kept)?;
        if targets.iter().any(|target| target.piece == part.piece) {
            return Some(point);
        }
        let name = self.garment.piece(part.piece).name.clone();
        let title = format!("{name} is not altered here, so nothing of it needs to be kept");
        self.report(
            Diagnostic::new(&catalogue::ALTER_NOT_ALTERED, kept.span, title).label("not altered here").help(
                format!(
                    "leave `{}` out, or alter {name} too",
                    kept.parts.iter().map(|name| &*name.text).collect::<Vec<_>>().join(".")
                ),
            ),
        );
        None
    }
}

/// What makes a pair two pieces.
const UNPAIR: &str = "unpair";
