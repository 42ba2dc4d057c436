//! Cautions for children's clothes. The rules: 16 CFR 1120.3 (Federal Register 76:42502) and ASTM
//! F1816 on drawstrings; 16 CFR 1501 on small parts, 1610, 1615 and 1616 on burning (from memory).

use fustian::compile;
use fustian::report::{Diagnostic, Severity};
use fustian::source::MemoryLoader;

fn told(wearer: &str, fabric: &str, sewing: &str) -> Vec<Diagnostic> {
    told_of(wearer, fabric, sewing, |text| text.to_owned())
}

fn told_of(wearer: &str, fabric: &str, sewing: &str, translated: impl Fn(&str) -> String) -> Vec<Diagnostic> {
    let text = format!(
        "garment \"Small smock\"\nunits cm\nallowance 1\nwearer {wearer}\nfabric cloth \"cloth\" {{ width 150{fabric} }}\n\
         sizes S\nbody {{ head 50 }}\nlayer outer in cloth {{ smock, hood }}\n\
         piece smock \"Smock\" {{ cut 1 on fold left; outline rectangle 40 by 60 }}\n\
         piece hood \"Hood\" {{ cut 1 on fold left; outline rectangle 30 by 30 }}\n\
         seam back smock.right to smock.right\nseam hood_back hood.right to hood.right\nseam neck smock.top to hood.bottom  gathering 1..2 {{ matching smock.top_right with hood.bottom_right }}\n\
         finish smock.bottom, hood.top  casing 2\n{sewing}\n"
    );
    let text = translated(&text);
    let told = compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus").diagnostics;
    told.into_iter()
        .filter(|one| !["steps/none", "opening/unsaid", "casing/empty", "cord/shut"].contains(&one.slug()))
        .collect()
}

#[track_caller]
fn one(told: &[Diagnostic], slug: &str, words: &[&str]) {
    let [one] = told else { panic!("{told:#?}") };
    assert_eq!((one.slug(), one.severity()), (slug, Severity::Caution));
    let help = one.help.as_deref().unwrap_or_default();
    assert!(help.contains("the law where it is sold decides"), "{help}");
    let labels: Vec<&str> = one.labels.iter().map(|label| label.text.as_str()).collect();
    let all = format!("{} {} {help}", one.title, labels.join(" "));
    for word in words {
        assert!(all.contains(word), "{word} in {all}");
    }
}

const AT_HOOD: &str = "cord pull 90 through hood.top  ends 10 free";
const AT_HEM: &str = "cord pull 90 through smock.bottom  ends 10 free";

#[test]
fn grown_ups_may_wear_cords() {
    assert_eq!(told("adult", "; surface raised; nap none", &format!("{AT_HOOD}\nnotion \"toggle\" 2")), []);
}

#[test]
fn a_cord_at_a_childs_hood() {
    let rule =
        ["the top of Hood is taken for neck or hood", "2T to 12", "16 CFR 1120.3", "ASTM F1816", "EN 14682"];
    one(&told("child from 4 to 7 years", "", AT_HOOD), "caution/cord", &rule);
}

#[test]
fn a_cord_at_a_childs_hem() {
    // 3 in are 7.62 cm.
    let rule = [
        "2T to 16",
        "3 in",
        "7.6 cm",
        "10 cm here, which is more",
        "bar-tacked",
        "16 CFR 1120.3",
        "waist or hem",
    ];
    one(&told("child from 10 to 14 years", "", AT_HEM), "caution/cord", &rule);
}

#[test]
fn an_opening_for_the_head_is_a_neck() {
    let sewing = "opening smock.bottom  passes head\ncord pull 90 through smock.bottom  ends 5 free";
    one(&told("child from 4 to 7 years", "", sewing), "caution/cord", &["neck or hood"]);
}

#[test]
fn in_any_language_a_cord_is_told() {
    let told = |piece: &str| {
        let sewing = "cord pull 90 through smock.bottom  ends 5 free";
        let text = sewing.replace("smock.bottom", piece);
        told_of("child from 4 to 7 years", "", &text, |text| {
            text.replace("smock", "kittel").replace("hood", "kapuze").replace("Hood", "Kapuze")
        })
    };
    let rule = ["perhaps at its neck", "is not to be told", "2T to 12", "2T to 16", "5 cm here"];
    one(&told("kapuze.top"), "caution/cord", &rule);
}

#[test]
fn in_any_language_small_parts_are_told() {
    let told = |notion: &str| told("child from 1 to 2 years", "", &format!("notion \"{notion}\" 2"));
    one(&told("Holzknebel"), "caution/small-parts", &["is it a small part?", "16 CFR 1501"]);
    assert_eq!(told("name label"), []);
}

#[test]
fn small_parts_under_three() {
    one(
        &told("child from 2 to 4 years", "", "notion \"wooden toggle\" 2"),
        "caution/small-parts",
        &["16 CFR 1501", "wooden toggle"],
    );
    one(
        &told("child from 18 to 30 months", "", "notion \"snap button\" 2"),
        "caution/small-parts",
        &["16 CFR 1501"],
    );
    assert_eq!(told("child from 3 to 6 years", "", "notion \"wooden toggle\" 2"), []);
    assert_eq!(told("baby", "", "notion \"hanging loop\" 1"), []);
}

#[test]
fn raised_cloth_for_the_night() {
    let rule = ["16 CFR 1615 and 1616", "16 CFR 1610"];
    one(
        &told("child from 4 to 7 years, for sleep", "; surface raised; nap none", ""),
        "caution/flame",
        &rule,
    );
    assert_eq!(told("child from 4 to 7 years", "; surface raised; nap none", ""), []);
    assert_eq!(told("child from 4 to 7 years, for sleep", "", ""), []);
}
