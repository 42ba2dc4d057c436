//! Straps, ties and loops: what is cut for them, how many, and whether they reach. Figures by hand; every wrong
//! case stands beside a sound neighbour.

use crate::workbench::{err, folder_of, run};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use serde_json::{Value as Json, json};

/// A bag of two halves on the fold, 40 wide and 36 high, with marks 8 from the middle and this strap.
fn text(strap: &str) -> String {
    format!(
        "garment \"Bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\nlayer outer in canvas {{ bag }}\n\
         piece bag \"Bag\" {{\ncut 2 on fold middle\npoint low_middle = (0, 0)\npoint low_side = (20, 0)\n\
         point top_side = (20, 36)\npoint top_middle = (0, 36)\nmark handle = (8, 32)\nmark low = (8, 20)\n\
         mark on_fold = (0, 30)\noutline from low_middle {{\nbottom to low_side\nside to top_side\n\
         top to top_middle\nmiddle to low_middle\n}}\n}}\n\
         seam round  bag.side + bag.bottom to bag.side + bag.bottom\nfinish bag.top  hem 3\n{strap}\n"
    )
}

fn of(strap: &str) -> Compiled {
    compile(&MemoryLoader::new().with("bag.fus", text(strap)), "bag.fus")
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    let told = compiled.diagnostics.iter().map(|one| one.slug());
    told.filter(|slug| !matches!(*slug, "steps/none" | "opening/unsaid")).collect()
}

/// The strap's row of the cut list: how many, and its size with allowances, across and along.
fn cut(strap: &str) -> (u64, Json) {
    let folder = folder_of(&[("bag.fus", &text(strap))]);
    let output = run(folder.path(), &["resolve", "bag.fus"]);
    assert!(output.status.success(), "{}", err(&output));
    let told: Json = serde_json::from_slice(&output.stdout).unwrap();
    let rows = told["sizes"][0]["cut_list"].as_array().unwrap();
    let row = rows.iter().find(|row| row["piece"] == "strap").unwrap();
    (row["copies"].as_u64().unwrap(), row["cut"].clone())
}

/// 2.5 wide folded in four is cut 4 × 2.5 = 10 wide; 60 long with an allowance of 1 at each end 62. Each of the
/// two bags has one, from the left half's mark to the right half's.
#[test]
fn folded_in_four_it_is_cut_four_times_as_wide() {
    let strap = "strap strap 60 by 2.5 in outer folded in four {\nfrom bag.handle on left to bag.handle on right\nsewn 8, boxed\n}";
    assert_eq!(slugs(&of(strap)), [""; 0]);
    assert_eq!(cut(strap), (2, json!({ "width": 100, "height": 620 })));
    let flat = "strap strap 60 by 2.5 in outer { from bag.handle on left to bag.handle on right }";
    assert_eq!(cut(flat), (2, json!({ "width": 25, "height": 620 })));
}

/// A mark off the fold is there twice on each of two bags: four loops, and with a second place of the kind eight.
#[test]
fn one_is_cut_for_each_place() {
    let loops = |runs: &str| format!("strap strap 16 by 1 in outer folded in four {{\n{runs}\n}}");
    let one = "from bag.handle to bag.low";
    assert_eq!(cut(&loops(one)).0, 4);
    assert_eq!(cut(&loops(&format!("{one}\nfrom bag.handle on left to bag.top_side on left"))).0, 6);
    assert_eq!(cut(&loops("from bag.handle on right to bag.low on right")).0, 2);
}

/// The marks are 2 × 8 = 16 apart over the middle, and 32 − 20 = 12 one above the other. Of 32, two ends of 8 are
/// sewn on and 16 left.
#[test]
fn what_is_left_between_its_ends_spans() {
    let handle = |long: f64, sewn: &str| {
        slugs(&of(&format!(
            "strap strap {long} by 2 in outer folded in four {{\nfrom bag.handle on left to bag.handle on right\n{sewn}\n}}"
        )))
    };
    assert_eq!(handle(32.0, "sewn 8"), [""; 0]);
    assert_eq!(handle(31.0, "sewn 8"), ["strap/short"]);
    // Where nothing is said, as much as it is wide: 20 − 2 × 2 = 16.
    assert_eq!(handle(20.0, ""), [""; 0]);
    assert_eq!(handle(19.0, ""), ["strap/short"]);
    assert_eq!(handle(60.0, "sewn 30"), ["strap/short"]);
    assert_eq!(handle(60.0, "sewn -3"), ["value/negative"]);
    let beside = |long: f64| {
        let strap =
            format!("strap strap {long} by 2 in outer folded in four {{ from bag.handle to bag.low }}");
        slugs(&of(&strap))
    };
    assert_eq!(beside(16.0), [""; 0]);
    assert_eq!(beside(15.0), ["strap/short"]);
}

/// The bag is 40 wide and 36 high, and the mark 8 from its middle and 4 below its top: of a tie 34 wide one edge is 17
/// from the mark, and 12 are left to the side and 4 to the top; of one 14 wide 7, and 12 are left.
#[test]
fn its_piece_has_room_for_it() {
    let tie = |wide: f64, sewn: f64| {
        let tie = format!("strap strap 90 by {wide} in outer {{ from bag.handle to free; sewn {sewn} }}");
        slugs(&of(&tie))
    };
    assert_eq!(tie(34.0, 3.0), ["strap/wide"]);
    assert_eq!(tie(14.0, 3.0), [""; 0]);
    // At a corner of 90° the row across the end lies 3 in, where a strap going aslant has 2 × 3 of cloth.
    let corner = |wide: f64| {
        slugs(&of(&format!("strap strap 90 by {wide} in outer {{ from bag.top_side to free; sewn 3 }}")))
    };
    assert_eq!(corner(2.5), [""; 0]);
    assert_eq!(corner(20.0), ["strap/wide"]);
}

#[test]
fn its_ends_are_there_equally_often() {
    let strap =
        |runs: &str| slugs(&of(&format!("strap strap 60 by 2 in outer folded in four {{\n{runs}\n}}")));
    assert_eq!(strap("from bag.on_fold on left to bag.handle on left"), [""; 0]);
    assert_eq!(strap("from bag.handle to bag.handle on left"), ["strap/place"]);
    assert_eq!(strap("from bag.on_fold to bag.handle"), ["strap/place"]);
    assert_eq!(strap("sewn 8"), ["strap/place"]);
    assert_eq!(strap("from bag.handel to free"), ["name/unknown"]);
}

/// A tie is caught in the seam on whose edge its mark lies, and hangs free at the other end.
#[test]
fn an_end_is_caught_in_a_seam_on_its_edge() {
    let tie = |run: &str| slugs(&of(&format!("strap strap 60 by 2 in outer folded in four {{ {run} }}")));
    assert_eq!(tie("from bag.top_side caught in round to free"), [""; 0]);
    assert_eq!(tie("from bag.handle caught in round to free"), ["strap/place"]);
    assert_eq!(tie("from bag.top_side caught in rund to free"), ["name/unknown"]);
}

#[test]
fn a_strap_is_placed_before_what_catches_it() {
    let strap = "strap strap 60 by 2 in outer folded in four { from bag.top_side caught in round to free }";
    let steps = |steps: &str| slugs(&of(&format!("{strap}\nsteps {{\n{steps}\n}}")));
    assert_eq!(steps("\"Bag\" { place strap; sew round; hem bag.top }"), [""; 0]);
    assert_eq!(steps("\"Bag\" { sew round; place strap; hem bag.top }"), ["step/early"]);
    assert_eq!(steps("\"Bag\" { sew round; hem bag.top }"), ["step/forgotten"]);
    assert_eq!(steps("\"Bag\" { place strap, strap; sew round; hem bag.top }"), ["step/twice"]);
}

#[test]
fn a_childs_straps_meet_a_caution() {
    let strap = "strap strap 60 by 2 in outer folded in four { from bag.top_side caught in round to free }";
    let child = text(strap).replace("units cm", "units cm\nwearer child from 4 to 8 years");
    let compiled = compile(&MemoryLoader::new().with("bag.fus", child), "bag.fus");
    assert_eq!(slugs(&compiled), ["caution/cord"]);
}

/// A variation may replace a strap, drop it, and drop what it is sewn to.
#[test]
fn a_variation_changes_and_drops_it() {
    let strap = "strap strap 60 by 2 in outer folded in four { from bag.handle to bag.low }";
    let vary = |body: &str| {
        let variation = format!("variation \"Other bag\" of \"bag.fus\"\n{body}\n");
        let loader = MemoryLoader::new().with("bag.fus", text(strap)).with("other.fus", variation);
        let compiled = compile(&loader, "other.fus");
        (slugs(&compiled), compiled.garment.straps.len())
    };
    assert_eq!(vary(""), (vec![], 1));
    assert_eq!(vary("drop strap strap"), (vec![], 0));
    assert_eq!(vary("drop strap"), (vec![], 0));
    let longer = "replace strap strap 70 by 2 in outer { from bag.handle to bag.low }";
    assert_eq!(vary(longer), (vec![], 1));
    assert_eq!(vary("drop cord strap").0, ["drop/nothing"]);
}

/// What is dropped leaves the steps of the base: the strap that is named by its own word, or as a piece; also where its step has
/// nothing left. A step of the variation's own that names it is told.
#[test]
fn a_strap_that_is_dropped_leaves_the_steps() {
    let strap = "strap strap 60 by 2 in outer folded in four { from bag.handle to bag.low }\n\
                 tack hold bag.low bar 1\ntopstitch row 1 from bag.top\nnotion \"eyelet\"\nset eyelets \"eyelet\" at bag.handle\n\
                 steps {\n\"Straps\" { place strap }\n\"Bag\" { tack hold; set eyelets; sew round; hem bag.top; topstitch row }\n}";
    let vary = |body: &str| {
        let variation = format!("variation \"Other bag\" of \"bag.fus\"\n{body}\n");
        let loader = MemoryLoader::new().with("bag.fus", text(strap)).with("other.fus", variation);
        let compiled = compile(&loader, "other.fus");
        let titles = compiled.garment.steps.iter();
        (slugs(&compiled), titles.map(|group| group.title.to_string()).collect::<Vec<String>>())
    };
    for drop in ["drop strap strap", "drop piece strap", "drop strap"] {
        assert_eq!(vary(drop), (vec!["step/gone"], vec!["Bag".to_owned()]), "{drop}");
    }
    assert_eq!(vary("drop tack hold").0, ["step/gone"]);
    assert_eq!(vary("drop topstitch row").0, ["step/gone"]);
    assert_eq!(vary("drop set eyelets\ndrop notion \"eyelet\"").0, ["step/gone"]);
    let own = "drop strap strap\nin steps after \"Bag\" add \"Own\" { place strap }";
    assert!(vary(own).0.contains(&"name/unknown"), "{:?}", vary(own));
}

/// Two pieces that meet at a side seam, with marks 3 from it: 6 apart over it, and 10 where one lies 8 higher (6, 8 and 10
/// are a right-angled triangle). Of a strap of 13, twice 1.5 are sewn on, and 10 are left.
#[test]
fn over_a_seam_it_spans_from_piece_to_piece() {
    let case = |strap: &str, back: &str| {
        let text = format!(
            "garment \"Case\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\nlayer outer in canvas {{ front, back }}\n\
             piece front \"Front\" {{ cut 1; outline rectangle 40 by 30; mark tab = (37, 11) }}\n\
             piece back \"Back\" {{ cut 1; outline rectangle 40 by 30; mark tab = {back} }}\n\
             seam one front.right to back.left {{ matching front.top_right with back.top_left }}\n\
             seam other front.left to back.right {{ matching front.top_left with back.top_right }}\n\
             finish front.top, front.bottom, back.top, back.bottom hem 2\n\
             strap tab {strap} by 2 in outer folded in four {{ from front.tab to back.tab; sewn 1.5 }}\n"
        );
        slugs(&compile(&MemoryLoader::new().with("bag.fus", text), "bag.fus"))
    };
    assert_eq!(case("9", "(3, 11)"), [""; 0]);
    assert_eq!(case("8.5", "(3, 11)"), ["strap/short"]);
    assert_eq!(case("13", "(3, 19)"), [""; 0]);
    assert_eq!(case("12.5", "(3, 19)"), ["strap/short"]);
    // Over the tops, as a handle goes, 19 and 2 lie between: it may be shorter, and of 5.5 it is advised.
    assert_eq!(case("8.5", "(20, 28)"), ["strap/draws-together"]);
    assert_eq!(case("24", "(20, 28)"), [""; 0]);
}

/// The side of the body stands behind the name or behind the place, as it does with runs of edges.
#[test]
fn the_side_may_stand_behind_the_place() {
    let words = ["bag.top on left 5 from top_side", "bag.top 5 from top_side on left"];
    let [before, behind] =
        words.map(|words| format!("strap strap 8 by 2 in outer folded in four {{ from {words} to free }}"));
    assert_eq!(cut(&before), cut(&behind));
    // One on each of two bags, and not on both halves.
    assert_eq!(cut(&behind).0, 2);
    let laid = |strap: &str| {
        let mut map = fustian::source::SourceMap::default();
        let id = map.add("bag.fus".to_owned(), text(strap));
        fustian::syntax::tidy::tidy(&map, id).expect("a sound text")
    };
    assert_eq!(laid(&before), laid(&behind));
}
