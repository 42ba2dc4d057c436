//! What is only called otherwise in another garment.

use crate::workbench::{err, examples, out, run};
use std::fs;

/// A name is no change of what bears it: it is told once, and nothing comes of it. What was changed beside it is told too.
#[test]
fn what_is_only_called_otherwise_is_told_as_that() {
    let folder = examples();
    let skirt = fs::read_to_string(folder.path().join("mess-skirt.fus")).expect("the skirt");
    let is_of_a_name = |letter: char| letter == '_' || letter.is_alphanumeric();
    // Whole words alone: front, not waist_front.
    let renamed = |text: &str, old: &str, new: &str| {
        let parts: Vec<&str> = text.split_inclusive(|letter| !is_of_a_name(letter)).collect();
        let part = |part: &str| match part.strip_suffix(|letter| !is_of_a_name(letter)) {
            Some(word) if word == old => part.replacen(old, new, 1),
            _ => part.to_owned(),
        };
        parts.into_iter().map(part).collect::<String>()
    };
    let told = |text: &str| {
        fs::write(folder.path().join("new.fus"), text).expect("written");
        let output = run(folder.path(), &["compare", "mess-skirt.fus", "new.fus"]);
        assert!(output.status.success(), "{}", err(&output));
        out(&output)
    };
    let piece = renamed(&skirt, "front", "forepart");
    let nothing = "and nothing of the pieces comes out differently\n";
    assert_eq!(told(&piece), format!("Mess skirt: piece front is called forepart\n{nothing}"));
    let several = renamed(&renamed(&piece, "waistband", "girdle"), "waist_side", "side_top");
    let whole = "Mess skirt: 3 changes\n  piece front is called forepart\n  piece waistband is called girdle\n  \
                 piece forepart, piece back: waist_side is called side_top\n";
    let text = told(&several);
    assert!(text.ends_with(nothing), "{text}");
    for line in whole.lines() {
        assert!(text.contains(line.trim_end()), "{line} in {text}");
    }
    let deeper = piece.replace("hem 3/8 twice", "hem 1/2 twice");
    assert_ne!(deeper, piece);
    let text = told(&deeper);
    assert!(text.contains("piece front is called forepart\n"), "{text}");
    assert!(text.contains("hem 1/2 instead of 3/8 twice"), "{text}");
    // Two that exchange their names are no longer what they were.
    let exchanged = renamed(&renamed(&renamed(&skirt, "front", "aside"), "back", "front"), "aside", "back");
    assert!(!told(&exchanged).contains("is called"), "{}", told(&exchanged));
}
