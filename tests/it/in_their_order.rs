//! Work that comes too late: a zip that is held by half of its length, cloth that is fused once it is turned, loops that no seam
//! takes in any more, a hood that is closed all round. Each beside what is sound.

use crate::workbench::{NOTHING, example, helps, said, told, with};

/// A lined hood on a vest, with one zip up the front and the throat; the seam of both hoods at the throat holds its upper end.
const HOOD: &str = "garment \"Deckhand's hooded vest\"
units cm
allowance 1
fabric drill \"drill\" { width 150 }
layer outer in drill { half, hood }
layer inside in drill { hood }
piece half \"Half\" { cut 2 mirrored; outline rectangle 30 by 40 }
piece hood \"Hood\" {
  cut 2 mirrored
  point neck_front = (0, 0)
  point neck_back = (30, 0)
  point crown_back = (30, 30)
  point brow = (0, 30)
  point chin = (0, 6)
  outline from neck_front {
    neck to neck_back
    back to crown_back
    crown to brow
    face to chin
    throat to neck_front
  }
}
seam centre_back half.right to half.right
seam crown hood.back + hood.crown to hood.back + hood.crown
seam face outer.hood.face to inside.hood.face
seam throat outer.hood.throat to inside.hood.throat enclosing front_zip
seam neck outer.hood.neck to half.top { matching outer.hood.neck_front with half.top_left }
finish inside.hood.neck turned under onto neck
finish half.bottom hem 3
closure front_zip half.left + outer.hood.throat to half.left + outer.hood.throat { zipper separating 46 }
steps {
  \"Body\" { sew centre_back }
  \"Hood\" { sew crown, neck; baste front_zip; sew throat, face; sew front_zip; finish inside.hood.neck }
  \"Hem\" { hem half.bottom }
}
";

/// A jerkin with a stiffened tab on each half, and loops at its faced front edge.
const JERKIN: &str = "garment \"Lookout's jerkin\"
units cm
allowance 1
fabric drill \"drill\" { width 150 }
fabric stay \"fusible\" { width 90 }
layer outer in drill { half, tab, facing }
layer under in drill { tab }
layer firm in stay fused to outer { tab }
piece half \"Half\" { cut 2 mirrored; outline rectangle 50 by 60; mark tab_at = (20, 40) }
piece facing \"Facing\" { cut 2 mirrored; outline rectangle 6 by 60 }
piece tab \"Tab\" { cut 2 mirrored; outline rectangle 12 by 5 }
seam centre_back half.right to half.right
seam tab_edge outer.tab to under.tab along left + bottom + right
seam edge half.left to facing.left
finish facing.right overlocked
finish half.top, facing.top hem 2
finish half.bottom, facing.bottom hem 3
place tab on half { corner top_left at tab_at; topstitch top }
closure loops half.left to half.left { toggles 3 of 40mm left over right }
steps {
  \"Tab\" { fuse tab; sew tab_edge; place tab }
  \"Body\" { sew centre_back; finish facing.right; baste loops; sew edge; press edge }
  \"Hems\" { hem half.top, facing.top, half.bottom, facing.bottom; sew loops }
}
";

/// A text without its steps.
fn unsaid(text: &str) -> &str {
    text.split_once("steps {").map_or(text, |(before, _)| before)
}

/// What `steps` lists of a text: what is done to what, line by line.
fn order(text: &str) -> Vec<String> {
    let compiled = crate::workbench::of(text);
    let document = fustian::emit::steps_document(&compiled.garment, &compiled.sizes[0]);
    let line = |one: &fustian::emit::StepLineDocument| {
        format!("{} {}", one.verb, one.to.clone().unwrap_or_default())
    };
    document.steps.iter().map(line).collect()
}

#[test]
fn a_zip_is_sewn_on_where_no_seam_holds_it() {
    assert_eq!(said(HOOD), NOTHING);
    // The throat holds 6 of its 46; the other 40, along the halves, hang on the basting alone.
    let basted = with(HOOD, &[("; sew front_zip", "")]);
    let forgotten = "no step says when the closure front_zip is sewn in";
    assert_eq!(told(&basted), [("step/forgotten", forgotten.to_owned())]);
    assert!(helps(&basted)[0].ends_with("say so: sew front_zip"), "{:?}", helps(&basted));
    // Where no order is said, it is sewn once it is in its place.
    let order = order(unsaid(HOOD));
    let at =
        |step: &str| order.iter().position(|one| one == step).unwrap_or_else(|| panic!("{step}: {order:?}"));
    assert!(at("baste front_zip") < at("sew front_zip") && at("baste front_zip") < at("sew throat"));
    // Sewn on whole before the throat is closed, it needs no basting.
    let whole = with(HOOD, &[("baste front_zip;", "sew front_zip;"), ("face; sew front_zip", "face")]);
    assert_eq!(said(&whole), NOTHING);
    // Sewn only after the throat, it is not held by that.
    let late = with(HOOD, &[("baste front_zip; ", "")]);
    assert_eq!(said(&late), ["step/shut"]);
}

#[test]
fn a_zip_that_seams_hold_all_along_is_only_basted() {
    // A facing takes in what the throat does not.
    let faced = [
        ("layer outer in drill { half,", "layer outer in drill { half, facing,"),
        (
            "seam centre_back",
            "piece facing \"Facing\" { cut 2 mirrored; outline rectangle 6 by 40 }\nseam centre_back",
        ),
        ("seam face", "seam edge half.left to facing.left enclosing front_zip\nseam face"),
        (
            "finish half.bottom hem 3",
            "finish half.bottom, facing.bottom hem 3\nfinish facing.right, facing.top overlocked",
        ),
        ("sew throat, face; sew front_zip;", "sew throat, face, edge;"),
        ("\"Body\" {", "\"Body\" { finish facing.right, facing.top;"),
        ("hem half.bottom }", "hem half.bottom, facing.bottom }"),
    ];
    assert_eq!(said(&with(HOOD, &faced)), NOTHING);
    assert!(!order(unsaid(&with(HOOD, &faced))).contains(&"sew front_zip".to_owned()));
    // Ends of folded bands are folded over the zip in the seam that holds it.
    let jacket = example("deck-lined");
    assert!(jacket.contains("baste front_zip; sew front_edge") && !jacket.contains("sew front_zip"));
}

#[test]
fn what_is_turned_is_fused_before() {
    assert_eq!(said(JERKIN), NOTHING);
    let late = with(JERKIN, &[("fuse tab; sew tab_edge;", "sew tab_edge; fuse tab;")]);
    let inside = "sewing tab_edge comes before fusing Tab, whose wrong side lies inside once that is turned";
    assert_eq!(told(&late), [("step/early", inside.to_owned())]);
    // Sewn along one of its sides alone it can still be reached: 12 of 34.
    let open = with(
        &late,
        &[
            ("along left + bottom + right", "along bottom"),
            (
                "finish facing.right overlocked",
                "finish facing.right overlocked\nfinish tab.left, tab.right overlocked",
            ),
            ("sew tab_edge; fuse tab;", "finish tab.left, tab.right; sew tab_edge; fuse tab;"),
        ],
    );
    assert_eq!(said(&open), ["step/fuse-late"]);
}

#[test]
fn loops_are_basted_before_the_seam_that_takes_them_in() {
    let late = with(JERKIN, &[("baste loops; sew edge;", "sew edge; baste loops;")]);
    let title = "sewing edge comes before basting loops, whose ends it is to take in";
    assert_eq!(told(&late), [("step/early", title.to_owned())]);
    // Loops that are sewn on at once, after all seams, are not basted.
    assert_eq!(said(&with(JERKIN, &[("baste loops; ", "")])), NOTHING);
    // A hem takes them in as well.
    let hemmed = [
        ("seam edge half.left to facing.left\n", "finish half.left hem 3\n"),
        ("piece facing \"Facing\" { cut 2 mirrored; outline rectangle 6 by 60 }\n", ""),
        (", facing }", " }"),
        ("finish facing.right overlocked\n", ""),
        ("half.top, facing.top hem 2", "half.top hem 2"),
        ("half.bottom, facing.bottom hem 3", "half.bottom hem 3"),
        ("finish facing.right; baste loops; sew edge; press edge", "baste loops; hem half.left"),
        ("hem half.top, facing.top, half.bottom, facing.bottom", "hem half.top, half.bottom"),
    ];
    assert_eq!(said(&with(JERKIN, &hemmed)), NOTHING);
    let late = with(&with(JERKIN, &hemmed), &[("baste loops; hem half.left", "hem half.left; baste loops")]);
    assert_eq!(said(&late), ["step/early"]);
}

#[test]
fn a_hood_closed_all_round_is_told_with_and_without_an_order() {
    let closed = [
        ("seam neck outer.hood.neck to", "seam neck outer.hood.neck and inside.hood.neck to"),
        ("finish inside.hood.neck turned under onto neck\n", ""),
        ("; finish inside.hood.neck", ""),
    ];
    let closed = with(HOOD, &closed);
    let shut = "Hood is sewn together all round in outer and inside, and no gap is left to turn it through";
    for text in [closed.as_str(), unsaid(&closed)] {
        assert_eq!(told(text), [("turn/closed", shut.to_owned())]);
        // The neck comes before the zip, and that before the throat: it cannot be the last.
        assert!(!helps(text)[0].contains("sew neck only after"), "{:?}", helps(text));
    }
    let gap = [(
        "hood.back + hood.crown\nseam face",
        "hood.back + hood.crown { leaving gap 15 in inside }\nseam face",
    )];
    assert_eq!(said(&with(unsaid(&closed), &gap)), NOTHING);
    // Without its zip the neck may be sewn last.
    let open = [
        (" enclosing front_zip", ""),
        ("half.left + outer.hood.throat to half.left + outer.hood.throat", "half.left to half.left"),
        ("separating 46", "separating 40"),
    ];
    assert_eq!(said(&with(unsaid(&closed), &open)), NOTHING);
}
