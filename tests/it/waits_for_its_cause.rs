//! What cannot be known while something else is wrong is not told beside it, and the cause says the word that was meant: each slip
//! beside the same garment without it.

use crate::workbench::{NOTHING, helps, in_memory, mistake, said, told, with};
use fustian::compile;

/// Slugs and ways out of what is said of files in memory, the first of which is compiled, but for the order of work.
fn of_files(files: &[(&str, &str)]) -> (Vec<&'static str>, String) {
    let compiled = compile(&in_memory(files), files.first().map_or("", |(name, _)| name));
    let all = || compiled.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    (all().map(|one| one.slug()).collect(), all().filter_map(|one| one.help_words()).collect())
}

#[test]
fn a_mark_is_not_sought_on_a_rest_that_cannot_be_drawn() {
    let vest = mistake("mark-outside-cut-off");
    assert_eq!(said(&vest), ["mark/outside"]);
    // 40 of 30: no strip is left to be cut out, and of the rest nobody knows where it begins.
    let wide = said(&with(&vest, &[("along left width 6", "along left width 40")]));
    assert!(wide.contains(&"strip/broken") && !wide.contains(&"mark/outside"), "{wide:?}");
    // So where the whole hangs on a row that is one value short, and the mark lies in the rest: 10 is more than 6.
    let row = [
        ("fabric drill", "sizes S, M, L\nlet long = each 60, 62\nfabric drill"),
        ("rectangle 30 by 60", "rectangle 30 by long"),
        ("pocket_corner = (2, 20)", "pocket_corner = (10, 20)"),
    ];
    assert_eq!(said(&with(&vest, &row)), ["table/length"]);
    let whole = with(&with(&vest, &row), &[("each 60, 62", "each 60, 62, 64")]);
    assert_eq!(said(&whole), NOTHING);
}

#[test]
fn which_stitch_a_misspelt_one_is_cannot_be_asked() {
    let vest = mistake("stitch-breaks-unsaid");
    assert_eq!(said(&vest), ["stitch/breaks"]);
    let header = |stitch: &str| with(&vest, &[("allowance 1\n", &format!("allowance 1\nstitch {stitch}\n"))]);
    assert_eq!(said(&header("504")), NOTHING);
    assert_eq!(said(&header("540")), ["name/unknown"]);
    let seam = with(&vest, &[("to back.side\n", "to back.side { stitch 540 }\n")]);
    assert_eq!(said(&seam), ["name/unknown"]);
    // One that is known, and breaks, is told.
    assert_eq!(said(&header("301")), ["stitch/breaks"]);
}

/// A frill that is drawn in to the lower edge of a curtain.
const FRILL: &str = "garment \"Berth curtain\"\nunits cm\nallowance 1\nfabric lawn \"lawn\" { width 150 }\n\
     layer outer in lawn { curtain, frill }\npiece curtain \"Curtain\" { cut 1; outline rectangle 60 by 100 }\n\
     piece frill \"Frill\" { cut 1; outline rectangle 90 by 10 }\n\
     seam on  frill.top to curtain.bottom gathering 1.5 { matching frill.top_left with curtain.bottom_left; notch quarters }\n\
     finish curtain.left, curtain.right, curtain.top, frill.left, frill.right, frill.bottom  hem 1\n";

#[test]
fn a_misspelt_last_word_is_told_as_that() {
    assert_eq!(said(FRILL), NOTHING);
    for (slip, meant) in [("quater", "quarters"), ("thrids", "thirds"), ("quarter", "quarters")] {
        let text = with(FRILL, &[("notch quarters", &format!("notch {slip}"))]);
        assert_eq!(said(&text), ["syntax/expected"], "{slip}");
        assert_eq!(helps(&text), [format!("did you mean `{meant}`?")], "{slip}");
    }
    // What is near no word may be a number that is missing: the line ends too early.
    let none = with(FRILL, &[("notch quarters", "notch eight")]);
    assert!(told(&none).iter().any(|(_, title)| title.contains("the line ends where")), "{:?}", told(&none));
}

/// A jersey body with a zip up its front, and a rib round its hem.
const RIB: &str = "garment \"Deckhand's vest\"\nunits cm\nallowance 1\nstitch 504\nfabric jersey \"jersey\" { width 150; kind knit; stretch 50% across, 30% along }\n\
     fabric rib \"rib\" { width 60; kind knit; stretch 90% across, 20% along }\nlayer outer in jersey { front, back }\nlayer ribs in rib { hem_rib }\n\
     piece front \"Front\" { cut 2 mirrored; outline rectangle 25 by 60 }\npiece back \"Back\" { cut 2 mirrored; outline rectangle 25 by 60 }\n\
     seam side  front.left to back.right\nseam middle  back.left to back.left\n\
     finish front.top, back.top  hem 2\n\
     closure zip  front.right to front.right { zipper separating 60 }\n\
     band hem_rib \"Hem rib\" in ribs 6 deep folded along front.bottom + back.bottom at 85% opening at zip\n";

#[test]
fn a_share_behind_its_place_is_told_once() {
    let late = with(RIB, &[("at 85% opening at zip", "opening at zip at 85%")]);
    let of = said(&late);
    assert!(of.contains(&"syntax/trailing") && !of.contains(&"band/share"), "{of:?}");
    assert!(!of.contains(&"cloth/narrow"), "{of:?}");
    let help = helps(&late).concat();
    assert!(help.contains("write it before `opening at`: … at 85% opening at …"), "{help}");
    // Where nothing says a share, that is asked.
    let none = with(RIB, &[(" at 85%", "")]);
    assert!(said(&none).contains(&"band/share"), "{:?}", told(&none));
    assert!(
        !said(RIB).iter().any(|slug| slug.starts_with("band/") || slug.starts_with("syntax/")),
        "{:?}",
        told(RIB)
    );
}

/// A smock whose sleeve is the same in front as behind: 40 round its top, 20 of the front's armhole and 20 of the back's; a zip in its left
/// side tells left from right.
const SLEEVE: &str = "garment \"Deck smock\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150; kind woven firm }\n\
     layer outer in drill { front, back, sleeve }\n\
     piece front \"Front\" {\n  cut 2 mirrored\n  drawn right\n  point low = (0, 0)\n  point arm = (0, 40)\n  point tip = (0, 60)\n  point neck = (30, 60)\n\
     point foot = (30, 0)\n  outline from low { side to arm; armhole to tip; shoulder to neck; centre to foot; hem to low }\n}\n\
     piece back \"Back\" {\n  cut 2 mirrored\n  drawn right\n  point low = (30, 0)\n  point arm = (30, 40)\n  point tip = (30, 60)\n  point neck = (0, 60)\n\
     point foot = (0, 0)\n  outline from low { side to arm; armhole to tip; shoulder to neck; centre to foot; hem to low }\n}\n\
     piece sleeve \"Sleeve\" {\n  cut 2 mirrored\n  point rear = (0, 30)\n  point top = (20, 30)\n  point fore = (40, 30)\n  point low_f = (40, 0)\n\
     point low_b = (0, 0)\n  outline from rear { cap_b to top; cap_f to fore; under_f to low_f; wrist to low_b; under_b to rear }\n}\n\
     seam shoulder  front.shoulder to back.shoulder\nseam side  front.side to back.side\nseam under  sleeve.under_f to sleeve.under_b\n\
     seam armhole  sleeve.cap_b + sleeve.cap_f to back.armhole + front.armhole { matching sleeve.fore with front.arm }\n\
     seam fore  front.centre to front.centre\nseam rear  back.centre to back.centre\n\
     closure zip  front.side 5..25 from arm to back.side 5..25 from arm on left { zipper concealed 20 }\nfinish front.hem, back.hem, sleeve.wrist  hem 1\n";

#[test]
fn a_pair_that_is_cut_alike_is_told_as_that() {
    assert_eq!(said(SLEEVE), NOTHING, "{:?}", told(SLEEVE));
    let alike = with(SLEEVE, &[("\"Sleeve\" {\n  cut 2 mirrored", "\"Sleeve\" {\n  cut 2")]);
    assert_eq!(said(&alike), ["seam/twisted"], "{:?}", told(&alike));
    let help = helps(&alike).concat();
    assert!(help.contains("write cut 2 mirrored in piece sleeve"), "{help}");
}

/// A bag with a strap at each side of its mouth, which a buckle joins.
const BAG: &str = "garment \"Dry bag\"\nunits cm\nallowance 1\nfabric oilcloth \"oilcloth\" { width 150; kind woven firm }\n\
     fabric webbing \"webbing\" { width 2.5; kind woven firm }\nlayer outer in oilcloth { body, lip }\nlayer straps in webbing { tail, catch }\n\
     piece body \"Body\" { cut 1; outline rectangle 60 by 40 }\npiece lip \"Lip facing\" { cut 1; outline rectangle 60 by 4 }\n\
     seam back_seam  body.left to body.right\nseam lip_ends  lip.left to lip.right\n\
     seam mouth  lip.top to body.top { matching lip.top_left with body.top_left }\n\
     finish body.bottom, lip.bottom  overlocked\n\
     strap tail \"Buckle end\" 40 by 2.5 in straps { from body.top at 25% from top_left caught in mouth to free }\n\
     strap catch \"Tongue end\" 40 by 2.5 in straps { from body.top at 75% from top_left caught in mouth to free }\n\
     closure clip  tail.top to catch.top { buckle 25mm }\n";

#[test]
fn a_buckle_on_the_edge_of_a_bag_is_told_once() {
    assert_eq!(said(BAG), NOTHING, "{:?}", told(BAG));
    let edge = with(BAG, &[("tail.top to catch.top", "tail.top to body.top")]);
    assert_eq!(said(&edge), ["closure/buckle"], "{:?}", told(&edge));
    assert!(helps(&edge).concat().contains("name catch.top there"), "{:?}", helps(&edge));
    // A strap of another width goes through no such buckle, and is as long a side of it as it is wide.
    let wide = with(BAG, &[("catch \"Tongue end\" 40 by 2.5", "catch \"Tongue end\" 40 by 4")]);
    let of = said(&wide);
    assert!(of.contains(&"closure/buckle") && !of.contains(&"button/sides"), "{of:?}");
    assert!(helps(&wide).concat().contains("take a buckle of 4 cm"), "{:?}", helps(&wide));
}

#[test]
fn a_figure_of_elastic_that_is_none_is_told_as_that() {
    let skirt = mistake("elastic-short");
    assert_eq!(said(&skirt), ["elastic/short"]);
    assert!(helps(&skirt).concat().contains("take elastic that is at least"), "{:?}", helps(&skirt));
    // 1 of 110 is less than a twentieth; that 2 is wide for a ring of 1 only follows.
    let slip = with(&skirt, &[("elastic 2 of 26", "elastic 2 of 1")]);
    assert_eq!(said(&slip), ["elastic/short"]);
    assert!(helps(&slip).concat().contains("look at its figure"), "{:?}", helps(&slip));
}

const GAUGED: &str = "garment \"Hanging loop\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150; kind woven firm }\n\
     layer outer in drill { loop, gauge }\nlet far = 20 + length(gauge.top) + length(gauge.bottom)\n\
     piece loop \"Loop\" { cut 1; outline rectangle far by 6 }\npiece gauge \"Gauge\" { cut 1 loose; outline rectangle 10 by 10 }\n\
     finish loop.left, loop.right, loop.top, loop.bottom, gauge.left, gauge.right, gauge.top, gauge.bottom  overlocked\n";

#[test]
fn what_is_reckoned_twice_from_what_was_dropped_is_told_once() {
    let variation = "variation \"Loop alone\" of \"base.fus\"\ndrop gauge and all sewn to it\n";
    let (slugs, help) = of_files(&[("own.fus", variation), ("base.fus", GAUGED)]);
    assert_eq!(slugs.iter().filter(|slug| **slug == "drop/dangling").count(), 1, "{slugs:?}");
    assert!(help.contains("the let far is reckoned from gauge"), "{help}");
    // Two of them are told of each.
    let two =
        with(GAUGED, &[("piece loop", "let near = length(gauge.left)\npiece loop"), ("by 6", "by near")]);
    let (slugs, _) = of_files(&[("own.fus", variation), ("base.fus", &two)]);
    assert_eq!(slugs.iter().filter(|slug| **slug == "drop/dangling").count(), 2, "{slugs:?}");
}

#[test]
fn figures_wait_for_a_unit_that_stands_out_of_place() {
    let base = "garment \"Galley apron\"\nunits cm\nallowance 1\nwearer adult\nsizes S, M\nbody { chest 88, 96 }\npick size by chest\n\
         fabric drill \"drill\" { width 150; kind woven firm }\nlayer outer in drill { apron }\n\
         piece apron \"Apron\" { cut 1; outline rectangle chest / 2 by 60 }\n\
         finish apron.left, apron.right, apron.top, apron.bottom  hem 1\n";
    let fitted = |text: &str| of_files(&[("own.fus", text), ("base.fus", base)]).0;
    let within = "fitting \"Mate\" of \"base.fus\" { units in; body { chest 36 } }\n";
    assert_eq!(fitted(within), ["syntax/unknown-statement"]);
    // 36 in are 91.4 cm, between S and M; 36 cm are a child's.
    let outside = "units in\nfitting \"Mate\" of \"base.fus\" { body { chest 36 } }\n";
    assert!(!fitted(outside).iter().any(|slug| slug.starts_with("fitting/")), "{:?}", fitted(outside));
    let bare = "fitting \"Mate\" of \"base.fus\" { body { chest 36 } }\n";
    assert!(fitted(bare).contains(&"fitting/beyond"), "{:?}", fitted(bare));
}
