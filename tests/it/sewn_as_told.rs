//! What the worked-out order and the sheet tell comes out as it is drawn: lengths, ends, layers and places, worked out by hand.

use crate::drafting::same;
use crate::sheet_sentences::read_of;
use crate::workbench::{NOTHING, helps, of, said, told, with};
use fustian::emit::steps_document;
use fustian::sheet::Language;

/// The sheet, in English.
fn sheet(text: &str) -> String {
    assert_eq!(told(text), [], "{text}");
    read_of(text, Language::English)
}

/// What is done to what, in order.
fn order(text: &str) -> Vec<String> {
    let compiled = of(text);
    assert_eq!(told(text), [], "{text}");
    let lines = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let line = |one: &fustian::emit::StepLineDocument| {
        format!("{} {} {}", one.verb, one.to.clone().unwrap_or_default(), one.layers.join("+"))
    };
    lines.iter().map(line).collect()
}

/// The title under which something is done.
fn title(text: &str, what: &str) -> String {
    let compiled = of(text);
    let lines = steps_document(&compiled.garment, &compiled.sizes[0]).steps;
    let own = lines.into_iter().find(|one| one.to.as_deref() == Some(what));
    own.unwrap_or_else(|| panic!("no step for {what}")).step
}

fn place(order: &[String], what: &str) -> usize {
    order.iter().position(|one| one == what).unwrap_or_else(|| panic!("no {what} in {order:#?}"))
}

/// That these are done one after the other, whatever lies between.
fn follow(order: &[String], all: &[&str]) {
    for two in all.windows(2) {
        assert!(place(order, two[0]) < place(order, two[1]), "{two:?} in {order:#?}");
    }
}

const APRON: &str = "garment \"Galley apron\"
units cm
allowance 1
fabric canvas \"apron canvas\" { width 150 }
layer outer in canvas { apron }
piece apron \"Apron\" { cut 1; outline rectangle 60 by 70 }
finish apron.left, apron.right, apron.top  hem 2
finish apron.bottom  hem 3 turn-up 6
";

/// A hem of 3 above a turn-up of 6 takes 6 + 6 + 3 beyond the finished edge. The fold lies 6 below that edge, so that 15 - 6 = 9 go
/// up behind it, 3 above the edge; then the lower 6 go up on the right side. With the raw edge turned under, that much more.
#[test]
fn a_turn_up_is_folded_in_with_its_hem_and_turned_up_at_the_end() {
    let read = sheet(APRON);
    assert!(read.contains("fold 9 cm to the wrong side and stitch it down."), "{read}");
    assert!(read.contains("Then turn the lower 6 cm up on the right side as a turn-up."), "{read}");
    let under = sheet(&with(APRON, &[("hem 3 turn-up 6", "hem 3 turned under 1 turn-up 6")]));
    assert!(under.contains("fold 1 cm to the wrong side, then 9 cm more."), "{under}");
    // Turned under by its whole depth it takes 3 more.
    let twice = sheet(&with(APRON, &[("hem 3 turn-up 6", "hem 3 twice turn-up 6")]));
    assert!(twice.contains("fold 3 cm to the wrong side, then 9 cm more."), "{twice}");
    let plain = sheet(&with(APRON, &[(" turn-up 6", "")]));
    assert!(plain.contains("fold 3 cm to the wrong side and stitch it down."), "{plain}");
    let german = read_of(APRON, Language::German);
    assert!(german.contains("Dann die unteren 6 cm nach außen umlegen"), "{german}");
}

/// Elastic in a casing that ends at the sides is held there, 1 cm of the 2 that are bought with it at each end; in a ring it is
/// joined.
#[test]
fn elastic_is_joined_only_where_it_goes_round() {
    let open = with(
        APRON,
        &[(
            "apron.left, apron.right, apron.top  hem 2",
            "apron.left, apron.right  hem 2\nfinish apron.top  casing 2 for elastic 1 of 40",
        )],
    );
    let read = sheet(&open);
    assert!(read.contains("cut 42 cm of it"), "{read}");
    assert!(read.contains("Sew each of its ends down where the edge ends: 1 cm."), "{read}");
    assert!(!read.contains("Lay its ends on each other"), "{read}");
    let ring = with(
        &open,
        &[
            ("finish apron.left, apron.right  hem 2\n", "seam back apron.left to apron.right\n"),
            ("hem 3 turn-up 6", "hem 3"),
        ],
    );
    let read = sheet(&ring);
    assert!(read.contains("Lay its ends on each other and sew them together: 2 cm."), "{read}");
    assert!(!read.contains("Sew each of its ends down"), "{read}");
}

const JACKET: &str = "garment \"Engineer's over-jacket\"
units cm
allowance 1
fabric serge \"serge\" { width 150 }
layer outer in serge { front, back }
piece front \"Front\" {
  cut 2 mirrored
  drawn left
  point low = (-5, 0)
  point side_low = (25, 0)
  point arm = (25, 35)
  point tip = (20, 55)
  point neck = (8, 58)
  point top = (-5, 50)
  outline from low {
    hem to side_low
    side to arm
    armhole to tip curve leaving square to side arriving square to shoulder
    shoulder to neck
    neckline to top curve leaving square to shoulder arriving square to edge
    edge to low
  }
  line buttons from (0, 4) to (0, 46)
}
piece back \"Back\" {
  cut 1 on fold centre
  drawn right
  point low = (0, 0)
  point side_low = (25, 0)
  point arm = (25, 35)
  point tip = (20, 55)
  point neck = (8, 58)
  point neck_c = (0, 56)
  outline from low {
    hem to side_low
    side to arm
    armhole to tip curve leaving square to side arriving square to shoulder
    shoulder to neck
    neckline to neck_c curve leaving square to shoulder arriving left
    centre to low
  }
}
seam side front.side to back.side
seam shoulder front.shoulder to back.shoulder
finish front.edge  hem 7 turned under 1
finish front.neckline, back.neckline, front.armhole, back.armhole  bound 1
finish front.hem, back.hem  hem 2
closure wrap front.buttons to front.buttons { buttons 4 of 15mm from 40 above low to 10 above low left over right }
";

/// Where the buttons of the first row lie on the first part, from the top down.
fn heights(text: &str) -> Vec<f64> {
    assert_eq!(told(text), [], "{text}");
    let compiled = of(text);
    let mut heights: Vec<f64> =
        compiled.sizes[0].sewn.parts[0].fasteners.iter().map(|place| place.at.y / 10.0).collect();
    heights.sort_by(|one, other| other.total_cmp(one));
    heights
}

/// The corner `low` lies at height 0, the line begins at 4: 40 above the corner is 40, not 44, and four go down to 10 by 10 each.
/// Counted from a place on the line it is as before.
#[test]
fn buttons_are_counted_from_the_point_that_is_named() {
    for (found, wanted) in heights(JACKET).into_iter().zip([40.0, 30.0, 20.0, 10.0]) {
        same(found, wanted);
    }
    let from_top = with(JACKET, &[("from 40 above low to 10 above low", "from 5 below top to 10 above low")]);
    for (found, wanted) in
        heights(&from_top).into_iter().zip([45.0, 45.0 - 35.0 / 3.0, 10.0 + 35.0 / 3.0, 10.0])
    {
        same(found, wanted);
    }
    // 2 above the corner is 2 below the line's end: 4 is the least, and 46 the most.
    let near = with(JACKET, &[("10 above low left", "2 above low left")]);
    assert_eq!(said(&near), ["button/beyond"]);
    assert!(helps(&near)[0].contains("from that point the line begins at 4 cm"), "{:?}", helps(&near));
    let far = with(JACKET, &[("from 40 above", "from 48 above")]);
    assert_eq!(said(&far), ["button/beyond"]);
    assert!(helps(&far)[0].contains("from that point the line has room for 46 cm"), "{:?}", helps(&far));
}

const WAISTCOAT: &str = "garment \"Boatswain's sleeveless jacket\"
units cm
allowance 1
fabric drill \"drill\" { width 150 }
layer outer in drill { front, back }
piece front \"Front\" {
  cut 2 mirrored
  outline rectangle 28 by 64
  divide top 11 from top_left into neck, shoulder
  divide right 26 from top_right into armhole, side
}
piece back \"Back\" {
  cut 1 on fold left
  outline rectangle 28 by 64
  divide top 11 from top_left into neck, shoulder
  divide right 26 from top_right into armhole, side
}
seam shoulder front.shoulder to back.shoulder
seam side front.side to back.side
finish front.neck, back.neck, front.armhole, back.armhole  bound 1
finish front.bottom, back.bottom  hem 3
closure buttoned front.left to front.left { buttons 6 of 15mm from 2 below top_left to 8 above bottom_left stand 2 left over right }
";

/// Beyond the centre line lie the stand of 2 and the allowance of 1: of 3 cm, 1 is folded in.
#[test]
fn the_stand_of_buttons_is_folded_in_before_they_are_sewn_on() {
    let read = sheet(WAISTCOAT);
    assert!(read.contains("The cut edge lies 3 cm beyond the stitching line of the left edge of"), "{read}");
    assert!(read.contains("First fold 1 cm of that to the wrong side and stitch it down."), "{read}");
    assert!(read.contains("What closes it lies on that stitching line, 2 cm from the fold."), "{read}");
    // On a line inside the piece its edge is finished by itself.
    assert!(!sheet(JACKET).contains("The cut edge lies"));
}

const POUCH: &str = "garment \"Signal pouch\"
units cm
allowance 1
fabric canvas \"canvas\" { width 150; kind woven firm }
fabric twill \"lining twill\" { width 140; kind woven firm }
layer outer  in canvas { front, back }
layer lining in twill { front, back }
piece front \"Front\" { cut 1; outline rectangle 12 by 20 }
piece back \"Back\" { cut 1; outline rectangle 12 by 20 }
seam round  front.left + front.bottom + front.right to back.left + back.bottom + back.right { leaving gap 7 in the middle along front.bottom in lining }
seam mouth_front  outer.front.top to lining.front.top
seam mouth_back   outer.back.top to lining.back.top
steps { \"Pouch\" { sew round, mouth_front, mouth_back; turn through gap in round; slipstitch gap in round } }
";

/// The pouch lies 12 wide: through 7 it comes, but a hand needs 5. One of 30 takes a third of that, what is 40 wide the 13 of a coat.
#[test]
fn a_gap_is_small_for_what_is_pulled_through_it() {
    assert_eq!(said(POUCH), NOTHING);
    let small = with(POUCH, &[("gap 7", "gap 4.5")]);
    assert_eq!(said(&small), ["gap/small"]);
    assert!(helps(&small)[0].contains("5 cm or more"), "{:?}", helps(&small));
    let wider = POUCH.replace("rectangle 12 by 20", "rectangle 30 by 40");
    assert!(helps(&wider)[0].contains("10 cm or more"), "{:?}", helps(&wider));
    let large = POUCH.replace("rectangle 12 by 20", "rectangle 40 by 50");
    assert_eq!(said(&large), ["gap/small"]);
    assert!(helps(&large)[0].contains("13 cm or more"), "{:?}", helps(&large));
}

/// A gap of which no layer is said is left in each layer that its seam is sewn in: that is told, and both are closed.
#[test]
fn a_gap_is_closed_in_each_layer_in_which_it_is_left() {
    let both = with(POUCH, &[(" along front.bottom in lining", " along front.bottom")]);
    assert_eq!(said(&both), ["gap/outside"]);
    assert!(told(&both)[0].1.contains("is left in outer and in lining"), "{:?}", told(&both));
    assert!(helps(&both)[0].contains("leaving gap 7cm in lining"), "{:?}", helps(&both));
    let each = |text: &str| {
        read_of(text, Language::English).matches("Do so in outer and lining, each by itself.").count()
    };
    // The seam is sewn so, and then its gaps are closed so; with a gap in one layer alone the other is told beside it.
    assert_eq!((each(&both), each(POUCH)), (2, 0));
    let apart = with(&both, &[("sew round, mouth", "in outer sew round; in lining sew round; sew mouth")]);
    let read = read_of(&apart, Language::English);
    assert_eq!(read.matches("Slipstitch the gap").count(), 2, "{read}");
    let several = with(
        POUCH,
        &[(
            "leaving gap 7 in",
            "leaving gap 6 at bottom_left along front.left in lining\n  leaving gap 7 in",
        )],
    );
    let read = read_of(&several, Language::English);
    assert!(read.contains("Slipstitch the 2 gaps"), "{read}");
}

const VEST: &str = "garment \"Stoker's lined vest\"
units cm
allowance 1
fabric canvas \"canvas\" { width 150; kind woven firm }
fabric twill \"lining twill\" { width 140; kind woven firm }
layer outer  in canvas { front, back }
layer lining in twill { front, back, bag_front, bag_back }
piece front \"Front\" {
  cut 2 mirrored
  outline rectangle 26 by 60
  divide top 10 from top_left into neck, shoulder
  divide right 24 from top_right into armhole, side
}
piece back \"Back\" {
  cut 1 on fold left
  outline rectangle 26 by 60
  divide top 10 from top_left into neck, shoulder
  divide right 24 from top_right into armhole, side
}
piece bag_front \"Pocket bag, front\" {
  cut 2 mirrored
  outline rectangle 14 by 16
}
piece bag_back \"Pocket bag, back\" { cut 2 mirrored; outline copy of bag_front }
seam shoulder front.shoulder to back.shoulder
seam pocket_f lining.bag_front.left to outer.front.side 10..26 from bottom_right { matching lining.bag_front.bottom_left with outer.front.side.near }
seam pocket_b lining.bag_back.left to outer.back.side 10..26 from bottom_right { matching lining.bag_back.bottom_left with outer.back.side.near }
seam pocket_bag bag_front.top + bag_front.right + bag_front.bottom to bag_back.top + bag_back.right + bag_back.bottom
seam side front.side to back.side
seam neck outer.front.neck + outer.back.neck to lining.front.neck + lining.back.neck
seam edge outer.front.left to lining.front.left
seam hem outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom { leaving gap 15 in the middle along lining.back.bottom }
seam armhole outer.front.armhole + outer.back.armhole to lining.front.armhole + lining.back.armhole { stitch handstitch }
topstitch edge_row 0.6 from outer.front.left
closure tied outer.front.left to outer.front.left { ties 2 of 20 from 5 below top_left to 20 below top_left }
";

/// Bags of the lining's cloth that hang in the sides of the outside are sewn on while these lie flat, and closed once they are; what
/// is closed by hand, and a row through both layers, follow the turning.
#[test]
fn bags_come_before_the_sides_and_what_goes_through_both_layers_after_the_turning() {
    let order = order(VEST);
    follow(
        &order,
        &[
            "sew pocket_f outer+lining",
            "sew side outer",
            "sew pocket_bag lining",
            "sew hem outer+lining",
            "turn through gap hem ",
            "sew armhole outer+lining",
        ],
    );
    follow(&order, &["sew pocket_b outer+lining", "sew side outer"]);
    follow(&order, &["sew edge outer+lining", "turn through gap hem ", "topstitch edge_row outer"]);
    assert_eq!(title(VEST, "armhole"), "Turn");
    let read = sheet(VEST);
    assert!(read.contains("First turn in the allowances of both edges"), "{read}");
    assert!(read.contains("the folded edges on each other"), "{read}");
    // Sewn by machine it is sewn with the others.
    let machine = with(VEST, &[(" { stitch handstitch }", "")]);
    assert!(!read_of(&machine, Language::English).contains("the folded edges on each other"));
}

/// The side is 36 long, the bag's mouth goes from 10 to 26 above the hem: 10 from the armhole too, and counted as it is said.
#[test]
fn a_run_is_told_from_where_its_maker_counts() {
    let text = VEST.replace("10..26 from bottom_right", "16..32 from bottom_right");
    let read = sheet(&text);
    // 4 below the armhole would be nearer.
    assert!(read.contains("16 cm, beginning 16 cm beyond ‘bottom right’"), "{read}");
    assert!(read.contains("16 cm from ‘bottom right’"), "{read}");
    assert!(!read.contains("an end of"), "{read}");
}

/// The whole hem is turned in one go, as soon as one piece of it has to be.
#[test]
fn a_hem_over_several_pieces_is_turned_together() {
    // The band goes round the end of the front's hem.
    let banded = with(
        WAISTCOAT,
        &[
            (
                "layer outer in drill { front, back }",
                "layer outer in drill { front, back, band }\npiece band \"Band\" { cut 2 mirrored; outline rectangle length(front.left) + length(front.neck) + length(back.neck) by 8; folded top to bottom }",
            ),
            (
                "finish front.neck, back.neck, front",
                "seam band_back band.right to band.right\nseam band_on band.bottom and band.top to front.left + front.neck + back.neck { matching band.bottom_left with front.bottom_left }\nseam band_ends band.left across the fold\nfinish front",
            ),
            (
                "closure buttoned front.left to front.left { buttons 6 of 15mm from 2 below top_left to 8 above bottom_left stand 2 left over right }\n",
                "",
            ),
        ],
    );
    let order = order(&banded);
    let front = place(&order, "hem front.bottom outer");
    assert_eq!(place(&order, "hem back.bottom outer"), front + 1, "{order:#?}");
    follow(&order, &["sew side outer", "hem front.bottom outer", "sew band_on outer"]);
    assert_eq!(title(&banded, "front.bottom"), "Hems");
}

/// A seam round a mitten goes across it, but there are no shoulders; a shoulder is one.
#[test]
fn titles_name_no_part_that_a_garment_has_not() {
    let mitt = "garment \"Winch mitt\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\nlayer outer in canvas { palm, back }\n\
        piece palm \"Palm\" { cut 2 mirrored; point a = (0, 0); point b = (12, 0); point t = (6, 20)\n  outline from a { wrist to b; round to a curve leaving up through t }\n}\n\
        piece back \"Back\" { cut 2 mirrored; outline copy of palm }\n\
        seam hand palm.round to back.round\nfinish palm.wrist, back.wrist hem 2\n";
    assert_eq!(title(mitt, "hand"), "Seams across");
    assert_eq!(title(WAISTCOAT, "shoulder"), "Yoke and shoulders");
}

const TUNIC: &str = "garment \"Galley tunic apron\"
units cm
allowance 1
fabric canvas \"apron canvas\" { width 150; price 10 per m }
fabric twill \"twill\" { width 150 }
layer outer in canvas { apron, band, patch }
layer lining in twill { apron }
piece apron \"Apron\" {
  cut 1 on fold left
  outline rectangle 30 by 70
  mark low = (10, 30)
  mark tab_at = (0, 40)
  mark patch_at = (0, 60)
}
piece patch \"Patch\" { cut 1 on fold left; outline rectangle 8 by 10 }
piece band \"Waistband\" { cut 1 on fold left; outline rectangle 30 by 8; folded top to bottom; mark hole = (4, 4.2) }
seam bag outer.apron.right + outer.apron.bottom to lining.apron.right + lining.apron.bottom
seam waist outer.band.bottom and outer.band.top to outer.apron.top and lining.apron.top
seam ends band.right across the fold
set eyelets \"eyelet 8 mm\" at band.hole
notion \"eyelet 8 mm\" price 0.50 each
cord waist_cord 130 through band.top ends 20 free
place patch on outer.apron { corner top_left at patch_at; topstitch right, bottom }
finish patch.top hem 2
strap loop 20 by 2 in outer folded in four { from outer.apron.low to free; sewn 4, boxed }
";

/// An edge of a folded band lies in its seam by the time a cord is drawn through: it runs in the fold, and comes out where the eyelets
/// are. Of the half that a patch is drawn as a corner on the fold is no corner of the patch.
#[test]
fn places_are_told_as_they_are_on_what_is_cut() {
    let read = sheet(TUNIC);
    assert!(read.contains("through (2) Waistband: cut 130 cm of it."), "{read}");
    assert!(read.contains("It goes in and comes out at ‘hole’ of (2)."), "{read}");
    assert_eq!(title(TUNIC, "waist_cord"), "Cords and elastic");
    assert!(read.contains("the middle of its top edge at the mark ‘patch at’"), "{read}");
    // One end of the loop is sewn on, the other is free.
    assert!(read.contains("Stitch round that end and across it"), "{read}");
    let pair = with(
        TUNIC,
        &[
            ("Patch\" { cut 1 on fold left; outline", "Patch\" { cut 2 mirrored; outline"),
            ("mark patch_at = (0, 60)", "mark patch_at = (4, 60)"),
            ("topstitch right, bottom", "topstitch left, right, bottom"),
        ],
    );
    assert!(sheet(&pair).contains("its corner ‘top left’ at the mark ‘patch at’"));
}

/// The loop's mark is on the outside alone, where its layer is said; a mark that nothing uses is on both.
#[test]
fn a_mark_of_a_strap_is_only_where_that_is_sewn_on() {
    let compiled = of(TUNIC);
    let cuts = crate::cutting_lines::cut_all(&compiled);
    let marks = |layer: &str| -> Vec<String> {
        let parts = cuts[0].parts.iter();
        let own = parts.filter(|part| {
            *compiled.garment.layer(part.part.layer).name == *layer
                && *compiled.garment.piece(part.part.piece).name == *"apron"
        });
        own.flat_map(|part| part.marks.iter().map(|mark| mark.name.to_string())).collect()
    };
    assert!(marks("outer").iter().any(|name| name.contains("low")), "{:?}", marks("outer"));
    assert!(!marks("lining").iter().any(|name| name.contains("low")), "{:?}", marks("lining"));
    assert!(marks("lining").iter().any(|name| name.contains("tab")), "{:?}", marks("lining"));
}

/// A strap that hangs in the lining's shoulder is taken in by that seam alone, not by the outside's, which is sewn first.
#[test]
fn a_strap_is_caught_in_the_seam_of_its_own_layer() {
    let tab = "strap tab 14 by 1 in lining folded in four { from lining.front.top_right caught in shoulder to free }";
    let read = sheet(&with(VEST, &[("closure tied", &format!("{tab}\nclosure tied"))]));
    assert_eq!(read.matches("Catch the end of (7) Tab").count(), 1, "{read}");
    assert!(read.contains("in it at ‘top right’ of (3) Front (lining)."), "{read}");
    let step = read.find("As in step").expect("the lining's shoulder");
    assert!(read.find("Catch the end of (7) Tab").is_some_and(|caught| caught > step), "{read}");
}

/// Two armholes bound alike: what is cut is for both.
#[test]
fn a_binding_of_several_edges_is_cut_in_all() {
    assert!(sheet(WAISTCOAT).contains(" in all"));
    let one = with(
        APRON,
        &[(
            "apron.left, apron.right, apron.top  hem 2",
            "apron.left, apron.right  hem 2\nfinish apron.top  bound 1",
        )],
    );
    let read = sheet(&one);
    assert!(read.contains("cut 60 cm") && !read.contains("in all"), "{read}");
}

/// What the sum is made of stands over it: the eyelets, 0.50 each.
#[test]
fn each_price_stands_in_the_cost() {
    let page = crate::sheet_page::page_of(&of(TUNIC), &crate::sheet_page::quick());
    let cost = page.rfind("Eyelet").expect("a row of the eyelets");
    assert!(page.get(cost..).is_some_and(|rest| rest.contains("1.00")), "{page}");
}
