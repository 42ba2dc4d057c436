//! Rows, tacks, straps, plackets, slits inside, turn-ups and every kind of fastener in one garment: what formatting, packing,
//! writing out and exchange make of them. Nothing of them may get lost.

use crate::workbench::{err, folder_of, out, run};
use serde_json::Value as Json;

/// A bag with a flap and a pocket, and a skirt with a bound vent.
const FORMS: &str = r#"garment "Galley bag"
units cm
allowance 1
fabric canvas "canvas" { width 150; kind woven firm }
fabric lin "linen" { width 150 }
layer outer in canvas { bag, flap, skirt }
layer pockets in lin { bag_front, bag_back }
piece bag "Bag" {
  cut 1
  outline rectangle 60 by 50
  slit pocket from (20, 20) to (34, 20) window 2
  line quilt across at (0, 10)
  line studs across at (0, 44)
  mark tag = (10, 40)
}
piece bag_front "Front pocket bag" { cut 1; outline rectangle 14 by 16 }
piece bag_back "Back pocket bag" { cut 1; outline rectangle 14 by 14 }
piece flap "Flap" { cut 1; outline rectangle 60 by 14; line studs across at (0, 2) }
piece skirt "Skirt" { cut 2 mirrored; outline rectangle 27 by 40; slit vent on bottom at 7 from left up 10 }
seam bag_on  bag_back.top to outer.bag.pocket.near { matching bag_back.top_left with outer.bag.pocket.start_near }
seam bag_two bag_front.top to outer.bag.pocket.far { matching bag_front.top_left with outer.bag.pocket.start_far }
seam back  flap.top to bag.top
finish bag.pocket.start, bag.pocket.end raw
finish bag_front.left, bag_front.right, bag_front.bottom, bag_back.left, bag_back.right, bag_back.bottom overlocked
finish bag.bottom hem 3 turn-up 4
finish bag.left, bag.right hem 2
finish flap.left, flap.right, flap.bottom hem 2
closure studs_on flap.studs to bag.studs { snaps 3 of 12mm }
closure sides bag.left to bag.right { toggles 3 of 40mm }
topstitch quilting along bag.quilt
topstitch edge_rows 1 from flap.bottom rows 2 apart 0.5
tack tag_tack bag.tag bar 1
strap handle 30 by 2 in outer folded in four { from bag.tag to bag.top at 30 from top_left; sewn 3, boxed }
seam under skirt.left to skirt.right
placket vent_placket on skirt.vent bound 1
finish skirt.bottom, skirt.top overlocked
finish vent_placket.left overlocked
"#;

/// More of them, said by a variation.
const MORE: &str = r#"variation "Galley bag, heavy" of "forms.fus"
replace tack tag_tack bag.tag bar 1.5
replace topstitch edge_rows 1 from flap.bottom rows 3 apart 0.5
replace finish bag.bottom hem 3 turn-up 5
replace closure sides bag.left to bag.right { hooks 4 }
closure ends skirt.top to skirt.bottom { ties 2 of 30 }
drop topstitch quilting
"#;

fn resolved(files: &[(&str, &str)], name: &str) -> Json {
    let folder = folder_of(files);
    let output = run(folder.path(), &["resolve", name]);
    assert!(output.status.success(), "{}", err(&output));
    let mut told: Json = serde_json::from_slice(&output.stdout).expect("a document");
    // What it was made of is not what it is.
    for key in ["sources", "files", "made_of", "diagnostics", "steps", "garment", "about"] {
        told.as_object_mut().expect("an object").remove(key);
    }
    told
}

/// What a command prints of a file.
fn printed(files: &[(&str, &str)], arguments: &[&str]) -> String {
    let folder = folder_of(files);
    let output = run(folder.path(), arguments);
    assert!(output.status.success(), "{}", err(&output));
    out(&output)
}

#[test]
fn packed_and_written_out_they_are_the_same() {
    let files = [("forms.fus", FORMS), ("more.fus", MORE)];
    let wanted = resolved(&files, "more.fus");
    let packed = printed(&files, &["pack", "more.fus"]);
    assert_eq!(resolved(&[("more.fus", &packed)], "more.fus")["sizes"], wanted["sizes"]);
    let written = printed(&files, &["expand", "more.fus"]);
    assert_eq!(resolved(&[("more.fus", &written)], "more.fus")["sizes"], wanted["sizes"]);
    for (text, name) in [(&packed, "pack"), (&written, "expand")] {
        for words in
            ["bar 1.5", "rows 3 apart 0.5", "turn-up 5", "hooks 4", "ties 2 of 30", "boxed", "window 2"]
        {
            assert!(text.contains(words), "{name} keeps {words}: {text}");
        }
    }
}

#[test]
fn laid_out_anew_they_are_the_same() {
    let folder = folder_of(&[("forms.fus", FORMS)]);
    let wanted = resolved(&[("forms.fus", FORMS)], "forms.fus");
    assert!(run(folder.path(), &["tidy", "forms.fus"]).status.success());
    let once = std::fs::read_to_string(folder.path().join("forms.fus")).expect("the file");
    assert_eq!(resolved(&[("forms.fus", &once)], "forms.fus")["sizes"], wanted["sizes"]);
    assert!(run(folder.path(), &["tidy", "--check", "forms.fus"]).status.success());
}

/// How many entities of a kind lie on a layer of a block.
fn on_layer(pairs: &[(String, String)], block: &str, kind: &str, layer: &str) -> usize {
    let (mut own, mut entity, mut found) = (String::new(), String::new(), 0);
    for (code, value) in pairs {
        match code.as_str() {
            "0" => entity = value.clone(),
            "2" if entity == "BLOCK" => own = value.clone(),
            "8" if own == block && entity == kind && value == layer => found += 1,
            _ => {}
        }
    }
    found
}

/// By hand, after ASTM D6673: drill holes (13) of the bag are 3 snaps, 3 toggles on each side, the mark and the place of the
/// strap; of the flap 3 snaps. Rows of stitching are sew lines (14), two on the flap beside its own, none inside the outline of
/// the bag but the quilting. Lines inside (8) are the two lines of the bag and the two folds of its turn-up. The vent is one cut (11).
#[test]
fn exchange_has_a_mark_for_each_of_them() {
    let folder = folder_of(&[("forms.fus", FORMS)]);
    let output = run(folder.path(), &["export", "forms.fus", "--to", "dxf", "-o", "forms.dxf"]);
    assert!(output.status.success(), "{}", err(&output));
    let text = String::from_utf8_lossy(&std::fs::read(folder.path().join("forms.dxf")).expect("the file"))
        .into_owned();
    let lines: Vec<&str> = text.lines().map(str::trim).collect();
    let pairs: Vec<(String, String)> =
        lines.chunks_exact(2).map(|pair| (pair[0].to_owned(), pair[1].to_owned())).collect();
    let count = |block: &str, kind: &str, layer: &str| on_layer(&pairs, block, kind, layer);
    assert_eq!(count("OUTER_BAG", "POINT", "13"), 3 + 2 * 3 + 1 + 1);
    assert_eq!(count("OUTER_FLAP", "POINT", "13"), 3);
    assert_eq!(count("OUTER_FLAP", "POLYLINE", "14"), 1 + 2);
    assert_eq!(count("OUTER_BAG", "POLYLINE", "8"), 2 + 2);
    assert_eq!(count("OUTER_SKIRT", "LINE", "11"), 1);
}
