//! `drop line front.waist` and `in piece front replace { line waist … }`: lines of a piece.

use super::conflict::item_written;
use super::doing::Doing;
use super::key::Key;
use super::left_out::DroppedOfPiece;
use super::{Deed, Dropped, Merging, Settled};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{
    AddToPiece, DropOfPiece, EdgePlace, Name, Notch, Piece, PieceItem, PieceItemKind, PieceItemNode,
    StatementNode,
};
use std::sync::Arc;

/// What a line of a piece draws: a name, or two of a corner; nothing where a piece has one of its kind.
pub(super) type Drawn<'a> = (PieceItemKind, Option<&'a str>, Option<&'a str>);

impl Merging {
    /// Takes a line out of a piece of the base.
    pub(super) fn drop_of_piece(&mut self, whole: Span, drop: &DropOfPiece) {
        let name = drop.name.as_ref().map(|name| &*name.text);
        let drawn = (drop.kind, name, drop.other.as_ref().map(|other| &*other.text));
        let place = drop.notch.as_ref().map(|notch| {
            let node = PieceItemNode::Notch(notch.clone());
            item_written(&drop.piece, &PieceItem { span: drop.span, node })
        });
        let words = words_of(&drop.piece, drawn, place.as_deref());
        if self.is_in_one_line(&drop.piece, &[])
            && let Some(declared) = self.take_from_one_line(&drop.piece, drawn)
        {
            let name: Arc<str> = name.unwrap_or(&drop.piece.text).into();
            self.merged.dropped.push(Dropped::new(name, drop.kind.words(), declared, whole));
            return;
        }
        let Some(slot) = self.piece_to_change(&drop.piece, drop.span, drop.kind, &words, Deed::Drops, None)
        else {
            return;
        };
        let is_it = |item: &PieceItem| {
            is_drawn_so(item, drawn)
                && place.as_ref().is_none_or(|place| {
                    // A double notch is meant by the place as well.
                    let one = match &item.node {
                        PieceItemNode::Notch(notch) => {
                            let node = PieceItemNode::Notch(Notch { double: false, ..notch.clone() });
                            PieceItem { span: item.span, node }
                        }
                        _ => item.clone(),
                    };
                    item_written(&drop.piece, &one) == *place
                })
        };
        let here = self.here;
        let mut declared: Option<Span> = None;
        self.standing.edit(slot, |node| {
            let StatementNode::Piece(piece) = node else { return };
            piece.items.retain(|item| {
                let own = here.lo <= item.span.lo && item.span.hi <= here.hi;
                let goes = !own && is_it(item);
                if goes {
                    declared.get_or_insert(item.span);
                }
                !goes
            });
        });
        match declared.or_else(|| self.leave_out(slot, drawn, drop.span)) {
            Some(declared) => {
                let text = |name: &Name| name.text.clone();
                // Of several notches of an edge one alone is told apart by its place, and the others stay.
                if let (Some(name), None) = (&drop.name, &drop.notch) {
                    let (name, other) = (text(name), drop.other.as_ref().map(text));
                    let piece = text(&drop.piece);
                    let gone = DroppedOfPiece { piece, kind: drop.kind, name, other, dropped: whole };
                    self.dropped_of_pieces.push(gone);
                }
                let name = name.unwrap_or(&drop.piece.text);
                self.merged.dropped.push(Dropped::new(name, drop.kind.words(), declared, whole));
            }
            None => self.report_not_drawn(slot, &drop.piece, drop.span, drawn, &words, Doing::Drop),
        }
    }

    /// Each line takes the place of the one that draws the same.
    pub(super) fn replace_in_piece(&mut self, add: &AddToPiece) {
        for item in &add.items {
            let drawn = drawn_by(item);
            let words = words_of(&add.piece, drawn, None);
            let only = vec![item.clone()];
            let said = StatementNode::Piece(Piece {
                name: add.piece.clone(),
                title: None,
                block: false,
                like: None,
                items: only,
            });
            let (span, deed) = (name_span(item), Deed::Changes);
            let Some(slot) = self.piece_to_change(&add.piece, span, drawn.0, &words, deed, Some(&said))
            else {
                continue;
            };
            let found: Vec<(usize, Span)> = match self.standing.get(slot).map(|one| &one.statement.node) {
                Some(StatementNode::Piece(piece)) => {
                    let all = piece.items.iter().enumerate();
                    all.filter(|(_, old)| is_drawn_so(old, drawn)).map(|(at, old)| (at, old.span)).collect()
                }
                _ => Vec::new(),
            };
            match found.as_slice() {
                [(at, _)] => self.standing.edit(slot, |node| {
                    if let StatementNode::Piece(piece) = node
                        && let Some(old) = piece.items.get_mut(*at)
                    {
                        *old = item.clone();
                    }
                }),
                [] if self.leave_out(slot, drawn, span).is_some() => self.standing.edit(slot, |node| {
                    if let StatementNode::Piece(piece) = node {
                        piece.items.push(item.clone());
                    }
                }),
                [] => self.report_not_drawn(slot, &add.piece, span, drawn, &words, Doing::Replace),
                several => {
                    let title =
                        format!("there are {} of {words}: it is not clear which to replace", several.len());
                    let mut mistake =
                        Diagnostic::new(&catalogue::VARIATION_WHICH, span, title).label("which of them?");
                    for (_, old) in several.iter().take(6) {
                        mistake = mistake.also(*old, "this one?");
                    }
                    let help = format!("drop the one, as in drop {words} 8 from …, and add the other");
                    self.merged.mistakes.push(mistake.help(help));
                }
            }
        }
    }

    /// The piece in which a line is changed; none where there is no such piece, or where the line is changed
    /// twice, or otherwise by another file (reported).
    fn piece_to_change(
        &mut self,
        piece: &Name,
        span: Span,
        kind: PieceItemKind,
        words: &str,
        deed: Deed,
        said: Option<&StatementNode>,
    ) -> Option<usize> {
        let key = Key::Drawn(kind, words.to_owned());
        if let Some(&first) = self.touched.get(&key) {
            self.said_twice(&format!("the {words}"), span, first);
            return None;
        }
        self.touched.insert(key.clone(), span);
        if self.settle(&key, span, words, deed, said) == Settled::Left {
            return None;
        }
        let slot = self.grows(piece, "piece")?;
        self.note(&key, span, deed, said);
        Some(slot)
    }

    fn report_not_drawn(
        &mut self,
        slot: usize,
        piece: &Name,
        span: Span,
        drawn: Drawn<'_>,
        words: &str,
        doing: Doing,
    ) {
        if self.damaged {
            return;
        }
        let Some(StatementNode::Piece(tree)) = self.standing.get(slot).map(|one| &one.statement.node) else {
            return;
        };
        let kind = doing.to_nothing();
        let title = format!("there is no {words} to {doing}");
        let known: Vec<&str> =
            tree.items.iter().map(drawn_by).filter(|one| one.0 == drawn.0).filter_map(|one| one.1).collect();
        let other = tree.items.iter().find(|item| {
            let own = drawn_by(item);
            own.1.is_some() && own.1 == drawn.1
        });
        let copied = tree.items.iter().find_map(|item| match &item.node {
            PieceItemNode::Outline(crate::syntax::tree::Outline::Copy { of, .. }) => Some(of.span),
            _ => None,
        });
        let mut mistake =
            Diagnostic::new(kind, span, title).label("the base draws nothing of this kind here");
        if let Some(other) = other {
            let is = PieceItemKind::of(other).words();
            mistake = mistake.also(other.span, format!("a {is} of this name"));
        }
        if let Some(copied) = copied {
            mistake = mistake.also(copied, "what it has of that piece is changed there");
        }
        let near = drawn.1.and_then(|name| nearest(name, known.iter().copied()));
        let word = drawn.0.words();
        mistake = match (near, known.as_slice()) {
            (Some(near), _) => mistake.help(format!("did you mean {}.{near}?", piece.text)),
            (None, []) if doing == Doing::Replace => {
                mistake.help(format!("to draw it, write in piece {} add {{ … }}", piece.text))
            }
            (None, []) => mistake.help("remove this line"),
            (None, known) => {
                mistake.help(format!("what {} has of a {word}: {}", piece.text, known.join(", ")))
            }
        };
        self.merged.mistakes.push(mistake);
    }
}

/// "line front.waist", "corner front.side/hem", "grain front".
fn words_of(piece: &Name, drawn: Drawn<'_>, place: Option<&str>) -> String {
    let (kind, name, other) = drawn;
    let mut words = format!("{} {}", kind.words(), piece.text);
    for (sign, word) in [(".", name), ("/", other)] {
        if let Some(word) = word {
            words.push_str(&format!("{sign}{word}"));
        }
    }
    // Of several notches of an edge one alone is told apart by its place.
    words
        + &place.map_or(String::new(), |place| match place.split_once("notch ") {
            Some((_, place)) => place
                .trim_end_matches(['}', '\n', ' '])
                .split_once(' ')
                .map_or(String::new(), |(_, place)| format!(" {place}")),
            None => String::new(),
        })
}

pub(super) fn drawn_by(item: &PieceItem) -> Drawn<'_> {
    let kind = PieceItemKind::of(item);
    let (name, other): (Option<&Name>, Option<&Name>) = match &item.node {
        PieceItemNode::Point(one) | PieceItemNode::Mark(one) => (Some(&one.name), None),
        PieceItemNode::MovePoint { point, .. } => (Some(point), None),
        PieceItemNode::Line(line) => (Some(&line.name), None),
        PieceItemNode::Notch(notch) => (Some(&notch.edge), None),
        PieceItemNode::Divide(divide) => (Some(&divide.into.0), None),
        PieceItemNode::TakeUp(one) => (Some(&one.name), None),
        PieceItemNode::Corner(corner) => (Some(&corner.first), Some(&corner.second)),
        PieceItemNode::Cut(_)
        | PieceItemNode::Outline(_)
        | PieceItemNode::Folded { .. }
        | PieceItemNode::Grain(_)
        | PieceItemNode::Allowance(_)
        | PieceItemNode::NeverFlipped
        | PieceItemNode::Without(_)
        | PieceItemNode::Drawn(_) => (None, None),
    };
    (kind, name.map(|name| &*name.text), other.map(|name| &*name.text))
}

/// A notch's place as it is written, to tell whether two are the same.
pub(super) fn notch_written(edge: &Arc<str>, place: &EdgePlace) -> String {
    let name = Name { text: edge.clone(), span: Span::default() };
    let notch = Notch { edge: name.clone(), place: place.clone(), double: false };
    item_written(&name, &PieceItem { span: Span::default(), node: PieceItemNode::Notch(notch) })
}

pub(super) fn is_drawn_so(item: &PieceItem, wanted: Drawn<'_>) -> bool {
    let own = drawn_by(item);
    own == wanted
        || own.0 == PieceItemKind::Corner && own.0 == wanted.0 && (own.2, own.1) == (wanted.1, wanted.2)
}

fn name_span(item: &PieceItem) -> Span {
    match &item.node {
        PieceItemNode::Point(one) | PieceItemNode::Mark(one) => one.name.span,
        PieceItemNode::MovePoint { point, .. } => point.span,
        PieceItemNode::Line(line) => line.name.span,
        PieceItemNode::Notch(notch) => notch.edge.span,
        PieceItemNode::TakeUp(one) => one.name.span,
        _ => item.span,
    }
}
