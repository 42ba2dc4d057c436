//! What a sheet says of each step: from facts, short, complete, in two languages.

use crate::workbench::example;
use fustian::cutting::WorkedSize;
use fustian::garment::{ActionTarget, CutHow};
use fustian::sewing::order::PlannedTarget;
use fustian::sheet::sentences::{MOST_WORDS, StepText, step_texts, words_in};
use fustian::sheet::{Facts, Figure, FigureKind, Language, Run, Text};
use fustian::source::MemoryLoader;
use fustian::syntax::tree::Verb;
use fustian::{Compiled, compile};
use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::sync::LazyLock;

/// All examples, by name.
fn names() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples");
    let entries = fs::read_dir(folder).expect("the examples");
    let mut names: Vec<String> = entries
        .filter_map(|entry| {
            let path = entry.expect("an entry").path();
            let is_garment = path.extension().is_some_and(|extension| extension == "fus");
            is_garment.then(|| path.file_stem().expect("a name").to_string_lossy().into_owned())
        })
        .filter(|name| name != "crew-library" && name != "crew-badge")
        .collect();
    names.sort();
    names
}

fn loader() -> MemoryLoader {
    let all = names();
    let libraries = ["crew-library", "crew-badge"].map(str::to_owned);
    all.iter()
        .chain(&libraries)
        .fold(MemoryLoader::new(), |loader, name| loader.with(&format!("{name}.fus"), example(name)))
}

/// What the steps of a compiled garment say, and what is asked of its facts.
pub fn with_texts<T>(compiled: &Compiled, language: Language, ask: impl Fn(&Facts, &[StepText]) -> T) -> T {
    let document = compiled.document().expect("a garment without mistakes");
    let sizes: Vec<&WorkedSize> = compiled.sizes.iter().collect();
    let facts = Facts::of(&compiled.garment, sizes, &document).expect("a size");
    let texts = step_texts(&facts, language);
    assert_eq!(texts.len(), facts.rows.len());
    ask(&facts, &texts)
}

pub fn compiled(name: &str) -> Compiled {
    compile(&loader(), &format!("{name}.fus"))
}

/// A text as it is read: `(3) Sleeve`, `[D]`, `14.8 to 18.9 cm`.
fn plain(text: &Text) -> String {
    let mut plain = String::new();
    for run in &text.0 {
        let _ = match run {
            Run::Words(words) | Run::Term(_, words) => write!(plain, "{words}"),
            Run::Piece(number, title) => match title {
                Some(title) => write!(plain, "({number}) {title}"),
                None => write!(plain, "({number})"),
            },
            Run::Letter(letter) => write!(plain, "[{letter}]"),
            Run::Sign(sign) => write!(plain, "<{sign}>"),
            Run::Figure(figure) => write!(plain, "{}", figured(figure)),
        };
    }
    plain
}

fn figured(figure: &Figure) -> String {
    let known = || figure.values.iter().flatten().copied();
    let least = known().fold(f64::INFINITY, f64::min);
    let most = known().fold(f64::NEG_INFINITY, f64::max);
    let range = |by: f64, unit: &str| {
        let written = |value: f64| format!("{}", (value * by * 10.0).round() / 10.0);
        match written(least) == written(most) {
            true => format!("{}{unit}", written(least)),
            false => format!("{} to {}{unit}", written(least), written(most)),
        }
    };
    match figure.kind {
        FigureKind::Length => range(0.1, " cm"),
        FigureKind::Small => range(1.0, " mm"),
        FigureKind::Count => range(1.0, ""),
        FigureKind::Share => range(100.0, " %"),
    }
}

/// A sheet's steps as they are read.
pub fn read(facts: &Facts, texts: &[StepText]) -> String {
    let mut read = String::new();
    let mut group = usize::MAX;
    for (row, text) in facts.rows.iter().zip(texts) {
        if row.group != group {
            group = row.group;
            let _ = writeln!(read, "== {}", facts.plan.groups[group].title);
        }
        let sentences: Vec<String> = text.sentences.iter().map(plain).collect();
        let _ = writeln!(read, "{}: {}", row.code, sentences.join("\n    "));
        if let Some(words) = &text.words {
            let _ = writeln!(read, "    \"{words}\"");
        }
        let facts: Vec<String> = text.facts.iter().map(plain).collect();
        if !facts.is_empty() {
            let _ = writeln!(read, "    | {}", facts.join(" | "));
        }
    }
    read
}

/// Every example, and every garment that the reference shows, by name.
fn garments() -> &'static [(String, Compiled)] {
    static ALL: LazyLock<Vec<(String, Compiled)>> = LazyLock::new(all_garments);
    &ALL
}

fn all_garments() -> Vec<(String, Compiled)> {
    let examples = names().into_iter().map(|name| {
        let compiled = compiled(&name);
        (name, compiled)
    });
    let shown = crate::reference::garments().into_iter();
    let shown: Vec<_> = shown.map(|(line, compiled)| (format!("reference, line {line}"), compiled)).collect();
    assert!(shown.len() > 30, "only {} garments of the reference", shown.len());
    examples.chain(shown).collect()
}

/// Nothing is told, or all of it.
fn none(told: &[String]) {
    assert!(told.is_empty(), "{}", told.join("\n"));
}

#[test]
fn each_step_has_a_sentence_or_the_makers_words() {
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        for &language in Language::ALL {
            told.extend(with_texts(compiled, language, |facts, texts| {
                let silent = facts.rows.iter().zip(texts);
                let silent = silent.filter(|(_, text)| text.sentences.is_empty() && text.words.is_none());
                let step = |(row, _): (&fustian::sheet::Row, _)| {
                    format!("{name}, {}: {} ({:?})", language.tag(), row.code, row.action(&facts.plan))
                };
                silent.map(step).collect::<Vec<_>>()
            }));
        }
    }
    none(&told);
}

#[test]
fn no_sentence_has_more_than_twenty_five_words() {
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        for &language in Language::ALL {
            told.extend(with_texts(compiled, language, |facts, texts| {
                let all = facts.rows.iter().zip(texts);
                let all = all.flat_map(|(row, text)| text.sentences.iter().map(move |one| (row, one)));
                let long = all.filter(|(_, sentence)| words_in(sentence) > MOST_WORDS);
                let long = long.map(|(row, one)| format!("{name}, {}: {}", row.code, plain(one)));
                long.collect::<Vec<_>>()
            }));
        }
    }
    none(&told);
}

/// No slot is left open and no term unmarked: what a language writes in braces and brackets is never read.
#[test]
fn no_sentence_shows_how_it_is_made() {
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        for &language in Language::ALL {
            told.extend(with_texts(compiled, language, |_, texts| {
                let all = texts.iter().flat_map(|text| text.sentences.iter().chain(&text.facts));
                let odd = |text: &String| {
                    let is_odd = text.contains(['{', '}', '[', ']', '|']) || text.contains("  ");
                    is_odd || text.contains(" :") || text.contains(" ,") || text.contains(" .")
                };
                // Letters stand in brackets here.
                let plain = |text: &Text| {
                    let without = |run: &Run| match run {
                        Run::Letter(letter) => Run::Words(letter.clone()),
                        other => other.clone(),
                    };
                    plain(&Text(text.0.iter().map(without).collect()))
                };
                let odd = all.map(plain).filter(odd).map(|text| format!("{name}: {text}"));
                odd.collect::<Vec<_>>()
            }));
        }
    }
    none(&told);
}

/// The words of a name as they are spoken, without a last word that says what it is.
fn spoken(name: &str, last: &str) -> String {
    let words = name.replace(['_', '.'], " ");
    match words.strip_suffix(last) {
        Some(before) if !before.trim().is_empty() => before.trim().to_owned(),
        _ => words,
    }
}

/// The number of the piece that a part of the document is cut by.
fn number(facts: &Facts, part: &str) -> usize {
    let is_it = |piece: &&fustian::sheet::NumberedPiece| {
        let mut names = piece.parts.iter().map(|own| facts.garment.part_name(Some(own.layer), own.piece));
        names.any(|name| name == part)
    };
    facts.pieces.iter().find(is_it).unwrap_or_else(|| panic!("{part} has a number")).number
}

/// An edge as a reader knows it: the number of its piece, and its name.
type Edge = (usize, String);

/// `outer.front.side` as a reader knows it.
fn edge(facts: &Facts, name: &str) -> Edge {
    let mut names = name.splitn(3, '.');
    let (layer, piece) = (names.next().expect("a layer"), names.next().expect("a piece"));
    // Of a run of an edge the edge.
    let edge = names.next().expect("an edge").split(' ').next().expect("its name");
    let part = format!("{layer}.{piece}");
    let pieces = facts.document.sizes[0].pieces.iter().filter(|own| own.part == part);
    let label = pieces.flat_map(|piece| &piece.edges).find(|own| own.name == edge);
    let label = label.and_then(|own| own.label.clone());
    (number(facts, &part), label.map_or_else(|| spoken(edge, " edge"), |label| spoken(&label, " edge")))
}

/// What the plan and `resolve`'s document say is sewn, in order: the letter, and the edges of both sides.
fn sewn_by_the_plan(facts: &Facts) -> Vec<(String, Vec<Edge>)> {
    let mut sewn = Vec::new();
    for row in &facts.rows {
        let action = row.action(&facts.plan).expect("an action");
        for target in row.targets(&facts.plan) {
            let ActionTarget::Seam(id) = target.target else { continue };
            if action.verb != Verb::Sew {
                continue;
            }
            let letter = facts.letters.letter(action, target).expect("a letter");
            let layer = action.layer.map(|layer| facts.garment.layer(layer).name.to_string());
            let name = &*facts.garment.seam(id).name;
            let seams = facts.document.sizes[0].seams.iter().filter(|seam| seam.name == name);
            let seams = seams.filter(|seam| layer.as_ref().is_none_or(|layer| seam.layers.contains(layer)));
            let sides = seams.flat_map(|seam| [&seam.first, &seam.second]);
            let runs = sides.flat_map(|side| &side.plies).flat_map(|ply| &ply.edges);
            let mut edges: Vec<Edge> = runs.map(|run| edge(facts, &run.edge)).collect();
            // A seam goes away where its pieces are joined.
            if edges.is_empty() {
                continue;
            }
            edges.sort();
            edges.dedup();
            sewn.push((letter, edges));
        }
    }
    sewn
}

/// What a reader who knows nothing but the sentences finds sewn, in order.
fn sewn_by_the_sentences(texts: &[StepText]) -> Vec<(String, Vec<Edge>)> {
    let mut sewn = Vec::new();
    for text in texts {
        let mut found: Option<(String, String, Vec<Edge>)> = None;
        for sentence in &text.sentences {
            let plain = plain(sentence);
            let begins = ["Sew the ", "Lap the ", "Fold at the fold line and sew the "];
            let begins = begins.into_iter().find(|begin| plain.starts_with(begin));
            let goes_on =
                ["On one side: ", "On the other side: ", "On the same side too: ", "Then likewise: "];
            match begins.filter(|_| plain.contains(" seam")) {
                Some(_) => {
                    // "left " and "right " are no part of the name.
                    let ends = |run: &Run| matches!(run, Run::Words(words) if words.starts_with(" seam"));
                    let at = sentence.0.iter().position(ends).expect("the word");
                    let Run::Words(name) = &sentence.0[at - 1] else { panic!("a name") };
                    let name = name.clone();
                    let letter = sentence.0.iter().find_map(|run| match run {
                        Run::Letter(letter) => Some(letter.clone()),
                        _ => None,
                    });
                    let edges = edges_of(sentence, &name, true);
                    let before = found.take().map_or_else(Vec::new, |(.., edges)| edges);
                    found = Some((letter.expect("a letter"), name, [before, edges].concat()));
                }
                None if goes_on.iter().any(|begin| plain.starts_with(begin)) => {
                    let (_, name, edges) = found.as_mut().expect("a seam before its sides");
                    edges.extend(edges_of(sentence, name, false));
                }
                None => {}
            }
        }
        if let Some((letter, _, mut edges)) = found {
            edges.sort();
            edges.dedup();
            sewn.push((letter, edges));
        }
    }
    sewn
}

/// The edges that a sentence names: "the cap edge of (3)", "the left and right edges"; of a seam that is called as its edges
/// are, the pieces alone.
fn edges_of(sentence: &Text, seam: &str, begins: bool) -> Vec<Edge> {
    // What stands before the letter names the seam.
    let after = sentence.0.iter().position(|run| matches!(run, Run::Letter(_)));
    let runs = &sentence.0[if begins { after.expect("a letter") } else { 0 }..];
    let mut edges: Vec<Edge> = Vec::new();
    let mut names: Vec<String> = Vec::new();
    let mut listed: Option<Vec<String>> = None;
    let mut piece = None;
    for run in runs {
        match run {
            Run::Words(words) => {
                let is_list = matches!(words.as_str(), ", " | " and ");
                // "the edge of (3)": it has no name but that.
                if words == " edge of " && listed.is_none() {
                    names = vec!["edge".to_owned()];
                } else if words.starts_with(" edge") {
                    names = listed.take().unwrap_or_default();
                    // "the left edge" of the piece that was named.
                    if let (false, Some(piece)) = (words.contains(" of "), piece) {
                        edges.extend(names.iter().map(|name| (piece, name.clone())));
                    }
                } else if words.ends_with("the ") || words.ends_with("both ") {
                    listed = Some(Vec::new());
                } else if let (Some(listed), false) = (&mut listed, is_list) {
                    listed.push(words.clone());
                }
            }
            Run::Piece(number, _) => {
                piece = Some(*number);
                listed = None;
                match names.is_empty() {
                    true => edges.push((*number, seam.to_owned())),
                    false => edges.extend(names.iter().map(|name| (*number, name.clone()))),
                }
            }
            _ => {}
        }
    }
    edges
}

/// Whether an edge is the fold that its piece is cut on, in one of the layers that it is cut in.
fn is_fold(facts: &Facts, (number, name): &Edge) -> bool {
    let parts = facts.pieces.iter().filter(|piece| piece.number == *number).flat_map(|piece| &piece.parts);
    let papers = parts.filter_map(|part| facts.sizes[0].drawn.paper(part.paper));
    let folds = papers.filter_map(|drawn| match drawn.cut {
        CutHow::OnFold(fold) => Some(facts.garment.edge(fold).name.to_string()),
        CutHow::Alike | CutHow::Mirrored => None,
    });
    folds.into_iter().any(|fold| fold == *name)
}

/// From the sentences alone: which edges are sewn, in which order; and that is what the plan says.
#[test]
fn a_reader_finds_the_edges_that_the_plan_sews() {
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        told.extend(with_texts(compiled, Language::English, |facts, texts| {
            let (mut read, planned) = (sewn_by_the_sentences(texts), sewn_by_the_plan(facts));
            // What is drawn as a half has on its other half the edge that the fold stands for: it is named too.
            for ((_, edges), (_, sewn)) in read.iter_mut().zip(&planned) {
                edges.retain(|edge| sewn.contains(edge) || !is_fold(facts, edge));
            }
            let other = read.iter().zip(&planned).find(|(read, planned)| read != planned);
            let other = other.map(|(read, planned)| format!("{name}: {read:?} and not {planned:?}"));
            other.or((read.len() != planned.len()).then(|| format!("{name}: {read:?} and not {planned:?}")))
        }));
    }
    none(&told);
}

/// Right sides together wherever two edges are sewn, of a French seam the second time; the right sides of a lapped one lie up.
#[test]
fn each_seam_says_how_its_sides_lie() {
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        let right = [
            (Language::English, ["right sides together", "right sides up"]),
            (Language::German, ["rechts auf rechts", "rechte Seiten oben"]),
        ];
        for (language, right) in right {
            told.extend(with_texts(compiled, language, |facts, texts| {
                let sews = |row: &fustian::sheet::Row| {
                    let is_seam = |target: &PlannedTarget| matches!(target.target, ActionTarget::Seam(_));
                    row.action(&facts.plan).is_some_and(|action| action.verb == Verb::Sew)
                        && row.targets(&facts.plan).iter().any(is_seam)
                };
                let done = |row: &fustian::sheet::Row| {
                    row.targets(&facts.plan).iter().any(|target| !target.jobs.is_empty())
                };
                let rows = facts.rows.iter().zip(texts).filter(|(row, _)| sews(row) && done(row));
                let all = rows.map(|(row, text)| {
                    let all: Vec<String> = text.sentences.iter().map(plain).collect();
                    (row, all.join(" "))
                });
                let silent = all.filter(|(_, text)| !right.iter().any(|words| text.contains(words)));
                silent.map(|(row, text)| format!("{name}, {}: {text}", row.code)).collect::<Vec<_>>()
            }));
        }
    }
    none(&told);
}

/// A skirt of 96 cm on a band of 64 cm, with a rib of 72 cm stretched to its hem of 96 cm.
const SKIRT: &str = r#"
garment "Galley skirt"
units cm
allowance 1
wearer adult
fabric cotton "galley cotton" { width 150 }
fabric rib "rib" { width 100; stretch 60% across }
layer outer in cotton { skirt, band }
layer knit in rib { hem_rib }
piece skirt "Skirt" { cut 1; outline rectangle 96 by 50 }
piece band "Band" { cut 1; outline rectangle 64 by 8; folded top to bottom }
piece hem_rib "Hem rib" { cut 1; outline rectangle 72 by 10; folded top to bottom }
seam join      skirt.left to skirt.right { allowance 1.5 }
seam band_join band.left to band.right
seam rib_join  hem_rib.left to hem_rib.right
seam waist     skirt.top to band.top and band.bottom  gathering 1.5..1.5 { matching skirt.top_left with band.top_left }
seam hem       knit.hem_rib.top and knit.hem_rib.bottom to outer.skirt.bottom  stretching 70%..80% { matching knit.hem_rib.top_left with outer.skirt.bottom_left }
"#;

/// All that is read of a text.
pub fn read_of(text: &str, language: Language) -> String {
    let compiled = compile(&MemoryLoader::new().with("a.fus", text), "a.fus");
    with_texts(&compiled, language, read)
}

/// By hand: 96 cm are gathered to 64; 96 - 72 = 24 cm are stretched; the join's allowance is its own.
#[test]
fn amounts_of_gathers_and_stretching_are_those_of_the_drawing() {
    let english = read_of(SKIRT, Language::English);
    for said in [
        "Gather (1) Skirt evenly to fit: 96 cm become 64 cm.",
        "Stretch (3) Hem rib (knit) evenly as you sew: the edge is shorter by 24 cm.",
        "The allowance is 1.5 cm here.",
        "1 seam | 50 cm long",
    ] {
        assert!(english.contains(said), "{said}\n{english}");
    }
    let german = read_of(SKIRT, Language::German);
    for said in
        ["(1) Skirt gleichmäßig einkräuseln: aus 96 cm werden 64 cm.", "Die Nahtzugabe ist hier 1.5 cm."]
    {
        assert!(german.contains(said), "{said}\n{german}");
    }
}

/// An inch of ease over the sleeve cap, as the smock says it: 2.54 cm in every size (1 in is 25.4 mm).
#[test]
fn the_cap_is_eased_by_what_the_smock_says() {
    with_texts(&compiled("deck-smock"), Language::English, |facts, texts| {
        let figures = texts.iter().flat_map(|text| &text.sentences).filter_map(|sentence| {
            let is_ease = plain(sentence).starts_with("Ease in");
            sentence.0.iter().find_map(|run| match run {
                Run::Figure(figure) if is_ease => Some(figure.clone()),
                _ => None,
            })
        });
        let all: Vec<Figure> = figures.collect();
        assert_eq!(all.len(), 1);
        assert_eq!(all[0].values.len(), facts.sizes.len());
        // The cap is solved for within a hundredth of a millimetre.
        assert!(all[0].values.iter().all(|value| (value.expect("a size") - 25.4).abs() < 0.05), "{all:?}");
    });
}

#[test]
fn what_a_maker_calls_things_is_words_and_no_more() {
    let long = "å".repeat(10_000);
    let text = SKIRT
        .replace(r#""Skirt""#, r#""<b>{what} [ease] & \"Skirt\"""#)
        .replace(r#""Band""#, &format!("{long:?}"));
    let compiled = compile(&MemoryLoader::new().with("a.fus", &*text), "a.fus");
    with_texts(&compiled, Language::English, |_, texts| {
        let titles: Vec<&String> = texts
            .iter()
            .flat_map(|text| &text.sentences)
            .flat_map(|sentence| &sentence.0)
            .filter_map(|run| match run {
                Run::Piece(_, Some(title)) => Some(title),
                _ => None,
            })
            .collect();
        assert!(titles.iter().any(|title| title.contains("<b>{what} [ease] &")), "{titles:?}");
        // 40 letters and a sign that more follows.
        assert!(titles.iter().all(|title| title.chars().count() <= 41));
        assert!(titles.iter().any(|title| title.ends_with('…')));
    });
}

#[test]
fn where_nothing_is_to_be_done_nothing_is_said() {
    let text = "garment \"Cloth\"\nunits cm\nallowance 1\nfabric cotton { width 150 }\nlayer outer in cotton { cloth }\n\
                piece cloth \"Cloth\" { cut 1; outline rectangle 30 by 30 }\n\
                finish cloth.left, cloth.right, cloth.top, cloth.bottom  raw\n";
    assert_eq!(read_of(text, Language::English), "");
}

/// Collar, stand and cuff are the fifth to the seventh piece of the shirt's cloth: to those the stay is fused, whatever
/// number its own pieces bear.
#[test]
fn what_is_fused_is_fused_to_the_pieces_of_the_cloth() {
    let said = with_texts(&compiled("purser-shirt"), Language::English, read);
    let fused = said.lines().find(|line| line.contains("Fuse")).expect("a step that fuses");
    assert!(fused.contains("(5) Collar, (6) Collar stand and (7) Cuff"), "{fused}");
}

/// What a stranger could not know: that a collar is turned before its edge is stitched, how a box pleat lies, which edge of a half
/// is meant, and when a slit is cut; a zip between two edges of cloth is not turned.
#[test]
fn what_lies_between_two_steps_is_said() {
    let shirt = with_texts(&compiled("purser-shirt"), Language::English, read);
    // The collar's seam says that it is turned, and the row beside it only what is stitched through.
    let line = |words: &str| shirt.lines().position(|line| line.contains(words)).expect("it is said");
    let (sewn, stitched) = (line("Sew the collar edge seam"), line("The stitches go through both layers."));
    let turned = line("Turn it right side out and press the edge.");
    assert!(sewn <= turned && turned < stitched, "{shirt}");
    assert!(shirt.contains("its two folds lead away from each other"), "{shirt}");
    assert!(shirt.contains("both end edges of (6) Collar stand"), "{shirt}");
    // Yoke and back are stitched beside a seam, and nothing is turned.
    assert_eq!(shirt.matches("First turn").count(), 0, "{shirt}");
    assert_eq!(shirt.matches("through both layers").count(), 1, "{shirt}");
    let trousers = with_texts(&compiled("mate-trousers-jetted"), Language::English, read);
    assert_eq!(trousers.matches("Now cut the pocket slit of (2) Back open").count(), 1, "{trousers}");
    let jacket = with_texts(&compiled("deck-jacket"), Language::English, read);
    assert!(!jacket.contains("First turn"), "{jacket}");
}

/// Every figure of a sentence or a fact stands in what `resolve` writes, in each size.
#[test]
fn every_figure_is_in_the_document() {
    fn numbers(value: &serde_json::Value, found: &mut std::collections::BTreeSet<i64>) {
        match value {
            serde_json::Value::Number(number) => {
                // A difference is told without its sign.
                found.insert((number.as_f64().expect("a number").abs() * 100.0).round() as i64);
            }
            serde_json::Value::Array(all) => all.iter().for_each(|one| numbers(one, found)),
            serde_json::Value::Object(all) => all.values().for_each(|one| numbers(one, found)),
            _ => {}
        }
    }
    let mut told = Vec::new();
    for (name, compiled) in garments() {
        told.extend(with_texts(compiled, Language::English, |facts, texts| {
            let mut unknown = Vec::new();
            for (at, size) in facts.document.sizes.iter().enumerate() {
                let mut known = std::collections::BTreeSet::new();
                numbers(&serde_json::to_value(size).expect("a document"), &mut known);
                for (row, text) in facts.rows.iter().zip(texts) {
                    let runs = text.sentences.iter().chain(&text.facts).flat_map(|one| &one.0);
                    for run in runs {
                        let Run::Figure(figure) = run else { continue };
                        let is_length = matches!(figure.kind, FigureKind::Length | FigureKind::Small);
                        let Some(value) = figure.values[at].filter(|_| is_length) else { continue };
                        let hundredths = (value * 100.0).round() as i64;
                        if !(-1..=1).any(|off| known.contains(&(hundredths + off))) {
                            let all: Vec<String> = text.sentences.iter().map(plain).collect();
                            unknown.push(format!("{name}, {}, {}: {value} mm: {all:?}", size.size, row.code));
                        }
                    }
                }
            }
            unknown
        }));
    }
    none(&told);
}

/// Two bags that hang on parts of the side: 8 cm of its 40 cm, beginning 4 cm below its upper end.
const SIDE_BAGS: &str = r#"
garment "Oilskin flaps"
units cm
allowance 1
fabric oilskin "oilskin" { width 150 }
layer outer in oilskin { front, back, bag, lid }
piece front "Front" { cut 1; outline rectangle 30 by 40 }
piece back "Back" { cut 1; outline rectangle 30 by 40 }
piece bag "Bag" { cut 1; outline rectangle 12 by 8 }
piece lid "Lid" { cut 1; outline rectangle 12 by 8 }
seam front_bag  bag.left to front.right 4..12 from top_right { matching bag.top_left with front.right.near }
seam back_bag   lid.right to back.left 4..12 from top_left { matching lid.top_right with back.left.near }
seam side       front.right to back.left { matching front.top_right with back.top_left }
seam round      bag.top + bag.right + bag.bottom to lid.top + lid.left + lid.bottom { matching bag.top_left with lid.top_right }
finish front.top, front.left, front.bottom, back.top, back.right, back.bottom  overlocked
steps { "All" { sew front_bag, back_bag, side, round } }
"#;

/// By hand: of 40 cm 4 cm lie above the bag, and 40 - 12 = 28 cm below it.
#[test]
fn where_a_part_of_an_edge_lies_is_said() {
    let english = read_of(SIDE_BAGS, Language::English);
    for said in [
        "On the right edge of (1) Front: 8 cm, beginning 4 cm beyond ‘top right’.",
        "On the left edge of (2) Back: 8 cm, beginning 4 cm beyond ‘top left’.",
        "On the right edge of (1) Front: 4 cm, from ‘top right’ on.",
        "On the right edge of (1) Front: 28 cm, beginning 12 cm beyond ‘top right’.",
    ] {
        assert!(english.contains(said), "{said}\n{english}");
    }
    let german = read_of(SIDE_BAGS, Language::German);
    let said = "Auf Kante „right“ von (1) Front: 8 cm, beginnend 4 cm hinter „top right“.";
    assert!(german.contains(said), "{said}\n{german}");
    // An edge that is sewn whole is told of as before.
    let skirt = read_of(SKIRT, Language::English);
    assert!(!skirt.contains("’ on.") && !skirt.contains(" beyond ‘"), "{skirt}");
}

/// A tube of two pieces: sewn first, its hem is one ring, and its bound top another; hemmed first, it has two edges.
#[test]
fn what_is_finished_in_one_go_is_counted_once() {
    let tube = |steps: &str| {
        format!(
            "garment \"Funnel cover\"\nunits cm\nallowance 1\nfabric drill {{ width 150 }}\n\
             layer outer in drill {{ front, back }}\n\
             piece front \"Front\" {{ cut 1; outline rectangle 30 by 40 }}\n\
             piece back \"Back\" {{ cut 1; outline rectangle 30 by 40 }}\n\
             seam one front.left to back.right {{ matching front.top_left with back.top_right }}\n\
             seam other front.right to back.left {{ matching front.top_right with back.top_left }}\n\
             finish front.bottom, back.bottom  overlocked\n\
             finish front.top, back.top  overlocked\n\
             steps {{ \"All\" {{ {steps} }} }}\n"
        )
    };
    let sewn = "sew one, other; finish front.bottom, back.bottom; finish front.top, back.top";
    let sewn = read_of(&tube(sewn), Language::English);
    assert_eq!(sewn.matches("| all round").count(), 2, "{sewn}");
    let half = "sew one; finish front.bottom, back.bottom; finish front.top, back.top; sew other";
    let half = read_of(&tube(half), Language::English);
    assert_eq!(half.matches("| 2 edges in one go").count(), 2, "{half}");
    let flat = "finish front.bottom, back.bottom; finish front.top, back.top; sew one, other";
    let flat = read_of(&tube(flat), Language::English);
    assert_eq!(flat.matches("| 2 edges\n").count(), 2, "{flat}");
}

/// The back's two halves are joined first, and its neck is sewn to its lining in one go: once, 20 cm on each side. Sewn before
/// that, it is two seams.
#[test]
fn a_seam_that_runs_on_over_another_is_sewn_once() {
    let cape = |steps: &str| {
        format!(
            "garment \"Watch cape\"\nunits cm\nallowance 1\nfabric drill {{ width 150 }}\n\
             layer outer in drill {{ half }}\nlayer inner in drill {{ half }}\n\
             piece half \"Half\" {{ cut 2 mirrored; outline rectangle 20 by 40 }}\n\
             seam centre half.left to half.left\n\
             seam neck outer.half.top to inner.half.top\n\
             finish half.right, half.bottom  overlocked\n\
             steps {{ \"All\" {{ {steps} }} }}\n"
        )
    };
    let first = read_of(&cape("sew centre, neck"), Language::English);
    assert!(
        first.contains("Sew the neck seam [")
            && first.contains("| 1 cm allowance | 1 seam | 20 cm on each side"),
        "{first}"
    );
    let last = read_of(&cape("sew neck, centre"), Language::English);
    assert!(last.contains("Sew the neck seams [") && last.contains("| 2 seams | 20 cm each"), "{last}");
}

/// Three tucks, 3 cm apart, run from the side to the fold and go on over the other half: each is there once.
#[test]
fn a_tuck_over_the_fold_is_sewn_once() {
    let text = "garment \"Galley bib\"\nunits cm\nallowance 1\nfabric drill { width 150 }\n\
                layer outer in drill { bib }\n\
                piece bib \"Bib\" {\n cut 1 on fold left\n outline rectangle 20 by 40\n line level across at (0, 20)\n\
                tuck rows on right at 10 from bottom_right depth 1 count 3 apart 3 toward bottom to left along level\n}\n\
                finish bib.right, bib.top, bib.bottom  overlocked\n\
                steps { \"All\" { sew bib.rows } }\n";
    let english = read_of(text, Language::English);
    assert!(english.contains("| 3 folds | 3 cm from fold to fold | folds 1 cm deep"), "{english}");
    assert!(!english.contains("2 times"), "{english}");
}
