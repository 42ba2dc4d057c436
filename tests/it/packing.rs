//! A variation and all that it is made of, as one file that says the same.

use crate::workbench::{err, examples, folder_of, out, run};
use fustian::emit::{document, to_text};
use fustian::source::{Loader, MemoryLoader};
use fustian::syntax::tidy::tidy;
use fustian::{compile, packed};
use std::fs;

fn worked_out(loader: &dyn Loader, path: &str) -> String {
    let compiled = compile(loader, path);
    assert!(!compiled.has_mistakes(), "{path}: {:#?}", compiled.diagnostics);
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("a document")
}

/// Packs, and gives the one text back when it says the same.
fn packs(loader: &dyn Loader, path: &str) -> String {
    let one = packed(loader, path);
    let again = MemoryLoader::new().with("one.fus", one.as_str());
    assert_eq!(worked_out(loader, path), worked_out(&again, "one.fus"), "{one}");
    let mut map = fustian::source::SourceMap::default();
    let file = map.add("one.fus", one.as_str());
    assert_eq!(tidy(&map, file).expect("it can be read"), one, "what is packed is tidy");
    assert!(!one.contains("variation") && !one.contains("\nuse "), "{one}");
    one
}

#[test]
fn every_example_packs_into_one_file_that_compiles_to_the_same_bytes() {
    let folder = examples();
    let mut packed = 0;
    for entry in fs::read_dir(folder.path()).expect("the examples") {
        let name = entry.expect("an entry").file_name().into_string().expect("a name");
        if name.starts_with("crew-") {
            continue;
        }
        let output = run(folder.path(), &["pack", &name, "-o", "one.fus"]);
        assert!(output.status.success(), "{name}: {}", err(&output));
        let alone =
            folder_of(&[("one.fus", &fs::read_to_string(folder.path().join("one.fus")).expect("it"))]);
        fs::remove_file(folder.path().join("one.fus")).expect("gone");
        let before: serde_json::Value =
            serde_json::from_str(&out(&run(folder.path(), &["resolve", &name]))).expect("a document");
        let after: serde_json::Value =
            serde_json::from_str(&out(&run(alone.path(), &["resolve", "one.fus"]))).expect("a document");
        for key in ["garment", "about", "unit", "sizes"] {
            assert_eq!(
                serde_json::to_string(&before[key]).expect("text"),
                serde_json::to_string(&after[key]).expect("text"),
                "{name}: {key}"
            );
        }
        packed += 1;
    }
    assert!(packed >= 6, "{packed}");
}

const INCHES: &str = "garment \"Deck vest\"\nunits in\nsizes S, M, L, XL\nbody {\n  chest 36, 38, 40, 42\n  neck 14 at M grade +1/2, +1/2, +3/4\n  arm 23 in every size\n}\nlet ease = 4\nlet count_of = count 3\nlet share = number 1\nlet slack = chest grade +1, +1, +2\nlet gap = each 1, 2, 3, 4\nlet twice = chest * 2 + 1 1/2\nmeasure m_slack \"Slack\" = slack + min(gap, 5) + ease * count_of\nmeasure m_twice \"Twice\" = twice + neck + arm\nmeasure m_share \"Share\" = chest * share\nfabric shell \"cloth\" { width 60 }\nlayer outer in shell { front }\npiece front \"Front\" {\n  cut 2 mirrored\n  outline rectangle chest/4 + ease/4 by 12 1/2\n}\nfinish front.bottom, front.right, front.top, front.left  hem 1/2\n";

#[test]
fn numbers_of_a_file_in_another_unit_keep_their_meaning() {
    let loader = MemoryLoader::new().with("base.fus", INCHES).with(
        "v.fus",
        "variation \"Vest\" of \"base.fus\"\nunits cm\nset ease = 9\nset count_of = 4\nset share = 1 + 2\n",
    );
    let one = packs(&loader, "v.fus");
    assert!(one.contains("units cm"), "{one}");
    assert!(one.contains("1 1/2in"), "{one}");
    assert!(one.contains("= number 4"), "a set let keeps its dimension: {one}");
    assert!(one.contains("= 9\n"), "{one}");
}

#[test]
fn lists_are_cut_down_to_the_sizes_that_are_left() {
    for sizes in ["M, L", "S, XL", "L", "XL, S"] {
        let loader = MemoryLoader::new()
            .with("base.fus", INCHES)
            .with("v.fus", format!("variation \"Vest\" of \"base.fus\"\nunits in\nsizes {sizes}\n"));
        let one = packs(&loader, "v.fus");
        assert!(one.contains(&format!("sizes {sizes}\n")), "{one}");
    }
}

#[test]
fn a_garment_with_mistakes_is_not_packed() {
    let folder = folder_of(&[("v.fus", "variation \"V\" of \"gone.fus\"\n")]);
    let output = run(folder.path(), &["pack", "v.fus", "-o", "one.fus"]);
    assert_eq!(output.status.code(), Some(1), "{}", err(&output));
    assert!(!folder.path().join("one.fus").exists());
}

/// A layer that a drop has left without pieces is no layer, and its cloth is not bought; a strap that goes with what it is sewn on takes
/// what is closed on it along.
#[test]
fn what_a_drop_empties_is_gone() {
    let bag = "garment \"Locker bag\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\n\
        fabric stay \"stay\" { width 90 }\nlayer outer in drill { bag, flap }\nlayer firm in stay fused { flap }\n\
        layer ties in drill { latch }\n\
        piece bag \"Bag\" { cut 1; outline rectangle 36 by 40; mark below = (18, 20) }\n\
        piece flap \"Flap\" { cut 1; outline rectangle 36 by 16; mark on_flap = (18, 8) }\n\
        strap latch \"Latch\" 12 by 2 in ties folded in four { from flap.on_flap to free }\n\
        seam side bag.left to bag.right { matching bag.top_left with bag.top_right }\n\
        seam flap bag.top to flap.bottom { matching bag.top_left with flap.bottom_left }\n\
        finish bag.bottom  hem 2\nfinish flap.left, flap.right, flap.top  hem 1\n";
    let plain = "variation \"Plain locker bag\" of \"bag.fus\"\ndrop flap and all sewn to it\nfinish bag.top  hem 2\n";
    let loader = MemoryLoader::new().with("bag.fus", bag).with("plain.fus", plain);
    let whole = compile(&loader, "bag.fus");
    assert!(!whole.has_mistakes(), "{:#?}", whole.diagnostics);
    let one = packs(&loader, "plain.fus");
    assert!(!one.contains("stay") && !one.contains("latch"), "{one}");
}
