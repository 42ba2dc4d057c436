//! Pleats and tucks: what they take, where their folds lie, their caps, and what cannot be folded. Figures are worked
//! out by hand, in centimetres where they are said and in millimetres where they come out.

use crate::cases::cases;
use crate::drafting::{Drafted, draft, same, same_place};
use crate::workbench::of;
use fustian::cutting::CutPart;
use fustian::resolve::{DrawnTakeUp, TuckEnd};
use fustian::shape::path::Path;
use fustian::shape::{Point, Vec2};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use proptest::prelude::*;

/// A panel 40 by 60 from (0, 0) up. Its top runs from right to left.
fn panel(inside: &str, done: &str) -> Drafted {
    draft(&format!(
        "block piece panel \"Panel\" {{\n outline rectangle 40 by 60\n line middle across at (0, 50)\n{inside}\n}}\n{done}"
    ))
}

/// The same as a half on the fold at its left.
fn half(inside: &str, done: &str) -> Drafted {
    draft(&format!(
        "piece panel \"Panel\" {{\n cut 1 on fold left\n outline rectangle 40 by 60\n{inside}\n}}\n{done}"
    ))
}

fn folds<'a>(drafted: &'a Drafted, piece: &str) -> &'a [DrawnTakeUp] {
    &drafted.piece(piece).take_ups
}

/// The panel with what is said in it, finished all round, with steps.
fn garment(inside: &str, steps: &str) -> String {
    format!(
        "garment \"Purser shirt\"\nunits cm\nallowance 1\nfabric cotton \"white cotton\" {{ width 150; selvage 1 }}\n\
         layer outer in cotton {{ front }}\n\
         piece front \"Front\" {{ cut 1; outline rectangle 40 by 60\n{inside}\n}}\n\
         finish front.left, front.right, front.bottom, front.top overlocked\n\
         steps {{ \"All\" {{ {steps}; finish front.left, front.right, front.bottom, front.top }} }}\n"
    )
}

fn slugs(text: &str) -> Vec<&'static str> {
    of(text).diagnostics.iter().map(|diagnostic| diagnostic.slug()).collect()
}

fn told(text: &str) -> Vec<String> {
    let all = of(text).diagnostics;
    all.iter()
        .map(|one| format!("{}: {} | {}", one.slug(), one.title, one.help.as_deref().unwrap_or_default()))
        .collect()
}

fn cut<'a>(compiled: &'a Compiled, piece: &str) -> &'a CutPart {
    let parts = &compiled.sizes[0].cut(&compiled.garment).parts;
    parts
        .iter()
        .find(|part| *compiled.garment.piece(part.part.piece).name == *piece)
        .expect("the piece is cut")
}

/// Knife: twice its depth; box and inverted: four times.
#[test]
fn what_each_kind_takes() {
    for (words, taken) in [
        ("depth 2 toward left", 40.0),
        ("depth 2 box", 80.0),
        ("depth 2 box 6 wide", 80.0),
        ("depth 2 inverted", 80.0),
        ("depth 2 inverted 5 wide", 80.0),
        ("depth 1.5 count 3 apart 2 toward right", 90.0),
        ("depth 1 box count 3 apart 4", 120.0),
        ("depth 1 inverted count 3 apart 4", 120.0),
    ] {
        let drafted = panel(
            &format!("pleat p on top in the middle {words}"),
            "let drawn = length(panel.top)\nlet sewn = finished(panel.top)\nlet whole = total(panel.top)",
        );
        same(drafted.value(0, "drawn").unwrap(), 400.0);
        same(drafted.value(0, "sewn").unwrap(), 400.0 - taken);
        same(drafted.value(0, "whole").unwrap(), 400.0 - taken);
    }
}

/// The commonest handbook rule: with no gaps a row takes three times what it is sewn to. 36 long, pleats 2 deep, 2 apart:
/// six of them take 24, and 12 are left.
#[test]
fn a_row_without_gaps_takes_three_times_its_width() {
    let drafted = draft(
        "block piece strip { outline rectangle 38 by 20\n\
         pleat row on bottom at 2 from left depth 2 count 6 apart 2 toward right }\n\
         let sewn = finished(strip.bottom)",
    );
    // 2 before the first, 5 between, 4 behind the last of 38: 14 in all.
    same(drafted.value(0, "sewn").unwrap(), 140.0);
    // From the first fold to the last, as sewn, 5 times the depth; as drawn three times as much: 5 · (2 + 4).
    let folds = folds(&drafted, "strip");
    let lines: Vec<f64> = folds.iter().map(|fold| fold.mouth.unwrap().from).collect();
    for (nth, line) in lines.iter().enumerate() {
        same(*line, 20.0 + 60.0 * nth as f64);
    }
    // Folded, what lies behind each is moved by what all before it take: fold to fold equals the depth.
    let sewn: Vec<f64> = lines.iter().enumerate().map(|(nth, line)| line - 40.0 * nth as f64).collect();
    assert!(sewn.windows(2).all(|pair| (pair[1] - pair[0] - 20.0).abs() < 1e-9), "{sewn:?}");
}

/// The wrist is 30 round, two pleats take 3 each: 24 finished. The first line lies 4 from the left, the folds 2.5 from
/// one another as sewn, laid toward the right: each fold is the left one of its lines.
#[test]
fn wrist_pleats() {
    let text = "block piece sleeve { outline rectangle 30 by 50\n\
         pleat wrist on bottom at 4 from left depth 1.5 count 2 apart 2.5 toward right }\n\
         let sewn = finished(sleeve.bottom)";
    let drafted = draft(text);
    same(drafted.value(0, "sewn").unwrap(), 240.0);
    let wrist = folds(&drafted, "sleeve");
    for (fold, (from, to)) in wrist.iter().zip([(40.0, 70.0), (95.0, 125.0)]) {
        same_place(fold.wedge.sides[0], (from, 0.0));
        same_place(fold.wedge.sides[1], (to, 0.0));
        same_place(fold.fold().unwrap().0, (from, 0.0));
        same_place(fold.placement().unwrap().0, (to, 0.0));
        // The arrow of the trade goes from the fold to its placement: toward the right.
        assert_eq!(fold.pressed, Some(1));
        same(fold.depth(), 15.0);
        same_place(fold.pleat.unwrap().into.to_point(), (0.0, 1.0));
    }
    // The other way, and counted from the other end.
    let other =
        draft(&text.replace("at 4 from left", "at 4 from right").replace("toward right", "toward left"));
    let wrist = folds(&other, "sleeve");
    for (fold, (from, to)) in wrist.iter().zip([(230.0, 260.0), (175.0, 205.0)]) {
        same_place(fold.wedge.sides[0], (from, 0.0));
        same_place(fold.fold().unwrap().0, (to, 0.0));
        same_place(fold.placement().unwrap().0, (from, 0.0));
    }
}

/// A box 4 wide, 2 deep, its middle 20 from the left: its folds at 18 and 22, laid on 14 and 26. Inverted 5 wide the
/// folds meet but for 1: laid on 19.5 and 20.5, from 15.5 and 24.5.
#[test]
fn where_the_folds_of_pairs_lie() {
    for (words, lines) in [
        ("box 4 wide", [(180.0, 140.0), (220.0, 260.0)]),
        ("box", [(180.0, 140.0), (220.0, 260.0)]),
        ("box 5 wide", [(175.0, 135.0), (225.0, 265.0)]),
        ("inverted", [(160.0, 200.0), (240.0, 200.0)]),
        ("inverted 5 wide", [(155.0, 195.0), (245.0, 205.0)]),
    ] {
        for place in ["in the middle", "at 20 from left", "at 20 from top_right", "at 50%", "at m"] {
            let drafted = panel(&format!("mark m = (20, 60)\npleat p on top {place} depth 2 {words}"), "");
            let mut found: Vec<(f64, f64)> = folds(&drafted, "panel")
                .iter()
                .map(|one| (one.fold().unwrap().0.x, one.placement().unwrap().0.x))
                .collect();
            found.sort_by(|a, b| a.0.total_cmp(&b.0));
            assert_eq!(found.len(), 2);
            for ((fold, laid), (own_fold, own_laid)) in found.iter().zip(lines) {
                same(*fold, own_fold);
                same(*laid, own_laid);
            }
        }
    }
}

/// Half of a box pleat lies on each half: of 4 wide and 2 deep the fold 2 from the middle, laid on 6. Half of an inverted
/// one is laid on the fold of the piece itself.
#[test]
fn at_the_fold_half_a_pleat_lies_on_each_side() {
    for place in ["at the fold", "at 0 from left", "at top_left"] {
        for (words, fold, laid) in [
            ("box 4 wide", 20.0, 60.0),
            ("box", 20.0, 60.0),
            ("inverted", 40.0, 0.0),
            ("inverted 6 wide", 50.0, 10.0),
        ] {
            let drafted =
                half(&format!("pleat p on top {place} depth 2 {words}"), "let sewn = finished(panel.top)");
            let [one] = folds(&drafted, "panel") else { panic!("{place} {words}: {:?}", drafted.slugs()) };
            same_place(one.fold().unwrap().0, (fold, 600.0));
            same_place(one.placement().unwrap().0, (laid, 600.0));
            // Half of four times its depth.
            same(drafted.value(0, "sewn").unwrap(), 360.0);
        }
    }
    // Three boxes 3 wide, 4 from middle to middle: the middle one at the fold, its fold 1.5 from there, laid on 3.5;
    // then 1 to the second, laid on 4.5, its folds at 6.5 and 9.5.
    let drafted = half("pleat p on top at the fold depth 1 box 3 wide count 3 apart 4", "");
    let found: Vec<f64> = folds(&drafted, "panel")
        .iter()
        .flat_map(|one| [one.fold().unwrap().0.x, one.placement().unwrap().0.x])
        .collect();
    for (x, expected) in found.iter().zip([15.0, 35.0, 65.0, 45.0, 95.0, 115.0]) {
        same(*x, expected);
    }
    // Two: half of the 1 between them, then the whole of one: laid on 0.5, its folds at 2.5 and 5.5.
    let drafted = half("pleat p on top at the fold depth 1 box 3 wide count 2 apart 4", "");
    let found: Vec<f64> = folds(&drafted, "panel")
        .iter()
        .flat_map(|one| [one.fold().unwrap().0.x, one.placement().unwrap().0.x])
        .collect();
    assert_eq!(found.len(), 4);
    for (x, expected) in found.iter().zip([25.0, 5.0, 55.0, 75.0]) {
        same(*x, expected);
    }
}

/// Five tucks 0.3 deep take 0.6 each of the top and of the bottom, and of a line that crosses them; not of one that
/// does not. Sewn down for 5, a pleat takes from a line 4 below its edge, and not from one 10 below.
#[test]
fn tucks_take_from_both_edges_and_from_what_they_cross() {
    let drafted = panel(
        "tuck pins on top at 4 from left depth 0.3 count 5 apart 1.2 toward left to bottom\n\
         pleat p on bottom at 20 from left depth 1 toward left stitched down 5\n\
         line low across at (0, 4)\nline high across at (0, 10)",
        "let top = finished(panel.top)\nlet bottom = finished(panel.bottom)\nlet low = finished(panel.low)\n\
         let high = finished(panel.high)\nlet side = finished(panel.right)",
    );
    for (name, expected) in
        [("top", 370.0), ("bottom", 350.0), ("low", 350.0), ("high", 370.0), ("side", 600.0)]
    {
        same(drafted.value(0, name).unwrap(), expected);
    }
    let pins: Vec<&DrawnTakeUp> = folds(&drafted, "panel")
        .iter()
        .filter(|one| one.pleat.unwrap().tuck == Some(TuckEnd::First))
        .collect();
    assert_eq!(pins.len(), 5);
    same_place(pins[1].fold().unwrap().0, (64.0, 600.0));
    same_place(pins[1].fold().unwrap().1, (64.0, 0.0));
    same_place(pins[1].placement().unwrap().1, (58.0, 0.0));
}

/// On a quarter of a circle of radius 100, folds are square to the straight line between their two places, which is twice
/// the depth: 2·asin(20/100) in the angle, so 100·2·asin(0.2) = 40.27 of the edge (by hand). There is no step.
#[test]
fn on_a_curve_folds_lie_square_to_the_edge() {
    let text = "block piece yoke {\npoint a = (0, 0)\npoint b = (10, 0)\npoint c = (0, 10)\n\
         outline from a { low to b; round to c arc about (0, 0) anticlockwise; side to a }\n\
         pleat p on round at 3 from low depth 2 toward side }\nlet drawn = length(yoke.round)\nlet sewn = finished(yoke.round)";
    let drafted = draft(text);
    let taken = drafted.value(0, "drawn").unwrap() - drafted.value(0, "sewn").unwrap();
    assert!((taken - 200.0 * (0.2_f64).asin()).abs() < 0.005, "{taken}");
    let fold = folds(&drafted, "yoke")[0];
    same(fold.wedge.sides[0].distance(fold.wedge.sides[1]), 40.0);
    let across = fold.wedge.sides[1] - fold.wedge.sides[0];
    same(across.dot(fold.pleat.unwrap().into), 0.0);
    same(fold.mouth.unwrap().from, 30.0);
}

/// By folding it: every point of the cutting line between the lines of a pleat is laid where it comes to lie, half of it
/// mirrored in the inner fold; then it lies on the cutting line of the edge as it is sewn: what is beyond the pleat
/// moved up to it. Reflections are worked out here: p ↦ p − 2((p − a)·n)n.
#[test]
fn the_cap_lies_on_the_edge_once_it_is_folded() {
    // A top that slants by 1 in 10 and then curves, and a pleat that is folded upright, or square.
    for (pleat, edge) in [
        ("pleat p on top at 8 from right depth 2 toward right along right trued", ""),
        ("pleat p on top at 8 from right depth 2 toward left along right trued", ""),
        ("pleat p on top at 10 from right depth 2 toward left", ""),
        ("pleat p on top at 10 from right depth 2 toward right", " curve leaving 165° arriving 190°"),
        (
            "pleat p on top at 14 from right depth 1.5 box 5 wide along right trued",
            " curve leaving 165° arriving 190°",
        ),
        (
            "pleat p on top at 14 from right depth 1.5 inverted along right trued",
            " curve leaving 165° arriving 190°",
        ),
        ("pleat p on top at 5 from right depth 2 count 3 apart 3 toward left along right trued", ""),
        ("pleat p on top at 9 from right depth 2 count 3 apart 1.5 toward right", ""),
    ] {
        let text = garment("", "press front.top").replace(
            "outline rectangle 40 by 60",
            &format!(
                "point a = (0, 0)\npoint b = (40, 0)\npoint c = (40, 56)\npoint d = (0, 60)\n\
                 outline from a {{ bottom to b; right to c; top to d{edge}; left to a }}\n{pleat}"
            ),
        );
        let compiled = of(&text);
        let part = cut(&compiled, "front");
        let drawn = compiled.sizes[0].drawn.paper(part.part.paper).unwrap();
        let mut all: Vec<&DrawnTakeUp> = drawn.take_ups.iter().collect();
        all.sort_by(|a, b| a.mouth.unwrap().from.total_cmp(&b.mouth.unwrap().from));
        let square = |one: &DrawnTakeUp| {
            let into = one.pleat.unwrap().into;
            let across = one.wedge.sides[1] - one.wedge.sides[0];
            across - into * across.dot(into)
        };
        let ring = part.cutting_ring();
        let outline: Vec<Point> = ring
            .iter()
            .flat_map(|path| {
                path.segments().iter().map(|one| Path::from_segments([*one]).unwrap()).collect::<Vec<_>>()
            })
            .flat_map(|path| {
                let steps = 1 + path.length() as u32;
                (0..=steps)
                    .map(move |at| path.point_at_length(path.length() * f64::from(at) / f64::from(steps)))
                    .collect::<Vec<_>>()
            })
            // Along the top.
            .filter(|at| at.y > 520.0 && at.x > 1.0 && at.x < 399.0)
            .collect();
        // How far along the folding direction a point is moved once all before it is shut, and what it is part of.
        let shut = |at: Point| -> (Point, bool) {
            let mut moved = Vec2::ZERO;
            for one in &all {
                let across = square(one);
                let long = across.hypot();
                let along = (at - one.wedge.sides[0]).dot(across) / long;
                if along >= long - 1e-6 {
                    moved -= across;
                    continue;
                }
                if along <= 1e-6 {
                    break;
                }
                // In the cloth. Laid on the first line: its first half stays, the other is mirrored in the inner
                // fold; laid on the second, the second half goes with what is beyond.
                let inner = one.wedge.sides[0] + across * 0.5;
                let normal = across / long;
                let mirror = |p: Point| p - normal * (2.0 * (p - inner).dot(normal));
                let first_half = along <= long / 2.0;
                let laid = if one.pressed == Some(0) {
                    if first_half { at } else { mirror(at) }
                } else {
                    let own = if first_half { mirror(at) } else { at };
                    own - across
                };
                return (laid + moved, true);
            }
            (at + moved, false)
        };
        let kept: Vec<Point> =
            outline.iter().map(|&at| shut(at)).filter(|one| !one.1).map(|one| one.0).collect();
        let caps: Vec<Point> =
            outline.iter().map(|&at| shut(at)).filter(|one| one.1).map(|one| one.0).collect();
        assert!(caps.len() > 30, "{pleat}: {:?}", told(&text));
        for at in caps {
            // The nearest two points of the sewn cutting line, and how far it lies off the line between them.
            let off = kept
                .windows(2)
                .filter(|pair| pair[0].distance(pair[1]) < 20.0)
                .map(|pair| Path::straight(pair[0], pair[1] + Vec2::new(1e-9, 0.0)).nearest(at).distance)
                .fold(f64::INFINITY, f64::min);
            assert!(off < 0.06, "{pleat}: {at:?} lies {off} off the line");
        }
    }
}

/// Level and folded square, the cap of a pleat is the straight line: the cutting line is that of the plain piece.
#[test]
fn on_a_level_edge_the_cutting_line_runs_straight_on() {
    let plain = of(&garment("", "press front.top"));
    let plain = cut(&plain, "front").cutting_ring();
    for pleat in [
        "pleat p on top at 8 from left depth 2 count 3 apart 2 toward left",
        "pleat p on top in the middle depth 2 box 5 wide",
        "pleat p on top in the middle depth 2 inverted",
        "tuck p on top at 8 from left depth 0.3 count 4 apart 1 toward left to bottom",
    ] {
        let compiled = of(&garment(pleat, "press front.top"));
        let ring = cut(&compiled, "front").cutting_ring();
        let off = |path: &Path, at: Point| path.nearest(at).distance;
        for at in ring.iter().flat_map(|path| path.flatten(0.01)) {
            assert!(plain.iter().map(|path| off(path, at)).fold(f64::INFINITY, f64::min) < 1e-6, "{pleat}");
        }
        let marks = &cut(&compiled, "front").take_ups;
        assert!(marks.iter().all(|mark| mark.snips.len() == 2));
        for (foot, top) in marks.iter().flat_map(|mark| &mark.snips).map(|(top, foot)| (foot, top)) {
            same(foot.distance(*top), 10.0);
        }
    }
}

/// Trued, an edge that falls by 1 in 10 goes on where an upright pleat is folded: without it, it steps by 4 · 0.1.
#[test]
fn a_slanting_edge_is_trued_with_its_pleats_folded() {
    let text = |ways: &str| {
        garment(
            &format!("pleat p on top at 8 from right depth 2 toward left along right{ways}"),
            "baste front.p",
        )
        .replace(
            "outline rectangle 40 by 60",
            "point a = (0, 0)\npoint b = (40, 0)\npoint c = (40, 56)\npoint d = (0, 60)\n\
             outline from a { bottom to b; right to c; top to d; left to a }",
        )
    };
    assert_eq!(slugs(&text(" trued")), [""; 0]);
    let plain = told(&text(""));
    assert!(plain[0].starts_with("pleat/step: the top of Front steps by 4 mm"), "{plain:?}");
}

/// A cuff as long as the wrist is finished fits it: pleats are no ease. One as long as it is drawn is 6 too long.
#[test]
fn seams_meet_the_edge_without_its_pleats() {
    let text = |long: &str| {
        format!(
            "garment \"Purser shirt\"\nunits cm\nallowance 1\ntolerance 2mm\n\
             fabric cotton \"white cotton\" {{ width 150; selvage 1 }}\nlayer outer in cotton {{ sleeve, cuff }}\n\
             piece sleeve \"Sleeve\" {{ cut 2 mirrored; outline rectangle 30 by 50\n\
             pleat wrist on bottom at 4 from left depth 1.5 count 2 apart 2.5 toward right }}\n\
             piece cuff \"Cuff\" {{ cut 2 mirrored; outline rectangle {long} by 12; folded top to bottom }}\n\
             seam cuff cuff.bottom and cuff.top to sleeve.bottom {{ matching cuff.bottom_left with sleeve.bottom_left; \
             notch 10 from sleeve.bottom_left }}\n\
             finish sleeve.left, sleeve.right, sleeve.top, cuff.left, cuff.right overlocked\n\
             steps {{ \"All\" {{ baste sleeve.wrist; finish sleeve.left, sleeve.right, sleeve.top, cuff.left, cuff.right; sew cuff }} }}"
        )
    };
    let whole = text("finished(sleeve.bottom)");
    assert_eq!(told(&whole), [""; 0]);
    let compiled = of(&whole);
    let feet = |piece: &str| -> Vec<f64> {
        let snips = cut(&compiled, piece).notches.iter().flat_map(|notch| &notch.snips);
        snips.map(|(_, foot)| foot.x).collect()
    };
    // 10 from the left as sewn: 4, two pleats with 2.5 between them, and 3.5 more: 10 + 6 as drawn.
    assert!(feet("sleeve").iter().any(|x| (x - 160.0).abs() < 0.01), "{:?}", feet("sleeve"));
    assert!(feet("cuff").iter().any(|x| (x - 100.0).abs() < 0.01), "{:?}", feet("cuff"));
    let long = told(&text("length(sleeve.bottom)"));
    assert!(long.iter().any(|one| one.starts_with("seam/unequal") && one.contains("6 cm")), "{long:?}");
    // Sewn before it is laid.
    let late =
        whole.replace("baste sleeve.wrist; ", "").replace("sew cuff }", "sew cuff; baste sleeve.wrist }");
    assert_eq!(slugs(&late), ["step/early"]);
    let forgotten = told(&whole.replace("baste sleeve.wrist; ", ""));
    assert!(
        forgotten[0].starts_with("step/forgotten") && forgotten[0].contains("baste sleeve.wrist"),
        "{forgotten:?}"
    );
}

/// Thread goes into what is sewn: two pleats sewn down for 12, five tucks of 60, and nothing in what hangs open.
#[test]
fn thread_for_pleats() {
    use fustian::materials::thread_needs;
    let sewn = |inside: &str| {
        let compiled = of(&garment(inside, "press front.top"));
        let size = &compiled.sizes[0];
        let needs = thread_needs(&compiled.garment, &size.drawn, &size.sewn);
        needs.iter().find(|need| need.stitch == 301).map_or(0.0, |need| need.sewn)
    };
    same(sewn("pleat p on top in the middle depth 2 box stitched down 12"), 240.0);
    same(sewn("tuck p on top at 8 from left depth 0.3 count 5 apart 1.2 toward left to bottom"), 3000.0);
    same(sewn("pleat p on top in the middle depth 2 box"), 0.0);
}

#[test]
fn pleats_go_with_their_paper() {
    let box_pleat = "pleat p on top in the middle depth 2 box stitched down 12";
    // Lengthened below: it stays as far from the top; also through what is stitched down.
    for at in ["middle", "low"] {
        let drafted = panel(
            &format!("line low across at (0, 20)\n{box_pleat}"),
            &format!("lengthen panel at {at} by 5"),
        );
        for fold in folds(&drafted, "panel") {
            same(fold.wedge.sides[0].distance(fold.pleat.unwrap().ends[0]), 120.0);
            same(fold.depth(), 20.0);
        }
        assert_eq!(folds(&drafted, "panel").len(), 2, "{:?}", drafted.slugs());
    }
    // A tuck is as long as its piece.
    let drafted = panel(
        "tuck pins on top at 8 from left depth 0.5 count 2 apart 2 toward left to bottom",
        "lengthen panel at middle by 5\nextend panel.bottom by 2",
    );
    for fold in folds(&drafted, "panel") {
        same(fold.wedge.sides[0].distance(fold.pleat.unwrap().ends[0]), 670.0);
    }
    assert_eq!(folds(&drafted, "panel").len(), 4);
    // A copy and a split have it; what is cut off takes it along.
    let drafted =
        panel(box_pleat, "block piece twin { outline copy of panel }\nlet sewn = finished(twin.top)");
    same(drafted.value(0, "sewn").unwrap(), 320.0);
    let drafted = panel(
        "pleat p on top in the middle depth 2 box",
        "split panel at middle into upper, lower\nlet sewn = finished(upper.top)",
    );
    same(drafted.value(0, "sewn").unwrap(), 320.0);
    assert!(folds(&drafted, "lower").is_empty());
    let gone =
        garment("line short across at (0, 30)\npleat p on bottom in the middle depth 2 box", "sew front.p");
    let gone = gone.replacen("finish front.left", "cut off front at short\nfinish front.left", 1);
    assert!(
        told(&gone).iter().any(|one| one.starts_with("step/nothing: Front has no p any more")),
        "{:?}",
        told(&gone)
    );
    // Through a tuck no cut goes.
    let drafted = panel(
        "tuck pins on top at 8 from left depth 0.5 toward left to bottom",
        "split panel at middle into upper, lower",
    );
    assert!(drafted.slugs().contains(&"alter/through-dart"));
}

/// Each mistake beside a sound neighbour.
#[test]
fn what_cannot_be_folded_and_what_can() {
    for (slug, wrong, sound) in [
        ("pleat/nothing", "depth 0 toward left", "depth 0.3 toward left"),
        ("pleat/nothing", "depth -1 toward left", "depth 1 toward left"),
        ("pleat/nothing", "depth 1 count 0 apart 2 toward left", "depth 1 count 1 apart 2 toward left"),
        ("pleat/nothing", "depth 1 count 2 apart 0 toward left", "depth 1 count 2 apart 0.5 toward left"),
        ("pleat/nothing", "depth 1 toward left stitched down 0", "depth 1 toward left stitched down 1"),
        (
            "limit/pleats",
            "depth 0.01 count 1000 apart 0.02 toward left",
            "depth 0.01 count 200 apart 0.02 toward left",
        ),
        ("pleat/off-edge", "depth 10 count 2 apart 1 toward left", "depth 5 count 2 apart 2 toward left"),
        ("pleat/too-deep", "depth 2 box 3.9 wide", "depth 2 box 4 wide"),
        ("pleat/too-deep", "depth 2 inverted 3.9 wide", "depth 2 inverted 4 wide"),
        ("pleat/too-deep", "depth 1 box count 2 apart 1.9", "depth 1 box count 2 apart 2"),
        ("pleat/too-deep", "depth 1 inverted count 2 apart 1.9", "depth 1 inverted count 2 apart 2"),
        ("pleat/toward", "depth 2", "depth 2 toward left"),
        ("pleat/toward", "depth 2 box toward left", "depth 2 box"),
        ("pleat/toward", "depth 2 toward bottom", "depth 2 toward right"),
        ("pleat/along", "depth 2 toward left along bottom", "depth 2 toward left along right"),
        ("pleat/sewn", "depth 2 toward left stitched down 60.1", "depth 2 toward left stitched down 59"),
    ] {
        let one =
            |words: &str| slugs(&garment(&format!("pleat p on top in the middle {words}"), "sew front.p"));
        assert_eq!(one(wrong), [slug], "{wrong}");
        // That they take less than a stitch is told besides.
        let told: Vec<_> = one(sound).into_iter().filter(|slug| *slug != "dart/tiny").collect();
        assert_eq!(told, [""; 0], "{sound}");
    }
    for (slug, wrong, sound) in [
        ("pleat/corner", "at 1 from left depth 2 toward right", "at 1 from left depth 2 toward left"),
        ("pleat/corner", "at 1.9 from left depth 2 toward right", "at 2 from left depth 2 toward right"),
        ("pleat/off-edge", "at 0 from left depth 2 toward left", "at 0.5 from left depth 2 toward left"),
        ("pleat/off-edge", "at 38 from left depth 2 toward left", "at 33 from left depth 2 toward left"),
        ("pleat/off-edge", "at 3 from left depth 2 box", "at 6.5 from left depth 2 box"),
        ("pleat/off-edge", "at 41 from left depth 2 toward left", "at 30 from left depth 2 toward left"),
        ("pleat/fold", "at the fold depth 2 box", "in the middle depth 2 box"),
    ] {
        let one = |words: &str| slugs(&garment(&format!("pleat p on top {words}"), "sew front.p"));
        assert_eq!(one(wrong), [slug], "{wrong}");
        assert_eq!(one(sound), [""; 0], "{sound}");
    }
    // On a half: the fold is no edge, and a knife pleat has no middle there.
    for (slug, wrong, sound) in [
        ("pleat/fold", "on top at the fold depth 2", "on top at the fold depth 2 box"),
        ("pleat/fold", "on right at the fold depth 2 box", "on bottom at the fold depth 2 box"),
        ("pleat/fold", "on top in the middle depth 2 box", "on top at 50% from left depth 2 box"),
        ("dart/fold", "on left in the middle depth 2 box", "on right in the middle depth 2 box"),
        (
            "pleat/corner",
            "on top at 1 from left depth 2 toward right",
            "on top at 2 from left depth 2 toward right",
        ),
    ] {
        let one = |words: &str| {
            let words =
                if words.ends_with("depth 2") { format!("{words} toward right") } else { words.to_owned() };
            let text = garment(&format!("pleat p {words}"), "sew front.p");
            let text = text.replace("cut 1;", "cut 1 on fold left;").replace("front.left, ", "");
            slugs(&text)
        };
        assert_eq!(one(wrong), [slug], "{wrong}");
        assert_eq!(one(sound), [""; 0], "{sound}");
    }
    for (slug, wrong, sound) in [
        ("pleat/sewn", "toward left", "toward left to bottom"),
        ("pleat/sewn", "toward left to bottom stitched down 4", "toward left to bottom"),
        ("pleat/sewn", "toward left to right", "toward left to bottom along right"),
        ("pleat/sewn", "toward left to top", "toward left to bottom"),
    ] {
        let one = |words: &str| {
            slugs(&garment(
                &format!("tuck p on top at 4 from left depth 0.5 count 3 apart 1.5 {words}"),
                "sew front.p",
            ))
        };
        assert_eq!(one(wrong), [slug], "{wrong}");
        assert_eq!(one(sound), [""; 0], "{sound}");
    }
    for (slug, wrong, sound) in [
        (
            "pleat/overlap",
            "pleat q on top at 10 from left depth 2 toward left",
            "pleat q on top at 13 from left depth 2 toward left",
        ),
        (
            "pleat/overlap",
            "dart q on top at 13 from left width 3 to (13, 50) pressed toward left trued",
            "dart q on top at 16 from left width 3 to (16, 50) pressed toward left trued",
        ),
        (
            "pleat/overlap",
            "dart q at (10, 57) width 1 up 2 down 10 pressed toward left",
            "dart q at (10, 48) width 1 up 5 down 10 pressed toward left",
        ),
    ] {
        let two = |other: &str| {
            slugs(&garment(
                &format!("pleat p on top at 8 from left depth 2 toward left\n{other}"),
                "sew front.p, front.q",
            ))
        };
        assert_eq!(two(wrong), [slug], "{wrong}");
        assert_eq!(two(sound), [""; 0], "{sound}");
    }
}

/// The cloth under a fold ends before a slit does its edge: 2 deep, its fold 8 from the left, laid toward the right, it
/// reaches to 6.
#[test]
fn a_slit_beside_a_pleat() {
    for (slit, slug) in [(5.9, None), (6.1, Some("pleat/corner")), (7.0, Some("pleat/corner"))] {
        let inside = format!(
            "pleat p on bottom at 8 from left depth 2 toward right\nslit s on bottom at {slit} from left up 10"
        );
        let told = slugs(&garment(&inside, "baste front.p"));
        assert_eq!(told.contains(&"pleat/corner"), slug.is_some(), "{slit}: {told:?}");
    }
}

/// What a variation does to the pleats of its base; every slug that is told.
fn variation(done: &str) -> Vec<&'static str> {
    let base = garment(
        "pleat p on top in the middle depth 2 box\ntuck pins on top at 2 from left depth 0.3 toward left to bottom",
        "baste front.p; sew front.pins",
    );
    let text = format!("variation \"Purser shirt, plain\" of \"shirt.fus\"\n{done}\n");
    let loader = MemoryLoader::new().with("shirt.fus", base).with("plain.fus", text);
    compile(&loader, "plain.fus").diagnostics.iter().map(|one| one.slug()).collect()
}

#[test]
fn a_variation_drops_pleats_or_says_them_anew() {
    for (done, slugs) in [
        ("drop pleat front.p", vec!["drop/along"]),
        ("drop tuck front.pins", vec!["drop/along"]),
        ("replace pleat front.p on top in the middle depth 3 inverted", vec![]),
        ("replace tuck front.pins on top at 3 from left depth 0.5 toward left to bottom", vec![]),
        ("replace pleat front.p on top in the middle depth 3 box 5 wide", vec!["pleat/too-deep"]),
        ("drop dart front.p", vec!["drop/nothing"]),
        ("drop pleat front.pins", vec!["drop/nothing"]),
        ("drop pleat front.q", vec!["drop/nothing"]),
        (
            "replace tuck front.p on top at 3 from left depth 0.5 toward left to bottom",
            vec!["replace/nothing"],
        ),
        ("move dart front.p to left at 50%", vec!["name/unknown"]),
        ("leave dart front.pins as flare", vec!["name/unknown"]),
    ] {
        assert_eq!(variation(done), slugs, "{done}");
    }
}

/// Growth tucks go round a skirt: from its side to the fold of its half, square to that. Aslant they would make a V.
#[test]
fn tucks_go_on_over_the_fold_of_a_half() {
    let text = |along: &str| {
        let tuck = format!(
            "line aslant from (40, 10) to (0, 20)\ntuck growth on right at 8 from bottom depth 1 count 2 apart 3 toward bottom to left{along}"
        );
        garment(&tuck, "sew front.growth")
            .replace("cut 1;", "cut 1 on fold left;")
            .replace("front.left, ", "")
    };
    assert_eq!(told(&text("")), [""; 0]);
    assert_eq!(slugs(&text(" along aslant")), ["dart/fold"]);
    let drafted = half(
        "tuck growth on right at 8 from bottom depth 1 count 2 apart 3 toward bottom to left",
        "let side = finished(panel.right)\nlet fold = finished(panel.left)",
    );
    same(drafted.value(0, "side").unwrap(), 560.0);
    same(drafted.value(0, "fold").unwrap(), 560.0);
}

/// Turned over, a knife pleat in the middle is laid the other way; a box pleat is as it was.
#[test]
fn a_knife_pleat_makes_a_piece_one_sided() {
    use fustian::resolve::is_symmetrical;
    for (pleat, symmetrical) in [
        ("pleat p on top in the middle depth 2 box", true),
        ("pleat p on top in the middle depth 2 inverted", true),
        ("pleat p on top in the middle depth 2 toward left", false),
        (
            "pleat p on top at 5 from left depth 2 toward left\npleat q on top at 5 from right depth 2 toward right",
            true,
        ),
        (
            "pleat p on top at 5 from left depth 2 toward left\npleat q on top at 5 from right depth 2 toward left",
            false,
        ),
    ] {
        assert_eq!(is_symmetrical(panel(pleat, "").piece("panel")), symmetrical, "{pleat}");
    }
}

/// Places are counted from the sides of a row, and rows from darts.
#[test]
fn a_row_has_two_sides() {
    let drafted = panel(
        "pleat p on top at 4 from left depth 1 count 2 apart 3 toward left\n\
         pleat q on top at 2 from p.far depth 1 toward left\nnotch top 1 from p.near\nnotch top 1 from p.far",
        "",
    );
    // 4, 2, 3, 2: p ends 11 from the left.
    let q = folds(&drafted, "panel").last().unwrap();
    same_place(q.wedge.sides[1], (130.0, 600.0));
    let notches: Vec<f64> = drafted.piece("panel").notches.iter().map(|notch| notch.at.x).collect();
    same(notches[0], 30.0);
    same(notches[1], 120.0);
}

/// A pleat that could not be read, or says too little, silences what hangs on its piece, wherever that is cut.
#[test]
fn one_slip_is_told_once() {
    let text = |pleat: &str, cut: &str| {
        format!(
            "garment \"Purser shirt\"\nunits cm\nallowance 1\nfabric cotton \"white cotton\" {{ width 150; selvage 1 }}\n\
             layer outer in cotton {{ back, yoke }}\n\
             piece back \"Back\" {{ outline rectangle 30 by 60\n{pleat}\n{cut} }}\n\
             piece yoke \"Yoke\" {{ cut 1 on fold left; outline rectangle 26 by 10 }}\n\
             seam on yoke.bottom to back.top {{ matching yoke.bottom_left with back.top_left }}\n\
             finish yoke.right, yoke.top, back.right, back.bottom overlocked\n\
             steps {{ \"All\" {{ baste back.p; sew on; finish yoke.right, yoke.top, back.right, back.bottom }} }}\n"
        )
    };
    let half = "cut 1 on fold left";
    assert_eq!(told(&text("pleat p on top at the fold depth 2 box", half)), [""; 0]);
    for (pleat, slug) in [
        ("pleat p on top at the fold depth 2", "pleat/toward"),
        ("pleat p on top at the fold depth 2 toward right", "pleat/fold"),
        ("pleat p on top at the fold depth 2 bx", "syntax/expected"),
        ("pleat p on top at the fold depth 2 box 4", "syntax/expected"),
        ("pleat p on top at 4 from right depth 2 towards right", "syntax/expected"),
        ("pleat p on top at 4 from right depth 2 count 2 toward right", "syntax/expected"),
        ("pleat p on top at 4 depth 2 toward right", "edge/place"),
        ("pleat p on top at the fold depth 2 box to bottom", "pleat/sewn"),
        ("pleat p on tp at the fold depth 2 box", "name/unknown"),
        ("pleat p on top at 3 from left depth 2 box", "pleat/off-edge"),
        ("pleat p on right at the fold depth 2 box", "pleat/fold"),
    ] {
        assert_eq!(slugs(&text(pleat, half)), [slug], "{pleat}");
    }
    let whole = told(&text("pleat p on top at the fold depth 2 box", "cut 1"));
    assert!(whole[0].starts_with("pleat/fold: Back is not cut on the fold"), "{whole:?}");
}

#[test]
fn names_of_pleats_are_names_of_the_piece() {
    let text = |steps: &str| garment("pleat wrist on top in the middle depth 2 box", steps);
    let typed = told(&text("sew front.wrst"));
    assert!(typed[0].starts_with("name/unknown") && typed[0].contains("did you mean wrist?"), "{typed:?}");
    let finished = told(&format!("{}\nfinish front.wrist hem 1", text("sew front.wrist")));
    assert!(finished[0].contains("is a pleat, where an edge or a line is needed"), "{finished:?}");
    assert_eq!(slugs(&text("baste front.wrist")), [""; 0]);
    assert_eq!(slugs(&text("press front.wrist")), ["step/forgotten"]);
    let down = garment("pleat wrist on top in the middle depth 2 box stitched down 4", "baste front.wrist");
    assert_eq!(slugs(&down), ["step/forgotten"]);
}

proptest! {
    #![proptest_config(cases(256))]

    /// Wherever a row lies on a straight edge, fold to fold is `apart` as sewn, and each takes twice its depth.
    #[test]
    fn rows_are_laid_out_as_said(
        at in 4.0..8.0f64,
        depth in 0.2..2.0f64,
        apart in 0.5..3.0f64,
        count in 1usize..5,
        right in any::<bool>(),
    ) {
        let side = if right { "right" } else { "left" };
        let drafted = panel(
            &format!("pleat p on top at {at:.3} from {side} depth {depth:.3} count {count} apart {apart:.3} toward {side}"),
            "let sewn = finished(panel.top)",
        );
        // As they are written: to 0.01 mm.
        let [at, depth, apart] = [at, depth, apart].map(|one| (one * 1000.0).round() / 100.0);
        let sewn = drafted.value(0, "sewn").unwrap();
        prop_assert!((sewn - (400.0 - 2.0 * depth * count as f64)).abs() < 0.02, "{sewn}");
        for (nth, fold) in folds(&drafted, "panel").iter().enumerate() {
            let nearer = at + nth as f64 * (2.0 * depth + apart);
            let x = if right { 400.0 - nearer } else { nearer };
            let near = fold.wedge.sides[fold.near];
            prop_assert!((near.x - x).abs() < 0.05, "{} {x}", near.x);
            // Laid toward where it is counted from: its fold is the further line.
            prop_assert_eq!(fold.pressed, Some(fold.near));
        }
    }
}
