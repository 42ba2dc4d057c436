//! The sizes of a piece put side by side: what is drawn in one size alone is the same in all, what lacks is taken from the nearest.

use super::names::one_line;
use super::traced::{TracedPiece, TracedSize};

/// The piece in each size of the pattern, or once for all; and what the sizes are called.
pub fn side_by_side<'a>(
    piece: &'a TracedPiece,
    all: &[TracedPiece],
    sizes: &[String],
    name: &str,
    remarks: &mut Vec<String>,
) -> (Vec<&'a TracedSize>, Vec<String>) {
    let own: Vec<&TracedSize> = piece.sizes.values().collect();
    if own.len() <= 1 {
        let only = piece.sizes.keys().next().cloned().unwrap_or_default();
        if !only.is_empty() && sizes.len() > 1 {
            // One that is called nearly so and lacks that size may be it.
            let lack = all.iter().filter(|other| other.sizes.len() > 1 && !other.sizes.contains_key(&only));
            let meant = crate::report::nearest(&piece.name, lack.map(|other| &*other.name))
                .map_or_else(String::new, |meant| {
                    format!("; is it {}, which lacks {only}?", one_line(meant))
                });
            remarks.push(format!(
                "{name} is drawn in {only} alone: it is taken to be the same in every size{meant}"
            ));
        }
        return (own, vec![only]);
    }
    if piece.sizes.contains_key("") {
        let others: Vec<&str> =
            piece.sizes.keys().map(String::as_str).filter(|size| !size.is_empty()).collect();
        remarks.push(format!(
            "{name} is drawn in {}, and once more without a size: that one is left out; write its size on it",
            others.join(", ")
        ));
    }
    let at = |wanted: &str| sizes.iter().position(|size| size == wanted);
    let mut missing = Vec::new();
    let each = sizes.iter().enumerate().filter_map(|(own, size)| {
        if let Some(found) = piece.sizes.get(size) {
            return Some(found);
        }
        let nearest =
            piece.sizes.iter().min_by_key(|(name, _)| at(name).map_or(usize::MAX, |at| at.abs_diff(own)));
        let (taken, found) = nearest?;
        missing.push(format!("{size} (as {taken})"));
        Some(found)
    });
    let each: Vec<&TracedSize> = each.collect();
    if !missing.is_empty() {
        let words =
            format!("{name} is not drawn in every size; the nearest is taken for {}", missing.join(", "));
        remarks.push(words);
    }
    (each, sizes.to_vec())
}
