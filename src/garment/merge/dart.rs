//! `drop dart front.waist_dart` and `replace dart front.waist_dart …`; the same of pleats and tucks.

use super::doing::Doing;
use super::key::{Key, dotted};
use super::left_out::DroppedOfPiece;
use super::{Dropped, Merging, Settled};
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{
    AddToPiece, Name, NameOrText, Outline, PieceItemKind, PieceItemNode, StatementNode, Verb,
};
use std::sync::Arc;

/// Where a piece has a dart.
enum Found {
    /// Among its items.
    Item(usize),
    /// Drawn in the outline.
    Drawn(Span),
    /// Of that name is something else: a pleat, where a dart is meant.
    Other(&'static str, Span),
    /// Nowhere; these it has.
    None(Vec<Arc<str>>),
}

/// Where a dart is that is changed.
enum Place {
    /// Among the piece's items.
    Item(usize),
    /// Drawn there on the piece that this one is made of, and left out of this one.
    LeftOut(Span),
}

impl Merging {
    /// Draws a dart of the base in another way.
    pub(super) fn replace_dart(&mut self, add: &AddToPiece) {
        let Some(item) = add.items.first() else { return };
        let PieceItemNode::TakeUp(new) = &item.node else { return };
        let Some((slot, place)) = self.dart_to_change(&add.piece, &new.name, Doing::Replace, new.word())
        else {
            return;
        };
        let item = item.clone();
        self.standing.edit(slot, |node| {
            let StatementNode::Piece(piece) = node else { return };
            match place {
                Place::Item(at) => piece.items.get_mut(at).into_iter().for_each(|old| *old = item.clone()),
                Place::LeftOut(_) => piece.items.push(item),
            }
        });
    }

    /// Takes a dart of the base away, and out of its steps.
    pub(super) fn drop_dart(&mut self, whole: Span, target: &NameOrText, span: Span, word: &'static str) {
        let NameOrText::Name(named) = target else { return };
        let [piece, dart] = named.parts.as_slice() else {
            let title = format!("a {word} is dropped from a piece");
            let mistake = Diagnostic::new(&catalogue::DROP_NOTHING, span, title)
                .label("of which piece?")
                .help(format!("write drop {word} piece.name"));
            return self.merged.mistakes.push(mistake);
        };
        let Some((slot, place)) = self.dart_to_change(piece, dart, Doing::Drop, word) else { return };
        let mut declared = None;
        match place {
            Place::Item(at) => self.standing.edit(slot, |node| {
                if let StatementNode::Piece(piece) = node
                    && at < piece.items.len()
                {
                    declared = Some(piece.items.remove(at).span);
                }
            }),
            Place::LeftOut(there) => declared = Some(there),
        }
        self.take_up_goes((&dotted(named), &dart.text), span);
        let name = dart.text.clone();
        let declared = declared.unwrap_or_default();
        let (kind, of) = (PieceItemKind::TakeUp, piece.text.clone());
        let gone = DroppedOfPiece { piece: of, kind, name: name.clone(), other: None, dropped: whole };
        self.dropped_of_pieces.push(gone);
        self.merged.dropped.push(Dropped::new(name, word, declared, whole));
    }

    /// A dart, pleat or tuck that is dropped, by its piece's name and its own, leaves the steps, and that is told.
    pub(super) fn take_up_goes(&mut self, (words, name): (&str, &str), span: Span) {
        let sewn = self.unsew(words);
        if sewn.is_empty() {
            return;
        }
        let title = format!("dropping {name} also takes it out of the steps");
        let mut advice = Diagnostic::new(&catalogue::DROP_ALONG, span, title).label("dropped here");
        for &step in sewn.iter().take(12) {
            advice = advice.also(step, "not sewn any more");
        }
        self.merged.mistakes.push(advice);
    }

    /// The piece's place and that of its dart, which a piece that has it of another one is then without; reported if
    /// there is none to change.
    fn dart_to_change(
        &mut self,
        piece: &Name,
        dart: &Name,
        doing: Doing,
        word: &'static str,
    ) -> Option<(usize, Place)> {
        let words = format!("{}.{}", piece.text, dart.text);
        let key = Key::Dart(words.clone());
        if let Some(&first) = self.touched.get(&key) {
            self.said_twice(&format!("the {word} {words}"), dart.span, first);
            return None;
        }
        let what = format!("{word} {words}");
        let deed = doing.deed();
        if self.settle(&key, dart.span, &what, deed, None) == Settled::Left {
            self.touched.insert(key, dart.span);
            return None;
        }
        let slot = self.grows(piece, "piece")?;
        self.note(&key, dart.span, deed, None);
        let StatementNode::Piece(drawn) = &self.standing.get(slot)?.statement.node else { return None };
        let found = find(drawn, &dart.text, word);
        match found {
            Found::Item(at) => {
                self.touched.insert(key, dart.span);
                Some((slot, Place::Item(at)))
            }
            Found::Drawn(drawn) => {
                let kind = doing.to_nothing();
                let title = format!("{} is drawn in the outline of {}", dart.text, piece.text);
                let mistake =
                    Diagnostic::new(kind, dart.span, title).also(drawn, "drawn here").help(format!(
                        "move it, or leave it unsewn: leave dart {words} as flare; or replace the whole piece"
                    ));
                self.merged.mistakes.push(mistake);
                None
            }
            Found::Other(other, declared) => {
                let kind = doing.to_nothing();
                let title = format!("{} is a {other}, and no {word}", dart.text);
                let mistake = Diagnostic::new(kind, dart.span, title).also(declared, "declared here").help(
                    match doing {
                        Doing::Drop => format!("write drop {other} {words}"),
                        _ => format!(
                            "write replace {other} {words} …; or drop it, and add a {word} in its place"
                        ),
                    },
                );
                self.merged.mistakes.push(mistake);
                None
            }
            Found::None(known) => {
                let drawn = (PieceItemKind::TakeUp, Some(&*dart.text), None);
                if let Some(there) = self.leave_out(slot, drawn, dart.span) {
                    self.touched.insert(key, dart.span);
                    return Some((slot, Place::LeftOut(there)));
                }
                if self.damaged {
                    return None;
                }
                let kind = doing.to_nothing();
                let title = format!("there is no {word} {words} to {doing}");
                let mistake =
                    Diagnostic::new(kind, dart.span, title).label("the base has nothing of this name");
                let near = nearest(&dart.text, known.iter().map(|name| &**name)).map(str::to_owned);
                self.merged.mistakes.push(match (near, known.is_empty()) {
                    (Some(near), _) => mistake.did_you_mean(dart.span, &near),
                    (None, true) => mistake.help(format!("{} has no {word}s", piece.text)),
                    (None, false) => mistake.help(format!("{word}s of {}: {}", piece.text, known.join(", "))),
                });
                None
            }
        }
    }

    /// Takes a dart out of the steps of the base; where it stood in them.
    fn unsew(&mut self, words: &str) -> Vec<Span> {
        let slots: Vec<usize> = self.standing.slots_of(&Key::Steps).to_vec();
        let here = self.here;
        let mut sewn = Vec::new();
        for slot in slots {
            self.standing.edit(slot, |node| {
                let StatementNode::Steps(steps) = node else { return };
                for group in &mut steps.groups {
                    group.actions.retain_mut(|action| {
                        if !matches!(action.verb, Verb::Sew | Verb::Press | Verb::Baste) {
                            return true;
                        }
                        let before = action.targets.len();
                        action.targets.retain(|target| {
                            let own = here.lo <= target.span.lo && target.span.hi <= here.hi;
                            let text = dotted(target);
                            let goes = !own
                                && (text == words
                                    || text.split_once('.').is_some_and(|(_, rest)| rest == words));
                            if goes {
                                sewn.push(target.span);
                            }
                            !goes
                        });
                        !action.targets.is_empty() || before == 0
                    });
                }
                if !sewn.is_empty() {
                    steps.groups.retain(|group| !group.actions.is_empty());
                }
            });
        }
        sewn
    }
}

fn find(piece: &crate::syntax::tree::Piece, dart: &str, word: &str) -> Found {
    let mut known = Vec::new();
    for (at, item) in piece.items.iter().enumerate() {
        match &item.node {
            PieceItemNode::TakeUp(one) if *one.name.text == *dart => {
                return if one.word() == word {
                    Found::Item(at)
                } else {
                    Found::Other(one.word(), item.span)
                };
            }
            PieceItemNode::TakeUp(one) if one.word() == word => known.push(one.name.text.clone()),
            PieceItemNode::Outline(Outline::Walk { edges, .. }) => {
                for edge in edges.iter().filter(|edge| edge.dart.is_some()) {
                    if *edge.name.text == *dart && word == "dart" {
                        return Found::Drawn(edge.span);
                    }
                }
            }
            _ => {}
        }
    }
    Found::None(known)
}
