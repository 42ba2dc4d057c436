//! Sleeve-cap ease of the examples: the cap of one sleeve is longer than the armhole that it is set
//! into by no more than the cloth takes. Virginia Cooperative Extension, "Set-In Sleeves: Tips
//! Beyond the Guidesheet", publication 346-122 (1985): 1½ in supple cloth, 1 in knits and firm
//! wovens; 1 in is 25.4 mm (NIST SP 811).

use crate::remeasuring::{edges, example};
use fustian::syntax::tree::ClothKind;

const SUPPLE: f64 = 38.1;
const FIRM_OR_KNIT: f64 = 25.4;
/// Caps are drawn to meet their ease; this is what is left over, in millimetres.
const LEFT_OVER: f64 = 0.05;

/// Sleeve by sleeve: file, cloth, cap, the two edges of its armhole, and the most ease.
const SLEEVES: &[(&str, &str, &str, [&str; 2], f64)] = &[
    (
        "deck-smock.fus",
        "shell",
        "outer.sleeve.cap",
        ["outer.front.armhole", "outer.back.armhole"],
        FIRM_OR_KNIT,
    ),
    (
        "deck-jacket.fus",
        "shell",
        "outer.sleeve.cap",
        ["outer.front.armhole", "outer.back.armhole"],
        FIRM_OR_KNIT,
    ),
    (
        "deck-jacket.fus",
        "fleece",
        "lining.sleeve.cap",
        ["lining.front.armhole", "lining.back.armhole"],
        FIRM_OR_KNIT,
    ),
    ("mess-jacket.fus", "serge", "outer.sleeve.cap", ["outer.front.armhole", "outer.back.armhole"], SUPPLE),
    (
        "mess-jacket.fus",
        "twill",
        "lining.sleeve.cap",
        ["lining.front_lining.armhole", "lining.back.armhole"],
        SUPPLE,
    ),
];

#[test]
fn each_sleeve_of_the_examples_has_the_ease_that_its_cloth_takes() {
    for (file, _, cap, armhole, most) in SLEEVES {
        let compiled = example(file);
        assert_eq!(compiled.sizes.len(), 6);
        for size in 0..6 {
            let lengths = edges(&compiled, size);
            let ease = lengths[*cap] - armhole.iter().map(|edge| lengths[*edge]).sum::<f64>();
            assert!(ease > 0.0 && ease < most + LEFT_OVER, "{file} {cap}: {ease} of {most}");
        }
    }
}

/// The cloth that the table above takes each sleeve for.
#[test]
fn the_sleeves_cloth_is_as_it_is_taken() {
    for (file, cloth, cap, _, most) in SLEEVES {
        let garment = example(file).garment;
        let layer = garment.layers.iter().find(|layer| cap.split('.').next() == Some(&*layer.name)).unwrap();
        let fabric = garment.fabric(layer.fabric.unwrap());
        assert_eq!(&*fabric.name, *cloth, "{file} {cap}");
        let supple = fabric.kind == Some(ClothKind::WovenSupple);
        assert_eq!(supple, *most == SUPPLE, "{file} {cloth}");
    }
}
