//! What strangers cut from: pieces printed once, sizes told apart without colour, and what is said on every piece.
//! Figures are worked out by hand.

use crate::cutting_lines::{cut_all, example};
use fustian::Compiled;
use fustian::emit::drawing::{Lines, Look, What, draw_group, pieces};
use fustian::emit::{Paper, pdf};
use lopdf::Document;

/// An oilskin vest, lined with the same pieces, in three sizes.
fn vest(of_lining: &str) -> Compiled {
    let text = format!(
        "garment \"Oilskin vest\"\nunits cm\nallowance 1\nsizes S, M, L\nbody {{ chest 88, 96, 104 }}\n\
         fabric oilskin \"oilskin\" {{ width 150 }}\nfabric cotton \"cotton lining\" {{ width 150 }}\n\
         layer outer in oilskin {{ front, pocket }}\nlayer lining in cotton {{ front }}\n\
         piece front \"Front\" {{\n  cut 2 mirrored\n  outline rectangle chest/4 by 60\n\
         mark pocket_place = (5, 10)\n}}\n\
         piece pocket \"Pocket\" {{ cut 2; outline rectangle 14 by 16 }}\n\
         finish outer.front.left, outer.front.top, outer.front.right  overlocked\n\
         finish lining.front.left, lining.front.top, lining.front.right  {of_lining}\n\
         finish outer.front.bottom, lining.front.bottom, pocket.top  hem 4\n\
         place pocket on outer.front {{ corner bottom_left at pocket_place; topstitch left, bottom, right }}\n"
    );
    let loader = fustian::source::MemoryLoader::new().with("vest.fus", text);
    let compiled = fustian::compile(&loader, "vest.fus");
    assert!(!compiled.has_mistakes(), "{:?}", compiled.diagnostics);
    compiled
}

/// All words on each piece.
fn words(compiled: &Compiled, look: &Look) -> Vec<Vec<String>> {
    let cuts = cut_all(compiled);
    let drawn = pieces(&compiled.garment, &cuts, look);
    let drawn = drawn.iter().map(|piece| draw_group(&compiled.garment, piece, look, false).unwrap());
    drawn
        .map(|piece| {
            let words = piece.shapes.iter().filter_map(|shape| match &shape.what {
                What::Words(words) => Some(words.text.clone()),
                _ => None,
            });
            words.collect()
        })
        .collect()
}

/// Front of shell and lining have one cutting line: one piece, with both cloths and what is cut of each. The pocket's place
/// is the shell's alone, and says so.
#[test]
fn what_two_layers_cut_alike_is_printed_once() {
    let compiled = vest("overlocked");
    let once = words(&compiled, &Look::printing());
    assert_eq!(once.len(), 2, "front and pocket");
    let front = &once[0];
    assert!(front.contains(&"outer: oilskin: cut 2, one of each hand".to_owned()), "{front:?}");
    assert!(front.contains(&"lining: cotton lining: cut 2, one of each hand".to_owned()), "{front:?}");
    assert!(front.iter().any(|words| words.starts_with("pocket place (outer)")), "{front:?}");
    let every_part = Look { every_part: true, ..Look::printing() };
    assert_eq!(words(&compiled, &every_part).len(), 3, "front, pocket, and the lining's front");
}

/// A lining that is cut 2 mm wider along its side cannot be cut by the same piece.
#[test]
fn what_is_cut_differently_stays_apart() {
    let compiled = vest("hem 1.2");
    assert_eq!(words(&compiled, &Look::printing()).len(), 3);
}

/// Every piece says which of how many it is, whatever else is printed, and what the cutting line holds: the front 1 cm,
/// and 4 cm at its hem; the pocket 1 cm and 4 cm at its top, which is hemmed.
#[test]
fn a_piece_says_its_number_and_its_allowance() {
    let compiled = vest("overlocked");
    let all = words(&compiled, &Look::printing());
    let has = |words: &[String], line: &str| words.iter().any(|words| words == line);
    assert!(
        has(&all[0], "piece 1 of 2") && has(&all[0], "1 cm allowance included; bottom 4 cm"),
        "{:?}",
        all[0]
    );
    assert!(
        has(&all[1], "piece 2 of 2") && has(&all[1], "1 cm allowance included; top 4 cm"),
        "{:?}",
        all[1]
    );
    let pocket = compiled
        .garment
        .parts()
        .into_iter()
        .find(|part| *compiled.garment.piece(part.piece).name == *"pocket");
    let look = Look { only: pocket.map(|pocket| vec![pocket]), ..Look::printing() };
    let pocket = words(&compiled, &look);
    assert!(pocket.len() == 1 && has(&pocket[0], "piece 2 of 2"), "{pocket:?}");
}

/// Of sizes in one another only the cutting lines are drawn, unless both are asked for; of one size both.
#[test]
fn a_nest_shows_where_it_is_cut() {
    let compiled = vest("overlocked");
    let cuts = cut_all(&compiled);
    let count = |cuts: &[fustian::cutting::Cutting], lines: Option<Lines>| {
        let look = Look { lines, ..Look::printing() };
        let piece = &pieces(&compiled.garment, cuts, &look)[0];
        let drawn = draw_group(&compiled.garment, piece, &look, false).unwrap();
        let named = |end: &str| {
            drawn
                .shapes
                .iter()
                .filter(|shape| shape.name.as_deref().is_some_and(|name| name.ends_with(end)))
                .count()
        };
        (named(" cutting"), named(" stitching"))
    };
    assert_eq!(count(&cuts, None), (3, 0));
    assert_eq!(count(&cuts[..1], None), (1, 1));
    assert_eq!(count(&cuts, Some(Lines::Both)), (3, 3));
    assert_eq!(count(&cuts, Some(Lines::Sew)), (0, 3));
    assert_eq!(count(&cuts[..1], Some(Lines::Cut)), (1, 0));
}

/// Asked for both lines of several sizes, a viewer can hide either (ISO 32000-1, 8.11).
#[test]
fn both_lines_of_several_sizes_are_layers_of_their_own() {
    let compiled = vest("overlocked");
    let layers = |lines: Option<Lines>| {
        let look = Look { lines, ..Look::printing() };
        let bytes = pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &look, &mut |_, _| {}).unwrap();
        let document = Document::load_mem(&bytes).unwrap();
        let groups = document.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap();
        let groups = groups.get(b"OCGs").unwrap().as_array().unwrap();
        let name = |group: &lopdf::Object| {
            let group = document.get_dictionary(group.as_reference().unwrap()).unwrap();
            String::from_utf8(group.get(b"Name").unwrap().as_str().unwrap().to_vec()).unwrap()
        };
        groups.iter().map(name).collect::<Vec<String>>()
    };
    assert_eq!(layers(None), ["S", "M", "L"]);
    assert_eq!(layers(Some(Lines::Both)), ["S", "S, sew", "M", "M, sew", "L", "L, sew"]);
}

/// Each size's name stands in its line on every long edge again and again: a side of 60 cm has room for the three names
/// 3 times (3 × 12 mm and 120 mm between), so that no stretch as long as an A4 page is without.
#[test]
fn size_names_come_again_along_an_edge() {
    let compiled = vest("overlocked");
    let cuts = cut_all(&compiled);
    let look = Look::printing();
    let piece = &pieces(&compiled.garment, &cuts, &look)[0];
    let drawn = draw_group(&compiled.garment, piece, &look, false).unwrap();
    for (size, cut) in ["S", "M", "L"].into_iter().zip(&cuts) {
        // The side at x = a quarter of the chest and 1 cm, from 4 cm below the hem line to 1 cm above the top.
        let side = cut.parts[0].cutting.iter().map(|run| run.path.bounding_box().x1).fold(0.0, f64::max);
        let mut heights: Vec<f64> = drawn
            .shapes
            .iter()
            .filter_map(|shape| match &shape.what {
                What::Words(words) if words.cleared && words.text == size => Some(words.at),
                _ => None,
            })
            .filter(|at| (at.x - side).abs() < 5.0)
            .map(|at| at.y)
            .collect();
        heights.extend([-40.0, 610.0]);
        heights.sort_by(f64::total_cmp);
        assert!(heights.len() > 4, "{size}: {heights:?}");
        assert!(heights.windows(2).all(|pair| pair[1] - pair[0] < 297.0), "{size}: {heights:?}");
    }
}

/// The deck jacket's set for A4 was 63 pages when shell and lining were printed apart and pages of nothing but cloth too.
#[test]
fn the_jacket_takes_few_pages() {
    let compiled = example("deck-jacket.fus");
    let bytes =
        pdf(&compiled.garment, &cut_all(&compiled), Paper::A4, &Look::printing(), &mut |_, _| {}).unwrap();
    let pages = Document::load_mem(&bytes).unwrap().get_pages().len();
    assert!(pages <= 42, "{pages}");
}
