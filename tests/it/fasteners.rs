//! Snaps, hooks, toggles, ties and buckles: where they lie, how many are bought, and what they ask for. Every
//! wrong case stands beside a sound neighbour; figures are worked out by hand.

use crate::workbench::{err, folder_of, run};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use serde_json::Value as Json;

fn of(text: &str) -> Compiled {
    let heading =
        "garment \"Deck vest\"\nunits cm\nallowance 1\nfabric shell \"waxed cotton\" { width 150 }\n";
    let loader = MemoryLoader::new().with("vest.fus", format!("{heading}{text}\n"));
    compile(&loader, "vest.fus")
}

fn slugs(text: &str) -> Vec<&'static str> {
    let told = of(text).diagnostics.into_iter().map(|one| one.slug());
    told.filter(|slug| *slug != "steps/none").collect()
}

/// A front of 30 by 60 in pairs, and these facts.
fn front(line: &str, rest: &str) -> String {
    format!(
        "layer outer in shell {{ front }}\n\
         piece front \"Front\" {{ cut 2 mirrored; outline rectangle 30 by 60; {line} }}\n{rest}\n"
    )
}

const HEMMED: &str = "finish front.left, front.right, front.top, front.bottom  hem 3";

fn places(compiled: &Compiled, part: usize) -> Vec<(f64, f64)> {
    let part = &compiled.sizes[0].sewn.parts[part];
    part.fasteners.iter().map(|one| (one.at.x, one.at.y)).collect()
}

/// In the order in which they are bought: what, how many, and how long each is in millimetres.
fn bought(compiled: &Compiled) -> Vec<(String, Option<u32>, Option<f64>)> {
    let garment = &compiled.garment;
    let needs = compiled.sizes[0].sewn.notions.iter();
    needs.map(|need| (need.name.words(garment), need.count, need.length)).collect()
}

/// Three on 60 cm without ends said: each has 20, its own middle at 10, 30 and 50, counted down from the top.
#[test]
fn without_ends_each_has_its_share_of_the_line() {
    let closure = "closure front  front.left to front.left { toggles 3 of 40mm }";
    let compiled = of(&front("", &format!("{HEMMED}\n{closure}")));
    let at = places(&compiled, 0);
    let expected = [(0.0, 500.0), (0.0, 300.0), (0.0, 100.0)];
    assert_eq!(at.len(), 3);
    for ((x, y), (own_x, own_y)) in at.iter().zip(expected) {
        assert!((x - own_x).abs() < 1e-6 && (y - own_y).abs() < 1e-6, "{at:?}");
    }
    assert_eq!(bought(&compiled), [("toggle 40 mm".to_owned(), Some(3), None)]);
    assert_eq!(slugs(&front("", &format!("{HEMMED}\n{closure}"))), [""; 0]);
}

/// A band of 8 folded to 4: two hooks at a quarter and three quarters of the half that stays outside, beside
/// the bottom, onto which the top is brought: 3 and 1 above it.
#[test]
fn on_a_folded_end_they_stand_on_the_half_that_stays_outside() {
    let band = "layer outer in shell { band }\npiece band \"Band\" { cut 1; outline rectangle 70 by 8; folded top to bottom }\n\
                seam long  band.top to band.bottom\nfinish band.left, band.right  overlocked\n\
                closure waist  band.left to band.right { hooks 2 }";
    let compiled = of(band);
    let mut heights: Vec<f64> = places(&compiled, 0).iter().map(|(_, y)| *y).collect();
    heights.sort_by(f64::total_cmp);
    assert_eq!(heights.len(), 4);
    for (is, expected) in heights.iter().zip([10.0, 10.0, 30.0, 30.0]) {
        assert!((is - expected).abs() < 1e-6, "{heights:?}");
    }
    assert_eq!(bought(&compiled), [("hook and eye".to_owned(), Some(2), None)]);
}

/// Both sleeves have one: two closures of 2 snaps are 4; two of 3 pairs of ties are 12 ties of 25.
#[test]
fn they_are_counted_for_every_copy() {
    let cuff = |lines: &str, rest: &str| {
        format!(
            "layer outer in shell {{ cuff }}\n\
             piece cuff \"Cuff\" {{ cut 2 mirrored; outline rectangle 24 by 20; {lines} }}\n\
             finish cuff.top, cuff.bottom, cuff.left, cuff.right  hem 4\n{rest}\n"
        )
    };
    let lines = "line low along at (2, 0); line high along at (22, 0)";
    let snaps = of(&cuff(lines, "closure wrist  cuff.low to cuff.high { snaps 2 of 12mm }"));
    assert_eq!(bought(&snaps), [("snap 12 mm".to_owned(), Some(4), None)]);
    // Two on both lines of 20: 5 and 15 up.
    assert_eq!(places(&snaps, 0).len(), 4);
    let ties = of(&cuff("", "closure wrist  cuff.left to cuff.right { ties 3 of 25 }"));
    assert_eq!(bought(&ties), [("tie".to_owned(), Some(12), Some(250.0))]);
    let pieces = of(&cuff("", "closure wrist  cuff.left to cuff.right { ties }"));
    assert_eq!(bought(&pieces), []);
    assert_eq!(places(&pieces, 0), []);
}

#[test]
fn buttons_and_snaps_need_cloth_that_laps() {
    let open = "finish front.right, front.top, front.bottom  hem 3";
    let closed =
        |how: &str| slugs(&front("", &format!("{open}\nclosure row  front.left to front.left {{ {how} }}")));
    assert_eq!(closed("snaps 6 of 15mm"), ["closure/lap"]);
    // Buttons and buttonholes lie on one another as the halves of a snap do.
    let buttons = "buttons 6 of 15mm from 2 below top_left to 2 above bottom_left";
    assert_eq!(closed(buttons), ["closure/lap"]);
    assert_eq!(closed(&format!("{buttons} stand 2")), [""; 0]);
    assert_eq!(closed("snaps 6 of 15mm stand 2"), [""; 0]);
    assert_eq!(closed("snaps 6 of 15mm stand 0.5"), ["button/edge"]);
    assert_eq!(closed("snaps 0 of 15mm stand 2"), ["button/count"]);
    assert_eq!(closed("snaps 2.5 of 15mm stand 2"), ["button/count"]);
    // 34 on 56 cm are 1.697 apart, and each takes 1.5 and 2 mm; 33 are 1.75 apart, closer than is usual.
    let between = "from 2 below top_left to 2 above bottom_left stand 2";
    assert_eq!(closed(&format!("snaps 34 of 15mm {between}")), ["button/close"]);
    assert_eq!(closed(&format!("snaps 33 of 15mm {between}")), ["button/spacing"]);
    // Hooks hold an edge that is finished: by themselves they finish nothing.
    assert_eq!(closed("hooks 20"), ["edge/loose"]);
}

/// A snap of 15 mm reaches from 7.5 before its middle to 7.5 beyond; a hem of 3 ends at 30 mm.
#[test]
fn a_snap_lies_on_the_hem_or_clear_of_it() {
    let row = |from: f64| {
        let closure = format!("closure row  front.row to front.row {{ snaps 6 of 15mm stand {from} }}");
        slugs(&front(&format!("line row along at ({from}, 0)"), &format!("{HEMMED}\n{closure}")))
    };
    assert_eq!(row(1.5), [""; 0]);
    assert_eq!(row(3.0), ["closure/ridge"]);
    assert_eq!(row(2.5), ["closure/ridge"]);
    assert_eq!(row(2.2), [""; 0]);
    assert_eq!(row(4.0), [""; 0]);
}

#[test]
fn a_strap_goes_through_its_buckle() {
    let belt = |wide: f64, buckle: &str| {
        slugs(&format!(
            "layer outer in shell {{ belt }}\npiece belt \"Belt\" {{ cut 1 loose; outline rectangle 100 by {wide} }}\n\
             finish belt.top, belt.bottom, belt.left, belt.right  raw\n\
             closure waist  belt.left to belt.right {{ buckle {buckle} }}\n"
        ))
    };
    assert_eq!(belt(2.5, "25mm"), [""; 0]);
    assert_eq!(belt(2.5, "1in"), [""; 0]);
    assert_eq!(belt(2.0, "25mm"), [""; 0]);
    assert_eq!(belt(3.0, "25mm"), ["closure/buckle"]);
    assert_eq!(belt(1.5, "25mm"), ["closure/buckle"]);
    assert_eq!(belt(2.5, "-25mm"), ["value/negative"]);
}

/// Half a band, cut on the fold at its middle: folded, its end of 8 is 4 wide and lies clear of the fold. A half
/// band with the fold along it has half an end of 4, which is 8 wide once it is open.
#[test]
fn the_end_of_half_a_strap() {
    let belt = |fold: &str, folded: &str, buckle: &str, along: &str| {
        slugs(&format!(
            "layer outer in shell {{ belt }}\npiece belt \"Belt\" {{ cut 1 on fold {fold}; outline rectangle 50 by {along}; {folded} }}\n\
             finish belt.top, belt.right  raw\nfinish belt.{}  raw\n\
             closure waist  belt.right to belt.right {{ buckle {buckle} }}\n",
            if fold == "left" { "bottom" } else { "left" }
        ))
    };
    assert!(!belt("left", "folded top to bottom", "40mm", "8").contains(&"closure/buckle"));
    assert!(belt("left", "folded top to bottom", "80mm", "8").contains(&"closure/buckle"));
    assert!(!belt("bottom", "", "80mm", "4").contains(&"closure/buckle"));
    assert!(belt("bottom", "", "40mm", "4").contains(&"closure/buckle"));
}

#[test]
fn a_childs_snaps_and_ties_meet_cautions() {
    let vest = |how: &str, name: &str| {
        let open = "finish front.right, front.top, front.bottom  hem 3";
        let left = if how.starts_with("snaps") { "" } else { "finish front.left  hem 2\n" };
        let text = front("", &format!("{open}\n{left}closure {name}  front.left to front.left {{ {how} }}"));
        slugs(&format!("wearer child from 1 to 4 years\n{text}"))
    };
    assert_eq!(vest("snaps 6 of 15mm stand 2", "row"), ["caution/small-parts"]);
    assert_eq!(vest("ties 3 of 20", "row"), ["caution/cord"]);
    assert_eq!(vest("ties 3 of 20", "neck_ties"), ["caution/cord"]);
    assert_eq!(vest("hooks 20", "row"), ["caution/small-parts"]);
}

/// 5 snaps at 0.50 are 2.50; of ties the price is for their length: 6 of 25 are 1.5 m, at 2 a metre 3.00.
#[test]
fn they_are_priced_by_what_they_are() {
    let text = front(
        "line row along at (1.5, 0)",
        &format!(
            "{HEMMED}\nclosure row  front.row to front.row {{ snaps 5 of 15mm stand 1.5 }}\n\
             closure tied  front.right to front.right {{ ties 3 of 25 }}\n\
             notion \"snap 15mm\" price 0.50 each\nnotion \"ties\" price 2 per m\n"
        ),
    );
    let heading = "garment \"Vest\"\nunits cm\nallowance 1\nfabric shell \"waxed cotton\" { width 150 }\n";
    let folder = folder_of(&[("vest.fus", &format!("{heading}{text}"))]);
    let output = run(folder.path(), &["materials", "vest.fus", "--format", "json"]);
    assert!(output.status.success(), "{}", err(&output));
    let told: Json = serde_json::from_slice(&output.stdout).unwrap();
    let notions = told["sizes"]["one size"]["notions"].as_array().unwrap();
    let costs: Vec<(&str, Option<f64>)> =
        notions.iter().map(|one| (one["kind"].as_str().unwrap(), one["cost"]["amount"].as_f64())).collect();
    assert_eq!(costs, [("snap", Some(2.5)), ("tie", Some(3.0))]);
}

/// A skirt whose waistband laps over its zip, with a hook on the one end and its bar on the other.
const HOOKED: &str = "garment \"Mess skirt\"
units cm
allowance 1.5
body { hip 75 }
fabric wool \"navy wool\" { width 150; kind woven firm }
layer outer in wool { panel, band }
piece panel \"Panel\" { cut 1; outline rectangle 80 by 50 }
piece band \"Waistband\" { cut 1; outline rectangle 80 by 8; folded top to bottom }
closure zip panel.left 20 from top_left to panel.right 20 from top_right { zipper concealed 20 }
seam centre panel.left to panel.right
seam waist band.bottom and band.top to panel.top { matching band.bottom_left with panel.top_left }
closure hook band.left to band.right { hooks 1 stand 2.5 left over right }
finish panel.bottom hem 3
opening panel.top passes hip
steps { \"All\" { sew zip, centre, waist, hook; hem panel.bottom } }
";

/// The ends go on by 2.5, and by 1.5 of allowance beyond that; the hook lies in the middle of the half that is seen, 2 from
/// the fold.
#[test]
fn a_waistband_laps_with_a_hook() {
    use crate::workbench::with;
    assert_eq!(crate::workbench::said(HOOKED), crate::workbench::NOTHING);
    let compiled = compile(&MemoryLoader::new().with("skirt.fus", HOOKED), "skirt.fus");
    let sewn = &compiled.sizes[0].sewn;
    let garment = &compiled.garment;
    let band =
        sewn.parts.iter().find(|part| &*garment.piece(part.part.piece).name == "band").expect("a band");
    let drawn = compiled.sizes[0].drawn.paper(band.part.paper).expect("drawn");
    for (edge, fate) in drawn.edges.iter().zip(&band.edges) {
        let by_hand = match &*garment.edge(edge.edge).name {
            "left" | "right" => 40.0,
            _ => 15.0,
        };
        assert_eq!(fate.allowance, Some(by_hand), "{}", garment.edge(edge.edge).name);
    }
    assert_eq!(band.fasteners.len(), 2);
    assert!(band.fasteners.iter().all(|one| [0.0, 800.0].contains(&one.at.x)));
    // Without the stand the ends are left loose; with it they are not finished as well; ties do not lap.
    for (from, to, slug) in [
        (" stand 2.5", "", "edge/loose"),
        ("finish panel.bottom hem 3", "finish panel.bottom, band.left hem 3", "edge/twice"),
        ("hooks 1 stand 2.5", "ties 1 of 30 stand 2.5", "closure/lap"),
        ("stand 2.5", "stand 0.2", "button/edge"),
    ] {
        let all = crate::workbench::told(&with(HOOKED, &[(from, to)]));
        assert!(all.iter().any(|(own, _)| *own == slug), "{to}: {all:?}");
    }
}
