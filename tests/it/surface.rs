//! The garment as one sewn surface: Euler's number, rims and sheets of known forms, counted by hand.
//!
//! Of an orientable sheet Euler's number is 2 less twice the genus less the number of rims (Euler's
//! polyhedron formula, for surfaces with rims).

use fustian::sewing::garment_rims;
use fustian::sewing::surface::{Gluing, Sheet, Surface};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;

fn examples() -> MemoryLoader {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_name().and_then(|name| name.to_str()).unwrap().to_owned();
            loader = loader.with(name.as_str(), fs::read_to_string(&path).unwrap().as_str());
        }
    }
    loader
}

fn made(text: &str) -> Compiled {
    let header = "garment \"Galley things\"\nunits cm\nallowance 1\ntolerance 2mm\n\
                  fabric canvas \"canvas\" { width 150 }\n";
    compile(&MemoryLoader::new().with("galley.fus", format!("{header}{text}\n")), "galley.fus")
}

fn surface(compiled: &Compiled, size: usize) -> &Surface {
    let told: Vec<_> = compiled.diagnostics.iter().map(|one| (one.slug(), &one.title)).collect();
    compiled.sizes[size].sewn.surface.as_ref().unwrap_or_else(|| panic!("all is known but for {told:?}"))
}

/// Of each sheet how many faces, its Euler number and its rims; those of one face by itself left out.
fn sheets(surface: &Surface) -> Vec<(usize, i64, usize)> {
    let sheets = Gluing::seams(surface).sheets(surface);
    assert!(sheets.iter().all(|sheet| sheet.orientable), "{sheets:#?}");
    let large = sheets.iter().filter(|sheet| sheet.faces.len() > 1);
    large.map(|sheet| (sheet.faces.len(), sheet.euler, sheet.rims)).collect()
}

/// The one sheet of a garment in all of whose sizes it is the same.
fn in_every_size(name: &str) -> Vec<(usize, i64, usize)> {
    let compiled = compile(&examples(), name);
    let each: Vec<_> = (0..compiled.sizes.len()).map(|size| sheets(surface(&compiled, size))).collect();
    assert!(each.windows(2).all(|pair| pair[0] == pair[1]), "{name}: {each:?}");
    each.into_iter().next().unwrap_or_default()
}

#[test]
fn the_smock_is_a_sphere_with_four_holes() {
    // Neck, hem and two wrists: 2 - 4. Front, back, two sleeves, collar, hem band and two cuffs; collar,
    // band and cuffs are folded rings, which add a strip at a hole and leave it a hole.
    assert_eq!(in_every_size("deck-smock.fus"), [(8, -2, 4)]);
}

#[test]
fn the_trousers_are_a_sphere_with_three_holes() {
    // Waist and two hems: 2 - 3. Two fronts and two backs.
    assert_eq!(in_every_size("oilskin-trousers.fus"), [(4, -1, 3)]);
}

#[test]
fn the_skirt_is_a_tube_and_the_apron_a_disc() {
    // A tube has two rims and the number 0: the hem, and the waist with its open zip. Front, two backs
    // and the waistband.
    assert_eq!(in_every_size("mess-skirt.fus"), [(4, 0, 2)]);
    // With its zip closed it is a tube as well.
    let compiled = compile(&examples(), "mess-skirt.fus");
    let surface = surface(&compiled, 0);
    let closed = Gluing::seams(surface).closed(surface).sheets(surface);
    assert_eq!(closed.iter().map(|sheet| (sheet.euler, sheet.rims)).collect::<Vec<_>>(), [(0, 2)]);
    // The apron, and on it the pocket: two discs that nothing but stitching on top holds together.
    let compiled = compile(&examples(), "galley-apron.fus");
    let discs = Gluing::seams(self::surface(&compiled, 0)).sheets(self::surface(&compiled, 0));
    let disc = |sheet: &Sheet| (sheet.faces.len(), sheet.euler, sheet.rims);
    assert_eq!(discs.iter().map(disc).collect::<Vec<_>>(), [(1, 1, 1), (1, 1, 1)]);
}

#[test]
fn the_lined_mess_jacket_is_closed_and_has_two_handles() {
    // Shell and lining are each a sphere with three holes: the edge all round, and the wrists. Sewn
    // together at all three: twice (2 - 3), no rim, and so genus 2. Two fronts, back, two sleeves and
    // collar; two facings, under collar, two front linings, back and two sleeves.
    assert_eq!(in_every_size("mess-jacket.fus"), [(14, -2, 0)]);
}

#[test]
fn the_deck_jacket_is_sewn_without_a_twist() {
    // Shell and lining, each with a rim all round and two wrists: 2 - 3 each. Sewn together all round
    // they have two wrists each; the cuffs go on the shell's, and end in folds. Collar and band bring
    // two ends each, which the zip closes and no seam does: 4 + 4 rims and no handle, 2 - 8. Two fronts,
    // back and two sleeves twice, collar, band and two cuffs.
    assert_eq!(in_every_size("deck-jacket.fus"), [(14, -6, 8)]);
}

/// Slugs of all that is told, but for the order of work.
fn told(text: &str) -> Vec<&'static str> {
    let all = made(text).diagnostics.into_iter().map(|one| one.slug());
    all.filter(|slug| *slug != "steps/none").collect()
}

/// A vest of squares, so that every edge meets its seam at a right angle.
const VEST: &str = "layer outer in canvas { front, back }\n\
    piece front \"Front\" { cut 1 on fold centre\n\
    point neck_cf = (0, 50); point neck_low = (8, 50); point neck_side = (8, 58); point tip = (18, 58)\n\
    point arm_low = (18, 30); point underarm = (24, 30); point hem_side = (24, 0); point hem_cf = (0, 0)\n\
    outline from hem_cf { centre to neck_cf; neck to neck_low; neck_up to neck_side; shoulder to tip\n\
    armhole to arm_low; arm_in to underarm; side to hem_side; hem to hem_cf } }\n\
    piece back \"Back\" { cut 1 on fold centre; outline copy of front }\n\
    finish front.neck, front.neck_up, back.neck, back.neck_up, front.armhole, front.arm_in, back.armhole, back.arm_in  hem 1\n\
    finish front.hem, back.hem  hem 1\n";

#[test]
fn a_seam_sewn_end_for_end_twists_the_cloth() {
    let vest = |shoulder: &str, side: &str| {
        told(&format!(
            "{VEST}seam shoulder front.shoulder to back.shoulder {{ matching front.tip with back.{shoulder} }}\n\
             seam side front.side to back.side {{ matching front.underarm with back.{side} }}"
        ))
    };
    assert_eq!(vest("tip", "underarm"), [] as [&str; 0]);
    assert_eq!(vest("tip", "hem_side"), ["seam/twisted"]);
    assert_eq!(vest("neck_side", "underarm"), ["seam/twisted"]);
}

#[test]
fn a_finish_may_change_at_a_corner_but_not_where_the_edge_runs_on() {
    let skirt = |front: &str, back: &str| {
        told(&format!(
            "layer outer in canvas {{ front, back }}\n\
             piece front \"Front\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\n\
             piece back \"Back\" {{ cut 1 on fold left; outline rectangle 25 by 60 }}\n\
             seam side front.right to back.right\nfinish front.top, back.top hem 2\n\
             finish front.bottom {front}\nfinish back.bottom {back}"
        ))
    };
    assert_eq!(skirt("hem 3", "hem 3"), [] as [&str; 0]);
    assert_eq!(skirt("hem 3", "hem 6"), ["finish/runs-on"]);
    assert_eq!(skirt("hem 3", "bound 1"), ["finish/runs-on"]);
    assert_eq!(skirt("bound 3", "bound 1"), ["finish/runs-on"]);
    assert_eq!(skirt("raw", "hem 3"), ["finish/runs-on"]);
    assert_eq!(skirt("raw", "raw"), [] as [&str; 0]);
    // A bib whose sides are hemmed otherwise than the upper edge of the skirt: they meet in a corner.
    let apron = "layer outer in canvas { bib, skirt }\n\
        piece bib \"Bib\" { cut 1; outline rectangle 30 by 30 }\n\
        piece skirt \"Skirt\" { cut 1; outline rectangle 30 by 60; }\n\
        seam waist bib.bottom to skirt.top { matching bib.bottom_left with skirt.top_left }\n\
        finish bib.left, bib.right, bib.top hem 1\nfinish skirt.left, skirt.right, skirt.bottom hem 1\n";
    assert_eq!(told(apron), [] as [&str; 0]);
}

/// Every example that is a garment: how many things it is in and how many openings it has with its closures closed,
/// counted by hand. A strap is sewn on by its ends, and counts as a thing with a rim of its own.
const COUNTED: [(&str, usize, usize); 33] = [
    // Neck or hood, hem, two cuffs.
    ("deck-smock", 1, 4),
    ("deck-zip", 1, 4),
    ("deck-longer", 1, 4),
    ("deck-cropped", 1, 4),
    ("deck-hood", 1, 4),
    ("deck-storm-smock", 1, 4),
    ("raglan-jersey", 1, 4),
    ("raglan-mate", 1, 4),
    // Collar and hem band lead from the shell into the lining; what is left are the folds of both cuffs, or both
    // armholes, where shell and lining end.
    ("deck-lined", 1, 2),
    ("deck-jacket", 1, 2),
    ("second-mate", 1, 2),
    ("deck-waistcoat", 1, 2),
    // Front edges, hem and neck in one, since its buttons lie inside; two wrists.
    ("mess-jacket", 1, 3),
    // The same, two cuffs, and above each the slit.
    ("purser-shirt", 1, 5),
    ("purser-shirt-placket", 1, 5),
    ("purser-shirt-band", 1, 5),
    // Neck, two armholes, waist.
    ("steward-bodice", 1, 4),
    ("steward-bodice-faced", 1, 4),
    ("steward-princess", 1, 4),
    // Waist and hem; the lining's hem.
    ("mess-skirt", 1, 2),
    ("mess-skirt-vent", 1, 2),
    ("mess-skirt-lined", 1, 3),
    // Waist and hem; its pocket bag is closed but for the mouth, which is sewn to the skirt; a loop.
    ("mess-skirt-side", 1 + 1, 2 + 1),
    // Waist and two legs; five belt loops; the fly between facing and shield; the windows of two pockets.
    ("oilskin-trousers", 1, 3),
    ("mate-trousers", 1 + 5, 3 + 5),
    ("mate-trousers-fly", 1 + 5, 3 + 5 + 1),
    ("mate-trousers-jetted", 1 + 5, 3 + 5 + 2),
    // Its upper edge and its hem; two straps.
    ("bias-slip", 1 + 2, 2 + 2),
    // A disc; its pocket is stitched down.
    ("galley-apron", 1, 1),
    // The mouth, which runs on round the flap; three straps.
    ("ticket-bag", 1 + 3, 1 + 3),
    ("watch-cap", 1, 1),
    // The rim, at which the two plies of the brim end; at the brow all is sewn. The sweatband that hooks in there
    // belongs to it, and is a tube with two edges.
    ("storm-hat", 1, 3),
    // A library of which nothing is made by itself.
    ("crew-badge", 0, 0),
];

#[test]
fn things_and_openings_of_all_examples_are_as_counted_by_hand() {
    for (name, things, openings) in COUNTED {
        let compiled = compile(&examples(), &format!("{name}.fus"));
        let Some(size) = compiled.sizes.first() else {
            assert_eq!((things, openings), (0, 0), "{name}");
            continue;
        };
        if things == 0 {
            continue;
        }
        assert_eq!(surface(&compiled, 0).components().len(), things, "things of {name}");
        let rims = garment_rims(&compiled.garment, &size.drawn, &size.sewn).expect("its rims");
        assert_eq!(rims.len(), openings, "openings of {name}");
    }
    // Whoever adds an example counts it.
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let is_file = path.extension().is_some_and(|extension| extension == "fus");
        let name = path.file_stem().and_then(|name| name.to_str()).unwrap_or_default();
        let is_counted = COUNTED.iter().any(|(counted, ..)| *counted == name);
        assert!(!is_file || is_counted || name == "crew-library", "{name} is counted");
    }
}

#[test]
fn two_of_a_pair_are_no_two_things() {
    let mitten = |more: &str| {
        told(&format!(
            "layer outer in canvas {{ mitten{more} }}\npiece mitten \"Mitten\" {{ cut 2 mirrored; outline rectangle 25 by 30 }}\n\
             piece scarf \"Scarf\" {{ cut 1; outline rectangle 25 by 100 }}\n\
             seam edge mitten.left to mitten.right\nfinish mitten.top, mitten.bottom hem 2\n\
             finish scarf.left, scarf.right, scarf.top, scarf.bottom hem 1"
        ))
    };
    assert!(mitten(", scarf").contains(&"piece/apart"));
    assert!(!mitten("").contains(&"piece/apart"));
}
