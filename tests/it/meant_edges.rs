//! Which edge, which end and which copy is meant: raglan sleeves, buttons, rows that change layer, patches.
//! What is refused, and the sound garment beside it.

use crate::workbench::{NOTHING, mistake, said, with};
use fustian::compile;
use fustian::source::MemoryLoader;

#[test]
fn a_raglan_sleeve_is_not_set_in_upside_down() {
    let jersey = mistake("opening-ring-apart");
    assert_eq!(said(&jersey), ["opening/ring"]);
    let sound = with(
        &jersey,
        &[
            ("matching front.d with sleeve.h", "matching front.d with sleeve.k"),
            ("matching back.d with sleeve.m", "matching back.d with sleeve.l"),
        ],
    );
    assert_eq!(said(&sound), NOTHING);
    // Where the corners' names say what lies there, they tell it too, though no opening is spoken of.
    let named = |text: &str| {
        let pairs = [
            ("point c ", "point underarm "),
            ("side   to c", "side   to underarm"),
            ("point d ", "point neck_side "),
            ("raglan to d", "raglan to neck_side"),
            ("front.d", "front.neck_side"),
            ("back.d", "back.neck_side"),
            ("point h ", "point underarm_front "),
            ("under_front  to h", "under_front  to underarm_front"),
            ("point k ", "point neck_front "),
            ("front_raglan to k", "front_raglan to neck_front"),
            ("point l ", "point neck_back "),
            ("neck         to l", "neck         to neck_back"),
            ("point m ", "point underarm_back "),
            ("back_raglan  to m", "back_raglan  to underarm_back"),
            ("passes head", "passes head"),
        ];
        let text = with(text, &pairs);
        let text =
            text.replace("sleeve.h", "sleeve.underarm_front").replace("sleeve.m", "sleeve.underarm_back");
        let text = text.replace("sleeve.k", "sleeve.neck_front").replace("sleeve.l", "sleeve.neck_back");
        let (before, _) = text.split_once("\nopening ").expect("an opening");
        before.to_owned()
    };
    assert_eq!(said(&named(&jersey)), ["opening/unsaid", "seam/upside-down", "seam/upside-down"]);
    assert_eq!(said(&named(&sound)), ["opening/unsaid"]);
}

#[test]
fn the_front_edge_of_a_raglan_sleeve_is_sewn_to_the_front() {
    let jersey = mistake("seam-back-to-front-raglan");
    assert_eq!(said(&jersey), ["seam/back-to-front"]);
    let exchange = [
        (
            "sleeve.back_raglan { matching front.d with sleeve.l; stitch 504 }",
            "sleeve.front_raglan { matching front.d with sleeve.k; stitch 504 }",
        ),
        (
            "back.raglan to sleeve.front_raglan { matching back.d with sleeve.k; stitch 504 }",
            "back.raglan to sleeve.back_raglan { matching back.d with sleeve.l; stitch 504 }",
        ),
    ];
    assert_eq!(said(&with(&jersey, &exchange)), NOTHING);
    // A sleeve that is its own mirror image may be set in either way: its copies change sides.
    assert_eq!(said(&with(&jersey, &[("point f = (-4, 0)", "point f = (-2, 0)")])), NOTHING);
}

#[test]
fn a_row_of_edges_stays_in_its_layer() {
    let skirt = mistake("seam-crossed-row");
    assert_eq!(said(&skirt), ["seam/crossed"]);
    let own = [(
        "outer.front.top + lining.back.top to lining.front.top + outer.back.top",
        "outer.front.top + outer.back.top to lining.front.top + lining.back.top",
    )];
    assert_eq!(said(&with(&skirt, &own)), NOTHING);
    // Round a ring the rows may begin anywhere: front still lies on front.
    let turned = [(
        "outer.front.top + lining.back.top to lining.front.top + outer.back.top",
        "outer.front.top + outer.back.top to lining.back.top + lining.front.top",
    )];
    assert_eq!(said(&with(&skirt, &turned)), NOTHING);
    // Unless a corner is matched with what lies on the other side.
    let vest = with(&skirt, &turned).replace(
        "to lining.back.top + lining.front.top",
        "to lining.back.top + lining.front.top { matching outer.front.top_left with lining.back.top_left }",
    );
    assert!(
        said(&vest)
            .iter()
            .any(|slug| ["seam/crossed", "seam/ends", "seam/matching", "seam/twisted"].contains(slug)),
        "{:?}",
        said(&vest)
    );
}

#[test]
fn a_cuff_is_buttoned_on_its_own_other_end() {
    let shrug = mistake("closure-left-to-right");
    assert_eq!(said(&shrug), ["closure/left-to-right"]);
    let own = [("cuff.button_line to cuff.button_line", "cuff.button_line to cuff.hole_line")];
    assert_eq!(said(&with(&shrug, &own)), NOTHING);
    // Two that are cut alike are no left and right one, and each goes round by itself all the same.
    assert_eq!(said(&with(&shrug, &[("cut 2 mirrored", "cut 2")])), ["closure/left-to-right"]);
}

/// Faced with a lining whose edges enclose it, a front zip closes left on right: the rim that would tell lies hidden
/// between the two layers, and nothing is said.
#[test]
fn what_a_seam_encloses_shuts_left_on_right() {
    let lined = "garment \"Lookout's vest\"
units cm
allowance 1
fabric shell \"dry-waxed cotton\" { width 150; kind woven firm }
fabric twill \"lining twill\" { width 140; kind woven firm }
layer outer  in shell { front, back }
layer lining in twill { front, back }
piece front \"Front\" { cut 2 mirrored; outline rectangle 27 by 60; divide right 20 from top_right into armhole, side }
piece back \"Back\" { cut 1 on fold left; outline rectangle 27 by 60; divide right 20 from top_right into armhole, side }
seam side      front.side to back.side
seam shoulder  front.top 12 from top_right to back.top 12 from top_right
seam edge      outer.front.left to lining.front.left  enclosing front_zip
seam hem       outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom
finish outer.front.armhole, outer.back.armhole, lining.front.armhole, lining.back.armhole  overlocked
finish outer.front.top 0..15 from top_left, outer.back.top 0..15 from top_left  overlocked
finish lining.front.top 0..15 from top_left, lining.back.top 0..15 from top_left  overlocked
closure front_zip  outer.front.left to outer.front.left { zipper separating 60 }
";
    let slugs = said(lined);
    assert!(!slugs.contains(&"closure/left-to-right"), "{slugs:?}");
    // It is the front edges that meet: the same zip in the side edges of a whole back would not.
    assert!(!slugs.iter().any(|slug| slug.starts_with("name/")), "{slugs:?}");
}

#[test]
fn two_fronts_are_buttoned_left_on_right() {
    let vest = mistake("step-early-buttons");
    let (before, _) = vest.split_once("\nsteps {").expect("steps");
    assert_eq!(said(before), NOTHING);
    let lined = mistake("closure-sewn-shut-line");
    assert_eq!(said(&lined), ["closure/sewn-shut"]);
    assert_eq!(said(&with(&lined, &[("to lining.front.centre", "to outer.front.centre")])), NOTHING);
}

#[test]
fn a_front_edge_is_hemmed_before_its_buttonholes_are_worked() {
    let vest = mistake("step-early-buttons");
    assert_eq!(said(&vest), ["step/early"]);
    let last = [("  \"Buttons\" { sew buttons }\n", ""), ("\n}\n", "\n  \"Buttons\" { sew buttons }\n}\n")];
    let sound = with(&vest, &last[..1]);
    let sound = format!(
        "{}\n  \"Buttons\" {{ sew buttons }}\n}}\n",
        sound.trim_end().trim_end_matches('}').trim_end()
    );
    assert_eq!(said(&sound), NOTHING);
    // The lower hem may be turned later: the row does not lie along it.
    let low = with(
        &sound,
        &[
            ("; hem front.bottom, back.bottom }", " }"),
            (
                "  \"Buttons\" { sew buttons }\n",
                "  \"Buttons\" { sew buttons; hem front.bottom, back.bottom }\n",
            ),
        ],
    );
    assert_eq!(said(&low), NOTHING);
}

#[test]
fn a_frill_on_a_cushion_of_two_layers_does_not_cover_their_edges() {
    let cushion = mistake("turn-closed-frill");
    assert_eq!(said(&cushion), ["turn/closed"]);
    // 160 cm round: a band as long as the cushion is bound on over both layers, wrong sides together.
    let band = [
        ("rectangle 240 by 8\n  grain across", "rectangle 160 by 8\n  grain across\n  folded top to bottom"),
        ("upper.frill.top to", "upper.frill.top and upper.frill.bottom to"),
        ("  gathering 1.4..1.6 {", " {"),
        ("finish frill.bottom  hem 1\n", ""),
    ];
    assert_eq!(said(&with(&cushion, &band)), NOTHING);
    let gap =
        [("matching frill.top_left with panel", "leaving gap 16\n  matching frill.top_left with panel")];
    assert_eq!(said(&with(&cushion, &gap)), NOTHING);
}

#[test]
fn a_patch_says_that_it_is_sewn_down_all_round() {
    let vest = mistake("place-shut");
    assert_eq!(said(&vest), ["place/shut"]);
    let all_round = with(&vest, &[("topstitch left, bottom, right, top", "topstitch all round")]);
    // What is called a pocket is none so.
    assert_eq!(said(&all_round), ["place/shut"]);
    let patch = all_round.replace("pocket", "patch").replace("Pocket", "Patch");
    assert_eq!(said(&patch), NOTHING);
    // What is said all round is all of it: no edge is hemmed beside that.
    assert_eq!(said(&format!("{patch}finish patch.top  hem 1\n")), ["edge/twice"]);
    let compiled = compile(&MemoryLoader::new().with("own.fus", patch), "own.fus");
    let document = fustian::emit::document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
    let document = serde_json::to_value(&document).expect("plain data");
    let mut edges: Vec<&str> = document["sizes"][0]["placements"][0]["topstitched"]
        .as_array()
        .expect("its edges")
        .iter()
        .filter_map(|edge| edge.as_str())
        .collect();
    edges.sort_unstable();
    assert_eq!(edges, ["bottom", "left", "right", "top"]);
}

#[test]
fn what_is_placed_is_there_when_it_is_placed() {
    let tabard = mistake("place-gone");
    assert_eq!(said(&tabard), ["place/gone"]);
    let (before, _) = tabard.split_once("\nsplit ").expect("a split");
    assert_eq!(said(&format!("{before}\n")), NOTHING);
}

#[test]
fn a_slit_is_no_kink_and_its_hem_ends_at_the_cuff() {
    let shrug = with(
        &mistake("closure-left-to-right"),
        &[("cuff.button_line to cuff.button_line", "cuff.button_line to cuff.hole_line")],
    );
    // Both edges of the slit meet at its top with all the cloth round them, and run on to the cuff's ends.
    assert_eq!(said(&shrug), NOTHING);
    let order = |last: &str| {
        format!(
            "{shrug}steps {{\n  \"Sides\" {{ sew under }}\n  {last}\n  \"Edges\" {{ hem body.neck, body.hem; sew cuff_button }}\n}}\n"
        )
    };
    let (hem, cuff) = (
        "\"Slits\" { hem body.slit_up, body.slit_low }",
        "\"Cuffs\" { finish cuff.left, cuff.right; sew wrist }",
    );
    assert_eq!(said(&order(&format!("{hem}\n  {cuff}"))), NOTHING);
    // A folded cuff lies over the slit's ends on both sides.
    let late = said(&order(&format!("{cuff}\n  {hem}")));
    assert!(!late.is_empty() && late.iter().all(|slug| *slug == "step/early"), "{late:?}");
    // Its buttons go through both its plies.
    let early = order(&format!("\"Early\" {{ sew cuff_button }}\n  {hem}\n  {cuff}"));
    assert_eq!(said(&early.replace("; sew cuff_button }", " }")), ["step/early"]);
}

/// Two panels of a skirt, gathered to a bodice that is whole already.
#[test]
fn what_a_seam_runs_over_from_left_to_right_is_joined_before() {
    let skirt = |cut: &str, steps: &str| {
        let side = |piece: &str| match cut {
            "cut 2 mirrored" => format!("seam {piece}_front {piece}.left to {piece}.left\n"),
            _ => String::new(),
        };
        format!(
            "garment \"Galley dress\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" {{ width 140; selvage 1 }}\n\
             layer outer in cotton {{ skirt, bodice }}\n\
             piece skirt \"Skirt\" {{ {cut}; outline rectangle 50 by 34 }}\n\
             piece bodice \"Bodice\" {{ cut 1 on fold left; outline rectangle 50 by 30 }}\n{}\
             seam skirt_back skirt.right to skirt.right\nseam bodice_back bodice.right to bodice.right\n\
             seam waist skirt.top to bodice.bottom {{ matching skirt.top_left with bodice.bottom_left }}\n\
             finish skirt.bottom, bodice.top hem 4 turned under 1\n\
             steps {{ \"Sew\" {{ {steps}; hem skirt.bottom, bodice.top }} }}\n",
            side("skirt")
        )
    };
    let pair = "cut 2 mirrored";
    assert_eq!(said(&skirt(pair, "sew bodice_back, skirt_front, skirt_back, waist")), NOTHING);
    assert_eq!(said(&skirt(pair, "sew bodice_back, skirt_front, waist, skirt_back")), ["step/early"]);
    assert_eq!(
        said(&skirt(pair, "sew bodice_back, waist, skirt_front, skirt_back")),
        ["step/early", "step/early"]
    );
    // What is open on both sides is sewn up in one afterwards.
    assert_eq!(said(&skirt("cut 1 on fold left", "sew waist, bodice_back, skirt_back")), NOTHING);
}

#[test]
fn a_facing_goes_on_behind_a_buttonhole_that_lies_across() {
    let waistcoat = mistake("button-facing-short");
    assert_eq!(said(&waistcoat), ["button/facing-short"]);
    let wide = |width: &str| said(&with(&waistcoat, &[("width 3.3", width)]));
    // The row lies 2 cm from the edge. Half a button of 15 mm and 3 mm are 10.5 mm; a buttonhole, as long as the
    // button is wide and 3 mm thick, 18 mm.
    assert_eq!(wide("width 3"), ["button/facing"]);
    assert_eq!(wide("width 3.1"), ["button/facing-short"]);
    assert_eq!(wide("width 3.9"), NOTHING);
}

/// The amounts of a way out are those of all sizes.
#[test]
fn a_zip_that_fits_in_no_size_is_told_what_each_needs() {
    let bag = |zip: &str| {
        format!(
            "garment \"Ditty bag\"\nunits cm\nallowance 1\nsizes S, M\nbody {{ girth 20, 22 }}\npick size by girth\n\
             fabric canvas \"canvas\" {{ width 140 }}\nlayer outer in canvas {{ panel }}\n\
             piece panel \"Panel\" {{ cut 2 mirrored; outline rectangle 20 by girth\n line middle across at (0, 10) }}\n\
             seam side panel.right to panel.right\nfinish panel.top, panel.bottom hem 1\n\
             closure front panel.left to panel.left {{ zipper separating {zip} }}\n"
        )
    };
    let help = |zip: &str| {
        let compiled = compile(&MemoryLoader::new().with("own.fus", bag(zip)), "own.fus");
        let one = compiled.diagnostics.iter().find(|one| one.slug() == "zipper/length").expect("a zip");
        one.help.clone().unwrap_or_default()
    };
    // 25 less 20 and 22; and then 25 less 20, 27 less 22.
    assert!(help("25").starts_with("lengthen panel at middle by each 5cm, 3cm;"), "{}", help("25"));
    assert!(help("25").ends_with("take a zip of each 20cm, 22cm"), "{}", help("25"));
    assert!(help("each 25, 27").starts_with("lengthen panel at middle by 5cm;"), "{}", help("each 25, 27"));
    // What is said can be written.
    let mended = format!("{}lengthen panel at middle by each 5cm, 3cm\n", bag("25"));
    let compiled = compile(&MemoryLoader::new().with("own.fus", mended), "own.fus");
    assert!(compiled.diagnostics.iter().all(|one| one.slug() != "zipper/length"));
    assert_eq!(said(&bag("each 20, 22")), NOTHING);
}

/// A flap of two plies in the top seam of a roll of two: until the roll is turned it lies inside.
#[test]
fn a_flap_is_sewn_before_the_roll_is_closed_over_it() {
    let roll = |steps: &str| {
        let panel = |layer: &str| format!("{layer}.panel.left + {layer}.panel.bottom + {layer}.panel.right");
        let flap = |layer: &str| format!("{layer}.flap.left + {layer}.flap.top + {layer}.flap.right");
        format!(
            "garment \"Tool roll\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 140; selvage 1 }}\n\
             layer outside in canvas {{ panel, flap }}\nlayer inside in canvas {{ panel, flap }}\n\
             piece panel \"Panel\" {{ cut 1; outline rectangle 60 by 36 }}\n\
             piece flap \"Flap\" {{ cut 1; outline rectangle 60 by 12 }}\n\
             seam flap_edge {} to {}\nseam edge {} to {}\n\
             seam top outside.panel.top and outside.flap.bottom to inside.panel.top and inside.flap.bottom {{\n\
             leaving gap 20 in inside\nmatching panel.top_right with flap.bottom_right }}\n\
             steps {{ \"Sew\" {{ {steps} }} }}\n",
            flap("outside"),
            flap("inside"),
            panel("outside"),
            panel("inside"),
        )
    };
    let turning = "turn through gap in top; slipstitch gap in top";
    assert_eq!(said(&roll(&format!("sew flap_edge, edge, top; {turning}"))), NOTHING);
    assert_eq!(said(&roll(&format!("sew edge, flap_edge, top; {turning}"))), NOTHING);
    assert_eq!(said(&roll(&format!("sew edge, top, flap_edge; {turning}"))), ["step/shut"]);
}

/// A pocket beside the middle of each of two panels that are sewn to one another by one edge.
#[test]
fn what_lies_beside_the_middle_makes_a_left_and_a_right_one() {
    let skirt = |cut: &str, at: &str, front: &str| {
        format!(
            "garment \"Galley skirt\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" {{ width 140; selvage 1 }}\n\
             layer outer in cotton {{ skirt, pocket }}\n\
             piece skirt \"Skirt\" {{ {cut}; outline rectangle 50 by 34; mark pocket_at = ({at}, 12) }}\n\
             piece pocket \"Pocket\" {{ cut 2; outline rectangle 10 by 12 }}\n{front}\n\
             finish skirt.bottom, skirt.top, pocket.top hem 2\n\
             place pocket on skirt {{ corner bottom_left at pocket_at; topstitch left, bottom, right }}\n"
        )
    };
    let by_one_edge = "seam front skirt.left to skirt.left\nseam back skirt.right to skirt.right";
    assert_eq!(said(&skirt("cut 2 mirrored", "8", by_one_edge)), NOTHING);
    assert_eq!(said(&skirt("cut 2", "8", by_one_edge)), ["pair/same"]);
    // In the middle it lies alike on both; (50 - 10) / 2.
    assert_eq!(said(&skirt("cut 2", "20", by_one_edge)), NOTHING);
}

/// A facing is a strip of what it lies on: where that turns at a seam, it does as well, and once is enough.
#[test]
fn a_kink_is_told_once_and_not_of_the_facing_again() {
    let tunic = |facing: &str| {
        format!(
            "garment \"Deck tunic\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" {{ width 140; selvage 1 }}\n\
             layer outer in cotton {{ front, back }}\nlayer inside in cotton {{ front_facing, back_facing }}\n\
             piece front \"Front\" {{ cut 1 on fold centre\npoint a = (0, 0)\npoint b = (26, 0)\npoint c = (26, 50)\n\
             point d = (9, 60)\npoint e = (0, 42)\n\
             outline from a {{ hem to b; side to c; shoulder to d; neck to e; centre to a }} }}\n\
             piece back \"Back\" {{ cut 1 on fold centre\npoint a = (0, 0)\npoint b = (26, 0)\npoint c = (26, 50)\n\
             point d = (9, 60)\npoint e = (0, 40)\n\
             outline from a {{ hem to b; side to c; shoulder to d; neck to e; centre to a }} }}\n\
             piece front_facing \"Front facing\" {{ cut 1 on fold centre; outline strip of front along neck width 4 }}\n\
             piece back_facing \"Back facing\" {{ cut 1 on fold centre; outline {facing} }}\n\
             seam shoulder outer.front.shoulder to outer.back.shoulder\nseam side outer.front.side to outer.back.side\n\
             seam facing inside.front_facing.shoulder to inside.back_facing.shoulder\n\
             seam neck outer.front.neck + outer.back.neck to inside.front_facing.neck + inside.back_facing.neck\n\
             finish outer.front.hem, outer.back.hem hem 3\n\
             finish inside.front_facing.inner, inside.back_facing.inner overlocked\n"
        )
    };
    // Of each neck the angle to the shoulder is some 33 and 35°: together far less than a half turn.
    assert_eq!(said(&tunic("strip of back along neck width 4")), ["seam/kink"]);
}
