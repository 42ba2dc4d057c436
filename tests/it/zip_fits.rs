//! A front is lengthened until its zip fits. The zip runs from the top of the neck edge to the end
//! of the band: its length is the centre's and half the band's, which is folded.

use crate::drafting::{Drafted, draft, draft_in, same};

/// A front whose centre is 21, a band of 5 folded to 2½, and a zip.
fn jacket(zip: &str, alteration: &str) -> String {
    format!(
        r#"fabric shell {{ width 60in }}
layer outer in shell {{ front, back, band }}
piece front {{
  cut 2 mirrored
  outline rectangle 11 by 21
  line waist across at (0, 8)
}}
piece back {{
  cut 1
  outline rectangle 22 by 21
  line waist across at (0, 8)
}}
piece band {{
  cut 1
  outline rectangle 44 by 5
  folded top to bottom
}}
closure front_zip  band.left + front.left to band.right + front.left {{ zipper separating {zip} }}
{alteration}"#
    )
}

fn zip(drafted: &Drafted) -> fustian::resolve::ZipFit {
    drafted.size(0).zips[0].unwrap_or_else(|| panic!("no zip: {:?}", drafted.slugs()))
}

#[test]
fn thirty_inches_less_the_band_less_the_front() {
    // 30 − 2½ − 21 = 6½ in, on paper.
    let drafted =
        draft_in("in", &jacket("30", "lengthen front, back at waist until front_zip fits")).is_drawn();
    same(drafted.amounts(0)[0].unwrap_or_default(), 6.5 * 25.4);
    same(drafted.length("front", "left"), 27.5 * 25.4);
    same(drafted.length("back", "right"), 27.5 * 25.4);
    let zip = zip(&drafted);
    same(zip.sides[0], 762.0);
    same(zip.sides[1], 762.0);
    same(zip.zip, 762.0);
    assert!(zip.solved_by.is_some());
}

#[test]
fn the_same_in_centimetres() {
    // 65 − 2.5 − 21 = 41.5.
    let drafted = draft(&jacket("65", "lengthen front, back at waist until front_zip fits")).is_drawn();
    same(drafted.amounts(0)[0].unwrap_or_default(), 415.0);
}

#[test]
fn what_shows_of_the_zip_is_no_matter_of_length() {
    let drafted =
        draft_in("in", &jacket("30 showing 1", "lengthen front, back at waist until front_zip fits"))
            .is_drawn();
    same(drafted.amounts(0)[0].unwrap_or_default(), 6.5 * 25.4);
    // Half of what shows is off the front's edge: 11 − ½.
    same(drafted.length("front", "bottom"), 10.5 * 25.4);
}

#[test]
fn from_stock_the_shortest_that_is_not_shorter() {
    // The opening is 23½; of 22, 24, 26 the next is 24, half an inch more.
    let drafted =
        draft_in("in", &jacket("stocked 22, 24, 26", "lengthen front, back at waist until front_zip fits"))
            .is_drawn();
    same(zip(&drafted).zip, 24.0 * 25.4);
    same(drafted.amounts(0)[0].unwrap_or_default(), 0.5 * 25.4);
}

#[test]
fn from_stock_the_nearest_to_what_the_maker_has_in_mind() {
    // 23½ and about 3 is 26½: 26 is nearer than 28, and takes 2½.
    let text =
        jacket("stocked 22, 24, 26, 28", "lengthen front, back at waist by about 3 until front_zip fits");
    let drafted = draft_in("in", &text).is_drawn();
    same(zip(&drafted).zip, 26.0 * 25.4);
    same(drafted.amounts(0)[0].unwrap_or_default(), 2.5 * 25.4);
}

#[test]
fn shortened_until_it_fits() {
    // 23½ to 20: 3½ to take out.
    let drafted =
        draft_in("in", &jacket("20", "shorten front, back at waist until front_zip fits")).is_drawn();
    same(drafted.amounts(0)[0].unwrap_or_default(), 3.5 * 25.4);
    same(drafted.length("front", "left"), 17.5 * 25.4);
}

#[test]
fn a_zip_that_is_too_short_already() {
    let drafted = draft_in("in", &jacket("20", "lengthen front, back at waist until front_zip fits"));
    let told = drafted.told("zipper/length");
    assert!(told.iter().any(|title| title.contains("3 1/2 in shorter")), "{told:?}");
    assert_eq!(drafted.amounts(0)[0], None);
}

#[test]
fn nothing_in_stock_that_is_long_enough() {
    let drafted =
        draft_in("in", &jacket("stocked 18, 20", "lengthen front, back at waist until front_zip fits"));
    assert_eq!(drafted.told("zipper/stock").len(), 1);
}

#[test]
fn to_lengthen_what_the_zip_is_not_on_changes_nothing() {
    let drafted = draft_in("in", &jacket("30", "lengthen back at waist until front_zip fits"));
    assert_eq!(drafted.told("solve/none").len(), 1);
}

#[test]
fn a_slanted_edge_takes_more_than_the_difference() {
    // A centre from (0, 0) to (3, 21) drawn straight; lengthened by a it goes from (0, -a):
    // √(3² + (21 + a)²) = 27½, so a = √(27½² − 3²) − 21.
    let text = jacket("30", "lengthen front, back at waist until front_zip fits").replace(
        "  outline rectangle 11 by 21\n",
        "  point low = (0, 0)\n  point top = (3, 21)\n  point top_side = (14, 21)\n  point low_side = (14, 0)\n  outline from low {\n    left to top\n    upper to top_side\n    side to low_side\n    bottom to low\n  }\n",
    );
    let drafted = draft_in("in", &text).is_drawn();
    same(drafted.amounts(0)[0].unwrap_or_default(), 25.4 * ((27.5_f64.powi(2) - 9.0).sqrt() - 21.0));
}
