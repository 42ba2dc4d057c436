//! Two plies alike, of which one is fused.

use crate::workbench::{NOTHING, mistake, of, said, told, with};
use fustian::source::SourceMap;
use fustian::syntax::tidy::tidy;

/// A knit collar of two plies round a neck of 40 cm, whose inner ply is fused.
const COLLAR: &str = "garment \"Mess collar\"
units cm
allowance 1
body { head 56 }
fabric rib \"rib\" { width 150; stretch 60% across, 60% along; kind knit }
fabric stay \"fusible\" { width 90 }
layer outer in rib { collar, yoke }
layer inner in rib { collar }
layer firm in stay fused to inner { collar }
piece collar \"Collar\" { cut 1; outline rectangle 40 by 8 }
piece yoke \"Yoke\" { cut 1; outline rectangle 40 by 30 }
seam ends collar.left to collar.right { matching collar.top_left with collar.top_right }
seam edge outer.collar.top to inner.collar.top
seam yoke_end yoke.left to yoke.right { matching yoke.top_left with yoke.top_right }
seam neck outer.collar.bottom and inner.collar.bottom to outer.yoke.top { matching outer.collar.bottom_left with outer.yoke.top_left }
finish yoke.bottom overlocked
opening yoke.bottom passes head
steps { \"All\" { fuse collar; sew ends, edge, yoke_end, neck; finish yoke.bottom } }
";

/// What is read of the step that fuses.
fn fusing(text: &str) -> String {
    use fustian::sheet::sentences::step_texts;
    use fustian::sheet::{Facts, Language, Run};
    let compiled = of(text);
    let document = compiled.document().expect("a sound garment");
    let facts = Facts::of(&compiled.garment, compiled.sizes.iter().collect(), &document).expect("a size");
    let texts = step_texts(&facts, Language::English);
    let words = texts[0].sentences.iter().flat_map(|sentence| &sentence.0).map(|run| match run {
        Run::Words(words) | Run::Term(_, words) => words.clone(),
        Run::Piece(number, title) => format!("({number}) {}", title.clone().unwrap_or_default()),
        _ => String::new(),
    });
    words.collect()
}

#[test]
fn the_ply_that_is_fused_is_said() {
    assert_eq!(said(COLLAR), NOTHING);
    assert!(fusing(COLLAR).contains("Collar (inner)"), "{}", fusing(COLLAR));
    let outer = with(COLLAR, &[("fused to inner", "fused to outer")]);
    assert!(fusing(&outer).contains("Collar (outer)"), "{}", fusing(&outer));
    let compiled = of(COLLAR);
    let labels: Vec<String> = compiled.sizes[0]
        .cut(&compiled.garment)
        .parts
        .iter()
        .filter(|part| part.fused)
        .map(|part| part.label.cut.clone())
        .collect();
    assert_eq!(labels, ["cut 1, fuse on inner"]);
}

/// It is fused before its own ply is closed in, and to a layer of cloth that has it.
#[test]
fn what_cannot_be_fused_there_is_told() {
    for (changes, slug, words) in [
        (
            [("fused to inner { collar }", "fused to inner { yoke }"), ("fuse collar", "fuse yoke")],
            "fused/alone",
            "Yoke is not cut in inner",
        ),
        (
            [("fused to inner", "fused to firm"), ("units cm", "units cm")],
            "fused/alone",
            "firm is fused on itself",
        ),
        ([("fused to inner", "fused to inn"), ("units cm", "units cm")], "name/unknown", "inn"),
    ] {
        let all = told(&with(COLLAR, &changes));
        let found = all.iter().any(|(own, title)| *own == slug && title.contains(words));
        assert!(found, "{changes:?}: {all:?}");
    }
    let both = with(COLLAR, &[("fused to inner", "fused")]);
    assert_eq!(said(&both), NOTHING);
    assert!(mistake("fused-alone").contains("fused {"));
}

/// Elastic in its cloth, a ring of 40 cm of which one ply alone is held is held: 56 cm do not go through.
#[test]
fn what_is_held_is_the_ply_that_is_fused() {
    let opening = |layer: &str| {
        let text =
            with(COLLAR, &[("fused to inner", layer), ("opening yoke.bottom", "opening outer.yoke.top")]);
        told(&text).into_iter().filter(|(slug, _)| *slug == "opening/passes").count()
    };
    assert_eq!((opening("fused to inner"), opening("fused to outer"), opening("fused")), (1, 1, 1));
}

#[test]
fn it_is_laid_out_as_it_is_written() {
    let mut map = SourceMap::default();
    let id = map.add("collar.fus".to_owned(), COLLAR.replace("fused to inner {", "fused   to inner {"));
    let text = tidy(&map, id).expect("a sound text");
    assert!(text.contains("layer firm  in stay fused to inner { collar }"), "{text}");
}
