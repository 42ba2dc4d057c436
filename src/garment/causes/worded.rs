//! Two ways to say one thing, in words: `width 145 instead of 150`.

use super::sayings::Saying;

/// More of a text than this is cut short in its middle.
const SHOWN: usize = 90;
/// So many sizes are told one by one.
const SIZES_TOLD: usize = 3;

/// The names of the sizes that both garments have; none where they have others.
#[derive(Clone, Debug, Default)]
pub(super) struct Sizes(Vec<String>);

impl Sizes {
    pub(super) fn of(old: &[Saying], new: &[Saying]) -> Self {
        let names = |all: &[Saying]| -> Vec<String> {
            let sizes = all.iter().find(|one| one.kind == "sizes");
            let inside = sizes.into_iter().flat_map(|sizes| &sizes.said.inside);
            inside.map(|size| size.words.trim_start_matches("size ").to_owned()).collect()
        };
        let (old, new) = (names(old), names(new));
        Sizes(if old == new { new } else { Vec::new() })
    }
}

/// Words as a maker sees them: what stands in brackets or quotes is one.
pub(super) fn tokens(text: &str) -> Vec<&str> {
    let (mut depth, mut quoted, mut from) = (0_usize, false, None);
    let mut all = Vec::new();
    for (at, letter) in text.char_indices() {
        match letter {
            '"' => quoted = !quoted,
            '(' if !quoted => depth += 1,
            ')' if !quoted => depth = depth.saturating_sub(1),
            _ => {}
        }
        if letter.is_whitespace() && depth == 0 && !quoted {
            all.extend(from.take().and_then(|from: usize| text.get(from..at)));
        } else if from.is_none() {
            from = Some(at);
        }
    }
    all.extend(from.and_then(|from| text.get(from..)));
    all
}

/// Whether a letter can be one of a name.
pub(crate) fn is_of_a_name(letter: char) -> bool {
    letter == '_' || letter.is_alphanumeric() || unicode_normalization::char::is_combining_mark(letter)
}

/// The same words with another name for something; what stands in quotes stays.
pub(crate) fn renamed(words: &str, old: &str, new: &str) -> String {
    let mut all = String::with_capacity(words.len());
    for (at, part) in words.split('"').enumerate() {
        if at > 0 {
            all.push('"');
        }
        if at % 2 == 1 {
            all.push_str(part);
            continue;
        }
        let mut rest = part;
        while !rest.is_empty() {
            let long = rest.find(|letter| !is_of_a_name(letter)).unwrap_or(rest.len());
            let (name, after) = rest.split_at(long);
            all.push_str(if name == old { new } else { name });
            let next = after.find(is_of_a_name).unwrap_or(after.len());
            let (between, after) = after.split_at(next);
            all.push_str(between);
            rest = after;
        }
    }
    all
}

/// The words by which a line is known: all of it, without the sign before a value.
pub(super) fn lead(words: &str) -> String {
    let tokens = tokens(words);
    let known: Vec<&str> = tokens.iter().take_while(|word| **word != "=").copied().collect();
    shortened(&known.join(" "))
}

/// At most so long, cut in its middle.
pub(super) fn shortened(text: &str) -> String {
    let count = text.chars().count();
    if count <= SHOWN {
        return text.to_owned();
    }
    let head: String = text.chars().take(SHOWN * 2 / 3).collect();
    let tail: String = text.chars().skip(count - SHOWN / 4).collect();
    format!("{} … {}", head.trim_end(), tail.trim_start())
}

/// `lengthen front at waist by 18 instead of 16`: the words that both have once, and between them the new ones and
/// the old ones.
pub(super) fn instead_of(old: &str, new: &str, sizes: &Sizes) -> String {
    if let Some(words) = by_size(old, new, sizes) {
        return words;
    }
    let (before, after) = (tokens(old), tokens(new));
    let mut head = before.iter().zip(&after).take_while(|(one, other)| one == other).count();
    let shortest = before.len().min(after.len());
    let value = after.iter().position(|word| *word == "=").map(|at| at + 1).filter(|at| *at <= head);
    let mut tail = match value {
        // What a value is reckoned from is told whole.
        Some(_) => 0,
        None => {
            let ends = before.iter().rev().zip(after.iter().rev());
            ends.take_while(|(one, other)| one == other).count().min(shortest - head)
        }
    };
    head = value.unwrap_or(head);
    // A figure belongs to the word before it: where that differs, and takes others beside it, it is not the same one.
    let is_figure = |word: &&str| word.starts_with(|letter: char| letter.is_ascii_digit());
    while before.len() != after.len() && tail > 0 && after.get(after.len() - tail).is_some_and(is_figure) {
        tail -= 1;
    }
    // Where nothing is left of the one, a word more of both is told.
    if head + tail >= shortest {
        if head > 1 {
            head -= 1;
            // Of a list all is told.
            while before.get(head).is_some_and(|word| word.ends_with(',')) {
                tail = 0;
                let is_listed = head > 1 && before.get(head - 1).is_some_and(|word| word.ends_with(','));
                if !is_listed {
                    break;
                }
                head -= 1;
            }
        } else {
            tail = tail.saturating_sub(1);
        }
    }
    let between = |all: &[&str]| all.get(head..all.len().saturating_sub(tail)).unwrap_or_default().join(" ");
    let (was, is) = (between(&before), between(&after));
    let comma = if tail > 0 && is.ends_with(',') { "," } else { "" };
    let told = |words: &str| or_nothing(shortened(words.trim_end_matches(',')));
    let (was, is) = (told(&was), told(&is));
    let shared = after.get(..head).unwrap_or_default();
    let is_one = tokens(&is).len() == 1 && tokens(&was).len() == 1;
    let first = match shared.split_last() {
        Some((&"=", name)) if is_one => name.join(" "),
        Some((&"=", name)) => format!("{}:", name.join(" ")),
        _ => shared.join(" "),
    };
    let last = after.get(after.len().saturating_sub(tail)..).unwrap_or_default().join(" ");
    [shortened(&first), format!("{is} instead of {was}{comma}"), shortened(&last)]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
}

fn or_nothing(words: String) -> String {
    if words.is_empty() { "nothing".to_owned() } else { words }
}

/// `chest 99 instead of 98 in M`, of two lists of one value a size that differ in few.
fn by_size(old: &str, new: &str, sizes: &Sizes) -> Option<String> {
    let (head, before) = list(old)?;
    let (same, after) = list(new)?;
    if head != same || before.len() != sizes.0.len() || after.len() != sizes.0.len() {
        return None;
    }
    let both = sizes.0.iter().zip(before.iter().zip(&after));
    let told: Vec<String> = both
        .filter(|(_, (was, is))| was != is)
        .map(|(size, (was, is))| format!("{is} instead of {was} in {size}"))
        .collect();
    let head = head.trim_end_matches("each").trim_end().trim_end_matches('=').trim_end();
    (told.len() <= SIZES_TOLD).then(|| format!("{head} {}", told.join(", ")))
}

/// A list and what stands before it.
fn list(text: &str) -> Option<(&str, Vec<&str>)> {
    let (mut depth, mut from) = (0_usize, 0);
    let mut parts = Vec::new();
    for (at, letter) in text.char_indices() {
        match letter {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            ',' if depth == 0 => {
                parts.push(text.get(from..at)?.trim());
                from = at + 1;
            }
            _ => {}
        }
    }
    parts.push(text.get(from..)?.trim());
    let first = *parts.first().filter(|_| parts.len() > 1)?;
    let value = *tokens(first).last()?;
    let head = first.strip_suffix(value)?.trim_end();
    if let Some(place) = parts.first_mut() {
        *place = value;
    }
    Some((head, parts))
}

#[cfg(test)]
mod tests {
    use super::{Sizes, instead_of};

    fn said(old: &str, new: &str) -> String {
        instead_of(old, new, &Sizes(["S", "M", "L"].map(str::to_owned).to_vec()))
    }

    #[test]
    fn what_is_shared_is_said_once() {
        assert_eq!(said("ease = 30", "ease = 34"), "ease 34 instead of 30");
        assert_eq!(said("width 150", "width 145"), "width 145 instead of 150");
        assert_eq!(
            said("notch 8 from front.tip", "notch 9 from front.tip"),
            "notch 9 instead of 8 from front.tip"
        );
        assert_eq!(said("point a = (0, -85)", "point a = (0, -90)"), "point a (0, -90) instead of (0, -85)");
    }

    #[test]
    fn what_is_left_out_or_put_in_is_told_with_the_word_before_it() {
        assert_eq!(said("hem 3", "hem 3 turned under 1"), "hem 3 turned under 1 instead of 3");
        assert_eq!(
            said("finish bag.top hem 3 turned under 1", "finish bag.top bound 1"),
            "finish bag.top bound 1 instead of hem 3 turned under 1"
        );
        assert_eq!(said("snaps 5 of 12mm", "buttons 5 of 12mm"), "buttons instead of snaps 5 of 12mm");
        assert_eq!(said("width 150 tubular", "width 150"), "width 150 instead of 150 tubular");
        let listed = said("topstitch left, right", "topstitch left, bottom, right");
        assert_eq!(listed, "topstitch left, bottom, right instead of left, right");
        let into = said("divide side 3 into low, high", "divide side 4 into deep, high");
        assert_eq!(into, "divide side 4 into deep instead of 3 into low, high");
    }

    #[test]
    fn a_list_of_sizes_is_told_by_size() {
        assert_eq!(said("chest 90, 98, 106", "chest 90, 99, 106"), "chest 99 instead of 98 in M");
        assert_eq!(
            said("zip = each 75, 76, 77", "zip = each 70, 76, 78"),
            "zip 70 instead of 75 in S, 78 instead of 77 in L"
        );
    }

    #[test]
    fn what_is_reckoned_is_told_whole() {
        assert_eq!(
            said("run = chest/8 + 11.5 - neck", "run = chest/8 + 12 - neck"),
            "run: chest/8 + 12 - neck instead of chest/8 + 11.5 - neck"
        );
    }
}
