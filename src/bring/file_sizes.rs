//! Drawings that are one a size and say so in their names alone: `vest-S.svg`, `vest-M.svg`.

use super::names::one_line;
use super::read::{base_name, ending_in_size};
use super::traced::Traced;
use crate::report::listed;
use indexmap::IndexSet;

/// Puts each drawing's pieces into the size that its file's name ends with, where none of them says a size, all names begin
/// alike, and the drawings hold pieces of one name. What is said of that.
pub fn by_file(files: &mut [(&str, Traced)]) -> Option<String> {
    let sizes = sizes(files)?;
    for ((_, traced), size) in files.iter_mut().zip(&sizes) {
        for piece in &mut traced.pieces {
            piece.sizes = piece.sizes.drain(..).map(|(_, drawn)| (size.clone(), drawn)).collect();
        }
    }
    let sizes: Vec<String> = sizes.iter().map(|size| one_line(size)).collect();
    Some(format!(
        "the drawings say no size, and their names end with {}: those are taken for sizes",
        listed(&sizes)
    ))
}

fn sizes(files: &[(&str, Traced)]) -> Option<Vec<String>> {
    let ends: Option<Vec<(String, String)>> = files
        .iter()
        .map(|(file, _)| {
            let (name, _) = base_name(file).rsplit_once('.')?;
            ending_in_size(name).map(|(stem, size)| (stem.to_lowercase(), size.to_owned()))
        })
        .collect();
    let ends = ends?;
    let (stems, sizes): (IndexSet<&str>, IndexSet<&str>) =
        ends.iter().map(|(stem, size)| (&**stem, &**size)).unzip();
    let are_several = files.len() > 1 && stems.len() == 1 && sizes.len() == files.len();
    let mut pieces = files.iter().flat_map(|(_, traced)| &traced.pieces);
    let are_unsaid = pieces.all(|piece| piece.sizes.len() == 1 && piece.sizes.contains_key(""));
    let (_, first) = files.first()?;
    // Pages that are only numbered may each have a nameless piece, or one more pocket.
    let is_named = |name: &str| name.strip_prefix("piece ").is_none_or(|rest| rest.parse::<usize>().is_err());
    let holds = |all: &Traced, other: &Traced| {
        let mut each = other.pieces.iter();
        each.all(|piece| is_named(&piece.name) && all.pieces.iter().any(|own| own.name == piece.name))
    };
    let is_shared = |other: &Traced| holds(first, other) || holds(other, first);
    let are_alike = files.iter().skip(1).all(|(_, other)| is_shared(other));
    (are_several && are_unsaid && are_alike).then(|| ends.into_iter().map(|(_, size)| size).collect())
}
