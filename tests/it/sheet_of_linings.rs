//! What a sheet says of a lining: which of its faces lies inward, what is reached through the gap, and what is pushed in.

use crate::sheet_sentences::read_of;
use crate::workbench::{mistake, with};
use fustian::sheet::Language;

/// A skirt laid flat with a slip behind it, both in a folded band.
const SKIRT: &str = r#"
garment "Mess skirt"
units cm
allowance 1
fabric serge "wool serge" { width 150; kind woven firm }
layer outer in serge { skirt, band }
layer lining in serge { slip }
piece skirt "Skirt" { cut 1; outline rectangle 60 by 50 }
piece slip "Slip" { cut 1; outline rectangle 60 by 48 }
piece band "Band" { cut 1; outline rectangle 60 by 8; folded top to bottom }
seam waist  outer.band.bottom and outer.band.top and lining.slip.top to outer.skirt.top {
  matching outer.band.bottom_left with outer.skirt.top_left
  matching lining.slip.top_left with outer.skirt.top_left
}
finish band.left, band.right  raw
finish skirt.left, skirt.right, skirt.bottom, slip.left, slip.right, slip.bottom  hem 2
"#;

#[test]
fn which_faces_of_a_skirt_and_its_slip_meet_is_said() {
    let faces = |text: &str| {
        let read = read_of(text, Language::English);
        let lines = read.lines().filter(|line| line.contains("faces the wrong side")).map(str::trim);
        lines.map(str::to_owned).collect::<Vec<_>>()
    };
    let said = "In the end the wrong side of (3) Slip faces the wrong side of (1) Skirt: lay them so.";
    assert_eq!(faces(SKIRT), [said]);
    // The same where the slip is named with the skirt.
    let beside = with(
        SKIRT,
        &[(
            "outer.band.top and lining.slip.top to outer.skirt.top",
            "outer.band.top to outer.skirt.top and lining.slip.top",
        )],
    );
    assert_eq!(faces(&beside), [said]);
    let german = read_of(SKIRT, Language::German);
    assert!(
        german.contains("Am Ende liegt die linke Seite von (3) Slip auf der linken Seite von (1) Skirt"),
        "{german}"
    );
    // Without a slip there is nothing to say, and a piece that lies beyond the seam faces nobody's wrong side.
    let alone = with(
        SKIRT,
        &[
            (" and lining.slip.top", ""),
            ("  matching lining.slip.top_left with outer.skirt.top_left\n", ""),
            (", slip.left", ", slip.top, slip.left"),
        ],
    );
    assert_eq!(faces(&alone), Vec::<String>::new());
    let flat = with(
        SKIRT,
        &[
            ("rectangle 60 by 8; folded top to bottom", "rectangle 60 by 8"),
            ("outer.band.bottom and outer.band.top and", "outer.band.bottom and"),
            ("finish band.left", "finish band.top, band.left"),
        ],
    );
    assert_eq!(faces(&flat), Vec::<String>::new());
}

#[test]
fn the_lining_of_a_crown_lies_with_its_wrong_side_to_the_crowns() {
    let text = with(
        SKIRT,
        &[
            ("{ slip }", "{ skirt }"),
            ("piece slip \"Slip\" { cut 1; outline rectangle 60 by 48 }\n", ""),
            (
                "outer.band.top and lining.slip.top to outer.skirt.top",
                "outer.band.top to outer.skirt.top and lining.skirt.top",
            ),
            ("  matching lining.slip.top_left with outer.skirt.top_left\n", ""),
            (", slip.left, slip.right, slip.bottom", ""),
        ],
    );
    let read = read_of(&text, Language::English);
    let said = "In the end the wrong side of (1) Skirt (lining) faces the wrong side of (1) Skirt (outer): lay them so.";
    assert!(read.contains(said), "{read}");
}

/// A muff, a tube in a lining, joined to it at one end and then at the other.
const MUFF: &str = r#"
garment "Lookout's muff"
units cm
allowance 1
fabric loden "loden" { width 140; kind woven firm }
layer outer in loden { tube }
layer lining in loden { inner }
piece tube "Muff" { cut 1; outline rectangle 40 by 30 }
piece inner "Muff lining" { cut 1; outline rectangle 40 by 30 }
seam round    tube.left to tube.right
seam round_in inner.left to inner.right { leaving gap 14 in lining }
seam near     outer.tube.bottom to lining.inner.bottom { matching outer.tube.bottom_left with lining.inner.bottom_right }
seam far      outer.tube.top to lining.inner.top { matching outer.tube.top_left with lining.inner.top_right }
steps {
  "Tubes" { sew round, round_in }
  "Join"  { sew near; sew far }
  "Turn"  { turn through gap in round_in; slipstitch gap in round_in }
}
"#;

#[test]
fn a_ring_is_reached_through_the_gap_only_where_both_layers_hang_together() {
    let read = read_of(MUFF, Language::English);
    let reached = "It closes a ring between two layers: sew one at a time, and reach it through the gap.";
    assert_eq!(read.matches(reached).count(), 1, "{read}");
    let step = read.split("Sew the far seam").nth(1).unwrap_or_default();
    assert!(step.contains(reached), "{read}");
    assert!(read.contains("Then push all that is in lining inside, wrong sides together."), "{read}");
    // What is turned through a gap in the outer layer has nothing to push in.
    let outside = with(
        MUFF,
        &[
            (" { leaving gap 14 in lining }", ""),
            ("tube.left to tube.right", "tube.left to tube.right { leaving gap 14 in outer }"),
            ("gap in round_in; slipstitch gap in round_in", "gap in round; slipstitch gap in round"),
        ],
    );
    let read = read_of(&outside, Language::English);
    assert!(read.contains("Slipstitch the gap") && !read.contains("Then push"), "{read}");
}

/// A palm with a slit for the thumb, into which a gore is sewn.
const PALM: &str = r#"
garment "Lookout's mitten"
units cm
allowance 1
fabric loden "loden" { width 140; kind woven firm }
layer outer in loden { palm, gore }
piece palm "Palm" {
  cut 1
  outline rectangle 20 by 30
  slit thumb from (10, 5) to (10, 15)
}
piece gore "Gore" {
  cut 1
  point tip = (0, 0)
  point right_end = (4, 10)
  point left_end = (-4, 10)
  outline from tip {
    right_side to right_end
    top        to left_end
    left_side  to tip
  }
}
tolerance 10mm
seam one    gore.left_side to palm.thumb.near { matching gore.tip with palm.thumb.start }
seam other  gore.right_side to palm.thumb.far { matching gore.tip with palm.thumb.start }
finish gore.top  raw
finish palm.left, palm.right, palm.top, palm.bottom  hem 2
steps { "Thumb" { sew one; sew other }; "Edges" { finish gore.top; hem palm.left, palm.right, palm.top, palm.bottom } }
"#;

#[test]
fn a_slit_without_a_window_has_no_corners_to_cut_into() {
    let read = read_of(PALM, Language::English);
    let step = |of: &str| {
        read.split(of).nth(1).unwrap_or_default().split("\n1").next().unwrap_or_default().to_owned()
    };
    assert_eq!(read.matches("First cut the thumb slit of (1) Palm open.").count(), 1, "{read}");
    assert!(!read.contains("corners") && !read.contains("0 mm"), "{read}");
    for seam in ["Sew the one seam", "Sew the other seam"] {
        let said = "There is no allowance at the cut edge of (1) Palm: stitch close beside it.";
        assert!(step(seam).contains(said), "{read}");
        assert!(step(seam).contains("allowance: (2) Gore"), "{read}");
    }
    // A window has corners, and is cut open once both sides are sewn.
    let window = with(
        PALM,
        &[
            ("to (10, 15)", "to (10, 15) window 2"),
            (
                "palm.thumb.near { matching gore.tip with palm.thumb.start }",
                "palm.thumb.near { matching gore.tip with palm.thumb.start_near }",
            ),
            (
                "palm.thumb.far { matching gore.tip with palm.thumb.start }",
                "palm.thumb.far { matching gore.tip with palm.thumb.start_far }",
            ),
            ("finish gore.top  raw", "finish gore.top, palm.thumb.start, palm.thumb.end  raw"),
            ("finish gore.top;", "finish gore.top, palm.thumb.start, palm.thumb.end;"),
        ],
    );
    let read = read_of(&window, Language::English);
    assert!(read.contains("open between its stitching, and slantwise into its corners."), "{read}");
    assert!(!read.contains("First cut") && !read.contains("no allowance"), "{read}");
}

/// Fronts are drawn through the shoulders before the sides of shell and lining are sewn; where the armholes are sewn last, through the
/// gap, nothing is.
#[test]
fn what_hangs_at_one_end_of_a_strap_is_drawn_through_it() {
    let vest = mistake("turn-strap");
    let from = vest.find("steps {").expect("steps");
    let last = format!(
        "{}steps {{ \"Shoulders\" {{ sew shoulder }}; \"Bag out\" {{ sew neck, arm_front, arm_back, hem_front, hem_back }}; \
         \"Sides\" {{ sew side; turn through gap in side; slipstitch gap in side }} }}\n",
        &vest[..from]
    );
    let told = |text: &str, language| {
        let read = read_of(text, language);
        read.lines().filter(|line| line.contains("First turn what") || line.contains("Schlauch")).count()
    };
    let read = read_of(&last, Language::English);
    let (drawn, sides) = (read.find("draw it through the tube between the"), read.find("Sew the side seams"));
    assert!(drawn.is_some() && drawn < sides, "{read}");
    assert_eq!(told(&last, Language::English), 1);
    assert_eq!(told(&last, Language::German), 1);
    let pulled = last.replace("sew neck, arm_front, arm_back, hem", "sew neck, hem").replace(
        "\"Sides\" { sew side; turn through gap in side;",
        "\"Sides\" { sew side; turn through gap in side; sew arm_front, arm_back; turn through gap in side;",
    );
    assert_eq!(told(&pulled, Language::English), 0);
}
