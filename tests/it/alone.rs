//! One slip of a maker's hand in a whole garment is told once, and nothing that follows from it.

use fustian::compile;
use fustian::source::MemoryLoader;
use std::fs;
use std::path::Path;

const EXAMPLES: [&str; 9] = [
    "crew-library.fus",
    "deck-jacket.fus",
    "deck-lined.fus",
    "deck-zip.fus",
    "deck-smock.fus",
    "galley-apron.fus",
    "mess-jacket.fus",
    "mess-skirt.fus",
    "oilskin-trousers.fus",
];

fn text(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name);
    fs::read_to_string(path).expect("an example")
}

/// What is told when one place of an example reads otherwise.
fn slip(name: &str, before: &str, after: &str) -> Vec<&'static str> {
    let mut loader = MemoryLoader::new();
    for example in EXAMPLES {
        let whole = text(example);
        let changed = if example == name { whole.replacen(before, after, 1) } else { whole.clone() };
        assert!(example != name || changed != whole, "{name} has no {before:?}");
        loader = loader.with(example, changed.as_str());
    }
    compile(&loader, name).diagnostics.iter().map(|told| told.slug()).collect()
}

#[test]
fn the_examples_themselves_go_without_a_word() {
    for name in EXAMPLES {
        assert_eq!(slip(name, "\n", "\n\n"), [""; 0], "{name}");
    }
}

#[test]
fn one_slip_is_told_once() {
    let slips = [
        ("galley-apron.fus", "let half_width", "let hafl_width", "name/unknown"),
        ("galley-apron.fus", "    side    to hem_side", "    to hem_side", "syntax/expected"),
        ("deck-smock.fus", "head/5.2 ", "head/ ", "syntax/expected"),
        ("deck-smock.fus", "point wrist_front    ", "point wrist_fornt    ", "name/unknown"),
        (
            "deck-smock.fus",
            "layer knit  in rib   { hem_band, cuff }",
            "layer knit  in rib   { , cuff }",
            "syntax/expected",
        ),
        (
            "deck-smock.fus",
            "{ front, back, sleeve, collar, pocket }",
            "{ frnot, back, sleeve, collar, pocket }",
            "name/unknown",
        ),
        (
            "deck-lined.fus",
            "layer lining in fleece { front, back, sleeve }",
            "layer lining in fleece { front back, sleeve }",
            "syntax/expected",
        ),
        (
            "deck-lined.fus",
            "layer lining in fleece { front, back, sleeve }",
            "layer lining in fleece { font, back, sleeve }",
            "name/unknown",
        ),
        ("deck-zip.fus", "each 75, 76, 77", "each 75, 76 77", "syntax/trailing"),
        ("deck-zip.fus", "until front_zip fits keeping", "until front_zip keeping fits", "syntax/expected"),
        ("deck-zip.fus", "closure front_zip  outer.front", "closure front_zip  outer.frnot", "name/unknown"),
        ("mess-skirt.fus", "  point middle     = (0, 0)\n", "", "name/unknown"),
        (
            "mess-skirt.fus",
            "    centre  to waist_cf\n",
            "    centre  to waist_cf\n    centre  to waist_cf\n",
            "name/declared-twice",
        ),
        ("mess-skirt.fus", "    hem     to hem_cf      arc about middle clockwise\n", "", "outline/open"),
        ("mess-skirt.fus", "  zipper concealed stocked 7", "  zipper concealed 7 stocked", "syntax/trailing"),
        ("oilskin-trousers.fus", "use \"crew", "\"crew", "syntax/unknown-statement"),
        ("oilskin-trousers.fus", "curve leaving down", "curve leaving donw", "name/unknown"),
        ("oilskin-trousers.fus", "layer outer in oilskin", "layer outer in oilksin", "cloth/unknown"),
        ("crew-library.fus", "sizes XS, S, M", "sizes XS, S, ", "syntax/expected"),
    ];
    let mut wrong = Vec::new();
    for (name, before, after, slug) in slips {
        let told = slip(name, before, after);
        if told != [slug] {
            wrong.push(format!("{name}: {before:?} as {after:?}: {told:?}, not {slug}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
