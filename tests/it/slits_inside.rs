//! Slits inside a piece: where they lie, the hole that they are in the sewn surface, what is sewn and cut of them, and
//! what alterations do to them. Figures are worked out by hand, in centimetres where they are said and in
//! millimetres where they come out.

use crate::cutting_lines::cut_all;
use crate::drafting::{same, same_place};
use crate::workbench::{NOTHING, helps, of, paper, run, said, told, with};
use dxf::Drawing;
use dxf::entities::EntityType;
use fustian::Compiled;
use fustian::cutting::CutPart;
use fustian::sewing::surface::{Gluing, Sheet};
use std::io::Cursor;

const WINDOW: &str = "slit pocket from (8, 20) to (22, 20) window 2";
const CUT: &str = "slit pocket from (8, 20) to (22, 20)";
const BOUND: &str = "finish panel.pocket.near, panel.pocket.far bound 0.8\n";
const ENDS: &str = "finish panel.pocket.start, panel.pocket.end bound 0.8\n";
const EDGES: &str = "finish panel.left, panel.right, panel.top, panel.bottom overlocked\n";

/// A panel 30 wide and 40 high with this slit, cut so, and what else is said.
fn panel(cut: &str, inside: &str, rest: &str) -> String {
    format!(
        "garment \"Deck vest\"\nunits cm\nallowance 1\ntolerance 2mm\nfabric cotton \"blue cotton\" {{ width 150 }}\n\
         layer outer in cotton {{ panel }}\n\
         piece panel \"Panel\" {{\n{cut}\noutline rectangle 30 by 40\n{inside}\n}}\n{rest}"
    )
}

/// The window of a panel is closed by a piece of its size.
fn filled() -> String {
    let text = panel(
        "cut 1",
        WINDOW,
        &format!(
            "piece filling \"Filling\" {{ cut 1; outline rectangle 14 by 2 }}\n\
             seam above filling.top to panel.pocket.near {{ matching filling.top_left with panel.pocket.start_near }}\n\
             seam below filling.bottom to panel.pocket.far {{ matching filling.bottom_left with panel.pocket.start_far }}\n\
             seam before filling.left to panel.pocket.start {{ matching filling.top_left with panel.pocket.start_near }}\n\
             seam behind filling.right to panel.pocket.end {{ matching filling.top_right with panel.pocket.end_near }}\n\
             {EDGES}"
        ),
    );
    text.replace("{ panel }", "{ panel, filling }")
}

fn cut_of(compiled: &Compiled) -> &CutPart {
    compiled.sizes[0].cut(&compiled.garment).parts.first().expect("the panel is cut")
}

/// Name, length and start of each edge.
fn edges(compiled: &Compiled, piece: &str) -> Vec<(String, f64, (f64, f64))> {
    let of = |edge: &fustian::resolve::DrawnEdge| {
        let start = edge.path.start();
        (compiled.garment.edge(edge.edge).name.to_string(), edge.path.length(), (start.x, start.y))
    };
    paper(compiled, piece).edges.iter().map(of).collect()
}

fn sheets(text: &str) -> Vec<(usize, i64, usize)> {
    let compiled = of(text);
    let surface = compiled.sizes[0].sewn.surface.as_ref().unwrap_or_else(|| panic!("{:?}", told(text)));
    let kind = |sheet: Sheet| {
        assert!(sheet.orientable, "{sheet:?}");
        (sheet.faces.len(), sheet.euler, sheet.rims)
    };
    Gluing::seams(surface).sheets(surface).into_iter().map(kind).collect()
}

/// From (8, 20) to (16, 26) is a way of 10 that goes (0.8, 0.6); (-0.6, 0.8) is square to it on its left, so half the
/// window of 2 leads to (7.4, 20.8) and (15.4, 26.8) on the near side, to (8.6, 19.2) and (16.6, 25.2) on the far one. The
/// outline goes round to the left, so the slit is gone round to the right, from its near side on.
#[test]
fn a_slit_is_a_ring_of_its_own_that_goes_the_other_way() {
    let slit = "slit pocket from (8, 20) to (16, 26) window 2";
    let compiled = of(&panel("cut 1", slit, &format!("{BOUND}{ENDS}{EDGES}")));
    let found = edges(&compiled, "panel");
    let expected = [
        ("pocket.near", 100.0, (74.0, 208.0)),
        ("pocket.end", 20.0, (154.0, 268.0)),
        ("pocket.far", 100.0, (166.0, 252.0)),
        ("pocket.start", 20.0, (86.0, 192.0)),
    ];
    assert_eq!(found.len(), 8);
    for ((name, long, (x, y)), (own, length, at)) in found[4..].iter().zip(expected) {
        assert_eq!(name, own);
        same(*long, length);
        same_place((*x, *y).into(), at);
    }
    assert_eq!(paper(&compiled, "panel").outline().len(), 4);
}

/// The same cloth lies on the left of the way whichever way the outline is walked: then the far side is walked first.
#[test]
fn near_is_on_the_left_whichever_way_the_outline_goes() {
    let walked = "point a = (0, 0); point b = (0, 40); point c = (30, 40); point d = (30, 0)\n\
                  outline from a { left to b; top to c; right to d; bottom to a }\n";
    let text = panel("cut 1", WINDOW, &format!("{BOUND}{ENDS}{EDGES}"));
    let text = text.replace("outline rectangle 30 by 40\n", walked);
    assert_eq!(said(&text), NOTHING);
    let found = edges(&of(&text), "panel");
    assert_eq!(found[4].0, "pocket.far");
    // From its start at (8, 19) on.
    same_place(found[4].2.into(), (80.0, 190.0));
    let near = found.iter().find(|(name, ..)| name == "pocket.near").expect("the near side");
    same_place(near.2.into(), (220.0, 210.0));
}

/// A disc with a hole has Euler's number 0 and two rims; of a half on the fold, with a hole on each side, -1 and three;
/// two of them sewn along one edge 0 + 0 - 1 and three. Filled it is a disc again: 0 + 1 - 4 edges and + 4 corners.
#[test]
fn a_slit_is_a_hole_in_the_surface_until_something_fills_it() {
    let bound = format!("{BOUND}{ENDS}");
    assert_eq!(sheets(&panel("cut 1", WINDOW, &format!("{bound}{EDGES}"))), [(1, 0, 2)]);
    assert_eq!(sheets(&panel("cut 1", CUT, &format!("{BOUND}{EDGES}"))), [(1, 0, 2)]);
    let half = "finish panel.right, panel.top, panel.bottom overlocked\n";
    assert_eq!(sheets(&panel("cut 1 on fold left", WINDOW, &format!("{bound}{half}"))), [(1, -1, 3)]);
    let pair = format!("seam centre panel.left to panel.left\n{half}");
    assert_eq!(sheets(&panel("cut 2 mirrored", WINDOW, &format!("{bound}{pair}"))), [(2, -1, 3)]);
    let two = format!("{WINDOW}\nslit other from (8, 10) to (22, 10)");
    let more = "finish panel.other.near, panel.other.far bound 0.8\n";
    assert_eq!(sheets(&panel("cut 1", &two, &format!("{bound}{more}{EDGES}"))), [(1, -1, 3)]);
    assert_eq!(said(&filled()), NOTHING);
    assert_eq!(sheets(&filled()), [(2, 1, 1)]);
}

/// Round a window of 14 by 2 there are 32, round a cut of 14 there are 28.
#[test]
fn the_rim_of_a_hole_is_as_long_as_its_sides() {
    for (slit, rest, expected) in [(WINDOW, format!("{BOUND}{ENDS}"), 320.0), (CUT, BOUND.to_owned(), 280.0)]
    {
        let compiled = of(&panel("cut 1", slit, &format!("{rest}{EDGES}")));
        let surface = compiled.sizes[0].sewn.surface.as_ref().expect("a surface");
        let mut rims: Vec<f64> =
            Gluing::seams(surface).rims(surface).iter().map(|rim| rim.length(surface)).collect();
        rims.sort_by(f64::total_cmp);
        assert_eq!(rims.len(), 2);
        same(rims[0], expected);
        same(rims[1], 1400.0);
    }
}

/// A welt of half its cloth as high as the window, and a bag behind it: sewn on, the window is shut.
const POCKET: &str = "piece welt \"Welt\" { cut 1; outline rectangle 14 by 4; folded top to bottom }\n\
    piece bag_front \"Front pocket bag\" { cut 1; outline rectangle 14 by 12 }\n\
    piece bag_back \"Back pocket bag\" { cut 1; outline rectangle 14 by 12 }\n\
    seam welt_on welt.bottom and welt.top and bag_front.top to panel.pocket.far \
      { matching welt.bottom_left with panel.pocket.start_far }\n\
    seam bag_on bag_back.top to panel.pocket.near { matching bag_back.top_right with panel.pocket.end_near }\n\
    seam welt_start panel.pocket.start to welt.left { matching panel.pocket.start_far with welt.bottom_left }\n\
    seam welt_end panel.pocket.end to welt.right { matching panel.pocket.end_far with welt.bottom_right }\n\
    seam bag bag_front.left + bag_front.bottom + bag_front.right \
      to bag_back.left + bag_back.bottom + bag_back.right\n";

fn welt_pocket() -> String {
    panel("cut 1", WINDOW, &format!("{POCKET}{EDGES}"))
        .replace("{ panel }", "{ panel, welt, bag_front, bag_back }")
}

#[test]
fn a_welt_pocket_is_sewn_into_a_slit() {
    let text = welt_pocket();
    assert_eq!(told(&text), []);
    let compiled = of(&text);
    assert!(compiled.sizes[0].sewn.surface.is_some());
    // The window gives each side half of itself to turn: 1.
    let sewn = &compiled.sizes[0].sewn;
    let drawn = paper(&compiled, "panel");
    let fates = drawn.edges.iter().zip(&sewn.parts[0].edges);
    let in_window: Vec<f64> = fates.skip(4).filter_map(|(_, fate)| fate.allowance).collect();
    assert_eq!(in_window.len(), 4);
    in_window.into_iter().for_each(|allowance| same(allowance, 10.0));
    // Too long by 1, or the wrong way round, it does not fit.
    assert_eq!(said(&text.replace("rectangle 14 by 4", "rectangle 15 by 4")), ["seam/plies"]);
}

/// With something to turn the cut parts 1 before both ends and leads into the corners; bound, nothing is turned and the
/// strip is cut out; without a window it is one cut with a stroke of 6 across each end.
#[test]
fn it_is_cut_inside_and_the_cutting_line_goes_round_outside() {
    let compiled = of(&welt_pocket());
    let part = cut_of(&compiled);
    assert_eq!((part.cutting.len(), part.stitching.len(), part.holes.len()), (4, 4, 1));
    let slit = &part.slits[0];
    let expected = [
        ((90.0, 200.0), (210.0, 200.0)),
        ((90.0, 200.0), (80.0, 210.0)),
        ((90.0, 200.0), (80.0, 190.0)),
        ((210.0, 200.0), (220.0, 210.0)),
        ((210.0, 200.0), (220.0, 190.0)),
    ];
    assert_eq!(slit.cuts.len(), expected.len());
    for (&(from, to), (start, end)) in slit.cuts.iter().zip(expected) {
        same_place(from, start);
        same_place(to, end);
    }
    let compiled = of(&panel("cut 1", WINDOW, &format!("{BOUND}{ENDS}{EDGES}")));
    let cuts = &cut_of(&compiled).slits[0].cuts;
    same(cuts.iter().map(|(from, to)| from.distance(*to)).sum(), 320.0);
    let compiled = of(&panel("cut 1", CUT, &format!("{BOUND}{EDGES}")));
    let slit = &cut_of(&compiled).slits[0];
    assert_eq!(slit.cuts.len(), 1);
    same_place(slit.cuts[0].0, (80.0, 200.0));
    same_place(slit.cuts[0].1, (220.0, 200.0));
    for (from, to) in [Some(slit.end), slit.start].into_iter().flatten() {
        same(from.distance(to), 6.0);
    }
}

/// The middle of 12 and four ways of 1 by 1 into the corners, on the layer for cut-outs inside; the sides on that for
/// what is sewn: 1400 round the outline and 320 round the window.
#[test]
fn other_programs_get_the_cut_and_its_sides() {
    let compiled = of(&welt_pocket());
    let cuts = cut_all(&compiled);
    let bytes = fustian::emit::dxf(&compiled.garment, &cuts);
    let drawing = Drawing::load(&mut Cursor::new(&bytes)).expect("the file is read");
    let block = drawing.blocks().find(|block| block.name.contains("PANEL")).expect("the panel's block");
    let on = |layer: &str| {
        let own = block.entities.iter().filter(|entity| entity.common.layer == layer);
        let lengths = own.map(|entity| match &entity.specific {
            EntityType::Line(line) => (line.p1.x - line.p2.x).hypot(line.p1.y - line.p2.y),
            EntityType::Polyline(line) => {
                let points: Vec<_> = line.vertices().map(|vertex| vertex.location.clone()).collect();
                let next = points.iter().cycle().skip(1);
                points.iter().zip(next).map(|(a, b)| (a.x - b.x).hypot(a.y - b.y)).sum()
            }
            other => panic!("{other:?} has no length"),
        });
        lengths.sum::<f64>()
    };
    same(on("11"), 120.0 + 4.0 * 200.0_f64.sqrt());
    same(on("14"), 1720.0);
}

/// Opened out, a half on the fold has its slit on both sides: from 8 to 22 on the left and on the right of it.
#[test]
fn both_halves_of_a_whole_are_cut() {
    let half = "finish panel.right, panel.top, panel.bottom overlocked\nunfold panel\n";
    let text = panel("cut 1 on fold left", WINDOW, &format!("{BOUND}{ENDS}{half}"));
    assert_eq!(said(&text), NOTHING);
    let compiled = of(&text);
    let part = cut_of(&compiled);
    assert_eq!((part.slits.len(), part.holes.len(), part.stitching.len()), (2, 2, 6));
    let mut reach: Vec<f64> = part.slits.iter().flat_map(|slit| &slit.cuts).map(|cut| cut.0.x).collect();
    reach.sort_by(f64::total_cmp);
    same(reach[0], -220.0);
    same(*reach.last().expect("a cut"), 220.0);
}

/// The lines go across at 30, through the slit at 20, and up at 15 and at 5. Lengthened above it, it goes down with
/// what lies below; split beside it, one of both has it.
#[test]
fn alterations_carry_it_along_or_say_that_they_go_through_it() {
    let lines = format!(
        "{WINDOW}\nline high across at (0, 30)\nline through across at (0, 20)\nline middle along at (15, 0)\n\
         line beside along at (5, 0)"
    );
    let altered = |by: &str| panel("cut 1", &lines, &format!("{by}\n"));
    let compiled = of(&altered("lengthen panel at high by 5"));
    let slit = paper(&compiled, "panel").uncut().slits[0];
    same_place(slit.sides[slit.near], (80.0, 160.0));
    same_place(slit.ends[1 - slit.near], (220.0, 140.0));
    let compiled = of(&altered("split panel at beside into narrow, wide"));
    let many = |piece: &str| paper(&compiled, piece).uncut().slits.len();
    assert_eq!((many("narrow"), many("wide")), (0, 1));
    let compiled = of(&altered("spread panel along beside by 3"));
    let slit = paper(&compiled, "panel").uncut().slits[0];
    same(slit.sides[0].distance(slit.ends[0]), 140.0);
    same(slit.window(), 20.0);
    for by in [
        "lengthen panel at through by 5",
        "split panel at middle into one, other",
        "spread panel along middle by 3",
        "flare panel along middle by 3",
        "cut off panel at through",
    ] {
        let all = told(&altered(by));
        let through = all.iter().any(|(slug, title)| {
            *slug == "alter/through-dart" && title.contains("goes through pocket of Panel")
        });
        assert!(through, "{by}: {all:?}");
    }
}

/// Unpaired, the right one is the mirror image, and its near side still lies where it lay on the cloth: above.
#[test]
fn each_of_a_pair_has_it_under_its_own_name() {
    let rest = "unpair panel into left_panel, right_panel\nseam centre left_panel.left to right_panel.left\n\
        finish panel.pocket.near, panel.pocket.far, panel.pocket.start, panel.pocket.end bound 0.8\n\
        finish panel.right, panel.top, panel.bottom overlocked\n";
    let text = panel("cut 2 mirrored; drawn left", WINDOW, rest);
    assert_eq!(said(&text), NOTHING);
    assert_eq!(sheets(&text), [(2, -1, 3)]);
    let compiled = of(&text);
    for piece in ["left_panel", "right_panel"] {
        let found = edges(&compiled, piece);
        let near = found.iter().find(|(name, ..)| name == "pocket.near").expect("the near side");
        same(near.2.1, 210.0);
    }
}

/// Where it cannot lie, what is left of it, and names that it has not.
#[test]
fn what_cannot_be_cut_is_told() {
    let bound = format!("{BOUND}{EDGES}");
    let only = |slit: &str, rest: &str| {
        let all = told(&panel("cut 1", slit, rest));
        assert_eq!(all.len(), 1, "{all:?}");
        let (slug, title) = all.into_iter().next().expect("one");
        format!("{slug}: {title}")
    };
    for (slit, expected) in [
        ("slit pocket from (8, 20) to (34, 20)", "slit/outside: pocket reaches 4 cm out of Panel"),
        ("slit pocket from (0, 20) to (14, 20)", "slit/outside: pocket meets the outline of Panel"),
        ("slit pocket from (8, 20) to (8, 20)", "slit/nothing: pocket begins and ends in one place"),
        ("slit pocket from (8, 20) to (20, 20) window 0", "slit/nothing: the window of pocket is 0 cm wide"),
        (
            "slit pocket from (8, 20) to (20, 20) window -1",
            "slit/nothing: the window of pocket is -1 cm wide",
        ),
    ] {
        assert_eq!(only(slit, &bound), expected);
    }
    let beside =
        "slit pocket from (8, 20) to (22, 20)\ndart contour at (15, 20) width 2 up 8 down 8 pressed left";
    assert_eq!(only(beside, &bound), "slit/overlap: pocket and contour cross");
    let within = "slit pocket from (8, 20) to (22, 20) window 6\nslit eye from (12, 20) to (14, 20)";
    let eye = format!("{BOUND}{ENDS}finish panel.eye.near, panel.eye.far raw\n{EDGES}");
    assert_eq!(only(within, &eye), "slit/overlap: pocket and eye lie in one another");
    assert_eq!(
        only(WINDOW, &bound),
        "slit/unfinished: pocket.start and pocket.end of Panel are neither sewn nor finished"
    );
    assert_eq!(
        only(CUT, EDGES),
        "slit/unfinished: pocket of Panel is cut, and its sides are neither sewn nor finished"
    );
    assert_eq!(
        only(CUT, &format!("{BOUND}finish panel.pocket.start raw\n{EDGES}")),
        "name/unknown: pocket begins in a point: only a slit with a window has an end to sew there"
    );
    assert_eq!(
        only(CUT, &format!("{BOUND}finish panel.pocket.left raw\n{EDGES}")),
        "name/unknown: pocket has no side left"
    );
    let placket = format!("placket strip on panel.pocket bound 1\n{BOUND}{EDGES}");
    assert_eq!(
        only(CUT, &placket),
        "name/unknown: pocket lies inside its piece, and a placket is sewn to a slit that begins at an edge"
    );
    let over = panel("cut 1 on fold left", "slit pocket from (-3, 20) to (9, 20)", &bound);
    assert!(told(&over).iter().any(|(slug, title)| *slug == "slit/fold" && title.contains("goes over left")));
    assert!(
        helps(&panel("cut 1", CUT, EDGES))[0]
            .contains("finish panel.pocket.near, panel.pocket.far bound 0.8")
    );
}

/// What can be cut and finished is silent: raw in cloth that does not fray, bound, hemmed into its window; 28 round
/// is bought of the binding, and what stands on the drawing is its name.
#[test]
fn what_can_be_finished_is_silent_and_drawn() {
    let hemmed = "finish panel.pocket.near, panel.pocket.far, panel.pocket.start, panel.pocket.end hem 1\n";
    for (slit, rest) in [
        (CUT, BOUND.to_owned()),
        (CUT, "finish panel.pocket.near, panel.pocket.far raw\n".to_owned()),
        (WINDOW, hemmed.to_owned()),
        (WINDOW, format!("{BOUND}{ENDS}")),
        ("slit pocket from (15, 1) to (15, 39)", BOUND.to_owned()),
    ] {
        assert_eq!(told(&panel("cut 1", slit, &format!("{rest}{EDGES}"))), [], "{slit} {rest}");
    }
    let narrow = panel("cut 1", WINDOW, &format!("{}{EDGES}", hemmed.replace("hem 1", "hem 1.5")));
    assert!(said(&narrow).contains(&"slit/narrow"));
    let folder =
        crate::workbench::folder_of(&[("vest.fus", &panel("cut 1", CUT, &format!("{BOUND}{EDGES}")))]);
    run(folder.path(), &["draw", "vest.fus", "-o", "vest.svg"]);
    let drawn = std::fs::read_to_string(folder.path().join("vest.svg")).expect("it is drawn");
    assert!(drawn.contains("id=\"outer.panel-pocket\""), "{drawn}");
}

/// Two strips, each folded lengthwise to half the window: their folded edges lie on its sides and their folds in
/// its middle, so that the lower one ends at the side that it is sewn to.
#[test]
fn jets_meet_fold_on_fold_in_the_window() {
    let jets = "piece upper \"Upper jet\" { cut 1; outline rectangle 14 by 2; folded top to bottom }\n\
                piece lower \"Lower jet\" { cut 1; outline rectangle 14 by 2; folded top to bottom }\n\
                seam above upper.bottom and upper.top to panel.pocket.near { matching upper.bottom_left with panel.pocket.start_near }\n\
                seam below lower.bottom and lower.top to panel.pocket.far { matching lower.bottom_left with panel.pocket.start_far }\n\
                seam before lower.left + upper.left to panel.pocket.start { matching lower.bottom_left with panel.pocket.start_far }\n\
                seam behind lower.right + upper.right to panel.pocket.end { matching lower.bottom_right with panel.pocket.end_far }\n";
    let text =
        panel("cut 1", WINDOW, &format!("{jets}{EDGES}")).replace("{ panel }", "{ panel, upper, lower }");
    let before = "lower.left + upper.left to panel.pocket.start";
    let sound = [
        text.clone(),
        with(&text, &[(before, "panel.pocket.start to lower.left + upper.left")]),
        with(&text, &[(before, "upper.left + lower.left to panel.pocket.start")]),
    ];
    for text in sound {
        assert_eq!(said(&text), NOTHING);
    }
    for (right, end_for_end) in [
        (
            "before lower.left + upper.left to panel.pocket.start { matching lower.bottom_left with panel.pocket.start_far",
            "start_near",
        ),
        (
            "behind lower.right + upper.right to panel.pocket.end { matching lower.bottom_right with panel.pocket.end_far",
            "end_near",
        ),
    ] {
        let (words, _) = right.rsplit_once('.').expect("a corner is named");
        assert_eq!(said(&with(&text, &[(right, &format!("{words}.{end_for_end}"))])), ["seam/twisted"]);
    }
}
