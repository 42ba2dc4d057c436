use std::fmt;
use std::ops::Deref;

/// The sentence of a message, with the places where the sizes are named when it turns out in which of
/// them it happens.
///
/// A place is where [`Title::in_sizes`] was called and nowhere else: what a maker wrote is text,
/// whatever it looks like. Read as a string it is the sentence for a garment of one size, which needs
/// no mention of sizes.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Title {
    text: String,
    /// Offsets into the text, ascending.
    places: Vec<(usize, Place)>,
}

/// How the sizes are named at a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum Place {
    /// "in every size".
    Sizes,
    /// "in any size", after "not" or "no".
    AnySize,
}

impl Title {
    /// A sentence, or its beginning.
    pub fn new(text: impl Into<String>) -> Self {
        Title { text: text.into(), places: Vec::new() }
    }

    /// Here the sizes are named: "the side is too short" goes on "in M to 2XL".
    pub fn in_sizes(self) -> Self {
        self.at(Place::Sizes)
    }

    /// Here the sizes are named after "not" or "no": what fails in every size "does not match" goes on
    /// "in any size".
    pub fn in_any_size(self) -> Self {
        self.at(Place::AnySize)
    }

    /// Goes on with more text.
    pub fn then(mut self, text: impl AsRef<str>) -> Self {
        self.text.push_str(text.as_ref());
        self
    }

    /// The sentence.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The sentence for those sizes: `words` is "in M to 2XL" or "in every size", empty where the
    /// garment has one size; `more` follows the sizes at once.
    pub(super) fn naming(&self, words: &str, more: &str) -> Title {
        let mut text = String::with_capacity(self.text.len() + words.len() + more.len() + 1);
        let mut from = 0;
        for &(at, place) in self.places.iter().filter(|_| !words.is_empty()) {
            let words = match place {
                Place::AnySize if words == IN_EVERY_SIZE => "in any size",
                _ => words,
            };
            text.push_str(self.text.get(from..at).unwrap_or(""));
            text.push(' ');
            text.push_str(words);
            text.push_str(more);
            from = at;
        }
        text.push_str(self.text.get(from..).unwrap_or(""));
        Title::new(text)
    }

    fn at(mut self, place: Place) -> Self {
        self.places.push((self.text.len(), place));
        self
    }
}

/// How it is said that a message is about all the sizes of a garment.
pub(super) const IN_EVERY_SIZE: &str = "in every size";

impl Deref for Title {
    type Target = str;

    fn deref(&self) -> &str {
        &self.text
    }
}

impl fmt::Display for Title {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        formatter.pad(&self.text)
    }
}

impl From<String> for Title {
    fn from(text: String) -> Self {
        Title::new(text)
    }
}

impl From<&str> for Title {
    fn from(text: &str) -> Self {
        Title::new(text)
    }
}

impl From<Title> for String {
    fn from(title: Title) -> Self {
        title.text
    }
}

impl PartialEq<str> for Title {
    fn eq(&self, other: &str) -> bool {
        self.text == other
    }
}

impl PartialEq<&str> for Title {
    fn eq(&self, other: &&str) -> bool {
        self.text == *other
    }
}

impl PartialEq<String> for Title {
    fn eq(&self, other: &String) -> bool {
        self.text == *other
    }
}
