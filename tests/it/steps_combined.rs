//! Steps of files that are combined and know nothing of one another: the rules of order say which comes first.

use crate::workbench::in_memory;
use fustian::emit::{document, to_text};
use fustian::{Compiled, compile, packed};

/// A bag of the crew and a cover for it, both tubes: each hem runs on over the side seam, and is turned after it.
/// Of the steps the garment says only the pocket's.
const BAG: &str = r#"garment "Tool bag"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { bag, cover, pocket }
piece bag "Bag" {
  cut 1
  outline rectangle 60 by 30
  mark pocket_corner = (10, 5)
}
piece cover "Cover" { cut 1 loose; outline rectangle 62 by 20 }
piece pocket "Pocket" { cut 1; outline rectangle 12 by 14 }
seam side bag.left to bag.right { matching bag.top_left with bag.top_right }
seam cover_side cover.left to cover.right { matching cover.top_left with cover.top_right }
finish bag.top, bag.bottom, cover.top, cover.bottom  hem 2
finish pocket.top  hem 2
place pocket on bag { corner bottom_left at pocket_corner; topstitch left, bottom, right }
steps { "Pocket" { hem pocket.top; place pocket } }
"#;

const SIDE: (&str, &str) = (
    "side.fus",
    "variation \"Side\" of \"bag.fus\"\nin steps after \"Pocket\" add \"Side\" { sew side; press side \"open\" }\n",
);
const HEMS: (&str, &str) = (
    "hems.fus",
    "variation \"Hems\" of \"bag.fus\"\nin steps after \"Pocket\" add \"Hems\" { hem bag.top, bag.bottom }\n",
);

/// The bag with two files that say so of its steps.
fn combined<'a>(one: (&'a str, &'a str), other: (&'a str, &'a str)) -> Vec<(&'a str, String)> {
    let heading = format!("variation \"Both\" of \"bag.fus\" with \"{}\", \"{}\"\n", one.0, other.0);
    let texts = [("both.fus", heading), ("bag.fus", BAG.to_owned())];
    texts.into_iter().chain([one, other].map(|(name, text)| (name, text.to_owned()))).collect()
}

fn worked_out(files: &[(&str, String)]) -> Compiled {
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    compile(&in_memory(&files), files[0].0)
}

fn of_order(compiled: &Compiled) -> Vec<&'static str> {
    let order = ["step/early", "step/shut", "step/circle", "step/nothing"];
    compiled.diagnostics.iter().map(|one| one.slug()).filter(|slug| order.contains(slug)).collect()
}

fn titles(compiled: &Compiled) -> Vec<&str> {
    compiled.garment.steps.iter().map(|step| &*step.title).collect()
}

fn text(compiled: &Compiled) -> String {
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("figures")
}

#[test]
fn the_rules_say_which_comes_first_where_two_stand_beside_one_step() {
    let [one, other] = [(SIDE, HEMS), (HEMS, SIDE)].map(|(one, other)| worked_out(&combined(one, other)));
    for both in [&one, &other] {
        assert_eq!(of_order(both), [""; 0], "{:#?}", both.diagnostics);
        // A hem that runs on over a seam is turned after it.
        assert_eq!(titles(both), ["Pocket", "Side", "Hems"]);
    }
    assert_eq!(text(&one), text(&other), "in whichever order they are named");
    // Packed into one file it is sewn in the same order.
    let files = combined(SIDE, HEMS);
    let files: Vec<(&str, &str)> = files.iter().map(|(name, text)| (*name, text.as_str())).collect();
    let whole = packed(&in_memory(&files), "both.fus");
    assert_eq!(text(&compile(&in_memory(&[("whole.fus", &whole)]), "whole.fus")), text(&one), "{whole}");
}

#[test]
fn a_wish_gives_way_to_a_rule() {
    let before = HEMS.1.replace("after \"Pocket\"", "before \"Pocket\"");
    for (one, other) in [(SIDE, ("hems.fus", before.as_str())), (("hems.fus", before.as_str()), SIDE)] {
        let both = worked_out(&combined(one, other));
        assert_eq!(of_order(&both), [""; 0], "{:#?}", both.diagnostics);
        let titles = titles(&both);
        let at = |title: &str| titles.iter().position(|one| *one == title).expect("the step");
        assert!(at("Side") < at("Hems"), "{titles:?}");
    }
    // A file by itself is told: whoever writes it sees all the steps.
    let own = format!("{}in steps before \"Side\" add \"Hems\" {{ hem bag.top, bag.bottom }}\n", SIDE.1);
    let own = worked_out(&[("own.fus", own), ("bag.fus", BAG.to_owned())]);
    assert_eq!(of_order(&own)[0], "step/early", "{:#?}", own.diagnostics);
}

#[test]
fn what_is_said_of_own_steps_holds() {
    // Two steps of one file, the second after the first.
    let hems = HEMS.1.to_owned() + "in steps after \"Hems\" add \"Badge\" { press bag \"from outside\" }\n";
    for (one, other) in [(SIDE, ("hems.fus", hems.as_str())), (("hems.fus", hems.as_str()), SIDE)] {
        let both = worked_out(&combined(one, other));
        assert_eq!(titles(&both), ["Pocket", "Side", "Hems", "Badge"], "{:#?}", both.diagnostics);
    }
}

#[test]
fn what_truly_contradicts_is_told() {
    // Each of the two steps does first what the other needs: no order of them will do.
    let side = SIDE.1.replace("{ sew side; press side \"open\" }", "{ sew side; hem cover.top }");
    let hems = HEMS.1.replace("{ hem bag.top, bag.bottom }", "{ sew cover_side; hem bag.top, bag.bottom }");
    let both = worked_out(&combined(("side.fus", &side), ("hems.fus", &hems)));
    let told = of_order(&both);
    assert!(!told.is_empty() && told.iter().all(|slug| *slug == "step/early"), "{:#?}", both.diagnostics);
    let early = both.diagnostics.iter().find(|one| one.slug() == "step/early").expect("it");
    let files: Vec<String> =
        early.labels.iter().map(|label| both.map.place(label.span).0.to_string()).collect();
    assert!(
        files.iter().any(|file| file == "side.fus") && files.iter().any(|file| file == "hems.fus"),
        "{files:?}"
    );
}
