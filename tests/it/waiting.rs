//! What waits for itself: seams that each run over the other, a closure over the seam that encloses
//! it, pieces placed on one another.

use fustian::report::Diagnostic;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn told(text: &str) -> (Compiled, Vec<Diagnostic>) {
    let compiled = compile(&MemoryLoader::new().with("awning.fus", text), "awning.fus");
    // Patches are sewn down all round here, which is another matter.
    let other = ["steps/none", "place/shut"];
    let told = compiled.diagnostics.iter().filter(|one| !other.contains(&one.slug())).cloned().collect();
    (compiled, told)
}

/// Fails unless this is all that is told, at those words and those besides.
#[track_caller]
fn only(text: &str, slug: &str, title: &str, places: &[&str]) -> Diagnostic {
    let (compiled, told) = told(text);
    let [one] = told.as_slice() else { panic!("{told:#?}") };
    assert_eq!((one.slug(), one.title.as_str()), (slug, title));
    let at: Vec<&str> = one.labels.iter().map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(at, places);
    one.clone()
}

/// Three panels about one corner, named so that corners that meet there bear one name: the foot runs over upper and corner panel, the rise over upper and
/// lower one.
fn awning(steps: &str) -> String {
    format!(
        "garment \"Deck awning\"\nunits cm\nallowance 1\nfabric canvas \"sail canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ upper, lower, corner }}\n\
         piece upper \"Upper\" {{ cut 1; outline rectangle 20 by 30 }}\n\
         piece lower \"Lower\" {{ cut 1; point top_left = (0, 20); point bottom_left = (0, 0); point low = (40, 0); \
         point bottom_right = (40, 20); outline from top_left {{ left to bottom_left; bottom to low; right to bottom_right; \
         top to top_left }} }}\n\
         piece corner \"Corner\" {{ cut 1; point top_left = (0, 50); point bottom_right = (0, 0); point far = (20, 0); \
         point high = (20, 50); outline from top_left {{ left to bottom_right; bottom to far; right to high; top to top_left }}; # corner\n}}\n\
         seam foot upper.bottom + corner.bottom to lower.top {{ matching upper.bottom_left with lower.top_left }}\n\
         seam rise upper.right + lower.right to corner.left {{ matching upper.top_right with corner.top_left }}\n\
         finish upper.left, upper.top, lower.left, lower.bottom, corner.top, corner.right  raw\n\
         steps {{ \"All\" {{ {steps}; finish upper.left, upper.top, lower.left, lower.bottom, corner.top, corner.right }} }}\n"
    )
}

#[test]
fn seams_that_each_run_over_the_other_are_told_once_in_either_order() {
    for steps in ["sew foot, rise", "sew rise, foot"] {
        let told = only(
            &awning(steps),
            "step/circle",
            "no order of work is possible: sewing foot has to wait for sewing rise and sewing rise for sewing foot",
            &["foot", "rise"],
        );
        assert!(told.help.unwrap().contains("sew each run in a seam of its own"));
    }
}

/// The way out that the help tells: the corner's left is divided where upper and lower meet, and each
/// run has a seam of its own.
#[test]
fn sewn_in_two_goes_it_can_be_done() {
    let divided = awning("sew rise, foot, lower_rise")
        .replace("top to top_left }; # corner", "top to top_left }; divide left 30 from top_left into beside, left # corner")
        .replace("seam rise upper.right + lower.right to corner.left {", "seam rise upper.right to corner.beside {")
        .replace("\nfinish upper", "\nseam lower_rise lower.right to corner.left { matching lower.low with corner.bottom_right }\nfinish upper");
    assert_eq!(told(&divided).1, []);
}

#[test]
fn a_closure_over_the_seam_that_encloses_it_is_told() {
    let text = "garment \"Deck jacket\"\nunits cm\nallowance 1\nfabric shell \"shell\" { width 150 }\n\
        layer outer in shell { front, yoke }\nlayer lining in shell { front, yoke }\n\
        piece front \"Front\" { cut 2 mirrored; outline rectangle 30 by 40 }\n\
        piece yoke \"Yoke\" { cut 2 mirrored; outline rectangle 30 by 20 }\n\
        seam across outer.front.top + lining.front.top to outer.yoke.bottom + lining.yoke.bottom enclosing zip {\n\
        matching outer.front.top_left with outer.yoke.bottom_left }\n\
        closure zip outer.yoke.left + outer.front.left to outer.yoke.left + outer.front.left { zipper separating 60 }\n\
        finish front.bottom, front.right, yoke.top, yoke.right, lining.front.left, lining.yoke.left  raw\n\
        steps { \"All\" { baste zip; sew across; finish front.bottom, front.right, yoke.top, yoke.right, lining.front.left, lining.yoke.left } }\n";
    let (compiled, told) = told(text);
    let circle: Vec<&Diagnostic> = told.iter().filter(|one| one.slug() == "step/circle").collect();
    let [circle] = circle.as_slice() else { panic!("{told:#?}") };
    assert_eq!(
        circle.title,
        "no order of work is possible: sewing across has to wait for putting in zip and putting in zip for sewing across"
    );
    let at: Vec<&str> = circle.labels.iter().map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(at, ["across", "zip"]);
    assert!(told.iter().all(|one| one.slug() != "step/early" && one.slug() != "step/shut"), "{told:#?}");
}

fn patches(placements: &str) -> String {
    format!(
        "garment \"Galley apron\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ pocket, patch, badge }}\nlayer lining in canvas {{ pocket }}\n\
         piece pocket \"Pocket\" {{ cut 1; outline rectangle 20 by 22 }}\n\
         piece patch \"Patch\" {{ cut 1; outline rectangle 20 by 22 }}\n\
         piece badge \"Badge\" {{ cut 1; outline rectangle 20 by 22 }}\n{placements}"
    )
}

fn place(what: &str, on: &str) -> String {
    format!(
        "place {what} on {on} {{ corner bottom_left at bottom_left; topstitch bottom, right, top, left }}\n"
    )
}

#[test]
fn pieces_placed_on_one_another_are_told() {
    let lining =
        "finish lining.pocket.bottom, lining.pocket.right, lining.pocket.top, lining.pocket.left  raw\n";
    let around = [place("outer.pocket", "patch"), place("patch", "badge"), place("badge", "outer.pocket")];
    let told = only(
        &patches(&(around.concat() + lining)),
        "place/circle",
        "Pocket is placed on Patch, and Patch on Badge and Badge on Pocket",
        &["outer.pocket on patch", "patch on badge", "badge on outer.pocket"],
    );
    assert_eq!(told.help.as_deref(), Some("one piece carries the others: drop the placing of that one"));
    let told = only(
        &patches(&(place("badge", "badge") + &place("patch", "badge") + &place("pocket", "badge"))),
        "place/circle",
        "Badge is placed on itself",
        &["badge on badge"],
    );
    assert_eq!(told.help.as_deref(), Some("name the piece that carries it: place badge on …"));
}

/// A pocket backed by its own lining lies on another part of the same piece.
#[test]
fn a_piece_may_lie_on_itself_in_another_layer() {
    let backed =
        place("outer.pocket", "lining.pocket") + &place("patch", "outer.pocket") + &place("badge", "patch");
    let (_, told) = told(&patches(&backed));
    assert!(told.iter().all(|one| one.slug() != "place/circle"), "{told:#?}");
}

/// Beside one another, two rectangles meet at corners of different names, which `matching` says.
#[test]
fn which_corners_of_a_chain_meet_can_be_said() {
    let text = |joint: &str| {
        format!(
            "garment \"Deck awning\"\nunits cm\nallowance 1\nfabric canvas \"sail canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ port, starboard, wide }}\n\
             piece port \"Port\" {{ cut 1; outline rectangle 20 by 30 }}\n\
             piece starboard \"Starboard\" {{ cut 1; outline rectangle 20 by 30 }}\n\
             piece wide \"Wide\" {{ cut 1; outline rectangle 40 by 20 }}\n\
             seam middle port.right to starboard.left {{ matching port.top_right with starboard.top_left }}\n\
             seam foot port.bottom + starboard.bottom to wide.top {{ matching port.bottom_left with wide.top_left{joint} }}\n\
             finish port.left, port.top, starboard.top, starboard.right, wide.left, wide.right, wide.bottom  raw\n"
        )
    };
    let slugs = |text: &str| -> Vec<&str> { told(text).1.iter().map(|one| one.slug()).collect() };
    assert_eq!(slugs(&text("; matching port.bottom_right with starboard.bottom_left")), [""; 0]);
    // Its two ends made to meet would make a ring of it, and put what is to meet an end of the other side inside.
    assert!(
        slugs(&text("; matching port.bottom_left with starboard.bottom_right")).contains(&"seam/matching")
    );
}
