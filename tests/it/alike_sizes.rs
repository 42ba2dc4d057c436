//! Checks that are asked of one size of those that hang together alike: asked of every size they say the same.

use crate::workbench::{in_memory, with};
use fustian::check::{CHECKS, Check, Run, run};
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::fs;
use std::path::Path;

/// Holds that of one garment.
fn hold(compiled: &Compiled, name: &str) {
    let asked: Vec<&Check> =
        CHECKS.iter().copied().filter(|check| matches!(check.run, Run::PerForm(_))).collect();
    assert!(asked.len() > 1, "there are checks that are asked once for sizes alike");
    let of_all: Vec<Check> = asked
        .iter()
        .map(|check| match check.run {
            Run::PerForm(run) => Check { kinds: check.kinds, run: Run::PerSize(run) },
            _ => unreachable!("all others are left out"),
        })
        .collect();
    let of_all: Vec<&Check> = of_all.iter().collect();
    let told = |checks: &[&Check]| format!("{:#?}", run(checks, &compiled.garment, &compiled.sizes));
    assert_eq!(told(&asked), told(&of_all), "{name}");
}

#[test]
fn every_example_and_every_mistake() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    let mut names = Vec::new();
    for within in ["", "mistakes/", "mistakes/with/"] {
        for entry in fs::read_dir(folder.join(within)).expect("a folder") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().and_then(|name| name.to_str()).expect("a name");
            if name.ends_with(".fus")
                && let Ok(text) = fs::read_to_string(&path)
            {
                loader = loader.with(&format!("{within}{name}"), text);
                names.push(format!("{within}{name}"));
            }
        }
    }
    names.sort();
    for name in names {
        hold(&compile(&loader, &name), &name);
    }
}

/// A skirt of two tiers: the lower one's three panels of 30, 40 and 30 meet the two of the upper one, 50 each, in the
/// middle of the panel of 40. Its own waist gives the upper left panel 20 in size 3: it then ends within the first.
const TIERS: &str = "garment \"Two tiers\"\nunits cm\nallowance 1\nsizes one, two, three\nlet part = each 50, 50, 20\n\
    fabric twill \"twill\" { width 150 }\nlayer outer in twill { a, b, c, d, e }\n\
    piece a { cut 1; outline rectangle part by 20 }\npiece b { cut 1; outline rectangle 100 - part by 20 }\n\
    piece c { cut 1; outline rectangle 30 by 20 }\npiece d { cut 1; outline rectangle 40 by 20 }\n\
    piece e { cut 1; outline rectangle 30 by 20 }\n\
    seam ab a.right to b.left { matching a.top_right with b.top_left }\n\
    seam cd c.right to d.left { matching c.top_right with d.top_left }\n\
    seam de d.right to e.left { matching d.top_right with e.top_left }\n\
    seam tier a.bottom + b.bottom to c.top + d.top + e.top { matching a.bottom_left with c.top_left }\n\
    finish a.left, a.top, b.top, b.right, c.left, c.bottom, d.bottom, e.bottom, e.right  hem 1\n";

#[test]
fn what_meets_elsewhere_hangs_together_otherwise() {
    let compiled = compile(&in_memory(&[("own.fus", TIERS)]), "own.fus");
    let surfaces: Vec<_> =
        compiled.sizes.iter().map(|size| size.sewn.surface.as_ref().expect("all is known")).collect();
    assert!(surfaces[0].is_formed_like(surfaces[1]) && !surfaces[1].is_formed_like(surfaces[2]));
    let grown = with(TIERS, &[("each 50, 50, 20", "each 50, 55, 60")]);
    let compiled = compile(&in_memory(&[("own.fus", &grown)]), "own.fus");
    let surfaces: Vec<_> = compiled.sizes.iter().filter_map(|size| size.sewn.surface.as_ref()).collect();
    assert!(
        surfaces.windows(2).all(|pair| pair[0].is_formed_like(pair[1])),
        "the joint lies in the panel of 40 in each"
    );
    assert_eq!(surfaces.len(), 3);
}
