//! An apron as vector programs write it, and what slips there: layers dragged into one another, copies pasted over themselves, styles
//! that move and measure. Beside each stands the sound drawing, of which nothing is said.

use crate::bring_in_doubt::{only, refused, told};
use crate::brought::{brought, in_mm};

/// An apron on the fold, a pocket and a strap in one size; each next one is 12 mm wider, and its strap 20 mm longer.
fn size(step: u32) -> String {
    let (hem, waist) = (300 + 12 * step, 260 + 6 * step);
    let (across, bend, notch) = (hem - 130, waist - 20, waist + 200);
    let (wide, long) = (180 + 12 * step, 560 + 20 * step);
    format!(
        "<g transform='translate(60,40)'><title>apron</title>\n\
         <path d='m 0,0 h 130 c 10,120 60,{bend} {across},{waist} V 860 H 0 z'/>\n\
         <path d='m 0,0 v 860'><title>fold</title></path>\n\
         <path d='m {hem},{notch} h -6'/>\n\
         <text x='40' y='500'>Apron, cut 1 on fold</text></g>\n\
         <g transform='translate(480,40)'><title>pocket</title><path d='M 0 0 H {wide} V 200 H 0 Z'/>\n\
         <text x='20' y='60'>cut 2</text></g>\n\
         <g transform='translate(480,320)'><title>strap</title><rect width='40' height='{long}'/>\n\
         <text x='4' y='60'>cut 1</text></g>\n"
    )
}

fn layer(name: &str, inside: &str) -> String {
    format!("<g id='{name}'>\n{inside}</g>\n")
}

/// The apron in three sizes, the middle one changed.
fn apron(middle: impl Fn(String) -> String) -> String {
    in_mm(&(layer("S", &size(0)) + &layer("M", &middle(size(1))) + &layer("L", &size(2))))
}

fn sound() -> String {
    let own = brought("apron.svg", &apron(|same| same));
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    for words in ["sizes S, M, L", "cut 1 on fold fold", "notch longest", "piece strap"] {
        assert!(own.text.contains(words), "{words} lacks in\n{}", own.text);
    }
    own.text
}

#[test]
fn a_layer_dragged_into_another_one_is_still_its_size() {
    let inside = in_mm(&(layer("S", &size(0)) + &layer("M", &(size(1) + &layer("L", &size(2))))));
    let own = brought("apron.svg", &inside);
    only(
        &own.remarks,
        &["the layer of size L stands inside that of size M: what is drawn in it is taken for L"],
    );
    assert_eq!(own.text, sound());
    // A left and a right half in each size are none.
    let half =
        |side: &str, left: u32| layer(side, &format!("<path id='bib{side}' d='M{left} 0 h90 v300 h-90 Z'/>"));
    let halves = in_mm(
        &(layer("S", &(half("L", 0) + &half("R", 200))) + &layer("M", &(half("L", 400) + &half("R", 600)))),
    );
    let own = brought("apron.svg", &halves);
    assert!(own.remarks.iter().all(|words| !words.contains("stands inside")), "{:?}", own.remarks);
    assert!(own.text.contains("sizes S, M\n"), "{}", own.text);
}

#[test]
fn a_piece_dragged_into_another_size_is_told_with_the_size_that_lacks_it() {
    let strap = |step: u32| {
        let all = size(step);
        all[all.find("<g transform='translate(480,320)'").unwrap()..].to_owned()
    };
    let drawn = in_mm(
        &(layer("S", &size(0))
            + &layer("M", &size(1).replace(&strap(1), ""))
            + &layer("L", &(size(2) + &strap(1)))),
    );
    let own = told("apron.svg", &drawn);
    let words = "strap is drawn more than once in size L";
    let own = own.iter().find(|one| one.contains(words)).unwrap_or_else(|| panic!("{own:?}"));
    assert!(own.contains("is one of them that of M, which has none?"), "{own}");
}

#[test]
fn what_a_style_says_of_a_shape_counts() {
    let sound = sound();
    let moved = "transform='translate(480,320)'";
    for (from, to) in [
        (moved, "style='transform: translate(480px, 320px)'"),
        (moved, "style='transform: translate(480px, 320px) rotate(0)' transform='scale(9)'"),
        (moved, "transform='translate(480,320)' style='transform-origin: center'"),
        ("<rect width='40' height='580'/>", "<rect style='width: 40px; height: 580px'/>"),
        ("<rect width='40' height='580'/>", "<path style='d: path(\"M 0 0 H 40 V 580 H 0 Z\")'/>"),
    ] {
        let own = brought(
            "apron.svg",
            &apron(|middle| {
                assert!(middle.contains(from));
                middle.replace(from, to)
            }),
        );
        assert_eq!(own.text, sound, "{to}");
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    }
    // In the middle one half as long again: 870 mm.
    let scaled =
        apron(|middle| middle.replace(moved, "style='transform: translate(480px, 320px) scale(1, 1.5)'"));
    assert!(
        told("apron.svg", &scaled).iter().any(|words| words.contains("560 mm long in S and 870 mm in M"))
    );
    for wrong in ["translate(50%)", "rotate3d(0, 0, 1, 5deg)", "scale(2"] {
        let why = refused(
            "apron.svg",
            &apron(|middle| middle.replace(moved, &format!("style='transform: {wrong}'"))),
        );
        assert!(
            why.contains(&format!("the `transform` in the style here, `{wrong}`, cannot be read")),
            "{why}"
        );
    }
    let about = "style='transform: scale(2); transform-origin: center'";
    assert!(refused("apron.svg", &apron(|middle| middle.replace(moved, about))).contains("about `center`"));
}

#[test]
fn what_nobody_sees_is_left_out() {
    let sound = sound();
    let left = |style: &str| format!("<path d='M 20 900 h 90 v 90 h -90 z' {style}/></g>");
    let last = |middle: String, more: &str| format!("{}{more}", middle.strip_suffix("</g>\n").unwrap());
    for style in [
        "style='fill:none;stroke:none'",
        "fill='none'",
        "style='opacity:0'",
        "fill='none' stroke='red' opacity='0%'",
    ] {
        let own = brought("apron.svg", &apron(|middle| last(middle, &left(style))));
        assert_eq!(own.text, sound, "{style}");
        only(&own.remarks, &["1 group or path is hidden in the drawing, and is left out"]);
    }
    // A line, a face, or a rule that is not read may show it.
    for style in ["", "fill='none' stroke='red'", "style='opacity:0.5'"] {
        let own = brought("apron.svg", &apron(|middle| last(middle, &left(style))));
        assert!(own.text != sound, "{style}");
    }
    let ruled = apron(|middle| last(middle, &left("fill='none'"))).replacen(
        "<g ",
        "<style>g > path { stroke: red }</style><g ",
        1,
    );
    assert!(brought("apron.svg", &ruled).text != sound);
}

/// Two strokes in one place are one notch; 6 mm beside it is a second one.
#[test]
fn a_notch_pasted_over_itself_is_one() {
    let sound = sound();
    let notch = "<path d='m 312,466 h -6'/>";
    let twice = apron(|middle| {
        assert!(middle.contains(notch));
        middle.replace(notch, &notch.repeat(2))
    });
    let own = brought("apron.svg", &twice);
    assert!(own.remarks.is_empty() && own.text == sound, "{:?}\n{}", own.remarks, own.text);
    let beside = apron(|middle| middle.replace(notch, &format!("{notch}<path d='m 312,472 h -6'/>")));
    only(
        &told("apron.svg", &beside),
        &["longest has not equally many notches in every size (1 in S and L; 2 in M)"],
    );
}

#[test]
fn words_that_flow_are_read_and_words_of_another_size_are_told() {
    let sound = sound();
    let flowing = "<foreignObject x='4' y='40' width='30' height='40'><p xmlns='http://www.w3.org/1999/xhtml'>cut 1</p></foreignObject>";
    let drawn = apron(|middle| middle).replace("<text x='4' y='60'>cut 1</text>", flowing);
    assert_eq!(brought("apron.svg", &drawn).text, sound);
    let says = |words: &str| {
        let own = brought(
            "apron.svg",
            &apron(|middle| {
                middle.replace("<text x='20' y='60'>cut 2", &format!("<text x='20' y='60'>cut 2, {words}"))
            }),
        );
        assert_eq!(own.text, sound);
        own.remarks
    };
    for same in ["size M", "size: m", "sizes S to L", "size 2", "size S M L"] {
        assert!(says(same).is_empty(), "{same}: {:?}", says(same));
    }
    only(&says("size L"), &["pocket: “cut 2, size L” stands on it in M, and says L: is it a copy?"]);
}

/// The fold of a hem is no fold that the piece is cut on.
#[test]
fn the_fold_of_a_hem_is_a_line() {
    let drawn = apron(|middle| middle).replace(
        "<text x='20' y='60'>",
        "<path d='M 0 30 H 180'><title>hem fold</title></path><text x='20' y='60'>",
    );
    let own = brought("apron.svg", &drawn);
    assert!(own.text.contains("line hem_fold"), "{}", own.text);
    assert!(own.remarks.iter().all(|words| !words.contains("a fold is drawn")), "{:?}", own.remarks);
}

#[test]
fn one_piece_without_a_grain_beside_others_is_told_of_a_line_that_may_be_it() {
    let drawn = |name: &str| {
        apron(|middle| middle)
            .replace(
                "<text x='40' y='500'>",
                "<path d='M 60 400 v 200'><title>grain</title></path><text x='40' y='500'>",
            )
            .replace(
                "<text x='4' y='60'>",
                "<path d='M 20 300 v 90'><title>grain</title></path><text x='4' y='60'>",
            )
            .replace(
                "<text x='20' y='60'>",
                &format!("<path d='M 90 50 v 100'>{name}</path><text x='20' y='60'>"),
            )
    };
    assert!(
        told("apron.svg", &drawn("<title>grain</title>")).is_empty(),
        "{:?}",
        told("apron.svg", &drawn("<title>grain</title>"))
    );
    only(
        &told("apron.svg", &drawn("")),
        &["pocket: no grain line is drawn, and a straight line without a name touches no edge of it"],
    );
}

/// Where one piece lies over itself along shared edges, nothing lies in anything.
#[test]
fn pieces_over_themselves_are_told_once_with_their_layers() {
    let named = |names: [&str; 3]| {
        in_mm(&names.into_iter().zip(0..).map(|(name, step)| layer(name, &size(step))).collect::<String>())
    };
    let own = told("apron.svg", &named(["small", "middle", "large"]));
    let words = "if the layers small, middle, large are sizes, `sizes-from` layers says so";
    assert_eq!(own.iter().filter(|one| one.contains(words)).count(), 1, "{own:?}");
    assert!(own.iter().all(|one| !one.contains("is drawn more than once")), "{own:?}");
}

#[test]
fn layers_and_groups_may_say_sizes_in_either_order() {
    let sound = sound();
    let coloned =
        in_mm(&(layer("size: S", &size(0)) + &layer("Size-M", &size(1)) + &layer("size:L", &size(2))));
    assert_eq!(brought("apron.svg", &coloned).text, sound);
    // A layer a piece, and in it a group a size, whose paths have no names.
    let sizes = |name: &str, wide: u32| {
        let each = [("S", 0), ("M", 10), ("L", 20)]
            .map(|(size, more)| layer(size, &format!("<path d='M0 0 H{} V300 H0 Z'/>", wide + more)));
        layer(name, &each.concat())
    };
    let own = brought(
        "apron.svg",
        &in_mm(
            &(sizes("bib", 200)
                + &sizes("skirt", 300).replace("M0 0", "M400 0").replace("H3", "H7").replace("H0", "H400")),
        ),
    );
    assert!(own.remarks.is_empty(), "{:?}", own.remarks);
    assert!(
        own.text.contains("sizes S, M, L")
            && own.text.contains("piece bib")
            && own.text.contains("piece skirt"),
        "{}",
        own.text
    );
    assert_eq!(own.text.matches("\npiece ").count(), 2, "{}", own.text);
}

#[test]
fn a_size_that_is_hidden_is_named() {
    let hidden = apron(|middle| middle).replace("<g id='M'>", "<g id='M' style='display:none'>");
    only(&told("apron.svg", &hidden), &["the layer of size M is hidden in the drawing, and is left out"]);
    let notes = apron(|middle| middle)
        .replace("<g id='S'>", "<g id='notes' visibility='hidden'><path d='M0 0 h9'/></g><g id='S'>");
    only(&told("apron.svg", &notes), &["1 group or path is hidden in the drawing, and is left out"]);
}

/// An arrow whose heads are shapes of their own, a notch as a T, a button as a circle with a cross.
#[test]
fn what_is_drawn_of_several_shapes_is_one_thing() {
    let with = |grain: &str, notch: &str, button: &str| {
        apron(|middle| middle)
            .replace("<text x='20' y='60'>", &format!("{grain}{button}<text x='20' y='60'>"))
            .replace(" h -6'/>", notch)
    };
    let plain = "<circle cx='120' cy='120' r='3'><title>button</title></circle>";
    let sound =
        brought("apron.svg", &with("<path d='M90 150 V40'><title>grain</title></path>", " h -6'/>", plain));
    assert!(sound.remarks.is_empty(), "{:?}", sound.remarks);
    for (grain, notch, button) in [
        (
            "<g><title>grain</title><path d='M90 150 V46'/><path d='M90 40 l-3 7 h6 z'/></g>",
            " h -6'/>",
            plain.to_owned(),
        ),
        ("<path id='grain' d='M90 150 V40'/>", " h -6 m 0,-3 v 6'/>", plain.to_owned()),
        (
            "<path id='grain' d='M90 150 V40'/>",
            " h -6'/>",
            format!("{plain}<path d='M117 120 h6 M120 117 v6'/>"),
        ),
        (
            "<path id='grain' d='M90 150 V40'/>",
            " h -6'/>",
            format!("<path d='M117 120 h6 M120 117 v6'/>{plain}"),
        ),
    ] {
        let own = brought("apron.svg", &with(grain, notch, &button));
        assert!(own.remarks.is_empty(), "{:?}", own.remarks);
        assert_eq!(own.text, sound.text, "{grain} {notch} {button}");
    }
}

/// Lines of words that are put down one below the other are no one word.
#[test]
fn words_in_several_lines_are_parted() {
    let bib = |words: &str| {
        brought(
            "apron.svg",
            &in_mm(&format!("<path d='M0 0 H300 V400 H0 Z'/><text x='30' y='60'>{words}</text>")),
        )
    };
    let own = bib("<tspan x='30' y='60'>Bib</tspan><tspan x='30' dy='14'>cut 2</tspan>");
    assert!(own.text.contains("piece bib \"Bib\"") && own.text.contains("cut 2\n"), "{}", own.text);
    assert_eq!(own, bib("Bib cut 2"));
    // Letters that are only set otherwise are one word.
    assert_eq!(own, bib("B<tspan font-weight='bold'>ib</tspan> cut 2"));
}

/// What lies in a piece and has no name of its own is not called as the piece is.
#[test]
fn a_window_in_a_piece_is_a_closed_path_on_it() {
    let window = apron(|middle| middle).replace("V 200 H 0 Z'", "V 200 H 0 Z M 60 60 H 100 V 80 H 60 Z'");
    let own = brought("apron.svg", &window);
    assert_eq!(own.remarks.len(), 3, "{:?}", own.remarks);
    assert!(
        own.remarks
            .iter()
            .all(|words| words.starts_with("a closed path in line ")
                && words.contains("lies inside pocket in "))
    );
    assert!(own.text.contains("line line_1") && !own.text.contains("line pocket"), "{}", own.text);
}

/// Words that are drawn as the outlines of their letters are read from what the group is called, in which a control letter may
/// stand: what comes of it is one line (found by damaging drawings).
#[test]
fn words_drawn_as_outlines_hold_no_control_letters() {
    let drawing = "<svg xmlns='http://www.w3.org/2000/svg' width='300mm' height='300mm' viewBox='0 0 300 300'>\
        <path d='M10 10h200v100h-200z'/>\
        <g role='img' aria-label='Crew&#x7f;badge'><g transform='matrix(1 0 0 1 60 60)'><path d='M0 0h3v3h-3z'/></g></g></svg>";
    let text = brought("badge.svg", drawing).text;
    assert!(text.contains("\"Crew badge\"") && !text.contains('\u{7f}'), "{text}");
}
