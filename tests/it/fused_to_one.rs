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
seam edge outer.collar.top to inner.collar.top { stitch 504 }
seam yoke_end yoke.left to yoke.right { matching yoke.top_left with yoke.top_right; stitch 504 }
seam neck outer.collar.bottom and inner.collar.bottom to outer.yoke.top { matching outer.collar.bottom_left with outer.yoke.top_left; stitch 504 }
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

/// A belt of two plies cut alike from one cloth, of which one is fused: 60 by 6 and 1 of allowance all round.
const BELT: &str = "garment \"Deck belt\"
units cm
allowance 1
fabric drill \"cotton drill\" { width 150; kind woven firm; nap none }
fabric stay \"fusible\" { width 90; nap none; price 10 per m }
layer outer in drill { belt }
layer firm in stay fused 1 of 2 { belt }
piece belt \"Belt\" { cut 2; outline rectangle 60 by 6 }
seam edge belt.top + belt.right + belt.bottom to belt.top + belt.right + belt.bottom
finish belt.left overlocked
steps { \"All\" { fuse belt; sew edge; finish belt.left } }
";

/// Every row of the cut list has so many copies: layer by layer.
fn copies(text: &str) -> Vec<u32> {
    of(text).sizes[0].drawn.cut_list.iter().map(|row| row.copies).collect()
}

#[test]
fn of_two_alike_one_is_fused() {
    assert_eq!(said(BELT), NOTHING);
    assert_eq!(copies(BELT), [2, 1]);
    assert_eq!(copies(&with(BELT, &[("fused 1 of 2", "fused")])), [2, 2]);
    let label = |text: &str| {
        let compiled = of(text);
        let cut = compiled.sizes[0].cut(&compiled.garment);
        cut.parts.iter().find(|part| part.fused).map(|part| part.label.cut.clone())
    };
    assert_eq!(label(BELT).as_deref(), Some("cut 1, fuse on 1 of 2"));
    assert!(fusing(BELT).contains("one of the two") || fusing(BELT).contains("of the"), "{}", fusing(BELT));
    // Two pairs of cuffs, of which one pair is fused.
    let cuffs = with(BELT, &[("cut 2;", "cut 4 mirrored;"), ("fused 1 of 2", "fused 2 of 4")]);
    assert_eq!(copies(&cuffs), [4, 2]);
}

#[test]
fn a_number_of_fused_copies_that_there_is_not_is_told() {
    for (changes, words) in [
        (
            [("cut 2;", "cut 3;"), ("units cm", "units cm")],
            "Belt is cut 3 times, and firm is fused on 1 of 2",
        ),
        ([("cut 2;", "cut 1;"), ("units cm", "units cm")], "Belt is cut once"),
        ([("1 of 2", "2 of 2"), ("units cm", "units cm")], "2 of 2 is all of them"),
        ([("cut 2;", "cut 2 mirrored;"), ("units cm", "units cm")], "cut in pairs"),
    ] {
        let all = told(&with(BELT, &changes));
        let found = all.iter().any(|(slug, title)| *slug == "fused/copies" && title.contains(words));
        assert!(found, "{changes:?}: {all:?}");
    }
    assert!(mistake("fused-copies").contains("fused 1 of 2"));
}

#[test]
fn a_share_is_laid_out_as_it_is_written() {
    let written = |text: &str| {
        let mut map = SourceMap::default();
        let id = map.add("belt.fus".to_owned(), text.to_owned());
        tidy(&map, id).expect("a sound text")
    };
    let text = written(&BELT.replace("fused 1 of 2 {", "fused   1  of 2 {"));
    assert!(
        text.contains("layer firm  in stay  fused 1 of 2 { belt }") || text.contains("fused 1 of 2 { belt }"),
        "{text}"
    );
    let both = written(&BELT.replace("fused 1 of 2 {", "fused 1 of 2  to outer {"));
    assert!(both.contains("fused 1 of 2 to outer { belt }"), "{both}");
}

/// The table for a spreadsheet has no empty cell.
#[test]
fn every_cell_of_the_cut_list_is_filled() {
    use fustian::emit::{Form, cut_list};
    let compiled = of(&with(BELT, &[("outline rectangle", "grain bias; outline rectangle")]));
    let sizes: Vec<_> = compiled.sizes.iter().collect();
    let table = cut_list(&compiled.garment, &sizes, Form::Csv).expect("a table");
    let expected = "fabric,layer,piece,label,size,copies,how,fold,turned_over,cut_width,cut_height,unit,side,whole,grain,fused\r\n\
        drill,outer,belt,Belt,one size,2,alike,none,no,62,8,cm,both,no,bias,no\r\n\
        stay,firm,belt,Belt,one size,1,alike,none,no,60,6,cm,both,no,bias,yes 1 of 2\r\n";
    assert_eq!(table, expected);
}
