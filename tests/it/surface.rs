//! The garment as one sewn surface: Euler's number, rims and sheets of known forms, counted by hand.
//!
//! Of an orientable sheet Euler's number is 2 less twice the genus less the number of rims (Euler's
//! polyhedron formula, for surfaces with rims).

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
