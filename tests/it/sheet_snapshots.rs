//! The sentences of a handful of garments as they are read, in both languages: wording alone is held here.

use crate::sheet_sentences::{compiled, read, with_texts};
use fustian::sheet::Language;

/// A lined jacket, a shirt, trousers with a fly, a bag, a skirt with a vent, and a bodice with facings: between them all that a
/// seam, a finish, a closure and a strap may be told of.
#[test]
fn sentences_are_as_they_were_read() {
    for name in [
        "deck-jacket",
        "purser-shirt",
        "mate-trousers-fly",
        "ticket-bag",
        "mess-skirt-vent",
        "steward-bodice-faced",
    ] {
        let compiled = compiled(name);
        for &language in Language::ALL {
            let told = with_texts(&compiled, language, read);
            insta::assert_snapshot!(format!("{name}-{}", language.tag()), told);
        }
    }
}
