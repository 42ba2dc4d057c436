//! What is said once, and of what: where a dart lies by now, how much is cut for several, where what is cut on the fold is laid.

use crate::sheet_sentences::{compiled, read, read_of, with_texts};
use fustian::sheet::Language;

/// The bust dart lies in the armhole by now, and is called so wherever it is spoken of; that it is pressed downward is said where it
/// is pressed.
#[test]
fn a_dart_that_was_moved_is_called_as_where_it_lies() {
    let bodice = with_texts(&compiled("steward-bodice-faced"), Language::English, read);
    assert!(bodice.contains("Sew the armhole darts [A] of (1) Front"), "{bodice}");
    assert!(bodice.contains("Press each armhole dart [A] of (1) Front downward."), "{bodice}");
    assert!(!bodice.contains("bust dart") && !bodice.contains("Press downward"), "{bodice}");
    // The others are pressed by no step of their own.
    assert!(bodice.contains("Press toward the centre edge."), "{bodice}");
}

/// Two armholes are bound with 81.3 to 85.7 cm together, 40.7 cm each in the smallest size; the neckline's three edges take one strip.
#[test]
fn what_is_cut_for_two_is_said_of_both() {
    let bodice = with_texts(&compiled("steward-bodice"), Language::English, read);
    let line = |words: &str| bodice.lines().find(|line| line.contains(words)).expect("it is said");
    assert!(line("2 times all round").contains(" in all"), "{bodice}");
    assert!(!line("3 edges in one go").contains(" in all"), "{bodice}");
}

/// Both are cut on the fold, so that neither has a corner in its middle. A hanger is boxed at the end that is sewn on.
#[test]
fn what_is_cut_on_the_fold_is_laid_by_its_middle() {
    let text = r#"
garment "Locker cloth"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { cloth, stripe }
piece cloth "Cloth" { cut 1 on fold left; outline rectangle 30 by 40; mark stripe_top = (0, 30); mark hang = (25, 35) }
piece stripe "Stripe" { cut 1 on fold left; outline rectangle 15 by 4 }
place stripe on cloth { corner top_left at stripe_top; topstitch top, right, bottom }
finish cloth.right, cloth.top, cloth.bottom  hem 2
strap tag "Tag" 12 by 2 in outer folded in four { from cloth.hang to free; sewn 2, boxed }
"#;
    let english = read_of(text, Language::English);
    assert!(english.contains("the middle of its top edge at the mark ‘stripe top’"), "{english}");
    assert!(english.contains("Stitch round that end and across it"), "{english}");
    let german = read_of(text, Language::German);
    assert!(german.contains("die Mitte von Kante „top“ an das Zeichen"), "{german}");
}
