//! What is measured on pieces, how many are cut, and where a pocket comes to lie. By hand, in
//! centimetres.

use crate::drafting::{draft, same, same_place};
use fustian::garment::CutHow;

/// A half front on the fold, a band that is folded, and sleeves in pairs.
const SMOCK: &str = r#"fabric shell { width 150 }
fabric fleece { width 150 }
layer outer in shell { front, band, sleeve, flap, pocket }
layer lining in fleece { front, flap, pocket }
piece front "Front" {
  cut 1 on fold centre
  point low_cf = (0, 0)
  point top_cf = (0, 60)
  point top_side = (20, 60)
  point low_side = (25, 0)
  outline from low_cf { centre to top_cf; upper to top_side; side to low_side; hem to low_cf }
  line chest_line across at (0, 36)
  mark left_corner = (6, 10)
  mark right_corner = (14, 16)
}
piece band "Band" { cut 1; outline rectangle 85% * total(outer.front.hem) by 12; folded top to bottom }
piece sleeve "Sleeve" { cut 2 mirrored; outline rectangle 30 by 50 }
piece flap "Flap" {
  cut 1
  point a = (0, 0)
  point b = (0, 10)
  point c = (8, 10)
  point d = (12, 0)
  outline from a { left to b; upper to c; right to d; low to a }
}
piece pocket "Pocket" { cut 1; outline rectangle 10 by 12 }
"#;

fn with(rest: &str) -> crate::drafting::Drafted {
    draft(&format!("{SMOCK}{rest}"))
}

#[test]
fn a_half_on_the_fold_is_counted_twice() {
    let drafted = with(
        "let hem = total(front.hem)\nlet chest = total(front.chest_line)\nlet cuffs = total(sleeve.bottom)\n\
         let wide = width(front)\nlet high = height(front)\nlet slant = distance(front.top_side, front.low_side)",
    )
    .drawn_soundly();
    let value = |name: &str| drafted.value(0, name).unwrap_or_default();
    same(value("hem"), 500.0);
    // At 36 of 60 the side is at 25 − 5 · 36/60 = 22.
    same(value("chest"), 440.0);
    same(value("cuffs"), 600.0);
    same(value("wide"), 500.0);
    same(value("high"), 600.0);
    same(value("slant"), 10.0 * (25.0_f64 + 3600.0).sqrt());
    same(drafted.length("band", "bottom"), 0.85 * 500.0);
}

#[test]
fn what_runs_from_fold_to_fold_is_half_as_long_when_finished() {
    let drafted = with("let end = finished(band.left)\nlet edge = finished(band.top)").drawn_soundly();
    same(drafted.value(0, "end").unwrap_or_default(), 60.0);
    same(drafted.value(0, "edge").unwrap_or_default(), 425.0);
}

#[test]
fn the_cut_list_says_what_is_turned_over() {
    let drafted = with("").drawn_soundly();
    let rows = &drafted.size(0).cut_list;
    assert_eq!(rows.len(), 8);
    let flipped: Vec<bool> = rows.iter().map(|row| row.flipped).collect();
    // Only the lining's flap: a front is whole once unfolded, a pocket is symmetrical.
    assert_eq!(flipped, [false, false, false, false, false, false, true, false]);
    assert_eq!((rows[2].copies, rows[2].how), (2, CutHow::Mirrored));
    assert!(matches!(rows[0].how, CutHow::OnFold(_)));
}

#[test]
fn pairs_of_an_odd_number() {
    let told = draft(&SMOCK.replace("cut 2 mirrored", "cut 3 mirrored")).told("pair/odd");
    assert_eq!(told, ["Sleeve is cut in pairs, but 3 copies are not a whole number of pairs"]);
}

#[test]
fn a_pocket_lies_at_its_mark() {
    let drafted =
        with("place pocket on front { corner bottom_left at left_corner; topstitch left, right, bottom }");
    let placed = drafted.size(0).placed[0].as_ref();
    let edges = placed.map(|placed| &placed.edges).filter(|edges| edges.len() == 4);
    let bottom = edges.and_then(|edges| edges.first()).map(|(_, path)| (path.start(), path.end()));
    let (start, end) = bottom.unwrap_or_default();
    same_place(start, (60.0, 100.0));
    same_place(end, (160.0, 100.0));
}

#[test]
fn a_pocket_turned_to_its_second_mark() {
    // The marks are (8, 6) apart, which is 10, as wide as the pocket.
    let drafted = with(
        "place pocket on front { corner bottom_left at left_corner; corner bottom_right at right_corner; \
         topstitch left, right, bottom }",
    );
    let placed = drafted.size(0).placed[0].as_ref();
    let right = placed.and_then(|placed| placed.edges.get(1)).map(|(_, path)| (path.start(), path.end()));
    let (start, end) = right.unwrap_or_default();
    same_place(start, (140.0, 160.0));
    // 12 up from there, turned by the same angle: (−6, 8) / 10 · 12.
    same_place(end, (140.0 - 72.0, 160.0 + 96.0));
}

#[test]
fn marks_that_are_too_far_apart_for_the_pocket() {
    let text = SMOCK.replace("(14, 16)", "(16, 16)");
    let drafted = draft(&format!(
        "{text}place pocket on front {{ corner bottom_left at left_corner; corner bottom_right at right_corner; \
         topstitch left, right, bottom }}"
    ));
    assert_eq!(drafted.told("place/corners-apart").len(), 1);
    assert!(drafted.size(0).placed[0].is_none());
}

#[test]
fn a_layers_own_half_of_a_split_piece() {
    let text = SMOCK.replace(
        "line chest_line across at (0, 36)",
        "line chest_line across at (0, 36)\n  line knee across at (0, 20)",
    );
    let drafted = draft(&format!(
        "{text}split front at chest_line into yoke, skirt\nshorten lining.skirt at knee by 2"
    ))
    .drawn_soundly();
    same(drafted.length("skirt", "centre"), 360.0);
    same(drafted.length("lining.skirt", "centre"), 340.0);
    same(drafted.length("yoke", "centre"), 240.0);
}
