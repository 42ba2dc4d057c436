//! What a zip takes off the cloth beside it: half of what shows off each edge that it is sewn to, and what lies
//! behind it is kept back from its teeth. Both are alterations after all others.

use super::Lowering;
use super::declare::{constant, poison};
use super::expression::Wanted;
use super::papers::When;
use crate::garment::{Alteration, AlterationKind, ClosureId, Dimension, Expression, Node, Target};
use crate::report::{Diagnostic, catalogue};
use crate::syntax::tree::{Closure, ClosureItemNode, Expr, Seam, SewnWords, StatementNode, Zipper};

impl Lowering<'_> {
    pub(super) fn add_zips(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let StatementNode::Closure(closure) = &declaration.statement.node else { continue };
            let Some(&id) = self.names.closures.get(&closure.name.text) else { continue };
            let Some(zipper) = zipper_of(closure) else { continue };
            if let Some(showing) = &zipper.showing {
                self.add_shown(id, closure, showing);
            }
            if let Some(clear) = &zipper.clear {
                self.add_kept_back(id, closure, clear);
            }
        }
    }

    /// `showing` takes half off each edge that the zip is sewn to.
    fn add_shown(&mut self, id: ClosureId, closure: &Closure, showing: &Expr) {
        let edges: Vec<&SewnWords> = edges_of(closure).collect();
        if self.is_in_part(
            closure,
            &edges,
            showing,
            "to show",
            "leave showing out: a concealed zip shows nothing",
        ) {
            return;
        }
        let mut targets = self.zip_targets(&edges);
        self.add_rim(id, &mut targets, showing);
        self.add_of_zip(id, AlterationKind::ShowZip, showing, targets);
    }

    /// What a zip from end to end runs on along is its own edge as well.
    fn add_rim(&self, id: ClosureId, targets: &mut Vec<Target>, said: &Expr) {
        for found in self.found_rim(id) {
            for (piece, edge) in self.runs_in_last_pieces(found.piece, found.edge) {
                add(targets, Target { layer: found.layer, piece, edge, span: said.span });
            }
        }
    }

    /// `clear of cloth` keeps back what the seams that enclose the zip sew behind it.
    fn add_kept_back(&mut self, id: ClosureId, closure: &Closure, clear: &Expr) {
        let mut own = self.zip_targets(&edges_of(closure).collect::<Vec<_>>());
        self.add_rim(id, &mut own, clear);
        let is_own = |target: &Target| {
            own.iter().any(|own| {
                own.edge == target.edge
                    && (own.layer == target.layer || own.layer.is_none() || target.layer.is_none())
            })
        };
        let merged = self.merged;
        let seams = merged.declarations.iter().filter_map(|declaration| match &declaration.statement.node {
            StatementNode::Seam(seam) => Some(seam),
            _ => None,
        });
        let seams: Vec<&Seam> =
            seams.filter(|seam| seam.enclosing.iter().any(|name| name.text == closure.name.text)).collect();
        let sides = seams.iter().flat_map(|seam| seam.first.plies.iter().chain(&seam.second.plies));
        let sides: Vec<&SewnWords> = sides.flat_map(|chain| &chain.edges).collect();
        let edges: Vec<&SewnWords> = edges_of(closure).chain(sides.iter().copied()).collect();
        let help = "leave clear of cloth out and draw what lies behind it narrower";
        if self.is_in_part(closure, &edges, clear, "to be kept clear of cloth", help) {
            return;
        }
        let mut targets = self.zip_targets(&sides);
        targets.retain(|target| !is_own(target));
        if targets.is_empty() {
            // What is wrong with a seam's own words is reported there.
            let is_read = |words: &&SewnWords| {
                self.attempt(|reading| reading.find_dotted_edge(&words.edge)).forget().is_some()
            };
            if sides.iter().all(is_read) {
                self.report_nothing_behind(closure, clear, seams.first().copied());
            }
            return;
        }
        self.add_of_zip(id, AlterationKind::KeepBack, clear, targets);
    }

    fn report_nothing_behind(&self, closure: &Closure, clear: &Expr, seam: Option<&Seam>) {
        let name = &closure.name.text;
        let title = format!("nothing lies behind {name} that could be kept clear of its teeth");
        let mistake = Diagnostic::new(&catalogue::ZIPPER_CLEAR, clear.span, title);
        self.report(match seam {
            None => mistake.label("from which cloth?").help(format!(
                "enclose it in the seam that sews the lining behind it, seam front_edge outer.front.centre to \
                 lining.front.centre enclosing {name}; or leave clear of cloth out"
            )),
            Some(seam) => mistake
                .label("from which cloth?")
                .also(seam.name.span, "this seam sews only what the zip is sewn to")
                .help("say in the closure which layer's edges the zip is sewn to, outer.front.centre to outer.front.centre"),
        });
    }

    /// Whether only a part of the edges is meant, of which nothing can be taken off by itself; reported if so.
    fn is_in_part(&self, closure: &Closure, edges: &[&SewnWords], said: &Expr, is: &str, or: &str) -> bool {
        let name = &closure.name.text;
        if let Some(run) = edges.iter().find_map(|sewn| sewn.run.as_ref()) {
            let title = format!("{name} is in a run of its edge, and is {is}");
            let help = format!("divide the edge in its piece and close that; or {or}");
            let mistake = Diagnostic::new(&catalogue::RUN_SHOWING, said.span, title);
            self.report(mistake.also(run.span, "only this run").help(help));
            return true;
        }
        let one_sided = edges.iter().find_map(|sewn| {
            let (part, _) = self.attempt(|reading| reading.find_dotted_edge(&sewn.edge)).forget()?;
            Some((sewn.edge.on?, part.piece, sewn.edge.span))
        });
        if let Some((hand, piece, span)) = one_sided {
            let (piece, side) = (&self.garment.piece(piece).name, hand.word());
            let title = format!("{name} is on the {side} alone, and is {is}");
            let help = format!(
                "the other side of {piece} is cut by the same paper, and would lose as much: make two pieces of it, unpair \
                 {piece} into left_{piece}, right_{piece}; or {or}"
            );
            let mistake = Diagnostic::new(&catalogue::RUN_SHOWING, said.span, title);
            self.report(mistake.also(span, "only on this side").help(help));
            return true;
        }
        false
    }

    /// The edges in the pieces that are cut in the end. What is wrong with one is reported where its words are read.
    fn zip_targets(&self, edges: &[&SewnWords]) -> Vec<Target> {
        let mut targets = Vec::new();
        for sewn in edges {
            let found = self.attempt(|reading| reading.find_dotted_edge(&sewn.edge)).forget();
            let Some((part, found)) = found else { continue };
            for (piece, edge) in self.runs_in_last_pieces(part.piece, found) {
                add(&mut targets, Target { layer: part.layer, piece, edge, span: sewn.edge.span });
            }
        }
        targets
    }

    fn add_of_zip(&mut self, id: ClosureId, kind: AlterationKind, said: &Expr, targets: Vec<Target>) {
        let mut alteration = Alteration::new(said.span, Some(kind), targets);
        alteration.closure = Some(id);
        self.garment.alterations.push(alteration);
        self.alteration_trees.push(None);
    }

    pub(super) fn half_of_what_shows(&self, closure: ClosureId) -> Expression {
        let whole = self.of_zipper(closure, |zipper| zipper.showing.as_ref());
        let span = whole.span;
        let half = constant(2.0, span);
        Expression {
            node: Node::Product(vec![(true, whole), (false, half)]),
            dimension: Dimension::Length,
            span,
        }
    }

    pub(super) fn clear_of_cloth(&self, closure: ClosureId) -> Expression {
        self.of_zipper(closure, |zipper| zipper.clear.as_ref())
    }

    /// A length that the zip of a closure says. A mistake in it is reported where the closure itself is read.
    fn of_zipper(&self, closure: ClosureId, of: impl Fn(&Zipper) -> Option<&Expr>) -> Expression {
        let name = self.garment.closure(closure).name.clone();
        let merged = self.merged;
        let said = merged.declarations.iter().find_map(|declaration| match &declaration.statement.node {
            StatementNode::Closure(tree) if tree.name.text == name => of(zipper_of(tree)?),
            _ => None,
        });
        let Some(said) = said else { return poison(self.garment.closure(closure).span) };
        self.attempt(|reading| reading.lower(said, When::Fact, None, Wanted::Length)).forget()
    }
}

fn zipper_of(closure: &Closure) -> Option<&Zipper> {
    closure.items.iter().find_map(|item| match &item.node {
        ClosureItemNode::Zipper(zipper) => Some(zipper),
        _ => None,
    })
}

fn edges_of(closure: &Closure) -> impl Iterator<Item = &SewnWords> {
    closure.first.edges.iter().chain(&closure.second.edges)
}

/// An edge is named on both sides of a zip, and taken once.
fn add(targets: &mut Vec<Target>, target: Target) {
    if !targets.iter().any(|other| (other.layer, other.edge) == (target.layer, target.edge)) {
        targets.push(target);
    }
}
