//! What a cutter finds before a sewer does: folds, hems and notches that leave no room or do not meet.
//! Every wrong case stands beside a sound neighbour; figures are worked out by hand.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn of(text: &str) -> Compiled {
    let heading =
        "garment \"Deck vest\"\nunits cm\nallowance 1\nfabric shell \"waxed cotton\" { width 150 }\n";
    let loader = MemoryLoader::new().with("vest.fus", format!("{heading}{text}\n"));
    compile(&loader, "vest.fus")
}

/// Slugs and titles, but for the advice to say the order of work.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let told = of(text).diagnostics.into_iter().filter(|one| one.slug() != "steps/none");
    told.map(|one| (one.slug(), one.title.into())).collect()
}

fn slugs(text: &str) -> Vec<&'static str> {
    told(text).into_iter().map(|(slug, _)| slug).collect()
}

/// Two rectangles with these facts in their braces, sewn together at the right.
fn sides(front: &str, back: &str, seam: &str) -> String {
    format!(
        "layer outer in shell {{ front, back }}\n\
         piece front \"Front\" {{ cut 1 on fold left; {front} }}\n\
         piece back \"Back\" {{ cut 1 on fold left; {back} }}\n\
         seam side  front.right to back.right {seam}\n\
         finish front.top, back.top, front.bottom, back.bottom  hem 3\n"
    )
}

/// One rectangle of 30 by 20 with these finishes.
fn roll(finishes: &str) -> String {
    format!(
        "layer outer in shell {{ roll }}\npiece roll \"Roll\" {{ cut 1; outline rectangle 30 by 20 }}\n\
         {finishes}\n"
    )
}

#[test]
fn no_more_is_turned_under_than_the_hem_is_deep() {
    let rest = "finish roll.top, roll.left, roll.right  overlocked\nfinish roll.bottom  hem";
    assert_eq!(slugs(&roll(&format!("{rest} 2 turned under 2"))), [""; 0]);
    assert_eq!(slugs(&roll(&format!("{rest} 2 turned under 2.1"))), ["hem/under"]);
}

#[test]
fn edges_folded_together_are_alike() {
    let collar = |top: f64| {
        let out = (top - 40.0) / 2.0;
        format!(
            "layer outer in shell {{ collar }}\npiece collar \"Collar\" {{ cut 1\npoint a = (0, 0)\npoint b = (40, 0)\n\
             point c = ({}, 10)\npoint d = ({}, 10)\noutline from a {{ neck to b; right to c; fall to d; left to a }}\n\
             folded fall to neck }}\nfinish collar.neck, collar.right, collar.fall, collar.left  overlocked\n",
            40.0 + out,
            -out
        )
    };
    // Seams match within 2 mm where no tolerance is said.
    assert_eq!(slugs(&collar(40.1)), [""; 0]);
    let found = told(&collar(44.0));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "fold/unequal");
    assert!(found[0].1.contains("fall is 4 cm longer than neck"), "{found:?}");
}

#[test]
fn a_fit_says_no_less_than_nothing() {
    let ease = |front: f64, fit: &str| {
        slugs(&sides(&format!("outline rectangle 28 by {front}"), "outline rectangle 28 by 60", fit))
    };
    assert_eq!(ease(61.0, "easing 0..2"), [""; 0]);
    assert_eq!(ease(55.0, "easing -60..60"), ["seam/range"]);
    assert_eq!(ease(90.0, "gathering 1..1.6"), [""; 0]);
    assert_eq!(ease(55.0, "gathering 0.5..2"), ["seam/range"]);
    assert_eq!(ease(90.0, "stretching 50%..160%"), ["seam/range"]);
}

#[test]
fn one_notch_meets_one_and_two_meet_two() {
    let piece = |notch: &str| format!("outline rectangle 28 by 60; {notch}");
    let (one, two) = ("notch right 20 from bottom_right", "notch right 20 from bottom_right double");
    let found = |front: &str, back: &str, seam: &str| slugs(&sides(&piece(front), &piece(back), seam));
    assert_eq!(found(one, one, ""), [""; 0]);
    assert_eq!(found(two, two, ""), [""; 0]);
    assert_eq!(found(one, two, ""), ["notch/odd"]);
    assert_eq!(found(two, one, ""), ["notch/odd"]);
    // Another place is another notch, however many each side has.
    let other = "notch right 8 from top_right double";
    assert_eq!(found(&format!("{one}; {other}"), one, ""), [""; 0]);
    assert_eq!(found(&format!("{one}; {other}"), two, ""), ["notch/odd"]);
    // The seam itself puts one where the piece has two.
    assert_eq!(found(two, "", "{ notch 20 from front.bottom_right }"), ["notch/odd"]);
    assert_eq!(found(two, "", "{ notch 20 from front.bottom_right double }"), [""; 0]);
}

#[test]
fn notches_make_left_and_right_of_what_is_symmetrical() {
    let sleeves = |cut: &str, first: &str, second: &str| {
        slugs(&format!(
            "layer outer in shell {{ front, back, frill }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 14 by 50 }}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline rectangle 14 by 50 }}\n\
             piece frill \"Frill\" {{ {cut}; outline rectangle 28 by 8 }}\n\
             seam arm  front.right to back.right\nseam under  front.left to back.left\n\
             seam wrist  frill.top to front.bottom + back.bottom {{\n\
             matching frill.top_left with front.bottom_left\nnotch {first}\nnotch {second}\n}}\n\
             seam frill  frill.left to frill.right\n\
             finish front.top, back.top, frill.bottom  hem 1\n"
        ))
    };
    let (one, two) = ("5 from frill.top_left", "5 from frill.top_right double");
    assert_eq!(sleeves("cut 2 mirrored", one, two), [""; 0]);
    assert_eq!(sleeves("cut 2", one, two), ["pair/same"]);
    // 5 from each end, both single: the frill is its own mirror image.
    assert_eq!(sleeves("cut 2", one, "5 from frill.top_right"), [""; 0]);
    assert_eq!(sleeves("cut 2", one, "7 from frill.top_right"), ["pair/same"]);
}

#[test]
fn a_bow_tie_crosses_and_a_line_there_and_back_holds_no_cloth() {
    let flap = |c: &str, d: &str| {
        slugs(&format!(
            "layer outer in shell {{ flap }}\npiece flap \"Flap\" {{ cut 1\npoint a = (0, 0)\npoint b = (30, 0)\n\
             point c = {c}\npoint d = {d}\noutline from a {{ bottom to b; right to c; top to d; left to a }} }}\n\
             finish flap.bottom, flap.right, flap.top, flap.left  overlocked\n"
        ))
    };
    assert_eq!(flap("(30, 20)", "(0, 20)"), [""; 0]);
    assert_eq!(flap("(0, 20)", "(30, 20)"), ["outline/crosses"]);
    assert_eq!(flap("(20, 0)", "(10, 0)"), ["outline/collapses"]);
}
