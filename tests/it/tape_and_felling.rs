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
    // The seams of a band of another length do not match either, and its top is as long as its bottom.
    assert!(slugs(&of("72", "turned under onto waist", HEM)).contains(&"finish/onto"));
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
