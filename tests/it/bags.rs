//! What is sewn right sides together is turned: small works that can be turned, or need not be, and such
//! that nobody can turn any more. The first line of each says which it is, and why.

use fustian::emit::drawing::{Look, sheet};
use fustian::emit::svg;
use fustian::source::MemoryLoader;
use fustian::{Compiled, compile};
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

/// The works, by their names.
fn works() -> BTreeMap<String, String> {
    texts("tests/it/sources/bags")
}

fn texts(folder: &str) -> BTreeMap<String, String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let mut texts = BTreeMap::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|extension| extension == "fus") {
            let name = path.file_stem().and_then(|name| name.to_str()).unwrap().to_owned();
            texts.insert(name, fs::read_to_string(&path).unwrap());
        }
    }
    texts
}

fn made(text: &str) -> Compiled {
    let mut loader = MemoryLoader::new().with("work.fus", text);
    for (name, text) in texts("examples") {
        loader = loader.with(&format!("{name}.fus"), text);
    }
    compile(&loader, "work.fus")
}

fn told(compiled: &Compiled) -> Vec<&'static str> {
    compiled.diagnostics.iter().map(|one| one.slug()).filter(|slug| *slug != "steps/none").collect()
}

fn help(compiled: &Compiled) -> String {
    compiled.diagnostics.first().and_then(|one| one.help.clone()).unwrap_or_default()
}

#[test]
fn what_can_be_turned_is_sound_and_drawn() {
    let works = works();
    let sound: Vec<&String> =
        works.iter().filter(|(_, text)| text.starts_with("# sound: ")).map(|(name, _)| name).collect();
    let wanted = [
        "collar-on-a-stand",
        "drop-in-lining",
        "faced-yoke",
        "jacket-with-cuffs-last",
        "jacket-without-cuffs",
        "lined-sleeve-with-cuff-last",
        "tote-under-a-folded-band",
        "two-piece-cuff",
        "two-piece-waistband",
        "zip-between-shell-and-lining",
    ];
    assert_eq!(sound, wanted);
    for name in sound {
        let compiled = made(&works[name]);
        assert_eq!(told(&compiled), [] as [&str; 0], "{name}: {:#?}", compiled.diagnostics);
        for size in &compiled.sizes {
            assert!(size.sewn.surface.is_some(), "{name}");
            let cut = std::slice::from_ref(size.cut(&compiled.garment));
            let drawn = svg(&sheet(&compiled.garment, cut, &Look::drawing()), &compiled.garment.title);
            assert!(drawn.contains("<path"), "{name}");
        }
    }
}

#[test]
fn what_cannot_be_turned_is_found_with_its_steps_and_without() {
    let works = works();
    let shut: Vec<&String> =
        works.iter().filter(|(_, text)| text.starts_with("# found: ")).map(|(name, _)| name).collect();
    let wanted = [
        "cushion",
        "cushion-with-a-frill",
        "cuff-closed-last",
        "jacket-with-cuffs-first",
        "lined-bag",
        "lined-sleeve-with-cuff-first",
    ];
    let mut wanted = wanted.to_vec();
    wanted.sort_unstable();
    assert_eq!(shut, wanted);
    // What only the order of the steps spoils can be sewn in another.
    let by_order = ["cuff-closed-last", "jacket-with-cuffs-first", "lined-sleeve-with-cuff-first"];
    for name in shut {
        let text = &works[name];
        assert_eq!(told(&made(text)), ["turn/closed"], "{name}");
        let by_order = by_order.contains(&name.as_str());
        if let Some(at) = text.find("\nsteps {") {
            let wanted: &[&str] = if by_order { &[] } else { &["turn/closed"] };
            assert_eq!(told(&made(&text[..at])), wanted, "{name} without its steps");
        }
        assert_eq!(help(&made(text)).contains(" only after "), by_order, "{name}");
    }
}

#[test]
fn the_message_names_what_closes_the_bag_and_the_ways_out() {
    let works = works();
    let text = &works["cuff-closed-last"];
    let compiled = made(text);
    let [one] = compiled.diagnostics.as_slice() else { panic!("{:#?}", compiled.diagnostics) };
    assert!(one.title.contains("Cuff is sewn together all round in outer and inner"), "{}", one.title);
    let words: Vec<&str> = one.labels.iter().map(|label| compiled.map.text(label.span)).collect();
    assert_eq!(words, ["cuff_edge", "cuff_edge"]);
    for way in [
        "sew cuff_on only after cuff_edge",
        "leave a gap in cuff_edge",
        "leaving gap 15cm",
        "sew cuff_edge by hand after all others",
    ] {
        assert!(help(&compiled).contains(way), "{way}: {}", help(&compiled));
    }
    // Each way out is one.
    let seam = "inner.cuff.left + inner.cuff.bottom + inner.cuff.right";
    for mended in [
        text.replace("sew cuff_on, cuff_edge", "sew cuff_edge, cuff_on"),
        text.replace(
            "sew cuff_on, cuff_edge",
            "sew cuff_on, cuff_edge; turn through gap in cuff_edge; slipstitch gap in cuff_edge",
        )
        .replace(seam, &format!("{seam} {{ leaving gap 15cm }}")),
        text.replace(seam, &format!("{seam} {{ stitch handstitch }}")),
    ] {
        assert_ne!(&mended, text);
        assert_eq!(told(&made(&mended)), [] as [&str; 0]);
    }
}

#[test]
fn a_zip_is_a_way_out_unless_a_seam_sews_its_edges_together() {
    let cushion = works()["cushion"].clone();
    let zip = "closure zip  upper.left to under.left { zipper closed 40 }";
    let open = cushion
        .replace(" + upper.left to", " to")
        .replace(" + under.left\n", "\n")
        .replace("steps { \"Sew\" { sew round", &format!("{zip}\nsteps {{ \"Sew\" {{ sew round, zip"));
    assert_eq!(told(&made(&open)), [] as [&str; 0]);
    let enclosed = cushion
        .replace("under.left\n", "under.left  enclosing zip\n")
        .replace("steps { \"Sew\" {", &format!("{zip}\nsteps {{ \"Sew\" {{ baste zip;"));
    assert_eq!(told(&made(&enclosed)), ["closure/sewn-shut"]);
}

#[test]
fn three_plies_close_two_bags() {
    // Of three plies sewn all round each pair closes a bag; by Euler's formula for a space cut up by
    // cells (V - E + F - C = 0 with the outside counted, Euler and Poincaré): one seam of 4 stretches,
    // 4 vertices, 3 faces and so 4 - 4 + 3 = 3 spaces, one of them outside.
    let text = works()["cushion"]
        .replace("{ upper, under }", "{ upper, middle, under }")
        .replace("seam round", "piece middle \"Middle\" { cut 1; outline rectangle 40 by 40 }\nseam round")
        .replace(
            "to under.bottom",
            "to middle.bottom + middle.right + middle.top + middle.left and under.bottom",
        );
    let compiled = made(&text);
    let surface = compiled.sizes[0].sewn.surface.as_ref().unwrap();
    let bags = surface.bags(&surface.shutting(), |_| 0).unwrap();
    assert_eq!(bags.iter().map(|bag| bag.faces.len()).collect::<Vec<_>>(), [2, 2]);
}

#[test]
fn what_comes_off_on_purpose_says_so() {
    let wrap = |belt: &str, joined: bool| {
        let edges = if joined { "" } else { ", belt.left, wrap.right" };
        let seam = if joined {
            "seam side  wrap.right to belt.left { matching wrap.top_right with belt.top_left }"
        } else {
            ""
        };
        told(&made(&format!(
            "garment \"Galley wrap\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
             layer outer in canvas {{ wrap, belt, tie }}\npiece wrap \"Wrap\" {{ cut 1; outline rectangle 120 by 8 }}\n\
             piece belt \"Belt\" {{ cut 1{belt}; outline rectangle 60 by 8 }}\n\
             piece tie \"Tie\" {{ cut 1; outline rectangle 60 by 8 }}\nseam tie_on  belt.right to tie.left {{ matching belt.top_right with tie.top_left }}\n{seam}\n\
             finish belt.top, belt.bottom, tie.top, tie.bottom, tie.right, wrap.left, wrap.top, wrap.bottom{edges}  hem 1"
        )))
    };
    // What hangs on a loose piece is loose with it.
    assert_eq!(wrap("", false), ["piece/apart"]);
    assert_eq!(wrap(" loose", false), [] as [&str; 0]);
    assert_eq!(wrap("", true), [] as [&str; 0]);
    assert_eq!(wrap(" loose", true), ["piece/loose"]);
}

#[test]
fn so_much_that_it_is_not_worked_out_is_refused() {
    let count = fustian::limits::SHEETS_OF_BAG + 100;
    let corner_of =
        [("bottom", "bottom_left"), ("right", "bottom_right"), ("top", "top_right"), ("left", "top_left")];
    let edges: Vec<(String, String)> = (0..count)
        .flat_map(|piece| {
            corner_of.map(|(edge, corner)| (format!("p{piece}.{edge}"), format!("p{piece}.{corner}")))
        })
        .collect();
    let pieces: Vec<String> = (0..count).map(|piece| format!("p{piece}")).collect();
    let mut text = format!(
        "garment \"Patchwork awning\"\nunits cm\nallowance 1\nfabric canvas \"canvas\" {{ width 150 }}\n\
         layer outer in canvas {{ {} }}\n",
        pieces.join(", ")
    );
    for piece in &pieces {
        text += &format!("piece {piece} \"Patch\" {{ cut 1; outline rectangle 20 by 20 }}\n");
    }
    // Every edge of every patch lies in a seam of three plies, from patches that lie far apart.
    let third = edges.len() / 3;
    for at in 0..third {
        let [a, b, c] = [at, third + (at + 5) % third, 2 * third + (at + 14) % third].map(|at| &edges[at]);
        text += &format!(
            "seam s{at} {} and {} to {} {{ matching {} with {}; matching {} with {} }}\n",
            a.0, b.0, c.0, a.1, c.1, b.1, c.1
        );
    }
    let compiled = made(&text);
    assert_eq!(told(&compiled), ["turn/closed"]);
    assert!(compiled.diagnostics[0].title.contains(&fustian::limits::SHEETS_OF_BAG.to_string()));
}
