//! Steps of files that are combined and know nothing of one another: the rules of order say which comes first.

use crate::workbench::in_memory;
use fustian::emit::{document, to_text};
use fustian::{Compiled, compile, packed};

/// A bag of the crew, whose steps say nothing of a pocket or a flap.
const BAG: &str = r#"garment "Tool bag"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { bag }
piece bag "Bag" {
  cut 1
  outline rectangle 60 by 30
  mark pocket_corner = (10, 5)
}
seam side bag.left to bag.right { matching bag.top_left with bag.top_right }
finish bag.top, bag.bottom  hem 2
steps {
  "Side"  { sew side }
  "Hems"  { hem bag.top, bag.bottom }
}
"#;

/// A pocket, whose hem no step of this file says.
const POCKET: &str = r#"variation "With a pocket" of "bag.fus"
piece pocket "Pocket" { cut 1; outline rectangle 12 by 14 }
add pocket to layer outer
finish pocket.top  hem 2
place pocket on bag { corner bottom_left at pocket_corner; topstitch left, bottom, right }
in steps before "Side" add "Pocket" { place pocket }
in steps after "Side" add "Pocket hem" { press side }
"#;

/// What hems it, put beside a step of the bag: after the pocket is placed, as the files are merged.
const HEMMED: &str = r#"variation "Hemmed first" of "pocket.fus"
in steps before "Side" add "Edges" { hem pocket.top }
"#;

const HEADING: &str = "variation \"Both\" of \"bag.fus\"";

fn compiled(heading: &str, others: &[(&str, &str)]) -> Compiled {
    let mut files = vec![("both.fus", heading), ("bag.fus", BAG)];
    files.extend_from_slice(others);
    compile(&in_memory(&files), "both.fus")
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|one| one.slug()).collect()
}

fn titles(compiled: &Compiled) -> Vec<&str> {
    compiled.garment.steps.iter().map(|step| &*step.title).collect()
}

/// Two that each put steps before the side.
fn pair() -> [(&'static str, &'static str); 2] {
    [
        (
            "strip.fus",
            "variation \"Strip\" of \"bag.fus\"\npiece strip \"Strip\" { cut 1; outline rectangle 12 by 14 }\n\
             add strip to layer outer\nfinish strip.top  hem 2\n\
             place strip on bag { corner bottom_left at pocket_corner; topstitch left, bottom, right }\n\
             in steps before \"Side\" add \"Place\" { place strip }\n\
             in steps before \"Place\" add \"Edge\" { hem strip.top }\n",
        ),
        (
            "badge.fus",
            "variation \"Badge\" of \"bag.fus\"\npiece badge \"Badge\" { cut 1; outline rectangle 4 by 4 }\n\
             in piece bag add { mark badge_corner = (40, 10) }\nadd badge to layer outer\nfinish badge.top  hem 1\n\
             place badge on bag { corner bottom_left at badge_corner; topstitch left, bottom, right }\n\
             in steps before \"Side\" add \"Badge\" { hem badge.top; place badge }\n",
        ),
    ]
}

#[test]
fn files_that_know_nothing_of_one_another_combine_either_way_round() {
    let names = ["\"strip.fus\", \"badge.fus\"", "\"badge.fus\", \"strip.fus\""];
    for with in names {
        let both = compiled(&format!("{HEADING} with {with}\n"), &pair());
        assert_eq!(slugs(&both), [""; 0], "{:#?}", both.diagnostics);
        let at = |title: &str| titles(&both).iter().position(|one| *one == title).expect("the step");
        assert!(at("Edge") < at("Place") && at("Place") < at("Side") && at("Badge") < at("Side"));
    }
}

/// What is placed only once its own edge is hemmed, and another file that hems it.
#[test]
fn a_wish_gives_way_to_a_rule() {
    let own = compile(
        &in_memory(&[("hemmed.fus", HEMMED), ("pocket.fus", POCKET), ("bag.fus", BAG)]),
        "hemmed.fus",
    );
    // In one line of files the maker sees all steps, and is told.
    assert_eq!(slugs(&own), ["step/early"]);
    let both = compiled(
        &format!("{HEADING} with \"pocket.fus\", \"hemmed.fus\"\n"),
        &[("pocket.fus", POCKET), ("hemmed.fus", HEMMED)],
    );
    assert_eq!(slugs(&both), [""; 0], "{:#?}", both.diagnostics);
    let titles = titles(&both);
    let at = |title: &str| titles.iter().position(|one| *one == title).expect("the step");
    assert!(
        at("Edges") < at("Pocket") && at("Pocket") < at("Side") && at("Side") < at("Pocket hem"),
        "{titles:?}"
    );
    // Packed into one file it is sewn in the same order.
    let heading = format!("{HEADING} with \"pocket.fus\", \"hemmed.fus\"\n");
    let loader = in_memory(&[
        ("both.fus", &heading),
        ("bag.fus", BAG),
        ("pocket.fus", POCKET),
        ("hemmed.fus", HEMMED),
    ]);
    let whole = compile(&in_memory(&[("whole.fus", &packed(&loader, "both.fus"))]), "whole.fus");
    let text = |compiled: &Compiled| {
        to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("figures")
    };
    assert_eq!(text(&whole), text(&both));
}

#[test]
fn what_truly_contradicts_is_told() {
    // Each of the two steps does first what the other needs: no order of them will do.
    let pocket = POCKET.replace("{ place pocket }", "{ place pocket; hem flap.top }")
        + "piece flap \"Flap\" { cut 1; outline rectangle 12 by 6 }\nadd flap to layer outer\nfinish flap.top  hem 1\n\
           in piece bag add { mark flap_corner = (30, 20) }\n\
           place flap on bag { corner bottom_left at flap_corner; topstitch left, bottom, right }\n";
    let hemmed = HEMMED.replace("{ hem pocket.top }", "{ hem pocket.top; place flap }");
    let with = [("pocket.fus", pocket.as_str()), ("hemmed.fus", hemmed.as_str())];
    let both = compiled(&format!("{HEADING} with \"pocket.fus\", \"hemmed.fus\"\n"), &with);
    let early: Vec<&str> = slugs(&both).into_iter().filter(|slug| *slug == "step/early").collect();
    assert_eq!(early, ["step/early"], "{:#?}", both.diagnostics);
}
