//! Eyelets, snaps and loops that are set at marks: how many there are, where they are marked, when they are set. Figures
//! are counted by hand.

use crate::workbench::{NOTHING, helps, in_memory, of, said, told, with};
use fustian::emit::document;
use fustian::{compile, packed};
use serde_json::Value;

/// A lined hood of two sides, with two eyelets a side, a loop at its neck, and a back on the fold with one eyelet there.
const HOOD: &str = r#"garment "Lookout's hood"
units cm
allowance 1
fabric oilskin "oilskin" { width 150; kind woven firm }
fabric flannel "flannel" { width 150 }
layer outer in oilskin { hood, back }
layer lining in flannel { hood }
piece hood "Side of the hood" {
  cut 2 mirrored
  outline rectangle 30 by 40
  mark low  = (2, 6)
  mark high = (2, 30)
}
piece back "Neck flap" {
  cut 1 on fold left loose
  outline rectangle 20 by 12
  mark middle = (0, 4)
  mark side   = (15, 4)
}
notion "eyelet 5 mm" 7
notion "leather loop" price 0.80 each
set eyelets "eyelet 5 mm" at hood.low, hood.high, back.middle, back.side
set loops "leather loop" at back.top at 5 from top_right
seam middle  hood.right to hood.right
seam edge    outer.hood.left to lining.hood.left
finish hood.top, hood.bottom, back.top, back.bottom, back.right  hem 2
steps {
  "Eyelets" { set eyelets, loops }
  "Hood"    { sew middle, edge; hem hood.top, hood.bottom, back.top, back.bottom, back.right }
}
"#;

fn size(text: &str) -> Value {
    let compiled = of(text);
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    let written = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    serde_json::to_value(written).expect("figures")["sizes"][0].clone()
}

/// Two sides with two each are 4; on the fold there is one, beside it one on each half: 7. A loop on each half: 2.
#[test]
fn they_are_counted_over_all_copies() {
    assert_eq!(told(HOOD), []);
    let json = size(HOOD);
    let sets = json["sets"].as_array().expect("sets");
    assert_eq!(sets[0]["count"], 7);
    assert_eq!(sets[1]["count"], 2);
    assert_eq!(sets[0]["notion"], "eyelet 5 mm");
    assert_eq!(sets[0]["at"][3], "back.side");
    // What has no number is bought as often as it is set.
    let notions = json["notions"].as_array().expect("notions");
    let count = |what: &str| {
        let own = notions.iter().find(|one| one["what"] == what).expect("it is bought");
        own["count"].as_u64().expect("a number")
    };
    assert_eq!((count("eyelet 5 mm"), count("leather loop")), (7, 2));
}

/// Six gores meet in one point at the top of a hat: one button covers it. Along the brim each gore meets the next one: 6 joints. A
/// mark 4 below the top is on each of the six.
#[test]
fn where_copies_meet_is_one_place() {
    let hat = |at: &str, bought: u32| {
        format!(
            "garment \"Deckhand's hat\"\nunits cm\nallowance 1\nfabric drill \"drill\" {{ width 150 }}\nlayer outer in drill {{ gore }}\n\
             piece gore \"Gore\" {{\n  cut 6\n  point low_l = (-5, 0)\n  point low_r = (5, 0)\n  point top = (0, 16)\n  mark below = (0, 12)\n  \
             outline from low_l {{ brim to low_r; right to top curve leaving up arriving 110°; left to low_l curve leaving -110° arriving down }}\n}}\n\
             seam gores gore.right to gore.left in a ring\nfinish gore.brim bound 1\nnotion \"covered button\" {bought}\n\
             set buttons \"covered button\" at {at}\n\
             steps {{ \"Hat\" {{ sew gores; finish gore.brim; set buttons }} }}\n"
        )
    };
    for (at, count) in [("gore.top", 1), ("gore.low_l", 6), ("gore.below", 6), ("gore.top, gore.below", 7)] {
        assert_eq!(told(&hat(at, count)), [], "{at}");
        assert_eq!(size(&hat(at, count))["sets"][0]["count"], count, "{at}");
    }
    let six = [("notion/unset", "6 of “covered button” are bought, and only 1 is set".to_owned())];
    assert_eq!(told(&hat("gore.top", 6)), six);
}

#[test]
fn more_or_fewer_than_are_bought_are_told() {
    let bought =
        |number: &str| told(&with(HOOD, &[("\"eyelet 5 mm\" 7", &format!("\"eyelet 5 mm\" {number}"))]));
    assert_eq!(bought("4"), [("notion/short", "4 of “eyelet 5 mm” are bought, and 7 are set".to_owned())]);
    assert_eq!(
        bought("8"),
        [("notion/unset", "8 of “eyelet 5 mm” are bought, and only 7 are set".to_owned())]
    );
    assert_eq!(
        bought("7cm"),
        [("notion/short", "eyelet 5 mm is bought by length, and set one by one".to_owned())]
    );
    assert_eq!(bought(""), []);
    // Without its statement they lie in their box, a loop might be anywhere.
    let unset = with(
        HOOD,
        &[
            ("set eyelets \"eyelet 5 mm\" at hood.low, hood.high, back.middle, back.side\n", ""),
            ("set eyelets, loops", "set loops"),
        ],
    );
    assert_eq!(told(&unset), [("notion/unset", "“eyelet 5 mm” is bought, and set nowhere".to_owned())]);
    let loops = with(
        HOOD,
        &[
            ("\"leather loop\" price 0.80 each", "\"leather loop\" 2"),
            ("set loops \"leather loop\" at back.top at 5 from top_right\n", ""),
            ("set eyelets, loops", "set eyelets"),
        ],
    );
    assert_eq!(said(&loops), NOTHING);
}

#[test]
fn a_place_that_is_none_is_told() {
    let at = |places: &str| told(&with(HOOD, &[("at hood.low, hood.high, back.middle, back.side", places)]));
    assert_eq!(at("at hood.low, hood.lwo, hood.high, back.middle, back.side")[0].0, "name/unknown");
    let twice = at("at hood.low, hood.low, hood.high, back.middle, back.side");
    assert!(twice.contains(&("set/place", "eyelets sets two things at one place".to_owned())), "{twice:?}");
    let elsewhere = at("at hood.low, hood.high, lining.back.middle, back.side");
    // Of 7 that are bought 4 + 1 + 1 are set then.
    let slugs: Vec<&str> = elsewhere.iter().map(|(slug, _)| *slug).collect();
    assert_eq!(slugs, ["notion/unset", "set/place"], "{elsewhere:?}");
    let alike = with(HOOD, &[("  cut 2 mirrored\n", "  cut 2\n"), ("at hood.low,", "at hood.low on left,")]);
    let neither = ("set/place", "Side of the hood is neither a left nor a right one".to_owned());
    assert!(told(&alike).contains(&neither), "{:?}", told(&alike));
    // One of the two sides alone: 6 instead of 7.
    let left =
        with(HOOD, &[("at hood.low,", "at hood.low on left,"), ("\"eyelet 5 mm\" 7", "\"eyelet 5 mm\" 6")]);
    assert_eq!(told(&left), []);
    let beyond = with(HOOD, &[("back.top at 5 from", "back.top at 50 from")]);
    assert_eq!(said(&beyond), ["row/place"]);
    // Misspelt.
    let wrong = with(HOOD, &[("set eyelets \"eyelet 5 mm\"", "set eyelets \"eylet 5 mm\"")]);
    assert_eq!(said(&wrong)[0], "name/unknown");
    assert!(helps(&wrong)[0].contains("\"eyelet 5 mm\""), "{:?}", helps(&wrong));
}

#[test]
fn they_are_set_once_after_what_stiffens_and_before_a_cord_is_threaded() {
    let forgotten = with(HOOD, &[("set eyelets, loops", "set loops")]);
    assert_eq!(said(&forgotten), ["step/forgotten"]);
    let twice = with(HOOD, &[("sew middle, edge;", "sew middle, edge; set eyelets;")]);
    assert_eq!(said(&twice), ["step/twice"]);
    let tacked = with(HOOD, &[("set eyelets, loops", "set loops; tack eyelets")]);
    assert!(told(&tacked)[0].1.contains("declared by set"), "{:?}", told(&tacked));
    let stiff = with(
        HOOD,
        &[
            (
                "fabric flannel",
                "fabric stay \"fusible\" { width 90 }\nlayer firm in stay fused { back }\nfabric flannel",
            ),
            ("set eyelets, loops }", "fuse back; set eyelets, loops }"),
        ],
    );
    assert_eq!(said(&stiff), NOTHING);
    let early = with(&stiff, &[("fuse back; set eyelets, loops", "set eyelets, loops; fuse back")]);
    assert_eq!(said(&early), ["step/early", "step/early"]);
    let corded = with(
        HOOD,
        &[
            (
                "finish hood.top, hood.bottom, back.top",
                "cord draw 60 through back.top ends 5 free\nfinish back.top casing 2\nfinish hood.top, hood.bottom",
            ),
            (
                "hem hood.top, hood.bottom, back.top, back.bottom, back.right }",
                "hem back.right; finish back.top; thread draw; hem hood.top, hood.bottom, back.bottom }",
            ),
        ],
    );
    assert_eq!(said(&corded), NOTHING);
    let late =
        with(&corded, &[("set eyelets, loops", "set loops"), ("thread draw;", "thread draw; set eyelets;")]);
    assert_eq!(said(&late), ["step/early"]);
}

#[test]
fn marks_stand_where_they_are_set() {
    let compiled = of(HOOD);
    let cut = compiled.sizes[0].cut(&compiled.garment);
    let marks = |layer: &str, piece: &str| -> Vec<String> {
        let mut parts = cut.parts.iter();
        let own = parts.find(|part| {
            *compiled.garment.layer(part.part.layer).name == *layer
                && *compiled.garment.piece(part.part.piece).name == *piece
        });
        own.expect("it is cut").marks.iter().map(|mark| mark.name.clone()).collect()
    };
    assert_eq!(marks("outer", "hood"), ["low", "high"]);
    assert_eq!(marks("lining", "hood"), NOTHING);
    // On an edge it is called after what is set.
    assert_eq!(marks("outer", "back"), ["middle", "side", "loops"]);
}

#[test]
fn a_variation_drops_and_replaces_them() {
    let varied = |lines: &str| {
        let own = format!("variation \"Own\" of \"hood.fus\"\n{lines}\n");
        let files = [("own.fus", own.as_str()), ("hood.fus", HOOD)];
        let all = compile(&in_memory(&files), "own.fus");
        let said: Vec<&str> = all.diagnostics.iter().map(|one| one.slug()).collect();
        (said, packed(&in_memory(&files), "own.fus"))
    };
    let (slugs, text) = varied("drop set loops\ndrop notion \"leather loop\"");
    assert_eq!(slugs, ["step/gone"]);
    assert!(text.contains("{ set eyelets }") && !text.contains("loop"), "{text}");
    let (slugs, text) =
        varied("replace set eyelets \"eyelet 5 mm\" at hood.low\nreplace notion \"eyelet 5 mm\" 2");
    assert_eq!(slugs, NOTHING);
    assert!(text.contains("set eyelets \"eyelet 5 mm\" at hood.low\n"), "{text}");
    let (slugs, text) = varied(
        "drop back and all sewn to it\nreplace notion \"eyelet 5 mm\" 4\ndrop notion \"leather loop\"",
    );
    assert_eq!(slugs, ["drop/along"]);
    assert!(
        text.contains("set eyelets \"eyelet 5 mm\" at hood.low, hood.high\n") && !text.contains("loops"),
        "{text}"
    );
    assert_eq!(said(&text), NOTHING);
}

/// What an alteration takes away cannot be set at: told once, at the place that is named, whichever side it is on.
#[test]
fn a_mark_that_is_gone_is_told() {
    let text = "garment \"Hood\"\nunits cm\nallowance 1\nfabric oilskin \"oilskin\" { width 150; kind woven firm }\n\
                layer outer in oilskin { hood }\npiece hood \"Side of the hood\" {\n  cut 2 mirrored\n\
                \x20 outline rectangle 30 by 40\n  mark low = (2, 6)\n  mark high = (2, 30)\n  line cut across at (2, 10)\n}\n\
                seam middle hood.right to hood.right\nfinish hood.left, hood.top, hood.cut hem 2\n\
                notion \"eyelet 5 mm\"\nset eyelets \"eyelet 5 mm\" at hood.low, hood.high\ncut off hood at cut\n";
    let gone = ("point/gone", "Side of the hood has no low to be set at".to_owned());
    assert_eq!(told(text), std::slice::from_ref(&gone));
    assert_eq!(told(&with(text, &[("at hood.low,", "at hood.low on left,")])), [gone]);
    let held =
        with(text, &[("set eyelets \"eyelet 5 mm\" at hood.low, hood.high", "tack hold hood.low bar 0.5")]);
    assert!(
        told(&held).contains(&("point/gone", "Side of the hood has no low to be tacked".to_owned())),
        "{:?}",
        told(&held)
    );
}

/// Two sets of the same at one mark are one too many; of different things both may be meant.
#[test]
fn two_sets_at_one_mark_are_told() {
    let again = "set more \"eyelet 5 mm\" at hood.low\n";
    let text = with(
        HOOD,
        &[("seam middle", &format!("{again}seam middle")), ("\"eyelet 5 mm\" 7", "\"eyelet 5 mm\" 9")],
    );
    assert!(said(&text).contains(&"set/place"), "{:?}", told(&text));
    let other =
        text.replace("set more \"eyelet 5 mm\"", "set more \"leather loop\"").replace("5 mm\" 9", "5 mm\" 7");
    assert!(!said(&other).contains(&"set/place"), "{:?}", told(&other));
}
