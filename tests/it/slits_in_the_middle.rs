//! Slits in the middle of a front that is drawn as a half and cut on the fold, and the plackets that are sewn to them.
//! Figures are worked out by hand.

use crate::cutting_lines::cut_all;
use crate::workbench::{NOTHING, of, said, told, with};
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;
use fustian::syntax::tree::Hand;
use fustian::{Compiled, compile};

/// A nightshirt whose neck runs straight for a while, 9 below the shoulder, from the fold on. The slit begins there.
const NIGHTSHIRT: &str = r#"garment "Deckhand's nightshirt"
units cm
allowance 1
body { head 56 }
fabric cotton "white cotton" { width 150 }
layer outer in cotton { front, back, band }
piece front "Front" {
  cut 1 on fold centre
  drawn left
  point hem_cf = (0, -90)
  point neck_cf = (0, -9)
  point neck_low = (8, -9)
  point neck_side = (8, 0)
  point tip = (29, 0)
  point hem_side = (29, -90)
  outline from hem_cf {
    centre to neck_cf
    neckline to neck_low
    neck_up to neck_side
    shoulder to tip
    side to hem_side
    hem to hem_cf
  }
  slit neck_slit on neckline at the fold down 18 window 3
}
piece back "Back" {
  cut 1 on fold centre
  drawn right
  point hem_cb = (0, -90)
  point neck_cb = (0, 0)
  point neck_side = (8, 0)
  point tip = (29, 0)
  point hem_side = (29, -90)
  outline from hem_cb {
    centre to neck_cb
    neckline to neck_side
    shoulder to tip
    side to hem_side
    hem to hem_cb
  }
}
placket neck_placket on front.neck_slit two-part over 3 under 3 right over left
piece band "Neckband" { cut 1; outline rectangle 53 by 6; folded bottom to top }
seam neck band.bottom and band.top to neck_placket_under.left + front.neckline + front.neck_up + back.neckline + neck_placket_over.left {
  matching band.bottom_left with neck_placket_under.bottom_left
}
seam ends band.left, band.right across the fold
seam shoulder front.shoulder to back.shoulder
finish front.side, back.side hem 1
finish front.hem, back.hem hem 3
"#;

/// What is told of it but for its corners, which are of no matter here.
fn wrong(text: &str) -> Vec<&'static str> {
    said(text).into_iter().filter(|slug| *slug != "seam/kink").collect()
}

/// The edges of the front, by name, each with its length and where it begins.
fn front(compiled: &Compiled) -> Vec<(String, f64, (f64, f64))> {
    let garment = &compiled.garment;
    let mut all = compiled.sizes[0].drawn.papers.iter().flatten();
    let front = all.find(|drawn| *garment.piece(drawn.piece).name == *"front").expect("the front");
    let one = |edge: &fustian::resolve::DrawnEdge| {
        let start = edge.path.start();
        (
            garment.edge(edge.edge).name.to_string(),
            edge.path.length().round(),
            (start.x.round(), start.y.round()),
        )
    };
    front.edges.iter().map(one).collect()
}

/// Of the window of 3 each half has 1.5; the fold is 81 less 18 long below it, the neck 8 less 1.5.
#[test]
fn each_half_has_a_side_and_half_of_the_end() {
    let found = front(&of(NIGHTSHIRT));
    let find = |name: &str| found.iter().find(|(own, ..)| own == name).cloned().expect(name);
    assert_eq!(find("centre"), ("centre".to_owned(), 630.0, (0.0, -900.0)));
    assert_eq!(find("neck_slit.end"), ("neck_slit.end".to_owned(), 15.0, (0.0, -270.0)));
    assert_eq!(find("neck_slit.near"), ("neck_slit.near".to_owned(), 180.0, (15.0, -270.0)));
    assert_eq!(find("neckline"), ("neckline".to_owned(), 65.0, (15.0, -90.0)));
    assert!(!found.iter().any(|(name, ..)| name == "neck_slit.far"));
}

/// Drawn the other way round, the edge ends at the fold.
#[test]
fn the_outline_may_go_either_way_round() {
    let turned = with(
        NIGHTSHIRT,
        &[(
            "outline from hem_cf {\n    centre to neck_cf\n    neckline to neck_low\n    neck_up to neck_side\n    \
             shoulder to tip\n    side to hem_side\n    hem to hem_cf\n  }",
            "outline from hem_cf {\n    hem to hem_side\n    side to tip\n    shoulder to neck_side\n    \
             neck_up to neck_low\n    neckline to neck_cf\n    centre to hem_cf\n  }",
        )],
    );
    assert_eq!(wrong(&turned), NOTHING);
    let found = front(&of(&turned));
    let find = |name: &str| found.iter().find(|(own, ..)| own == name).cloned().expect(name);
    assert_eq!(find("neckline"), ("neckline".to_owned(), 65.0, (80.0, -90.0)));
    assert_eq!(find("neck_slit.near"), ("neck_slit.near".to_owned(), 180.0, (15.0, -90.0)));
    assert_eq!(find("neck_slit.end"), ("neck_slit.end".to_owned(), 15.0, (15.0, -270.0)));
    assert_eq!(find("centre"), ("centre".to_owned(), 630.0, (0.0, -270.0)));
}

/// One strip of 18 on either side, of two halves of 3 and no more than one of each; the under part is sewn on the left,
/// and its end to the whole of the window's, 2 × 1.5. The neck is 2 × (8 + 9 + 8) - 3 + 3 + 3 = 53.
#[test]
fn a_placket_in_two_parts_is_sewn_to_left_and_right() {
    assert_eq!(wrong(NIGHTSHIRT), NOTHING);
    let compiled = of(NIGHTSHIRT);
    let garment = &compiled.garment;
    let sewn = |name: &str| {
        let mut all = compiled.sizes[0].sewn.seams.iter();
        let own = all.find(|sewn| *garment.seam(sewn.seam).name == *name).expect("the seam");
        (own.reach.hand(), own.first.plies[0].length.round(), own.second.plies[0].length.round())
    };
    assert_eq!(sewn("neck_placket_under"), (Some(Hand::Left), 180.0, 180.0));
    assert_eq!(sewn("neck_placket_over"), (Some(Hand::Right), 180.0, 180.0));
    let (_, under, end) = sewn("neck_placket_end");
    assert_eq!((under, end), (30.0, 30.0));
    assert_eq!((sewn("neck").1, sewn("neck").2), (530.0, 530.0));
    let cuts = cut_all(&compiled);
    let copies = |name: &str| -> Vec<u32> {
        let own = cuts[0].parts.iter().filter(|part| *garment.piece(part.part.piece).name == *name);
        own.map(|part| part.copies).collect()
    };
    assert_eq!((copies("neck_placket_under"), copies("neck_placket_over")), (vec![1], vec![1]));
}

/// Cut down the fold, to 1 before the end, and from there into the corner of the half.
#[test]
fn it_is_cut_along_the_fold() {
    let compiled = of(NIGHTSHIRT);
    let cuts = cut_all(&compiled);
    let front = cuts[0].parts.iter().find(|part| *compiled.garment.piece(part.part.piece).name == *"front");
    let slit = &front.expect("the front").slits[0];
    let ends: Vec<[f64; 4]> =
        slit.cuts.iter().map(|(from, to)| [from.x, from.y, to.x, to.y].map(f64::round)).collect();
    assert_eq!(ends, [[0.0, -80.0, 0.0, -260.0], [0.0, -260.0, 15.0, -270.0]]);
    assert_eq!(front.expect("the front").label.cut, "cut 1 on the fold");
}

/// Left over right the over part is the left one, and the neckband's left end goes on from it.
#[test]
fn either_side_may_lie_over() {
    let left = with(
        NIGHTSHIRT,
        &[
            ("right over left", "left over right"),
            ("neck_placket_under.left + front", "neck_placket_over.left + front"),
            ("back.neckline + neck_placket_over.left", "back.neckline + neck_placket_under.left"),
            ("with neck_placket_under.bottom_left", "with neck_placket_over.bottom_left"),
        ],
    );
    assert_eq!(wrong(&left), NOTHING);
    let silent = with(NIGHTSHIRT, &[(" right over left", "")]);
    assert_eq!(wrong(&silent), ["placket/over"]);
    // Counted along its edge a slit has a near and a far side.
    let aside = with(
        NIGHTSHIRT,
        &[("on neckline at the fold down 18 window 3", "on neckline at 4 from neck_cf down 18 window 3")],
    );
    assert!(wrong(&aside).contains(&"placket/over"), "{:?}", told(&aside));
}

/// A bound placket goes down the one side, over the end and up the other: 2 × (18 + 1.5) = 39; and without a window,
/// bound by a finish, 18 on each half.
#[test]
fn a_slit_in_the_middle_is_bound_all_round() {
    let bare = with(
        NIGHTSHIRT,
        &[
            ("piece band \"Neckband\" { cut 1; outline rectangle 53 by 6; folded bottom to top }\n", ""),
            ("seam ends band.left, band.right across the fold\n", ""),
            ("front, back, band }", "front, back }"),
        ],
    );
    let (before, rest) = bare.split_once("seam neck ").expect("the neck");
    let (_, after) = rest.split_once("}\n").expect("its end");
    let neck = "finish front.neckline, front.neck_up, back.neckline bound 1\n";
    let two_part = "placket neck_placket on front.neck_slit two-part over 3 under 3 right over left";
    let with_strip = format!("{before}finish neck_placket.left, neck_placket.right raw\n{neck}{after}")
        .replace(two_part, "placket neck_placket on front.neck_slit bound 1");
    assert_eq!(wrong(&with_strip), NOTHING);
    let compiled = of(&with_strip);
    let strip = compiled.sizes[0].sewn.seams.iter();
    let mut strip = strip.filter(|sewn| *compiled.garment.seam(sewn.seam).name == *"neck_placket");
    let strip = strip.next().expect("the seam");
    assert_eq!((strip.first.plies[0].length.round(), strip.second.plies[0].length.round()), (390.0, 390.0));
    let cut = format!("{before}finish front.neck_slit.near bound 0.8\n{neck}{after}")
        .replace(&format!("{two_part}\n"), "")
        .replace(" window 3", "");
    assert_eq!(wrong(&cut), NOTHING);
    let found = front(&of(&cut));
    assert!(found.contains(&("neck_slit.near".to_owned(), 180.0, (0.0, -270.0))), "{found:?}");
    assert!(!found.iter().any(|(name, ..)| name == "neck_slit.end"));
    // A neck that is bound with the strips of its placket is bound once these are sewn on.
    let round = "finish neck_placket_under.left, front.neckline, front.neck_up, neck_placket_over.left, back.neckline bound 1\n";
    assert_eq!(wrong(&format!("{before}{round}{after}")), NOTHING);
}

#[test]
fn a_slit_that_cannot_be_there_is_told() {
    let changed = |old: &str, new: &str| wrong(&with(NIGHTSHIRT, &[(old, new)]));
    assert_eq!(changed("at the fold down 18", "at the fold down 90"), ["slit/outside"]);
    assert_eq!(changed("at the fold down 18", "at the fold up 18"), ["slit/fold"]);
    assert_eq!(changed("at the fold down 18", "at the fold right 18"), ["slit/fold"]);
    assert_eq!(changed("at the fold down 18", "at the fold down 0"), ["slit/nothing"]);
    assert_eq!(changed("window 3", "window 16"), ["slit/off-edge"]);
    assert!(changed("on neckline at the fold", "on shoulder at the fold").contains(&"edge/place"));
    assert!(changed("cut 1 on fold centre\n  drawn left", "cut 1").contains(&"edge/place"));
    assert!(changed("over 3 under 3", "over 3 under 2").contains(&"seam/unequal"));
    assert!(changed("  drawn left\n", "").contains(&"side/drawn"));
    // Each half has one side of it: there is no far one.
    let far = with(
        NIGHTSHIRT,
        &[(
            "placket neck_placket on front.neck_slit",
            "finish front.neck_slit.far hem 1\nplacket neck_placket on front.neck_slit",
        )],
    );
    assert!(crate::workbench::helps(&far).iter().any(|help| help.contains("write neck_slit.near")));
    // At the corner on the fold the way out is to say so.
    let corner = with(NIGHTSHIRT, &[("at the fold down 18", "at 0 from neck_cf down 18")]);
    assert!(wrong(&corner).contains(&"slit/off-edge"));
    assert!(crate::workbench::helps(&corner).iter().any(|help| help.contains("at the fold")));
}

/// In a front that a variation unfolds the words are the same, and it is cut as its whole.
#[test]
fn an_unfolded_front_has_it_in_its_middle() {
    let plain = with(
        NIGHTSHIRT,
        &[
            ("  slit neck_slit on neckline at the fold down 18 window 3\n", ""),
            ("placket neck_placket on front.neck_slit two-part over 3 under 3 right over left\n", ""),
        ],
    );
    let (before, rest) = plain.split_once("piece band").expect("the band");
    let (_, after) = rest.split_once("across the fold\n").expect("its ends");
    let plain = format!("{before}{after}finish front.neckline, front.neck_up, back.neckline bound 1\n")
        .replace(", band }", " }");
    let own = "variation \"Nightshirt with a placket\" of \"plain.fus\"\nunfold front\n\
               in piece front add { slit neck_slit on neckline at the fold down 18 window 3 }\n\
               placket neck_placket on front.neck_slit two-part over 3 under 3 right over left\n\
               finish neck_placket_under.left, neck_placket_over.left bound 1\n";
    let compiled = compile(&MemoryLoader::new().with("plain.fus", plain).with("own.fus", own), "own.fus");
    let found: Vec<&str> = compiled.diagnostics.iter().map(|one| one.slug()).collect();
    assert!(!found.iter().any(|slug| slug.starts_with("slit/") || slug.starts_with("edge/")), "{found:?}");
    let cuts = cut_all(&compiled);
    let front = cuts[0].parts.iter().find(|part| *compiled.garment.piece(part.part.piece).name == *"front");
    let front = front.expect("the front");
    assert_eq!(front.label.cut, "cut 1, whole");
    // Down the fold, and into both corners.
    let corners = front.slits.iter().flat_map(|slit| &slit.cuts).map(|(_, to)| (to.x.round(), to.y.round()));
    let mut corners: Vec<(f64, f64)> = corners.collect();
    corners.sort_by(|one, other| one.0.total_cmp(&other.0));
    corners.dedup();
    assert!(corners.contains(&(-15.0, -270.0)) && corners.contains(&(15.0, -270.0)), "{corners:?}");
}

#[test]
fn it_is_tidied_as_it_is_written() {
    let lines = "slit neck_slit on neckline at the fold down 18 window 3\n";
    let text = format!(
        "piece front \"Front\" {{\n  {lines}}}\nplacket p on front.neck_slit two-part over 3 under 3 right over left\n"
    );
    let mut map = SourceMap::default();
    let file = map
        .add("own.fus", &*text.replace("at the fold", "at  the fold").replace("right over", "right  over"));
    assert_eq!(tidy(&map, file).expect("nothing is wrong with it"), text);
}
