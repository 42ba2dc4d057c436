//! Closures from end to end: along all that is sewn on above and below, whatever it is. Lengths are added up by
//! hand; and written out, edge after edge, the same closure comes to the same garment.

use crate::drafting::same;
use crate::workbench::{NOTHING, of, said, with};
use fustian::emit::document;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;

/// A bolero of rectangles whose front is 50 long, with a band of 10 and a collar of 8, both folded.
const BOLERO: &str = "garment \"Bosun's bolero\"\nunits cm\nallowance 1\nbody { head 57 in every size }\n\
    fabric serge \"wool serge\" { width 150 }\nlayer outer in serge { front, back, collar, band }\n\
    piece front \"Front\" { cut 2 mirrored\noutline rectangle 26 by 50\nline waist across at (0, 20) }\n\
    piece back \"Back\" { cut 1 on fold left\noutline rectangle 26 by 50\nline waist across at (0, 20) }\n\
    piece collar \"Collar\" { cut 1\noutline rectangle 104 by 8\nfolded top to bottom }\n\
    piece band \"Band\" { cut 1\noutline rectangle 104 by 10\nfolded top to bottom }\n\
    seam side front.right to back.right\nseam neck collar.bottom and collar.top to front.top + back.top\n\
    seam hem band.bottom and band.top to front.bottom + back.bottom\n\
    closure zip front.left to front.left from end to end { zipper separating 59 }\n\
    opening front.top + back.top passes head\n";

/// In place of the collar a hood, whose face is open but for the 9 at the throat.
const HOOD: &str = "piece hood \"Hood\" { cut 2 mirrored\npoint chin = (0, 0)\npoint nape = (52, 0)\n\
    point crown = (52, 34)\npoint brow = (0, 34)\n\
    outline from chin { neck to nape; back to crown; top to brow; face to chin }\n\
    divide face 9 from chin into throat, face }\n\
    seam hood_back hood.back + hood.top to hood.back + hood.top\nfinish hood.face hem 2\n";

/// The edges of both sides of the only closure, in order.
fn chains(compiled: &Compiled) -> [String; 2] {
    let garment = &compiled.garment;
    let closure = garment.closures.first().expect("a closure");
    [&closure.first, &closure.second].map(|chain| {
        let edge = |sewn: &fustian::garment::SewnEdge| {
            format!("{}.{}", garment.piece(sewn.piece).name, garment.edge(sewn.edge).name)
        };
        chain.edges.iter().map(edge).collect::<Vec<String>>().join(" + ")
    })
}

/// How long its sides are.
fn sides(compiled: &Compiled) -> [f64; 2] {
    let fit = compiled.sizes[0].drawn.zips.first().copied().flatten();
    fit.expect("its sides are known").sides
}

fn assert_sides(compiled: &Compiled, millimetres: f64) {
    for side in sides(compiled) {
        same(side, millimetres);
    }
}

fn hooded() -> String {
    let collar = "piece collar \"Collar\" { cut 1\noutline rectangle 104 by 8\nfolded top to bottom }\n";
    with(
        BOLERO,
        &[
            (collar, HOOD),
            ("collar, band", "hood, band"),
            (
                "collar.bottom and collar.top to front.top + back.top",
                "hood.neck to front.top + back.top { matching hood.chin with front.top_left }",
            ),
            ("separating 59", "separating 64"),
        ],
    )
}

/// 50 of the front, half of the collar's 8 and half of the band's 10: 59. The collar's left end lies at the
/// left front, and so does the band's: drawn right side up, both reach the front from the same side.
#[test]
fn a_zip_goes_on_along_collar_and_band() {
    assert_eq!(said(BOLERO), NOTHING);
    let compiled = of(BOLERO);
    assert_eq!(
        chains(&compiled),
        ["collar.left + front.left + band.left", "collar.right + front.left + band.right"]
    );
    assert_sides(&compiled, 590.0);
    assert_eq!(said(&with(BOLERO, &[("separating 59", "separating 55")])), ["zipper/length"]);
}

/// The zip does not know what is sewn on: 50 + 5 + 9 = 64 under a hood, whose face is hemmed beyond the throat; 50 + 5
/// where the neck is hemmed.
#[test]
fn what_is_sewn_on_may_change() {
    let hooded = hooded();
    assert_eq!(said(&hooded), NOTHING);
    assert_eq!(chains(&of(&hooded))[0], "hood.throat + front.left + band.left");
    assert_sides(&of(&hooded), 640.0);
    let plain = with(
        BOLERO,
        &[
            ("front, back, collar, band", "front, back, band"),
            ("piece collar \"Collar\" { cut 1\noutline rectangle 104 by 8\nfolded top to bottom }\n", ""),
            (
                "seam neck collar.bottom and collar.top to front.top + back.top",
                "finish front.top, back.top hem 1",
            ),
            ("separating 59", "separating 55"),
        ],
    );
    assert_eq!(said(&plain), NOTHING);
    assert_eq!(chains(&of(&plain))[0], "front.left + band.left");
    assert_sides(&of(&plain), 550.0);
}

/// A zip of 70 wants 6 more than 64.
#[test]
fn an_amount_is_found_for_the_whole_chain() {
    let longer = with(&hooded(), &[("separating 64", "separating 70")])
        + "lengthen front, back at waist until zip fits\n";
    assert_eq!(said(&longer), NOTHING);
    let amounts = of(&longer).sizes[0].drawn.amounts.clone();
    same(amounts[0].expect("it is found"), 60.0);
}

/// Half of what shows is taken off each front and off each end of collar and band, as if they were named.
#[test]
fn what_shows_is_taken_off_the_whole_chain() {
    let shown = with(BOLERO, &[("separating 59", "separating 59 showing 1")]);
    let width = |name: &str| {
        let compiled = of(&shown);
        let papers = compiled.sizes[0].drawn.papers.iter().flatten();
        let mut own = papers.filter(|drawn| *compiled.garment.piece(drawn.piece).name == *name);
        let drawn = own.next().expect("it is drawn");
        let bottom = drawn.edges.iter().find(|edge| *compiled.garment.edge(edge.edge).name == *"bottom");
        bottom.expect("a rectangle has a bottom").path.length()
    };
    same(width("front"), 255.0);
    same(width("collar"), 1030.0);
    same(width("band"), 1030.0);
    assert_eq!(said(&shown), NOTHING);
}

/// The fronts and the band of a lined jacket; a waistband above a run of a centre back.
#[test]
fn written_out_it_is_the_same_garment() {
    let read = |name: &str| {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name);
        fs::read_to_string(&path).unwrap_or_else(|error| panic!("{name}: {error}"))
    };
    let files = ["deck-zip.fus", "deck-jacket.fus", "deck-lined.fus", "deck-smock.fus", "crew-library.fus"];
    let loader = |zip: String| {
        let loader = MemoryLoader::new().with(files[0], zip);
        files[1..].iter().fold(loader, |loader, name| loader.with(name, read(name)))
    };
    let jacket = read(files[0]);
    let written = with(
        &jacket,
        &[(
            "outer.front.centre to outer.front.centre from end to end",
            "knit.hem_band.left + outer.front.centre + outer.collar.left \
             to knit.hem_band.right + outer.front.centre + outer.collar.right",
        )],
    );
    let [short, long] = [jacket, written].map(|text| {
        let compiled = compile(&loader(text), files[1]);
        assert!(compiled.diagnostics.is_empty());
        let document = document(&compiled.garment, &compiled.sizes, &compiled.map, &[]);
        serde_json::to_string(&document).expect("it is written")
    });
    assert!(short == long, "the found chain differs from the one that is written out");
}

/// A hook above it takes no edge, so that the zip goes on along the edges that it holds.
#[test]
fn a_hook_does_not_end_a_zip() {
    let hooked = format!("{BOLERO}closure hook collar.left to collar.right {{ hooks 1 }}\n");
    assert_eq!(said(&hooked), NOTHING);
    assert_sides(&of(&hooked), 590.0);
}

/// A run that begins at the waist goes on above it alone.
#[test]
fn a_run_goes_on_at_its_corner_only() {
    let run = with(
        BOLERO,
        &[
            (
                "front.left to front.left from",
                "front.left 20 from top_left to front.left 20 from top_left from",
            ),
            ("separating 59", "closed 24"),
            (
                "seam side",
                "seam below front.left to front.left\nseam ends band.left to band.right\nseam side",
            ),
        ],
    );
    assert_eq!(said(&run), NOTHING);
    assert_eq!(chains(&of(&run))[0], "collar.left + front.left 20 from top_left");
    assert_sides(&of(&run), 240.0);
}

/// On one side of the body: the front is drawn as it is worn on the left, its side seam to the right of it, so that
/// the band, laid along it right side up, ends there with its right end.
#[test]
fn on_one_side_the_outlines_tell_which_end() {
    let skirt = "garment \"Mess skirt\"\nunits cm\nallowance 1\nfabric serge \"wool serge\" { width 150 }\n\
        layer outer in serge { front, back, band }\n\
        piece front \"Front\" { cut 1 on fold left\noutline rectangle 24 by 60\ndrawn left }\n\
        piece back \"Back\" { cut 1 on fold left\noutline rectangle 24 by 60\ndrawn right }\n\
        piece band \"Waistband\" { cut 1\noutline rectangle 96 by 8\nfolded top to bottom }\n\
        seam side front.right to back.right\n\
        closure zip front.right 20 from top_right to back.right 20 from top_right on left from end to end \
        { zipper concealed 24 }\n\
        seam waist band.bottom and band.top to front.top + back.top\nfinish front.bottom, back.bottom hem 3\n";
    let skirt = skirt.replace("from top_right to back", "from top_right on left to back");
    assert_eq!(
        chains(&of(&skirt)).map(|chain| chain.replace(" 20 from top_right", "")),
        ["front.right + band.right", "back.right + band.left"]
    );
    let matched = |text: &str, end: &str| {
        with(
            text,
            &[("+ back.top\n", &format!("+ back.top {{ matching band.{end} with back.top_right }}\n"))],
        )
    };
    assert_eq!(said(&matched(&skirt, "bottom_left")), NOTHING);
    let turned = skirt.replace("drawn left", "drawn sideways").replace("drawn right", "drawn left");
    let turned = turned.replace("drawn sideways", "drawn right");
    assert_eq!(
        chains(&of(&turned)).map(|chain| chain.replace(" 20 from top_right", "")),
        ["front.right + band.left", "back.right + band.right"]
    );
    assert_eq!(said(&matched(&turned, "bottom_right")), NOTHING);
}

/// What the seam says of its ends is obeyed, and a chain of two edges goes on beyond both.
#[test]
fn a_chain_goes_on_beyond_its_outer_ends() {
    let chain = with(
        BOLERO,
        &[("front.left to front.left", "collar.left + front.left to collar.right + front.left")],
    );
    assert_eq!(said(&chain), NOTHING);
    assert_eq!(chains(&of(&chain))[0], "collar.left + front.left + band.left");
    let said_so = with(
        BOLERO,
        &[
            ("back.top\n", "back.top { matching collar.bottom_right with front.top_left }\n"),
            ("back.bottom\n", "back.bottom { matching band.top_right with front.bottom_left }\n"),
        ],
    );
    assert_eq!(said(&said_so), NOTHING);
    assert_eq!(chains(&of(&said_so))[0], "collar.right + front.left + band.right");
}

#[test]
fn lines_and_unlike_ends_are_told() {
    let line = with(
        BOLERO,
        &[
            ("front.left to front.left", "front.waist to front.waist"),
            ("zipper separating 59", "snaps 3 of 12mm"),
        ],
    );
    assert!(said(&line).contains(&"closure/rim"));
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/mistakes/closure-rim.fus");
    let text = fs::read_to_string(path).expect("the mistake");
    assert_eq!(said(&text), ["closure/rim"]);
    for end in ["bottom_left", "bottom_right"] {
        let matching =
            format!("front.neck + back.top {{ matching collar.{end} with front.neck_cf }}\nfinish");
        let told = with(&text, &[("front.neck + back.top\nfinish", &matching)]);
        assert_eq!(said(&told), NOTHING, "{end}");
    }
}
