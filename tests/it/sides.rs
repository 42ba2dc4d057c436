//! Left and right: what is sewn, closed, finished or placed on one side of the body alone.

use crate::workbench::{of, said};
use fustian::Compiled;
use fustian::cutting::{CutPart, opened};
use fustian::garment::NotionKind;
use fustian::syntax::tree::Hand;

/// A skirt of two halves on the fold, 24 wide and 60 long, with a folded band of 8 and what is said of its
/// sides.
fn skirt(sides: &str) -> String {
    format!(
        "garment \"Mess skirt\"
units cm
allowance 1.5
body {{ hip 90 }}
sizes M
fabric serge \"wool serge\" {{ width 150 }}
layer outer in serge {{ front, back, band }}
piece front \"Front\" {{
  cut 1 on fold left
  outline rectangle 24 by 60
  divide right 20 from top_right into side_zip, side
  drawn left
}}
piece back \"Back\" {{
  cut 1 on fold left
  outline rectangle 24 by 60
  divide right 20 from top_right into side_zip, side
  drawn right
}}
piece band \"Waistband\" {{
  cut 1
  outline rectangle 96 by 8
  folded top to bottom
}}
{sides}
seam waist band.bottom and band.top to front.top + back.top {{ matching band.bottom_left with front.top_right }}
finish front.bottom, back.bottom hem 3
opening front.top + back.top passes hip"
    )
}

const ZIPPED: &str = "seam side front.side_zip + front.side to back.side_zip + back.side
closure zip band.left + front.side_zip to band.right + back.side_zip on left { zipper concealed 24 }";

/// By hand: 20 in the side and half the band's 8 above it; the right side is sewn all the way, 60, the left
/// one below the zip, 40.
#[test]
fn a_skirt_has_its_zip_in_the_left_side_alone() {
    let text = skirt(ZIPPED);
    assert_eq!(said(&text), [""; 0]);
    let compiled = of(&text);
    let sewing = &compiled.sizes[0].sewn;
    let zips = sewing.notions.iter().filter(|need| matches!(need.name.kind, NotionKind::Zip(_)));
    let zips: Vec<_> = zips.map(|need| (need.count, need.length)).collect();
    assert_eq!(zips, [(Some(1), Some(240.0))]);
    let sides = sewing.seams.iter().filter(|sewn| *compiled.garment.seam(sewn.seam).name == *"side");
    let mut sides: Vec<_> =
        sides.map(|sewn| (sewn.reach.hand(), sewn.sewings, sewn.first.plies[0].length)).collect();
    sides.sort_by(|one, other| one.2.total_cmp(&other.2));
    assert_eq!(sides, [(Some(Hand::Left), 1, 400.0), (Some(Hand::Right), 1, 600.0)]);
}

/// The band's end that is closed with the front's side must lie above it, not above the back's.
#[test]
fn a_zip_goes_on_where_its_edges_run_on() {
    let text = skirt(ZIPPED).replace("with front.top_right", "with back.top_right");
    assert_eq!(said(&text), ["closure/jumps"]);
}

/// What is left open on the other side is a mistake as ever, and names that side.
#[test]
fn what_is_left_unsewn_on_the_other_side_is_missed() {
    let one_sided = ZIPPED.replace("back.side_zip + back.side", "back.side_zip + back.side on left");
    let found = of(&skirt(&one_sided));
    let loose: Vec<String> = found
        .diagnostics
        .iter()
        .filter(|one| one.slug() == "edge/loose")
        .map(|one| one.title.to_string())
        .collect();
    // Front and back of each run, which may be sewn to one another.
    assert_eq!(loose.len(), 2, "{loose:?}");
    assert!(loose.iter().all(|title| title.contains("on the right")), "{loose:?}");
}

/// A zip on each side is two; by both sides at once they are two as well.
#[test]
fn a_zip_on_either_side_is_two() {
    let zip =
        |on: &str| format!("closure zip front.side_zip to back.side_zip{on} {{ zipper concealed 20 }}\n");
    let count = |sides: &str| {
        let text = skirt(&format!("seam side front.side to back.side\n{sides}"));
        let (before, rest) = text.split_once("seam waist").expect("the waist");
        let rest = rest.split_once('\n').map_or("", |(_, rest)| rest);
        let bound = "finish front.top, back.top bound 1
finish band.left, band.right, band.top, band.bottom raw";
        let found = of(&format!("{before}{bound}\n{rest}"));
        let zips =
            found.sizes[0].sewn.notions.iter().filter(|need| matches!(need.name.kind, NotionKind::Zip(_)));
        zips.map(|need| need.count).collect::<Vec<_>>()
    };
    assert_eq!(count(&zip("")), [Some(2)]);
    let apart = zip(" on left") + &zip(" on right").replace("closure zip", "closure other_zip");
    assert_eq!(count(&apart), [Some(1), Some(1)]);
}

fn cut_parts(compiled: &Compiled) -> Vec<CutPart> {
    compiled.sizes[0].cut(&compiled.garment).parts.clone()
}

fn area(points: &[fustian::shape::Point]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum::<f64>().abs() / 2.0
}

/// A bib of 2 × 20 by 40, hemmed by 2 above, below and on one side, bound on the other: 42 by 44, by hand.
#[test]
fn a_half_whose_sides_are_finished_differently_is_cut_as_its_whole() {
    let bib = |how: &str, drawn: &str, finishes: &str| {
        format!(
            "garment \"Galley bib\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" {{ width 150 }}
layer outer in cotton {{ bib }}
piece bib \"Bib\" {{ {how}; outline rectangle 20 by 40; {drawn} }}
finish bib.top, bib.bottom hem 2
{finishes}"
        )
    };
    let apart = "finish bib.right hem 2\nfinish bib.right on left bound 1";
    let text = bib("cut 1 on fold left", "drawn left", apart);
    assert_eq!(said(&text), [""; 0]);
    let found = of(&text);
    let parts = cut_parts(&found);
    assert_eq!(parts.len(), 1);
    assert!((area(&opened(&parts[0])) - 420.0 * 440.0).abs() < 1e-6);
    assert_eq!(parts[0].label.cut, "cut 1, whole");
    assert_eq!((parts[0].edges.len(), parts[0].fold), (6, None));
    // 40 bound on one side alone.
    let binding = found.sizes[0].sewn.notions.iter().find(|need| need.name.kind == NotionKind::Binding);
    assert_eq!(binding.and_then(|need| need.length), Some(400.0));
    // Both sides alike, each said by itself: it stays on the fold.
    let alike = "finish bib.right on right hem 2\nfinish bib.right on left hem 2";
    let parts = cut_parts(&of(&bib("cut 1 on fold left", "drawn left", alike)));
    assert_eq!(parts[0].label.cut, "cut 1 on the fold");
}

/// A bound side of a pair has no allowance, a hemmed one 2: by hand 21 by 44 on the left, 23 by 44 on the
/// right, each with 1 at the centre, which is drawn as the mirror image of the drawing.
#[test]
fn a_pair_whose_sides_are_finished_differently_is_cut_one_by_one() {
    let text = |drawn: &str| {
        format!(
            "garment \"Galley bib\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" {{ width 150 }}
layer outer in cotton {{ bib }}
piece bib \"Bib\" {{ cut 2 mirrored; outline rectangle 20 by 40; drawn {drawn} }}
seam centre bib.left to bib.left
finish bib.top, bib.bottom hem 2
finish bib.right hem 2
finish bib.right on left bound 1"
        )
    };
    assert_eq!(said(&text("left")), [""; 0]);
    for drawn in ["left", "right"] {
        let parts = cut_parts(&of(&text(drawn)));
        let hands: Vec<_> = parts.iter().map(|part| (part.hand, part.copies, part.mirrored)).collect();
        let is_left = drawn == "left";
        assert_eq!(hands, [(Some(Hand::Left), 1, !is_left), (Some(Hand::Right), 1, is_left)]);
        assert!((area(&opened(&parts[0])) - 210.0 * 440.0).abs() < 1e-6);
        assert!((area(&opened(&parts[1])) - 230.0 * 440.0).abs() < 1e-6);
        assert_eq!(parts[0].label.piece, "Bib, left");
        assert_eq!(parts[1].label.cut, "cut 1, worn right");
        // Mirrored it lies to the left of the drawing's x = 0.
        let on_the_left = parts[usize::from(is_left)].stitching.iter().all(|path| path.end().x <= 1e-9);
        assert!(on_the_left, "{drawn}");
    }
}

/// A pocket on the left breast: of one that is cut there is one place, of two one too many.
#[test]
fn a_pocket_lies_on_the_left_alone() {
    let text = |cut: &str, on: &str| {
        format!(
            "garment \"Galley bib\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" {{ width 150 }}
layer outer in cotton {{ bib, pocket }}
piece bib \"Bib\" {{ cut 1 on fold left; outline rectangle 30 by 40; mark pocket_corner = (10, 15); drawn left }}
piece pocket \"Pocket\" {{ {cut}; outline rectangle 10 by 12 }}
finish bib.top, bib.bottom, bib.right, pocket.top hem 2
place pocket on bib{on} {{ corner bottom_left at pocket_corner; topstitch left, bottom, right }}"
        )
    };
    assert_eq!(said(&text("cut 1", " on left")), [""; 0]);
    assert_eq!(said(&text("cut 2", "")), [""; 0]);
    assert_eq!(said(&text("cut 2", " on left")), ["place/count"]);
    assert_eq!(said(&text("cut 1", " on left").replace("; drawn left", "")), ["side/drawn"]);
    let found = of(&text("cut 1", " on left"));
    let marks: Vec<String> = cut_parts(&found)[0].marks.iter().map(|mark| mark.name.clone()).collect();
    assert_eq!(marks, ["pocket corner (left)"]);
    let surface = found.sizes[0].sewn.surface.as_ref().expect("the surface");
    assert_eq!(surface.placings.len(), 1);
}

/// A half that is drawn to the right of its fold is worn on the left in front, and on the right behind.
#[test]
fn what_is_drawn_lies_right_side_up() {
    let turned = skirt(ZIPPED).replace("drawn right", "drawn left");
    assert_eq!(said(&turned), ["side/turned"]);
    let both = skirt(ZIPPED).replace("drawn left", "drawn up").replace("drawn right", "drawn left");
    let both = both.replace("drawn up", "drawn right");
    assert_eq!(said(&both), [""; 0]);
}

/// One front carries the band of the buttonholes, the other is hemmed; the shoulders and sides join both to one
/// back on the fold. By hand: 26 and 3 of the hem and 1 at the side are 30, without the hem 28.
#[test]
fn one_front_carries_a_band() {
    let text = "garment \"Purser's vest\"\nunits cm\nallowance 1
fabric serge \"wool serge\" { width 150 }
layer outer in serge { front, back, band }
piece front \"Front\" { cut 2 mirrored; drawn left; outline rectangle 26 by 50 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 26 by 50 }
piece band \"Buttonhole band\" { cut 1; outline rectangle 50 by 6; folded top to bottom }
seam side front.right to back.right
seam band_on band.bottom and band.top to front.left on right
finish band.left, band.right raw
finish front.left on left hem 3
finish front.top, back.top, front.bottom, back.bottom bound 1";
    let found: Vec<&str> = said(text).into_iter().filter(|slug| *slug != "finish/runs-on").collect();
    assert_eq!(found, [""; 0]);
    let compiled = of(text);
    let parts = cut_parts(&compiled);
    let wide: Vec<_> = parts
        .iter()
        .take(3)
        .map(|part| (part.hand, fustian::cutting::cut_extent(part).map(|(width, _)| width.round())))
        .collect();
    let back = Some(540.0);
    assert_eq!(wide, [(Some(Hand::Left), Some(300.0)), (Some(Hand::Right), Some(280.0)), (None, back)]);
    // One side seam on the left and one on the right; the back is not told apart, and taken once.
    let sewing = &compiled.sizes[0].sewn;
    assert_eq!(
        sewing.seams.iter().filter(|sewn| *compiled.garment.seam(sewn.seam).name == *"side").count(),
        2
    );
    let back = sewing.parts.iter().find(|part| part.hand.is_none()).expect("the back");
    assert!(back.edges.iter().all(|fate| fate.takers.len() == 1));
    // Without the hem of the left front that edge is missed.
    let bare = text.replace("finish front.left on left hem 3\n", "");
    assert!(said(&bare).contains(&"edge/loose"));
}

/// A seam that is taken on the left leaves what it joined there loose, on a piece of which no side was named.
#[test]
fn what_it_was_sewn_to_is_missed_too() {
    let text = "garment \"Cook's wrap\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" { width 150 }
layer outer in cotton { front, back }
piece front \"Front\" { cut 1 on fold left; drawn left; outline rectangle 24 by 60 }
piece back \"Back\" { cut 1 on fold left; outline rectangle 24 by 60 }
seam side front.right to back.right
finish front.right on left hem 2
finish front.top, back.top, front.bottom, back.bottom hem 2";
    let compiled = of(text);
    let loose: Vec<String> = compiled
        .diagnostics
        .iter()
        .filter(|one| one.slug() == "edge/loose")
        .map(|one| one.title.to_string())
        .collect();
    assert_eq!(loose, ["the right of Back on the left is neither sewn nor finished"]);
}

/// The whole that `unfold` makes is cut along the half's line and its mirror image in the fold: twice the area, by
/// hand 2 × 21 by 44, and every point of it mirrored lies on it.
#[test]
fn an_unfolded_half_is_cut_as_its_whole() {
    let text = |unfold: &str| {
        format!(
            "garment \"Galley bib\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" {{ width 150 }}
layer outer in cotton {{ bib }}
piece bib \"Bib\" {{
  cut 1 on fold middle
  point a = (0, 0)
  point b = (20, 0)
  point c = (14, 40)
  point d = (0, 36)
  outline from a {{ hem to b; side to c curve leaving up; neck to d curve arriving left; middle to a }}
  mark spot = (5, 10)
}}
finish bib.hem, bib.neck, bib.side hem 2
{unfold}"
        )
    };
    let half = cut_parts(&of(&text("")));
    let whole = cut_parts(&of(&text("unfold bib")));
    assert_eq!(said(&text("unfold bib")), said(&text("")));
    let [half, whole] = [&half[0], &whole[0]];
    assert_eq!((whole.label.cut.as_str(), whole.fold, whole.edges.len()), ("cut 1, whole", None, 6));
    assert_eq!((whole.marks.len(), half.marks.len()), (2, 1));
    // The half's cutting line closed along its fold at x = 0.
    let own: Vec<fustian::shape::Point> =
        half.cutting_ring().iter().flat_map(|path| path.flatten(0.01)).collect();
    let line = opened(whole);
    assert!((area(&line) - 2.0 * area(&own)).abs() < 1e-4 * area(&line), "{} {}", area(&line), area(&own));
    let ring = whole.cutting_ring();
    for point in line {
        let there = fustian::shape::Point::new(-point.x, point.y);
        let off = ring.iter().map(|path| path.nearest(there).distance).fold(f64::INFINITY, f64::min);
        assert!(off < 0.05, "{point:?} {off}");
    }
    // What is not on the fold cannot be unfolded.
    let pair = text("unfold bib").replace("cut 1 on fold middle", "cut 2 mirrored");
    assert!(said(&pair).contains(&"alter/not-fold"));
    assert!(said(&text("unfold bib\nunfold bib")).contains(&"alter/not-fold"));
}

const PANELS: &str = "garment \"Cook's wrap\"\nunits cm\nallowance 1
fabric cotton \"apron cotton\" { width 150 }
layer outer in cotton { front, back }
piece front \"Front\" { cut 2 mirrored; drawn left; outline rectangle 20 by 60; line knee across at (0, 20) }
piece back \"Back\" { cut 1 on fold left; outline rectangle 20 by 60; line knee across at (0, 20) }
seam side front.right to back.right
finish front.left, front.top, back.top, front.bottom, back.bottom hem 2";

/// A pair made two pieces: the base's names mean both. By hand 20 and 2 and 1 wide, 60 and 2 × 2 high, and after the
/// hem of the left one is moved in by 5, 59 high.
#[test]
fn a_pair_becomes_two_pieces() {
    let text = format!("{PANELS}\nunpair front into left_front, right_front");
    assert_eq!(said(&text), [""; 0]);
    let compiled_text = of(&text);
    let parts = cut_parts(&compiled_text);
    let found: Vec<_> = parts.iter().map(|part| (part.label.piece.as_str(), part.copies)).collect();
    assert_eq!(found, [("Front, left", 1), ("Front, right", 1), ("Back", 1)]);
    let extent = |part: &CutPart| fustian::cutting::cut_extent(part).map(|(w, h)| (w.round(), h.round()));
    assert!(parts.iter().take(2).all(|part| extent(part) == Some((230.0, 640.0))));
    // The right one is the mirror image, right side up.
    assert!(parts[1].stitching.iter().all(|path| path.end().x <= 1e-9));
    let sewing = &compiled_text.sizes[0].sewn;
    let sides: Vec<_> = sewing.seams.iter().map(|sewn| (sewn.reach.hand(), sewn.sewings)).collect();
    assert_eq!(sides, [(Some(Hand::Left), 1), (Some(Hand::Right), 1)]);
    // Alterations of the base's name change both, of the new name one.
    let longer = of(&format!("{text}\nlengthen front, back at knee by 6"));
    let parts = cut_parts(&longer);
    assert!(parts.iter().take(2).all(|part| extent(part) == Some((230.0, 700.0))));
    let shorter = of(&format!("{text}\ntrim left_front.bottom by 5"));
    let parts = cut_parts(&shorter);
    assert_eq!([extent(&parts[0]), extent(&parts[1])], [Some((230.0, 590.0)), Some((230.0, 640.0))]);
    // So that its side is 5 shorter than the back's, on the left alone.
    let unequal = shorter.diagnostics.iter().filter(|one| one.slug() == "alter/one-side").count();
    assert_eq!(unequal, 1);
}

/// A half on the fold made two pieces has an edge where its fold was, which is sewn.
#[test]
fn a_half_becomes_two_pieces() {
    let text = format!("{PANELS}\nunpair back into left_back, right_back")
        .replace("cut 1 on fold left;", "cut 1 on fold left; drawn right;");
    assert!(said(&text).contains(&"edge/loose"));
    let sewn = format!("{text}\nseam centre left_back.left to right_back.left");
    assert_eq!(said(&sewn), [""; 0]);
    // By the base's name left meets right as well.
    let by_base = format!("{text}\nseam centre back.left to back.left");
    assert_eq!(said(&by_base), [""; 0]);
    let both = of(&sewn);
    let faces = both.sizes[0].sewn.surface.as_ref().map(|surface| surface.faces.len());
    assert_eq!(faces, Some(4));
    let undrawn = text.replace(" drawn right;", "");
    assert!(
        said(&format!("{undrawn}\nseam centre left_back.left to right_back.left")).contains(&"side/drawn")
    );
    let alike =
        format!("{PANELS}\nunpair back into left_back, right_back").replace("cut 1 on fold left", "cut 1");
    assert!(said(&alike).contains(&"alter/no-pair"));
}
