//! Zips that are kept clear of cloth: what lies behind them is cut back from their teeth, and eased beside them. Figures
//! are worked out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::drafting::same;
use crate::workbench::{NOTHING, helps, mistake, of, said, told, with};
use fustian::Compiled;

/// A lined vest of rectangles, 24 wide and 50 high, with a collar; its zip goes up the collar's 5.
const VEST: &str = "garment \"Deck vest\"\nunits cm\nallowance 1\ntolerance 2mm\n\
    fabric canvas \"apron canvas\" { width 150 }\nfabric twill \"grey twill\" { width 150 }\n\
    layer outer in canvas { front, back, collar }\nlayer lining in twill { front, back }\n\
    piece front \"Front\" {\n cut 2 mirrored\n outline rectangle 24 by 50\n\
    divide top 10 from top_left into neckline, shoulder\n divide right 22 from top_right into armhole, side\n}\n\
    piece back \"Back\" {\n cut 1 on fold left\n outline rectangle 24 by 50\n\
    divide top 10 from top_left into neckline, shoulder\n divide right 22 from top_right into armhole, side\n}\n\
    piece collar \"Collar\" { cut 1; outline rectangle 40 by 10; folded top to bottom }\n\
    seam shoulder front.shoulder to back.shoulder\nseam side front.side to back.side { leaving gap 14 in lining, left }\n\
    seam neck outer.collar.bottom to outer.front.neckline + outer.back.neckline \
      { matching outer.collar.bottom_left with outer.front.top_left }\n\
    seam lining_neck outer.collar.top to lining.front.neckline + lining.back.neckline \
      { matching outer.collar.top_left with lining.front.top_left; notch 4 from lining.front.top_left }\n\
    seam arm_front outer.front.armhole to lining.front.armhole\n\
    seam arm_back outer.back.armhole to lining.back.armhole\n\
    seam hem outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom\n\
    closure front_zip outer.front.left to outer.front.left from end to end { zipper separating 55 clear of cloth 6mm }\n\
    seam front_edge outer.front.left to lining.front.left enclosing front_zip\n";

/// The length of an edge of a layer's front on paper, and as sewn.
fn edge(compiled: &Compiled, layer: &str, name: &str) -> (f64, f64) {
    let (garment, sized) = (&compiled.garment, &compiled.sizes[0].drawn);
    let mut parts = compiled.sizes[0].sewn.parts.iter();
    let part = parts.find(|part| {
        *garment.layer(part.part.layer).name == *layer && *garment.piece(part.part.piece).name == *"front"
    });
    let drawn = sized.paper(part.expect("the part").part.paper).expect("its paper");
    let mut edges = fustian::resolve::DrawnEdgeId::enumerate(&drawn.edges);
    let (id, own) = edges.find(|(_, own)| *garment.edge(own.edge).name == *name).expect("the edge");
    (own.path.length(), fustian::resolve::finished(garment, drawn, id).expect("a length"))
}

/// 240 less 6 at the hem and 100 less 6 at the neck; as sewn both have what they had. The shell has all of it.
#[test]
fn the_lining_is_cut_back_and_counts_as_sewn_what_it_had() {
    let compiled = of(VEST);
    for (name, paper, sewn) in [
        ("bottom", 234.0, 240.0),
        ("neckline", 94.0, 100.0),
        ("left", 500.0, 500.0),
        ("shoulder", 140.0, 140.0),
    ] {
        let (own, counted) = edge(&compiled, "lining", name);
        same(own, paper);
        same(counted, sewn);
    }
    same(edge(&compiled, "outer", "bottom").0, 240.0);
    same(edge(&compiled, "outer", "neckline").0, 100.0);
    // A notch 40 along a neckline of 100 as sewn stands 40 × 94 / 100 = 37.6 along its paper.
    let sewn = &compiled.sizes[0].sewn;
    let lining = sewn.parts.iter().find(|part| {
        *compiled.garment.layer(part.part.layer).name == *"lining"
            && *compiled.garment.piece(part.part.piece).name == *"front"
    });
    let notches = &lining.expect("the lining").notches;
    assert!(notches.iter().any(|notch| (notch.along - (94.0 - 37.6)).abs() < 1e-6), "{notches:?}");
}

/// Told at both ends, and nothing else: the collar of 400 meets 100 + 200 + 100 on both sides.
#[test]
fn what_is_eased_is_told_and_seams_match() {
    assert_eq!(said(&VEST.replace(" clear of cloth 6mm", "")), NOTHING);
    let all = told(VEST);
    assert_eq!(all.len(), 2, "{all:?}");
    for (slug, title) in &all {
        assert_eq!(*slug, "zipper/eased");
        assert!(
            title.contains("Front in lining is kept back from the teeth of front_zip, and loses 6 mm"),
            "{title}"
        );
    }
    let helps = helps(VEST).join("\n");
    assert!(helps.contains("ease 6 mm in as you sew lining_neck"), "{helps}");
    assert!(helps.contains("ease 6 mm in as you sew hem"), "{helps}");
    // Drawn narrower by as much without a word of it, it does not fit.
    let narrower = format!("{}trim lining.front.left by 6mm\n", VEST.replace(" clear of cloth 6mm", ""));
    assert_eq!(said(&narrower), ["alter/one-side", "alter/one-side"]);
    // Free at its hem, it loses nothing there that is sewn.
    let hemmed = with(
        VEST,
        &[
            (
                "seam hem outer.front.bottom + outer.back.bottom to lining.front.bottom + lining.back.bottom",
                "",
            ),
            (" { leaving gap 14 in lining, left }", ""),
        ],
    );
    assert_eq!(said(&format!("{hemmed}finish front.bottom, back.bottom hem 2\n")), ["zipper/eased"]);
}

/// A neckline that rises at 45° loses 6 × √2 = 8.485 where an upright edge moves in by 6.
#[test]
fn a_slanting_neckline_loses_more() {
    let slanting = with(
        VEST,
        &[(
            "outline rectangle 24 by 50\n\
             divide top 10 from top_left into neckline, shoulder\n divide right 22 from top_right into armhole, side\n}\n\
             piece back",
            "point bottom_left = (0, 0); point top_left = (0, 40); point neck = (10, 50); point tip = (24, 50)\n\
             point underarm = (24, 28); point corner = (24, 0)\n\
             outline from bottom_left { left to top_left; neckline to neck; shoulder to tip; armhole to underarm; \
               side to corner; bottom to bottom_left }\n}\npiece back",
        )],
    );
    let (paper, sewn) = edge(&of(&slanting), "lining", "neckline");
    same(sewn, 100.0 * 2.0_f64.sqrt());
    same(paper, 94.0 * 2.0_f64.sqrt());
}

/// What shows is taken off the shell, 5 of 10 on each side, and the lining is kept back from the teeth all the same.
#[test]
fn what_shows_and_what_is_kept_clear_are_two_things() {
    let both = of(&VEST.replace("clear of", "showing 1 clear of"));
    same(edge(&both, "outer", "bottom").0, 235.0);
    same(edge(&both, "lining", "bottom").0, 234.0);
}

#[test]
fn what_cannot_be_kept_clear_is_told() {
    assert_eq!(said(&mistake("zipper-clear")), ["zipper/clear"]);
    let nothing = VEST.replace("clear of cloth 6mm", "clear of cloth 0");
    assert_eq!(said(&nothing), ["alter/nothing"]);
    let less = VEST.replace("clear of cloth 6mm", "clear of cloth -6mm");
    assert!(
        said(&less).iter().all(|slug| ["value/negative", "alter/negative"].contains(slug)),
        "{:?}",
        told(&less)
    );
    assert!(!said(&less).is_empty());
    let all = VEST.replace("clear of cloth 6mm", "clear of cloth 30");
    assert!(told(&all).iter().any(|(slug, _)| slug.starts_with("alter/")), "{:?}", told(&all));
    let one = with(&mistake("run-showing-side"), &[]);
    assert_eq!(said(&one), ["run/showing"]);
    assert!(helps(&one)[0].contains("unpair back into left_back, right_back"), "{:?}", helps(&one));
    assert_eq!(said(&one.replace(" showing 1", "")), NOTHING);
    let run = VEST.replace(
        "outer.front.left to lining.front.left",
        "outer.front.left to lining.front.left 30 from top_left",
    );
    assert!(said(&run).contains(&"run/showing"), "{:?}", told(&run));
}
