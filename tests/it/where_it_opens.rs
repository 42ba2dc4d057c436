//! Where a garment opens, and what goes in there: what is refused, and the sound garment beside it.

use crate::workbench::{NOTHING, mistake, said, told, with};

#[test]
fn a_waistband_ends_where_the_skirt_opens() {
    let skirt = mistake("seam-matching-inside");
    assert_eq!(said(&skirt), ["seam/matching"]);
    let matching = "matching band.top_left with front.top_left";
    let at_the_zip = with(&skirt, &[(matching, "matching band.top_left with back.top_left")]);
    assert_eq!(said(&at_the_zip), NOTHING);
    // Left out, the corners of one name meet at the side seam, which joins them, and not in the middles. The waist is
    // 4 × 18 = 72 cm round; with both sides of 18 cm of zip open 108 cm go through, and no more.
    let unsaid = with(&skirt, &[(&format!("{{ {matching} }}"), "")]);
    let passing = |hip: u32| {
        let body = format!("body {{ hip {hip} }}\nlayer outer");
        with(&unsaid, &[("layer outer", &body)]) + "\nopening front.top + back.top passes hip"
    };
    assert_eq!(said(&passing(108)), NOTHING);
    assert_eq!(said(&passing(109)), ["opening/passes"]);
    // Closed in front and behind it may begin at either middle.
    let closed = [
        ("  divide left 18 from top_left into zip_edge, left\n", ""),
        ("closure zip back.zip_edge to back.zip_edge { zipper closed 18 }\n", ""),
        ("closure hooks band.left to band.right { hooks 2 }", "seam ends band.left to band.right"),
        ("finish band.left, band.right overlocked\n", ""),
    ];
    assert_eq!(said(&with(&skirt, &closed)), NOTHING);
}

#[test]
fn a_zip_is_set_in_before_the_band_lies_over_its_end() {
    let late = mistake("step-early-zip");
    let found = told(&late);
    assert_eq!(
        found,
        [(
            "step/early",
            "sewing waist comes before sewing zip, whose end it lies over on both sides".to_owned()
        )]
    );
    let sound =
        with(&late, &[("sew side, cf, cb }", "sew side, cf, cb; sew zip }"), ("hooks; sew zip;", "hooks;")]);
    assert_eq!(said(&sound), NOTHING);
}

/// A hat whose crown is 2 × π × 7 = 44 cm round, with a brim of 9 cm: 2 × π × 16 = 100.5 cm round.
#[test]
fn a_head_goes_through_what_the_brim_is_sewn_to() {
    let hat = mistake("opening-passes-brim");
    let wanted = "the opening of the edge of Brim is 14 cm too small for the head in every size (worst: M)";
    assert_eq!(told(&hat), [("opening/passes", wanted.to_owned())]);
    // 2 × π × 7 = 43.98.
    assert_eq!(said(&with(&hat, &[("head 55, 58", "head 42, 43.9")])), NOTHING);
    // It is asked for as well.
    let unsaid = mistake("opening-unsaid-brim");
    assert_eq!(said(&unsaid), ["opening/unsaid"]);
    // A disc on a flat ring is a mat: nothing goes into it.
    let mat = [
        ("layer outer in drill { disc, side, brim }", "layer outer in drill { disc, brim }"),
        ("piece side \"Side band\" {\n  cut 1\n  outline rectangle pi * 14cm by 6\n}\n", ""),
        ("seam side_end  side.left to side.right\n", ""),
        ("seam crown     side.top to disc.far + disc.near { matching side.top_left with disc.d }\n", ""),
        (
            "side.bottom to brim.inner in a ring { matching side.bottom_left with brim.a }",
            "disc.far + disc.near to brim.inner in a ring { matching disc.d with brim.a }",
        ),
    ];
    assert_eq!(said(&with(&unsaid, &mat)), NOTHING);
    assert_eq!(said(&with(&hat, &mat)), NOTHING);
    // A cone that gets narrower towards its tip holds the head in its lowest tier: 58 cm round, and then 46.
    let cone = "garment \"Lookout's hood\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150; kind woven firm }\n\
        body { head 57 }\nlayer outer in drill { low, high }\n\
        piece low \"Lower tier\" { cut 1\npoint a = (-29, 0); point b = (29, 0); point c = (23, 10); point d = (-23, 10)\n\
        outline from a { bottom to b; right to c; top to d; left to a } }\n\
        piece high \"Upper tier\" { cut 1\npoint a = (-23, 0); point b = (23, 0); point c = (0, 20)\n\
        outline from a { bottom to b; right to c; left to a } }\n\
        seam low_back low.left to low.right\nseam high_back high.left to high.right\n\
        seam tiers low.top to high.bottom { matching low.d with high.a }\nfinish low.bottom hem 2\n\
        opening low.bottom passes head";
    assert!(!said(cone).contains(&"opening/passes"), "{:?}", told(cone));
}

#[test]
fn a_cuff_buttons_its_one_end_on_its_other() {
    let cuff = mistake("button-itself");
    assert_eq!(said(&cuff), ["button/itself"]);
    assert_eq!(said(&with(&cuff, &[("along at (2, 0)", "along at (24.6, 0)")])), NOTHING);
    // A centimetre and a half apart they do not touch.
    assert_eq!(said(&with(&cuff, &[("along at (2, 0)", "along at (2.9, 0)")])), NOTHING);
}

#[test]
fn interfacing_is_fused_on_cloth() {
    let bib = mistake("fused-alone");
    assert_eq!(said(&bib), ["fused/alone"]);
    let finished = "\nfinish facing.left, facing.right, facing.bottom, facing.top  hem 1";
    let in_cloth = with(&bib, &[("in drill { bib }", "in drill { bib, facing }")]) + finished;
    assert!(!said(&in_cloth).contains(&"fused/alone"));
    let strip = with(&bib, &[("outline rectangle 30 by 5", "outline strip of bib along top width 5")]);
    assert!(!said(&strip).contains(&"fused/alone"), "{:?}", told(&strip));
}
