//! Elastic and cords against what they run through and the body. Every figure is worked out by hand.

use fustian::compile;
use fustian::source::MemoryLoader;

/// Slugs and titles of what is told of a garment, but for its order of work and for openings that are not said.
fn told(text: &str) -> Vec<(&'static str, String)> {
    let header = "garment \"Galley things\"\nunits cm\nallowance 1\ntolerance 2mm\n\
                  body { waist 70; hip 96 }\nfabric canvas \"canvas\" { width 300 }\n";
    let compiled =
        compile(&MemoryLoader::new().with("galley.fus", format!("{header}{text}\n")), "galley.fus");
    // Where a cord comes out is asked elsewhere.
    let beside = ["steps/none", "opening/unsaid", "cord/shut"];
    let told = compiled.diagnostics.into_iter().filter(|one| !beside.contains(&one.slug()));
    told.map(|one| (one.slug(), one.title.to_string())).collect()
}

fn slugs(text: &str) -> Vec<&'static str> {
    told(text).into_iter().map(|(slug, _)| slug).collect()
}

/// A skirt 100 cm round, its top finished so.
fn skirt(top: &str) -> String {
    format!(
        "layer outer in canvas {{ skirt }}\npiece skirt \"Skirt\" {{ cut 1; outline rectangle 100 by 60 }}\n\
         seam back skirt.left to skirt.right\nfinish skirt.top {top}\nfinish skirt.bottom hem 3"
    )
}

fn elastic(wide: &str, long: &str) -> String {
    skirt(&format!("casing 3 for elastic {wide} of {long}"))
}

#[test]
fn elastic_is_no_longer_than_its_casing() {
    // 100 cm of casing; the tolerance is 2 mm.
    assert_eq!(slugs(&elastic("2", "100")), [""; 0]);
    assert_eq!(slugs(&elastic("2", "100.2")), [""; 0]);
    let (slug, title) = told(&elastic("2", "104")).remove(0);
    assert_eq!((slug, title.contains("4 cm longer")), ("elastic/long", true), "{title}");
    // Two sleeves of 30 cm each: the casing of one is 30 cm, not 60.
    let sleeves = |long: &str| {
        format!(
            "layer outer in canvas {{ sleeve }}\npiece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 30 by 50 }}\n\
             seam under sleeve.left to sleeve.right\nfinish sleeve.bottom casing 2 for elastic 1 of {long}\nfinish sleeve.top hem 2"
        )
    };
    assert_eq!(slugs(&sleeves("30")), [""; 0]);
    assert_eq!(slugs(&sleeves("31")), ["elastic/long"]);
}

#[test]
fn cloth_is_gathered_to_no_less_than_a_quarter() {
    // 100 / 4 = 25 cm.
    assert_eq!(slugs(&elastic("2", "25")), [""; 0]);
    assert_eq!(slugs(&elastic("2", "24")), ["elastic/short"]);
}

#[test]
fn elastic_holds_only_where_it_is_shorter_than_the_body() {
    // 70 × 90 % = 63, 70 × 100 % = 70; 70 × 110 % = 77 cm, 7 more than the waist.
    assert_eq!(slugs(&elastic("2", "waist * 90%")), [""; 0]);
    // Common practice takes off 5 to 10 %; with less than 3 %, from 67.9 cm on, nothing is held up. The tolerance is 2 mm.
    assert_eq!(slugs(&elastic("2", "waist - 2")), [""; 0]);
    assert_eq!(slugs(&elastic("2", "waist - 1.8")), ["elastic/slack"]);
    assert_eq!(slugs(&elastic("2", "waist")), ["elastic/slack"]);
    let (slug, title) = told(&elastic("2", "waist * 110%")).remove(0);
    assert_eq!((slug, title.contains("7 cm longer than the waist")), ("elastic/loose", true), "{title}");
    // Worked out from two measures, or from none, nobody says where it is worn.
    assert_eq!(slugs(&elastic("2", "(waist + hip) / 2")), [""; 0]);
    assert_eq!(slugs(&elastic("2", "77")), [""; 0]);
}

/// Soft elastic stretches to 2½ times its length (common practice).
#[test]
fn the_hip_goes_through_stretched_elastic() {
    let passes = |long: &str| format!("{}\nopening skirt.top passes hip", elastic("2", long));
    // 38.4 × 2.5 = 96 cm; 38 × 2.5 = 95, 1 cm too little. Of longer elastic the casing's own 100 cm count.
    assert_eq!(slugs(&passes("38.4")), [""; 0]);
    assert_eq!(slugs(&passes("waist * 90%")), [""; 0]);
    let (slug, title) = told(&passes("38")).remove(0);
    assert_eq!((slug, title.contains("1 cm too small for the hip")), ("opening/passes", true), "{title}");
    // Only the back is elasticated, its 50 cm to 15 × 2.5 = 37.5: with 50 in front 87.5, 8.5 too little.
    let halves = |long: &str| {
        format!(
            "layer outer in canvas {{ front, back }}\npiece front \"Front\" {{ cut 1; outline rectangle 50 by 60 }}\n\
             piece back \"Back\" {{ cut 1; outline copy of front }}\n\
             seam left front.left to back.left\nseam right front.right to back.right\n\
             finish back.top casing 3 for elastic 2 of {long}\nfinish front.top hem 3\n\
             finish front.bottom, back.bottom hem 3\nopening front.top + back.top passes hip"
        )
    };
    let found = told(&halves("15"));
    assert!(
        found.iter().any(|(slug, title)| *slug == "opening/passes" && title.contains("8.5 cm too small")),
        "{found:?}"
    );
    // 20 × 2.5 = 50: all 100 cm.
    assert!(!slugs(&halves("20")).contains(&"opening/passes"));
}

#[test]
fn elastic_has_room_in_its_casing() {
    // 3 cm deep: 2.7 leaves 3 mm, 2.8 leaves 2 mm; 3 and more does not go in.
    assert_eq!(slugs(&elastic("2.7", "70")), [""; 0]);
    assert_eq!(slugs(&elastic("2.8", "70")), ["casing/tight"]);
    assert_eq!(slugs(&elastic("3", "70")), ["casing/narrow"]);
    assert_eq!(slugs(&elastic("3.2", "70")), ["casing/narrow"]);
}

#[test]
fn a_cord_comes_out_at_both_ends() {
    let cord = |cord: &str| format!("{}\ncord tie {cord}", skirt("casing 2"));
    // 100 cm round; the tolerance is 2 mm.
    assert_eq!(slugs(&cord("100 through skirt.top")), [""; 0]);
    assert_eq!(slugs(&cord("120 through skirt.top ends 10 free")), [""; 0]);
    let (slug, title) = told(&cord("92 through skirt.top ends 10 free")).remove(0);
    assert_eq!((slug, title.as_str()), ("cord/short", "tie is 8 cm shorter than what it runs through"));
    // Twice 60 cm are all of 120, and nothing is left for a channel of 100; twice 61 are more than all. Of 26 the skirt is drawn
    // together to a quarter.
    assert_eq!(slugs(&cord("120 through skirt.top ends 47 free")), [""; 0]);
    let (slug, title) = told(&cord("120 through skirt.top ends 60 free")).remove(0);
    assert_eq!(
        (slug, title.as_str()),
        ("cord/ends", "with its ends out tie has 0 cm left in a channel of 100 cm")
    );
    assert_eq!(slugs(&cord("120 through skirt.top ends 61 free")), ["cord/ends"]);
    // Short cords are sewn to the ends of elastic.
    let both = format!("{}\ncord tie 60 through skirt.top ends 20 free", elastic("2", "63"));
    assert_eq!(slugs(&both), [""; 0]);
    // Two bags have a cord each, of 40 cm and not of 80.
    let bags = "layer outer in canvas { bag }\npiece bag \"Bag\" { cut 2; outline rectangle 40 by 30 }\n\
         seam side bag.left to bag.right\nfinish bag.top casing 2\nfinish bag.bottom hem 2\ncord tie 44 through bag.top";
    assert_eq!(slugs(bags), [""; 0]);
}

#[test]
fn a_cord_runs_through_a_channel() {
    for (top, found) in [
        ("casing 2", None),
        ("hem 2 turned under 1", None),
        ("hem 1 twice", None),
        ("bound 1", None),
        ("raw", Some("cord/channel")),
        ("overlocked", Some("cord/channel")),
    ] {
        let text = format!("{}\ncord tie 120 through skirt.top ends 10 free", skirt(top));
        assert_eq!(slugs(&text), found.into_iter().collect::<Vec<_>>(), "{top}");
    }
    let seam = format!("{}\ncord tie 120 through skirt.left", skirt("hem 2"));
    assert_eq!(slugs(&seam), ["cord/seam"]);
    // A casing is for something to run through.
    assert_eq!(slugs(&skirt("casing 2")), ["casing/empty"]);
    // A band folded over holds a cord, though both its edges are sewn to the skirt.
    let band = "layer outer in canvas { skirt, band }\npiece skirt \"Skirt\" { cut 1; outline rectangle 100 by 60 }\n\
         piece band \"Band\" { cut 1; outline rectangle 100 by 6; folded top to bottom }\n\
         seam back skirt.left to skirt.right\nseam band_ends band.left to band.right\n\
         seam waist band.top and band.bottom to skirt.top { matching band.top_left with skirt.top_left }\n\
         finish skirt.bottom hem 3\ncord tie 130 through band.top ends 15 free";
    let found = slugs(band);
    assert!(!found.iter().any(|slug| slug.starts_with("cord/")), "{found:?}");
}

/// One tie runs through both armholes of an apron: it is bought once.
#[test]
fn an_aprons_tie_is_one_cord() {
    let apron = "layer outer in canvas { apron }\npiece apron \"Apron\" {\n  cut 1 on fold centre\n\
         point bib = (0, 80)\n  point bib_end = (12, 80)\n  point waist = (30, 50)\n  point hem_end = (30, 0)\n  point hem_centre = (0, 0)\n\
         outline from hem_centre {\n centre to bib\n top to bib_end\n slope to waist\n side to hem_end\n hem to hem_centre\n }\n}\n\
         finish apron.top, apron.side, apron.hem hem 2\nfinish apron.slope casing 3\n";
    // Each slope is √(18² + 30²) = 34.99 cm, both 69.97.
    assert!(!slugs(&format!("{apron}cord tie 69.9 through apron.slope")).contains(&"cord/short"));
    assert!(slugs(&format!("{apron}cord tie 69 through apron.slope")).contains(&"cord/short"));
    let header = "garment \"Galley apron\"\nunits cm\nallowance 1\ntolerance 2mm\nfabric canvas \"canvas\" { width 150 }\n";
    let text = format!("{header}{apron}cord tie 280 through apron.slope ends 70 free\n");
    let compiled = compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus");
    assert_eq!(compiled.sizes[0].sewn.notions[0].count, Some(1));
}

#[test]
fn a_price_for_nothing_is_reported_with_what_there_is() {
    let priced = |price: &str| told(&format!("{}\nnotion \"{price}\" price 1 each", elastic("2", "70")));
    for fits in ["elastic", "elastic 2 cm", "elastic 20mm wide"] {
        assert_eq!(priced(fits), [], "{fits}");
    }
    for nothing in ["elastic 3 cm wide", "button 15 mm", "zip", "hanging loop"] {
        let found = priced(nothing);
        assert_eq!(found.iter().map(|one| one.0).collect::<Vec<_>>(), ["notion/unneeded"], "{nothing}");
    }
    // What is listed with an amount is bought, and prices itself.
    assert_eq!(slugs(&format!("{}\nnotion \"hanging loop\" 1 price 1 each", elastic("2", "70"))), [""; 0]);
}

/// Sewn on to 100 cm: no longer than that, a quarter at the least, and no longer than the waist of 70 that its
/// length is said by. It is bought with 2 cm that join its ends (common practice): 70 × 90 % + 2 = 65.
#[test]
fn elastic_is_sewn_on_to_an_edge() {
    let sewn_on = |long: &str| slugs(&skirt(&format!("elastic 2 of {long}")));
    assert_eq!(sewn_on("100"), [""; 0]);
    assert_eq!(sewn_on("104"), ["elastic/long"]);
    assert_eq!(sewn_on("25"), [""; 0]);
    assert_eq!(sewn_on("24"), ["elastic/short"]);
    assert_eq!(sewn_on("waist * 90%"), [""; 0]);
    assert_eq!(sewn_on("waist * 110%"), ["elastic/loose"]);
    assert_eq!(sewn_on("-5"), ["value/negative"]);
    assert_eq!(slugs(&skirt("elastic -2 of 70")), ["value/negative"]);
    let header = "garment \"Galley things\"\nunits cm\nallowance 1\nbody { waist 70 }\nfabric canvas \"canvas\" { width 300 }\n";
    let text = format!("{header}{}\n", skirt("elastic 2 of waist * 90%"));
    let compiled = compile(&MemoryLoader::new().with("galley.fus", text), "galley.fus");
    let size = &compiled.sizes[0].sewn;
    let need = &size.notions[0];
    assert_eq!((need.length, need.joining, need.count), (Some(650.0), Some(20.0), Some(1)));
    // It is turned in with the edge, as wide as it is.
    let top = size.parts[0].edges.iter().find(|edge| edge.turned_up && edge.allowance == Some(20.0));
    assert!(top.is_some());
}
