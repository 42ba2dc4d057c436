//! The way out that a message names is the one that cures: followed to the letter, nothing is wrong
//! any more.

use fustian::report::{RenderOptions, render};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

const HEADER: &str = "garment \"Stoker's shirt\"\nunits in\nallowance 1/2\ntolerance 1/16\n\
     fabric flannel \"flannel\" { width 58 }\n";

fn made(text: &str) -> Compiled {
    compile(&MemoryLoader::new().with("shirt.fus", format!("{HEADER}{text}\n")), "shirt.fus")
}

/// Slugs and whole messages.
fn found(text: &str) -> Vec<(&'static str, String)> {
    let compiled = made(text);
    let options = RenderOptions { width: 200, ..RenderOptions::default() };
    let message = |one: &fustian::Diagnostic| render(&compiled.map, std::slice::from_ref(one), options);
    compiled.diagnostics.iter().map(|one| (one.slug(), message(one))).collect()
}

/// Two armholes of 20 in, and sleeves of 20 in.
fn shirt(sleeves: &str, fit: &str) -> String {
    format!(
        "layer outer in flannel {{ body, sleeve }}\n\
         piece body \"Body\" {{ cut 2 mirrored; outline rectangle 20 by 20 }}\n\
         piece sleeve \"Sleeve\" {{ cut {sleeves}; outline rectangle 20 by 9 }}\n\
         seam armhole sleeve.top to body.top{fit}\n\
         finish body.left, body.right, body.bottom, sleeve.left, sleeve.right, sleeve.bottom raw"
    )
}

#[test]
fn one_sleeve_for_two_armholes_is_a_sleeve_too_few() {
    for fit in ["", " easing 0..1/4", " stretching 95%..105%"] {
        let told = found(&shirt("1", fit));
        let (_, message) =
            told.iter().find(|(slug, _)| ["seam/unequal", "seam/ease"].contains(slug)).unwrap();
        assert!(message.contains("cut 2 mirrored in piece sleeve"), "{fit}: {message}");
        assert!(found(&shirt("2 mirrored", fit)).iter().all(|(slug, _)| *slug != "seam/unequal"), "{fit}");
    }
    // 21 in twice are not 20 in twice: nothing is said of counts.
    let longer = shirt("1", "").replace("rectangle 20 by 9", "rectangle 21 by 9");
    assert!(found(&longer).iter().all(|(_, message)| !message.contains("cut 2 mirrored in")), "{longer}");
}

/// The rib stretches 80 % across and 20 % along; its cuff must stretch by a quarter.
#[test]
fn a_cuff_that_would_stretch_the_other_way_is_told_to_be_turned() {
    let cuff = |grain: &str| {
        format!(
            "fabric rib \"rib\" {{ width 30; stretch 80% across, 20% along; kind knit }}\n\
             layer outer in flannel {{ sleeve }}\nlayer knit in rib {{ cuff }}\n\
             piece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 10 by 9 }}\n\
             piece cuff \"Cuff\" {{ cut 2 mirrored; outline rectangle 8 by 5; folded top to bottom; {grain} }}\n\
             seam under sleeve.left to sleeve.right\n\
             seam ends cuff.left to cuff.right {{ matching cuff.top_left with cuff.top_right }}\n\
             seam wrist knit.cuff.top and knit.cuff.bottom to outer.sleeve.bottom stretching 75%..85% {{\n\
             matching cuff.top_left with sleeve.bottom_left\n}}\nfinish sleeve.top raw"
        )
    };
    let told = found(&cuff("grain across"));
    let stretch: Vec<&String> =
        told.iter().filter(|(slug, _)| *slug == "seam/stretch").map(|(_, message)| message).collect();
    assert_eq!(stretch.len(), 1, "once for both plies: {told:#?}");
    assert!(stretch[0].contains("turn its grain: rib stretches 80 % the other way"), "{}", stretch[0]);
    assert!(stretch[0].contains("its grain lies across"), "{}", stretch[0]);
    assert!(found(&cuff("grain up")).iter().all(|(slug, _)| *slug != "seam/stretch"));
}

/// What is said twice of one thing is not settled by which comes last.
#[test]
fn facts_that_are_said_twice_are_reported() {
    let body = "layer outer in flannel { body }\npiece body \"Body\" { cut 2 mirrored; outline rectangle 20 by 20 }\n\
         finish body.left, body.top, body.bottom raw\n";
    for (fact, found_once) in [
        ("width 40", true),
        ("stretch 5% across; stretch 0% along", false),
        ("stretch 5% across; stretch 9% across", true),
        ("selvage 1/2; selvage 1", true),
        ("nap none; nap one-way", true),
    ] {
        let text = format!("{body}seam side body.right to body.right\n");
        let compiled = compile(
            &MemoryLoader::new()
                .with("shirt.fus", HEADER.replace("width 58", &format!("width 58; {fact}")) + &text),
            "shirt.fus",
        );
        let twice = compiled.diagnostics.iter().filter(|one| one.slug() == "name/declared-twice").count();
        assert_eq!(twice, usize::from(found_once), "{fact}: {:#?}", compiled.diagnostics);
    }
    for items in ["stitch 301; stitch 504", "allowance 1/4; allowance 3/8"] {
        let told = found(&format!("{body}seam side body.right to body.right {{ {items} }}"));
        assert_eq!(told.iter().filter(|(slug, _)| *slug == "name/declared-twice").count(), 1, "{items}");
    }
}

/// Two cuffs that close along two lines of their own have a button each; a left and a right half that
/// close along one line have one row.
#[test]
fn buttons_along_lines_are_counted_for_every_copy() {
    let count = |text: &str| -> Vec<Option<u32>> {
        let compiled = made(text);
        compiled.sizes[0].sewn.notions.iter().map(|need| need.count).collect()
    };
    let cuff = |cut: &str| {
        format!(
            "layer outer in flannel {{ cuff }}\n\
             piece cuff \"Cuff\" {{ cut {cut}; outline rectangle 10 by 3; point low = (1, 0); point high = (9, 0)\n\
             line buttons from (1, 0) to (1, 3); line holes from (9, 0) to (9, 3) }}\n\
             closure wrist cuff.buttons to cuff.holes {{ buttons 1 of 7/16in from 1 above low to 1 above low }}\n\
             finish cuff.left, cuff.top, cuff.right, cuff.bottom raw"
        )
    };
    assert_eq!(count(&cuff("2 mirrored")), [Some(2)]);
    assert_eq!(count(&cuff("1")), [Some(1)]);
    let front = "layer outer in flannel { front }\n\
         piece front \"Front\" { cut 2 mirrored; outline rectangle 12 by 20; point low = (1, 0); line centre from (1, 0) to (1, 20) }\n\
         closure placket front.centre to front.centre { buttons 5 of 1/2in from 2 above low to 18 above low }\n\
         finish front.left, front.top, front.right, front.bottom raw";
    assert_eq!(count(front), [Some(5)]);
}

/// A line of 20 in takes a button 20 in from its end, and no farther.
#[test]
fn a_button_beyond_its_line_is_told_how_far_the_line_goes() {
    let front = |last: &str| {
        format!(
            "layer outer in flannel {{ front }}\n\
             piece front \"Front\" {{ cut 2 mirrored; outline rectangle 12 by 20; point low = (1, 0); line centre from (1, 0) to (1, 20) }}\n\
             closure placket front.centre to front.centre {{ buttons 5 of 1/2in from 2 above low to {last} low }}\n\
             finish front.left, front.top, front.right, front.bottom raw"
        )
    };
    let message = |last: &str| {
        let told = found(&front(last));
        told.into_iter()
            .find(|(slug, _)| *slug == "button/beyond")
            .map(|(_, message)| message)
            .unwrap_or_default()
    };
    assert!(
        message("24 above").contains("from that point the line has room for 20 in"),
        "{}",
        message("24 above")
    );
    assert!(message("18 below").contains("the other way"), "{}", message("18 below"));
    assert_eq!(message("18 above"), "");
}

/// An edge that nothing takes has no allowance yet: that it is loose is said, and nothing of its room.
#[test]
fn nothing_is_made_of_the_allowance_of_a_loose_edge() {
    let slit = |finish: &str| {
        format!(
            "layer outer in flannel {{ sleeve }}\n\
             piece sleeve \"Sleeve\" {{ cut 2 mirrored\n\
             point a = (0, 0); point b = (5, 0); point c = (5, 4); point d = (5.1, 0); point e = (10, 0); point f = (10, 20); point g = (0, 20)\n\
             outline from a {{ low to b; slit_a to c; slit_b to d; low_b to e; right to f; top to g; left to a }}\n}}\n\
             seam under sleeve.left to sleeve.right\n\
             finish sleeve.top, sleeve.low, sleeve.low_b raw\nfinish sleeve.slit_a{finish} bound 1/4"
        )
    };
    let slugs = |finish: &str| found(&slit(finish)).into_iter().map(|(slug, _)| slug).collect::<Vec<_>>();
    assert!(slugs("").contains(&"edge/loose"), "{:?}", slugs(""));
    assert!(!slugs("").contains(&"cutting/too-wide"), "{:?}", slugs(""));
    assert!(!slugs(", sleeve.slit_b").contains(&"edge/loose"), "{:?}", slugs(", sleeve.slit_b"));
}

/// An edge divided in two seams, both left to right, goes straight on where they meet; and a hem that
/// dips where two chains meet is told at the edge that is there.
#[test]
fn a_kink_is_where_two_edges_go_on_in_one_another() {
    let front = "layer outer in flannel { front }\n\
         piece front \"Front\" { cut 2 mirrored; outline rectangle 12 by 20; divide left 9 from top_left into upper, lower }\n\
         seam upper front.upper to front.upper\nseam lower front.lower to front.lower\n\
         finish front.top, front.right, front.bottom raw";
    assert!(found(front).iter().all(|(slug, _)| !slug.ends_with("kink")), "{:#?}", found(front));
    let legs = "layer outer in flannel { front, back }\n\
         piece front \"Front\" { cut 2 mirrored\n point a = (0, 0); point b = (10, 0); point c = (9, 12); point d = (9, 20); point e = (0, 20)\n\
         outline from a { hem to b; side to c; upper to d; waist to e; inside to a }\n}\n\
         piece back \"Back\" { cut 2 mirrored; outline copy of front }\n\
         seam outer front.upper + front.side to back.upper + back.side\nseam inner front.inside to back.inside\n\
         finish front.waist, back.waist  hem 1\nfinish front.hem, back.hem  hem 1";
    let told = found(legs);
    let kink = told.iter().find(|(slug, _)| *slug == "hem/kink").map(|(_, message)| message.as_str());
    assert!(
        kink.is_some_and(
            |kink| kink.contains("in front hem … curve leaving square to inside arriving square to side")
        ),
        "{told:#?}"
    );
    // Said so, it goes on square to the seam; where the edge leaves the seam, it says leaving.
    let cured = legs.replace("hem to b", "hem to b curve leaving square to inside arriving square to side");
    assert!(found(&cured).iter().all(|(slug, _)| *slug != "hem/kink"), "{:#?}", found(&cured));
    let other_way = legs.replace(
        "from a { hem to b; side to c; upper to d; waist to e; inside to a }",
        "from b { hem to a; inside to e; waist to d; upper to c; side to b }",
    );
    let told = found(&other_way);
    let kink = told.iter().find(|(slug, _)| *slug == "hem/kink").map(|(_, message)| message.as_str());
    assert!(
        kink.is_some_and(
            |kink| kink.contains("in front hem … curve leaving square to side arriving square to inside")
        ),
        "{told:#?}"
    );
    let cured =
        other_way.replace("hem to a", "hem to a curve leaving square to side arriving square to inside");
    assert!(found(&cured).iter().all(|(slug, _)| *slug != "hem/kink"), "{:#?}", found(&cured));
}
