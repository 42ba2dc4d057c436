//! Slits: where they lie, what they take of an edge, their sides in seams and finishes, and what cannot be cut.
//! Figures are worked out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::drafting::{Drafted, draft, same, same_place};
use crate::workbench::{of, paper, said};
use fustian::Compiled;
use fustian::cutting::CutPart;
use fustian::resolve::{DrawnEdge, DrawnPiece};
use fustian::shape::Point;

/// A sleeve 28 round and 40 long with these slits, closed by its underarm seam, and what else is said.
fn oversleeve(inside: &str, rest: &str) -> String {
    format!(
        "garment \"Oversleeves\"\nunits cm\nallowance 1\ntolerance 2mm\nfabric cotton \"blue cotton\" {{ width 150 }}\n\
         layer outer in cotton {{ sleeve, cuff }}\n\
         piece sleeve \"Oversleeve\" {{\n cut 2 mirrored\n outline rectangle 28 by 40\n{inside}\n}}\n\
         piece cuff \"Cuff\" {{ cut 2 mirrored; outline rectangle finished(sleeve.bottom) by 12; folded top to bottom }}\n\
         seam under sleeve.left to sleeve.right\nfinish sleeve.top, cuff.left, cuff.right overlocked\n{rest}\n"
    )
}

const SLIT: &str = "slit wrist_slit on bottom at 7 from left up 10";
const WINDOW: &str = "slit wrist_slit on bottom at 7 from left up 10 window 1";
const BOUND: &str = "finish sleeve.wrist_slit.near, sleeve.wrist_slit.far bound 0.8\n";
const CUFF: &str = "seam cuff_on cuff.bottom and cuff.top to sleeve.bottom \
                    { matching cuff.bottom_left with sleeve.wrist_slit.near }\n";

fn told(text: &str) -> Vec<String> {
    let all = of(text).diagnostics;
    let all = all.iter().filter(|one| one.slug() != "steps/none");
    all.map(|one| format!("{}: {} | {}", one.slug(), one.title, one.help.as_deref().unwrap_or_default()))
        .collect()
}

fn cut<'a>(compiled: &'a Compiled, piece: &str) -> &'a CutPart {
    let parts = &compiled.sizes[0].cut(&compiled.garment).parts;
    parts
        .iter()
        .find(|part| *compiled.garment.piece(part.part.piece).name == *piece)
        .expect("the piece is cut")
}

fn edges<'a>(compiled: &Compiled, drawn: &'a DrawnPiece) -> Vec<(String, &'a DrawnEdge)> {
    drawn.edges.iter().map(|edge| (compiled.garment.edge(edge.edge).name.to_string(), edge)).collect()
}

fn panel(inside: &str, done: &str) -> Drafted {
    draft(&format!("block piece panel \"Panel\" {{\n outline rectangle 28 by 40\n{inside}\n}}\n{done}"))
}

/// The outline goes from (0, 0) to the right: 65 to the near side of the window, up 100, across 10, down, and 205 on.
#[test]
fn the_outline_goes_in_along_one_side_and_out_along_the_other() {
    let compiled = of(&oversleeve(WINDOW, &format!("{BOUND}finish sleeve.wrist_slit.end bound 0.8\n{CUFF}")));
    let drawn = paper(&compiled, "sleeve");
    let found: Vec<(String, f64)> =
        edges(&compiled, drawn).into_iter().map(|(name, edge)| (name, edge.path.length())).collect();
    let expected = [
        ("bottom", 65.0),
        ("wrist_slit.near", 100.0),
        ("wrist_slit.end", 10.0),
        ("wrist_slit.far", 100.0),
        ("bottom", 205.0),
        ("right", 400.0),
        ("top", 280.0),
        ("left", 400.0),
    ];
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for ((name, long), (expected_name, expected_long)) in found.iter().zip(expected) {
        assert_eq!(name, expected_name);
        same(*long, expected_long);
    }
    let ends = [(65.0, 0.0), (65.0, 100.0), (75.0, 100.0), (75.0, 0.0), (280.0, 0.0)];
    for (edge, (x, y)) in drawn.edges.iter().zip(ends) {
        same_place(edge.path.end(), (x, y));
    }
}

/// 28 drawn, 1 lost; both sides are 10 long, the end 1.
#[test]
fn the_window_is_lost_from_the_edge_and_sides_are_measured() {
    let drafted = panel(
        WINDOW,
        "let drawn = length(panel.bottom)\nlet sewn = finished(panel.bottom)\nlet whole = total(panel.bottom)\n\
         let near = length(panel.wrist_slit.near)\nlet far = finished(panel.wrist_slit.far)\n\
         let end = length(panel.wrist_slit.end)",
    );
    for (name, expected) in
        [("drawn", 280.0), ("sewn", 270.0), ("whole", 270.0), ("near", 100.0), ("far", 100.0), ("end", 10.0)]
    {
        same(drafted.value(0, name).expect("a value"), expected);
    }
}

/// From the slit's near corner 65 to the underarm seam and on 205 to its far corner: the cuff's 270.
#[test]
fn a_cuff_begins_and_ends_at_the_slit() {
    let text = oversleeve(WINDOW, &format!("{BOUND}finish sleeve.wrist_slit.end bound 0.8\n{CUFF}"));
    assert_eq!(told(&text), Vec::<String>::new());
    let compiled = of(&text);
    let garment = &compiled.garment;
    let sewn = &compiled.sizes[0].sewn;
    let seam = sewn.seams.iter().find(|sewn| *garment.seam(sewn.seam).name == *"cuff_on").expect("the seam");
    let ply = &seam.second.plies[0];
    let runs: Vec<f64> = ply.runs.iter().map(|run| run.length).collect();
    assert_eq!(runs.len(), 2);
    same(runs[0], 65.0);
    same(runs[1], 205.0);
    assert!(!seam.ring);
    // The rim that is left of each sleeve: in the slit, up one side and down the other, and the fold of the cuff.
    let surface = sewn.surface.as_ref().expect("a surface");
    let slit: f64 = surface
        .stretch_ids()
        .filter(|&at| {
            let side = surface.side(surface.stretch(at).side);
            let drawn = paper(&compiled, "sleeve");
            let is_sleeve =
                *garment.piece(sewn.parts[surface.face(side.face).part.index()].part.piece).name == *"sleeve";
            is_sleeve
                && surface.stretch(at).join.is_none()
                && drawn.edge_at(side.edge).is_some_and(|edge| garment.edge(edge.edge).side_of.is_some())
        })
        .map(|at| surface.length(at))
        .sum();
    same(slit, 2.0 * 210.0);
}

/// A sleeve of two halves: the wrist's chain goes from the slit round the other half and back to it.
#[test]
fn a_chain_of_two_pieces_is_broken_at_the_slit_too() {
    let text = "garment \"Oversleeves\"\nunits cm\nallowance 1\nfabric cotton \"blue cotton\" { width 150 }\n\
         layer outer in cotton { upper, lower, cuff }\n\
         piece upper \"Upper sleeve\" { cut 2 mirrored; outline rectangle 16 by 40 }\n\
         piece lower \"Lower sleeve\" { cut 2 mirrored; outline rectangle 12 by 40\n\
           slit wrist_slit on bottom at 5 from left up 10 }\n\
         piece cuff \"Cuff\" { cut 2 mirrored; outline rectangle 28 by 12; folded top to bottom }\n\
         seam front upper.left to lower.right { matching upper.top_left with lower.top_right }\n\
         seam back upper.right to lower.left { matching upper.top_right with lower.top_left }\n\
         finish lower.wrist_slit.near, lower.wrist_slit.far bound 0.8\n\
         seam cuff_on cuff.bottom and cuff.top to upper.bottom + lower.bottom \
           { matching cuff.bottom_left with lower.wrist_slit.near }\n\
         finish upper.top, lower.top, cuff.left, cuff.right overlocked\n";
    assert_eq!(told(text), Vec::<String>::new());
    let compiled = of(text);
    let seams = &compiled.sizes[0].sewn.seams;
    let seam =
        seams.iter().find(|sewn| *compiled.garment.seam(sewn.seam).name == *"cuff_on").expect("the seam");
    let runs: Vec<f64> = seam.second.plies[0].runs.iter().map(|run| run.length).collect();
    assert_eq!(runs.len(), 3);
    for (run, expected) in runs.iter().zip([50.0, 160.0, 70.0]) {
        same(*run, expected);
    }
}

/// 10 beyond the wrist, 100 up; a stroke of 6 across its end. The cutting line goes straight on: a rectangle.
#[test]
fn the_cutting_line_goes_on_over_a_slit_which_is_marked_inside() {
    let compiled = of(&oversleeve(SLIT, &format!("{BOUND}{CUFF}")));
    let part = cut(&compiled, "sleeve");
    assert_eq!(part.cutting.len(), 4);
    let slit = &part.slits[0];
    assert_eq!(slit.cuts.len(), 1);
    same_place(slit.cuts[0].0, (70.0, -10.0));
    same_place(slit.cuts[0].1, (70.0, 100.0));
    same(slit.end.0.distance(slit.end.1), 6.0);
}

/// In a window with cloth to turn the cut parts 10 before its end; with none the strip is cut out.
#[test]
fn a_window_is_cut_into_its_corners_or_cut_out() {
    let hemmed = "finish sleeve.wrist_slit.near, sleeve.wrist_slit.far, sleeve.wrist_slit.end hem 0.5\n";
    let compiled = of(&oversleeve(WINDOW, &format!("{hemmed}{CUFF}")));
    let cuts = &cut(&compiled, "sleeve").slits[0].cuts;
    same_place(cuts[0].1, (70.0, 90.0));
    let corners: Vec<Point> = cuts[1..].iter().map(|cut| cut.1).collect();
    assert_eq!(corners.len(), 2);
    same_place(corners[0], (65.0, 100.0));
    same_place(corners[1], (75.0, 100.0));
    let bound = format!("{BOUND}finish sleeve.wrist_slit.end bound 0.8\n{CUFF}");
    let compiled = of(&oversleeve(WINDOW, &bound));
    let cuts = &cut(&compiled, "sleeve").slits[0].cuts;
    same_place(cuts[0].0, (65.0, -10.0));
    same_place(cuts[0].1, (65.0, 100.0));
    // The strip comes out: its end and its other side are cut too.
    assert_eq!(cuts.len(), 3);
    assert!(cuts.iter().any(|cut| cut.0.distance(Point::new(75.0, -10.0)) < 1e-6), "{cuts:?}");
}

/// The sound neighbour of each mistake is silent.
#[test]
fn what_can_be_cut_and_finished_is_not_refused() {
    for (slit, rest) in [
        (SLIT, BOUND),
        (SLIT, "finish sleeve.wrist_slit.near, sleeve.wrist_slit.far raw\n"),
        ("slit wrist_slit on bottom at 7 from left to (9, 12)", BOUND),
        ("slit wrist_slit on bottom at 1.5 from left up 10", BOUND),
        ("slit wrist_slit on bottom at 25% from right up 38", BOUND),
    ] {
        let text = oversleeve(slit, &format!("{rest}{CUFF}"));
        assert_eq!(told(&text), Vec::<String>::new(), "{slit}");
    }
    let hemmed = oversleeve(
        "slit wrist_slit on bottom at 7 from left up 10 window 2",
        "finish sleeve.wrist_slit.near, sleeve.wrist_slit.end, sleeve.wrist_slit.far, sleeve.bottom hem 1\n\
         finish cuff.top, cuff.bottom overlocked\n",
    );
    assert_eq!(said(&hemmed), ["piece/apart"]);
}

/// A name that is no side, a side of a dart, and a slit in a step.
#[test]
fn names_that_are_no_sides_are_told() {
    let text = |finish: &str| oversleeve(SLIT, &format!("{BOUND}{CUFF}{finish}\n"));
    let told = |finish: &str| told(&text(finish)).join("\n");
    assert!(told("finish sleeve.wrist_slit.end raw").contains("wrist_slit ends in a point"));
    assert!(told("finish sleeve.wrist_slit.left raw").contains("wrist_slit has no side left"));
    assert!(
        told("finish sleeve.wrist_slut.near raw").contains("there is no slit of sleeve called wrist_slut")
    );
    assert!(told("finish sleeve.bottom.near raw").contains("bottom is an edge: only a slit has sides"));
    assert!(told("finish sleeve.wrist_slit raw").contains("wrist_slit is a slit, where an edge"));
    assert!(told("steps { \"All\" { sew sleeve.wrist_slit } }").contains("which is cut and not sewn"));
}

/// By hand: lengthened by 5 below the slit's end (line at 20), the slit stays at the wrist, which moves down; made wider
/// by 4 on the side away from it, it stays 7 from its corner. A copy, and both halves of a split, have it or have not.
#[test]
fn slits_go_along_in_alterations() {
    let base = |done: &str| {
        format!(
            "garment \"Oversleeves\"\nunits cm\nallowance 1\nfabric cotton \"blue cotton\" {{ width 150 }}\n\
             layer outer in cotton {{ sleeve }}\n\
             piece sleeve \"Oversleeve\" {{ cut 2 mirrored; outline rectangle 28 by 40\n\
             line elbow across at (0, 20)\nline middle along at (14, 0)\nline low across at (0, 5)\n{WINDOW}\n}}\n{done}"
        )
    };
    let drawn = |done: &str| of(&base(done));
    let sides = |compiled: &Compiled, piece: &str| {
        let drawn = paper(compiled, piece).uncut();
        let slit = *drawn.slits.first().expect("a slit");
        (slit.sides, slit.ends)
    };
    let compiled = drawn("lengthen sleeve at elbow by 5\n");
    let (starts, ends) = sides(&compiled, "sleeve");
    same_place(starts[0], (65.0, -50.0));
    same_place(ends[0], (65.0, 50.0));
    let compiled = drawn("lengthen sleeve at middle by 4\n");
    assert!(compiled.diagnostics.iter().all(|one| one.slug() != "alter/through-dart"));
    let compiled = drawn("extend sleeve.bottom by 2\n");
    let (starts, ends) = sides(&compiled, "sleeve");
    same_place(starts[1], (75.0, -20.0));
    same_place(ends[1], (75.0, 100.0));
    let compiled = drawn("split sleeve at middle into inner, outer_half\n");
    let all: Vec<usize> =
        ["inner", "outer_half"].iter().map(|name| paper(&compiled, name).uncut().slits.len()).collect();
    assert_eq!(all.iter().sum::<usize>(), 1);
    let through = told(&base("lengthen sleeve at low by 5\n")).join("\n");
    assert!(through.contains("alter/through-dart: this goes through wrist_slit of Oversleeve"), "{through}");
    assert!(through.contains("a slit keeps the length that is said of it"), "{through}");
}

/// A copy has the slit under the same name, whose sides are finished by it.
#[test]
fn a_copy_has_the_slit_too() {
    let text = "garment \"Oversleeves\"\nunits cm\nallowance 1\nfabric cotton \"blue cotton\" { width 150 }\n\
         layer outer in cotton { sleeve, other }\n\
         piece sleeve \"Oversleeve\" { cut 1; outline rectangle 28 by 40\nslit wrist_slit on bottom at 7 from left up 10 }\n\
         piece other \"Other sleeve\" { cut 1; outline copy of sleeve }\n\
         seam under sleeve.left to sleeve.right\nseam other_under other.left to other.right\n\
         finish sleeve.top, sleeve.bottom, other.top, other.bottom hem 2\n\
         finish sleeve.wrist_slit.near, sleeve.wrist_slit.far bound 0.8\n";
    assert_eq!(said(text), ["slit/unfinished"]);
    let finished = format!("{text}finish other.wrist_slit.near, other.wrist_slit.far bound 0.8\n");
    assert_eq!(said(&finished), ["piece/apart"]);
}

/// Slits on one edge beside a dart: runs of 50, 60 and what is left of 280 less the dart's 20 and two windows of 10.
#[test]
fn several_slits_and_a_dart_share_an_edge() {
    let text = oversleeve(
        "slit one on bottom at 5.5 from left up 10 window 1\nslit two on bottom at 6.5 from one.far up 10 window 1\n\
         dart tuck on bottom at 5 from right width 2 to (23, 12) pressed toward right trued",
        "finish sleeve.one.near, sleeve.one.end, sleeve.one.far, sleeve.two.near, sleeve.two.end, sleeve.two.far bound 0.8\n\
         finish sleeve.bottom overlocked\nfinish cuff.bottom, cuff.top overlocked\n",
    );
    let compiled = of(&text);
    let drawn = paper(&compiled, "sleeve");
    let runs: Vec<f64> = edges(&compiled, drawn)
        .iter()
        .filter(|(name, _)| name == "bottom")
        .map(|(_, edge)| edge.path.length())
        .collect();
    same(runs[0], 50.0);
    same(runs[1], 60.0);
    let garment = &compiled.garment;
    let sewn: f64 = fustian::resolve::DrawnEdgeId::enumerate(&drawn.edges)
        .filter(|(_, edge)| &*garment.edge(edge.edge).name == "bottom")
        .filter_map(|(at, _)| fustian::resolve::finished(garment, drawn, at))
        .sum();
    // The trued edge is a little longer than the straight one.
    assert!((sewn - 240.0).abs() < 2.0, "{sewn}");
}
