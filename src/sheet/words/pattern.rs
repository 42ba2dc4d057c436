//! Patterns of sentences: plain words with named slots, `{what}`, and trade terms, `[ease]` or `[ease|Ease]`, of which the
//! first is the term's key in the glossary and the second how it stands here.

use crate::sheet::{Run, Text};

/// A part of a pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PatternPart {
    /// Words as they stand.
    Words(&'static str),
    /// What is put in, by name.
    Slot(&'static str),
    /// A trade term: its key, and its words here.
    Term(&'static str, &'static str),
}

/// A pattern of a table of words.
#[derive(Clone, Copy, Debug)]
pub struct Pattern {
    /// What the table calls it.
    pub name: &'static str,
    /// As the language has it.
    pub text: &'static str,
    /// What has to be put in.
    pub slots: &'static [&'static str],
}

/// The parts of a pattern, in order. What is not closed is words.
pub fn parts(pattern: &'static str) -> Vec<PatternPart> {
    let mut parts = Vec::new();
    let mut rest = pattern;
    while let Some(at) = rest.find(['{', '[']) {
        let (before, from) = rest.split_at(at);
        let end = if from.starts_with('{') { '}' } else { ']' };
        let Some(close) = from.find(end) else { break };
        if !before.is_empty() {
            parts.push(PatternPart::Words(before));
        }
        let inside = from.get(1..close).unwrap_or_default();
        parts.push(match (end, inside.split_once('|')) {
            ('}', _) => PatternPart::Slot(inside),
            (_, Some((key, words))) => PatternPart::Term(key, words),
            (_, None) => PatternPart::Term(inside, inside),
        });
        rest = from.get(close + 1..).unwrap_or_default();
    }
    if !rest.is_empty() {
        parts.push(PatternPart::Words(rest));
    }
    parts
}

/// The pattern with these in its slots.
pub(super) fn filled(pattern: &'static str, slots: &[(&str, Text)]) -> Text {
    let mut text = Text::default();
    for part in parts(pattern) {
        match part {
            PatternPart::Words(words) => text.0.push(Run::Words(words.to_owned())),
            PatternPart::Term(key, words) => text.0.push(Run::Term(key, words.to_owned())),
            PatternPart::Slot(name) => {
                let put_in =
                    slots.iter().find(|(slot, _)| *slot == name).map_or(&[][..], |(_, put_in)| &put_in.0);
                match (put_in, text.0.last_mut()) {
                    // Where there is nothing to put in, the blank before it goes too.
                    ([], Some(Run::Words(before))) if before.ends_with(' ') => {
                        before.pop();
                    }
                    _ => text.0.extend(put_in.iter().cloned()),
                }
            }
        }
    }
    text
}

/// Declares a table of patterns: a field for each, which a language fills, and a method of the same name that puts in what
/// its slots ask for. A language that lacks a pattern does not compile, nor does a sentence that leaves a slot open.
macro_rules! patterns {
    ($(#[$about:meta])* $table:ident { $($(#[$doc:meta])* $name:ident($($slot:ident),*);)* }) => {
        $(#[$about])*
        #[derive(Clone, Copy, Debug)]
        pub struct $table {
            $($(#[$doc])* pub $name: &'static str,)*
        }

        impl $table {
            $($(#[$doc])*
            pub fn $name(&self, $($slot: impl Into<$crate::sheet::Text>),*) -> $crate::sheet::Text {
                $crate::sheet::words::pattern::filled(self.$name, &[$((stringify!($slot), $slot.into())),*])
            })*

            /// All patterns, in the order of their declaration.
            pub fn patterns(&self) -> Vec<$crate::sheet::words::Pattern> {
                vec![$($crate::sheet::words::Pattern {
                    name: stringify!($name),
                    text: self.$name,
                    slots: &[$(stringify!($slot)),*],
                }),*]
            }
        }
    };
}

pub(super) use patterns;

#[cfg(test)]
mod tests {
    use super::{PatternPart, filled, parts};
    use crate::sheet::{Run, Text};

    #[test]
    fn a_pattern_is_words_slots_and_terms() {
        let all = parts("[ease|Ease] {what} in: [notch] {by}.");
        assert_eq!(
            all,
            [
                PatternPart::Term("ease", "Ease"),
                PatternPart::Words(" "),
                PatternPart::Slot("what"),
                PatternPart::Words(" in: "),
                PatternPart::Term("notch", "notch"),
                PatternPart::Words(" "),
                PatternPart::Slot("by"),
                PatternPart::Words("."),
            ]
        );
    }

    #[test]
    fn what_is_put_in_is_never_read_as_a_pattern() {
        let text = filled("Sew {what}.", &[("what", Text::words("{what} [ease] <b>"))]);
        let words = |words: &str| Run::Words(words.to_owned());
        assert_eq!(text.0, [words("Sew "), words("{what} [ease] <b>"), words(".")]);
    }
}
