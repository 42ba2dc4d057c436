//! Which piece words belong to: the one that they lie in, or else the one in whose group they stand.

use super::elements::{Elements, Words};
use super::outline::{Outline, Work};
use super::sizes::{Owner, owner_of_words};
use crate::bring::at_most::at_most;
use crate::bring::names::one_line;
use crate::bring::read::said::{before_count, cut_of, is_title};
use crate::bring::traced::TracedPiece;
use indexmap::IndexSet;

/// Of words no more are shown.
const MOST_SHOWN: usize = 4;

/// Gives words to the outlines that they belong to; those that belong to none, and what is said of the others.
pub fn put<'a>(
    drawing: &'a Elements,
    owners: &[Owner],
    found: &mut [Outline],
    known: &IndexSet<Option<String>>,
    work: &Work,
) -> (Vec<&'a str>, Vec<String>) {
    let (mut astray, mut doubts) = (Vec::new(), Vec::new());
    for words in &drawing.words {
        let size = owner_of_words(drawing, words, owners).filter(|size| known.contains(&Some(size.clone())));
        let fits = |own: &&mut Outline| {
            (size.is_none() || size == own.owner.size) && own.holds_point(words.at, work)
        };
        let around = match found.iter_mut().rev().find(fits) {
            Some(own) => Some(own),
            None => of_group(found, words),
        };
        match around {
            Some(own) => {
                let other = size.as_deref().and_then(|size| other_size(&words.text, size, known));
                doubts.extend(other.map(|other| {
                    let piece = own.owner.piece.as_deref().unwrap_or("a piece");
                    let size = own.owner.size.as_deref().unwrap_or_default();
                    format!(
                        "{piece}: “{}” stands on it in {size}, and says {other}: is it a copy?",
                        one_line(&words.text)
                    )
                }));
                own.size.texts.push(words.text.clone());
            }
            None => astray.push(&*words.text),
        }
    }
    (astray, at_most(doubts, |more| format!("words on {more} more pieces say another size than theirs")))
}

/// The size behind the word `size` in a text that stands in the layer of another one.
fn other_size(text: &str, own: &str, known: &IndexSet<Option<String>>) -> Option<String> {
    let mut words = text.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty());
    words.find(|word| word.eq_ignore_ascii_case("size"))?;
    let said = words.next()?;
    let is_other = !said.eq_ignore_ascii_case(own)
        && !words.any(|word| word.eq_ignore_ascii_case(own))
        && known.iter().flatten().any(|size| size.eq_ignore_ascii_case(said));
    is_other.then(|| said.to_owned())
}

/// The only piece in the innermost group of words that lie in none, if they name it or say how many are cut of it.
fn of_group<'a>(found: &'a mut [Outline], words: &Words) -> Option<&'a mut Outline> {
    let group = words.groups.last()?;
    let mut all = found.iter_mut().filter(|own| own.groups.contains(group));
    let first = all.next()?;
    let is_same = |own: &Outline| first.owner.piece.is_some() && own.owner.piece == first.owner.piece;
    let is_only = all.all(|own| is_same(own));
    let says = is_count(&words.text) || first.owner.piece.is_none() && is_title(before_count(&words.text));
    (is_only && says).then_some(first)
}

/// Whether words say how many are cut.
fn is_count(text: &str) -> bool {
    cut_of(&[text.to_owned()]).is_some()
}

/// What is said of words in no piece that would name one, or say how many are cut of it.
pub fn told(astray: &[&str], pieces: &[TracedPiece]) -> Option<String> {
    let lacks_name = pieces.iter().any(TracedPiece::is_nameless);
    let lacks_count = pieces.iter().any(|piece| {
        let texts: Vec<String> = piece.sizes.values().flat_map(|size| &size.texts).cloned().collect();
        piece.cut.is_none() && cut_of(&texts).is_none()
    });
    let would_say =
        |text: &&&str| lacks_name && is_title(before_count(text)) || lacks_count && is_count(text);
    let mut shown: Vec<String> =
        astray.iter().filter(would_say).map(|text| format!("“{}”", one_line(text))).collect();
    let more = if shown.len() > MOST_SHOWN { " …" } else { "" };
    shown.truncate(MOST_SHOWN);
    (!shown.is_empty()).then(|| {
        format!(
            "words that lie in no piece are not read: {}{more}; a piece takes its name, and how many are cut, from words inside of it or in \
             its own group",
            shown.join(", ")
        )
    })
}
