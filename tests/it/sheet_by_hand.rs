//! What a sheet says of the work of hands between seams: which side a fastener goes on, what is pressed under before it is laid
//! on, what is turned. Every garment stands beside one that has none of it.

use crate::sheet_sentences::{read, with_texts};
use fustian::sheet::Language;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn of(text: &str) -> Compiled {
    let heading = "garment \"Deck vest\"\nunits cm\nallowance 1\nfabric shell \"waxed cotton\" { width 150; kind woven firm }\n";
    compile(&MemoryLoader::new().with("vest.fus", format!("{heading}{text}\n")), "vest.fus")
}

fn told(text: &str, language: Language) -> String {
    with_texts(&of(text), language, read)
}

fn english(text: &str) -> String {
    told(text, Language::ALL[0])
}

#[track_caller]
fn says(told: &str, what: &str) {
    assert!(told.contains(what), "no “{what}” in\n{told}");
}

#[track_caller]
fn is_silent_on(told: &str, what: &str) {
    assert!(!told.contains(what), "“{what}” in\n{told}");
}

fn vest(closure: &str) -> String {
    format!(
        "layer outer in shell {{ front, back }}\n\
         piece front \"Front\" {{ cut 2 mirrored; outline rectangle 30 by 50; line centre along at (4, 0) }}\n\
         piece back \"Back\" {{ cut 1 on fold left; outline rectangle 26 by 50 }}\n\
         seam side front.right to back.right\n\
         finish front.left, front.top, back.top, front.bottom, back.bottom hem 1\n\
         closure shut front.centre to front.centre {{ {closure} }}"
    )
}

/// What reaches over is on the side that lies over: a loop and a strap, as a buttonhole is. A hook is hidden beneath it.
#[test]
fn loops_and_hooks_are_on_the_side_that_lies_over() {
    let of = |kind: &str, lap: &str| english(&vest(&format!("{kind} {lap}"))).replace(" Front", "");
    let cases = [
        (
            "toggles 3 of 40mm",
            "to the centre line of the {under} (1) and their loops to the centre line of the {over} (1)",
        ),
        (
            "hooks 3",
            "to the centre line of the {over} (1) and their eyes to the centre line of the {under} (1)",
        ),
        (
            "buckle 30mm",
            "to the centre line of the {under} (1); the centre line of the {over} (1) goes through it",
        ),
    ];
    for (kind, told) in cases {
        for (over, under) in [("left", "right"), ("right", "left")] {
            let expected = told.replace("{over}", over).replace("{under}", under);
            says(&of(kind, &format!("{over} over {under}")), &expected);
        }
    }
}

/// Three on 50 cm have 50/3 each: the first lies half of that, 8.3 cm, from the end.
#[test]
fn the_first_of_a_row_is_told() {
    says(&english(&vest("toggles 3 of 40mm left over right")), "The first lies 8.3 cm from the upper end.");
    let german = told(&vest("toggles 3 of 40mm left over right"), Language::ALL[1]);
    says(&german, "8.3 cm vom oberen Ende");
}

fn pocket(more: &str, sides: &str) -> String {
    format!(
        "layer outer in shell {{ front, pocket }}\n\
         piece front \"Front\" {{ cut 1; outline rectangle 30 by 50; mark low = (8, 8) }}\n\
         piece pocket \"Pocket\" {{ cut 1; outline rectangle 14 by 16; {more} }}\n\
         finish front.left, front.top, front.right, front.bottom hem 1\n\
         finish pocket.top hem 2\n\
         place pocket on front {{ corner bottom_left at low; topstitch {sides} }}"
    )
}

#[test]
fn raw_edges_are_pressed_under_before_they_are_stitched_on() {
    let text = english(&pocket("", "left, bottom, right"));
    says(
        &text,
        "First press the allowances of the bottom, right and left edges of (2) Pocket to the wrong side.",
    );
    let without = english(&pocket("allowance 0", "left, bottom, right"));
    is_silent_on(&without, "press the allowances");
}

/// A flap of two plies is turned and its corners are trimmed; the straight side seam beside it opens flat.
#[test]
fn a_flap_of_two_plies_is_turned() {
    let text = english(
        "layer outer in shell { front, back, flap }\nlayer inner in shell { flap }\n\
         piece front \"Front\" { cut 1; outline rectangle 30 by 50; mark high = (8, 30) }\n\
         piece back \"Back\" { cut 1; outline rectangle 30 by 50 }\n\
         piece flap \"Flap\" { cut 1; outline rectangle 14 by 6 }\n\
         seam side front.right to back.left { matching front.top_right with back.top_left }\n\
         finish front.left, front.top, front.bottom, back.right, back.top, back.bottom hem 1\n\
         finish inner.flap.top overlocked\n\
         seam round outer.flap to inner.flap along left + bottom + right\n\
         place outer.flap on front { corner top_left at high; topstitch top }\n\
         steps { \"All\" { sew side; sew round; finish inner.flap.top; place flap; hem front.left, front.top, front.bottom, back.right, back.top, back.bottom } }",
    );
    says(&text, "Trim the allowances slantwise at the corners.");
    assert_eq!(text.matches("Turn it right side out").count(), 1, "{text}");
}

/// A neck that is hollow on both plies cannot open flat, so that its facing is turned inside; a waist that is hollow on the one
/// and bulges on the other is none.
#[test]
fn a_facing_is_turned_to_the_wrong_side() {
    let text = english(
        "layer outer in shell { back, facing }\n\
         piece back \"Back\" { cut 1 on fold centre; point hem = (0, 0); point neck = (0, 40); point side_neck = (8, 50); point tip = (20, 48); point low = (24, 0)\n\
           outline from hem { centre to neck; neckline to side_neck curve leaving right arriving up; shoulder to tip; side to low; hem to hem } }\n\
         piece facing \"Facing\" { cut 1 on fold centre; outline strip of back along neckline width 4 }\n\
         seam neck facing.neckline to back.neckline\n\
         finish facing.inner, facing.shoulder overlocked\n\
         finish back.shoulder, back.side, back.hem hem 1",
    );
    says(&text, "Turn (2) Facing to the wrong side and press the edge.");
    says(&text, "Clip the allowances along the inner curve");
}

fn two_part_pocket() -> String {
    "layer outer in shell { front, low, high }\n\
     piece front \"Front\" { cut 1; outline rectangle 40 by 50; mark a = (8, 8); mark b = (8, 22) }\n\
     piece low \"Lower pocket\" { cut 1; outline rectangle 22 by 14 }\n\
     piece high \"Upper pocket\" { cut 1; outline rectangle 22 by 4 }\n\
     finish front.left, front.top, front.right, front.bottom hem 1\n\
     closure slot low.top 1..21 from top_left to high.bottom 1..21 from bottom_left { zipper closed 20 }\n\
     seam bars low.top to high.bottom { matching low.top_left with high.bottom_left }\n\
     place low on front { corner bottom_left at a; topstitch left, bottom, right }\n\
     place high on front { corner bottom_left at b; topstitch left, top, right }"
        .to_owned()
}

/// Both sides of a zip are counted from the ends that its maker counts from; what it closes is not told to stay open.
#[test]
fn a_zip_between_two_pieces_has_two_sides() {
    let text = english(&two_part_pocket());
    is_silent_on(&text, "runs on along");
    says(&text, "beyond ‘top left’");
    says(&text, "beyond ‘bottom left’");
    is_silent_on(&text, "stays open");
    let [zip, laid] = ["slot zip", "Lay (2)"].map(|what| text.find(what));
    assert!(zip.is_some() && zip < laid, "{text}");
}

/// What is cut once on the fold has a left and a right half, and no left one.
#[test]
fn of_a_piece_on_the_fold_halves_are_told() {
    let text = english(
        "layer outer in shell { front }\n\
         piece front \"Front\" { cut 1 on fold left; outline rectangle 30 by 50; line row along at (10, 0) }\n\
         finish front.right, front.top, front.bottom hem 1\n\
         closure shut front.row to front.row { snaps 2 of 12mm }",
    );
    says(&text, "of (1) Front’s left half");
}

/// A flap that a seam takes in beside another ply is bound before, while it is a piece by itself.
#[test]
fn what_a_seam_takes_in_is_finished_before() {
    let text = english(
        "layer outer in shell { high, low, flap }\n\
         piece high \"High\" { cut 1; outline rectangle 30 by 20 }\n\
         piece low \"Low\" { cut 1; outline rectangle 30 by 20 }\n\
         piece flap \"Flap\" { cut 1; outline rectangle 30 by 20 }\n\
         finish high.left, high.right, high.top, low.left, low.right, low.bottom overlocked\n\
         finish flap.left, flap.bottom, flap.right bound 1\n\
         seam across high.bottom and flap.top to low.top { matching high.bottom_left with flap.top_left; matching high.bottom_left with low.top_left }",
    );
    let [bound, sewn] = ["Bind", "Sew the across"].map(|what| text.find(what));
    assert!(bound.is_some() && bound < sewn, "{text}");
}

/// What two layers cut alike is one piece of paper, and has its number on every drawing of either.
#[test]
fn a_piece_has_one_number_everywhere() {
    use fustian::emit::drawing::{Look, pieces};
    let compiled = of("layer outer in shell { front, back }\nlayer inner in shell { front, back }\n\
         piece front \"Front\" { cut 1; outline rectangle 30 by 50 }\n\
         piece back \"Back\" { cut 1; outline rectangle 34 by 50 }\n\
         seam side front.right to back.left\n\
         finish front.left, front.top, front.bottom, back.right, back.top, back.bottom hem 1");
    let cuts: Vec<_> = compiled.sizes.iter().map(|size| size.cut(&compiled.garment).clone()).collect();
    let numbers = |look: &Look| -> Vec<_> {
        pieces(&compiled.garment, &cuts, look).iter().filter_map(|group| group.number).collect()
    };
    assert_eq!(numbers(&Look::printing()), [(1, 2), (2, 2)]);
    assert_eq!(numbers(&Look::drawing()), [(1, 2), (2, 2), (1, 2), (2, 2)]);
}

/// A storm yoke that seams hold on all sides but its own lower edge is a second ply; a pocket sewn down on four sides has no mouth.
#[test]
fn a_yoke_that_seams_hold_is_no_pocket() {
    let slugs = |text: &str| -> Vec<&'static str> {
        of(text).diagnostics.into_iter().map(|one| one.slug()).collect()
    };
    let yoke = "layer outer in shell { front, back, yoke, strip }\n\
         piece front \"Front\" { cut 1; outline rectangle 30 by 50; mark spot = (0, 50) }\n\
         piece back \"Back\" { cut 1; outline rectangle 30 by 50 }\n\
         piece strip \"Strip\" { cut 1; outline rectangle 30 by 5 }\n\
         piece yoke \"Storm yoke\" { cut 1; outline rectangle 30 by 15 }\n\
         seam one front.right to back.left\nseam other back.right to front.left\nseam above front.top to strip.bottom\n\
         place yoke on front { corner top_left at spot; topstitch bottom; caught left in other; caught right in one; caught top in above }\n\
         finish front.bottom, back.bottom, back.top, strip.left, strip.top, strip.right hem 1";
    assert!(!slugs(yoke).contains(&"place/shut"), "{:?}", slugs(yoke));
    assert!(
        slugs(&pocket("", "left, bottom, right, top").replace("finish pocket.top hem 2\n", ""))
            .contains(&"place/shut")
    );
}
