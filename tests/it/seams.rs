//! Seams: which copies meet, how long both sides are, and what is said where they do not match.

use fustian::compile;
use fustian::source::MemoryLoader;

fn example(name: &str) -> fustian::Compiled {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let mut loader = MemoryLoader::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if let Ok(text) = std::fs::read_to_string(&path) {
            loader = loader.with(path.file_name().unwrap().to_str().unwrap(), text.as_str());
        }
    }
    compile(&loader, name)
}

#[test]
fn dump() {
    for name in
        ["deck-smock.fus", "deck-jacket.fus", "mess-jacket.fus", "oilskin-trousers.fus", "mess-skirt.fus"]
    {
        let compiled = example(name);
        println!("== {name}");
        let garment = &compiled.garment;
        let sewing = &compiled.sewings[2];
        for seam in &sewing.seams {
            let named = garment.seam(seam.seam);
            let side = |side: &fustian::sewing::SewnSide| {
                side.plies
                    .iter()
                    .map(|ply| {
                        let runs: Vec<String> = ply
                            .runs
                            .iter()
                            .map(|run| {
                                let part = sewing.parts[run.part].part;
                                let drawn = compiled.sizes[2].papers[part.paper.index()].as_ref().unwrap();
                                format!(
                                    "{}.{}{}{}",
                                    garment.part_name(Some(part.layer), part.piece),
                                    garment.edge(drawn.edges[run.edge].edge).name,
                                    if run.reversed { "'" } else { "" },
                                    match run.hand {
                                        None => "",
                                        Some(fustian::syntax::tree::Hand::Left) => " L",
                                        _ => " R",
                                    }
                                )
                            })
                            .collect();
                        format!("{:.3}[{}]", ply.length, runs.join(" "))
                    })
                    .collect::<Vec<_>>()
                    .join(" & ")
            };
            println!(
                "{} {:?} x{} ring={} | {} | {} | unmet {} unpaired {} ends {} known {}",
                named.name,
                seam.layers,
                seam.sewings,
                seam.ring,
                side(&seam.first),
                side(&seam.second),
                seam.unmet.is_some(),
                seam.unpaired.is_some(),
                seam.ends.len(),
                seam.known
            );
            for s in &seam.stretches {
                println!("      {:.1?} {:.1?} {}", s.first, s.second, s.fitted);
            }
            for s in &seam.notches {
                println!("      notch {:.1?} {:.1?} {}", s.on_first, s.on_second, s.double);
            }
        }
        for d in &compiled.diagnostics {
            println!("!! {} {}", d.slug, d.title);
        }
    }
}
