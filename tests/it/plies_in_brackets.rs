//! Plies that lie on a part of a seam only: `a + (b and c) + d`. Lengths are added up by hand.

use crate::drafting::same;
use crate::workbench::of;
use fustian::Compiled;
use fustian::sewing::{SewnPly, TakenBy};

/// A smock with a yoke of two layers: its armhole is 20 of the front, 6 of both yokes and 20 of the back.
fn smock(armhole: &str, inside: &str) -> String {
    let half = |name: &str, title: &str, top: &str| {
        format!(
            "piece {name} \"{title}\" {{ cut 1 on fold centre\npoint middle = (0, 60)\npoint {top} = (20, 60)\n\
             point underarm = (20, 40)\npoint hem_side = (20, 0)\npoint hem_middle = (0, 0)\n\
             outline from hem_middle {{ centre to middle; top to {top}; armhole to underarm; side to hem_side; hem to hem_middle }} }}\n"
        )
    };
    let yoke = |name: &str, deep: &str| {
        format!(
            "piece {name} {{ cut 1 on fold centre\npoint low = (0, 0)\npoint blade = (20, 0)\npoint tip = (20, {deep})\n\
             point high = (0, {deep})\noutline from low {{ bottom to blade; armhole to tip; top to high; centre to low }} }}\n"
        )
    };
    format!(
        "garment \"Purser smock\"\nunits cm\nallowance 1\ntolerance 2mm\nfabric cotton \"cotton\" {{ width 150 }}\n\
         layer outer in cotton {{ front, back, yoke, sleeve }}\nlayer inside in cotton {{ inner }}\n{}{}{}{}\
         piece sleeve \"Sleeve\" {{ cut 2 mirrored\npoint front_end = (0, 40)\npoint back_end = (46, 40)\n\
         point low_back = (46, 0)\npoint low_front = (0, 0)\n\
         outline from front_end {{ cap to back_end; under_back to low_back; wrist to low_front; under_front to front_end }} }}\n\
         seam yoke_back yoke.bottom and inside.inner.bottom to back.top\n\
         seam yoke_front yoke.top and inside.inner.top to front.top {{ matching yoke.tip with front.tip }}\n\
         seam side front.side to back.side\nseam under sleeve.under_front to sleeve.under_back\n\
         seam armhole sleeve.cap to {armhole} {{ matching sleeve.front_end with front.underarm }}\n\
         finish front.hem, back.hem, sleeve.wrist overlocked\n",
        half("front", "Front", "tip"),
        half("back", "Back", "blade"),
        yoke("yoke", "6"),
        yoke("inner", inside),
    )
}

const ARMHOLE: &str = "front.armhole + (yoke.armhole and inside.inner.armhole) + back.armhole";

fn told(text: &str) -> Vec<String> {
    let all = of(text).diagnostics.into_iter().filter(|one| one.slug() != "steps/none");
    all.filter(|one| !one.slug().starts_with("opening/"))
        .map(|one| format!("{}: {}", one.slug(), one.title))
        .collect()
}

fn plies<'a>(compiled: &'a Compiled, name: &str) -> Vec<&'a SewnPly> {
    let mut all = compiled.sizes[0].sewn.seams.iter();
    let sewn = all.find(|sewn| *compiled.garment.seam(sewn.seam).name == *name).expect("the seam");
    sewn.first.plies.iter().chain(&sewn.second.plies).collect()
}

/// 20 + 6 + 20 = 46, as the cap is; the inside of the yoke is 6 of them, and counts once.
#[test]
fn plies_in_brackets_count_once() {
    let text = smock(ARMHOLE, "6");
    assert_eq!(told(&text), [""; 0]);
    let compiled = of(&text);
    let all = plies(&compiled, "armhole");
    assert_eq!(all.len(), 3);
    for ply in &all {
        same(ply.length, 460.0);
    }
    let own: Vec<f64> = all[2].runs.iter().filter(|run| !run.elsewhere).map(|run| run.length).collect();
    assert_eq!(own.len(), 1);
    same(own[0], 60.0);
    // It is sewn there, once on each side of the body, and has its joints notched as what it lies on.
    let sewing = &compiled.sizes[0].sewn;
    let inner = sewing
        .parts
        .iter()
        .find(|part| *compiled.garment.piece(part.part.piece).name == *"inner")
        .expect("it is cut");
    let taken = inner.edges.iter().flat_map(|fate| &fate.takers);
    assert_eq!(taken.filter(|taker| matches!(taker.what, TakenBy::Seam(..))).count(), 3);
    let surface = sewing.surface.as_ref().expect("it can be put together");
    let stacks = surface.joins.iter().filter(|join| join.plies.len() == 3).count();
    // Two halves of both yoke seams, and both armholes.
    assert_eq!(stacks, 6);
    assert!(surface.twists.is_empty());
}

/// An inside of 7 is 1 more than the yoke of 6: that is told, and not that the seam is unequal.
#[test]
fn plies_in_brackets_equal_each_other() {
    let told = told(&smock(ARMHOLE, "7"));
    assert!(
        told.iter()
            .any(|one| one.starts_with("seam/plies") && one.contains("armhole") && one.contains("1 cm")),
        "{told:?}"
    );
    assert!(!told.iter().any(|one| one.starts_with("seam/unequal")), "{told:?}");
}

/// Left out of the brackets it is loose; the other way round in them the seam is the same.
#[test]
fn what_is_left_out_is_loose() {
    let told_of = |armhole: &str| told(&smock(armhole, "6"));
    let without = told_of("front.armhole + yoke.armhole + back.armhole");
    assert!(without.iter().any(|one| one.starts_with("edge/loose")), "{without:?}");
    assert_eq!(told_of("front.armhole + (inside.inner.armhole and yoke.armhole) + back.armhole"), [""; 0]);
    let twice = told_of("front.armhole + (yoke.armhole and yoke.armhole) + back.armhole");
    assert!(
        twice.iter().any(|one| one.starts_with("edge/twice") || one.starts_with("seam/pairing")),
        "{twice:?}"
    );
}
