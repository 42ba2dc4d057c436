//! Outlines that are drawn in parts, lines without names, lines that differ between sizes, and what a drawing says of itself; beside
//! each stands a sound drawing of which nothing is said.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, draft, in_mm, length, plain};
use crate::reading_dxf::{drawing, square, words};
use crate::workbench::{err, folder_of, out, run};
use std::fmt::Write as _;

/// Of each size, what is drawn in its layer.
fn layers(of: &[(&str, String)]) -> String {
    let mut drawn = String::new();
    for (size, inside) in of {
        let _ = writeln!(drawn, "<g id='{size}'>{inside}</g>");
    }
    in_mm(&drawn)
}

/// An apron's pocket, 140 mm wide and 160 high, and in larger sizes so much more both ways; what is drawn of it as its outline.
fn pocket(outline: &str) -> String {
    format!("<g id='pocket'>{outline}<circle cx='70' cy='80' r='2'><title>stud</title></circle></g>")
}

#[test]
fn an_outline_in_open_paths_that_meet_is_one() {
    let whole = |wide: u32, high: u32| pocket(&format!("<path d='M0 0 H{wide} V{high} H0 Z'/>"));
    let drawn = |middle: String| layers(&[("S", whole(140, 160)), ("M", middle), ("L", whole(152, 168))]);
    let sound = brought("apron.svg", &drawn(whole(146, 164)));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    for parts in [
        "<path d='M0 0 H146 V164'/><path d='M146 164 H0 V0'/>",
        // The second one drawn the other way, a little off; and every edge by itself.
        "<path d='M0 0 H146 V164'/><path d='M0 0.2 V164 H146'/>",
        "<path d='M0 0 H146'/><path d='M0 164 V0'/><path d='M146 164 H0'/><path d='M146 0 V164'/>",
    ] {
        let own = brought("apron.svg", &drawn(pocket(parts)));
        let count = parts.matches("<path").count();
        let words = format!(
            "the outline of pocket in M is drawn as {count} open paths that meet at their ends (line 2 of apron.svg)"
        );
        only(&own.remarks, &[&words, "they are taken for one"]);
        let compiled = draft(&own.text);
        assert!((length(&compiled, 1, "pocket", "e1") - 146.0).abs() < 0.3, "{}", own.text);
        assert!(own.text.contains("mark stud"), "{}", own.text);
    }
    // One path and the line of the fold, which stays what it is.
    let half = |wide: u32| {
        pocket(&format!("<path d='M0 0 H{wide} V160 H0'/><path d='M0 0 V160'><title>fold</title></path>"))
    };
    let on_fold = brought("apron.svg", &layers(&[("S", half(140)), ("M", half(146))]));
    assert!(on_fold.text.contains("cut 1 on fold"), "{}", on_fold.text);
    assert_eq!(on_fold.remarks.len(), 2, "{:?}", on_fold.remarks);
    // Three ends at one place, or parts of two names, are nothing that is known.
    for parts in [
        "<path d='M0 0 H146 V164'/><path d='M146 164 H0 V0'/><path d='M0 0 L-30 -30'/>",
        "<path id='hem' d='M0 0 H146 V164'/><path id='side' d='M146 164 H0 V0'/>",
    ] {
        let own = brought("apron.svg", &drawn(pocket(parts)));
        only(&own.remarks, &["the layer of size M draws no outline, and what is drawn in it is left out"]);
        assert!(own.text.contains("sizes S, L") && !own.text.contains("\n  line "), "{}", own.text);
    }
    // One that goes round and does not close is wrong, also where others lie round it.
    let why = refused("apron.svg", &drawn(pocket("<path d='M0 0 H146 V164 H0 V20'/>")));
    assert!(
        why.starts_with("apron.svg:2: a path of pocket in M goes round like an outline, but does not close"),
        "{why}"
    );
}

/// 2 mm lie between two of the ends.
#[test]
fn parts_of_an_outline_that_do_not_meet_are_wrong() {
    let parts = in_mm("<g id='pocket'>\n<path d='M0 0 H146 V164'/>\n<path d='M144 164 H0 V0'/></g>");
    let why = refused("apron.svg", &parts);
    assert!(
        why.starts_with("apron.svg:2: the outline of pocket is drawn as 2 open paths (lines 2 and 3), and two of their ends are 2.0 mm apart"),
        "{why}"
    );
}

/// The two sides of a dart and of a leaf that is embroidered make closed lines, and are no pieces.
#[test]
fn lines_on_a_piece_that_meet_stay_lines() {
    let drawn = in_mm(
        "<g id='bib'><path d='M0 0 H300 V400 H0 Z'/>\
         <path d='M100 100 Q150 50 200 100'/><path d='M200 100 Q150 150 100 100'/>\
         <path d='M50 300 L60 200 L70 190'/><path d='M50 302 L60 204 L70 190'/></g>",
    );
    let own = brought("apron.svg", &drawn);
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    assert_eq!(own.text.matches("\n  line ").count(), 6, "{}", own.text);
    // A sew line in two parts is one: 10 mm inside all round.
    let sewn = in_mm(
        "<g id='bib'><path d='M0 0 H300 V400 H0 Z'/><path d='M10 10 H290 V390'/><path d='M290 390 H10 V10'/></g>",
    );
    let own = brought("apron.svg", &sewn);
    assert!(own.remarks.is_empty() && own.text.contains("allowance 1\n"), "{:?}\n{}", own.remarks, own.text);
}

/// A bib with a line across it, from size to size 10 mm wider on the right.
fn bib(of: &[(&str, u32, &str)]) -> String {
    let each: Vec<(&str, String)> = of
        .iter()
        .map(|(size, wide, line)| {
            let line =
                if line.is_empty() { String::new() } else { format!("<path id='waist-line' d='{line}'/>") };
            (*size, format!("<g id='bib'><path d='M0 0 H{wide} V400 H0 Z'/>{line}</g>"))
        })
        .collect();
    layers(&each)
}

#[test]
fn a_line_that_runs_beyond_its_piece_is_told_and_left_out() {
    let drawn = |more: u32| {
        let line = |wide: u32| format!("M0 200 H{}", wide + more);
        let (s, m) = (line(240), line(250));
        bib(&[("S", 240, &s), ("M", 250, &m)])
    };
    for sound in [0, 6] {
        let own = brought("apron.svg", &drawn(sound));
        assert!(own.remarks.is_empty() && own.text.contains("line waist_line"), "{:?}", own.remarks);
    }
    let far = brought("apron.svg", &drawn(120));
    only(
        &far.remarks,
        &["bib: waist_line runs up to 120 mm beyond the outline in S and M", "let it end at the outline"],
    );
    assert!(!far.text.contains("waist_line"), "{}", far.text);
    // In one size alone.
    let one = bib(&[("S", 240, "M0 200 H240"), ("M", 250, "M0 200 H290"), ("L", 260, "M0 200 H260")]);
    only(
        &told("apron.svg", &one),
        &["waist_line runs up to 40 mm beyond the outline in M, where no cloth is"],
    );
    // A cutting line 15 mm out: lines may reach it.
    let sewn = in_mm(
        "<g id='bib'><path d='M0 0 H300 V400 H0 Z'/><path id='sew' d='M15 15 H285 V385 H15 Z'/>\
         <path id='waist-line' d='M0 200 H300'/></g>",
    );
    let own = brought("apron.svg", &sewn);
    assert!(own.remarks.is_empty() && own.text.contains("line waist_line"), "{:?}", own.remarks);
}

/// 60 mm lie between where the left end is and where the others have it.
#[test]
fn of_a_line_it_is_told_which_end_lies_off_in_which_size() {
    let drawn =
        |middle: &str| bib(&[("S", 240, "M0 200 H180"), ("M", 250, middle), ("L", 260, "M0 200 H180")]);
    for sound in ["M0 200 H180", "M180 200 H0"] {
        let own = brought("apron.svg", &drawn(sound));
        assert!(own.remarks.is_empty() && own.text.contains("line waist_line"), "{:?}", own.remarks);
    }
    for off in ["M0 140 L180 200", "M180 200 L0 140"] {
        only(
            &told("apron.svg", &drawn(off)),
            &[
                "bib: waist_line does not answer to itself in every size",
                "its left end lies 60 mm up in M from where S and L have it",
            ],
        );
    }
    let bent = bib(&[("S", 240, "M0 200 H180"), ("M", 250, "M0 200 L90 150 L180 200")]);
    only(&told("apron.svg", &bent), &["it turns at 0 corners between its ends in S, and at 1 in M"]);
}

/// 3 t (1 − t) (2 t − 1) is 0.289 at most, and the handles lie 20 mm off: 5.8 mm.
#[test]
fn a_line_that_is_a_curve_in_one_size_alone_is_told() {
    let drawn =
        |middle: &str| bib(&[("S", 240, "M0 200 H180"), ("M", 250, middle), ("L", 260, "M0 200 H180")]);
    let curved = told("apron.svg", &drawn("M0 200 C40 180 140 220 180 200"));
    only(&curved, &["waist_line is straight in S and L, and bows by 6 mm in M"]);
    let curve = |deep: i32| format!("M0 200 Q90 {} 180 200", 200 + deep);
    let bows = |each: [i32; 3]| {
        let [s, m, l] = each.map(curve);
        told("apron.svg", &bib(&[("S", 240, &s), ("M", 250, &m), ("L", 260, &l)]))
    };
    assert!(bows([20, 22, 24]).is_empty(), "{:?}", bows([20, 22, 24]));
    only(&bows([20, -22, 24]), &["waist_line bends to", "in M", "in S and L: is it turned over?"]);
}

/// Outline, notch, grain and fold as one path.
fn one_path(name: &str, left: u32, wide: u32, high: u32, more: &str) -> String {
    let (right, middle) = (left + wide, left + wide / 2);
    format!(
        "<g id='{name}'><path d='M{left} 0 H{right} V{high} H{left} Z M{right} 100 h-5 M{middle} 40 V{} {more}'/></g>",
        high - 40
    )
}

#[test]
fn grain_and_fold_are_known_by_where_they_lie() {
    let size = |more: u32| {
        let text = "<text x='30' y='60'>cut 1 on fold</text>";
        let bib = one_path("bib", 0, 200 + more, 300, "M0 0 V300");
        let skirt = one_path("skirt", 400, 300 + more, 500, "");
        bib.replace("</g>", &format!("{text}</g>")) + &skirt
    };
    let own = brought("apron.svg", &layers(&[("S", size(0)), ("M", size(10))]));
    let text = plain(&own.text);
    assert!(text.contains("cut 1 on fold fold") && text.matches("grain up").count() == 2, "{text}");
    assert!(!text.contains("\nline "), "{text}");
    assert_eq!(own.remarks.len(), 2, "{:?}", own.remarks);
    assert!(own.remarks[0].contains("bib: its words speak of a fold"), "{:?}", own.remarks);
    assert!(own.remarks[1].contains("every piece has one upright line without a name"), "{:?}", own.remarks);
    // The name of the path is the piece's, and not the lines'.
    let named = layers(&[("S", size(0)), ("M", size(10))]).replace("<path d=", "<path class='whole' d=");
    let named = named
        .replace("<g id='bib'><path", "<g><path id='bib'")
        .replace("<g id='skirt'><path", "<g><path id='skirt'");
    assert_eq!(brought("apron.svg", &named), own);
    // Nothing speaks of a fold, and one piece alone shows no custom.
    let alone = in_mm(&one_path("bib", 0, 200, 300, "M0 0 V300"));
    let own = brought("apron.svg", &alone);
    assert_eq!(own.remarks.len(), 2, "{:?}", own.remarks);
    assert!(
        own.remarks[0].contains("if the piece is cut on the fold there, call the line fold"),
        "{:?}",
        own.remarks
    );
    assert!(own.remarks[1].contains("if it is the grain, call it grain"), "{:?}", own.remarks);
    assert_eq!(own.text.matches("\n  line ").count(), 2, "{}", own.text);
    // A line from edge to edge, one that lies aslant and one that has a name are none.
    for more in
        ["<path d='M100 0 V300'/>", "<path d='M50 50 L150 200'/>", "<path id='pocket-edge' d='M50 50 V250'/>"]
    {
        let own =
            told("apron.svg", &in_mm(&format!("<g id='bib'><path d='M0 0 H200 V300 H0 Z'/>{more}</g>")));
        assert!(own.is_empty(), "{own:?}");
    }
}

/// 300 units are 300 mm by the style and 30 by the attributes.
#[test]
fn how_large_a_drawing_is_may_be_said_in_its_style() {
    let drawn = |said: &str| {
        format!(
            "<svg xmlns='http://www.w3.org/2000/svg' {said} viewBox='0 0 300 200'><path id='flap' d='M0 0 H300 V200 H0 Z'/></svg>"
        )
    };
    let sound = brought("flap.svg", &drawn("width='300mm' height='200mm'"));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    for said in [
        "style='width:300mm;height:200mm'",
        "style='width: 30cm; height: 20cm' width='100%' height='100%'",
        "style='width:100%;height:auto' width='300mm' height='200mm'",
        "style='width:600px' width='300mm' height='200mm'",
    ] {
        assert_eq!(brought("flap.svg", &drawn(said)), sound, "{said}");
    }
    let two = brought("flap.svg", &drawn("style='width:300mm;height:200mm' width='30mm' height='20mm'"));
    only(
        &two.remarks,
        &[
            "its style says that its width is 300 mm, and its attribute that it is 30 mm: the style was believed",
        ],
    );
    assert_eq!(two.text, sound.text);
}

#[test]
fn a_picture_of_what_was_understood_is_no_drawing() {
    let own = brought("flap.svg", &in_mm("<path id='flap' d='M0 0 H300 V200 H0 Z'/>"));
    let why = refused("look.svg", &own.look);
    assert!(why.contains("it is a picture that `look` drew of what was understood of a drawing"), "{why}");
}

#[test]
fn lengths_of_options_need_their_unit() {
    let flap = in_mm("<path id='flap' d='M0 0 H300 V200 H0 Z'/>");
    let folder = folder_of(&[("flap.svg", &flap)]);
    for (option, said, words) in [
        ("--tolerance", "1", "--tolerance needs its unit: 0.2mm"),
        ("--scale", "10=100", "--scale needs its unit: 10cm=100, or 10in=100"),
        ("--allowance", "1", "--allowance needs its unit: 1cm"),
    ] {
        let bare = run(folder.path(), &["bring", "flap.svg", option, said]);
        assert_eq!(bare.status.code(), Some(2), "{}", err(&bare));
        assert!(err(&bare).contains(words), "{}", err(&bare));
        // Said beforehand, the unit need not be said again.
        let told = run(folder.path(), &["bring", "flap.svg", option, said, "--units", "cm"]);
        assert_eq!(told.status.code(), Some(0), "{}", err(&told));
    }
    for (option, said) in
        [("--tolerance", "1mm"), ("--scale", "10cm=100"), ("--scale", "4\"=101.6"), ("--allowance", "3/8in")]
    {
        let sound = run(folder.path(), &["bring", "flap.svg", option, said]);
        assert_eq!(sound.status.code(), Some(0), "{}", err(&sound));
        assert!(err(&sound).is_empty() && out(&sound).contains("piece flap"), "{}", err(&sound));
    }
}

#[test]
fn of_a_size_that_is_left_out_nothing_is_kept() {
    let layer = |name: &str, by: u32| {
        format!(
            "<g id='{name}'><g id='bib'><path d='M0 0 H{} V300 H0 Z'/><circle cx='{}' cy='90' r='2'><title>stud</title></circle>\
             <path id='tie-line' d='M0 200 H100'/></g></g>",
            200 + by,
            90 + by
        )
    };
    let own = brought("apron.svg", &in_mm(&(layer("S", 0) + &layer("middle one", 10) + &layer("L", 20))));
    assert!(own.text.contains("sizes S, L"), "{}", own.text);
    assert_eq!(own.text.matches("mark ").count(), 1, "{}", own.text);
    assert_eq!(own.text.matches("\n  line ").count(), 1, "{}", own.text);
    assert!(
        own.remarks.iter().any(|words| words.contains("once more without a size: that one is left out")),
        "{:?}",
        own.remarks
    );
}

#[test]
fn layers_that_hold_the_same_names_may_be_sizes() {
    let layer =
        |name: &str, by: u32| format!("<g id='{name}'><path id='bib' d='M0 0 H{} V300 H0 Z'/></g>", 200 + by);
    let drawn =
        in_mm(&(layer("EU 36 / UK 8", 0) + &layer("EU 38 / UK 10", 10) + &layer("EU 40 / UK 12", 20)));
    let folder = folder_of(&[("apron.svg", &drawn)]);
    let unsaid = run(folder.path(), &["bring", "apron.svg"]);
    let words =
        "if the layers EU 36 / UK 8, EU 38 / UK 10, EU 40 / UK 12 are sizes, --sizes-from layers says so";
    assert!(err(&unsaid).contains(words), "{}", err(&unsaid));
    let said = run(folder.path(), &["bring", "apron.svg", "--sizes-from", "layers"]);
    assert!(err(&said).is_empty() && out(&said).contains("sizes "), "{}{}", err(&said), out(&said));
    let plain =
        drawn.replace("EU 36 / UK 8", "S").replace("EU 38 / UK 10", "M").replace("EU 40 / UK 12", "L");
    let folder = folder_of(&[("apron.svg", &plain)]);
    let names = run(folder.path(), &["bring", "apron.svg", "--sizes-from", "names"]);
    assert!(
        err(&names).contains("if the layers S, M, L are sizes, --sizes-from layers says so"),
        "{}",
        err(&names)
    );
}

#[test]
fn words_beside_a_piece_are_its_own_in_its_group_alone() {
    let piece = |left: u32| format!("<path d='M{left} 100 h200 v300 h-200 Z'/>");
    let words = |left: u32, name: &str| {
        format!("<text x='{left}' y='40'>{name}</text><text x='{left}' y='60'>cut 2 mirrored</text>")
    };
    let grouped = in_mm(&format!(
        "<g>{}{}</g><g>{}{}</g><text x='0' y='20'>The Merle's aprons</text>",
        piece(0),
        words(0, "Bib"),
        piece(300),
        words(300, "Skirt")
    ));
    let own = brought("apron.svg", &grouped);
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    assert_eq!(own.text.matches("cut 2 mirrored").count(), 2, "{}", own.text);
    assert!(
        own.text.contains("piece bib \"Bib\"") && own.text.contains("piece skirt \"Skirt\""),
        "{}",
        own.text
    );
    let loose = in_mm(&(piece(0) + &words(0, "Bib") + &piece(300) + &words(300, "Skirt")));
    only(
        &told("apron.svg", &loose),
        &[
            "words that lie in no piece are not read: “Bib”, “cut 2 mirrored”, “Skirt”, “cut 2 mirrored”; a piece takes its name",
        ],
    );
}

#[test]
fn a_group_may_have_the_class_of_its_size() {
    let size = |size: &str, wide: u32| {
        format!("<g class='pattern size-{size}'><path id='bib-x' d='M0 0 H{wide} V300 H0 Z'/></g>")
    };
    let own = brought("apron.svg", &in_mm(&(size("S", 200) + &size("M", 210))));
    assert!(own.remarks.is_empty() && own.text.contains("sizes S, M"), "{:?}\n{}", own.remarks, own.text);
}

/// The unit of DXF drawings by ASTM D6673 is a text of its own.
#[test]
fn two_texts_that_say_two_units_are_told() {
    let drawn = |said: &[&str]| {
        let texts: String =
            said.iter().map(|said| words("1", 0.0, -20.0, &format!("UNITS: {said}"))).collect();
        drawing("", "", &(square("0", 0.0, 0.0, 300.0) + &words("0", 100.0, 100.0, "bib, cut 1") + &texts))
    };
    assert!(told("bib.dxf", &drawn(&["METRIC"])).is_empty(), "{:?}", told("bib.dxf", &drawn(&["METRIC"])));
    assert!(told("bib.dxf", &drawn(&["METRIC", "METRIC"])).is_empty());
    only(
        &told("bib.dxf", &drawn(&["METRIC", "ENGLISH"])),
        &["Its texts say two units, metric and English; the first was believed"],
    );
}
