//! Seams, finishes, placements, closures and cords.

use super::expression::Wanted;
use super::papers::When;
use super::{Lowering, NamedPiece};
use crate::few::Few;
use crate::garment::{Alteration, Chain, Cord, EdgeId, LineFate, Over, SewnEdge, User};
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use crate::syntax::tree::{self, StatementNode};

impl Lowering<'_> {
    pub(super) fn lower_sewing(&mut self) {
        let merged = self.merged;
        for declaration in &merged.declarations {
            let span = declaration.statement.span;
            match &declaration.statement.node {
                StatementNode::Seam(seam) => self.lower_seam(seam, span),
                StatementNode::Finish(finish) => self.lower_finish(finish, span),
                StatementNode::Place(place) => self.lower_place(place, span),
                StatementNode::Closure(closure) => self.lower_closure(closure),
                StatementNode::Opening(opening) => self.lower_opening(opening, span),
                StatementNode::StitchedRow(row) => self.lower_stitched_row(row, span),
                StatementNode::Tack(tack) => self.lower_tack(tack, span),
                StatementNode::Setting(setting) => self.lower_setting(setting, span),
                StatementNode::Cord(cord) => {
                    let length = self.lower(&cord.length, When::Fact, None, Wanted::Length);
                    let ends =
                        cord.ends.as_ref().map(|ends| self.lower(ends, When::Fact, None, Wanted::Length));
                    let through =
                        cord.through.iter().filter_map(|edge| self.named_edge(edge, false, None)).collect();
                    self.garment.cords.push(Cord {
                        name: cord.name.text.clone(),
                        length,
                        through,
                        ends,
                        span,
                    });
                }
                _ => {}
            }
        }
        self.add_split_seams();
        if let Some(stitch) = &self.garment.stitch {
            let stitch = stitch.clone();
            self.garment.seams.iter_mut().for_each(|seam| {
                seam.stitch.get_or_insert_with(|| stitch.clone());
            });
        }
        self.check_untils();
        self.check_followers();
    }

    /// An edge, or, where `lines` may be named too, a line: buttons stand on a centre line.
    pub(super) fn named_edge(
        &self,
        dotted: &tree::Dotted,
        lines: bool,
        user: Option<User>,
    ) -> Option<SewnEdge> {
        let (part, edge) = self.find_dotted_edge(dotted)?;
        if self.garment.edge(edge).line && !lines && !self.is_cut_along(edge) {
            let name = self.garment.edge(edge).name.clone();
            let diagnostic = Diagnostic::new(
                &catalogue::NAME_UNKNOWN,
                dotted.span,
                format!("{name} is a line inside the piece, not an edge"),
            )
            .label("a line")
            .also(self.garment.edge(edge).span, "drawn here")
            .help("only edges are sewn: name an edge, or split the piece at this line");
            self.report(diagnostic);
            return None;
        }
        if self.is_in_layer(part, dotted.span) {
            let (NamedPiece { layer, piece }, on) = (part, dotted.on);
            return Some(SewnEdge { layer, piece, edge, on, user, span: dotted.span });
        }
        None
    }

    /// After a `cut off` the cut is an edge with the line's name.
    pub(super) fn is_cut_along(&self, line: EdgeId) -> bool {
        let cuts_off = |alteration: &&Alteration| {
            let becomes_edge = alteration.form().is_some_and(|form| form.line == LineFate::BecomesEdge);
            becomes_edge && alteration.makes.is_empty()
        };
        let cut = self.garment.alterations.iter().filter(cuts_off).flat_map(|alteration| &alteration.targets);
        cut.into_iter().any(|target| self.garment.is_run_of(line, target.edge))
    }

    /// Whether the layer that is named really has that piece, or what became of it.
    pub(super) fn is_in_layer(&self, part: NamedPiece, span: Span) -> bool {
        let Some(layer) = part.layer else { return true };
        let mut open = vec![part.piece];
        let mut made = 0;
        while let Some(piece) = open.get(made).copied() {
            made += 1;
            if self.garment.layer(layer).pieces.contains(&piece) {
                return true;
            }
            let children = self
                .garment
                .piece(piece)
                .papers
                .first()
                .map(|&paper| self.garment.paper(paper).becomes.clone());
            open.extend(
                children.unwrap_or_default().into_iter().map(|paper| self.garment.paper(paper).piece),
            );
        }
        if self.garment.incomplete.layers {
            return false;
        }
        let (layer_name, piece_name) =
            (self.garment.layer(layer).name.clone(), self.garment.piece(part.piece).name.clone());
        let diagnostic =
            Diagnostic::new(&catalogue::PART_MISSING, span, self.garment.layer_lacks(layer, part.piece))
                .label("no such part")
                .also(self.garment.layer(layer).span, "the layer is declared here")
                .about(self.garment.piece(part.piece).span)
                .help(format!("add {piece_name} to the layer {layer_name}, or name another layer"));
        self.report(diagnostic);
        false
    }

    pub(super) fn lower_chain(
        &mut self,
        chain: &tree::Chain,
        lines: bool,
        user: Option<User>,
    ) -> Option<Chain> {
        let edges: Vec<Option<SewnEdge>> =
            chain.edges.iter().map(|sewn| self.named_portion(sewn, lines, user)).collect();
        let edges: Option<Few<SewnEdge>> = edges.into_iter().collect();
        Some(Chain {
            edges: edges?,
            over: None,
            caught: false,
            only: None,
            ring: chain.ring,
            span: chain.span,
        })
    }

    pub(super) fn lower_side(&mut self, side: &tree::Side, user: User) -> Option<Few<Chain>> {
        let mut plies: Vec<Chain> = Vec::with_capacity(side.plies.len());
        for chain in &side.plies {
            let ply = plies.len();
            let lowered = self.lower_chain(chain, false, Some(user))?;
            plies.push(lowered);
            for (edge, first) in chain.edges.iter().enumerate() {
                for words in &first.over {
                    let sewn = self.named_portion(words, false, Some(user))?;
                    let over = Some(Over { ply, edge });
                    plies.push(Chain {
                        edges: Few::one(sewn),
                        over,
                        caught: false,
                        only: None,
                        ring: false,
                        span: words.span,
                    });
                }
            }
        }
        Some(plies.into())
    }

    /// Keeps which of the edges are said to lie in a ring.
    pub(super) fn said_round(&mut self, edges: &[tree::SewnWords], what: &str) {
        for words in edges.iter().filter(|words| words.ring) {
            if let Some(sewn) = self.attempt(|reading| reading.named_edge(&words.edge, true, None)).forget() {
                let portion = words.run.as_ref().map(|run| run.span);
                let span = portion.map_or(words.span, |run| run.to(words.span));
                let chain =
                    Chain { edges: Few::one(sewn), over: None, caught: false, only: None, ring: true, span };
                self.garment.rounds.push((chain, what.into()));
            }
        }
    }
}
