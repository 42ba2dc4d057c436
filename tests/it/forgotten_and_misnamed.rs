//! Slips of which much comes, told as what they are: a seam that was taken out, a piece left out of a layer, an edge named for another.

use crate::workbench::{NOTHING, example, helps, said, told, with};

/// The text without the seam of that name.
fn without_seam(text: &str, name: &str) -> String {
    let start = text.find(&format!("\nseam {name} ")).expect("it is written there") + 1;
    let rest = &text[start..];
    let line = rest.find('\n').map_or(rest.len(), |at| at + 1);
    let end = match rest[..line].contains('{') && !rest[..line].contains('}') {
        true => rest.find("}\n").map_or(rest.len(), |at| at + 2),
        false => line,
    };
    format!("{}{}", &text[..start], &rest[end..])
}

#[test]
fn a_seam_that_is_taken_out_is_told_once() {
    let shirt = example("purser-shirt");
    let all = told(&without_seam(&shirt, "side"));
    assert_eq!(
        all,
        [("edge/loose", "the side of Front and the side of Back are neither sewn nor finished".to_owned())]
    );
    assert!(helps(&without_seam(&shirt, "side"))[0].contains("seam side  front.side to back.side"));
    // Where both are not as long, and where left and right of one piece are sewn, the step tells which seam.
    let trousers = example("mate-trousers");
    let seat = without_seam(&trousers, "seat");
    assert!(helps(&seat)[0].contains("seam …  back.centre to back.centre"), "{:?}", helps(&seat));
    // Four edges of one seam, with the step that names it.
    let all = told(&without_seam(&shirt, "armhole"));
    assert_eq!(all.len(), 1, "{all:?}");
    assert!(all[0].1.ends_with("and 2 more are neither sewn nor finished"), "{all:?}");
    // What no step names, and is not as long, is told edge by edge.
    let two = "garment \"Cloth\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" { width 150 }\nlayer outer in cotton { one }\n\
               piece one \"One\" { cut 1; outline rectangle 20 by 30 }\nfinish one.left, one.right hem 1\n";
    assert_eq!(said(two), ["edge/loose", "edge/loose"]);
}

#[test]
fn a_piece_that_a_layer_lacks_is_told_in_place_of_all_that_is_loose_there() {
    let bag = "garment \"Lined bag\"\nunits cm\nallowance 1\n\
        fabric canvas \"canvas\" { width 150; kind woven firm }\nfabric cotton \"cotton\" { width 150; kind woven firm }\n\
        layer outer in canvas { front, back, gusset }\nlayer lining in cotton { front, back, gusset }\n\
        piece front \"Front\" { cut 1; outline rectangle 30 by 30 }\npiece back \"Back\" { cut 1; outline rectangle 30 by 30 }\n\
        piece gusset \"Gusset\" { cut 1; outline rectangle 90 by 10 }\n\
        seam round front.left + front.bottom + front.right to gusset.top { matching front.top_left with gusset.top_left }\n\
        seam behind back.left + back.bottom + back.right to gusset.bottom { matching back.top_right with gusset.bottom_left }\n\
        seam top outer.front.top to lining.front.top\nseam back_top outer.back.top to lining.back.top\n\
        finish gusset.left, gusset.right hem 1\n";
    assert_eq!(said(bag), NOTHING);
    let without = with(
        bag,
        &[("layer lining in cotton { front, back, gusset }", "layer lining in cotton { front, back }")],
    );
    let text = "Gusset is not cut in lining, and what the round seam and the behind seam would sew to it there is loose";
    assert_eq!(told(&without), [("part/missing", text.to_owned())]);
}

#[test]
fn an_edge_that_is_named_for_another_is_told_where_it_is_named() {
    let skirt = "garment \"Mess skirt\"\nunits cm\nallowance 1\nsizes one\nbody { waist 80; hip 98 }\n\
        fabric serge \"wool serge\" { width 150; kind woven }\nlayer outer in serge { skirt, band }\n\
        piece skirt \"Skirt\" { cut 1; outline rectangle 104 by 60 }\npiece band \"Band\" { cut 1; outline rectangle 104 by 4 }\n\
        seam back skirt.left to skirt.right\nseam band_end band.left to band.right\n\
        seam waist skirt.top to band.bottom { matching skirt.top_left with band.bottom_left }\n\
        finish skirt.bottom hem 3\nfinish band.top casing 3 for elastic 2 of waist * 90%\nopening band.top passes hip\n";
    assert_eq!(said(skirt), NOTHING);
    let wrong = with(skirt, &[("seam waist skirt.top to", "seam waist skirt.bottom to")]);
    let all = told(&wrong);
    let text =
        "the waist seam takes the bottom of Skirt, which something else takes too, and leaves its top loose";
    assert_eq!(all, [("edge/twice", text.to_owned())]);
    assert_eq!(helps(&wrong), ["name skirt.top there"]);
}
