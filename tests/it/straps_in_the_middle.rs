//! Straps and tacks to the middle of a piece that is drawn as a half: one, not two. Figures are by hand.

use crate::cutting_lines::cut_all;
use crate::workbench::{NOTHING, helps, of, said, told, with};
use fustian::compile;
use fustian::materials::thread_needs;
use fustian::source::{MemoryLoader, SourceMap};
use fustian::syntax::tidy::tidy;

/// A bag of two panels, each 30 wide when it is unfolded, with a strap from the middle of the one to that of the other.
const BAG: &str = r#"garment "Cash bag"
units cm
allowance 1
fabric canvas "stout canvas" { width 150; kind woven firm }
layer outer in canvas { front, back }
piece front "Front" { cut 1 on fold left; outline rectangle 15 by 24 }
piece back "Back" { cut 1 on fold left; outline rectangle 15 by 24 }
seam round front.right + front.bottom to back.right + back.bottom
finish front.top, back.top hem 2 turned under 1
strap sling "Shoulder strap" 110 by 3 in outer folded in four {
  from front.top at the fold to back.top at the fold
  sewn 4, boxed
}
tack corner front.top at the fold bar 1
"#;

/// How many of the strap are cut, and how wide.
fn cut_straps(text: &str) -> Vec<(u32, f64)> {
    let compiled = of(text);
    let cuts = cut_all(&compiled);
    let own = cuts[0].parts.iter().filter(|part| *compiled.garment.piece(part.part.piece).name == *"sling");
    own.map(|part| {
        let bounds =
            part.cutting.iter().map(|run| run.path.bounding_box()).reduce(|one, other| one.union(other));
        (part.copies, bounds.expect("it is drawn").width().round())
    })
    .collect()
}

/// 4 × 3 wide as it is cut. In the middle of the halves there are two places on each panel, and so two straps.
#[test]
fn a_strap_between_the_middles_is_one() {
    assert_eq!(said(BAG), NOTHING);
    assert_eq!(cut_straps(BAG), [(1, 120.0)]);
    let on_halves = with(
        BAG,
        &[(
            "front.top at the fold to back.top at the fold",
            "front.top in the middle to back.top in the middle",
        )],
    );
    assert_eq!(cut_straps(&on_halves), [(2, 120.0)]);
}

/// On the paper it lies at the corner of the edge and the fold: 0 across and 24 up.
#[test]
fn the_place_lies_on_the_fold() {
    let compiled = of(BAG);
    let garment = &compiled.garment;
    let front = compiled.sizes[0].drawn.papers.iter().flatten();
    let mut front = front.filter(|drawn| *garment.piece(drawn.piece).name == *"front");
    let spots: Vec<(f64, f64)> = front
        .next()
        .expect("the front")
        .spots
        .iter()
        .filter(|spot| *garment.point(spot.point).name == *"top at the fold")
        .map(|spot| (spot.at.x, spot.at.y))
        .collect();
    assert_eq!(spots, [(0.0, 240.0)]);
}

/// A bar of 1 in the middle is sewn once; half way along each half twice.
#[test]
fn a_tack_in_the_middle_is_sewn_once() {
    let bare = with(BAG, &[("tack corner front.top at the fold bar 1\n", "")]);
    let thread = |text: &str| -> f64 {
        let compiled = of(text);
        let size = &compiled.sizes[0];
        thread_needs(&compiled.garment, &size.drawn, &size.sewn).iter().map(|need| need.sewn).sum()
    };
    let twice = with(BAG, &[("corner front.top at the fold", "corner front.top in the middle")]);
    let (once, twice) = (thread(BAG) - thread(&bare), thread(&twice) - thread(&bare));
    assert!((once - 10.0).abs() < 1e-6 && (twice - 20.0).abs() < 1e-6, "{once} {twice}");
}

#[test]
fn what_has_no_fold_there_is_told() {
    let whole =
        with(BAG, &[("piece front \"Front\" { cut 1 on fold left;", "piece front \"Front\" { cut 1;")]);
    let slugs = said(&whole);
    // Both its ends are told of in one.
    assert_eq!(slugs.iter().filter(|slug| **slug == "edge/place").count(), 1, "{:?}", told(&whole));
    assert!(helps(&whole).iter().any(|help| help.contains("in the middle")));
    // The side does not meet the fold.
    let side = with(BAG, &[("from front.top at the fold", "from front.right at the fold")]);
    assert!(said(&side).contains(&"edge/place"), "{:?}", told(&side));
    // The corner on the fold is one place: without a word of it two would be meant, and the way out says how.
    let corner = with(BAG, &[("from front.top at the fold", "from front.top at top_left")]);
    assert!(said(&corner).contains(&"strap/place"));
    assert!(helps(&corner).iter().any(|help| help.contains("write at the fold")), "{:?}", helps(&corner));
    // From one place to two.
    let uneven = with(BAG, &[("to back.top at the fold", "to back.top in the middle")]);
    assert!(said(&uneven).contains(&"strap/place"), "{:?}", told(&uneven));
}

/// An unfolded half is one piece with one middle; and the words are tidied as they are written.
#[test]
fn it_is_tidied_and_unfolded() {
    let loader = MemoryLoader::new()
        .with("bag.fus", BAG)
        .with("own.fus", "variation \"Cash bag, flat\" of \"bag.fus\"\nunfold front\n");
    let compiled = compile(&loader, "own.fus");
    let slugs: Vec<&str> =
        compiled.diagnostics.iter().map(|one| one.slug()).filter(|slug| *slug != "steps/none").collect();
    assert_eq!(slugs, NOTHING);
    let straps = cut_all(&compiled)[0]
        .parts
        .iter()
        .find(|part| *compiled.garment.piece(part.part.piece).name == *"sling")
        .map(|part| part.copies);
    assert_eq!(straps, Some(1));
    let lines = "strap sling 110 by 3 in outer {\n  from front.top at the fold caught in side to back.top at the fold\n}\n\
                 tack corner front.top at the fold bar 1\n";
    let mut map = SourceMap::default();
    let file = map.add("own.fus", &*lines.replace("at the fold", "at  the   fold"));
    assert_eq!(tidy(&map, file).expect("nothing is wrong with it"), lines);
}
