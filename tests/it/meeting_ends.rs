//! Ends and edges that do not meet as they are meant, each beside a sound neighbour, and the way out that is told.

use crate::workbench::{helps, said, told, with};

/// A pilot's cape: half a hood's neck of 24 on a front's of 10 and a back's of 14.
const CAPE: &str = "garment \"Pilot's cape\"
units cm
allowance 1
fabric wool \"boiled wool\" { width 150; kind woven firm }
layer outer in wool { front, back, hood }
piece front \"Front\" {
  cut 2 mirrored
  point hem_cf = (0, 0)
  point hem_side = (40, 0)
  point neck_side = (10, 60)
  point neck_cf = (0, 60)
  outline from hem_cf { hem to hem_side; side to neck_side; neckline to neck_cf; edge to hem_cf }
}
piece back \"Back\" {
  cut 1 on fold centre
  point hem_cb = (0, 0)
  point hem_side = (44, 0)
  point neck_side = (14, 60)
  point neck_cb = (0, 60)
  outline from hem_cb { hem to hem_side; side to neck_side; neckline to neck_cb; centre to hem_cb }
}
piece hood \"Hood\" {
  cut 2 mirrored
  point neck_front = (0, 0)
  point neck_back = (24, 0)
  point crown_back = (24, 30)
  point crown_front = (0, 30)
  outline from neck_front { neck to neck_back; rear to crown_back; crown to crown_front; face to neck_front }
}
seam side front.side to back.side
seam crown hood.rear + hood.crown to hood.rear + hood.crown
seam neck hood.neck to front.neckline + back.neckline { matching hood.neck_front with front.neck_cf }
finish front.edge, front.hem, back.hem, hood.face hem 2
";

#[test]
fn an_end_is_matched_with_an_end() {
    assert!(!said(CAPE).contains(&"seam/matching"), "{:?}", told(CAPE));
    let inside = with(CAPE, &[("with front.neck_cf", "with front.neck_side")]);
    let slugs = said(&inside);
    assert!(slugs.contains(&"seam/matching") && !slugs.contains(&"seam/ends"), "{slugs:?}");
    let help = helps(&inside).join(" ");
    assert!(help.contains("front.neck_cf or back.neck_cb"), "{help}");
}

/// Without its fold the back is half as wide: 14 of the neck for 28, one side for two.
#[test]
fn a_fold_that_is_left_out_comes_first() {
    let open = with(CAPE, &[("cut 1 on fold centre", "cut 1")]);
    let help = helps(&open).join(" ");
    assert!(help.contains("cut 1 on fold centre in piece back; or with twice"), "{help}");
    // With its centre finished it is no half.
    let finished = with(&open, &[("front.edge, front.hem", "back.centre, front.edge, front.hem")]);
    let help = helps(&finished).join(" ");
    assert!(!help.contains("on fold") && help.contains("with twice as many of back"), "{help}");
}

/// A stripe of 15, half of 30, on the back 20 above its hem.
#[test]
fn the_fold_of_what_is_placed_lies_on_a_fold() {
    let stripe = |cut: &str, corner: &str| {
        with(
            CAPE,
            &[
                ("front, back, hood }", "front, back, hood, stripe }"),
                ("  outline from hem_cb", "  mark stripe_top = (0, 25)\n  outline from hem_cb"),
                (
                    "seam side",
                    &format!(
                        "piece stripe \"Stripe\" {{ {cut}; outline rectangle 15 by 5 }}\nplace stripe on back {{ corner {corner} at stripe_top; topstitch all round }}\nseam side"
                    ),
                ),
            ],
        )
    };
    let right = stripe("cut 1 on fold left", "top_left");
    assert!(!said(&right).contains(&"place/count"), "{:?}", told(&right));
    for (cut, corner, written) in [
        ("cut 1 on fold left", "top_right", "cut 1 on fold right"),
        ("cut 1 on fold right", "top_left", "cut 1 on fold left"),
    ] {
        let wrong = stripe(cut, corner);
        assert!(said(&wrong).contains(&"place/count"), "{:?}", told(&wrong));
        let help = helps(&wrong).join(" ");
        assert!(help.contains("its fold has to lie on the fold of Back") && help.contains(written), "{help}");
    }
    // What lies wholly beside the middle is a motif on either side.
    let beside = with(&right, &[("stripe_top = (0, 25)", "stripe_top = (3, 25)")]);
    assert!(helps(&beside).join(" ").contains("cut 2 on fold left"), "{:?}", helps(&beside));
}

/// A leg of 20 round its half waist, closed on the hips; a band of two plies lies with its fold at the front seat.
const LEGS: &str = "garment \"Mate's overalls\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { front, back, front_band, back_band }
layer inside in drill { front_band, back_band }
piece front \"Front leg\" {
  cut 2 mirrored
  point hem_i = (0, 0)
  point hem_s = (20, 0)
  point low = (20, 50)
  point waist_s = (20, 70)
  point waist_c = (0, 70)
  point crotch = (0, 45)
  outline from hem_i { hem to hem_s; side to low; hip to waist_s; waist to waist_c; centre to crotch; inseam to hem_i }
  line button_line along at (18, 0)
}
piece back \"Back leg\" like front { }
piece front_band \"Front band\" {
  cut 1 on fold left
  outline rectangle 20 by 5
  line button_line along at (18, 0)
}
piece back_band \"Back band\" like front_band { }
seam inseam front.inseam to back.inseam
seam front_seat front.centre to front.centre
seam back_seat back.centre to back.centre
seam side front.side to back.side
seam front_waist outer.front_band.bottom and inside.front_band.bottom to front.waist {
  matching outer.front_band.bottom_left with front.waist_c
}
seam back_waist outer.back_band.bottom and inside.back_band.bottom to back.waist {
  matching outer.back_band.bottom_left with back.waist_c
}
seam front_top outer.front_band.top to inside.front_band.top
seam back_top outer.back_band.top to inside.back_band.top
seam front_ends outer.front_band.right to inside.front_band.right
seam back_ends outer.back_band.right to inside.back_band.right
finish front.hip, back.hip hem 1
finish front.hem, back.hem hem 3
closure hips outer.front_band.button_line + front.button_line to outer.back_band.button_line + back.button_line {
  buttons 4 of 15mm from 1.5 below top_right to 4 above low
}
";

#[test]
fn a_band_of_two_plies_opens_where_the_legs_do() {
    let sound = said(LEGS);
    assert!(!sound.contains(&"seam/back-to-front") && !sound.contains(&"closure/jumps"), "{:?}", told(LEGS));
    let turned = with(
        LEGS,
        &[("front_band.bottom_left with front.waist_c", "front_band.bottom_left with front.waist_s")],
    );
    let slugs = said(&turned);
    // The fold of the band would lie on both sides of the body: it is refused, of two plies as of one.
    assert!(slugs.contains(&"seam/matching"), "{:?}", told(&turned));
    // The lines of the buttons, which lie 2 from the open ends, do not meet then either.
    assert!(slugs.contains(&"closure/jumps"), "{:?}", told(&turned));
}

/// The lines of band and leg both lie 18 from the middle: they meet. The front leg's does not go on from the back band.
#[test]
fn lines_of_a_closure_run_on() {
    let other = with(
        LEGS,
        &[("back_band.button_line + back.button_line", "back_band.button_line + front.button_line")],
    );
    let slugs = said(&other);
    assert!(slugs.contains(&"closure/jumps"), "{:?}", told(&other));
    // 4 further in the rows are jagged; 5 mm are within what is sewn.
    let moved = |at: &str| {
        with(
            LEGS,
            &[(
                "inseam to hem_i }\n  line button_line along at (18, 0)",
                &format!("inseam to hem_i }}\n  line button_line along at ({at}, 0)"),
            )],
        )
    };
    assert!(said(&moved("14")).contains(&"closure/jumps"), "{:?}", told(&moved("14")));
    assert!(!said(&moved("17.5")).contains(&"closure/jumps"), "{:?}", told(&moved("17.5")));
}

/// A side pocket of 15 in the side seam of a front and a back of 40.
const POCKET: &str = "garment \"Deckhand's trousers\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { front, back, bag }
piece front \"Front\" { cut 2 mirrored; outline rectangle 25 by 40 }
piece back \"Back\" {
  cut 2 mirrored
  point low_in = (25, 0)
  point bottom_right = (0, 0)
  point top_right = (0, 40)
  point high_in = (25, 40)
  outline from bottom_right { hem to low_in; inside to high_in; waist to top_right; side to bottom_right }
}
piece bag \"Pocket bag\" {
  cut 4 mirrored
  point high = (0, 15)
  point low = (0, 0)
  point out_low = (12, -6)
  point out_high = (12, 18)
  outline from low { under to out_low; round to out_high; upper to high; mouth to low }
}
";

#[test]
fn the_bag_that_hangs_upside_down_is_blamed() {
    // The bags of front and back are two pieces, drawn with what is high above what is low.
    let text = with(
        POCKET,
        &[
            ("{ front, back, bag }", "{ front, back, bag_f, bag_b }"),
            ("piece bag \"Pocket bag\" {\n  cut 4 mirrored", "piece bag_f \"Front bag\" {\n  cut 2 mirrored"),
        ],
    ) + "piece bag_b \"Back bag\" like bag_f { }
seam pocket_f bag_f.mouth to front.right 4..19 from top_right { matching bag_f.high with front.right.near }
seam pocket_b bag_b.mouth to back.side 4..19 from top_right { matching bag_b.high with back.side.near }
seam pocket_bag bag_f.under + bag_f.round + bag_f.upper to bag_b.under + bag_b.round + bag_b.upper
seam side front.right to back.side
seam front_middle front.left to front.left
seam back_middle back.inside to back.inside
finish front.top, back.waist, front.bottom, back.hem hem 2
";
    assert!(!said(&text).contains(&"seam/twisted"), "{:?}", told(&text));
    for (right, wrong, name) in [
        ("bag_f.high with front", "bag_f.low with front", "the pocket_f seam goes the wrong way round"),
        ("bag_b.high with back", "bag_b.low with back", "the pocket_b seam goes the wrong way round"),
    ] {
        let turned = with(&text, &[(right, wrong)]);
        let titles: Vec<String> = told(&turned).into_iter().map(|(_, title)| title).collect();
        assert!(titles.iter().any(|title| title.contains(name)), "{titles:?}");
        let help = helps(&turned).join(" ");
        assert!(help.contains("the wrong end is matched in pocket_"), "{help}");
    }
}

/// A belt of two lengths of 90, joined in the middle and folded lengthwise.
const BELT: &str = "garment \"Belt of the night watch\"
units cm
allowance 1
fabric serge \"wool serge\" { width 150; kind woven firm }
layer outer in serge { belt }
piece belt \"Belt\" { cut 2; outline rectangle 90 by 12; folded top to bottom }
seam middle belt.right to belt.right
seam long belt.top to belt.bottom
";

#[test]
fn copies_cut_alike_are_to_be_cut_in_pairs() {
    // Where nothing says that each is folded, the one's top edge is taken to be sewn to the other's bottom edge.
    let ends = format!("{BELT}finish belt.left raw\n");
    let unfolded = with(&ends, &[("; folded top to bottom", "")]);
    let help = |text: &str| helps(text).join(" ");
    assert!(help(&unfolded).contains("write cut 2 mirrored in piece belt"), "{}", help(&unfolded));
    let pair = with(&unfolded, &[("cut 2;", "cut 2 mirrored;")]);
    assert!(!said(&pair).contains(&"seam/twisted"), "{:?}", told(&pair));
    // What slants at one end is no longer the same turned end for end.
    let slanting = [
        (
            "outline rectangle 90 by 12;",
            "point a = (0, 0); point b = (90, 0); point c = (96, 12); point d = (0, 12)\n  \
             outline from a { bottom to b; right to c; top to d; left to a }\n ",
        ),
        ("to belt.right", "to belt.right { matching belt.c with belt.b }"),
    ];
    let matched = with(&ends, &slanting);
    assert!(help(&matched).contains("write cut 2 mirrored in piece belt"), "{}", help(&matched));
    assert!(!help(&matched).contains("the left one"), "{}", help(&matched));
}

/// Of two lengths of 120 by 6 that are cut alike, one is turned over: its right end lies on the other's left.
#[test]
fn a_copy_that_is_turned_over_goes_the_other_way() {
    let round = |second: &str| {
        format!(
            "garment \"Belt of the night watch\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" {{ width 150; kind woven firm }}\n\
             layer outer in serge {{ belt }}\npiece belt \"Belt\" {{ cut 2; outline rectangle 120 by 6 }}\n\
             seam round belt.top + belt.right + belt.bottom + belt.left to {second} {{ leaving gap 15 }}\n"
        )
    };
    let same = round("belt.top + belt.right + belt.bottom + belt.left");
    assert!(said(&same).contains(&"seam/segment"), "{:?}", told(&same));
    let all = told(&same);
    assert!(
        all.iter()
            .any(|(_, title)| title.contains("the first Belt is") && title.contains("than the second Belt")),
        "{all:?}"
    );
    let help = helps(&same).join(" ");
    assert!(help.contains("to belt.top + belt.left + belt.bottom + belt.right"), "{help}");
    let turned = round("belt.top + belt.left + belt.bottom + belt.right");
    assert!(!said(&turned).contains(&"seam/segment"), "{:?}", told(&turned));
}

/// A wrap of 48 and 48, buttoned on both hips 2 from its ends: 4 · (48 − 4) / 2 = 88 round its waist, and open all down.
const WRAP: &str = "garment \"Cook's wrapped skirt\"
units cm
allowance 1
body { hip 90 }
fabric drill \"cotton drill\" { width 150; kind woven firm }
layer outer in drill { front, back }
piece front \"Front\" {
  cut 1 on fold left
  outline rectangle 24 by 40
  line button_line along at (22, 0)
}
piece back \"Back\" like front { }
finish front.right, back.right hem 4 turned under 1
finish front.bottom, back.bottom hem 2
finish front.top, back.top bound 1
closure hips front.button_line to back.button_line { buttons 4 of 15mm from 3 below top_right to 3 above bottom_right }
opening front.top + back.top passes hip
";

#[test]
fn a_ring_goes_over_lines_of_buttons() {
    assert_eq!(told(WRAP), []);
}

/// A coat whose shell is closed by toggles on a line, and whose lining is sewn to its front edges: both open together.
#[test]
fn a_lining_opens_with_its_shell() {
    let coat = "garment \"Lookout's coat\"
units cm
allowance 1
body { head 56 }
fabric wool \"boiled wool\" { width 150; kind woven firm }
fabric sateen \"lining\" { width 150; kind woven firm }
layer outer in wool { front, back }
layer lining in sateen { front, back }
piece front \"Front\" {
  cut 2 mirrored
  point hem_c = (-4, 0)
  point hem_s = (30, 0)
  point arm = (30, 40)
  point tip = (20, 62)
  point neck_s = (8, 64)
  point neck_c = (-4, 56)
  outline from hem_c { hem to hem_s; side to arm; armhole to tip; shoulder to neck_s; neckline to neck_c; edge to hem_c }
  line toggle_line along at (0, 0)
}
piece back \"Back\" {
  cut 1 on fold centre
  point hem_c = (0, 0)
  point hem_s = (30, 0)
  point arm = (30, 40)
  point tip = (20, 62)
  point neck_s = (8, 64)
  point neck_c = (0, 62)
  outline from hem_c { hem to hem_s; side to arm; armhole to tip; shoulder to neck_s; neckline to neck_c; centre to hem_c }
}
seam shoulder front.shoulder to back.shoulder
seam side front.side to back.side
seam edge outer.front.edge to lining.front.edge
seam hem outer.front.hem + outer.back.hem to lining.front.hem + lining.back.hem { leaving gap 25 in the middle along lining.back.hem }
seam neck outer.front.neckline + outer.back.neckline to lining.front.neckline + lining.back.neckline
finish armhole bound 1
closure toggles outer.front.toggle_line to outer.front.toggle_line { toggles 4 of 50mm from 4 below neck_c to 10 above hem_c left over right }
opening front.neckline + back.neckline passes head
"
    .replace("finish armhole", "finish front.armhole, back.armhole");
    assert!(!said(&coat).contains(&"opening/ring"), "{:?}", told(&coat));
    // Where nothing sews the lining to the edges that the toggles close, nothing closes it.
    let apart =
        with(&coat, &[("seam edge outer.front.edge to lining.front.edge", "finish front.edge hem 1")]);
    let apart = with(
        &apart,
        &[(
            "seam neck outer.front.neckline + outer.back.neckline to lining.front.neckline + lining.back.neckline",
            "finish front.neckline, back.neckline bound 1",
        )],
    );
    assert!(said(&apart).contains(&"opening/ring"), "{:?}", told(&apart));
}
