//! Rows of topstitching and understitching, and tacks. Every figure is worked out by hand.

use crate::drafting::same;
use crate::workbench::{NOTHING, of, with};
use fustian::compile;
use fustian::materials::{ThreadNeed, thread_needs};
use fustian::source::MemoryLoader;
use std::fs;
use std::path::Path;

/// A bib of 30 by 40 whose upper edge is faced 5 wide.
const BIB: &str = "garment \"Galley bib\"\nunits cm\nallowance 1\n\
    fabric drill \"cotton drill\" { width 150; kind woven firm }\nlayer outer in drill { bib, facing, pocket }\n\
    piece bib \"Bib\" { cut 1\noutline rectangle 30 by 40\nmark corner = (8, 10)\nmark mouth = (8, 22) }\n\
    piece facing \"Facing\" { cut 1\noutline rectangle 30 by 5 }\n\
    piece pocket \"Pocket\" { cut 1\noutline rectangle 14 by 12 }\n\
    seam top bib.top to facing.top\n\
    finish bib.left, bib.right, bib.bottom, facing.left, facing.right, pocket.top hem 1\n\
    finish facing.bottom overlocked\n\
    place pocket on bib { corner bottom_left at corner\ntopstitch left, bottom, right }\n\
    understitch top_under 0.2 from facing.top\n\
    topstitch hem_rows 0.8 from bib.bottom rows 2 apart 0.5\n\
    topstitch mouth_row 0.5 from pocket.top 3..9 from top_left\n\
    tack facing_tack facing.bottom_left to bib.left at 5 from top_left\n\
    tack mouth_bar bib.mouth bar 1\n\
    steps {\n\
    \"Pocket\" { hem pocket.top; topstitch mouth_row; place pocket; tack mouth_bar }\n\
    \"Facing\" { sew top; finish facing.bottom; understitch top_under }\n\
    \"Hems\" { hem bib.left, bib.right, bib.bottom, facing.left, facing.right; topstitch hem_rows; tack facing_tack }\n\
    }\n";

fn told(text: &str) -> Vec<String> {
    of(text).diagnostics.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect()
}

fn said(text: &str) -> Vec<&'static str> {
    of(text).diagnostics.iter().map(|one| one.slug()).collect()
}

fn thread(text: &str) -> Vec<ThreadNeed> {
    let compiled = of(text);
    thread_needs(&compiled.garment, &compiled.sizes[0].drawn, &compiled.sizes[0].sewn)
}

fn sewn(needs: &[ThreadNeed], stitch: u16) -> f64 {
    needs.iter().find(|need| need.stitch == stitch).map_or(0.0, |need| need.sewn)
}

/// Understitched along 30, two rows along the hem of 30, and 6 of the pocket's mouth: 96. A lockstitch through three
/// plies of 0.5 mm takes 2 + 2 × 1.5/25.4 × 10 times its length, and 15 % more; a bar of 1 is zigzag.
#[test]
fn rows_and_bars_are_counted_as_thread() {
    assert_eq!(told(BIB), [""; 0]);
    let plain = with(
        BIB,
        &[
            ("understitch top_under 0.2 from facing.top\n", ""),
            ("topstitch hem_rows 0.8 from bib.bottom rows 2 apart 0.5\n", ""),
            ("topstitch mouth_row 0.5 from pocket.top 3..9 from top_left\n", ""),
            ("tack mouth_bar bib.mouth bar 1\n", ""),
            ("; topstitch mouth_row", ""),
            ("; tack mouth_bar", ""),
            ("; understitch top_under", ""),
            ("; topstitch hem_rows", ""),
        ],
    );
    assert_eq!(told(&plain), [""; 0]);
    let (rows, none) = (thread(BIB), thread(&plain));
    same(sewn(&rows, 301) - sewn(&none, 301), 960.0);
    let taken = |needs: &[ThreadNeed]| {
        let need = needs.iter().find(|need| need.stitch == 301).expect("a lockstitch");
        need.thread.expect("an equation")
    };
    same(taken(&rows) - taken(&none), 960.0 * (2.0 + 2.0 * 1.5 / 25.4 * 10.0) * 1.15);
    same(sewn(&rows, 304) - sewn(&none, 304), 10.0);
}

/// The second row of the hem lies 1.3 above it; the mouth's row from 3 to 9; the tack 5 below the upper corner.
#[test]
fn they_lie_where_they_are_said() {
    let compiled = of(BIB);
    let part = |name: &str| {
        let mut parts = compiled.sizes[0].sewn.parts.iter();
        parts.find(|part| *compiled.garment.piece(part.part.piece).name == *name).expect("it is cut")
    };
    let distances: Vec<f64> = part("bib").rows.iter().map(|row| row.distance).collect();
    assert_eq!(distances.len(), 2);
    same(distances[0], 8.0);
    same(distances[1], 13.0);
    let mouth = part("pocket").rows.first().expect("the mouth's row");
    same(mouth.length, 60.0);
    // The top of a rectangle is drawn from the right to the left.
    let (from, to) = mouth.along.expect("a run");
    same(from, 50.0);
    same(to, 110.0);
    let tacks = &part("bib").tacks;
    let facing = tacks.iter().find(|tack| *compiled.garment.tack(tack.tack).name == *"facing_tack");
    let at = facing.expect("it is tacked").at;
    same(at.x, 0.0);
    same(at.y, 350.0);
}

#[test]
fn each_comes_in_its_time() {
    let early = |old: &str, new: &str| said(&with(BIB, &[(old, new)]));
    assert_eq!(
        early(
            "sew top; finish facing.bottom; understitch top_under",
            "understitch top_under; sew top; finish facing.bottom"
        ),
        ["step/early"]
    );
    assert_eq!(
        early("topstitch mouth_row; place pocket", "place pocket; topstitch mouth_row"),
        ["step/early"]
    );
    assert_eq!(
        early("hem pocket.top; topstitch mouth_row", "topstitch mouth_row; hem pocket.top"),
        ["step/early"]
    );
    let late = with(
        BIB,
        &[
            ("; understitch top_under }", " }"),
            ("tack facing_tack }", "tack facing_tack; understitch top_under }"),
        ],
    );
    assert_eq!(said(&late), ["step/early"]);
    let unsewn = with(
        BIB,
        &[
            ("tack mouth_bar }", "}"),
            ("\"Facing\" { sew top", "\"Facing\" { tack facing_tack; sew top"),
            ("; tack facing_tack }", " }"),
        ],
    );
    assert!(said(&unsewn).contains(&"step/early") && said(&unsewn).contains(&"step/forgotten"));
    assert_eq!(early("; topstitch hem_rows", ""), ["step/forgotten"]);
    assert_eq!(early("; topstitch hem_rows", "; topstitch hem_rows, hem_rows"), ["step/twice"]);
    assert_eq!(early("understitch top_under }", "topstitch top_under }"), ["name/unknown"]);
    assert_eq!(early("understitch top_under }", "understitch top_row }"), ["name/unknown"]);
}

/// Each of the mistakes has a sound neighbour.
#[test]
fn what_cannot_be_sewn_is_told() {
    let cases = [
        ("row-room", "hem_row 41", "hem_row 39"),
        ("row-no-seam", "from facing.bottom\n", "from facing.top\n"),
        ("row-misses", "top_under 1.2", "top_under 0.9"),
        ("row-place", "at 45 from", "at 5 from"),
    ];
    for (slug, old, new) in cases {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/mistakes").join(slug);
        let text = fs::read_to_string(path.with_extension("fus")).expect("the mistake");
        assert_eq!(said(&text), [slug.replacen('-', "/", 1)]);
        assert_eq!(said(&with(&text, &[(old, new)])), NOTHING, "{slug}");
    }
    let counted = |from: &str| said(&with(BIB, &[("3..9 from top_left", from)]));
    assert_eq!(counted("3..9 from bottom_left"), ["row/place"]);
    assert_eq!(counted("9 from right"), NOTHING);
    assert_eq!(said(&with(BIB, &[("0.8 from bib.bottom", "0 from bib.bottom")])), ["row/room"]);
    assert_eq!(counted("3..3 from top_left"), ["row/place"]);
    assert_eq!(said(&with(BIB, &[("at 5 from top_left", "at 30%")])), ["row/place"]);
    // The middle is one from either end: 20 below the top, 15 below the corner of the facing that is tacked there.
    assert_eq!(said(&with(BIB, &[("at 5 from top_left", "at 50%")])), ["tack/far"]);
    assert_eq!(
        said(&with(BIB, &[("0.8 from bib.bottom", "0.8 from bib.bottom, bib.bottom")])),
        ["row/place"]
    );
    // So many would also go over what is placed later.
    assert!(said(&with(BIB, &[("rows 2 apart 0.5", "rows 80 apart 0.5")])).contains(&"row/room"));
    for rows in ["rows 0 apart 0.5", "rows 1.5 apart 0.5", "rows 2 apart 0"] {
        assert_eq!(said(&with(BIB, &[("rows 2 apart 0.5", rows)])), ["row/room"], "{rows}");
    }
}

/// Both ends of a band of 10 that is folded along its middle are sewn to themselves, each over half of its 10.
#[test]
fn seams_across_the_fold_are_listed() {
    let band = "garment \"Galley belt\"\nunits cm\nallowance 1\nfabric drill \"drill\" { width 150 }\n\
        layer outer in drill { belt }\npiece belt \"Belt\" { cut 2 loose\noutline rectangle 90 by 10\n\
        folded top to bottom }\nseam ends belt.left, belt.right across the fold\nseam long belt.top to belt.bottom { leaving gap 8 }\n";
    let compiled = of(band);
    let document =
        fustian::emit::document(&compiled.garment, &compiled.sizes, &compiled.map, &compiled.diagnostics);
    let document = serde_json::to_value(&document).expect("plain data");
    let seams = document["sizes"][0]["seams"].as_array().expect("seams");
    let across: Vec<_> = seams.iter().filter(|seam| seam["across_fold"] == true).collect();
    assert_eq!(across.len(), 2);
    for (seam, edge) in across.iter().zip(["outer.belt.left", "outer.belt.right"]) {
        assert_eq!(seam["sewings"], 2);
        for side in ["first", "second"] {
            same(seam[side]["length"].as_f64().expect("a length"), 50.0);
            assert_eq!(seam[side]["plies"][0]["edges"][0]["edge"], edge);
        }
    }
}

/// A ring that is held by a lockstitch beside it goes no further than it lies.
#[test]
fn a_lockstitch_beside_a_ring_holds_it() {
    let cap = "garment \"Watch cap\"\nunits cm\nallowance 1\nbody { head 57 in every size }\n\
        fabric rib \"rib\" { width 100; kind knit; stretch 60% across, 20% along }\nlayer outer in rib { tube }\n\
        piece tube \"Tube\" { cut 1\noutline rectangle 45 by 25 }\nseam back tube.left to tube.right\n\
        finish tube.top raw\nfinish tube.bottom raw\nopening tube.bottom passes head\n\
        topstitch rim 1 from tube.bottom";
    let all = |text: &str| -> Vec<&'static str> {
        said(text).into_iter().filter(|slug| *slug == "opening/passes").collect()
    };
    assert_eq!(all(cap), NOTHING);
    assert_eq!(all(&format!("{cap} {{ stitch 301 }}")), ["opening/passes"]);
    assert_eq!(all(&format!("{cap} {{ stitch zigzag }}")), NOTHING);
}

/// A variation says another row in the place of one, or drops it; tidied it says the same.
#[test]
fn a_variation_changes_them() {
    let loader = |own: &str| {
        MemoryLoader::new()
            .with("bib.fus", BIB)
            .with("own.fus", format!("variation \"Plain bib\" of \"bib.fus\"\n{own}"))
    };
    let slugs = |own: &str| -> Vec<&'static str> {
        let compiled = compile(&loader(own), "own.fus");
        compiled.diagnostics.iter().map(|one| one.slug()).collect()
    };
    assert_eq!(slugs("replace topstitch hem_rows 2 from bib.bottom\n"), NOTHING);
    assert_eq!(slugs("drop topstitch hem_rows\n"), ["step/gone"]);
    assert_eq!(slugs("drop tack hem_rows\n"), ["drop/nothing"]);
    assert_eq!(slugs("drop pocket and all sewn to it\n"), ["drop/along"]);
}

/// A line from (5, 5) to (5, 35) is 30 long, and one from there to (25, 35) is 20: on a bib that is cut once they are 50.
#[test]
fn a_row_lies_along_lines_inside_a_piece() {
    let lines = "mark corner = (8, 10)\nline up from (5, 5) to (5, 35)\nline over from (5, 35) to (25, 35)\n";
    let quilted = with(
        BIB,
        &[
            ("mark corner = (8, 10)\n", lines),
            ("tack mouth_bar", "topstitch quilting along bib.up, bib.over\ntack mouth_bar"),
            ("\"Pocket\" { hem", "\"Pocket\" { topstitch quilting; hem"),
        ],
    );
    assert_eq!(told(&quilted), [""; 0]);
    let compiled = of(&quilted);
    let rows = compiled.sizes[0].sewn.parts.iter().flat_map(|part| &part.line_rows);
    let lengths: Vec<f64> = rows.map(|row| row.length).collect();
    assert_eq!(lengths.len(), 2);
    same(lengths[0], 300.0);
    same(lengths[1], 200.0);
    same(sewn(&thread(&quilted), 301) - sewn(&thread(BIB), 301), 500.0);
    // Through two plies of half a millimetre: 2 + 2 × 1/25.4 × 10 times as much thread as row, and 15 % more.
    let of_lockstitch = |text: &str| {
        let needs = thread(text);
        needs.iter().filter(|need| need.stitch == 301).filter_map(|need| need.thread).sum::<f64>()
    };
    same(of_lockstitch(&quilted) - of_lockstitch(BIB), 500.0 * (2.0 + 2.0 / 25.4 * 10.0) * 1.15);
    // What is stiffened is fused first, and what is placed is quilted before.
    let late = with(
        &quilted,
        &[("topstitch quilting; hem", "hem"), ("tack mouth_bar }", "tack mouth_bar; topstitch quilting }")],
    );
    assert_eq!(told(&late), [""; 0]);
    for (old, new, title) in [
        (
            "along bib.up,",
            "along bib.up 3..9 from corner,",
            "up is a line, and stitched along from end to end",
        ),
        ("along bib.up,", "along bib.left,", "left is an edge: what is stitched on it lies on no cloth"),
        (
            "quilting along bib.up,",
            "quilting 0.5 from bib.up,",
            "up is a line inside the piece, which has cloth on both sides",
        ),
        ("along bib.up,", "along bib.upp,", "there is no edge or line of bib called upp"),
    ] {
        let told = told(&with(&quilted, &[(old, new)]));
        assert!(told.iter().any(|one| one.contains(title)), "{new}: {told:?}");
    }
    let under = with(
        &quilted,
        &[
            ("topstitch quilting along", "understitch quilting along"),
            ("topstitch quilting;", "understitch quilting;"),
        ],
    );
    assert!(
        told(&under).iter().any(|one| one.contains("nothing is understitched there")),
        "{:?}",
        told(&under)
    );
}

/// The rows of the hem lie on the bib's lower edge 0.8 and 1.3 inside, that of the mouth from 5 to 11 along an edge that
/// is drawn from right to left: 3 to 9 from the upper left corner.
#[test]
fn where_rows_and_tacks_lie_is_written() {
    let compiled = of(BIB);
    let written = compiled.json().expect("it is written");
    let read: serde_json::Value = serde_json::from_str(&written).expect("JSON");
    let size = &read["sizes"][0];
    let row = |name: &str| {
        let rows = size["rows"].as_array().expect("rows");
        rows.iter().find(|row| row["name"] == name).expect("the row")["places"].clone()
    };
    let hem = row("hem_rows");
    assert_eq!(
        (&hem[0]["part"], &hem[0]["edge"], &hem[0]["distance"]),
        (&"outer.bib".into(), &"bottom".into(), &8.into())
    );
    assert_eq!((&hem[1]["distance"], &hem[1]["length"]), (&13.into(), &300.into()));
    let mouth = row("mouth_row");
    assert_eq!((&mouth[0]["run"], &mouth[0]["length"]), (&serde_json::json!([50, 110]), &60.into()));
    let tacks = size["tacks"].as_array().expect("tacks");
    let facing = tacks.iter().find(|tack| tack["name"] == "facing_tack").expect("the tack");
    // The lower left corner of the facing, and 5 below the bib's upper left corner.
    assert_eq!(facing["places"][0], serde_json::json!({"part": "outer.bib", "at": {"x": 0, "y": 350}}));
    assert_eq!(facing["places"][1], serde_json::json!({"part": "outer.facing", "at": {"x": 0, "y": 0}}));
}
