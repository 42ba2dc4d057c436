//! What may be written next, for whoever is still writing.

use super::build::Context;
use super::expected::expected;
use super::forms;

/// What may stand behind the words of a statement that is still being written.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fitting {
    /// Words of the language.
    pub words: Vec<String>,
    /// A name, with dots or without.
    pub name: bool,
    /// A value.
    pub value: bool,
    /// The name of a size.
    pub size: bool,
}

/// What may follow `before`, a statement's words up to the place of writing, without the word that
/// is being written; none where the statement is damaged before that place.
pub fn fitting(context: Context, before: &str) -> Option<Fitting> {
    let mut fitting = Fitting::default();
    if before.trim().is_empty() {
        fitting.words = forms::starters(context).map(str::to_owned).collect();
        fitting.name = matches!(context, Context::Body | Context::FittedBody | Context::Walk);
        return Some(fitting);
    }
    // A character that stands in no statement makes the parser tell what would have fitted there.
    let wanted = expected(context, &format!("{before}\u{2}"))?;
    if wanted.at < before.trim_end().len() {
        return None;
    }
    fitting.words = wanted.words.clone();
    for thing in &wanted.things {
        match *thing {
            "a name" | "a name like `front.side`" => fitting.name = true,
            "a size's name" => fitting.size = true,
            "a value" | "a direction" | "an amount `along` or `across`" => fitting.value = true,
            "a distance `below` or `above` a corner" => fitting.value = true,
            _ => {}
        }
    }
    Some(fitting)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn words(context: Context, before: &str) -> Vec<String> {
        fitting(context, before).map(|fitting| fitting.words).unwrap_or_default()
    }

    #[test]
    fn what_follows_is_told_by_the_grammar() {
        assert!(words(Context::File, "").iter().any(|word| word == "seam"));
        assert!(words(Context::File, "finish front.hem ").iter().any(|word| word == "overlocked"));
        assert!(words(Context::Piece, "cut 1 on ").iter().any(|word| word == "fold"));
        assert!(fitting(Context::File, "seam side front.side to ").is_some_and(|fitting| fitting.name));
        assert!(fitting(Context::File, "let ease = ").is_some_and(|fitting| fitting.value));
        assert_eq!(fitting(Context::File, "seam 4 4 4 "), None);
    }
}
