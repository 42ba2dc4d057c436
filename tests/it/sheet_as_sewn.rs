//! What a sewer stumbled over who had the printed sheet alone: each beside what was right already. Counts are worked out by hand.

use crate::sheet_pictures::{picture_of, said as caption, with_facts};
use crate::sheet_sentences::{compiled, read, read_of, with_texts};
use crate::workbench::browser::Browser;
use crate::workbench::{example, examples, of, run, told, with};
use fustian::emit::steps_document;
use fustian::sewing::order::Job;
use fustian::sheet::Language;
use serde_json::json;

/// How often each edge or seam is sewn, by its name in the steps.
fn times(text: &str, of_what: &str) -> Option<u32> {
    let compiled = of(text);
    assert!(!compiled.has_mistakes(), "{:?}", told(text));
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    steps
        .into_iter()
        .find(|line| line.to.as_deref() == Some(of_what))
        .unwrap_or_else(|| panic!("no {of_what}"))
        .times
}

/// A skirt on the fold in two layers, with a frill on the outer hem in which a tab is caught: on the one paper of both the hem falls into
/// three stretches, from the side to the tab, the tab, and from there to the fold.
const SKIRT: &str = r#"
garment "Galley skirt"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { skirt, frill, tab }
layer lining in drill { skirt }
piece skirt "Skirt" { cut 1 on fold right; outline rectangle 40 by 60 }
piece frill "Frill" { cut 1 on fold right; outline rectangle 40 by 10 }
piece tab "Tab" { cut 2 mirrored; outline rectangle 4 by 6 }
seam hem  outer.skirt.bottom to frill.top {
  caught tab.top on outer.skirt.bottom at 8 from bottom_left
  matching tab.top_left with outer.skirt.bottom.near
}
seam top  outer.skirt.top to lining.skirt.top
finish lining.skirt.bottom  hem 2
finish outer.skirt.left, lining.skirt.left, frill.left, frill.bottom, tab.left, tab.right, tab.bottom  hem 1
"#;

/// The lining's hem is sewn once, over the fold; its side is there on the left and on the right.
#[test]
fn an_edge_over_the_fold_is_sewn_once_however_its_paper_is_parted() {
    let counts = |text: &str| {
        ["lining.skirt.bottom", "outer.skirt.left", "lining.skirt.left", "frill.bottom"]
            .map(|edge| times(text, edge))
    };
    assert_eq!(counts(SKIRT), [Some(1), Some(2), Some(2), Some(1)]);
    let alone = with(
        SKIRT,
        &[
            (" {\n  caught tab.top on outer.skirt.bottom at 8 from bottom_left", ""),
            ("\n  matching tab.top_left with outer.skirt.bottom.near\n}", ""),
            (", tab }", " }"),
            (", tab.left, tab.right, tab.bottom", ""),
            ("piece tab \"Tab\" { cut 2 mirrored; outline rectangle 4 by 6 }\n", ""),
        ],
    );
    assert_eq!(counts(&alone), [Some(1), Some(2), Some(2), Some(1)]);
}

const TABARD: &str = r#"
garment "Galley tabard"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { front, back, facing }
piece front "Front" { cut 1 on fold left; outline rectangle 24 by 60 }
piece back "Back" { cut 1 on fold left; outline rectangle 24 by 60 }
piece facing "Side facing" { cut 2 mirrored; outline rectangle 5 by 60 }
seam shoulder  front.top to back.top
seam edge  front.right to facing.right  enclosing side_ties
finish facing.left, facing.top, facing.bottom, back.right  overlocked
finish front.bottom, back.bottom  hem 2
closure side_ties  front.right to back.right { CLOSED }
"#;

/// Steps, in their order, of a closure and of the seam that takes in what it has on one side.
fn order(text: &str) -> Vec<(String, String)> {
    let compiled = of(text);
    assert!(!compiled.has_mistakes(), "{:?}", told(text));
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let all = steps.into_iter().filter_map(|line| Some((line.verb, line.to?)));
    all.filter(|(_, to)| ["edge", "side_ties"].contains(&to.as_str())).collect()
}

/// Of ties whose one end lies in a seam between front and facing that end is basted before it; the others go on at the end, onto the edge
/// of the back that no seam takes. A seam that encloses nothing has none of this.
#[test]
fn ties_of_one_side_are_basted_before_the_seam_that_takes_them_in() {
    let ties = TABARD.replace("CLOSED", "ties 3 of 30");
    let done = |all: &[(&str, &str)]| -> Vec<(String, String)> {
        all.iter().map(|(verb, to)| ((*verb).to_owned(), (*to).to_owned())).collect()
    };
    assert_eq!(order(&ties), done(&[("baste", "side_ties"), ("sew", "edge"), ("sew", "side_ties")]));
    let beside = ties.replace("  enclosing side_ties", "");
    assert_eq!(order(&beside), done(&[("sew", "edge"), ("sew", "side_ties")]));
    // Toggles on the front, whose loops are on the back, have nothing in the seam of the front.
    let toggles = TABARD.replace("CLOSED", "toggles 3 of 40mm");
    assert_eq!(order(&toggles), done(&[("sew", "edge"), ("sew", "side_ties")]));
    // Whoever sews them on before the seam has done both.
    let said = format!("{ties}steps {{\n  \"Ties\" {{ sew side_ties }}\n  \"Edges\" {{ sew edge }}\n}}\n");
    assert_eq!(order(&said), done(&[("sew", "side_ties"), ("sew", "edge")]));
    let english = read_of(&ties, Language::English);
    assert!(english.contains("Baste ties [A] to the left and right edges of (1) Front"), "{english}");
    assert!(
        english.contains("Sew the other ties [F] to the left and right edges of (2) Back to meet them"),
        "{english}"
    );
    let one = read_of(&TABARD.replace("CLOSED", "ties 1 of 30"), Language::English);
    assert!(one.contains("Baste a tie [A] to the left and right edges of (1) Front"), "{one}");
    assert!(one.contains("Sew the other tie [F]"), "{one}");
    let german = read_of(&ties, Language::German);
    assert!(german.contains("Die anderen Bindebänder [F] an Kanten"), "{german}");
}

/// Three toggles on the front, three loops on the back: of what a picture of the step that bastes the loops shows, a loop is a line
/// with two bars and a toggle a ring. Both are shown where the toggles are sewn on. The ties of the front alone are basted.
#[test]
fn only_what_is_basted_is_shown_where_it_is() {
    let marks = |text: &str, is_it: &dyn Fn(&Job) -> bool| {
        let compiled = of(text);
        with_facts(&compiled, |facts| {
            let svg = picture_of(facts, is_it).svg("a step", &caption);
            let document = roxmltree::Document::parse(&svg).expect("it is well formed");
            let holes =
                |node: &roxmltree::Node| node.has_tag_name("circle") && node.attribute("class") == Some("u");
            document.descendants().filter(holes).count()
        })
    };
    let basted = |job: &Job| matches!(job, Job::PutIn(_));
    let sewn = |job: &Job| matches!(job, Job::Closure(_));
    let loops = with(
        TABARD,
        &[
            ("front.right to facing.right", "back.right to facing.right"),
            ("facing.bottom, back.right", "facing.bottom, front.right"),
            ("CLOSED", "toggles 3 of 40mm"),
        ],
    );
    // Two eyes each: of three toggles on the left and three on the right, and as many ties of the back.
    assert_eq!([marks(&loops, &basted), marks(&loops, &sewn)], [0, 12]);
    let ties = TABARD.replace("CLOSED", "ties 3 of 30");
    assert_eq!([marks(&ties, &basted), marks(&ties, &sewn)], [0, 12]);
}

/// The cuff has a stand of 1.5 beyond the line of its buttons, and an allowance of 1: of 2.5 the outer 1 is turned in. The ends of a
/// band that are sewn, each to itself, are not turned in again.
#[test]
fn the_ends_of_a_folded_cuff_are_turned_in() {
    let shirt = with_texts(&compiled("purser-shirt"), Language::English, read);
    let cuff = "The cut edge lies 2.5 cm beyond the stitching line of the left and right edges of (7) Cuff.\n    \
                Turn in 1 cm of that in both layers first, and stitch the end shut.";
    assert!(shirt.contains(cuff), "{shirt}");
    let trousers = with_texts(&compiled("mate-trousers"), Language::English, read);
    assert!(!trousers.contains("in both layers"), "{trousers}");
}

/// Jets are pushed through the slit before they lie on its ends: it is cut once both long sides are sewn.
#[test]
fn a_slit_is_cut_before_its_ends_are_sewn() {
    let trousers = with_texts(&compiled("mate-trousers-jetted"), Language::English, read);
    let at = |words: &str| trousers.find(words).unwrap_or_else(|| panic!("no {words} in {trousers}"));
    let cut = at("Now cut the pocket slit");
    assert!(at("Sew the upper on seams") < cut && cut < at("Sew the jets start seams"), "{trousers}");
    assert_eq!(trousers.matches("Now cut").count(), 1);
}

/// A zip that a facing and a shield hold by now is not told to be sewn on face down once more.
#[test]
fn a_zip_that_is_held_already_is_not_sewn_again() {
    let fly = example("mate-trousers-fly").replace("\"Seat\" { topstitch", "\"Seat\" { sew fly; topstitch");
    let files = [("fly.fus", fly.as_str()), ("mate-trousers.fus", &example("mate-trousers"))];
    let library = example("crew-library");
    let loader = crate::workbench::in_memory(&files).with("crew-library.fus", library.as_str());
    let compiled = fustian::compile(&loader, "fly.fus");
    let english = with_texts(&compiled, Language::English, read);
    assert!(english.contains("The fly zip [J] is sewn in already, by the seams that hold it."), "{english}");
    assert_eq!(english.matches("to the fly edge of (1) Front (left and right)").count(), 1, "{english}");
}

/// A hanging loop has both its ends in one place.
#[test]
fn both_ends_of_a_loop_are_laid_and_caught_together() {
    let skirt = with_texts(&compiled("mess-skirt-side"), Language::English, read);
    for words in
        ["Lay both ends of (6) [F] together at the middle of", "Catch both ends of (6) Hanging loop in it"]
    {
        assert!(skirt.contains(words), "{skirt}");
    }
    assert!(!skirt.contains("the other end"), "{skirt}");
}

/// Both front darts are pressed, both princess seams and all six seams of a hat; two brims are 9 cm each.
#[test]
fn what_is_there_twice_is_pressed_and_measured_as_two() {
    let told = |name: &str| with_texts(&compiled(name), Language::English, read);
    let bodice = told("steward-bodice");
    assert!(bodice.contains("Press each bust dart [A] of (1) Front downward."), "{bodice}");
    let princess = told("steward-princess");
    assert!(princess.contains("Press the princess seams [B]."), "{princess}");
    let hat = told("storm-hat");
    assert!(
        hat.contains("Press the panels seams [B].") && hat.contains("Press the brim rim seam [D]."),
        "{hat}"
    );
    assert!(hat.contains("9 cm each"), "{hat}");
}

/// A variation that says nothing of itself is not called what its base is: a lined jacket is no unlined one.
#[test]
fn what_the_base_says_of_itself_is_not_said_of_a_variation() {
    let choices = crate::sheet_page::quick();
    let page = |name: &str| crate::sheet_page::page_of(&compiled(name), &choices);
    assert!(!page("deck-lined").contains("unlined jacket"));
    assert!(page("deck-zip").contains("unlined jacket"));
    assert!(page("deck-smock").contains("class=\"about\""));
}

/// A slit from an edge is cut before its sides are bound; one with a window of 1 cm is cut along its middle, and into the corners of its
/// end, before a strip is sewn to it. It is said once, though the strip, another one and the end are sewn in three steps. A slit
/// that is faced is cut after that.
#[test]
fn a_slit_from_an_edge_is_cut_before_it_is_bound() {
    let told = |name: &str| with_texts(&compiled(name), Language::English, read);
    let bound = told("purser-shirt");
    assert!(
        bound.contains("6a: First cut the wrist slit of (4) Sleeve open.\n    Bind the wrist slit near"),
        "{bound}"
    );
    let strips = told("purser-shirt-placket");
    let cut = "First cut the wrist slit of (4) Sleeve open along its middle, and slantwise into the corners of its end.";
    assert!(strips.contains(&format!("6b: {cut}")), "{strips}");
    assert_eq!([&bound, &strips].map(|told| told.matches("slit of (4) Sleeve open").count()), [1, 1]);
}

/// After a preposition that asks for the dative no article or "beide" stands in another case, and no name is quoted twice.
#[test]
fn german_sentences_put_nothing_in_the_wrong_case() {
    let wrong = [
        "bei die ",
        "von die ",
        "neben die ",
        "auf beide ",
        "aus beide ",
        "von beide ",
        "neben beide ",
        "an einander",
        "„„",
    ];
    let garments = crate::sheet_page::names_of_examples().into_iter().map(|name| (compiled(&name), name));
    for (compiled, name) in garments.filter(|(compiled, _)| compiled.document().is_ok()) {
        let german = with_texts(&compiled, Language::German, read).to_lowercase();
        let found: Vec<&str> = wrong.into_iter().filter(|words| german.contains(*words)).collect();
        assert!(found.is_empty(), "{name}: {found:?} in {german}");
    }
    let apron = with_texts(&compiled("galley-apron"), Language::German, read);
    assert!(apron.contains("Kanten „slope“ (beide) von (1) Apron [F] zu einem Tunnel umnähen: "), "{apron}");
}

/// Printed, the key of marks goes on where the lays end instead of beginning a page, and what stands below the last words goes with them;
/// on a screen it stands in the foot.
#[test]
fn no_part_of_the_sheet_forces_a_page() {
    let Some(mut browser) = Browser::start() else { return };
    let folder = examples();
    let told = run(folder.path(), &["sheet", "galley-apron.fus", "-o", "page.html", "--no-lays"]);
    assert!(told.status.success(), "{told:?}");
    browser.open(&format!("file://{}", folder.path().join("page.html").display()));
    let shown = "(() => { const shown = one => getComputedStyle(document.querySelector(one)).display !== 'none'; \
                 return [shown('footer'), shown('.foot')]; })()";
    assert_eq!(browser.run(shown), json!([true, false]));
    browser.ask("Emulation.setEmulatedMedia", json!({ "media": "print" }));
    assert_eq!(browser.run(shown), json!([false, true]));
    let forced = "[...document.querySelectorAll('main *')].filter(one => \
                  ['page', 'always'].includes(getComputedStyle(one).breakBefore)).map(one => one.id)";
    assert_eq!(browser.run(forced), json!([]));
}
