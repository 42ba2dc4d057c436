//! Damaged statements become messages: each independent one, and one message for each.

use super::build::{Context, Damage, DamageKind};
use super::expected::{expected, fits};
use super::explain::{Snippet, explain};
use super::forms;
use super::grammar::Rule;
use super::scan::Scan;
use super::words::KEYWORDS;
use crate::limits;
use crate::report::{Diagnostic, catalogue};
use crate::source::Span;
use pest::error::InputLocation;
use std::sync::Arc;

/// Puts every damage into a message, and gathers the words that were lost with them.
pub(super) fn recover(
    scan: &Scan,
    base: u32,
    damages: &[Damage],
    slips: &[Diagnostic],
) -> (Vec<Diagnostic>, Vec<Arc<str>>) {
    let mut recovery = Recovery { scan, base, reported: Vec::new(), opener_lost: false, below_from: None };
    let mut lost_words: Vec<Arc<str>> = Vec::new();
    let mut at = 0;
    while let Some(damage) = damages.get(at) {
        if recovery.reported.len() >= limits::DAMAGES {
            recovery.reported.push(rest_of(damages.len() - at, recovery.span(damage.at, damage.to)));
            break;
        }
        let after_slip = slips.iter().any(|slip| recovery.touches(slip.span(), damage.at));
        let rest = damages.get(at..).unwrap_or_default();
        let dealt_with = if recovery.too_deep(damage) || after_slip { 1 } else { recovery.report(rest) };
        lost_words.extend(rest.iter().take(dealt_with).flat_map(|damage| recovery.words_lost(damage)));
        at += dealt_with;
    }
    lost_words.sort();
    lost_words.dedup();
    (recovery.reported, lost_words)
}

/// Where lines stand that may have lost the braces around them.
const INNER: [Context; 11] = [
    Context::Piece,
    Context::Walk,
    Context::Body,
    Context::FittedBody,
    Context::Fabric,
    Context::Seam,
    Context::Place,
    Context::Closure,
    Context::Strap,
    Context::Steps,
    Context::Group,
];

struct Recovery<'a, 't> {
    scan: &'a Scan<'t>,
    base: u32,
    reported: Vec<Diagnostic>,
    /// A `{` was lost, so that what should stand in its braces stands outside, and a `}` too many.
    opener_lost: bool,
    /// Where a line ended that ends too early: the next line may hold the rest of it.
    below_from: Option<usize>,
}

impl Recovery<'_, '_> {
    /// Reports the first of these damages; gives how many are dealt with.
    fn report(&mut self, damages: &[Damage]) -> usize {
        let Some(damage) = damages.first() else { return 1 };
        match damage.kind {
            DamageKind::Unclosed => {
                if let Some((message, dealt_with)) = self.belongs_outside(damages) {
                    self.reported.push(message);
                    // Of lines that belong in the braces, those that are damaged there too.
                    for damage in damages.iter().take(dealt_with - 1).skip(1) {
                        if self.orphan(damage) {
                            continue;
                        }
                        if let Some(context) = self.where_it_belongs(damage) {
                            self.explain(&Damage { context, ..*damage });
                        }
                    }
                    return dealt_with;
                }
                self.reported.push(self.unclosed(damage));
                1
            }
            DamageKind::Stray if self.opener_lost => {
                self.opener_lost = false;
                1
            }
            DamageKind::Stray => {
                let span = self.span(damage.at, damage.to);
                self.reported.push(
                    Diagnostic::new(&catalogue::SYNTAX_STRAY_BRACE, span, "this `}` closes nothing")
                        .label("no `{` is open here")
                        .help("remove it, or write the `{` that it should close"),
                );
                1
            }
            DamageKind::Bad if damage.context == Context::Fitting && self.is_row_of_wearer(damage) => {
                self.rows_without_body(damages)
            }
            DamageKind::Bad if self.goes_on_from_above(damage) => 1,
            DamageKind::Bad | DamageKind::Extra if self.orphan(damage) => self.orphans(damages),
            _ => {
                self.explain(damage);
                1
            }
        }
    }

    fn is_row_of_wearer(&self, damage: &Damage) -> bool {
        let found = self.scan.text.get(damage.from..damage.to).unwrap_or("");
        fits(Context::FittedBody, self.without_last_note(damage.from, damage.to, found))
    }

    /// A wearer's rows that stand in no `body`: one message for all of them.
    fn rows_without_body(&mut self, damages: &[Damage]) -> usize {
        let is_row = |damage: &&Damage| {
            damage.kind == DamageKind::Bad
                && damage.context == Context::Fitting
                && self.is_row_of_wearer(damage)
        };
        let run: Vec<&Damage> = damages.iter().take_while(is_row).collect();
        if let (Some(first), Some(last)) = (run.first(), run.last()) {
            let span = self.span(first.from, last.to);
            self.reported.push(
                Diagnostic::new(
                    &catalogue::SYNTAX_EXPECTED,
                    span,
                    "a wearer's measures stand in the braces of `body`",
                )
                .label("in no `body`")
                .help("write fitting \"…\" of \"….fus\" { body { chest 101; the rest as M } }"),
            );
        }
        run.len()
    }

    fn explain(&mut self, damage: &Damage) {
        let text = &*self.scan.text;
        let found = text.get(damage.from..damage.to).unwrap_or("");
        let snippet = Snippet {
            text: self.without_last_note(damage.from, damage.to, found),
            from: damage.from,
            damage: *damage,
            open_text: self.open_text_within(damage),
            base: self.base,
        };
        let explained = explain(&snippet);
        self.opener_lost |= explained.opener_lost;
        self.below_from = explained.goes_on_below.then_some(damage.to);
        self.reported.push(explained.diagnostic);
    }

    /// The statement without blanks and a note at its end.
    fn without_last_note<'s>(&self, from: usize, to: usize, found: &'s str) -> &'s str {
        let kept = found.trim_end();
        let note = self.scan.notes.binary_search_by_key(&(from + kept.len()), |&(_, end)| end).ok();
        let note = note.and_then(|at| self.scan.notes.get(at)).filter(|note| note.0 >= from && note.0 < to);
        match note {
            Some(&(start, _)) => found.get(..start - from).unwrap_or(found).trim_end(),
            None => kept,
        }
    }

    fn open_text_within(&self, damage: &Damage) -> Option<usize> {
        let first = self.scan.open_texts.partition_point(|&at| at < damage.from);
        self.scan.open_texts.get(first).copied().filter(|&at| at < damage.to)
    }

    /// Lines that belong in braces but stand outside: one message if a `}` too many ends them.
    fn orphans(&mut self, damages: &[Damage]) -> usize {
        let Some(first) = damages.first() else { return 1 };
        if self.opener_lost {
            return 1;
        }
        let run = damages
            .iter()
            .take_while(|damage| damage.kind != DamageKind::Stray && self.orphan(damage))
            .count();
        match damages.get(run) {
            Some(stray) if stray.kind == DamageKind::Stray => {
                let span = self.span(stray.at, stray.to);
                let line = self.first_line(first);
                self.reported.push(
                    Diagnostic::new(&catalogue::SYNTAX_STRAY_BRACE, span, "there is one `}` too many before this one")
                        .label("no `{` is left for this `}`")
                        .also(line, "from here on, lines are outside the braces that they belong in")
                        .help("write the line that opens their braces above the first of them, or take away the `}` before it"),
                );
                run + 1
            }
            _ => {
                self.explain(first);
                1
            }
        }
    }

    /// A line that would be right in other braces than those it stands in.
    fn orphan(&self, damage: &Damage) -> bool {
        let outside =
            matches!(damage.context, Context::File | Context::Fitting | Context::Piece | Context::Steps);
        if !outside || !matches!(damage.kind, DamageKind::Bad | DamageKind::Extra) {
            return false;
        }
        let found = self.scan.text.get(damage.from..damage.to).unwrap_or("");
        let line = self.without_last_note(damage.from, damage.to, found);
        let elsewhere = |part: &str| INNER.iter().any(|&inner| inner != damage.context && fits(inner, part));
        if damage.kind == DamageKind::Bad && elsewhere(line) {
            return true;
        }
        let mut parts = line.split(';').map(str::trim).filter(|part| !part.is_empty());
        line.contains(';') && !line.contains('{') && parts.all(elsewhere)
    }

    /// The braces in which a line that begins like this one stands, where it does not stand outside of any.
    fn where_it_belongs(&self, damage: &Damage) -> Option<Context> {
        let line = self.scan.text.get(damage.from..damage.to)?;
        let end = line.find(|one: char| !one.is_alphanumeric() && one != '_').unwrap_or(line.len());
        let is_outside = damage.kind == DamageKind::Bad && damage.context == Context::File;
        line.get(..end).filter(|_| is_outside).and_then(|word| forms::elsewhere(damage.context, word))
    }

    /// A line that holds what was lost at the end of the line above.
    fn goes_on_from_above(&mut self, damage: &Damage) -> bool {
        let Some(end) = self.below_from.take() else { return false };
        self.scan.text.get(end..damage.from).is_some_and(|between| between.trim().is_empty())
    }

    /// A statement that belongs outside stands among lines of braces, which are closed after it: one message for all.
    fn belongs_outside(&self, damages: &[Damage]) -> Option<(Diagnostic, usize)> {
        let (opener, rest) = damages.split_first()?;
        let is_within = |damage: &&Damage| self.orphan(damage) || self.where_it_belongs(damage).is_some();
        let run =
            rest.iter().take_while(|damage| damage.kind != DamageKind::Stray && is_within(damage)).count();
        let (first, closing) = (rest.first()?, rest.get(run)?);
        if run == 0 || closing.kind != DamageKind::Stray {
            return None;
        }
        let between = self.scan.text.get(opener.at..first.from)?;
        let from = opener.at + between.len() - between.trim_start().len();
        let word: String =
            self.scan.text.get(from..)?.chars().take_while(|one| one.is_alphabetic()).collect();
        let line = self.span(from, self.line_end(from));
        let message = Diagnostic::new(
            &catalogue::SYNTAX_UNKNOWN_STATEMENT,
            line,
            format!("`{word}` does not belong in these braces"),
        )
        .label("belongs outside of them")
        .also(self.span(opener.from, opener.from + 1), "opened here")
        .also(self.span(closing.at, closing.to), "closed here")
        .help("move it above the line that opens the braces");
        (!word.is_empty()).then_some((message, 2 + run))
    }

    fn unclosed(&self, damage: &Damage) -> Diagnostic {
        let opener = self.span(damage.from, damage.from + 1);
        let message = Diagnostic::new(&catalogue::SYNTAX_UNCLOSED, opener, "this `{` is never closed")
            .label("opened here")
            .help("write its `}` where it should end");
        let rest = self.scan.text.get(damage.at..).unwrap_or("");
        let lost = rest.len() - rest.trim_start().len();
        if rest.trim_start().is_empty() {
            return message;
        }
        let next = damage.at + lost;
        message.also(self.span(next, self.line_end(next)), "this line can only belong after its `}`")
    }

    /// Damage that stands where brackets were too deep: that has been reported.
    fn too_deep(&self, damage: &Damage) -> bool {
        let after = self.scan.deep.partition_point(|&(_, to)| to < damage.from);
        self.scan.deep.get(after).is_some_and(|&(from, _)| from <= damage.to.max(damage.at))
    }

    /// Whether a slip ends where the damage begins, blanks apart.
    fn touches(&self, slip: Span, at: usize) -> bool {
        let end = (slip.hi - self.base) as usize;
        end <= at && self.scan.text.get(end..at).is_some_and(|between| between.trim().is_empty())
    }

    /// The words of a damaged statement that a maker chose.
    fn words_lost(&self, damage: &Damage) -> Vec<Arc<str>> {
        if !matches!(damage.kind, DamageKind::Bad | DamageKind::Extra) {
            return Vec::new();
        }
        // A whole statement before the damage has declared its name; a line that could not be read has not.
        let from = if damage.kind == DamageKind::Bad { damage.from } else { damage.at };
        let text = self.scan.text.get(from..damage.to).unwrap_or("");
        let words = text.split(|character: char| !(character.is_alphanumeric() || character == '_'));
        let words = words.filter(|word| word.starts_with(char::is_alphabetic));
        // The second word of a line is the name that it declares, though it may read as a keyword.
        let declared = if damage.kind == DamageKind::Bad { 1 } else { usize::MAX };
        words
            .enumerate()
            .filter(|(at, word)| *at == declared || !KEYWORDS.contains(word))
            .map(|(_, word)| Arc::from(word))
            .collect()
    }

    fn first_line(&self, damage: &Damage) -> Span {
        self.span(damage.from, self.line_end(damage.from).min(damage.to))
    }

    fn line_end(&self, from: usize) -> usize {
        let rest = self.scan.text.get(from..).unwrap_or("");
        from + rest.lines().next().map_or(0, |line| line.trim_end().len())
    }

    fn span(&self, lo: usize, hi: usize) -> Span {
        Span::new(self.base + lo as u32, self.base + hi as u32)
    }
}

fn rest_of(count: usize, span: Span) -> Diagnostic {
    Diagnostic::new(
        &catalogue::SYNTAX_EXPECTED,
        span,
        format!("{count} more places from here on cannot be read"),
    )
    .label("the first of them")
    .help("fix those above first: many of these may disappear with them")
}

/// A text that the grammar does not take at all. The grammar takes every text, damage and all, so
/// that no text is known that makes this.
pub(super) fn unreadable(error: &pest::error::Error<Rule>, base: u32, text: &str) -> Diagnostic {
    let at = match error.location {
        InputLocation::Pos(at) | InputLocation::Span((at, _)) => at.min(text.len()) as u32,
    };
    let wanted = expected(Context::File, text.get(at as usize..).unwrap_or("")).map(|wanted| wanted.list());
    Diagnostic::new(
        &catalogue::SYNTAX_EXPECTED,
        Span::new(base + at, base + at),
        "from here on the file cannot be read",
    )
    .help(format!("what would fit: {}", wanted.unwrap_or_default()))
}
