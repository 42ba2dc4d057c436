//! How a circle is told: what depends on itself, by way of what, and where that is said.

use crate::report::Diagnostic;
use crate::source::Span;

/// Of a longer circle only so many places are named at its beginning, and as many at its end.
const NAMED: usize = 4;

/// The names of a circle, one after the other; of a long one the middle is only counted.
pub(super) fn row(circle: &[(String, Span)]) -> String {
    let names =
        |of: &[(String, Span)]| of.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(" → ");
    match circle.len().checked_sub(2 * NAMED) {
        None | Some(0 | 1) => names(circle),
        Some(more) => {
            let (first, last) = (&circle[..NAMED], &circle[NAMED + more..]);
            format!("{} → … {more} more … → {}", names(first), names(last))
        }
    }
}

/// Points at the places of a circle after its first; of a long one at those that [`row`] names.
pub(super) fn through(diagnostic: Diagnostic, circle: &[(String, Span)]) -> Diagnostic {
    let is_named = |at: usize| circle.len() <= 2 * NAMED + 1 || at < NAMED || at + NAMED >= circle.len();
    let named = circle.iter().enumerate().skip(1).filter(|(at, _)| is_named(*at));
    named.fold(diagnostic, |diagnostic, (_, (_, span))| diagnostic.also(*span, "and goes through here"))
}

#[cfg(test)]
mod tests {
    use super::{NAMED, row};
    use crate::source::Span;

    #[test]
    fn a_long_circle_is_shortened_in_the_middle() {
        let circle = |count: usize| -> Vec<(String, Span)> {
            (0..count).map(|at| (format!("v{at}"), Span::default())).collect()
        };
        assert_eq!(row(&circle(3)), "v0 → v1 → v2");
        assert_eq!(row(&circle(2 * NAMED + 1)).matches('→').count(), 2 * NAMED);
        assert_eq!(row(&circle(100)), "v0 → v1 → v2 → v3 → … 92 more … → v96 → v97 → v98 → v99");
    }
}
