//! What goes through a garment's openings. Every figure is worked out by hand.

use fustian::compile;
use fustian::source::MemoryLoader;
use serde_json::json;

const HEADER: &str = "garment \"Galley things\"\nunits cm\nallowance 1\ntolerance 2mm\n\
    body { waist 68; hip 94; head 57; calf 38 }\n\
    fabric canvas \"canvas\" { width 300; kind woven firm }\n\
    fabric jersey \"jersey\" { width 150; kind knit; stretch 20% across, 0% along }\n\
    fabric stay \"fusible\" { width 90 }\n";

/// Slugs and titles of what is told, but for the order of work and cloth that is not cut.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let compiled =
        compile(&MemoryLoader::new().with("galley.fus", format!("{HEADER}{text}\n")), "galley.fus");
    let told =
        compiled.diagnostics.into_iter().filter(|one| !["steps/none", "cloth/unused"].contains(&one.slug()));
    told.map(|one| (one.slug(), one.title.to_string())).collect()
}

/// By how much the opening is too small, as it is told; nothing else may be.
#[track_caller]
fn too_small(text: &str) -> Option<String> {
    let found = told(text);
    match found.as_slice() {
        [] => None,
        [("opening/passes", title)] => {
            let (_, by) = title.split_once(" is ").unwrap();
            Some(by.split_once(" too small").unwrap().0.to_owned())
        }
        _ => panic!("{found:#?}"),
    }
}

/// A skirt of 120 cm, gathered to a closed waistband of 70.
const GATHERED: &str = "layer outer in canvas { skirt, waistband }\n\
    piece skirt \"Skirt\" { cut 1; outline rectangle 120 by 60 }\n\
    piece waistband \"Waistband\" { cut 1; outline rectangle 70 by 8; folded top to bottom }\n\
    seam back skirt.left to skirt.right\nseam waistband_ends waistband.left to waistband.right\n\
    seam waist skirt.top to waistband.bottom and waistband.top  gathering 1.5..2 { matching skirt.top_left with waistband.bottom_left }\n\
    finish skirt.bottom hem 3\n";

#[test]
fn no_hip_goes_through_a_closed_waistband() {
    // 94 - 70, on whichever of the edges it is said.
    for edge in ["skirt.top", "waistband.top", "waistband.bottom"] {
        let text = format!("{GATHERED}opening {edge} passes hip");
        assert_eq!(too_small(&text).as_deref(), Some("24 cm"), "{edge}");
    }
    assert_eq!(too_small(&format!("{GATHERED}opening skirt.top passes waist")), None);
}

#[test]
fn a_closure_adds_the_way_down_both_its_sides_from_where_the_ring_is() {
    // The waistband is 4 cm high, so that of a zip of 16 cm 12 lie below the waist seam: 70 + 2 × 12 = 94. At
    // the fold it would be 70 + 2 × 16.
    let skirt = |zip: f64| {
        format!(
            "layer outer in canvas {{ skirt, waistband }}\n\
             piece skirt \"Skirt\" {{ cut 1 on fold left; outline rectangle 60 by 60; divide right {} from top_right into zip_edge, right }}\n\
             piece waistband \"Waistband\" {{ cut 1; outline rectangle 70 by 8; folded top to bottom }}\n\
             seam back skirt.right to skirt.right\n\
             seam waist skirt.top to waistband.bottom and waistband.top  gathering 1.5..2 {{ matching skirt.top_right with waistband.bottom_left }}\n\
             closure back_zip waistband.left + skirt.zip_edge to waistband.right + skirt.zip_edge {{ zipper concealed {zip} }}\n\
             finish skirt.bottom hem 3\nopening skirt.top passes hip",
            zip - 4.0
        )
    };
    assert_eq!(too_small(&skirt(16.0)), None);
    assert_eq!(too_small(&skirt(15.0)).as_deref(), Some("2 cm"));
}

/// A tube of jersey, 50 cm round and 60 stretched; its upper edge is finished so.
fn tube(top: &str) -> String {
    format!(
        "layer outer in jersey {{ body_piece }}\npiece body_piece \"Body\" {{ cut 1; outline rectangle 50 by 60 }}\n\
         seam back body_piece.left to body_piece.right\nfinish body_piece.bottom hem 3\n\
         finish body_piece.top {top}\nopening body_piece.top passes head"
    )
}

#[test]
fn bindings_and_lockstitches_hold_a_knit_neck() {
    // 60 go over a head of 57; 50, held, lack 7. Bought binding is woven, and a lockstitch does not give
    // (common practice).
    assert_eq!(too_small(&tube("hem 2")), None);
    assert_eq!(too_small(&tube("bound 1")).as_deref(), Some("7 cm"));
    // 50 with a tenth more are 55, with a fifth 60, as the jersey itself.
    assert_eq!(too_small(&tube("bound 1 stretch 10%")).as_deref(), Some("2 cm"));
    assert_eq!(too_small(&tube("bound 1 stretch 20%")), None);
    assert_eq!(too_small(&tube("bound 1 stretch 90%")), None);
    assert_eq!(too_small(&tube("hem 2 { stitch 301 }")).as_deref(), Some("7 cm"));
    assert_eq!(too_small(&tube("hem 2 { stitch 406 }")), None);
}

#[test]
fn what_is_sewn_to_a_knit_neck_holds_it() {
    let banded = |layers: &str, stitch: u16| {
        format!(
            "{layers}\npiece body_piece \"Body\" {{ cut 1; outline rectangle 50 by 60 }}\n\
             piece band \"Band\" {{ cut 1; outline rectangle 50 by 6; folded top to bottom }}\n\
             seam back body_piece.left to body_piece.right\nseam band_ends band.left to band.right\n\
             seam neck band.top and band.bottom to BODY.top {{ stitch {stitch}; matching band.top_left with BODY.top_left }}\n\
             finish body_piece.bottom hem 3\nopening body_piece.top passes head"
        )
        .replace("BODY", "body_piece")
    };
    let knit = "layer outer in jersey { body_piece, band }";
    assert_eq!(too_small(&banded(knit, 504)), None);
    assert_eq!(too_small(&banded(knit, 301)).as_deref(), Some("7 cm"));
    let fused = format!("{knit}\nlayer firm in stay fused {{ band }}");
    assert_eq!(too_small(&banded(&fused, 504)).as_deref(), Some("7 cm"));
    let woven = banded("layer outer in jersey { body_piece }\nlayer bands in canvas { band }", 504)
        .replace(
            "seam neck band.top and band.bottom to body_piece.top",
            "seam neck bands.band.top and bands.band.bottom to outer.body_piece.top",
        )
        .replace("with body_piece.top_left", "with outer.body_piece.top_left");
    assert_eq!(too_small(&woven).as_deref(), Some("7 cm"));
}

#[test]
fn alike_panels_are_counted_all_round() {
    // Six panels of 16 cm make 96, of 15 cm 90: 4 too little for 94.
    let skirt = |wide: u32| {
        format!(
            "layer outer in canvas {{ panel }}\npiece panel \"Panel\" {{ cut 6; outline rectangle {wide} by 60 }}\n\
             seam side panel.left to panel.right\nfinish panel.top hem 2\nfinish panel.bottom hem 3\nopening panel.top passes hip"
        )
    };
    assert_eq!(too_small(&skirt(16)), None);
    assert_eq!(too_small(&skirt(15)).as_deref(), Some("4 cm"));
}

#[test]
fn what_lies_further_in_is_no_part_of_the_opening() {
    // The crown of a hat, 4 × 13 = 52 cm round, lets no head of 57 out at the other end.
    let hat = "layer outer in canvas { side, tip }\n\
        piece side \"Side\" { cut 1; outline rectangle 58 by 9 }\npiece tip \"Tip\" { cut 1; outline rectangle 13 by 13 }\n\
        seam back side.left to side.right\n\
        seam crown side.top to tip.bottom + tip.right + tip.top + tip.left  gathering 1..1.2 { matching side.top_left with tip.bottom_left }\n\
        finish side.bottom hem 2\nopening side.bottom passes head";
    let crowned: Vec<_> = told(hat).into_iter().filter(|(slug, _)| slug.starts_with("opening/")).collect();
    assert_eq!(crowned, []);
    // A gaiter 40 cm round above and 26 below goes on from below the knee; so does a straight skirt whose
    // hem is narrower than the hips.
    let gaiter = |above: u32, passes: &str| {
        format!(
            "layer outer in canvas {{ gaiter }}\npiece gaiter \"Gaiter\" {{ cut 1\npoint a = (-13, 0); point b = (13, 0)\n\
             point c = ({0}, 30); point d = (-{0}, 30)\noutline from a {{ lower to b; right to c; upper to d; left to a }} }}\n\
             seam back gaiter.left to gaiter.right\nfinish gaiter.upper, gaiter.lower hem 2\nopening gaiter.upper passes {passes}",
            above / 2
        )
    };
    let told_of = |text: &str| told(text).into_iter().filter(|(slug, _)| *slug == "opening/passes").count();
    assert_eq!(told_of(&gaiter(40, "calf")), 0);
    assert_eq!(told_of(&gaiter(36, "calf")), 1);
}

#[test]
fn an_opening_goes_all_round() {
    let skirt = |opening: &str| {
        told(&format!(
            "layer outer in canvas {{ front, back }}\n\
             piece front \"Front\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\n\
             seam side front.right to back.right\nfinish front.top, back.top hem 2\nfinish front.bottom, back.bottom hem 3\n\
             opening {opening} passes hip"
        ))
    };
    assert_eq!(skirt("front.top + back.top"), []);
    assert_eq!(skirt("back.top + front.top"), []);
    let broken = |title: &str| vec![("opening/ring", title.to_owned())];
    assert_eq!(skirt("front.top"), broken("the top of Front is no ring: it ends at front.top_right"));
    assert_eq!(
        skirt("front.top + back.bottom"),
        broken("the top of Front and the bottom of Back are no ring: they end at front.top_right")
    );
}

/// The document of one size.
fn document_of(text: &str) -> serde_json::Value {
    let compiled =
        compile(&MemoryLoader::new().with("galley.fus", format!("{HEADER}{text}\n")), "galley.fus");
    let document = fustian::emit::document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    serde_json::to_value(document).unwrap()["sizes"][0].clone()
}

#[test]
fn the_document_lists_openings_and_rims() {
    let size = document_of(&format!("{GATHERED}opening skirt.top passes hip"));
    // The waist lies at the waistband's 70 cm; its fold is 70 cm as well, the hem 120.
    let opening = &size["openings"][0];
    assert_eq!(opening["name"], "skirt.top");
    assert_eq!(
        (&opening["passes"], &opening["needs"], &opening["opens"]),
        (&json!("hip"), &json!(940), &json!(700))
    );
    assert_eq!(opening["rings"].as_array().unwrap().len(), 2);
    assert_eq!(opening["rings"][0]["held_by"], json!({ "by": "part", "what": "outer.waistband" }));
    let hem = json!({
        "name": "outer.skirt.bottom", "edges": [{ "edge": "outer.skirt.bottom" }],
        "length": 1200, "stretched": 1200, "opens": 1200
    });
    let fold = json!({
        "name": "fold of outer.waistband", "edges": [{ "edge": "outer.waistband.bottom", "fold": true }],
        "length": 700, "stretched": 700, "opens": 700, "passes": ["hip"]
    });
    assert_eq!(size["rims"], json!([hem, fold]));
}

/// A lined bag with an outer pocket, its mouth a zip between two facings.
const BAG: &str = "layer outer in canvas { bag, facing, pocket }\nlayer lining in jersey { bag }\n\
    piece bag \"Bag\" { cut 2 mirrored; outline rectangle 30 by 40; mark low = (5, 10) }\n\
    piece facing \"Facing\" { cut 2 mirrored; outline strip of bag along top width 4 }\n\
    piece pocket \"Pocket\" { cut 2 mirrored; outline rectangle 20 by 15 }\n\
    seam sides bag.left to bag.right { stitch 504; leaving gap 12 in lining, left }\n";

#[test]
fn the_document_says_how_things_lie_and_are_sewn() {
    let size = document_of(&format!(
        "{BAG}finish pocket.top hem 3 turned under 1 {{ stitch 301 }}\nfinish bag.top bound 1.5\n\
         place pocket on bag {{ corner bottom_left at low; topstitch left, right, bottom }}\n\
         finish bag.bottom casing 2.5 for elastic 2 of 40\ncord tie 90 through outer.bag.bottom ends 6 free"
    ));
    let piece = |name: &str| {
        let pieces = size["pieces"].as_array().unwrap();
        pieces.iter().find(|piece| piece["part"] == name).unwrap().clone()
    };
    assert_eq!(piece("outer.facing")["made_of"], json!({ "way": "strip", "pieces": ["bag"] }));
    let top = &piece("outer.pocket")["edges"][2];
    assert_eq!((&top["from"], &top["to"]), (&json!("top_right"), &json!("top_left")));
    assert_eq!(
        top["fates"],
        json!([{ "by": "finish", "name": "hem, turned under", "depth": 30, "turned_under": 10, "stitch": 301 }])
    );
    assert_eq!(
        piece("outer.bag")["edges"][2]["fates"],
        json!([{ "by": "finish", "name": "bound", "depth": 15 }])
    );
    let seam = &size["seams"][0];
    assert_eq!(
        (&seam["stitch"], &seam["gaps"]),
        (&json!(504), &json!([{ "length": 120, "layer": "lining", "hand": "left" }]))
    );
    let place = &size["placements"][0];
    assert_eq!((&place["part"], &place["on"]), (&json!("outer.pocket"), &json!("outer.bag")));
    assert_eq!(
        place["corners"],
        json!([{ "corner": "bottom_left", "mark": "low", "at": { "x": 50, "y": 100 } }])
    );
    assert_eq!(place["topstitched"], json!(["left", "right", "bottom"]));
    let (cord, elastic) = (&size["cords"][0], &size["elastic"][0]);
    assert_eq!(
        (&cord["length"], &cord["ends"], &cord["through"]),
        (&json!(900), &json!(60), &json!(["outer.bag.bottom"]))
    );
    assert_eq!(
        (&elastic["name"], &elastic["width"], &elastic["length"]),
        (&json!("bag.bottom"), &json!(20), &json!(400))
    );
}

#[test]
fn the_document_says_which_hands_meet_and_what_a_closure_closes() {
    let size = document_of(
        "layer outer in canvas { front, back }\n\
         piece front \"Front\" { cut 2 mirrored; outline rectangle 25 by 60 }\n\
         piece back \"Back\" { cut 1 on fold left; outline rectangle 25 by 60 }\n\
         seam side front.right to back.right\nclosure zip front.left to front.left { zipper separating 60 }\n\
         finish front.top, back.top hem 2\nfinish front.bottom, back.bottom hem 2",
    );
    let ends = json!([
        [{ "corner": "outer.front.bottom_right", "hand": "left" }, { "corner": "outer.back.bottom_right", "hand": "left" }],
        [{ "corner": "outer.front.top_right", "hand": "left" }, { "corner": "outer.back.top_right", "hand": "left" }]
    ]);
    assert_eq!(size["seams"][0]["ends"], ends);
    // The left edge runs down as it is drawn, so that both sides are taken the same way.
    let side =
        |hand: &str| json!([{ "edge": "outer.front.left", "hand": hand, "reversed": false, "length": 600 }]);
    assert_eq!(size["closures"][0]["chains"], json!([{ "first": side("left"), "second": side("right") }]));
}

/// A hood whose face opens at the neck: both rings touch there, and a head must go through both.
#[test]
fn a_hoods_neck_is_passed_as_well_as_its_face() {
    // The halves are 30 cm along the face, 60 together, and 26 along the neck.
    let round = |upper: &str, neck: u32| {
        let half = f64::from(neck) / 2.0;
        format!(
            "layer outer in canvas {{ front, back, hood }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle {half} by 60; divide left 9 from top_left into upper, left }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle {half} by 60 }}\n\
             piece hood \"Hood\" {{ cut 2 mirrored; outline rectangle {neck} by 30 }}\n\
             seam side front.right to back.right {{ matching front.top_right with back.top_right }}\n\
             seam centre front.left to front.left\n\
             seam spine hood.top + hood.right to hood.top + hood.right\n\
             seam neck hood.bottom to front.top + back.top  easing 0..1 {{ matching hood.bottom_left with front.top_left }}\n\
             finish hood.left hem 1\nfinish front.bottom, back.bottom hem 3\n{upper}\nopening hood.left passes head"
        )
    };
    let (sewn, zipped) = (
        "seam upper front.upper to front.upper",
        "closure zip front.upper to front.upper { zipper closed 9 }",
    );
    // 52 cm of neck lack 5 for 57; a zip of 9 adds 18.
    assert_eq!(too_small(&round(sewn, 26)).as_deref(), Some("5 cm"));
    assert_eq!(too_small(&round(zipped, 26)), None);
    assert_eq!(too_small(&round(sewn, 29)), None);
}

/// Fronts with a stand beyond their centre line, on which the buttons are: the neck ends at the fronts' edges.
#[test]
fn buttons_on_a_line_open_a_neck() {
    let shirt = |opening: &str| {
        let found = told(&format!(
            "layer outer in canvas {{ front, back }}\n\
             piece front \"Front\" {{ cut 2 mirrored\npoint a = (0, 0); point b = (0, 50); point c = (12, 50); point d = (20, 50)\n\
             point e = (28, 40); point f = (28, 0); point high = (2, 50); point low = (2, 0)\n\
             outline from a {{ edge to b; neck to c; shoulder to d; armhole to e; side to f; hem to a }}\nline centre from high to low }}\n\
             piece back \"Back\" {{ cut 1 on fold centre\npoint a = (2, 0); point b = (2, 50); point c = (12, 50); point d = (20, 50)\n\
             point e = (28, 40); point f = (28, 0)\noutline from a {{ centre to b; neck to c; shoulder to d; armhole to e; side to f; hem to a }} }}\n\
             seam shoulder front.shoulder to back.shoulder\nseam side front.side to back.side\n\
             finish front.neck, back.neck, front.armhole, back.armhole bound 1\nfinish front.hem, back.hem hem 3\nfinish front.edge hem 1 twice\n\
             closure placket front.centre to front.centre {{ buttons 5 of 15mm from 2 below high to 8 above low stand 2 left over right }}\n\
             opening {opening} passes head"
        ));
        found
            .into_iter()
            .filter(|(slug, _)| slug.starts_with("opening/"))
            .map(|(_, title)| title)
            .collect::<Vec<_>>()
    };
    // 2 × 12 + 2 × 10 cm of neck and 2 × 50 along the row go over the head.
    assert_eq!(shirt("front.neck + back.neck"), [""; 0]);
    assert_eq!(shirt("front.neck"), ["the neck of Front is no ring: it ends at front.c"]);
    assert_eq!(shirt("back.neck"), ["the neck of Back is no ring: it ends at back.c"]);
}
