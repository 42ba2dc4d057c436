//! A strip round a slit in the middle of a half on the fold: its ends begin and end the way round.

use crate::workbench::in_memory;
use fustian::sewing::{SewnRun, SewnSeam};
use fustian::{Compiled, compile};

/// The mess skirt, open in the middle behind: two halves of 24 on each side and a strip 1 wide at each end of the band, by hand
/// 4 x 24 + 2 = 98 cm.
const SKIRT: &str = "garment \"Mess skirt\"
units cm
allowance 1
fabric cotton \"white cotton\" { width 150 }
layer outer in cotton { front, back, band }
piece front \"Front\" { cut 1 on fold left; drawn left; outline rectangle 24 by 60 }
piece back \"Back\" {
  cut 1 on fold left
  drawn right
  outline rectangle 24 by 60
  slit opening on top at the fold down 16
}
placket strip on back.opening bound 1
piece band \"Waistband\" { cut 1; outline rectangle 98 by 8; folded top to bottom }
seam side   front.right to back.right
seam waist  band.bottom and band.top to strip.left + back.top + front.top + strip.right {
  matching band.bottom_left with strip.top_left
}
finish front.bottom, back.bottom  hem 3
finish band.left, band.right  overlocked
";

fn of(text: &str) -> Compiled {
    compile(&in_memory(&[("skirt.fus", text)]), "skirt.fus")
}

fn told(text: &str) -> Vec<(&'static str, String)> {
    let all = of(text);
    let all = all.diagnostics.iter().filter(|one| one.slug() != "steps/none");
    all.map(|one| (one.slug(), one.help_words().unwrap_or_default())).collect()
}

fn waist(skirt: &Compiled) -> &SewnSeam {
    let mut seams = skirt.sizes[0].sewn.seams.iter();
    seams.find(|sewn| &*skirt.garment.seam(sewn.seam).name == "waist").unwrap()
}

/// The edges that the band is sewn to, one after another.
fn way_round(text: &str) -> Vec<String> {
    let skirt = of(text);
    let size = &skirt.sizes[0];
    let runs = &waist(&skirt).second.plies[0].runs;
    let name = |run: &SewnRun| {
        let part = size.sewn.part(run.part).part;
        let edge = size.drawn.paper(part.paper).unwrap().edge_at(run.edge).unwrap().edge;
        format!("{}.{}", skirt.garment.piece(part.piece).name, skirt.garment.edge(edge).name)
    };
    runs.iter().map(name).collect()
}

#[test]
fn both_ends_of_the_strip_lie_at_the_ends_of_the_band() {
    assert_eq!(told(SKIRT), []);
    assert_eq!(
        way_round(SKIRT),
        ["strip.left", "back.top", "front.top", "front.top", "back.top", "strip.right"]
    );
    let skirt = of(SKIRT);
    let ply = &waist(&skirt).second.plies[0];
    assert!((ply.length - 980.0).abs() < 1e-6, "{}", ply.length);
}

/// Nothing lies between the halves of what is cut on the fold.
#[test]
fn what_would_lie_on_a_fold_is_told() {
    let tab = SKIRT
        .replace("outer in cotton { front", "outer in cotton { tab, front")
        .replace("piece band", "piece tab \"Tab\" { cut 1; outline rectangle 3 by 9 }\npiece band")
        .replace("rectangle 98 by 8", "rectangle 101 by 8")
        .replace("front.top + strip.right", "front.top + tab.top + strip.right")
        .replace("finish band.left", "finish tab.left, tab.bottom, tab.right, band.left");
    let told = told(&tab);
    let out = "both halves hang together at front.top_left, on the fold, and nothing is sewn in between";
    assert!(told.iter().any(|(slug, help)| *slug == "seam/ends" && help.starts_with(out)), "{told:?}");
}

/// Each of these slips is told.
#[test]
fn slips_are_told() {
    for (was, is, slug) in [
        ("rectangle 98", "rectangle 97", "seam/unequal"),
        ("front.top + strip.right", "front.top", "edge/loose"),
        (
            "strip.left + back.top + front.top + strip.right",
            "strip.right + back.top + front.top + strip.right",
            "edge/twice",
        ),
        ("down 16", "down 70", "slit/outside"),
        ("placket strip on back.opening bound 1\n", "", "name/unknown"),
        ("at the fold down 16", "at 6 from left down 16", "seam/unequal"),
    ] {
        let told = told(&SKIRT.replace(was, is));
        assert!(SKIRT.contains(was) && told.iter().any(|(own, _)| *own == slug), "{is}: {told:?}");
    }
}

/// A neckline that is slit in front, with a placket of two parts: seen from above, the under part, the left front, the back, the
/// right front and the over part. Nothing lies between the two halves of the back, which hang together.
#[test]
fn the_over_part_of_a_placket_in_front_lies_at_the_end_of_the_ring() {
    let text = SKIRT
        .replace("slit opening on top at the fold down 16\n", "")
        .replace(
            "drawn left; outline rectangle 24 by 60 }",
            "drawn left; outline rectangle 24 by 60; slit opening on top at the fold down 16 window 3 }",
        )
        .replace(
            "placket strip on back.opening bound 1",
            "placket strip on front.opening two-part over 3 under 3 right over left",
        )
        // By hand 4 x 24 - 3 + 2 x 3.
        .replace("rectangle 98 by 8", "rectangle 99 by 8")
        .replace(
            "strip.left + back.top + front.top + strip.right",
            "strip_under.left + front.top + back.top + strip_over.left",
        )
        .replace(
            "matching band.bottom_left with strip.top_left",
            "matching band.bottom_left with strip_under.top_left",
        );
    let edges = ["strip_under.left", "front.top", "back.top", "back.top", "front.top", "strip_over.left"];
    assert_eq!(way_round(&text), edges);
}
