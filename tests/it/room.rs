//! What a cutter finds before a sewer does: folds, hems and notches that leave no room or do not meet.
//! Every wrong case stands beside a sound neighbour; figures are worked out by hand.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

fn of(text: &str) -> Compiled {
    let heading =
        "garment \"Deck vest\"\nunits cm\nallowance 1\nfabric shell \"waxed cotton\" { width 150 }\n";
    let loader = MemoryLoader::new().with("vest.fus", format!("{heading}{text}\n"));
    compile(&loader, "vest.fus")
}

/// Slugs and titles, but for the advice to say the order of work.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let told = of(text).diagnostics.into_iter().filter(|one| one.slug() != "steps/none");
    told.map(|one| (one.slug(), one.title.into())).collect()
}

fn slugs(text: &str) -> Vec<&'static str> {
    told(text).into_iter().map(|(slug, _)| slug).collect()
}

/// Two rectangles with these facts in their braces, sewn together at the right.
fn sides(front: &str, back: &str, seam: &str) -> String {
    format!(
        "layer outer in shell {{ front, back }}\n\
         piece front \"Front\" {{ cut 1 on fold left; {front} }}\n\
         piece back \"Back\" {{ cut 1 on fold left; {back} }}\n\
         seam side  front.right to back.right {seam}\n\
         finish front.top, back.top, front.bottom, back.bottom  hem 3\n"
    )
}

/// One rectangle of 30 by 20 with these finishes.
fn roll(finishes: &str) -> String {
    format!(
        "layer outer in shell {{ roll }}\npiece roll \"Roll\" {{ cut 1; outline rectangle 30 by 20 }}\n\
         {finishes}\n"
    )
}

#[test]
fn no_more_is_turned_under_than_the_hem_is_deep() {
    let rest = "finish roll.top, roll.left, roll.right  overlocked\nfinish roll.bottom  hem";
    assert_eq!(slugs(&roll(&format!("{rest} 2 turned under 2"))), [""; 0]);
    assert_eq!(slugs(&roll(&format!("{rest} 2 turned under 2.1"))), ["hem/under"]);
}

#[test]
fn a_turn_up_covers_the_row_of_its_hem() {
    let rest = "finish roll.top, roll.left, roll.right  overlocked\nfinish roll.bottom  hem";
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 4"))), [""; 0]);
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 3.9"))), ["hem/turn-up"]);
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 0"))), ["hem/turn-up"]);
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up -1"))), ["value/negative"]);
    // It lies on the outside as deep as it is: 20 of cloth are there, and no more; more than half of them is doubted.
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 10"))), [""; 0]);
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 20"))), ["hem/half"]);
    assert_eq!(slugs(&roll(&format!("{rest} 4 turn-up 20.5"))), ["hem/deep"]);
}

#[test]
fn edges_folded_together_are_alike() {
    let collar = |top: f64| {
        let out = (top - 40.0) / 2.0;
        format!(
            "layer outer in shell {{ collar }}\npiece collar \"Collar\" {{ cut 1\npoint a = (0, 0)\npoint b = (40, 0)\n\
             point c = ({}, 10)\npoint d = ({}, 10)\noutline from a {{ neck to b; right to c; fall to d; left to a }}\n\
             folded fall to neck }}\nfinish collar.neck, collar.right, collar.fall, collar.left  overlocked\n",
            40.0 + out,
            -out
        )
    };
    // Seams match within 2 mm where no tolerance is said.
    assert_eq!(slugs(&collar(40.1)), [""; 0]);
    let found = told(&collar(44.0));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].0, "fold/unequal");
    assert!(found[0].1.contains("fall is 4 cm longer than neck"), "{found:?}");
}

#[test]
fn a_fit_says_no_less_than_nothing() {
    let ease = |front: f64, fit: &str| {
        slugs(&sides(&format!("outline rectangle 28 by {front}"), "outline rectangle 28 by 60", fit))
    };
    assert_eq!(ease(61.0, "easing 0..2"), [""; 0]);
    assert_eq!(ease(55.0, "easing -60..60"), ["seam/range"]);
    assert_eq!(ease(90.0, "gathering 1..1.6"), [""; 0]);
    assert_eq!(ease(55.0, "gathering 0.5..2"), ["seam/range"]);
    assert_eq!(ease(90.0, "stretching 50%..160%"), ["seam/range"]);
}

#[test]
fn one_notch_meets_one_and_two_meet_two() {
    let piece = |notch: &str| format!("outline rectangle 28 by 60; {notch}");
    let (one, two) = ("notch right 20 from bottom_right", "notch right 20 from bottom_right double");
    let found = |front: &str, back: &str, seam: &str| slugs(&sides(&piece(front), &piece(back), seam));
    assert_eq!(found(one, one, ""), [""; 0]);
    assert_eq!(found(two, two, ""), [""; 0]);
    assert_eq!(found(one, two, ""), ["notch/odd"]);
    assert_eq!(found(two, one, ""), ["notch/odd"]);
    // Another place is another notch, however many each side has.
    let other = "notch right 8 from top_right double";
    assert_eq!(found(&format!("{one}; {other}"), one, ""), [""; 0]);
    assert_eq!(found(&format!("{one}; {other}"), two, ""), ["notch/odd"]);
    // The seam itself puts one where the piece has two.
    assert_eq!(found(two, "", "{ notch 20 from front.bottom_right }"), ["notch/odd"]);
    assert_eq!(found(two, "", "{ notch 20 from front.bottom_right double }"), [""; 0]);
}

#[test]
fn notches_make_left_and_right_of_what_is_symmetrical() {
    let sleeves = |cut: &str, first: &str, second: &str| {
        slugs(&format!(
            "layer outer in shell {{ front, back, frill }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 14 by 50 }}\n\
             piece back \"Back\" {{ cut 2 mirrored; outline rectangle 14 by 50 }}\n\
             piece frill \"Frill\" {{ {cut}; outline rectangle 28 by 8 }}\n\
             seam arm  front.right to back.right\nseam under  front.left to back.left\n\
             seam wrist  frill.top to front.bottom + back.bottom {{\n\
             matching frill.top_left with front.bottom_left\nnotch {first}\nnotch {second}\n}}\n\
             seam frill  frill.left to frill.right\n\
             finish front.top, back.top, frill.bottom  hem 1\n"
        ))
    };
    let (one, two) = ("5 from frill.top_left", "5 from frill.top_right double");
    assert_eq!(sleeves("cut 2 mirrored", one, two), [""; 0]);
    assert_eq!(sleeves("cut 2", one, two), ["pair/same"]);
    // 5 from each end, both single: the frill is its own mirror image.
    assert_eq!(sleeves("cut 2", one, "5 from frill.top_right"), [""; 0]);
    assert_eq!(sleeves("cut 2", one, "7 from frill.top_right"), ["pair/same"]);
}

#[test]
fn a_bow_tie_crosses_and_a_line_there_and_back_holds_no_cloth() {
    let flap = |c: &str, d: &str| {
        slugs(&format!(
            "layer outer in shell {{ flap }}\npiece flap \"Flap\" {{ cut 1\npoint a = (0, 0)\npoint b = (30, 0)\n\
             point c = {c}\npoint d = {d}\noutline from a {{ bottom to b; right to c; top to d; left to a }} }}\n\
             finish flap.bottom, flap.right, flap.top, flap.left  overlocked\n"
        ))
    };
    assert_eq!(flap("(30, 20)", "(0, 20)"), [""; 0]);
    assert_eq!(flap("(0, 20)", "(30, 20)"), ["outline/crosses"]);
    assert_eq!(flap("(20, 0)", "(10, 0)"), ["outline/collapses"]);
}

#[test]
fn a_hem_is_no_deeper_than_its_piece() {
    // 20 from bottom to top.
    let rest = "finish roll.top, roll.left, roll.right  overlocked\nfinish roll.bottom";
    for finish in
        ["hem 10", "hem 10 turned under 1", "hem 10 twice", "casing 10 for elastic 9 of 20", "bound 5"]
    {
        assert_eq!(slugs(&roll(&format!("{rest} {finish}"))), [""; 0], "{finish}");
    }
    for finish in ["hem 20", "hem 19 turned under 1", "hem 12 twice", "casing 20 for elastic 10 of 20"] {
        assert_eq!(slugs(&roll(&format!("{rest} {finish}"))), ["hem/half"], "{finish}");
    }
    for finish in
        ["hem 21", "hem 22 turned under 1", "hem 21 twice", "casing 21 for elastic 10 of 20", "bound 21"]
    {
        let found = told(&roll(&format!("{rest} {finish}")));
        assert_eq!(found.len(), 1, "{finish}: {found:?}");
        assert!(found[0].0 == "hem/deep" && found[0].1.contains("only 20 cm deep"), "{found:?}");
    }
}

#[test]
fn two_finishes_need_room_for_both() {
    let both = |top: &str, bottom: &str| {
        slugs(&roll(&format!(
            "finish roll.left, roll.right  overlocked\nfinish roll.top {top}\nfinish roll.bottom {bottom}\n"
        )))
    };
    const CASING: &str = "casing 10 for elastic 9 of 20";
    assert_eq!(both("hem 10 turned under 1", CASING), [""; 0]);
    assert_eq!(both("hem 11 turned under 1", CASING), ["hem/crosses"]);
    assert_eq!(both("bound 11", "hem 10"), ["hem/crosses"]);
    // Hems that meet at a corner are folded over one another there, as on every apron.
    let round = roll("finish roll.top, roll.left, roll.right, roll.bottom  hem 3 turned under 1");
    assert_eq!(slugs(&round), [""; 0]);
}

#[test]
fn a_half_on_the_fold_is_as_wide_as_the_whole() {
    let half = |depth: u32| {
        slugs(&format!(
            "layer outer in shell {{ roll }}\n\
             piece roll \"Roll\" {{ cut 1 on fold left; outline rectangle 10 by 30 }}\n\
             finish roll.top, roll.bottom  overlocked\nfinish roll.right  hem {depth}\n"
        ))
    };
    // 20 wide, with a hem at both sides.
    assert_eq!(half(10), [""; 0]);
    assert_eq!(half(11), ["hem/crosses"]);
}

#[test]
fn a_tapering_side_leaves_a_hem_its_room() {
    let pocket = |corner: &str| {
        told(&format!(
            "layer outer in shell {{ pocket }}\npiece pocket \"Pocket\" {{ cut 1; allowance 0\n\
             point a = (0, 0)\npoint b = (20, 0)\npoint c = (32, 20)\npoint d = (-12, 20)\n\
             outline from a {{ bottom to b; right to c; mouth to d; left to a }}\n{corner}\n}}\n\
             finish pocket.bottom, pocket.left, pocket.right  overlocked\n\
             finish pocket.mouth  hem 5 turned under 1\n"
        ))
    };
    assert_eq!(pocket(""), []);
    // Mitred, without an allowance, the side goes straight on: 5 beyond the mouth, where it is turned
    // again, it is 5 × 12/20 = 3 further out than the corner; 5 above the mouth's line the piece is 3
    // further in. So it sticks out by 6 along the mouth, 6 × 20/√(20² + 12²) = 5.1 square to the side.
    let found = pocket("corner right/mouth mitred");
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].0 == "hem/corner" && found[0].1.ends_with("by 5.1 cm"), "{found:?}");
}

#[test]
fn a_binding_goes_round_curves_wider_than_itself() {
    // A neck of 5 cm radius, and a flap whose outer edge is a half circle of 6 cm radius.
    let neck = |width: &str| {
        slugs(&format!(
            "layer outer in shell {{ front }}\npiece front \"Front\" {{ cut 1 on fold centre\n\
             point middle = (0, 0)\npoint a = (0, -5)\npoint b = (5, 0)\npoint c = (25, 0)\n\
             point d = (25, -60)\npoint e = (0, -60)\noutline from e {{ centre to a\n\
             neck to b arc about middle anticlockwise\ntop to c; side to d; hem to e }} }}\n\
             finish front.neck  bound {width}\nfinish front.top, front.side, front.hem  overlocked\n"
        ))
    };
    assert_eq!(neck("4.5"), [""; 0]);
    assert_eq!(neck("5.5"), ["bind/curve"]);
    let flap = |width: &str| {
        slugs(&format!(
            "layer outer in shell {{ flap }}\npiece flap \"Flap\" {{ cut 1\npoint middle = (0, 0)\n\
             point a = (6, 0)\npoint b = (-6, 0)\npoint c = (-6, 40)\npoint d = (6, 40)\n\
             outline from a {{ round to b arc about middle clockwise; left to c; top to d; right to a }} }}\n\
             finish flap.round  bound {width}\nfinish flap.left, flap.top, flap.right  overlocked\n"
        ))
    };
    assert_eq!(flap("5.5"), [""; 0]);
    assert_eq!(flap("6.5"), ["bind/curve"]);
}

/// An edge's allowance in millimetres, of the first part that has it.
fn allowance(compiled: &Compiled, edge: &str) -> f64 {
    let (garment, sized) = (&compiled.garment, &compiled.sizes[0].drawn);
    for part in &compiled.sizes[0].sewn.parts {
        let drawn = sized.papers[part.part.paper.index()].as_ref().unwrap();
        for (drawn, fate) in drawn.edges.iter().zip(&part.edges) {
            let named = garment.edge(drawn.edge);
            if format!("{}.{}", garment.piece(named.piece).name, named.name) == edge {
                return fate.allowance.unwrap();
            }
        }
    }
    panic!("there is no {edge}");
}

/// A body that a zip closes, lined, with a collar above and a pocket caught in the seam of the zip.
fn zipped(seam: &str, collar: &str) -> String {
    format!(
        "layer outer in shell {{ body, collar, pocket }}\nlayer lining in shell {{ body }}\n\
         piece body \"Body\" {{ cut 2 mirrored; outline rectangle 48 by 60; mark low = (0, 10) }}\n\
         piece collar \"Collar\" {{ cut 1; {collar}; outline rectangle 96 by 8 }}\n\
         piece pocket \"Pocket\" {{ cut 2 mirrored; outline rectangle 16 by 18 }}\n\
         seam back  body.right to body.right\n\
         seam neck  outer.collar.bottom to outer.body.top {{\nallowance 1\n\
         matching outer.collar.bottom_left with outer.body.top_left\n}}\n\
         seam front_edge  outer.body.left to lining.body.left  enclosing zip {{ {seam} }}\n\
         closure zip  outer.body.left + outer.collar.left to outer.body.left + outer.collar.right {{\n\
         zipper separating 68\n}}\n\
         finish outer.body.bottom, lining.body.bottom, lining.body.top, outer.collar.top  overlocked\n\
         finish pocket.top  hem 3\n\
         place pocket on outer.body {{ corner bottom_left at low; topstitch bottom, right; caught left in front_edge }}\n"
    )
}

#[test]
fn a_zips_allowance_reaches_all_that_it_is_sewn_to() {
    // 15 mm, and the header's 10 mm for what is sewn elsewhere.
    let text = zipped("allowance 1.5", "grain up");
    let compiled = of(&text);
    for edge in ["body.left", "collar.left", "collar.right", "pocket.left"] {
        assert_eq!(allowance(&compiled, edge), 15.0, "{edge}");
    }
    assert_eq!(allowance(&compiled, "body.right"), 10.0);
    assert_eq!(slugs(&text), [""; 0]);
    // Where the seam says none, each piece has its own, and they must agree.
    assert_eq!(slugs(&zipped("stitch 301", "grain up")), [""; 0]);
    assert_eq!(slugs(&zipped("stitch 301", "allowance 2")), ["closure/allowance"]);
}

/// A front and a back with a pocket 6 from the front's left edge.
fn pocketed(front: &str, pocket: &str, rest: &str) -> Vec<&'static str> {
    let left = if front.contains("fold") { "" } else { "finish front.left  hem 2\n" };
    slugs(&format!(
        "layer outer in shell {{ front, back, pocket }}\n\
         piece front \"Front\" {{ {front}; outline rectangle 26 by 60; mark low = (6, 12)\n\
         mark edge = (0, 12) }}\n\
         piece back \"Back\" {{ cut 1 on fold left; outline rectangle 26 by 60; mark low = (6, 12) }}\n\
         piece pocket \"Pocket\" {{ {pocket} }}\n\
         seam side  front.right to back.right\n{left}\
         finish front.top, back.top  bound 1\nfinish front.bottom, back.bottom  hem 3\n{rest}\n"
    ))
}

#[test]
fn every_place_has_its_pocket() {
    let whole = "outline rectangle 15 by 18";
    let on = |piece: &str, mark: &str| {
        format!("place pocket on {piece} {{ corner bottom_left at {mark}; topstitch left, bottom, right }}\n")
    };
    let rest = format!("finish pocket.top  hem 3\n{}", on("front", "low"));
    let found = |front: &str, cut: &str| pocketed(front, &format!("{cut}; {whole}"), &rest);
    assert_eq!(found("cut 2 mirrored", "cut 2 mirrored"), [""; 0]);
    assert_eq!(found("cut 2 mirrored", "cut 2"), [""; 0]);
    assert_eq!(found("cut 2 mirrored", "cut 1"), ["place/count"]);
    assert_eq!(found("cut 2 mirrored", "cut 3"), ["place/count"]);
    // Beside a fold there are two places.
    assert_eq!(found("cut 1 on fold left", "cut 2 mirrored"), [""; 0]);
    assert_eq!(found("cut 1 on fold left", "cut 1"), ["place/count"]);
    // A half on the fold, laid on the fold, is one wide pocket across the middle.
    let halves = "finish pocket.top  hem 3\n\
                  place pocket on front { corner bottom_left at edge; topstitch bottom, right }\n";
    let half = "outline rectangle 8 by 18";
    assert_eq!(pocketed("cut 1 on fold left", &format!("cut 1 on fold left; {half}"), halves), [""; 0]);
    assert_eq!(
        pocketed("cut 1 on fold left", &format!("cut 2 on fold left; {half}"), halves),
        ["place/count"]
    );
}

#[test]
fn a_pocket_keeps_an_edge_open() {
    let pocket = "cut 2 mirrored; outline rectangle 15 by 18";
    let place = |edges: &str, finish: &str| {
        let place = format!("place pocket on front {{ corner bottom_left at low; topstitch {edges} }}\n");
        pocketed("cut 2 mirrored", pocket, &format!("{finish}{place}"))
    };
    assert_eq!(place("left, bottom, right", "finish pocket.top  hem 3\n"), [""; 0]);
    assert_eq!(place("left, bottom, right, top", ""), ["place/shut"]);
}

#[test]
fn a_pockets_mark_is_only_where_the_pocket_is() {
    let vest = "layer outer in shell { front, back, pocket }\nlayer lining in shell { front, back }\n\
                piece front \"Front\" { cut 2 mirrored; outline rectangle 26 by 60; mark low = (6, 12); mark badge = (6, 50) }\n\
                piece back \"Back\" { cut 2 mirrored; outline copy of front }\n\
                piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 15 by 18 }\n\
                seam side  front.right to back.right\nfinish pocket.top  hem 3\n\
                finish front.left, back.left, front.top, back.top, front.bottom, back.bottom  hem 2\n\
                place pocket on front { corner bottom_left at low; topstitch left, bottom, right }\n";
    let compiled = of(vest);
    let cutting = compiled.sizes[0].cut(&compiled.garment);
    let marks = |part: &str| -> Vec<String> {
        let is = |cut: &&fustian::cutting::CutPart| {
            compiled.garment.part_name(Some(cut.part.layer), cut.part.piece) == part
        };
        let cut = cutting.parts.iter().find(is).unwrap();
        cut.marks.iter().map(|mark| mark.name.clone()).collect()
    };
    assert_eq!(marks("outer.front"), ["low", "badge"]);
    assert_eq!(marks("lining.front"), ["badge"]);
    // The back is a copy of the front, without its pocket.
    assert_eq!(marks("outer.back"), ["badge"]);
}

#[test]
fn a_half_tells_the_whole_of_its_longest_edge() {
    // 40 to the fold is 80 across, more than the 60 of the side.
    let text = "layer outer in shell { front }\n\
                piece front \"Front\" { cut 1 on fold left; outline rectangle 40 by 60 }\n\
                finish front.top, front.right, front.bottom  hem 2\n";
    let compiled = of(text);
    let cutting = compiled.sizes[0].cut(&compiled.garment);
    assert_eq!(cutting.parts[0].label.long_edge, "bottom 80 cm finished");
}

#[test]
fn body_pieces_have_one_grain_and_bands_any() {
    let across = "outline rectangle 28 by 60; grain across";
    let along = "outline rectangle 28 by 60";
    assert_eq!(slugs(&sides(along, along, "")), [""; 0]);
    assert_eq!(slugs(&sides(across, across, "")), [""; 0]);
    assert_eq!(slugs(&sides(along, across, "")), ["seam/grain"]);
    let waistband = "layer outer in shell { skirt, band }\n\
                     piece skirt \"Skirt\" { cut 1 on fold left; outline rectangle 40 by 60 }\n\
                     piece band \"Band\" { cut 1 on fold left; outline rectangle 40 by 6; grain across }\n\
                     seam waist  band.bottom to skirt.top { matching band.bottom_right with skirt.top_right }\n\
                     finish band.top, band.right, skirt.right, skirt.bottom  hem 1\n";
    assert_eq!(slugs(waistband), [""; 0]);
}

#[test]
fn a_girth_below_the_bodys_needs_cloth_that_stretches() {
    // 2 × 2 × 20 = 80 round a chest of 88: it must stretch by a tenth.
    let vest = |stretch: &str, wide: &str| {
        slugs(&format!(
            "sizes one\nbody {{ chest 88 }}\nfabric cloth \"cloth\" {{ width 150; {stretch} }}\n\
             layer outer in cloth {{ front, back }}\n\
             piece front \"Front\" {{ cut 1 on fold left; outline rectangle {wide} by 60 }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle {wide} by 60 }}\n\
             measure finished_chest \"Finished chest\" against chest = total(front.top + back.top)\n\
             seam side  front.right to back.right\n\
             finish front.top, back.top, front.bottom, back.bottom  hem 2\n"
        ))
    };
    let of_vest = |stretch: &str, wide: &str| -> Vec<&'static str> {
        vest(stretch, wide).into_iter().filter(|slug| *slug != "cloth/unused").collect()
    };
    assert_eq!(of_vest("kind woven firm", "23"), [""; 0]);
    assert_eq!(of_vest("kind woven firm", "20"), ["measure/tight"]);
    assert_eq!(of_vest("stretch 12% across, 5% along", "20"), [""; 0]);
    assert_eq!(of_vest("stretch 5% across, 12% along", "20"), ["measure/tight"]);
    // Of a knit whose stretch is not said nothing is known.
    assert_eq!(of_vest("kind knit", "20"), [""; 0]);
}

#[test]
fn a_measure_of_the_draft_is_outrun_by_an_alteration() {
    let apron = |measured: &str, alteration: &str| {
        slugs(&format!(
            "layer outer in shell {{ apron }}\nlet run = 85\nlet wide = 36\nmeasure long \"Length\" = {measured}\n\
             piece apron \"Apron\" {{ cut 1; outline rectangle wide by run; line waist across at (0, 50) }}\n\
             {alteration}\n\
             finish apron.top, apron.left, apron.right, apron.bottom  hem 1\n"
        ))
    };
    assert_eq!(apron("run", ""), [""; 0]);
    assert_eq!(apron("run", "lengthen apron at waist by 6"), ["measure/outrun"]);
    // Measured on the piece it follows; of what does not change it stays true.
    assert_eq!(apron("length(apron.left)", "lengthen apron at waist by 6"), [""; 0]);
    assert_eq!(apron("wide", "lengthen apron at waist by 6"), [""; 0]);
    assert_eq!(apron("wide", "extend apron.right by 2"), ["measure/outrun"]);
    // The girth of a front and a back on the fold, four times what half a front is wide.
    let vest = |measured: &str, alteration: &str| {
        slugs(&format!(
            "layer outer in shell {{ front, back }}\nlet chest = 96\nmeasure girth \"Chest\" = {measured}\n\
             piece front \"Front\" {{ cut 1 on fold left; outline rectangle chest / 4 by 60 }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle chest / 4 by 60 }}\n{alteration}\n\
             seam side front.right to back.right\n\
             finish front.top, back.top, front.bottom, back.bottom  hem 1\n"
        ))
    };
    assert_eq!(vest("chest", ""), [""; 0]);
    assert_eq!(vest("chest", "extend front.right, back.right by 2"), ["measure/outrun"]);
    assert_eq!(vest("total(front.top + back.top)", "extend front.right, back.right by 2"), [""; 0]);
}

#[test]
fn a_draft_that_is_not_finished_can_be_looked_at() {
    use fustian::emit::drawing::{Look, What, unfinished_sheet};
    let loader = MemoryLoader::new().with(
        "half.fus",
        "garment \"Deck vest\"\nunits cm\nfabric shell \"waxed cotton\" { width 150 }\n\
         layer outer in shell { front }\n\
         piece front \"Front\" { cut 1 on fold left; outline rectangle 28 by 60 }\n\
         piece back \"Back\" { cut 1 on fold left; outline rectangle 28 by 60 }\n\
         seam side  front.right to bak.right\n",
    );
    let compiled = compile(&loader, "half.fus");
    assert!(compiled.has_mistakes());
    let sizes: Vec<_> = compiled.sizes.iter().collect();
    let (garment, cuts) = fustian::cutting::cut_unfinished(&compiled.garment, &sizes);
    // Nobody says an allowance, so that each is cut along its stitching line: 28 × 60.
    let titles: Vec<&str> = cuts[0].parts.iter().map(|part| part.label.piece.as_str()).collect();
    assert_eq!(titles, ["Front", "Back"]);
    for part in &cuts[0].parts {
        assert_eq!(part.cutting_ring(), part.stitching);
    }
    let notes = vec!["name/unknown, half.fus:7: there is no piece called bak".to_owned()];
    let plain = fustian::emit::drawing::sheet(&garment, &cuts, &Look::drawing());
    let sheet = unfinished_sheet(&garment, &cuts, &Look::drawing(), &notes);
    assert!(sheet.height > plain.height);
    let words: Vec<&str> = sheet
        .shapes
        .iter()
        .filter_map(|shape| match &shape.what {
            What::Words(words) => Some(words.text.as_str()),
            _ => None,
        })
        .collect();
    assert!(words.contains(&"Not finished: 1 to mend"), "{words:?}");
    assert!(words.iter().any(|line| line.contains("no piece called bak")), "{words:?}");
}
