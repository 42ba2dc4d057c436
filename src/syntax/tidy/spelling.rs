use crate::source::{SourceMap, Span};
use crate::syntax::tree::{Expr, Grade, Price, Quantity, SizeName, Text, Unit};

/// How numbers and texts are spelt. A tree knows what they say; how the maker wrote them is in the
/// source.
pub trait Spelling {
    /// A number with its unit: `6 1/2in`.
    fn quantity(&self, quantity: &Quantity) -> String;
    /// A text with its quotes.
    fn text(&self, text: &Text) -> String;
    /// The number of a price: `18.50`.
    fn price(&self, price: &Price) -> String;
    /// A size's name, quoted where it has to be.
    fn size(&self, size: &SizeName) -> String;
    /// Which values of a list of one value a size are kept; none: all.
    fn kept(&self, _list: Span, _values: &[Expr]) -> Option<Vec<usize>> {
        None
    }
    /// The one value that is written instead of a list of one value a size; none: the list stays.
    fn single(&self, _list: &Expr) -> Option<String> {
        None
    }
    /// The values that are written instead of steps; none: the steps stay.
    fn graded(&self, _span: Span, _grade: &Grade) -> Option<Vec<String>> {
        None
    }
}

/// As the maker wrote it.
pub struct AsWritten<'a> {
    /// Where the words stand.
    pub map: &'a SourceMap,
}

impl Spelling for AsWritten<'_> {
    fn quantity(&self, quantity: &Quantity) -> String {
        let mut words = self.map.text(quantity.span).split_whitespace();
        let first = words.next().unwrap_or("").to_owned();
        words.fold(first, |all, word| all + " " + word)
    }

    fn text(&self, text: &Text) -> String {
        self.map.text(text.span).to_owned()
    }

    fn price(&self, price: &Price) -> String {
        let number = |character: char| character.is_ascii_digit() || character == '.';
        self.map.text(price.span).chars().take_while(|&character| number(character)).collect()
    }

    fn size(&self, size: &SizeName) -> String {
        self.map.text(size.span).to_owned()
    }
}

/// For a tree that was never written: numbers in decimals, texts escaped.
pub struct Plain;

impl Spelling for Plain {
    fn quantity(&self, quantity: &Quantity) -> String {
        match quantity.unit.map(|word| word.unit) {
            None => quantity.number.to_string(),
            Some(unit @ (Unit::Count | Unit::Number)) => format!("{} {}", unit.word(), quantity.number),
            Some(unit) => format!("{}{}", quantity.number, unit.word()),
        }
    }

    fn text(&self, text: &Text) -> String {
        quoted(&text.text)
    }

    fn price(&self, price: &Price) -> String {
        price.amount.to_string()
    }

    fn size(&self, size: &SizeName) -> String {
        let bare = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_';
        match !size.text.is_empty() && size.text.bytes().all(bare) {
            true => size.text.to_string(),
            false => quoted(&size.text),
        }
    }
}

/// A text in quotes, `"` and `\` escaped.
pub fn quoted(text: &str) -> String {
    format!("\"{}\"", text.replace('\\', "\\\\").replace('"', "\\\""))
}
