//! What a second sewer stumbled over who worked from sheets alone: each beside what is right already.

use crate::sheet_sentences::{compiled, read, read_of, with_texts};
use crate::workbench::{example, of, told, with};
use fustian::compile;
use fustian::emit::steps_document;
use fustian::sheet::Language;
use fustian::source::MemoryLoader;

/// Fronts and a back that is cut on the fold, faced along edge and neck. The right side has a slot.
const GILET: &str = r#"
garment "Deck gilet"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { back, front }
piece back "Back" {
  cut 1 on fold centre
  drawn right
  point hem_cb = (0, 0)
  point neck_cb = (0, 58)
  point neck = (8, 60)
  point tip = (20, 60)
  point hem_side = (20, 0)
  outline from hem_cb {
    centre to neck_cb
    neckline to neck curve leaving right arriving square to shoulder
    shoulder to tip
    side to hem_side
    hem to hem_cb
  }
}
piece front "Front" {
  cut 2 mirrored
  drawn left
  point hem_edge = (0, 0)
  point break = (0, 50)
  point neck = (8, 60)
  point tip = (20, 60)
  point hem_side = (20, 0)
  outline from hem_edge {
    edge to break
    neckline to neck curve leaving right arriving square to shoulder
    shoulder to tip
    side to hem_side
    hem to hem_edge
  }
}
seam shoulder  back.shoulder to front.shoulder
seam side  front.side to back.side
facing inside "Facing" in outer 4 wide behind front.edge + front.neckline + back.neckline
finish front.side 20..23 from tip on right, back.side 20..23 from tip on right  hem 2
finish inside_front.inner, inside_back.inner  overlocked
finish front.hem, back.hem, inside_front.hem  hem 2
"#;

/// The same without the slot.
fn whole() -> String {
    let slot = "finish front.side 20..23 from tip on right, back.side 20..23 from tip on right  hem 2\n";
    with(GILET, &[(slot, "")])
}

/// The slot's allowance is another than the seam's, so that left and right fronts are two pieces. What is sewn on both is said of both,
/// and what is sewn on one of that one. By hand: the side is 60 cm long, of which the slot takes 20 to 23.
#[test]
fn fronts_that_are_cut_differently_are_told_apart() {
    let english = read_of(GILET, Language::English);
    for said in [
        "Sew the shoulder seams [B]: (1) Back to (2)/(3) Front, right sides together.",
        "Sew the left side seam [E]: the left (2) Front to (1) Back, right sides together.",
        "Sew the right side seam [E]: the right (3) Front to (1) Back, right sides together.",
        "On the side edges of the right (3) Front and (1) Back: 20 cm, from ‘tip’ on.",
        "On the side edges of the right (3) Front and (1) Back: 37 cm, beginning 23 cm beyond ‘tip’.",
    ] {
        assert!(english.contains(said), "{said}\n{english}");
    }
    assert!(!english.contains("each by itself"), "{english}");
    let german = read_of(GILET, Language::German);
    assert!(german.contains("(2)/(3) Front"), "{german}");
    // Hemmed by as much as the seam's allowance, both are one piece of paper, and the slot is still on the right alone.
    let alike = read_of(&GILET.replace("on right  hem 2", "on right  hem 1"), Language::English);
    for said in [
        "Sew the left side seam [E]: (2) Front to (1) Back, right sides together.",
        "Sew the right side seam [E]: (2) Front to (1) Back, right sides together.",
        "On the side edges of (2) Front and (1) Back: 20 cm, from ‘tip’ on.",
    ] {
        assert!(alike.contains(said), "{said}\n{alike}");
    }
    assert!(!alike.contains("each by itself"), "{alike}");
    let plain = read_of(&whole(), Language::English);
    assert!(
        plain.contains("Sew the side seams [E]: (2) Front to (1) Back, right sides together."),
        "{plain}"
    );
    assert!(!plain.contains("stretches") && !plain.contains(")/("), "{plain}");
}

/// Sewn over the fold in one go, or half by half since left and right differ: a facing is clipped and turned.
#[test]
fn a_facing_of_two_halves_is_clipped_and_turned() {
    for text in [GILET, &whole()] {
        let english = read_of(text, Language::English);
        let facing =
            english.lines().position(|line| line.contains("Sew the inside seam [D]")).expect("it is sewn");
        let step: Vec<&str> = english.lines().skip(facing).take_while(|line| !line.contains('|')).collect();
        let step = step.join("\n");
        assert!(step.contains("Clip the allowances along the inner curve, up to the stitching."), "{step}");
        assert!(step.contains("Facing, back to the wrong side and press the edge."), "{step}");
    }
}

/// A muff whose ends join its inside and its outside, and so does the inner edge of its facing.
const MUFF: &str = r#"
garment "Watch muff"
units cm
allowance 1
fabric drill "drill" { width 150 }
fabric satin "satin" { width 140 }
layer outer in drill { body, end }
layer inner in satin { body_lining, end }
piece body "Body" { cut 1; outline rectangle 30 by 40 }
piece body_lining "Body lining" { cut 1; outline rest of body without foot_body }
piece end "End" { cut 1; outline rectangle 30 by 10 }
seam join  outer.body.top to outer.end.bottom { matching body.top_right with end.bottom_right }
seam join_inside  inner.body_lining.top to inner.end.bottom { matching body_lining.top_right with end.bottom_right }
seam ends  outer.end.top to inner.end.top
facing foot "Foot facing" in outer 5 wide behind body.bottom
seam inside  foot_body.inner to body_lining.inner
finish body.left, body.right, body_lining.left, body_lining.right, end.left, end.right, foot_body.left, foot_body.right  overlocked
steps { "All" { sew join, join_inside, foot, ends, inside } }
"#;

/// Turned right side out it could not be sewn right sides together once more: that is said with the last seam that joins both.
#[test]
fn nothing_is_turned_before_all_is_sewn() {
    let turned = "Turn it right side out and press the edge.";
    let of = |text: &str, seam: &str| {
        let english = read_of(text, Language::English);
        let begins = format!("Sew the {seam} seam");
        let at = english.lines().position(|line| line.contains(&begins)).expect("it is sewn");
        let step: Vec<&str> = english.lines().skip(at).take_while(|line| !line.contains('|')).collect();
        step.join("\n").contains(turned)
    };
    assert_eq!(["ends", "inside"].map(|seam| of(MUFF, seam)), [false, true]);
    let other = MUFF.replace("ends, inside }", "inside, ends }");
    assert_eq!(["ends", "inside"].map(|seam| of(&other, seam)), [true, false]);
    // Where the facing is hemmed instead nothing waits.
    let hemmed = with(
        MUFF,
        &[
            (
                "seam inside  foot_body.inner to body_lining.inner",
                "finish foot_body.inner, body_lining.inner  hem 1",
            ),
            ("ends, inside }", "ends }"),
        ],
    );
    assert!(of(&hemmed, "ends"));
    // The facing itself is turned at once.
    let english = read_of(MUFF, Language::English);
    assert!(
        english.contains("Turn (3) Foot facing, body to the wrong side and press the edge."),
        "{english}"
    );
}

/// A sleeve that is closed to a tube is set in round its armhole, though it hangs apart until then.
#[test]
fn what_is_set_in_round_a_ring_is_called_so() {
    let smock = example("deck-smock");
    let begins = smock.find("\nsteps {").expect("it says its steps");
    let loader =
        MemoryLoader::new().with("a.fus", &smock[..begins]).with("crew-library.fus", example("crew-library"));
    let compiled = compile(&loader, "a.fus");
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let group = |seam: &str| {
        let line = steps.iter().find(|line| line.to.as_deref() == Some(seam)).expect("it is sewn");
        line.step.clone()
    };
    assert_eq!(["shoulder", "side", "armhole"].map(group), ["Yoke and shoulders", "Sides", "In the round"]);
    // A facing hangs apart, and is open.
    let gilet = of(&whole());
    let steps = steps_document(&gilet.garment, &gilet.sizes[0]).steps;
    let facing = steps.iter().find(|line| line.to.as_deref() == Some("inside")).expect("it is sewn");
    assert_eq!(facing.step, "Sewn while flat");
}

/// Straps of a bag: one is stitched down at both ends, one at one end while a seam catches the other, one hangs free.
const BAG: &str = r#"
garment "Galley bag"
units cm
allowance 1
fabric canvas "canvas" { width 150 }
layer outer in canvas { bag }
piece bag "Bag" {
  cut 2
  outline rectangle 40 by 30
  mark low = (8, 20)
  mark high = (32, 20)
}
seam round  bag.left + bag.bottom + bag.right to bag.left + bag.bottom + bag.right
finish bag.top  hem 2
strap handle "Handle" 50 by 3 in outer folded in four { from bag.low to bag.high; sewn 4, boxed }
STRAPS
"#;

/// What is stitched down on the cloth would show its raw end; what a seam catches does not.
#[test]
fn ends_that_are_stitched_down_are_turned_in() {
    let straps = |more: &str| {
        let text = BAG.replace("STRAPS", more);
        assert!(!of(&text).has_mistakes(), "{:?}", told(&text));
        [Language::English, Language::German].map(|language| read_of(&text, language))
    };
    let [english, german] = straps("");
    assert!(english.contains("First fold both ends of (2) Handle to the wrong side: 1 cm."), "{english}");
    assert!(!english.contains("inward on the right side"), "{english}");
    assert!(
        german.contains("Zuerst beide Enden von (2) Handle auf die linke Seite falten: 1 cm."),
        "{german}"
    );
    let inward = "Its cut end lies at the cut edge, and all the rest inward on the right side.";
    let caught = "strap tag \"Tag\" 45 by 1 in outer folded in four { from bag.left 10 from top_left caught in round to CHOSEN }";
    let [free, _] = straps(&caught.replace("CHOSEN", "free"));
    assert!(
        free.contains("First fold the end of (3) Tag that hangs free to the wrong side: 1 cm."),
        "{free}"
    );
    assert!(free.contains(inward), "{free}");
    let [sewn, _] = straps(&caught.replace("CHOSEN", "bag.low"));
    let said = "First fold the end of (3) Tag that is stitched down to the wrong side: 1 cm.";
    assert!(sewn.contains(said) && sewn.contains(inward), "{sewn}");
    let [both, _] = straps(&caught.replace("CHOSEN", "bag.right 10 from top_right caught in round"));
    assert!(!both.contains("of (3) Tag that") && !both.contains("both ends of (3) Tag to"), "{both}");
}

/// Two handles, one on each copy of the bag, a row along both tops, and four eyelets at two marks of two copies.
#[test]
fn straps_rows_and_what_is_set_are_counted() {
    let rows =
        "notion \"eyelet\" 4\nset eyelets \"eyelet\" at bag.low, bag.high\ntopstitch top_row 1 from bag.top";
    let compiled = of(&BAG.replace("STRAPS", rows));
    assert!(!compiled.has_mistakes(), "{:?}", told(&BAG.replace("STRAPS", rows)));
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let of = |name: &str| {
        let line = steps.iter().find(|line| line.to.as_deref() == Some(name)).expect("a line");
        (line.layers.clone(), line.times)
    };
    assert_eq!(of("handle"), (vec!["outer".to_owned()], Some(2)));
    assert_eq!(of("top_row"), (vec!["outer".to_owned()], Some(2)));
    assert_eq!(of("eyelets").1, Some(4));
    // Over the fold one line runs beside both halves.
    let gilet = format!("{}understitch rim 0.2 from inside_front.edge, inside_back.neckline\n", whole());
    let gilet = crate::workbench::of(&gilet);
    assert!(!gilet.has_mistakes(), "{:?}", gilet.diagnostics);
    let steps = steps_document(&gilet.garment, &gilet.sizes[0]).steps;
    let rim = steps.iter().find(|line| line.to.as_deref() == Some("rim")).expect("a line");
    assert_eq!(rim.times, Some(3));
}

/// Which notch is double is the maker's own: the key says only what meets what.
#[test]
fn a_double_notch_is_no_back() {
    let words = |language| fustian::sheet::words::Words::of(language).labels.key_notch;
    assert_eq!(words(Language::English), "notch; a double one meets a double one");
    assert_eq!(words(Language::German), "Knips; ein doppelter trifft auf einen doppelten");
}

/// A gusset in an inward corner: the first of its edges is sewn up to it, the second once that is clipped.
const CORNER: &str = r#"
garment "Deck tabard"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { body, gusset }
piece body "Body" {
  cut 1
  point a = (0, 0)
  point b = (40, 0)
  point c = (40, 30)
  point d = (30, 30)
  point e = (30, 40)
  point f = (0, 40)
  outline from a { bottom to b; right to c; ledge to d; inset to e; top to f; left to a }
}
piece gusset "Gusset" { cut 1; outline rectangle 10 by 10 }
seam low  gusset.bottom to body.ledge { matching gusset.bottom_left with body.d }
seam high gusset.left to body.inset { matching gusset.bottom_left with body.d }
finish body.bottom, body.right, body.top, body.left, gusset.top, gusset.right  overlocked
"#;

#[test]
fn an_inward_corner_is_clipped_before_its_second_edge() {
    let clip = "First clip the allowance of (1) Body into the corner ‘d’, up to the stitching line.";
    let english = read_of(CORNER, Language::English);
    let at = |words: &str| english.find(words).expect("it is said");
    assert_eq!(english.matches("lip the").count(), 1, "{english}");
    assert!(at("Sew the low seam") < at(clip) && at(clip) < at("Sew the high seam"), "{english}");
    assert!(read_of(CORNER, Language::German).contains("in Ecke „d“ bis an die Nahtlinie"));
    // In one seam round it, it is clipped before that.
    let [low, high] = [
        "seam low  gusset.bottom to body.ledge { matching gusset.bottom_left with body.d }\n",
        "seam high gusset.left to body.inset { matching gusset.bottom_left with body.d }\n",
    ];
    let round = "seam round gusset.left + gusset.bottom to body.inset + body.ledge { matching gusset.top_left with body.e }\n";
    let one = read_of(&with(CORNER, &[(low, round), (high, "")]), Language::English);
    assert!(one.contains(&format!("{clip}\n    Sew the round seam")), "{one}");
    // Where the other edge is finished, or both corners point outward, nothing is clipped.
    let finished = with(
        CORNER,
        &[(high, ""), ("gusset.right  overlocked", "gusset.right, gusset.left, body.inset  overlocked")],
    );
    assert!(!read_of(&finished, Language::English).contains("lip the"));
    assert!(!read_of(BAG.replace("STRAPS", "").as_str(), Language::English).contains("First clip"));
}

/// A hood and its lining go into the neck together, and their face runs on over that in front: sewn into the neck before, they could not
/// be turned.
#[test]
fn what_goes_into_a_seam_in_two_plies_is_joined_before() {
    let text = r#"
garment "Bow deck hood"
units cm
allowance 1
fabric jersey "jersey" { width 150 }
layer outer in jersey { front, back, hood }
layer inside in jersey { hood }
piece front "Front" { cut 1 on fold left; outline rectangle 10 by 40 }
piece back "Back" { cut 1 on fold left; outline rectangle 15 by 40 }
piece hood "Hood" { cut 2 mirrored; outline rectangle 25 by 30 }
seam side  front.right to back.right
seam crown  hood.right to hood.right
seam top  hood.top to hood.top
seam neck  outer.hood.bottom and inside.hood.bottom to front.top + back.top { matching hood.bottom_left with front.top_left }
seam face  outer.hood.left to inside.hood.left
finish front.bottom, back.bottom  overlocked
"#;
    assert_eq!(told(text), []);
    let compiled = of(text);
    let steps = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let at = |seam: &str| steps.iter().position(|line| line.to.as_deref() == Some(seam)).expect("it is sewn");
    assert!(at("crown") < at("face") && at("face") < at("neck"));
}

/// The rounded end of a stand would lie in folds once it is turned; the straight edges of a collar do not.
#[test]
fn a_rounded_edge_is_notched_before_it_is_turned() {
    let shirt = with_texts(&compiled("purser-shirt"), Language::English, read);
    let step = |seam: &str| {
        let begins = format!("Sew the {seam} seam");
        let at = shirt.lines().position(|line| line.contains(&begins)).expect("it is sewn");
        let step: Vec<&str> = shirt.lines().skip(at).take_while(|line| !line.contains('|')).collect();
        step.join("\n")
    };
    let notched = "Cut small wedges out of the allowances along the outer curve.";
    assert!(step("stand end").contains(notched), "{shirt}");
    let collar = step("collar edge");
    assert!(!collar.contains(notched) && collar.contains("Trim the allowances slantwise"), "{collar}");
}

/// A sleeve that shell and lining both have is meant in one of them; what is there in one layer alone needs no word of it.
#[test]
fn of_what_two_layers_have_the_layer_is_told() {
    let jacket = with_texts(&compiled("mess-jacket"), Language::English, read);
    let facts = |seam: &str| {
        let begins = format!("Sew the {seam} seam");
        let mut lines = jacket.lines().skip_while(|line| !line.contains(&begins));
        lines.find(|line| line.contains('|')).expect("its facts").to_owned()
    };
    assert!(facts("lining armhole").ends_with("| in lining"), "{jacket}");
    // Between a facing and a lining the sentence names both.
    assert!(!facts("facing edge").contains("| in "), "{jacket}");
}

/// Sewn flat, the armhole has two ends; once side and sleeve are closed it goes all round.
#[test]
fn what_seams_close_to_a_ring_goes_all_round() {
    let smock = example("deck-smock");
    let armhole = |text: &str| {
        let loader =
            MemoryLoader::new().with("a.fus", text).with("crew-library.fus", example("crew-library"));
        let read = with_texts(&compile(&loader, "a.fus"), Language::English, read);
        let mut lines = read.lines().skip_while(|line| !line.contains("Sew the armhole seam"));
        lines.find(|line| line.contains('|')).expect("its facts").contains("| all round")
    };
    let begins = smock.find("\nsteps {").expect("it says its steps");
    assert_eq!([armhole(&smock), armhole(&smock[..begins])], [false, true]);
}

/// A waist that is closed to a ring before its casing is made has no end at which elastic could go in; a flat one has two.
#[test]
fn a_casing_all_round_is_left_open_for_its_elastic() {
    let skirt = |steps: &str| {
        format!(
            "garment \"Galley skirt\"\nunits cm\nallowance 1\nfabric drill \"drill\" {{ width 150 }}\n\
             layer outer in drill {{ skirt }}\n\
             piece skirt \"Skirt\" {{ cut 2; outline rectangle 50 by 60 }}\n{steps}\n\
             finish skirt.top  casing 3 for elastic 2 of 70cm\nfinish skirt.bottom  hem 2\n"
        )
    };
    let open = "Leave a short stretch of it open, to draw the elastic in there.";
    let round = skirt("seam one skirt.left to skirt.left\nseam other skirt.right to skirt.right");
    assert_eq!(told(&round), []);
    let english = read_of(&round, Language::English);
    let at = |words: &str| english.find(words).expect("it is said");
    assert!(
        at(open) < at("Draw elastic through it")
            && at("sew them together") < at("Stitch shut what was left open.")
    );
    let flat = skirt("seam one skirt.left to skirt.left\nfinish skirt.right  hem 1");
    let flat = read_of(&flat, Language::English);
    assert!(flat.contains("Draw elastic through it") && !flat.contains(open), "{flat}");
    assert!(!flat.contains("left open"), "{flat}");
}

/// Rows of stitching along lines go along lines, not along edges.
#[test]
fn lines_of_one_piece_are_called_lines() {
    let rows = "topstitch rows along bag.one, bag.two";
    let text = with(
        &BAG.replace("STRAPS", rows),
        &[("mark low =", "line one across at (0, 10)\n  line two across at (0, 15)\n  mark low =")],
    );
    assert_eq!(told(&text), []);
    let english = read_of(&text, Language::English);
    assert!(english.contains("along the one and two lines of (1) Bag"), "{english}");
}

/// The ends of a belt that is turned through a gap in its long edge wait for that; those of a tab that stays open there are turned at once.
#[test]
fn ends_across_the_fold_wait_for_the_turn_through_a_gap() {
    let belt = r#"
garment "Galley belt"
units cm
allowance 1
fabric drill "drill" { width 150 }
layer outer in drill { belt }
piece belt "Belt" { cut 1; outline rectangle 80 by 10; folded top to bottom }
seam long  belt.top to belt.bottom { leaving gap 14 }
seam ends  belt.left, belt.right across the fold
"#;
    assert_eq!(told(belt), []);
    let english = read_of(belt, Language::English);
    assert!(english.contains("Turn it right side out through the gap"), "{english}");
    assert!(!english.contains("Turn it right side out."), "{english}");
    let tab = with(
        belt,
        &[(
            "seam long  belt.top to belt.bottom { leaving gap 14 }\n",
            "finish belt.top, belt.bottom  overlocked\n",
        )],
    );
    assert_eq!(told(&tab), []);
    let english = read_of(&tab, Language::English);
    assert!(english.contains("Turn it right side out.") && !english.contains("through the gap"), "{english}");
}
