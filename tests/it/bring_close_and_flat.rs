//! What is drawn so that no garment's text can say it comes in without it, or not at all, and that is told where it stands.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::brought;
use fustian::source::MemoryLoader;
use fustian::{Severity, compile};

/// A bib in S and M, 200 and 210 wide and 300 high, with more rows of each.
fn bib(more: [&[&str]; 2], corners: [&[&str]; 2]) -> String {
    let mut table = "piece,size,point,x mm,y mm,kind\n".to_owned();
    for ((size, wide), (more, corners)) in [("S", 200), ("M", 210)].into_iter().zip(more.iter().zip(corners))
    {
        let outline = [format!("{wide},0,"), format!("{wide},300,")];
        let rows = std::iter::once("0,0,".to_owned()).chain(outline);
        let rows = rows.chain(corners.iter().map(|row| (*row).to_owned())).chain(["0,300,".to_owned()]);
        let rows = rows.chain(more.iter().map(|row| (*row).to_owned()));
        rows.for_each(|row| table.push_str(&format!("Bib,{size},,{row}\n")));
    }
    table
}

/// What is wrong with the text that came in, beside that nothing is sewn.
fn mistakes(text: &str) -> Vec<String> {
    let draft = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    let wrong = draft.diagnostics.iter().filter(|one| one.severity() == Severity::Mistake);
    wrong.filter(|one| one.slug() != "piece/unsewn").map(|one| one.title.to_string()).collect()
}

/// By hand: on the right side, which is straight up, from one notch to the other.
#[test]
fn notches_that_one_size_has_too_near_to_each_other() {
    let notched =
        |other: &str| bib([&["200,100,notch", "200,150,notch"], &["210,100,notch", other]], [&[], &[]]);
    only(
        &told("bib.csv", &notched("210,106,notch")),
        &[
            "bib: two notches of e2 lie 6.0 mm apart in M, where they are not told apart, and 50.0 mm in S: is one of them drawn \
           wrong? Both are left out",
        ],
    );
    let text = brought("bib.csv", &notched("210,106,notch")).text;
    assert!(!text.contains("notch"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
    let sound = brought("bib.csv", &notched("210,155,notch"));
    assert_eq!((sound.remarks, sound.text.matches("notch ").count()), (Vec::new(), 2));
    // Near in every size they are one double notch; what stands beside that is no third one.
    let near = ["200,100,notch", "200,106,notch", "210,100,notch", "210,106,notch"];
    let double = bib([&near[..2], &near[2..]], [&[], &[]]);
    assert!(brought("bib.csv", &double).text.contains("double"));
    let third = bib([&[near[0], near[1], "200,111,notch"], &[near[2], near[3], "210,111,notch"]], [&[], &[]]);
    // The double one stands at 103, 8 below the third.
    only(
        &told("bib.csv", &third),
        &["a single and a double notch of e2 lie 8.0 mm apart in S and M", "the single one is left out"],
    );
    let text = brought("bib.csv", &third).text;
    assert!(text.contains("double"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
}

#[test]
fn a_half_that_goes_beyond_its_fold_in_one_size() {
    let fold: &[&str] = &["0,0,fold", "0,300,fold"];
    let halves = |at: &str| bib([fold, fold], [&["40,320,"], &[at]]);
    let sound = brought("bib.csv", &halves("45,320,"));
    assert!(
        sound.remarks.is_empty() && sound.text.contains("on fold"),
        "{:?}\n{}",
        sound.remarks,
        sound.text
    );
    let wrong = halves("-5,320,");
    only(
        &told("bib.csv", &wrong),
        &[
            "a fold is drawn, and in M the half goes 5.0 mm beyond it, 0 mm from its left and 320 mm from its lower end: is it drawn \
           wrong in that size? The fold is left out, and the piece is taken to be whole",
        ],
    );
    let text = brought("bib.csv", &wrong).text;
    assert!(!text.contains("on fold"), "{text}");
    assert_eq!(mistakes(&text), [] as [&str; 0]);
}

#[test]
fn corners_that_lie_on_one_another() {
    let there_and_back: &[&str] = &["100,100,curve", "200,300,", "100,100,curve", "200,300,"];
    let in_m: &[&str] = &["100,100,curve", "210,300,", "100,100,curve", "210,300,"];
    let why = refused("bib.csv", &bib([&[], &[]], [there_and_back, in_m]));
    assert!(
        why.contains("in the outline of bib in S, two corners lie on one another 200 mm from its left and 300 mm from its lower end")
            && why.contains("take one of them out, or draw them apart"),
        "{why}"
    );
}
