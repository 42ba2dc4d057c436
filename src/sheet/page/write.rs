//! Words and figures as HTML: escaped, bounded, with figures that follow the size that is chosen.

use super::figures::{Numbers, Written};
use crate::sheet::{Figure, Run, SIGNS, Text};
use indexmap::IndexSet;
use minijinja::Value;
use std::fmt::Write as _;

/// HTML that is safe as it stands.
pub type Html = Value;

/// Letters of a name that are shown at most: a title of ten thousand is no title.
pub const NAME_LETTERS: usize = 120;
/// Letters of what a maker says that are shown at most.
pub const SAID_LETTERS: usize = 2_000;

/// What ends a part of a sentence: one byte each.
const CLOSING: [char; 4] = [',', '.', ':', ';'];

/// Writes text.
pub struct Writer {
    /// How numbers are written.
    pub numbers: Numbers,
    /// Keys of the terms that were met, in the order in which they were.
    pub terms: IndexSet<&'static str>,
}

impl Writer {
    /// Text as those hear it who do not see it: of all sizes, and without marks.
    pub fn plain(&self, text: &Text) -> String {
        let mut words = String::new();
        for run in &text.0 {
            match run {
                Run::Words(said) | Run::Term(_, said) | Run::Letter(said) => words.push_str(said),
                Run::Piece(number, None) => words.push_str(&number.to_string()),
                Run::Piece(number, Some(title)) => {
                    words.push_str(&format!("{number} {}", bounded(title, NAME_LETTERS)));
                }
                Run::Sign(at) => words.push_str(sign(*at)),
                Run::Figure(figure) => words.push_str(&self.numbers.over_all(figure).main),
            }
        }
        words
    }

    /// Text as HTML. The first time that a term is met it leads to the glossary.
    pub fn html(&mut self, text: &Text) -> String {
        let mut html = String::new();
        let mut before: Option<&Run> = None;
        for (at, run) in text.0.iter().enumerate() {
            // What ends a part of a sentence stays on the line of the letter before it.
            let closes = |run: Option<&Run>| match run {
                Some(Run::Words(words)) => words.chars().next().filter(|letter| CLOSING.contains(letter)),
                _ => None,
            };
            let closing = closes(text.0.get(at + 1));
            let was_closed = matches!(before, Some(Run::Letter(_))) && closes(Some(run)).is_some();
            before = Some(run);
            // Writing to a String cannot fail.
            let _ = match run {
                Run::Words(words) => {
                    let words = if was_closed { words.get(1..).unwrap_or_default() } else { words };
                    write!(html, "{}", isolated(words, SAID_LETTERS))
                }
                Run::Term(key, words) => match self.terms.insert(key) {
                    true => write!(html, "<a class=\"term\" href=\"#word-{key}\">{}</a>", escaped(words)),
                    false => write!(html, "{}", escaped(words)),
                },
                Run::Piece(number, title) => write!(html, "{}", piece(*number, title.as_deref())),
                Run::Letter(letter) => match closing {
                    Some(closing) => write!(
                        html,
                        "<span class=\"together\"><b class=\"letter\">{}</b>{closing}</span>",
                        escaped(letter)
                    ),
                    None => write!(html, "<b class=\"letter\">{}</b>", escaped(letter)),
                },
                Run::Sign(at) => write!(html, "<span class=\"sign\">{}</span>", sign(*at)),
                Run::Figure(figure) => write!(html, "{}", self.figure(figure)),
            };
        }
        html
    }

    /// A figure in a line of text: "14.8 to 18.9 cm (5⅞ to 7½ in)", or that of the size that is chosen.
    pub fn figure(&self, figure: &Figure) -> String {
        let in_line = |written: &Written| match &written.beside {
            Some(beside) => {
                format!("{} <span class=\"in\">({})</span>", escaped(&written.main), escaped(beside))
            }
            None => escaped(&written.main),
        };
        let all = in_line(&self.numbers.over_all(figure));
        let own: Vec<String> = figure
            .values
            .iter()
            .map(|value| {
                value.map_or_else(
                    || "–".to_owned(),
                    |value| in_line(&self.numbers.written(figure.kind, &[value])),
                )
            })
            .collect();
        self.by_size(&all, &own)
    }

    /// What is read of all sizes, and of each that is chosen.
    pub fn by_size(&self, all: &str, own: &[String]) -> String {
        if own.len() < 2 || own.iter().all(|one| one == all) {
            return all.to_owned();
        }
        let mut html = format!("<span class=\"all\">{all}</span>");
        for (at, one) in own.iter().enumerate() {
            let _ = write!(html, "<span class=\"z z{at}\">{one}</span>");
        }
        html
    }
}

/// A piece's number in its ring.
pub fn ring(number: usize) -> String {
    format!("<b class=\"ring\">{number}</b>")
}

/// A piece by its number and its name, which stay on one line where the name is short.
fn piece(number: usize, title: Option<&str>) -> String {
    const SHORT: usize = 20;
    let ring = ring(number);
    match title {
        None => ring,
        Some(title) if title.chars().count() <= SHORT => {
            format!("<span class=\"together\">{ring} {}</span>", isolated(title, NAME_LETTERS))
        }
        Some(title) => format!("{ring}&#160;{}", isolated(title, NAME_LETTERS)),
    }
}

/// The sign of points that meet.
fn sign(at: usize) -> &'static str {
    const DRAWN: [&str; SIGNS] = ["○", "△", "□", "◇", "✕", "●", "▲", "■", "◆", "✚"];
    DRAWN.get(at).copied().unwrap_or_default()
}

/// Words as text of HTML and of XML: marks of markup escaped, and what neither may hold left out.
pub fn escaped(words: &str) -> String {
    let mut text = String::with_capacity(words.len());
    for letter in words.chars() {
        match letter {
            '&' => text.push_str("&amp;"),
            '<' => text.push_str("&lt;"),
            '>' => text.push_str("&gt;"),
            '"' => text.push_str("&quot;"),
            '\'' => text.push_str("&#39;"),
            '\n' | '\t' | '\r' => text.push(' '),
            // XML 1.0, 2.2: these are no characters of a document.
            '\0'..='\x1f' | '\x7f'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => {}
            other => text.push(other),
        }
    }
    text
}

/// What is told of a picture, without what no document may hold; whoever writes it escapes it.
pub fn told(words: &str) -> String {
    let is_character = |letter: &char| !letter.is_control() && !matches!(letter, '\u{fffe}' | '\u{ffff}');
    bounded(&words.chars().filter(is_character).collect::<String>(), SAID_LETTERS)
}

/// At most so many letters, with a sign where there were more.
pub fn bounded(words: &str, letters: usize) -> String {
    match words.char_indices().nth(letters) {
        Some((end, _)) => format!("{}…", words[..end].trim_end()),
        None => words.to_owned(),
    }
}

/// A maker's words: escaped, bounded, and where they may run from right to left kept from turning what stands beside them.
pub fn isolated(words: &str, letters: usize) -> String {
    let text = escaped(&bounded(words, letters));
    let turns = |letter: char| matches!(letter, '\u{590}'..='\u{8ff}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{fb1d}'..='\u{fdff}' | '\u{fe70}'..='\u{fefc}');
    if words.chars().any(turns) { format!("<bdi>{text}</bdi>") } else { text }
}

/// The same as a value of a template.
pub fn said(words: &str, letters: usize) -> Html {
    Value::from_safe_string(isolated(words, letters))
}

/// A name of the text as people read it: "back_waist" is "Back waist".
pub fn spoken(name: &str) -> String {
    let words = name.replace('_', " ");
    let mut letters = words.chars();
    letters.next().into_iter().flat_map(char::to_uppercase).chain(letters).collect()
}

#[cfg(test)]
mod tests {
    use super::{bounded, escaped, isolated};

    #[test]
    fn markup_is_text() {
        assert_eq!(escaped("<b>\"it's\" & more\u{1}"), "&lt;b&gt;&quot;it&#39;s&quot; &amp; more");
        assert_eq!(bounded("öäü and more", 3), "öäü…");
        assert_eq!(isolated("שלום", 9), "<bdi>שלום</bdi>");
        assert_eq!(isolated("plain 🧵", 9), "plain 🧵");
    }
}
