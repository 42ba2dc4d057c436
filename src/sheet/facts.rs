//! What a sheet is made of, gathered once for its words, its pictures and its page.

use super::letters::Letters;
use super::rows::{Row, rows};
use crate::cutting::{Cutting, WorkedSize};
use crate::emit::Document;
use crate::emit::drawing::{Look, pieces};
use crate::garment::{Garment, Part, PieceId};
use crate::sewing::order::{Plan, plan};
use crate::syntax::tree::Hand;

/// All that a sheet tells of. Figures come from `document`, which is what `resolve` writes of the same sizes.
pub struct Facts<'a> {
    /// The garment.
    pub garment: &'a Garment,
    /// The sizes that the sheet is of, smallest first; never empty.
    pub sizes: Vec<&'a WorkedSize>,
    /// The one in whose size pictures are drawn: the middle one, of two the smaller.
    pub shown: &'a WorkedSize,
    /// What `resolve` writes of these sizes.
    pub document: &'a Document,
    /// The pieces of paper, in the order of their numbers.
    pub pieces: Vec<NumberedPiece>,
    /// The order of work of the first size, which is that of all.
    pub plan: Plan,
    /// The steps, in the order of work: what one picture and one sentence tell.
    pub rows: Vec<Row>,
    /// The letters of what is sewn.
    pub letters: Letters,
}

/// A piece of paper, as it is printed too: what several layers cut alike is one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumberedPiece {
    /// From 1.
    pub number: usize,
    /// What is drawn.
    pub piece: PieceId,
    /// What people read.
    pub title: String,
    /// The side of the body that it is for alone.
    pub hand: Option<Hand>,
    /// What is cut by it, layer by layer.
    pub parts: Vec<Part>,
}

impl<'a> Facts<'a> {
    /// Of a garment without mistakes. None without sizes.
    pub fn of(garment: &'a Garment, sizes: Vec<&'a WorkedSize>, document: &'a Document) -> Option<Self> {
        let first = *sizes.first()?;
        let shown = *sizes.get((sizes.len() - 1) / 2)?;
        let cuts: Vec<Cutting> = sizes.iter().map(|size| size.cut(garment).clone()).collect();
        let numbered = pieces(garment, &cuts, &Look::printing());
        let numbered = numbered.iter().filter_map(|group| {
            let piece = group.parts.first()?.piece;
            Some(NumberedPiece {
                number: group.number?.0,
                piece,
                title: title(garment, piece),
                hand: group.members.first()?.hand,
                parts: group.parts.clone(),
            })
        });
        let plan = plan(garment, &first.drawn, &first.sewn);
        let rows = rows(&plan);
        let letters = Letters::of(garment, &plan, &rows);
        Some(Facts { garment, shown, document, pieces: numbered.collect(), rows, letters, plan, sizes })
    }

    /// The same with the order of work of that size, which is the garment's first, whichever are shown.
    pub fn in_order_of(mut self, first: &WorkedSize) -> Self {
        self.plan = plan(self.garment, &first.drawn, &first.sewn);
        self.rows = rows(&self.plan);
        self.letters = Letters::of(self.garment, &self.plan, &self.rows);
        self
    }

    /// The numbers of the pieces that a part is cut by, where its left and its right one are cut differently; else none.
    pub fn numbers_by_hand(&self, part: Part) -> Vec<(Hand, usize)> {
        let own = self.pieces.iter().filter(|piece| piece.parts.contains(&part));
        let all: Vec<(Hand, usize)> = own.filter_map(|piece| Some((piece.hand?, piece.number))).collect();
        if all.len() > 1 { all } else { Vec::new() }
    }

    /// The number of the piece that a part is cut by; of a piece whose sides are cut differently that of the side.
    pub fn number_of(&self, part: Part, hand: Option<Hand>) -> Option<usize> {
        let own = || self.pieces.iter().filter(|piece| piece.parts.contains(&part));
        own().find(|piece| piece.hand == hand).or_else(|| own().next()).map(|piece| piece.number)
    }
}

/// What people read of a piece; of one that has only a name, as of a split, that in words.
pub(super) fn title(garment: &Garment, piece: PieceId) -> String {
    let piece = garment.piece(piece);
    if piece.title != piece.name {
        return piece.title.to_string();
    }
    let mut letters = piece.name.chars().map(|letter| if letter == '_' { ' ' } else { letter });
    letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect()
}
