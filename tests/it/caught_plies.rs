//! A ply that a seam catches along a part of one of its edges: `caught bag.top on front.waist at waist_side`. Every
//! figure is worked out by hand.

use crate::drafting::same;
use crate::workbench::{said, told, with};
use fustian::compile;
use fustian::source::MemoryLoader;
use fustian::syntax::tidy::tidy;

/// Half a pair of trousers' waist: a front and a back of 30 each on a band of 60, and a bag of 14 that is caught on the
/// front's waist from the side on.
const WAIST: &str = "garment \"Mate's waist\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { front, back, bag, band }
piece front \"Front\" {
  cut 1
  point a = (0, 0)
  point b = (30, 0)
  point waist_side = (30, 40)
  point waist_cf = (0, 40)
  outline from a { hem to b; side to waist_side; waist to waist_cf; cf to a }
}
piece back \"Back\" {
  cut 1
  point a = (0, 0)
  point b = (30, 0)
  point waist_side = (0, 40)
  point waist_cb = (30, 40)
  outline from a { hem to b; cb to waist_cb; waist to waist_side; side to a }
}
piece bag \"Pocket bag\" { cut 1; outline rectangle 14 by 20 }
piece band \"Band\" { cut 1; outline rectangle 60 by 6 }
seam side  front.side to back.side
seam waist  band.bottom to front.waist + back.waist {
  matching band.bottom_left with front.waist_cf
  matching bag.top_right with front.waist_side
  caught bag.top on front.waist at waist_side
}
finish front.hem, back.hem, band.top, band.left, band.right, front.cf, back.cb  overlocked
finish bag.left, bag.bottom, bag.right  overlocked
";

/// The plies of the second side of the waist: how long each is by itself, and where along the seam it begins.
fn plies(text: &str) -> Vec<(f64, f64)> {
    let compiled = compile(&MemoryLoader::new().with("own.fus", text.to_owned()), "own.fus");
    assert_eq!(told(text), []);
    let seams = compiled.sizes[0].sewn.seams.iter();
    let waist = seams.filter(|sewn| *compiled.garment.seam(sewn.seam).name == *"waist");
    let plies = waist.flat_map(|sewn| sewn.second.plies.iter());
    plies
        .map(|ply| {
            let own = ply.runs.iter().filter(|run| !run.elsewhere).map(|run| run.length).sum();
            let before = ply.runs.iter().take_while(|run| run.elsewhere).map(|run| run.length).sum();
            (own, before)
        })
        .collect()
}

fn are(found: &[(f64, f64)], wanted: &[(f64, f64)]) {
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        same(found.0, wanted.0);
        same(found.1, wanted.1);
    }
}

/// The front's waist is 30 long from the middle: the bag of 14 lies on it from 16 on, to the side; 3 from the side it
/// lies from 13 on, and where it begins at the middle, from 0.
#[test]
fn it_lies_on_a_part_of_the_edge() {
    are(&plies(WAIST), &[(600.0, 0.0), (140.0, 160.0)]);
    let moved = |place: &str, corner: &str| {
        with(
            WAIST,
            &[
                ("waist at waist_side", &format!("waist {place}")),
                ("matching bag.top_right with front.waist_side", corner),
            ],
        )
    };
    let near = "matching bag.top_right with front.waist.near";
    are(&plies(&moved("3 from waist_side", near)), &[(600.0, 0.0), (140.0, 130.0)]);
    are(&plies(&moved("at 3 from side", near)), &[(600.0, 0.0), (140.0, 130.0)]);
    let middle = "matching bag.top_left with front.waist_cf";
    are(&plies(&moved("at waist_cf", middle)), &[(600.0, 0.0), (140.0, 0.0)]);
    are(&plies(&moved("at cf", middle)), &[(600.0, 0.0), (140.0, 0.0)]);
}

/// As long as the edge it covers all of it; with a pleat in the bag it counts as it is sewn.
#[test]
fn it_is_as_long_as_it_is_sewn() {
    let whole = with(WAIST, &[("rectangle 14 by 20", "rectangle 30 by 20")]);
    are(&plies(&whole), &[(600.0, 0.0), (300.0, 0.0)]);
    let pleated = with(
        WAIST,
        &[(
            "cut 1; outline rectangle 14 by 20",
            "cut 1; outline rectangle 18 by 20; pleat fold on top at 6 from top_left depth 2 toward left",
        )],
    );
    are(&plies(&pleated), &[(600.0, 0.0), (140.0, 160.0)]);
}

/// Two bags on one waist, from both of its ends.
#[test]
fn several_are_caught() {
    let two = with(
        WAIST,
        &[
            ("{ front, back, bag, band }", "{ front, back, bag, purse, band }"),
            ("piece band", "piece purse \"Purse\" { cut 1; outline rectangle 10 by 12 }\npiece band"),
            (
                "  caught bag.top",
                "  matching purse.top_left with front.waist_cf\n  caught purse.top on front.waist at waist_cf\n  caught bag.top",
            ),
            ("finish bag.left,", "finish purse.left, purse.bottom, purse.right, bag.left,"),
        ],
    );
    let found = plies(&two);
    assert_eq!(found.len(), 3);
    same(found[0].0, 600.0);
    assert!(found.iter().any(|ply| (ply.0 - 100.0).abs() < 1e-6 && ply.1.abs() < 1e-6), "{found:?}");
    assert!(
        found.iter().any(|ply| (ply.0 - 140.0).abs() < 1e-6 && (ply.1 - 160.0).abs() < 1e-6),
        "{found:?}"
    );
}

#[test]
fn what_is_wrong_with_it_is_told() {
    let caught = |words: &str| said(&with(WAIST, &[("caught bag.top on front.waist at waist_side", words)]));
    for (words, slug) in [
        ("caught bag.top on front.hem at a", "place/not-caught"),
        ("caught bag.top on front.waist in the middle", "edge/place"),
        ("caught bag.top on front.waist at 50%", "edge/place"),
        ("caught bag.top on front.waist at a", "edge/place"),
        ("caught bag.top on front.waist at waist_sid", "name/unknown"),
        ("caught bag.tip on front.waist at waist_side", "name/unknown"),
        ("caught bag.top on front.waist at 20 from waist_side", "run/too-long"),
    ] {
        assert!(caught(words).contains(&slug), "{words}: {:?}", caught(words));
    }
    // Not caught any more its edge lies open.
    assert!(caught("").contains(&"edge/loose"), "{:?}", caught(""));
    // Which way round it lies there must be known.
    let either = with(WAIST, &[("  matching bag.top_right with front.waist_side\n", "")]);
    assert_eq!(said(&either), ["seam/ends"]);
    let wide = with(WAIST, &[("rectangle 14 by 20", "rectangle 34 by 20")]);
    assert_eq!(said(&wide), ["run/too-long"]);
}

/// Tidied it is the same; dropped with its piece the seam stays.
#[test]
fn it_is_kept_and_dropped() {
    let mut map = fustian::source::SourceMap::default();
    let file = map.add("own.fus", WAIST.to_owned());
    let tidied = tidy(&map, file).expect("it can be read");
    assert!(tidied.contains("caught bag.top on front.waist at waist_side"), "{tidied}");
    let dropped = "variation \"Without a pocket\" of \"own.fus\"\ndrop bag and all sewn to it\n";
    let loader =
        MemoryLoader::new().with("own.fus", WAIST.to_owned()).with("dropped.fus", dropped.to_owned());
    let compiled = compile(&loader, "dropped.fus");
    let slugs: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert!(compiled.garment.seams.iter().any(|seam| *seam.name == *"waist"), "{slugs:?}");
    assert_eq!(slugs.iter().filter(|slug| **slug != "steps/none").collect::<Vec<_>>(), [&"drop/along"]);
}

/// What is caught in one place lies on one run: a bag and what it is faced with, both 14 long.
#[test]
fn two_plies_are_caught_in_one_place() {
    let two = with(
        WAIST,
        &[
            ("front, back, bag, band", "front, back, bag, pad, band"),
            ("piece band", "piece pad \"Pad\" { cut 1; outline rectangle 14 by 20 }\npiece band"),
            (
                "  caught bag.top",
                "  matching pad.top_right with front.waist_side\n  caught pad.top on front.waist at waist_side\n  caught bag.top",
            ),
            ("finish bag.left", "finish pad.left, pad.bottom, pad.right  overlocked\nfinish bag.left"),
        ],
    );
    are(&plies(&two), &[(60.0 * 10.0, 0.0), (140.0, 160.0), (140.0, 160.0)]);
    let named = with(
        &two,
        &[(
            "caught pad.top on front.waist at waist_side",
            "caught pad.top on front.waist at front.waist_side",
        )],
    );
    are(&plies(&named), &[(60.0 * 10.0, 0.0), (140.0, 160.0), (140.0, 160.0)]);
    let apart = with(&two, &[("caught pad.top on front.waist at", "caught pad.top on front.waist 3 from")]);
    assert_eq!(said(&apart), ["run/overlap"]);
}

/// Two panels of 30 whose corners bear the same names, on a band of 60, and a bag of 16. Wherever on them it is caught, the
/// panels follow one another as the middle seam joins them: the run comes first, or last, as it lies on its edge. By hand it
/// begins at 0, 4, 30 - 16, 30 and 60 - 16.
#[test]
fn a_bag_is_caught_at_either_end_of_either_edge() {
    let cases = [
        ("left_panel.top at top_left", "top_left with left_panel.top.near", 0.0),
        ("left_panel.top 4 from top_left", "top_left with left_panel.top.near", 40.0),
        ("left_panel.top at top_right", "top_right with left_panel.top.near", 140.0),
        ("right_panel.top at top_left", "top_left with right_panel.top.near", 300.0),
        ("right_panel.top at top_right", "top_right with right_panel.top.near", 440.0),
    ];
    for (caught, matched, begins) in cases {
        let text = format!(
            "garment \"Galley apron with a bag in its seam\"\nunits cm\nallowance 1\nfabric wool \"navy wool\" {{ width 150 }}\n\
             layer outer in wool {{ left_panel, right_panel, bag, band }}\n\
             piece left_panel \"Left panel\" {{ cut 1; outline rectangle 30 by 50 }}\n\
             piece right_panel \"Right panel\" {{ cut 1; outline rectangle 30 by 50 }}\n\
             piece bag \"Bag\" {{ cut 1; outline rectangle 16 by 22 }}\n\
             piece band \"Band\" {{ cut 1; outline rectangle 60 by 6 }}\n\
             seam middle left_panel.right to right_panel.left {{ matching left_panel.top_right with right_panel.top_left }}\n\
             seam waist band.bottom to left_panel.top + right_panel.top {{\n\
             \x20 matching band.bottom_left with left_panel.top_left\n  caught bag.top on {caught}\n  matching bag.{matched}\n}}\n\
             finish left_panel.left, right_panel.right, left_panel.bottom, right_panel.bottom overlocked\n\
             finish band.left, band.right, band.top, bag.left, bag.right, bag.bottom overlocked\n"
        );
        let found = plies(&text);
        let [panels, bag] = found.as_slice() else { panic!("{caught}: {found:?}") };
        assert!((panels.0 - 600.0).abs() < 1e-6 && panels.1 == 0.0, "{caught}: {found:?}");
        assert!((bag.0 - 160.0).abs() < 1e-6 && (bag.1 - begins).abs() < 1e-6, "{caught}: {found:?}");
    }
}
