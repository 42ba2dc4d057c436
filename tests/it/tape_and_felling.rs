//! Edges that are taped, and edges felled onto a seam. Lengths by hand.

use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};

/// An apron of 70 with a band so long, folded in half, and these finishes of it.
fn of(long: &str, band: &str, rest: &str) -> Compiled {
    let text = format!(
        "garment \"Bosun's apron\"\nunits cm\nallowance 1\nfabric drill \"cotton drill\" {{ width 150 }}\n\
         layer outer in drill {{ apron, band }}\npiece apron \"Apron\" {{ cut 1; outline rectangle 70 by 50 }}\n\
         piece band \"Waistband\" {{ cut 1; outline rectangle {long} by 8; folded top to bottom }}\n\
         seam waist  band.bottom to apron.top {{ matching band.bottom_left with apron.top_left }}\nfinish band.top  {band}\n\
         finish band.left, band.right, apron.left, apron.right  overlocked\n{rest}\n"
    );
    compile(&MemoryLoader::new().with("apron.fus", text), "apron.fus")
}

fn slugs(compiled: &Compiled) -> Vec<&'static str> {
    let told = compiled.diagnostics.iter().map(|one| one.slug());
    told.filter(|slug| *slug != "steps/none").collect()
}

const HEM: &str = "finish apron.bottom  hem 2";

#[test]
fn an_edge_is_felled_onto_a_seam_of_its_length() {
    assert_eq!(slugs(&of("70", "turned under onto waist", HEM)), [""; 0]);
    assert_eq!(slugs(&of("70", "turned under onto wiast", HEM)), ["name/unknown"]);
    // The seam of a band of another length does not match, and what comes of that is not told beside it.
    assert_eq!(slugs(&of("72", "turned under onto waist", HEM)), ["seam/unequal"]);
    let closure = format!("{HEM}\nclosure back  apron.left to apron.right {{ hooks 20 }}");
    assert_eq!(slugs(&of("70", "turned under onto back", &closure)), ["finish/onto"]);
}

#[test]
fn the_seam_is_sewn_before_what_is_felled_onto_it() {
    let rest = "finish band.left, band.right, apron.left, apron.right; hem apron.bottom";
    let steps = |order: &str| {
        slugs(&of(
            "70",
            "turned under onto waist",
            &format!("{HEM}\nsteps {{\n\"Apron\" {{ {rest}; {order} }}\n}}"),
        ))
    };
    assert_eq!(steps("sew waist; finish band.top"), [""; 0]);
    assert_eq!(steps("finish band.top; sew waist"), ["step/early"]);
}

/// 70 of edge are 70 of tape.
#[test]
fn tape_is_bought_by_the_length_of_its_edges() {
    for (how, words) in [("tape", "tape"), ("tape 1.5", "tape 1.5 cm wide")] {
        let compiled = of("70", "turned under onto waist", &format!("finish apron.bottom  {how}"));
        assert_eq!(slugs(&compiled), [""; 0]);
        let need = &compiled.sizes[0].sewn.notions[0];
        assert_eq!((need.name.words(&compiled.garment).as_str(), need.length), (words, Some(700.0)));
    }
    assert_eq!(
        slugs(&of("70", "turned under onto waist", "finish apron.bottom  tape -1")),
        ["value/negative"]
    );
}

/// A vest of two halves on the fold; the back's shoulders are 12 and the front's 11.5 long.
const VEST: &str = "garment \"Deck vest\"\nunits cm\nallowance 1\nsizes S, M\nbody { chest 88, 96 }\n\
    fabric jersey \"jersey\" { width 150; kind knit; stretch 40% across, 10% along }\nlayer outer in jersey { front, back }\n\
    piece front \"Front\" { cut 1 on fold left\noutline rectangle 24 by 60\ndivide top 11.5 from top_right into shoulder, neck\n\
    divide right 40 from bottom_right into side, armhole }\n\
    piece back \"Back\" { cut 1 on fold left\noutline rectangle 24.5 by 60\ndivide top 12 from top_right into shoulder, neck\n\
    divide right 40 from bottom_right into side, armhole }\n\
    seam shoulder back.shoulder to front.shoulder easing 0..1 { tape 1 }\nseam side front.side to back.side\n\
    finish front.neck, back.neck, front.armhole, back.armhole, front.bottom, back.bottom overlocked\n";

fn vest(old: &str, new: &str) -> Compiled {
    assert!(VEST.contains(old), "{old:?} is written there");
    compile(&MemoryLoader::new().with("vest.fus", VEST.replacen(old, new, 1)), "vest.fus")
}

/// Two shoulders, to the shorter side of which the longer one is eased: 2 × 11.5 = 23 of tape, in both sizes alike.
#[test]
fn tape_in_a_seam_is_as_long_as_what_the_other_side_is_eased_to() {
    let compiled = vest("", "");
    assert_eq!(slugs(&compiled), [""; 0]);
    for size in &compiled.sizes {
        let tape =
            size.sewn.notions.iter().find(|need| need.name.words(&compiled.garment).starts_with("tape"));
        let tape = tape.expect("it is bought");
        assert_eq!(tape.name.words(&compiled.garment), "tape 1 cm wide");
        assert!((tape.length.expect("its length") - 230.0).abs() < 1e-6, "{tape:?}");
    }
    let any = vest("{ tape 1 }", "{ tape }");
    assert_eq!(any.sizes[0].sewn.notions[0].name.words(&any.garment), "tape");
    assert!(vest("{ tape 1 }", "").sizes[0].sewn.notions.is_empty());
    assert_eq!(slugs(&vest("{ tape 1 }", "{ tape 0 }")), ["value/nothing"]);
    assert_eq!(slugs(&vest("{ tape 1 }", "{ tape 2 }")), [""; 0]);
    // Two allowances of 1 cm have no room for it.
    assert_eq!(slugs(&vest("{ tape 1 }", "{ tape 10 }")), ["length/out-of-use"]);
    assert_eq!(slugs(&vest("{ tape 1 }", "{ tape 100 }")), ["length/out-of-use"]);
    assert_eq!(slugs(&vest("{ tape 1 }", "{ tape 1; tape 2 }")), ["name/declared-twice"]);
}

/// The neck is sewn 2 × (12.5 + 12.5) = 50 long. Knit so it stretches to 50 × 1.4 = 70 and lets a head of 57 through; a band
/// that is sewn on with tape holds it at 50.
#[test]
fn a_taped_seam_holds_what_goes_round() {
    let band = |made: &str| {
        let text = VEST
            .replace("finish front.neck, back.neck, ", "finish band.top, ")
            .replace("{ front, back }", "{ front, back, band }")
            .replace("body { chest 88, 96 }", "body { chest 88, 96\nhead 56, 57 }")
            + &format!(
                "piece band \"Neck band\" {{ cut 1; outline rectangle 50 by 5 }}\nseam ends band.left to band.right\n\
                 seam neck band.bottom to front.neck + back.neck {{ matching band.bottom_left with back.top_left; stitch 504{made} }}\n\
                 opening front.neck + back.neck passes head\n"
            );
        compile(&MemoryLoader::new().with("vest.fus", text), "vest.fus")
    };
    assert_eq!(slugs(&band("")), [""; 0]);
    assert_eq!(slugs(&band("; tape")), ["opening/passes"]);
}
