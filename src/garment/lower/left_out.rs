//! `without pocket_corner`: marks, lines and take-ups that a piece does not take over from the one that it is made of.

use super::{Lowering, as_piece};
use crate::garment::merge::Alike;
use crate::garment::{NameUse, PieceId, Symbol};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{LeftOut, Name, Outline, PieceItem, PieceItemNode};
use std::collections::HashSet;
use std::sync::Arc;

impl Lowering<'_> {
    /// What a piece took over from those that it is like.
    pub(super) fn taken_over_by(&self, piece: &Arc<str>) -> impl Iterator<Item = &Alike> {
        self.merged.alike.iter().filter(move |alike| alike.piece == *piece)
    }

    /// The blocks that pieces are drawn like. Of a block that several are like none stands for the others: front and
    /// back of one draft do not lie on one another.
    pub(super) fn note_blocks(&mut self) {
        for alike in &self.merged.alike {
            let is_alone =
                self.merged.alike.iter().filter(|other| other.of.text == alike.of.text).count() == 1;
            let known = |name: &Arc<str>| self.names.pieces.get(name).copied();
            if let (true, Some(piece), Some(of)) = (is_alone, known(&alike.piece), known(&alike.of.text))
                && self.garment.piece(of).block
            {
                self.garment.pieces[piece.index()].like = Some(of);
            }
        }
    }

    /// What is named of other pieces where a piece is like them, or leaves out what is theirs.
    pub(super) fn note_names_left_out(&self) {
        let note = |span: Span, symbol: Symbol| {
            self.notes.borrow_mut().name_uses.push(NameUse { span, symbol });
        };
        let all = |piece: PieceId, name: &Name| {
            let edge = self.piece_edges[piece.index()].get(&name.text).map(|&id| Symbol::Edge(id));
            edge.or_else(|| self.piece_points[piece.index()].get(&name.text).map(|&id| Symbol::Point(id)))
        };
        for alike in &self.merged.alike {
            let Some(&piece) = self.names.pieces.get(&alike.of.text) else { continue };
            note(alike.of.span, Symbol::Piece(piece));
            for name in &alike.left_out {
                all(piece, name).into_iter().for_each(|symbol| note(name.span, symbol));
            }
        }
        for at in 0..self.garment.pieces.len() {
            let piece = PieceId::from_index(at);
            let Some(statement) = self.piece_tree(piece) else { continue };
            let Some(parent) = self.parents(piece).first().copied() else { continue };
            let Some(tree) = as_piece(&statement) else { continue };
            for name in self::all(&tree.items).map(LeftOut::name) {
                all(parent, name).into_iter().for_each(|symbol| note(name.span, symbol));
            }
        }
    }

    /// The names that are left out; one that the other piece has no mark, line or take-up of is reported. A strip has no
    /// take-ups: it is taken with them shut.
    pub(super) fn left_out(&self, items: &[PieceItem], parent: PieceId) -> HashSet<Arc<str>> {
        let mut left_out = HashSet::new();
        let is_strip =
            items.iter().any(|item| matches!(item.node, PieceItemNode::Outline(Outline::Strip { .. })));
        for one in all(items) {
            let piece = self.garment.piece(parent);
            let LeftOut::Named(name) = one else {
                let title = format!("a copy of {} keeps its notches and corners", piece.title);
                let help = format!(
                    "a copy leaves out marks, lines, darts, pleats and slits; a piece that is like {0} leaves out its notches as well: piece … like {0} {{ … }}",
                    piece.name
                );
                let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, one.name().span, title);
                self.report(mistake.label("left out here").help(help));
                continue;
            };
            let lines = piece.edges.iter().map(|&id| self.garment.edge(id));
            let lines = lines.filter(|edge| edge.line || edge.take_up && !is_strip);
            let marks = piece.points.iter().map(|&id| self.garment.point(id)).filter(|point| point.mark);
            let known: Vec<Arc<str>> =
                lines.map(|line| line.name.clone()).chain(marks.map(|mark| mark.name.clone())).collect();
            if known.contains(&name.text) {
                left_out.insert(name.text.clone());
                continue;
            }
            let own = self.piece_edges[parent.index()].get(&name.text).map(|&id| self.garment.edge(id));
            let is_shut = own.is_some_and(|edge| edge.take_up);
            let title = match own {
                Some(_) if is_shut => format!("a strip of {} has none of its darts and slits", piece.title),
                Some(_) => format!("{} is an edge of {}, which a copy keeps", name.text, piece.title),
                None => {
                    format!("{} has no mark, line, dart, pleat or slit called {}", piece.title, name.text)
                }
            };
            let mistake =
                Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("left out of what?");
            if own.is_some() {
                self.report(mistake.help("remove this name"));
                continue;
            }
            self.report(match nearest(&name.text, known.iter().map(|one| &**one)) {
                Some(near) => mistake.did_you_mean(name.span, near),
                None if known.is_empty() => mistake.help("remove this name"),
                None => mistake.help(format!("it has {}", known.join(", "))),
            });
        }
        left_out
    }

    /// A piece that is made of no other has nothing to leave out.
    pub(super) fn report_nothing_to_leave_out(&self, items: &[PieceItem]) {
        for name in all(items).map(LeftOut::name) {
            self.report(
                Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, "this piece is made of no other one")
                    .label("left out of what?")
                    .help("only a copy, a strip, a rest, or a piece that is like another has something to leave out; remove it where it is drawn"),
            );
        }
    }
}

fn all(items: &[PieceItem]) -> impl Iterator<Item = &LeftOut> {
    items.iter().flat_map(|item| match &item.node {
        PieceItemNode::Without(all) => all.as_slice(),
        _ => &[],
    })
}
