//! Names that say which line of a piece a path is, and not which piece.

use crate::bring::read::said::is_size;

/// Names of lines, one word after the other.
const LINES: [&str; 14] = [
    "cut",
    "cutting",
    "cutline",
    "cut line",
    "cutting line",
    "sew",
    "sewing",
    "stitching",
    "stitch line",
    "seam line",
    "sew line",
    "sewing line",
    "stitching line",
    "seamline",
];

/// Whether a name says that a path is where its piece is cut or sewn: `cutting line`, `sew-2`, `cut_M`.
pub fn is_line(name: &str) -> bool {
    line_of(name).is_some()
}

/// The size behind such a name, where one is.
pub fn size_behind(name: &str) -> Option<String> {
    line_of(name).flatten()
}

fn line_of(name: &str) -> Option<Option<String>> {
    let mut words: Vec<&str> = name.split([' ', '-', '_', '.']).filter(|word| !word.is_empty()).collect();
    let last = words.last().copied().unwrap_or_default();
    let size = (words.len() > 1 && is_size(last)).then(|| last.to_owned());
    if size.is_some() || words.len() > 1 && last.bytes().all(|one| one.is_ascii_digit()) {
        words.pop();
    }
    let words = words.join(" ").to_lowercase();
    // Programs number what is called alike: `cut12`.
    let words = words.trim_end_matches(|one: char| one.is_ascii_digit());
    LINES.contains(&words).then_some(size)
}

#[cfg(test)]
mod tests {
    use super::{is_line, size_behind};

    #[test]
    fn lines_are_told_from_pieces() {
        for name in ["cut", "Cutting line", "sew_line", "stitching-line 2", "cut12", "cut_M"] {
            assert!(is_line(name), "{name}");
        }
        for name in ["", "front", "cutout", "cut out", "cuff", "front cut", "seam pocket"] {
            assert!(!is_line(name), "{name}");
        }
        assert_eq!(size_behind("cutting-M"), Some("M".to_owned()));
        assert_eq!(size_behind("cutting-2"), None);
    }
}
