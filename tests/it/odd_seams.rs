//! Seams that nobody can sew: each is told once, where it is written, with a way out. What follows
//! from it is not told beside it. Every length is by hand: fronts and backs are 500 mm high, the band
//! is 1160 by 60.

use crate::workbench::said;
use fustian::report::{Diagnostic, Severity};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

const BODY: &str = "garment \"Deck smock\"\nunits mm\nallowance 10\ntolerance 2mm\n\
fabric shell \"dry-waxed cotton\" { width 1500; kind woven firm }\n\
layer outer in shell { front, back, band }\nlayer lining in shell { yoke }\n\
piece front \"Front\" { cut 1 on fold left; outline rectangle 300 by 500 }\n\
piece back \"Back\" { cut 1 on fold left; outline rectangle 280 by 500 }\n\
piece band \"Band\" { cut 1; outline rectangle 1160 by 60 }\n\
piece yoke \"Yoke\" { cut 2 mirrored; outline rectangle 280 by 120 }\n";

/// Every edge that a test may leave alone is finished, so that nothing else is to be said.
fn body(sewn: &[&str], more: &str) -> Compiled {
    let edges = ["front.bottom", "front.right", "front.top", "back.bottom", "back.right", "back.top"];
    let more_edges = ["band.bottom", "band.right", "band.top", "band.left"];
    let yokes = ["yoke.bottom", "yoke.right", "yoke.top", "yoke.left"];
    let all = edges.into_iter().chain(more_edges).chain(yokes);
    let raw: Vec<&str> = all.filter(|edge| !sewn.contains(edge)).collect();
    let text = format!("{BODY}finish {}  raw\n{more}\n", raw.join(", "));
    made(&text)
}

/// Without what is said of pieces that nothing joins: here only some of them are sewn.
fn made(text: &str) -> Compiled {
    let mut compiled = compile(&MemoryLoader::new().with("smock.fus", text), "smock.fus");
    compiled.diagnostics.retain(|one| one.slug() != "piece/apart");
    compiled
}

/// Fails unless this is the one thing told beside the advice to say the order of work.
#[track_caller]
fn only(compiled: &Compiled, slug: &str, place: &str, title: &str, help: &str) -> Diagnostic {
    let told: Vec<&Diagnostic> =
        compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none").collect();
    let [one] = told.as_slice() else { panic!("{told:#?}") };
    assert_eq!((one.slug(), one.severity()), (slug, Severity::Mistake));
    assert_eq!(compiled.map.text(one.span()), place);
    assert_eq!(one.title, title);
    let found = one.help.as_deref().unwrap_or_default();
    assert!(found.contains(help), "{found}");
    (*one).clone()
}

#[test]
fn the_body_itself_is_sound() {
    let sound = body(&["front.right", "back.right"], "seam side front.right to back.right");
    let slugs: Vec<&str> = sound.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["steps/none"]);
}

#[test]
fn an_edge_is_not_sewn_to_itself_end_for_end() {
    let told = only(
        &body(
            &["front.right"],
            "seam x front.right to front.right { matching front.bottom_right with front.top_right }",
        ),
        "seam/matching",
        "front.bottom_right with front.top_right",
        "the x seam sews the right of Front to itself turned end for end",
        "leave the matching out",
    );
    assert_eq!(told.labels[0].text, "the left one's bottom_right would lie on the right one's top_right");
    // Without it, left and right meet corner by corner, and so they do where that is said.
    for braces in ["", "{ matching front.top_right with front.top_right }"] {
        let sound = body(&["front.right"], &format!("seam x front.right to front.right {braces}"));
        let seam = &sound.sizes[0].sewn.seams[0];
        assert!(seam.ends.iter().all(|(one, other)| one == other), "{braces}");
        assert!(sound.diagnostics.iter().all(|one| one.slug() == "steps/none"), "{braces}");
    }
}

#[test]
fn a_fold_is_not_sewn() {
    let told = only(
        &body(&["front.right"], "seam x front.right to front.left"),
        "edge/twice",
        "front.left",
        "the left of Front is cut on the fold, but the x seam uses it too",
        "open front at left",
    );
    assert_eq!(told.labels[1].text, "by the fold");
}

#[test]
fn an_edge_is_named_once_on_a_side() {
    only(
        &body(&["front.right", "back.right"], "seam x front.right + front.right to back.right"),
        "edge/twice",
        "front.right",
        "the right of Front is named twice on one side of the x seam",
        "all copies are meant by one name",
    );
}

#[test]
fn an_edge_that_is_there_once_is_not_sewn_to_itself() {
    let round = "band.top + band.right + band.bottom + band.left";
    let told = only(
        &body(&["band.bottom", "band.right", "band.top", "band.left"], &format!("seam x {round} to {round}")),
        "seam/pairing",
        "band.top",
        "the x seam takes the top of Band twice, but it occurs once",
        "cut band in pairs",
    );
    assert_eq!(told.labels[1].text, "how many are cut");
}

#[test]
fn matching_names_a_corner_of_each_side() {
    let sewn = &["front.right", "back.right"];
    only(
        &body(sewn, "seam x front.right to back.right { matching front.top_left with back.top_right }"),
        "seam/matching",
        "front.top_left",
        "front.top_left is not a corner of the x seam",
        "its corners are front.bottom_right, front.top_right, back.bottom_right and back.top_right",
    );
    only(
        &body(sewn, "seam x front.right to back.right { matching front.top_right with front.bottom_right }"),
        "seam/matching",
        "front.top_right",
        "front.top_right and front.bottom_right lie on one side of the x seam and cannot meet",
        "match a corner of one side with one of the other",
    );
    // The same corner of both sides' pieces, from either side.
    for pair in ["front.top_right with back.top_right", "back.bottom_right with front.bottom_right"] {
        let sound = body(sewn, &format!("seam x front.right to back.right {{ matching {pair} }}"));
        assert!(sound.diagnostics.iter().all(|one| one.slug() == "steps/none"), "{pair}");
    }
}

#[test]
fn a_notch_lies_on_its_seam() {
    let sewn = &["front.right", "back.right"];
    for (notch, place, title, help) in [
        (
            "notch 510 from front.top_right",
            "notch 510 from front.top_right",
            "the x seam is 500 mm long, and has no place for a notch at 510 mm",
            "notch it at no more than 500 mm",
        ),
        (
            "notch -5 from front.top_right",
            "notch -5 from front.top_right",
            "the x seam is 500 mm long, and has no place for a notch at -5 mm",
            "leave the minus out",
        ),
        (
            "notch 5 from band.top_left",
            "band.top_left",
            "band.top_left is not a corner of the x seam",
            "its corners are front.bottom_right",
        ),
    ] {
        let compiled = body(sewn, &format!("seam x front.right to back.right {{ {notch} }}"));
        only(&compiled, "notch/off-edge", place, title, help);
    }
    for distance in ["0", "500", "80"] {
        let notch = format!("seam x front.right to back.right {{ notch {distance} from front.top_right }}");
        assert!(body(sewn, &notch).diagnostics.iter().all(|one| one.slug() == "steps/none"), "{distance}");
    }
}

#[test]
fn a_gap_has_room_in_its_seam() {
    let sewn = &["front.right", "back.right"];
    only(
        &body(sewn, "seam x front.right to back.right { leaving gap 900 in outer, left }"),
        "gap/long",
        "leaving gap 900 in outer, left",
        "a gap of 900 mm has no room in the x seam, which is 500 mm long",
        "leave less than 500 mm",
    );
}

#[test]
fn a_share_of_nothing_is_not_stretched() {
    let told = only(
        &body(&["front.right", "back.right"], "seam x front.right to back.right stretching 0%..0%"),
        "seam/unequal",
        "stretching 0%..0%",
        "in the x seam Front is 100 % of Back; 0 % was allowed",
        "allow 100 %",
    );
    assert_eq!([&told.labels[1].text, &told.labels[2].text], ["500 mm", "500 mm"]);
}

#[test]
fn names_that_nothing_bears_are_told_alone() {
    let told = only(
        &body(&["back.right"], "seam x front.rigth to back.right"),
        "name/unknown",
        "rigth",
        "there is no edge or line of front called rigth",
        "did you mean right?",
    );
    assert_eq!(told.fix.unwrap().edits[0].1, "right");
    let told = body(&[], "opening front.nothing passes nobody\nopening band.top passes nobody");
    let slugs: Vec<&str> = told.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["name/unknown", "name/unknown"]);
}

/// The front lies in two layers, and the yoke in a third.
#[test]
fn a_seam_of_pieces_in_different_layers_says_which_are_meant() {
    let raw = "finish front.right, front.top, back.bottom, back.right, back.top, band.bottom, band.right, band.top, band.left, \
               yoke.right, yoke.top, yoke.left  raw\nseam x front.bottom to yoke.bottom\n";
    let twice = BODY.replace("layer lining", "layer inside in shell { front }\nlayer lining");
    let told = only(
        &made(&format!("{twice}{raw}")),
        "part/missing",
        "yoke.bottom",
        "no layer has all of Front and Yoke, so the x seam is sewn in none",
        "say which layer's front is meant, outer.front or inside.front; or add yoke to layer outer",
    );
    assert_eq!(told.labels[0].text, "yoke is not in outer");
    // As the way out says: 2 × 300 across the front, and the two yokes of 280 each.
    let named = format!("{twice}{raw}").replace("seam x front.bottom", "seam x outer.front.bottom");
    assert!(!said(&named).contains(&"part/missing"));
}

/// The front lies in outer alone and the yoke in lining alone: there is nothing to choose.
#[test]
fn what_lies_in_one_layer_alone_need_not_say_it() {
    let sewn = |seam: &str| body(&["front.bottom", "yoke.bottom"], seam);
    let slugs = |compiled: &Compiled| compiled.diagnostics.iter().map(|one| one.slug()).collect::<Vec<_>>();
    let (open, named) =
        (sewn("seam x front.bottom to yoke.bottom"), sewn("seam x outer.front.bottom to lining.yoke.bottom"));
    assert_eq!(slugs(&open), slugs(&named));
    assert!(!slugs(&open).contains(&"part/missing"));
    let joined = |compiled: &Compiled| -> Vec<(f64, f64)> {
        let all = compiled.sizes[0].sewn.seams.iter();
        all.map(|sewn| (sewn.first.plies[0].length, sewn.second.plies[0].length)).collect()
    };
    assert_eq!(joined(&open), [(300.0, 280.0)], "half a front, and one yoke");
    assert_eq!(joined(&open), joined(&named));
}

/// A front of 500 mm and a yoke of 120 mm, one in the shell and one in the lining: a zip may close the
/// one to the other, but not when one side is longer.
#[test]
fn a_closure_of_pieces_in_different_layers_is_measured() {
    let sewn = &["back.right", "yoke.right"];
    for names in ["outer.back.right to lining.yoke.right", "back.right to yoke.right"] {
        let (first, _) = names.split_once(" to ").unwrap();
        let told = only(
            &body(sewn, &format!("closure zip {names} {{ zipper separating 500 }}")),
            "zipper/sides",
            first,
            "the first side of zip is 380 mm longer than the second",
            "make the sides equal: draw yoke longer there by 380 mm",
        );
        assert_eq!([&told.labels[0].text, &told.labels[1].text], ["500 mm", "120 mm"]);
    }
    // Of one length they close.
    let closed = body(
        &["back.bottom", "yoke.bottom"],
        "closure zip outer.back.bottom to lining.yoke.bottom { zipper separating 280 }",
    );
    assert!(closed.diagnostics.is_empty(), "{:#?}", closed.diagnostics);
}

#[test]
fn an_edge_without_length_is_told_at_its_own_words() {
    let patch = |corner: &str| {
        body(
            &[],
            &format!(
                "piece patch \"Patch\" {{\ncut 2\npoint a = (0, 0)\npoint b = (100, 0)\npoint c = {corner}\npoint d = (0, 80)\n\
                 outline from a {{\nfoot to b\nside to c\ntop to d\nback to a\n}}\n}}\nlayer more in shell {{ patch }}\n\
                 seam x patch.side to patch.back\nfinish patch.foot, patch.top  raw"
            ),
        )
    };
    let told = only(
        &patch("(100, 0)"),
        "outline/collapses",
        "side",
        "side of Patch is left with no length",
        "its two corners fall on one point: move one of them, or leave the edge out",
    );
    let compiled = patch("(100, 0)");
    let corners: Vec<&str> = told.labels.iter().skip(1).map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(corners, ["b", "c"]);
    // The same with a length: both sides are 80 mm.
    let sound = patch("(100, 80)");
    assert!(sound.diagnostics.iter().all(|one| one.slug() == "steps/none"), "{:#?}", sound.diagnostics);
    // A rectangle of no width has no edge that could be named.
    only(
        &body(
            &[],
            "piece none \"None\" { cut 2; outline rectangle 0 by 500 }\nlayer more in shell { none }\nseam x none.top to none.bottom",
        ),
        "outline/collapses",
        "0",
        "None is 0 mm wide",
        "a rectangle must be more than 0 both ways",
    );
    // What divides an edge leaves both of its runs a length.
    let divided = compile(
        &MemoryLoader::new().with(
            "smock.fus",
            BODY.replace(
                "outline rectangle 280 by 120",
                "outline rectangle 280 by 120; divide left 0 from top_left into slit, left",
            ),
        ),
        "smock.fus",
    );
    let off: Vec<&Diagnostic> =
        divided.diagnostics.iter().filter(|one| one.slug() == "divide/off-edge").collect();
    let [off] = off.as_slice() else { panic!("{:#?}", divided.diagnostics) };
    assert_eq!(off.help.as_deref(), Some("divide it at more than 0 and less than 120 mm"));
}

#[test]
fn amounts_of_cloth_are_not_less_than_nothing() {
    let sewn = &["front.right", "back.right"];
    for (more, place, title) in [
        ("{ allowance -20 }", "-20", "the allowance of the x seam is below 0"),
        ("{ leaving gap 300 - 500 in outer }", "300 - 500", "the gap in the x seam is below 0"),
    ] {
        let compiled = body(sewn, &format!("seam x front.right to back.right {more}"));
        let told: Vec<&Diagnostic> =
            compiled.diagnostics.iter().filter(|one| one.slug() == "value/negative").collect();
        let [one] = told.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
        assert_eq!((compiled.map.text(one.span()), one.title.as_str()), (place, title));
    }
    let text = |of: &str, with: &str| {
        let text = format!(
            "{}finish front.top, front.right, front.bottom, back.top, back.right, back.bottom  hem 20 turned under 5\n\
             finish band.top, band.right  casing 30 for elastic 20 of 600\nfinish band.bottom, band.left  bound 8\n\
             finish yoke.top, yoke.right, yoke.bottom, yoke.left  raw\ncord tie 900 through band.top  ends 60 free\n",
            BODY.replace(
                "kind woven firm",
                "selvage 10; stretch 5% across; shrink 2% along; thickness 1; kind woven firm"
            )
        );
        assert!(text.contains(of), "{of}");
        let text = text.replacen(of, with, 1);
        let compiled = made(&text);
        let told = compiled.diagnostics.iter().map(|one| (one.slug(), one.title.to_string()));
        told.collect::<Vec<_>>()
    };
    assert_eq!(text("allowance 10", "allowance 10"), []);
    for (of, with, what) in [
        ("allowance 10", "allowance -10", "the allowance"),
        ("width 1500", "width -1500", "the width of shell"),
        ("selvage 10", "selvage -10", "the selvage of shell"),
        ("stretch 5%", "stretch -5%", "the stretch across of shell"),
        ("shrink 2%", "shrink -2%", "the shrinking along of shell"),
        ("thickness 1", "thickness -1", "the thickness of shell"),
        ("hem 20", "hem -20", "the hem of the top of Front"),
        ("under 5", "under -5", "what is turned under at the top of Front"),
        ("casing 30", "casing -30", "the casing of the top of Band"),
        ("elastic 20", "elastic -20", "the width of the elastic in the top of Band"),
        ("of 600", "of -600", "the length of the elastic in the top of Band"),
        ("bound 8", "bound -8", "the binding of the bottom of Band"),
        ("tie 900", "tie -900", "the length of the cord tie"),
        ("ends 60", "ends -60", "what hangs out of the cord tie"),
    ] {
        let told = text(of, with);
        assert_eq!(told, [("value/negative", format!("{what} is below 0"))], "{with}");
    }
}

/// Elastic of 20 mm runs through 25 mm; of 35.5 mm not through 35 mm.
#[test]
fn elastic_runs_through_its_casing() {
    let cased = |casing: &str| {
        body(
            &["band.top", "band.left", "band.right"],
            &format!("seam ends band.left to band.right\nfinish band.top  {casing}"),
        )
    };
    for fits in ["casing 25 for elastic 20 of 600", "casing 35 for elastic 30 of 600"] {
        assert!(cased(fits).diagnostics.iter().all(|one| one.slug() == "steps/none"), "{fits}");
    }
    let told = only(
        &cased("casing 35 for elastic 40 of 600"),
        "casing/narrow",
        "40",
        "elastic 40 mm wide does not go into the casing of the top of Band, which is 35 mm",
        "make the casing 43 mm, so that the elastic runs freely; or take a narrower elastic",
    );
    assert_eq!(told.labels[1].text, "35 mm");
}

#[test]
fn a_share_without_its_sign_is_no_shrinkage() {
    let shrinking = |share: &str| {
        let text = format!(
            "{}finish front.top, front.right, front.bottom, back.top, back.right, back.bottom, band.top, band.right, \
             band.bottom, band.left, yoke.top, yoke.right, yoke.bottom, yoke.left  raw\n",
            BODY.replace("kind woven firm", &format!("shrink {share} along"))
        );
        made(&text)
    };
    for told in ["0%", "3%", "12%"] {
        assert!(shrinking(told).diagnostics.is_empty(), "{told}");
    }
    for (share, is, help) in [
        ("3", "300 %", "a share is written with its sign: 3%"),
        ("100%", "100 %", "by which share of itself it becomes shorter"),
    ] {
        let title = format!("shell shrinks by {is} along, which leaves almost nothing");
        only(&shrinking(share), "cloth/shrinks", share, &title, help);
    }
}

/// Drawn as it is worn, a front's left lies on a back's right: the corners below bear the other's names, and belong
/// together all the same.
#[test]
fn corners_of_pieces_that_face_one_another_are_told_by_the_ends() {
    let case = "garment \"Chart case\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\nlayer outer in canvas { front, back }\n\
        piece front \"Front\" { cut 1; outline rectangle 40 by 30 }\npiece back \"Back\" { cut 1; outline rectangle 40 by 30 }\n\
        seam round front.left + front.bottom + front.right to back.right + back.bottom + back.left {\n\
        matching front.top_right with back.top_left }\nfinish front.top, back.top hem 2\n";
    let compiled = compile(&MemoryLoader::new().with("own.fus", case), "own.fus");
    let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert_eq!(slugs, ["steps/none"], "{:#?}", compiled.diagnostics);
}
