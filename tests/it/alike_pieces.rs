//! Pieces that are like others: what is alike is written once, and comes out as if it had been written out by hand.

use crate::workbench::{in_memory, said, told, with};
use fustian::emit::{document, to_text};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile, expanded, packed};

const FRONT: &str = "garment \"Deckhand's vest\"\nunits cm\nallowance 1\ntolerance 2mm\n\
    fabric cotton \"apron cotton\" { width 150; kind woven firm }\nlayer outer in cotton { front, back }\n\
    piece front \"Front\" {\n\
    \x20 cut 1 on fold centre\n\
    \x20 point neck_centre = (0, -9)\n  point neck_side = (9, 0)\n  point tip = (16, -3)\n\
    \x20 point underarm = (26, -24)\n  point hem_side = (26, -60)\n  point hem_centre = (0, -60)\n\
    \x20 outline from hem_centre {\n\
    \x20   centre to neck_centre\n    neckline to neck_side curve leaving right arriving square to shoulder\n\
    \x20   shoulder to tip\n    armhole to underarm curve leaving square to shoulder arriving right\n\
    \x20   side to hem_side\n    hem to hem_centre\n  }\n\
    \x20 line waist across at (0, -40)\n  mark pocket_corner = (8, -50)\n\
    \x20 dart chest on side at 6 from underarm width 2 to (12, -30) pressed down trued\n\
    \x20 notch hem in the middle\n  notch neckline in the middle\n  corner side/hem square\n}\n";
const SEWN: &str = "seam shoulder front.shoulder to back.shoulder\n\
    finish front.neckline, back.neckline, front.armhole, back.armhole bound 1\nfinish front.hem, back.hem hem 2\n\
    finish front.side, back.side overlocked\n";
/// What differs, and the same written out by hand.
const LIKE: &str = "piece back \"Back\" like front {\n\
    \x20 without pocket_corner, chest, notch neckline, corner side/hem\n\
    \x20 point neck_centre = (0, -3)\n  line waist across at (0, -39)\n  notch hem 4 from hem_side double\n\
    \x20 outline { armhole to blade straight; yoke_end to underarm curve arriving right }\n  point blade = (19, -14)\n}\n";
const BY_HAND: &str = "piece back \"Back\" {\n\
    \x20 cut 1 on fold centre\n\
    \x20 point neck_centre = (0, -3)\n  point neck_side = (9, 0)\n  point tip = (16, -3)\n\
    \x20 point underarm = (26, -24)\n  point hem_side = (26, -60)\n  point hem_centre = (0, -60)\n\
    \x20 outline from hem_centre {\n\
    \x20   centre to neck_centre\n    neckline to neck_side curve leaving right arriving square to shoulder\n\
    \x20   shoulder to tip\n    armhole to blade straight\n    yoke_end to underarm curve arriving right\n\
    \x20   side to hem_side\n    hem to hem_centre\n  }\n\
    \x20 line waist across at (0, -39)\n  notch hem in the middle\n  notch hem 4 from hem_side double\n\
    \x20 point blade = (19, -14)\n}\n";
const YOKE_END: &str = "finish back.yoke_end bound 1\n";

fn text(back: &str) -> String {
    format!("{FRONT}{back}{SEWN}{YOKE_END}")
}

#[track_caller]
fn sound(loader: &MemoryLoader, path: &str) -> Compiled {
    let compiled = compile(loader, path);
    assert!(!compiled.has_mistakes(), "{:#?}", compiled.diagnostics);
    compiled
}

fn bytes(compiled: &Compiled) -> String {
    to_text(&document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).expect("a document")
}

fn worked_out(text: &str) -> String {
    bytes(&sound(&in_memory(&[("own.fus", text)]), "own.fus"))
}

#[test]
fn what_is_alike_comes_out_as_written_by_hand() {
    assert_eq!(worked_out(&text(LIKE)), worked_out(&text(BY_HAND)));
    // It may stand before the one that it is like.
    let before =
        format!("{}{LIKE}{}", &FRONT[..FRONT.find("piece").unwrap()], &FRONT[FRONT.find("piece").unwrap()..]);
    let (one, other) = (worked_out(&format!("{before}{SEWN}{YOKE_END}")), worked_out(&text(LIKE)));
    assert_eq!(one.len(), other.len(), "only the order of the pieces differs");
    let loader = in_memory(&[("own.fus", &text(LIKE))]);
    let long = expanded(&loader, "own.fus");
    assert!(!long.contains("like front"), "{long}");
    assert_eq!(worked_out(&long), worked_out(&text(BY_HAND)), "{long}");
}

/// A variation changes what it names, and takes back what a piece took over as if it were the piece's own.
#[test]
fn a_variation_changes_each_by_itself() {
    let base = text(LIKE);
    let of = |words: &str| {
        let long = format!("variation \"Vest, changed\" of \"own.fus\"\n{words}");
        let files = in_memory(&[("own.fus", &base), ("long.fus", &long)]);
        let compiled = sound(&files, "long.fus");
        assert_eq!(bytes(&compiled), worked_out(&packed(&files, "long.fus")), "{words}");
        compiled
    };
    let named = |compiled: &Compiled, piece: &str| -> Vec<String> {
        let garment = &compiled.garment;
        let piece = garment.pieces.iter().find(|one| *one.name == *piece).unwrap();
        let lines = piece.edges.iter().map(|&id| garment.edge(id)).filter(|edge| edge.line);
        let marks = piece.points.iter().map(|&id| garment.point(id)).filter(|point| point.mark);
        lines.map(|line| line.name.to_string()).chain(marks.map(|mark| mark.name.to_string())).collect()
    };
    let changed = of("in piece front add { mark badge = (10, -20) }\ndrop line back.waist\n");
    assert_eq!(named(&changed, "front"), ["waist", "pocket_corner", "badge"]);
    assert_eq!(named(&changed, "back"), Vec::<String>::new());
    // A piece of its own may be like one of the base, as that is then.
    let added = of("drop mark front.pocket_corner\npiece apron like front { cut 1 loose; without chest }\n\
        layer over in cotton { apron }\n\
        finish apron.centre, apron.neckline, apron.shoulder, apron.armhole, apron.side, apron.hem raw\n");
    assert_eq!(named(&added, "apron"), ["waist"]);
}

#[test]
fn what_cannot_be_alike_is_told_once() {
    let bad = |back: &str| told(&text(back));
    for (back, slug, words) in [
        (LIKE.replace("like front", "like fornt"), "name/unknown", "there is no piece called fornt"),
        (LIKE.replace("like front", "like back"), "piece/like", "back is like itself"),
        (LIKE.replace("chest,", "cheat,"), "name/unknown", "front has nothing called cheat to leave out"),
        (
            LIKE.replace("notch neckline", "notch shoulder"),
            "name/unknown",
            "front has nothing like a notch on shoulder",
        ),
        (
            LIKE.replace("without pocket_corner", "without tip"),
            "piece/like",
            "tip is a corner of the outline of front",
        ),
        (LIKE.replace("{ armhole to", "{ armhle to"), "name/unknown", "front has no edge called armhle"),
        (
            LIKE.replace("point blade", "point neck_centre"),
            "name/declared-twice",
            "two of the name neck_centre",
        ),
        (LIKE.replace("like front", ""), "piece/like", "edges stand in the place of others only in a piece"),
        (LIKE.replace("like front", "like cotton"), "name/unknown", "there is no piece called cotton"),
        (LIKE.replace("like front", "like outer"), "piece/like", "outer is a layer"),
    ] {
        let found = bad(&back);
        let own: Vec<&(&str, String)> = found.iter().filter(|(one, _)| *one == slug).collect();
        assert!(own.iter().any(|(_, title)| title.contains(words)), "{words}: {found:?}");
    }
    let circle = with(FRONT, &[("piece front \"Front\" {", "piece front \"Front\" like back {")]);
    let found = told(&format!("{circle}{LIKE}{SEWN}"));
    assert_eq!(found.iter().filter(|(slug, _)| *slug == "piece/like").count(), 1, "{found:?}");
    // A copy leaves out marks and lines; for more it has to be like the other.
    let copy = "piece back \"Back\" { cut 1 on fold centre; outline copy of front; without notch hem }\n";
    assert!(said(&format!("{FRONT}{copy}{SEWN}")).contains(&"piece/like"));
    // A rectangle has no edges of its own to draw anew.
    let plain = "garment \"Towel\"\nunits cm\nallowance 1\nfabric cotton \"cotton\" { width 150 }\n\
        layer outer in cotton { a, b }\npiece a { cut 1; outline rectangle 20 by 30 }\n\
        piece b like a { outline { top to top_left } }\n";
    assert!(said(plain).contains(&"piece/like"));
}

/// A damaged line of the one says nothing of the other but what is lost.
#[test]
fn damage_costs_one_message() {
    let damaged = text(LIKE).replace("point underarm = (26, -24)", "point underarm (26, -24)");
    let found = told(&damaged);
    assert!(found.iter().all(|(slug, _)| slug.starts_with("syntax/")), "{found:?}");
    // What is unknown in lines that both have is told once.
    let unknown = text(LIKE)
        .replace("across at (0, -40)", "across at (0, -depth)")
        .replace("point hem_side = (26, -60)", "point hem_side = (26, -deep)");
    let found = told(&unknown);
    assert_eq!(found.iter().filter(|(_, title)| title.contains("deep")).count(), 1, "{found:?}");
}

/// A dart that is drawn in the outline goes with the run before it, if its edge is straight.
#[test]
fn a_dart_in_the_outline_is_left_out() {
    let front = with(
        FRONT,
        &[
            ("  dart chest on side at 6 from underarm width 2 to (12, -30) pressed down trued\n", ""),
            (
                "    side to hem_side\n",
                "    side to up; chest dart about (12, -31) to low pressed down trued; side to hem_side\n",
            ),
            ("  point hem_side", "  point up = (26, -30)\n  point low = (26, -32)\n  point hem_side"),
        ],
    );
    let back = LIKE.to_owned();
    let like = format!("{front}{back}{SEWN}{YOKE_END}");
    let hand = format!("{front}{BY_HAND}{SEWN}{YOKE_END}");
    let hand = hand.replace(
        "  point blade = (19, -14)\n}",
        "  point up = (26, -30)\n  point low = (26, -32)\n  point blade = (19, -14)\n}",
    );
    let sides = |text: &str| {
        let compiled = sound(&in_memory(&[("own.fus", text)]), "own.fus");
        let piece = compiled.garment.pieces.iter().position(|one| *one.name == *"back").unwrap();
        let drawn =
            compiled.sizes[0].drawn.papers.iter().flatten().find(|own| own.piece.index() == piece).unwrap();
        drawn.edges.iter().map(|edge| edge.path.length()).collect::<Vec<f64>>()
    };
    assert_eq!(sides(&like), sides(&hand));
}
