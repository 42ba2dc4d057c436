//! Which files are walked, as part of which garment they are compiled, and what those are made of.

use fustian::compile;
use fustian::emit::document;
use fustian::source::MemoryLoader;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// A file whose statements are changed, and the garment that is then compiled, in one size.
#[derive(Clone, Copy, Debug)]
pub struct Walked {
    pub file: &'static str,
    pub garment: &'static str,
    pub size: &'static str,
}

/// A garment of one file, or a variation.
pub const fn own(file: &'static str, size: &'static str) -> Walked {
    Walked { file, garment: file, size }
}

/// A file that is a part of a garment.
pub const fn part_of(file: &'static str, garment: &'static str) -> Walked {
    Walked { file, garment, size: "M" }
}

/// Every example, by its file's name.
static EXAMPLES: LazyLock<Vec<(String, String)>> = LazyLock::new(|| {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let paths = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let garments = paths.filter(|path| path.extension().is_some_and(|extension| extension == "fus"));
    let named = garments.map(|path| {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        (name, fs::read_to_string(path).unwrap())
    });
    named.collect()
});

/// The names of all examples, without ".fus".
pub fn examples() -> Vec<String> {
    EXAMPLES.iter().map(|(name, _)| name.trim_end_matches(".fus").to_owned()).collect()
}

impl Walked {
    pub fn text(self) -> &'static str {
        let name = format!("{}.fus", self.file);
        &EXAMPLES.iter().find(|(other, _)| *other == name).expect("an example").1
    }

    /// Every example, this one changed, and the garment in its one size.
    fn loader(self, text: &str) -> MemoryLoader {
        let own = format!("{}.fus", self.file);
        let all = EXAMPLES.iter().fold(MemoryLoader::new(), |loader, (name, unchanged)| {
            loader.with(name, if *name == own { text.to_owned() } else { unchanged.clone() })
        });
        let one = format!("variation \"One size\" of \"{}.fus\"\nsizes {}\n", self.garment, self.size);
        all.with("one.fus", one)
    }

    /// What is said of it, of whatever severity.
    pub fn said(self, text: &str) -> Vec<String> {
        let compiled = compile(&self.loader(text), "one.fus");
        compiled.diagnostics.iter().map(|one| format!("{}: {}", one.slug(), one.title)).collect()
    }
}

/// What an unchanged garment is made of: its layers, by piece its edges and its layers, by seam the ends that meet.
pub struct Facts {
    pub edges: BTreeMap<String, Vec<String>>,
    pub layers: BTreeMap<String, Vec<String>>,
    pub ends: BTreeMap<(String, Vec<String>), Vec<[String; 2]>>,
}

impl Facts {
    pub fn of(walked: Walked) -> Facts {
        let compiled = compile(&walked.loader(walked.text()), "one.fus");
        let json =
            serde_json::to_value(document(&compiled.garment, &compiled.sizes, &compiled.map, &[])).unwrap();
        let size = &json["sizes"][0];
        let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
        let mut facts = Facts { edges: BTreeMap::new(), layers: BTreeMap::new(), ends: BTreeMap::new() };
        for piece in size["pieces"].as_array().unwrap() {
            let part = text(&piece["part"]);
            let (layer, name) = part.split_once('.').unwrap();
            let edges = piece["edges"].as_array().unwrap().iter().map(|edge| text(&edge["name"])).collect();
            facts.edges.insert(name.to_owned(), edges);
            let layers = facts.layers.entry(name.to_owned()).or_default();
            if !layers.iter().any(|own| own == layer) {
                layers.push(layer.to_owned());
            }
        }
        for seam in size["seams"].as_array().unwrap() {
            let layers = seam["layers"].as_array().unwrap().iter().map(text).collect();
            let ends = seam["ends"]
                .as_array()
                .unwrap()
                .iter()
                .map(|pair| [text(&pair[0]["corner"]), text(&pair[1]["corner"])]);
            facts.ends.insert((text(&seam["name"]), layers), ends.collect());
        }
        facts
    }
}
