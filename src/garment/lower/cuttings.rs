//! Outlines that are drawn as they are cut: which allowance each edge has.
//!
//! The same rule by which cloth is added to a stitching line says what was added to a cutting line: the
//! finish's allowance, else the seam's, else the piece's, else the header's.

use super::Lowering;
use super::declare::{constant, poison};
use crate::garment::{
    CASING_TURN, Catcher, Chain, ClosureId, ClosureKind, CutHow, Dimension, DrawnWidth, EdgeId, Expression,
    FinishKind, Function, Hem, HemEdge, LayerId, Node, Outline, PieceId, SewnEdge,
};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use std::collections::BTreeSet;

/// What uses an edge.
#[derive(Default)]
struct Uses<'g> {
    finishes: Vec<&'g FinishKind>,
    /// What is said by seams, and by those that enclose its closure or catch it.
    sewn: Option<&'g Expression>,
    in_seam: bool,
    /// What its piece has beyond the centre line of its buttons.
    stand: Option<&'g Expression>,
    used: bool,
}

impl Lowering<'_> {
    /// Finds the allowances of all edges that are drawn with them on.
    pub(super) fn find_widths(&mut self) {
        for at in 0..self.garment.pieces.len() {
            let piece = PieceId::from_index(at);
            let known = self.garment.piece(piece);
            let Outline::Walk { edges, cutting: Some(_), span } = &known.drawing.outline else { continue };
            let span = *span;
            if let Some(darted) = edges.iter().find(|edge| !edge.beyond_darts.is_empty()) {
                let name = &self.garment.edge(darted.edge).name;
                let title = format!(
                    "a dart is drawn in {name}, whose allowance is drawn on: its cap cannot be undone"
                );
                let diagnostic = Diagnostic::new(&catalogue::CUTTING_CORNER, darted.span, title)
                    .label("up to a dart")
                    .also(span, "drawn as it is cut")
                    .help(format!(
                        "draw {name} in one and take the dart out of it: dart … on {name} at …; or draw the outline as it is sewn"
                    ));
                self.report(diagnostic);
                self.garment.pieces[at].drawing.outline = Outline::None;
                continue;
            }
            let edges: Vec<EdgeId> = edges.iter().map(|edge| edge.edge).collect();
            let widths: Vec<DrawnWidth> =
                edges.iter().map(|&edge| DrawnWidth { said: self.widths_of(piece, edge) }).collect();
            let unknown = edges.iter().zip(&widths).find(|(_, width)| width.said.is_empty());
            if let Some((&edge, _)) = unknown {
                self.report_no_width(piece, edge, span);
                self.garment.pieces[at].drawing.outline = Outline::None;
                continue;
            }
            if let Outline::Walk { cutting, .. } = &mut self.garment.pieces[at].drawing.outline {
                *cutting = Some(widths);
            }
        }
    }

    fn report_no_width(&self, piece: PieceId, edge: EdgeId, span: Span) {
        if self.garment.incomplete.sewing {
            return;
        }
        let (name, title) = (&self.garment.edge(edge).name, &self.garment.piece(piece).title);
        let title = format!("{title} is drawn with its allowances on, and nothing says that of {name}");
        let diagnostic = Diagnostic::new(&catalogue::CUTTING_ALLOWANCE, self.garment.edge(edge).span, title)
            .label("how far from here is it sewn?")
            .also(span, "drawn as it is cut")
            .help("give one for the whole garment, near the top: allowance 1; or in the piece, or in the seam's braces");
        self.report(diagnostic);
    }

    /// All that is said of the allowance of an edge, by what uses it or a run of it; none where nothing is.
    fn widths_of(&self, piece: PieceId, edge: EdgeId) -> Vec<Expression> {
        let known = self.garment.piece(piece);
        if known.cut.how == CutHow::OnFold(edge) {
            return vec![length(0.0, known.cut.span)];
        }
        let mut runs = BTreeSet::from([edge]);
        for divide in &known.drawing.divides {
            if runs.remove(&divide.edge) {
                runs.extend([divide.into.0, divide.into.1]);
            }
        }
        let own = known.allowance.as_ref().or(self.garment.allowance.as_ref());
        let later = (0..self.garment.edges.len()).map(EdgeId::from_index);
        let is_run = |run: &EdgeId| runs.iter().any(|&of| self.garment.is_run_of(*run, of));
        let mut said: Vec<Expression> = Vec::new();
        let mut used = false;
        let sewn_in: Vec<LayerId> = LayerId::enumerate(&self.garment.layers)
            .filter(|(_, layer)| !layer.fused)
            .map(|(id, _)| id)
            .collect();
        for run in later.filter(is_run) {
            let own_layers = sewn_in.iter().filter(|&&id| {
                let pieces = &self.garment.layer(id).pieces;
                pieces.contains(&piece) || pieces.contains(&self.garment.edge(run).piece)
            });
            for &layer in own_layers {
                let uses = self.uses_of(run, layer);
                if uses.used {
                    used = true;
                    said.extend(width(&uses, own));
                }
            }
        }
        if !used {
            said.extend(own.cloned());
        }
        said
    }

    /// What uses an edge in a layer.
    fn uses_of(&self, edge: EdgeId, layer: LayerId) -> Uses<'_> {
        let garment = &self.garment;
        let is = |sewn: &SewnEdge| sewn.edge == edge && sewn.layer.is_none_or(|own| own == layer);
        let in_chain = |chain: &Chain| chain.edges.iter().any(is);
        let mut uses = Uses::default();
        for seam in &garment.seams {
            if seam.first.iter().chain(&seam.second).any(in_chain) {
                (uses.used, uses.in_seam) = (true, true);
                uses.sewn = uses.sewn.or(seam.allowance.as_ref().map(|(said, _)| said));
            }
        }
        for finish in garment.finishes.iter().filter(|finish| finish.edges.iter().any(is)) {
            uses.used = true;
            uses.finishes.push(&finish.kind);
        }
        let enclosing = |closure: ClosureId| {
            let mut seams = garment.seams.iter().filter(|seam| seam.allowance.is_some());
            let seam = seams.find(|seam| seam.enclosing.iter().any(|(id, _)| *id == closure));
            seam.and_then(|seam| seam.allowance.as_ref()).map(|(said, _)| said)
        };
        for (id, closure) in ClosureId::enumerate(&garment.closures) {
            if [&closure.first, &closure.second].into_iter().any(in_chain) {
                if closure.kind.as_ref().is_some_and(|kind| !kind.takes_edges()) {
                    continue;
                }
                uses.used = true;
                uses.sewn = uses.sewn.or(enclosing(id));
                if let Some(ClosureKind::Fasteners(row)) = &closure.kind {
                    uses.stand = uses.stand.or(row.stand.as_ref());
                }
            }
        }
        let here = garment.placements.iter().filter(|one| one.layer.is_none_or(|own| own == layer));
        for placement in here {
            uses.used |= placement.topstitched.iter().any(|(own, _)| *own == edge);
            uses.used |= placement.all_round.is_some() && placement.piece == garment.edge(edge).piece;
            for caught in placement.caught.iter().filter(|caught| caught.edge == edge) {
                uses.used = true;
                let said = match caught.by {
                    Catcher::Seam(seam) => garment.seam(seam).allowance.as_ref().map(|(said, _)| said),
                    Catcher::Closure(closure) => enclosing(closure),
                };
                uses.sewn = uses.sewn.or(said);
            }
        }
        uses
    }
}

/// The allowance of an edge that is used so; none where nothing says it.
fn width(uses: &Uses, own: Option<&Expression>) -> Option<Expression> {
    let said = uses.sewn.or(own);
    for kind in &uses.finishes {
        return Some(match kind {
            FinishKind::Hem(hem) => of_hem(hem),
            FinishKind::Casing(depth, _) if uses.in_seam => sum([depth.clone(), said?.clone()]),
            FinishKind::Casing(depth, _) => {
                let turn = vec![depth.clone(), length(CASING_TURN, depth.span)];
                let turn = Expression { node: Node::Call(Function::Min, turn), ..depth.clone() };
                sum([depth.clone(), turn])
            }
            FinishKind::Elastic(width, _) => width.clone(),
            FinishKind::Bound(binding) => length(0.0, binding.width.span),
            FinishKind::Poison => poison(Span::default()),
            FinishKind::Tape(_)
            | FinishKind::TurnedUnderOnto(_)
            | FinishKind::Overlocked
            | FinishKind::Raw => continue,
        });
    }
    match uses.stand.filter(|_| !uses.in_seam) {
        Some(stand) => Some(sum([said?.clone(), stand.clone()])),
        None => said.cloned(),
    }
}

/// What a hem takes: a turn-up twice its depth, then the hem itself and what is turned under of it.
fn of_hem(hem: &Hem) -> Expression {
    let deep = match &hem.raw_edge {
        HemEdge::TurnedOnce => hem.depth.clone(),
        HemEdge::TurnedUnder(under) => sum([hem.depth.clone(), under.clone()]),
        HemEdge::TurnedTwice => sum([hem.depth.clone(), hem.depth.clone()]),
    };
    match &hem.turn_up {
        Some(turn_up) => sum([deep, sum([turn_up.clone(), turn_up.clone()])]),
        None => deep,
    }
}

fn length(millimetres: f64, span: Span) -> Expression {
    Expression { dimension: Dimension::Length, ..constant(millimetres, span) }
}

fn sum(terms: [Expression; 2]) -> Expression {
    let [first, _] = &terms;
    let span = first.span;
    let terms = terms.into_iter().map(|term| (true, term)).collect();
    Expression { node: Node::Sum(terms), dimension: Dimension::Length, span }
}
