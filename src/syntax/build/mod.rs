//! From pest's pairs to the typed tree, one file a family. Damage on the way is kept for
//! [`super::recover`]; slips of the pen become messages at once.

mod alteration;
mod closure;
mod cloth;
mod expression;
mod file;
mod finish;
mod fitted;
mod header;
mod kids;
mod opening;
mod piece;
mod placement;
mod quantity;
mod seam;
mod short;
mod steps;
mod stitched;
mod strap;
mod take_up;
mod variation;

use super::grammar::Rule;
use super::tree::{Dotted, Hand, Name, SizeName, Text};
use crate::report::Diagnostic;
use crate::source::Span;
use indexmap::IndexSet;
pub(super) use kids::Kids;
use pest::iterators::Pair;
use std::collections::HashSet;
use std::sync::Arc;
use unicode_normalization::{UnicodeNormalization, is_nfc_quick};

/// Where a statement stands: which statements are right there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Context {
    /// Outside all braces.
    File,
    /// In the braces of `body`.
    Body,
    /// In the braces of a fitting.
    Fitting,
    /// In the braces of a fitting's `body`.
    FittedBody,
    /// In the braces of a fabric.
    Fabric,
    /// In the braces of a piece.
    Piece,
    /// In the braces of an outline.
    Walk,
    /// In the braces of a seam.
    Seam,
    /// In the braces of a placement.
    Place,
    /// In the braces of a closure.
    Closure,
    /// In the braces of a strap.
    Strap,
    /// In the braces of `steps`.
    Steps,
    /// In the braces of one step.
    Group,
}

/// What is wrong with a statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum DamageKind {
    /// Nothing was recognised.
    Bad,
    /// A whole statement, then something more.
    Extra,
    /// A damaged head before whole braces.
    Misread,
    /// Braces that never close; `from` is the opener.
    Unclosed,
    /// A `}` that closes nothing.
    Stray,
}

/// A damaged statement, as offsets of the file's own text.
#[derive(Clone, Copy, Debug)]
pub(super) struct Damage {
    pub context: Context,
    pub kind: DamageKind,
    /// Where the statement begins.
    pub from: usize,
    /// Where the damage begins.
    pub at: usize,
    /// Where it ends.
    pub to: usize,
}

impl Damage {
    /// The same in a text before which so many bytes stand.
    pub fn moved(self, by: usize) -> Damage {
        Damage { from: self.from + by, at: self.at + by, to: self.to + by, ..self }
    }
}

/// Builds the tree of one file.
pub(super) struct Builder<'t> {
    text: &'t str,
    base: u32,
    notes: &'t [(usize, usize)],
    /// Messages of slips.
    pub mistakes: Vec<Diagnostic>,
    /// Damaged statements, in the order of the text.
    pub damages: Vec<Damage>,
    /// Each `1,5` of the list being read, so that it can be taken as two values there.
    commas: Vec<(Span, Vec<f64>)>,
    /// Every word met, so that one that stands in many places is there once.
    words: HashSet<Arc<str>>,
    /// Names that were reported to be too long.
    pub long_names: IndexSet<Arc<str>>,
}

impl<'t> Builder<'t> {
    pub(super) fn new(text: &'t str, base: u32, notes: &'t [(usize, usize)]) -> Self {
        let (mistakes, damages) = (Vec::new(), Vec::new());
        Builder {
            text,
            base,
            notes,
            mistakes,
            damages,
            commas: Vec::new(),
            words: HashSet::new(),
            long_names: IndexSet::new(),
        }
    }

    /// The span of a pair. Pest counts the blanks and notes that it skipped before something
    /// optional; they are taken off.
    fn span(&self, pair: &Pair<Rule>) -> Span {
        let span = pair.as_span();
        let (lo, mut hi) = (span.start(), span.end());
        loop {
            let kept = self.text.get(lo..hi).map_or(hi, |text| lo + text.trim_end().len());
            let ends_line = matches!(self.text.as_bytes().get(kept), None | Some(b'\n' | b'\r'));
            hi = kept;
            if !ends_line {
                break;
            }
            match self.notes.binary_search_by_key(&hi, |&(_, end)| end) {
                Ok(at) if self.notes.get(at).is_some_and(|&(start, _)| start >= lo) => {
                    hi = self.notes.get(at).map_or(hi, |&(start, _)| start);
                }
                _ => break,
            }
        }
        self.global(lo, hi)
    }

    fn global(&self, lo: usize, hi: usize) -> Span {
        Span::new(self.base + lo as u32, self.base + hi as u32)
    }

    fn word(&mut self, pair: &Pair<Rule>) -> (Arc<str>, Span) {
        let span = self.span(pair);
        let text = pair.as_str();
        self.limit(text, span);
        let composed =
            match text.is_ascii() || is_nfc_quick(text.chars()) == unicode_normalization::IsNormalized::Yes {
                true => self.once(text),
                false => self.once(&text.nfc().collect::<String>()),
            };
        (composed, span)
    }

    /// A word, which is kept once however often it stands in the text.
    fn once(&mut self, word: &str) -> Arc<str> {
        if let Some(known) = self.words.get(word) {
            return known.clone();
        }
        let new: Arc<str> = Arc::from(word);
        self.words.insert(new.clone());
        new
    }

    /// Reports a name that is too long, once.
    fn limit(&mut self, name: &str, span: Span) {
        if name.len() > crate::limits::NAME_BYTES && self.long_names.insert(name.into()) {
            self.mistakes.push(super::slips::name_too_long(span, name));
        }
    }

    fn name(&mut self, pair: Pair<Rule>) -> Name {
        let (text, span) = self.word(&pair);
        Name { text, span }
    }

    fn dotted(&mut self, pair: Pair<Rule>) -> Dotted {
        let span = self.span(&pair);
        let parts = pair.into_inner().map(|part| self.name(part)).collect();
        Dotted { parts, on: None, span }
    }

    /// An edge or a piece, on both sides of the body or on one.
    fn use_of(&mut self, pair: Pair<Rule>) -> Option<Dotted> {
        let span = self.span(&pair);
        let mut kids = Kids::of(pair);
        let named = kids.next()?;
        let named = self.dotted(named);
        Some(Dotted { on: on_side(&mut kids), span, ..named })
    }

    /// `on left` behind edges, which is meant of each of them that says nothing itself.
    fn on_side_of<'e>(&mut self, kids: &mut Kids, edges: impl Iterator<Item = &'e mut Dotted>) {
        if !kids.has(Rule::k_on) {
            return;
        }
        let Some(said) = kids.next() else { return };
        let (hand, span) = (hand_of(&said), self.span(&said));
        for edge in edges {
            let own = *edge.on.get_or_insert(hand);
            if own != hand {
                let words = [own.word(), hand.word()];
                self.mistakes.push(super::slips::both_sides(edge.span, span, words));
            }
        }
    }

    fn uses_of(&mut self, pair: Pair<Rule>) -> Vec<Dotted> {
        Kids::of(pair).filter_map(|kid| self.use_of(kid)).collect()
    }

    fn names(&mut self, pair: Pair<Rule>) -> Vec<Name> {
        Kids::of(pair).map(|kid| self.name(kid)).collect()
    }

    fn dotteds(&mut self, pair: Pair<Rule>) -> Vec<Dotted> {
        Kids::of(pair).map(|kid| self.dotted(kid)).collect()
    }

    fn text(&mut self, pair: Pair<Rule>) -> Text {
        let span = self.span(&pair);
        Text { text: unquoted(pair.as_str()), span }
    }

    fn size_name(&mut self, pair: Pair<Rule>) -> SizeName {
        if pair.as_str().starts_with('"') {
            let text = self.text(pair);
            self.limit(&text.text, text.span);
            return SizeName { text: text.text, span: text.span };
        }
        let (text, span) = self.word(&pair);
        SizeName { text, span }
    }

    /// Notes damage if the pair is damage; gives the pair back if it is not. found `before` where the
    /// statement on the same line began, for what stands behind a whole statement.
    fn sound<'p>(&mut self, context: Context, pair: Pair<'p, Rule>, before: usize) -> Option<Pair<'p, Rule>> {
        let span = pair.as_span();
        let (at, to) = (span.start(), span.end());
        let (kind, from) = match pair.as_rule() {
            Rule::bad | Rule::bad_top => (DamageKind::Bad, at),
            Rule::extra | Rule::extra_top => (DamageKind::Extra, before),
            Rule::misread => (DamageKind::Misread, before),
            Rule::unclosed => (DamageKind::Unclosed, before),
            Rule::stray => (DamageKind::Stray, at),
            _ => return Some(pair),
        };
        self.damages.push(Damage { context, kind, from, at, to });
        None
    }

    /// Builds what stands in braces: each sound item by `build`, damage noted. Begins with the
    /// kids after the head, so at `misread` or `open`.
    fn block<T>(
        &mut self,
        context: Context,
        kids: &mut Kids,
        head_from: usize,
        outer: Context,
        mut build: impl FnMut(&mut Self, Pair<Rule>) -> Option<T>,
    ) -> Vec<T> {
        let mut items = Vec::new();
        if let Some(misread) = kids.only(Rule::misread) {
            self.sound(outer, misread, head_from);
        }
        let Some(open) = kids.only(Rule::open) else { return items };
        let opener = open.as_span().start();
        let mut last = opener;
        for kid in kids {
            let start = kid.as_span().start();
            let before = if kid.as_rule() == Rule::unclosed { opener } else { last };
            if let Some(kid) = self.sound(context, kid, before) {
                last = start;
                let (span, told) = (self.span(&kid), self.mistakes.len());
                match build(self, kid) {
                    Some(item) => items.push(item),
                    // What it is that cannot be read may have been told.
                    None if self.mistakes.len() > told => {}
                    None => self.mistakes.push(super::slips::unread(span)),
                }
            }
        }
        items
    }
}

/// A text without its quotes, `\"` and `\\` undone.
fn unquoted(quoted: &str) -> Arc<str> {
    let inner = quoted.strip_prefix('"').unwrap_or(quoted);
    let inner = inner.strip_suffix('"').unwrap_or(inner);
    if !inner.contains('\\') {
        return Arc::from(inner);
    }
    let mut plain = String::with_capacity(inner.len());
    let mut characters = inner.chars().peekable();
    while let Some(character) = characters.next() {
        match (character, characters.peek()) {
            ('\\', Some(&next @ ('"' | '\\'))) => {
                plain.push(next);
                characters.next();
            }
            _ => plain.push(character),
        }
    }
    Arc::from(plain)
}

/// `left` or `right`.
fn hand_of(pair: &Pair<Rule>) -> Hand {
    match pair.as_rule() {
        Rule::k_left => Hand::Left,
        _ => Hand::Right,
    }
}

/// `on left`, if it is said there.
fn on_side(kids: &mut Kids) -> Option<Hand> {
    match kids.has(Rule::k_on) {
        true => kids.next().map(|hand| hand_of(&hand)),
        false => None,
    }
}
