//! A place on an edge is said in one way, wherever one is asked for: every statement takes every spelling, and
//! spellings that mean one place make one garment. The places are worked out by hand.

use crate::workbench::{NOTHING, said, told};
use fustian::compile;
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;
use serde_json::Value as Json;

/// A panel 60 high, 40 wide at its bottom and 42 at its top, that takes a dart of 2 from each: the top is 40 as it is
/// sewn. On each of them a mark and a slit; 10 from the left is a place of both.
const PANEL: &str = "garment \"Galley apron\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { panel, band, badge }
piece panel \"Panel\" {
  cut 1
  point a = (0, 0)
  point b = (40, 0)
  point c = (41, 60)
  point d = (-1, 60)
  mark low = (10, 0)
  mark high = (9, 60)
  mark spot = (3, 40)
  outline from a { bottom to b; side to c; top to d; front to a }
  dart hem_dart on bottom at 30 from a width 2 to (30, 12) pressed toward front trued
  dart top_dart on top at 30 from d width 2 to (29, 48) pressed toward front trued
  slit hem_slit on bottom at 35 from a up 5
  slit top_slit on top at 36 from d down 5
  PIECE
}
piece band \"Band\" { cut 1; outline rectangle 40 by 6 }
piece badge \"Badge\" { cut 1; outline rectangle 4 by 4 }
finish panel.hem_slit.near, panel.hem_slit.far, panel.top_slit.near, panel.top_slit.far  bound 0.6
finish panel.bottom, band.top, band.left, band.right  overlocked
";
const SEAM: &str = "seam waist  panel.top to band.bottom { matching panel.d with band.bottom_left }\n";
const SIDES: &str = "finish panel.side, panel.front  overlocked\n";
const BADGE: &str = "place badge on panel { corner bottom_left at spot\ntopstitch all round }\n";

/// The panel with lines in its braces, and statements behind.
fn panel(inside: &str, behind: &str) -> String {
    format!("{}{behind}", PANEL.replacen("PIECE", inside, 1))
}

/// Every figure of a garment, of which nothing is told, but for where things stand in its text.
fn figures(text: &str) -> Vec<f64> {
    let compiled = compile(&MemoryLoader::new().with("own.fus", text), "own.fus");
    let told = told(text);
    assert!(told.is_empty(), "{text}\n{told:?}");
    let document =
        fustian::emit::document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
    let document: Json =
        serde_json::from_str(&fustian::emit::to_text(&document).expect("finite")).expect("a document");
    let mut all = Vec::new();
    let mut open = vec![&document["sizes"]];
    while let Some(value) = open.pop() {
        match value {
            Json::Array(values) => open.extend(values),
            Json::Object(values) => open.extend(values.values()),
            Json::Number(number) => all.push(number.as_f64().expect("a number")),
            _ => {}
        }
    }
    let parts = compiled.sizes.iter().flat_map(|size| &size.sewn.parts);
    all.extend(parts.clone().flat_map(|part| &part.tacks).flat_map(|tack| [tack.at.x, tack.at.y]));
    let runs = parts.flat_map(|part| &part.rows).filter_map(|row| row.along);
    all.extend(runs.flat_map(|(from, to)| [from, to]));
    all.sort_unstable_by(f64::total_cmp);
    all
}

/// An edge that is drawn smooth over a dart is longer by less than a tenth of a millimetre: no place is off by more
/// than half a millimetre for that.
fn same(one: &[f64], other: &[f64]) -> bool {
    one.len() == other.len() && one.iter().zip(other).all(|(one, other)| (one - other).abs() <= 0.5)
}

/// 10 from the left on the bottom, as drawn: 40 of 25 % are 10; the near side of the dart is at 30 − 1, of the slit at 35.
const ON_BOTTOM: &[&str] = &[
    "at 10 from a",
    "10 from a",
    "25% from a",
    "at 25% from a",
    "at low",
    "at 10 from front",
    "10 from front",
    "30 from b",
    "at 75% from side",
    "at 19 from hem_dart.near",
    "25 from hem_slit.near",
];
/// 10 from the left on the top, as sewn: 40 of 25 % are 10; the near side of the dart is at 30 − 1, of the slit at
/// 36 less the 2 that the dart takes.
const ON_TOP: &[&str] = &[
    "at 10 from d",
    "10 from d",
    "25% from d",
    "at 25% from d",
    "at high",
    "at 10 from front",
    "10 from front",
    "30 from c",
    "at 75% from side",
    "at 19 from top_dart.near",
    "24 from top_slit.near",
];
const MIDDLE: &[&str] = &["in the middle", "at 50%"];

/// The statement with each of those places makes one garment; with the middle another one.
fn alike(what: &str, places: &[&str], make: impl Fn(&str) -> String) {
    let first = figures(&make(places[0]));
    for place in places {
        let text = make(place);
        assert!(same(&figures(&text), &first), "{what}: {place}");
        // Tidied it says the same.
        let mut map = SourceMap::default();
        let file = map.add("own.fus", text.clone());
        let tidied = tidy(&map, file).expect("it can be read");
        assert!(same(&figures(&tidied), &first), "{what}: {place}, tidied");
    }
    let middle: Vec<Vec<f64>> = MIDDLE.iter().map(|place| figures(&make(place))).collect();
    assert!(same(&middle[0], &middle[1]), "{what}");
    assert!(!same(&middle[0], &first), "{what}");
}

#[test]
fn in_a_piece_as_it_is_drawn() {
    let behind = format!("{SEAM}{SIDES}{BADGE}");
    let inside = |lines: String| panel(&lines, &behind);
    alike("notch", ON_BOTTOM, |place| inside(format!("notch bottom {place}")));
    alike("dart", ON_BOTTOM, |place| {
        inside(format!("dart extra on bottom {place} width 1 to (10, 9) pressed toward front trued"))
    });
    alike("pleat", ON_BOTTOM, |place| inside(format!("pleat extra on bottom {place} depth 0.5 box")));
    alike("slit", ON_BOTTOM, |place| {
        panel(
            &format!("slit extra on bottom {place} up 4"),
            &format!("{behind}finish panel.extra.near, panel.extra.far  bound 0.5\n"),
        )
    });
}

/// An edge is divided before anything is taken from it; the run at the corner is named first.
#[test]
fn an_edge_is_divided() {
    let places = ["10 from a", "at 10 from a", "25% from a", "at 10 from front"];
    alike("divide", &places, |place| {
        let behind = format!("{SEAM}{SIDES}{BADGE}finish panel.rest  overlocked\n");
        panel(&format!("divide bottom {place} into bottom, rest"), &behind)
            .replace("  dart hem_dart on bottom at 30 from a", "  dart hem_dart on rest at 10 from b")
            .replace("  slit hem_slit on bottom at 35 from a", "  slit hem_slit on rest at 5 from b")
            .replace("  mark low = (10, 0)", "  mark low = (3, 3)")
    });
}

#[test]
fn in_alterations() {
    let behind = format!("{SEAM}{SIDES}{BADGE}");
    let with = |line: String| panel("", &format!("{behind}{line}\n"));
    alike("let pleat", ON_BOTTOM, |place| {
        with(format!("let pleat extra into panel.bottom {place} depth 0.5 box to nothing at top"))
    });
    let bare = |line: String| {
        with(line)
            .replace("  slit top_slit on top at 36 from d down 5\n", "")
            .replace(", panel.top_slit.near, panel.top_slit.far", "")
    };
    alike("move dart", &["10 from b", "at 10 from b", "10 from bottom", "at 50 from top"], |place| {
        bare(format!("move dart panel.top_dart to side {place} pressed down trued"))
    });
}

#[test]
fn between_pieces_as_they_are_sewn() {
    let seam = |line: &str| {
        format!(
            "{SIDES}{BADGE}seam waist  panel.top to band.bottom {{\nmatching panel.d with band.bottom_left\n{line}\n}}\n"
        )
    };
    alike("notch of a seam", ON_TOP, |place| panel("", &seam(&format!("notch {place}"))));
    // A mark is shown already, and a place that has no mark gets one.
    let marked: Vec<&str> = ON_TOP.iter().copied().filter(|place| *place != "at high").collect();
    alike("strap", &marked, |place| {
        let strap = format!("strap loop 6 by 1 in outer {{ from panel.top {place} to free }}\n");
        panel("", &format!("{SEAM}{SIDES}{BADGE}{strap}"))
    });
    alike("placement", &marked, |place| {
        let badge =
            format!("place badge on panel {{ corner top_left on top {place}\ntopstitch all round }}\n");
        panel("", &format!("{SIDES}{badge}{SEAM}"))
    });
    let at_mark = "place badge on panel { corner top_left on top at high\ntopstitch all round }\n";
    let text = panel("", &format!("{SIDES}{at_mark}{SEAM}"));
    assert_eq!(said(&text), NOTHING);
    alike("tack", ON_TOP, |place| {
        panel("", &format!("{SEAM}{SIDES}{BADGE}tack hold panel.top {place} bar 1\n"))
    });
    alike("fit", ON_TOP, |place| {
        let seam = format!(
            "seam waist  panel.top to band.bottom easing 0..0.4 between panel.top {place} and panel.c {{ matching panel.d with band.bottom_left }}\n"
        );
        panel("", &format!("{SIDES}{BADGE}{seam}"))
    });
}

/// A run begins and ends as far from a place as that is counted.
#[test]
fn runs_are_counted_from_the_same_places() {
    let from =
        ["0..10 from d", "0..25% from front", "10..0 from d", "75%..100% from c", "75%..100% from side"];
    let sides = ["9..19 from top_dart.near"];
    let row = |run: &str| panel("", &format!("{SEAM}{SIDES}{BADGE}topstitch row 1 from panel.top {run}\n"));
    let first = figures(&row("10 from d"));
    for run in from {
        assert!(same(&figures(&row(run)), &first), "{run}");
    }
    assert!(same(&figures(&row("19..28.97 from top_dart.near")), &first));
    assert!(same(&figures(&row("24..33.97 from top_slit.near")), &first));
    assert!(!same(&figures(&row(sides[0])), &first));
    let finished = |run: &str| {
        panel(
            "",
            &format!(
                "{SEAM}{BADGE}finish panel.front, panel.side  overlocked\nfinish panel.side {run}  hem 1\n"
            ),
        )
    };
    let first = figures(&finished("15 from b"));
    for run in ["0..15 from b", "25% from b", "15 from bottom", "75%..100% from c"] {
        assert!(same(&figures(&finished(run)), &first), "{run}");
    }
}

/// Nine hooks on an edge of 40: the first where it is said, the last 5 above its lower end.
#[test]
fn a_row_of_a_closure() {
    let text = |place: &str| {
        format!(
            "garment \"Chart apron\"\nunits cm\nallowance 1\nfabric drill \"cotton drill\" {{ width 150; kind woven firm }}\n\
             layer outer in drill {{ panel }}\npiece panel \"Panel\" {{ cut 1\noutline rectangle 90 by 40\nmark hook = (0, 30) }}\n\
             finish panel.left, panel.right, panel.top, panel.bottom  hem 2\n\
             closure back  panel.left to panel.right {{ hooks 9 from {place} to 5 above bottom_left }}\n"
        )
    };
    alike(
        "closure",
        &[
            "10 below top_left",
            "10 from top_left",
            "at 10 from top_left",
            "25% from top_left",
            "at hook",
            "10 from top",
            "30 from bottom",
            "75% from bottom_left",
        ],
        text,
    );
    let told = |place: &str| said(&text(place));
    assert_eq!(told("at 30%"), ["edge/place"]);
    assert_eq!(told("70 from top_left"), ["edge/place"]);
    assert_eq!(told("70 below top_left"), ["button/beyond"]);
    assert_eq!(told("10 from topleft"), ["name/unknown"]);
    assert_eq!(told("at hok"), ["name/unknown"]);
}

/// A loop of a binding lies at a corner, or at a place on an edge that is bound.
#[test]
fn a_loop_of_a_binding() {
    let text = |place: &str| {
        panel(
            "",
            &format!(
                "{SEAM}{BADGE}finish panel.side  overlocked\nfinish panel.front  bound 1 looping 5 at panel.{place}\n"
            ),
        )
    };
    for place in [
        "d",
        "front 10 from d",
        "front at 25% from a",
        "front in the middle",
        "front at 50%",
        "front 10 from top",
    ] {
        assert_eq!(said(&text(place)), NOTHING, "{place}");
    }
    assert_eq!(said(&text("side in the middle")), ["bind/runs-on"]);
    assert_eq!(said(&text("front 70 from d")), ["edge/place"]);
    assert_eq!(said(&text("front at low")), ["edge/place"]);
}

/// What is wrong with a place is told wherever it is said.
#[test]
fn a_place_that_is_none_is_told() {
    let strap = |place: &str| {
        said(&panel(
            "",
            &format!("{SEAM}{SIDES}{BADGE}strap loop 6 by 1 in outer {{ from panel.top {place} to free }}\n"),
        ))
    };
    for (place, slug) in [
        ("at 41 from d", "edge/place"),
        ("at -1 from d", "edge/place"),
        ("at 30%", "edge/place"),
        ("at 8", "edge/place"),
        ("at low", "edge/place"),
        ("at 5 from high", "edge/place"),
        ("at 5 from bottom", "edge/place"),
        ("at 5 from top_dart", "edge/place"),
        ("at 5 from hem_dart.near", "edge/place"),
        ("at 5 from top_dart.nigh", "name/unknown"),
        ("at 5 from sid", "name/unknown"),
        ("at hihg", "name/unknown"),
    ] {
        assert_eq!(strap(place), [slug], "{place}");
    }
    let notch = |place: &str| {
        said(&panel(
            "",
            &format!(
                "{SIDES}{BADGE}seam waist  panel.top to band.bottom {{\nmatching panel.d with band.bottom_left\nnotch {place}\n}}\n"
            ),
        ))
    };
    for (place, slug) in [
        ("41 from d", "notch/off-edge"),
        ("at 41 from front", "edge/place"),
        ("at 30%", "notch/off-edge"),
        ("at 8", "edge/place"),
        ("at low", "notch/off-edge"),
        ("5 from high", "notch/off-edge"),
        ("5 from bottom", "edge/place"),
        ("5 from panel.hem_dart.near", "edge/place"),
        ("5 from sid", "name/unknown"),
        ("at hihg", "name/unknown"),
        ("at panel.hihg", "name/unknown"),
    ] {
        assert_eq!(notch(place), [slug], "{place}");
    }
    for place in [
        "at high",
        "at panel.high",
        "25 from high",
        "at 24 from panel.top_slit.near",
        "5 from panel.top_dart.far",
    ] {
        assert_eq!(notch(place), NOTHING, "{place}");
    }
}
