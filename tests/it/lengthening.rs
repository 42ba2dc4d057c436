//! A piece is cut along a line and lengthened or shortened. All figures by hand, in centimetres.

use crate::drafting::{draft, draft_in, same, same_place};

/// A front 24 wide at the underarm and 28 at the hem, 42 from underarm to hem, its side aslant or
/// as given.
fn front(side: &str, rest: &str) -> String {
    format!(
        r#"block piece front "Front" {{
  cut 1 on fold centre
  point neck_cf = (0, -8)
  point neck_side = (8, 0)
  point underarm = (24, -20)
  point hem_side = (28, -62)
  point hem_cf = (0, -62)
  outline from hem_cf {{
    centre to neck_cf
    neckline to neck_side
    shoulder to underarm
    {side}
    hem to hem_cf
  }}
  line waist across at (0, -38)
  mark pocket_corner = (4, -58)
  mark badge = (4, -30)
  notch side 10 from hem_side
}}
{rest}"#
    )
}

#[test]
fn what_is_beyond_the_line_moves_and_the_rest_stays() {
    let drafted = draft(&front("side to hem_side", "lengthen front at waist by 16")).drawn_soundly();
    same_place(drafted.point("front", "hem_side"), (280.0, -780.0));
    same_place(drafted.point("front", "hem_cf"), (0.0, -780.0));
    same_place(drafted.point("front", "pocket_corner"), (40.0, -740.0));
    same_place(drafted.point("front", "badge"), (40.0, -300.0));
    same_place(drafted.point("front", "underarm"), (240.0, -200.0));
    same(drafted.length("front", "centre"), 540.0 + 160.0);
    same(drafted.length("front", "hem"), 280.0);
    assert_eq!(drafted.amounts(0), [Some(160.0)]);
}

#[test]
fn a_slanted_straight_side_is_redrawn_straight() {
    let drafted = draft(&front("side to hem_side", "lengthen front at waist by 16")).drawn_soundly();
    // From (24, -20) to (28, -78): not 16 longer, but the new slant.
    same(drafted.length("front", "side"), 10.0 * (4.0_f64.powi(2) + 58.0_f64.powi(2)).sqrt());
    // The waist line still reaches from edge to edge: at -38 the new side is at 24 + 4 · 18/58.
    let (start, end) = drafted.line("front", "waist");
    same(start.x.min(end.x), 0.0);
    same(start.x.max(end.x), 240.0 + 40.0 * 18.0 / 58.0);
}

#[test]
fn a_curved_side_keeps_its_shape_on_both_sides() {
    // An arc about (46, -40) from (26, -20) to (26, -60), whose tangent at -40 is upright: to open
    // it there puts a straight stretch of 16 into it. Its length is a quarter of 2π · 20√2.
    let piece = r#"block piece panel {
  cut 2 mirrored
  point top = (26, -20)
  point low = (26, -60)
  outline from low {
    hem to hem_cf
    centre to top_cf
    upper to top
    side to low arc about (46, -40) anticlockwise
  }
  point hem_cf = (0, -60)
  point top_cf = (0, -20)
  line waist across at (0, -40)
}
lengthen panel at waist by 16"#;
    let drafted = draft(piece).drawn_soundly();
    let quarter = 0.5 * std::f64::consts::PI * 200.0 * 2.0_f64.sqrt();
    same(drafted.length("panel", "side"), quarter + 160.0);
    same(drafted.area("panel"), {
        // The rectangle less the segment of the circle (r²/2 · (π/2 − 1)), and 16 more of the
        // width at the waist: 46 − 20√2.
        let r2 = 2.0 * 200.0 * 200.0;
        260.0 * 400.0 - r2 / 2.0 * (std::f64::consts::FRAC_PI_2 - 1.0) + 160.0 * (460.0 - r2.sqrt())
    });
    let side = drafted
        .piece("panel")
        .edges
        .iter()
        .find(|edge| edge.touched.len() == 1 && edge.path.segments().len() > 1);
    assert!(side.is_some_and(|side| side.path.is_smooth(1e-3)));
}

#[test]
fn a_mark_that_is_kept_stays_where_the_hands_want_it() {
    let drafted =
        draft(&front("side to hem_side", "lengthen front at waist by 16 keeping front.pocket_corner"))
            .drawn_soundly();
    same_place(drafted.point("front", "pocket_corner"), (40.0, -580.0));
    same_place(drafted.point("front", "hem_cf"), (0.0, -780.0));
}

#[test]
fn a_corner_cannot_be_kept() {
    let drafted = draft(&front("side to hem_side", "lengthen front at waist by 16 keeping front.hem_side"));
    assert_eq!(drafted.told("alter/keeps-corner").len(), 1);
}

#[test]
fn a_notch_goes_with_its_paper() {
    let drafted = draft(&front("side to hem_side", "lengthen front at waist by 16")).drawn_soundly();
    let notch = drafted.piece("front").notches[0];
    // 10 up from the hem along the old slant (4, 42); moved 16 down with the paper, then to the
    // nearest place on the new side.
    let old = 42.190_046_219_457_97; // √(4² + 42²)
    let (x, y) = (28.0 - 10.0 * 4.0 / old, -62.0 + 10.0 * 42.0 / old - 16.0);
    let new = 58.137_767_414_994_53; // √(4² + 58²)
    let along = ((x - 24.0) * 4.0 + (y + 20.0) * -58.0) / new;
    same(notch.along, 10.0 * along);
}

#[test]
fn shortening_takes_the_same_out() {
    let drafted = draft(&front("side to hem_side", "shorten front at waist by 6")).drawn_soundly();
    same_place(drafted.point("front", "hem_side"), (280.0, -560.0));
    same(drafted.length("front", "centre"), 480.0);
}

#[test]
fn more_than_there_is_cannot_be_taken_out() {
    let drafted = draft(&front("side to hem_side", "shorten front at waist by 25"));
    let told = drafted.told("alter/too-much");
    assert_eq!(told.len(), 1);
    // From the waist at -38 to the hem at -62.
    assert!(told[0].contains("24 cm") && told[0].contains("25 cm"), "{}", told[0]);
    assert!(drafted.is_missing("front"));
}

#[test]
fn every_size_by_its_own_amount() {
    let text =
        front("side to hem_side", "sizes S, M, L\nlet more = each 2, 4, 6\nlengthen front at waist by more");
    let drafted = draft(&text).drawn_soundly();
    for (size, more) in [(0, 20.0), (1, 40.0), (2, 60.0)] {
        same(drafted.length_in(size, "front", "centre"), 540.0 + more);
    }
}

#[test]
fn a_line_along_the_grain_is_no_line_to_lengthen_at() {
    let text = front("side to hem_side", "lengthen front at slash by 2")
        .replace("line waist across at (0, -38)", "line slash along at (10, -38)");
    let drafted = draft(&text);
    assert_eq!(drafted.told("alter/along-grain").len(), 1);
}

#[test]
fn less_than_nothing_is_the_opposite() {
    let drafted = draft(&front("side to hem_side", "lengthen front at waist by 2 - 5"));
    assert_eq!(drafted.told("alter/negative"), ["this is to lengthen by -3 cm, which is below 0"]);
}

#[test]
fn one_layer_alone() {
    let text = front("side to hem_side", "fabric shell { width 150 }\nlayer outer in shell { front }\nlayer lining in shell { front }\nshorten lining.front at waist by 1")
        .replace("block piece", "piece");
    let drafted = draft(&text).drawn_soundly();
    same(drafted.length("front", "centre"), 540.0);
    same(drafted.length("lining.front", "centre"), 530.0);
}

#[test]
fn a_line_that_was_cut_off_is_there_no_more() {
    let text = front("side to hem_side", "cut off front at waist\nlengthen front at low by 2")
        .replace("line waist", "line low across at (0, -50)\n  line waist");
    let told = draft(&text).told("alter/no-line");
    assert_eq!(told, ["Front has no line low here"]);
}

#[test]
fn inches_too() {
    let text = front("side to hem_side", "lengthen front at waist by 6 1/2");
    let drafted = draft_in("in", &text).drawn_soundly();
    same(drafted.length("front", "centre"), (54.0 + 6.5) * 25.4);
}

/// A leg with a fly that is grown on: its edge runs straight on above where the line for the buttons ends, and at the lower
/// end the side's curve runs nearly along it. The line begins and ends on the outline.
const FLY: &str = r#"block piece leg "Leg" {
  cut 2 mirrored
  point low_in = (0, -80)
  point low_out = (23, -80)
  point hip = (25, 8)
  point fly_low = (25, 11)
  point fly_out = (27, 11)
  point top_out = (27, 26)
  point top_in = (0, 26)
  outline from low_in {
    hem to low_out
    side to fly_low curve arriving up through hip
    fly_end to fly_out
    fly_edge to top_out
    waist to top_in
    inside to low_in
  }
  line button_line from fly_low to (25, 26)
  line knee across at (0, -40)
}
"#;

/// The knee lies 51 cm below the line, which moves as it is: from 11 to 26 it is 15 long.
#[test]
fn a_line_that_could_run_on_along_an_edge_keeps_its_length() {
    for altered in ["", "lengthen leg at knee by 4", "shorten leg at knee by 3"] {
        let drafted = draft(&format!("{FLY}{altered}")).drawn_soundly();
        let (start, end) = drafted.line("leg", "button_line");
        same_place(start, (250.0, 110.0));
        same_place(end, (250.0, 260.0));
    }
}

/// Beyond the lower edge there is nothing to move. An edge beyond which the piece goes on, as its upper one or the shelf of
/// an L, is a line like any other.
#[test]
fn at_an_edge_nothing_is_lengthened() {
    let band = "block piece band \"Band\" {\n  cut 1\n  outline rectangle 22 by 8\n}\n";
    for way in ["lengthen band at bottom by 1", "shorten band at bottom by 1"] {
        let told = draft(&format!("{band}{way}")).told("alter/no-line");
        assert_eq!(told.len(), 1, "{way}: {told:?}");
    }
    let corner = r#"block piece corner "Corner" {
  cut 1
  point a = (0, 0)
  point b = (20, 0)
  point c = (20, 30)
  point d = (10, 30)
  point e = (10, 20)
  point f = (0, 20)
  outline from a {
    bottom to b
    right to c
    tip to d
    step to e
    shelf to f
    left to a
  }
}
"#;
    let drafted = draft(&format!("{band}shorten band at top by 1")).drawn_soundly();
    same(drafted.length("band", "left"), 80.0 - 10.0);
    // What lies below the shelf moves down by 5: both sides are longer by as much.
    let drafted = draft(&format!("{corner}lengthen corner at shelf by 5")).drawn_soundly();
    same(drafted.length("corner", "right"), 300.0 + 50.0);
    same(drafted.length("corner", "left"), 200.0 + 50.0);
}

/// A hem that bows by 8 cm is no line to cut at.
#[test]
fn at_an_edge_that_bends_nothing_is_cut() {
    let apron = r#"block piece apron "Apron" {
  cut 1
  point a = (0, 0)
  point b = (70, 0)
  point low = (35, -8)
  point c = (70, 80)
  point d = (0, 80)
  outline from a {
    hem to b curve through low
    right to c
    top to d
    left to a
  }
}
lengthen apron at hem by 4"#;
    assert_eq!(draft(apron).told("line/curved").len(), 1);
}
