use super::tokens::{Token, TokenKind, tokens};
use crate::syntax::Context;

/// Where somebody is writing.
#[derive(Clone, Debug)]
pub(super) struct Cursor {
    /// Which statements are right there.
    pub context: Context,
    /// Inside a note or a text.
    pub inside: Option<TokenKind>,
    /// In braces that hold a mere list, as a layer's.
    pub in_list: bool,
    /// Where the word that is being written begins, and where the one it is in ends.
    pub word: (usize, usize),
    /// The names before its dots, outermost first.
    pub heads: Vec<String>,
    /// The tokens of the statement before the word and its heads.
    pub before: Vec<Token>,
    /// Where the statement begins.
    pub start: usize,
    /// Where the word's heads begin, or the word where there are none.
    pub end: usize,
    /// The tokens of the statements whose braces this stands in, outermost first.
    pub around: Vec<Vec<Token>>,
}

struct Block {
    context: Context,
    list: bool,
    head: Vec<Token>,
}

impl Cursor {
    /// At a byte of a text.
    pub fn at(text: &str, offset: usize) -> Cursor {
        let all = tokens(text);
        let mut blocks: Vec<Block> = Vec::new();
        let mut statement: Vec<Token> = Vec::new();
        let mut round = 0usize;
        let mut inside = None;
        let mut word = (offset, offset);
        for token in all.iter().copied() {
            if token.lo >= offset {
                break;
            }
            let reaches = offset <= token.hi;
            match token.kind {
                TokenKind::Word if reaches => {
                    word = (token.lo, token.hi);
                    break;
                }
                TokenKind::Note if reaches => inside = Some(token.kind),
                TokenKind::Text if offset < token.hi || reaches && !closed(token, text) => {
                    inside = Some(token.kind);
                }
                TokenKind::Note => {}
                TokenKind::LineEnd => {
                    let goes_on = statement.last().is_some_and(|last| last.is(','));
                    let begins = round > 0 && begins_statement(&all, token.hi, text);
                    if !goes_on && (round == 0 || begins) && !blocks.last().is_some_and(|block| block.list) {
                        statement.clear();
                        round = 0;
                    }
                }
                TokenKind::Sign('(') => {
                    round += 1;
                    statement.push(token);
                }
                TokenKind::Sign(')') => {
                    round = round.saturating_sub(1);
                    statement.push(token);
                }
                TokenKind::Sign('{') => {
                    let outer = blocks.last().map_or(Context::File, |block| block.context);
                    let (context, list) = opened(outer, &statement, text);
                    blocks.push(Block { context, list, head: std::mem::take(&mut statement) });
                    round = 0;
                }
                TokenKind::Sign('}') => {
                    blocks.pop();
                    statement.clear();
                    round = 0;
                }
                TokenKind::Sign(';') if !blocks.is_empty() => statement.clear(),
                _ => statement.push(token),
            }
        }
        let heads = take_heads(&mut statement, word.0);
        let end = heads.first().map_or(word.0, |head| head.lo);
        Cursor {
            context: blocks.last().map_or(Context::File, |block| block.context),
            inside,
            in_list: blocks.last().is_some_and(|block| block.list),
            word,
            heads: heads.iter().map(|head| head.text(text).to_owned()).collect(),
            start: statement.first().map_or(end, |first| first.lo),
            before: statement,
            end,
            around: blocks.into_iter().map(|block| block.head).collect(),
        }
    }

    /// The words of the statement up to what is being written.
    pub fn written<'t>(&self, text: &'t str) -> &'t str {
        text.get(self.start..self.end).unwrap_or("")
    }

    /// The words of the statement before, without signs, numbers and texts.
    pub fn words<'t>(&self, text: &'t str) -> Vec<&'t str> {
        words(&self.before, text)
    }

    /// The words of the innermost statement whose braces this stands in.
    pub fn head_words<'t>(&self, text: &'t str) -> Vec<&'t str> {
        self.around.last().map_or_else(Vec::new, |head| words(head, text))
    }

    /// The words of the piece whose braces this stands in, an outline's in it or not.
    pub fn piece_name<'t>(&self, text: &'t str) -> Option<&'t str> {
        self.around.iter().find_map(|head| {
            let words = words(head, text);
            let at = words.iter().position(|&word| word == "piece")?;
            words.get(at + 1).copied()
        })
    }
}

pub(super) fn words<'t>(tokens: &[Token], text: &'t str) -> Vec<&'t str> {
    tokens.iter().filter(|token| token.kind == TokenKind::Word).map(|token| token.text(text)).collect()
}

fn closed(token: Token, text: &str) -> bool {
    token.hi - token.lo >= 2 && token.text(text).ends_with('"')
}

/// Whether a line begins like a statement, so that an open bracket above is a slip.
fn begins_statement(all: &[Token], from: usize, text: &str) -> bool {
    const FIRST: &[&str] =
        &["piece", "seam", "finish", "closure", "let", "point", "fabric", "layer", "place"];
    let next = all.partition_point(|token| token.lo < from);
    let pair = (all.get(next), all.get(next + 1));
    matches!(pair, (Some(first), Some(second)) if FIRST.contains(&first.text(text)) && second.kind == TokenKind::Word)
}

/// What stands in the braces that a statement opens, and whether that is a mere list.
fn opened(outer: Context, statement: &[Token], text: &str) -> (Context, bool) {
    let words = words(statement, text);
    let first = match words.first() {
        Some(&"replace") => words.get(1),
        first => first,
    };
    let first = first.copied().unwrap_or("");
    match (outer, first) {
        (Context::File, "body") => (Context::Body, false),
        (Context::File, "fitting") => (Context::Fitting, false),
        (Context::Fitting, "body") => (Context::FittedBody, false),
        (Context::File, "fabric") => (Context::Fabric, false),
        (Context::File, "piece" | "block") => (Context::Piece, false),
        (Context::File, "seam") => (Context::Seam, false),
        (Context::File, "place") => (Context::Place, false),
        (Context::File, "closure") => (Context::Closure, false),
        (Context::File, "strap") => (Context::Strap, false),
        (Context::File, "steps") => (Context::Steps, false),
        (Context::File, "in") if words.get(1) == Some(&"piece") => (Context::Piece, false),
        (Context::File, "in") => (Context::Group, false),
        (Context::File, "finish") => (Context::Seam, true),
        (Context::Piece, "outline") => (Context::Walk, false),
        (Context::Steps, _) => (Context::Group, false),
        (other, _) => (other, true),
    }
}

/// Takes the names before dots off the end of a statement.
fn take_heads(statement: &mut Vec<Token>, word: usize) -> Vec<Token> {
    let mut heads = Vec::new();
    let mut next = word;
    while let [.., name, dot] = statement.as_slice() {
        let touches = dot.is('.') && dot.hi == next && name.hi == dot.lo;
        if !touches || name.kind != TokenKind::Word || heads.len() == 2 {
            break;
        }
        next = name.lo;
        heads.push(*name);
        statement.truncate(statement.len() - 2);
    }
    heads.reverse();
    heads
}

/// The names before the dots of the word that begins there: `outer`, `front` of `outer.front.hem`.
pub(super) fn heads_of(text: &str, word: usize) -> Vec<&str> {
    let mut heads = Vec::new();
    let mut before = text.get(..word).unwrap_or("");
    while let Some(rest) = before.strip_suffix('.').filter(|_| heads.len() < 2) {
        let start = rest.rfind(|c| !super::tokens::in_word(c)).map_or(0, |at| {
            at + rest.get(at..).and_then(|tail| tail.chars().next()).map_or(1, char::len_utf8)
        });
        let Some(name) = rest.get(start..).filter(|name| !name.is_empty()) else { break };
        heads.push(name);
        before = rest.get(..start).unwrap_or("");
    }
    heads.reverse();
    heads
}
