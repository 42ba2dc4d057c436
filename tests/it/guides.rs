//! What is marked on a piece so that it is folded, or another one laid on it, where it belongs. Figures are worked out by
//! hand, in millimetres.

use crate::cutting_lines::cut_all;
use fustian::Compiled;
use fustian::cutting::{CutPart, Guide, GuideKind};
use fustian::emit::dxf;
use fustian::shape::Point;

fn compiled(text: &str) -> Compiled {
    let text = format!(
        "garment \"Deck bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n{text}\n"
    );
    fustian::compile(&fustian::source::MemoryLoader::new().with("bag.fus", text), "bag.fus")
}

fn part<'p>(parts: &'p [CutPart], compiled: &Compiled, name: &str) -> &'p CutPart {
    let found = parts.iter().find(|part| *compiled.garment.piece(part.part.piece).name == *name);
    found.unwrap_or_else(|| panic!("{name} is not cut: {:#?}", compiled.diagnostics))
}

#[track_caller]
fn ends(guide: &Guide, expected: [(f64, f64); 2]) {
    let found = [guide.path.start(), guide.path.end()];
    let near = |[one, other]: [Point; 2]| {
        one.distance(expected[0].into()) < 0.01 && other.distance(expected[1].into()) < 0.01
    };
    assert!(near(found) || near([found[1], found[0]]), "{found:?} instead of {expected:?}");
}

const BAND: &str = "layer outer in canvas { band, tie }\n\
    piece band \"Band\" { cut 1; outline rectangle 60 by 8; folded top to bottom }\n\
    piece tie \"Tie\" { cut 1; outline rectangle 40 by 8; folded top to bottom in four }\n";

/// Half way up of 80; in four also at a quarter and three quarters.
#[test]
fn a_folded_piece_bears_its_fold_lines() {
    let compiled = compiled(BAND);
    let cuts = cut_all(&compiled);
    let band = part(&cuts[0].parts, &compiled, "band");
    assert_eq!(band.guides.len(), 1);
    ends(&band.guides[0], [(0.0, 40.0), (600.0, 40.0)]);
    let tie = part(&cuts[0].parts, &compiled, "tie");
    let mut heights: Vec<f64> = tie.guides.iter().map(|guide| guide.path.start().y).collect();
    heights.sort_by(f64::total_cmp);
    assert_eq!(heights, [20.0, 40.0, 60.0]);
    assert!(tie.guides.iter().all(|guide| guide.kind == GuideKind::Fold));
}

/// A hem of 3 in a turn-up of 4: folded again 4 and 8 beyond the stitching line, over the whole width with its allowances of
/// 1 on straight sides.
#[test]
fn a_turn_up_bears_its_further_folds() {
    let compiled = compiled(
        "layer outer in canvas { leg }\npiece leg \"Leg\" { cut 2 mirrored; outline rectangle 20 by 50 }\n\
         finish leg.bottom  hem 3 turn-up 4",
    );
    let cuts = cut_all(&compiled);
    let leg = part(&cuts[0].parts, &compiled, "leg");
    assert_eq!(leg.guides.len(), 2, "{:?}", leg.guides);
    for (guide, below) in leg.guides.iter().zip([-40.0, -80.0]) {
        ends(guide, [(-10.0, below), (210.0, below)]);
    }
    // A plain hem is folded at its stitching line alone.
    let plain = self::compiled(
        "layer outer in canvas { leg }\npiece leg \"Leg\" { cut 2 mirrored; outline rectangle 20 by 50 }\n\
         finish leg.bottom  hem 3 turned under 1",
    );
    assert!(part(&cut_all(&plain)[0].parts, &plain, "leg").guides.is_empty());
}

/// 10 by 8, its lower left corner on a mark at (5, 20).
#[test]
fn a_placed_pocket_shows_on_what_it_lies_on() {
    let text = "layer outer in canvas { front, pocket }\npiece front \"Front\" { cut 2 mirrored; outline rectangle 30 by 50; mark low = (5, 20) }\n\
        piece pocket \"Pocket\" { cut 2; outline rectangle 10 by 8 }\n\
        place pocket on front { corner bottom_left at low; topstitch left, bottom, right }";
    let compiled = compiled(text);
    let cuts = cut_all(&compiled);
    let front = part(&cuts[0].parts, &compiled, "front");
    let placed: Vec<&Guide> = front.guides.iter().collect();
    assert_eq!(placed.len(), 1);
    assert_eq!((placed[0].name.as_str(), placed[0].kind), ("Pocket", GuideKind::Placed));
    let bounds = placed[0].path.bounding_box();
    assert_eq!([bounds.x0, bounds.y0, bounds.x1, bounds.y1].map(f64::round), [50.0, 200.0, 150.0, 280.0]);
    assert!(part(&cuts[0].parts, &compiled, "pocket").guides.is_empty());
}

/// Read back: fold lines lie on the layer of inner lines, rows of stitching on that of lines that are sewn (8 and 14 of ASTM
/// D6673).
#[test]
fn guides_and_rows_of_stitching_are_exported() {
    let text = "layer outer in canvas { front, yoke, band }\npiece front \"Front\" { cut 1; outline rectangle 30 by 50 }\n\
        piece yoke \"Yoke\" { cut 1; outline rectangle 30 by 10 }\n\
        piece band \"Band\" { cut 1; outline rectangle 60 by 8; folded top to bottom }\n\
        seam across front.top to yoke.bottom { topstitched 0.6 over yoke }";
    let compiled = compiled(text);
    let cuts = cut_all(&compiled);
    let bytes = dxf(&compiled.garment, &cuts);
    let drawing = ::dxf::Drawing::load(&mut std::io::Cursor::new(&bytes)).unwrap();
    let heights = |block: &str, layer: &str| {
        let block = drawing.blocks().find(|own| own.name == block).expect("a block");
        let mut all: Vec<Vec<f64>> = Vec::new();
        for entity in block.entities.iter().filter(|entity| entity.common.layer == layer) {
            if let ::dxf::entities::EntityType::Polyline(line) = &entity.specific
                && !line.is_closed()
            {
                all.push(line.vertices().map(|vertex| (vertex.location.y * 100.0).round() / 100.0).collect());
            }
        }
        all
    };
    // 6 beside the seam, which is the yoke's lower edge at 0.
    assert_eq!(heights("OUTER_YOKE", "14"), [vec![6.0, 6.0]]);
    assert_eq!(heights("OUTER_FRONT", "14"), Vec::<Vec<f64>>::new());
    assert_eq!(heights("OUTER_BAND", "8"), [vec![40.0, 40.0]]);
}

/// The shirt's front and its cuffs are closed by buttons of one kind: each row says which it is for.
#[test]
fn what_is_bought_for_two_closures_says_for_which() {
    let folder = crate::workbench::examples();
    let told =
        crate::workbench::out(&crate::workbench::run(folder.path(), &["materials", "purser-shirt.fus"]));
    let buttons: Vec<&str> = told.lines().filter(|line| line.contains("button")).collect();
    assert!(buttons.len() > 1 && buttons.iter().all(|line| line.contains(", for ")), "{told}");
    assert!(!told.lines().any(|line| line.contains("fusible, for")), "{told}");
}

/// A pocket on the outside of a lined front: its outline is marked on the outside alone, and bears its name there, in the
/// drawing as in what other programs read.
#[test]
fn what_is_placed_is_marked_where_it_lies_and_bears_its_name() {
    let compiled = compiled(
        "fabric twill \"twill\" { width 150 }\nlayer outer in canvas { front, pocket }\nlayer lining in twill { front }\n\
         piece front \"Front\" { cut 1; outline rectangle 40 by 60; mark corner_at = (10, 20) }\n\
         piece pocket \"Chart pocket\" { cut 1; outline rectangle 16 by 18 }\n\
         place pocket on front { corner bottom_left at corner_at; topstitch left, bottom, right }",
    );
    let cuts = cut_all(&compiled);
    let placed = |layer: &str| {
        let is_own = |part: &&CutPart| *compiled.garment.layer(part.part.layer).name == *layer;
        let parts = cuts[0].parts.iter().filter(is_own);
        parts.flat_map(|part| &part.guides).filter(|guide| guide.kind == GuideKind::Placed).count()
    };
    assert_eq!((placed("outer"), placed("lining")), (1, 0));
    let bytes = dxf(&compiled.garment, &cuts);
    let text = String::from_utf8_lossy(&bytes).into_owned();
    // In its own block it is an annotation.
    let own = text.lines().filter(|line| line.trim() == "Chart pocket").count();
    assert_eq!(own, 1, "{own}");
    let folder = crate::workbench::folder_of(&[(
        "bag.fus",
        "garment \"Deck bag\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" { width 150 }\n\
         layer outer in canvas { front, pocket }\n\
         piece front \"Front\" { cut 1; outline rectangle 40 by 60; mark corner_at = (10, 20) }\n\
         piece pocket \"Chart pocket\" { cut 1; outline rectangle 16 by 18 }\n\
         place pocket on front { corner bottom_left at corner_at; topstitch left, bottom, right }\n\
         finish front.left, front.right, front.top, front.bottom, pocket.top hem 1\n",
    )]);
    crate::workbench::run(folder.path(), &["draw", "bag.fus", "-o", "bag.svg"]);
    let drawn = std::fs::read_to_string(folder.path().join("bag.svg")).expect("it is drawn");
    // On its host, and as its own.
    assert_eq!(drawn.matches("aria-label=\"Chart pocket\"").count(), 2);
}
