//! A zip in the left side seam and a pocket in the right one: runs of one edge that lie over one another on the paper, each
//! on a side of the body of its own. Figures are worked out by hand, in centimetres where they are said and in
//! millimetres where they come out.

use crate::cutting_lines::cut_all;
use crate::workbench::{NOTHING, helps, of, said, told, with};
use fustian::Compiled;
use fustian::emit::drawing::{Look, What, draw_group, pieces};
use fustian::garment::Garment;
use fustian::sewing::SewnSeam;
use fustian::syntax::tree::Hand;

/// A skirt of two widths, each 60 long, with a zip and a pocket.
const SKIRT: &str = r#"garment "Mess skirt"
units cm
allowance 1.5
tolerance 2mm
body { hip 94 }
sizes M
fabric wool "navy wool" { width 150 }
layer outer in wool { front, back, bag_front, bag_back }
piece front "Front" { cut 2 mirrored; drawn left; outline rectangle 26 by 60 }
piece back "Back" { cut 2 mirrored; drawn right; outline rectangle 26 by 60 }
piece bag_front "Front of the pocket bag" { cut 1; outline rectangle 14 by 16 }
piece bag_back "Back of the pocket bag" { cut 1; outline rectangle 14 by 16 }
seam middle_front front.left to front.left
seam middle_back back.left to back.left
closure zip front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }
seam side front.right to back.right
seam pocket_front bag_front.right to front.right 4..20 from top_right on right {
  matching bag_front.top_right with front.right.near
}
seam pocket_back bag_back.left to back.right 4..20 from top_right on right {
  matching bag_back.top_left with back.right.near
}
seam pocket_bag bag_front.top + bag_front.left + bag_front.bottom to bag_back.top + bag_back.right + bag_back.bottom {
  matching bag_front.top_right with bag_back.top_left
  matching bag_front.bottom_right with bag_back.bottom_left
}
finish front.top, front.bottom, back.top, back.bottom overlocked
opening front.top + back.top passes hip
"#;

/// The same of halves on the fold.
fn halves() -> String {
    with(
        SKIRT,
        &[
            ("cut 2 mirrored; drawn left", "cut 1 on fold left; drawn left"),
            ("cut 2 mirrored; drawn right", "cut 1 on fold left; drawn right"),
            ("seam middle_front front.left to front.left\n", ""),
            ("seam middle_back back.left to back.left\n", ""),
        ],
    )
}

/// With the pocket elsewhere in its seam, and its bag as wide as that.
fn pocket(text: &str, run: &str, mouth: &str) -> String {
    text.replace("4..20 from top_right", run).replace("14 by 16", &format!("14 by {mouth}"))
}

fn each_seam<'a>(compiled: &'a Compiled, name: &'a str) -> impl Iterator<Item = &'a SewnSeam> {
    let garment: &Garment = &compiled.garment;
    compiled.sizes[0].sewn.seams.iter().filter(move |sewn| *garment.seam(sewn.seam).name == *name)
}

/// What is sewn of a seam on that side of the body, piece by piece: the lengths of both sides of it.
fn lengths(compiled: &Compiled, name: &str, hand: Hand) -> Vec<[f64; 2]> {
    let own = each_seam(compiled, name).filter(|sewn| sewn.reach.hand() == Some(hand));
    let mut all: Vec<[f64; 2]> =
        own.map(|sewn| [&sewn.first, &sewn.second].map(|side| side.plies[0].length.round())).collect();
    all.sort_by(|one, other| one[0].total_cmp(&other[0]));
    all
}

/// How far below the waist the notches of the front's side are that are cut on that side of the body.
fn notches(compiled: &Compiled, hand: Hand) -> Vec<f64> {
    let garment = &compiled.garment;
    let front = compiled.sizes[0].sewn.parts.iter();
    let mut front =
        front.filter(|part| *garment.piece(part.part.piece).name == *"front" && part.hand == Some(hand));
    let mut all: Vec<f64> =
        front.next().expect("the front").notches.iter().map(|notch| (600.0 - notch.at.y).round()).collect();
    all.sort_by(f64::total_cmp);
    all
}

/// 60 less the 20 of the zip is 40 on the left; on the right 4 is left above the pocket and 60 - 20 = 40 below.
#[test]
fn a_zip_on_the_left_and_a_pocket_on_the_right_lie_over_one_another() {
    for text in [SKIRT.to_owned(), halves()] {
        assert_eq!(said(&text), NOTHING);
        let compiled = of(&text);
        assert_eq!(lengths(&compiled, "side", Hand::Left), [[400.0; 2]]);
        assert_eq!(lengths(&compiled, "side", Hand::Right), [[40.0; 2], [400.0; 2]]);
        assert_eq!(lengths(&compiled, "pocket_front", Hand::Right), [[160.0; 2]]);
        let zips: Vec<[f64; 2]> =
            compiled.sizes[0].drawn.zips.iter().flatten().map(|zip| zip.sides).collect();
        assert_eq!(zips.iter().map(|sides| sides.map(f64::round)).collect::<Vec<_>>(), [[200.0; 2]]);
        assert_eq!(notches(&compiled, Hand::Left), [200.0]);
        assert_eq!(notches(&compiled, Hand::Right), [40.0, 200.0]);
    }
}

/// Wherever the two lie: the pocket inside the zip's stretch, across its end, over all of it and more, counted from the
/// other end of the edge, or just below it. What is left on either side is worked out for each by hand.
#[test]
fn the_runs_may_lie_over_one_another_in_any_way() {
    let cases: [(&str, &str, &[f64], &[f64]); 5] = [
        ("5..15 from top_right", "10", &[50.0, 450.0], &[50.0, 150.0]),
        ("10..25 from top_right", "15", &[100.0, 350.0], &[100.0, 250.0]),
        ("2..30 from top_right", "28", &[20.0, 300.0], &[20.0, 300.0]),
        ("20..34 from top_right", "14", &[200.0, 260.0], &[200.0, 340.0]),
        ("25%..50% from top_right", "15", &[150.0, 300.0], &[150.0, 300.0]),
    ];
    for base in [SKIRT.to_owned(), halves()] {
        for (run, mouth, rest, ends) in cases {
            let text = pocket(&base, run, mouth);
            assert_eq!(said(&text), NOTHING, "{run}");
            let compiled = of(&text);
            assert_eq!(lengths(&compiled, "side", Hand::Left), [[400.0; 2]], "{run}");
            let right: Vec<f64> =
                lengths(&compiled, "side", Hand::Right).iter().map(|both| both[0]).collect();
            assert_eq!(right, rest, "{run}");
            assert_eq!(notches(&compiled, Hand::Left), [200.0], "{run}");
            assert_eq!(notches(&compiled, Hand::Right), ends, "{run}");
        }
    }
}

/// Counted up from the hem, 40 to 56 is the same stretch, whose nearer end is the lower one.
#[test]
fn each_run_has_its_own_near_and_far_end() {
    let low = with(
        &SKIRT.replace("4..20 from top_right", "40..56 from bottom_right"),
        &[("front.right.near", "front.right.far"), ("back.right.near", "back.right.far")],
    );
    assert_eq!(said(&low), NOTHING);
    assert_eq!(notches(&of(&low), Hand::Right), [40.0, 200.0]);
    // The lower end of the one bag's mouth at the upper end of the pocket: it would be upside down.
    let swapped = with(&low, &[("front.right.far", "front.right.near")]);
    assert_eq!(said(&swapped), ["seam/twisted"]);
    let swapped = with(SKIRT, &[("with back.right.near", "with back.right.far")]);
    assert_eq!(said(&swapped), ["seam/twisted"]);
}

/// On one side of the body the cloth is there once: 20 less 4 is 16 that both would take.
#[test]
fn runs_of_one_side_may_not_lie_over_one_another() {
    let same = with(SKIRT, &[("20 from top_right on left", "20 from top_right on right")]);
    let told = told(&same);
    assert_eq!(told.iter().map(|(slug, _)| *slug).collect::<Vec<_>>(), ["run/overlap"; 2], "{told:?}");
    assert!(told.iter().all(|(_, title)| title.contains("16 cm")), "{told:?}");
    // A zip of both sides: the way out is to say that it is in one of them.
    let both = with(SKIRT, &[(" on left {", " {")]);
    assert_eq!(said(&both), ["run/overlap"; 2]);
    assert!(
        helps(&both).iter().all(|help| help.contains("write on left after the other one")),
        "{:?}",
        helps(&both)
    );
    // Nothing but the zip takes the left side's stretch: without it that side is sewn all the way.
    let without = with(
        SKIRT,
        &[(
            "closure zip front.right 20 from top_right to back.right 20 from top_right on left { zipper concealed 20 }\n",
            "",
        )],
    );
    assert!(said(&without).iter().all(|slug| *slug == "opening/passes"), "{:?}", said(&without));
    assert_eq!(lengths(&of(&without), "side", Hand::Left), [[600.0; 2]]);
}

/// The pocket of one side is as long as its bag, whatever the zip takes on the other.
#[test]
fn what_does_not_fit_is_told_of_its_own_side() {
    let longer = with(SKIRT, &[("14 by 16", "14 by 17")]);
    let all = told(&longer);
    assert!(
        all.iter().any(|(slug, title)| *slug == "seam/unequal" && title.contains("1 cm longer")),
        "{all:?}"
    );
    let long_zip = with(SKIRT, &[("zipper concealed 20", "zipper concealed 22")]);
    assert_eq!(said(&long_zip), ["zipper/length"]);
    // A pocket in the front's side alone leaves the back's seam nothing to be sewn to there.
    let one = with(
        SKIRT,
        &[("back.right 4..20 from top_right on right", "back.right 2..18 from top_right on right")],
    );
    assert!(said(&one).contains(&"seam/unequal"), "{:?}", told(&one));
}

/// Left and right of a pair differ in nothing but a notch: they are cut by one pattern, on which the notch says whose it is.
#[test]
fn a_notch_of_one_side_is_marked_on_the_pattern_of_both() {
    let compiled = of(SKIRT);
    let cuts = cut_all(&compiled);
    let fronts: Vec<_> = cuts[0]
        .parts
        .iter()
        .filter(|part| *compiled.garment.piece(part.part.piece).name == *"front")
        .collect();
    let [front] = fronts[..] else { panic!("one pattern") };
    assert_eq!((front.label.cut.as_str(), front.copies, front.hand), ("cut 2, one of each hand", 2, None));
    let mut notches: Vec<(f64, Option<Hand>)> =
        front.notches.iter().map(|notch| ((600.0 - notch.snips[0].1.y).round(), notch.hand)).collect();
    notches.sort_by(|one, other| one.0.total_cmp(&other.0));
    assert_eq!(notches, [(40.0, Some(Hand::Right)), (200.0, None)]);
    let group = pieces(&compiled.garment, &cuts, &Look::printing());
    let drawn = draw_group(&compiled.garment, &group[0], &Look::printing(), false).expect("it is drawn");
    let words: Vec<&str> = drawn
        .shapes
        .iter()
        .filter_map(|shape| match &shape.what {
            What::Words(words) => Some(words.text.as_str()),
            _ => None,
        })
        .collect();
    assert!(words.contains(&"right only") && !words.contains(&"left only"), "{words:?}");
    // A hem on one side alone is another cutting line: a pattern each, and their notches are their own.
    let hemmed = with(SKIRT, &[("front.bottom, back.top", "front.bottom on left, back.top")]);
    let hemmed = with(&hemmed, &[("opening ", "finish front.bottom on right hem 3\nopening ")]);
    let compiled = of(&hemmed);
    let fronts: Vec<(Option<Hand>, usize)> = cut_all(&compiled)[0]
        .parts
        .iter()
        .filter(|part| *compiled.garment.piece(part.part.piece).name == *"front")
        .map(|part| (part.hand, part.notches.len()))
        .collect();
    assert_eq!(fronts, [(Some(Hand::Left), 1), (Some(Hand::Right), 2)]);
}
