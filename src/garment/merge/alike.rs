//! `piece back "Back" like front { … }`: what is alike is written once. At the end of each file such pieces are written
//! out, so that nothing after it knows of them, and what a later file changes of the one it changes of that alone.

use super::Merging;
use super::key::{Key, kind_word};
use super::piece_item::{drawn_by, notch_written};
use super::place::article;
use crate::garment::circle::{row, through};
use crate::garment::order::{Order, order_by_need};
use crate::limits;
use crate::report::{Diagnostic, catalogue, nearest};
use crate::source::Span;
use crate::syntax::tree::{
    EdgePath, LeftOut, Name, Outline, Piece, PieceItem, PieceItemKind, PieceItemNode, StatementNode, WalkEdge,
};
use std::sync::Arc;

/// What a piece that was like another named of that, for an editor, and where what it took over is written.
#[derive(Clone, Debug)]
pub struct Alike {
    /// The piece.
    pub piece: Arc<str>,
    /// The piece that it is like.
    pub of: Name,
    /// The statements that it took lines over from.
    pub from: Vec<Span>,
    /// What it leaves out.
    pub left_out: Vec<Name>,
}

impl Merging {
    /// Writes out every piece that is like another. What is wrong is reported, unless lines of this file are lost that
    /// may have declared what is missed.
    pub(super) fn write_alike(&mut self, lost: bool) {
        let alike: Vec<(usize, Piece, Name)> = self
            .standing
            .iter()
            .filter_map(|(slot, one)| match &one.statement.node {
                StatementNode::Piece(piece) => {
                    let like = piece.like.clone()?;
                    Some((slot, piece.clone(), like))
                }
                _ => None,
            })
            .collect();
        if alike.is_empty() {
            return;
        }
        let slot_of = |of: &Name| self.standing.slots_of(&Key::Piece(of.text.clone())).first().copied();
        let needs: Vec<Vec<usize>> = alike
            .iter()
            .map(|(_, _, of)| {
                let slot = slot_of(of);
                alike.iter().position(|(other, ..)| Some(*other) == slot).into_iter().collect()
            })
            .collect();
        let Order { order, circles } = order_by_need(&needs);
        for circle in &circles {
            self.report_circle(&circle.iter().filter_map(|&at| alike.get(at)).collect::<Vec<_>>());
        }
        for at in order {
            let Some((slot, own, of)) = alike.get(at) else { continue };
            let in_circle = circles.iter().any(|circle| circle.contains(&at));
            let written = if in_circle { None } else { self.written_alike(own, of, lost) };
            match written {
                Some(items) => self.standing.edit(*slot, |node| {
                    if let StatementNode::Piece(piece) = node {
                        (piece.like, piece.items) = (None, items);
                    }
                }),
                // Why is told; that there is no such piece is not.
                None => {
                    self.standing.take(*slot);
                    self.merged.lost_words.push(own.name.text.clone());
                }
            }
        }
    }

    fn written_alike(&mut self, own: &Piece, of: &Name, lost: bool) -> Option<Vec<PieceItem>> {
        let key = Key::Piece(of.text.clone());
        let Some(found) = self.standing.find(&key) else {
            let known_lost = self.merged.lost_words.contains(&of.text);
            if !(lost || self.damaged || known_lost) {
                self.report_unknown(of);
            }
            return None;
        };
        let (span, origin) = match &found.statement.node {
            StatementNode::Piece(piece) => (found.statement.span, piece.clone()),
            other => {
                let is = match other {
                    StatementNode::Alteration(_) => "made by an alteration".to_owned(),
                    other => article(kind_word(other)),
                };
                let mistake = Diagnostic::new(
                    &catalogue::PIECE_LIKE,
                    of.span,
                    format!("{} is {is}, and has no lines that another could be like", of.text),
                );
                let declared = found.statement.span;
                self.merged.mistakes.push(
                    mistake
                        .label("like what?")
                        .also(declared, "declared here")
                        .help("name a piece that is drawn in braces"),
                );
                return None;
            }
        };
        self.alike_lines += origin.items.iter().map(lines).sum::<usize>();
        if self.alike_lines > limits::LINES_ALIKE {
            if !self.alike_told {
                self.alike_told = true;
                let title = format!(
                    "with this piece those that are like others have more lines than the {} that they may have",
                    limits::LINES_ALIKE
                );
                let mistake = Diagnostic::new(&catalogue::LIMIT_EDGES, of.span, title);
                self.merged.mistakes.push(mistake.help("make several garments of it"));
            }
            return None;
        }
        let mut writing = Written { origin: &origin, own, items: origin.items.clone(), mistakes: Vec::new() };
        writing.leave_out();
        writing.put_own();
        let Written { items, mistakes, .. } = writing;
        self.merged.mistakes.extend(mistakes);
        let mut from = vec![span];
        from.extend(
            self.merged.alike.iter().filter(|one| one.piece == of.text).flat_map(|one| one.from.clone()),
        );
        let left_out = left_out(own).map(|one| one.name().clone()).collect();
        let alike = Alike { piece: own.name.text.clone(), of: of.clone(), from, left_out };
        self.merged.alike.push(alike);
        Some(items)
    }

    fn report_unknown(&mut self, of: &Name) {
        let title = format!("there is no piece called {}", of.text);
        let mut mistake =
            Diagnostic::new(&catalogue::NAME_UNKNOWN, of.span, title).label("like which piece?");
        if let Some(gone) = self.merged.dropped.iter().rev().find(|gone| gone.name == of.text) {
            mistake =
                mistake.also(gone.declared, "it was declared here").also(gone.dropped, "and dropped here");
        }
        let pieces = self.standing.iter().filter_map(|(_, one)| match &one.statement.node {
            StatementNode::Piece(piece) => Some(&*piece.name.text),
            _ => None,
        });
        mistake = match nearest(&of.text, pieces) {
            Some(near) => mistake.did_you_mean(of.span, near),
            None => mistake.help("name a piece that is drawn in braces"),
        };
        self.merged.mistakes.push(mistake);
    }

    fn report_circle(&mut self, circle: &[&(usize, Piece, Name)]) {
        let Some((_, first, of)) = circle.first() else { return };
        let named: Vec<(String, Span)> =
            circle.iter().map(|(_, piece, of)| (piece.name.text.to_string(), of.span)).collect();
        let title = match named.len() {
            1 => format!("{} is like itself", first.name.text),
            _ => format!("{} is like itself: {} → {}", first.name.text, row(&named), first.name.text),
        };
        let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, of.span, title).label("the circle starts here");
        self.merged.mistakes.push(through(mistake, &named).help("draw one of them in full"));
    }
}

/// How many lines an item is, edges of an outline among them.
fn lines(item: &PieceItem) -> usize {
    match &item.node {
        PieceItemNode::Outline(Outline::Walk { edges, .. }) => 1 + edges.len(),
        _ => 1,
    }
}

fn left_out(piece: &Piece) -> impl Iterator<Item = &LeftOut> {
    piece.items.iter().flat_map(|item| match &item.node {
        PieceItemNode::Without(all) => all.as_slice(),
        _ => &[],
    })
}

/// A piece that is being written out.
struct Written<'a> {
    origin: &'a Piece,
    own: &'a Piece,
    items: Vec<PieceItem>,
    mistakes: Vec<Diagnostic>,
}

impl Written<'_> {
    fn leave_out(&mut self) {
        for one in left_out(self.own) {
            let before = self.items.len();
            match one {
                LeftOut::Named(name) => {
                    if self.is_corner(name) || self.is_walked_dart(name) {
                        continue;
                    }
                    self.items.retain(|item| {
                        let (kind, drawn, _) = drawn_by(item);
                        !(Group::of(kind).is_some() && drawn == Some(&*name.text))
                    });
                }
                LeftOut::Notch { edge, place } => self.items.retain(|item| match &item.node {
                    PieceItemNode::Notch(notch) if notch.edge.text == edge.text => {
                        place.as_ref().is_some_and(|place| {
                            notch_written(&edge.text, place) != notch_written(&edge.text, &notch.place)
                        })
                    }
                    _ => true,
                }),
                LeftOut::Corner(one, other) => self.items.retain(|item| match &item.node {
                    PieceItemNode::Corner(corner) => {
                        let (first, second) = (&corner.first.text, &corner.second.text);
                        !((first, second) == (&one.text, &other.text)
                            || (first, second) == (&other.text, &one.text))
                    }
                    _ => true,
                }),
            }
            if self.items.len() == before && !self.is_taken_over(one) {
                self.report_nothing(one);
            }
        }
    }

    /// A corner of the outline cannot go: nothing would be left of that. Whether it is one, which is reported.
    fn is_corner(&mut self, name: &Name) -> bool {
        let is_it = self.outline().is_some_and(|outline| match outline {
            Outline::Walk { from, edges, .. } => {
                from.text == name.text || edges.iter().any(|edge| edge.to.text == name.text)
            }
            _ => false,
        });
        if is_it {
            let (of, word) = (&self.origin.name.text, &name.text);
            let title = format!("{word} is a corner of the outline of {of}, and cannot be left out");
            let help = format!("move it, point {word} = …, or write the outline anew");
            let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, name.span, title);
            self.mistakes.push(mistake.label("a corner").help(help));
        }
        is_it
    }

    /// A dart in the walk goes with the run before it. Whether it is one.
    fn is_walked_dart(&mut self, name: &Name) -> bool {
        let mut crooked = None;
        let mut found = false;
        for item in &mut self.items {
            let PieceItemNode::Outline(Outline::Walk { edges, .. }) = &mut item.node else { continue };
            let Some(at) = edges.iter().position(|edge| edge.dart.is_some() && edge.name.text == name.text)
            else {
                continue;
            };
            found = true;
            let straight = |at: usize| {
                edges
                    .get(at)
                    .is_some_and(|edge| edge.dart.is_none() && matches!(edge.path, EdgePath::Straight))
            };
            match at.checked_sub(1).filter(|&before| straight(before) && straight(at + 1)) {
                Some(before) => drop(edges.drain(before..=at)),
                None => crooked = edges.get(at).map(|edge| edge.span),
            }
        }
        if let Some(dart) = crooked {
            let title = format!("without {} nothing says how its edge goes on", name.text);
            let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, name.span, title);
            self.mistakes.push(
                mistake
                    .label("left out here")
                    .also(dart, "drawn in the outline")
                    .help("say how the edge goes instead: outline { … } with that edge alone"),
            );
        }
        found
    }

    /// Whether the other piece has it of the one that it is made of itself: then the copy leaves it out.
    fn is_taken_over(&self, one: &LeftOut) -> bool {
        let made = matches!(
            self.outline(),
            Some(Outline::Copy { .. } | Outline::Strip { .. } | Outline::Rest { .. })
        );
        made && matches!(one, LeftOut::Named(_))
    }

    fn report_nothing(&mut self, one: &LeftOut) {
        let (of, name) = (&self.origin.name.text, one.name());
        let what = match one {
            LeftOut::Named(name) => format!("called {}", name.text),
            LeftOut::Notch { edge, place: None } => format!("like a notch on {}", edge.text),
            LeftOut::Notch { edge, place: Some(_) } => format!("like that notch on {}", edge.text),
            LeftOut::Corner(first, second) => format!("like a corner {}/{}", first.text, second.text),
        };
        let title = format!("{of} has nothing {what} to leave out");
        let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, name.span, title).label("left out of what?");
        let known: Vec<&str> = match one {
            LeftOut::Named(_) => {
                let all = self.origin.items.iter().map(drawn_by);
                all.filter(|(kind, ..)| Group::of(*kind).is_some()).filter_map(|(_, name, _)| name).collect()
            }
            LeftOut::Notch { .. } => self
                .origin
                .items
                .iter()
                .filter_map(|item| match &item.node {
                    PieceItemNode::Notch(notch) => Some(&*notch.edge.text),
                    _ => None,
                })
                .collect(),
            LeftOut::Corner(..) => Vec::new(),
        };
        let other = |known: &&str| **known != *name.text;
        self.mistakes.push(match nearest(&name.text, known.iter().copied().filter(other)) {
            Some(near) => mistake.did_you_mean(name.span, near),
            None => mistake.help("remove this name"),
        });
    }

    /// Its own lines, each in the place of what draws the same.
    fn put_own(&mut self) {
        // What one of its own lines has put there another does not replace: both stand, and are told.
        let mut left: Vec<Span> = self.items.iter().map(|item| item.span).collect();
        for item in &self.own.items {
            match &item.node {
                PieceItemNode::Without(all) => {
                    let rest: Vec<LeftOut> =
                        all.iter().filter(|one| self.is_taken_over(one)).cloned().collect();
                    let rest: Vec<LeftOut> = rest.into_iter().filter(|one| !self.drew(one.name())).collect();
                    if !rest.is_empty() {
                        self.items.push(PieceItem { span: item.span, node: PieceItemNode::Without(rest) });
                    }
                }
                PieceItemNode::Outline(Outline::Parts(parts)) => self.put_parts(item.span, parts),
                PieceItemNode::Notch(_) => self.items.push(item.clone()),
                _ => {
                    let is_it = |old: &&mut PieceItem| left.contains(&old.span) && draws_the_same(old, item);
                    match self.items.iter_mut().find(is_it) {
                        Some(old) => {
                            left.retain(|span| *span != old.span);
                            *old = item.clone();
                        }
                        None => self.items.push(item.clone()),
                    }
                }
            }
        }
    }

    fn drew(&self, name: &Name) -> bool {
        self.origin.items.iter().any(|item| drawn_by(item).1 == Some(&*name.text))
    }

    fn outline(&self) -> Option<&Outline> {
        self.items.iter().find_map(|item| match &item.node {
            PieceItemNode::Outline(outline) => Some(outline),
            _ => None,
        })
    }

    /// Edges in the place of those of the same names; one of a new name goes on from the one before it.
    fn put_parts(&mut self, span: Span, parts: &[WalkEdge]) {
        let of = self.origin.name.text.clone();
        let mut walked = None;
        for item in &mut self.items {
            if let PieceItemNode::Outline(Outline::Walk { edges, .. }) = &mut item.node {
                walked = Some(edges);
            }
        }
        let Some(edges) = walked else {
            let title =
                format!("the outline of {of} is not drawn edge by edge: none of them can be drawn anew");
            let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, span, title);
            let mistake = mistake
                .label("in the place of what?")
                .also(self.origin.name.span, format!("{of} is drawn here"));
            return self.mistakes.push(mistake.help("write the whole outline: outline from … { … }"));
        };
        let known: Vec<Arc<str>> = edges.iter().map(|edge| edge.name.text.clone()).collect();
        // Each with those that follow it under new names.
        let mut groups: Vec<Vec<WalkEdge>> = Vec::new();
        let mut lost = false;
        for part in parts {
            let begins = part.dart.is_none() && known.contains(&part.name.text);
            let goes_on = groups
                .last()
                .and_then(|group| group.first())
                .is_some_and(|first| !begins || first.name.text == part.name.text);
            match groups.last_mut() {
                Some(group) if goes_on => group.push(part.clone()),
                _ if begins => groups.push(vec![part.clone()]),
                // One message is enough: the others would go on from it.
                _ if std::mem::replace(&mut lost, true) => {}
                _ => {
                    let title = format!("{of} has no edge called {}", part.name.text);
                    let mistake = Diagnostic::new(&catalogue::NAME_UNKNOWN, part.name.span, title)
                        .label("in the place of which?");
                    self.mistakes.push(match nearest(&part.name.text, known.iter().map(|one| &**one)) {
                        Some(near) => mistake.did_you_mean(part.name.span, near),
                        None => mistake.help("an edge of a new name stands behind one that it goes on from"),
                    });
                }
            }
        }
        for group in groups {
            let Some(name) = group.first().map(|edge| edge.name.text.clone()) else { continue };
            let is_it = |edge: &WalkEdge| edge.dart.is_none() && edge.name.text == name;
            let (Some(first), Some(last)) = (edges.iter().position(is_it), edges.iter().rposition(is_it))
            else {
                let title = format!("{of} says {name} twice here");
                let mistake = Diagnostic::new(&catalogue::PIECE_LIKE, span, title);
                self.mistakes.push(mistake.help("say each edge once"));
                continue;
            };
            edges.splice(first..=last, group);
        }
    }
}

/// Names that are told apart.
#[derive(PartialEq)]
enum Group {
    /// Points and marks.
    Points,
    /// Edges, lines and what is taken out of them.
    Edges,
    /// Points that are moved.
    Moves,
}

impl Group {
    fn of(kind: PieceItemKind) -> Option<Group> {
        match kind {
            PieceItemKind::Point | PieceItemKind::Mark => Some(Group::Points),
            PieceItemKind::Line | PieceItemKind::Divide | PieceItemKind::TakeUp | PieceItemKind::Slit => {
                Some(Group::Edges)
            }
            PieceItemKind::MovePoint => Some(Group::Moves),
            _ => None,
        }
    }
}

/// Whether a line of a piece draws what another does, in whose place it can stand.
pub(in crate::garment) fn draws_the_same(old: &PieceItem, new: &PieceItem) -> bool {
    let ((kind, name, other), (own, own_name, own_other)) = (drawn_by(old), drawn_by(new));
    match (Group::of(kind), Group::of(own)) {
        (Some(group), Some(own)) => group == own && name == own_name,
        (None, None) => {
            kind == own && ((name, other) == (own_name, own_other) || (name, other) == (own_other, own_name))
        }
        _ => false,
    }
}
