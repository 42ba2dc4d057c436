//! Copies, strips and rests that are the mirror image of the piece that they are made of. Places are worked out by hand: what
//! lies at (x, y) lies at (−x, y) on the mirror image.

use crate::drafting::{same, same_place};
use crate::workbench::{NOTHING, helps, in_memory, of, paper, said, told, with};
use fustian::emit::document;
use fustian::resolve::DrawnPiece;

/// A skirt for the mess, with one pocket in its right side seam.
const SKIRT: &str = r#"garment "Mess skirt with one pocket"
units cm
allowance 1
fabric serge "serge" { width 150 }
layer outer in serge { front, back, bag_front, bag_back }
piece front "Front" { cut 1 on fold left; outline rectangle 24 by 60; drawn left }
piece back "Back" { cut 1 on fold left; outline rectangle 24 by 60; drawn right }
piece bag_front "Front of the pocket bag" {
  cut 1
  point high    = (0, 0)
  point low     = (0, -16)
  point deep    = (-13, -19)
  point high_in = (-13, 2)
  outline from high {
    mouth to low
    round to high_in  curve leaving down through deep
    upper to high
  }
}
piece bag_back "Back of the pocket bag" { cut 1; outline copy of bag_front mirrored }
seam side  front.right to back.right
seam front_pocket  bag_front.mouth to front.right 4..20 from top_right on right { matching bag_front.high with front.right.near }
seam back_pocket   bag_back.mouth to back.right 4..20 from top_right on right { matching bag_back.high with back.right.near }
seam bag  bag_front.round + bag_front.upper to bag_back.round + bag_back.upper
finish front.top, back.top  bound 1
finish front.bottom, back.bottom  hem 3
steps {
  "Pocket" { sew front_pocket, back_pocket }
  "Sides"  { sew side, bag; finish front.top, back.top; hem front.bottom, back.bottom }
}
"#;

/// A flap with something of everything, and pieces that are made of it.
fn flap(made: &str) -> String {
    format!(
        "garment \"Deck bag\"\nunits cm\nallowance 1\nfabric drill \"drill\" {{ width 150 }}\n\
         layer outer in drill {{ flap }}\n\
         block piece flap \"Flap\" {{\n\
         outline rectangle 30 by 20\n\
         notch top 8 from top_left\n\
         mark badge = (5, 6)\n\
         line crease from (2, 4) to (28, 10)\n\
         dart shape on bottom at 10 from left width 0.4 to (10, 9) pressed toward left\n\
         pleat fold on top at 20 from left depth 1 toward left stitched down 3\n\
         slit hole from (20, 8) to (26, 8)\n\
         }}\n{made}"
    )
}

#[test]
fn one_pocket_has_two_bags() {
    assert_eq!(told(SKIRT), []);
    let compiled = of(SKIRT);
    let spot = |piece: &str, name: &str| {
        let drawn = paper(&compiled, piece);
        let own = drawn.spots.iter().find(|spot| *compiled.garment.point(spot.point).name == *name);
        own.expect("the corner").at
    };
    same_place(spot("bag_front", "high_in"), (-130.0, 20.0));
    same_place(spot("bag_back", "high_in"), (130.0, 20.0));
    same_place(spot("bag_back", "low"), (0.0, -160.0));
    // Alike, one of them would lie wrong side out; that is told with the word that mends it.
    let alike = with(SKIRT, &[("copy of bag_front mirrored", "copy of bag_front")]);
    assert_eq!(said(&alike), ["seam/twisted"]);
    assert!(helps(&alike)[0].ends_with("outline copy of bag_front mirrored"), "{:?}", helps(&alike));
    // Mirrored twice it is what it was.
    let twice = "bag_back { cut 1; outline copy of other mirrored }\n\
                 block piece other \"Other\" { outline copy of bag_front mirrored }\nseam side ";
    let twice = with(
        SKIRT,
        &[(
            "bag_back \"Back of the pocket bag\" { cut 1; outline copy of bag_front mirrored }\nseam side ",
            twice,
        )],
    );
    assert_eq!(said(&twice), ["seam/twisted"]);
}

#[test]
fn all_that_is_drawn_is_turned_over() {
    let text = flap(
        "piece other \"Other flap\" { cut 1; outline copy of flap mirrored }\nfinish other.top, other.bottom, other.left, other.right overlocked\nfinish other.hole.near, other.hole.far bound 1\n",
    );
    let text = with(&text, &[("{ flap }", "{ other }")]);
    assert_eq!(said(&text), NOTHING);
    let compiled = of(&text);
    let [own, other] = ["flap", "other"].map(|piece| paper(&compiled, piece).uncut());
    let name = |drawn: &DrawnPiece, at: usize| compiled.garment.edge(drawn.edges[at].edge).name.to_string();
    for at in 0..4 {
        assert_eq!(name(own, at), name(other, at));
        let (one, turned) = (own.edges[at].path.start(), other.edges[at].path.start());
        same_place(turned, (-one.x, one.y));
    }
    // The left edge lies on the right, at 0; the right one 30 to the left of it.
    same_place(other.edges[1].path.start(), (-300.0, 0.0));
    same_place(other.notches[0].at, (-80.0, 200.0));
    same_place(other.lines[0].path.end(), (-280.0, 100.0));
    let badge = other.spots.iter().find(|spot| *compiled.garment.point(spot.point).name == *"badge");
    same_place(badge.expect("the mark").at, (-50.0, 60.0));
    // Pressed toward the left edge before, the dart is pressed toward that edge still: to its side at 9.8.
    let dart = &other.take_ups[0];
    let side = dart.wedge.sides[dart.pressed.expect("pressed")];
    same_place(side, (-98.0, 0.0));
    same_place(dart.apex, (-100.0, 90.0));
    let (pleat, before) = (&other.take_ups[1], &own.take_ups[1]);
    for at in [0, 1] {
        let was = before.wedge.sides[at];
        same_place(pleat.wedge.sides[at], (-was.x, was.y));
    }
    same(pleat.pleat.expect("a pleat").into.y, -1.0);
    same_place(other.slits[0].sides[0], (-200.0, 80.0));
    same_place(other.slits[0].ends[0], (-260.0, 80.0));
    let json = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let json = serde_json::to_value(json).expect("figures");
    let made =
        &json["sizes"][0]["pieces"].as_array().expect("pieces").last().expect("the other flap")["made_of"];
    assert_eq!(made["mirrored"], true, "{json:#}");
}

#[test]
fn strips_and_rests_are_turned_over_too() {
    let made = "block piece facing \"Facing\" { outline strip of flap along right width 4 mirrored }\n\
                block piece plain \"Plain facing\" { outline strip of flap along right width 4 }\n\
                block piece rest \"Rest\" { outline rest of flap without plain mirrored }\n";
    let compiled = of(&flap(made));
    let bounds = |piece: &str| {
        let drawn = paper(&compiled, piece);
        let mut all = drawn.edges.iter().map(|edge| edge.path.start().x);
        let first = all.next().expect("a corner");
        all.fold((first, first), |(low, high), x| (low.min(x), high.max(x)))
    };
    // From 26 to 30, and the rest from 0 to 26.
    assert_eq!(bounds("plain"), (260.0, 300.0));
    assert_eq!(bounds("facing"), (-300.0, -260.0));
    assert_eq!(bounds("rest"), (-260.0, 0.0));
}

#[test]
fn what_its_own_braces_say_is_drawn_on_the_mirror_image() {
    let made = "block piece other \"Other\" { outline copy of flap mirrored; without badge, shape, fold, hole, crease\n\
                move point bottom_right by (0, -2); mark loop = bottom_left + (-3, 1) }\n";
    let compiled = of(&flap(made));
    let other = paper(&compiled, "other");
    // The lower right corner lies on the left now, 2 lower; the lower left one at 0.
    same_place(other.edges[1].path.start(), (-300.0, -20.0));
    let loop_mark = other.spots.iter().find(|spot| *compiled.garment.point(spot.point).name == *"loop");
    same_place(loop_mark.expect("its own mark").at, (-30.0, 10.0));
    assert!(other.take_ups.is_empty() && other.slits.is_empty() && other.lines.is_empty());
}

#[test]
fn it_goes_into_one_file() {
    let variation = "variation \"Own\" of \"skirt.fus\"\n";
    let packed = fustian::packed(&in_memory(&[("own.fus", variation), ("skirt.fus", SKIRT)]), "own.fus");
    assert!(packed.contains("outline copy of bag_front mirrored"), "{packed}");
    assert_eq!(said(&packed), NOTHING);
}
